//! Trees put somewhere else: into a pot of a size, into the ground, into a group.

use super::any;
use super::trees::group;
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::words;
use crate::season::request::{Potted, Selection, TreeDetails};

/// "Put Whip in the deck group", "add Whip to the front group".
pub(super) fn put_in_group(speech: &Speech) -> Option<TreeDetails> {
    const MOST_WORDS: usize = 9;
    let tokens = speech.tokens;
    let verb = tokens.first().is_some_and(|first| first.is_any(words!("put add move")));
    let tree = speech.mentions.first().filter(|mention| mention.range.start == 1)?;
    let Some(Selection::Named(names)) = speech.names.selection(&tree.trees, &[]) else { return None };
    let [name] = names.as_slice() else { return None };
    let group = group(speech, &tokens[tree.range.end..])?;
    (verb && tokens.len() <= MOST_WORDS).then(|| TreeDetails {
        name: name.clone(),
        groups: vec![group],
        ..TreeDetails::default()
    })
}

/// "put Whip in the ground", "moved Whip into the ground".
pub(super) fn put_in_ground(speech: &Speech) -> Option<TreeDetails> {
    let tokens = speech.tokens;
    let verb = tokens.iter().take(2).any(|token| token.is_any(words!("put moved transplanted")));
    let ground = tokens.windows(2).any(|pair| pair[0].is_any(words!("the in")) && pair[1].is("ground"))
        && any(tokens, words!("in into"));
    let one = speech.context.garden.trees.iter().find(|tree| {
        speech.mentions.first().and_then(|mention| speech.names.selection(&mention.trees, &[]))
            == Some(Selection::Named(vec![tree.name.clone()]))
    })?;
    let short = tokens.len() <= 7;
    (verb && ground && short).then(|| TreeDetails {
        name: one.name.clone(),
        potted: Some(Potted::InGround),
        ..TreeDetails::default()
    })
}

/// "Repotted Whip, it's in a 15 gallon pot now": its new size.
pub(super) fn put_in_pot(speech: &Speech) -> Option<TreeDetails> {
    const MOST_WORDS: usize = 16;
    let tokens = speech.tokens;
    let verb = tokens.iter().take(4).any(|token| {
        token.is_any(words!("put moved transplanted repotted potted upsized upgraded replanted bumped"))
    });
    let pot = any(tokens, words!("pot container planter tub repotted potted"));
    let [mention] = speech.mentions.iter().filter(|mention| mention.trees.is_one()).collect::<Vec<_>>()[..]
    else {
        return None;
    };
    let Some(Selection::Named(names)) = speech.names.selection(&mention.trees, &[]) else { return None };
    let mut volumes = amounts(tokens, &[], speech.context.garden.units).into_iter().filter_map(|measured| {
        match measured.amount {
            Amount::Volume(volume) | Amount::Vessel(volume) => Some(volume),
            _ => None,
        }
    });
    // "From a 10 to a 15 gallon pot"
    let volume = volumes.next_back()?;
    let other = tokens.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Watered,
            Sense::Sprayed,
            Sense::Picked,
            Sense::Drink,
            Sense::Future,
            Sense::Negation,
        ]) || token.is_any(words!("gave need needs want should"))
    });
    (verb && pot && !other && tokens.len() <= MOST_WORDS).then(|| TreeDetails {
        name: names[0].clone(),
        potted: Some(Potted::InPot),
        volume: Some(volume),
        ..TreeDetails::default()
    })
}
