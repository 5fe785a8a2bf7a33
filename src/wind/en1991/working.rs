//! The working of the wind to EN 1991-1-4, line by line.

use super::velocity::{EnSite, PeakPressure};
use super::walls::{
    Figure, L_OVER_H, LEAST_SOLIDITY, NO_RETURN, SIGNBOARD, WITH_RETURN, l_over_h, row, zone_at,
};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Measure, Pressure};
use crate::wind::patterns::{Edge, Strip, WindCase};
use crate::wind::wall_wind::WallWind;

impl PeakPressure {
    /// Writes the working.
    pub fn write(&self, site: &EnSite, sheet: &mut Worksheet) {
        sheet.section("Peak velocity pressure");
        if let Some(qp) = site.given {
            sheet.remark("EN 1991-1-4; the peak velocity pressure was given, for every height.");
            sheet.push(
                Step::given("qp", "peak velocity pressure", qp)
                    .shown_as(Measure::WindPressure)
                    .cite(&source::GIVEN),
            );
            return;
        }
        sheet.remark(format!(
            "EN 1991-1-4, terrain category {}. Recommended values unless given; the National Annex \
             governs.",
            site.terrain.name()
        ));
        sheet.push(Step::given(
            "vb0",
            "fundamental basic velocity, 10-minute mean, characteristic",
            site.speed.speed(),
        ));
        let vb = site.basic_velocity();
        sheet.push(
            Step::computed("vb", "basic velocity", "cdir*cseason*cprob*vb0", vb)
                .with_number("cdir", site.direction)
                .with_number("cseason", site.season)
                .with_number("cprob", site.probability)
                .with("vb0", site.speed.speed())
                .cite(&source::EN1991_4_2),
        );
        let (z0, zmin) = (site.terrain.roughness_length(), site.terrain.least_height());
        sheet.push(Step::given(
            "z",
            "reference height above the ground around",
            self.height,
        ));
        sheet.push(
            Step::computed_number(
                "kr",
                "terrain factor",
                sheet.by_system("0.19*(z0/0.164042)^0.07", "0.19*(z0/0.05)^0.07"),
                self.kr,
            )
            .with("z0", z0)
            .cite(&source::EN1991_4_3),
        );
        sheet.push(
            Step::computed_number(
                "cr",
                "roughness factor",
                "kr*ln(max(z, zmin)/z0)",
                self.roughness_factor,
            )
            .with_number("kr", self.kr)
            .with("z", self.height)
            .with("zmin", zmin)
            .with("z0", z0)
            .cite(&source::EN1991_4_3),
        );
        sheet.push(
            Step::computed("vm", "mean velocity", "cr*co*vb", self.mean_velocity)
                .with_number("cr", self.roughness_factor)
                .with_number("co", site.orography)
                .with("vb", vb)
                .cite(&source::EN1991_4_3),
        );
        sheet.push(
            Step::computed_number(
                "Iv",
                "turbulence intensity",
                "kI/(co*ln(max(z, zmin)/z0))",
                self.turbulence_intensity,
            )
            .with_number("kI", site.turbulence)
            .with_number("co", site.orography)
            .with("z", self.height)
            .with("zmin", zmin)
            .with("z0", z0)
            .cite(&source::EN1991_4_4),
        );
        sheet.push(
            Step::computed(
                "qp",
                "peak velocity pressure",
                sheet.by_system(
                    "(1 + 7*Iv)*0.5*rho*vm^2*0.00417384",
                    "(1 + 7*Iv)*0.5*rho*vm^2",
                ),
                self.pressure(),
            )
            .shown_as(Measure::WindPressure)
            .with_number("Iv", self.turbulence_intensity)
            .with("rho", site.density)
            .with("vm", self.mean_velocity)
            .cite(&source::EN1991_4_5),
        );
    }
}

impl WallWind<EnSite> {
    pub(super) fn write_proportions(&self, sheet: &mut Worksheet) {
        let shape = self.shape();
        sheet.remark(match self.working.figure {
            Figure::Wall => "Free-standing wall, 7.4.1.",
            Figure::Signboard => {
                "Signboard, 7.4.3: the gap below is a quarter of the height or more, or it is not \
                 longer than high."
            }
            Figure::Lattice(_) => "Plane lattice, 7.11, coefficient as given.",
        });
        sheet.push(
            Step::computed_number(
                "l/h",
                "length ratio, h the top of the (more solid part of the) panel",
                "l/h",
                l_over_h(shape),
            )
            .with("l", shape.length())
            .with("h", shape.dense_part().1),
        );
        sheet.push(Step::given_number(
            "cscd",
            "structural factor, 1 below 15 m (clause from memory: 6.2(1))",
            self.code().structural,
        ));
    }

    fn push_pressure(
        &self,
        symbol: &'static str,
        coefficient: f64,
        porosity: Option<f64>,
        pressure: Pressure,
        clause: &'static source::Citation,
        sheet: &mut Worksheet,
    ) {
        let formula = if porosity.is_some() {
            "cscd*qp*cp*eps"
        } else {
            "cscd*qp*cp"
        };
        let mut step = Step::computed(symbol, "pressure on gross area", formula, pressure)
            .shown_as(Measure::WindPressure)
            .with_number("cscd", self.code().structural)
            .with_as("qp", self.working.peak.pressure(), Measure::WindPressure)
            .with_number("cp", coefficient);
        if let Some(solidity) = porosity {
            step = step.with_number("eps", solidity);
        }
        sheet.push(step.cite(clause));
    }

    pub(super) fn write_single(&self, case: WindCase, sheet: &mut Worksheet) {
        let pressures = *self.pressures();
        match (case, self.working.figure) {
            (WindCase::OffCentre(_), Figure::Signboard) => {
                sheet.push(
                    Step::given_number("cp", "force coefficient cf of signboards", SIGNBOARD)
                        .cite(&source::EN1991_7_4_3),
                );
                if let Some(off) = pressures.off_centre {
                    self.push_pressure(
                        "p",
                        off.coefficient,
                        None,
                        off.pressure,
                        &source::EN1991_7_4_3,
                        sheet,
                    );
                }
            }
            (_, Figure::Lattice(cf)) => {
                sheet.push(
                    Step::given_number(
                        "cp",
                        "force coefficient cf of the lattice, on solid area",
                        cf,
                    )
                    .cite(&source::GIVEN),
                );
                if let Some(uniform) = pressures.uniform {
                    self.push_pressure(
                        "p",
                        cf,
                        Some(self.shape().solidity()),
                        uniform.pressure,
                        &source::EN1991_7_11,
                        sheet,
                    );
                }
            }
            _ => {}
        }
    }

    pub(super) fn write_zone_rules(&self, sheet: &mut Worksheet) {
        let shape = self.shape();
        sheet.remark(
            "Zones from the windward end: A to 0.3 h, B to 2 h, C to 4 h, D beyond; split at h from \
             either end where shelter counts.",
        );
        sheet.push(Step::given_number(
            "eps",
            "solidity of the most solid part",
            shape.densest(),
        ));
        if self.code().shelter < 1.0 {
            sheet.push(
                Step::given_number(
                    "psi",
                    "shelter factor as given, farther than h from the ends only",
                    self.code().shelter,
                )
                .cite(&source::EN1991_7_4_2),
            );
        }
    }

    pub(super) fn write_strip(
        &self,
        case: WindCase,
        strip: &Strip,
        symbol: &'static str,
        sheet: &mut Worksheet,
    ) {
        const LETTERS: [&str; 4] = [
            "zone A without return: rows l/h = r1, r2, at r",
            "zone B without return: rows l/h = r1, r2, at r",
            "zone C without return: rows l/h = r1, r2, at r",
            "zone D without return: rows l/h = r1, r2, at r",
        ];
        let shape = self.shape();
        let edge = case.edge().unwrap_or(Edge::Start);
        let near = match edge {
            Edge::Start => strip.from,
            Edge::End => shape.length() - strip.to,
        };
        let (h, l) = (shape.top(), l_over_h(shape));
        let distance = near.value / h.value;
        let zone = zone_at(distance);
        let (index, u) = row(l);
        let (low, high) = (NO_RETURN[index][zone], NO_RETURN[index + 1][zone]);
        let held = l.max(L_OVER_H[index]).min(L_OVER_H[index + 1]);
        let free = low + (high - low) * u;
        sheet.push(
            Step::computed_number(
                "cn",
                LETTERS[zone],
                "c1 + (c2 - c1)*(r - r1)/(r2 - r1)",
                free,
            )
            .with_number("c1", low)
            .with_number("c2", high)
            .with_number("r", held)
            .with_number("r1", L_OVER_H[index])
            .with_number("r2", L_OVER_H[index + 1])
            .cite(&source::EN1991_7_4_1),
        );
        let mut solid = free;
        if let Some(ratio) = self.working.returns[edge.index()] {
            let corner = ratio.min(1.0);
            solid = free + (WITH_RETURN[zone] - free) * corner;
            sheet.push(
                Step::computed_number(
                    "ct",
                    "with the return corner: between no return and one of h",
                    "cn + (cw - cn)*min(lr, 1)",
                    solid,
                )
                .with_number("cn", free)
                .with_number("cw", WITH_RETURN[zone])
                .with_number("lr", ratio)
                .cite(&source::EN1991_7_4_1),
            );
        }
        let whole = shape.length().value / h.value;
        let shelter = self.code().shelter_at(distance, whole);
        let mut step = Step::computed_number(
            "cp",
            "net pressure coefficient of the zone",
            if shelter < 1.0 {
                "psi*(1.2 + (cs - 1.2)*(eps - 0.8)/0.2)"
            } else {
                "1.2 + (cs - 1.2)*(eps - 0.8)/0.2"
            },
            strip.coefficient,
        )
        .with_number("cs", solid)
        .with_number("eps", shape.densest().max(LEAST_SOLIDITY))
        .with("from", strip.from)
        .with("to", strip.to);
        if shelter < 1.0 {
            step = step.with_number("psi", shelter);
        }
        sheet.push(step.cite(&source::EN1991_7_4_1));
        self.push_pressure(
            symbol,
            strip.coefficient,
            None,
            strip.pressure,
            &source::EN1991_7_4_1,
            sheet,
        );
    }
}
