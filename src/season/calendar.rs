//! The garden's own days and seasons.

use chrono::{DateTime, Datelike, NaiveDate, NaiveTime, TimeDelta, TimeZone, Utc};
use chrono_tz::Tz;

use crate::units::Hemisphere;

/// The local date of a moment.
pub fn local_date(moment: DateTime<Utc>, zone: Tz) -> NaiveDate {
    moment.with_timezone(&zone).date_naive()
}

/// The moment a local time of a date names. Of a time that comes twice the first is taken; a time
/// that does not exist is the moment the clocks jump to.
pub fn at_local(date: NaiveDate, time: NaiveTime, zone: Tz) -> DateTime<Utc> {
    let naive = date.and_time(time);
    // Clock changes are an hour in nearly every zone and never more than a day.
    const STEPS: i64 = 24 * 4;
    (0..STEPS)
        .find_map(|step| zone.from_local_datetime(&(naive + TimeDelta::minutes(15 * step))).earliest())
        .map_or_else(|| Utc.from_utc_datetime(&naive), |moment| moment.with_timezone(&Utc))
}

pub fn midnight(date: NaiveDate, zone: Tz) -> DateTime<Utc> {
    at_local(date, NaiveTime::MIN, zone)
}

/// The year a growing season is named for: the one it starts in.
pub fn season_of(date: NaiveDate, hemisphere: Hemisphere) -> i32 {
    match hemisphere {
        Hemisphere::North => date.year(),
        Hemisphere::South if date.month() >= 7 => date.year(),
        Hemisphere::South => date.year() - 1,
    }
}

/// The first day of the season a date lies in: midwinter.
pub fn season_start(date: NaiveDate, hemisphere: Hemisphere) -> NaiveDate {
    let year = season_of(date, hemisphere);
    let month = if hemisphere == Hemisphere::North { 1 } else { 7 };
    NaiveDate::from_ymd_opt(year, month, 1).unwrap_or(date)
}

/// A date of the northern calendar moved to where it means the same in this hemisphere.
pub fn northern(date: NaiveDate, hemisphere: Hemisphere) -> NaiveDate {
    match hemisphere {
        Hemisphere::North => date,
        Hemisphere::South => date - TimeDelta::days(182),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono_tz::America::New_York;
    use chrono_tz::Australia::Lord_Howe;

    fn date(year: i32, month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(year, month, day).expect("a date")
    }

    #[test]
    fn local_times_survive_the_clock_changes() {
        // Clock changes from the IANA time zone database.
        let rows = [
            (New_York, date(2027, 3, 14), (2, 30), "2027-03-14T07:00:00+00:00"), // does not exist
            (New_York, date(2027, 11, 7), (1, 30), "2027-11-07T05:30:00+00:00"), // comes twice
            (New_York, date(2027, 7, 1), (7, 0), "2027-07-01T11:00:00+00:00"),
            (Lord_Howe, date(2027, 10, 3), (2, 10), "2027-10-02T15:40:00+00:00"), // half an hour
        ];
        for (zone, day, (hour, minute), want) in rows {
            let time = NaiveTime::from_hms_opt(hour, minute, 0).expect("a time");
            assert_eq!(at_local(day, time, zone).to_rfc3339(), want, "{zone} {day} {time}");
        }
    }

    #[test]
    fn a_southern_season_starts_in_july() {
        assert_eq!(season_of(date(2027, 2, 1), Hemisphere::South), 2026);
        assert_eq!(season_start(date(2027, 2, 1), Hemisphere::South), date(2026, 7, 1));
        assert_eq!(season_start(date(2027, 2, 1), Hemisphere::North), date(2027, 1, 1));
    }
}
