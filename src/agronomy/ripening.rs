//! Heat and the ripening of figs.

use crate::units::{Celsius, Days, DegreeDays, Fraction};

/// Base and cap of the heat that counts for figs ([SOU09]).
pub const BASE: Celsius = Celsius::new(8.0);
pub const CAP: Celsius = Celsius::new(36.0);
/// Heat from fruit set to ripeness: 90 days at a mean of 22 °C. An estimate, 1000 to 1600; a tree's own record
/// beats it ([FLA08] for the days, from memory, not re-read).
pub const SET_TO_RIPE: DegreeDays = DegreeDays::new(1260.0);
pub const SET_TO_RIPE_RANGE: (DegreeDays, DegreeDays) = (DegreeDays::new(1000.0), DegreeDays::new(1600.0));
/// Part of that heat gone by when the last swell begins: 90 days less 10 to 28 (stage III) [FLA08].
pub const SWELLING_AT: Fraction = match Fraction::new_const(0.80) {
    Some(part) => part,
    None => Fraction::NONE,
};
/// Colour and softness follow within days. common practice.
pub const RIPENING_AT: Fraction = match Fraction::new_const(0.93) {
    Some(part) => part,
    None => Fraction::NONE,
};
/// Growth nearly stops in days of a mean below this. common practice, 13 to 15 °C.
pub const STALLS_BELOW: Celsius = Celsius::new(14.0);

/// Whether a crop will ripen before the cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outlook {
    Likely,
    Possible,
    Doubtful,
    No,
}

/// Heat of a day above the base, with the day's maximum cut at the cap and its minimum raised to the base.
///
/// # Source
/// [SOU09]: base 8, cap 36 °C.
pub fn degree_days(maximum: Celsius, minimum: Celsius) -> DegreeDays {
    let high = maximum.min(CAP).max(BASE).value();
    let low = minimum.max(BASE).value();
    DegreeDays::new((f64::midpoint(high, low) - BASE.value()).max(0.0))
}

/// Heat a tree's fruit needs, from the heat its own fruit took once; kept within the published range.
///
/// # Source
/// Arithmetic, bounded by [`SET_TO_RIPE_RANGE`].
pub fn calibrated(heat_taken: DegreeDays) -> DegreeDays {
    let (least, most) = SET_TO_RIPE_RANGE;
    heat_taken.max(least).min(most)
}

/// The outlook from the heat still to come over the heat still needed.
///
/// # Source
/// Grades of the ratio (0.7, 1, 1.3) are common practice.
pub fn outlook(to_come: DegreeDays, needed: DegreeDays) -> Outlook {
    if needed <= DegreeDays::ZERO {
        return Outlook::Likely;
    }
    match to_come / needed {
        ratio if ratio > 1.3 => Outlook::Likely,
        ratio if ratio >= 1.0 => Outlook::Possible,
        ratio if ratio >= 0.7 => Outlook::Doubtful,
        _ => Outlook::No,
    }
}

/// Days a sum of heat takes at a steady daily one.
///
/// # Source
/// Arithmetic.
pub fn days_for(heat: DegreeDays, a_day: DegreeDays) -> Option<Days> {
    (a_day > DegreeDays::ZERO).then(|| Days::new(heat / a_day))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published() {
        // Souza et al. 2009, base 8 and cap 36 °C; the floor at the base is ours.
        for (maximum, minimum, want) in
            [(30.0, 18.0, 16.0), (40.0, 22.0, 21.0), (20.0, 6.0, 6.0), (7.0, 2.0, 0.0)]
        {
            assert_eq!(degree_days(Celsius::new(maximum), Celsius::new(minimum)).value(), want);
        }
        // 90 days at a mean of 22 °C.
        let day = degree_days(Celsius::new(27.0), Celsius::new(17.0));
        assert_eq!((day * 90.0).value(), SET_TO_RIPE.value());
    }

    #[test]
    fn outlooks_at_their_limits() {
        let grade = |to_come: f64| outlook(DegreeDays::new(to_come), DegreeDays::new(100.0));
        assert_eq!(grade(131.0), Outlook::Likely);
        assert_eq!(grade(130.0), Outlook::Possible);
        assert_eq!(grade(99.0), Outlook::Doubtful);
        assert_eq!(grade(69.0), Outlook::No);
        assert_eq!(outlook(DegreeDays::ZERO, DegreeDays::ZERO), Outlook::Likely);
        assert_eq!(calibrated(DegreeDays::new(400.0)), SET_TO_RIPE_RANGE.0);
    }
}
