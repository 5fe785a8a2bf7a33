//! Weight and bending of a post together.
//!
//! - Pipe, AISC 360 H1-1, allowable strength: Pr/Pc ≥ 0.2, Pr/Pc + (8/9) Mr/Mc;
//!   below, Pr/(2 Pc) + Mr/Mc. Pc = Fcr Ae/1.67 (E3): Fe = π² E/(KL/r)², Fcr =
//!   0.658^(Fy/Fe) Fy while Fy/Fe ≤ 2.25, 0.877 Fe beyond; Ae/A = 0.038 E/(Fy D/t) +
//!   2/3 at most 1 (E7). Mr is raised by 1/(1 − 1.6 Pr/Pe), Pe = Fe A.
//! - Square timber, NDS 3.9.2: (fc/Fc')² + (fb/Fb')/(1 − fc/FcE), Fc' = Fc CD CP,
//!   CP (3.7.1) with c = 0.8, FcE = 0.822 Emin/(le/d)², le/d to 50. In a corner
//!   both moments count ([`super::PostStrength::skew_moment`]); the term
//!   (fb/FbE)² of 3.9-3 is left out.
//! - Square steel tube: the same as pipe; walls slender in compression, b/t beyond
//!   1.40 √(E/Fy), are refused.
//! - Round timber as a square of the same area (NDS 3.7.3).
//! - Aluminium and posts of given strength, with an axial capacity and EI: P/Pa +
//!   M/Mr, M raised by 1/(1 − 1.6 P/Pe). A sleeved post is its insert.
//! - Timber under its weight alone too, CD 0.9 (NDS 2.3.2): P/(Fc' A).
//!
//! Where the rotation of the ground at a unit moment is known
//! ([`AxialBending::on_ground`]), 1/Pe grows by L θ/M: a post is not fixed in the
//! ground, and a soft footing tips it by its own weight. Without it the post is
//! taken as fixed at the greatest moment, which is not safe in soft ground or
//! shallow holes.
//!
//! All from memory. K = 2.1 for a cantilever, the value the commentary of AISC
//! 360 recommends and NDS Appendix G has, over the height above grade and the
//! depth to the greatest moment. Weight acts at the top, which is safe.

mod working;

use super::steel::{MODULUS_KSI, OMEGA};
use super::{Post, SteelStrength};
use crate::error::{Error, number_within, stress_within, within};
use crate::source::{self, Citation};
use crate::units::{
    Area, FlexuralRigidity, Force, Length, Measurable, Pressure, SecondMoment, Torque, ft, ksi, lb,
    lb_per_sq_in, n_m, number,
};
use crate::utilization::Utilization;
use core::f64::consts::PI;

/// CD of weight that lasts.
const LASTING: f64 = 0.9;
/// The greatest le/d of a column (NDS 3.7.1.4).
const MOST_SLENDER: f64 = 50.0;
/// KL/r of steel beyond which AISC 360 E2 advises against.
const ADVISED: f64 = 200.0;
/// c of sawn lumber; safe for round timber too, of which it is 0.85 (NDS 3.7.1, from
/// memory).
const SAWN: f64 = 0.8;

/// Compression values of timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompressionValues {
    stress: Pressure,
    modulus: Pressure,
}

impl CompressionValues {
    /// Fc parallel to the grain with CM, Ct, CF and Ci on it, without CD and CP;
    /// and Emin with CM, Ct and Ci on it: [`super::TimberPost::minimum_modulus`] of
    /// E' ([`super::TimberPost::adjusted_modulus`]), since they are the same on both.
    ///
    /// # Errors
    /// Fc outside 100 psi to 10 ksi, Emin outside 50 to 3 000 ksi.
    pub fn new(compression: Pressure, minimum_modulus: Pressure) -> Result<Self, Error> {
        let (least, most) = (lb_per_sq_in(100.0), ksi(10.0));
        Ok(Self {
            stress: stress_within("Fc", compression, least, most)?,
            modulus: stress_within("Emin", minimum_modulus, ksi(50.0), ksi(3_000.0))?,
        })
    }
}

/// How weight and bending are combined.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxialOptions {
    factor: f64,
    timber: Option<CompressionValues>,
    capacity: Option<Force>,
    turning: Option<TurningStiffness>,
}

/// What the ground holds against turning: a moment per radian at the foot of a
/// post.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurningStiffness(Torque);

impl TurningStiffness {
    /// A moment per radian.
    ///
    /// # Errors
    /// Outside 1 N·m to 10¹² N·m.
    pub fn new(moment_per_radian: Torque) -> Result<Self, Error> {
        let (least, most) = (n_m(1.0), n_m(1e12));
        within("moment per radian", moment_per_radian, least, most).map(Self)
    }

    /// The moment per radian.
    pub const fn per_radian(self) -> Torque {
        self.0
    }
}

impl Default for AxialOptions {
    fn default() -> Self {
        Self {
            factor: 2.1,
            timber: None,
            capacity: None,
            turning: None,
        }
    }
}

impl AxialOptions {
    /// With another K than 2.1.
    ///
    /// # Errors
    /// Outside 2 to 10: the top is free.
    pub fn with_length_factor(self, factor: f64) -> Result<Self, Error> {
        Ok(Self {
            factor: number_within("effective length factor", factor, 2.0, 10.0)?,
            ..self
        })
    }

    /// With the compression values of a timber post, which it wants.
    #[must_use]
    pub const fn with_timber(self, values: CompressionValues) -> Self {
        Self {
            timber: Some(values),
            ..self
        }
    }

    /// With what the ground holds against turning; without it the post is taken
    /// as fixed, which is not safe in soft ground.
    #[must_use]
    pub const fn on_ground(self, turning: TurningStiffness) -> Self {
        Self {
            turning: Some(turning),
            ..self
        }
    }

    /// With the allowable axial load of a post of given strength, which it
    /// wants.
    ///
    /// # Errors
    /// Outside 1 to 10⁷ lb.
    pub fn with_capacity(self, capacity: Force) -> Result<Self, Error> {
        let capacity = within("allowable axial load", capacity, lb(1.0), lb(1e7))?;
        Ok(Self {
            capacity: Some(capacity),
            ..self
        })
    }
}

/// Which expression it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum AxialForm {
    /// AISC 360 H1-1a.
    SteelHeavy,
    /// AISC 360 H1-1b.
    SteelLight,
    /// NDS 3.9-3.
    Timber,
    /// Of a given capacity.
    Linear,
}

/// Weight and bending together.
///
/// ```
/// use groundline::{post::*, section::Tube, units::*, utilization::Utilization};
/// let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.154))?, SteelStrength::new(ksi(30.0))?)?;
/// let both = AxialBending::new(
///     &pipe.into(), &AxialOptions::default(), lb(500.0), Utilization::FULL, ft(7.0),
/// )?;
/// assert_eq!(both.form, AxialForm::SteelLight);
/// assert!(both.utilization > Utilization::FULL);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct AxialBending {
    /// Which expression.
    pub form: AxialForm,
    /// P.
    pub axial: Force,
    /// M over the allowable moment, bending alone.
    pub bending: Utilization,
    /// K.
    pub length_factor: f64,
    /// The length K is of.
    pub length: Length,
    /// KL/r, or le/d of timber; zero where the capacity is given.
    pub slenderness: f64,
    /// Fe, or FcE of timber, the turning of the ground in it where known.
    pub euler: Pressure,
    /// Fcr, or Fc' of timber; zero where the capacity is given.
    pub critical: Pressure,
    /// Share of the area that counts.
    pub effective: f64,
    /// CP of timber, else 1.
    pub stability: f64,
    /// Allowable axial load.
    pub capacity: Force,
    /// What the moment is raised by; infinite where the weight alone tips it.
    pub amplification: f64,
    /// Both together, or the weight alone if it is worse.
    pub utilization: Utilization,
    /// Timber under its weight alone, CD 0.9.
    pub alone: Option<Utilization>,
    /// What the ground holds against turning, where known.
    pub turning: Option<TurningStiffness>,
    area: Area,
    /// The Euler stress of a post fixed in the ground.
    fixed: Pressure,
    /// Fy, or Fc with CD.
    full: Pressure,
    modulus: Pressure,
    /// r, or d of timber.
    radius: Length,
    walls: f64,
    rigidity: FlexuralRigidity,
    /// Both together, of timber.
    both: Utilization,
    /// Fc with CD 0.9.
    lasting: Pressure,
}

impl AxialBending {
    /// For a weight, the utilization in bending alone, and the length from the
    /// greatest moment to the top.
    ///
    /// # Errors
    /// Weight outside 0 to 10⁷ lb, length outside 0.1 to 300 ft; timber without
    /// compression values, aluminium or a post of given strength without a
    /// capacity or an EI; square tube slender in compression.
    pub fn new(
        post: &Post,
        options: &AxialOptions,
        axial: Force,
        bending: Utilization,
        length: Length,
    ) -> Result<Self, Error> {
        let axial = within("axial load", axial, lb(0.0), lb(1e7))?;
        let length = within("length of the post", length, ft(0.1), ft(300.0))?;
        let nothing = lb_per_sq_in(0.0);
        let start = Self {
            form: AxialForm::Linear,
            axial,
            bending,
            length_factor: options.factor,
            length,
            slenderness: 0.0,
            euler: nothing,
            critical: nothing,
            effective: 1.0,
            stability: 1.0,
            capacity: lb(0.0),
            amplification: 1.0,
            utilization: bending,
            alone: None,
            turning: options.turning,
            area: post.section().gross_area(),
            fixed: nothing,
            rigidity: FlexuralRigidity::from_si(0.0),
            both: bending,
            lasting: nothing,
            full: nothing,
            modulus: nothing,
            radius: post.section().face_width(),
            walls: 0.0,
        };
        let wants_values = Error::NotApplicable {
            field: "Fc",
            reason: "weight with bending of timber wants its Fc and Emin",
        };
        match post {
            Post::Pipe(pipe) => {
                let section = pipe.section();
                let walls = section.slenderness();
                let effective = (0.038 * pipe.e_over_fy() / walls + 2.0 / 3.0).min(1.0);
                let tube = (section.area(), section.second_moment());
                Ok(Self { walls, ..start }.of_steel(tube, pipe.steel(), effective))
            }
            Post::SquareTube(tube) => {
                let section = tube.section();
                if tube.is_slender() {
                    return Err(Error::NotApplicable {
                        field: "tube wall",
                        reason: "the walls are slender in compression: b/t is beyond 1.40 times \
                                 the root of E/Fy",
                    });
                }
                let square = (section.area(), section.second_moment());
                Ok(start.of_steel(square, tube.steel(), 1.0))
            }
            Post::Timber(timber) => {
                let values = options.timber.ok_or(wants_values)?;
                let (area, side) = (timber.section().area(), timber.section().side());
                Ok(start.of_timber(area, side, timber.factors().load_duration, &values))
            }
            Post::RoundTimber(timber) => {
                let values = options.timber.ok_or(wants_values)?;
                let area = timber.section().area();
                let side = Length::from_si(area.value.sqrt());
                let start = Self {
                    radius: side,
                    ..start
                };
                Ok(start.of_timber(area, side, timber.factors().load_duration, &values))
            }
            Post::Given(_) | Post::Aluminium(_) => {
                let capacity = options.capacity.ok_or(Error::NotApplicable {
                    field: "allowable axial load",
                    reason: "weight with bending of this post wants one",
                })?;
                let rigidity = post.rigidity().ok_or(Error::NotApplicable {
                    field: "flexural rigidity",
                    reason: "weight raises the moment: weight with bending wants the EI of the \
                             post",
                })?;
                Ok(start.of_given(capacity, rigidity))
            }
            Post::Sleeved(sleeved) => Self::new(
                &Post::from(*sleeved.insert()),
                options,
                axial,
                bending,
                length,
            ),
        }
    }

    /// With the turning of the ground in the Euler stress of a fixed post.
    fn turned(&self, fixed: Pressure, area: Area) -> Pressure {
        match self.turning {
            Some(turning) => {
                let give = area.value * self.length.value / turning.0.value;
                Pressure::from_si(1.0 / (1.0 / fixed.value + give))
            }
            None => fixed,
        }
    }

    fn of_given(self, capacity: Force, rigidity: FlexuralRigidity) -> Self {
        let effective = self.length_factor * self.length.value;
        let load = PI * PI * rigidity.value / (effective * effective);
        let fixed = Pressure::from_si(load / self.area.value);
        let euler = self.turned(fixed, self.area);
        let amplification = raise(1.6 * (self.axial / (euler * self.area)).value);
        let share = (self.axial / capacity).value;
        Self {
            capacity,
            rigidity,
            fixed,
            euler,
            amplification,
            utilization: of_ratio(share + amplified(self.bending, amplification)),
            ..self
        }
    }

    fn of_steel(
        self,
        (area, second): (Area, SecondMoment),
        steel: SteelStrength,
        effective: f64,
    ) -> Self {
        let radius = (second.value / area.value).sqrt();
        let slenderness = self.length_factor * self.length.value / radius;
        let modulus = ksi(MODULUS_KSI);
        let fy = steel.yield_strength();
        let fixed = modulus * (PI * PI / (slenderness * slenderness));
        let euler = self.turned(fixed, area);
        let over = (fy / euler).value;
        let critical = if over <= 2.25 {
            fy * 0.658_f64.powf(over)
        } else {
            euler * 0.877
        };
        let capacity = critical * area * (effective / OMEGA);
        let share = (self.axial / capacity).value;
        let amplification = raise(1.6 * (self.axial / (euler * area)).value);
        let raised = amplified(self.bending, amplification);
        let (form, both) = if share >= 0.2 {
            (AxialForm::SteelHeavy, share + 8.0 / 9.0 * raised)
        } else {
            (AxialForm::SteelLight, share / 2.0 + raised)
        };
        Self {
            form,
            slenderness,
            euler,
            critical,
            effective,
            capacity,
            amplification,
            utilization: of_ratio(both),
            area,
            fixed,
            full: fy,
            modulus,
            radius: Length::from_si(radius),
            ..self
        }
    }

    fn of_timber(
        self,
        area: Area,
        side: Length,
        load_duration: f64,
        values: &CompressionValues,
    ) -> Self {
        let slenderness = self.length_factor * (self.length / side).value;
        let fixed = values.modulus * (0.822 / (slenderness * slenderness));
        let euler = self.turned(fixed, area);
        let full = values.stress * load_duration;
        let stability = column_stability((euler / full).value);
        let critical = full * stability;
        let stress = self.axial / area;
        let amplification = raise((stress / euler).value);
        let share = (stress / critical).value;
        let both = of_ratio(share * share + amplified(self.bending, amplification));
        let lasting = values.stress * LASTING;
        let holds = lasting * column_stability((euler / lasting).value);
        let alone = Utilization::of(stress, holds);
        // NDS 3.7.1.4 does not allow it: an answer, not a question left open.
        let utilization = if slenderness > MOST_SLENDER {
            Utilization::NO_CAPACITY
        } else {
            both.max(alone)
        };
        Self {
            form: AxialForm::Timber,
            slenderness,
            euler,
            critical,
            stability,
            capacity: critical * area,
            amplification,
            utilization,
            alone: Some(alone),
            area,
            fixed,
            full,
            modulus: values.modulus,
            both,
            lasting,
            ..self
        }
    }

    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        match self.form {
            AxialForm::SteelHeavy | AxialForm::SteelLight => &source::AISC_H1,
            AxialForm::Timber => &source::NDS_3_9_2,
            AxialForm::Linear => &source::GIVEN,
        }
    }
}

/// CP, of FcE over Fc with all its other factors: half − √(half² − over/c)
/// without the cancellation of a slender post.
fn column_stability(over: f64) -> f64 {
    let half = (1.0 + over) / (2.0 * SAWN);
    let root = (half * half - over / SAWN).max(0.0).sqrt();
    (over / SAWN) / (half + root)
}

/// 1/(1 − share of the Euler load).
fn raise(share: f64) -> f64 {
    if share < 1.0 {
        1.0 / (1.0 - share)
    } else {
        f64::INFINITY
    }
}

/// A post that tips by its weight has no room for bending, nor without.
fn amplified(bending: Utilization, by: f64) -> f64 {
    if by.is_finite() {
        bending.ratio() * by
    } else {
        f64::INFINITY
    }
}

/// A ratio that may be infinite.
fn of_ratio(value: f64) -> Utilization {
    Utilization::of(number(value), number(1.0))
}
