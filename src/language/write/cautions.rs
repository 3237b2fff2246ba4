//! The cautions that go with work that can hurt. Short, each once, two lines at most.

use crate::season::answer::Caution;

use super::page::Page;

pub(super) const SAP: &str =
    "Gloves and sleeves: fig sap burns skin in sunlight. Wash it off at once and keep it from the eyes.";

pub(super) fn on(page: &mut Page, cautions: &[Caution]) {
    for line in [before(cautions), after(cautions)] {
        if !line.is_empty() {
            page.small(line.join(" "));
        }
    }
}

/// What to have at hand and where to stand before starting.
fn before(cautions: &[Caution]) -> Vec<&'static str> {
    let has = |caution| cautions.contains(&caution);
    let mut words = Vec::new();
    if has(Caution::LabelFirst) {
        words.push("Label first: crop, rate, waits.");
    }
    match (has(Caution::GlovesAndEyes), has(Caution::DustMask)) {
        (true, true) => words.push("Gloves, goggles, sleeves, dust mask."),
        (true, false) => words.push("Gloves, goggles, sleeves."),
        (false, true) => words.push("Dust mask."),
        (false, false) => {}
    }
    if has(Caution::PeopleBeesWater) {
        words.push("Away from people, pets, bees and water.");
    }
    if has(Caution::Sap) {
        words.push(SAP);
    }
    words
}

/// What the spray does later, and who stands above this advice.
fn after(cautions: &[Caution]) -> Vec<&'static str> {
    const WORDS: [(Caution, &str); 9] = [
        (Caution::SulfurAndOil, "Keep sulfur and oil two weeks apart, three in heat."),
        (Caution::SulfurHeat, "No sulfur in heat: it burns leaves."),
        (Caution::CopperBuildsUp, "Copper stays in the soil."),
        (Caution::CopperWater, "Copper kills water life: no run-off, rinse over the treated ground."),
        (Caution::ReEntryAndHarvest, "Keep the re-entry and harvest waits; wash the fruit."),
        (Caution::Uncertainty, "Forecast and leaf wetness are estimates."),
        (Caution::Hygiene, "Picking up fallen leaves and an open crown do the most."),
        (Caution::Emergency, "In an eye or swallowed: follow the label and call poison control."),
        (Caution::LocalRules, "Local rules and licensed advice come before mine."),
    ];
    WORDS.iter().filter(|(caution, _)| cautions.contains(caution)).map(|(_, words)| *words).collect()
}
