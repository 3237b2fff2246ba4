//! First and last freezes, season by season, and the dates by which one season in ten had its own.

use chrono::{Datelike, NaiveDate};

use super::DailyMinima;
use super::normal::normal_quantile;
use crate::agronomy::quantiles::{Position, quantile};
use crate::units::{Celsius, DayOfYear, Days, Fraction, Hemisphere};

/// The first freeze of fall or the last of spring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FreezeSide {
    FirstOfFall,
    LastOfSpring,
}

/// One season's first or last freeze.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FreezeSeason {
    /// The year its dates are counted in: that of the midsummer before for a fall, after for a spring.
    pub year: i32,
    /// `None` for a season that had no freeze.
    pub freeze: Option<NaiveDate>,
}

/// Freeze dates of the seasons of a record.
#[derive(Clone, Debug, PartialEq)]
pub struct FreezeDates {
    side: FreezeSide,
    /// Of those seasons that had a freeze, ascending; see [`DayOfYear`].
    days: Vec<f64>,
    /// Seasons with enough days on record to count, with or without a freeze.
    seasons: usize,
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
    /// In the count of the season's year.
    Day(DayOfYear),
    /// So many seasons have no freeze at all that there is no such date.
    NoFreeze,
}

/// Below this many seasons a place's dates are not known. common practice; 30 are better.
pub const LEAST_SEASONS: usize = 10;
/// A season with this many days missing between midsummer and its date is not counted ([UCC]).
const MOST_MISSING: i64 = 10;

impl DailyMinima {
    /// The first or last freeze of each season whose minima reach a threshold: `None` for a season without
    /// one. A season runs from midsummer to midsummer, split on 24 July in the north and 24 January in the
    /// south; one that lacks ten days or more between midsummer and its date is left out.
    ///
    /// # Source
    /// [UCC] for the split and the missing days.
    pub fn freeze_seasons(
        &self,
        threshold: Celsius,
        side: FreezeSide,
        hemisphere: Hemisphere,
    ) -> Vec<FreezeSeason> {
        let (Some(first), Some(last)) = (self.days().first(), self.days().last()) else { return Vec::new() };
        (first.0.year() - 1..=last.0.year() + 1)
            .filter_map(|year| self.freeze_season(year, threshold, side, hemisphere))
            .collect()
    }

    /// The same, as a distribution to read percentiles from.
    ///
    /// # Source
    /// [UCC], as [`DailyMinima::freeze_seasons`].
    pub fn freeze_dates(&self, threshold: Celsius, side: FreezeSide, hemisphere: Hemisphere) -> FreezeDates {
        let seasons = self.freeze_seasons(threshold, side, hemisphere);
        let days = seasons
            .iter()
            .filter_map(|season| Some(DayOfYear::counted_from(season.year, season.freeze?)))
            .collect();
        FreezeDates::of(side, days, seasons.len())
    }

    fn freeze_season(
        &self,
        year: i32,
        threshold: Celsius,
        side: FreezeSide,
        hemisphere: Hemisphere,
    ) -> Option<FreezeSeason> {
        let (from, to) = match side {
            FreezeSide::FirstOfFall => (midsummer(year, hemisphere)?, midsummer(year + 1, hemisphere)?),
            FreezeSide::LastOfSpring => (midsummer(year - 1, hemisphere)?, midsummer(year, hemisphere)?),
        };
        let at = |date: NaiveDate| self.days().partition_point(|day| day.0 < date);
        let days = &self.days()[at(from)..at(to)];
        let freezes = |day: &&(NaiveDate, Celsius)| day.1 <= threshold;
        let (freeze, due, had) = match side {
            FreezeSide::FirstOfFall => {
                let freeze = days.iter().find(freezes).map(|day| day.0);
                let end = freeze.unwrap_or(to);
                (freeze, end - from, days.iter().filter(|day| day.0 < end).count())
            }
            FreezeSide::LastOfSpring => {
                let freeze = days.iter().rev().find(freezes).map(|day| day.0);
                let start = freeze.unwrap_or(from);
                (freeze, to - start, days.iter().filter(|day| day.0 >= start).count())
            }
        };
        (due.num_days() - (had as i64) < MOST_MISSING).then_some(FreezeSeason { year, freeze })
    }
}

fn midsummer(year: i32, hemisphere: Hemisphere) -> Option<NaiveDate> {
    let month = if hemisphere == Hemisphere::North { 7 } else { 1 };
    NaiveDate::from_ymd_opt(year, month, 24)
}

impl FreezeDates {
    /// From the days of those seasons that had a freeze, and the number of all seasons looked at.
    ///
    /// # Source
    /// The caller's.
    pub fn of(side: FreezeSide, days: Vec<DayOfYear>, seasons: usize) -> Self {
        let mut days: Vec<f64> =
            days.into_iter().map(DayOfYear::value).filter(|day| day.is_finite()).collect();
        days.sort_by(f64::total_cmp);
        let seasons = seasons.max(days.len());
        Self { side, days, seasons }
    }

    pub fn seasons(&self) -> usize {
        self.seasons
    }

    /// The share of seasons that had a freeze.
    pub fn share(&self) -> Fraction {
        Fraction::saturating(self.days.len() as f64 / self.seasons.max(1) as f64)
    }

    /// Only the seasons that had a freeze, as many published tables count.
    ///
    /// # Source
    /// [THOM58]: the conditional distribution.
    pub fn of_freezing_seasons(&self) -> FreezeDates {
        Self { seasons: self.days.len(), ..self.clone() }
    }

    /// The day by which a share of seasons had their first freeze of fall, or had seen their last of spring.
    /// Seasons without a freeze count: in fall as never, in spring as before any date, so that some shares
    /// have no date. `None` of fewer than [`LEAST_SEASONS`].
    ///
    /// # Source
    /// [THOM58] for the mixed distribution, P(freeze by d) = q · F(d); the rules are those of the enum.
    pub fn percentile(&self, share: Fraction, rule: Rule) -> Option<Percentile> {
        if self.seasons < LEAST_SEASONS {
            return None;
        }
        let freezing = self.share().value();
        let within = match self.side {
            FreezeSide::FirstOfFall => share.value() / freezing,
            FreezeSide::LastOfSpring => 1.0 - (1.0 - share.value()) / freezing,
        };
        let day = Fraction::new(rounded(within)).and_then(|within| self.day_within(within, rule));
        Some(day.map_or(Percentile::NoFreeze, |day| Percentile::Day(DayOfYear::new(day))))
    }

    fn day_within(&self, within: Fraction, rule: Rule) -> Option<f64> {
        match rule {
            Rule::Linear => quantile(&self.days, within, Position::Linear),
            Rule::Weibull => quantile(&self.days, within, Position::Weibull),
            Rule::Normal => {
                let (mean, deviation) = self.moments()?;
                Some(mean.value() + deviation.value() * normal_quantile(within)?)
            }
        }
    }

    /// Mean and standard deviation (of a sample) of the seasons that had a freeze. `None` of fewer than two.
    ///
    /// # Source
    /// [THOM58].
    pub fn moments(&self) -> Option<(DayOfYear, Days)> {
        if self.days.len() < 2 {
            return None;
        }
        let count = self.days.len() as f64;
        let mean = self.days.iter().sum::<f64>() / count;
        let squares: f64 = self.days.iter().map(|day| (day - mean).powi(2)).sum();
        Some((DayOfYear::new(mean), Days::new((squares / (count - 1.0)).sqrt())))
    }
}

/// Without the last digits, which a division leaves wrong: 0.9 of 9 in 10 is all of them.
fn rounded(share: f64) -> f64 {
    (share * 1e9).round() / 1e9
}
