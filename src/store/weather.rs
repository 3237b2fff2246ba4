//! Weather by grid cell: the hours that have passed, a day a record, and the last good forecast with its age.

use chrono::{DateTime, NaiveDate, TimeDelta, TimeZone, Utc};
use serde::{Deserialize, Serialize};

use super::{Store, StoreError, keys, record};
use crate::season::facts::{Feed, FrostNormals};
use crate::units::{
    Celsius, Fraction, MetresPerSecond, Millimetres, Probability, RelativeHumidity, WattsPerSquareMetre,
};
use crate::weather::{Hour, Origin, Series};

/// A forecast as it was fetched: past hours of the feed, then those ahead.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    pub series: Series,
    pub fetched: DateTime<Utc>,
    /// Whom to credit.
    pub credit: String,
}

/// A feed stops being the past's record this far back: older hours of a cell are kept as they were first seen.
const REVISED_FOR: TimeDelta = TimeDelta::days(3);

#[derive(Deserialize, Serialize)]
struct ForecastRecord {
    fetched: DateTime<Utc>,
    credit: String,
    hours: Vec<HourRecord>,
}

#[derive(Deserialize, Serialize)]
struct DayRecord {
    hours: Vec<HourRecord>,
}

/// An hour as a row, in the order of the columns of the hourly files, with its start in hours since 1970 first
/// and its origin last.
#[derive(Deserialize, Serialize)]
struct HourRecord(
    i64,
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

impl Store {
    /// Keeps a fetched forecast. Hours already past join the cell's own record.
    pub fn put_forecast(&self, cell: &str, forecast: &Forecast) -> Result<(), StoreError> {
        let mut cache = self.cache();
        let mut batch = sled::Batch::default();
        let hours: Vec<HourRecord> = forecast.series.hours().iter().map(HourRecord::from).collect();
        let row = ForecastRecord { fetched: forecast.fetched, credit: forecast.credit.clone(), hours };
        batch.insert(keys::cell(keys::FORECAST, cell), record::write(row)?);
        let from = forecast.fetched - REVISED_FOR;
        let past: Vec<Hour> = forecast
            .series
            .between(from, forecast.fetched)
            .iter()
            .filter(|hour| hour.end() <= forecast.fetched && hour.origin != Origin::Unknown)
            .map(|hour| Hour { origin: settled(hour.origin), ..*hour })
            .collect();
        for day in past.chunk_by(|one, next| one.start.date_naive() == next.start.date_naive()) {
            let date = day[0].start.date_naive();
            let known = Series::from_hours(self.past_day(cell, date)?);
            let merged = known.merged(&Series::from_hours(day.iter().copied()));
            let hours = merged.hours().iter().map(HourRecord::from).collect();
            batch.insert(keys::cell_day(cell, day_number(date)), record::write(DayRecord { hours })?);
        }
        self.apply(batch)?;
        cache.weather.remove(cell);
        drop(cache);
        self.announce();
        Ok(())
    }

    /// A cell's hours, past and ahead, and where the forecast came from. Empty where nothing was ever fetched.
    pub fn weather(&self, cell: &str) -> Result<(Series, Feed), StoreError> {
        let key = keys::cell(keys::FORECAST, cell);
        let Some(bytes) = self.shared.tree.get(&key)? else {
            return Ok((Series::default(), Feed::default()));
        };
        let forecast = record::read::<ForecastRecord>(&key, &bytes)?;
        let feed = Feed { credit: Some(forecast.credit), fetched: Some(forecast.fetched) };
        let mut cache = self.cache();
        if let Some(series) = cache.weather.get(cell) {
            return Ok((series.clone(), feed));
        }
        let mut past = Vec::new();
        for item in self.shared.tree.scan_prefix(keys::cell_range(cell)) {
            let (key, bytes) = item?;
            past.extend(
                record::read::<DayRecord>(&key, &bytes)?.hours.into_iter().filter_map(HourRecord::hour),
            );
        }
        let ahead = Series::from_hours(forecast.hours.into_iter().filter_map(HourRecord::hour));
        let series = Series::from_hours(past).merged(&ahead);
        cache.weather.insert(cell.to_owned(), series.clone());
        Ok((series, feed))
    }

    pub fn put_normals(&self, cell: &str, normals: &FrostNormals) -> Result<(), StoreError> {
        let _writing = self.cache();
        let mut batch = sled::Batch::default();
        batch.insert(keys::cell(keys::NORMALS, cell), record::write(normals)?);
        self.apply(batch)
    }

    pub fn normals(&self, cell: &str) -> Result<Option<FrostNormals>, StoreError> {
        let key = keys::cell(keys::NORMALS, cell);
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(None) };
        record::read::<FrostNormals>(&key, &bytes).map(Some)
    }

    fn past_day(&self, cell: &str, date: NaiveDate) -> Result<Vec<Hour>, StoreError> {
        let key = keys::cell_day(cell, day_number(date));
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(Vec::new()) };
        Ok(record::read::<DayRecord>(&key, &bytes)?.hours.into_iter().filter_map(HourRecord::hour).collect())
    }
}

fn day_number(date: NaiveDate) -> i32 {
    (date - NaiveDate::default()).num_days() as i32
}

fn settled(origin: Origin) -> Origin {
    if origin == Origin::Observed { origin } else { Origin::Modelled }
}

impl From<&Hour> for HourRecord {
    fn from(hour: &Hour) -> Self {
        HourRecord(
            hour.start.timestamp().div_euclid(3600),
            hour.temperature,
            hour.humidity,
            hour.dew_point,
            hour.rain,
            hour.rain_probability,
            hour.wind,
            hour.gust,
            hour.cloud,
            hour.radiation,
            hour.evaporation,
            match hour.origin {
                Origin::Unknown => OriginRecord::Unknown,
                Origin::Observed => OriginRecord::Observed,
                Origin::Modelled => OriginRecord::Modelled,
                Origin::Forecast { native_step } => OriginRecord::Forecast(native_step),
            },
        )
    }
}

impl HourRecord {
    /// `None` for a time outside the calendar.
    fn hour(self) -> Option<Hour> {
        Some(Hour {
            start: Utc.timestamp_opt(self.0.checked_mul(3600)?, 0).single()?,
            temperature: self.1,
            humidity: self.2,
            dew_point: self.3,
            rain: self.4,
            rain_probability: self.5,
            wind: self.6,
            gust: self.7,
            cloud: self.8,
            radiation: self.9,
            evaporation: self.10,
            origin: match self.11 {
                OriginRecord::Unknown => Origin::Unknown,
                OriginRecord::Observed => Origin::Observed,
                OriginRecord::Modelled => Origin::Modelled,
                OriginRecord::Forecast(native_step) => Origin::Forecast { native_step },
            },
        })
    }
}
