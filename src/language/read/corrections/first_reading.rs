//! What the grammar made of a message, and whether a slip may be read in its stead.

use super::told_anew::{is_same, report_of};
use crate::language::read::Context;
use crate::language::read::asides::is_undo;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::Names;
use crate::language::read::tokens::tokens;
use crate::language::read::word_list::words;
use crate::season::garden::same_name;
use crate::season::journal::{Entry, Report, RustAmount, What};
use crate::season::request::{Aside, Correction, DoubtKind, Reading, Record, Request, Selection, When};
use crate::season::selection::selected;

/// An order to take back, before the first mark.
pub(super) fn opens_with_undo(text: &str) -> bool {
    let tokens = tokens(text);
    // "No, that was for the roses, erase it please"
    let ordered = tokens.windows(2).any(|pair| {
        pair[0].is_any(words!("erase delete remove scratch cancel undo strike"))
            && pair[1].is_any(words!("it that this"))
    });
    if ordered {
        return true;
    }
    let head: Vec<&str> =
        tokens.iter().take_while(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    (2..=5).contains(&head.len()) && head.len() < tokens.len() && is_undo(&head)
}

/// "It wasn't Celeste; I picked those from Big One": the same work, no figure of its own, and not where it was said to be.
pub(super) fn is_of_other_trees_instead(
    text: &str,
    names: &Names,
    reading: &Reading,
    last: &Entry,
    context: &Context,
) -> bool {
    let ([Request::Record(Record { trees, when: When::Unsaid, report })], []) =
        (reading.requests.as_slice(), reading.doubts.as_slice())
    else {
        return false;
    };
    let What::Report { trees: before, report: told } = &last.what else { return false };
    let bare = matches!(
        report,
        Report::Picked { count: None, mass: None } | Report::Watered { volume: None, depth: None }
    );
    let tokens = tokens(text);
    let denied = tokens.iter().any(|token| token.senses.has(Sense::Negation));
    let named_before = names
        .mentions(&tokens, text)
        .iter()
        .flat_map(|mention| {
            let mut named = names.left_out(&mention.trees);
            let selection = names.selection(&mention.trees, &[]);
            named.extend(selection.iter().flat_map(|trees| selected(context.garden, trees)));
            named
        })
        .any(|name| before.iter().any(|known| same_name(known, &name)));
    bare && denied
        && named_before
        && std::mem::discriminant(report) == std::mem::discriminant(told)
        && !is_same(before, &selected(context.garden, trees))
}

/// Talk, or nothing but questions back about what was meant.
pub(super) fn says_nothing(reading: &Reading) -> bool {
    let idle = |request: &Request| {
        matches!(
            request,
            Request::Aside(Aside::Talk | Aside::Elsewhere | Aside::Thanks | Aside::Plan) | Request::Decline
        )
    };
    let unsure = reading.doubts.iter().all(|doubt| {
        matches!(
            doubt.kind,
            DoubtKind::NotUnderstood
                | DoubtKind::UnclearReport
                | DoubtKind::WhichTree
                | DoubtKind::UnknownTree
                | DoubtKind::HowMuch
                | DoubtKind::NothingThere
        )
    });
    reading.requests.iter().all(idle) && unsure
}

/// "Nay, misread it, 5 mm", behind 8 mm: one rain, not two.
pub(super) fn is_same_told_again(reading: &Reading, last: &Entry, context: &Context) -> bool {
    let ([Request::Record(Record { trees, when: When::Unsaid, report })], []) =
        (reading.requests.as_slice(), reading.doubts.as_slice())
    else {
        return false;
    };
    let What::Report { trees: before, report: told } = &last.what else { return false };
    let same = std::mem::discriminant(report) == std::mem::discriminant(told);
    let of_same = match trees {
        Selection::Unsaid => true,
        trees => is_same(before, &selected(context.garden, trees)),
    };
    same && of_same && !matches!(report, Report::Note { .. })
}

/// "One inch", behind a watering of half an inch, is no rain; "6/30", behind 4 of 30 leaves, no day.
pub(super) fn is_other_measure(reading: &Reading, last: &Entry) -> bool {
    let ([request], []) = (reading.requests.as_slice(), reading.doubts.as_slice()) else { return false };
    matches!(
        (request, report_of(last)),
        (
            Request::Record(Record { report: Report::Rained { .. }, when: When::Unsaid, .. }),
            Some(Report::Watered { depth: Some(_), .. }),
        ) | (
            Request::Correct(Correction::When(_)),
            Some(Report::Scouted { amount: RustAmount::Leaves { .. }, .. }),
        )
    )
}
