//! Keeping the weather of every garden's cell fresh, and what the climate says of frost.

use chrono::{DateTime, Datelike, NaiveDate, TimeDelta, Utc};

use crate::agronomy::frost::{DailyMinima, FREEZE, FreezeDates, FreezeSide, Percentile, Rule};
use crate::config::Weather;
use crate::forecast::{
    ApiKey, Budget, Cell, Feed, Fetcher, ForecastError, OpenMeteo, Policy, Spending, spread,
};
use crate::identity::GardenId;
use crate::season::answer::Place;
use crate::season::facts::FrostNormals;
use crate::season::garden::YearDay;
use crate::store::{Forecast, Store, StoreError, cell_of};
use crate::units::{Fraction, Hemisphere, Position};

/// The feed of the configured service, and the store it fills.
pub struct Keeper {
    feed: Feed,
    store: Store,
    /// Cells whose freeze dates were asked for and not had, not to be asked for again at once.
    normals_tried: Vec<(Cell, DateTime<Utc>)>,
}

#[derive(Debug, thiserror::Error)]
pub enum KeeperError {
    #[error(transparent)]
    Forecast(#[from] ForecastError),
    #[error(transparent)]
    Store(#[from] StoreError),
    #[error(transparent)]
    Config(#[from] crate::config::ConfigError),
}

/// As far back as the service keeps its forecasts.
const MOST_DAYS_BACK: u8 = 92;
/// Years of minima that freeze dates rest on.
const NORMAL_YEARS: i32 = 30;
/// A place whose minima could not be had is asked for again after this.
const NORMALS_AGAIN: TimeDelta = TimeDelta::hours(24);

impl Keeper {
    pub fn new(
        config: &Weather,
        store: Store,
        policy: Policy,
        now: DateTime<Utc>,
    ) -> Result<Self, KeeperError> {
        let feed = Feed::new(
            Fetcher::new(policy, None)?,
            service(config)?,
            Vec::new(),
            Budget::new(config.daily_budget, now),
        )?;
        Ok(Self { feed, store, normals_tried: Vec::new() })
    }

    /// Fetches what is due now, and what has no weather at all without the wait that spreads first fetches: for
    /// a single garden on a simulated clock.
    pub async fn refresh_at_once(&mut self, now: DateTime<Utc>) -> Result<(), KeeperError> {
        self.feed.schedule.without_delay();
        self.refresh(now).await
    }

    /// Fetches what is due now. A failure is logged and left to the next cycle: the last good forecast stays,
    /// and its age is said.
    pub async fn refresh(&mut self, now: DateTime<Utc>) -> Result<(), KeeperError> {
        let positions = self.positions(now);
        let mut cells = Vec::new();
        for position in &positions {
            let known = self.store.weather(&cell_of(*position))?.1.fetched;
            cells.push((Cell::of(*position), known));
        }
        self.feed.schedule.keep(cells, now);
        for cell in self.feed.schedule.due(now) {
            let Some(position) = positions.iter().find(|position| Cell::of(**position) == cell).copied()
            else {
                continue;
            };
            match self.fetch(cell, position, now).await {
                Ok(()) => {}
                Err(KeeperError::Forecast(error)) => tracing::warn!(%error, "no new forecast"),
                Err(error) => return Err(error),
            }
        }
        for position in positions {
            self.learn_normals(position, now).await?;
        }
        Ok(())
    }

    /// Asks the service for one place's forecast and keeps nothing: the number of hours known from now on.
    pub async fn probe(&mut self, position: Position, now: DateTime<Utc>) -> Result<usize, KeeperError> {
        let decoded = self.feed.cycle(Cell::of(position), 1, now).await?;
        Ok(decoded.series.hours().iter().filter(|hour| hour.start >= now && hour.is_known()).count())
    }

    /// When the next fetch is due.
    pub fn next(&self) -> Option<DateTime<Utc>> {
        self.feed.schedule.next()
    }

    async fn fetch(&mut self, cell: Cell, position: Position, now: DateTime<Utc>) -> Result<(), KeeperError> {
        let name = cell_of(position);
        let known = self.store.weather(&name)?.1.fetched;
        // After a time away the hours in between are asked for too.
        let days_back = known.map_or(MOST_DAYS_BACK, |known| {
            ((now - known).num_days() + 3).clamp(3, i64::from(MOST_DAYS_BACK)) as u8
        });
        let decoded = self.feed.cycle(cell, days_back, now).await?;
        let forecast =
            Forecast { series: decoded.series, fetched: now, credit: decoded.source.credit().to_owned() };
        Ok(self.store.put_forecast(&name, &forecast)?)
    }

    /// Freeze dates of a place, once: from thirty years of daily minima.
    async fn learn_normals(&mut self, position: Position, now: DateTime<Utc>) -> Result<(), KeeperError> {
        let (name, cell) = (cell_of(position), Cell::of(position));
        let tried = self.normals_tried.iter().any(|(known, at)| *known == cell && now - *at < NORMALS_AGAIN);
        if tried || self.store.normals(&name)?.is_some() {
            return Ok(());
        }
        self.normals_tried.retain(|(known, _)| *known != cell);
        self.normals_tried.push((cell, now));
        let Some(last) = NaiveDate::from_ymd_opt(now.year() - 1, 12, 31) else { return Ok(()) };
        let Some(first) = NaiveDate::from_ymd_opt(now.year() - NORMAL_YEARS, 1, 1) else { return Ok(()) };
        if self.feed.budget.spend(now, OpenMeteo::minima_weight(first, last)) != Spending::Allowed {
            return Ok(());
        }
        let minima =
            self.feed.first().minima(self.feed.fetcher(), cell, first, last, spread(cell, now)).await;
        match minima {
            Ok(minima) => {
                let normals = normals(&DailyMinima::checked(minima), position.hemisphere());
                Ok(self.store.put_normals(&name, &normals)?)
            }
            Err(error) => {
                tracing::warn!(%error, "no freeze dates yet");
                Ok(())
            }
        }
    }

    fn positions(&self, now: DateTime<Utc>) -> Vec<Position> {
        // A garden that cannot be read is logged where it is worked on.
        let garden = |id: &GardenId| self.store.facts(id, now, None).ok().flatten();
        let mut positions: Vec<Position> = self
            .store
            .gardens()
            .iter()
            .filter_map(garden)
            .filter_map(|facts| facts.garden.position)
            .collect();
        positions.dedup_by_key(|position| cell_of(*position));
        positions
    }
}

/// Looks places up for set-up by name.
pub struct Places {
    fetcher: Fetcher,
    service: OpenMeteo,
}

impl Places {
    pub fn new(config: &Weather, policy: Policy) -> Result<Self, KeeperError> {
        Ok(Self { fetcher: Fetcher::new(policy, None)?, service: service(config)? })
    }

    /// The likeliest few, or none.
    pub async fn find(&self, name: &str) -> Result<Vec<Place>, KeeperError> {
        const SHOWN: usize = 5;
        let found = self.service.places(&self.fetcher, name).await?;
        Ok(found
            .into_iter()
            .take(SHOWN)
            .map(|place| Place {
                name: place.name,
                region: place.region,
                country: place.country,
                position: place.position,
            })
            .collect())
    }
}

fn service(config: &Weather) -> Result<OpenMeteo, KeeperError> {
    let key = config.key()?.as_deref().and_then(ApiKey::new);
    Ok(OpenMeteo::new(&config.forecast_url, &config.archive_url, &config.geocoding_url, key)?)
}

/// The day by which one autumn in ten, half, and nine in ten had their first freeze, and half the springs
/// their last.
fn normals(minima: &DailyMinima, hemisphere: Hemisphere) -> FrostNormals {
    let first = minima.freeze_dates(FREEZE, FreezeSide::FirstOfFall, hemisphere);
    let last = minima.freeze_dates(FREEZE, FreezeSide::LastOfSpring, hemisphere);
    FrostNormals {
        first_early: year_day(&first, 0.1),
        first_median: year_day(&first, 0.5),
        first_late: year_day(&first, 0.9),
        last_median: year_day(&last, 0.5),
        years: first.seasons() as u32,
    }
}

fn year_day(dates: &FreezeDates, share: f64) -> Option<YearDay> {
    let Percentile::Day(day) = dates.percentile(Fraction::new(share)?, Rule::Linear)? else { return None };
    const COMMON_YEAR: i32 = 2015;
    day.in_count_of(COMMON_YEAR).map(YearDay::of)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Celsius;

    /// Clemson, 1991 to 2020: first freezes 19 October, 4 November, 16 November; last 30 March, worked from the
    /// same series (NOAA GHCN-Daily) with numpy's linear quantile. A day's difference is allowed for another
    /// rule on short years.
    #[test]
    fn normals_of_clemson() {
        let minima: Vec<(NaiveDate, Celsius)> = include_str!("../../tests/data/clemson-daily-1930-2020.csv")
            .lines()
            .skip(1)
            .filter_map(|line| {
                let mut fields = line.split(',');
                let date: NaiveDate = fields.next()?.parse().ok()?;
                Some((date, Celsius::from_fahrenheit(fields.next()?.parse().ok()?)))
            })
            .filter(|(date, _)| date.year() >= 1991)
            .collect();
        let normals = normals(&DailyMinima::checked(minima), Hemisphere::North);
        let ordinal = |day: Option<YearDay>| {
            day.and_then(|day| day.in_year(2015)).map_or(0, |date| date.ordinal() as i64)
        };
        let rows = [
            (normals.first_early, 292),
            (normals.first_median, 308),
            (normals.first_late, 320),
            (normals.last_median, 89),
        ];
        for (got, want) in rows {
            assert!((ordinal(got) - want).abs() <= 1, "{got:?} is not day {want}");
        }
        assert!(normals.years >= 26, "{} years", normals.years);
    }
}
