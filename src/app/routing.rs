//! Which garden a message concerns, and whether it is for the bot at all.

use crate::identity::{GardenId, PersonId};
use crate::post::{Addressed, Content, Inbound, RoomKind};
use crate::season::garden::Listening;
use crate::store::Store;

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Route {
    Garden(GardenId),
    /// The person has none yet: this is where set-up begins.
    NewGarden(GardenId),
    /// Not for the bot.
    Nowhere,
}

pub(super) fn route(store: &Store, inbound: &Inbound) -> Route {
    match inbound.room_kind {
        RoomKind::Direct => own(store, &inbound.from),
        RoomKind::Group => in_group(store, inbound),
    }
}

/// The person's own garden; with several, the one they keep comes first, as it was made first.
fn own(store: &Store, person: &PersonId) -> Route {
    match store.gardens_of(person).first() {
        Some(garden) => Route::Garden(garden.clone()),
        None => Route::NewGarden(GardenId::new(format!("of {person}"))),
    }
}

/// In a room of several, a member's own garden that speaks there; else the room's only one. A garden not tied
/// to any room speaks where its people do.
fn in_group(store: &Store, inbound: &Inbound) -> Route {
    let here = store.gardens_in(&inbound.room);
    let mine = store.gardens_of(&inbound.from);
    let garden = mine
        .iter()
        .find(|garden| here.contains(garden))
        .or(if here.len() == 1 { here.first() } else { None })
        .or(mine.first())
        .cloned();
    let Some(garden) = garden else {
        return if is_for_bot(inbound) { own(store, &inbound.from) } else { Route::Nowhere };
    };
    let listens = store
        .facts(&garden, inbound.at, None)
        .ok()
        .flatten()
        .is_some_and(|facts| facts.garden.listening == Listening::ToEverything)
        && here.contains(&garden);
    if listens || is_for_bot(inbound) { Route::Garden(garden) } else { Route::Nowhere }
}

fn is_for_bot(inbound: &Inbound) -> bool {
    // Edits, deletions and reactions concern what they point at, which was for the bot or was not.
    inbound.addressed == Addressed::ToBot
        || matches!(
            inbound.content,
            Content::Edited { .. } | Content::Deleted { .. } | Content::Reacted { .. }
        )
}
