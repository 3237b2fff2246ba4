//! The grower's own gauge beats the feed.

use chrono::{DateTime, TimeDelta, Utc};

use super::history::Gauged;
use crate::units::{Fraction, Millimetres};
use crate::weather::{Hour, Origin, Series};

/// A reading covers the time since the last one, a day at the most. common practice: gauges are
/// read in the morning and emptied.
const LONGEST_READING: TimeDelta = TimeDelta::hours(24);

/// Air humid enough that rain may have fallen in an hour the feed called dry.
const RAINY_AIR: f64 = 0.85;

/// The series with the rain of gauged times made to sum to what the gauge held. Where the feed had
/// rain its hours are scaled; where it had none the water is laid on the most humid hours.
pub fn corrected(weather: &Series, readings: &[Gauged]) -> Series {
    if readings.is_empty() {
        return weather.clone();
    }
    let mut hours = weather.hours().to_vec();
    let mut previous: Option<DateTime<Utc>> = None;
    for reading in readings {
        let from =
            previous.map_or(reading.at - LONGEST_READING, |before| before.max(reading.at - LONGEST_READING));
        let low = hours.partition_point(|hour| hour.end() <= from);
        let high = hours.partition_point(|hour| hour.start < reading.at).max(low);
        lay(&mut hours[low..high], reading.depth);
        previous = Some(reading.at);
    }
    Series::from_hours(hours)
}

fn lay(hours: &mut [Hour], depth: Millimetres) {
    if hours.is_empty() {
        return;
    }
    let fed: Millimetres = hours.iter().filter_map(|hour| hour.rain).sum();
    if fed > Millimetres::ZERO {
        let factor = depth / fed;
        for hour in hours.iter_mut() {
            hour.rain = Some(hour.rain.unwrap_or(Millimetres::ZERO) * factor);
        }
        return;
    }
    let humid = |hour: &Hour| hour.humidity.is_some_and(|humidity| humidity.value() >= RAINY_AIR);
    let count = hours.iter().filter(|hour| humid(hour)).count();
    let share = Fraction::saturating(1.0 / if count == 0 { hours.len() } else { count } as f64);
    for hour in hours.iter_mut() {
        let takes = count == 0 || humid(hour);
        hour.rain = Some(if takes { depth * share.value() } else { Millimetres::ZERO });
        if hour.origin == Origin::Unknown {
            hour.origin = Origin::Observed;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn series(rain: &[f64]) -> Series {
        Series::from_hours(rain.iter().enumerate().map(|(index, rain)| Hour {
            rain: Some(Millimetres::new(*rain)),
            origin: Origin::Modelled,
            ..Hour::unknown(DateTime::UNIX_EPOCH + TimeDelta::hours(index as i64))
        }))
    }

    fn total(series: &Series) -> f64 {
        series.hours().iter().filter_map(|hour| hour.rain).sum::<Millimetres>().value()
    }

    #[test]
    fn rain_sums_to_the_gauge_whatever_the_feed_said() {
        let at = |hours| DateTime::UNIX_EPOCH + TimeDelta::hours(hours);
        for (fed, gauge) in [(&[0.0; 12], 7.5), (&[1.0; 12], 7.5), (&[2.0; 12], 0.0)] {
            let readings = [Gauged { at: at(12), depth: Millimetres::new(gauge) }];
            assert!((total(&corrected(&series(fed), &readings)) - gauge).abs() < 1e-9);
        }
    }

    #[test]
    fn a_second_reading_covers_only_the_time_since_the_first() {
        let at = |hours| DateTime::UNIX_EPOCH + TimeDelta::hours(hours);
        let readings = [
            Gauged { at: at(6), depth: Millimetres::new(3.0) },
            Gauged { at: at(12), depth: Millimetres::new(4.0) },
        ];
        assert!((total(&corrected(&series(&[1.0; 12]), &readings)) - 7.0).abs() < 1e-9);
    }
}
