//! Depths within a layer at which a spring has a kink: nodes of the mesh.

use super::{ClayCurve, Law, Loading, Springs, api_coefficients, soils};
use crate::lateral::passive_coefficient;
use crate::profile::Profile;
use crate::units::{Length, Measurable};

impl Springs {
    /// Whether stiffness or limit of a layer bend with depth between its breaks:
    /// those of API sand do.
    pub(in crate::response) fn bend_with_depth(&self) -> bool {
        match &self.law {
            Law::OfSoil { profile, .. } => {
                soils(profile).any(|soil| soil.friction_angle().is_some())
            }
            _ => false,
        }
    }

    /// Depths at which the law of a post of a width changes.
    pub(in crate::response) fn breaks(&self, depth: Length, width: Length) -> Vec<f64> {
        let b = width.value;
        match &self.law {
            Law::Constant { .. } | Law::Growing { .. } => Vec::new(),
            Law::Curves(depths) => depths
                .iter()
                .copied()
                .filter(|z| *z < depth.value)
                .collect(),
            Law::Elastic(profile) => profile.breaks(depth),
            Law::ElasticPlastic(profile) => {
                // Where 3 su b (1 + z/(2b)) reaches 9 su b.
                let bounds = bounds(profile, depth, &[4.0 * b]);
                let mut breaks = bounds.clone();
                breaks.extend(bounds.windows(2).filter_map(|pair| {
                    let soil = profile.bearing_soil(middle(pair));
                    let (phi, su) = (soil.friction_angle()?, soil.undrained_strength()?);
                    let kp = passive_coefficient(phi);
                    let over = |z: f64| {
                        let stress = profile.effective_stress(Length::from_si(z)).value;
                        let drained = 3.0 * kp * stress + 2.0 * kp.sqrt() * soil.cohesion().value;
                        drained - su.value * (3.0 + 1.5 * z / b).min(9.0)
                    };
                    zero(pair, over)
                }));
                breaks
            }
            Law::OfSoil {
                profile,
                loading,
                curve,
                ..
            } => {
                // Where A of static sand, 3 − 0.8 z/b, reaches 0.9.
                let of_loading = match loading {
                    Loading::Static => 2.625 * b,
                    Loading::Cyclic => depth.value,
                };
                let bounds = bounds(profile, depth, &[of_loading]);
                let mut breaks = bounds.clone();
                let j = match curve {
                    ClayCurve::Soft | ClayCurve::Stiff => 0.5,
                    ClayCurve::Medium => 0.25,
                };
                breaks.extend(bounds.windows(2).filter_map(|pair| {
                    let soil = profile.bearing_soil(middle(pair));
                    match (soil.friction_angle(), soil.undrained_strength()) {
                        // From the wedge to the flow around the post.
                        (Some(phi), _) => {
                            let [c1, c2, c3] = api_coefficients(phi);
                            zero(pair, |z| c1 * z + (c2 - c3) * b)
                        }
                        // From 3 to 9.
                        (None, Some(su)) => zero(pair, |z| {
                            let stress = profile.effective_stress(Length::from_si(z)).value;
                            stress / su.value + j * z / b - 6.0
                        }),
                        (None, None) => None,
                    }
                }));
                breaks
            }
        }
    }
}

/// Bounds of layers and further depths, in order, from grade to the toe.
fn bounds(profile: &Profile, depth: Length, further: &[f64]) -> Vec<f64> {
    let mut bounds = profile.breaks(depth);
    bounds.extend(further.iter().copied().filter(|z| *z < depth.value));
    bounds.extend([0.0, depth.value]);
    bounds.sort_by(f64::total_cmp);
    bounds
}

fn middle(pair: &[f64]) -> Length {
    Length::from_si(0.5 * (pair[0] + pair[1]))
}

/// Where what is linear between two depths is zero.
fn zero(pair: &[f64], of: impl Fn(f64) -> f64) -> Option<f64> {
    let (from, to) = (of(pair[0]), of(pair[1]));
    (from * to < 0.0).then(|| pair[0] + (pair[1] - pair[0]) * (from / (from - to)))
}
