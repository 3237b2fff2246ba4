//! Reports taken back in more words than "undo": "eh scratch that last one", "don't put down the watering I told
//! you about".

use super::clauses::Asked;
use super::lexicon::Sense;
use super::tokens::Token;
use super::word_list::words;
use super::{Speech, asides, doubt};
use crate::season::journal::{Entry, Report, What};
use crate::season::request::{DoubtKind, Reading, Request};
use crate::season::selection::selected;

/// Reads a sentence that takes back what was told, if it does.
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> bool {
    const MOST_WORDS: usize = 20;
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    if speech.asked == Asked::Yes || words.len() > MOST_WORDS {
        return false;
    }
    let lead = words.iter().take_while(|token| is_lead(token)).count();
    let words = &words[lead..];
    let whole = words.len() > 1 || words.first().is_some_and(|word| word.is("undo"));
    if lead > 0 && whole && is_undo(words) || is_of_what_was_said(words) || owns_up_and_drops(speech, words) {
        reading.requests.push(Request::Undo);
        return true;
    }
    if let Some(whose) = trees_of_what_was_said(speech, words) {
        let only = speech
            .context
            .last_message
            .iter()
            .chain(speech.context.last)
            .all(|entry| matches!(&entry.what, What::Report { trees, .. } if *trees == whose));
        if only && speech.context.last.is_some() {
            reading.requests.push(Request::Undo);
        } else {
            reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text));
        }
        return true;
    }
    let Some(kind) = kind_taken_back(words) else { return false };
    match meant(speech, kind) {
        Meant::LastMessage => reading.requests.push(Request::Undo),
        Meant::Other => reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text)),
    }
    true
}

/// "Eh", "hang on", "ok so": sounds made before.
fn is_lead(token: &Token) -> bool {
    token.is_any(words!("eh ugh argh ack aw aww er um uh oh ah hmm hm huh whoa gah yikes damn dang darn shoot crap ok so well and hang hold on hey pls please sorry actually wait no"))
}

fn is_undo(words: &[&Token]) -> bool {
    let texts: Vec<&str> = words.iter().map(|token| token.text.as_str()).collect();
    asides::is_undo(&texts)
}

/// "Ignore what I said before", "delete what I just sent you".
fn is_of_what_was_said(words: &[&Token]) -> bool {
    let Some((order, rest)) = words.split_first() else { return false };
    order.is_any(words!("ignore disregard forget scratch delete undo strike erase cancel remove retract scrub"))
        && rest.iter().any(|token| {
            token.is_any(words!(
                "said told wrote typed sent posted put entered logged reported message entry report last previous"
            ))
        })
        && rest.iter().all(|token| {
            token.is_any(words!("that it this last previous latest one my the entry message report what i we i've just said told wrote typed sent posted put entered logged reported you before earlier above a minute second moment ago now there please thing stuff about all of to bit in down"))
        })
}

/// "Forget what I said about Wall": whose report is taken back.
fn trees_of_what_was_said(speech: &Speech, words: &[&Token]) -> Option<Vec<String>> {
    let about = words.iter().rposition(|token| token.is_any(words!("about on for")))?;
    let [mention] = speech.mentions.as_slice() else { return None };
    let first = speech.tokens.get(mention.range.start)?.span.start;
    let named = words.get(about + 1)?.span.start == first
        && words.len() - about - 1 == mention.range.len()
        && is_of_what_was_said(&words[..about]);
    let trees = speech.names.selection(&mention.trees, &[]).filter(|_| named)?;
    Some(selected(speech.context.garden, &trees))
}

/// "I put that down wrong, never mind the whole thing": owned up to, and let go; nothing is told anew.
fn owns_up_and_drops(speech: &Speech, words: &[&Token]) -> bool {
    // "I didn't mean to send that"
    let texts: Vec<&str> = words.iter().map(|token| token.text.as_str()).collect();
    let texts = texts.strip_prefix(&["i"]).unwrap_or(&texts);
    if let [
        "didn't" | "didnt",
        "mean",
        "to",
        "send" | "write" | "say" | "put" | "type" | "post" | "hit",
        rest @ ..,
    ] = texts
        && rest.iter().all(|word| {
            matches!(*word, "that" | "it" | "this" | "one" | "in" | "send" | "last" | "the" | "yet")
        })
    {
        return speech.context.last.is_some();
    }
    let any = |texts| words.iter().any(|token| token.is_any(texts));
    let own = words.windows(2).any(|pair| {
        pair[0].is_any(words!("i we"))
            && pair[1].is_any(words!("put wrote typed said told entered logged noted got"))
    });
    let lets_go = any(words!("nevermind nvm scratch ignore disregard undo"))
        || words.windows(2).any(|pair| {
            pair[0].is("never") && pair[1].is("mind")
                || pair[0].is("forget") && pair[1].is_any(words!("it that the this all"))
        });
    let nothing_anew = speech.mentions.is_empty()
        && !words.iter().any(|token| {
            token.number.is_some()
                || token.senses.has_any(&[
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                    Sense::Time,
                    Sense::Watered,
                    Sense::Sprayed,
                    Sense::Picked,
                    Sense::Rust,
                ])
        });
    own && any(words!("wrong")) && lets_go && nothing_anew && speech.context.last.is_some()
}

/// What kind of report an order takes back: "delete the watering".
fn kind_taken_back(words: &[&Token]) -> Option<Kind> {
    let texts: Vec<&str> = words.iter().map(|token| token.text.as_str()).collect();
    // Nothing but a journal is undone; a rust or a fig can be removed by hand.
    let (order, count) = match texts.as_slice() {
        ["don't" | "dont", "put" | "write" | "note" | "jot" | "mark", "down" | "in", ..] => (Order::Loose, 3),
        ["do", "not", "put" | "write" | "note" | "jot" | "mark", "down" | "in", ..] => (Order::Loose, 4),
        [
            "don't" | "dont",
            "log" | "record" | "note" | "count" | "enter" | "save" | "keep" | "include",
            ..,
        ] => (Order::Loose, 2),
        ["do", "not", "log" | "record" | "note" | "count" | "enter" | "save" | "keep" | "include", ..] => {
            (Order::Loose, 3)
        }
        ["take", "out" | "back" | "off", ..] => (Order::OfWork, 2),
        ["cancel" | "remove", ..] => (Order::OfWork, 1),
        ["ignore" | "disregard" | "forget" | "drop" | "lose", ..] => (Order::Loose, 1),
        ["delete" | "undo" | "scratch" | "strike" | "erase" | "retract" | "scrub" | "wipe", ..] => {
            (Order::Sure, 1)
        }
        _ => return None,
    };
    let rest = &words[count..];
    let determiner = rest
        .iter()
        .take_while(|token| token.is_any(words!("the that my this last latest previous today's")))
        .count();
    let (noun, tail) = rest.get(determiner..)?.split_first()?;
    let kind = Kind::of(noun)?;
    // "The copper spray", "the rain entry"
    let tail = match tail.split_first() {
        Some((next, after)) if Kind::of(next) == Some(kind) => after,
        _ => tail,
    };
    let conditional = tail.iter().any(|token| token.senses.has(Sense::Condition));
    let told = tail.iter().any(|token| {
        token.is_any(words!("entry record report reading told mentioned reported logged said sent gave wrote entered log journal"))
    });
    let bare = tail.iter().all(|token| {
        token.is_any(words!("please pls thanks from today one again too sorry earlier just now"))
    });
    let of_work = noun.text.ends_with("ing") || noun.is_any(words!("spray harvest"));
    let sure = match order {
        Order::Sure => bare || told,
        Order::OfWork => told || bare && of_work,
        Order::Loose => told,
    };
    (determiner > 0 && sure && !conditional).then_some(kind)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Order {
    /// "Delete": of what is written down.
    Sure,
    /// "Cancel": of what is written down or of work.
    OfWork,
    /// "Ignore": of anything.
    Loose,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Watering,
    Spray,
    Harvest,
    Rain,
    Rust,
    Frost,
}

impl Kind {
    fn of(token: &Token) -> Option<Self> {
        let has = |senses: &[Sense]| token.senses.has_any(senses);
        Some(if token.is_any(words!("watering waterings water")) {
            Self::Watering
        } else if has(&[Sense::Copper, Sense::Sulfur, Sense::Oil, Sense::Spray, Sense::Spraying]) {
            Self::Spray
        } else if token.is_any(words!("picking pickings picks pick harvest haul figs")) {
            Self::Harvest
        } else if token.is_any(words!("rain gauge rainfall")) {
            Self::Rain
        } else if token.is_any(words!("rust scouting")) {
            Self::Rust
        } else if token.is_any(words!("frost freeze")) {
            Self::Frost
        } else {
            return None;
        })
    }

    fn is_of(self, entry: &Entry) -> bool {
        let What::Report { report, .. } = &entry.what else { return false };
        matches!(
            (self, report),
            (Self::Watering, Report::Watered { .. })
                | (Self::Spray, Report::Sprayed { .. })
                | (Self::Harvest, Report::Picked { .. })
                | (Self::Rain, Report::Rained { .. })
                | (Self::Rust, Report::Scouted { .. })
                | (Self::Frost, Report::Frost { .. })
        )
    }
}

enum Meant {
    LastMessage,
    /// An older one, or a part of the last one.
    Other,
}

fn meant(speech: &Speech, kind: Kind) -> Meant {
    let context = speech.context;
    // What the same message told before has no message of its own yet.
    let all = context.last_message.iter().chain(context.last).all(|entry| kind.is_of(entry));
    if all && context.last.is_some() { Meant::LastMessage } else { Meant::Other }
}

/// "Erase rust on Wall", "change the spray to sulfur": an order to mend what stands, whatever else it says.
pub(super) fn is_order(tokens: &[Token]) -> bool {
    let Some(first) = tokens.first() else { return false };
    let of_report = || {
        tokens.iter().any(|token| {
            token.senses.has_any(&[Sense::Rust, Sense::Spray, Sense::Watering, Sense::Watered])
                || token.is_any(words!("picks entry report harvest"))
        })
    };
    first.is_any(words!("delete erase scrub strike cross cancel change"))
        || first.is_any(words!("remove take")) && of_report()
}
