//! The whole store as JSON Lines, and back.
//!
//! The records of a store are in one tree, named by a number; the database says which number counts. A restore
//! fills the next one, and only when all of it is on disk does the number change. Cut short anywhere, the
//! store is what it was before.

use std::io::{BufRead, Write};
use std::path::Path;

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::keys::{self, Kind, Parsed};
use super::record::{self, hex};
use super::{Store, StoreError, open_database};

const FORMAT: &str = "leafhold-export";

#[derive(Deserialize, Serialize)]
struct Header {
    format: String,
    version: u64,
}

/// One record: its kind, what it is the record of, and itself in the first form that loses nothing.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct Row {
    kind: String,
    of: Vec<Value>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    record: Option<Value>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    text: Option<String>,
    /// In hexadecimal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    bytes: Option<String>,
    /// Why it cannot be read. A restore takes it as it is, to be mended later.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    flaw: Option<String>,
}

/// The last line: an export that lacks it was cut short.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct End {
    end: usize,
}

/// What a key that is none is exported under.
const NO_KIND: &str = "unknown";

/// What to do with a store that has something in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Restore {
    IntoEmpty,
    Replace,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Restored {
    pub records: usize,
    /// Records that could not be read when they were exported and were taken over as they are.
    pub flawed: usize,
}

impl Store {
    /// Every record of every kind, one a line, after a header. A damaged record is written as it is.
    pub fn export(&self, out: &mut impl Write) -> Result<usize, StoreError> {
        let _settled = self.cache();
        write_line(out, &Header { format: FORMAT.to_owned(), version: record::VERSION })?;
        let mut records = 0;
        for kind in Kind::ALL {
            for item in self.shared.tree.scan_prefix(kind.prefix()) {
                let (key, bytes) = item?;
                if keys::parse(&key).is_some() {
                    write_line(out, &row(&key, &bytes))?;
                    records += 1;
                }
            }
        }
        for item in self.shared.tree.iter() {
            let (key, bytes) = item?;
            if keys::parse(&key).is_none() {
                write_line(out, &row(&key, &bytes))?;
                records += 1;
            }
        }
        write_line(out, &End { end: records })?;
        out.flush()?;
        Ok(records)
    }

    /// Reads an export back into the store of a folder, which nobody may have open. A line that is wrong
    /// leaves the store as it was.
    pub fn restore(path: &Path, input: &mut impl BufRead, how: Restore) -> Result<Restored, StoreError> {
        let database = open_database(path)?;
        let current = current_tree(&database)?;
        if how == Restore::IntoEmpty && !current.is_empty() {
            return Err(StoreError::NotEmpty { path: path.display().to_string() });
        }
        let generation = generation(&database)?;
        let next = generation + 1;
        let tree = database.open_tree(tree_name(next))?;
        let restored = match read_into(&tree, input) {
            Ok(restored) => restored,
            Err(error) => {
                database.drop_tree(tree_name(next))?;
                database.flush()?;
                return Err(error);
            }
        };
        database.flush()?;
        database.insert(GENERATION, next.to_string().as_bytes())?;
        database.flush()?;
        database.drop_tree(tree_name(generation))?;
        database.flush()?;
        Ok(restored)
    }
}

/// Where the database says which tree counts.
const GENERATION: &str = "generation";

fn generation(database: &sled::Db) -> Result<u64, StoreError> {
    let kept = database.get(GENERATION)?;
    Ok(kept.and_then(|bytes| std::str::from_utf8(&bytes).ok()?.parse().ok()).unwrap_or(1))
}

fn tree_name(generation: u64) -> String {
    format!("records-{generation}")
}

/// The tree that counts. What a restore cut short left of another is removed.
pub(super) fn current_tree(database: &sled::Db) -> Result<sled::Tree, StoreError> {
    let current = tree_name(generation(database)?);
    for name in database.tree_names() {
        if name.starts_with(b"records-") && name != current.as_bytes() {
            database.drop_tree(name)?;
        }
    }
    Ok(database.open_tree(current)?)
}

fn row(key: &[u8], bytes: &[u8]) -> Row {
    let parsed = keys::parse(key);
    let is_note = parsed.as_ref().is_some_and(|parsed| parsed.kind == Kind::Note);
    let (kind, of) = match parsed {
        Some(Parsed { kind, parts }) => (kind.name(), parts),
        None => (NO_KIND, vec![Value::from(hex::write(key))]),
    };
    let mut row = Row {
        kind: kind.to_owned(),
        of,
        record: None,
        text: None,
        bytes: None,
        flaw: record::check(key, bytes).err().map(|flaw| flaw.to_string()),
    };
    match std::str::from_utf8(bytes) {
        Err(_) => row.bytes = Some(hex::write(bytes)),
        Ok(text) if is_note => row.text = Some(text.to_owned()),
        // A number of seventeen digits may not come out as it went in; then the text is kept as text.
        Ok(text) => match serde_json::from_str::<Value>(text) {
            Ok(value) if serde_json::to_string(&value).is_ok_and(|again| again == text) => {
                row.record = Some(value);
            }
            _ => row.text = Some(text.to_owned()),
        },
    }
    row
}

fn read_into(tree: &sled::Tree, input: &mut impl BufRead) -> Result<Restored, StoreError> {
    let mut restored = Restored { records: 0, flawed: 0 };
    let mut lines = Lines { input, number: 0 };
    read_header(lines.next()?)?;
    loop {
        let line = lines.next()?;
        let number = lines.number;
        let bad = |problem: &str| StoreError::BadLine { line: number, problem: problem.to_owned() };
        let line = line.ok_or_else(|| bad("the export ends before its last line; it was cut short"))?;
        if let Ok(End { end }) = serde_json::from_str(&line) {
            if end != restored.records {
                return Err(bad(&format!("there should be {end} records and are {}", restored.records)));
            }
            check_gardens(tree, number)?;
            // A second export appended to the first would be left out without a word.
            if lines.next()?.is_some() {
                return Err(StoreError::BadLine {
                    line: lines.number,
                    problem: String::from(
                        "it comes after the last line of the export; restore a file that holds one whole export",
                    ),
                });
            }
            return Ok(restored);
        }
        let row: Row = serde_json::from_str(&line).map_err(|error| bad(&error.to_string()))?;
        let is_flawed = row.flaw.is_some();
        let (key, bytes) = unpack(row).map_err(bad)?;
        if !is_flawed {
            record::check(&key, &bytes).map_err(|flaw| bad(&flaw.to_string()))?;
        }
        if tree.insert(key, bytes)?.is_some() {
            return Err(bad("the same record came before"));
        }
        restored.records += 1;
        restored.flawed += usize::from(is_flawed);
    }
}

fn read_header(line: Option<String>) -> Result<(), StoreError> {
    let bad = |problem: &str| StoreError::BadLine { line: 1, problem: problem.to_owned() };
    let header: Option<Header> = line.and_then(|line| serde_json::from_str(&line).ok());
    let header = header.filter(|header| header.format == FORMAT);
    let header = header.ok_or_else(|| bad("this is not an export of leafhold"))?;
    if header.version > record::VERSION {
        return Err(bad("it was made by a newer leafhold; use that one"));
    }
    Ok(())
}

fn unpack(row: Row) -> Result<(Vec<u8>, Vec<u8>), &'static str> {
    let key = match Kind::of_name(&row.kind) {
        Some(kind) => keys::build(kind, &row.of).ok_or("what it is the record of does not fit its kind")?,
        None if row.kind == NO_KIND && row.flaw.is_some() => {
            let only = row.of.first().and_then(Value::as_str);
            only.and_then(hex::read).ok_or("the key is not hexadecimal")?
        }
        None => return Err("there is no such kind of record"),
    };
    let bytes = match (row.record, row.text, row.bytes) {
        (Some(record), None, None) => record.to_string().into_bytes(),
        (None, Some(text), None) => text.into_bytes(),
        (None, None, Some(bytes)) => hex::read(&bytes).ok_or("the bytes are not hexadecimal")?,
        _ => return Err("a line has a record, a text or bytes, and only one of them"),
    };
    Ok((key, bytes))
}

/// Records of a garden without the garden itself would be there and never be found.
fn check_gardens(tree: &sled::Tree, line: usize) -> Result<(), StoreError> {
    for kind in [Kind::Journal, Kind::Told, Kind::Question, Kind::Wake] {
        for key in tree.scan_prefix(kind.prefix()).keys() {
            let garden = keys::parse(&key?).and_then(|parsed| parsed.parts.into_iter().next());
            let Some(garden) = garden else { continue };
            let there = keys::build(Kind::Garden, std::slice::from_ref(&garden));
            if !there.map_or(Ok(false), |key| tree.contains_key(key))? {
                let problem =
                    format!("there is a {} of garden {garden} but not the garden itself", kind.name());
                return Err(StoreError::BadLine { line, problem });
            }
        }
    }
    Ok(())
}

/// The lines of an export that are not blank, with their numbers.
struct Lines<'a, Input> {
    input: &'a mut Input,
    number: usize,
}

impl<Input: BufRead> Lines<'_, Input> {
    fn next(&mut self) -> Result<Option<String>, StoreError> {
        loop {
            let mut bytes = Vec::new();
            self.number += 1;
            if self.input.read_until(b'\n', &mut bytes)? == 0 {
                return Ok(None);
            }
            let line = String::from_utf8(bytes).map_err(|_| StoreError::BadLine {
                line: self.number,
                problem: String::from("it is not text"),
            })?;
            if !line.trim().is_empty() {
                return Ok(Some(line));
            }
        }
    }
}

fn write_line(out: &mut impl Write, value: &impl Serialize) -> Result<(), StoreError> {
    let line = serde_json::to_string(value).map_err(|problem| StoreError::CannotWrite {
        what: String::from("a line of the export"),
        problem: problem.to_string(),
    })?;
    writeln!(out, "{line}")?;
    Ok(())
}
