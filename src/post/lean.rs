//! How far the top of a post leans: what it bends above grade, and what the
//! ground gives.
//!
//! δ = flexure + θ0 h + y0: flexure w h⁴/(8 EI) of an even wind, P a² (3h −
//! a)/(6 EI) of a force at a height a; θ0 and y0 of the ground, positive with
//! the load. First order, but for [`Lean::of_response`]. A limit is given by the
//! user or there is none: no code sets one for fences.

use crate::error::{Error, within};
use crate::response::Response;
use crate::source::{self, Citation};
use crate::units::{
    Angle, FlexuralRigidity, Force, Length, LineLoad, Measurable, Torque, ft, m, n_m, n_per_m,
    n_sq_m, newton, rad,
};
use crate::utilization::Utilization;

/// A post above grade and what stands at its foot.
///
/// ```
/// use groundline::{post::Lean, units::*};
/// let lean = Lean::of_wind(kn_per_m(0.6), m(1.8), kn_sq_m(60.0))?
///     .with_ground(mm(5.0), rad(0.004))?;
/// assert!((lean.total().to(mm) - (13.122 + 7.2 + 5.0)).abs() < 1e-3);
/// assert!((1.0 / lean.ratio() - 71.08).abs() < 0.01);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lean {
    height: Length,
    flexure: Length,
    movement: Length,
    rotation: Angle,
}

impl Lean {
    /// Of an even wind per length on a post of a height and rigidity EI.
    ///
    /// # Errors
    /// Wind outside 0 to 1 MN/m, height outside 0.1 to 30 m, EI outside 1 N·m²
    /// to 10¹² N·m².
    pub fn of_wind(
        wind: LineLoad,
        height: Length,
        rigidity: FlexuralRigidity,
    ) -> Result<Self, Error> {
        let w = within("wind along the post", wind, n_per_m(0.0), n_per_m(1e6))?;
        let (h, ei) = checked(height, rigidity)?;
        Ok(Self::with_flexure(h, w.value * h.powi(4) / (8.0 * ei)))
    }

    /// Of a force at a height a, on a post of a height and rigidity.
    ///
    /// # Errors
    /// Force outside 0 to 100 MN, a above the post; as [`Lean::of_wind`].
    pub fn of_force(
        force: Force,
        at: Length,
        height: Length,
        rigidity: FlexuralRigidity,
    ) -> Result<Self, Error> {
        let force = within("force", force, newton(0.0), newton(1e8))?;
        let (h, ei) = checked(height, rigidity)?;
        let a = within("height of the force", at, ft(0.0), height)?.value;
        let flexure = force.value * a * a * (3.0 * h - a) / (6.0 * ei);
        Ok(Self::with_flexure(h, flexure))
    }

    /// Of shear V and moment M of the wind at grade, when how the wind is spread
    /// over the height h is not known, and couples C (hung leaves) on top:
    ///
    /// δ = h²/(6 EI) [max(1.2 M, 2.1 M − 0.3 V h, 2.7 M − 0.7 V h, 3 M − V h) + 3 C].
    ///
    /// A force at M/V would be the least that any spread of the wind bends the
    /// post (the flexure of a force grows faster than its height). This is no
    /// less than that of a force, of an even band wherever it lies, and of a
    /// pressure that changes linearly over the height, which for M/V from h/3
    /// to 2h/3 it is exactly; the even wind of [`Lean::of_wind`] among them.
    /// Wind that comes in at two rails bends it more: by 8 % at 0.15 and 0.85 of
    /// the height, 15 % at 0.1 and 0.9, a third at foot and top.
    /// Couples count as if they acted at the top. Derived.
    ///
    /// # Errors
    /// Shear outside 0 to 100 MN, moment or couples outside 0 to 1 GN·m; as
    /// [`Lean::of_wind`].
    ///
    /// ```
    /// use groundline::{post::Lean, units::*};
    /// let (w, h, ei) = (kn_per_m(0.6), m(1.8), kn_sq_m(60.0));
    /// let even = Lean::of_grade(kn(0.6 * 1.8), kn_m(0.6 * 1.62), kn_m(0.0), h, ei)?;
    /// let exact = Lean::of_wind(w, h, ei)?;
    /// assert!((even.total() / exact.total()).value - 1.0 < 1e-12);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn of_grade(
        shear: Force,
        moment: Torque,
        couples: Torque,
        height: Length,
        rigidity: FlexuralRigidity,
    ) -> Result<Self, Error> {
        let shear = within("shear", shear, newton(0.0), newton(1e8))?;
        let moment = within("moment", moment, n_m(0.0), n_m(1e9))?.value;
        let couples = within("couples", couples, n_m(0.0), n_m(1e9))?.value;
        let (h, ei) = checked(height, rigidity)?;
        let vh = shear.value * h;
        let spread = (1.2 * moment)
            .max(2.1 * moment - 0.3 * vh)
            .max(2.7 * moment - 0.7 * vh)
            .max(3.0 * moment - vh);
        let flexure = h * h / (6.0 * ei) * (spread + 3.0 * couples);
        Ok(Self::with_flexure(h, flexure))
    }

    /// With what the ground gives, however much.
    pub(crate) fn on_ground(self, movement: Length, rotation: Angle) -> Self {
        Self {
            movement,
            rotation,
            ..self
        }
    }

    /// The height that leans.
    pub const fn height(&self) -> Length {
        self.height
    }
    /// Rotation at grade.
    pub const fn rotation(&self) -> Angle {
        self.rotation
    }

    /// Of the whole post in the ground: its rotation and movement at grade, the
    /// rest flexure and second order. None for a post that ends at grade.
    pub fn of_response(response: &Response) -> Option<Self> {
        let (top, grade) = (response.at_top(), response.at_grade());
        let height = grade.depth - top.depth;
        if height.value <= 0.0 {
            return None;
        }
        // θ = dy/dz, z downwards: it leans with the load where θ is negative.
        let rotation = -grade.rotation.value;
        let flexure = (top.deflection - grade.deflection).value - rotation * height.value;
        Some(Self {
            height,
            flexure: Length::from_si(flexure),
            movement: grade.deflection,
            rotation: rad(rotation),
        })
    }

    fn with_flexure(height: f64, flexure: f64) -> Self {
        Self {
            height: Length::from_si(height),
            flexure: Length::from_si(flexure),
            movement: m(0.0),
            rotation: rad(0.0),
        }
    }

    /// With movement and rotation of the ground, positive with the load.
    ///
    /// # Errors
    /// Movement outside 0 to 1 m, rotation outside 0 to 0.5 rad.
    pub fn with_ground(self, movement: Length, rotation: Angle) -> Result<Self, Error> {
        Ok(Self {
            movement: within("movement at grade", movement, m(0.0), m(1.0))?,
            rotation: within("rotation at grade", rotation, rad(0.0), rad(0.5))?,
            ..self
        })
    }

    /// What the post bends above grade.
    pub const fn flexure(&self) -> Length {
        self.flexure
    }
    /// What it moves at grade.
    pub const fn movement(&self) -> Length {
        self.movement
    }
    /// What its rotation at grade carries to the top: θ0 h.
    pub fn of_rotation(&self) -> Length {
        self.height * self.rotation.value
    }
    /// Movement of the top.
    pub fn total(&self) -> Length {
        self.flexure + self.of_rotation() + self.movement
    }
    /// Movement of the top over the height.
    pub fn ratio(&self) -> f64 {
        (self.total() / self.height).value
    }
    /// Against a limit of the movement of the top over the height, such as
    /// 1/60: the user's own.
    ///
    /// # Errors
    /// Limit outside 1/1 000 to 1/4.
    pub fn against(&self, limit: f64) -> Result<Utilization, Error> {
        let limit = crate::error::number_within("limit of lean", limit, 0.001, 0.25)?;
        Ok(Utilization::of(self.total(), self.height * limit))
    }

    /// Where the flexure comes from.
    pub const fn source() -> &'static Citation {
        &source::STATICS
    }
}

fn checked(height: Length, rigidity: FlexuralRigidity) -> Result<(f64, f64), Error> {
    let height = within("height of the post", height, m(0.1), m(30.0))?;
    let rigidity = within("flexural rigidity", rigidity, n_sq_m(1.0), n_sq_m(1e12))?;
    Ok((height.value, rigidity.value))
}
