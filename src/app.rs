//! The wiring: what comes in is read, answered, committed, and only then sent.
//!
//! `desk` is the only caller of `commit`; the ways to run the program stand on it.

mod answered;
pub mod desk;
pub mod feed;
pub mod garden_file;
#[cfg(feature = "matrix")]
mod health;
mod offers;
mod outgoing;
mod places;
mod reactions;
pub mod rehearse;
mod routing;
pub mod sample;
#[cfg(feature = "matrix")]
pub mod serve;
mod sky;
pub mod talk;
mod zones;

pub use sky::Sky;
