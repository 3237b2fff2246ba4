//! The outbox, one lane a room, each message under its key as transaction id.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;

use chrono::{DateTime, TimeDelta, Utc};
use futures_util::future::join_all;
use matrix_sdk::attachment::{AttachmentConfig, AttachmentInfo, BaseImageInfo};
use matrix_sdk::config::RequestConfig;
use matrix_sdk::room::MessagesOptions;
use matrix_sdk::room::reply::{EnforceThread, Reply};
use matrix_sdk::ruma::api::error::ErrorKind;
use matrix_sdk::ruma::events::room::message::{AddMentions, ReplyWithinThread, TextMessageEventContent};
use matrix_sdk::ruma::{OwnedTransactionId, RoomId, UInt, uint};
use matrix_sdk::{Client, Room};
use serde_json::{Value, json};
use tokio::sync::watch;

use crate::identity::EventId;
use crate::post::{Body, Kind, Mailroom, PostError, Waiting};

/// The key travels inside the message, so that it can be found again when a transaction id no longer helps.
const KEY_FIELD: &str = "garden.leafhold.key";
/// The server forgets transaction ids after a day.
const REMEMBERED: TimeDelta = TimeDelta::hours(23);
const OWN: &str = "matrix/own/";
const LONGEST_PAUSE: Duration = Duration::from_secs(120);
/// How far a look-back for a message of our own goes.
const LOOK_BACK_PAGES: usize = 5;

/// Sends what waits, whenever something may wait, until stopped.
pub(super) async fn run(client: Client, mailroom: Arc<dyn Mailroom>, mut stop: watch::Receiver<bool>) {
    let mut changes = mailroom.changes();
    let mut pause = Duration::from_millis(200);
    loop {
        let outcome = send_waiting(&client, mailroom.as_ref()).await;
        let wait = match outcome {
            Ok(Progress::Idle) => {
                pause = Duration::from_millis(200);
                Duration::from_secs(30)
            }
            Ok(Progress::Later) | Err(_) => {
                if let Err(error) = outcome {
                    tracing::error!(%error, "the outbox could not be read");
                }
                pause = (pause * 2).min(LONGEST_PAUSE);
                pause
            }
        };
        tokio::select! {
            () = tokio::time::sleep(wait) => {}
            changed = changes.changed() => if changed.is_err() { return },
            _ = stop.changed() => return,
        }
    }
}

enum Progress {
    /// Nothing is left to send.
    Idle,
    /// Something could not be sent yet.
    Later,
}

async fn send_waiting(client: &Client, mailroom: &dyn Mailroom) -> Result<Progress, PostError> {
    let mut lanes: BTreeMap<String, Vec<Waiting>> = BTreeMap::new();
    for waiting in mailroom.waiting()? {
        lanes.entry(waiting.outbound.room.to_string()).or_default().push(waiting);
    }
    if lanes.is_empty() {
        return Ok(Progress::Idle);
    }
    let results = join_all(lanes.into_values().map(|lane| send_lane(client, mailroom, lane))).await;
    let mut progress = Progress::Idle;
    for result in results {
        if let Progress::Later = result? {
            progress = Progress::Later;
        }
    }
    Ok(progress)
}

/// One room's messages in order, answers before reminders; the first that cannot go now holds the lane.
async fn send_lane(
    client: &Client,
    mailroom: &dyn Mailroom,
    mut lane: Vec<Waiting>,
) -> Result<Progress, PostError> {
    lane.sort_by_key(|waiting| waiting.outbound.kind == Kind::Brief);
    for waiting in lane {
        let outbound = &waiting.outbound;
        let now = crate::clock::now();
        if outbound.use_by.is_some_and(|use_by| now > use_by) {
            mailroom.abandoned(&outbound.key, "past its use")?;
            continue;
        }
        let room = RoomId::parse(outbound.room.as_str()).ok().and_then(|id| client.get_room(&id));
        let Some(room) = room else {
            mailroom.abandoned(&outbound.key, "the bot is not in the room")?;
            continue;
        };
        match deliver(client, mailroom, &room, &waiting, now).await {
            Ok(event) => {
                if let Some(event) = &event {
                    mailroom.keep(&format!("{OWN}{event}"), Some(b""))?;
                }
                mailroom.delivered(&outbound.key, event)?;
            }
            Err(Failure::Never(why)) => {
                tracing::warn!(key = outbound.key, why, "a message cannot be sent");
                mailroom.abandoned(&outbound.key, &why)?;
            }
            Err(Failure::NotNow(why)) => {
                tracing::info!(key = outbound.key, why, "sending failed; trying again");
                return Ok(Progress::Later);
            }
            Err(Failure::Post(error)) => return Err(error),
        }
    }
    Ok(Progress::Idle)
}

enum Failure {
    Never(String),
    NotNow(String),
    Post(PostError),
}

async fn deliver(
    client: &Client,
    mailroom: &dyn Mailroom,
    room: &Room,
    waiting: &Waiting,
    now: DateTime<Utc>,
) -> Result<Option<EventId>, Failure> {
    let device = client.device_id().map(ToString::to_string).unwrap_or_default();
    let outbound = &waiting.outbound;
    let forgotten = waiting.first_attempt.is_some_and(|first| now - first > REMEMBERED)
        || waiting.device.as_ref().is_some_and(|known| *known != device);
    if forgotten && let Some(event) = sent_before(room, &outbound.key).await {
        return Ok(Some(event));
    }
    mailroom.attempting(&outbound.key, now, &device).map_err(Failure::Post)?;
    let transaction = transaction_of(&outbound.key);
    let config = RequestConfig::new().retry_limit(2).timeout(Duration::from_secs(30));
    let sent = match &outbound.body {
        Body::Words { text, html } => {
            let content = words(waiting, text, html);
            room.send_raw("m.room.message", content)
                .with_transaction_id(&transaction)
                .with_request_config(config)
                .await
                .map(|sent| Some(sent.response.event_id.to_string()))
        }
        Body::Reaction { key } => {
            let Some(re) = &outbound.re else { return Ok(None) };
            let relation = json!({ "rel_type": "m.annotation", "event_id": re.as_str(), "key": key });
            room.send_raw("m.reaction", json!({ "m.relates_to": relation }))
                .with_transaction_id(&transaction)
                .with_request_config(config)
                .await
                .map(|sent| Some(sent.response.event_id.to_string()))
        }
        Body::Picture { png, caption } => {
            let thread = outbound.thread.as_ref();
            let root = thread.and_then(|root| matrix_sdk::ruma::EventId::parse(root.as_str()).ok());
            let attachment = AttachmentConfig::new()
                .txn_id(transaction)
                .reply(root.map(|event_id| Reply {
                    event_id,
                    enforce_thread: EnforceThread::Threaded(ReplyWithinThread::No),
                    add_mentions: AddMentions::No,
                }))
                .info(AttachmentInfo::Image(picture_size(png)))
                .caption(Some(TextMessageEventContent::plain(caption)));
            room.send_attachment("leafhold.png", &mime::IMAGE_PNG, png.clone(), attachment)
                .await
                .map(|sent| Some(sent.event_id.to_string()))
        }
        Body::Withdraw { of } => {
            let Ok(of) = matrix_sdk::ruma::EventId::parse(of.as_str()) else { return Ok(None) };
            room.redact(&of, None, Some(transaction)).await.map(|_| None).map_err(Into::into)
        }
    };
    sent.map(|event| event.map(EventId::new)).map_err(|error| failure(&error))
}

/// Width and height stand in a PNG's header, so that the room can keep a place of the right shape.
fn picture_size(png: &[u8]) -> BaseImageInfo {
    let at = |from: usize| {
        png.get(from..from + 4)
            .and_then(|bytes| <[u8; 4]>::try_from(bytes).ok())
            .map(|bytes| u32::from_be_bytes(bytes).into())
    };
    BaseImageInfo {
        width: at(16),
        height: at(20),
        size: UInt::try_from(png.len() as u64).ok(),
        ..BaseImageInfo::default()
    }
}

/// What will never go through, and what may.
fn failure(error: &matrix_sdk::Error) -> Failure {
    match error.client_api_error_kind() {
        Some(ErrorKind::TooLarge | ErrorKind::Forbidden | ErrorKind::BadJson | ErrorKind::InvalidParam) => {
            Failure::Never(error.to_string())
        }
        _ => Failure::NotNow(error.to_string()),
    }
}

fn words(waiting: &Waiting, text: &str, html: &str) -> Value {
    let outbound = &waiting.outbound;
    // Answers are notices, which wake nobody; a brief or an alarm is a message.
    let kind = if outbound.kind == Kind::Answer { "m.notice" } else { "m.text" };
    let people: Vec<&str> = outbound.mentions.iter().map(|person| person.as_str()).collect();
    let mut content = json!({
        "msgtype": kind,
        "body": text,
        "format": "org.matrix.custom.html",
        "formatted_body": html,
        "m.mentions": if people.is_empty() { json!({}) } else { json!({ "user_ids": people }) },
    });
    content[KEY_FIELD] = json!(outbound.key);
    if let Some(thread) = &outbound.thread {
        content["m.relates_to"] = json!({ "rel_type": "m.thread", "event_id": thread.as_str() });
        if let Some(re) = &outbound.re {
            content["m.relates_to"]["m.in_reply_to"] = json!({ "event_id": re.as_str() });
        }
    } else if let Some(re) = &outbound.re {
        content["m.relates_to"] = json!({ "m.in_reply_to": { "event_id": re.as_str() } });
    }
    content
}

/// The key is the transaction id; a very long one by its beginning and a sum of all of it.
fn transaction_of(key: &str) -> OwnedTransactionId {
    const LONGEST: usize = 200;
    if key.len() <= LONGEST {
        return OwnedTransactionId::from(key);
    }
    // FNV-1a, 64 bits: stable over builds, which the standard hasher does not promise.
    let sum = key.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |sum, byte| {
        (sum ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    let head: String = key.chars().take(LONGEST / 4).collect();
    OwnedTransactionId::from(format!("{head}-{sum:016x}"))
}

/// Looks back through the room for a message of ours with this key.
async fn sent_before(room: &Room, key: &str) -> Option<EventId> {
    let mut from: Option<String> = None;
    for _ in 0..LOOK_BACK_PAGES {
        let mut options = MessagesOptions::backward().from(from.as_deref());
        options.limit = uint!(100);
        let page = room.messages(options).await.ok()?;
        for event in &page.chunk {
            let value = event.raw().deserialize_as::<Value>().ok()?;
            if value["content"][KEY_FIELD].as_str() == Some(key) {
                return value["event_id"].as_str().map(EventId::new);
            }
        }
        from = Some(page.end?);
    }
    None
}

/// Whether an event was sent by the bot.
pub(super) fn is_own(mailroom: &dyn Mailroom, event: &str) -> bool {
    let name = format!("{OWN}{event}");
    mailroom.kept(&name).is_ok_and(|kept| kept.iter().any(|(known, _)| *known == name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_transaction_ids_and_long_ones_stay_apart() {
        assert_eq!(transaction_of("reply-$e").as_str(), "reply-$e");
        let (one, other) = ("x".repeat(300) + "1", "x".repeat(300) + "2");
        assert_ne!(transaction_of(&one), transaction_of(&other));
        assert_eq!(transaction_of(&one), transaction_of(&one));
        assert!(transaction_of(&one).as_str().len() <= 200);
    }
}
