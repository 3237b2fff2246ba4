//! What is settled about a garden: its place, its trees, its sprays, its people.

mod limits;
mod placing;
mod planted;
mod products;
mod tables;
mod trees;

use crate::language::read::word_list::{WordList, words};
use chrono::NaiveTime;

use super::amounts::{Amount, amounts};
use super::lexicon::Sense;
use super::moments::{clock_time, next_day, tells_no_hour, year_day};
use super::tokens::Token;
use super::{Context, Speech, doubt};
use crate::identity::PersonId;
use crate::season::garden::{Listening, Quiet, Role, UnitSystem};
use crate::season::journal::Report;
use crate::season::request::{DoubtKind, Reading, Record, Request, Setting, When};
use crate::units::Position;

pub(super) use self::planted::stand as stand_of_planted;

/// A whole message that is a list of trees, a table, or a label read out line by line.
pub(super) fn list(text: &str, context: &Context) -> Option<Reading> {
    tables::read(text, context).or_else(|| products::label(text, context))
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
    if let Some(trees) = trees::removed(speech) {
        reading.requests.push(Request::Record(Record { trees, when: When::Unsaid, report: Report::Removed }));
        return true;
    }
    // "My uncle used to spray lime sulfur" settles nothing.
    if super::mood::says_used_to(speech.tokens) {
        return false;
    }
    if let Some(told) = trees::several(speech) {
        reading.requests.extend(told.requests);
        reading.doubts.extend(told.doubts);
        return true;
    }
    let found = two(speech, reading).or_else(|| single(speech, reading));
    match found {
        Some(Found::Setting(setting)) => reading.requests.push(Request::Set(setting)),
        Some(Found::Doubted) => {}
        None => return false,
    }
    true
}

/// "..., watered it in": where work is told behind a tree's new pot.
pub(super) fn and_then_work(speech: &Speech) -> Option<usize> {
    let tokens = speech.tokens;
    let pot = tokens.iter().position(|token| token.senses.has(Sense::Pot))?;
    (pot..tokens.len().saturating_sub(1)).find(|at| {
        let behind = tokens[at + 1..].iter().find(|token| !token.is_any(words!("and then i we")));
        tokens[*at].is_any(words!(", and"))
            && behind.is_some_and(|verb| {
                verb.senses.has_any(&[Sense::Watered, Sense::Gave, Sense::Sprayed, Sense::Picked])
            })
    })
}

fn single(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    frost(speech, reading)
        .or_else(|| units(speech))
        .or_else(|| quiet(speech))
        .or_else(|| listening(speech))
        .or_else(|| morning(speech, reading))
        .or_else(|| here(speech))
        .or_else(|| person(speech))
        .or_else(|| name(speech))
        .or_else(|| place(speech))
        .or_else(|| bare_place(speech))
        .or_else(|| limits::read(speech, reading))
        .or_else(|| trees::rename(speech, reading))
        .or_else(|| products::read(speech))
        .or_else(|| trees::read(speech, reading))
}

/// "Our first frost is November 5 and our last is April 10": each half a setting.
fn two(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    const MOST_WORDS: usize = 30;
    let tokens = speech.tokens;
    let settles = |token: &&Token| {
        token.is_any(words!(
            "frost freeze units metric imperial celsius fahrenheit morning brief briefs message messages report quiet call called name place location position"
        ))
    };
    if tokens.len() > MOST_WORDS || tokens.iter().filter(settles).count() < 2 {
        return None;
    }
    let halves = (2..tokens.len().saturating_sub(2)).filter(|at| tokens[*at].is_any(words!("and , ; then")));
    for at in halves {
        let behind =
            at + 1 + tokens[at + 1..].iter().take_while(|token| token.is_any(words!("and , then"))).count();
        let (first, second) = (speech.part(&tokens[..at]), speech.part(&tokens[behind..]));
        let (mut one, mut other) = (Reading::default(), Reading::default());
        let told = single(&first, &mut one).zip(single(&second, &mut other));
        // Two of a kind are more likely one, told with a comma.
        let differ = told.as_ref().is_some_and(|(one, other)| match (one, other) {
            (Found::Setting(one), Found::Setting(other)) => {
                std::mem::discriminant(one) != std::mem::discriminant(other)
                    && !matches!(one, Setting::Tree(_) | Setting::Product(_))
                    && !matches!(other, Setting::Tree(_) | Setting::Product(_) | Setting::Place { .. })
            }
            _ => false,
        });
        if let Some((one_found, other_found)) = told.filter(|_| differ) {
            for (found, doubts) in [(one_found, one.doubts), (other_found, other.doubts)] {
                if let Found::Setting(setting) = found {
                    reading.requests.push(Request::Set(setting));
                }
                reading.doubts.extend(doubts);
            }
            return Some(Found::Doubted);
        }
    }
    None
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

fn any(tokens: &[Token], texts: WordList) -> bool {
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
    let frost = any(tokens, words!("frost freeze frosts"));
    let usual = any(tokens, words!("usual usually average normally typical typically date around about"));
    if let Some(found) = frost_dates(speech, reading) {
        return Some(found);
    }
    let first = any(tokens, words!("first fall autumn"));
    let last = any(tokens, words!("last spring")) && !any(tokens, words!("night year week"));
    // Two dates are two settings.
    let months = tokens.iter().filter(|token| super::moments::month(&token.text).is_some()).count();
    let both = first && last && months > 1;
    // "Set my frost to Oct 28": which of the two it is, the month tells.
    let about = tokens.first().is_some_and(|first| first.is_any(words!("we i usually normally it")))
        && any(tokens, words!("get have see come comes gets"))
        && any(tokens, words!("around about usually by normally"));
    let ordered = (about
        || tokens.first().is_some_and(|first| first.is_any(words!("set change make my our"))))
        && tokens.len() <= 9
        && !first
        && !last;
    if ordered
        && frost
        && months <= 1
        && let Some(Ok(date)) = year_day(tokens, speech.context.garden.units)
    {
        let south = speech.context.garden.position.is_some_and(|position| position.latitude.value() < 0.0);
        let of_fall = (date.month > 6) != south;
        return Some(if of_fall { Setting::FirstFrost { date } } else { Setting::LastFrost { date } }.into());
    }
    if !frost
        || both
        || !(first || last)
        || !(usual
            || tokens.first().is_some_and(|first| first.is_any(words!("set change make")))
            || any(tokens, words!("is = :"))
            || tokens.len() <= 6)
        || speech.asked == super::clauses::Asked::Yes
        || is_frost_seen(speech)
    {
        return None;
    }
    match year_day(tokens, speech.context.garden.units)? {
        Ok(date) => {
            Some(if first { Setting::FirstFrost { date } } else { Setting::LastFrost { date } }.into())
        }
        Err(()) => {
            reading.doubts.push(doubt(DoubtKind::ImpossibleDate, speech.text));
            Some(Found::Doubted)
        }
    }
}

/// "Frost dates: Apr 10 - Nov 5": the one of spring and the one of fall.
fn frost_dates(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let tokens = speech.tokens;
    let units = speech.context.garden.units;
    let titled = tokens.windows(2).any(|pair| pair[0].is_any(words!("frost freeze")) && pair[1].is("dates"));
    let months: Vec<usize> =
        (0..tokens.len()).filter(|at| super::moments::month(&tokens[*at].text).is_some()).collect();
    let [_, second] = months.as_slice() else { return None };
    let parted = (0..*second).rev().find(|at| tokens[*at].is_any(words!("- to and , / ;")))?;
    if !titled || speech.asked == super::clauses::Asked::Yes {
        return None;
    }
    let (Ok(one), Ok(other)) = (year_day(&tokens[..parted], units)?, year_day(&tokens[parted..], units)?)
    else {
        reading.doubts.push(doubt(DoubtKind::ImpossibleDate, speech.text));
        return Some(Found::Doubted);
    };
    // The frost-free season lies between them: in the south it runs over the year's end.
    for setting in [Setting::LastFrost { date: one }, Setting::FirstFrost { date: other }] {
        reading.requests.push(Request::Set(setting));
    }
    Some(Found::Doubted)
}

/// "Last frost this spring: April 12, 31 F" was a frost; what is usual has no degrees and no year.
fn is_frost_seen(speech: &Speech) -> bool {
    let degrees = amounts(speech.tokens, &[], speech.context.garden.units)
        .iter()
        .any(|measured| matches!(measured.amount, Amount::Temperature(_)));
    let this = speech
        .tokens
        .windows(2)
        .any(|pair| pair[0].is("this") && pair[1].is_any(words!("year spring fall autumn season")));
    degrees || this && !any(speech.tokens, words!("usual usually average normally"))
}

fn units(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let wish = any(tokens, words!("use switch in prefer units set want speak talk show change please pls"))
        || tokens.len() <= 2;
    let figures = tokens.iter().any(|token| token.number.is_some());
    if !wish || figures || tokens.len() > 14 {
        return None;
    }
    let units = if any(tokens, words!("metric celsius centigrade millimetres millimeters")) {
        UnitSystem::Metric
    } else if any(tokens, words!("imperial fahrenheit"))
        || any(tokens, words!("us american")) && any(tokens, words!("units use"))
        || any(tokens, words!("inches")) && any(tokens, words!("use units prefer"))
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
    let hush = any(tokens, words!("quiet silence silent hush mute shush snooze whisht"))
        && !any(tokens, words!("been was"))
        && (any(tokens, words!("until till til for through thru"))
            || tokens.first().is_some_and(|first| {
                first.is_any(words!(
                    "be stay keep go please quiet silence hush mute shush snooze whisht ok now just"
                ))
            }))
        || any(tokens, words!("no stop pause skip mute hold"))
            && any(
                tokens,
                words!(
                    "briefs brief reminders message messages mornings briefings messaging notifications texts stuff"
                ),
            )
            && !tokens.iter().any(|token| token.senses.has(Sense::Rain))
        || any(tokens, words!("stop quit"))
            && any(tokens, words!("talking messaging texting pinging bugging posting"))
        || any(tokens, words!("send")) && any(tokens, words!("nothing"))
        || line.contains("leave me alone")
        || line.contains("leave me be")
        || any(tokens, words!("don't do"))
            && any(
                tokens,
                words!("bother message ping text disturb notify remind wake write contact call send"),
            )
            && any(tokens, words!("don't not"))
            && any(tokens, words!("me us"))
        // "Can you not message til the 19th"
        || (0..tokens.len().saturating_sub(1)).any(|at| {
            let asked = at.checked_sub(1).is_none_or(|before| {
                tokens[before].is_any(words!("you u please pls do just ok okay so and now , hey"))
            });
            asked
                && tokens[at].is_any(words!("not don't dont no stop"))
                && tokens[at + 1].is_any(words!(
                    "message messages ping pings text texts bother disturb notify write briefs"
                ))
        }) && any(tokens, words!("until till til through thru"));
    // "You can talk again, end the quiet"
    let ends = tokens.windows(3).any(|three| {
        three[0].is_any(words!("end stop lift cancel")) && three[1..].iter().any(|token| token.is("quiet"))
    }) || any(tokens, words!("talk speak"))
        && any(tokens, words!("again"))
        && !any(tokens, words!("until till"));
    if ends && hush {
        return Some(Setting::Quiet { quiet: Quiet::Speaking }.into());
    }
    // "Don't text me before 6:45 in the morning"
    let before = tokens.iter().position(|token| token.is("before"));
    // "... before 645 in the morning"
    let run_together = |at: usize| {
        let typed = &tokens.get(at + 1)?.text;
        let (hour, minute) = typed.split_at_checked(typed.len().checked_sub(2)?)?;
        NaiveTime::from_hms_opt(hour.parse().ok()?, minute.parse().ok()?, 0)
    };
    if hush
        && let Some(time) = before.and_then(|at| clock_time(&tokens[at + 1..]).or_else(|| run_together(at)))
    {
        return Some(Setting::Morning { time }.into());
    }
    if hush && tokens.len() <= 28 {
        let through = any(tokens, words!("through thru including inclusive included"));
        let until = through
            || any(tokens, words!("until till for til"))
            // "Skip the brief tomorrow": that one only.
            || any(tokens, words!("skip")) && any(tokens, words!("tomorrow tmrw"));
        let (at, zone, units) = (speech.context.at, speech.context.zone, speech.context.garden.units);
        let skips = any(tokens, words!("skip")) && any(tokens, words!("tomorrow tmrw"));
        let day = behind_until(tokens).find_map(|from| next_day(&tokens[from..], at, zone, units));
        let quiet = match day.filter(|_| until) {
            Some(date) if skips => Quiet::Until(date),
            // "Through Sunday" is quiet on Sunday too.
            Some(date) if through => Quiet::Until(date),
            // Until Monday means that Monday speaks again.
            Some(date) => Quiet::Until(date.pred_opt().unwrap_or(date)),
            None => Quiet::UntilTold,
        };
        return Some(Setting::Quiet { quiet }.into());
    }
    let allowed = tokens
        .windows(2)
        .any(|pair| pair[0].is_any(words!("you u ya")) && pair[1].is_any(words!("can may could")));
    let again = (any(tokens, words!("speak talk resume unmute start"))
        || allowed && any(tokens, words!("message text write ping bother post")))
        && !any(tokens, words!("till until"))
        && any(tokens, words!("again back"))
        && tokens.len() <= 12
        && !tokens
            .iter()
            .any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spray, Sense::Sprayed, Sense::Watering]));
    let speak = again
        || matches!(
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
                | "wake back up"
                | "ok wake back up"
                | "ok wake up"
        )
        || any(tokens, words!("turn switch"))
            && any(tokens, words!("on"))
            && any(tokens, words!("brief briefs briefing reminders morning mornings messages"));
    speak.then(|| Setting::Quiet { quiet: Quiet::Speaking }.into())
}

/// "From Friday ..., until July 20": the day behind the last "until".
fn behind_until(tokens: &[Token]) -> impl Iterator<Item = usize> {
    let mut places: Vec<usize> = (0..tokens.len())
        .filter(|at| tokens[*at].is_any(words!("until till til through thru")))
        .rev()
        .collect();
    if places.is_empty() {
        places.push(0);
    }
    places.into_iter()
}

fn listening(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    if any(tokens, words!("listen")) && any(tokens, words!("everything all everyone")) {
        return Some(Setting::Listening { listening: Listening::ToEverything }.into());
    }
    let only = any(tokens, words!("only just"))
        && any(tokens, words!("listen answer reply"))
        && any(tokens, words!("name named mention mentioned addressed call called asked"));
    only.then(|| Setting::Listening { listening: Listening::WhenAddressed }.into())
}

/// "brief at 6:30", "morning brief at 7", "send the brief at 6 am".
fn morning(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let tokens = speech.tokens;
    // "set morning to 7"
    let ordered = tokens.first().is_some_and(|first| first.is_any(words!("set change move make")))
        && any(tokens, words!("morning mornings"))
        && any(tokens, words!("to at"))
        && tokens.len() <= 7
        && speech.mentions.is_empty();
    // "The morning message", "my morning report"
    let named = tokens.windows(2).any(|pair| {
        pair[0].is_any(words!("morning daily"))
            && pair[1].is_any(words!(
                "thing message messages msg report reports update updates note summary text texts"
            ))
    });
    // "Remind me in the mornings at 6:15 instead"
    let named = named || any(tokens, words!("remind")) && any(tokens, words!("mornings"));
    // "Text me at 8:15 in the morning"
    let text_me = tokens
        .first()
        .is_some_and(|first| first.is_any(words!("text message ping send write wake brief tell")))
        && tokens.get(1).is_some_and(|me| me.is_any(words!("me us it")))
        && any(tokens, words!("at"))
        && speech.mentions.is_empty()
        && tokens.len() <= 20;
    // "Can it be 6:45", "could you do 6:45 instead"
    let clock = tokens.iter().any(|token| token.is_any(words!(": am pm")));
    let wish = tokens.len() <= 9
        && clock
        && tokens.first().is_some_and(|first| first.is_any(words!("can could")))
        && (tokens.windows(2).any(|pair| pair[0].is("it") && pair[1].is_any(words!("be come")))
            || tokens.windows(2).any(|pair| pair[0].is("you") && pair[1].is_any(words!("do send make"))))
        && speech.mentions.is_empty();
    let brief = wish
        || ordered
        || text_me
        || named
        || any(tokens, words!("brief briefs reminder reminders briefing"));
    if !brief || any(tokens, words!("here")) || tokens.iter().any(|token| token.senses.has(Sense::Rain)) {
        return None;
    }
    if tells_no_hour(tokens) {
        reading.doubts.push(doubt(DoubtKind::ImpossibleDate, speech.text));
        return Some(Found::Doubted);
    }
    // "I'm out by 6:30, send the morning message at 6:15": the hour behind the message.
    let from = tokens
        .iter()
        .rposition(|token| {
            token.is_any(words!("message messages brief briefs report update morning text summary"))
        })
        .unwrap_or(0);
    let time: NaiveTime = clock_time(&tokens[from..]).or_else(|| clock_time(tokens))?;
    Some(Setting::Morning { time }.into())
}

/// "post the briefs here", "use this room".
fn here(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let brief = any(tokens, words!("brief briefs reminders messages post speak alerts"))
        && any(tokens, words!("here"));
    let room = any(tokens, words!("use in to"))
        && tokens.windows(2).any(|pair| pair[0].is("this") && pair[1].is("room"))
        && tokens.len() <= 9;
    // "Send the morning message to this room from now on"
    let room = room
        || tokens.len() <= 14
            && any(tokens, words!("brief briefs message messages reminders report reports post"))
            && tokens.windows(3).any(|three| {
                three[0].is_any(words!("to in into"))
                    && three[1].is("this")
                    && three[2].is_any(words!("room chat channel group"))
            });
    ((brief && tokens.len() <= 9) || room).then(|| Setting::Here.into())
}

/// "@bo:example.org may report", "make @bo:example.org keeper", "remove @bo:example.org".
fn person(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let id = tokens.iter().find(|token| token.text.starts_with('@') && token.text.len() > 1)?;
    let typed = speech.text.get(id.span.clone())?;
    let typed = typed.trim_end_matches(['.', '!', '?', ')']);
    let id = PersonId::new(typed);
    if any(tokens, words!("remove delete drop block")) {
        return Some(Setting::RemovePerson { id }.into());
    }
    let keeper = any(tokens, words!("keeper admin owner settings"));
    let helper = any(tokens, words!("helper report help add may can member"));
    let name = typed.trim_start_matches('@').split(':').next().unwrap_or(typed).to_owned();
    let role = if keeper { Role::Keeper } else { Role::Helper };
    (keeper || helper).then(|| Setting::Person { id, name, role }.into())
}

/// "call the garden Quince Lane", "our garden is called ...", "we call it ...".
fn name(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let is = |at: usize, texts: WordList| tokens.get(at).is_some_and(|token| token.is_any(texts));
    const OWNED: WordList = words!("the my our this");
    const PLOT: WordList = words!("garden orchard plot patch yard garden's orchard's");
    let we = usize::from(is(0, words!("we i please")));
    let start = if is(we, words!("call name")) && is(we + 1, OWNED) && is(we + 2, PLOT) {
        we + 3
    } else if is(0, OWNED)
        && is(1, PLOT)
        && is(2, words!("is name name's"))
        && is(3, words!("is called named"))
    {
        4
    } else if let Some(called) = (2..tokens.len().min(12)).find(|at| {
        is(*at, words!("called named"))
            && is(at - 1, words!("be"))
            && tokens[..*at].iter().any(|token| token.is_any(PLOT))
    }) {
        called + 1
    } else if is(0, words!("garden")) && is(1, words!("name")) && is(2, words!(": is")) {
        3
    } else if is(0, words!("name")) && is(1, words!(":")) {
        2
    } else {
        return None;
    };
    let name = clean(speech.text.get(tokens.get(start)?.span.start..)?);
    (!name.is_empty() && speech.asked == super::clauses::Asked::No).then(|| Setting::Name { name }.into())
}

/// "i'm in Fairhope, Alabama", "my garden is in ...", "we are near ...".
fn place(speech: &Speech) -> Option<Found> {
    const FARTHEST: usize = 7;
    let tokens = speech.tokens;
    let leads = tokens
        .iter()
        .take(FARTHEST)
        .position(|token| token.is_any(words!("in near at to from")) || token.is(":"))
        .or_else(|| is_place_named(tokens))?;
    let (before, word) = (&tokens[..leads], &tokens[leads]);
    let about = |token: &Token| {
        token.is_any(words!(
            "i i'm im am we we're are my our the garden garden's gardens is it's its figs trees located living live lives based growing grow grows place location home house here moved yard plot up down over out set hi hello so well ok"
        )) || token.is_any(words!(", ."))
    };
    let named =
        before.iter().any(|token| token.is_any(words!("place location located moved"))) || !word.is(":");
    if !before.iter().all(about) || !named || word.is("to") && !any(before, words!("moved set")) {
        return None;
    }
    let name = clean(speech.text.get(tokens.get(leads + 1)?.span.start..)?);
    let known = speech.context.garden.position.is_some();
    // "From Wall, 9" is a harvest; where the garden lies already, a place is named in full.
    let trees = speech.mentions.iter().any(|mention| mention.trees.names_some());
    if before.is_empty() && (known || trees || !word.is("from")) || trees && !name.contains(',') {
        return None;
    }
    // "I'm in the garden", "I'm in a hurry" are no places.
    let lower = name.to_lowercase();
    let no_place = ["the ", "a ", "my ", "an ", "no ", "love", "trouble", "doubt", "charge", "luck"]
        .iter()
        .any(|start| lower.starts_with(start));
    let words = name.split_whitespace().count();
    let lone = !known && words <= 2 && !super::lexicon::is_known(&lower);
    let figures = name.starts_with(|letter: char| letter.is_ascii_digit() || letter == '-');
    let proper = !figures && (name.starts_with(char::is_uppercase) || name.contains(',') || lone);
    (!name.is_empty() && !no_place && proper && words <= 8).then(|| Setting::Place { name }.into())
}

/// "My place is Fairhope Alabama".
fn is_place_named(tokens: &[Token]) -> Option<usize> {
    const FARTHEST: usize = 5;
    let at = tokens.iter().take(FARTHEST).position(|token| token.is("is"))?;
    (at > 0 && tokens[at - 1].is_any(words!("place location town city"))).then_some(at)
}

/// "Fairhope, Alabama" or a postal code, said while nobody knows where the garden is.
fn bare_place(speech: &Speech) -> Option<Found> {
    if speech.context.garden.position.is_some() {
        return None;
    }
    let text = speech.text.trim();
    let code = text.len() == 5 && text.chars().all(|letter| letter.is_ascii_digit());
    let (town, region) = text.split_once(',').unwrap_or(("", ""));
    let proper = |part: &str| {
        let words = part.split_whitespace().count();
        (1..=3).contains(&words)
            && part.trim().chars().all(|letter| letter.is_alphabetic() || " .'-".contains(letter))
    };
    let named = proper(town)
        && proper(region.trim_end_matches('.'))
        && town.starts_with(char::is_uppercase)
        && region.trim_start().starts_with(char::is_uppercase);
    (code || named).then(|| Setting::Place { name: clean(text) }.into())
}

/// What a person typed as a name, without the marks around it.
fn clean(text: &str) -> String {
    const LONGEST: usize = 60;
    const TAILS: [&str; 18] = [
        " to my products",
        " to the products",
        " to my list",
        " to our products",
        " to products",
        " from now on",
        " pls",
        " plz",
        " thx",
        " ty",
        " by the way",
        " btw",
        " please",
        " thanks",
        " thank you",
        " now",
        " instead",
        " if that helps",
    ];
    let text = text.trim().trim_end_matches(['.', '!']);
    let tail = TAILS.iter().find(|tail| {
        text.len() > tail.len()
            && text.get(text.len() - tail.len()..).is_some_and(|end| end.eq_ignore_ascii_case(tail))
    });
    let text = tail.map_or(text, |tail| &text[..text.len() - tail.len()]);
    text.trim()
        .trim_matches(|letter: char| matches!(letter, '"' | '\'' | '.' | ',' | '\u{201c}' | '\u{201d}' | ' '))
        .chars()
        .filter(|letter| !letter.is_control())
        .take(LONGEST)
        .collect()
}
