//! The wind along a fence, and what each post brings down to grade, to any
//! code.

use super::fence::FenceSpec;
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::site::{BuiltSite, SiteSpec};
use crate::actions::FenceWind;
use crate::combination::{Combination, Combined, CombinesTo};
use crate::fence::{Fence, PostKind};
use crate::limit_state::{
    AllowableStress, Characteristic, LimitState, LoadAndResistance, PartialFactor, Strength,
    Ultimate, UltimateCombined,
};
use crate::source::Citation;
use crate::step::Worksheet;
use crate::units::{Force, Length, Pressure, Torque, UnitSystem};
use crate::wind::{Edge, WindCase, WindCode};

names! {
    WindCase {
        "uniform" => WindCase::Uniform,
        "off_centre_to_start" => WindCase::OffCentre(Edge::Start),
        "off_centre_to_end" => WindCase::OffCentre(Edge::End),
        "zones_from_start" => WindCase::Zones(Edge::Start),
        "zones_from_end" => WindCase::Zones(Edge::End),
        "along_from_start" => WindCase::Along(Edge::Start),
        "along_from_end" => WindCase::Along(Edge::End),
        "minimum" => WindCase::Minimum,
    }
    CombinationName {
        "allowable_stress" => CombinationName::AllowableStress,
        "allowable_stress_alternative" => CombinationName::AllowableStressAlternative,
        "load_and_resistance" => CombinationName::LoadAndResistance,
        "en1990_structure" => CombinationName::Structure,
        "en1990_equilibrium" => CombinationName::Equilibrium,
        "en1990_uplift" => CombinationName::Uplift,
        "en1990_reduced_ground" => CombinationName::ReducedGround,
        "asnzs1170_ultimate" => CombinationName::Ultimate,
    }
}

/// A set of load combinations by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum CombinationName {
    /// ASCE 7, allowable stress, basic.
    AllowableStress,
    /// IBC, allowable stress, alternative with stress increase.
    AllowableStressAlternative,
    /// ASCE 7, strength design.
    LoadAndResistance,
    /// EN 1990, STR/GEO 6.10.
    Structure,
    /// EN 1990, EQU.
    Equilibrium,
    /// EN 1990, UPL.
    Uplift,
    /// EN 1990, GEO with reduced soil strength.
    ReducedGround,
    /// AS/NZS 1170.0, ultimate.
    Ultimate,
}

records! {
    /// The wind pressure along every run, strip by strip, at the limit state
    /// of its code.
    WindPressuresRequest {
        /// Where the wind comes from.
        site: SiteSpec,
        /// The fence.
        fence: FenceSpec,
    }
    /// A strip of a run in one case.
    StripResult {
        /// The case.
        case: WindCase,
        /// What the code calls it.
        case_name: String,
        /// From the start of the run.
        from: Length,
        /// To.
        to: Length,
        /// The coefficient of the figure.
        coefficient: f64,
        /// The pressure on gross area at `from`.
        pressure: Pressure,
        /// The pressure at `to`: the same, except off centre.
        pressure_at_to: Pressure,
    }
    /// Pressure times area against what posts carry, of one case.
    CaseSumResult {
        /// The case.
        case: WindCase,
        /// On its strips.
        on_strips: Force,
        /// On the posts.
        on_posts: Force,
    }
    /// The pressure along a run.
    RunPressuresResult {
        /// Its number, from 1.
        run: usize,
        /// The strips.
        strips: Vec<StripResult>,
        /// The sum check.
        sums: Vec<CaseSumResult>,
    }
    /// The pressure along a fence.
    WindPressuresResult {
        /// Document and edition.
        document: String,
        /// The limit state of the pressures.
        limit_state: String,
        /// Run by run.
        runs: Vec<RunPressuresResult>,
    }
    /// Shear, moment and weight at grade of every post, combined.
    FenceActionsRequest {
        /// Where the wind comes from.
        site: SiteSpec,
        /// The fence.
        fence: FenceSpec,
        /// The load combinations.
        combination: CombinationName,
    }
    /// A post at grade in one case.
    CaseActionsResult {
        /// What makes it.
        kind: String,
        /// The run the wind blows across, from 1.
        run: usize,
        /// The case of the wind.
        case: WindCase,
        /// Shear at grade, combined.
        shear: Force,
        /// Moment at grade, combined.
        moment: Torque,
        /// Weight at grade, with the factor on weight that loads.
        axial: Force,
        /// Weight at grade, with the factor on weight that relieves: what
        /// holds a post down.
        axial_relieving: Force,
    }
    /// A post at grade.
    PostActionsResult {
        /// Its number, from 1 along the fence.
        number: usize,
        /// What it is.
        post: PostKind,
        /// Its cases.
        cases: Vec<CaseActionsResult>,
    }
    /// The posts at grade.
    FenceActionsResult {
        /// The limit state of the actions.
        limit_state: String,
        /// Factor on wind.
        wind_factor: f64,
        /// Factor on dead load that loads.
        dead_factor: f64,
        /// Factor on dead load that relieves.
        relieving_factor: f64,
        /// Post by post.
        posts: Vec<PostActionsResult>,
    }
}

fn pressures<C: WindCode>(
    site: C,
    fence: &Fence,
    at: &Path<'_>,
    problems: &mut Problems,
) -> Option<Done<WindPressuresResult>> {
    let wind = problems.take(at, FenceWind::new(&site, fence))?;
    let mut cited: Vec<&'static Citation> = Vec::new();
    let mut runs = Vec::new();
    for index in 0..fence.runs().len() {
        // A run that never stands alone has no picture of its own.
        let Some(picture) = wind.picture(index) else {
            continue;
        };
        let mut strips = Vec::new();
        for strip in &picture.strips {
            if !cited.contains(&strip.clause) {
                cited.push(strip.clause);
            }
            strips.push(StripResult {
                case: strip.case,
                case_name: strip.case_name.to_owned(),
                from: strip.from,
                to: strip.to,
                coefficient: strip.coefficient,
                pressure: strip.pressure,
                pressure_at_to: strip.pressure_at_to,
            });
        }
        let sums = picture.sums.iter().map(|sum| CaseSumResult {
            case: sum.case,
            on_strips: sum.on_strips,
            on_posts: sum.on_posts,
        });
        runs.push(RunPressuresResult {
            run: index + 1,
            strips,
            sums: sums.collect(),
        });
    }
    let result = WindPressuresResult {
        document: site.document().to_owned(),
        limit_state: site.level().name().to_owned(),
        runs,
    };
    Some(Done::new(result, wind.cautions(), cited))
}

fn actions<C: WindCode, To: Combined>(
    site: C,
    fence: &Fence,
    level: To,
    at: &Path<'_>,
    problems: &mut Problems,
) -> Option<Done<FenceActionsResult>>
where
    C::Level: CombinesTo<To>,
{
    let wind = problems.take(at, FenceWind::new(&site, fence))?;
    let asked = Combination::of(level);
    let set = site.level().resolve(&asked);
    let mut posts = Vec::new();
    for post in fence.posts() {
        let cases = wind.cases(post);
        let cases = cases.iter().map(|case| {
            let combined = case.wind.combined(&case.dead, &asked);
            CaseActionsResult {
                kind: case.kind.name().to_owned(),
                run: case.run + 1,
                case: case.wind_case,
                shear: combined.shear(),
                moment: combined.moment(),
                axial: combined.axial(),
                axial_relieving: case.dead.axial() * set.relieving(),
            }
        });
        posts.push(PostActionsResult {
            number: post.number,
            post: post.kind,
            cases: cases.collect(),
        });
    }
    let result = FenceActionsResult {
        limit_state: set.level().name().to_owned(),
        wind_factor: set.wind(),
        dead_factor: set.dead(),
        relieving_factor: set.relieving(),
        posts,
    };
    let done = Done::new(result, wind.cautions(), [set.source()]);
    // Posts cite alike: the worst case of the first stands for them.
    let mut sheet = Worksheet::new("", UnitSystem::Us);
    if let Some(post) = fence.posts().first()
        && let Some((case, _)) = wind.worst(post, &asked)
    {
        wind.write(post, &case, &mut sheet);
    }
    Some(done.citing(&sheet))
}

impl Calculation for WindPressuresRequest {
    const CALCULATE: &'static str = "wind_pressures";
    type Result = WindPressuresResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.site.build(&at.field("site"), problems);
        self.fence.build(&at.field("fence"), problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<WindPressuresResult>> {
        let site = self.site.build(&at.field("site"), problems)?;
        let fence = self.fence.build(&at.field("fence"), problems)?;
        macro_rules! of_each {
            ($($kind:ident),+) => {
                match site {
                    $( BuiltSite::$kind(site) => pressures(site, &fence, at, problems), )+
                }
            };
        }
        of_each!(
            Asce,
            En,
            AsNzs,
            Strength,
            Allowable,
            Characteristic,
            Ultimate
        )
    }
}

/// What is done with a wind and a combination it combines to.
trait OfCombined {
    /// What comes of it.
    type Answer;

    fn of<C: WindCode, To: Combined>(self, site: C, level: To) -> Self::Answer
    where
        C::Level: CombinesTo<To>;
}

/// Whether there is any.
struct Fits;

impl OfCombined for Fits {
    type Answer = ();

    fn of<C: WindCode, To: Combined>(self, _: C, _: To)
    where
        C::Level: CombinesTo<To>,
    {
    }
}

/// The actions.
struct Actions<'a, 'p> {
    fence: &'a Fence,
    at: &'a Path<'a>,
    problems: &'p mut Problems,
}

impl OfCombined for Actions<'_, '_> {
    type Answer = Option<Done<FenceActionsResult>>;

    fn of<C: WindCode, To: Combined>(self, site: C, level: To) -> Self::Answer
    where
        C::Level: CombinesTo<To>,
    {
        actions(site, self.fence, level, self.at, self.problems)
    }
}

impl CombinationName {
    /// Asks with wind and combination as types; none where this wind does not combine to
    /// it.
    fn ask<Q: OfCombined>(self, site: &BuiltSite, question: Q) -> Option<Q::Answer> {
        match *site {
            BuiltSite::Asce(site) => self.strength(site, question),
            BuiltSite::Strength(site) => self.strength(site, question),
            BuiltSite::En(site) => self.characteristic(site, question),
            BuiltSite::Characteristic(site) => self.characteristic(site, question),
            BuiltSite::AsNzs(site) => self.ultimate(site, question),
            BuiltSite::Ultimate(site) => self.ultimate(site, question),
            BuiltSite::Allowable(site) => match self {
                Self::AllowableStress => Some(question.of(site, AllowableStress::Basic)),
                _ => None,
            },
        }
    }

    fn strength<C, Q: OfCombined>(self, site: C, question: Q) -> Option<Q::Answer>
    where
        C: WindCode<Level = Strength>,
    {
        Some(match self {
            Self::AllowableStress => question.of(site, AllowableStress::Basic),
            Self::AllowableStressAlternative => {
                question.of(site, AllowableStress::AlternativeWithIncrease)
            }
            Self::LoadAndResistance => question.of(site, LoadAndResistance),
            _ => return None,
        })
    }

    fn characteristic<C, Q: OfCombined>(self, site: C, question: Q) -> Option<Q::Answer>
    where
        C: WindCode<Level = Characteristic>,
    {
        let level = match self {
            Self::Structure => PartialFactor::Structure,
            Self::Equilibrium => PartialFactor::Equilibrium,
            Self::Uplift => PartialFactor::Uplift,
            Self::ReducedGround => PartialFactor::ReducedGround,
            _ => return None,
        };
        Some(question.of(site, level))
    }

    fn ultimate<C, Q: OfCombined>(self, site: C, question: Q) -> Option<Q::Answer>
    where
        C: WindCode<Level = Ultimate>,
    {
        match self {
            Self::Ultimate => Some(question.of(site, UltimateCombined)),
            _ => None,
        }
    }
}

impl Calculation for FenceActionsRequest {
    const CALCULATE: &'static str = "fence_actions";
    type Result = FenceActionsResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        if let Some(site) = self.site.build(&at.field("site"), problems)
            && self.combination.ask(&site, Fits).is_none()
        {
            let level = site.level();
            let allowed = format!(
                "this wind is at {level}, which does not combine to it: strength level \
                     combines to allowable_stress, allowable_stress_alternative and \
                     load_and_resistance, characteristic values to those of en1990, ultimate \
                     wind to asnzs1170_ultimate, allowable stress to allowable_stress"
            );
            problems.add(&at.field("combination"), None, allowed);
        }
        self.fence.build(&at.field("fence"), problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<FenceActionsResult>> {
        let site = self.site.build(&at.field("site"), problems)?;
        let fence = self.fence.build(&at.field("fence"), problems)?;
        let question = Actions {
            fence: &fence,
            at,
            problems,
        };
        // What does not combine was refused by `validate`.
        self.combination.ask(&site, question)?
    }
}
