//! Wind to EN 1991-1-4 and AS/NZS 1170.2 and as given, at their limits:
//! signboards, sheltered zones, the parts of the hoarding table, what is given
//! outright.

use approx::assert_relative_eq;
use groundline::limit_state::{AllowableStress, Characteristic, LimitState, Strength};
use groundline::source;
use groundline::units::*;
use groundline::wind::*;

fn en() -> EnSite {
    let speed = FundamentalSpeed::ten_minute_mean(m_per_s(25.0)).unwrap();
    EnSite::new(speed, Terrain::Two)
}

fn asnzs(speed: f64) -> AsNzsSite {
    AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(speed)).unwrap())
}

/// A wall in metres.
fn wall(length: f64, top: f64, clearance: f64, solidity: f64) -> WallShape {
    WallShape::new(m(length), m(top), m(clearance), solidity).unwrap()
}

fn wind<C: WindCode>(code: &C, shape: WallShape) -> WallWind<C> {
    WallWind::new(code, shape, WallEnds::FREE).unwrap()
}

fn flat(solidity: f64) -> Infill {
    Infill::given(solidity, Member::Flat).unwrap()
}

/// Where the strips of a case come from.
fn clauses<C: WindCode>(wind: &WallWind<C>, case: WindCase) -> Vec<&'static str> {
    wind.strips(case).map(|strip| strip.clause.id).collect()
}

/// EN: signboards from a gap of a quarter of the height, and up to as long as
/// high; both with 1.8, a quarter off centre, ze = zg + h/2.
#[test]
fn signboards() {
    for (length, top, clearance, board) in [
        (20.0, 2.5, 0.5, true),
        (20.0, 2.5, 0.49, false),
        (2.0, 2.0, 0.0, true),
        (2.01, 2.0, 0.0, false),
        (2.1, 2.5, 0.4, true),
        (2.11, 2.5, 0.4, false),
    ] {
        let wind = wind(&en(), wall(length, top, clearance, 1.0));
        assert_eq!(wind.has(WindCase::OffCentre(Edge::End)), board);
        assert_eq!(wind.has(WindCase::Zones(Edge::End)), !board);
        assert!(!wind.has(WindCase::Uniform) && !wind.has(WindCase::Along(Edge::End)));
        let height = if board { 0.5 * (top + clearance) } else { top };
        assert_relative_eq!(
            wind.peak_pressure().height.to(m),
            height,
            max_relative = 1e-12
        );
        let clause = if board {
            let case = WindCase::OffCentre(Edge::Start);
            let strip = wind.strips(case).next().unwrap();
            assert_relative_eq!(strip.coefficient, 1.8);
            // 1 ± 12 e/2 with e = 0.25.
            let q = wind.peak_pressure().pressure() * 1.8;
            assert_relative_eq!(strip.pressure.value, 2.5 * q.value, max_relative = 1e-12);
            assert_relative_eq!(
                strip.pressure_at_to.value,
                -0.5 * q.value,
                max_relative = 1e-12
            );
            source::LINEAR_SPREAD.id
        } else {
            source::EN1991_7_4_1.id
        };
        let case = if board {
            WindCase::OffCentre(Edge::Start)
        } else {
            WindCase::Zones(Edge::Start)
        };
        assert!(clauses(&wind, case).iter().all(|id| *id == clause));
    }
    // A raised board of two infills: the middle of the more solid one, or of
    // the whole where that is higher.
    for (top, height) in [(0.95, 3.5), (0.5, 3.0)] {
        let below = if top > 0.9 { 0.5 } else { 0.95 };
        let shape = wall(20.0, 4.0, 2.0, below)
            .with_topping(0.5, &flat(top))
            .unwrap();
        let wind = wind(&en(), shape);
        assert_relative_eq!(
            wind.peak_pressure().height.to(m),
            height,
            max_relative = 1e-12
        );
    }
    // Less than 80 % solid is a lattice, with the coefficient given, or none.
    for (solidity, refused) in [(0.8, false), (0.79, true)] {
        let shape = wall(20.0, 2.0, 0.0, solidity);
        let bare = WallWind::new(&en(), shape, WallEnds::FREE);
        assert_eq!(bare.is_err(), refused);
        let site = en().with_lattice_coefficient(1.6).unwrap();
        let wind = wind(&site, shape);
        assert_eq!(wind.has(WindCase::Uniform), refused);
        if refused {
            assert_eq!(clauses(&wind, WindCase::Uniform), [source::EN1991_7_11.id]);
            let p = wind.peak_pressure().pressure() * (1.6 * solidity);
            assert_relative_eq!(
                wind.uniform_pressure().unwrap().value,
                p.value,
                max_relative = 1e-12
            );
        }
    }
}

/// EN: strips tile the wall, each with the cp,net of its zone, times ψs where
/// it lies farther than h from both ends.
#[test]
fn sheltered_zones() {
    let psi = 0.6;
    let site = en().with_shelter_factor(psi).unwrap();
    // l/h with a clearance below a quarter, down to walls shorter than h; h from
    // the end just beside where a zone ends.
    let (off_3, off_5) = ([3.0 - 5e-7, 3.0 + 5e-7], [5.0 - 5e-7, 5.0 + 5e-7]);
    let round = [0.9, 1.0, 1.5, 2.0, 2.3, 3.0, 4.0, 5.0, 7.5, 10.0, 14.0];
    for l in round.into_iter().chain(off_3).chain(off_5) {
        let (top, clearance) = if l <= 1.0 { (2.0, 0.35) } else { (2.0, 0.0) };
        for (site, sheltered) in [(site, true), (en(), false)] {
            let wind = wind(&site, wall(l * top, top, clearance, 1.0));
            let cp = cp_net(l, None, 1.0).unwrap();
            for edge in [Edge::Start, Edge::End] {
                let mut strips: Vec<_> = wind.strips(WindCase::Zones(edge)).collect();
                if edge == Edge::End {
                    strips.reverse();
                }
                if !sheltered {
                    let zones = [0.0, 0.3, 2.0, 4.0].iter().filter(|e| **e < l);
                    assert_eq!(strips.len(), zones.count(), "l/h {l}");
                }
                let mut at = 0.0;
                for strip in &strips {
                    assert_relative_eq!(strip.from.to(m), at, epsilon = 1e-9);
                    assert!(strip.to.to(m) > at + 9e-7, "l/h {l}: {strips:?}");
                    at = strip.to.to(m);
                    let middle = 0.5 * (strip.from + strip.to).to(m) / top;
                    let windward = if edge == Edge::Start {
                        middle
                    } else {
                        l - middle
                    };
                    let zone = [0.3, 2.0, 4.0].iter().filter(|e| windward > **e).count();
                    let inside = sheltered && middle > 1.0 && middle < l - 1.0;
                    let expected = cp[zone] * if inside { psi } else { 1.0 };
                    assert_relative_eq!(strip.coefficient, expected, max_relative = 1e-12);
                }
                assert_relative_eq!(at, l * top, max_relative = 1e-12);
                let sum: f64 = strips
                    .iter()
                    .map(|s| ((s.to - s.from) * (m(top) - m(clearance)) * s.pressure).value)
                    .sum();
                let whole = wind.force(WindCase::Zones(edge), m(0.0), m(l * top));
                assert_relative_eq!(whole.value, sum, max_relative = 1e-9);
            }
        }
    }
}

/// AS/NZS: the formula of each part of the table, on either side of its
/// limits, and the zones of oblique wind and of wind along.
#[test]
fn parts_of_the_hoarding_table() {
    let high = |b: f64| 1.4 + 0.3 * f64::log10(b);
    let long = |c: f64| 1.7 - 0.5 * c;
    let short = |b: f64, c: f64| 1.3 + 0.5 * (0.3 + f64::log10(b)) * (0.8 - c);
    for (b, c, expected, zones) in [
        (0.3, 0.5, short(0.5, 0.5), None),
        (0.5, 0.5, short(0.5, 0.5), None),
        (0.51, 0.5, short(0.51, 0.5), None),
        (5.0, 1.0, short(5.0, 1.0), None),
        (5.0, 0.2, short(5.0, 0.2), None),
        (5.01, 0.2, long(0.2), Some([3.0, 1.5, 0.75])),
        (5.01, 0.7, long(0.7), Some([3.0, 1.5, 0.75])),
        (5.01, 0.71, long(0.71), Some([2.4, 1.2, 0.6])),
        (5.0, 0.19, high(5.0), None),
        (0.3, 0.1, high(0.5), None),
        // Not less than the long wall's.
        (5.01, 0.1, long(0.1), Some([3.0, 1.5, 0.75])),
        (5.01, 0.19, high(5.01), Some([3.0, 1.5, 0.75])),
        (40.0, 0.1, high(40.0), Some([3.0, 1.5, 0.75])),
    ] {
        let hoarding = Hoarding::new(b, c).unwrap();
        assert_relative_eq!(hoarding.normal(), expected, max_relative = 1e-12);
        assert_eq!(hoarding.oblique().zones(), zones, "b/c {b}, c/h {c}");
        if zones.is_none() {
            assert_eq!(
                hoarding.oblique(),
                ObliqueWind::OffCentre(hoarding.normal())
            );
        }
        assert_eq!(hoarding.beyond_table(), b < 0.5);
        assert_eq!(hoarding.is_raised(), c <= 0.7);
        let along = if c <= 0.7 {
            [1.2, 0.6, 0.3]
        } else {
            [1.0, 0.25, 0.25]
        };
        assert_eq!(hoarding.along().zones, along);
    }
    for (shape, id) in [
        (wall(8.0, 2.0, 0.0, 1.0), source::ASNZS_B2_A_FORMULA.id),
        (wall(20.0, 2.0, 0.0, 1.0), source::ASNZS_B2_A.id),
    ] {
        assert_eq!(clauses(&wind(&asnzs(45.0), shape), WindCase::Uniform), [id]);
    }
    let edge = Edge::End;
    let short = wind(&asnzs(45.0), wall(8.0, 2.0, 0.0, 1.0));
    let long = wind(&asnzs(45.0), wall(20.0, 4.0, 2.0, 1.0));
    assert_eq!(
        clauses(&short, WindCase::OffCentre(edge)),
        [source::LINEAR_SPREAD.id]
    );
    assert_eq!(
        clauses(&long, WindCase::OffCentre(edge)),
        [source::ASNZS_OFF_CENTRE_ZONES.id]
    );
    assert_eq!(
        clauses(&long, WindCase::Zones(edge))[0],
        source::ASNZS_B2_C.id
    );
    assert_eq!(
        clauses(&long, WindCase::Along(edge))[0],
        source::ASNZS_B2_D.id
    );
    // Off centre: the mean of zones 3.0 to 2 c, 1.5 to 4 c, 0.75 beyond.
    let mean = (3.0 * 4.0 + 1.5 * 4.0 + 0.75 * 12.0) / 20.0;
    let strip = long.strips(WindCase::OffCentre(edge)).next().unwrap();
    assert_relative_eq!(strip.coefficient, mean, max_relative = 1e-12);
    let middle = (strip.pressure + strip.pressure_at_to) * 0.5;
    assert_relative_eq!(
        middle.value,
        0.5 * 1.2 * 45.0 * 45.0 * mean,
        max_relative = 1e-12
    );
    let only = asnzs(45.0).with_off_centre_zones(OffCentreZones::ZonesOnly);
    let only = wind(&only, wall(20.0, 4.0, 2.0, 1.0));
    assert!(!only.has(WindCase::OffCentre(edge)) && only.has(WindCase::Zones(edge)));
    // Vdes is not below 30 m/s.
    for (speed, design) in [(29.9, 30.0), (30.0, 30.0), (30.1, 30.1)] {
        assert_relative_eq!(asnzs(speed).design_speed().to(m_per_s), design);
    }
}

/// A given pressure acts where it is said to, and not below the middle of what
/// is solid.
#[test]
fn a_given_pressure() {
    let given = DirectPressure::new(psf(20.0), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    for (share, top, height) in [
        (0.5, 0.3, 1.5),
        (0.55, 0.3, 1.6),
        (1.0, 0.3, 2.5),
        (0.5, 0.9, 0.5 + 2.0 * (0.3 * 0.25 + 0.9 * 0.75) / 1.2),
        (0.7, 0.9, 1.9),
    ] {
        let below = if top > 0.5 { 0.3 } else { 0.9 };
        let shape = wall(20.0, 2.5, 0.5, below)
            .with_topping(0.5, &flat(top))
            .unwrap();
        let wind = wind(&given.acting_at(share).unwrap(), shape);
        assert_relative_eq!(wind.resultant_height().to(m), height, max_relative = 1e-12);
        assert_eq!(wind.uniform_pressure(), Some(psf(20.0)));
    }
    let other = given
        .acting_at(0.7)
        .unwrap()
        .with_pressure(psf(30.0))
        .unwrap();
    assert_eq!(other.pressure(), psf(30.0));
    assert_relative_eq!(
        wind(&other, wall(20.0, 2.5, 0.5, 1.0))
            .resultant_height()
            .to(m),
        1.9
    );
    assert_eq!(other.level(), AllowableStress::Basic);
    assert_ne!(Strength.name(), Characteristic.name());
}

/// A peak velocity pressure given outright holds at every height and for every
/// speed, terrain and factor; cs cd still multiplies it.
#[test]
fn a_given_peak_pressure() {
    let given = en().with_peak_pressure(kpa(0.8)).unwrap();
    let other = FundamentalSpeed::ten_minute_mean(m_per_s(40.0)).unwrap();
    let other = EnSite::new(other, Terrain::Four)
        .with_orography_factor(1.4)
        .unwrap()
        .with_peak_pressure(kpa(0.8))
        .unwrap();
    for site in [given, other] {
        for height in [0.0, 2.0, 30.0, 200.0] {
            let peak = PeakPressure::at(&site, m(height)).unwrap();
            assert_eq!(peak.pressure(), kpa(0.8));
        }
        assert!(PeakPressure::at(&site, m(200.1)).is_err());
        let wind = wind(
            &site.with_structural_factor(1.1).unwrap(),
            wall(40.0, 2.0, 0.0, 1.0),
        );
        let strip = wind.strips(WindCase::Zones(Edge::Start)).next().unwrap();
        assert_relative_eq!(
            strip.pressure.to(kpa),
            0.8 * 1.1 * 3.4,
            max_relative = 1e-12
        );
    }
    for (qp, taken) in [(0.05, true), (0.049, false), (10.0, true), (10.01, false)] {
        assert_eq!(en().with_peak_pressure(kpa(qp)).is_ok(), taken);
    }
    // Terrain II at and below zmin, 2 m, by (4.3) to (4.5).
    let log = (2.0_f64 / 0.05).ln();
    let vm = 0.19 * log * 25.0;
    let qp = (1.0 + 7.0 / log) * 0.5 * 1.25 * vm * vm;
    for height in [0.0, 1.0, 2.0] {
        let peak = PeakPressure::at(&en(), m(height)).unwrap();
        assert_relative_eq!(peak.pressure().value, qp, max_relative = 1e-12);
    }
    assert!(PeakPressure::at(&en(), m(2.1)).unwrap().pressure().value > qp);
}
