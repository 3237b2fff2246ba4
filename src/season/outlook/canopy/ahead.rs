//! A spray as it wears in the days ahead, and when it is renewed.

use crate::agronomy::canopy::Protection;
use crate::agronomy::cover::{Cover, Protectant, after_rain, after_time};
use crate::units::{Days, Fraction, Millimetres};

/// What is sprayed from today on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Sprays {
    NoMore,
    /// Renewed after so many days, or once so much rain has washed it off.
    Every {
        protectant: Protectant,
        days: Days,
        washed_off: Millimetres,
    },
}

/// A spray on the leaves on some day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Laid {
    protectant: Protectant,
    rain: Millimetres,
    age: Days,
    /// What rain on the fresh deposit left of it.
    held: Fraction,
}

impl Sprays {
    /// What is on the leaves the day after, with the rain of that day.
    pub(super) fn next(self, laid: Option<Laid>, rain: Millimetres) -> Option<Laid> {
        let older = laid.map(|laid| Laid { rain: laid.rain + rain, age: laid.age + Days::new(1.0), ..laid });
        match self {
            Sprays::NoMore => older,
            Sprays::Every { protectant, days, washed_off } => {
                let fresh =
                    Laid { protectant, rain: Millimetres::ZERO, age: Days::ZERO, held: Fraction::WHOLE };
                Some(older.filter(|laid| laid.age < days && laid.rain < washed_off).unwrap_or(fresh))
            }
        }
    }
}

impl Laid {
    /// A spray on record, by its cover now.
    pub(super) fn found(protectant: Protectant, cover: Cover) -> Self {
        let whole = Laid { protectant, rain: cover.rain, age: cover.age, held: Fraction::WHOLE };
        let worn = whole.protection().cover.value();
        let held = if worn > 0.0 { cover.on_sprayed_leaves.value() / worn } else { 0.0 };
        Laid { held: Fraction::saturating(held), ..whole }
    }

    pub(super) fn protection(self) -> Protection {
        let left = after_rain(self.protectant, self.rain).of(after_time(self.protectant, self.age));
        Protection { cover: left.of(self.held), age: self.age }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sprays_are_renewed_at_their_interval() {
        let every = Sprays::Every {
            protectant: Protectant::Copper,
            days: Days::new(12.0),
            washed_off: Millimetres::new(50.0),
        };
        let mut laid = None;
        let ages: Vec<f64> = (0..26)
            .map(|_| {
                laid = every.next(laid, Millimetres::new(2.0));
                laid.map_or(f64::NAN, |laid| laid.age.value())
            })
            .collect();
        let want: Vec<f64> = (0..26).map(|day| f64::from(day % 12)).collect();
        assert_eq!(ages, want);
        // Ten days of 5 mm wash it off before its time.
        let washed = (0..12).fold(None, |laid, _| every.next(laid, Millimetres::new(5.0)));
        assert_eq!(washed.map(|laid| laid.age), Some(Days::new(1.0)));
        assert_eq!(Sprays::NoMore.next(None, Millimetres::ZERO), None);
    }

    #[test]
    fn a_spray_on_record_wears_on_from_what_is_left_of_it() {
        let cover = Cover {
            on_sprayed_leaves: Fraction::saturating(0.14),
            rain: Millimetres::new(25.0),
            age: Days::new(8.0),
            bare_leaves: 2.0,
        };
        // Sulfur halves with 25 mm and with 8 days: of 0.25 rain on the fresh deposit left 0.14.
        let laid = Laid::found(Protectant::Sulfur, cover);
        assert!((laid.protection().cover.value() - 0.14).abs() < 1e-9);
        let mut later = Some(laid);
        for _ in 0..8 {
            later = Sprays::NoMore.next(later, Millimetres::ZERO);
        }
        assert!(later.is_some_and(|laid| (laid.protection().cover.value() - 0.07).abs() < 1e-9));
    }
}
