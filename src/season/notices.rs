//! What is said unasked: the morning brief, the frost warning, and mostly nothing.

mod items;
mod jobs;

use chrono::{NaiveDate, TimeDelta};

use super::answer::{Answer, Brief, BriefItem, FrostRisk, Watching};
use super::calendar::local_date;
use super::facts::{Facts, Matter, Message, MessageKind, Outcome, Told};
use super::outlook::{Outlook, told as told_event};
use super::schedule::{self, Due};

/// A week of silence is broken by one line, so that silence can be trusted.
const WATCHING_EVERY: TimeDelta = TimeDelta::days(7);

/// What is due now, if anything, and when to look again.
pub fn tick(facts: &Facts) -> Outcome {
    let today = local_date(facts.now, facts.garden.zone());
    let mut outcome = match schedule::due(facts, today) {
        Due::Brief { date, missed } => brief(facts, date, missed),
        Due::Afternoon { date } => afternoon(facts, date),
        Due::Nothing => Outcome::default(),
    };
    outcome.wake = Some(schedule::next_wake(facts, today));
    outcome
}

fn brief(facts: &Facts, date: NaiveDate, missed: u32) -> Outcome {
    let mut outcome = Outcome::default();
    outcome.told.push(told(facts, Matter::Brief { date }));
    // A garden without a place or a tree has nothing to be told but to be set up, which was asked for already.
    if facts.garden.position.is_none() || facts.garden.trees.is_empty() {
        return outcome;
    }
    let outlook = Outlook::of(facts);
    let found = items::gather(&outlook, date);
    let quiet = schedule::is_quiet(&facts.garden, date);
    let items: Vec<BriefItem> = found
        .into_iter()
        .filter(|found| !quiet || matches!(found.item, BriefItem::Frost(_)))
        .map(|found| {
            outcome.told.extend(found.matters.into_iter().map(|matter| told(facts, matter)));
            found.item
        })
        .collect();
    if !items.is_empty() {
        let answer = Answer::Brief(Brief { date, items, caught_up: missed, age: outlook.age() });
        outcome.messages.push(message(facts, date, answer, "brief", MessageKind::Brief));
    } else if !quiet && watching_is_due(facts) {
        outcome.told.push(told(facts, Matter::Watching { date }));
        let answer = Answer::Watching(watching(&outlook, date));
        outcome.messages.push(message(facts, date, answer, "watching", MessageKind::Brief));
    }
    outcome
}

fn afternoon(facts: &Facts, date: NaiveDate) -> Outcome {
    let mut outcome = Outcome::default();
    if facts.garden.position.is_none() || was_told(facts, &Matter::FrostTonight { date }) {
        return outcome;
    }
    let outlook = Outlook::of(facts);
    let advice = outlook.frost_advice();
    let risk = advice.tonight.map_or(FrostRisk::None, |night| night.risk);
    let harms = !advice.shelter.is_empty() || !advice.cover.is_empty();
    let is_tonight = advice.next.map(|night| night.date) == Some(date);
    if risk > FrostRisk::None && harms && is_tonight && !items::dormant_again(&outlook) {
        outcome.told.push(told(facts, Matter::FrostTonight { date }));
        let mut message = message(facts, date, Answer::Frost(advice), "frost", MessageKind::Alert);
        message.use_by = Some(schedule::last_warning_time(&facts.garden, date));
        outcome.messages.push(message);
    }
    outcome
}

fn message(facts: &Facts, date: NaiveDate, answer: Answer, purpose: &str, kind: MessageKind) -> Message {
    Message {
        kind,
        answers: vec![answer],
        purpose: format!("{purpose}-{date}"),
        use_by: Some(schedule::last_brief_time(&facts.garden, date)),
    }
}

fn watching_is_due(facts: &Facts) -> bool {
    let spoken = |told: &&Told| !matches!(told.matter, Matter::Brief { .. });
    let last = facts.told.iter().filter(spoken).map(|told| told.at).max();
    let began = facts.told.first().map(|told| told.at);
    last.or(began).is_some_and(|last| facts.now - last >= WATCHING_EVERY)
}

fn watching(outlook: &Outlook, date: NaiveDate) -> Watching {
    Watching {
        date,
        next_infection: outlook.events_ahead().next().map(told_event),
        cover: items::anything_worth(outlook).then(|| outlook.spray_advice().cover),
        age: outlook.age(),
    }
}

fn told(facts: &Facts, matter: Matter) -> Told {
    Told { at: facts.now, matter }
}

pub(super) fn was_told(facts: &Facts, matter: &Matter) -> bool {
    facts.told.iter().any(|told| told.matter == *matter)
}

/// Whether a matter that fits was told within a time.
pub(super) fn told_within(facts: &Facts, span: TimeDelta, fits: impl Fn(&Matter) -> bool) -> bool {
    facts.told.iter().rev().take_while(|told| told.at > facts.now - span).any(|told| fits(&told.matter))
}
