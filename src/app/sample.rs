//! The garden and the weather year that come with the program, so that anyone can try it at once.

use chrono::{DateTime, TimeZone, Utc};

use super::garden_file;
use crate::forecast::year::{self, Loaded, YearError};
use crate::season::request::Setting;
use crate::units::Position;

/// An invented garden, the same as `config-example/garden.toml`.
const GARDEN: &str = include_str!("../../config-example/garden.toml");
/// Weather observed at Newark, New Jersey, in 2013; credit in the file.
const YEAR: &[u8] = include_bytes!("sample/newark-2013.csv");

/// What happened in the garden before the talk begins, in its people's words: time and what was said.
pub(super) const PAST: &[(&str, &str)] = &[
    ("2013-04-28T10:00:00-04:00", "leaves are out on the pots"),
    ("2013-05-20T18:30:00-04:00", "no rust anywhere"),
    ("2013-06-04T09:30:00-04:00", "sprayed copper on everything"),
    ("2013-06-12T07:00:00-04:00", "gauge 1.4 inches"),
    ("2013-06-20T19:00:00-04:00", "figs set on Celeste and Big One"),
    ("2013-06-26T08:40:00-04:00", "sprayed copper on everything"),
    ("2013-07-01T18:00:00-04:00", "no rust on the pots"),
    ("2013-07-08T19:30:00-04:00", "watered the pots"),
];

/// The morning the talk begins on.
pub(super) fn start() -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2013, 7, 9, 11, 0, 0).single().unwrap_or_default()
}

pub fn garden() -> Result<Vec<Setting>, String> {
    garden_file::read(GARDEN)
}

/// Where the sample garden stands.
pub fn position() -> Option<Position> {
    garden().ok()?.into_iter().find_map(|setting| match setting {
        Setting::Position { position, .. } => Some(position),
        _ => None,
    })
}

pub fn year() -> Result<Loaded, YearError> {
    year::read(YEAR)
}

/// Whom to credit for the bundled year.
pub const CREDIT: &str = "US National Weather Service (ASOS, Newark 2013)";
