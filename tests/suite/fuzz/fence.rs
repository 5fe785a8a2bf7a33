//! A fence drawn from bytes through the whole check: wind code, actions, plan,
//! checks, site checks, worksheet.

use super::draw::Draw;
use super::holds::{finite, not_negative, refused};
use super::planned;
use groundline::Error;
use groundline::actions::FenceWind;
use groundline::backfill::{Bag, RestDays, Setting};
use groundline::check::*;
use groundline::combination::{Combination, CombinesTo};
use groundline::embedment::{DepthCap, DepthRule};
use groundline::fence::*;
use groundline::foundation::{Hole, Restraint, SquareWidth};
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::limit_state::{AllowableStress, LimitState, PartialFactor, Strength};
use groundline::plan::FencePlan;
use groundline::post::*;
use groundline::section::*;
use groundline::units::*;
use groundline::uplift::FrozenGround;
use groundline::wind::*;

/// Runs one input, whatever it is.
pub(crate) fn run(data: &[u8]) {
    let draw = &mut Draw::new(data);
    if let Err(error) = check(draw) {
        refused(&error);
    }
}

fn check(draw: &mut Draw<'_>) -> Result<(), Error> {
    let code = draw.below(8);
    let fence = fence(draw)?;
    match code {
        0..=3 => plan(asce(draw)?, fence, draw),
        4 => {
            let pressure = psf(draw.size(0.1, 1_000.0));
            let made = DirectPressure::new(pressure, Strength)?;
            plan(made.acting_at(draw.number(0.5, 1.0))?, fence, draw)
        }
        5 => {
            let pressure = psf(draw.size(0.1, 1_000.0));
            let made = DirectPressure::new(pressure, AllowableStress::Basic)?;
            plan(made.acting_at(draw.number(0.5, 1.0))?, fence, draw)
        }
        6 => {
            let site = eurocode(draw)?;
            let wind = FenceWind::new(&site, &fence)?;
            on_posts(&wind);
            for post in fence.posts() {
                let set = Combination::of(draw.of(&PartialFactor::ALL));
                if let Some((_, actions)) = wind.worst(post, &set) {
                    not_negative("design shear", &[actions.shear()]);
                    not_negative("design moment", &[actions.moment()]);
                }
            }
            Ok(())
        }
        _ => {
            let site = australian(draw)?;
            on_posts(&FenceWind::new(&site, &fence)?);
            Ok(())
        }
    }
}

/// Wind of a code that is not combined to allowable stress.
fn on_posts<C: WindCode>(wind: &FenceWind<'_, C>) {
    for post in wind.fence().posts() {
        for case in wind.cases(post).iter() {
            not_negative("shear", &[case.wind.shear()]);
            not_negative("moment", &[case.wind.moment()]);
        }
    }
    for run in 0..wind.fence().runs().len() {
        for sum in wind.picture(run).iter().flat_map(|picture| &picture.sums) {
            assert!(sum.agrees(), "{sum:?}");
        }
    }
    assert!(wind.cautions().iter().next().is_some());
}

fn infill(draw: &mut Draw<'_>) -> Result<Infill, Error> {
    let (member, gap) = (inch(draw.size(0.05, 24.0)), inch(draw.size(0.1, 24.0)));
    let made = match draw.below(6) {
        0 => Infill::given(draw.number(0.01, 1.0), Member::Flat)?,
        1 => Infill::given(draw.number(0.01, 1.0), Member::Round(member))?,
        2 => Infill::pickets(member, gap)?,
        3 => Infill::boards_on_both_sides(member, gap)?,
        4 => Infill::lattice(member, gap)?,
        _ => Infill::woven_mesh(member, gap)?,
    };
    match draw.below(8) {
        1 => made.with_ice(inch(draw.number(0.0, 12.0))),
        2 => made.covered(draw.number(0.0, 1.0)),
        _ => Ok(made),
    }
}

fn panel(draw: &mut Draw<'_>) -> Result<Panel, Error> {
    let kind = draw.below(32);
    let top = ft(draw.size(1.0, 30.0));
    let mut panel = Panel::new(top)?;
    if kind & 1 != 0 {
        panel = panel.with_clearance(top * draw.plain())?;
    }
    if kind & 2 != 0 {
        panel = panel.with_infill(infill(draw)?);
    }
    if kind & 4 != 0 {
        panel = panel.with_topping(top * draw.plain(), infill(draw)?)?;
    }
    if kind >= 8 {
        panel = panel.with_weight(psf(draw.number(0.0, 30.0)))?;
    }
    Ok(panel)
}

/// Of at most some eight bays.
fn fence_run(draw: &mut Draw<'_>) -> Result<FenceRun, Error> {
    let panel = panel(draw)?;
    let spacing = ft(draw.size(1.0, 20.0));
    let length = spacing * (0.3 + 5.0 * draw.plain());
    let mut run = FenceRun::new(panel, length, spacing)?;
    for _ in 0..draw.below(8) / 3 {
        let hinges = draw.of(&[Hinges::AtStart, Hinges::AtEnd, Hinges::Both]);
        let at = length * draw.plain();
        let opening = ft(draw.size(2.0, 40.0));
        match run.clone().with_gate(Gate::new(
            at,
            opening,
            lb(draw.number(0.0, 1_000.0)),
            hinges,
        )?) {
            Ok(with) => run = with,
            Err(error) => refused(&error),
        }
    }
    Ok(run)
}

fn fence(draw: &mut Draw<'_>) -> Result<Fence, Error> {
    let mut fence = Fence::new(fence_run(draw)?);
    for _ in 0..draw.below(6) / 3 {
        let turn = deg(draw.number(0.0, 150.0));
        let run = fence_run(draw)?;
        match fence.clone().turning(turn, run) {
            Ok(turned) => fence = turned,
            Err(error) => refused(&error),
        }
    }
    // Walked the other way it is as long and has as many posts.
    let mirrored = fence.mirrored();
    assert_eq!(mirrored.posts().len(), fence.posts().len());
    Ok(fence)
}

fn asce(draw: &mut Draw<'_>) -> Result<AsceSite, Error> {
    let edition = draw.of(&[Edition::Asce7_22, Edition::Asce7_16, Edition::Asce7_10]);
    let exposure = draw.of(&[Exposure::B, Exposure::C, Exposure::D]);
    let speed = BasicWindSpeed::strength_level(mph(draw.number(80.0, 250.0)))?;
    let mut site = AsceSite::new(edition, speed, exposure);
    let more = draw.below(64);
    if more & 1 != 0 && edition != Edition::Asce7_10 {
        site = site.at_elevation(ft(draw.number(-1_000.0, 15_000.0)))?;
    }
    if more & 2 != 0 {
        site = site.with_gust_factor(draw.number(0.85, 1.2))?;
    }
    if more & 4 != 0 {
        site = site.with_minimum_pressure(psf(draw.number(0.0, 100.0)))?;
    }
    if more & 8 != 0 {
        site = site.with_topography(Topography::new(
            draw.of(&[Feature::Ridge, Feature::Escarpment, Feature::Hill]),
            ft(draw.size(1.0, 10_000.0)),
            ft(draw.size(1.0, 100_000.0)),
            ft(draw.number(0.0, 5_000.0)),
            draw.of(&[Side::Upwind, Side::Downwind]),
        )?);
    } else if more & 16 != 0 {
        site = site.with_topographic_factor(draw.number(1.0, 3.0))?;
    }
    if more & 32 != 0 {
        let options = WallOptions::default()
            .column_gap(draw.of(&[ColumnGap::Interpolate, ColumnGap::Refuse]))
            .short_return(draw.of(&[
                ShortReturn::NoReduction,
                ShortReturn::Interpolate,
                ShortReturn::FirstRow,
            ]))
            .resultant_height(draw.of(&[
                ResultantHeight::NeverBelowGrounded,
                ResultantHeight::AsPrinted,
            ]))
            .eccentric_case(draw.of(&EccentricCase::ALL))
            .minimum_case(draw.of(&[MinimumCase::OwnCase, MinimumCase::EveryStrip]))
            .hand_over(draw.of(&[HandOver::Guarded, HandOver::AsPrinted]));
        site = site
            .with_options(options)
            .with_constants(draw.of(&[PrintedConstants::Customary, PrintedConstants::Si]));
    }
    Ok(site)
}

fn eurocode(draw: &mut Draw<'_>) -> Result<EnSite, Error> {
    let speed = FundamentalSpeed::ten_minute_mean(m_per_s(draw.number(15.0, 50.0)))?;
    let terrain = draw.of(&[
        Terrain::Zero,
        Terrain::One,
        Terrain::Two,
        Terrain::Three,
        Terrain::Four,
    ]);
    let mut site = EnSite::new(speed, terrain);
    let more = draw.below(8);
    if more & 1 != 0 {
        site = site.with_shelter_factor(draw.number(0.1, 1.0))?;
    }
    if more & 2 != 0 {
        site = site.with_lattice_coefficient(draw.number(0.5, 2.0))?;
    }
    if more & 4 != 0 {
        site = site.standing_on(m(draw.number(0.0, 50.0)))?;
    }
    Ok(site)
}

fn australian(draw: &mut Draw<'_>) -> Result<AsNzsSite, Error> {
    let site = AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(draw.number(20.0, 100.0)))?);
    site.with_terrain_height_multiplier(draw.number(0.5, 1.5))?
        .with_topographic_multiplier(draw.number(1.0, 2.0))
}

fn hollow(draw: &mut Draw<'_>) -> Result<HollowSection, Error> {
    let (size, share) = (inch(draw.size(0.75, 24.0)), draw.plain());
    Ok(if draw.yes() {
        Tube::new(size, size * (0.5 * share))?.into()
    } else {
        SquareTube::new(size, size * (0.5 * share))?.into()
    })
}

fn plain_post(draw: &mut Draw<'_>) -> Result<Post, Error> {
    let steel = |draw: &mut Draw<'_>| SteelStrength::new(ksi(draw.number(20.0, 100.0)));
    let size = inch(draw.size(1.5, 24.0));
    let share = 0.5 * draw.plain();
    Ok(match draw.below(6) {
        0 => {
            let section = Square::new(size)?;
            let values = if draw.yes() {
                let species = draw.of(&[
                    Species::SouthernPine,
                    Species::DouglasFirLarch,
                    Species::HemFir,
                    Species::SprucePineFir,
                    Species::WesternCedars,
                ]);
                DesignValues::of(species, draw.of(&[Grade::No1, Grade::No2]), size)?
            } else {
                let class = draw.of(&[
                    SizeClass::Dimension,
                    SizeClass::Timbers,
                    SizeClass::SouthernPineDimension,
                ]);
                let fb = lb_per_sq_in(draw.size(100.0, 5_000.0));
                DesignValues::new(fb, lb_per_sq_in(draw.size(50.0, 500.0)), class)?
            };
            let moisture = draw.of(&[Moisture::Wet, Moisture::Dry]);
            let treatment = draw.of(&[Treatment::NotIncised, Treatment::Incised]);
            TimberPost::new(section, values, moisture, treatment)?.into()
        }
        1 => PipePost::new(Tube::new(size, size * share)?, steel(draw)?)?.into(),
        2 => SquareTubePost::new(SquareTube::new(size, size * share)?, steel(draw)?)?.into(),
        3 => {
            let fb = lb_per_sq_in(draw.size(100.0, 5_000.0));
            let fv = lb_per_sq_in(draw.size(20.0, 500.0));
            let post = RoundTimber::new(Disc::new(size)?, fb, fv)?;
            if draw.yes() {
                post.with_modulus(ksi(draw.size(300.0, 3_000.0)))?.into()
            } else {
                post.into()
            }
        }
        4 => {
            let metal = if draw.yes() {
                let alloy = draw.of(&[Alloy::A6063T6, Alloy::A6061T6]);
                Aluminium::of(alloy, draw.of(&[Temper::Unwelded, Temper::Welded]))
            } else {
                let ultimate = ksi(draw.size(5.0, 90.0));
                Aluminium::given(ultimate * draw.plain(), ultimate)?
            };
            AluminiumPost::new(hollow(draw)?, metal)?.into()
        }
        _ => {
            let section = PostSection::Square(Square::new(size)?);
            let moment = lb_ft(draw.size(10.0, 1e6));
            let post = GivenPost::new(section, moment, lb(draw.size(10.0, 1e6)))?;
            if draw.yes() {
                post.with_rigidity(n_sq_m(draw.size(10.0, 1e8)))?.into()
            } else {
                post.into()
            }
        }
    })
}

fn post(draw: &mut Draw<'_>) -> Result<Post, Error> {
    let post = plain_post(draw)?;
    if draw.below(8) != 1 {
        return Ok(post);
    }
    let sleeve = Sleeve::new(inch(draw.size(2.0, 12.0)), inch(draw.number(0.05, 0.5)))?;
    Ok(SleevedPost::new(sleeve, post)?.into())
}

fn ground(draw: &mut Draw<'_>) -> Result<Ground, Error> {
    let more = draw.below(16);
    let mut ground = if more & 1 == 0 {
        Ground::presumptive(draw.of(&SoilClass::ALL))
    } else {
        let lateral = LateralBearing::new(psf_per_ft(draw.size(5.0, 10_000.0)))?;
        let ground = Ground::given(lateral);
        if draw.yes() {
            ground.with_vertical_pressure(psf(draw.size(100.0, 100_000.0)))?
        } else {
            ground
        }
    };
    if more & 2 != 0 {
        ground = ground.discounting_top(ft(draw.number(0.0, 20.0)))?;
    }
    if more & 4 != 0 {
        ground = ground.as_isolated_pole();
    }
    Ok(ground)
}

fn design(draw: &mut Draw<'_>) -> Result<PostDesign, Error> {
    let (ground, post) = (ground(draw)?, post(draw)?);
    let size = inch(draw.size(3.0, 120.0));
    let hole = if draw.yes() {
        Hole::round(size)?
    } else {
        Hole::square(size)?
    };
    let mut design = match draw.below(6) {
        0 | 1 => PostDesign::in_concrete(ground, post, hole)?,
        2 => PostDesign::driven(ground, post),
        3 => PostDesign::bare(ground, post),
        _ => PostDesign::set_in(ground, post, draw.of(&Setting::ALL), hole)?,
    };
    let more = draw.below(64);
    if more & 1 != 0 {
        design = design.restrained_by(Restraint::RigidPaving);
    }
    if more & 2 != 0 {
        design = design.square_width(SquareWidth::Face);
    }
    if more & 4 != 0 {
        design = design.with_cap(DepthCap::CapReading);
    }
    if more & 8 != 0 {
        design = design.with_combination(AllowableStress::AlternativeWithIncrease);
    }
    if more & 16 != 0 {
        let (rests, needs) = (draw.number(0.0, 30.0), draw.number(0.0, 30.0));
        design = design.resting(RestDays::new(rests)?, RestDays::new(needs)?);
    }
    Ok(design)
}

fn friction(draw: &mut Draw<'_>) -> SideFriction {
    match draw.below(4) {
        0 => SideFriction::None,
        1 => SideFriction::Presumptive,
        2 => SideFriction::Allowable(psf(draw.number(0.0, 2_000.0))),
        _ => SideFriction::Tested(psf(draw.number(0.0, 2_000.0))),
    }
}

fn site_checks(draw: &mut Draw<'_>) -> Result<SiteChecks, Error> {
    let asked = draw.below(32);
    let mut checks = SiteChecks::default();
    if asked & 1 != 0 {
        let stiffness = if draw.yes() {
            GroundStiffness::constant(kpa(draw.size(10.0, 1e6)))?
        } else {
            GroundStiffness::growing(kn_per_cu_m(draw.size(10.0, 1e6)))?
        };
        let mut lean = LeanOptions::new(stiffness);
        if draw.yes() {
            lean = lean.with_limit(draw.size(0.001, 0.5))?;
        }
        if draw.yes() {
            lean = lean.with_rigidity(n_sq_m(draw.size(10.0, 1e8)))?;
        }
        checks = checks.with_lean(lean);
    }
    if asked & 2 != 0 {
        let grip = match draw.below(4) {
            0 => Grip::FineGrained,
            1 => Grip::Of(FrozenGround::FineOnSteel),
            2 => Grip::Of(FrozenGround::GravelOnSteel),
            _ => Grip::Given(kpa(draw.number(0.0, 500.0))),
        };
        let mut frost = FrostOptions::new(m(draw.number(0.0, 5.0)), grip)?
            .with_friction(friction(draw))?
            .with_post_weight(lb(draw.number(0.0, 1_000.0)))?;
        if draw.yes() {
            frost = frost.with_remedy(FrostRemedy::SmoothSleeve);
        }
        checks = checks.with_frost(frost);
    }
    if asked & 4 != 0 {
        let mut uplift = UpliftOptions::new(lb(draw.size(0.1, 1e5)))?
            .with_friction(friction(draw))?
            .with_concrete(pcf(draw.number(100.0, 170.0)))?;
        match draw.below(3) {
            1 => uplift = uplift.with_wood_bond(),
            2 => uplift = uplift.with_bond(lb_per_sq_in(draw.number(0.0, 1_000.0)))?,
            _ => {}
        }
        checks = checks.with_uplift(uplift);
    }
    if asked & 8 != 0 {
        let mut axial = AxialOptions::default();
        if draw.yes() {
            let fc = lb_per_sq_in(draw.size(100.0, 5_000.0));
            axial = axial.with_timber(CompressionValues::new(fc, ksi(draw.size(100.0, 1_000.0)))?);
        }
        if draw.yes() {
            axial = axial.with_capacity(lb(draw.size(100.0, 1e6)))?;
        }
        if draw.yes() {
            axial = axial.with_length_factor(draw.number(0.5, 3.0))?;
        }
        checks = checks.with_axial(axial);
    }
    if asked & 16 != 0 {
        let bag = if draw.yes() {
            Bag::lb_80()
        } else {
            Bag::given(lb(draw.size(1.0, 500.0)), cu_ft(draw.size(0.05, 10.0)))?
        };
        let options = MaterialOptions::new(bag)
            .with_waste(draw.number(0.0, 1.0))?
            .with_base(inch(draw.number(0.0, 24.0)))?;
        checks = checks.with_materials(options);
    }
    Ok(checks)
}

fn plan<C: WindCode>(site: C, fence: Fence, draw: &mut Draw<'_>) -> Result<(), Error>
where
    C::Level: CombinesTo<AllowableStress> + LimitState,
{
    let general = design(draw)?;
    let mut plan = FencePlan::new(site, fence, general);
    if draw.below(4) != 0 {
        plan = plan.with_planned_depth(ft(draw.size(0.1, 30.0)));
    }
    if draw.below(4) == 1 {
        let kind = draw.of(&[PostKind::End, PostKind::Corner, PostKind::Gate]);
        plan = plan.with_kind(kind, design(draw)?, None);
    }
    plan = plan.with_site_checks(site_checks(draw)?);
    let worksheet = (draw.below(16) == 1).then(|| 1 + draw.below(8));
    planned::plan(&plan, worksheet);
    if draw.below(8) == 1
        && let Ok(schedule) = plan.schedule()
    {
        match schedule.compare(draw.of(&DepthRule::ALL)) {
            Ok(rule) => finite("depth by rule", &[rule.check.depth()]),
            Err(error) => refused(&error),
        }
    }
    Ok(())
}
