//! Words nobody knows, where a tree would stand.

use super::Part;
use crate::language::read::Speech;
use crate::language::read::lexicon::{self, Sense};
use crate::language::read::names::{Product, is_unknown};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::{Doubt, DoubtKind, Reading};

/// Parts, places and times of trees, and what they are sprayed with: no names of their own.
const NO_NAME: &[Sense] = &[
    Sense::Time,
    Sense::Pronoun,
    Sense::Tree,
    Sense::Fig,
    Sense::Leaf,
    Sense::Pot,
    Sense::Pots,
    Sense::Ground,
    Sense::Lower,
    Sense::Upper,
    Sense::Middle,
    Sense::Copper,
    Sense::Sulfur,
    Sense::Oil,
    Sense::All,
    Sense::Both,
    Sense::Soil,
    Sense::Unit,
];

/// "The fig by the garage", where nothing of the garden stands by a garage.
pub(super) fn placed_elsewhere(speech: &Speech, part: &Part) -> Option<String> {
    if part.trees.names_one_by_name() {
        return None;
    }
    let clause = part.clause(speech.tokens);
    let at = clause.windows(4).position(|four| {
        four[0].is_any(words!("fig tree pot one bush"))
            && four[1].is_any(words!("by near behind beside under at"))
            && four[2].is_any(words!("the my our"))
            && four[3].is_word()
            && !four[3].senses.has_any(&[Sense::Pots, Sense::Ground, Sense::Time, Sense::Leaf])
            && !four[3].is_any(words!("top bottom end moment base"))
    })?;
    let first = part.range.start + at;
    Some(speech.typed(first, first + 4).to_owned())
}

/// "... off Big Mama": plain words behind "off", "from" or "on" that are no part, place or time of a tree.
pub(super) fn placed_behind(speech: &Speech, part: &Part) -> Option<String> {
    const NAME: usize = 2;
    let clause = part.clause(speech.tokens);
    let at = clause.iter().position(|token| token.is_any(words!("off from on")))?;
    let from = at + 1 + clause[at + 1..].iter().take_while(|token| token.senses.has(Sense::Article)).count();
    let named = |token: &Token| {
        token.is_word()
            && !token.senses.has_any(NO_NAME)
            && !token.senses.has_any(&[Sense::Link, Sense::Thing])
            && !token.is_any(words!("and with for side back front edge edges both"))
    };
    let count = clause[from..].iter().take(NAME).take_while(|token| named(token)).count();
    (count > 0).then(|| speech.typed(part.range.start + from, part.range.start + from + count).to_owned())
}

/// A word nobody knows, where a tree would stand.
pub(super) fn stranger(speech: &Speech, part: &Part) -> Option<String> {
    let clause = part.clause(speech.tokens);
    let in_product = |index: &usize| {
        part.products
            .iter()
            .any(|product| matches!(product, Product::Known { used, .. } if used.contains(index)))
    };
    let index = (0..clause.len()).find(|index| {
        !in_product(index)
            && (is_unknown(&clause[*index])
                // "Still out on a culvert"
                && !(*index > 0 && clause[*index - 1].is_any(words!("a an")))
                && stands_for_tree(speech, clause, *index)
                || is_called(speech, part, clause, *index))
    })?;
    let end = (index + 1..clause.len()).find(|at| !is_unknown(&clause[*at])).unwrap_or(clause.len());
    let first = part.range.start + index;
    Some(speech.typed(first, part.range.start + end).to_owned())
}

/// "Planted Violette in the ground": the name right behind the verb, wherever she stands; or the only one there is.
pub(super) fn newly_planted(speech: &Speech, part: &Part) -> Option<String> {
    let of_none = part.trees.is_vague() || part.trees.is_empty();
    names_new(speech, part.clause(speech.tokens))
        .or_else(|| of_none.then(|| stranger(speech, part)).flatten())
}

/// A name nobody knows right behind "planted".
pub(super) fn names_new(speech: &Speech, clause: &[Token]) -> Option<String> {
    let behind = clause.iter().position(|token| token.senses.has(Sense::Planted))? + 1;
    let small = |token: &&Token| {
        token.senses.has(Sense::Article) || token.is_any(words!("new young fig tree called named my our"))
    };
    let name = &clause[behind + clause[behind..].iter().take_while(small).count()..];
    // "Black Mission": a word of the language with a capital, before one nobody knows.
    let capital = |token: &&Token| {
        token.is_word()
            && speech.text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
    };
    let led = name.iter().take_while(|token| capital(token) && !is_unknown(token)).count();
    let led = if name.get(led).is_some_and(is_unknown) { led } else { 0 };
    let first = name.first().filter(|token| led > 0 || is_unknown(token))?;
    let typed = speech.text.get(first.span.start..)?;
    let last = name[led..].iter().take_while(|token| is_unknown(token)).last()?;
    let words = speech.text.get(first.span.start..last.span.end)?;
    typed.starts_with(char::is_uppercase).then(|| words.to_owned())
}

/// "... on Rusty": a word of the language with the capital of a name, where a tree would stand.
fn is_called(speech: &Speech, part: &Part, clause: &[Token], index: usize) -> bool {
    let token = &clause[index];
    let capital = |token: &Token| {
        speech.text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
    };
    let shouted = speech.text.chars().filter(|letter| letter.is_lowercase()).count() < 3;
    // "I gave Old Faithful a gallon"
    let led = index > 0
        && (clause[index - 1].is_any(words!("on off from called named"))
            || clause[index - 1].senses.has_any(&[Sense::Watered, Sense::Gave])
                && clause.get(index + 1).is_some_and(|next| next.is_word() && capital(next)));
    let named = part.trees.is_empty() && led && token.is_word() && capital(token);
    named
        && !shouted
        && !token.senses.has_any(&[Sense::Time, Sense::Copper, Sense::Sulfur, Sense::Oil, Sense::All])
}

/// After "on", "off", "the" ..., at the head of a clause, or with a capital.
fn stands_for_tree(speech: &Speech, clause: &[Token], index: usize) -> bool {
    let article = |token: &&Token| token.senses.has(Sense::Article);
    let leads = |before: &Token| {
        before.is_any(words!("on off from of called named"))
            || before.senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked, Sense::Planted])
    };
    // "At my age" is no place of a tree, "off my Violette" is.
    let articles = clause[..index].iter().rev().take_while(article).count();
    let before = index.checked_sub(articles + 1).and_then(|at| clause.get(at));
    let led = index > 0 && before.is_none_or(leads) || clause[..index].iter().rev().take(2).any(leads);
    // "Maya ate most", "wifey says": somebody, no tree.
    let somebody = clause
        .get(index + 1)
        .is_some_and(|next| next.is_any(words!("ate says said told thinks helped wants wanted asked")));
    if somebody || lexicon::is_quality(&clause[index].text) {
        return false;
    }
    let capital = speech
        .text
        .get(clause[index].span.clone())
        .is_some_and(|typed| typed.starts_with(char::is_uppercase));
    // "Celeste 1 gal and desert king 1 gal"
    let measured = index <= 1 && clause.get(index + 1).is_some_and(|next| next.number.is_some());
    index == 0 || led || capital || measured
}

pub(in crate::language::read) fn unknown_tree(speech: &Speech, words: &str, reading: &mut Reading) {
    let candidates = speech.names.like(words);
    reading.doubts.push(Doubt { kind: DoubtKind::UnknownTree, words: words.to_owned(), candidates });
}

/// "Sprayed oil on the hinges": on a thing, by its article, and on no part of a tree.
pub(super) fn put_on(speech: &Speech, part: &Part) -> Option<String> {
    let clause = part.clause(speech.tokens);
    let at = clause.windows(3).position(|three| {
        three[0].is_any(words!("on onto over"))
            && three[1].is_any(words!("the my our"))
            && three[2].is_word()
            && !three[2].senses.has_any(NO_NAME)
            && !three[2].senses.has_any(&[Sense::Rust, Sense::Rain, Sense::Rest])
            && !three[2].is_any(words!("lot whole entire garden yard orchard plants schedule fruit new same other underside undersides tops bottoms trunk trunks bark branches wood growth way double quick fly go clock dot hour first second third last label house front back side sides edge edges deck patio porch babies girls boys ladies kids crew gang family young little big small old outside inside canopy foliage")) 
    })?;
    let named = speech.mentions.iter().any(|mention| mention.range.contains(&(part.range.start + at + 2)));
    (!named).then(|| speech.typed(part.range.start + at + 1, part.range.start + at + 3).to_owned())
}

/// "One of them", "the old man": one tree, and not which.
pub(super) fn of_one_unnamed(clause: &[Token]) -> bool {
    let fondly = clause.iter().enumerate().any(|(index, token)| {
        token.is_any(words!("man guy lady boy girl fella fellow lad gentleman"))
            && clause[index.saturating_sub(3)..index].iter().any(|before| before.is_any(words!("the my our that")))
            // "The water guy came"
            && clause[..index].iter().any(|before| before.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked]))
            && index + 1 >= clause.len()
    });
    let one = clause
        .windows(3)
        .any(|three| three[0].is("one") && three[1].is("of") && three[2].is_any(words!("them those these")));
    fondly || one
}

/// "Watered Bertha and Celeste": the first of them nobody knows.
pub(super) fn one_before(speech: &Speech, part: &Part) -> Option<String> {
    let tokens = speech.tokens;
    let mention = speech.mentions.iter().find(|mention| mention.range.start >= part.range.start)?;
    let at = mention.range.start.checked_sub(2).filter(|at| *at > part.range.start)?;
    let (verb, name, joint) = (&tokens[at - 1], &tokens[at], &tokens[at + 1]);
    let led = verb.senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked, Sense::Gave])
        || verb.is_any(words!("off from on"));
    (led && joint.is_any(words!("and &")) && is_unknown(name) && !speech.names.is_person(&name.text))
        .then(|| speech.typed(at, at + 1).to_owned())
}

/// "Watered Eave and the one by the shed": one more beside those named, and nobody knows which.
pub(super) fn one_more(speech: &Speech, part: &Part) -> Option<String> {
    if !part.trees.names_one_by_name() {
        return None;
    }
    let clause = part.clause(speech.tokens);
    let named = |index: usize| {
        speech.mentions.iter().any(|mention| mention.range.contains(&(part.range.start + index)))
    };
    let from = (1..clause.len()).find(|at| {
        let joined = clause[at - 1].is_any(words!("and & plus"));
        let article = clause[*at].is_any(words!("the my that"));
        let one = at
            + 1
            + usize::from(
                clause
                    .get(at + 1)
                    .is_some_and(|word| word.is_any(words!("new other little young small old last"))),
            );
        let placed = clause
            .get(one + 1)
            .is_some_and(|next| next.is_any(words!("by near behind beside under next over")));
        let stands = clause.get(one).is_some_and(|word| {
            word.is("one") && !named(one) || placed && word.is_any(words!("tree fig bush pot"))
        });
        let by = clause.get(one + 1).is_none_or(|next| {
            next.number.is_some() || next.is_any(words!("by near behind beside under at in next over , ."))
        });
        joined && article && stands && by
    })?;
    let end = (from..clause.len())
        .find(|at| clause[*at].is_mark() || clause[*at].number.is_some() && !clause[*at].is("one"))
        .unwrap_or(clause.len());
    Some(speech.typed(part.range.start + from, part.range.start + end).to_owned())
}
