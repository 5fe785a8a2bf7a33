//! Layers over one another, water, and what the post bears against.

use super::soil::Soil;
use crate::error::{Error, size_within, within};
use crate::source;
use crate::units::{ForcePerVolume, Length, Measurable, Pressure, ft, kn_per_cu_m, m};

/// The unit weight of water, 1 000 kg/m³ × 9.806 65 m/s².
pub(crate) fn water() -> ForcePerVolume {
    kn_per_cu_m(9.806_65)
}

/// A soil of a thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    thickness: Length,
    soil: Soil,
}

impl Layer {
    /// A layer.
    ///
    /// # Errors
    /// Thickness outside 1 cm to 100 m; a soil without any strength.
    pub fn new(thickness: Length, soil: Soil) -> Result<Self, Error> {
        if !soil.has_strength() {
            return Err(Error::NotApplicable {
                field: "soil strength",
                reason: "give a friction angle or an undrained strength; it has neither",
            });
        }
        Ok(Self {
            thickness: size_within("layer thickness", thickness, m(0.01), m(100.0))?,
            soil,
        })
    }

    /// Its thickness.
    pub const fn thickness(&self) -> Length {
        self.thickness
    }
    /// Its soil.
    pub const fn soil(&self) -> &Soil {
        &self.soil
    }
}

/// What pushes back on the post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum BearingSurface {
    /// Undisturbed soil against the footing that fills the hole: the width is
    /// that of the hole.
    Undisturbed,
    /// A ring of backfill round the post, which gives before the soil does: its
    /// strength and stiffness hold at every depth, and the width is the post's.
    /// A ring stronger than the ground only passes the load on: ask the ground
    /// too, with the width of the hole ([`Profile::without_ring`]).
    Backfill(Soil),
}

/// The ground at a post.
///
/// ```
/// use groundline::{profile::*, units::*};
/// let fill = Soil::new(kn_per_cu_m(17.0))?.with_friction_angle(deg(28.0))?;
/// let clay = Soil::new(kn_per_cu_m(19.0))?.with_undrained_strength(kpa(60.0))?;
/// let ground = Profile::new(vec![Layer::new(m(0.5), fill)?, Layer::new(m(4.0), clay)?])?
///     .with_water_at(m(1.5))?;
/// assert_eq!(ground.depth(), m(4.5));
/// // 17 × 0.5 + 19 × 1.0 + (19 − 9.80665) × 0.5.
/// assert!((ground.effective_stress(m(2.0)).to(kpa) - 32.0967).abs() < 1e-4);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    layers: Vec<Layer>,
    water: Option<Length>,
    dead_top: Length,
    surface: BearingSurface,
}

impl Profile {
    /// Layers from grade downwards.
    ///
    /// # Errors
    /// No layer, or more than 100.
    pub fn new(layers: Vec<Layer>) -> Result<Self, Error> {
        if layers.is_empty() || layers.len() > 100 {
            return Err(Error::NotApplicable {
                field: "layers",
                reason: "give 1 to 100 layers",
            });
        }
        Ok(Self {
            layers,
            water: None,
            dead_top: m(0.0),
            surface: BearingSurface::Undisturbed,
        })
    }

    /// One soil to a depth of 100 m.
    ///
    /// # Errors
    /// As [`Layer::new`].
    pub fn uniform(soil: Soil) -> Result<Self, Error> {
        Self::new(vec![Layer::new(m(100.0), soil)?])
    }

    /// With a water table at a depth: soil below it is buoyant.
    ///
    /// # Errors
    /// Outside 0 to 1 000 m.
    pub fn with_water_at(self, depth: Length) -> Result<Self, Error> {
        let water = Some(within("depth of water", depth, m(0.0), m(1_000.0))?);
        Ok(Self { water, ..self })
    }

    /// With a top that resists nothing: frost, shrinkage, topsoil. It still
    /// weighs on what is below. Ground that may be eroded or dug away does not:
    /// leave it out of the layers and raise the load by as much.
    ///
    /// # Errors
    /// Outside 0 to 20 ft.
    pub fn discounting_top(self, depth: Length) -> Result<Self, Error> {
        let dead_top = size_within("discounted top layer", depth, ft(0.0), ft(20.0))?;
        Ok(Self { dead_top, ..self })
    }

    /// Bearing against this.
    ///
    /// # Errors
    /// A backfill without any strength.
    pub fn borne_by(self, surface: BearingSurface) -> Result<Self, Error> {
        if let BearingSurface::Backfill(soil) = &surface {
            Layer::new(m(1.0), *soil)?;
        }
        Ok(Self { surface, ..self })
    }

    /// The ground itself where the post bears against a ring of backfill.
    #[must_use]
    pub fn without_ring(&self) -> Self {
        Self {
            surface: BearingSurface::Undisturbed,
            ..self.clone()
        }
    }

    /// The layers.
    pub fn layers(&self) -> &[Layer] {
        &self.layers
    }
    /// The water table.
    pub const fn water(&self) -> Option<Length> {
        self.water
    }
    /// The top that resists nothing.
    pub const fn dead_top(&self) -> Length {
        self.dead_top
    }
    /// What pushes back.
    pub const fn surface(&self) -> &BearingSurface {
        &self.surface
    }
    /// How deep it is described.
    pub fn depth(&self) -> Length {
        self.layers.iter().map(Layer::thickness).sum()
    }

    /// The layers with their top and bottom.
    pub(crate) fn spans(&self) -> impl Iterator<Item = (Length, Length, &Layer)> {
        let mut top = m(0.0);
        self.layers.iter().map(move |layer| {
            let from = top;
            top += layer.thickness;
            (from, top, layer)
        })
    }

    /// Is a soil that it is made of, or the ring of backfill, one that nobody has
    /// looked at?
    pub(crate) fn is_presumed(&self) -> bool {
        let ring = match &self.surface {
            BearingSurface::Backfill(soil) => Some(soil),
            BearingSurface::Undisturbed => None,
        };
        self.layers
            .iter()
            .map(Layer::soil)
            .chain(ring)
            .any(|soil| *soil.source() == source::NCDOT_DEFAULT_SOIL)
    }

    /// The soil that pushes back at a depth; the last one below the profile.
    pub fn bearing_soil(&self, z: Length) -> &Soil {
        if let BearingSurface::Backfill(soil) = &self.surface {
            return soil;
        }
        let found = self.spans().find(|(_, bottom, _)| z < *bottom);
        let last = self.layers.len() - 1;
        found.map_or(&self.layers[last].soil, |(_, _, layer)| &layer.soil)
    }

    /// Effective vertical stress at a depth, buoyant below water, where soil
    /// lighter than water weighs nothing; the last layer goes on below the
    /// profile.
    pub fn effective_stress(&self, z: Length) -> Pressure {
        let z = z.value.max(0.0);
        let water_at = self.water.map_or(f64::MAX, |depth| depth.value);
        let last = self.layers.len() - 1;
        let (mut stress, mut top) = (0.0, 0.0);
        for (i, layer) in self.layers.iter().enumerate() {
            let bottom = if i == last {
                f64::MAX
            } else {
                top + layer.thickness.value
            };
            let (from, to) = (top, bottom.min(z).max(top));
            let dry = (to.min(water_at) - from).max(0.0);
            let wet = (to - from) - dry;
            let buoyant = (layer.soil.saturated_weight() - water()).value.max(0.0);
            stress += layer.soil.unit_weight().value * dry + buoyant * wet;
            top = bottom;
        }
        Pressure::from_si(stress)
    }

    /// γ′ of a profile of one weight, all dry or all under water, down to a
    /// depth; none otherwise. Negative for soil lighter than water.
    pub(crate) fn uniform_weight(&self, depth: Length) -> Option<ForcePerVolume> {
        let reached = self.spans().filter(|(top, _, _)| *top < depth);
        let mut weight: Option<ForcePerVolume> = None;
        let under_water = match self.water {
            Some(water) if water <= m(0.0) => true,
            Some(water) if water < depth => return None,
            _ => false,
        };
        for (_, _, layer) in reached {
            let own = if under_water {
                layer.soil.saturated_weight() - water()
            } else {
                layer.soil.unit_weight()
            };
            if weight.is_some_and(|before| before != own) {
                return None;
            }
            weight = Some(own);
        }
        weight
    }

    /// The one soil that pushes back down to a depth; none if there are
    /// several.
    pub(crate) fn uniform_soil(&self, depth: Length) -> Option<&Soil> {
        if let BearingSurface::Backfill(soil) = &self.surface {
            return Some(soil);
        }
        let mut reached = self.spans().filter(|(top, _, _)| *top < depth);
        let first = reached.next().map(|(_, _, layer)| &layer.soil)?;
        let same = reached.all(|(_, _, layer)| layer.soil == *first);
        same.then_some(first)
    }

    /// Depths at which something changes, down to a depth: layer bounds, water,
    /// the dead top.
    pub(crate) fn breaks(&self, depth: Length) -> Vec<f64> {
        let bounds = self.spans().map(|(_, bottom, _)| bottom.value);
        let mut breaks: Vec<f64> = bounds
            .chain(self.water.map(|water| water.value))
            .chain([self.dead_top.value])
            .filter(|z| *z > 0.0 && *z < depth.value)
            .collect();
        breaks.sort_by(f64::total_cmp);
        breaks.dedup();
        breaks
    }

    /// That the profile reaches this deep.
    ///
    /// # Errors
    /// Depth outside 1 cm to the depth of the profile.
    pub(crate) fn reaches(&self, depth: Length) -> Result<(), Error> {
        size_within("depth", depth, m(0.01), self.depth()).map(|_| ())
    }
}
