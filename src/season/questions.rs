//! Answers to what was asked.

mod compare;
mod garden_view;
mod mix;
mod picking_view;
mod product_view;
mod season_view;
mod tree_view;

use super::answer::{Answer, DoneView, HarvestWait, NotedItem, SprayAdvice, Verdict, Worth};
use super::facts::Facts;
use super::garden::Bearing;
use super::history::History;
use super::journal::{Entry, Stage, What};
use super::outlook::Outlook;
use super::request::{Advised, Deed, Question, Selection};
use super::respond::noted_item;
use super::rules;
use super::selection::selected;

pub use season_view::severity_of;

pub fn answer(facts: &Facts, question: &Question) -> Answer {
    match question {
        Question::Spray { product, trees } => {
            let outlook = Outlook::of(facts);
            let advice = outlook.spray_advice_for(product.as_deref(), trees);
            let mut advice = outlook.with_leaves_kept(advice);
            advice.waits = waits(&outlook, advice.trees.iter().map(|tree| tree.tree.as_str()));
            Answer::Spray(Box::new(advice))
        }
        Question::Why { about } => why(facts, about),
        Question::Water { trees } => Answer::Water(Outlook::of(facts).water_advice(trees)),
        Question::Frost { about } => Answer::Frost(Outlook::of(facts).frost_asked(*about)),
        Question::Tree { trees } => Answer::Tree(tree_view::view(facts, trees)),
        Question::Ahead => Answer::Ahead(Outlook::of(facts).ahead()),
        Question::Done { trees, deed } => Answer::Done(done(facts, trees, *deed)),
        Question::Product { product } => Answer::Product(product_view::view(facts, product.as_deref())),
        Question::Picking { product, trees } => {
            Answer::Picking(picking_view::view(facts, product.as_deref(), &with_fruit(facts, trees)))
        }
        Question::Season => Answer::Season(season_view::view(facts)),
        Question::Mix { product, volume } => Answer::Mix(mix::mix(facts, product.as_deref(), *volume)),
        Question::Together { one, other } => Answer::Together(mix::together(facts, one, other)),
        Question::Compare => Answer::Compare(compare::compare(facts)),
        Question::Garden => Answer::Garden(garden_view::view(facts)),
        Question::Help => Answer::Help,
    }
}

/// The trees asked after; where none was named, those old enough to bear.
fn with_fruit(facts: &Facts, trees: &Selection) -> Vec<String> {
    let asked = selected(&facts.garden, trees);
    if !matches!(trees, Selection::Unsaid | Selection::All) {
        return asked;
    }
    let bears = |name: &String| facts.garden.tree(name).is_some_and(|tree| tree.bearing == Bearing::Bearing);
    asked.into_iter().filter(bears).collect()
}

/// The reasons of some advice; of what was answered last where it is not said.
fn why(facts: &Facts, about: &Advised) -> Answer {
    match (about, &facts.answered) {
        (Advised::Watering { trees }, _) | (Advised::JustNow, Some(Question::Water { trees })) => {
            Answer::WhyWater(Outlook::of(facts).water_reasons(trees))
        }
        (Advised::JustNow, Some(question @ (Question::Frost { .. } | Question::Picking { .. }))) => {
            answer(facts, question)
        }
        _ => {
            let outlook = Outlook::of(facts);
            Answer::Why(Box::new(outlook.with_leaves_kept(outlook.spray_advice())))
        }
    }
}

/// Waits before harvest still running on those of these trees that may have fruit to pick.
fn waits<'t>(outlook: &Outlook, trees: impl Iterator<Item = &'t str>) -> Vec<HarvestWait> {
    let may_bear = |name: &&str| {
        outlook.trees().iter().filter(|tree| tree.tree.name == *name).any(|tree| {
            let is_past =
                matches!(tree.stage, Some((_, Stage::PickedOut | Stage::LeafFall | Stage::Dormant)));
            tree.tree.bearing == Bearing::Bearing && !is_past
        })
    };
    rules::harvest_waits(outlook.facts, &outlook.history, trees.filter(may_bear), outlook.now)
}

/// As many entries as a phone shows without scrolling far.
const SHOWN: usize = 10;

fn done(facts: &Facts, trees: &Selection, deed: Option<Deed>) -> DoneView {
    let wanted = selected(&facts.garden, trees);
    let concerns = |entry: &&Entry| match (&entry.what, trees) {
        (What::Report { .. }, Selection::Unsaid | Selection::All) => true,
        (What::Report { trees, .. }, _) => trees.iter().any(|tree| wanted.contains(tree)),
        (What::Setting(_), _) => false,
    };
    let of_deed = |entry: &&Entry| match (&entry.what, deed) {
        (What::Report { report, .. }, Some(deed)) => deed.is_of(report),
        _ => true,
    };
    let mut entries: Vec<&Entry> =
        facts.journal.standing().map(|(_, entry)| entry).filter(concerns).filter(of_deed).collect();
    entries.sort_by_key(|entry| std::cmp::Reverse(entry.happened));
    let items: Vec<NotedItem> =
        entries.iter().take(SHOWN).filter_map(|entry| noted_item(entry, &facts.garden)).collect();
    DoneView {
        trees: if matches!(trees, Selection::Unsaid | Selection::All) { Vec::new() } else { wanted },
        deed,
        earlier: entries.len().saturating_sub(items.len()),
        items,
    }
}

/// Whether the verdict asks the grower to do something now.
pub fn asks_for_action(advice: &SprayAdvice) -> bool {
    matches!(advice.verdict, Verdict::Spray)
}

/// Whether any tree is worth protecting at all.
pub fn anything_to_protect(advice: &SprayAdvice) -> bool {
    advice.trees.iter().any(|tree| tree.worth != Worth::Leave)
}

/// The folded journal, for views that need nothing of the weather.
pub fn history(facts: &Facts) -> History {
    History::of(&facts.journal, &facts.garden)
}
