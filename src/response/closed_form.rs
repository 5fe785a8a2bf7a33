//! Elastic closed forms: quick answers, each with its range, and checks of the
//! solver.
//!
//! Shear H and moment M at grade in one sense; y0 and θ0 at grade. With k the
//! spring per length and deflection, λ = (k/(4 EI))^(1/4), u = λ L:
//!
//! | ground | post | function |
//! |---|---|---|
//! | constant k | any, u to 6 | [`finite`] (Hetenyi) |
//! | constant k | endless, u from 3 | [`endless`] |
//! | constant k | rigid, u to 0.5 | [`rigid`] |
//! | k = nh z | rigid, L/T to 1 | [`rigid_growing`] |
//! | k = nh z | any, L/T to 6 | [`finite_growing`], a power series |
//! | k = nh z | long, L/T from 4.5 | [`long_growing`] (Matlock and Reese) |
//!
//! The limits of the rigid, endless and long forms say where they are within about
//! one per cent of the full answer (measured against the solver in the tests);
//! outside they are refused. All of them refuse k outside 1 kPa to 100 GPa, nh
//! outside 10 kN/m³ to 10 GN/m³, EI outside 1 N·m² to 10¹² N·m², L outside 5 cm to
//! 30 m, H beyond 100 MN and M beyond 1 GN·m.
//! Sources: [`source::HETENYI`](crate::source::HETENYI),
//! [`source::MATLOCK_REESE`](crate::source::MATLOCK_REESE).

use crate::error::{Error, number_within, within};
use crate::units::{
    Angle, FlexuralRigidity, Force, ForcePerVolume, Length, Measurable, Pressure, Torque, rad,
};

/// Movement at grade.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct AtGrade {
    /// y0, positive with the load.
    pub deflection: Length,
    /// θ0 = dy/dz: negative where the post leans with the load.
    pub rotation: Angle,
}

impl AtGrade {
    fn of(y: f64, theta: f64) -> Self {
        Self {
            deflection: Length::from_si(y),
            rotation: rad(theta),
        }
    }
}

/// A post in ground of constant stiffness, with the whole answer.
///
/// ```
/// use groundline::{response::closed_form::finite, units::*};
/// let post = finite(mpa(1.78), kn_sq_m(47.0567), m(0.9), kn(2.0), kn_m(2.0))?;
/// assert!((post.at_grade().deflection.to(mm) - 15.340690).abs() < 1e-5);
/// assert!((post.moment(m(0.08236)).to(n_m) - 2_078.994).abs() < 1e-3);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finite {
    lambda: f64,
    rigidity: f64,
    depth: f64,
    shear: f64,
    moment: f64,
    y0: f64,
    theta0: f64,
}

/// λ of a stiffness and a rigidity, and λ L.
fn slenderness(
    k: Pressure,
    rigidity: FlexuralRigidity,
    depth: Length,
) -> Result<(f64, f64), Error> {
    use crate::units::{kpa, m, mpa, n_sq_m};
    let k = within("spring stiffness", k, kpa(1.0), mpa(1e5))?.value;
    let ei = within("flexural rigidity", rigidity, n_sq_m(1.0), n_sq_m(1e12))?.value;
    let depth = within("depth", depth, m(0.05), m(30.0))?.value;
    let lambda = (k / (4.0 * ei)).powf(0.25);
    Ok((lambda, lambda * depth))
}

fn loads(shear: Force, moment: Torque) -> Result<(f64, f64), Error> {
    use crate::units::{kn, kn_m};
    let (h, m) = (kn(1e5), kn_m(1e6));
    Ok((
        within("shear", shear, -h, h)?.value,
        within("moment", moment, -m, m)?.value,
    ))
}

/// A finite beam, free at both ends, on constant springs (Hetenyi):
/// with D = sinh² u − sin² u,
/// y0 = (2 H λ/k)(sinh u cosh u − sin u cos u)/D + (2 M λ²/k)(sinh² u + sin² u)/D,
/// θ0 = −(2 H λ²/k)(sinh² u + sin² u)/D − (4 M λ³/k)(sinh u cosh u + sin u cos u)/D.
///
/// # Errors
/// λ L outside 0.01 to 6, values out of range.
pub fn finite(
    k: Pressure,
    rigidity: FlexuralRigidity,
    depth: Length,
    shear: Force,
    moment: Torque,
) -> Result<Finite, Error> {
    let (lambda, u) = slenderness(k, rigidity, depth)?;
    let u = number_within("lambda L", u, 0.01, 6.0)?;
    let (h, m) = loads(shear, moment)?;
    let (sh, ch, s, c) = (u.sinh(), u.cosh(), u.sin(), u.cos());
    let d = sh * sh - s * s;
    let k = k.value;
    let both = (sh * sh + s * s) / d;
    let y0 = 2.0 * h * lambda / k * (sh * ch - s * c) / d + 2.0 * m * lambda * lambda / k * both;
    let theta0 = -2.0 * h * lambda * lambda / k * both
        - 4.0 * m * lambda.powi(3) / k * (sh * ch + s * c) / d;
    Ok(Finite {
        lambda,
        rigidity: rigidity.value,
        depth: depth.value,
        shear: h,
        moment: m,
        y0,
        theta0,
    })
}

impl Finite {
    /// Movement at grade.
    pub fn at_grade(&self) -> AtGrade {
        AtGrade::of(self.y0, self.theta0)
    }

    /// λ L.
    pub fn slenderness(&self) -> f64 {
        self.lambda * self.depth
    }

    /// Krylov's functions at a depth, each the derivative of the next; the
    /// derivative of the first is −4 times the last.
    fn krylov(&self, z: Length) -> [f64; 4] {
        let x = self.lambda * z.value.max(0.0).min(self.depth);
        let (sh, ch, s, c) = (x.sinh(), x.cosh(), x.sin(), x.cos());
        [
            ch * c,
            0.5 * (ch * s + sh * c),
            0.5 * sh * s,
            0.25 * (ch * s - sh * c),
        ]
    }

    /// y at a depth; beyond an end of the post that of the end.
    pub fn deflection(&self, z: Length) -> Length {
        let [f1, f2, f3, f4] = self.krylov(z);
        let (l, ei) = (self.lambda, self.rigidity);
        Length::from_si(
            self.y0 * f1
                + self.theta0 / l * f2
                + self.moment / (ei * l * l) * f3
                + self.shear / (ei * l * l * l) * f4,
        )
    }

    /// The bending moment EI y'' at a depth, of the sense of that at grade.
    pub fn moment(&self, z: Length) -> Torque {
        let [f1, f2, f3, f4] = self.krylov(z);
        let (l, ei) = (self.lambda, self.rigidity);
        Torque::from_si(
            self.moment * f1 + self.shear / l * f2
                - 4.0 * ei * l * l * self.y0 * f3
                - 4.0 * ei * l * self.theta0 * f4,
        )
    }

    /// The shear EI y''' at a depth, of the sense of that at grade.
    pub fn shear(&self, z: Length) -> Force {
        let [f1, f2, f3, f4] = self.krylov(z);
        let (l, ei) = (self.lambda, self.rigidity);
        Force::from_si(
            self.shear * f1
                - 4.0 * self.moment * l * f4
                - 4.0 * ei * l * l * l * self.y0 * f2
                - 4.0 * ei * l * l * self.theta0 * f3,
        )
    }
}

/// A post so deep that its toe does not matter: y0 = 2 H λ/k + 2 M λ²/k,
/// θ0 = −(2 H λ²/k + 4 M λ³/k).
///
/// # Errors
/// λ L below 3, values out of range.
pub fn endless(
    k: Pressure,
    rigidity: FlexuralRigidity,
    depth: Length,
    shear: Force,
    moment: Torque,
) -> Result<AtGrade, Error> {
    let (lambda, u) = slenderness(k, rigidity, depth)?;
    number_within("lambda L", u, 3.0, 1e6)?;
    let (h, m) = loads(shear, moment)?;
    Ok(endless_form(k.value, lambda, h, m))
}

fn endless_form(k: f64, lambda: f64, h: f64, m: f64) -> AtGrade {
    AtGrade::of(
        2.0 * h * lambda / k + 2.0 * m * lambda * lambda / k,
        -(2.0 * h * lambda * lambda / k + 4.0 * m * lambda.powi(3) / k),
    )
}

/// A rigid post on constant springs: y0 = 4 H/(k L) + 6 M/(k L²),
/// θ0 = −(6 H/(k L²) + 12 M/(k L³)).
///
/// # Errors
/// λ L above 0.5, values out of range.
pub fn rigid(
    k: Pressure,
    rigidity: FlexuralRigidity,
    depth: Length,
    shear: Force,
    moment: Torque,
) -> Result<AtGrade, Error> {
    let (_, u) = slenderness(k, rigidity, depth)?;
    number_within("lambda L", u, 0.0, 0.5)?;
    let (h, m) = loads(shear, moment)?;
    Ok(rigid_form(k.value, depth.value, h, m))
}

fn rigid_form(k: f64, l: f64, h: f64, m: f64) -> AtGrade {
    AtGrade::of(
        4.0 * h / (k * l) + 6.0 * m / (k * l * l),
        -(6.0 * h / (k * l * l) + 12.0 * m / (k * l * l * l)),
    )
}

/// T = (EI/nh)^(1/5), the relative length of ground that stiffens with depth.
///
/// # Errors
/// nh outside 10 kN/m³ to 10 GN/m³, EI out of range.
pub fn relative_length(nh: ForcePerVolume, rigidity: FlexuralRigidity) -> Result<Length, Error> {
    use crate::units::{kn_per_cu_m, n_sq_m};
    let nh = within(
        "growth of stiffness",
        nh,
        kn_per_cu_m(10.0),
        kn_per_cu_m(1e7),
    )?
    .value;
    let ei = within("flexural rigidity", rigidity, n_sq_m(1.0), n_sq_m(1e12))?.value;
    Ok(Length::from_si((ei / nh).powf(0.2)))
}

/// A rigid post in ground that stiffens with depth:
/// y0 = 18 H/(nh L²) + 24 M/(nh L³), θ0 = −(24 H/(nh L³) + 36 M/(nh L⁴)).
///
/// # Errors
/// L/T above 1, values out of range.
pub fn rigid_growing(
    nh: ForcePerVolume,
    rigidity: FlexuralRigidity,
    depth: Length,
    shear: Force,
    moment: Torque,
) -> Result<AtGrade, Error> {
    use crate::units::m;
    let t = relative_length(nh, rigidity)?;
    let l = within("depth", depth, m(0.05), m(30.0))?.value;
    number_within("L/T", l / t.value, 0.0, 1.0)?;
    let (h, mo) = loads(shear, moment)?;
    Ok(rigid_growing_form(nh.value, l, h, mo))
}

fn rigid_growing_form(nh: f64, l: f64, h: f64, m: f64) -> AtGrade {
    AtGrade::of(
        18.0 * h / (nh * l * l) + 24.0 * m / (nh * l.powi(3)),
        -(24.0 * h / (nh * l.powi(3)) + 36.0 * m / (nh * l.powi(4))),
    )
}

/// A post of any stiffness in ground that stiffens with depth, free at both
/// ends: the power series of EI y⁗ = −nh z y. With x = z/L and a = (L/T)⁵ it is
/// y⁗ = −a x y, so that the coefficients follow c(n) = −a c(n−5)/[n (n−1)(n−2)
/// (n−3)]; shear and moment at grade give c(3) and c(2), their absence at the
/// toe c(0) and c(1). [`source::GROWING_SERIES`](crate::source::GROWING_SERIES).
///
/// # Errors
/// L/T outside 0.05 to 6, values out of range.
///
/// ```
/// use groundline::{response::closed_form::finite_growing, units::*};
/// // Stiff against the ground: 18 H/(nh L²).
/// let nh = kn_per_cu_m(1_000.0);
/// let post = finite_growing(nh, kn_sq_m(1e4), m(1.0), kn(1.0), kn_m(0.0))?;
/// assert!((post.deflection.to(mm) - 18.0).abs() < 0.01);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn finite_growing(
    nh: ForcePerVolume,
    rigidity: FlexuralRigidity,
    depth: Length,
    shear: Force,
    moment: Torque,
) -> Result<AtGrade, Error> {
    use crate::units::m;
    let t = relative_length(nh, rigidity)?.value;
    let l = within("depth", depth, m(0.05), m(30.0))?.value;
    let a = number_within("L/T", l / t, 0.05, 6.0)?.powi(5);
    let (h, mo) = loads(shear, moment)?;
    let ei = rigidity.value;
    // What the ground adds to moment and shear at the toe, over a, for a first
    // coefficient of 1.
    let at_toe = |first: f64| {
        let (mut order, mut coefficient) = (first, 1.0 / a);
        let (mut second, mut third) = (0.0, 0.0);
        for _ in 0..60 {
            order += 5.0;
            let falling = order * (order - 1.0) * (order - 2.0);
            coefficient *= -a / (falling * (order - 3.0));
            second += coefficient * order * (order - 1.0);
            third += coefficient * falling;
        }
        (second, third)
    };
    let (of0, of1, of2, of3) = (at_toe(0.0), at_toe(1.0), at_toe(2.0), at_toe(3.0));
    let (c2, c3) = (mo * l * l / (2.0 * ei), h * l.powi(3) / (6.0 * ei));
    let second = -(c2 * (of2.0 + 2.0 / a) + c3 * (of3.0 + 6.0 / a));
    let third = -(c2 * of2.1 + c3 * (of3.1 + 6.0 / a));
    let determinant = of0.0 * of1.1 - of1.0 * of0.1;
    Ok(AtGrade::of(
        (second * of1.1 - of1.0 * third) / determinant,
        (of0.0 * third - second * of0.1) / determinant / l,
    ))
}

/// Coefficients of a long post in ground that stiffens with depth.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct LongGrowing {
    /// Ay at grade.
    pub ay: f64,
    /// By at grade.
    pub by: f64,
    /// Bs at grade, by magnitude.
    pub bs: f64,
    /// The greatest Am.
    pub am: f64,
    /// Z of the greatest Am.
    pub z: f64,
}

/// These, computed for L/T = 10; tables printed since the 1950s run 0.2 to 0.3 %
/// higher. Derived.
pub const LONG_GROWING: LongGrowing = LongGrowing {
    ay: 2.429,
    by: 1.619,
    bs: 1.747,
    am: 0.7718,
    z: 1.329,
};

/// A long post in ground that stiffens with depth (Matlock and Reese):
/// y0 = Ay H T³/EI + By M T²/EI, θ0 = −(By H T²/EI + Bs M T/EI).
///
/// # Errors
/// L/T below 4.5, values out of range.
pub fn long_growing(
    nh: ForcePerVolume,
    rigidity: FlexuralRigidity,
    depth: Length,
    shear: Force,
    moment: Torque,
) -> Result<AtGrade, Error> {
    use crate::units::m;
    let t = relative_length(nh, rigidity)?.value;
    let l = within("depth", depth, m(0.05), m(30.0))?.value;
    number_within("L/T", l / t, 4.5, 1e6)?;
    let (h, mo) = loads(shear, moment)?;
    let ei = rigidity.value;
    let LongGrowing { ay, by, bs, .. } = LONG_GROWING;
    Ok(AtGrade::of(
        ay * h * t.powi(3) / ei + by * mo * t * t / ei,
        -(by * h * t * t / ei + bs * mo * t / ei),
    ))
}
