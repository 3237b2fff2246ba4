//! Whether fruit may be picked after a spray, by the waits of the labels.

use super::page::Page;
use super::{Voice, cautions, figures, phrases, spray};
use crate::season::answer::{Caution, PickingView, SprayedFruit};

pub(super) fn view(page: &mut Page, view: &PickingView, voice: &Voice) {
    page.lead(lead(view));
    spray::waits(page, &view.waits, view.asked_about, voice);
    for fruit in &view.unsure {
        page.line(unsure(fruit, voice));
    }
    for fruit in &view.clear {
        page.line(clear(fruit, view.asked_about, voice));
    }
    // What the lines above say of the product asked about is not said twice.
    let said = |product: &str| {
        view.waits.iter().any(|wait| wait.product == product)
            || view.unsure.iter().any(|fruit| fruit.product.as_deref() == Some(product))
    };
    if let Some((product, wait)) = view.label.as_ref().filter(|(product, _)| !said(product)) {
        let name = phrases::capitalised(&phrases::name(product));
        page.line(match wait {
            Some(wait) => format!("{name}: {} before harvest, by your label.", figures::days(*wait)),
            None => format!("{name}: its wait before harvest you have not told me. Look on the label."),
        });
    }
    // Common practice: a fig picked hard stays so.
    if !view.clear.is_empty() {
        page.line("Ripe is soft, hanging, and off at a light lift; it does not ripen once picked.");
    }
    page.line("I count only the sprays I was told of. Wash the fruit.");
    cautions::on(page, &[Caution::LabelFirst, Caution::LocalRules]);
}

fn lead(view: &PickingView) -> &'static str {
    let waiting: usize = view.waits.iter().map(|wait| wait.trees.len()).sum();
    if view.asked_about == 0 {
        "I know of no such tree yet."
    } else if waiting == view.asked_about {
        "Do not pick yet: a wait before harvest still runs."
    } else if waiting > 0 {
        "Do not pick everywhere yet: a wait before harvest still runs."
    } else if !view.unsure.is_empty() {
        "I cannot say: a wait before harvest is not known to me."
    } else {
        "As far as I was told, no wait before harvest runs now."
    }
}

fn whose(fruit: &SprayedFruit, asked_about: usize) -> String {
    if fruit.trees.len() == asked_about {
        String::new()
    } else {
        format!(" of {}", phrases::names(&fruit.trees))
    }
}

fn clear(fruit: &SprayedFruit, asked_about: usize, voice: &Voice) -> String {
    let whose = whose(fruit, asked_about);
    match (&fruit.product, fruit.sprayed_on) {
        (Some(product), Some(on)) => {
            format!("Fruit{whose} is clear: last sprayed {} with {}.", voice.date(on), phrases::name(product))
        }
        // A spray nobody told of is not known here.
        _ => format!("Fruit{whose}: no spray on record this season."),
    }
}

fn unsure(fruit: &SprayedFruit, voice: &Voice) -> String {
    let (Some(product), Some(on)) = (&fruit.product, fruit.sprayed_on) else { return String::new() };
    format!(
        "{} went on {} {}: you have not told me its wait before harvest. Look on the label.",
        phrases::capitalised(&phrases::name(product)),
        phrases::names(&fruit.trees),
        voice.date(on)
    )
}
