//! Messages on their way in and out.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use super::hex;
use super::mirror::{Recorded, record_enum, record_struct};
use crate::identity::{EventId, PersonId, RoomId};
use crate::post::{Addressed, Body, Content, Inbound, Kind, Outbound, RoomKind, Unreadable, Waiting};

record_struct!(InboundRecord = Inbound {
    id: EventId,
    room: RoomId,
    room_kind: RoomKind,
    from: PersonId,
    called: Option<String>,
    at: DateTime<Utc>,
    addressed: Addressed,
    reply_to: Option<EventId>,
    thread: Option<EventId>,
    content: Content,
});

record_enum!(RoomKindRecord = RoomKind { Direct, Group });
record_enum!(AddressedRecord = Addressed { ToBot, ToRoom });

record_enum!(
    #[serde(tag = "content")]
    ContentRecord = Content {
        Said { text: String },
        Edited { of: EventId, text: String },
        Deleted { of: EventId },
        Reacted { to: EventId, key: String },
        Located { geo: String, caption: Option<String> },
        Photo { media_type: String, size: Option<u64>, caption: Option<String>, reference: Option<String> },
        File { name: String, text: String },
        Unreadable { why: Unreadable },
        Welcomed,
        Moved { to: RoomId },
        Gone,
    }
);

record_enum!(UnreadableRecord = Unreadable { NoKey, UnknownKind, TooLarge });

/// A message to send, with what is known of its delivery so far.
#[derive(Deserialize, Serialize)]
pub(in crate::store) struct OutboundRecord {
    pub(in crate::store) key: String,
    pub(in crate::store) room: RoomId,
    kind: <Kind as Recorded>::Record,
    pub(in crate::store) re: Option<EventId>,
    thread: Option<EventId>,
    body: BodyRecord,
    pub(in crate::store) mentions: Vec<PersonId>,
    use_by: Option<DateTime<Utc>>,
    made: DateTime<Utc>,
    pub(in crate::store) first_attempt: Option<DateTime<Utc>>,
    pub(in crate::store) device: Option<String>,
    pub(in crate::store) attempts: u32,
    /// What a reaction or a reply to it is about.
    pub(in crate::store) about: Option<String>,
}

record_enum!(KindRecord = Kind { Answer, Brief, Alert, Acknowledgement });

#[derive(Deserialize, Serialize)]
#[serde(tag = "body", rename_all = "snake_case")]
enum BodyRecord {
    Words {
        text: String,
        html: String,
    },
    Reaction {
        reaction: String,
    },
    Picture {
        #[serde(with = "hex")]
        png: Vec<u8>,
        caption: String,
    },
    Withdraw {
        of: EventId,
    },
}

impl OutboundRecord {
    /// A message nobody has tried to send yet.
    pub(in crate::store) fn new(outbound: &Outbound, about: Option<String>) -> Self {
        let Outbound { key, room, kind, re, thread, body, mentions, use_by, made } = outbound.clone();
        Self {
            key,
            room,
            kind: kind.to_record(),
            re,
            thread,
            body: match body {
                Body::Words { text, html } => BodyRecord::Words { text, html },
                Body::Reaction { key } => BodyRecord::Reaction { reaction: key },
                Body::Picture { png, caption } => BodyRecord::Picture { png, caption },
                Body::Withdraw { of } => BodyRecord::Withdraw { of },
            },
            mentions,
            use_by,
            made,
            first_attempt: None,
            device: None,
            attempts: 0,
            about,
        }
    }
}

impl From<OutboundRecord> for Waiting {
    fn from(record: OutboundRecord) -> Self {
        Waiting {
            outbound: Outbound {
                key: record.key,
                room: record.room,
                kind: Kind::of_record(record.kind),
                re: record.re,
                thread: record.thread,
                body: match record.body {
                    BodyRecord::Words { text, html } => Body::Words { text, html },
                    BodyRecord::Reaction { reaction } => Body::Reaction { key: reaction },
                    BodyRecord::Picture { png, caption } => Body::Picture { png, caption },
                    BodyRecord::Withdraw { of } => Body::Withdraw { of },
                },
                mentions: record.mentions,
                use_by: record.use_by,
                made: record.made,
            },
            first_attempt: record.first_attempt,
            device: record.device,
            attempts: record.attempts,
        }
    }
}

/// Where a key stands; it is never used again, whatever became of its message.
#[derive(Deserialize, Serialize)]
#[serde(tag = "outcome", rename_all = "snake_case")]
pub(in crate::store) enum SentRecord {
    /// It waits in this row of the outbox.
    Waiting {
        row: u64,
    },
    Delivered {
        event: Option<EventId>,
    },
    Abandoned {
        why: String,
    },
}

/// What a message of the bot's own was about, by its event.
#[derive(Deserialize, Serialize)]
pub(in crate::store) struct AboutRecord {
    pub(in crate::store) about: String,
}

/// That an event was worked through.
#[derive(Deserialize, Serialize)]
pub(in crate::store) struct SeenRecord {}
