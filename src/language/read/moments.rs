//! When: words relative to the message's own time, in the garden's zone.

use chrono::{DateTime, Datelike, NaiveDate, NaiveTime, TimeDelta, Utc, Weekday};
use chrono_tz::Tz;

use super::tokens::Token;
use crate::season::calendar::{at_local, local_date};
use crate::season::garden::YearDay;
use crate::season::request::When;

/// What a stretch of words says of when.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Moment {
    pub(super) date: Option<NaiveDate>,
    pub(super) time: Option<Clock>,
    pub(super) beside_rain: Option<When>,
    pub(super) exact: Option<DateTime<Utc>>,
    /// Tokens that were part of it.
    pub(super) used: Vec<usize>,
    /// A day no calendar has, such as 31 February.
    pub(super) impossible: bool,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Clock {
    /// Told to the minute or hour.
    Told(NaiveTime),
    /// "Morning", "evening": a usual hour of it.
    About(NaiveTime),
}

impl Clock {
    fn time(self) -> NaiveTime {
        match self {
            Clock::Told(time) | Clock::About(time) => time,
        }
    }
}

impl Moment {
    pub(super) fn is_said(&self) -> bool {
        self.date.is_some() || self.time.is_some() || self.beside_rain.is_some() || self.exact.is_some()
    }

    /// The moment meant. A bare clock time that still lies ahead today was meant for the latest such time.
    pub(super) fn when(&self, at: DateTime<Utc>, zone: Tz) -> When {
        if let Some(exact) = self.exact {
            return When::At(exact);
        }
        if let Some(beside) = self.beside_rain {
            return beside;
        }
        let today = local_date(at, zone);
        match (self.date, self.time) {
            (None, None) => When::Unsaid,
            (Some(date), None) if date == today => When::Unsaid,
            (Some(date), None) => When::OnDay(at_local(date, MIDDAY, zone)),
            (date, Some(clock)) => {
                let mut moment = at_local(date.unwrap_or(today), clock.time(), zone);
                if date.is_none() && moment > at {
                    moment = match clock {
                        // "at 7" said at noon was this morning, said at 6 in the morning it was last evening.
                        Clock::Told(time) => latest_before(at, time, zone),
                        Clock::About(_) => at,
                    };
                }
                match clock {
                    Clock::Told(_) => When::At(moment),
                    Clock::About(_) => When::OnDay(moment),
                }
            }
        }
    }
}

const MIDDAY: NaiveTime = time(12, 0);

const fn time(hour: u32, minute: u32) -> NaiveTime {
    match NaiveTime::from_hms_opt(hour, minute, 0) {
        Some(time) => time,
        None => NaiveTime::MIN,
    }
}

fn latest_before(at: DateTime<Utc>, time: NaiveTime, zone: Tz) -> DateTime<Utc> {
    let today = local_date(at, zone);
    [0, 1]
        .into_iter()
        .map(|back| at_local(today - TimeDelta::days(back), time, zone))
        .find(|moment| *moment <= at)
        .unwrap_or(at)
}

/// Reads all the words of when in a stretch.
pub(super) fn moment(stretch: &[Token], at: DateTime<Utc>, zone: Tz) -> Moment {
    let mut moment = Moment::default();
    let mut index = 0;
    let today = local_date(at, zone);
    while index < stretch.len() {
        let count = beside_rain(stretch, index, &mut moment)
            .or_else(|| ago(stretch, index, at, today, &mut moment))
            .or_else(|| day_word(stretch, index, today, &mut moment))
            .or_else(|| calendar_date(stretch, index, today, &mut moment))
            .or_else(|| clock(stretch, index, &mut moment))
            .or_else(|| part_of_day(stretch, index, &mut moment));
        match count {
            Some(count) => {
                moment.used.extend(index..index + count);
                index += count;
            }
            None => index += 1,
        }
    }
    moment
}

fn beside_rain(stretch: &[Token], index: usize, moment: &mut Moment) -> Option<usize> {
    let after = stretch[index].is_any(&["after", "since"]);
    let before = stretch[index].is_any(&["before", "ahead"]);
    if !after && !before {
        return None;
    }
    let rain = stretch[index + 1..]
        .iter()
        .take(3)
        .position(|token| token.is_any(&["rain", "rains", "storm", "shower", "showers", "downpour"]))?;
    moment.beside_rain = Some(if after { When::AfterRain } else { When::BeforeRain });
    Some(rain + 2)
}

/// "2 days ago", "an hour ago", "a week ago", "couple of days ago".
fn ago(
    stretch: &[Token],
    index: usize,
    at: DateTime<Utc>,
    today: NaiveDate,
    moment: &mut Moment,
) -> Option<usize> {
    let amount = match &stretch[index] {
        token if token.is_any(&["a", "an"]) => 1.0,
        token if token.is("couple") => 2.0,
        token if token.is("few") => 3.0,
        token => token.number?,
    };
    let unit = (index + 1..stretch.len().min(index + 3)).find(|at| !stretch[*at].is("of"))?;
    let rest = stretch.get(unit + 1)?;
    if !rest.is_any(&["ago", "back", "earlier"]) {
        return None;
    }
    let days = match stretch[unit].text.as_str() {
        "day" | "days" => amount,
        "week" | "weeks" => amount * 7.0,
        "month" | "months" => amount * 30.0,
        "hour" | "hours" | "hr" | "hrs" => {
            moment.exact = Some(at - TimeDelta::minutes((amount * 60.0).min(1e5) as i64));
            return Some(unit + 2 - index);
        }
        "minute" | "minutes" | "min" | "mins" => {
            moment.exact = Some(at - TimeDelta::minutes(amount.min(1e5) as i64));
            return Some(unit + 2 - index);
        }
        _ => return None,
    };
    moment.date = Some(today - TimeDelta::days(days.clamp(0.0, 4000.0).round() as i64));
    Some(unit + 2 - index)
}

fn day_word(stretch: &[Token], index: usize, today: NaiveDate, moment: &mut Moment) -> Option<usize> {
    let token = &stretch[index];
    let next = |texts: &[&str]| stretch.get(index + 1).is_some_and(|next| next.is_any(texts));
    if token.is_any(&["yesterday", "yday", "ystrdy", "yest"]) {
        moment.date = Some(today - TimeDelta::days(1));
        return Some(1);
    }
    if token.is("lastnight") || (token.is("last") && next(&["night", "evening"])) {
        moment.date = Some(today - TimeDelta::days(1));
        moment.time = Some(Clock::About(time(21, 0)));
        return Some(if token.is("last") { 2 } else { 1 });
    }
    if token.is_any(&["today", "tonight"]) {
        moment.date = Some(today);
        return Some(1);
    }
    if token.is("this") && next(&["morning", "mornin", "afternoon", "evening", "am"]) {
        moment.date = Some(today);
        moment.time = stretch.get(index + 1).and_then(|next| usual(&next.text)).map(Clock::About);
        return Some(2);
    }
    if token.is("day") && next(&["before"]) && stretch.get(index + 2).is_some_and(|then| then.is("yesterday"))
    {
        moment.date = Some(today - TimeDelta::days(2));
        return Some(3);
    }
    if token.is("other") && next(&["day"]) {
        moment.date = Some(today - TimeDelta::days(2));
        return Some(2);
    }
    let weekday = weekday(&token.text)?;
    // "sat", "sun" and "mon" alone are days only with nothing of the weather about them.
    let back = (today.weekday().num_days_from_monday() + 7 - weekday.num_days_from_monday()) % 7;
    let back = if back == 0 { 7 } else { back };
    let today_named = today.weekday() == weekday;
    let back = if today_named && !stretch[..index].iter().any(|before| before.is("last")) { 0 } else { back };
    moment.date = Some(today - TimeDelta::days(i64::from(back)));
    Some(1)
}

fn calendar_date(stretch: &[Token], index: usize, today: NaiveDate, moment: &mut Moment) -> Option<usize> {
    let (date, count) = year_day_at(stretch, index)
        .map(|(month, day, count)| {
            let this_year = NaiveDate::from_ymd_opt(today.year(), month, day);
            // A date still ahead was last year's, unless it is so near that it is a slip for the future.
            let date = this_year.map(|date| {
                if date > today + TimeDelta::days(60) {
                    date.with_year(today.year() - 1).unwrap_or(date)
                } else {
                    date
                }
            });
            (date, count)
        })
        .or_else(|| iso_date(stretch, index))
        .or_else(|| the_nth(stretch, index, today))?;
    match date {
        Some(date) => moment.date = Some(date),
        None => moment.impossible = true,
    }
    Some(count)
}

/// "july 4", "4 july", "the 4th of july", "7/4" (month first): month, day, tokens used. The day is not checked
/// against the month.
pub(super) fn year_day_at(stretch: &[Token], index: usize) -> Option<(u32, u32, usize)> {
    let token = &stretch[index];
    let day_at = |at: usize| {
        let day = stretch.get(at)?.number.filter(|day| day.fract() == 0.0 && (1.0..=31.0).contains(day))?;
        let suffix =
            stretch.get(at + 1).is_some_and(|next| next.joined && next.is_any(&["st", "nd", "rd", "th"]));
        Some((day as u32, 1 + usize::from(suffix)))
    };
    if let Some(month) = month(&token.text) {
        let skip = usize::from(stretch.get(index + 1).is_some_and(|next| next.is_any(&["the", "."])));
        let (day, count) = day_at(index + 1 + skip)?;
        // "may 20 figs" is no date: a month that is also a verb wants nothing countable behind it.
        return Some((month, day, 1 + skip + count));
    }
    let (day, count) = day_at(index)?;
    let of = usize::from(stretch.get(index + count).is_some_and(|next| next.is("of")));
    if let Some(month) = stretch.get(index + count + of).and_then(|next| month(&next.text)) {
        return Some((month, day, count + of + 1));
    }
    let slash = stretch.get(index + 1).is_some_and(|slash| slash.is("/") && slash.joined);
    let second =
        stretch.get(index + 2).and_then(|second| second.number).filter(|second| second.fract() == 0.0);
    match second {
        Some(second) if slash && (1..=12).contains(&day) && (1.0..=31.0).contains(&second) => {
            Some((day, second as u32, 3))
        }
        _ => None,
    }
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

/// "on the 3rd".
fn the_nth(stretch: &[Token], index: usize, today: NaiveDate) -> Option<(Option<NaiveDate>, usize)> {
    let day = stretch[index].number.filter(|day| (1.0..=31.0).contains(day) && day.fract() == 0.0)? as u32;
    stretch.get(index + 1).filter(|next| next.joined && next.is_any(&["st", "nd", "rd", "th"]))?;
    let this = today.with_day(day).filter(|date| *date <= today);
    let last_month = today.with_day(1).and_then(|first| first.pred_opt());
    Some((this.or_else(|| last_month.and_then(|end| end.with_day(day))), 2))
}

/// "7 am", "7:30", "at 7", "noon".
fn clock(stretch: &[Token], index: usize, moment: &mut Moment) -> Option<usize> {
    let token = &stretch[index];
    if token.is_any(&["noon", "midday"]) {
        moment.time = Some(Clock::Told(time(12, 0)));
        return Some(1);
    }
    if token.is("midnight") {
        moment.time = Some(Clock::Told(time(0, 0)));
        return Some(1);
    }
    let hour = token.number.filter(|hour| hour.fract() == 0.0 && (0.0..24.0).contains(hour))? as u32;
    if !token.text.starts_with(|letter: char| letter.is_ascii_digit()) && !is_at(stretch, index) {
        return None;
    }
    let mut count = 1;
    let mut minute = 0;
    let colon = stretch.get(index + 1).is_some_and(|mark| mark.is(":") && mark.joined);
    let minutes = stretch.get(index + 2).filter(|next| next.joined).and_then(|next| next.number);
    if let Some(minutes) = minutes.filter(|minutes| colon && (0.0..60.0).contains(minutes)) {
        minute = minutes as u32;
        count = 3;
    }
    let half = half_of_day(stretch, index + count);
    let told = half.is_some() || count == 3 || is_at(stretch, index) && !has_unit_after(stretch, index);
    if !told {
        return None;
    }
    let (hour, used) = match half {
        Some((Half::Morning, used)) => (hour % 12, used),
        Some((Half::Evening, used)) if hour < 12 => (hour + 12, used),
        Some((_, used)) => (hour, used),
        None => (hour, 0),
    };
    moment.time = Some(Clock::Told(NaiveTime::from_hms_opt(hour, minute, 0)?));
    Some(count + used)
}

fn is_at(stretch: &[Token], index: usize) -> bool {
    index > 0 && stretch[index - 1].is_any(&["at", "@", "around", "about", "since"])
}

/// "at 20 percent", "about 3 gallons" are no hours.
fn has_unit_after(stretch: &[Token], index: usize) -> bool {
    use super::lexicon::Sense;
    stretch.get(index + 1).is_some_and(|next| {
        next.is_any(&["%", "\"", "/", "°"])
            || next.senses.has(Sense::Unit)
            || next.senses.has(Sense::Leaf)
            || next.senses.has(Sense::Fig)
            || next.is_any(&["of", "more", "days", "weeks"])
    })
}

#[derive(Clone, Copy)]
enum Half {
    Morning,
    Evening,
}

fn half_of_day(stretch: &[Token], index: usize) -> Option<(Half, usize)> {
    let token = stretch.get(index)?;
    match token.text.as_str() {
        "am" => Some((Half::Morning, 1)),
        "pm" => Some((Half::Evening, 1)),
        "a" | "p" if token.joined && !stretch.get(index + 1).is_some_and(Token::is_word) => {
            Some((if token.is("a") { Half::Morning } else { Half::Evening }, 1))
        }
        "in" if stretch.get(index + 1).is_some_and(|the| the.is("the")) => {
            let part = stretch.get(index + 2)?;
            match part.text.as_str() {
                "morning" | "mornin" => Some((Half::Morning, 3)),
                "afternoon" | "evening" => Some((Half::Evening, 3)),
                _ => None,
            }
        }
        "tonight" => Some((Half::Evening, 1)),
        _ => None,
    }
}

/// "in the evening", "morning": a usual hour.
fn part_of_day(stretch: &[Token], index: usize, moment: &mut Moment) -> Option<usize> {
    let usual = usual(&stretch[index].text)?;
    if moment.time.is_none() {
        moment.time = Some(Clock::About(usual));
    }
    Some(1)
}

fn usual(part: &str) -> Option<NaiveTime> {
    Some(match part {
        "morning" | "mornin" | "morn" | "am" | "dawn" | "sunrise" => time(8, 0),
        "afternoon" => time(15, 0),
        "evening" | "dusk" | "sunset" => time(19, 0),
        "night" => time(21, 0),
        _ => return None,
    })
}

fn weekday(text: &str) -> Option<Weekday> {
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

fn month(text: &str) -> Option<u32> {
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

/// A day of the year anywhere in a stretch, such as a usual frost date; "mid november" is its middle.
pub(super) fn year_day(stretch: &[Token]) -> Option<Result<YearDay, ()>> {
    for index in 0..stretch.len() {
        if let Some((month, day, _)) = year_day_at(stretch, index) {
            return Some(YearDay::new(month, day).ok_or(()));
        }
    }
    stretch.iter().enumerate().find_map(|(index, token)| {
        let month = month(&token.text)?;
        let part = index.checked_sub(1).map(|before| stretch[before].text.as_str());
        let day = match part {
            Some("early") => 5,
            Some("late" | "end") => 25,
            _ => 15,
        };
        YearDay::new(month, day).map(Ok)
    })
}

/// A clock time anywhere in a stretch, for the hour of the brief.
pub(super) fn clock_time(stretch: &[Token]) -> Option<NaiveTime> {
    let mut moment = Moment::default();
    for index in 0..stretch.len() {
        if clock(stretch, index, &mut moment).is_some() {
            return moment.time.map(Clock::time);
        }
    }
    // "brief at 6" and "morning 6": a bare hour of the morning.
    stretch
        .iter()
        .find_map(|token| token.number.filter(|hour| hour.fract() == 0.0 && (0.0..24.0).contains(hour)))
        .map(|hour| time(hour as u32, 0))
}

/// The next day a word names, counted from today on: for what is still to come.
pub(super) fn next_day(stretch: &[Token], at: DateTime<Utc>, zone: Tz) -> Option<NaiveDate> {
    let today = local_date(at, zone);
    for (index, token) in stretch.iter().enumerate() {
        if token.is_any(&["tomorrow", "tmrw"]) {
            return Some(today + TimeDelta::days(1));
        }
        if let Some(weekday) = weekday(&token.text) {
            let ahead = (weekday.num_days_from_monday() + 7 - today.weekday().num_days_from_monday()) % 7;
            return Some(today + TimeDelta::days(i64::from(if ahead == 0 { 7 } else { ahead })));
        }
        if let Some((month, day, _)) = year_day_at(stretch, index) {
            return YearDay::new(month, day)?.next(today);
        }
        if let Some(count) = token.number.filter(|count| (1.0..400.0).contains(count))
            && let Some(unit) = stretch.get(index + 1)
        {
            match unit.text.as_str() {
                "day" | "days" => return Some(today + TimeDelta::days(count as i64)),
                "week" | "weeks" => return Some(today + TimeDelta::days(count as i64 * 7)),
                _ => {}
            }
        }
    }
    None
}
