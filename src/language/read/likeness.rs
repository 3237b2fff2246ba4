//! What a message is most like, where the grammar makes nothing of it.
//!
//! People have more ways to say a thing than any grammar has rules: "corner is totally done, nothing left on it". What
//! the reader leaves as talk is held against all that was ever said to it, as weights learnt from the tables of
//! utterances (`marks`, `weights`). The guess alone writes nothing: the message is put into the plain words of its
//! kind with the trees, amounts and days that stand in it (`plain_words`), and these are read by the grammar as if
//! they had been typed. What comes of it is told back in words.

mod first_words;
mod fuller;
mod marks;
mod plain_words;
mod put_right;
mod settled;
#[cfg(test)]
mod tests;
mod weights;

use std::collections::BTreeSet;

use self::plain_words::Told;
use super::names::Names;
use super::{Context, fresh};
use crate::season::garden::Garden;
use crate::season::journal::Report;
use crate::season::request::{Aside, DoubtKind, Question, Reading, Request, Wording};

/// Longer messages tell more than one thing.
const MOST_WORDS: usize = 40;

/// "Pots done!" says too little to guess at.
const FEWEST_WORDS: usize = 4;
/// What was read of so few words is what they say.
const FEW_WORDS: usize = 5;

/// How sure a guess must be, by what a wrong one would cost.
mod sure_enough {
    /// An answer nobody asked for.
    pub(super) const TO_ANSWER: f64 = 0.55;
    /// The amount, tree or spray of what was read already.
    pub(super) const TO_ADD: f64 = 0.8;
    /// A sentence among others, which may well be talk.
    pub(super) const IN_PASSING: f64 = 0.9;
    /// What the grammar read is left for it.
    pub(super) const TO_DIFFER: f64 = 0.97;
    /// The same, where the answer is a question's or a setting's.
    pub(super) const TO_DIFFER_IN_WORDS: f64 = 0.9;
    /// A wrong entry, told back.
    pub(super) const TO_WRITE: f64 = 0.6;
    /// A right entry changed or taken back, and told.
    pub(super) const TO_CHANGE: f64 = 0.6;
}

/// The message as what it is most like, where the whole of it told nothing, or one thing that it is most unlike.
pub(super) fn read(text: &str, whole: &Reading, names: &Names, context: &Context) -> Option<Reading> {
    let lost = is_lost(whole);
    let count = text.split_whitespace().count();
    let one = !text.contains('\n') && count <= MOST_WORDS;
    let lost = lost
        && !(count < FEWEST_WORDS && whole.doubts.iter().any(|doubt| doubt.kind == DoubtKind::UnclearReport));
    if one && (lost || count > FEW_WORDS && may_be_misread(whole)) {
        let guess = weights::guess(&marks::marks(text, names))?;
        let needed = match guess.kind.split(' ').next() {
            _ if lost || is_kept_as_note(whole) => needed(guess.kind),
            // Both are answered in words that show what was understood.
            Some("ask" | "set") => sure_enough::TO_DIFFER_IN_WORDS,
            _ => sure_enough::TO_DIFFER,
        };
        let differs = !whole.requests.iter().any(|told| is_of_kind(told, guess.kind));
        let told =
            (differs && guess.sure >= needed).then(|| as_kind(text, guess.kind, names, context)).flatten();
        if told.is_some() {
            return told.map(of);
        }
        // "I ran the soaker hose along Wall until half an inch had been delivered": with its depth.
        if !differs
            && guess.sure >= sure_enough::TO_ADD
            && let [known] = whole.requests.as_slice()
            && let Some(more) = as_kind(text, guess.kind, names, context)
            && fuller::is_fuller(known, &more)
        {
            return Some(of(more));
        }
    }
    None
}

/// A sentence among others that the grammar made nothing of, if it is surely like something.
pub(super) fn of_sentence(text: &str, told: &Reading, names: &Names, context: &Context) -> Option<Reading> {
    if !is_lost(told) || text.split_whitespace().count() < FEWEST_WORDS - 1 {
        return None;
    }
    let guess = weights::guess(&marks::marks(text, names))?;
    let may_stand_beside = match guess.kind.split(' ').next()? {
        // "Did I wait too long?" is like a question of what was done, and none.
        "ask" => guess.kind != "ask done",
        "correct" | "undo" | "greet" => false,
        // "Husband away till friday", "Wall and Corner: nothing"
        _ => !matches!(guess.kind, "set quiet until" | "scouted none"),
    };
    let sure = may_stand_beside && guess.sure >= sure_enough::IN_PASSING;
    sure.then(|| as_kind(text, guess.kind, names, context)).flatten().map(of)
}

fn needed(kind: &str) -> f64 {
    match kind.split(' ').next() {
        Some("ask") => sure_enough::TO_ANSWER,
        Some("correct" | "undo") => sure_enough::TO_CHANGE,
        _ => sure_enough::TO_WRITE,
    }
}

/// What a text is in the plain words of a kind, read.
fn as_kind(text: &str, kind: &str, names: &Names, context: &Context) -> Option<Request> {
    // "Why'd you tell me that about the spraying?" asks why, whatever else it is like.
    let asks_why = text.trim_start().get(..3).is_some_and(|head| head.eq_ignore_ascii_case("why"));
    if asks_why && kind != "ask why" {
        return None;
    }
    match kind {
        // "Forget what I said about Wall": which part of it is not told by the guess.
        "undo" => {
            let whole = !Told::of(text, names, context).names_a_tree();
            return context.just_said().filter(|_| whole).map(|_| Request::Undo);
        }
        "greet" => return Some(Request::Greet),
        _ => {}
    }
    let plain = Told::of(text, names, context).as_kind(kind)?;
    let read = fresh(&plain, names, context);
    let told: Vec<&Request> =
        read.requests.iter().filter(|request| !matches!(request, Request::Aside(_))).collect();
    let [told] = told.as_slice() else { return None };
    (read.doubts.is_empty() && is_of_kind(told, kind)).then(|| (*told).clone())
}

/// A message less one of its parts.
pub(super) fn without(text: &str, from: usize, to: usize) -> String {
    let before = text[..from].trim_end().trim_end_matches([',', '-', ';']);
    let before = before.strip_suffix(" and").unwrap_or(before).trim_end();
    let behind = text[to..]
        .trim_start_matches(|mark: char| mark.is_whitespace() || matches!(mark, ',' | '-' | ';' | '.'));
    let behind = if before.is_empty() { behind.strip_prefix("and ").unwrap_or(behind) } else { behind };
    match (before.is_empty(), behind.is_empty()) {
        (true, _) => behind.to_owned(),
        (_, true) => before.to_owned(),
        _ if before.ends_with(['.', '!', '?']) => format!("{before} {behind}"),
        _ => format!("{before}. {behind}"),
    }
}

/// Nobody wrote it in those words, so what was made of it is always told back.
fn of(request: Request) -> Reading {
    Reading { requests: vec![request], wording: Wording::Open, ..Reading::default() }
}

/// Nothing of it was understood.
fn is_lost(whole: &Reading) -> bool {
    whole.requests.iter().all(|request| *request == Request::Aside(Aside::Talk))
        && whole
            .doubts
            .iter()
            .all(|doubt| matches!(doubt.kind, DoubtKind::NotUnderstood | DoubtKind::UnclearReport))
}

/// A note nobody asked for: what the reader keeps of a report it did not understand.
fn is_kept_as_note(whole: &Reading) -> bool {
    matches!(whole.requests.as_slice(), [Request::Record(record)] if matches!(record.report, Report::Note { .. }))
}

/// One thing was read of it, and not in the plainest words.
fn may_be_misread(whole: &Reading) -> bool {
    let told: Vec<&Request> =
        whole.requests.iter().filter(|request| !matches!(request, Request::Aside(_))).collect();
    whole.doubts.is_empty()
        && match told.as_slice() {
            // "Ana's tomatoes ..." was told apart by one word, and so may "my hand in Celeste's pot" have been.
            [] => whole.requests == [Request::Aside(Aside::Elsewhere)],
            [Request::Record(_)] => whole.wording == Wording::Open,
            // "Why does Celeste need so little water?" asks why, whatever else it is like.
            [Request::Ask(question)] => !matches!(question, Question::Why { .. }),
            _ => false,
        }
}

fn is_of_kind(told: &Request, kind: &str) -> bool {
    let (head, second) = kind.split_once(' ').unwrap_or((kind, ""));
    match told {
        Request::Ask(question) => head == "ask" && is_question_of(question, second),
        Request::Correct(_) => head == "correct",
        Request::Set(_) => head == "set",
        Request::Undo => head == "undo",
        Request::Greet => head == "greet",
        Request::Record(record) => is_report_of(&record.report, head),
        _ => false,
    }
}

/// Whether two requests are of one kind.
pub(super) fn is_like(one: &Request, other: &Request) -> bool {
    match (one, other) {
        (Request::Record(one), Request::Record(other)) => {
            std::mem::discriminant(&one.report) == std::mem::discriminant(&other.report)
        }
        (Request::Ask(one), Request::Ask(other)) => {
            std::mem::discriminant(one) == std::mem::discriminant(other)
        }
        (Request::Set(one), Request::Set(other)) => {
            std::mem::discriminant(one) == std::mem::discriminant(other)
        }
        _ => false,
    }
}

fn is_question_of(question: &Question, about: &str) -> bool {
    let own = match question {
        Question::Spray { .. } => "spray",
        Question::Water { .. } => "water",
        Question::Frost { .. } => "frost",
        Question::Tree { .. } => "tree",
        Question::Ahead => "ahead",
        Question::Why { .. } => "why",
        Question::Done { .. } => "done",
        Question::Season => "season",
        Question::Mix { .. } => "mix",
        Question::Product { .. } => "product",
        Question::Picking { .. } => "picking",
        Question::Together { .. } => "together",
        Question::Compare => "compare",
        Question::Help => "help",
        Question::Garden => "garden",
    };
    own == about
}

fn is_report_of(report: &Report, head: &str) -> bool {
    let own = match report {
        Report::Scouted { .. } => "scouted",
        Report::LeafDrop { .. } => "leaf_drop",
        Report::Sprayed { .. } => "sprayed",
        Report::Watered { .. } => "watered",
        Report::Moisture { .. } => "moisture",
        Report::Weighed { .. } => "weighed",
        Report::Rained { .. } => "rained",
        Report::Stage { .. } => "stage",
        Report::Picked { .. } => "picked",
        Report::Frost { .. } => "frost",
        Report::Planted => "planted",
        Report::Removed => "removed",
        Report::Moved { .. } => "moved",
        Report::Note { .. } => "note",
        Report::Photo { .. } => "photo",
    };
    own == head
}

/// What the weights are learnt by: the marks of a text in a garden.
pub fn marks_of(text: &str, garden: &Garden) -> BTreeSet<String> {
    marks::marks(text, &Names::of(garden))
}
