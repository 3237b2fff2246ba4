//! The season so far: months across, five strips.

use chrono::{Datelike, NaiveDate, TimeDelta};

use super::PictureError;
use super::canvas::{Anchor, Area, Canvas, Letters};
use super::ink;
use super::scale::{Scale, extent};
use crate::season::answer::InfectionGrade;
use crate::season::charts::SeasonChart;
use crate::season::garden::UnitSystem;
use crate::units::Millimetres;

const WIDTH: u32 = 1080;
const HEIGHT: u32 = 1180;
const LEFT: f32 = 36.0;
const RIGHT: f32 = WIDTH as f32 - 36.0;
const BOTTOM: f32 = 1130.0;

const TITLE: Letters = Letters::plain(46.0).bold();
const MONTH: Letters = Letters::plain(30.0).anchored(Anchor::Middle);
const STRIP: Letters = Letters::plain(28.0).ink(ink::QUIET);
const FIGURE: Letters = Letters::plain(28.0);
const SMALL: Letters = Letters::plain(24.0).ink(ink::QUIET);

/// Tops and bottoms of the strips.
const COVER: (f32, f32) = (270.0, 410.0);
const WEATHER: (f32, f32) = (480.0, 560.0);
const RUST: (f32, f32) = (650.0, 780.0);
const RAIN: (f32, f32) = (860.0, 960.0);
const PICKED: (f32, f32) = (1040.0, 1120.0);

/// The name of a strip stands so far above it.
const ABOVE: f32 = 16.0;
/// A strip of rust seen shows at least this much, so that a trace stays small.
const LEAST_RUST: f64 = 0.10;

pub(super) fn draw(chart: &SeasonChart) -> Result<Canvas, PictureError> {
    if chart.days.is_empty() || chart.to <= chart.from {
        return Err(PictureError::NothingToShow);
    }
    let days = (chart.to - chart.from).num_days() as f64;
    let time = Scale { from: 0.0, to: days, start: LEFT, end: RIGHT };
    let mut season = Season { canvas: Canvas::new(WIDTH, HEIGHT)?, chart, time };
    season.title();
    season.months();
    season.cover();
    season.weather();
    season.rust();
    season.rain();
    season.picked();
    season.marks();
    Ok(season.canvas)
}

struct Season<'c> {
    canvas: Canvas,
    chart: &'c SeasonChart,
    time: Scale,
}

impl Season<'_> {
    /// The middle of a day.
    fn x(&self, date: NaiveDate) -> f32 {
        self.time.at((date - self.chart.from).num_days() as f64 + 0.5)
    }

    /// The name of a strip, and what belongs to it right of the name.
    fn strip(&mut self, (top, bottom): (f32, f32), name: &str) -> f32 {
        self.canvas.text((LEFT, top - ABOVE), STRIP, name);
        self.canvas.line(&[(LEFT, bottom), (RIGHT, bottom)], 1.5, ink::RULE);
        LEFT + self.canvas.measure(STRIP, name) + 34.0
    }

    fn title(&mut self) {
        let name = match self.chart.garden.as_str() {
            "" => format!("The {} season", self.chart.season),
            garden => format!("{garden}, the {} season", self.chart.season),
        };
        self.canvas.heading((LEFT, 66.0), TITLE, &name);
        if let Some(credit) = &self.chart.credit {
            self.canvas.text((LEFT, HEIGHT as f32 - 14.0), SMALL, &format!("Weather: {credit}"));
        }
    }

    fn months(&mut self) {
        let firsts = self.chart.from.iter_days().take_while(|date| *date <= self.chart.to);
        let firsts: Vec<NaiveDate> = firsts.filter(|date| date.day() == 1).collect();
        for first in &firsts {
            let x = self.time.at((*first - self.chart.from).num_days() as f64);
            self.canvas.line(&[(x, 96.0), (x, BOTTOM)], 1.5, ink::RULE);
            let middle = *first + TimeDelta::days(14);
            if is_within(self.chart, middle) {
                let name = first.format("%b").to_string();
                self.canvas.text((self.x(middle), 122.0), MONTH, &name);
            }
        }
    }

    /// What was left of the sprays, and the sprays, each product with its own sign.
    fn cover(&mut self) {
        // The signs of the sprays stand between the strip and its name.
        const SIGNS: f32 = 16.0;
        let mut x = self.strip((COVER.0 - SIGNS, COVER.1), "Spray on the leaves");
        let scale = Scale { from: 0.0, to: 1.0, start: COVER.1, end: COVER.0 };
        let known: Vec<(f32, f32)> = self
            .chart
            .days
            .iter()
            .filter_map(|day| Some((self.x(day.date), scale.at(day.cover?.value()))))
            .collect();
        self.canvas.shape(&known, COVER.1, ink::COVER);
        let half = scale.at(0.5);
        self.canvas.dashes(&[(LEFT, half), (RIGHT, half)], 1.5, ink::QUIET);
        let half_letters = SMALL.anchored(Anchor::Right);
        self.canvas.text((RIGHT, half - 8.0), half_letters, "half");
        let products = self.products();
        for (index, product) in products.iter().enumerate() {
            self.sign((x + 8.0, COVER.0 - SIGNS - ABOVE - 10.0), index);
            self.canvas.text((x + 26.0, COVER.0 - SIGNS - ABOVE), FIGURE, product);
            x += 26.0 + self.canvas.measure(FIGURE, product) + 34.0;
        }
        let chart = self.chart;
        for (date, product) in chart.sprays.iter().filter(|(date, _)| is_within(chart, *date)) {
            let index = products.iter().position(|known| known == product).unwrap_or(0);
            let x = self.x(*date);
            self.canvas.line(&[(x, COVER.0), (x, COVER.1)], 2.5, ink::SPRAY);
            self.sign((x, COVER.0), index);
        }
    }

    /// Products in the order they were first sprayed; as many as there are signs.
    fn products(&self) -> Vec<String> {
        const SIGNS: usize = 3;
        let mut products: Vec<String> = Vec::new();
        for (_, product) in &self.chart.sprays {
            if !products.contains(product) && products.len() < SIGNS {
                products.push(product.clone());
            }
        }
        products
    }

    fn sign(&mut self, at: (f32, f32), index: usize) {
        const SIZE: f32 = 10.0;
        match index {
            0 => self.canvas.dot(at, SIZE, ink::SPRAY),
            1 => self.canvas.ring(at, SIZE, ink::SPRAY),
            _ => {
                let (left, top) = (at.0 - SIZE, at.1 - SIZE);
                let area = Area { left, top, right: at.0 + SIZE, bottom: at.1 + SIZE };
                self.canvas.fill(area, ink::SPRAY);
            }
        }
    }

    /// A bar for each spell rust could get in, the worse the higher and darker.
    fn weather(&mut self) {
        let mut x = self.strip(WEATHER, "Rust weather");
        const GRADES: [(InfectionGrade, f32, &str); 3] = [
            (InfectionGrade::Trace, 0.34, "light"),
            (InfectionGrade::Moderate, 0.67, "moderate"),
            (InfectionGrade::Severe, 1.0, "severe"),
        ];
        for (grade, _, name) in GRADES {
            let area = Area { left: x, top: WEATHER.0 - 38.0, right: x + 20.0, bottom: WEATHER.0 - 18.0 };
            self.canvas.fill(area, ink::rust(grade));
            self.canvas.text((x + 30.0, WEATHER.0 - ABOVE), FIGURE, name);
            x += 30.0 + self.canvas.measure(FIGURE, name) + 30.0;
        }
        let chart = self.chart;
        for (date, grade) in chart.infections.iter().filter(|(date, _)| is_within(chart, *date)) {
            let height =
                GRADES.iter().find(|(known, ..)| known == grade).map_or(1.0, |(_, height, _)| *height);
            let x = self.x(*date);
            let top = WEATHER.1 - height * (WEATHER.1 - WEATHER.0);
            let area = Area { left: x - 2.0, top, right: x + 2.5, bottom: WEATHER.1 };
            self.canvas.fill(area, ink::rust(*grade));
        }
    }

    /// The worst tree at each look.
    fn rust(&mut self) {
        self.strip(RUST, "Rust seen, worst tree, % of the leaf area");
        let looks: Vec<(NaiveDate, f64)> = self
            .chart
            .rust
            .iter()
            .filter(|(date, _)| is_within(self.chart, *date))
            .map(|(date, seen)| (*date, seen.value()))
            .collect();
        let most = extent(looks.iter().map(|(_, seen)| *seen)).map_or(LEAST_RUST, |(_, most)| most);
        let scale = Scale { from: 0.0, to: most.max(LEAST_RUST), start: RUST.1, end: RUST.0 };
        let brown = ink::rust(InfectionGrade::Severe);
        let points: Vec<(f32, f32)> =
            looks.iter().map(|(date, seen)| (self.x(*date), scale.at(*seen))).collect();
        self.canvas.line(&points, 3.0, brown);
        for point in &points {
            self.canvas.dot(*point, 7.0, brown);
        }
        // The worst look and the last one carry their figure.
        let worst = looks.iter().rposition(|(_, seen)| *seen == most);
        let last = looks.len().checked_sub(1);
        let mut told: Vec<usize> = [worst, last].into_iter().flatten().collect();
        told.dedup();
        for index in told {
            let (x, y) = points[index];
            let said = format!("{:.0}%", looks[index].1 * 100.0);
            self.canvas.text((x + 14.0, (y + 4.0).min(RUST.1 - 8.0)), FIGURE, &said);
        }
    }

    /// A bar a week.
    fn rain(&mut self) {
        let unit = if self.chart.units == UnitSystem::Us { "in" } else { "mm" };
        let x = self.strip(RAIN, &format!("Rain a week, {unit}"));
        let weeks: Vec<(NaiveDate, Millimetres)> = self
            .chart
            .days
            .chunks(7)
            .filter_map(|week| Some((week.first()?.date, week.iter().filter_map(|day| day.rain).sum())))
            .collect();
        let Some((_, most)) = extent(weeks.iter().map(|(_, rain)| rain.value())) else { return };
        let scale = Scale { from: 0.0, to: most.max(10.0), start: RAIN.1, end: RAIN.0 };
        let width = self.time.at(7.0) - self.time.at(0.0) - 4.0;
        let most_said = match self.chart.units {
            UnitSystem::Us => format!("most {:.1}", Millimetres::new(most).as_inches()),
            UnitSystem::Metric => format!("most {most:.0}"),
        };
        self.canvas.text((x - 20.0, RAIN.0 - ABOVE), FIGURE.ink(ink::RAIN), &most_said);
        for (date, rain) in weeks.iter().filter(|(_, rain)| rain.value() > 0.0) {
            let left = self.time.at((*date - self.chart.from).num_days() as f64) + 2.0;
            let top = scale.at(rain.value());
            self.canvas.fill(Area { left, top, right: left + width, bottom: RAIN.1 }, ink::RAIN);
        }
    }

    fn picked(&mut self) {
        let total: u32 = self.chart.picked.iter().map(|(_, count)| count).sum();
        let x = self.strip(PICKED, "Picked");
        if total == 0 {
            return;
        }
        self.canvas.text((x - 20.0, PICKED.0 - ABOVE), FIGURE, &format!("{total} figs"));
        let most = self.chart.picked.iter().map(|(_, count)| *count).max().unwrap_or(1);
        let scale = Scale { from: 0.0, to: f64::from(most), start: PICKED.1, end: PICKED.0 };
        let chart = self.chart;
        for (date, count) in chart.picked.iter().filter(|(date, _)| is_within(chart, *date)) {
            let x = self.x(*date);
            let top = scale.at(f64::from(*count));
            self.canvas.fill(Area { left: x - 3.0, top, right: x + 3.0, bottom: PICKED.1 }, ink::FIG);
        }
    }

    /// Today and the frost, over all strips.
    fn marks(&mut self) {
        let (today, frost) = (self.chart.today, self.chart.frost);
        let mut marks = vec![(today, 190.0, String::from("today"))];
        marks.extend(frost.map(|frost| (frost, 158.0, format!("frost {}", self.date(frost)))));
        let chart = self.chart;
        for (date, y, name) in marks.into_iter().filter(|(date, ..)| is_within(chart, *date)) {
            let x = self.x(date);
            self.canvas.text((x, y), FIGURE.anchored(Anchor::Middle), &name);
            self.canvas.line(&[(x, y + 8.0), (x, 206.0)], 2.5, ink::TEXT);
            // In the strips alone, so that it strikes through no word.
            for (top, bottom) in [COVER, WEATHER, RUST, RAIN, PICKED] {
                self.canvas.line(&[(x, top), (x, bottom)], 2.5, ink::TEXT);
            }
        }
    }

    fn date(&self, date: NaiveDate) -> String {
        match self.chart.units {
            UnitSystem::Us => date.format("%b %-d").to_string(),
            UnitSystem::Metric => date.format("%-d %b").to_string(),
        }
    }
}

fn is_within(chart: &SeasonChart, date: NaiveDate) -> bool {
    (chart.from..=chart.to).contains(&date)
}
