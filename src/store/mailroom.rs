//! What a transport must be able to keep: the inbox, the outbox, and its own small notes.

use chrono::{DateTime, Utc};
use tokio::sync::watch;

use super::keys::Kind;
use super::record::{AboutRecord, InboundRecord, OutboundRecord, Recorded, SentRecord};
use super::{Flaw, Store, StoreError, keys, record};
use crate::identity::EventId;
use crate::post::{Inbound, Mailroom, PostError, Waiting};

/// A message given up on, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unsent {
    pub key: String,
    pub why: String,
}

impl Store {
    /// What was accepted and not yet worked through, in order. What cannot be read is passed over, and found
    /// by [`Store::flaws`].
    pub fn inbox(&self) -> Result<Vec<Inbound>, StoreError> {
        let _settled = self.cache();
        let rows = self.readable::<InboundRecord>(Kind::Inbox)?;
        Ok(rows.into_iter().map(|(_, letter)| Inbound::of_record(letter)).collect())
    }

    /// What one of the bot's own messages was about.
    pub fn about(&self, event: &EventId) -> Result<Option<String>, StoreError> {
        let key = keys::about(event);
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(None) };
        Ok(Some(record::read::<AboutRecord>(&key, &bytes)?.about))
    }

    /// Whether a message was worked through.
    pub fn is_seen(&self, event: &EventId) -> Result<bool, StoreError> {
        Ok(self.shared.tree.contains_key(keys::seen(event))?)
    }

    /// Every message that was given up on, for the operator.
    pub fn unsent(&self) -> Result<Vec<Unsent>, StoreError> {
        let rows = self.readable::<SentRecord>(Kind::Sent)?;
        let given_up = |(key, sent): (sled::IVec, SentRecord)| match sent {
            SentRecord::Abandoned { why } => Some(Unsent { key: keys::text_of(&key)?, why }),
            SentRecord::Waiting { .. } | SentRecord::Delivered { .. } => None,
        };
        Ok(rows.into_iter().filter_map(given_up).collect())
    }

    /// The rows of the outbox that can be read, in order.
    pub(super) fn outbox_rows(&self) -> Result<Vec<(sled::IVec, OutboundRecord)>, StoreError> {
        self.readable(Kind::Outbox)
    }

    /// Every record of a kind that can be read, in the order of the keys.
    pub(super) fn readable<T: serde::de::DeserializeOwned>(
        &self,
        kind: Kind,
    ) -> Result<Vec<(sled::IVec, T)>, StoreError> {
        let mut rows = Vec::new();
        for item in self.shared.tree.scan_prefix(kind.prefix()) {
            let (key, bytes) = item?;
            let read: Result<T, Flaw> = record::read(&key, &bytes);
            rows.extend(read.ok().map(|record| (key, record)));
        }
        Ok(rows)
    }

    fn put_in_inbox(&self, letters: &[Inbound]) -> Result<(), StoreError> {
        let mut cache = self.cache();
        let mut batch = sled::Batch::default();
        let mut fresh: Vec<(&EventId, u64)> = Vec::new();
        for letter in letters {
            let is_known = cache.inbox.contains_key(&letter.id)
                || fresh.iter().any(|(id, _)| **id == letter.id)
                || self.is_seen(&letter.id)?;
            if is_known {
                continue;
            }
            let row = cache.next_inbox + fresh.len() as u64;
            batch.insert(keys::queued(Kind::Inbox, row), record::write_of(letter)?);
            fresh.push((&letter.id, row));
        }
        if !fresh.is_empty() {
            self.apply(batch)?;
            cache.next_inbox += fresh.len() as u64;
            cache.inbox.extend(fresh.into_iter().map(|(id, row)| (id.clone(), row)));
        }
        drop(cache);
        self.announce();
        Ok(())
    }

    /// The row a message waits in; none once it is finished, or if it never was.
    fn outbox_row(&self, name: &str) -> Result<Option<(Vec<u8>, OutboundRecord)>, StoreError> {
        let sent = keys::sent(name);
        let Some(bytes) = self.shared.tree.get(&sent)? else { return Ok(None) };
        let SentRecord::Waiting { row } = record::read(&sent, &bytes)? else { return Ok(None) };
        let key = keys::queued(Kind::Outbox, row);
        let Some(bytes) = self.shared.tree.get(&key)? else { return Ok(None) };
        let record = record::read(&key, &bytes)?;
        Ok(Some((key, record)))
    }

    fn finish(&self, name: &str, outcome: &SentRecord) -> Result<(), StoreError> {
        let _writing = self.cache();
        let Some((key, row)) = self.outbox_row(name)? else { return Ok(()) };
        let mut batch = sled::Batch::default();
        if let (SentRecord::Delivered { event: Some(event) }, Some(about)) = (outcome, row.about) {
            batch.insert(keys::about(event), record::write(&AboutRecord { about })?);
        }
        batch.remove(key);
        batch.insert(keys::sent(name), record::write(outcome)?);
        self.apply(batch)
    }

    /// A new device is a new scope for transaction ids, so the first attempt is counted by device.
    fn begin(&self, name: &str, now: DateTime<Utc>, device: &str) -> Result<(), StoreError> {
        let _writing = self.cache();
        let Some((key, mut row)) = self.outbox_row(name)? else { return Ok(()) };
        let is_same_device = row.device.as_deref() == Some(device);
        row.first_attempt = row.first_attempt.filter(|_| is_same_device).or(Some(now));
        row.device = Some(device.to_owned());
        row.attempts = row.attempts.saturating_add(1);
        let mut batch = sled::Batch::default();
        batch.insert(key, record::write(&row)?);
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
        let mut notes = Vec::new();
        for item in self.shared.tree.scan_prefix(keys::note(prefix)) {
            let (key, bytes) = item?;
            notes.extend(keys::text_of(&key).map(|name| (name, bytes.to_vec())));
        }
        Ok(notes)
    }

    fn has_accepted(&self, event: &EventId) -> Result<bool, StoreError> {
        Ok(self.cache().inbox.contains_key(event) || self.is_seen(event)?)
    }
}

impl Mailroom for Store {
    fn accept(&self, inbound: Vec<Inbound>) -> Result<(), PostError> {
        self.put_in_inbox(&inbound).map_err(told)
    }

    fn knows(&self, event: &EventId) -> Result<bool, PostError> {
        self.has_accepted(event).map_err(told)
    }

    fn waiting(&self) -> Result<Vec<Waiting>, PostError> {
        let rows = self.outbox_rows().map_err(told)?;
        Ok(rows.into_iter().map(|(_, row)| row.into()).collect())
    }

    fn attempting(&self, key: &str, now: DateTime<Utc>, device: &str) -> Result<(), PostError> {
        self.begin(key, now, device).map_err(told)
    }

    fn delivered(&self, key: &str, event: Option<EventId>) -> Result<(), PostError> {
        self.finish(key, &SentRecord::Delivered { event }).map_err(told)
    }

    fn abandoned(&self, key: &str, why: &str) -> Result<(), PostError> {
        self.finish(key, &SentRecord::Abandoned { why: why.to_owned() }).map_err(told)
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
