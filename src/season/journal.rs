//! The journal: what was seen, done and settled. Append-only, and the only truth.
//!
//! Nothing is overwritten. A line either enters something or retracts an earlier entry; what
//! stands is what was entered and not retracted.

use std::collections::HashSet;
use std::sync::Arc;

use chrono::{DateTime, Utc};
use serde::Serialize;

use super::garden::{Garden, Role};
use super::request::Setting;
use crate::identity::{EventId, PersonId};
use crate::units::{Celsius, Fraction, Kilograms, Litres, Millimetres};

/// A season is hundreds of lines, and every decision is handed them: a clone shares them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Journal {
    lines: Arc<Vec<Line>>,
}

/// The number of a line within its garden's journal, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct LineNumber(pub u64);

#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    pub number: LineNumber,
    pub act: Act,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Act {
    Enter(Entry),
    Retract(Retraction),
}

#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    pub who: PersonId,
    /// The event that said it.
    pub event: EventId,
    pub said: DateTime<Utc>,
    pub happened: DateTime<Utc>,
    pub timing: Timing,
    pub what: What,
}

/// Whether the time of an entry was told or taken from when it was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Timing {
    Told,
    Assumed,
}

#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// Something seen or done, on these trees by nickname; on none, it concerns the garden.
    Report {
        trees: Vec<String>,
        report: Report,
    },
    Setting(Setting),
}

#[derive(Clone, Debug, PartialEq)]
pub struct Retraction {
    pub entry: LineNumber,
    pub why: Withdrawal,
    pub who: PersonId,
    pub event: EventId,
    pub said: DateTime<Utc>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Withdrawal {
    /// The message was edited; what it says now stands instead.
    Edited,
    /// The message was deleted.
    Deleted,
    /// The grower said "undo".
    Undone,
    /// A later message corrected it.
    Corrected,
    /// The person asked to be forgotten.
    Forgotten,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "record", rename_all = "snake_case")]
pub enum Report {
    Scouted {
        amount: RustAmount,
        level: Option<LeafLevel>,
    },
    LeafDrop {
        share: Option<Fraction>,
    },
    /// `product` is the name the garden knows it by.
    Sprayed {
        product: String,
        #[serde(rename = "litres")]
        volume: Option<Litres>,
    },
    /// Litres for each tree, or a depth of water over the ground.
    Watered {
        #[serde(rename = "litres")]
        volume: Option<Litres>,
        #[serde(rename = "mm")]
        depth: Option<Millimetres>,
    },
    Moisture {
        state: MoistureState,
    },
    /// A pot put on a scale, freshly watered or about to be.
    Weighed {
        #[serde(rename = "kg")]
        mass: Kilograms,
        state: MoistureState,
    },
    /// The grower's own gauge, for the day it was read.
    Rained {
        #[serde(rename = "mm")]
        depth: Millimetres,
    },
    Stage {
        stage: Stage,
    },
    Picked {
        count: Option<u32>,
        #[serde(rename = "kg")]
        mass: Option<Kilograms>,
    },
    Frost {
        #[serde(rename = "min_c")]
        minimum: Option<Celsius>,
    },
    Planted,
    Removed,
    /// A tree in a pot was taken in for the cold, or out again.
    Moved {
        to: Whereabouts,
    },
    Note {
        text: String,
    },
    Photo {
        caption: Option<String>,
        reference: Option<String>,
    },
}

/// How much rust was seen, in the grower's own measure.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RustAmount {
    None,
    /// Part of the leaf area.
    Severity(Fraction),
    /// Class 0 to 5 of the fig rust scale.
    Class(u8),
    /// Spotted leaves among those looked at.
    Leaves {
        spotted: u32,
        of: u32,
    },
    /// "A few spots", "some", "covered".
    Words(RustWords),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RustWords {
    Trace,
    Some,
    Heavy,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LeafLevel {
    Lower,
    Middle,
    Upper,
    Whole,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MoistureState {
    Dry,
    Moist,
    Wet,
}

/// Where a tree in a pot stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Whereabouts {
    /// In a garage, shed, cellar or house: no frost, rain or dew reaches it.
    Indoors,
    Outdoors,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    LeafOut,
    Fruitlets,
    Swelling,
    Ripening,
    PickedOut,
    LeafFall,
    Dormant,
}

impl Journal {
    /// Lines in the order they were written.
    pub fn new(lines: Vec<Line>) -> Self {
        Self { lines: Arc::new(lines) }
    }

    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    pub fn push(&mut self, act: Act) -> LineNumber {
        let number = self.next_number();
        Arc::make_mut(&mut self.lines).push(Line { number, act });
        number
    }

    pub fn next_number(&self) -> LineNumber {
        LineNumber(self.lines.last().map_or(0, |line| line.number.0) + 1)
    }

    /// What was entered and not retracted, in the order it was written.
    pub fn standing(&self) -> impl Iterator<Item = (LineNumber, &Entry)> {
        let retracted: HashSet<LineNumber> = self
            .lines
            .iter()
            .filter_map(|line| match &line.act {
                Act::Retract(retraction) => Some(retraction.entry),
                Act::Enter(_) => None,
            })
            .collect();
        self.lines.iter().filter_map(move |line| match &line.act {
            Act::Enter(entry) if !retracted.contains(&line.number) => Some((line.number, entry)),
            _ => None,
        })
    }

    /// Standing reports with the trees they concern, in the order they were written.
    pub fn reports(&self) -> impl Iterator<Item = (&Entry, &[String], &Report)> {
        self.standing().filter_map(|(_, entry)| match &entry.what {
            What::Report { trees, report } => Some((entry, trees.as_slice(), report)),
            What::Setting(_) => None,
        })
    }

    /// Standing entries that one message made.
    pub fn of_event(&self, event: &EventId) -> Vec<(LineNumber, &Entry)> {
        self.standing().filter(|(_, entry)| &entry.event == event).collect()
    }

    /// The garden as its standing settings make it.
    pub fn garden(&self) -> Garden {
        self.standing().fold(Garden::new(""), |mut garden, (_, entry)| {
            match &entry.what {
                What::Setting(setting) => setting.apply(&mut garden),
                What::Report { trees, report: Report::Removed } => {
                    garden.trees.retain(|tree| !trees.contains(&tree.name));
                }
                What::Report { .. } => {}
            }
            garden
        })
    }

    /// Whether somebody may change settings already.
    pub fn has_keeper(&self) -> bool {
        self.garden().people.iter().any(|person| person.role == Role::Keeper)
    }
}
