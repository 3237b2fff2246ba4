//! How a tree stands.

use super::page::Page;
use super::{Voice, figures, phrases, records, spray, water};
use crate::season::answer::{
    Harvest, HarvestWait, LastSpray, Ripening, RipeningOutlook, Scouted, TreeState, TreeView,
};
use crate::season::journal::RustAmount;
use crate::units::Fraction;

/// As many trees as a phone shows.
const SHOWN: usize = 12;

pub(super) fn view(page: &mut Page, view: &TreeView, voice: &Voice) {
    match view.trees.as_slice() {
        [] => page.lead("I know of no such tree yet. Add it, as in \"add tree Celeste, 15 gallon pot\"."),
        [one] => tree(page, one, &view.waits, voice),
        several => {
            page.lead("Tree by tree:");
            for state in several.iter().take(SHOWN) {
                page.item(short(state, voice));
            }
            if several.len() > SHOWN {
                page.line(format!("And {} more; ask for one by its name.", several.len() - SHOWN));
            }
            spray::waits(page, &view.waits, several.len(), voice);
        }
    }
}

fn tree(page: &mut Page, state: &TreeState, waits: &[HarvestWait], voice: &Voice) {
    page.lead(short(state, voice));
    spray::waits(page, waits, 1, voice);
    page.line(match &state.last_sprayed {
        Some(spray) => sprayed(spray, state.cover, voice),
        None => String::from("No spray on record this season."),
    });
    // That all is well needs no line.
    if let Some(left) = state.leaves_left.filter(|left| figures::leaves(*left) != figures::ALL_BUT_ALL) {
        page.line(format!("I reckon {} of its leaves are left.", figures::leaves(left)));
    }
    if let Some((infection, due)) = state.pipeline.last() {
        page.line(format!(
            "Rust may have got in {} ({}); first spots about {}.",
            voice.stretch(infection.from, infection.to),
            spray::grade(infection.grade),
            voice.day(*due)
        ));
    }
    page.line(state.water.as_ref().and_then(|water| water::state_line(water, voice)).unwrap_or_default());
    page.line(state.housed.as_ref().and_then(|housed| water::housed_line(housed, voice)).unwrap_or_default());
    page.line(state.ripening.map(|ripening| ripens(&ripening, voice)).unwrap_or_default());
    if let Some(swing) = state.moisture_swing {
        page.line(swing_words(swing));
    }
    if let Some(copper) = state.copper {
        page.line(format!("Copper this season: {}.", voice.copper(copper)));
    }
}

fn sprayed(spray: &LastSpray, cover: Option<Fraction>, voice: &Voice) -> String {
    let left = cover.map_or_else(String::new, |cover| format!("; {} of it is left", figures::part(cover)));
    let when = if spray.days.value().round() < 1.0 {
        String::from("today")
    } else {
        format!("{} ago", figures::days(spray.days))
    };
    let product = phrases::capitalised(&phrases::name(&spray.product));
    format!("{product} {when}, {} since{left}.", voice.rain(spray.rain_since))
}

/// One line: rust, stage, leaves, harvest.
fn short(state: &TreeState, voice: &Voice) -> String {
    let mut parts = vec![match &state.last_scouted {
        Some(look) => scouted(look, voice),
        None => String::from("leaves not looked at this season"),
    }];
    if state.housed.is_some() {
        parts.insert(0, String::from("inside"));
    }
    parts.extend(state.stage.map(|stage| records::stage_words(stage).to_owned()));
    parts.extend(state.leaf_drop.map(|share| format!("{} of the leaves lost", figures::percent(share))));
    if state.some_lost {
        parts.push(String::from("some leaves lost"));
    }
    if state.picked.first.is_some() {
        parts.push(format!("{} picked", harvest(&state.picked, voice)));
    }
    format!("{}: {}.", phrases::name(&state.tree.name), parts.join(", "))
}

fn scouted(look: &Scouted, voice: &Voice) -> String {
    let when = voice.short_day(look.on);
    match look.amount {
        RustAmount::None => format!("no rust ({when})"),
        amount => format!("rust {} ({when})", records::amount_words(amount)),
    }
}

fn ripens(ripening: &Ripening, voice: &Voice) -> String {
    let when = match (ripening.from, ripening.to) {
        (Some(from), Some(to)) => format!(", about {} to {}", voice.date(from), voice.date(to)),
        (Some(from), None) if from <= voice.today() => String::from(" from now on"),
        (Some(from), None) => format!(", from about {}", voice.date(from)),
        _ => String::new(),
    };
    match ripening.outlook {
        RipeningOutlook::Likely => format!("The figs should ripen{when}."),
        RipeningOutlook::Possible => format!("The figs may ripen{when}; it will be close."),
        RipeningOutlook::Doubtful => String::from("It is doubtful that the figs ripen before frost."),
        RipeningOutlook::No => String::from("The green figs will not ripen before frost; take them off."),
        RipeningOutlook::Unknown => String::from("I cannot tell yet when the figs ripen."),
    }
}

fn swing_words(swing: Fraction) -> &'static str {
    match swing.value() {
        swing if swing < 0.4 => "It dries little between waterings: nice and even.",
        swing if swing < 0.7 => "It goes about half dry between waterings.",
        _ => "It swings from soaked to nearly dry; less water, more often, keeps it even.",
    }
}

pub(super) fn harvest(harvest: &Harvest, voice: &Voice) -> String {
    let mut parts = Vec::new();
    if harvest.count > 0 {
        parts.push(figures::count(i64::from(harvest.count), "fig"));
    }
    if harvest.mass.value() > 0.0 {
        parts.push(voice.mass(harvest.mass));
    }
    if parts.is_empty() {
        return String::from("some figs");
    }
    // A share of what several trees gave together is a guess.
    let about = if harvest.shared { "about " } else { "" };
    format!("{about}{}", parts.join(" and "))
}
