//! Weather from outside: one file a weather interface with its wire types and a pure `decode`,
//! and the hourly year written in a file.
//!
//! Whatever an interface calls an hour, what leaves here is the canonical [`Hour`]: it starts at
//! its time stamp, in UTC. What an interface did not say, or said absurdly, is unknown, never zero.
//!
//! [`Hour`]: crate::weather::Hour

mod budget;
mod cell;
mod error;
pub mod fetch;
mod horizon;
mod json;
pub mod open_meteo;
mod plausible;
mod schedule;
pub mod year;

pub use budget::{Budget, Spending};
pub use cell::Cell;
pub use error::{ForecastError, Limit, Problem};
pub use fetch::{ApiKey, Fetcher, Policy};
pub use horizon::{as_forecast, native_step};
pub use open_meteo::OpenMeteo;
pub use schedule::{Schedule, spread};

use crate::weather::Series;

/// A forecast as read, and what was wrong with it though it can be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Decoded {
    pub series: Series,
    pub remarks: Vec<String>,
}
