//! A time to come, told by itself: "Thursday 7 am", "3 days", "tomorrow evening", "6 hours".

use chrono::{DateTime, NaiveDate, NaiveTime, TimeDelta, Utc};
use chrono_tz::Tz;

use super::calendar::{self, next_day};
use super::{Moment, Now, moment, time};
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::words;
use crate::season::calendar::at_local;
use crate::season::garden::UnitSystem;

/// The hour of a day told without one.
const USUAL: NaiveTime = time(8, 0);

/// The moment some words tell, counted on from a moment; none where they say anything but a time to come.
pub fn moment_ahead(text: &str, at: DateTime<Utc>, zone: Tz, units: UnitSystem) -> Option<DateTime<Utc>> {
    let tokens = tokens(text);
    let now = Now { at, zone, units };
    if let Some(span) = span(&tokens) {
        return Some(at + span);
    }
    let told = moment(&tokens, &[], now);
    let whole = (0..tokens.len()).all(|index| told.used.contains(&index) || is_of_time(&tokens[index]));
    if told.impossible || !whole || tokens.is_empty() {
        return None;
    }
    let hour = hour(&told, &tokens);
    let on = |date: NaiveDate| {
        let later = told.clock.zip(told.part).map_or(0, |(clock, part)| clock.days_after(part));
        at_local(date + TimeDelta::days(later), hour.unwrap_or(USUAL), zone)
    };
    let today = now.today();
    if told.date == Some(today) && hour.is_some() && (is_today(&tokens) || on(today) > at) {
        return Some(on(today));
    }
    if let Some(date) = date(&tokens, &told, now) {
        return Some(on(date));
    }
    // "Until noon": the next one.
    let hour = hour?;
    let readings = if told.part.is_some() { Vec::new() } else { told.clock.map(|clock| clock.readings())? };
    let hours = readings.into_iter().chain([hour]);
    let days = [today, today + TimeDelta::days(1)];
    hours.flat_map(|hour| days.map(|day| at_local(day, hour, zone))).filter(|moment| *moment > at).min()
}

/// "3 hours", "half an hour", "90 minutes".
fn span(tokens: &[Token]) -> Option<TimeDelta> {
    const LONGEST: f64 = 24.0 * 400.0 * 60.0;
    let (unit, amount) = tokens.split_last()?;
    let minutes = match unit.text.as_str() {
        "hour" | "hours" | "hr" | "hrs" | "h" => 60.0,
        "minute" | "minutes" | "min" | "mins" => 1.0,
        _ => return None,
    };
    let count = match amount {
        [one] if one.is_any(words!("a an another")) => 1.0,
        [half, rest @ ..] if half.is("half") && rest.iter().all(|word| word.is_any(words!("a an"))) => 0.5,
        [couple, of @ ..] | [_, couple, of @ ..] if couple.is("couple") && of.len() <= 1 => 2.0,
        [one] => one.number?,
        _ => return None,
    };
    Some(TimeDelta::minutes((count * minutes).clamp(0.0, LONGEST) as i64))
}

fn hour(told: &Moment, tokens: &[Token]) -> Option<NaiveTime> {
    match (told.clock, told.part) {
        (Some(clock), Some(part)) => Some(clock.in_part(part)),
        (Some(clock), None) => Some(clock.usual()),
        (None, Some(part)) => Some(part.usual()),
        // "Thursday 7"
        (None, None) => {
            let [.., day, hour] = tokens else { return None };
            let dated = calendar::weekday(&day.text).is_some() || day.is_any(words!("tomorrow today"));
            let hour =
                hour.number.filter(|hour| dated && hour.fract() == 0.0 && (0.0..24.0).contains(hour))?;
            NaiveTime::from_hms_opt(hour as u32, 0, 0)
        }
    }
}

fn date(tokens: &[Token], told: &Moment, now: Now) -> Option<NaiveDate> {
    let year = |token: &Token| token.number.is_some_and(|year| (1900.0..2200.0).contains(&year));
    if tokens.iter().any(year) {
        return told.date;
    }
    // "A couple of weeks"
    let couple = tokens.iter().position(|token| token.is("couple"));
    if let Some(days) = couple.and_then(|_| tokens.last()).and_then(|unit| match unit.text.as_str() {
        "days" => Some(2),
        "weeks" => Some(14),
        _ => None,
    }) {
        return Some(now.today() + TimeDelta::days(days));
    }
    next_day(tokens, now.at, now.zone, now.units)
}

fn is_today(tokens: &[Token]) -> bool {
    tokens.iter().any(|token| token.is_any(words!("today tonight tonite this")))
}

fn is_of_time(token: &Token) -> bool {
    token.is_mark()
        || token.number.is_some()
        || calendar::weekday(&token.text).is_some()
        || calendar::month(&token.text).is_some()
        || token.is_any(words!(
            "a an the of at on by in next this coming tomorrow tmrw tmr weekend day days week weeks month months couple first second third fourth fifth st nd rd th am pm o'clock oclock about around early"
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono_tz::America::New_York;

    #[test]
    fn times_to_come_as_a_person_types_them() {
        // 10 July 2013 is a Wednesday; 18:30 in New York.
        let at = "2013-07-10T18:30:00-04:00".parse::<DateTime<Utc>>().expect("a moment");
        let rows = [
            ("thursday 7am", Some("2013-07-11 07:00")),
            ("Thursday 7 am", Some("2013-07-11 07:00")),
            ("Thursday at 7", Some("2013-07-11 07:00")),
            ("thu 7", Some("2013-07-11 07:00")),
            ("friday", Some("2013-07-12 08:00")),
            ("Friday evening", Some("2013-07-12 19:00")),
            ("next Friday 6:30 pm", Some("2013-07-12 18:30")),
            ("wednesday 9pm", Some("2013-07-10 21:00")),
            ("wednesday 7am", Some("2013-07-17 07:00")),
            ("wednesday", Some("2013-07-17 08:00")),
            ("7am", Some("2013-07-11 07:00")),
            ("8:15 pm", Some("2013-07-10 20:15")),
            ("noon", Some("2013-07-11 12:00")),
            ("tonight 10 pm", Some("2013-07-10 22:00")),
            ("tonight", Some("2013-07-10 19:00")),
            ("tomorrow", Some("2013-07-11 08:00")),
            ("tomorrow morning", Some("2013-07-11 08:00")),
            ("tomorrow 6 pm", Some("2013-07-11 18:00")),
            ("the morning", Some("2013-07-11 08:00")),
            ("1 October", Some("2013-10-01 08:00")),
            ("October 1 7am", Some("2013-10-01 07:00")),
            ("oct 1st", Some("2013-10-01 08:00")),
            ("2013-10-01", Some("2013-10-01 08:00")),
            ("1 october 2013", Some("2013-10-01 08:00")),
            ("the 20th", Some("2013-07-20 08:00")),
            ("3 days", Some("2013-07-13 08:00")),
            ("a day", Some("2013-07-11 08:00")),
            ("two weeks", Some("2013-07-24 08:00")),
            ("a couple of days", Some("2013-07-12 08:00")),
            ("next week", Some("2013-07-17 08:00")),
            ("6 hours", Some("2013-07-11 00:30")),
            ("an hour", Some("2013-07-10 19:30")),
            ("half an hour", Some("2013-07-10 19:00")),
            ("90 minutes", Some("2013-07-10 20:00")),
            ("the figs are ripe", None),
            ("thursday 25:00", None),
            ("february 31", None),
            ("it rains", None),
            ("that was Corner", None),
            ("", None),
        ];
        for (text, want) in rows {
            let got = moment_ahead(text, at, New_York, UnitSystem::Us);
            let got = got.map(|moment| moment.with_timezone(&New_York).format("%Y-%m-%d %H:%M").to_string());
            assert_eq!(got.as_deref(), want, "{text}");
        }
    }
}
