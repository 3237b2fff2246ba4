//! From "hello" to a working garden, and what is known of it.

use super::page::Page;
use super::{Voice, figures};
use crate::season::answer::{FrostBasis, GardenView, Missing, Place};
use crate::season::garden::{Listening, Product, Quiet, Role, Stand, Tree, UnitSystem, YearDay};
use crate::season::request::Setting;

pub(super) fn help(page: &mut Page) {
    page.lead("Talk to me as you would to a neighbour. For example:");
    for example in [
        "rust on the lower leaves of Celeste, 10%",
        "sprayed copper on the pots at 7",
        "gauge 0.3 - picked 9 off the big one",
        "pots bone dry - watered, 2 gallons each",
        "should I spray this week? - why?",
        "do I need to water? - frost tonight?",
        "how is Celeste? - what's coming?",
        "how much copper for 2 gallons?",
        "what was done? - how was the season?",
        "undo - no, only the pots - make that 20",
        "first frost is usually Nov 5 - quiet until Monday",
    ] {
        page.item(example);
    }
    page.small("Labels, local rules and licensed advice stand above anything I say.");
}

pub(super) fn welcome(page: &mut Page, missing: &[Missing]) {
    page.lead("Hello. I keep a fig grower's season: what you saw and did, the weather, and what is worth doing next.");
    if missing.is_empty() {
        page.line("Your garden is set up. Say \"help\" for examples.");
    } else {
        next_steps(page, missing);
    }
}

pub(super) fn next_steps(page: &mut Page, missing: &[Missing]) {
    if let Some(first) = missing.first() {
        page.line(step(first));
    }
}

fn step(missing: &Missing) -> String {
    match missing {
        Missing::Position => String::from(
            "First: where is the garden? Share your location here, send coordinates, or say \"I'm in Fairhope, Alabama\".",
        ),
        Missing::Trees => String::from(
            "Next: your trees, one by one or as a list: \"add tree Celeste, 15 gallon pot, 4 ft wide\", \"add tree Wall, in the ground\".",
        ),
        Missing::Products => String::from(
            "Next: what you spray, from its label: \"copper: 2 tbsp per gallon, every 10 days, max 6, 1 day before harvest, lists figs\".",
        ),
        Missing::Label { product } => format!(
            "The label of {product} is not complete yet: rate, days between sprays and days before harvest. Read them out to me."
        ),
        Missing::FrostDate => {
            String::from("When is your usual first frost? Say \"first frost is usually Nov 5\".")
        }
        Missing::PotSize { tree } => {
            format!("How big is the pot of {tree}? Say \"{tree} is a 15 gallon pot\".")
        }
    }
}

pub(super) fn settled(page: &mut Page, settings: &[Setting], missing: &[Missing], voice: &Voice) {
    let trees: Vec<String> = settings
        .iter()
        .filter_map(|setting| match setting {
            Setting::Tree(details) => Some(details.name.clone()),
            _ => None,
        })
        .collect();
    if trees.len() > 2 {
        page.line(format!(
            "Noted {}: {}.",
            figures::count(trees.len() as i64, "tree"),
            figures::names(&trees)
        ));
    }
    for setting in settings {
        match setting {
            Setting::Tree(_) if trees.len() > 2 => {}
            setting => page.line(words(setting, voice)),
        }
    }
    next_steps(page, missing);
}

fn words(setting: &Setting, voice: &Voice) -> String {
    match setting {
        Setting::Name { name } => format!("The garden is called {name}."),
        Setting::Position { position, place, zone } => format!(
            "Garden at {:.2}, {:.2}{}, time zone {}. I keep no finer position than that.",
            position.latitude.value(),
            position.longitude.value(),
            place.as_ref().map_or_else(String::new, |place| format!(" ({place})")),
            zone.as_deref().unwrap_or("unknown")
        ),
        Setting::Place { name } => format!("Looking for {name}."),
        Setting::FirstFrost { date } => format!("Usual first frost: {}.", year_day(*date, voice)),
        Setting::LastFrost { date } => format!("Usual last frost: {}.", year_day(*date, voice)),
        Setting::Units { units: UnitSystem::Metric } => String::from("Metric from now on."),
        Setting::Units { units: UnitSystem::Us } => String::from("US units from now on."),
        Setting::Morning { time } => format!("The morning brief comes at {}.", voice.clock(*time)),
        Setting::Quiet { quiet: Quiet::Speaking } => String::from("I speak up again in the mornings."),
        Setting::Quiet { quiet: Quiet::Until(date) } => {
            format!("Quiet up to and including {}; frost warnings still come.", voice.date(*date))
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
        Setting::Tree(details) => {
            let known = Tree {
                cultivar: details.cultivar.clone(),
                width: details.width,
                ..Tree::new(&details.name, stand_of(details))
            };
            format!("Tree noted: {}.", tree(&known, voice))
        }
        Setting::RenameTree { from, to } => format!("{from} is called {to} from now on."),
        Setting::Product(details) => {
            let mut parts: Vec<String> = Vec::new();
            parts.extend(details.rate.map(|rate| voice.rate(rate)));
            parts.extend(details.interval.map(|days| format!("every {}", figures::days(days))));
            parts.extend(details.most_applications.map(|most| format!("at most {most} a season")));
            parts
                .extend(details.before_harvest.map(|days| format!("{} before harvest", figures::days(days))));
            parts.extend(
                details.before_reentry.map(|hours| format!("re-entry after {}", figures::span(hours))),
            );
            parts.extend(details.hottest.map(|hottest| format!("not above {}", voice.temperature(hottest))));
            if parts.is_empty() {
                format!("Product noted: {}.", details.name)
            } else {
                format!("Product noted: {}: {}.", details.name, parts.join(", "))
            }
        }
        Setting::RemoveProduct { name } => format!("{name} is off the list."),
        Setting::Person { name, role, .. } => format!("{name} is {} of this garden.", role_words(*role)),
        Setting::RemovePerson { id } => format!("{id} no longer belongs to this garden."),
        Setting::Here | Setting::Room { .. } => String::from("The briefs come to this room."),
        Setting::Limit { .. } => String::from("Limit set."),
    }
}

fn stand_of(details: &crate::season::request::TreeDetails) -> Stand {
    use crate::season::request::Potted;
    match (details.potted, details.volume) {
        (Some(Potted::InPot), volume) | (None, volume @ Some(_)) => Stand::pot(volume),
        _ => Stand::ground(),
    }
}

pub(super) fn garden(page: &mut Page, view: &GardenView, voice: &Voice) {
    let name = if view.name.is_empty() { "Your garden" } else { &view.name };
    page.lead(format!("{name}:"));
    match view.position {
        Some(position) => page.line(format!(
            "At {:.2}, {:.2}{}; brief at {}.",
            position.latitude.value(),
            position.longitude.value(),
            view.place.as_ref().map_or_else(String::new, |place| format!(" ({place})")),
            voice.clock(view.morning)
        )),
        None => page.line("Its place is not known yet."),
    }
    if let Some(first) = view.first_frost {
        let basis = if view.frost_basis == Some(FrostBasis::Normals) { ", by past years" } else { "" };
        page.line(format!("Usual first frost: {}{basis}.", year_day(first, voice)));
    }
    for known in &view.trees {
        page.item(tree(known, voice));
    }
    for known in &view.products {
        page.item(product(known, voice));
    }
    if !view.people.is_empty() {
        let people: Vec<String> =
            view.people.iter().map(|(name, role)| format!("{name} ({})", role_words(*role))).collect();
        page.line(format!("People: {}.", figures::names(&people)));
    }
    next_steps(page, &view.missing);
}

fn tree(tree: &Tree, voice: &Voice) -> String {
    let mut parts = vec![tree.name.clone()];
    parts.extend(tree.cultivar.clone().filter(|cultivar| *cultivar != tree.name));
    parts.push(match &tree.stand {
        Stand::Pot { volume: Some(volume), .. } => format!("{} pot", voice.volume(*volume)),
        Stand::Pot { volume: None, .. } => String::from("pot"),
        Stand::Ground { .. } => String::from("in the ground"),
    });
    parts.extend(tree.width.map(|width| format!("{} wide", voice.length(width))));
    parts.join(", ")
}

fn product(product: &Product, voice: &Voice) -> String {
    let mut parts = vec![product.name.clone()];
    parts.extend(product.label.rate.map(|rate| voice.rate(rate)));
    parts.extend(product.label.interval.map(|interval| format!("every {}", figures::days(interval))));
    parts.join(", ")
}

pub(super) fn places(page: &mut Page, name: &str, places: &[Place]) {
    if places.is_empty() {
        page.line(format!(
            "I could not find {name}. Share your location, or send coordinates such as 30.69, -88.04."
        ));
        return;
    }
    page.lead("Which one? Answer with its number.");
    for (index, place) in places.iter().enumerate() {
        let mut parts = vec![place.name.clone()];
        parts.extend(place.region.clone());
        parts.extend(place.country.clone());
        page.line(format!("{}. {}", index + 1, parts.join(", ")));
    }
}

pub(super) fn forget_asked(page: &mut Page) {
    page.lead("This removes your reports, your settings and your name from here, for good.");
    page.line("If you mean it, say \"yes, forget me\".");
}

fn year_day(day: YearDay, voice: &Voice) -> String {
    use chrono::Datelike;
    day.in_year(voice.today().year()).map_or_else(String::new, |date| voice.date(date))
}

fn role_words(role: Role) -> &'static str {
    match role {
        Role::Keeper => "keeper",
        Role::Helper => "helper",
    }
}
