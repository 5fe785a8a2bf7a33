//! The ground at the hole: allowable lateral bearing, the vertical foundation
//! pressure, and what may raise or lower them.
//!
//! Presumptive classes of IBC Table 1806.2, or an engineer's own values. Two
//! increases exist and neither is ever taken silently:
//!
//! - doubling for isolated poles ([`Ground::as_isolated_pole`]), allowed where
//!   ½ in (13 mm) of movement at the surface does no harm (1806.3.4);
//! - one third with the alternative allowable-stress combinations. It belongs
//!   to the choice of combinations, so it comes with
//!   [`AllowableStress::AlternativeWithIncrease`] and cannot be stacked on the
//!   basic 0.6 W.
//!
//! Whether both may be taken at once is not stated in the texts seen; it is
//! refused unless asked for by [`Ground::allowing_both_increases`].

use crate::caution::{Caution, Cautions};
use crate::error::{Error, size_within, within};
use crate::limit_state::AllowableStress;
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{ForcePerVolume, Length, Pressure, ft, psf, psf_per_ft};

/// Classes of material of IBC Table 1806.2.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum SoilClass {
    /// Crystalline bedrock.
    Class1,
    /// Sedimentary and foliated rock.
    Class2,
    /// Sandy gravel and gravel (GW, GP).
    Class3,
    /// Sand, silty sand, clayey sand, silty gravel, clayey gravel.
    Class4,
    /// Clay, sandy clay, silty clay, clayey silt, silt, sandy silt.
    Class5,
}

impl SoilClass {
    /// Every class.
    pub const ALL: [Self; 5] = [
        Self::Class1,
        Self::Class2,
        Self::Class3,
        Self::Class4,
        Self::Class5,
    ];

    /// Its number in the table.
    #[inline]
    pub const fn number(self) -> u8 {
        match self {
            Self::Class1 => 1,
            Self::Class2 => 2,
            Self::Class3 => 3,
            Self::Class4 => 4,
            Self::Class5 => 5,
        }
    }

    /// The class of a number.
    ///
    /// # Errors
    /// Not 1 to 5.
    #[inline]
    pub fn from_number(number: u8) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|class| class.number() == number)
            .ok_or(Error::NotApplicable {
                field: "soil class",
                reason: "give 1 to 5, the class of material of IBC Table 1806.2",
            })
    }

    /// What it is.
    #[inline]
    pub const fn description(self) -> &'static str {
        match self {
            Self::Class1 => "crystalline bedrock",
            Self::Class2 => "sedimentary and foliated rock",
            Self::Class3 => "sandy gravel and gravel (GW, GP)",
            Self::Class4 => {
                "sand, silty sand, clayey sand, silty gravel, clayey gravel (SW, SP, SM, SC, GM, GC)"
            }
            Self::Class5 => {
                "clay, sandy clay, silty clay, clayey silt, silt, sandy silt (CL, ML, MH, CH)"
            }
        }
    }

    /// Allowable lateral bearing per depth below grade, tabular.
    #[inline]
    pub fn lateral_bearing(self) -> LateralBearing {
        LateralBearing(psf_per_ft(match self {
            Self::Class1 => 1200.0,
            Self::Class2 => 400.0,
            Self::Class3 => 200.0,
            Self::Class4 => 150.0,
            Self::Class5 => 100.0,
        }))
    }

    /// Allowable vertical foundation pressure, tabular.
    #[inline]
    pub fn vertical_pressure(self) -> Pressure {
        psf(match self {
            Self::Class1 => 12_000.0,
            Self::Class2 => 4_000.0,
            Self::Class3 => 3_000.0,
            Self::Class4 => 2_000.0,
            Self::Class5 => 1_500.0,
        })
    }
}

impl core::fmt::Display for SoilClass {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.description())
    }
}

/// Allowable lateral soil bearing per depth below grade, allowable-stress
/// level, without any increase.
///
/// A type of its own because a unit weight has the same dimension. A pressure
/// in its place, so that the depth would be counted twice, does not compile:
///
/// ```compile_fail
/// use groundline::{ground::LateralBearing, units::psf};
/// let s1 = LateralBearing::new(psf(399.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct LateralBearing(ForcePerVolume);

impl LateralBearing {
    /// A value of an engineer or a report.
    ///
    /// # Errors
    /// Outside 5 to 10 000 psf/ft.
    #[inline]
    pub fn new(per_depth: ForcePerVolume) -> Result<Self, Error> {
        within(
            "lateral bearing",
            per_depth,
            psf_per_ft(5.0),
            psf_per_ft(10_000.0),
        )
        .map(Self)
    }

    /// The value.
    #[inline]
    pub const fn per_depth(self) -> ForcePerVolume {
        self.0
    }
}

/// The ground a post is set in.
///
/// ```
/// use groundline::{ground::{Ground, SoilClass}, units::inch};
/// let ground = Ground::presumptive(SoilClass::Class4)
///     .as_isolated_pole()
///     .discounting_top(inch(12.0))?;
/// # let _ = ground;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    class: Option<SoilClass>,
    lateral: LateralBearing,
    vertical: Option<Pressure>,
    /// Is the vertical pressure that of the table?
    tabular_vertical: bool,
    isolated_pole: bool,
    both_increases: bool,
    discounted_top: Length,
}

impl Ground {
    /// The presumptive values of a class of material.
    #[inline]
    pub fn presumptive(class: SoilClass) -> Self {
        Self {
            class: Some(class),
            lateral: class.lateral_bearing(),
            vertical: Some(class.vertical_pressure()),
            tabular_vertical: true,
            isolated_pole: false,
            both_increases: false,
            discounted_top: ft(0.0),
        }
    }

    /// An engineer's lateral bearing; without a vertical pressure, vertical
    /// bearing is not checked.
    #[inline]
    pub fn given(lateral: LateralBearing) -> Self {
        Self {
            class: None,
            lateral,
            vertical: None,
            tabular_vertical: false,
            isolated_pole: false,
            both_increases: false,
            discounted_top: ft(0.0),
        }
    }

    /// With another lateral bearing, an engineer's; all else stays, but the
    /// ground is of no presumptive class then.
    #[must_use]
    #[inline]
    pub const fn with_lateral(self, lateral: LateralBearing) -> Self {
        Self {
            class: None,
            lateral,
            ..self
        }
    }

    /// With an allowable vertical foundation pressure.
    ///
    /// # Errors
    /// Outside 100 to 100 000 psf.
    #[inline]
    pub fn with_vertical_pressure(self, pressure: Pressure) -> Result<Self, Error> {
        let pressure = within("vertical pressure", pressure, psf(100.0), psf(100_000.0))?;
        Ok(Self {
            vertical: Some(pressure),
            tabular_vertical: self.tabular_vertical && self.vertical == Some(pressure),
            ..self
        })
    }

    /// Doubles the lateral bearing as for an isolated pole (1806.3.4): only
    /// where ½ in (13 mm) of short-term movement at the surface does no harm.
    #[must_use]
    #[inline]
    pub const fn as_isolated_pole(self) -> Self {
        Self {
            isolated_pole: true,
            ..self
        }
    }

    /// Allows doubling and the one-third increase together.
    #[must_use]
    #[inline]
    pub const fn allowing_both_increases(self) -> Self {
        Self {
            both_increases: true,
            ..self
        }
    }

    /// Leaves a top layer out: frozen and thawed, loose fill, scour. The post
    /// stands free through it, and depth for lateral pressure is counted from
    /// its bottom, as if it were gone. The code does not ask for this.
    ///
    /// # Errors
    /// Outside 0 to 10 ft.
    #[inline]
    pub fn discounting_top(self, thickness: Length) -> Result<Self, Error> {
        let discounted_top = size_within("discounted top layer", thickness, ft(0.0), ft(10.0))?;
        Ok(Self {
            discounted_top,
            ..self
        })
    }

    /// The class, if presumptive.
    #[inline]
    pub const fn class(&self) -> Option<SoilClass> {
        self.class
    }
    /// Lateral bearing without any increase: of the table, or as given.
    #[inline]
    pub const fn lateral(&self) -> LateralBearing {
        self.lateral
    }
    /// Allowable vertical foundation pressure, if one is known.
    #[inline]
    pub const fn vertical(&self) -> Option<Pressure> {
        self.vertical
    }
    /// Where the vertical pressure comes from: the table, where its value stands.
    #[inline]
    pub(crate) const fn vertical_source(&self) -> &'static Citation {
        if self.tabular_vertical {
            &source::IBC_1806_2
        } else {
            &source::GIVEN
        }
    }
    /// Is lateral bearing doubled?
    #[inline]
    pub const fn is_isolated_pole(&self) -> bool {
        self.isolated_pole
    }
    /// The layer left out.
    #[inline]
    pub const fn discounted_top(&self) -> Length {
        self.discounted_top
    }

    /// F, the product of the increases that apply with a family of load
    /// combinations.
    ///
    /// # Errors
    /// Both increases without [`Ground::allowing_both_increases`].
    #[inline]
    pub fn lateral_increase(&self, combination: AllowableStress) -> Result<f64, Error> {
        let pole = if self.isolated_pole { 2.0 } else { 1.0 };
        let third = combination.soil_increase();
        if self.isolated_pole && third > 1.0 && !self.both_increases {
            return Err(Error::NotApplicable {
                field: "lateral bearing",
                reason: "isolated-pole doubling and the one-third increase together are not \
                         known to be allowed; drop one, or ask for both explicitly",
            });
        }
        Ok(pole * third)
    }

    /// The cautions this ground brings.
    pub fn cautions(&self) -> Cautions {
        Cautions::default()
            .with(Caution::BuriedUtilities)
            .with(Caution::Frost)
            .with(Caution::Slope)
            .with(Caution::RetainedSoil)
            .with_if(
                self.class.is_some() || self.tabular_vertical,
                Caution::PresumptiveSoil,
            )
            .with_if(self.isolated_pole, Caution::IsolatedPole)
    }

    /// Writes the values taken, with the increases asked for, and their product
    /// where [`Ground::lateral_increase`] lets both be taken at once.
    pub fn write(&self, combination: AllowableStress, sheet: &mut Worksheet) {
        sheet.section("Ground");
        if let Some(class) = self.class {
            sheet.remark(format!(
                "Class {} of material: {}.",
                class.number(),
                class.description()
            ));
        }
        let step = Step::given(
            "S",
            "allowable lateral bearing per depth, tabular",
            self.lateral.per_depth(),
        );
        sheet.push(if self.class.is_some() {
            step.cite(&source::IBC_1806_2)
        } else {
            step
        });
        let pole = if self.isolated_pole { 2.0 } else { 1.0 };
        sheet.push(
            Step::given_number("Fp", "isolated-pole doubling, 1 unless asked for", pole)
                .cite(&source::IBC_1806_3_4),
        );
        let third = Step::given_number(
            "Ft",
            "one-third increase, with the alternative combinations only",
            combination.soil_increase(),
        );
        sheet.push(if combination.soil_increase() > 1.0 {
            third.cite(&source::IBC_1605_3_2)
        } else {
            third
        });
        match self.lateral_increase(combination) {
            Ok(product) => {
                sheet.push(
                    Step::computed_number("F", "product of the increases", "Fp*Ft", product)
                        .with_number("Fp", pole)
                        .with_number("Ft", combination.soil_increase()),
                );
            }
            Err(_) => {
                sheet.remark(
                    "Fp and Ft are not known to be allowed together: without that being asked for \
                     there is no F.",
                );
            }
        }
        if self.discounted_top > ft(0.0) {
            sheet.push(Step::given(
                "t",
                "top layer left out; depths for pressure count from its bottom",
                self.discounted_top,
            ));
        }
    }
}
