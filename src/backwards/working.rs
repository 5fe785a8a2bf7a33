//! The worksheet of an answer.

use super::search::Harsh;
use super::solution::{Answer, Question, Solution};
use crate::combination::CombinesTo;
use crate::limit_state::AllowableStress;
use crate::step::{Step, Worksheet};
use crate::units::{Measurable, Measure, UnitSystem, show_as};
use crate::wind::WindCode;

impl<Q: Measurable, C: WindCode> Solution<Q, C>
where
    C::Level: CombinesTo<AllowableStress>,
{
    /// The worksheet: what was asked and tried, then the forward check of the
    /// governing post at the answer.
    pub fn worksheet(&self, system: UnitSystem) -> Worksheet {
        let mut title = self.question.name().to_owned();
        if let Some(first) = title.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        if let Some(number) = self.post {
            title = format!("{title}, post {number}");
        }
        let mut sheet = Worksheet::new(title, system);
        self.write(&mut sheet);
        // The plan was checked when the answer was found.
        if let Ok(schedule) = self.plan.unchecked_schedule() {
            let forward = schedule.worksheet(&self.worst, system);
            sheet.sections.extend(forward.sections);
        }
        sheet.cautions = self.cautions();
        sheet
    }

    /// Writes what was asked and tried.
    pub fn write(&self, sheet: &mut Worksheet) {
        let measure = self.question.measure();
        let system = sheet.system;
        let tell = |value: Q| show_as(value, measure, system).to_string();
        sheet.section("Asked backwards");
        sheet.remark(self.varied());
        sheet.remark(format!(
            "The forward check was made {} times: about {} values over the range, then halving to \
             one step.",
            self.evaluations,
            self.search.trials().min(self.search.steps())
        ));
        sheet.remark(self.told(&tell));
        if let Some(milder) = self.milder_fails {
            sheet.remark(format!("A milder value fails: {}.", tell(milder)));
        }
        for stretch in &self.passes_again {
            sheet.remark(format!(
                "Beyond that it passes again from {} to {}, of the values tried; that is not counted \
                 on.",
                tell(stretch.from),
                tell(stretch.to)
            ));
        }
        if let Question::Hole(limit) = self.question {
            sheet.push(
                Step::given("dmax", "depth limit, to which every hole is dug", limit)
                    .shown_as(Measure::SectionLength),
            );
        }
        let given =
            |symbol, meaning, value: Q| Step::given(symbol, meaning, value).shown_as(measure);
        sheet.push(given("x0", "least value of the range", self.search.least()));
        sheet.push(given(
            "x1",
            "greatest value of the range",
            self.search.most(),
        ));
        sheet.push(given("dx", "step", self.search.step()));
        sheet.push(given("x", "value of the forward check below", self.at));
        sheet.push(Step::given_number(
            "u",
            "greatest utilization there, by the forward check below",
            self.utilization().ratio(),
        ));
        if let Some(minimum) = &self.minimum {
            sheet.push(
                Step::given("pmin", "minimum pressure of the code", minimum.pressure)
                    .shown_as(Measure::WindPressure),
            );
            sheet.push(given(
                "xm",
                "greatest value that passes without the minimum",
                minimum.value,
            ));
            sheet.push(Step::given_number(
                "um",
                "greatest utilization at that value without the minimum",
                minimum.worst.utilization().ratio(),
            ));
        }
        if let Some(next) = &self.next {
            let formula = match self.question.harsh() {
                Harsh::Greater => "min(x + dx, x1)",
                Harsh::Smaller => "max(x - dx, x0)",
            };
            let bound = match self.question.harsh() {
                Harsh::Greater => ("x1", self.search.most()),
                Harsh::Smaller => ("x0", self.search.least()),
            };
            sheet.push(
                Step::computed("xn", "the next step", formula, next.value)
                    .with_as("x", self.at, measure)
                    .with_as("dx", self.search.step(), measure)
                    .with_as(bound.0, bound.1, measure)
                    .shown_as(measure),
            );
            match &next.worst {
                Ok(post) => {
                    sheet.push(Step::given_number(
                        "un",
                        "greatest utilization there",
                        post.utilization().ratio(),
                    ));
                    sheet.remark(format!(
                        "At the next step post {} fails in {}.",
                        post.post.number,
                        post.governing()
                    ));
                }
                Err(error) => {
                    sheet.remark(format!(
                        "The next step cannot be built: {}.",
                        error.in_system(system)
                    ));
                }
            }
        }
    }

    /// What is varied and what stays.
    const fn varied(&self) -> &'static str {
        match self.question {
            Question::Speed => {
                "Varied: the basic wind speed, at strength level. Fence, holes and posts stay."
            }
            Question::WindPressure => {
                "Varied: the wind pressure as given. Fence, holes and posts stay."
            }
            Question::Spacing => {
                "Varied: the greatest spacing of posts; bays are equal and no longer. Depths stay."
            }
            Question::Height => {
                "Varied: the height of the top of every run. Gap below, weights and depths stay."
            }
            Question::Solidity => {
                "Varied: the solidity of the infill of every run. Weights and depths stay."
            }
            Question::Hole(_) => {
                "Varied: the diameter or side of every hole; all dug to the limit."
            }
        }
    }

    /// The answer in words.
    fn told(&self, tell: &impl Fn(Q) -> String) -> String {
        let post = self.worst.post.number;
        let governing = self.governing();
        match self.answer {
            Answer::Found(value) => format!(
                "Answer: {}. Post {post} governs, in {governing}; the next step does not pass.",
                tell(value)
            ),
            Answer::PassesThroughout(value) => format!(
                "Every value tried passes, to the last, {}; post {post} is used most, in \
                 {governing}.",
                tell(value)
            ),
            Answer::FailsAtMildest(value) => format!(
                "No answer. At the mildest value tried, {}, post {post} fails in {governing}.",
                tell(value)
            ),
            Answer::MinimumGoverns(value) => format!(
                "No answer with the minimum pressure of the code: at the mildest value tried, {}, \
                 post {post} fails in {governing}. Without the minimum the posts hold {}.",
                tell(self.at),
                tell(value)
            ),
            Answer::PostTooWeak(value) => format!(
                "No answer. At the mildest value tried, {}, a post itself is too weak whatever the \
                 depth of its hole; post {post} is worst, in {governing}.",
                tell(value)
            ),
        }
    }
}
