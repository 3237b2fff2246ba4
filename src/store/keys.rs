//! Where each record stands. A prefix a kind, so that kinds are ranges; numbers big-endian, so that ranges
//! are in order.

use crate::identity::{EventId, GardenId, PersonId};

pub(super) const GARDEN: &str = "garden/";
pub(super) const INBOX: &str = "inbox/";
pub(super) const SEEN: &str = "seen/";
pub(super) const OUTBOX: &str = "outbox/";
pub(super) const SENT: &str = "sent/";
pub(super) const ABOUT: &str = "about/";
pub(super) const NOTE: &str = "note/";
pub(super) const FORECAST: &str = "forecast/";
pub(super) const PAST: &str = "past/";
pub(super) const NORMALS: &str = "normals/";

/// Parts are parted by a byte no UTF-8 text has.
const PART: u8 = 0xff;

pub(super) fn garden(garden: &GardenId) -> Vec<u8> {
    key(GARDEN, &[garden.as_str().as_bytes()])
}

pub(super) fn garden_range(kind: &str, garden: &GardenId) -> Vec<u8> {
    let mut bytes = key(kind, &[garden.as_str().as_bytes()]);
    bytes.push(PART);
    bytes
}

pub(super) const JOURNAL: &str = "journal/";
pub(super) const TOLD: &str = "told/";
pub(super) const QUESTION: &str = "question/";
pub(super) const WAKE: &str = "wake/";

pub(super) fn numbered(kind: &str, garden: &GardenId, number: u64) -> Vec<u8> {
    key(kind, &[garden.as_str().as_bytes(), &number.to_be_bytes()])
}

pub(super) fn question(garden: &GardenId, person: &PersonId) -> Vec<u8> {
    key(QUESTION, &[garden.as_str().as_bytes(), person.as_str().as_bytes()])
}

pub(super) fn wake(garden: &GardenId) -> Vec<u8> {
    key(WAKE, &[garden.as_str().as_bytes()])
}

pub(super) fn queued(kind: &str, number: u64) -> Vec<u8> {
    key(kind, &[&number.to_be_bytes()])
}

pub(super) fn seen(event: &EventId) -> Vec<u8> {
    key(SEEN, &[event.as_str().as_bytes()])
}

pub(super) fn sent(name: &str) -> Vec<u8> {
    key(SENT, &[name.as_bytes()])
}

pub(super) fn about(event: &EventId) -> Vec<u8> {
    key(ABOUT, &[event.as_str().as_bytes()])
}

pub(super) fn note(name: &str) -> Vec<u8> {
    key(NOTE, &[name.as_bytes()])
}

pub(super) fn cell(kind: &str, cell: &str) -> Vec<u8> {
    key(kind, &[cell.as_bytes()])
}

pub(super) fn cell_day(cell: &str, day: i32) -> Vec<u8> {
    // Days before 1970 sort first too.
    let sortable = (i64::from(day) - i64::from(i32::MIN)) as u32;
    key(PAST, &[cell.as_bytes(), &sortable.to_be_bytes()])
}

pub(super) fn cell_range(cell: &str) -> Vec<u8> {
    let mut bytes = key(PAST, &[cell.as_bytes()]);
    bytes.push(PART);
    bytes
}

/// A key as people read it, for errors and exports.
pub(super) fn shown(key: &[u8]) -> String {
    key.iter().map(|byte| if byte.is_ascii_graphic() { char::from(*byte) } else { '.' }).collect()
}

/// The number a key ends in.
pub(super) fn number_of(key: &[u8]) -> Option<u64> {
    let tail = key.get(key.len().checked_sub(8)?..)?;
    Some(u64::from_be_bytes(tail.try_into().ok()?))
}

fn key(kind: &str, parts: &[&[u8]]) -> Vec<u8> {
    let mut bytes = kind.as_bytes().to_vec();
    for (index, part) in parts.iter().enumerate() {
        if index > 0 {
            bytes.push(PART);
        }
        bytes.extend_from_slice(part);
    }
    bytes
}
