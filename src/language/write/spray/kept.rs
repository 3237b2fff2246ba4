//! What trees would keep of their leaves, sprayed and unsprayed.

use chrono::NaiveDate;

use crate::language::write::{Voice, figures, phrases};
use crate::season::answer::{Standing, TreeVerdict};

/// What is said of a tree.
#[derive(PartialEq)]
struct Outcome {
    standing: Standing,
    until: NaiveDate,
    unsprayed: String,
    sprayed: String,
}

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
    Some(Outcome {
        standing: tree.standing,
        until: tree.kept_until?,
        unsprayed: figures::leaves(tree.kept_unsprayed?),
        sprayed: figures::leaves(tree.kept_sprayed?),
    })
}

fn line(names: &[&str], outcome: &Outcome, voice: &Voice) -> String {
    let (keep, their) = if names.len() == 1 { ("keeps", "its") } else { ("keep", "their") };
    let Outcome { unsprayed, sprayed, .. } = outcome;
    let kept = format!(
        "{} likely {keep} {unsprayed} of {their} leaves green to {}",
        phrases::names(names),
        voice.date(outcome.until)
    );
    if unsprayed != sprayed {
        format!("{kept} unsprayed, {sprayed} sprayed.")
    } else if outcome.standing == Standing::Due && unsprayed == figures::ALL_BUT_ALL {
        // The verdict follows the rules, not this model: where they differ both are said.
        format!("{kept} even unsprayed; this spray is to be on the safe side.")
    } else {
        format!("{kept}, sprayed or not.")
    }
}
