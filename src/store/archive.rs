//! The whole store as JSON Lines, and back.

use std::io::{BufRead, Write};

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::cache::Cache;
use super::{Store, StoreError, record};

const FORMAT: &str = "leafhold-export";
/// Records a line are put in batches of this many; the store is empty until the last is in, for the marker
/// that makes it valid is written with it.
const BATCH: usize = 2_000;
/// While a restore is under way this stands in the store, and a store that has it is refused as half-made.
const RESTORING: &[u8] = b"restoring";

#[derive(Deserialize, Serialize)]
struct Header {
    format: String,
    version: u64,
}

#[derive(Deserialize, Serialize)]
struct LineOut {
    /// The key, as hex: keys hold numbers too.
    key: String,
    /// The record as it stands, for people; where it is no JSON, its bytes as hex.
    #[serde(skip_serializing_if = "Option::is_none")]
    record: Option<Value>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bytes: Option<String>,
}

/// What to do with a store that has something in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Restore {
    IntoEmpty,
    Replace,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Restored {
    pub records: usize,
}

impl Store {
    /// Every record of every kind, one a line, after a header. A damaged record is written as it is.
    pub fn export(&self, out: &mut impl Write) -> Result<usize, StoreError> {
        let header = Header { format: FORMAT.to_owned(), version: record::VERSION };
        write_line(out, &header)?;
        let mut count = 0;
        for item in self.shared.tree.iter() {
            let (key, bytes) = item?;
            // Numbers come out as they went in only if nothing is lost between text and f64: serde_json keeps
            // the shortest text that reads back the same.
            let record = serde_json::from_slice::<Value>(&bytes)
                .ok()
                .filter(|value| serde_json::to_vec(value).is_ok_and(|again| again == bytes.as_ref()));
            let bytes = if record.is_none() { Some(to_hex(&bytes)) } else { None };
            write_line(out, &LineOut { key: to_hex(&key), record, bytes })?;
            count += 1;
        }
        out.flush()?;
        Ok(count)
    }

    /// Reads an export back. The whole of it is read and checked before anything is changed.
    pub fn restore(&self, input: &mut impl BufRead, how: Restore) -> Result<Restored, StoreError> {
        let records = read_all(input)?;
        let mut cache = self.cache();
        if !self.shared.tree.is_empty() {
            if how == Restore::IntoEmpty {
                return Err(StoreError::NotEmpty);
            }
            self.shared.tree.clear()?;
        }
        self.shared.tree.insert(RESTORING, &[] as &[u8])?;
        for chunk in records.chunks(BATCH) {
            let mut batch = sled::Batch::default();
            for (key, bytes) in chunk {
                batch.insert(key.as_slice(), bytes.as_slice());
            }
            self.shared.tree.apply_batch(batch)?;
        }
        self.shared.tree.remove(RESTORING)?;
        self.shared.database.flush()?;
        *cache = Cache::load(&self.shared.tree)?;
        Ok(Restored { records: records.len() })
    }
}

/// Whether a restore into this store was cut short.
pub(super) fn is_half_restored(tree: &sled::Tree) -> Result<bool, StoreError> {
    Ok(tree.contains_key(RESTORING)?)
}

type Row = (Vec<u8>, Vec<u8>);

fn read_all(input: &mut impl BufRead) -> Result<Vec<Row>, StoreError> {
    let bad = |line: usize, problem: &str| StoreError::BadLine { line, problem: problem.to_owned() };
    let mut rows = Vec::new();
    for (index, line) in input.lines().enumerate() {
        let (number, line) = (index + 1, line?);
        if index == 0 {
            let header: Header =
                serde_json::from_str(&line).map_err(|_| bad(1, "this is not an export of leafhold"))?;
            if header.format != FORMAT {
                return Err(bad(1, "this is not an export of leafhold"));
            }
            if header.version > record::VERSION {
                return Err(bad(1, "it was made by a newer leafhold; use that one"));
            }
            continue;
        }
        if line.trim().is_empty() {
            continue;
        }
        let row: LineOut = serde_json::from_str(&line).map_err(|error| bad(number, &error.to_string()))?;
        let key = from_hex(&row.key).ok_or_else(|| bad(number, "the key is not hex"))?;
        let bytes = match (row.record, row.bytes) {
            (Some(record), None) => {
                serde_json::to_vec(&record).map_err(|error| bad(number, &error.to_string()))?
            }
            (None, Some(bytes)) => from_hex(&bytes).ok_or_else(|| bad(number, "the bytes are not hex"))?,
            _ => return Err(bad(number, "a line has either a record or bytes")),
        };
        rows.push((key, bytes));
    }
    if rows.is_empty() {
        return Err(bad(1, "there is nothing in it"));
    }
    Ok(rows)
}

fn write_line(out: &mut impl Write, value: &impl Serialize) -> Result<(), StoreError> {
    let line = serde_json::to_string(value).map_err(|problem| StoreError::CannotWrite {
        what: String::from("a line of the export"),
        problem: problem.to_string(),
    })?;
    writeln!(out, "{line}")?;
    Ok(())
}

fn to_hex(bytes: &[u8]) -> String {
    use std::fmt::Write as _;
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
        // Writing to a String cannot fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

fn from_hex(text: &str) -> Option<Vec<u8>> {
    if !text.is_ascii() || !text.len().is_multiple_of(2) {
        return None;
    }
    text.as_bytes()
        .chunks(2)
        .map(|pair| u8::from_str_radix(std::str::from_utf8(pair).ok()?, 16).ok())
        .collect()
}
