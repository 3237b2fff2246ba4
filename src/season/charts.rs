//! What a picture of a week or a season shows, hour by hour and day by day.

use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;

use super::answer::{FrostNight, Infection, InfectionGrade, Window};
use super::garden::UnitSystem;
use crate::units::{Celsius, Fraction, Millimetres};

/// The days ahead.
#[derive(Clone, Debug, PartialEq)]
pub struct WeekChart {
    pub garden: String,
    pub zone: Tz,
    pub units: UnitSystem,
    pub now: DateTime<Utc>,
    pub hours: Vec<ChartHour>,
    /// From sunset to sunrise, in order.
    pub nights: Vec<(DateTime<Utc>, DateTime<Utc>)>,
    pub infections: Vec<Infection>,
    pub window: Option<Window>,
    pub second: Option<Window>,
    /// Wet hours past this are not counted towards infections: the forecast is interpolated there.
    pub judged_until: DateTime<Utc>,
    pub frost: Option<FrostNight>,
    pub credit: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChartHour {
    pub start: DateTime<Utc>,
    pub temperature: Option<Celsius>,
    pub rain: Option<Millimetres>,
    pub leaves: LeafWetness,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeafWetness {
    Wet,
    Dry,
    Unknown,
}

/// The season from spring to frost, as far as it has come.
#[derive(Clone, Debug, PartialEq)]
pub struct SeasonChart {
    pub garden: String,
    pub units: UnitSystem,
    /// The year the season began in.
    pub season: i32,
    pub from: NaiveDate,
    pub to: NaiveDate,
    pub today: NaiveDate,
    pub days: Vec<ChartDay>,
    pub infections: Vec<(NaiveDate, InfectionGrade)>,
    pub sprays: Vec<(NaiveDate, String)>,
    /// Looks at the leaves: the worst tree of each day.
    pub rust: Vec<(NaiveDate, Fraction)>,
    pub picked: Vec<(NaiveDate, u32)>,
    /// The frost that ended the season, or the usual one ahead.
    pub frost: Option<NaiveDate>,
    pub credit: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChartDay {
    pub date: NaiveDate,
    pub rain: Option<Millimetres>,
    /// Protection left at noon, the mean of the trees sprayed this season.
    pub cover: Option<Fraction>,
}
