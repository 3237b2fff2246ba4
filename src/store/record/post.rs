//! Messages on their way in and out.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use crate::identity::{EventId, PersonId, RoomId};
use crate::post::{Addressed, Body, Content, Inbound, Kind, Outbound, RoomKind, Unreadable, Waiting};

/// Mirrors one of `post`'s enums with names of its own on disk, and converts both ways.
macro_rules! mirror {
    ($record:ident = $of:ident { $($variant:ident),+ }) => {
        #[derive(Clone, Copy, Deserialize, Serialize)]
        #[serde(rename_all = "snake_case")]
        enum $record {
            $($variant),+
        }

        impl From<$of> for $record {
            fn from(of: $of) -> Self {
                match of {
                    $($of::$variant => $record::$variant),+
                }
            }
        }

        impl From<$record> for $of {
            fn from(record: $record) -> Self {
                match record {
                    $($record::$variant => $of::$variant),+
                }
            }
        }
    };
}
mirror!(RoomKindRecord = RoomKind { Direct, Group });
mirror!(AddressedRecord = Addressed { ToBot, ToRoom });
mirror!(KindRecord = Kind { Answer, Brief, Alert, Acknowledgement });
mirror!(UnreadableRecord = Unreadable { NoKey, UnknownKind, TooLarge });

#[derive(Deserialize, Serialize)]
pub(in crate::store) struct InboundRecord {
    id: EventId,
    room: RoomId,
    room_kind: RoomKindRecord,
    from: PersonId,
    called: Option<String>,
    at: DateTime<Utc>,
    addressed: AddressedRecord,
    reply_to: Option<EventId>,
    thread: Option<EventId>,
    content: ContentRecord,
}

#[derive(Deserialize, Serialize)]
#[serde(tag = "content", rename_all = "snake_case")]
enum ContentRecord {
    Said { text: String },
    Edited { of: EventId, text: String },
    Deleted { of: EventId },
    Reacted { to: EventId, key: String },
    Located { geo: String, caption: Option<String> },
    Photo { media_type: String, size: Option<u64>, caption: Option<String>, reference: Option<String> },
    File { name: String, text: String },
    Unreadable { why: UnreadableRecord },
    Welcomed,
    Moved { to: RoomId },
    Gone,
}

impl From<&Inbound> for InboundRecord {
    fn from(inbound: &Inbound) -> Self {
        Self {
            id: inbound.id.clone(),
            room: inbound.room.clone(),
            room_kind: inbound.room_kind.into(),
            from: inbound.from.clone(),
            called: inbound.called.clone(),
            at: inbound.at,
            addressed: inbound.addressed.into(),
            reply_to: inbound.reply_to.clone(),
            thread: inbound.thread.clone(),
            content: match inbound.content.clone() {
                Content::Said { text } => ContentRecord::Said { text },
                Content::Edited { of, text } => ContentRecord::Edited { of, text },
                Content::Deleted { of } => ContentRecord::Deleted { of },
                Content::Reacted { to, key } => ContentRecord::Reacted { to, key },
                Content::Located { geo, caption } => ContentRecord::Located { geo, caption },
                Content::Photo { media_type, size, caption, reference } => {
                    ContentRecord::Photo { media_type, size, caption, reference }
                }
                Content::File { name, text } => ContentRecord::File { name, text },
                Content::Unreadable { why } => ContentRecord::Unreadable { why: why.into() },
                Content::Welcomed => ContentRecord::Welcomed,
                Content::Moved { to } => ContentRecord::Moved { to },
                Content::Gone => ContentRecord::Gone,
            },
        }
    }
}

impl From<InboundRecord> for Inbound {
    fn from(record: InboundRecord) -> Self {
        Self {
            id: record.id,
            room: record.room,
            room_kind: record.room_kind.into(),
            from: record.from,
            called: record.called,
            at: record.at,
            addressed: record.addressed.into(),
            reply_to: record.reply_to,
            thread: record.thread,
            content: match record.content {
                ContentRecord::Said { text } => Content::Said { text },
                ContentRecord::Edited { of, text } => Content::Edited { of, text },
                ContentRecord::Deleted { of } => Content::Deleted { of },
                ContentRecord::Reacted { to, key } => Content::Reacted { to, key },
                ContentRecord::Located { geo, caption } => Content::Located { geo, caption },
                ContentRecord::Photo { media_type, size, caption, reference } => {
                    Content::Photo { media_type, size, caption, reference }
                }
                ContentRecord::File { name, text } => Content::File { name, text },
                ContentRecord::Unreadable { why } => Content::Unreadable { why: why.into() },
                ContentRecord::Welcomed => Content::Welcomed,
                ContentRecord::Moved { to } => Content::Moved { to },
                ContentRecord::Gone => Content::Gone,
            },
        }
    }
}

#[derive(Deserialize, Serialize)]
pub(in crate::store) struct OutboundRecord {
    key: String,
    room: RoomId,
    kind: KindRecord,
    re: Option<EventId>,
    thread: Option<EventId>,
    body: BodyRecord,
    mentions: Vec<PersonId>,
    use_by: Option<DateTime<Utc>>,
    made: DateTime<Utc>,
    first_attempt: Option<DateTime<Utc>>,
    device: Option<String>,
    attempts: u32,
    /// What a reaction or a reply to it is about.
    #[serde(default)]
    pub(in crate::store) about: Option<String>,
}

#[derive(Deserialize, Serialize)]
#[serde(tag = "body", rename_all = "snake_case")]
enum BodyRecord {
    Words { text: String, html: String },
    Reaction { reaction: String },
    Picture { png: Vec<u8>, caption: String },
    Withdraw { of: EventId },
}

impl OutboundRecord {
    pub(in crate::store) fn new(waiting: &Waiting, about: Option<String>) -> Self {
        let outbound = &waiting.outbound;
        Self {
            key: outbound.key.clone(),
            room: outbound.room.clone(),
            kind: outbound.kind.into(),
            re: outbound.re.clone(),
            thread: outbound.thread.clone(),
            body: match outbound.body.clone() {
                Body::Words { text, html } => BodyRecord::Words { text, html },
                Body::Reaction { key } => BodyRecord::Reaction { reaction: key },
                Body::Picture { png, caption } => BodyRecord::Picture { png, caption },
                Body::Withdraw { of } => BodyRecord::Withdraw { of },
            },
            mentions: outbound.mentions.clone(),
            use_by: outbound.use_by,
            made: outbound.made,
            first_attempt: waiting.first_attempt,
            device: waiting.device.clone(),
            attempts: waiting.attempts,
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
                kind: record.kind.into(),
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
