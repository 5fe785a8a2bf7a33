//! Markdown, for a calculation file.

use super::{numbers, result, rule};
use crate::step::{Origin, Worksheet};
use core::fmt;

/// Shows a worksheet as Markdown: a table a section.
pub fn markdown(sheet: &Worksheet) -> impl fmt::Display + fmt::Debug + '_ {
    Markdown(sheet)
}

#[derive(Debug)]
struct Markdown<'a>(&'a Worksheet);

impl fmt::Display for Markdown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sheet = self.0;
        writeln!(f, "# Worksheet: {}", cell(&sheet.title))?;
        for section in &sheet.sections {
            writeln!(f, "\n## {}\n", section.title)?;
            for remark in &section.remarks {
                writeln!(f, "{}\n", cell(remark))?;
            }
            if section.steps.is_empty() {
                continue;
            }
            writeln!(
                f,
                "| result | meaning | formula or rule | numbers in | source |"
            )?;
            writeln!(f, "|---|---|---|---|---|")?;
            for step in &section.steps {
                let formula = match step.origin {
                    Origin::Root => format!("root of {}", rule(step)),
                    _ => rule(step).to_owned(),
                };
                let source = step.citation.map(ToString::to_string).unwrap_or_default();
                writeln!(
                    f,
                    "| {} | {} | {} | {} | {} |",
                    cell(&result(step, sheet.system)),
                    cell(step.meaning),
                    cell(&formula),
                    cell(&numbers(step, sheet.system)),
                    cell(&source)
                )?;
            }
        }
        writeln!(f, "\n## Cautions\n")?;
        for caution in sheet.cautions.iter() {
            writeln!(f, "- {}", cell(caution.text()))?;
        }
        Ok(())
    }
}

/// Text that stays inside its table cell and is not taken for emphasis.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('*', "\\*")
}
