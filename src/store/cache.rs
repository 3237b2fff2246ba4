//! The folded state of every garden in memory, so that a message needs no scan of the disk. It is changed only
//! after the batch that changes the disk is flushed.

use std::collections::{BTreeMap, HashMap};

use chrono::{DateTime, Utc};

use super::keys::Kind;
use super::record::{GardenRecord, InboundRecord, Recorded, WakeRecord};
use super::weather::CachedWeather;
use super::{Flaw, StoreError, keys, record};
use crate::identity::{EventId, GardenId, PersonId};
use crate::post::Inbound;
use crate::season::facts::Told;
use crate::season::garden::Garden;
use crate::season::journal::{Journal, Line, LineNumber};
use crate::season::request::OpenQuestion;

#[derive(Default)]
pub(super) struct Cache {
    pub(super) gardens: BTreeMap<GardenId, CachedGarden>,
    /// The rows of what was accepted and not yet worked through.
    pub(super) inbox: HashMap<EventId, u64>,
    pub(super) next_inbox: u64,
    pub(super) next_outbox: u64,
    pub(super) weather: CachedWeather,
}

pub(super) struct CachedGarden {
    pub(super) made: DateTime<Utc>,
    pub(super) journal: Journal,
    /// The journal's settings, folded.
    pub(super) garden: Garden,
    pub(super) told: Vec<Told>,
    pub(super) next_told: u64,
    pub(super) questions: HashMap<PersonId, OpenQuestion>,
    pub(super) wake: Option<DateTime<Utc>>,
    /// A record of it that cannot be read. What is here is then not all there is, enough to find whose garden
    /// it is and too little to decide anything.
    pub(super) flaw: Option<Flaw>,
}

impl CachedGarden {
    pub(super) fn new(made: DateTime<Utc>) -> Self {
        Self {
            made,
            journal: Journal::default(),
            garden: Garden::new(""),
            told: Vec::new(),
            next_told: 0,
            questions: HashMap::new(),
            wake: None,
            flaw: None,
        }
    }

    /// The garden, if all of it could be read.
    pub(super) fn whole(&self) -> Result<&Self, Flaw> {
        self.flaw.clone().map_or(Ok(self), Err)
    }

    /// Keeps what could be read, and the first flaw.
    fn note<T>(&mut self, read: Result<T, Flaw>) -> Option<T> {
        read.map_err(|flaw| self.flaw.get_or_insert(flaw).clone()).ok()
    }
}

impl Cache {
    pub(super) fn load(tree: &sled::Tree) -> Result<Self, StoreError> {
        let mut cache = Cache {
            next_inbox: next_number(tree, Kind::Inbox)?,
            next_outbox: next_number(tree, Kind::Outbox)?,
            ..Cache::default()
        };
        for item in tree.scan_prefix(Kind::Garden.prefix()) {
            let (key, bytes) = item?;
            let Some(id) = keys::text_of(&key).map(GardenId::new) else { continue };
            let garden = load_garden(tree, &id, record::read(&key, &bytes))?;
            cache.gardens.insert(id, garden);
        }
        for item in tree.scan_prefix(Kind::Inbox.prefix()) {
            let (key, bytes) = item?;
            // One that cannot be read is passed over: it must not stop those behind it.
            let Ok(letter) = record::read::<InboundRecord>(&key, &bytes) else { continue };
            let row = keys::number_of(&key).unwrap_or_default();
            cache.inbox.insert(Inbound::of_record(letter).id, row);
        }
        Ok(cache)
    }
}

fn load_garden(
    tree: &sled::Tree,
    id: &GardenId,
    made: Result<GardenRecord, Flaw>,
) -> Result<CachedGarden, StoreError> {
    let mut garden = CachedGarden::new(DateTime::default());
    if let Some(record) = garden.note(made) {
        garden.made = record.made;
    }
    let mut lines = Vec::new();
    for item in tree.scan_prefix(keys::garden_range(Kind::Journal, id)) {
        let (key, bytes) = item?;
        let number = LineNumber(keys::number_of(&key).unwrap_or_default());
        let act = garden.note(record::read_of(&key, &bytes));
        lines.extend(act.map(|act| Line { number, act }));
    }
    garden.journal = Journal::new(lines);
    garden.garden = garden.journal.garden();
    for item in tree.scan_prefix(keys::garden_range(Kind::Told, id)) {
        let (key, bytes) = item?;
        let told = garden.note(record::read_of(&key, &bytes));
        garden.told.extend(told);
        garden.next_told = keys::number_of(&key).unwrap_or_default() + 1;
    }
    for item in tree.scan_prefix(keys::garden_range(Kind::Question, id)) {
        let (key, bytes) = item?;
        let question = garden.note(record::read_of(&key, &bytes));
        garden.questions.extend(keys::text_of(&key).map(PersonId::new).zip(question));
    }
    let key = keys::wake(id);
    if let Some(bytes) = tree.get(&key)? {
        garden.wake = garden.note(record::read::<WakeRecord>(&key, &bytes)).map(|wake| wake.at);
    }
    Ok(garden)
}

/// One more than the number of the last record of a queue. Numbers of finished records are used again only
/// when the queue is empty, when nothing remembers them.
fn next_number(tree: &sled::Tree, kind: Kind) -> Result<u64, StoreError> {
    let last = tree.scan_prefix(kind.prefix()).keys().next_back().transpose()?;
    Ok(last.and_then(|key| keys::number_of(&key)).map_or(0, |number| number + 1))
}
