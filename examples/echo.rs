//! The yardstick of the bot's answer time: the same SDK, store settings, sync loop and reply, and nothing else.
//!
//! It answers each text with the same text, without a journal, an inbox, an outbox or a thought. What it needs
//! is what Matrix costs; what the bot needs beyond it is the bot's own. `tests/matrix/echo.py` compares the two.
//!
//!     LEAFHOLD_PASSWORD=... echo HOMESERVER USER FOLDER
//!
//! It logs in anew each time and joins every room it is invited to: for a homeserver on loopback only.

use std::path::PathBuf;
use std::time::Duration;

use anyhow::Context as _;
use matrix_sdk::config::{RequestConfig, SyncSettings};
use matrix_sdk::encryption::{BackupDownloadStrategy, EncryptionSettings};
use matrix_sdk::ruma::api::client::filter::FilterDefinition;
use matrix_sdk::ruma::api::client::sync::sync_events::v3::Filter;
use matrix_sdk::ruma::presence::PresenceState;
use matrix_sdk::ruma::uint;
use matrix_sdk::{Client, Room, SqliteStoreConfig};
use serde_json::{Value, json};

fn main() -> anyhow::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let mut next = || arguments.next().context("echo HOMESERVER USER FOLDER");
    let (homeserver, user, folder) = (next()?, next()?, PathBuf::from(next()?));
    let password = std::env::var("LEAFHOLD_PASSWORD").context("LEAFHOLD_PASSWORD")?;
    tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?.block_on(echo(
        &homeserver,
        &user,
        &password,
        folder,
    ))
}

async fn echo(homeserver: &str, user: &str, password: &str, folder: PathBuf) -> anyhow::Result<()> {
    let client = log_in(homeserver, user, password, folder).await?;
    let own = client.user_id().context("no session")?.to_owned();
    // Talk from before the login is not echoed.
    client.sync_once(settings(Duration::ZERO)).await?;
    loop {
        let response = client.sync_once(settings(Duration::from_secs(30))).await?;
        for (id, update) in &response.rooms.joined {
            let Some(room) = client.get_room(id) else { continue };
            for event in &update.timeline.events {
                let event: Value = event.raw().deserialize_as()?;
                if event["sender"] != own.as_str() {
                    answer(&room, &event).await?;
                }
            }
        }
        for room in client.invited_rooms() {
            room.join().await?;
        }
    }
}

async fn log_in(homeserver: &str, user: &str, password: &str, folder: PathBuf) -> anyhow::Result<Client> {
    // A key costs what it costs the bot: every row of the store is encrypted.
    let store = SqliteStoreConfig::with_low_memory_config(folder).key(Some(&[7; 32]));
    let client = Client::builder()
        .homeserver_url(homeserver)
        .sqlite_store_with_config_and_cache_path(store, None::<PathBuf>)
        .cross_process_store_config(matrix_sdk::cross_process_lock::CrossProcessLockConfig::SingleProcess)
        .with_encryption_settings(EncryptionSettings {
            auto_enable_cross_signing: true,
            auto_enable_backups: true,
            backup_download_strategy: BackupDownloadStrategy::AfterDecryptionFailure,
        })
        .build()
        .await?;
    client.matrix_auth().login_username(user, password).send().await?;
    client.encryption().wait_for_e2ee_initialization_tasks().await;
    Ok(client)
}

fn settings(timeout: Duration) -> SyncSettings {
    let mut filter = FilterDefinition::with_lazy_loading();
    filter.room.timeline.limit = Some(uint!(100));
    SyncSettings::new()
        .timeout(timeout)
        .filter(Filter::FilterDefinition(filter))
        .set_presence(PresenceState::Offline)
}

async fn answer(room: &Room, event: &Value) -> anyhow::Result<()> {
    if event["type"] != "m.room.message" || event["content"]["msgtype"] != "m.text" {
        return Ok(());
    }
    let content = json!({
        "msgtype": "m.notice",
        "body": event["content"]["body"],
        "m.mentions": {},
        "m.relates_to": { "m.in_reply_to": { "event_id": event["event_id"] } },
    });
    let config = RequestConfig::new().retry_limit(2).timeout(Duration::from_secs(30));
    room.send_raw("m.room.message", content).with_request_config(config).await?;
    Ok(())
}
