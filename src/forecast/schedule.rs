use std::collections::BTreeMap;

use chrono::{DateTime, TimeDelta, Utc};

use super::Cell;
use crate::units::Fraction;

/// When each cell's weather is fetched next. Gardens in one cell share the fetch; cells are spread
/// over the hours by a number of their own, so that no service hears from all of them at once.
#[derive(Clone, Debug, Default)]
pub struct Schedule {
    cells: BTreeMap<Cell, Progress>,
    held_until: Option<DateTime<Utc>>,
    first: First,
}

/// When cells of which nothing is known are fetched.
#[derive(Clone, Copy, Debug, Default)]
enum First {
    #[default]
    Spread,
    AtOnce,
}

#[derive(Clone, Copy, Debug)]
struct Progress {
    due: DateTime<Utc>,
    /// Failed cycles since the last good one.
    failures: u32,
}

/// A cell is fetched this often, plus up to the spread.
const INTERVAL: TimeDelta = TimeDelta::minutes(90);
const INTERVAL_SPREAD: TimeDelta = TimeDelta::minutes(60);
/// A failed cycle is repeated after this; after [`CIRCUIT`] of them the wait doubles each time.
const AFTER_FAILURE: TimeDelta = TimeDelta::minutes(15);
const LONGEST_WAIT: TimeDelta = TimeDelta::hours(6);
/// New cells are fetched at once if nobody waits, else one after the other within this.
const FIRST_SPREAD: TimeDelta = TimeDelta::seconds(20);
/// Failed cycles after which a service counts as down.
const CIRCUIT: u32 = 3;

impl Schedule {
    /// Makes these the cells to be fetched. New ones are due at once, or as soon as the weather
    /// known of them (`known_since`) is old enough; those no longer named are forgotten.
    pub fn keep(
        &mut self,
        cells: impl IntoIterator<Item = (Cell, Option<DateTime<Utc>>)>,
        now: DateTime<Utc>,
    ) {
        let before = std::mem::take(&mut self.cells);
        self.cells = cells
            .into_iter()
            .map(|(cell, known_since)| {
                let first = || Progress {
                    due: match (self.first, known_since) {
                        (First::AtOnce, None) => now,
                        _ => first_due(cell, known_since, now),
                    },
                    failures: 0,
                };
                (cell, before.get(&cell).copied().unwrap_or_else(first))
            })
            .collect();
    }

    /// New cells are not spread: there is one installation only, and somebody waits.
    pub fn without_delay(&mut self) {
        self.first = First::AtOnce;
    }

    /// The cells whose time has come, the longest waiting first.
    pub fn due(&self, now: DateTime<Utc>) -> Vec<Cell> {
        if self.held_until.is_some_and(|until| now < until) {
            return Vec::new();
        }
        let mut due: Vec<_> = self.cells.iter().filter(|(_, progress)| progress.due <= now).collect();
        due.sort_by_key(|(_, progress)| progress.due);
        due.into_iter().map(|(cell, _)| *cell).collect()
    }

    /// When something is due next; `None` without cells.
    pub fn next(&self) -> Option<DateTime<Utc>> {
        let first = self.cells.values().map(|progress| progress.due).min()?;
        Some(self.held_until.map_or(first, |until| first.max(until)))
    }

    pub fn succeeded(&mut self, cell: Cell, now: DateTime<Utc>) {
        self.set(cell, Progress { due: now + interval(cell, now), failures: 0 });
    }

    /// Another service stood in. The first one is asked again in the next cycle, and counts as down
    /// until it answers.
    pub fn stood_in_for(&mut self, cell: Cell, now: DateTime<Utc>) {
        let failures = self.failures(cell);
        self.set(cell, Progress { due: now + interval(cell, now), failures });
    }

    /// A cycle (with its own retries) came to nothing.
    pub fn failed(&mut self, cell: Cell, now: DateTime<Utc>) {
        let failures = self.failures(cell).saturating_add(1);
        let doublings = failures.saturating_sub(CIRCUIT).min(10);
        let wait = (AFTER_FAILURE * 2_i32.pow(doublings)).min(LONGEST_WAIT);
        let due = now + wait + part(wait / 2, cell, now);
        self.set(cell, Progress { due, failures });
    }

    /// No cell is to be fetched before a moment.
    pub fn hold(&mut self, until: DateTime<Utc>) {
        self.held_until = self.held_until.max(Some(until));
    }

    /// Whether a cell's service has failed often enough to ask another one.
    pub fn is_down(&self, cell: Cell) -> bool {
        self.failures(cell) >= CIRCUIT
    }

    fn failures(&self, cell: Cell) -> u32 {
        self.cells.get(&cell).map_or(0, |progress| progress.failures)
    }

    /// A cell forgotten in the meantime stays forgotten.
    fn set(&mut self, cell: Cell, progress: Progress) {
        if let Some(place) = self.cells.get_mut(&cell) {
            *place = progress;
        }
    }
}

/// Where between nothing and everything a cell's waits lie at a time; another one each hour.
pub fn spread(cell: Cell, now: DateTime<Utc>) -> Fraction {
    let hour = now.timestamp().div_euclid(3600);
    Fraction::saturating((cell.hash(hour.unsigned_abs()) % 1000) as f64 / 1000.0)
}

fn first_due(cell: Cell, known_since: Option<DateTime<Utc>>, now: DateTime<Utc>) -> DateTime<Utc> {
    let soon = now + part(FIRST_SPREAD, cell, now);
    match known_since {
        // A time stamp ahead of the clock says nothing about age.
        Some(since) if since <= now => soon.max(since + interval(cell, since)),
        _ => soon,
    }
}

fn interval(cell: Cell, at: DateTime<Utc>) -> TimeDelta {
    INTERVAL + part(INTERVAL_SPREAD, cell, at)
}

fn part(whole: TimeDelta, cell: Cell, at: DateTime<Utc>) -> TimeDelta {
    TimeDelta::seconds((whole.num_seconds() as f64 * spread(cell, at).value()) as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Position;

    fn cell(latitude: f64) -> Cell {
        Cell::of(Position::new(latitude, -88.04).expect("a position"))
    }

    fn noon() -> DateTime<Utc> {
        "2026-05-01T12:00:00Z".parse().expect("a time")
    }

    fn minutes(schedule: &Schedule) -> i64 {
        (schedule.next().expect("something due") - noon()).num_minutes()
    }

    #[test]
    fn gardens_of_one_cell_share_a_fetch() {
        let mut schedule = Schedule::default();
        let gardens = [30.691, 30.694, 30.71].map(|latitude| (cell(latitude), None));
        schedule.keep(gardens, noon());
        assert_eq!(schedule.due(noon() + FIRST_SPREAD).len(), 2);
    }

    #[test]
    fn a_cell_is_fetched_every_one_to_three_hours_and_not_all_at_once() {
        let cells: Vec<_> = (0..200).map(|step| cell(f64::from(step) / 100.0)).collect();
        let mut schedule = Schedule::default();
        schedule.keep(cells.iter().map(|cell| (*cell, None)), noon());
        for cell in &cells {
            schedule.succeeded(*cell, noon());
        }
        assert!(schedule.due(noon() + TimeDelta::minutes(60)).is_empty());
        assert_eq!(schedule.due(noon() + TimeDelta::minutes(180)).len(), 200);
        for minute in 90..150 {
            let until = |minute| schedule.due(noon() + TimeDelta::minutes(minute)).len();
            assert!(until(minute + 1) - until(minute) < 15, "too many in minute {minute}");
        }
    }

    #[test]
    fn a_restart_does_not_fetch_what_is_fresh() {
        let mut schedule = Schedule::default();
        schedule.keep([(cell(30.0), Some(noon() - TimeDelta::minutes(10)))], noon());
        assert!((80..=140).contains(&minutes(&schedule)));
        schedule.keep([(cell(31.0), Some(noon() - TimeDelta::hours(30)))], noon());
        assert!(minutes(&schedule) < 1);
        let mut ahead = Schedule::default();
        ahead.keep([(cell(30.0), Some(noon() + TimeDelta::days(400)))], noon());
        assert!(minutes(&ahead) < 1, "a clock that was wrong does not stop fetching");
    }

    #[test]
    fn failures_are_repeated_ever_less_often_and_forgotten_on_success() {
        let mut schedule = Schedule::default();
        let cell = cell(30.0);
        schedule.keep([(cell, None)], noon());
        let mut waits = Vec::new();
        for _ in 0..9 {
            schedule.failed(cell, noon());
            waits.push(minutes(&schedule));
        }
        assert!(waits[..3].iter().all(|wait| (15..=23).contains(wait)), "{waits:?}");
        assert!(waits.is_sorted() && waits[8] >= 360 && waits[8] <= 540, "{waits:?}");
        assert!(schedule.is_down(cell));
        schedule.succeeded(cell, noon());
        assert!(!schedule.is_down(cell));
    }

    #[test]
    fn a_service_that_asks_to_be_left_alone_is() {
        let mut schedule = Schedule::default();
        schedule.keep([(cell(30.0), None), (cell(31.0), None)], noon());
        schedule.hold(noon() + TimeDelta::hours(12));
        assert!(schedule.due(noon() + TimeDelta::hours(11)).is_empty());
        assert_eq!(schedule.next(), Some(noon() + TimeDelta::hours(12)));
        assert_eq!(schedule.due(noon() + TimeDelta::hours(12)).len(), 2);
    }

    #[test]
    fn a_cell_no_garden_is_in_is_forgotten() {
        let mut schedule = Schedule::default();
        schedule.keep([(cell(30.0), None)], noon());
        schedule.keep([], noon());
        schedule.succeeded(cell(30.0), noon());
        assert_eq!(schedule.next(), None);
    }
}
