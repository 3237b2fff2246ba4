//! Events of a room into what happened there. Read from the raw JSON, so that a malformed event is set aside
//! and not lost with its neighbours.

use chrono::{DateTime, Utc};
use serde_json::Value;

use super::pills::with_addresses;
use crate::identity::{EventId, PersonId, RoomId};
use crate::post::{Addressed, Content, Inbound, RoomKind, Unreadable};

/// What is known of the room an event stands in.
pub(super) struct Place<'a> {
    pub(super) room: &'a str,
    pub(super) kind: RoomKind,
    pub(super) own_user: &'a str,
    pub(super) own_name: &'a str,
    pub(super) is_own_event: &'a dyn Fn(&str) -> bool,
}

const LARGEST_PHOTO: u64 = 20 * 1024 * 1024;

/// `None` for what is none of the bot's business: its own events, other bots' notices, state it does not follow.
pub(super) fn inbound(event: &Value, place: &Place) -> Option<Inbound> {
    let sender = event["sender"].as_str()?;
    if sender == place.own_user {
        return own(event, place);
    }
    let content = content(event, place)?;
    let relation = &event["content"]["m.relates_to"];
    let reply_to = relation["m.in_reply_to"]["event_id"].as_str();
    let thread = (relation["rel_type"] == "m.thread").then(|| relation["event_id"].as_str()).flatten();
    Some(Inbound {
        id: EventId::new(event["event_id"].as_str()?),
        room: RoomId::new(place.room),
        room_kind: place.kind,
        from: PersonId::new(sender),
        called: None,
        at: moment(event)?,
        addressed: addressed(event, &content, reply_to, place),
        reply_to: reply_to.map(EventId::new),
        thread: thread.map(EventId::new),
        content,
    })
}

/// Of the bot's own events only its leaving matters.
fn own(event: &Value, place: &Place) -> Option<Inbound> {
    let gone = event["type"] == "m.room.member"
        && event["state_key"].as_str() == Some(place.own_user)
        && matches!(event["content"]["membership"].as_str(), Some("leave" | "ban"));
    gone.then(|| gone_from(event, place)).flatten()
}

fn gone_from(event: &Value, place: &Place) -> Option<Inbound> {
    Some(Inbound {
        id: EventId::new(event["event_id"].as_str()?),
        room: RoomId::new(place.room),
        room_kind: place.kind,
        from: PersonId::new(event["sender"].as_str()?),
        called: None,
        at: moment(event)?,
        addressed: Addressed::ToRoom,
        reply_to: None,
        thread: None,
        content: Content::Gone,
    })
}

fn moment(event: &Value) -> Option<DateTime<Utc>> {
    DateTime::from_timestamp_millis(event["origin_server_ts"].as_i64()?)
}

fn content(event: &Value, place: &Place) -> Option<Content> {
    let content = &event["content"];
    match event["type"].as_str()? {
        "m.room.message" => message(content, place.own_user),
        "m.reaction" => {
            let relation = &content["m.relates_to"];
            Some(Content::Reacted {
                to: EventId::new(relation["event_id"].as_str()?),
                key: relation["key"].as_str()?.to_owned(),
            })
        }
        "m.room.redaction" => {
            // Where it stands depends on the room version.
            let of = content["redacts"].as_str().or_else(|| event["redacts"].as_str())?;
            Some(Content::Deleted { of: EventId::new(of) })
        }
        "m.room.tombstone" => Some(Content::Moved { to: RoomId::new(content["replacement_room"].as_str()?) }),
        "m.room.member" if event["state_key"].as_str() == Some(place.own_user) => {
            matches!(content["membership"].as_str(), Some("leave" | "ban")).then_some(Content::Gone)
        }
        "m.room.encrypted" => Some(Content::Unreadable { why: Unreadable::NoKey }),
        "m.sticker" | "m.poll.start" | "org.matrix.msc3381.poll.start" => {
            Some(Content::Unreadable { why: Unreadable::UnknownKind })
        }
        _ => None,
    }
}

fn message(content: &Value, own_user: &str) -> Option<Content> {
    // A redacted message has no kind left.
    let kind = content["msgtype"].as_str()?;
    let relation = &content["m.relates_to"];
    if relation["rel_type"] == "m.replace" {
        let anew = &content["m.new_content"];
        let text = with_addresses(anew["body"].as_str()?.to_owned(), anew, own_user);
        return Some(Content::Edited { of: EventId::new(relation["event_id"].as_str()?), text });
    }
    let body = content["body"].as_str().unwrap_or("").to_owned();
    match kind {
        "m.text" | "m.emote" => Some(Content::Said { text: with_addresses(body, content, own_user) }),
        // Never answered, by the specification: that is how bots do not talk to each other for ever.
        "m.notice" => None,
        "m.location" => {
            let geo = content["geo_uri"]
                .as_str()
                .or_else(|| content["org.matrix.msc3488.location"]["uri"].as_str())?;
            Some(Content::Located { geo: geo.to_owned(), caption: None })
        }
        "m.image" => Some(photo(content, body)),
        "m.file" => Some(Content::Unreadable { why: Unreadable::UnknownKind }),
        _ => Some(Content::Unreadable { why: Unreadable::UnknownKind }),
    }
}

/// A photo is kept by reference only; its bytes stay on the homeserver, encrypted where the room is.
fn photo(content: &Value, body: String) -> Content {
    let media_type = content["info"]["mimetype"].as_str().unwrap_or("image/unknown").to_owned();
    let size = content["info"]["size"].as_u64();
    if size.is_some_and(|size| size > LARGEST_PHOTO) {
        return Content::Unreadable { why: Unreadable::TooLarge };
    }
    // With a file name of its own, the body is what the sender wrote under the photo.
    let caption = content["filename"].as_str().filter(|name| *name != body).map(|_| body);
    let reference = content["url"].as_str().or_else(|| content["file"]["url"].as_str()).map(str::to_owned);
    Content::Photo { media_type, size, caption, reference }
}

fn addressed(event: &Value, content: &Content, reply_to: Option<&str>, place: &Place) -> Addressed {
    let text = match content {
        Content::Said { text } | Content::Edited { text, .. } => text.as_str(),
        Content::Photo { caption: Some(caption), .. } => caption.as_str(),
        _ => "",
    };
    let named = text.to_lowercase().contains(&place.own_name.to_lowercase());
    let mentioned = event["content"]["m.mentions"]["user_ids"]
        .as_array()
        .is_some_and(|users| users.iter().any(|user| user.as_str() == Some(place.own_user)));
    let replied = reply_to.is_some_and(|event| (place.is_own_event)(event));
    if place.kind == RoomKind::Direct || named || mentioned || replied {
        Addressed::ToBot
    } else {
        Addressed::ToRoom
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn read(event: &Value) -> Option<Inbound> {
        let place = Place {
            room: "!plot:example.org",
            kind: RoomKind::Group,
            own_user: "@leafhold:example.org",
            own_name: "leafhold",
            is_own_event: &|event| event == "$own",
        };
        inbound(event, &place)
    }

    fn event(kind: &str, content: Value) -> Value {
        json!({
            "type": kind, "event_id": "$e", "sender": "@ana:example.org", "origin_server_ts": 1_373_500_000_000_i64,
            "content": content,
        })
    }

    #[test]
    fn events_of_each_kind_are_read() {
        let said = |text: &str| Some(Content::Said { text: text.to_owned() });
        let rows = [
            (event("m.room.message", json!({"msgtype": "m.text", "body": "no rust"})), said("no rust")),
            (event("m.room.message", json!({"msgtype": "m.notice", "body": "beep"})), None),
            (
                event(
                    "m.room.message",
                    json!({"msgtype": "m.text", "body": "* x", "m.new_content": {"body": "x"},
                    "m.relates_to": {"rel_type": "m.replace", "event_id": "$old"}}),
                ),
                Some(Content::Edited { of: EventId::new("$old"), text: String::from("x") }),
            ),
            (
                event(
                    "m.reaction",
                    json!({"m.relates_to": {"rel_type": "m.annotation", "event_id": "$own", "key": "👍"}}),
                ),
                Some(Content::Reacted { to: EventId::new("$own"), key: String::from("👍") }),
            ),
            (
                event("m.room.redaction", json!({"redacts": "$old"})),
                Some(Content::Deleted { of: EventId::new("$old") }),
            ),
            (
                event(
                    "m.room.message",
                    json!({"msgtype": "m.location", "body": "here", "geo_uri": "geo:30.69,-88.04"}),
                ),
                Some(Content::Located { geo: String::from("geo:30.69,-88.04"), caption: None }),
            ),
            (
                event(
                    "m.room.message",
                    json!({"msgtype": "m.image", "body": "rust on Celeste", "filename": "a.jpg",
                    "file": {"url": "mxc://example.org/a"}, "info": {"mimetype": "image/jpeg", "size": 1000}}),
                ),
                Some(Content::Photo {
                    media_type: String::from("image/jpeg"),
                    size: Some(1000),
                    caption: Some(String::from("rust on Celeste")),
                    reference: Some(String::from("mxc://example.org/a")),
                }),
            ),
            (event("m.room.message", json!({})), None),
            (event("m.room.message", json!({"msgtype": 7})), None),
            (event("m.room.topic", json!({"topic": "figs"})), None),
        ];
        for (event, want) in rows {
            assert_eq!(read(&event).map(|inbound| inbound.content), want, "{event}");
        }
        assert_eq!(read(&json!({"type": "m.room.message"})), None, "an event without a sender");
        assert_eq!(read(&json!(null)), None);
    }

    #[test]
    fn what_names_mentions_or_answers_the_bot_is_for_it() {
        let rows = [
            (json!({"msgtype": "m.text", "body": "Leafhold, no rust"}), Addressed::ToBot),
            (json!({"msgtype": "m.text", "body": "no rust"}), Addressed::ToRoom),
            (
                json!({"msgtype": "m.text", "body": "no rust", "m.mentions": {"user_ids": ["@leafhold:example.org"]}}),
                Addressed::ToBot,
            ),
            (
                json!({"msgtype": "m.text", "body": "no rust", "m.relates_to": {"m.in_reply_to": {"event_id": "$own"}}}),
                Addressed::ToBot,
            ),
            (
                json!({"msgtype": "m.text", "body": "no rust", "m.relates_to": {"m.in_reply_to": {"event_id": "$other"}}}),
                Addressed::ToRoom,
            ),
        ];
        for (content, want) in rows {
            let inbound = read(&event("m.room.message", content.clone())).expect("a message");
            assert_eq!(inbound.addressed, want, "{content}");
        }
    }
}
