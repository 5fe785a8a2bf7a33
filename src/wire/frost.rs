//! How deep frost goes and what it lifts with, on the wire.

use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::Size;
use crate::caution::{Caution, Cautions};
use crate::source::{self, Citation};
use crate::units::{Force, Length, Pressure, lb};
use crate::uplift::{
    Adfreeze, FreezingIndex, FrostBalance, FrozenGround, LatentHeat, ThermalConductivity,
    berggren_lambda, frost_depth,
};

names! {
    FrozenGround {
        "fine_on_wood_or_concrete" => FrozenGround::FineOnWoodOrConcrete,
        "fine_on_steel" => FrozenGround::FineOnSteel,
        "gravel_on_steel" => FrozenGround::GravelOnSteel,
    }
}

records! {
    /// How deep frost goes (Stefan, or modified Berggren with lambda).
    FrostDepthRequest {
        /// Thermal conductivity, W/(m·K).
        conductivity_watt_per_m_k: f64,
        /// Surface factor n.
        surface_factor: f64,
        /// Air freezing index, °C·days.
        freezing_index_celsius_days: f64,
        /// Latent heat, MJ/m³.
        latent_heat_mj_per_cu_m: f64,
        /// λ of the modified Berggren formula; 1, Stefan's, unless said.
        lambda: Option<f64>,
        /// Stefan number μ; with thermal_ratio instead of lambda.
        stefan_number: Option<f64>,
        /// Thermal ratio α; with stefan_number instead of lambda.
        thermal_ratio: Option<f64>,
    }
    /// A depth of frost.
    FrostDepthResult {
        /// Depth.
        depth: Length,
    }
    /// What frost lifts with against what holds.
    FrostBalanceRequest {
        /// Depth of the frost.
        frost_depth: Size,
        /// What freezes to what; instead of stress.
        ground: Option<FrozenGround>,
        /// Adfreeze stress; instead of ground.
        stress: Option<Pressure>,
        /// Perimeter gripped.
        perimeter: Size,
        /// Depth of the toe.
        depth: Size,
        /// Weight and load that hold it down, factored.
        dead: Force,
        /// Friction below the frost, allowable; none unless said.
        anchorage: Option<Force>,
    }
    /// Does it stay?
    FrostBalanceResult {
        /// What lifts.
        lifts: Force,
        /// What holds.
        holds: Force,
        /// The toe ends in the frost.
        ends_in_frost: bool,
        /// Does it stay?
        stays: bool,
        /// What helps, where it does not.
        remedy: Option<String>,
    }
}

impl Calculation for FrostDepthRequest {
    const CALCULATE: &'static str = "frost_depth";
    type Result = FrostDepthResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.depth(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<FrostDepthResult>> {
        let depth = self.depth(at, problems)?;
        let cautions = Cautions::default().with(Caution::FrostChecked);
        let sources: [&'static Citation; 1] = [&source::FROST_DEPTH];
        Some(Done::new(FrostDepthResult { depth }, cautions, sources))
    }
}

impl FrostDepthRequest {
    fn depth(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Length> {
        let place = at.field("conductivity_watt_per_m_k");
        let made = ThermalConductivity::watt_per_m_k(self.conductivity_watt_per_m_k);
        let conductivity = problems.take(&place, made);
        let place = at.field("freezing_index_celsius_days");
        let made = FreezingIndex::celsius_days(self.freezing_index_celsius_days);
        let index = problems.take(&place, made);
        let place = at.field("latent_heat_mj_per_cu_m");
        let made = LatentHeat::mj_per_cu_m(self.latent_heat_mj_per_cu_m);
        let latent = problems.take(&place, made);
        let lambda = match (self.lambda, self.stefan_number, self.thermal_ratio) {
            (lambda, None, None) => Some(lambda.unwrap_or(1.0)),
            (None, Some(mu), Some(alpha)) => {
                let names = [
                    ("Stefan number", "stefan_number"),
                    ("thermal ratio", "thermal_ratio"),
                ];
                problems.take_by(at, &names, berggren_lambda(mu, alpha))
            }
            _ => {
                let allowed = "give either lambda, or stefan_number and thermal_ratio";
                problems.add(at, None, allowed);
                None
            }
        };
        let made = frost_depth(conductivity?, self.surface_factor, index?, latent?, lambda?);
        problems.take_by(
            at,
            &[("surface factor n", "surface_factor"), ("lambda", "lambda")],
            made,
        )
    }
}

impl FrostBalanceRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Adfreeze> {
        let stress = match (self.ground, self.stress) {
            (Some(ground), None) => ground.stress(),
            (None, Some(stress)) => stress,
            _ => {
                problems.add(at, None, "give either ground or stress");
                return None;
            }
        };
        let names = [
            ("adfreeze stress", "stress"),
            ("perimeter", "perimeter"),
            ("frost depth", "frost_depth"),
        ];
        let made = Adfreeze::new(stress, self.perimeter.0, self.frost_depth.0);
        problems.take_by(at, &names, made)
    }

    fn balance(&self, at: &Path<'_>, problems: &mut Problems) -> Option<FrostBalance> {
        let adfreeze = self.build(at, problems)?;
        let anchorage = self.anchorage.unwrap_or(lb(0.0));
        let names = [
            ("depth", "depth"),
            ("dead load", "dead"),
            ("anchorage", "anchorage"),
        ];
        let made = adfreeze.balance(self.depth.0, self.dead, anchorage);
        problems.take_by(at, &names, made)
    }
}

impl Calculation for FrostBalanceRequest {
    const CALCULATE: &'static str = "frost_balance";
    type Result = FrostBalanceResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.balance(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<FrostBalanceResult>> {
        let balance = self.balance(at, problems)?;
        let result = FrostBalanceResult {
            lifts: balance.lifts,
            holds: balance.holds,
            ends_in_frost: balance.ends_in_frost,
            stays: balance.stays(),
            remedy: balance.remedy().map(str::to_owned),
        };
        let source = if self.ground.is_some() {
            FrozenGround::source()
        } else {
            &source::GIVEN
        };
        let cautions = Cautions::default().with(Caution::FrostChecked);
        Some(Done::new(result, cautions, [source]))
    }
}
