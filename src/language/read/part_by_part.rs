//! A message read sentence by sentence, each as if it had been sent by itself behind the one before, for what the whole
//! of it lost: "Whip weighed 6.4 kg dry; then watered it, 2 L.", "copper every 10 days, put that in. wall ok to pick?".
//!
//! What the whole told stands. Added is only what is of another kind than all of it, from a sentence understood to its
//! end; and where plans or other gardens are spoken of, no report is added.

use super::names::Names;
use super::{Context, apart, fresh, likeness, story};
use crate::identity::{EventId, PersonId};
use crate::season::garden::Garden;
use crate::season::journal::{Entry, Report, Timing, What};
use crate::season::request::{Aside, Question, Reading, Request, Selection};
use crate::season::selection::selected;

const MOST_WORDS: usize = 80;
const MOST_PARTS: usize = 6;

/// The whole with what its sentences tell besides, if they do.
pub(super) fn read(text: &str, whole: &Reading, names: &Names, context: &Context) -> Option<Reading> {
    let parts = sentences(text);
    let fits = (2..=MOST_PARTS).contains(&parts.len()) && text.split_whitespace().count() <= MOST_WORDS;
    let corrects = whole.requests.iter().any(|request| {
        matches!(
            request,
            Request::Correct(_) | Request::Undo | Request::Confirm | Request::Decline | Request::ForgetMe
        )
    });
    if !fits || corrects || spoken(whole).is_empty() {
        return None;
    }
    let told = each(text, &parts, context)?;
    if let Some(asked) = only_questions(whole, &told) {
        return Some(Reading { requests: asked, ..whole.clone() });
    }
    let mut requests = whole.requests.clone();
    let mut added = false;
    for ((from, to), told) in parts.iter().zip(told) {
        let part = &text[*from..*to];
        let more: Vec<Request> = told
            .into_iter()
            .filter(|request| may_be_added(request, part, whole))
            .filter(|request| !whole.requests.iter().any(|known| likeness::is_like(known, request)))
            .collect();
        // What was read is read without it too: nothing of it was used.
        let unused = |whole: &Reading| {
            let rest = fresh(&likeness::without(text, *from, *to), names, context);
            spoken(&rest) == spoken(whole)
        };
        if !more.is_empty() && unused(whole) {
            requests.retain(|known| *known != Request::Aside(Aside::Talk));
            requests.extend(more);
            added = true;
        }
    }
    added.then(|| Reading { requests, ..whole.clone() })
}

/// "How do the pots compare? And what was Wall given last month?": as many questions as sentences, each as it is read by
/// itself.
fn only_questions(whole: &Reading, told: &[Vec<Request>]) -> Option<Vec<Request>> {
    let asked: Vec<&Request> = told.iter().flatten().collect();
    let each_asks = told.iter().all(|part| matches!(part.as_slice(), [Request::Ask(_)]));
    // "Sulfur how often? And ok with copper in the same tank?" needs both sentences.
    let asks = whole.requests.iter().all(|request| {
        matches!(request, Request::Ask(question) if !matches!(question, Question::Together { .. } | Question::Why { .. }))
    });
    let differ = asked.iter().zip(&whole.requests).any(|(one, other)| !likeness::is_like(one, other));
    (each_asks && asks && differ && asked.len() == whole.requests.len())
        .then(|| asked.into_iter().cloned().collect())
}

fn may_be_added(request: &Request, part: &str, whole: &Reading) -> bool {
    const FEWEST_WORDS: usize = 3;
    match request {
        Request::Record(record) => !speaks_of_others(whole) && !matches!(record.report, Report::Note { .. }),
        // "People:" heads a list and asks nothing.
        Request::Ask(question) => {
            let asked = part.contains('?')
                || part.split_whitespace().count() >= FEWEST_WORDS && !part.trim_end().ends_with(':');
            let asked_already = whole.requests.iter().any(|request| matches!(request, Request::Ask(_)));
            asked
                && !matches!(question, Question::Help | Question::Why { .. })
                && !(asked_already && *question == Question::Ahead)
        }
        Request::Set(_) => true,
        _ => false,
    }
}

fn spoken(reading: &Reading) -> Vec<&Request> {
    reading.requests.iter().filter(|request| !matches!(request, Request::Aside(_) | Request::Greet)).collect()
}

fn speaks_of_others(whole: &Reading) -> bool {
    whole
        .requests
        .iter()
        .any(|request| matches!(request, Request::Aside(Aside::Elsewhere | Aside::Plan | Aside::Condition)))
}

/// What each part tells behind the one before; nothing where one of them is in doubt.
fn each(text: &str, parts: &[(usize, usize)], context: &Context) -> Option<Vec<Vec<Request>>> {
    let mut garden: Garden = context.garden.clone();
    let mut last: Option<Entry> = context.last.cloned();
    let mut told = Vec::new();
    let mut spoken_of: Option<Selection> = None;
    for (from, to) in parts {
        let part = &text[*from..*to];
        let names = Names::of(&garden);
        let here = Context { garden: &garden, last: last.as_ref(), last_message: &[], ..*context };
        let whole = fresh(part, &names, &here);
        let reading = story::left_out(part, &whole, &here, |told| fresh(told, &names, &here))
            .or_else(|| apart::read(part, &whole, &here))
            .unwrap_or(whole);
        let reading = likeness::of_sentence(part, &reading, &names, &here).unwrap_or(reading);
        if !reading.doubts.is_empty() {
            return None;
        }
        let mut reading = reading;
        if let Some(trees) = spoken_of.as_ref().filter(|_| apart::points_back(part)) {
            reading.requests.iter_mut().for_each(|request| ask_of(request, trees));
        }
        for request in &reading.requests {
            match request {
                Request::Correct(_) | Request::Undo => return None,
                Request::Set(setting) => setting.apply(&mut garden),
                Request::Record(record) => {
                    spoken_of = Some(record.trees.clone());
                    last = Some(Entry {
                        who: PersonId::new(""),
                        event: EventId::new(""),
                        said: context.at,
                        happened: context.at,
                        timing: Timing::Assumed,
                        what: What::Report {
                            trees: selected(context.garden, &record.trees),
                            report: record.report.clone(),
                        },
                    });
                }
                _ => {}
            }
        }
        told.push(reading.requests);
    }
    Some(told)
}

/// "And how's it doing otherwise?": of the tree spoken of.
fn ask_of(request: &mut Request, trees: &Selection) {
    let Request::Ask(
        Question::Tree { trees: asked }
        | Question::Water { trees: asked }
        | Question::Done { trees: asked, .. },
    ) = request
    else {
        return;
    };
    if matches!(asked, Selection::Unsaid | Selection::All) {
        asked.clone_from(trees);
    }
}

/// Where each sentence stands: from and up to, without the blanks around it.
fn sentences(text: &str) -> Vec<(usize, usize)> {
    const ENDS: [&str; 5] = [". ", "! ", "? ", "; ", "\n"];
    let mut cuts: Vec<usize> = ENDS
        .iter()
        .flat_map(|end| text.match_indices(end).map(|(at, end)| at + end.len()))
        .chain([0, text.len()])
        .collect();
    cuts.sort_unstable();
    cuts.dedup();
    cuts.windows(2)
        .filter_map(|pair| {
            let typed = text.get(pair[0]..pair[1])?;
            let part = typed.trim_end().trim_end_matches(';');
            let from = pair[0] + (part.len() - part.trim_start().len());
            part.chars().any(char::is_alphanumeric).then_some((from, pair[0] + part.len()))
        })
        .collect()
}
