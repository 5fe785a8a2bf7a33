//! Section properties against numerical integration.

use approx::assert_relative_eq;
use groundline::section::*;
use groundline::units::*;
use proptest::prelude::*;

/// Half the width of a rounded square at a height over the middle.
fn half_width(side: f64, radius: f64, y: f64) -> f64 {
    let reach = side / 2.0 - radius;
    if y.abs() <= reach {
        side / 2.0
    } else {
        let up = y.abs() - reach;
        reach + (radius * radius - up * up).max(0.0).sqrt()
    }
}

/// A, I, Z and the width at the middle of what lies between two contours, by
/// slices.
fn slices(side: f64, outer: impl Fn(f64) -> f64, inner: impl Fn(f64) -> f64) -> (f64, f64, f64) {
    let n = 200_000;
    let step = side / f64::from(n);
    (0..n).fold((0.0, 0.0, 0.0), |(a, i, z), k| {
        let y = (f64::from(k) + 0.5) * step - side / 2.0;
        let slice = 2.0 * (outer(y) - inner(y)) * step;
        (a + slice, i + y * y * slice, z + y.abs() * slice)
    })
}

#[test]
fn square_tubes_by_slices() {
    for (side, wall, radius) in [
        (4.0, 0.233, 0.466),
        (2.0, 0.12, 0.0),
        (2.0, 0.12, 0.06),
        (3.0, 0.6, 1.2),
        (3.0, 0.125, 1.2),
    ] {
        let tube = SquareTube::new(inch(side), inch(wall)).unwrap();
        let tube = tube.with_corner_radius(inch(radius)).unwrap();
        let inside: f64 = (radius - wall).max(0.0);
        let hole = side - 2.0 * wall;
        let outer = |y: f64| half_width(side, radius, y);
        let inner = |y: f64| {
            if y.abs() < hole / 2.0 {
                half_width(hole, inside, y)
            } else {
                0.0
            }
        };
        let (a, i, z) = slices(side, outer, inner);
        assert_relative_eq!(tube.area().to(sq_in), a, max_relative = 1e-5);
        assert_relative_eq!(tube.second_moment().to(in4), i, max_relative = 1e-5);
        assert_relative_eq!(tube.plastic_modulus().to(cu_in), z, max_relative = 1e-5);
        assert_relative_eq!(
            tube.section_modulus().to(cu_in),
            i / (side / 2.0),
            max_relative = 1e-5
        );
        // V Q/(I b), Q half of Z.
        let shear = i * 2.0 * wall / (z / 2.0);
        assert_relative_eq!(tube.shear_area().to(sq_in), shear, max_relative = 1e-5);
        let (gross, _, _) = slices(side, outer, |_| 0.0);
        assert_relative_eq!(tube.gross_area().to(sq_in), gross, max_relative = 1e-5);
    }
}

#[test]
fn rounds_by_slices() {
    let pole = Disc::new(inch(7.0)).unwrap();
    let half = |r: f64, y: f64| (r * r - y * y).max(0.0).sqrt();
    let (a, i, z) = slices(7.0, |y| half(3.5, y), |_| 0.0);
    assert_relative_eq!(pole.area().to(sq_in), a, max_relative = 1e-6);
    assert_relative_eq!(pole.second_moment().to(in4), i, max_relative = 1e-6);
    assert_relative_eq!(
        pole.section_modulus().to(cu_in),
        i / 3.5,
        max_relative = 1e-6
    );
    let shear = i * 7.0 / (z / 2.0);
    assert_relative_eq!(pole.shear_area().to(sq_in), shear, max_relative = 1e-6);
    let by_girth = Disc::of_circumference(pole.circumference()).unwrap();
    assert_relative_eq!(by_girth.diameter().to(inch), 7.0, max_relative = 1e-12);

    let pipe = Tube::new(inch(4.0), inch(0.4)).unwrap();
    let (_, i, z) = slices(4.0, |y| half(2.0, y), |y| half(1.6, y));
    let shear = i * 0.8 / (z / 2.0);
    assert_relative_eq!(pipe.shear_area().to(sq_in), shear, max_relative = 1e-5);
    let square = Square::new(inch(3.0)).unwrap();
    assert_relative_eq!(square.shear_area().to(sq_in), 6.0, max_relative = 1e-12);
}

/// What counts on the ground and what fills the hole.
#[test]
fn widths() {
    let tube = SquareTube::new(inch(4.0), inch(0.2)).unwrap();
    let pole = Disc::new(inch(6.0)).unwrap();
    let (square, round) = (PostSection::from(tube), PostSection::from(pole));
    let diagonal = 4.0 * 2.0_f64.sqrt();
    assert_relative_eq!(
        square.bearing_width().to(inch),
        diagonal,
        max_relative = 1e-12
    );
    assert_eq!(square.face_width(), inch(4.0));
    assert!(square.is_square() && !round.is_square());
    assert_eq!(round.bearing_width(), inch(6.0));
    assert_eq!(round.face_width(), inch(6.0));
    assert_eq!(round.gross_area(), pole.area());
    assert!(square.gross_area() < sq_in(16.0) && square.gross_area() > tube.area());
    // The flat: B − 3t, of sharp corners B − 2t.
    assert_relative_eq!(tube.flat_width().to(inch), 3.4, max_relative = 1e-12);
    let sharp = tube.with_corner_radius(inch(0.0)).unwrap();
    assert_relative_eq!(sharp.flat_width().to(inch), 3.6, max_relative = 1e-12);
    assert_relative_eq!(sharp.slenderness(), 18.0, max_relative = 1e-12);
    assert!(sharp.area() > tube.area());
}

proptest! {
    /// What rust takes off the outside leaves the inside as it was, and less
    /// of everything.
    #[test]
    fn loss_never_helps(
        side in 1.0..10.0_f64, wall in 0.02..0.19_f64, radius in 0.0..0.4_f64, loss in 0.01..0.9_f64
    ) {
        let wall = wall * side;
        let tube = SquareTube::new(inch(side), inch(wall)).unwrap();
        let tube = tube.with_corner_radius(inch(radius * side)).unwrap();
        let Ok(left) = tube.less_outside(inch(loss * wall)) else {
            prop_assert!((1.0 - loss) * wall < 0.0101);
            return Ok(());
        };
        prop_assert!((left.inside().value / tube.inside().value - 1.0).abs() < 1e-12);
        prop_assert!((left.inside_radius().value - tube.inside_radius().value).abs() < 1e-12);
        prop_assert!(left.area() < tube.area());
        prop_assert!(left.second_moment().value < tube.second_moment().value);
        prop_assert!(left.section_modulus() < tube.section_modulus());
        prop_assert!(left.plastic_modulus() < tube.plastic_modulus());
        prop_assert!(left.shear_area() < tube.shear_area());
        prop_assert!(tube.plastic_modulus() > tube.section_modulus());
        let pole = Disc::new(inch(side + 3.0)).unwrap();
        let left = pole.less_outside(inch(loss)).unwrap();
        prop_assert!(left.section_modulus() < pole.section_modulus());
    }
}
