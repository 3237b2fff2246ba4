//! Freeze dates of a place, and how cold a night will be.

mod dates;

pub use dates::{FreezeDates, FreezeSide, Percentile, Rule, freeze_dates, quality_controlled};

use crate::units::{Celsius, Fraction, MetresPerSecond};

/// How much a night's cold threatens leaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NightRisk {
    None,
    /// Ground frost under a clear calm sky though the air at the screen stays above freezing.
    Possible,
    Frost,
    Hard,
}

/// The sky at the coldest hour, as far as known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NightSky {
    pub cloud: Option<Fraction>,
    pub wind: Option<MetresPerSecond>,
}

/// Freeze, and hard freeze (28 °F), at the screen: [NWSJAN].
pub const FREEZE: Celsius = Celsius::new(0.0);
pub const HARD_FREEZE: Celsius = Celsius::new(-2.2);
/// Frost on the ground is possible up to here on calm clear nights: [NWSRNK], 0.5 to 2.2 °C.
pub const GROUND_FROST: Celsius = Celsius::new(2.2);
/// Cloud that holds a night's warmth, and wind that stirs it. common practice.
const HOLDS_WARMTH: f64 = 0.6;
const STIRS: f64 = 3.0;
/// Potted trees in leaflessness are sheltered when the air is to reach this: their roots do not harden
/// ([FS528]; the figure is common practice).
pub const POT_SHELTER: Celsius = Celsius::new(-4.0);
/// Wood in the ground is hurt from here on: [USDA87], not adapted where often below 10 °F.
pub const WOOD_IN_GROUND: Celsius = Celsius::new(-12.0);

/// The risk of a night by its screen minimum and sky. What is unknown of the sky is taken as clear and calm.
///
/// # Source
/// [NWSJAN], [NWSRNK].
pub fn night_risk(minimum: Celsius, sky: NightSky) -> NightRisk {
    let clear = sky.cloud.is_none_or(|cloud| cloud.value() < HOLDS_WARMTH);
    let calm = sky.wind.is_none_or(|wind| wind.value() < STIRS);
    match minimum {
        minimum if minimum <= HARD_FREEZE => NightRisk::Hard,
        minimum if minimum <= FREEZE => NightRisk::Frost,
        minimum if minimum <= GROUND_FROST && clear && calm => NightRisk::Possible,
        _ => NightRisk::None,
    }
}

#[cfg(test)]
mod tests;
