//! Wind to ASCE 7 by hand; its cases stand in `reference`.

use approx::assert_relative_eq;
use groundline::units::{Length, Measurable, Velocity, ft, lb, mph, psf};
use groundline::wind::*;

pub(crate) fn site(edition: Edition, speed: Velocity, exposure: Exposure) -> AsceSite {
    AsceSite::new(
        edition,
        BasicWindSpeed::strength_level(speed).unwrap(),
        exposure,
    )
}

/// Distance of the Case B resultant from the middle, by slices.
pub(crate) fn case_b_offset(wind: &WallWind<AsceSite>) -> Length {
    let b = wind.shape().length();
    let slices = 2000;
    let (mut force, mut turning) = (0.0, 0.0);
    for i in 0..slices {
        let from = b * (f64::from(i) / f64::from(slices));
        let to = b * (f64::from(i + 1) / f64::from(slices));
        let f = wind.force(WindCase::OffCentre(Edge::Start), from, to).value;
        force += f;
        turning += f * 0.5 * (from + to).value;
    }
    b * 0.5 - Length::from_si(turning / force)
}

/// The place of Kd: 7-16 and 7-22 print different q and give one pressure
/// where Kz is the same, as in exposure D below 15 ft nearly.
#[test]
fn directionality_is_applied_once_in_every_edition() {
    for edition in [Edition::Asce7_10, Edition::Asce7_16, Edition::Asce7_22] {
        let q = VelocityPressure::at(&site(edition, mph(120.0), Exposure::C), ft(6.0)).unwrap();
        let bare = 0.00256 * q.kz() * 120.0 * 120.0;
        let (printed, with_kd) = match q.printed() {
            PrintedPressure::Directional(p) => (p.pressure().to(psf), true),
            PrintedPressure::Undirected(p) => (p.pressure().to(psf), false),
            _ => unreachable!(),
        };
        assert_eq!(with_kd, edition != Edition::Asce7_22);
        assert_relative_eq!(
            printed,
            bare * if with_kd { 0.85 } else { 1.0 },
            max_relative = 1e-12
        );
        assert_relative_eq!(
            q.directional().pressure().to(psf),
            0.85 * bare,
            max_relative = 1e-12
        );
    }
}

/// Every factor of the pressure by hand in bare numbers: 7-16, exposure C,
/// 8 ft fence with 80 % solid, 5 000 ft up on a hill. F = q G Cf, from the
/// formulas and the figure.
#[test]
fn a_pressure_by_hand() {
    let site = site(Edition::Asce7_16, mph(130.0), Exposure::C)
        .with_topographic_factor(1.3)
        .unwrap()
        .at_elevation(ft(5000.0))
        .unwrap()
        .with_gust_factor(0.9)
        .unwrap();
    let wall = WallShape::new(ft(80.0), ft(8.0), ft(0.0), 0.8).unwrap();
    let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
    let kz = 2.01 * (15.0_f64 / 900.0).powf(2.0 / 9.5);
    let ke = (-0.000_036_2_f64 * 5000.0).exp();
    let q = 0.00256 * kz * 1.3 * 0.85 * ke * 130.0 * 130.0;
    let open = 1.0 - 0.2_f64.powf(1.5);
    assert_relative_eq!(
        wind.uniform_pressure().unwrap().to(psf),
        q * 0.9 * 1.30 * open,
        max_relative = 1e-12
    );
    assert_relative_eq!(wind.opening_factor().unwrap(), open, max_relative = 1e-12);
    assert_eq!(wind.case_c().unwrap().ground_factor(), 1.8 - 1.0);
    // B/s = 10, s/h = 1: first strip 3.75 × 0.8.
    let strip = wind.strips(WindCase::Zones(Edge::Start)).next().unwrap();
    assert_relative_eq!(
        strip.pressure.to(psf),
        q * 0.9 * 3.75 * 0.8 * open,
        max_relative = 1e-12
    );
}

/// The other printed constant: 0.613, 0.055 % less.
#[test]
fn the_two_printed_constants() {
    let us = site(Edition::Asce7_16, mph(115.0), Exposure::B);
    let si = us.with_constants(PrintedConstants::Si);
    let q = |site: &AsceSite| {
        VelocityPressure::at(site, ft(6.0))
            .unwrap()
            .directional()
            .pressure()
            .value
    };
    let v = mph(115.0).value;
    let kz = 2.01 * (15.0_f64 / 1200.0).powf(2.0 / 7.0);
    assert_relative_eq!(q(&si), 0.613 * kz * 0.85 * v * v, max_relative = 1e-12);
    assert!(q(&us) > q(&si) && q(&us) < q(&si) * 1.001);
    // Elevation only from 7-16 on.
    assert!(
        site(Edition::Asce7_10, mph(115.0), Exposure::B)
            .at_elevation(ft(100.0))
            .is_err()
    );
}

/// The minimum of 16 psf at strength level, 9.6 psf at allowable-stress level (derived),
/// is a load case of its own: uniform, enlarged by no strip and no eccentricity, and there
/// only where it exceeds Case A. As a floor it stands under every strip.
#[test]
fn the_minimum_pressure_as_a_case_and_as_a_floor() {
    let calm = site(Edition::Asce7_22, mph(90.0), Exposure::B);
    let wall = |length: f64, solidity: f64| {
        WallShape::new(ft(length), ft(6.0), ft(0.0), solidity).unwrap()
    };
    let wind = WallWind::new(&calm, wall(200.0, 1.0), WallEnds::FREE).unwrap();
    assert!(wind.uniform_pressure().unwrap() < psf(16.0));
    let case = WindCase::Minimum;
    let strips: Vec<_> = wind.strips(case).collect();
    assert_eq!(strips.len(), 1);
    assert_eq!(strips[0].pressure, psf(16.0));
    assert_eq!(strips[0].pressure_at_to, psf(16.0));
    assert_eq!((strips[0].from, strips[0].to), (ft(0.0), ft(200.0)));
    // 8 ft of 6 ft, wherever the piece is.
    for at in [0.0, 4.0, 96.0, 192.0] {
        let force = wind.force(case, ft(at), ft(at + 8.0));
        assert_relative_eq!(force.to(lb), 16.0 * 48.0, max_relative = 1e-12);
    }
    // Far from the ends Case C brings less: the minimum governs there, not at the end.
    assert_eq!(wind.worst(ft(96.0), ft(104.0)).0, case);
    assert_eq!(wind.worst(ft(0.0), ft(4.0)).0, WindCase::Zones(Edge::Start));
    // No more where Case A is heavier.
    let gale = site(Edition::Asce7_22, mph(130.0), Exposure::C);
    let wind = WallWind::new(&gale, wall(200.0, 1.0), WallEnds::FREE).unwrap();
    assert!(!wind.has(case) && wind.uniform_pressure().unwrap() > psf(16.0));
    // Of an open fence on solid area.
    let open = WallWind::new(&calm, wall(200.0, 0.5), WallEnds::FREE).unwrap();
    let strip = open.strips(case).next().unwrap();
    assert_relative_eq!(strip.pressure.to(psf), 8.0, max_relative = 1e-12);
    // As a floor.
    let floored = WallOptions::default().minimum_case(MinimumCase::EveryStrip);
    let floored = calm.with_options(floored);
    let wind = WallWind::new(&floored, wall(200.0, 1.0), WallEnds::FREE).unwrap();
    assert!(!wind.has(case));
    assert_eq!(wind.uniform_pressure().unwrap(), psf(16.0));
    let strips: Vec<_> = wind.strips(WindCase::Zones(Edge::End)).collect();
    assert!(strips.iter().all(|strip| strip.pressure >= psf(16.0)));
    assert!(strips[0].pressure > psf(16.5));
    let asd = psf(16.0) * groundline::limit_state::AllowableStress::Basic.wind_factor();
    assert_relative_eq!(asd.to(psf), 9.6, max_relative = 1e-12);
}

/// Case C exists from B/s = 2; a region exists as soon as that length of wall
/// does; s/h counts only above 0.8; the return only from B/s = 5.
#[test]
fn case_c_limits() {
    let new = |s_over_h, b| CaseC::new(s_over_h, b, ColumnGap::Interpolate).unwrap();
    assert!(new(1.0, 1.999_999).is_none());
    let at = |b| new(0.5, b).unwrap().regions().collect::<Vec<_>>();
    assert_eq!(at(2.0).len(), 2);
    let between = at(2.5);
    assert_eq!(between.len(), 3);
    assert_eq!((between[2].from, between[2].to), (2.0, 2.5));
    // One-sided: column 3 lends its value.
    assert_relative_eq!(between[2].cf, 1.15, max_relative = 1e-12);
    assert_relative_eq!(at(3.5)[3].cf, 1.10, max_relative = 1e-12);
    assert_relative_eq!(at(11.5)[6].cf, 0.55, max_relative = 1e-12);
    assert_eq!(new(0.8, 6.0), new(0.3, 6.0));
    assert_relative_eq!(
        new(0.81, 6.0).unwrap().regions().next().unwrap().cf,
        3.30 * 0.99,
        max_relative = 1e-12
    );
    assert!(!new(1.0, 4.999).unwrap().takes_return_factor());
    assert!(new(1.0, 5.0).unwrap().takes_return_factor());
    // The gap between the printed tables.
    assert!(CaseC::new(1.0, 11.0, ColumnGap::Refuse).is_err());
    assert!(CaseC::new(1.0, 10.0, ColumnGap::Refuse).is_ok());
    assert!(CaseC::new(1.0, 13.0, ColumnGap::Refuse).is_ok());
    // Beyond the last column its values hold.
    assert_eq!(
        new(1.0, 1000.0)
            .unwrap()
            .regions()
            .map(|r| r.cf)
            .collect::<Vec<_>>(),
        new(1.0, 45.0)
            .unwrap()
            .regions()
            .map(|r| r.cf)
            .collect::<Vec<_>>()
    );
}

/// The three readings of a return shorter than 0.3 s; none is safest.
#[test]
fn short_returns() {
    let factor = |x, reading| return_factor(x, reading).unwrap();
    assert_relative_eq!(factor(0.15, ShortReturn::NoReduction), 1.0);
    assert_relative_eq!(factor(0.15, ShortReturn::Interpolate), 0.95);
    assert_relative_eq!(factor(0.15, ShortReturn::FirstRow), 0.90);
    for reading in [
        ShortReturn::NoReduction,
        ShortReturn::Interpolate,
        ShortReturn::FirstRow,
    ] {
        assert_relative_eq!(factor(0.3, reading), 0.90, max_relative = 1e-12);
        assert_relative_eq!(factor(0.65, reading), 0.825, max_relative = 1e-12);
        assert_relative_eq!(factor(7.0, reading), 0.60, max_relative = 1e-12);
    }
}

/// Where the resultant stands: 0.55 h on the ground; an inch of gap must not
/// lower it unless the printed reading is asked for.
#[test]
fn resultant_height() {
    let shape = |gap: f64| WallShape::new(ft(40.0), ft(8.0), ft(gap), 1.0).unwrap();
    let site = site(Edition::Asce7_16, mph(120.0), Exposure::C);
    let at = |gap: f64, reading| {
        let site = site.with_options(WallOptions::default().resultant_height(reading));
        let wind = WallWind::new(&site, shape(gap), WallEnds::FREE).unwrap();
        wind.resultant_height().to(ft)
    };
    let safe = ResultantHeight::NeverBelowGrounded;
    let printed = ResultantHeight::AsPrinted;
    assert_relative_eq!(at(0.0, safe), 4.4, max_relative = 1e-12);
    assert_relative_eq!(at(0.0, printed), 4.4, max_relative = 1e-12);
    assert_relative_eq!(at(0.1, safe), 4.4, max_relative = 1e-12);
    assert_relative_eq!(at(0.1, printed), 4.05, max_relative = 1e-12);
    // A raised panel has its own middle.
    assert_relative_eq!(at(4.0, safe), 6.0, max_relative = 1e-12);
}

/// Case B has the force of Case A and its resultant 0.2 B off centre; it
/// is spread on runs up to B/s = 5, on every run where that is chosen, or up to another
/// ratio, and not at all as torsion of one base.
#[test]
fn case_b() {
    let site = site(Edition::Asce7_16, mph(120.0), Exposure::C);
    let wind = |length: f64, options: WallOptions| {
        let wall = WallShape::new(ft(length), ft(8.0), ft(0.0), 1.0).unwrap();
        WallWind::new(&site.with_options(options), wall, WallEnds::FREE).unwrap()
    };
    let usual = WallOptions::default();
    let long = wind(80.0, usual.eccentric_case(EccentricCase::EveryRun));
    assert_relative_eq!(case_b_offset(&long).to(ft), 16.0, max_relative = 1e-6);
    assert_relative_eq!(
        long.force(WindCase::OffCentre(Edge::End), ft(0.0), ft(80.0))
            .value,
        long.force(WindCase::Uniform, ft(0.0), ft(80.0)).value,
        max_relative = 1e-12
    );
    assert!(
        long.force(WindCase::OffCentre(Edge::Start), ft(0.0), ft(8.0))
            > long.force(WindCase::Uniform, ft(0.0), ft(8.0)) * 2.0
    );
    let not_spread = wind(80.0, usual);
    assert!(!not_spread.has(WindCase::OffCentre(Edge::End)));
    assert_eq!(
        not_spread.force(WindCase::OffCentre(Edge::End), ft(0.0), ft(8.0)),
        lb(0.0)
    );
    let one_base = usual.eccentric_case(EccentricCase::OneBase);
    assert!(!wind(15.0, one_base).has(WindCase::OffCentre(Edge::End)));
    // B/s of 5 and of 2, whatever rounding makes of it; s = 8 ft.
    for (limit, options) in [(40.0, usual), (16.0, usual.short_runs_up_to(2.0).unwrap())] {
        for length in [limit * (1.0 - 1e-15), limit, limit * (1.0 + 1e-15)] {
            let edge = wind(length, options);
            assert!(edge.has(WindCase::OffCentre(Edge::End)));
            assert!(edge.has(WindCase::Zones(Edge::End)));
        }
        assert!(!wind(limit * 1.001, options).has(WindCase::OffCentre(Edge::End)));
    }
    for wrong in [1.9, 1_001.0, f64::NAN] {
        assert!(usual.short_runs_up_to(wrong).is_err());
    }
}

/// A post between two strips takes each over its own share: by hand.
#[test]
fn a_piece_across_two_strips() {
    let site = site(Edition::Asce7_16, mph(120.0), Exposure::C);
    let wall = WallShape::new(ft(80.0), ft(8.0), ft(0.0), 1.0).unwrap();
    let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
    let q = wind.velocity_pressure().directional().pressure().to(psf);
    // 6 to 12 ft from the start: 2 ft of the first strip, 4 ft of the second.
    let by_hand = q * 0.85 * 0.8 * 8.0 * (3.75 * 2.0 + 2.45 * 4.0);
    assert_relative_eq!(
        wind.force(WindCase::Zones(Edge::Start), ft(6.0), ft(12.0))
            .to(lb),
        by_hand,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        wind.force(WindCase::Zones(Edge::End), ft(68.0), ft(74.0))
            .to(lb),
        by_hand,
        max_relative = 1e-12
    );
}

/// D √q = 2.5 (ft, psf) is 5.27 (m, N/m²), printed 5.3.
#[test]
fn round_member_limit_in_both_systems() {
    use groundline::units::{m, pa};
    let slow = |d, q| open_shape(Member::Round(d), q).unwrap() == OpenShape::RoundSlow;
    assert!(slow(ft(0.5), psf(24.9)));
    assert!(!slow(ft(0.5), psf(25.1)));
    assert!(slow(m(0.1), pa(52.7_f64.powi(2))));
    assert!(!slow(m(0.1), pa(52.8_f64.powi(2))));
}

/// Each option reaches the wall it is given to.
#[test]
fn options_reach_the_wall() {
    let site = site(Edition::Asce7_16, mph(120.0), Exposure::C);
    let wall = |length: f64, gap: f64, options: WallOptions| {
        let shape = WallShape::new(ft(length), ft(8.0), ft(gap), 1.0).unwrap();
        let ends = WallEnds {
            start: WallEnd::Return(ft(1.0)),
            end: WallEnd::Free,
        };
        WallWind::new(&site.with_options(options), shape, ends)
    };
    let plain = WallOptions::default();
    assert!(wall(90.0, 0.0, plain).is_ok());
    assert!(wall(90.0, 0.0, plain.column_gap(ColumnGap::Refuse)).is_err());
    let first = |options: WallOptions| {
        let wind = wall(60.0, 0.0, options).unwrap();
        wind.strips(WindCase::Zones(Edge::Start))
            .next()
            .unwrap()
            .coefficient
    };
    // A return of an eighth of s.
    assert_relative_eq!(
        first(plain.short_return(ShortReturn::FirstRow)),
        0.90 * first(plain),
        max_relative = 1e-12
    );
    let height = |options: WallOptions| {
        let wind = wall(60.0, 0.2, options).unwrap();
        wind.resultant_height().to(ft)
    };
    assert_relative_eq!(height(plain), 4.4, max_relative = 1e-12);
    assert_relative_eq!(
        height(plain.resultant_height(ResultantHeight::AsPrinted)),
        4.1,
        max_relative = 1e-12
    );
    assert_eq!(
        WindCase::ALL[..5]
            .iter()
            .map(|case| site.case_name(*case))
            .collect::<Vec<_>>(),
        ["Case A", "Case B", "Case B", "Case C", "Case C"]
    );
    for case in WindCase::ALL {
        assert_eq!(case.mirrored().mirrored(), case);
        assert_eq!(site.case_name(case.mirrored()), site.case_name(case));
        let even = matches!(case, WindCase::Uniform | WindCase::Minimum);
        assert_eq!(case.mirrored() == case, even);
    }
}
