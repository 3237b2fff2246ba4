//! The garden's weather day by day, as leaves and rust feel it; worked out once for all its trees.

use chrono::{NaiveDate, TimeDelta};

use crate::agronomy::canopy::strength;
use crate::agronomy::infection::{self, InfectionEvent, RustParameters};
use crate::agronomy::wetness::WetnessRule;
use crate::season::calendar::local_date;
use crate::season::outlook::{Outlook, honest, leaves};
use crate::units::{Celsius, Fraction, Millimetres};
use crate::weather::{self, Hour};

/// A day is known by this many of its hours. common practice.
const KNOWN_HOURS: u32 = 18;
/// What goes on past the forecast is the average of so many days, of which half are known.
const LATELY: TimeDelta = TimeDelta::days(30);
/// As far as a forecast's temperatures and rain are taken.
const FORECAST: TimeDelta = TimeDelta::days(10);

pub(in crate::season::outlook) struct GardenDays {
    first: NaiveDate,
    /// One after the other from the first on.
    days: Vec<KnownDay>,
    /// When leaves of this place came out, by the season's warmth.
    pub(super) leaf_out: NaiveDate,
}

/// What is known of a day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct KnownDay {
    mean: Option<Celsius>,
    infection: Option<Fraction>,
    rain: Option<Millimetres>,
}

/// A day's weather, known or assumed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct DayWeather {
    pub(super) mean: Celsius,
    pub(super) infection: Fraction,
    pub(super) rain: Millimetres,
}

impl GardenDays {
    pub(in crate::season::outlook) fn of(outlook: &Outlook) -> Self {
        let start = outlook.season_start();
        let first = local_date(start, outlook.zone);
        let hours = outlook.weather.between(start, outlook.now + FORECAST);
        let told = honest(&outlook.weather, start, outlook.now);
        let events = infection::events(told, WetnessRule::default(), &RustParameters::default());
        let days = weather::days(hours, &outlook.zone);
        let leaf_out = leaves::opened_on(&days, first);
        let mut known = Self { first, days: Vec::new(), leaf_out };
        for day in &days {
            let enough = day.known_hours >= KNOWN_HOURS;
            let rain = day.rain;
            known.enter(day.date, |known| {
                known.mean = day.mean.filter(|_| enough);
                known.rain = rain;
            });
        }
        known.enter_infections(outlook, told, &events);
        known
    }

    /// A day's infection is known where its damp is: none, unless one ended that day.
    fn enter_infections(&mut self, outlook: &Outlook, told: &[Hour], events: &[InfectionEvent]) {
        let date_of = |hour: &Hour| local_date(hour.start, outlook.zone);
        for day in told.chunk_by(|one, next| date_of(one) == date_of(next)) {
            let damp_known = day.iter().filter(|hour| hour.humidity.is_some()).count();
            if damp_known >= KNOWN_HOURS as usize {
                self.enter(date_of(&day[0]), |known| known.infection = Some(Fraction::NONE));
            }
        }
        for event in events {
            self.enter(local_date(event.to, outlook.zone), |known| {
                let worst =
                    known.infection.unwrap_or(Fraction::NONE).value().max(strength(event.grade).value());
                known.infection = Some(Fraction::saturating(worst));
            });
        }
    }

    fn enter(&mut self, date: NaiveDate, what: impl FnOnce(&mut KnownDay)) {
        let Ok(index) = usize::try_from((date - self.first).num_days()) else { return };
        if self.days.len() <= index {
            self.days.resize(index + 1, KnownDay::default());
        }
        what(&mut self.days[index]);
    }

    /// The days from one date to before another, the unknown ones taken as the mean of the known. `None` where
    /// fewer than half are known: a model run on guesses would pass for knowledge.
    pub(super) fn filled(&self, from: NaiveDate, to: NaiveDate) -> Option<Vec<DayWeather>> {
        if from >= to {
            return Some(Vec::new());
        }
        let usual = self.mean_of(from, to)?;
        Some(self.with_gaps_as(usual, from, to))
    }

    /// The days from today to before a date: as forecast, and past that as the last thirty days were on the mean.
    pub(super) fn ahead(&self, today: NaiveDate, until: NaiveDate) -> Option<Vec<DayWeather>> {
        let usual = self.mean_of(today - LATELY, today)?;
        Some(self.with_gaps_as(usual, today, until))
    }

    fn with_gaps_as(&self, usual: DayWeather, from: NaiveDate, to: NaiveDate) -> Vec<DayWeather> {
        from.iter_days()
            .take_while(|date| *date < to)
            .map(|date| {
                let known = self.on(date);
                DayWeather {
                    mean: known.mean.unwrap_or(usual.mean),
                    infection: known.infection.unwrap_or(usual.infection),
                    rain: known.rain.unwrap_or(usual.rain),
                }
            })
            .collect()
    }

    fn on(&self, date: NaiveDate) -> KnownDay {
        let index = usize::try_from((date - self.first).num_days()).ok();
        index.and_then(|index| self.days.get(index)).copied().unwrap_or_default()
    }

    fn mean_of(&self, from: NaiveDate, to: NaiveDate) -> Option<DayWeather> {
        let days: Vec<KnownDay> =
            from.iter_days().take_while(|date| *date < to).map(|date| self.on(date)).collect();
        let infections: Vec<f64> = days.iter().filter_map(|day| day.infection).map(Fraction::value).collect();
        let rains: Vec<f64> = days.iter().filter_map(|day| day.rain).map(Millimetres::value).collect();
        if 2 * infections.len() < days.len() || 2 * rains.len() < days.len() {
            return None;
        }
        Some(DayWeather {
            mean: Celsius::mean(days.iter().filter_map(|day| day.mean))?,
            infection: Fraction::saturating(average(&infections)?),
            rain: Millimetres::new(average(&rains)?),
        })
    }
}

fn average(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}
