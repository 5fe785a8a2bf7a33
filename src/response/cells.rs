//! Integration of the soil reaction over each element: two Gauss points where it
//! is smooth, smaller and smaller cells where it is not.
//!
//! A reaction has a kink where the ground yields, where a curve bends, and next
//! to the depth at which the post does not move. An element with such a place is
//! halved until the reaction over each cell, and its moment, change by no more
//! than 1e-8 of the load when the cell is halved once more, and until a cell with
//! a kink is 2⁻⁵ of its element.

use super::mesh::{Element, GAUSS, Mesh, SHAPES, shapes};
use super::spring::Spring;
use nalgebra::Vector2;

/// One point of integration of an element that is cut into cells.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Point {
    /// Place in the element, 0 at its top to 1.
    place: f64,
    /// Share of the length of the element.
    weight: f64,
    shape: [f64; 4],
    spring: Spring,
}

/// Difference of a reaction from that of half cells, over the load, at which a
/// cell is small enough.
const TOLERANCE: f64 = 1e-8;
/// A cell is not less than 2⁻¹⁴ of its element.
const LEVELS: usize = 14;
/// A cell with a kink is not more than 2⁻⁵ of its element.
const KINK_LEVELS: usize = 5;
/// Points that any mesh has room for beyond one per element.
const ROOM: usize = 600;

/// The cells of every element.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Cells {
    /// Where the points of each element start and end; nowhere: the two Gauss
    /// points of the element itself.
    runs: Vec<(usize, usize)>,
    points: Vec<Point>,
    room: usize,
}

/// A cell in the making: its top, width, reaction and moment, and level.
type Open = (f64, f64, [f64; 2], usize);

impl Cells {
    pub(super) fn new(elements: usize) -> Self {
        let room = elements + ROOM;
        Self {
            runs: vec![(0, 0); elements],
            points: Vec::with_capacity(room),
            room,
        }
    }

    /// Back to two points in every element.
    pub(super) fn clear(&mut self) {
        self.runs.fill((0, 0));
        self.points.clear();
    }

    /// Takes over the cells of another mesh of as many elements; allocates
    /// nothing.
    pub(super) fn copy(&mut self, other: &Self) {
        self.runs.copy_from_slice(&other.runs);
        self.points.clear();
        self.points.extend_from_slice(&other.points);
    }

    /// Whether an element is cut.
    #[inline]
    pub(super) fn is_cut(&self, index: usize) -> bool {
        self.runs.get(index).is_some_and(|(from, to)| from != to)
    }

    /// Calls with spring, shape functions, place and weight of each point.
    #[inline]
    pub(super) fn each(
        &self,
        index: usize,
        element: &Element,
        mut call: impl FnMut(&Spring, &[f64; 4], f64, f64),
    ) {
        let (from, to) = self.runs[index];
        if from == to {
            for ((spring, shape), place) in element.springs.iter().zip(&SHAPES).zip(GAUSS) {
                call(spring, shape, place, 0.5);
            }
        } else {
            for point in &self.points[from..to] {
                call(&point.spring, &point.shape, point.place, point.weight);
            }
        }
    }

    /// Calls with top and width of each cell, as shares of the element.
    pub(super) fn each_cell(&self, index: usize, mut call: impl FnMut(f64, f64)) {
        let (from, to) = self.runs[index];
        if from == to {
            call(0.0, 1.0);
        }
        for point in self.points[from..to].iter().step_by(2) {
            let width = 2.0 * point.weight;
            call(point.place - GAUSS[0] * width, width);
        }
    }

    /// Cuts the elements anew for the reaction at a state under a load of this
    /// size; false where no element is cut, neither before nor now.
    pub(super) fn divide(
        &mut self,
        mesh: &Mesh,
        state: &[Vector2<f64>],
        curves: &[Vec<(f64, f64)>],
        load: f64,
    ) -> bool {
        let before = self.points.len();
        self.clear();
        let tolerance = TOLERANCE * load;
        for (i, element) in mesh.elements.iter().enumerate().skip(mesh.grade) {
            let ends = [state[i], state[i + 1]];
            let stage = |place: f64, y: f64| element.spring(place).stage(y, curves);
            let one = stage(0.0, ends[0].x);
            let kinks = stage(1.0, ends[1].x) != one
                || element.springs.iter().zip(&SHAPES).any(|(spring, shape)| {
                    let y = deflection(shape, element.length, &ends);
                    spring.stage(y, curves) != one
                });
            if kinks {
                self.cut(i, element, &ends, curves, tolerance);
            }
        }
        before + self.points.len() > 0
    }

    fn cut(
        &mut self,
        index: usize,
        element: &Element,
        ends: &[Vector2<f64>; 2],
        curves: &[Vec<(f64, f64)>],
        tolerance: f64,
    ) {
        let h = element.length;
        // Reaction of a cell, and its moment over the width of the cell.
        let over = |from: f64, width: f64| {
            let [p, q] = GAUSS.map(|gauss| {
                let place = from + gauss * width;
                let y = deflection(&shapes(place), h, ends);
                element.spring(place).at(y, curves).0
            });
            let part = 0.5 * h * width;
            [part * (p + q), part * (q - p) * (GAUSS[1] - 0.5)]
        };
        let kinks = |place: f64| {
            let y = deflection(&shapes(place), h, ends);
            element.spring(place).kinks(y, curves)
        };
        let from = self.points.len();
        let mut open: [Open; LEVELS + 2] = [(0.0, 1.0, over(0.0, 1.0), 0); LEVELS + 2];
        let mut count = 1;
        while count > 0 {
            count -= 1;
            let (top, width, [whole, turning], level) = open[count];
            let half = 0.5 * width;
            let (upper, lower) = (over(top, half), over(top + half, half));
            let sum = upper[0] + lower[0];
            let turned = 0.5 * (upper[1] + lower[1]) + 0.25 * (lower[0] - upper[0]);
            let off = (sum - whole).abs() + (turned - turning).abs();
            let full = self.points.len() + 2 * (count + 2) > self.room;
            // A kink next to an end is seen by no Gauss point.
            let hidden = level < KINK_LEVELS && kinks(top) != kinks(top + width);
            if (off > tolerance || hidden) && level < LEVELS && !full {
                open[count] = (top + half, half, lower, level + 1);
                open[count + 1] = (top, half, upper, level + 1);
                count += 2;
            } else if width < 1.0 {
                self.points.extend(GAUSS.map(|gauss| {
                    let place = top + gauss * width;
                    Point {
                        place,
                        weight: half,
                        shape: shapes(place),
                        spring: element.spring(place),
                    }
                }));
            }
        }
        self.runs[index] = (from, self.points.len());
    }
}

/// y in an element, by shape functions and the y and θ of its ends.
pub(super) fn deflection(shape: &[f64; 4], h: f64, ends: &[Vector2<f64>; 2]) -> f64 {
    let [a, b, c, d] = *shape;
    a * ends[0].x + b * h * ends[0].y + c * ends[1].x + d * h * ends[1].y
}
