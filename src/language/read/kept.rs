//! What of a message is kept beside what was understood of it, and what must not be lost.

use super::lexicon::Sense;
use super::word_list::words;
use super::{Context, doubt, lost, names, tokens};
use crate::season::journal::Report;
use crate::season::request::{Aside, Doubt, DoubtKind, Reading, Record, Request};

/// "Deck watered today or was it yesterday, idk": which of them it was changes the day, and nobody knows.
pub(super) fn doubt_torn_days(text: &str, reading: &mut Reading) {
    const DAYS: [&str; 12] = [
        "yesterday",
        "today",
        "this morning",
        "last night",
        "monday",
        "tuesday",
        "wednesday",
        "thursday",
        "friday",
        "saturday",
        "sunday",
        "ystrdy",
    ];
    let told = |request: &Request| matches!(request, Request::Record(_));
    if reading.requests.iter().filter(|request| told(request)).count() != 1 || text.contains('?') {
        return;
    }
    let lower = text.to_lowercase();
    let torn = ["or was it ", "or was that ", "or maybe "].iter().any(|or| {
        lower.find(or).is_some_and(|at| {
            let behind = lower[at + or.len()..].trim_start_matches("on ");
            DAYS.iter().any(|day| behind.starts_with(day)) && DAYS.iter().any(|day| lower[..at].contains(day))
        })
    });
    if torn {
        reading.requests.retain(|request| !told(request));
        reading.doubts.push(doubt(DoubtKind::UnclearReport, text));
    }
}

/// "Hi there, just up", "good evening, I hope that I find you well": greeted, whatever is said behind it.
pub(super) fn greet_in_passing(text: &str, names: &names::Names, reading: &mut Reading) {
    const GREETINGS: [&str; 8] = [
        "hi there",
        "hello there",
        "good morning",
        "good evening",
        "good afternoon",
        "hello again",
        "hi again",
        "greetings",
    ];
    const MOST_WORDS: usize = 12;
    let talk = reading.doubts.is_empty() && reading.requests == [Request::Aside(Aside::Talk)]
        || reading.requests.is_empty()
            && matches!(reading.doubts.as_slice(), [Doubt { kind: DoubtKind::NotUnderstood, .. }]);
    if !talk || text.split_whitespace().count() > MOST_WORDS {
        return;
    }
    let lower = text.trim().to_lowercase();
    let greets = GREETINGS
        .iter()
        .any(|greeting| lower.strip_prefix(greeting).is_some_and(|rest| rest.starts_with([',', '!', '.'])));
    let to_somebody = || tokens::tokens(text).iter().any(|token| names.is_person(&token.text));
    // "Good evening ji", "the good evening to you, bot"
    const SHORT: usize = 6;
    let short = text.split_whitespace().count() <= SHORT
        && ["good morning", "good evening", "good afternoon", "good day"].iter().any(|greeting| {
            lower.starts_with(greeting)
                || lower.strip_prefix("the ").is_some_and(|rest| rest.starts_with(greeting))
        })
        && !lower.contains(" for ");
    let greets = greets || short;
    // "Hello, good afternoon, how are you?"
    let asked_after = ["hello", "hi", "hey", "good "].iter().any(|greeting| lower.starts_with(greeting))
        && ["how are you", "how are ya", "how r u", "how you doing", "how are things", "how do you do"]
            .iter()
            .any(|after| lower.trim_end_matches(['?', '!', '.', ' ']).ends_with(after));
    // "Hello, is anyone there?", "hi! is this thing on?"
    let anybody = ["hello", "hi", "hey", "good morning", "good evening"]
        .iter()
        .any(|greeting| lower.starts_with(greeting))
        && [
            "is anyone there",
            "is anybody there",
            "anyone there",
            "anybody there",
            "anyone home",
            "anybody home",
            "is this thing on",
            "is this on",
            "you there",
            "are you there",
        ]
        .iter()
        .any(|asked| lower.contains(asked));
    // "Hello dear, it's only me", "hi hi, just back from vacation"
    let first = lower.split([',', '!', '.']).next().unwrap_or_default().trim();
    let only_greeting = [
        "hello dear",
        "hi hi",
        "hi all",
        "hello again",
        "hi guys",
        "hey guys",
        "hello friends",
        "hi friend",
        "hello love",
        "hi everyone",
        "hello everyone",
        "hey all",
        "hi folks",
        "hello folks",
    ]
    .contains(&first);
    if (greets || asked_after || anybody || only_greeting) && !to_somebody() {
        reading.requests = vec![Request::Greet];
        reading.doubts.clear();
    }
}

/// "My wife wants in on this. Add @jo:example.org": her address is told.
pub(super) fn with_address(reading: &mut Reading) {
    let added = reading
        .requests
        .iter()
        .any(|request| matches!(request, Request::Set(crate::season::request::Setting::Person { .. })));
    if added {
        reading.doubts.retain(|doubt| doubt.kind != DoubtKind::UnknownPerson);
    }
}

/// "I sprayed Wall with mouthwash. Kidding!!": none of it was so.
pub(super) fn drop_jokes(text: &str, reading: &mut Reading) {
    if is_taken_back_in_jest(text) {
        *reading = Reading { requests: vec![Request::Aside(Aside::Talk)], ..Reading::default() };
        return;
    }
    let trimmed = text.trim().trim_end_matches(['!', '.', ' ']).to_lowercase();
    let last = trimmed.rsplit(['.', '!', '?', '\n']).next().unwrap_or_default().trim();
    let joke = matches!(
        last,
        "kidding" | "just kidding" | "jk" | "im kidding" | "i'm kidding" | "only joking" | "just joking"
    );
    if joke && last.len() < trimmed.len() {
        *reading = Reading { requests: vec![Request::Aside(Aside::Talk)], ..Reading::default() };
    }
}

/// "... and I picked them all, kidding it's a stick": a word of jest behind what was told, and little behind it.
fn is_taken_back_in_jest(text: &str) -> bool {
    const MOST_BEHIND: usize = 4;
    let lower = text.to_lowercase();
    let Some(at) = lower.find("kidding ").filter(|at| *at > 0) else { return false };
    let before = lower[..at].split_whitespace().last().unwrap_or_default();
    let earnest = matches!(before, "no" | "not" | "isn't" | "isnt" | "aint" | "ain't" | "you're" | "youre");
    let behind = &lower[at + "kidding ".len()..];
    let behind = &behind[..behind.find(['.', '!', '\n']).unwrap_or(behind.len())];
    let told = behind.contains(|letter: char| letter.is_ascii_digit()) || behind.starts_with("aside");
    !earnest && !told && (1..=MOST_BEHIND).contains(&behind.split_whitespace().count())
}

/// What looks like a report and was taken for talk, or for words that in a room need no answer, is asked back.
pub(super) fn keep_from_loss(text: &str, names: &names::Names, context: &Context, reading: &mut Reading) {
    let talk = reading.doubts.is_empty() && reading.requests == [Request::Aside(Aside::Talk)];
    let puzzled = reading.requests.is_empty()
        && matches!(reading.doubts.as_slice(), [Doubt { kind: DoubtKind::NotUnderstood, .. }]);
    if talk && let Some(product) = lost::out_of_stock(text, names) {
        *reading = Reading { doubts: vec![doubt(DoubtKind::OutOfStock, product)], ..Reading::default() };
    } else if (talk || puzzled)
        && let Some(trees) = lost::seen_of_no_kind(text, names)
    {
        let record = Record {
            trees: crate::season::request::Selection::Named(trees),
            when: crate::season::request::When::Unsaid,
            report: Report::Note { text: text.trim().to_owned() },
        };
        *reading = Reading { requests: vec![Request::Record(record)], ..Reading::default() };
    } else if (talk || puzzled) && lost::is_lost_report(text, names, context) {
        *reading = Reading { doubts: vec![doubt(DoubtKind::UnclearReport, text)], ..Reading::default() };
    }
}

/// Beside something understood, talk needs no word; asides are said once.
/// A note keeps its writer's own words, and not the plainer ones it was read in.
pub(super) fn in_own_words(text: &str, reading: &mut Reading) {
    for request in &mut reading.requests {
        let Request::Record(Record { report: Report::Note { text: note }, .. }) = request else { continue };
        if text.contains(note.as_str()) {
            continue;
        }
        let words: Vec<&str> = note.split_whitespace().collect();
        let shared = |told: &str| told.split_whitespace().filter(|word| words.contains(word)).count();
        let own =
            super::clauses::sentences(text).map(|sentence| sentence.text).max_by_key(|told| shared(told));
        if let Some(own) = own.filter(|own| shared(own) * 2 > words.len()) {
            *note = own.to_owned();
        }
    }
}

pub(super) fn keep_what_matters(names: &names::Names, reading: &mut Reading) {
    let understood = reading.requests.iter().any(|request| {
        !matches!(request, Request::Aside(_) | Request::Greet | Request::Confirm | Request::Decline)
    });
    if understood {
        // "I got down and looked under the leaves of Wall. No rust at all": where it was seen.
        let seen = reading
            .requests
            .iter()
            .any(|request| matches!(request, Request::Record(Record { report: Report::Scouted { .. }, .. })));
        let only_looked = |words: &str| {
            let tokens = tokens::tokens(words);
            tokens.iter().any(|token| token.is_any(words!("looked checked examined inspected peeked")))
                && tokens.iter().all(|token| token.number.is_none())
                && !tokens.iter().any(|token| {
                    token.senses.has_any(&[
                        Sense::Rust,
                        Sense::Spots,
                        Sense::Sprayed,
                        Sense::Watered,
                        Sense::Picked,
                        Sense::Dry,
                        Sense::Wet,
                    ])
                })
        };
        reading
            .doubts
            .retain(|doubt| doubt.kind != DoubtKind::NotUnderstood || !(seen && only_looked(&doubt.words)));
        reading.doubts.retain(|doubt| {
            doubt.kind != DoubtKind::NotUnderstood
                || doubt.words.len() > MOST_CHATTER
                    && !is_small_talk(&doubt.words, names, Beside::SomethingUnderstood)
        });
        reading.requests.retain(|request| {
            !matches!(request, Request::Aside(_) | Request::Greet | Request::Confirm | Request::Decline)
        });
        return;
    }
    let telling = reading
        .requests
        .iter()
        .any(|request| matches!(request, Request::Aside(Aside::Plan | Aside::Condition | Aside::Elsewhere)));
    // "No rain today. Sky lied": few words of nothing in the garden, beside talk.
    let talked = reading.requests.iter().any(|request| matches!(request, Request::Aside(_)));
    let planned = reading.requests.contains(&Request::Aside(Aside::Plan));
    if telling {
        reading.doubts.retain(|doubt| {
            doubt.kind != DoubtKind::NotUnderstood || !is_small_talk(&doubt.words, names, Beside::Talk)
        });
    }
    if talked && !planned {
        reading.doubts.retain(|doubt| doubt.kind != DoubtKind::NotUnderstood || !is_idle_talk(&doubt.words));
    }
    let mut kept: Vec<Request> = Vec::new();
    for request in reading.requests.drain(..) {
        let idle = matches!(
            request,
            Request::Aside(Aside::Talk | Aside::Thanks) | Request::Confirm | Request::Greet
        );
        if kept.contains(&request) || telling && idle || idle && !reading.doubts.is_empty() {
            continue;
        }
        kept.push(request);
    }
    // Thanks with talk around it is thanks.
    if kept.contains(&Request::Aside(Aside::Thanks)) {
        kept.retain(|request| *request != Request::Aside(Aside::Talk));
    }
    if kept.len() > 1 {
        kept.retain(|request| *request != Request::Aside(Aside::Talk));
    }
    reading.requests = kept;
}

/// What words not understood stand beside.
#[derive(Clone, Copy)]
enum Beside {
    SomethingUnderstood,
    Talk,
}

/// Words of the language, and none of the garden's, of an amount or of a tree: "I've got cards at eight", "starving".
fn is_small_talk(words: &str, names: &names::Names, beside: Beside) -> bool {
    const BESIDES: &[Sense] = &[
        Sense::Spraying,
        Sense::Water,
        Sense::Watering,
        Sense::Pick,
        Sense::Picking,
        Sense::OtherProduct,
        Sense::Moist,
        Sense::Gauge,
        Sense::Frost,
        Sense::Rained,
        Sense::Ripe,
        Sense::Ripening,
        Sense::Unit,
        Sense::Weighed,
    ];
    let tokens = tokens::tokens(words);
    let spoken = tokens.iter().filter(|token| token.is_word()).count();
    let unknown = tokens.iter().filter(|token| names::is_unknown(token)).count();
    let plain = unknown * 5 <= spoken;
    let (known, only_named) = match beside {
        Beside::Talk => (plain, false),
        // "I got down and looked Corner over": a tree named in plain words, and nothing said of her.
        Beside::SomethingUnderstood => {
            (unknown * 3 <= spoken * 2, plain && tokens.iter().all(|token| token.number.is_none()))
        }
    };
    words.is_ascii()
        && spoken >= 2
        && known
        && names
            .mentions(&tokens, words)
            .iter()
            .all(|mention| only_named || mention.trees.is_all() || mention.trees.is_vague())
        && !tokens.iter().any(|token| {
            token.senses.has_any(OF_GARDEN)
                || token.senses.has_any(BESIDES) && !token.is("in")
                || token.is("?")
        })
}

/// So few words, and none of the garden's, a figure or a question.
fn is_idle_talk(words: &str) -> bool {
    // A word alone may be a name.
    const WORDS: std::ops::RangeInclusive<usize> = 2..=3;
    let tokens = tokens::tokens(words);
    words.is_ascii()
        && WORDS.contains(&tokens.iter().filter(|token| token.is_word()).count())
        && !tokens
            .iter()
            .any(|token| token.number.is_some() || token.is("?") || token.senses.has_any(OF_GARDEN))
}

/// What no talk of other things is made of.
const OF_GARDEN: &[Sense] = &[
    Sense::Rust,
    Sense::Spots,
    Sense::Leaf,
    Sense::Fig,
    Sense::Tree,
    Sense::Pot,
    Sense::Pots,
    Sense::Spray,
    Sense::Sprayed,
    Sense::Watered,
    Sense::Picked,
    Sense::Copper,
    Sense::Sulfur,
    Sense::Oil,
    Sense::Dry,
    Sense::Wet,
];

/// Words not understood beside something that was: so few are an interjection.
const MOST_CHATTER: usize = 24;
