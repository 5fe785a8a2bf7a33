//! How far the top of a post leans under the wind of the check, which is at
//! allowable-stress level (D + 0.6 W): near service level, since 0.6 of the
//! strength-level wind is about that of the older, shorter return period.
//!
//! Above the level where the ground begins to count the post bends
//! ([`Lean::of_grade`], the greatest of every even or linear spread of the wind;
//! a post that takes it at two rails bends some 8 to 15 % more, at most a third);
//! below, the closed form that applies gives movement and rotation:
//!
//! | ground | closed form |
//! |---|---|
//! | constant k | rigid below λL = 0.01, finite to 6, endless beyond |
//! | growing, nh z | rigid below L/T = 0.05, power series to 6, long beyond |
//!
//! EI is that of the post alone; concrete around it is not counted. Restraint
//! at grade has no closed form here. Second-order effects of weight are not in
//! it. Rotations beyond some 0.2 are no prediction, but fail any limit.
//!
//! Of an isolated pole the movement at grade is checked with it
//! ([`super::GradeMovement`]).

use super::movement::GradeMovement;
use super::site::{NO_CASE, Standing};
use crate::combination::CombinesTo;
use crate::error::{Error, number_within, within};
use crate::foundation::Restraint;
use crate::limit_state::AllowableStress;
use crate::post::{Lean, TurningStiffness};
use crate::response::closed_form::{
    AtGrade, endless, finite, finite_growing, long_growing, relative_length, rigid, rigid_growing,
};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{
    Angle, FlexuralRigidity, Force, ForcePerVolume, Length, Measurable, Pressure, Torque, kn, kn_m,
    kn_per_cu_m, kpa, m, moment, mpa, n_sq_m, rad,
};
use crate::utilization::Utilization;

/// How stiff the ground is sideways.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundStiffness(Stiffness);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Stiffness {
    Constant(Pressure),
    Growing(ForcePerVolume),
}

impl GroundStiffness {
    /// k, a force per length of post and deflection, the same at every depth:
    /// clay.
    ///
    /// # Errors
    /// Outside 1 kPa to 10⁵ MPa.
    pub fn constant(k: Pressure) -> Result<Self, Error> {
        within("spring stiffness", k, kpa(1.0), mpa(1e5)).map(|k| Self(Stiffness::Constant(k)))
    }

    /// nh: k = nh z grows with depth from nothing: sand.
    ///
    /// # Errors
    /// Outside 10 kN/m³ to 10 GN/m³.
    pub fn growing(nh: ForcePerVolume) -> Result<Self, Error> {
        let (least, most) = (kn_per_cu_m(10.0), kn_per_cu_m(1e7));
        within("growth of stiffness", nh, least, most).map(|nh| Self(Stiffness::Growing(nh)))
    }
}

/// Lean asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeanOptions {
    ground: GroundStiffness,
    limit: Option<f64>,
    rigidity: Option<FlexuralRigidity>,
}

impl LeanOptions {
    /// In a ground of a stiffness, without a limit.
    pub const fn new(ground: GroundStiffness) -> Self {
        Self {
            ground,
            limit: None,
            rigidity: None,
        }
    }

    /// With a limit of movement of the top over height, such as 1/60: yours,
    /// since no code sets one for fences.
    ///
    /// # Errors
    /// Outside 1/1 000 to 1/4.
    pub fn with_limit(self, limit: f64) -> Result<Self, Error> {
        Ok(Self {
            limit: Some(number_within("limit of lean", limit, 0.001, 0.25)?),
            ..self
        })
    }

    /// With EI of the post, where it has none of its own or another is meant.
    ///
    /// # Errors
    /// Outside 1 N·m² to 10¹² N·m².
    pub fn with_rigidity(self, rigidity: FlexuralRigidity) -> Result<Self, Error> {
        let rigidity = within("flexural rigidity", rigidity, n_sq_m(1.0), n_sq_m(1e12))?;
        Ok(Self {
            rigidity: Some(rigidity),
            ..self
        })
    }
}

/// Which closed form gave the movement in the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum LeanForm {
    /// Rigid post, constant k.
    Rigid,
    /// Post of any stiffness, constant k.
    Finite,
    /// Post without end, constant k.
    Endless,
    /// Rigid post, k growing.
    RigidGrowing,
    /// Post of any stiffness, k growing.
    FiniteGrowing,
    /// Long post, k growing.
    LongGrowing,
}

impl LeanForm {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Rigid => "rigid post in constant ground",
            Self::Finite => "finite post in constant ground",
            Self::Endless => "endless post in constant ground",
            Self::RigidGrowing => "rigid post in growing ground",
            Self::FiniteGrowing => "finite post in growing ground",
            Self::LongGrowing => "long post in growing ground",
        }
    }

    /// Where it comes from.
    pub const fn source(self) -> &'static Citation {
        match self {
            Self::Rigid | Self::RigidGrowing => &source::STATICS,
            Self::Finite | Self::Endless => &source::HETENYI,
            Self::FiniteGrowing => &source::GROWING_SERIES,
            Self::LongGrowing => &source::MATLOCK_REESE,
        }
    }
}

/// How a post in the ground gives way to a shear V and a moment M at the level
/// where the ground begins to count, over the length L below it:
/// y0 = (cv V + cm M/L)/(k Lⁿ), θ0 = (cm V + cr M/L)/(k Lⁿ⁺¹), with k and n = 1
/// in constant ground, nh in place of k and n = 2 in growing ground. Pure numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Give {
    /// cv: movement by shear.
    pub by_shear: f64,
    /// cm: movement by moment, and rotation by shear, the same.
    pub crossed: f64,
    /// cr: rotation by moment.
    pub by_moment: f64,
}

/// The lean of the top of a post, in the case worst for it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct LeanCheck {
    /// Flexure, movement and rotation, above the level where the ground counts.
    pub lean: Lean,
    /// Which closed form.
    pub form: LeanForm,
    /// EI of the post alone.
    pub rigidity: FlexuralRigidity,
    /// L, the length in the ground that counts.
    pub embedment: Length,
    /// How the ground gives way.
    pub give: Give,
    /// V, the shear of the wind, at allowable-stress level.
    pub shear: Force,
    /// Moment of the wind about the level where the ground begins to count.
    pub wind_moment: Torque,
    /// C, the moments of hung leaves, in line and across simply added.
    pub couples: Torque,
    /// Height above grade.
    pub height: Length,
    /// Movement of the top over the height above grade.
    pub ratio: f64,
    /// The limit, if there is one.
    pub limit: Option<f64>,
    /// Ratio over limit, if there is one.
    pub utilization: Option<Utilization>,
    /// Movement at grade against ½ in, of an isolated pole
    /// ([`crate::ground::Ground::as_isolated_pole`]); none of any other post.
    pub at_grade: Option<GradeMovement>,
    ground: GroundStiffness,
    own_rigidity: bool,
}

impl LeanCheck {
    pub(super) fn new<L: CombinesTo<AllowableStress>>(
        asked: &LeanOptions,
        post: &Standing<'_, L>,
    ) -> Result<Self, Error> {
        let design = post.check.design();
        let given = asked.rigidity;
        let rigidity = given
            .or_else(|| design.post().rigidity())
            .ok_or(Error::NotApplicable {
                field: "flexural rigidity",
                reason: "the post has no modulus here: give its EI",
            })?;
        if design.foundation().restraint() != Restraint::None {
            return Err(Error::NotApplicable {
                field: "lean",
                reason: "the closed forms know no restraint at grade",
            });
        }
        let top = design.ground().discounted_top();
        let embedment = post.check.depth() - top;
        let (form, give) = asked.ground.give(rigidity, embedment)?;
        let mut worst: Option<Self> = None;
        let mut moved: Option<GradeMovement> = None;
        for case in post.cases {
            // No allowable stress is increased in a movement.
            let set = design.combination().without_increase();
            let set = case.wind.level().resolve(&set);
            let shear = (case.wind.shear() * set.wind()).abs();
            let at_grade = (case.wind.moment() * set.wind()).abs();
            let wind_moment = at_grade + moment(shear, top);
            let couples = (case.dead.in_line() + case.dead.across()) * set.dead();
            let lean = Lean::of_grade(shear, wind_moment, couples, post.height + top, rigidity)?;
            let (movement, rotation) =
                asked
                    .ground
                    .movement(&give, embedment, shear, wind_moment + couples);
            let grade = GradeMovement::new(
                (shear, wind_moment + couples),
                (movement, rotation),
                top,
                rigidity,
            );
            if design.ground().is_isolated_pole()
                && moved.is_none_or(|worst| grade.movement > worst.movement)
            {
                moved = Some(grade);
            }
            let lean = lean.on_ground(movement, rotation);
            let ratio = (lean.total() / post.height).value;
            let check = Self {
                lean,
                form,
                rigidity,
                embedment,
                give,
                shear,
                wind_moment,
                couples,
                height: post.height,
                ratio,
                limit: asked.limit,
                utilization: asked
                    .limit
                    .map(|limit| Utilization::of(lean.total(), post.height * limit)),
                at_grade: None,
                ground: asked.ground,
                own_rigidity: given.is_some(),
            };
            if worst.is_none_or(|worst| ratio > worst.ratio) {
                worst = Some(check);
            }
        }
        let worst = worst.ok_or(NO_CASE)?;
        Ok(Self {
            at_grade: moved,
            ..worst
        })
    }

    /// What the ground holds against turning: the moment alone, without shear, that
    /// turns the foot by a radian, k Lⁿ⁺²/cr with the symbols of [`Give`].
    ///
    /// # Errors
    /// Outside the range of [`TurningStiffness::new`].
    pub fn turning(&self) -> Result<TurningStiffness, Error> {
        let one = Torque::from_si(1.0);
        let nothing = Force::from_si(0.0);
        let (_, rotation) = self
            .ground
            .movement(&self.give, self.embedment, nothing, one);
        TurningStiffness::new(Torque::from_si(1.0 / rotation.value))
    }

    /// Where the movement in the ground comes from.
    pub const fn source(&self) -> &'static Citation {
        self.form.source()
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Lean of the top");
        sheet.remark(format!(
            "Wind at allowable-stress level. In the ground: {}. Concrete round the post is not \
             counted. {}",
            self.form.name(),
            if self.lean.height() > self.height {
                "Heights from the level where the ground begins to count."
            } else {
                ""
            }
        ));
        let rigidity = Step::given("EI", "flexural rigidity of the post", self.rigidity);
        sheet.push(if self.own_rigidity {
            rigidity.cite(&source::GIVEN)
        } else {
            rigidity
        });
        sheet.push(Step::given(
            "h",
            "height above where the ground begins to count",
            self.lean.height(),
        ));
        sheet.push(Step::given(
            "V",
            "shear, of the case worst for lean",
            self.shear,
        ));
        sheet.push(Step::given(
            "Mw",
            "moment of its wind where the ground begins to count",
            self.wind_moment,
        ));
        sheet.push(Step::given("C", "moments of its hung leaves", self.couples));
        let formula = sheet.by_system(
            "144*h^2*(max(max(1.2*Mw, 2.1*Mw - 0.3*V*h), max(2.7*Mw - 0.7*V*h, 3*Mw - V*h)) + \
             3*C)/(6*EI)",
            "h^2*(max(max(1.2*Mw, 2.1*Mw - 0.3*V*h), max(2.7*Mw - 0.7*V*h, 3*Mw - V*h)) + \
             3*C)/(6*EI)",
        );
        sheet.push(
            Step::computed("yf", "flexure of the post", formula, self.lean.flexure())
                .with("h", self.lean.height())
                .with("Mw", self.wind_moment)
                .with("V", self.shear)
                .with("C", self.couples)
                .with("EI", self.rigidity)
                .cite(&source::LEAN_SPREAD),
        );
        self.write_ground(sheet);
        sheet.push(
            Step::computed(
                "yt",
                "movement of the top",
                "yf + h*q0*pi/180 + y0",
                self.lean.total(),
            )
            .with("yf", self.lean.flexure())
            .with("h", self.lean.height())
            .with("q0", self.lean.rotation())
            .with("y0", self.lean.movement())
            .cite(&source::STATICS),
        );
        sheet.push(
            Step::computed_number("rl", "movement over height", "yt/H", self.ratio)
                .with("yt", self.lean.total())
                .with("H", self.height),
        );
        match (self.limit, self.utilization) {
            (Some(limit), Some(utilization)) if utilization < Utilization::NO_CAPACITY => {
                sheet.push(
                    Step::computed_number("ul", "utilization", "rl/lim", utilization.ratio())
                        .with_number("rl", self.ratio)
                        .with_number("lim", limit)
                        .cite(&source::GIVEN),
                );
            }
            (None, _) => {
                sheet.remark("No limit of lean was given: no code sets one for fences.");
            }
            _ => {}
        }
        if let Some(grade) = &self.at_grade {
            grade.write(sheet, |sheet| {
                let at = (grade.in_ground, grade.rotation);
                self.write_movement((grade.shear, grade.moment), at, sheet);
            });
        }
    }

    /// Movement and rotation in the ground.
    fn write_ground(&self, sheet: &mut Worksheet) {
        for (symbol, meaning, value) in [
            ("cv", "movement by shear", self.give.by_shear),
            (
                "cm",
                "movement by moment, rotation by shear",
                self.give.crossed,
            ),
            ("cr", "rotation by moment", self.give.by_moment),
        ] {
            sheet.push(Step::given_number(symbol, meaning, value).cite(self.form.source()));
        }
        let (loaded_by, length) = (self.wind_moment + self.couples, self.embedment);
        sheet.push(
            Step::computed("M", "moment there", "Mw + C", loaded_by)
                .with("Mw", self.wind_moment)
                .with("C", self.couples),
        );
        sheet.push(Step::given("L", "length in the ground that counts", length));
        let at = (self.lean.movement(), self.lean.rotation());
        self.write_movement((self.shear, loaded_by), at, sheet);
    }

    /// Movement and rotation where the ground begins to count, under a shear and a
    /// moment there.
    fn write_movement(
        &self,
        (shear, moment): (Force, Torque),
        (movement, rotation): (Length, Angle),
        sheet: &mut Worksheet,
    ) {
        let (y0, t0) = self.ground.formulas();
        let loaded = |step: Step| {
            let step = step
                .with_number("cm", self.give.crossed)
                .with("V", shear)
                .with("M", moment)
                .with("L", self.embedment)
                .cite(self.form.source());
            match self.ground.0 {
                Stiffness::Constant(k) => step.with("k", k),
                Stiffness::Growing(nh) => step.with("k", nh),
            }
        };
        sheet.push(
            loaded(Step::computed("y0", "movement in the ground", y0, movement))
                .with_number("cv", self.give.by_shear),
        );
        sheet.push(
            loaded(Step::computed("q0", "rotation in the ground", t0, rotation))
                .with_number("cr", self.give.by_moment),
        );
    }
}

impl GroundStiffness {
    /// y0 and θ0 of the worksheet.
    const fn formulas(self) -> (&'static str, &'static str) {
        match self.0 {
            Stiffness::Constant(_) => ("(cv*V + cm*M/L)/(k*L)", "180/pi*(cm*V + cr*M/L)/(k*L^2)"),
            Stiffness::Growing(_) => ("(cv*V + cm*M/L)/(k*L^2)", "180/pi*(cm*V + cr*M/L)/(k*L^3)"),
        }
    }

    /// The closed form for a post, and how the ground gives way by it.
    fn give(
        self,
        rigidity: FlexuralRigidity,
        embedment: Length,
    ) -> Result<(LeanForm, Give), Error> {
        let l = within("embedment", embedment, m(0.05), m(30.0))?.value;
        let (form, scale) = match self.0 {
            Stiffness::Constant(k) => {
                let slenderness = (k.value / (4.0 * rigidity.value)).powf(0.25) * l;
                let form = if slenderness < 0.01 {
                    LeanForm::Rigid
                } else if slenderness <= 6.0 {
                    LeanForm::Finite
                } else {
                    LeanForm::Endless
                };
                (form, k.value * l)
            }
            Stiffness::Growing(nh) => {
                let slenderness = l / relative_length(nh, rigidity)?.value;
                let form = if slenderness < 0.05 {
                    LeanForm::RigidGrowing
                } else if slenderness <= 6.0 {
                    LeanForm::FiniteGrowing
                } else {
                    LeanForm::LongGrowing
                };
                (form, nh.value * l * l)
            }
        };
        // Linear in the loads: one of each tells all.
        let shear = self.at_grade(form, rigidity, embedment, kn(1.0), kn_m(0.0))?;
        let moment = self.at_grade(form, rigidity, embedment, kn(0.0), kn_m(1.0))?;
        let unit = kn(1.0).value;
        let give = Give {
            by_shear: shear.deflection.value * scale / unit,
            crossed: moment.deflection.value * scale * l / unit,
            by_moment: -moment.rotation.value * scale * l * l / unit,
        };
        Ok((form, give))
    }

    fn at_grade(
        self,
        form: LeanForm,
        ei: FlexuralRigidity,
        l: Length,
        v: Force,
        mo: Torque,
    ) -> Result<AtGrade, Error> {
        match (self.0, form) {
            (Stiffness::Constant(k), LeanForm::Rigid) => rigid(k, ei, l, v, mo),
            (Stiffness::Constant(k), LeanForm::Endless) => endless(k, ei, l, v, mo),
            (Stiffness::Constant(k), _) => finite(k, ei, l, v, mo).map(|post| post.at_grade()),
            (Stiffness::Growing(nh), LeanForm::RigidGrowing) => rigid_growing(nh, ei, l, v, mo),
            (Stiffness::Growing(nh), LeanForm::LongGrowing) => long_growing(nh, ei, l, v, mo),
            (Stiffness::Growing(nh), _) => finite_growing(nh, ei, l, v, mo),
        }
    }

    /// Movement and rotation under loads, positive with them.
    fn movement(
        self,
        give: &Give,
        embedment: Length,
        shear: Force,
        moment: Torque,
    ) -> (Length, Angle) {
        let l = embedment.value;
        let scale = match self.0 {
            Stiffness::Constant(k) => k.value * l,
            Stiffness::Growing(nh) => nh.value * l * l,
        };
        let (v, by_length) = (shear.value, moment.value / l);
        (
            Length::from_si((give.by_shear * v + give.crossed * by_length) / scale),
            rad((give.crossed * v + give.by_moment * by_length) / (scale * l)),
        )
    }
}
