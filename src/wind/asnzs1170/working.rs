//! The working of the wind to AS/NZS 1170.2, line by line.

use super::hoarding::{Formula, LEAST_B_OVER_C};
use super::site::AsNzsSite;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Measure, Pressure};
use crate::wind::code::WindCode;
use crate::wind::patterns::{Strip, WindCase};
use crate::wind::wall_wind::WallWind;

impl WallWind<AsNzsSite> {
    pub(super) fn write_proportions(&self, sheet: &mut Worksheet) {
        let shape = self.shape();
        let hoarding = &self.working.hoarding;
        let (foot, top) = shape.dense_part();
        sheet.push(
            Step::computed_number(
                "b/c",
                "length over height of the (more solid part of the) panel: c is s here",
                "b/s",
                hoarding.b_over_c,
            )
            .with("b", shape.length())
            .with("s", top - foot),
        );
        sheet.push(
            Step::computed_number("c/h", "its height over its top", "s/h", hoarding.c_over_h)
                .with("s", top - foot)
                .with("h", top),
        );
        sheet.push(
            Step::computed_number(
                "Kp",
                "factor for porosity, of the most solid part",
                "1 - (1 - delta)^2",
                self.working.porosity,
            )
            .with_number("delta", shape.densest())
            .cite(&source::ASNZS_POROSITY),
        );
        if hoarding.beyond_table() {
            sheet.remark("b/c is below the least of the table, 0.5: the value at 0.5 is held.");
        }
    }

    fn write_normal(&self, sheet: &mut Worksheet) {
        let hoarding = &self.working.hoarding;
        let symbol = "Cpn";
        let meaning = "net pressure coefficient, wind square on";
        let b = hoarding.b_over_c.max(LEAST_B_OVER_C);
        let step = match hoarding.formula {
            Formula::Short => Step::computed_number(
                symbol,
                meaning,
                "1.3 + 0.5*(0.3 + log10(bc))*(0.8 - ch)",
                hoarding.normal(),
            )
            .with_number("bc", b)
            .with_number("ch", hoarding.c_over_h),
            Formula::Long => {
                Step::computed_number(symbol, meaning, "1.7 - 0.5*ch", hoarding.normal())
                    .with_number("ch", hoarding.c_over_h)
            }
            Formula::High => {
                Step::computed_number(symbol, meaning, "1.4 + 0.3*log10(bc)", hoarding.normal())
                    .with_number("bc", b)
            }
            Formula::HighLong => Step::computed_number(
                symbol,
                meaning,
                "max(1.4 + 0.3*log10(bc), 1.7 - 0.5*ch)",
                hoarding.normal(),
            )
            .with_number("bc", b)
            .with_number("ch", hoarding.c_over_h),
        };
        let clause = AsNzsSite::clause(self, WindCase::Uniform, 0);
        sheet.push(step.cite(clause));
    }

    pub(super) fn write_single(&self, case: WindCase, sheet: &mut Worksheet) {
        let pressures = *self.pressures();
        let (coefficient, pressure) = match (case, pressures.uniform, pressures.off_centre) {
            (WindCase::OffCentre(_), _, Some(off)) => {
                if pressures.zones.is_some() {
                    self.write_mean(off.coefficient, sheet);
                } else {
                    self.write_normal(sheet);
                }
                (off.coefficient, off.pressure)
            }
            (_, Some(uniform), _) => {
                self.write_normal(sheet);
                (uniform.coefficient, uniform.pressure)
            }
            _ => return,
        };
        self.push_pressure("p", coefficient, pressure, case, sheet);
    }

    /// The mean coefficient of the zones of oblique wind.
    fn write_mean(&self, mean: f64, sheet: &mut Worksheet) {
        const TERMS: [(&str, &str); 3] = [("C1", "l1"), ("C2", "l2"), ("C3", "l3")];
        let strips: Vec<Strip> = self
            .strips(WindCase::Zones(crate::wind::Edge::Start))
            .take(3)
            .collect();
        let sum: Vec<_> = TERMS
            .iter()
            .take(strips.len())
            .map(|(c, l)| format!("{c}*{l}"))
            .collect();
        let mut step = Step::computed_number(
            "Cpn",
            "mean of the zones, their force taken off centre",
            "",
            mean,
        )
        .with("b", self.shape().length());
        step.formula = format!("({})/b", sum.join(" + ")).into();
        for (strip, (c, l)) in strips.iter().zip(TERMS) {
            step = step
                .with_number(c, strip.coefficient)
                .with(l, strip.to - strip.from);
        }
        sheet.push(step.cite(&source::ASNZS_OFF_CENTRE_ZONES));
    }

    pub(super) fn write_strip(
        &self,
        case: WindCase,
        strip: &Strip,
        symbol: &'static str,
        sheet: &mut Worksheet,
    ) {
        const MEANINGS: [&str; 3] = [
            "net pressure coefficient of the first zone",
            "net pressure coefficient of the second zone",
            "net pressure coefficient of the last zone",
        ];
        let meaning = MEANINGS[strip.zone.min(2)];
        sheet.push(Step::given("zf", "zone from", strip.from));
        sheet.push(Step::given("zt", "zone to", strip.to));
        sheet.push(Step::given_number("Cpn", meaning, strip.coefficient).cite(strip.clause));
        self.push_pressure(symbol, strip.coefficient, strip.pressure, case, sheet);
    }

    fn push_pressure(
        &self,
        symbol: &'static str,
        coefficient: f64,
        pressure: Pressure,
        case: WindCase,
        sheet: &mut Worksheet,
    ) {
        sheet.push(
            Step::computed(symbol, "pressure on gross area", "q*Cpn*Kp", pressure)
                .shown_as(Measure::WindPressure)
                .with_as("q", self.code().design_pressure(), Measure::WindPressure)
                .with_number("Cpn", coefficient)
                .with_number("Kp", self.working.porosity)
                .cite(match case {
                    WindCase::OffCentre(_) if self.pressures().zones.is_none() => {
                        &source::ASNZS_B2_B
                    }
                    _ => AsNzsSite::clause(self, case, 0),
                }),
        );
    }
}
