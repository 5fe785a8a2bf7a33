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

/// Reference bending and shear stresses of a grade, and its E.
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
    modulus: Option<(Pressure, Mark)>,
    label: &'static str,
}

/// Bending, shear (psi), mark of the less certain of the two; E (ksi), its
/// mark.
struct Row(Species, Grade, f64, f64, Mark, f64, Mark, &'static str);

/// Tables 4A and 4B, 4 in nominal.
const DIMENSION: [Row; 10] = {
    use Grade::{No1, No2};
    use Mark::{FromMemory, Quoted};
    use Species::{DouglasFirLarch, HemFir, SouthernPine, SprucePineFir, WesternCedars};
    [
        Row(
            SouthernPine,
            No1,
            1500.0,
            175.0,
            Quoted,
            1600.0,
            Quoted,
            "Southern Pine No.1",
        ),
        Row(
            SouthernPine,
            No2,
            1100.0,
            175.0,
            Quoted,
            1400.0,
            Quoted,
            "Southern Pine No.2",
        ),
        Row(
            DouglasFirLarch,
            No1,
            1000.0,
            180.0,
            FromMemory,
            1700.0,
            FromMemory,
            "Douglas Fir-Larch No.1",
        ),
        Row(
            DouglasFirLarch,
            No2,
            900.0,
            180.0,
            FromMemory,
            1600.0,
            Quoted,
            "Douglas Fir-Larch No.2",
        ),
        Row(
            HemFir,
            No1,
            975.0,
            150.0,
            FromMemory,
            1500.0,
            FromMemory,
            "Hem-Fir No.1",
        ),
        Row(
            HemFir,
            No2,
            850.0,
            150.0,
            FromMemory,
            1300.0,
            Quoted,
            "Hem-Fir No.2",
        ),
        // One row of the table, "No.1/No.2".
        Row(
            SprucePineFir,
            No1,
            875.0,
            135.0,
            FromMemory,
            1400.0,
            FromMemory,
            "Spruce-Pine-Fir No.1/No.2",
        ),
        Row(
            SprucePineFir,
            No2,
            875.0,
            135.0,
            FromMemory,
            1400.0,
            FromMemory,
            "Spruce-Pine-Fir No.1/No.2",
        ),
        Row(
            WesternCedars,
            No1,
            725.0,
            155.0,
            FromMemory,
            1000.0,
            FromMemory,
            "Western Cedars No.1",
        ),
        Row(
            WesternCedars,
            No2,
            700.0,
            155.0,
            FromMemory,
            1000.0,
            FromMemory,
            "Western Cedars No.2",
        ),
    ]
};

/// Table 4D, posts and timbers.
const TIMBERS: [Row; 10] = {
    use Grade::{No1, No2};
    use Mark::{FromMemory, Quoted};
    use Species::{DouglasFirLarch, HemFir, SouthernPine, SprucePineFir, WesternCedars};
    [
        Row(
            DouglasFirLarch,
            No1,
            1200.0,
            170.0,
            FromMemory,
            1600.0,
            FromMemory,
            "Douglas Fir-Larch No.1 timbers",
        ),
        Row(
            DouglasFirLarch,
            No2,
            750.0,
            170.0,
            FromMemory,
            1300.0,
            Quoted,
            "Douglas Fir-Larch No.2 timbers",
        ),
        Row(
            HemFir,
            No1,
            975.0,
            140.0,
            FromMemory,
            1300.0,
            FromMemory,
            "Hem-Fir No.1 timbers",
        ),
        Row(
            HemFir,
            No2,
            575.0,
            140.0,
            FromMemory,
            1100.0,
            FromMemory,
            "Hem-Fir No.2 timbers",
        ),
        Row(
            SprucePineFir,
            No1,
            850.0,
            125.0,
            FromMemory,
            1300.0,
            FromMemory,
            "Spruce-Pine-Fir No.1 timbers",
        ),
        Row(
            SprucePineFir,
            No2,
            500.0,
            125.0,
            FromMemory,
            1000.0,
            FromMemory,
            "Spruce-Pine-Fir No.2 timbers",
        ),
        Row(
            WesternCedars,
            No1,
            875.0,
            140.0,
            FromMemory,
            1000.0,
            FromMemory,
            "Western Cedars No.1 timbers",
        ),
        Row(
            WesternCedars,
            No2,
            550.0,
            140.0,
            FromMemory,
            800.0,
            FromMemory,
            "Western Cedars No.2 timbers",
        ),
        Row(
            SouthernPine,
            No1,
            1350.0,
            165.0,
            FromMemory,
            1500.0,
            FromMemory,
            "Southern Pine No.1 timbers",
        ),
        Row(
            SouthernPine,
            No2,
            850.0,
            165.0,
            FromMemory,
            1200.0,
            FromMemory,
            "Southern Pine No.2 timbers",
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
            modulus: None,
            label: "user's values",
        })
    }

    /// Other reference values of bending and shear, yours; class and E stay.
    ///
    /// # Errors
    /// As [`DesignValues::new`].
    pub fn with_stresses(self, bending: Pressure, shear: Pressure) -> Result<Self, Error> {
        Ok(Self {
            modulus: self.modulus,
            ..Self::new(bending, shear, self.class)?
        })
    }

    /// With a reference E, before any adjustment: yours.
    ///
    /// # Errors
    /// Outside 100 to 5 000 ksi.
    #[inline]
    pub fn with_modulus(self, modulus: Pressure) -> Result<Self, Error> {
        let modulus = stress_within("E", modulus, ksi(100.0), ksi(5_000.0))?;
        Ok(Self {
            modulus: Some((modulus, Mark::Given)),
            ..self
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
            .map(
                |&Row(_, _, bending, shear, mark, modulus, sure, label)| Self {
                    bending: lb_per_sq_in(bending),
                    shear: lb_per_sq_in(shear),
                    class,
                    mark,
                    modulus: Some((ksi(modulus), sure)),
                    label,
                },
            )
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
    /// E, of the table or given.
    #[inline]
    pub fn modulus(&self) -> Option<Pressure> {
        self.modulus.map(|(modulus, _)| modulus)
    }
    /// The mark of E.
    #[inline]
    pub fn modulus_mark(&self) -> Option<Mark> {
        self.modulus.map(|(_, mark)| mark)
    }
    /// The mark of the less certain of bending and shear.
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
