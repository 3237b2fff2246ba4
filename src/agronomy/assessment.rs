//! How much disease: classes, severity, area under the progress curve, and whether two groups differ.

use crate::units::{Days, Fraction, Probability};

/// Upper bounds of classes 0 to 5 of the fig rust scale, as leaf area ([SIL19]); class 5 is all above.
const CLASS_TOPS: [f64; 5] = [0.0, 0.05, 0.15, 0.25, 0.50];
/// Middles of the classes, as leaf area.
const CLASS_MIDDLES: [f64; 6] = [0.0, 0.0255, 0.1005, 0.2005, 0.3755, 0.755];
/// Classes a group needs this many trees to be tested at all: with four and four the smallest two-sided p is
/// 0.029, with three it stays above 0.05.
pub const LEAST_GROUP: usize = 4;

/// A class of the fig rust scale, 0 to 5.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct RustClass(u8);

impl RustClass {
    pub fn new(class: u8) -> Option<Self> {
        (class <= 5).then_some(Self(class))
    }

    pub fn value(self) -> u8 {
        self.0
    }

    /// The middle of the class, as leaf area.
    ///
    /// # Source
    /// [SIL19].
    pub fn middle(self) -> Fraction {
        Fraction::saturating(CLASS_MIDDLES[usize::from(self.0)])
    }

    /// The class a severity falls in.
    ///
    /// # Source
    /// [SIL19].
    pub fn of(severity: Fraction) -> Self {
        let class = CLASS_TOPS.iter().position(|top| severity.value() <= *top).unwrap_or(5);
        Self(class as u8)
    }
}

/// A sample of leaves by class, 0 to 5.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeafCounts(pub [u32; 6]);

/// What a sample says: spotted leaves, mean leaf area, and McKinney's index.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SampleSummary {
    pub incidence: Fraction,
    pub severity: Fraction,
    pub index: Fraction,
}

/// # Source
/// [SIL19] for the middles, [MCK23] for the index. `None` of no leaves.
pub fn summary(counts: LeafCounts) -> Option<SampleSummary> {
    let total: u32 = counts.0.iter().sum();
    if total == 0 {
        return None;
    }
    let weighted = |weight: &dyn Fn(usize) -> f64| {
        counts.0.iter().enumerate().map(|(class, count)| weight(class) * f64::from(*count)).sum::<f64>()
            / f64::from(total)
    };
    Some(SampleSummary {
        incidence: Fraction::saturating(weighted(&|class| if class == 0 { 0.0 } else { 1.0 })),
        severity: Fraction::saturating(weighted(&|class| CLASS_MIDDLES[class])),
        index: Fraction::saturating(weighted(&|class| class as f64) / 5.0),
    })
}

/// A severity on a day of the season.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observation {
    pub day: Days,
    pub severity: Fraction,
}

/// Area under the disease progress curve, in percent-days, over observations in order of day.
///
/// # Source
/// [SHA77], the trapezoid rule.
pub fn progress_area(observations: &[Observation]) -> f64 {
    observations
        .windows(2)
        .map(|pair| {
            let mean = f64::midpoint(pair[0].severity.as_percent(), pair[1].severity.as_percent());
            mean * (pair[1].day - pair[0].day).value()
        })
        .sum()
}

/// The area relative to the worst possible over the same time. `None` of less than two days apart.
///
/// # Source
/// [SHA77] over 100 % times the days.
pub fn relative_progress_area(observations: &[Observation]) -> Option<Fraction> {
    let span = observations.last()?.day - observations.first()?.day;
    (span > Days::ZERO).then(|| Fraction::saturating(progress_area(observations) / (100.0 * span.value())))
}

/// Area under the disease progress stairs: the area and half a step at each end.
///
/// # Source
/// [SIM12].
pub fn progress_stairs(observations: &[Observation]) -> Option<f64> {
    let (first, last) = (observations.first()?, observations.last()?);
    let steps = observations.len() as f64 - 1.0;
    let span = (last.day - first.day).value();
    let ends = f64::midpoint(first.severity.as_percent(), last.severity.as_percent());
    (steps > 0.0).then(|| progress_area(observations) + ends * span / steps)
}

/// Area under a logistic curve through two observations, as a part times days.
///
/// # Source
/// [JEG01]. `None` where either is none or whole, or they are the same.
pub fn two_point_area(first: Fraction, last: Fraction, span: Days) -> Option<f64> {
    let logit = |y: f64| (y / (1.0 - y)).ln();
    let (y0, y1) = (first.value(), last.value());
    let inside = |y: f64| y > 0.0 && y < 1.0;
    if !inside(y0) || !inside(y1) || y0 == y1 {
        return None;
    }
    let rate = (logit(y1) - logit(y0)) / span.value();
    Some(((1.0 - y0) / (1.0 - y1)).ln() / rate)
}

/// How a two-sided exact test came out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestResult {
    pub p: Probability,
    /// The smallest p these group sizes could reach.
    pub smallest: Probability,
}

/// Exact Mann-Whitney test, two-sided; the U of the first group. `None` of an empty group, or more ways to
/// deal out the trees than can be counted through (over 20 trees).
///
/// # Source
/// [MAN47]; ties are kept and every arrangement is counted.
pub fn mann_whitney(one: &[f64], other: &[f64]) -> Option<(f64, TestResult)> {
    let u = |first: &[f64], second: &[f64]| -> f64 {
        first
            .iter()
            .flat_map(|a| {
                second.iter().map(move |b| {
                    if a > b {
                        1.0
                    } else if a == b {
                        0.5
                    } else {
                        0.0
                    }
                })
            })
            .sum()
    };
    let middle = one.len() as f64 * other.len() as f64 / 2.0;
    let observed = u(one, other);
    let result = exact(one, other, |first, second| (u(first, second) - middle).abs())?;
    Some((observed, result))
}

/// Exact permutation test of the difference of means, two-sided.
///
/// # Source
/// [FIS35]; every arrangement is counted.
pub fn permutation_of_means(one: &[f64], other: &[f64]) -> Option<TestResult> {
    let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len() as f64;
    exact(one, other, |first, second| (mean(first) - mean(second)).abs())
}

const MOST_TREES: usize = 20;

/// The share of arrangements at least as extreme as the one observed.
fn exact(one: &[f64], other: &[f64], extremity: impl Fn(&[f64], &[f64]) -> f64) -> Option<TestResult> {
    let total = one.len() + other.len();
    if one.is_empty()
        || other.is_empty()
        || total > MOST_TREES
        || one.iter().chain(other).any(|x| !x.is_finite())
    {
        return None;
    }
    const ROUNDING: f64 = 1e-9;
    let all: Vec<f64> = one.iter().chain(other).copied().collect();
    let observed = extremity(one, other);
    let (mut extreme, mut count) = (0u32, 0u32);
    let (mut first, mut second) = (Vec::with_capacity(total), Vec::with_capacity(total));
    for mask in 0u32..1 << total {
        if mask.count_ones() as usize != one.len() {
            continue;
        }
        first.clear();
        second.clear();
        for (index, value) in all.iter().enumerate() {
            if mask >> index & 1 == 1 { first.push(*value) } else { second.push(*value) }
        }
        count += 1;
        extreme += u32::from(extremity(&first, &second) >= observed - ROUNDING);
    }
    Some(TestResult {
        p: Probability::saturating(f64::from(extreme) / f64::from(count)),
        smallest: smallest_p(one.len(), other.len()),
    })
}

/// The smallest two-sided p that groups of these sizes can reach.
///
/// # Source
/// Two of the arrangements, of binomial(n, k) in all.
pub fn smallest_p(one: usize, other: usize) -> Probability {
    let ways =
        (1..=one.min(other)).fold(1.0, |ways, step| ways * (one.max(other) + step) as f64 / step as f64);
    Probability::saturating(2.0 / ways)
}

#[cfg(test)]
mod tests;
