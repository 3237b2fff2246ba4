//! Whether leaves were wet, from the hourly weather of a screen.

use crate::units::{Celsius, CelsiusDelta, Fraction, MetresPerSecond, Millimetres, RelativeHumidity};
use crate::weather::Hour;

/// An hour's leaf wetness. Unknown stays unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wetness {
    Wet,
    Dry,
    Unknown,
}

/// The rule wetness is told by. Four climates were told right in 87 to 92 of 100 hours by the 90 % rule
/// ([SEN08]); one hour a day wrong is normal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WetnessRule {
    /// Wet from this humidity on, in rain, and while leaves still drain after rain.
    Humidity { from: RelativeHumidity },
    /// Wet from a dew-point depression of 2.0 K or less until it reaches 3.8 K ([HUB92]), and in rain.
    DewPoint,
}

impl Default for WetnessRule {
    fn default() -> Self {
        WetnessRule::Humidity { from: RelativeHumidity::saturating(0.90) }
    }
}

impl WetnessRule {
    /// The sensitive pass: the low end of the thresholds found for single sites.
    ///
    /// # Source
    /// [SEN08].
    pub fn sensitive() -> Self {
        WetnessRule::Humidity { from: RelativeHumidity::saturating(0.87) }
    }
}

/// Rain of an hour that wets leaves. common practice.
pub const WETTING_RAIN: Millimetres = Millimetres::new(0.2);
/// Leaves drain for at most this many hours after rain in air that has dried. common practice: 1 to 2 h.
const DRAINING: u32 = 1;
/// Air drier than this dries leaves within the hour, rain just over or not.
const DRYING_AIR: f64 = 0.70;
const DEW_STARTS: CelsiusDelta = CelsiusDelta::new(2.0);
const DEW_ENDS: CelsiusDelta = CelsiusDelta::new(3.8);

/// Walks through hours in order, remembering what the rule needs of the hour before.
#[derive(Clone, Debug)]
pub struct Walk {
    rule: WetnessRule,
    was_wet: bool,
    since_rain: u32,
}

impl Walk {
    pub fn new(rule: WetnessRule) -> Self {
        Self { rule, was_wet: false, since_rain: u32::MAX }
    }

    /// The wetness of the next hour.
    ///
    /// # Source
    /// [SEN08] for humidity, [HUB92] for the dew point; rain and draining are common practice.
    pub fn step(&mut self, hour: &Hour) -> Wetness {
        let rains = hour.rain.is_some_and(|rain| rain >= WETTING_RAIN);
        self.since_rain = if rains { 0 } else { self.since_rain.saturating_add(1) };
        let wetness = if rains { Wetness::Wet } else { self.without_rain(hour) };
        self.was_wet = wetness == Wetness::Wet;
        wetness
    }

    fn without_rain(&self, hour: &Hour) -> Wetness {
        let by_air = match self.rule {
            WetnessRule::Humidity { from } => hour.humidity.map(|humidity| humidity >= from),
            WetnessRule::DewPoint => self.by_dew(hour),
        };
        let draining =
            self.since_rain <= DRAINING && hour.humidity.is_none_or(|humidity| humidity.value() > DRYING_AIR);
        match by_air {
            _ if draining => Wetness::Wet,
            Some(true) => Wetness::Wet,
            Some(false) => Wetness::Dry,
            None => Wetness::Unknown,
        }
    }

    fn by_dew(&self, hour: &Hour) -> Option<bool> {
        let dew = hour.dew_point.or_else(|| super::air::dew_point(hour.temperature?, hour.humidity?))?;
        let depression = hour.temperature? - dew;
        Some(if self.was_wet { depression < DEW_ENDS } else { depression <= DEW_STARTS })
    }
}

/// The wetness of hours in order.
///
/// # Source
/// [SEN08], [HUB92], as the rule says.
pub fn wetness(hours: &[Hour], rule: WetnessRule) -> Vec<Wetness> {
    let mut walk = Walk::new(rule);
    hours.iter().map(|hour| walk.step(hour)).collect()
}

/// Wet hours counted by the usual and by the sensitive rule: the truth lies about there.
///
/// # Source
/// [SEN08].
pub fn wet_hours(hours: &[Hour]) -> (u32, u32) {
    let count =
        |rule| wetness(hours, rule).into_iter().filter(|wetness| *wetness == Wetness::Wet).count() as u32;
    (count(WetnessRule::default()), count(WetnessRule::sensitive()))
}

/// The classification tree of Gleason and of Kim, as a check on the simple rule. As printed, windy hours
/// come out dry whatever the humidity. `None` below freezing, where its square root has no meaning.
///
/// # Source
/// [KIM02] equations 1 and 2; wind at the height of the canopy.
pub fn by_classification_tree(
    temperature: Celsius,
    humidity: RelativeHumidity,
    wind: MetresPerSecond,
) -> Option<Wetness> {
    let (t, rh, w) = (temperature.value(), humidity.as_percent(), wind.value());
    if t < 0.0 {
        return None;
    }
    let depression = (temperature - super::air::dew_point(temperature, humidity)?).value();
    let wet = if depression >= 3.7 {
        false
    } else if w < 2.5 {
        calm_score(t, rh, w, depression) > 14.4674
    } else {
        rh >= 87.8 && windy_score(t, rh, w, depression) > 37.0
    };
    Some(if wet { Wetness::Wet } else { Wetness::Dry })
}

fn calm_score(t: f64, rh: f64, w: f64, depression: f64) -> f64 {
    1.6064 * t.sqrt() + 0.0036 * t * t + 0.1531 * rh - 0.4599 * w * depression - 0.0035 * t * rh
}

fn windy_score(t: f64, rh: f64, w: f64, depression: f64) -> f64 {
    0.7921 * t.sqrt() + 0.0046 * rh - 2.3889 * w - 0.0390 * t * w + 1.0613 * w * depression
}

/// The share of hours whose wetness is known.
///
/// # Source
/// A count; nothing published.
pub fn known_share(hours: &[Hour]) -> Fraction {
    let known =
        wetness(hours, WetnessRule::default()).into_iter().filter(|wet| *wet != Wetness::Unknown).count();
    Fraction::saturating(known as f64 / hours.len().max(1) as f64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::weather::Origin;
    use chrono::{DateTime, TimeDelta};

    fn hour(index: i64, humidity: Option<f64>, rain: Option<f64>) -> Hour {
        Hour {
            temperature: Some(Celsius::new(20.0)),
            humidity: humidity.and_then(RelativeHumidity::from_percent),
            rain: rain.map(Millimetres::new),
            origin: Origin::Observed,
            ..Hour::unknown(DateTime::UNIX_EPOCH + TimeDelta::hours(index))
        }
    }

    #[test]
    fn humidity_and_rain_wet_leaves() {
        let rows = [
            (Some(89.9), None, Wetness::Dry),
            (Some(90.0), None, Wetness::Wet),
            (Some(50.0), Some(0.2), Wetness::Wet),
            (Some(50.0), Some(0.1), Wetness::Dry),
            (None, None, Wetness::Unknown),
            (None, Some(1.0), Wetness::Wet),
        ];
        for (humidity, rain, want) in rows {
            let got = wetness(&[hour(0, humidity, rain)], WetnessRule::default());
            assert_eq!(got, [want], "{humidity:?} {rain:?}");
        }
    }

    #[test]
    fn leaves_drain_for_an_hour_after_rain() {
        let hours = [hour(0, Some(85.0), Some(2.0)), hour(1, Some(80.0), None), hour(2, Some(80.0), None)];
        assert_eq!(wetness(&hours, WetnessRule::default()), [Wetness::Wet, Wetness::Wet, Wetness::Dry]);
        let hours = [hour(0, Some(85.0), Some(2.0)), hour(1, Some(60.0), None)];
        assert_eq!(wetness(&hours, WetnessRule::default()), [Wetness::Wet, Wetness::Dry]);
    }

    #[test]
    fn dew_forms_at_two_kelvin_and_goes_at_nearly_four() {
        // At 20 °C a depression of 2.0 K is 88.3 % and one of 3.8 K is 78.8 %.
        let hours: Vec<Hour> = [85.0, 89.0, 85.0, 80.0, 78.0, 85.0]
            .iter()
            .enumerate()
            .map(|(i, rh)| hour(i as i64, Some(*rh), None))
            .collect();
        use Wetness::{Dry, Wet};
        assert_eq!(wetness(&hours, WetnessRule::DewPoint), [Dry, Wet, Wet, Wet, Dry, Dry]);
    }

    #[test]
    fn classification_tree() {
        // Equations as printed in Kim et al. 2002, Plant Disease 86:179; figures worked by hand.
        let t = 20.0;
        let score = |rh: f64| {
            let humidity = RelativeHumidity::from_percent(rh).expect("a humidity");
            let depression =
                20.0 - super::super::air::dew_point(Celsius::new(t), humidity).expect("a dew point").value();
            calm_score(t, rh, 1.0, depression)
        };
        for (rh, want) in [(90.0, 15.32), (80.0, 13.63), (85.0, 14.489)] {
            assert!((score(rh) - want).abs() < 0.01, "{rh} %: {}", score(rh));
        }
        let told = |rh, wind| {
            by_classification_tree(
                Celsius::new(20.0),
                RelativeHumidity::from_percent(rh).expect("a humidity"),
                MetresPerSecond::new(wind),
            )
        };
        assert_eq!(told(90.0, 1.0), Some(Wetness::Wet));
        assert_eq!(told(80.0, 1.0), Some(Wetness::Dry));
        assert_eq!(told(85.0, 1.0), Some(Wetness::Wet));
        assert_eq!(told(95.0, 3.0), Some(Wetness::Dry));
        assert_eq!(
            by_classification_tree(
                Celsius::new(-1.0),
                RelativeHumidity::saturating(0.9),
                MetresPerSecond::new(1.0)
            ),
            None
        );
    }
}
