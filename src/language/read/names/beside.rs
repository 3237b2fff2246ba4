//! What stands beside a name and tells whether trees are meant by it.

use super::determiners::quantity;
use super::mentions::Mention;
use super::trees::{Label, Part};
use super::{Call, Kind, is_unknown};
use crate::language::read::lexicon::{self, Sense};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// A number that counts or measures, and is no time of day.
pub(super) fn is_count(tokens: &[Token], at: usize) -> bool {
    let timed = at > 0 && tokens[at - 1].is_any(words!("at around about by since before after : ~"))
        || tokens.get(at + 1).is_some_and(|next| next.is_any(words!("am pm : o'clock a p this")));
    tokens[at].number.is_some() && !timed
}

/// "The wall heater", "corner store": a nickname that is a word of the language too, before a noun that is no
/// tree's.
pub(super) fn is_common_word(tokens: &[Token], text: &str, at: usize, count: usize, call: &Call) -> bool {
    let capital = at > 0
        && text.get(tokens[at].span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase));
    if capital {
        return false;
    }
    let common = call.kind == Kind::Nickname && call.words.iter().all(|word| lexicon::is_known(word));
    // "Framed up a wall all day", where a tree is called Wall.
    let any_one = at > 0
        && tokens[at - 1].is_any(words!("a another"))
        && !tokens.get(at + count).is_some_and(|next| next.senses.has_any(&[Sense::Tree, Sense::Fig]));
    if common && any_one {
        return true;
    }
    let next = tokens.get(at + count);
    // "The northeast corner of the lot"
    let of_place = next.is_some_and(|next| next.is("of"))
        || at > 0
            && tokens[at - 1].is_any(words!(
                "northeast northwest southeast southwest north south east west far back left right street"
            ));
    if common && of_place && call.words.iter().any(|word| word == "corner") {
        return true;
    }
    // "They're on the deck floor"
    if next.is_some_and(|next| next.is_any(words!("floor boards rail railing steps stairs table chair door")))
    {
        return true;
    }
    common
        && next.is_some_and(|next| {
            let noun = tokens
                .get(at + count + 1)
                .is_none_or(|after| after.is_mark() || after.senses.has_any(&[Sense::Link, Sense::Be]));
            is_unknown(next) && noun && !next.text.ends_with("ing")
                || next.senses.has_any(&[Sense::Metal, Sense::Elsewhere, Sense::Creature])
                    && !next.senses.has(Sense::Drop)
        })
}

/// "30 Brown Turkeys off Wall": so many figs of a kind, off a tree named behind.
pub(super) fn is_fruit(tokens: &[Token], at: usize, mention: &Mention) -> bool {
    let counted = at > 0 && tokens[at - 1].number.is_some_and(|number| number >= 1.0);
    let named = mention.trees.parts.iter().all(|part| part.label == Label::Named);
    counted && named && tokens.get(mention.range.end).is_some_and(|next| next.is_any(words!("off from")))
}

/// "... only got the drips", "... barely had any".
pub(super) fn only_got(tokens: &[Token], at: usize) -> bool {
    let is = |at: usize, texts| tokens.get(at).is_some_and(|token: &Token| token.is_any(texts));
    is(at, words!("only barely just hardly")) && is(at + 1, words!("got get had has"))
}

/// A mention with the words that say how many: "the two by the wall" counts no figs.
pub(super) fn start_with_quantity(
    tokens: &[Token],
    at: usize,
    mention: &Mention,
    before: Option<&Mention>,
) -> usize {
    let group =
        mention.trees.parts.first().is_some_and(|part| part.label != Label::Named || part.trees.len() > 1);
    let counted = group && quantity(tokens, mention.range.start).is_some();
    let earliest = before.map_or(0, |before| before.range.end).max(at.saturating_sub(4));
    if !counted || tokens[at].senses.has(Sense::But) || tokens[at].is("not") {
        return at;
    }
    (earliest..at)
        .rev()
        .find(|index| tokens[*index].number.is_some() || tokens[*index].is_any(words!("both one some few")))
        .unwrap_or(at)
}

/// A word of a name, perhaps misspelt.
pub(super) fn matches_first(word: &str, typed: &str) -> bool {
    typed.starts_with(word) || strsim::damerau_levenshtein(word, typed) <= 2
}

/// "All four pots: Celeste has some, the other three none": the others of those, by their number.
pub(super) fn rest_of_group(tokens: &[Token], mentions: &mut [Mention]) {
    for at in 1..mentions.len() {
        let (before, rest) = mentions.split_at_mut(at);
        let [Part { label: Label::Rest, trees, .. }] = rest[0].trees.parts.as_mut_slice() else { continue };
        let count = tokens[rest[0].range.clone()].iter().find_map(|token| token.number);
        let group = before.iter().flat_map(|mention| &mention.trees.parts).find(|part| {
            matches!(part.label, Label::Group(_))
                && count.is_some_and(|count| count < part.trees.len() as f64)
        });
        if let Some(group) = group.filter(|_| trees.is_empty()) {
            trees.clone_from(&group.trees);
        }
    }
}

/// "... and the porch tree", "the back fence tree": where the name of a tree nobody knows ends.
pub(super) fn tree_behind(tokens: &[Token], next: usize) -> Option<usize> {
    let noun = (next + 1..=next + 2).find(|at| {
        tokens.get(*at).is_some_and(|tree| tree.is_any(words!("tree fig bush")))
            && tokens[next..*at].iter().all(|word| word.is_word() && word.number.is_none())
    })?;
    tokens.get(noun + 1).is_none_or(Token::is_mark).then_some(noun + 1)
}
