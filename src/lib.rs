//! Leafhold keeps a fig grower's season in hand: it remembers what was seen and done, reads the
//! weather, and says what is worth doing next.
//!
//! *Layout*: `units`, `weather`, `agronomy` (pure models), `season` (the decisions), `language`
//! (reading and writing words), `store` (the journal on disk), `forecast` (weather interfaces),
//! `transport` (ways in and out), `app` (the wiring). `DEVELOPERS.md` has the map.

pub mod agronomy;
pub mod app;
pub mod clock;
pub mod config;
pub mod forecast;
pub mod identity;
pub mod language;
pub mod picture;
pub mod post;
pub mod season;
pub mod store;
pub mod transport;
pub mod units;
pub mod weather;
