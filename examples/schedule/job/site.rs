//! The site: wind by ASCE 7, or a pressure given.

use super::fields::Table;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::units::{Measurable, Ratio};
use groundline::wind::{
    AsceSite, BasicWindSpeed, DirectPressure, EccentricCase, Edition, Exposure, Feature,
    ReturnPeriod, RiskCategory, Side, Topography, WallOptions,
};

/// The wind, at the level it is stated at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Site {
    Asce(AsceSite),
    GivenStrength(DirectPressure<Strength>),
    GivenAllowable(DirectPressure<AllowableStress>),
}

const CODES: [(&str, Option<Edition>); 4] = [
    ("ASCE 7-22", Some(Edition::Asce7_22)),
    ("ASCE 7-16", Some(Edition::Asce7_16)),
    ("ASCE 7-10", Some(Edition::Asce7_10)),
    ("pressure", None),
];

/// Reads `[site]`.
pub(crate) fn read(site: &Table<'_>) -> Option<Site> {
    let made = match site.choice("code", &CODES, true)? {
        Some(edition) => asce(site, edition).map(Site::Asce),
        None => given(site),
    };
    site.finish();
    made
}

fn given(site: &Table<'_>) -> Option<Site> {
    let pressure = site.required("pressure");
    let levels = [("strength", true), ("allowable stress", false)];
    let strength = site.choice("level", &levels, true);
    let share = site.quantity_or::<Ratio>("acts_at", "55 %");
    let (pressure, strength, share) = (pressure?, strength?, share?.si());
    if strength {
        let made = site.take("pressure", DirectPressure::new(pressure, Strength))?;
        site.take("acts_at", made.acting_at(share))
            .map(Site::GivenStrength)
    } else {
        let level = AllowableStress::Basic;
        let made = site.take("pressure", DirectPressure::new(pressure, level))?;
        site.take("acts_at", made.acting_at(share))
            .map(Site::GivenAllowable)
    }
}

fn asce(site: &Table<'_>, edition: Edition) -> Option<AsceSite> {
    let speed = site
        .required("speed")
        .and_then(|speed| site.take("speed", BasicWindSpeed::strength_level(speed)));
    let letters = [("B", Exposure::B), ("C", Exposure::C), ("D", Exposure::D)];
    let exposure = site.choice("exposure", &letters, true);
    let case_b = [
        (EccentricCase::ShortRuns.name(), EccentricCase::ShortRuns),
        (EccentricCase::EveryRun.name(), EccentricCase::EveryRun),
        (EccentricCase::OneBase.name(), EccentricCase::OneBase),
    ];
    let case_b = site.choice("case_b", &case_b, false);
    let categories = RiskCategory::ALL.map(|category| (category.name(), category));
    let category = site
        .has("risk_category")
        .then(|| site.choice("risk_category", &categories, true));
    let period = site.quantity::<Ratio>("return_period");
    let no_period = site.has("return_period") && period.is_none();
    let factor = site.quantity_or::<Ratio>("topographic_factor", "1");
    let gust = site.quantity_or::<Ratio>("gust_factor", "0.85");
    let least = site.quantity_or("minimum_pressure", "16 psf");
    let elevation = site.quantity("elevation");
    let no_elevation = site.has("elevation") && elevation.is_none();
    let hill = site.table("hill");
    let feature = hill.is_given().then(|| hill_of(&hill));
    if feature.is_some() && site.has("topographic_factor") {
        site.refuse(
            "topographic_factor",
            "leave it out, or [site.hill]: one of them",
        );
    }
    if no_elevation || no_period {
        return None;
    }
    let options = WallOptions::default().eccentric_case(case_b?);
    let mut made = AsceSite::new(edition, speed?, exposure?).with_options(options);
    made = site.take(
        "topographic_factor",
        made.with_topographic_factor(factor?.si()),
    )?;
    made = site.take("gust_factor", made.with_gust_factor(gust?.si()))?;
    made = site.take("minimum_pressure", made.with_minimum_pressure(least?))?;
    if let Some(category) = category {
        made = made.with_risk_category(category?);
    }
    if let Some(years) = period {
        let period = site.take("return_period", ReturnPeriod::of_years(years.si()))?;
        made = made.with_return_period(period);
    }
    if let Some(elevation) = elevation {
        made = site.take("elevation", made.at_elevation(elevation))?;
    }
    match feature {
        Some(feature) => Some(made.with_topography(feature?)),
        None => Some(made),
    }
}

fn hill_of(hill: &Table<'_>) -> Option<Topography> {
    let shapes = [
        ("ridge", Feature::Ridge),
        ("escarpment", Feature::Escarpment),
        ("hill", Feature::Hill),
    ];
    let shape = hill.choice("shape", &shapes, true);
    let sides = [("upwind", Side::Upwind), ("downwind", Side::Downwind)];
    let side = hill.choice("side", &sides, true);
    let height = hill.required("height");
    let half = hill.required("half_length");
    let distance = hill.required("distance");
    hill.finish();
    let fields = [
        ("half length of the hill", "half_length"),
        ("distance from the crest", "distance"),
    ];
    let made = Topography::new(shape?, height?, half?, distance?, side?);
    hill.take_by("height", &fields, made)
}
