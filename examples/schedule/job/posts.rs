//! The ground, and the kinds of posts with their holes and planned depths.

use super::fields::Table;
use super::made_of;
use super::soil::{self, Basis};
use groundline::Error;
use groundline::actions::GroundlineActions;
use groundline::backfill::{RestDays, Setting};
use groundline::check::PostDesign;
use groundline::fence::PostKind;
use groundline::foundation::{Hole, HoleShape, Restraint};
use groundline::post::Post;
use groundline::units::{Length, Measurable, Ratio, lb, lb_ft};

/// Fields of a kind of post that may stand once, in `[post]`: what it is made
/// of, then how it is set.
const SHARED: &[&str] = &[
    "material",
    "size",
    "diameter",
    "circumference",
    "wall",
    "corner_radius",
    "species",
    "grade",
    "treatment",
    "modulus",
    "bending",
    "shear",
    "yield",
    "ultimate",
    "alloy",
    "weld",
    "allowable_moment",
    "allowable_shear",
    "rigidity",
    "insert",
    "sleeve_size",
    "sleeve_wall",
    "hole",
    "hole_shape",
    "set_in",
    "planned_depth",
    "paved",
    "rest_days",
    "rest_days_needed",
];
/// What a post is made of.
pub(super) const MADE_OF: &[&str] = SHARED.split_at(22).0;
/// How it is set.
const SET: &[&str] = SHARED.split_at(22).1;

const SHAPES: [(&str, Option<HoleShape>); 3] = [
    ("round", Some(HoleShape::Round)),
    ("square", Some(HoleShape::Square)),
    ("none", None),
];

const SETTINGS: [(&str, Setting); 5] = [
    ("concrete", Setting::PouredConcrete),
    ("foam", Setting::ExpandingFoam),
    ("gravel", Setting::CompactedGravel),
    ("tamped soil", Setting::TampedSoil),
    ("driven", Setting::Driven),
];

/// The shape of a hole by its word.
pub(crate) fn shape_of(word: &str) -> Option<HoleShape> {
    let found = SHAPES.iter().find(|(name, _)| *name == word);
    found.and_then(|(_, shape)| *shape)
}

/// Everything a post is set in and made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Spec {
    basis: Basis,
    post: Post,
    /// What was said to fill the hole; concrete, if only a hole was given.
    pub(crate) setting: Option<Setting>,
    pub(crate) hole: Option<Hole>,
    rest: Option<(RestDays, RestDays)>,
    restraint: Restraint,
    pub(crate) planned: Option<Length>,
}

impl Spec {
    /// What the library checks.
    pub(crate) fn design(&self) -> Result<PostDesign, Error> {
        let (ground, post) = (self.basis.ground, self.post);
        let design = match (self.setting, self.hole) {
            (Some(Setting::Driven), _) => PostDesign::driven(ground, post),
            (None | Some(Setting::PouredConcrete), Some(hole)) => {
                PostDesign::in_concrete(ground, post, hole)?
            }
            (Some(setting), Some(hole)) => PostDesign::set_in(ground, post, setting, hole)?,
            (_, None) => PostDesign::bare(ground, post),
        };
        let design = match self.rest {
            Some((rests, needs)) => design.resting(rests, needs),
            None => design,
        };
        Ok(design
            .restrained_by(self.restraint)
            .square_width(self.basis.width)
            .with_cap(self.basis.cap)
            .with_combination(self.basis.combination))
    }

    /// What it is set in; none where no more is known than that it is backfill.
    pub(crate) const fn set_in(&self) -> Option<Setting> {
        match (self.setting, self.hole) {
            (Some(setting), _) => Some(setting),
            (None, Some(_)) => Some(Setting::PouredConcrete),
            (None, None) => None,
        }
    }

    /// Can a depth be checked at all?
    pub(crate) fn allows(&self, depth: Length) -> Result<(), Error> {
        let design = self.design()?;
        let level = design.combination().level();
        let load = GroundlineActions::new(lb(1.0), lb_ft(1.0), lb(0.0), level)?;
        design.formula().check(&load, depth).map(drop)
    }
}

/// A hole of a shape.
pub(crate) fn hole(shape: HoleShape, size: Length) -> Result<Hole, Error> {
    match shape {
        HoleShape::Square => Hole::square(size),
        _ => Hole::round(size),
    }
}

/// The general post and those of each kind.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Specs {
    general: Spec,
    kinds: Vec<(PostKind, Spec)>,
}

impl Specs {
    pub(crate) fn of(&self, kind: PostKind) -> &Spec {
        let own = self.kinds.iter().find(|(of, _)| *of == kind);
        own.map_or(&self.general, |(_, spec)| spec)
    }

    pub(crate) const fn general(&self) -> &Spec {
        &self.general
    }

    pub(crate) fn kinds(&self) -> &[(PostKind, Spec)] {
        &self.kinds
    }
}

/// Reads `[options]`, `[soil]` and `[post]`.
pub(crate) fn read(root: &Table<'_>) -> Option<Specs> {
    let basis = soil::read(root);
    let general = root.table("post");
    let spec = spec_of(&general, basis);
    let kinds = [
        ("end", PostKind::End),
        ("line", PostKind::Line),
        ("corner", PostKind::Corner),
        ("gate", PostKind::Gate),
    ];
    let mut own = Vec::new();
    let mut whole = true;
    for (key, kind) in kinds {
        let table = general.table(key);
        if table.is_given() {
            // Of another material nothing of the general post is of use.
            let table = if table.has_own("material") {
                table.falling_back_on(&general, SET)
            } else {
                table.falling_back_on(&general, SHARED)
            };
            let spec = spec_of(&table, basis);
            table.finish();
            whole &= spec.is_some();
            own.extend(spec.map(|spec| (kind, spec)));
        }
    }
    general.finish();
    let general = spec?;
    whole.then_some(Specs {
        general,
        kinds: own,
    })
}

fn spec_of(table: &Table<'_>, basis: Option<Basis>) -> Option<Spec> {
    let post = made_of::read(table);
    let hole = hole_of(table);
    let planned = table.quantity("planned_depth");
    let unreadable = table.has("planned_depth") && planned.is_none();
    let paved = table.flag("paved");
    let rest = rest_of(table);
    if unreadable {
        return None;
    }
    let spec = Spec {
        basis: basis?,
        post: post?,
        setting: hole?.0,
        hole: hole?.1,
        rest,
        restraint: if paved? {
            Restraint::RigidPaving
        } else {
            Restraint::None
        },
        planned,
    };
    if let Err(error) = spec.design() {
        let error = error.in_system(table.system());
        let more = if spec.set_in() == Some(Setting::PouredConcrete) {
            ", so that the post fits with 1 in (25 mm) around it"
        } else {
            ""
        };
        table.refuse("hole", format!("{error}{more}"));
        return None;
    }
    if let Some(depth) = planned {
        table.take("planned_depth", spec.allows(depth))?;
    }
    Some(spec)
}

fn refuse_own(table: &Table<'_>, keys: &[&'static str], reason: &str) {
    for key in keys {
        if table.has_own(key) {
            table.refuse(key, reason);
        }
    }
}

/// What fills the hole, and the hole.
fn hole_of(table: &Table<'_>) -> Option<(Option<Setting>, Option<Hole>)> {
    // They belong here whatever comes of it.
    let _ = (table.has_own("hole"), table.has_own("hole_shape"));
    let setting = if table.has("set_in") {
        Some(table.choice("set_in", &SETTINGS, true)?)
    } else {
        None
    };
    if setting == Some(Setting::Driven) {
        let reason = "set_in is \"driven\": a driven post has no hole";
        refuse_own(table, &["hole", "hole_shape"], reason);
        return Some((setting, None));
    }
    let Some(shape) = table.choice("hole_shape", &SHAPES, false)? else {
        let reason = "hole_shape is \"none\": no concrete, no hole size";
        refuse_own(table, &["hole"], reason);
        let reason = "hole_shape is \"none\", backfill as IBC 1807.3.3: give a shape and size";
        refuse_own(table, &["set_in"], reason);
        return Some((None, None));
    };
    let setting = table.choice("set_in", &SETTINGS, false)?;
    let size = table.required("hole")?;
    let hole = table.take("hole", hole(shape, size))?;
    Some((Some(setting), Some(hole)))
}

/// The days it rests and those it needs; what is refused stops the job.
fn rest_of(table: &Table<'_>) -> Option<(RestDays, RestDays)> {
    if !table.has("rest_days") && !table.has("rest_days_needed") {
        return None;
    }
    let days = |key| {
        let days = table.required::<Ratio>(key)?;
        table.take(key, RestDays::new(days.si()))
    };
    let (rests, needs) = (days("rest_days"), days("rest_days_needed"));
    Some((rests?, needs?))
}
