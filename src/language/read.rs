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
mod mood;
mod names;
mod places;
mod records;
mod settings;
mod spelling;
mod tokens;
mod word_list;

use chrono::{DateTime, Utc};
use chrono_tz::Tz;

use self::word_list::words;
use crate::season::calendar::local_date;
use crate::season::garden::Garden;
use crate::season::journal::Entry;
use crate::season::request::{Aside, Doubt, DoubtKind, OpenQuestion, Reading, Request, Selection, When};

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
    let names = names::Names::of(context.garden);
    let mut memory = records::Memory::default();
    for sentence in clauses::sentences(text) {
        read_sentence(sentence, &names, context, &mut memory, &mut reading);
    }
    memory.release(&mut reading);
    if reading.requests.is_empty() && reading.doubts.is_empty() {
        reading.requests.push(Request::Aside(Aside::Talk));
    }
    if says_nothing_alone(&reading)
        && let Some(correction) = of_the_last(text, &names, context)
    {
        return correction;
    }
    // The same doubt once is enough.
    let mut doubts: Vec<Doubt> = Vec::new();
    for doubt in reading.doubts.drain(..) {
        let once = matches!(doubt.kind, DoubtKind::OtherLanguage);
        if !doubts.iter().any(|known| *known == doubt || once && known.kind == doubt.kind) {
            doubts.push(doubt);
        }
    }
    reading.doubts = doubts;
    keep_what_matters(&mut reading);
    reading
}

/// Neither a report nor a question nor anything but talk or a doubt.
fn says_nothing_alone(reading: &Reading) -> bool {
    reading.requests.iter().all(|request| *request == Request::Aside(Aside::Talk))
        && reading.doubts.iter().all(|doubt| {
            matches!(doubt.kind, DoubtKind::NotUnderstood | DoubtKind::WhichTree | DoubtKind::HowMuch)
        })
}

/// A message of a few words, read with the report just made.
fn of_the_last(text: &str, names: &names::Names, context: &Context) -> Option<Reading> {
    let mut sentences = clauses::sentences(text);
    let (sentence, None) = (sentences.next()?, sentences.next()) else { return None };
    let mut tokens = tokens::tokens(sentence.text);
    spelling::mend(&mut tokens, names);
    corrections::bare(&Speech::of(sentence.text, &tokens, names, context, sentence.asked))
}

/// Beside something understood, talk needs no word; asides are said once.
fn keep_what_matters(reading: &mut Reading) {
    let understood = reading.requests.iter().any(|request| {
        !matches!(request, Request::Aside(_) | Request::Greet | Request::Confirm | Request::Decline)
    });
    if understood {
        reading
            .doubts
            .retain(|doubt| doubt.kind != DoubtKind::NotUnderstood || doubt.words.len() > MOST_CHATTER);
        reading.requests.retain(|request| {
            !matches!(request, Request::Aside(_) | Request::Greet | Request::Confirm | Request::Decline)
        });
        return;
    }
    let telling = reading
        .requests
        .iter()
        .any(|request| matches!(request, Request::Aside(Aside::Plan | Aside::Condition | Aside::Elsewhere)));
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

/// Words not understood beside something that was: so few are an interjection.
const MOST_CHATTER: usize = 24;

fn read_sentence(
    sentence: clauses::Sentence,
    names: &names::Names,
    context: &Context,
    memory: &mut records::Memory,
    reading: &mut Reading,
) {
    let text = sentence.text;
    if let Some(setting) = places::position(text) {
        return settings::add_position(setting, reading);
    }
    if let Some(words) = asides::mixed_letters(text) {
        reading.doubts.push(doubt(DoubtKind::LookAlikeLetters, words));
        return;
    }
    let mut tokens = tokens::tokens(text);
    if tokens.iter().all(tokens::Token::is_mark) {
        return asides::signs(text, reading);
    }
    spelling::mend(&mut tokens, names);
    let polite = asks::told_politely(&tokens);
    let sentence =
        if polite > 0 { clauses::Sentence { asked: clauses::Asked::No, ..sentence } } else { sentence };
    let tokens = tokens.split_off(polite);
    let speech = Speech::of(text, &tokens, names, context, sentence.asked);
    if completes(&speech, reading) {
        return;
    }
    let mut other = Reading::default();
    let within = asks::question_within(&tokens, sentence.asked);
    if asides::short(&speech, &mut other)
        || corrections::read(&speech, &mut other)
        || settings::read(&speech, &mut other)
        || within.is_none() && asks::read(&speech, memory.last_trees(), &mut other)
    {
        memory.release(reading);
        return append(reading, other);
    }
    let Some(at) = within else {
        let before = (reading.requests.len(), reading.doubts.len());
        records::read(&speech, memory, reading);
        // "Please write down that the birds have found Wall": whoever asks so wants it kept.
        let talk = reading.requests[before.0..] == [Request::Aside(Aside::Talk)];
        let unread = reading.requests.len() == before.0
            && reading.doubts[before.1..].iter().all(|doubt| doubt.kind == DoubtKind::NotUnderstood);
        if polite > 0 && (talk || unread) {
            reading.requests.truncate(before.0);
            reading.doubts.truncate(before.1);
            records::note_down(&speech, reading);
        }
        return;
    };
    let told = Speech { asked: clauses::Asked::No, ..speech.part(&tokens[..at]) };
    records::read(&told, memory, reading);
    memory.release(reading);
    let asked = Speech { asked: clauses::Asked::Yes, ..speech.part(&tokens[at..]) };
    if !asks::read(&asked, memory.last_trees(), reading) {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, asked.typed(0, asked.tokens.len())));
    }
}

/// "Sprayed copper. Wall and Corner only. 7 am.": a sentence that only says closer where or when.
fn completes(speech: &Speech, reading: &mut Reading) -> bool {
    let Some(Request::Record(record)) = reading.requests.last_mut() else { return false };
    if speech.asked == clauses::Asked::Yes {
        return false;
    }
    let named: Vec<usize> = speech.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
    let moment = moments::moment(speech.tokens, &named, speech.now());
    let idle = |token: &tokens::Token| {
        token.is_mark() || token.is_any(words!("at on around about only just and the"))
    };
    let rest_idle = speech
        .tokens
        .iter()
        .enumerate()
        .all(|(index, token)| named.contains(&index) || moment.used.contains(&index) || idle(token));
    if !rest_idle || moment.impossible {
        return false;
    }
    let trees = match speech.mentions.as_slice() {
        [mention] => speech.names.selection(&mention.trees, &[]),
        [] => None,
        _ => return false,
    };
    let when = moment.is_said().then(|| moment.when(speech.now())).filter(|when| *when != When::Unsaid);
    let takes_trees = trees.is_none() || record.trees == Selection::Unsaid;
    let takes_when = when.is_none() || record.when == When::Unsaid;
    let future = matches!(when, Some(When::At(at)) if at > speech.context.at);
    if trees.is_none() && when.is_none() || !takes_trees || !takes_when || future {
        return false;
    }
    if let Some(trees) = trees {
        record.trees = trees;
    }
    if let Some(when) = when {
        record.when = when;
    }
    true
}

fn append(reading: &mut Reading, other: Reading) {
    reading.requests.extend(other.requests);
    reading.doubts.extend(other.doubts);
    reading.spellings.extend(other.spellings);
}

/// A sentence, or part of one, with what it is read against.
struct Speech<'a> {
    text: &'a str,
    tokens: &'a [tokens::Token],
    mentions: Vec<names::Mention>,
    names: &'a names::Names,
    context: &'a Context<'a>,
    /// It ended in a question mark.
    asked: clauses::Asked,
}

impl<'a> Speech<'a> {
    fn of(
        text: &'a str,
        tokens: &'a [tokens::Token],
        names: &'a names::Names,
        context: &'a Context<'a>,
        asked: clauses::Asked,
    ) -> Self {
        Self { text, tokens, mentions: names.mentions(tokens, text), names, context, asked }
    }

    /// Some of its tokens, as a sentence of their own.
    fn part<'b>(&'b self, tokens: &'b [tokens::Token]) -> Speech<'b> {
        Speech::of(self.text, tokens, self.names, self.context, self.asked)
    }

    /// The words as typed that a stretch of tokens covers.
    fn typed(&self, from: usize, to: usize) -> &str {
        match (self.tokens.get(from), to.checked_sub(1).and_then(|last| self.tokens.get(last))) {
            (Some(first), Some(last)) => self.text.get(first.span.start..last.span.end).unwrap_or(""),
            _ => "",
        }
    }

    fn now(&self) -> moments::Now {
        moments::Now { at: self.context.at, zone: self.context.zone, units: self.context.garden.units }
    }

    /// The message's own date.
    fn date(&self) -> chrono::NaiveDate {
        local_date(self.context.at, self.context.zone)
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
    let named = without_name(&kept, bot_name).trim();
    // "Hi leafhold" is a greeting, and nothing else.
    let greeted = named.is_empty() && kept.trim().chars().any(char::is_whitespace);
    let text = if greeted { "hello".to_owned() } else { with_figures(named) };
    (text, cut_off)
}

/// Letters that slipped in for figures: "1o figs", "l0%".
fn with_figures(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let at = |index: usize| letters.get(index).copied().unwrap_or(' ');
    let figure = |index: usize| at(index).is_ascii_digit();
    (0..letters.len())
        .map(|index| {
            let before = if index == 0 { ' ' } else { at(index - 1) };
            match letters[index] {
                'o' | 'O'
                    if before.is_ascii_digit()
                        && !at(index + 1).is_alphabetic()
                        && !matches!(at(index + 1), '\'' | '\u{2019}') =>
                {
                    '0'
                }
                'l' | 'I' if !before.is_alphanumeric() && figure(index + 1) => '1',
                letter => letter,
            }
        })
        .collect()
}

/// "leafhold, ...", "@leafhold: ...", "hey leafhold ...", "um hey leafhold ..."
fn without_name<'t>(text: &'t str, name: &str) -> &'t str {
    let trimmed = text.trim_start();
    let rest = [
        "hey ",
        "hi ",
        "hello ",
        "ok ",
        "um hey ",
        "um ",
        "uh ",
        "so ",
        "oh hey ",
        "good morning ",
        "morning ",
        "@",
        "",
    ]
    .iter()
    .find_map(|lead| {
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
