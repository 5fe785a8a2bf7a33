//! The sheet of the example `schedule` in a browser, where one is installed:
//! at desk, phone and paper size.

use super::schedule_example::sheet_of;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A browser on the PATH that runs without a window. Some systems have only a
/// stand-in of that name, which says no version.
fn browser() -> Option<PathBuf> {
    let names = ["chromium", "chromium-browser", "google-chrome", "chrome"];
    let path = std::env::var_os("PATH")?;
    let folders: Vec<_> = std::env::split_paths(&path).collect();
    let mut all = names
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)));
    let runs = |program: &PathBuf| {
        let version = Command::new(program).arg("--version").output();
        version.is_ok_and(|said| said.status.success())
    };
    let found = all.find(|program| program.is_file() && runs(program));
    if found.is_none() {
        println!("skipped: none of {names:?} on the PATH runs");
    }
    found
}

/// Runs the browser on a page with a profile of its own; what it printed.
fn open(program: &Path, page: &Path, flags: &[&str]) -> String {
    let profile = page.with_extension("profile");
    let output = Command::new(program)
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--virtual-time-budget=5000",
        ])
        .arg(format!("--user-data-dir={}", profile.display()))
        .args(flags)
        .arg(format!("file://{}", page.display()))
        .output()
        .unwrap();
    assert!(output.status.success(), "{output:?}");
    String::from_utf8(output.stdout).unwrap()
}

/// Says in the page around it how wide the page is: all of it, its frame, and
/// the same of the box round the table of posts.
const MEASURE: &str = "<script>addEventListener('load', () => { \
    const page = document.documentElement; \
    const table = document.querySelector('#summary').parentElement; \
    parent.postMessage([page.scrollWidth, page.clientWidth, table.scrollWidth, \
    table.clientWidth, document.querySelectorAll('#summary tbody tr').length].join(' '), '*'); \
    });</script></body>";

/// The page in a frame of a size (a window has a least width, a frame has
/// none); what it says of itself.
fn measured(program: &Path, out: &Path, html: &str, width: u32, height: u32) -> Vec<u32> {
    let inner = out.join(format!("measured-{width}.html"));
    std::fs::write(&inner, html.replace("</body>", MEASURE)).unwrap();
    let outer = out.join(format!("frame-{width}.html"));
    let frame = format!(
        "<!DOCTYPE html><html><body><p id=\"said\"></p><script>addEventListener('message', said => \
         {{ document.querySelector('#said').textContent = said.data; }});</script><iframe \
         src=\"measured-{width}.html\" width=\"{width}\" height=\"{height}\" \
         style=\"border: 0\"></iframe></body></html>"
    );
    std::fs::write(&outer, frame).unwrap();
    let dom = open(program, &outer, &["--dump-dom", "--window-size=1600,1200"]);
    let said = dom.split("<p id=\"said\">").nth(1).unwrap();
    let said = said.split("</p>").next().unwrap();
    said.split_whitespace()
        .map(|n| n.parse().unwrap())
        .collect()
}

#[test]
fn the_sheet_fits_desk_phone_and_paper() {
    let Some(program) = browser() else { return };
    // Letter and A4, in points.
    let samples = [
        ("us.toml", 34, (612.0, 792.0)),
        ("si.toml", 17, (595.0, 842.0)),
    ];
    for (sample, posts, paper) in samples {
        let (out, html) = sheet_of(sample, &format!("browser-{sample}"));
        let dom = open(
            &program,
            &out.join("sheet.html"),
            &["--dump-dom", "--window-size=1280,900"],
        );
        assert_eq!(dom.matches("data-field=\"required\"").count(), posts);
        assert!(dom.contains("id=\"review\"") && dom.contains("id=\"cautions\""));
        for (width, height) in [(1280, 900), (390, 844)] {
            let said = measured(&program, &out, &html, width, height);
            let [page, frame, table, its_box, rows] = said[..] else {
                panic!("{width}: {said:?}");
            };
            assert_eq!(rows as usize, posts);
            assert!(frame <= width && frame + 30 > width, "{said:?}");
            assert!(page <= frame, "{width}: {page} wide in {frame}");
            // On a phone the table scrolls in its own box.
            assert!(
                its_box <= frame && (width > 1000 || table > its_box),
                "{said:?}"
            );
        }
        let pdf = out.join("sheet.pdf");
        let print = format!("--print-to-pdf={}", pdf.display());
        open(
            &program,
            &out.join("sheet.html"),
            &[&print, "--no-pdf-header-footer"],
        );
        let pdf = String::from_utf8_lossy(&std::fs::read(&pdf).unwrap()).into_owned();
        assert!(pdf.starts_with("%PDF-"));
        let pages: Vec<(f64, f64)> = pdf
            .split("/MediaBox [0 0 ")
            .skip(1)
            .map(|page| {
                let mut sides = page.split([' ', ']']).map(|side| side.parse().unwrap());
                (sides.next().unwrap(), sides.next().unwrap())
            })
            .collect();
        // Upright, and on its side for the table.
        let sized = |w: f64, h: f64| {
            let near = |page: &&(f64, f64)| (page.0 - w).abs() < 1.0 && (page.1 - h).abs() < 1.0;
            pages.iter().filter(near).count()
        };
        let (upright, lying) = (sized(paper.0, paper.1), sized(paper.1, paper.0));
        assert!(upright > 5 && (1..=3).contains(&lying), "{pages:?}");
        assert_eq!(upright + lying, pages.len());
    }
}
