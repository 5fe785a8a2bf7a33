//! A soil: what it weighs, what it resists, how stiff it is.

use crate::error::{Error, number_within, within};
use crate::source::{self, Citation};
use crate::units::{Angle, ForcePerVolume, Pressure, deg, kn_per_cu_m, kpa, mpa};

/// How stiff a soil is against sideways movement.
///
/// The spring of a post per length is k, a force per length of post and per
/// movement; all of these are turned into it with the width b of the post and,
/// for a modulus, its bending stiffness EI. z is the depth from grade.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Stiffness {
    /// The same at every depth: k = ks b.
    Constant(ForcePerVolume),
    /// Growing with depth from grade: k = nh z.
    Growing(ForcePerVolume),
    /// From the modulus of the soil and its Poisson's ratio:
    /// k = 0.65 (Es b⁴/EI)^(1/12) Es/(1 − ν²). From memory.
    Modulus(Pressure, f64),
}

impl Stiffness {
    /// A constant subgrade modulus ks.
    ///
    /// # Errors
    /// Outside 10 kN/m³ to 10 GN/m³.
    pub fn constant(ks: ForcePerVolume) -> Result<Self, Error> {
        subgrade("subgrade modulus", ks).map(Self::Constant)
    }

    /// A coefficient nh of a stiffness that grows with depth.
    ///
    /// # Errors
    /// Outside 10 kN/m³ to 10 GN/m³.
    pub fn growing(nh: ForcePerVolume) -> Result<Self, Error> {
        subgrade("growth of stiffness", nh).map(Self::Growing)
    }

    /// A soil modulus and Poisson's ratio.
    ///
    /// # Errors
    /// Modulus outside 0.1 MPa to 10 GPa, Poisson's ratio outside 0 to 0.5.
    pub fn modulus(es: Pressure, poisson: f64) -> Result<Self, Error> {
        Ok(Self::Modulus(
            within("soil modulus", es, mpa(0.1), mpa(10_000.0))?,
            number_within("Poisson's ratio", poisson, 0.0, 0.5)?,
        ))
    }
}

fn subgrade(field: &'static str, value: ForcePerVolume) -> Result<ForcePerVolume, Error> {
    within(field, value, kn_per_cu_m(10.0), kn_per_cu_m(1e7))
}

/// A soil.
///
/// Drained strength is a friction angle, with a cohesion if there is one;
/// undrained strength is su. A layer needs one of them.
///
/// ```
/// use groundline::{profile::*, units::*};
/// let sand = Soil::new(pcf(115.0))?.with_friction_angle(deg(32.0))?;
/// let clay = Soil::new(kn_per_cu_m(18.0))?.with_undrained_strength(kpa(50.0))?;
/// assert!(Soil::new(pcf(1_150.0)).is_err());
/// # let _ = (sand, clay);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Soil {
    unit_weight: ForcePerVolume,
    saturated: Option<ForcePerVolume>,
    friction: Option<Angle>,
    cohesion: Pressure,
    undrained: Option<Pressure>,
    stiffness: Option<Stiffness>,
    source: &'static Citation,
}

impl Soil {
    /// A soil of a unit weight; strength and stiffness to be added.
    ///
    /// # Errors
    /// Outside 5 to 30 kN/m³.
    pub fn new(unit_weight: ForcePerVolume) -> Result<Self, Error> {
        Ok(Self {
            unit_weight: weight("unit weight of soil", unit_weight)?,
            saturated: None,
            friction: None,
            cohesion: kpa(0.0),
            undrained: None,
            stiffness: None,
            source: &source::GIVEN,
        })
    }

    /// With another unit weight below water, saturated; otherwise the same.
    ///
    /// # Errors
    /// Outside 10 to 30 kN/m³.
    pub fn with_saturated_weight(self, weight: ForcePerVolume) -> Result<Self, Error> {
        let (least, most) = (kn_per_cu_m(10.0), kn_per_cu_m(30.0));
        let saturated = Some(within("saturated unit weight", weight, least, most)?);
        Ok(Self { saturated, ..self })
    }

    /// With a friction angle φ′.
    ///
    /// # Errors
    /// Outside 1° to 50°.
    pub fn with_friction_angle(self, phi: Angle) -> Result<Self, Error> {
        let friction = Some(within("friction angle", phi, deg(1.0), deg(50.0))?);
        Ok(Self { friction, ..self })
    }

    /// With a cohesion c′ beside the friction angle.
    ///
    /// # Errors
    /// Outside 0 to 1 MPa.
    pub fn with_cohesion(self, cohesion: Pressure) -> Result<Self, Error> {
        let cohesion = within("cohesion", cohesion, kpa(0.0), kpa(1_000.0))?;
        Ok(Self { cohesion, ..self })
    }

    /// With an undrained shear strength su.
    ///
    /// # Errors
    /// Outside 1 kPa to 1 MPa.
    pub fn with_undrained_strength(self, su: Pressure) -> Result<Self, Error> {
        let undrained = Some(within("undrained strength", su, kpa(1.0), kpa(1_000.0))?);
        Ok(Self { undrained, ..self })
    }

    /// With a stiffness.
    ///
    /// # Errors
    /// As the constructors of [`Stiffness`].
    pub fn with_stiffness(self, stiffness: Stiffness) -> Result<Self, Error> {
        let stiffness = match stiffness {
            Stiffness::Constant(ks) => Stiffness::constant(ks)?,
            Stiffness::Growing(nh) => Stiffness::growing(nh)?,
            Stiffness::Modulus(es, poisson) => Stiffness::modulus(es, poisson)?,
        };
        Ok(Self {
            stiffness: Some(stiffness),
            ..self
        })
    }

    /// From this source.
    #[must_use]
    pub(crate) const fn citing(self, source: &'static Citation) -> Self {
        Self { source, ..self }
    }

    /// γ, above water.
    pub const fn unit_weight(&self) -> ForcePerVolume {
        self.unit_weight
    }
    /// γ below water, water included.
    pub fn saturated_weight(&self) -> ForcePerVolume {
        self.saturated.unwrap_or(self.unit_weight)
    }
    /// φ′.
    pub const fn friction_angle(&self) -> Option<Angle> {
        self.friction
    }
    /// c′.
    pub const fn cohesion(&self) -> Pressure {
        self.cohesion
    }
    /// su.
    pub const fn undrained_strength(&self) -> Option<Pressure> {
        self.undrained
    }
    /// Its stiffness.
    pub const fn stiffness(&self) -> Option<&Stiffness> {
        self.stiffness.as_ref()
    }
    /// Where its values come from.
    pub const fn source(&self) -> &'static Citation {
        self.source
    }

    /// Has it any strength?
    pub(super) fn has_strength(&self) -> bool {
        self.friction.is_some() || self.undrained.is_some()
    }
}

fn weight(field: &'static str, value: ForcePerVolume) -> Result<ForcePerVolume, Error> {
    within(field, value, kn_per_cu_m(5.0), kn_per_cu_m(30.0))
}
