//! Members of textbooks, textbook_members.csv: the size at which the
//! strength of a post just meets the book's load.

use super::Method;
use crate::vectors::Case;
use groundline::actions::GroundlineActions;
use groundline::post::*;
use groundline::section::{Disc, Square, Tube};
use groundline::units::*;

/// A strength that the case does not ask for.
fn usual() -> Pressure {
    lb_per_sq_in(150.0)
}

pub(crate) const METHODS: &[Method] = &[
    ("post_cantilever_round", "round cantilever", cantilever),
    (
        "post_square_triangular_load",
        "square post under water pressure",
        triangular_load,
    ),
    ("tube_shear_stress", "shear in a tube", tube_shear_stress),
    ("soldier_posts", "soldier posts, spacing", soldier_posts),
    ("sign_on_two_tubes", "sign on two tubes", sign),
    ("sign_on_two_tubes_metric", "sign on two tubes", sign),
    ("pipe_section", "pipe section", pipe_section),
    ("ec5_beam", "beam to EN 1995", ec5_beam),
    (
        "pole_groundline_circumference",
        "pole, groundline circumference",
        circumference,
    ),
];

/// The size between two at which `holds` reaches `needs`.
fn size<Q: Measurable>(
    least: Length,
    most: Length,
    needs: Q,
    holds: impl Fn(Length) -> Q,
) -> Length {
    let (mut low, mut high) = (least, most);
    assert!(holds(low) < needs && holds(high) > needs);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if holds(middle) < needs {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// A round post with no adjustment: the book's allowable stress.
fn round(section: Disc, bending: Pressure, shear: Pressure) -> PostStrength {
    let post = RoundTimber::new(section, bending, shear).unwrap();
    let mut factors = *post.factors();
    factors.load_duration = 1.0;
    factors.size = 1.0;
    post.with_factors(factors).unwrap().strength()
}

/// A tube whose allowable stress in bending is the book's.
fn tube(diameter: Length, wall_share: f64, allowable: Pressure) -> PostStrength {
    let metal = Aluminium::given(allowable * 1.65, allowable * 1.65 * 1.5).unwrap();
    let section = Tube::new(diameter, diameter * wall_share).unwrap();
    AluminiumPost::new(section, metal).unwrap().strength()
}

fn cantilever(case: &Case) {
    let needs = moment(case.input("P"), case.input("h"));
    let wood: Pressure = case.input("allowable_wood");
    let solid = size(mm(50.0), mm(600.0), needs, |d| {
        round(Disc::new(d).unwrap(), wood, usual()).moment
    });
    case.compare("d_solid", solid);
    let (share, stress) = (case.number("t_over_d"), case.input("allowable_aluminium"));
    let hollow = size(mm(50.0), mm(600.0), needs, |d| {
        tube(d, share, stress).moment
    });
    case.compare("d_tube", hollow);
}

fn triangular_load(case: &Case) {
    let (h, spacing): (Length, Length) = (case.input("h"), case.input("spacing"));
    let unit: ForcePerVolume = case.input("gamma");
    let resultant = unit * h * h * spacing / 2.0;
    let needs = moment(resultant, h / 3.0);
    let values = DesignValues::new(case.input("allowable"), usual(), SizeClass::Timbers).unwrap();
    let side = size(mm(120.0), mm(400.0), needs, |side| {
        let section = Square::new(side).unwrap();
        let (moisture, treatment) = (Moisture::Wet, Treatment::NotIncised);
        let post = TimberPost::new(section, values, moisture, treatment).unwrap();
        let mut factors = *post.factors();
        factors.load_duration = 1.0;
        factors.size = 1.0;
        post.with_factors(factors).unwrap().strength().moment
    });
    case.compare("b", side);
}

fn tube_shear_stress(case: &Case) {
    let outside: Length = case.input("d2");
    let inside: Length = case.input("d1");
    let section = Tube::new(outside, (outside - inside) / 2.0).unwrap();
    let shear: Force = case.input("V");
    let stress = shear / section.shear_area();
    case.compare("tau", stress);
    let solid = size(inch(1.0), inch(10.0), shear, |d| {
        round(Disc::new(d).unwrap(), ksi(1.0), stress).shear
    });
    case.compare("d_solid", solid);
}

fn soldier_posts(case: &Case) {
    let (top, bottom): (Pressure, Pressure) = (case.input("p_top"), case.input("p_bottom"));
    let h: Length = case.input("h");
    let per_length = (top / 2.0 + (bottom - top) / 6.0) * h * h;
    let section = Disc::new(case.input("post_diameter")).unwrap();
    let holds = round(section, case.input("allowable"), usual()).moment;
    case.compare("post_spacing", m(holds.value / per_length.value));
}

fn sign(case: &Case) {
    let (force, needs) = if case.has("W") {
        (case.input("W"), case.input("M"))
    } else {
        let (h1, h2): (Length, Length) = (case.input("h1"), case.input("h2"));
        let (b, p): (Length, Pressure) = (case.input("b"), case.input("p"));
        let wind = GroundlineActions::wind(p * h2 * b / 2.0, h1 + h2 / 2.0).unwrap();
        case.compare("W_per_post", wind.shear());
        case.compare("M", wind.moment());
        (wind.shear(), wind.moment())
    };
    let share = case.number("t_over_d");
    let bending: Pressure = case.input("bending");
    let diameter = size(mm(40.0), mm(600.0), needs, |d| {
        tube(d, share, bending).moment
    });
    case.compare("d_bending", diameter);
    let stress: Pressure = case.input("shear");
    let diameter = size(mm(40.0), mm(600.0), force, |d| -> Force {
        stress * Tube::new(d, d * share).unwrap().shear_area()
    });
    case.compare("d_shear", diameter);
}

fn pipe_section(case: &Case) {
    let outside: Length = case.input("d2");
    let inside: Length = case.input("d1");
    let section = Tube::new(outside, (outside - inside) / 2.0).unwrap();
    case.compare("A", section.area());
    case.compare("I", section.second_moment());
    case.compare("Q", section.plastic_modulus() / 2.0);
}

fn ec5_beam(case: &Case) {
    assert_eq!(case.word("class"), "C24");
    let (b, h): (Length, Length) = (case.input("b"), case.input("h"));
    // The strength of the depth; posts here are square, the beam not.
    let square = Square::new(h).unwrap();
    let post = TimberEn1995::new(square, TimberClass::C24, case.number("kmod")).unwrap();
    let shape: Volume = b * h * h / 6.0;
    let holds = bending_moment(post.bending_strength(), shape) * case.number("ksys");
    let needs: Torque = case.input("M");
    case.compare_number("utilization", (needs / holds).value);
}

fn circumference(case: &Case) {
    let stress: Pressure = case.input("stress");
    let needs: Torque = case.input("M");
    let circumference = size(inch(10.0), inch(100.0), needs, |c| {
        round(Disc::of_circumference(c).unwrap(), stress, usual()).moment
    });
    case.compare("c", circumference);
}
