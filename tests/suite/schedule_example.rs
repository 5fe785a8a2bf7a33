//! The example `schedule`: what stands in its files is what the library says,
//! read back from the files themselves.

#[allow(dead_code, reason = "the example's own modules, as they are")]
#[path = "../../examples/schedule/main.rs"]
pub(crate) mod schedule;

use clap::Parser;
use groundline::actions::GroundlineActions;
use groundline::backfill::{Bag, Setting};
use groundline::check::{
    FrostOptions, Grip, GroundStiffness, LeanOptions, MaterialOptions, PostDesign, SideFriction,
    SiteChecks, UpliftOptions,
};
use groundline::fence::{Fence, FenceRun, Gate, Hinges, Panel, PostKind};
use groundline::foundation::{Hole, Restraint};
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::limit_state::{AllowableStress, Strength};
use groundline::plan::{FencePlan, ScheduledPost};
use groundline::post::{
    AxialOptions, BelowGrade, DesignValues, Grade, Moisture, PipePost, Species, SteelStrength,
    TimberPost, Treatment,
};
use groundline::section::{Square, Tube};
use groundline::units::*;
use groundline::wind::{
    AsceSite, BasicWindSpeed, DirectPressure, Edition, Exposure, Infill, RiskCategory, WindCode,
};
use quick_xml::Reader;
use quick_xml::XmlVersion;
use quick_xml::events::{BytesStart, Event};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The folder of the samples.
pub(crate) fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/schedule")
}

/// A folder for the files of one test.
pub(crate) fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"))
        .join("schedule")
        .join(name);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Runs the example; the folder it wrote and what it printed.
pub(crate) fn run(job: &Path, name: &str, more: &[&str]) -> (PathBuf, Result<String, String>) {
    let out = folder(name);
    let arguments = [
        "schedule",
        job.to_str().unwrap(),
        "--out",
        out.to_str().unwrap(),
    ];
    for name in schedule::NAMES {
        let _ = std::fs::remove_file(out.join(name));
    }
    let flags = schedule::Flags::try_parse_from(arguments.iter().chain(more)).unwrap();
    (out.clone(), schedule::run(&flags).map(|done| done.summary))
}

/// The sheet of a sample.
pub(crate) fn sheet_of(sample: &str, name: &str) -> (PathBuf, String) {
    let (out, printed) = run(&samples().join(sample), name, &[]);
    printed.unwrap();
    let page = std::fs::read_to_string(out.join("sheet.html")).unwrap();
    (out, page)
}

fn attributes(tag: &BytesStart<'_>) -> BTreeMap<String, String> {
    let read = tag.attributes().map(|attribute| {
        let attribute = attribute.unwrap();
        let key = attribute.key.as_ref().to_owned();
        let value = attribute.normalized_value(XmlVersion::Implicit1_0).unwrap();
        (key, value.into_owned())
    });
    read.collect()
}

/// A number of the sheet: its value in full, its unit, as shown.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shown {
    pub(crate) value: f64,
    pub(crate) unit: String,
    pub(crate) text: String,
}

/// What a page holds.
#[derive(Debug, Default)]
pub(crate) struct Page {
    pub(crate) tags: Vec<(String, BTreeMap<String, String>)>,
    /// By post (0 outside the table) and field.
    pub(crate) numbers: BTreeMap<(usize, String), Shown>,
    pub(crate) states: BTreeMap<usize, String>,
    pub(crate) text: String,
}

/// Reads a page strictly: every tag closed, every attribute quoted.
pub(crate) fn page(html: &str) -> Page {
    let mut reader = Reader::from_str(html);
    reader.config_mut().check_end_names = true;
    let mut page = Page::default();
    let (mut post, mut open): (usize, Option<(String, f64, String, String)>) = (0, None);
    let mut depth = 0;
    loop {
        match reader.read_event().unwrap() {
            Event::Eof => break,
            Event::Start(tag) | Event::Empty(tag) if tag.name().as_ref() == "data" => {
                let of = attributes(&tag);
                let value: f64 = of["data-value"].parse().unwrap();
                assert_eq!(of["value"], of["data-value"]);
                let (field, unit) = (of["data-field"].clone(), of["data-unit"].clone());
                open = Some((field, value, unit, String::new()));
                depth += 1;
            }
            Event::Start(tag) => {
                depth += 1;
                let of = attributes(&tag);
                if let Some(number) = of.get("data-post") {
                    post = number.parse().unwrap();
                    page.states.insert(post, of["data-state"].clone());
                }
                let name = tag.name().as_ref().to_owned();
                page.tags.push((name, of));
            }
            Event::Empty(tag) => {
                let name = tag.name().as_ref().to_owned();
                page.tags.push((name, attributes(&tag)));
            }
            Event::End(tag) => {
                depth -= 1;
                match tag.name().as_ref() {
                    "data" => {
                        let (field, value, unit, text) = open.take().unwrap();
                        let shown = Shown { value, unit, text };
                        let twice = page.numbers.insert((post, field), shown);
                        assert!(twice.is_none());
                    }
                    "tr" => post = 0,
                    _ => {}
                }
            }
            Event::Text(text) => {
                let text = text.xml10_content();
                page.text += &text;
                if let Some(open) = &mut open {
                    open.3 += &text;
                }
            }
            Event::GeneralRef(reference) => {
                let name = reference.xml10_content();
                assert!(
                    ["amp", "lt", "gt", "quot", "#39"].contains(&&*name),
                    "{name}"
                );
                page.text.extend(["&", &name, ";"]);
            }
            _ => {}
        }
    }
    assert_eq!(depth, 0);
    page
}

/// The plan of us.toml and as_dug.csv, written out by hand.
pub(crate) fn us_plan() -> FencePlan {
    let speed = BasicWindSpeed::strength_level(mph(105.0)).unwrap();
    let site =
        AsceSite::new(Edition::Asce7_22, speed, Exposure::B).with_risk_category(RiskCategory::II);
    let panel = |top| {
        let panel = Panel::new(top).unwrap().with_clearance(inch(2.0)).unwrap();
        panel.with_weight(psf(4.0)).unwrap()
    };
    let run = |top, length| FenceRun::new(panel(top), length, ft(6.0)).unwrap();
    let gate = Gate::new(ft(40.0), ft(10.0), lb(120.0), Hinges::Both).unwrap();
    let fence = Fence::new(run(ft(6.0), ft(96.0)).with_gate(gate).unwrap())
        .turning(deg(90.0), run(ft(6.0), ft(56.0)))
        .unwrap()
        .turning(deg(35.0), run(ft(7.0), ft(40.0)))
        .unwrap();
    let ground = Ground::presumptive(SoilClass::Class4);
    let side = inch(5.5);
    let values = DesignValues::of(Species::SouthernPine, Grade::No1, side).unwrap();
    let section = Square::new(side).unwrap();
    let timber = TimberPost::new(section, values, Moisture::Wet, Treatment::NotIncised).unwrap();
    let tube = Tube::new(inch(4.0), inch(0.226)).unwrap();
    let pipe = PipePost::new(tube, SteelStrength::new(ksi(50.0)).unwrap()).unwrap();
    let wood = |hole| PostDesign::in_concrete(ground, timber.into(), hole).unwrap();
    let round = |size| Hole::round(inch(size)).unwrap();
    let gates = PostDesign::in_concrete(ground, pipe.into(), round(24.0)).unwrap();
    let frost = FrostOptions::new(inch(24.0), Grip::Given(psf(250.0)))
        .unwrap()
        .with_friction(SideFriction::Presumptive)
        .unwrap();
    let sand = GroundStiffness::growing(lb_per_cu_in(60.0)).unwrap();
    let lean = LeanOptions::new(sand).with_limit(1.0 / 30.0).unwrap();
    let bags = MaterialOptions::new(Bag::lb_80());
    let bags = bags.with_waste(0.1).unwrap().with_base(inch(4.0)).unwrap();
    let asked = SiteChecks::default()
        .with_frost(frost)
        .with_lean(lean)
        .with_materials(bags);
    FencePlan::new(site, fence, wood(round(18.0)))
        .with_site_checks(asked)
        .with_planned_depth(inch(72.0))
        .with_kind(PostKind::Gate, gates, Some(inch(84.0)))
        .with_kind(PostKind::Corner, wood(round(18.0)), Some(inch(78.0)))
        .with_post(3, wood(round(18.0)), Some(inch(60.0)))
        .with_post(4, wood(round(18.0)), Some(inch(71.5)))
        .with_post(12, wood(round(16.0)), Some(inch(74.0)))
        .with_post(
            14,
            wood(Hole::square(inch(20.0)).unwrap()),
            Some(inch(66.0)),
        )
}

/// The plan of si.toml, written out by hand.
pub(crate) fn si_plan() -> FencePlan<DirectPressure<Strength>> {
    let site = DirectPressure::new(kpa(0.9), Strength)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let site = site.acting_at(0.55).unwrap();
    let slats = Infill::pickets(mm(90.0), mm(10.0)).unwrap();
    let panel = Panel::new(m(1.8))
        .unwrap()
        .with_clearance(mm(50.0))
        .unwrap();
    let panel = panel.with_weight(kpa(0.15)).unwrap().with_infill(slats);
    let run = |length| FenceRun::new(panel, length, m(2.4)).unwrap();
    let gate = Gate::new(m(9.6), m(1.2), kn(0.4), Hinges::AtStart).unwrap();
    let fence = Fence::new(run(m(24.0)).with_gate(gate).unwrap());
    let fence = fence.turning(deg(75.0), run(m(12.0))).unwrap();
    let bearing = LateralBearing::new(kpa_per_m(25.0)).unwrap();
    let ground = Ground::given(bearing);
    let ground = ground.with_vertical_pressure(kpa(100.0)).unwrap();
    let ground = ground.discounting_top(mm(150.0)).unwrap();
    let steel = SteelStrength::new(mpa(250.0)).unwrap();
    let design = |outside, wall| {
        let pipe = PipePost::new(Tube::new(mm(outside), mm(wall)).unwrap(), steel).unwrap();
        PostDesign::in_concrete(ground, pipe.into(), Hole::round(mm(450.0)).unwrap()).unwrap()
    };
    let stone = |outside, wall| {
        let pipe = PipePost::new(Tube::new(mm(outside), mm(wall)).unwrap(), steel).unwrap();
        let hole = Hole::round(mm(300.0)).unwrap();
        PostDesign::set_in(ground, pipe.into(), Setting::CompactedGravel, hole).unwrap()
    };
    let clay = GroundStiffness::constant(mpa(6.0)).unwrap();
    let bag = |yields| {
        let bag = Bag::given(newton(245.0), litre(yields)).unwrap();
        MaterialOptions::new(bag).with_waste(0.1).unwrap()
    };
    let asked = SiteChecks::default()
        .with_lean(LeanOptions::new(clay).with_limit(1.0 / 40.0).unwrap())
        .with_uplift(UpliftOptions::new(kn(0.15)).unwrap())
        .with_axial(AxialOptions::default());
    FencePlan::new(site, fence, design(88.9, 4.0))
        .with_site_checks(asked.with_materials(bag(12.0)))
        .with_post_site_checks(1, asked.with_materials(bag(14.0)))
        .with_post_site_checks(17, asked.with_materials(bag(14.0)))
        .with_kind(PostKind::End, stone(114.3, 4.5), Some(m(2.3)))
        .with_planned_depth(m(1.8))
        .with_kind(PostKind::Gate, design(114.3, 4.5), Some(m(1.7)))
}

pub(crate) fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-12 * other.abs().max(1e-9)
}

/// What the library says of a post, by field of the sheet, with units.
macro_rules! expected {
    ($post:expr, $length:expr, $size:expr, $force:expr, $moment:expr, $volume:expr) => {{
        let (post, check) = ($post, &$post.check);
        let foundation = check.design().foundation();
        let depth = check.planned.unwrap().depth();
        let width: Length = post.post.arms().map(|arm| arm.to - arm.from).sum();
        vec![
            ("at", post.post.arms().next().unwrap().at.to($length)),
            ("width", width.to($length)),
            ("shear", check.actions().shear().to($force)),
            ("moment", check.actions().moment().to($moment)),
            ("hole", foundation.dug_hole().unwrap().size().to($size)),
            ("required", check.required.depth().to($size)),
            ("planned", depth.to($size)),
            ("ground", check.planned.unwrap().utilization().ratio()),
            ("strength", check.strength.worst().ratio()),
            ("bearing", check.bearing.unwrap().utilization.ratio()),
            ("utilization", post.utilization().ratio()),
            ("concrete", foundation.concrete_volume(depth).to($volume)),
        ]
    }};
}

fn compare<L: groundline::combination::CombinesTo<AllowableStress>>(
    page: &Page,
    post: &ScheduledPost<L>,
    expected: &[(&str, f64)],
) {
    let number = post.post.number;
    for (field, value) in expected {
        let shown = &page.numbers[&(number, (*field).to_owned())];
        assert!(
            near(shown.value, *value),
            "post {number}, {field}: {shown:?}, {value}"
        );
    }
    let state = if post.passes() { "passes" } else { "fails" };
    assert_eq!(page.states[&number], state);
    // A depth is never shown less than it is, nor a failing use as 1.00.
    let required = &page.numbers[&(number, "required".to_owned())];
    let dug: f64 = required.text.parse().unwrap();
    let step = if required.unit == "in" { 1.0 } else { 10.0 };
    assert!(dug >= required.value - 1e-3 && dug < required.value + step);
    let used = &page.numbers[&(number, "utilization".to_owned())];
    assert_eq!(used.text.parse::<f64>().unwrap() <= 1.0, post.passes());
    // A depth to dig is one at which every check passes, with the gravel base below it;
    // a post without one shows none.
    let Some(dig) = page.numbers.get(&(number, "dig".to_owned())) else {
        assert!(!post.passes());
        return;
    };
    assert_eq!(dig.text.parse::<f64>().unwrap(), dig.value);
    assert_eq!(dig.value % step, 0.0);
    let planned = page.numbers[&(number, "planned".to_owned())].value;
    let depth = if post.passes() {
        planned
    } else {
        let least = if dig.unit == "in" { 4.0 } else { 0.0 };
        assert!(dig.value - least >= required.value - 1e-3);
        return;
    };
    let base = if dig.unit == "in" { 4.0 } else { 0.0 };
    assert!(dig.value >= depth + base - 1e-3 && dig.value < depth + base + step);
}

#[test]
fn numbers_of_the_us_sheet_are_those_of_the_library() {
    let (_, html) = sheet_of("us.toml", "us");
    let page = page(&html);
    let plan = us_plan();
    let schedule = plan.schedule().unwrap();
    let (mut posts, mut failing, mut planned) = (0.0, 0.0, 0.0);
    for post in schedule.posts() {
        compare(&page, &post, &expected!(post, ft, inch, lb, lb_ft, cu_ft));
        posts += 1.0;
        failing += if post.passes() { 0.0 } else { 1.0 };
        let depth = post.check.planned.unwrap().depth();
        let foundation = post.check.design().foundation();
        planned += foundation.concrete_volume(depth).to(cu_yd);
    }
    assert_eq!(posts, 34.0);
    let total = |field: &str| page.numbers[&(0, field.to_owned())].value;
    assert_eq!((total("posts"), total("failing")), (posts, failing));
    assert!((total("concrete_planned") - planned).abs() < 1e-9);
    for field in ["required", "planned", "hole"] {
        assert_eq!(page.numbers[&(1, field.to_owned())].unit, "in");
    }
    assert_eq!(page.numbers[&(1, "moment".to_owned())].unit, "lb·ft");
    // Every caution of the schedule is told.
    for caution in schedule.cautions().iter() {
        let text = caution.text().replace('\'', "&#39;");
        assert!(page.text.contains(&text), "{text}");
    }
    assert!(page.text.contains("60†") && page.text.contains("rock at 60 in"));
    assert!(page.text.contains("20 sq"));
}

#[test]
fn numbers_of_the_si_sheet_are_those_of_the_library() {
    let (_, html) = sheet_of("si.toml", "si");
    let page = page(&html);
    let plan = si_plan();
    let schedule = plan.schedule().unwrap();
    for post in schedule.posts() {
        compare(&page, &post, &expected!(post, m, mm, kn, kn_m, cu_m));
    }
    assert_eq!(page.states.len(), 17);
    assert_eq!(page.numbers[&(1, "shear".to_owned())].unit, "kN");
    let given = plan.site().document();
    assert!(page.text.contains(given));
}

/// The worksheets of the sheet and of the Markdown are the library's, line by
/// line, for the governing post of each kind.
#[test]
fn the_working_is_that_of_the_library() {
    let (out, html) = sheet_of("us.toml", "working");
    let text = page(&html).text;
    let markdown = std::fs::read_to_string(out.join("worksheet.md")).unwrap();
    let plan = us_plan();
    let schedule = plan.schedule().unwrap();
    let mut governing = BTreeMap::new();
    for post in schedule.posts() {
        let (kind, used) = (post.post.kind.name(), post.utilization());
        let worst = governing.entry(kind).or_insert(post);
        // Of equals the one that requires the greater depth.
        let deeper = post.check.required.depth() > worst.check.required.depth();
        if used > worst.utilization() || (used == worst.utilization() && deeper) {
            *worst = post;
        }
    }
    assert_eq!(governing.len(), 4);
    for post in governing.values() {
        let sheet = schedule.worksheet(post, UnitSystem::Us);
        let whole = groundline::report::markdown(&sheet).to_string();
        assert!(markdown.contains(&whole), "{}", sheet.title);
        assert!(html.contains(&format!("id=\"post-{}\"", post.post.number)));
        for step in sheet.steps() {
            let line = format!(
                "{} = {}",
                step.symbol,
                step.result.in_system(UnitSystem::Us).significant(6)
            );
            let line = line.replace('\'', "&#39;");
            assert!(text.contains(&line), "{line}");
            if let Some(citation) = step.citation {
                assert!(text.contains(citation.clause) && text.contains(citation.mark.name()));
            }
        }
    }
    // All of them, if asked for.
    let (out, printed) = run(&samples().join("us.toml"), "all", &["--all-worksheets"]);
    printed.unwrap();
    let markdown = std::fs::read_to_string(out.join("worksheet.md")).unwrap();
    assert_eq!(markdown.matches("# Worksheet: Post ").count(), 34);
}

#[test]
fn the_sheet_needs_nothing_from_outside() {
    for (sample, name) in [("us.toml", "alone-us"), ("si.toml", "alone-si")] {
        let (_, html) = sheet_of(sample, name);
        let page = page(&html);
        let mut ids = BTreeSet::new();
        for (tag, of) in &page.tags {
            assert!(!["script", "link", "img", "iframe", "object", "base"].contains(&tag.as_str()));
            assert!(!of.contains_key("src"));
            if let Some(href) = of.get("href") {
                let target = href.strip_prefix('#').unwrap();
                let found = page
                    .tags
                    .iter()
                    .any(|(_, of)| of.get("id").is_some_and(|id| id == target));
                assert!(found, "{href}");
            }
            if let Some(id) = of.get("id") {
                assert!(ids.insert(id.clone()), "{id} stands twice");
            }
            assert!(of.keys().all(|key| !key.starts_with("on")));
        }
        // Patterns of the drawings are there under their names.
        for (_, of) in &page.tags {
            let fill = of.get("fill").and_then(|fill| fill.strip_prefix("url(#"));
            if let Some(fill) = fill {
                assert!(ids.contains(fill.trim_end_matches(')')), "{fill}");
            }
        }
        let outward = html.replace("http://www.w3.org/2000/svg", "");
        assert!(!outward.contains("://") && !outward.contains("@import"));
        // The reviewer's block is there and blank.
        assert!(html.contains("<tr><th scope=\"row\">Name</th><td></td></tr>"));
        assert!(html.contains("<th scope=\"row\">Date</th><td></td>"));
        // Open without a script, so that print shows it.
        let details = page.tags.iter().filter(|(tag, _)| tag == "details");
        assert!(details.clone().count() >= 3);
        assert!(details.clone().all(|(_, of)| of.contains_key("open")));
    }
}

/// Every post stands in the drawing, with its use; who fails says so in words.
#[test]
fn the_drawing_names_every_post() {
    let (_, html) = sheet_of("us.toml", "drawn");
    let plan = us_plan();
    let drawn: String = html
        .split("<svg")
        .filter(|part| part.contains("piece"))
        .collect();
    let drawn = drawn.replace('\n', "");
    let mut fails = 0;
    for post in plan.schedule().unwrap().posts() {
        let number = post.post.number;
        let dug = if [3, 4, 12, 14].contains(&number) {
            "†"
        } else {
            ""
        };
        assert!(
            drawn.contains(&format!(">{number}{dug}</text>")),
            "{number}"
        );
        let used = post.utilization().to_string();
        assert!(drawn.contains(&format!(">{used}</text>")));
        fails += usize::from(!post.passes());
    }
    // None of those that fail stands in two pieces.
    assert_eq!(drawn.matches(">FAILS</text>").count(), fails);
    assert_eq!(drawn.matches(">gate</text>").count(), 1);
    for case in ["Case A", "Case C"] {
        assert!(drawn.contains(&format!(">{case}</text>")));
    }
    assert!(html.contains("agree in every case"));
}

#[test]
fn the_csv_reads_back() {
    for (sample, name, posts) in [("us.toml", "csv-us", 34), ("si.toml", "csv-si", 17)] {
        let (out, html) = sheet_of(sample, name);
        let page = page(&html);
        let bytes = std::fs::read(out.join("schedule.csv")).unwrap();
        assert!(bytes.starts_with("\u{feff}".as_bytes()));
        let text = String::from_utf8(bytes.clone()).unwrap();
        // No cell of the samples breaks a line, so each line ends in CR LF.
        assert_eq!(text.matches("\r\n").count(), posts + 1);
        assert_eq!(text.matches('\n').count(), posts + 1);
        let mut reader = csv::Reader::from_reader(&bytes[..]);
        let header = reader.headers().unwrap().clone();
        let fields = [
            ("At", "at"),
            ("Required depth", "required"),
            ("Planned depth", "planned"),
            ("Utilization", "utilization"),
            ("Ground used", "ground"),
            ("Moment at grade", "moment"),
            ("Shear at grade", "shear"),
            ("Hole", "hole"),
            ("Concrete", "concrete"),
            ("Dig to", "dig"),
            ("Lean of top", "lean"),
            ("Lean over height", "lean_ratio"),
            ("Limit of lean", "lean_limit"),
            ("Lean used", "lean_used"),
            ("To fill round the post", "fill"),
            ("Bags", "bags"),
            ("To carry", "carry"),
        ];
        let more = [
            ("Frost lifts", "frost_lifts"),
            ("Holds against frost", "frost_holds"),
            ("Frost used", "frost_used"),
        ];
        let other = [
            ("Holds against pull-out", "pull_out_holds"),
            ("Pull-out used", "pull_out_used"),
            ("Weight with bending used", "axial_used"),
        ];
        let asked = if sample == "us.toml" { more } else { other };
        let mut lines = 0;
        for record in reader.records() {
            let record = record.unwrap();
            lines += 1;
            for (title, field) in fields.into_iter().chain(asked) {
                let shown = &page.numbers[&(lines, field.to_owned())];
                let column = match shown.unit.as_str() {
                    "" => title.to_owned(),
                    unit => format!("{title} ({unit})"),
                };
                let place = header.iter().position(|name| name == column);
                let cell = &record[place.unwrap_or_else(|| panic!("{column} in {header:?}"))];
                let value: f64 = cell.parse().unwrap();
                assert!(
                    (value - shown.value).abs() <= 1e-6 * shown.value.abs(),
                    "{column}"
                );
            }
            let result = header.iter().position(|name| name == "Result").unwrap();
            assert_eq!(
                record[result].starts_with("FAILS"),
                page.states[&lines] == "fails"
            );
        }
        assert_eq!(lines, posts);
    }
}

/// Titles and notes that would break a page, a table or a spreadsheet.
#[test]
fn hostile_text_stays_text() {
    let folder = folder("hostile");
    let title = r#"<script>alert(1)</script> & \"quotes\" | pipe"#;
    let job = std::fs::read_to_string(samples().join("us.toml")).unwrap();
    let job = job
        .replace("Privacy fence round a garden centre yard", title)
        .replace("Street side", "<b>Street</b> 'side'\\u0000")
        .replace("as_dug.csv", "dug.csv");
    std::fs::write(folder.join("job.toml"), job).unwrap();
    let dug = "post,depth,note\n3,60 in,\"=HYPERLINK(\"\"x\"\")<i>\"\n5,70 in,-ö\n";
    std::fs::write(folder.join("dug.csv"), dug).unwrap();
    let (out, printed) = run(&folder.join("job.toml"), "hostile", &[]);
    printed.unwrap();
    let html = std::fs::read_to_string(out.join("sheet.html")).unwrap();
    let page = page(&html);
    assert!(
        page.tags
            .iter()
            .all(|(tag, _)| tag != "script" && tag != "i")
    );
    assert!(
        page.text
            .contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;quotes&quot; | pipe")
    );
    let csv = std::fs::read_to_string(out.join("schedule.csv")).unwrap();
    assert!(csv.contains(r#""'=HYPERLINK(""x"")<i>""#) && csv.contains("'-ö"));
}

#[test]
fn the_summary_is_short_and_has_the_cautions() {
    let (out, printed) = run(&samples().join("us.toml"), "printed", &[]);
    let printed = printed.unwrap();
    assert!(printed.contains("1 of 34 posts fail") && printed.contains("post 33"));
    assert!(printed.contains(out.to_str().unwrap()));
    for caution in us_plan().schedule().unwrap().cautions().iter() {
        assert!(printed.contains(caution.text()));
    }
    assert!(printed.lines().count() < 30);
}

/// The reaction drawn is in equilibrium with the load, and turns the shear
/// where the library has its greatest moment (statics, integrated numerically).
#[test]
fn the_reaction_drawn_balances_the_load() {
    use schedule::drawing::hole::Reaction;
    for (shear, moment, length, paved) in [
        (700.0, 1800.0, 4.0, false),
        (500.0, 0.0, 3.0, false),
        (300.0, 9000.0, 7.5, false),
        (400.0, 900.0, 2.0, true),
    ] {
        let reaction = Reaction::new(shear, moment, length, paved);
        let steps = 20_000;
        let (mut force, mut turn, mut greatest) = (0.0, 0.0, moment);
        let (mut carried, mut bending) = (shear, moment);
        let slice = length / f64::from(steps);
        for step in 0..steps {
            let share = (f64::from(step) + 0.5) / f64::from(steps);
            let part = reaction.at(share) * slice;
            force += part;
            turn += part * share * length;
            bending += (carried - 0.5 * part) * slice;
            carried -= part;
            greatest = f64::max(greatest, bending);
        }
        let load = GroundlineActions::new(
            newton(shear),
            n_m(moment),
            newton(0.0),
            AllowableStress::Basic,
        );
        if paved {
            // About grade; the paving takes the force.
            assert!((turn - moment).abs() < 1e-6 * moment);
            continue;
        }
        assert!((force - shear).abs() < 1e-6 * shear, "{force}");
        assert!(
            (turn + moment).abs() < 1e-6 * (moment + shear * length),
            "{turn}"
        );
        let inside = BelowGrade::new(&load.unwrap(), m(length), m(0.0), Restraint::None).unwrap();
        assert!((greatest - inside.moment().value).abs() < 1e-6 * greatest);
    }
}

#[test]
fn places_are_told_as_a_tape_reads_them() {
    use schedule::rows::tape;
    for (at, text) in [
        (ft(0.0), "0'"),
        (ft(40.0), "40'"),
        (inch(68.571), "5' 8-5/8\""),
        (inch(12.5), "1' 1/2\""),
        (inch(11.99), "1'"),
        (inch(9.0), "0' 9\""),
        (inch(0.25), "0' 1/4\""),
    ] {
        assert_eq!(tape(at, UnitSystem::Us), text);
        // To a sixteenth of an inch what the library reads back.
        let read: Length = parse(text).unwrap();
        assert!((read - at).abs() <= inch(0.0626));
    }
    assert_eq!(tape(m(12.3456), UnitSystem::Si), "12.346");
}

/// Whatever the options, a sheet comes out, and every number on it is one.
#[test]
fn every_option_makes_a_sheet() {
    let sample = std::fs::read_to_string(samples().join("us.toml")).unwrap();
    let sample = sample.replace("as_dug = ", "# ");
    let folder = folder("options");
    for (old, new) in [
        ("[post.gate]", "paved = true\n[post.gate]"),
        ("hole = \"24 in\"", "hole_shape = \"none\""),
        (
            "hole = \"18 in\"",
            "hole = \"18 in\"\nhole_shape = \"square\"",
        ),
        ("planned_depth = \"72 in\"", ""),
        ("class = 4", "class = 4\ndiscount_top = \"80 in\""),
        ("class = 4", "lateral_bearing = \"20 psf/ft\""),
        ("class = 4", "class = 5\nisolated_pole = true"),
        ("height = \"7 ft\"", "height = \"30 ft\""),
        ("length = \"40 ft\"", "length = \"4000 ft\""),
        ("length = \"40 ft\"", "length = \"2 ft\""),
        ("speed = \"105 mph\"", "speed = \"200 mph\""),
        (
            "{ kind = \"solid\" }",
            "{ kind = \"solidity\", solidity = 0.3 }",
        ),
        ("units = \"us\"", "units = \"si\""),
    ] {
        assert!(sample.contains(old), "{old}");
        let text = sample.replacen(old, new, 1);
        std::fs::write(folder.join("job.toml"), text).unwrap();
        let (out, printed) = run(&folder.join("job.toml"), "options", &[]);
        printed.unwrap_or_else(|said| panic!("{new}: {said}"));
        let html = std::fs::read_to_string(out.join("sheet.html")).unwrap();
        let page = page(&html);
        assert!(!html.contains("NaN") && !html.contains("inf\""), "{new}");
        assert!(page.numbers.values().all(|shown| shown.value.is_finite()));
        let posts: usize = page.numbers[&(0, "posts".into())].text.parse().unwrap();
        assert_eq!(page.states.len(), posts);
    }
}
