//! Frost: what to do before dark, then how cold, then how far off the season's end is.

use super::page::Page;
use super::spray::season_end;
use super::{Voice, phrases};
use crate::season::answer::{Freshness, FrostAdvice, FrostBasis, FrostNight, FrostRisk};

pub(super) fn advice(page: &mut Page, advice: &FrostAdvice, voice: &Voice) {
    match &advice.next {
        Some(night) => warning(page, night, advice, voice),
        None if advice.age.freshness == Freshness::None => {
            page.lead("I have no forecast, so I cannot tell about tonight.");
        }
        None => page.lead("No frost in the forecast."),
    }
    // With frost upon us the usual date is of no more use.
    let near = advice.next.is_some_and(|night| (night.date - voice.today()).num_days() <= 1);
    page.line(usual(advice, voice).filter(|_| !near).unwrap_or_default());
}

/// A night of frost and what to do about it.
pub(super) fn warning(page: &mut Page, night: &FrostNight, advice: &FrostAdvice, voice: &Voice) {
    let what = night_words(night, voice);
    let todo = to_do(advice).join("; ");
    let is_near = (night.date - voice.today()).num_days() <= 1;
    page.lead(match (todo.is_empty(), is_near) {
        (true, _) if advice.housed.is_empty() => format!("{what}: nothing to do, bare trees stand it."),
        (true, _) => format!("{what}: nothing to do; {}.", whereabouts(advice)),
        (false, true) if advice.housed.is_empty() => format!("{what}: {todo}."),
        (false, true) => format!("{what}: {todo}; {}.", housed(advice)),
        (false, false) => format!("{what}: nothing to do yet."),
    });
    let coldest = format!("Coldest about {}.", voice.clock_of(night.at));
    page.line(match night.risk {
        FrostRisk::Possible | FrostRisk::None => {
            format!("{coldest} Under a clear, calm sky leaves get colder than the air.")
        }
        FrostRisk::Frost | FrostRisk::Hard => coldest,
    });
    if !is_near {
        let still = if advice.housed.is_empty() { String::new() } else { format!("; {}", housed(advice)) };
        page.line(if todo.is_empty() { String::new() } else { format!("By that evening: {todo}{still}.") });
        return;
    }
    // Trees in the ground are covered only while in leaf; then there may be figs as well.
    if !advice.cover.is_empty() {
        let dry =
            if advice.housed.is_empty() || !advice.shelter.is_empty() { "dry pots" } else { "dry soil" };
        page.line(format!(
            "Do it before dark. Pick what is ripe, and water {dry} by day: moist soil holds warmth."
        ));
        page.small("Covers to the ground, off once it thaws. No flame or hot lamp under them.");
    } else if !advice.shelter.is_empty() {
        page.line("Roots in pots freeze first.");
    }
}

/// "Celeste and Whip are inside".
fn housed(advice: &FrostAdvice) -> String {
    let are = if advice.housed.len() == 1 { "is" } else { "are" };
    format!("{} {are} inside", phrases::names(&advice.housed))
}

/// Which are inside, and that those still out stand what comes.
fn whereabouts(advice: &FrostAdvice) -> String {
    if advice.out.is_empty() {
        return format!("{}, and none is still out", housed(advice));
    }
    let stand = if advice.out.len() == 1 { "stands" } else { "stand" };
    format!("{}, and {}, still out, {stand} it bare", housed(advice), phrases::names(&advice.out))
}

fn to_do(advice: &FrostAdvice) -> Vec<String> {
    let mut todo = Vec::new();
    if !advice.shelter.is_empty() {
        todo.push(format!("move {} under a roof or against the house", phrases::names(&advice.shelter)));
    }
    if !advice.cover.is_empty() {
        todo.push(format!("cover {}", phrases::names(&advice.cover)));
    }
    todo
}

/// One line, for the days ahead.
pub(super) fn night_line(night: &FrostNight, voice: &Voice) -> String {
    format!("{}.", night_words(night, voice))
}

fn night_words(night: &FrostNight, voice: &Voice) -> String {
    format!("{} {}, {}", risk(night.risk), voice.night(night.date), voice.temperature(night.minimum))
}

fn risk(risk: FrostRisk) -> &'static str {
    match risk {
        FrostRisk::Hard => "Hard frost",
        FrostRisk::Frost => "Frost",
        FrostRisk::Possible | FrostRisk::None => "Ground frost possible",
    }
}

fn usual(advice: &FrostAdvice, voice: &Voice) -> Option<String> {
    let date = advice.usual?;
    let days = (date - voice.today()).num_days();
    let basis = match advice.basis {
        Some(FrostBasis::Own) => FrostBasis::Own,
        // With a freeze in the forecast the basis no longer tells whose date the usual one is.
        Some(FrostBasis::Forecast) | None if advice.early == advice.usual => FrostBasis::Own,
        Some(FrostBasis::Normals | FrostBasis::Forecast) | None => FrostBasis::Normals,
    };
    let mut line = format!("{}.", phrases::capitalised(&season_end(days, date, basis, voice)));
    if let Some(early) = advice.early.filter(|early| *early < date && *early >= voice.today()) {
        line.push_str(&format!(" One year in ten it comes by {}.", voice.date(early)));
    }
    Some(line)
}
