//! Where a garden's weather comes from: the store that a feed fills, or a recorded year.

use std::sync::{Mutex, PoisonError};

use chrono::{DateTime, TimeDelta, Utc};

use crate::season::facts::{Facts, Feed};
use crate::store::{Store, StoreError, cell_of};
use crate::weather::{Hour, Origin, Series, hour_of};

pub enum Sky {
    /// What the feed brought, kept in the store.
    Stored,
    /// A recorded year; what lies after the present moment is the forecast, as far as a feed would see.
    Recorded(Recorded),
}

pub struct Recorded {
    series: Series,
    credit: Option<String>,
    /// What was last shown, and for which hour: a message and the morning brief share it.
    shown: Mutex<Option<(DateTime<Utc>, Series)>>,
}

/// How far a feed sees.
const FORECAST: TimeDelta = TimeDelta::days(10);
/// Hours further out are interpolated by the models that make them.
const HOURLY: TimeDelta = TimeDelta::days(5);
/// How far back a decision looks: two seasons.
const PAST: TimeDelta = TimeDelta::days(550);

impl Sky {
    pub fn recorded(series: Series, credit: Option<String>) -> Self {
        Sky::Recorded(Recorded { series, credit, shown: Mutex::new(None) })
    }

    /// Puts the weather into the facts of a garden.
    pub(super) fn fill(&self, facts: &mut Facts, store: &Store) -> Result<(), StoreError> {
        match self {
            Sky::Recorded(recorded) => {
                facts.weather = recorded.at(facts.now);
                // A recorded year is as fresh as the morning it is looked at in.
                facts.feed = Feed { credit: recorded.credit.clone(), fetched: Some(facts.now) };
            }
            Sky::Stored => {
                if let Some(position) = facts.garden.position {
                    let cell = cell_of(position);
                    (facts.weather, facts.feed) = store.weather(&cell)?;
                    facts.normals = store.normals(&cell)?;
                }
            }
        }
        Ok(())
    }
}

impl Recorded {
    fn at(&self, now: DateTime<Utc>) -> Series {
        let hour = hour_of(now);
        let mut shown = self.shown.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((at, series)) = shown.as_ref()
            && *at == hour
        {
            return series.clone();
        }
        let visible = self.series.between(hour - PAST, hour + FORECAST);
        let series = Series::from_hours(visible.iter().map(|known| Hour {
            origin: match known.origin {
                Origin::Unknown => Origin::Unknown,
                origin if known.start < hour => origin,
                _ if known.start < hour + HOURLY => Origin::Forecast { native_step: 1 },
                _ => Origin::Forecast { native_step: 3 },
            },
            ..*known
        }));
        *shown = Some((hour, series.clone()));
        series
    }
}
