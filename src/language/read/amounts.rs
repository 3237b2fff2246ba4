//! How much: numbers with their units, in any usual form.

use super::lexicon::Sense;
use super::tokens::Token;
use crate::season::garden::UnitSystem;
use crate::units::{Celsius, Fraction, Kilograms, Litres, Millimetres};

/// A number and what it counts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Amount {
    Depth(Millimetres),
    Volume(Litres),
    Mass(Kilograms),
    Share(Fraction),
    /// So many leaves of those looked at.
    LeavesOf {
        spotted: f64,
        of: f64,
    },
    Temperature(Celsius),
    /// "30 cm", "4 ft": a length, in metres.
    Length(f64),
    Class(f64),
    Count(f64),
    /// A percentage beyond what can be.
    Impossible,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct Measured {
    pub(super) amount: Amount,
    pub(super) used: Vec<usize>,
}

/// All amounts of a stretch, in order, but those whose tokens are taken (by names or moments).
pub(super) fn amounts(stretch: &[Token], taken: &[usize], units: UnitSystem) -> Vec<Measured> {
    let mut found = Vec::new();
    let mut index = 0;
    while index < stretch.len() {
        if taken.contains(&index) {
            index += 1;
            continue;
        }
        match at(stretch, index, taken, units) {
            Some((amount, count)) => {
                found.push(Measured { amount, used: (index..index + count).collect() });
                index += count;
            }
            None => index += 1,
        }
    }
    found
}

fn at(stretch: &[Token], index: usize, taken: &[usize], units: UnitSystem) -> Option<(Amount, usize)> {
    let token = &stretch[index];
    if token.is_any(&["class", "grade", "level", "score", "stage"]) {
        let number = stretch.get(index + 1)?.number?;
        return Some((Amount::Class(number), 2));
    }
    let (value, mut count) = number_at(stretch, index)?;
    let after = |at: usize| stretch.get(index + at).filter(|_| !taken.contains(&(index + at)));
    // "30 of 100 leaves", "30 out of 100", "3/20 leaves"
    if let Some((of, used)) = out_of(stretch, index + count) {
        return Some((Amount::LeavesOf { spotted: value, of }, count + used));
    }
    // "10-15%": the middle.
    let mut value = value;
    if after(count).is_some_and(|dash| dash.is("-") || dash.is("to"))
        && let Some(high) = after(count + 1).and_then(|high| high.number)
        && high > value
    {
        value = f64::midpoint(value, high);
        count += 2;
    }
    if let Some(part) = after(count).and_then(|part| match part.text.as_str() {
        "quarters" => Some(0.25),
        "thirds" => Some(1.0 / 3.0),
        _ => None,
    }) {
        value *= part;
        count += 1;
        count += usize::from(after(count).is_some_and(|of| of.is("of")));
    }
    if after(count).is_some_and(|of| of.is_any(&["a", "an", "of"]))
        && value < 1.0
        && after(count + 1).is_some_and(is_unit)
    {
        count += 1;
    }
    let Some(unit) = after(count) else { return Some((Amount::Count(value), count)) };
    let (amount, used) = with_unit(value, unit, after(count + 1), units)
        .map_or((Amount::Count(value), 0), |(amount, used)| (amount, used));
    count += used;
    // "an inch and a quarter"
    if let Some((more, extra)) = and_a_part(stretch, index + count, amount) {
        return Some((more, count + extra));
    }
    Some((amount, count))
}

/// A number, also "a dozen", "half a dozen", "an inch", "a couple", "two hundred".
fn number_at(stretch: &[Token], index: usize) -> Option<(f64, usize)> {
    let token = &stretch[index];
    let minus =
        index > 0 && stretch[index - 1].is("-") && token.joined && !(index > 1 && stretch[index - 1].joined);
    if let Some(value) = token.number {
        let next = stretch.get(index + 1);
        let skip = usize::from(next.is_some_and(|next| next.is("a")));
        if let Some(dozen) = stretch.get(index + 1 + skip).filter(|next| next.is_any(&["dozen", "hundred"])) {
            return Some((value * dozen.number.unwrap_or(1.0), 2 + skip));
        }
        // "twenty five"
        if value >= 20.0
            && value % 10.0 == 0.0
            && !token.text.starts_with(|letter: char| letter.is_ascii_digit())
            && let Some(ones) = next.and_then(|next| next.number).filter(|ones| (1.0..10.0).contains(ones))
        {
            return Some((value + ones, 2));
        }
        return Some((if minus { -value } else { value }, 1));
    }
    if token.is_any(&["a", "an"]) {
        let next = stretch.get(index + 1)?;
        if next.is_any(&["dozen", "quarter", "third", "half", "hundred"]) {
            return Some((next.number?, 2));
        }
        if next.is("couple") {
            return Some((2.0, 2 + usize::from(stretch.get(index + 2).is_some_and(|of| of.is("of")))));
        }
        // "an inch", "a gallon"
        return is_unit(next).then_some((1.0, 1));
    }
    if token.is("couple") {
        return Some((2.0, 1 + usize::from(stretch.get(index + 1).is_some_and(|of| of.is("of")))));
    }
    // "inch and a quarter" with nothing before it
    (token.is("inch") && (index == 0 || stretch[index - 1].number.is_none())).then_some((1.0, 0))
}

fn out_of(stretch: &[Token], index: usize) -> Option<(f64, usize)> {
    let token = stretch.get(index)?;
    let (skip, slash) = if token.is("of") {
        (1, false)
    } else if token.is("out") && stretch.get(index + 1).is_some_and(|of| of.is("of")) {
        (2, false)
    } else if token.is("/") {
        (1, true)
    } else {
        return None;
    };
    let of = stretch.get(index + skip)?.number.filter(|of| *of >= 1.0)?;
    let leaf = stretch.get(index + skip + 1).is_some_and(|next| next.senses.has(Sense::Leaf));
    if slash && !leaf {
        return None;
    }
    Some((of, skip + 1 + usize::from(leaf)))
}

fn is_unit(token: &Token) -> bool {
    token.senses.has(Sense::Unit) || token.is_any(&["\"", "%"])
}

/// The amount a unit makes of a number, and how many tokens the unit took.
fn with_unit(value: f64, unit: &Token, next: Option<&Token>, units: UnitSystem) -> Option<(Amount, usize)> {
    let amount = match unit.text.as_str() {
        "%" | "percent" | "pct" => share(value),
        "mm" | "millimeter" | "millimeters" | "millimetre" | "millimetres" => {
            Amount::Depth(Millimetres::new(value))
        }
        "inch" | "inches" | "\"" => Amount::Depth(Millimetres::from_inches(value)),
        // "in" is a unit only right behind its number and not before a place.
        "in" if next.is_none_or(|next| {
            next.is_mark()
                || next.is_any(&[
                    "rain",
                    "of",
                    "gauge",
                    "last",
                    "overnight",
                    "today",
                    "yesterday",
                    "since",
                    "this",
                    "on",
                    "and",
                    "water",
                ])
        }) =>
        {
            Amount::Depth(Millimetres::from_inches(value))
        }
        "cm" => Amount::Length(value / 100.0),
        "m" => Amount::Length(value),
        "ft" | "foot" | "feet" => Amount::Length(value * 0.3048),
        "l" | "lt" | "litre" | "litres" | "liter" | "liters" => Amount::Volume(Litres::new(value)),
        "ml" => Amount::Volume(Litres::new(value / 1000.0)),
        "gal" | "gals" | "gallon" | "gallons" => Amount::Volume(Litres::from_gallons(value)),
        "quart" | "quarts" | "qt" => Amount::Volume(Litres::from_gallons(value / 4.0)),
        "pint" | "pints" => Amount::Volume(Litres::from_gallons(value / 8.0)),
        "cup" | "cups" => Amount::Volume(Litres::from_gallons(value / 16.0)),
        "lb" | "lbs" | "pound" | "pounds" => Amount::Mass(Kilograms::from_pounds(value)),
        "oz" | "ounce" | "ounces" => Amount::Mass(Kilograms::from_pounds(value / 16.0)),
        "kg" | "kilo" | "kilos" => Amount::Mass(Kilograms::new(value)),
        "g" | "gram" | "grams" => Amount::Mass(Kilograms::new(value / 1000.0)),
        "f" | "fahrenheit" => Amount::Temperature(Celsius::from_fahrenheit(value)),
        "c" | "celsius" => Amount::Temperature(Celsius::new(value)),
        "degree" | "degrees" | "deg" | "°" => {
            return Some(match next.map(|next| next.text.as_str()) {
                Some("f" | "fahrenheit") => (Amount::Temperature(Celsius::from_fahrenheit(value)), 2),
                Some("c" | "celsius") => (Amount::Temperature(Celsius::new(value)), 2),
                _ => (Amount::Temperature(bare_temperature(value, units)), 1),
            });
        }
        _ => return None,
    };
    Some((amount, 1))
}

pub(super) fn bare_temperature(value: f64, units: UnitSystem) -> Celsius {
    match units {
        UnitSystem::Us => Celsius::from_fahrenheit(value),
        UnitSystem::Metric => Celsius::new(value),
    }
}

pub(super) fn bare_depth(value: f64, units: UnitSystem) -> Millimetres {
    match units {
        UnitSystem::Us => Millimetres::from_inches(value),
        UnitSystem::Metric => Millimetres::new(value),
    }
}

fn share(percent: f64) -> Amount {
    Fraction::from_percent(percent).map_or(Amount::Impossible, Amount::Share)
}

/// "... and a quarter", "... and a half" behind an amount.
fn and_a_part(stretch: &[Token], index: usize, amount: Amount) -> Option<(Amount, usize)> {
    stretch.get(index).filter(|and| and.is("and"))?;
    let article = usize::from(stretch.get(index + 1).is_some_and(|a| a.is("a")));
    let part = stretch.get(index + 1 + article)?;
    let value = part.number.filter(|value| part.is_any(&["half", "quarter", "third"]) && *value < 1.0)?;
    let used = 2 + article;
    Some((
        match amount {
            Amount::Depth(depth) => Amount::Depth(depth + Millimetres::from_inches(value)),
            Amount::Volume(volume) => Amount::Volume(volume * (1.0 + value)),
            Amount::Mass(mass) => Amount::Mass(mass + Kilograms::from_pounds(value)),
            Amount::Count(count) => Amount::Count(count + value),
            _ => return None,
        },
        used,
    ))
}
