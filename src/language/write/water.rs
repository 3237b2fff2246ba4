//! Watering, most pressing first.

use super::page::Page;
use super::{Voice, figures};
use crate::season::answer::{TreeWater, WaterAdvice, WaterAssumption, WaterUrgency};
use crate::units::{Hours, Litres};

pub(super) fn advice(page: &mut Page, water: &WaterAdvice, voice: &Voice) {
    let of = |urgency: WaterUrgency| -> Vec<String> {
        water.trees.iter().filter(|tree| tree.urgency == urgency).map(|tree| tree.tree.clone()).collect()
    };
    let (now, today, tomorrow) = (of(WaterUrgency::Now), of(WaterUrgency::Today), of(WaterUrgency::Tomorrow));
    if water.trees.is_empty() {
        page.lead("I know of no tree to water yet.");
        return;
    }
    if water.trees.iter().all(|tree| tree.urgency == WaterUrgency::Unknown) {
        page.lead("I cannot tell: I have no weather for your garden.");
        page.line("Feel the soil a finger deep; lift a pot to judge its weight.");
        return;
    }
    match (now.is_empty(), today.is_empty(), tomorrow.is_empty()) {
        (false, ..) => page.lead(format!("Water {} now.", figures::names(&now))),
        (true, false, _) => page.lead(format!("Water {} today.", figures::names(&today))),
        (true, true, false) => page.lead(format!("Nothing today; {} tomorrow.", figures::names(&tomorrow))),
        (true, true, true) => page.lead("No watering needed today or tomorrow."),
    }
    const SHOWN: usize = 8;
    let pressing = water.trees.iter().filter(|tree| tree.urgency <= WaterUrgency::Tomorrow).take(SHOWN);
    for tree in pressing {
        page.item(tree_line(tree, voice));
    }
    if let Some(rain) = water.rain_ahead.filter(|rain| rain.value() >= 1.0) {
        page.line(format!(
            "{} of rain is forecast within two days; a leafy pot gets little of it.",
            voice.depth(rain)
        ));
    }
    if let Some(line) = assumed(&water.trees) {
        page.small(line);
    }
}

pub(super) fn tree_line(tree: &TreeWater, voice: &Voice) -> String {
    let mut parts = Vec::new();
    if let Some(volume) = tree.volume.filter(|volume| *volume > Litres::ZERO) {
        parts.push(match tree.times_a_day {
            times if times > 1 => format!(
                "{} {} times a day, morning and evening",
                voice.volume(volume / f64::from(times)),
                times
            ),
            _ => voice.volume(volume),
        });
    }
    if let Some(until) = tree.until_dry {
        parts.push(match until {
            until if until < Hours::new(1.0) => String::from("due now"),
            until => format!("due in {}", figures::span(until)),
        });
    }
    if let Some(used) = tree.use_a_day.filter(|used| *used > Litres::ZERO) {
        parts.push(format!("uses about {} a day", voice.volume(used)));
    }
    format!("{}: {}.", tree.tree, parts.join("; "))
}

fn assumed(trees: &[TreeWater]) -> Option<String> {
    let with = |assumption: WaterAssumption| -> Vec<String> {
        trees.iter().filter(|tree| tree.assumed.contains(&assumption)).map(|tree| tree.tree.clone()).collect()
    };
    let mut parts = Vec::new();
    let unwatered = with(WaterAssumption::LastWatering);
    if !unwatered.is_empty() {
        parts.push(format!("taken as watered a day ago: {}", figures::names(&unwatered)));
    }
    let unsized_pots = with(WaterAssumption::PotSize);
    if !unsized_pots.is_empty() {
        parts.push(format!("pot size guessed: {}", figures::names(&unsized_pots)));
    }
    let widths = with(WaterAssumption::Width);
    if !widths.is_empty() {
        parts.push(format!("crown width guessed: {}", figures::names(&widths)));
    }
    if !with(WaterAssumption::EstimatedRadiation).is_empty() {
        parts.push(String::from("sunshine estimated from temperature"));
    }
    (!parts.is_empty()).then(|| {
        format!(
            "{}. Tell me \"pots bone dry\" or \"soggy\" and I learn.",
            figures::capitalised(&parts.join("; "))
        )
    })
}
