//! A record of daily minima, without the values that cannot be true.

use chrono::{Datelike, NaiveDate, TimeDelta};

use crate::agronomy::quantiles::biweight;
use crate::units::{Celsius, CelsiusDelta, DayOfYear};

/// Lowest and highest daily minima that can be true where figs are grown. common practice.
const BELIEVABLE: (Celsius, Celsius) = (Celsius::new(-45.0), Celsius::new(40.0));
/// A minimum that leaps so far, the same way, from the day before and the day after is a fault ([DUR10]).
const SPIKE: CelsiusDelta = CelsiusDelta::new(25.0);
/// A minimum so many standard deviations from its time of year is a fault ([DUR10]).
const OUTLIER: f64 = 6.0;
/// Days to each side that make up a time of year, and the values it takes to judge by it ([DUR10]).
const WINDOW: usize = 7;
const LEAST_VALUES: usize = 100;
const YEAR: usize = 365;

/// Daily minima in order of date, one a date, checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DailyMinima {
    days: Vec<(NaiveDate, Celsius)>,
    rejected: Vec<Rejected>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rejected {
    pub date: NaiveDate,
    pub minimum: Celsius,
    pub fault: Fault,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// No such temperature where figs grow, or not a number.
    Impossible,
    /// The date has another minimum as well; neither is believed.
    Contradicted,
    /// Leaps away from both its neighbours.
    Spike,
    /// Far from everything else on record for its time of year.
    Outlier,
}

/// What is wrong with each of a record's days.
type Check = fn(&[(NaiveDate, Celsius)]) -> Vec<Option<Fault>>;

impl DailyMinima {
    /// Sorts a record and sets aside what cannot be true. What was set aside is kept for the operator's eyes.
    /// Outliers are only looked for where the record holds a hundred values for a time of year: seven years.
    ///
    /// # Source
    /// [DUR10] for spikes and outliers, from memory, not re-read (the list of checks: seen).
    pub fn checked(minima: impl IntoIterator<Item = (NaiveDate, Celsius)>) -> Self {
        let mut days: Vec<_> = minima.into_iter().collect();
        days.sort_by(|one, next| one.0.cmp(&next.0).then_with(|| one.1.total_cmp(&next.1)));
        days.dedup();
        let mut record = DailyMinima { days, rejected: Vec::new() };
        record.reject(impossible);
        record.reject(contradicted);
        record.reject(spikes);
        record.reject(outliers);
        record
    }

    /// # Source
    /// What stands after the checks.
    pub fn days(&self) -> &[(NaiveDate, Celsius)] {
        &self.days
    }

    /// # Source
    /// What the checks set aside, by check and then by date.
    pub fn rejected(&self) -> &[Rejected] {
        &self.rejected
    }

    fn reject(&mut self, faults: Check) {
        let faults = faults(&self.days);
        let mut kept = Vec::with_capacity(self.days.len());
        for ((date, minimum), fault) in self.days.drain(..).zip(faults) {
            match fault {
                Some(fault) => self.rejected.push(Rejected { date, minimum, fault }),
                None => kept.push((date, minimum)),
            }
        }
        self.days = kept;
    }
}

fn impossible(days: &[(NaiveDate, Celsius)]) -> Vec<Option<Fault>> {
    let (low, high) = BELIEVABLE;
    days.iter().map(|(_, minimum)| (!(low..=high).contains(minimum)).then_some(Fault::Impossible)).collect()
}

fn contradicted(days: &[(NaiveDate, Celsius)]) -> Vec<Option<Fault>> {
    let dated = |index: Option<usize>| index.and_then(|index| days.get(index)).map(|day| day.0);
    days.iter()
        .enumerate()
        .map(|(index, (date, _))| {
            let beside = [dated(index.checked_sub(1)), dated(Some(index + 1))];
            beside.contains(&Some(*date)).then_some(Fault::Contradicted)
        })
        .collect()
}

fn spikes(days: &[(NaiveDate, Celsius)]) -> Vec<Option<Fault>> {
    let mut faults = vec![None; days.len()];
    for (index, three) in days.windows(3).enumerate() {
        let [before, day, after] = three else { continue };
        let adjacent = after.0 - before.0 == TimeDelta::days(2);
        let (rise, fall) = (day.1 - before.1, day.1 - after.1);
        let leaps = rise.min(fall) >= SPIKE || rise.max(fall) <= -SPIKE;
        if adjacent && leaps {
            faults[index + 1] = Some(Fault::Spike);
        }
    }
    faults
}

fn outliers(days: &[(NaiveDate, Celsius)]) -> Vec<Option<Fault>> {
    let mut by_day: Vec<Vec<f64>> = vec![Vec::new(); YEAR];
    for (date, minimum) in days {
        by_day[slot(*date)].push(minimum.value());
    }
    let usual: Vec<Option<(f64, f64)>> = (0..YEAR).map(|slot| usual(&by_day, slot)).collect();
    days.iter()
        .map(|(date, minimum)| {
            let (mean, deviation) = usual[slot(*date)]?;
            let off = (minimum.value() - mean).abs();
            (deviation > 0.0 && off >= OUTLIER * deviation).then_some(Fault::Outlier)
        })
        .collect()
}

fn usual(by_day: &[Vec<f64>], middle: usize) -> Option<(f64, f64)> {
    let values: Vec<f64> = (YEAR + middle - WINDOW..=YEAR + middle + WINDOW)
        .flat_map(|day| by_day[day % YEAR].iter().copied())
        .collect();
    (values.len() >= LEAST_VALUES).then(|| biweight(&values))?
}

fn slot(date: NaiveDate) -> usize {
    DayOfYear::counted_from(date.year(), date).value() as usize - 1
}
