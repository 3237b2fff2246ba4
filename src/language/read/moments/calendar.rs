//! Days by name and number: "monday", "july 4", "the 3rd", "2027-07-04".

use crate::language::read::word_list::{WordList, words};
use chrono::{DateTime, Datelike, NaiveDate, TimeDelta, Utc, Weekday};
use chrono_tz::Tz;

use super::Now;
use crate::language::read::tokens::Token;
use crate::season::calendar::local_date;
use crate::season::garden::{UnitSystem, YearDay};

/// A date this little ahead is a slip for the future, not last year's.
const NEAR: TimeDelta = TimeDelta::days(60);
/// In January one speaks of November's work; in July of no December's.
const LONGEST_BEHIND: TimeDelta = TimeDelta::days(120);

/// A date at a place in a stretch and the tokens it took; no date where no calendar has one.
pub(super) fn date_at(stretch: &[Token], index: usize, now: Now) -> Option<(Option<NaiveDate>, usize)> {
    iso_date(stretch, index)
        .or_else(|| dashed_date(stretch, index, now))
        .or_else(|| fraction_date(stretch, index, now))
        .or_else(|| no_such_day(stretch, index))
        .or_else(|| dotted_date(&stretch[index]))
        .or_else(|| {
            let (month, day, count) = year_day_at(stretch, index, now.units)?;
            // "7/8/12": two figures of a year are of this century.
            let slashed = (count == 5).then(|| stretch.get(index + 4)).flatten().and_then(|year| year.number);
            let slashed = slashed.map(|year| if year < 100.0 { year + 2000.0 } else { year });
            let behind =
                stretch.get(index + count).filter(|_| slashed.is_none()).and_then(|year| year.number);
            let whole = |year: &f64| (1900.0..2200.0).contains(year) && year.fract() == 0.0;
            let (slashed, behind) = (slashed.filter(whole), behind.filter(whole));
            let year = slashed.or(behind);
            let today = now.today();
            let date = NaiveDate::from_ymd_opt(year.map_or(today.year(), |year| year as i32), month, day);
            let date = date.map(|date| {
                let last = date.with_year(today.year() - 1).filter(|last| today - *last <= LONGEST_BEHIND);
                if year.is_none() && date > today + NEAR { last.unwrap_or(date) } else { date }
            });
            Some((date, count + usize::from(behind.is_some())))
        })
        .or_else(|| the_nth(stretch, index, now.today()))
}

/// "july 4", "4 july", "the 4th of july", "7/4" (month first on US units): month, day, tokens used. The day is
/// not checked against the month.
fn year_day_at(stretch: &[Token], index: usize, units: UnitSystem) -> Option<(u32, u32, usize)> {
    let token = &stretch[index];
    let day_at = |at: usize| {
        let token = stretch.get(at)?;
        if let Some(day) = ordinal_at(stretch, at) {
            return Some(day);
        }
        let figures = token.text.starts_with(|letter: char| letter.is_ascii_digit());
        let day = token.number.filter(|day| day.fract() == 0.0 && (1.0..=31.0).contains(day) && figures)?;
        let suffix = stretch.get(at + 1).is_some_and(is_ordinal);
        Some((day as u32, 1 + usize::from(suffix)))
    };
    if let Some(month) = month(&token.text) {
        let skip = usize::from(stretch.get(index + 1).is_some_and(|next| next.is_any(words!("the ."))));
        let (day, count) = day_at(index + 1 + skip)?;
        // "may 20 figs": a month that is also a verb wants nothing countable behind its day.
        let verb = token.is_any(words!("may march"))
            && stretch.get(index + 1 + skip + count).is_some_and(|next| {
                use crate::language::read::lexicon::Sense;
                next.senses.has_any(&[Sense::Fig, Sense::Unit]) || next.is("%")
            });
        return (!verb).then_some((month, day, 1 + skip + count));
    }
    let (day, count) = day_at(index)?;
    let of = usize::from(stretch.get(index + count).is_some_and(|next| next.is("of")));
    if let Some(month) = stretch.get(index + count + of).and_then(|next| month(&next.text)) {
        // "..., first Nov 5": the month has a day of its own.
        let word = ordinal(&token.text).is_some() && of == 0;
        if word && day_at(index + count + 1).is_some() {
            return None;
        }
        return Some((month, day, count + of + 1));
    }
    let slash = stretch.get(index + 1).is_some_and(|slash| slash.is("/") && slash.joined);
    let second = stretch
        .get(index + 2)
        .and_then(|second| second.number)
        .filter(|second| second.fract() == 0.0 && (1.0..=31.0).contains(second))? as u32;
    // "12/50 leaves" is a share.
    if !slash || stretch.get(index + 3).is_some_and(|next| next.is_any(words!("leaves leaf"))) {
        return None;
    }
    let day_first = (units == UnitSystem::Metric || day > 12) && second <= 12;
    let (month, day) = if day_first { (second, day) } else { (day, second) };
    // A third part is the year.
    let year = stretch.get(index + 3).is_some_and(|slash| slash.is("/"))
        && stretch.get(index + 4).is_some_and(|year| year.number.is_some());
    (month <= 12).then_some((month, day, if year { 5 } else { 3 }))
}

fn is_ordinal(token: &Token) -> bool {
    token.joined && token.is_any(words!("st nd rd th"))
}

/// "2027-07-04": hyphens between numbers.
fn iso_date(stretch: &[Token], index: usize) -> Option<(Option<NaiveDate>, usize)> {
    let year = stretch[index].number.filter(|year| (1900.0..2200.0).contains(year) && year.fract() == 0.0)?;
    let part = |at: usize| {
        stretch.get(at).filter(|mark| mark.is("-") && mark.joined)?;
        stretch.get(at + 1)?.number.filter(|part| part.fract() == 0.0 && *part >= 0.0 && *part < 100.0)
    };
    let (month, day) = (part(index + 1)?, part(index + 3)?);
    Some((NaiveDate::from_ymd_opt(year as i32, month as u32, day as u32), 5))
}

/// "07-08" at the head of a line or behind "on", the month first on US units.
fn dashed_date(stretch: &[Token], index: usize, now: Now) -> Option<(Option<NaiveDate>, usize)> {
    let whole =
        |at: usize| stretch.get(at)?.number.filter(|part| part.fract() == 0.0 && (1.0..=31.0).contains(part));
    let dash = stretch.get(index + 1).is_some_and(|dash| dash.is("-") && dash.joined);
    let two_figures = |at: usize| stretch.get(at).is_some_and(|token| token.text.len() == 2);
    // "2013-07-08" and "10 - 07 - 12" are no such day.
    let begins = index.checked_sub(1).is_none_or(|before| {
        let before = &stretch[before];
        before.is_word() || before.is_any(words!(", . : ; ("))
    });
    if !begins
        || !dash
        || !stretch[index].text.starts_with('0')
        || !two_figures(index)
        || !two_figures(index + 2)
    {
        return None;
    }
    let (first, second) = (whole(index)? as u32, whole(index + 2)? as u32);
    let (month, day) = if now.units == UnitSystem::Metric { (second, first) } else { (first, second) };
    Some((NaiveDate::from_ymd_opt(now.today().year(), month, day), 3))
}

/// "sprayed 7/8": a day, where it could be seven eighths of nothing.
fn fraction_date(stretch: &[Token], index: usize, now: Now) -> Option<(Option<NaiveDate>, usize)> {
    use crate::language::read::lexicon::Sense;
    let token = &stretch[index];
    let (first, second) = token.text.split_once('/')?;
    let before = index.checked_sub(1).map(|before| &stretch[before]);
    let led = before.is_some_and(|before| {
        before.is_any(words!("on since for log dated entry"))
            || before.senses.has_any(&[
                Sense::Harvest,
                Sense::Sprayed,
                Sense::Applied,
                Sense::Watered,
                Sense::Picked,
                Sense::Copper,
                Sense::Sulfur,
            ])
    });
    // "rain 7/8 - 0.4""
    let behind =
        index + 1 + usize::from(stretch.get(index + 1).is_some_and(|mark| mark.is_any(words!("- : ,"))));
    let led = led
        || before.is_some_and(|before| before.senses.has_any(&[Sense::Rain, Sense::Gauge]))
            && stretch.get(behind).is_some_and(|next| {
                next.number.is_some_and(|depth| depth < 10.0) && !next.text.contains('/')
            });
    // "7/32: watered pots"
    let alone = stretch.len() == 1 && second.parse::<u32>().is_ok_and(|day| (32..100).contains(&day));
    let heads = alone
        || index == 0
            && stretch.get(1).is_some_and(|next| {
                next.is_any(words!(": -"))
                    || next.senses.has_any(&[
                        Sense::Sprayed,
                        Sense::Applied,
                        Sense::Watered,
                        Sense::Picked,
                        Sense::Copper,
                    ])
            });
    let measured = stretch.get(index + 1).is_some_and(|next| {
        next.senses.has_any(&[Sense::Unit, Sense::Leaf]) || next.is_any(words!("of \" %"))
    });
    if !(led || heads) || measured {
        return None;
    }
    let (first, second) = (first.parse().ok()?, second.parse().ok()?);
    let (month, day) = if now.units == UnitSystem::Metric { (second, first) } else { (first, second) };
    Some((NaiveDate::from_ymd_opt(now.today().year(), month, day), 1))
}

/// "on 7/32", "July 45".
fn no_such_day(stretch: &[Token], index: usize) -> Option<(Option<NaiveDate>, usize)> {
    let beyond = |at: usize| {
        stretch
            .get(at)
            .and_then(|token| token.number)
            .is_some_and(|day| (32.0..100.0).contains(&day) && day.fract() == 0.0)
    };
    // "The 35 of July"
    let of_month = beyond(index)
        && stretch.get(index + 1).is_some_and(|of| of.is("of"))
        && stretch.get(index + 2).is_some_and(|next| month(&next.text).is_some());
    if of_month {
        return Some((None, 3));
    }
    let named = month(&stretch[index].text).is_some() && !stretch[index].is_any(words!("may march"));
    let counts = stretch.get(index + 2).is_some_and(|next| next.is_word() && !next.senses.is_empty());
    if named && beyond(index + 1) && !counts {
        return Some((None, 2));
    }
    // "7/32: watered pots"
    let heads = index == 0 && stretch.get(3).is_none_or(|mark| mark.is_any(words!(": -")));
    let led = heads || index > 0 && stretch[index - 1].is_any(words!("on since"));
    let slash = stretch.get(index + 1).is_some_and(|slash| slash.is("/"));
    let second = stretch.get(index + 2)?.number.filter(|second| second.fract() == 0.0 && *second > 31.0)?;
    (led && slash && stretch[index].number.is_some() && second < 100.0).then_some((None, 3))
}

/// "04.07.2027": the day first, as points between figures are used.
fn dotted_date(token: &Token) -> Option<(Option<NaiveDate>, usize)> {
    let mut parts = token.text.split('.');
    let (day, month, year) = (parts.next()?, parts.next()?, parts.next()?);
    let full = parts.next().is_none() && year.len() == 4;
    let date = NaiveDate::from_ymd_opt(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
    full.then_some((date, 1))
}

/// "on the 3rd".
fn the_nth(stretch: &[Token], index: usize, today: NaiveDate) -> Option<(Option<NaiveDate>, usize)> {
    let before = |back: usize| index.checked_sub(back).map(|at| &stretch[at]);
    if let Some(day) = ordinal(&stretch[index].text)
        && before(1).is_some_and(|the| the.is("the"))
        && before(2).is_some_and(|on| on.is_any(words!("on since")))
        // "Copper on the first two"
        && stretch.get(index + 1).is_none_or(|next| next.number.is_none() && !next.is_any(words!("few one ones")))
    {
        return Some((on_or_before(day, today), 1));
    }
    let number = stretch[index].number.filter(|day| day.fract() == 0.0 && (1.0..100.0).contains(day))?;
    stretch.get(index + 1).filter(|next| is_ordinal(next))?;
    let led = index > 0 && stretch[index - 1].is_any(words!("the on"));
    // "2nd spray", "3rd time" count; "the 2nd" alone is a day.
    let counts = stretch.get(index + 2).is_some_and(|next| {
        use crate::language::read::lexicon::Sense;
        next.is_word() && !next.senses.has_any(&[Sense::Link, Sense::Time, Sense::Filler])
    });
    let dated = before(2).is_some_and(|on| on.is_any(words!("on since")));
    if !led || counts && !dated {
        return None;
    }
    if number > 31.0 {
        return Some((None, 2));
    }
    let past = on_or_before(number as u32, today);
    // "Friday the 12th": the day of the week tells which month.
    let named = before(2).and_then(|day| weekday(&day.text));
    let this = today.with_day(number as u32);
    let ahead = named.is_some_and(|day| {
        past.is_none_or(|past| past.weekday() != day) && this.is_some_and(|this| this.weekday() == day)
    });
    Some((if ahead { this } else { past }, 2))
}

/// The latest such day of a month that is not ahead.
fn on_or_before(day: u32, today: NaiveDate) -> Option<NaiveDate> {
    let this = today.with_day(day).filter(|date| *date <= today);
    let last_month = today.with_day(1).and_then(|first| first.pred_opt());
    this.or_else(|| last_month.and_then(|end| end.with_day(day)))
}

/// "Fourth", "twenty first": a day of a month beside its name.
fn ordinal_at(stretch: &[Token], at: usize) -> Option<(u32, usize)> {
    let tens = match stretch.get(at)?.text.as_str() {
        "twenty" => 20,
        "thirty" => 30,
        text => return ordinal(text).map(|day| (day, 1)),
    };
    let ones = ordinal(&stretch.get(at + 1)?.text).filter(|ones| *ones < 10)?;
    Some((tens + ones, 2))
}

pub(in crate::language::read) fn ordinal(text: &str) -> Option<u32> {
    const ORDINALS: [&str; 20] = [
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
        "ninth",
        "tenth",
        "eleventh",
        "twelfth",
        "thirteenth",
        "fourteenth",
        "fifteenth",
        "sixteenth",
        "seventeenth",
        "eighteenth",
        "nineteenth",
        "twentieth",
    ];
    if text == "thirtieth" {
        return Some(30);
    }
    ORDINALS.iter().position(|ordinal| *ordinal == text).map(|at| at as u32 + 1)
}

pub(in crate::language::read) fn weekday(text: &str) -> Option<Weekday> {
    Some(match text {
        "monday" | "mon" => Weekday::Mon,
        "tuesday" | "tue" | "tues" => Weekday::Tue,
        "wednesday" | "wed" | "weds" => Weekday::Wed,
        "thursday" | "thu" | "thur" | "thurs" => Weekday::Thu,
        "friday" | "fri" => Weekday::Fri,
        "saturday" | "sat" => Weekday::Sat,
        "sunday" | "sun" => Weekday::Sun,
        _ => return None,
    })
}

pub(in crate::language::read) fn month(text: &str) -> Option<u32> {
    Some(match text {
        "january" | "jan" => 1,
        "february" | "feb" => 2,
        "march" | "mar" => 3,
        "april" | "apr" => 4,
        "may" => 5,
        "june" | "jun" => 6,
        "july" | "jul" => 7,
        "august" | "aug" => 8,
        "september" | "sep" | "sept" => 9,
        "october" | "oct" => 10,
        "november" | "nov" => 11,
        "december" | "dec" => 12,
        _ => return None,
    })
}

/// A day of the year anywhere in a stretch, such as a usual frost date; "mid november" is its middle. A day no
/// year has is an error.
pub(in crate::language::read) fn year_day(
    stretch: &[Token],
    units: UnitSystem,
) -> Option<Result<YearDay, ()>> {
    for index in 0..stretch.len() {
        if let Some((month, day, _)) = year_day_at(stretch, index, units) {
            return Some(YearDay::new(month, day).ok_or(()));
        }
    }
    // Days everybody knows, near enough for a usual frost.
    const FEASTS: [(&str, u32, u32); 4] =
        [("thanksgiving", 11, 25), ("halloween", 10, 31), ("christmas", 12, 25), ("xmas", 12, 25)];
    if let Some((_, month, day)) =
        FEASTS.iter().find(|(feast, ..)| stretch.iter().any(|token| token.is(feast)))
    {
        return Some(YearDay::new(*month, *day).ok_or(()));
    }
    stretch.iter().enumerate().find_map(|(index, token)| {
        let month = month(&token.text)?;
        let before = |texts: WordList| stretch[..index].iter().rev().take(3).any(|word| word.is_any(texts));
        let part = stretch.iter().any(|token| token.is_any(words!("early beginning start first week")));
        let number = stretch.get(index + 1).and_then(|next| next.number);
        // "nov 45" is no day, and not the middle of the month.
        if number.is_some_and(|number| number > 31.0 && number < 1900.0) {
            return Some(Err(()));
        }
        let day = if before(words!("early beginning start")) {
            5
        } else if before(words!("late end")) {
            25
        } else if part && before(words!("week")) {
            7
        } else {
            15
        };
        YearDay::new(month, day).map(Ok)
    })
}

/// The next day a word names, counted from today on: for what is still to come.
pub(in crate::language::read) fn next_day(
    stretch: &[Token],
    at: DateTime<Utc>,
    zone: Tz,
    units: UnitSystem,
) -> Option<NaiveDate> {
    let today = local_date(at, zone);
    for (index, token) in stretch.iter().enumerate() {
        if token.is_any(words!("tomorrow tmrw tmr")) {
            return Some(today + TimeDelta::days(1));
        }
        if token.is_any(words!("weekend")) {
            let ahead = (5 + 7 - today.weekday().num_days_from_monday()) % 7;
            return Some(today + TimeDelta::days(i64::from(if ahead == 0 { 7 } else { ahead })));
        }
        // "Thursday the 18th": the number tells it.
        let numbered = stretch.get(index + 1).is_some_and(|the| the.is("the"))
            && stretch.get(index + 2).is_some_and(|nth| nth.number.is_some() || ordinal(&nth.text).is_some())
            // "Friday 19 July", "Friday July 19"
            || stretch[index + 1..].iter().take(2).any(|next| next.number.is_some())
                && stretch[index + 1..].iter().take(2).any(|next| month(&next.text).is_some());
        if let Some(weekday) = weekday(&token.text).filter(|_| !numbered) {
            let ahead = (weekday.num_days_from_monday() + 7 - today.weekday().num_days_from_monday()) % 7;
            return Some(today + TimeDelta::days(i64::from(if ahead == 0 { 7 } else { ahead })));
        }
        if let Some((month, day, _)) = year_day_at(stretch, index, units) {
            return YearDay::new(month, day)?.next(today);
        }
        // "until the 20th"
        let the = index > 0 && stretch[index - 1].is("the");
        let nth =
            token.number.filter(|_| stretch.get(index + 1).is_some_and(is_ordinal)).map(|day| day as u32);
        let nth = nth.or_else(|| ordinal_at(stretch, index).filter(|_| the).map(|(day, _)| day));
        if let Some(day) = nth.filter(|day| (1..=31).contains(day)) {
            let this = today.with_day(day).filter(|date| *date > today);
            let next = today.with_day(1).map(|first| first + chrono::Months::new(1));
            return this.or_else(|| next.and_then(|first| first.with_day(day)));
        }
        let count = token.number.or(token.is_any(words!("a next")).then_some(1.0));
        if let Some(count) = count.filter(|count| (1.0..400.0).contains(count))
            && let Some(unit) = stretch.get(index + 1)
        {
            match unit.text.as_str() {
                "day" | "days" => return Some(today + TimeDelta::days(count as i64)),
                "week" | "weeks" => return Some(today + TimeDelta::days(count as i64 * 7)),
                "month" | "months" => return Some(today + TimeDelta::days(count as i64 * 30)),
                _ => {}
            }
        }
    }
    None
}
