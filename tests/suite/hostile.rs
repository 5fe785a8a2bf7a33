//! Hostile numbers in every constructor and method that takes one: a typed
//! error or a finite result, never a panic, never NaN or infinity.

use crate::samples::pine;
use groundline::Error;
use groundline::actions::FenceWind;
use groundline::actions::{DeadEffects, GroundlineActions, LoadCase};
use groundline::check::{PostCheck, PostDesign};
use groundline::embedment::*;
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::plan::FencePlan;
use groundline::post::*;
use groundline::section::*;
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

const HOSTILE: [f64; 14] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    0.0,
    -0.0,
    -1.0,
    1e308,
    -1e308,
    f64::MAX,
    f64::MIN,
    f64::MIN_POSITIVE,
    5e-324,
    -f64::MIN_POSITIVE,
    1e-300,
];

/// Calls with every hostile number; what is accepted must be finite by its
/// own account.
fn each(mut call: impl FnMut(f64)) {
    for value in HOSTILE {
        call(value);
    }
}

/// The constructor must refuse every hostile number but those it is told to
/// take.
fn refuses<T: std::fmt::Debug>(
    field: &str,
    accepts: impl Fn(f64) -> bool,
    make: impl Fn(f64) -> Result<T, Error>,
) {
    each(|value| match make(value) {
        Ok(made) => assert!(accepts(value), "{field}: {value} gave {made:?}"),
        Err(error) => {
            assert!(!accepts(value), "{field}: {value} refused: {error}");
            assert_eq!(error.field(), field);
            let text = error.to_string();
            assert!(!text.is_empty() && !text.contains('\n'), "{text}");
            assert!(text.contains(field), "{text}");
        }
    });
}

const NEVER: fn(f64) -> bool = |_| false;
/// Zero of either sign, and positive numbers too small to matter.
const NOTHING: fn(f64) -> bool = |v| (0.0..1e-200).contains(&v);
/// The same of either sign.
const TINY: fn(f64) -> bool = |v| v.abs() < 1e-200;

#[test]
fn wind_constructors() {
    let v = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_16, v, Exposure::C);
    refuses("wind speed", NEVER, |x| {
        BasicWindSpeed::strength_level(m_per_s(x))
    });
    refuses("topographic factor", NEVER, |x| {
        site.with_topographic_factor(x)
    });
    refuses(
        "ground elevation",
        |x| TINY(x) || x == -1.0,
        |x| site.at_elevation(m(x)),
    );
    refuses("gust factor", NEVER, |x| site.with_gust_factor(x));
    refuses("minimum pressure", NEVER, |x| {
        site.with_minimum_pressure(psf(x))
    });
    refuses("height", NOTHING, |x| {
        exposure_coefficient(Edition::Asce7_22, Exposure::B, ft(x))
    });
    refuses("height", NOTHING, |x| VelocityPressure::at(&site, ft(x)));
    refuses("s/h", NOTHING, |x| cf_cases_a_b(x, 5.0));
    refuses("B/s", NOTHING, |x| cf_cases_a_b(0.5, x));
    refuses("s/h", NOTHING, |x| {
        CaseC::new(x, 5.0, ColumnGap::Interpolate)
    });
    refuses("B/s", NOTHING, |x| CaseC::new(0.5, x, ColumnGap::Refuse));
    refuses("solidity", NOTHING, opening_factor);
    refuses("solidity", NOTHING, |x| open_cf(x, OpenShape::Flat));
    refuses("return length over s", NOTHING, |x| {
        return_factor(x, ShortReturn::Interpolate)
    });
    refuses("wall length", NEVER, |x| {
        WallShape::new(ft(x), ft(6.0), ft(0.0), 1.0)
    });
    refuses("fence height", NEVER, |x| {
        WallShape::new(ft(60.0), ft(x), ft(0.0), 1.0)
    });
    refuses("clearance below", NOTHING, |x| {
        WallShape::new(ft(60.0), ft(6.0), ft(x), 1.0)
    });
    refuses("solidity", NEVER, |x| {
        WallShape::new(ft(60.0), ft(6.0), ft(0.0), x)
    });
    let wall = WallShape::new(ft(60.0), ft(6.0), ft(0.0), 1.0).unwrap();
    refuses("return length over height", NOTHING, |x| {
        let ends = WallEnds {
            start: WallEnd::Return(ft(x)),
            end: WallEnd::Free,
        };
        WallWind::new(&site, wall, ends)
    });
    // Positions are clamped to the wall, whatever they are.
    let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
    let whole = wind.force(WindCase::Zones(Edge::Start), ft(0.0), ft(60.0)) * 4.0;
    each(|a| {
        each(|b| {
            for case in WindCase::ALL {
                let force = wind.force(case, ft(a), ft(b)).value;
                assert!(force.abs() <= whole.value, "{a} {b} {case:?} {force}");
            }
        });
    });
    refuses("velocity pressure", NOTHING, |x| {
        open_shape(Member::Round(ft(0.1)), psf(x))
    });
    refuses(
        "ground elevation",
        |x| TINY(x) || x == -1.0,
        |x| ground_elevation_factor(ft(x), PrintedConstants::Si),
    );
}

#[test]
fn fence_constructors() {
    let panel = Panel::new(ft(6.0)).unwrap();
    refuses("fence height", NEVER, |x| Panel::new(ft(x)));
    refuses("clearance below", NOTHING, |x| panel.with_clearance(ft(x)));
    refuses("solidity", NEVER, |x| panel.with_solidity(x));
    refuses("panel weight", NOTHING, |x| panel.with_weight(psf(x)));
    refuses("run length", NEVER, |x| {
        FenceRun::new(panel, ft(x), ft(8.0))
    });
    refuses("post spacing", NEVER, |x| {
        FenceRun::new(panel, ft(60.0), ft(x))
    });
    refuses("gate position", NOTHING, |x| {
        Gate::new(ft(x), ft(4.0), lb(100.0), Hinges::Both)
    });
    refuses("gate opening", NEVER, |x| {
        Gate::new(ft(8.0), ft(x), lb(100.0), Hinges::Both)
    });
    refuses("gate leaf weight", NOTHING, |x| {
        Gate::new(ft(8.0), ft(4.0), lb(x), Hinges::Both)
    });
    let run = FenceRun::new(panel, ft(60.0), ft(8.0)).unwrap();
    refuses("turn", NEVER, |x| {
        Fence::new(run.clone()).turning(deg(x), run.clone())
    });
    // A run of more posts than anyone sets is refused, not laid out.
    assert!(FenceRun::new(panel, ft(300_000.0), ft(1.0)).is_err());
}

#[test]
fn actions_constructors() {
    let level = AllowableStress::Basic;
    refuses(
        "shear",
        |x| x.abs() <= 1.0,
        |x| GroundlineActions::new(lb(x), lb_ft(0.0), lb(0.0), level),
    );
    refuses(
        "moment",
        |x| x.abs() <= 1.0,
        |x| GroundlineActions::new(lb(0.0), lb_ft(x), lb(0.0), level),
    );
    refuses("axial force", NOTHING, |x| {
        GroundlineActions::new(lb(0.0), lb_ft(0.0), lb(x), level)
    });
    refuses("height of the force", NOTHING, |x| {
        GroundlineActions::wind(lb(100.0), ft(x))
    });
    let wind = GroundlineActions::wind(lb(100.0), ft(3.0)).unwrap();
    refuses("turn", NOTHING, |x| wind.with_turned(&wind, deg(x)));
    refuses("weight", NOTHING, |x| {
        DeadEffects::new(lb(x), lb_ft(0.0), lb_ft(0.0))
    });
    refuses("moment of the weight", NOTHING, |x| {
        DeadEffects::new(lb(0.0), lb_ft(x), lb_ft(0.0))
    });
    refuses("moment of the weight", NOTHING, |x| {
        DeadEffects::new(lb(0.0), lb_ft(0.0), lb_ft(x))
    });
}

#[test]
fn ground_foundation_and_post_constructors() {
    refuses("lateral bearing", NEVER, |x| {
        LateralBearing::new(psf_per_ft(x))
    });
    let ground = Ground::presumptive(SoilClass::Class4);
    refuses("vertical pressure", NEVER, |x| {
        ground.with_vertical_pressure(psf(x))
    });
    refuses("discounted top layer", NOTHING, |x| {
        ground.discounting_top(ft(x))
    });
    assert!(SoilClass::from_number(0).is_err() && SoilClass::from_number(6).is_err());
    refuses("hole diameter", NEVER, |x| Hole::round(ft(x)));
    refuses("hole side", NEVER, |x| Hole::square(ft(x)));
    refuses("bearing width", NEVER, |x| BearingWidth::new(ft(x)));
    refuses("post size", NEVER, |x| Square::new(inch(x)));
    refuses("pipe diameter", NEVER, |x| Tube::new(inch(x), inch(0.1)));
    refuses("pipe wall", NEVER, |x| Tube::new(inch(4.0), inch(x)));
    refuses("Fy", NEVER, |x| SteelStrength::new(ksi(x)));
    refuses("Fb", NEVER, |x| {
        DesignValues::new(lb_per_sq_in(x), lb_per_sq_in(150.0), SizeClass::Timbers)
    });
    refuses("Fv", NEVER, |x| {
        DesignValues::new(lb_per_sq_in(900.0), lb_per_sq_in(x), SizeClass::Timbers)
    });
    let section = PostSection::Square(Square::new(inch(3.5)).unwrap());
    refuses("allowable moment", NEVER, |x| {
        GivenPost::new(section, lb_ft(x), lb(1e3))
    });
    refuses("allowable shear", NEVER, |x| {
        GivenPost::new(section, lb_ft(1e3), lb(x))
    });
    refuses("flexural rigidity", NEVER, |x| {
        let post = GivenPost::new(section, lb_ft(1e3), lb(1e3)).unwrap();
        post.with_rigidity(n_sq_m(x))
    });
    // Volumes take any depth.
    let concrete = Foundation::concrete(Hole::round(inch(12.0)).unwrap(), section).unwrap();
    each(|x| {
        for foundation in [concrete, Foundation::bare(section)] {
            let volume = foundation.concrete_volume(ft(x)).value;
            assert!(volume.is_finite() && volume >= 0.0, "{x}: {volume}");
        }
    });
    // A post that does not fit its hole.
    let big = PostSection::Square(Square::new(inch(11.5)).unwrap());
    assert!(Foundation::concrete(Hole::round(inch(12.0)).unwrap(), big).is_err());
}

#[test]
fn kinds_of_post() {
    refuses("post diameter", NEVER, |x| Disc::new(inch(x)));
    refuses("post circumference", NEVER, |x| {
        Disc::of_circumference(inch(x))
    });
    let pole = Disc::new(inch(8.0)).unwrap();
    refuses("loss", NOTHING, |x| pole.less_outside(inch(x)));
    refuses("tube side", NEVER, |x| SquareTube::new(inch(x), inch(0.1)));
    refuses("tube wall", NEVER, |x| SquareTube::new(inch(4.0), inch(x)));
    let tube = SquareTube::new(inch(4.0), inch(0.2)).unwrap();
    refuses("corner radius", NOTHING, |x| {
        tube.with_corner_radius(inch(x))
    });
    refuses("loss", NOTHING, |x| tube.less_outside(inch(x)));
    refuses("Fb", NEVER, |x| {
        RoundTimber::new(pole, lb_per_sq_in(x), lb_per_sq_in(100.0))
    });
    refuses("Fv", NEVER, |x| {
        RoundTimber::new(pole, lb_per_sq_in(1e3), lb_per_sq_in(x))
    });
    let round = RoundTimber::new(pole, lb_per_sq_in(1e3), lb_per_sq_in(100.0)).unwrap();
    refuses("E", NEVER, |x| round.with_modulus(ksi(x)));
    refuses("E", NEVER, |x| pine(3.5).values().with_modulus(ksi(x)));
    refuses("CM on E", NEVER, |x| {
        let mut factors = *round.factors();
        factors.wet_modulus = x;
        round.with_factors(factors)
    });
    refuses("Fty", NEVER, |x| Aluminium::given(ksi(x), ksi(30.0)));
    refuses("Ftu", NEVER, |x| Aluminium::given(ksi(25.0), ksi(x)));
    refuses("fy", NEVER, |x| SquareTubeEn1993::new(tube, mpa(x)));
    refuses("sleeve side", NEVER, |x| Sleeve::new(inch(x), inch(0.13)));
    refuses("sleeve wall", NEVER, |x| Sleeve::new(inch(4.0), inch(x)));
}

#[test]
fn embedment_methods() {
    let ground = Ground::presumptive(SoilClass::Class4);
    let width = BearingWidth::new(ft(1.0)).unwrap();
    let formula = PoleFormula::new(&ground, width, Restraint::None);
    let level = AllowableStress::Basic;
    let load = GroundlineActions::new(lb(500.0), lb_ft(2000.0), lb(0.0), level).unwrap();
    refuses("depth", NEVER, |x| formula.check(&load, ft(x)));
    refuses("depth", NEVER, |x| formula.capacity(ft(x), ft(3.0), level));
    refuses("height of the force", NOTHING, |x| {
        formula.capacity(ft(3.0), ft(x), level)
    });
    refuses("depth", NEVER, |x| formula.moment_capacity(ft(x), level));
    refuses("embedment", NEVER, |x| {
        BelowGrade::new(&load, ft(x), ft(0.0), Restraint::None)
    });
    refuses("discounted top layer", NOTHING, |x| {
        BelowGrade::new(&load, ft(3.0), ft(x), Restraint::None)
    });
    for rule in DepthRule::ALL {
        refuses("fence height", NEVER, |x| rule.depth(ft(x)));
    }
    refuses("post section", NEVER, |x| hole_diameter_rule(inch(x)));
    refuses("pole length", NEVER, |x| utility_pole_depth(ft(x)));
    let block = |x: f64| SpreadBlock::new(ft(x), ft(2.0), ft(2.0), pcf(150.0), lb(0.0));
    refuses("block width", NEVER, block);
    refuses("block length", NEVER, |x| {
        SpreadBlock::new(ft(2.0), ft(x), ft(2.0), pcf(150.0), lb(0.0))
    });
    refuses("block depth", NEVER, |x| {
        SpreadBlock::new(ft(2.0), ft(2.0), ft(x), pcf(150.0), lb(0.0))
    });
    refuses("unit weight", NEVER, |x| {
        SpreadBlock::new(ft(2.0), ft(2.0), ft(2.0), pcf(x), lb(0.0))
    });
    refuses("superstructure", NOTHING, |x| {
        SpreadBlock::new(ft(2.0), ft(2.0), ft(2.0), pcf(150.0), lb(x))
    });
    let block = block(2.0).unwrap();
    refuses("moment", NOTHING, |x| {
        Overturning::at_allowable_stress(lb_ft(x))
    });
    refuses("safety factor", NEVER, |x| block.allowable_moment(x));
}

/// The corners of what actions may be: every result finite.
#[test]
fn extreme_actions_give_finite_results() {
    let magnitudes = [0.0, 5e-324, 1e-300, 1e-30, 1.0, 1e5, 1e8];
    let level = AllowableStress::Basic;
    for restraint in [Restraint::None, Restraint::RigidPaving] {
        for cap in [DepthCap::CapDepth, DepthCap::CapReading] {
            let width = BearingWidth::new(inch(1.0)).unwrap();
            let soil = Ground::given(LateralBearing::new(psf_per_ft(5.0)).unwrap());
            let formula = PoleFormula::new(&soil, width, restraint).with_cap(cap);
            for p in magnitudes {
                for m in magnitudes {
                    let load = GroundlineActions::new(lb(p), lb_ft(m), lb(0.0), level).unwrap();
                    let required = formula.required(&load).unwrap();
                    for value in [
                        required.depth().value,
                        required.bearing().value,
                        required.a_term().value,
                        load.height().value,
                    ] {
                        assert!(value.is_finite() || p < 1e-200, "{p} {m}: {value}");
                    }
                    assert!(required.depth().value.is_finite());
                    for depth in [0.01, 1.0, 300.0] {
                        let check = formula.check(&load, ft(depth)).unwrap();
                        assert!(check.utilization().ratio().is_finite());
                        assert!(check.one_pass_depth().is_none_or(|d| d.value.is_finite()));
                        let inside = BelowGrade::new(&load, ft(depth), ft(0.0), restraint).unwrap();
                        assert!(inside.moment().value.is_finite());
                        assert!(inside.shear().value.is_finite());
                        assert!(inside.depth_of_moment().value.is_finite());
                    }
                }
            }
        }
    }
}

/// No load cases at all: an error, not a panic.
#[test]
fn a_post_needs_a_load_case() {
    let case = LoadCase::new(
        GroundlineActions::new(lb(5e-324), lb_ft(0.0), lb(0.0), Strength).unwrap(),
        DeadEffects::NONE,
    );
    let design = PostDesign::in_concrete(
        Ground::presumptive(SoilClass::Class4),
        pine(3.5).into(),
        Hole::round(inch(10.0)).unwrap(),
    )
    .unwrap();
    let check = PostCheck::new(&design, &[case], None).unwrap();
    assert!(check.utilization.ratio().is_finite());
}

prop_compose! {
    /// Numbers from everywhere, ordinary ones often.
    fn wild()(ordinary in 0.01..100.0_f64, any in any::<f64>(), pick in 0..4) -> f64 {
        if pick == 0 { any } else { ordinary }
    }
}

proptest! {
    /// Random fences through the whole check: finite numbers or one clear
    /// error.
    #[test]
    fn random_fences(
        height in wild(), clearance in wild(), solidity in wild(), length in wild(),
        spacing in wild(), gate_at in wild(), opening in wild(), weight in wild(),
        turn in wild(), speed in wild(), hole in wild(), depth in wild(), top in wild(),
    ) {
        let result = (|| -> Result<(), Error> {
            let panel = Panel::new(ft(height))?
                .with_clearance(ft(clearance * 0.01))?
                .with_solidity(if solidity < 1.0 { solidity } else { 1.0 })?;
            let run = FenceRun::new(panel, ft(length * 2.0), ft(spacing))?;
            let gated = run
                .clone()
                .with_gate(Gate::new(ft(gate_at), ft(opening), lb(weight), Hinges::AtEnd)?)?;
            let fence = Fence::new(run).turning(deg(turn), gated)?;
            let v = BasicWindSpeed::strength_level(mph(speed + 60.0))?;
            let site = AsceSite::new(Edition::Asce7_10, v, Exposure::D);
            let wind = FenceWind::new(&site, &fence)?;
            for post in fence.posts() {
                for case in wind.cases(post).iter() {
                    assert!(case.wind.shear().value.is_finite());
                }
            }
            let pipe = PipePost::new(
                Tube::new(inch(2.375), inch(0.13))?,
                SteelStrength::new(ksi(50.0))?,
            )?;
            let ground = Ground::presumptive(SoilClass::Class3).discounting_top(ft(top * 0.1))?;
            let design =
                PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(hole))?)?;
            let plan = FencePlan::new(site, fence.clone(), design).with_planned_depth(ft(depth * 0.1));
            let schedule = plan.schedule()?;
            for post in schedule.posts() {
                let check = &post.check;
                assert!(check.required.depth().value.is_finite());
                assert!(check.utilization.ratio().is_finite());
                assert!(check.strength.bending.ratio().is_finite());
                let sheet = schedule.worksheet(&post, UnitSystem::Si);
                for step in sheet.steps() {
                    let text = format!("{}", step.result.in_system(UnitSystem::Us));
                    assert!(!text.contains("NaN") && !text.contains("inf"), "{step:?}");
                }
            }
            Ok(())
        })();
        if let Err(error) = result {
            prop_assert!(!error.to_string().contains('\n'));
        }
    }
}
