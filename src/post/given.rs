//! A post whose strength is known: a maker's insert, an engineer's value, a
//! test.

use super::PostStrength;
use crate::error::{Error, within};
use crate::section::PostSection;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{FlexuralRigidity, Force, Torque, lb, lb_ft, n_sq_m};

/// A post of a section and an allowable moment and shear.
///
/// ```
/// use groundline::{post::GivenPost, section::{PostSection, Tube}, units::{inch, lb, lb_ft}};
/// let section = PostSection::Tube(Tube::new(inch(2.5), inch(0.125))?);
/// let insert = GivenPost::new(section, lb_ft(2_100.0), lb(5_000.0))?;
/// # let _ = insert;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivenPost {
    section: PostSection,
    moment: Torque,
    shear: Force,
    rigidity: Option<FlexuralRigidity>,
}

impl GivenPost {
    /// A post of a section, its allowable moment about an axis parallel to a
    /// face and its allowable shear, at allowable-stress level.
    ///
    /// # Errors
    /// Moment outside 1 to 10⁷ lb·ft, shear outside 1 to 10⁷ lb.
    pub fn new(section: PostSection, moment: Torque, shear: Force) -> Result<Self, Error> {
        Ok(Self {
            section,
            moment: within("allowable moment", moment, lb_ft(1.0), lb_ft(1e7))?,
            shear: within("allowable shear", shear, lb(1.0), lb(1e7))?,
            rigidity: None,
        })
    }

    /// With its E I, for lean.
    ///
    /// # Errors
    /// Outside 1 to 10¹² N·m².
    pub fn with_rigidity(self, rigidity: FlexuralRigidity) -> Result<Self, Error> {
        let rigidity = within("flexural rigidity", rigidity, n_sq_m(1.0), n_sq_m(1e12))?;
        Ok(Self {
            rigidity: Some(rigidity),
            ..self
        })
    }

    /// Its E I, if it was given.
    pub const fn rigidity(&self) -> Option<FlexuralRigidity> {
        self.rigidity
    }

    /// The section.
    pub const fn section(&self) -> &PostSection {
        &self.section
    }

    /// The strength given.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        PostStrength::new(
            &self.section,
            self.moment,
            self.shear,
            &source::GIVEN,
            &source::GIVEN,
        )
    }

    /// Writes the strength given.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Post: strength given");
        sheet.push(Step::given("Mr", "allowable moment", self.moment).cite(&source::GIVEN));
        sheet.push(Step::given("Vr", "allowable shear", self.shear).cite(&source::GIVEN));
    }
}
