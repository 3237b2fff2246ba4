//! An outcome into messages to send.

use chrono::{DateTime, Utc};

use super::offers::{About, Offer, offers};
use crate::identity::{EventId, GardenId, PersonId, RoomId};
use crate::language::write::{Voice, caption, write};
use crate::picture;
use crate::post::{Body, Kind, Outbound};
use crate::season::answer::Answer;
use crate::season::facts::{Facts, Message, MessageKind};
use crate::season::outlook::Outlook;
use crate::store::Draft;

/// The reaction that says "noted".
pub(super) const NOTED: &str = "✅";

/// Where an answer goes and what it answers.
pub(super) struct Address<'a> {
    pub(super) room: &'a RoomId,
    pub(super) re: Option<&'a EventId>,
    pub(super) thread: Option<&'a EventId>,
    pub(super) mentions: Vec<PersonId>,
}

pub(super) fn voice(facts: &Facts) -> Voice {
    Voice {
        units: facts.garden.units,
        zone: facts.garden.zone(),
        now: facts.now,
        hemisphere: facts.garden.hemisphere(),
    }
}

pub(super) fn draft(
    message: &Message,
    garden: &GardenId,
    facts: &Facts,
    address: &Address,
    key: String,
) -> Draft {
    let written = write(&message.answers, &voice(facts));
    let body = Body::Words { text: written.text, html: written.html };
    addressed(message, garden, facts, address, key, body, offers(&message.answers))
}

/// A message of one body, to where its answer goes.
fn addressed(
    message: &Message,
    garden: &GardenId,
    facts: &Facts,
    address: &Address,
    key: String,
    body: Body,
    offers: Vec<Offer>,
) -> Draft {
    let about = About { garden: Some(garden.clone()), answers: address.re.cloned(), offers };
    Draft {
        outbound: Outbound {
            key,
            room: address.room.clone(),
            kind: match message.kind {
                MessageKind::Answer => Kind::Answer,
                MessageKind::Brief => Kind::Brief,
                MessageKind::Alert => Kind::Alert,
            },
            re: address.re.cloned(),
            thread: address.thread.cloned(),
            body,
            mentions: address.mentions.clone(),
            use_by: message.use_by,
            made: facts.now,
        },
        about: about.write(),
    }
}

/// The picture that goes with an answer on the days ahead or on the season. One that cannot be drawn is left
/// out: the words have said it all.
pub(super) fn illustration(
    message: &Message,
    garden: &GardenId,
    facts: &Facts,
    address: &Address,
    key: &str,
) -> Option<Draft> {
    let answer =
        message.answers.iter().find(|answer| matches!(answer, Answer::Ahead(_) | Answer::Season(_)))?;
    let outlook = Outlook::of(facts);
    let drawn = match answer {
        Answer::Ahead(_) => picture::week(&outlook.week_chart()),
        _ => picture::season(&outlook.season_chart()),
    };
    let png = drawn.inspect_err(|error| tracing::warn!(%error, "no picture for an answer")).ok()?;
    let body = Body::Picture { png, caption: caption(answer, &facts.garden.name) };
    Some(addressed(message, garden, facts, address, format!("{key}-picture"), body, Vec::new()))
}

pub(super) fn acknowledgement(room: &RoomId, of: &EventId, now: DateTime<Utc>) -> Draft {
    Draft {
        outbound: Outbound {
            key: format!("ack-{of}"),
            room: room.clone(),
            kind: Kind::Acknowledgement,
            re: Some(of.clone()),
            thread: None,
            body: Body::Reaction { key: NOTED.to_owned() },
            mentions: Vec::new(),
            use_by: None,
            made: now,
        },
        about: None,
    }
}
