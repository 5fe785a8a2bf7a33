//! The example `schedule`: what a job file or a CSV of posts as dug has wrong
//! is told all at once, each with file, line, field, value and what is allowed.

use super::schedule_example::{folder, run, samples, schedule};
use schedule::job::Job;
use std::path::Path;

const WHOLE: &str = r#"units = "us"
[site]
code = "ASCE 7-16"
speed = "105 mph"
exposure = "B"
[fence]
height = "6 ft"
panel_weight = "4 psf"
spacing = "8 ft"
[[run]]
length = "40 ft"
[[run.gate]]
at = "16 ft"
opening = "4 ft"
leaf_weight = "90 lb"
hinges = "start"
[soil]
class = 4
[post]
material = "pipe"
diameter = "4 in"
wall = "0.226 in"
yield = "50 ksi"
hole = "18 in"
planned_depth = "60 in"
"#;

fn parse(text: &str) -> Result<Job, Vec<String>> {
    Job::parse(text, "job.toml", Path::new(""))
        .map_err(|problems| problems.iter().map(ToString::to_string).collect())
}

/// What is said of the whole file with one piece of it replaced.
pub(crate) fn said(old: &str, new: &str) -> Vec<String> {
    assert!(WHOLE.contains(old), "{old}");
    parse(&WHOLE.replacen(old, new, 1)).expect_err(new)
}

/// With one piece of the whole file replaced, one line says all of some parts,
/// and every line stands alone.
pub(crate) fn check(old: &str, new: &str, parts: &[&str]) {
    let said = said(old, new);
    assert!(
        said.iter()
            .any(|line| parts.iter().all(|part| line.contains(part))),
        "{new}: {said:#?}"
    );
    for line in &said {
        assert!(line.starts_with("job.toml"), "{line}");
        assert_eq!(line.lines().count(), 1, "{line}");
    }
}

#[test]
fn the_whole_file_is_read() {
    let job = parse(WHOLE).unwrap();
    assert_eq!(job.fence.posts().len(), 7);
    assert_eq!(job.title, "Fence posts");
}

#[test]
fn each_refusal_names_line_field_value_and_what_is_allowed() {
    for (old, new, parts) in [
        // Wrong, missing or forgotten units.
        (
            "\"6 ft\"",
            "\"6 psf\"",
            &["line 7", "fence.height = \"6 psf\"", "ft, in"][..],
        ),
        (
            "\"6 ft\"",
            "\"6\"",
            &["fence.height = \"6\"", "unit is missing", "ft, in"],
        ),
        (
            "\"6 ft\"",
            "6",
            &["fence.height = 6", "height = \"6 ft\"", "ft, in"],
        ),
        (
            "\"105 mph\"",
            "\"105 mhp\"",
            &["line 4", "site.speed", "mph, m/s, km/h"],
        ),
        (
            "\"90 lb\"",
            "\"90 kg\"",
            &["run[1].gate[1].leaf_weight", "lb, kip, N, kN"],
        ),
        (
            "\"4 psf\"",
            "true",
            &["fence.panel_weight = true", "as text", "psf"],
        ),
        // Out of range.
        (
            "\"6 ft\"",
            "\"-6 ft\"",
            &["fence.height = \"-6 ft\"", "0.5 ft to 40 ft"],
        ),
        ("\"6 ft\"", "\"1e999 ft\"", &["fence.height", "too large"]),
        (
            "\"105 mph\"",
            "\"1050 mph\"",
            &["site.speed", "40 mph to 300 mph"],
        ),
        ("\"8 ft\"", "\"0 ft\"", &["fence.spacing", "1 ft to 40 ft"]),
        (
            "\"40 ft\"",
            "\"1 ft\"",
            &["line 11", "run[1].length", "2 ft to"],
        ),
        (
            "\"4 ft\"",
            "\"1 ft\"",
            &["run[1].gate[1].opening", "2 ft to 40 ft"],
        ),
        ("\"16 ft\"", "\"38 ft\"", &["run[1].gate", "beyond its run"]),
        ("\"0.226 in\"", "\"3 in\"", &["post.wall", "pipe wall"]),
        (
            "\"18 in\"",
            "\"2 in\"",
            &["post.hole = \"2 in\"", "3 in to 120 in"],
        ),
        (
            "\"18 in\"",
            "\"5 in\"",
            &["post.hole = \"5 in\"", "6 in to 120 in"],
        ),
        (
            "\"60 in\"",
            "\"0 in\"",
            &["post.planned_depth", "0.12 in to 1200000 in"],
        ),
        // Words.
        (
            "\"B\"",
            "\"E\"",
            &["site.exposure = \"E\"", "\"B\", \"C\", \"D\""],
        ),
        (
            "\"ASCE 7-16\"",
            "\"ASCE 7-05\"",
            &["site.code", "\"ASCE 7-22\", \"ASCE 7-16\""],
        ),
        (
            "\"us\"",
            "\"metric\"",
            &["line 1", "units = \"metric\"", "\"us\", \"si\""],
        ),
        (
            "\"pipe\"",
            "\"vinyl\"",
            &["post.material", "\"timber\", \"pipe\""],
        ),
        (
            "class = 4",
            "class = 7",
            &["line 18", "soil.class = 7", "\"1\", \"2\""],
        ),
        (
            "\"start\"",
            "\"left\"",
            &["run[1].gate[1].hinges", "\"start\", \"end\", \"both\""],
        ),
        // Missing.
        (
            "units = \"us\"",
            "",
            &["units is missing", "\"us\", \"si\""],
        ),
        ("speed = \"105 mph\"", "", &["site.speed is missing", "mph"]),
        (
            "height = \"6 ft\"",
            "",
            &["run[1].height is missing", "ft, in"],
        ),
        (
            "length = \"40 ft\"",
            "",
            &["line 10", "run[1].length is missing", "ft, in"],
        ),
        ("class = 4", "", &["soil.class is missing", "1 to 5"]),
        ("hole = \"18 in\"", "", &["post.hole is missing", "ft, in"]),
        ("yield = \"50 ksi\"", "", &["post.yield is missing", "ksi"]),
        // No such field, or not here.
        (
            "speed =",
            "sped =",
            &["line 4", "site.sped: no such field", "speed"],
        ),
        (
            "[soil]",
            "[sole]",
            &["line 17", "sole: no such field", "soil"],
        ),
        (
            "yield =",
            "size = \"5.5 in\"\nyield =",
            &["post.size", "timber", "pipe"],
        ),
        (
            "length =",
            "turn = \"9 deg\"\nlength =",
            &["run[1].turn", "first run"],
        ),
        (
            "class = 4",
            "class = 4\nlateral_bearing = \"150 psf/ft\"",
            &["soil.class", "one of them"],
        ),
        ("[site]", "job = 3\n[site]", &["line 2", "job = 3", "table"]),
        (
            "exposure",
            "hill = { shape = \"ridge\", height = \"60 ft\", half_length = \"9 ft\", \
          distance = \"-1 ft\", side = \"upwind\" }\nexposure",
            &["site.hill.distance", "0 ft to"],
        ),
        // Options that do not go together.
        (
            "[soil]",
            "[options]\ncombinations = \"alternative with one-third increase\"\n[soil]\n\
          isolated_pole = true",
            &["soil.isolated_pole = true", "one-third"],
        ),
        (
            "\"ASCE 7-16\"",
            "\"ASCE 7-10\"\nelevation = \"900 ft\"",
            &["site.elevation", "7-10"],
        ),
    ] {
        check(old, new, parts);
    }
}

#[test]
fn everything_wrong_is_told_at_once_in_the_order_of_the_file() {
    let text = WHOLE
        .replace("105 mph", "105 psf")
        .replace("\"B\"", "\"E\"")
        .replace("spacing =", "spaceing =")
        .replace("90 lb", "-90 lb")
        .replace("class = 4", "class = 0")
        .replace("50 ksi", "50 psf")
        .replace("60 in", "deep")
        .replace(
            "[post]",
            "[frost]\ndepth = \"deep\"\nremedy = \"salt\"\n[post]\nset_in = \"mud\"",
        )
        + "[lean]\nlimit = 3\n[materials]\nwaste = 3\nbag = \"3 lb\"\n";
    let said = parse(&text).unwrap_err();
    let fields = [
        "site.speed",
        "site.exposure",
        "fence.spaceing",
        "run[1].spacing is missing",
        "leaf_weight",
        "soil.class",
        "frost.depth",
        "frost.remedy",
        "post.set_in",
        "post.yield",
        "post.planned_depth",
        "lean.growing is missing",
        "lean.limit",
        "materials.waste",
        "materials.bag",
    ];
    assert_eq!(said.len(), fields.len(), "{said:#?}");
    for (line, field) in said.iter().zip(fields) {
        assert!(line.contains(field), "{line}, {field}");
    }
}

#[test]
fn what_is_not_toml_or_not_utf_8_is_said_with_its_line() {
    for broken in ["[[[", "units us", "units = \"us", "a = 1\na = 2", "\0"] {
        let said = parse(&format!("# one\n{broken}\n")).unwrap_err();
        assert!(
            said[0].contains("not TOML") && said[0].contains("line"),
            "{said:?}"
        );
        assert!(said.iter().all(|line| line.lines().count() == 1));
    }
    let folder = folder("refused");
    let path = folder.join("job.toml");
    for bytes in [b"units = \"us\"\n# \xff\n".to_vec(), {
        let wide = WHOLE.encode_utf16().flat_map(u16::to_le_bytes);
        [0xff, 0xfe].into_iter().chain(wide).collect()
    }] {
        std::fs::write(&path, bytes).unwrap();
        let said = run(&path, "refused", &[]).1.unwrap_err();
        assert!(
            said.contains("not UTF-8") && said.contains("job.toml, line"),
            "{said}"
        );
    }
    // A byte order mark in front is no fault.
    std::fs::write(&path, format!("\u{feff}{WHOLE}")).unwrap();
    run(&path, "refused", &[]).1.unwrap();
    let said = run(&folder.join("none.toml"), "refused", &[])
        .1
        .unwrap_err();
    assert!(said.contains("none.toml"), "{said}");
}

#[test]
fn names_with_line_breaks_are_told_on_one_line() {
    for odd in [
        "\"a\\nb\" = 1",
        "as_dug = \"a\\nb\"",
        "as_dug = \"\"\"a\nb\"\"\"",
    ] {
        let said = parse(&format!("{odd}\n{WHOLE}")).unwrap_err();
        assert_eq!(said.len(), 1, "{said:?}");
        assert_eq!(said[0].lines().count(), 1, "{said:?}");
    }
}

#[test]
fn an_empty_file_says_what_belongs_into_it() {
    let said = parse("").unwrap_err().join("\n");
    for field in ["units", "site.code", "run", "soil.class", "post.material"] {
        assert!(
            said.contains(&format!("{field} is missing")),
            "{field}: {said}"
        );
    }
}

#[test]
fn a_csv_of_posts_as_dug_is_refused_by_line_and_cell() {
    let folder = folder("dug");
    let job = folder.join("job.toml");
    std::fs::write(&job, format!("as_dug = \"dug.csv\"\n{WHOLE}")).unwrap();
    for (csv, parts) in [
        (
            &b"post,depth\n2,60 psf\n"[..],
            &["line 2", "depth = \"60 psf\"", "ft, in"][..],
        ),
        (
            b"post,depth\n2,-6 in\n",
            &["depth = \"-6 in\"", "0.12 in to"],
        ),
        (b"post,depth\n8,60 in\n", &["post = \"8\"", "1 to 7"]),
        (b"post,depth\n0,60 in\n", &["post = \"0\"", "1 to 7"]),
        (
            b"post,depth\n# a remark\n2,60 in\n2,61 in\n",
            &["line 4", "post = \"2\"", "twice"],
        ),
        (
            b"post,hole\n2,5 in\n",
            &["hole = \"5 in\"", "6 in to 120 in"],
        ),
        (
            b"post,shape\n2,oval\n",
            &["shape = \"oval\"", "round or square"],
        ),
        (b"post,dept\n2,60 in\n", &["column \"dept\"", "depth"]),
        (b"depth\n60 in\n", &["column \"post\" is missing"]),
        (b"post,depth\n2\n", &["line 2", "1 of 2 cells"]),
        (b"post,note\n2,\xff\n", &["line 2", "UTF-8"]),
    ] {
        std::fs::write(folder.join("dug.csv"), csv).unwrap();
        let said = run(&job, "dug", &[]).1.unwrap_err();
        assert!(said.contains("dug.csv"), "{said}");
        assert!(
            parts.iter().all(|part| said.contains(part)),
            "{said}, {parts:?}"
        );
    }
    // A quotation mark left open takes in what follows: told on one line, cut.
    let open = format!("post,\"depth\n2,60 in\n{}", "3,60 in\n".repeat(20));
    for csv in [open.as_str(), "post,depth\n2,\"60\npsf\"\n"] {
        std::fs::write(folder.join("dug.csv"), csv).unwrap();
        let said = run(&job, "dug", &[]).1.unwrap_err();
        assert_eq!(said.lines().count(), 1, "{said}");
        let told = said.split_once("dug.csv").unwrap().1;
        assert!(told.len() < 150, "{told}");
    }
    let driven = WHOLE.replace("hole = \"18 in\"", "set_in = \"driven\"");
    std::fs::write(&job, format!("as_dug = \"dug.csv\"\n{driven}")).unwrap();
    std::fs::write(folder.join("dug.csv"), "post,hole\n2,18 in\n").unwrap();
    let said = run(&job, "dug", &[]).1.unwrap_err();
    assert!(
        said.contains("hole = \"18 in\"") && said.contains("driven"),
        "{said}"
    );
    // What fills the hole of a post planned as backfill is not said: it is no concrete.
    let bare = WHOLE.replace("hole = \"18 in\"", "hole_shape = \"none\"");
    std::fs::write(&job, format!("as_dug = \"dug.csv\"\n{bare}")).unwrap();
    for (csv, cell) in [
        ("post,hole\n2,18 in\n", "hole = \"18 in\""),
        ("post,shape\n2,round\n", "shape = \"round\""),
    ] {
        std::fs::write(folder.join("dug.csv"), csv).unwrap();
        let said = run(&job, "dug", &[]).1.unwrap_err();
        assert!(said.contains(cell) && said.contains("set_in"), "{said}");
    }
    std::fs::write(folder.join("dug.csv"), "post,depth\n2,66 in\n").unwrap();
    run(&job, "dug", &[]).1.unwrap();
    std::fs::write(&job, format!("as_dug = \"dug.csv\"\n{WHOLE}")).unwrap();
    // Several at once; blank cells stay as planned.
    std::fs::write(folder.join("dug.csv"), "post,depth,hole\n2,x,\n3,,y\n4,,\n").unwrap();
    let said = run(&job, "dug", &[]).1.unwrap_err();
    assert_eq!(said.lines().count(), 2, "{said}");
    std::fs::remove_file(folder.join("dug.csv")).unwrap();
    let said = run(&job, "dug", &[]).1.unwrap_err();
    assert!(said.contains("as_dug = \"dug.csv\""), "{said}");
}

/// Every optional field that the sample shows behind a # is read as shown.
#[test]
fn the_optional_fields_of_the_sample_are_read() {
    let sample = std::fs::read_to_string(samples().join("us.toml")).unwrap();
    let line = |text: &str, start: &str| {
        let start = format!("# {start}");
        assert!(text.contains(&format!("\n{start}")), "{start}");
        text.replacen(&format!("\n{start}"), &format!("\n{}", &start[2..]), 1)
    };
    let all = |names: &[&str]| {
        let text = names
            .iter()
            .fold(sample.clone(), |text, name| line(&text, name));
        Job::parse(&text, "us.toml", &samples())
            .unwrap_or_else(|said| panic!("{names:?}: {said:?}"))
    };
    let plain = all(&[]);
    let same = all(&[
        "topographic_factor",
        "gust_factor",
        "minimum_pressure",
        "case_b",
        "discount_top",
        "isolated_pole",
        "hole_shape",
        "paved",
        "combinations",
        "twelve_foot_rule",
        "square_width",
        "set_in",
        "remedy",
        "concrete_weight",
    ]);
    // What is shown behind the # is what is taken without it.
    assert_eq!((&plain.site, &plain.specs), (&same.site, &same.specs));
    assert!(
        same.echoes.iter().filter(|echo| echo.given).count()
            > plain.echoes.iter().filter(|echo| echo.given).count() + 10
    );
    // Every table that is shown is read.
    let asked = all(&[
        "rest_days = 5",
        "rest_days_needed",
        "rigidity",
        "bag_yields",
        "foam",
        "gravel",
        "[uplift]",
        "force",
        "wood_bond",
        "[axial]",
        "length_factor",
        "fc",
        "emin",
        "capacity",
    ]);
    assert!(asked.asked.uplift && asked.asked.axial && asked.specs != plain.specs);
    assert!(!plain.asked.uplift && !plain.asked.axial);
    assert!(plain.asked.frost() && plain.asked.lean && plain.asked.materials());
    let more = all(&[
        "elevation",
        "[site.hill]",
        "shape = \"ridge\"",
        "height = \"60 ft\"",
        "half_length",
        "distance",
        "side = \"upwind\"",
        "topping",
    ]);
    assert!(more.site != plain.site && more.fence != plain.fence);
    let infill = "infill = { kind = \"solid\" }\n";
    for kind in [
        "infill = { kind = \"pickets\"",
        "infill = { kind = \"mesh\"",
    ] {
        let text = line(&sample, kind).replacen(infill, "", 1);
        let job = Job::parse(&text, "us.toml", &samples()).unwrap();
        assert!(job.fence.runs()[0].panel().solidity() < 0.9);
    }
    // Ground of an engineer instead of a class.
    let text = ["lateral_bearing", "vertical_pressure"]
        .iter()
        .fold(sample.clone(), |t, n| line(&t, n));
    let class = text.find("class = 4").unwrap();
    let text = format!("{}{}", &text[..class], &text[class + "class = 4".len()..]);
    assert!(Job::parse(&text, "us.toml", &samples()).unwrap().specs != plain.specs);
    // A pressure instead of a code.
    let text = ["pressure = ", "level", "acts_at"]
        .iter()
        .fold(sample.clone(), |t, n| line(&t, n));
    let from = text.find("code = ").unwrap();
    let to = text.find("# elevation").unwrap();
    let text = format!("{}code = \"pressure\"\n{}", &text[..from], &text[to..]);
    assert!(Job::parse(&text, "us.toml", &samples()).unwrap().site != plain.site);
}
