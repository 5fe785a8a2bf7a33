//! One post, every method that applies: the depth each asks for and what the
//! planned one is used at, each in its own safety format.
//!
//! The formats are not mixed: the building code compares an allowable-stress
//! load with allowable bearing; Broms, Hansen and plastic statics compare the
//! load times an overall factor with the ultimate load; UFC 3-220-20 has its
//! safety in the strength. The load is the same for all: at allowable-stress
//! (service) level. A method that does not apply says why.

use crate::actions::GroundlineActions;
use crate::caution::{Caution, Cautions};
use crate::embedment::PoleFormula;
use crate::error::{Error, number_within};
use crate::lateral::{
    BromsClay, BromsSand, Drainage, Hansen, LateralMethod, LengthClass, Mode, NeededDepth,
    ReducedClay, ReducedSand, RigidPlastic, passive_coefficient,
};
use crate::limit_state::AllowableStress;
use crate::profile::{Profile, Stiffness};
use crate::source::{self, Citation};
use crate::units::{FlexuralRigidity, Length, Torque};
use crate::utilization::Utilization;

/// Where the safety of a method is.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum SafetyFormat {
    /// In allowable bearing pressures.
    AllowableBearing,
    /// In a factor on the load.
    OverallFactor(f64),
    /// In the strength of the soil.
    ReducedStrength,
}

impl core::fmt::Display for SafetyFormat {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::AllowableBearing => f.pad("allowable bearing"),
            Self::OverallFactor(factor) => f.pad(&format!("{factor:.2} on the load")),
            Self::ReducedStrength => f.pad("3/4 of the strength"),
        }
    }
}

/// What one method says.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Verdict {
    /// Its name.
    pub method: &'static str,
    /// Where it comes from.
    pub source: &'static Citation,
    /// Where its safety is.
    pub format: SafetyFormat,
    /// The depth it asks for; or why it does not apply.
    pub needed: Result<NeededDepth, Error>,
    /// What the planned depth is used at, where the method covers it.
    pub utilization: Option<Utilization>,
    /// What gives way at the planned depth.
    pub mode: Option<Mode>,
    /// The greatest moment in the post under the load itself, where the
    /// method has one.
    pub greatest_moment: Option<Torque>,
    /// A rigid method on a post that is not short for its ground.
    pub too_flexible: bool,
}

/// A post, its load and its ground, for every method.
///
/// ```
/// use groundline::{actions::GroundlineActions, limit_state::AllowableStress};
/// use groundline::{profile::*, side_by_side::SideBySide, units::*};
/// let sand = Soil::new(kn_per_cu_m(18.0))?.with_friction_angle(deg(32.0))?;
/// let load = GroundlineActions::new(kn(1.5), kn_m(1.6), kn(0.3), AllowableStress::Basic)?;
/// let all = SideBySide::new(Profile::uniform(sand)?, m(0.3), load, m(0.9), 1.5)?;
/// for verdict in all.verdicts() {
///     println!("{}: {:?}", verdict.method, verdict.needed);
/// }
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct SideBySide {
    profile: Profile,
    width: Length,
    load: GroundlineActions<AllowableStress>,
    planned: Length,
    factor: f64,
    code: Option<PoleFormula>,
    yields_at: Option<Torque>,
    rigidity: Option<FlexuralRigidity>,
}

impl SideBySide {
    /// A post or footing of a width, planned to a depth, under a load at
    /// allowable-stress level, with the overall factor for methods that want
    /// one (1.5 on overturning is published for Broms' method,
    /// [`crate::source::BROMS_FACTOR`]).
    ///
    /// # Errors
    /// No shear, shear and moment in opposite senses, factor outside 1 to 5.
    pub fn new(
        profile: Profile,
        width: Length,
        load: GroundlineActions<AllowableStress>,
        planned: Length,
        factor: f64,
    ) -> Result<Self, Error> {
        if load.shear().value == 0.0 {
            return Err(Error::NotApplicable {
                field: "shear",
                reason: "the limit-state methods want a force; there is none",
            });
        }
        if load.shear().value * load.moment().value < 0.0 {
            return Err(Error::OppositeSense {
                shear: crate::units::Measured::new(load.shear()),
                moment: crate::units::Measured::new(load.moment()),
            });
        }
        Ok(Self {
            profile,
            width,
            load,
            planned,
            factor: number_within("overall factor", factor, 1.0, 5.0)?,
            code: None,
            yields_at: None,
            rigidity: None,
        })
    }

    /// With the pole formula of the building code beside them.
    #[must_use]
    pub fn with_code(self, formula: PoleFormula) -> Self {
        Self {
            code: Some(formula),
            ..self
        }
    }

    /// With a post that yields at a moment.
    #[must_use]
    pub fn yielding_at(self, moment: Torque) -> Self {
        Self {
            yields_at: Some(moment),
            ..self
        }
    }

    /// With the flexural rigidity of the post, so that its length class is
    /// known.
    #[must_use]
    pub fn with_rigidity(self, rigidity: FlexuralRigidity) -> Self {
        Self {
            rigidity: Some(rigidity),
            ..self
        }
    }

    /// Short, intermediate or long at the planned depth, by the stiffness of
    /// the soil at grade; none where stiffness or rigidity is not given.
    pub fn length_class(&self) -> Option<LengthClass> {
        let rigidity = self.rigidity?;
        let soil = self.profile.bearing_soil(self.planned * 0.5);
        let class = match soil.stiffness()? {
            Stiffness::Constant(ks) => {
                LengthClass::in_constant(*ks, self.width, rigidity, self.planned)
            }
            Stiffness::Growing(nh) => LengthClass::in_growing(*nh, rigidity, self.planned),
            Stiffness::Modulus(es, _) => {
                let ks = *es / self.width;
                LengthClass::in_constant(ks, self.width, rigidity, self.planned)
            }
        };
        class.ok().map(|(_, class)| class)
    }

    /// Every method, applicable or not, in the order of its safety format.
    pub fn verdicts(&self) -> Vec<Verdict> {
        let overall = SafetyFormat::OverallFactor(self.factor);
        let mut all = Vec::new();
        all.extend(self.code.map(|formula| self.by_code(&formula)));
        let (width, depth) = (self.width, self.planned);
        let clay = BromsClay::of(&self.profile, width, depth).and_then(|method| {
            self.yields_at
                .map_or(Ok(method), |my| method.yielding_at(my))
        });
        all.push(self.by(clay, "Broms, cohesive", &source::BROMS_CLAY, overall));
        let sand = BromsSand::of(&self.profile, width, depth).and_then(|method| {
            self.yields_at
                .map_or(Ok(method), |my| method.yielding_at(my))
        });
        all.push(self.by(sand, "Broms, cohesionless", &source::BROMS_SAND, overall));
        let hansen = Hansen::new(&self.profile, width, Drainage::Drained).and_then(|method| {
            match self.yields_at {
                Some(my) => method.yielding_at(my),
                None => Ok(method),
            }
        });
        all.push(self.by(hansen, "Brinch Hansen", &source::HANSEN, overall));
        let plastic = self.plastic().and_then(|method| {
            self.yields_at
                .map_or(Ok(method), |my| method.yielding_at(my))
        });
        all.push(self.by(plastic, "rigid-plastic", &source::RIGID_PLASTIC, overall));
        let reduced = SafetyFormat::ReducedStrength;
        let clay = ReducedClay::of(&self.profile, width, depth);
        all.push(self.by(
            clay,
            "UFC 3-220-20, undrained",
            &source::UFC_REDUCED,
            reduced,
        ));
        let sand = ReducedSand::of(&self.profile, width, depth);
        all.push(self.by(sand, "UFC 3-220-20, drained", &source::UFC_REDUCED, reduced));
        all
    }

    /// 3 γ′ Kp z in one sand, the graded pressure in one clay.
    fn plastic(&self) -> Result<RigidPlastic, Error> {
        let none = Error::NotApplicable {
            field: "soil",
            reason: "plastic statics wants one soil, and no discounted top",
        };
        let soil = self
            .profile
            .uniform_soil(self.planned)
            .filter(|_| self.profile.dead_top().value == 0.0)
            .ok_or(none)?;
        match (soil.friction_angle(), soil.undrained_strength()) {
            (Some(phi), _) => {
                let weight = self.profile.uniform_weight(self.planned).ok_or(none)?;
                RigidPlastic::linear(weight * (3.0 * passive_coefficient(phi)), self.width)
            }
            (None, Some(su)) => RigidPlastic::graded_clay(su, self.width),
            (None, None) => Err(none),
        }
    }

    fn by_code(&self, formula: &PoleFormula) -> Verdict {
        let check = formula.check(&self.load, self.planned).ok();
        Verdict {
            method: "IBC 1807.3.2",
            source: formula.equation().citation(),
            format: SafetyFormat::AllowableBearing,
            needed: formula
                .required(&self.load)
                .map(|required| NeededDepth::Depth(required.depth())),
            utilization: check.map(|check| check.utilization()),
            mode: None,
            greatest_moment: None,
            too_flexible: self.too_flexible(),
        }
    }

    fn too_flexible(&self) -> bool {
        self.length_class()
            .is_some_and(|class| class != LengthClass::Short)
    }

    fn by<M: LateralMethod>(
        &self,
        method: Result<M, Error>,
        name: &'static str,
        source: &'static Citation,
        format: SafetyFormat,
    ) -> Verdict {
        let force = self.load.shear().abs();
        let height = self.load.height();
        let target = match format {
            SafetyFormat::OverallFactor(factor) => force * factor,
            SafetyFormat::AllowableBearing | SafetyFormat::ReducedStrength => force,
        };
        let method = match method {
            Ok(method) => method,
            Err(refused) => {
                return Verdict {
                    method: name,
                    source,
                    format,
                    needed: Err(refused),
                    utilization: None,
                    mode: None,
                    greatest_moment: None,
                    too_flexible: false,
                };
            }
        };
        let ultimate = method.ultimate(self.planned, height).ok();
        let greatest = method.greatest_moment(force, height).ok();
        Verdict {
            method: name,
            source: ultimate.map_or(source, |ultimate| ultimate.source),
            format,
            needed: method.needed_depth(target, height),
            utilization: ultimate.map(|ultimate| Utilization::of(target, ultimate.shear)),
            mode: ultimate.map(|ultimate| ultimate.mode),
            greatest_moment: greatest.map(|at| at.moment),
            too_flexible: self.too_flexible(),
        }
    }

    /// The cautions that go with them.
    pub fn cautions(&self) -> Cautions {
        Cautions::default()
            .with(Caution::BuriedUtilities)
            .with(Caution::Frost)
            .with(Caution::Slope)
            .with(Caution::RetainedSoil)
            .with(Caution::Barrier)
            .with(Caution::MethodsDiffer)
    }
}
