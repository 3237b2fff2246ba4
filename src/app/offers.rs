//! What a message of the bot's own offers to be done, so that a thumb on it can say "done".

use serde::{Deserialize, Serialize};

use crate::identity::{EventId, GardenId};
use crate::season::answer::{Answer, BriefItem, SprayAdvice, Standing, Verdict};

/// Kept with the message under its event.
#[derive(Clone, Debug, Default, Deserialize, PartialEq, Serialize)]
pub(super) struct About {
    pub(super) garden: Option<GardenId>,
    /// The message it answered, whose entries an "undo" takes back.
    pub(super) answers: Option<EventId>,
    pub(super) offers: Vec<Offer>,
}

#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(tag = "offer", rename_all = "snake_case")]
pub(super) enum Offer {
    Spray {
        product: String,
        trees: Vec<String>,
    },
    Water {
        trees: Vec<String>,
    },
    /// A look at the leaves, answered by a class from 0 to 5.
    Scout {
        trees: Vec<String>,
    },
}

impl About {
    pub(super) fn write(&self) -> Option<String> {
        serde_json::to_string(self).ok()
    }

    /// A record of another version is as good as none: the reaction then does nothing.
    pub(super) fn read(text: &str) -> Self {
        serde_json::from_str(text).unwrap_or_default()
    }
}

pub(super) fn offers(answers: &[Answer]) -> Vec<Offer> {
    answers
        .iter()
        .flat_map(|answer| match answer {
            Answer::Spray(advice) => spray(advice).into_iter().collect(),
            Answer::Brief(brief) => brief.items.iter().filter_map(of_item).collect(),
            Answer::Water(water) => {
                vec![Offer::Water { trees: water.trees.iter().map(|tree| tree.tree.clone()).collect() }]
            }
            _ => Vec::new(),
        })
        .collect()
}

fn of_item(item: &BriefItem) -> Option<Offer> {
    match item {
        BriefItem::Spray(advice) => spray(advice),
        BriefItem::Water { trees, .. } => {
            Some(Offer::Water { trees: trees.iter().map(|tree| tree.tree.clone()).collect() })
        }
        BriefItem::Scout { trees, .. } => Some(Offer::Scout { trees: trees.clone() }),
        _ => None,
    }
}

fn spray(advice: &SprayAdvice) -> Option<Offer> {
    let product = advice.product.clone().filter(|_| advice.verdict == Verdict::Spray)?;
    let trees =
        advice.trees.iter().filter(|tree| tree.standing == Standing::Due).map(|tree| tree.tree.clone());
    Some(Offer::Spray { product, trees: trees.collect() })
}
