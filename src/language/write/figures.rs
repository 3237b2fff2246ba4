//! Figures and times as a grower says them, in the garden's units and with no more digits than they deserve.

use chrono::{DateTime, Datelike, NaiveDate, NaiveTime, TimeDelta, Timelike, Utc};

use super::Voice;
use crate::season::answer::Window;
use crate::season::garden::{Rate, UnitSystem};
use crate::units::{Celsius, Days, Fraction, Hours, Kilograms, Litres, Metres, Millimetres};

impl Voice {
    fn is_us(&self) -> bool {
        self.units == UnitSystem::Us
    }

    pub(super) fn temperature(&self, temperature: Celsius) -> String {
        if self.is_us() {
            format!("{:.0} °F", whole(temperature.as_fahrenheit()))
        } else {
            format!("{:.0} °C", whole(temperature.value()))
        }
    }

    /// Rain and other water by depth. Metric: tenths below two millimetres, whole above; US: tenths of an inch.
    pub(super) fn depth(&self, depth: Millimetres) -> String {
        if self.is_us() {
            let inches = depth.as_inches();
            return if inches == 0.0 {
                String::from("0 in")
            } else if inches < 0.05 {
                String::from("under 0.1 in")
            } else {
                format!("{inches:.1} in")
            };
        }
        let mm = depth.value();
        if mm > 0.0 && mm < 2.0 { format!("{mm:.1} mm") } else { format!("{mm:.0} mm") }
    }

    pub(super) fn volume(&self, volume: Litres) -> String {
        if self.is_us() {
            let gallons = volume.as_gallons();
            return match gallons {
                gallons if gallons < 0.2 => format!("{:.0} cups", (gallons * 16.0).max(1.0)),
                gallons if gallons < 10.0 => format!("{} gal", trimmed(quarter(gallons))),
                gallons => format!("{gallons:.0} gal"),
            };
        }
        match volume.value() {
            litres if litres < 10.0 => format!("{} L", trimmed((litres * 2.0).round() / 2.0)),
            litres => format!("{litres:.0} L"),
        }
    }

    pub(super) fn mass(&self, mass: Kilograms) -> String {
        if self.is_us() {
            format!("{} lb", trimmed((mass.as_pounds() * 10.0).round() / 10.0))
        } else {
            format!("{} kg", trimmed((mass.value() * 10.0).round() / 10.0))
        }
    }

    pub(super) fn length(&self, length: Metres) -> String {
        if self.is_us() {
            format!("{} ft", trimmed((length.as_feet() * 2.0).round() / 2.0))
        } else {
            format!("{} m", trimmed((length.value() * 10.0).round() / 10.0))
        }
    }

    pub(super) fn rate(&self, rate: Rate) -> String {
        let (number, unit) = match rate {
            Rate::GramsPerLitre(grams) if self.is_us() => {
                (grams * 3.785_411_784 / 28.349_523, "oz per gallon")
            }
            Rate::MillilitresPerLitre(millilitres) if self.is_us() => {
                (millilitres * 3.785_411_784 / 29.573_53, "fl oz per gallon")
            }
            Rate::GramsPerLitre(grams) => (grams, "g per litre"),
            Rate::MillilitresPerLitre(millilitres) => (millilitres, "mL per litre"),
        };
        format!("{} {unit}", trimmed((number * 100.0).round() / 100.0))
    }

    /// How much to weigh or measure out. Spoons where spoons are meant, never fewer digits than the scale shows.
    pub(super) fn dose(&self, rate: Rate, amount: f64) -> String {
        match rate {
            Rate::GramsPerLitre(_) if self.is_us() => {
                format!("{} oz ({amount:.0} g)", trimmed((amount / 28.349_523 * 100.0).round() / 100.0))
            }
            Rate::GramsPerLitre(_) => format!("{} g", trimmed((amount * 10.0).round() / 10.0)),
            Rate::MillilitresPerLitre(_) if self.is_us() => {
                let spoons = amount / 14.786_76;
                let fluid = amount / 29.573_53;
                if spoons < 8.0 {
                    format!("{} tbsp ({amount:.0} mL)", trimmed(quarter(spoons)))
                } else {
                    format!("{} fl oz ({amount:.0} mL)", trimmed((fluid * 10.0).round() / 10.0))
                }
            }
            Rate::MillilitresPerLitre(_) => format!("{amount:.0} mL"),
        }
    }

    pub(super) fn clock(&self, time: NaiveTime) -> String {
        if !self.is_us() {
            return format!("{:02}:{:02}", time.hour(), time.minute());
        }
        let (afternoon, hour) = time.hour12();
        let half = if afternoon { "pm" } else { "am" };
        if time.minute() == 0 {
            format!("{hour} {half}")
        } else {
            format!("{hour}:{:02} {half}", time.minute())
        }
    }

    /// "4 Nov" or "Nov 4", with the year only when it is another.
    pub(super) fn date(&self, date: NaiveDate) -> String {
        let day = if self.is_us() { date.format("%b %-d") } else { date.format("%-d %b") };
        let this_year = self.today().year() == date.year();
        if this_year { day.to_string() } else { format!("{day} {}", date.year()) }
    }

    /// "today", "tomorrow", "Tue", or a date.
    pub(super) fn day(&self, date: NaiveDate) -> String {
        match (date - self.today()).num_days() {
            0 => String::from("today"),
            1 => String::from("tomorrow"),
            -1 => String::from("yesterday"),
            2..=6 => date.format("%A").to_string(),
            _ => self.date(date),
        }
    }

    pub(super) fn today(&self) -> NaiveDate {
        self.now.with_timezone(&self.zone).date_naive()
    }

    pub(super) fn date_of(&self, moment: DateTime<Utc>) -> NaiveDate {
        moment.with_timezone(&self.zone).date_naive()
    }

    /// "today 8:30", "Tue 7 pm".
    pub(super) fn moment(&self, moment: DateTime<Utc>) -> String {
        let local = moment.with_timezone(&self.zone);
        format!("{} {}", self.day(local.date_naive()), self.clock(local.time()))
    }

    /// "last night", "tonight", "Tuesday night", for a run of hours that is mostly dark, else its day.
    pub(super) fn stretch(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> String {
        let middle = from + (to - from) / 2;
        let local = middle.with_timezone(&self.zone);
        let night = local.hour() >= 20 || local.hour() < 9;
        let evening = (local - TimeDelta::hours(12)).date_naive();
        if !night {
            return self.day(local.date_naive());
        }
        match (evening - self.today()).num_days() {
            0 => String::from("tonight"),
            -1 => String::from("last night"),
            1 => String::from("tomorrow night"),
            2..=6 => format!("{} night", evening.format("%A")),
            _ => format!("the night of {}", self.date(evening)),
        }
    }

    /// "today 7 to 10 am", "Tue 08:00 to 11:00".
    pub(super) fn window(&self, window: &Window) -> String {
        let (from, to) = (window.from.with_timezone(&self.zone), window.to.with_timezone(&self.zone));
        let from = if window.from < self.now { self.now.with_timezone(&self.zone) } else { from };
        format!("{} {} to {}", self.day(from.date_naive()), self.clock(from.time()), self.clock(to.time()))
    }
}

/// "3 days", "1 day".
pub(super) fn count(number: i64, noun: &str) -> String {
    let plural = match noun {
        "leaf" => "leaves",
        "spray" => "sprays",
        _ => "",
    };
    match (number, plural) {
        (1, _) => format!("1 {noun}"),
        (number, "") => format!("{number} {noun}s"),
        (number, plural) => format!("{number} {plural}"),
    }
}

/// Days as people count them; a part of a day is not said.
pub(super) fn days(days: Days) -> String {
    count(days.value().round() as i64, "day")
}

/// "40 minutes", "5 hours", "2 days".
pub(super) fn span(hours: Hours) -> String {
    match hours.value() {
        hours if hours < 1.0 => count((hours * 60.0).round() as i64, "minute"),
        hours if hours < 48.0 => count(hours.round() as i64, "hour"),
        hours => count((hours / 24.0).round() as i64, "day"),
    }
}

/// "Celeste", "Celeste and Wall", "Celeste, Wall and Corner".
pub(super) fn names(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Leaf area as people see it: whole percent, and no decimals that pretend to more.
pub(super) fn percent(share: Fraction) -> String {
    match share.as_percent() {
        percent if percent > 0.0 && percent < 1.0 => String::from("under 1 %"),
        percent => format!("{percent:.0} %"),
    }
}

/// A part in words, as far as a model of wash-off can be trusted.
pub(super) fn part(share: Fraction) -> &'static str {
    match share.value() {
        share if share >= 0.85 => "nearly all",
        share if share >= 0.65 => "about three quarters",
        share if share >= 0.45 => "about half",
        share if share >= 0.28 => "about a third",
        share if share >= 0.12 => "little",
        _ => "next to nothing",
    }
}

pub(super) fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A number without needless zeros behind the point.
fn trimmed(number: f64) -> String {
    let text = format!("{number:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn quarter(number: f64) -> f64 {
    ((number * 4.0).round() / 4.0).max(0.25)
}

/// Rounded, and never "-0".
fn whole(number: f64) -> f64 {
    let rounded = number.round();
    if rounded == 0.0 { 0.0 } else { rounded }
}
