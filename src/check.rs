//! The whole check of one post: every load case against ground and post, and
//! what governs.

use crate::actions::{GroundlineActions, LoadCase};
use crate::bearing::BearingCheck;
use crate::caution::{Caution, Cautions};
use crate::embedment::{DepthCap, DepthCheck, PoleFormula, RequiredDepth};
use crate::error::Error;
use crate::foundation::{Foundation, Hole, Restraint, SquareWidth};
use crate::ground::Ground;
use crate::limit_state::AllowableStress;
use crate::post::{BelowGrade, Post, PostStrength, PostStrengthCheck};
use crate::source::{Citation, Mark};
use crate::step::{Step, Worksheet};
use crate::units::{Length, ft};
use crate::utilization::Utilization;

/// A kind of post in a kind of hole in a ground: what is checked.
///
/// ```
/// use groundline::{check::PostDesign, foundation::Hole, ground::*, post::*, section::*, units::*};
/// let steel = SteelStrength::new(ksi(50.0))?;
/// let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.160))?, steel)?;
/// let ground = Ground::presumptive(SoilClass::Class4);
/// let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
/// # let _ = design;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PostDesign {
    ground: Ground,
    foundation: Foundation,
    post: Post,
    combination: AllowableStress,
    cap: DepthCap,
    formula: PoleFormula,
    strength: PostStrength,
}

impl PostDesign {
    /// A post in a hole filled with poured concrete.
    ///
    /// # Errors
    /// As [`Foundation::concrete`].
    #[inline]
    pub fn in_concrete(ground: Ground, post: Post, hole: Hole) -> Result<Self, Error> {
        Ok(Self::with_foundation(
            ground,
            post,
            Foundation::concrete(hole, post.section())?,
        ))
    }

    /// A post in backfill as IBC 1807.3.3, without a structural footing.
    #[inline]
    pub fn bare(ground: Ground, post: Post) -> Self {
        Self::with_foundation(ground, post, Foundation::bare(post.section()))
    }

    #[inline]
    fn with_foundation(ground: Ground, post: Post, foundation: Foundation) -> Self {
        Self {
            ground,
            foundation,
            post,
            combination: AllowableStress::default(),
            cap: DepthCap::default(),
            formula: PoleFormula::of(&ground, &foundation),
            strength: post.strength(),
        }
    }

    #[inline]
    fn refreshed(self) -> Self {
        Self {
            formula: PoleFormula::of(&self.ground, &self.foundation).with_cap(self.cap),
            ..self
        }
    }

    /// With restraint at grade.
    #[must_use]
    #[inline]
    pub fn restrained_by(self, restraint: Restraint) -> Self {
        Self {
            foundation: self.foundation.restrained_by(restraint),
            ..self
        }
        .refreshed()
    }

    /// With the other reading of b for squares.
    #[must_use]
    #[inline]
    pub fn square_width(self, reading: SquareWidth) -> Self {
        Self {
            foundation: self.foundation.square_width(reading),
            ..self
        }
        .refreshed()
    }

    /// With the other reading of the 12 ft rule.
    #[must_use]
    #[inline]
    pub fn with_cap(self, cap: DepthCap) -> Self {
        Self { cap, ..self }.refreshed()
    }

    /// With the other family of load combinations.
    #[must_use]
    #[inline]
    pub fn with_combination(self, combination: AllowableStress) -> Self {
        Self {
            combination,
            ..self
        }
    }

    /// The ground.
    #[inline]
    pub const fn ground(&self) -> &Ground {
        &self.ground
    }
    /// The foundation.
    #[inline]
    pub const fn foundation(&self) -> &Foundation {
        &self.foundation
    }
    /// The post.
    #[inline]
    pub const fn post(&self) -> &Post {
        &self.post
    }
    /// The load combinations.
    #[inline]
    pub const fn combination(&self) -> AllowableStress {
        self.combination
    }
    /// The pole formula of this design.
    #[inline]
    pub const fn formula(&self) -> &PoleFormula {
        &self.formula
    }
}

/// Which check governs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Governing {
    /// The depth in the ground.
    Embedment,
    /// Bending of the post.
    Bending,
    /// Shear of the post.
    Shear,
    /// Vertical bearing of the base.
    VerticalBearing,
}

impl Governing {
    /// Its name.
    #[inline]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Embedment => "embedment",
            Self::Bending => "post bending",
            Self::Shear => "post shear",
            Self::VerticalBearing => "vertical bearing",
        }
    }
}

/// The check of one post. It holds no heap memory, and its working is written
/// on demand.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PostCheck {
    design: PostDesign,
    /// The case that asks for the greatest depth.
    pub required_case: LoadCase,
    /// The depth it asks for.
    pub required: RequiredDepth,
    /// The planned depth, if there is one, against the case worst for it.
    pub planned: Option<DepthCheck>,
    /// That case; the one above without a planned depth.
    pub planned_case: LoadCase,
    /// The case worst for the post itself.
    pub strength_case: LoadCase,
    /// The post against it, at the planned depth or else at the required one.
    pub strength: PostStrengthCheck,
    /// The base, where the ground has a vertical pressure.
    pub bearing: Option<BearingCheck>,
    /// What governs.
    pub governing: Governing,
    /// Its utilization. Without a planned depth the ground counts as used up
    /// exactly (1), since the depth is the required one.
    pub utilization: Utilization,
}

impl PostCheck {
    /// Checks one post for its load cases, at a planned depth if there is one.
    ///
    /// # Errors
    /// No load case; planned depth outside 0.01 to 300 ft; increases of
    /// lateral bearing that must not be combined.
    #[inline]
    pub fn new(
        design: &PostDesign,
        cases: &[LoadCase],
        planned: Option<Length>,
    ) -> Result<Self, Error> {
        let formula = &design.formula;
        let mut required: Option<(RequiredDepth, LoadCase)> = None;
        let mut plan: Option<(DepthCheck, LoadCase)> = None;
        for case in cases {
            let actions = case.wind.allowable(&case.dead, design.combination);
            let depth = formula.required(&actions)?;
            if required.is_none_or(|(worst, _)| depth.depth() > worst.depth()) {
                required = Some((depth, *case));
            }
            if let Some(planned) = planned {
                let check = formula.check(&actions, planned)?;
                if plan.is_none_or(|(worst, _)| check.utilization() > worst.utilization()) {
                    plan = Some((check, *case));
                }
            }
        }
        let (required, required_case) = required.ok_or(Error::NotApplicable {
            field: "load cases",
            reason: "there is none to check",
        })?;

        // The moment inside the ground needs an embedment; a planned depth
        // that is no embedment at all is replaced by the required one.
        let top = design.ground.discounted_top();
        let least = ft(0.1);
        let counts = match planned {
            Some(planned) if planned - top >= least => planned - top,
            _ if required.depth_that_counts() >= least => required.depth_that_counts(),
            _ => least,
        };
        let restraint = design.foundation.restraint();
        let mut strength: Option<(PostStrengthCheck, LoadCase)> = None;
        let mut bearing: Option<BearingCheck> = None;
        for case in cases {
            let actions = case.wind.allowable(&case.dead, design.combination);
            let demand = BelowGrade::new(&actions, counts, top, restraint)?;
            let check = PostStrengthCheck::new(demand, design.strength);
            let ratio = check.bending.max(check.shear);
            if strength.is_none_or(|(worst, _)| ratio > worst.bending.max(worst.shear)) {
                strength = Some((check, *case));
            }
            if bearing.is_none() {
                // The weight is the same in every case.
                bearing = BearingCheck::new(&actions, &design.ground, &design.foundation);
            }
        }
        let (strength, strength_case) = strength.ok_or(Error::NotApplicable {
            field: "load cases",
            reason: "there is none to check",
        })?;

        let in_ground = match &plan {
            Some((check, _)) => check.utilization(),
            None => Utilization::FULL,
        };
        let mut governing = (Governing::Embedment, in_ground);
        let others = [
            (Governing::Bending, strength.bending),
            (Governing::Shear, strength.shear),
            (
                Governing::VerticalBearing,
                bearing.map_or(Utilization::ZERO, |check| check.utilization),
            ),
        ];
        for other in others {
            if other.1 > governing.1 {
                governing = other;
            }
        }
        Ok(Self {
            design: *design,
            required_case,
            required,
            planned: plan.map(|(check, _)| check),
            planned_case: plan.map_or(required_case, |(_, case)| case),
            strength_case,
            strength,
            bearing,
            governing: governing.0,
            utilization: governing.1,
        })
    }

    /// What was checked.
    #[inline]
    pub const fn design(&self) -> &PostDesign {
        &self.design
    }

    /// Does every check pass?
    #[inline]
    pub fn passes(&self) -> bool {
        self.utilization.passes()
    }

    /// Where the governing check comes from.
    #[inline]
    pub fn source(&self) -> &'static Citation {
        match self.governing {
            Governing::Embedment => self.required.equation().citation(),
            Governing::Bending => self.strength.strength.moment_source,
            Governing::Shear => self.strength.strength.shear_source,
            Governing::VerticalBearing => &crate::source::IBC_1807_3_2_3,
        }
    }

    /// Allowable-stress actions of the case that asks for the greatest depth.
    #[inline]
    pub const fn actions(&self) -> &GroundlineActions<AllowableStress> {
        self.required.actions()
    }

    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        let from_memory = match &self.design.post {
            Post::Timber(post) => post.values().mark() == Mark::FromMemory,
            Post::Pipe(_) => true,
        };
        let planned = self.planned.map_or(Cautions::default(), |c| c.cautions());
        Cautions::default()
            .with(Caution::Barrier)
            .and(self.required.cautions())
            .and(planned)
            .and(self.design.foundation.cautions())
            .with_if(from_memory, Caution::FromMemory)
    }

    /// Writes the working, from the allowable-stress actions on.
    pub fn write(&self, sheet: &mut Worksheet) {
        self.write_with(sheet, |_, _| {});
    }

    /// Writes the working; before the actions of each load case it uses,
    /// `wind` writes how its wind came about.
    pub(crate) fn write_with(
        &self,
        sheet: &mut Worksheet,
        wind: impl Fn(&LoadCase, &mut Worksheet),
    ) {
        let combination = self.design.combination;
        wind(&self.required_case, sheet);
        write_combination(&self.required_case, combination, sheet);
        self.design.ground.write(combination, sheet);
        self.design.foundation.write(sheet);
        self.required.write(sheet);
        if let Some(check) = &self.planned {
            if self.planned_case != self.required_case {
                sheet.section("Another load case is worse for the planned depth");
                wind(&self.planned_case, sheet);
                write_combination(&self.planned_case, combination, sheet);
            }
            check.write(sheet);
        }
        if self.strength_case != self.planned_case {
            sheet.section("Another load case is worse for the post itself");
            wind(&self.strength_case, sheet);
            write_combination(&self.strength_case, combination, sheet);
        }
        self.strength.write(&self.design.post, sheet);
        if let Some(bearing) = &self.bearing {
            bearing.write(sheet);
        }
        sheet.section("Result");
        sheet.remark(format!(
            "{} governs at utilization {}: {}.",
            self.governing.name(),
            self.utilization,
            if self.passes() { "passes" } else { "FAILS" }
        ));
    }
}

fn write_combination(case: &LoadCase, combination: AllowableStress, sheet: &mut Worksheet) {
    use crate::limit_state::LimitState;
    let actions = case.wind.allowable(&case.dead, combination);
    sheet.section("At the ground line, allowable-stress level");
    sheet.remark(format!("{}.", combination.name()));
    sheet.push(
        Step::given_number("fw", "factor on wind", combination.wind_factor())
            .cite(combination.citation()),
    );
    sheet.push(
        Step::computed("P", "shear at grade", "fw*Vw", actions.shear())
            .with_number("fw", combination.wind_factor())
            .with("Vw", case.wind.shear()),
    );
    let (in_line, across) = (case.dead.in_line(), case.dead.across());
    let step = if across.value > 0.0 || in_line.value > 0.0 {
        Step::computed(
            "M",
            "moment at grade, with the weight of the gate in line and across",
            "sqrt((fw*Mw + Mi)^2 + Mx^2)",
            actions.moment(),
        )
        .with("Mi", in_line)
        .with("Mx", across)
    } else {
        Step::computed("M", "moment at grade", "fw*Mw", actions.moment())
    };
    sheet.push(
        step.with_number("fw", combination.wind_factor())
            .with("Mw", case.wind.moment()),
    );
}
