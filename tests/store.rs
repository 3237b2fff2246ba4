//! The store against a plain model, with restarts and failing sends; killed in the middle of writing; with
//! records and files that are damaged; its export, read back; and what is left of a person who was forgotten.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

#[path = "store/archive.rs"]
mod archive;
#[path = "store/flaws.rs"]
mod flaws;
#[path = "store/forget.rs"]
mod forget;
#[path = "store/kill.rs"]
mod kill;
#[cfg(target_os = "linux")]
#[path = "store/memory.rs"]
mod memory;
#[path = "store/model.rs"]
mod model;
#[path = "store/samples.rs"]
mod samples;
#[path = "store/together.rs"]
mod together;
#[path = "store/weather.rs"]
mod weather;
