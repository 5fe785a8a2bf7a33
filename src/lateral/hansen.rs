//! Brinch Hansen 1961: a rigid post in layered ground with cohesion and
//! friction.
//!
//! p(z) = b (q′ Kq + c Kc), the reaction per length of post at a depth z from
//! grade, b the width, q′ the effective overburden, c the cohesion or undrained
//! strength, Kq and Kc growing with z/b from their values at the surface to those
//! at depth:
//!
//! - Kq = (Kq0 + Kq∞ αq z/b)/(1 + αq z/b), Kc likewise;
//! - Kq0 = e^((π/2+φ) tan φ) cos φ tan(45+φ/2) − e^(−(π/2−φ) tan φ) cos φ tan(45−φ/2);
//! - Kc0 = [e^((π/2+φ) tan φ) cos φ tan(45+φ/2) − 1] cot φ;
//! - Nc = [e^(π tan φ) tan²(45+φ/2) − 1] cot φ, Kc∞ = Nc (1.58 + 4.09 tan⁴ φ);
//! - K0 = 1 − sin φ, Kq∞ = Kc∞ K0 tan φ;
//! - αq = Kq0/(Kq∞ − Kq0) K0 sin φ/sin(45+φ/2), αc = Kc0/(Kc∞ − Kc0) 2 sin(45+φ/2).
//!
//! As φ → 0: Kq = 0, Kc0 = 1 + π/2, Kc∞ = (2 + π) 1.58, αc = 0.6547. The
//! reaction reverses at a rotation point (the statics of a rigid post), found within
//! a bracket. Equations quoted; integrated by Gauss-Legendre between the depths
//! where something changes.

use super::rotation::{self, Reaction};
use super::{
    GreatestMoment, LateralMethod, NeededDepth, Ultimate, checked_depth, checked_force,
    checked_height, checked_width, checked_yield,
};
use crate::error::{Error, within};
use crate::profile::Profile;
use crate::source::{self, Citation};
use crate::step::Worksheet;
use crate::units::{Angle, Force, ForcePerVolume, Length, Measurable, Pressure, Torque, deg, show};
use core::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

/// Which strength of a soil that has both is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Drainage {
    /// Friction angle and cohesion; undrained strength only where there is no
    /// friction angle. The default.
    #[default]
    Drained,
    /// Undrained strength; friction angle only where there is none.
    Undrained,
}

/// The constants of a friction angle φ. At a depth z of a post of width b,
/// Kq = (Kq0 + Kq∞ αq z/b)/(1 + αq z/b) from Kq0 at the surface to Kq∞ at depth,
/// Kc likewise.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct HansenConstants {
    /// Kq at the surface.
    pub kq_surface: f64,
    /// Kq at depth.
    pub kq_depth: f64,
    /// αq.
    pub alpha_q: f64,
    /// Kc at the surface.
    pub kc_surface: f64,
    /// Kc at depth.
    pub kc_depth: f64,
    /// αc.
    pub alpha_c: f64,
    /// Nc.
    pub nc: f64,
    /// The depth factor 1.58 + 4.09 tan⁴ φ.
    pub depth_factor: f64,
}

impl HansenConstants {
    /// For a friction angle.
    ///
    /// # Errors
    /// Outside 0° to 50°.
    pub fn new(phi: Angle) -> Result<Self, Error> {
        let phi = within("friction angle", phi, deg(0.0), deg(50.0))?.value;
        Ok(Self::of(phi))
    }

    fn of(phi: f64) -> Self {
        let t = phi.tan();
        let depth_factor = 1.58 + 4.09 * t.powi(4);
        // Below this the cotangent forms lose digits; the limit is nearer.
        if phi < 1e-6 {
            let (kc_surface, nc) = (1.0 + FRAC_PI_2, 2.0 + PI);
            let kc_depth = nc * depth_factor;
            return Self {
                kq_surface: 0.0,
                kq_depth: 0.0,
                alpha_q: 0.0,
                kc_surface,
                kc_depth,
                alpha_c: kc_surface / (kc_depth - kc_surface) * 2.0 * FRAC_PI_4.sin(),
                nc,
                depth_factor,
            };
        }
        let up = (FRAC_PI_4 + 0.5 * phi).tan();
        let down = (FRAC_PI_4 - 0.5 * phi).tan();
        let sine = (FRAC_PI_4 + 0.5 * phi).sin();
        let rise = ((FRAC_PI_2 + phi) * t).exp() * phi.cos() * up;
        let kq_surface = rise - (-(FRAC_PI_2 - phi) * t).exp() * phi.cos() * down;
        let kc_surface = (rise - 1.0) / t;
        let nc = ((PI * t).exp() * up * up - 1.0) / t;
        let kc_depth = nc * depth_factor;
        let k0 = 1.0 - phi.sin();
        let kq_depth = kc_depth * k0 * t;
        Self {
            kq_surface,
            kq_depth,
            alpha_q: kq_surface / (kq_depth - kq_surface) * k0 * phi.sin() / sine,
            kc_surface,
            kc_depth,
            alpha_c: kc_surface / (kc_depth - kc_surface) * 2.0 * sine,
            nc,
            depth_factor,
        }
    }

    /// Kq and Kc at a depth in widths.
    pub fn at(&self, z_over_b: f64) -> (f64, f64) {
        let grow = |surface: f64, depth: f64, alpha: f64| {
            (surface + depth * alpha * z_over_b) / (1.0 + alpha * z_over_b)
        };
        (
            grow(self.kq_surface, self.kq_depth, self.alpha_q),
            grow(self.kc_surface, self.kc_depth, self.alpha_c),
        )
    }
}

/// A span of one soil between two depths, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Span {
    from: f64,
    to: f64,
    /// Effective stress at its top, and how it grows with depth.
    stress: f64,
    growth: f64,
    cohesion: f64,
    constants: HansenConstants,
    /// Is it below the discounted top?
    counts: bool,
    /// Reaction and its moment about grade, from grade to its top.
    above: (f64, f64),
}

/// A rigid post in layered ground (Brinch Hansen 1961, quoted).
///
/// The reaction per length is b (q′ Kq + c Kc), b the width, q′ the effective
/// overburden, c the cohesion or undrained strength, Kq and Kc by depth
/// ([`HansenConstants`]). It reverses at the depth where moments about the force
/// balance. No deeper than the profile is described, nor than 30 m.
///
/// ```
/// use groundline::{lateral::*, profile::*, units::*};
/// let sand = Soil::new(kn_per_cu_m(18.0))?.with_friction_angle(deg(30.0))?;
/// let post = Hansen::new(&Profile::uniform(sand)?, m(0.3), Drainage::Drained)?;
/// let ultimate = post.ultimate(m(1.2), m(1.5))?;
/// assert!((ultimate.shear.to(kn) - 2.700865).abs() < 2.7e-4);
/// assert!((ultimate.rotation.unwrap().to(m) - 0.919481).abs() < 1e-4);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Hansen {
    width: f64,
    spans: Vec<Span>,
    depth: f64,
    yields_at: Option<f64>,
}

/// Nodes and weights of the eight-point Gauss-Legendre rule, half of them.
const GAUSS: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_5),
    (0.960_289_856_497_536_2, 0.101_228_536_290_376_26),
];

impl Hansen {
    /// A post or footing of a width in a profile.
    ///
    /// # Errors
    /// Width outside 2 cm to 3 m.
    pub fn new(profile: &Profile, width: Length, drainage: Drainage) -> Result<Self, Error> {
        let width = checked_width(width)?.value;
        let depth = profile.depth();
        let mut edges = vec![0.0];
        edges.extend(profile.breaks(depth));
        edges.push(depth.value);
        let mut spans: Vec<Span> = Vec::new();
        let mut above = (0.0, 0.0);
        for pair in edges.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let middle = Length::from_si(0.5 * (from + to));
            let soil = profile.bearing_soil(middle);
            let (phi, cohesion) = match (soil.friction_angle(), soil.undrained_strength(), drainage)
            {
                (_, Some(su), Drainage::Undrained) | (None, Some(su), Drainage::Drained) => {
                    (0.0, su.value)
                }
                (Some(phi), ..) => (phi.value, soil.cohesion().value),
                (None, None, _) => (0.0, 0.0),
            };
            let stress = |z: f64| profile.effective_stress(Length::from_si(z)).value;
            let span = Span {
                from,
                to,
                stress: stress(from),
                growth: (stress(to) - stress(from)) / (to - from),
                cohesion,
                constants: HansenConstants::of(phi),
                counts: middle >= profile.dead_top(),
                above,
            };
            let (p, q) = integral(&span, width, to);
            above = (above.0 + p, above.1 + q);
            spans.push(span);
        }
        Ok(Self {
            width,
            spans,
            depth: depth.value,
            yields_at: None,
        })
    }

    /// With a post that yields at a moment.
    ///
    /// # Errors
    /// Outside 1 N·m to 1 GN·m.
    pub fn yielding_at(self, moment: Torque) -> Result<Self, Error> {
        let yields_at = Some(checked_yield(moment)?);
        Ok(Self { yields_at, ..self })
    }

    fn within_profile(&self, depth: Length) -> Result<f64, Error> {
        let most = Length::from_si(self.depth);
        let depth = crate::error::size_within("depth", depth, crate::units::m(0.01), most)?;
        checked_depth(depth)
    }
}

/// Reaction per length of a span at a depth.
fn reaction(span: &Span, width: f64, z: f64) -> f64 {
    let (kq, kc) = span.constants.at(z / width);
    let stress = span.stress + span.growth * (z - span.from);
    width * (stress * kq + span.cohesion * kc)
}

/// Reaction and its moment about grade from the top of a span to a depth in
/// it: four panels of eight points, each.
fn integral(span: &Span, width: f64, to: f64) -> (f64, f64) {
    const PANELS: usize = 4;
    if !span.counts || to <= span.from {
        return (0.0, 0.0);
    }
    let mut sums = (0.0, 0.0);
    let mut from = span.from;
    let step = (to - span.from) / 4.0;
    for _ in 0..PANELS {
        let (middle, half) = (from + 0.5 * step, 0.5 * step);
        for (node, weight) in GAUSS {
            for z in [middle - node * half, middle + node * half] {
                let p = weight * half * reaction(span, width, z);
                sums.0 += p;
                sums.1 += p * z;
            }
        }
        from += step;
    }
    sums
}

impl Reaction for Hansen {
    fn cumulative(&self, z: f64) -> (f64, f64) {
        let z = z.min(self.depth);
        let last = self.spans.len().saturating_sub(1);
        let found = self.spans.iter().position(|span| z <= span.to);
        self.spans
            .get(found.unwrap_or(last))
            .map_or((0.0, 0.0), |span| {
                let (p, q) = integral(span, self.width, z);
                (span.above.0 + p, span.above.1 + q)
            })
    }
}

impl LateralMethod for Hansen {
    fn name(&self) -> &'static str {
        "Brinch Hansen"
    }

    fn source(&self) -> &'static Citation {
        &source::HANSEN
    }

    fn ultimate(&self, depth: Length, height: Length) -> Result<Ultimate, Error> {
        let (l, e) = (self.within_profile(depth)?, checked_height(height)?);
        Ok(rotation::ultimate(
            self,
            l,
            e,
            self.yields_at,
            self.source(),
        ))
    }

    fn needed_depth(&self, force: Force, height: Length) -> Result<NeededDepth, Error> {
        let (h, e) = (checked_force(force)?, checked_height(height)?);
        Ok(rotation::needed(self, self.depth, h, e, self.yields_at))
    }

    fn greatest_moment(&self, force: Force, height: Length) -> Result<GreatestMoment, Error> {
        let (h, e) = (checked_force(force)?, checked_height(height)?);
        Ok(rotation::greatest(self, self.depth, h, e))
    }

    fn write(&self, depth: Length, height: Length, sheet: &mut Worksheet) -> Result<(), Error> {
        let ultimate = self.ultimate(depth, height)?;
        sheet.section("Brinch Hansen");
        let system = sheet.system;
        let stress = |pascal: f64| show(Pressure::from_si(pascal), system);
        for span in &self.spans {
            if span.from < depth.value && span.counts {
                let c = &span.constants;
                sheet.remark(format!(
                    "From {}: Kq {:.4} to {:.4} (alpha {:.4}), Kc {:.4} to {:.4} (alpha {:.4}), \
                     effective stress {} and {}, c {}.",
                    show(Length::from_si(span.from), system),
                    c.kq_surface,
                    c.kq_depth,
                    c.alpha_q,
                    c.kc_surface,
                    c.kc_depth,
                    c.alpha_c,
                    stress(span.stress),
                    show(ForcePerVolume::from_si(span.growth), system),
                    stress(span.cohesion),
                ));
            }
        }
        rotation::write(self, &ultimate, depth, height, sheet);
        Ok(())
    }
}
