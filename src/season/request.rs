//! What a message asks for, once it is read: records, questions, settings, corrections.

mod setting;

pub use setting::{Potted, ProductDetails, Setting, TreeDetails};

use chrono::{DateTime, Utc};
use serde::Serialize;

use super::garden::Active;
use super::journal::{LeafLevel, MoistureState, Report, RustAmount, Stage};
use crate::units::{Kilograms, Litres, Millimetres};

/// A message as it was understood. Reading never fails: what could not be understood is a doubt.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Reading {
    pub requests: Vec<Request>,
    pub doubts: Vec<Doubt>,
    /// Misspelt names as typed, and as they were read.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub spellings: Vec<(String, String)>,
    #[serde(skip_serializing_if = "Wording::is_plain")]
    pub wording: Wording,
}

impl Reading {
    /// The last question it asks, for what may be gone on with; "why?" is of the one before.
    pub fn last_question(&self) -> Option<&Question> {
        self.requests.iter().rev().find_map(|request| match request {
            Request::Ask(Question::Why { .. }) => None,
            Request::Ask(question) => Some(question),
            _ => None,
        })
    }
}

/// Whether a message says nothing but what was read of it. Where it says more, or says it unusually, the grower is
/// told in words what was written down; a plain report is only nodded at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Wording {
    #[default]
    Plain,
    Open,
}

impl Wording {
    pub fn is_plain(&self) -> bool {
        *self == Self::Plain
    }
}

#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Request {
    Record(Record),
    Ask(Question),
    Set(Setting),
    /// Take back the last thing this person reported.
    Undo,
    Correct(Correction),
    Confirm,
    Decline,
    /// "Hello": where set-up begins.
    Greet,
    /// "Forget me": remove a person's data, after confirmation.
    ForgetMe,
    Aside(Aside),
}

/// Something seen or done.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Record {
    pub trees: Selection,
    pub when: When,
    #[serde(flatten)]
    pub report: Report,
}

/// Which trees are meant, before the garden says which those are.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Selection {
    /// None were named. For a spray that is every tree; for a gauge it is the garden.
    Unsaid,
    All,
    /// Nicknames as the garden has them.
    Named(Vec<String>),
    Group(String),
    AllBut(Vec<String>),
}

/// When it happened. Words relative to the message are resolved by the reader, who knows its time;
/// words relative to the weather are left to those who know the weather.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum When {
    /// Taken as the moment of the message.
    Unsaid,
    At(DateTime<Utc>),
    /// A day was named but no time of day; the moment is a usual one of that day.
    OnDay(DateTime<Utc>),
    /// After the last rain that ended before the message.
    AfterRain,
    /// Before the last rain began.
    BeforeRain,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "ask", rename_all = "snake_case")]
pub enum Question {
    Spray {
        product: Option<String>,
        trees: Selection,
    },
    Water {
        trees: Selection,
    },
    Frost {
        about: Cold,
    },
    Tree {
        trees: Selection,
    },
    Ahead,
    Why {
        about: Advised,
    },
    Done {
        trees: Selection,
        /// "When did I last spray?" asks of one kind of work.
        #[serde(skip_serializing_if = "Option::is_none")]
        deed: Option<Deed>,
    },
    Season,
    Mix {
        product: Option<String>,
        #[serde(rename = "litres")]
        volume: Option<Litres>,
    },
    /// "How much copper have I used?", "what is the harvest wait for copper?"
    Product {
        product: Option<String>,
    },
    /// "Is it safe to eat off Corner?", "how long after neem can I pick?": the waits before harvest.
    Picking {
        product: Option<String>,
        trees: Selection,
    },
    /// "Can I mix sulfur and oil?": whether two products may go on together.
    Together {
        one: Partner,
        other: Partner,
    },
    Compare,
    Help,
    /// What the bot knows of the garden, its settings and people.
    Garden,
}

/// Which advice is to be explained.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Advised {
    /// "Why?": what was answered last, or the sprays.
    #[default]
    JustNow,
    /// "Why spray now?"
    Spraying,
    /// "Why so much water?"
    Watering { trees: Selection },
}

/// What of the cold is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cold {
    /// "Any frost coming?"
    #[default]
    Ahead,
    /// "How cold will it get tonight?"
    Tonight,
    /// "When is the first frost?"
    FirstFrost,
    /// "When is the last frost?"
    LastFrost,
    /// "Should I bring the pots in?"
    Shelter,
}

/// A kind of work asked after.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Deed {
    Spray,
    Water,
    Pick,
    Look,
}

impl Deed {
    pub fn is_of(self, report: &Report) -> bool {
        match self {
            Self::Spray => matches!(report, Report::Sprayed { .. }),
            Self::Water => matches!(report, Report::Watered { .. }),
            Self::Pick => matches!(report, Report::Picked { .. }),
            Self::Look => matches!(report, Report::Scouted { .. } | Report::LeafDrop { .. }),
        }
    }
}

/// One of two products in one tank: the garden's by its name, or one only spoken of.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Partner {
    pub name: String,
    /// As the word itself tells, should the garden have no such product.
    pub active: Option<Active>,
}

/// A change to the last thing this person reported.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Correction {
    /// "No, only the two by the wall."
    Trees(Selection),
    When(When),
    Product(String),
    Severity(RustAmount),
    Level(LeafLevel),
    Stage(Stage),
    Moisture(MoistureState),
    Volume(Litres),
    Depth(Millimetres),
    Count(u32),
    Mass(Kilograms),
    /// A bare number ("make that 20"): it takes the unit of what it corrects.
    Number(f64),
}

/// Talk that is not for the journal. Kept apart so that what looks like a report but is not can be
/// answered ("not noted: that is still to come") rather than silently dropped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Aside {
    Thanks,
    /// Something still to be done. A future spray is not a spray.
    Plan,
    /// "If it rains I will ..."
    Condition,
    /// Another garden, another year, another kind of rust.
    Elsewhere,
    Talk,
}

/// What could not be understood or believed, in the grower's own words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Doubt {
    pub kind: DoubtKind,
    /// The words in question, whole, as they were typed.
    pub words: String,
    /// Candidates to choose from, best first; may be empty.
    pub candidates: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DoubtKind {
    NotUnderstood,
    UnknownTree,
    UnknownProduct,
    /// More than one tree could be meant.
    WhichTree,
    /// A spray was reported without its product and the garden has several.
    WhichProduct,
    /// A report without the amount it needs.
    HowMuch,
    ImpossibleAmount,
    ImpossibleDate,
    /// A moment that lies ahead, told as if past.
    StillToCome,
    /// Letters that look like others, mixed into a word.
    LookAlikeLetters,
    OtherLanguage,
    /// Nothing to undo or correct.
    NothingThere,
    /// It names trees and tells something of them, and what it tells is not understood: a report would be lost.
    UnclearReport,
    /// A product is out, and still on the list that advice is given from.
    OutOfStock,
    UnknownPlace,
    UnknownSetting,
    /// Somebody who has no Matrix address here: "add Tino as a helper".
    UnknownPerson,
    /// "Forget me" waits for its confirmation.
    ForgetAsked,
    /// "I have a fig in a pot": what it is called was not said.
    NamelessTree,
}

impl DoubtKind {
    /// Whether a word or two settles it, read into the message that raised it.
    pub fn can_be_answered(self) -> bool {
        matches!(
            self,
            Self::UnknownTree
                | Self::WhichTree
                | Self::UnknownProduct
                | Self::WhichProduct
                | Self::HowMuch
                | Self::NamelessTree
        ) || self.is_of_a_value()
    }

    /// An amount or a day that cannot be: nothing was asked, and it is told again.
    pub fn is_of_a_value(self) -> bool {
        matches!(self, Self::ImpossibleAmount | Self::ImpossibleDate | Self::StillToCome)
    }
}

/// A question the bot asked and is waiting on: the message that raised it, and the doubt.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenQuestion {
    pub text: String,
    pub doubt: Doubt,
    pub said: DateTime<Utc>,
    pub event: crate::identity::EventId,
}
