//! The folded state of every garden in memory, so that a message needs no scan of the disk. It is changed only
//! after the batch that changes the disk is flushed.

use std::collections::{BTreeMap, HashMap};

use chrono::{DateTime, Utc};

use super::record::{ActRecord, GardenRecord, QuestionRecord, WakeRecord};
use super::{StoreError, keys, record};
use crate::identity::{GardenId, PersonId};
use crate::season::facts::Told;
use crate::season::garden::Garden;
use crate::season::journal::{Journal, Line, LineNumber};
use crate::season::request::OpenQuestion;
use crate::weather::Series;

#[derive(Default)]
pub(super) struct Cache {
    pub(super) gardens: BTreeMap<GardenId, CachedGarden>,
    pub(super) next_inbox: u64,
    pub(super) next_outbox: u64,
    /// Decoded weather by cell: past hours with the last forecast laid over.
    pub(super) weather: HashMap<String, Series>,
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
        }
    }
}

impl Cache {
    pub(super) fn load(tree: &sled::Tree) -> Result<Self, StoreError> {
        let mut cache = Cache {
            next_inbox: next_number(tree, keys::INBOX)?,
            next_outbox: next_number(tree, keys::OUTBOX)?,
            ..Cache::default()
        };
        for item in tree.scan_prefix(keys::GARDEN) {
            let (key, bytes) = item?;
            let made = record::read::<GardenRecord>(&key, &bytes)?.made;
            let name = String::from_utf8_lossy(&key[keys::GARDEN.len()..]).into_owned();
            let id = GardenId::new(name);
            cache.gardens.insert(id.clone(), load_garden(tree, &id, made)?);
        }
        Ok(cache)
    }
}

fn load_garden(tree: &sled::Tree, id: &GardenId, made: DateTime<Utc>) -> Result<CachedGarden, StoreError> {
    let mut garden = CachedGarden::new(made);
    let mut lines = Vec::new();
    for item in tree.scan_prefix(keys::garden_range(keys::JOURNAL, id)) {
        let (key, bytes) = item?;
        let act = record::read::<ActRecord>(&key, &bytes)?.into();
        let number = keys::number_of(&key).unwrap_or_default();
        lines.push(Line { number: LineNumber(number), act });
    }
    garden.journal = Journal::new(lines);
    garden.garden = garden.journal.garden();
    for item in tree.scan_prefix(keys::garden_range(keys::TOLD, id)) {
        let (key, bytes) = item?;
        garden.told.push(record::read::<Told>(&key, &bytes)?);
        garden.next_told = keys::number_of(&key).unwrap_or_default() + 1;
    }
    let prefix = keys::garden_range(keys::QUESTION, id);
    for item in tree.scan_prefix(&prefix) {
        let (key, bytes) = item?;
        let person = PersonId::new(String::from_utf8_lossy(&key[prefix.len()..]).into_owned());
        garden.questions.insert(person, record::read::<QuestionRecord>(&key, &bytes)?.into());
    }
    if let Some(bytes) = tree.get(keys::wake(id))? {
        garden.wake = Some(record::read::<WakeRecord>(&keys::wake(id), &bytes)?.at);
    }
    Ok(garden)
}

/// One more than the number of the last record of a queue. Numbers of finished records are used again only
/// when the queue is empty, when nothing remembers them.
fn next_number(tree: &sled::Tree, kind: &str) -> Result<u64, StoreError> {
    let last = tree.scan_prefix(kind).keys().next_back().transpose()?;
    Ok(last.and_then(|key| keys::number_of(&key)).map_or(0, |number| number + 1))
}
