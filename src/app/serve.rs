//! The bot in the room: transport, desk and feed, side by side until told to stop.

use std::sync::Arc;

use chrono::{DateTime, TimeDelta, Utc};
use tokio::net::TcpListener;
use tokio::sync::watch;

use super::desk::{Desk, DeskError};
use super::feed::{Keeper, KeeperError, Places};
use super::{Sky, health};
use crate::clock;
use crate::config::{Config, Encryption};
use crate::forecast::Policy;
use crate::identity::EventId;
use crate::post::{Inbound, Mailroom};
use crate::season::facts::Errand;
use crate::store::{Store, StoreError};
use crate::transport::matrix::{self, Health, MatrixError, Reach};

#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    #[error("the configuration has no [matrix] part; config-example/leafhold.toml shows one")]
    NoMatrix,
    #[error(transparent)]
    Matrix(#[from] MatrixError),
    #[error(transparent)]
    Store(#[from] StoreError),
    #[error(transparent)]
    Desk(#[from] DeskError),
    #[error(transparent)]
    Feed(#[from] KeeperError),
    #[error("cannot listen on {address}: {source}; is another leafhold running, or the port taken?")]
    Listen { address: String, source: std::io::Error },
}

/// The transport's settings from the configuration.
pub fn matrix_settings(config: &Config) -> Result<matrix::Settings, ServeError> {
    let matrix = config.matrix.as_ref().ok_or(ServeError::NoMatrix)?;
    Ok(matrix::Settings {
        homeserver: matrix.homeserver.clone(),
        user: matrix.user.clone(),
        name: matrix.name.clone(),
        folder: config.data.join("matrix"),
        store_key: matrix.store_key_file.clone(),
        invited_by: matrix.invited_by.clone(),
        rooms: matrix.rooms.clone(),
        reach: match matrix.encryption {
            Encryption::ReachEveryone => Reach::Everyone,
            Encryption::VerifiedOnly => Reach::VerifiedOnly,
        },
    })
}

/// Runs until `stop` says so, or something fails for good.
pub async fn serve(config: &Config, stop: watch::Receiver<bool>) -> Result<(), ServeError> {
    let settings = matrix_settings(config)?;
    let store = Store::open(&config.data.join("journal"))?;
    let desk = Desk::new(store.clone(), Sky::Stored, settings.name.clone()).with_pictures();
    let keeper = Keeper::new(&config.weather, store.clone(), Policy::default(), clock::now())?;
    let places = Places::new(&config.weather, Policy::default())?;
    let health = Arc::new(Health::default());
    let page = match config.operation.listen.as_str() {
        "" => None,
        address => {
            let listener = TcpListener::bind(address)
                .await
                .map_err(|source| ServeError::Listen { address: address.to_owned(), source })?;
            Some(tokio::spawn(health::serve(listener, store.clone(), Arc::clone(&health))))
        }
    };
    tracing::info!(gardens = store.gardens().len(), "started");
    let mailroom: Arc<dyn Mailroom> = Arc::new(store.clone());
    let result = tokio::select! {
        result = matrix::serve(settings, mailroom, health, stop.clone()) => result.map_err(Into::into),
        result = work(&desk, &places, &store) => result,
        result = refresh(keeper) => result,
    };
    if let Some(page) = page {
        page.abort();
    }
    tracing::info!("stopped");
    result
}

/// Works through the inbox in order, and looks at each garden when it wants to be looked at.
async fn work(desk: &Desk, places: &Places, store: &Store) -> Result<(), ServeError> {
    let mut changes = store.changes();
    loop {
        changes.mark_unchanged();
        for inbound in store.inbox()? {
            let handled = tokio::task::block_in_place(|| desk.handle(&inbound, clock::now()))?;
            if let Some(Errand::FindPlace { name }) = handled.errand {
                find_place(desk, places, &inbound, &name).await?;
            }
        }
        let now = clock::now();
        for garden in desk.due(now) {
            tokio::task::block_in_place(|| desk.tick(&garden, now))?;
        }
        let wait = until(desk.next_wake());
        tokio::select! {
            () = tokio::time::sleep(wait) => {}
            _ = changes.changed() => {}
        }
    }
}

async fn find_place(desk: &Desk, places: &Places, inbound: &Inbound, name: &str) -> Result<(), ServeError> {
    let found = match places.find(name).await {
        Ok(found) => found,
        Err(error) => {
            tracing::warn!(%error, "a place could not be looked up");
            Vec::new()
        }
    };
    let answer = Inbound { id: EventId::new(format!("{}-places", inbound.id)), ..inbound.clone() };
    desk.offer_places(&answer, name, found, clock::now())?;
    Ok(())
}

/// The feed looks at its schedule at least this often, for gardens come and move.
const LOOK_EVERY: TimeDelta = TimeDelta::seconds(30);

async fn refresh(mut keeper: Keeper) -> Result<(), ServeError> {
    loop {
        keeper.refresh(clock::now()).await?;
        let wait = until(keeper.next()).min(LOOK_EVERY.to_std().unwrap_or_default());
        tokio::time::sleep(wait).await;
    }
}

/// A wait no longer than an hour, so that a clock set anew is noticed.
fn until(moment: Option<DateTime<Utc>>) -> std::time::Duration {
    const LONGEST: TimeDelta = TimeDelta::hours(1);
    const SHORTEST: TimeDelta = TimeDelta::milliseconds(200);
    let wait = moment.map_or(LONGEST, |moment| moment - clock::now());
    wait.clamp(SHORTEST, LONGEST).to_std().unwrap_or_default()
}
