//! What one post is loaded by: wind at the limit state of its code and dead
//! load, case by case.

use super::{DeadEffects, GroundlineActions};
use crate::caution::Caution;
use crate::combination::{Combination, Combined, CombinesTo};
use crate::error::Error;
use crate::limit_state::{LimitState, Strength};
use crate::source::Mark;
use crate::step::{Step, Worksheet};
use crate::wind::WindCase;

/// What makes a load case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum LoadCaseKind {
    /// Wind across one run, every gate shut.
    AcrossRun,
    /// Wind across both runs of a corner at once, as vectors.
    BothRuns,
    /// Wind across one run with a gate of it open; a leaf on this post hangs
    /// to the lee side.
    GateOpenAcross,
    /// Wind along the run onto the open leaf alone.
    GateOpenAlong,
    /// Every run of the post, with a gate open, and its open leaf if it has
    /// one, at once as vectors.
    GateOpenTogether,
}

impl LoadCaseKind {
    /// What it is, in a few words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AcrossRun => "across the run",
            Self::BothRuns => "on both runs",
            Self::GateOpenAcross => "across, gate open",
            Self::GateOpenAlong => "on the open leaf",
            Self::GateOpenTogether => "all at once, gate open",
        }
    }
}

/// One load case of a post: wind at the limit state of its code and nominal
/// dead load at grade.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct LoadCase<L: LimitState = Strength> {
    /// What makes it.
    pub kind: LoadCaseKind,
    /// The run the wind blows across, or whose gate it blows on; of winds that
    /// act at once, that of the greatest.
    pub run: usize,
    /// Which of the walls of that run, see [`super::RunWind::walls`]; 0 where
    /// the wind is on a leaf.
    pub wall: usize,
    /// The governing case of the wind figure, for that wall or leaf.
    pub wind_case: WindCase,
    /// Wind.
    pub wind: GroundlineActions<L>,
    /// Dead load.
    pub dead: DeadEffects,
}

impl<L: LimitState> LoadCase<L> {
    /// For a post that stands outside any fence.
    pub const fn new(wind: GroundlineActions<L>, dead: DeadEffects) -> Self {
        Self {
            kind: LoadCaseKind::AcrossRun,
            run: 0,
            wall: 0,
            wind_case: WindCase::Uniform,
            wind,
            dead,
        }
    }
}

impl<L: LimitState> LoadCase<L> {
    /// May the moment at grade have any direction, not only square to a face
    /// of the post?
    pub fn is_skew(&self) -> bool {
        matches!(
            self.kind,
            LoadCaseKind::BothRuns | LoadCaseKind::GateOpenTogether
        ) || self.dead.across.value > 0.0
    }
}

/// The load cases of one post, at most eight, kept without allocation: at a
/// corner with gates in both runs, across each run and on both, gates shut; across
/// each and on each open leaf, and all at once, gates open. Reads as a slice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadCases<L: LimitState = Strength>(Held<L>);

/// Most posts have one case, and writing eight costs more than finding it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(clippy::large_enum_variant, reason = "no allocation in a check")]
enum Held<L: LimitState> {
    One([LoadCase<L>; 1]),
    UpToEight([LoadCase<L>; 8], usize),
}

impl<L: LimitState> LoadCases<L> {
    #[inline]
    pub(super) fn one(case: LoadCase<L>) -> Self {
        Self(Held::One([case]))
    }

    pub(super) fn empty(level: L) -> Self {
        let nothing = GroundlineActions::nothing(level);
        Self(Held::UpToEight(
            [LoadCase::new(nothing, DeadEffects::NONE); 8],
            0,
        ))
    }

    pub(super) fn push(&mut self, case: LoadCase<L>) {
        if let Held::UpToEight(cases, count) = &mut self.0
            && let Some(slot) = cases.get_mut(*count)
        {
            *slot = case;
            *count += 1;
        }
    }
}

impl<L: LimitState> LoadCases<L> {
    /// The same cases with the wind multiplied by a factor; the dead load stays.
    pub(crate) fn with_wind_times(&self, factor: f64) -> Result<Self, Error> {
        let mut scaled = *self;
        let cases = match &mut scaled.0 {
            Held::One(case) => case.as_mut_slice(),
            Held::UpToEight(cases, count) => cases.get_mut(..*count).unwrap_or(&mut []),
        };
        for case in cases {
            let wind = case.wind;
            case.wind = GroundlineActions::new(
                wind.shear() * factor,
                wind.moment() * factor,
                wind.axial(),
                wind.level(),
            )?;
        }
        Ok(scaled)
    }
}

impl<L: LimitState> core::ops::Deref for LoadCases<L> {
    type Target = [LoadCase<L>];

    #[inline]
    fn deref(&self) -> &[LoadCase<L>] {
        match &self.0 {
            Held::One(case) => case,
            Held::UpToEight(cases, count) => cases.get(..*count).unwrap_or(&[]),
        }
    }
}

impl<L: LimitState> LoadCase<L> {
    /// Writes its combination with dead load that loads.
    pub fn write_combined<To: Combined>(&self, combination: &Combination<To>, sheet: &mut Worksheet)
    where
        L: CombinesTo<To>,
    {
        let actions = self.wind.combined(&self.dead, combination);
        let set = self.wind.level().resolve(combination);
        sheet.section("At the ground line, combined with dead load");
        sheet.remark(format!("{}.", set.level().name()));
        sheet.cautions = sheet
            .cautions
            .with_if(set.source().mark == Mark::FromMemory, Caution::FromMemory)
            .with_if(set.source().mark == Mark::Given, Caution::OwnFactors);
        sheet.push(Step::given_number("fw", "factor on wind", set.wind()).cite(set.source()));
        sheet.push(
            Step::computed("P", "shear at grade", "fw*Vw", actions.shear())
                .with_number("fw", set.wind())
                .with("Vw", self.wind.shear()),
        );
        let (in_line, across) = (self.dead.in_line(), self.dead.across());
        let leaf = across.value > 0.0 || in_line.value > 0.0;
        let weighed = actions.axial() != self.dead.axial();
        if leaf || weighed {
            sheet.push(
                Step::given_number("fd", "factor on dead load", set.dead()).cite(set.source()),
            );
        }
        let axial = self.wind.axial();
        if weighed && axial.value == 0.0 {
            sheet.push(
                Step::computed("Nd", "factored weight at grade", "fd*N", actions.axial())
                    .with_number("fd", set.dead())
                    .with("N", self.dead.axial())
                    .cite(set.source()),
            );
        } else if weighed {
            sheet.push(Step::given(
                "Nw",
                "axial force stated with the wind, without a factor",
                axial,
            ));
            sheet.push(
                Step::computed(
                    "Nd",
                    "factored weight at grade, and the axial force of the wind",
                    "fd*N + Nw",
                    actions.axial(),
                )
                .with_number("fd", set.dead())
                .with("N", self.dead.axial())
                .with("Nw", axial)
                .cite(set.source()),
            );
        }
        let step = if leaf {
            Step::computed(
                "M",
                "moment at grade, with the weight of the gate in line and across",
                // The weight adds to the wind, and the result keeps its sign.
                if self.wind.moment().value.is_sign_negative() {
                    "-sqrt((fw*Mw - fd*Mi)^2 + (fd*Mx)^2)"
                } else {
                    "sqrt((fw*Mw + fd*Mi)^2 + (fd*Mx)^2)"
                },
                actions.moment(),
            )
            .with("Mi", in_line)
            .with("Mx", across)
            .with_number("fd", set.dead())
        } else {
            Step::computed("M", "moment at grade", "fw*Mw", actions.moment())
        };
        sheet.push(
            step.with_number("fw", set.wind())
                .with("Mw", self.wind.moment()),
        );
    }
}
