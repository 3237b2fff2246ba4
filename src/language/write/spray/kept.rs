//! What trees would keep of their leaves, sprayed and unsprayed.

use chrono::NaiveDate;

use crate::language::write::{Voice, figures, phrases};
use crate::season::answer::TreeVerdict;

/// What is said of a tree: until when, unsprayed, sprayed.
type Outcome = (NaiveDate, String, String);

/// One line for all trees of which the same is to be said, the tree with most to lose first.
pub(super) fn lines(trees: &[TreeVerdict], voice: &Voice) -> Vec<String> {
    let mut known: Vec<(&TreeVerdict, Outcome)> =
        trees.iter().filter_map(|tree| Some((tree, outcome(tree)?))).collect();
    known.sort_by(|(one, _), (other, _)| {
        let least = |tree: &TreeVerdict| tree.kept_unsprayed.map_or(1.0, |kept| kept.low.value());
        least(one).total_cmp(&least(other))
    });
    let mut groups: Vec<(Outcome, Vec<&str>)> = Vec::new();
    for (tree, outcome) in known {
        match groups.iter_mut().find(|(same, _)| *same == outcome) {
            Some((_, names)) => names.push(&tree.tree),
            None => groups.push((outcome, vec![&tree.tree])),
        }
    }
    groups.iter().map(|(outcome, names)| line(names, outcome, voice)).collect()
}

fn outcome(tree: &TreeVerdict) -> Option<Outcome> {
    Some((tree.kept_until?, figures::leaves(tree.kept_unsprayed?), figures::leaves(tree.kept_sprayed?)))
}

fn line(names: &[&str], (until, unsprayed, sprayed): &Outcome, voice: &Voice) -> String {
    let (keep, their) = if names.len() == 1 { ("keeps", "its") } else { ("keep", "their") };
    let (who, when) = (phrases::names(names), voice.date(*until));
    if unsprayed == sprayed {
        format!("{who} likely {keep} {unsprayed} of {their} leaves green to {when}, sprayed or not.")
    } else {
        format!(
            "{who} likely {keep} {unsprayed} of {their} leaves green to {when} unsprayed, {sprayed} sprayed."
        )
    }
}
