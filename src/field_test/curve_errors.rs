//! Standard errors of a fitted curve: from the scatter of the movements and from the
//! error of the load cell.
//!
//! The fit is ordinary least squares of the movements, J their slopes by ln k and
//! ln S. A movement scatters with σ², the same at every reading, and a load that is
//! off by a share e of itself puts it off by d = e P dy/dP, which grows without
//! limit near the end of the ground. So the covariance is (JᵀJ)⁻¹ Jᵀ V J (JᵀJ)⁻¹, V
//! diagonal, σ² + d². σ² comes from what the residuals hold beyond the load's
//! share: E Σr² = σ² (n − 2) + Σ d² (1 − h), h the leverage of a reading. Without a
//! load error it is the textbook's σ² (JᵀJ)⁻¹.
//! Both are linear estimates: no confidence interval is made of them.

/// Standard errors of the logarithms of both values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Errors {
    pub(super) stiffness: f64,
    pub(super) strength: f64,
}

/// Slopes of every movement by both logarithms, what the error of the load does to
/// it, and the sum of squares that is left.
pub(super) struct Scatter<'a> {
    pub(super) of_k: &'a [f64],
    pub(super) of_s: &'a [f64],
    pub(super) of_load: &'a [f64],
    pub(super) sum: f64,
}

impl Errors {
    /// None where the slopes do not tell both values apart.
    pub(super) fn of(scatter: &Scatter<'_>) -> Option<Self> {
        let Scatter {
            of_k,
            of_s,
            of_load,
            sum,
        } = *scatter;
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
        let (a, b, c) = (dot(of_k, of_k), dot(of_k, of_s), dot(of_s, of_s));
        let det = a * c - b * b;
        if det.is_nan() || det <= 1e-12 * a * c {
            return None;
        }
        let readings = of_k.iter().zip(of_s).zip(of_load);
        // What each reading does to both values: rows of (JᵀJ)⁻¹ Jᵀ.
        let (mut load_k, mut load_s, mut in_sum, mut count) = (0.0, 0.0, 0.0, 0.0);
        for ((k, s), d) in readings {
            let to_k = (c * k - b * s) / det;
            let to_s = (a * s - b * k) / det;
            load_k += (to_k * d).powi(2);
            load_s += (to_s * d).powi(2);
            in_sum += d * d * (1.0 - to_k * k - to_s * s);
            count += 1.0;
        }
        let freedom = count - 2.0;
        let variance = ((sum - in_sum) / freedom).max(0.0);
        Some(Self {
            stiffness: (variance * c / det + load_k).sqrt(),
            strength: (variance * a / det + load_s).sqrt(),
        })
    }
}
