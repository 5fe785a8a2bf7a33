//! The root of x³ = a x + c against bisection and a residual, over every
//! scale.

use approx::assert_relative_eq;
use groundline::embedment::positive_root;
use proptest::prelude::*;

/// Plain bisection, slow and sure.
fn bisect(a: f64, c: f64) -> f64 {
    let (mut low, mut high) = (0.0, 2.0 * (a.sqrt() + c.cbrt()));
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle * middle * middle > a * middle + c {
            high = middle;
        } else {
            low = middle;
        }
    }
    0.5 * (low + high)
}

/// Cubics with a known root: (x − r)(x² + r x + q) has a = r² − q, c = r q.
#[test]
fn known_roots() {
    for (a, c, root) in [
        (7.0, 6.0, 3.0),
        (0.0, 8.0, 2.0),
        (9.0, 0.0, 3.0),
        (1.0, 6.0, 2.0),
        (3.0, 2.0, 2.0),
        (15.0, 4.0, 4.0),
    ] {
        assert_relative_eq!(positive_root(a, c), root, max_relative = 4e-16);
    }
    assert_eq!(positive_root(0.0, 0.0), 0.0);
    assert_eq!(positive_root(f64::MIN_POSITIVE, f64::from_bits(1)), 0.0);
}

#[test]
fn the_whole_range_of_proportions() {
    for i in -240..=240 {
        let c = 10_f64.powf(f64::from(i) / 20.0);
        assert_relative_eq!(positive_root(1.0, c), bisect(1.0, c), max_relative = 2e-15);
    }
}

proptest! {
    #[test]
    fn agrees_with_bisection(a in 1e-9..1e9_f64, c in 1e-9..1e9_f64) {
        let root = positive_root(a, c);
        let sure = bisect(a, c);
        prop_assert!((root / sure - 1.0).abs() < 2e-15, "{root} {sure}");
    }
}
