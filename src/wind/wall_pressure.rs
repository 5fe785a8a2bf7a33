//! Wind on any piece of a straight solid wall, by load case.
//!
//! F = q_h Kd G Cf As, with As = B s gross (7-10 29.4.1, 7-16 and 7-22
//! 29.3.1), q_h at the top. Pressures are at strength level, positive in the
//! wind direction, and act on gross area; both wind directions give the same
//! magnitude, so the sign is left to the reader.
//!
//! The minimum pressure of the standard (16 psf) holds for every strip, which
//! is never less than holding it for the whole fence.

mod working;

use super::velocity_pressure::VelocityPressure;
use super::wall_shape::{
    CaseC, EccentricCase, REGION_EDGES, WallEnd, WallEnds, WallOptions, WallShape, cf_cases_a_b,
    opening_factor, return_factor,
};
use crate::error::Error;
use crate::units::{Force, Length, Measurable, Pressure};

/// A wind load case of a straight wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum WindCase {
    /// Case A: uniform pressure.
    A,
    /// Case B, resultant 0.2 B from the centre towards the start of the run.
    BTowardsStart,
    /// Case B towards the end of the run.
    BTowardsEnd,
    /// Case C, windward edge at the start of the run.
    CFromStart,
    /// Case C, windward edge at the end of the run.
    CFromEnd,
}

impl WindCase {
    /// All five.
    pub const ALL: [Self; 5] = [
        Self::A,
        Self::BTowardsStart,
        Self::BTowardsEnd,
        Self::CFromStart,
        Self::CFromEnd,
    ];

    /// Its letter.
    #[inline]
    pub const fn letter(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::BTowardsStart | Self::BTowardsEnd => "B",
            Self::CFromStart | Self::CFromEnd => "C",
        }
    }

    /// The case of the mirrored fence.
    #[must_use]
    #[inline]
    pub const fn mirrored(self) -> Self {
        match self {
            Self::A => Self::A,
            Self::BTowardsStart => Self::BTowardsEnd,
            Self::BTowardsEnd => Self::BTowardsStart,
            Self::CFromStart => Self::CFromEnd,
            Self::CFromEnd => Self::CFromStart,
        }
    }
}

/// A strip of constant pressure along a wall in one case.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Strip {
    /// From the start of the run.
    pub from: Length,
    /// From the start of the run.
    pub to: Length,
    /// Cf with every factor but that of openings.
    pub cf: f64,
    /// The pressure on gross area, not less than the minimum.
    pub pressure: Pressure,
    /// Which region of the figure, counted from the windward edge.
    pub region: usize,
}

/// The wind on one straight wall: all cases, ready to be asked for any piece.
///
/// ```
/// use groundline::{units::*, wind::*};
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = WindSite::new(Edition::Asce7_16, v, Exposure::C);
/// let wall = WallShape::new(ft(96.0), ft(6.0), ft(0.0), 1.0)?;
/// let wind = WallWind::new(&site, wall, WallEnds::FREE, WallOptions::default())?;
/// // The first post carries the first 4 ft, all in the steepest strip.
/// let (case, force) = wind.worst(ft(0.0), ft(4.0));
/// assert_eq!(case, WindCase::CFromStart);
/// assert!(force > wind.force(WindCase::A, ft(0.0), ft(4.0)));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct WallWind {
    velocity_pressure: VelocityPressure,
    shape: WallShape,
    ends: WallEnds,
    options: WallOptions,
    cf: f64,
    opening_factor: f64,
    uniform: Pressure,
    case_c: Option<CaseC>,
    return_factors: [f64; 2],
    /// Case C pressures a region; the first one apart for each windward edge.
    strips: [Pressure; 7],
    first: [Pressure; 2],
}

impl WallWind {
    /// The wind on a wall at a site.
    ///
    /// # Errors
    /// Where an option refuses the proportions of the wall, or a return length
    /// is negative or not finite.
    #[inline]
    pub fn new(
        site: &crate::wind::WindSite,
        shape: WallShape,
        ends: WallEnds,
        options: WallOptions,
    ) -> Result<Self, Error> {
        let velocity_pressure = VelocityPressure::at(site, shape.top())?;
        let (s_over_h, b_over_s) = (shape.s_over_h(), shape.b_over_s());
        let cf = cf_cases_a_b(s_over_h, b_over_s)?;
        let opening_factor = opening_factor(shape.solidity())?;
        let case_c = CaseC::new(s_over_h, b_over_s, options.column_gap)?;
        let reduces = case_c.is_some_and(|c| c.takes_return_factor());
        let factor = |end: WallEnd| match end {
            WallEnd::Return(length) => {
                let ratio = length.value / shape.panel_height().value;
                let factor = return_factor(ratio, options.short_return)?;
                Ok(if reduces { factor } else { 1.0 })
            }
            WallEnd::Free => Ok(1.0),
        };
        let return_factors = [factor(ends.start)?, factor(ends.end)?];

        let per_cf =
            velocity_pressure.directional().pressure() * (site.gust_factor() * opening_factor);
        let least = site.minimum_pressure();
        let pressure = |cf: f64| {
            let p = per_cf * cf;
            if p > least { p } else { least }
        };
        let coefficients = case_c.map_or([0.0; 7], |c| c.cf);
        Ok(Self {
            velocity_pressure,
            shape,
            ends,
            options,
            cf,
            opening_factor,
            uniform: pressure(cf),
            case_c,
            return_factors,
            strips: coefficients.map(pressure),
            first: return_factors.map(|f| pressure(coefficients[0] * f)),
        })
    }

    /// The velocity pressure at the top.
    #[inline]
    pub const fn velocity_pressure(&self) -> &VelocityPressure {
        &self.velocity_pressure
    }
    /// The outline.
    #[inline]
    pub const fn shape(&self) -> &WallShape {
        &self.shape
    }
    /// The ends.
    #[inline]
    pub const fn ends(&self) -> &WallEnds {
        &self.ends
    }
    /// Cf of Cases A and B.
    #[inline]
    pub const fn cf(&self) -> f64 {
        self.cf
    }
    /// The factor for openings.
    #[inline]
    pub const fn opening_factor(&self) -> f64 {
        self.opening_factor
    }
    /// The pressure of Case A on gross area.
    #[inline]
    pub const fn uniform_pressure(&self) -> Pressure {
        self.uniform
    }
    /// Case C, where the wall is long enough for it.
    #[inline]
    pub const fn case_c(&self) -> Option<&CaseC> {
        self.case_c.as_ref()
    }
    /// Height of the resultant above ground.
    #[inline]
    pub fn resultant_height(&self) -> Length {
        self.shape.resultant_height(self.options.resultant_height)
    }

    /// Does a case apply to this wall?
    #[inline]
    pub fn has(&self, case: WindCase) -> bool {
        match case {
            WindCase::A => true,
            WindCase::BTowardsStart | WindCase::BTowardsEnd => {
                self.shape.is_short() || self.options.eccentric_case == EccentricCase::Linear
            }
            WindCase::CFromStart | WindCase::CFromEnd => self.case_c.is_some(),
        }
    }

    /// The force on the piece between two positions, in one case; zero for a
    /// case that does not apply. Positions beyond the wall carry nothing.
    #[inline]
    pub fn force(&self, case: WindCase, from: Length, to: Length) -> Force {
        if !self.has(case) {
            return Force::from_si(0.0);
        }
        let length = self.shape.length().value;
        let a = on_wall(from, 0.0, length);
        let b = on_wall(to, a, length);
        let s = self.shape.panel_height().value;
        let per_height = match case {
            WindCase::A => self.uniform.value * (b - a),
            WindCase::BTowardsStart => self.uniform.value * (b - a) * eccentric(a + b, length),
            WindCase::BTowardsEnd => {
                self.uniform.value * (b - a) * eccentric(2.0 * length - a - b, length)
            }
            WindCase::CFromStart => self.strip_sum(self.first[0], a, b, s),
            WindCase::CFromEnd => self.strip_sum(self.first[1], length - b, length - a, s),
        };
        Force::from_si(per_height * s)
    }

    /// Pressure times length over the Case C strips between `a` and `b` from
    /// the windward edge.
    #[inline]
    fn strip_sum(&self, first: Pressure, a: f64, b: f64, s: f64) -> f64 {
        let mut sum = 0.0;
        for i in 0..7 {
            let p = if i == 0 { first } else { self.strips[i] };
            let from = (REGION_EDGES[i] * s).max(a);
            let to = (REGION_EDGES[i + 1] * s).min(b);
            sum += p.value * (to - from).max(0.0);
        }
        sum
    }

    /// The case with the greatest force on a piece, and that force.
    #[inline]
    pub fn worst(&self, from: Length, to: Length) -> (WindCase, Force) {
        let mut worst = (WindCase::A, self.force(WindCase::A, from, to));
        for case in &WindCase::ALL[1..] {
            let force = self.force(*case, from, to);
            if force > worst.1 {
                worst = (*case, force);
            }
        }
        worst
    }

    /// The strips of a Case A or C, from the windward edge; none for Case B,
    /// whose pressure is not constant by strips.
    #[inline]
    pub fn strips(&self, case: WindCase) -> impl Iterator<Item = Strip> {
        let s = self.shape.panel_height();
        let length = self.shape.length();
        let uniform = (case == WindCase::A).then_some(Strip {
            from: Length::from_si(0.0),
            to: length,
            cf: self.cf,
            pressure: self.uniform,
            region: 0,
        });
        let from_start = case == WindCase::CFromStart;
        let edge = usize::from(!from_start);
        let regions = (from_start || case == WindCase::CFromEnd)
            .then_some(self.case_c)
            .flatten()
            .into_iter()
            .flat_map(|c| c.regions().enumerate().collect::<Vec<_>>());
        let strips = regions.map(move |(i, region)| {
            let (near, far) = (s * region.from, s * region.to);
            let (from, to) = if from_start {
                (near, far)
            } else {
                (length - far, length - near)
            };
            let (cf, pressure) = if i == 0 {
                (region.cf * self.return_factors[edge], self.first[edge])
            } else {
                (region.cf, self.strips[i])
            };
            Strip {
                from,
                to,
                cf,
                pressure,
                region: i,
            }
        });
        uniform.into_iter().chain(strips)
    }
}

/// A position held within `least..=length`; NaN counts as the least (`clamp`
/// would panic on it).
#[inline]
fn on_wall(position: Length, least: f64, length: f64) -> f64 {
    position.value.max(least).min(length)
}

/// The factor of a linear pressure whose resultant stands 0.2 B from the
/// centre, at the middle of a piece: 1 + 12 × 0.2 × (0.5 − x/B). Takes twice
/// x.
#[inline]
fn eccentric(twice_x: f64, length: f64) -> f64 {
    1.0 + 2.4 * (0.5 - 0.5 * twice_x / length)
}
