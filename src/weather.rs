//! Weather as the models see it: one canonical hour, and a series of them with its gaps known.
//!
//! The interfaces disagree on what an hour label means; adapters convert to this one meaning:
//! the hour that STARTS at `start`, UTC. Absent is unknown and stays `None`, never zero.

mod day;
mod series;

pub use day::{Day, days};
pub use series::Series;

use chrono::{DateTime, DurationRound, TimeDelta, Utc};

use crate::units::{
    Celsius, Fraction, MetresPerSecond, Millimetres, Probability, RelativeHumidity, WattsPerSquareMetre,
};

/// The hour `[start, start + 1 h)`, every value optional.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hour {
    /// Whole hour, UTC.
    pub start: DateTime<Utc>,
    /// Mean air temperature of the hour at 2 m.
    pub temperature: Option<Celsius>,
    /// Mean relative humidity of the hour at 2 m.
    pub humidity: Option<RelativeHumidity>,
    pub dew_point: Option<Celsius>,
    /// Water that fell during the hour, snow as its water.
    pub rain: Option<Millimetres>,
    pub rain_probability: Option<Probability>,
    /// Wind at 10 m.
    pub wind: Option<MetresPerSecond>,
    pub gust: Option<MetresPerSecond>,
    pub cloud: Option<Fraction>,
    /// Mean short-wave radiation of the hour on the level.
    pub radiation: Option<WattsPerSquareMetre>,
    /// Reference evapotranspiration of the hour as the feed computed it (FAO-56 grass).
    pub evaporation: Option<Millimetres>,
    pub origin: Origin,
}

impl Hour {
    /// An hour of which nothing is known.
    pub fn unknown(start: DateTime<Utc>) -> Self {
        Self {
            start,
            temperature: None,
            humidity: None,
            dew_point: None,
            rain: None,
            rain_probability: None,
            wind: None,
            gust: None,
            cloud: None,
            radiation: None,
            evaporation: None,
            origin: Origin::Unknown,
        }
    }

    pub fn end(&self) -> DateTime<Utc> {
        self.start.checked_add_signed(TimeDelta::hours(1)).unwrap_or(DateTime::<Utc>::MAX_UTC)
    }

    /// Known enough to say whether leaves were wet.
    pub fn is_known(&self) -> bool {
        self.temperature.is_some() && self.humidity.is_some()
    }
}

/// Where the hour's values come from, which is how far they can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// No source had this hour.
    Unknown,
    /// Measured by a station or a gauge.
    Observed,
    /// A weather model's short-lead value for an hour already past. Good, but not a measurement.
    Modelled,
    /// A forecast, at the native step of its model (hours): rain of a six-hour step is spread
    /// evenly over its hours, so wet hours counted from it are not honest.
    Forecast { native_step: u8 },
}

impl Origin {
    /// Whether wet hours may be counted from it.
    pub fn resolves_hours(self) -> bool {
        match self {
            Origin::Unknown => false,
            Origin::Observed | Origin::Modelled => true,
            Origin::Forecast { native_step } => native_step <= 1,
        }
    }
}

/// The whole hour a moment lies in.
pub fn hour_of(moment: DateTime<Utc>) -> DateTime<Utc> {
    // Truncation to the hour only fails at the far ends of the calendar, where the moment itself serves.
    moment.duration_trunc(TimeDelta::hours(1)).unwrap_or(moment)
}
