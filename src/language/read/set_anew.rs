//! What was settled just now, put right or gone on with in other words: "*Hardy Chicago, cant spell today", "nah take him
//! off", "wait no Bridgeton NJ, thats the right town", "I forgot to say, that one lives in a pot, five gallons".
//!
//! Read only where the whole message settled nothing, within the hour, and only of the same tree, spray or kind of
//! setting; nothing new is begun here.

use super::Context;
use crate::season::journal::What;
use crate::season::request::{Aside, Reading, Request, Setting};

const MOST_WORDS: usize = 40;

pub(super) fn read(
    text: &str,
    whole: &Reading,
    context: &Context,
    read: impl Fn(&str) -> Reading,
) -> Option<Reading> {
    let What::Setting(last) = &context.just_said()?.what else { return None };
    let settled = whole.requests.iter().any(|request| {
        !matches!(request, Request::Aside(Aside::Talk | Aside::Plan | Aside::Elsewhere) | Request::Correct(_))
    });
    if settled || text.contains(['?', '\n']) || text.split_whitespace().count() > MOST_WORDS {
        return None;
    }
    let of = |setting: Setting| Reading { requests: vec![Request::Set(setting)], ..Reading::default() };
    match last {
        Setting::Tree(details) => {
            if let Some(to) = respelt(text, &details.name) {
                return Some(of(Setting::RenameTree { from: details.name.clone(), to }));
            }
        }
        Setting::Person { id, .. } if takes_off(text) => {
            return Some(of(Setting::RemovePerson { id: id.clone() }));
        }
        _ => {}
    }
    cuts(text)
        .into_iter()
        .map(|part| with_name(part, last))
        .map(|part| read(&part))
        .find(|told| told.doubts.is_empty() && is_of_the_same(told, last))
}

/// "*Hardy Chicago, cant spell today", "I mean Miss Opel": the name just told, spelt a little otherwise.
fn respelt(text: &str, name: &str) -> Option<String> {
    const MOST_SLIPS: usize = 3;
    const SHORTEST: usize = 4;
    let count = name.split_whitespace().count();
    let words: Vec<&str> = text
        .split_whitespace()
        .map(|word| word.trim_matches(|letter: char| !letter.is_alphanumeric()))
        .collect();
    let lower = name.to_lowercase();
    if name.chars().count() < SHORTEST || words.len() < count {
        return None;
    }
    let meant = words.windows(count).map(|words| words.join(" ")).find(|meant| {
        let slips = strsim::damerau_levenshtein(&meant.to_lowercase(), &lower);
        (1..=MOST_SLIPS.min(name.chars().count() / 4)).contains(&slips)
    })?;
    // "Celeste in the ground", "Celestes are hardy": one is told of, not spelt anew.
    let owns_up = text.starts_with('*')
        || ["spel", "typo", "i mean", "i ment", "meant", "should be", "misspelt", "wrong"]
            .iter()
            .any(|own| text.to_lowercase().contains(own));
    let plural = meant.to_lowercase().strip_suffix('s') == Some(lower.as_str());
    (owns_up && !plural).then_some(meant)
}

/// "Nah take him off", "remove her again please"
fn takes_off(text: &str) -> bool {
    const MOST_WORDS: usize = 9;
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower
        .split_whitespace()
        .map(|word| word.trim_matches(|letter: char| !letter.is_alphanumeric()))
        .collect();
    let has = |any: &[&str]| words.iter().any(|word| any.contains(word));
    let order = has(&["take", "get"]) && has(&["off", "out"]) || has(&["remove", "delete", "drop", "kick"]);
    order
        && has(&["him", "her", "them"])
        && !has(&["not", "don't", "dont", "never"])
        && words.len() <= MOST_WORDS
}

/// What stands behind a lead, the longest first, and then what stands before a tail.
fn cuts(text: &str) -> Vec<&str> {
    const JOINTS: [&str; 6] = [", ", ": ", ". ", "! ", ".. ", " - "];
    const MOST: usize = 8;
    let mut cuts: Vec<(usize, usize)> = JOINTS
        .iter()
        .flat_map(|joint| text.match_indices(joint).map(|(at, joint)| (at, at + joint.len())))
        .collect();
    cuts.sort_unstable();
    cuts.truncate(MOST);
    let tails = cuts.iter().map(|(_, behind)| &text[*behind..]);
    let heads = cuts.iter().rev().map(|(at, _)| &text[..*at]);
    tails.chain(heads).chain(std::iter::once(text)).collect()
}

/// "That one lives in a pot": the tree told of.
fn with_name(part: &str, last: &Setting) -> String {
    const LEADS: [&str; 10] = [
        "that one lives ",
        "that one is ",
        "that one's ",
        "it lives ",
        "she lives ",
        "he lives ",
        "it's ",
        "its ",
        "jk its ",
        "jk it's ",
    ];
    let Setting::Tree(details) = last else { return part.to_owned() };
    let lower = part.to_ascii_lowercase();
    if let Some(lead) = LEADS.iter().find(|lead| lower.starts_with(**lead)) {
        let behind = &part[lead.len()..];
        return if behind.starts_with(|first: char| first.is_ascii_digit()) {
            format!("no, {behind}")
        } else {
            format!("{} is {behind}", details.name)
        };
    }
    part.to_owned()
}

/// It settles the same tree or spray, or the one thing of its kind, and nothing else.
fn is_of_the_same(told: &Reading, last: &Setting) -> bool {
    let mut settings =
        told.requests.iter().filter(|request| !matches!(request, Request::Aside(_))).peekable();
    settings.peek().is_some()
        && settings.all(|request| match (request, last) {
            (Request::Set(Setting::Tree(anew)), Setting::Tree(told)) => anew.name == told.name,
            (Request::Set(Setting::RenameTree { from, .. }), Setting::Tree(told)) => *from == told.name,
            (Request::Set(Setting::Product(anew)), Setting::Product(told)) => anew.name == told.name,
            (Request::Set(anew), last) => {
                !matches!(anew, Setting::Tree(_) | Setting::Product(_) | Setting::Person { .. })
                    && std::mem::discriminant(anew) == std::mem::discriminant(last)
            }
            _ => false,
        })
}
