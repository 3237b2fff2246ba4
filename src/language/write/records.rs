//! What went into the journal, and what came out of it.

use super::page::Page;
use super::{Voice, figures};
use crate::season::answer::{Assumption, DoneView, Noted, NotedItem, TakenBack, TakenBackBecause};
use crate::season::journal::{LeafLevel, MoistureState, Report, RustAmount, RustWords, Stage, Timing};

pub(super) fn noted(page: &mut Page, noted: &Noted, voice: &Voice) {
    match noted.items.as_slice() {
        [one] => page.line(format!("Noted: {}.", item(one, voice))),
        several => {
            page.line("Noted:");
            for one in several {
                page.item(item(one, voice));
            }
        }
    }
    for assumption in &noted.assumptions {
        page.line(assumed(assumption, voice));
    }
}

pub(super) fn taken_back(page: &mut Page, taken: &TakenBack, voice: &Voice) {
    let what: Vec<String> = taken.items.iter().map(|one| item(one, voice)).collect();
    let what =
        if what.is_empty() { figures::count(taken.settings as i64, "setting") } else { what.join("; ") };
    page.line(match taken.because {
        TakenBackBecause::Undone | TakenBackBecause::Edited | TakenBackBecause::Deleted => {
            format!("Taken back: {what}.")
        }
        TakenBackBecause::Corrected => format!("Corrected: {what}."),
    });
}

pub(super) fn done(page: &mut Page, view: &DoneView, voice: &Voice) {
    let of =
        if view.trees.is_empty() { String::new() } else { format!(" on {}", figures::names(&view.trees)) };
    if view.items.is_empty() {
        page.lead(format!("Nothing noted{of} yet."));
        return;
    }
    page.lead(format!("Last noted{of}:"));
    for one in &view.items {
        page.item(item(one, voice));
    }
    if view.earlier > 0 {
        page.line(format!(
            "And {} earlier.",
            figures::count(view.earlier as i64, "entry").replace("entrys", "entries")
        ));
    }
}

/// "sprayed copper on Celeste, Tue 7 am".
pub(super) fn item(item: &NotedItem, voice: &Voice) -> String {
    let trees = if item.whole_garden { String::from("all trees") } else { figures::names(&item.trees) };
    let on = |verb: &str| if trees.is_empty() { verb.to_owned() } else { format!("{verb} on {trees}") };
    let what = match &item.report {
        Report::Scouted { amount: RustAmount::None, .. } => on("no rust"),
        Report::Scouted { amount, level } => {
            on(&format!("rust{}{}", amount_words(*amount), level_words(*level)))
        }
        Report::LeafDrop { share: Some(share) } => {
            format!("{trees} lost {} of the leaves", figures::percent(*share))
        }
        Report::LeafDrop { share: None } => format!("{trees} dropping leaves"),
        Report::Sprayed { product, volume } => {
            let volume = volume.map_or_else(String::new, |volume| format!(", {}", voice.volume(volume)));
            format!("{}{volume}", on(&format!("{product} sprayed")))
        }
        Report::Watered { volume, depth } => {
            let amount = match (volume, depth) {
                (Some(volume), _) => format!(", {}", voice.volume(*volume)),
                (None, Some(depth)) => format!(", {}", voice.depth(*depth)),
                (None, None) => String::new(),
            };
            format!("watered {trees}{amount}")
        }
        Report::Moisture { state } => format!("{trees} {}", moisture_words(*state)),
        Report::Weighed { mass, state } => {
            format!("{trees} weighs {} {}", voice.mass(*mass), moisture_words(*state))
        }
        Report::Rained { depth } => format!("{} of rain in the gauge", voice.depth(*depth)),
        Report::Stage { stage } => format!("{trees} {}", stage_words(*stage)),
        Report::Picked { count, mass } => {
            let amount = match (count, mass) {
                (Some(count), _) => figures::count(i64::from(*count), "fig"),
                (None, Some(mass)) => format!("{} of figs", voice.mass(*mass)),
                (None, None) => String::from("figs"),
            };
            format!("picked {amount} from {trees}")
        }
        Report::Frost { minimum: Some(minimum) } => format!("frost, {}", voice.temperature(*minimum)),
        Report::Frost { minimum: None } => String::from("frost"),
        Report::Planted => format!("planted {trees}"),
        Report::Removed => format!("{trees} gone"),
        Report::Note { text } => format!("note: {text}"),
        Report::Photo { .. } => on("photo"),
    };
    let when = match item.timing {
        Timing::Told => voice.moment(item.happened),
        Timing::Assumed => voice.day(voice.date_of(item.happened)),
    };
    format!("{what}, {when}")
}

fn amount_words(amount: RustAmount) -> String {
    match amount {
        RustAmount::None => String::new(),
        RustAmount::Severity(share) => format!(" {}", figures::percent(share)),
        RustAmount::Class(class) => format!(" class {class}"),
        RustAmount::Leaves { spotted, of } => format!(" on {spotted} of {of} leaves"),
        RustAmount::Words(RustWords::Trace) => String::from(", a little"),
        RustAmount::Words(RustWords::Some) => String::from(", some"),
        RustAmount::Words(RustWords::Heavy) => String::from(", heavy"),
    }
}

fn level_words(level: Option<LeafLevel>) -> &'static str {
    match level {
        Some(LeafLevel::Lower) => ", lower leaves,",
        Some(LeafLevel::Middle) => ", middle leaves,",
        Some(LeafLevel::Upper) => ", upper leaves,",
        Some(LeafLevel::Whole) => ", all over,",
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

pub(super) fn stage_words(stage: Stage) -> &'static str {
    match stage {
        Stage::LeafOut => "leafing out",
        Stage::Fruitlets => "with figlets",
        Stage::Swelling => "with figs swelling",
        Stage::Ripening => "with figs ripening",
        Stage::PickedOut => "picked out",
        Stage::LeafFall => "dropping leaves for winter",
        Stage::Dormant => "dormant",
    }
}

fn assumed(assumption: &Assumption, voice: &Voice) -> String {
    match assumption {
        Assumption::AllTrees => {
            String::from("I took it as all trees; to correct, for example \"only the pots\".")
        }
        Assumption::Time { at } => {
            format!("I took it as {}; to correct, say \"it was at 7\".", voice.moment(*at))
        }
        Assumption::AfterRain { at } => {
            format!(
                "By the weather record that was about {}; to correct, say \"it was at 7\".",
                voice.moment(*at)
            )
        }
        Assumption::NoRainKnown => String::from(
            "I have no rain on record before it, so I took it as now; to correct, say \"it was at 7\".",
        ),
        Assumption::Product { name } => {
            format!("I took the product as {name}; to correct, say \"I meant ...\".")
        }
        Assumption::Spelling { typed, read } => {
            format!("I read \"{typed}\" as {read}; to correct, say \"undo\".")
        }
    }
}
