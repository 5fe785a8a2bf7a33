//! Wind on any piece of a straight wall, by load case: one shape for every
//! code.
//!
//! A code says how hard the wind presses a wall, as up to four patterns: the
//! same everywhere, the same total off centre, zones from the windward edge,
//! and zones of wind along the wall. [`WallWind`] holds them and answers what
//! a piece carries; who asks neither knows nor cares which code it was.
//!
//! Pressures are net, on gross area, at the limit state of the code
//! ([`WindCode::Level`]), and stand for both wind directions: the sign is left
//! to the reader.

mod working;

use super::code::WindCode;
use super::patterns::{Edge, HalfBays, MOST_ZONES, Strip, WallPressures, WindCase};
use super::wall::{WallEnds, WallShape};
use crate::caution::Cautions;
use crate::error::Error;
use crate::units::{Force, Length, Measurable, Pressure};

/// The wind on one straight wall: all cases, ready to be asked for any piece.
///
/// ```
/// use groundline::{units::*, wind::*};
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = AsceSite::new(Edition::Asce7_16, v, Exposure::C);
/// let wall = WallShape::new(ft(96.0), ft(6.0), ft(0.0), 1.0)?;
/// let wind = WallWind::new(&site, wall, WallEnds::FREE)?;
/// // The first post carries the first 4 ft, all in the steepest strip.
/// let (case, force) = wind.worst(ft(0.0), ft(4.0));
/// assert_eq!(case, WindCase::Zones(Edge::Start));
/// assert!(force > wind.force(WindCase::Uniform, ft(0.0), ft(4.0)));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallWind<C: WindCode> {
    code: C,
    shape: WallShape,
    ends: WallEnds,
    pressures: WallPressures,
    pub(super) working: C::Working,
}

impl<C: WindCode> WallWind<C> {
    /// The wind on a wall at a site.
    ///
    /// # Errors
    /// A wall that the code, or an option of it, does not cover; a return
    /// length that is negative or not finite.
    #[inline]
    pub fn new(code: &C, shape: WallShape, ends: WallEnds) -> Result<Self, Error> {
        let (pressures, working) = code.pressures(&shape, &ends)?;
        Ok(Self {
            code: *code,
            shape,
            ends,
            pressures,
            working,
        })
    }

    /// The code and site.
    #[inline]
    pub const fn code(&self) -> &C {
        &self.code
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
    #[inline]
    pub(super) const fn pressures(&self) -> &WallPressures {
        &self.pressures
    }
    /// Height of the resultant above ground.
    #[inline]
    pub const fn resultant_height(&self) -> Length {
        self.pressures.resultant
    }
    /// The pressure of the uniform case, where the code has one.
    #[inline]
    pub fn uniform_pressure(&self) -> Option<Pressure> {
        self.pressures.uniform.map(|uniform| uniform.pressure)
    }
    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        C::cautions(self)
    }

    /// Does a case apply to this wall?
    #[inline]
    pub const fn has(&self, case: WindCase) -> bool {
        match case {
            WindCase::Uniform => self.pressures.uniform.is_some(),
            WindCase::OffCentre(_) => self.pressures.off_centre.is_some(),
            WindCase::Zones(_) => self.pressures.zones.is_some(),
            WindCase::Along(_) => self.pressures.along.is_some(),
            WindCase::Minimum => self.pressures.minimum.is_some(),
        }
    }

    /// The force on the piece between two positions, in one case; zero for a
    /// case that does not apply, and where `to` is not beyond `from`. Positions
    /// beyond the wall carry nothing.
    #[inline]
    pub fn force(&self, case: WindCase, from: Length, to: Length) -> Force {
        let length = self.shape.length().value;
        let a = on_wall(from, 0.0, length);
        let b = on_wall(to, a, length);
        let force = self.per_height(case, a, b, length).unwrap_or(0.0);
        Force::from_si(force * self.shape.panel_height().value)
    }

    /// Pressure times length, N/m, between two positions in m from the start of a
    /// wall of a length in m; none for a case that does not apply.
    #[inline]
    fn per_height(&self, case: WindCase, a: f64, b: f64, length: f64) -> Option<f64> {
        let p = &self.pressures;
        match case {
            WindCase::Uniform => Some(p.uniform.as_ref()?.over(a, b)),
            WindCase::OffCentre(edge) => Some(p.off_centre.as_ref()?.over(edge, a, b, length)),
            WindCase::Zones(edge) => Some(p.zones.as_ref()?.over(edge, a, b, length)),
            WindCase::Along(edge) => Some(p.along.as_ref()?.over(edge, a, b, length)),
            WindCase::Minimum => Some(p.minimum.as_ref()?.over(a, b)),
        }
    }

    /// Returns the force on a post that carries two half bays, in one case: zero for a
    /// case that the wall does not have.
    ///
    /// Off centre, where the pressure varies along the bays, it is the reaction of
    /// simple spans, so that the forces of all posts have the resultant of the code;
    /// in every other case it is the force on the piece ([`WallWind::force`]).
    ///
    /// ```
    /// use groundline::{units::*, wind::*};
    /// let v = BasicWindSpeed::strength_level(mph(115.0))?;
    /// let site = AsceSite::new(Edition::Asce7_16, v, Exposure::C);
    /// let wall = WallWind::new(&site, WallShape::new(ft(8.0), ft(6.0), ft(0.0), 1.0)?, WallEnds::FREE)?;
    /// // Two posts: the one at the heavy end takes 1.4 times half of the force.
    /// let end = HalfBays { from: ft(0.0), post: ft(0.0), to: ft(4.0) };
    /// let heavy = wall.on_post(WindCase::OffCentre(Edge::Start), &end);
    /// let even = wall.on_post(WindCase::Uniform, &end);
    /// assert!(((heavy / even).value - 1.4).abs() < 1e-12);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[inline]
    pub fn on_post(&self, case: WindCase, bays: &HalfBays) -> Force {
        match (case, &self.pressures.off_centre) {
            (WindCase::OffCentre(edge), Some(off)) => {
                let forces = off.on_post(bays, self.shape.length().value);
                Force::from_si(forces[edge.index()] * self.shape.panel_height().value)
            }
            _ => self.force(case, bays.from, bays.to),
        }
    }

    /// Returns the case with the greatest force on a piece, and that force. For a post
    /// see [`WallWind::worst_on_post`].
    #[inline]
    pub fn worst(&self, from: Length, to: Length) -> (WindCase, Force) {
        let length = self.shape.length().value;
        let a = on_wall(from, 0.0, length);
        let b = on_wall(to, a, length);
        let off = self.pressures.off_centre.as_ref();
        let off = off.map(|off| [Edge::Start, Edge::End].map(|edge| off.over(edge, a, b, length)));
        self.worst_of(a, b, off)
    }

    /// Returns the case with the greatest force on a post that carries two half bays,
    /// and that force ([`WallWind::on_post`]).
    #[inline]
    pub fn worst_on_post(&self, bays: &HalfBays) -> (WindCase, Force) {
        let length = self.shape.length().value;
        let a = on_wall(bays.from, 0.0, length);
        let b = on_wall(bays.to, a, length);
        let off = self.pressures.off_centre.as_ref();
        let off = off.map(|off| off.on_post(bays, length));
        self.worst_of(a, b, off)
    }

    /// The worst case between `a` and `b`, with the off-centre forces as given.
    #[inline]
    fn worst_of(&self, a: f64, b: f64, off_centre: Option<[f64; 2]>) -> (WindCase, Force) {
        let length = self.shape.length().value;
        let p = &self.pressures;
        // By their places in `WindCase::ALL`: of a number the compiler makes
        // a choice without a branch, and which case is worse changes from post
        // to post. Every code gives a wall one case at least.
        let mut worst = (0, f64::MIN);
        let mut consider = |case: usize, force: f64| {
            if force > worst.1 {
                worst = (case, force);
            }
        };
        if let Some(uniform) = &p.uniform {
            consider(0, uniform.over(a, b));
        }
        if let Some([start, end]) = off_centre {
            consider(1, start);
            consider(2, end);
        }
        if let Some(zones) = &p.zones {
            let [start, end] = zones.over_both(a, b, length);
            consider(3, start);
            consider(4, end);
        }
        if let Some(zones) = &p.along {
            let [start, end] = zones.over_both(a, b, length);
            consider(5, start);
            consider(6, end);
        }
        if let Some(minimum) = &p.minimum {
            consider(7, minimum.over(a, b));
        }
        (
            WindCase::ALL[worst.0],
            Force::from_si(worst.1 * self.shape.panel_height().value),
        )
    }

    /// The strips of a case, from the windward edge; none for a case that does
    /// not apply.
    pub fn strips(&self, case: WindCase) -> impl Iterator<Item = Strip> + '_ {
        let length = self.shape.length();
        let whole = |coefficient: f64, pressure: Pressure, pressure_at_to: Pressure| Strip {
            from: Length::from_si(0.0),
            to: length,
            coefficient,
            pressure,
            pressure_at_to,
            zone: 0,
            clause: C::clause(self, case, 0),
        };
        let single = match case {
            WindCase::Minimum => self
                .pressures
                .minimum
                .map(|p| whole(p.coefficient, p.pressure, p.pressure)),
            WindCase::Uniform => self
                .pressures
                .uniform
                .map(|p| whole(p.coefficient, p.pressure, p.pressure)),
            WindCase::OffCentre(edge) => self.pressures.off_centre.map(|off| {
                let heavy = off.pressure * off.tilt(0.0, length.value);
                let light = off.pressure * off.tilt(2.0 * length.value, length.value);
                match edge {
                    Edge::Start => whole(off.coefficient, heavy, light),
                    Edge::End => whole(off.coefficient, light, heavy),
                }
            }),
            WindCase::Zones(_) | WindCase::Along(_) => None,
        };
        let zoned = match case {
            WindCase::Zones(edge) => self.pressures.zones.as_ref().map(|zones| (zones, edge)),
            WindCase::Along(edge) => self.pressures.along.as_ref().map(|zones| (zones, edge)),
            WindCase::Uniform | WindCase::Minimum | WindCase::OffCentre(_) => None,
        };
        let zones = zoned.into_iter().flat_map(move |(zones, edge)| {
            (0..MOST_ZONES)
                .take_while(move |i| zones.edges[*i] < length.value)
                .map(move |i| {
                    let near = Length::from_si(zones.edges[i]);
                    let far = Length::from_si(zones.edges[i + 1].min(length.value));
                    let (from, to) = match edge {
                        Edge::Start => (near, far),
                        Edge::End => (length - far, length - near),
                    };
                    let pressure = zones.pressures[edge.index()][i];
                    Strip {
                        from,
                        to,
                        coefficient: zones.coefficients[edge.index()][i],
                        pressure,
                        pressure_at_to: pressure,
                        zone: i,
                        clause: C::clause(self, case, i),
                    }
                })
        });
        single.into_iter().chain(zones)
    }
}

/// A position held within `least..=length`; NaN counts as the least (`clamp`
/// would panic on it).
#[inline]
fn on_wall(position: Length, least: f64, length: f64) -> f64 {
    position.value.max(least).min(length)
}
