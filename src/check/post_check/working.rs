//! The working of a post check, line by line.

use super::PostCheck;
use crate::actions::LoadCase;
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::limit_state::AllowableStress;
use crate::step::{Step, Worksheet};
use crate::units::UnitSystem;

impl<L: CombinesTo<AllowableStress>> PostCheck<L> {
    /// The worksheet of a post that stands outside any fence.
    pub fn worksheet(&self, title: impl Into<String>, system: UnitSystem) -> Worksheet {
        let mut sheet = Worksheet::new(title.into(), system);
        self.write_with(&mut sheet, |_, _| {});
        sheet.cautions = self.cautions();
        sheet
    }

    /// Writes the working; before the actions of each load case it uses,
    /// `wind` writes how its wind came about.
    pub(crate) fn write_with(
        &self,
        sheet: &mut Worksheet,
        wind: impl Fn(&LoadCase<L>, &mut Worksheet),
    ) {
        let combination = self.design.combination();
        let from_wind = |case: &Option<LoadCase<L>>, sheet: &mut Worksheet| {
            if let Some(case) = case {
                wind(case, sheet);
                case.write_combined(combination, sheet);
            }
        };
        if self.required_case.is_none() {
            sheet.section("At the ground line, allowable-stress level");
            sheet.remark("Actions as given.");
            sheet.push(Step::given("P", "shear at grade", self.actions().shear()));
            sheet.push(Step::given("M", "moment at grade", self.actions().moment()));
            sheet.push(Step::given("N", "weight at grade", self.actions().axial()));
        }
        from_wind(&self.required_case, sheet);
        self.design.ground().write(self.actions().level(), sheet);
        self.design.foundation().write(sheet);
        if let Some(setting) = self.design.setting() {
            sheet.remark(format!("Set in: {}.", setting.name()));
        }
        if let Some((rests, needs)) = self.design.rest() {
            sheet.remark(format!(
                "Rests {} days before the wind comes on it, needs {}.",
                rests.days(),
                needs.days()
            ));
        }
        self.required.write(sheet);
        if let Some(check) = &self.planned {
            if self.planned_case != self.required_case {
                sheet.section("Another load case is worse for the planned depth");
                from_wind(&self.planned_case, sheet);
            }
            check.write(sheet);
        }
        let shown = if self.planned.is_some() {
            &self.planned_case
        } else {
            &self.required_case
        };
        let other = self.strength_case != *shown;
        if other {
            sheet.section("Another load case is worse for the post itself");
        }
        if let Some(case) = &self.strength_case
            && (other || combination.has_omega())
        {
            if other {
                wind(case, sheet);
            }
            case.write_combined(&combination.without_increase(), sheet);
        }
        if combination.has_omega() && self.strength_case.is_some() {
            sheet.remark(
                "For the post itself: omega is 1.3 only where an allowable stress is increased \
                 (IBC 1605.3.2), and those of the post are not.",
            );
        }
        self.strength.write(self.design.post(), sheet);
        sheet.remark(
            "Embedment L is the required depth, whatever the planned one: ground pressures that \
             hold the post there are in balance and allowed in any deeper hole too (static \
             theorem), so a deeper hole adds no bending.",
        );
        if let Some(bearing) = &self.bearing {
            bearing.write(sheet);
        } else {
            sheet.section("Vertical bearing");
            sheet.remark("Not checked: no allowable foundation pressure was given.");
        }
        self.write_result(sheet);
    }

    fn write_result(&self, sheet: &mut Worksheet) {
        sheet.section("Result");
        sheet.push(Step::given(
            "d",
            "required depth below grade",
            self.required.depth(),
        ));
        if let (Some(planned), Some(missing)) = (&self.planned, self.missing_depth()) {
            sheet.push(
                Step::computed("dm", "depth missing", "d - dp", missing)
                    .with("d", self.required.depth())
                    .with("dp", planned.depth()),
            );
        }
        for (check, symbol) in Governing::ALL.into_iter().zip(["u", "um", "uv", "ub"]) {
            let utilization = self.utilization_of(check);
            let unplanned = check == Governing::Embedment && self.planned.is_none();
            let unchecked = check == Governing::VerticalBearing && self.bearing.is_none();
            if !unplanned && !unchecked {
                let verdict = match self.condition() {
                    _ if !utilization.passes() => "FAILS".to_owned(),
                    Some(condition) if check == Governing::Embedment => {
                        format!("passes {condition}")
                    }
                    _ => "passes".to_owned(),
                };
                sheet.remark(format!(
                    "{}: utilization {} ({symbol}), {verdict}.",
                    check.name(),
                    utilization,
                ));
            }
        }
        if let (Some(condition), None) = (self.condition(), &self.planned) {
            sheet.remark(format!("The required depth is enough {condition}."));
        }
        if self.post_is_too_weak() {
            sheet.remark(
                "The post itself fails at the required depth, and increasing the depth does not \
                 help. The remedies list the single changes that pass.",
            );
        }
        if self.required.beyond_limit() {
            sheet.remark("The required depth is beyond 12 ft: not an answer for a fence post.");
        }
        let depth = self
            .planned
            .map_or(self.required.depth(), |check| check.depth());
        if self.design.foundation().hole().is_some() {
            sheet.push(Step::given(
                "Vc",
                "concrete, net, to the planned depth or else the required one",
                self.design.foundation().concrete_volume(depth),
            ));
        }
    }
}
