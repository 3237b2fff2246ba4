//! A question behind a report of the same message is of what was reported: "sprayed neem on Celeste, when can I pick?",
//! "the pots are soaked, should I still water?". Not of sprays: rust on one tree asks after all of them.

use super::amounts::{Amount, amounts};
use super::names::Names;
use super::tokens::tokens;
use super::{Context, addition};
use crate::season::journal::{MoistureState, Report};
use crate::season::request::{DoubtKind, Question, Reading, Record, Request, Selection, Setting};

/// Gives questions without trees those of the report they follow.
pub(super) fn settle(text: &str, reading: &mut Reading) {
    for at in 1..reading.requests.len() {
        let (told, asked) = reading.requests.split_at_mut(at);
        let Some(Request::Ask(question)) = asked.first_mut() else { continue };
        let Some(Record { trees, report, .. }) = told.iter().rev().find_map(record) else { continue };
        let all_sprayed = *trees == Selection::All && matches!(report, Report::Sprayed { .. });
        if !(all_sprayed || matches!(trees, Selection::Named(_) | Selection::Group(_))) {
            continue;
        }
        match (report, question) {
            (Report::Sprayed { .. }, Question::Picking { trees: asked @ Selection::Unsaid, .. })
            | (
                Report::Moisture { state: MoistureState::Dry | MoistureState::Wet },
                Question::Water { trees: asked @ Selection::Unsaid },
            ) => *asked = trees.clone(),
            // "Gave Whip 2 cups, does Eave need any?"
            (Report::Watered { .. }, question @ Question::Tree { .. }) if asks_for_some(text) => {
                let Question::Tree { trees: asked } = &*question else { continue };
                *question = Question::Water { trees: asked.clone() };
            }
            // "Neem on the deck yesterday. How long till I can do it again?"
            (Report::Sprayed { product, .. }, question @ Question::Tree { .. })
                if text.to_lowercase().contains("again") && !asks_to_pick(text) =>
            {
                *question = Question::Product { product: Some(product.clone()) };
            }
            (Report::Sprayed { product, .. }, question) => of_the_wait(text, product, trees, question),
            _ => {}
        }
    }
}

/// "I have two gallons ready in the sprayer. How much copper do I put in?": for so much.
pub(super) fn settle_mixes(text: &str, context: &Context, reading: &mut Reading) {
    let lower = text.to_lowercase();
    if !["sprayer", "tank", "water ready", "bucket"].iter().any(|vessel| lower.contains(vessel)) {
        return;
    }
    let tokens = tokens(text);
    let mut volumes = amounts(&tokens, &[], context.garden.units).into_iter().filter_map(|measured| {
        match measured.amount {
            Amount::Volume(volume) | Amount::Vessel(volume) => Some(volume),
            _ => None,
        }
    });
    let (Some(told), None) = (volumes.next(), volumes.next()) else { return };
    for request in &mut reading.requests {
        if let Request::Ask(Question::Mix { volume: volume @ None, .. }) = request {
            *volume = Some(told);
        }
    }
}

/// "Sulfur every 10 days. Is it all right together with copper?": of the two.
pub(super) fn settle_pairs(text: &str, names: &Names, reading: &mut Reading) {
    let lower = text.to_lowercase();
    let joined = [
        "together with",
        "ok with",
        "okay with",
        "alright with",
        "all right with",
        "same tank",
        "mix it with",
        "mixed with",
    ];
    let tokens = tokens(text);
    let partners = names.partners(&tokens);
    let [one, other] = partners.as_slice() else { return };
    if !joined.iter().any(|words| lower.contains(words)) {
        return;
    }
    for request in &mut reading.requests {
        if matches!(request, Request::Ask(Question::Spray { product: Some(_), .. })) {
            *request = Request::Ask(Question::Together { one: one.clone(), other: other.clone() });
        }
    }
}

/// "Picked 6 off Corner. Note: wasps on the split figs": on her.
pub(super) fn settle_notes(reading: &mut Reading) {
    for at in 1..reading.requests.len() {
        let (told, rest) = reading.requests.split_at_mut(at);
        let Some(Request::Record(Record {
            trees: noted @ Selection::Unsaid,
            report: Report::Note { .. },
            ..
        })) = rest.first_mut()
        else {
            continue;
        };
        if let Some(Request::Record(Record { trees: Selection::Named(names), .. })) = told.last()
            && names.len() == 1
        {
            *noted = Selection::Named(names.clone());
        }
    }
}

/// "New tree Stubby in a 5 gal pot, watered it in": the new one, not the one told before.
pub(super) fn settle_new_tree(context: &Context, reading: &mut Reading) {
    let Some((before, ..)) = addition::just_reported(context) else { return };
    let mut new: Option<String> = None;
    for request in &mut reading.requests {
        match request {
            Request::Set(Setting::Tree(details)) if context.garden.tree(&details.name).is_none() => {
                new = Some(details.name.clone());
            }
            Request::Record(Record {
                trees: Selection::Named(names),
                report: Report::Watered { .. },
                ..
            }) if names == before => {
                if let Some(name) = &new {
                    *names = vec![name.clone()];
                }
            }
            _ => {}
        }
    }
}

/// "When can I pick?", where a spray was told in the message before.
pub(super) fn settle_behind(text: &str, context: &Context, reading: &mut Reading) {
    if let [Request::Ask(question @ (Question::Tree { .. } | Question::Picking { product: None, .. }))] =
        reading.requests.as_mut_slice()
        && let Some((trees, Report::Sprayed { product, .. }, _)) = addition::just_reported(context)
    {
        of_the_wait(text, product, &Selection::Named(trees.to_vec()), question);
    }
    // "Can I still pick it?", "is it ripe yet?": of the tree told before, and not of all of them.
    if let [Request::Ask(question @ Question::Tree { trees: Selection::All })] =
        reading.requests.as_mut_slice()
        && let Some(([tree], ..)) = addition::just_reported(context)
        && points_to_one(text)
    {
        let trees = Selection::Named(vec![tree.clone()]);
        let picks = asks_to_pick(text);
        *question = if picks { Question::Picking { product: None, trees } } else { Question::Tree { trees } };
    }
    // "I haven't watered anything since Sunday, do the pots need it?"
    let asked = reading.requests.iter_mut().find_map(|request| match request {
        Request::Ask(question) => Some(question),
        _ => None,
    });
    if let Some(question) = asked
        && let Question::Tree { trees } = &*question
        && text.to_lowercase().contains("watered")
        && asks_for_some(text)
    {
        *question = Question::Water { trees: trees.clone() };
    }
    // "Can I pick from Wall? Sprayed it a couple of days ago": whatever with.
    let sprayed = reading.doubts.iter().any(|doubt| doubt.kind == DoubtKind::WhichProduct);
    if let [Request::Ask(question)] = reading.requests.as_mut_slice()
        && let Question::Tree { trees } = &*question
        && sprayed
        && asks_to_pick(text)
    {
        *question = Question::Picking { product: None, trees: trees.clone() };
    }
}

/// "When can I pick?", behind a spray, asks of its wait, not of ripeness or of the days ahead.
fn of_the_wait(text: &str, product: &str, trees: &Selection, question: &mut Question) {
    let of_them = match &*question {
        Question::Tree { trees: asked } => *asked == Selection::All || asked == trees,
        Question::Picking { product: None, trees: asked } => asked == trees,
        Question::Ahead => true,
        _ => false,
    };
    if of_them && asks_to_pick(text) {
        *question = Question::Picking { product: Some(product.to_owned()), trees: trees.clone() };
    }
}

fn record(request: &Request) -> Option<&Record> {
    match request {
        Request::Record(record) => Some(record),
        _ => None,
    }
}

/// "it", "him": one tree, and the figs of one.
fn points_to_one(text: &str) -> bool {
    const MOST_WORDS: usize = 10;
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    let one = |pair: &[String]| {
        let object = pair[1].trim_end_matches(['?', '.', '!', ',']);
        matches!(pair[0].as_str(), "pick" | "eat" | "harvest")
            && matches!(object, "it" | "her" | "him" | "them")
            || matches!(pair[0].as_str(), "is" | "are") && matches!(object, "it" | "he" | "she" | "they")
    };
    words.len() <= MOST_WORDS && words.windows(2).any(one)
}

fn asks_to_pick(text: &str) -> bool {
    let lower = text.to_lowercase();
    [
        "can i pick",
        "can we pick",
        "can i eat",
        "can we eat",
        "i pick them",
        "can i still pick",
        "can we still pick",
        "can i still eat",
        "is it safe to pick",
        "is it ok to pick",
        "i still pick",
        "i can pick",
        "we can pick",
        "i can eat",
        "may i pick",
        "may we pick",
        "may i eat",
        "may we eat",
        "ok to pick",
        "okay to pick",
        "alright to pick",
        "ok to eat",
        "safe to pick",
        "safe to eat",
    ]
    .iter()
    .any(|words| lower.contains(words))
}

/// "... does Eave need any?", "... does Corner want some too?"
fn asks_for_some(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["need", "needs", "require", "want"].iter().any(|verb| {
        ["any", "some", "one", "more", "it"].iter().any(|some| lower.contains(&format!("{verb} {some}")))
    })
}
