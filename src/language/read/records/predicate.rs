//! What a clause says was seen or done.

use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::lexicon::Sense;
use crate::language::read::names::{Found, Product};
use crate::language::read::tokens::Token;
use crate::season::journal::{MoistureState, Stage};

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Predicate {
    Scouted,
    Clean,
    LeafDrop,
    Sprayed,
    Watered,
    Moisture(MoistureState),
    Weighed,
    Rained,
    Stage(Stage),
    Picked,
    Frost,
    Planted,
    Removed,
    Note,
    /// A report's words, but no report.
    NoReport,
}

impl Predicate {
    /// "picked 9 off the big one, 4 off Celeste": the verb serves both.
    pub(super) fn repeats(&self) -> bool {
        matches!(
            self,
            Predicate::Picked
                | Predicate::Scouted
                | Predicate::LeafDrop
                | Predicate::Watered
                | Predicate::Weighed
        )
    }

    pub(super) fn inherits_trees(&self) -> bool {
        matches!(
            self,
            Predicate::Scouted
                | Predicate::Clean
                | Predicate::LeafDrop
                | Predicate::Moisture(_)
                | Predicate::Stage(_)
                | Predicate::Weighed
        )
    }

    /// "Didn't spray", "haven't picked": said not to have happened. "No rust" is seen, and is a report.
    pub(super) fn is_denied(&self, clause: &[Token]) -> bool {
        match self {
            Predicate::Scouted | Predicate::Clean | Predicate::Rained | Predicate::Note => false,
            Predicate::LeafDrop | Predicate::Frost => {
                clause.iter().any(|token| token.senses.has(Sense::Negation))
            }
            Predicate::Stage(_) => clause.iter().any(|token| {
                token.is_any(&[
                    "not", "isn't", "isnt", "aren't", "arent", "never", "don't", "won't", "haven't", "hasn't",
                ])
            }),
            Predicate::Moisture(_) => clause.iter().any(|token| token.senses.has(Sense::Negation)),
            _ => clause.iter().any(|token| {
                token.senses.has(Sense::Negation) && !token.is("zero")
                    || token.is_any(&["forgot", "almost", "nearly", "tried", "skipped"])
            }),
        }
    }
}

pub(super) fn of(
    clause: &[Token],
    trees: &Found,
    product: &Product,
    amounts: &[Measured],
) -> Option<Predicate> {
    let words = Words { clause, trees, product, amounts };
    words
        .note()
        .or_else(|| words.stage())
        .or_else(|| words.sprayed())
        .or_else(|| words.weighed())
        .or_else(|| words.rained())
        .or_else(|| words.picked())
        .or_else(|| words.leaf_drop())
        .or_else(|| words.rust())
        .or_else(|| words.watered())
        .or_else(|| words.frost())
        .or_else(|| words.moisture())
        .or_else(|| words.planted_or_removed())
        .or_else(|| words.clean())
        .or_else(|| words.sprayed_by_product())
}

struct Words<'a> {
    clause: &'a [Token],
    trees: &'a Found,
    product: &'a Product,
    amounts: &'a [Measured],
}

impl Words<'_> {
    fn has(&self, sense: Sense) -> bool {
        self.free().any(|token| token.senses.has(sense))
    }

    fn any(&self, texts: &[&str]) -> bool {
        self.free().any(|token| token.is_any(texts))
    }

    /// Tokens that are not part of a tree's name: a tree called "Rusty" has no rust.
    fn free(&self) -> impl Iterator<Item = &Token> {
        self.clause
            .iter()
            .enumerate()
            .filter(|(index, _)| !self.trees.used.contains(index))
            .map(|(_, token)| token)
    }

    fn pair(&self, first: &[&str], second: &[&str]) -> bool {
        self.clause.windows(2).any(|pair| pair[0].is_any(first) && pair[1].is_any(second))
    }

    fn amount(&self, fits: impl Fn(&Amount) -> bool) -> bool {
        self.amounts.iter().any(|measured| fits(&measured.amount))
    }

    fn has_product(&self) -> bool {
        *self.product != Product::Unsaid
    }

    fn note(&self) -> Option<Predicate> {
        let first = self.clause.first()?;
        (first.is("note")
            || first.is("remember") && self.clause.get(1).is_some_and(|next| next.is_any(&["that", ":"])))
        .then_some(Predicate::Note)
    }

    fn stage(&self) -> Option<Predicate> {
        let leaf = self.has(Sense::Leaf);
        let fig = self.any(&[
            "fig",
            "figs",
            "fruit",
            "fruits",
            "crop",
            "breba",
            "brebas",
            "ones",
            "figlets",
            "fruitlets",
        ]);
        let stage = if self.any(&[
            "leafed",
            "leafing",
            "budding",
            "budded",
            "budbreak",
            "leafout",
            "sprouting",
            "sprouted",
        ]) || self
            .pair(&["bud", "buds"], &["break", "broke", "breaking", "opening", "swelling"])
            || (leaf
                && self.any(&["out", "emerging", "unfolding", "opening", "unfurling", "coming"])
                && !self.has(Sense::Drop)
                && !self.has(Sense::Rust))
        {
            Stage::LeafOut
        } else if self
            .pair(&["picked", "all", "completely", "totally"], &["out", "clean", "done", "finished"])
            || self.pair(&["last"], &["fig", "figs", "fruit", "ones"]) && !self.has(Sense::Rain)
            || (self.any(&["finished", "done"])
                && (fig || self.any(&["season", "year", "bearing", "fruiting"]))
                && !self.has_product())
            || self.pair(&["no", "any"], &["more"]) && fig
        {
            Stage::PickedOut
        } else if self.any(&["figlets", "figlet", "fruitlets", "fruitlet", "pea", "peas"])
            || (fig
                && self.any(&["set", "setting", "forming", "formed", "tiny", "marble", "marbles", "baby"]))
        {
            Stage::Fruitlets
        } else if self.any(&["swelling", "swelled", "swell", "swollen", "plumping", "sizing", "enlarging"]) {
            Stage::Swelling
        } else if self.any(&[
            "ripening",
            "ripen",
            "ripened",
            "coloring",
            "colouring",
            "softening",
            "soft",
            "sagging",
            "nodding",
        ]) || (self.any(&["ripe"])
            && !self.has(Sense::Picked)
            && !self.amount(|amount| matches!(amount, Amount::Count(_))))
        {
            Stage::Ripening
        } else if self.any(&["dormant", "asleep", "dormancy"]) {
            Stage::Dormant
        } else if self.pair(&["leaf", "leaves"], &["fall"]) && !self.any(&["before", "after"])
            || self.any(&["leaffall"])
            || (leaf && self.any(&["yellowing", "yellow"]) && self.any(&["falling", "dropping"]))
        {
            Stage::LeafFall
        } else {
            return None;
        };
        Some(Predicate::Stage(stage))
    }

    fn sprayed(&self) -> Option<Predicate> {
        let plain = self.any(&["sprayed", "spraid", "sprayd", "resprayed", "respray"]);
        let with_product = self.has_product()
            && (self.any(&[
                "sprayed",
                "dosed",
                "treated",
                "misted",
                "applied",
                "dusted",
                "coated",
                "drenched",
                "hit",
                "gave",
                "put",
                "did",
                "used",
                "got",
                "done",
                "went",
                "spray",
                "spraying",
                "on",
                "application",
                "round",
                "reapplied",
                "finished",
                "doused",
            ]));
        let dosing = self.any(&["treated", "dosed", "misted"]) && !self.has(Sense::Water);
        (plain || (with_product && !self.has(Sense::Rust)) || dosing).then_some(Predicate::Sprayed)
    }

    /// "copper pots 7am": a product and nothing else that would be a verb.
    fn sprayed_by_product(&self) -> Option<Predicate> {
        let placed = self.trees.selection.is_some() || self.clause.len() <= 3;
        (self.has_product()
            && placed
            && !self.any(&[
                "label", "out", "need", "buy", "buying", "bought", "order", "ordered", "ordering", "mix",
                "rate", "more", "works", "online", "low",
            ]))
        .then_some(Predicate::Sprayed)
    }

    fn weighed(&self) -> Option<Predicate> {
        let mass = self.amount(|amount| matches!(amount, Amount::Mass(_)));
        let on_scale = self.any(&["weighed", "weighs"]) && self.trees.selection.is_some();
        ((mass || on_scale)
            && self.has(Sense::Weighed)
            && !self.has(Sense::Picked)
            && !self.any(&["figs", "fig"]))
        .then_some(Predicate::Weighed)
    }

    fn rained(&self) -> Option<Predicate> {
        let measured = self.amount(|amount| matches!(amount, Amount::Depth(_) | Amount::Length(_)));
        let gauge = self.has(Sense::Gauge);
        let rain = self.has(Sense::Rain);
        // Mulch and compost are measured like rain.
        let other = self.has(Sense::Watered) || self.any(&["mulch", "compost", "bark"]);
        (gauge
            || (rain && measured)
            || (measured
                && self.trees.selection.is_none()
                && !other
                && self.any(&["got", "had", "overnight", "fell", "collected"])))
        .then_some(Predicate::Rained)
    }

    fn picked(&self) -> Option<Predicate> {
        let verb = self.any(&[
            "picked",
            "harvested",
            "gathered",
            "pulled",
            "plucked",
            "pickd",
            "picd",
            "harvest",
            "picking",
            "harvesting",
            "pick",
            "ate",
            "grabbed",
            "collected",
        ]);
        let fig = self.any(&["fig", "figs", "fruit", "ripe"]);
        let counted = self.amount(|amount| matches!(amount, Amount::Count(_) | Amount::Mass(_)));
        let off = self.any(&["off", "from"]);
        let leaves = self.has(Sense::Leaf);
        ((verb && !leaves && !(self.any(&["pulled", "collected", "gathered"]) && !fig && !counted))
            || (fig && counted && !self.has(Sense::Rust) && !self.has(Sense::Drop))
            || (self.any(&["got"]) && counted && off && !self.has(Sense::Rain)))
        .then_some(Predicate::Picked)
    }

    fn leaf_drop(&self) -> Option<Predicate> {
        let leaf = self.has(Sense::Leaf);
        let drop = self.has(Sense::Drop);
        let bare = self.any(&["bare", "naked", "defoliated", "defoliating", "leafless"]);
        let lost = self.amount(|amount| matches!(amount, Amount::Share(_))) && self.any(&["defoliation"]);
        ((leaf && drop && !self.any(&["figs", "fig"])) || bare || lost).then_some(Predicate::LeafDrop)
    }

    fn rust(&self) -> Option<Predicate> {
        let class = self.amount(|amount| matches!(amount, Amount::Class(_)));
        let leaves_of =
            self.amount(|amount| matches!(amount, Amount::LeavesOf { .. })) && self.has(Sense::Leaf);
        (self.has(Sense::Rust) || class || leaves_of).then_some(Predicate::Scouted)
    }

    fn watered(&self) -> Option<Predicate> {
        let verb = self.has(Sense::Watered) && !self.has(Sense::Wet);
        let gave = self.any(&["gave", "given", "got", "had", "poured", "put"])
            && (self.any(&["water", "drink"]) || self.amount(|amount| matches!(amount, Amount::Volume(_))));
        let each = self.amount(|amount| matches!(amount, Amount::Volume(_)))
            && (self.any(&["each", "water", "apiece", "per"]) || self.trees.selection.is_some());
        let drip = self.any(&["drip", "dripper", "sprinkler"]) && self.any(&["ran", "on", "run"]);
        (verb || gave || each || drip).then_some(Predicate::Watered)
    }

    fn frost(&self) -> Option<Predicate> {
        let low = self.any(&["low", "hit", "down"])
            && self.amount(|amount| matches!(amount, Amount::Count(_)))
            && self.any(&["night", "overnight", "morning"]);
        let cold = low
            || self.amount(|amount| matches!(amount, Amount::Temperature(_)))
                && self.any(&[
                    "low",
                    "down",
                    "hit",
                    "dropped",
                    "night",
                    "froze",
                    "got",
                    "minimum",
                    "min",
                    "was",
                    "overnight",
                ]);
        (self.has(Sense::Frost) && !self.any(&["before", "until", "till", "cloth", "cloths", "blanket"])
            || cold)
            .then_some(Predicate::Frost)
    }

    fn moisture(&self) -> Option<Predicate> {
        let about_soil =
            self.trees.selection.is_some() || self.any(&["soil", "dirt", "mix", "pot", "rootball"]);
        let leaf = self.has(Sense::Leaf);
        let state = if self.has(Sense::Wet) {
            MoistureState::Wet
        } else if self.has(Sense::Dry) {
            MoistureState::Dry
        } else if self.any(&["moist", "damp"]) || (self.any(&["fine"]) && self.any(&["soil", "moisture"])) {
            MoistureState::Moist
        } else {
            return None;
        };
        (about_soil && !leaf).then_some(Predicate::Moisture(state))
    }

    fn planted_or_removed(&self) -> Option<Predicate> {
        if self.any(&["planted", "repotted"]) || self.pair(&["potted"], &["up", "the", "my", "a"]) {
            return Some(Predicate::Planted);
        }
        let gone = self.any(&["died", "dead", "removed", "sold", "binned", "ditched", "tossed"])
            || self.pair(&["dug", "pulled", "threw", "gave", "got"], &["up", "out", "away", "rid"]);
        (gone && self.trees.selection.is_some()).then_some(Predicate::Removed)
    }

    fn clean(&self) -> Option<Predicate> {
        // "..., clean" behind the names it is said of.
        let alone = self.clause.len() <= 2;
        let about = self.trees.selection.is_some() || self.has(Sense::Leaf) || alone;
        let clean = self.has(Sense::Clean)
            || (self.any(&["looks", "look", "looking", "looked"])
                && self.any(&["good", "great", "perfect"])
                && self.has(Sense::Leaf));
        (clean && about && !self.any(&["up", "cleaned"])).then_some(Predicate::Clean)
    }
}
