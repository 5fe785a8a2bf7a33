//! Pull-out, frost and quantities: the cases of uplift.csv.

use super::Method;
use crate::uplift::{BASIC, clay};
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::backfill::{Bag, annulus};
use groundline::combination::{Combination, WindUplift};
use groundline::foundation::Hole;
use groundline::limit_state::Strength;
use groundline::profile::{Profile, Soil};
use groundline::section::{PostSection, Square, Tube};
use groundline::units::*;
use groundline::uplift::*;

pub(crate) const METHODS: &[Method] = &[
    (
        "ibc_presumptive_friction",
        "presumptive friction",
        presumptive,
    ),
    ("collar_friction", "friction on a collar", collar),
    (
        "collar_friction_top_excluded",
        "friction on a collar, top left out",
        collar,
    ),
    ("soil_cone", "cone of soil", cone),
    (
        "soil_cone_on_collar",
        "cone of soil on a collar",
        cone_on_collar,
    ),
    ("api_alpha", "alpha of API RP 2A", alpha_api),
    (
        "drilled_shaft_alpha",
        "alpha of drilled shafts",
        alpha_of_shafts,
    ),
    ("alpha_uplift", "pull-out by alpha", alpha_uplift),
    (
        "alpha_uplift_top_excluded",
        "pull-out by alpha, top left out",
        alpha_uplift,
    ),
    ("beta_uplift", "pull-out by beta", beta_uplift),
    ("wood_concrete_bond", "bond of wood in concrete", bond),
    ("adfreeze_force", "grip of frozen ground", frost),
    (
        "frost_heave_balance_depth",
        "depth that frost does not lift",
        frost,
    ),
    ("stefan_si", "depth of frost, Stefan", stefan),
    ("berggren_lambda", "lambda of the depth of frost", lambda),
    ("annulus_bags", "bags round a post", quantities),
    ("hole_bags", "bags for a hole", quantities),
    ("bags_per_yd3", "bags per cubic yard", quantities),
    ("asd_uplift_combination", "uplift left over", uplift_left),
    (
        "uplift_circular_sand",
        "plate breaking out of sand",
        breakout,
    ),
];

fn frost(case: &Case) {
    let perimeter: Length = if case.has("D") {
        case.input::<Length>("D") * std::f64::consts::PI
    } else {
        case.input("perimeter")
    };
    let grip = Adfreeze::new(case.input("tau"), perimeter, case.input("frost")).unwrap();
    if case.expects("F") {
        case.compare("F", grip.force());
        return;
    }
    let (friction, factor): (Pressure, f64) =
        (case.input("fs_below_frost"), case.number("FS_friction"));
    let (weight, load): (ForcePerVolume, Force) = (case.input("gamma_concrete"), case.input("P"));
    let depth = grip
        .balancing_depth(weight, load, friction, factor)
        .unwrap();
    case.compare("L", depth);
    // At that depth the balance is even.
    let d: Length = case.input("D");
    let own = weight * (d * d * std::f64::consts::FRAC_PI_4) * depth;
    let below = friction * perimeter * (depth - case.input::<Length>("frost")) / factor;
    let even = grip.balance(depth, own + load, below).unwrap();
    assert_relative_eq!(even.lifts.value, even.holds.value, max_relative = 1e-9);
    // A plain cylinder that stops at frost depth does not stay.
    let frost: Length = case.input("frost");
    let own = weight * (d * d * std::f64::consts::FRAC_PI_4) * frost;
    let plain = grip.balance(frost, own + load, kn(0.0)).unwrap();
    assert!(!plain.stays() && plain.ends_in_frost);
    assert!(plain.remedy().unwrap().contains("stops in the frost"));
    let deeper = grip.balance(frost * 1.1, own + load, kn(0.0)).unwrap();
    assert!(deeper.remedy().unwrap().contains("deeper"));
    let held = grip.balance(frost * 1.1, own + load, kn(1e4)).unwrap();
    assert_eq!(held.remedy(), None);
    // Whatever is said to anchor it, a shaft that ends in the frost does not
    // stay, and no load makes one of it.
    for shallow in [0.05, 0.5, 1.0] {
        let balance = grip.balance(frost * shallow, own + load, kn(1e4)).unwrap();
        assert!(!balance.stays() && balance.holds == own + load);
    }
    let heavy = grip.balancing_depth(weight, kn(500.0), friction, factor);
    assert_eq!(heavy.unwrap(), frost);
}

fn bag(pounds: &str) -> Bag {
    match pounds {
        "40" => Bag::lb_40(),
        "50" => Bag::lb_50(),
        "60" => Bag::lb_60(),
        _ => Bag::lb_80(),
    }
}

fn quantities(case: &Case) {
    if case.method == "bags_per_yd3" {
        let all: Vec<_> = ["80", "60", "40"]
            .map(|pounds| Ratio::from_si(bag(pounds).count(cu_yd(1.0), 0.0).unwrap().buy))
            .to_vec();
        case.compare_all("bags", &all);
        return;
    }
    let hole = Hole::round(case.input("hole")).unwrap();
    let depth: Length = case.input("depth");
    let volume = if case.has("post_square") {
        let post = PostSection::Square(Square::new(case.input("post_square")).unwrap());
        annulus(&hole, &post, depth, inch(0.0)).unwrap()
    } else if case.has("post_round") {
        let post = PostSection::Tube(Tube::new(case.input("post_round"), inch(0.13)).unwrap());
        annulus(&hole, &post, depth, inch(0.0)).unwrap()
    } else {
        hole.volume(depth)
    };
    case.compare("V", volume);
    for pounds in ["50", "60", "80"] {
        let bags = bag(pounds).count(volume, 0.0).unwrap();
        let (exact, buy) = (format!("bags_{pounds}lb"), format!("bags_{pounds}lb_buy"));
        if case.expects(&exact) {
            case.compare_number(&exact, bags.exact);
        }
        if case.expects(&buy) {
            case.compare_number(&buy, bags.buy);
        }
    }
}

fn presumptive(case: &Case) {
    let all: Vec<_> = case
        .inputs::<Pressure>("bearing")
        .into_iter()
        .map(|bearing| presumptive_friction(bearing).unwrap())
        .collect();
    case.compare_all("fs", &all);
}

fn collar(case: &Case) {
    let excluded = if case.has("excluded_top") {
        case.input("excluded_top")
    } else {
        m(0.0)
    };
    let shaft = Shaft::round(case.input("D"), case.input("L"), excluded).unwrap();
    let friction = Friction::Given(case.input("fs"));
    let profile = clay(kpa(50.0));
    case.compare("R", friction.resistance(&profile, &shaft).unwrap());
    if case.expects("W") {
        let weight = shaft.area() * shaft.depth() * case.input::<ForcePerVolume>("gamma");
        case.compare("W", weight);
        let set = Combination::of(BASIC);
        case.compare("W_0.6", set.relieving_weight(weight).unwrap());
    }
}

fn cone(case: &Case) {
    let volumes: Vec<Volume> = case
        .inputs::<Angle>("theta")
        .into_iter()
        .map(|theta| soil_cone(case.input("r1"), case.input("H"), theta).unwrap())
        .collect();
    case.compare_all("V", &volumes);
    let gamma: ForcePerVolume = case.input("gamma");
    let weights: Vec<Force> = volumes.into_iter().map(|v| v * gamma).collect();
    case.compare_all("W", &weights);
}

fn cone_on_collar(case: &Case) {
    let radius = case.input::<Length>("collar_D") * 0.5;
    let v = soil_cone(radius, case.input("H"), case.input("theta")).unwrap();
    case.compare("V_cone", v);
    let net = v - case.input::<Volume>("V_post");
    case.compare("V_net", net);
    case.compare("W", net * case.input::<ForcePerVolume>("gamma"));
}

fn alpha_api(case: &Case) {
    let alpha = api_alpha(case.input("su"), case.input("sigma_v")).unwrap();
    case.compare_number("alpha", alpha);
}

fn alpha_of_shafts(case: &Case) {
    let all: Vec<_> = case
        .inputs::<Pressure>("su")
        .into_iter()
        .map(|su| Ratio::from_si(drilled_shaft_alpha(su).unwrap()))
        .collect();
    case.compare_all("alpha", &all);
}

fn alpha_uplift(case: &Case) {
    let excluded = if case.has("excluded_top") {
        case.input("excluded_top")
    } else {
        m(0.0)
    };
    let shaft = Shaft::round(case.input("D"), case.input("L"), excluded).unwrap();
    let friction = Friction::alpha(case.number("alpha")).unwrap();
    case.compare(
        "R",
        friction
            .resistance(&clay(case.input("su")), &shaft)
            .unwrap(),
    );
}

fn beta_uplift(case: &Case) {
    let shaft = Shaft::round(case.input("D"), case.input("L"), m(0.0)).unwrap();
    let sand = Soil::new(case.input("gamma"))
        .unwrap()
        .with_friction_angle(deg(35.0))
        .unwrap();
    let friction = Friction::beta(case.number("K"), case.input("delta")).unwrap();
    let profile = Profile::uniform(sand).unwrap();
    case.compare("R", friction.resistance(&profile, &shaft).unwrap());
}

fn bond(case: &Case) {
    assert_eq!(case.input::<Pressure>("bond"), lb_per_sq_in(30.0));
    let bond = Bond::wood_in_concrete(case.input("perimeter"), case.input("length")).unwrap();
    case.compare("R", bond.resistance());
}

fn stefan(case: &Case) {
    let value = |name: &str| {
        case.word(name)
            .split(' ')
            .next()
            .unwrap()
            .parse::<f64>()
            .unwrap()
    };
    let depth = frost_depth(
        ThermalConductivity::watt_per_m_k(value("k")).unwrap(),
        1.0,
        FreezingIndex::celsius_days(value("F")).unwrap(),
        LatentHeat::mj_per_cu_m(value("L")).unwrap(),
        1.0,
    );
    case.compare("X", depth.unwrap());
}

fn lambda(case: &Case) {
    let lambda = berggren_lambda(case.number("mu"), case.number("alpha")).unwrap();
    case.compare_number("lambda", lambda);
}

fn uplift_left(case: &Case) {
    let set = Combination::of(BASIC);
    let up = WindUplift::new(case.input("U_strength"), Strength).unwrap();
    case.compare("net_up", set.net_uplift(&up, case.input("D")).unwrap());
}

fn breakout(case: &Case) {
    let (phi, gamma) = (case.input("phi"), case.input("gamma"));
    let plate = Breakout::new(phi, gamma, case.input("B"), case.input("Df")).unwrap();
    let used = [case.number("m"), case.number("Ku")];
    assert_eq!(used, [0.25, 0.936]);
    if case.expects("Fq") {
        case.compare_number("Fq", plate.factor());
    }
    case.compare("Q", plate.ultimate());
}
