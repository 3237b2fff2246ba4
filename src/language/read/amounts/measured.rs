//! What can be made of an amount once it is read: more of it, another unit, one told for all.

use super::{Amount, Measured, share};
use crate::units::{Kilograms, Litres, Millimetres};

impl Measured {
    /// A count told elsewhere.
    pub(in crate::language::read) fn count(count: f64) -> Self {
        Self { amount: Amount::Count(count), from: usize::MAX, to: usize::MAX, scale: None }
    }
    /// It stands in the clause itself.
    pub(in crate::language::read) fn is_in_place(&self) -> bool {
        self.from != usize::MAX
    }

    /// "Gave Celeste 2 gallons and Eave 1": a bare number takes the unit told just before.
    pub(in crate::language::read) fn in_the_measure_of(&self, before: &[Measured]) -> Measured {
        let Amount::Count(count) = self.amount else { return self.clone() };
        if count == 0.0 {
            return self.clone();
        }
        let measured = before.iter().find_map(|told| match (told.amount, told.scale) {
            (Amount::Volume(_), Some(litres)) => {
                Some((Amount::Volume(Litres::new(count * litres)), told.scale))
            }
            (Amount::Mass(_), Some(kilograms)) => {
                Some((Amount::Mass(Kilograms::new(count * kilograms)), told.scale))
            }
            (Amount::Share(_) | Amount::Impossible, _) => Some((share(count), None)),
            (Amount::Class(_), _) => Some((Amount::Class(count), None)),
            _ => None,
        });
        let (amount, scale) = measured.unwrap_or((self.amount, self.scale));
        Measured { amount, scale, ..self.clone() }
    }

    /// One of a unit of so many litres, told in a heading.
    pub(in crate::language::read) fn of_unit(litres: f64) -> Measured {
        Measured {
            amount: Amount::Volume(Litres::new(litres)),
            from: usize::MAX,
            to: usize::MAX,
            scale: Some(litres),
        }
    }

    /// A bare number takes a "percent" told for all.
    pub(in crate::language::read) fn take_percent(&mut self) {
        if let Amount::Count(count) = self.amount {
            self.amount = share(count);
        }
    }

    /// A bare number takes a unit told for all, in litres.
    pub(in crate::language::read) fn take_unit(&mut self, litres: f64) {
        if let Amount::Count(count) = self.amount
            && count > 0.0
        {
            self.amount = Amount::Volume(Litres::new(count * litres));
            self.scale = Some(litres);
        }
    }

    /// "Twice that"; only what is measured or counted can be more or less.
    pub(in crate::language::read) fn times(&self, factor: f64) -> Option<Measured> {
        let amount = match self.amount {
            Amount::Volume(volume) => Amount::Volume(Litres::new(volume.value() * factor)),
            Amount::Mass(mass) => Amount::Mass(Kilograms::new(mass.value() * factor)),
            Amount::Depth(depth) => Amount::Depth(Millimetres::new(depth.value() * factor)),
            Amount::Count(count) => Amount::Count(count * factor),
            Amount::Share(part) => share(part.as_percent() * factor),
            _ => return None,
        };
        Some(Measured { amount, from: usize::MAX, to: usize::MAX, scale: self.scale })
    }

    /// Both measure the same kind of thing.
    pub(in crate::language::read) fn is_like(&self, other: &Measured) -> bool {
        std::mem::discriminant(&self.amount) == std::mem::discriminant(&other.amount)
    }

    /// Taken over from another clause: its places mean nothing here.
    pub(in crate::language::read) fn set_apart(&mut self) {
        self.from = usize::MAX;
        self.to = usize::MAX;
    }
}
