//! A product: what its label says, as told, and what of it went on this season.

use super::page::Page;
use super::{Voice, cautions, figures, garden, phrases};
use crate::season::answer::{Caution, ProductUse, ProductView, TreeUse};

pub(super) fn view(page: &mut Page, view: &ProductView, voice: &Voice) {
    if view.products.is_empty() {
        page.lead("I know of no such product yet.");
        page.line(label_wanted(voice));
        return;
    }
    for product in &view.products {
        used(page, product, voice);
    }
    cautions::on(page, &[Caution::LabelFirst, Caution::LocalRules]);
}

fn used(page: &mut Page, product: &ProductUse, voice: &Voice) {
    let name = phrases::capitalised(&phrases::name(&product.name));
    page.lead(match product.last {
        Some(last) => {
            let times = figures::count(i64::from(product.sprays), "spray");
            format!("{name}: {times} this season, last {}.", voice.short_day(last))
        }
        None => format!("{name}: not sprayed this season."),
    });
    // Trees sprayed together mostly had the same.
    let mut alike: Vec<(Vec<&str>, String)> = Vec::new();
    for tree in &product.trees {
        let had = had(tree, voice);
        match alike.iter_mut().find(|(_, known)| *known == had) {
            Some((trees, _)) => trees.push(&tree.tree),
            None => alike.push((vec![&tree.tree], had)),
        }
    }
    for (trees, had) in &alike {
        page.item(format!("{}: {had}", phrases::names(trees)));
    }
    let most_on_one = product.trees.iter().map(|tree| tree.sprays).max().unwrap_or(0);
    if let Some(most) = product.label.most_applications {
        page.line(match most.saturating_sub(most_on_one) {
            0 => format!("None left: your label allows {most} a season."),
            left => format!("{left} left: your label allows {most} a season."),
        });
    }
    if let Some(yearly) = product.copper_yearly.filter(|_| product.last.is_some()) {
        page.line(format!("Copper limit: {} a year.", voice.copper(yearly)));
    }
    let told = garden::label(&product.label, voice);
    page.line(if told.is_empty() {
        label_wanted(voice)
    } else {
        format!("Label, as you told it: {}.", told.join(", "))
    });
}

/// "3 sprays, 1.9 lb per acre of copper".
fn had(tree: &TreeUse, voice: &Voice) -> String {
    let copper =
        tree.copper.map_or_else(String::new, |copper| format!(", {} of copper", voice.copper(copper)));
    format!("{}{copper}", figures::count(i64::from(tree.sprays), "spray"))
}

fn label_wanted(voice: &Voice) -> String {
    let rate = if voice.is_us() { "2 tbsp per gallon" } else { "5 g per litre" };
    format!("Read me its label, as in \"copper: {rate}, every 10 days, 1 day before harvest, lists figs\".")
}
