//! The walls that the wind may find where a run stands.
//!
//! With every gate shut the run is a wall by itself, or with the runs it goes on into with
//! bends of 15° or less; with bends up to 60° it is also a part of one long wall. With a gate
//! open the fence on each side of it is a wall of its own with a free edge
//! there, where Case C is steepest; every choice of which gates are open gives
//! other walls, and all of them count. A wall that goes on into other runs is
//! taken as of this run's panel all along.

use crate::error::Error;
use crate::fence::{Arm, Fence};
use crate::units::{Force, Length, Measurable, ft, inch, same_length};
use crate::wind::{WallEnd, WallEnds, WallWind, WindCase, WindCode};

/// A wall that may stand where a run is.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct StandingWall<C: WindCode> {
    /// Where it begins, from the start of the run; negative where it begins in
    /// a run before.
    pub from: Length,
    /// Is it bounded by an open gate?
    pub gate_open: bool,
    /// The wind on it.
    pub wind: WallWind<C>,
}

impl<C: WindCode> StandingWall<C> {
    /// The worst case of the wind figure on the part of an arm that stands.
    pub(super) fn worst(&self, arm: &Arm) -> (WindCase, Force) {
        self.wind
            .worst_on_post(&arm.half_bays().from_origin(self.from))
    }
}

/// The wind on one run, as every wall that may stand there: by itself, as part of a
/// gently bent stretch, and beside each choice of open gates.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RunWind<C: WindCode> {
    /// The walls that may stand; the first is the run alone, gates shut. Where the run goes
    /// on nearly straight ([`Fence::straight`]) the first is there for the pressure
    /// diagram alone, and does not load the posts.
    pub walls: Vec<StandingWall<C>>,
    /// The wind on each gate's leaf, swung open; in the order of the gates.
    pub leaves: Vec<WallWind<C>>,
    /// Does any of the walls end at an open gate?
    pub(super) opens: bool,
    /// Does the run alone load the posts?
    alone: bool,
}

/// A place where a wall may begin or end.
#[derive(Clone, Copy)]
struct Edge {
    at: Length,
    end: WallEnd,
    gate: bool,
}

impl<C: WindCode> RunWind<C> {
    /// The most gates in one stretch.
    const MOST_GATES: usize = 60;

    pub(super) fn new(code: &C, fence: &Fence, index: usize) -> Result<Self, Error> {
        let Some(run) = fence.runs().get(index) else {
            return Err(Error::NotApplicable {
                field: "run",
                reason: "the fence has no such run",
            });
        };
        let panel = run.panel();
        let wall = |length: Length, ends: WallEnds| WallWind::new(code, panel.wall(length)?, ends);
        let own = fence.ends(index);
        let mut walls = vec![StandingWall {
            from: ft(0.0),
            gate_open: false,
            wind: wall(run.length(), own)?,
        }];
        let (starts, ends) = edges(fence, index);
        let alone_stands = fence.straight(index).len() == 1;
        if starts.iter().filter(|edge| edge.gate).count() > Self::MOST_GATES {
            return Err(Error::NotApplicable {
                field: "gate",
                reason: "there are more than 60 gates in one straight stretch; split the fence",
            });
        }
        for start in &starts {
            for end in &ends {
                let length = end.at - start.at;
                let overlaps = start.at < run.length() && end.at > ft(0.0);
                let alone = same_length(start.at, ft(0.0)) && same_length(end.at, run.length());
                let gate_open = start.gate || end.gate;
                // 3 in is the shortest wall there is; ends before starts fall out too.
                if length < inch(3.0) || !overlaps || (alone && !gate_open) {
                    continue;
                }
                let ends = WallEnds {
                    start: start.end,
                    end: end.end,
                };
                walls.push(StandingWall {
                    from: start.at,
                    gate_open,
                    wind: wall(length, ends)?,
                });
            }
        }
        let leaves = run
            .gates()
            .iter()
            .map(|gate| wall(gate.leaf_width(), WallEnds::FREE))
            .collect::<Result<_, _>>()?;
        let opens = walls.iter().any(|wall| wall.gate_open);
        Ok(Self {
            walls,
            leaves,
            opens,
            alone: alone_stands,
        })
    }

    /// The wall that is worst for an arm, gates shut or with a gate open, with
    /// its index, its case of the wind figure and the force; none where no
    /// such wall stands there. The walls of a run are of one panel and so have
    /// one height of the resultant: the greatest force is the greatest moment.
    pub(super) fn worst(&self, arm: &Arm, gate_open: bool) -> Option<(usize, WindCase, Force)> {
        let mut worst: Option<(usize, WindCase, Force)> = None;
        for (index, wall) in self.walls.iter().enumerate() {
            if wall.gate_open == gate_open && (index > 0 || self.alone) {
                let (case, force) = wall.worst(arm);
                // No force: no part of the arm stands in this wall.
                let most = worst.map_or(Force::from_si(0.0), |(_, _, most)| most);
                if force > most {
                    worst = Some((index, case, force));
                }
            }
        }
        worst
    }

    /// The run alone, gates shut.
    pub fn alone(&self) -> Option<&WallWind<C>> {
        self.walls.first().map(|wall| &wall.wind)
    }
}

/// Where walls of the stretch around a run may begin and end, from the start
/// of that run.
fn edges(fence: &Fence, index: usize) -> (Vec<Edge>, Vec<Edge>) {
    let stretch = fence.stretch(index);
    let straight = fence.straight(index);
    let before: f64 = fence.runs()[stretch.start..index]
        .iter()
        .map(|run| run.length().value)
        .sum();
    let (mut starts, mut ends) = (Vec::new(), Vec::new());
    let mut at = Length::from_si(-before);
    for (number, run) in stretch.clone().zip(&fence.runs()[stretch.clone()]) {
        let whole = fence.ends(number);
        // The whole stretch, and the part of it that is nearly straight.
        if number == stretch.start || number == straight.start {
            starts.push(Edge {
                at,
                end: whole.start,
                gate: false,
            });
        }
        for gate in run.gates() {
            ends.push(Edge {
                at: at + gate.at(),
                end: WallEnd::Free,
                gate: true,
            });
            starts.push(Edge {
                at: at + gate.end(),
                end: WallEnd::Free,
                gate: true,
            });
        }
        at += run.length();
        if number + 1 == stretch.end || number + 1 == straight.end {
            ends.push(Edge {
                at,
                end: whole.end,
                gate: false,
            });
        }
    }
    (starts, ends)
}
