//! Units by their names, and what a bare number is where a unit is understood.

use super::Amount;
use crate::season::garden::UnitSystem;
use crate::units::{Celsius, Fraction, Kilograms, Litres, Millimetres};

/// Litres in a measure.
pub(in crate::language::read) fn volume(unit: &str) -> Option<f64> {
    let gallon = Litres::from_gallons(1.0).value();
    Some(match unit {
        "l" | "lt" | "ltr" | "ltrs" | "litre" | "litres" | "liter" | "liters" => 1.0,
        "ml" => 0.001,
        "gal" | "gals" | "gallon" | "gallons" | "gallonz" => gallon,
        "quart" | "quarts" | "qt" | "qts" => gallon / 4.0,
        "pint" | "pints" | "pt" => gallon / 8.0,
        "cup" | "cups" => gallon / 16.0,
        _ => return None,
    })
}

/// Kilograms in a measure.
pub(super) fn mass(unit: &str) -> Option<f64> {
    let pound = Kilograms::from_pounds(1.0).value();
    Some(match unit {
        "lb" | "lbs" | "pound" | "pounds" => pound,
        "oz" | "ounce" | "ounces" => pound / 16.0,
        "ton" | "tons" | "tonne" | "tonnes" => 907.184_74,
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => 1.0,
        "g" | "gr" | "gram" | "grams" => 0.001,
        _ => return None,
    })
}

pub(in crate::language::read) fn bare_temperature(value: f64, units: UnitSystem) -> Celsius {
    match units {
        UnitSystem::Us => Celsius::from_fahrenheit(value),
        UnitSystem::Metric => Celsius::new(value),
    }
}

pub(in crate::language::read) fn bare_depth(value: f64, units: UnitSystem) -> Millimetres {
    match units {
        UnitSystem::Us => Millimetres::from_inches(value),
        UnitSystem::Metric => Millimetres::new(value),
    }
}

pub(super) fn share(percent: f64) -> Amount {
    Fraction::from_percent(percent).map_or(Amount::Impossible, Amount::Share)
}
