use super::units::Measure;
use crate::forecast::plausible;
use crate::weather::Hour;

/// What every forecast is asked for: exactly what an [`Hour`] can hold, and few enough to count as
/// one call.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Variable {
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

impl Variable {
    pub(super) const ALL: [Variable; 10] = [
        Variable::Temperature,
        Variable::Humidity,
        Variable::DewPoint,
        Variable::Rain,
        Variable::RainProbability,
        Variable::Wind,
        Variable::Gust,
        Variable::Cloud,
        Variable::Radiation,
        Variable::Evaporation,
    ];

    pub(super) fn name(self) -> &'static str {
        match self {
            Variable::Temperature => "temperature_2m",
            Variable::Humidity => "relative_humidity_2m",
            Variable::DewPoint => "dew_point_2m",
            Variable::Rain => "precipitation",
            Variable::RainProbability => "precipitation_probability",
            Variable::Wind => "wind_speed_10m",
            Variable::Gust => "wind_gusts_10m",
            Variable::Cloud => "cloud_cover",
            Variable::Radiation => "shortwave_radiation",
            Variable::Evaporation => "et0_fao_evapotranspiration",
        }
    }

    pub(super) fn measure(self) -> Measure {
        match self {
            Variable::Temperature | Variable::DewPoint => Measure::Temperature,
            Variable::Humidity | Variable::RainProbability | Variable::Cloud => Measure::Percent,
            Variable::Rain | Variable::Evaporation => Measure::Water,
            Variable::Wind | Variable::Gust => Measure::Wind,
            Variable::Radiation => Measure::Radiation,
        }
    }

    /// Puts a number in our unit into its place, if it can be true.
    pub(super) fn set(self, hour: &mut Hour, value: f64) {
        match self {
            Variable::Temperature => hour.temperature = plausible::temperature(value),
            Variable::Humidity => hour.humidity = plausible::humidity(value),
            Variable::DewPoint => hour.dew_point = plausible::temperature(value),
            Variable::Rain => hour.rain = plausible::rain(value),
            Variable::RainProbability => hour.rain_probability = plausible::probability(value),
            Variable::Wind => hour.wind = plausible::wind(value),
            Variable::Gust => hour.gust = plausible::wind(value),
            Variable::Cloud => hour.cloud = plausible::cloud(value),
            Variable::Radiation => hour.radiation = plausible::radiation(value),
            Variable::Evaporation => hour.evaporation = plausible::evaporation(value),
        }
    }
}
