use crate::units::{Celsius, Fraction, MetresPerSecond, RelativeHumidity};
use crate::weather::Hour;

/// The instants (temperature, dew point, humidity, wind, cloud) a part of the way from one record to the
/// next, 0 to 1, on a straight line; where only one of them knows a value, that one. Sums stay unknown.
pub(super) fn instants(from: &Hour, to: &Hour, part: f64) -> Hour {
    let between = |from: Option<f64>, to: Option<f64>| match (from, to) {
        (Some(from), Some(to)) => Some(from + (to - from) * part),
        (one, other) => one.or(other),
    };
    let celsius = |one: Option<Celsius>, other: Option<Celsius>| {
        between(one.map(Celsius::value), other.map(Celsius::value)).map(Celsius::new)
    };
    Hour {
        temperature: celsius(from.temperature, to.temperature),
        dew_point: celsius(from.dew_point, to.dew_point),
        humidity: between(
            from.humidity.map(RelativeHumidity::value),
            to.humidity.map(RelativeHumidity::value),
        )
        .map(RelativeHumidity::saturating),
        wind: between(from.wind.map(MetresPerSecond::value), to.wind.map(MetresPerSecond::value))
            .map(MetresPerSecond::new),
        cloud: between(from.cloud.map(Fraction::value), to.cloud.map(Fraction::value))
            .map(Fraction::saturating),
        ..Hour::unknown(from.start)
    }
}
