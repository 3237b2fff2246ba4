//! When: words relative to the message's own time, in the garden's zone.

mod ahead;
mod calendar;
mod clock;

use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::{WordList, words};
use chrono::{DateTime, Datelike, NaiveDate, NaiveTime, TimeDelta, Timelike, Utc, Weekday};
use chrono_tz::Tz;

pub use self::ahead::moment_ahead;
pub(super) use self::calendar::{month, next_day, ordinal, weekday, year_day};
use self::clock::{Clock, DayPart};
pub(super) use self::clock::{clock_time, tells_no_hour};
use super::tokens::Token;
use crate::season::calendar::{at_local, local_date};
use crate::season::garden::UnitSystem;
use crate::season::request::When;

/// What a stretch of words says of when.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Moment {
    date: Option<NaiveDate>,
    clock: Option<Clock>,
    part: Option<DayPart>,
    beside_rain: Option<When>,
    exact: Option<DateTime<Utc>>,
    /// Tokens that were part of it.
    pub(super) used: Vec<usize>,
    /// A day no calendar has, such as 31 February, or an hour no clock has.
    pub(super) impossible: bool,
}

/// What words of when are read against.
#[derive(Clone, Copy)]
pub(super) struct Now {
    pub(super) at: DateTime<Utc>,
    pub(super) zone: Tz,
    /// Growers on US units write the month first.
    pub(super) units: UnitSystem,
}

impl Now {
    fn today(self) -> NaiveDate {
        local_date(self.at, self.zone)
    }
}

impl Moment {
    pub(super) fn is_said(&self) -> bool {
        self.date.is_some()
            || self.clock.is_some()
            || self.part.is_some()
            || self.beside_rain.is_some()
            || self.exact.is_some()
    }

    /// Surely behind us, whatever the verb: "yesterday", "2 days ago", "this morning" said later.
    pub(super) fn is_past(&self, now: Now) -> bool {
        let today = now.today();
        self.exact.is_some()
            || self.date.is_some_and(|date| date < today)
            || self.date == Some(today)
                && self.part.is_some_and(|part| at_local(today, part.usual(), now.zone) <= now.at)
    }

    /// A day of another year, told in full. Without its year a date is never so long ago.
    pub(super) fn is_of_another_year(&self, now: Now) -> bool {
        const LONG_AGO: TimeDelta = TimeDelta::days(310);
        self.date.is_some_and(|date| now.today() - date > LONG_AGO)
    }

    /// Told for a time that has not come: a day ahead, or an hour of today.
    pub(super) fn is_beyond(&self, now: Now) -> bool {
        let today = now.today();
        self.date.is_some_and(|date| date > today || date == today && self.clock.is_some())
    }

    /// Its day alone, for what else was done that day.
    pub(super) fn day_only(&self) -> Moment {
        Moment { clock: None, exact: None, used: Vec::new(), ..self.clone() }
    }

    /// The day before the one told.
    pub(super) fn the_day_before(&self) -> Moment {
        Moment { date: self.date.and_then(|date| date.pred_opt()), ..Moment::default() }
    }

    /// With what another stretch adds: "Monday" and "at 7".
    pub(super) fn completed_by(&mut self, other: Moment) {
        self.date = self.date.or(other.date);
        self.clock = self.clock.or(other.clock);
        self.part = self.part.or(other.part);
        self.beside_rain = self.beside_rain.or(other.beside_rain);
        self.exact = self.exact.or(other.exact);
        self.impossible |= other.impossible;
    }

    /// The moment meant. A time with no day is the latest such time before the message.
    pub(super) fn when(&self, now: Now) -> When {
        if let Some(exact) = self.exact {
            return When::At(exact);
        }
        if let Some(beside) = self.beside_rain {
            return beside;
        }
        let today = now.today();
        let local = |date, time| at_local(date, time, now.zone);
        match (self.date, self.clock, self.part) {
            (None, None, None) => When::Unsaid,
            (Some(date), None, None) if date == today => When::Unsaid,
            (Some(date), None, None) => When::OnDay(local(date, MIDDAY)),
            (date, None, Some(part)) => When::OnDay(local(date.unwrap_or(today), part.usual())),
            (date, Some(clock), Some(part)) => {
                let date = date.unwrap_or(today) + TimeDelta::days(clock.days_after(part));
                When::At(local(date, clock.in_part(part)))
            }
            (Some(date), Some(clock), None) if date != today => When::At(local(date, clock.usual())),
            (date, Some(clock), None) => {
                let earliest = if date.is_some() { today } else { today - TimeDelta::days(1) };
                let mut candidates: Vec<DateTime<Utc>> = clock
                    .readings()
                    .into_iter()
                    .flat_map(|time| [local(today, time), local(earliest, time)])
                    .collect();
                candidates.sort_unstable();
                let latest = |fits: &dyn Fn(DateTime<Utc>) -> bool| {
                    candidates.iter().rev().copied().find(|moment| fits(*moment))
                };
                let of_today = |moment: DateTime<Utc>| local_date(moment, now.zone) == today;
                let awake = |moment: DateTime<Utc>| {
                    clock.is_sure() || moment.with_timezone(&now.zone).hour() < LATEST_WORK
                };
                // "At 7", said at seven, is this minute if no earlier seven was today; "at 11", said at ten,
                // is no hour of last night's.
                let past = latest(&|moment| of_today(moment) && moment <= now.at - JUST_NOW)
                    .or_else(|| latest(&|moment| of_today(moment) && moment <= now.at + JUST_NOW))
                    .or_else(|| latest(&|moment| moment <= now.at && awake(moment)));
                let ahead = candidates.iter().find(|moment| **moment > now.at).copied();
                When::At(past.map(|moment| moment.min(now.at)).or(ahead).unwrap_or(now.at))
            }
        }
    }
}

/// Of this little ago one says "just now"; a clock in the garden is right to it.
const JUST_NOW: TimeDelta = TimeDelta::minutes(5);
/// Nobody works on figs from this hour of the night.
const LATEST_WORK: u32 = 23;
const MIDDAY: NaiveTime = time(12, 0);

const fn time(hour: u32, minute: u32) -> NaiveTime {
    match NaiveTime::from_hms_opt(hour, minute, 0) {
        Some(time) => time,
        None => NaiveTime::MIN,
    }
}

/// Reads all the words of when in a stretch, but those that are part of names.
pub(super) fn moment(stretch: &[Token], taken: &[usize], now: Now) -> Moment {
    let mut moment = Moment::default();
    let mut index = 0;
    while index < stretch.len() {
        // "More than last week": a time compared with is not the time of the report.
        let compared =
            index > 0 && stretch[index - 1].is_any(words!("than like vs versus till until til thru"));
        let mut aside = Moment::default();
        let target = if compared { &mut aside } else { &mut moment };
        let count = if taken.contains(&index) { None } else { read_at(stretch, index, now, target) };
        match count {
            Some(count) => {
                moment.used.extend(index..(index + count).min(stretch.len()));
                index += count;
            }
            None => index += 1,
        }
    }
    moment
}

fn read_at(stretch: &[Token], index: usize, now: Now, moment: &mut Moment) -> Option<usize> {
    beside_rain(stretch, index, moment)
        .or_else(|| ago(stretch, index, now, moment))
        .or_else(|| day_word(stretch, index, now.today(), moment))
        .or_else(|| calendar_date(stretch, index, now, moment))
        .or_else(|| clock_at(stretch, index, moment))
        .or_else(|| part_of_day(stretch, index, moment))
}

fn beside_rain(stretch: &[Token], index: usize, moment: &mut Moment) -> Option<usize> {
    let after = stretch[index].is_any(words!("after since"));
    let before = stretch[index].is_any(words!("before ahead"));
    if !after && !before {
        return None;
    }
    let rain = stretch[index + 1..].iter().take(4).position(|token| {
        token.is_any(words!("rain rains storm storms shower showers downpour rained thunderstorm raining"))
    })?;
    // "Since rain is coming" is why.
    let to_come = stretch[index + 1 + rain..]
        .iter()
        .skip(1)
        .take(3)
        .any(|token| token.is_any(words!("coming due forecast expected predicted likely moving")));
    if to_come {
        return None;
    }
    moment.beside_rain = Some(if after { When::AfterRain } else { When::BeforeRain });
    Some(rain + 2)
}

/// "2 days ago", "an hour ago", "half an hour ago", "a couple of days ago".
fn ago(stretch: &[Token], index: usize, now: Now, moment: &mut Moment) -> Option<usize> {
    let next = |at: usize| stretch.get(index + at);
    let (amount, mut at) = match &stretch[index] {
        token if token.is_any(words!("a an")) => match next(1) {
            Some(couple) if couple.is("couple") => (2.0, 2),
            Some(few) if few.is("few") => (3.0, 2),
            _ => (1.0, 1),
        },
        token if token.is("couple") => (2.0, 1),
        token if token.is("few") => (3.0, 1),
        token => (token.number?, 1),
    };
    while next(at).is_some_and(|word| word.is_any(words!("of a an"))) {
        at += 1;
    }
    let unit = next(at)?;
    // "It is three days that I watered", "3 days since I watered"
    let since = next(at + 1).is_some_and(|word| word.is_any(words!("that since")))
        && next(at + 2).is_some_and(|who| who.is_any(words!("i we")))
        && index > 0
        && stretch[..index].iter().rev().take(3).any(|word| word.is_any(words!("it it's its been is")));
    next(at + 1).filter(|word| since || word.is_any(words!("ago back earlier")))?;
    let minutes = match unit.text.as_str() {
        "hour" | "hours" | "hr" | "hrs" => Some(amount * 60.0),
        "minute" | "minutes" | "min" | "mins" => Some(amount),
        _ => None,
    };
    if let Some(minutes) = minutes {
        moment.exact = Some(now.at - TimeDelta::minutes(minutes.clamp(0.0, 1e6) as i64));
        return Some(at + 2);
    }
    let days = match unit.text.as_str() {
        "day" | "days" => amount,
        "night" | "nights" | "evening" | "evenings" | "morning" | "mornings" | "afternoons" => amount,
        "week" | "weeks" => amount * 7.0,
        "fortnight" => amount * 14.0,
        "month" | "months" => amount * 30.0,
        _ => return None,
    };
    moment.date = Some(now.today() - TimeDelta::days(days.clamp(0.0, 4000.0).round() as i64));
    Some(at + 2)
}

fn day_word(stretch: &[Token], index: usize, today: NaiveDate, moment: &mut Moment) -> Option<usize> {
    let token = &stretch[index];
    let next = |at: usize, texts: WordList| stretch.get(index + at).is_some_and(|next| next.is_any(texts));
    let back = |days: i64| Some(today - TimeDelta::days(days));
    const NIGHT: WordList = words!("night nite evening evenin eve night's evening's");
    const PARTS: WordList = words!("morning mornin morn afternoon evening evenin am arvo noon");
    if token.is_any(words!("yesterday yday ystrdy yest yesterdy yesterday's")) {
        moment.date = back(1);
        return Some(1);
    }
    if token.is_any(words!("lastnight")) || (token.is("last") && next(1, NIGHT)) {
        moment.date = back(1);
        moment.part = Some(DayPart::Night);
        return Some(if token.is("last") { 2 } else { 1 });
    }
    if token.is("last") && next(1, words!("week")) {
        moment.date = back(7);
        return Some(2);
    }
    if token.is_any(words!("weekend")) {
        // The Sunday last begun; on a weekend, today.
        let since = i64::from(today.weekday().num_days_from_sunday());
        moment.date = back(if today.weekday() == Weekday::Sat { 0 } else { since });
        return Some(1);
    }
    if token.is_any(words!("today tonight tonite today's")) {
        moment.date = Some(today);
        if token.is_any(words!("tonight tonite")) {
            moment.part = Some(DayPart::Evening);
        }
        return Some(1);
    }
    // "Picked 10 off Wall tomorrow": done on a day to come, which is doubted. "Before tomorrow" is no such day.
    if token.is_any(words!("tomorrow tmrw"))
        && stretch
            .iter()
            .find(|word| word.is_word() && !word.senses.has(Sense::Mine))
            .is_some_and(|first| first.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked]))
        && !stretch[index.saturating_sub(3)..index]
            .iter()
            .any(|word| word.is_any(words!("before for ahead until till by of since because so and")))
    {
        moment.date = back(-1);
        return Some(1);
    }
    if token.is("this") && next(1, PARTS) {
        moment.date = Some(today);
        moment.part = stretch.get(index + 1).and_then(|part| DayPart::of(&part.text));
        return Some(2);
    }
    if token.is("this") && next(1, words!("night")) {
        return Some(2);
    }
    if token.is("day") && next(1, words!("before")) && next(2, words!("yesterday")) {
        moment.date = back(2);
        return Some(3);
    }
    if token.is("other") && next(1, words!("day night evening morning")) {
        moment.date = back(2);
        return Some(2);
    }
    // "The squirrel sat there"
    if token.is("sat") && next(1, words!("there here down by beside under outside watching and")) {
        return None;
    }
    let weekday = calendar::weekday(token.text.strip_suffix("'s").unwrap_or(&token.text))?;
    let days = (today.weekday().num_days_from_monday() + 7 - weekday.num_days_from_monday()) % 7;
    // "Sprayed Eave next Friday": a day to come, and doubted by whoever reads it as done.
    if index > 0 && stretch[index - 1].is_any(words!("next coming following")) {
        moment.date = back(i64::from(days) - 7);
        return Some(1);
    }
    let last = index > 0 && stretch[index - 1].is("last");
    moment.date = back(i64::from(if days == 0 && last { 7 } else { days }));
    Some(1)
}

fn calendar_date(stretch: &[Token], index: usize, now: Now, moment: &mut Moment) -> Option<usize> {
    let (date, count) = calendar::date_at(stretch, index, now)?;
    match date {
        Some(date) => moment.date = Some(date),
        None => moment.impossible = true,
    }
    Some(count)
}

fn clock_at(stretch: &[Token], index: usize, moment: &mut Moment) -> Option<usize> {
    let (clock, count) = clock::clock_at(stretch, index)?;
    match clock {
        // "at 6am and 7pm": the first is the moment of the report.
        Some(clock) => moment.clock = moment.clock.or(Some(clock)),
        None => moment.impossible = true,
    }
    Some(count)
}

/// "in the evening", "morning": a usual hour.
fn part_of_day(stretch: &[Token], index: usize, moment: &mut Moment) -> Option<usize> {
    // "Yesterday eve", "Monday eve"; "the eve" may be a tree's name, misheard.
    let before = index.checked_sub(1).map(|before| &stretch[before]);
    let eve = stretch[index].is("eve")
        && before.is_some_and(|before| before.senses.has(Sense::Time) || before.is("this"));
    let part = if eve { DayPart::Evening } else { DayPart::of(&stretch[index].text)? };
    // "For the school lunch"
    let meal = stretch[index].is_any(words!("lunch breakfast dinner supper lunchtime"))
        && stretch[index.saturating_sub(3)..index].iter().any(|token| token.is("for"));
    if meal {
        return None;
    }
    // "I am sorry"
    let verb = stretch[index].is("am")
        && !(index > 0 && stretch[index - 1].is_any(words!("the this early late mid saturday sunday monday tuesday wednesday thursday friday sat sun mon tue wed thu fri yesterday")));
    if verb {
        return None;
    }
    // "Good morning" greets, "for breakfast" eats.
    if index > 0 && stretch[index - 1].is_any(words!("good for")) {
        return None;
    }
    moment.part = moment.part.or(Some(part));
    Some(1)
}
