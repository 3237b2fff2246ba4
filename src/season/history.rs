//! The journal folded tree by tree: what was seen and done on each, in the order it happened.

use chrono::{DateTime, Utc};

use super::garden::{Active, Carrier, Garden, Product, same_name};
use super::journal::{Journal, LeafLevel, MoistureState, Report, RustAmount, Stage, What, Whereabouts};
use super::request::Setting;
use crate::units::{Celsius, Fraction, Kilograms, Litres, Millimetres};

#[derive(Clone, Debug, Default)]
pub struct History {
    trees: Vec<TreeHistory>,
    pub gauge: Vec<Gauged>,
    pub frosts: Vec<(DateTime<Utc>, Option<Celsius>)>,
}

/// One tree's past. Every list is in the order things happened.
#[derive(Clone, Debug, Default)]
pub struct TreeHistory {
    pub name: String,
    pub sprays: Vec<Sprayed>,
    pub scouted: Vec<Looked>,
    pub leaf_drop: Vec<(DateTime<Utc>, Option<Fraction>)>,
    pub stages: Vec<(DateTime<Utc>, Stage)>,
    pub picked: Vec<Picking>,
    pub watered: Vec<Watering>,
    pub moisture: Vec<Felt>,
    pub weighed: Vec<(DateTime<Utc>, Kilograms, MoistureState)>,
    pub moved: Vec<(DateTime<Utc>, Whereabouts)>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct Sprayed {
    pub at: DateTime<Utc>,
    /// The garden's name for the product.
    pub product: String,
    pub active: Active,
    pub carrier: Carrier,
    /// The share of the sprayed volume that fell to this tree.
    pub volume: Option<Litres>,
}

impl Sprayed {
    /// A spray that is only thought of.
    pub fn thought_of(product: &Product, at: DateTime<Utc>) -> Self {
        Self {
            at,
            product: product.name.clone(),
            active: product.active,
            carrier: product.carrier,
            volume: None,
        }
    }

    /// Whether it carries oil, which burns leaves that have sulfur on them.
    pub fn is_oily(&self) -> bool {
        self.active == Active::Oil || self.carrier == Carrier::Oil
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Looked {
    pub at: DateTime<Utc>,
    pub amount: RustAmount,
    pub level: Option<LeafLevel>,
}

/// How wet the soil was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Felt {
    pub at: DateTime<Utc>,
    pub state: MoistureState,
    /// Waterings of the same moment told before it: "bone dry, gave it 2 gallons" was dry before, "2 gallons and
    /// still dry" after.
    pub after: usize,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Picking {
    pub at: DateTime<Utc>,
    pub count: Option<u32>,
    pub mass: Option<Kilograms>,
    /// An equal share of what several trees gave together.
    pub shared: bool,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Watering {
    pub at: DateTime<Utc>,
    pub volume: Option<Litres>,
    pub depth: Option<Millimetres>,
}

/// A reading of the grower's own gauge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gauged {
    pub at: DateTime<Utc>,
    pub depth: Millimetres,
}

/// One tree's part in what was told once of several.
#[derive(Clone, Copy)]
struct Part {
    place: usize,
    of: usize,
    /// Its part of one tank, 0 to 1.
    sprayed: f64,
}

impl Part {
    /// An equal share in whole figs: what does not divide goes to the first, so that the shares add up to the count.
    fn share_of(self, count: u32) -> u32 {
        let (place, of) = (self.place as u32, self.of as u32);
        count / of + u32::from(place < count % of)
    }
}

impl History {
    /// Folds what stands in the journal. Trees keep their past through a change of name.
    pub fn of(journal: &Journal, garden: &Garden) -> Self {
        let mut history = History::default();
        for (_, entry) in journal.standing() {
            match &entry.what {
                What::Report { trees, report } => history.enter(entry.happened, trees, report, garden),
                What::Setting(Setting::RenameTree { from, to }) => history.rename(from, to),
                What::Setting(_) => {}
            }
        }
        history.in_order();
        history
    }

    pub fn tree(&self, name: &str) -> Option<&TreeHistory> {
        self.trees.iter().find(|tree| same_name(&tree.name, name))
    }

    fn enter(&mut self, at: DateTime<Utc>, trees: &[String], report: &Report, garden: &Garden) {
        match report {
            Report::Rained { depth } => self.gauge.push(Gauged { at, depth: *depth }),
            Report::Frost { minimum } => self.frosts.push((at, *minimum)),
            _ => {}
        }
        let of = trees.len().max(1);
        let shares = match report {
            Report::Sprayed { volume: Some(_), .. } => shares_of_tank(trees, garden),
            _ => Vec::new(),
        };
        for (place, name) in trees.iter().enumerate() {
            let sprayed = shares.get(place).copied().unwrap_or(1.0);
            self.tree_mut(name).enter(at, report, Part { place, of, sprayed }, garden);
        }
    }

    fn tree_mut(&mut self, name: &str) -> &mut TreeHistory {
        let known = self.trees.iter().position(|tree| same_name(&tree.name, name));
        let index = known.unwrap_or_else(|| {
            self.trees.push(TreeHistory { name: name.to_owned(), ..TreeHistory::default() });
            self.trees.len() - 1
        });
        &mut self.trees[index]
    }

    fn rename(&mut self, from: &str, to: &str) {
        for tree in self.trees.iter_mut().filter(|tree| same_name(&tree.name, from)) {
            tree.name = to.to_owned();
        }
    }

    fn in_order(&mut self) {
        self.gauge.sort_by_key(|reading| reading.at);
        self.frosts.sort_by_key(|frost| frost.0);
        for tree in &mut self.trees {
            tree.sprays.sort_by_key(|spray| spray.at);
            tree.scouted.sort_by_key(|look| look.at);
            tree.leaf_drop.sort_by_key(|drop| drop.0);
            tree.stages.sort_by_key(|stage| stage.0);
            tree.picked.sort_by_key(|picking| picking.at);
            tree.watered.sort_by_key(|watering| watering.at);
            tree.moisture.sort_by_key(|felt| felt.at);
            tree.weighed.sort_by_key(|weighing| weighing.0);
            tree.moved.sort_by_key(|move_told| move_told.0);
        }
    }
}

impl TreeHistory {
    /// The last stage reported at or before a moment, no older than the season's start.
    pub fn stage(&self, season_start: DateTime<Utc>, now: DateTime<Utc>) -> Option<(DateTime<Utc>, Stage)> {
        self.stages.iter().rev().find(|(at, _)| (season_start..=now).contains(at)).copied()
    }

    /// Since when it stands indoors, if it does at a moment: it stays where it was last told to be.
    pub fn housed_since(&self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let indoors = |moved: &&(DateTime<Utc>, Whereabouts)| moved.1 == Whereabouts::Indoors;
        // "Moved the pots in", and told again a week later: since the first of them.
        let before = self.moved.iter().rev().filter(|(at, _)| *at <= now);
        before.take_while(indoors).last().map(|(at, _)| *at)
    }

    fn enter(&mut self, at: DateTime<Utc>, report: &Report, part: Part, garden: &Garden) {
        let parts = part.of as f64;
        match report {
            Report::Scouted { amount, level } => {
                self.scouted.push(Looked { at, amount: *amount, level: *level });
            }
            Report::LeafDrop { share } => self.leaf_drop.push((at, *share)),
            Report::Sprayed { product, volume } => {
                // A product taken off the list since keeps its place by its name alone.
                let known = garden.product(product);
                self.sprays.push(Sprayed {
                    at,
                    product: product.clone(),
                    active: known.map_or_else(|| active_by_name(product), |known| known.active),
                    carrier: known.map_or(Carrier::Water, |known: &Product| known.carrier),
                    volume: volume.map(|volume| volume * part.sprayed),
                });
            }
            Report::Watered { volume, depth } => {
                self.watered.push(Watering { at, volume: *volume, depth: *depth });
            }
            Report::Moisture { state } => {
                let after = self.watered.iter().filter(|watering| watering.at == at).count();
                self.moisture.push(Felt { at, state: *state, after });
            }
            Report::Weighed { mass, state } => self.weighed.push((at, *mass, *state)),
            Report::Stage { stage } => self.stages.push((at, *stage)),
            Report::Moved { to } => self.moved.push((at, *to)),
            Report::Picked { count, mass } => {
                // A count said once of several trees is theirs together; "6 each" comes as a report for each.
                self.picked.push(Picking {
                    at,
                    count: count.map(|count| part.share_of(count)),
                    mass: mass.map(|mass| mass / parts),
                    shared: part.of > 1,
                });
            }
            Report::Rained { .. }
            | Report::Frost { .. }
            | Report::Planted
            | Report::Removed
            | Report::Note { .. }
            | Report::Photo { .. } => {}
        }
    }
}

/// The part of one tank that went on each tree: by the ground its crown covers, as one sprays until the leaves are wet.
/// A whip gets no sixth of what six trees got. Where a crown's width is not told, the trees share alike.
fn shares_of_tank(trees: &[String], garden: &Garden) -> Vec<f64> {
    let area = |name: &String| {
        let width = garden.tree(name)?.width?.value();
        (width > 0.0).then_some(width * width)
    };
    let areas: Option<Vec<f64>> = trees.iter().map(area).collect();
    match areas {
        Some(areas) => {
            let whole: f64 = areas.iter().sum();
            areas.iter().map(|area| area / whole).collect()
        }
        None => vec![1.0 / trees.len().max(1) as f64; trees.len()],
    }
}

fn active_by_name(name: &str) -> Active {
    let name = name.to_lowercase();
    match () {
        () if name.contains("copper") => Active::Copper,
        () if name.contains("sulfur") || name.contains("sulphur") => Active::Sulfur,
        () if name.contains("oil") || name.contains("neem") => Active::Oil,
        () => Active::Other,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic, clippy::float_cmp, reason = "a test that cannot go on stops; one whole is exact")]

    use super::*;
    use crate::season::garden::{Stand, Tree};
    use crate::units::Metres;

    /// Two gallons over a big tree and a whip lie equally thick on both: a crown of 3.2 m covers 40.96 times the ground
    /// of one of 0.5 m (areas of circles are as the squares of their widths).
    #[test]
    fn a_tank_is_shared_by_the_ground_under_each_crown() {
        let tree = |name: &str, width| Tree { width, ..Tree::new(name, Stand::ground()) };
        let mut garden = Garden::new("");
        garden.trees = vec![tree("Wall", Some(Metres::new(3.2))), tree("Whip", Some(Metres::new(0.5)))];
        let both = [String::from("Wall"), String::from("Whip")];
        let shares = shares_of_tank(&both, &garden);
        let [wall, whip] = shares.as_slice() else { panic!("{shares:?}") };
        assert!((wall + whip - 1.0).abs() < 1e-12 && (wall / whip - 40.96).abs() < 1e-9, "{wall} {whip}");
        garden.trees.push(tree("Corner", None));
        let three = [both[0].clone(), both[1].clone(), String::from("Corner")];
        let shares = shares_of_tank(&three, &garden);
        assert!(
            shares.iter().all(|share| (share - 1.0 / 3.0).abs() < 1e-12),
            "a width is not told: {shares:?}"
        );
        let alone = shares_of_tank(&three[2..], &garden);
        assert!(alone == [1.0], "{alone:?}");
    }

    /// The last told of a tree holds, by when it happened and not by when it was told; what is taken back never was.
    #[test]
    fn a_tree_stands_where_it_was_last_carried() {
        use crate::identity::{EventId, PersonId};
        use crate::season::journal::{Act, Entry, LineNumber, Retraction, Timing, Withdrawal};
        let day = |day: i64| DateTime::UNIX_EPOCH + chrono::TimeDelta::days(day);
        let (who, event) = (PersonId::new("ana"), EventId::new("e"));
        let carried = |on: i64, to: Whereabouts| {
            let what = What::Report { trees: vec![String::from("Whip")], report: Report::Moved { to } };
            let (who, event) = (who.clone(), event.clone());
            Act::Enter(Entry { who, event, said: day(99), happened: day(on), timing: Timing::Told, what })
        };
        let since = |journal: &Journal, now: i64| {
            let history = History::of(journal, &Garden::new(""));
            history.tree("Whip").and_then(|whip| whip.housed_since(day(now)))
        };
        let mut journal = Journal::default();
        journal.push(carried(20, Whereabouts::Indoors));
        journal.push(carried(10, Whereabouts::Outdoors));
        journal.push(carried(25, Whereabouts::Indoors));
        assert_eq!(since(&journal, 15), None, "not in yet");
        assert_eq!(since(&journal, 30), Some(day(20)), "told twice, in since the first");
        let LineNumber(out) = journal.push(carried(40, Whereabouts::Outdoors));
        assert_eq!(since(&journal, 30), Some(day(20)), "still in that day");
        assert_eq!(since(&journal, 50), None, "out again");
        let entry = LineNumber(out);
        journal.push(Act::Retract(Retraction { entry, why: Withdrawal::Undone, who, event, said: day(99) }));
        assert_eq!(since(&journal, 50), Some(day(20)), "taken back");
    }
}
