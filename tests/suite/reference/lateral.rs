//! Limit-state methods: the cases of soil.csv.

use super::Method;
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::lateral::*;
use groundline::profile::{Profile, Soil, presumed};
use groundline::section::Tube;
use groundline::units::*;

pub(crate) const METHODS: &[Method] = &[
    (
        "broms_clay_short_free",
        "Broms, clay, short post",
        clay_short,
    ),
    (
        "broms_clay_quadratic",
        "Broms, clay, its quadratic",
        clay_quadratic,
    ),
    (
        "broms_sand_short_free",
        "Broms, sand, short post",
        sand_short,
    ),
    (
        "broms_clay_long_free",
        "Broms, clay, post yields",
        clay_long,
    ),
    (
        "broms_sand_long_free",
        "Broms, sand, post yields",
        sand_long,
    ),
    (
        "broms_sand_short_fixed",
        "Broms, sand, head restrained",
        sand_restrained,
    ),
    (
        "chs_plastic_moment",
        "plastic moment of a tube",
        plastic_moment,
    ),
    (
        "broms_classification_clay",
        "short or long, clay",
        length_class_clay,
    ),
    (
        "broms_classification_sand",
        "short or long, sand",
        length_class_sand,
    ),
    (
        "ufc_drained_depth",
        "depth by UFC 3-220-20, sand",
        reduced_depth,
    ),
    (
        "hansen_constants",
        "Brinch Hansen, constants",
        hansen_constants,
    ),
    ("hansen_kq_kc", "Brinch Hansen, Kq and Kc", hansen_kq_kc),
    (
        "hansen_kc_phi0",
        "Brinch Hansen, Kc at zero angle",
        hansen_kq_kc,
    ),
    ("hansen_pier", "Brinch Hansen, pier", hansen_pier),
    (
        "api_sand_coefficients",
        "coefficients of sand, API RP 2A",
        api_sand_coefficients,
    ),
    (
        "plastic_linear_nonconstrained_S_3gammaKp",
        "rigid plastic, growing, S = 3 γ Kp",
        plastic_of_angle,
    ),
    (
        "plastic_linear_nonconstrained",
        "rigid plastic, growing",
        plastic_nonconstrained,
    ),
    (
        "plastic_constant_nonconstrained",
        "rigid plastic, constant",
        plastic_nonconstrained,
    ),
    (
        "plastic_linear_constrained",
        "rigid plastic, growing, held at grade",
        plastic_linear_constrained,
    ),
    (
        "plastic_graded_clay_constrained",
        "rigid plastic, graded clay, held at grade",
        plastic_graded_clay_constrained,
    ),
    ("presumed_sand", "presumed sand", presumed_sand),
];

fn clay(case: &Case) -> BromsClay {
    BromsClay::new(case.input("cu"), case.input("b")).unwrap()
}

fn sand(case: &Case) -> BromsSand {
    BromsSand::new(case.input("gamma"), case.input("phi"), case.input("b")).unwrap()
}

fn clay_short(case: &Case) {
    let ultimate = clay(case)
        .ultimate(case.input("L"), case.input("e"))
        .unwrap();
    case.compare("Hu", ultimate.shear);
    case.compare("Mmax", ultimate.greatest_moment);
    assert_eq!(ultimate.mode, Mode::Ground);
}

fn clay_quadratic(case: &Case) {
    // Hu² + linear Hu − constant = 0, from 4X times the balance.
    let (b, e, l): (Length, Length, Length) = (case.input("b"), case.input("e"), case.input("L"));
    let x = case.input::<Pressure>("cu").value * 9.0 * b.value;
    let l0 = l.value - 1.5 * b.value;
    let linear = 4.0 * x * (e.value + 1.5 * b.value + 0.5 * l0);
    let constant = x * x * l0 * l0;
    case.compare("linear_coefficient", newton(linear));
    case.compare_in_unit("constant", &[constant / 1e6]);
    let ultimate = clay(case).ultimate(l, e).unwrap();
    case.compare("Hu", ultimate.shear);
    case.compare("Mmax", ultimate.greatest_moment);
}

fn sand_short(case: &Case) {
    let ultimate = sand(case)
        .ultimate(case.input("L"), case.input("e"))
        .unwrap();
    case.compare("Hu", ultimate.shear);
    if case.expects("f") {
        case.compare("f", ultimate.zero_shear);
        case.compare("Mmax", ultimate.greatest_moment);
    }
}

fn clay_long(case: &Case) {
    let post = clay(case).yielding_at(case.input("My")).unwrap();
    let ultimate = post.ultimate(m(5.0), case.input("e")).unwrap();
    assert_eq!(ultimate.mode, Mode::PostBelow);
    case.compare("Hu", ultimate.shear);
    let b: Length = case.input("b");
    case.compare("f", ultimate.zero_shear - b * 1.5);
    assert_relative_eq!(
        ultimate.greatest_moment.value,
        case.input::<Torque>("My").value,
        max_relative = 1e-12
    );
}

fn sand_long(case: &Case) {
    let post = sand(case).yielding_at(case.input("My")).unwrap();
    let ultimate = post.ultimate(m(5.0), case.input("e")).unwrap();
    assert_eq!(ultimate.mode, Mode::PostBelow);
    case.compare("Hu", ultimate.shear);
    case.compare("f", ultimate.zero_shear);
}

fn sand_restrained(case: &Case) {
    let post = if case.has("Kp") {
        BromsSand::with_passive_coefficient(case.input("gamma"), case.number("Kp"), case.input("b"))
            .unwrap()
    } else {
        sand(case)
    };
    let post = post.with_head(Head::Restrained);
    let ultimate = post.ultimate(case.input("L"), m(0.0)).unwrap();
    case.compare("Hu", ultimate.shear);
    if case.expects("Mmax") {
        case.compare("Mmax", ultimate.greatest_moment);
    } else {
        case.compare_number("Kp", post.passive());
    }
}

fn plastic_moment(case: &Case) {
    let (outer, inner): (Length, Length) = (case.input("D"), case.input("d"));
    let tube = Tube::new(outer, (outer - inner) * 0.5).unwrap();
    let my = bending_moment(case.input("fy"), tube.plastic_modulus());
    case.compare("My", my);
}

fn length_class_clay(case: &Case) {
    let kh = LengthClass::clay_modulus(
        case.input("qu"),
        case.input("b"),
        case.number("n1"),
        case.number("n2"),
    )
    .unwrap();
    case.compare("Kh", kh);
    let b: Length = case.input("b");
    let e: Pressure = case.input("E");
    let rigidity = FlexuralRigidity::from_si(e.value * b.value.powi(4) / 12.0);
    let (beta_l, class) = LengthClass::in_constant(kh, b, rigidity, case.input("L")).unwrap();
    case.compare_number("beta_L", beta_l);
    assert_eq!(class, LengthClass::Short);
}

fn length_class_sand(case: &Case) {
    // E 4e5 kgf/cm², I 106435 cm⁴.
    let ei = 4e5 * 9.806_65e4 * 106_435e-8;
    let (eta_l, class) =
        LengthClass::in_growing(case.input("Kh"), n_sq_m(ei), case.input("L")).unwrap();
    let l: Length = case.input("L");
    case.compare_in_unit("eta", &[eta_l / l.to(inch)]);
    case.compare_number("eta_L", eta_l);
    assert_eq!(class, LengthClass::Long);
}

fn reduced_depth(case: &Case) {
    let post = ReducedSand::new(case.input("gamma"), case.input("phi"), case.input("b")).unwrap();
    case.compare("phi_reduced", post.reduced_angle());
    case.compare_number("Kp", post.broms().passive());
    let (p, mo): (Force, Torque) = (case.input("P"), case.input("M"));
    let needed = post.needed_depth(p, arm(mo, p)).unwrap();
    case.compare("Z", needed.depth().unwrap());
}

fn hansen_constants(case: &Case) {
    let c = HansenConstants::new(case.input("phi")).unwrap();
    for (name, ours) in [
        ("Kq0", c.kq_surface),
        ("Kc0", c.kc_surface),
        ("dc_inf", c.depth_factor),
        ("Nc", c.nc),
        ("Kc_inf", c.kc_depth),
        ("Kq_inf", c.kq_depth),
        ("alpha_q", c.alpha_q),
        ("alpha_c", c.alpha_c),
    ] {
        case.compare_number(name, ours);
    }
}

fn hansen_kq_kc(case: &Case) {
    let c = HansenConstants::new(case.input("phi")).unwrap();
    let (kq, kc) = c.at(case.number("z_over_b"));
    if case.expects("Kq") {
        case.compare_number("Kq", kq);
    } else {
        assert_eq!(kq, 0.0);
    }
    case.compare_number("Kc", kc);
}

fn hansen_pier(case: &Case) {
    let phi: Angle = case.input("phi");
    let soil = Soil::new(case.input("gamma")).unwrap();
    let soil = if phi.value > 0.0 {
        soil.with_friction_angle(phi).unwrap()
    } else {
        soil.with_undrained_strength(case.input("c")).unwrap()
    };
    let profile = Profile::uniform(soil).unwrap();
    let post = Hansen::new(&profile, case.input("b"), Drainage::Drained).unwrap();
    let ultimate = post.ultimate(case.input("L"), case.input("e")).unwrap();
    case.compare("x", ultimate.rotation.unwrap());
    case.compare("Hu", ultimate.shear);
}

fn api_sand_coefficients(case: &Case) {
    let all: Vec<[f64; 3]> = case
        .inputs::<Angle>("phi")
        .into_iter()
        .map(|phi| groundline::response::api_sand_coefficients(phi).unwrap())
        .collect();
    for (i, name) in ["C1", "C2", "C3"].into_iter().enumerate() {
        let ours: Vec<_> = all.iter().map(|c| Ratio::from_si(c[i])).collect();
        case.compare_all(name, &ours);
    }
}

fn plastic_of_angle(case: &Case) {
    let (b, d): (Length, Length) = (case.input("b"), case.input("d"));
    let kp = passive_coefficient(case.input("phi"));
    case.compare_number("Kp", kp);
    let s = case.input::<ForcePerVolume>("gamma") * (3.0 * kp);
    case.compare("S", s);
    let post = RigidPlastic::linear(s, b).unwrap();
    let limit = post.beside_shear(d, case.input("V")).unwrap().unwrap();
    case.compare("zR", limit.rotation);
    case.compare("Mu", limit.moment);
}

fn plastic_nonconstrained(case: &Case) {
    let (b, d): (Length, Length) = (case.input("b"), case.input("d"));
    let post = if case.method.contains("linear") {
        RigidPlastic::linear(case.input("S"), b).unwrap()
    } else {
        RigidPlastic::constant(case.input("S"), b).unwrap()
    };
    let limit = post.beside_shear(d, case.input("V")).unwrap().unwrap();
    case.compare("zR", limit.rotation);
    case.compare("Mu", limit.moment);
}

fn plastic_linear_constrained(case: &Case) {
    let (b, d): (Length, Length) = (case.input("b"), case.input("d"));
    let post = RigidPlastic::linear(case.input("S"), b).unwrap();
    case.compare("Mu", post.constrained(d).unwrap());
}

fn plastic_graded_clay_constrained(case: &Case) {
    let (b, d): (Length, Length) = (case.input("b"), case.input("d"));
    let post = RigidPlastic::graded_clay(case.input("Su"), b).unwrap();
    case.compare("Mu", post.constrained(d).unwrap());
}

fn presumed_sand(case: &Case) {
    assert_eq!(case.word("state"), "natural");
    let ground = presumed::default_sand().unwrap();
    let soil = ground.layers()[0].soil();
    case.compare("gamma", soil.unit_weight());
    case.compare("phi", soil.friction_angle().unwrap());
    case.compare("c", soil.cohesion());
    case.compare("water", ground.water().unwrap());
}
