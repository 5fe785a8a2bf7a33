//! The example `schedule`: what more a job file asks of every post stands in
//! the sheet and the CSV as the library says it, and what was refused is never
//! counted as passing.

use super::schedule_example::{Page, folder, near, page, run, sheet_of, si_plan, us_plan};
use groundline::combination::CombinesTo;
use groundline::limit_state::AllowableStress;
use groundline::plan::{Schedule, ScheduledPost};
use groundline::units::*;
use groundline::wind::WindCode;

pub(crate) const JOB: &str = r#"units = "us"
[site]
code = "pressure"
pressure = "20 psf"
level = "strength"
[fence]
height = "6 ft"
panel_weight = "4 psf"
spacing = "8 ft"
[[run]]
length = "32 ft"
[soil]
class = 4
[post]
material = "pipe"
diameter = "4 in"
wall = "0.226 in"
yield = "50 ksi"
hole = "18 in"
planned_depth = "78 in"
"#;

/// The job with one piece replaced and more at its end.
pub(crate) fn job(old: &str, new: &str, more: &str) -> String {
    assert!(JOB.contains(old), "{old}");
    format!("{}{more}\n", JOB.replacen(old, new, 1))
}

/// What comes of a job: what is printed, the sheet, the CSV.
pub(crate) fn made(text: &str, name: &str) -> (String, String, String) {
    let path = folder(name).join("job.toml");
    std::fs::write(&path, text).unwrap();
    let (out, printed) = run(&path, name, &[]);
    let read = |file: &str| std::fs::read_to_string(out.join(file)).unwrap();
    let printed = printed.unwrap_or_else(|said| panic!("{name}: {said}"));
    (printed, read("sheet.html"), read("schedule.csv"))
}

/// The numbers of what more was asked, in the units of the sheet.
fn asked<L: CombinesTo<AllowableStress>>(
    post: &ScheduledPost<L>,
    size: fn(f64) -> Length,
    force: fn(f64) -> Force,
    volume: fn(f64) -> Volume,
) -> Vec<(&'static str, f64)> {
    let mut all = Vec::new();
    let site = &post.site;
    if let Some(lean) = site.lean.done() {
        all.push(("lean", (lean.lean.total() / size(1.0)).value));
        all.push(("lean_ratio", lean.ratio));
        all.push(("lean_limit", lean.limit.unwrap()));
        all.push(("lean_used", lean.utilization.unwrap().ratio()));
    }
    if let Some(frost) = site.frost.done() {
        all.push(("frost_lifts", (frost.balance.lifts / force(1.0)).value));
        all.push(("frost_holds", (frost.balance.holds / force(1.0)).value));
        all.push(("frost_used", frost.utilization.ratio()));
    }
    if let Some(up) = site.uplift.done() {
        let holds = (up.resistance.resistance / force(1.0)).value;
        all.push(("pull_out_holds", holds));
        all.push(("pull_out_used", up.utilization.ratio()));
    }
    if let Some(axial) = site.axial.done() {
        all.push(("axial_used", axial.utilization.ratio()));
    }
    if let Some(materials) = site.materials.done() {
        all.push(("fill", (materials.fill / volume(1.0)).value));
        all.push(("bags", materials.bags.unwrap().buy));
        all.push(("carry", (materials.carry() / force(1.0)).value));
    }
    all
}

fn compare(page: &Page, post: usize, expected: &[(&str, f64)]) {
    for (field, value) in expected {
        let shown = page.numbers.get(&(post, (*field).to_owned()));
        let shown = shown.unwrap_or_else(|| panic!("post {post}: no {field}"));
        assert!(
            near(shown.value, *value),
            "post {post}, {field}: {shown:?}, {value}"
        );
    }
}

/// The quantities of the sheet are those of the library, run by run.
fn compare_quantities<C: WindCode>(
    page: &Page,
    schedule: &Schedule<'_, C>,
    runs: usize,
    force: fn(f64) -> Force,
    volume: fn(f64) -> Volume,
) where
    C::Level: CombinesTo<AllowableStress>,
{
    let of_runs = (0..runs).map(|run| (format!("run{}", run + 1), Some(run)));
    for (key, run) in of_runs.chain([("fence".to_owned(), None)]) {
        let sum = schedule.materials(run);
        let expected = [
            ("holes", (sum.hole / volume(1.0)).value),
            ("bases", (sum.base / volume(1.0)).value),
            ("fill", (sum.fill / volume(1.0)).value),
            ("bags", sum.bags),
            ("carry", (sum.carry / force(1.0)).value),
        ];
        for (field, value) in expected {
            let shown = &page.numbers[&(0, format!("{key}_{field}"))];
            assert!(
                near(shown.value, value),
                "{key} {field}: {shown:?}, {value}"
            );
        }
        if let Some(least) = page.numbers.get(&(0, format!("{key}_least"))) {
            assert_eq!(least.value, sum.least_bags());
        }
    }
}

#[test]
fn what_more_the_us_sheet_asks_is_what_the_library_says() {
    let (_, html) = sheet_of("us.toml", "asked-us");
    let page = page(&html);
    let plan = us_plan();
    let schedule = plan.schedule().unwrap();
    for post in schedule.posts() {
        let expected = asked(&post, inch, lb, cu_ft);
        assert_eq!(expected.len(), 10);
        compare(&page, post.post.number, &expected);
    }
    compare_quantities(&page, &schedule, 3, lb, cu_ft);
    assert!(page.numbers.contains_key(&(0, "fence_least".to_owned())));
    // The frost stands in the drawing of the hole and among the assumptions.
    assert!(html.contains(">\nfrost to 24 in\n<") || html.contains(">frost to 24 in<"));
    let not = not_checked(&page);
    assert_eq!(
        not[..3],
        [
            "uplift",
            "the weight of the fence together with bending",
            "rails"
        ]
    );
}

#[test]
fn what_more_the_si_sheet_asks_is_what_the_library_says() {
    let (_, html) = sheet_of("si.toml", "asked-si");
    let page = page(&html);
    let plan = si_plan();
    let schedule = plan.schedule().unwrap();
    for post in schedule.posts() {
        let expected = asked(&post, mm, kn, cu_m);
        assert_eq!(expected.len(), 10);
        compare(&page, post.post.number, &expected);
    }
    compare_quantities(&page, &schedule, 2, kn, cu_m);
    // Bags of concrete and of gravel are not added up as if they were one kind,
    // and what is of gravel is that of the two end posts.
    assert!(!page.numbers.contains_key(&(0, "fence_least".to_owned())));
    let bags = |key: &str| page.numbers[&(0, format!("{key}_bags"))].value;
    assert!(near(
        bags("fence"),
        bags("poured_concrete") + bags("compacted_gravel")
    ));
    let ends = [1, 17].map(|post| page.numbers[&(post, "bags".to_owned())].value);
    assert!(near(bags("compacted_gravel"), ends[0] + ends[1]));
    assert!(!html.contains("frost to "));
    let not = not_checked(&page);
    assert_eq!(not[..2], ["frost", "rails"]);
}

/// The list of what is not checked.
fn not_checked(page: &Page) -> Vec<&str> {
    let (_, rest) = page.text.rsplit_once("Not checked: ").unwrap();
    rest.split_once("walls").unwrap().0.split(", ").collect()
}

/// The frost line lies as deep below grade as the frost, to the scale of the
/// hole.
#[test]
fn the_frost_is_drawn_to_scale() {
    let (_, html) = sheet_of("us.toml", "frost-drawn");
    let page = page(&html);
    let find = |tag: &str, key: &str, value: &str| {
        let mut found = page
            .tags
            .iter()
            .filter(|(name, of)| name == tag && of.get(key).is_some_and(|text| text == value));
        let (_, of) = found.next().unwrap();
        of.clone()
    };
    let number = |text: &String| text.parse::<f64>().unwrap();
    let frost = find("line", "stroke-dasharray", "9 3 2 3");
    let hole = find("rect", "fill", "url(#hole-hatched)");
    let grade = number(&hole["y"]);
    let depth = number(&hole["height"]);
    // Post 33 governs, 72 in deep as planned; frost goes down 24 in.
    assert!(html.contains("Post 33 and its hole"));
    let drawn = (number(&frost["y1"]) - grade) / depth;
    assert!((drawn - 24.0 / 72.0).abs() < 0.005, "{drawn}");
}

#[test]
fn nothing_is_asked_that_the_job_does_not_ask() {
    let (printed, html, csv) = made(JOB, "asked-nothing");
    let page = page(&html);
    assert!(!html.contains("id=\"more\"") && !html.contains("id=\"quantities\""));
    assert!(!printed.contains("NOT WHOLLY") && !html.contains("IN PART"));
    let not = not_checked(&page);
    let weight = "the weight of the fence together with bending";
    assert_eq!(not[..5], ["frost", "uplift", "lean", weight, "rails"]);
    // The columns stay in the CSV, blank.
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let header = reader.headers().unwrap().clone();
    for title in ["Lean used", "Frost used", "Pull-out used", "Bags"] {
        let place = header.iter().position(|name| name == title).unwrap();
        let mut other = csv::Reader::from_reader(csv.as_bytes());
        assert!(
            other
                .records()
                .all(|record| record.unwrap()[place].is_empty())
        );
    }
    // A lean without a limit is told and not checked.
    let (_, html, _) = made(
        &job("units", "units", "[lean]\ngrowing = \"60 pci\""),
        "asked-lean",
    );
    let page = super::schedule_example::page(&html);
    assert!(not_checked(&page).contains(&"lean against a limit"));
    assert!(page.numbers.contains_key(&(1, "lean".to_owned())));
    assert!(!page.numbers.contains_key(&(1, "lean_used".to_owned())));
}

/// Posts without a planned depth are said to have none: their ground is not checked.
#[test]
fn posts_without_a_depth_are_told() {
    let end = "[post.end]\nhole = \"20 in\"\n";
    let job_of = |old: &str, new: &str| job(old, new, end);
    let planned = "planned_depth = \"78 in\"";
    let only_ends = format!("[post.end]\n{planned}\n");
    for (name, text, unplanned) in [
        ("all-planned", job_of("units", "units"), 0_u32),
        ("none-planned", job_of(planned, ""), 5),
        ("ends-planned", job(planned, "", &only_ends), 3),
    ] {
        let (printed, html, csv) = made(&text, name);
        let page = page(&html);
        assert!(
            page.states.values().all(|state| state == "passes"),
            "{name}"
        );
        let every = page.text.contains("every post passes as planned or dug");
        assert_eq!(every, unplanned == 0, "{name}");
        let told = page.numbers.get(&(0, "unplanned".to_owned()));
        let told = told.map_or(0.0, |shown| shown.value);
        assert_eq!(told, f64::from(unplanned), "{name}");
        let line = format!("{unplanned} posts have no planned depth: their ground is not checked");
        assert_eq!(printed.contains(&line), unplanned > 0, "{name}: {printed}");
        let rows = csv.matches("passes dug to the required depth").count();
        assert_eq!(u32::try_from(rows), Ok(unplanned), "{name}: {csv}");
    }
}

/// A check that is asked for and refused is told with its reason, and its post
/// counts neither as failing nor as passing.
#[test]
fn what_is_refused_is_never_counted_as_passing() {
    let bond = "[uplift]\nforce = \"100 lb\"\nwood_bond = true";
    let paved = job(
        "hole =",
        "paved = true\nhole =",
        "[lean]\ngrowing = \"60 pci\"",
    );
    let bare = job(
        "hole = \"18 in\"",
        "hole_shape = \"none\"",
        "[materials]\nbag = \"80 lb\"",
    );
    let bare = bare.replace("20 psf", "5 psf").replace("4 psf", "1 psf");
    let given = "material = \"given strength\"\ndiameter = \"4 in\"\nallowable_moment = \"9 kip·ft\"\n\
                 allowable_shear = \"9 kip\"\n";
    let from = JOB.find("material").unwrap();
    let to = JOB.find("hole").unwrap();
    let no_capacity = format!("{}{given}{}[axial]\n", &JOB[..from], &JOB[to..]);
    let no_modulus = no_capacity.replace("[axial]", "[lean]\nconstant = \"700 psi\"");
    let grip = "[frost]\ndepth = \"20 in\"\nstress = \"10 psf\"\nfriction = \"presumptive\"";
    let no_bearing = job("class = 4", "lateral_bearing = \"150 psf/ft\"", grip);
    for (text, name, what, why) in [
        (
            job("units", "units", bond),
            "bond",
            "pull-out",
            "cast in concrete",
        ),
        (paved, "paved", "lean", "no restraint at grade"),
        (bare, "bare", "quantities", "require a hole"),
        (no_capacity, "capacity", "axial load with bending", "axial"),
        (no_modulus, "modulus", "lean", "give its EI"),
        (no_bearing, "bearing", "frost uplift", "the ground has none"),
    ] {
        let (printed, html, csv) = made(&text, &format!("refused-{name}"));
        let page = page(&html);
        assert!(
            page.states.values().all(|state| state == "part"),
            "{name}: {:?}",
            page.states
        );
        let number = |field: &str| page.numbers[&(0, field.to_owned())].value;
        assert_eq!(number("failing"), 0.0, "{name}");
        let counts = ["refused", "part", "passing"].map(number);
        assert_eq!(counts, [5.0, 5.0, 0.0], "{name}");
        assert!(!page.text.contains("every post passes"));
        let reason = format!("{what} not checked: ");
        let told = page.text.split_once(&reason).unwrap().1;
        let told = told.split_once("(posts").unwrap();
        assert!(told.0.contains(why), "{name}: {}", told.0);
        assert!(told.1.starts_with(" 1 to 5)"), "{name}: {}", &told.1[..20]);
        assert!(printed.contains("5 posts are NOT WHOLLY CHECKED") && printed.contains(why));
        assert_eq!(html.matches("IN PART").count(), 5, "{name}");
        for line in csv.lines().skip(1) {
            assert!(line.contains(&format!("NOT CHECKED: {what}")), "{line}");
            assert!(line.contains(why) && !line.contains(",passes,"), "{line}");
        }
    }
}

/// The overall utilization stands in table, drawing and ranking, and what fails
/// is named with what would mend it.
#[test]
fn a_check_that_was_asked_for_may_govern() {
    let deep = job("units", "units", "[frost]\ndepth = \"90 in\"");
    let (printed, html, csv) = made(&deep, "frost-deep");
    let text = page(&html).text;
    assert!(printed.contains("5 of 5 posts fail") && printed.contains("frost uplift"));
    assert!(text.contains("FAILS: frost uplift") && text.contains("no capacity"));
    assert!(text.contains("governs the fence: frost uplift"));
    assert!(text.contains("Lifted by frost, posts 1 to 5: a plain shaft"));
    assert!(
        csv.contains("CFEM") || csv.contains("Canadian Foundation"),
        "{csv}"
    );
    assert_eq!(
        html.matches("FAILS</text>").count() + html.matches("FAILS\n</text>").count(),
        5
    );
    // The depth the ground asks for is not said to be of use.
    assert!(!text.contains("frost uplift (needs"));
    // A limit of lean that is too strict.
    let lean = "[lean]\nconstant = \"100 psi\"\nlimit = 0.002";
    let (_, html, _) = made(&job("units", "units", lean), "lean-strict");
    let page = page(&html);
    assert!(page.text.contains("governs the fence: lean"));
    for post in 1..=5 {
        let used = page.numbers[&(post, "lean_used".to_owned())].value;
        let overall = &page.numbers[&(post, "utilization".to_owned())];
        assert!(used > 1.0 && overall.value == used);
        // Drawn under the post.
        let drawn = [
            format!(">{}<", overall.text),
            format!(">\n{}\n<", overall.text),
        ];
        assert!(drawn.iter().any(|text| html.contains(text)));
    }
}

/// Rest is taken, and too short a one is told.
#[test]
fn days_of_rest_are_told() {
    for (rests, short) in [(7, false), (2, true)] {
        let rest = format!("rest_days = {rests}\nrest_days_needed = 5\nhole =");
        let (printed, html, _) = made(&job("hole =", &rest, ""), "rest");
        assert_eq!(html.contains("TOO SHORT"), short);
        let said = groundline::caution::Caution::SetTooSoon.text();
        assert_eq!(printed.contains(said), short);
    }
}

#[test]
fn a_lean_is_never_shown_less_than_it_is() {
    use super::schedule_example::schedule::job::asked::part;
    use super::schedule_example::schedule::sheet::ranges;
    for (share, text) in [
        (1.0 / 60.0, "1/60"),
        (1.0 / 60.9, "1/60"),
        (1.0 / 59.9, "1/59"),
        (0.25, "1/4.0"),
        (0.3, "1/3.3"),
        (0.0, "0"),
        (1e-9, "below 1/999999"),
    ] {
        assert_eq!(part(share), text);
    }
    assert_eq!(ranges(&[1, 2, 3, 5, 7, 8]), "1 to 3, 5, 7, 8");
}
