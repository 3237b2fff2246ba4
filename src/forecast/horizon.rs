use chrono::{DateTime, TimeDelta, Utc};

use crate::weather::{Hour, Origin, Series, hour_of};

/// How far ahead a forecast is asked for.
pub(super) const DAYS_AHEAD: i64 = 10;

/// The step, in hours, of the models behind a forecast this long ahead: hours come from the feed as far as
/// the tenth day, but after the fifth they are interpolated and rain is spread evenly over them.
///
/// # Source
/// Open-Meteo's documentation: far hours are interpolated from the 3- and 6-hourly steps of the global
/// models (its issue 168 reports the wet hours this overcounts). Where that begins at a place is
/// not published; five days is the outer end of what users report, and taken here.
pub fn native_step(ahead: TimeDelta) -> u8 {
    match ahead.num_hours() {
        ..120 => 1,
        120..144 => 3,
        _ => 6,
    }
}

/// What an hour of a forecast is at `now`: those over are a model's account of the past. `step` is
/// the feed's own, in hours; an hourly one is believed only as far as models have one.
pub(super) fn origin(start: DateTime<Utc>, now: DateTime<Utc>, step: u8) -> Origin {
    let present = hour_of(now);
    if start < present {
        return Origin::Modelled;
    }
    Origin::Forecast { native_step: native_step(start - present).max(step) }
}

/// Whether a time stamp is a whole hour and near enough to the present to be weather and not a fault.
pub(super) fn is_near(label: DateTime<Utc>, now: DateTime<Utc>) -> bool {
    const PAST: TimeDelta = TimeDelta::days(100);
    const FUTURE: TimeDelta = TimeDelta::days(20);
    hour_of(label) == label && (-PAST..=FUTURE).contains(&label.signed_duration_since(now))
}

/// What a forecast made at `now` would say, had it been right: hours of a recorded series from
/// `now` on, ten days of them, marked as a forecast; hours before stay as they are.
pub fn as_forecast(recorded: &Series, now: DateTime<Utc>) -> Series {
    let present = hour_of(now);
    let seen = recorded.until(present + TimeDelta::days(DAYS_AHEAD));
    Series::from_hours(seen.hours().iter().map(|hour| match hour.origin {
        Origin::Unknown => *hour,
        _ if hour.start < present => *hour,
        _ => Hour { origin: Origin::Forecast { native_step: native_step(hour.start - present) }, ..*hour },
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recorded_year_is_seen_as_far_as_a_feed_would_see() {
        let first = DateTime::<Utc>::UNIX_EPOCH;
        let recorded =
            Series::from_hours((0..24 * 30).map(|hour| Hour {
                origin: Origin::Observed,
                ..Hour::unknown(first + TimeDelta::hours(hour))
            }));
        let now = first + TimeDelta::minutes(24 * 60 + 30);
        let seen = as_forecast(&recorded, now);
        let origin = |hours| seen.at(first + TimeDelta::hours(hours)).map(|hour| hour.origin);
        assert_eq!(origin(23), Some(Origin::Observed));
        assert_eq!(origin(24), Some(Origin::Forecast { native_step: 1 }));
        assert_eq!(origin(24 + 119), Some(Origin::Forecast { native_step: 1 }));
        assert_eq!(origin(24 + 120), Some(Origin::Forecast { native_step: 3 }));
        assert_eq!(origin(24 + 239), Some(Origin::Forecast { native_step: 6 }));
        assert_eq!(origin(24 + 240), None);
    }
}
