//! What a transport must be able to keep: the inbox, the outbox, and its own small notes.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use tokio::sync::watch;

use super::record::{InboundRecord, OutboundRecord};
use super::{Store, StoreError, keys, record};
use crate::identity::EventId;
use crate::post::{Inbound, Mailroom, PostError, Waiting};

/// What became of an outbound message; its key is never used again.
#[derive(Deserialize, Serialize)]
#[serde(tag = "outcome", rename_all = "snake_case")]
enum SentRecord {
    Delivered { event: Option<EventId> },
    Abandoned { why: String },
}

/// What a message of the bot's own was about, by its event.
#[derive(Deserialize, Serialize)]
struct AboutRecord {
    about: String,
}

impl Store {
    /// What was accepted and not yet worked through, in order.
    pub fn inbox(&self) -> Result<Vec<Inbound>, StoreError> {
        self.shared
            .tree
            .scan_prefix(keys::INBOX)
            .map(|item| {
                let (key, bytes) = item?;
                Ok(record::read::<InboundRecord>(&key, &bytes)?.into())
            })
            .collect()
    }

    /// What one of the bot's own messages was about.
    pub fn about(&self, event: &EventId) -> Result<Option<String>, StoreError> {
        let key = keys::about(event);
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(None) };
        Ok(Some(record::read::<AboutRecord>(&key, &bytes)?.about))
    }

    pub fn is_seen(&self, event: &EventId) -> Result<bool, StoreError> {
        Ok(self.shared.tree.contains_key(keys::seen(event))?)
    }

    fn put_in_inbox(&self, inbound: &[Inbound]) -> Result<(), StoreError> {
        let mut cache = self.cache();
        let mut batch = sled::Batch::default();
        let mut next = cache.next_inbox;
        let waiting: Vec<EventId> = self.inbox()?.into_iter().map(|waiting| waiting.id).collect();
        let mut fresh: Vec<&EventId> = Vec::new();
        for letter in inbound {
            if waiting.contains(&letter.id) || fresh.contains(&&letter.id) || self.is_seen(&letter.id)? {
                continue;
            }
            batch.insert(keys::queued(keys::INBOX, next), record::write(InboundRecord::from(letter))?);
            fresh.push(&letter.id);
            next += 1;
        }
        if !fresh.is_empty() {
            self.apply(batch)?;
            cache.next_inbox = next;
        }
        drop(cache);
        self.announce();
        Ok(())
    }

    fn outbox_row(&self, name: &str) -> Result<Option<(Vec<u8>, OutboundRecord)>, StoreError> {
        let Some(number) = self.shared.tree.get(keys::sent(name))? else { return Ok(None) };
        // A finished message has its outcome here instead of a number.
        let Ok(number) = <[u8; 8]>::try_from(number.as_ref()) else { return Ok(None) };
        let key = keys::queued(keys::OUTBOX, u64::from_be_bytes(number));
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(None) };
        let row = record::read::<OutboundRecord>(&key, &bytes)?;
        Ok(Some((key, row)))
    }

    fn finish(&self, name: &str, outcome: SentRecord) -> Result<(), StoreError> {
        let _writing = self.cache();
        let Some((key, row)) = self.outbox_row(name)? else { return Ok(()) };
        let mut batch = sled::Batch::default();
        if let (SentRecord::Delivered { event: Some(event) }, Some(about)) = (&outcome, row.about) {
            batch.insert(keys::about(event), record::write(AboutRecord { about })?);
        }
        batch.remove(key);
        batch.insert(keys::sent(name), record::write(outcome)?);
        self.apply(batch)
    }

    fn begin(&self, name: &str, now: DateTime<Utc>, device: &str) -> Result<(), StoreError> {
        let _writing = self.cache();
        let Some((key, row)) = self.outbox_row(name)? else { return Ok(()) };
        let about = row.about.clone();
        let mut waiting: Waiting = row.into();
        waiting.attempts += 1;
        if waiting.device.as_deref() != Some(device) {
            waiting.first_attempt = None;
        }
        waiting.first_attempt.get_or_insert(now);
        waiting.device = Some(device.to_owned());
        let mut batch = sled::Batch::default();
        batch.insert(key, record::write(OutboundRecord::new(&waiting, about))?);
        self.apply(batch)
    }

    fn put_note(&self, name: &str, value: Option<&[u8]>) -> Result<(), StoreError> {
        let _writing = self.cache();
        let mut batch = sled::Batch::default();
        match value {
            Some(value) => batch.insert(keys::note(name), value),
            None => batch.remove(keys::note(name)),
        }
        self.apply(batch)
    }

    fn notes(&self, prefix: &str) -> Result<Vec<(String, Vec<u8>)>, StoreError> {
        self.shared
            .tree
            .scan_prefix(keys::note(prefix))
            .map(|item| {
                let (key, bytes) = item?;
                let name = String::from_utf8_lossy(&key[keys::NOTE.len()..]).into_owned();
                Ok((name, bytes.to_vec()))
            })
            .collect()
    }

    fn queue(&self) -> Result<Vec<Waiting>, StoreError> {
        self.shared
            .tree
            .scan_prefix(keys::OUTBOX)
            .map(|item| {
                let (key, bytes) = item?;
                Ok(record::read::<OutboundRecord>(&key, &bytes)?.into())
            })
            .collect()
    }
}

impl Mailroom for Store {
    fn accept(&self, inbound: Vec<Inbound>) -> Result<(), PostError> {
        self.put_in_inbox(&inbound).map_err(told)
    }

    fn knows(&self, event: &EventId) -> Result<bool, PostError> {
        if self.is_seen(event).map_err(told)? {
            return Ok(true);
        }
        Ok(self.inbox().map_err(told)?.iter().any(|waiting| waiting.id == *event))
    }

    fn waiting(&self) -> Result<Vec<Waiting>, PostError> {
        self.queue().map_err(told)
    }

    fn attempting(&self, key: &str, now: DateTime<Utc>, device: &str) -> Result<(), PostError> {
        self.begin(key, now, device).map_err(told)
    }

    fn delivered(&self, key: &str, event: Option<EventId>) -> Result<(), PostError> {
        self.finish(key, SentRecord::Delivered { event }).map_err(told)
    }

    fn abandoned(&self, key: &str, why: &str) -> Result<(), PostError> {
        self.finish(key, SentRecord::Abandoned { why: why.to_owned() }).map_err(told)
    }

    fn keep(&self, name: &str, value: Option<&[u8]>) -> Result<(), PostError> {
        self.put_note(name, value).map_err(told)
    }

    fn kept(&self, prefix: &str) -> Result<Vec<(String, Vec<u8>)>, PostError> {
        self.notes(prefix).map_err(told)
    }

    fn changes(&self) -> watch::Receiver<u64> {
        self.shared.changes.subscribe()
    }
}

fn told(error: StoreError) -> PostError {
    PostError(error.to_string())
}
