//! What is left of a spray on the leaves: wash-off, ageing, new leaves that never had any.

use chrono::{DateTime, TimeDelta, Utc};

use crate::units::{Days, Fraction, GramsPerSquareMetre, Hours, Litres, Millimetres, SquareMetres};
use crate::weather::Hour;

/// A spray that protects, as far as wash-off cares.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Protectant {
    /// A fixed copper: the first few millimetres take a loose part, the rest holds well.
    Copper,
    Sulfur,
    Other,
}

/// How a protectant wears.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wear {
    /// Rain that halves it (the firm part, for copper).
    pub half_rain: Millimetres,
    /// Time that halves it without rain. common practice.
    pub half_life: Days,
}

/// Rain that halves a protectant: the rule of thumb of 25 mm ([ONT20], [LDV]).
const HALF_RAIN: Millimetres = Millimetres::new(25.0);
/// Copper: 30 % loose, gone with e-folding 2.5 mm; the rest halves each 50 mm. Chosen to give 0.69 at 5 mm
/// and 0.50 at 25 mm, as [LDV] and [ONT20] have it.
const COPPER_LOOSE: f64 = 0.3;
const COPPER_LOOSE_RAIN: f64 = 2.5;
const COPPER_FIRM_HALF: f64 = 50.0;
/// Rain within two hours takes the deposit; within twelve some of it ([ONT20]).
const UNDRIED: TimeDelta = TimeDelta::hours(2);
const YOUNG: TimeDelta = TimeDelta::hours(12);
const LEFT_UNDRIED: f64 = 0.2;
const LEFT_YOUNG: f64 = 0.7;
/// Rain of an hour that counts as rain on a fresh deposit.
const WASHING_RAIN: Millimetres = Millimetres::new(1.0);
/// A shoot in warm weather opens a leaf in this time. common practice.
pub const LEAF_EVERY: Days = Days::new(4.5);

impl Protectant {
    /// # Source
    /// [ONT20] and [LDV] for rain; half-lives are common practice (copper 14 days, sulfur 8).
    pub fn wear(self) -> Wear {
        match self {
            Protectant::Copper => {
                Wear { half_rain: Millimetres::new(COPPER_FIRM_HALF), half_life: Days::new(14.0) }
            }
            Protectant::Sulfur => Wear { half_rain: HALF_RAIN, half_life: Days::new(8.0) },
            Protectant::Other => Wear { half_rain: HALF_RAIN, half_life: Days::new(10.0) },
        }
    }
}

/// One spray on a tree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deposit {
    pub at: DateTime<Utc>,
    pub protectant: Protectant,
}

/// What protects a tree at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    /// On the leaves that were there.
    pub on_sprayed_leaves: Fraction,
    /// Rain since the last spray, as far as known.
    pub rain: Millimetres,
    pub age: Days,
    /// Leaves a shoot has opened since, which have none.
    pub bare_leaves: f64,
}

/// Share of a protectant that rain leaves.
///
/// # Source
/// `2^(-R/25)` after [ONT20]; copper in two pools after [LDV].
pub fn after_rain(protectant: Protectant, rain: Millimetres) -> Fraction {
    let rain = rain.max(Millimetres::ZERO);
    let left = match protectant {
        Protectant::Copper => {
            let loose = COPPER_LOOSE * (-rain.value() / COPPER_LOOSE_RAIN).exp();
            loose + (1.0 - COPPER_LOOSE) * (-(rain / protectant.wear().half_rain)).exp2()
        }
        Protectant::Sulfur | Protectant::Other => (-(rain / protectant.wear().half_rain)).exp2(),
    };
    Fraction::saturating(left)
}

/// Share of a protectant that time leaves.
///
/// # Source
/// Halving by [`Protectant::wear`]; common practice.
pub fn after_time(protectant: Protectant, age: Days) -> Fraction {
    Fraction::saturating((-(age.max(Days::ZERO) / protectant.wear().half_life)).exp2())
}

/// The cover a deposit gives at a moment, with the hours between. Hours of unknown rain take nothing;
/// `None` before the spray.
///
/// # Source
/// As [`after_rain`] and [`after_time`]; losses of a fresh deposit [ONT20].
pub fn cover(deposit: Deposit, hours: &[Hour], now: DateTime<Utc>) -> Option<Cover> {
    if now < deposit.at {
        return None;
    }
    let since = || hours.iter().filter(|hour| hour.end() > deposit.at && hour.start < now);
    let rain: Millimetres = since().filter_map(|hour| hour.rain).sum();
    let rained_within = |span: TimeDelta| {
        since()
            .take_while(|hour| hour.start < deposit.at + span)
            .any(|hour| hour.rain.is_some_and(|rain| rain >= WASHING_RAIN))
    };
    let age = Hours::from_duration(now - deposit.at).as_days();
    let fresh = if rained_within(UNDRIED) {
        LEFT_UNDRIED
    } else if rained_within(YOUNG) {
        LEFT_YOUNG
    } else {
        1.0
    };
    let left =
        after_rain(deposit.protectant, rain).value() * after_time(deposit.protectant, age).value() * fresh;
    Some(Cover { on_sprayed_leaves: Fraction::saturating(left), rain, age, bare_leaves: age / LEAF_EVERY })
}

/// Metallic copper one spray lays down on the ground a canopy covers.
///
/// # Source
/// Arithmetic of volume, rate and content over area.
pub fn copper_laid(
    volume: Litres,
    grams_per_litre: f64,
    content: Fraction,
    canopy: SquareMetres,
) -> Option<GramsPerSquareMetre> {
    (canopy > SquareMetres::ZERO).then(|| {
        GramsPerSquareMetre::new(volume.value() * grams_per_litre * content.value() / canopy.value())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::weather::{Origin, Series};

    #[test]
    fn published() {
        // Ontario 2020, "Rainfastness of fungicides": 25 mm take about half, over 50 mm most.
        let rows = [(5.0, 0.871), (12.5, 0.707), (25.0, 0.5), (50.0, 0.25)];
        for (rain, want) in rows {
            let got = after_rain(Protectant::Sulfur, Millimetres::new(rain)).value();
            assert!((got - want).abs() < 0.001, "{rain} mm: {got}");
        }
        // Copper on vine: most of the loss in the first 5 mm, renewal at 25 mm (LDV trials).
        for (rain, want) in [(5.0, 0.694), (25.0, 0.495), (50.0, 0.35)] {
            let got = after_rain(Protectant::Copper, Millimetres::new(rain)).value();
            assert!((got - want).abs() < 0.002, "{rain} mm of rain on copper: {got}");
        }
        // Regulation (EU) 2018/1981: 28 kg/ha in 7 years is 0.4 g/m² a year.
        let yearly = 28_000.0 / 10_000.0 / 7.0;
        let spray = copper_laid(Litres::new(2.0), 2.0, Fraction::saturating(0.5), SquareMetres::new(4.0));
        assert_eq!(spray, Some(GramsPerSquareMetre::new(0.5)));
        assert!(spray.is_some_and(|spray| spray.value() > yearly));
    }

    fn dry_then(rain_at: i64, depth: f64) -> Series {
        Series::from_hours((0..72).map(|index| Hour {
            rain: Some(Millimetres::new(if index == rain_at { depth } else { 0.0 })),
            origin: Origin::Observed,
            ..Hour::unknown(DateTime::UNIX_EPOCH + TimeDelta::hours(index))
        }))
    }

    #[test]
    fn rain_on_a_fresh_spray_takes_more() {
        let deposit =
            Deposit { at: DateTime::UNIX_EPOCH + TimeDelta::hours(2), protectant: Protectant::Sulfur };
        let at = |rain_at| {
            let series = dry_then(rain_at, 5.0);
            cover(deposit, series.hours(), DateTime::UNIX_EPOCH + TimeDelta::hours(72))
                .map(|cover| cover.on_sprayed_leaves.value())
                .unwrap_or(f64::NAN)
        };
        let late = at(40);
        assert!((at(3) / late - 0.2).abs() < 1e-9);
        assert!((at(10) / late - 0.7).abs() < 1e-9);
        assert_eq!(cover(deposit, &[], DateTime::UNIX_EPOCH), None, "before the spray there is no cover");
    }
}
