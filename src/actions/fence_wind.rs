//! From a fence in the wind to the load cases of each post.
//!
//! A post carries its tributary strip of every run it belongs to, half of a
//! shut gate beside it, and the weight of a leaf hung on it at half the leaf's
//! width. Gates are taken shut and open: open, the fence on each side of the
//! gate is a wall of its own with a free edge there, where Case C is steepest,
//! and the leaf, swung square to the fence, is a free-standing wall whose wind
//! goes to its post.
//!
//! Left out: wind on the posts themselves, torsion of a post by its leaf, the
//! weight of the post (beside the ground-line moment it is nothing).

use super::{DeadEffects, GroundlineActions, turn_cosine};
use crate::error::Error;
use crate::fence::{Arm, Fence, FencePost};
use crate::limit_state::Strength;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Force, Length, Measurable, Torque, ft, moment};
use crate::wind::{WallEnd, WallEnds, WallOptions, WallShape, WallWind, WindCase, WindSite};

/// What makes a load case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum LoadCaseKind {
    /// Wind across one run, every gate shut.
    AcrossRun,
    /// Wind across both runs of a corner at once, as vectors.
    BothRuns,
    /// Wind across one run, every gate open; the leaf hangs to the lee side.
    GateOpenAcross,
    /// Wind along the run onto the open leaf.
    GateOpenAlong,
}

impl LoadCaseKind {
    /// What it is, in a few words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AcrossRun => "across the run",
            Self::BothRuns => "on both runs",
            Self::GateOpenAcross => "across, gate open",
            Self::GateOpenAlong => "on the open leaf",
        }
    }
}

/// One load case of a post: strength-level wind and nominal dead load at grade.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct LoadCase {
    /// What makes it.
    pub kind: LoadCaseKind,
    /// The run the wind blows across, or whose gate it blows on.
    pub run: usize,
    /// The governing case of the wind figure.
    pub wind_case: WindCase,
    /// Wind.
    pub wind: GroundlineActions<Strength>,
    /// Dead load.
    pub dead: DeadEffects,
}

impl LoadCase {
    /// For a post that stands outside any fence.
    pub fn new(wind: GroundlineActions<Strength>, dead: DeadEffects) -> Self {
        Self {
            kind: LoadCaseKind::AcrossRun,
            run: 0,
            wind_case: WindCase::A,
            wind,
            dead,
        }
    }
}

/// The load cases of one post, at most nine, kept without allocation. Reads
/// as a slice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadCases {
    cases: [LoadCase; 9],
    count: usize,
}

impl LoadCases {
    fn empty() -> Self {
        let nothing = GroundlineActions {
            shear: Force::from_si(0.0),
            moment: Torque::from_si(0.0),
            axial: Force::from_si(0.0),
            level: Strength,
        };
        Self {
            cases: [LoadCase::new(nothing, DeadEffects::NONE); 9],
            count: 0,
        }
    }

    fn push(&mut self, case: LoadCase) {
        if let Some(slot) = self.cases.get_mut(self.count) {
            *slot = case;
            self.count += 1;
        }
    }
}

impl core::ops::Deref for LoadCases {
    type Target = [LoadCase];

    fn deref(&self) -> &[LoadCase] {
        self.cases.get(..self.count).unwrap_or(&[])
    }
}

/// The wind on one run: with every gate shut, and piece by piece with every
/// gate open.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RunWind {
    /// The straight wall with gates shut.
    pub shut: WallWind,
    /// Start of each piece that stands when gates are open, and its wind;
    /// empty for a run without gates.
    pub pieces: Vec<(Length, WallWind)>,
    /// The wind on each gate's leaf, swung open; in the order of the gates.
    pub leaves: Vec<WallWind>,
}

/// The wind on a whole fence.
///
/// ```
/// use groundline::{actions::FenceWind, fence::*, units::*, wind::*};
/// let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = WindSite::new(Edition::Asce7_22, v, Exposure::C);
/// let wind = FenceWind::new(&site, &fence, WallOptions::default())?;
/// // The second post is the worst of a long fence with free ends.
/// let shear = |i: usize| wind.cases(&fence.posts()[i]).iter().next().unwrap().wind.shear();
/// assert!(shear(1) > shear(0) && shear(1) > shear(6));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct FenceWind<'a> {
    fence: &'a Fence,
    runs: Vec<RunWind>,
}

impl<'a> FenceWind<'a> {
    /// The wind at a site on a fence.
    ///
    /// # Errors
    /// As [`WallWind::new`].
    pub fn new(site: &WindSite, fence: &'a Fence, options: WallOptions) -> Result<Self, Error> {
        let runs = (0..fence.runs().len())
            .map(|index| {
                let run = &fence.runs()[index];
                let ends = fence.ends(index);
                let panel = run.panel();
                let wall = |length: Length, ends: WallEnds| {
                    let shape =
                        WallShape::new(length, panel.top(), panel.clearance(), panel.solidity())?;
                    WallWind::new(site, shape, ends, options)
                };
                let mut pieces = Vec::new();
                if !run.gates().is_empty() {
                    for (from, to) in run.standing_pieces() {
                        let ends = WallEnds {
                            start: if from == ft(0.0) {
                                ends.start
                            } else {
                                WallEnd::Free
                            },
                            end: if to == run.length() {
                                ends.end
                            } else {
                                WallEnd::Free
                            },
                        };
                        pieces.push((from, wall(to - from, ends)?));
                    }
                }
                let leaves = run
                    .gates()
                    .iter()
                    .map(|gate| wall(gate.leaf_width(), WallEnds::FREE))
                    .collect::<Result<_, _>>()?;
                Ok(RunWind {
                    shut: wall(run.length(), ends)?,
                    pieces,
                    leaves,
                })
            })
            .collect::<Result<_, Error>>()?;
        Ok(Self { fence, runs })
    }

    /// The wind on each run.
    pub fn runs(&self) -> &[RunWind] {
        &self.runs
    }

    /// The strength-level shear of a post in one case of the wind figure, wind
    /// across its first run, gates shut. Over all posts of a run it sums to
    /// the force on the run.
    pub fn shear(&self, arm: &Arm, case: WindCase) -> Force {
        self.runs.get(arm.run).map_or(Force::from_si(0.0), |run| {
            run.shut.force(case, arm.from, arm.to)
        })
    }

    /// The piece that an arm belongs to when gates are open, with the arm's
    /// strip on it.
    fn piece(&self, arm: &Arm) -> Option<(&WallWind, Length, Length)> {
        let middle = (arm.open_from + arm.open_to) * 0.5;
        let run = self.runs.get(arm.run)?;
        let (start, wall) = run
            .pieces
            .iter()
            .rev()
            .find(|(start, _)| *start <= middle)
            .filter(|_| arm.open_to > arm.open_from)?;
        Some((wall, arm.open_from - *start, arm.open_to - *start))
    }

    /// The weight a post carries.
    fn weight(&self, post: &FencePost) -> Force {
        let panels = post
            .arms()
            .map(|arm| {
                self.fence.runs().get(arm.run).map_or(0.0, |run| {
                    let panel = run.panel();
                    panel.weight().value
                        * panel.height().value
                        * (arm.open_to - arm.open_from).value
                })
            })
            .sum::<f64>();
        let leaves = post.leaves().map(|leaf| leaf.weight.value).sum::<f64>();
        Force::from_si(panels + leaves)
    }

    /// The load cases of a post.
    pub fn cases(&self, post: &FencePost) -> LoadCases {
        let mut cases = LoadCases::empty();
        let weight = self.weight(post);
        let dead = |in_line: f64, across: f64| DeadEffects {
            axial: weight,
            in_line: Torque::from_si(in_line),
            across: Torque::from_si(across),
        };
        let leaf_moment: f64 = post
            .leaves()
            .map(|leaf| moment(leaf.weight, leaf.width * 0.5).value)
            .sum();
        let at_height = |force: Force, wall: &WallWind| GroundlineActions {
            shear: force,
            moment: moment(force, wall.resultant_height()),
            axial: Force::from_si(0.0),
            level: Strength,
        };

        // Gates shut: across each run, and at a corner both at once.
        let mut across: [Option<LoadCase>; 2] = [None; 2];
        for (slot, arm) in across.iter_mut().zip(post.arms()) {
            if let Some(run) = self.runs.get(arm.run) {
                let (wind_case, force) = run.shut.worst(arm.from, arm.to);
                let case = LoadCase {
                    kind: LoadCaseKind::AcrossRun,
                    run: arm.run,
                    wind_case,
                    wind: at_height(force, &run.shut),
                    dead: dead(0.0, leaf_moment),
                };
                cases.push(case);
                *slot = Some(case);
            }
        }
        if let [Some(first), Some(second)] = across {
            let turn = self.fence.turn_after(first.run).unwrap_or_default();
            let worse = if second.wind.shear() > first.wind.shear() {
                second
            } else {
                first
            };
            cases.push(LoadCase {
                kind: LoadCaseKind::BothRuns,
                run: worse.run,
                wind_case: worse.wind_case,
                wind: first.wind.with_turned(&second.wind, turn),
                dead: dead(leaf_moment, 0.0),
            });
        }

        // Gates open: across each piece, then along each run onto its leaves.
        for arm in post.arms() {
            if let Some((wall, from, to)) = self.piece(arm) {
                let (wind_case, force) = wall.worst(from, to);
                cases.push(LoadCase {
                    kind: LoadCaseKind::GateOpenAcross,
                    run: arm.run,
                    wind_case,
                    wind: at_height(force, wall),
                    dead: dead(leaf_moment, 0.0),
                });
            }
        }
        for arm in post.arms() {
            let mut force = Force::from_si(0.0);
            let mut wind_case = WindCase::A;
            let mut leaf_wall = None;
            for leaf in post.leaves().filter(|leaf| leaf.run == arm.run) {
                if let Some(wall) = self.leaf_wind(arm.run, leaf.width) {
                    let (case, on_leaf) = wall.worst(ft(0.0), leaf.width);
                    force += on_leaf;
                    wind_case = case;
                    leaf_wall = Some(wall);
                }
            }
            if let Some(wall) = leaf_wall {
                cases.push(LoadCase {
                    kind: LoadCaseKind::GateOpenAlong,
                    run: arm.run,
                    wind_case,
                    wind: at_height(force, wall),
                    dead: dead(0.0, leaf_moment),
                });
            }
        }
        cases
    }

    fn leaf_wind(&self, run: usize, width: Length) -> Option<&WallWind> {
        let gates = self.fence.runs().get(run)?.gates();
        let index = gates.iter().position(|gate| gate.leaf_width() == width)?;
        self.runs.get(run)?.leaves.get(index)
    }

    /// Writes the working from the site to the wind on a post, in one of its
    /// cases.
    pub fn write(&self, post: &FencePost, case: &LoadCase, sheet: &mut Worksheet) {
        let Some(run) = self.runs.get(case.run) else {
            return;
        };
        run.shut.velocity_pressure().write(sheet);
        let arm = post.arms().find(|arm| arm.run == case.run);
        match (case.kind, arm) {
            (LoadCaseKind::AcrossRun, Some(arm)) => {
                run.shut.write(case.wind_case, arm.from, arm.to, sheet);
            }
            (LoadCaseKind::BothRuns, _) => {
                for arm in post.arms() {
                    if let Some(run) = self.runs.get(arm.run) {
                        let (wind_case, _) = run.shut.worst(arm.from, arm.to);
                        run.shut.write(wind_case, arm.from, arm.to, sheet);
                    }
                }
            }
            (LoadCaseKind::GateOpenAcross, Some(arm)) => {
                if let Some((wall, from, to)) = self.piece(arm) {
                    wall.write(case.wind_case, from, to, sheet);
                    sheet.remark(
                        "Gate open: the piece of fence up to the gate is a wall of its own, \
                         positions counted from its start.",
                    );
                }
            }
            (LoadCaseKind::GateOpenAlong, _) => {
                for leaf in post.leaves().filter(|leaf| leaf.run == case.run) {
                    if let Some(wall) = self.leaf_wind(case.run, leaf.width) {
                        let (wind_case, _) = wall.worst(ft(0.0), leaf.width);
                        wall.write(wind_case, ft(0.0), leaf.width, sheet);
                        sheet.remark("Gate open: the leaf, square to the fence, as a wall alone.");
                    }
                }
            }
            (_, None) => {}
        }
        sheet.section("At the ground line, strength level");
        sheet.remark(format!("Load case: wind {}.", case.kind.name()));
        run.shut.write_resultant(sheet);
        let height = run.shut.resultant_height();
        if case.kind == LoadCaseKind::BothRuns {
            let parts: Vec<_> = post
                .arms()
                .filter_map(|arm| {
                    let run = self.runs.get(arm.run)?;
                    let (_, force) = run.shut.worst(arm.from, arm.to);
                    Some((force, moment(force, run.shut.resultant_height())))
                })
                .collect();
            if let [(v1, m1), (v2, m2)] = parts[..] {
                let first = post.arms().map(|arm| arm.run).min().unwrap_or(0);
                let cosine = turn_cosine(self.fence.turn_after(first).unwrap_or_default());
                sheet.push(
                    Step::computed(
                        "Vw",
                        "wind shear at grade, both runs as vectors, c = cosine of the turn",
                        "sqrt(W1^2 + W2^2 + 2*W1*W2*c)",
                        case.wind.shear(),
                    )
                    .with("W1", v1)
                    .with("W2", v2)
                    .with_number("c", cosine)
                    .cite(&source::STATICS),
                );
                sheet.push(
                    Step::computed(
                        "Mw",
                        "wind moment at grade, both runs as vectors",
                        "sqrt(M1^2 + M2^2 + 2*M1*M2*c)",
                        case.wind.moment(),
                    )
                    .with("M1", m1)
                    .with("M2", m2)
                    .with_number("c", cosine)
                    .cite(&source::STATICS),
                );
            }
        } else {
            sheet.push(Step::given("Vw", "wind shear at grade", case.wind.shear()));
            sheet.push(
                Step::computed("Mw", "wind moment at grade", "Vw*hr", case.wind.moment())
                    .with("Vw", case.wind.shear())
                    .with("hr", height)
                    .cite(&source::STATICS),
            );
        }
    }
}
