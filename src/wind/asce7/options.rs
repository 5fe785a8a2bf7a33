//! Choices where ASCE 7 is silent or sources disagree.

use crate::error::{Error, number_within};
use crate::units::at_most;

/// Between B/s = 10 and 13 the printed tables have no column in common and
/// sources disagree on what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum ColumnGap {
    /// Interpolate region by region; the 3s–10s value of column 10 stands for
    /// its finer regions. The default.
    #[default]
    Interpolate,
    /// Refuse such a wall. A fence is refused with any wall it may make,
    /// gates open too.
    Refuse,
}

/// The return-corner factor for a return shorter than 0.3 s, below the first
/// row of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum ShortReturn {
    /// No reduction. The largest load and the default.
    #[default]
    NoReduction,
    /// From 1.0 at no return straight to 0.90 at 0.3 s.
    Interpolate,
    /// The 0.90 of the first row.
    FirstRow,
}

/// How high the resultant stands. The figure puts it 0.05 h above mid-height
/// for a wall on the ground (s/h = 1) and at mid-height otherwise, so that an
/// inch of gap below the boards would lower the moment by 9 %.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum ResultantHeight {
    /// At mid-height of the solid part but never below 0.55 h. The default.
    #[default]
    NeverBelowGrounded,
    /// 0.55 h for s/h = 1 exactly, else mid-height, as printed.
    AsPrinted,
}

/// How Case B reaches the posts. The figure gives the force of Case A at 0.2 B from the
/// centre and no distribution of it.
///
/// Where Case B is spread it is spread linearly along the run. That is one reading, not
/// an envelope: a block over 0.6 B has the same resultant and brings 1.67 p at the middle
/// of the run where the line brings 1.0 p. On long runs it also undoes what a return
/// corner takes off the first strip of Case C, which is the standard's own distribution
/// there. So the default spreads it on short runs alone.
///
/// Source: the readings are ours (derived); references.md, `asce7/wall-case-b`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum EccentricCase {
    /// Spread linearly on short runs, Cases A and C on longer ones. Short is B/s up to 5,
    /// the ratio to which AS/NZS 1170.2 Table B.2(B) keeps its off-centre load, or a
    /// ratio of your own ([`WallOptions::short_runs_up_to`]). The default.
    #[default]
    ShortRuns,
    /// Spread linearly on every run, however long.
    EveryRun,
    /// Torsion of one common base (a wall on a strip footing): not shared to posts.
    OneBase,
}

impl EccentricCase {
    /// Every reading.
    pub const ALL: [Self; 3] = [Self::ShortRuns, Self::EveryRun, Self::OneBase];

    /// Returns its name.
    #[inline]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ShortRuns => "short runs",
            Self::EveryRun => "every run",
            Self::OneBase => "one base",
        }
    }
}

/// How the minimum design pressure (16 psf) is applied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum MinimumCase {
    /// A load case of its own: uniform over the wall, so a post carries it over its
    /// tributary area. Neither the eccentricity of Case B nor the strips of Case C
    /// enlarge it. The default, and what the clause says.
    #[default]
    OwnCase,
    /// A floor under every strip of every case: the heavier reading, up to 14.7 % on a
    /// post.
    EveryStrip,
}

/// What happens where the figure of solid walls hands over to that of open
/// signs, at openings of 30 %.
///
/// On the middle of a long fence on the ground the step is small (on gross area
/// 1.086 above, 1.12 below); at a free end it is not: Case C, up to 2.87 there
/// (4.30 × 0.80, openings 0.836), ends with the wall figure. A solidity taken off
/// a drawing is not known to a few hundredths, and leaves, vines, slats or ice
/// close openings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum HandOver {
    /// From 65 % (a limit of ours) to 70 % solid, both ends included, both
    /// figures are computed and the worse counts. The default.
    #[default]
    Guarded,
    /// As printed: the wall figure from 70 % on, the open figure below. (Of a
    /// panel of two infills, one of them 70 % solid, both, if its gross
    /// solidity is below.)
    AsPrinted,
}

impl HandOver {
    /// The solidity from which the wall figure is used.
    #[inline]
    pub const fn wall_from(self) -> f64 {
        match self {
            Self::Guarded => 0.65,
            Self::AsPrinted => 0.70,
        }
    }
}

/// Choices where the standard is silent or sources disagree.
///
/// ```
/// use groundline::wind::{EccentricCase, MinimumCase, WallOptions};
/// let options = WallOptions::default()
///     .eccentric_case(EccentricCase::EveryRun)
///     .minimum_case(MinimumCase::EveryStrip);
/// # let _ = options;
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallOptions {
    pub(super) column_gap: ColumnGap,
    pub(super) short_return: ShortReturn,
    pub(super) resultant_height: ResultantHeight,
    pub(super) eccentric_case: EccentricCase,
    /// B/s of the longest short run.
    short_run: f64,
    pub(super) hand_over: HandOver,
    pub(super) minimum_case: MinimumCase,
}

impl Default for WallOptions {
    #[inline]
    fn default() -> Self {
        Self {
            column_gap: ColumnGap::default(),
            short_return: ShortReturn::default(),
            resultant_height: ResultantHeight::default(),
            eccentric_case: EccentricCase::default(),
            short_run: 5.0,
            hand_over: HandOver::default(),
            minimum_case: MinimumCase::default(),
        }
    }
}

impl WallOptions {
    /// Sets the B/s (length of the run over height of the panel) up to which a run counts
    /// as short for Case B ([`EccentricCase::ShortRuns`]); 2 leaves Case B to walls too
    /// short for Case C.
    ///
    /// # Errors
    /// Ratio outside 2 to 1 000.
    ///
    /// ```
    /// use groundline::wind::WallOptions;
    /// let options = WallOptions::default().short_runs_up_to(2.0)?;
    /// assert_eq!(options.short_run(), 2.0);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[inline]
    pub fn short_runs_up_to(self, b_over_s: f64) -> Result<Self, Error> {
        let short_run = number_within("B/s of short runs", b_over_s, 2.0, 1_000.0)?;
        Ok(Self { short_run, ..self })
    }
    /// Returns the B/s up to which a run counts as short for Case B.
    #[inline]
    pub const fn short_run(&self) -> f64 {
        self.short_run
    }
    /// Returns the reading of Case B.
    #[inline]
    pub const fn case_b(&self) -> EccentricCase {
        self.eccentric_case
    }
    /// Returns where Case B is spread, in words: "runs up to 5 times as long as high".
    pub fn case_b_text(&self) -> String {
        match self.eccentric_case {
            EccentricCase::ShortRuns => {
                format!("runs up to {} times as long as high", self.short_run)
            }
            EccentricCase::EveryRun => "every run, the heavier reading".to_owned(),
            EccentricCase::OneBase => "no run: torsion of one base".to_owned(),
        }
    }
    /// Returns how the minimum design pressure is applied.
    #[inline]
    pub const fn minimum(&self) -> MinimumCase {
        self.minimum_case
    }
    /// Returns whether Case B is spread on a run of this B/s.
    #[inline]
    pub(super) fn spreads_case_b(&self, b_over_s: f64) -> bool {
        match self.eccentric_case {
            EccentricCase::ShortRuns => at_most(b_over_s, self.short_run),
            EccentricCase::EveryRun => true,
            EccentricCase::OneBase => false,
        }
    }
    /// Walls with B/s between 10 and 13.
    #[must_use]
    #[inline]
    pub const fn column_gap(self, column_gap: ColumnGap) -> Self {
        Self { column_gap, ..self }
    }
    /// Returns shorter than 0.3 s.
    #[must_use]
    #[inline]
    pub const fn short_return(self, short_return: ShortReturn) -> Self {
        Self {
            short_return,
            ..self
        }
    }
    /// Height of the resultant.
    #[must_use]
    #[inline]
    pub const fn resultant_height(self, resultant_height: ResultantHeight) -> Self {
        Self {
            resultant_height,
            ..self
        }
    }
    /// From solid walls to open fences.
    #[must_use]
    #[inline]
    pub const fn hand_over(self, hand_over: HandOver) -> Self {
        Self { hand_over, ..self }
    }
    /// Sets how the minimum design pressure is applied.
    #[must_use]
    #[inline]
    pub const fn minimum_case(self, minimum_case: MinimumCase) -> Self {
        Self {
            minimum_case,
            ..self
        }
    }
    /// Sets how Case B reaches the posts.
    #[must_use]
    #[inline]
    pub const fn eccentric_case(self, eccentric_case: EccentricCase) -> Self {
        Self {
            eccentric_case,
            ..self
        }
    }
}
