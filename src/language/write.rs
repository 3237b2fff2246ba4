//! Answers into words: short, plain, for a phone held in a wet hand. First what to do, then why, then the
//! caution.
//!
//! A message is lines, rendered twice: as plain text, and as the HTML subset of the Matrix specification.
//! Everything a person typed is escaped there and cleaned of control characters here.

mod brief;
mod cautions;
mod doubts;
mod figures;
mod frost;
mod page;
mod records;
mod setup;
mod spray;
mod views;
mod water;

use chrono::{DateTime, Utc};
use chrono_tz::Tz;

use self::page::Page;
use crate::season::answer::{Answer, DataAge, Freshness};
use crate::season::garden::UnitSystem;

/// How figures and times are said.
#[derive(Clone, Copy, Debug)]
pub struct Voice {
    pub units: UnitSystem,
    pub zone: Tz,
    pub now: DateTime<Utc>,
}

/// The same words twice.
#[derive(Clone, Debug, PartialEq)]
pub struct Written {
    pub text: String,
    pub html: String,
}

pub fn write(answers: &[Answer], voice: &Voice) -> Written {
    let mut page = Page::default();
    for (index, answer) in answers.iter().enumerate() {
        if index > 0 {
            page.gap();
        }
        answer_on(&mut page, answer, voice);
    }
    if let Some(age) = answers.iter().rev().find_map(age_of) {
        voice.age(&mut page, age);
    }
    Written { text: page.text(), html: page.html() }
}

fn answer_on(page: &mut Page, answer: &Answer, voice: &Voice) {
    match answer {
        Answer::Spray(advice) => spray::advice(page, advice, voice),
        Answer::Why(advice) => spray::why(page, advice, voice),
        Answer::Water(water) => water::advice(page, water, voice),
        Answer::Frost(frost) => frost::advice(page, frost, voice),
        Answer::Tree(view) => views::trees(page, view, voice),
        Answer::Ahead(view) => views::ahead(page, view, voice),
        Answer::Done(view) => records::done(page, view, voice),
        Answer::Season(view) => views::season(page, view, voice),
        Answer::Mix(mix) => spray::mix(page, mix, voice),
        Answer::Compare(view) => views::compare(page, view),
        Answer::Garden(view) => setup::garden(page, view, voice),
        Answer::Help => setup::help(page),
        Answer::Noted(noted) => records::noted(page, noted, voice),
        Answer::Broken(rule) => spray::broken(page, rule, voice),
        Answer::TakenBack(taken) => records::taken_back(page, taken, voice),
        Answer::Settled { settings, missing } => setup::settled(page, settings, missing, voice),
        Answer::Doubtful(doubt) => doubts::doubt(page, doubt),
        Answer::Aside { aside } => doubts::aside(page, *aside),
        Answer::Refused { refusal } => doubts::refused(page, refusal, voice),
        Answer::Welcome { missing } => setup::welcome(page, missing),
        Answer::SetUp { missing } => setup::next_steps(page, missing),
        Answer::Places { name, places } => setup::places(page, name, places),
        Answer::Brief(brief) => brief::brief(page, brief, voice),
        Answer::Watching(watching) => brief::watching(page, watching, voice),
        Answer::SeasonOver(over) => brief::season_over(page, over, voice),
        Answer::ForgetAsked => setup::forget_asked(page),
        Answer::Forgotten => page.line("Done. Your reports, settings and messages are removed from here."),
        Answer::Missed { days } => {
            page.line(format!("I was away for {}.", figures::count(i64::from(*days), "day")))
        }
    }
}

/// The age of the weather an answer rests on, where it rests on any.
fn age_of(answer: &Answer) -> Option<&DataAge> {
    match answer {
        Answer::Spray(advice) => Some(&advice.age),
        Answer::Water(water) => Some(&water.age),
        Answer::Frost(frost) => Some(&frost.age),
        Answer::Tree(view) => Some(&view.age),
        Answer::Ahead(view) => Some(&view.age),
        Answer::Brief(brief) => Some(&brief.age),
        Answer::Watching(watching) => Some(&watching.age),
        _ => None,
    }
}

impl Voice {
    fn age(&self, page: &mut Page, age: &DataAge) {
        let credit = age.credit.as_deref().unwrap_or("weather feed");
        match (age.freshness, age.hours) {
            (Freshness::None, _) => page.small("No weather data yet."),
            (Freshness::Old, Some(hours)) => {
                page.small(format!(
                    "Careful: this weather is {} old; the feed has not answered since. Data: {credit}.",
                    figures::span(hours)
                ));
            }
            (_, Some(hours)) if hours.value() >= 1.0 => {
                page.small(format!("Weather {} old. Data: {credit}.", figures::span(hours)));
            }
            _ => page.small(format!("Weather data: {credit}.")),
        }
    }
}
