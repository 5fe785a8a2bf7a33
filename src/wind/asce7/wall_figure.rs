//! Force coefficients of solid free-standing walls: the figure of ASCE 7.
//!
//! B is the straight length of the wall, s the vertical size of its solid
//! part, h the height of its top. The same numbers stand in 7-05 to 7-22.
//!
//! - **Cases A and B**: bilinear in s/h and B/s, clamped at the ends.
//! - **Case C**, for B/s ≥ 2: strips of length s from the windward edge, and
//!   from the other edge for the other wind; × (1.8 − s/h) where s/h > 0.8; the
//!   first strip × a factor where the wall turns a corner there.
//! - **Openings** under 30 %: × 1 − (1 − ε)^1.5, ε = solid over gross area.
//!
//! Where sources disagree, [`WallOptions`](super::WallOptions) holds the choice.

use super::options::{ColumnGap, ResultantHeight, ShortReturn};
use crate::error::{Error, number_within};
use crate::units::{Length, at_least, at_most, not_longer};
use crate::wind::wall::WallShape;

/// s/h of the rows of [`CASES_A_B`].
const S_OVER_H: [f64; 7] = [0.16, 0.2, 0.3, 0.5, 0.7, 0.9, 1.0];
/// B/s of the columns of [`CASES_A_B`].
const B_OVER_S: [f64; 12] = [
    0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 4.0, 5.0, 10.0, 20.0, 30.0, 45.0,
];
/// Cf of Cases A and B. 7-10 Figure 29.4-1, published.
const CASES_A_B: [[f64; 12]; 7] = [
    [
        1.95, 1.90, 1.85, 1.85, 1.80, 1.80, 1.85, 1.85, 1.85, 1.90, 1.90, 1.95,
    ],
    [
        1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.90, 1.90, 1.95,
    ],
    [
        1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.85, 1.85,
    ],
    [
        1.95, 1.85, 1.80, 1.75, 1.75, 1.70, 1.70, 1.70, 1.70, 1.70, 1.70, 1.75,
    ],
    [
        1.90, 1.85, 1.75, 1.70, 1.65, 1.60, 1.60, 1.55, 1.55, 1.55, 1.55, 1.55,
    ],
    [
        1.85, 1.75, 1.70, 1.60, 1.55, 1.50, 1.45, 1.45, 1.40, 1.40, 1.40, 1.40,
    ],
    [
        1.80, 1.70, 1.65, 1.55, 1.45, 1.40, 1.35, 1.35, 1.30, 1.30, 1.30, 1.30,
    ],
];

/// Edges of the Case C regions, in multiples of s; the last one is open.
pub(super) const REGION_EDGES: [f64; 8] = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 10.0, f64::MAX];
/// B/s of the columns of [`CASE_C`].
const CASE_C_COLUMNS: [f64; 11] = [2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 13.0, 45.0];
/// Cf of Case C, a row a column of the printed table and a value a region
/// (0–s, s–2s, 2s–3s, 3s–4s, 4s–5s, 5s–10s, beyond 10s). Quoted.
///
/// Up to B/s = 10 the figure has one region 3s–10s, here three equal ones. A
/// region that the column lacks because the wall ends before it holds the
/// value of the next column (from there on the wall exists).
const CASE_C: [[f64; 7]; 11] = [
    [2.25, 1.50, 1.15, 1.10, 1.10, 1.10, 0.55],
    [2.60, 1.70, 1.15, 1.10, 1.10, 1.10, 0.55],
    [2.90, 1.90, 1.30, 1.10, 1.10, 1.10, 0.55],
    [3.10, 2.00, 1.45, 1.05, 1.05, 1.05, 0.55],
    [3.30, 2.15, 1.55, 1.05, 1.05, 1.05, 0.55],
    [3.40, 2.25, 1.65, 1.05, 1.05, 1.05, 0.55],
    [3.55, 2.30, 1.70, 1.05, 1.05, 1.05, 0.55],
    [3.65, 2.35, 1.75, 1.00, 1.00, 1.00, 0.55],
    [3.75, 2.45, 1.85, 0.95, 0.95, 0.95, 0.55],
    [4.00, 2.60, 2.00, 1.50, 1.35, 0.90, 0.55],
    [4.30, 2.55, 1.95, 1.85, 1.85, 1.10, 0.55],
];
/// Smallest B/s at which the return-corner factor applies.
const RETURN_FROM: f64 = 5.0;
/// Lr/s and factor of a return corner. Quoted.
const RETURN: [(f64, f64); 3] = [(0.3, 0.90), (1.0, 0.75), (2.0, 0.60)];

/// Height of the resultant on a wall above ground; not below the middle of its
/// solid area.
#[inline]
pub(super) fn resultant_height(shape: &WallShape, reading: ResultantHeight) -> Length {
    let middle = shape.solid_height();
    let grounded = shape.top() * 0.55;
    let on_ground = not_longer(shape.clearance(), Length::default());
    match reading {
        ResultantHeight::AsPrinted if !on_ground => middle,
        ResultantHeight::AsPrinted | ResultantHeight::NeverBelowGrounded => grounded.max(middle),
    }
}

/// Cf of Cases A and B, bilinear in s/h and B/s and clamped at the ends of the
/// figure: s the vertical size of the wall, h the height of its top, B its
/// straight length. On gross area, both faces included.
///
/// Source: 7-10 Fig. 29.4-1 (published), 7-16 and 7-22 Fig. 29.3-1 (quoted).
///
/// # Errors
/// s/h outside 0 to 1, B/s negative or not finite.
///
/// ```
/// use groundline::wind::cf_cases_a_b;
/// assert_eq!(cf_cases_a_b(1.0, 10.0)?, 1.30);
/// # Ok::<(), groundline::Error>(())
/// ```
#[inline]
pub fn cf_cases_a_b(s_over_h: f64, b_over_s: f64) -> Result<f64, Error> {
    let s_over_h = number_within("s/h", s_over_h, 0.0, 1.0)?;
    let b_over_s = number_within("B/s", b_over_s, 0.0, 1e9)?;
    let (row, v) = bracket(&S_OVER_H, s_over_h);
    let (column, u) = bracket(&B_OVER_S, b_over_s);
    let mix = |row: usize| {
        let cells = &CASES_A_B[row];
        cells[column] + u * (cells[column + 1] - cells[column])
    };
    let low = mix(row);
    Ok(low + v * (mix(row + 1) - low))
}

/// The cells of the Cases A and B figure around a point, for the worksheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cells {
    /// s/h of the two rows, and of the point, held within the figure.
    pub(super) rows: [f64; 2],
    pub(super) s_over_h: f64,
    /// B/s of the two columns, and of the point, held within the figure.
    pub(super) columns: [f64; 2],
    pub(super) b_over_s: f64,
    /// Row by row.
    pub(super) cf: [[f64; 2]; 2],
}

pub(super) fn cells_a_b(s_over_h: f64, b_over_s: f64) -> Cells {
    let (row, _) = bracket(&S_OVER_H, s_over_h);
    let (column, _) = bracket(&B_OVER_S, b_over_s);
    let rows = [S_OVER_H[row], S_OVER_H[row + 1]];
    let columns = [B_OVER_S[column], B_OVER_S[column + 1]];
    let pair = |row: usize| [CASES_A_B[row][column], CASES_A_B[row][column + 1]];
    Cells {
        rows,
        s_over_h: s_over_h.max(rows[0]).min(rows[1]),
        columns,
        b_over_s: b_over_s.max(columns[0]).min(columns[1]),
        cf: [pair(row), pair(row + 1)],
    }
}

/// The interval of ascending `knots` that holds `x`, and where in it, clamped
/// to 0..=1.
#[inline]
fn bracket<const N: usize>(knots: &[f64; N], x: f64) -> (usize, f64) {
    let mut index = 0;
    for knot in &knots[1..N - 1] {
        index += usize::from(x >= *knot);
    }
    let (low, high) = (knots[index], knots[index + 1]);
    (index, ((x - low) / (high - low)).clamp(0.0, 1.0))
}

/// The factor on Cf for openings: 1 − (1 − ε)^1.5 (figure note; quoted). The
/// note is for openings under 30 %, ε of 0.7 and more; below, the factor is
/// only used where it is heavier than the open figure
/// ([`HandOver`](super::HandOver)).
///
/// # Errors
/// ε outside 0 to 1.
#[inline]
pub fn opening_factor(solidity: f64) -> Result<f64, Error> {
    let open = 1.0 - number_within("solidity", solidity, 0.0, 1.0)?;
    Ok(1.0 - open * open.sqrt())
}

/// The factor on the first strip of Case C where the wall has a return of
/// length Lr there; for B/s ≥ 5 only. 0.90, 0.75 and 0.60 at Lr/s of 0.3, 1 and
/// 2, linear between and held beyond; below 0.3 as chosen. Figure, quoted.
///
/// # Errors
/// Lr/s negative or not finite.
#[inline]
pub fn return_factor(lr_over_s: f64, reading: ShortReturn) -> Result<f64, Error> {
    let x = number_within("return length over s", lr_over_s, 0.0, 1e9)?;
    let [(x0, f0), (x1, f1), (x2, f2)] = RETURN;
    Ok(if !at_least(x, x0) {
        match reading {
            ShortReturn::NoReduction => 1.0,
            ShortReturn::Interpolate => 1.0 + (f0 - 1.0) * x / x0,
            ShortReturn::FirstRow => f0,
        }
    } else if x < x1 {
        f0 + (f1 - f0) * ((x - x0) / (x1 - x0)).max(0.0)
    } else {
        f1 + (f2 - f1) * ((x - x1) / (x2 - x1)).min(1.0)
    })
}

/// One region of Case C, in multiples of s from the windward edge.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Region {
    /// Where it starts.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Its Cf with the (1.8 − s/h) factor, without a return corner.
    pub cf: f64,
}

/// The Case C coefficients of a wall, before a return-corner factor: strips from
/// the windward edge, linear in B/s between the columns of the table and held
/// beyond 45, × (1.8 − s/h) where s/h > 0.8.
///
/// Source: 7-10 Fig. 29.4-1, 7-16 and 7-22 Fig. 29.3-1. Quoted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CaseC {
    b_over_s: f64,
    ground: f64,
    pub(super) cf: [f64; 7],
}

impl CaseC {
    /// For a wall of these proportions; none where B/s < 2, for which the
    /// figure has no Case C.
    ///
    /// # Errors
    /// s/h outside 0 to 1, B/s negative or not finite, or within 10 to 13 when
    /// that is to be refused.
    ///
    /// ```
    /// use groundline::wind::{CaseC, ColumnGap};
    /// let c = CaseC::new(0.5, 45.0, ColumnGap::Interpolate)?.unwrap();
    /// assert_eq!(c.regions().map(|r| r.cf).collect::<Vec<_>>(),
    ///            [4.30, 2.55, 1.95, 1.85, 1.85, 1.10, 0.55]);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[inline]
    pub fn new(s_over_h: f64, b_over_s: f64, gap: ColumnGap) -> Result<Option<Self>, Error> {
        let s_over_h = number_within("s/h", s_over_h, 0.0, 1.0)?;
        let b_over_s = number_within("B/s", b_over_s, 0.0, 1e9)?;
        if !at_least(b_over_s, CASE_C_COLUMNS[0]) {
            return Ok(None);
        }
        if gap == ColumnGap::Refuse && !at_most(b_over_s, 10.0) && !at_least(b_over_s, 13.0) {
            return Err(Error::NotApplicable {
                field: "B/s",
                reason: "the Case C tables have a gap between B/s of 10 and 13, and the option \
                         says to refuse it",
            });
        }
        let (column, u) = bracket(&CASE_C_COLUMNS, b_over_s);
        let ground = if s_over_h > 0.8 { 1.8 - s_over_h } else { 1.0 };
        let (low, high) = (&CASE_C[column], &CASE_C[column + 1]);
        let mut cf = [0.0; 7];
        for i in 0..7 {
            cf[i] = (low[i] + u * (high[i] - low[i])) * ground;
        }
        Ok(Some(Self {
            b_over_s,
            ground,
            cf,
        }))
    }

    /// B/s of the two printed columns around this wall, and its own, held
    /// within them; the tabular coefficients of a region in both.
    pub(super) fn columns(&self, region: usize) -> ([f64; 2], f64, [f64; 2]) {
        let (column, _) = bracket(&CASE_C_COLUMNS, self.b_over_s);
        let columns = [CASE_C_COLUMNS[column], CASE_C_COLUMNS[column + 1]];
        let region = region.min(6);
        (
            columns,
            self.b_over_s.max(columns[0]).min(columns[1]),
            [CASE_C[column][region], CASE_C[column + 1][region]],
        )
    }

    /// 1.8 − s/h where s/h exceeds 0.8, else 1; already in the coefficients.
    #[inline]
    pub const fn ground_factor(&self) -> f64 {
        self.ground
    }

    /// Does a return corner reduce the first region of this wall?
    #[inline]
    pub fn takes_return_factor(&self) -> bool {
        at_least(self.b_over_s, RETURN_FROM)
    }

    /// The regions that exist on this wall, from the windward edge.
    #[inline]
    pub fn regions(&self) -> impl Iterator<Item = Region> {
        let Self { b_over_s, cf, .. } = *self;
        (0..cf.len())
            .map(move |i| Region {
                from: REGION_EDGES[i],
                to: REGION_EDGES[i + 1].min(b_over_s),
                cf: cf[i],
            })
            .take_while(move |region| region.from < b_over_s)
    }
}
