//! When to look again.

use chrono::{DateTime, NaiveDate, NaiveTime, TimeDelta, Utc};

use super::calendar::at_local;
use super::facts::{Facts, Matter};
use super::garden::{Garden, Quiet};

/// Frost wants a warning in time to carry pots: an afternoon look, at this local time.
const AFTERNOON: NaiveTime = match NaiveTime::from_hms_opt(15, 0, 0) {
    Some(time) => time,
    None => NaiveTime::MIN,
};
/// A brief is worth having until this local time; started later, the bot waits for the next morning.
const LAST_BRIEF: NaiveTime = match NaiveTime::from_hms_opt(20, 0, 0) {
    Some(time) => time,
    None => NaiveTime::MIN,
};
/// A frost warning is worth having until the grower goes to bed.
const LAST_WARNING: NaiveTime = match NaiveTime::from_hms_opt(22, 0, 0) {
    Some(time) => time,
    None => NaiveTime::MIN,
};

/// What is due at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Due {
    /// The morning brief of this date, with how many mornings before it were missed.
    Brief {
        date: NaiveDate,
        missed: u32,
    },
    /// The afternoon look at tonight.
    Afternoon {
        date: NaiveDate,
    },
    Nothing,
}

pub fn due(facts: &Facts, today: NaiveDate) -> Due {
    let garden = &facts.garden;
    let zone = garden.zone();
    let morning = at_local(today, garden.morning, zone);
    let last = last_brief(facts);
    if facts.now >= morning && facts.now <= last_brief_time(garden, today) && last != Some(today) {
        let missed = last.map_or(0, |last| ((today - last).num_days() - 1).max(0) as u32);
        return Due::Brief { date: today, missed };
    }
    if facts.now >= at_local(today, AFTERNOON, zone) && facts.now <= last_warning_time(garden, today) {
        return Due::Afternoon { date: today };
    }
    Due::Nothing
}

/// The next moment something may be due.
pub fn next_wake(facts: &Facts, today: NaiveDate) -> DateTime<Utc> {
    let zone = facts.garden.zone();
    let tomorrow = at_local(today + TimeDelta::days(1), facts.garden.morning, zone);
    [at_local(today, facts.garden.morning, zone), at_local(today, AFTERNOON, zone)]
        .into_iter()
        .filter(|moment| *moment > facts.now)
        .min()
        .unwrap_or(tomorrow)
}

pub fn last_brief_time(garden: &Garden, date: NaiveDate) -> DateTime<Utc> {
    let zone = garden.zone();
    at_local(date, LAST_BRIEF, zone).max(at_local(date, garden.morning, zone) + TimeDelta::hours(2))
}

pub fn last_warning_time(garden: &Garden, date: NaiveDate) -> DateTime<Utc> {
    at_local(date, LAST_WARNING, garden.zone())
}

pub fn is_quiet(garden: &Garden, today: NaiveDate) -> bool {
    match garden.quiet {
        Quiet::Speaking => false,
        Quiet::Until(date) => today <= date,
        Quiet::UntilTold => true,
    }
}

fn last_brief(facts: &Facts) -> Option<NaiveDate> {
    facts.told.iter().rev().find_map(|told| match told.matter {
        Matter::Brief { date } => Some(date),
        _ => None,
    })
}
