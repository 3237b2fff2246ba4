//! A short answer to what was asked back: the message that raised the question, read again with the answer in it.

use super::{Context, fresh};
use crate::season::request::{DoubtKind, OpenQuestion, Reading, Request};

/// A question older than this is no longer what a short word answers.
const STILL_OPEN: chrono::TimeDelta = chrono::TimeDelta::hours(20);
/// An answer has few words; more are a message of their own.
const MOST_WORDS: usize = 7;

pub(super) fn answer(text: &str, context: &Context) -> Option<Reading> {
    let question = context.open_question?;
    // A yes to "forget me?" is not the end of a sentence.
    if question.doubt.kind == DoubtKind::ForgetAsked || question.doubt.kind == DoubtKind::UnknownPlace {
        return None;
    }
    if context.at - question.said > STILL_OPEN || text.split_whitespace().count() > MOST_WORDS {
        return None;
    }
    let alone = fresh(text, &Context { open_question: None, ..*context });
    if stands_alone(&alone) {
        return None;
    }
    let completed = completed(question, text);
    // The moment of the first message is the moment of the report.
    let first = Context { open_question: None, at: question.said, ..*context };
    let reading = fresh(&completed, &first);
    let better = !reading.requests.is_empty() && reading.doubts.len() <= 1;
    better.then(|| with_first_time(reading, question))
}

/// A report, a question or a setting that is whole without what was asked.
fn stands_alone(reading: &Reading) -> bool {
    reading.requests.iter().any(|request| {
        matches!(
            request,
            Request::Record(_)
                | Request::Ask(_)
                | Request::Set(_)
                | Request::Undo
                | Request::Greet
                | Request::ForgetMe
        )
    })
}

/// The first message with the words in doubt replaced by the answer, or the answer put behind it.
fn completed(question: &OpenQuestion, answer: &str) -> String {
    let (text, words) = (question.text.trim(), question.doubt.words.trim());
    let answer = chosen(question, answer);
    match question.doubt.kind {
        DoubtKind::UnknownTree | DoubtKind::UnknownProduct if text.contains(words) && words != text => {
            text.replacen(words, &answer, 1)
        }
        DoubtKind::WhichTree if words != text && text.contains(words) => text.replacen(words, &answer, 1),
        DoubtKind::WhichProduct | DoubtKind::UnknownProduct => format!("{text} with {answer}"),
        DoubtKind::HowMuch => format!("{text} {answer}"),
        _ => format!("{text} on {answer}"),
    }
}

/// "2" or "the second" of the candidates offered, else the words themselves.
fn chosen(question: &OpenQuestion, answer: &str) -> String {
    let bare = answer.trim().trim_end_matches(['.', ')', '!']);
    let lower = bare.to_lowercase();
    let index = match lower.as_str() {
        "first" | "the first" | "the first one" | "1st" => Some(1),
        "second" | "the second" | "the second one" | "2nd" => Some(2),
        "third" | "the third" | "the third one" | "3rd" => Some(3),
        "last" | "the last" | "the last one" => Some(question.doubt.candidates.len()),
        _ if question.doubt.kind != DoubtKind::HowMuch => lower.parse::<usize>().ok(),
        _ => None,
    };
    index
        .and_then(|index| question.doubt.candidates.get(index.checked_sub(1)?))
        .cloned()
        .unwrap_or_else(|| bare.to_owned())
}

/// What was said without a time happened when it was first said.
fn with_first_time(mut reading: Reading, question: &OpenQuestion) -> Reading {
    use crate::season::request::When;
    for request in &mut reading.requests {
        if let Request::Record(record) = request
            && record.when == When::Unsaid
        {
            record.when = When::OnDay(question.said);
        }
    }
    reading
}
