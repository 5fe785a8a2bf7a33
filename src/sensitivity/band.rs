//! How far and how finely inputs are varied.

use crate::error::{Error, number_within};

/// Values tried on each side of the plan, ends included.
const PARTS: u32 = 5;

/// How far an input is varied to each side, and the step of the derivative.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    share: f64,
    step: f64,
}

impl Default for Band {
    /// ±10 %, step 0.1 %.
    fn default() -> Self {
        Self {
            share: 0.1,
            step: 0.001,
        }
    }
}

impl Band {
    /// A share to each side, 0.1 for ±10 %, and the step h of the derivative: it is
    /// taken between factors 1/(1 + h) and 1 + h.
    ///
    /// # Errors
    /// Share outside 0.001 to 0.5, step outside 0.00001 to the share, 0.05 at most.
    pub fn new(share: f64, step: f64) -> Result<Self, Error> {
        let share = number_within("band", share, 0.001, 0.5)?;
        let step = number_within("step of the derivative", step, 1e-5, share.min(0.05))?;
        Ok(Self { share, step })
    }

    /// The share to each side.
    pub const fn share(self) -> f64 {
        self.share
    }

    /// The step h.
    pub const fn step(self) -> f64 {
        self.step
    }

    /// The factors of the derivative.
    pub(super) fn near(self) -> [f64; 2] {
        [1.0 / (1.0 + self.step), 1.0 + self.step]
    }

    /// Every factor tried, 1 and those of the derivative among them, ascending.
    pub(super) fn factors(self) -> Vec<f64> {
        let mut factors = vec![1.0];
        for part in 1..=PARTS {
            let way = self.share * f64::from(part) / f64::from(PARTS);
            factors.extend([1.0 - way, 1.0 + way]);
        }
        factors.extend(self.near());
        factors.sort_by(f64::total_cmp);
        factors.dedup();
        factors
    }
}
