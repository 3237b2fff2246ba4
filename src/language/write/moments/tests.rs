use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use chrono_tz::America::New_York;

use super::*;
use crate::season::garden::UnitSystem;
use crate::units::{Hemisphere, Hours};

/// A Monday, 6:30 in the morning in New York.
fn now() -> DateTime<Utc> {
    at("2013-07-08T06:30:00-04:00")
}

fn at(moment: &str) -> DateTime<Utc> {
    moment.parse().expect("a moment")
}

fn voices() -> [Voice; 2] {
    [UnitSystem::Metric, UnitSystem::Us].map(|units| Voice {
        units,
        zone: New_York,
        now: now(),
        hemisphere: Hemisphere::North,
    })
}

#[test]
fn moments_near_and_far() {
    let rows = [
        ("2013-07-08T18:30:00-04:00", "today 18:30", "today 6:30 pm"),
        ("2013-07-08T12:00:00-04:00", "today 12:00", "today noon"),
        ("2013-07-09T00:00:00-04:00", "tomorrow 00:00", "tomorrow midnight"),
        ("2013-07-09T07:00:00-04:00", "tomorrow 07:00", "tomorrow 7 am"),
        ("2013-07-12T18:30:00-04:00", "Fri 18:30", "Fri 6:30 pm"),
        ("2013-07-15T18:30:00-04:00", "15 Jul, 18:30", "Jul 15, 6:30 pm"),
        ("2013-07-07T19:05:00-04:00", "yesterday 19:05", "yesterday 7:05 pm"),
        ("2013-07-03T07:00:00-04:00", "3 Jul, 07:00", "Jul 3, 7 am"),
        ("2012-11-04T07:00:00-05:00", "4 Nov 2012, 07:00", "Nov 4 2012, 7 am"),
        // The zone's clock, not the world's: 3 in the morning there is still yesterday here.
        ("2013-07-09T03:00:00Z", "today 23:00", "today 11 pm"),
    ];
    let [metric, us] = voices();
    for (moment, in_metric, in_us) in rows {
        assert_eq!(metric.moment(at(moment)), in_metric);
        assert_eq!(us.moment(at(moment)), in_us);
    }
}

#[test]
fn days_and_nights() {
    let date = |day| NaiveDate::from_ymd_opt(2013, 7, day).expect("a date");
    let rows = [
        (7, "yesterday", "last night"),
        (8, "today", "tonight"),
        (9, "tomorrow", "tomorrow night"),
        (12, "Friday", "Friday night"),
        (14, "Sunday", "Sunday night"),
        (15, "15 Jul", "the night of 15 Jul"),
        (3, "3 Jul", "the night of 3 Jul"),
    ];
    let [metric, _] = voices();
    for (day, by_day, by_night) in rows {
        assert_eq!((metric.day(date(day)).as_str(), metric.night(date(day)).as_str()), (by_day, by_night));
    }
}

#[test]
fn stretches_have_names() {
    let rows = [
        ("2013-07-09T20:00:00-04:00", 13, "tomorrow night"),
        ("2013-07-08T21:00:00-04:00", 10, "tonight"),
        ("2013-07-07T21:00:00-04:00", 8, "last night"),
        ("2013-07-07T21:00:00-04:00", 12, "now, until 9 am"),
        ("2013-07-07T21:00:00-04:00", 30, "now, until tomorrow 3 am"),
        ("2013-07-08T07:00:00-04:00", 2, "early today"),
        ("2013-07-11T10:00:00-04:00", 7, "Thursday"),
        ("2013-07-10T18:00:00-04:00", 39, "from Wed 6 pm to Fri 9 am"),
        ("2013-06-29T21:00:00-04:00", 10, "the night of Jun 29"),
    ];
    let [_, us] = voices();
    for (from, hours, want) in rows {
        let from = at(from);
        assert_eq!(us.stretch(from, from + TimeDelta::hours(hours)), want);
    }
}

#[test]
fn windows_say_their_half_of_the_day_once() {
    let rows = [
        ("2013-07-08T07:00:00-04:00", 3, "today, 07:00 to 10:00", "today, 7 to 10 am"),
        ("2013-07-09T10:00:00-04:00", 2, "tomorrow, 10:00 to 12:00", "tomorrow, 10 am to noon"),
        ("2013-07-09T12:00:00-04:00", 2, "tomorrow, 12:00 to 14:00", "tomorrow, noon to 2 pm"),
        ("2013-07-09T09:00:00-04:00", 5, "tomorrow, 09:00 to 14:00", "tomorrow, 9 am to 2 pm"),
        ("2013-07-12T16:00:00-04:00", 2, "Fri, 16:00 to 18:00", "Fri, 4 to 6 pm"),
        ("2013-07-12T22:00:00-04:00", 4, "Fri, 22:00 to Sat 02:00", "Fri, 10 pm to Sat 2 am"),
        ("2013-07-08T06:00:00-04:00", 3, "now, until 09:00", "now, until 9 am"),
    ];
    let [metric, us] = voices();
    for (from, hours, in_metric, in_us) in rows {
        let from = at(from);
        let window = Window {
            from,
            to: from + TimeDelta::hours(hours),
            dry_after: Hours::ZERO,
            wind: None,
            hottest: None,
        };
        assert_eq!(metric.window(&window), in_metric);
        assert_eq!(us.window(&window), in_us);
    }
}
