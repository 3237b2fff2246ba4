//! Talk that is not for the journal, and words too short to be anything else.

use super::lexicon::Sense;
use super::tokens::{Token, folded};
use super::{Speech, doubt};
use crate::season::request::{Aside, DoubtKind, Reading, Request};

/// Greetings, thanks, yes and no, undo, forget me: whole sentences of a few words.
pub(super) fn short(speech: &Speech, reading: &mut Reading) -> bool {
    let words: Vec<&str> =
        speech.tokens.iter().filter(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    let line = words.join(" ");
    let request = match line.as_str() {
        "yes" | "yeah" | "yep" | "yup" | "sure" | "ok" | "okay" | "right" | "correct" | "y"
        | "yes please" | "do it" => Request::Confirm,
        "no" | "nope" | "nah" | "n" | "no thanks" | "cancel" => Request::Decline,
        "hello" | "hi" | "hey" | "hi there" | "hello there" | "good morning" | "morning" | "start"
        | "begin" | "set up" | "setup" => Request::Greet,
        "yes forget me"
        | "forget me"
        | "delete my data"
        | "forget everything about me"
        | "delete everything about me"
        | "remove my data" => Request::ForgetMe,
        _ if is_undo(&words) => Request::Undo,
        _ if is_thanks(&words) => Request::Aside(Aside::Thanks),
        _ => return false,
    };
    reading.requests.push(request);
    true
}

fn is_undo(words: &[&str]) -> bool {
    let line = words.join(" ");
    let line = line
        .strip_prefix("oops ")
        .or_else(|| line.strip_prefix("sorry "))
        .or_else(|| line.strip_prefix("no "))
        .unwrap_or(&line);
    let line = line.strip_suffix(" please").unwrap_or(line);
    matches!(
        line,
        "undo"
            | "undo that"
            | "undo it"
            | "undo last"
            | "undo the last"
            | "undo the last one"
            | "undo last one"
            | "scratch that"
            | "scratch it"
            | "scratch that last one"
            | "take that back"
            | "take it back"
            | "forget that"
            | "forget that one"
            | "forget that last one"
            | "forget the last one"
            | "delete that"
            | "delete the last one"
            | "delete last"
            | "remove that"
            | "remove the last one"
            | "cancel that"
            | "ignore that"
            | "ignore the last one"
            | "disregard"
            | "disregard that"
            | "strike that"
            | "never mind that"
            | "nevermind that"
            | "that was wrong"
            | "that's wrong"
            | "oops"
            | "my mistake"
            | "wrong one"
    )
}

fn is_thanks(words: &[&str]) -> bool {
    const THANKS: [&str; 8] = ["thanks", "thank", "thx", "ty", "cheers", "appreciated", "tysm", "thanx"];
    const AROUND: [&str; 24] = [
        "you", "so", "much", "a", "lot", "lots", "great", "good", "ok", "okay", "cool", "perfect", "awesome",
        "nice", "bot", "leafhold", "very", "many", "for", "that", "the", "help", "got", "it",
    ];
    words.iter().any(|word| THANKS.contains(word))
        && words.len() <= 8
        && words.iter().all(|word| THANKS.contains(word) || AROUND.contains(word))
}

/// A sentence of signs alone: a thumb is thanks, anything else is talk.
pub(super) fn signs(text: &str, reading: &mut Reading) {
    let letters: Vec<char> = text.chars().filter(|letter| !letter.is_whitespace()).collect();
    let is_thumb = letters.iter().any(|letter| matches!(letter, '👍' | '👌' | '🙏' | '❤' | '🎉'));
    let shows_something = letters.iter().any(|letter| !letter.is_ascii_punctuation());
    if is_thumb {
        reading.requests.push(Request::Aside(Aside::Thanks));
    } else if shows_something {
        reading.requests.push(Request::Aside(Aside::Talk));
    }
}

/// Why a clause that looks like a report is none; `None` when it may be one.
pub(super) fn not_a_report(clause: &[Token], sentence: &[Token], in_question: bool) -> Option<Aside> {
    if in_question {
        return Some(Aside::Talk);
    }
    if is_condition(clause, sentence) {
        return Some(Aside::Condition);
    }
    if is_elsewhere(sentence) {
        return Some(Aside::Elsewhere);
    }
    if is_future(clause, sentence) {
        return Some(Aside::Plan);
    }
    None
}

fn is_condition(clause: &[Token], sentence: &[Token]) -> bool {
    let opens = |token: &Token| token.is_any(&["if", "unless", "whenever", "assuming", "suppose"]);
    // "not sure if" and "see if" ask, they set no condition; a wish ends in one all the same.
    clause.iter().any(opens)
        || sentence.iter().take(3).any(opens)
        || sentence.windows(2).any(|pair| pair[0].is("in") && pair[1].is("case"))
        || sentence.windows(2).any(|pair| pair[0].is("as") && pair[1].is("soon"))
}

/// Somebody else's garden, another year, another plant, or metal.
fn is_elsewhere(sentence: &[Token]) -> bool {
    let text: Vec<&str> = sentence.iter().map(|token| token.text.as_str()).collect();
    let pair = |first: &[&str], second: &[&str]| {
        text.windows(2).any(|words| first.contains(&words[0]) && second.contains(&words[1]))
    };
    let other_year = pair(
        &["last", "previous", "prior", "past", "every"],
        &["year", "season", "summer", "fall", "autumn", "spring", "winter", "yr", "years", "seasons"],
    ) || pair(&["year", "years", "yrs"], &["ago", "back"])
        || pair(&["when", "growing"], &["kid", "child", "up"])
        || text.contains(&"used")
        || sentence.iter().any(|token| {
            token.number.is_some_and(|year| (1900.0..2100.0).contains(&year) && token.text.len() == 4)
                && !text.contains(&"-")
        });
    // "They" alone are as often the trees as the neighbours.
    let person = sentence
        .iter()
        .any(|token| token.senses.has(Sense::Other) && !token.is_any(&["they", "their", "it"]))
        || pair(&["her", "his", "their"], &["tree", "trees", "fig", "figs", "garden", "pots"]);
    let plant = sentence.iter().any(|token| {
        token.senses.has(Sense::Plant) || (token.senses.has(Sense::Metal) && !token.senses.has(Sense::Pots))
    });
    let hearsay =
        pair(&["they", "people", "everyone", "forecast", "news"], &["say", "says", "said", "saying"]);
    let read_about = hearsay
        || pair(&["read", "heard", "saw"], &["about", "that", "online", "somewhere"])
        || text.contains(&"online")
        || text.contains(&"forum");
    other_year || person || plant || read_about
}

/// Still to be done. "Should have" and "was going to" are past plans, and no reports either.
fn is_future(clause: &[Token], sentence: &[Token]) -> bool {
    let future = |tokens: &[Token]| {
        tokens.iter().enumerate().any(|(index, token)| {
            token.senses.has(Sense::Future)
                && !(token.is("may") && tokens.get(index + 1).is_some_and(|next| next.number.is_some()))
                && (!token.is("going") || tokens.get(index + 1).is_some_and(|next| next.is("to")))
                && !(token.is("later")
                    && tokens
                        .get(index.wrapping_sub(1))
                        .is_some_and(|before| before.is_any(&["hours", "days", "minutes", "hour"])))
                && !(token.is("soon")
                    && tokens.get(index.wrapping_sub(1)).is_some_and(|before| before.is("as")))
        })
    };
    let about_to = sentence.windows(2).any(|pair| pair[0].is("about") && pair[1].is("to"));
    let coming =
        sentence.iter().any(|token| token.is_any(&["coming", "forecasted", "expected", "predicted"]))
            && sentence.iter().any(|token| token.senses.has(Sense::Frost) || token.senses.has(Sense::Rain));
    let next = sentence.windows(2).any(|pair| {
        pair[0].is("next")
            && pair[1].is_any(&[
                "week",
                "month",
                "weekend",
                "time",
                "year",
                "monday",
                "tuesday",
                "wednesday",
                "thursday",
                "friday",
                "saturday",
                "sunday",
            ])
    }) || sentence.windows(2).any(|pair| pair[0].is("this") && pair[1].is("weekend"));
    future(clause)
        || about_to
        || coming
        || next
        || clause.iter().any(|token| token.is("tonight"))
            && clause.iter().any(|token| token.is_any(&["spray", "water", "pick"]))
}

/// A word that mixes alphabets: "с" of another alphabet in a Latin word is a slip or a trick.
pub(super) fn mixed_letters(text: &str) -> Option<String> {
    let foreign = |letter: char| matches!(letter, '\u{370}'..='\u{3ff}' | '\u{400}'..='\u{52f}' | '\u{13a0}'..='\u{13ff}');
    text.split_whitespace()
        .find(|word| word.chars().any(foreign) && word.chars().any(|letter| letter.is_ascii_alphabetic()))
        .map(str::to_owned)
}

/// Words that other languages have in nearly every sentence and this one has not.
pub(super) fn is_other_language(text: &str) -> bool {
    const WORDS: [&str; 60] = [
        "el",
        "los",
        "las",
        "hay",
        "que",
        "qué",
        "está",
        "esta",
        "hojas",
        "roya",
        "agua",
        "riego",
        "regué",
        "con",
        "der",
        "die",
        "das",
        "ich",
        "und",
        "ist",
        "nicht",
        "habe",
        "blätter",
        "rost",
        "gegossen",
        "gespritzt",
        "le",
        "les",
        "des",
        "est",
        "une",
        "rouille",
        "feuilles",
        "arrosé",
        "j'ai",
        "sur",
        "il",
        "gli",
        "ho",
        "ruggine",
        "foglie",
        "acqua",
        "folhas",
        "ferrugem",
        "não",
        "muito",
        "uma",
        "het",
        "een",
        "niet",
        "ik",
        "jest",
        "nie",
        "liście",
        "var",
        "yok",
        "och",
        "att",
        "som",
        "de",
    ];
    let words: Vec<String> = text
        .split(|letter: char| !letter.is_alphabetic() && letter != '\'')
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    let strange = words.iter().filter(|word| WORDS.contains(&word.as_str())).count();
    let own = words.iter().filter(|word| super::lexicon::is_known(&folded(word))).count();
    let other_script = text.chars().any(|letter| {
        letter.is_alphabetic()
            && !letter.is_ascii()
            && folded(&letter.to_string()).chars().all(|plain| !plain.is_ascii())
    });
    (strange >= 2 && strange > own) || (other_script && own == 0)
}

/// A doubt about a whole sentence that holds no word of the garden.
pub(super) fn not_understood(speech: &Speech, reading: &mut Reading) {
    let garden_words = speech.tokens.iter().any(|token| {
        [
            Sense::Rust,
            Sense::SprayBase,
            Sense::Sprayed,
            Sense::Water,
            Sense::Watered,
            Sense::WaterBase,
            Sense::Picked,
            Sense::Frost,
            Sense::Gauge,
            Sense::Copper,
            Sense::Sulfur,
        ]
        .into_iter()
        .any(|sense| token.senses.has(sense))
    });
    if is_other_language(speech.text) {
        reading.doubts.push(doubt(DoubtKind::OtherLanguage, speech.text));
    } else if garden_words {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text));
    } else {
        reading.requests.push(Request::Aside(Aside::Talk));
    }
}
