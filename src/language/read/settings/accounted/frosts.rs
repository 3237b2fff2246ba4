//! The usual first and last frost, as they are told in the first days: "last frost around april 20, first one oct 25",
//! "the frost finish here about 5 May and come again about 10 October".

use crate::language::read::Context;
use crate::language::read::moments::{month, ordinal};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::YearDay;
use crate::season::request::Setting;

const FIRST: WordList = words!("first fall autumn again begins begin starts start early comes come back");
const LAST: WordList = words!("last spring finish finishes ends end over safe done stops stop");

/// One date or two, in a sentence that tells of frost and of nothing that was seen.
pub(super) fn read(told: &[Token], context: &Context) -> Option<Vec<Setting>> {
    const MOST_WORDS: usize = 30;
    let any = |list: WordList| told.iter().any(|token| token.is_any(list));
    let frost = any(words!("frost frosts freeze freezes"));
    // A night with its degrees was a frost, and so is one of "this morning".
    let seen = any(words!(
        "night yesterday today morning this degrees f c year saw had got it'll forecast tonight tomorrow uncle brother sister neighbor neighbors neighbour if"
    ));
    if !frost || seen || told.len() > MOST_WORDS {
        return None;
    }
    let dates = dates(told);
    // Each figure is of a date.
    let figures = told.iter().filter(|token| token.number.is_some_and(|_| !token.is("one"))).count();
    let taken: usize = dates
        .iter()
        .map(|date| told[date.from..date.to].iter().filter(|token| token.number.is_some()).count())
        .sum();
    if dates.is_empty() || dates.len() > 2 || figures != taken {
        return None;
    }
    let south = context.garden.position.is_some_and(|position| position.latitude.value() < 0.0);
    let mut found: Vec<Setting> = Vec::new();
    let mut from = 0;
    for date in &dates {
        // Two dates that share a word are none.
        let before = told.get(from..date.from)?;
        let has = |list: WordList| before.iter().any(|token| token.is_any(list));
        let by_month = (date.date.month > 6) != south;
        let is_first = match (has(FIRST), has(LAST)) {
            (true, false) => true,
            (false, true) => false,
            _ => by_month,
        };
        found.push(if is_first {
            Setting::FirstFrost { date: date.date }
        } else {
            Setting::LastFrost { date: date.date }
        });
        from = date.to;
    }
    let differ = found.iter().filter(|setting| matches!(setting, Setting::FirstFrost { .. })).count() == 1;
    (found.len() == 1 || differ).then_some(found)
}

struct Date {
    date: YearDay,
    from: usize,
    to: usize,
}

/// "11/8": the month first, unless only the other order is a day of spring or fall.
fn slashed(told: &[Token], at: usize) -> Option<Date> {
    let part = |at: usize| {
        let part = told.get(at)?.number?;
        (part.fract() == 0.0 && (1.0..=31.0).contains(&part)).then_some(part as u32)
    };
    let (first, second) = (part(at)?, part(at + 2)?);
    told.get(at + 1).filter(|slash| slash.is("/") && slash.joined)?;
    let role = told[..at].iter().rev().find(|token| token.is_any(FIRST) || token.is_any(LAST));
    let of_frost = |month: u32| match role {
        Some(role) if role.is_any(LAST) => (2..=6).contains(&month),
        Some(_) => (9..=12).contains(&month),
        None => (2..=6).contains(&month) || (9..=12).contains(&month),
    };
    let (month, day) = if of_frost(first) || !of_frost(second) { (first, second) } else { (second, first) };
    chrono::NaiveDate::from_ymd_opt(2000, month, day)?;
    Some(Date { date: YearDay { month, day }, from: at, to: at + 3 })
}

/// "Apr 20", "the 12th of November", "late oct, say the 25th", "mid November".
fn dates(told: &[Token]) -> Vec<Date> {
    let mut found: Vec<Date> = Vec::new();
    for at in 0..told.len() {
        if let Some(date) = slashed(told, at) {
            found.push(date);
            continue;
        }
        let Some(month) = month(&told[at].text) else { continue };
        let day = |at: usize| {
            let token = told.get(at)?;
            // "The first of November"
            let of = told.get(at + 1).is_some_and(|of| of.is("of"));
            let named = ordinal(&token.text).filter(|_| of).map(f64::from);
            let figure = token.number.filter(|day| day.fract() == 0.0 && (1.0..=31.0).contains(day));
            named.or(figure)
        };
        let suffix =
            |at: usize| usize::from(told.get(at).is_some_and(|next| next.is_any(words!("st nd rd th"))));
        let behind = (at + 1..at + 5)
            .take_while(|place| {
                *place == at + 1
                    || told
                        .get(place - 1)
                        .is_some_and(|between| between.is_any(words!("the say around about , like or so")))
            })
            .find_map(|place| Some((day(place)?, place)));
        let free = found.last().map_or(0, |last| last.to);
        let before = (at.saturating_sub(3).max(free)..at).rev().find_map(|place| Some((day(place)?, place)));
        let part = at.checked_sub(1).and_then(|before| told.get(before)).and_then(|part| {
            // The middle of each third, as nearly as such a word can mean.
            Some(match part.text.as_str() {
                "early" => 5.0,
                "mid" | "middle" => 15.0,
                "late" => 25.0,
                _ => return None,
            })
        });
        let (day, from, to) = match (behind, before, part) {
            (Some((day, place)), _, _) => (day, at, place + 1 + suffix(place + 1)),
            (None, Some((day, place)), _) => (day, place, at + 1),
            (None, None, Some(day)) => (day, at - 1, at + 1),
            _ => continue,
        };
        let exists = chrono::NaiveDate::from_ymd_opt(2000, month, day as u32).is_some();
        if exists {
            found.push(Date { date: YearDay { month, day: day as u32 }, from, to });
        }
    }
    found
}
