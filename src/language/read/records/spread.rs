//! What one clause tells for the others: a day, a spray, a sum.

use super::predicate::Predicate;
use super::{Memory, Part};
use crate::language::read::amounts::Amount;
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::Moment;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// "Picked 10, 4 from Celeste and 6 from Wall": the sum is told by its parts.
pub(super) fn drop_total(parts: &mut Vec<Part>) {
    let count = |part: &Part| {
        part.amounts
            .iter()
            .find_map(|measured| if let Amount::Count(count) = measured.amount { Some(count) } else { None })
    };
    let [first, rest @ ..] = parts.as_slice() else { return };
    let picked = |part: &&Part| part.predicate == Some(Predicate::Picked) && part.names_trees();
    let sum: f64 = rest.iter().take_while(picked).filter_map(count).sum();
    let total = first.predicate == Some(Predicate::Picked) && first.trees.is_empty();
    if total && sum > 0.0 && count(first) == Some(sum) {
        let moment = first.moment.clone();
        parts.remove(0);
        parts.iter_mut().for_each(|part| part.moment.completed_by(moment.clone()));
    }
}

/// A spray said of the first trees is that of the next, where none is said; "both copper" behind them is of all.
pub(super) fn spread_products(parts: &mut [Part], tokens: &[Token]) {
    let both = parts.last().filter(|last| last.late_products && last.any(tokens, words!("both all each")));
    if let Some(products) = both.map(|last| last.products.clone()) {
        for part in parts.iter_mut().filter(|part| part.predicate == Some(Predicate::Sprayed)) {
            if part.products.is_empty() {
                part.products.clone_from(&products);
            }
        }
    }
    for index in 1..parts.len() {
        let (before, after) = parts.split_at_mut(index);
        let (Some(last), Some(part)) = (before.last(), after.first_mut()) else { continue };
        if part.products.is_empty() && last.late_products && part.predicate == Some(Predicate::Sprayed) {
            part.products.clone_from(&last.products);
        }
    }
}

/// Said anew with a verb of its own.
fn has_verb(part: &Part, tokens: &[Token]) -> bool {
    part.clause(tokens).iter().any(|token| {
        token.senses.has_any(&[
            Sense::Sprayed,
            Sense::Applied,
            Sense::Watered,
            Sense::Picked,
            Sense::Seen,
            Sense::Be,
            Sense::Mine,
        ])
    })
}

/// "This morning sprayed copper and picked nine": a day said once is the day of all that follows; said at the
/// end, of all before. What a line above said holds for all below it.
pub(super) fn spread_moments(parts: &mut [Part], opening: &Moment, memory: &Memory, tokens: &[Token]) {
    let said: Vec<usize> = (0..parts.len()).filter(|index| parts[*index].moment.is_said()).collect();
    if opening.is_said() {
        for part in parts.iter_mut() {
            part.moment.completed_by(opening.clone());
        }
    } else if let [only] = said.as_slice() {
        let moment = parts[*only].moment.clone();
        let (only, at_end) = (*only, only + 1 == parts.len());
        let leads = moment.used.first().is_some_and(|first| *first <= 1);
        let predicate = parts[only].predicate;
        let marked = parts[only].marked;
        for (index, part) in parts.iter_mut().enumerate() {
            // "yesterday sprayed Wall and picked 9"; but "sprayed Wall yesterday, Corner is dry".
            let follows =
                index > only && (leads || !part.marked && part.predicate.is_some_and(Predicate::is_work));
            // "picked 9 off Celeste, 3 off Wall yesterday", "sprayed and picked yesterday"
            let work = part.predicate.is_some_and(Predicate::is_work);
            let precedes = index < only && at_end && (part.predicate == predicate || !marked && work);
            // "..., and picked 8 just now"
            let now = part.any(tokens, words!("now"));
            if now {
                continue;
            } else if index > only && part.predicate == predicate && !has_verb(part, tokens) {
                // "watered Celeste at 6, Whip got 1": the same work goes on.
                part.moment.completed_by(moment.clone());
            } else if index > only && part.any(tokens, words!("after afterwards afterward")) && part.pronoun {
                // "Did sulfur on the deck yesterday, watered them after"
                part.moment = moment.day_only();
            } else if follows && part.pronoun {
                // "Found Whip dry at noon so it got 2 quarts"
                part.moment.completed_by(moment.clone());
            } else if follows {
                part.moment = moment.day_only();
            } else if precedes {
                part.moment = moment.clone();
            }
        }
    }
    // "Got 8 off Celeste n 2 off Eave yesterday, watered both today": the picking, all of it.
    if said.len() > 1 {
        for at in (1..parts.len()).rev() {
            let [before, part] = &mut parts[at - 1..=at] else { continue };
            if part.moment.is_said()
                && !before.moment.is_said()
                && before.predicate == part.predicate
                && !has_verb(part, tokens)
            {
                before.moment = part.moment.clone();
            }
        }
    }
    if let Some(held) = &memory.held {
        for part in parts.iter_mut().filter(|part| part.predicate == Some(held.predicate)) {
            part.moment.completed_by(held.moment.clone());
        }
    }
    for part in parts.iter_mut() {
        // "Yesterday was a busy one. Sprayed in the morning ..."
        let told = if part.moment.is_said() { memory.moment.day_only() } else { memory.moment.clone() };
        part.moment.completed_by(told);
    }
}
