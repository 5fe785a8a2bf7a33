//! From a ground profile to a spring at every depth.
//!
//! | springs | reaction per length |
//! |---|---|
//! | [`Springs::elastic`] | k y by the stiffness of each layer |
//! | [`Springs::elastic_plastic`] | the same up to b (3 Kp σ′ + 2 c′ √Kp) in drained soil (Broms where c′ is nothing), 3 su b (1 + z/(2b)) ≤ 9 su b in clay |
//! | [`Springs::curves_of_soil`] | API sand: A pu tanh(k z y/(A pu)), A from memory; Matlock soft clay and stiff clay without free water: from memory |
//! | [`Springs::of_curves`] | the user's curves by depth |
//!
//! The power laws of clay have an infinite slope at rest: below 0.01 y50
//! (soft) and 0.001 y50 (stiff) they are straight lines here.

mod kinks;

use super::spring::Spring;
use crate::error::{Error, number_within, within};
use crate::lateral::passive_coefficient;
use crate::profile::{Profile, Soil, Stiffness};
use crate::source::{self, Citation};
use crate::units::{
    Angle, FlexuralRigidity, ForcePerVolume, Length, LineLoad, Measurable, Pressure, kn_per_cu_m,
    m, mm, n_per_m,
};

/// Whether the wind comes once or again and again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Loading {
    /// Once.
    Static,
    /// Again and again: the heavier reading for wind, where the curve has it.
    Cyclic,
}

/// The curve of a clay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum ClayCurve {
    /// Matlock soft clay, J = 0.5.
    Soft,
    /// The same for medium clay, J = 0.25.
    Medium,
    /// Stiff clay without free water, J = 0.5; static loading only.
    Stiff,
}

/// A p–y curve of the user: reaction per length over deflection, from the
/// origin, straight between its points and flat beyond the last.
///
/// ```
/// use groundline::{response::Curve, units::{kn_per_m, mm}};
/// let curve = Curve::new(&[(mm(5.0), kn_per_m(8.0)), (mm(20.0), kn_per_m(14.0))])?;
/// # let _ = curve;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Curve(Vec<(f64, f64)>);

impl Curve {
    /// Points in order of deflection; the origin is understood.
    ///
    /// # Errors
    /// No point or more than 100; a deflection not greater than the one
    /// before or beyond 10 m; a reaction less than the one before or beyond
    /// 100 MN/m.
    pub fn new(points: &[(Length, LineLoad)]) -> Result<Self, Error> {
        if points.is_empty() || points.len() > 100 {
            return Err(Error::NotApplicable {
                field: "curve",
                reason: "give 1 to 100 points",
            });
        }
        let mut last = (mm(0.0), n_per_m(0.0));
        let mut taken = Vec::with_capacity(points.len());
        for (y, p) in points {
            let y = within("deflection of a curve", *y, last.0 + mm(1e-6), m(10.0))?;
            let p = within("reaction of a curve", *p, last.1, n_per_m(1e8))?;
            last = (y, p);
            taken.push((y.value, p.value));
        }
        Ok(Self(taken))
    }
}

#[derive(Debug, Clone, PartialEq)]
enum Law {
    Constant {
        k: f64,
        limit: Option<f64>,
    },
    Growing {
        nh: f64,
        /// The limit of reaction per width and depth.
        limit: Option<f64>,
    },
    Elastic(Profile),
    ElasticPlastic(Profile),
    OfSoil {
        profile: Profile,
        loading: Loading,
        strain: f64,
        curve: ClayCurve,
    },
    Curves(Vec<f64>),
}

/// A spring at every depth.
#[derive(Debug, Clone, PartialEq)]
pub struct Springs {
    law: Law,
    curves: Vec<Vec<(f64, f64)>>,
}

impl Springs {
    fn of(law: Law) -> Self {
        Self {
            law,
            curves: Vec::new(),
        }
    }

    /// The same stiffness k, force per length and deflection, everywhere: a
    /// pressure by dimension.
    ///
    /// # Errors
    /// Outside 1 kPa to 100 GPa.
    pub fn constant(k: Pressure) -> Result<Self, Error> {
        let k = checked_stiffness(k)?;
        Ok(Self::of(Law::Constant { k, limit: None }))
    }

    /// The same, up to a reaction per length.
    ///
    /// # Errors
    /// As [`Springs::constant`]; limit outside 1 N/m to 100 MN/m.
    pub fn constant_up_to(k: Pressure, limit: LineLoad) -> Result<Self, Error> {
        let k = checked_stiffness(k)?;
        let limit = within("limit of reaction", limit, n_per_m(1.0), n_per_m(1e8))?;
        Ok(Self::of(Law::Constant {
            k,
            limit: Some(limit.value),
        }))
    }

    /// A stiffness that grows with depth, k = nh z.
    ///
    /// # Errors
    /// Outside 10 kN/m³ to 10 GN/m³.
    pub fn growing(nh: ForcePerVolume) -> Result<Self, Error> {
        let nh = within(
            "growth of stiffness",
            nh,
            kn_per_cu_m(10.0),
            kn_per_cu_m(1e7),
        )?;
        Ok(Self::of(Law::Growing {
            nh: nh.value,
            limit: None,
        }))
    }

    /// The same, up to a reaction that grows with depth too, pu = S b z with the
    /// width b of the post: S = 3 Kp γ′ is the sand of
    /// [`Springs::elastic_plastic`].
    ///
    /// # Errors
    /// As [`Springs::growing`]; S outside 0.1 to 10 000 kN/m³.
    pub fn growing_up_to(nh: ForcePerVolume, growth: ForcePerVolume) -> Result<Self, Error> {
        let mut springs = Self::growing(nh)?;
        let (least, most) = (kn_per_cu_m(0.1), kn_per_cu_m(10_000.0));
        let growth = within("growth of the limit of reaction", growth, least, most)?;
        if let Law::Growing { limit, .. } = &mut springs.law {
            *limit = Some(growth.value);
        }
        Ok(springs)
    }

    /// Elastic springs by the stiffness of each layer, whatever it resists:
    /// compare the reaction of the stations with its strength.
    ///
    /// # Errors
    /// A layer without stiffness.
    pub fn elastic(profile: &Profile) -> Result<Self, Error> {
        stiff_everywhere(profile)?;
        Ok(Self::of(Law::Elastic(profile.clone())))
    }

    /// Elastic springs up to what the ground resists: in a layer with both
    /// strengths the lesser.
    ///
    /// # Errors
    /// A layer without stiffness.
    pub fn elastic_plastic(profile: &Profile) -> Result<Self, Error> {
        stiff_everywhere(profile)?;
        Ok(Self::of(Law::ElasticPlastic(profile.clone())))
    }

    /// The curves of the offshore practice by soil: API sand where a layer has
    /// a friction angle (its stiffness must grow with depth: k), the curve of
    /// clay where it is undrained, with the strain ε50 at half strength: one
    /// curve and one strain for all clay layers.
    ///
    /// # Errors
    /// ε50 outside 0.001 to 0.05; a sand layer whose stiffness does not grow
    /// with depth; a layer with both strengths; stiff clay under cyclic
    /// loading, whose curve is not here.
    pub fn curves_of_soil(
        profile: &Profile,
        loading: Loading,
        strain: f64,
        curve: ClayCurve,
    ) -> Result<Self, Error> {
        let strain = number_within("strain at half strength", strain, 0.001, 0.05)?;
        for soil in soils(profile) {
            let sand = soil.friction_angle().is_some();
            if sand && soil.undrained_strength().is_some() {
                return Err(Error::NotApplicable {
                    field: "soil",
                    reason: "it has a friction angle and an undrained strength; its curve is of \
                             one of them",
                });
            }
            if !sand && curve == ClayCurve::Stiff && loading == Loading::Cyclic {
                return Err(Error::NotApplicable {
                    field: "loading",
                    reason: "the curve of stiff clay is for static loading alone",
                });
            }
            if sand && !matches!(soil.stiffness(), Some(Stiffness::Growing(_))) {
                return Err(Error::NotApplicable {
                    field: "stiffness of soil",
                    reason: "the sand curve wants a stiffness that grows with depth",
                });
            }
        }
        Ok(Self::of(Law::OfSoil {
            profile: profile.clone(),
            loading,
            strain,
            curve,
        }))
    }

    /// The user's curves, each down to a depth; the last one goes on.
    ///
    /// # Errors
    /// No curve or more than 100; a depth not 1 mm beyond the one before, or
    /// beyond 1 000 m.
    pub fn of_curves(curves: Vec<(Length, Curve)>) -> Result<Self, Error> {
        if curves.is_empty() || curves.len() > 100 {
            return Err(Error::NotApplicable {
                field: "curves",
                reason: "give 1 to 100 of them",
            });
        }
        let mut last = mm(0.0);
        for (depth, _) in &curves {
            last = within("depth of a curve", *depth, last + mm(1.0), m(1_000.0))?;
        }
        let (depths, curves) = curves
            .into_iter()
            .map(|(depth, curve)| (depth.value, curve.0))
            .unzip();
        Ok(Self {
            law: Law::Curves(depths),
            curves,
        })
    }

    /// Where the springs come from.
    pub fn sources(&self) -> Vec<&'static Citation> {
        let modulus = |profile: &Profile| {
            soils(profile).any(|soil| matches!(soil.stiffness(), Some(Stiffness::Modulus(..))))
        };
        match &self.law {
            Law::Elastic(profile) if modulus(profile) => vec![&source::GIVEN, &source::VESIC],
            Law::Constant { .. } | Law::Growing { .. } | Law::Curves(_) | Law::Elastic(_) => {
                vec![&source::GIVEN]
            }
            Law::ElasticPlastic(profile) if modulus(profile) => {
                vec![&source::PLASTIC_SPRINGS, &source::VESIC]
            }
            Law::ElasticPlastic(_) => vec![&source::PLASTIC_SPRINGS],
            Law::OfSoil { profile, curve, .. } => {
                let sand = soils(profile).any(|soil| soil.friction_angle().is_some());
                let clay = soils(profile).any(|soil| soil.friction_angle().is_none());
                let of_clay = match curve {
                    ClayCurve::Stiff => &source::STIFF_CLAY,
                    ClayCurve::Soft | ClayCurve::Medium => &source::MATLOCK_CLAY,
                };
                let found = [sand.then_some(&source::API_SAND), clay.then_some(of_clay)];
                found.into_iter().flatten().collect()
            }
        }
    }

    /// Whether no depth has a limit to what it resists.
    pub(super) const fn unlimited(&self) -> bool {
        matches!(
            self.law,
            Law::Constant { limit: None, .. } | Law::Growing { limit: None, .. } | Law::Elastic(_)
        )
    }

    pub(super) fn curves(&self) -> &[Vec<(f64, f64)>] {
        &self.curves
    }

    /// How deep the ground is described.
    pub(super) fn depth(&self) -> Length {
        match &self.law {
            Law::Elastic(profile) | Law::ElasticPlastic(profile) | Law::OfSoil { profile, .. } => {
                profile.depth()
            }
            _ => m(1_000.0),
        }
    }

    /// The spring at a depth of a post of a width and rigidity.
    pub(super) fn at(&self, z: f64, width: Length, rigidity: FlexuralRigidity) -> Spring {
        let b = width.value;
        let at = Length::from_si(z);
        match &self.law {
            Law::Constant { k, limit: None } => Spring::Elastic { k: *k },
            Law::Constant {
                k,
                limit: Some(limit),
            } => Spring::ElasticPlastic { k: *k, pu: *limit },
            Law::Growing { nh, limit: None } => Spring::Elastic { k: nh * z },
            Law::Growing {
                nh,
                limit: Some(growth),
            } => Spring::ElasticPlastic {
                k: nh * z,
                pu: growth * b * z,
            },
            Law::Curves(depths) => {
                let last = depths.len() - 1;
                let index = depths.iter().position(|depth| z < *depth);
                Spring::Curve(index.unwrap_or(last))
            }
            Law::Elastic(profile) | Law::ElasticPlastic(profile) | Law::OfSoil { profile, .. }
                if at < profile.dead_top() =>
            {
                Spring::None
            }
            Law::Elastic(profile) => {
                let soil = profile.bearing_soil(at);
                Spring::Elastic {
                    k: stiffness(soil, z, width, rigidity),
                }
            }
            Law::ElasticPlastic(profile) => {
                let soil = profile.bearing_soil(at);
                let k = stiffness(soil, z, width, rigidity);
                let drained = soil.friction_angle().map(|phi| {
                    let kp = passive_coefficient(phi);
                    let stress = profile.effective_stress(at).value;
                    b * (3.0 * kp * stress + 2.0 * kp.sqrt() * soil.cohesion().value)
                });
                let undrained = soil
                    .undrained_strength()
                    .map(|su| su.value * b * (3.0 + 1.5 * z / b).min(9.0));
                let pu = match (drained, undrained) {
                    (Some(one), Some(other)) => one.min(other),
                    (one, other) => one.or(other).unwrap_or(0.0),
                };
                if pu > 0.0 {
                    Spring::ElasticPlastic { k, pu }
                } else {
                    Spring::None
                }
            }
            Law::OfSoil {
                profile,
                loading,
                strain,
                curve,
            } => {
                let soil = profile.bearing_soil(at);
                match (soil.friction_angle(), soil.undrained_strength()) {
                    (Some(phi), _) => sand(profile, soil, phi, z, b, *loading),
                    (None, Some(su)) => clay(profile, su, z, b, *loading, *strain, *curve),
                    (None, None) => Spring::None,
                }
            }
        }
    }
}

fn checked_stiffness(k: Pressure) -> Result<f64, Error> {
    use crate::units::{kpa, mpa};
    within("spring stiffness", k, kpa(1.0), mpa(1e5)).map(|k| k.value)
}

/// The soils that push back.
fn soils(profile: &Profile) -> impl Iterator<Item = &Soil> {
    let backfill = match profile.surface() {
        crate::profile::BearingSurface::Backfill(soil) => Some(soil),
        crate::profile::BearingSurface::Undisturbed => None,
    };
    let layers = profile.layers().iter().map(crate::profile::Layer::soil);
    let all = layers.filter(move |_| backfill.is_none());
    backfill.into_iter().chain(all)
}

fn stiff_everywhere(profile: &Profile) -> Result<(), Error> {
    if soils(profile).all(|soil| soil.stiffness().is_some()) {
        Ok(())
    } else {
        Err(Error::NotApplicable {
            field: "stiffness of soil",
            reason: "give every layer a stiffness; one has none",
        })
    }
}

/// k of a soil at a depth.
fn stiffness(soil: &Soil, z: f64, width: Length, rigidity: FlexuralRigidity) -> f64 {
    match soil.stiffness() {
        Some(Stiffness::Constant(ks)) => ks.value * width.value,
        Some(Stiffness::Growing(nh)) => nh.value * z,
        Some(Stiffness::Modulus(es, poisson)) => {
            let ratio = es.value * width.value.powi(4) / rigidity.value;
            0.65 * ratio.powf(1.0 / 12.0) * es.value / (1.0 - poisson * poisson)
        }
        None => 0.0,
    }
}

/// C1, C2, C3 of the API sand curve (K0 = 0.4).
fn api_coefficients(phi: Angle) -> [f64; 3] {
    const K0: f64 = 0.4;
    let phi = phi.value;
    let (alpha, beta) = (0.5 * phi, core::f64::consts::FRAC_PI_4 + 0.5 * phi);
    let kp = beta.tan().powi(2);
    let ka = (core::f64::consts::FRAC_PI_4 - 0.5 * phi).tan().powi(2);
    let wedge = phi.tan() * beta.sin() * (1.0 / alpha.cos() + 1.0) - alpha.tan();
    [
        beta.tan() * (kp * alpha.tan() + K0 * wedge),
        kp - ka,
        kp * kp * (kp + K0 * phi.tan()) - ka,
    ]
}

/// C1, C2 and C3 of the API sand curve for a friction angle, K0 = 0.4.
/// Derived from the closed forms, quoted.
///
/// # Errors
/// Outside 1° to 50°.
pub fn api_sand_coefficients(phi: Angle) -> Result<[f64; 3], Error> {
    use crate::units::deg;
    Ok(api_coefficients(within(
        "friction angle",
        phi,
        deg(1.0),
        deg(50.0),
    )?))
}

fn sand(profile: &Profile, soil: &Soil, phi: Angle, z: f64, b: f64, loading: Loading) -> Spring {
    let [c1, c2, c3] = api_coefficients(phi);
    let stress = profile.effective_stress(Length::from_si(z)).value;
    let pu = stress * (c1 * z + c2 * b).min(c3 * b);
    let a = match loading {
        Loading::Static => (3.0 - 0.8 * z / b).max(0.9),
        Loading::Cyclic => 0.9,
    };
    let k = match soil.stiffness() {
        Some(Stiffness::Growing(nh)) => nh.value * z,
        _ => 0.0,
    };
    if pu > 0.0 && k > 0.0 {
        Spring::Tanh { k, pu: a * pu }
    } else {
        Spring::None
    }
}

fn clay(
    profile: &Profile,
    su: Pressure,
    z: f64,
    b: f64,
    loading: Loading,
    strain: f64,
    curve: ClayCurve,
) -> Spring {
    let j = match curve {
        ClayCurve::Soft | ClayCurve::Stiff => 0.5,
        ClayCurve::Medium => 0.25,
    };
    let stress = profile.effective_stress(Length::from_si(z)).value;
    let factor = 3.0 + stress / su.value + j * z / b;
    let pu = factor.min(9.0) * su.value * b;
    let y50 = 2.5 * strain * b;
    if curve == ClayCurve::Stiff {
        return Spring::FourthRoot { pu, y50 };
    }
    // Below zr, where the factor reaches 9, all of 0.72 is left.
    match loading {
        Loading::Static => Spring::CubeRoot { pu, y50 },
        Loading::Cyclic => Spring::CubeRootCyclic {
            pu,
            y50,
            left: 0.72 * ((factor - 3.0) / 6.0).clamp(0.0, 1.0),
        },
    }
}
