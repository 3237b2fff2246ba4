//! The one way the journal changes.

use chrono::{DateTime, Utc};

use super::cache::CachedGarden;
use super::record::{ActRecord, GardenRecord, OutboundRecord, QuestionRecord, WakeRecord};
use super::{Store, StoreError, keys, record};
use crate::identity::{EventId, GardenId, PersonId};
use crate::post::{Outbound, Waiting};
use crate::season::facts::{Facts, Feed, QuestionChange, Told};
use crate::season::journal::{Act, Line, LineNumber};
use crate::weather::Series;

/// What one message or one morning changes, all of it or nothing.
#[derive(Clone, Debug, Default)]
pub struct Commit {
    /// The message this comes of; marked seen and taken from the inbox.
    pub seen: Option<EventId>,
    pub garden: Option<GardenChange>,
    pub outbox: Vec<Draft>,
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

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Committed {
    pub lines: Vec<LineNumber>,
    /// False when the message had been seen before: nothing was changed.
    pub fresh: bool,
}

impl Store {
    /// Writes and flushes a commit. A message already seen changes nothing: that is how a repeat after a crash
    /// is harmless.
    pub fn commit(&self, commit: &Commit) -> Result<Committed, StoreError> {
        let mut cache = self.cache();
        let mut batch = sled::Batch::default();
        if let Some(event) = &commit.seen {
            if self.shared.tree.contains_key(keys::seen(event))? {
                return Ok(Committed::default());
            }
            self.mark_seen(event, &mut batch)?;
        }
        let lines = match &commit.garden {
            Some(change) => write_garden(cache.gardens.get(&change.id), change, &mut batch)?,
            None => Vec::new(),
        };
        let mut next_outbox = cache.next_outbox;
        for draft in &commit.outbox {
            if self.shared.tree.contains_key(keys::sent(&draft.outbound.key))? {
                continue;
            }
            let waiting =
                Waiting { outbound: draft.outbound.clone(), first_attempt: None, device: None, attempts: 0 };
            let row = record::write(OutboundRecord::new(&waiting, draft.about.clone()))?;
            batch.insert(keys::queued(keys::OUTBOX, next_outbox), row);
            batch.insert(keys::sent(&draft.outbound.key), &next_outbox.to_be_bytes());
            next_outbox += 1;
        }
        self.apply(batch)?;
        cache.next_outbox = next_outbox;
        if let Some(change) = &commit.garden {
            let garden =
                cache.gardens.entry(change.id.clone()).or_insert_with(|| CachedGarden::new(change.now));
            remember(garden, change, &lines);
        }
        drop(cache);
        self.announce();
        Ok(Committed { lines, fresh: true })
    }

    /// Everything a decision needs, as one plain value. `None` for a garden that is not there.
    pub fn facts(&self, garden: &GardenId, now: DateTime<Utc>, person: Option<&PersonId>) -> Option<Facts> {
        let cache = self.cache();
        let known = cache.gardens.get(garden)?;
        Some(Facts {
            now,
            garden: known.garden.clone(),
            journal: known.journal.clone(),
            weather: Series::default(),
            feed: Feed::default(),
            told: known.told.clone(),
            normals: None,
            open_question: person.and_then(|person| known.questions.get(person)).cloned(),
        })
    }

    /// When each garden wants to be looked at again; a garden never looked at wants it at once.
    pub fn wakes(&self) -> Vec<(GardenId, Option<DateTime<Utc>>)> {
        self.cache().gardens.iter().map(|(id, garden)| (id.clone(), garden.wake)).collect()
    }

    /// When a garden was made.
    pub fn made(&self, garden: &GardenId) -> Option<DateTime<Utc>> {
        self.cache().gardens.get(garden).map(|known| known.made)
    }

    fn mark_seen(&self, event: &EventId, batch: &mut sled::Batch) -> Result<(), StoreError> {
        // The inbox is short: what was accepted and not yet worked through.
        for item in self.shared.tree.scan_prefix(keys::INBOX) {
            let (key, bytes) = item?;
            let inbound: crate::post::Inbound = record::read::<record::InboundRecord>(&key, &bytes)?.into();
            if inbound.id == *event {
                batch.remove(key);
            }
        }
        batch.insert(keys::seen(event), &[] as &[u8]);
        Ok(())
    }
}

fn write_garden(
    known: Option<&CachedGarden>,
    change: &GardenChange,
    batch: &mut sled::Batch,
) -> Result<Vec<LineNumber>, StoreError> {
    if known.is_none() {
        batch.insert(keys::garden(&change.id), record::write(GardenRecord { made: change.now })?);
    }
    let mut number = known.map_or(LineNumber(1), |garden| garden.journal.next_number());
    let mut lines = Vec::with_capacity(change.acts.len());
    for act in &change.acts {
        batch.insert(
            keys::numbered(keys::JOURNAL, &change.id, number.0),
            record::write(ActRecord::from(act))?,
        );
        lines.push(number);
        number = LineNumber(number.0 + 1);
    }
    let next_told = known.map_or(0, |garden| garden.next_told);
    for (told, number) in change.told.iter().zip(next_told..) {
        batch.insert(keys::numbered(keys::TOLD, &change.id, number), record::write(told)?);
    }
    if let Some((person, question)) = &change.question {
        let key = keys::question(&change.id, person);
        match question {
            QuestionChange::Keep => {}
            QuestionChange::Close => batch.remove(key),
            QuestionChange::Open(question) => {
                batch.insert(key, record::write(QuestionRecord::from(question))?)
            }
        }
    }
    if let Some(at) = change.wake {
        batch.insert(keys::wake(&change.id), record::write(WakeRecord { at })?);
    }
    Ok(lines)
}

fn remember(garden: &mut CachedGarden, change: &GardenChange, lines: &[LineNumber]) {
    if !change.acts.is_empty() {
        let mut journal = garden.journal.lines().to_vec();
        journal.extend(
            lines.iter().zip(&change.acts).map(|(number, act)| Line { number: *number, act: act.clone() }),
        );
        garden.journal = crate::season::journal::Journal::new(journal);
        garden.garden = garden.journal.garden();
    }
    garden.told.extend(change.told.iter().cloned());
    garden.next_told += change.told.len() as u64;
    match &change.question {
        Some((person, QuestionChange::Open(question))) => {
            garden.questions.insert(person.clone(), question.clone());
        }
        Some((person, QuestionChange::Close)) => {
            garden.questions.remove(person);
        }
        Some((_, QuestionChange::Keep)) | None => {}
    }
    garden.wake = change.wake.or(garden.wake);
}
