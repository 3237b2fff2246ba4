//! Order statistics of few values, shared by the models that speak of "one year in ten".

use crate::units::Fraction;

/// How a quantile is read from few values; the rules differ by days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Position {
    /// Linear between order statistics, the ends at 0 and 100 % (`n - 1`).
    Linear,
    /// Weibull's plotting position, rank / (n + 1). Beyond the ends the end itself stands.
    Weibull,
}

/// The quantile of values in ascending order; `None` of nothing.
///
/// # Source
/// [HYN96], definitions 7 and 6.
pub(super) fn quantile(ascending: &[f64], share: Fraction, position: Position) -> Option<f64> {
    let last = ascending.len().checked_sub(1)?;
    let rank = match position {
        Position::Linear => share.value() * last as f64,
        Position::Weibull => share.value() * (last + 2) as f64 - 1.0,
    };
    let rank = rank.clamp(0.0, last as f64);
    let below = rank.floor() as usize;
    let above = (below + 1).min(last);
    Some(ascending[below] + (ascending[above] - ascending[below]) * rank.fract())
}

/// Biweight mean and standard deviation: like the plain ones, but deaf to a few wild values. `None` of
/// fewer than two values; the median and no spread where more than half of them are equal.
///
/// # Source
/// [LAN96], appendix B, with its cut at 7.5 median absolute deviations; from memory, not re-read, and checked
/// against a reference library.
pub(super) fn biweight(values: &[f64]) -> Option<(f64, f64)> {
    const CUT: f64 = 7.5;
    if values.len() < 2 {
        return None;
    }
    let centre = median(values)?;
    let spread = median(&values.iter().map(|value| (value - centre).abs()).collect::<Vec<f64>>())?;
    if spread <= 0.0 {
        return Some((centre, 0.0));
    }
    let near = values
        .iter()
        .map(|value| (value - centre, (value - centre) / (CUT * spread)))
        .filter(|(_, weight)| weight.abs() < 1.0);
    let (mut pull, mut weights, mut squares, mut scale) = (0.0, 0.0, 0.0, 0.0);
    for (off, weight) in near {
        let rest = 1.0 - weight * weight;
        pull += off * rest.powi(2);
        weights += rest.powi(2);
        squares += off * off * rest.powi(4);
        scale += rest * (1.0 - 5.0 * weight * weight);
    }
    let count = values.len() as f64;
    Some((centre + pull / weights, (count * squares).sqrt() / scale.abs()))
}

fn median(values: &[f64]) -> Option<f64> {
    let mut ascending = values.to_vec();
    ascending.sort_by(f64::total_cmp);
    quantile(&ascending, Fraction::saturating(0.5), Position::Linear)
}
