//! What a record looks like on disk: a version and the thing, as JSON.
//!
//! Reports and settings are written by their own names, which are also the names of the rehearsal protocol;
//! the snapshots in the tests hold every one of them still. A version that changes gets a reader of its own.

mod post;

pub(super) use post::{InboundRecord, OutboundRecord};

use chrono::{DateTime, Utc};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::{StoreError, keys};
use crate::identity::{EventId, PersonId};
use crate::season::journal::{Act, Entry, LineNumber, Report, Retraction, Timing, What, Withdrawal};
use crate::season::request::{Doubt, OpenQuestion, Setting};

/// The version every record is written with now.
pub(super) const VERSION: u64 = 1;

#[derive(Deserialize, Serialize)]
struct Versioned<T> {
    v: u64,
    #[serde(flatten)]
    record: T,
}

#[derive(Deserialize)]
struct VersionOnly {
    v: u64,
}

pub(super) fn write<T: Serialize>(record: T) -> Result<Vec<u8>, StoreError> {
    serde_json::to_vec(&Versioned { v: VERSION, record }).map_err(|problem| StoreError::CannotWrite {
        what: std::any::type_name::<T>().to_owned(),
        problem: problem.to_string(),
    })
}

pub(super) fn read<T: DeserializeOwned>(key: &[u8], bytes: &[u8]) -> Result<T, StoreError> {
    let damaged = |problem: serde_json::Error| StoreError::Damaged {
        key: keys::shown(key),
        problem: problem.to_string(),
    };
    let version = serde_json::from_slice::<VersionOnly>(bytes).map_err(damaged)?.v;
    if version > VERSION {
        return Err(StoreError::TooNew { key: keys::shown(key), version });
    }
    serde_json::from_slice::<Versioned<T>>(bytes).map(|versioned| versioned.record).map_err(damaged)
}

#[derive(Deserialize, Serialize)]
pub(super) struct GardenRecord {
    pub(super) made: DateTime<Utc>,
}

#[derive(Deserialize, Serialize)]
pub(super) struct WakeRecord {
    pub(super) at: DateTime<Utc>,
}

/// A line of the journal.
#[derive(Deserialize, Serialize)]
#[serde(tag = "act", rename_all = "snake_case")]
pub(super) enum ActRecord {
    Enter {
        who: PersonId,
        event: EventId,
        said: DateTime<Utc>,
        happened: DateTime<Utc>,
        timing: Timing,
        what: WhatRecord,
    },
    Retract {
        line: LineNumber,
        why: Withdrawal,
        who: PersonId,
        event: EventId,
        said: DateTime<Utc>,
    },
}

#[derive(Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum WhatRecord {
    Report { trees: Vec<String>, report: Report },
    Setting(Setting),
}

impl From<&Act> for ActRecord {
    fn from(act: &Act) -> Self {
        match act {
            Act::Enter(entry) => ActRecord::Enter {
                who: entry.who.clone(),
                event: entry.event.clone(),
                said: entry.said,
                happened: entry.happened,
                timing: entry.timing,
                what: match &entry.what {
                    What::Report { trees, report } => {
                        WhatRecord::Report { trees: trees.clone(), report: report.clone() }
                    }
                    What::Setting(setting) => WhatRecord::Setting(setting.clone()),
                },
            },
            Act::Retract(retraction) => ActRecord::Retract {
                line: retraction.entry,
                why: retraction.why,
                who: retraction.who.clone(),
                event: retraction.event.clone(),
                said: retraction.said,
            },
        }
    }
}

impl From<ActRecord> for Act {
    fn from(record: ActRecord) -> Self {
        match record {
            ActRecord::Enter { who, event, said, happened, timing, what } => Act::Enter(Entry {
                who,
                event,
                said,
                happened,
                timing,
                what: match what {
                    WhatRecord::Report { trees, report } => What::Report { trees, report },
                    WhatRecord::Setting(setting) => What::Setting(setting),
                },
            }),
            ActRecord::Retract { line, why, who, event, said } => {
                Act::Retract(Retraction { entry: line, why, who, event, said })
            }
        }
    }
}

#[derive(Deserialize, Serialize)]
pub(super) struct QuestionRecord {
    text: String,
    doubt: Doubt,
    said: DateTime<Utc>,
    event: EventId,
}

impl From<&OpenQuestion> for QuestionRecord {
    fn from(question: &OpenQuestion) -> Self {
        Self {
            text: question.text.clone(),
            doubt: question.doubt.clone(),
            said: question.said,
            event: question.event.clone(),
        }
    }
}

impl From<QuestionRecord> for OpenQuestion {
    fn from(record: QuestionRecord) -> Self {
        Self { text: record.text, doubt: record.doubt, said: record.said, event: record.event }
    }
}
