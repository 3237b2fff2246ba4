//! What a decision is made from, and what comes of it.

use chrono::{DateTime, NaiveDate, Utc};
use serde::Serialize;

use super::garden::{Garden, YearDay};
use super::journal::{Act, Journal, LineNumber};
use super::request::{OpenQuestion, Question};
use crate::identity::{EventId, PersonId, RoomId};
use crate::weather::Series;

/// One garden, its journal, its weather, what it was already told, and the time now.
#[derive(Clone, Debug)]
pub struct Facts {
    pub now: DateTime<Utc>,
    /// The garden as the journal's settings make it.
    pub garden: Garden,
    pub journal: Journal,
    /// The garden's own record of past hours and, from `now` on, the last good forecast.
    pub weather: Series,
    pub feed: Feed,
    pub told: Vec<Told>,
    pub normals: Option<FrostNormals>,
    /// What was asked back of the person who speaks now, if anybody does.
    pub open_question: Option<OpenQuestion>,
    /// What this person was answered last, if that is not long ago: what a bare "why?" is about. Not kept on disk.
    pub answered: Option<Question>,
}

/// Where the forecast came from and how old it is.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Feed {
    /// Whom to credit, as the licence asks.
    pub credit: Option<String>,
    /// When it was fetched.
    pub fetched: Option<DateTime<Utc>>,
}

/// Freeze dates of a place, from a record of daily minima: the day by which one autumn in ten, half
/// of them, and nine in ten had their first freeze.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FrostNormals {
    pub first_early: Option<YearDay>,
    pub first_median: Option<YearDay>,
    pub first_late: Option<YearDay>,
    pub last_median: Option<YearDay>,
    /// Years the figures rest on.
    pub years: u32,
}

/// Something the garden was told unasked, so that it is told once.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Told {
    pub at: DateTime<Utc>,
    pub matter: Matter,
}

#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(tag = "matter", rename_all = "snake_case")]
pub enum Matter {
    /// The morning brief of a local date, said or rightly left unsaid.
    Brief {
        date: NaiveDate,
    },
    /// The weekly line that the bot is alive and watching.
    Watching {
        date: NaiveDate,
    },
    /// So close to frost that treatment is no longer worthwhile this season (by its starting year).
    SeasonOver {
        season: i32,
    },
    /// Frost is forecast for the night that begins on this date.
    FrostTonight {
        date: NaiveDate,
    },
    HeatWatering {
        date: NaiveDate,
    },
    /// An infection event (by the hour it begins) was announced.
    Infection {
        from: DateTime<Utc>,
    },
    /// A rule was found broken by the report on this line.
    Broken {
        line: LineNumber,
    },
    /// A spray window (by its date) was recommended.
    SprayWindow {
        date: NaiveDate,
    },
    /// Anything else that comes once, by a name.
    Once {
        name: String,
    },
}

/// What comes of a message or a morning.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outcome {
    pub acts: Vec<Act>,
    pub told: Vec<Told>,
    pub messages: Vec<Message>,
    /// The reaction that says "noted", when nothing needs saying.
    pub acknowledge: bool,
    pub question: QuestionChange,
    /// When to look again.
    pub wake: Option<DateTime<Utc>>,
    /// Something only the outside can do before an answer is possible.
    pub errand: Option<Errand>,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub enum QuestionChange {
    #[default]
    Keep,
    Close,
    Open(OpenQuestion),
}

#[derive(Clone, Debug, PartialEq)]
pub struct Message {
    pub kind: MessageKind,
    pub answers: Vec<super::answer::Answer>,
    /// Stable name of its purpose, such as the date of a brief; with the garden it makes the key.
    pub purpose: String,
    pub use_by: Option<DateTime<Utc>>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MessageKind {
    Answer,
    Brief,
    Alert,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Errand {
    /// Look a place up by name; the result comes back as a message of its own.
    FindPlace {
        name: String,
    },
    ForgetPerson {
        person: PersonId,
    },
}

/// A message as it was heard: who said what event when.
#[derive(Clone, Debug, PartialEq)]
pub struct Heard {
    pub event: EventId,
    pub from: PersonId,
    pub room: RoomId,
    pub called: Option<String>,
    pub at: DateTime<Utc>,
    /// The text as typed, kept only while a question about it is open.
    pub text: String,
}
