//! The wind on the wire.

use super::reading::{Path, Problems, Steps};
use super::record::{alternatives, names, records};
use super::site_codes::{AsNzsSpec, EnSpec};
use crate::limit_state::{AllowableStress, Characteristic, LimitState, Strength, Ultimate};
use crate::units::{Length, Pressure, Velocity, mph};
use crate::wind::{
    AsNzsSite, AsceSite, BasicWindSpeed, ColumnGap, DirectPressure, EccentricCase, Edition, EnSite,
    Exposure, Feature, HandOver, MinimumCase, PrintedConstants, ResultantHeight, ReturnPeriod,
    RiskCategory, ShortReturn, Side, Topography, WallOptions, WindCode,
};

names! {
    Edition {
        "7-10" => Edition::Asce7_10,
        "7-16" => Edition::Asce7_16,
        "7-22" => Edition::Asce7_22,
    }
    Exposure { "B" => Exposure::B, "C" => Exposure::C, "D" => Exposure::D, }
    Feature {
        "ridge" => Feature::Ridge,
        "escarpment" => Feature::Escarpment,
        "hill" => Feature::Hill,
    }
    Side { "upwind" => Side::Upwind, "downwind" => Side::Downwind, }
    ColumnGap { "interpolate" => ColumnGap::Interpolate, "refuse" => ColumnGap::Refuse, }
    ShortReturn {
        "no_reduction" => ShortReturn::NoReduction,
        "interpolate" => ShortReturn::Interpolate,
        "first_row" => ShortReturn::FirstRow,
    }
    ResultantHeight {
        "never_below_grounded" => ResultantHeight::NeverBelowGrounded,
        "as_printed" => ResultantHeight::AsPrinted,
    }
    EccentricCase {
        "short_runs" => EccentricCase::ShortRuns,
        "every_run" => EccentricCase::EveryRun,
        "one_base" => EccentricCase::OneBase,
    }
    MinimumCase {
        "own_case" => MinimumCase::OwnCase,
        "every_strip" => MinimumCase::EveryStrip,
    }
    RiskCategory {
        "I" => RiskCategory::I,
        "II" => RiskCategory::II,
        "III" => RiskCategory::III,
        "IV" => RiskCategory::IV,
    }
    SpeedLevel {
        "strength" => SpeedLevel::Strength,
        "allowable_stress" => SpeedLevel::AllowableStress,
    }
    HandOver { "guarded" => HandOver::Guarded, "as_printed" => HandOver::AsPrinted, }
    PrintedConstants {
        "customary" => PrintedConstants::Customary,
        "si" => PrintedConstants::Si,
    }
    PressureLevel {
        "strength" => PressureLevel::Strength,
        "allowable_stress" => PressureLevel::AllowableStress,
        "characteristic" => PressureLevel::Characteristic,
        "ultimate" => PressureLevel::Ultimate,
    }
}

/// The level of a wind speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum SpeedLevel {
    /// Strength level: maps of ASCE 7-10 and later. The default.
    #[default]
    Strength,
    /// Allowable-stress level, V_asd: maps before 2010.
    AllowableStress,
}

/// The limit state a pressure of the user's is stated in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum PressureLevel {
    /// Strength level of ASCE 7.
    Strength,
    /// Allowable-stress level, basic combinations.
    AllowableStress,
    /// Characteristic, EN 1991.
    Characteristic,
    /// Ultimate, AS/NZS 1170.
    Ultimate,
}

records! {
    /// A hill, ridge or escarpment (ASCE 7 figure 26.8-1).
    TopographySpec {
        /// What rises.
        feature: Feature,
        /// H.
        height: Length,
        /// Lh.
        half_length: Length,
        /// x, from the crest.
        distance: Length,
        /// On which side of the crest the fence stands.
        side: Side,
    }
    /// A site of ASCE 7.
    AsceSpec {
        /// 7-10, 7-16 or 7-22.
        edition: Edition,
        /// Basic wind speed: 3-second gust at 33 ft in exposure C.
        speed: Velocity,
        /// Level of the speed: strength (maps of ASCE 7-10 and later) unless said, or
        /// allowable_stress (V_asd, maps before 2010), which is divided by the root of 0.6.
        speed_level: Option<SpeedLevel>,
        /// Risk category of the map the speed was read from; changes no number.
        risk_category: Option<RiskCategory>,
        /// Return period of the speed in years, 300 to 100 000, where it is not that of
        /// the risk category; changes no number.
        return_period: Option<f64>,
        /// Exposure category.
        exposure: Exposure,
        /// Kzt as given; 1 unless said. Instead of topography.
        kzt: Option<f64>,
        /// Kzt by the formula; instead of kzt.
        topography: Option<TopographySpec>,
        /// Ground elevation above sea level, for Ke; Ke is 1 unless said.
        elevation: Option<Length>,
        /// G; 0.85 unless said.
        gust_factor: Option<f64>,
        /// Minimum design pressure; 16 psf unless said.
        minimum_pressure: Option<Pressure>,
        /// How the minimum is applied: own_case unless said, a uniform load case of its
        /// own; or every_strip, a floor under each strip of every case.
        minimum_case: Option<MinimumCase>,
        /// Which printed constants; customary, the larger loads, unless said.
        constants: Option<PrintedConstants>,
        /// A wall between the columns of B/s; interpolate unless said.
        column_gap: Option<ColumnGap>,
        /// A return corner shorter than 0.3 s; no_reduction unless said.
        short_return: Option<ShortReturn>,
        /// Height of the resultant; never_below_grounded unless said.
        resultant_height: Option<ResultantHeight>,
        /// Case B: short_runs unless said, spread linearly on runs with B/s up to 5; or
        /// every_run, or one_base, where it is torsion of one base and not shared.
        eccentric_case: Option<EccentricCase>,
        /// B/s up to which a run is short for Case B, 2 to 1 000; 5 unless said.
        short_runs_up_to: Option<f64>,
        /// Between the figures of solid and of open fences; guarded unless said.
        hand_over: Option<HandOver>,
    }
    /// A pressure of your own.
    PressureSpec {
        /// Net pressure on the fence.
        pressure: Pressure,
        /// The limit state it is stated in.
        level: PressureLevel,
        /// Height of the resultant as a share of the panel height; 0.55 unless given.
        acting_at: Option<f64>,
    }
}

alternatives! {
    /// Where the wind comes from.
    SiteSpec {
        /// ASCE 7.
        "asce7" => Asce(AsceSpec),
        /// EN 1991-1-4.
        "en1991" => En(EnSpec),
        /// AS/NZS 1170.2.
        "asnzs1170" => AsNzs(AsNzsSpec),
        /// A pressure of your own.
        "pressure" => Pressure(PressureSpec),
    }
}

impl AsceSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<AsceSite> {
        let speed = match self.speed_level.unwrap_or_default() {
            SpeedLevel::Strength => BasicWindSpeed::strength_level(self.speed),
            SpeedLevel::AllowableStress => BasicWindSpeed::from_allowable_stress(self.speed),
        };
        let speed = problems.take(&at.field("speed"), speed);
        // Of a speed that cannot be, the rest is read all the same.
        let sound = speed.is_some();
        let speed = speed.or_else(|| BasicWindSpeed::strength_level(mph(100.0)).ok())?;
        let mut options = WallOptions::default();
        if let Some(choice) = self.column_gap {
            options = options.column_gap(choice);
        }
        if let Some(choice) = self.short_return {
            options = options.short_return(choice);
        }
        if let Some(choice) = self.resultant_height {
            options = options.resultant_height(choice);
        }
        if let Some(choice) = self.eccentric_case {
            options = options.eccentric_case(choice);
        }
        if let Some(choice) = self.hand_over {
            options = options.hand_over(choice);
        }
        if let Some(choice) = self.minimum_case {
            options = options.minimum_case(choice);
        }
        if let Some(ratio) = self.short_runs_up_to {
            let place = at.field("short_runs_up_to");
            let made = problems.take(&place, options.short_runs_up_to(ratio));
            options = made.unwrap_or(options);
        }
        let mut site = AsceSite::new(self.edition, speed, self.exposure).with_options(options);
        if let Some(category) = self.risk_category {
            site = site.with_risk_category(category);
        }
        if let Some(years) = self.return_period {
            let place = at.field("return_period");
            if let Some(period) = problems.take(&place, ReturnPeriod::of_years(years)) {
                site = site.with_return_period(period);
            }
        }
        if let Some(constants) = self.constants {
            site = site.with_constants(constants);
        }
        let mut steps = Steps::new(site, at, problems);
        steps.step("kzt", self.kzt, AsceSite::with_topographic_factor);
        steps.step("elevation", self.elevation, AsceSite::at_elevation);
        steps.step("gust_factor", self.gust_factor, AsceSite::with_gust_factor);
        steps.step(
            "minimum_pressure",
            self.minimum_pressure,
            AsceSite::with_minimum_pressure,
        );
        steps.build(
            "topography",
            self.topography.as_ref(),
            |topography, place, problems| {
                let alone = self.kzt.is_none();
                if !alone {
                    problems.add(place, None, "give either kzt or topography");
                }
                topography.build(place, problems).filter(|_| alone)
            },
            |site, topography| Ok(site.with_topography(topography)),
        );
        steps.done().filter(|_| sound)
    }
}

impl TopographySpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Topography> {
        let made = Topography::new(
            self.feature,
            self.height,
            self.half_length,
            self.distance,
            self.side,
        );
        let names = [
            ("height of the hill", "height"),
            ("half length of the hill", "half_length"),
            ("distance from the crest", "distance"),
        ];
        problems.take_by(at, &names, made)
    }
}

impl PressureSpec {
    /// With the limit state as a type.
    pub(super) fn build<L: LimitState>(
        &self,
        level: L,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<DirectPressure<L>> {
        let pressure = DirectPressure::new(self.pressure, level);
        let pressure = problems.take(&at.field("pressure"), pressure)?;
        match self.acting_at {
            Some(share) => problems.take(&at.field("acting_at"), pressure.acting_at(share)),
            None => Some(pressure),
        }
    }
}

/// A site with its code and limit state as a type.
#[derive(Debug)]
pub(super) enum BuiltSite {
    Asce(AsceSite),
    En(EnSite),
    AsNzs(AsNzsSite),
    Strength(DirectPressure<Strength>),
    Allowable(DirectPressure<AllowableStress>),
    Characteristic(DirectPressure<Characteristic>),
    Ultimate(DirectPressure<Ultimate>),
}

impl BuiltSite {
    /// The limit state of its pressures.
    pub(super) fn level(&self) -> &'static str {
        match self {
            Self::Asce(site) => site.level().name(),
            Self::En(site) => site.level().name(),
            Self::AsNzs(site) => site.level().name(),
            Self::Strength(site) => site.level().name(),
            Self::Allowable(site) => site.level().name(),
            Self::Characteristic(site) => site.level().name(),
            Self::Ultimate(site) => site.level().name(),
        }
    }
}

impl SiteSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<BuiltSite> {
        match self {
            Self::Asce(asce) => asce.build(at, problems).map(BuiltSite::Asce),
            Self::En(site) => site.build(at, problems).map(BuiltSite::En),
            Self::AsNzs(site) => site.build(at, problems).map(BuiltSite::AsNzs),
            Self::Pressure(pressure) => match pressure.level {
                PressureLevel::Strength => pressure
                    .build(Strength, at, problems)
                    .map(BuiltSite::Strength),
                PressureLevel::AllowableStress => pressure
                    .build(AllowableStress::Basic, at, problems)
                    .map(BuiltSite::Allowable),
                PressureLevel::Characteristic => pressure
                    .build(Characteristic, at, problems)
                    .map(BuiltSite::Characteristic),
                PressureLevel::Ultimate => pressure
                    .build(Ultimate, at, problems)
                    .map(BuiltSite::Ultimate),
            },
        }
    }
}
