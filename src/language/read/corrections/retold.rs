//! "Wait not Corner Wall": one tree for another, without the comma between them.

use crate::language::read::Speech;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::{Correction, Request};

/// "Wait not Corner Wall": the second of them.
pub(super) fn not_one_but_other(speech: &Speech) -> Option<Request> {
    const MOST_WORDS: usize = 10;
    let opens = |token: &Token| {
        token.is_mark() || token.is_any(words!("wait no sorry oops it was oh ah actually on i mean meant"))
    };
    let not = speech.tokens.iter().take(4).position(|token| token.is("not"))?;
    let behind = speech.part(&speech.tokens[not + 1..]);
    let [one, other] = behind.mentions.as_slice() else { return None };
    let beside = one.range.start == 0 && one.range.end == other.range.start;
    let only = speech.tokens[..not].iter().all(opens) && behind.tokens[other.range.end..].iter().all(opens);
    let trees = speech.names.selection(&other.trees, &[])?;
    (beside && only && speech.tokens.len() <= MOST_WORDS)
        .then_some(Request::Correct(Correction::Trees(trees)))
}
