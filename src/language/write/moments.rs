//! Days and hours as a grower says them: near ones by name, others by date.

use chrono::{DateTime, Datelike, NaiveDate, NaiveTime, TimeDelta, Timelike, Utc};
use chrono_tz::Tz;

use super::Voice;
use crate::season::answer::Window;
use crate::season::garden::YearDay;

/// A wet spell longer than this is no "night" any more; its ends are said.
const LONGEST_NIGHT: TimeDelta = TimeDelta::hours(20);

impl Voice {
    pub(super) fn today(&self) -> NaiveDate {
        self.date_of(self.now)
    }

    pub(super) fn date_of(&self, moment: DateTime<Utc>) -> NaiveDate {
        self.local(moment).date_naive()
    }

    fn local(&self, moment: DateTime<Utc>) -> DateTime<Tz> {
        moment.with_timezone(&self.zone)
    }

    /// "18:30", "6:30 pm", "7 am", "noon".
    pub(super) fn clock(&self, time: NaiveTime) -> String {
        if !self.is_us() {
            return format!("{:02}:{:02}", time.hour(), time.minute());
        }
        match (time.hour(), time.minute()) {
            (12, 0) => String::from("noon"),
            (0, 0) => String::from("midnight"),
            _ => format!("{} {}", hand(time), half(time)),
        }
    }

    pub(super) fn clock_of(&self, moment: DateTime<Utc>) -> String {
        self.clock(self.local(moment).time())
    }

    /// "4 Nov" or "Nov 4", with the year only when it is another.
    pub(super) fn date(&self, date: NaiveDate) -> String {
        let day = if self.is_us() { date.format("%b %-d") } else { date.format("%-d %b") };
        if self.today().year() == date.year() { day.to_string() } else { format!("{day} {}", date.year()) }
    }

    pub(super) fn year_day(&self, day: YearDay) -> String {
        day.in_year(self.today().year()).map_or_else(String::new, |date| self.date(date))
    }

    /// "today", "tomorrow", "Tuesday", or a date.
    pub(super) fn day(&self, date: NaiveDate) -> String {
        self.near_day(date).unwrap_or_else(|| match (date - self.today()).num_days() {
            2..=6 => date.format("%A").to_string(),
            _ => self.date(date),
        })
    }

    /// As a day stands before a time or in a list: "today", "Tue", "4 Nov".
    pub(super) fn short_day(&self, date: NaiveDate) -> String {
        self.near_day(date).unwrap_or_else(|| match (date - self.today()).num_days() {
            2..=6 => date.format("%a").to_string(),
            _ => self.date(date),
        })
    }

    fn near_day(&self, date: NaiveDate) -> Option<String> {
        let name = match (date - self.today()).num_days() {
            -1 => "yesterday",
            0 => "today",
            1 => "tomorrow",
            _ => return None,
        };
        Some(name.to_owned())
    }

    /// "today 8:30 am", "Tue 19:00", "3 Jul, 07:00".
    pub(super) fn moment(&self, moment: DateTime<Utc>) -> String {
        let date = self.date_of(moment);
        let has_a_name = (-1..=6).contains(&(date - self.today()).num_days());
        let comma = if has_a_name { "" } else { "," };
        format!("{}{comma} {}", self.short_day(date), self.clock_of(moment))
    }

    /// "tonight", "tomorrow night", "Friday night", by the date the night begins on.
    pub(super) fn night(&self, evening: NaiveDate) -> String {
        match (evening - self.today()).num_days() {
            -1 => String::from("last night"),
            0 => String::from("tonight"),
            1 => String::from("tomorrow night"),
            2..=6 => format!("{} night", evening.format("%A")),
            _ => format!("the night of {}", self.date(evening)),
        }
    }

    /// A run of hours by its name: "last night", "Tuesday night", "tomorrow"; by its ends when it is long or
    /// already running.
    pub(super) fn stretch(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> String {
        if from <= self.now && self.now < to {
            return format!("now, until {}", self.end(to, self.today()));
        }
        if to - from > LONGEST_NIGHT {
            return format!("from {} to {}", self.moment(from), self.end(to, self.date_of(from)));
        }
        let middle = self.local(from + (to - from) / 2);
        let is_night = middle.hour() >= 19 || middle.hour() < 9;
        if !is_night {
            return self.day(middle.date_naive());
        }
        let evening = (middle - TimeDelta::hours(12)).date_naive();
        if from > self.now && evening < self.today() {
            return String::from("early today");
        }
        self.night(evening)
    }

    /// The end of a stretch, with its day only where that is another.
    fn end(&self, to: DateTime<Utc>, day_before: NaiveDate) -> String {
        if self.date_of(to) == day_before { self.clock_of(to) } else { self.moment(to) }
    }

    /// "today, 7 to 10 am", "Tue, 08:00 to 11:00", "now, until 10 am".
    pub(super) fn window(&self, window: &Window) -> String {
        if window.from <= self.now {
            return format!("now, until {}", self.end(window.to, self.today()));
        }
        let (from, to) = (self.local(window.from), self.local(window.to));
        let day = self.short_day(from.date_naive());
        if from.date_naive() != to.date_naive() {
            return format!("{day}, {} to {}", self.clock(from.time()), self.moment(window.to));
        }
        let same_half = half(from.time()) == half(to.time()) && from.hour() != 12 && from.hour() != 0;
        if self.is_us() && same_half {
            format!("{day}, {} to {}", hand(from.time()), self.clock(to.time()))
        } else {
            format!("{day}, {} to {}", self.clock(from.time()), self.clock(to.time()))
        }
    }
}

/// The hand of a clock: "6:30", "7".
fn hand(time: NaiveTime) -> String {
    let (_, hour) = time.hour12();
    if time.minute() == 0 { hour.to_string() } else { format!("{hour}:{:02}", time.minute()) }
}

fn half(time: NaiveTime) -> &'static str {
    if time.hour12().0 { "pm" } else { "am" }
}

#[cfg(test)]
mod tests;
