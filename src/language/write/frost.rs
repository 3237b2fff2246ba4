//! Frost: what to do before dark, then how cold, then how far off the season's end is.

use super::page::Page;
use super::spray::season_end;
use super::{Voice, figures, phrases};
use crate::season::answer::{Freshness, FrostAdvice, FrostBasis, FrostNight, FrostRisk};
use crate::season::request::Cold;
use chrono::NaiveDate;

/// From so many days before the usual first frost on, a garden looks out for it; before, only how far it is matters.
/// common practice.
const LOOKED_OUT_FOR: i64 = 60;
/// The usual last frost is spoken of from so many days before it until so many after. common practice.
const SPRING: std::ops::RangeInclusive<i64> = -45..=21;

pub(super) fn advice(page: &mut Page, advice: &FrostAdvice, voice: &Voice) {
    if matches!(advice.about, Cold::FirstFrost | Cold::LastFrost) {
        dates(page, advice, voice);
        return;
    }
    match &advice.next {
        Some(night) if advice.about == Cold::Tonight && night.date > voice.today() => {
            page.lead(calm_tonight(advice, voice).unwrap_or_else(|| String::from("No frost tonight.")));
            coming(page, night, advice, voice);
        }
        Some(night) => warning(page, night, advice, voice),
        None if advice.age.freshness == Freshness::None => {
            page.lead("I have no forecast, so I cannot tell about tonight.");
            page.line(usual(advice, voice).unwrap_or_default());
        }
        None => none_ahead(page, advice, voice),
    }
    // With frost upon us the usual date is of no more use.
    let near = advice.next.is_some_and(|night| (night.date - voice.today()).num_days() <= 1);
    if advice.next.is_some() && !near {
        page.line(usual(advice, voice).unwrap_or_default());
    }
}

/// The forecast holds no frost: of a day in summer there is no more to say than how far off it is.
fn none_ahead(page: &mut Page, advice: &FrostAdvice, voice: &Voice) {
    let until = advice.usual.map(|date| (date - voice.today()).num_days());
    let spring = advice.last.filter(|last| SPRING.contains(&(voice.today() - *last).num_days()));
    let far = spring.is_none() && until.is_some_and(|days| days > LOOKED_OUT_FOR);
    let coldest = advice.coldest.map(|night| {
        format!("the coldest is {}, {}", voice.night(night.date), above_freezing(&night, voice))
    });
    let end = |coldest: Option<String>| {
        coldest.map_or_else(|| String::from("."), |coldest| format!(": {coldest}."))
    };
    match advice.about {
        Cold::Tonight => {
            page.lead(
                calm_tonight(advice, voice).unwrap_or_else(|| String::from("No frost in the forecast.")),
            );
        }
        Cold::Shelter if far => page.lead("Nothing to bring in or cover for a long while."),
        Cold::Shelter => {
            page.lead(format!("Nothing to bring in or cover yet{}", end(coldest)));
            page.line("In leaf, pots come in for a night of frost; once bare, for the winter.");
        }
        Cold::Ahead | Cold::FirstFrost | Cold::LastFrost if far => page.lead("No frost in sight."),
        Cold::Ahead | Cold::FirstFrost | Cold::LastFrost => {
            page.lead(format!("No frost in the forecast{}", end(coldest)));
        }
    }
    if !advice.housed.is_empty() && !advice.out.is_empty() {
        let need = if advice.out.len() == 1 { "needs" } else { "need" };
        page.line(format!(
            "{}; {}, still out, {need} nothing yet.",
            phrases::capitalised(&housed(advice)),
            phrases::names(&advice.out)
        ));
    } else if !advice.housed.is_empty() {
        page.line(format!("{}.", housed(advice)));
    }
    page.line(match spring {
        Some(last) => last_frost(last, voice),
        None if far => days_to_usual(advice, voice).unwrap_or_default(),
        None => usual(advice, voice).unwrap_or_default(),
    });
}

/// "When is the first frost?": the date, and a night the forecast holds before it.
fn dates(page: &mut Page, advice: &FrostAdvice, voice: &Voice) {
    let date = match advice.about {
        Cold::LastFrost => advice.last.map(|last| last_frost(last, voice)),
        _ => usual(advice, voice),
    };
    page.lead(date.unwrap_or_else(|| match advice.about {
        Cold::LastFrost => {
            String::from("I do not know your usual last frost. Tell me, as in \"last frost is Apr 10\".")
        }
        _ => format!(
            "I do not know your usual first frost. Tell me, as in \"first frost is usually {}\".",
            voice.frost_example()
        ),
    }));
    if let Some(night) = &advice.next {
        page.line(night_line(night, voice));
    }
}

fn last_frost(last: NaiveDate, voice: &Voice) -> String {
    let days = (last - voice.today()).num_days();
    match days {
        0 => String::from("Today is your usual last frost."),
        1.. => format!("{} to your usual last frost ({}).", figures::count(days, "day"), voice.date(last)),
        _ => format!("Your usual last frost is past ({}).", voice.date(last)),
    }
}

/// "No frost tonight: down to 55°F, 23°F above freezing."
fn calm_tonight(advice: &FrostAdvice, voice: &Voice) -> Option<String> {
    let tonight = advice.tonight?;
    Some(format!("No frost tonight: down to {}.", above_freezing(&tonight, voice)))
}

/// "38°F, 6°F above freezing".
fn above_freezing(night: &FrostNight, voice: &Voice) -> String {
    format!("{}{}", voice.temperature(night.minimum), voice.margin_to_freezing(night.minimum))
}

/// A frost some nights off, told to one who asked of tonight.
fn coming(page: &mut Page, night: &FrostNight, advice: &FrostAdvice, voice: &Voice) {
    let todo = to_do(advice).join("; ");
    let by = if todo.is_empty() { String::new() } else { format!(": by that evening {todo}") };
    page.line(format!("{}{by}.", night_words(night, voice)));
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
    let coldest =
        format!("Coldest about {}{}.", voice.clock_of(night.at), voice.margin_to_freezing(night.minimum));
    page.line(match night.risk {
        FrostRisk::Possible | FrostRisk::None => {
            format!("{coldest} Under a clear, calm sky leaves get colder than the air.")
        }
        FrostRisk::Frost | FrostRisk::Hard => coldest,
    });
    if !is_near {
        let tonight = advice.tonight.map(|tonight| format!("Tonight {}.", above_freezing(&tonight, voice)));
        page.line(tonight.unwrap_or_default());
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

/// "118 days to your usual first frost (Nov 5). One year in ten it comes by Oct 22."
fn usual(advice: &FrostAdvice, voice: &Voice) -> Option<String> {
    let mut line = days_to_usual(advice, voice)?;
    let date = advice.usual?;
    if let Some(early) = advice.early.filter(|early| *early < date && *early >= voice.today()) {
        line.push_str(&format!(" One year in ten it comes by {}.", voice.date(early)));
    }
    Some(line)
}

fn days_to_usual(advice: &FrostAdvice, voice: &Voice) -> Option<String> {
    let date = advice.usual?;
    let days = (date - voice.today()).num_days();
    let basis = match advice.basis {
        Some(FrostBasis::Own) => FrostBasis::Own,
        // With a freeze in the forecast the basis no longer tells whose date the usual one is.
        Some(FrostBasis::Forecast) | None if advice.early == advice.usual => FrostBasis::Own,
        Some(FrostBasis::Normals | FrostBasis::Forecast) | None => FrostBasis::Normals,
    };
    Some(format!("{}.", phrases::capitalised(&season_end(days, date, basis, voice))))
}
