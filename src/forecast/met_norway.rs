//! Locationforecast 2.0 of MET Norway: the forecast to fall back on anywhere in the world.
//!
//! Hourly for about two days, then in steps of six hours. What is said of the next hours belongs
//! to the hours that START at the step; instants stand at it. Outside the Nordic countries there
//! is no gust and no probability, and nowhere radiation: those stay unknown.
//!
//! The service asks for a contact in the user agent, for at most four decimals of position, and
//! not to be asked again before its answer expires; then only whether something changed.
//!
//! # Source
//! Documentation of MET Norway's Weather API (metno/weatherapi-docs, March 2023), and the recorded
//! bodies listed in `tests/data/weather/README.md`.

mod steps;

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

use chrono::{DateTime, Utc};
use reqwest::Url;

use super::fetch::{Answer, Fetcher, Request, address};
use super::{Cell, Decoded, ForecastError};
use crate::units::Fraction;

pub use steps::decode;

#[derive(Debug)]
pub struct MetNorway {
    url: Url,
    kept: Mutex<HashMap<Cell, Answer>>,
}

impl MetNorway {
    pub const ADDRESS: &str = "https://api.met.no";

    pub fn new(configured: &str) -> Result<Self, ForecastError> {
        Ok(Self {
            url: address(configured, "weatherapi/locationforecast/2.0/complete")?,
            kept: Mutex::default(),
        })
    }

    pub fn request(&self, cell: Cell) -> Request {
        let mut url = self.url.clone();
        url.query_pairs_mut().append_pair("lat", &cell.latitude()).append_pair("lon", &cell.longitude());
        Request::new(url, None)
    }

    /// Fetches and decodes; an answer that has not expired is used again without asking.
    pub async fn forecast(
        &self,
        fetcher: &Fetcher,
        cell: Cell,
        now: DateTime<Utc>,
        spread: Fraction,
    ) -> Result<Decoded, ForecastError> {
        fetcher.require_contact()?;
        let mut request = self.request(cell);
        let kept = self.kept(cell);
        if let Some(answer) = &kept {
            if answer.expires_at().is_some_and(|expires| now < expires) {
                return decode(&answer.body, now);
            }
            if let Some(date) = &answer.last_modified {
                request = request.unless_same_since(date);
            }
        }
        let (decoded, answer) = fetcher
            .fetch_answer(&request, spread, |answer| {
                let answer = match &kept {
                    Some(kept) if answer.unchanged => Answer { body: kept.body.clone(), ..answer },
                    _ => answer,
                };
                Ok((decode(&answer.body, now)?, answer))
            })
            .await?;
        self.keep(cell, answer);
        Ok(decoded)
    }

    fn kept(&self, cell: Cell) -> Option<Answer> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner).get(&cell).cloned()
    }

    fn keep(&self, cell: Cell, answer: Answer) {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner).insert(cell, answer);
    }
}

#[cfg(test)]
mod tests;
