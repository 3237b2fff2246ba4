//! How old the weather behind an answer is, and whose it is.

use super::figures;
use super::page::Page;
use crate::season::answer::{Answer, BriefItem, DataAge, Freshness};
use crate::units::Hours;

/// Newer than this needs no word.
const JUST_IN: Hours = Hours::new(1.0);

/// The age of the weather an answer rests on, where it rests on any.
pub(super) fn of(answer: &Answer) -> Option<&DataAge> {
    match answer {
        Answer::Spray(advice) | Answer::Why(advice) => Some(&advice.age),
        Answer::Water(water) => Some(&water.age),
        Answer::WhyWater(reasons) => Some(&reasons.age),
        Answer::Frost(frost) => Some(&frost.age),
        Answer::Tree(view) => Some(&view.age),
        Answer::Ahead(view) => Some(&view.age),
        Answer::Brief(brief) => Some(&brief.age),
        Answer::Watching(watching) => Some(&watching.age),
        Answer::Done(_)
        | Answer::Season(_)
        | Answer::Mix(_)
        | Answer::Together(_)
        | Answer::Product(_)
        | Answer::Picking(_)
        | Answer::Compare(_)
        | Answer::Garden(_)
        | Answer::Help
        | Answer::Noted(_)
        | Answer::Broken(_)
        | Answer::TakenBack(_)
        | Answer::Settled { .. }
        | Answer::Doubtful(_)
        | Answer::Aside { .. }
        | Answer::Refused { .. }
        | Answer::Welcome { .. }
        | Answer::SetUp { .. }
        | Answer::Places { .. }
        | Answer::SeasonOver(_)
        | Answer::ForgetAsked
        | Answer::Unreadable { .. }
        | Answer::Forgotten
        | Answer::Missed { .. } => None,
    }
}

/// Whether figures of the weather stand in an answer, so that their source is to be credited.
pub(super) fn is_shown(answer: &Answer) -> bool {
    match answer {
        Answer::Brief(brief) => brief.items.iter().any(|item| match item {
            BriefItem::Job { .. } | BriefItem::Broken(_) | BriefItem::MissedAlarm { .. } => false,
            BriefItem::Spray(_)
            | BriefItem::Water { .. }
            | BriefItem::Heat { .. }
            | BriefItem::Frost(_)
            | BriefItem::PickBeforeRain { .. }
            | BriefItem::Scout { .. }
            | BriefItem::FirstSigns { .. }
            | BriefItem::SeasonOver(_)
            | BriefItem::OldWeather => true,
        }),
        Answer::Watching(watching) => watching.cover.is_some(),
        answer => of(answer).is_some(),
    }
}

/// Old weather is said before anything that rests on it.
pub(super) fn warn(page: &mut Page, age: &DataAge) {
    if age.freshness == Freshness::Old {
        let old =
            age.hours.map_or_else(|| String::from("old"), |hours| format!("{} old", figures::span(hours)));
        page.line(format!("Careful: my weather is {old}; no fresher has come."));
    }
}

pub(super) fn credit(page: &mut Page, age: &DataAge) {
    let Some(credit) = &age.credit else { return };
    // A credit that its licence words in full is left as it is.
    let lead = if credit.starts_with("Weather") { "" } else { "Weather: " };
    page.small(match age.hours {
        Some(hours) if age.freshness == Freshness::Fresh && hours >= JUST_IN => {
            format!("{lead}{credit}, {} old.", figures::span(hours))
        }
        _ => format!("{lead}{credit}."),
    });
}
