//! What the numbers rest on, in sentences.

use super::job::posts::Spec;
use super::job::site::Site;
use super::sheet::Sheet;
use groundline::backfill::Setting;
use groundline::check::PostDesign;
use groundline::embedment::DepthCap;
use groundline::fence::PostKind;
use groundline::foundation::{HoleShape, Restraint, SquareWidth};
use groundline::post::Post;
use groundline::section::HollowSection;
use groundline::units::{Measurable, Measure, UnitSystem, inch, show, show_as};

/// The sentences.
pub(crate) fn lines(sheet: &Sheet<'_>) -> Vec<String> {
    let system = sheet.system();
    let job = sheet.job;
    let general = job.specs.general();
    let mut lines = vec![wind(sheet), loads(sheet)];
    lines.extend(sheet.case_b.clone());
    lines.extend(ground(general, system));
    let mut kinds: Vec<_> = job
        .specs
        .kinds()
        .iter()
        .map(|(kind, spec)| (Some(*kind), spec))
        .collect();
    kinds.insert(0, (None, general));
    lines.extend(
        kinds
            .into_iter()
            .map(|(kind, spec)| post(kind, spec, system)),
    );
    if !job.dug.is_empty() {
        let numbers: Vec<_> = job.dug.iter().map(|dug| dug.number.to_string()).collect();
        lines.push(format!(
            "As dug, not as planned: posts {}.",
            numbers.join(", ")
        ));
    }
    lines.push(
        "Depth by IBC 1807.3.2 (posts and poles). Post strength by NDS (timber), AISC 360 (steel), the \
         Aluminum Design Manual, or as given, at the greatest moment below grade; concrete around the \
         post is not counted for it, nor is a vinyl sleeve. Vertical bearing by IBC 1807.3.2.3 where a \
         foundation pressure is known."
            .to_owned(),
    );
    lines.extend(job.asked.words.iter().cloned());
    lines.push(not_checked(sheet));
    lines
}

/// What is not looked at, by what was asked.
fn not_checked(sheet: &Sheet<'_>) -> String {
    let asked = &sheet.job.asked;
    let mut list = Vec::new();
    if !asked.frost() {
        list.push("frost");
    }
    if !asked.uplift {
        list.push("uplift");
    }
    if !asked.lean {
        list.push("lean");
    } else if sheet.rows.iter().any(|row| {
        row.site
            .lean
            .done()
            .is_some_and(|lean| lean.limit.is_none())
    }) {
        list.push("lean against a limit, since none was given");
    }
    if !asked.axial {
        list.push("the weight of the fence together with bending");
    }
    list.push(
        "rails, panels, boards, fixings, gate hardware, connections, rust and decay, earthquake, \
         impact, people leaning or climbing, scour, ground that slopes, holes near utilities or walls",
    );
    let refused = match sheet.refusals().len() {
        0 => "",
        _ => ". Asked for and not checked of some posts: see Result",
    };
    format!("Not checked: {}{refused}.", list.join(", "))
}

fn wind(sheet: &Sheet<'_>) -> String {
    let system = sheet.system();
    match &sheet.job.site {
        Site::Asce(site) => {
            let heights = sheet.job.fence.runs().iter().map(|run| run.panel().top());
            let top = heights
                .reduce(|a, b| if b > a { b } else { a })
                .unwrap_or_default();
            let elevation = site
                .elevation()
                .map_or("sea level (Ke = 1)".to_owned(), |elevation| {
                    format!("ground at {}", show(elevation, system))
                });
            format!(
                "Wind by {}: basic speed {} (strength level; {}), exposure {}, Kzt {:.3} at the top of the \
                 fence, {elevation}, G {}, Kd 0.85; minimum {} as a load case of its own. Speed, exposure and topography are \
                 the user's reading of maps and site. Case B, for which the figure gives a resultant \
                 off centre and no distribution, is taken as pressure varying linearly along {}.",
                site.edition(),
                show(site.speed().speed(), system),
                site.speed_basis(),
                site.exposure(),
                site.topographic_factor(top),
                site.gust_factor(),
                show(site.minimum_pressure(), system),
                site.options().case_b_text()
            )
        }
        Site::GivenStrength(site) => format!(
            "Wind pressure {} on gross area as given by the user, strength level.",
            show(site.pressure(), system)
        ),
        Site::GivenAllowable(site) => format!(
            "Wind pressure {} on gross area as given by the user, allowable-stress level: taken \
             without a factor.",
            show(site.pressure(), system)
        ),
    }
}

fn loads(sheet: &Sheet<'_>) -> String {
    let general = sheet.job.specs.general().design();
    let combination = general.map_or("", |design| {
        groundline::limit_state::LimitState::name(design.combination().level())
    });
    format!(
        "Combined to {combination}. Each post is checked for wind across each of its runs, at a corner \
         on both at once as vectors, and with each gate beside it shut and open; the worst counts. \
         Dead load: panels on their tributary width, and the leaves of gates, half their width from the post."
    )
}

fn ground(spec: &Spec, system: UnitSystem) -> Option<String> {
    let design = spec.design().ok()?;
    let ground = design.ground();
    let class = ground.class().map_or("by the user".to_owned(), |class| {
        format!("IBC class {} ({})", class.number(), class.description())
    });
    let doubled = if ground.is_isolated_pole() {
        "doubled as for an isolated pole"
    } else {
        "not doubled"
    };
    let third = if design.combination().level().soil_increase() > 1.0 {
        "raised by a third"
    } else {
        "no one-third increase"
    };
    let cap = match design.formula().cap() {
        DepthCap::CapReading => "read at d/3, with that depth capped at 12 ft",
        _ => "capped at 12 ft of depth",
    };
    Some(format!(
        "Ground {class}: lateral bearing {}, {doubled}, {third}, {cap}; top {} not counted. The class \
         is the user's; nobody has tested the ground for this sheet.",
        show(ground.lateral().per_depth(), system),
        show_as(ground.discounted_top(), Measure::SectionLength, system)
    ))
}

fn post(kind: Option<PostKind>, spec: &Spec, system: UnitSystem) -> String {
    let size = |length| show_as(length, Measure::SectionLength, system);
    let Ok(design) = spec.design() else {
        return String::new();
    };
    let what = match design.post() {
        Post::Sleeved(sleeved) => {
            let insert = made_of(&Post::from(*sleeved.insert()), system);
            let outside = size(sleeved.sleeve().outside());
            format!("{insert}, in a vinyl sleeve {outside} square that carries nothing")
        }
        other => made_of(other, system),
    };
    let hole = set_in(spec, &design, system);
    let rest = design.rest().map_or(String::new(), |(rests, needs)| {
        let short = if rests < needs { ": TOO SHORT" } else { "" };
        format!(
            "; rests {} days of the {} it is said to need{short}",
            rests.days(),
            needs.days()
        )
    });
    let paved = if design.foundation().restraint() == Restraint::RigidPaving {
        ", held by rigid paving at grade"
    } else {
        ""
    };
    let planned = spec.planned.map_or("no depth planned".to_owned(), |depth| {
        format!("planned {} deep", size(depth))
    });
    let kind = kind.map_or("Posts, unless said otherwise".to_owned(), |kind| {
        format!("Posts of kind {}", kind.name())
    });
    format!("{kind}: {what}; {hole}{paved}{rest}; {planned}.")
}

/// Which width of a square counts.
fn square(design: &PostDesign) -> &'static str {
    let foundation = design.foundation();
    let face = foundation.square_width(SquareWidth::Face);
    if face.bearing_width() == foundation.bearing_width() {
        " (b its face)"
    } else {
        " (b its diagonal)"
    }
}

/// What fills the hole, or that there is none.
fn set_in(spec: &Spec, design: &PostDesign, system: UnitSystem) -> String {
    let Some(hole) = spec.hole else {
        return match spec.setting {
            Some(Setting::Driven) => "driven, b its own width".to_owned(),
            _ => "no concrete, backfilled as IBC 1807.3.3".to_owned(),
        };
    };
    let square_hole = hole.shape() == HoleShape::Square;
    let shape = if square_hole { "square" } else { "round" };
    let setting = spec.set_in().map_or("backfill", Setting::name);
    let b = match (spec.set_in(), square_hole) {
        (Some(Setting::PouredConcrete), true) => square(design),
        (Some(Setting::PouredConcrete), false) => "",
        _ => " (b that of the post alone)",
    };
    let size = show_as(hole.size(), Measure::SectionLength, system);
    format!("{size} {shape} hole of {setting}{b}")
}

/// What a post without a sleeve is made of.
fn made_of(post: &Post, system: UnitSystem) -> String {
    let size = |length| show_as(length, Measure::SectionLength, system);
    let stress = |stress| show_as(stress, Measure::Stress, system);
    match post {
        Post::Timber(post) => {
            let side = post.section().side();
            let whole = (side.to(inch).round() - side.to(inch)).abs() < 1e-9;
            let nominal = if whole && side.to(inch) > 3.9 {
                " (a round size is often nominal: a dressed 4x4 is 3.5 in, a 6x6 5.5 in)"
            } else {
                ""
            };
            format!(
                "timber {} square{nominal}, {}, wet, Ci {}",
                size(side),
                post.values().label(),
                post.factors().incising
            )
        }
        Post::Pipe(pipe) => format!(
            "steel pipe {} x {}, Fy {}",
            size(pipe.section().diameter()),
            size(pipe.section().wall()),
            stress(pipe.steel().yield_strength())
        ),
        Post::SquareTube(tube) => format!(
            "square steel tube {} x {}, Fy {}",
            size(tube.section().side()),
            size(tube.section().wall()),
            stress(tube.steel().yield_strength())
        ),
        Post::RoundTimber(post) => format!(
            "round timber {} at grade, adjusted Fb {}, Fv {}",
            size(post.section().diameter()),
            stress(post.adjusted_bending()),
            stress(post.adjusted_shear())
        ),
        Post::Aluminium(post) => {
            let (shape, across, wall) = match post.section() {
                HollowSection::Round(tube) => ("round", tube.diameter(), tube.wall()),
                HollowSection::Square(tube) => ("square", tube.side(), tube.wall()),
                _ => return "aluminium tube".to_owned(),
            };
            format!(
                "{shape} aluminium tube {} x {}, Fty {}, Ftu {}",
                size(across),
                size(wall),
                stress(post.metal().yield_strength()),
                stress(post.metal().ultimate())
            )
        }
        Post::Given(post) => {
            let strength = post.strength();
            format!(
                "{} wide, allowable moment {} and shear {} as given",
                size(post.section().face_width()),
                show(strength.moment, system),
                show(strength.shear, system)
            )
        }
        _ => "as given".to_owned(),
    }
}
