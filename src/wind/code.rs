//! What a wind code is asked: the outline of a wall in, pressures out.

use super::patterns::{Strip, WallPressures, WindCase};
use super::wall::{WallEnds, WallShape};
use super::wall_wind::WallWind;
use crate::caution::Cautions;
use crate::error::Error;
use crate::limit_state::LimitState;
use crate::source::Citation;
use crate::step::Worksheet;
use crate::units::Length;

pub(super) mod sealed {
    /// Keeps [`super::WindCode`] to the codes of this crate.
    pub trait Sealed {}
}

/// A wind code at a site: it turns the outline of a wall into pressures, and
/// writes how.
///
/// Implemented by [`AsceSite`](super::AsceSite), [`EnSite`](super::EnSite),
/// [`AsNzsSite`](super::AsNzsSite) and [`DirectPressure`](super::DirectPressure).
pub trait WindCode: Copy + core::fmt::Debug + PartialEq + sealed::Sealed {
    /// The limit state its pressures are at.
    type Level: LimitState;
    /// What it keeps to show its working.
    #[doc(hidden)]
    type Working: Copy + core::fmt::Debug + PartialEq;

    /// The limit state.
    fn level(&self) -> Self::Level;

    /// Document and edition.
    fn document(&self) -> &'static str;

    /// What this code calls a case.
    fn case_name(&self, case: WindCase) -> &'static str;

    /// The pressures on a wall.
    ///
    /// # Errors
    /// A wall that the code, or an option, does not cover.
    #[doc(hidden)]
    fn pressures(
        &self,
        shape: &WallShape,
        ends: &WallEnds,
    ) -> Result<(WallPressures, Self::Working), Error>;

    /// Where the pressure of a zone comes from.
    #[doc(hidden)]
    fn clause(wall: &WallWind<Self>, case: WindCase, zone: usize) -> &'static Citation;

    /// The same site with its off-centre case spread along every run, however long; none
    /// where the code, or the site, has no other reading of it.
    #[doc(hidden)]
    fn with_off_centre_everywhere(&self) -> Option<Self> {
        None
    }

    /// The cautions of a wall.
    fn cautions(wall: &WallWind<Self>) -> Cautions;

    /// The heights the velocity pressure is taken at; where there is only one it
    /// stands twice.
    #[doc(hidden)]
    fn reference_heights(working: &Self::Working) -> [Length; 2];

    /// Writes the velocity pressure.
    #[doc(hidden)]
    fn write_site(wall: &WallWind<Self>, sheet: &mut Worksheet);

    /// Writes what all cases of a wall share.
    #[doc(hidden)]
    fn write_shape(wall: &WallWind<Self>, sheet: &mut Worksheet);

    /// Writes coefficient and pressure, as `p`, of a case without zones.
    #[doc(hidden)]
    fn write_uniform(wall: &WallWind<Self>, case: WindCase, sheet: &mut Worksheet);

    /// Writes what all zones of a case share.
    #[doc(hidden)]
    fn write_zones(wall: &WallWind<Self>, case: WindCase, sheet: &mut Worksheet);

    /// Writes coefficient and pressure of a zone, the pressure under the
    /// symbol given.
    #[doc(hidden)]
    fn write_zone(
        wall: &WallWind<Self>,
        case: WindCase,
        strip: &Strip,
        symbol: &'static str,
        sheet: &mut Worksheet,
    );

    /// Writes the height of the resultant, as `hr`.
    #[doc(hidden)]
    fn write_resultant(wall: &WallWind<Self>, sheet: &mut Worksheet);
}
