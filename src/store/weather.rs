//! Weather by grid cell: the hours that have passed, a day a record, and the last good forecast with its age.

use std::collections::VecDeque;

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use super::keys::Kind;
use super::record::{BudgetRecord, DayRecord, ForecastRecord, Recorded};
use super::{Store, StoreError, keys, record};
use crate::season::facts::{Feed, FrostNormals};
use crate::units::Position;
use crate::weather::{Hour, Origin, Series};

/// A forecast as it was fetched: past hours of the feed, then those ahead.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    pub series: Series,
    pub fetched: DateTime<Utc>,
    /// Whom to credit.
    pub credit: String,
}

/// What a weather service was asked for so far on a UTC day, in its own weighted calls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    pub day: NaiveDate,
    pub spent: f64,
}

/// The grid cell of a garden, shared by all gardens in it.
pub fn cell_of(position: Position) -> String {
    let position = position.rounded();
    // Adding nothing turns -0.0 into 0.0, so that the equator is one place.
    format!("{:.2},{:.2}", position.latitude.value() + 0.0, position.longitude.value() + 0.0)
}

/// Weather models are corrected for so long; hours older than that stay as they were last seen.
const REVISED_FOR: TimeDelta = TimeDelta::days(3);

/// How far back a decision looks: two seasons.
const LOOKED_BACK: TimeDelta = TimeDelta::days(550);

/// Cells held decoded: each is about 2.5 MB, and a household has one or two.
const CELLS_HELD: usize = 3;

/// Past hours with the last forecast laid over, of the cells last asked for.
#[derive(Default)]
pub(super) struct CachedWeather {
    cells: VecDeque<(String, Series, Feed)>,
}

impl CachedWeather {
    fn get(&self, cell: &str) -> Option<(Series, Feed)> {
        let (_, series, feed) = self.cells.iter().find(|(known, ..)| known == cell)?;
        Some((series.clone(), feed.clone()))
    }

    fn put(&mut self, cell: &str, series: Series, feed: Feed) {
        self.forget(cell);
        self.cells.truncate(CELLS_HELD - 1);
        self.cells.push_front((cell.to_owned(), series, feed));
    }

    fn forget(&mut self, cell: &str) {
        self.cells.retain(|(known, ..)| known != cell);
    }
}

impl Store {
    /// Keeps a fetched forecast. Hours already past join the cell's own record.
    pub fn put_forecast(&self, cell: &str, forecast: &Forecast) -> Result<(), StoreError> {
        let mut cache = self.cache();
        let mut batch = sled::Batch::default();
        let row = ForecastRecord {
            fetched: forecast.fetched,
            credit: forecast.credit.clone(),
            hours: forecast.series.hours().iter().map(Hour::to_record).collect(),
        };
        batch.insert(keys::cell(Kind::Forecast, cell), record::write(&row)?);
        let past: Vec<Hour> = forecast
            .series
            .hours()
            .iter()
            .filter(|hour| hour.end() <= forecast.fetched && hour.origin != Origin::Unknown)
            .map(|hour| Hour { origin: settled(hour.origin), ..*hour })
            .collect();
        for hours in past.chunk_by(|one, next| one.start.date_naive() == next.start.date_naive()) {
            self.settle_day(cell, hours, forecast.fetched, &mut batch)?;
        }
        self.apply(batch)?;
        cache.weather.forget(cell);
        drop(cache);
        self.announce();
        Ok(())
    }

    /// A cell's hours, past and ahead, and where the forecast came from. Empty where nothing was ever fetched;
    /// a record that cannot be read is a gap like any other.
    pub fn weather(&self, cell: &str) -> Result<(Series, Feed), StoreError> {
        let mut cache = self.cache();
        if let Some(known) = cache.weather.get(cell) {
            return Ok(known);
        }
        let key = keys::cell(Kind::Forecast, cell);
        let forecast = match self.shared.tree.get(&key)? {
            Some(bytes) => record::read::<ForecastRecord>(&key, &bytes).ok(),
            None => None,
        };
        let mut series = Series::from_hours(self.past(cell)?);
        let mut feed = Feed::default();
        if let Some(ForecastRecord { fetched, credit, hours }) = forecast {
            series = series.merged(&Series::from_hours(hours.into_iter().map(Hour::of_record)));
            feed = Feed { credit: Some(credit), fetched: Some(fetched) };
        }
        cache.weather.put(cell, series.clone(), feed.clone());
        Ok((series, feed))
    }

    pub fn put_normals(&self, cell: &str, normals: &FrostNormals) -> Result<(), StoreError> {
        self.put(keys::cell(Kind::Normals, cell), record::write_of(normals)?)
    }

    pub fn normals(&self, cell: &str) -> Result<Option<FrostNormals>, StoreError> {
        let key = keys::cell(Kind::Normals, cell);
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(None) };
        Ok(Some(record::read_of(&key, &bytes)?))
    }

    pub fn put_budget(&self, service: &str, budget: &Budget) -> Result<(), StoreError> {
        let Budget { day, spent } = *budget;
        self.put(keys::budget(service), record::write(&BudgetRecord { day, spent })?)
    }

    pub fn budget(&self, service: &str) -> Result<Option<Budget>, StoreError> {
        let key = keys::budget(service);
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(None) };
        let BudgetRecord { day, spent } = record::read(&key, &bytes)?;
        Ok(Some(Budget { day, spent }))
    }

    fn put(&self, key: Vec<u8>, bytes: Vec<u8>) -> Result<(), StoreError> {
        let _writing = self.cache();
        let mut batch = sled::Batch::default();
        batch.insert(key, bytes);
        self.apply(batch)
    }

    /// Joins hours of one UTC day to the cell's own record of it.
    fn settle_day(
        &self,
        cell: &str,
        fetched: &[Hour],
        now: DateTime<Utc>,
        batch: &mut sled::Batch,
    ) -> Result<(), StoreError> {
        let Some(date) = fetched.first().map(|hour| hour.start.date_naive()) else { return Ok(()) };
        let key = keys::past_day(cell, date);
        let known: Vec<Hour> = match self.shared.tree.get(&key)? {
            Some(bytes) => match record::read::<DayRecord>(&key, &bytes) {
                Ok(day) => Vec::of_record(day.hours),
                // What cannot be read is not overwritten either.
                Err(_) => return Ok(()),
            },
            None => Vec::new(),
        };
        let newer = |hour: &&Hour| {
            let kept = known.iter().find(|kept| kept.start == hour.start);
            kept.is_none_or(|kept| kept.origin != Origin::Observed && hour.start >= now - REVISED_FOR)
        };
        let hours = known.iter().chain(fetched.iter().filter(newer)).copied();
        let merged = Series::from_hours(hours);
        let hours = merged.hours().iter().filter(|hour| hour.origin != Origin::Unknown);
        let hours: Vec<Hour> = hours.copied().collect();
        if hours != known {
            batch.insert(key, record::write(&DayRecord { hours: hours.to_record() })?);
        }
        Ok(())
    }

    fn past(&self, cell: &str) -> Result<Vec<Hour>, StoreError> {
        let range = keys::past_range(cell);
        let last = self.shared.tree.scan_prefix(&range).keys().next_back().transpose()?;
        let Some(last) = last.and_then(|key| keys::date_at_end(&key)) else { return Ok(Vec::new()) };
        let from = keys::past_day(cell, last.checked_sub_signed(LOOKED_BACK).unwrap_or(NaiveDate::MIN));
        let mut hours = Vec::new();
        for item in self.shared.tree.range(from..) {
            let (key, bytes) = item?;
            if !key.starts_with(&range) {
                break;
            }
            let day: Option<DayRecord> = record::read(&key, &bytes).ok();
            hours.extend(day.into_iter().flat_map(|day| Vec::<Hour>::of_record(day.hours)));
        }
        Ok(hours)
    }
}

/// A past hour of a model's is no forecast any more, and no measurement either.
fn settled(origin: Origin) -> Origin {
    if origin == Origin::Observed { origin } else { Origin::Modelled }
}
