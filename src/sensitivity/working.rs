//! The worksheets: one line an input first, then the slopes by their numbers; the
//! count of samples and its interval.

use super::effect::{Effect, Elasticity};
use super::point::Point;
use super::proportion::{Proportion, Z};
use super::study::Sensitivity;
use super::uncertainty::Uncertainty;
use crate::error::Error;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{UnitSystem, show};

/// Slopes within the band are told where they are farther apart than this.
const APART: f64 = 0.5;

/// A share as per cent, up to four digits.
fn percent(share: f64) -> String {
    if share > 0.0 && share < 1e-6 {
        return "less than 0.0001 %".to_owned();
    }
    let text = format!("{:.4}", 100.0 * share);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{text} %")
}

impl Sensitivity {
    /// The worksheet: the inputs by their influence, one line each, then each with its
    /// numbers.
    pub fn worksheet(&self, system: UnitSystem) -> Worksheet {
        let mut sheet = Worksheet::new("What matters: each input varied alone", system);
        self.write_summary(&mut sheet);
        for effect in &self.effects {
            self.write_effect(effect, &mut sheet);
        }
        sheet.cautions = self.cautions();
        sheet
    }

    fn write_summary(&self, sheet: &mut Worksheet) {
        let system = sheet.system;
        let share = percent(self.band.share());
        sheet.section("Sensitivity");
        sheet.remark(format!(
            "The fence was checked forwards {} times: each input from -{share} to +{share}, all else \
             as planned.",
            self.evaluations
        ));
        sheet.remark(
            "Elasticity: by how many per cent the greatest utilization changes when the input \
             changes by one; + grows with it.",
        );
        if !self.every_depth_planned {
            sheet.remark(
                "Posts without a planned depth use up their ground exactly, by construction; that \
                 does not count. The elasticity of the required depth stands beside.",
            );
        }
        sheet.remark(format!(
            "The plan as it is: {}; post {} needs the greatest depth, {}.",
            told(&self.base),
            self.base.depth.post,
            show(self.base.depth.depth, system)
        ));
        let ranked = if self.every_depth_planned {
            self.by_influence()
        } else {
            self.by_influence_on_depth()
        };
        for effect in ranked {
            sheet.remark(effect.line(&share, self.every_depth_planned, system));
        }
        if !self.absent.is_empty() {
            let names: Vec<_> = self.absent.iter().map(|(input, _)| input.name()).collect();
            sheet.remark(format!("Not in this plan: {}.", names.join(", ")));
        }
        sheet.push(Step::given_number("h", "step", self.band.step()));
        sheet.push(
            Step::computed_number(
                "dx",
                "difference of ln x over one step",
                "ln(1 + h)",
                self.band.step().ln_1p(),
            )
            .with_number("h", self.band.step()),
        );
    }

    fn write_effect(&self, effect: &Effect, sheet: &mut Worksheet) {
        sheet.section(effect.input.name());
        if let Some(value) = effect.value {
            sheet.push(Step {
                result: value,
                ..Step::given_number("x", "value in the plan", 0.0)
            });
        }
        for (symbol, meaning, point) in [
            ("ul", "utilization at the low end of the band", effect.low),
            ("u0", "utilization of the plan", Ok(effect.base)),
            ("uh", "utilization at the high end of the band", effect.high),
        ] {
            match point {
                Ok(point) => {
                    let ratio = point.utilization.ratio();
                    sheet.push(Step::given_number(symbol, meaning, ratio));
                }
                Err(error) => {
                    let refusal = error.in_system(sheet.system);
                    sheet.remark(format!("No {meaning}: {refusal}."));
                }
            }
        }
        for switch in effect.switches() {
            sheet.remark(format!(
                "Between factors {:.4} and {:.4} {} of post {} gives way to {} of post {}.",
                switch.between.0,
                switch.between.1,
                switch.below.1,
                switch.below.0,
                switch.above.1,
                switch.above.0
            ));
        }
        let run = self.band.step().ln_1p();
        write_slopes(effect.elasticity, run, &UTILIZATION, sheet);
        write_slopes(effect.depth_elasticity, run, &DEPTH, sheet);
    }
}

/// How a slope is written: the difference it comes from, and itself.
struct Words {
    difference: (&'static str, &'static str),
    slope: (&'static str, &'static str, &'static str),
}

const fn words(
    symbol: &'static str,
    meaning: &'static str,
    slope: (&'static str, &'static str, &'static str),
) -> Words {
    Words {
        difference: (symbol, meaning),
        slope,
    }
}

const OF_UTILIZATION: &str = "elasticity of the utilization";
const OF_DEPTH: &str = "elasticity of the required depth";

/// Central, below, above.
const UTILIZATION: [Words; 3] = [
    words(
        "du",
        "difference of ln u over two steps",
        ("Eu", OF_UTILIZATION, "du/(2*dx)"),
    ),
    words(
        "dul",
        "difference of ln u over the step below",
        ("Eul", OF_UTILIZATION, "dul/dx"),
    ),
    words(
        "duh",
        "difference of ln u over the step above",
        ("Euh", OF_UTILIZATION, "duh/dx"),
    ),
];
const DEPTH: [Words; 3] = [
    words(
        "dd",
        "difference of ln d over two steps",
        ("Ed", OF_DEPTH, "dd/(2*dx)"),
    ),
    words(
        "ddl",
        "difference of ln d over the step below",
        ("Edl", OF_DEPTH, "ddl/dx"),
    ),
    words(
        "ddh",
        "difference of ln d over the step above",
        ("Edh", OF_DEPTH, "ddh/dx"),
    ),
];

/// The slopes, from differences by the forward checks.
fn write_slopes(elasticity: Elasticity, run: f64, words: &[Words; 3], sheet: &mut Worksheet) {
    let mut slope = |words: &Words, value: f64, steps: f64| {
        let (difference, (symbol, meaning, formula)) = (words.difference, words.slope);
        let change = value * run * steps;
        sheet.push(Step::given_number(difference.0, difference.1, change));
        sheet.push(
            Step::computed_number(symbol, meaning, formula, value)
                .with_number(difference.0, change)
                .with_number("dx", run)
                .cite(&source::LOG_SLOPE),
        );
    };
    let [central, low, high] = words;
    match elasticity {
        Elasticity::Central(value) => slope(central, value, 2.0),
        Elasticity::OneSided { below, above, why } => {
            if let Some(below) = below {
                slope(low, below, 1.0);
            }
            if let Some(above) = above {
                slope(high, above, 1.0);
            }
            sheet.remark(format!("One-sided: {}.", why.name()));
        }
        Elasticity::Undefined => {}
    }
}

fn told(point: &Point) -> String {
    format!(
        "{} in {} of post {}",
        point.utilization, point.governing, point.post
    )
}

impl Effect {
    /// The input in one line.
    fn line(&self, share: &str, planned: bool, system: UnitSystem) -> String {
        let value = self.value.map_or(String::new(), |value| {
            format!(" ({})", value.in_system(system))
        });
        let depth = if planned {
            String::new()
        } else {
            format!(", of the depth {}", self.depth_elasticity)
        };
        let end = |sign: &str, point: &Result<Point, Error>| match point {
            Ok(point) => format!("{sign}{share}: {}", told(point)),
            Err(_) => format!("{sign}{share}: not allowed"),
        };
        let why = match self.elasticity {
            Elasticity::OneSided { why, .. } => format!(" (below | above: {})", why.name()),
            _ => String::new(),
        };
        let switches = if self.governs_throughout() {
            ""
        } else {
            "; what governs changes within"
        };
        let slopes = match self.slopes_within() {
            Some((least, most)) if most - least > APART => {
                format!("; slopes from {least:.2} to {most:.2} within")
            }
            _ => String::new(),
        };
        format!(
            "{}{value}: elasticity {}{why}{depth}; {}; {}{switches}{slopes}.",
            self.input,
            self.elasticity,
            end("-", &self.low),
            end("+", &self.high),
        )
    }
}

impl Uncertainty {
    /// The worksheet: what was sampled, what it came to, the interval by its numbers.
    pub fn worksheet(&self, system: UnitSystem) -> Worksheet {
        let mut sheet = Worksheet::new("Inputs at random", system);
        self.write_inputs(&mut sheet);
        self.write_samples(&mut sheet);
        if let Some(share) = self.probability() {
            share.write(&mut sheet);
        }
        sheet.cautions = self.cautions();
        sheet
    }

    fn write_inputs(&self, sheet: &mut Worksheet) {
        let system = sheet.system;
        sheet.section("Distributions, as ratios to the plan");
        sheet.remark("Given by the user; independent; one ratio for the whole fence.");
        for cut in &self.inputs {
            let truncated = if cut.cut() > 0.0 {
                format!(
                    "cut to {:.4} to {:.4}: {} below and {} above are left out",
                    cut.least,
                    cut.most,
                    percent(cut.below),
                    percent(cut.above)
                )
            } else {
                "nothing cut off".to_owned()
            };
            sheet.remark(format!(
                "{}: {}, mean {:.4}, deviation {:.4}; {truncated}.",
                cut.input,
                cut.distribution.name(),
                cut.distribution.mean(),
                cut.distribution.deviation()
            ));
        }
        if self.cut_off() > 0.0 {
            sheet.remark(format!(
                "Cut off in all: {}. It is in no sample; the share above 1 is of the rest.",
                percent(self.cut_off())
            ));
        }
        if let Some(error) = self.first_refusal {
            sheet.remark(format!(
                "The first sample that could not be built: {}.",
                error.in_system(system)
            ));
        }
    }

    fn write_samples(&self, sheet: &mut Worksheet) {
        sheet.section("Samples");
        sheet.remark("This is no reliability analysis to a code: see the cautions.");
        for (post, check, count) in self.governed() {
            sheet.remark(format!("{check} of post {post} governs {count} times."));
        }
        let (asked, unbuilt, unnumbered) = (
            f64::from(self.samples),
            f64::from(self.not_built),
            f64::from(self.without_number),
        );
        sheet.push(Step::given_number("N", "samples asked for", asked));
        sheet.push(Step::given_number("nb", "could not be built", unbuilt));
        sheet.push(Step::given_number(
            "nn",
            "without a number between 0 and 1",
            unnumbered,
        ));
        sheet.push(
            Step::computed_number("n", "checked", "N - nb - nn", f64::from(self.evaluated()))
                .with_number("N", asked)
                .with_number("nb", unbuilt)
                .with_number("nn", unnumbered),
        );
        if let Some(mean) = self.mean {
            sheet.push(Step::given_number("um", "mean utilization", mean));
        }
        if let Some(deviation) = self.deviation {
            sheet.push(Step::given_number("us", "standard deviation", deviation));
        }
        for (symbol, meaning, share) in [
            ("u05", "not exceeded by 5 %", 0.05),
            ("u50", "not exceeded by half", 0.5),
            ("u95", "not exceeded by 95 %", 0.95),
        ] {
            if let Ok(value) = self.quantile(share) {
                sheet.push(Step::given_number(symbol, meaning, value.ratio()));
            }
        }
    }
}

impl Proportion {
    /// Writes the share above 1 and its interval.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Share above 1 and its sampling error");
        let (k, n) = (f64::from(self.count()), f64::from(self.of()));
        let (low, high) = self.interval();
        sheet.push(Step::given_number("k", "samples above 1", k));
        sheet.push(Step::given_number("z", "quantile for 95 %", Z));
        sheet.push(
            Step::computed_number("p", "share above 1", "k/n", self.share())
                .with_number("k", k)
                .with_number("n", n),
        );
        for (symbol, meaning, formula, value) in [
            (
                "p1",
                "low end at 95 %",
                "(k + z^2/2 - z*sqrt(k*(n - k)/n + z^2/4))/(n + z^2)",
                low,
            ),
            (
                "p2",
                "high end at 95 %",
                "(k + z^2/2 + z*sqrt(k*(n - k)/n + z^2/4))/(n + z^2)",
                high,
            ),
        ] {
            sheet.push(
                Step::computed_number(symbol, meaning, formula, value)
                    .with_number("k", k)
                    .with_number("n", n)
                    .with_number("z", Z)
                    .cite(Self::source()),
            );
        }
    }
}
