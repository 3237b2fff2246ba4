//! A message too short to say anything by itself, read with the report just made.

use super::{Amendment, Found, Strength, corrections, is_fragment};
use crate::language::read::Speech;
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::moment;
use crate::language::read::records::leaf_level;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::{Report, Timing, What};
use crate::season::request::{Reading, Record, Request, Selection, When};

/// A few words that only make sense of the report just made: "at 7 am", "upper leaves", "0.6 in", "and Whip".
pub(in crate::language::read) fn bare(speech: &Speech) -> Option<Reading> {
    const SOON: chrono::TimeDelta = chrono::TimeDelta::minutes(15);
    const MOST_WORDS: usize = 5;
    let last = speech.context.last.filter(|last| speech.context.at - last.said <= SOON)?;
    let What::Report { report, .. } = &last.what else { return None };
    if speech.asked == Asked::Yes || speech.tokens.len() > MOST_WORDS {
        return None;
    }
    if let Some(trees) = on_these_too(speech) {
        let when = if last.timing == Timing::Assumed { When::Unsaid } else { When::At(last.happened) };
        let record = Record { trees, when, report: report.clone() };
        return Some(Reading { requests: vec![Request::Record(record)], ..Reading::default() });
    }
    let numbered = speech.tokens.iter().any(|token| token.number.is_some());
    let measured =
        speech.tokens.iter().any(|token| token.senses.has(Sense::Unit) || token.is_any(words!("%")));
    let timed = moment(speech.tokens, &[], speech.now()).is_said();
    let leveled = leaf_level(speech.tokens).is_some() && matches!(report, Report::Scouted { .. });
    let says = leveled || timed || numbered && measured;
    if !speech.mentions.is_empty() || !says || !is_fragment(speech) {
        return None;
    }
    let amendment = Amendment { tokens: speech.tokens, strength: Strength::Weak, leaves_out: false };
    match corrections(speech, &amendment) {
        Found::Corrections(found) if !found.is_empty() => {
            let requests = found.into_iter().map(Request::Correct).collect();
            Some(Reading { requests, ..Reading::default() })
        }
        _ => None,
    }
}

/// "and Whip", "Whip too", "Eave as well".
fn on_these_too(speech: &Speech) -> Option<Selection> {
    let [mention] = speech.mentions.as_slice() else { return None };
    let before = &speech.tokens[..mention.range.start];
    let after = &speech.tokens[mention.range.end..];
    let joins = |token: &Token| token.is_any(words!("and also plus")) || token.is("+") || token.is("&");
    let too = |token: &Token| token.is_any(words!("too also as well"));
    let idle = |token: &Token| token.is_mark() || token.senses.has_any(&[Sense::Article, Sense::Link]);
    let said = before.first().is_some_and(joins) || after.last().is_some_and(too);
    let only = before.iter().all(|token| joins(token) || idle(token))
        && after.iter().all(|token| too(token) || idle(token));
    (said && only).then(|| speech.names.selection(&mention.trees, &[])).flatten()
}
