//! Several trees and what is told of each of them, or of both.

use super::build::counts;
use super::predicate::Predicate;
use super::{Memory, Part};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::Selection;
use crate::season::selection::selected;

/// "Picked Wall and Corner, 12 and 5": each tree its number, where there are as many.
pub(super) fn one_each(speech: &Speech, part: &Part) -> Option<Vec<Part>> {
    let mut counts = counts(part);
    // "Picked Celeste and Eave, 6 each"
    let alike = part.any(speech.tokens, words!("each apiece"));
    let Some(Selection::Named(names)) = speech.names.selection(&part.trees, &[]) else { return None };
    if alike && counts.len() == 1 && names.len() > 1 {
        counts = vec![counts[0]; names.len()];
    }
    if counts.len() < 2 || counts.len() != names.len() || part.predicate != Some(Predicate::Picked) {
        return None;
    }
    let each = part.trees.one_by_one();
    (each.len() == counts.len()).then(|| {
        let of =
            |(trees, count): (_, f64)| Part { trees, amounts: vec![Measured::count(count)], ..part.clone() };
        each.into_iter().zip(counts).map(of).collect()
    })
}

/// "Corner lost leaves. Rust on Wall. Sprayed both.", "watered Celeste and Eave. No rust on either one"
pub(super) fn both_of(speech: &Speech, part: &Part, memory: &Memory) -> Option<Selection> {
    let named = part.trees.names_some() && !part.trees.is_vague();
    if named || !part.any(speech.tokens, words!("both either neither")) {
        return None;
    }
    // "Inspected the deck. No rust on either tree": where two stand on it.
    if let Some(group @ Selection::Group(_)) = memory.topic.as_ref().or(memory.last.as_ref())
        && selected(speech.context.garden, group).len() == 2
    {
        return Some(group.clone());
    }
    match (&memory.before_last, &memory.last) {
        (_, Some(selection @ Selection::Named(two))) if two.len() == 2 => Some(selection.clone()),
        (Some(Selection::Named(one)), Some(Selection::Named(other)))
            if one.len() == 1 && other.len() == 1 =>
        {
            Some(Selection::Named(vec![one[0].clone(), other[0].clone()]))
        }
        _ => None,
    }
}

/// "Picked 4 Wall 6 shed": the one that is known with its number, and the name that is not.
pub(super) fn one_and_a_stranger(speech: &Speech, part: &Part) -> Option<(Part, String)> {
    if part.predicate != Some(Predicate::Picked) || !part.trees.names_one_by_name() || counts(part).len() != 2
    {
        return None;
    }
    let clause = part.clause(speech.tokens);
    let mut counted = part.amounts.iter().filter(|measured| matches!(measured.amount, Amount::Count(_)));
    let (first, second) = (counted.next()?, counted.next()?);
    let name = clause.get(second.to).filter(|name| {
        name.is_word()
            && !name.senses.has_any(&[
                Sense::Fig,
                Sense::Unit,
                Sense::Time,
                Sense::Leaf,
                Sense::Tree,
                Sense::Link,
            ])
    })?;
    let behind = clause.get(second.to + 1).is_none_or(Token::is_mark);
    let led = clause.get(first.to).is_some_and(|next| !next.is_mark());
    let at = part.range.start + second.to;
    let apart = !speech.mentions.iter().any(|mention| mention.range.contains(&at));
    (behind && led && apart && !name.is_any(words!("today total each more ripe now so"))).then(|| {
        let known = Part { amounts: vec![first.clone()], ..part.clone() };
        (known, speech.typed(at, at + 1).to_owned())
    })
}
