//! What the store knows of the gardens, from memory.

use chrono::{DateTime, Utc};

use super::cache::CachedGarden;
use super::{Store, StoreError};
use crate::identity::{GardenId, PersonId, RoomId};
use crate::season::facts::{Facts, Feed};
use crate::weather::Series;

impl Store {
    /// Everything a decision needs but the weather, as one plain value. `None` for a garden that is not there.
    ///
    /// A garden of which a record cannot be read gives an error that names it: a decision without the spray on
    /// the damaged line could do harm.
    pub fn facts(
        &self,
        garden: &GardenId,
        now: DateTime<Utc>,
        person: Option<&PersonId>,
    ) -> Result<Option<Facts>, StoreError> {
        let cache = self.cache();
        let Some(known) = cache.gardens.get(garden) else { return Ok(None) };
        let known = known.whole()?;
        Ok(Some(Facts {
            now,
            garden: known.garden.clone(),
            journal: known.journal.clone(),
            weather: Series::default(),
            feed: Feed::default(),
            told: known.told.clone(),
            normals: None,
            open_question: person.and_then(|person| known.questions.get(person)).cloned(),
            answered: None,
        }))
    }

    /// Every garden, in the order they were made.
    pub fn gardens(&self) -> Vec<GardenId> {
        self.gardens_where(|_| true)
    }

    /// The gardens a person belongs to, in the order they were made.
    pub fn gardens_of(&self, person: &PersonId) -> Vec<GardenId> {
        self.gardens_where(|known| known.garden.role(person).is_some())
    }

    /// The gardens whose briefs go to a room, in the order they were made.
    pub fn gardens_in(&self, room: &RoomId) -> Vec<GardenId> {
        self.gardens_where(|known| known.garden.room.as_ref() == Some(room))
    }

    /// When each garden wants to be looked at again; a garden never looked at wants it at once. One that
    /// cannot be read whole is left alone.
    pub fn wakes(&self) -> Vec<(GardenId, Option<DateTime<Utc>>)> {
        let cache = self.cache();
        let whole = cache.gardens.iter().filter(|(_, known)| known.flaw.is_none());
        whole.map(|(id, known)| (id.clone(), known.wake)).collect()
    }

    /// When a garden was made.
    pub fn made(&self, garden: &GardenId) -> Option<DateTime<Utc>> {
        self.cache().gardens.get(garden).map(|known| known.made)
    }

    fn gardens_where(&self, holds: impl Fn(&CachedGarden) -> bool) -> Vec<GardenId> {
        let cache = self.cache();
        let mut found: Vec<_> = cache.gardens.iter().filter(|(_, known)| holds(known)).collect();
        found.sort_by_key(|(_, known)| known.made);
        found.into_iter().map(|(id, _)| id.clone()).collect()
    }
}
