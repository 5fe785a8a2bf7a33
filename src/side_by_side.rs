//! One post, every method that applies: the depth each asks for and what the
//! planned one is used at, each in its own safety format.
//!
//! The formats are not mixed: the building code compares an allowable-stress
//! load with allowable bearing; Broms, Hansen and plastic statics compare the
//! load times an overall factor with the ultimate load; UFC 3-220-20 has its
//! safety in the strength and in load factors. The load is the same for all: at allowable-stress
//! (service) level. A method that does not apply says why, also one whose depth
//! would leave the one soil it is for.
//!
//! Where a soil has both an undrained strength and a friction angle, Hansen and
//! plastic statics are asked twice: a gust is quick for clay, a wet season is
//! not.

use crate::actions::GroundlineActions;
use crate::caution::{Caution, Cautions};
use crate::embedment::PoleFormula;
use crate::error::{Error, number_within};
use crate::lateral::{
    BromsClay, BromsSand, Drainage, Hansen, LateralMethod, LengthClass, Mode, NeededDepth,
    ReducedClay, ReducedSand, RigidPlastic, UFC_LIVE, passive_coefficient,
};
use crate::limit_state::AllowableStress;
use crate::profile::{BearingSurface, Profile, Soil, Stiffness};
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
    /// In the strength of the soil, and in this factor on the load
    /// ([`SideBySide::with_ufc_load_factor`]).
    ReducedStrength(f64),
}

impl core::fmt::Display for SafetyFormat {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::AllowableBearing => f.pad("allowable bearing"),
            Self::OverallFactor(factor) => f.pad(&format!("{factor:.2} on the load")),
            Self::ReducedStrength(factor) => {
                f.pad(&format!("{factor:.2} on the load, 3/4 of the strength"))
            }
        }
    }
}

/// Share of the width that [`Verdict::narrower_needs_less`] compares with; chosen here,
/// no source.
pub const NARROWER: f64 = 0.95;

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
    /// The depth below grade it asks for; or why it does not apply.
    pub needed: Result<NeededDepth, Error>,
    /// What the planned depth is used at, where the method covers it: the shear,
    /// times the overall factor where the format has one, over the ultimate one at the
    /// same height; for the building code bearing needed over bearing allowed.
    pub utilization: Option<Utilization>,
    /// What gives way at the planned depth.
    pub mode: Option<Mode>,
    /// The greatest moment in the post under the load itself, where the
    /// method has one.
    pub greatest_moment: Option<Torque>,
    /// Does a narrower post or footing need less depth here? Where the top is neglected
    /// to 1.5 b, a wider one neglects more ground than its width gains. Compared with
    /// [`NARROWER`] of the width, with the same yield moment.
    pub narrower_needs_less: bool,
    /// Is a rigid method asked of a post that is not short for its ground? None where
    /// that is not known ([`SideBySide::length_class`]).
    pub too_flexible: Option<bool>,
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
    ufc_factor: f64,
    code: Option<PoleFormula>,
    yields_at: Option<Torque>,
    rigidity: Option<FlexuralRigidity>,
}

impl SideBySide {
    /// A post or footing of a bearing width, planned to a depth below grade, under a
    /// load at allowable-stress level, with the overall factor for methods that want
    /// one (1.5 on overturning is published for Broms' method,
    /// [`crate::source::BROMS_FACTOR`]).
    ///
    /// # Errors
    /// No shear, shear and moment in opposite senses, factor outside 1 to 5. A width or
    /// depth out of range is refused by each method, in its [`Verdict`].
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
            ufc_factor: UFC_LIVE,
            code: None,
            yields_at: None,
            rigidity: None,
        })
    }

    /// With the pole formula of the building code beside them. Ground and width are
    /// its own, not those of the profile.
    #[must_use]
    pub fn with_code(self, formula: PoleFormula) -> Self {
        Self {
            code: Some(formula),
            ..self
        }
    }

    /// With another load factor for UFC 3-220-20 than 2.0. The default takes the whole
    /// load as live, the heavier of 1.5 dead and 2.0 live
    /// ([`crate::source::UFC_LOAD_FACTORS`]); that wind is live is our reading. 1 gives
    /// the reduced strength alone, which is not the method.
    ///
    /// # Errors
    /// Outside 1 to 5.
    pub fn with_ufc_load_factor(self, factor: f64) -> Result<Self, Error> {
        Ok(Self {
            ufc_factor: number_within("UFC load factor", factor, 1.0, 5.0)?,
            ..self
        })
    }

    /// With a post that yields at a moment: compared with the load times the
    /// factor of the method, as the ground is. What the standard of the post
    /// says about it is another check. A moment out of range is refused by each
    /// method.
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
    /// the soil at half of it; none where stiffness or rigidity is not given,
    /// or the stiffness is a modulus, which the source does not know.
    ///
    /// # Errors
    /// Width, depth, rigidity or stiffness out of range.
    pub fn length_class(&self) -> Result<Option<LengthClass>, Error> {
        let Some(rigidity) = self.rigidity else {
            return Ok(None);
        };
        let soil = self.profile.bearing_soil(self.planned * 0.5);
        let class = match soil.stiffness() {
            Some(Stiffness::Constant(ks)) => {
                LengthClass::in_constant(*ks, self.width, rigidity, self.planned)
            }
            Some(Stiffness::Growing(nh)) => LengthClass::in_growing(*nh, rigidity, self.planned),
            Some(Stiffness::Modulus(..)) | None => return Ok(None),
        };
        class.map(|(_, class)| Some(class))
    }

    /// Every method, applicable or not, in the order of its safety format.
    pub fn verdicts(&self) -> Vec<Verdict> {
        let overall = SafetyFormat::OverallFactor(self.factor);
        let reduced = SafetyFormat::ReducedStrength(self.ufc_factor);
        let (profile, my) = (&self.profile, self.yields_at);
        let mut all = Vec::new();
        all.extend(self.code.map(|formula| self.by_code(&formula)));
        all.push(self.by(
            "Broms, cohesive",
            &source::BROMS_CLAY,
            overall,
            |width, depth| {
                let method = BromsClay::of(profile, width, depth)?;
                my.map_or(Ok(method), |my| method.yielding_at(my))
            },
        ));
        all.push(self.by(
            "Broms, cohesionless",
            &source::BROMS_SAND,
            overall,
            |width, depth| {
                let method = BromsSand::of(profile, width, depth)?;
                my.map_or(Ok(method), |my| method.yielding_at(my))
            },
        ));
        let ways: &[(&str, &str, Drainage)] = if self.two_strengths() {
            &[
                (
                    "Brinch Hansen, drained",
                    "rigid-plastic, drained",
                    Drainage::Drained,
                ),
                (
                    "Brinch Hansen, undrained",
                    "rigid-plastic, undrained",
                    Drainage::Undrained,
                ),
            ]
        } else {
            &[("Brinch Hansen", "rigid-plastic", Drainage::Drained)]
        };
        for (name, _, drainage) in ways {
            all.push(self.by(name, &source::HANSEN, overall, |width, _| {
                let method = Hansen::new(profile, width, *drainage)?;
                match my {
                    Some(my) => method.yielding_at(my),
                    None => Ok(method),
                }
            }));
        }
        for (_, name, drainage) in ways {
            all.push(
                self.by(name, &source::RIGID_PLASTIC, overall, |width, depth| {
                    let method = self.plastic(width, depth, *drainage)?;
                    my.map_or(Ok(method), |my| method.yielding_at(my))
                }),
            );
        }
        all.push(self.by(
            "UFC 3-220-20, undrained",
            &source::UFC_REDUCED,
            reduced,
            |width, depth| {
                let method = ReducedClay::of(profile, width, depth)?;
                my.map_or(Ok(method), |my| method.yielding_at(my))
            },
        ));
        all.push(self.by(
            "UFC 3-220-20, drained",
            &source::UFC_REDUCED,
            reduced,
            |width, depth| {
                let method = ReducedSand::of(profile, width, depth)?;
                my.map_or(Ok(method), |my| method.yielding_at(my))
            },
        ));
        all
    }

    /// Whether a soil that pushes back has both strengths.
    fn two_strengths(&self) -> bool {
        let both =
            |soil: &Soil| soil.friction_angle().is_some() && soil.undrained_strength().is_some();
        match self.profile.surface() {
            BearingSurface::Backfill(soil) => both(soil),
            BearingSurface::Undisturbed => {
                self.profile.layers().iter().any(|layer| both(layer.soil()))
            }
        }
    }

    /// 3 γ′ Kp z in one sand, the graded pressure in one clay.
    fn plastic(
        &self,
        width: Length,
        depth: Length,
        drainage: Drainage,
    ) -> Result<RigidPlastic, Error> {
        let none = Error::NotApplicable {
            field: "soil",
            reason: "plastic statics wants one soil without cohesion, and no discounted top",
        };
        self.profile.reaches(depth)?;
        let soil = self
            .profile
            .uniform_soil(depth)
            .filter(|_| self.profile.dead_top().value == 0.0)
            .ok_or(none)?;
        let undrained = soil.undrained_strength();
        match (soil.friction_angle(), undrained) {
            (Some(phi), su) if su.is_none() || drainage == Drainage::Drained => {
                let weight = self
                    .profile
                    .uniform_weight(depth)
                    .filter(|_| soil.cohesion().value == 0.0)
                    .ok_or(none)?;
                RigidPlastic::linear(weight * (3.0 * passive_coefficient(phi)), width)
            }
            (_, Some(su)) => RigidPlastic::graded_clay(su, width),
            (_, None) => Err(none),
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
            narrower_needs_less: false,
            too_flexible: self.too_flexible(),
        }
    }

    fn too_flexible(&self) -> Option<bool> {
        let class = self.length_class().ok().flatten()?;
        Some(class != LengthClass::Short)
    }

    /// A method for the ground down to a depth, asked for the planned one and
    /// for what the load needs.
    fn by<M: LateralMethod>(
        &self,
        name: &'static str,
        source: &'static Citation,
        format: SafetyFormat,
        of: impl Fn(Length, Length) -> Result<M, Error>,
    ) -> Verdict {
        let of_narrower = |depth| of(self.width * NARROWER, depth).ok();
        let of = |depth| of(self.width, depth);
        let force = self.load.shear().abs();
        let height = self.load.height();
        let target = match format {
            SafetyFormat::OverallFactor(factor) | SafetyFormat::ReducedStrength(factor) => {
                force * factor
            }
            SafetyFormat::AllowableBearing => force,
        };
        let method = match of(self.planned) {
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
                    narrower_needs_less: false,
                    too_flexible: self.too_flexible(),
                };
            }
        };
        let needed = match method.needed_depth(target, height) {
            // The ground down to there is the one the method was made for.
            Ok(NeededDepth::Depth(depth)) if depth > self.profile.depth() => {
                Ok(NeededDepth::MoreThan(self.profile.depth()))
            }
            Ok(NeededDepth::Depth(depth)) if depth > self.planned => {
                of(depth).map(|_| NeededDepth::Depth(depth))
            }
            other => other,
        };
        let narrower = of_narrower(self.planned).and_then(|method| {
            let needed = method.needed_depth(target, height).ok()?;
            needed.depth()
        });
        let ultimate = method.ultimate(self.planned, height).ok();
        let greatest = method.greatest_moment(force, height).ok();
        Verdict {
            method: name,
            source: ultimate.map_or(source, |ultimate| ultimate.source),
            format,
            needed,
            utilization: ultimate.map(|ultimate| Utilization::of(target, ultimate.shear)),
            mode: ultimate.map(|ultimate| ultimate.mode),
            greatest_moment: greatest.map(|at| at.moment),
            narrower_needs_less: narrower.is_some_and(|least| {
                needed
                    .ok()
                    .and_then(NeededDepth::depth)
                    .is_some_and(|depth| least < depth)
            }),
            too_flexible: self.too_flexible(),
        }
    }

    /// The cautions that go with them.
    pub fn cautions(&self) -> Cautions {
        let ring = match self.profile.surface() {
            BearingSurface::Backfill(_) => Cautions::default().with(Caution::BackfillRing),
            BearingSurface::Undisturbed => Cautions::default(),
        };
        let code = self.code.map_or(Cautions::default(), |formula| {
            let required = formula.required(&self.load).map(|made| made.cautions());
            let planned = formula
                .check(&self.load, self.planned)
                .map(|made| made.cautions());
            [required, planned]
                .into_iter()
                .flatten()
                .fold(Cautions::default(), Cautions::and)
        });
        ring.and(code)
            .with(Caution::BuriedUtilities)
            .with(Caution::Frost)
            .with(Caution::Slope)
            .with(Caution::RetainedSoil)
            .with(Caution::Barrier)
            .with(Caution::MethodsDiffer)
            .with_if(self.profile.is_presumed(), Caution::PresumptiveSoil)
    }
}
