//! The freeze that ends a season: by the forecast as far as it reaches, by the climate beyond.

use chrono::{NaiveDate, TimeDelta};

use crate::units::{Celsius, Days};

/// How far ahead a forecast of minima is believed. common practice, 7 to 10 days.
pub const FORECAST_REACH: Days = Days::new(10.0);

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExpectedFreeze {
    pub date: NaiveDate,
    pub basis: FreezeBasis,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FreezeBasis {
    /// The forecast holds it.
    Forecast,
    /// The usual date lies within a forecast that holds no freeze: it cannot come before this day.
    NotBefore,
    /// The place's usual date.
    Climate,
}

/// When to expect the first freeze. `nights` are the forecast's dates and minima in order; those further
/// than [`FORECAST_REACH`] from the first are not looked at.
///
/// # Source
/// common practice: a forecast overrides climate within its reach.
pub fn expected_freeze(
    usual: NaiveDate,
    nights: impl IntoIterator<Item = (NaiveDate, Celsius)>,
    threshold: Celsius,
) -> ExpectedFreeze {
    let mut nights = nights.into_iter().peekable();
    let first = nights.peek().map(|night| night.0);
    let reach = TimeDelta::days(FORECAST_REACH.value() as i64);
    let mut last = None;
    for (date, minimum) in nights {
        if first.is_some_and(|first| date - first >= reach) {
            break;
        }
        if minimum <= threshold {
            return ExpectedFreeze { date, basis: FreezeBasis::Forecast };
        }
        last = Some(date);
    }
    match last {
        Some(last) if usual <= last => {
            ExpectedFreeze { date: last + TimeDelta::days(1), basis: FreezeBasis::NotBefore }
        }
        _ => ExpectedFreeze { date: usual, basis: FreezeBasis::Climate },
    }
}

/// Whole days from today to a date, negative once it is past.
///
/// # Source
/// The calendar.
pub fn days_to(date: NaiveDate, today: NaiveDate) -> Days {
    Days::new((date - today).num_days() as f64)
}
