//! The season as it stands and lies ahead, worked out once for a message or a morning.

mod ahead;
mod canopy;
mod charts;
mod frost;
mod leaves;
mod ripening;
mod spray;
mod trees;
mod water;
mod worth;

pub use frost::FrostDate;
pub use trees::TreeOutlook;

use std::cell::{OnceCell, RefCell};

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use chrono_tz::Tz;

use super::answer::{DataAge, Freshness, Infection, InfectionGrade};
use super::calendar::{local_date, midnight, season_start};
use super::facts::Facts;
use super::history::History;
use super::{gauge, thresholds::Thresholds};
use crate::agronomy::cover::{Cover, Deposit};
use crate::agronomy::infection::{self, Grade, InfectionEvent, RustParameters};
use crate::agronomy::wetness::WetnessRule;
use crate::units::{Celsius, Hours};
use crate::weather::{Hour, Series};

/// Infections further back than this have long shown their spots.
const LOOK_BACK: TimeDelta = TimeDelta::days(30);
/// As far as wet hours may be counted from a forecast: further out it is interpolated.
const HONEST_AHEAD: TimeDelta = TimeDelta::days(5);

/// A deposit's cover at a moment, reckoned once.
type Reckoned = (Deposit, DateTime<Utc>, Option<Cover>);

pub struct Outlook<'a> {
    pub facts: &'a Facts,
    pub now: DateTime<Utc>,
    pub zone: Tz,
    pub today: NaiveDate,
    pub history: History,
    /// The weather with the grower's own gauge in it.
    pub weather: Series,
    /// Infection events of the last weeks and the days ahead, in order.
    pub events: Vec<InfectionEvent>,
    covers: RefCell<Vec<Reckoned>>,
    frost: OnceCell<Option<FrostDate>>,
    trees: OnceCell<Vec<TreeOutlook>>,
    leaves_out: OnceCell<leaves::Leaves>,
    garden_days: OnceCell<canopy::GardenDays>,
}

impl<'a> Outlook<'a> {
    pub fn of(facts: &'a Facts) -> Self {
        let history = History::of(&facts.journal, &facts.garden);
        let weather = gauge::corrected(&facts.weather, &history.gauge);
        let zone = facts.garden.zone();
        let known = honest(&weather, facts.now - LOOK_BACK, facts.now);
        let events = infection::events(known, WetnessRule::default(), &RustParameters::default());
        Self {
            facts,
            now: facts.now,
            zone,
            today: local_date(facts.now, zone),
            history,
            events,
            weather,
            covers: RefCell::new(Vec::new()),
            frost: OnceCell::new(),
            trees: OnceCell::new(),
            leaves_out: OnceCell::new(),
            garden_days: OnceCell::new(),
        }
    }

    pub fn thresholds(&self) -> &Thresholds {
        &self.facts.garden.thresholds
    }

    /// This season's usual first frost, or the one the forecast holds.
    pub fn frost(&self) -> Option<FrostDate> {
        *self.frost.get_or_init(|| frost::date(self))
    }

    pub fn trees(&self) -> &[TreeOutlook] {
        self.trees.get_or_init(|| trees::all(self))
    }

    pub fn events_ahead(&self) -> impl Iterator<Item = &InfectionEvent> {
        self.events.iter().filter(|event| event.to > self.now)
    }

    /// The days ahead by the sensitive rule: the damp end of what sites were found to differ by.
    pub fn events_by_the_damp_end(&self) -> Vec<InfectionEvent> {
        let known = honest(&self.weather, self.now - TimeDelta::hours(24), self.now);
        let mut events = infection::events(known, WetnessRule::sensitive(), &RustParameters::default());
        events.retain(|event| event.to > self.now);
        events
    }

    pub fn events_past(&self) -> impl Iterator<Item = &InfectionEvent> {
        self.events.iter().filter(|event| event.to <= self.now)
    }

    pub fn season_start(&self) -> DateTime<Utc> {
        midnight(season_start(self.today, self.facts.garden.hemisphere()), self.zone)
    }

    /// Mean temperature of a stretch of hours.
    pub fn mean_temperature(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> Option<Celsius> {
        Celsius::mean(self.weather.between(from, to).iter().filter_map(|hour| hour.temperature))
    }

    /// How old the weather is that an answer rests on.
    pub fn age(&self) -> DataAge {
        let feed = &self.facts.feed;
        let hours =
            feed.fetched.map(|fetched| Hours::from_duration((self.now - fetched).max(TimeDelta::zero())));
        let freshness = match hours {
            None => Freshness::None,
            Some(hours) if hours > self.thresholds().weather_old => Freshness::Old,
            Some(_) => Freshness::Fresh,
        };
        DataAge { fetched: feed.fetched, hours, freshness, credit: feed.credit.clone() }
    }
}

/// The hours from a moment on that wet hours may be counted from: all that are past, and of those ahead as many as
/// a forecast resolves.
fn honest(weather: &Series, from: DateTime<Utc>, now: DateTime<Utc>) -> &[Hour] {
    let hours = weather.between(from, now + HONEST_AHEAD);
    let blurred = hours.iter().position(|hour| hour.start >= now && !hour.origin.resolves_hours());
    &hours[..blurred.unwrap_or(hours.len())]
}

/// An event as an answer gives it.
pub fn told(event: &InfectionEvent) -> Infection {
    Infection {
        from: event.from,
        to: event.to,
        wet_hours: event.wet,
        mean_c: event.mean,
        grade: match event.grade {
            Grade::Trace => InfectionGrade::Trace,
            Grade::Moderate => InfectionGrade::Moderate,
            Grade::Severe => InfectionGrade::Severe,
        },
    }
}
