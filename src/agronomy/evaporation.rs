//! Reference evapotranspiration: what a lawn would use, the measure all water figures start from.

use chrono::NaiveDate;

use super::{air, sun};
use crate::units::{
    Celsius, CelsiusDelta, Elevation, Fraction, Hours, Kilopascals, MegajoulesPerSquareMetre,
    MetresPerSecond, Millimetres, MillimetresPerDay, Position, RelativeHumidity,
};
use crate::weather::Hour;

/// Wind where none is known ([FAO56], chapter 3).
pub const USUAL_WIND: MetresPerSecond = MetresPerSecond::new(2.0);
/// Least hours with a temperature for a day's figure to be honest.
const LEAST_HOURS: usize = 18;

/// The weather of one day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayWeather {
    pub maximum: Celsius,
    pub minimum: Celsius,
    pub vapour: Kilopascals,
    /// At 2 m.
    pub wind: MetresPerSecond,
    pub radiation: MegajoulesPerSquareMetre,
}

/// How a day's figure was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// The feed's own hourly figures.
    Feed,
    /// Penman-Monteith with radiation from the feed.
    Measured,
    /// Penman-Monteith with radiation estimated from cloud or the day's span of temperature.
    EstimatedRadiation,
    /// Temperature alone.
    Hargreaves,
}

/// Wind at 2 m from wind at 10 m.
///
/// # Source
/// [FAO56] equation 47.
pub fn wind_at_two_metres(wind: MetresPerSecond) -> MetresPerSecond {
    wind_from_height(wind, 10.0)
}

fn wind_from_height(wind: MetresPerSecond, height: f64) -> MetresPerSecond {
    wind * (4.87 / (67.8 * height - 5.42).ln())
}

/// Penman-Monteith for a day. `None` where the air's formulas have no value.
///
/// # Source
/// [FAO56] equation 6, soil heat flux taken as nothing over a day.
pub fn penman_monteith(
    day: &DayWeather,
    position: Position,
    elevation: Elevation,
    date: NaiveDate,
) -> Option<MillimetresPerDay> {
    let top = sun::extraterrestrial(position.latitude, date);
    let clear = sun::clear_sky(top, elevation);
    let net = sun::net_shortwave(day.radiation)
        - sun::net_longwave(day.maximum, day.minimum, day.vapour, day.radiation, clear);
    from_net_radiation(day, net, elevation)
}

fn from_net_radiation(
    day: &DayWeather,
    net: MegajoulesPerSquareMetre,
    elevation: Elevation,
) -> Option<MillimetresPerDay> {
    let mean = Celsius::mean([day.maximum, day.minimum])?;
    let saturation = (air::saturation_pressure(day.maximum)? + air::saturation_pressure(day.minimum)?) / 2.0;
    let gamma = air::psychrometric_constant(air::pressure_at(elevation)).value();
    let slope = air::saturation_slope(mean)?.value();
    let (wind, deficit) = (day.wind.value(), (saturation - day.vapour).value().max(0.0));
    let energy = 0.408 * slope * net.value();
    let aerodynamic = gamma * 900.0 / (mean.value() + 273.0) * wind * deficit;
    let rate = (energy + aerodynamic) / (slope + gamma * (1.0 + 0.34 * wind));
    Some(MillimetresPerDay::new(rate.max(0.0)))
}

/// Penman-Monteith for an hour. The wind is at 2 m; `clearness` is the ratio of radiation to that of a clear
/// sky, at night that of the hours before sunset.
///
/// # Source
/// [FAO56] equation 53.
pub fn penman_monteith_hour(
    temperature: Celsius,
    humidity: RelativeHumidity,
    wind: MetresPerSecond,
    radiation: MegajoulesPerSquareMetre,
    clearness: Fraction,
    elevation: Elevation,
) -> Option<Millimetres> {
    let saturation = air::saturation_pressure(temperature)?;
    let vapour = saturation * humidity.value();
    let net = sun::net_shortwave(radiation) - sun::net_longwave_hour(temperature, vapour, clearness);
    let ground = net * if radiation > MegajoulesPerSquareMetre::ZERO { 0.1 } else { 0.5 };
    let gamma = air::psychrometric_constant(air::pressure_at(elevation)).value();
    let slope = air::saturation_slope(temperature)?.value();
    let energy = 0.408 * slope * (net - ground).value();
    let aerodynamic =
        gamma * 37.0 / (temperature.value() + 273.0) * wind.value() * (saturation - vapour).value();
    let depth = (energy + aerodynamic) / (slope + gamma * (1.0 + 0.34 * wind.value()));
    Some(Millimetres::new(depth.max(0.0)))
}

/// From the day's temperatures alone.
///
/// # Source
/// [FAO56] equation 52 (Hargreaves and Samani 1985).
pub fn hargreaves(maximum: Celsius, minimum: Celsius, top: MegajoulesPerSquareMetre) -> MillimetresPerDay {
    let mean = (maximum.value() + minimum.value()) / 2.0;
    let span = (maximum - minimum).value().max(0.0).sqrt();
    MillimetresPerDay::new((0.0023 * (mean + 17.8) * span * 0.408 * top.value()).max(0.0))
}

/// The heat a soil takes up over a month, from the months beside it (or only the one before).
///
/// # Source
/// [FAO56] equations 43 and 44.
pub fn monthly_ground_heat(before: Celsius, beside: MonthBeside) -> MegajoulesPerSquareMetre {
    MegajoulesPerSquareMetre::new(match beside {
        MonthBeside::Next(after) => 0.07 * (after - before).value(),
        MonthBeside::This(this) => 0.14 * (this - before).value(),
    })
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MonthBeside {
    Next(Celsius),
    This(Celsius),
}

/// A day's figure from its hours, by the best way they allow, and which way that was. `None` when too
/// little of the day is known.
///
/// # Source
/// [FAO56], chapters 3 and 4; a day of a feed's own figures is their sum.
pub fn daily(
    hours: &[Hour],
    position: Position,
    elevation: Elevation,
    date: NaiveDate,
) -> Option<(MillimetresPerDay, Method)> {
    let known = |count: usize| count >= LEAST_HOURS.min(hours.len().max(LEAST_HOURS));
    let fed = hours.iter().filter_map(|hour| hour.evaporation);
    if known(fed.clone().count()) {
        return Some((MillimetresPerDay::new(fed.sum::<Millimetres>().value()), Method::Feed));
    }
    let temperatures: Vec<Celsius> = hours.iter().filter_map(|hour| hour.temperature).collect();
    if !known(temperatures.len()) {
        return None;
    }
    let maximum = temperatures.iter().copied().reduce(Celsius::max)?;
    let minimum = temperatures.iter().copied().reduce(Celsius::min)?;
    let top = sun::extraterrestrial(position.latitude, date);
    let Some(vapour) = mean_vapour(hours) else {
        return Some((hargreaves(maximum, minimum, top), Method::Hargreaves));
    };
    let winds = hours.iter().filter_map(|hour| hour.wind);
    let count = winds.clone().count();
    let wind = if count == 0 {
        USUAL_WIND
    } else {
        wind_at_two_metres(winds.sum::<MetresPerSecond>() / count as f64)
    };
    let (radiation, method) = radiation(hours, top, maximum - minimum);
    let day = DayWeather { maximum, minimum, vapour, wind, radiation };
    penman_monteith(&day, position, elevation, date).map(|rate| (rate, method))
}

fn mean_vapour(hours: &[Hour]) -> Option<Kilopascals> {
    let vapours: Vec<Kilopascals> =
        hours.iter().filter_map(|hour| air::vapour_pressure(hour.temperature?, hour.humidity?)).collect();
    (!vapours.is_empty()).then(|| vapours.iter().copied().sum::<Kilopascals>() / vapours.len() as f64)
}

fn radiation(
    hours: &[Hour],
    top: MegajoulesPerSquareMetre,
    span: CelsiusDelta,
) -> (MegajoulesPerSquareMetre, Method) {
    let measured: Vec<_> = hours.iter().filter_map(|hour| hour.radiation).collect();
    if measured.len() >= LEAST_HOURS {
        let sum = measured.into_iter().map(|power| power.during(Hours::new(1.0))).sum();
        return (sum, Method::Measured);
    }
    let clouds: Vec<f64> = hours.iter().filter_map(|hour| hour.cloud).map(Fraction::value).collect();
    if clouds.len() >= LEAST_HOURS {
        let mean = Fraction::saturating(clouds.iter().sum::<f64>() / clouds.len() as f64);
        return (sun::from_cloud(top, mean), Method::EstimatedRadiation);
    }
    (sun::from_temperature(top, span, sun::Setting::Inland), Method::EstimatedRadiation)
}

#[cfg(test)]
mod tests;
