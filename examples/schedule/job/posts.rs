//! The ground, and the kinds of posts with their holes and planned depths.

use super::fields::Table;
use groundline::Error;
use groundline::actions::GroundlineActions;
use groundline::check::PostDesign;
use groundline::embedment::DepthCap;
use groundline::fence::PostKind;
use groundline::foundation::{Hole, HoleShape, Restraint, SquareWidth};
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::post::{
    DesignValues, Grade, Moisture, PipePost, Post, Species, SteelStrength, TimberPost, Treatment,
};
use groundline::section::{Square, Tube};
use groundline::units::{Length, lb, lb_ft};

/// Fields of a kind of post that may stand once, in `[post]`.
const SHARED: &[&str] = &[
    "material",
    "size",
    "species",
    "grade",
    "treatment",
    "diameter",
    "wall",
    "yield",
    "hole",
    "hole_shape",
    "planned_depth",
    "paved",
];
const TIMBER: [&str; 4] = ["size", "species", "grade", "treatment"];
const PIPE: [&str; 3] = ["diameter", "wall", "yield"];

const SHAPES: [(&str, Option<HoleShape>); 3] = [
    ("round", Some(HoleShape::Round)),
    ("square", Some(HoleShape::Square)),
    ("none", None),
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
    pub(crate) hole: Option<Hole>,
    restraint: Restraint,
    pub(crate) planned: Option<Length>,
}

/// What all posts share.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Basis {
    ground: Ground,
    combination: AllowableStress,
    cap: DepthCap,
    width: SquareWidth,
}

impl Spec {
    /// What the library checks.
    pub(crate) fn design(&self) -> Result<PostDesign, Error> {
        let (ground, post) = (self.basis.ground, self.post);
        let design = match self.hole {
            Some(hole) => PostDesign::in_concrete(ground, post, hole)?,
            None => PostDesign::bare(ground, post),
        };
        Ok(design
            .restrained_by(self.restraint)
            .square_width(self.basis.width)
            .with_cap(self.basis.cap)
            .with_combination(self.basis.combination))
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

/// Reads `[soil]`, `[options]` and `[post]`.
pub(crate) fn read(root: &Table<'_>) -> Option<Specs> {
    let basis = basis_of(root);
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
            let table = table.falling_back_on(&general, SHARED);
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

fn basis_of(root: &Table<'_>) -> Option<Basis> {
    let options = root.table("options");
    let combinations = [
        ("basic", AllowableStress::Basic),
        (
            "alternative with one-third increase",
            AllowableStress::AlternativeWithIncrease,
        ),
    ];
    let combination = options.choice("combinations", &combinations, false);
    let caps = [
        ("depth", DepthCap::CapDepth),
        ("reading", DepthCap::CapReading),
    ];
    let cap = options.choice("twelve_foot_rule", &caps, false);
    let widths = [
        ("diagonal", SquareWidth::Diagonal),
        ("face", SquareWidth::Face),
    ];
    let width = options.choice("square_width", &widths, false);
    options.finish();

    let soil = root.table("soil");
    let ground = ground_of(&soil);
    soil.finish();
    let basis = Basis {
        ground: ground?,
        combination: combination?,
        cap: cap?,
        width: width?,
    };
    soil.take(
        "isolated_pole",
        basis.ground.lateral_increase(basis.combination),
    )?;
    Some(basis)
}

fn ground_of(soil: &Table<'_>) -> Option<Ground> {
    let classes = ["1", "2", "3", "4", "5"];
    let classes: Vec<_> = classes.into_iter().zip(SoilClass::ALL).collect();
    let isolated = soil.flag("isolated_pole");
    let top = soil.quantity_or("discount_top", "0 in");
    let ground = if soil.has("lateral_bearing") {
        if soil.has("class") {
            soil.refuse("class", "leave it out, or lateral_bearing: one of them");
        }
        let bearing = soil.quantity("lateral_bearing")?;
        let bearing = soil.take("lateral_bearing", LateralBearing::new(bearing))?;
        Ground::with_lateral_bearing(bearing)
    } else {
        if !soil.has("class") {
            soil.missing(
                "class",
                "give 1 to 5 (IBC Table 1806.2), or lateral_bearing",
            );
            return None;
        }
        Ground::presumptive(soil.choice("class", &classes, true)?)
    };
    let ground = if soil.has("vertical_pressure") {
        let pressure = soil.quantity("vertical_pressure")?;
        soil.take("vertical_pressure", ground.with_vertical_pressure(pressure))?
    } else {
        ground
    };
    let ground = if isolated? {
        ground.as_isolated_pole()
    } else {
        ground
    };
    soil.take("discount_top", ground.discounting_top(top?))
}

fn spec_of(table: &Table<'_>, basis: Option<Basis>) -> Option<Spec> {
    let pipe = table.choice("material", &[("timber", false), ("pipe", true)], true);
    let post = match pipe {
        Some(true) => {
            refuse_own(
                table,
                &TIMBER,
                "this is of a timber post, and material is \"pipe\"",
            );
            pipe_of(table)
        }
        Some(false) => {
            refuse_own(
                table,
                &PIPE,
                "this is of a pipe, and material is \"timber\"",
            );
            timber_of(table)
        }
        None => None,
    };
    let hole = hole_of(table);
    let planned = table.quantity("planned_depth");
    let unreadable = table.has("planned_depth") && planned.is_none();
    let paved = table.flag("paved");
    if unreadable {
        return None;
    }
    let spec = Spec {
        basis: basis?,
        post: post?,
        hole: hole?,
        restraint: if paved? {
            Restraint::RigidPaving
        } else {
            Restraint::None
        },
        planned,
    };
    if let Err(error) = spec.design() {
        let error = error.in_system(table.system());
        table.refuse(
            "hole",
            format!("{error}, so that the post fits with 1 in (25 mm) around it"),
        );
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

/// The hole; none inside is a post without concrete.
#[expect(clippy::option_option, reason = "refused, or none wanted")]
fn hole_of(table: &Table<'_>) -> Option<Option<Hole>> {
    match table.choice("hole_shape", &SHAPES, false)? {
        None => {
            refuse_own(
                table,
                &["hole"],
                "hole_shape is \"none\": no concrete, no hole size",
            );
            Some(None)
        }
        Some(shape) => {
            let size = table.required("hole")?;
            table.take("hole", hole(shape, size)).map(Some)
        }
    }
}

fn timber_of(table: &Table<'_>) -> Option<Post> {
    let species = [
        ("southern pine", Species::SouthernPine),
        ("Douglas fir-larch", Species::DouglasFirLarch),
        ("hem-fir", Species::HemFir),
        ("spruce-pine-fir", Species::SprucePineFir),
        ("western cedar", Species::WesternCedars),
    ];
    let species = table.choice("species", &species, true);
    let grade = table.choice("grade", &[("1", Grade::No1), ("2", Grade::No2)], true);
    let treatments = [
        ("not incised", Treatment::NotIncised),
        ("incised", Treatment::Incised),
    ];
    let treatment = table.choice("treatment", &treatments, true);
    let side = table.required("size")?;
    let section = table.take("size", Square::new(side));
    let values = table.take("species", DesignValues::of(species?, grade?, side))?;
    let made = TimberPost::new(section?, values, Moisture::Wet, treatment?);
    table.take("size", made).map(Post::from)
}

fn pipe_of(table: &Table<'_>) -> Option<Post> {
    let diameter = table.required("diameter");
    let wall = table.required("wall");
    let steel = table
        .required("yield")
        .and_then(|strength| table.take("yield", SteelStrength::new(strength)));
    let made = Tube::new(diameter?, wall?);
    let tube = table.take_by("diameter", &[("pipe wall", "wall")], made)?;
    table
        .take("wall", PipePost::new(tube, steel?))
        .map(Post::from)
}
