//! The schedule as columns. A new one is one entry of [`COLUMNS`]; CSV and HTML
//! both follow.

use super::job::asked::{Asked, part};
use super::rows::{Row, dig, digging, in_unit, shown, tape};
use groundline::backfill::Setting;
use groundline::check::Checked;
use groundline::foundation::HoleShape;
use groundline::units::{Measurable, Measure, UnitSystem};
use groundline::utilization::Utilization;

use Measure::{
    Force as InForce, Length as InLength, Moment, Number, SectionLength, Volume as InVolume,
};

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Cell {
    Text(String),
    /// A number: in full in its unit, and as it is shown.
    Number(f64, String),
    Blank,
}

/// Where a column stands; all of them stand in the CSV.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Place {
    /// In the table of posts of the sheet.
    Posts,
    /// In the table of what more was asked, if it was.
    More(fn(&Asked) -> bool),
    /// In the CSV only.
    Csv,
}

/// A column of the schedule.
#[derive(Debug)]
pub(crate) struct Column {
    /// Its name in data attributes.
    pub(crate) key: &'static str,
    pub(crate) title: &'static str,
    pub(crate) measure: Measure,
    pub(crate) place: Place,
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
            place: Place::Posts,
            cell,
        }
    }

    /// In the CSV only.
    const fn only_in_csv(self) -> Self {
        Self {
            place: Place::Csv,
            ..self
        }
    }

    /// In the table of what more was asked, if it was.
    const fn asked_for(self, asked: fn(&Asked) -> bool) -> Self {
        Self {
            place: Place::More(asked),
            ..self
        }
    }

    /// Is it a demand over a capacity?
    pub(crate) fn is_used(&self) -> bool {
        self.key.ends_with("used")
            || ["utilization", "ground", "strength", "bearing"].contains(&self.key)
    }

    pub(crate) fn unit(&self, system: UnitSystem) -> &'static str {
        self.measure.symbol(system)
    }

    pub(crate) fn cell(&self, row: &Row, system: UnitSystem) -> Cell {
        (self.cell)(row, system)
    }
}

/// Stands where a check was asked for and refused.
pub(crate) const NOT_CHECKED: &str = "not checked";

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
    Column::new("set_in", "Set in", Number, |row, _| text(set_in(row))).only_in_csv(),
    Column::new("required", "Required depth", SectionLength, required),
    Column::new("planned", "Planned depth", SectionLength, planned),
    Column::new("dig", "Dig to", SectionLength, |row, s| {
        row.dig.map_or_else(
            || text("no depth"),
            |depth| Cell::Number(digging(depth, s), dig(depth, s)),
        )
    }),
    Column::new("missing", "Depth missing", SectionLength, |row, s| {
        row.missing.map_or(Cell::Blank, |missing| {
            Cell::Number(digging(missing, s), dig(missing, s))
        })
    }),
    Column::new("no_depth", "Why no depth", Number, |row, _| {
        text(row.no_depth.as_deref().unwrap_or(""))
    })
    .only_in_csv(),
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
    Column::new("lean", "Lean of top", SectionLength, |row, s| {
        made(&row.site.lean, |lean| {
            number(lean.lean.total(), SectionLength, s)
        })
    })
    .asked_for(|asked| asked.lean),
    Column::new("lean_ratio", "Lean over height", Number, |row, _| {
        made(&row.site.lean, |lean| {
            Cell::Number(lean.ratio, part(lean.ratio))
        })
    })
    .asked_for(|asked| asked.lean),
    Column::new("lean_limit", "Limit of lean", Number, |row, _| {
        let limit = row.site.lean.done().and_then(|lean| lean.limit);
        limit.map_or(Cell::Blank, |limit| Cell::Number(limit, part(limit)))
    })
    .asked_for(|asked| asked.lean),
    Column::new("lean_used", "Lean used", Number, |row, _| {
        made(&row.site.lean, |lean| used(lean.utilization))
    })
    .asked_for(|asked| asked.lean),
    Column::new("frost_lifts", "Frost lifts", InForce, |row, s| {
        made(&row.site.frost, |frost| {
            number(frost.balance.lifts, InForce, s)
        })
    })
    .asked_for(Asked::frost),
    Column::new("frost_holds", "Holds against frost", InForce, |row, s| {
        made(&row.site.frost, |frost| {
            number(frost.balance.holds, InForce, s)
        })
    })
    .asked_for(Asked::frost),
    Column::new("frost_used", "Frost used", Number, |row, _| {
        made(&row.site.frost, |frost| used(Some(frost.utilization)))
    })
    .asked_for(Asked::frost),
    Column::new(
        "pull_out_holds",
        "Holds against pull-out",
        InForce,
        |row, s| {
            made(&row.site.uplift, |uplift| {
                number(uplift.resistance.resistance, InForce, s)
            })
        },
    )
    .asked_for(|asked| asked.uplift),
    Column::new("pull_out_used", "Pull-out used", Number, |row, _| {
        made(&row.site.uplift, |uplift| used(Some(uplift.utilization)))
    })
    .asked_for(|asked| asked.uplift),
    Column::new("pull_out_way", "Weakest way out", Number, |row, _| {
        made(&row.site.uplift, |uplift| {
            text(uplift.resistance.weakest.name())
        })
    })
    .only_in_csv(),
    Column::new(
        "axial_used",
        "Weight with bending used",
        Number,
        |row, _| made(&row.site.axial, |axial| used(Some(axial.utilization))),
    )
    .asked_for(|asked| asked.axial),
    Column::new("fill", "To fill round the post", InVolume, |row, s| {
        made(&row.site.materials, |all| number(all.fill, InVolume, s))
    })
    .asked_for(Asked::materials),
    Column::new("bags", "Bags", Number, |row, _| {
        made(&row.site.materials, |all| {
            all.bags.map_or(Cell::Blank, |bags| {
                Cell::Number(bags.buy, format!("{:.0}", bags.buy))
            })
        })
    })
    .asked_for(Asked::materials),
    Column::new("carry", "To carry", InForce, |row, s| {
        made(&row.site.materials, |all| number(all.carry(), InForce, s))
    })
    .asked_for(Asked::materials),
    Column::new("refused", "Not checked, and why", Number, |row, _| {
        let all = row
            .refused
            .iter()
            .map(|(name, why)| format!("{name}: {why}"));
        text(&all.collect::<Vec<_>>().join("; "))
    })
    .only_in_csv(),
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

fn number<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) -> Cell {
    let value = in_unit(quantity, measure, system);
    Cell::Number(value, shown(quantity, measure, system))
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
        None => "none",
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

fn set_in(row: &Row) -> &'static str {
    row.setting
        .map_or("backfill as IBC 1807.3.3", Setting::name)
}

/// The cell of what was asked for; who could not be checked says so.
fn made<T>(checked: &Checked<T>, cell: impl Fn(&T) -> Cell) -> Cell {
    match (checked.done(), checked.refusal()) {
        (Some(done), _) => cell(done),
        (None, Some(_)) => text(NOT_CHECKED),
        (None, None) => Cell::Blank,
    }
}
