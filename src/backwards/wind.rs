//! The greatest wind that planned or existing posts are good for.

use super::search::Search;
use super::solution::{Answer, MinimumGoverns, Question, Solution, solve, worst};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::{AllowableStress, LimitState};
use crate::plan::FencePlan;
use crate::units::{Measurable, Pressure, Velocity};
use crate::wind::{AsceSite, BasicWindSpeed, DirectPressure, WindCode};

/// Wind that can be asked for harder or milder with all else the same.
///
/// Of the codes whose wind combines to allowable stress: ASCE 7 by its basic
/// wind speed, a pressure as given by itself.
pub trait VariedWind: WindCode {
    /// What is varied.
    type Intensity: Measurable;

    /// What its question is.
    const QUESTION: Question;

    /// How hard it blows.
    fn intensity(&self) -> Self::Intensity;

    /// The same site in another wind.
    ///
    /// # Errors
    /// Out of the range of the code.
    fn with_intensity(self, intensity: Self::Intensity) -> Result<Self, Error>;

    /// What is tried when nothing else is said.
    fn search() -> Search<Self::Intensity>;

    /// Returns the minimum pressure of the code at this site and the same site without
    /// it; none where the code has none. A site without its minimum is for comparison
    /// only, never for design.
    fn without_minimum(&self) -> Option<(Pressure, Self)> {
        None
    }
}

impl VariedWind for AsceSite {
    type Intensity = Velocity;
    const QUESTION: Question = Question::Speed;

    fn intensity(&self) -> Velocity {
        self.speed().speed()
    }

    fn with_intensity(self, intensity: Velocity) -> Result<Self, Error> {
        Ok(self.with_speed(BasicWindSpeed::strength_level(intensity)?))
    }

    fn search() -> Search<Velocity> {
        Search::speeds()
    }

    fn without_minimum(&self) -> Option<(Pressure, Self)> {
        Some((self.minimum_pressure(), self.without_minimum_pressure()))
    }
}

impl<L: LimitState> VariedWind for DirectPressure<L> {
    type Intensity = Pressure;
    const QUESTION: Question = Question::WindPressure;

    fn intensity(&self) -> Pressure {
        self.pressure()
    }

    fn with_intensity(self, intensity: Pressure) -> Result<Self, Error> {
        self.with_pressure(intensity)
    }

    fn search() -> Search<Pressure> {
        Search::pressures()
    }
}

/// The greatest wind in which every check of every post passes, at the planned
/// depths: with ASCE 7 the basic wind speed, at strength level.
///
/// Below a certain speed the minimum pressure of the code governs, and a lower speed
/// gives no lower load. Where that minimum alone fails, the answer is
/// [`Answer::MinimumGoverns`]: the speed that the posts hold without it. Such a fence
/// does not satisfy the code at any speed.
///
/// ```
/// use groundline::{backwards::*, check::PostDesign, fence::*, foundation::Hole, ground::*};
/// use groundline::{plan::FencePlan, post::*, section::Tube, units::*, wind::*};
/// let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(6.0))?);
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
/// let pipe = PipePost::new(Tube::new(inch(3.5), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
/// let ground = Ground::presumptive(SoilClass::Class4).as_isolated_pole();
/// let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(14.0))?)?;
/// let plan = FencePlan::new(site, fence, design).with_planned_depth(inch(60.0));
/// let solution = greatest_wind(&plan, AsceSite::search())?;
/// let speed = solution.value().unwrap();
/// println!("good for {}, post {}", show(speed, UnitSystem::Us),
///     solution.governing_post().post.number);
/// assert!(solution.check().passes());
/// # Ok::<(), groundline::Error>(())
/// ```
///
/// # Errors
/// A post without a planned depth; a check asked for beside that cannot be made;
/// else as [`FencePlan::schedule`] of the plan itself, or where that refuses every
/// value tried.
pub fn greatest_wind<C: VariedWind>(
    plan: &FencePlan<C>,
    search: Search<C::Intensity>,
) -> Result<Solution<C::Intensity, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    ask(plan, search, None)
}

/// The greatest wind in which every check of one post passes, by its number.
///
/// # Errors
/// As [`greatest_wind`]; a number that no post has.
pub fn greatest_wind_of_post<C: VariedWind>(
    plan: &FencePlan<C>,
    number: usize,
    search: Search<C::Intensity>,
) -> Result<Solution<C::Intensity, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    ask(plan, search, Some(number))
}

/// [`greatest_wind_of_post`] of every post, along the path.
pub fn greatest_wind_of_each<C: VariedWind>(
    plan: &FencePlan<C>,
    search: Search<C::Intensity>,
) -> impl Iterator<Item = Result<Solution<C::Intensity, C>, Error>> + '_
where
    C::Level: CombinesTo<AllowableStress>,
{
    let posts = plan.fence().posts().iter();
    posts.map(move |post| ask(plan, search, Some(post.number)))
}

fn ask<C: VariedWind>(
    plan: &FencePlan<C>,
    search: Search<C::Intensity>,
    which: Option<usize>,
) -> Result<Solution<C::Intensity, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    worst(plan, which)?;
    let at = |site: &C| {
        solve(C::QUESTION, search, which, |intensity| {
            let site = (*site).with_intensity(intensity)?;
            Ok(plan.clone().with_site(site))
        })
    };
    let solution = at(plan.site())?;
    let fails = matches!(
        solution.answer,
        Answer::FailsAtMildest(_) | Answer::PostTooWeak(_)
    ) && solution.passes_again.is_empty();
    let without = plan.site().without_minimum().filter(|_| fails);
    let Some((pressure, site)) = without else {
        return Ok(solution);
    };
    let without = at(&site)?;
    let evaluations = solution.evaluations + without.evaluations;
    Ok(match without.answer.value() {
        Some(value) => Solution {
            answer: Answer::MinimumGoverns(value),
            minimum: Some(MinimumGoverns {
                pressure,
                value,
                worst: without.worst,
                plan: without.plan,
            }),
            evaluations,
            ..solution
        },
        None => Solution {
            evaluations,
            ..solution
        },
    })
}
