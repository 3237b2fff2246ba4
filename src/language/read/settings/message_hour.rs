//! When to be messaged, however it is put: "start bugging me at 6:30 not 8", "messages at 5:45", "hit me up around 7
//! instead".
//!
//! Taken only if every word is accounted for: one that asks for messages, one hour that is wanted, and nothing but
//! small words around them.

use chrono::{NaiveTime, Timelike};

use super::Found;
use crate::language::read::Speech;
use crate::language::read::clauses::Asked;
use crate::language::read::moments::{clock_time, tells_no_hour};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::{Reading, Request, Setting};

/// "Message me at 6 am, not 7": read before corrections, as it is none of the last report.
pub(in crate::language::read) fn settle(speech: &Speech, reading: &mut Reading) -> bool {
    let Some(Found::Setting(setting)) = read(speech) else { return false };
    reading.requests.push(Request::Set(setting));
    true
}

pub(super) fn read(speech: &Speech) -> Option<Found> {
    const MOST_WORDS: usize = 18;
    let tokens = speech.tokens;
    let asks = tokens.iter().any(is_message);
    let accounted = || tokens.iter().all(|token| is_message(token) || is_small(token) || is_of_hour(token));
    if speech.asked == Asked::Yes || tokens.len() > MOST_WORDS || !asks || !accounted() {
        return None;
    }
    // "Not before 9" tells no hour to write at, and neither does "at 25:00".
    if tokens.iter().any(|token| token.is_any(words!("before until till til"))) || tells_no_hour(tokens) {
        return None;
    }
    // "Remind me at 6": of what, and once; "texts to 3": of night or day.
    let once = tokens.iter().any(|token| token.is("remind"))
        && !tokens.iter().any(|token| token.is_any(words!("every each daily morning mornings")));
    let told = tokens.iter().any(|token| token.is_any(words!("am a.m a.m. pm morning mornings noon")));
    wanted(tokens)
        .filter(|time| !once && (told || EARLY.contains(&time.hour())))
        .map(|time| Setting::Morning { time }.into())
}

/// An hour of these told alone is of the morning.
const EARLY: std::ops::RangeInclusive<u32> = 4..=11;

fn is_message(token: &Token) -> bool {
    token.is_any(words!(
        "message messages messaging msg msgs messge brief briefs briefing text texts texting ping pings pinging bug bugging report reports update updates reminder reminders remind reminding notify notification notifications alert alerts buzz summary nudge nudges"
    ))
}

fn is_small(token: &Token) -> bool {
    token.is_mark()
        || token.is_any(words!(
            "please pls plz thanks thx ok okay so and then from now on here in the a an my our your it it's its is at by to for of around about like every each day daily days all week good great fine best works work better instead rather not no earlier later too early late would be could can u you ya will should send sent sending give get me us i i'd i'm we we'd want wanted like liked prefer need start starts starting begin have wake up post tell write hit out with that if possible kindly hey hi go make set change move put let's lets just do time hour morning mornings"
        ))
}

fn is_of_hour(token: &Token) -> bool {
    token.number.is_some()
        || token.is_any(words!(
            "half quarter past to o'clock oclock am a.m. a.m pm noon : . six seven eight nine ten eleven five four sharp"
        ))
}

/// The hour that is wanted: "6:30 not 8", "not 8 but 6:30", "7 instead of 6".
fn wanted(tokens: &[Token]) -> Option<NaiveTime> {
    let unwanted = |token: &Token| token.is_any(words!("not no than instead"));
    let mut hours: Vec<NaiveTime> = Vec::new();
    let mut from = 0;
    let mut refused = false;
    for at in 0..=tokens.len() {
        let ends = at == tokens.len() || unwanted(&tokens[at]) || tokens[at].is_any(words!("but make ,"));
        if !ends {
            continue;
        }
        if let Some(time) = clock_time(&tokens[from..at]).filter(|_| !refused) {
            hours.push(time);
        }
        refused = tokens.get(at).is_some_and(unwanted);
        from = at + 1;
    }
    match hours.as_slice() {
        [time] => Some(*time),
        _ => None,
    }
}
