//! What is checked: a kind of post in a kind of hole in a ground.

use super::{Governing, PostCheck};
use crate::actions::{GroundlineActions, LoadCase};
use crate::backfill::{RestDays, Setting};
use crate::caution::{Caution, Cautions};
use crate::combination::{Combination, CombinesTo};
use crate::embedment::{DepthCap, PoleFormula};
use crate::error::Error;
use crate::foundation::{Foundation, Hole, Restraint, SquareWidth};
use crate::ground::Ground;
use crate::limit_state::AllowableStress;
use crate::post::{Post, PostStrength};
use crate::section::Square;
use crate::units::Length;
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
    combination: Combination<AllowableStress>,
    cap: DepthCap,
    formula: PoleFormula,
    setting: Option<Setting>,
    rest: Option<(RestDays, RestDays)>,
    pub(super) strength: PostStrength,
}

impl PostDesign {
    /// A post in a hole filled with poured concrete.
    ///
    /// # Errors
    /// As [`Foundation::concrete`].
    #[inline]
    pub fn in_concrete(ground: Ground, post: Post, hole: Hole) -> Result<Self, Error> {
        Self::set_in(ground, post, Setting::PouredConcrete, hole)
    }

    /// A post in backfill as IBC 1807.3.3, without a structural footing.
    #[inline]
    pub fn bare(ground: Ground, post: Post) -> Self {
        Self::with_foundation(ground, post, Foundation::bare(post.section()))
    }

    /// A post set in concrete, foam, gravel or tamped soil in a hole. Without
    /// concrete the post alone bears, b is its own width, and the hole counts
    /// for quantities and frost only.
    ///
    /// # Errors
    /// A post that does not fit the hole; [`Setting::Driven`], which has none
    /// ([`PostDesign::driven`]).
    ///
    /// ```
    /// # use groundline::{backfill::*, check::*, foundation::Hole, ground::*, post::*, section::*, units::*};
    /// # let steel = SteelStrength::new(ksi(50.0))?;
    /// # let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.13))?, steel)?;
    /// # let ground = Ground::presumptive(SoilClass::Class4);
    /// let hole = Hole::round(inch(8.0))?;
    /// let foam = PostDesign::set_in(ground, pipe.into(), Setting::ExpandingFoam, hole)?;
    /// assert_eq!(foam.foundation().bearing_width().width(), inch(2.375));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn set_in(ground: Ground, post: Post, setting: Setting, hole: Hole) -> Result<Self, Error> {
        let foundation = match setting {
            Setting::PouredConcrete => Foundation::concrete(hole, post.section())?,
            Setting::Driven => {
                return Err(Error::NotApplicable {
                    field: "setting",
                    reason: "a driven post has no hole",
                });
            }
            _ => Foundation::backfilled(hole, post.section())?,
        };
        let foundation = around(foundation, &post)?;
        Ok(Self {
            setting: Some(setting),
            ..Self::with_foundation(ground, post, foundation)
        })
    }

    /// A driven post: it alone bears, on undisturbed ground.
    pub fn driven(ground: Ground, post: Post) -> Self {
        Self {
            setting: Some(Setting::Driven),
            ..Self::with_foundation(ground, post, Foundation::driven(post.section()))
        }
    }

    /// With the days the setting rests before the wind may come on the fence,
    /// and the days it needs: those of its maker or your own, since none are
    /// held here. Long enough, the caution to let it cure is not said; too
    /// short, another is.
    #[must_use]
    pub const fn resting(self, rests: RestDays, needs: RestDays) -> Self {
        Self {
            rest: Some((rests, needs)),
            ..self
        }
    }

    #[inline]
    fn with_foundation(ground: Ground, post: Post, foundation: Foundation) -> Self {
        Self {
            ground,
            foundation,
            post,
            combination: Combination::of(AllowableStress::default()),
            cap: DepthCap::default(),
            formula: PoleFormula::of(&ground, &foundation),
            setting: None,
            rest: None,
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

    /// The same post in concrete in another hole.
    ///
    /// # Errors
    /// As [`Foundation::in_hole`].
    pub fn in_hole(self, hole: Hole) -> Result<Self, Error> {
        Ok(Self {
            foundation: self.foundation.in_hole(hole)?,
            ..self
        }
        .refreshed())
    }

    /// Returns the same post in a hole filled with poured concrete, whatever filled
    /// the hole before. Ground, restraint and load combinations stay; a curing time
    /// given for another backfill does not.
    ///
    /// # Errors
    /// As [`Foundation::concrete`].
    pub fn filled_with_concrete(self, hole: Hole) -> Result<Self, Error> {
        Ok(Self {
            foundation: self.foundation.filled_with_concrete(hole)?,
            setting: Some(Setting::PouredConcrete),
            rest: None,
            ..self
        }
        .refreshed())
    }

    /// The same hole in another ground.
    #[must_use]
    pub fn in_ground(self, ground: Ground) -> Self {
        Self { ground, ..self }.refreshed()
    }

    /// Another post in the same hole and ground.
    ///
    /// # Errors
    /// As [`Foundation::with_section`].
    pub fn with_post(self, post: Post) -> Result<Self, Error> {
        Ok(Self {
            foundation: around(self.foundation.with_section(post.section())?, &post)?,
            post,
            strength: post.strength(),
            ..self
        }
        .refreshed())
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

    /// With the other family of load combinations, or factors of your own.
    #[must_use]
    #[inline]
    pub fn with_combination(self, combination: impl Into<Combination<AllowableStress>>) -> Self {
        Self {
            combination: combination.into(),
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
    /// What the post is set in; none for a post in backfill as IBC 1807.3.3 of
    /// which no more is said.
    #[inline]
    pub const fn setting(&self) -> Option<Setting> {
        self.setting
    }
    /// The days it rests and those it needs, if given.
    pub const fn rest(&self) -> Option<(RestDays, RestDays)> {
        self.rest
    }

    /// The cautions of foundation and setting.
    pub fn cautions(&self) -> Cautions {
        let rested = self.rest.map(|(rests, needs)| rests >= needs);
        let of_foundation = self.foundation.cautions();
        // The setting says what the fill asks for; the rest is the foundation's.
        let kept = [Caution::RigidPaving, Caution::FromMemory];
        let of_both = match self.setting() {
            None => of_foundation,
            Some(setting) => kept
                .into_iter()
                .filter(|caution| of_foundation.contains(*caution))
                .fold(setting.cautions(rested == Some(true)), Cautions::with),
        };
        of_both.with_if(rested == Some(false), Caution::SetTooSoon)
    }

    /// The post.
    #[inline]
    pub const fn post(&self) -> &Post {
        &self.post
    }
    /// The load combinations.
    #[inline]
    pub const fn combination(&self) -> &Combination<AllowableStress> {
        &self.combination
    }
    /// The actions of a case for the post itself, whose stresses are not increased,
    /// beside those for the ground.
    #[inline]
    pub(super) fn post_actions<L: CombinesTo<AllowableStress>>(
        &self,
        case: &LoadCase<L>,
        of_ground: &GroundlineActions<AllowableStress>,
    ) -> GroundlineActions<AllowableStress> {
        if self.combination.has_omega() {
            case.wind
                .combined(&case.dead, &self.combination.without_increase())
        } else {
            *of_ground
        }
    }
    /// What a post set to a depth carries: the shear, acting at a height above
    /// grade, at which the first check of ground and post reaches 1, with its
    /// moment; and which check that is. Embedment, bending and shear of the post
    /// are looked at, square to a face and without weight; vertical bearing and
    /// what is asked for beside ([`crate::check::SiteChecks`]) are not.
    ///
    /// # Errors
    /// As [`PoleFormula::capacity`].
    ///
    /// ```
    /// # use groundline::{check::*, foundation::Hole, ground::*, post::*, section::*, units::*};
    /// # let steel = SteelStrength::new(ksi(50.0))?;
    /// # let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.13))?, steel)?;
    /// # let ground = Ground::presumptive(SoilClass::Class4);
    /// let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(10.0))?)?;
    /// let (holds, governing) = design.capacity(inch(30.0), ft(3.3))?;
    /// assert_eq!(governing, Governing::Embedment);
    /// assert!(holds.shear() < lb(200.0));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn capacity(
        &self,
        depth: Length,
        height: Length,
    ) -> Result<(GroundlineActions<AllowableStress>, Governing), Error> {
        let level = self.combination.level();
        let ground = self.formula.capacity(depth, height, level)?;
        let scaled = |share: f64| {
            let (shear, moment) = (ground.shear() * share, ground.moment() * share);
            GroundlineActions::new(shear, moment, ground.axial(), level)
        };
        let post = |share: f64| {
            let check = PostCheck::of_actions(self, &scaled(share)?, Some(depth))?;
            let strength = check.strength;
            Ok(if strength.bending >= strength.shear {
                (Governing::Bending, strength.bending)
            } else {
                (Governing::Shear, strength.shear)
            })
        };
        let (mut governing, most) = post(1.0)?;
        if most <= Utilization::FULL {
            return Ok((ground, Governing::Embedment));
        }
        // The post bends at the depth its load requires, so less than in proportion:
        // the share of the ground's load at which it is used up lies between 0 and 1.
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..80 {
            let middle = 0.5 * (low + high);
            let (which, used) = post(middle)?;
            if used <= Utilization::FULL {
                low = middle;
            } else {
                (high, governing) = (middle, which);
            }
        }
        Ok((scaled(low)?, governing))
    }

    /// The pole formula of this design.
    #[inline]
    pub const fn formula(&self) -> &PoleFormula {
        &self.formula
    }
}

/// A sleeve takes its room in the hole.
#[inline]
fn around(foundation: Foundation, post: &Post) -> Result<Foundation, Error> {
    match post {
        Post::Sleeved(post) => foundation.sleeved(Square::new(post.sleeve().outside())?),
        _ => Ok(foundation),
    }
}
