use crate::season::answer::{ProductUse, ProductView, TreeUse};
use crate::season::calendar::local_date;
use crate::season::facts::Facts;
use crate::season::garden::{Active, Product, same_name};
use crate::season::history::{History, Sprayed};
use crate::season::rules::{copper_this_season, in_the_season};

pub(super) fn view(facts: &Facts, asked: Option<&str>) -> ProductView {
    let history = History::of(&facts.journal, &facts.garden);
    let wanted = |product: &&Product| asked.is_none_or(|asked| same_name(&product.name, asked));
    let products =
        facts.garden.products.iter().filter(wanted).map(|product| used(facts, &history, product)).collect();
    ProductView { products }
}

fn used(facts: &Facts, history: &History, product: &Product) -> ProductUse {
    let zone = facts.garden.zone();
    let mut moments = Vec::new();
    let mut trees = Vec::new();
    for tree in &facts.garden.trees {
        let Some(past) = history.tree(&tree.name) else { continue };
        let done: Vec<&Sprayed> = in_the_season(facts, past, facts.now)
            .filter(|spray| spray.product == product.name && spray.at <= facts.now)
            .collect();
        moments.extend(done.iter().map(|spray| spray.at));
        if done.is_empty() {
            continue;
        }
        let copper = (product.active == Active::Copper)
            .then(|| copper_this_season(facts, history, &tree.name, facts.now))
            .flatten();
        trees.push(TreeUse { tree: tree.name.clone(), sprays: done.len() as u32, copper });
    }
    moments.sort_unstable();
    moments.dedup();
    ProductUse {
        name: product.name.clone(),
        label: product.label,
        sprays: moments.len() as u32,
        last: moments.last().map(|last| local_date(*last, zone)),
        copper_yearly: (product.active == Active::Copper).then_some(facts.garden.thresholds.copper_yearly),
        trees,
    }
}
