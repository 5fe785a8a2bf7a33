//! Plain text, for a terminal.

use super::{numbers, result, rule};
use crate::step::{Origin, Worksheet};
use core::fmt;

/// Shows a worksheet as plain text.
pub fn text(sheet: &Worksheet) -> impl fmt::Display + fmt::Debug + '_ {
    Text(sheet)
}

#[derive(Debug)]
struct Text<'a>(&'a Worksheet);

impl fmt::Display for Text<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sheet = self.0;
        writeln!(f, "Worksheet: {}", sheet.title)?;
        for section in &sheet.sections {
            writeln!(f, "\n{}", section.title)?;
            for remark in &section.remarks {
                writeln!(f, "  {remark}")?;
            }
            for step in &section.steps {
                writeln!(f, "  {:<22} {}", result(step, sheet.system), step.meaning)?;
                match (step.origin, numbers(step, sheet.system)) {
                    (Origin::Given, _) => {}
                    (_, numbers) if numbers.is_empty() => writeln!(f, "      {}", rule(step))?,
                    (Origin::Root, numbers) => {
                        writeln!(f, "      root of {}", rule(step))?;
                        writeln!(f, "      with {numbers}")?;
                    }
                    (_, numbers) if rule(step) == step.symbol => {
                        writeln!(f, "      with {numbers}")?;
                    }
                    (Origin::Computed, numbers) => {
                        writeln!(f, "      {} = {}", step.symbol, rule(step))?;
                        writeln!(f, "      with {numbers}")?;
                    }
                }
                if let Some(citation) = step.citation {
                    writeln!(f, "      [{citation}]")?;
                }
            }
        }
        writeln!(f, "\nCautions")?;
        for caution in sheet.cautions.iter() {
            writeln!(f, "  - {caution}")?;
        }
        Ok(())
    }
}
