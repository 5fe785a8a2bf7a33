//! The fence on the wire.

use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::value::Size;
use crate::error::Error;
use crate::fence::{Fence, FenceRun, Gate, Hinges, Panel, PostKind};
use crate::units::{Angle, Force, Length, Pressure, deg, ft};
use crate::wind::{Infill, Member};

names! {
    PostKind {
        "end" => PostKind::End,
        "line" => PostKind::Line,
        "corner" => PostKind::Corner,
        "gate" => PostKind::Gate,
    }
    Hinges {
        "at_start" => Hinges::AtStart,
        "at_end" => Hinges::AtEnd,
        "both" => Hinges::Both,
    }
}

records! {
    /// No openings.
    TightSpec {}
    /// A solidity known otherwise.
    SoliditySpec {
        /// Solid area over gross area.
        solidity: f64,
        /// Diameter of round members; flat unless said.
        round_diameter: Option<Size>,
        /// Share of the openings covered by slats, leaves, fabric; none unless
        /// said.
        covered: Option<f64>,
    }
    /// Members with gaps between them.
    MembersSpec {
        /// Width or diameter of a member.
        member: Size,
        /// Clear gap between members.
        gap: Size,
        /// Ice on every face; none unless said.
        ice: Option<Size>,
        /// Share of the openings covered by slats, leaves, fabric; none unless
        /// said.
        covered: Option<f64>,
    }
    /// Another infill in the uppermost part of a panel.
    ToppingSpec {
        /// Height of that part.
        height: Length,
        /// What fills it.
        infill: InfillSpec,
    }
    /// A panel.
    PanelSpec {
        /// Height of the top above ground.
        height: Length,
        /// Gap below; none unless said.
        clearance: Option<Size>,
        /// What fills it; tight unless said.
        infill: Option<InfillSpec>,
        /// Another infill at the top.
        topping: Option<ToppingSpec>,
        /// Weight per gross area, rails included; none unless said.
        weight: Option<Pressure>,
    }
    /// A gate.
    GateSpec {
        /// Start of the opening along the run.
        at: Length,
        /// Opening between the centres of the gate posts.
        opening: Length,
        /// Weight of one leaf.
        leaf_weight: Force,
        /// Where it hangs.
        hinges: Hinges,
    }
    /// A straight run.
    RunSpec {
        /// Angle by which it turns from the run before; the first has none.
        turn: Option<Angle>,
        /// Length.
        length: Length,
        /// Greatest distance between posts.
        spacing: Length,
        /// Its panel.
        panel: PanelSpec,
        /// Its gates.
        gates: Option<Vec<GateSpec>>,
    }
    /// A fence: runs, one after another.
    FenceSpec {
        /// The runs.
        runs: Vec<RunSpec>,
    }
}

alternatives! {
    /// What fills a panel.
    InfillSpec {
        /// No openings.
        "tight" => Tight(TightSpec),
        /// A solidity known otherwise.
        "given" => Given(SoliditySpec),
        /// Pickets, boards, slats one way.
        "pickets" => Pickets(MembersSpec),
        /// Boards on both sides, each before the gap of the other side.
        "boards_on_both_sides" => BoardsOnBothSides(MembersSpec),
        /// Round bars one way.
        "round_bars" => RoundBars(MembersSpec),
        /// Strips both ways.
        "lattice" => Lattice(MembersSpec),
        /// Wire both ways.
        "woven_mesh" => WovenMesh(MembersSpec),
    }
}

/// The most posts of a fence on the wire.
const MOST_POSTS: f64 = 10_000.0;

impl InfillSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Infill> {
        let members = |spec: &MembersSpec, make: fn(Length, Length) -> Result<Infill, Error>| {
            let mut infill = make(spec.member.0, spec.gap.0)?;
            if let Some(Size(ice)) = spec.ice {
                infill = infill.with_ice(ice)?;
            }
            match spec.covered {
                Some(share) => infill.covered(share),
                None => Ok(infill),
            }
        };
        let made = match self {
            Self::Tight(_) => Ok(Infill::TIGHT),
            Self::Given(given) => {
                let member = match given.round_diameter {
                    Some(Size(diameter)) => Member::Round(diameter),
                    None => Member::Flat,
                };
                let infill = Infill::given(given.solidity, member);
                match given.covered {
                    Some(share) => infill.and_then(|infill| infill.covered(share)),
                    None => infill,
                }
            }
            Self::Pickets(spec) => members(spec, Infill::pickets),
            Self::BoardsOnBothSides(spec) => members(spec, Infill::boards_on_both_sides),
            Self::RoundBars(spec) => members(spec, Infill::round_bars),
            Self::Lattice(spec) => members(spec, Infill::lattice),
            Self::WovenMesh(spec) => members(spec, Infill::woven_mesh),
        };
        let names = [
            ("ice thickness", "ice"),
            ("covered share", "covered"),
            ("solidity", "solidity"),
            ("member diameter", "round_diameter"),
        ];
        let given = matches!(self, Self::Given(_));
        // The solidity of members comes of both.
        problems.take_by(at, if given { &names } else { &names[..2] }, made)
    }
}

impl PanelSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Panel> {
        let panel = problems.take(&at.field("height"), Panel::new(self.height));
        let infill = match &self.infill {
            Some(infill) => infill.build(&at.field("infill"), problems),
            None => Some(Infill::TIGHT),
        };
        let place = at.field("topping");
        let topping = match &self.topping {
            Some(topping) => {
                let infill = topping.infill.build(&place.field("infill"), problems);
                infill.map(|infill| Some((topping.height, infill)))
            }
            None => Some(None),
        };
        // Of a panel that cannot be, the rest is read all the same.
        let sound = panel.is_some();
        let mut panel = panel.or_else(|| Panel::new(ft(6.0)).ok())?;
        if let Some(Size(clearance)) = self.clearance {
            let made = panel.with_clearance(clearance);
            panel = problems.take(&at.field("clearance"), made)?;
        }
        if let Some(weight) = self.weight {
            panel = problems.take(&at.field("weight"), panel.with_weight(weight))?;
        }
        panel = panel.with_infill(infill?);
        if !sound {
            return None;
        }
        match topping? {
            Some((height, infill)) => {
                let made = panel.with_topping(height, infill);
                problems.take(&place.field("height"), made)
            }
            None => Some(panel),
        }
    }
}

impl RunSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<FenceRun> {
        let panel = self.panel.build(&at.field("panel"), problems);
        let place = at.field("gates");
        let mut gates = Vec::new();
        for (index, gate) in self.gates.iter().flatten().enumerate() {
            let made = Gate::new(gate.at, gate.opening, gate.leaf_weight, gate.hinges);
            let names = [
                ("gate position", "at"),
                ("gate opening", "opening"),
                ("gate leaf weight", "leaf_weight"),
            ];
            gates.push(problems.take_by(&place.place(index), &names, made));
        }
        // A run of any panel shows what is wrong with its length.
        let shown = match panel {
            Some(panel) => Some(panel),
            None => Panel::new(ft(6.0)).ok(),
        };
        let run = FenceRun::new(shown?, self.length, self.spacing);
        let names = [("run length", "length"), ("post spacing", "spacing")];
        let mut run = problems.take_by(at, &names, run)?;
        panel?;
        for (index, gate) in gates.into_iter().enumerate() {
            run = problems.take(&place.place(index), run.with_gate(gate?))?;
        }
        Some(run)
    }
}

impl FenceSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Fence> {
        const MOST_RUNS: usize = 1_000;
        let runs_at = at.field("runs");
        if self.runs.is_empty() || self.runs.len() > MOST_RUNS {
            problems.add(&runs_at, None, format!("give 1 to {MOST_RUNS} runs"));
            return None;
        }
        let mut built = Vec::new();
        for (index, run) in self.runs.iter().enumerate() {
            built.push(run.build(&runs_at.place(index), problems));
        }
        // Told before it is laid out: a short request may ask for a long fence.
        let count: f64 = built
            .iter()
            .flatten()
            .map(|run| (run.length() / run.spacing()).value + 2.0 * (1.0 + gates(run)))
            .sum();
        if count > MOST_POSTS {
            let allowed = format!("at most {MOST_POSTS} posts; split the fence");
            problems.add(at, None, allowed);
            return None;
        }
        let mut turns = Vec::new();
        for (index, spec) in self.runs.iter().enumerate() {
            let place = runs_at.place(index);
            let place = place.field("turn");
            match (index, spec.turn) {
                (0, None) => {}
                (0, Some(_)) => problems.add(&place, None, "the first run has no turn"),
                (_, Some(turn)) => turns.push(turn),
                (_, None) => {
                    problems.add(&place, None, "give the angle it turns by, 1° to 170°");
                }
            }
        }
        let mut runs = built.into_iter().collect::<Option<Vec<_>>>()?.into_iter();
        let first = runs.next()?;
        let others: Vec<_> = turns.into_iter().zip(runs).collect();
        if others.len() + 1 < self.runs.len() || self.runs[0].turn.is_some() {
            return None;
        }
        let wrong = others
            .iter()
            .position(|(turn, _)| !(deg(1.0)..=deg(170.0)).contains(turn));
        let place = match wrong {
            Some(index) => runs_at.place(index + 1),
            None => runs_at,
        };
        problems.take_by(&place, &[("turn", "turn")], Fence::of_runs(first, others))
    }
}

/// How many gates a run has, at most a few.
fn gates(run: &FenceRun) -> f64 {
    run.gates().iter().fold(0.0, |count, _| count + 1.0)
}
