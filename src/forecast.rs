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
pub mod fetch;
mod horizon;
mod interpolation;
mod json;
pub mod open_meteo;
mod plausible;
mod quantity;
mod schedule;
pub mod year;

pub use budget::{Budget, Spending};
pub use cell::Cell;
pub use error::{ForecastError, Limit, Problem};
pub use fetch::{ApiKey, Fetcher, Policy};
pub use horizon::{as_forecast, native_step};
pub use open_meteo::OpenMeteo;
pub use schedule::{Schedule, spread};

use chrono::{DateTime, Utc};

use crate::weather::Series;

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
