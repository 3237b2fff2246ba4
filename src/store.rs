//! The journal and what goes with it on disk: commit, flush, then speak.
//!
//! Everything is one sled tree, so that one batch covers journal lines, the "seen" mark of the message that
//! made them and the messages to send: either all of it is there after a crash, or none. A call that changes
//! something returns only when it is flushed. Records are versioned JSON; their bytes are snapshots in the
//! tests, so that no change of format can pass unseen.
//!
//! A record that cannot be read does not take the others with it: its garden is not worked on until it is
//! mended, the rest goes on, and an export still writes its bytes out.

mod archive;
mod cache;
mod commit;
mod error;
mod facts;
mod forget;
mod keys;
mod mailroom;
mod record;
mod weather;

pub use archive::{Restore, Restored};
pub use commit::{Commit, Committed, Draft, GardenChange, Move};
pub use error::{Flaw, StoreError};
pub use forget::Forget;
pub use mailroom::Unsent;
pub use weather::{Budget, Forecast, cell_of};

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::watch;

use cache::Cache;

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

impl Store {
    /// Opens or makes the store in a folder. A second process is refused.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let database = open_database(path)?;
        let read = || {
            let tree = archive::current_tree(&database)?;
            let cache = Cache::load(&tree)?;
            Ok((tree, cache))
        };
        let (tree, cache) = read().map_err(|error| match error {
            StoreError::Disk(problem) => cannot_open(path, problem),
            error => error,
        })?;
        let (changes, _) = watch::channel(0);
        let path = path.to_owned();
        let shared = Shared { path, tree, database, cache: Mutex::new(cache), changes };
        Ok(Self { shared: Arc::new(shared) })
    }

    /// Opens a store that is there; unlike [`Store::open`], a wrong path makes none.
    pub fn open_existing(path: &Path) -> Result<Self, StoreError> {
        // sled's own two files: with either gone, opening says what is wrong with the rest.
        if ["conf", "db"].iter().any(|file| path.join(file).exists()) {
            return Self::open(path);
        }
        Err(StoreError::NoStore { path: path.display().to_string() })
    }

    pub fn path(&self) -> &Path {
        &self.shared.path
    }

    /// Every record that cannot be read, after reading all of them.
    pub fn flaws(&self) -> Result<Vec<Flaw>, StoreError> {
        let mut flaws = Vec::new();
        for item in self.shared.tree.iter() {
            let (key, bytes) = item?;
            flaws.extend(record::check(&key, &bytes).err());
        }
        Ok(flaws)
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

/// A page cache this small keeps the whole bot under 40 MB; a garden's records are a few megabytes.
const CACHE_BYTES: u64 = 8 * 1024 * 1024;

fn open_database(path: &Path) -> Result<sled::Db, StoreError> {
    // sled panics over some damaged files instead of refusing them.
    let opened = std::panic::catch_unwind(|| open_patiently(path));
    let opened =
        opened.unwrap_or_else(|_| Err(sled::Error::ReportableBug(String::from("they make no sense"))));
    opened.map_err(|problem| cannot_open(path, problem))
}

fn cannot_open(path: &Path, problem: sled::Error) -> StoreError {
    let path = path.display().to_string();
    match problem {
        sled::Error::Io(error) if is_lock(&error) => StoreError::InUse { path },
        sled::Error::Corruption { .. } => StoreError::FilesDamaged {
            path,
            problem: String::from("what is written there is not what was written"),
        },
        sled::Error::Unsupported(problem) | sled::Error::ReportableBug(problem) => {
            StoreError::FilesDamaged { path, problem }
        }
        problem => StoreError::CannotOpen { path, problem: problem.to_string() },
    }
}

/// A process that has just ended, or a store just closed in this one, holds its lock for a moment longer.
fn open_patiently(path: &Path) -> sled::Result<sled::Db> {
    const TRIES: u32 = 20;
    const PAUSE: std::time::Duration = std::time::Duration::from_millis(50);
    for _ in 1..TRIES {
        match open_without_halves(path) {
            Err(sled::Error::Io(error)) if is_lock(&error) => std::thread::sleep(PAUSE),
            opened => return opened,
        }
    }
    open_without_halves(path)
}

/// sled keeps a snapshot of its log's pages, and writes the next one under a name of its own until it is whole.
/// Killed meanwhile, it takes that half for the newest of them, and refuses it for ever. The whole one before it is
/// still there: the half is put aside, and nothing else is touched.
fn open_without_halves(path: &Path) -> sled::Result<sled::Db> {
    let opened = open_at_once(path);
    if !matches!(opened, Err(sled::Error::Corruption { .. })) || !put_halves_aside(path)? {
        return opened;
    }
    open_at_once(path)
}

/// Whether there were any. Under their new names sled does not know them.
fn put_halves_aside(path: &Path) -> std::io::Result<bool> {
    let mut found = false;
    for entry in std::fs::read_dir(path)? {
        let entry = entry?;
        let name = entry.file_name();
        let half = name.to_str().filter(|name| name.starts_with("snap.") && name.ends_with(".generating"));
        if let Some(half) = half {
            std::fs::rename(entry.path(), path.join(format!("half-{half}")))?;
            found = true;
        }
    }
    Ok(found)
}

fn open_at_once(path: &Path) -> sled::Result<sled::Db> {
    sled::Config::new()
        .path(path)
        .cache_capacity(CACHE_BYTES)
        // Every commit flushes by itself; a timer would only add writes nobody waits for.
        .flush_every_ms(None)
        // A bot writes a few records a minute and lives on a small disk: space matters, throughput does not.
        .mode(sled::Mode::LowSpace)
        .open()
}

/// sled tells of a taken lock as an I/O error of its own making.
fn is_lock(error: &std::io::Error) -> bool {
    error.kind() == std::io::ErrorKind::WouldBlock || error.to_string().contains("could not acquire lock")
}
