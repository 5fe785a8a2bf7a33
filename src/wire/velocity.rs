//! The velocity pressure of a site at a height, on the wire.

use super::reading::{Path, Problems};
use super::record::records;
use super::request::{Asked, Calculation, Done};
use super::site::{BuiltSite, SiteSpec};
use crate::caution::Cautions;
use crate::error::within;
use crate::step::Worksheet;
use crate::units::{Length, Pressure, m};
use crate::wind::{PeakPressure, PrintedPressure, VelocityPressure};

records! {
    /// The velocity pressure of a site at a height.
    VelocityPressureRequest {
        /// The site: asce7, en1991 or asnzs1170.
        site: SiteSpec,
        /// Height above ground; asnzs1170 has its multiplier given and does not
        /// look at it.
        height: Length,
    }
    /// The velocity pressure.
    VelocityPressureResult {
        /// The pressure, as the code prints it.
        pressure: Pressure,
        /// Which it is.
        what: String,
    }
}

impl Calculation for VelocityPressureRequest {
    const CALCULATE: &'static str = "velocity_pressure";
    type Result = VelocityPressureResult;
    const HAS_WORKSHEET: bool = true;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        let place = at.field("site");
        if let Some(
            BuiltSite::Strength(_)
            | BuiltSite::Allowable(_)
            | BuiltSite::Characteristic(_)
            | BuiltSite::Ultimate(_),
        ) = self.site.build(&place, problems)
        {
            problems.add(
                &place.field("kind"),
                None,
                "a pressure of your own has none",
            );
        }
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<VelocityPressureResult>> {
        let site = self.site.build(&at.field("site"), problems)?;
        let place = at.field("height");
        let mut sheet = Worksheet::new("Velocity pressure", asked.system);
        let (pressure, what): (Pressure, &str) = match site {
            BuiltSite::Asce(site) => {
                let q = problems.take(&place, VelocityPressure::at(&site, self.height))?;
                q.write(&mut sheet);
                match q.printed() {
                    PrintedPressure::Directional(q) => {
                        (q.pressure(), "qz, strength level, with Kd")
                    }
                    PrintedPressure::Undirected(q) => {
                        (q.pressure(), "qz, strength level, without Kd")
                    }
                }
            }
            BuiltSite::En(site) => {
                let q = problems.take(&place, PeakPressure::at(&site, self.height))?;
                q.write(&site, &mut sheet);
                (q.pressure(), "qp, characteristic")
            }
            BuiltSite::AsNzs(site) => {
                problems.take(&place, within("height", self.height, m(0.0), m(200.0)))?;
                site.write(&mut sheet);
                (
                    site.design_pressure(),
                    "0.5 rho V^2 of the design speed, ultimate; of the multipliers given, not of \
                     the height",
                )
            }
            _ => return None,
        };
        let result = VelocityPressureResult {
            pressure,
            what: what.to_owned(),
        };
        let done = Done::new(result, Cautions::default(), []).citing(&sheet);
        Some(if asked.worksheet {
            done.with_worksheet(sheet)
        } else {
            done
        })
    }
}
