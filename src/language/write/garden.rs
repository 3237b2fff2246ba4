//! What is known of the garden.

use super::page::Page;
use super::{Voice, figures, phrases, setup};
use crate::season::answer::{FrostBasis, GardenView};
use crate::season::garden::{
    Active, Bearing, Carrier, Label, LabelListing, Product, Role, Shelter, Stand, Tree, UnitSystem,
};
use crate::season::request::{Potted, ProductDetails, TreeDetails};
use crate::units::Position;

/// As many trees as a phone shows.
const SHOWN: usize = 12;

pub(super) fn view(page: &mut Page, view: &GardenView, voice: &Voice) {
    let name = if view.name.is_empty() { String::from("Your garden") } else { phrases::name(&view.name) };
    page.lead(format!("{name}:"));
    let place = view.position.map_or_else(
        || String::from("Its place is not known yet"),
        |position| format!("At {}", place(position, view.place.as_deref())),
    );
    let units = match view.units {
        UnitSystem::Metric => "metric",
        UnitSystem::Us => "US units",
    };
    page.line(format!("{place}; brief at {}, {units}.", voice.clock(view.morning)));
    if let Some(first) = view.first_frost {
        let basis = if view.frost_basis == Some(FrostBasis::Normals) { ", by past years" } else { "" };
        page.line(format!("Usual first frost: {}{basis}.", voice.year_day(first)));
    }
    if let Some(last) = view.last_frost {
        page.line(format!("Usual last frost: {}.", voice.year_day(last)));
    }
    for known in view.trees.iter().take(SHOWN) {
        page.item(tree(known, voice));
    }
    if view.trees.len() > SHOWN {
        page.item(format!("and {} more trees", view.trees.len() - SHOWN));
    }
    for known in &view.products {
        page.item(product(known, voice));
    }
    if !view.people.is_empty() {
        let people: Vec<String> = view
            .people
            .iter()
            .map(|(name, role)| format!("{} ({})", phrases::name(name), role_word(*role)))
            .collect();
        page.line(format!("People: {}.", phrases::names(&people)));
    }
    setup::next_step(page, &view.missing, voice);
}

/// "30.69, -88.04 (Fairhope)".
pub(super) fn place(position: Position, called: Option<&str>) -> String {
    format!(
        "{:.2}, {:.2}{}",
        position.latitude.value(),
        position.longitude.value(),
        called.map_or_else(String::new, |called| format!(" ({})", phrases::name(called)))
    )
}

/// "Celeste, 15 gal pot, 4 ft wide".
pub(super) fn tree(tree: &Tree, voice: &Voice) -> String {
    let mut parts = vec![phrases::name(&tree.name)];
    let cultivar = tree.cultivar.as_ref().filter(|cultivar| **cultivar != tree.name);
    parts.extend(cultivar.map(|cultivar| phrases::name(cultivar)));
    match &tree.stand {
        Stand::Pot { volume, shelter, mulch, .. } => {
            parts.push(match volume {
                Some(volume) => format!("{} pot", voice.volume_told(*volume)),
                None => String::from("pot"),
            });
            if *shelter == Shelter::FromRain {
                parts.push(String::from("out of the rain"));
            }
            parts.extend(mulch.map(|mulch| format!("{} mulch", voice.thickness(mulch))));
        }
        Stand::Ground { compost, mulch, .. } => {
            parts.push(String::from("in the ground"));
            parts.extend(compost.map(|compost| format!("{} compost", voice.thickness(compost))));
            parts.extend(mulch.map(|mulch| format!("{} mulch", voice.thickness(mulch))));
        }
    }
    parts.extend(tree.width.map(|width| format!("{} wide", voice.length(width))));
    if tree.bearing == Bearing::Young {
        parts.push(String::from("too young to bear"));
    }
    parts.join(", ")
}

/// A tree as far as one message told it.
pub(super) fn as_told(details: &TreeDetails) -> Tree {
    let mut stand = match (details.potted, details.volume) {
        (Some(Potted::InPot), volume) | (None, volume @ Some(_)) => Stand::pot(volume),
        (Some(Potted::InGround), _) | (None, None) => Stand::ground(),
    };
    match &mut stand {
        Stand::Pot { mulch, shelter, .. } => {
            *mulch = details.mulch;
            *shelter = details.shelter.unwrap_or(Shelter::Open);
        }
        Stand::Ground { mulch, compost, .. } => {
            *mulch = details.mulch;
            *compost = details.compost;
        }
    }
    Tree {
        cultivar: details.cultivar.clone(),
        width: details.width,
        bearing: details.bearing.unwrap_or(Bearing::Bearing),
        ..Tree::new(&details.name, stand)
    }
}

fn product(product: &Product, voice: &Voice) -> String {
    let mut parts = vec![phrases::name(&product.name)];
    if product.carrier == Carrier::Oil && product.active != Active::Oil {
        parts.push(String::from("oil-based"));
    }
    parts.extend(label(&product.label, voice));
    parts.join(", ")
}

/// A label as far as one message told it.
pub(super) fn told_label(details: &ProductDetails, voice: &Voice) -> String {
    let told = Label {
        rate: details.rate,
        interval: details.interval,
        most_applications: details.most_applications,
        before_harvest: details.before_harvest,
        before_reentry: details.before_reentry,
        hottest: details.hottest,
        lists_figs: details.lists_figs,
    };
    let mut parts = vec![phrases::name(&details.name)];
    parts.extend(label(&told, voice));
    parts.join(", ")
}

pub(super) fn label(label: &Label, voice: &Voice) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    parts.extend(label.rate.map(|rate| voice.rate(rate)));
    parts.extend(label.interval.map(|days| format!("every {}", figures::days(days))));
    parts.extend(label.most_applications.map(|most| format!("at most {most} a season")));
    parts.extend(label.before_harvest.map(|days| format!("{} before harvest", figures::days(days))));
    parts.extend(label.before_reentry.map(|hours| format!("re-entry after {}", figures::span(hours))));
    parts.extend(label.hottest.map(|hottest| format!("not above {}", voice.temperature(hottest))));
    parts.extend(label.lists_figs.map(|listing| match listing {
        LabelListing::Listed => String::from("lists figs"),
        LabelListing::NotListed => String::from("does not list figs"),
    }));
    parts
}

fn role_word(role: Role) -> &'static str {
    match role {
        Role::Keeper => "keeper",
        Role::Helper => "helper",
    }
}
