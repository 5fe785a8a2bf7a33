//! A profile of layers drawn from bytes, through every method of the ground.

use super::draw::Draw;
use super::holds::{finite, not_negative, refused, sound, used};
use groundline::Error;
use groundline::actions::GroundlineActions;
use groundline::combination::Combination;
use groundline::embedment::PoleFormula;
use groundline::foundation::{BearingWidth, Restraint};
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::lateral::*;
use groundline::limit_state::AllowableStress;
use groundline::profile::{BearingSurface, Layer, Profile, Soil, Stiffness, presumed};
use groundline::report;
use groundline::response::{ClayCurve, Curve, Loading, PostModel, Response, Springs, closed_form};
use groundline::side_by_side::SideBySide;
use groundline::step::Worksheet;
use groundline::units::*;
use groundline::uplift::*;

/// Runs one input, whatever it is.
pub(crate) fn run(data: &[u8]) {
    let draw = &mut Draw::new(data);
    let asked = draw.below(5);
    let profile = match profile(draw) {
        Ok(profile) => profile,
        Err(error) => return refused(&error),
    };
    let done = match asked {
        0 => lateral(&profile, draw),
        1 => side_by_side(profile, draw),
        2 => response(&profile, draw),
        3 => uplift(&profile, draw),
        _ => frost(draw),
    };
    if let Err(error) = done {
        refused(&error);
    }
}

fn soil(draw: &mut Draw<'_>) -> Result<Soil, Error> {
    let kind = draw.below(256);
    let mut soil = Soil::new(kn_per_cu_m(draw.number(5.0, 30.0)))?;
    if kind & 1 != 0 {
        soil = soil.with_saturated_weight(kn_per_cu_m(draw.number(10.0, 30.0)))?;
    }
    if kind & 2 != 0 {
        soil = soil.with_friction_angle(deg(draw.number(1.0, 50.0)))?;
    }
    if kind & 4 != 0 {
        soil = soil.with_cohesion(kpa(draw.number(0.0, 1_000.0)))?;
    }
    if kind & 8 != 0 || kind & 2 == 0 {
        soil = soil.with_undrained_strength(kpa(draw.size(1.0, 1_000.0)))?;
    }
    let subgrade = kn_per_cu_m(draw.size(10.0, 1e7));
    Ok(match kind >> 6 {
        0 => soil.with_stiffness(Stiffness::Constant(subgrade))?,
        1 => soil.with_stiffness(Stiffness::Growing(subgrade))?,
        2 => {
            let modulus = mpa(draw.size(0.1, 10_000.0));
            soil.with_stiffness(Stiffness::Modulus(modulus, draw.number(0.0, 0.5)))?
        }
        _ if kind & 16 != 0 => soil,
        _ => {
            let density = draw.of(&[
                presumed::Density::Loose,
                presumed::Density::Medium,
                presumed::Density::Dense,
            ]);
            presumed::with_sand_stiffness(soil, density, kind & 32 != 0)?
        }
    })
}

fn profile(draw: &mut Draw<'_>) -> Result<Profile, Error> {
    let kind = draw.below(64);
    let mut layers = Vec::new();
    for _ in 0..=kind % 4 {
        let thick = m(draw.size(0.01, 100.0));
        layers.push(Layer::new(thick, soil(draw)?)?);
    }
    if kind & 32 != 0 {
        // Deep enough for anything.
        layers.push(Layer::new(m(100.0), soil(draw)?)?);
    }
    let mut profile = Profile::new(layers)?;
    if kind & 4 != 0 {
        profile = profile.with_water_at(m(draw.number(0.0, 12.0)))?;
    }
    if kind & 8 != 0 {
        profile = profile.discounting_top(m(draw.number(0.0, 6.096)))?;
    }
    if kind & 16 != 0 {
        profile = profile.borne_by(BearingSurface::Backfill(soil(draw)?))?;
    }
    let z = m(100.0) * draw.plain();
    let (above, below) = (
        profile.effective_stress(z),
        profile.effective_stress(z * 2.0),
    );
    not_negative("effective stress", &[above, below, below - above]);
    Ok(profile)
}

/// The width of a post or footing.
fn width(draw: &mut Draw<'_>) -> Length {
    m(draw.size(0.02, 3.0))
}

fn yields(draw: &mut Draw<'_>) -> Option<Torque> {
    draw.yes().then(|| n_m(draw.size(1.0, 1e9)))
}

fn lateral(profile: &Profile, draw: &mut Draw<'_>) -> Result<(), Error> {
    let width = width(draw);
    let depth = m(draw.size(0.01, 30.0));
    let yields = yields(draw);
    let head = draw.of(&[Head::Free, Head::Restrained]);
    let drainage = draw.of(&[Drainage::Drained, Drainage::Undrained]);
    // Made at once, so that the refusal of one hides no other.
    let kind = draw.below(8);
    let method: Box<dyn LateralMethod> = match kind {
        0 => {
            let made = BromsClay::of(profile, width, depth)?.with_head(head);
            Box::new(yields.map_or(Ok(made), |at| made.yielding_at(at))?)
        }
        1 => {
            let made = BromsSand::of(profile, width, depth)?.with_head(head);
            Box::new(yields.map_or(Ok(made), |at| made.yielding_at(at))?)
        }
        2 | 3 => {
            let made = Hansen::new(profile, width, drainage)?;
            Box::new(match yields {
                Some(at) => made.yielding_at(at)?,
                None => made,
            })
        }
        4 => {
            let made = ReducedClay::of(profile, width, depth)?;
            Box::new(yields.map_or(Ok(made), |at| made.yielding_at(at))?)
        }
        5 => {
            let made = ReducedSand::of(profile, width, depth)?;
            Box::new(yields.map_or(Ok(made), |at| made.yielding_at(at))?)
        }
        kind => {
            let made = match (kind, draw.yes()) {
                (6, _) => RigidPlastic::linear(kn_per_cu_m(draw.size(0.1, 10_000.0)), width)?,
                (_, true) => RigidPlastic::constant(kpa(draw.size(0.1, 100_000.0)), width)?,
                (_, false) => RigidPlastic::graded_clay(kpa(draw.size(1.0, 1_000.0)), width)?,
            };
            let shear = newton(draw.size(0.1, 4.4e7));
            not_negative("held moment", &[made.constrained(depth)?]);
            if let Some(limit) = made.beside_shear(depth, shear)? {
                finite("moment beside shear", &[limit.moment]);
                not_negative("rotation", &[limit.rotation, depth - limit.rotation]);
            }
            Box::new(yields.map_or(Ok(made), |at| made.yielding_at(at))?)
        }
    };
    let free = !(kind <= 1 && head == Head::Restrained);
    by_method(&*method, free, depth, draw)
}

/// What every method promises.
fn by_method(
    method: &dyn LateralMethod,
    free: bool,
    depth: Length,
    draw: &mut Draw<'_>,
) -> Result<(), Error> {
    let height = m(draw.number(0.0, 91.44));
    let force = newton(draw.size(0.1, 4.4e7));
    let name = method.name();
    if let Ok(ultimate) = method.ultimate(depth, height) {
        not_negative(name, &[ultimate.shear]);
        finite(name, &[ultimate.moment, ultimate.greatest_moment]);
        not_negative(name, &[ultimate.zero_shear]);
        if let Some(rotation) = ultimate.rotation {
            not_negative(name, &[rotation, depth * (1.0 + 1e-9) - rotation]);
        }
        sound(ultimate.mode.name());
    }
    if let NeededDepth::Depth(needed) = method.needed_depth(force, height)? {
        not_negative(name, &[needed, m(30.0) - needed]);
        // A little deeper carries the force, a little less deep does not: just
        // there, under ground that resists nothing, rounding decides.
        let share = |depth: Length| Some(method.ultimate(depth, height).ok()?.shear / force);
        if let Some(share) = share(needed * 1.001) {
            assert!(share.value >= 1.0 - 1e-6, "{name}: {share:?} at {needed:?}");
        }
        if let Some(share) = share(needed * 0.999) {
            assert!(share.value <= 1.0 + 1e-6, "{name}: {share:?} at {needed:?}");
        }
    }
    if let Ok(greatest) = method.greatest_moment(force, height) {
        not_negative(name, &[greatest.depth]);
        finite(name, &[greatest.moment]);
        if free {
            // At grade it is the force on its arm already.
            let at_grade = moment(force, height) * (1.0 - 1e-9);
            not_negative(name, &[greatest.moment - at_grade]);
        }
    }
    if draw.below(16) == 1 {
        let mut sheet = Worksheet::new(name, draw.of(&[UnitSystem::Us, UnitSystem::Si]));
        let done = method.write(depth, height, &mut sheet).is_ok();
        assert_eq!(done, method.ultimate(depth, height).is_ok(), "{name}");
        if draw.yes() {
            sound(&report::text(&sheet).to_string());
        } else {
            sound(&report::markdown(&sheet).to_string());
        }
    }
    Ok(())
}

fn load(draw: &mut Draw<'_>) -> Result<GroundlineActions<AllowableStress>, Error> {
    let shear = newton(draw.size(0.1, 1e7));
    let arm = m(draw.number(0.0, 90.0));
    let sign = draw.of(&[1.0, 1.0, 1.0, -1.0]);
    let axial = newton(draw.size(0.1, 1e6));
    let level = draw.of(&[
        AllowableStress::Basic,
        AllowableStress::AlternativeWithIncrease,
    ]);
    GroundlineActions::new(shear * sign, moment(shear, arm), axial, level)
}

fn ground(draw: &mut Draw<'_>) -> Result<Ground, Error> {
    Ok(if draw.yes() {
        Ground::presumptive(draw.of(&SoilClass::ALL))
    } else {
        let lateral = LateralBearing::new(psf_per_ft(draw.size(5.0, 5_000.0)))?;
        Ground::given(lateral)
    })
}

fn side_by_side(profile: Profile, draw: &mut Draw<'_>) -> Result<(), Error> {
    let width = width(draw);
    let load = load(draw)?;
    let planned = m(draw.size(0.01, 30.0));
    let mut all = SideBySide::new(profile, width, load, planned, draw.number(1.0, 5.0))?;
    if draw.yes() {
        let restraint = draw.of(&[Restraint::None, Restraint::RigidPaving]);
        let formula = PoleFormula::new(&ground(draw)?, BearingWidth::new(width)?, restraint);
        all = all.with_code(formula);
    }
    if let Some(at) = yields(draw) {
        all = all.yielding_at(at);
    }
    if draw.yes() {
        all = all.with_rigidity(n_sq_m(draw.size(1.0, 1e12)));
    }
    for verdict in all.verdicts() {
        let name = verdict.method;
        match verdict.needed {
            Ok(needed) => not_negative(name, &[needed.depth().unwrap_or_default()]),
            Err(error) => refused(&error),
        }
        if let Some(utilization) = verdict.utilization {
            used(name, utilization);
            sound(&utilization.to_string());
        }
        if let Some(moment) = verdict.greatest_moment {
            finite(name, &[moment]);
        }
        sound(&verdict.format.to_string());
    }
    assert!(all.cautions().iter().next().is_some());
    Ok(())
}

fn springs(profile: &Profile, draw: &mut Draw<'_>) -> Result<(Springs, bool), Error> {
    let kind = draw.below(9);
    let made = match kind {
        0 => Springs::elastic(profile)?,
        1 => Springs::constant(kpa(draw.size(1.0, 1e8)))?,
        2 => Springs::growing(kn_per_cu_m(draw.size(10.0, 1e7)))?,
        3 | 4 => Springs::elastic_plastic(profile)?,
        5 => {
            let limit = n_per_m(draw.size(1.0, 1e8));
            Springs::constant_up_to(kpa(draw.size(1.0, 1e8)), limit)?
        }
        6 => {
            let growth = kn_per_cu_m(draw.size(0.1, 10_000.0));
            Springs::growing_up_to(kn_per_cu_m(draw.size(10.0, 1e7)), growth)?
        }
        7 => {
            let loading = draw.of(&[Loading::Static, Loading::Cyclic]);
            let curve = draw.of(&[ClayCurve::Soft, ClayCurve::Medium, ClayCurve::Stiff]);
            Springs::curves_of_soil(profile, loading, draw.number(0.001, 0.05), curve)?
        }
        _ => {
            let mut points = Vec::new();
            let (mut y, mut p) = (m(0.0), n_per_m(0.0));
            for _ in 0..=draw.below(3) {
                y += mm(draw.size(0.001, 1_000.0));
                p += n_per_m(draw.size(1.0, 1e7));
                points.push((y, p));
            }
            Springs::of_curves(vec![(m(draw.size(0.01, 100.0)), Curve::new(&points)?)])?
        }
    };
    Ok((made, kind == 1 || kind == 2))
}

fn response(profile: &Profile, draw: &mut Draw<'_>) -> Result<(), Error> {
    let (springs, elastic) = springs(profile, draw)?;
    // Half of them posts as they are, which stand; half anything allowed.
    let likely = draw.yes();
    let of = |of_all: (f64, f64), of_likely: (f64, f64)| if likely { of_likely } else { of_all };
    let size = |draw: &mut Draw<'_>, (least, most)| draw.size(least, most);
    let number = |draw: &mut Draw<'_>, (least, most)| draw.number(least, most);
    let rigidity = n_sq_m(size(draw, of((1.0, 1e12), (1e3, 1e7))));
    let depth = m(size(draw, of((0.05, 30.0), (0.4, 5.0))));
    let width = m(size(draw, of((0.02, 3.0), (0.05, 1.0))));
    let more = draw.below(32);
    let mut model = PostModel::new(rigidity, width, depth, springs)?.with_elements(5)?;
    if more & 1 != 0 {
        model = model.standing(m(number(draw, of((0.0, 30.0), (0.0, 3.0)))))?;
    }
    let height = m(number(draw, of((0.0, 91.44), (0.0, 3.0))));
    model = model.with_force(height, newton(size(draw, of((0.1, 1e8), (10.0, 2e4)))))?;
    if more & 2 != 0 {
        let (from, long) = (draw.number(0.0, 30.0), draw.number(0.0, 30.0));
        let wind = n_per_m(number(draw, of((-1e6, 1e6), (-1e3, 1e3))));
        model = model.with_wind(m(from), m((from + long).min(30.0)), wind)?;
    }
    if more & 4 != 0 {
        model = model.with_moment(n_m(number(draw, of((-1e9, 1e9), (-1e4, 1e4)))))?;
    }
    let heavy = more & 8 != 0;
    if heavy {
        model = model.with_axial(newton(size(draw, of((0.1, 1e8), (10.0, 1e5)))))?;
    }
    let mut solver = model.solver();
    // A soft post in stiff ground is cut finer than a search has time for.
    if solver.elements() > 60 {
        return Ok(());
    }
    match solver.solve(1.0) {
        Ok(()) => balanced(&solver.response(), &model),
        Err(error @ Error::NoEquilibrium { .. }) => {
            refused(&error);
            sound(&error.to_string());
            // Springs that never give way lose only to great rotations.
            if elastic && !heavy {
                let little = solver.solve(1e-15);
                assert!(little.is_ok(), "elastic: {little:?}, {error}");
            }
        }
        Err(error) => return Err(error),
    }
    if more & 16 != 0 && solver.elements() <= 24 {
        match model.collapse(100.0) {
            Ok(Some(share)) => assert!((0.0..=100.0).contains(&share), "{share}"),
            Ok(None) => {}
            Err(error) => sound(&error.to_string()),
        }
    }
    in_closed_form(rigidity, depth, draw);
    Ok(())
}

/// A force, or a moment, that is rest to the solver.
const NOTHING: f64 = 1e-150;

/// Finite throughout, and in balance to rounding.
fn balanced(response: &Response, model: &PostModel) {
    let (mut most_shear, mut most_moment, mut below) = (0.0_f64, 0.0_f64, 0.0_f64);
    for station in response.stations() {
        finite("depth", &[station.depth, station.deflection]);
        finite("rotation", &[station.rotation]);
        finite("moment", &[station.moment]);
        finite("shear", &[station.shear]);
        finite("reaction", &[station.reaction]);
        most_shear = most_shear.max(station.shear.value.abs());
        most_moment = most_moment.max(station.moment.value.abs());
        if station.depth >= m(0.0) {
            below = below.max(station.moment.value.abs());
        }
    }
    let greatest = response.greatest_moment();
    finite("greatest moment", &[greatest.moment]);
    not_negative(
        "where it is",
        &[greatest.depth, model.depth() - greatest.depth],
    );
    assert!(greatest.moment.value.abs() >= below * (1.0 - 1e-9));
    let (shear, moment) = response.left_over();
    finite("shear left over", &[shear]);
    finite("moment left over", &[moment]);
    let scale = most_shear + most_moment / model.depth().value;
    assert!(
        shear.value.abs() <= 1e-5 * scale + NOTHING,
        "{shear:?} of {scale}"
    );
    let scale = most_moment + most_shear * model.depth().value;
    assert!(
        moment.value.abs() <= 1e-5 * scale + NOTHING,
        "{moment:?} of {scale}"
    );
    if let Some(ratio) = response.lean_ratio() {
        assert!(ratio.is_finite());
    }
}

fn in_closed_form(rigidity: FlexuralRigidity, depth: Length, draw: &mut Draw<'_>) {
    let k = kpa(draw.size(1.0, 1e8));
    let nh = kn_per_cu_m(draw.size(10.0, 1e7));
    let (shear, moment) = (newton(draw.number(-1e6, 1e6)), n_m(draw.number(-1e6, 1e6)));
    let z = depth * draw.plain();
    if let Ok(beam) = closed_form::finite(k, rigidity, depth, shear, moment) {
        finite("deflection", &[beam.deflection(z)]);
        finite("moment", &[beam.moment(z)]);
        finite("shear", &[beam.shear(z)]);
    }
    for at in [
        closed_form::finite(k, rigidity, depth, shear, moment).map(|beam| beam.at_grade()),
        closed_form::endless(k, rigidity, depth, shear, moment),
        closed_form::rigid(k, rigidity, depth, shear, moment),
        closed_form::rigid_growing(nh, rigidity, depth, shear, moment),
        closed_form::finite_growing(nh, rigidity, depth, shear, moment),
        closed_form::long_growing(nh, rigidity, depth, shear, moment),
    ] {
        match at {
            Ok(at) => {
                finite("deflection", &[at.deflection]);
                finite("rotation", &[at.rotation]);
            }
            Err(error) => refused(&error),
        }
    }
}

fn uplift(profile: &Profile, draw: &mut Draw<'_>) -> Result<(), Error> {
    let depth = m(draw.size(0.01, 30.0));
    let excluded = depth * draw.number(0.0, 1.0);
    let size = inch(draw.size(1.0, 120.0));
    let shaft = if draw.yes() {
        Shaft::round(size, depth, excluded)?
    } else {
        Shaft::square(size, depth, excluded)?
    };
    not_negative("side", &[shaft.side()]);
    let friction = match draw.below(6) {
        0 => Friction::Presumptive(presumptive_friction(psf(draw.number(0.0, 3_000.0)))?),
        1 => Friction::Given(kpa(draw.number(0.0, 1_000.0))),
        2 => Friction::alpha(draw.number(0.05, 1.0))?,
        3 | 4 => Friction::AlphaApi,
        _ => Friction::beta(draw.number(0.1, 2.0), deg(draw.number(5.0, 45.0)))?,
    };
    let known = draw.of(&[HowKnown::Analysis, HowKnown::Tests]);
    let weights = (newton(draw.size(0.1, 4e6)), newton(draw.size(0.1, 4e6)));
    let more = draw.below(32);
    let mut post = PullOut::new(weights.0, weights.1)?;
    match post.with_friction(profile, friction, &shaft, known) {
        Ok(with) => {
            not_negative("friction", &[friction.resistance(profile, &shaft)?]);
            post = with;
        }
        Err(error) => refused(&error),
    }
    if more & 1 != 0 {
        let radius = m(draw.size(0.01, 2.0));
        let cone = soil_cone(radius, depth, deg(draw.number(0.0, 45.0)))?;
        not_negative("cone", &[cone]);
        post = post.lifting_soil_by_collar(cone * kn_per_cu_m(18.0))?;
    }
    if more & 2 != 0 {
        let phi = deg(draw.number(20.0, 45.0));
        let plate = Breakout::new(phi, kn_per_cu_m(draw.number(3.0, 25.0)), size, depth)?;
        not_negative("breakout", &[plate.ultimate()]);
        assert!(plate.factor() >= 1.0 && plate.factor().is_finite());
        post = post.breaking_out(plate);
    }
    if more & 4 != 0 {
        let bond = Bond::wood_in_concrete(shaft.perimeter(), depth)?;
        not_negative("bond", &[bond.resistance()]);
        post = post.with_bond(bond);
    }
    if more & 8 != 0 {
        post = post.standing_in_water(cu_m(draw.size(1e-4, 100.0)))?;
    }
    let held = post.resistance(&Combination::of(AllowableStress::Basic));
    not_negative("resistance", &[held.resistance]);
    for (mode, way) in held.ways {
        if let Some(way) = way {
            not_negative(mode.name(), &[way - held.resistance]);
        }
    }
    Ok(())
}

fn frost(draw: &mut Draw<'_>) -> Result<(), Error> {
    let mu = draw.size(0.001, 5.0);
    let lambda = berggren_lambda(mu, draw.number(0.0, 50.0))?;
    assert!((0.0..=1.0 + 1e-9).contains(&lambda), "{lambda} of {mu}");
    let deep = frost_depth(
        ThermalConductivity::watt_per_m_k(draw.size(0.05, 10.0))?,
        draw.number(0.1, 2.5),
        FreezingIndex::celsius_days(draw.number(0.0, 10_000.0))?,
        LatentHeat::mj_per_cu_m(draw.size(1.0, 400.0))?,
        draw.number(0.1, 1.0),
    )?;
    not_negative("frost depth", &[deep]);
    let grip = Adfreeze::new(
        kpa(draw.number(0.0, 500.0)),
        m(draw.size(0.02, 12.0)),
        m(draw.number(0.0, 10.0)),
    )?;
    not_negative("grip", &[grip.force()]);
    let (weight, load) = (
        kn_per_cu_m(draw.number(10.0, 30.0)),
        newton(draw.size(0.1, 1e8)),
    );
    let friction = kpa(draw.number(0.0, 1_000.0));
    let deep = grip.balancing_depth(weight, load, friction, draw.number(1.0, 10.0))?;
    not_negative("balancing depth", &[deep]);
    let depth = m(draw.size(0.01, 30.0));
    let balance = grip.balance(depth, load, newton(draw.size(0.1, 1e8)))?;
    not_negative(
        "balance",
        &[balance.lifts, balance.holds, grip.force() - balance.lifts],
    );
    assert_eq!(balance.stays(), balance.remedy().is_none());
    Ok(())
}
