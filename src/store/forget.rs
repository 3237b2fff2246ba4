//! Forgetting a person: the one exception to "nothing is overwritten".
//!
//! A garden nobody else belongs to goes whole, with its place and the weather of it. In a garden that others
//! keep, notes and photos become blank lines, and what was seen and done stays without its author: the sulfur
//! that somebody sprayed is still on the leaves, and those who go on spraying need to know.
//!
//! Marks that an event was seen and a key used stay, or a repeat would bring back what was removed. The disk
//! frees old bytes as it reuses their space; who wants them gone at once exports and restores into a new folder.

use std::collections::HashSet;

use chrono::{DateTime, Utc};
use serde_json::Value;

use super::cache::{Cache, CachedGarden};
use super::commit::mark_seen;
use super::keys::Kind;
use super::record::{AboutRecord, InboundRecord, Recorded, SentRecord};
use super::weather::cell_of;
use super::{Draft, Store, StoreError, keys, record};
use crate::identity::{EventId, GardenId, PersonId};
use crate::post::Inbound;
use crate::season::journal::{Act, Entry, LineNumber, Report, Retraction, What, Withdrawal};
use crate::season::request::Setting;

/// Whom to forget, and the message that asked for it.
#[derive(Clone, Debug)]
pub struct Forget {
    pub person: PersonId,
    pub now: DateTime<Utc>,
    /// Notes kept about the person, by name.
    pub notes: Vec<String>,
    pub seen: Option<EventId>,
    /// The last thing said to the person.
    pub farewell: Vec<Draft>,
}

/// Who wrote what nobody is named for any more, and in which message.
const NOBODY: &str = "forgotten";

impl Store {
    /// Removes a person's data from every garden, from what came in and from what waits to be sent. Returns
    /// false if the message that asked was seen before: nothing is changed then.
    pub fn forget(&self, forget: &Forget) -> Result<bool, StoreError> {
        let mut cache = self.cache();
        if let Some(event) = &forget.seen
            && self.is_seen(event)?
        {
            return Ok(false);
        }
        let mut batch = sled::Batch::default();
        let mut names = HashSet::from([forget.person.as_str().to_owned()]);
        for (id, known) in &cache.gardens {
            names.extend(events_of(known, &forget.person));
            if is_left_alone(known, &forget.person) {
                self.remove_garden(id, known, &cache, &mut batch)?;
            } else {
                blank_lines(id, known, forget, &mut batch)?;
                batch.remove(keys::question(id, &forget.person));
            }
        }
        self.empty_inbox(&cache, forget, &mut names, &mut batch)?;
        self.empty_outbox(&names, &mut batch)?;
        for (key, AboutRecord { about }) in self.readable(Kind::About)? {
            if tells_of(&about, &names) {
                batch.remove(key);
            }
        }
        for note in &forget.notes {
            batch.remove(keys::note(note));
        }
        if let Some(event) = &forget.seen {
            mark_seen(&cache, event, &mut batch)?;
        }
        // A reaction to the farewell has nothing left to be about.
        let farewell = forget.farewell.iter().map(|draft| Draft { about: None, ..draft.clone() });
        self.write_outbox(cache.next_outbox, &Vec::from_iter(farewell), &mut batch)?;
        self.apply(batch)?;
        *cache = Cache::load(&self.shared.tree)?;
        drop(cache);
        self.announce();
        Ok(true)
    }

    fn remove_garden(
        &self,
        id: &GardenId,
        known: &CachedGarden,
        cache: &Cache,
        batch: &mut sled::Batch,
    ) -> Result<(), StoreError> {
        for kind in [Kind::Journal, Kind::Told, Kind::Question] {
            for key in self.shared.tree.scan_prefix(keys::garden_range(kind, id)).keys() {
                batch.remove(key?);
            }
        }
        batch.remove(keys::garden(id));
        batch.remove(keys::wake(id));
        let cell = known.garden.position.map(cell_of);
        let is_shared = |other: &CachedGarden| other.garden.position.map(cell_of) == cell;
        let Some(cell) = &cell else { return Ok(()) };
        if cache.gardens.iter().any(|(other, known)| other != id && is_shared(known)) {
            return Ok(());
        }
        batch.remove(keys::cell(Kind::Forecast, cell));
        batch.remove(keys::cell(Kind::Normals, cell));
        for key in self.shared.tree.scan_prefix(keys::past_range(cell)).keys() {
            batch.remove(key?);
        }
        Ok(())
    }

    fn empty_inbox(
        &self,
        cache: &Cache,
        forget: &Forget,
        names: &mut HashSet<String>,
        batch: &mut sled::Batch,
    ) -> Result<(), StoreError> {
        for (_, letter) in self.readable::<InboundRecord>(Kind::Inbox)? {
            let letter = Inbound::of_record(letter);
            if letter.from == forget.person {
                mark_seen(cache, &letter.id, batch)?;
                names.insert(letter.id.as_str().to_owned());
            }
        }
        Ok(())
    }

    fn empty_outbox(&self, names: &HashSet<String>, batch: &mut sled::Batch) -> Result<(), StoreError> {
        for (key, row) in self.outbox_rows()? {
            let is_theirs = row.re.iter().any(|event| names.contains(event.as_str()))
                || row.mentions.iter().any(|person| names.contains(person.as_str()))
                || row.about.as_ref().is_some_and(|about| tells_of(about, names));
            if is_theirs {
                let outcome = SentRecord::Abandoned { why: String::from("the person asked to be forgotten") };
                batch.insert(keys::sent(&row.key), record::write(&outcome)?);
                batch.remove(key);
            }
        }
        Ok(())
    }
}

/// Whether the garden is this person's and nobody else's.
fn is_left_alone(known: &CachedGarden, person: &PersonId) -> bool {
    let people = &known.garden.people;
    !people.is_empty() && people.iter().all(|member| member.id == *person)
}

/// Names of the messages a person wrote that the journal remembers.
fn events_of(known: &CachedGarden, person: &PersonId) -> Vec<String> {
    let by_person = |act: &Act| match act {
        Act::Enter(Entry { who, event, .. }) | Act::Retract(Retraction { who, event, .. }) => {
            (who == person).then(|| event.as_str().to_owned())
        }
    };
    known.journal.lines().iter().filter_map(|line| by_person(&line.act)).collect()
}

fn blank_lines(
    id: &GardenId,
    known: &CachedGarden,
    forget: &Forget,
    batch: &mut sled::Batch,
) -> Result<(), StoreError> {
    let standing: HashSet<LineNumber> = known.journal.standing().map(|(number, _)| number).collect();
    let mut next = known.journal.next_number().0;
    for line in known.journal.lines() {
        let Some(blanked) = without(&line.act, &forget.person) else { continue };
        // A line that cannot be read may be theirs too: forgetting by halves is refused.
        known.whole()?;
        batch.insert(keys::numbered(Kind::Journal, id, line.number.0), record::write_of(&blanked)?);
        if is_blank(&blanked) && standing.contains(&line.number) {
            let retraction = Act::Retract(Retraction {
                entry: line.number,
                why: Withdrawal::Forgotten,
                who: PersonId::new(NOBODY),
                event: EventId::new(NOBODY),
                said: forget.now,
            });
            batch.insert(keys::numbered(Kind::Journal, id, next), record::write_of(&retraction)?);
            next += 1;
        }
    }
    Ok(())
}

/// The line without the person; `None` if it does not tell of them.
fn without(act: &Act, person: &PersonId) -> Option<Act> {
    let nobody = || (PersonId::new(NOBODY), EventId::new(NOBODY));
    match act {
        Act::Enter(entry)
            if is_about(&entry.what, person) || (entry.who == *person && is_free(&entry.what)) =>
        {
            let (who, event) = nobody();
            let report = Report::Note { text: String::new() };
            let what = What::Report { trees: Vec::new(), report };
            Some(Act::Enter(Entry { who, event, what, ..entry.clone() }))
        }
        Act::Enter(entry) if entry.who == *person => {
            let (who, event) = nobody();
            Some(Act::Enter(Entry { who, event, ..entry.clone() }))
        }
        Act::Retract(retraction) if retraction.who == *person => {
            let (who, event) = nobody();
            Some(Act::Retract(Retraction { who, event, ..retraction.clone() }))
        }
        Act::Enter(_) | Act::Retract(_) => None,
    }
}

fn is_blank(act: &Act) -> bool {
    matches!(act, Act::Enter(Entry { what: What::Report { report: Report::Note { text }, .. }, .. }) if text.is_empty())
}

/// Settings that are about a person.
fn is_about(what: &What, person: &PersonId) -> bool {
    matches!(
        what,
        What::Setting(Setting::Person { id, .. } | Setting::RemovePerson { id }) if id == person
    )
}

/// What is in the person's own words, or a picture of theirs.
fn is_free(what: &What) -> bool {
    matches!(what, What::Report { report: Report::Note { .. } | Report::Photo { .. }, .. })
}

/// Whether one of the names is a value in it, or stands in it where it is no JSON.
fn tells_of(about: &str, names: &HashSet<String>) -> bool {
    match serde_json::from_str::<Value>(about) {
        Ok(value) => has_any(&value, names),
        Err(_) => names.iter().any(|name| about.contains(name)),
    }
}

fn has_any(value: &Value, names: &HashSet<String>) -> bool {
    match value {
        Value::String(text) => names.contains(text),
        Value::Array(items) => items.iter().any(|item| has_any(item, names)),
        Value::Object(fields) => fields.values().any(|field| has_any(field, names)),
        Value::Null | Value::Bool(_) | Value::Number(_) => false,
    }
}
