//! What the types cost: the library against a bare-f64 twin of the same
//! algorithm, over arrays, as a ratio.
//!
//! ```text
//! cargo bench --bench ratio
//! cargo bench --bench ratio -- --instructions
//! ```
//!
//! By the clock, typed and bare runs alternate and each figure is the best of
//! many rounds, so that what else the machine does falls out of the ratio.
//! Instructions are counted by valgrind, which must be on the PATH.

#![allow(clippy::unwrap_used, reason = "inputs are fixed")]

mod bare;
mod bare_beam;
mod bare_run;
mod beam;
mod race;
mod slices;

use groundline::Error;
use groundline::actions::{DeadEffects, FenceWind, GroundlineActions, LoadCase};
use groundline::check::{PostCheck, PostDesign};
use groundline::embedment::PoleFormula;
use groundline::fence::{Fence, FenceRun, Panel};
use groundline::foundation::{BearingWidth, Hole, Restraint};
use groundline::ground::{Ground, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::post::{DesignValues, Grade, Moisture, Species, TimberPost, Treatment};
use groundline::section::Square;
use groundline::units::{Measurable, ft, inch, lb, m, m_per_s, n_m, newton, pa};
use groundline::wind::{
    AsNzsSite, AsceSite, BasicWindSpeed, Edition, EnSite, Exposure, FundamentalSpeed,
    RegionalSpeed, Terrain, WallEnd, WallEnds, WallShape, WallWind, WindCode,
};
use race::Race;
use std::hint::black_box;

const COUNT: usize = 4096;

/// A spread of numbers without randomness.
fn spread(index: usize, from: f64, to: f64) -> f64 {
    let i = f64::from(u32::try_from(index).unwrap());
    from + (to - from) * (i * 0.618_033_988_749_895).fract()
}

fn bare_formula() -> bare::Formula {
    bare::Formula {
        per_depth: 23_563.119_576_936_926,
        width: 0.4572,
        isolated_pole: black_box(false),
        both_increases: black_box(false),
        top: black_box(0.0),
        constrained: black_box(false),
        cap_reading: black_box(false),
    }
}

fn closed_form(race: &Race) {
    let ground = Ground::presumptive(SoilClass::Class4);
    let width = BearingWidth::new(ft(1.5)).unwrap();
    let formula = black_box(PoleFormula::new(&ground, width, Restraint::None));
    let twin = bare_formula();
    let loads: Vec<_> = (0..COUNT)
        .map(|i| bare::Actions {
            shear: spread(i, 100.0, 9_000.0),
            moment: spread(i * 7 + 1, 100.0, 12_000.0),
            axial: 0.0,
            alternative: false,
        })
        .collect();
    let actions: Vec<_> = loads
        .iter()
        .map(|load| {
            let (shear, moment) = (newton(load.shear), n_m(load.moment));
            GroundlineActions::new(shear, moment, lb(0.0), AllowableStress::Basic).unwrap()
        })
        .collect();
    race.run(
        "closed form: required depth",
        COUNT,
        || {
            actions
                .iter()
                .map(|load| formula.required(load).map_or(0.0, |d| d.depth().si()))
                .sum()
        },
        || {
            loads
                .iter()
                .map(|load| twin.required(load).map_or(0.0, |(depth, _)| depth))
                .sum()
        },
    );
    let shear: Vec<f64> = loads.iter().map(|load| load.shear).collect();
    let moment: Vec<f64> = loads.iter().map(|load| load.moment).collect();
    let mut depth = vec![0.0; COUNT];
    race.run(
        "one at a time, and bare in slices",
        COUNT,
        || {
            let each = actions.iter().map(|load| formula.required(load));
            each.map(|depth| depth.map_or(0.0, |d| d.depth().si()))
                .sum()
        },
        || {
            slices::required(&twin, &shear, &moment, &mut depth);
            depth.iter().sum()
        },
    );
}

/// One whole check through the types.
fn typed(design: &PostDesign, input: &bare::Input) -> Result<f64, Error> {
    let speed = BasicWindSpeed::strength_level(m_per_s(input.speed))?;
    let site = AsceSite::new(Edition::Asce7_16, speed, Exposure::C)
        .with_topographic_factor(input.kzt)?
        .with_gust_factor(input.gust)?;
    let site = match input.elevation {
        Some(elevation) => site.at_elevation(m(elevation))?,
        None => site,
    };
    let wall = WallShape::new(
        m(input.length),
        m(input.top),
        m(input.clearance),
        input.solidity,
    )?;
    let end = |length: Option<f64>| length.map_or(WallEnd::Free, |lr| WallEnd::Return(m(lr)));
    let ends = WallEnds {
        start: end(input.returns[0]),
        end: end(input.returns[1]),
    };
    let wind = WallWind::new(&site, wall, ends)?;
    let (_, force) = wind.worst(m(input.from), m(input.from + input.width));
    let actions = GroundlineActions::wind(force, wind.resultant_height())?;
    let dead = DeadEffects::new(
        newton(input.axial),
        n_m(input.dead_in_line),
        n_m(input.dead_across),
    )?;
    let check = PostCheck::new(
        design,
        &[LoadCase::new(actions, dead)],
        Some(m(input.depth)),
    )?;
    Ok(check.utilization.ratio() + check.required.depth().si())
}

fn whole_check(race: &Race) {
    let side = inch(5.5);
    let values = DesignValues::of(Species::SouthernPine, Grade::No2, side).unwrap();
    let section = Square::new(side).unwrap();
    let post = TimberPost::new(section, values, Moisture::Wet, Treatment::NotIncised).unwrap();
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(18.0)).unwrap();
    let design = black_box(PostDesign::in_concrete(ground, post.into(), hole).unwrap());
    let strength = design.post().strength();
    let twin = bare::Design {
        formula: bare_formula(),
        moment: strength.moment.si(),
        shear: strength.shear.si(),
        vertical: Some(95_760.517_960_671_68),
        base: std::f64::consts::PI / 4.0 * 0.4572 * 0.4572,
    };
    let inputs: Vec<bare::Input> = (0..COUNT)
        .map(|i| bare::Input {
            speed: spread(i, 40.0, 75.0),
            top: spread(i * 3 + 1, 1.2, 3.0),
            clearance: spread(i * 19 + 6, 0.0, 0.3),
            solidity: spread(i * 23 + 7, 0.7, 1.0),
            length: spread(i * 5 + 2, 8.0, 90.0),
            from: spread(i * 11 + 3, 0.0, 4.0),
            width: spread(i * 13 + 4, 1.2, 3.0),
            depth: spread(i * 17 + 5, 0.6, 2.4),
            kzt: 1.0,
            elevation: None,
            gust: 0.85,
            returns: [None, Some(6.0)],
            axial: 800.0,
            dead_in_line: 0.0,
            dead_across: 0.0,
            alternative: false,
        })
        .collect();
    race.run(
        "whole check: wind to utilization",
        COUNT,
        || {
            inputs
                .iter()
                .map(|input| typed(&design, input).unwrap_or(0.0))
                .sum()
        },
        || {
            inputs
                .iter()
                .map(|input| bare::whole(&twin, input).unwrap_or(0.0))
                .sum()
        },
    );
}

/// Runs of 200 posts: their walls, and what each post brings to grade.
fn runs_under_each_code(race: &Race) {
    const RUNS: usize = 16;
    const POSTS: usize = 200;
    let fences: Vec<Fence> = (0..RUNS)
        .map(|i| {
            let panel = Panel::new(m(spread(i, 1.2, 3.0)))
                .unwrap()
                .with_clearance(m(spread(i * 3 + 1, 0.0, 0.2)))
                .unwrap()
                .with_solidity(spread(i * 5 + 2, 0.8, 1.0))
                .unwrap()
                .with_weight(pa(150.0))
                .unwrap();
            let bay = spread(i * 7 + 3, 1.8, 3.0);
            let length = bay * f64::from(u32::try_from(POSTS - 1).unwrap());
            Fence::new(FenceRun::new(panel, m(length), m(bay)).unwrap())
        })
        .collect();
    let runs: Vec<bare_run::Run> = fences
        .iter()
        .map(|fence| {
            let run = &fence.runs()[0];
            assert_eq!(fence.posts().len(), POSTS);
            bare_run::Run {
                length: run.length().si(),
                top: run.panel().top().si(),
                clearance: run.panel().clearance().si(),
                solidity: run.panel().solidity(),
                weight: run.panel().weight().si(),
                strips: fence
                    .posts()
                    .iter()
                    .flat_map(|post| {
                        post.arms()
                            .map(|arm| (arm.from.si(), arm.at.si(), arm.to.si()))
                    })
                    .collect(),
            }
        })
        .collect();
    let speeds: Vec<f64> = (0..RUNS).map(|i| spread(i * 11, 30.0, 50.0)).collect();

    let asce = |v: f64| {
        let speed = BasicWindSpeed::strength_level(m_per_s(v)).unwrap();
        AsceSite::new(Edition::Asce7_16, speed, Exposure::C)
    };
    let en = |v: f64| {
        EnSite::new(
            FundamentalSpeed::ten_minute_mean(m_per_s(v)).unwrap(),
            Terrain::Two,
        )
    };
    let as_nzs = |v: f64| AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(v)).unwrap());
    let compare =
        |name: &str, typed: &dyn Fn(&Fence, f64) -> f64, bare: fn(&bare_run::Run, f64) -> f64| {
            race.run(
                name,
                RUNS * POSTS,
                || {
                    fences
                        .iter()
                        .zip(&speeds)
                        .map(|(fence, v)| typed(fence, *v))
                        .sum()
                },
                || runs.iter().zip(&speeds).map(|(run, v)| bare(run, *v)).sum(),
            );
        };
    compare(
        "200 posts, ASCE 7: a post",
        &|f, v| at_grade(&asce(v), f),
        bare_run::asce,
    );
    compare(
        "200 posts, EN 1991-1-4: a post",
        &|f, v| at_grade(&en(v), f),
        bare_run::en,
    );
    compare(
        "200 posts, AS/NZS 1170.2: a post",
        &|f, v| at_grade(&as_nzs(v), f),
        bare_run::as_nzs,
    );
}

fn at_grade<C: WindCode>(code: &C, fence: &Fence) -> f64 {
    let wind = FenceWind::new(code, fence).unwrap();
    let mut total = 0.0;
    for post in fence.posts() {
        for case in black_box(&wind.cases(post)).iter() {
            total += case.wind.shear().si() + case.wind.moment().si() + case.dead.axial().si();
        }
    }
    total
}

fn main() {
    let race = Race::asked_for();
    closed_form(&race);
    whole_check(&race);
    runs_under_each_code(&race);
    beam::beams(&race);
}
