//! From "hello" to a working garden: what was settled, and what to tell next, by example.

use super::page::Page;
use super::{Voice, doubts, figures, garden, phrases};
use crate::season::answer::{Missing, Place};
use crate::season::garden::{Listening, Quiet, Role, UnitSystem};
use crate::season::request::{Setting, TreeDetails};
use crate::season::thresholds::Limit;
use crate::units::{Celsius, GramsPerSquareMetre};

pub(super) fn help(page: &mut Page, voice: &Voice) {
    page.lead("Talk to me as you would over the fence. For example:");
    let (gauge, watered, mix) = if voice.is_us() {
        (
            "gauge 0.3, picked 9 off the big one",
            "watered the pots, 2 gallons each",
            "how much copper for 2 gallons?",
        )
    } else {
        (
            "gauge 8 mm, picked 9 off the big one",
            "watered the pots, 8 litres each",
            "how much copper for 8 litres?",
        )
    };
    for example in [
        "rust on the lower leaves of Celeste, 10%",
        "sprayed copper on the pots at 7",
        gauge,
        watered,
        "should I spray this week? Then: why?",
        "do I need to water? Frost tonight?",
        "how is Celeste? What is coming?",
        mix,
        "what was done? How was the season?",
        "no, only the pots. Or: make that 20. Or: undo",
        &format!("first frost is usually {}. Or: quiet until Monday", voice.frost_example()),
    ] {
        page.item(example);
    }
    page.small("A thumbs-up on my advice means it is done. Labels and local rules come before me.");
}

pub(super) fn welcome(page: &mut Page, missing: &[Missing], voice: &Voice) {
    page.lead(
        "Hello. I keep your figs' season: what you see and do, the weather, and what is worth doing next.",
    );
    if missing.is_empty() {
        page.line("Your garden is set up. Say \"help\" for examples.");
    } else {
        next_step(page, missing, voice);
    }
}

pub(super) fn stands(page: &mut Page, missing: &[Missing], voice: &Voice) {
    if missing.is_empty() {
        page.line("Your garden is set up. Say \"help\" for examples.");
    }
    next_step(page, missing, voice);
}

/// The one most useful thing to tell next.
pub(super) fn next_step(page: &mut Page, missing: &[Missing], voice: &Voice) {
    page.line(missing.first().map(|first| step(first, voice)).unwrap_or_default());
}

fn step(missing: &Missing, voice: &Voice) -> String {
    match missing {
        Missing::Position => String::from(
            "Where is the garden? Share your location here, or say \"I'm in Fairhope, Alabama\".",
        ),
        Missing::Trees => format!(
            "Next, your trees, one a line: \"add tree Celeste, {}\", \"add tree Wall, in the ground\".",
            doubts::a_pot(voice)
        ),
        Missing::Products => format!(
            "Next, what you spray, off its label: \"copper: {}, every 10 days, max 6, 1 day before harvest, lists figs\".",
            doubts::a_rate(voice)
        ),
        Missing::Label { product } => {
            let product = phrases::name(product);
            format!(
                "Next, off the label of {product}: rate, days between sprays, days before harvest, as in \"{product}: every 10 days\"."
            )
        }
        Missing::FrostDate => {
            format!(
                "When is your usual first frost? Say \"first frost is usually {}\".",
                voice.frost_example()
            )
        }
        Missing::PotSize { tree } => {
            let tree = phrases::name(tree);
            format!("How big is the pot of {tree}? Say \"{tree} is a {}\".", doubts::a_pot(voice))
        }
    }
}

/// More trees than this in one message are listed on one line.
const TREES_APART: usize = 2;

pub(super) fn settled(page: &mut Page, settings: &[Setting], missing: &[Missing], voice: &Voice) {
    let voice = &settled_voice(settings, voice);
    let trees: Vec<&str> = settings
        .iter()
        .filter_map(|setting| match setting {
            Setting::Tree(details) => Some(details.name.as_str()),
            _ => None,
        })
        .collect();
    let many = trees.len() > TREES_APART;
    if many {
        page.line(format!(
            "{} noted: {}.",
            phrases::capitalised(&figures::count(trees.len() as i64, "tree")),
            phrases::names(&trees)
        ));
    }
    for setting in settings {
        if !(many && matches!(setting, Setting::Tree(_))) {
            page.line(words(setting, voice));
        }
    }
    next_step(page, missing, voice);
}

/// Units just settled hold for this answer already.
fn settled_voice(settings: &[Setting], voice: &Voice) -> Voice {
    let units = settings.iter().rev().find_map(|setting| match setting {
        Setting::Units { units } => Some(*units),
        _ => None,
    });
    Voice { units: units.unwrap_or(voice.units), ..*voice }
}

fn words(setting: &Setting, voice: &Voice) -> String {
    match setting {
        Setting::Name { name } => format!("The garden is called {}.", phrases::name(name)),
        Setting::Position { position, place, zone } => format!(
            "Garden at {}{}. I keep the place no finer than that.",
            garden::place(*position, place.as_deref()),
            zone.as_ref().map_or_else(String::new, |zone| format!(", time zone {zone}")),
        ),
        Setting::Place { name } => format!("Looking for {}.", phrases::name(name)),
        Setting::FirstFrost { date } => format!("Usual first frost: {}.", voice.year_day(*date)),
        Setting::LastFrost { date } => format!("Usual last frost: {}.", voice.year_day(*date)),
        Setting::Units { units: UnitSystem::Metric } => {
            String::from("Metric from now on; say \"use US units\" to change.")
        }
        Setting::Units { units: UnitSystem::Us } => {
            String::from("US units from now on; say \"use metric\" to change.")
        }
        Setting::Morning { time } => format!("The morning brief comes at {}.", voice.clock(*time)),
        Setting::Quiet { quiet: Quiet::Speaking } => String::from("I speak up again in the mornings."),
        Setting::Quiet { quiet: Quiet::Until(date) } => {
            format!("Quiet through {}; frost warnings still come.", voice.day(*date))
        }
        Setting::Quiet { quiet: Quiet::UntilTold } => {
            String::from("Quiet until you say \"speak again\"; frost warnings still come.")
        }
        Setting::Listening { listening: Listening::ToEverything } => {
            String::from("I listen to all that is said in the garden's room.")
        }
        Setting::Listening { listening: Listening::WhenAddressed } => {
            String::from("I answer only when named, mentioned or replied to.")
        }
        Setting::Tree(details) => format!("Tree noted: {}.", tree(details, voice)),
        Setting::RenameTree { from, to } => {
            format!("{} is called {} from now on.", phrases::name(from), phrases::name(to))
        }
        Setting::Product(details) => format!("Product noted: {}.", garden::told_label(details, voice)),
        Setting::RemoveProduct { name } => format!("{} is off the list.", phrases::name(name)),
        Setting::Person { name, role: Role::Keeper, .. } => {
            format!("{} keeps this garden: may report, ask and change settings.", phrases::name(name))
        }
        Setting::Person { name, role: Role::Helper, .. } => {
            format!("{} helps in this garden: may report and ask.", phrases::name(name))
        }
        Setting::RemovePerson { id } => {
            format!("{} no longer belongs to this garden.", phrases::name(&id.to_string()))
        }
        Setting::Here | Setting::Room { .. } => String::from("The briefs come to this room."),
        Setting::Limit { limit, value } => limit_words(*limit, *value, voice),
    }
}

fn tree(details: &TreeDetails, voice: &Voice) -> String {
    garden::tree(&garden::as_told(details), voice)
}

fn limit_words(limit: Limit, value: f64, voice: &Voice) -> String {
    let days = figures::count(value.round() as i64, "day");
    match limit {
        Limit::SulfurOilDays => format!("Sulfur and oil are to be {days} apart."),
        Limit::SulfurHottest => format!("No sulfur above {}.", voice.temperature(Celsius::new(value))),
        Limit::CopperYearly => {
            format!("Copper limit: {} a year.", voice.copper(GramsPerSquareMetre::new(value)))
        }
        Limit::SprayIntervalDays => format!("In rust weather a spray is renewed after {days}."),
        Limit::ScoutEveryDays => format!("In rust weather I ask for a look every {days}."),
        Limit::HeatWatering => {
            format!("Days from {} on count as hot.", voice.temperature(Celsius::new(value)))
        }
    }
}

pub(super) fn places(page: &mut Page, name: &str, places: &[Place]) {
    if places.is_empty() {
        page.line(doubts::place_not_found(name));
        return;
    }
    page.lead(format!("Which {}? Answer with its number.", phrases::name(name)));
    for (index, place) in places.iter().enumerate() {
        let parts: Vec<String> = [Some(&place.name), place.region.as_ref(), place.country.as_ref()]
            .into_iter()
            .flatten()
            .map(|part| phrases::name(part))
            .collect();
        page.line(format!("{}. {}", index + 1, parts.join(", ")));
    }
}

pub(super) fn forget_asked(page: &mut Page) {
    page.lead("This removes your reports, your settings and your name from here, for good.");
    page.line("If you mean it, say \"yes, forget me\".");
}

pub(super) fn forgotten(page: &mut Page) {
    page.lead("Done: your reports, settings and name are gone from here.");
    page.line("What stands in this room's own history is yours to delete.");
}
