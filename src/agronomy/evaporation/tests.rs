use super::*;
use crate::units::WattsPerSquareMetre;
use crate::weather::{Origin, Series};
use chrono::{DateTime, TimeDelta, Utc};

fn check(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: {got} is not {want} within {tolerance}");
}

fn day(ordinal: u32) -> NaiveDate {
    NaiveDate::from_yo_opt(2015, ordinal).expect("a date")
}

fn place(latitude: f64) -> Position {
    Position::new(latitude, 0.0).expect("a place")
}

fn saturation(t: f64) -> f64 {
    air::saturation_pressure(Celsius::new(t)).expect("a pressure").value()
}

/// Worked examples of FAO Irrigation and Drainage Paper 56.
#[test]
fn published() {
    check("example 14, wind", wind_from_height(MetresPerSecond::new(3.2), 10.0).value(), 2.393, 0.01);
    let g = monthly_ground_heat(Celsius::new(14.1), MonthBeside::Next(Celsius::new(18.8)));
    check("example 13, G", g.value(), 0.33, 0.01);
    let g = monthly_ground_heat(Celsius::new(14.1), MonthBeside::This(Celsius::new(16.1)));
    check("example 13, G of one month", g.value(), 0.28, 0.01);

    let uccle = Position::new(50.8, 4.35).expect("a place");
    let top = sun::extraterrestrial(uccle.latitude, day(187));
    let radiation =
        sun::from_sunshine(top, Hours::new(9.25), sun::possible_sunshine(uccle.latitude, day(187)));
    check("example 18, Rs", radiation.value(), 22.07, 0.05);
    let wind = wind_from_height(MetresPerSecond::from_kmh(10.0), 10.0);
    check("example 18, u2", wind.value(), 2.078, 0.002);
    let vapour = (saturation(12.3) * 0.84 + saturation(21.5) * 0.63) / 2.0;
    let weather = DayWeather {
        maximum: Celsius::new(21.5),
        minimum: Celsius::new(12.3),
        vapour: Kilopascals::new(vapour),
        wind,
        radiation,
    };
    let rate = penman_monteith(&weather, uccle, Elevation::new(100.0), day(187));
    check("example 18, ET0", rate.map_or(f64::NAN, MillimetresPerDay::value), 3.88, 0.02);

    let lyon = place(45.72);
    let top = sun::extraterrestrial(lyon.latitude, day(196));
    let weather = DayWeather {
        maximum: Celsius::new(26.6),
        minimum: Celsius::new(14.8),
        vapour: Kilopascals::new(saturation(14.8)),
        wind: USUAL_WIND,
        radiation: sun::from_temperature(top, CelsiusDelta::new(11.8), sun::Setting::Inland),
    };
    let rate = penman_monteith(&weather, lyon, Elevation::new(200.0), day(196));
    check("example 20, ET0", rate.map_or(f64::NAN, MillimetresPerDay::value), 4.56, 0.03);
    check("example 20, Hargreaves", hargreaves(weather.maximum, weather.minimum, top).value(), 5.03, 0.03);
}

#[test]
fn published_month() {
    // Example 17, Bangkok in April: 5.72 mm a day, Rn 14.33.
    let bangkok = place(13.7333);
    let elevation = Elevation::new(2.0);
    let top = sun::extraterrestrial(bangkok.latitude, day(105));
    let radiation =
        sun::from_sunshine(top, Hours::new(8.5), sun::possible_sunshine(bangkok.latitude, day(105)));
    let weather = DayWeather {
        maximum: Celsius::new(34.8),
        minimum: Celsius::new(25.6),
        vapour: Kilopascals::new(2.85),
        wind: MetresPerSecond::new(2.0),
        radiation,
    };
    let longwave = sun::net_longwave(
        weather.maximum,
        weather.minimum,
        weather.vapour,
        radiation,
        sun::clear_sky(top, elevation),
    );
    let net = sun::net_shortwave(radiation) - longwave;
    check("example 17, Rn", net.value(), 14.33, 0.03);
    let ground = monthly_ground_heat(Celsius::new(29.2), MonthBeside::This(Celsius::new(30.2)));
    let rate = from_net_radiation(&weather, net - ground, elevation);
    check("example 17, ET0", rate.map_or(f64::NAN, MillimetresPerDay::value), 5.72, 0.03);
}

#[test]
fn published_hours() {
    // Example 19, N'Diaye: 0.63 mm from 14 to 15 h, nothing from 2 to 3 h at night.
    let elevation = Elevation::new(8.0);
    let hour = |t, rh, wind, radiation, clearness| {
        penman_monteith_hour(
            Celsius::new(t),
            RelativeHumidity::from_percent(rh).expect("a humidity"),
            MetresPerSecond::new(wind),
            MegajoulesPerSquareMetre::new(radiation),
            Fraction::saturating(clearness),
            elevation,
        )
        .map_or(f64::NAN, Millimetres::value)
    };
    check("example 19, night", hour(28.0, 90.0, 1.9, 0.0, 0.8), 0.00, 0.01);
    let clear = sun::clear_sky(MegajoulesPerSquareMetre::new(3.543), elevation);
    check("example 19, day", hour(38.0, 52.0, 3.3, 2.450, 2.450 / clear.value()), 0.63, 0.01);
}

fn hours(change: impl Fn(&mut Hour)) -> Series {
    let start: DateTime<Utc> = day(187).and_hms_opt(0, 0, 0).expect("midnight").and_utc();
    Series::from_hours((0..24).map(|index| {
        let phase = (f64::from(index as i32) - 14.0) / 12.0 * std::f64::consts::PI;
        let mut hour = Hour {
            temperature: Some(Celsius::new(17.0 + 4.5 * phase.cos())),
            humidity: RelativeHumidity::from_percent(72.0),
            wind: Some(MetresPerSecond::new(2.8)),
            radiation: Some(WattsPerSquareMetre::new(255.0)),
            evaporation: Some(Millimetres::new(0.16)),
            cloud: Fraction::new(0.4),
            origin: Origin::Modelled,
            ..Hour::unknown(start + TimeDelta::hours(index))
        };
        change(&mut hour);
        hour
    }))
}

#[test]
fn the_best_way_the_hours_allow_is_taken_and_named() {
    let place = place(50.8);
    let method = |change: fn(&mut Hour)| {
        daily(hours(change).hours(), place, Elevation::new(100.0), day(187)).map(|(_, method)| method)
    };
    assert_eq!(method(|_| ()), Some(Method::Feed));
    assert_eq!(method(|hour| hour.evaporation = None), Some(Method::Measured));
    let bare = |hour: &mut Hour| {
        hour.evaporation = None;
        hour.radiation = None;
    };
    assert_eq!(method(bare), Some(Method::EstimatedRadiation));
    assert_eq!(
        method(|hour| {
            hour.evaporation = None;
            hour.humidity = None;
        }),
        Some(Method::Hargreaves)
    );
    assert_eq!(
        method(|hour| {
            hour.evaporation = None;
            hour.temperature = None;
        }),
        None
    );
}
