//! What stands before the first verb of a sentence, and what it says if none follows.

use super::hanging::{is_rust, is_severity};
use super::predicate::{Predicate, WOOD};
use super::water::{DRY_GOODS, says_pot_size};
use chrono::Datelike;

use super::{Memory, Part};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::lexicon::{Sense, Senses};
use crate::language::read::moments::Moment;
use crate::language::read::mood::pair;
use crate::language::read::names::Trees;
use crate::language::read::word_list::words;
use crate::season::journal::{MoistureState, Report, What};

/// What stands before the first verb: subjects, a time, a spray.
#[derive(Default)]
pub(super) struct Opening {
    pub(super) parts: Vec<Part>,
    pub(super) moment: Moment,
    /// "Celeste: ...": said of her until another is named.
    pub(super) topic: Option<Trees>,
    /// Something was said that is not understood: a bare "2 inches" behind it may be of that.
    pub(super) unexplained: bool,
    /// Work on other plants, which the next names may go on with: "watered the lawn and the pots".
    pub(super) left_off: Option<Part>,
    /// The words of it: "Defoliation, Corner: 60%".
    pub(super) said: Senses,
    /// "Had a look at Celeste and ...": what is seen next is seen on her.
    pub(super) looked_at: Option<Trees>,
    /// Named bare behind trees that show nothing, and perhaps to be told of: "... the pots; Wall, sadly, ...".
    pub(super) hung: Option<Trees>,
    /// Put in the tank, before it is said where it went.
    pub(super) mixed: Option<Part>,
    /// Told to have been passed over: "skipped Eave", of whom a reason may follow.
    pub(super) skipped: Option<Trees>,
    /// Named in something that reports nothing: "lost five figs off Wall to the birds".
    pub(super) passing: Trees,
    /// Where that was said.
    pub(super) passing_at: usize,
}

impl Opening {
    /// "Celeste (10%)": an amount behind a name is the name's.
    pub(super) fn add(&mut self, part: Part) {
        match self.parts.last_mut() {
            Some(last)
                if last.names_trees()
                    && last.amounts.is_empty()
                    && !part.names_trees()
                    && !part.amounts.is_empty() =>
            {
                last.amounts = part.amounts;
                last.amounts.iter_mut().for_each(Measured::set_apart);
                last.senses = last.senses.and(part.senses);
                last.level = last.level.or(part.level);
                last.range.end = part.range.end;
                last.moment.completed_by(part.moment);
            }
            // "3 lb, all from Wall"
            Some(last)
                if !last.names_trees()
                    && !last.amounts.is_empty()
                    && part.names_trees()
                    && part.amounts.is_empty() =>
            {
                last.trees = part.trees;
                last.range.end = part.range.end;
                last.moment.completed_by(part.moment);
            }
            _ => self.parts.push(part),
        }
    }

    /// "Copper: pots, 7 am": a spray, trees, and no verb.
    fn sprayed(&mut self, speech: &Speech) -> Option<Part> {
        let product = self.parts.iter().any(|part| !part.products.is_empty());
        let trees = self.parts.iter().any(|part| part.names_trees());
        let stocked = speech.tokens.iter().any(|token| token.senses.has_any(&[Sense::Shop, Sense::Negation]));
        if !product || !trees || stocked || self.parts.len() < 2 {
            return None;
        }
        // "Sulfur for both ground trees, neem for the potted ones": each its own, told one by one.
        if self.parts.iter().all(|part| !part.products.is_empty() && part.names_trees()) {
            return None;
        }
        let mut parts = std::mem::take(&mut self.parts).into_iter();
        let mut whole = parts.next()?;
        for part in parts {
            whole.trees = std::mem::take(&mut whole.trees).together(part.trees);
            whole.products.extend(part.products);
            whole.moment.completed_by(part.moment);
            whole.amounts.extend(part.amounts);
            whole.range.end = part.range.end;
        }
        whole.moment.completed_by(self.moment.clone());
        Some(Part { predicate: Some(Predicate::Sprayed), ..whole })
    }

    /// Nothing followed: perhaps what was said is enough, as in "Celeste 10% lower".
    pub(super) fn left_over(&mut self, speech: &Speech, memory: &Memory, joined: &mut Vec<Part>) {
        let carried = memory.predicate.filter(|predicate| predicate.repeats());
        if let Some(sprayed) = self.sprayed(speech) {
            joined.push(sprayed);
            return;
        }
        let stocked = self.parts.len() < 2
            || speech.tokens.iter().any(|token| token.senses.has_any(&[Sense::Shop, Sense::Negation]));
        let scouted = self.parts.iter().any(is_severity);
        let tally = is_tally(speech, &self.parts).or_else(|| is_led_by_harvest(speech, &self.parts));
        for part in std::mem::take(&mut self.parts) {
            let counted = part.amounts.iter().any(|measured| measured.amount != Amount::Other);
            let told = part.names_trees() || part.range.len() <= 3 || part.senses.has(Sense::Leaf);
            let shown = part.names_trees()
                && part.senses.has_any(&[Sense::Some, Sense::Trace, Sense::Heavy])
                && (scouted || is_rust(memory.predicate));
            // "There are leaves falling from Wall. I would say one in five."
            let fallen = memory.predicate == Some(Predicate::LeafDrop) && !part.senses.has(Sense::Rust);
            let dropped = self.said.has(Sense::Drop) || part.senses.has(Sense::Drop) || fallen;
            let predicate = if dropped && is_severity(&part) {
                Some(Predicate::LeafDrop)
            } else if shown || is_severity(&part) && told {
                Some(Predicate::Scouted)
            } else if part.names_trees() && part.any(speech.tokens, words!("none nothing n nope negative")) {
                // "Celeste: 2 gal. Wall: nothing" tells of no leaves.
                carried.filter(|carried| is_rust(Some(*carried))).map(|_| Predicate::Clean)
            } else if part.pours()
                && !part.names_trees()
                && part.products.is_empty()
                && memory.predicate == Some(Predicate::Moisture(MoistureState::Dry))
                && part.range.len() <= 5
            {
                // "Eave dry again. Half gallon in."
                Some(Predicate::Watered)
            } else if part.names_trees() && !part.products.is_empty() && !stocked {
                // "Sulfur for both ground trees, neem for the potted ones"
                Some(Predicate::Sprayed)
            } else if part.names_trees() && counted {
                carried.or_else(|| by_measure(speech, &part)).or(tally)
            } else {
                None
            };
            if let Some(predicate) = predicate {
                let products =
                    if part.products.is_empty() { memory.products.clone() } else { part.products.clone() };
                joined.push(Part { predicate: Some(predicate), products, ..part });
            }
        }
    }
}

/// "Big One 6, Celeste 14, Wall 1": names and bare numbers are what was picked, in the months figs ripen, if this
/// person told of nothing else just before.
fn is_tally(speech: &Speech, parts: &[Part]) -> Option<Predicate> {
    const MOST_FIGS: f64 = 300.0;
    const RIPE_NORTH: std::ops::RangeInclusive<u32> = 6..=11;
    let last = speech.context.just_said();
    let of_else =
        last.is_some_and(|last| !matches!(&last.what, What::Report { report: Report::Picked { .. }, .. }));
    let counted = parts.iter().all(|part| {
        let whole = matches!(part.amounts.as_slice(), [Measured { amount: Amount::Count(count), .. }]
            if count.fract() == 0.0 && (0.0..=MOST_FIGS).contains(count));
        let bare = part.free(speech).all(|token| {
            token.is_mark()
                || token.number.is_some()
                || token.senses.has_any(&[Sense::Time, Sense::Link, Sense::Filler])
        });
        // "Wall 8, Corner none"
        let none = part.amounts.is_empty() && part.any(speech.tokens, words!("none nothing nil"));
        (whole && bare || none) && part.trees.names_one_by_name()
    });
    let counted = counted && parts.iter().any(|part| !part.amounts.is_empty());
    let month = speech.date().month();
    let south = speech.context.garden.position.is_some_and(|position| position.latitude.value() < 0.0);
    let ripe = if south { !RIPE_NORTH.contains(&month) } else { RIPE_NORTH.contains(&month) };
    (parts.len() > 1 && counted && ripe && !of_else).then_some(Predicate::Picked)
}

/// "Celeste 5, Big One 5, the same again from Wall": all of it off trees.
fn is_led_by_harvest(speech: &Speech, parts: &[Part]) -> Option<Predicate> {
    let counted = |part: &Part| {
        part.names_trees()
            && matches!(part.amounts.as_slice(), [Measured { amount: Amount::Count(count), .. }] if count.fract() == 0.0)
    };
    let off = parts.iter().any(|part| by_measure(speech, part) == Some(Predicate::Picked));
    (parts.len() > 1 && off && parts.iter().all(counted)).then_some(Predicate::Picked)
}

/// "Celeste: 2 gal" was watered, "3 lb from Wall" was picked.
fn by_measure(speech: &Speech, part: &Part) -> Option<Predicate> {
    if !part.products.is_empty() {
        return Some(Predicate::Sprayed);
    }
    // "Cut 4 branches off Corner", "gave 5 figs from Wall to Bo"
    let no_harvest = part.any(speech.tokens, WOOD) || part.any(speech.tokens, words!("gave given"));
    // "Got a new tree: Kadota, 10 gallon"
    let new = pair(speech.tokens, words!("new"), words!("tree trees fig pot cutting"));
    if new || no_harvest || says_pot_size(speech.tokens) || part.any(speech.tokens, DRY_GOODS) {
        return None;
    }
    let off = part.any(speech.tokens, words!("off from"));
    part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Volume(_) => Some(Predicate::Watered),
        Amount::Mass(_) => Some(Predicate::Picked),
        Amount::Count(_) if off => Some(Predicate::Picked),
        _ => None,
    })
}
