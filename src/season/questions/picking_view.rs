use crate::season::answer::{PickingView, SprayedFruit};
use crate::season::calendar::local_date;
use crate::season::facts::Facts;
use crate::season::garden::same_name;
use crate::season::history::{History, Sprayed};
use crate::season::rules::{harvest_waits, in_the_season};

/// Which of these trees may be picked by the waits of the labels, and which sprays' waits nobody told.
pub(super) fn view(facts: &Facts, asked: Option<&str>, trees: &[String]) -> PickingView {
    let history = History::of(&facts.journal, &facts.garden);
    let waits = harvest_waits(facts, &history, trees.iter().map(String::as_str), facts.now);
    let mut clear: Vec<SprayedFruit> = Vec::new();
    let mut unsure: Vec<SprayedFruit> = Vec::new();
    for tree in trees {
        let sprays: Vec<&Sprayed> = history
            .tree(tree)
            .into_iter()
            .flat_map(|past| in_the_season(facts, past, facts.now))
            .filter(|spray| spray.at <= facts.now)
            .collect();
        let untold = sprays
            .iter()
            .filter(|spray| wait_of(facts, &spray.product).is_none())
            .max_by_key(|spray| spray.at);
        if let Some(spray) = untold {
            add(&mut unsure, tree, fruit(facts, Some(spray)));
        } else if !waits.iter().any(|wait| wait.trees.contains(tree)) {
            add(&mut clear, tree, fruit(facts, sprays.iter().max_by_key(|spray| spray.at).copied()));
        }
    }
    let label = asked.and_then(|asked| {
        let product = facts.garden.products.iter().find(|product| same_name(&product.name, asked))?;
        Some((product.name.clone(), product.label.before_harvest))
    });
    PickingView { asked_about: trees.len(), waits, clear, unsure, label }
}

fn wait_of(facts: &Facts, product: &str) -> Option<crate::units::Days> {
    facts.garden.product(product)?.label.before_harvest
}

fn fruit(facts: &Facts, spray: Option<&Sprayed>) -> SprayedFruit {
    SprayedFruit {
        trees: Vec::new(),
        product: spray.map(|spray| spray.product.clone()),
        sprayed_on: spray.map(|spray| local_date(spray.at, facts.garden.zone())),
    }
}

/// Trees sprayed alike are told together.
fn add(told: &mut Vec<SprayedFruit>, tree: &str, fruit: SprayedFruit) {
    let same =
        |known: &&mut SprayedFruit| known.product == fruit.product && known.sprayed_on == fruit.sprayed_on;
    match told.iter_mut().find(same) {
        Some(known) => known.trees.push(tree.to_owned()),
        None => told.push(SprayedFruit { trees: vec![tree.to_owned()], ..fruit }),
    }
}
