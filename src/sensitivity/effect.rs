//! What one input does.

use super::band::Band;
use super::input::Input;
use super::point::Point;
use crate::check::Governing;
use crate::error::Error;
use crate::units::Measured;
use crate::utilization::Utilization;

/// One value tried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Trial {
    pub(super) factor: f64,
    pub(super) point: Result<Point, Error>,
}

/// Why a slope is told side by side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum OneSided {
    /// Another post, or another check, governs within the step.
    GoverningChanges,
    /// The two sides differ although the same check of the same post governs: another
    /// load case, a band of a figure, a least value of the code, a jump. Told when
    /// they differ by more than 0.02 + 10 h, as a share of the greater where that is
    /// above 1.
    Kink,
    /// One side leaves an allowed range, or cannot be checked.
    Refused,
}

impl OneSided {
    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::GoverningChanges => "what governs changes here",
            Self::Kink => "a kink or jump here",
            Self::Refused => "the other side is not allowed",
        }
    }
}

/// d ln u / d ln x: by how many per cent u changes when x changes by one.
///
/// By a central difference of the logarithms between x/(1 + h) and x (1 + h),
/// which is exact for a power of x.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Elasticity {
    /// The central difference.
    Central(f64),
    /// The slopes to smaller and to greater values, where they are not one.
    OneSided {
        /// Between x/(1 + h) and x.
        below: Option<f64>,
        /// Between x and x (1 + h).
        above: Option<f64>,
        /// Why.
        why: OneSided,
    },
    /// None: no side is allowed, or there is no capacity, or no demand.
    Undefined,
}

impl Elasticity {
    /// The one slope there is; none where the sides differ or one is missing.
    pub const fn value(self) -> Option<f64> {
        match self {
            Self::Central(value) => Some(value),
            Self::OneSided { .. } | Self::Undefined => None,
        }
    }

    /// The greatest slope of either side, without its sign.
    pub fn influence(self) -> Option<f64> {
        match self {
            Self::Central(value) => Some(value.abs()),
            Self::OneSided { below, above, .. } => below
                .into_iter()
                .chain(above)
                .map(f64::abs)
                .reduce(f64::max),
            Self::Undefined => None,
        }
    }
}

impl core::fmt::Display for Elasticity {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let side = |side: Option<f64>| side.map_or_else(|| "none".to_owned(), signed);
        match self {
            Self::Central(value) => f.pad(&signed(*value)),
            Self::OneSided { below, above, .. } => {
                f.pad(&format!("{} | {}", side(*below), side(*above)))
            }
            Self::Undefined => f.pad("none"),
        }
    }
}

/// With its sign, two decimals; no negative zero.
fn signed(value: f64) -> String {
    let text = format!("{value:+.2}");
    if text == "-0.00" {
        "+0.00".to_owned()
    } else {
        text
    }
}

/// A change of what governs, between two values tried.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Switch {
    /// The factors on the input between which it changes.
    pub between: (f64, f64),
    /// Post and check at the smaller.
    pub below: (usize, Governing),
    /// Post and check at the greater.
    pub above: (usize, Governing),
}

/// What one input does.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Effect {
    /// The input.
    pub input: Input,
    /// Its value in the plan, if it has only one.
    pub value: Option<Measured>,
    /// The plan at the low end of the band, or why there is none.
    pub low: Result<Point, Error>,
    /// The plan as it is.
    pub base: Point,
    /// The plan at the high end of the band, or why there is none.
    pub high: Result<Point, Error>,
    /// d ln u/d ln x, of the governing utilization u by the input x.
    pub elasticity: Elasticity,
    /// d ln d/d ln x, of the greatest required depth d.
    pub depth_elasticity: Elasticity,
    pub(super) trials: Vec<Trial>,
}

impl Effect {
    pub(super) fn new(input: Input, value: Option<Measured>, base: Point, band: Band) -> Self {
        Self {
            input,
            value,
            low: Ok(base),
            base,
            high: Ok(base),
            elasticity: Elasticity::Undefined,
            depth_elasticity: Elasticity::Undefined,
            trials: Vec::with_capacity(band.factors().len()),
        }
    }

    /// Fills in the slopes and ends from the values tried, ascending.
    pub(super) fn concluded(self, band: Band) -> Self {
        let at = |factor: f64| {
            let trial = self
                .trials
                .iter()
                .find(|trial| trial.factor.total_cmp(&factor).is_eq());
            trial.and_then(|trial| trial.point.ok())
        };
        let [below, above] = band.near().map(at);
        let utilization = |point: Point| {
            let value = point.utilization;
            let counts = value > Utilization::ZERO && value < Utilization::NO_CAPACITY;
            counts.then(|| (value.ratio(), (point.post, Some(point.governing))))
        };
        let depth = |point: Point| {
            let value = point.depth.depth.value;
            (value > 0.0).then_some((value, (point.depth.post, None)))
        };
        let slopes = |read: &dyn Fn(Point) -> Option<Read>| {
            elasticity(
                read(self.base),
                below.and_then(read),
                above.and_then(read),
                band.step(),
            )
        };
        let end = |trial: Option<&Trial>| trial.map_or(Ok(self.base), |trial| trial.point);
        Self {
            elasticity: slopes(&utilization),
            depth_elasticity: slopes(&depth),
            low: end(self.trials.first()),
            high: end(self.trials.last()),
            ..self
        }
    }

    /// Where within the band another post or another check comes to govern, from low
    /// to high: between neighbours of the values tried, five a side. What governs for
    /// less than that is not seen.
    pub fn switches(&self) -> impl Iterator<Item = Switch> + '_ {
        let known = || {
            self.trials
                .iter()
                .filter_map(|trial| Some((trial.factor, trial.point.ok()?)))
        };
        known()
            .zip(known().skip(1))
            .map(|((low, a), (high, b))| Switch {
                between: (low, high),
                below: (a.post, a.governing),
                above: (b.post, b.governing),
            })
            .filter(|switch| switch.below != switch.above)
    }

    /// Does the same check of the same post govern at every value tried?
    pub fn governs_throughout(&self) -> bool {
        self.switches().next().is_none()
    }

    /// The least and the greatest slope between neighbours of the values tried over the
    /// band. Where they are far apart the elasticity does not hold over all of it: a
    /// least value of the code, another load case, a band of a figure.
    pub fn slopes_within(&self) -> Option<(f64, f64)> {
        let mut range: Option<(f64, f64)> = None;
        for pair in self.trials.windows(2) {
            if let [
                Trial {
                    factor: from,
                    point: Ok(low),
                },
                Trial {
                    factor: to,
                    point: Ok(high),
                },
            ] = pair
            {
                let (low, high) = (low.utilization.ratio(), high.utilization.ratio());
                let slope = (high / low).ln() / (to / from).ln();
                if slope.is_finite() {
                    range = Some(match range {
                        Some((least, most)) => (least.min(slope), most.max(slope)),
                        None => (slope, slope),
                    });
                }
            }
        }
        range
    }

    /// The first value tried that is not allowed, as a factor, and why.
    pub fn refused(&self) -> Option<(f64, Error)> {
        self.trials
            .iter()
            .find_map(|trial| Some((trial.factor, trial.point.err()?)))
    }
}

/// A value and what governs it.
type Read = (f64, (usize, Option<Governing>));

fn elasticity(
    base: Option<Read>,
    below: Option<Read>,
    above: Option<Read>,
    step: f64,
) -> Elasticity {
    let Some((base, governs)) = base else {
        return Elasticity::Undefined;
    };
    let run = step.ln_1p();
    let down = below.map(|(value, _)| (base / value).ln() / run);
    let up = above.map(|(value, _)| (value / base).ln() / run);
    let one_sided = |why| Elasticity::OneSided {
        below: down,
        above: up,
        why,
    };
    match (below, above, down, up) {
        (Some(low), Some(high), Some(down), Some(up)) => {
            let scale = down.abs().max(up.abs()).max(1.0);
            if low.1 != governs || high.1 != governs {
                one_sided(OneSided::GoverningChanges)
            } else if (up - down).abs() > (0.02 + 10.0 * step) * scale {
                one_sided(OneSided::Kink)
            } else {
                Elasticity::Central((high.0 / low.0).ln() / (2.0 * run))
            }
        }
        (None, None, _, _) => Elasticity::Undefined,
        _ => one_sided(OneSided::Refused),
    }
}
