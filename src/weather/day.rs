use chrono::{DateTime, NaiveDate, TimeZone, Utc};

use super::Hour;
use crate::units::{Celsius, Millimetres};

/// One local calendar day of a series. Aggregates only over known hours; how many there were is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Day {
    pub date: NaiveDate,
    pub minimum: Option<Celsius>,
    pub maximum: Option<Celsius>,
    pub mean: Option<Celsius>,
    pub rain: Option<Millimetres>,
    /// Hours with a temperature, of the 23, 24 or 25 of the local day.
    pub known_hours: u32,
}

/// The local calendar days that hours (in order) fall on, in order.
pub fn days<Zone: TimeZone>(hours: &[Hour], zone: &Zone) -> Vec<Day> {
    // Each hour is asked once for its date: the clock changes of a zone are looked up for it.
    let mut dates: Vec<(NaiveDate, std::ops::Range<usize>)> = Vec::with_capacity(hours.len() / 24 + 2);
    for (index, hour) in hours.iter().enumerate() {
        let date = local_date(hour.start, zone);
        match dates.last_mut() {
            Some((last, range)) if *last == date => range.end = index + 1,
            _ => dates.push((date, index..index + 1)),
        }
    }
    let mut days: Vec<Day> = Vec::with_capacity(dates.len());
    for (date, range) in dates {
        let group = &hours[range];
        let temperatures = || group.iter().filter_map(|hour| hour.temperature);
        let rains = || group.iter().filter_map(|hour| hour.rain);
        days.push(Day {
            date,
            minimum: temperatures().reduce(Celsius::min),
            maximum: temperatures().reduce(Celsius::max),
            mean: Celsius::mean(temperatures()),
            rain: rains().next().is_some().then(|| rains().sum::<Millimetres>()),
            known_hours: temperatures().count() as u32,
        });
    }
    days
}

fn local_date<Zone: TimeZone>(moment: DateTime<Utc>, zone: &Zone) -> NaiveDate {
    moment.with_timezone(zone).date_naive()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::weather::Series;
    use chrono::TimeDelta;
    use chrono_tz::America::New_York;

    #[test]
    fn days_have_23_and_25_hours_at_the_clock_changes() {
        // 10 March and 3 November 2013, New York (IANA time zone database).
        let start = Utc.with_ymd_and_hms(2013, 3, 10, 5, 0, 0).single();
        let autumn = Utc.with_ymd_and_hms(2013, 11, 3, 4, 0, 0).single();
        for (start, length) in [(start, 23), (autumn, 25)] {
            let start = start.expect("a time");
            let series = Series::from_hours((0..48).map(|offset| Hour {
                temperature: Some(Celsius::new(offset as f64)),
                ..Hour::unknown(start + TimeDelta::hours(offset))
            }));
            assert_eq!(days(series.hours(), &New_York)[0].known_hours, length);
        }
    }
}
