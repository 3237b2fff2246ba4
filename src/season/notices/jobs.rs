//! Jobs of the calendar, each once a season.

use chrono::{Datelike, NaiveDate};

use super::items::{Found, once};
use super::was_told;
use crate::season::answer::{BriefItem, Job};
use crate::season::calendar::{northern, season_of};
use crate::season::outlook::Outlook;

/// When a job may be told: from a day of the northern calendar, for so many days. common practice for each;
/// the sources of the season's calendar stand with the models.
const CALENDAR: [(Job, (u32, u32), i64); 5] = [
    (Job::WinterWater, (1, 10), 20),
    (Job::Prune, (2, 15), 30),
    (Job::Repot, (3, 1), 30),
    (Job::StopFeeding, (7, 15), 20),
    (Job::DormantTidy, (12, 10), 21),
];

pub(super) fn due(outlook: &Outlook, date: NaiveDate) -> Option<Found> {
    let facts = outlook.facts;
    let season = season_of(date, facts.garden.hemisphere());
    // A matter for each job and season.
    let fresh = |job: Job| {
        let matter = once(&format!("{job:?} {season}"));
        (!was_told(facts, &matter)).then_some(matter)
    };
    let potted: Vec<String> =
        facts.garden.trees.iter().filter(|tree| tree.is_potted()).map(|tree| tree.name.clone()).collect();
    let mut candidates: Vec<(Job, Vec<String>)> = by_calendar(date, outlook)
        .filter(|job| !matches!(job, Job::Repot | Job::WinterWater) || !potted.is_empty())
        .map(|job| {
            (job, if matches!(job, Job::Repot | Job::WinterWater) { potted.clone() } else { Vec::new() })
        })
        .collect();
    candidates.extend(by_season(outlook, date));
    candidates
        .into_iter()
        .find_map(|(job, trees)| fresh(job).map(|matter| Found::new(BriefItem::Job { job, trees }, matter)))
}

fn by_calendar(date: NaiveDate, outlook: &Outlook) -> impl Iterator<Item = Job> {
    let day = northern(date, outlook.facts.garden.hemisphere());
    CALENDAR.into_iter().filter_map(move |(job, (month, first), days)| {
        let from = NaiveDate::from_ymd_opt(day.year(), month, first)?;
        (0..days).contains(&(day - from).num_days()).then_some(job)
    })
}

/// Jobs that the season's own course brings.
fn by_season(outlook: &Outlook, date: NaiveDate) -> Vec<(Job, Vec<String>)> {
    let mut jobs = Vec::new();
    let day = northern(date, outlook.facts.garden.hemisphere());
    if outlook.leaves_out() && day.month() < 7 {
        jobs.push((Job::FirstLeaves, Vec::new()));
    }
    let hopeless = outlook.hopeless_fruit();
    if !hopeless.is_empty() && day.month() >= 9 {
        jobs.push((Job::RemoveLateFruit, hopeless));
    }
    if !outlook.leaves_out() && day.month() >= 11 {
        jobs.push((Job::LeafFallTidy, Vec::new()));
    }
    jobs
}
