//! The one way the journal changes.

use std::collections::HashMap;

use chrono::{DateTime, Utc};

use super::cache::{Cache, CachedGarden};
use super::keys::Kind;
use super::record::{GardenRecord, OutboundRecord, SeenRecord, SentRecord, WakeRecord};
use super::{Store, StoreError, keys, record};
use crate::identity::{EventId, GardenId, PersonId, RoomId};
use crate::post::Outbound;
use crate::season::facts::{QuestionChange, Told};
use crate::season::journal::{Act, LineNumber};

/// What one message or one morning changes, all of it or nothing.
#[derive(Clone, Debug, Default)]
pub struct Commit {
    /// The message this comes of; marked seen and taken from the inbox.
    pub seen: Option<EventId>,
    pub gardens: Vec<GardenChange>,
    pub outbox: Vec<Draft>,
    pub moved: Option<Move>,
}

/// A message to send, and what a reaction or reply to it is about.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    pub outbound: Outbound,
    pub about: Option<String>,
}

/// Changes to one garden, which is made if it is new.
#[derive(Clone, Debug)]
pub struct GardenChange {
    pub id: GardenId,
    pub now: DateTime<Utc>,
    pub acts: Vec<Act>,
    pub told: Vec<Told>,
    pub question: Option<(PersonId, QuestionChange)>,
    pub wake: Option<DateTime<Utc>>,
}

/// A room that became another: what waits for the old one goes to the new one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Move {
    pub from: RoomId,
    pub to: RoomId,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Committed {
    /// The numbers the acts were given, in their order.
    pub lines: Vec<LineNumber>,
    /// False when the message had been seen before: nothing was changed.
    pub fresh: bool,
}

impl Store {
    /// Writes and flushes a commit. A message already seen changes nothing: that is how a repeat after a crash
    /// is harmless. A message whose key was used before is not sent again.
    pub fn commit(&self, commit: &Commit) -> Result<Committed, StoreError> {
        let mut cache = self.cache();
        let mut batch = sled::Batch::default();
        if let Some(event) = &commit.seen {
            if self.is_seen(event)? {
                return Ok(Committed::default());
            }
            mark_seen(&cache, event, &mut batch)?;
        }
        let lines = write_gardens(&cache, &commit.gardens, &mut batch)?;
        if let Some(moved) = &commit.moved {
            self.move_waiting(moved, &mut batch)?;
        }
        let next_outbox = self.write_outbox(cache.next_outbox, &commit.outbox, &mut batch)?;
        self.apply(batch)?;
        cache.next_outbox = next_outbox;
        if let Some(event) = &commit.seen {
            cache.inbox.remove(event);
        }
        for change in &commit.gardens {
            remember(&mut cache, change);
        }
        drop(cache);
        self.announce();
        Ok(Committed { lines, fresh: true })
    }

    /// Queues what has a new key; returns the next free row.
    pub(super) fn write_outbox(
        &self,
        mut next: u64,
        drafts: &[Draft],
        batch: &mut sled::Batch,
    ) -> Result<u64, StoreError> {
        let mut used: Vec<&str> = Vec::new();
        for Draft { outbound, about } in drafts {
            let sent = keys::sent(&outbound.key);
            if used.contains(&outbound.key.as_str()) || self.shared.tree.contains_key(&sent)? {
                continue;
            }
            let row = record::write(&OutboundRecord::new(outbound, about.clone()))?;
            batch.insert(keys::queued(Kind::Outbox, next), row);
            batch.insert(sent, record::write(&SentRecord::Waiting { row: next })?);
            used.push(&outbound.key);
            next += 1;
        }
        Ok(next)
    }

    fn move_waiting(&self, moved: &Move, batch: &mut sled::Batch) -> Result<(), StoreError> {
        for (key, mut row) in self.outbox_rows()? {
            if row.room == moved.from {
                row.room = moved.to.clone();
                batch.insert(key, record::write(&row)?);
            }
        }
        Ok(())
    }
}

pub(super) fn mark_seen(cache: &Cache, event: &EventId, batch: &mut sled::Batch) -> Result<(), StoreError> {
    if let Some(row) = cache.inbox.get(event) {
        batch.remove(keys::queued(Kind::Inbox, *row));
    }
    batch.insert(keys::seen(event), record::write(&SeenRecord {})?);
    Ok(())
}

/// The numbers a garden gives out next.
#[derive(Clone, Copy)]
struct Next {
    line: u64,
    told: u64,
}

fn write_gardens(
    cache: &Cache,
    changes: &[GardenChange],
    batch: &mut sled::Batch,
) -> Result<Vec<LineNumber>, StoreError> {
    let mut numbers: HashMap<&GardenId, Next> = HashMap::new();
    let mut lines = Vec::new();
    for change in changes {
        let next = match (numbers.get(&change.id), cache.gardens.get(&change.id)) {
            (Some(next), _) => *next,
            (None, Some(known)) => {
                let known = known.whole()?;
                Next { line: known.journal.next_number().0, told: known.next_told }
            }
            (None, None) => {
                batch.insert(keys::garden(&change.id), record::write(&GardenRecord { made: change.now })?);
                Next { line: 1, told: 0 }
            }
        };
        lines.extend((next.line..).map(LineNumber).take(change.acts.len()));
        numbers.insert(&change.id, write_garden(change, next, batch)?);
    }
    Ok(lines)
}

fn write_garden(change: &GardenChange, next: Next, batch: &mut sled::Batch) -> Result<Next, StoreError> {
    let GardenChange { id, now: _, acts, told, question, wake } = change;
    for (act, number) in acts.iter().zip(next.line..) {
        batch.insert(keys::numbered(Kind::Journal, id, number), record::write_of(act)?);
    }
    for (told, number) in told.iter().zip(next.told..) {
        batch.insert(keys::numbered(Kind::Told, id, number), record::write_of(told)?);
    }
    match question {
        Some((person, QuestionChange::Close)) => batch.remove(keys::question(id, person)),
        Some((person, QuestionChange::Open(question))) => {
            batch.insert(keys::question(id, person), record::write_of(question)?);
        }
        Some((_, QuestionChange::Keep)) | None => {}
    }
    if let Some(at) = *wake {
        batch.insert(keys::wake(id), record::write(&WakeRecord { at })?);
    }
    Ok(Next { line: next.line + acts.len() as u64, told: next.told + told.len() as u64 })
}

fn remember(cache: &mut Cache, change: &GardenChange) {
    let GardenChange { id, now, acts, told, question, wake } = change;
    let garden = cache.gardens.entry(id.clone()).or_insert_with(|| CachedGarden::new(*now));
    for act in acts {
        garden.journal.push(act.clone());
    }
    if !acts.is_empty() {
        garden.garden = garden.journal.garden();
    }
    garden.told.extend(told.iter().cloned());
    garden.next_told += told.len() as u64;
    match question {
        Some((person, QuestionChange::Open(question))) => {
            garden.questions.insert(person.clone(), question.clone());
        }
        Some((person, QuestionChange::Close)) => {
            garden.questions.remove(person);
        }
        Some((_, QuestionChange::Keep)) | None => {}
    }
    garden.wake = wake.or(garden.wake);
}
