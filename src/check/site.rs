//! Checks of a post that are made only where asked for, beside those of
//! [`PostCheck`]: lean, frost, pull-out, weight with bending, quantities.

use super::frost::{FrostCheck, FrostOptions};
use super::lean::{LeanCheck, LeanOptions};
use super::materials::{MaterialOptions, Materials};
use super::uplift::{UpliftCheck, UpliftOptions};
use super::{Condition, Governing, PostCheck};
use crate::actions::LoadCase;
use crate::caution::{Caution, Cautions};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::post::{AxialBending, AxialOptions, BelowGrade, PostStrengthCheck};
use crate::step::Worksheet;
use crate::units::Length;
use crate::utilization::Utilization;

/// What is asked for; nothing by default.
///
/// ```
/// use groundline::{check::*, units::*};
/// let asked = SiteChecks::default()
///     .with_frost(FrostOptions::new(inch(36.0), Grip::FineGrained)?)
///     .with_lean(LeanOptions::new(GroundStiffness::growing(kn_per_cu_m(5_000.0))?));
/// # let _ = asked;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SiteChecks {
    lean: Option<LeanOptions>,
    frost: Option<FrostOptions>,
    uplift: Option<UpliftOptions>,
    axial: Option<AxialOptions>,
    materials: Option<MaterialOptions>,
}

impl SiteChecks {
    /// With the lean of the top.
    #[must_use]
    pub const fn with_lean(self, options: LeanOptions) -> Self {
        Self {
            lean: Some(options),
            ..self
        }
    }
    /// With frost.
    #[must_use]
    pub const fn with_frost(self, options: FrostOptions) -> Self {
        Self {
            frost: Some(options),
            ..self
        }
    }
    /// With a force that pulls at the post.
    #[must_use]
    pub const fn with_uplift(self, options: UpliftOptions) -> Self {
        Self {
            uplift: Some(options),
            ..self
        }
    }
    /// With weight and bending together.
    #[must_use]
    pub const fn with_axial(self, options: AxialOptions) -> Self {
        Self {
            axial: Some(options),
            ..self
        }
    }
    /// With quantities.
    #[must_use]
    pub const fn with_materials(self, options: MaterialOptions) -> Self {
        Self {
            materials: Some(options),
            ..self
        }
    }

    /// Is nothing asked for?
    pub const fn is_empty(&self) -> bool {
        self.lean.is_none()
            && self.frost.is_none()
            && self.uplift.is_none()
            && self.axial.is_none()
            && self.materials.is_none()
    }

    /// The frost asked for.
    pub const fn frost(&self) -> Option<&FrostOptions> {
        self.frost.as_ref()
    }
    /// The quantities asked for.
    pub const fn materials(&self) -> Option<&MaterialOptions> {
        self.materials.as_ref()
    }

    /// Makes what is asked for, of a post that is checked, its load cases, and
    /// its height above grade, at the depth it stands in
    /// ([`PostCheck::depth`]). What cannot be made is refused one by one.
    pub fn of<L: CombinesTo<AllowableStress>>(
        &self,
        check: &PostCheck<L>,
        cases: &[LoadCase<L>],
        height: Length,
    ) -> SiteResults {
        let post = Standing {
            check,
            cases,
            height,
        };
        let lean = Checked::made(self.lean.map(|asked| LeanCheck::new(&asked, &post)));
        SiteResults {
            lean,
            frost: Checked::made(self.frost.map(|asked| FrostCheck::new(&asked, &post))),
            uplift: Checked::made(
                self.uplift
                    .map(|asked| UpliftCheck::new(&asked, self.frost.as_ref(), &post)),
            ),
            axial: Checked::made(self.axial.map(|asked| post.axial(&asked, lean.done()))),
            materials: Checked::made(
                self.materials
                    .map(|asked| Materials::new(&asked, check.design(), check.depth())),
            ),
        }
    }
}

/// A post that is checked, with its load cases and height.
pub(super) struct Standing<'a, L: CombinesTo<AllowableStress>> {
    pub(super) check: &'a PostCheck<L>,
    pub(super) cases: &'a [LoadCase<L>],
    pub(super) height: Length,
}

impl<L: CombinesTo<AllowableStress>> Standing<'_, L> {
    /// The least weight at grade in any case, as it stands, and the factor of
    /// weight that relieves.
    pub(super) fn relieving(&self) -> Result<(crate::units::Force, f64), Error> {
        let asked = self.check.design().combination();
        self.cases
            .iter()
            .map(|case| {
                let set = case.wind.level().resolve(asked);
                (case.dead.axial(), set.relieving())
            })
            .reduce(|a, b| {
                (
                    if b.0 < a.0 { b.0 } else { a.0 },
                    if b.1 < a.1 { b.1 } else { a.1 },
                )
            })
            .ok_or(NO_CASE)
    }

    /// `lean` tells how the ground turns, where it was asked.
    fn axial(
        &self,
        options: &AxialOptions,
        lean: Option<&LeanCheck>,
    ) -> Result<AxialBending, Error> {
        let design = self.check.design();
        let options = &match lean {
            Some(lean) => options.on_ground(lean.turning()?),
            None => *options,
        };
        if self.cases.iter().all(|case| case.dead.axial().value <= 0.0) {
            return Err(Error::NotApplicable {
                field: "weight at grade",
                reason: "weight with bending wants a weight: give that of the panels",
            });
        }
        let (embedment, top) = (
            self.check.strength.demand.embedment(),
            design.ground().discounted_top(),
        );
        let restraint = design.foundation().restraint();
        let mut worst: Option<AxialBending> = None;
        for case in self.cases {
            let set = design.combination().without_increase();
            let actions = case.wind.combined(&case.dead, &set);
            let demand = BelowGrade::new(&actions, embedment, top, restraint)?;
            let bending = PostStrengthCheck::new(demand, design.strength, case.is_skew()).bending;
            let length = self.height + demand.depth_of_moment();
            let both = AxialBending::new(design.post(), options, actions.axial(), bending, length)?;
            // Of cases alike the one that bends the post more.
            let rank = |both: &AxialBending| (both.utilization, both.bending);
            if worst.is_none_or(|worst| rank(&both) > rank(&worst)) {
                worst = Some(both);
            }
        }
        worst.ok_or(NO_CASE)
    }
}

pub(super) const NO_CASE: Error = Error::NotApplicable {
    field: "load cases",
    reason: "there is none to check",
};

/// A check that was asked for or not.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Checked<T> {
    /// Not asked for.
    NotAsked,
    /// Made.
    Done(T),
    /// Asked for, and why it could not be made.
    Refused(Error),
}

impl<T> Checked<T> {
    fn made(result: Option<Result<T, Error>>) -> Self {
        match result {
            None => Self::NotAsked,
            Some(Ok(done)) => Self::Done(done),
            Some(Err(error)) => Self::Refused(error),
        }
    }

    /// The result, if there is one.
    pub const fn done(&self) -> Option<&T> {
        match self {
            Self::Done(done) => Some(done),
            _ => None,
        }
    }

    /// Why it could not be made.
    pub const fn refusal(&self) -> Option<&Error> {
        match self {
            Self::Refused(error) => Some(error),
            _ => None,
        }
    }

    fn write(
        &self,
        title: &'static str,
        sheet: &mut Worksheet,
        write: impl Fn(&T, &mut Worksheet),
    ) {
        match self {
            Self::NotAsked => {}
            Self::Done(done) => write(done, sheet),
            Self::Refused(error) => {
                let reason = error.in_system(sheet.system);
                sheet.section(title);
                sheet.remark(format!("Asked for and NOT CHECKED: {reason}."));
            }
        }
    }
}

/// What was asked for, of one post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SiteResults {
    /// Lean of the top.
    pub lean: Checked<LeanCheck>,
    /// Frost.
    pub frost: Checked<FrostCheck>,
    /// Pull-out.
    pub uplift: Checked<UpliftCheck>,
    /// Weight and bending.
    pub axial: Checked<AxialBending>,
    /// Quantities.
    pub materials: Checked<Materials>,
}

impl SiteResults {
    /// Nothing asked for.
    pub const NONE: Self = Self {
        lean: Checked::NotAsked,
        frost: Checked::NotAsked,
        uplift: Checked::NotAsked,
        axial: Checked::NotAsked,
        materials: Checked::NotAsked,
    };

    /// The utilization of a check made here; none for the others, for a lean
    /// without a limit, and for what was not asked for or refused.
    pub fn utilization_of(&self, check: Governing) -> Option<Utilization> {
        match check {
            Governing::Lean => self.lean.done().and_then(|lean| lean.utilization),
            Governing::FrostUplift => self.frost.done().map(|frost| frost.utilization),
            Governing::PullOut => self.uplift.done().map(|uplift| uplift.utilization),
            Governing::AxialBending => self.axial.done().map(|axial| axial.utilization),
            Governing::GradeMovement => {
                let lean = self.lean.done();
                lean.and_then(|lean| Some(lean.at_grade.as_ref()?.utilization))
            }
            _ => None,
        }
    }

    /// Returns what is left of the condition of a post ([`PostCheck::condition`]) with
    /// these results: none where the movement at grade was checked.
    pub fn condition(&self, own: Option<Condition>) -> Option<Condition> {
        let checked = self.utilization_of(Governing::GradeMovement).is_some();
        if checked { None } else { own }
    }

    /// Checks that were asked for and could not be made: quantities are none.
    pub fn unchecked(&self) -> impl Iterator<Item = &Error> {
        [
            self.lean.refusal(),
            self.frost.refusal(),
            self.uplift.refusal(),
            self.axial.refusal(),
        ]
        .into_iter()
        .flatten()
    }

    /// What was asked for and could not be made.
    pub fn refusals(&self) -> impl Iterator<Item = &Error> {
        [
            self.lean.refusal(),
            self.frost.refusal(),
            self.uplift.refusal(),
            self.axial.refusal(),
            self.materials.refusal(),
        ]
        .into_iter()
        .flatten()
    }

    /// The cautions of a post with these results beside its own.
    pub fn cautions(&self, own: Cautions) -> Cautions {
        let memory = self
            .axial
            .done()
            .is_some_and(|axial| axial.source().mark == crate::source::Mark::FromMemory);
        let fixed = self
            .axial
            .done()
            .is_some_and(|axial| axial.turning.is_none());
        let shrinks = self.uplift.done().is_some_and(UpliftCheck::shrinks);
        let tested = self
            .frost
            .done()
            .is_some_and(|frost| frost.friction.tested())
            || self.uplift.done().is_some_and(|up| up.friction.tested());
        let presumptive = self
            .frost
            .done()
            .is_some_and(|frost| frost.friction.presumptive());
        let own = if self.frost.done().is_some() {
            own.replacing(Caution::Frost, Caution::FrostChecked)
        } else {
            own
        };
        own.with_if(fixed, Caution::FixedFoot)
            .with_if(self.refusals().next().is_some(), Caution::NotAllChecked)
            .with_if(memory, Caution::FromMemory)
            .with_if(shrinks, Caution::Shrinkage)
            .with_if(tested, Caution::FieldTests)
            .with_if(presumptive, Caution::DeepFoundationFriction)
    }

    /// Writes the working of all that was asked for.
    pub fn write(&self, sheet: &mut Worksheet) {
        self.axial
            .write("Weight and bending together", sheet, AxialBending::write);
        self.lean.write("Lean of the top", sheet, LeanCheck::write);
        self.frost.write("Frost", sheet, FrostCheck::write);
        self.uplift.write("Pull-out", sheet, UpliftCheck::write);
        self.materials.write("Quantities", sheet, Materials::write);
        let any = Governing::ALL
            .into_iter()
            .any(|check| self.utilization_of(check).is_some());
        if any {
            sheet.section("Result of the checks asked for");
        }
        for check in Governing::ALL {
            if let Some(utilization) = self.utilization_of(check) {
                sheet.remark(format!(
                    "{}: utilization {utilization}, {}.",
                    check.name(),
                    if utilization.passes() {
                        "passes"
                    } else {
                        "FAILS"
                    }
                ));
            }
        }
    }
}
