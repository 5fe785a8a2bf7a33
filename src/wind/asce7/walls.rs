//! Fences to ASCE 7: solid free-standing walls, and open signs and frames.
//!
//! Solid: F = q_h Kd G Cf As, As = B s gross (7-10 29.4.1, 7-16 and 7-22
//! 29.3.1), q_h at the top; Cases A, B and C.
//! Open: F = q_z Kd G Cf Af, Af solid area (7-10 29.5, 7-16 and 7-22 29.4),
//! q_z at the middle of the solid area; uniform. Here both are pressures on
//! gross area, so the open one carries ε.
//!
//! Which figure holds is decided by solidity ([`HandOver`](super::HandOver)). A
//! panel of two infills is a wall if one of them would be: all of it, with the
//! openings of the most solid part and read in the figure by that part's
//! proportions, so that it is never lighter than that part standing alone. If
//! its gross solidity is below 0.7 the open figure is computed too, with the
//! greatest Cf of its bands, and the worse counts.
//!
//! Strength level. The minimum pressure of the standard (16 psf), on gross area of a
//! wall and on solid area of an open fence, is a load case of its own
//! ([`MinimumCase`](super::MinimumCase)).

use super::open_figure::{OpenShape, open_cf, open_shape};
use super::options::{EccentricCase, HandOver, MinimumCase};
use super::site::{AsceSite, Relief};
use super::velocity_pressure::VelocityPressure;
use super::wall_figure::{
    CaseC, REGION_EDGES, cf_cases_a_b, opening_factor, resultant_height, return_factor,
};
use crate::caution::{Caution, Cautions};
use crate::error::Error;
use crate::limit_state::Strength;
use crate::source::{self, Citation};
use crate::step::Worksheet;
use crate::units::{Length, Measurable, Pressure, REL_TOL};
use crate::wind::code::{WindCode, sealed};
use crate::wind::patterns::{OffCentre, Strip, Uniform, WallPressures, WindCase, Zones};
use crate::wind::wall::{WallEnds, WallShape};
use crate::wind::wall_wind::WallWind;

/// The eccentricity of Case B.
const CASE_B: f64 = 0.2;
/// The solidity at which openings make 30 %.
const OPEN_UP_TO: f64 = 0.7;

/// What the wall figure gave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Solid {
    pub(super) cf: f64,
    pub(super) opening_factor: f64,
    pub(super) uniform: Pressure,
    pub(super) case_c: Option<CaseC>,
    pub(super) return_factors: [f64; 2],
}

/// What the open figure gave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Open {
    pub(super) velocity_pressure: VelocityPressure,
    pub(super) shape: OpenShape,
    pub(super) cf: f64,
    pub(super) uniform: Pressure,
}

/// What the pressures of a wall were made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AsceWorking {
    /// At the top of the wall.
    pub(super) velocity_pressure: VelocityPressure,
    pub(super) solid: Option<Solid>,
    pub(super) open: Option<Open>,
}

impl AsceSite {
    #[inline]
    fn solid(
        &self,
        q: &VelocityPressure,
        shape: &WallShape,
        ends: &WallEnds,
    ) -> Result<(Solid, Option<Zones>), Error> {
        let options = self.options();
        let (s_over_h, b_over_s) = (shape.dense_s_over_h(), shape.dense_b_over_s());
        let cf = cf_cases_a_b(s_over_h, b_over_s)?;
        let opening_factor = opening_factor(shape.densest())?;
        let case_c = CaseC::new(s_over_h, b_over_s, options.column_gap)?;
        let reduces = case_c.is_some_and(|c| c.takes_return_factor());
        let mut return_factors = [1.0; 2];
        let returns = ends.returns_over(shape.panel_height())?;
        for (factor, ratio) in return_factors.iter_mut().zip(returns) {
            if let Some(ratio) = ratio {
                let reduced = return_factor(ratio, options.short_return)?;
                if reduces {
                    *factor = reduced;
                }
            }
        }
        let per_cf = q.directional().pressure() * (self.gust_factor() * opening_factor);
        let floor = self.floor();
        let pressure = |cf: f64| (per_cf * cf).max(floor);
        let zones = case_c.map(|c| {
            let mut coefficients = [c.cf; 2];
            coefficients[0][0] *= return_factors[0];
            coefficients[1][0] *= return_factors[1];
            let mut edges = [0.0; 7];
            edges.copy_from_slice(&REGION_EDGES[..7]);
            Zones::new(shape.panel_height(), edges, coefficients, pressure)
        });
        let solid = Solid {
            cf,
            opening_factor,
            uniform: pressure(cf),
            case_c,
            return_factors,
        };
        Ok((solid, zones))
    }

    /// The pressure below which no strip may fall: none where the minimum is a load
    /// case of its own.
    #[inline]
    fn floor(&self) -> Pressure {
        match self.options().minimum_case {
            MinimumCase::OwnCase => Pressure::from_si(0.0),
            MinimumCase::EveryStrip => self.minimum_pressure(),
        }
    }

    fn open(&self, shape: &WallShape) -> Result<Open, Error> {
        let velocity_pressure = VelocityPressure::at(self, shape.solid_height())?;
        let q = velocity_pressure.directional().pressure();
        let member = open_shape(shape.member(), q)?;
        let solidity = shape.solidity();
        // Of a panel of two infills the band that drags most. Just above 70 %
        // the last band is the nearest.
        let mut cf = 0.0_f64;
        for band in [shape.sparsest(), solidity, shape.densest()] {
            cf = cf.max(open_cf(band.min(OPEN_UP_TO), member)?);
        }
        let pressure = q * (self.gust_factor() * cf);
        let on_solid = pressure.max(self.floor());
        Ok(Open {
            velocity_pressure,
            shape: member,
            cf,
            uniform: on_solid * solidity,
        })
    }
}

impl sealed::Sealed for AsceSite {}
impl WindCode for AsceSite {
    type Level = Strength;
    type Working = AsceWorking;

    #[inline]
    fn level(&self) -> Strength {
        Strength
    }

    fn document(&self) -> &'static str {
        self.edition().name()
    }

    fn case_name(&self, case: WindCase) -> &'static str {
        match case {
            WindCase::Uniform => "Case A",
            WindCase::OffCentre(_) => "Case B",
            WindCase::Zones(_) => "Case C",
            WindCase::Along(_) => "none",
            WindCase::Minimum => "minimum design pressure",
        }
    }

    #[inline]
    fn pressures(
        &self,
        shape: &WallShape,
        ends: &WallEnds,
    ) -> Result<(WallPressures, AsceWorking), Error> {
        let options = self.options();
        let velocity_pressure = VelocityPressure::at(self, shape.top())?;
        let wall_from = options.hand_over.wall_from() - REL_TOL;
        let (solid, zones) = if shape.densest() >= wall_from {
            let (solid, zones) = self.solid(&velocity_pressure, shape, ends)?;
            (Some(solid), zones)
        } else {
            (None, None)
        };
        let open_below = match options.hand_over {
            HandOver::Guarded => OPEN_UP_TO + REL_TOL,
            HandOver::AsPrinted => OPEN_UP_TO - REL_TOL,
        };
        let open = if shape.solidity() < open_below {
            Some(self.open(shape)?)
        } else {
            None
        };
        let by_wall = solid.map(|solid| Uniform {
            coefficient: solid.cf,
            pressure: solid.uniform,
        });
        let by_open = open.map(|open| Uniform {
            coefficient: open.cf,
            pressure: open.uniform,
        });
        let uniform = match (by_wall, by_open) {
            (Some(wall), Some(open)) if open.pressure > wall.pressure => Some(open),
            (wall, open) => wall.or(open),
        };
        let has_b = options.spreads_case_b(shape.dense_b_over_s());
        let off_centre = by_wall.filter(|_| has_b).map(|wall| OffCentre {
            coefficient: wall.coefficient,
            pressure: wall.pressure,
            eccentricity: CASE_B,
        });
        // Of an open fence the minimum is on solid area.
        let share = if solid.is_some() {
            1.0
        } else {
            shape.solidity()
        };
        let minimum = Some(Uniform {
            coefficient: 1.0,
            pressure: self.minimum_pressure() * share,
        });
        let minimum = minimum.filter(|least| {
            options.minimum_case == MinimumCase::OwnCase
                && uniform.is_some_and(|uniform| least.pressure > uniform.pressure)
        });
        let resultant = if solid.is_some() {
            resultant_height(shape, options.resultant_height)
        } else {
            shape.solid_height()
        };
        let pressures = WallPressures {
            uniform,
            off_centre,
            zones,
            along: None,
            minimum,
            resultant,
        };
        let working = AsceWorking {
            velocity_pressure,
            solid,
            open,
        };
        Ok((pressures, working))
    }

    fn clause(wall: &WallWind<Self>, case: WindCase, zone: usize) -> &'static Citation {
        let floor = wall.code().floor();
        let pressures = wall.pressures();
        let pressure = match (case, &pressures.zones) {
            (WindCase::Zones(edge), Some(zones)) => zones.pressure(edge, zone),
            _ => pressures.uniform.map(|uniform| uniform.pressure),
        };
        match case {
            WindCase::Minimum => &source::ASCE7_MINIMUM,
            WindCase::Uniform if wall.uniform_is_open() => &source::ASCE7_OPEN_SIGN,
            WindCase::OffCentre(_) => &source::ASCE7_WALL_CASE_B,
            _ if pressure == Some(floor) => &source::ASCE7_MINIMUM,
            WindCase::Uniform => &source::ASCE7_WALL_FORCE,
            WindCase::Zones(_) | WindCase::Along(_) => &source::ASCE7_WALL_CASE_C,
        }
    }

    fn with_off_centre_everywhere(&self) -> Option<Self> {
        let options = self.options();
        (options.case_b() != EccentricCase::EveryRun)
            .then(|| self.with_options(options.eccentric_case(EccentricCase::EveryRun)))
    }

    fn cautions(wall: &WallWind<Self>) -> Cautions {
        let from_memory = match wall.code().relief() {
            Relief::Feature(topography) => {
                let up = topography.speed_up(wall.code().exposure(), wall.shape().top());
                up.source.mark == source::Mark::FromMemory
            }
            Relief::Factor(_) => false,
        };
        Cautions::default()
            .and(wall.shape().cautions())
            .with_if(from_memory, Caution::FromMemory)
    }

    fn reference_heights(working: &AsceWorking) -> [Length; 2] {
        let top = working.velocity_pressure.height();
        match (working.solid, working.open) {
            (Some(_), Some(open)) => [top, open.velocity_pressure.height()],
            (None, Some(open)) => [open.velocity_pressure.height(); 2],
            _ => [top; 2],
        }
    }

    fn write_site(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        let working = &wall.working;
        if working.solid.is_some() {
            working.velocity_pressure.write(sheet);
        }
        if let Some(open) = &working.open {
            open.velocity_pressure
                .write_at("height of the middle of the open panel", sheet);
        }
    }

    fn write_shape(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.write_ratios(sheet);
    }

    fn write_uniform(wall: &WallWind<Self>, case: WindCase, sheet: &mut Worksheet) {
        wall.write_case_a_b(case, sheet);
    }

    fn write_zones(wall: &WallWind<Self>, case: WindCase, sheet: &mut Worksheet) {
        wall.write_case_c(case, sheet);
    }

    fn write_zone(
        wall: &WallWind<Self>,
        case: WindCase,
        strip: &Strip,
        symbol: &'static str,
        sheet: &mut Worksheet,
    ) {
        wall.write_strip(case, strip, symbol, sheet);
    }

    fn write_resultant(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.write_height(sheet);
    }
}

impl WallWind<AsceSite> {
    /// The velocity pressure at the top.
    #[inline]
    pub const fn velocity_pressure(&self) -> &VelocityPressure {
        &self.working.velocity_pressure
    }
    /// Cf of Cases A and B, where the wall figure is used.
    #[inline]
    pub fn cf(&self) -> Option<f64> {
        self.working.solid.map(|solid| solid.cf)
    }
    /// The factor for openings, where the wall figure is used.
    #[inline]
    pub fn opening_factor(&self) -> Option<f64> {
        self.working.solid.map(|solid| solid.opening_factor)
    }
    /// Cf of the open figure, on solid area, where it is used.
    #[inline]
    pub fn open_cf(&self) -> Option<f64> {
        self.working.open.map(|open| open.cf)
    }
    /// Case C, where the wall figure is used and the wall is long enough for
    /// it.
    #[inline]
    pub fn case_c(&self) -> Option<CaseC> {
        self.working.solid.and_then(|solid| solid.case_c)
    }

    /// Is the uniform pressure that of the open figure?
    pub(super) fn uniform_is_open(&self) -> bool {
        match (&self.working.solid, &self.working.open) {
            (Some(solid), Some(open)) => open.uniform > solid.uniform,
            (solid, _) => solid.is_none(),
        }
    }
}
