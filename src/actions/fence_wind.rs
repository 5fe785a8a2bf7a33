//! From a fence in the wind to the load cases of each post.
//!
//! A post carries its tributary strip of every run it belongs to, half of a
//! shut gate beside it, and the weight of a leaf hung on it at half the leaf's
//! width. Gates are taken shut and open, in every combination; an open leaf,
//! swung square to its run, is a free-standing wall whose wind goes to its
//! post, alone and together with the wind on the runs, as vectors.
//!
//! A strip goes half a bay each way. A pressure that varies linearly along the run (the
//! off-centre cases) comes to the posts as the reactions of simple spans, bay by bay. Beside the edge of a Case C strip a simple
//! span would bring up to (p1 − p2) s L/8 more to the post on the far side: p1
//! and p2 the greater and the lesser pressure at the edge, s the height of the
//! panel, L the bay.
//!
//! Left out: wind on the posts themselves, torsion of a post by its leaf, the
//! weight of the post.

mod working;

use super::run_wind::RunWind;
use super::{
    DeadEffects, GroundlineActions, LoadCase, LoadCaseKind, LoadCases, PressurePicture, resultant,
};
use crate::caution::{Caution, Cautions};
use crate::combination::{Combination, Combined, CombinesTo};
use crate::error::Error;
use crate::fence::{Arm, Fence, FencePost};
use crate::limit_state::LimitState;
use crate::units::{Angle, Force, Length, Measurable, Torque, deg, ft, moment};
use crate::wind::{AsceSite, WallWind, WindCase, WindCode};

/// The wind on a whole fence.
///
/// A post carries half a bay each way of every run it belongs to, half of a shut
/// gate beside it, and the leaf hung on it. Gates are taken shut and open. Wind on
/// the posts themselves, torsion by leaves and the weight of the post are left out.
///
/// ```
/// use groundline::{actions::FenceWind, fence::*, units::*, wind::*};
/// let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = AsceSite::new(Edition::Asce7_22, v, Exposure::C);
/// let wind = FenceWind::new(&site, &fence)?;
/// // The second post is the worst of a long fence with free ends.
/// let shear = |i: usize| wind.cases(&fence.posts()[i])[0].wind.shear();
/// assert!(shear(1) > shear(0) && shear(1) > shear(6));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct FenceWind<'a, C: WindCode = AsceSite> {
    code: C,
    fence: &'a Fence,
    runs: Vec<RunWind<C>>,
}

/// The worst wind on an arm: which wall, which case, and the force at its
/// height.
#[derive(Clone, Copy)]
struct OnArm<L: LimitState> {
    wall: usize,
    wind_case: WindCase,
    wind: GroundlineActions<L>,
}

impl<'a, C: WindCode> FenceWind<'a, C> {
    /// The wind at a site on a fence.
    ///
    /// # Errors
    /// As [`WallWind::new`]; more than 60 gates in one straight stretch.
    pub fn new(code: &C, fence: &'a Fence) -> Result<Self, Error> {
        let runs = (0..fence.runs().len())
            .map(|index| RunWind::new(code, fence, index))
            .collect::<Result<_, Error>>()?;
        Ok(Self {
            code: *code,
            fence,
            runs,
        })
    }

    /// The code and site.
    pub const fn code(&self) -> &C {
        &self.code
    }

    /// The fence.
    pub const fn fence(&self) -> &'a Fence {
        self.fence
    }

    /// The wind on each run.
    pub fn runs(&self) -> &[RunWind<C>] {
        &self.runs
    }

    /// The cautions of wind and fence; those of ground and post are the
    /// checks'.
    pub fn cautions(&self) -> Cautions {
        let walls = self.runs.iter().flat_map(|run| &run.walls);
        let leaves = self.runs.iter().flat_map(|run| &run.leaves);
        walls
            .map(|wall| &wall.wind)
            .chain(leaves)
            .fold(Cautions::default(), |all, wall| all.and(wall.cautions()))
            .with(Caution::RetainedSoil)
            .with(Caution::Barrier)
            .with_if(self.has_gates(), Caution::LeafTorsion)
            .with_if(self.taller_than(ft(12.0)), Caution::Flexible)
    }

    fn has_gates(&self) -> bool {
        let runs = self.fence.runs();
        runs.iter().any(|run| !run.gates().is_empty())
    }

    fn taller_than(&self, height: Length) -> bool {
        let runs = self.fence.runs();
        runs.iter().any(|run| run.panel().top() > height)
    }

    /// The load case that brings the greatest moment to a post of this fence,
    /// with its actions combined with dead load by a set of factors; none for a
    /// post without wind.
    ///
    /// ```
    /// use groundline::{actions::FenceWind, combination::Combination, fence::*};
    /// use groundline::{limit_state::PartialFactor, units::*, wind::*};
    /// let fence = Fence::new(FenceRun::new(Panel::new(m(2.0))?, m(30.0), m(2.5))?);
    /// let vb0 = FundamentalSpeed::ten_minute_mean(m_per_s(24.0))?;
    /// let wind = FenceWind::new(&EnSite::new(vb0, Terrain::Two), &fence)?;
    /// let set = Combination::of(PartialFactor::Structure);
    /// let (case, design) = wind.worst(&fence.posts()[1], &set).unwrap();
    /// assert_eq!(design.shear(), case.wind.shear() * 1.5);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn worst<To: Combined>(
        &self,
        post: &FencePost,
        combination: &Combination<To>,
    ) -> Option<(LoadCase<C::Level>, GroundlineActions<To>)>
    where
        C::Level: CombinesTo<To>,
    {
        let cases = self.cases(post);
        let combined = cases.iter().map(|case| {
            let actions = case.wind.combined(&case.dead, combination);
            (*case, actions)
        });
        combined.max_by(|(_, a), (_, b)| a.moment().value.total_cmp(&b.moment().value))
    }

    /// The pressure along a run, the thing to look at first; none for a run
    /// the fence does not have.
    pub fn picture(&self, run: usize) -> Option<PressurePicture> {
        PressurePicture::new(self, run)
    }

    /// The shear of an arm in one case of the wind figure, the
    /// run taken alone with gates shut. Over all posts of a run it sums to the
    /// force on the run.
    pub fn shear(&self, arm: &Arm, case: WindCase) -> Force {
        self.runs
            .get(arm.run)
            .and_then(RunWind::alone)
            .map_or(Force::from_si(0.0), |wall| {
                wall.on_post(case, &arm.half_bays())
            })
    }

    fn on_arm(&self, arm: &Arm, gate_open: bool) -> Option<OnArm<C::Level>> {
        let run = self.runs.get(arm.run)?;
        let (wall, wind_case, force) = run.worst(arm, gate_open)?;
        Some(OnArm {
            wall,
            wind_case,
            wind: at_height(force, &run.walls.get(wall)?.wind),
        })
    }

    /// The wind on the open leaves of a post that close one run.
    fn on_leaves(&self, post: &FencePost, run: usize) -> Option<OnArm<C::Level>> {
        let mut found: Option<OnArm<C::Level>> = None;
        for leaf in post.leaves().filter(|leaf| leaf.run == run) {
            let wall = self.leaf_wind(run, leaf.width)?;
            let (wind_case, force) = wall.worst(ft(0.0), leaf.width);
            let before = found.map_or(Force::from_si(0.0), |found| found.wind.shear);
            found = Some(OnArm {
                wall: 0,
                wind_case,
                wind: at_height(before + force, wall),
            });
        }
        found
    }

    /// The wind across an arm while a gate of the post's runs is open: a run
    /// whose leaf hangs here has it open; any other may be shut or open,
    /// whichever is worse.
    fn across_with_gate_open(&self, post: &FencePost, arm: &Arm) -> Option<OnArm<C::Level>> {
        let open = self.on_arm(arm, true);
        if post.leaves().any(|leaf| leaf.run == arm.run) {
            return open;
        }
        let shut = self.on_arm(arm, false);
        match (open, shut) {
            (Some(open), Some(shut)) if shut.wind.shear > open.wind.shear => Some(shut),
            (open, shut) => open.or(shut),
        }
    }

    fn leaf_wind(&self, run: usize, width: Length) -> Option<&WallWind<C>> {
        let gates = self.fence.runs().get(run)?.gates();
        let index = gates.iter().position(|gate| gate.leaf_width() == width)?;
        self.runs.get(run)?.leaves.get(index)
    }

    /// The moment that the leaves of a post make at grade.
    fn leaf_moment(post: &FencePost) -> Torque {
        post.leaves()
            .map(|leaf| moment(leaf.weight, leaf.width * 0.5))
            .fold(Torque::from_si(0.0), |sum, next| sum + next)
    }

    /// The weight of panel an arm carries; a gate's panel hangs with its leaf.
    fn panel_weight(&self, arm: &Arm) -> Force {
        self.fence
            .runs()
            .get(arm.run)
            .map_or(Force::from_si(0.0), |run| {
                let panel = run.panel();
                panel.weight() * panel.height() * (arm.open_to - arm.open_from)
            })
    }

    fn weight(&self, post: &FencePost) -> Force {
        let panels: Force = post.arms().map(|arm| self.panel_weight(arm)).sum();
        let leaves: Force = post.leaves().map(|leaf| leaf.weight).sum();
        panels + leaves
    }

    /// The direction of wind across an arm, from that of the first arm.
    fn direction(&self, post: &FencePost, arm: &Arm) -> Angle {
        match post.arms().next() {
            Some(first) if first.run != arm.run => {
                self.fence.turn_after(first.run).unwrap_or_default()
            }
            _ => deg(0.0),
        }
    }

    /// The load cases of a post of this fence.
    pub fn cases(&self, post: &FencePost) -> LoadCases<C::Level> {
        if let ([Some(arm), None], [None, None]) = (&post.arms, &post.leaves)
            && self.runs.get(arm.run).is_some_and(|run| !run.opens)
            && let Some(on_arm) = self.on_arm(arm, false)
        {
            // Most posts of a fence.
            return LoadCases::one(LoadCase {
                kind: LoadCaseKind::AcrossRun,
                run: arm.run,
                wall: on_arm.wall,
                wind_case: on_arm.wind_case,
                wind: on_arm.wind,
                dead: DeadEffects {
                    axial: self.panel_weight(arm),
                    ..DeadEffects::NONE
                },
            });
        }
        self.cases_at_corner_or_gate(post)
    }

    #[inline(never)]
    fn cases_at_corner_or_gate(&self, post: &FencePost) -> LoadCases<C::Level> {
        let level = self.code.level();
        let mut cases = LoadCases::empty(level);
        let weight = self.weight(post);
        let leaf_moment = Self::leaf_moment(post);
        let nothing = Torque::from_si(0.0);
        let dead = |in_line: Torque, across: Torque| DeadEffects {
            axial: weight,
            in_line,
            across,
        };

        // Gates shut: across each run, and at a corner both at once. The leaf
        // pulls along its run; at a corner that may be in line with the wind
        // across the other run, which the wind on both runs covers.
        let shut = post
            .arms()
            .filter_map(|arm| Some((arm, self.on_arm(arm, false)?)));
        let mut parts = Parts::new(level);
        for (arm, on_arm) in shut {
            cases.push(LoadCase {
                kind: LoadCaseKind::AcrossRun,
                run: arm.run,
                wall: on_arm.wall,
                wind_case: on_arm.wind_case,
                wind: on_arm.wind,
                dead: dead(nothing, leaf_moment),
            });
            parts.push(arm.run, on_arm, self.direction(post, arm));
        }
        if parts.count > 1
            && let Some((run, worse)) = parts.worst()
        {
            cases.push(LoadCase {
                kind: LoadCaseKind::BothRuns,
                run,
                wall: worse.wall,
                wind_case: worse.wind_case,
                wind: parts.together(),
                dead: dead(leaf_moment, nothing),
            });
        }

        // A gate open: across each run it is in, onto the leaf alone, and all
        // at once. The leaf hangs to the lee side.
        let mut parts = Parts::new(level);
        let mut any_open = false;
        for arm in post.arms() {
            let open = self.on_arm(arm, true);
            if let Some(on_arm) = open {
                any_open = true;
                cases.push(LoadCase {
                    kind: LoadCaseKind::GateOpenAcross,
                    run: arm.run,
                    wall: on_arm.wall,
                    wind_case: on_arm.wind_case,
                    wind: on_arm.wind,
                    dead: dead(leaf_moment, nothing),
                });
            }
            if let Some(on_arm) = self.across_with_gate_open(post, arm) {
                parts.push(arm.run, on_arm, self.direction(post, arm));
            }
            if let Some(on_leaf) = self.on_leaves(post, arm.run) {
                any_open = true;
                cases.push(LoadCase {
                    kind: LoadCaseKind::GateOpenAlong,
                    run: arm.run,
                    wall: 0,
                    wind_case: on_leaf.wind_case,
                    wind: on_leaf.wind,
                    dead: dead(nothing, leaf_moment),
                });
                parts.push(arm.run, on_leaf, self.direction(post, arm) + deg(90.0));
            }
        }
        if any_open
            && parts.count > 1
            && let Some((run, worse)) = parts.worst()
        {
            cases.push(LoadCase {
                kind: LoadCaseKind::GateOpenTogether,
                run,
                wall: worse.wall,
                wind_case: worse.wind_case,
                wind: parts.together(),
                dead: dead(leaf_moment, nothing),
            });
        }
        cases
    }
}

/// Winds that act at once, at most two runs and two leaves.
struct Parts<L: LimitState> {
    winds: [(GroundlineActions<L>, Angle); 4],
    worst: Option<(usize, OnArm<L>)>,
    count: usize,
    level: L,
}

impl<L: LimitState> Parts<L> {
    fn new(level: L) -> Self {
        let nothing = GroundlineActions::nothing(level);
        Self {
            winds: [(nothing, deg(0.0)); 4],
            worst: None,
            count: 0,
            level,
        }
    }

    fn push(&mut self, run: usize, on_arm: OnArm<L>, direction: Angle) {
        if let Some(slot) = self.winds.get_mut(self.count) {
            *slot = (on_arm.wind, direction);
            self.count += 1;
        }
        if self
            .worst
            .is_none_or(|(_, worst)| on_arm.wind.shear > worst.wind.shear)
        {
            self.worst = Some((run, on_arm));
        }
    }

    fn worst(&self) -> Option<(usize, OnArm<L>)> {
        self.worst
    }

    fn together(&self) -> GroundlineActions<L> {
        resultant(self.winds.get(..self.count).unwrap_or(&[]), self.level)
    }
}

fn at_height<C: WindCode>(force: Force, wall: &WallWind<C>) -> GroundlineActions<C::Level> {
    GroundlineActions::at_height(force, wall.resultant_height(), wall.code().level())
}
