//! One login, kept; the encryption store and its key; cross-signing and recovery.

use std::fs::{File, OpenOptions};
use std::io::{Read, Write};
use std::os::unix::fs::OpenOptionsExt;
use std::path::{Path, PathBuf};

use fs4::FileExt;
use matrix_sdk::authentication::matrix::MatrixSession;
use matrix_sdk::encryption::{BackupDownloadStrategy, EncryptionSettings};
use matrix_sdk::ruma::UserId;
use matrix_sdk::store::{StateStoreDataKey, StateStoreDataValue};
use matrix_sdk::{Client, SqliteStoreConfig};

use super::{MatrixError, Reach, Settings};
use crate::post::Mailroom;

/// What enrolment hands over, once.
pub struct Enrolled {
    pub device: String,
    /// Shown to the operator once, never logged. `None` where recovery was set up before.
    pub recovery_key: Option<String>,
}

/// The password, and for a new machine the recovery key.
pub struct Secrets {
    pub password: String,
    pub recovery_key: Option<String>,
}

/// Where the token of what was durably accepted is kept.
const TOKEN: &str = "matrix/token";

/// Logs in once and keeps the session, before anything else is done with it.
pub async fn enroll(settings: &Settings, secrets: &Secrets) -> Result<Enrolled, MatrixError> {
    let _lock = lock(settings)?;
    let path = session_file(settings);
    if path.exists() {
        let session = read_session(&path)?;
        return Err(MatrixError::AlreadyEnrolled {
            user: session.meta.user_id.to_string(),
            device: session.meta.device_id.to_string(),
            folder: settings.folder.display().to_string(),
        });
    }
    // A store without its session can never be used again.
    let leftover = settings.folder.join("encryption");
    if leftover.exists() {
        std::fs::remove_dir_all(&leftover).map_err(|source| file("removing", &leftover, source))?;
    }
    make_store_key(settings)?;
    let client = build(settings).await?;
    let user =
        UserId::parse(&settings.user).map_err(|_| MatrixError::NotAUser { user: settings.user.clone() })?;
    client
        .matrix_auth()
        .login_username(&user, &secrets.password)
        .initial_device_display_name("Leafhold")
        .send()
        .await
        .map_err(|error| homeserver(settings, error))?;
    let session = client.matrix_auth().session().ok_or(MatrixError::NotEnrolled)?;
    write_session(&path, &session)?;
    client.encryption().wait_for_e2ee_initialization_tasks().await;
    let recovery_key = set_up_recovery(&client, settings, secrets).await?;
    Ok(Enrolled { device: session.meta.device_id.to_string(), recovery_key })
}

/// On a new machine: log in as a new device, then bring identity and room keys back.
pub async fn recover(settings: &Settings, secrets: &Secrets) -> Result<Enrolled, MatrixError> {
    enroll(settings, secrets).await
}

async fn set_up_recovery(
    client: &Client,
    settings: &Settings,
    secrets: &Secrets,
) -> Result<Option<String>, MatrixError> {
    let sync = matrix_sdk::config::SyncSettings::new().timeout(std::time::Duration::ZERO);
    client.sync_once(sync).await.map_err(|error| homeserver(settings, error))?;
    let recovery = client.encryption().recovery();
    if let Some(key) = &secrets.recovery_key {
        recovery.recover(key).await.map_err(|error| homeserver(settings, error))?;
        return Ok(None);
    }
    let key =
        recovery.enable().wait_for_backups_to_upload().await.map_err(|error| homeserver(settings, error))?;
    Ok(Some(key))
}

/// Opens the kept session, set back to the token of what was durably accepted.
pub(super) async fn restore(settings: &Settings, mailroom: &dyn Mailroom) -> Result<Client, MatrixError> {
    let session = read_session(&session_file(settings))?;
    let client = build(settings).await?;
    if let Some(token) = accepted_token(mailroom)? {
        client
            .state_store()
            .set_kv_data(StateStoreDataKey::SyncToken, StateStoreDataValue::SyncToken(token))
            .await
            .map_err(|error| homeserver(settings, error))?;
    }
    client.restore_session(session).await.map_err(|error| homeserver(settings, error))?;
    Ok(client)
}

/// Opens the kept session as it is.
pub(super) async fn open(settings: &Settings) -> Result<Client, MatrixError> {
    let session = read_session(&session_file(settings))?;
    let client = build(settings).await?;
    client.restore_session(session).await.map_err(|error| homeserver(settings, error))?;
    Ok(client)
}

/// The token up to which everything was accepted.
pub(super) fn accepted_token(mailroom: &dyn Mailroom) -> Result<Option<String>, MatrixError> {
    let kept = mailroom.kept(TOKEN)?;
    Ok(kept
        .into_iter()
        .find(|(name, _)| name == TOKEN)
        .map(|(_, value)| String::from_utf8_lossy(&value).into_owned()))
}

pub(super) fn keep_token(mailroom: &dyn Mailroom, token: &str) -> Result<(), MatrixError> {
    Ok(mailroom.keep(TOKEN, Some(token.as_bytes()))?)
}

/// Held for as long as the process lives, so that two never share an encryption store.
pub(super) fn lock(settings: &Settings) -> Result<File, MatrixError> {
    std::fs::create_dir_all(&settings.folder).map_err(|source| file("making", &settings.folder, source))?;
    let path = settings.folder.join("lock");
    let lock = OpenOptions::new()
        .create(true)
        .truncate(false)
        .write(true)
        .open(&path)
        .map_err(|source| file("opening", &path, source))?;
    FileExt::try_lock(&lock)
        .map_err(|_| MatrixError::Locked { folder: settings.folder.display().to_string() })?;
    Ok(lock)
}

async fn build(settings: &Settings) -> Result<Client, MatrixError> {
    let key = store_key(settings)?;
    let config =
        SqliteStoreConfig::with_low_memory_config(settings.folder.join("encryption")).key(key.as_ref());
    let builder = Client::builder()
        .homeserver_url(&settings.homeserver)
        .sqlite_store_with_config_and_cache_path(config, None::<PathBuf>)
        .user_agent(concat!("leafhold/", env!("CARGO_PKG_VERSION")))
        .cross_process_store_config(matrix_sdk::cross_process_lock::CrossProcessLockConfig::SingleProcess)
        .with_encryption_settings(EncryptionSettings {
            auto_enable_cross_signing: true,
            auto_enable_backups: true,
            backup_download_strategy: BackupDownloadStrategy::AfterDecryptionFailure,
        });
    let builder = match settings.reach {
        Reach::Everyone => builder,
        Reach::VerifiedOnly => builder.with_room_key_recipient_strategy(
            matrix_sdk_base::crypto::CollectStrategy::IdentityBasedStrategy,
        ),
    };
    builder.build().await.map_err(|error| homeserver(settings, error))
}

fn session_file(settings: &Settings) -> PathBuf {
    settings.folder.join("session.json")
}

fn read_session(path: &Path) -> Result<MatrixSession, MatrixError> {
    let text = match std::fs::read_to_string(path) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Err(MatrixError::NotEnrolled),
        Err(source) => return Err(file("reading", path, source)),
    };
    serde_json::from_str(&text).map_err(|error| MatrixError::BadSession {
        path: path.display().to_string(),
        problem: error.to_string(),
    })
}

/// Whole or not at all, for the owner's eyes only.
fn write_session(path: &Path, session: &MatrixSession) -> Result<(), MatrixError> {
    let text = serde_json::to_string(session).map_err(|error| MatrixError::BadSession {
        path: path.display().to_string(),
        problem: error.to_string(),
    })?;
    write_secret(path, text.as_bytes())
}

fn write_secret(path: &Path, bytes: &[u8]) -> Result<(), MatrixError> {
    let draft = path.with_extension("draft");
    let write = || -> std::io::Result<()> {
        let mut out = OpenOptions::new().write(true).create(true).truncate(true).mode(0o600).open(&draft)?;
        out.write_all(bytes)?;
        out.sync_all()?;
        std::fs::rename(&draft, path)
    };
    write().map_err(|source| file("writing", path, source))
}

fn make_store_key(settings: &Settings) -> Result<(), MatrixError> {
    let Some(path) = &settings.store_key else { return Ok(()) };
    if path.exists() {
        return Ok(());
    }
    let mut bytes = [0u8; 32];
    let random = Path::new("/dev/urandom");
    File::open(random)
        .and_then(|mut source| source.read_exact(&mut bytes))
        .map_err(|source| file("reading", random, source))?;
    let hex: String = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
    write_secret(path, hex.as_bytes())
}

fn store_key(settings: &Settings) -> Result<Option<[u8; 32]>, MatrixError> {
    let Some(path) = &settings.store_key else { return Ok(None) };
    let text = std::fs::read_to_string(path).map_err(|source| file("reading", path, source))?;
    let digits = text.trim().as_bytes();
    let mut key = [0u8; 32];
    let pairs = digits.chunks(2).zip(key.iter_mut());
    let mut read = 0;
    for (pair, byte) in pairs {
        let pair = std::str::from_utf8(pair).ok().and_then(|pair| u8::from_str_radix(pair, 16).ok());
        *byte = pair.ok_or_else(|| MatrixError::BadStoreKey { path: path.display().to_string() })?;
        read += 1;
    }
    if digits.len() == 64 && read == 32 {
        Ok(Some(key))
    } else {
        Err(MatrixError::BadStoreKey { path: path.display().to_string() })
    }
}

fn file(what: &'static str, path: &Path, source: std::io::Error) -> MatrixError {
    MatrixError::File { what, path: path.display().to_string(), source }
}

pub(super) fn homeserver(settings: &Settings, error: impl std::fmt::Display) -> MatrixError {
    MatrixError::Homeserver { homeserver: settings.homeserver.clone(), problem: error.to_string() }
}
