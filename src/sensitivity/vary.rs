//! A plan with one input multiplied.

use super::input::Input;
use crate::backwards::VariedWind;
use crate::check::PostDesign;
use crate::error::{Error, number_within, size_within};
use crate::fence::{FenceRun, Panel};
use crate::ground::LateralBearing;
use crate::plan::FencePlan;
use crate::units::{Length, Measurable, ft};
use crate::wind::Infill;

/// The least factor on an input.
const LEAST: f64 = 1e-3;
/// The greatest factor on an input.
const MOST: f64 = 1e3;

/// The same plan with an input multiplied by a factor, built anew through
/// validating constructors.
///
/// ```
/// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
/// use groundline::{post::*, section::Tube, sensitivity::*, units::*, wind::*};
/// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
/// # let v = BasicWindSpeed::strength_level(mph(100.0))?;
/// # let site = AsceSite::new(Edition::Asce7_22, v, Exposure::C);
/// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
/// # let ground = Ground::presumptive(SoilClass::Class4);
/// # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
/// let plan = FencePlan::new(site, fence, design).with_planned_depth(ft(5.0));
/// let windier = vary(&plan, Input::WindSpeed, 1.15)?;
/// assert!((windier.site().speed().speed().to(mph) - 115.0).abs() < 1e-9);
/// assert!(vary(&plan, Input::WindSpeed, 4.0).is_err());
/// # Ok::<(), groundline::Error>(())
/// ```
///
/// # Errors
/// A factor outside 0.001 to 1 000; a plan without such an input; a value out of
/// its range, as its constructor says.
pub fn vary<C: VariedWind>(
    plan: &FencePlan<C>,
    input: Input,
    factor: f64,
) -> Result<FencePlan<C>, Error> {
    let factor = number_within("factor", factor, LEAST, MOST)?;
    if input.values(plan).is_empty() {
        return Err(Error::NotApplicable {
            field: input.name(),
            reason: input.absence(),
        });
    }
    multiply(plan, input, factor)
}

/// The factors that an input of a plan may be multiplied by alone, least and
/// greatest, within 0.001 to 1 000: found by halving, to a billionth, all between taken
/// as allowed.
///
/// # Errors
/// As [`vary`] by 1.
pub fn allowed_factors<C: VariedWind>(
    plan: &FencePlan<C>,
    input: Input,
) -> Result<(f64, f64), Error> {
    vary(plan, input, 1.0)?;
    let edge = |far: f64| {
        if multiply(plan, input, far).is_ok() {
            return far;
        }
        // In the logarithm; what counts is the inner end.
        let (mut good, mut bad) = (0.0, far.ln());
        // ln 1 000 halved so often is below 1e-12.
        for _ in 0..43 {
            let middle = 0.5 * (good + bad);
            if multiply(plan, input, middle.exp()).is_ok() {
                good = middle;
            } else {
                bad = middle;
            }
        }
        good.exp()
    };
    Ok((edge(LEAST), edge(MOST)))
}

/// [`vary`], where the plan is known to have the input.
pub(super) fn multiply<C: VariedWind>(
    plan: &FencePlan<C>,
    input: Input,
    factor: f64,
) -> Result<FencePlan<C>, Error> {
    let plan = plan.clone();
    match input {
        Input::WindSpeed | Input::WindPressure => {
            let site = *plan.site();
            let intensity = C::Intensity::from_si(site.intensity().si() * factor);
            Ok(plan.with_site(site.with_intensity(intensity)?))
        }
        Input::PostSpacing => runs(plan, |run| run.with_bays_by(factor)),
        Input::PanelHeight => panels(plan, |panel| panel.with_top(panel.top() * factor)),
        Input::Clearance => panels(plan, |panel| {
            panel.with_clearance(panel.clearance() * factor)
        }),
        Input::PanelWeight => panels(plan, |panel| panel.with_weight(panel.weight() * factor)),
        Input::Solidity => panels(plan, |panel| {
            let infill = panel.infill();
            Ok(match infill.given_solidity() {
                Some(solidity) => {
                    panel.with_infill(Infill::given(solidity * factor, infill.member())?)
                }
                None => panel,
            })
        }),
        _ => plan.changing_designs(|design, planned| redesigned(&design, planned, input, factor)),
    }
}

fn runs<C: VariedWind>(
    plan: FencePlan<C>,
    mut change: impl FnMut(FenceRun) -> Result<FenceRun, Error>,
) -> Result<FencePlan<C>, Error> {
    let fence = plan.fence().changing_runs(&mut change)?;
    Ok(plan.with_fence(fence))
}

fn panels<C: VariedWind>(
    plan: FencePlan<C>,
    change: impl Fn(Panel) -> Result<Panel, Error>,
) -> Result<FencePlan<C>, Error> {
    runs(plan, |run| {
        let panel = change(*run.panel())?;
        Ok(run.with_panel(panel))
    })
}

fn redesigned(
    design: &PostDesign,
    planned: Option<Length>,
    input: Input,
    factor: f64,
) -> Result<(PostDesign, Option<Length>), Error> {
    let (same, ground) = (*design, *design.ground());
    if let Some(property) = input.property() {
        // One design may have the property and another not.
        return Ok(match design.post().property(property) {
            Some(_) => (
                design.with_post(design.post().scaled(property, factor)?)?,
                planned,
            ),
            None => (same, planned),
        });
    }
    Ok(match input {
        Input::LateralBearing => {
            let lateral = LateralBearing::new(ground.lateral().per_depth() * factor)?;
            (design.in_ground(ground.with_lateral(lateral)), planned)
        }
        Input::VerticalPressure => match ground.vertical() {
            Some(vertical) => {
                let ground = ground.with_vertical_pressure(vertical * factor)?;
                (design.in_ground(ground), planned)
            }
            None => (same, planned),
        },
        Input::DiscountedTop => {
            let ground = ground.discounting_top(ground.discounted_top() * factor)?;
            (design.in_ground(ground), planned)
        }
        Input::HoleSize => match design.foundation().hole() {
            Some(hole) => {
                let hole = hole.resized(hole.size() * factor)?;
                (design.in_hole(hole)?, planned)
            }
            None => (same, planned),
        },
        Input::PlannedDepth => {
            let depth = |depth: Length| size_within("depth", depth * factor, ft(0.01), ft(300.0));
            (same, planned.map(depth).transpose()?)
        }
        _ => (same, planned),
    })
}
