//! The store written out, into a file that is either whole or as it was.

use std::ffi::OsString;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use anyhow::Context as _;
use leafhold::store::Store;

use super::{Failure, wrong_input};

pub(super) fn export(folder: &Path, to: Option<&Path>) -> Result<(), Failure> {
    let store = Store::open_existing(folder).map_err(wrong_input)?;
    let count = match to {
        Some(path) if is_plain(path) => into_file(&store, path)?,
        Some(path) => {
            let mut out = BufWriter::new(File::create(path).map_err(|error| cannot_write(path, &error))?);
            store.export(&mut out).map_err(anyhow::Error::from)?
        }
        None => store.export(&mut std::io::stdout().lock()).map_err(anyhow::Error::from)?,
    };
    eprintln!("leafhold: {count} records exported");
    Ok(())
}

/// A device or a pipe, such as /dev/stdout, must be written into, not replaced.
fn is_plain(path: &Path) -> bool {
    path.metadata().map_or(true, |found| found.is_file())
}

/// Written beside the file and put in its place when whole: an export cut short leaves the last good one.
fn into_file(store: &Store, path: &Path) -> Result<usize, Failure> {
    // A link goes on pointing at the file it names.
    let target = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let part = part_of(&target);
    let file = File::create(&part).map_err(|error| cannot_write(&part, &error))?;
    let written = write(store, file, &target, &part);
    if written.is_err() {
        // Left behind, the half is in nobody's way: the next export writes over it.
        let _ = std::fs::remove_file(&part);
    }
    written
}

fn write(store: &Store, file: File, target: &Path, part: &Path) -> Result<usize, Failure> {
    // A file only its owner may read stays so.
    if let Ok(found) = target.metadata() {
        file.set_permissions(found.permissions()).map_err(|error| cannot_write(part, &error))?;
    }
    let mut out = BufWriter::new(file);
    let count = store.export(&mut out).map_err(anyhow::Error::from)?;
    out.flush().context("writing the export")?;
    out.get_ref().sync_all().context("writing the export")?;
    std::fs::rename(part, target).map_err(|error| cannot_write(target, &error))?;
    Ok(count)
}

/// "good.jsonl" is written as "good.jsonl.part".
fn part_of(target: &Path) -> PathBuf {
    let mut name = OsString::from(target);
    name.push(".part");
    PathBuf::from(name)
}

fn cannot_write(path: &Path, error: &std::io::Error) -> Failure {
    wrong_input(format!("cannot write {}: {error}; check the path", path.display()))
}
