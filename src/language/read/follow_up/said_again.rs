//! What was not noted, put right: "got 65 inches last night", refused, then "I mean .65 inches".

use super::super::names::Names;
use super::super::tokens::{Token, tokens};
use super::super::{Context, fresh, repair, spelling};
use super::with_first_time;
use crate::language::read::word_list::words;
use crate::season::request::{DoubtKind, OpenQuestion, Reading, Request};

/// The message that raised a question, with a slip in it mended by this one.
pub(super) fn mended(
    text: &str,
    question: &OpenQuestion,
    names: &Names,
    context: &Context,
    first: &Context,
) -> Option<Reading> {
    // Where some of it was kept, a correction is of that.
    let kept = context.last.is_some_and(|last| last.event == question.event);
    if kept && !question.doubt.kind.is_of_a_value() {
        return None;
    }
    let mut words = tokens(text);
    spelling::mend(&mut words, names);
    let told = told_anew(text, &words)?;
    // The message, or its clause as it was completed since.
    let doubted = question.doubt.words.trim();
    let before = if question.text.contains(doubted) { question.text.trim() } else { doubted };
    let before = before.trim_end_matches(['.', '!', '?', ',']);
    // "6/25" alone could be a share.
    let dated = matches!(question.doubt.kind, DoubtKind::ImpossibleDate | DoubtKind::StillToCome);
    let on = if dated && told.contains('/') && !told.starts_with("on ") { "on " } else { "" };
    let slip = format!("{before}, no wait, {on}{told}");
    let mended = repair::mended(&slip, names, first);
    if mended == slip {
        return None;
    }
    let whole = fresh(&mended, names, first);
    let told = fresh(&question.text, names, first);
    let requests: Vec<Request> = whole
        .requests
        .into_iter()
        .filter(|request| matches!(request, Request::Record(_)) && !told.requests.contains(request))
        .map(|request| with_first_time(request, question))
        .collect();
    let doubts: Vec<_> = whole.doubts.into_iter().filter(|doubt| doubt.kind.can_be_answered()).collect();
    let new = !requests.is_empty() || !doubts.is_empty();
    new.then(|| Reading { requests, doubts, spellings: whole.spellings, ..Reading::default() })
}

/// "Make that | 20 mm", "sorry, | 12 | not 5": what is said in place of the slip.
fn told_anew<'t>(text: &'t str, words: &[Token]) -> Option<&'t str> {
    let lead = words
        .iter()
        .take_while(|token| {
            token.is_mark() && !token.is("-")
                || token.is_any(words!("no nope sorry oops whoops i i'm im meant mean make that it was is it's its actually wait change to should be have been um uh ah oh ok so just only my mistake typo correction rather more like"))
        })
        .count();
    let rest = &words[lead..];
    let end = rest
        .iter()
        .position(|token| token.is_any(words!("not instead sorry actually")))
        .unwrap_or(rest.len());
    let (first, last) = (rest[..end].first()?, rest[..end].last()?);
    text.get(first.span.start..last.span.end)
}
