//! Tables of posts, load combinations and units, cell by cell.

use super::{Table, TableOf, number};
use groundline::combination::{Combination, Combined};
use groundline::limit_state::*;
use groundline::post::*;
use groundline::section::{Square, SquareTube};
use groundline::source::Mark;
use groundline::units::*;

pub(crate) const TABLES: &[TableOf] = &[
    ("nds_design_values.csv", "timber values", timber_values),
    (
        "nds_factors.csv",
        "factors of a timber post",
        timber_factors,
    ),
    ("aluminium.csv", "aluminium", aluminium),
    ("nds_timber_sections.csv", "dressed timbers", timbers),
    ("en338_classes.csv", "strength classes of timber", classes),
    ("ec5_kmod.csv", "kmod of service class 3", kmod),
    ("steel_pipe_sections.csv", "fence pipe", pipes),
    ("square_tubes.csv", "square steel tubes", square_tubes),
    ("nist_factors.csv", "factors of units", units),
    (
        "combinations.csv",
        "factors of load combinations",
        combinations,
    ),
];

fn timber_values(table: &mut Table) {
    for row in table.rows() {
        let species = match row[1].as_str() {
            "Southern Pine" => Species::SouthernPine,
            "Douglas Fir-Larch" => Species::DouglasFirLarch,
            "Hem-Fir" => Species::HemFir,
            "Spruce-Pine-Fir" => Species::SprucePineFir,
            "Western Cedars" => Species::WesternCedars,
            other => panic!("{other}"),
        };
        let grade = if row[2] == "No.1" {
            Grade::No1
        } else {
            Grade::No2
        };
        let side = if row[0] == "4D" { inch(5.5) } else { inch(3.5) };
        let ours = DesignValues::of(species, grade, side).unwrap();
        let modulus = ours.modulus().unwrap();
        for (i, (name, ours)) in [("Fb", ours.bending()), ("Fv", ours.shear()), ("E", modulus)]
            .into_iter()
            .enumerate()
        {
            table.marked(&row[5 + 2 * i]);
            let at = format!("{} {} {} {name}", row[0], row[1], row[2]);
            table.exact(at, &row[4 + 2 * i], ours.to(lb_per_sq_in));
        }
        // Printed to 10 000 psi.
        let least = TimberPost::minimum_modulus(modulus).unwrap();
        table.marked(&row[11]);
        let at = format!("{} {} {} Emin, 10⁶ psi", row[0], row[1], row[2]);
        let printed = format!("{:.2}", number(&row[10]) / 1e6);
        table.cell(at, &printed, least.to(lb_per_sq_in) / 1e6);
        assert_eq!(ours.class().is_timbers(), row[0] == "4D");
        let least_certain = if row[5] == "quoted" && row[7] == "quoted" {
            Mark::Quoted
        } else {
            Mark::FromMemory
        };
        assert_eq!(ours.mark(), least_certain, "{row:?}");
        assert_eq!(ours.modulus_mark().unwrap().name(), row[9], "{row:?}");
    }
}

fn timber_factors(table: &mut Table) {
    let of = |fb: f64, class, treatment| {
        let values = DesignValues::new(lb_per_sq_in(fb), lb_per_sq_in(150.0), class).unwrap();
        let side = if class.is_timbers() { 11.5 } else { 3.5 };
        let section = Square::new(inch(side)).unwrap();
        TimberFactors::for_wind(&section, &values, Moisture::Wet, treatment)
    };
    let plain = of(1_500.0, SizeClass::Dimension, Treatment::NotIncised);
    let exempt = of(766.0, SizeClass::Dimension, Treatment::NotIncised);
    let pine = of(
        1_500.0,
        SizeClass::SouthernPineDimension,
        Treatment::NotIncised,
    );
    let timbers = of(1_500.0, SizeClass::Timbers, Treatment::NotIncised);
    let incised = of(1_500.0, SizeClass::Dimension, Treatment::Incised);
    let ours = [
        plain.load_duration,
        plain.wet_bending,
        exempt.wet_bending,
        timbers.wet_bending,
        plain.wet_shear,
        plain.wet_modulus,
        timbers.wet_modulus,
        plain.temperature,
        plain.temperature_modulus,
        plain.stability,
        plain.size,
        pine.size,
        timbers.size,
        plain.flat_use,
        incised.incising,
        incised.incising_modulus,
        plain.repetitive,
    ];
    assert_eq!(table.rows().len(), ours.len());
    for (row, ours) in table.rows().iter().zip(ours) {
        table.marked(&row[4]);
        table.exact(
            format!("{} on {}, {}", row[0], row[1], row[2]),
            &row[3],
            ours,
        );
    }
}

fn aluminium(table: &mut Table) {
    for row in table.rows() {
        let alloy = match row[0].as_str() {
            "6063-T6" => Alloy::A6063T6,
            "6061-T6" => Alloy::A6061T6,
            other => panic!("{other}"),
        };
        let temper = match row[1].as_str() {
            "yes" => Temper::Welded,
            _ => Temper::Unwelded,
        };
        let metal = Aluminium::of(alloy, temper);
        assert_eq!(metal.mark().name(), row[4]);
        table.marked(&row[4]);
        let at = |what: &str| format!("{}, welded {}: {what}", row[0], row[1]);
        table.exact(at("Fty"), &row[2], metal.yield_strength().to(ksi));
        table.exact(at("Ftu"), &row[3], metal.ultimate().to(ksi));
    }
}

fn timbers(table: &mut Table) {
    for (row, timber) in table.rows().iter().zip(&catalogue::TIMBERS) {
        assert_eq!(timber.name(), row[0]);
        let section = timber.section().unwrap();
        for (i, (name, ours)) in [
            ("side", timber.side().to(inch)),
            ("A", section.area().to(sq_in)),
            ("I", section.second_moment().to(in4)),
            ("S", section.section_modulus().to(cu_in)),
        ]
        .into_iter()
        .enumerate()
        {
            table.cell(format!("{} {name}", row[0]), &row[i + 1], ours);
        }
    }
    assert_eq!(table.cells.len(), 4 * catalogue::TIMBERS.len());
}

fn classes(table: &mut Table) {
    for row in table.rows() {
        let class = match row[0].as_str() {
            "C16" => TimberClass::C16,
            "C24" => TimberClass::C24,
            "D30" => TimberClass::D30,
            other => panic!("{other}"),
        };
        table.marked(&row[6]);
        for (i, (name, ours)) in [
            ("bending", class.bending()),
            ("shear", class.shear()),
            ("E", class.modulus()),
        ]
        .into_iter()
        .enumerate()
        {
            table.exact(format!("{} {name}", row[0]), &row[i + 1], ours.to(mpa));
        }
        assert_eq!(class.mark().name(), row[6]);
    }
}

fn kmod(table: &mut Table) {
    for row in table.rows() {
        let ours = match row[1].as_str() {
            "short" => TimberEn1995::KMOD_SHORT,
            "instantaneous" => TimberEn1995::KMOD_INSTANTANEOUS,
            _ => continue,
        };
        table.exact(row[1].clone(), &row[2], ours);
    }
    assert_eq!(table.cells.len(), 2);
}

/// The catalogue line by line: sizes from memory, properties derived.
fn pipes(table: &mut Table) {
    assert_eq!(table.rows().len(), catalogue::PIPES.len());
    for (row, pipe) in table.rows().iter().zip(&catalogue::PIPES) {
        let family = if row[0].starts_with("SS40") {
            catalogue::PipeFamily::HighStrength
        } else {
            catalogue::PipeFamily::Schedule40
        };
        assert_eq!(pipe.family(), family);
        let (tube, post) = (pipe.section().unwrap(), pipe.post().unwrap());
        let strength = pipe.steel().unwrap().yield_strength();
        for (column, mark, name, ours) in [
            (1, 13, "D", pipe.outside().to(inch)),
            (3, 13, "t", pipe.wall().to(inch)),
            (4, 13, "weight", pipe.weight().unwrap().to(lb_per_ft)),
            (5, 14, "A", tube.area().to(sq_in)),
            (6, 14, "I", tube.second_moment().to(in4)),
            (7, 14, "S", tube.section_modulus().to(cu_in)),
            (8, 14, "Z", tube.plastic_modulus().to(cu_in)),
            (10, 14, "D/t", tube.slenderness()),
            (11, 15, "Fy", strength.to(ksi)),
            (12, 15, "Mn/1.67", post.strength().moment.to(kip_in)),
        ] {
            table.marked(&row[mark]);
            table.cell(
                format!("{} in {} {name}", row[1], row[0]),
                &row[column],
                ours,
            );
        }
    }
}

fn square_tubes(table: &mut Table) {
    for row in table.rows() {
        let metric = row[0] == "mm";
        let length = if metric { mm } else { inch };
        let tube = SquareTube::new(length(number(&row[1])), length(number(&row[2]))).unwrap();
        let ours = if metric {
            [
                tube.area().to(sq_mm) / 1e2,
                tube.second_moment().to(mm4) / 1e4,
                tube.section_modulus().to(cu_mm) / 1e3,
                tube.plastic_modulus().to(cu_mm) / 1e3,
            ]
        } else {
            [
                tube.area().to(sq_in),
                tube.second_moment().to(in4),
                tube.section_modulus().to(cu_in),
                tube.plastic_modulus().to(cu_in),
            ]
        };
        table.marked(&row[7]);
        // I and S of this one stand 0.17 % over the geometry.
        let odd = row[1] == "2.0" && row[2] == "0.174";
        for ((name, cell), ours) in ["A", "I", "S", "Z"].iter().zip(&row[3..]).zip(ours) {
            let at = format!("{} × {} {} {name}", row[1], row[2], row[0]);
            if odd && ["I", "S"].contains(name) {
                table.within(at, cell, ours, 0.002 * ours);
            } else {
                table.cell(at, cell, ours);
            }
        }
    }
    // The catalogue is of these.
    let rows = table.rows();
    let inches: Vec<_> = rows.iter().filter(|row| row[0] == "in").collect();
    assert_eq!(inches.len(), catalogue::SQUARE_TUBES.len());
    for (row, tube) in inches.iter().zip(&catalogue::SQUARE_TUBES) {
        let section = tube.section().unwrap();
        let size = (section.side().to(inch), section.wall().to(inch));
        assert!((size.0 - number(&row[1])).abs() < 1e-9 && (size.1 - number(&row[2])).abs() < 1e-9);
        assert!(tube.name().starts_with(&row[1][..1]));
    }
}

/// One of a unit in another, by the parser.
fn units(table: &mut Table) {
    fn one<Q: Measurable>(unit: &str, other: &str) -> Option<f64> {
        let si = |unit: &str| parse::<Q>(&format!("1 {unit}")).map(Q::si);
        Some(si(unit).ok()? / si(other).ok()?)
    }
    for row in table.rows() {
        let ways: [fn(&str, &str) -> Option<f64>; 8] = [
            one::<Length>,
            one::<Force>,
            one::<Pressure>,
            one::<Torque>,
            one::<LineLoad>,
            one::<ForcePerVolume>,
            one::<SecondMoment>,
            one::<Velocity>,
        ];
        let ours = ways.iter().find_map(|way| way(&row[0], &row[1])).unwrap();
        table.marked(&row[3]);
        table.cell(format!("{} in {}", row[0], row[1]), &row[2], ours);
    }
}

fn combinations(table: &mut Table) {
    fn of<L: Combined>(level: L) -> ([f64; 3], Mark) {
        let set = Combination::of(level);
        ([set.wind(), set.dead(), set.relieving()], set.source().mark)
    }
    for row in table.rows() {
        let (ours, mark) = match row[0].as_str() {
            "allowable basic" => of(AllowableStress::Basic),
            "allowable alternative" => of(AllowableStress::AlternativeWithIncrease),
            "load and resistance" => of(LoadAndResistance),
            "EN STR" => of(PartialFactor::Structure),
            "EN EQU" => of(PartialFactor::Equilibrium),
            "EN UPL" => of(PartialFactor::Uplift),
            "EN GEO" => of(PartialFactor::ReducedGround),
            "AS/NZS ultimate" => of(UltimateCombined),
            other => panic!("{other}"),
        };
        assert_eq!(mark.name(), row[4]);
        table.marked(&row[4]);
        for ((cell, name), ours) in row[1..4]
            .iter()
            .zip(["wind", "dead", "relieving"])
            .zip(ours)
        {
            // Two thirds are no decimal.
            if cell.len() > 4 {
                table.cell(format!("{} {name}", row[0]), cell, ours);
            } else {
                table.exact(format!("{} {name}", row[0]), cell, ours);
            }
        }
    }
}
