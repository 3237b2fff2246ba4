//! Whom the bot lets invite it, where it goes along, and when it leaves.

use std::time::Duration;

use matrix_sdk::ruma::{OwnedRoomId, RoomId, UserId};
use matrix_sdk::sync::SyncResponse;
use matrix_sdk::{Client, Room};

use super::Settings;
use crate::post::{Content, Inbound, Mailroom};

/// Invitations looked at in one go; a flood of more waits for the next sync.
const MOST_AT_ONCE: usize = 20;
const TRIES: u32 = 6;

/// Joins the rooms it was invited to by someone allowed; refuses the others without a word.
pub(super) fn join_waiting(client: &Client, settings: &Settings, _mailroom: &dyn Mailroom) {
    for room in client.invited_rooms().into_iter().take(MOST_AT_ONCE) {
        let settings = settings.clone();
        tokio::spawn(async move { answer(&room, &settings).await });
    }
}

async fn answer(room: &Room, settings: &Settings) {
    let inviter = match room.invite_details().await {
        Ok(details) => details.inviter_id.to_owned(),
        Err(error) => {
            tracing::debug!(%error, "an invitation without its inviter");
            return;
        }
    };
    if !is_allowed(&inviter, room.room_id(), settings) {
        tracing::info!(room = %room.room_id(), "an invitation was refused");
        if let Err(error) = room.leave().await {
            tracing::debug!(%error, "refusing failed");
        }
        return;
    }
    // The invitation may be seen before the server lets us in.
    let mut pause = Duration::from_secs(1);
    for _ in 0..TRIES {
        match room.join().await {
            Ok(()) => return,
            Err(error) => {
                tracing::debug!(%error, room = %room.room_id(), "joining failed; trying again");
                tokio::time::sleep(pause).await;
                pause *= 2;
            }
        }
    }
    tracing::warn!(room = %room.room_id(), "could not join; invite the bot again");
}

/// "@ana:example.org" allows one person, "*:example.org" a server.
fn is_allowed(inviter: &UserId, room: &RoomId, settings: &Settings) -> bool {
    let person = settings.invited_by.iter().any(|allowed| match allowed.strip_prefix("*:") {
        Some(server) => inviter.server_name().as_str() == server,
        None => inviter.as_str() == allowed,
    });
    let place = settings.rooms.is_empty() || settings.rooms.iter().any(|allowed| room.as_str() == allowed);
    person && place
}

pub(super) fn moved_to(letter: &Inbound) -> Option<OwnedRoomId> {
    match &letter.content {
        Content::Moved { to } => RoomId::parse(to.as_str()).ok(),
        _ => None,
    }
}

/// Goes along to an upgraded room. Whether the old room's power let them move it, the server has checked.
pub(super) fn follow(client: &Client, to: &OwnedRoomId) {
    let (client, to) = (client.clone(), to.clone());
    tokio::spawn(async move {
        let mut pause = Duration::from_secs(1);
        for _ in 0..TRIES {
            match client.join_room_by_id(&to).await {
                Ok(_) => return,
                Err(error) => {
                    tracing::debug!(%error, room = %to, "could not follow yet");
                    tokio::time::sleep(pause).await;
                    pause *= 2;
                }
            }
        }
        tracing::warn!(room = %to, "could not follow the room; invite the bot to the new one");
    });
}

/// Leaves rooms in which it is alone.
pub(super) async fn leave_empty(client: &Client, response: &SyncResponse) {
    for id in response.rooms.joined.keys() {
        let Some(room) = client.get_room(id) else { continue };
        let alone = room.joined_members_count() + room.invited_members_count() == 1;
        if alone && !room.is_tombstoned() && room.are_members_synced() {
            tracing::info!(room = %id, "alone in the room; leaving");
            if let Err(error) = room.leave().await {
                tracing::debug!(%error, "leaving failed");
            }
        }
    }
}
