//! Freeze dates of a place, how cold a night will be, and what cold does to a fig.

mod chill;
mod dates;
mod expected;
mod hardiness;
mod minima;
mod night;
mod normal;

pub use chill::{CHILL_NEEDED, CHILLS_BELOW, Chill, ChillState, chill, chill_state};
pub use dates::{FreezeDates, FreezeSeason, FreezeSide, LEAST_SEASONS, Percentile, Rule};
pub use expected::{ExpectedFreeze, FORECAST_REACH, FreezeBasis, days_to, expected_freeze};
pub use hardiness::{
    COLD_STORE, ColdHarm, ColdLimits, POT_SHELTER, Tissue, WOOD_IN_GROUND, cold_harm, limits,
};
pub use minima::{DailyMinima, Fault, Rejected};
pub use night::{Night, NightRisk, NightSky, night, night_risk};

use crate::units::Celsius;

/// Freeze, and hard freeze (28 °F), at the screen: [NWSJAN].
pub const FREEZE: Celsius = Celsius::new(0.0);
pub const HARD_FREEZE: Celsius = Celsius::new(-2.2);
/// Frost on the ground is possible up to here on calm clear nights: [NWSRNK], 0.5 to 2.2 °C.
pub const GROUND_FROST: Celsius = Celsius::new(2.2);

#[cfg(test)]
mod tests;
