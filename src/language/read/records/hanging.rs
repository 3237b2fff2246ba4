//! How one clause hangs on another: it says the same closer, is announced by it, or takes its trees.

use super::Part;
use super::opening::Opening;
use super::predicate::Predicate;
use crate::language::read::Speech;
use crate::language::read::amounts::Amount;
use crate::language::read::clauses::Joint;
use crate::language::read::lexicon::Sense;
use crate::language::read::mood::Mood;
use crate::language::read::word_list::words;
use crate::season::request::Aside;

/// "Frost last night, minimum 29"; "rust on Eave, just a few specks": the same said closer.
pub(super) fn goes_on_with(last: &Part, part: &Part) -> bool {
    let same = last.predicate == part.predicate;
    let closer = last.amounts.is_empty() && !part.senses.has(Sense::Negation)
        || part.amounts.is_empty()
            && matches!(
                part.predicate,
                Some(Predicate::Frost | Predicate::Stage(_) | Predicate::Moisture(_))
            );
    let of_kind = matches!(
        part.predicate,
        Some(
            Predicate::Frost
                | Predicate::Picked
                | Predicate::Scouted
                | Predicate::Rained
                | Predicate::Stage(_)
                | Predicate::LeafDrop
                | Predicate::Weighed
                | Predicate::Moisture(_)
        )
    );
    let seen_none = last.predicate == Some(Predicate::Scouted)
        && last.senses.has(Sense::Negation)
        && part.predicate == Some(Predicate::Clean);
    let clean_still = (last.predicate == Some(Predicate::Clean) || seen_none)
        && part.trees.is_empty()
        && (part.predicate == Some(Predicate::Scouted) && part.senses.has(Sense::Negation)
            || part.predicate == Some(Predicate::Clean))
        && !part.senses.has_any(&[Sense::Lower, Sense::Upper, Sense::Middle]);
    // Frost is of the garden, whatever it lay on.
    let of_the_same = part.trees.is_empty() || part.predicate == Some(Predicate::Frost);
    clean_still || same && of_kind && closer && of_the_same && !last.senses.has(Sense::Negation)
}

/// "I watered this morning, 2 gallons on Celeste": the first only announces the second.
pub(super) fn is_announced_by(last: &Part, part: &Part) -> bool {
    let headed = part.joint == Joint::Of
        && is_rust(last.predicate)
        && is_rust(part.predicate)
        && last.amounts.is_empty();
    // "Wet: Celeste, Big One"
    let state = part.joint == Joint::Of
        && last.predicate == part.predicate
        && matches!(part.predicate, Some(Predicate::Moisture(_)))
        && part.names_trees();
    // "Sprayed at noon: sulfur, Corner"
    let work = part.joint == Joint::Of
        && last.predicate == part.predicate
        && part.predicate.is_some_and(Predicate::is_work)
        && last.amounts.is_empty()
        && last.products.is_empty();
    if (headed || state || work) && last.trees.is_empty() {
        return true;
    }
    last.predicate == part.predicate
        && matches!(part.predicate, Some(Predicate::Picked | Predicate::Watered | Predicate::Sprayed))
        && last.trees.is_empty()
        && last.amounts.is_empty()
        && part.names_trees()
        && (last.products.is_empty() || part.products.is_empty())
}

/// Taken for water by its measure alone.
pub(super) fn is_poured_only(part: &Part) -> bool {
    part.predicate == Some(Predicate::Watered)
        && part.pours()
        && !part.senses.has_any(&[Sense::Watered, Sense::Watering, Sense::Water, Sense::Drink, Sense::Gave])
}

/// A name and a weight, and no verb of a harvest.
pub(super) fn is_bare_mass(part: &Part) -> bool {
    part.predicate == Some(Predicate::Picked)
        && part.names_trees()
        && part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Mass(_)))
        && !part.senses.has_any(&[
            Sense::Picked,
            Sense::Pick,
            Sense::Picking,
            Sense::Harvest,
            Sense::Took,
            Sense::Fig,
            Sense::Link,
        ])
}

/// A clause that needs a tree and names none speaks of those of the clause before.
pub(super) fn inherit(before: &[Part], opening: &Opening, part: &mut Part) {
    let passing = &opening.passing;
    let Some(predicate) = part.predicate else { return };
    // "No rust on any of them" is said of all.
    let any = part.senses.has(Sense::Negation) && part.pronoun && part.says_any;
    if any || part.everywhere {
        return;
    }
    let Some(last) = before.iter().rev().find(|last| !last.trees.is_empty()) else {
        if (predicate == Predicate::Picked || part.pronoun) && passing.is_one()
            || predicate.inherits_trees() && !passing.is_empty()
        {
            part.trees = passing.clone();
        }
        return;
    };
    // "Pulled a few leaves off Celeste, no rust on her": of what was named last.
    if passing.is_one() && opening.passing_at > last.range.start && predicate.inherits_trees() {
        part.trees = passing.clone();
        return;
    }
    let wants = part.pronoun
        || predicate.inherits_trees()
        || predicate == Predicate::Removed
        // "Eave's soil is moist and the pot weighs 25 pounds"
        || predicate == Predicate::Weighed && last.trees.is_one()
        || predicate == Predicate::Picked && last.trees.is_one()
        || predicate == Predicate::Watered && matches!(last.predicate, Some(Predicate::Moisture(_)))
        // "Rust on Corner, so copper went on this evening"
        || predicate == Predicate::Sprayed && is_rust(last.predicate) && last.trees.is_one();
    let whole_garden = matches!(last.predicate, Some(Predicate::Sprayed | Predicate::Watered))
        && !part.pronoun
        && predicate == Predicate::Clean;
    // "Watered the pots, not Whip, he's wet"
    if wants
        && !last.trees.without.is_empty()
        && matches!(predicate, Predicate::Moisture(_))
        && part.pronoun
        && last.trees.of_left_out().is_one()
    {
        part.trees = last.trees.of_left_out();
        return;
    }
    if wants && !whole_garden {
        part.trees = last.trees.clone();
        // "... bad on Corner, less on Wall, so I sprayed them both"
        let both = part.senses.has(Sense::Both) && last.trees.is_one();
        let other =
            before.iter().rev().filter(|other| other.trees.is_one() && !other.trees.overlap(&last.trees));
        if let Some(other) = other.into_iter().next().filter(|_| both) {
            part.trees = other.trees.clone().together(std::mem::take(&mut part.trees));
        }
    }
}

/// Passed over in the work told: "skipped Eave".
pub(super) fn is_left_undone(speech: &Speech, part: &Part) -> bool {
    part.mood == Mood::Denied && part.any(speech.tokens, words!("skipped skip skipping passed left"))
}

/// "Sprayed copper, skipped Whip": she is left out.
pub(super) fn leave_out_skipped(speech: &Speech, joined: &mut [Part], part: Part) {
    let skipped = part.any(speech.tokens, words!("skipped skip didn't not left missed forgot forgotten"));
    // "..., still need to do Eave"
    let still = part.mood == Mood::Not(Aside::Plan)
        && part.any(speech.tokens, words!("still yet left"))
        && part.any(speech.tokens, words!("do get need needs spray water pick finish"));
    let work = part
        .predicate
        .is_none_or(|predicate| joined.last().is_some_and(|last| last.predicate == Some(predicate)));
    if let Some(last) = joined.last_mut().filter(|last| last.predicate.is_some_and(Predicate::is_work))
        && (part.mood == Mood::Denied && skipped || still && is_among(last, &part))
        && work
        && part.names_trees()
    {
        last.trees.leave_out(part.trees);
    }
}

/// The trees of a part are some of those worked on, or none were named.
pub(super) fn is_among(last: &Part, part: &Part) -> bool {
    !last.names_trees() || last.trees.overlap(&part.trees)
}

/// "Celeste 10%", "10% on Wall", "Wall class"-like shares with nothing else said.
pub(super) fn is_severity(part: &Part) -> bool {
    part.amounts.iter().any(|measured| {
        matches!(
            measured.amount,
            Amount::Share(_) | Amount::Class(_) | Amount::LeavesOf { .. } | Amount::Impossible
        ) || part.senses.has(Sense::Leaf)
            && matches!(measured.amount, Amount::Count(share) if share > 0.0 && share < 1.0)
    })
}

pub(super) fn has_level(part: &Part) -> bool {
    part.senses.has_any(&[Sense::Lower, Sense::Middle, Sense::Upper]) || part.level.is_some()
}

pub(super) fn is_rust(predicate: Option<Predicate>) -> bool {
    matches!(predicate, Some(Predicate::Scouted | Predicate::Clean))
}

/// "Sprayed Wall with copper, using 1.5 gallons of mixed spray in total", "sulfur on Eave, about a quart of it went on".
pub(super) fn tells_how_much_spray(speech: &Speech, last: &Part, part: &Part) -> bool {
    let of_mix = part.predicate == Some(Predicate::Sprayed)
        && part.products.is_empty()
        && part.any(speech.tokens, words!("using used mixed mix"));
    let of_it = part.predicate == Some(Predicate::Watered)
        && part.pronoun
        && !part.senses.has_any(&[Sense::Watered, Sense::Watering, Sense::Water, Sense::Drink]);
    last.predicate == Some(Predicate::Sprayed)
        && !last.products.is_empty()
        && last.amounts.is_empty()
        && part.trees.is_empty()
        && part.pours()
        && (of_mix || of_it)
}

pub(super) fn adopt_rest(last: &mut Part, part: Part) {
    if last.products.is_empty() && !part.products.is_empty() {
        last.products = part.products;
        last.late_products = last.predicate == Some(Predicate::Sprayed);
    }
    last.moment.completed_by(part.moment);
    last.pronoun |= part.senses.has(Sense::Both);
}
