use chrono::{DateTime, Utc};

use super::{JudgedHour, SprayLimits};
use crate::units::{Celsius, Hours, MetresPerSecond};

/// A run of hours that suit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SprayWindow {
    pub from: DateTime<Utc>,
    pub to: DateTime<Utc>,
    /// Dry hours after its end.
    pub dry_after: Hours,
    pub wind: Option<MetresPerSecond>,
    pub hottest: Option<Celsius>,
    /// Mean faults of its hours, in tenths: fewer is better.
    pub faults: u32,
}

/// How much a window leaves to wish for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// Twelve hours dry after it.
    Fulfilled,
    /// Only the least drying time.
    Short,
}

impl SprayWindow {
    pub fn wish(&self, limits: &SprayLimits) -> Wish {
        if self.dry_after >= limits.drying_wish { Wish::Fulfilled } else { Wish::Short }
    }
}

/// The runs of suitable hours, in order. Runs of more than half a day do not happen: dusk and dew end them.
///
/// # Source
/// Runs of [`super::judged`] hours; nothing published.
pub fn windows(judged: &[JudgedHour]) -> Vec<SprayWindow> {
    judged
        .chunk_by(|one, next| one.obstacle.is_none() == next.obstacle.is_none())
        .filter(|run| run[0].obstacle.is_none())
        .map(|run| {
            let winds: Vec<f64> =
                run.iter().filter_map(|hour| hour.wind).map(MetresPerSecond::value).collect();
            let last = &run[run.len() - 1];
            SprayWindow {
                from: run[0].start,
                to: last.start + chrono::TimeDelta::hours(1),
                dry_after: last.dry_after,
                wind: (!winds.is_empty())
                    .then(|| MetresPerSecond::new(winds.iter().sum::<f64>() / winds.len() as f64)),
                hottest: run.iter().filter_map(|hour| hour.temperature).reduce(Celsius::max),
                faults: run.iter().map(|hour| hour.faults).sum::<u32>() * 10 / run.len() as u32,
            }
        })
        .collect()
}

/// Windows shorter than this are second choice. common practice.
const NARROW: chrono::TimeDelta = chrono::TimeDelta::hours(2);

/// The best window and a second one for a spray that is to be on and dry before `event`, and on by
/// `latest` whatever comes. With no event in sight the best of those before `latest` is taken.
///
/// Best before an event is the latest of two hours or more that leaves the wished drying time, for a later
/// spray protects more new leaves and has lost less; then the latest that leaves the least; among equals of
/// one day, the one with fewer faults.
///
/// # Source
/// Ours, from the drying times of [ONT20].
pub fn preventive(
    windows: &[SprayWindow],
    event: Option<DateTime<Utc>>,
    latest: DateTime<Utc>,
    limits: &SprayLimits,
) -> (Option<SprayWindow>, Option<SprayWindow>) {
    let in_time = |window: &&SprayWindow| {
        window.from < latest
            && event.is_none_or(|event| window.from + limits.drying_least.to_duration() < event)
    };
    let mut candidates: Vec<SprayWindow> = windows.iter().filter(in_time).copied().collect();
    let rank = |window: &SprayWindow| {
        let short = window.wish(limits) == Wish::Short;
        // An hour is soon missed, by the weather or by the grower.
        let narrow = window.to - window.from < NARROW;
        match event {
            // Later is better before an event, but not for the price of a poor window the day before it.
            Some(_) => (short, narrow, window.faults / 10, -window.from.timestamp()),
            None => (short, narrow, window.faults / 10, window.from.timestamp()),
        }
    };
    candidates.sort_by_key(rank);
    let best = candidates.first().copied();
    let second = candidates
        .iter()
        .skip(1)
        .find(|window| best.is_some_and(|best| window.from.date_naive() != best.from.date_naive()))
        .or(candidates.get(1))
        .copied();
    (best, second)
}
