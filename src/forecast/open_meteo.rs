//! The Open-Meteo interface: forecast, archive and place names.
//!
//! Asked for GMT, unix time and metres a second; whatever known unit comes back is converted, an
//! unknown one refuses the whole body. Instants (temperature, humidity, wind, cloud) stand at the
//! label, sums and means (rain, radiation, evaporation, the gust's maximum) belong to the hour
//! that ENDS at it; both leave here as the hour that starts one before.
//!
//! Data is CC BY 4.0: wherever it is shown, `Source::credit` is shown too.
//!
//! # Source
//! Documentation and server source of Open-Meteo (open-meteo/open-meteo, August 2026); the bodies
//! it is tested on are recorded ones, listed in `tests/data/weather/README.md`.

mod hours;
mod minima;
mod places;
mod wire;

use chrono::{DateTime, NaiveDate, Utc};
use reqwest::Url;

use super::fetch::{ApiKey, Fetcher, Request, address};
use super::{Cell, Decoded, ForecastError, budget, horizon};
use crate::units::{Celsius, Fraction};

pub use hours::{decode, decode_all};
pub use minima::decode_minima;
pub use places::{Place, decode_places};

/// Days of past hours asked for in the ordinary run.
pub const DAYS_BACK: u8 = 3;
/// The forecast service keeps no more of the past than this.
pub const MOST_DAYS_BACK: u8 = 92;

/// Where the three services are, and the key that paying users have. A server of one's own has one
/// address for all.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenMeteo {
    forecast: Url,
    archive: Url,
    geocoding: Url,
    key: Option<ApiKey>,
}

impl OpenMeteo {
    pub const FORECAST: &str = "https://api.open-meteo.com";
    pub const ARCHIVE: &str = "https://archive-api.open-meteo.com";
    pub const GEOCODING: &str = "https://geocoding-api.open-meteo.com";

    /// Addresses are those of the servers, with or without the path of the service (`/v1/forecast`).
    pub fn new(
        forecast: &str,
        archive: &str,
        geocoding: &str,
        key: Option<ApiKey>,
    ) -> Result<Self, ForecastError> {
        Ok(Self {
            forecast: address(forecast, "v1/forecast")?,
            archive: address(archive, "v1/archive")?,
            geocoding: address(geocoding, "v1/search")?,
            key,
        })
    }

    /// The weather of a cell from `days_back` days ago to ten days ahead.
    pub fn forecast_request(&self, cell: Cell, days_back: u8) -> Request {
        let mut url = self.forecast.clone();
        url.query_pairs_mut()
            .append_pair("latitude", &cell.latitude())
            .append_pair("longitude", &cell.longitude())
            .append_pair("hourly", &hours::VARIABLES.map(|(name, _)| name).join(","))
            .append_pair("past_days", &days_back.min(MOST_DAYS_BACK).to_string())
            .append_pair("forecast_days", &horizon::DAYS_AHEAD.to_string())
            .append_pair("timezone", "GMT")
            .append_pair("timeformat", "unixtime")
            .append_pair("wind_speed_unit", "ms");
        self.request(url)
    }

    /// Each day's lowest temperature, for the usual frost dates. One model family over the whole
    /// time: the default mixture jumps in 2017, and so would a frost date.
    pub fn minima_request(&self, cell: Cell, first: NaiveDate, last: NaiveDate) -> Request {
        let mut url = self.archive.clone();
        url.query_pairs_mut()
            .append_pair("latitude", &cell.latitude())
            .append_pair("longitude", &cell.longitude())
            .append_pair("daily", minima::VARIABLE)
            .append_pair("models", "era5_seamless")
            .append_pair("start_date", &first.to_string())
            .append_pair("end_date", &last.to_string())
            // Local nights, not those of Greenwich.
            .append_pair("timezone", "auto")
            .append_pair("timeformat", "unixtime");
        self.request(url)
    }

    pub fn places_request(&self, name: &str) -> Request {
        let mut url = self.geocoding.clone();
        url.query_pairs_mut().append_pair("name", name.trim()).append_pair("count", "5");
        self.request(url)
    }

    /// What one forecast call counts against the day's allowance.
    pub fn forecast_weight(days_back: u8) -> f64 {
        budget::weight(hours::VARIABLES.len(), i64::from(days_back) + horizon::DAYS_AHEAD)
    }

    /// What one call for daily minima counts.
    pub fn minima_weight(first: NaiveDate, last: NaiveDate) -> f64 {
        budget::weight(1, (last - first).num_days() + 1)
    }

    /// Fetches and decodes; `spread` is this cell's place within the waits (see [`super::spread`]).
    pub async fn forecast(
        &self,
        fetcher: &Fetcher,
        cell: Cell,
        days_back: u8,
        now: DateTime<Utc>,
        spread: Fraction,
    ) -> Result<Decoded, ForecastError> {
        let request = self.forecast_request(cell, days_back);
        fetcher.fetch(&request, spread, |bytes| decode(bytes, now)).await
    }

    pub async fn minima(
        &self,
        fetcher: &Fetcher,
        cell: Cell,
        first: NaiveDate,
        last: NaiveDate,
        spread: Fraction,
    ) -> Result<Vec<(NaiveDate, Celsius)>, ForecastError> {
        let request = self.minima_request(cell, first, last);
        fetcher.fetch(&request, spread, decode_minima).await
    }

    /// The places of a name, the likeliest first; none is an answer, not an error.
    pub async fn places(&self, fetcher: &Fetcher, name: &str) -> Result<Vec<Place>, ForecastError> {
        fetcher.fetch(&self.places_request(name), Fraction::NONE, decode_places).await
    }

    fn request(&self, url: Url) -> Request {
        Request::new(url, self.key.clone())
    }
}

#[cfg(test)]
mod tests;
