use crate::units::Fraction;

/// The standard normal's quantile, to 1.2e-9 of its value. `None` at 0 and 1, where it has none.
///
/// # Source
/// [ACK03], a rational approximation; from memory, not re-read, and checked against a reference library.
#[expect(clippy::excessive_precision, reason = "coefficients as published")]
pub(super) fn normal_quantile(share: Fraction) -> Option<f64> {
    const A: [f64; 6] = [
        -3.969683028665376e1,
        2.209460984245205e2,
        -2.759285104469687e2,
        1.383577518672690e2,
        -3.066479806614716e1,
        2.506628277459239,
    ];
    const B: [f64; 5] = [
        -5.447609879822406e1,
        1.615858368580409e2,
        -1.556989798598866e2,
        6.680131188771972e1,
        -1.328068155288572e1,
    ];
    const C: [f64; 6] = [
        -7.784894002430293e-3,
        -3.223964580411365e-1,
        -2.400758277161838,
        -2.549732539343734,
        4.374664141464968,
        2.938163982698783,
    ];
    const D: [f64; 4] = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416];
    const TAIL: f64 = 0.02425;
    let polynomial = |terms: &[f64], x: f64| terms.iter().fold(0.0, |sum, term| sum * x + term);
    let tail = |p: f64| {
        let q = (-2.0 * p.ln()).sqrt();
        polynomial(&C, q) / (polynomial(&D, q) * q + 1.0)
    };
    let p = share.value();
    if p <= 0.0 || p >= 1.0 {
        None
    } else if p < TAIL {
        Some(tail(p))
    } else if p > 1.0 - TAIL {
        Some(-tail(1.0 - p))
    } else {
        let q = p - 0.5;
        let r = q * q;
        Some(polynomial(&A, r) * q / (polynomial(&B, r) * r + 1.0))
    }
}
