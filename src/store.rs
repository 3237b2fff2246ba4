//! The journal and what goes with it on disk: commit, flush, then speak.
//!
//! Everything is one sled tree, so that one batch covers journal lines, the "seen" mark of the message that
//! made them and the messages to send: either all of it is there after a crash, or none. A call that changes
//! something returns only when it is flushed. Records are versioned JSON; their bytes are snapshots in the
//! tests, so that no change of format can pass unseen.

mod archive;
mod cache;
mod commit;
mod keys;
mod mailroom;
mod record;
mod weather;

pub use archive::{Restore, Restored};
pub use commit::{Commit, Committed, Draft, GardenChange};
pub use weather::Forecast;

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::watch;

use crate::identity::{GardenId, PersonId, RoomId};
use cache::Cache;

/// A page cache this small keeps the whole bot under 40 MB; a garden's records are a few megabytes.
const CACHE_BYTES: u64 = 8 * 1024 * 1024;

/// The whole store. Clones share it.
#[derive(Clone)]
pub struct Store {
    shared: Arc<Shared>,
}

struct Shared {
    path: PathBuf,
    tree: sled::Tree,
    database: sled::Db,
    /// One writer at a time: numbers are handed out and batches applied under this lock.
    cache: Mutex<Cache>,
    changes: watch::Sender<u64>,
}

/// What went wrong with the store, for the operator.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    #[error(
        "the store {path} is in use by another process; stop that one (a running `leafhold serve`?) or give another folder"
    )]
    InUse { path: String },
    #[error("cannot open the store {path}: {source}; check that the folder exists and may be written to")]
    CannotOpen { path: String, source: sled::Error },
    #[error(
        "the disk under the store failed: {0}; check space and permissions, nothing half-written is kept"
    )]
    Disk(#[from] sled::Error),
    #[error(
        "record {key} was written by a newer leafhold (version {version}); use that one, or restore an export made by this one"
    )]
    TooNew { key: String, version: u64 },
    #[error(
        "record {key} cannot be read: {problem}; `leafhold export` still writes everything out, this record as it is"
    )]
    Damaged { key: String, problem: String },
    #[error("cannot make a record of {what}: {problem}")]
    CannotWrite { what: String, problem: String },
    #[error("line {line} of the export: {problem}; nothing was restored")]
    BadLine { line: usize, problem: String },
    #[error("the store is not empty; give an empty folder, or say --replace to put the export in its place")]
    NotEmpty,
    #[error("a restore into {path} was cut short; remove the folder and restore again")]
    HalfRestored { path: String },
    #[error("cannot read the export: {0}")]
    Unreadable(#[from] std::io::Error),
}

impl Store {
    /// Opens or makes the store in a folder. A second process is refused.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let shown = path.display().to_string();
        let database = open_patiently(path).map_err(|source| match &source {
            sled::Error::Io(error) if is_lock(error) => StoreError::InUse { path: shown.clone() },
            _ => StoreError::CannotOpen { path: shown.clone(), source },
        })?;
        let tree = database.open_tree("leafhold")?;
        if archive::is_half_restored(&tree)? {
            return Err(StoreError::HalfRestored { path: shown });
        }
        let cache = Cache::load(&tree)?;
        let (changes, _) = watch::channel(0);
        Ok(Self {
            shared: Arc::new(Shared {
                path: path.to_owned(),
                tree,
                database,
                cache: Mutex::new(cache),
                changes,
            }),
        })
    }

    pub fn path(&self) -> &Path {
        &self.shared.path
    }

    /// Every garden, in the order they were made.
    pub fn gardens(&self) -> Vec<GardenId> {
        self.cache().gardens.keys().cloned().collect()
    }

    /// The gardens a person belongs to.
    pub fn gardens_of(&self, person: &PersonId) -> Vec<GardenId> {
        let cache = self.cache();
        let belongs = |id: &&GardenId| cache.gardens[*id].garden.role(person).is_some();
        cache.gardens.keys().filter(belongs).cloned().collect()
    }

    /// The gardens whose briefs go to a room.
    pub fn gardens_in(&self, room: &RoomId) -> Vec<GardenId> {
        let cache = self.cache();
        let there = |id: &&GardenId| cache.gardens[*id].garden.room.as_ref() == Some(room);
        cache.gardens.keys().filter(there).cloned().collect()
    }

    fn cache(&self) -> MutexGuard<'_, Cache> {
        // A panic under the lock cannot leave the cache half changed: it changes after the batch is on disk.
        self.shared.cache.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// One batch, all or nothing, on disk when this returns.
    fn apply(&self, batch: sled::Batch) -> Result<(), StoreError> {
        self.shared.tree.apply_batch(batch)?;
        self.shared.database.flush()?;
        Ok(())
    }

    fn announce(&self) {
        self.shared.changes.send_modify(|count| *count += 1);
    }
}

/// A process that has just ended, or a store just closed in this one, holds its lock for a moment longer.
fn open_patiently(path: &Path) -> sled::Result<sled::Db> {
    const TRIES: u32 = 20;
    const PAUSE: std::time::Duration = std::time::Duration::from_millis(50);
    for _ in 1..TRIES {
        match open_at_once(path) {
            Err(sled::Error::Io(error)) if is_lock(&error) => std::thread::sleep(PAUSE),
            opened => return opened,
        }
    }
    open_at_once(path)
}

fn open_at_once(path: &Path) -> sled::Result<sled::Db> {
    sled::Config::new()
        .path(path)
        .cache_capacity(CACHE_BYTES)
        // Every commit flushes by itself; a timer would only add writes nobody waits for.
        .flush_every_ms(None)
        .mode(sled::Mode::LowSpace)
        .open()
}

/// sled tells of a taken lock as an I/O error of its own making.
fn is_lock(error: &std::io::Error) -> bool {
    error.kind() == std::io::ErrorKind::WouldBlock || error.to_string().contains("could not acquire lock")
}
