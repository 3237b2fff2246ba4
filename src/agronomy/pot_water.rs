//! Water in a pot: how much it holds, how fast it goes, when to water and how much.

use std::f64::consts::FRAC_PI_4;

use crate::units::{Days, Fraction, Kilograms, Litres, Metres, Millimetres, MillimetresPerDay, SquareMetres};

/// A potted fig as the model sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pot {
    pub volume: Litres,
    /// Part of the volume that is water a plant can take up.
    pub available: Fraction,
    /// Mean diameter of the crown.
    pub width: Metres,
    /// Evaporation of crown and pot over that of grass.
    pub coefficient: f64,
    /// Part of the crown's leaves still there.
    pub leaves: Fraction,
    pub cover: TopCover,
    /// What weighing or the grower's finger made of the modelled use: 1 is as modelled.
    pub correction: Correction,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TopCover {
    Bare,
    /// Bark or straw on the pot.
    Mulched,
}

/// How much more (above 1) or less a pot uses than modelled. Kept within bounds: one report is one finger.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Correction(f64);

impl Correction {
    pub const NONE: Correction = Correction(1.0);
    const LEAST: f64 = 0.5;
    const MOST: f64 = 2.0;

    pub fn value(self) -> f64 {
        self.0
    }

    /// The use that would have emptied the pot to `seen` where the model had `modelled`, over the modelled use.
    /// Nothing to learn when the model had used next to nothing yet.
    ///
    /// # Source
    /// Arithmetic; the bounds are common practice.
    pub fn learned(modelled: Fraction, seen: Fraction) -> Correction {
        const LEAST_USE: f64 = 0.1;
        let used = 1.0 - modelled.value();
        if used < LEAST_USE {
            return Correction::NONE;
        }
        Correction(((1.0 - seen.value()) / used).clamp(Self::LEAST, Self::MOST))
    }
}

/// Available water by mix: coarse bark, ordinary, peat ([YEA13], 25 to 35 %, the lower end for bark).
pub const COARSE_BARK: Fraction = percent(20.0);
pub const ORDINARY: Fraction = percent(25.0);
pub const PEAT: Fraction = percent(30.0);
/// Evaporation over grass: sheltered, usual, isolated on hot paving. common practice; check by weighing.
pub const SHELTERED: f64 = 0.7;
pub const USUAL: f64 = 0.85;
pub const HOT_PAVING: f64 = 1.2;
/// Part of the available water that may go before watering. common practice, 40 to 50 %.
pub const DEPLETION: Fraction = percent(50.0);
/// Part of an application that should run out below. common practice, 10 to 20 % ([VT128] for the method).
pub const LEACHING: Fraction = percent(15.0);
/// The least a bare pot of 11.4 L loses ([BEE10]); scaled to other sizes by their surface.
const BARE_POT_LOSS: f64 = 0.16;
const BARE_POT_VOLUME: f64 = 11.4;
/// What mulch saves of the use ([SOU14], 12 % in the field; taken over for pots).
const MULCH_SAVES: f64 = 0.12;
/// Rain a leafy crown keeps from the pot. common practice, 0.3 to 0.6.
pub const INTERCEPTION: Fraction = percent(45.0);

const fn percent(percent: f64) -> Fraction {
    match Fraction::new_const(percent / 100.0) {
        Some(fraction) => fraction,
        None => Fraction::NONE,
    }
}

/// Water a freshly watered pot can give.
///
/// # Source
/// [YEA13]: volume times available water.
pub fn capacity(pot: &Pot) -> Litres {
    pot.volume * pot.available.value()
}

/// Capacity from two weighings, freshly watered and about to wilt: a kilogram is a litre.
///
/// # Source
/// Arithmetic.
pub fn weighed_capacity(wet: Kilograms, dry: Kilograms) -> Option<Litres> {
    (wet > dry).then(|| Litres::new((wet - dry).value()))
}

/// Litres a pot loses on a day of this reference evaporation.
///
/// # Source
/// [BEE10] for the floor; crown area times evaporation times a coefficient is common practice.
pub fn use_a_day(pot: &Pot, evaporation: MillimetresPerDay) -> Litres {
    let crown = SquareMetres::new(FRAC_PI_4 * pot.width.value() * pot.width.value());
    let depth = evaporation.during(Days::new(1.0)) * pot.coefficient * pot.leaves.value();
    let saving = if pot.cover == TopCover::Mulched { 1.0 - MULCH_SAVES } else { 1.0 };
    let floor = Litres::new(BARE_POT_LOSS * (pot.volume.value() / BARE_POT_VOLUME).powf(2.0 / 3.0));
    (depth.over(crown) * saving).max(floor) * pot.correction.0
}

/// Days from full until it is time to water, at a steady use.
///
/// # Source
/// Capacity times [`DEPLETION`] over use.
pub fn days_until_watering(pot: &Pot, use_a_day: Litres) -> Option<Days> {
    (use_a_day > Litres::ZERO).then(|| Days::new(capacity(pot) * DEPLETION.value() / use_a_day))
}

/// Litres to apply to make good a loss, some of it running through.
///
/// # Source
/// [VT128]: applied = needed / (1 - leaching fraction).
pub fn to_apply(lost: Litres) -> Litres {
    lost / (1.0 - LEACHING.value())
}

/// Rain that reaches the pot through its rim.
///
/// # Source
/// Rim area times depth; interception is common practice.
pub fn rain_caught(rim: Metres, rain: Millimetres, interception: Fraction) -> Litres {
    let area = SquareMetres::new(FRAC_PI_4 * rim.value() * rim.value());
    rain.over(area) * interception.complement().value()
}

/// A pot's rim, taken as high as wide where only its volume is known.
///
/// # Source
/// Geometry of a cylinder.
pub fn rim_of(volume: Litres) -> Metres {
    Metres::new((volume.value() / 1000.0 / FRAC_PI_4).cbrt())
}

/// A crown's width where only the pot is known. common practice: about 0.6 m on 11 L, 0.9 on 38, 1.2 on 95.
///
/// # Source
/// common practice.
pub fn usual_width(volume: Litres) -> Metres {
    Metres::new(0.27 * volume.value().cbrt())
}

/// Times a day to water: once, or morning and evening when a day takes more than the pot may lose.
///
/// # Source
/// common practice.
pub fn times_a_day(pot: &Pot, use_a_day: Litres) -> u32 {
    match days_until_watering(pot, use_a_day) {
        Some(days) if days.value() < 0.5 => 3,
        Some(days) if days.value() < 1.0 => 2,
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pot() -> Pot {
        Pot {
            volume: Litres::new(38.0),
            available: ORDINARY,
            width: Metres::new(1.0),
            coefficient: USUAL,
            leaves: Fraction::WHOLE,
            cover: TopCover::Bare,
            correction: Correction::NONE,
        }
    }

    fn check(what: &str, got: f64, want: f64, tolerance: f64) {
        assert!((got - want).abs() <= tolerance, "{what}: {got} is not {want}");
    }

    #[test]
    fn published() {
        let pot = pot();
        let used = use_a_day(&pot, MillimetresPerDay::new(5.0));
        check("capacity", capacity(&pot).value(), 9.5, 0.01);
        check("allowed loss", (capacity(&pot) * DEPLETION.value()).value(), 4.75, 0.01);
        check("use", used.value(), 3.34, 0.02);
        check("days", days_until_watering(&pot, used).map_or(f64::NAN, Days::value), 1.42, 0.02);
        check("applied", to_apply(used).value(), 3.93, 0.02);
        check(
            "rain",
            rain_caught(Metres::new(0.45), Millimetres::new(10.0), Fraction::NONE).value(),
            1.59,
            0.01,
        );
        // Beeson 2010 and 2012, shrubs in 11.4 L pots in Florida: 0.16 L a day bare, 1.3 L at market size.
        let bare = Pot { volume: Litres::new(11.4), leaves: Fraction::NONE, ..pot };
        check("bare pot", use_a_day(&bare, MillimetresPerDay::new(5.0)).value(), 0.16, 0.001);
        let shrub = Pot { volume: Litres::new(11.4), width: Metres::new(0.6), ..pot };
        check("market size", use_a_day(&shrub, MillimetresPerDay::new(5.0)).value(), 1.3, 0.15);
    }

    #[test]
    fn what_the_grower_finds_corrects_the_use_within_bounds() {
        let share = |percent| Fraction::from_percent(percent).expect("a share");
        let rows =
            [(60.0, 20.0, 2.0), (60.0, 60.0, 1.0), (60.0, 100.0, 0.5), (95.0, 0.0, 1.0), (50.0, 25.0, 1.5)];
        for (modelled, seen, want) in rows {
            check("correction", Correction::learned(share(modelled), share(seen)).value(), want, 1e-9);
        }
    }

    #[test]
    fn weighings_that_make_no_sense_are_refused() {
        assert_eq!(weighed_capacity(Kilograms::new(20.0), Kilograms::new(20.0)), None);
        assert_eq!(weighed_capacity(Kilograms::new(28.0), Kilograms::new(19.0)), Some(Litres::new(9.0)));
    }
}
