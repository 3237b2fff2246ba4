//! The grids of the US National Weather Service, edited by its forecasters: a forecast to fall back on in
//! the United States.
//!
//! A point gives the grid cell of an office, the cell gives layers of intervals. Equal neighbours
//! are merged there, so a value is repeated for each hour of its interval; rain is the total of its
//! interval and is divided. Layers end at different times; beyond its end a layer is unknown.
//! There is no radiation.
//!
//! The service asks for a contact in the user agent. Its data is in the public domain.
//!
//! # Source
//! Documentation and issues of the service (weather-gov/api, May 2024), and the recorded bodies
//! listed in `tests/data/weather/README.md`.

mod interval;
mod layers;
mod point;

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

use chrono::{DateTime, Utc};
use reqwest::Url;

use super::fetch::{Fetcher, Request, address};
use super::{Cell, Decoded, ForecastError, Problem};
use crate::units::Fraction;

pub use layers::decode;
pub use point::{GridPoint, decode_point};

#[derive(Debug)]
pub struct Nws {
    base: Url,
    /// Grids move now and then without notice, so these are only kept until one fails.
    points: Mutex<HashMap<Cell, GridPoint>>,
}

impl Nws {
    pub const ADDRESS: &str = "https://api.weather.gov";

    pub fn new(configured: &str) -> Result<Self, ForecastError> {
        Ok(Self { base: address(configured, "")?, points: Mutex::default() })
    }

    pub fn point_request(&self, cell: Cell) -> Request {
        // Zeros at the end are answered by a redirect.
        let tidy = |degrees: String| degrees.trim_end_matches('0').trim_end_matches('.').to_owned();
        self.request(&format!("points/{},{}", tidy(cell.latitude()), tidy(cell.longitude())))
    }

    /// Built from the grid's name and never from the addresses in the answer, so that a configured
    /// address holds for all of it.
    pub fn grid_request(&self, point: &GridPoint) -> Request {
        self.request(&format!("gridpoints/{}/{},{}", point.office, point.x, point.y))
    }

    pub async fn forecast(
        &self,
        fetcher: &Fetcher,
        cell: Cell,
        now: DateTime<Utc>,
        spread: Fraction,
    ) -> Result<Decoded, ForecastError> {
        fetcher.require_contact()?;
        let known = self.points.lock().unwrap_or_else(PoisonError::into_inner).get(&cell).cloned();
        if let Some(point) = known {
            match self.grid(fetcher, &point, now, spread).await {
                Err(error) if is_gone(&error) => {}
                answered => return answered,
            }
        }
        let point = fetcher.fetch(&self.point_request(cell), spread, decode_point).await?;
        let decoded = self.grid(fetcher, &point, now, spread).await?;
        self.points.lock().unwrap_or_else(PoisonError::into_inner).insert(cell, point);
        Ok(decoded)
    }

    async fn grid(
        &self,
        fetcher: &Fetcher,
        point: &GridPoint,
        now: DateTime<Utc>,
        spread: Fraction,
    ) -> Result<Decoded, ForecastError> {
        fetcher.fetch(&self.grid_request(point), spread, |bytes| decode(bytes, now)).await
    }

    fn request(&self, path: &str) -> Request {
        let mut url = self.base.clone();
        let own = url.path().trim_end_matches('/').to_owned();
        url.set_path(&format!("{own}/{path}"));
        Request::new(url, None).accepting("application/geo+json")
    }
}

fn is_gone(error: &ForecastError) -> bool {
    matches!(error.problem(), Problem::Status { code: 404, .. })
}

#[cfg(test)]
mod tests;
