//! A question behind a report of the same message is of what was reported: "sprayed neem on Celeste, when can I pick?",
//! "the pots are soaked, should I still water?". Not of sprays: rust on one tree asks after all of them.

use crate::season::journal::{MoistureState, Report};
use crate::season::request::{Question, Reading, Record, Request, Selection};

/// Gives questions without trees those of the report they follow.
pub(super) fn settle(text: &str, reading: &mut Reading) {
    for at in 1..reading.requests.len() {
        let (told, asked) = reading.requests.split_at_mut(at);
        let Some(Request::Ask(question)) = asked.first_mut() else { continue };
        let Some(Record { trees, report, .. }) = told.iter().rev().find_map(record) else { continue };
        if !matches!(trees, Selection::Named(_) | Selection::Group(_)) {
            continue;
        }
        match (report, question) {
            (Report::Sprayed { .. }, Question::Picking { trees: asked @ Selection::Unsaid, .. })
            | (
                Report::Moisture { state: MoistureState::Dry | MoistureState::Wet },
                Question::Water { trees: asked @ Selection::Unsaid },
            ) => *asked = trees.clone(),
            // "When can I pick?", behind a spray, asks of the wait.
            (Report::Sprayed { product, .. }, question @ Question::Tree { trees: Selection::All })
                if asks_to_pick(text) =>
            {
                *question = Question::Picking { product: Some(product.clone()), trees: trees.clone() };
            }
            _ => {}
        }
    }
}

fn record(request: &Request) -> Option<&Record> {
    match request {
        Request::Record(record) => Some(record),
        _ => None,
    }
}

fn asks_to_pick(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["can i pick", "can we pick", "can i eat", "can we eat", "i pick them", "safe to pick", "safe to eat"]
        .iter()
        .any(|words| lower.contains(words))
}
