//! Messages whose key has not come yet. They wait, on disk, and are read as soon as the key is there; if that
//! takes long, the sender is told once.

use chrono::{DateTime, TimeDelta, Utc};
use matrix_sdk::Client;
use matrix_sdk::ruma::{EventId, RoomId};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::{MatrixError, Settings, sync};
use crate::identity;
use crate::post::{Content, Inbound, Mailroom, Unreadable};

const WAITING: &str = "matrix/locked/";
/// One word for each session of keys, not for each message.
const TOLD: &str = "matrix/told-locked/";
/// Keys usually come within seconds; after this the sender is told.
const TELL_AFTER: TimeDelta = TimeDelta::seconds(20);
/// After this nobody waits for an answer any more.
const GIVE_UP_AFTER: TimeDelta = TimeDelta::hours(48);

#[derive(Deserialize, Serialize)]
struct Locked {
    room: String,
    session: String,
    since: DateTime<Utc>,
    /// The event as it came, for its sender and time.
    event: Value,
}

pub(super) fn is_locked(event: &Value) -> bool {
    event["type"] == "m.room.encrypted" && event["content"]["ciphertext"].is_string()
}

pub(super) fn any_waits(mailroom: &dyn Mailroom) -> Result<bool, MatrixError> {
    Ok(!mailroom.kept(WAITING)?.is_empty())
}

/// Puts a message aside until its key comes.
pub(super) fn keep(mailroom: &dyn Mailroom, room: &str, event: &Value) -> Result<(), MatrixError> {
    let Some(id) = event["event_id"].as_str() else { return Ok(()) };
    let name = format!("{WAITING}{id}");
    if mailroom.knows(&identity::EventId::new(id))?
        || mailroom.kept(&name)?.iter().any(|(known, _)| *known == name)
    {
        return Ok(());
    }
    let locked = Locked {
        room: room.to_owned(),
        session: event["content"]["session_id"].as_str().unwrap_or("").to_owned(),
        since: crate::clock::now(),
        event: event.clone(),
    };
    let bytes = serde_json::to_vec(&locked).unwrap_or_default();
    Ok(mailroom.keep(&name, Some(&bytes))?)
}

/// Tries all that wait, in the order they were sent.
pub(super) async fn retry(
    client: &Client,
    settings: &Settings,
    mailroom: &dyn Mailroom,
) -> Result<(), MatrixError> {
    let mut waiting: Vec<(String, Locked)> = mailroom
        .kept(WAITING)?
        .into_iter()
        .filter_map(|(name, bytes)| Some((name, serde_json::from_slice(&bytes).ok()?)))
        .collect();
    waiting.sort_by_key(|(_, locked)| locked.event["origin_server_ts"].as_i64());
    for (name, locked) in waiting {
        if let Some(event) = opened(client, &locked).await {
            let room = RoomId::parse(&locked.room).ok().and_then(|id| client.get_room(&id));
            if let Some(room) = room {
                mailroom.accept(sync::read_events(client, settings, mailroom, &room, &[event]).await)?;
            }
            mailroom.keep(&name, None)?;
            continue;
        }
        let age = crate::clock::now() - locked.since;
        if age > GIVE_UP_AFTER {
            mailroom.keep(&name, None)?;
        } else if age > TELL_AFTER {
            tell(client, settings, mailroom, &locked).await?;
        }
    }
    Ok(())
}

/// The event, if its key is there by now.
async fn opened(client: &Client, locked: &Locked) -> Option<Value> {
    let room = client.get_room(&RoomId::parse(&locked.room).ok()?)?;
    let id = EventId::parse(locked.event["event_id"].as_str()?).ok()?;
    let event = room.event(&id, None).await.ok()?;
    let value = event.raw().deserialize_as::<Value>().ok()?;
    (!is_locked(&value)).then_some(value)
}

async fn tell(
    client: &Client,
    settings: &Settings,
    mailroom: &dyn Mailroom,
    locked: &Locked,
) -> Result<(), MatrixError> {
    let told = format!("{TOLD}{}", locked.session);
    if mailroom.kept(&told)?.iter().any(|(known, _)| *known == told) {
        return Ok(());
    }
    let room = RoomId::parse(&locked.room).ok().and_then(|id| client.get_room(&id));
    if let Some(room) = room {
        let letters =
            sync::read_events(client, settings, mailroom, &room, std::slice::from_ref(&locked.event)).await;
        // An event of its own: the message itself is still waited for.
        let word = letters.into_iter().map(|letter| Inbound {
            id: identity::EventId::new(format!("{}-locked", letter.id)),
            reply_to: Some(letter.id.clone()),
            content: Content::Unreadable { why: Unreadable::NoKey },
            ..letter
        });
        mailroom.accept(word.collect())?;
    }
    Ok(mailroom.keep(&told, Some(b""))?)
}
