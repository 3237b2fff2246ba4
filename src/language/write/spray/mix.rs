//! How much to mix: the label's rate, never another.

use crate::language::write::page::Page;
use crate::language::write::{Voice, cautions, phrases};
use crate::season::answer::{MixAnswer, MixMissing};

pub(in crate::language::write) fn answer(page: &mut Page, mix: &MixAnswer, voice: &Voice) {
    let product = mix.product.as_deref().map_or_else(|| String::from("it"), phrases::name);
    if mix.missing.contains(&MixMissing::Product) {
        page.lead("Which product?");
        page.line(format!("Say, for example: \"{}\"", example(voice)));
        return;
    }
    match (mix.rate, mix.volume, mix.amount) {
        (Some(rate), Some(volume), Some(amount)) => {
            page.lead(format!(
                "{} of {product} in {} of water.",
                phrases::capitalised(&voice.dose(rate, amount)),
                voice.volume_told(volume)
            ));
            page.line(format!("By the rate you read to me: {}.", voice.rate(rate)));
        }
        (Some(rate), _, _) => {
            page.lead(format!("For how much water? Your label says {}.", voice.rate(rate)));
            page.line(format!("Say, for example: \"{}\"", example(voice)));
        }
        (None, _, _) => {
            page.lead(format!("I do not know the rate of {product}: look on its label."));
            let rate = if voice.is_us() { "2 tbsp per gallon" } else { "5 g per litre" };
            page.line(format!("Then read it to me, as in \"{product}: {rate}\", and I reckon it for you."));
        }
    }
    cautions::on(page, &mix.cautions);
}

fn example(voice: &Voice) -> &'static str {
    if voice.is_us() { "how much copper for 2 gallons?" } else { "how much copper for 8 litres?" }
}
