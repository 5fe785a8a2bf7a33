//! The outline of a straight wall: what every wind code is asked about.

use super::infill::{Infill, LEAST_SOLIDITY, Member};
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within, size_within, within};
use crate::units::{Length, REL_TOL, ft};

/// What is at one end of a straight wall.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum WallEnd {
    /// Nothing: a free edge.
    Free,
    /// The wall turns a corner of about a right angle and runs on for this
    /// length.
    Return(Length),
}

/// Both ends of a straight wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallEnds {
    /// At position 0.
    pub start: WallEnd,
    /// At position B.
    pub end: WallEnd,
}

impl WallEnds {
    /// Free at both ends.
    pub const FREE: Self = Self {
        start: WallEnd::Free,
        end: WallEnd::Free,
    };

    /// The lengths of returns over a length, none for a free end.
    ///
    /// # Errors
    /// A return negative, not finite, or beyond 10⁹ times that length.
    #[inline]
    pub(super) fn returns_over(&self, unit: Length) -> Result<[Option<f64>; 2], Error> {
        let ratio = |end: WallEnd| match end {
            WallEnd::Free => Ok(None),
            WallEnd::Return(length) => {
                let ratio = length.value / unit.value;
                number_within("return length over height", ratio, 0.0, 1e9).map(Some)
            }
        };
        Ok([ratio(self.start)?, ratio(self.end)?])
    }
}

/// The outline of a straight wall: a run of fence, solid or open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallShape {
    length: Length,
    top: Length,
    clearance: Length,
    solidity: f64,
    densest: f64,
    sparsest: f64,
    /// Foot and top of the most solid part.
    dense_part: (Length, Length),
    /// Height of the middle of the solid area above the foot of the panel,
    /// over the panel's height.
    middle: f64,
    member: Member,
}

impl WallShape {
    /// A wall of straight length B, the height h of its top, the clear gap
    /// below it, and its solid over gross area in flat members.
    ///
    /// # Errors
    /// Length outside 0.25 to 300 000 ft, top outside 0.5 to 100 ft, clearance
    /// outside 0 to 0.95 of the top, solidity outside 0.01 to 1.
    #[inline]
    pub fn new(
        length: Length,
        top: Length,
        clearance: Length,
        solidity: f64,
    ) -> Result<Self, Error> {
        let top = within("fence height", top, ft(0.5), ft(100.0))?;
        let solidity = number_within("solidity", solidity, LEAST_SOLIDITY, 1.0)?;
        let clearance = size_within("clearance below", clearance, ft(0.0), top * 0.95)?;
        Ok(Self {
            length: within("wall length", length, ft(0.25), ft(300_000.0))?,
            top,
            clearance,
            solidity,
            densest: solidity,
            sparsest: solidity,
            dense_part: (clearance, top),
            middle: 0.5,
            member: Member::Flat,
        })
    }

    /// With another infill.
    #[must_use]
    pub fn with_infill(self, infill: &Infill) -> Self {
        Self {
            solidity: infill.solidity(),
            densest: infill.solidity(),
            sparsest: infill.solidity(),
            dense_part: (self.clearance, self.top),
            middle: 0.5,
            member: infill.member(),
            ..self
        }
    }

    /// With another infill in the uppermost part of the panel, a share of its
    /// height: a lattice top. Solidity is then that of the gross area. Of two
    /// infills only.
    ///
    /// # Errors
    /// Share outside 0 to 1; a panel that has parts of different solidity already,
    /// whose most solid part would not be known any more.
    pub fn with_topping(self, share: f64, infill: &Infill) -> Result<Self, Error> {
        let share = number_within("share of the height", share, 0.0, 1.0)?;
        if self.sparsest < self.densest {
            return Err(Error::NotApplicable {
                field: "share of the height",
                reason: "the panel has two infills already; a third is not known here",
            });
        }
        let (below, above) = (self.solidity * (1.0 - share), infill.solidity() * share);
        let solidity = below + above;
        let low = self.middle * (1.0 - share);
        let high = 1.0 - 0.5 * share;
        let (densest, sparsest, member) = if share <= 0.0 {
            (self.densest, self.sparsest, self.member)
        } else if share >= 1.0 {
            (infill.solidity(), infill.solidity(), infill.member())
        } else {
            (
                self.densest.max(infill.solidity()),
                self.sparsest.min(infill.solidity()),
                self.member.or(infill.member()),
            )
        };
        let joint = self.top - self.panel_height() * share;
        let one = share <= 0.0 || share >= 1.0;
        let dense_part = match infill.solidity().total_cmp(&self.densest) {
            _ if one => (self.clearance, self.top),
            core::cmp::Ordering::Greater => (joint, self.top),
            core::cmp::Ordering::Equal => (self.clearance, self.top),
            core::cmp::Ordering::Less => (self.clearance, joint),
        };
        Ok(Self {
            solidity,
            densest,
            sparsest,
            dense_part,
            middle: (below * low + above * high) / solidity,
            member,
            ..self
        })
    }

    /// B.
    #[inline]
    pub const fn length(&self) -> Length {
        self.length
    }
    /// h.
    #[inline]
    pub const fn top(&self) -> Length {
        self.top
    }
    /// The gap below.
    #[inline]
    pub const fn clearance(&self) -> Length {
        self.clearance
    }
    /// s = h − clearance.
    #[inline]
    pub fn panel_height(&self) -> Length {
        self.top - self.clearance
    }
    /// ε, solid over gross area.
    #[inline]
    pub const fn solidity(&self) -> f64 {
        self.solidity
    }
    /// ε of its most solid part.
    #[inline]
    pub const fn densest(&self) -> f64 {
        self.densest
    }
    /// Foot and top of its most solid part.
    #[inline]
    pub const fn dense_part(&self) -> (Length, Length) {
        self.dense_part
    }
    /// s/h of its most solid part.
    #[inline]
    pub(super) fn dense_s_over_h(&self) -> f64 {
        let (foot, top) = self.dense_part;
        (top - foot).value / top.value
    }
    /// B/s of its most solid part.
    #[inline]
    pub(super) fn dense_b_over_s(&self) -> f64 {
        let (foot, top) = self.dense_part;
        self.length.value / (top - foot).value
    }
    /// ε of its least solid part.
    #[inline]
    pub const fn sparsest(&self) -> f64 {
        self.sparsest
    }
    /// The cautions of its openings, where a code takes them into account.
    pub(super) fn cautions(&self) -> Cautions {
        let open = self.densest < 1.0 - REL_TOL;
        Cautions::default()
            .with_if(open, Caution::OpenFence)
            .with_if(self.solidity < 0.7, Caution::PostsInTheWind)
    }
    /// The shape of its members.
    #[inline]
    pub const fn member(&self) -> Member {
        self.member
    }
    /// s/h.
    #[inline]
    pub fn s_over_h(&self) -> f64 {
        self.panel_height().value / self.top.value
    }
    /// B/s.
    #[inline]
    pub fn b_over_s(&self) -> f64 {
        self.length.value / self.panel_height().value
    }
    /// Mid-height of the panel above ground.
    #[inline]
    pub fn mid_height(&self) -> Length {
        self.clearance + self.panel_height() * 0.5
    }
    /// Height above ground of the middle of its solid area, never below
    /// mid-height.
    #[inline]
    pub fn solid_height(&self) -> Length {
        self.clearance + self.panel_height() * self.middle.max(0.5)
    }
}
