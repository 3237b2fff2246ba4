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

/// So many nights without frost in sight before trees go out. common practice.
const FROST_FREE_DAYS: i64 = 7;

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
    let (housed, _) = outlook.whereabouts();
    // Where some were told to be in store, water there is for those.
    let stored = if housed.is_empty() { potted.clone() } else { housed };
    let mut candidates: Vec<(Job, Vec<String>)> = by_calendar(date, outlook)
        .filter(|job| !matches!(job, Job::Repot | Job::WinterWater) || !potted.is_empty())
        .map(|job| match job {
            Job::Repot => (job, potted.clone()),
            Job::WinterWater => (job, stored.clone()),
            _ => (job, Vec::new()),
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
    let (housed, _) = outlook.whereabouts();
    if !housed.is_empty() && (3..9).contains(&day.month()) && spring_is_safe(outlook) {
        jobs.push((Job::BringOut, housed));
    }
    let hopeless = outlook.hopeless_fruit();
    if !hopeless.is_empty() && day.month() >= 9 {
        jobs.push((Job::RemoveLateFruit, hopeless));
    }
    if !outlook.leaves_out() && day.month() >= 11 {
        // Winter cover is for the pots not under it yet.
        let bare = outlook.trees().iter().filter(|tree| tree.tree.is_potted() && tree.housed.is_none());
        jobs.push((Job::LeafFallTidy, bare.map(|tree| tree.tree.name.clone()).collect()));
    }
    jobs
}

/// Whether trees in store may go out: past the last frost of spring, where it is known, else once leaves are out; and
/// no frost in the forecast. common practice.
fn spring_is_safe(outlook: &Outlook) -> bool {
    let facts = outlook.facts;
    let last = facts.garden.last_frost.or(facts.normals.and_then(|normals| normals.last_median));
    let past = match last.and_then(|day| day.in_year(outlook.today.year())) {
        Some(last) => outlook.today > last,
        None => outlook.leaves_out(),
    };
    past && outlook.frost_within(FROST_FREE_DAYS).is_none()
}
