//! "Whip is dry, Big One is fine": fine beside dry is moist.
//!
//! Only in a message that tells of dry or wet soil elsewhere, and only of a tree: what else is fine is talk.

use std::borrow::Cow;

use super::lexicon::Sense;
use super::names::Names;
use super::tokens::tokens;
use super::word_list::words;

/// The message with "moist" where a tree was found fine.
pub(super) fn as_moist<'t>(text: &'t str, names: &Names) -> Cow<'t, str> {
    const FINE: [&str; 4] = ["fine", "ok", "okay", "alright"];
    let may = text
        .split(|letter: char| !letter.is_alphabetic())
        .any(|word| FINE.iter().any(|fine| word.eq_ignore_ascii_case(fine)));
    if !may {
        return text.into();
    }
    let tokens = tokens(text);
    let soil = tokens.iter().any(|token| token.senses.has_any(&[Sense::Dry, Sense::Wet]));
    let fine = |at: usize| tokens[at].is_any(words!("fine ok okay alright"));
    let other = text.contains('?')
        || tokens.iter().any(|token| {
            token.senses.has_any(&[Sense::Rust, Sense::Spots, Sense::Leaf, Sense::Weighed, Sense::Rain])
        });
    if !soil || other || !(0..tokens.len()).any(fine) {
        return text.into();
    }
    let mentions = names.mentions(&tokens, text);
    let ends_name =
        |at: usize| mentions.iter().any(|mention| mention.range.end == at && !mention.trees.is_vague());
    let begins_name =
        |at: usize| mentions.iter().any(|mention| mention.range.start == at && !mention.trees.is_vague());
    let found = (0..tokens.len()).find(|at| {
        let verb =
            *at > 0 && tokens[at - 1].is_any(words!("is are was were feels feel looks look seems still"));
        let of_tree = *at > 0 && ends_name(*at) || verb && *at > 1 && ends_name(at - 1);
        let behind =
            tokens.get(at + 1).is_some_and(|next| next.is_any(words!("in for on"))) && begins_name(at + 2);
        let ends = tokens
            .get(at + 1)
            .is_none_or(|next| next.is_mark() || next.is_any(words!("and but though tho too so")));
        fine(*at) && (of_tree && ends || behind)
    });
    match found {
        Some(at) => {
            let span = &tokens[at].span;
            let told = format!("{}moist{}", &text[..span.start], &text[span.end..]);
            Cow::Owned(as_moist(&told, names).into_owned())
        }
        None => text.into(),
    }
}
