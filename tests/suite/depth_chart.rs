//! The example `depth_chart`: every depth it prints is checked forwards with a
//! fence built here, and its picture is read as XML.

use groundline::caution::Caution;
use groundline::check::PostDesign;
use groundline::fence::{Fence, FenceRun, Panel};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::plan::FencePlan;
use groundline::post::{
    DesignValues, Grade, Moisture, PipePost, Post, Species, SteelStrength, TimberPost, Treatment,
};
use groundline::section::{Square, Tube};
use groundline::units::{Length, Velocity, ft, inch, ksi, m, m_per_s, mm, mph, psf};
use groundline::wind::{AsceSite, BasicWindSpeed, EccentricCase, Edition, Exposure, WallOptions};
use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, XmlVersion};
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::process::{Command, Output};

/// An example as cargo built it beside this test.
pub(crate) fn built(name: &str) -> PathBuf {
    let mut path = std::env::current_exe().unwrap();
    path.pop();
    if path.ends_with("deps") {
        path.pop();
    }
    let name = format!("{name}{}", std::env::consts::EXE_SUFFIX);
    let path = path.join("examples").join(name);
    assert!(path.exists(), "{} is not built", path.display());
    path
}

fn run(arguments: &[&str]) -> Output {
    let mut command = Command::new(built("depth_chart"));
    command.args(arguments).output().unwrap()
}

/// A file that the example writes, read and removed.
fn written(name: &str, flag: &str, arguments: &[&str]) -> String {
    let name = format!("groundline-{}-{name}", std::process::id());
    let path = std::env::temp_dir().join(name);
    let out = run(&[arguments, &[flag, path.to_str().unwrap()]].concat());
    let wrong = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{arguments:?}: {wrong}");
    let text = std::fs::read_to_string(&path).unwrap();
    std::fs::remove_file(&path).unwrap();
    text
}

/// The rows of numbers, a map by column.
fn rows(text: &str) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    reader.deserialize().map(Result::unwrap).collect()
}

/// What the flags of a run mean, said again.
struct Asked {
    heights: Vec<Length>,
    speeds: Vec<Velocity>,
    holes: Vec<Length>,
    soils: Vec<SoilClass>,
    exposure: Exposure,
    case_b: EccentricCase,
    isolated: bool,
    solidity: f64,
    spacing: Length,
    length: Length,
    post: Post,
    /// A printed step of depth.
    step: Length,
}

fn pipe(outside: f64, wall: f64) -> Post {
    let steel = SteelStrength::new(ksi(50.0)).unwrap();
    let tube = Tube::new(inch(outside), inch(wall)).unwrap();
    PipePost::new(tube, steel).unwrap().into()
}

/// What the page of default flags says it assumes.
fn usual() -> Asked {
    Asked {
        heights: [3.0, 4.0, 5.0, 6.0, 7.0, 8.0].map(ft).to_vec(),
        speeds: [100.0, 115.0, 130.0, 150.0].map(mph).to_vec(),
        holes: [12.0, 18.0, 24.0].map(inch).to_vec(),
        soils: vec![SoilClass::Class3, SoilClass::Class4, SoilClass::Class5],
        exposure: Exposure::B,
        case_b: EccentricCase::ShortRuns,
        isolated: false,
        solidity: 1.0,
        spacing: ft(6.0),
        length: ft(96.0),
        post: pipe(4.0, 0.160),
        step: inch(1.0),
    }
}

impl Asked {
    fn plan(&self, soil: SoilClass, hole: Length, speed: Velocity, height: Length) -> FencePlan {
        let panel = Panel::new(height).unwrap();
        let panel = panel.with_solidity(self.solidity).unwrap();
        let panel = panel.with_weight(psf(5.0)).unwrap();
        let run = FenceRun::new(panel, self.length, self.spacing).unwrap();
        let speed = BasicWindSpeed::strength_level(speed).unwrap();
        let options = WallOptions::default().eccentric_case(self.case_b);
        let site = AsceSite::new(Edition::Asce7_22, speed, self.exposure).with_options(options);
        let mut ground = Ground::presumptive(soil);
        if self.isolated {
            ground = ground.as_isolated_pole();
        }
        let hole = Hole::round(hole).unwrap();
        let design = PostDesign::in_concrete(ground, self.post, hole).unwrap();
        FencePlan::new(site, Fence::new(run), design)
    }

    /// Checks every row against the library; how many rows were in each state.
    fn verify(&self, text: &str, size: fn(f64) -> Length) -> BTreeMap<String, usize> {
        let mut rows = rows(text).into_iter();
        let mut states = BTreeMap::new();
        for soil in &self.soils {
            for hole in &self.holes {
                for speed in &self.speeds {
                    for height in &self.heights {
                        let row = rows.next().unwrap();
                        assert_eq!(row["soil_class"], soil.number().to_string());
                        let plan = self.plan(*soil, *hole, *speed, *height);
                        self.verify_row(&row, &plan, size);
                        *states.entry(row["state"].clone()).or_insert(0) += 1;
                    }
                }
            }
        }
        assert_eq!(rows.next(), None);
        states
    }

    fn verify_row(
        &self,
        row: &BTreeMap<String, String>,
        plan: &FencePlan,
        size: fn(f64) -> Length,
    ) {
        let holds = |depth: Length| {
            let plan = plan.clone().with_planned_depth(depth);
            plan.schedule().unwrap().posts().all(|p| p.check.passes())
        };
        let unit = if row.contains_key("depth_in") {
            "in"
        } else {
            "mm"
        };
        let printed = &row[&format!("depth_{unit}")];
        match row["state"].as_str() {
            "ok" => {
                let schedule = plan.schedule().unwrap();
                let required = schedule
                    .posts()
                    .map(|post| post.check.required.depth())
                    .reduce(|a, b| if a > b { a } else { b })
                    .unwrap();
                let depth = size(printed.parse().unwrap());
                assert!(depth <= ft(12.0), "{row:?}");
                // Rounded up, by less than a step.
                assert!(required <= depth * (1.0 + 1e-9), "{row:?}");
                assert!(depth - self.step < required, "{row:?}");
                let steps = (depth / self.step).value;
                assert!((steps - steps.round()).abs() < 1e-9, "{row:?}");
                assert!(holds(depth), "{row:?}");
                assert!(!holds(depth - self.step), "{row:?}");
            }
            "needs more than 12 ft (3.66 m)" => {
                assert_eq!(printed, "");
                assert!(!holds(ft(12.0)), "{row:?}");
            }
            "post too weak" | "ground under the hole too weak" => {
                assert_eq!(printed, "");
                for feet in 1..=12 {
                    assert!(!holds(ft(f64::from(feet))), "{row:?} holds at {feet} ft");
                }
            }
            other => panic!("state {other}"),
        }
    }
}

/// The columns of what was asked, as far as they are printed.
fn column(text: &str, name: &str) -> Vec<f64> {
    let mut found = Vec::new();
    for row in rows(text) {
        let value = row[name].parse().unwrap();
        if !found.contains(&value) {
            found.push(value);
        }
    }
    found
}

#[test]
fn every_depth_holds_and_one_inch_less_does_not() {
    let text = written("us.csv", "--csv", &[]);
    let states = usual().verify(&text, inch);
    assert!(states["ok"] > 100 && states["post too weak"] > 0);
    let heights = [3.0, 4.0, 5.0, 6.0, 7.0, 8.0];
    assert_eq!(column(&text, "height_ft"), heights);
    assert_eq!(column(&text, "speed_mph"), [100.0, 115.0, 130.0, 150.0]);
    assert_eq!(column(&text, "hole_in"), [12.0, 18.0, 24.0]);
    // The page says the same numbers.
    let page = String::from_utf8(run(&[]).stdout).unwrap();
    let printed: Vec<_> = page
        .lines()
        .filter(|line| line.starts_with('│'))
        .map(|line| {
            line.trim_matches('│')
                .split_whitespace()
                .collect::<Vec<_>>()
        })
        .filter(|cells| {
            cells.len() > 6 && cells.iter().all(|c| *c == "x" || c.parse::<u32>().is_ok())
        })
        .flat_map(|cells| {
            cells[cells.len() - 6..]
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
        })
        .collect();
    let cell = |row: BTreeMap<String, String>| match row["state"].as_str() {
        "ok" => row["depth_in"].clone(),
        _ => "x".to_owned(),
    };
    assert_eq!(
        printed,
        rows(&text).into_iter().map(cell).collect::<Vec<_>>()
    );
}

#[test]
fn every_flag_reaches_the_depths() {
    let metric = Asked {
        heights: [1.0, 1.2, 1.5, 1.8, 2.1, 2.4].map(m).to_vec(),
        speeds: [45.0, 51.0, 58.0, 67.0].map(m_per_s).to_vec(),
        holes: [300.0, 450.0, 600.0].map(mm).to_vec(),
        spacing: m(1.8),
        length: m(28.8),
        step: mm(10.0),
        ..usual()
    };
    let text = written("si.csv", "--csv", &["--units", "si"]);
    assert!(metric.verify(&text, mm)["ok"] > 100);
    assert_eq!(column(&text, "hole_mm"), [300.0, 450.0, 600.0]);
    assert_eq!(column(&text, "speed_m_per_s"), [45.0, 51.0, 58.0, 67.0]);
    let heights = [1.0, 1.2, 1.5, 1.8, 2.1, 2.4];
    assert_eq!(column(&text, "height_m"), heights);
    let values = DesignValues::of(Species::SouthernPine, Grade::No2, inch(5.5)).unwrap();
    let square = Square::new(inch(5.5)).unwrap();
    let timber = TimberPost::new(square, values, Moisture::Wet, Treatment::NotIncised);
    let other = Asked {
        heights: vec![ft(3.0), ft(4.0)],
        speeds: vec![mph(105.0)],
        holes: vec![inch(14.0)],
        soils: vec![SoilClass::Class2],
        exposure: Exposure::D,
        case_b: EccentricCase::EveryRun,
        isolated: true,
        solidity: 0.8,
        spacing: ft(7.0),
        length: ft(60.0),
        post: timber.unwrap().into(),
        step: inch(1.0),
    };
    let text = written(
        "other.csv",
        "--csv",
        &[
            "--heights",
            "3 ft,4 ft",
            "--speeds",
            "105 mph",
            "--holes",
            "14 in",
            "--soils",
            "2",
            "--exposure",
            "d",
            "--case-b",
            "every-run",
            "--isolated-pole",
            "--solidity",
            "0.8",
            "--spacing",
            "7 ft",
            "--length",
            "60 ft",
            "--post",
            "6x6",
        ],
    );
    assert_eq!(other.verify(&text, inch)["ok"], 2);
}

/// A narrow hole in clay, posts far apart: most of it holds at no depth.
const HARD: [&str; 10] = [
    "--soils",
    "5",
    "--holes",
    "6in",
    "--heights",
    "1ft,2ft,3ft,4ft",
    "--spacing",
    "20ft",
    "--speeds",
    "50mph,180mph",
];

#[test]
fn what_holds_at_no_depth_has_no_number() {
    let hard = Asked {
        heights: [1.0, 2.0, 3.0, 4.0].map(ft).to_vec(),
        speeds: vec![mph(50.0), mph(180.0)],
        holes: vec![inch(6.0)],
        soils: vec![SoilClass::Class5],
        spacing: ft(20.0),
        ..usual()
    };
    let states = hard.verify(&written("hard.csv", "--csv", &HARD), inch);
    for state in ["ok", "post too weak", "needs more than 12 ft (3.66 m)"] {
        assert!(states[state] > 0, "{states:?}");
    }
    let page = String::from_utf8(run(&HARD).stdout).unwrap();
    assert!(page.contains(">144") && page.contains(" x "), "{page}");
}

#[test]
fn units_change_the_numbers_and_not_the_depths() {
    let same = |units: &str| {
        let flags = [
            "--heights",
            "3ft,5.5ft,8ft",
            "--speeds",
            "100mph,150mph",
            "--holes",
            "12in,20in",
            "--spacing",
            "6ft",
            "--length",
            "96ft",
            "--units",
            units,
        ];
        rows(&written(&format!("same-{units}.csv"), "--csv", &flags))
    };
    let (us, si) = (same("us"), same("si"));
    assert_eq!((us.len(), si.len()), (36, 36));
    for (us, si) in us.iter().zip(&si) {
        assert_eq!(us["state"], si["state"]);
        if us["state"] == "ok" {
            // The unrounded depth lies within a step of both.
            let inches = inch(us["depth_in"].parse().unwrap());
            let metric = mm(si["depth_mm"].parse().unwrap());
            assert!(inches - inch(1.0) < metric, "{us:?} {si:?}");
            assert!(metric - mm(10.0) < inches, "{us:?} {si:?}");
        }
    }
}

/// An element of the picture: its group, name, attributes and text.
#[derive(Debug)]
struct Element {
    group: usize,
    name: String,
    of: BTreeMap<String, String>,
    text: String,
}

impl Element {
    fn number(&self, key: &str) -> f64 {
        self.of[key].parse().unwrap()
    }
}

fn element(tag: &BytesStart<'_>, group: usize) -> Element {
    let attribute = |read: Result<quick_xml::events::attributes::Attribute<'_>, _>| {
        let read = read.unwrap();
        let value = read.normalized_value(XmlVersion::Implicit1_0).unwrap();
        (read.key.as_ref().to_owned(), value.into_owned())
    };
    Element {
        group,
        name: tag.name().as_ref().to_owned(),
        of: tag.attributes().map(attribute).collect(),
        text: String::new(),
    }
}

/// Reads a picture strictly: every tag closed, every attribute quoted.
fn elements(picture: &str) -> Vec<Element> {
    let mut reader = Reader::from_str(picture);
    let (mut found, mut open) = (Vec::<Element>::new(), Vec::new());
    let (mut groups, mut inside) = (0, vec![0]);
    loop {
        match reader.read_event().unwrap() {
            Event::Eof => break,
            Event::Start(tag) => {
                if tag.name().as_ref() == "g" {
                    groups += 1;
                    inside.push(groups);
                }
                open.push(tag.name().as_ref().to_owned());
                found.push(element(&tag, *inside.last().unwrap()));
            }
            Event::Empty(tag) => found.push(element(&tag, *inside.last().unwrap())),
            Event::End(tag) => {
                assert_eq!(open.pop().as_deref(), Some(tag.name().as_ref()));
                if tag.name().as_ref() == "g" {
                    inside.pop();
                }
            }
            Event::Text(text) => {
                let text = text.xml_content(XmlVersion::Implicit1_0);
                found.last_mut().unwrap().text.push_str(text.trim());
            }
            Event::GeneralRef(reference) => {
                let text = format!("&{};", reference.as_ref());
                found.last_mut().unwrap().text.push_str(&text);
            }
            _ => {}
        }
    }
    assert!(open.is_empty());
    found
}

/// The words of a picture as one text, bullets left out.
fn words(elements: &[Element]) -> String {
    let texts: Vec<_> = elements.iter().map(|e| e.text.replace('•', "")).collect();
    let texts = texts.join(" ");
    texts.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The first and last point of a line.
fn ends(path: &Element) -> [(f64, f64); 2] {
    let points: Vec<_> = path.of["d"]
        .split(['M', 'L', 'z', ' '])
        .filter(|part| !part.is_empty())
        .map(|part| {
            let (x, y) = part.split_once(',').unwrap();
            (x.parse().unwrap(), y.parse().unwrap())
        })
        .collect();
    [points[0], points[points.len() - 1]]
}

fn read_picture(name: &str, flags: &[&str], speeds: &[&str], panels: usize) {
    let picture = written(name, "--picture", flags);
    assert!(!picture.contains("NaN") && !picture.contains("inf"));
    let all = elements(&picture);
    let view: Vec<f64> = all[0].of["viewBox"]
        .split_whitespace()
        .map(|part| part.parse().unwrap())
        .collect();
    let (right, bottom) = (view[2], view[3]);
    for e in &all {
        // Black and white only.
        for key in ["fill", "stroke"] {
            if let Some(ink) = e.of.get(key) {
                assert!(["#111", "white", "none"].contains(&ink.as_str()), "{e:?}");
            }
        }
        if e.name == "text" {
            // About half an em a letter, more when bold.
            let bold = if e.of.contains_key("font-weight") {
                0.56
            } else {
                0.52
            };
            let size = e.number("font-size");
            let wide = f64::from(u16::try_from(e.text.chars().count()).unwrap()) * size * bold;
            let x = e.number("x");
            let left = match e.of["text-anchor"].as_str() {
                "start" => x,
                "middle" => x - wide / 2.0,
                _ => x - wide,
            };
            assert!(left >= 0.0 && left + wide <= right, "{e:?}");
            assert!(e.number("y") - size >= 0.0 && e.number("y") + 0.25 * size <= bottom);
        }
    }
    // What it rests on, as text.
    let words = words(&all);
    let page = String::from_utf8(run(flags).stdout).unwrap();
    let (_, rest) = page.split_once("Assumptions\n").unwrap();
    let said: Vec<_> = rest
        .lines()
        .filter_map(|l| l.strip_prefix("  - "))
        .collect();
    assert!(said.len() > 8 && said.contains(&Caution::NoSubstitute.text()));
    for line in said {
        assert!(words.contains(line), "{line} is not in the picture");
    }
    // The key: a pattern of its own for each speed.
    let curves: Vec<_> = all
        .iter()
        .filter(|e| e.of.contains_key("stroke-dasharray"))
        .collect();
    let pattern = |e: &Element| {
        (
            e.of["stroke-dasharray"].clone(),
            e.of["stroke-width"].clone(),
        )
    };
    let key: Vec<_> = curves[..speeds.len()].iter().map(|e| pattern(e)).collect();
    assert_eq!(key.iter().collect::<BTreeSet<_>>().len(), speeds.len());
    for (line, speed) in curves.iter().zip(speeds) {
        let (x, _) = ends(line)[1];
        let beside = |e: &&Element| e.text == *speed && (e.number("x") - x - 4.0).abs() < 1.0;
        assert_eq!(line.group, 1);
        assert!(
            all.iter().filter(|e| e.name == "text").any(|e| beside(&e)),
            "{speed}"
        );
    }
    // Each chart: the end of each curve has its speed beside it.
    let groups: BTreeSet<_> = all.iter().map(|e| e.group).filter(|g| *g > 1).collect();
    assert_eq!(groups.len(), panels);
    for group in groups {
        let inside: Vec<_> = all.iter().filter(|e| e.group == group).collect();
        let mut drawn = 0;
        for (i, speed) in speeds.iter().enumerate() {
            let curve =
                |e: &&&Element| e.of.contains_key("stroke-dasharray") && pattern(e) == key[i];
            assert!(inside.iter().any(|e| e.text == *speed), "no row of {speed}");
            let Some(last) = inside.iter().rfind(curve) else {
                continue;
            };
            drawn += 1;
            let number = speed.split(' ').next().unwrap();
            let label = inside
                .iter()
                .find(|e| e.text == number && e.of["text-anchor"] == "start")
                .unwrap_or_else(|| panic!("{speed} has no label in {group}"));
            let (x, y) = ends(last)[1];
            let across = label.number("x") - x;
            let down = label.number("y") - y;
            assert!(
                (0.0..20.0).contains(&across) && (-12.0..40.0).contains(&down),
                "{label:?}"
            );
        }
        assert!(drawn > 0);
        // No two labels on one another.
        let labels: Vec<_> = inside
            .iter()
            .filter(|e| {
                e.name == "text" && e.of["text-anchor"] == "start" && e.of["font-size"] == "7.5"
            })
            .map(|e| (e.number("x"), e.number("y")))
            .collect();
        let dots = inside.iter().filter(|e| e.name == "circle").count();
        assert_eq!(labels.len(), drawn + dots);
        for (i, a) in labels.iter().enumerate() {
            for b in &labels[i + 1..] {
                assert!(
                    (a.0 - b.0).abs() > 15.0 || (a.1 - b.1).abs() > 7.0,
                    "{a:?} {b:?}"
                );
            }
        }
    }
}

#[test]
fn the_picture_says_what_it_rests_on_and_needs_no_colour() {
    let us = ["100 mph", "115 mph", "130 mph", "150 mph"];
    read_picture("us.svg", &[], &us, 9);
    let si = ["45 m/s", "51 m/s", "58 m/s", "67 m/s"];
    read_picture("si.svg", &["--units", "si"], &si, 9);
    let five = ["90 mph", "95 mph", "100 mph", "105 mph", "110 mph"];
    let flags = [
        "--speeds",
        "90mph,95mph,100mph,105mph,110mph",
        "--post",
        "pipe-6-5/8",
        "--heights",
        "2ft,3ft,4ft,5ft,6ft,7ft,8ft,20ft",
        "--soils",
        "2,5",
        "--isolated-pole",
        "--case-b",
        "short-runs",
    ];
    read_picture("five.svg", &flags, &five, 6);
    read_picture("hard.svg", &HARD, &["50 mph", "180 mph"], 1);
}

#[test]
fn nonsense_is_refused_in_one_line_with_flag_value_and_allowed() {
    for (flag, value, allowed) in [
        ("--heights", "8", "ft, in"),
        ("--heights", "tall", "number"),
        ("--heights", "99 ft", "0.5 ft to 40 ft"),
        ("--heights", "-8 ft", "0.5 ft to 40 ft"),
        ("--heights", "8 ft,6 ft", "ascending"),
        ("--heights", "6 ft,6 ft", "ascending"),
        ("--heights", "1ft,2ft,3ft,4ft,5ft,6ft,7ft,8ft,9ft", "1 to 8"),
        ("--speeds", "10 mph", "40 mph to 300 mph"),
        ("--speeds", "1e999 mph", "too large"),
        ("--speeds", "100 ft", "mph, m/s"),
        ("--holes", "1 in", "in to 120 in"),
        ("--holes", "4 in", "6 in to 120 in"),
        ("--soils", "7", "1 to 5"),
        ("--soils", "sand", "1 to 5"),
        ("--soils", "-1", "1 to 5"),
        ("--soils", "1,2,3,4", "1 to 3"),
        ("--exposure", "e", "b, c, d"),
        ("--spacing", "0 ft", "1 ft to 40 ft"),
        ("--spacing", "99 ft", "1 ft to 40 ft"),
        ("--length", "1 ft", "2 ft to"),
        ("--solidity", "0", "0.01 to 1"),
        ("--solidity", "NaN", "0.01 to 1"),
        ("--solidity", "half", "0.01 to 1"),
        ("--solidity", "-0.5", "0.01 to 1"),
        ("--post", "wood", "4x4, 6x6"),
        ("--case-b", "none", "short-runs, every-run, one-base"),
        ("--units", "both", "us, si"),
        ("--picture", "/no/such/folder/a.svg", ""),
        ("--csv", "/no/such/folder/a.csv", ""),
        ("--hieghts", "8 ft", "--heights"),
    ] {
        let out = run(&[flag, value]);
        let said = String::from_utf8(out.stderr).unwrap();
        assert_eq!(out.status.code(), Some(2), "{flag} {value}: {said}");
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(out.stdout.is_empty());
        assert!(
            said.contains(flag) && said.contains(allowed),
            "{value}: {said}"
        );
        // Of a list, the one that is refused.
        let named = value.split(',').any(|one| said.contains(one));
        let counted = said.contains(&format!("{} values", value.split(',').count()));
        assert!(named || counted || flag == "--hieghts", "{value}: {said}");
    }
}

/// With one height a label stands at a dot, and only where the table has a depth: a
/// line of one point is not drawn, its label was.
#[test]
fn one_height_has_a_dot_for_each_depth_of_the_table() {
    for height in ["6 ft", "8 ft", "12 ft"] {
        let flags = ["--heights", height, "--speeds", "100 mph,150 mph"];
        let table = written(&format!("one-{height}.csv"), "--csv", &flags);
        let depths = rows(&table)
            .iter()
            .filter(|row| row["state"] == "ok")
            .count();
        let picture = written(&format!("one-{height}.svg"), "--picture", &flags);
        let all = elements(&picture);
        let dots = all.iter().filter(|e| e.name == "circle").count();
        assert_eq!(dots, depths, "{height}");
        // One label a dot, at its right.
        for dot in all.iter().filter(|e| e.name == "circle") {
            let (x, y) = (dot.number("cx"), dot.number("cy"));
            let beside = all.iter().filter(|e| {
                e.name == "text"
                    && e.of["text-anchor"] == "start"
                    && e.group == dot.group
                    && (e.number("x") - x - 6.0).abs() < 1e-6
                    && (e.number("y") - y).abs() < 24.0
            });
            assert!(beside.count() >= 1, "{height}");
        }
        let labels = all
            .iter()
            .filter(|e| e.name == "text" && e.of["text-anchor"] == "start")
            .filter(|e| ["100", "150"].contains(&e.text.as_str()));
        assert_eq!(labels.count(), depths, "{height}");
    }
}
