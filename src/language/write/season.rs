//! The season so far, and pots against ground.

use super::page::Page;
use super::{Voice, figures, phrases, tree};
use crate::season::answer::{CompareTest, CompareView, GroupFigures, SeasonView};

/// As many trees as a phone shows under the garden's own lines.
const SHOWN: usize = 8;
/// A difference that chance makes less often than this counts as one. The usual level of a test.
const TELLS: f64 = 0.05;

pub(super) fn view(page: &mut Page, view: &SeasonView, voice: &Voice) {
    page.lead(format!("The {} season so far:", view.season));
    page.item(sprays(view));
    page.item(first_rust(view, voice));
    page.item(format!(
        "{}; {} fit for a moderate or severe infection.",
        phrases::capitalised(&voice.rain(view.rain)),
        figures::count(i64::from(view.infections), "wet spell")
    ));
    let trees = by_tree(view, voice);
    for (tree, said) in trees.iter().take(SHOWN) {
        page.item(format!("{}: {}.", phrases::name(tree), said.join(", ")));
    }
    if let Some(date) = view.frost {
        page.item(format!("First frost noted {}.", voice.date(date)));
    }
}

fn sprays(view: &SeasonView) -> String {
    let sprays: Vec<String> = view
        .sprays
        .iter()
        .map(|(product, count)| format!("{} {}", phrases::name(product), figures::times(*count)))
        .collect();
    if sprays.is_empty() {
        String::from("No sprays noted.")
    } else {
        format!("Sprayed {}.", phrases::names(&sprays))
    }
}

fn first_rust(view: &SeasonView, voice: &Voice) -> String {
    match (&view.first_rust, view.scoutings) {
        (Some((date, trees)), _) => {
            format!("First rust {} on {}.", voice.date(*date), phrases::names(trees))
        }
        (None, 0) => String::from("Nobody has looked for rust yet."),
        (None, looks) => format!("No rust in {}.", figures::count(i64::from(looks), "look")),
    }
}

/// What is known of each tree, in the order the trees come up.
fn by_tree<'v>(view: &'v SeasonView, voice: &Voice) -> Vec<(&'v str, Vec<String>)> {
    let mut trees: Vec<(&str, Vec<String>)> = Vec::new();
    let mut add = |tree: &'v str, said: String| match trees.iter_mut().find(|(known, _)| *known == tree) {
        Some((_, parts)) => parts.push(said),
        None => trees.push((tree, vec![said])),
    };
    for (tree, picked) in &view.harvest {
        add(tree, format!("{} picked", tree::harvest(picked, voice)));
    }
    for (tree, share) in &view.disease {
        add(tree, figures::rust_course(*share));
    }
    for (tree, share) in &view.leaf_drop {
        add(tree, format!("{} of its leaves lost", figures::percent(*share)));
    }
    trees
}

pub(super) fn compare(page: &mut Page, view: &CompareView, voice: &Voice) {
    page.lead(verdict(view));
    page.item(group("Pots", &view.pots, voice));
    page.item(group("Ground", &view.ground, voice));
    page.line(test(view));
    page.small("Cultivar, pot size and shade can look like a difference of pot and ground. I count trees, not leaves.");
}

fn verdict(view: &CompareView) -> String {
    let (pots, ground) = (view.pots.disease, view.ground.disease);
    match view.test {
        CompareTest::NotTestable { .. } => {
            String::from("Pots against ground cannot be told apart yet: too few trees looked at.")
        }
        CompareTest::Tested { p, .. } if p < TELLS && pots > ground => {
            String::from("Rust was worse in pots than in the ground, more than chance would make it.")
        }
        CompareTest::Tested { p, .. } if p < TELLS => {
            String::from("Rust was worse in the ground than in pots, more than chance would make it.")
        }
        CompareTest::Tested { .. } => {
            String::from("No telling pots from ground: chance alone could make this difference.")
        }
    }
}

fn test(view: &CompareView) -> String {
    match view.test {
        CompareTest::NotTestable { smallest_p } => {
            let at_best = smallest_p.filter(|p| *p >= TELLS).map_or_else(String::new, |p| {
                format!(" With these few even the clearest difference comes by chance {}.", chance(p))
            });
            format!("It takes four trees each way, each looked at twice or more in a season.{at_best}")
        }
        CompareTest::Tested { p, .. } => {
            format!("A difference this big comes by chance {} (exact rank test).", chance(p))
        }
    }
}

/// "8 times in 100", "less than once in 100".
fn chance(p: f64) -> String {
    match (p * 100.0).round() as i64 {
        ..=0 => String::from("less than once in 100"),
        1 => String::from("once in 100"),
        2 => String::from("twice in 100"),
        times => format!("{times} times in 100"),
    }
}

fn group(name: &str, group: &GroupFigures, voice: &Voice) -> String {
    let mut parts = vec![
        figures::count(i64::from(group.trees), "tree"),
        format!("{} looked at often enough", group.scouted),
    ];
    parts.extend(group.disease.map(figures::rust_course));
    parts.extend(group.swing.map(|swing| format!("water swings by {}", figures::percent(swing))));
    if group.harvest.first.is_some() {
        parts.push(format!("{} picked", tree::harvest(&group.harvest, voice)));
    }
    format!("{name}: {}.", parts.join(", "))
}
