//! Inputs at random: how the utilization of a plan spreads.
//!
//! Each sample multiplies its inputs by ratios drawn from the user's distributions,
//! builds the plan anew and checks every post. The caller supplies the random
//! numbers; nothing here is random.
//!
//! **This is no reliability analysis to a code.** Inputs are independent, each with
//! one ratio for the whole fence; the errors of the formulas and of workmanship, and
//! what changes from post to post, are left out; allowable stresses and code wind
//! already hold margins. The share above 1 is of a check with its margins, not of
//! fences that fall.

use super::distribution::Distribution;
use super::input::Input;
use super::point::outcome;
use super::proportion::Proportion;
use super::vary::{allowed_factors, multiply};
use crate::backwards::VariedWind;
use crate::caution::{Caution, Cautions};
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::error::{Error, number_within};
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::utilization::Utilization;
use std::collections::BTreeMap;

/// The least share of a distribution that must be within the allowed range.
const LEAST_LEFT: f64 = 1e-3;

/// A distribution cut to the range its input may have.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Truncation {
    /// The input.
    pub input: Input,
    /// Its distribution, as given.
    pub distribution: Distribution,
    /// The least ratio allowed.
    pub least: f64,
    /// The greatest ratio allowed.
    pub most: f64,
    /// The share of the distribution below, cut off.
    pub below: f64,
    /// The share of the distribution above, cut off.
    pub above: f64,
}

impl Truncation {
    /// The share cut off; what is left counts as all of it, so nothing is known of what
    /// was cut off.
    pub fn cut(&self) -> f64 {
        self.below + self.above
    }
}

/// How the utilization of a plan spreads.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Uncertainty {
    /// The inputs with their distributions and what was cut off.
    pub inputs: Vec<Truncation>,
    /// How many samples were asked for.
    pub samples: u32,
    /// Samples that could not be built or checked: inputs that are allowed one by one
    /// and not together.
    pub not_built: u32,
    /// Why the first of them could not.
    pub first_refusal: Option<Error>,
    /// Samples for which a random number was not between 0 and 1.
    pub without_number: u32,
    /// Samples with a utilization above 1.
    pub exceeding: u32,
    /// Samples without any capacity; their utilization counts as 10⁶, in the mean too.
    pub without_capacity: u32,
    /// The mean utilization of the samples checked.
    pub mean: Option<f64>,
    /// Its standard deviation, from two samples on.
    pub deviation: Option<f64>,
    governed: BTreeMap<(usize, Governing), u32>,
    /// Ascending.
    sorted: Vec<Utilization>,
    cautions: Cautions,
}

impl Uncertainty {
    /// How many samples were checked.
    pub fn evaluated(&self) -> u32 {
        self.samples - self.not_built - self.without_number
    }

    /// The share of all that could happen that the cuts leave out: 1 − Π (1 − cut).
    /// Nothing is known of it; [`Uncertainty::probability`] is of the rest, and where
    /// the strong end of a wind is cut off the truth is worse.
    pub fn cut_off(&self) -> f64 {
        let left: f64 = self.inputs.iter().map(|cut| 1.0 - cut.cut()).product();
        1.0 - left
    }

    /// The share of the samples checked that is above 1; none where none was.
    pub fn probability(&self) -> Option<Proportion> {
        Proportion::new(self.exceeding, self.evaluated()).ok()
    }

    /// The same, with samples that could not be built counted as above 1.
    pub fn probability_if_unbuilt_fail(&self) -> Option<Proportion> {
        let count = self.exceeding + self.not_built;
        Proportion::new(count, self.evaluated() + self.not_built).ok()
    }

    /// The least utilization that this share of the samples checked does not exceed.
    ///
    /// # Errors
    /// Share outside 0 to 1; no sample was checked.
    pub fn quantile(&self, share: f64) -> Result<Utilization, Error> {
        let share = number_within("share", share, 0.0, 1.0)?;
        let rank = (share * f64::from(self.evaluated())).ceil();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative, at most the number of samples"
        )]
        let index = (rank as usize).saturating_sub(1);
        self.sorted.get(index).copied().ok_or(Error::NotApplicable {
            field: "samples",
            reason: "none could be checked",
        })
    }

    /// In how many samples a check governed.
    pub fn governed_by(&self, check: Governing) -> u32 {
        let of_check = |entry: &(&(usize, Governing), &u32)| entry.0.1 == check;
        self.governed
            .iter()
            .filter(of_check)
            .map(|entry| entry.1)
            .sum()
    }

    /// Post, check and in how many samples they governed, the most often first.
    pub fn governed(&self) -> Vec<(usize, Governing, u32)> {
        let mut all: Vec<_> = self
            .governed
            .iter()
            .map(|((post, check), count)| (*post, *check, *count))
            .collect();
        all.sort_by_key(|entry| core::cmp::Reverse(entry.2));
        all
    }

    /// The cautions of plan and samples, and that this is no reliability analysis to a
    /// code.
    pub const fn cautions(&self) -> Cautions {
        self.cautions
    }

    fn count(&mut self, post: usize, governing: Governing, utilization: Utilization) {
        *self.governed.entry((post, governing)).or_default() += 1;
        self.exceeding += u32::from(!utilization.passes());
        self.without_capacity += u32::from(utilization == Utilization::NO_CAPACITY);
        self.sorted.push(utilization);
    }

    fn concluded(mut self) -> Self {
        self.sorted.sort_unstable();
        let n = f64::from(self.evaluated());
        if n >= 1.0 {
            let sum: f64 = self.sorted.iter().map(|u| u.ratio()).sum();
            let mean = sum / n;
            self.mean = Some(mean);
            if n >= 2.0 {
                let squares: f64 = self.sorted.iter().map(|u| (u.ratio() - mean).powi(2)).sum();
                self.deviation = Some((squares / (n - 1.0)).sqrt());
            }
        }
        self
    }
}

/// Checks a plan for samples of its inputs.
///
/// `random` gives independent numbers between 0 and 1, neither included, one for each
/// input in the order given, sample by sample; a low-discrepancy sequence, point by
/// point, does too, though its error is smaller then than the interval of
/// [`Uncertainty::probability`]. Each distribution is cut to the range
/// ([`allowed_factors`]) that its input may have alone. Inputs are multiplied in the
/// order given; a sample that is refused on the way counts as not built.
///
/// ```
/// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
/// use groundline::{post::*, section::Tube, sensitivity::*, units::*, wind::*};
/// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(32.0), ft(8.0))?);
/// # let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// # let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
/// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
/// # let ground = Ground::presumptive(SoilClass::Class4);
/// # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
/// let plan = FencePlan::new(site, fence, design).with_planned_depth(ft(5.0));
/// let inputs = [
///     (Input::WindSpeed, Distribution::gumbel(0.82, 0.14)?),
///     (Input::LateralBearing, Distribution::lognormal(1.2, 0.36)?),
/// ];
/// // A poor generator, for the example only.
/// let mut state = 1_u32;
/// let random = || {
///     state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
///     (f64::from(state >> 8) + 0.5) / 16_777_216.0
/// };
/// let found = uncertainty(&plan, &inputs, 200, random)?;
/// let share = found.probability().unwrap();
/// println!("{} of {}, {:?}", share.count(), share.of(), share.interval());
/// # Ok::<(), groundline::Error>(())
/// ```
///
/// # Errors
/// A post without a planned depth, whose ground would be used up exactly whatever
/// happens; samples outside 1 to 1 000 000; no input, or one twice; an input the plan
/// does not have; a distribution of which less than a thousandth is within the allowed
/// range; else where the plan itself cannot be checked, what was asked for beside it
/// included.
pub fn uncertainty<C: VariedWind>(
    plan: &FencePlan<C>,
    inputs: &[(Input, Distribution)],
    samples: u32,
    mut random: impl FnMut() -> f64,
) -> Result<Uncertainty, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    number_within("samples", f64::from(samples), 1.0, 1e6)?;
    let base = outcome(plan)?;
    if !base.planned {
        return Err(Error::NotApplicable {
            field: "planned depth",
            reason: "the question is of holes that are dug or planned; give every post a depth",
        });
    }
    let mut found = Uncertainty {
        inputs: truncations(plan, inputs)?,
        samples,
        not_built: 0,
        first_refusal: None,
        without_number: 0,
        exceeding: 0,
        without_capacity: 0,
        mean: None,
        deviation: None,
        governed: BTreeMap::new(),
        sorted: Vec::new(),
        cautions: base.cautions.with(Caution::NoReliability),
    };
    let mut shares = Vec::with_capacity(inputs.len());
    for _ in 0..samples {
        shares.clear();
        shares.extend(inputs.iter().map(|_| random()));
        // Written so that NaN is none.
        if !shares.iter().all(|share| 0.0 < *share && *share < 1.0) {
            found.without_number += 1;
            continue;
        }
        let mut sample = Ok(plan.clone());
        for (input, share) in found.inputs.iter().zip(&shares) {
            let ratio = input.distribution.within(input.least, input.most, *share);
            sample = sample.and_then(|plan| multiply(&plan, input.input, ratio));
        }
        match sample.and_then(|plan| outcome(&plan)) {
            Ok(outcome) => {
                let point = outcome.point;
                found.cautions = found.cautions.and(outcome.cautions);
                found.count(point.post, point.governing, point.utilization);
            }
            Err(error) => {
                found.not_built += 1;
                found.first_refusal = found.first_refusal.or(Some(error));
            }
        }
    }
    Ok(found.concluded())
}

fn truncations<C: VariedWind>(
    plan: &FencePlan<C>,
    inputs: &[(Input, Distribution)],
) -> Result<Vec<Truncation>, Error> {
    let refuse = |field, reason| Err(Error::NotApplicable { field, reason });
    if inputs.is_empty() {
        return refuse("inputs", "give at least one with its distribution");
    }
    let mut cut: Vec<Truncation> = Vec::with_capacity(inputs.len());
    for (input, distribution) in inputs {
        if cut.iter().any(|other| other.input == *input) {
            return refuse(input.name(), "it was given twice");
        }
        let (least, most) = allowed_factors(plan, *input)?;
        let (below, to) = (
            distribution.share_below(least),
            distribution.share_below(most),
        );
        if to - below < LEAST_LEFT {
            return refuse(
                input.name(),
                "less than a thousandth of its distribution is within what the input may be",
            );
        }
        cut.push(Truncation {
            input: *input,
            distribution: *distribution,
            least,
            most,
            below,
            above: 1.0 - to,
        });
    }
    Ok(cut)
}
