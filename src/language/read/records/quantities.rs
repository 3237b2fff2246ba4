//! How much a clause tells of what it reports, within what can be.

use super::Part;
use super::predicate::Predicate;
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, bare_depth, bare_temperature};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::MoistureState;
use crate::season::request::DoubtKind;
use crate::season::selection::selected;
use crate::units::{Celsius, Kilograms, Litres, Millimetres};

/// More than these nobody sees in one report: a slip of the thumb.
pub(in crate::language::read) const MOST_RAIN: Millimetres = Millimetres::new(400.0);
pub(in crate::language::read) const MOST_FIGS: f64 = 1500.0;
pub(super) const MOST_FRUIT: Kilograms = Kilograms::new(100.0);
const MOST_WATER: Litres = Litres::new(800.0);
pub(super) const MOST_WEIGHT: Kilograms = Kilograms::new(400.0);
const COLDEST: Celsius = Celsius::new(-45.0);
const WARMEST_FROST: Celsius = Celsius::new(6.0);

pub(super) fn volume(speech: &Speech, part: &Part) -> Result<Option<Litres>, DoubtKind> {
    let volume = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Volume(volume) => Some(volume),
        _ => None,
    });
    let volume = within(volume, Litres::ZERO, MOST_WATER)?;
    // "10 gallons in all": shared out over the trees.
    let total = part.any(speech.tokens, words!("total altogether between among"))
        || part.pair(speech.tokens, words!("in"), words!("all"));
    let share = match speech.names.selection(&part.trees, &[]) {
        Some(selection) if total && part.predicate == Some(Predicate::Watered) => {
            selected(speech.context.garden, &selection).len().max(1) as f64
        }
        _ => 1.0,
    };
    Ok(volume.map(|volume| volume / share))
}

pub(super) fn depth(part: &Part) -> Result<Option<Millimetres>, DoubtKind> {
    let depth = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Depth(depth) => Some(depth),
        _ => None,
    });
    within(depth, Millimetres::ZERO, MOST_RAIN)
}

pub(super) fn mass(part: &Part, most: Kilograms) -> Result<Option<Kilograms>, DoubtKind> {
    let mass = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Mass(mass) => Some(mass),
        _ => None,
    });
    within(mass, Kilograms::ZERO, most)
}

fn within<T: PartialOrd>(amount: Option<T>, least: T, most: T) -> Result<Option<T>, DoubtKind> {
    match amount {
        Some(amount) if amount < least || amount > most => Err(DoubtKind::ImpossibleAmount),
        amount => Ok(amount),
    }
}

pub(super) fn weighing_state(clause: &[Token]) -> MoistureState {
    // "Haven't watered yet"
    let unwatered = clause.windows(2).any(|pair| {
        pair[0].is_any(words!("haven't hasn't hadn't not unwatered")) && pair[1].senses.has(Sense::Watered)
    });
    if unwatered || clause.iter().any(|token| token.senses.has(Sense::Dry) || token.is("before")) {
        MoistureState::Dry
    } else if clause.iter().any(|token| token.senses.has(Sense::Moist)) {
        MoistureState::Moist
    } else {
        MoistureState::Wet
    }
}

pub(super) fn rain(speech: &Speech, part: &Part) -> Result<Option<Millimetres>, DoubtKind> {
    let units = speech.context.garden.units;
    let depth = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Depth(depth) => Some(depth),
        Amount::Length(metres) => Some(Millimetres::new(metres * 1000.0)),
        // Litres on a square metre are millimetres.
        Amount::Volume(litres) => Some(Millimetres::new(litres.value())),
        _ => None,
    });
    let bare = part.amounts.iter().find_map(|measured| match measured.amount {
        // "Two drops of rain"
        Amount::Count(_) if part.any(speech.tokens, words!("drops drop times showers storms")) => None,
        Amount::Count(count) => Some(bare_depth(count, units)),
        _ => None,
    });
    let empty = part.any(speech.tokens, words!("empty dry nothing zero none nada nil"))
        || part.any(speech.tokens, words!("no")) && part.senses.has(Sense::Gauge);
    let depth = depth.or(bare).or(empty.then_some(Millimetres::ZERO));
    within(depth, Millimetres::ZERO, MOST_RAIN)
}

pub(super) fn count(part: &Part) -> Result<Option<u32>, DoubtKind> {
    if super::build::counts(part).len() > 1 {
        return Err(DoubtKind::HowMuch);
    }
    if part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Count(count) if count < 0.0)) {
        return Err(DoubtKind::ImpossibleAmount);
    }
    let count = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Count(count) if count >= 1.0 || count == 0.0 => Some(count),
        _ => None,
    });
    match count {
        Some(count) if !(0.0..=MOST_FIGS).contains(&count) || count.fract() != 0.0 => {
            Err(DoubtKind::ImpossibleAmount)
        }
        Some(count) => Ok(Some(count as u32)),
        // "The first fig", "a ripe fig"
        None => Ok(part.one_fig.then_some(1)),
    }
}

pub(super) fn minimum(speech: &Speech, part: &Part) -> Result<Option<Celsius>, DoubtKind> {
    let minimum = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Temperature(temperature) => Some(temperature),
        // "Low of 80" is of the day, not of the frost.
        Amount::Count(count) => {
            Some(bare_temperature(count, speech.context.garden.units)).filter(|bare| *bare <= WARMEST_FROST)
        }
        _ => None,
    });
    within(minimum, COLDEST, WARMEST_FROST)
}
