//! The runs: what stands between the posts, corners, gates.

use super::fields::Table;
use groundline::fence::{Fence, FenceRun, Gate, Hinges, Panel};
use groundline::units::{Angle, Measurable, Ratio};
use groundline::wind::{Infill, Member};

/// Fields of a run that may stand once, in `[fence]`.
const SHARED: &[&str] = &[
    "height",
    "clearance",
    "infill",
    "panel_weight",
    "spacing",
    "topping",
];

/// Reads `[fence]` and every `[[run]]`; also the names of the runs.
pub(crate) fn read(root: &Table<'_>) -> Option<(Fence, Vec<String>)> {
    let shared = root.table("fence");
    let tables: Vec<_> = root
        .tables("run")
        .into_iter()
        .map(|table| table.falling_back_on(&shared, SHARED))
        .collect();
    if tables.is_empty() && !root.has("run") {
        root.missing("run", "give each straight run of the fence as [[run]]");
    }
    let mut names = Vec::new();
    let mut fence: Option<Fence> = None;
    let mut whole = !tables.is_empty();
    for (index, table) in tables.iter().enumerate() {
        let name = table.text("name");
        names.push(name.unwrap_or_else(|| format!("run {}", index + 1)));
        let run = run_of(table);
        let turn = if index == 0 {
            if table.has("turn") {
                table.refuse("turn", "the first run turns from nothing: leave it out");
                whole = false;
            }
            None
        } else {
            table.required::<Angle>("turn")
        };
        table.finish();
        fence = match (fence.take(), run, turn) {
            (None, Some(run), _) if index == 0 => Some(Fence::new(run)),
            (Some(fence), Some(run), Some(turn)) => table.take("turn", fence.turning(turn, run)),
            _ => None,
        };
        whole &= fence.is_some();
    }
    shared.finish();
    fence.filter(|_| whole).map(|fence| (fence, names))
}

fn run_of(table: &Table<'_>) -> Option<FenceRun> {
    let panel = panel_of(table);
    let length = table.required("length");
    let spacing = table.required("spacing");
    let gates: Vec<_> = table.tables("gate").iter().map(gate_of).collect();
    let made = FenceRun::new(panel?, length?, spacing?);
    let mut run = table.take_by("length", &[("post spacing", "spacing")], made)?;
    for gate in gates {
        run = table.take("gate", run.with_gate(gate?))?;
    }
    Some(run)
}

fn panel_of(table: &Table<'_>) -> Option<Panel> {
    let height = table.required("height");
    let clearance = table.quantity_or("clearance", "0 in");
    let weight = table.required("panel_weight");
    let infill = infill_of(&table.table_or_fallback("infill"));
    let topping = table.table_or_fallback("topping");
    let top = topping.is_given().then(|| {
        let height = topping.required("height");
        (height, infill_of(&topping))
    });
    let panel = table.take("height", Panel::new(height?))?;
    let panel = table.take("clearance", panel.with_clearance(clearance?))?;
    let panel = table.take("panel_weight", panel.with_weight(weight?))?;
    let panel = panel.with_infill(infill?);
    match top {
        None => Some(panel),
        Some((height, infill)) => topping.take("height", panel.with_topping(height?, infill?)),
    }
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    Solid,
    Pickets,
    BothSides,
    Bars,
    Lattice,
    Mesh,
    Solidity,
}

const KINDS: [(&str, Kind); 7] = [
    ("solid", Kind::Solid),
    ("pickets", Kind::Pickets),
    ("boards on both sides", Kind::BothSides),
    ("round bars", Kind::Bars),
    ("lattice", Kind::Lattice),
    ("mesh", Kind::Mesh),
    ("solidity", Kind::Solidity),
];

fn infill_of(table: &Table<'_>) -> Option<Infill> {
    let kind = table.choice("kind", &KINDS, table.is_given())?;
    let two = |make: fn(_, _) -> Result<Infill, groundline::Error>| {
        let (member, gap) = (table.required("member"), table.required("gap"));
        let gaps = [
            "gap between pickets",
            "gap between boards",
            "lattice opening",
            "mesh opening",
        ]
        .map(|field| (field, "gap"));
        table.take_by("member", &gaps, make(member?, gap?))
    };
    let infill = match kind {
        Kind::Solid => Some(Infill::TIGHT),
        Kind::Pickets => two(Infill::pickets),
        Kind::BothSides => two(Infill::boards_on_both_sides),
        Kind::Bars => two(Infill::round_bars),
        Kind::Lattice => two(Infill::lattice),
        Kind::Mesh => two(Infill::woven_mesh),
        Kind::Solidity => table.required::<Ratio>("solidity").and_then(|solidity| {
            table.take("solidity", Infill::given(solidity.si(), Member::Flat))
        }),
    };
    let covered = table.quantity_or::<Ratio>("covered", "0");
    table.finish();
    table.take("covered", infill?.covered(covered?.si()))
}

fn gate_of(table: &Table<'_>) -> Option<Gate> {
    let at = table.required("at");
    let opening = table.required("opening");
    let weight = table.required("leaf_weight");
    let sides = [
        ("start", Hinges::AtStart),
        ("end", Hinges::AtEnd),
        ("both", Hinges::Both),
    ];
    let hinges = table.choice("hinges", &sides, true);
    table.finish();
    let fields = [
        ("gate opening", "opening"),
        ("gate leaf weight", "leaf_weight"),
    ];
    table.take_by("at", &fields, Gate::new(at?, opening?, weight?, hinges?))
}
