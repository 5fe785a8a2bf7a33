//! The wind that a planned hole holds, as a share of the wind that acts on it.
//!
//! The wind of every load case is multiplied by one factor, dead load stays, and
//! the whole check is made again: the share is the greatest factor that passes. A
//! pressure scales with it, and a speed with its square root where the coefficients
//! of the code do not depend on the speed.

use super::Schedule;
use crate::actions::{LoadCaseKind, LoadCases};
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::fence::FencePost;
use crate::limit_state::AllowableStress;
use crate::units::{Length, Measurable, Pressure};
use crate::utilization::Utilization;
use crate::wind::WindCode;

/// The greatest factor tried.
const MOST: f64 = 100.0;
/// The least factor tried.
const LEAST: f64 = 1e-3;

/// The wind a planned hole holds, with every check of its post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct WindHeld {
    /// The greatest factor on the wind of the site at which every check of the post
    /// passes, 0.001 to 100: 0.8 is 80 % of the demand. 0 where the post fails without
    /// wind.
    pub share: f64,
    /// The mean wind pressure on the gross tributary area of the post, gates shut, in
    /// the load case across a run where it is greatest; at the limit state of the wind
    /// code. None where no such case acts.
    pub demand: Option<Pressure>,
    /// The same pressure times the share: what the hole holds.
    pub pressure: Option<Pressure>,
    /// The check that governs at that share; the check that fails where the share is 0.
    pub governing: Governing,
    /// Its utilization there.
    pub utilization: Utilization,
}

impl<C: WindCode> Schedule<'_, C>
where
    C::Level: CombinesTo<AllowableStress>,
{
    /// Returns the wind that one post, by its number, holds at its planned depth.
    ///
    /// # Errors
    /// No post of that number; a post without a planned depth; an optional check that
    /// cannot be made.
    ///
    /// ```
    /// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::*};
    /// use groundline::{limit_state::AllowableStress, post::*, section::Tube, units::*, wind::*};
    /// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(64.0), ft(8.0))?);
    /// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.16))?, SteelStrength::new(ksi(50.0))?)?;
    /// # let ground = Ground::presumptive(SoilClass::Class4);
    /// # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
    /// let wind = DirectPressure::new(psf(20.0), AllowableStress::Basic)?;
    /// let plan = FencePlan::new(wind, fence, design).with_planned_depth(inch(30.0));
    /// let held = plan.schedule()?.wind_held(2)?;
    /// assert!((held.demand.unwrap().to(psf) - 20.0).abs() < 1e-9);
    /// // A hole of 30 in holds less than half of 20 psf here.
    /// assert!(held.share < 0.5 && held.pressure.unwrap() < psf(10.0));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn wind_held(&self, number: usize) -> Result<WindHeld, Error> {
        let post = self.fence_post(number)?;
        let (design, planned) = self.plan.design_for(post);
        if planned.is_none() {
            return Err(Error::NotApplicable {
                field: "planned depth",
                reason: "the wind held is that of a planned hole; give the post a depth",
            });
        }
        let cases = self.wind.cases(post);
        let at = |factor: f64| {
            let checked = self.check_as(post, design, planned, cases.with_wind_times(factor)?)?;
            match checked.site.unchecked().next() {
                Some(error) => Err(*error),
                None => Ok((checked.passes(), checked.governing(), checked.utilization())),
            }
        };
        let (mut good, mut bad) = (None, None);
        let mut factor = 1.0;
        while good.is_none() || bad.is_none() {
            if at(factor)?.0 {
                good = Some(factor);
                if factor >= MOST {
                    break;
                }
                factor = (factor * 2.0).min(MOST);
            } else {
                bad = Some(factor);
                if factor <= LEAST {
                    break;
                }
                factor = (factor * 0.5).max(LEAST);
            }
        }
        let demand = self.tributary_pressure(post, &cases);
        let share = match (good, bad) {
            (Some(mut good), Some(mut bad)) => {
                // Forty halvings: to a billionth of a billionth of the bracket.
                for _ in 0..40 {
                    let middle = 0.5 * (good + bad);
                    if at(middle)?.0 {
                        good = middle;
                    } else {
                        bad = middle;
                    }
                }
                good
            }
            (Some(good), None) => good,
            (None, _) => 0.0,
        };
        let (_, governing, utilization) = at(share.max(LEAST))?;
        Ok(WindHeld {
            share,
            demand,
            pressure: demand.map(|demand| demand * share),
            governing,
            utilization,
        })
    }

    /// The greatest mean pressure on the tributary area of a post, gates shut.
    fn tributary_pressure(
        &self,
        post: &FencePost,
        cases: &LoadCases<C::Level>,
    ) -> Option<Pressure> {
        let shut = |kind| kind == LoadCaseKind::AcrossRun;
        cases
            .iter()
            .filter(|case| shut(case.kind))
            .filter_map(|case| {
                let run = self.plan.fence.runs().get(case.run)?;
                let arms = post.arms().filter(|arm| arm.run == case.run);
                let width = arms.fold(Length::default(), |sum, arm| sum + arm.width());
                let area = width * run.panel().height();
                (area.value > 0.0).then(|| case.wind.shear().abs() / area)
            })
            .fold(None, |most: Option<Pressure>, next| {
                Some(most.map_or(next, |most| if next > most { next } else { most }))
            })
            .filter(|pressure| pressure.si().is_finite())
    }
}
