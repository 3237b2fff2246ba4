//! The air's water: vapour pressure, dew point, wet bulb.

use crate::units::{Celsius, CelsiusDelta, Elevation, Kilopascals, RelativeHumidity};

/// The saturation formula is fitted to screen temperatures; outside this span it is unknown.
pub const VAPOUR_RANGE: (Celsius, Celsius) = (Celsius::new(-40.0), Celsius::new(60.0));
/// Stull's wet bulb holds for these temperatures and humidities at sea-level pressure.
pub const WET_BULB_RANGE: (Celsius, Celsius) = (Celsius::new(-20.0), Celsius::new(50.0));
pub const WET_BULB_DRIEST: f64 = 0.05;

/// Saturation vapour pressure over water. `None` outside -40 to 60 °C.
///
/// # Source
/// [FAO56] equation 11.
pub fn saturation_pressure(temperature: Celsius) -> Option<Kilopascals> {
    let (low, high) = VAPOUR_RANGE;
    (low..=high).contains(&temperature).then(|| Kilopascals::new(saturation(temperature.value())))
}

/// Slope of the saturation curve, kPa a kelvin. `None` outside -40 to 60 °C.
///
/// # Source
/// [FAO56] equation 13.
pub fn saturation_slope(temperature: Celsius) -> Option<Kilopascals> {
    let t = temperature.value();
    saturation_pressure(temperature).map(|pressure| pressure * (4098.0 / (t + 237.3).powi(2)))
}

/// Actual vapour pressure from temperature and humidity. `None` outside -40 to 60 °C.
///
/// # Source
/// [FAO56] equation 10, solved for the vapour pressure.
pub fn vapour_pressure(temperature: Celsius, humidity: RelativeHumidity) -> Option<Kilopascals> {
    saturation_pressure(temperature).map(|saturation| saturation * humidity.value())
}

/// Actual vapour pressure from an aspirated psychrometer. `None` outside -40 to 60 °C.
///
/// # Source
/// [FAO56] equations 15 and 16 (ventilated, a = 0.000662).
pub fn psychrometer(dry: Celsius, wet: Celsius, pressure: Kilopascals) -> Option<Kilopascals> {
    const ASPIRATED: f64 = 0.000_662;
    let saturation = saturation_pressure(wet)?;
    Some(saturation - pressure * (ASPIRATED * (dry - wet).value()))
}

/// Dew point from vapour pressure. `None` for no vapour, or outside the range of the formula.
///
/// # Source
/// [FAO56] equation 11, inverted.
pub fn dew_point_of(pressure: Kilopascals) -> Option<Celsius> {
    if pressure <= Kilopascals::ZERO {
        return None;
    }
    let log = pressure.value().ln();
    let dew = Celsius::new((116.91 + 237.3 * log) / (16.78 - log));
    let (low, high) = VAPOUR_RANGE;
    (low..=high).contains(&dew).then_some(dew)
}

/// Dew point from temperature and humidity.
///
/// # Source
/// [FAO56] equation 11, inverted.
pub fn dew_point(temperature: Celsius, humidity: RelativeHumidity) -> Option<Celsius> {
    dew_point_of(vapour_pressure(temperature, humidity)?)
}

/// Relative humidity from temperature and dew point; a dew point above the temperature is saturation.
///
/// # Source
/// [FAO56] equation 10.
pub fn humidity(temperature: Celsius, dew_point: Celsius) -> Option<RelativeHumidity> {
    let actual = saturation_pressure(dew_point)?;
    let saturation = saturation_pressure(temperature)?;
    Some(RelativeHumidity::saturating(actual / saturation))
}

/// Wet-bulb temperature at sea-level pressure. `None` outside -20 to 50 °C or under 5 % humidity.
///
/// # Source
/// [STULL11] equation 1: within about 0.3 K for humid air, 1 K at worst.
pub fn wet_bulb(temperature: Celsius, humidity: RelativeHumidity) -> Option<Celsius> {
    let (low, high) = WET_BULB_RANGE;
    if !(low..=high).contains(&temperature) || humidity.value() < WET_BULB_DRIEST {
        return None;
    }
    let (t, rh) = (temperature.value(), humidity.as_percent());
    let wet = t * (0.151_977 * (rh + 8.313_659).sqrt()).atan() + (t + rh).atan() - (rh - 1.676_331).atan()
        + 0.003_918_38 * rh.powf(1.5) * (0.023_101 * rh).atan()
        - 4.686_035;
    Some(Celsius::new(wet))
}

/// Delta T, the wet-bulb depression that spray guidance is written in.
///
/// # Source
/// [STULL11] equation 1, taken from the temperature.
pub fn delta_t(temperature: Celsius, humidity: RelativeHumidity) -> Option<CelsiusDelta> {
    wet_bulb(temperature, humidity).map(|wet| temperature - wet)
}

/// Mean air pressure at a height.
///
/// # Source
/// [FAO56] equation 7.
pub fn pressure_at(elevation: Elevation) -> Kilopascals {
    Kilopascals::new(101.3 * ((293.0 - 0.0065 * elevation.value()) / 293.0).powf(5.26))
}

/// The psychrometric constant, kPa a kelvin.
///
/// # Source
/// [FAO56] equation 8.
pub fn psychrometric_constant(pressure: Kilopascals) -> Kilopascals {
    pressure * 0.665e-3
}

fn saturation(t: f64) -> f64 {
    0.6108 * (17.27 * t / (t + 237.3)).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn percent(percent: f64) -> RelativeHumidity {
        RelativeHumidity::from_percent(percent).expect("a humidity")
    }

    fn check(what: &str, got: Option<f64>, want: f64, tolerance: f64) {
        let got = got.unwrap_or(f64::NAN);
        assert!((got - want).abs() <= tolerance, "{what}: {got} is not {want} within {tolerance}");
    }

    #[test]
    fn published() {
        let es = |t| saturation_pressure(Celsius::new(t)).map(Kilopascals::value);
        // FAO Irrigation and Drainage Paper 56, examples 2 to 6.
        let pressure = pressure_at(Elevation::new(1800.0));
        check("example 2, pressure", Some(pressure.value()), 81.8, 0.1);
        check("example 2, gamma", Some(psychrometric_constant(pressure).value()), 0.0544, 0.0005);
        check("example 3, 24.5", es(24.5), 3.075, 0.005);
        check("example 3, 15.0", es(15.0), 1.705, 0.005);
        let at_1200 = pressure_at(Elevation::new(1200.0));
        let actual = psychrometer(Celsius::new(25.6), Celsius::new(19.5), at_1200);
        check("example 4", actual.map(Kilopascals::value), 1.91, 0.01);
        let mean =
            |high: f64, low: f64| es(25.0).zip(es(18.0)).map(|(hot, cold)| (cold * high + hot * low) / 2.0);
        check("example 5, ea", mean(0.82, 0.54), 1.70, 0.01);
        let deficit =
            es(25.0).zip(es(18.0)).zip(mean(0.82, 0.54)).map(|((hot, cold), ea)| (hot + cold) / 2.0 - ea);
        check("example 6, deficit", deficit, 0.91, 0.01);
    }

    #[test]
    fn dew_point_and_wet_bulb() {
        let dew = |t, rh| dew_point(Celsius::new(t), percent(rh)).map(Celsius::value);
        check("dew point 20/50", dew(20.0, 50.0), 9.26, 0.02);
        check("dew point 25/90", dew(25.0, 90.0), 23.23, 0.02);
        let rh = |depression| {
            humidity(Celsius::new(20.0), Celsius::new(20.0 - depression)).map(RelativeHumidity::as_percent)
        };
        check("humidity at 2.0 K", rh(2.0), 88.3, 0.1);
        check("humidity at 3.8 K", rh(3.8), 78.8, 0.1);
        // Stull 2011: the paper's own example, 20 °C and 50 % give 13.7 °C.
        let wet = wet_bulb(Celsius::new(20.0), percent(50.0)).map(Celsius::value);
        check("wet bulb 20/50", wet, 13.70, 0.02);
        for (t, rh, want) in [
            (20.0, 50.0, 6.30),
            (30.0, 40.0, 9.55),
            (32.0, 70.0, 4.54),
            (18.0, 90.0, 1.20),
            (35.0, 30.0, 12.86),
        ] {
            let got = delta_t(Celsius::new(t), percent(rh)).map(CelsiusDelta::value);
            check("delta T", got, want, 0.03);
        }
    }

    #[test]
    fn outside_its_range_it_is_unknown() {
        assert_eq!(saturation_pressure(Celsius::new(-40.1)), None);
        assert_eq!(saturation_pressure(Celsius::new(60.1)), None);
        assert_eq!(saturation_pressure(Celsius::new(f64::NAN)), None);
        assert_eq!(wet_bulb(Celsius::new(50.1), percent(50.0)), None);
        assert_eq!(wet_bulb(Celsius::new(20.0), percent(4.9)), None);
        assert_eq!(dew_point(Celsius::new(20.0), percent(0.0)), None);
    }
}
