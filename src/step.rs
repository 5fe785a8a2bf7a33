//! The vocabulary of a worksheet: one line per step of a calculation, made on
//! demand from a result that is already computed.
//!
//! A step carries symbol, meaning, formula, numbers in, result with its unit,
//! clause and mark. Where a formula holds a constant that is not a pure
//! number, its text is the one for the unit system asked for, so that the
//! numbers on the line always recompute by hand.

use crate::source::Citation;
use crate::units::{Measurable, Measure, Measured, UnitSystem};
use std::borrow::Cow;

/// One named number of a step.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Term {
    /// Its symbol in the formula.
    pub symbol: &'static str,
    /// Its value.
    pub value: Measured,
}

/// Where the result of a step comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Origin {
    /// Given by the user, chosen as an option, or read off a table.
    Given,
    /// Computed by the formula from the terms.
    Computed,
    /// The root of the equation in the formula text, itself among the terms.
    Root,
}

/// One line of a worksheet.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Step {
    /// The symbol of the result.
    pub symbol: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// How the result comes about.
    pub origin: Origin,
    /// The formula or rule in the symbols of the terms; empty for a given.
    pub formula: Cow<'static, str>,
    /// The numbers that go in.
    pub terms: Vec<Term>,
    /// The result.
    pub result: Measured,
    /// The clause, with its mark.
    pub citation: Option<&'static Citation>,
}

impl Step {
    fn new(origin: Origin, symbol: &'static str, meaning: &'static str, result: Measured) -> Self {
        Self {
            symbol,
            meaning,
            origin,
            formula: Cow::Borrowed(""),
            terms: Vec::new(),
            result,
            citation: None,
        }
    }

    /// A given quantity.
    pub(crate) fn given<Q: Measurable>(
        symbol: &'static str,
        meaning: &'static str,
        result: Q,
    ) -> Self {
        Self::new(Origin::Given, symbol, meaning, Measured::new(result))
    }

    /// A given pure number.
    pub(crate) fn given_number(symbol: &'static str, meaning: &'static str, result: f64) -> Self {
        Self::new(Origin::Given, symbol, meaning, Measured::number(result))
    }

    /// A computed quantity.
    pub(crate) fn computed<Q: Measurable>(
        symbol: &'static str,
        meaning: &'static str,
        formula: impl Into<Cow<'static, str>>,
        result: Q,
    ) -> Self {
        Self {
            formula: formula.into(),
            ..Self::new(Origin::Computed, symbol, meaning, Measured::new(result))
        }
    }

    /// A computed pure number.
    pub(crate) fn computed_number(
        symbol: &'static str,
        meaning: &'static str,
        formula: &'static str,
        result: f64,
    ) -> Self {
        Self {
            formula: formula.into(),
            ..Self::new(Origin::Computed, symbol, meaning, Measured::number(result))
        }
    }

    /// The root of an equation, which stands among the terms too.
    pub(crate) fn root<Q: Measurable>(
        symbol: &'static str,
        meaning: &'static str,
        equation: &'static str,
        result: Q,
    ) -> Self {
        Self {
            formula: Cow::Borrowed(equation),
            ..Self::new(Origin::Root, symbol, meaning, Measured::new(result))
        }
        .with(symbol, result)
    }

    /// The result shown as another measure.
    pub(crate) fn shown_as(mut self, measure: Measure) -> Self {
        self.result = self.result.shown_as(measure);
        self
    }

    /// One more number that goes in.
    pub(crate) fn with<Q: Measurable>(self, symbol: &'static str, value: Q) -> Self {
        self.term(symbol, Measured::new(value))
    }

    /// One more number that goes in, shown as another measure.
    pub(crate) fn with_as<Q: Measurable>(
        self,
        symbol: &'static str,
        value: Q,
        measure: Measure,
    ) -> Self {
        self.term(symbol, Measured::new(value).shown_as(measure))
    }

    /// One more pure number that goes in.
    pub(crate) fn with_number(self, symbol: &'static str, value: f64) -> Self {
        self.term(symbol, Measured::number(value))
    }

    fn term(mut self, symbol: &'static str, value: Measured) -> Self {
        self.terms.push(Term { symbol, value });
        self
    }

    /// The clause it comes from.
    pub(crate) fn cite(mut self, citation: &'static Citation) -> Self {
        self.citation = Some(citation);
        self
    }
}

/// The steps of one subject.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Section {
    /// The subject.
    pub title: &'static str,
    /// The choices and remarks that bear on it.
    pub remarks: Vec<String>,
    /// The steps, in order.
    pub steps: Vec<Step>,
}

/// A whole calculation, line by line.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Worksheet {
    /// What it is the calculation of.
    pub title: String,
    /// The unit system its formulas and numbers are written in.
    pub system: UnitSystem,
    /// The sections, in the order of the load path.
    pub sections: Vec<Section>,
    /// The cautions that go with it.
    pub cautions: crate::caution::Cautions,
}

impl Worksheet {
    /// An empty worksheet, to be filled by the `write` methods of results.
    ///
    /// ```
    /// use groundline::{step::Worksheet, units::*, wind::*};
    /// let v = BasicWindSpeed::strength_level(mph(115.0))?;
    /// let site = AsceSite::new(Edition::Asce7_16, v, Exposure::C);
    /// let mut sheet = Worksheet::new("Velocity pressure at 6 ft", UnitSystem::Us);
    /// VelocityPressure::at(&site, ft(6.0))?.write(&mut sheet);
    /// println!("{}", groundline::report::text(&sheet));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn new(title: impl Into<String>, system: UnitSystem) -> Self {
        Self {
            title: title.into(),
            system,
            sections: Vec::new(),
            cautions: crate::caution::Cautions::default(),
        }
    }

    /// Starts a section.
    pub(crate) fn section(&mut self, title: &'static str) -> &mut Self {
        self.sections.push(Section {
            title,
            remarks: Vec::new(),
            steps: Vec::new(),
        });
        self
    }

    /// Adds a step to the last section.
    pub(crate) fn push(&mut self, step: Step) -> &mut Self {
        if let Some(section) = self.sections.last_mut() {
            section.steps.push(step);
        }
        self
    }

    /// Adds a remark to the last section.
    pub(crate) fn remark(&mut self, text: impl Into<String>) -> &mut Self {
        if let Some(section) = self.sections.last_mut() {
            section.remarks.push(text.into());
        }
        self
    }

    /// The text for this worksheet's unit system.
    pub(crate) fn by_system(&self, us: &'static str, si: &'static str) -> &'static str {
        match self.system {
            UnitSystem::Us => us,
            UnitSystem::Si => si,
        }
    }

    /// Every step, in order.
    pub fn steps(&self) -> impl Iterator<Item = &Step> {
        self.sections
            .iter()
            .flat_map(|section| section.steps.iter())
    }
}
