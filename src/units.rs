//! Quantities that must not be mixed up: one newtype a quantity, one unit a type.
//!
//! The formulas of the trade are empirical, so the danger is not a wrong dimension but two
//! quantities of the same dimension: rain and trunk width are both lengths, humidity and
//! probability both ratios. A type is named for its unit where the trade gives that unit one
//! meaning (millimetres are always water) and for its quantity where several share a unit.
//!
//! There is no `From<f64>` and no `Deref`: a number becomes a quantity by name
//! (`Celsius::new`) and stops being one by name (`.value()`), at the top and the bottom of a
//! formula. Words for people are made in `language`; `Debug` here is for logs and tests.

use std::cmp::Ordering;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use chrono::{Datelike, NaiveDate};

pub mod measures;
mod position;

pub use self::position::{Hemisphere, Position};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            pub const fn new(value: f64) -> Self {
                Self(value)
            }

            fn checked(value: f64) -> Option<Self> {
                value.is_finite().then_some(Self(value))
            }

            /// The bare number, in the unit the type is named for.
            pub const fn value(self) -> f64 {
                self.0
            }

            pub fn is_finite(self) -> bool {
                self.0.is_finite()
            }

            /// Total order, so that extremes and sorting need no special case.
            pub fn total_cmp(&self, other: &Self) -> Ordering {
                self.0.total_cmp(&other.0)
            }

            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
        }

        /// As the number in the unit the type is named for: in the journal's records and the figures of
        /// a rehearsal. A number no such quantity can have is refused on the way in.
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let value = f64::deserialize(deserializer)?;
                Self::checked(value).ok_or_else(|| {
                    serde::de::Error::custom(concat!(stringify!($name), " cannot have this value"))
                })
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_f64(self.0)
            }
        }
    };
}

macro_rules! linear {
    ($(#[$doc:meta])* $name:ident) => {
        quantity!($(#[$doc])* $name);

        impl $name {
            pub const ZERO: Self = Self(0.0);
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        /// How many of the other go into this one: a bare ratio.
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                items.fold(Self::ZERO, |total, item| total + item)
            }
        }
    };
}

quantity!(
    /// A temperature on the Celsius scale: a point, so two of them cannot be added.
    Celsius
);
linear!(
    /// A difference of temperatures, in kelvins.
    CelsiusDelta
);
linear!(
    /// A depth of water (rain, irrigation, evaporation), in millimetres. Never anything else.
    Millimetres
);
linear!(
    /// A rate of evaporation, in millimetres of water a day.
    MillimetresPerDay
);
linear!(
    /// A length of tree, root, pot or ladder, in metres.
    Metres
);
linear!(
    /// Ground or canopy area, in square metres.
    SquareMetres
);
linear!(
    /// A volume of water, mix or spray, in litres.
    Litres
);
linear!(
    /// A mass of fruit or product, in kilograms.
    Kilograms
);
linear!(
    /// A duration as the models count it, in hours.
    Hours
);
linear!(
    /// A duration in days of 24 hours.
    Days
);
linear!(
    /// Vapour or air pressure, in kilopascals.
    Kilopascals
);
linear!(
    /// Wind, in metres a second.
    MetresPerSecond
);
linear!(
    /// Radiant energy received over a stated period, in megajoules a square metre.
    MegajoulesPerSquareMetre
);
linear!(
    /// Radiant power, in watts a square metre.
    WattsPerSquareMetre
);
linear!(
    /// Heat sum above a base temperature, in degree-days Celsius.
    DegreeDays
);
linear!(
    /// Metallic copper laid down, in grams a square metre of canopy ground.
    GramsPerSquareMetre
);
linear!(
    /// Height above sea level, in metres.
    Elevation
);
quantity!(
    /// Evaporation of a crop, a pot or bare ground over that of the reference grass.
    CropCoefficient
);
quantity!(
    /// A day of the year, 1 January being 1. Leap days are left out, so that the same date of two years is
    /// the same day; it runs past 365 into the next year and below 1 into the one before.
    DayOfYear
);

impl Celsius {
    pub fn from_fahrenheit(degrees: f64) -> Self {
        Self((degrees - 32.0) / 1.8)
    }

    pub fn as_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }

    /// The arithmetic mean, or `None` of nothing. (Points cannot be summed, so this is the way.)
    pub fn mean(values: impl IntoIterator<Item = Celsius>) -> Option<Celsius> {
        let (sum, count) =
            values.into_iter().fold((0.0, 0u32), |(sum, count), value| (sum + value.0, count + 1));
        (count > 0).then(|| Celsius(sum / f64::from(count)))
    }
}

impl Sub for Celsius {
    type Output = CelsiusDelta;
    fn sub(self, other: Self) -> CelsiusDelta {
        CelsiusDelta(self.0 - other.0)
    }
}

impl Add<CelsiusDelta> for Celsius {
    type Output = Celsius;
    fn add(self, delta: CelsiusDelta) -> Celsius {
        Celsius(self.0 + delta.0)
    }
}

impl Sub<CelsiusDelta> for Celsius {
    type Output = Celsius;
    fn sub(self, delta: CelsiusDelta) -> Celsius {
        Celsius(self.0 - delta.0)
    }
}

impl DayOfYear {
    /// A date as counted from 1 January of a year. 29 February is taken as the 28th.
    pub fn counted_from(year: i32, date: NaiveDate) -> Self {
        let past_leap_day = date.leap_year() && date.ordinal() > 59;
        let ordinal = f64::from(date.ordinal()) - f64::from(u8::from(past_leap_day));
        Self(ordinal + 365.0 * f64::from(date.year() - year))
    }

    /// The date nearest to it (a half to the later) in the count from 1 January of a year.
    pub fn in_count_of(self, year: i32) -> Option<NaiveDate> {
        const COMMON_YEAR: i32 = 2015;
        let whole = (self.0 + 0.5).floor() as i32 - 1;
        let ordinal = u32::try_from(whole.rem_euclid(365)).ok()? + 1;
        NaiveDate::from_yo_opt(COMMON_YEAR, ordinal)?.with_year(year.checked_add(whole.div_euclid(365))?)
    }
}

impl CropCoefficient {
    pub fn of(self, evaporation: Millimetres) -> Millimetres {
        Millimetres(self.0 * evaporation.0)
    }

    pub fn scaled(self, part: Fraction) -> Self {
        Self(self.0 * part.0)
    }
}

impl Millimetres {
    pub fn from_inches(inches: f64) -> Self {
        Self(inches * 25.4)
    }

    pub fn as_inches(self) -> f64 {
        self.0 / 25.4
    }

    /// Water of this depth over an area: 1 mm on 1 m² is 1 L.
    pub fn over(self, area: SquareMetres) -> Litres {
        Litres(self.0 * area.0)
    }
}

impl MillimetresPerDay {
    pub fn during(self, days: Days) -> Millimetres {
        Millimetres(self.0 * days.0)
    }
}

impl Litres {
    /// US liquid gallons.
    pub fn from_gallons(gallons: f64) -> Self {
        Self(gallons * measures::LITRES_A_GALLON)
    }

    pub fn as_gallons(self) -> f64 {
        self.0 / measures::LITRES_A_GALLON
    }
}

impl Metres {
    pub fn from_feet(feet: f64) -> Self {
        Self(feet * 0.3048)
    }

    pub fn as_feet(self) -> f64 {
        self.0 / 0.3048
    }
}

impl Kilograms {
    pub fn from_pounds(pounds: f64) -> Self {
        Self(pounds * measures::GRAMS_A_POUND / 1000.0)
    }

    pub fn as_pounds(self) -> f64 {
        self.0 * 1000.0 / measures::GRAMS_A_POUND
    }
}

impl Hours {
    pub fn as_days(self) -> Days {
        Days(self.0 / 24.0)
    }

    /// Rounded to the minute; models do not know seconds.
    pub fn to_duration(self) -> chrono::TimeDelta {
        chrono::TimeDelta::minutes((self.0 * 60.0).round() as i64)
    }

    pub fn from_duration(duration: chrono::TimeDelta) -> Self {
        Self(duration.num_seconds() as f64 / 3600.0)
    }
}

impl Days {
    pub fn as_hours(self) -> Hours {
        Hours(self.0 * 24.0)
    }
}

impl MetresPerSecond {
    pub fn from_kmh(kmh: f64) -> Self {
        Self(kmh / 3.6)
    }

    pub fn as_kmh(self) -> f64 {
        self.0 * 3.6
    }

    pub fn from_mph(mph: f64) -> Self {
        Self(mph * 0.447_04)
    }

    pub fn as_mph(self) -> f64 {
        self.0 / 0.447_04
    }
}

impl WattsPerSquareMetre {
    /// The energy this power brings in a time.
    pub fn during(self, hours: Hours) -> MegajoulesPerSquareMetre {
        MegajoulesPerSquareMetre(self.0 * hours.0 * 0.0036)
    }
}

macro_rules! bounded {
    ($(#[$doc:meta])* $name:ident, $low:expr, $high:expr) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// `None` outside the range the quantity can have, and for NaN.
            pub fn new(value: f64) -> Option<Self> {
                ($low..=$high).contains(&value).then_some(Self(value))
            }

            fn checked(value: f64) -> Option<Self> {
                Self::new(value)
            }

            /// The nearest value the quantity can have; NaN becomes the lower bound.
            pub fn saturating(value: f64) -> Self {
                if value >= $high {
                    Self($high)
                } else if value >= $low {
                    Self(value)
                } else {
                    Self($low)
                }
            }

            pub const fn value(self) -> f64 {
                self.0
            }
        }

        /// As the number in the unit the type is named for: in the journal's records and the figures of
        /// a rehearsal. A number no such quantity can have is refused on the way in.
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let value = f64::deserialize(deserializer)?;
                Self::checked(value).ok_or_else(|| {
                    serde::de::Error::custom(concat!(stringify!($name), " cannot have this value"))
                })
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_f64(self.0)
            }
        }
    };
}

bounded!(
    /// A part of a whole, 0 to 1. Made from a percentage by name, never by accident.
    Fraction,
    0.0,
    1.0
);
bounded!(
    /// The chance of something, 0 to 1.
    Probability,
    0.0,
    1.0
);
bounded!(
    /// Relative humidity over water, stored 0 to 1.
    RelativeHumidity,
    0.0,
    1.0
);
bounded!(
    /// Degrees north of the equator, south negative.
    Latitude,
    -90.0,
    90.0
);
bounded!(
    /// Degrees east of Greenwich, west negative.
    Longitude,
    -180.0,
    180.0
);

macro_rules! percent {
    ($($name:ident),*) => {$(
        impl $name {
            pub fn from_percent(percent: f64) -> Option<Self> {
                Self::new(percent / 100.0)
            }

            pub fn as_percent(self) -> f64 {
                self.0 * 100.0
            }
        }
    )*};
}
percent!(Fraction, Probability, RelativeHumidity);

impl Fraction {
    /// For named constants, where a wrong one should not compile into anything.
    pub const fn new_const(value: f64) -> Option<Self> {
        if value >= 0.0 && value <= 1.0 { Some(Self(value)) } else { None }
    }

    pub const NONE: Fraction = Fraction(0.0);
    pub const WHOLE: Fraction = Fraction(1.0);

    /// What is left of the whole.
    pub fn complement(self) -> Fraction {
        Fraction(1.0 - self.0)
    }

    pub fn of(self, other: Fraction) -> Fraction {
        Fraction(self.0 * other.0)
    }
}

impl RelativeHumidity {
    /// Feeds and cheap sensors report a little over 100 %: that is saturation, not an error.
    /// Anything further out is a fault of the feed and is unknown.
    pub fn from_feed_percent(percent: f64) -> Option<Self> {
        const OVERSHOOT: f64 = 105.0;
        if (100.0..=OVERSHOOT).contains(&percent) {
            return Some(Self(1.0));
        }
        Self::from_percent(percent)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn conversions_meet_their_definitions() {
        // Exact by definition: the inch is 25.4 mm, the foot 0.3048 m, the pound 0.45359237 kg,
        // the US gallon 231 cubic inches, the mile 1609.344 m (NIST SP 811, appendix B).
        let rows = [
            (Celsius::from_fahrenheit(-40.0).value(), -40.0),
            (Celsius::new(100.0).as_fahrenheit(), 212.0),
            (Millimetres::from_inches(1.0).value(), 25.4),
            (Litres::from_gallons(1.0).value(), 231.0 * 2.54_f64.powi(3) / 1000.0),
            (MetresPerSecond::from_mph(1.0).value(), 1609.344 / 3600.0),
            (Kilograms::from_pounds(1.0).value(), 0.453_592_37),
            (Metres::from_feet(1.0).value(), 0.3048),
        ];
        for (got, want) in rows {
            assert!((got - want).abs() < 1e-9, "{got} is not {want}");
        }
    }

    #[test]
    fn a_day_of_the_year_is_the_same_in_leap_years_and_runs_over_the_ends() {
        // Day numbers by any calendar of a common year.
        let date = |text: &str| text.parse::<NaiveDate>().expect("a date");
        let rows = [
            (2015, "2015-01-01", 1.0),
            (2015, "2015-03-01", 60.0),
            (2016, "2016-03-01", 60.0),
            (2016, "2016-12-31", 365.0),
            (2015, "2016-01-04", 369.0),
            (2016, "2015-12-31", 0.0),
            (2016, "2015-12-01", -30.0),
        ];
        for (year, text, want) in rows {
            assert_eq!(DayOfYear::counted_from(year, date(text)).value(), want, "{text}");
            assert_eq!(DayOfYear::new(want).in_count_of(year), Some(date(text)), "{text}");
        }
        assert_eq!(DayOfYear::counted_from(2016, date("2016-02-29")).value(), 59.0);
        assert_eq!(DayOfYear::new(307.5).in_count_of(2015), Some(date("2015-11-04")));
    }

    #[test]
    fn bounded_quantities_refuse_what_cannot_be() {
        assert_eq!(Fraction::new(f64::NAN), None);
        assert_eq!(Fraction::from_percent(101.0), None);
        assert_eq!(RelativeHumidity::from_feed_percent(101.0), RelativeHumidity::new(1.0));
        assert_eq!(RelativeHumidity::from_feed_percent(-9999.0), None);
        assert_eq!(RelativeHumidity::from_feed_percent(130.0), None);
        assert!(Position::new(91.0, 0.0).is_none());
    }

    #[test]
    fn a_position_is_kept_coarse() {
        let kept = Position::new(30.694_357, -88.043_054).map(Position::rounded);
        assert_eq!(kept, Position::new(30.69, -88.04));
    }
}
