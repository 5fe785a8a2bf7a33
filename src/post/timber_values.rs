//! Reference design values of sawn posts: NDS Supplement Tables 4A, 4B, 4D.
//!
//! Most of these were not seen on a page of the Supplement; each row carries
//! its mark, and the worksheet repeats it. Where a value matters, give your
//! own with [`DesignValues::new`].

use crate::error::{Error, stress_within};
use crate::source::{self, Citation, Mark};
use crate::units::{Pressure, ksi, lb_per_sq_in};

/// Species or species combination.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Species {
    /// Southern pine.
    SouthernPine,
    /// Douglas fir-larch.
    DouglasFirLarch,
    /// Hem-fir.
    HemFir,
    /// Spruce-pine-fir.
    SprucePineFir,
    /// Western cedars.
    WesternCedars,
}

/// Visual grade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Grade {
    /// No. 1.
    No1,
    /// No. 2.
    No2,
}

/// Which table of the Supplement a post belongs to; it decides which factors
/// apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum SizeClass {
    /// Table 4A: dimension lumber, 2 to 4 in nominal, not southern pine.
    Dimension,
    /// Table 4B: southern pine dimension lumber; the size factor is in the
    /// values.
    SouthernPineDimension,
    /// Table 4D: timbers 5 in nominal and larger.
    Timbers,
    /// Table 4D, southern pine: wet service is in the values.
    SouthernPineTimbers,
}

impl SizeClass {
    /// Is this the class of 5 in nominal and larger?
    #[inline]
    pub const fn is_timbers(self) -> bool {
        matches!(self, Self::Timbers | Self::SouthernPineTimbers)
    }

    #[inline]
    pub(crate) const fn citation(self) -> &'static Citation {
        match self {
            Self::Dimension => &source::NDS_4A,
            Self::SouthernPineDimension => &source::NDS_4B,
            Self::Timbers | Self::SouthernPineTimbers => &source::NDS_4D,
        }
    }
}

/// Reference bending and shear stresses of a grade.
///
/// ```
/// use groundline::{post::{DesignValues, Grade, SizeClass, Species}, source::Mark, units::*};
/// let pine = DesignValues::of(Species::SouthernPine, Grade::No2, inch(3.5))?;
/// assert!((pine.bending().to(lb_per_sq_in) - 1_100.0).abs() < 1e-9);
/// assert_eq!(pine.mark(), Mark::Quoted);
/// // Your own, for a 5.5 in post:
/// let own = DesignValues::new(lb_per_sq_in(850.0), lb_per_sq_in(165.0), SizeClass::Timbers)?;
/// # let _ = own;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DesignValues {
    bending: Pressure,
    shear: Pressure,
    class: SizeClass,
    mark: Mark,
    label: &'static str,
}

/// Bending, shear (psi), mark of the less certain of the two.
type Row = (Species, Grade, f64, f64, Mark, &'static str);

/// Tables 4A and 4B, 4 in nominal.
const DIMENSION: [Row; 9] = {
    use Grade::{No1, No2};
    use Mark::{FromMemory, Quoted};
    use Species::{DouglasFirLarch, HemFir, SouthernPine, SprucePineFir, WesternCedars};
    [
        (
            SouthernPine,
            No1,
            1500.0,
            175.0,
            Quoted,
            "Southern Pine No.1",
        ),
        (
            SouthernPine,
            No2,
            1100.0,
            175.0,
            Quoted,
            "Southern Pine No.2",
        ),
        (
            DouglasFirLarch,
            No1,
            1000.0,
            180.0,
            FromMemory,
            "Douglas Fir-Larch No.1",
        ),
        (
            DouglasFirLarch,
            No2,
            900.0,
            180.0,
            FromMemory,
            "Douglas Fir-Larch No.2",
        ),
        (HemFir, No1, 975.0, 150.0, FromMemory, "Hem-Fir No.1"),
        (HemFir, No2, 850.0, 150.0, FromMemory, "Hem-Fir No.2"),
        (
            SprucePineFir,
            No2,
            875.0,
            135.0,
            FromMemory,
            "Spruce-Pine-Fir No.1/No.2",
        ),
        (
            WesternCedars,
            No1,
            725.0,
            155.0,
            FromMemory,
            "Western Cedars No.1",
        ),
        (
            WesternCedars,
            No2,
            700.0,
            155.0,
            FromMemory,
            "Western Cedars No.2",
        ),
    ]
};

/// Table 4D, posts and timbers.
const TIMBERS: [Row; 10] = {
    use Grade::{No1, No2};
    use Mark::FromMemory;
    use Species::{DouglasFirLarch, HemFir, SouthernPine, SprucePineFir, WesternCedars};
    [
        (
            SouthernPine,
            No1,
            1350.0,
            165.0,
            FromMemory,
            "Southern Pine No.1 timbers",
        ),
        (
            SouthernPine,
            No2,
            850.0,
            165.0,
            FromMemory,
            "Southern Pine No.2 timbers",
        ),
        (
            DouglasFirLarch,
            No1,
            1200.0,
            170.0,
            FromMemory,
            "Douglas Fir-Larch No.1 timbers",
        ),
        (
            DouglasFirLarch,
            No2,
            750.0,
            170.0,
            FromMemory,
            "Douglas Fir-Larch No.2 timbers",
        ),
        (
            HemFir,
            No1,
            975.0,
            140.0,
            FromMemory,
            "Hem-Fir No.1 timbers",
        ),
        (
            HemFir,
            No2,
            575.0,
            140.0,
            FromMemory,
            "Hem-Fir No.2 timbers",
        ),
        (
            SprucePineFir,
            No1,
            850.0,
            125.0,
            FromMemory,
            "Spruce-Pine-Fir No.1 timbers",
        ),
        (
            SprucePineFir,
            No2,
            500.0,
            125.0,
            FromMemory,
            "Spruce-Pine-Fir No.2 timbers",
        ),
        (
            WesternCedars,
            No1,
            875.0,
            140.0,
            FromMemory,
            "Western Cedars No.1 timbers",
        ),
        (
            WesternCedars,
            No2,
            550.0,
            140.0,
            FromMemory,
            "Western Cedars No.2 timbers",
        ),
    ]
};

impl DesignValues {
    /// Your own reference values, before any adjustment.
    ///
    /// # Errors
    /// Bending outside 100 psi to 10 ksi, shear outside 20 psi to 2 ksi.
    #[inline]
    pub fn new(bending: Pressure, shear: Pressure, class: SizeClass) -> Result<Self, Error> {
        Ok(Self {
            bending: stress_within("Fb", bending, lb_per_sq_in(100.0), ksi(10.0))?,
            shear: stress_within("Fv", shear, lb_per_sq_in(20.0), ksi(2.0))?,
            class,
            mark: Mark::Given,
            label: "user's values",
        })
    }

    /// The Supplement's values for a species, grade and actual post size.
    ///
    /// # Errors
    /// The Supplement rows held here have no such species and grade in that
    /// size.
    #[inline]
    pub fn of(species: Species, grade: Grade, side: crate::units::Length) -> Result<Self, Error> {
        let pine = species == Species::SouthernPine;
        let timbers = side >= crate::units::inch(4.25);
        let class = match (timbers, pine) {
            (false, false) => SizeClass::Dimension,
            (false, true) => SizeClass::SouthernPineDimension,
            (true, false) => SizeClass::Timbers,
            (true, true) => SizeClass::SouthernPineTimbers,
        };
        let rows: &[Row] = if timbers { &TIMBERS } else { &DIMENSION };
        rows.iter()
            .find(|row| row.0 == species && row.1 == grade)
            .map(|&(_, _, bending, shear, mark, label)| Self {
                bending: lb_per_sq_in(bending),
                shear: lb_per_sq_in(shear),
                class,
                mark,
                label,
            })
            .ok_or(Error::NotApplicable {
                field: "species and grade",
                reason: "no such row is held for this size; give the design values themselves",
            })
    }

    /// Fb.
    #[inline]
    pub const fn bending(&self) -> Pressure {
        self.bending
    }
    /// Fv.
    #[inline]
    pub const fn shear(&self) -> Pressure {
        self.shear
    }
    /// The table.
    #[inline]
    pub const fn class(&self) -> SizeClass {
        self.class
    }
    /// The mark of the less certain of the two values.
    #[inline]
    pub const fn mark(&self) -> Mark {
        self.mark
    }
    /// Species and grade in words.
    #[inline]
    pub const fn label(&self) -> &'static str {
        self.label
    }
}
