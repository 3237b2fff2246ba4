//! What was typed into what is asked for. Reading never fails: what is not understood is a doubt.
//!
//! No model and no network: words with senses, names of the garden, amounts and moments, put together clause
//! by clause. What looks like a report but speaks of the future, a condition, another garden or another year
//! is not one.

mod amounts;
mod asides;
mod asks;
mod clauses;
mod corrections;
mod follow_up;
mod lexicon;
mod moments;
mod names;
mod places;
mod records;
mod settings;
mod tokens;

use chrono::{DateTime, Utc};
use chrono_tz::Tz;

use crate::season::garden::Garden;
use crate::season::journal::Entry;
use crate::season::request::{Aside, Doubt, DoubtKind, OpenQuestion, Reading, Request};

/// What a message is read against.
pub struct Context<'a> {
    pub garden: &'a Garden,
    /// The message's own time.
    pub at: DateTime<Utc>,
    pub zone: Tz,
    /// What was asked back of this person and is not answered yet.
    pub open_question: Option<&'a OpenQuestion>,
    /// The last thing this person reported, for corrections.
    pub last: Option<&'a Entry>,
    /// What the bot answers to.
    pub bot_name: &'a str,
}

/// A message longer than this is no message: the rest is doubted, not read.
const LONGEST: usize = 8_000;
/// Lines beyond this many likewise.
const MOST_LINES: usize = 200;

pub fn read(text: &str, context: &Context) -> Reading {
    let (text, cut_off) = prepared(text, context.bot_name);
    let mut reading = follow_up::answer(&text, context).unwrap_or_else(|| fresh(&text, context));
    if cut_off {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, "the rest of a very long message"));
    }
    reading
}

/// Reads a message on its own, whatever was asked before.
fn fresh(text: &str, context: &Context) -> Reading {
    let mut reading = Reading::default();
    if text.trim().is_empty() {
        return reading;
    }
    if let Some(settings) = settings::list(text, context) {
        return settings;
    }
    if let Some(words) = asides::mixed_letters(text) {
        reading.doubts.push(doubt(DoubtKind::LookAlikeLetters, words));
        return reading;
    }
    for sentence in clauses::sentences(text) {
        read_sentence(sentence, context, &mut reading);
    }
    if reading.requests.is_empty() && reading.doubts.is_empty() {
        let kind =
            if asides::is_other_language(text) { DoubtKind::OtherLanguage } else { DoubtKind::NotUnderstood };
        reading.doubts.push(doubt(kind, text.trim()));
    }
    // Talk beside something understood needs no word.
    if reading.requests.iter().any(|request| !matches!(request, Request::Aside(_))) {
        reading.requests.retain(|request| !matches!(request, Request::Aside(Aside::Talk | Aside::Thanks)));
    }
    reading
}

fn read_sentence(sentence: clauses::Sentence, context: &Context, reading: &mut Reading) {
    let text = sentence.text;
    if let Some(setting) = places::position(text) {
        return settings::add_position(setting, reading);
    }
    let tokens = tokens::tokens(text);
    if tokens.iter().all(tokens::Token::is_mark) {
        return asides::signs(text, reading);
    }
    let names = names::Names::of(context.garden);
    let speech = Speech { text, tokens: &tokens, names: &names, context, asked: sentence.asked };
    let understood = asides::short(&speech, reading)
        || corrections::read(&speech, reading)
        || settings::read(&speech, reading)
        || asks::read(&speech, reading);
    if !understood {
        records::read(&speech, reading);
    }
}

/// One sentence with what it is read against.
struct Speech<'a> {
    text: &'a str,
    tokens: &'a [tokens::Token],
    names: &'a names::Names,
    context: &'a Context<'a>,
    /// It ended in a question mark.
    asked: clauses::Asked,
}

impl Speech<'_> {
    /// The words as typed that a stretch of tokens covers.
    fn typed(&self, from: usize, to: usize) -> &str {
        match (self.tokens.get(from), to.checked_sub(1).and_then(|last| self.tokens.get(last))) {
            (Some(first), Some(last)) => self.text.get(first.span.start..last.span.end).unwrap_or(""),
            _ => "",
        }
    }
}

fn doubt(kind: DoubtKind, words: impl Into<String>) -> Doubt {
    Doubt { kind, words: words.into(), candidates: Vec::new() }
}

/// Quoted lines and code taken out, the bot's name taken off, and cut to a length.
fn prepared(text: &str, bot_name: &str) -> (String, bool) {
    let mut kept = String::with_capacity(text.len().min(LONGEST));
    let mut fenced = false;
    let mut cut_off = false;
    for (number, line) in text.lines().enumerate() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
            continue;
        }
        if fenced || line.trim_start().starts_with('>') {
            continue;
        }
        if number >= MOST_LINES || kept.len() >= LONGEST {
            cut_off = true;
            break;
        }
        let room = LONGEST - kept.len();
        let end = line.char_indices().map(|(at, _)| at).take_while(|at| *at <= room).last().unwrap_or(0);
        let whole = line.len() <= room;
        kept.push_str(if whole { line } else { &line[..end] });
        kept.push('\n');
        if !whole {
            cut_off = true;
            break;
        }
    }
    (without_name(&kept, bot_name).trim().to_owned(), cut_off)
}

/// "leafhold, ...", "@leafhold: ...", "hey leafhold ..."
fn without_name<'t>(text: &'t str, name: &str) -> &'t str {
    let trimmed = text.trim_start();
    let rest = ["hey ", "hi ", "hello ", "ok ", "@", ""].iter().find_map(|lead| {
        let after = strip_prefix_folded(trimmed, lead)?;
        strip_prefix_folded(after, name)
    });
    match rest {
        Some(rest) if !rest.starts_with(char::is_alphanumeric) => {
            // A user id goes on to its server.
            let rest = if rest.starts_with(':') && rest[1..].starts_with(char::is_alphanumeric) {
                rest.find(char::is_whitespace).map_or("", |end| &rest[end..])
            } else {
                rest
            };
            rest.trim_start_matches([',', ':', ';', '-', '!', '.', ' '])
        }
        _ => trimmed,
    }
}

fn strip_prefix_folded<'t>(text: &'t str, prefix: &str) -> Option<&'t str> {
    let head = text.get(..prefix.len())?;
    head.eq_ignore_ascii_case(prefix).then(|| &text[prefix.len()..])
}
