//! Figures as a grower says them, in the garden's units and with no more digits than they deserve.

use super::Voice;
use crate::season::answer::Span;
use crate::season::garden::{Rate, UnitSystem};
use crate::units::measures::{
    CUPS_A_GALLON, GRAMS_A_POUND, GRAMS_AN_OUNCE, LITRES_A_GALLON, MILLILITRES_A_FLUID_OUNCE,
    MILLILITRES_A_TABLESPOON, SQUARE_METRES_AN_ACRE,
};
use crate::units::{
    Celsius, Days, Fraction, GramsPerSquareMetre, Hours, Kilograms, Litres, Metres, MetresPerSecond,
    Millimetres,
};

/// A gram a square metre in pounds an acre.
const POUNDS_AN_ACRE: f64 = SQUARE_METRES_AN_ACRE / GRAMS_A_POUND;

impl Voice {
    pub(super) fn is_us(&self) -> bool {
        self.units == UnitSystem::Us
    }

    pub(super) fn temperature(&self, temperature: Celsius) -> String {
        format!("{:.0}{}", self.degrees(temperature), self.scale())
    }

    /// "68 to 86°F".
    pub(super) fn temperatures(&self, low: Celsius, high: Celsius) -> String {
        format!("{:.0} to {:.0}{}", self.degrees(low), self.degrees(high), self.scale())
    }

    /// ", 6°F above freezing", by the figure that is shown beside it; degrees Celsius count from there already.
    pub(super) fn margin_to_freezing(&self, temperature: Celsius) -> String {
        if !self.is_us() {
            return String::new();
        }
        match self.degrees(temperature) - 32.0 {
            margin if margin > 0.0 => format!(", {margin:.0}°F above freezing"),
            margin if margin < 0.0 => format!(", {:.0}°F below freezing", -margin),
            _ => String::from(", just at freezing"),
        }
    }

    fn degrees(&self, temperature: Celsius) -> f64 {
        whole(if self.is_us() { temperature.as_fahrenheit() } else { temperature.value() })
    }

    fn scale(&self) -> &'static str {
        if self.is_us() { "°F" } else { "°C" }
    }

    /// Rain and other water by depth. Metric: tenths below two millimetres, whole above; US: tenths of an inch.
    pub(super) fn depth(&self, depth: Millimetres) -> String {
        if self.is_us() {
            return match depth.as_inches() {
                inches if inches <= 0.0 => String::from("no rain"),
                inches if inches < 0.05 => String::from("under 0.1 in"),
                inches => format!("{inches:.1} in"),
            };
        }
        match depth.value() {
            mm if mm <= 0.0 => String::from("no rain"),
            mm if mm < 0.05 => String::from("under 0.1 mm"),
            mm if mm < 1.95 => format!("{mm:.1} mm"),
            mm => format!("{mm:.0} mm"),
        }
    }

    /// "1.2 in of rain", "no rain".
    pub(super) fn rain(&self, depth: Millimetres) -> String {
        if depth <= Millimetres::ZERO { self.depth(depth) } else { format!("{} of rain", self.depth(depth)) }
    }

    /// A depth the grower read off a gauge, said back as it was told.
    pub(super) fn depth_told(&self, depth: Millimetres) -> String {
        if self.is_us() {
            format!("{} in", decimals(depth.as_inches(), 2))
        } else {
            format!("{} mm", decimals(depth.value(), 1))
        }
    }

    /// Water to give: quarts of a gallon, half litres, cups and decilitres where it is little.
    pub(super) fn volume(&self, volume: Litres) -> String {
        if self.is_us() {
            return match volume.as_gallons() {
                gallons if gallons < 0.22 => count((gallons * CUPS_A_GALLON).round().max(1.0) as i64, "cup"),
                gallons if gallons < 9.88 => format!("{} gal", quarters(gallons)),
                gallons => format!("{:.0} gal", coarse(gallons)),
            };
        }
        match volume.value() {
            litres if litres < 0.95 => format!("{:.0} mL", (litres * 10.0).round().max(1.0) * 100.0),
            litres if litres < 9.75 => format!("{} L", decimals((litres * 2.0).round() / 2.0, 1)),
            litres => format!("{:.0} L", coarse(litres)),
        }
    }

    /// A volume the grower told: a pot, a tank, a watering.
    pub(super) fn volume_told(&self, volume: Litres) -> String {
        let (number, unit) = if self.is_us() { (volume.as_gallons(), "gal") } else { (volume.value(), "L") };
        // A pot sold as 15 gallons is kept as 57 litres: near a whole number, the whole one is meant.
        let number =
            if number >= 5.0 && (number - number.round()).abs() < 0.1 { number.round() } else { number };
        let most = match number {
            small if small < 5.0 => 2,
            middle if middle < 20.0 => 1,
            _ => 0,
        };
        format!("{} {unit}", decimals(number, most))
    }

    pub(super) fn mass(&self, mass: Kilograms) -> String {
        if self.is_us() {
            format!("{} lb", decimals(mass.as_pounds(), 1))
        } else {
            format!("{} kg", decimals(mass.value(), 1))
        }
    }

    pub(super) fn length(&self, length: Metres) -> String {
        if self.is_us() {
            format!("{} ft", decimals((length.as_feet() * 2.0).round() / 2.0, 1))
        } else {
            format!("{} m", decimals(length.value(), 1))
        }
    }

    /// Mulch and compost.
    pub(super) fn thickness(&self, thickness: Metres) -> String {
        if self.is_us() {
            format!("{:.0} in", thickness.as_feet() * 12.0)
        } else {
            format!("{:.0} cm", thickness.value() * 100.0)
        }
    }

    pub(super) fn wind(&self, wind: MetresPerSecond) -> String {
        if self.is_us() { format!("{:.0} mph", wind.as_mph()) } else { format!("{:.0} km/h", wind.as_kmh()) }
    }

    /// Metallic copper on the ground, in the measure of the grower's labels and rules.
    pub(super) fn copper(&self, copper: GramsPerSquareMetre) -> String {
        if self.is_us() {
            format!("{:.1} lb per acre", copper.value() * POUNDS_AN_ACRE)
        } else {
            format!("{} g per square metre", decimals(copper.value(), 2))
        }
    }

    pub(super) fn rate(&self, rate: Rate) -> String {
        match rate {
            Rate::GramsPerLitre(grams) if self.is_us() => {
                format!("{} oz per gallon", decimals(grams * LITRES_A_GALLON / GRAMS_AN_OUNCE, 2))
            }
            Rate::MillilitresPerLitre(millilitres) if self.is_us() => {
                format!("{} per gallon", spoons(millilitres * LITRES_A_GALLON))
            }
            Rate::GramsPerLitre(grams) => format!("{} g per litre", decimals(grams, 2)),
            Rate::MillilitresPerLitre(millilitres) => {
                format!("{} mL per litre", decimals(millilitres, 2))
            }
        }
    }

    /// How much to weigh or measure out, with as many digits as a kitchen scale or a measuring spoon shows.
    pub(super) fn dose(&self, rate: Rate, amount: f64) -> String {
        let fine = |amount: f64| decimals(amount, if amount < 10.0 { 1 } else { 0 });
        match rate {
            Rate::GramsPerLitre(_) if self.is_us() => {
                format!("{} oz ({} g)", decimals(amount / GRAMS_AN_OUNCE, 2), fine(amount))
            }
            Rate::GramsPerLitre(_) => format!("{} g", fine(amount)),
            Rate::MillilitresPerLitre(_) if self.is_us() => {
                format!("{} ({} mL)", spoons(amount), fine(amount))
            }
            Rate::MillilitresPerLitre(_) => format!("{} mL", fine(amount)),
        }
    }
}

/// "½ tsp", "2 tbsp", "6 fl oz": to the nearest quarter of the measure a kitchen has.
fn spoons(millilitres: f64) -> String {
    let tablespoons = millilitres / MILLILITRES_A_TABLESPOON;
    if tablespoons < 0.95 {
        format!("{} tsp", quarters(tablespoons * 3.0))
    } else if tablespoons < 7.9 {
        format!("{} tbsp", quarters(tablespoons))
    } else {
        format!("{} fl oz", quarters(millilitres / MILLILITRES_A_FLUID_OUNCE))
    }
}

/// "3 days", "1 day", "2 entries", "4 leaves".
pub(super) fn count(number: i64, noun: &str) -> String {
    match (number, noun.strip_suffix('y')) {
        (1, _) => format!("1 {noun}"),
        (_, Some(stem)) if !stem.ends_with(['a', 'e', 'o', 'u']) => format!("{number} {stem}ies"),
        _ => match noun.strip_suffix("leaf") {
            Some(kind) => format!("{number} {kind}leaves"),
            None => format!("{number} {noun}s"),
        },
    }
}

/// Days as people count them; a part of a day is not said.
pub(super) fn days(days: Days) -> String {
    count(days.value().round() as i64, "day")
}

/// "40 minutes", "5 hours", "2 days".
pub(super) fn span(hours: Hours) -> String {
    match hours.value() {
        hours if hours < 0.1 => String::from("a few minutes"),
        hours if hours < 0.95 => count((hours * 12.0).round() as i64 * 5, "minute"),
        hours if hours < 47.5 => count(hours.round() as i64, "hour"),
        hours => count((hours / 24.0).round() as i64, "day"),
    }
}

pub(super) fn times(count: u32) -> String {
    match count {
        1 => String::from("once"),
        2 => String::from("twice"),
        count => format!("{count} times"),
    }
}

/// The course of rust over a season, against one that is heavy from the first day to the last.
pub(super) fn rust_course(share: Fraction) -> String {
    match share.as_percent() {
        percent if percent < 0.5 => String::from("no rust to speak of"),
        percent => format!("rust {percent:.0}% of the worst it could be"),
    }
}

/// Leaf area and the like: whole percent, and no decimals that pretend to more.
pub(super) fn percent(share: Fraction) -> String {
    match share.as_percent() {
        percent if percent > 0.0 && percent < 0.95 => String::from("under 1%"),
        percent => format!("{percent:.0}%"),
    }
}

/// A percentage the grower told, said back as it was told.
pub(super) fn percent_told(share: Fraction) -> String {
    format!("{}%", decimals(share.as_percent(), 1))
}

/// How much of its leaves a tree has that has lost none to speak of.
pub(super) const ALL_BUT_ALL: &str = "nearly all";

/// "40 to 60%" of the leaves, to the nearest five: a model of leaves and rust knows no better.
pub(super) fn leaves(span: Span) -> String {
    let fives = |share: Fraction| (share.as_percent() / 5.0).round() * 5.0;
    match (fives(span.low), fives(span.high)) {
        (95.0.., _) => String::from(ALL_BUT_ALL),
        (_, ..=5.0) => String::from("hardly any"),
        (low, high) if low == high => format!("about {low:.0}%"),
        (..=5.0, high) => format!("at most {high:.0}%"),
        (low, 100.0) => format!("{low:.0}% or more"),
        (low, high) => format!("{low:.0} to {high:.0}%"),
    }
}

/// A part in words, as far as a model of wash-off can be trusted.
pub(super) fn part(share: Fraction) -> &'static str {
    match share.value() {
        share if share >= 0.85 => "nearly all",
        share if share >= 0.65 => "about three quarters",
        share if share >= 0.45 => "about half",
        share if share >= 0.28 => "about a third",
        share if share >= 0.12 => "little",
        _ => "next to nothing",
    }
}

/// How much of a spray is left, as the end of a sentence; none at all reads like next to none.
pub(super) fn cover(share: Fraction) -> String {
    if part(share) == part(Fraction::NONE) {
        String::from("no spray to speak of is on the leaves")
    } else {
        format!("{} of the last spray is left", part(share))
    }
}

/// A number with at most so many decimals and no zeros it does not need, never "-0".
pub(super) fn decimals(number: f64, most: usize) -> String {
    let text = format!("{number:.most$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { String::from("0") } else { text.to_owned() }
}

/// "¼", "1½", "3": to the nearest quarter and never nothing.
fn quarters(number: f64) -> String {
    let quarters = (number * 4.0).round().max(1.0) as i64;
    let part = ["", "¼", "½", "¾"][(quarters % 4) as usize];
    match quarters / 4 {
        0 => part.to_owned(),
        whole => format!("{whole}{part}"),
    }
}

/// Whole below fifty, fives above: nobody measures out 83 litres.
fn coarse(number: f64) -> f64 {
    if number < 50.0 { number.round() } else { (number / 5.0).round() * 5.0 }
}

/// Rounded, and never "-0".
fn whole(number: f64) -> f64 {
    let rounded = number.round();
    if rounded == 0.0 { 0.0 } else { rounded }
}

#[cfg(test)]
mod tests;
