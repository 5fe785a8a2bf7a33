//! The pressure along a run as data, and the sum check that goes with it.
//!
//! Every case of the run taken alone, gates shut: strip by strip, from, to,
//! coefficient, pressure, clause. What presses on the strips must be what the
//! posts carry; both sums stand beside each other.

use super::{FenceWind, RunWind};
use crate::source::Citation;
use crate::units::{Force, Length, Measurable, Pressure};
use crate::wind::{Strip, WindCase, WindCode};

/// A strip of a run in one case.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PicturedStrip {
    /// The case.
    pub case: WindCase,
    /// What the code calls it.
    pub case_name: &'static str,
    /// From the start of the run.
    pub from: Length,
    /// To.
    pub to: Length,
    /// The coefficient of the figure ([`Strip::coefficient`]).
    pub coefficient: f64,
    /// The pressure on gross area at `from`, at the limit state of the code.
    pub pressure: Pressure,
    /// The pressure at `to`: the same, except off centre.
    pub pressure_at_to: Pressure,
    /// Where it comes from.
    pub clause: &'static Citation,
}

/// The sum check of one case.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct CaseSum {
    /// The case.
    pub case: WindCase,
    /// Pressure times area over its strips.
    pub on_strips: Force,
    /// The shear of all posts of the run.
    pub on_posts: Force,
}

impl CaseSum {
    /// Do both agree to a billionth?
    pub fn agrees(&self) -> bool {
        let off = (self.on_strips - self.on_posts).abs();
        off <= self.on_strips.abs() * 1e-9
    }
}

/// The pressure along a run.
///
/// ```
/// use groundline::{actions::FenceWind, fence::*, units::*, wind::*};
/// let fence = Fence::new(FenceRun::new(Panel::new(m(2.0))?, m(30.0), m(2.5))?);
/// let vb0 = FundamentalSpeed::ten_minute_mean(m_per_s(24.0))?;
/// let wind = FenceWind::new(&EnSite::new(vb0, Terrain::Two), &fence)?;
/// let picture = wind.picture(0).unwrap();
/// // Zones A to D, from either end.
/// assert_eq!(picture.strips.len(), 8);
/// assert_eq!(picture.strips[0].to, m(0.6));
/// assert!(picture.sums.iter().all(|sum| sum.agrees()));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PressurePicture {
    /// The strips, case by case, from the windward edge.
    pub strips: Vec<PicturedStrip>,
    /// The sum check of each case.
    pub sums: Vec<CaseSum>,
}

impl PressurePicture {
    pub(super) fn new<C: WindCode>(wind: &FenceWind<'_, C>, run: usize) -> Option<Self> {
        let wall = wind.runs().get(run).and_then(RunWind::alone)?;
        let height = wall.shape().panel_height();
        let (mut strips, mut sums) = (Vec::new(), Vec::new());
        for case in WindCase::ALL.into_iter().filter(|case| wall.has(*case)) {
            let mut on_strips = 0.0;
            for strip in wall.strips(case) {
                let Strip {
                    from,
                    to,
                    coefficient,
                    pressure,
                    pressure_at_to,
                    clause,
                    ..
                } = strip;
                let mean = (pressure + pressure_at_to) * 0.5;
                on_strips += (mean * (to - from) * height).value;
                strips.push(PicturedStrip {
                    case,
                    case_name: wall.code().case_name(case),
                    from,
                    to,
                    coefficient,
                    pressure,
                    pressure_at_to,
                    clause,
                });
            }
            let posts = wind.fence().posts().iter();
            let arms = posts.flat_map(|post| post.arms().filter(|arm| arm.run == run));
            let on_posts: f64 = arms.map(|arm| wind.shear(arm, case).value).sum();
            sums.push(CaseSum {
                case,
                on_strips: Force::from_si(on_strips),
                on_posts: Force::from_si(on_posts),
            });
        }
        Some(Self { strips, sums })
    }
}
