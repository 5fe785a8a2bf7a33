//! Every input of a plan, one at a time.

use super::band::Band;
use super::effect::{Effect, Trial};
use super::input::Input;
use super::point::{Point, outcome};
use super::vary::{multiply, vary};
use crate::backwards::VariedWind;
use crate::caution::{Caution, Cautions};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;

/// What every input of a plan does, one at a time.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Sensitivity {
    /// How far and how finely inputs were varied.
    pub band: Band,
    /// The plan as it is.
    pub base: Point,
    /// The inputs it has, in the order of the load path.
    pub effects: Vec<Effect>,
    /// The inputs it does not have, and why.
    pub absent: Vec<(Input, Error)>,
    /// Has every post a planned depth? Where one has none, its ground is used up
    /// exactly by construction and does not count in the utilization: look at the
    /// elasticity of the required depth.
    pub every_depth_planned: bool,
    /// How often the fence was checked.
    pub evaluations: u32,
    cautions: Cautions,
}

impl Sensitivity {
    /// What an input does, if the plan has it.
    pub fn effect(&self, input: Input) -> Option<&Effect> {
        self.effects.iter().find(|effect| effect.input == input)
    }

    /// The inputs by the size of their elasticity, the greatest first; those without
    /// one last. Of a one-sided elasticity the greater side counts.
    pub fn by_influence(&self) -> Vec<&Effect> {
        self.ranked(|effect| effect.elasticity.influence())
    }

    /// The same, by the elasticity of the required depth.
    pub fn by_influence_on_depth(&self) -> Vec<&Effect> {
        self.ranked(|effect| effect.depth_elasticity.influence())
    }

    fn ranked(&self, influence: impl Fn(&Effect) -> Option<f64>) -> Vec<&Effect> {
        let mut effects: Vec<_> = self.effects.iter().collect();
        // Without one below every other, which is 0 or more. Stable: ties stay in the
        // order of the load path.
        let of = |effect: &Effect| influence(effect).unwrap_or(-1.0);
        effects.sort_by(|a, b| of(b).total_cmp(&of(a)));
        effects
    }

    /// The cautions of the plan, and that inputs were varied one at a time.
    pub const fn cautions(&self) -> Cautions {
        self.cautions
    }
}

/// Varies every input of a plan, one at a time, and checks the whole fence forwards
/// for each value: five a side over the band, and two more for the slope at the
/// plan.
///
/// # Errors
/// Where the plan itself cannot be checked, what was asked for beside it
/// ([`SiteChecks`](crate::check::SiteChecks)) included. A varied plan that cannot is
/// told in its [`Effect`].
///
/// ```
/// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
/// use groundline::{limit_state::AllowableStress, post::*, section::Tube, sensitivity::*};
/// use groundline::{units::*, wind::*};
/// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
/// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
/// # let ground = Ground::presumptive(SoilClass::Class4);
/// # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
/// let wind = DirectPressure::new(psf(16.0), AllowableStress::Basic)?;
/// // No planned depth: how deep it must go is what moves.
/// let found = sensitivity(&FencePlan::new(wind, fence, design), Band::default())?;
/// assert!(!found.every_depth_planned);
/// for effect in found.by_influence_on_depth() {
///     println!("{}: {}", effect.input, effect.depth_elasticity);
/// }
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn sensitivity<C: VariedWind>(plan: &FencePlan<C>, band: Band) -> Result<Sensitivity, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let base = outcome(plan)?;
    let mut found = Sensitivity {
        band,
        base: base.point,
        effects: Vec::new(),
        absent: Vec::new(),
        every_depth_planned: base.planned,
        evaluations: 1,
        cautions: base.cautions.with(Caution::OneAtATime),
    };
    for input in Input::ALL {
        if let Err(error) = vary(plan, input, 1.0) {
            found.absent.push((input, error));
            continue;
        }
        let mut effect = Effect::new(input, input.value(plan), base.point, band);
        for factor in band.factors() {
            let point = if factor.total_cmp(&1.0).is_eq() {
                Ok(base.point)
            } else {
                found.evaluations += 1;
                multiply(plan, input, factor)
                    .and_then(|plan| outcome(&plan))
                    .map(|outcome| outcome.point)
            };
            effect.trials.push(Trial { factor, point });
        }
        found.effects.push(effect.concluded(band));
    }
    Ok(found)
}
