//! AS/NZS 1170.2 and the CFE manual by hand; the cases and the table stand in
//! `reference`.

use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::source::Mark;
use groundline::units::*;
use groundline::wind::*;

pub(crate) fn site(speed: f64) -> AsNzsSite {
    AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(speed)).unwrap())
}

/// A wall of these proportions, its panel 2 m high.
pub(crate) fn wall(b_over_c: f64, c_over_h: f64, solidity: f64) -> WallShape {
    let top = 2.0 / c_over_h;
    WallShape::new(m(2.0 * b_over_c), m(top), m(top - 2.0), solidity).unwrap()
}

pub(crate) fn wind(shape: WallShape) -> WallWind<AsNzsSite> {
    WallWind::new(&site(40.0), shape, WallEnds::FREE).unwrap()
}

pub(crate) fn coefficients(wind: &WallWind<AsNzsSite>, case: WindCase) -> Vec<f64> {
    wind.strips(case).map(|strip| strip.coefficient).collect()
}

/// Zones are told in c up to c/h = 0.7 and in h above.
#[test]
fn zone_lengths() {
    let ends = |c: f64, case| {
        let wind = wind(wall(20.0, c, 1.0));
        wind.strips(case)
            .map(|strip| strip.to.to(m))
            .collect::<Vec<_>>()
    };
    for case in [WindCase::Zones(Edge::Start), WindCase::Along(Edge::Start)] {
        assert_eq!(ends(0.5, case)[..2], [4.0, 8.0]);
        assert_relative_eq!(ends(0.8, case)[0], 5.0, max_relative = 1e-12);
        assert_relative_eq!(ends(0.8, case)[1], 10.0, max_relative = 1e-12);
    }
}

/// p = ½ ρ Vdes² Cshp Cdyn with each multiplier once, and not below 30 m/s.
#[test]
fn speed_and_pressure() {
    let site = site(50.0)
        .with_climate_multiplier(1.05)
        .unwrap()
        .with_direction_multiplier(0.95)
        .unwrap()
        .with_terrain_height_multiplier(0.83)
        .unwrap()
        .with_shielding_multiplier(0.9)
        .unwrap()
        .with_topographic_multiplier(1.1)
        .unwrap()
        .with_dynamic_factor(1.2)
        .unwrap();
    let v: f64 = 50.0 * 1.05 * 0.95 * 0.83 * 0.9 * 1.1;
    assert_relative_eq!(site.design_speed().to(m_per_s), v, max_relative = 1e-12);
    assert_relative_eq!(
        site.design_pressure().to(pa),
        0.6 * v * v * 1.2,
        max_relative = 1e-12
    );
    let shape = WallShape::new(m(40.0), m(1.8), m(0.0), 0.6).unwrap();
    let wind = WallWind::new(&site, shape, WallEnds::FREE).unwrap();
    // Long wall on the ground: first 2 h at 2.4; Kp = 1 − 0.4².
    let first = wind.strips(WindCase::Zones(Edge::End)).next().unwrap();
    assert_relative_eq!(
        first.pressure.to(pa),
        0.6 * v * v * 1.2 * 2.4 * 0.84,
        max_relative = 1e-12
    );
    assert!(wind.cautions().contains(Caution::Shelter));
    assert!(wind.cautions().contains(Caution::OpenFence));
    let slow = AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(32.0)).unwrap())
        .with_terrain_height_multiplier(0.83)
        .unwrap();
    assert_eq!(slow.design_speed(), m_per_s(30.0));
}

/// The two readings of oblique wind on a long wall.
#[test]
fn off_centre_zones() {
    let shape = wall(10.0, 1.0, 1.0);
    let also = wind(shape);
    let only = WallWind::new(
        &site(40.0).with_off_centre_zones(OffCentreZones::ZonesOnly),
        shape,
        WallEnds::FREE,
    )
    .unwrap();
    let off = WindCase::OffCentre(Edge::Start);
    assert!(also.has(off) && !only.has(off));
    // Its total is that of the zones: (2.4 + 1.2) 2 h + 0.6 × 6 h over 10 h.
    assert_relative_eq!(coefficients(&also, off)[0], 1.08, max_relative = 1e-12);
    assert_relative_eq!(
        also.force(off, m(0.0), m(20.0)).value,
        also.force(WindCase::Zones(Edge::Start), m(0.0), m(20.0))
            .value,
        max_relative = 1e-12
    );
    // Shorter walls have no zones, and their eccentric case stays.
    let short = WallWind::new(
        &site(40.0).with_off_centre_zones(OffCentreZones::ZonesOnly),
        wall(5.0, 1.0, 1.0),
        WallEnds::FREE,
    )
    .unwrap();
    assert!(short.has(off) && !short.has(WindCase::Zones(Edge::Start)));
}

/// Below b/c = 0.5 the table's end is held and said to be.
#[test]
fn beyond_the_table() {
    let at = |b: f64| Hoarding::new(b, 1.0).unwrap();
    assert_eq!(at(0.3).normal(), at(0.5).normal());
    assert!(at(0.3).beyond_table() && !at(0.5).beyond_table());
    assert!(
        wind(wall(0.3, 1.0, 1.0))
            .cautions()
            .contains(Caution::BeyondTable)
    );
    assert!(
        !wind(wall(0.6, 1.0, 1.0))
            .cautions()
            .contains(Caution::BeyondTable)
    );
}

/// The mark travels with the number: the formula is published, the rest quoted.
#[test]
fn marks() {
    let mark = |b: f64, case| {
        wind(wall(b, 1.0, 1.0))
            .strips(case)
            .next()
            .unwrap()
            .clause
            .mark
    };
    assert_eq!(mark(2.0, WindCase::Uniform), Mark::Published);
    assert_eq!(mark(9.0, WindCase::Uniform), Mark::Quoted);
    assert_eq!(mark(9.0, WindCase::Zones(Edge::Start)), Mark::Quoted);
    assert_eq!(mark(9.0, WindCase::OffCentre(Edge::Start)), Mark::Derived);
    assert_eq!(mark(2.0, WindCase::OffCentre(Edge::Start)), Mark::Derived);
}
