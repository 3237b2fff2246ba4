use std::ops::Range;
use std::sync::Arc;

use chrono::{DateTime, TimeDelta, Utc};

use super::{Hour, Origin, hour_of};

/// Consecutive hours without a hole: an hour no source had is there, and unknown.
///
/// A year of hours is more than a megabyte, and every decision is handed one: a clone shares them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Series {
    hours: Arc<Vec<Hour>>,
}

impl Series {
    /// From hours in any order. Of two for the same time the later in the list wins; hours
    /// nobody had between the first and the last are filled in as unknown.
    ///
    /// A span of more than ten years is refused by keeping only the last ten: one absurd time
    /// stamp must not cost the memory of the whole program.
    pub fn from_hours(hours: impl IntoIterator<Item = Hour>) -> Self {
        const LONGEST: i64 = 10 * 366 * 24;
        let mut hours: Vec<Hour> =
            hours.into_iter().map(|hour| Hour { start: hour_of(hour.start), ..hour }).collect();
        // Stable, so among equals the order given is kept and the last can win.
        hours.sort_by_key(|hour| hour.start);
        let Some(last) = hours.last().map(|hour| hour.start) else {
            return Self::default();
        };
        let earliest = last.checked_sub_signed(TimeDelta::hours(LONGEST)).unwrap_or(DateTime::<Utc>::MIN_UTC);
        let mut filled: Vec<Hour> = Vec::with_capacity(hours.len());
        for hour in hours.into_iter().filter(|hour| hour.start >= earliest) {
            while let Some(previous) = filled.last() {
                if hour.start <= previous.end() {
                    break;
                }
                filled.push(Hour::unknown(previous.end()));
            }
            match filled.last_mut() {
                Some(previous) if previous.start == hour.start => *previous = hour,
                _ => filled.push(hour),
            }
        }
        Self { hours: Arc::new(filled) }
    }

    pub fn hours(&self) -> &[Hour] {
        &self.hours
    }

    pub fn is_empty(&self) -> bool {
        self.hours.is_empty()
    }

    pub fn start(&self) -> Option<DateTime<Utc>> {
        self.hours.first().map(|hour| hour.start)
    }

    /// The end of the last hour.
    pub fn end(&self) -> Option<DateTime<Utc>> {
        self.hours.last().map(Hour::end)
    }

    /// The hour a moment lies in.
    pub fn at(&self, moment: DateTime<Utc>) -> Option<&Hour> {
        let first = self.start()?;
        let index = (hour_of(moment) - first).num_hours();
        self.hours.get(usize::try_from(index).ok()?)
    }

    /// The hours that start within `[from, to)`.
    pub fn between(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> &[Hour] {
        &self.hours[self.indices(from, to)]
    }

    /// Those of `later` laid over this series: known hours win over unknown ones, and the later
    /// source wins where both know.
    pub fn merged(&self, later: &Series) -> Series {
        let known = |hour: &&Hour| hour.origin != Origin::Unknown;
        Series::from_hours(self.hours.iter().filter(known).chain(later.hours.iter().filter(known)).copied())
    }

    /// Only the hours that start before a moment.
    pub fn until(&self, moment: DateTime<Utc>) -> Series {
        let end = self.hours.partition_point(|hour| hour.start < moment);
        Series { hours: Arc::new(self.hours[..end].to_vec()) }
    }

    fn indices(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> Range<usize> {
        let low = self.before(from);
        low..self.before(to).max(low)
    }

    /// How many hours start before a moment: without a hole among them, their place tells their time.
    fn before(&self, moment: DateTime<Utc>) -> usize {
        const HOUR: i64 = 3600;
        let Some(first) = self.start() else { return 0 };
        let since = moment - first;
        let seconds = since.num_seconds() + i64::from(since.subsec_nanos() > 0);
        let hours = if seconds <= 0 { 0 } else { (seconds - 1) / HOUR + 1 };
        usize::try_from(hours).map_or(self.hours.len(), |hours| hours.min(self.hours.len()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Celsius;

    fn hour(offset: i64, celsius: f64) -> Hour {
        let start = DateTime::<Utc>::UNIX_EPOCH + TimeDelta::hours(offset);
        Hour { temperature: Some(Celsius::new(celsius)), origin: Origin::Observed, ..Hour::unknown(start) }
    }

    #[test]
    fn gaps_are_filled_with_unknown_hours_and_the_last_of_equals_wins() {
        let series = Series::from_hours([hour(3, 3.0), hour(0, 0.0), hour(0, 1.0)]);
        let temperatures: Vec<_> =
            series.hours().iter().map(|hour| hour.temperature.map(Celsius::value)).collect();
        assert_eq!(temperatures, [Some(1.0), None, None, Some(3.0)]);
        assert_eq!(series.hours()[1].origin, Origin::Unknown);
    }

    #[test]
    fn a_moment_finds_its_hour() {
        let series = Series::from_hours([hour(0, 0.0), hour(1, 1.0), hour(2, 2.0)]);
        let at = |minutes| series.at(DateTime::<Utc>::UNIX_EPOCH + TimeDelta::minutes(minutes));
        assert_eq!(at(119).and_then(|hour| hour.temperature), Some(Celsius::new(1.0)));
        assert_eq!(at(-1), None);
        assert_eq!(at(180), None);
    }

    #[test]
    fn hours_between_moments_are_those_that_start_there() {
        let series = Series::from_hours([hour(2, 2.0), hour(3, 3.0), hour(4, 4.0)]);
        let at = |minutes, nanos| {
            DateTime::<Utc>::UNIX_EPOCH + TimeDelta::minutes(minutes) + TimeDelta::nanoseconds(nanos)
        };
        for from in (-60..400).step_by(15) {
            for to in (-60..400).step_by(15) {
                for nanos in [-1, 0, 1] {
                    let (from, to) = (at(from, nanos), at(to, 0));
                    let want: Vec<Hour> = series
                        .hours()
                        .iter()
                        .filter(|hour| hour.start >= from && hour.start < to)
                        .copied()
                        .collect();
                    assert_eq!(series.between(from, to), want, "{from} {to}");
                }
            }
        }
        assert_eq!(Series::default().between(at(0, 0), at(60, 0)), []);
    }

    #[test]
    fn an_absurd_time_stamp_does_not_cost_memory() {
        let series = Series::from_hours([hour(-200_000_000, 0.0), hour(0, 0.0)]);
        assert!(series.hours().len() <= 10 * 366 * 24 + 1);
    }

    #[test]
    fn merging_keeps_what_is_known() {
        let early = Series::from_hours([hour(0, 0.0), hour(1, 1.0)]);
        let later = Series::from_hours([hour(1, 9.0), hour(4, 4.0)]);
        let merged = early.merged(&later);
        let temperatures: Vec<_> =
            merged.hours().iter().map(|hour| hour.temperature.map(Celsius::value)).collect();
        assert_eq!(temperatures, [Some(0.0), Some(9.0), None, None, Some(4.0)]);
    }
}
