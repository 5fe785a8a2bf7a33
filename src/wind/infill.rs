//! What fills a panel, and how solid that makes it.
//!
//! Solidity ε = solid over gross area, seen square to the fence. Of members of
//! width w at pitch t, running one way, ε = w/t; on both sides of the rails in
//! turn, ε = 2 w/t, at most 1; woven or crossing both ways,
//! ε = 1 − (1 − w/t)². What covers a share f of the openings evenly (slats,
//! fabric, rails) makes it 1 − (1 − ε)(1 − f). Geometry, derived.
//!
//! Wind codes want more than ε: a round wire drags less than a flat board, and
//! how much less depends on its size. So an infill keeps its members.

use crate::error::{Error, number_within, size_within};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Length, Measure, ft, inch, mm};

/// The shape of the members across the wind.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Member {
    /// Flat-sided: boards, pickets, angles, square tube; also anything unknown.
    Flat,
    /// Round, of a diameter: wire, pipe.
    Round(Length),
}

/// What fills a panel.
///
/// Solidity ε, solid over gross area seen square to the fence, of members of width
/// w at pitch t: w/t one way; 2 w/t, at most 1, on both sides of the rails in turn;
/// 1 − (1 − w/t)² both ways; with a share f of the openings covered,
/// 1 − (1 − ε)(1 − f). Geometry.
///
/// ```
/// use groundline::{units::{inch, Measurable}, wind::Infill};
/// // Pickets of 3-1/2 in with 2 in gaps.
/// let pickets = Infill::pickets(inch(3.5), inch(2.0))?;
/// assert!((pickets.solidity() - 3.5 / 5.5).abs() < 1e-12);
/// // Chain link: wire 0.148 in, openings 2 in between wires.
/// let mesh = Infill::woven_mesh(inch(0.148), inch(2.0))?;
/// assert!((mesh.solidity() - 0.133).abs() < 0.0005);
/// assert!(mesh.covered(0.75)?.solidity() > 0.78);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Infill {
    pattern: Pattern,
    round: bool,
    /// What is left open by slats, fabric, rails.
    left_open: f64,
}

/// How the members lie.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Pattern {
    /// ε given outright; a diameter if round.
    Given(f64, Length),
    /// One way: width, pitch.
    OneWay(Length, Length),
    /// One way, twice a pitch, the second before the gap of the first: width,
    /// pitch.
    BothSides(Length, Length),
    /// Both ways: width, pitch.
    TwoWay(Length, Length),
}

/// The least solidity taken. Below it a panel is hardly there.
pub(super) const LEAST_SOLIDITY: f64 = 0.01;

fn width(field: &'static str, value: Length) -> Result<Length, Error> {
    size_within(field, value, mm(0.1), ft(10.0))
}

fn gap(field: &'static str, value: Length) -> Result<Length, Error> {
    size_within(field, value, inch(0.0), ft(10.0))
}

impl Infill {
    /// No openings.
    pub const TIGHT: Self = Self {
        pattern: Pattern::Given(
            1.0,
            Length {
                dimension: core::marker::PhantomData,
                units: core::marker::PhantomData,
                value: 0.0,
            },
        ),
        round: false,
        left_open: 1.0,
    };

    /// A solidity known otherwise.
    ///
    /// # Errors
    /// Solidity outside 0.01 to 1; a round member outside 0.1 mm to 10 ft.
    pub fn given(solidity: f64, member: Member) -> Result<Self, Error> {
        let solidity = number_within("solidity", solidity, LEAST_SOLIDITY, 1.0)?;
        let (diameter, round) = match member {
            Member::Flat => (inch(0.0), false),
            Member::Round(diameter) => (width("member diameter", diameter)?, true),
        };
        Ok(Self {
            pattern: Pattern::Given(solidity, diameter),
            round,
            left_open: 1.0,
        })
    }

    fn checked(self) -> Result<Self, Error> {
        number_within("solidity", self.solidity(), LEAST_SOLIDITY, 1.0)?;
        Ok(self)
    }

    /// Pickets, boards, slats or louvres that run one way: their width and
    /// the clear gap between them.
    ///
    /// # Errors
    /// Width outside 0.1 mm to 10 ft, gap outside 0 to 10 ft, or a solidity
    /// below 0.01.
    pub fn pickets(board: Length, clear: Length) -> Result<Self, Error> {
        let board = width("picket width", board)?;
        let clear = gap("gap between pickets", clear)?;
        Self {
            pattern: Pattern::OneWay(board, board + clear),
            round: false,
            left_open: 1.0,
        }
        .checked()
    }

    /// Round bars or palings that run one way: diameter and clear gap.
    ///
    /// # Errors
    /// As [`Infill::pickets`].
    pub fn round_bars(diameter: Length, clear: Length) -> Result<Self, Error> {
        Ok(Self {
            round: true,
            ..Self::pickets(diameter, clear)?
        })
    }

    /// Boards on both sides of the rails, those of one side before the gaps of
    /// the other: width, and the clear gap between boards of one side.
    ///
    /// Seen square on, boards as wide as the gaps close them: solid. Air does
    /// pass sideways, and no credit is taken for it.
    ///
    /// # Errors
    /// As [`Infill::pickets`].
    ///
    /// ```
    /// use groundline::{units::inch, wind::Infill};
    /// assert_eq!(Infill::boards_on_both_sides(inch(5.5), inch(3.5))?.solidity(), 1.0);
    /// assert_eq!(Infill::boards_on_both_sides(inch(2.0), inch(6.0))?.solidity(), 0.5);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn boards_on_both_sides(board: Length, clear: Length) -> Result<Self, Error> {
        let board = width("board width", board)?;
        let clear = gap("gap between boards", clear)?;
        Self {
            pattern: Pattern::BothSides(board, board + clear),
            round: false,
            left_open: 1.0,
        }
        .checked()
    }

    /// Flat strips crossing both ways, as in a lattice top: width of a strip
    /// and the clear opening between strips.
    ///
    /// # Errors
    /// As [`Infill::pickets`].
    pub fn lattice(strip: Length, opening: Length) -> Result<Self, Error> {
        let strip = width("lattice strip", strip)?;
        let opening = gap("lattice opening", opening)?;
        Self {
            pattern: Pattern::TwoWay(strip, strip + opening),
            round: false,
            left_open: 1.0,
        }
        .checked()
    }

    /// Woven or welded mesh of round wire: diameter and the clear opening
    /// between parallel wires. Chain link is named by that opening.
    ///
    /// # Errors
    /// As [`Infill::pickets`].
    pub fn woven_mesh(wire: Length, opening: Length) -> Result<Self, Error> {
        let wire = width("wire diameter", wire)?;
        let opening = gap("mesh opening", opening)?;
        Self {
            pattern: Pattern::TwoWay(wire, wire + opening),
            round: true,
            left_open: 1.0,
        }
        .checked()
    }

    /// With ice of a thickness all round each member: members grow by twice
    /// that, their pitch stays. Ice counts as round on round members only.
    /// A share covered by slats or fabric stays a share of what is open. Nothing
    /// changes where nothing is open.
    ///
    /// # Errors
    /// Thickness outside 0 to 1 ft; an infill given by a solidity below 1, whose
    /// openings are not known.
    ///
    /// ```
    /// use groundline::{units::{inch, Measurable}, wind::Infill};
    /// let mesh = Infill::woven_mesh(inch(0.15), inch(2.0))?;
    /// assert!(mesh.with_ice(inch(0.5))?.solidity() > 0.7);
    /// assert_eq!(mesh.with_ice(inch(1.0))?.solidity(), 1.0);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn with_ice(self, thickness: Length) -> Result<Self, Error> {
        let thickness = size_within("ice thickness", thickness, inch(0.0), ft(1.0))?;
        let grown = |member: Length, pitch: Length| (member + thickness * 2.0).min(pitch);
        let pattern = match self.pattern {
            Pattern::OneWay(member, pitch) => Pattern::OneWay(grown(member, pitch), pitch),
            Pattern::BothSides(member, pitch) => Pattern::BothSides(grown(member, pitch), pitch),
            Pattern::TwoWay(member, pitch) => Pattern::TwoWay(grown(member, pitch), pitch),
            solid @ Pattern::Given(..) if self.solidity() >= 1.0 => solid,
            Pattern::Given(..) => {
                return Err(Error::NotApplicable {
                    field: "ice thickness",
                    reason: "the openings are not known from a solidity; give members and gaps",
                });
            }
        };
        Ok(Self { pattern, ..self })
    }

    /// With something that covers this share of the openings: slats in chain
    /// link, a windscreen (its own closed share), banners, rails and posts,
    /// leaves. Flat from then on.
    ///
    /// # Errors
    /// Share outside 0 to 1.
    pub fn covered(self, share: f64) -> Result<Self, Error> {
        let share = number_within("covered share", share, 0.0, 1.0)?;
        Ok(Self {
            left_open: self.left_open * (1.0 - share),
            round: self.round && share == 0.0,
            ..self
        })
    }

    /// ε, solid over gross area.
    pub fn solidity(&self) -> f64 {
        let open = |member: Length, pitch: Length| (1.0 - member.value / pitch.value).max(0.0);
        let bare = match self.pattern {
            Pattern::Given(solidity, _) => 1.0 - solidity,
            Pattern::OneWay(member, pitch) => open(member, pitch),
            Pattern::BothSides(member, pitch) => open(member * 2.0, pitch),
            Pattern::TwoWay(member, pitch) => {
                let one = open(member, pitch);
                one * one
            }
        };
        1.0 - bare * self.left_open
    }

    /// The solidity, if it was given as such and nothing covers it further.
    pub fn given_solidity(&self) -> Option<f64> {
        match self.pattern {
            Pattern::Given(solidity, _) if self.left_open >= 1.0 => Some(solidity),
            _ => None,
        }
    }

    /// The shape of its members.
    pub fn member(&self) -> Member {
        match self.pattern {
            _ if !self.round => Member::Flat,
            Pattern::Given(_, diameter)
            | Pattern::OneWay(diameter, _)
            | Pattern::BothSides(diameter, _)
            | Pattern::TwoWay(diameter, _) => Member::Round(diameter),
        }
    }
}

impl Infill {
    /// Writes how its solidity comes about, as `eps`.
    pub fn write(&self, sheet: &mut Worksheet) {
        let step = Step::computed_number(
            "eps",
            "solidity: solid over gross area",
            "",
            self.solidity(),
        );
        let (bare, step) = match self.pattern {
            Pattern::Given(solidity, _) => ("(1 - e0)", step.with_number("e0", solidity)),
            Pattern::OneWay(member, pitch) => (
                "max(1 - w/t, 0)",
                step.with_as("w", member, Measure::SectionLength).with_as(
                    "t",
                    pitch,
                    Measure::SectionLength,
                ),
            ),
            Pattern::BothSides(member, pitch) => (
                "max(1 - 2*w/t, 0)",
                step.with_as("w", member, Measure::SectionLength).with_as(
                    "t",
                    pitch,
                    Measure::SectionLength,
                ),
            ),
            Pattern::TwoWay(member, pitch) => (
                "(1 - w/t)^2",
                step.with_as("w", member, Measure::SectionLength).with_as(
                    "t",
                    pitch,
                    Measure::SectionLength,
                ),
            ),
        };
        let mut step = step;
        step.formula = if self.left_open < 1.0 {
            step = step.with_number("f", 1.0 - self.left_open);
            format!("1 - {bare}*(1 - f)").into()
        } else {
            format!("1 - {bare}").into()
        };
        sheet.push(step.cite(&source::GEOMETRY));
    }
}

impl Member {
    /// Of two kinds in one panel the one that drags more: flat before round,
    /// thin before thick.
    #[must_use]
    pub(crate) fn or(self, other: Self) -> Self {
        match (self, other) {
            (Self::Round(a), Self::Round(b)) => Self::Round(a.min(b)),
            _ => Self::Flat,
        }
    }
}
