//! Layers of ground on the wire.

use super::reading::{Path, Problems, Steps};
use super::record::{alternatives, records};
use super::value::{Size, UnitWeight};
use crate::profile::{BearingSurface, Layer, Profile, Soil, Stiffness};
use crate::units::{Angle, ForcePerVolume, Length, Pressure};

records! {
    /// A subgrade modulus, the same at every depth.
    ConstantStiffnessSpec {
        /// ks.
        ks: ForcePerVolume,
    }
    /// A stiffness that grows with depth.
    GrowingStiffnessSpec {
        /// nh.
        nh: ForcePerVolume,
    }
    /// The modulus of the soil.
    ModulusSpec {
        /// Es.
        es: Pressure,
        /// Poisson's ratio.
        poisson: f64,
    }
    /// A soil.
    SoilSpec {
        /// Unit weight.
        unit_weight: UnitWeight,
        /// Saturated unit weight, below water; the same unless said.
        saturated_weight: Option<UnitWeight>,
        /// Angle of friction.
        friction_angle: Option<Angle>,
        /// Effective cohesion.
        cohesion: Option<Pressure>,
        /// Undrained strength.
        undrained_strength: Option<Pressure>,
        /// Stiffness against a post.
        stiffness: Option<StiffnessSpec>,
    }
    /// A layer.
    LayerSpec {
        /// Thickness.
        thickness: Length,
        /// Its soil.
        soil: SoilSpec,
    }
    /// Layers of ground from grade down.
    ProfileSpec {
        /// The layers.
        layers: Vec<LayerSpec>,
        /// Depth of the water; none unless said.
        water: Option<Length>,
        /// Top layer that does not count; none unless said.
        discounted_top: Option<Size>,
        /// Soil of a backfill ring the post bears against.
        backfill: Option<SoilSpec>,
    }
}

alternatives! {
    /// Stiffness of a soil against a post.
    StiffnessSpec {
        /// The same at every depth.
        "constant" => Constant(ConstantStiffnessSpec),
        /// Growing with depth.
        "growing" => Growing(GrowingStiffnessSpec),
        /// By the modulus of the soil.
        "modulus" => Modulus(ModulusSpec),
    }
}

/// Where the faults of a layer stand.
const LAYER: [(&str, &str); 2] = [("layer thickness", "thickness"), ("soil strength", "soil")];

impl StiffnessSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Stiffness> {
        let made = match self {
            Self::Constant(constant) => Stiffness::constant(constant.ks),
            Self::Growing(growing) => Stiffness::growing(growing.nh),
            Self::Modulus(modulus) => Stiffness::modulus(modulus.es, modulus.poisson),
        };
        problems.take(at, made)
    }
}

impl SoilSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Soil> {
        let soil = Soil::new(self.unit_weight.0);
        let soil = problems.take(&at.field("unit_weight"), soil)?;
        let mut steps = Steps::new(soil, at, problems);
        steps.step("saturated_weight", self.saturated_weight, |soil, weight| {
            soil.with_saturated_weight(weight.0)
        });
        steps.step(
            "friction_angle",
            self.friction_angle,
            Soil::with_friction_angle,
        );
        steps.step("cohesion", self.cohesion, Soil::with_cohesion);
        steps.step(
            "undrained_strength",
            self.undrained_strength,
            Soil::with_undrained_strength,
        );
        steps.build(
            "stiffness",
            self.stiffness.as_ref(),
            StiffnessSpec::build,
            Soil::with_stiffness,
        );
        steps.done()
    }
}

impl ProfileSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Profile> {
        let place = at.field("layers");
        let mut layers = Vec::new();
        for (index, layer) in self.layers.iter().enumerate() {
            let place = place.place(index);
            let soil = layer.soil.build(&place.field("soil"), problems);
            layers.push(soil.and_then(|soil| {
                let layer = Layer::new(layer.thickness, soil);
                problems.take_by(&place, &LAYER, layer)
            }));
        }
        let backfill = match &self.backfill {
            Some(soil) => soil.build(&at.field("backfill"), problems).map(Some),
            None => Some(None),
        };
        let profile = Profile::new(layers.into_iter().collect::<Option<_>>()?);
        let mut profile = problems.take(&place, profile)?;
        if let Some(water) = self.water {
            let made = profile.with_water_at(water);
            profile = problems.take(&at.field("water"), made)?;
        }
        if let Some(Size(top)) = self.discounted_top {
            let made = profile.discounting_top(top);
            profile = problems.take(&at.field("discounted_top"), made)?;
        }
        if let Some(soil) = backfill? {
            let made = profile.borne_by(BearingSurface::Backfill(soil));
            profile = problems.take(&at.field("backfill"), made)?;
        }
        Some(profile)
    }
}
