//! Frost: tonight first.

use super::page::Page;
use super::{Voice, figures};
use crate::season::answer::{FrostAdvice, FrostBasis, FrostNight, FrostRisk};

pub(super) fn advice(page: &mut Page, advice: &FrostAdvice, voice: &Voice) {
    match advice.next {
        Some(night) => {
            page.lead(night_line(&night, voice));
            to_do(page, advice);
        }
        None => page.lead("No frost in the forecast."),
    }
    // With frost upon us the usual date is of no more use.
    let near = advice.next.is_some_and(|night| (night.date - voice.today()).num_days() <= 1);
    if let Some(line) = usual(advice, voice).filter(|_| !near) {
        page.line(line);
    }
}

pub(super) fn night_line(night: &FrostNight, voice: &Voice) -> String {
    let when = match (night.date - voice.today()).num_days() {
        0 => String::from("tonight"),
        1 => String::from("tomorrow night"),
        2..=6 => format!("{} night", night.date.format("%A")),
        _ => format!("the night of {}", voice.date(night.date)),
    };
    let what = match night.risk {
        FrostRisk::Hard => "Hard frost",
        FrostRisk::Frost => "Frost",
        FrostRisk::Possible | FrostRisk::None => "Ground frost possible",
    };
    format!(
        "{what} {when}: down to {}, about {}.",
        voice.temperature(night.minimum),
        voice.clock(night.at.with_timezone(&voice.zone).time())
    )
}

pub(super) fn to_do(page: &mut Page, advice: &FrostAdvice) {
    let mut said = false;
    if !advice.shelter.is_empty() {
        page.line(format!(
            "Before dark: move {} under a roof or against the house; roots in pots freeze first.",
            figures::names(&advice.shelter)
        ));
        said = true;
    }
    if !advice.cover.is_empty() {
        page.line(format!(
            "Cover {} to the ground, and take it off when it thaws.",
            figures::names(&advice.cover)
        ));
        said = true;
    }
    if said && !advice.cover.is_empty() {
        page.line("Pick what is ripe. Water dry pots by day: moist soil holds warmth.");
    }
}

fn usual(advice: &FrostAdvice, voice: &Voice) -> Option<String> {
    let date = advice.usual?;
    let days = (date - voice.today()).num_days();
    let whose = match advice.basis {
        Some(FrostBasis::Normals) => "the usual first frost here, by past years",
        _ => "your usual first frost",
    };
    Some(match days {
        days if days < 0 => format!(
            "{} was {}, {} ago.",
            figures::capitalised(whose),
            voice.date(date),
            figures::count(-days, "day")
        ),
        days => format!(
            "{} to {whose} ({}).",
            figures::capitalised(&figures::count(days, "day")),
            voice.date(date)
        ),
    })
}
