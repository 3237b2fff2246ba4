//! Answers into words: short, plain, for a phone held in a wet hand. First what to do, then why, then the
//! caution.
//!
//! A message is lines, rendered twice: as plain text, and as the HTML subset of the Matrix specification.
//! Everything a person typed is escaped there and cleaned of control characters here.

mod ahead;
mod brief;
mod cautions;
mod doubts;
mod figures;
mod frost;
mod garden;
mod moments;
mod page;
mod phrases;
mod picking;
mod product;
mod records;
mod season;
mod setup;
mod spray;
mod tree;
mod water;
mod weather_age;

use chrono::{DateTime, Utc};
use chrono_tz::Tz;

use self::page::Page;
use crate::season::answer::Answer;
use crate::season::garden::UnitSystem;
use crate::units::Hemisphere;

/// How figures and times are said.
#[derive(Clone, Copy, Debug)]
pub struct Voice {
    pub units: UnitSystem,
    pub zone: Tz,
    pub now: DateTime<Utc>,
    pub hemisphere: Hemisphere,
}

impl Voice {
    /// A first frost of fall as a grower of that half of the earth might have it.
    fn frost_example(&self) -> &'static str {
        match self.hemisphere {
            Hemisphere::North => "Nov 5",
            Hemisphere::South => "May 20",
        }
    }
}

/// The same words twice.
#[derive(Clone, Debug, PartialEq)]
pub struct Written {
    pub text: String,
    pub html: String,
}

pub fn write(answers: &[Answer], voice: &Voice) -> Written {
    let mut page = Page::default();
    let age = answers.iter().find_map(weather_age::of);
    if let Some(age) = age {
        weather_age::warn(&mut page, age);
    }
    for (index, answer) in answers.iter().enumerate() {
        if index > 0 {
            page.gap();
        }
        answer_on(&mut page, answer, voice);
    }
    if let Some(age) = age.filter(|_| answers.iter().any(weather_age::is_shown)) {
        weather_age::credit(&mut page, age);
    }
    Written { text: page.text(), html: page.html() }
}

/// What a picture that goes with an answer shows, for those who cannot see it too.
pub fn caption(answer: &Answer, garden: &str) -> String {
    let subject = match answer {
        Answer::Season(_) => "The season so far: cover, sprays, rust seen, rain and picking",
        _ => "The days ahead: temperature, rain, wet leaves and rust weather",
    };
    if garden.is_empty() { format!("{subject}.") } else { format!("{subject}, {garden}.") }
}

fn answer_on(page: &mut Page, answer: &Answer, voice: &Voice) {
    match answer {
        Answer::Spray(advice) => spray::advice(page, advice, voice),
        Answer::Why(advice) => spray::why(page, advice, voice),
        Answer::WhyWater(reasons) => water::why(page, reasons, voice),
        Answer::Water(water) => water::advice(page, water, voice),
        Answer::Frost(frost) => frost::advice(page, frost, voice),
        Answer::Tree(view) => tree::view(page, view, voice),
        Answer::Ahead(view) => ahead::view(page, view, voice),
        Answer::Done(view) => records::done(page, view, voice),
        Answer::Season(view) => season::view(page, view, voice),
        Answer::Mix(mix) => spray::mix::answer(page, mix, voice),
        Answer::Together(pair) => spray::mix::together(page, pair),
        Answer::Product(view) => product::view(page, view, voice),
        Answer::Picking(view) => picking::view(page, view, voice),
        Answer::Compare(view) => season::compare(page, view, voice),
        Answer::Garden(view) => garden::view(page, view, voice),
        Answer::Help => setup::help(page, voice),
        Answer::Noted(noted) => records::noted(page, noted, voice),
        Answer::Broken(rule) => spray::rules::alert(page, rule, voice),
        Answer::TakenBack(taken) => records::taken_back(page, taken, voice),
        Answer::Settled { settings, missing } => setup::settled(page, settings, missing, voice),
        Answer::Doubtful(doubt) => doubts::doubt(page, doubt, voice),
        Answer::Aside { aside } => doubts::aside(page, *aside),
        Answer::Refused { refusal } => doubts::refused(page, refusal, voice),
        Answer::Welcome { missing } => setup::welcome(page, missing, voice),
        Answer::SetUp { missing } => setup::stands(page, missing, voice),
        Answer::Places { name, places } => setup::places(page, name, places),
        Answer::Brief(brief) => brief::brief(page, brief, voice),
        Answer::Watching(watching) => brief::watching(page, watching, voice),
        Answer::SeasonOver(over) => brief::season_over(page, over, voice),
        Answer::ForgetAsked => setup::forget_asked(page),
        Answer::Unreadable { why } => doubts::unreadable(page, *why),
        Answer::Forgotten => setup::forgotten(page),
        Answer::Missed { days } => page.line(brief::away(*days)),
    }
}

#[cfg(test)]
mod tests;
