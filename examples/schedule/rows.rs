//! The schedule as rows and columns. A new column is one entry of [`COLUMNS`];
//! CSV and HTML both follow.

use groundline::check::Governing;
use groundline::combination::CombinesTo;
use groundline::fence::{Arm, PostKind};
use groundline::foundation::HoleShape;
use groundline::limit_state::AllowableStress;
use groundline::plan::ScheduledPost;
use groundline::source::Citation;
use groundline::units::{Force, Length, Measurable, Measure, Torque, UnitSystem, Volume, inch, mm};
use groundline::utilization::Utilization;
use groundline::wind::WindCode;

use Measure::{
    Force as InForce, Length as InLength, Moment, Number, SectionLength, Volume as InVolume,
};

/// One post of the schedule, whatever the wind code.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    pub(crate) number: usize,
    pub(crate) kind: PostKind,
    pub(crate) run_name: String,
    pub(crate) at: Length,
    pub(crate) width: Length,
    pub(crate) case: String,
    pub(crate) shear: Force,
    pub(crate) moment: Torque,
    pub(crate) hole: Option<(HoleShape, Length)>,
    pub(crate) required: Length,
    pub(crate) planned: Option<Length>,
    pub(crate) ground: Option<Utilization>,
    pub(crate) strength: Utilization,
    pub(crate) bearing: Option<Utilization>,
    pub(crate) governing: Governing,
    pub(crate) source: &'static Citation,
    pub(crate) utilization: Utilization,
    pub(crate) failing: Vec<Governing>,
    pub(crate) too_weak: bool,
    pub(crate) beyond: bool,
    /// To the planned depth, or else the required one.
    pub(crate) concrete: Volume,
    pub(crate) concrete_at_required: Volume,
    /// What was noted when it was dug; none for a post only planned.
    pub(crate) dug: Option<String>,
}

impl Row {
    /// The row of a post; `runs` are the names of the runs.
    pub(crate) fn new<C: WindCode>(
        site: &C,
        post: &ScheduledPost<C::Level>,
        runs: &[String],
        dug: Option<String>,
    ) -> Self
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let (check, arm) = (&post.check, post.post.arms().next());
        let foundation = check.design().foundation();
        let run = arm.map_or(0, |arm| arm.run);
        let required = check.required.depth();
        let planned = check.planned.map(|planned| planned.depth());
        let case = |case: &groundline::actions::LoadCase<C::Level>| {
            format!("{}, {}", case.kind.name(), site.case_name(case.wind_case))
        };
        Self {
            number: post.post.number,
            kind: post.post.kind,
            run_name: runs.get(run).cloned().unwrap_or_default(),
            at: arm.map_or(Length::default(), |arm| arm.at),
            width: post.post.arms().map(Arm::width).sum(),
            case: check.required_case.as_ref().map_or(String::new(), case),
            shear: check.actions().shear(),
            moment: check.actions().moment(),
            hole: foundation.hole().map(|hole| (hole.shape(), hole.size())),
            required,
            planned,
            ground: check.planned.map(|planned| planned.utilization()),
            strength: check.strength.worst(),
            bearing: check.bearing.map(|bearing| bearing.utilization),
            governing: check.governing,
            source: check.source(),
            utilization: check.utilization,
            failing: check.failing().collect(),
            too_weak: check.post_is_too_weak(),
            beyond: check.required.beyond_limit(),
            concrete: foundation.concrete_volume(planned.unwrap_or(required)),
            concrete_at_required: foundation.concrete_volume(required),
            dug,
        }
    }

    /// In one word, or all that fails.
    pub(crate) fn result(&self) -> String {
        if self.failing.is_empty() {
            return "passes".to_owned();
        }
        let names: Vec<_> = self.failing.iter().map(|check| check.name()).collect();
        let weak = if self.too_weak {
            "; post too weak at any depth"
        } else {
            ""
        };
        format!("FAILS: {}{weak}", names.join(", "))
    }
}

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Cell {
    Text(String),
    /// A number: in full in its unit, and as it is shown.
    Number(f64, String),
    Blank,
}

/// A column of the schedule.
#[derive(Debug)]
pub(crate) struct Column {
    /// Its name in data attributes.
    pub(crate) key: &'static str,
    pub(crate) title: &'static str,
    pub(crate) measure: Measure,
    pub(crate) on_sheet: bool,
    cell: fn(&Row, UnitSystem) -> Cell,
}

impl Column {
    const fn new(
        key: &'static str,
        title: &'static str,
        measure: Measure,
        cell: fn(&Row, UnitSystem) -> Cell,
    ) -> Self {
        Self {
            key,
            title,
            measure,
            on_sheet: true,
            cell,
        }
    }

    /// In the CSV only.
    const fn only_in_csv(self) -> Self {
        Self {
            on_sheet: false,
            ..self
        }
    }

    pub(crate) fn unit(&self, system: UnitSystem) -> &'static str {
        self.measure.symbol(system)
    }

    pub(crate) fn cell(&self, row: &Row, system: UnitSystem) -> Cell {
        (self.cell)(row, system)
    }
}

/// Every column, from left to right.
pub(crate) const COLUMNS: &[Column] = &[
    Column::new("post", "Post", Number, |row, _| count(row.number)),
    Column::new("kind", "Kind", Number, |row, _| text(row.kind.name())),
    Column::new("run", "Run", Number, |row, _| text(&row.run_name)),
    Column::new("at", "At", InLength, |row, s| {
        Cell::Number(in_unit(row.at, InLength, s), tape(row.at, s))
    }),
    Column::new("hole", "Hole", SectionLength, hole),
    Column::new("hole_shape", "Hole shape", Number, |row, _| shape(row)).only_in_csv(),
    Column::new("required", "Required depth", SectionLength, required),
    Column::new("planned", "Planned depth", SectionLength, planned),
    Column::new("dug", "Depth is", Number, |row, _| dug(row)).only_in_csv(),
    Column::new("result", "Result", Number, |row, _| text(&row.result())),
    Column::new("utilization", "Utilization", Number, |row, _| {
        used(Some(row.utilization))
    }),
    Column::new("governs", "Governs", Number, |row, _| {
        text(row.governing.name())
    }),
    Column::new("ground", "Ground used", Number, |row, _| used(row.ground)),
    Column::new("strength", "Post used", Number, |row, _| {
        used(Some(row.strength))
    }),
    Column::new("bearing", "Base used", Number, |row, _| used(row.bearing)),
    Column::new("width", "Width carried", InLength, |row, s| {
        number(row.width, InLength, s)
    }),
    Column::new("case", "Wind case", Number, |row, _| text(&row.case)),
    Column::new("shear", "Shear at grade", InForce, |row, s| {
        number(row.shear, InForce, s)
    }),
    Column::new("moment", "Moment at grade", Moment, |row, s| {
        number(row.moment, Moment, s)
    }),
    Column::new("concrete", "Concrete", InVolume, |row, s| {
        number(row.concrete, InVolume, s)
    }),
    Column::new(
        "source",
        "Source of the governing check",
        Number,
        |row, _| text(&row.source.to_string()),
    )
    .only_in_csv(),
    Column::new("note", "Note", Number, |row, _| {
        text(row.dug.as_deref().unwrap_or(""))
    })
    .only_in_csv(),
];

fn text(text: &str) -> Cell {
    Cell::Text(text.to_owned())
}

fn count(number: usize) -> Cell {
    // A fence has at most a few hundred thousand posts.
    u32::try_from(number).map_or(Cell::Blank, |n| Cell::Number(f64::from(n), n.to_string()))
}

fn used(utilization: Option<Utilization>) -> Cell {
    utilization.map_or(Cell::Blank, |u| Cell::Number(u.ratio(), u.to_string()))
}

/// A quantity in the unit it is shown in.
pub(crate) fn in_unit<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) -> f64 {
    let symbol = measure.symbol(system);
    let mut units = measure.dimension().units().iter();
    let unit = units.find(|unit| unit.symbol == symbol);
    quantity.si() / unit.map_or(1.0, groundline::units::UnitDef::factor)
}

/// A quantity without its unit, to four digits.
pub(crate) fn shown<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) -> String {
    let text = groundline::units::show_as(quantity, measure, system).to_string();
    let symbol = measure.symbol(system);
    let bare = text.strip_suffix(symbol).unwrap_or(&text).trim_end();
    bare.to_owned()
}

fn number<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) -> Cell {
    let value = in_unit(quantity, measure, system);
    Cell::Number(value, shown(quantity, measure, system))
}

/// A place along a run as a tape reads it: feet and inches to an eighth, or
/// metres to a millimetre.
pub(crate) fn tape(at: Length, system: UnitSystem) -> String {
    const EIGHTHS: [&str; 8] = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
    if system == UnitSystem::Si {
        return format!("{:.3}", at.value);
    }
    let eighths = (at.to(inch) * 8.0).round();
    let feet = (eighths / 96.0).floor();
    let inches = ((eighths - 96.0 * feet) / 8.0).floor();
    let left = eighths - 96.0 * feet - 8.0 * inches;
    let near = |(count, _): &(u32, &str)| (f64::from(*count) - left).abs() < 0.5;
    let part = (0..).zip(EIGHTHS).find(near).map_or("", |(_, part)| part);
    match (inches > 0.0, part) {
        (false, "") => format!("{feet}'"),
        (true, "") => format!("{feet}' {inches}\""),
        (false, part) => format!("{feet}' {part}\""),
        (true, part) => format!("{feet}' {inches}-{part}\""),
    }
}

/// A depth as it is dug: up to the next inch or centimetre.
pub(crate) fn dig(depth: Length, system: UnitSystem) -> String {
    // A whisker above a mark is that mark.
    match system {
        UnitSystem::Us => format!("{:.0}", (depth.to(inch) - 1e-6).ceil()),
        UnitSystem::Si => format!("{:.0}", 10.0 * ((depth.to(mm) - 1e-4) / 10.0).ceil()),
    }
}

fn hole(row: &Row, system: UnitSystem) -> Cell {
    let Some((shape, size)) = row.hole else {
        return Cell::Blank;
    };
    let square = if shape == HoleShape::Square {
        " sq"
    } else {
        ""
    };
    let shown = shown(size, SectionLength, system) + square;
    Cell::Number(in_unit(size, SectionLength, system), shown)
}

fn shape(row: &Row) -> Cell {
    text(match row.hole {
        None => "no concrete",
        Some((HoleShape::Square, _)) => "square",
        Some(_) => "round",
    })
}

fn planned(row: &Row, system: UnitSystem) -> Cell {
    row.planned
        .map_or(Cell::Blank, |depth| number(depth, SectionLength, system))
}

fn dug(row: &Row) -> Cell {
    text(if row.dug.is_some() {
        "as dug"
    } else {
        "as planned"
    })
}

fn required(row: &Row, system: UnitSystem) -> Cell {
    let value = in_unit(row.required, SectionLength, system);
    let star = if row.beyond { " *" } else { "" };
    Cell::Number(value, dig(row.required, system) + star)
}
