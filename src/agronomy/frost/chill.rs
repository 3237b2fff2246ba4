//! Winter chill. Little is known of it for figs: a span of hours. Heat from then to leaf-out was not found
//! published, so nothing is computed of leaf-out: it is seen, not foretold.

use crate::units::{Celsius, Hours};
use crate::weather::Hour;

/// Hours below this count as chill ([FLA08]).
pub const CHILLS_BELOW: Celsius = Celsius::new(7.0);
/// Figs want between the first and the second, often less ([FLA08], from memory, not re-read).
pub const CHILL_NEEDED: (Hours, Hours) = (Hours::new(100.0), Hours::new(300.0));

/// Chill so far, and the hours of which nothing is known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Chill {
    pub had: Hours,
    pub unknown: Hours,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChillState {
    NotYet,
    /// Within the published span: some figs have had enough.
    Perhaps,
    Enough,
    /// The hours missing from the record decide.
    Unknown,
}

/// Hours below [`CHILLS_BELOW`].
///
/// # Source
/// [FLA08] for the limit; counting hours below one is the oldest chill model.
pub fn chill(hours: &[Hour]) -> Chill {
    let count =
        |wanted: fn(&Hour) -> bool| Hours::new(hours.iter().filter(|hour| wanted(hour)).count() as f64);
    Chill {
        had: count(|hour| hour.temperature.is_some_and(|temperature| temperature < CHILLS_BELOW)),
        unknown: count(|hour| hour.temperature.is_none()),
    }
}

/// Whether it is enough, where the hours missing cannot change the answer.
///
/// # Source
/// [FLA08]: [`CHILL_NEEDED`].
pub fn chill_state(chill: Chill) -> ChillState {
    let state = |had: Hours| match had {
        had if had < CHILL_NEEDED.0 => ChillState::NotYet,
        had if had < CHILL_NEEDED.1 => ChillState::Perhaps,
        _ => ChillState::Enough,
    };
    let (least, most) = (state(chill.had), state(chill.had + chill.unknown));
    if least == most { least } else { ChillState::Unknown }
}
