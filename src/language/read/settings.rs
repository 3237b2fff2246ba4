//! What is settled about a garden: its place, its trees, its sprays, its people.

mod accounted;
pub(super) mod cultivars;
mod first_days;
mod first_list;
mod first_words;
pub(super) mod label_days;
mod limits;
mod message_hour;
mod messages;
mod people;
mod placing;
mod planted;
mod products;
mod regions;
mod renamed;
mod tables;
mod trees;

use crate::language::read::word_list::{WordList, words};

use super::amounts::{Amount, amounts};
use super::lexicon::Sense;
use super::moments::year_day;
use super::tokens::Token;
use super::{Context, Speech, doubt};
use crate::season::garden::UnitSystem;
use crate::season::journal::Report;
use crate::season::request::{DoubtKind, Reading, Record, Request, Setting, When};
use crate::units::Position;

pub(super) use self::accounted::named;
pub(super) use self::message_hour::settle as message_hour;
use self::people::{helps, let_in, person, person_by_name};
pub(super) use self::planted::stand as stand_of_planted;

/// A whole message that is a list of trees, a table, or a label read out line by line.
pub(super) fn list(text: &str, context: &Context) -> Option<Reading> {
    // "Location: 39.9526, -75.1652 (accuracy 12 m)" is no place by its name.
    if super::places::position(text).is_some() {
        return None;
    }
    accounted::read(text, context)
        .or_else(|| first_days::read(text, context))
        .or_else(|| tables::read(text, context))
        .or_else(|| accounted::labels(text))
        .or_else(|| products::label(text, context))
        .or_else(|| first_list::read(text, context))
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
    // "Prices: 15 gal pot $22, mulch $5 a bag"
    let priced = speech.text.match_indices('$').any(|(at, _)| {
        speech.text[at + 1..].trim_start().starts_with(|letter: char| letter.is_ascii_digit())
    });
    if priced {
        return false;
    }
    if let Some(trees) = trees::removed(speech) {
        reading.requests.push(Request::Record(Record { trees, when: When::Unsaid, report: Report::Removed }));
        return true;
    }
    // "My uncle used to spray lime sulfur" settles nothing.
    if super::mood::says_used_to(speech.tokens)
        && !any(speech.tokens, words!("message messages brief briefs"))
    {
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
                    || verb.is_any(words!("moved carried brought"))
            })
    })
}

/// Where work told at the head of a sentence ends, before something is settled.
pub(super) fn done_before(tokens: &[Token]) -> Option<usize> {
    const LEAST: usize = 2;
    let first = tokens.iter().find(|token| !token.senses.has(Sense::Mine))?;
    let done = first.senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked]);
    let end =
        tokens.iter().position(|token| token.is_any(words!("and , so ;"))).filter(|end| *end >= LEAST)?;
    done.then_some(end)
}

fn single(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    message_hour::read(speech)
        .or_else(|| frost(speech, reading))
        .or_else(|| units(speech))
        .or_else(|| messages::quiet(speech))
        .or_else(|| messages::listening(speech))
        .or_else(|| messages::morning(speech, reading))
        .or_else(|| messages::here(speech))
        .or_else(|| person(speech))
        .or_else(|| person_by_name(speech, reading))
        .or_else(|| let_in(speech, reading))
        .or_else(|| helps(speech, reading))
        .or_else(|| name(speech))
        .or_else(|| place(speech))
        .or_else(|| bare_place(speech))
        .or_else(|| town(speech))
        .or_else(|| limits::read(speech, reading))
        .or_else(|| renamed::rename(speech, reading))
        .or_else(|| products::read(speech))
        .or_else(|| trees::read(speech, reading))
}

/// "Our first frost is November 5 and our last is April 10": each half a setting.
fn two(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    const MOST_WORDS: usize = 30;
    let tokens = speech.tokens;
    let settles = |token: &&Token| {
        token.is_any(words!(
            "frost freeze units metric imperial celsius fahrenheit morning brief briefs message messages report quiet call called name place location position gallons gallon inches litres liters pounds msgs msg listen answer reply"
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
    let usual = any(
        tokens,
        words!("usual usually average generally normally typical typically date around round about"),
    );
    if let Some(found) = frost_dates(speech, reading) {
        return Some(found);
    }
    let first = any(tokens, words!("first fall autumn starts begins"));
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
            || any(tokens, words!("put enter")) && !any(tokens, words!("out"))
            || any(tokens, words!("comes arrives hits")) && any(tokens, words!("set"))
            || tokens.len() <= 6)
        || speech.asked == super::clauses::Asked::Yes
        // "My brother's first frost is in September"
        || tokens.iter().any(|token| token.senses.has(Sense::Someone))
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

/// "Frost dates: Apr 10 - Nov 5", "our last frost is April 14 and our first is October 28": the one of spring and the one
/// of fall.
fn frost_dates(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let tokens = speech.tokens;
    let units = speech.context.garden.units;
    let titled = tokens.windows(2).any(|pair| pair[0].is_any(words!("frost freeze")) && pair[1].is("dates"));
    let months: Vec<usize> =
        (0..tokens.len()).filter(|at| super::moments::month(&tokens[*at].text).is_some()).collect();
    let [_, second] = months.as_slice() else { return None };
    let parted = (0..*second).rev().find(|at| tokens[*at].is_any(words!("- to and , / ;")))?;
    // "Our last frost is April 14 and our first is October 28"
    let of = |half: &[Token]| match (any(half, words!("first fall autumn")), any(half, words!("last spring")))
    {
        (true, false) => Some(true),
        (false, true) => Some(false),
        _ => None,
    };
    let frost = any(tokens, words!("frost freeze frosts"));
    let told = of(&tokens[..parted]).filter(|_| frost).zip(of(&tokens[parted..]));
    let first_leads = told.filter(|(one, other)| one != other).map(|(one, _)| one);
    if speech.asked == super::clauses::Asked::Yes || first_leads.is_none() && !titled {
        return None;
    }
    let seen = is_frost_seen(speech) || tokens.iter().any(|token| token.senses.has(Sense::Someone));
    if first_leads.is_some() && seen {
        return None;
    }
    let (Ok(one), Ok(other)) = (year_day(&tokens[..parted], units)?, year_day(&tokens[parted..], units)?)
    else {
        reading.doubts.push(doubt(DoubtKind::ImpossibleDate, speech.text));
        return Some(Found::Doubted);
    };
    // Where no word says which is which, the frost-free season lies between them: in the south it runs over the
    // year's end.
    let settings = if first_leads == Some(true) {
        [Setting::FirstFrost { date: one }, Setting::LastFrost { date: other }]
    } else {
        [Setting::LastFrost { date: one }, Setting::FirstFrost { date: other }]
    };
    reading.requests.extend(settings.map(Request::Set));
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
    let wish = any(tokens, words!("back use switch in on put prefer units set want speak talk show change please pls"))
            || tokens.len() <= 2
            // "Gallons and Fahrenheit if you don't mind", "everyone here uses F and gallons so do that"
            || any(tokens, words!("gallons")) && any(tokens, words!("f fahrenheit inches"))
            || any(tokens, words!("litres liters celsius")) && any(tokens, words!("celsius millimetres mm kilos"))
            // "Wait no, metric actually"
            || tokens.len() <= 6 && any(tokens, words!("actually instead wait no not"));
    let figures = tokens.iter().any(|token| token.number.is_some());
    if !wish || figures || tokens.len() > 20 {
        return None;
    }
    // "I use liters not gallons"
    let metric_words = words!("litres liters litre liter metric celsius centigrade millimetres mm cm");
    let no_gallons = any(tokens, metric_words)
        && tokens.windows(2).any(|pair| {
            pair[0].is("not") && pair[1].is_any(words!("gallons gallon imperial fahrenheit inches"))
        });
    let litres_please =
        tokens.len() <= 3 && any(tokens, words!("litres liters")) && any(tokens, words!("please pls"));
    if no_gallons || litres_please {
        return Some(Setting::Units { units: UnitSystem::Metric }.into());
    }
    // "Gallons and inches, no metric"
    let no_metric = tokens.windows(2).any(|pair| {
        pair[0].is_any(words!("no not")) && pair[1].is_any(words!("metric celsius litres liters centigrade"))
    });
    if no_metric && !any(tokens, words!("wait actually")) {
        return Some(Setting::Units { units: UnitSystem::Us }.into());
    }
    let by_measure =
        any(tokens, words!("litres liters litre")) && any(tokens, words!("kilograms kilos kg millimetres"));
    let units = if by_measure || any(tokens, words!("metric celsius centigrade millimetres millimeters")) {
        UnitSystem::Metric
    } else if any(tokens, words!("imperial fahrenheit"))
        || any(tokens, words!("us american")) && any(tokens, words!("units use"))
        || any(tokens, words!("inches gallons")) && any(tokens, words!("use units prefer"))
        || any(tokens, words!("gallons")) && any(tokens, words!("f inches"))
        || tokens.windows(2).any(|pair| pair[0].is("not") && pair[1].is_any(words!("liters litres metric")))
            && any(tokens, words!("gallons"))
        || any(tokens, words!("inches gallons pounds"))
            && any(tokens, words!("back switch"))
            && tokens.len() <= 9
    {
        UnitSystem::Us
    } else {
        return None;
    };
    Some(Setting::Units { units }.into())
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
    } else if let Some(called) = (3..tokens.len().min(14)).find(|at| {
        // "Kids voted and the garden is called Sticky Finger Patch"
        is(*at, words!("called named"))
            && is(at - 1, words!("is"))
            && is(at - 2, PLOT)
            && is(at - 3, OWNED)
            && *at > 3
            && is(at - 4, words!("and so that , :"))
            && tokens.get(at + 1).is_some_and(|name| {
                speech.typed(at + 1, at + 2).starts_with(char::is_uppercase) && !name.is_mark()
            })
    }) {
        called + 1
    } else if let Some(called) = (2..tokens.len().min(12)).find(|at| {
        is(*at, words!("called named"))
            && is(at - 1, words!("be"))
            && tokens[..*at].iter().any(|token| token.is_any(PLOT))
    }) {
        called + 1
    } else if let Some(make) = (4..tokens.len().min(10)).find(|at| {
        // "The name of the garden, make it Bahay Igos please"
        is(*at, words!("make"))
            && is(at + 1, words!("it"))
            && any(&tokens[..*at], words!("name"))
            && any(&tokens[..*at], words!("garden orchard plot"))
    }) {
        make + 2
    } else if speech.context.garden.trees.is_empty()
        && is(we, words!("call name"))
        && (is(we + 1, words!("it this"))
            || is(we + 1, words!("the our my")) && is(we + 2, words!("place thing spot")))
    {
        // "Call it Pelican Row", "call this place The Back Forty", before there is a tree it could be of
        we + 2 + usize::from(is(we + 2, words!("place thing spot one")))
    } else if is(0, words!("the"))
        && is(1, words!("name"))
        && is(2, words!("of"))
        && is(4, PLOT)
        && is(5, words!("is"))
    {
        6
    } else if let Some(to) = (3..tokens.len().min(9)).find(|at| {
        // "Please change the name of the garden to Sunny Steps"
        is(*at, words!("to"))
            && any(&tokens[..*at], words!("change set make"))
            && any(&tokens[..*at], words!("name"))
            && any(&tokens[..*at], PLOT)
    }) {
        to + 1
    } else if let Some(called) = (3..tokens.len().min(8)).find(|at| {
        // "My garden has always been called Thistledown Corner, so please write that at the top"
        is(*at, words!("called named")) && is(0, OWNED) && is(1, PLOT) && is(at - 1, words!("been always"))
    }) {
        called + 1
    } else if is(0, words!("name"))
        && is(1, words!("of"))
        && (is(2, PLOT) || is(2, OWNED) && (is(3, PLOT) || is(3, words!("place"))))
        && any(&tokens[..tokens.len().min(6)], words!("is"))
    {
        // "Name of the place is Pelican Bend, put that in"
        tokens.iter().position(|token| token.is("is"))? + 1
    } else if is(0, words!("garden")) && is(1, words!("name")) && is(2, words!(": is =")) {
        3
    } else if is(0, words!("name")) && is(1, words!(":")) {
        2
    } else {
        return None;
    };
    let name = speech.text.get(tokens.get(start)?.span.start..)?;
    let end = [", so ", ", please", " please", ", if ", ", because "]
        .iter()
        .filter_map(|tail| name.find(tail))
        .min();
    // "Mudpie Corner, the kids picked it"
    let comma =
        name.match_indices(", ").map(|(at, _)| at).find(|at| name[at + 2..].starts_with(char::is_lowercase));
    let end = end.into_iter().chain(comma).min();
    let name = clean(&name[..end.unwrap_or(name.len())]);
    (!name.is_empty() && speech.asked == super::clauses::Asked::No).then(|| Setting::Name { name }.into())
}

/// "i'm in Fairhope, Alabama", "my garden is in ...", "we are near ...".
fn place(speech: &Speech) -> Option<Found> {
    const FARTHEST: usize = 7;
    let tokens = speech.tokens;
    let leads = tokens
        .iter()
        .take(FARTHEST)
        .position(|token| token.is_any(words!("in near at to from outside")) || token.is(":"))
        .or_else(|| is_place_named(tokens))?;
    let (before, word) = (&tokens[..leads], &tokens[leads]);
    // "Home from work, watered pots"
    let told = tokens.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Watered,
            Sense::Sprayed,
            Sense::Picked,
            Sense::Applied,
            Sense::Rust,
            Sense::Seen,
        ])
    });
    if told {
        return None;
    }
    let about = |token: &Token| {
        token.is_any(words!(
            "i i'm im am we we're are my our the garden garden's gardens is it's its figs trees located living live lives based growing grow grows place location home house here moved yard plot up down over out set hi hello so well ok just right way yo new here"
        )) || token.is_any(words!(", ."))
    };
    let named =
        before.iter().any(|token| token.is_any(words!("place location located moved"))) || !word.is(":");
    if !before.iter().all(about) || !named || word.is("to") && !any(before, words!("moved set")) {
        return None;
    }
    let name = speech.text.get(tokens.get(leads + 1)?.span.start..)?;
    // "... Harlan Mills, Georgia, past the old depot"
    let mut commas = name.match_indices(',').map(|(at, _)| at);
    let end = commas.nth(1).filter(|at| name[at + 1..].trim_start().starts_with(char::is_lowercase));
    let name = clean(name[..end.unwrap_or(name.len())].split(" (").next().unwrap_or_default());
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

/// "Okay we are down in Waycross Georgia", said while nobody knows where the garden is.
fn town(speech: &Speech) -> Option<Found> {
    if speech.context.garden.position.is_some() || speech.asked == super::clauses::Asked::Yes {
        return None;
    }
    let name = regions::named_with_region(speech.text, speech.tokens)?;
    Some(Setting::Place { name: clean(name) }.into())
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
    const TAILS: [&str; 21] = [
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
        " ok",
        " lol",
        " haha",
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
