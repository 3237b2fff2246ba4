//! Hours of weather, a row each.

use chrono::{DateTime, NaiveDate, Utc};
use serde::{Deserialize, Serialize};

use super::mirror::Recorded;
use crate::units::{
    Celsius, Fraction, MetresPerSecond, Millimetres, Probability, RelativeHumidity, WattsPerSquareMetre,
};
use crate::weather::{Hour, Origin};

#[derive(Deserialize, Serialize)]
pub(in crate::store) struct ForecastRecord {
    pub(in crate::store) fetched: DateTime<Utc>,
    pub(in crate::store) credit: String,
    pub(in crate::store) hours: Vec<HourRecord>,
}

/// The past hours of one UTC day.
#[derive(Deserialize, Serialize)]
pub(in crate::store) struct DayRecord {
    pub(in crate::store) hours: Vec<HourRecord>,
}

/// What a weather service was asked for so far on a UTC day, in its own weighted calls.
#[derive(Deserialize, Serialize)]
pub(in crate::store) struct BudgetRecord {
    pub(in crate::store) day: NaiveDate,
    pub(in crate::store) spent: f64,
}

/// An hour as a row, in the order of the columns of the hourly files, with its start in hours since 1970 first
/// and its origin last.
#[derive(Deserialize, Serialize)]
pub(in crate::store) struct HourRecord(
    #[serde(with = "hours_since_1970")] DateTime<Utc>,
    Option<Celsius>,
    Option<RelativeHumidity>,
    Option<Celsius>,
    Option<Millimetres>,
    Option<Probability>,
    Option<MetresPerSecond>,
    Option<MetresPerSecond>,
    Option<Fraction>,
    Option<WattsPerSquareMetre>,
    Option<Millimetres>,
    OriginRecord,
);

#[derive(Deserialize, Serialize)]
enum OriginRecord {
    #[serde(rename = "u")]
    Unknown,
    #[serde(rename = "o")]
    Observed,
    #[serde(rename = "m")]
    Modelled,
    #[serde(rename = "f")]
    Forecast(u8),
}

impl Recorded for Hour {
    type Record = HourRecord;

    fn to_record(&self) -> HourRecord {
        HourRecord(
            self.start,
            self.temperature,
            self.humidity,
            self.dew_point,
            self.rain,
            self.rain_probability,
            self.wind,
            self.gust,
            self.cloud,
            self.radiation,
            self.evaporation,
            match self.origin {
                Origin::Unknown => OriginRecord::Unknown,
                Origin::Observed => OriginRecord::Observed,
                Origin::Modelled => OriginRecord::Modelled,
                Origin::Forecast { native_step } => OriginRecord::Forecast(native_step),
            },
        )
    }

    fn of_record(record: HourRecord) -> Self {
        Hour {
            start: record.0,
            temperature: record.1,
            humidity: record.2,
            dew_point: record.3,
            rain: record.4,
            rain_probability: record.5,
            wind: record.6,
            gust: record.7,
            cloud: record.8,
            radiation: record.9,
            evaporation: record.10,
            origin: match record.11 {
                OriginRecord::Unknown => Origin::Unknown,
                OriginRecord::Observed => Origin::Observed,
                OriginRecord::Modelled => Origin::Modelled,
                OriginRecord::Forecast(native_step) => Origin::Forecast { native_step },
            },
        }
    }
}

mod hours_since_1970 {
    use chrono::{DateTime, TimeZone, Utc};
    use serde::de::Error;
    use serde::{Deserialize, Deserializer, Serializer};

    pub(super) fn serialize<S: Serializer>(start: &DateTime<Utc>, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_i64(start.timestamp().div_euclid(3600))
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<DateTime<Utc>, D::Error> {
        let hours = i64::deserialize(deserializer)?;
        let seconds = hours.checked_mul(3600);
        seconds
            .and_then(|seconds| Utc.timestamp_opt(seconds, 0).single())
            .ok_or_else(|| D::Error::custom("an hour outside the calendar"))
    }
}
