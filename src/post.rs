//! What comes in and what goes out, as plain values every way of talking shares.
//!
//! A transport turns its own events into [`Inbound`] and delivers [`Outbound`]; it knows nothing
//! of gardens, words or disks. What must survive a crash it gives to a [`Mailroom`], which `app`
//! implements over the store.

use chrono::{DateTime, Utc};

pub use crate::identity::{EventId, PersonId, RoomId};

/// Something that happened in a room.
#[derive(Clone, Debug, PartialEq)]
pub struct Inbound {
    pub id: EventId,
    pub room: RoomId,
    pub room_kind: RoomKind,
    pub from: PersonId,
    /// What the person is called in the room: for words only, never for permission.
    pub called: Option<String>,
    /// When it was sent, by the event itself.
    pub at: DateTime<Utc>,
    pub addressed: Addressed,
    /// The event this one replies to, and the root of the thread it stands in.
    pub reply_to: Option<EventId>,
    pub thread: Option<EventId>,
    pub content: Content,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RoomKind {
    /// One person and the bot: everything said is for the bot.
    Direct,
    /// More than one person: only what names, mentions or answers the bot is for it,
    /// unless the keeper told it to listen.
    Group,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Addressed {
    /// It names, mentions or replies to the bot, or stands in a direct room.
    ToBot,
    ToRoom,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    Said {
        text: String,
    },
    Edited {
        of: EventId,
        text: String,
    },
    Deleted {
        of: EventId,
    },
    Reacted {
        to: EventId,
        key: String,
    },
    /// A shared place, as the URI that came.
    Located {
        geo: String,
        caption: Option<String>,
    },
    /// A picture. The bytes stay where the transport has them; `reference` finds them again.
    Photo {
        media_type: String,
        size: Option<u64>,
        caption: Option<String>,
        reference: Option<String>,
    },
    /// A small text file handed over, such as a list of trees.
    File {
        name: String,
        text: String,
    },
    /// Something that came but cannot be read: an unknown kind, or a key that never arrived.
    Unreadable {
        why: Unreadable,
    },
    /// The bot was let into the room by this person.
    Welcomed,
    /// The room moved to another; settings and waiting messages go along.
    Moved {
        to: RoomId,
    },
    /// The bot is no longer in the room.
    Gone,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    NoKey,
    UnknownKind,
    TooLarge,
}

/// Something to be delivered, once, under its key.
#[derive(Clone, Debug, PartialEq)]
pub struct Outbound {
    /// Stable and unique for one purpose in one room; also the transaction id of a transport.
    pub key: String,
    pub room: RoomId,
    pub kind: Kind,
    /// The event this answers.
    pub re: Option<EventId>,
    pub thread: Option<EventId>,
    pub body: Body,
    /// People who are meant, and so may be woken.
    pub mentions: Vec<PersonId>,
    /// Past this it is not worth sending: a frost alarm at noon helps nobody.
    pub use_by: Option<DateTime<Utc>>,
    pub made: DateTime<Utc>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Answer,
    Brief,
    Alert,
    /// A reaction that says "noted".
    Acknowledgement,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// The same words twice: plain, and in the HTML subset of the Matrix specification.
    Words {
        text: String,
        html: String,
    },
    Reaction {
        key: String,
    },
    Picture {
        png: Vec<u8>,
        caption: String,
    },
    /// Take back an earlier message of the bot's own.
    Withdraw {
        of: EventId,
    },
}

/// An outbound message with what is known of its delivery so far.
#[derive(Clone, Debug, PartialEq)]
pub struct Waiting {
    pub outbound: Outbound,
    pub first_attempt: Option<DateTime<Utc>>,
    /// The device that made the first attempt; a new device is a new scope for transaction ids.
    pub device: Option<String>,
    pub attempts: u32,
}

/// What a transport must be able to keep across a crash. Every call that returns `Ok` is on disk.
pub trait Mailroom: Send + Sync {
    /// Keeps what came in, in order, before the transport moves on. Events known by their id
    /// already are ignored, so handing one over twice is safe.
    fn accept(&self, inbound: Vec<Inbound>) -> Result<(), PostError>;

    /// Whether the event was accepted before.
    fn knows(&self, event: &EventId) -> Result<bool, PostError>;

    /// What waits to be sent, oldest first.
    fn waiting(&self) -> Result<Vec<Waiting>, PostError>;

    /// To be called before the first byte of an attempt leaves.
    fn attempting(&self, key: &str, now: DateTime<Utc>, device: &str) -> Result<(), PostError>;

    fn delivered(&self, key: &str, event: Option<EventId>) -> Result<(), PostError>;

    /// It will never be sent; the reason is kept for the operator.
    fn abandoned(&self, key: &str, why: &str) -> Result<(), PostError>;

    /// A transport's own small notes: a sync token, an event waiting for its key. `None` forgets.
    fn keep(&self, name: &str, value: Option<&[u8]>) -> Result<(), PostError>;

    fn kept(&self, prefix: &str) -> Result<Vec<(String, Vec<u8>)>, PostError>;

    /// Changes whenever there may be something new to send.
    fn changes(&self) -> tokio::sync::watch::Receiver<u64>;
}

/// The mailroom could not keep or find something; the message names what and the next step.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub struct PostError(pub String);
