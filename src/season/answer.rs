//! Answers before they become words. Figures are in SI units and say so in their names.

mod advice;
mod records;
mod views;

pub use advice::*;
pub use records::*;
pub use views::*;

use serde::Serialize;

use super::request::{Aside, Doubt, Setting};

#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "answer", rename_all = "snake_case")]
pub enum Answer {
    Spray(Box<SprayAdvice>),
    /// The chain behind the last spray verdict.
    Why(Box<SprayAdvice>),
    WhyWater(WaterReasons),
    Water(WaterAdvice),
    Frost(FrostAdvice),
    Tree(TreeView),
    Ahead(AheadView),
    Done(DoneView),
    Season(SeasonView),
    Mix(MixAnswer),
    Together(TogetherAnswer),
    Product(ProductView),
    Picking(PickingView),
    Compare(CompareView),
    Garden(GardenView),
    Help,
    /// What was put in the journal, when it needs words.
    Noted(Noted),
    /// A rule is broken: what, and what to do now.
    Broken(BrokenRule),
    TakenBack(TakenBack),
    Settled {
        settings: Vec<Setting>,
        missing: Vec<Missing>,
    },
    Doubtful(Doubt),
    Aside {
        aside: Aside,
    },
    Refused {
        refusal: Refusal,
    },
    Welcome {
        missing: Vec<Missing>,
    },
    /// Where set-up stands and what to tell next.
    SetUp {
        missing: Vec<Missing>,
    },
    Places {
        name: String,
        places: Vec<Place>,
    },
    Brief(Brief),
    /// The weekly line that it is alive and watching.
    Watching(Watching),
    SeasonOver(SeasonOver),
    ForgetAsked,
    /// Something came that could not be read: a key that is missing, a kind not known, a file too large.
    Unreadable {
        why: UnreadableBecause,
    },
    Forgotten,
    /// A late start: briefs of these many days were missed and are not sent after the fact.
    Missed {
        days: u32,
    },
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum UnreadableBecause {
    NoKey,
    UnknownKind,
    TooLarge,
}
