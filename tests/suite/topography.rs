//! Kzt: the formula by hand, its limits, and the marks.

use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::source::Mark;
use groundline::step::Worksheet;
use groundline::units::*;
use groundline::wind::*;

const FEATURES: [Feature; 3] = [Feature::Ridge, Feature::Escarpment, Feature::Hill];

fn feature(feature: Feature, steepness: f64, x: f64, side: Side) -> Topography {
    Topography::new(feature, ft(200.0 * steepness), ft(200.0), ft(x), side).unwrap()
}

/// Multipliers of K1 and decays, by hand; marks by exposure.
#[test]
fn every_constant() {
    let slopes = [
        (Exposure::B, [1.30, 0.75, 0.95], Mark::FromMemory),
        (Exposure::C, [1.45, 0.85, 1.05], Mark::Quoted),
        (Exposure::D, [1.55, 0.95, 1.15], Mark::FromMemory),
    ];
    let gammas = [3.0, 2.5, 4.0];
    for (exposure, slopes, mark) in slopes {
        for (i, shape) in FEATURES.into_iter().enumerate() {
            for side in [Side::Upwind, Side::Downwind] {
                let mu = if shape == Feature::Escarpment && side == Side::Downwind {
                    4.0
                } else {
                    1.5
                };
                let up = feature(shape, 0.4, 120.0, side).speed_up(exposure, ft(50.0));
                assert_relative_eq!(up.k1, slopes[i] * 0.4, max_relative = 1e-12);
                assert_relative_eq!(up.k2, 1.0 - 120.0 / (mu * 200.0), max_relative = 1e-12);
                assert_relative_eq!(
                    up.k3,
                    (-gammas[i] * 50.0 / 200.0_f64).exp(),
                    max_relative = 1e-12
                );
                assert_relative_eq!(
                    up.kzt,
                    (1.0 + up.k1 * up.k2 * up.k3).powi(2),
                    max_relative = 1e-12
                );
                assert_eq!(up.source.mark, mark);
            }
        }
    }
}

/// Steep features, low ones, gentle ones, far ones.
#[test]
fn limits() {
    let steep = feature(Feature::Ridge, 0.8, 60.0, Side::Upwind).speed_up(Exposure::C, ft(20.0));
    assert_relative_eq!(steep.k1, 0.725, max_relative = 1e-12);
    // 2 H = 320 ft for Lh.
    assert_relative_eq!(steep.k2, 1.0 - 60.0 / 480.0, max_relative = 1e-12);
    assert_relative_eq!(
        steep.k3,
        (-3.0 * 20.0 / 320.0_f64).exp(),
        max_relative = 1e-12
    );
    assert_eq!(steep.source.mark, Mark::FromMemory);
    // Where the rule takes over, the two agree.
    let just = |s: f64| {
        feature(Feature::Hill, s, 60.0, Side::Upwind)
            .speed_up(Exposure::C, ft(20.0))
            .kzt
    };
    assert_relative_eq!(just(0.5), just(0.500_000_1), max_relative = 1e-6);

    let far = feature(Feature::Hill, 0.4, 301.0, Side::Downwind).speed_up(Exposure::C, ft(0.0));
    assert_eq!((far.k2, far.kzt), (0.0, 1.0));

    let height = |h: f64, exposure| {
        let low = Topography::new(Feature::Ridge, ft(h), ft(h / 0.4), ft(0.0), Side::Upwind);
        low.unwrap().speed_up(exposure, ft(0.0)).kzt
    };
    for exposure in [Exposure::C, Exposure::D] {
        assert_eq!(height(14.9, exposure), 1.0);
        assert!(height(15.0, exposure) > 2.0);
    }
    assert_eq!(height(59.9, Exposure::B), 1.0);
    assert!(height(60.0, Exposure::B) > 2.0);
    // No rounding turns H/Lh = 0.2 into less.
    for h in 15..2000 {
        let h = f64::from(h);
        let ridge = Topography::new(Feature::Ridge, ft(h), ft(5.0 * h), ft(0.0), Side::Upwind);
        assert!(
            ridge.unwrap().speed_up(Exposure::C, ft(0.0)).kzt > 1.6,
            "{h}"
        );
    }
    let gentle = feature(Feature::Ridge, 0.199, 0.0, Side::Upwind).speed_up(Exposure::C, ft(0.0));
    assert!(gentle.counts_for_nothing);
    assert_eq!((gentle.kzt, gentle.source.mark), (1.0, Mark::FromMemory));
    assert!(
        feature(Feature::Ridge, 0.2, 0.0, Side::Upwind)
            .speed_up(Exposure::C, ft(0.0))
            .kzt
            > 1.6
    );
}

/// It reaches the velocity pressure at the height asked for, the worksheet
/// with its mark, and the cautions.
#[test]
fn topography_reaches_the_site() {
    let v = BasicWindSpeed::strength_level(mph(110.0)).unwrap();
    let hill = feature(Feature::Hill, 0.3, 50.0, Side::Upwind);
    for exposure in [Exposure::B, Exposure::C] {
        let flat = AsceSite::new(Edition::Asce7_22, v, exposure);
        let site = flat.with_topography(hill);
        let at = |site: &AsceSite, z: f64| VelocityPressure::at(site, ft(z)).unwrap();
        for z in [6.0, 30.0] {
            let up = hill.speed_up(exposure, ft(z)).kzt;
            let ratio =
                at(&site, z).directional().pressure() / at(&flat, z).directional().pressure();
            assert_relative_eq!(ratio.value, up, max_relative = 1e-12);
            assert_eq!(at(&site, z).kzt(), up);
        }
        let mut sheet = Worksheet::new("hill", UnitSystem::Us);
        at(&site, 6.0).write(&mut sheet);
        let line = sheet.steps().find(|step| step.symbol == "Kzt").unwrap();
        let from_memory = exposure == Exposure::B;
        assert_eq!(
            line.citation.unwrap().mark,
            if from_memory {
                Mark::FromMemory
            } else {
                Mark::Quoted
            }
        );
        let wall = WallShape::new(ft(60.0), ft(6.0), ft(0.0), 1.0).unwrap();
        let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
        assert_eq!(wind.cautions().contains(Caution::FromMemory), from_memory);
    }
}
