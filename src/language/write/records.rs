//! What went into the journal, and what came out of it.

use super::page::Page;
use super::{Voice, figures, phrases};
use crate::season::answer::{Assumption, DoneView, Noted, NotedItem, TakenBack, TakenBackBecause};
use crate::season::journal::{
    LeafLevel, MoistureState, Report, RustAmount, RustWords, Stage, Timing, Whereabouts,
};
use crate::season::request::Deed;

pub(super) fn noted(page: &mut Page, noted: &Noted, voice: &Voice) {
    match noted.items.as_slice() {
        [] => {}
        [one] => page.line(format!("Noted: {}.", item(one, voice))),
        several => {
            page.line("Noted:");
            for one in several {
                page.item(item(one, voice));
            }
        }
    }
    let trees = noted.items.iter().map(|item| item.trees.len()).max().unwrap_or(0);
    for assumption in &noted.assumptions {
        page.line(assumed(assumption, trees, voice));
    }
}

pub(super) fn taken_back(page: &mut Page, taken: &TakenBack, voice: &Voice) {
    let mut what: Vec<String> = taken.items.iter().map(|one| item(one, voice)).collect();
    if taken.settings > 0 {
        what.push(figures::count(taken.settings as i64, "setting"));
    }
    let verb = match taken.because {
        TakenBackBecause::Undone | TakenBackBecause::Edited | TakenBackBecause::Deleted => "Taken back",
        TakenBackBecause::Corrected => "Corrected. It now says",
    };
    match what.as_slice() {
        [] => page.line(format!("{}.", verb.trim_end_matches(". It now says"))),
        [one] => page.line(format!("{verb}: {one}.")),
        several => {
            page.line(format!("{verb}:"));
            for one in several {
                page.item(one.as_str());
            }
        }
    }
}

pub(super) fn done(page: &mut Page, view: &DoneView, voice: &Voice) {
    let of =
        if view.trees.is_empty() { String::new() } else { format!(" on {}", phrases::names(&view.trees)) };
    if view.items.is_empty() {
        page.lead(match view.deed {
            Some(deed) => format!("No {} noted{of} yet.", deed_words(deed).0),
            None => format!("Nothing noted{of} yet."),
        });
        return;
    }
    page.lead(match view.deed {
        Some(deed) => format!("{}{of}, the last first:", deed_words(deed).1),
        None => format!("Last noted{of}:"),
    });
    for one in &view.items {
        page.item(format!("{}: {}", phrases::capitalised(&when(one, voice)), what(one, voice)));
    }
    if view.earlier > 0 {
        page.line(format!("And {} before that.", figures::count(view.earlier as i64, "entry")));
    }
}

/// One of its kind, and all of them at the head of a list.
fn deed_words(deed: Deed) -> (&'static str, &'static str) {
    match deed {
        Deed::Spray => ("spray", "Sprays"),
        Deed::Water => ("watering", "Waterings"),
        Deed::Pick => ("harvest", "Harvests"),
        Deed::Look => ("look at the leaves", "Looks at the leaves"),
    }
}

/// "copper sprayed on Celeste, yesterday 7 am".
fn item(item: &NotedItem, voice: &Voice) -> String {
    format!("{}, {}", what(item, voice), when(item, voice))
}

fn when(item: &NotedItem, voice: &Voice) -> String {
    match item.timing {
        Timing::Told => voice.moment(item.happened),
        Timing::Assumed => voice.short_day(voice.date_of(item.happened)),
    }
}

fn what(item: &NotedItem, voice: &Voice) -> String {
    let trees = if item.whole_garden {
        format!("all {} trees", item.trees.len())
    } else {
        phrases::names(&item.trees)
    };
    let on = |said: &str| if trees.is_empty() { said.to_owned() } else { format!("{said} on {trees}") };
    let of = |said: &str| if trees.is_empty() { said.to_owned() } else { format!("{trees}: {said}") };
    match &item.report {
        Report::Scouted { amount: RustAmount::None, level } => {
            format!("{}{}", on("no rust"), level_words(*level))
        }
        Report::Scouted { amount, level } => {
            format!("{}, {}{}", on("rust"), amount_words(*amount), level_words(*level))
        }
        Report::LeafDrop { share: Some(share) } => {
            of(&format!("{} of the leaves lost", figures::percent_told(*share)))
        }
        Report::LeafDrop { share: None } => of("dropping leaves"),
        Report::Sprayed { product, volume } => {
            let volume = volume.map_or_else(String::new, |volume| format!(", {}", voice.volume_told(volume)));
            format!("{}{volume}", on(&format!("{} sprayed", phrases::name(product))))
        }
        Report::Watered { volume, depth } => {
            let each = if item.trees.len() > 1 { " each" } else { "" };
            let amount = match (volume, depth) {
                (Some(volume), _) => format!(", {}{each}", voice.volume_told(*volume)),
                (None, Some(depth)) => format!(", {}", voice.depth_told(*depth)),
                (None, None) => String::new(),
            };
            format!("{}{amount}", of("watered"))
        }
        Report::Moisture { state } => of(moisture_words(*state)),
        Report::Weighed { mass, state } => {
            of(&format!("{} on the scale, {}", voice.mass(*mass), moisture_words(*state)))
        }
        Report::Rained { depth } => format!("{} of rain", voice.depth_told(*depth)),
        Report::Stage { stage } => of(stage_words(*stage)),
        Report::Picked { count, mass } => {
            let amount = match (count, mass) {
                (Some(count), Some(mass)) => {
                    format!("{}, {}", figures::count(i64::from(*count), "fig"), voice.mass(*mass))
                }
                (Some(count), None) => figures::count(i64::from(*count), "fig"),
                (None, Some(mass)) => format!("{} of figs", voice.mass(*mass)),
                (None, None) => String::from("figs"),
            };
            of(&format!("{amount} picked"))
        }
        Report::Frost { minimum: Some(minimum) } => format!("frost, {}", voice.temperature(*minimum)),
        Report::Frost { minimum: None } => String::from("frost"),
        Report::Planted => of("planted"),
        Report::Removed => of("gone"),
        Report::Moved { to } => of(whereabouts_words(*to)),
        Report::Note { text } => of(&phrases::quoted(text)),
        Report::Photo { caption: Some(caption), .. } => {
            format!("{}, {}", on("photo"), phrases::quoted(caption))
        }
        Report::Photo { caption: None, .. } => on("photo"),
    }
}

pub(super) fn amount_words(amount: RustAmount) -> String {
    match amount {
        RustAmount::None => String::from("none"),
        RustAmount::Severity(share) => figures::percent_told(share),
        RustAmount::Class(class) => format!("class {class}"),
        RustAmount::Leaves { spotted, of } => format!("{spotted} of {of} leaves"),
        RustAmount::Words(RustWords::Trace) => String::from("a little"),
        RustAmount::Words(RustWords::Some) => String::from("some"),
        RustAmount::Words(RustWords::Heavy) => String::from("a lot"),
    }
}

fn level_words(level: Option<LeafLevel>) -> &'static str {
    match level {
        Some(LeafLevel::Lower) => ", lower leaves",
        Some(LeafLevel::Middle) => ", middle leaves",
        Some(LeafLevel::Upper) => ", upper leaves",
        Some(LeafLevel::Whole) => ", all over",
        None => "",
    }
}

fn moisture_words(state: MoistureState) -> &'static str {
    match state {
        MoistureState::Dry => "dry",
        MoistureState::Moist => "moist",
        MoistureState::Wet => "wet",
    }
}

fn whereabouts_words(to: Whereabouts) -> &'static str {
    match to {
        Whereabouts::Indoors => "moved inside",
        Whereabouts::Outdoors => "back outside",
    }
}

pub(super) fn stage_words(stage: Stage) -> &'static str {
    match stage {
        Stage::LeafOut => "leafing out",
        Stage::Fruitlets => "small green figs",
        Stage::Swelling => "figs swelling",
        Stage::Ripening => "figs ripening",
        Stage::PickedOut => "picked out",
        Stage::LeafFall => "leaves falling",
        Stage::Dormant => "dormant",
    }
}

fn assumed(assumption: &Assumption, trees: usize, voice: &Voice) -> String {
    const WHEN: &str = "say \"it was at 7\" to correct me";
    match assumption {
        Assumption::AllTrees => {
            format!("I took it as all {trees} trees; say \"only the pots\" to correct me.")
        }
        Assumption::Time { at } => format!("I took it as {}; {WHEN}.", voice.moment(*at)),
        Assumption::AfterRain { at } => {
            format!("By my weather record that was {}; {WHEN}.", voice.moment(*at))
        }
        Assumption::NoRainKnown => {
            format!("I have no rain on record for it, so I took it as now; {WHEN}.")
        }
        Assumption::Product { name } => {
            format!("I took it as {}; say \"I meant sulfur\" to correct me.", phrases::name(name))
        }
        Assumption::Spelling { typed, read } => {
            format!(
                "I read {} as {}; say \"undo\" if that is wrong.",
                phrases::quoted(typed),
                phrases::name(read)
            )
        }
    }
}
