//! A correction with a story around it: "It was 12 and not 9, because Bo had put three in his pocket", "Our dinner was
//! lovely. It wasn't 9 figs, it was 12".
//!
//! Read again without the story where the whole of it put nothing right.

use super::clauses::sentences;
use super::lexicon::Sense;
use super::word_list::words;
use super::{Context, tokens};
use crate::season::journal::{Report, What};
use crate::season::request::{Aside, Correction, DoubtKind, Reading, Request, Setting};

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
    if let Some(both) = in_two(text, whole, &read) {
        return Some(both);
    }
    if let Some(stands) = of_its_pot(text, whole, context, &read) {
        return Some(stands);
    }
    if text.contains(['?', '\n'])
        || text.split_whitespace().count() > MOST_WORDS
        || whole.requests.iter().any(settled)
    {
        return None;
    }
    let lower = text.to_ascii_lowercase();
    // "That was yesterday by the way"
    let tail = [
        " by the way",
        " btw",
        " come to think of it",
        " now that i think of it",
        " now i think on it",
        " now i think of it",
        " fyi",
    ]
    .iter()
    .find_map(|tail| lower.trim_end_matches(['.', '!']).strip_suffix(tail));
    if let Some(told) = tail.map(|head| read(&text[..head.len()])).filter(puts_right) {
        return Some(told);
    }
    if HEADS.iter().any(|head| lower.starts_with(head)) {
        return before_its_tail(text, &read);
    }
    let idle =
        whole.requests.iter().all(|request| matches!(request, Request::Aside(Aside::Talk | Aside::Thanks)))
            && whole
                .doubts
                .iter()
                .all(|doubt| matches!(doubt.kind, DoubtKind::NotUnderstood | DoubtKind::UnclearReport));
    let asks_which =
        whole.doubts.iter().all(|doubt| doubt.kind == DoubtKind::WhichTree) && whole.requests.is_empty();
    if idle {
        behind_its_talk(text, &read)
            .or_else(|| behind_its_lead(text, &read))
            .or_else(|| measured_anew(text, context, &read))
    } else if asks_which {
        measured_anew(text, context, &read)
    } else {
        None
    }
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

/// "Now I told a story, | that was the Eave", "not so much, | half an inch": a lead that tells nothing, and what is so.
fn behind_its_lead(text: &str, read: &impl Fn(&str) -> Reading) -> Option<Reading> {
    const MOST_WORDS: usize = 10;
    const STARTS: [&str; 9] = [
        "that was ",
        "it was ",
        "they were ",
        "make that ",
        "make it ",
        "should be ",
        "i meant ",
        "those were ",
        "exactly ",
    ];
    const DENIALS: [&str; 4] = ["not so much, ", "not that much, ", "not quite, ", "not really, "];
    let lower = text.to_ascii_lowercase();
    if let Some(denial) = DENIALS.iter().find(|denial| lower.starts_with(**denial)) {
        return Some(read(&format!("no, {}", &text[denial.len()..]))).filter(puts_right);
    }
    let (at, _) = text
        .match_indices(", ")
        .find(|(at, _)| STARTS.iter().any(|start| lower[at + 2..].starts_with(start)))?;
    let lead = &lower[..at];
    let tells = lead.contains(|letter: char| letter.is_ascii_digit())
        || lead.split_whitespace().count() > MOST_WORDS
        || tokens::tokens(lead).iter().any(|token| {
            token.senses.has_any(&[
                Sense::Sprayed,
                Sense::Watered,
                Sense::Picked,
                Sense::Rust,
                Sense::Someone,
                Sense::Future,
            ])
        });
    let tail = text[at + 2..]
        .strip_prefix("exactly ")
        .map_or(text[at + 2..].to_owned(), |told| format!("it was {told}"));
    if tells { None } else { Some(read(&tail)).filter(puts_right) }
}

/// "Foot was under the pot, 46 lb", "left off a zero, 50%": a story, and the measure it comes to, of the kind told before.
fn measured_anew(text: &str, context: &Context, read: &impl Fn(&str) -> Reading) -> Option<Reading> {
    const MOST_WORDS: usize = 6;
    let What::Report { report, .. } = &context.just_said()?.what else { return None };
    let (lead, tail) = text.rsplit_once(", ")?;
    let words = tokens::tokens(tail);
    let measured = words.iter().any(|token| token.number.is_some())
        && words.iter().all(|token| {
            token.number.is_some()
                || token.is_mark()
                || token.senses.has_any(&[Sense::Unit, Sense::Article])
                || token.is_any(words!("of and a half quarter full percent %"))
        })
        && (words.iter().any(|token| token.senses.has(Sense::Unit) || token.is_any(words!("% percent of"))));
    let tells = lead.contains(|letter: char| letter.is_ascii_digit())
        || tokens::tokens(lead).iter().any(|token| {
            token.senses.has_any(&[
                Sense::Sprayed,
                Sense::Watered,
                Sense::Picked,
                Sense::Someone,
                Sense::Future,
            ])
        });
    (measured && !tells && words.len() <= MOST_WORDS)
        .then(|| read(&format!("no, it was {tail}")))
        .filter(puts_right)
        .filter(|told| told.requests.iter().all(|request| is_of_its_measure(request, report)))
}

/// "Weighed myself, 180 lb" behind a harvest that was counted puts nothing right.
fn is_of_its_measure(request: &Request, report: &Report) -> bool {
    let Request::Correct(correction) = request else { return false };
    match report {
        Report::Weighed { .. } | Report::Picked { mass: Some(_), .. } => {
            matches!(correction, Correction::Mass(_))
        }
        Report::Watered { .. } | Report::Sprayed { .. } => {
            matches!(correction, Correction::Volume(_) | Correction::Depth(_))
        }
        Report::Rained { .. } => matches!(correction, Correction::Depth(_)),
        Report::Scouted { .. } | Report::LeafDrop { .. } => matches!(correction, Correction::Severity(_)),
        _ => false,
    }
}

/// "Sorry, it was 7, and they were from Wall", "wait not celeste, wall. and it was 8": two things put right.
fn in_two(text: &str, whole: &Reading, read: &impl Fn(&str) -> Reading) -> Option<Reading> {
    const JOINTS: [&str; 13] = [
        ", and there were ",
        " and there were ",
        ", and they came from ",
        " and they came from ",
        ", and they were ",
        ", and it was ",
        " and it was ",
        " and they were ",
        ". and it was ",
        ". And it was ",
        ". And they were ",
        ", and that was ",
        " and that was ",
    ];
    let one = match whole.requests.as_slice() {
        [Request::Correct(one)] => Some(one),
        [] | [Request::Aside(_) | Request::Record(_)] => None,
        _ => return None,
    };
    let at = JOINTS.iter().find_map(|joint| Some((text.find(joint)?, joint)))?;
    let (at, joint) = at;
    let lead = joint.trim_start_matches([',', '.', ' ']).to_ascii_lowercase();
    let behind = format!("{}{}", lead.strip_prefix("and ")?, &text[at + joint.len()..]);
    let behind = behind.replacen("they came from", "they were from", 1);
    let (first, second) = (read(&text[..at]), read(&behind));
    let [Request::Correct(first_told)] = first.requests.as_slice() else { return None };
    let [Request::Correct(second_told)] = second.requests.as_slice() else { return None };
    let differ = std::mem::discriminant(first_told) != std::mem::discriminant(second_told);
    let plain = first.doubts.is_empty() && second.doubts.is_empty();
    let alike =
        |other: &_| one.is_none_or(|one| std::mem::discriminant(one) == std::mem::discriminant(other));
    let kept = alike(first_told) || alike(second_told);
    (differ && plain && kept).then(|| Reading {
        requests: vec![Request::Correct(first_told.clone()), Request::Correct(second_told.clone())],
        ..whole.clone()
    })
}

/// "It's in a 7 gallon pot now", behind a message of one tree: of that tree.
fn of_its_pot(
    text: &str,
    whole: &Reading,
    context: &Context,
    read: &impl Fn(&str) -> Reading,
) -> Option<Reading> {
    const LEADS: [&str; 9] =
        ["it is ", "it's ", "its ", "she is ", "she's ", "he is ", "he's ", "that one is ", "that one's "];
    if whole.requests.iter().any(|request| !matches!(request, Request::Aside(_))) {
        return None;
    }
    let lower = text.to_ascii_lowercase();
    let behind = LEADS.iter().find(|lead| lower.starts_with(**lead)).map(|lead| &text[lead.len()..])?;
    let name = match &context.just_said()?.what {
        What::Report { trees, .. } => match trees.as_slice() {
            [tree] => tree.clone(),
            _ => return None,
        },
        What::Setting(Setting::Tree(details)) => details.name.clone(),
        What::Setting(Setting::RenameTree { to, .. }) => to.clone(),
        What::Setting(_) => return None,
    };
    let told = read(&format!("{name} is {behind}"));
    let of_tree = matches!(
        told.requests.as_slice(),
        [Request::Set(Setting::Tree(details))] if details.name == name
    );
    (of_tree && told.doubts.is_empty()).then_some(told)
}

fn puts_right(told: &Reading) -> bool {
    !told.requests.is_empty()
        && told.doubts.is_empty()
        && told.requests.iter().all(|request| matches!(request, Request::Correct(_) | Request::Undo))
}
