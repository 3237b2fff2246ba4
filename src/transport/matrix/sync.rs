//! The loop: sync, accept what came, remember how far, and only then go on.

use std::time::Duration;

use matrix_sdk::config::SyncSettings;
use matrix_sdk::room::MessagesOptions;
use matrix_sdk::ruma::UInt;
use matrix_sdk::ruma::api::client::filter::FilterDefinition;
use matrix_sdk::ruma::api::client::sync::sync_events::v3::Filter;
use matrix_sdk::ruma::api::error::ErrorKind;
use matrix_sdk::ruma::presence::PresenceState;
use matrix_sdk::sync::{SyncResponse, Timeline};
use matrix_sdk::{Client, Room};
use serde_json::Value;
use tokio::sync::watch;

use super::reading::{self, Place};
use super::{Health, MatrixError, Settings, late_keys, rooms, sending, session};
use crate::post::{Inbound, Mailroom, RoomKind};

/// As many events of a room as a sync brings; the rest is fetched page by page.
const TIMELINE: u32 = 100;
/// How far back a gap is filled.
const MOST_BACKFILL: usize = 1_000;
const LONG_POLL: Duration = Duration::from_secs(30);
const LONGEST_PAUSE: Duration = Duration::from_secs(60);

pub(super) async fn run(
    client: &Client,
    settings: &Settings,
    mailroom: &dyn Mailroom,
    health: &Health,
    mut stop: watch::Receiver<bool>,
) -> Result<(), MatrixError> {
    let mut first = true;
    let mut pause = Duration::from_millis(500);
    rooms::join_waiting(client, settings, mailroom);
    while !*stop.borrow() {
        // While something waits for its key it is looked at more often.
        let timeout = match () {
            () if first => Duration::ZERO,
            () if late_keys::any_waits(mailroom)? => Duration::from_secs(3),
            () => LONG_POLL,
        };
        let synced = tokio::select! {
            synced = client.sync_once(sync_settings(timeout)) => synced,
            _ = stop.changed() => break,
        };
        match synced {
            Ok(response) => {
                first = false;
                pause = Duration::from_millis(500);
                take_in(client, settings, mailroom, &response).await?;
                late_keys::retry(client, settings, mailroom).await?;
                health.synced();
            }
            Err(error) if is_dead(&error) => {
                return Err(MatrixError::TokenDead { folder: settings.folder.display().to_string() });
            }
            Err(error) => {
                tracing::warn!(%error, pause_s = pause.as_secs_f64(), "sync failed; trying again");
                tokio::time::sleep(pause).await;
                pause = (pause * 2).min(LONGEST_PAUSE);
            }
        }
    }
    Ok(())
}

fn sync_settings(timeout: Duration) -> SyncSettings {
    let mut filter = FilterDefinition::with_lazy_loading();
    filter.room.timeline.limit = Some(UInt::from(TIMELINE));
    SyncSettings::new()
        .timeout(timeout)
        .filter(Filter::FilterDefinition(filter))
        .set_presence(PresenceState::Offline)
}

fn is_dead(error: &matrix_sdk::Error) -> bool {
    matches!(error.client_api_error_kind(), Some(ErrorKind::UnknownToken(_)))
}

/// Accepts everything a sync brought, durably, before the token is remembered.
async fn take_in(
    client: &Client,
    settings: &Settings,
    mailroom: &dyn Mailroom,
    response: &SyncResponse,
) -> Result<(), MatrixError> {
    // The first sync of a new device brings old talk along, which is not answered.
    let is_new = session::accepted_token(mailroom)?.is_none();
    if !is_new {
        let mut inbound = Vec::new();
        for (id, update) in &response.rooms.joined {
            if let Some(room) = client.get_room(id) {
                inbound.extend(from_room(client, settings, mailroom, &room, &update.timeline).await);
            }
        }
        for (id, update) in &response.rooms.left {
            if let Some(room) = client.get_room(id) {
                inbound.extend(from_room(client, settings, mailroom, &room, &update.timeline).await);
            }
        }
        for moved in inbound.iter().filter_map(rooms::moved_to) {
            rooms::follow(client, &moved);
        }
        if !inbound.is_empty() {
            mailroom.accept(inbound)?;
        }
    }
    session::keep_token(mailroom, &response.next_batch)?;
    if !response.rooms.invited.is_empty() {
        rooms::join_waiting(client, settings, mailroom);
    }
    rooms::leave_empty(client, response).await;
    Ok(())
}

/// A room's new events, oldest first, the gap before them filled.
async fn from_room(
    client: &Client,
    settings: &Settings,
    mailroom: &dyn Mailroom,
    room: &Room,
    timeline: &Timeline,
) -> Vec<Inbound> {
    let mut events: Vec<Value> = Vec::new();
    if timeline.limited
        && let Some(from) = &timeline.prev_batch
    {
        events.extend(backfill(mailroom, room, from).await);
    }
    events.extend(timeline.events.iter().filter_map(|event| event.raw().deserialize_as::<Value>().ok()));
    events.retain(|event| {
        let locked = late_keys::is_locked(event);
        if locked && let Err(error) = late_keys::keep(mailroom, room.room_id().as_str(), event) {
            tracing::error!(%error, "a locked message could not be kept");
        }
        !locked
    });
    read_events(client, settings, mailroom, room, &events).await
}

/// Readable events of a room as what happened there.
pub(super) async fn read_events(
    client: &Client,
    settings: &Settings,
    mailroom: &dyn Mailroom,
    room: &Room,
    events: &[Value],
) -> Vec<Inbound> {
    let own_user = client.user_id().map(ToString::to_string).unwrap_or_default();
    let place = Place {
        room: room.room_id().as_str(),
        kind: kind_of(room),
        own_user: &own_user,
        own_name: &settings.name,
        is_own_event: &|event| sending::is_own(mailroom, event),
    };
    let mut inbound: Vec<Inbound> =
        events.iter().filter_map(|event| reading::inbound(event, &place)).collect();
    for letter in &mut inbound {
        letter.called = called(room, letter.from.as_str()).await;
    }
    inbound
}

/// Pages back from a gap until something known, a bound, or the beginning.
async fn backfill(mailroom: &dyn Mailroom, room: &Room, from: &str) -> Vec<Value> {
    let mut found: Vec<Value> = Vec::new();
    let mut token = Some(from.to_owned());
    while let Some(from) = token.take() {
        let mut options = MessagesOptions::backward().from(Some(from.as_str()));
        options.limit = UInt::from(TIMELINE);
        let page = match room.messages(options).await {
            Ok(page) => page,
            Err(error) => {
                tracing::warn!(%error, room = %room.room_id(), "a gap could not be filled");
                break;
            }
        };
        for event in &page.chunk {
            let Ok(value) = event.raw().deserialize_as::<Value>() else { continue };
            let known = value["event_id"]
                .as_str()
                .is_some_and(|id| mailroom.knows(&crate::identity::EventId::new(id)).unwrap_or(false));
            if known {
                found.reverse();
                return found;
            }
            found.push(value);
        }
        if found.len() >= MOST_BACKFILL || page.chunk.is_empty() {
            break;
        }
        token = page.end;
    }
    found.reverse();
    found
}

/// Two people are a conversation, more are a room: by who is there, not by a flag others set.
fn kind_of(room: &Room) -> RoomKind {
    if room.joined_members_count() + room.invited_members_count() <= 2 {
        RoomKind::Direct
    } else {
        RoomKind::Group
    }
}

async fn called(room: &Room, user: &str) -> Option<String> {
    let user = matrix_sdk::ruma::UserId::parse(user).ok()?;
    let member = room.get_member_no_sync(&user).await.ok()??;
    member.display_name().map(str::to_owned)
}
