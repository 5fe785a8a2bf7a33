//! Patterns of pressure along a wall, and the load cases they make.

use crate::source::Citation;
use crate::units::{Length, Measurable, Pressure};

/// One end of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    /// Its start.
    Start,
    /// Its end.
    End,
}

impl Edge {
    /// The other one.
    #[must_use]
    #[inline]
    pub const fn other(self) -> Self {
        match self {
            Self::Start => Self::End,
            Self::End => Self::Start,
        }
    }

    /// Its word.
    #[inline]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::End => "end",
        }
    }

    #[inline]
    pub(super) const fn index(self) -> usize {
        match self {
            Self::Start => 0,
            Self::End => 1,
        }
    }
}

/// A wind load case of a straight wall. What each is in a code, and whether
/// the code has it, see there ([`WindCode::case_name`](super::WindCode::case_name)).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum WindCase {
    /// The same pressure everywhere.
    Uniform,
    /// A total force off centre towards one end of the run, spread linearly.
    OffCentre(Edge),
    /// Zones from the windward edge.
    Zones(Edge),
    /// Wind along the wall, zones from the windward edge.
    Along(Edge),
    /// The minimum design pressure of the code, uniform, as a load case of its own.
    Minimum,
}

impl WindCase {
    /// Every case.
    pub const ALL: [Self; 8] = [
        Self::Uniform,
        Self::OffCentre(Edge::Start),
        Self::OffCentre(Edge::End),
        Self::Zones(Edge::Start),
        Self::Zones(Edge::End),
        Self::Along(Edge::Start),
        Self::Along(Edge::End),
        Self::Minimum,
    ];

    /// The end of the run it is heavier at.
    #[inline]
    pub const fn edge(self) -> Option<Edge> {
        match self {
            Self::Uniform | Self::Minimum => None,
            Self::OffCentre(edge) | Self::Zones(edge) | Self::Along(edge) => Some(edge),
        }
    }

    /// The case of the mirrored fence.
    #[must_use]
    #[inline]
    pub const fn mirrored(self) -> Self {
        match self {
            Self::Uniform => Self::Uniform,
            Self::Minimum => Self::Minimum,
            Self::OffCentre(edge) => Self::OffCentre(edge.other()),
            Self::Zones(edge) => Self::Zones(edge.other()),
            Self::Along(edge) => Self::Along(edge.other()),
        }
    }
}

/// A piece of a wall in one case: the pressure picture is made of them.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Strip {
    /// From the start of the run.
    pub from: Length,
    /// From the start of the run.
    pub to: Length,
    /// The coefficient of the code's figure, as the code prints it: Cf of
    /// ASCE 7 before the factor for openings, cp,net of EN 1991-1-4 with the
    /// shelter factor (cf of signboards and lattices), Cp,n of AS/NZS 1170.2 before
    /// the factor for porosity; 1 for a pressure as given.
    pub coefficient: f64,
    /// The pressure on gross area at `from`.
    pub pressure: Pressure,
    /// The pressure at `to`; the same except off centre, where it varies
    /// linearly and may turn negative at the far end.
    pub pressure_at_to: Pressure,
    /// Which zone, counted from the windward edge, the first being 0; 0 for a case
    /// without zones.
    pub zone: usize,
    /// Where the pressure comes from.
    pub clause: &'static Citation,
}

/// The two half bays that a post carries, as positions along a wall; at an end post
/// `from` or `to` is the post itself.
///
/// ```
/// use groundline::{units::ft, wind::HalfBays};
/// let bays = HalfBays { from: ft(0.0), post: ft(4.0), to: ft(8.0) };
/// assert_eq!(bays.width(), ft(8.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HalfBays {
    /// Middle of the bay before the post.
    pub from: Length,
    /// The post.
    pub post: Length,
    /// Middle of the bay behind the post.
    pub to: Length,
}

impl HalfBays {
    /// Returns the tributary width, from the middle of one bay to that of the next.
    #[inline]
    pub fn width(&self) -> Length {
        self.to - self.from
    }

    /// Returns the same half bays as positions from another origin.
    #[must_use]
    #[inline]
    pub fn from_origin(&self, origin: Length) -> Self {
        Self {
            from: self.from - origin,
            post: self.post - origin,
            to: self.to - origin,
        }
    }
}

/// A pressure with its coefficient.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Uniform {
    pub(super) coefficient: f64,
    pub(super) pressure: Pressure,
}

/// A mean pressure whose resultant stands `eccentricity` B off the middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct OffCentre {
    pub(super) coefficient: f64,
    pub(super) pressure: Pressure,
    pub(super) eccentricity: f64,
}

impl Uniform {
    /// Pressure times length between `a` and `b` from the start.
    #[inline]
    pub(super) fn over(&self, a: f64, b: f64) -> f64 {
        self.pressure.value * (b - a)
    }
}

impl OffCentre {
    /// Pressure times length between `a` and `b` from the start of a wall of a
    /// length, heavier towards `edge`.
    #[inline]
    pub(super) fn over(&self, edge: Edge, a: f64, b: f64, length: f64) -> f64 {
        let twice = match edge {
            Edge::Start => a + b,
            Edge::End => 2.0 * length - a - b,
        };
        self.pressure.value * (b - a) * self.tilt(twice, length)
    }

    /// Pressure times length that a post carries of its two half bays, heavier towards
    /// the start and towards the end; only the parts between 0 and `length` count.
    ///
    /// A bay of length L is a simple span: a linear pressure brings
    /// L/6 (2 p(post) + p(other post)) to the post, which is half of the bay times the
    /// pressure a third of the bay (two thirds of the half bay) from the post. Sum and
    /// moment of the post forces of a wall are then those of the pressure. With W the sum
    /// of the half bays w and S that of w x: p (W (1 + 6 e) - 12 e S/B) towards the start.
    #[inline]
    pub(super) fn on_post(&self, bays: &HalfBays, length: f64) -> [f64; 2] {
        let (from, post, to) = (bays.from.value, bays.post.value, bays.to.value);
        let before = overlap((from, post), 0.0, length);
        let behind = overlap((post, to), 0.0, length);
        let (x_before, x_behind) = ((post + 2.0 * from) / 3.0, (post + 2.0 * to) / 3.0);
        let width = before + behind;
        let lean = 12.0 * self.eccentricity * (before * x_before + behind * x_behind) / length;
        let share = 6.0 * self.eccentricity;
        let p = self.pressure.value;
        [
            p * (width * (1.0 + share) - lean),
            p * (width * (1.0 - share) + lean),
        ]
    }

    /// The factor of a linear pressure whose resultant stands e B from the
    /// middle, at the middle of a piece: 1 + 12 e (0.5 − x/B), x from the heavy
    /// edge. Takes twice x.
    #[inline]
    pub(super) fn tilt(&self, twice_x: f64, length: f64) -> f64 {
        1.0 + 12.0 * self.eccentricity * (0.5 - 0.5 * twice_x / length)
    }
}

/// How many zones a figure may have.
pub(super) const MOST_ZONES: usize = 7;

/// Zones from the windward edge, for each end being windward.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Zones {
    /// Distances from the windward edge in m, ascending; zones that the figure
    /// does not have start beyond any wall.
    pub(super) edges: [f64; MOST_ZONES + 1],
    /// For the start and for the end being windward.
    pub(super) coefficients: [[f64; MOST_ZONES]; 2],
    /// For the start and for the end being windward.
    pub(super) pressures: [[Pressure; MOST_ZONES]; 2],
}

impl Zones {
    /// From the near edges of zones in multiples of a length, and coefficients for
    /// the start and for the end being windward, turned to pressures. The last
    /// zone is open; what is past [`MOST_ZONES`] is left out.
    pub(super) fn new<const N: usize>(
        unit: Length,
        edges: [f64; N],
        coefficients: [[f64; N]; 2],
        pressure: impl Fn(f64) -> Pressure,
    ) -> Self {
        let mut zones = Self {
            edges: [f64::MAX; MOST_ZONES + 1],
            coefficients: [[0.0; MOST_ZONES]; 2],
            pressures: [[Pressure::from_si(0.0); MOST_ZONES]; 2],
        };
        for (i, edge) in edges.into_iter().enumerate().take(MOST_ZONES) {
            zones.edges[i] = edge * unit.value;
            for (end, given) in coefficients.iter().enumerate() {
                zones.coefficients[end][i] = given[i];
                zones.pressures[end][i] = pressure(given[i]);
            }
        }
        zones
    }

    /// Pressure times length between `a` and `b` from the start of a wall of a
    /// length, with one edge windward.
    #[inline]
    pub(super) fn over(&self, edge: Edge, a: f64, b: f64, length: f64) -> f64 {
        let (near, far) = match edge {
            Edge::Start => (a, b),
            Edge::End => (length - b, length - a),
        };
        let pressures = &self.pressures[edge.index()];
        let mut sum = 0.0;
        for (i, pressure) in pressures.iter().enumerate() {
            let zone = (self.edges[i], self.edges[i + 1]);
            sum += pressure.value * overlap(zone, near, far);
        }
        sum
    }

    /// The pressure of a zone.
    pub(super) fn pressure(&self, edge: Edge, zone: usize) -> Option<Pressure> {
        self.pressures[edge.index()].get(zone).copied()
    }

    /// [`Zones::over`] for either edge windward, in one go.
    #[expect(
        clippy::inline_always,
        reason = "called twice a post: a fifth of its time"
    )]
    #[inline(always)]
    pub(super) fn over_both(&self, a: f64, b: f64, length: f64) -> [f64; 2] {
        let (near, far) = (length - b, length - a);
        let (mut start, mut end) = (0.0, 0.0);
        for i in 0..MOST_ZONES {
            let zone = (self.edges[i], self.edges[i + 1]);
            start += self.pressures[0][i].value * overlap(zone, a, b);
            end += self.pressures[1][i].value * overlap(zone, near, far);
        }
        [start, end]
    }

    /// The mean coefficient and pressure over a wall, for zones that are alike
    /// whichever end is windward.
    pub(super) fn mean(&self, length: Length) -> (f64, Pressure) {
        let mut sums = (0.0, 0.0);
        for i in 0..MOST_ZONES {
            let width = (self.edges[i + 1].min(length.value) - self.edges[i]).max(0.0);
            sums.0 += self.coefficients[0][i] * width;
            sums.1 += self.pressures[0][i].value * width;
        }
        (
            sums.0 / length.value,
            Pressure::from_si(sums.1 / length.value),
        )
    }
}

/// How much of a zone lies between `a` and `b`, none of them NaN: `f64::min`
/// and `max` see to NaN too, which takes twice as long.
#[inline]
fn overlap((from, to): (f64, f64), a: f64, b: f64) -> f64 {
    let from = if from > a { from } else { a };
    let to = if to < b { to } else { b };
    let length = to - from;
    if length > 0.0 { length } else { 0.0 }
}

/// What a code makes of a wall: its patterns of pressure, and the height of
/// their resultant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallPressures {
    pub(super) uniform: Option<Uniform>,
    pub(super) off_centre: Option<OffCentre>,
    pub(super) zones: Option<Zones>,
    pub(super) along: Option<Zones>,
    /// The minimum design pressure, where it exceeds the uniform one.
    pub(super) minimum: Option<Uniform>,
    /// Height of the resultant above ground, in every case.
    pub(super) resultant: Length,
}
