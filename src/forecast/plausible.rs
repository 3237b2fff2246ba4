//! What a number from a feed may be. Outside these limits it is a fault of the feed (or its word
//! for "missing": -9999, 1e40, NaN) and the value is unknown.
//!
//! Limits are the extremes recorded at the ground, with a little air.
//!
//! # Source
//! WMO Weather and Climate Extremes Archive (-89.2 °C Vostok 1983, 56.7 °C Furnace Creek 1913, gust
//! of 113.2 m/s Barrow Island 1996, 305 mm of rain in 42 minutes Holt 1947): from memory, not re-read.

use crate::units::{
    Celsius, Fraction, MetresPerSecond, Millimetres, Probability, RelativeHumidity, WattsPerSquareMetre,
};

const COLDEST_C: f64 = -90.0;
const HOTTEST_C: f64 = 60.0;
/// An hour's rain.
const WETTEST_MM: f64 = 310.0;
const STRONGEST_WIND_MS: f64 = 115.0;
/// An hour's mean on the level stays under the solar constant of 1361 W/m².
const BRIGHTEST_WM2: f64 = 1361.0;
/// An hour's reference evapotranspiration; the hottest desert noon is near 1.2 mm.
const THIRSTIEST_MM: f64 = 2.5;
/// Models give a very small negative evaporation (dew) or radiation at night: that is nothing.
const BELOW_NOTHING: f64 = -0.5;

pub(super) fn temperature(celsius: f64) -> Option<Celsius> {
    within(celsius, COLDEST_C, HOTTEST_C).map(Celsius::new)
}

pub(super) fn humidity(percent: f64) -> Option<RelativeHumidity> {
    RelativeHumidity::from_feed_percent(percent)
}

pub(super) fn rain(millimetres: f64) -> Option<Millimetres> {
    within(millimetres, 0.0, WETTEST_MM).map(Millimetres::new)
}

pub(super) fn probability(percent: f64) -> Option<Probability> {
    Probability::from_percent(percent)
}

pub(super) fn wind(metres_a_second: f64) -> Option<MetresPerSecond> {
    within(metres_a_second, 0.0, STRONGEST_WIND_MS).map(MetresPerSecond::new)
}

pub(super) fn cloud(percent: f64) -> Option<Fraction> {
    Fraction::from_percent(percent)
}

pub(super) fn radiation(watts: f64) -> Option<WattsPerSquareMetre> {
    within(watts, BELOW_NOTHING, BRIGHTEST_WM2).map(|watts| WattsPerSquareMetre::new(watts.max(0.0)))
}

pub(super) fn evaporation(millimetres: f64) -> Option<Millimetres> {
    within(millimetres, BELOW_NOTHING, THIRSTIEST_MM).map(|depth| Millimetres::new(depth.max(0.0)))
}

fn within(value: f64, low: f64, high: f64) -> Option<f64> {
    // NaN is in no range.
    (low..=high).contains(&value).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn absurd_values_are_unknown_and_never_zero() {
        for absurd in [f64::NAN, f64::INFINITY, 1e40, -9999.0, -1e40] {
            assert_eq!(temperature(absurd), None, "{absurd}");
            assert_eq!(humidity(absurd), None, "{absurd}");
            assert_eq!(rain(absurd), None, "{absurd}");
            assert_eq!(probability(absurd), None, "{absurd}");
            assert_eq!(wind(absurd), None, "{absurd}");
            assert_eq!(cloud(absurd), None, "{absurd}");
            assert_eq!(radiation(absurd), None, "{absurd}");
            assert_eq!(evaporation(absurd), None, "{absurd}");
        }
        assert_eq!(rain(-0.1), None);
        assert_eq!(wind(1048.0 * 0.447), None);
        assert_eq!(humidity(101.0), RelativeHumidity::new(1.0));
        assert_eq!(evaporation(-0.01), Some(Millimetres::ZERO));
    }
}
