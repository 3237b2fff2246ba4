//! Day length, sunrise and sunset, and the radiation that reaches the ground.

use std::f64::consts::PI;

use chrono::{DateTime, Datelike, NaiveDate, TimeDelta, Timelike, Utc};
use sunrise::{Coordinates, SolarDay, SolarEvent};

use crate::units::{
    Celsius, CelsiusDelta, Elevation, Fraction, Hours, Kilopascals, Latitude, MegajoulesPerSquareMetre,
    Position,
};

/// Solar constant, MJ m⁻² min⁻¹ ([FAO56] equation 21).
const SOLAR_CONSTANT: f64 = 0.0820;
/// Share of radiation that grass gives back ([FAO56] equation 38).
const ALBEDO: f64 = 0.23;
/// Stefan-Boltzmann constant, MJ K⁻⁴ m⁻² a day ([FAO56] equation 39).
const STEFAN_BOLTZMANN: f64 = 4.903e-9;

/// When the sun is up on a date.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Daylight {
    pub sunrise: DateTime<Utc>,
    pub sunset: DateTime<Utc>,
}

/// Sunrise and sunset of the local solar date at a place. `None` where the sun does not rise or set.
///
/// # Source
/// The `sunrise` crate, the sunrise equation with the upper limb and standard refraction (-0.833°).
pub fn daylight(date: NaiveDate, position: Position) -> Option<Daylight> {
    let place = Coordinates::new(position.latitude.value(), position.longitude.value())?;
    let day = SolarDay::new(place, date);
    let sunrise = day.event_time(SolarEvent::Sunrise)?;
    let sunset = day.event_time(SolarEvent::Sunset)?;
    Some(Daylight { sunrise, sunset })
}

/// Time from sunrise to sunset. `None` in polar day or night.
///
/// # Source
/// As [`daylight`].
pub fn day_length(date: NaiveDate, position: Position) -> Option<Hours> {
    daylight(date, position).map(|day| Hours::from_duration(day.sunset - day.sunrise))
}

/// How much longer each day is than the one before, over the week to this date; negative as days shorten.
///
/// # Source
/// A difference of [`day_length`].
pub fn day_length_trend(date: NaiveDate, position: Position) -> Option<Hours> {
    let before = day_length(date - TimeDelta::days(7), position)?;
    Some((day_length(date, position)? - before) / 7.0)
}

/// Radiation at the top of the air over a day. Zero in polar night.
///
/// # Source
/// [FAO56] equations 21 to 25.
pub fn extraterrestrial(latitude: Latitude, date: NaiveDate) -> MegajoulesPerSquareMetre {
    let orbit = Orbit::of(date);
    let latitude = latitude.value().to_radians();
    let half_day = sunset_angle(latitude, orbit.declination);
    let (sine, cosine) = (latitude.sin() * orbit.declination.sin(), latitude.cos() * orbit.declination.cos());
    let energy =
        24.0 * 60.0 / PI * SOLAR_CONSTANT * orbit.distance * (half_day * sine + cosine * half_day.sin());
    MegajoulesPerSquareMetre::new(energy.max(0.0))
}

/// Longest possible sunshine of a day, geometrically (no refraction).
///
/// # Source
/// [FAO56] equation 34.
pub fn possible_sunshine(latitude: Latitude, date: NaiveDate) -> Hours {
    let half_day = sunset_angle(latitude.value().to_radians(), Orbit::of(date).declination);
    Hours::new(24.0 / PI * half_day)
}

/// Radiation at the top of the air over the hour that starts at a moment.
///
/// # Source
/// [FAO56] equations 28 to 33.
pub fn extraterrestrial_hour(position: Position, start: DateTime<Utc>) -> MegajoulesPerSquareMetre {
    let date = (start + TimeDelta::minutes((position.longitude.value() * 4.0).round() as i64)).date_naive();
    let orbit = Orbit::of(date);
    let latitude = position.latitude.value().to_radians();
    let b = 2.0 * PI * (f64::from(orbit.day) - 81.0) / 364.0;
    let seasonal = 0.1645 * (2.0 * b).sin() - 0.1255 * b.cos() - 0.025 * b.sin();
    let midpoint = f64::from(start.hour()) + f64::from(start.minute()) / 60.0 + 0.5;
    let angle = PI / 12.0 * (midpoint + position.longitude.value() / 15.0 + seasonal - 12.0);
    // Within half a turn of noon either way, whatever the longitude did to the hour.
    let angle = (angle + PI).rem_euclid(2.0 * PI) - PI;
    let half_day = sunset_angle(latitude, orbit.declination);
    let low = (angle - PI / 24.0).clamp(-half_day, half_day);
    let high = (angle + PI / 24.0).clamp(-half_day, half_day);
    let (sine, cosine) = (latitude.sin() * orbit.declination.sin(), latitude.cos() * orbit.declination.cos());
    let energy = 12.0 * 60.0 / PI
        * SOLAR_CONSTANT
        * orbit.distance
        * ((high - low) * sine + cosine * (high.sin() - low.sin()));
    MegajoulesPerSquareMetre::new(energy.max(0.0))
}

/// Short-wave radiation at the ground from hours of sunshine.
///
/// # Source
/// [FAO56] equation 35 (Angstrom, a = 0.25, b = 0.50).
pub fn from_sunshine(
    extraterrestrial: MegajoulesPerSquareMetre,
    sunshine: Hours,
    possible: Hours,
) -> MegajoulesPerSquareMetre {
    let share = if possible > Hours::ZERO { sunshine / possible } else { 0.0 };
    extraterrestrial * (0.25 + 0.50 * share)
}

/// Short-wave radiation at the ground estimated from the day's span of temperature.
///
/// # Source
/// [FAO56] equation 50 (Hargreaves, k = 0.16 inland, 0.19 on a coast).
pub fn from_temperature(
    extraterrestrial: MegajoulesPerSquareMetre,
    span: CelsiusDelta,
    setting: Setting,
) -> MegajoulesPerSquareMetre {
    let coefficient = match setting {
        Setting::Inland => 0.16,
        Setting::Coastal => 0.19,
    };
    extraterrestrial * (coefficient * span.value().max(0.0).sqrt())
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Setting {
    Inland,
    Coastal,
}

/// Short-wave radiation at the ground estimated from cloud cover: sunshine taken as the clear share.
///
/// # Source
/// [FAO56] equation 35 with n/N = 1 - cloud; that step is common practice.
pub fn from_cloud(extraterrestrial: MegajoulesPerSquareMetre, cloud: Fraction) -> MegajoulesPerSquareMetre {
    extraterrestrial * (0.25 + 0.50 * cloud.complement().value())
}

/// Short-wave radiation under a clear sky.
///
/// # Source
/// [FAO56] equation 37.
pub fn clear_sky(
    extraterrestrial: MegajoulesPerSquareMetre,
    elevation: Elevation,
) -> MegajoulesPerSquareMetre {
    extraterrestrial * (0.75 + 2e-5 * elevation.value())
}

/// What grass keeps of the short-wave radiation.
///
/// # Source
/// [FAO56] equation 38 (albedo 0.23).
pub fn net_shortwave(radiation: MegajoulesPerSquareMetre) -> MegajoulesPerSquareMetre {
    radiation * (1.0 - ALBEDO)
}

/// Long-wave radiation lost over a day.
///
/// # Source
/// [FAO56] equation 39.
pub fn net_longwave(
    maximum: Celsius,
    minimum: Celsius,
    vapour: Kilopascals,
    radiation: MegajoulesPerSquareMetre,
    clear: MegajoulesPerSquareMetre,
) -> MegajoulesPerSquareMetre {
    let fourth = |t: Celsius| (t.value() + 273.16).powi(4);
    let emitted = STEFAN_BOLTZMANN * (fourth(maximum) + fourth(minimum)) / 2.0;
    MegajoulesPerSquareMetre::new(emitted * humidity_factor(vapour) * cloud_factor(radiation, clear))
}

/// Long-wave radiation lost over an hour, with the cloudiness given as the ratio of radiation to that of a
/// clear sky (at night that of the hours before sunset).
///
/// # Source
/// [FAO56] equation 39 with the hourly constant.
pub fn net_longwave_hour(
    temperature: Celsius,
    vapour: Kilopascals,
    clearness: Fraction,
) -> MegajoulesPerSquareMetre {
    let emitted = STEFAN_BOLTZMANN / 24.0 * (temperature.value() + 273.16).powi(4);
    MegajoulesPerSquareMetre::new(emitted * humidity_factor(vapour) * (1.35 * clearness.value() - 0.35))
}

fn humidity_factor(vapour: Kilopascals) -> f64 {
    0.34 - 0.14 * vapour.value().max(0.0).sqrt()
}

fn cloud_factor(radiation: MegajoulesPerSquareMetre, clear: MegajoulesPerSquareMetre) -> f64 {
    let ratio = if clear > MegajoulesPerSquareMetre::ZERO { radiation / clear } else { 0.0 };
    1.35 * ratio.min(1.0) - 0.35
}

/// Where the earth stands in its year ([FAO56] equations 23 and 24).
struct Orbit {
    day: u32,
    distance: f64,
    declination: f64,
}

impl Orbit {
    fn of(date: NaiveDate) -> Self {
        let day = date.ordinal();
        let turn = 2.0 * PI / 365.0 * f64::from(day);
        Self { day, distance: 1.0 + 0.033 * turn.cos(), declination: 0.409 * (turn - 1.39).sin() }
    }
}

/// [FAO56] equation 25; in polar day half a turn, in polar night nothing.
fn sunset_angle(latitude: f64, declination: f64) -> f64 {
    (-latitude.tan() * declination.tan()).clamp(-1.0, 1.0).acos()
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::TimeZone;

    fn day(ordinal: u32) -> NaiveDate {
        NaiveDate::from_yo_opt(2015, ordinal).expect("a date")
    }

    fn latitude(degrees: f64) -> Latitude {
        Latitude::new(degrees).expect("a latitude")
    }

    fn check(what: &str, got: f64, want: f64, tolerance: f64) {
        assert!((got - want).abs() <= tolerance, "{what}: {got} is not {want} within {tolerance}");
    }

    #[test]
    fn published() {
        // FAO Irrigation and Drainage Paper 56, examples 8 to 12 and 15.
        let orbit = Orbit::of(day(246));
        check("example 8, dr", orbit.distance, 0.985, 0.001);
        check("example 8, declination", orbit.declination, 0.120, 0.001);
        check(
            "example 8, sunset angle",
            sunset_angle((-20.0_f64).to_radians(), orbit.declination),
            1.527,
            0.001,
        );
        check("example 8, Ra", extraterrestrial(latitude(-20.0), day(246)).value(), 32.2, 0.1);
        check("example 9, N", possible_sunshine(latitude(-20.0), day(246)).value(), 11.7, 0.05);
        let rio = latitude(-22.9);
        let (ra, n) = (extraterrestrial(rio, day(135)), possible_sunshine(rio, day(135)));
        check("example 10, Ra", ra.value(), 25.1, 0.1);
        check("example 10, N", n.value(), 10.9, 0.1);
        check("example 10, Rs", from_sunshine(ra, Hours::new(7.1), n).value(), 14.5, 0.1);
        let megajoules = MegajoulesPerSquareMetre::new;
        let longwave = net_longwave(
            Celsius::new(25.1),
            Celsius::new(19.1),
            Kilopascals::new(2.1),
            megajoules(14.5),
            megajoules(18.8),
        );
        check("example 11, Rnl", longwave.value(), 3.5, 0.1);
        check("example 12, Rn", (net_shortwave(megajoules(14.5)) - longwave).value(), 7.6, 0.1);
        let lyon = extraterrestrial(latitude(45.72), day(196));
        check("example 15, Ra", lyon.value(), 40.55, 0.1);
        check(
            "example 15, Rs",
            from_temperature(lyon, CelsiusDelta::new(11.8), Setting::Inland).value(),
            22.3,
            0.1,
        );
    }

    #[test]
    fn hourly_radiation() {
        // FAO Irrigation and Drainage Paper 56, example 19: N'Diaye, Senegal, 1 October, 14 to 15 h local time
        // at 16°15'W in the zone of 15°W (one hour behind UTC).
        let place = Position::new(16.2167, -16.25).expect("a place");
        let start = Utc.with_ymd_and_hms(2015, 10, 1, 15, 0, 0).single().expect("a time");
        check("example 19, Ra", extraterrestrial_hour(place, start).value(), 3.543, 0.01);
        let night = Utc.with_ymd_and_hms(2015, 10, 1, 3, 0, 0).single().expect("a time");
        check("example 19, night", extraterrestrial_hour(place, night).value(), 0.0, 1e-9);
    }

    #[test]
    fn hours_sum_to_the_day() {
        // Internal consistency, beside the published figures above: 24 hours make the daily value.
        for (degrees, ordinal) in [(40.69, 100), (-37.75, 16), (55.0, 300), (0.0, 80)] {
            let place = Position::new(degrees, 0.0).expect("a place");
            let start = day(ordinal).and_hms_opt(0, 0, 0).expect("midnight").and_utc();
            let sum: MegajoulesPerSquareMetre =
                (0..24).map(|hour| extraterrestrial_hour(place, start + TimeDelta::hours(hour))).sum();
            let whole = extraterrestrial(place.latitude, day(ordinal));
            check("sum of hours", sum.value() / whole.value(), 1.0, 0.01);
        }
    }

    #[test]
    fn polar_days_are_no_error() {
        let tromso = Position::new(69.65, 18.96).expect("a place");
        assert_eq!(daylight(day(172), tromso), None);
        assert_eq!(daylight(day(355), tromso), None);
        assert_eq!(extraterrestrial(latitude(89.0), day(355)).value(), 0.0);
    }
}
