//! The week ahead: seven columns of days, five strips.

use chrono::{DateTime, Datelike, NaiveDate, Timelike, Utc};
use chrono_tz::Tz;

use super::PictureError;
use super::canvas::{Anchor, Area, Canvas, Letters};
use super::ink;
use super::scale::{Scale, extent};
use crate::season::answer::{InfectionGrade, Window};
use crate::season::charts::{ChartHour, LeafWetness, WeekChart};
use crate::season::garden::UnitSystem;
use crate::units::{Celsius, Millimetres};

const WIDTH: u32 = 1080;
const HEIGHT: u32 = 1040;
const LEFT: f32 = 36.0;
const RIGHT: f32 = WIDTH as f32 - 36.0;

const TITLE: Letters = Letters::plain(46.0).bold();
const DAY: Letters = Letters::plain(32.0).anchored(Anchor::Middle);
const STRIP: Letters = Letters::plain(28.0).ink(ink::QUIET);
const FIGURE: Letters = Letters::plain(30.0).anchored(Anchor::Middle);
const SMALL: Letters = Letters::plain(24.0).ink(ink::QUIET);

/// Tops and bottoms of the strips.
const WARMTH: (f32, f32) = (248.0, 420.0);
const RAIN: (f32, f32) = (528.0, 622.0);
const WET: (f32, f32) = (692.0, 726.0);
const RUST: (f32, f32) = (790.0, 824.0);
const SPRAY: (f32, f32) = (908.0, 942.0);

/// So much rain an hour fills the strip; a drizzle is still to be seen.
const FULL_RAIN: f64 = 4.0;

pub(super) fn draw(chart: &WeekChart) -> Result<Canvas, PictureError> {
    let (Some(first), Some(last)) = (chart.hours.first(), chart.hours.last()) else {
        return Err(PictureError::NothingToShow);
    };
    let time = Scale {
        from: first.start.timestamp() as f64,
        to: last.start.timestamp() as f64 + 3600.0,
        start: LEFT,
        end: RIGHT,
    };
    let mut week = Week { canvas: Canvas::new(WIDTH, HEIGHT)?, chart, time };
    week.title();
    week.nights();
    week.days();
    week.warmth();
    week.rain();
    week.wet();
    week.rust();
    week.spray();
    week.now();
    Ok(week.canvas)
}

struct Week<'c> {
    canvas: Canvas,
    chart: &'c WeekChart,
    time: Scale,
}

impl Week<'_> {
    fn x(&self, moment: DateTime<Utc>) -> f32 {
        self.time.at(moment.timestamp() as f64)
    }

    fn is_us(&self) -> bool {
        self.chart.units == UnitSystem::Us
    }

    fn title(&mut self) {
        let name = match self.chart.garden.as_str() {
            "" => String::from("The week ahead"),
            garden => format!("{garden}, the week ahead"),
        };
        self.canvas.heading((LEFT, 66.0), TITLE, &name);
        if let Some(credit) = &self.chart.credit {
            self.canvas.text((LEFT, HEIGHT as f32 - 18.0), SMALL, &format!("Weather: {credit}"));
        }
    }

    fn nights(&mut self) {
        for (from, to) in self.chart.nights.clone() {
            let (left, right) = (self.x(from), self.x(to));
            if right > left {
                let area = Area { left, top: 140.0, right, bottom: SPRAY.1 + 20.0 };
                self.canvas.fill(area, ink::NIGHT);
            }
        }
    }

    /// Each day's name over its column, and a rule at midnight.
    fn days(&mut self) {
        let today = local(self.chart.now, self.chart.zone).date_naive();
        for (date, from, to) in self.dates() {
            let (left, right) = (self.x(from), self.x(to));
            if left > LEFT {
                self.canvas.line(&[(left, 100.0), (left, SPRAY.1 + 20.0)], 1.5, ink::RULE);
            }
            let letters = if date == today { DAY.bold() } else { DAY };
            let name = format!("{} {}", date.format("%a"), date.day());
            self.canvas.text(((left + right) / 2.0, 128.0), letters, &name);
        }
    }

    /// The local days within the hours, with their first and last moment.
    fn dates(&self) -> Vec<(NaiveDate, DateTime<Utc>, DateTime<Utc>)> {
        let zone = self.chart.zone;
        let date = |hour: &ChartHour| local(hour.start, zone).date_naive();
        self.chart
            .hours
            .chunk_by(|one, next| date(one) == date(next))
            .filter_map(|day| {
                let (first, last) = (day.first()?, day.last()?);
                Some((date(first), first.start, last.start + chrono::TimeDelta::hours(1)))
            })
            .collect()
    }

    fn hours_of(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> impl Iterator<Item = &ChartHour> {
        self.chart.hours.iter().filter(move |hour| hour.start >= from && hour.start < to)
    }

    fn degrees(&self, temperature: Celsius) -> f64 {
        if self.is_us() { temperature.as_fahrenheit() } else { temperature.value() }
    }

    /// A line, with the warmest hour of each day written above it and the coldest below.
    fn warmth(&mut self) {
        let unit = if self.is_us() { "°F" } else { "°C" };
        self.canvas.text((LEFT, 190.0), STRIP, &format!("Temperature, {unit}"));
        let known: Vec<(DateTime<Utc>, f64)> = self
            .chart
            .hours
            .iter()
            .filter_map(|hour| Some((hour.start, self.degrees(hour.temperature?))))
            .filter(|(_, degrees)| degrees.is_finite())
            .collect();
        let Some((coldest, warmest)) = extent(known.iter().map(|(_, degrees)| *degrees)) else { return };
        let scale = Scale { from: coldest, to: warmest.max(coldest + 8.0), start: WARMTH.1, end: WARMTH.0 };
        for stretch in known.chunk_by(|one, next| (next.0 - one.0).num_hours() <= 1) {
            let points: Vec<(f32, f32)> =
                stretch.iter().map(|(start, degrees)| (self.x(*start), scale.at(*degrees))).collect();
            self.canvas.line(&points, 5.0, ink::WARMTH);
        }
        for (_, from, to) in self.dates() {
            let of_day = || known.iter().filter(|(start, _)| *start >= from && *start < to);
            let warmest = of_day().max_by(|one, next| one.1.total_cmp(&next.1)).copied();
            let coldest = of_day().min_by(|one, next| one.1.total_cmp(&next.1)).copied();
            if let Some((start, degrees)) =
                warmest.filter(|peak| is_turn(&known, *peak, |other| other > peak.1))
            {
                let place = (self.x(start), scale.at(degrees) - 16.0);
                self.canvas.text(place, FIGURE, &format!("{degrees:.0}"));
            }
            if let Some((start, degrees)) = coldest.filter(|low| is_turn(&known, *low, |other| other < low.1))
            {
                let place = (self.x(start).max(LEFT + 24.0), scale.at(degrees) + 42.0);
                self.canvas.text(place, FIGURE.ink(ink::QUIET), &format!("{degrees:.0}"));
            }
        }
    }

    /// A bar an hour, and the day's sum.
    fn rain(&mut self) {
        let unit = if self.is_us() { "in" } else { "mm" };
        self.canvas.text((LEFT, RAIN.0 - 14.0), STRIP, &format!("Rain, {unit}"));
        let most = self.chart.hours.iter().filter_map(|hour| hour.rain).map(Millimetres::value);
        let most = extent(most).map_or(FULL_RAIN, |(_, most)| most.max(FULL_RAIN));
        let scale = Scale { from: 0.0, to: most, start: RAIN.1, end: RAIN.0 + 24.0 };
        for hour in &self.chart.hours {
            let Some(rain) = hour.rain.filter(|rain| rain.value() > 0.0) else { continue };
            let (left, right) = (self.x(hour.start), self.x(hour.start + chrono::TimeDelta::hours(1)));
            let area = Area { left, top: scale.at(rain.value()), right, bottom: RAIN.1 };
            self.canvas.fill(area, ink::RAIN);
        }
        self.canvas.line(&[(LEFT, RAIN.1), (RIGHT, RAIN.1)], 1.5, ink::RULE);
        for (_, from, to) in self.dates() {
            let sum: Millimetres = self.hours_of(from, to).filter_map(|hour| hour.rain).sum();
            let said = amount(sum, self.chart.units);
            let middle = (self.x(from) + self.x(to)) / 2.0;
            self.canvas.text((middle, RAIN.1 + 32.0), FIGURE.ink(ink::RAIN), &said);
        }
    }

    fn wet(&mut self) {
        self.canvas.text((LEFT, WET.0 - 10.0), STRIP, "Leaves wet");
        self.canvas.line(&[(LEFT, WET.1), (RIGHT, WET.1)], 1.5, ink::RULE);
        for hour in self.chart.hours.iter().filter(|hour| hour.leaves == LeafWetness::Wet) {
            let (left, right) = (self.x(hour.start), self.x(hour.start + chrono::TimeDelta::hours(1)));
            self.canvas.fill(Area { left, top: WET.0, right, bottom: WET.1 }, ink::WET);
        }
    }

    /// Spells in which rust gets in, each with its grade; past the honest forecast nothing is claimed.
    fn rust(&mut self) {
        self.canvas.text((LEFT, RUST.0 - 10.0), STRIP, "Rust gets in");
        self.canvas.line(&[(LEFT, RUST.1), (RIGHT, RUST.1)], 1.5, ink::RULE);
        for infection in &self.chart.infections {
            let (left, right) = (self.x(infection.from), self.x(infection.to));
            if right > left {
                let ink = ink::rust(infection.grade);
                self.canvas.fill(Area { left, top: RUST.0, right, bottom: RUST.1 }, ink);
                let place = ((left + right) / 2.0, RUST.1 + 32.0);
                self.canvas.text(place, FIGURE, grade(infection.grade));
            }
        }
        let unjudged = self.x(self.chart.judged_until);
        if unjudged < RIGHT - 40.0 {
            let middle = (RUST.0 + RUST.1) / 2.0;
            self.canvas.dashes(&[(unjudged, middle), (RIGHT, middle)], 3.0, ink::RULE);
            let place = ((unjudged + RIGHT) / 2.0, RUST.1 + 32.0);
            self.canvas.text(place, SMALL.anchored(Anchor::Middle), "too far to tell");
        }
    }

    fn spray(&mut self) {
        self.canvas.text((LEFT, SPRAY.0 - 10.0), STRIP, "Spray");
        self.canvas.line(&[(LEFT, SPRAY.1), (RIGHT, SPRAY.1)], 1.5, ink::RULE);
        if let Some(window) = self.chart.second {
            self.window(&window, ink::COVER);
        }
        if let Some(window) = self.chart.window {
            self.window(&window, ink::SPRAY);
            let said = span(&window, self.chart.zone, self.chart.units);
            self.canvas.text((self.middle(&window), SPRAY.1 + 34.0), FIGURE.bold(), &said);
        }
        // The second choice is named where there is room for it beside the first.
        let middle = self.chart.second.map(|window| (self.middle(&window), window));
        let first = self.chart.window.map_or(f32::MIN, |window| self.middle(&window));
        if let Some((middle, window)) = middle.filter(|(middle, _)| (middle - first).abs() > 190.0) {
            let said = span(&window, self.chart.zone, self.chart.units);
            self.canvas.text((middle, SPRAY.1 + 34.0), FIGURE.ink(ink::QUIET), &said);
        }
    }

    fn window(&mut self, window: &Window, ink: ink::Ink) {
        let (left, right) = (self.x(window.from), self.x(window.to));
        if right > left {
            self.canvas.fill(Area { left, top: SPRAY.0, right, bottom: SPRAY.1 }, ink);
        }
    }

    fn middle(&self, window: &Window) -> f32 {
        (self.x(window.from) + self.x(window.to)) / 2.0
    }

    fn now(&mut self) {
        let x = self.x(self.chart.now);
        if x > LEFT + 2.0 && x < RIGHT - 2.0 {
            // In the strips alone, so that it strikes through no word.
            for (top, bottom) in [WARMTH, RAIN, WET, RUST, SPRAY] {
                self.canvas.line(&[(x, top), (x, bottom)], 2.5, ink::TEXT);
            }
        }
    }
}

/// Whether a day's extreme is one: the night goes on past midnight, and may grow colder still.
fn is_turn(
    known: &[(DateTime<Utc>, f64)],
    (at, _): (DateTime<Utc>, f64),
    beats: impl Fn(f64) -> bool,
) -> bool {
    let near = chrono::TimeDelta::hours(3);
    !known.iter().any(|(start, degrees)| (*start - at).abs() <= near && beats(*degrees))
}

fn local(moment: DateTime<Utc>, zone: Tz) -> DateTime<Tz> {
    moment.with_timezone(&zone)
}

fn grade(grade: InfectionGrade) -> &'static str {
    match grade {
        InfectionGrade::Trace => "light",
        InfectionGrade::Moderate => "moderate",
        InfectionGrade::Severe => "severe",
    }
}

/// Nothing for a dry day: an empty column says it better.
fn amount(rain: Millimetres, units: UnitSystem) -> String {
    match (units, rain) {
        (UnitSystem::Us, rain) if rain.as_inches() >= 0.05 => format!("{:.1}", rain.as_inches()),
        (UnitSystem::Metric, rain) if rain.value() >= 1.95 => format!("{:.0}", rain.value()),
        (UnitSystem::Metric, rain) if rain.value() >= 0.1 => format!("{:.1}", rain.value()),
        _ => String::new(),
    }
}

/// "4–6 pm", "16–18 h".
fn span(window: &Window, zone: Tz, units: UnitSystem) -> String {
    let (from, to) = (local(window.from, zone), local(window.to, zone));
    match units {
        UnitSystem::Metric => format!("{}–{} h", from.hour(), to.hour()),
        UnitSystem::Us => {
            let ((early, from_hour), (late, to_hour)) = (from.hour12(), to.hour12());
            let half = |pm: bool| if pm { "pm" } else { "am" };
            if early == late {
                format!("{from_hour}–{to_hour} {}", half(late))
            } else {
                format!("{from_hour} {}–{to_hour} {}", half(early), half(late))
            }
        }
    }
}
