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

/// "put Whip in the ground", "Eave isn't a pot anymore, it went in the ground this afternoon".
pub(super) fn put_in_ground(speech: &Speech) -> Option<TreeDetails> {
    const MOST_WORDS: usize = 18;
    let tokens = speech.tokens;
    let at = tokens.windows(3).position(|three| {
        three[0].is_any(words!("in into to"))
            && three[1].is("the")
            && three[2].is_any(words!("ground dirt earth"))
    })?;
    // "Corner went in the ground on April 28", where she stands there: planted, and no new place.
    let stands_there = speech.mentions.iter().find(|mention| mention.trees.is_one()).is_some_and(|mention| {
        matches!(speech.names.selection(&mention.trees, &[]), Some(Selection::Named(names))
            if names.iter().all(|name| speech.context.garden.tree(name).is_some_and(|tree| !tree.is_potted())))
    });
    if stands_there {
        return None;
    }
    let verb = tokens[..at].iter().rev().take(8).any(|token| {
        token.is_any(words!("put set stuck moved transplanted went goes gone transferred relocated planted"))
    });
    let [mention] = speech.mentions.iter().filter(|mention| mention.trees.is_one()).collect::<Vec<_>>()[..]
    else {
        return None;
    };
    // "Put a stake in the ground next to Whip"
    if mention.range.start > at {
        return None;
    }
    // "Planted Whip in the ground" is a planting first.
    let planted = tokens.iter().position(|token| token.is("planted"));
    if planted.is_some_and(|planted| planted < mention.range.start) {
        return None;
    }
    let Some(Selection::Named(names)) = speech.names.selection(&mention.trees, &[]) else { return None };
    let [name] = names.as_slice() else { return None };
    // "Eave isn't a pot anymore" denies the pot, and nothing of the ground.
    let denied = tokens.iter().enumerate().any(|(index, token)| {
        let of_pot = || tokens[index + 1..].iter().take(4).any(|next| next.senses.has(Sense::Pot));
        token.senses.has(Sense::Negation) && (index > at || !of_pot())
    });
    let other = tokens.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Watered,
            Sense::Sprayed,
            Sense::Picked,
            Sense::Future,
            Sense::Intent,
            Sense::Condition,
            Sense::Copper,
            Sense::Sulfur,
            Sense::Oil,
            Sense::Rust,
            Sense::Leaf,
            Sense::Fig,
        ])
    });
    // "2 gallons went in the ground by Wall", "it fell over and went in the dirt"
    let measured =
        tokens.iter().any(|token| token.number.is_some()) || any(tokens, words!("fell blew water"));
    (verb && !denied && !other && !measured && tokens.len() <= MOST_WORDS).then(|| TreeDetails {
        name: name.clone(),
        potted: Some(Potted::InGround),
        ..TreeDetails::default()
    })
}

/// "Repotted Whip, it's in a 15 gallon pot now": its new size.
pub(super) fn put_in_pot(speech: &Speech) -> Option<TreeDetails> {
    const MOST_WORDS: usize = 16;
    let tokens = speech.tokens;
    let verb = tokens.iter().take(4).any(|token| {
        token.is_any(words!(
            "change changed switch put moved transplanted repotted potted upsized upgraded upped replanted bumped"
        ))
    });
    let pot = any(tokens, words!("pot container planter tub repotted potted"));
    // "Eave now 15 gal pot"
    let verb = verb
        || (tokens.len() <= 8 || tokens.len() <= 14 && any(tokens, words!("bigger new larger")))
            && speech.mentions.first().is_some_and(|mention| {
                mention.range.start == 0
                    && (tokens.get(mention.range.end).is_some_and(|now| now.is("now"))
                        // "Celeste in a 15 gal pot now"
                        || tokens.get(mention.range.end).is_some_and(|within| within.is("in"))
                            && tokens.last().is_some_and(|now| now.is("now")))
            });
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

/// "Dug up Corner and stuck it in a pot", "potted up Corner yesterday", of a tree that stood in the ground.
pub(super) fn dug_up(speech: &Speech) -> Option<TreeDetails> {
    const MOST_WORDS: usize = 16;
    let tokens = speech.tokens;
    let at = tokens.iter().position(|token| token.is_any(words!("pot container tub planter potted")))?;
    let into = tokens[at].is("potted")
        || tokens[at.saturating_sub(3)..at].iter().any(|token| token.is_any(words!("in into to")));
    let verb = tokens.iter().any(|token| {
        token.is_any(words!("dug put stuck moved lifted took potted transplanted transferred went lives"))
    });
    let [mention] = speech.mentions.iter().filter(|mention| mention.trees.is_one()).collect::<Vec<_>>()[..]
    else {
        return None;
    };
    let Some(Selection::Named(names)) = speech.names.selection(&mention.trees, &[]) else { return None };
    let [name] = names.as_slice() else { return None };
    let stood_in_ground = speech.context.garden.tree(name).is_some_and(|tree| !tree.is_potted());
    let other = tokens.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Watered,
            Sense::Sprayed,
            Sense::Picked,
            Sense::Drink,
            Sense::Future,
            Sense::Intent,
            Sense::Condition,
            Sense::Negation,
            Sense::Fig,
            Sense::Leaf,
            Sense::Asks,
        ]) || token.is_any(words!("cutting cuttings sucker suckers next by near beside behind mulch compost"))
    });
    let volume = amounts(tokens, &[], speech.context.garden.units).into_iter().find_map(|measured| {
        match measured.amount {
            Amount::Volume(volume) | Amount::Vessel(volume) => Some(volume),
            _ => None,
        }
    });
    (into && verb && stood_in_ground && !other && tokens.len() <= MOST_WORDS).then(|| TreeDetails {
        name: name.clone(),
        potted: Some(Potted::InPot),
        volume,
        ..TreeDetails::default()
    })
}
