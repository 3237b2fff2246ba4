//! What a record looks like on disk: a version and the thing, as JSON.
//!
//! The types here are not those of the grower's world but mirrors of them, with names of their own on disk.
//! The tests hold the bytes of every kind, and the bytes of every version there ever was must still be read.

mod garden;
pub(super) mod hex;
mod journal;
mod mirror;
mod post;
mod weather;

#[cfg(test)]
mod tests;

pub(super) use garden::{GardenRecord, WakeRecord};
pub(super) use mirror::Recorded;
pub(super) use post::{AboutRecord, InboundRecord, OutboundRecord, SeenRecord, SentRecord};
pub(super) use weather::{BudgetRecord, DayRecord, ForecastRecord};

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::keys::{self, Kind};
use super::{Flaw, StoreError};
use crate::post::Inbound;
use crate::season::facts::{FrostNormals, Told};
use crate::season::journal::Act;
use crate::season::request::OpenQuestion;

/// The version every record is written with now. With a new one, the records that changed get a reader for
/// each version before, and the fixtures of the tests a file.
pub(super) const VERSION: u64 = 1;

#[derive(Serialize)]
struct Versioned<'a, T> {
    v: u64,
    #[serde(flatten)]
    record: &'a T,
}

#[derive(Deserialize)]
struct Version {
    v: u64,
}

/// A record's bytes. What would not read back (a number that is none) is refused here, before it is on disk.
pub(super) fn write<T: DeserializeOwned + Serialize>(record: &T) -> Result<Vec<u8>, StoreError> {
    let cannot = |problem: serde_json::Error| StoreError::CannotWrite {
        what: std::any::type_name::<T>().rsplit("::").next().unwrap_or_default().to_owned(),
        problem: problem.to_string(),
    };
    let bytes = serde_json::to_vec(&Versioned { v: VERSION, record }).map_err(cannot)?;
    serde_json::from_slice::<T>(&bytes).map_err(cannot)?;
    Ok(bytes)
}

/// The bytes of what has a record.
pub(super) fn write_of<T>(thing: &T) -> Result<Vec<u8>, StoreError>
where
    T: Recorded,
    T::Record: DeserializeOwned + Serialize,
{
    write(&thing.to_record())
}

pub(super) fn read<T: DeserializeOwned>(key: &[u8], bytes: &[u8]) -> Result<T, Flaw> {
    let damaged =
        |problem: serde_json::Error| Flaw::Damaged { key: keys::shown(key), problem: problem.to_string() };
    let Version { v: version } = serde_json::from_slice(bytes).map_err(damaged)?;
    if version > VERSION {
        return Err(Flaw::TooNew { key: keys::shown(key), version });
    }
    // The version is a field like another, which the record itself does not know and passes over.
    serde_json::from_slice(bytes).map_err(damaged)
}

/// Reads what has a record.
pub(super) fn read_of<T>(key: &[u8], bytes: &[u8]) -> Result<T, Flaw>
where
    T: Recorded,
    T::Record: DeserializeOwned,
{
    read::<T::Record>(key, bytes).map(T::of_record)
}

/// Whether a record of whatever kind can be read.
pub(super) fn check(key: &[u8], bytes: &[u8]) -> Result<(), Flaw> {
    let unknown =
        || Flaw::Damaged { key: keys::shown(key), problem: String::from("no record has such a key") };
    match keys::parse(key).ok_or_else(unknown)?.kind {
        Kind::Garden => read::<GardenRecord>(key, bytes).map(drop),
        Kind::Journal => read_of::<Act>(key, bytes).map(drop),
        Kind::Told => read_of::<Told>(key, bytes).map(drop),
        Kind::Question => read_of::<OpenQuestion>(key, bytes).map(drop),
        Kind::Wake => read::<WakeRecord>(key, bytes).map(drop),
        Kind::Inbox => read_of::<Inbound>(key, bytes).map(drop),
        Kind::Seen => read::<SeenRecord>(key, bytes).map(drop),
        Kind::Outbox => read::<OutboundRecord>(key, bytes).map(drop),
        Kind::Sent => read::<SentRecord>(key, bytes).map(drop),
        Kind::About => read::<AboutRecord>(key, bytes).map(drop),
        Kind::Forecast => read::<ForecastRecord>(key, bytes).map(drop),
        Kind::Past => read::<DayRecord>(key, bytes).map(drop),
        Kind::Normals => read_of::<FrostNormals>(key, bytes).map(drop),
        Kind::Budget => read::<BudgetRecord>(key, bytes).map(drop),
        // A transport's own bytes.
        Kind::Note => Ok(()),
    }
}
