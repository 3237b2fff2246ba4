//! What the answers tell people to say must be something that is understood.

use chrono_tz::America::New_York;

use super::*;
use crate::identity::{EventId, PersonId};
use crate::language::read::{Context, read};
use crate::season::garden::{Active, Garden, Product, Stand, Tree};
use crate::season::journal::{Entry, Report, Timing, What};
use crate::season::request::Request;

/// Words between straight quotes.
fn quoted(text: &str) -> Vec<&str> {
    text.split('"').skip(1).step_by(2).collect()
}

/// Words of the grower's, not the bot's.
fn is_said_back(words: &str) -> bool {
    const SAID: [&str; 14] = [
        "coppr",
        "Selest",
        "Bob",
        "bluestone",
        "gauge",
        "140%",
        "june 31",
        "flurb the gauge",
        "pots done!",
        "сeleste",
        "Figtown",
        "set the moon to full",
        "ants on the <trunk>, see @ room",
        "the 'big' branch",
    ];
    SAID.contains(&words)
}

fn garden() -> Garden {
    let mut garden = Garden::new("Quince Lane");
    garden.trees = vec![
        Tree::new("Celeste", Stand::pot(None)),
        Tree::new("Big One", Stand::pot(None)),
        Tree::new("Wall", Stand::ground()),
        Tree::new("Whip", Stand::pot(None)),
    ];
    garden.products = vec![Product::new("copper", Active::Copper), Product::new("sulfur", Active::Sulfur)];
    garden
}

fn last() -> Entry {
    Entry {
        who: PersonId::new("ana"),
        event: EventId::new("$1"),
        said: now(),
        happened: now(),
        timing: Timing::Assumed,
        what: What::Report {
            trees: vec![String::from("Celeste"), String::from("Wall")],
            report: Report::Sprayed { product: String::from("copper"), volume: None },
        },
    }
}

fn check_understood(garden: &Garden, said: &str, of: &str) {
    let entry = last();
    let context = Context {
        garden,
        at: now(),
        zone: New_York,
        open_question: None,
        last: Some(&entry),
        last_message: std::slice::from_ref(&entry),
        answered: None,
        bot_name: "leafhold",
    };
    let reading = read(said, &context);
    let asides = reading.requests.iter().any(|request| matches!(request, Request::Aside(_)));
    assert!(
        !reading.requests.is_empty() && reading.doubts.is_empty() && !asides,
        "{of} offers {said:?}, read as {reading:?}"
    );
}

#[test]
fn what_is_offered_is_understood() {
    let garden = garden();
    for (name, answers) in samples::all() {
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            let text = write(&answers, &voice(units)).text;
            for said in quoted(&text).into_iter().filter(|said| !is_said_back(said)) {
                check_understood(&garden, said, name);
            }
        }
    }
}

/// Set-up begins with nothing known: what it offers is to be understood then, too.
#[test]
fn set_up_is_understood_in_a_new_garden() {
    let empty = Garden::new("");
    for (name, answers) in samples::all().into_iter().filter(|(name, _)| name.starts_with("set_up")) {
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            for said in quoted(&write(&answers, &voice(units)).text) {
                check_understood(&empty, said, name);
            }
        }
    }
}

#[test]
fn every_example_of_help_is_understood() {
    let garden = garden();
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        let text = write(&[Answer::Help], &voice(units)).text;
        let examples: Vec<&str> = text.lines().filter_map(|line| line.strip_prefix("- ")).collect();
        assert!(examples.len() >= 8);
        for example in examples {
            let parts = example.split(" Or: ").flat_map(|part| part.split(" Then: "));
            for part in parts.flat_map(|part| part.split_inclusive(['?', '.'])) {
                check_understood(&garden, part.trim().trim_end_matches('.'), "help");
            }
        }
    }
}
