//! Weather from outside: one file a weather interface with its wire types and a pure `decode`,
//! and the hourly year written in a file.
//!
//! Whatever an interface calls an hour, what leaves here is the canonical [`Hour`]: it starts at
//! its time stamp, in UTC. What an interface did not say, or said absurdly, is unknown, never zero.
//!
//! [`Hour`]: crate::weather::Hour

mod budget;
mod cell;
mod error;
mod feed;
pub mod fetch;
mod horizon;
mod interpolation;
mod json;
pub mod met_norway;
pub mod nws;
pub mod open_meteo;
mod plausible;
mod quantity;
mod schedule;
pub mod year;

pub use budget::{Budget, Spending};
pub use cell::Cell;
pub use error::{ForecastError, Limit, Problem};
pub use feed::{Feed, StandIn};
pub use fetch::{ApiKey, Fetcher, Policy};
pub use horizon::{as_forecast, native_step};
pub use open_meteo::OpenMeteo;
pub use schedule::{Schedule, spread};

use chrono::{DateTime, TimeDelta, Utc};

use crate::weather::{Hour, Series};

/// A forecast as read, and what was wrong with it though it can be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Decoded {
    pub source: Source,
    pub series: Series,
    pub remarks: Vec<String>,
}

/// Who made a forecast.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    OpenMeteo,
    MetNorway,
    NationalWeatherService,
}

impl Source {
    /// What the licence of the data asks to be shown wherever it is.
    pub fn credit(self) -> &'static str {
        match self {
            Source::OpenMeteo => "Weather data by Open-Meteo.com (CC BY 4.0)",
            Source::MetNorway => "Data from MET Norway (CC BY 4.0)",
            Source::NationalWeatherService => "Forecast by the US National Weather Service",
        }
    }
}

impl Decoded {
    /// Hours of which nothing is known are gaps, whatever their origin says.
    fn of(source: Source, hours: impl IntoIterator<Item = Hour>, remarks: Vec<String>) -> Self {
        let is_known = |hour: &Hour| *hour != Hour { origin: hour.origin, ..Hour::unknown(hour.start) };
        Self { source, series: Series::from_hours(hours.into_iter().filter(is_known)), remarks }
    }

    /// Refuses a forecast its service has not renewed for a day, and remarks on one of half a day.
    fn renewed_at(
        mut self,
        updated: Option<DateTime<Utc>>,
        now: DateTime<Utc>,
    ) -> Result<Self, ForecastError> {
        const OLD: TimeDelta = TimeDelta::hours(12);
        const TOO_OLD: TimeDelta = TimeDelta::hours(24);
        let Some(updated) = updated else {
            return Ok(self);
        };
        let since = updated.format("%Y-%m-%d %H:%M UTC");
        if now - updated > TOO_OLD {
            return Err(Problem::Nothing(format!("the service has not renewed it since {since}")).into());
        }
        if now - updated > OLD {
            self.remarks.push(format!("the service has not renewed it since {since}"));
        }
        Ok(self)
    }

    /// Refuses what a cache on the way serves as if it were new.
    fn with_hours_to_come(self, now: DateTime<Utc>) -> Result<Self, ForecastError> {
        match self.series.end() {
            Some(end) if end > now => Ok(self),
            Some(end) => {
                let end = end.format("%Y-%m-%d %H:%M UTC");
                Err(Problem::Nothing(format!("it ends {end}, before the present; it is an old copy")).into())
            }
            None => Err(Problem::Nothing("every value is missing".to_owned()).into()),
        }
    }
}
