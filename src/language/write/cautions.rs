//! The cautions that go with work that can hurt. Short, each once.

use crate::season::answer::Caution;

/// One or two lines for a list of cautions.
pub(super) fn lines(cautions: &[Caution]) -> Vec<String> {
    let has = |caution| cautions.contains(&caution);
    let mut lines = Vec::new();
    let mut first: Vec<&str> = Vec::new();
    if has(Caution::LabelFirst) {
        first.push("Label first: crop, rate, waits.");
    }
    if has(Caution::GlovesAndEyes) {
        first.push(if has(Caution::DustMask) {
            "Gloves, goggles, sleeves, dust mask."
        } else {
            "Gloves, goggles, sleeves."
        });
    }
    if has(Caution::PeopleBeesWater) {
        first.push("Away from people, pets, bees and water.");
    }
    if !first.is_empty() {
        lines.push(first.join(" "));
    }
    let mut second: Vec<&str> = Vec::new();
    for (caution, words) in [
        (Caution::SulfurAndOil, "Never sulfur within two weeks of oil, either way round."),
        (Caution::SulfurHeat, "No sulfur in heat: it burns leaves."),
        (Caution::CopperBuildsUp, "Copper stays in the soil."),
        (Caution::CopperWater, "Copper harms water life: no run-off, rinse on the treated ground only."),
        (Caution::ReEntryAndHarvest, "Mind re-entry and harvest waits; wash fruit."),
        (Caution::Sap, "Fig sap burns skin in sunlight: sleeves and gloves, wash at once."),
        (Caution::LocalRules, "Local rules and licensed advice stand above me."),
        (Caution::Uncertainty, "This rests on forecasts and estimated wetness; it can be wrong."),
        (Caution::Hygiene, "Picking up fallen leaves and an open crown do the most."),
        (Caution::Emergency, "Swallowed or in the eye: follow the label, call the poison centre."),
    ] {
        if has(caution) {
            second.push(words);
        }
    }
    if !second.is_empty() {
        lines.push(second.join(" "));
    }
    lines
}
