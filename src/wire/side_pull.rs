//! What a post pulled sideways says about the ground, on the wire.

use super::field::{ReadingSpec, readings};
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::{Quantity, Size};
use crate::caution::{Caution, Cautions};
use crate::field_test::{FittedCurve, Gauge, Identified, PeakKind, SidePull};
use crate::source;
use crate::units::{FlexuralRigidity, ForcePerVolume, Length, Measurable, Pressure};

names! {
    Gauge { "grade" => Gauge::Grade, "load" => Gauge::Load, }
    CurveLaw {
        "growing" => CurveLaw::Growing,
        "constant" => CurveLaw::Constant,
        "clay" => CurveLaw::Clay,
    }
}

/// What ground a curve is fitted with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum CurveLaw {
    /// Stiffness and strength that grow with depth.
    Growing,
    /// The same stiffness and strength at every depth.
    Constant,
    /// The same stiffness, the graded pressure of a clay.
    Clay,
}

records! {
    /// What a post pulled sideways says about the ground.
    SidePullRequest {
        /// Load over movement, no movement less than the one before.
        readings: Vec<ReadingSpec>,
        /// EI of the post.
        rigidity: FlexuralRigidity,
        /// Width that bears.
        width: Size,
        /// Depth.
        depth: Size,
        /// Height of the pull above grade.
        height: Length,
        /// Where the movement was read.
        gauge: Gauge,
        /// The whole curve fitted too: stiffness and strength at once, at most
        /// 100 readings.
        curve: Option<CurveLaw>,
        /// Readings up to this share of the peak count for stiffness; 0.5
        /// unless said.
        share: Option<f64>,
        /// Standard error of the load cell as a share of the load, 0.02 for 2 %; with
        /// it the standard errors of a fitted curve hold the load too.
        load_error: Option<f64>,
    }
    /// The ground by inverting the models of design, from one test.
    SidePullResult {
        /// Whether the readings show a peak; if not, the strengths are lower bounds.
        peak_kind: PeakKind,
        /// Stiffness that grows with depth, nh.
        growing_stiffness: ForcePerVolume,
        /// Root mean square of what it leaves unexplained.
        growing_residual: Size,
        /// The same stiffness at every depth, k.
        constant_stiffness: Pressure,
        /// Root mean square of what it leaves unexplained.
        constant_residual: Size,
        /// Pressure at the peak, the same at every depth.
        ultimate_pressure: Pressure,
        /// Pressure per depth at the peak.
        ultimate_growth: ForcePerVolume,
        /// Undrained strength it implies.
        undrained_strength: Pressure,
        /// The whole curve fitted, where asked.
        curve: Option<CurveResult>,
    }
    /// Stiffness and strength from the whole curve.
    CurveResult {
        /// Stiffness, found or at least.
        stiffness: Quantity,
        /// Why it is only a bound.
        stiffness_is_a_bound: Option<String>,
        /// Strength, found or at least.
        strength: Quantity,
        /// Why it is only a bound.
        strength_is_a_bound: Option<String>,
        /// Standard error of the stiffness, as a share; of the scatter of movement
        /// alone where no load_error is given. It gives no confidence.
        stiffness_error: Option<f64>,
        /// Standard error of the strength, as a share, likewise.
        strength_error: Option<f64>,
        /// Root mean square of what it leaves unexplained.
        residual: Size,
        /// Readings that were not used.
        left_out: usize,
    }
}

impl CurveResult {
    fn of<K: Measurable, S: Measurable>(fit: &FittedCurve<K, S>) -> Self {
        fn why<Q>(value: &Identified<Q>) -> Option<String> {
            match value {
                Identified::AtLeast(_, why) => Some(why.name().to_owned()),
                Identified::Found(_) => None,
            }
        }
        Self {
            stiffness: Quantity::of(fit.stiffness.at_least()),
            stiffness_is_a_bound: why(&fit.stiffness),
            strength: Quantity::of(fit.strength.at_least()),
            strength_is_a_bound: why(&fit.strength),
            stiffness_error: fit.stiffness_error.filter(|error| error.is_finite()),
            strength_error: fit.strength_error.filter(|error| error.is_finite()),
            residual: Size(fit.residual),
            left_out: fit.left_out,
        }
    }
}

impl SidePullRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<SidePull> {
        let read = readings(&self.readings, &at.field("readings"), problems)?;
        if self.curve.is_some() && self.readings.len() > 100 {
            problems.add(&at.field("readings"), None, "at most 100 to fit a curve");
            return None;
        }
        let names = [
            ("flexural rigidity", "rigidity"),
            ("width of the post or footing", "width"),
            ("depth", "depth"),
            ("height above grade", "height"),
            ("height of the pull", "height"),
        ];
        let made = SidePull::new(
            self.rigidity,
            self.width.0,
            self.depth.0,
            self.height,
            self.gauge,
            read,
        );
        let pull = problems.take_by(at, &names, made)?;
        match self.load_error {
            Some(share) => problems.take(&at.field("load_error"), pull.with_load_error(share)),
            None => Some(pull),
        }
    }
}

impl Calculation for SidePullRequest {
    const CALCULATE: &'static str = "side_pull";
    type Result = SidePullResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<SidePullResult>> {
        let pull = self.build(at, problems)?;
        let share = self.share.unwrap_or(0.5);
        let place = at.field("readings");
        let growing = pull.growing_stiffness(share);
        let names = [("share of the peak", "share")];
        let place = if self.share.is_some() { at } else { &place };
        let growing = problems.take_by(place, &names, growing)?;
        let constant = problems.take(place, pull.constant_stiffness(share))?;
        // The whole of it: yielding shows late.
        let curve = match self.curve {
            Some(CurveLaw::Growing) => {
                let fit = problems.take(place, pull.growing_curve(1.0))?;
                Some(CurveResult::of(&fit))
            }
            Some(CurveLaw::Constant) => {
                let fit = problems.take(place, pull.constant_curve(1.0))?;
                Some(CurveResult::of(&fit))
            }
            Some(CurveLaw::Clay) => {
                let fit = problems.take(place, pull.clay_curve(1.0))?;
                Some(CurveResult::of(&fit))
            }
            None => None,
        };
        let result = SidePullResult {
            peak_kind: pull.peak().kind,
            growing_stiffness: growing.value,
            growing_residual: Size(growing.residual),
            constant_stiffness: constant.value,
            constant_residual: Size(constant.residual),
            ultimate_pressure: problems.take(place, pull.ultimate_pressure())?,
            ultimate_growth: problems.take(place, pull.ultimate_growth())?,
            undrained_strength: problems.take(place, pull.undrained_strength())?,
            curve,
        };
        let cautions = Cautions::default()
            .with(Caution::FieldTests)
            .with_if(pull.peak().kind == PeakKind::AtLeast, Caution::StoppedPulls);
        let fitted = self.curve.map(|_| &source::PLASTIC_SPRINGS);
        let sources = [
            &source::BEAM_COLUMN,
            &source::RIGID_PLASTIC,
            &source::STATICS,
        ];
        Some(Done::new(
            result,
            cautions,
            sources.into_iter().chain(fitted),
        ))
    }
}
