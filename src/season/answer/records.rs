use chrono::{DateTime, NaiveDate, Utc};
use serde::Serialize;

use crate::season::journal::{Report, Timing};
use crate::season::request::Deed;

/// What was put in the journal.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Noted {
    pub items: Vec<NotedItem>,
    pub assumptions: Vec<Assumption>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NotedItem {
    pub trees: Vec<String>,
    /// Every tree of the garden is among them.
    pub whole_garden: bool,
    pub happened: DateTime<Utc>,
    pub timing: Timing,
    #[serde(flatten)]
    pub report: Report,
}

/// What was assumed and can be corrected by saying so.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "assumed", rename_all = "snake_case")]
pub enum Assumption {
    /// No tree was named: taken as all.
    AllTrees,
    Time {
        at: DateTime<Utc>,
    },
    /// "After the rain": the hour the rain ended by the weather record.
    AfterRain {
        at: DateTime<Utc>,
    },
    /// "After the rain", but no rain is on record.
    NoRainKnown,
    Product {
        name: String,
    },
    /// A typo was read as this name.
    Spelling {
        typed: String,
        read: String,
    },
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TakenBack {
    pub items: Vec<NotedItem>,
    pub because: TakenBackBecause,
    /// How many settings were taken back.
    pub settings: usize,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TakenBackBecause {
    Undone,
    Edited,
    Deleted,
    Corrected,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DoneView {
    pub trees: Vec<String>,
    /// The kind of work asked after, if one was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub deed: Option<Deed>,
    /// Newest first.
    pub items: Vec<NotedItem>,
    pub earlier: usize,
}

/// Why something was not done.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Refusal {
    /// Only a keeper may change settings.
    NotKeeper,
    /// The speaker belongs to no garden here.
    Stranger,
    /// The date is a year or more back.
    TooLongAgo { date: NaiveDate },
    /// Someone else reported it.
    NotYours,
}
