//! A post pulled over beyond the elastic range: stiffness and strength of its
//! ground at once, from the whole curve.
//!
//! The springs are the elastic-plastic ones of [`crate::response`], which design
//! uses too: reaction k y per length up to pu.
//!
//! | pair | k | pu |
//! |---|---|---|
//! | [`SidePull::growing_curve`] | nh z | S b z, S = 3 Kp γ′ of a sand |
//! | [`SidePull::constant_curve`] | k | S b |
//! | [`SidePull::clay_curve`] | k | 3 su b (1 + z/(2b)) ≤ 9 su b |
//!
//! Least squares: Σ (y − y(P; k, S))² over the readings used, y read, y(P; k, S)
//! what the post does under the load P. The strength is searched on its
//! logarithm from the least that carries the peak by rigid-plastic statics (a
//! load that was carried must be carried) to beyond what keeps every spring
//! elastic; for each strength the best stiffness is searched on its logarithm
//! from the best one of elastic ground, which is the least possible: ground that
//! yields must be stiffer to move no more. Both searches are bracketed and
//! capped.
//!
//! Limits. Used are the readings up to a share of the peak at a load not
//! reached before: unloading and creep under a held load are not in the model.
//! The post stays elastic: compare its moment with what it bears. Movements
//! count by their square, so the last readings weigh most; a share of 0.7 to
//! 0.95 leaves the plateau out, where a small error of load is a great one of
//! movement. A post gives averages over its depth and width, at its own rate of
//! loading.

use super::bracket::least;
use super::curve_errors::{Errors, Scatter};
use super::distribution::student_quantile;
use super::fitted::{FittedCurve, Identified, WhyBound};
use super::side_pull::{Gauge, SidePull};
use crate::error::{Error, within};
use crate::profile::{Profile, Soil, Stiffness};
use crate::response::{PostModel, Solver, Springs};
use crate::units::{
    Force, ForcePerVolume, Length, LineLoad, Measurable, Pressure, kn_per_cu_m, kpa,
};

/// Movements are taken as no finer than this share of their root mean square.
const FINEST: f64 = 1e-7;
/// Tolerance of both searches, on the logarithm.
const TOLERANCE: f64 = 1e-6;
/// The same while the best strength is only bracketed.
const COARSE: f64 = 1e-2;
/// Strengths tried to bracket the best one.
const GRID: u32 = 8;

/// A curve figured for one stiffness and one strength.
struct Curve {
    residuals: Vec<f64>,
    /// Their sum of squares; of a load that is not carried none.
    sum: Option<f64>,
}

/// One pair of laws: stiffness and strength in SI to springs, and the ultimate
/// pressure at a depth of strength one.
struct Pair<'a> {
    springs: &'a dyn Fn(f64, f64) -> Result<Springs, Error>,
    unit: &'a dyn Fn(f64) -> f64,
}

impl SidePull {
    fn solver(&self, springs: Springs, force: f64) -> Result<Solver, Error> {
        let post = PostModel::new(self.rigidity, self.width, self.depth, springs)?
            .standing(self.height)?
            .with_force(self.height, Force::from_si(force))?;
        Ok(post.solver())
    }

    /// Readings up to a share of the peak, each at a load not reached before.
    fn rising(&self, share: f64) -> Result<Vec<(f64, f64)>, Error> {
        let mut highest = 0.0;
        let mut rising = self.early(share)?;
        rising.retain(|(_, load)| {
            let higher = *load > highest;
            if higher {
                highest = *load;
            }
            higher
        });
        Ok(rising)
    }

    fn curve(&self, readings: &[(f64, f64)], springs: Springs) -> Result<Curve, Error> {
        let greatest = readings.last().map_or(1.0, |(_, load)| *load);
        let mut solver = self.solver(springs, greatest)?;
        let mut residuals = Vec::with_capacity(readings.len());
        let mut sum = 0.0;
        for (y, load) in readings {
            if solver.solve(load / greatest).is_err() {
                let sum = None;
                return Ok(Curve { residuals, sum });
            }
            let response = solver.unestimated();
            let movement = match self.gauge {
                Gauge::Grade => response.at_grade().deflection.value,
                Gauge::Load => response.at_top().deflection.value,
            };
            residuals.push(y - movement);
            sum += (y - movement).powi(2);
        }
        let sum = Some(sum);
        Ok(Curve { residuals, sum })
    }

    /// The least strength at which no spring yields under the greatest load, the
    /// stiffness given: by the reactions of elastic ground.
    fn elastic_up_to(&self, pair: &Pair<'_>, stiffness: f64, load: f64) -> Result<f64, Error> {
        // A strength that nothing reaches under a small load, scaled.
        let small = 1e-6;
        let springs = (pair.springs)(stiffness, f64::INFINITY)?;
        let mut solver = self.solver(springs, load * small)?;
        solver.solve(1.0)?;
        let b = self.width.value;
        let response = solver.unestimated();
        let below = response.stations().iter().filter(|s| s.depth.value > 0.0);
        Ok(below.fold(0.0_f64, |most, station| {
            let reaction = (station.reaction.value / small).abs();
            most.max(reaction / (b * (pair.unit)(station.depth.value)))
        }))
    }

    /// The logarithms of stiffness and strength whose curve fits best, its sum of
    /// squares, and how many curves it took.
    fn search(
        &self,
        used: &[(f64, f64)],
        pair: &Pair<'_>,
        (softest, top): (f64, f64),
        (from, to): (f64, f64),
    ) -> Result<(f64, f64, f64, u32), Error> {
        let mut iterations = 0;
        // Not carried: worse than anything, and the worse the weaker.
        let worst = 1e6 * used.iter().map(|(y, _)| y * y).sum::<f64>();
        let mut sum_at = |k: f64, s: f64| -> Result<f64, Error> {
            iterations += 1;
            let curve = self.curve(used, (pair.springs)(k.exp(), s.exp())?)?;
            Ok(curve.sum.unwrap_or(worst * (1.0 + (top - k))))
        };
        let mut best_of = |s: f64, stiff: (f64, f64), within: f64| {
            least(stiff.0, stiff.1, within, |k| sum_at(k, s))
        };
        // The best of a few strengths, and its neighbours as the bracket.
        let step = (to - from) / f64::from(GRID);
        let mut best = (from, f64::MAX);
        let mut stiffest_of = Vec::new();
        for i in 0..=GRID {
            let s = from + step * f64::from(i);
            let (k, sum) = best_of(s, (softest, top), COARSE)?;
            stiffest_of.push((s, k));
            if sum < best.1 {
                best = (s, sum);
            }
        }
        let (low, high) = ((best.0 - step).max(from), (best.0 + step).min(to));
        // The stronger the ground, the softer it need be: the stiffness of the
        // weaker end is the most, and that of the stronger end the least.
        let near = |s: f64, other: f64| {
            let at = |(z, _): &&(f64, f64)| (*z - s).abs() < 0.5 * step;
            stiffest_of.iter().find(at).map_or(other, |(_, k)| *k)
        };
        let margin = 20.0 * COARSE;
        let most = (near(low, top) + margin).min(top);
        let stiff = ((near(high, softest) - margin).max(softest), most);
        let (s, _) = least(low, high, TOLERANCE, |s| {
            best_of(s, stiff, TOLERANCE).map(|(_, sum)| sum)
        })?;
        let (k, sum) = best_of(s, stiff, TOLERANCE)?;
        Ok((k, s, sum, iterations))
    }

    /// Standard errors of a fit.
    fn errors(
        &self,
        used: &[(f64, f64)],
        pair: &Pair<'_>,
        (k, s): (f64, f64),
        fitted: &Curve,
    ) -> Result<Option<Errors>, Error> {
        let step = 1e-4;
        let beside = |readings: &[(f64, f64)], k: f64, s: f64| {
            let curve = self.curve(readings, (pair.springs)(k.exp(), s.exp())?)?;
            let pairs = fitted.residuals.iter().zip(&curve.residuals);
            Ok::<Vec<f64>, Error>(pairs.map(|(at, beside)| at - beside).collect())
        };
        let slopes = |k: f64, s: f64| -> Result<Vec<f64>, Error> {
            let differences = beside(used, k, s)?;
            Ok(differences.iter().map(|d| d / step).collect())
        };
        let of_load = match self.load_error {
            Some(share) if share > 0.0 => {
                let less = used.iter().map(|(y, load)| (*y, load * (1.0 - share)));
                beside(&less.collect::<Vec<_>>(), k, s)?
            }
            _ => vec![0.0; used.len()],
        };
        Ok(Errors::of(&Scatter {
            of_k: &slopes(k + step, s)?,
            of_s: &slopes(k, s + step)?,
            of_load: &of_load,
            sum: fitted.residuals.iter().map(|r| r * r).sum(),
        }))
    }

    fn fit<K: Measurable, S: Measurable>(
        &self,
        share: f64,
        stiffest: (K, K),
        strongest: (S, S),
        floor: S,
        elastic: impl Fn(K) -> Result<Springs, Error>,
        pair: &Pair<'_>,
    ) -> Result<FittedCurve<K, S>, Error> {
        let floor = within(
            "strength that carries the peak",
            floor,
            strongest.0,
            strongest.1,
        )?;
        let used = self.rising(share)?;
        let straight = self.invert(&used, stiffest, elastic)?;
        let count = used.iter().fold(0.0, |n, _| n + 1.0);
        let finest = FINEST * FINEST * used.iter().map(|(y, _)| y * y).sum::<f64>();
        let straight_sum = straight.residual.value.powi(2) * count;
        let left_out = self.readings.all().len() - used.len();
        let result =
            |stiffness, strength, residuals: Vec<f64>, errors: Option<Errors>, iterations| {
                let sum: f64 = residuals.iter().map(|r| r * r).sum();
                let loads = used.iter().map(|(_, load)| Force::from_si(*load));
                FittedCurve {
                    stiffness,
                    strength,
                    carries_the_peak: floor,
                    stiffness_error: errors.map(|of| of.stiffness),
                    strength_error: errors.map(|of| of.strength),
                    load_error: self.load_error,
                    residuals: loads
                        .zip(residuals.into_iter().map(Length::from_si))
                        .collect(),
                    residual: Length::from_si((sum / count).sqrt()),
                    left_out,
                    iterations,
                }
            };
        let of_straight = || straight.residuals.iter().map(|r| r.value).collect();
        if used.len() < 3 {
            return Ok(result(
                Identified::AtLeast(straight.value, WhyBound::TooFew),
                Identified::AtLeast(floor, WhyBound::TooFew),
                of_straight(),
                None,
                0,
            ));
        }
        let stayed = |iterations| {
            result(
                Identified::Found(straight.value),
                Identified::AtLeast(floor, WhyBound::StayedElastic),
                of_straight(),
                None,
                iterations,
            )
        };
        let greatest = used.last().map_or(0.0, |(_, load)| *load);
        let from = floor.si().ln();
        let elastic_up_to = self.elastic_up_to(pair, straight.value.si(), greatest)?;
        let to = (1.5 * elastic_up_to).min(strongest.1.si()).ln();
        // Scatter alone bends a straight series by chance; a series straighter
        // than its own resolution does not bend at all.
        let freedom = count - 2.0;
        let t = student_quantile(0.975, u32::try_from(used.len() - 2).unwrap_or(u32::MAX))?;
        let bends = |sum: f64| straight_sum - sum > t * t * sum.max(finest) / freedom;
        if to <= from || !bends(0.0) {
            return Ok(stayed(0));
        }
        let (softest, top) = (straight.value.si().ln(), stiffest.1.si().ln());
        let (k, s, sum, mut iterations) = self.search(&used, pair, (softest, top), (from, to))?;
        if !bends(sum) {
            return Ok(stayed(iterations));
        }
        let curve = |k: f64, s: f64| self.curve(&used, (pair.springs)(k.exp(), s.exp())?);
        let fitted = curve(k, s)?;
        let at_floor = s - from < 1e-5 * (1.0 + (to - from));
        let at_top = top - k < 1e-3;
        let errors = if at_floor || at_top {
            None
        } else {
            // Two slopes, and that of the load where its error is known.
            iterations += 2 + u32::from(self.load_error.is_some_and(|share| share > 0.0));
            self.errors(&used, pair, (k, s), &fitted)?
        };
        let (stiffness, strength) = (K::from_si(k.exp()), S::from_si(s.exp()));
        Ok(result(
            if at_top {
                Identified::AtLeast(straight.value, WhyBound::TooStiff)
            } else {
                Identified::Found(stiffness)
            },
            if at_floor {
                Identified::AtLeast(floor, WhyBound::CarriedThePeak)
            } else {
                Identified::Found(strength)
            },
            fitted.residuals,
            errors,
            iterations,
        ))
    }

    /// nh and the growth of ultimate pressure S, as of a sand, S = 3 Kp γ′, from
    /// the readings up to a share of the peak.
    ///
    /// # Errors
    /// Share outside 0.05 to 1; no reading so early; a movement that no ground
    /// explains; a peak that no strength of [`RigidPlastic::linear`](crate::lateral::RigidPlastic::linear) gives.
    ///
    /// ```
    /// use groundline::{field_test::*, response::*, units::*};
    /// let (nh, s) = (kn_per_cu_m(8_000.0), kn_per_cu_m(180.0));
    /// let post = PostModel::new(kn_sq_m(47.0), mm(89.0), m(0.9), Springs::growing_up_to(nh, s)?)?
    ///     .standing(m(1.0))?;
    /// let mut readings = Vec::new();
    /// for load in [150.0, 300.0, 450.0, 600.0] {
    ///     let pulled = post.clone().with_force(m(1.0), newton(load))?.solve()?;
    ///     readings.push((pulled.at_grade().deflection, newton(load)));
    /// }
    /// let readings = Readings::new(&readings)?;
    /// let pull = SidePull::new(kn_sq_m(47.0), mm(89.0), m(0.9), m(1.0), Gauge::Grade, readings)?;
    /// let ground = pull.growing_curve(1.0)?;
    /// let (Some(stiffness), Some(strength)) = (ground.stiffness.found(), ground.strength.found())
    /// else {
    ///     panic!("it bends");
    /// };
    /// assert!(((stiffness / nh).value - 1.0).abs() < 1e-4);
    /// assert!(((strength / s).value - 1.0).abs() < 1e-4);
    /// // A pull that stays elastic bounds the strength and says so.
    /// let early = pull.growing_curve(0.3)?;
    /// assert_eq!(early.strength, Identified::AtLeast(pull.ultimate_growth()?, WhyBound::TooFew));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn growing_curve(
        &self,
        share: f64,
    ) -> Result<FittedCurve<ForcePerVolume, ForcePerVolume>, Error> {
        let most = kn_per_cu_m(10_000.0);
        self.fit(
            share,
            (kn_per_cu_m(11.0), kn_per_cu_m(9e6)),
            (kn_per_cu_m(0.1), most),
            self.ultimate_growth()?,
            Springs::growing,
            &Pair {
                springs: &|nh, s| {
                    let s = s.min(most.value);
                    Springs::growing_up_to(ForcePerVolume::from_si(nh), ForcePerVolume::from_si(s))
                },
                unit: &|z| z,
            },
        )
    }

    /// k, force per length and movement, and an ultimate pressure, both the same
    /// at every depth.
    ///
    /// # Errors
    /// As [`SidePull::growing_curve`], with [`RigidPlastic::constant`](crate::lateral::RigidPlastic::constant).
    pub fn constant_curve(&self, share: f64) -> Result<FittedCurve<Pressure, Pressure>, Error> {
        let b = self.width;
        let most = kpa(30_000.0);
        self.fit(
            share,
            (kpa(1.1), kpa(9e7)),
            (kpa(0.1), most),
            self.ultimate_pressure()?,
            Springs::constant,
            &Pair {
                springs: &|k, s| {
                    let limit: LineLoad = Pressure::from_si(s.min(most.value)) * b;
                    Springs::constant_up_to(Pressure::from_si(k), limit)
                },
                unit: &|_| 1.0,
            },
        )
    }

    /// k, force per length and movement, the same at every depth, and the
    /// undrained strength of a clay by its graded pressure. k = ks b of a
    /// [`Stiffness::Constant`].
    ///
    /// # Errors
    /// As [`SidePull::growing_curve`], with
    /// [`RigidPlastic::graded_clay`](crate::lateral::RigidPlastic::graded_clay).
    pub fn clay_curve(&self, share: f64) -> Result<FittedCurve<Pressure, Pressure>, Error> {
        let b = self.width;
        let most = kpa(1_000.0);
        let soft: Pressure = kn_per_cu_m(11.0) * b;
        let least = Pressure::from_si(soft.value.max(kpa(1.1).value));
        let stiffest = (least, kn_per_cu_m(9e6) * b);
        self.fit(
            share,
            stiffest,
            (kpa(1.0), most),
            self.undrained_strength()?,
            Springs::constant,
            &Pair {
                springs: &|k, su| {
                    // What it weighs does not matter to a clay.
                    let soil = Soil::new(kn_per_cu_m(18.0))?
                        .with_undrained_strength(Pressure::from_si(su.min(most.value)))?
                        .with_stiffness(Stiffness::constant(Pressure::from_si(k) / b)?)?;
                    Springs::elastic_plastic(&Profile::uniform(soil)?)
                },
                unit: &|z| (3.0 + 1.5 * z / b.value).min(9.0),
            },
        )
    }
}
