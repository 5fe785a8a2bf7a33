//! Free-standing walls, signboards and lattices.
//!
//! - 7.4.1, walls from 0.8 solid: net pressure coefficients cp,net of zones A
//!   (to 0.3 h), B (to 2 h), C (to 4 h) and D from the windward end, by l/h
//!   (held below 3 and above 10, as printed), return length over h (between
//!   the rows without return and with a return of h) and solidity (0.8 to 1),
//!   linear between. ze = h; gross area; both faces included.
//! - 7.4.2, shelter: ψs as given, not within h of an end.
//! - 7.4.3, signboards: cf = 1.80, resultant ±0.25 b off centre, ze = zg + h/2;
//!   for a gap below of a quarter of the height or more, or a length not above
//!   the height.
//! - 7.11, lattices: cf as given, on solid area, ze = h (none is known here; the
//!   top is on the safe side).
//!
//! All quoted. With a return, zones B and C of a wall shorter than 5 h get more
//! than without (1.8 and 1.4 against 1.4 and 1.2 at l/h = 3): so it is printed
//! and so it is used; zone A never gets more. A panel of two infills counts as
//! one by solidity and proportions of its more solid part, all of it.
//!
//! Characteristic values. Neither height nor distribution over the height is
//! given for walls: the resultant is taken at mid-height of the panel, or at
//! the middle of its solid area where that is higher.

use super::velocity::{EnSite, PeakPressure};
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within};
use crate::limit_state::Characteristic;
use crate::source::{self, Citation};
use crate::step::Worksheet;
use crate::units::REL_TOL;
use crate::units::{Length, Pressure, m};
use crate::wind::code::{WindCode, sealed};
use crate::wind::patterns::{
    MOST_ZONES, OffCentre, Strip, Uniform, WallPressures, WindCase, Zones,
};
use crate::wind::wall::{WallEnds, WallShape};
use crate::wind::wall_wind::WallWind;

/// cf of signboards, EN 1991-1-4 7.4.3, on gross area. Quoted.
pub const SIGNBOARD: f64 = 1.80;
/// e over b of signboards. Quoted.
const SIGNBOARD_ECCENTRICITY: f64 = 0.25;
/// l/h of the rows of [`NO_RETURN`].
pub(super) const L_OVER_H: [f64; 3] = [3.0, 5.0, 10.0];
/// cp,net of zones A to D without return corners, solid. Table 7.9, quoted.
pub(super) const NO_RETURN: [[f64; 4]; 3] = [
    [2.3, 1.4, 1.2, 1.2],
    [2.9, 1.8, 1.4, 1.2],
    [3.4, 2.1, 1.7, 1.2],
];
/// cp,net with return corners of h or more, solid. Table 7.9, quoted.
pub(super) const WITH_RETURN: [f64; 4] = [2.1, 1.8, 1.4, 1.2];
/// cp,net at solidity 0.8, every zone. Table 7.9, quoted.
pub(super) const POROUS: f64 = 1.2;
/// The solidity of that value, and the least of a wall.
pub(super) const LEAST_SOLIDITY: f64 = 0.8;
/// Ends of zones A, B and C, in multiples of h. Quoted.
const ZONE_ENDS: [f64; 3] = [0.3, 2.0, 4.0];

/// cp,net of zones A (to 0.3 h from the windward end), B (to 2 h), C (to 4 h) and
/// D: for l/h, length over height of the top, held below 3 and above 10; the
/// return length over h where there is one, held above 1; and solidity. Linear
/// between. On gross area, both faces included.
///
/// Source: EN 1991-1-4 7.4.1, Table 7.9. Quoted.
///
/// # Errors
/// l/h or return negative or not finite; solidity outside 0.8 to 1.
///
/// ```
/// use groundline::wind::cp_net;
/// assert_eq!(cp_net(5.0, None, 1.0)?, [2.9, 1.8, 1.4, 1.2]);
/// assert_eq!(cp_net(10.0, Some(1.0), 1.0)?, [2.1, 1.8, 1.4, 1.2]);
/// # Ok::<(), groundline::Error>(())
/// ```
#[inline]
pub fn cp_net(l_over_h: f64, returns: Option<f64>, solidity: f64) -> Result<[f64; 4], Error> {
    let l = number_within("l/h", l_over_h, 0.0, 1e9)?;
    let returns = number_within(
        "return length over height",
        returns.unwrap_or(0.0),
        0.0,
        1e9,
    )?;
    let solidity = number_within("solidity", solidity, LEAST_SOLIDITY - REL_TOL, 1.0)?;
    let (row, u) = row(l);
    let corner = returns.min(1.0);
    let solid = ((solidity - LEAST_SOLIDITY) / (1.0 - LEAST_SOLIDITY)).max(0.0);
    let mut cp = [0.0; 4];
    for (i, cp) in cp.iter_mut().enumerate() {
        let free = NO_RETURN[row][i] * (1.0 - u) + NO_RETURN[row + 1][i] * u;
        let tight = free * (1.0 - corner) + WITH_RETURN[i] * corner;
        *cp = POROUS * (1.0 - solid) + tight * solid;
    }
    Ok(cp)
}

/// l/h, of a panel of two infills with the top of the more solid one.
pub(super) fn l_over_h(shape: &WallShape) -> f64 {
    shape.length().value / shape.dense_part().1.value
}

/// The rows around an l/h, and where between them.
pub(super) fn row(l_over_h: f64) -> (usize, f64) {
    let row = usize::from(l_over_h >= L_OVER_H[1]);
    let (low, high) = (L_OVER_H[row], L_OVER_H[row + 1]);
    (row, ((l_over_h - low) / (high - low)).clamp(0.0, 1.0))
}

/// Which clause a wall falls under.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Figure {
    /// 7.4.1.
    Wall,
    /// 7.4.3.
    Signboard,
    /// 7.11, with the coefficient given.
    Lattice(f64),
}

/// What the pressures of a wall were made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnWorking {
    pub(super) peak: PeakPressure,
    pub(super) figure: Figure,
    /// Return lengths over h.
    pub(super) returns: [Option<f64>; 2],
}

/// Which of zones A to D a distance in multiples of h from the windward end is
/// in.
pub(super) fn zone_at(distance: f64) -> usize {
    ZONE_ENDS
        .iter()
        .filter(|end| distance >= **end * (1.0 - REL_TOL))
        .count()
}

impl EnSite {
    fn figure(&self, shape: &WallShape) -> Result<Figure, Error> {
        if shape.densest() < LEAST_SOLIDITY - REL_TOL {
            return self
                .lattice
                .map(Figure::Lattice)
                .ok_or(Error::NotApplicable {
                    field: "solidity",
                    reason: "EN 1991-1-4 7.4 is for walls at least 80 % solid; give the lattice \
                         coefficient of 7.11 for others",
                });
        }
        let (foot, top) = shape.dense_part();
        let height = top - foot;
        let raised = foot.value >= 0.25 * height.value * (1.0 - REL_TOL);
        let narrow = shape.length().value <= height.value * (1.0 + REL_TOL);
        Ok(if raised || narrow {
            Figure::Signboard
        } else {
            Figure::Wall
        })
    }

    /// The zones of a wall, edges in multiples of h. Sheltered, they are split at
    /// h from either end.
    fn zones(
        &self,
        shape: &WallShape,
        returns: [Option<f64>; 2],
        pressure: impl Fn(f64) -> Pressure,
    ) -> Result<Zones, Error> {
        let l = shape.length().value / shape.top().value;
        let ratio = l_over_h(shape);
        let solidity = shape.densest();
        let cp = [
            cp_net(ratio, returns[0], solidity)?,
            cp_net(ratio, returns[1], solidity)?,
        ];
        let mut edges = [f64::MAX; MOST_ZONES];
        let mut count = 0;
        // At most six are added.
        let mut add = |edge: f64| {
            let there = edges[..count].iter().any(|e| (*e - edge).abs() < REL_TOL);
            if edge < l && !there {
                edges[count] = edge;
                count += 1;
            }
        };
        add(0.0);
        for end in ZONE_ENDS {
            add(end);
        }
        let sheltered = self.shelter < 1.0;
        if sheltered {
            add(1.0);
            add((l - 1.0).max(0.0));
            edges.sort_by(f64::total_cmp);
        }
        let mut coefficients = [[0.0; MOST_ZONES]; 2];
        for (row, cp) in coefficients.iter_mut().zip(cp) {
            for (i, cell) in row.iter_mut().enumerate().take(count) {
                let shelter = self.shelter_at(edges[i], l);
                *cell = cp[zone_at(edges[i])] * shelter;
            }
        }
        Ok(Zones::new(shape.top(), edges, coefficients, pressure))
    }

    /// ψs of a zone that starts at a distance, in multiples of h, on a wall of
    /// a length.
    pub(super) fn shelter_at(&self, from: f64, length: f64) -> f64 {
        let inside = from >= 1.0 - REL_TOL && from < length - 1.0 - REL_TOL;
        if inside { self.shelter } else { 1.0 }
    }
}

impl sealed::Sealed for EnSite {}
impl WindCode for EnSite {
    type Level = Characteristic;
    type Working = EnWorking;

    #[inline]
    fn level(&self) -> Characteristic {
        Characteristic
    }

    fn document(&self) -> &'static str {
        "EN 1991-1-4:2005+A1:2010"
    }

    fn case_name(&self, case: WindCase) -> &'static str {
        match case {
            WindCase::Uniform => "lattice, 7.11",
            WindCase::OffCentre(_) => "signboard, 7.4.3",
            WindCase::Zones(_) => "zones A to D, 7.4.1",
            WindCase::Along(_) | WindCase::Minimum => "none",
        }
    }

    #[inline]
    fn pressures(
        &self,
        shape: &WallShape,
        ends: &WallEnds,
    ) -> Result<(WallPressures, EnWorking), Error> {
        let figure = self.figure(shape)?;
        let reference = match figure {
            Figure::Wall | Figure::Lattice(_) => shape.top(),
            Figure::Signboard => {
                let (foot, top) = shape.dense_part();
                ((foot + top) * 0.5).max(shape.mid_height())
            }
        };
        let peak = PeakPressure::at(self, self.base + reference)?;
        let returns = ends.returns_over(shape.top())?;
        let per_coefficient = peak.pressure() * self.structural;
        let mut pressures = WallPressures {
            uniform: None,
            off_centre: None,
            zones: None,
            along: None,
            minimum: None,
            resultant: shape.solid_height(),
        };
        match figure {
            Figure::Wall => {
                let pressure = |cp: f64| per_coefficient * cp;
                pressures.zones = Some(self.zones(shape, returns, pressure)?);
            }
            Figure::Signboard => {
                pressures.off_centre = Some(OffCentre {
                    coefficient: SIGNBOARD,
                    pressure: per_coefficient * SIGNBOARD,
                    eccentricity: SIGNBOARD_ECCENTRICITY,
                });
            }
            Figure::Lattice(cf) => {
                pressures.uniform = Some(Uniform {
                    coefficient: cf,
                    pressure: per_coefficient * (cf * shape.solidity()),
                });
            }
        }
        let working = EnWorking {
            peak,
            figure,
            returns,
        };
        Ok((pressures, working))
    }

    fn clause(_wall: &WallWind<Self>, case: WindCase, _zone: usize) -> &'static Citation {
        match case {
            WindCase::Uniform => &source::EN1991_7_11,
            WindCase::OffCentre(_) => &source::LINEAR_SPREAD,
            WindCase::Zones(_) | WindCase::Along(_) | WindCase::Minimum => &source::EN1991_7_4_1,
        }
    }

    fn cautions(wall: &WallWind<Self>) -> Cautions {
        let figure = wall.working.figure;
        let top = wall.code().base + wall.shape().top();
        let tall = top > m(15.0) && wall.code().structural <= 1.0;
        Cautions::default()
            .with_if(tall, Caution::Flexible)
            .and(match figure {
                Figure::Wall | Figure::Lattice(_) => wall.shape().cautions(),
                Figure::Signboard => Cautions::default(),
            })
            .with_if(wall.code().shelter < 1.0, Caution::Shelter)
    }

    fn reference_heights(working: &EnWorking) -> [Length; 2] {
        [working.peak.height; 2]
    }

    fn write_site(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.working.peak.write(wall.code(), sheet);
    }

    fn write_shape(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.write_proportions(sheet);
    }

    fn write_uniform(wall: &WallWind<Self>, case: WindCase, sheet: &mut Worksheet) {
        wall.write_single(case, sheet);
    }

    fn write_zones(wall: &WallWind<Self>, _case: WindCase, sheet: &mut Worksheet) {
        wall.write_zone_rules(sheet);
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
        wall.write_mid_height(&source::EN1991_MID_HEIGHT, sheet);
    }
}

impl WallWind<EnSite> {
    /// The peak velocity pressure at the reference height.
    #[inline]
    pub const fn peak_pressure(&self) -> &PeakPressure {
        &self.working.peak
    }
}
