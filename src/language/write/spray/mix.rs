//! How much to mix: the label's rate, never another.

use crate::language::write::page::Page;
use crate::language::write::{Voice, cautions, figures, phrases};
use crate::season::answer::{Apart, MixAnswer, MixMissing, TogetherAnswer};

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

/// "Can I mix sulfur and oil?": never dosed, for what is mixed cannot be taken off the leaves again.
pub(in crate::language::write) fn together(page: &mut Page, pair: &TogetherAnswer) {
    let both = phrases::names(&[&pair.one, &pair.other]);
    match pair.apart {
        Some(Apart { usually, in_heat }) => {
            page.lead("No: sulfur and oil together burn leaves.");
            let in_heat = if in_heat > usually {
                format!("; {} in heat", figures::days(in_heat))
            } else {
                String::new()
            };
            page.line(format!("Keep {} between {both}, either way round{in_heat}.", figures::days(usually)));
        }
        None => {
            page.lead("Only if both labels allow it: the labels decide, not I.");
            page.line(format!("If they do, try {both} on a few leaves first and wait some days."));
            page.line("If a label forbids it or says nothing, spray them on different days.");
        }
    }
}

fn example(voice: &Voice) -> &'static str {
    if voice.is_us() { "how much copper for 2 gallons?" } else { "how much copper for 8 litres?" }
}
