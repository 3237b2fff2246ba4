//! What comes over the wire, read as forgivingly as it can be without inventing anything: a value
//! that is no number is unknown, a column that is no list is absent.

use std::collections::HashMap;

use chrono::{DateTime, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta, Utc};
use serde::Deserialize;
use serde::de::{Deserializer, IgnoredAny};

use crate::forecast::error::excerpt;
use crate::forecast::json::{self, Scalar};
use crate::forecast::{ForecastError, Problem};

#[derive(Deserialize)]
pub(super) struct Body {
    #[serde(default)]
    error: bool,
    #[serde(default)]
    reason: String,
    /// One for all rows, and only where local times were asked for.
    #[serde(default)]
    utc_offset_seconds: i64,
    #[serde(default)]
    pub(super) hourly_units: HashMap<String, String>,
    pub(super) hourly: Option<Table>,
    #[serde(default)]
    pub(super) daily_units: HashMap<String, String>,
    pub(super) daily: Option<Table>,
}

/// A list of times and, beside it, a list of values for each variable.
#[derive(Deserialize)]
pub(super) struct Table {
    #[serde(default)]
    pub(super) time: Vec<Stamp>,
    #[serde(flatten)]
    columns: HashMap<String, Column>,
}

impl Body {
    pub(super) fn offset(&self) -> TimeDelta {
        TimeDelta::try_seconds(self.utc_offset_seconds).unwrap_or_default()
    }
}

impl Table {
    /// The values of a variable, one for each time. None if there are more or fewer: which value
    /// belongs to which time is then anyone's guess.
    pub(super) fn column(&self, variable: &str) -> Column<&[Option<f64>]> {
        match self.columns.get(variable) {
            Some(Column::Values(values)) if values.len() == self.time.len() => Column::Values(values),
            Some(Column::Values(_)) => Column::Uneven,
            _ => Column::Absent,
        }
    }
}

/// The places of a body: one object, or a list of them when several were asked for.
pub(super) fn bodies(bytes: &[u8]) -> Result<Vec<Body>, ForecastError> {
    let is_list = bytes.iter().find(|byte| !byte.is_ascii_whitespace()) == Some(&b'[');
    let bodies = if is_list { json::parse(bytes)? } else { vec![json::parse::<Body>(bytes)?] };
    match bodies.iter().find(|body| body.error) {
        Some(body) => Err(Problem::Refused { reason: excerpt(&body.reason) }.into()),
        None => Ok(bodies),
    }
}

pub(super) enum Column<Values = Vec<Option<f64>>> {
    Values(Values),
    /// Not as long as the list of times.
    Uneven,
    Absent,
}

/// A time as written: seconds since 1970, or a local time without its offset, or a date.
pub(super) enum Stamp {
    Unix(i64),
    Local(NaiveDateTime),
    Unreadable,
}

impl Stamp {
    /// The moment meant. `offset` is the one the whole body was written with.
    pub(super) fn moment(&self, offset: TimeDelta) -> Option<DateTime<Utc>> {
        match self {
            Stamp::Unix(seconds) => DateTime::from_timestamp(*seconds, 0),
            Stamp::Local(local) => Some(local.checked_sub_signed(offset)?.and_utc()),
            Stamp::Unreadable => None,
        }
    }

    /// The local calendar day meant.
    pub(super) fn date(&self, offset: TimeDelta) -> Option<NaiveDate> {
        match self {
            Stamp::Local(local) => Some(local.date()),
            _ => Some(self.moment(offset)?.checked_add_signed(offset)?.date_naive()),
        }
    }

    fn from_text(text: &str) -> Self {
        let local = ["%Y-%m-%dT%H:%M", "%Y-%m-%dT%H:%M:%S"]
            .iter()
            .find_map(|format| NaiveDateTime::parse_from_str(text, format).ok());
        let date = || text.parse::<NaiveDate>().ok().map(|date| date.and_time(NaiveTime::MIN));
        match local.or_else(date) {
            Some(local) => Stamp::Local(local),
            None => text.parse().map_or(Stamp::Unreadable, Stamp::Unix),
        }
    }
}

impl<'de> Deserialize<'de> for Stamp {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(match Scalar::deserialize(deserializer)? {
            // Whole seconds up to 2^53 are exact; `as` saturates what lies beyond.
            Scalar::Number(seconds) if seconds.fract() == 0.0 => Stamp::Unix(seconds as i64),
            Scalar::Text(text) => Stamp::from_text(text.trim()),
            Scalar::Number(_) | Scalar::Other => Stamp::Unreadable,
        })
    }
}

impl<'de> Deserialize<'de> for Column {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        /// A list, or anything else.
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum ListOrNot {
            List(Vec<Scalar>),
            Not(IgnoredAny),
        }

        Ok(match ListOrNot::deserialize(deserializer)? {
            ListOrNot::List(values) => Column::Values(values.iter().map(Scalar::number).collect()),
            ListOrNot::Not(_) => Column::Absent,
        })
    }
}
