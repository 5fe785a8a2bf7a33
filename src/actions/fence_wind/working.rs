//! The working from the site to the wind on a post, line by line.

use super::{FenceWind, OnArm};
use crate::actions::{LoadCase, LoadCaseKind, positive_cosine};
use crate::fence::{FencePost, FenceRun};
use crate::limit_state::LimitState;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Angle, arm, deg, ft};
use crate::wind::{WallWind, WindCode};

impl<C: WindCode> FenceWind<'_, C> {
    /// Writes the working from the site to the wind on a post, in one of its
    /// cases.
    pub fn write(&self, post: &FencePost, case: &LoadCase<C::Level>, sheet: &mut Worksheet) {
        let Some(run) = self.runs.get(case.run) else {
            return;
        };
        sheet.cautions = sheet.cautions.and(self.cautions());
        if let Some(wall) = run.alone() {
            wall.write_site(sheet);
        }
        self.write_panels(post, sheet);
        let mut parts: Vec<(OnArm<C::Level>, Angle)> = Vec::new();
        let together = matches!(
            case.kind,
            LoadCaseKind::BothRuns | LoadCaseKind::GateOpenTogether
        );
        for arm in post.arms() {
            let single = matches!(
                case.kind,
                LoadCaseKind::AcrossRun | LoadCaseKind::GateOpenAcross
            );
            if case.kind == LoadCaseKind::GateOpenAlong || (single && arm.run != case.run) {
                continue;
            }
            let on_arm = match case.kind {
                LoadCaseKind::AcrossRun | LoadCaseKind::BothRuns => self.on_arm(arm, false),
                LoadCaseKind::GateOpenAcross => self.on_arm(arm, true),
                LoadCaseKind::GateOpenAlong | LoadCaseKind::GateOpenTogether => {
                    self.across_with_gate_open(post, arm)
                }
            };
            if let Some(on_arm) = on_arm
                && let Some(wall) = self
                    .runs
                    .get(arm.run)
                    .and_then(|r| r.walls.get(on_arm.wall))
            {
                if run
                    .alone()
                    .is_some_and(|first| !first.same_heights(&wall.wind))
                {
                    wall.wind.write_site(sheet);
                }
                let bays = arm.half_bays().from_origin(wall.from);
                wall.wind.write_on_post(on_arm.wind_case, &bays, sheet);
                if together {
                    wall.wind.write_resultant(sheet);
                }
                sheet.remark(format!("Across run {}.", arm.run + 1));
                if wall.gate_open {
                    sheet.remark("A gate is open: the fence up to it is a wall of its own.");
                } else if on_arm.wall > 0 {
                    sheet.remark("With the runs it goes on into as one wall.");
                }
                parts.push((on_arm, self.direction(post, arm)));
            }
        }
        if matches!(
            case.kind,
            LoadCaseKind::GateOpenAlong | LoadCaseKind::GateOpenTogether
        ) {
            for arm in post.arms() {
                if case.kind == LoadCaseKind::GateOpenAlong && arm.run != case.run {
                    continue;
                }
                for leaf in post.leaves().filter(|leaf| leaf.run == arm.run) {
                    if let Some(wall) = self.leaf_wind(arm.run, leaf.width) {
                        let (wind_case, _) = wall.worst(ft(0.0), leaf.width);
                        if run.alone().is_some_and(|first| !first.same_heights(wall)) {
                            wall.write_site(sheet);
                        }
                        wall.write(wind_case, ft(0.0), leaf.width, sheet);
                        if together {
                            wall.write_resultant(sheet);
                        }
                        sheet.remark(format!(
                            "Along run {}, onto its open leaf as a wall alone.",
                            arm.run + 1
                        ));
                    }
                }
                if let Some(on_leaf) = self.on_leaves(post, arm.run) {
                    self.write_both_leaves(post, arm.run, &on_leaf, sheet);
                    parts.push((on_leaf, self.direction(post, arm) + deg(90.0)));
                }
            }
        }
        sheet.section("At the ground line, from wind");
        sheet.remark(format!(
            "Load case: wind {}. {}: {}.",
            case.kind.name(),
            self.code.document(),
            case.wind.level().name()
        ));
        if let Some(wall) = run.alone() {
            write_at_grade(wall, case, &parts, sheet);
        }
        self.write_weight(post, case, sheet);
    }

    /// Writes the sum of two leaves of a run; nothing for one.
    fn write_both_leaves(
        &self,
        post: &FencePost,
        run: usize,
        on_leaf: &OnArm<C::Level>,
        sheet: &mut Worksheet,
    ) {
        let forces: Vec<_> = post
            .leaves()
            .filter(|leaf| leaf.run == run)
            .filter_map(|leaf| {
                let wall = self.leaf_wind(run, leaf.width)?;
                Some(wall.worst(ft(0.0), leaf.width).1)
            })
            .collect();
        if let [one, other] = forces[..] {
            sheet.push(
                Step::computed("W", "both leaves", "Wa + Wb", on_leaf.wind.shear())
                    .with("Wa", one)
                    .with("Wb", other)
                    .cite(&source::STATICS),
            );
        }
    }

    /// Writes the solidity of each kind of panel the post carries.
    fn write_panels(&self, post: &FencePost, sheet: &mut Worksheet) {
        let panels = post
            .arms()
            .filter_map(|arm| self.fence.runs().get(arm.run))
            .map(FenceRun::panel);
        let mut last = None;
        for panel in panels {
            if last != Some(panel) {
                panel.write_solidity(sheet);
            }
            last = Some(panel);
        }
    }

    fn write_weight(&self, post: &FencePost, case: &LoadCase<C::Level>, sheet: &mut Worksheet) {
        sheet.section("Weight at the ground line");
        let mut formula: Vec<String> = Vec::new();
        let mut weight = Step::computed("N", "weight at grade", "", case.dead.axial());
        let panels = [("g1", "s1", "w1"), ("g2", "s2", "w2")];
        for (arm, (g, s, w)) in post.arms().zip(panels) {
            if let Some(run) = self.fence.runs().get(arm.run) {
                formula.push(format!("{g}*{s}*{w}"));
                weight = weight
                    .with(g, run.panel().weight())
                    .with(s, run.panel().height())
                    .with(w, arm.open_to - arm.open_from);
            }
        }
        let mut turning = Step::computed(
            "Ml",
            "moment of the hung leaf at grade, at half its width",
            "",
            Self::leaf_moment(post),
        );
        let mut leaf_formula: Vec<String> = Vec::new();
        for (leaf, (g, l)) in post.leaves().zip([("G1", "l1"), ("G2", "l2")]) {
            formula.push(g.to_owned());
            weight = weight.with(g, leaf.weight);
            leaf_formula.push(format!("{g}*{l}/2"));
            turning = turning.with(g, leaf.weight).with(l, leaf.width);
        }
        weight.formula = formula.join(" + ").into();
        sheet.push(weight.cite(&source::STATICS));
        if !leaf_formula.is_empty() {
            turning.formula = leaf_formula.join(" + ").into();
            sheet.push(turning.cite(&source::STATICS));
        }
    }
}

fn write_at_grade<C: WindCode>(
    wall: &WallWind<C>,
    case: &LoadCase<C::Level>,
    parts: &[(OnArm<C::Level>, Angle)],
    sheet: &mut Worksheet,
) {
    const FORCES: [&str; 4] = ["W1", "W2", "W3", "W4"];
    const MOMENTS: [&str; 4] = ["M1", "M2", "M3", "M4"];
    const COSINES: [[&str; 4]; 4] = [
        ["", "c12", "c13", "c14"],
        ["", "", "c23", "c24"],
        ["", "", "", "c34"],
        ["", "", "", ""],
    ];
    if let [_] = parts {
        wall.write_resultant(sheet);
        let height = wall.resultant_height();
        sheet.push(Step::given(
            "Vw",
            "wind shear at grade: W above",
            case.wind.shear(),
        ));
        sheet.push(
            Step::computed("Mw", "wind moment at grade", "Vw*hr", case.wind.moment())
                .with("Vw", case.wind.shear())
                .with("hr", height)
                .cite(&source::STATICS),
        );
        return;
    }
    let parts = parts.get(..parts.len().min(4)).unwrap_or(&[]);
    sheet.remark(
        "The winds act in full at once, added as vectors; c is the cosine between two of them, \
         taken positive. hr is the height of the resultant of each part.",
    );
    for (i, (part, _)) in parts.iter().enumerate() {
        let (force, moment) = (part.wind.shear(), part.wind.moment());
        sheet.push(
            Step::computed(MOMENTS[i], "moment at grade of this part", "W*hr", moment)
                .with("W", force)
                .with("hr", arm(moment, force))
                .cite(&source::STATICS),
        );
    }
    let total = |symbols: [&str; 4]| {
        let mut sum: Vec<_> = (0..parts.len())
            .map(|i| format!("{}^2", symbols[i]))
            .collect();
        for i in 0..parts.len() {
            for j in i + 1..parts.len() {
                sum.push(format!("2*{}*{}*{}", symbols[i], symbols[j], COSINES[i][j]));
            }
        }
        format!("sqrt({})", sum.join(" + "))
    };
    let mut shear = Step::computed(
        "Vw",
        "wind shear at grade",
        total(FORCES),
        case.wind.shear(),
    );
    let mut turning = Step::computed(
        "Mw",
        "wind moment at grade",
        total(MOMENTS),
        case.wind.moment(),
    );
    for (i, (part, towards)) in parts.iter().enumerate() {
        shear = shear.with(FORCES[i], part.wind.shear());
        turning = turning.with(MOMENTS[i], part.wind.moment());
        for (j, (_, away)) in parts.iter().enumerate().skip(i + 1) {
            let cosine = positive_cosine(*towards - *away);
            sheet.push(Step::given_number(
                COSINES[i][j],
                "cosine between two parts, taken positive",
                cosine,
            ));
            shear = shear.with_number(COSINES[i][j], cosine);
            turning = turning.with_number(COSINES[i][j], cosine);
        }
    }
    sheet.push(shear.cite(&source::STATICS));
    sheet.push(turning.cite(&source::STATICS));
}
