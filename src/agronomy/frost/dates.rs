use chrono::{Datelike, NaiveDate, TimeDelta};

use crate::units::{Celsius, CelsiusDelta, Fraction, Hemisphere};

/// The first freeze of fall or the last of spring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FreezeSide {
    FirstOfFall,
    LastOfSpring,
}

/// Freeze dates of the seasons of a record: days after the start of the half-year searched.
#[derive(Clone, Debug, PartialEq)]
pub struct FreezeDates {
    /// In order, those seasons that had a freeze; days since 1 January of the season's calendar year.
    days: Vec<f64>,
    /// Seasons with enough days to be counted, with or without a freeze.
    seasons: u32,
}

/// How a percentile is read from few values; they differ by days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Linear between order statistics, the ends at 0 and 100 %.
    Linear,
    /// Weibull's plotting position, rank / (n + 1).
    Weibull,
    /// A normal distribution fitted to the seasons that had a freeze.
    Normal,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Percentile {
    /// Days since 1 January, not a leap year.
    Day(f64),
    /// Fewer seasons than that had a freeze at all.
    NoFreeze,
}

/// Lowest and highest daily minima that can be true outdoors where figs grow.
const BELIEVABLE: (Celsius, Celsius) = (Celsius::new(-45.0), Celsius::new(40.0));
/// A minimum that leaps so far from both its neighbours is a fault of the record. common practice.
const SPIKE: CelsiusDelta = CelsiusDelta::new(20.0);
/// A season with this many days missing before its date is not counted ([UCC]).
const MOST_MISSING: i64 = 10;

/// The record without what cannot be true: impossible values, and leaps away from both neighbours.
///
/// # Source
/// Neighbour and bounds tests as climate services run them; the figures are common practice.
pub fn quality_controlled(minima: &[(NaiveDate, Celsius)]) -> Vec<(NaiveDate, Celsius)> {
    let (low, high) = BELIEVABLE;
    let believable: Vec<(NaiveDate, Celsius)> =
        minima.iter().copied().filter(|(_, minimum)| (low..=high).contains(minimum)).collect();
    let neighbour =
        |index: Option<usize>| index.and_then(|index| believable.get(index)).map(|(_, minimum)| *minimum);
    believable
        .iter()
        .enumerate()
        .filter(|(index, (_, minimum))| {
            let leaps = [neighbour(index.checked_sub(1)), neighbour(Some(index + 1))]
                .into_iter()
                .flatten()
                .map(|beside| (beside - *minimum).value())
                .collect::<Vec<f64>>();
            !(leaps.len() == 2 && leaps.iter().all(|leap| *leap > SPIKE.value()))
        })
        .map(|(_, day)| *day)
        .collect()
}

/// The freeze dates of a record of daily minima (in order of date), at or below a threshold.
///
/// The year is split on 24 July in the north and 24 January in the south; a season that lacks ten days or
/// more before its date is left out.
///
/// # Source
/// [UCC] for the split and the missing days.
pub fn freeze_dates(
    minima: &[(NaiveDate, Celsius)],
    threshold: Celsius,
    side: FreezeSide,
    hemisphere: Hemisphere,
) -> FreezeDates {
    let mut dates = FreezeDates { days: Vec::new(), seasons: 0 };
    let (Some(first), Some(last)) = (minima.first(), minima.last()) else { return dates };
    for year in first.0.year() - 1..=last.0.year() {
        let Some((from, to)) = half_year(year, side, hemisphere) else { continue };
        let low = minima.partition_point(|(date, _)| *date < from);
        let high = minima.partition_point(|(date, _)| *date < to);
        dates.add_season(&minima[low..high], from, to, threshold, side);
    }
    dates.days.sort_by(f64::total_cmp);
    dates
}

/// The half-year searched: for the fall of a season from its split on, for the spring up to it.
fn half_year(year: i32, side: FreezeSide, hemisphere: Hemisphere) -> Option<(NaiveDate, NaiveDate)> {
    let month = if hemisphere == Hemisphere::North { 7 } else { 1 };
    let split = NaiveDate::from_ymd_opt(year, month, 24)?;
    let half = TimeDelta::days(182);
    Some(match side {
        FreezeSide::FirstOfFall => (split, split + half),
        FreezeSide::LastOfSpring => (split - half, split),
    })
}

impl FreezeDates {
    fn add_season(
        &mut self,
        days: &[(NaiveDate, Celsius)],
        from: NaiveDate,
        to: NaiveDate,
        threshold: Celsius,
        side: FreezeSide,
    ) {
        let freezes = |day: &&(NaiveDate, Celsius)| day.1 <= threshold;
        let found = match side {
            FreezeSide::FirstOfFall => days.iter().find(freezes),
            FreezeSide::LastOfSpring => days.iter().rev().find(freezes),
        };
        // Days that should be on record between the date and the midsummer end of the half-year.
        let (start, end) = match (side, found) {
            (FreezeSide::FirstOfFall, Some((date, _))) => (from, *date),
            (FreezeSide::LastOfSpring, Some((date, _))) => (*date, to),
            (_, None) => (from, to),
        };
        let due = (end - start).num_days();
        let had = days.iter().filter(|(date, _)| *date >= start && *date < end).count() as i64;
        if due - had >= MOST_MISSING {
            return;
        }
        self.seasons += 1;
        if let Some((date, _)) = found {
            // Counted in the calendar year the half-year begins in for falls, ends in for springs, leap
            // days left out, so that dates of different years are the same day.
            let year = match side {
                FreezeSide::FirstOfFall => from.year(),
                FreezeSide::LastOfSpring => to.year(),
            };
            self.days.push(day_of(*date, year));
        }
    }

    /// From days since 1 January directly, with the number of seasons they come from.
    ///
    /// # Source
    /// The caller's.
    pub fn from_days(mut days: Vec<f64>, seasons: u32) -> Self {
        days.sort_by(f64::total_cmp);
        Self { days, seasons }
    }

    pub fn seasons(&self) -> u32 {
        self.seasons
    }

    /// The share of seasons that had a freeze.
    pub fn share(&self) -> Fraction {
        Fraction::saturating(self.days.len() as f64 / f64::from(self.seasons.max(1)))
    }

    /// The day by which a share of seasons had (fall) or still had to have (spring) its freeze. `None`
    /// without seasons. Seasons without a freeze count: a percentile beyond the share that froze has no date.
    ///
    /// # Source
    /// [THOM58] for the mixed distribution; the rules are those of the enum.
    pub fn percentile(&self, share: Fraction, rule: Rule) -> Option<Percentile> {
        if self.days.is_empty() {
            return (self.seasons > 0).then_some(Percentile::NoFreeze);
        }
        let within = share.value() / self.share().value();
        if within > 1.0 {
            return Some(Percentile::NoFreeze);
        }
        Some(Percentile::Day(match rule {
            Rule::Linear => self.order_statistic(within * (self.days.len() - 1) as f64),
            Rule::Weibull => self.order_statistic(within * (self.days.len() + 1) as f64 - 1.0),
            Rule::Normal => {
                if within >= 1.0 {
                    return Some(Percentile::NoFreeze);
                }
                let (mean, deviation) = self.moments();
                mean + deviation * normal_quantile(within)
            }
        }))
    }

    /// Mean and standard deviation (of a sample) of the seasons that had a freeze.
    ///
    /// # Source
    /// [THOM58].
    pub fn moments(&self) -> (f64, f64) {
        let count = self.days.len() as f64;
        let mean = self.days.iter().sum::<f64>() / count;
        let squares: f64 = self.days.iter().map(|day| (day - mean).powi(2)).sum();
        (mean, (squares / (count - 1.0).max(1.0)).sqrt())
    }

    fn order_statistic(&self, rank: f64) -> f64 {
        let rank = rank.clamp(0.0, (self.days.len() - 1) as f64);
        let below = rank.floor() as usize;
        let above = (below + 1).min(self.days.len() - 1);
        self.days[below] + (self.days[above] - self.days[below]) * rank.fract()
    }
}

/// Day of the year without leap days, continued into the next year.
fn day_of(date: NaiveDate, year: i32) -> f64 {
    let leap_past = date.leap_year() && date.ordinal() > 59;
    let ordinal = f64::from(date.ordinal()) - f64::from(u8::from(leap_past));
    ordinal + 365.0 * f64::from(date.year() - year)
}

/// Acklam's rational approximation, refined once; relative error under 1e-9. from memory, not re-read, and
/// checked against scipy in the tests.
#[expect(clippy::excessive_precision, reason = "coefficients as published")]
fn normal_quantile(p: f64) -> f64 {
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
    if p < TAIL {
        tail(p)
    } else if p > 1.0 - TAIL {
        -tail(1.0 - p)
    } else {
        let q = p - 0.5;
        let r = q * q;
        polynomial(&A, r) * q / (polynomial(&B, r) * r + 1.0)
    }
}
