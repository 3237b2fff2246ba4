//! The bot in a Matrix room: one sync loop of our own, a durable inbox before the token moves, an outbox whose
//! keys are transaction ids.
//!
//! The SDK stores its sync token before anyone has seen the events that came with it, so a crash would lose
//! them. We keep the token of what was durably accepted and set the SDK back to it at the start; what comes
//! twice is known by its event id.

mod late_keys;
mod pills;
mod reading;
mod rooms;
mod sending;
mod session;
mod sync;

pub use session::{Enrolled, Secrets, enroll, recover};

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

use matrix_sdk::Client;
use tokio::sync::watch;

use crate::post::{Mailroom, PostError};

/// What the transport needs to know; `config` fills it.
#[derive(Clone, Debug)]
pub struct Settings {
    pub homeserver: String,
    pub user: String,
    /// What the bot answers to in a group room.
    pub name: String,
    /// Its own folder: the session file and the encryption store.
    pub folder: PathBuf,
    pub store_key: Option<PathBuf>,
    pub invited_by: Vec<String>,
    pub rooms: Vec<String>,
    pub reach: Reach,
}

/// Whom the bot encrypts for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    Everyone,
    VerifiedOnly,
}

/// What is wrong, for the operator, with the next step.
#[derive(Debug, thiserror::Error)]
pub enum MatrixError {
    #[error("not enrolled yet; run `leafhold enroll --config FILE` once")]
    NotEnrolled,
    #[error(
        "enrolled already as {user} ({device}); remove {folder} to start over, and then recover with the recovery key"
    )]
    AlreadyEnrolled { user: String, device: String, folder: String },
    #[error("another process uses {folder}; stop that one")]
    Locked { folder: String },
    #[error(
        "the homeserver no longer accepts this device's token; remove {folder} and enroll again with the recovery key"
    )]
    TokenDead { folder: String },
    #[error("matrix.user \"{user}\" is not a user id; it looks like @leafhold:example.org")]
    NotAUser { user: String },
    #[error("{what} {path}: {source}")]
    File { what: &'static str, path: String, source: std::io::Error },
    #[error(
        "{path} does not hold 64 hex digits; let `leafhold enroll` make it, or write 32 random bytes as hex"
    )]
    BadStoreKey { path: String },
    #[error(
        "the session file {path} is damaged ({problem}); remove it and enroll again with the recovery key"
    )]
    BadSession { path: String, problem: String },
    #[error("the homeserver {homeserver}: {problem}")]
    Homeserver { homeserver: String, problem: String },
    #[error(transparent)]
    Post(#[from] PostError),
}

/// What the health page tells of the connection.
#[derive(Debug, Default)]
pub struct Health {
    /// Seconds since 1970 of the last sync that succeeded; 0 before the first.
    last_sync: AtomicI64,
}

impl Health {
    pub fn last_sync(&self) -> Option<chrono::DateTime<chrono::Utc>> {
        let seconds = self.last_sync.load(Ordering::Relaxed);
        if seconds == 0 { None } else { chrono::DateTime::from_timestamp(seconds, 0) }
    }

    fn synced(&self) {
        self.last_sync.store(crate::clock::now().timestamp(), Ordering::Relaxed);
    }
}

/// Runs until told to stop, or until the homeserver refuses this device for good.
pub async fn serve(
    settings: Settings,
    mailroom: Arc<dyn Mailroom>,
    health: Arc<Health>,
    stop: watch::Receiver<bool>,
) -> Result<(), MatrixError> {
    let lock = session::lock(&settings)?;
    let client = session::restore(&settings, mailroom.as_ref()).await?;
    let sending = tokio::spawn(sending::run(client.clone(), Arc::clone(&mailroom), stop.clone()));
    let result = sync::run(&client, &settings, mailroom.as_ref(), &health, stop).await;
    sending.abort();
    drop(lock);
    result
}

/// What `check` asks of the homeserver and the device.
pub async fn inspect(settings: &Settings) -> Result<Vec<(bool, String)>, MatrixError> {
    let _lock = session::lock(settings)?;
    let client = session::open(settings).await?;
    let mut found = Vec::new();
    match client.whoami().await {
        Ok(answer) => {
            found.push((true, format!("homeserver: {} knows {}", settings.homeserver, answer.user_id)))
        }
        Err(error) => {
            found.push((false, format!("homeserver: {error}; is it running, and the token still good?")));
            return Ok(found);
        }
    }
    client.encryption().wait_for_e2ee_initialization_tasks().await;
    found.push(signed(&client).await);
    // A homeserver tells its limits only by refusing, and `check` sends nothing into anyone's room.
    found.push((
        true,
        String::from(
            "rate limit: not told by homeservers; commonly ten messages at once, then one in five seconds. The bot waits as it is told to, answers before reminders; on a server of your own lift it for this user",
        ),
    ));
    Ok(found)
}

async fn signed(client: &Client) -> (bool, String) {
    match client.encryption().get_own_device().await {
        Ok(Some(device)) if device.is_cross_signed_by_owner() => {
            (true, format!("device: {} is cross-signed", device.device_id()))
        }
        Ok(Some(device)) => (
            false,
            format!(
                "device: {} is not cross-signed; clients may refuse it; enroll again with --recovery-key-file",
                device.device_id()
            ),
        ),
        Ok(None) => {
            (false, String::from("device: the homeserver does not know it yet; start `leafhold serve` once"))
        }
        Err(error) => (false, format!("device: {error}")),
    }
}
