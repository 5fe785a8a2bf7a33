//! Wind at its limits: what each case is called and where its number comes from,
//! the last wall on either side of a rule, and each caution with and without its
//! reason.

use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::limit_state::Strength;
use groundline::source;
use groundline::units::*;
use groundline::wind::*;

fn asce(speed: f64) -> AsceSite {
    let speed = BasicWindSpeed::strength_level(mph(speed)).unwrap();
    AsceSite::new(Edition::Asce7_22, speed, Exposure::C)
}

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

fn told<C: WindCode>(wind: &WallWind<C>, caution: Caution) -> bool {
    wind.cautions().iter().any(|said| said == caution)
}

fn flat(solidity: f64) -> Infill {
    Infill::given(solidity, Member::Flat).unwrap()
}

/// Where the strips of a case come from.
fn clauses<C: WindCode>(wind: &WallWind<C>, case: WindCase) -> Vec<&'static str> {
    wind.strips(case).map(|strip| strip.clause.id).collect()
}

/// Each case that a wall has bears a name of its own, with the words the code
/// prints; none that it cannot have does.
#[test]
fn names_of_cases() {
    let (u, o, z, a) = (
        WindCase::Uniform,
        WindCase::OffCentre(Edge::End),
        WindCase::Zones(Edge::Start),
        WindCase::Along(Edge::Start),
    );
    let site = asce(115.0);
    let as_printed = [(u, "Case A"), (o, "Case B"), (z, "Case C"), (a, "none")];
    for (case, name) in as_printed {
        assert_eq!(site.case_name(case), name);
    }
    for (case, clause) in [(u, "7.11"), (o, "7.4.3"), (z, "7.4.1"), (a, "none")] {
        assert!(en().case_name(case).contains(clause));
    }
    for (case, angle) in [(u, "0°"), (o, "45°"), (z, "45°"), (a, "90°")] {
        assert!(asnzs(45.0).case_name(case).contains(angle));
    }
    assert_ne!(asnzs(45.0).case_name(o), asnzs(45.0).case_name(z));
    let given = DirectPressure::new(psf(20.0), Strength)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    assert!(given.case_name(u).contains("given"));
    for case in [o, z, a] {
        assert_eq!(given.case_name(case), "none");
    }
    assert_eq!(site.document(), "ASCE 7-22");
    assert!(en().document().contains("EN 1991-1-4"));
    assert!(asnzs(45.0).document().contains("AS/NZS 1170.2"));
    assert!(given.document().contains("given"));
    for (edition, year) in [
        (Edition::Asce7_10, "7-10"),
        (Edition::Asce7_16, "7-16"),
        (Edition::Asce7_22, "7-22"),
    ] {
        assert!(edition.name().contains(year));
    }
}

/// A case seen from the other end of the fence.
#[test]
fn edges_of_cases() {
    for case in WindCase::ALL {
        assert_eq!(case.mirrored().mirrored(), case);
        match case.edge() {
            None => assert!(matches!(case, WindCase::Uniform | WindCase::Minimum)),
            Some(edge) => {
                assert_ne!(edge, edge.other());
                assert_eq!(case.mirrored().edge(), Some(edge.other()));
                assert_ne!(case.mirrored(), case);
            }
        }
    }
}

/// Figures and their clauses: the force formula, the minimum, the open figure,
/// Case B and Case C, each where it holds.
#[test]
fn clauses_of_asce() {
    let edge = Edge::Start;
    let solid = wind(&asce(115.0), wall(90.0, 2.0, 0.0, 1.0));
    assert_eq!(
        clauses(&solid, WindCase::Uniform),
        [source::ASCE7_WALL_FORCE.id]
    );
    // With a floor under every strip the last strips of a mild wind are at 16 psf, the
    // first not.
    let floor = WallOptions::default().minimum_case(MinimumCase::EveryStrip);
    let asce_floor = |speed: f64| asce(speed).with_options(floor);
    let light = wind(&asce_floor(95.0), wall(90.0, 2.0, 0.0, 1.0));
    for (strip, id) in light
        .strips(WindCase::Zones(edge))
        .zip(clauses(&light, WindCase::Zones(edge)))
    {
        let least = (strip.pressure.to(psf) - 16.0).abs() < 1e-9;
        assert!(strip.pressure.to(psf) > 16.0 - 1e-9);
        let expected = if least {
            source::ASCE7_MINIMUM.id
        } else {
            source::ASCE7_WALL_CASE_C.id
        };
        assert_eq!(id, expected);
    }
    let all = clauses(&light, WindCase::Zones(edge));
    assert_eq!(all[0], source::ASCE7_WALL_CASE_C.id);
    assert_eq!(*all.last().unwrap(), source::ASCE7_MINIMUM.id);
    let lightest = wind(&asce_floor(85.0), wall(90.0, 2.0, 0.0, 1.0));
    assert_eq!(lightest.uniform_pressure().unwrap(), psf(16.0));
    assert_eq!(
        clauses(&lightest, WindCase::Uniform),
        [source::ASCE7_MINIMUM.id]
    );
    // The open figure alone, also where it is at its minimum on solid area.
    let own = wind(&asce(85.0), wall(90.0, 2.0, 0.0, 1.0));
    assert_eq!(clauses(&own, WindCase::Minimum), [source::ASCE7_MINIMUM.id]);
    for speed in [85.0, 130.0] {
        let open = wind(&asce_floor(speed), wall(90.0, 2.0, 0.0, 0.5));
        assert_eq!(
            clauses(&open, WindCase::Uniform),
            [source::ASCE7_OPEN_SIGN.id]
        );
        assert_eq!(open.cf(), None);
        assert!(open.uniform_pressure().unwrap() >= psf(8.0));
    }
    // Both figures: the one that is heavier is told, of a fence on the ground
    // the open one, of a raised panel the other.
    for (solidity, clearance) in [(0.65, 0.0), (0.7, 0.0), (0.65, 2.0), (0.7, 2.0)] {
        let both = wind(&asce(130.0), wall(90.0, 4.0, clearance, solidity));
        let solid = both.cf().unwrap() * both.opening_factor().unwrap();
        // Kz is that of the ground below 15 ft, so q is the same for both.
        let open = both.open_cf().unwrap() * solidity;
        assert_eq!(open > solid, clearance == 0.0);
        let id = if open > solid {
            source::ASCE7_OPEN_SIGN.id
        } else {
            source::ASCE7_WALL_FORCE.id
        };
        assert_eq!(clauses(&both, WindCase::Uniform), [id]);
        let q = both.velocity_pressure().directional().pressure();
        assert_relative_eq!(
            both.uniform_pressure().unwrap().value,
            (q * (0.85 * solid.max(open))).value,
            max_relative = 1e-12
        );
    }
    let short = wind(&asce(115.0), wall(4.0, 2.0, 0.0, 1.0));
    assert_eq!(
        clauses(&short, WindCase::OffCentre(edge)),
        [source::ASCE7_WALL_CASE_B.id]
    );
}

/// Case B is for B/s up to 2 (where it is taken for short walls only), Case C
/// from 2, the return factor from 5.
#[test]
fn short_walls_of_asce() {
    let short = WallOptions::default().short_runs_up_to(2.0).unwrap();
    let site = asce(115.0).with_options(short);
    let has = |b_over_s: f64| {
        let wind = wind(&site, wall(2.0 * b_over_s, 2.0, 0.0, 1.0));
        (
            wind.has(WindCase::OffCentre(Edge::Start)),
            wind.has(WindCase::Zones(Edge::Start)),
        )
    };
    for (b_over_s, expected) in [
        (1.0, (true, false)),
        (1.999, (true, false)),
        (2.0, (true, true)),
        (2.001, (false, true)),
        (2.5, (false, true)),
        (2.9, (false, true)),
        (20.0, (false, true)),
    ] {
        assert_eq!(has(b_over_s), expected, "B/s {b_over_s}");
    }
    for (b_over_s, takes) in [(4.99, false), (5.0, true), (5.01, true), (40.0, true)] {
        let c = CaseC::new(1.0, b_over_s, ColumnGap::Interpolate).unwrap();
        assert_eq!(c.unwrap().takes_return_factor(), takes);
    }
    for (b_over_s, refused) in [(10.0, false), (10.01, true), (12.99, true), (13.0, false)] {
        let c = CaseC::new(1.0, b_over_s, ColumnGap::Refuse);
        assert_eq!(c.is_err(), refused, "B/s {b_over_s}");
    }
    // 1.8 − s/h above s/h = 0.8.
    for (s_over_h, factor) in [(0.79, 1.0), (0.8, 1.0), (0.81, 0.99), (1.0, 0.8)] {
        let c = CaseC::new(s_over_h, 20.0, ColumnGap::Interpolate).unwrap();
        assert_relative_eq!(c.unwrap().ground_factor(), factor, max_relative = 1e-12);
    }
    // 0.55 h of a wall on the ground, mid-height of one that is not; with the
    // other reading 0.55 h or mid-height, whichever is higher.
    let other = WallOptions::default().resultant_height(ResultantHeight::NeverBelowGrounded);
    let printed = WallOptions::default().resultant_height(ResultantHeight::AsPrinted);
    for (clearance, as_printed, otherwise) in [(0.0, 1.1, 1.1), (0.1, 1.05, 1.1), (0.4, 1.2, 1.2)] {
        for (options, height) in [(printed, as_printed), (other, otherwise)] {
            let wind = wind(&site.with_options(options), wall(20.0, 2.0, clearance, 1.0));
            assert_relative_eq!(wind.resultant_height().to(m), height, max_relative = 1e-12);
        }
    }
    // Short returns: 1 to 0.90 at 0.3 s, 0.75 at s, 0.60 from 2 s.
    for (ratio, factor) in [
        (0.0, 1.0),
        (0.15, 0.95),
        (0.3, 0.9),
        (0.65, 0.825),
        (1.0, 0.75),
        (1.5, 0.675),
        (2.0, 0.6),
        (9.0, 0.6),
    ] {
        let reading = ShortReturn::Interpolate;
        assert_relative_eq!(
            return_factor(ratio, reading).unwrap(),
            factor,
            max_relative = 1e-12
        );
        for (reading, short) in [
            (ShortReturn::NoReduction, 1.0),
            (ShortReturn::FirstRow, 0.9),
        ] {
            let expected = if ratio < 0.3 { short } else { factor };
            assert_relative_eq!(
                return_factor(ratio, reading).unwrap(),
                expected,
                max_relative = 1e-12
            );
        }
    }
}

/// Openings are a caution of any fence but a closed one, and posts in the wind
/// one of fences less than 70 % solid.
#[test]
fn cautions_of_openings() {
    for (solidity, open, posts) in [
        (1.0, false, false),
        (0.99, true, false),
        (0.7, true, false),
        (0.69, true, true),
        (0.3, true, true),
    ] {
        let shape = wall(20.0, 2.0, 0.0, solidity);
        let lattice = en().with_lattice_coefficient(1.6).unwrap();
        let said = |told: [bool; 2]| assert_eq!(told, [open, posts], "solidity {solidity}");
        let asce = wind(&asce(115.0), shape);
        let asnzs = wind(&asnzs(45.0), shape);
        let en = wind(&lattice, shape);
        said([Caution::OpenFence, Caution::PostsInTheWind].map(|c| told(&asce, c)));
        said([Caution::OpenFence, Caution::PostsInTheWind].map(|c| told(&asnzs, c)));
        said([Caution::OpenFence, Caution::PostsInTheWind].map(|c| told(&en, c)));
        let given = DirectPressure::new(psf(20.0), Strength)
            .unwrap()
            .acting_at(0.5)
            .unwrap();
        let given = wind(&given, shape);
        assert!(told(&given, Caution::GivenPressure));
        assert!(!told(&given, Caution::OpenFence));
    }
    // A signboard's coefficient takes no account of openings.
    let board = wind(&en(), wall(20.0, 2.0, 0.8, 0.9));
    assert!(board.has(WindCase::OffCentre(Edge::Start)));
    assert!(!told(&board, Caution::OpenFence));
}

/// Shelter, tall fences, walls beyond a table, rules from memory: each caution
/// with its reason, and not without.
#[test]
fn cautions_of_sites() {
    let shape = wall(20.0, 2.0, 0.0, 1.0);
    for (factor, said) in [(1.0, false), (0.99, true)] {
        let en = en().with_shelter_factor(factor).unwrap();
        assert_eq!(told(&wind(&en, shape), Caution::Shelter), said);
        let asnzs = asnzs(45.0).with_shielding_multiplier(factor).unwrap();
        assert_eq!(told(&wind(&asnzs, shape), Caution::Shelter), said);
    }
    // EN: above 15 m a structural factor of 1 is no longer the recommended.
    for (base, structural, said) in [
        (0.0, 1.0, false),
        (13.0, 1.0, false),
        (13.01, 1.0, true),
        (13.01, 0.9, true),
        (13.01, 1.01, false),
        (40.0, 1.0, true),
    ] {
        let site = en()
            .standing_on(m(base))
            .unwrap()
            .with_structural_factor(structural)
            .unwrap();
        let wind = wind(&site, shape);
        assert_relative_eq!(wind.peak_pressure().height.to(m), base + 2.0);
        assert_eq!(told(&wind, Caution::Flexible), said, "base {base}");
    }
    // Of a signboard it is the top too, not the middle that the pressure is of.
    for (base, said) in [(11.0, false), (11.01, true), (12.0, true)] {
        let board = wind(
            &en().standing_on(m(base)).unwrap(),
            wall(20.0, 4.0, 2.0, 1.0),
        );
        assert!(board.has(WindCase::OffCentre(Edge::Start)));
        assert_relative_eq!(board.peak_pressure().height.to(m), base + 3.0);
        assert_eq!(told(&board, Caution::Flexible), said, "base {base}");
    }
    for (b_over_c, said) in [(0.49, true), (0.5, false), (1.0, false)] {
        let wind = wind(&asnzs(45.0), wall(2.0 * b_over_c, 2.0, 0.0, 1.0));
        assert_eq!(told(&wind, Caution::BeyondTable), said);
    }
    // Quoted in exposure C for what is not steep, else from memory.
    let hill = |height: f64| {
        Topography::new(Feature::Ridge, ft(height), ft(100.0), ft(0.0), Side::Upwind).unwrap()
    };
    for (height, said) in [(19.9, true), (20.0, false), (50.0, false), (50.1, true)] {
        let wind = wind(&asce(115.0).with_topography(hill(height)), shape);
        assert_eq!(told(&wind, Caution::FromMemory), said, "hill {height} ft");
    }
    assert!(!told(&wind(&asce(115.0), shape), Caution::FromMemory));
    let factor = asce(115.0).with_topographic_factor(1.3).unwrap();
    assert!(!told(&wind(&factor, shape), Caution::FromMemory));
}

/// A topping of no height, or of the whole height, leaves one infill: all of
/// the panel is its most solid part, whichever infill is more solid.
#[test]
fn toppings_of_nothing_and_of_all() {
    for (below, above) in [(0.9, 0.3), (0.3, 0.9), (0.5, 0.5)] {
        let shape = wall(20.0, 2.6, 0.3, below);
        for (share, solidity) in [(0.0, below), (1.0, above)] {
            let topped = shape.with_topping(share, &flat(above)).unwrap();
            assert_eq!(topped.dense_part(), (m(0.3), m(2.6)));
            assert_relative_eq!(topped.solidity(), solidity, max_relative = 1e-12);
            assert_relative_eq!(topped.densest(), solidity, max_relative = 1e-12);
            assert_relative_eq!(topped.sparsest(), solidity, max_relative = 1e-12);
            assert_relative_eq!(topped.solid_height().to(m), 1.45, max_relative = 1e-12);
        }
        let half = shape.with_topping(0.5, &flat(above)).unwrap();
        let (foot, top) = half.dense_part();
        let expected = if above > below {
            (1.45, 2.6)
        } else if above < below {
            (0.3, 1.45)
        } else {
            (0.3, 2.6)
        };
        assert_relative_eq!(foot.to(m), expected.0, max_relative = 1e-12);
        assert_relative_eq!(top.to(m), expected.1, max_relative = 1e-12);
        assert_relative_eq!(half.solidity(), 0.5 * (below + above), max_relative = 1e-12);
        let (most, least) = (below.max(above), below.min(above));
        assert_relative_eq!(half.densest(), most, max_relative = 1e-12);
        assert_relative_eq!(half.sparsest(), least, max_relative = 1e-12);
        // The middle of the solid area, but not below mid-height.
        let middle = (below * 0.25 + above * 0.75) / (below + above);
        let height = 0.3 + 2.3 * middle.max(0.5);
        assert_relative_eq!(half.solid_height().to(m), height, max_relative = 1e-12);
        // Another infill all over again.
        let all = half.with_infill(&Infill::given(0.4, Member::Round(inch(2.0))).unwrap());
        assert_eq!(all.dense_part(), (m(0.3), m(2.6)));
        for solidity in [all.solidity(), all.densest(), all.sparsest()] {
            assert_relative_eq!(solidity, 0.4, max_relative = 1e-12);
        }
        assert_eq!(all.member(), Member::Round(inch(2.0)));
        assert_relative_eq!(all.solid_height().to(m), 1.45, max_relative = 1e-12);
    }
    assert_relative_eq!(
        wall(20.0, 2.5, 0.5, 1.0).s_over_h(),
        0.8,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        wall(20.0, 2.5, 0.5, 1.0).b_over_s(),
        10.0,
        max_relative = 1e-12
    );
    // Flat drags more than round, thin more than thick; whichever is on top.
    let round = |d: f64| Infill::given(0.4, Member::Round(inch(d))).unwrap();
    let of = |below: Infill, above: Infill| {
        let shape = wall(20.0, 2.0, 0.0, 1.0).with_infill(&below);
        shape.with_topping(0.5, &above).unwrap().member()
    };
    assert_eq!(of(round(1.0), round(3.0)), Member::Round(inch(1.0)));
    assert_eq!(of(round(3.0), round(1.0)), Member::Round(inch(1.0)));
    assert_eq!(of(round(1.0), flat(0.4)), Member::Flat);
    assert_eq!(of(flat(0.4), round(1.0)), Member::Flat);
}

/// Solid over gross area of each pattern by counting, with ice and with
/// covers; what was given as a number stays known as one until it is covered.
#[test]
fn infills() {
    let (w, g) = (3.0, 2.0);
    let t = w + g;
    for (infill, open, round) in [
        (Infill::pickets(inch(w), inch(g)).unwrap(), g / t, false),
        (Infill::round_bars(inch(w), inch(g)).unwrap(), g / t, true),
        (
            Infill::lattice(inch(w), inch(g)).unwrap(),
            (g / t) * (g / t),
            false,
        ),
        (
            Infill::woven_mesh(inch(w / 10.0), inch(g)).unwrap(),
            (g / (g + w / 10.0)).powi(2),
            true,
        ),
    ] {
        assert_relative_eq!(infill.solidity(), 1.0 - open, max_relative = 1e-12);
        assert_eq!(infill.member() != Member::Flat, round);
        assert_eq!(infill.given_solidity(), None);
        let half = infill.covered(0.5).unwrap();
        assert_relative_eq!(half.solidity(), 1.0 - 0.5 * open, max_relative = 1e-12);
        assert_eq!(half.member(), Member::Flat);
        let none = infill.covered(0.0).unwrap();
        assert_eq!(none, infill);
        assert_relative_eq!(infill.covered(1.0).unwrap().solidity(), 1.0);
        // Ice to the closing of every gap, and not beyond.
        assert_relative_eq!(infill.with_ice(inch(2.0)).unwrap().solidity(), 1.0);
    }
    // Boards of 3 in with 5 in between on either side, in the gaps.
    let both = Infill::boards_on_both_sides(inch(3.0), inch(5.0)).unwrap();
    assert_relative_eq!(both.solidity(), 0.75, max_relative = 1e-12);
    let iced = both.with_ice(inch(0.25)).unwrap();
    assert_relative_eq!(iced.solidity(), 2.0 * 3.5 / 8.0, max_relative = 1e-12);
    let given = flat(0.6);
    assert_eq!(given.given_solidity(), Some(0.6));
    assert_eq!(given.covered(0.0).unwrap().given_solidity(), Some(0.6));
    assert_eq!(given.covered(0.1).unwrap().given_solidity(), None);
    assert_relative_eq!(given.covered(0.1).unwrap().solidity(), 1.0 - 0.4 * 0.9);
    // Its openings are not known, unless there are none.
    assert!(given.with_ice(inch(0.1)).is_err());
    let round = Infill::given(1.0, Member::Round(inch(1.0))).unwrap();
    for solid in [Infill::TIGHT, flat(1.0), round, given.covered(1.0).unwrap()] {
        assert_eq!(solid.with_ice(inch(0.1)).unwrap(), solid);
        assert!(solid.with_ice(ft(1.1)).is_err());
    }
}

/// Of cases that press alike the first counts; off the wall nothing does.
#[test]
fn the_worst_case_of_a_piece() {
    let wind = wind(&asce(115.0), wall(20.0, 2.0, 0.0, 1.0));
    // Symmetric about the middle: either edge windward brings the same.
    let (case, force) = wind.worst(m(8.0), m(12.0));
    let each: Vec<_> = WindCase::ALL
        .into_iter()
        .map(|case| (case, wind.force(case, m(8.0), m(12.0))))
        .collect();
    let most = each.iter().map(|(_, f)| f.value).fold(0.0, f64::max);
    assert_relative_eq!(force.value, most, max_relative = 1e-12);
    let first = each.iter().find(|(_, f)| f.value == most).unwrap();
    assert_eq!(case, first.0);
    // Within 2 s of an edge that edge is the windward one.
    assert_eq!(wind.worst(m(0.0), m(1.0)).0, WindCase::Zones(Edge::Start));
    assert_eq!(wind.worst(m(19.0), m(20.0)).0, WindCase::Zones(Edge::End));
    for case in WindCase::ALL {
        assert_eq!(wind.force(case, m(20.0), m(25.0)).value, 0.0);
        assert_eq!(wind.force(case, m(-5.0), m(0.0)).value, 0.0);
        let (a, b) = (
            wind.force(case, m(-5.0), m(3.0)),
            wind.force(case, m(0.0), m(3.0)),
        );
        assert_eq!(a, b);
        assert_eq!(wind.has(case), wind.strips(case).next().is_some());
    }
}

/// The wall figure from 65 % solid (as printed 70 %), the open one up to 70 %
/// (as printed below), each limit included where it is said to be.
#[test]
fn which_figure_holds() {
    let printed = WallOptions::default().hand_over(HandOver::AsPrinted);
    for (solidity, guarded, as_printed) in [
        (0.64, (false, true), (false, true)),
        (0.65, (true, true), (false, true)),
        (0.69, (true, true), (false, true)),
        (0.7, (true, true), (true, false)),
        (0.71, (true, false), (true, false)),
        (1.0, (true, false), (true, false)),
    ] {
        let figures = |site: AsceSite| {
            let wind = wind(&site, wall(40.0, 2.0, 0.0, solidity));
            assert_eq!(wind.cf().is_some(), wind.case_c().is_some());
            assert_eq!(wind.cf().is_some(), wind.opening_factor().is_some());
            (wind.cf().is_some(), wind.open_cf().is_some())
        };
        assert_eq!(figures(asce(115.0)), guarded, "solidity {solidity}");
        assert_eq!(figures(asce(115.0).with_options(printed)), as_printed);
    }
}

/// A wall that ends with a strip has no strip beyond it, and one a little
/// longer has.
#[test]
fn strips_to_the_end_of_a_wall() {
    for (b_over_s, strips) in [
        (2.0, 2),
        (3.0, 3),
        (3.01, 4),
        (4.0, 4),
        (10.0, 6),
        (10.1, 7),
    ] {
        let wind = wind(&asce(115.0), wall(2.0 * b_over_s, 2.0, 0.0, 1.0));
        for edge in [Edge::Start, Edge::End] {
            let found: Vec<_> = wind.strips(WindCase::Zones(edge)).collect();
            assert_eq!(found.len(), strips, "B/s {b_over_s}");
            let c = CaseC::new(1.0, b_over_s, ColumnGap::Interpolate).unwrap();
            let regions: Vec<_> = c.unwrap().regions().collect();
            assert_eq!(regions.len(), strips);
            for (strip, region) in found.iter().zip(regions) {
                let width = (strip.to - strip.from).to(m) / 2.0;
                assert_relative_eq!(width, region.to - region.from, max_relative = 1e-9);
                assert_relative_eq!(strip.coefficient, region.cf, max_relative = 1e-12);
            }
        }
    }
    for (length, strips) in [(4.0, 1), (4.01, 2), (8.0, 2), (8.01, 3)] {
        let wind = wind(&asnzs(45.0), wall(length, 4.0, 2.0, 1.0));
        let along = WindCase::Along(Edge::Start);
        assert_eq!(wind.strips(along).count(), strips, "{length} m");
    }
    assert_eq!(Edge::Start.name(), "start");
    assert_eq!(Edge::End.name(), "end");
}

/// Ke = exp(−0.0000362 z) of 7-16 and 7-22, z in ft; 1 where no elevation is
/// given, and none in 7-10. What a velocity pressure is made of, multiplied.
#[test]
fn ground_elevation() {
    let site = asce(115.0);
    for (elevation, ke) in [
        (None, 1.0),
        (Some(0.0), 1.0),
        (Some(5_000.0), f64::exp(-0.181)),
        (Some(-1_000.0), f64::exp(0.036_2)),
    ] {
        let site = match elevation {
            Some(z) => site.at_elevation(ft(z)).unwrap(),
            None => site,
        };
        let site = site.with_topographic_factor(1.2).unwrap();
        let q = VelocityPressure::at(&site, ft(20.0)).unwrap();
        assert_relative_eq!(q.ke(), ke, max_relative = 1e-12);
        assert_relative_eq!(q.kzt(), 1.2, max_relative = 1e-12);
        // 2.41 (z/zg)^(2/α), 7-22 Table 26.11-1.
        let kz = 2.41 * (20.0_f64 / 2_460.0).powf(2.0 / 9.8);
        assert_relative_eq!(q.kz(), kz, max_relative = 1e-12);
        assert_relative_eq!(
            q.directional().pressure().to(psf),
            0.00256 * 0.85 * kz * 1.2 * ke * 115.0 * 115.0,
            max_relative = 1e-12
        );
        assert_eq!(q.height(), ft(20.0));
        assert_eq!(q.site(), &site);
    }
    let speed = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let older = AsceSite::new(Edition::Asce7_10, speed, Exposure::C);
    assert!(older.at_elevation(ft(0.0)).is_err());
}
