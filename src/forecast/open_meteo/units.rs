use crate::units::{Celsius, MetresPerSecond, Millimetres};

/// What a variable measures, and so which units it may come in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Measure {
    Temperature,
    Percent,
    Water,
    Wind,
    Radiation,
}

impl Measure {
    /// How a number in a written unit becomes one in ours (°C, %, mm, m/s, W/m²); `None` for a
    /// unit that means nothing here. We ask for ours, but a server between us and the service may
    /// have its own mind, and a unit that is named can be converted.
    pub(super) fn reader(self, unit: &str) -> Option<fn(f64) -> f64> {
        let same = |value| value;
        Some(match (self, unit) {
            (Measure::Temperature, "°C")
            | (Measure::Percent, "%")
            | (Measure::Water, "mm")
            | (Measure::Wind, "m/s")
            | (Measure::Radiation, "W/m²") => same,
            (Measure::Temperature, "°F") => |degrees| Celsius::from_fahrenheit(degrees).value(),
            (Measure::Water, "inch") => |inches| Millimetres::from_inches(inches).value(),
            (Measure::Wind, "km/h") => |speed| MetresPerSecond::from_kmh(speed).value(),
            (Measure::Wind, "mp/h" | "mph") => |speed| MetresPerSecond::from_mph(speed).value(),
            // The knot is 1852 m an hour by definition.
            (Measure::Wind, "kn") => |speed| speed * 1852.0 / 3600.0,
            _ => return None,
        })
    }
}
