//! Every kind of answer in both unit systems, as a grower gets it; and what holds for all of them.

mod allowed;
mod examples;
mod samples;

use chrono::{DateTime, Utc};
use chrono_tz::America::New_York;

use super::*;
use crate::season::answer::Missing;

/// A Monday in July, 6:40 in the morning.
fn now() -> DateTime<Utc> {
    at("2027-07-05T06:40:00-04:00")
}

fn at(moment: &str) -> DateTime<Utc> {
    moment.parse().expect("a moment")
}

fn voice(units: UnitSystem) -> Voice {
    Voice { units, zone: New_York, now: now(), hemisphere: Hemisphere::North }
}

/// A snapshot is a claim that a grower should get exactly these words.
#[test]
fn every_answer_in_words() {
    for (name, answers) in samples::all() {
        let us = write(&answers, &voice(UnitSystem::Us));
        let metric = write(&answers, &voice(UnitSystem::Metric));
        let shown = format!(
            "--- US\n{}\n\n--- metric\n{}\n\n--- US, HTML\n{}",
            us.text,
            metric.text,
            us.html.replace("<p>", "\n<p>").replace("<ul>", "\n<ul>").trim_start()
        );
        insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
            insta::assert_snapshot!(name, shown);
        });
    }
}

/// A garden south of the equator freezes in its own fall.
#[test]
fn a_frost_of_the_garden_s_own_half_of_the_earth() {
    let asked = [Answer::Welcome { missing: vec![Missing::FrostDate] }];
    for (hemisphere, want) in [(Hemisphere::North, "Nov 5"), (Hemisphere::South, "May 20")] {
        let words = write(&asked, &Voice { hemisphere, ..voice(UnitSystem::Us) });
        assert!(words.text.contains(want), "{hemisphere:?}: {}", words.text);
    }
}

#[test]
fn an_answer_fits_on_a_phone() {
    const LONGEST_LINE: usize = 200;
    const MOST_LINES: usize = 14;
    for (name, answers) in samples::all() {
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            let text = write(&answers, &voice(units)).text;
            assert!(text.lines().count() <= MOST_LINES, "{name} has {} lines", text.lines().count());
            for line in text.lines() {
                assert!(
                    line.chars().count() <= LONGEST_LINE,
                    "{name}: {} letters: {line}",
                    line.chars().count()
                );
            }
        }
    }
}

#[test]
fn words_are_whole() {
    // Slips a sentence put together from parts makes.
    const SLIPS: [&str; 12] =
        ["  ", " ,", " .", "..", ",,", "()", "1 days", "1 hours", " a an ", "NaN", "inf ", ": ."];
    for (name, answers) in samples::all() {
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            let text = write(&answers, &voice(units)).text;
            for slip in SLIPS {
                let found = text.match_indices(slip).any(|(index, _)| {
                    // "21 days" is no "1 days".
                    !text[..index].ends_with(|before: char| before.is_ascii_digit())
                });
                assert!(!found, "{name} says {slip:?} in {text}");
            }
        }
    }
}
