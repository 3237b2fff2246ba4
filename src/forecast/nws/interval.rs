use chrono::{DateTime, TimeDelta, Utc};

/// From a moment on, for some whole hours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Interval {
    pub(super) start: DateTime<Utc>,
    pub(super) hours: u8,
}

/// No layer has an interval as long as this.
const LONGEST: TimeDelta = TimeDelta::days(10);

impl Interval {
    /// Reads an ISO 8601 interval of a start and a duration: `2026-07-15T12:00:00+00:00/P1DT6H`.
    pub(super) fn read(text: &str) -> Option<Self> {
        let (start, length) = text.split_once('/')?;
        let length = duration(length)?;
        let hours = u8::try_from(length.num_hours()).ok()?;
        let is_whole = TimeDelta::hours(i64::from(hours)) == length;
        (hours > 0 && is_whole && length <= LONGEST).then_some(Self { start: start.parse().ok()?, hours })
    }

    pub(super) fn starts(self) -> impl Iterator<Item = DateTime<Utc>> {
        (0..self.hours).map(move |hour| self.start + TimeDelta::hours(i64::from(hour)))
    }
}

/// Weeks, days, hours and minutes: months and years have no length of their own, seconds do not occur.
fn duration(text: &str) -> Option<TimeDelta> {
    let (date, time) = match text.strip_prefix('P')?.split_once('T') {
        Some((date, time)) if !time.is_empty() => (date, time),
        Some(_) => return None,
        None => (text.strip_prefix('P')?, ""),
    };
    let days = parts(date, &[('W', 7 * 24 * 60), ('D', 24 * 60)])?;
    let hours = parts(time, &[('H', 60), ('M', 1)])?;
    TimeDelta::try_minutes(days.checked_add(hours)?)
}

fn parts(text: &str, units: &[(char, i64)]) -> Option<i64> {
    let mut minutes = 0_i64;
    for part in text.split_inclusive(|letter: char| !letter.is_ascii_digit()) {
        let letter = part.chars().last()?;
        let (_, length) = units.iter().find(|(unit, _)| *unit == letter)?;
        let number: i64 = part.strip_suffix(letter)?.parse().ok()?;
        minutes = minutes.checked_add(number.checked_mul(*length)?)?;
    }
    Some(minutes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Durations seen in recorded grids, and what must not be taken for one.
    #[test]
    fn intervals_are_read_to_the_hour() {
        let rows = [
            ("2026-07-15T12:00:00+00:00/PT1H", Some(1)),
            ("2026-07-15T12:00:00+00:00/PT18H", Some(18)),
            ("2026-07-15T12:00:00+00:00/P1D", Some(24)),
            ("2026-07-15T12:00:00+00:00/P1DT6H", Some(30)),
            ("2026-07-15T12:00:00+00:00/P7DT13H", Some(181)),
            ("2026-07-15T12:00:00+00:00/P8DT2H", Some(194)),
            ("2026-07-15T12:00:00+00:00/PT90M", None),
            ("2026-07-15T12:00:00+00:00/PT0H", None),
            ("2026-07-15T12:00:00+00:00/P40D", None),
            ("2026-07-15T12:00:00+00:00/P1M", None),
            ("2026-07-15T12:00:00+00:00/P1DT", None),
            ("2026-07-15T12:00:00+00:00/PT99999999999999999999H", None),
            ("2026-07-15T12:00:00+00:00/PT9223372036854775807H", None),
            ("NOW/PT1H", None),
            ("2026-07-15T12:00:00+00:00", None),
            ("", None),
        ];
        for (text, hours) in rows {
            assert_eq!(Interval::read(text).map(|interval| interval.hours), hours, "{text}");
        }
    }
}
