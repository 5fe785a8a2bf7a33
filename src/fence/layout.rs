//! From runs to posts: where each post stands, what it carries, and what hangs
//! on it.

use super::run::{FenceRun, Hinges, Panel};
use crate::error::{Error, within};
use crate::units::{
    Angle, Force, LENGTH_TOL, Length, REL_TOL, at_least, at_most, deg, ft, not_longer, not_shorter,
    same_length,
};
use crate::wind::{HalfBays, WallEnd, WallEnds};

/// What a post is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum PostKind {
    /// The free end of the fence.
    End,
    /// Between two bays.
    Line,
    /// Where the fence turns.
    Corner,
    /// Beside a gate; a gate post at an end or corner counts as this.
    Gate,
}

impl PostKind {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::End => "end",
            Self::Line => "line",
            Self::Corner => "corner",
            Self::Gate => "gate",
        }
    }
}

impl core::fmt::Display for PostKind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.name())
    }
}

/// The part of one run that a post carries.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Arm {
    /// Index of the run.
    pub run: usize,
    /// Position of the post along it.
    pub at: Length,
    /// Tributary strip, from; every gate shut.
    pub from: Length,
    /// Tributary strip, to; every gate shut.
    pub to: Length,
    /// Strip whose panels it carries, from: without the leaves of gates.
    pub open_from: Length,
    /// Strip whose panels it carries, to.
    pub open_to: Length,
}

impl Arm {
    /// Tributary width with every gate shut.
    pub fn width(&self) -> Length {
        self.to - self.from
    }

    /// Returns its half bays with every gate shut, as positions along the run.
    #[inline]
    pub const fn half_bays(&self) -> HalfBays {
        HalfBays {
            from: self.from,
            post: self.at,
            to: self.to,
        }
    }
}

/// A gate leaf that hangs on a post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct HungLeaf {
    /// Index of the run it closes.
    pub run: usize,
    /// Its width.
    pub width: Length,
    /// Its weight, half its width from the post.
    pub weight: Force,
}

/// One post of a fence.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct FencePost {
    /// Its number, from 1.
    pub number: usize,
    /// What it is.
    pub kind: PostKind,
    /// The run it stands in, or ends; at a corner also the one that begins.
    pub arms: [Option<Arm>; 2],
    /// The gate leaves that hang on it.
    pub leaves: [Option<HungLeaf>; 2],
}

impl FencePost {
    /// The parts of runs it carries: one, at a corner two.
    pub fn arms(&self) -> impl Iterator<Item = &Arm> {
        self.arms.iter().flatten()
    }

    /// The leaves that hang on it.
    pub fn leaves(&self) -> impl Iterator<Item = &HungLeaf> {
        self.leaves.iter().flatten()
    }

    fn hang(&mut self, leaf: HungLeaf) {
        let slot = usize::from(self.leaves[0].is_some());
        self.leaves[slot] = Some(leaf);
    }
}

/// A fence: straight runs that follow one another, each turning from the last.
///
/// ```
/// use groundline::{fence::*, units::{deg, ft, lb}};
/// let panel = Panel::new(ft(6.0))?;
/// let front = FenceRun::new(panel, ft(40.0), ft(8.0))?
///     .with_gate(Gate::new(ft(16.0), ft(4.0), lb(90.0), Hinges::AtStart)?)?;
/// let side = FenceRun::new(panel, ft(30.0), ft(8.0))?;
/// let fence = Fence::new(front).turning(deg(90.0), side)?;
/// let kinds: Vec<_> = fence.posts().iter().map(|post| post.kind.name()).collect();
/// assert_eq!(kinds, ["end", "line", "gate", "gate", "line", "line", "corner",
///                    "line", "line", "line", "end"]);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Fence {
    runs: Vec<FenceRun>,
    turns: Vec<Angle>,
    posts: Vec<FencePost>,
}

impl Fence {
    /// A fence of one run, free at both ends.
    pub fn new(run: FenceRun) -> Self {
        let runs = vec![run];
        let posts = lay_out(&runs);
        Self {
            runs,
            turns: Vec::new(),
            posts,
        }
    }

    /// With one more run that turns from the last by an angle (0° would go
    /// straight on). Which way it turns makes no difference here.
    ///
    /// # Errors
    /// Turn outside 1° to 170°.
    pub fn turning(mut self, turn: Angle, run: FenceRun) -> Result<Self, Error> {
        let turn = within("turn", turn, deg(1.0), deg(170.0))?;
        self.turns.push(turn);
        self.runs.push(run);
        self.posts = lay_out(&self.runs);
        Ok(self)
    }

    /// A first run and others, each with the angle by which it turns from the
    /// one before.
    ///
    /// # Errors
    /// Turn outside 1° to 170°.
    ///
    /// ```
    /// use groundline::{fence::*, units::{deg, ft}};
    /// let run = FenceRun::new(Panel::new(ft(6.0))?, ft(24.0), ft(8.0))?;
    /// let fence = Fence::of_runs(run.clone(), vec![(deg(90.0), run.clone()), (deg(45.0), run)])?;
    /// assert_eq!(fence.posts().len(), 10);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn of_runs(first: FenceRun, others: Vec<(Angle, FenceRun)>) -> Result<Self, Error> {
        let mut runs = vec![first];
        let mut turns = Vec::with_capacity(others.len());
        for (turn, run) in others {
            turns.push(within("turn", turn, deg(1.0), deg(170.0))?);
            runs.push(run);
        }
        let posts = lay_out(&runs);
        Ok(Self { runs, turns, posts })
    }

    /// The same path with each run changed; its posts are laid out anew.
    ///
    /// ```
    /// use groundline::{fence::*, units::ft};
    /// let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
    /// let closer = fence.changing_runs(|run| run.with_spacing(ft(6.0)))?;
    /// assert_eq!((fence.posts().len(), closer.posts().len()), (13, 17));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    ///
    /// # Errors
    /// Those of the change.
    pub fn changing_runs(
        &self,
        change: impl FnMut(FenceRun) -> Result<FenceRun, Error>,
    ) -> Result<Self, Error> {
        let runs: Vec<_> = self
            .runs
            .iter()
            .cloned()
            .map(change)
            .collect::<Result<_, Error>>()?;
        let posts = lay_out(&runs);
        Ok(Self {
            runs,
            turns: self.turns.clone(),
            posts,
        })
    }

    /// The runs.
    pub fn runs(&self) -> &[FenceRun] {
        &self.runs
    }

    /// The posts, along the path.
    pub fn posts(&self) -> &[FencePost] {
        &self.posts
    }

    /// The turn between a run and the next.
    pub fn turn_after(&self, run: usize) -> Option<Angle> {
        self.turns.get(run).copied()
    }

    /// The runs that go on from one another with turns below 60° (a limit chosen
    /// here, no source), this one among them: wind takes a gently bent fence for
    /// one wall.
    pub fn stretch(&self, run: usize) -> core::ops::Range<usize> {
        let bends = |after: usize| {
            let turn = self.turn_after(after);
            turn.is_some_and(|turn| !at_least(turn.value, deg(60.0).value))
        };
        let mut start = run.min(self.runs.len());
        while start > 0 && bends(start - 1) {
            start -= 1;
        }
        let mut end = run;
        while bends(end) {
            end += 1;
        }
        start..end.saturating_add(1).min(self.runs.len())
    }

    /// Returns the runs that stand with a run as one straight wall: those it goes on into
    /// without a gap, with bends of 15° or less (a limit chosen here, no source), while
    /// each next panel is at least as high, as low at its foot and as solid as that of
    /// this run. This run is among them.
    ///
    /// ```
    /// use groundline::{fence::*, units::{deg, ft}};
    /// let run = FenceRun::new(Panel::new(ft(6.0))?, ft(24.0), ft(8.0))?;
    /// let fence = Fence::of_runs(run.clone(), vec![(deg(3.0), run.clone()), (deg(40.0), run)])?;
    /// assert_eq!(fence.straight(0), 0..2);
    /// assert_eq!(fence.straight(2), 2..3);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn straight(&self, run: usize) -> core::ops::Range<usize> {
        let Some(own) = self.runs.get(run).map(FenceRun::panel) else {
            return self.runs.len()..self.runs.len();
        };
        let goes_on = |after: usize, into: usize| {
            self.turn_after(after)
                .is_some_and(|turn| at_most(turn.value, deg(15.0).value))
                && self
                    .runs
                    .get(into)
                    .is_some_and(|other| covers(other.panel(), own))
        };
        let (mut start, mut end) = (run, run);
        while start > 0 && goes_on(start - 1, start - 1) {
            start -= 1;
        }
        while goes_on(end, end + 1) {
            end += 1;
        }
        start..end + 1
    }

    /// What is at the ends of a run taken alone.
    ///
    /// A turn of 60° to 120° (the figure shows a right angle; the limits are
    /// chosen here) makes the other run a return corner, as far as it
    /// goes on without a gate, if it is at least as high, as low at its foot
    /// and as solid. Any other end counts as free; a gentler bend also has the
    /// wind on the whole [`Fence::stretch`].
    pub fn ends(&self, run: usize) -> WallEnds {
        let own = self.runs.get(run).map(FenceRun::panel);
        let joint = |turn: Option<Angle>, other: Option<&FenceRun>, from_start: bool| match (
            turn, other, own,
        ) {
            (Some(turn), Some(other), Some(own))
                if at_least(turn.value, deg(60.0).value)
                    && at_most(turn.value, deg(120.0).value)
                    && covers(other.panel(), own)
                    && other.uninterrupted(from_start) > ft(0.0) =>
            {
                WallEnd::Return(other.uninterrupted(from_start))
            }
            _ => WallEnd::Free,
        };
        let before = run.checked_sub(1);
        WallEnds {
            start: joint(
                before.and_then(|i| self.turn_after(i)),
                before.and_then(|i| self.runs.get(i)),
                false,
            ),
            end: joint(
                self.turn_after(run),
                run.checked_add(1).and_then(|i| self.runs.get(i)),
                true,
            ),
        }
    }

    /// The same fence walked from its other end.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let runs: Vec<_> = self.runs.iter().rev().map(FenceRun::mirrored).collect();
        let posts = lay_out(&runs);
        Self {
            runs,
            turns: self.turns.iter().rev().copied().collect(),
            posts,
        }
    }
}

/// Returns whether a wall goes on undiminished from one panel into another: at least as
/// high, as low at its foot and as solid.
fn covers(other: &Panel, own: &Panel) -> bool {
    not_shorter(other.top(), own.top())
        && not_longer(other.clearance(), own.clearance())
        && at_least(other.solidity(), own.solidity())
}

/// A post position along a run and whether the bay behind it is a gate.
struct Station {
    at: Length,
    gate_behind: bool,
}

/// The stations of one run, gate by gate, in equal bays between.
fn stations(run: &FenceRun) -> Vec<Station> {
    let mut stations = vec![Station {
        at: ft(0.0),
        gate_behind: false,
    }];
    let mut last = ft(0.0);
    let openings = run.gates().iter().map(|gate| (gate.at(), Some(gate.end())));
    for (piece_end, gate_end) in openings.chain([(run.length(), None)]) {
        let piece = piece_end - last;
        if piece > LENGTH_TOL {
            // Up to rounding a whole number of bays is that number.
            let bays = ((piece / run.spacing()).value * (1.0 - REL_TOL))
                .ceil()
                .max(1.0);
            let mut bay = 1.0;
            while bay <= bays {
                let at = if bay >= bays {
                    piece_end
                } else {
                    last + piece * (bay / bays)
                };
                stations.push(Station {
                    at,
                    gate_behind: false,
                });
                bay += 1.0;
            }
        }
        if let Some(gate_end) = gate_end {
            let at = if same_length(run.length(), gate_end) {
                run.length()
            } else {
                gate_end
            };
            stations.push(Station {
                at,
                gate_behind: true,
            });
            last = gate_end;
        }
    }
    stations
}

fn lay_out(runs: &[FenceRun]) -> Vec<FencePost> {
    let mut posts: Vec<FencePost> = Vec::new();
    for (index, run) in runs.iter().enumerate() {
        let stations = stations(run);
        let first_of_run = posts.len().saturating_sub(1);
        for (i, station) in stations.iter().enumerate() {
            let behind = i.checked_sub(1).map(|j| &stations[j]);
            let ahead = stations.get(i + 1);
            let half = |other: Option<&Station>| {
                other.map_or(station.at, |other| (other.at + station.at) * 0.5)
            };
            let gate_ahead = ahead.is_some_and(|next| next.gate_behind);
            let arm = Arm {
                run: index,
                at: station.at,
                from: half(behind),
                to: half(ahead),
                open_from: if station.gate_behind {
                    station.at
                } else {
                    half(behind)
                },
                open_to: if gate_ahead { station.at } else { half(ahead) },
            };
            let at_gate = station.gate_behind || gate_ahead;
            if i == 0
                && let Some(corner) = posts.last_mut()
            {
                corner.arms[1] = Some(arm);
                if corner.kind != PostKind::Gate {
                    corner.kind = PostKind::Corner;
                }
                if at_gate {
                    corner.kind = PostKind::Gate;
                }
                continue;
            }
            let kind = if at_gate {
                PostKind::Gate
            } else if i == 0 || ahead.is_none() {
                PostKind::End
            } else {
                PostKind::Line
            };
            posts.push(FencePost {
                number: posts.len() + 1,
                kind,
                arms: [Some(arm), None],
                leaves: [None, None],
            });
        }
        for gate in run.gates() {
            let leaf = HungLeaf {
                run: index,
                width: gate.leaf_width(),
                weight: gate.leaf_weight(),
            };
            let mut hang_at = |at: Length| {
                if let Some(post) = posts[first_of_run..].iter_mut().find(|post| {
                    post.arms()
                        .any(|arm| arm.run == index && same_length(arm.at, at))
                }) {
                    post.hang(leaf);
                }
            };
            match gate.hinges() {
                Hinges::AtStart => hang_at(gate.at()),
                Hinges::AtEnd => hang_at(gate.end()),
                Hinges::Both => {
                    hang_at(gate.at());
                    hang_at(gate.end());
                }
            }
        }
    }
    posts
}
