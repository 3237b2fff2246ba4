//! Trees, the days ahead, the season, and pots against ground.

use super::page::Page;
use super::{Voice, figures, records, spray, water};
use crate::season::answer::{
    AheadView, CompareTest, CompareView, GroupFigures, Harvest, RipeningOutlook, SeasonView, TreeState,
    TreeView,
};
use crate::season::journal::RustAmount;

pub(super) fn trees(page: &mut Page, view: &TreeView, voice: &Voice) {
    match view.trees.as_slice() {
        [] => page.lead("I know of no such tree yet."),
        [one] => tree(page, one, voice),
        several => {
            page.lead("Tree by tree:");
            const SHOWN: usize = 12;
            for state in several.iter().take(SHOWN) {
                page.item(short(state, voice));
            }
        }
    }
}

fn tree(page: &mut Page, state: &TreeState, voice: &Voice) {
    page.lead(short(state, voice));
    if let Some(spray) = &state.last_sprayed {
        let left = state.cover.map_or("nothing known", figures::part);
        page.line(format!(
            "{} {} ago, {} of rain since: {left} left.",
            figures::capitalised(&spray.product),
            figures::days(spray.days),
            voice.depth(spray.rain_since)
        ));
    } else {
        page.line("No spray on record this season.");
    }
    if let Some((infection, due)) = state.pipeline.last() {
        page.line(format!(
            "Rust may have got in {} ({}); first spots about {}.",
            voice.stretch(infection.from, infection.to),
            spray::grade(infection.grade),
            voice.day(*due)
        ));
    }
    if let Some(water) = &state.water {
        page.line(water::tree_line(water, voice));
    }
    if let Some(ripening) = &state.ripening {
        page.line(ripening_words(ripening, voice));
    }
    if let Some(swing) = state.moisture_swing {
        page.line(format!("Its water swings by {} of what the pot can hold.", figures::part(swing)));
    }
    if let Some(copper) = state.copper {
        page.line(format!("Copper this season: {:.1} g per square metre.", copper.value()));
    }
}

/// One line: rust, stage, harvest.
fn short(state: &TreeState, voice: &Voice) -> String {
    let mut parts = Vec::new();
    parts.push(match &state.last_scouted {
        Some(look) if look.amount == RustAmount::None => format!("no rust on {}", voice.date(look.on)),
        Some(look) => format!("rust {} on {}", figures::percent(look.severity), voice.date(look.on)),
        None => String::from("leaves not looked at this season"),
    });
    parts.extend(state.stage.map(|stage| records::stage_words(stage).to_owned()));
    parts.extend(state.leaf_drop.map(|share| format!("{} of the leaves lost", figures::percent(share))));
    if state.picked.first.is_some() {
        parts.push(format!("picked {}", harvest(&state.picked, voice)));
    }
    format!("{}: {}.", state.tree.name, parts.join(", "))
}

fn ripening_words(ripening: &crate::season::answer::Ripening, voice: &Voice) -> String {
    let when = match (ripening.from, ripening.to) {
        (Some(from), Some(to)) => format!(", about {} to {}", voice.date(from), voice.date(to)),
        (Some(from), None) => format!(", from about {}", voice.date(from)),
        _ => String::new(),
    };
    match ripening.outlook {
        RipeningOutlook::Likely => format!("The crop is likely to ripen{when}."),
        RipeningOutlook::Possible => format!("The crop may ripen{when}; it will be close."),
        RipeningOutlook::Doubtful => String::from("It is doubtful that the crop ripens before frost."),
        RipeningOutlook::No => String::from("The green figs will not ripen before frost."),
        RipeningOutlook::Unknown => String::from("I cannot tell yet when the crop ripens."),
    }
}

fn harvest(harvest: &Harvest, voice: &Voice) -> String {
    let mut parts = Vec::new();
    if harvest.count > 0 {
        parts.push(figures::count(i64::from(harvest.count), "fig"));
    }
    if harvest.mass.value() > 0.0 {
        parts.push(voice.mass(harvest.mass));
    }
    if parts.is_empty() { String::from("some figs") } else { parts.join(" and ") }
}

pub(super) fn ahead(page: &mut Page, view: &AheadView, voice: &Voice) {
    if view.days.is_empty() {
        page.lead("I have no forecast for your garden right now.");
        return;
    }
    let worst = view.infection.iter().max_by_key(|infection| infection.grade);
    page.lead(match worst {
        Some(infection) => format!(
            "Rust weather {}: {} of wet leaves, {}.",
            voice.stretch(infection.from, infection.to),
            figures::span(infection.wet_hours),
            spray::grade(infection.grade)
        ),
        None => String::from("No rust weather in sight."),
    });
    for day in &view.days {
        let mut parts = Vec::new();
        if let (Some(low), Some(high)) = (day.minimum, day.maximum) {
            parts.push(format!("{} to {}", voice.temperature(low), voice.temperature(high)));
        }
        if let Some(rain) = day.rain.filter(|rain| rain.value() > 0.0) {
            parts.push(format!("{} of rain", voice.depth(rain)));
        }
        if day.wet_hours > 0 {
            parts.push(format!("leaves wet {}", figures::count(i64::from(day.wet_hours), "hour")));
        }
        page.item(format!("{}: {}", figures::capitalised(&voice.day(day.date)), parts.join(", ")));
    }
    if let Some(window) = &view.window {
        page.line(format!("Good spray hours: {}.", voice.window(window)));
    }
    if let Some(night) = &view.frost {
        page.line(super::frost::night_line(night, voice));
    }
    page.small("Past day five the forecast is smoothed; wet nights there are not counted.");
}

pub(super) fn season(page: &mut Page, view: &SeasonView, voice: &Voice) {
    page.lead(format!("Season {} so far:", view.season));
    let sprays: Vec<String> =
        view.sprays.iter().map(|(product, count)| format!("{product} {}", times(*count))).collect();
    page.item(if sprays.is_empty() {
        String::from("no sprays noted")
    } else {
        format!("sprays: {}", sprays.join(", "))
    });
    page.item(match &view.first_rust {
        Some((date, trees)) => format!("first rust {} on {}", voice.date(*date), figures::names(trees)),
        None => format!("no rust seen in {}", figures::count(i64::from(view.scoutings), "look")),
    });
    page.item(format!(
        "{} wet enough for moderate or severe infection; {} of rain",
        figures::count(i64::from(view.infections), "spell"),
        voice.depth(view.rain)
    ));
    for (tree, picked) in &view.harvest {
        page.item(format!("{tree}: picked {}", harvest(picked, voice)));
    }
    for (tree, share) in &view.disease {
        page.item(format!("{tree}: {} of the worst rust season possible", figures::percent(*share)));
    }
    for (tree, share) in &view.leaf_drop {
        page.item(format!("{tree}: lost {} of its leaves", figures::percent(*share)));
    }
    if let Some(date) = view.frost {
        page.item(format!("first frost noted {}", voice.date(date)));
    }
}

fn times(count: u32) -> String {
    match count {
        1 => String::from("once"),
        2 => String::from("twice"),
        count => format!("{count} times"),
    }
}

pub(super) fn compare(page: &mut Page, view: &CompareView) {
    page.lead(match view.test {
        CompareTest::NotTestable { .. } => {
            String::from("Pots against ground: too few trees looked at to tell.")
        }
        CompareTest::Tested { p, .. } if p < 0.05 => match (view.pots.disease, view.ground.disease) {
            (Some(pots), Some(ground)) if pots > ground => {
                String::from("Pots had more rust than the ground, beyond what chance makes.")
            }
            _ => String::from("The ground had more rust than the pots, beyond what chance makes."),
        },
        CompareTest::Tested { .. } => {
            String::from("No difference in rust between pots and ground that chance could not make.")
        }
    });
    page.item(group("Pots", &view.pots));
    page.item(group("Ground", &view.ground));
    page.line(match view.test {
        CompareTest::NotTestable { .. } => String::from(
            "It takes at least four trees each way, looked at twice or more in the season. Leaves of one tree count as one.",
        ),
        CompareTest::Tested { p, smallest_p } => {
            format!("Exact rank test: p {p:.3}; the smallest these numbers could give is {smallest_p:.3}.")
        }
    });
    page.small("Cultivar, pot size and shade can make a difference look like one of pots and ground.");
}

fn group(name: &str, figures_of: &GroupFigures) -> String {
    let mut parts = vec![figures::count(i64::from(figures_of.trees), "tree")];
    parts.push(format!("{} looked at often enough", figures_of.scouted));
    parts.extend(
        figures_of.disease.map(|share| format!("rust {} of the worst possible", figures::percent(share))),
    );
    parts.extend(figures_of.swing.map(|swing| format!("water swing {}", figures::percent(swing))));
    if figures_of.harvest.count > 0 {
        parts.push(format!("{} picked", figures::count(i64::from(figures_of.harvest.count), "fig")));
    }
    format!("{name}: {}", parts.join(", "))
}
