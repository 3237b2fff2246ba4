//! A correction with a story around it: "It was 12 and not 9, because Bo had put three in his pocket", "Our dinner was
//! lovely. It wasn't 9 figs, it was 12".
//!
//! Read again without the story where the whole of it put nothing right.

use super::clauses::sentences;
use super::lexicon::Sense;
use super::{Context, tokens};
use crate::season::request::{Aside, DoubtKind, Reading, Request};

/// How one begins who puts something right.
const HEADS: [&str; 10] = [
    "it was ",
    "it wasn't ",
    "it wasnt ",
    "it was not ",
    "that was ",
    "that wasn't ",
    "come to think of it",
    "i was wrong",
    "the number was ",
    "actually ",
];

/// A message read without its story, if that puts something right and the whole of it did not.
pub(super) fn left_out(
    text: &str,
    whole: &Reading,
    context: &Context,
    read: impl Fn(&str) -> Reading,
) -> Option<Reading> {
    const MOST_WORDS: usize = 50;
    context.just_said()?;
    let settled = |request: &Request| {
        matches!(request, Request::Correct(_) | Request::Undo | Request::Set(_) | Request::Ask(_))
    };
    if text.contains(['?', '\n'])
        || text.split_whitespace().count() > MOST_WORDS
        || whole.requests.iter().any(settled)
    {
        return None;
    }
    let lower = text.to_ascii_lowercase();
    if HEADS.iter().any(|head| lower.starts_with(head)) {
        return before_its_tail(text, &read);
    }
    let idle =
        whole.requests.iter().all(|request| matches!(request, Request::Aside(Aside::Talk | Aside::Thanks)))
            && whole
                .doubts
                .iter()
                .all(|doubt| matches!(doubt.kind, DoubtKind::NotUnderstood | DoubtKind::UnclearReport));
    if idle { behind_its_talk(text, &read) } else { None }
}

/// "It was 12 and not 9 | , because Bo had put three in his pocket"
fn before_its_tail(text: &str, read: &impl Fn(&str) -> Reading) -> Option<Reading> {
    const MOST: usize = 3;
    text.rmatch_indices(", ").take(MOST).find_map(|(at, _)| {
        let works = tokens::tokens(&text[at..])
            .iter()
            .any(|token| token.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked]));
        // "It was 9, found 2 more" counts on.
        let more = text[at..].to_ascii_lowercase().contains(" more");
        Some(read(&text[..at])).filter(|told| !works && !more && puts_right(told))
    })
}

/// "Our dinner was lovely. | It wasn't 9 figs, it was 12"
fn behind_its_talk(text: &str, read: &impl Fn(&str) -> Reading) -> Option<Reading> {
    sentences(text).skip(1).find_map(|sentence| {
        let start = text.find(sentence.text)?;
        // "6 was yesterday's number. Today 4" tells of both.
        let counts = text[..start].contains(|letter: char| letter.is_ascii_digit());
        // "I sprayed Wall with mouthwash. Kidding!" takes back what it says itself.
        let corrects = |told: &Reading| !told.requests.contains(&Request::Undo);
        Some(read(&text[start..])).filter(|told| !counts && corrects(told) && puts_right(told))
    })
}

fn puts_right(told: &Reading) -> bool {
    !told.requests.is_empty()
        && told.doubts.is_empty()
        && told.requests.iter().all(|request| matches!(request, Request::Correct(_) | Request::Undo))
}
