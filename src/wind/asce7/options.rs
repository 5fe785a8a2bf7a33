//! Choices where ASCE 7 is silent or sources disagree.

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

/// What Case B, the same total force at 0.2 B from the centre, means for a
/// row of posts. The standard gives the resultant and no distribution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum EccentricCase {
    /// A pressure varying linearly along the whole run, which has that
    /// resultant. On long runs it is heavier than Case C away from the ends.
    /// One reading, not an envelope of all. The default.
    #[default]
    Linear,
    /// The same, but only on walls too short for Case C (B/s up to 2), on the
    /// view that Case C is the standard's own distribution for longer ones.
    LinearOnShortWalls,
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

/// Choices where the standard is silent or sources disagree. The default of
/// each is the safe or heavier one.
///
/// ```
/// use groundline::wind::{EccentricCase, WallOptions};
/// let options = WallOptions::default().eccentric_case(EccentricCase::LinearOnShortWalls);
/// # let _ = options;
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WallOptions {
    pub(super) column_gap: ColumnGap,
    pub(super) short_return: ShortReturn,
    pub(super) resultant_height: ResultantHeight,
    pub(super) eccentric_case: EccentricCase,
    pub(super) hand_over: HandOver,
}

impl WallOptions {
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
    /// Case B.
    #[must_use]
    #[inline]
    pub const fn eccentric_case(self, eccentric_case: EccentricCase) -> Self {
        Self {
            eccentric_case,
            ..self
        }
    }
}
