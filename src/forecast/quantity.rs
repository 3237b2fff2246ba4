use super::plausible;
use crate::units::{Celsius, MetresPerSecond, Millimetres};
use crate::weather::Hour;

/// What an [`Hour`] can hold, by whatever name a source gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Quantity {
    Temperature,
    Humidity,
    DewPoint,
    Rain,
    RainProbability,
    Wind,
    Gust,
    Cloud,
    Radiation,
    Evaporation,
}

impl Quantity {
    /// Puts a number in our unit into its place, if it can be true; says whether it could.
    pub(super) fn set(self, hour: &mut Hour, value: f64) -> bool {
        match self {
            Quantity::Temperature => keep(&mut hour.temperature, plausible::temperature(value)),
            Quantity::Humidity => keep(&mut hour.humidity, plausible::humidity(value)),
            Quantity::DewPoint => keep(&mut hour.dew_point, plausible::temperature(value)),
            Quantity::Rain => keep(&mut hour.rain, plausible::rain(value)),
            Quantity::RainProbability => keep(&mut hour.rain_probability, plausible::probability(value)),
            Quantity::Wind => keep(&mut hour.wind, plausible::wind(value)),
            Quantity::Gust => keep(&mut hour.gust, plausible::wind(value)),
            Quantity::Cloud => keep(&mut hour.cloud, plausible::cloud(value)),
            Quantity::Radiation => keep(&mut hour.radiation, plausible::radiation(value)),
            Quantity::Evaporation => keep(&mut hour.evaporation, plausible::evaporation(value)),
        }
    }

    /// How a number in a written unit becomes one in ours (°C, %, mm, m/s, W/m²); `None` for a unit
    /// that means nothing here. We ask for ours where one can ask, but a unit that is named can
    /// be converted, and one that is not must never be guessed.
    pub(super) fn reader(self, unit: &str) -> Option<fn(f64) -> f64> {
        let same = |value| value;
        // The US service writes a name space before its units.
        let unit = unit.rsplit(':').next().unwrap_or(unit);
        Some(match (self, unit) {
            (Quantity::Temperature | Quantity::DewPoint, "°C" | "celsius" | "degC")
            | (Quantity::Humidity | Quantity::RainProbability | Quantity::Cloud, "%" | "percent")
            | (Quantity::Rain | Quantity::Evaporation, "mm")
            | (Quantity::Wind | Quantity::Gust, "m/s" | "m_s-1")
            | (Quantity::Radiation, "W/m²") => same,
            (Quantity::Temperature | Quantity::DewPoint, "°F" | "degF") => {
                |degrees| Celsius::from_fahrenheit(degrees).value()
            }
            (Quantity::Rain | Quantity::Evaporation, "inch") => {
                |inches| Millimetres::from_inches(inches).value()
            }
            (Quantity::Wind | Quantity::Gust, "km/h" | "km_h-1") => {
                |speed| MetresPerSecond::from_kmh(speed).value()
            }
            (Quantity::Wind | Quantity::Gust, "mp/h" | "mph") => {
                |speed| MetresPerSecond::from_mph(speed).value()
            }
            // The knot is 1852 m an hour by definition.
            (Quantity::Wind | Quantity::Gust, "kn") => |speed| speed * 1852.0 / 3600.0,
            _ => return None,
        })
    }
}

fn keep<Value>(place: &mut Option<Value>, value: Option<Value>) -> bool {
    *place = value;
    place.is_some()
}
