//! What is settled about a garden: its place, its trees, its sprays, its people.

mod products;
mod tables;
mod trees;

use chrono::NaiveTime;

use super::moments::{clock_time, next_day, year_day};
use super::tokens::Token;
use super::{Context, Speech, doubt};
use crate::identity::PersonId;
use crate::season::garden::{Listening, Quiet, Role, UnitSystem};
use crate::season::request::{DoubtKind, Reading, Request, Setting};
use crate::units::Position;

/// A whole message that is a list of trees, a table, or a label read out line by line.
pub(super) fn list(text: &str, context: &Context) -> Option<Reading> {
    tables::read(text, context)
}

pub(super) fn add_position(position: Position, reading: &mut Reading) {
    reading.requests.push(Request::Set(Setting::Position {
        position: position.rounded(),
        place: None,
        zone: None,
    }));
}

/// Reads a sentence as a setting, if it is one.
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> bool {
    let found = frost(speech, reading)
        .or_else(|| units(speech))
        .or_else(|| quiet(speech))
        .or_else(|| listening(speech))
        .or_else(|| morning(speech))
        .or_else(|| here(speech))
        .or_else(|| person(speech))
        .or_else(|| name(speech))
        .or_else(|| place(speech))
        .or_else(|| trees::rename(speech))
        .or_else(|| products::read(speech))
        .or_else(|| trees::read(speech));
    match found {
        Some(Found::Setting(setting)) => reading.requests.push(Request::Set(setting)),
        Some(Found::Doubted) => {}
        None => return false,
    }
    true
}

enum Found {
    Setting(Setting),
    /// Meant as a setting, and already doubted.
    Doubted,
}

impl From<Setting> for Found {
    fn from(setting: Setting) -> Self {
        Found::Setting(setting)
    }
}

fn any(tokens: &[Token], texts: &[&str]) -> bool {
    tokens.iter().any(|token| token.is_any(texts))
}

fn line(tokens: &[Token]) -> String {
    let words: Vec<&str> =
        tokens.iter().filter(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    words.join(" ")
}

/// "first frost is usually nov 15", "last frost april 10".
fn frost(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let tokens = speech.tokens;
    let frost = any(tokens, &["frost", "freeze", "frosts"]);
    let usual = any(
        tokens,
        &["usual", "usually", "average", "normally", "typical", "typically", "date", "around", "about"],
    );
    let first = any(tokens, &["first", "fall", "autumn"]);
    let last = any(tokens, &["last", "spring"]) && !any(tokens, &["night", "year", "week"]);
    if !frost
        || !(first || last)
        || !(usual || any(tokens, &["is", "=", ":"]) || tokens.len() <= 6)
        || speech.asked == super::clauses::Asked::Yes
    {
        return None;
    }
    match year_day(tokens)? {
        Ok(date) => {
            Some(if first { Setting::FirstFrost { date } } else { Setting::LastFrost { date } }.into())
        }
        Err(()) => {
            reading.doubts.push(doubt(DoubtKind::ImpossibleDate, speech.text));
            Some(Found::Doubted)
        }
    }
}

fn units(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let wish = any(tokens, &["use", "switch", "in", "prefer", "units", "set", "want", "speak", "talk"])
        || tokens.len() <= 2;
    if !wish || tokens.len() > 8 {
        return None;
    }
    let units = if any(tokens, &["metric", "celsius", "centigrade", "millimetres", "millimeters"]) {
        UnitSystem::Metric
    } else if any(tokens, &["imperial", "fahrenheit"])
        || any(tokens, &["us", "american"]) && any(tokens, &["units", "use"])
        || any(tokens, &["inches"]) && any(tokens, &["use", "units", "prefer"])
    {
        UnitSystem::Us
    } else {
        return None;
    };
    Some(Setting::Units { units }.into())
}

fn quiet(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let line = line(tokens);
    let hush = any(tokens, &["quiet", "silence", "hush", "mute", "shush"]) && !any(tokens, &["been", "was"])
        || any(tokens, &["no", "stop", "pause", "skip", "mute"])
            && any(tokens, &["briefs", "brief", "reminders", "messages", "mornings"])
        || line.starts_with("leave me alone");
    if hush && tokens.len() <= 12 {
        let until = any(tokens, &["until", "till", "for", "til"]);
        let quiet = match next_day(tokens, speech.context.at, speech.context.zone).filter(|_| until) {
            // Until Monday means that Monday speaks again.
            Some(date) => Quiet::Until(date.pred_opt().unwrap_or(date)),
            None => Quiet::UntilTold,
        };
        return Some(Setting::Quiet { quiet }.into());
    }
    let speak = matches!(
        line.as_str(),
        "speak"
            | "speak again"
            | "speak up"
            | "start briefs"
            | "start briefs again"
            | "resume"
            | "resume briefs"
            | "unmute"
            | "briefs on"
            | "wake up"
    );
    speak.then(|| Setting::Quiet { quiet: Quiet::Speaking }.into())
}

fn listening(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    if any(tokens, &["listen"]) && any(tokens, &["everything", "all", "everyone"]) {
        return Some(Setting::Listening { listening: Listening::ToEverything }.into());
    }
    let only = any(tokens, &["only", "just"])
        && any(tokens, &["listen", "answer", "reply"])
        && any(tokens, &["name", "named", "mention", "mentioned", "addressed", "call", "called", "asked"]);
    only.then(|| Setting::Listening { listening: Listening::WhenAddressed }.into())
}

/// "brief at 6:30", "morning brief at 7", "send the brief at 6 am".
fn morning(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let brief = any(tokens, &["brief", "briefs", "reminder", "reminders", "briefing"]);
    if !brief || any(tokens, &["here"]) {
        return None;
    }
    let time: NaiveTime = clock_time(tokens)?;
    Some(Setting::Morning { time }.into())
}

/// "post the briefs here", "use this room".
fn here(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let brief = any(tokens, &["brief", "briefs", "reminders", "messages", "post", "speak", "alerts"])
        && any(tokens, &["here"]);
    let room = any(tokens, &["use", "in", "to"])
        && tokens.windows(2).any(|pair| pair[0].is("this") && pair[1].is("room"))
        && tokens.len() <= 9;
    ((brief && tokens.len() <= 9) || room).then(|| Setting::Here.into())
}

/// "@bo:example.org may report", "make @bo:example.org keeper", "remove @bo:example.org".
fn person(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let id = tokens.iter().find(|token| token.text.starts_with('@') && token.text.len() > 1)?;
    let typed = speech.text.get(id.span.clone())?;
    let typed = typed.trim_end_matches(['.', '!', '?', ')']);
    let id = PersonId::new(typed);
    if any(tokens, &["remove", "delete", "drop", "block"]) {
        return Some(Setting::RemovePerson { id }.into());
    }
    let keeper = any(tokens, &["keeper", "admin", "owner", "settings"]);
    let helper = any(tokens, &["helper", "report", "help", "add", "may", "can", "member"]);
    let name = typed.trim_start_matches('@').split(':').next().unwrap_or(typed).to_owned();
    let role = if keeper { Role::Keeper } else { Role::Helper };
    (keeper || helper).then(|| Setting::Person { id, name, role }.into())
}

/// "call the garden Quince Lane", "my garden is called ...".
fn name(speech: &Speech) -> Option<Found> {
    let lower = speech.text.to_lowercase();
    let lead = [
        "call the garden ",
        "call my garden ",
        "call this garden ",
        "my garden is called ",
        "the garden is called ",
        "garden name: ",
        "garden name is ",
        "name the garden ",
        "name: ",
    ]
    .iter()
    .find(|lead| lower.starts_with(**lead))?;
    let name = clean(speech.text.get(lead.len()..)?);
    (!name.is_empty()).then(|| Setting::Name { name }.into())
}

/// "i'm in Fairhope, Alabama", "my garden is in ...", "we are near ...".
fn place(speech: &Speech) -> Option<Found> {
    let lower = speech.text.to_lowercase().replace('\u{2019}', "'");
    let lead = [
        "i'm in ",
        "im in ",
        "i am in ",
        "we're in ",
        "we are in ",
        "i live in ",
        "we live in ",
        "my garden is in ",
        "the garden is in ",
        "garden is in ",
        "garden in ",
        "i'm near ",
        "i am near ",
        "we are near ",
        "my garden is near ",
        "the garden is near ",
        "located in ",
        "i garden in ",
        "place: ",
        "location: ",
        "my location is ",
        "i'm at ",
        "from ",
    ]
    .iter()
    .find(|lead| lower.starts_with(**lead))?;
    let name = clean(speech.text.get(lead.len()..)?);
    // "I'm in the garden", "I'm in a hurry" are no places.
    let lower = name.to_lowercase();
    let no_place = ["the ", "a ", "my ", "an ", "no ", "love", "trouble", "doubt", "charge", "luck"]
        .iter()
        .any(|start| lower.starts_with(start));
    let words = name.split_whitespace().count();
    let proper = name.starts_with(char::is_uppercase) || name.contains(',') || words <= 2;
    (!name.is_empty() && !no_place && proper && words <= 8).then(|| Setting::Place { name }.into())
}

/// What a person typed as a name, without the marks around it.
fn clean(text: &str) -> String {
    const LONGEST: usize = 60;
    text.trim()
        .trim_matches(|letter: char| matches!(letter, '"' | '\'' | '.' | ',' | '\u{201c}' | '\u{201d}' | ' '))
        .chars()
        .filter(|letter| !letter.is_control())
        .take(LONGEST)
        .collect()
}
