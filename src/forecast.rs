//! Weather from outside: one file a weather interface with its wire types and a pure `decode`,
//! and the hourly year written in a file.
//!
//! Whatever an interface calls an hour, what leaves here is the canonical [`Hour`]: it starts at
//! its time stamp, in UTC. What an interface did not say, or said absurdly, is unknown, never zero.
//!
//! [`Hour`]: crate::weather::Hour

mod horizon;
mod plausible;
pub mod year;

pub use horizon::{as_forecast, native_step};
