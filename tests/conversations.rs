//! Whole conversations, message by message, as the people in them would read them: each snapshot was read before
//! it was accepted. Times are New York's, the weather is Newark's of 2013.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

use std::fmt::Write as _;

use chrono::{NaiveDateTime, TimeZone as _};
use chrono_tz::America::New_York;
use leafhold::app::desk::Desk;
use leafhold::app::rehearse::{Readings, Rehearsal};
use leafhold::app::{Sky, garden_file, sample};
use leafhold::identity::GardenId;
use leafhold::store::Store;
use serde_json::{Value, json};

/// Plays `DATE TIME words` lines in the example garden, or in none after `#! bare`.
fn hold(script: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let sky = Sky::recorded(sample::year().expect("the year").series, Some(sample::CREDIT.to_owned()));
    let desk = Desk::new(store, sky, "leafhold");
    let mut rehearsal = Rehearsal::new(&desk, "leafhold", Readings::Hidden);
    if !script.contains("#! bare") {
        let garden = garden_file::read(include_str!("../config-example/garden.toml")).expect("a garden");
        rehearsal.with_garden(GardenId::new("garden"), garden);
    }
    let mut text = String::new();
    for line in script.lines().filter(|line| !line.starts_with('#')) {
        let (at, say) = line.split_at("2013-07-10 08:00".len());
        let at = NaiveDateTime::parse_from_str(at, "%Y-%m-%d %H:%M").expect("a time");
        let at = New_York.from_local_datetime(&at).single().expect("a time");
        let said = json!({ "at": at.to_rfc3339(), "from": "ana", "room": "direct", "say": say.trim() });
        let mut out = Vec::new();
        rehearsal.play(said.to_string().as_bytes(), &mut out).expect("played");
        let (mut before, mut after) = (String::new(), String::new());
        for answer in String::from_utf8(out).expect("text").lines() {
            let answer: Value = serde_json::from_str(answer).expect("JSON");
            let Some(words) = answer["text"].as_str() else { continue };
            // A brief came by itself, before this was said.
            if matches!(answer["kind"].as_str(), Some("brief" | "alert")) && answer["re"].is_null() {
                let _ = writeln!(before, "[{}]\n{words}\n", answer["at"].as_str().unwrap_or(""));
            } else {
                let _ = writeln!(after, "{words}\n");
            }
        }
        let silence = if after.is_empty() { "(nothing)\n\n" } else { "" };
        let _ = write!(text, "{before}> {}\n{after}{silence}", say.trim());
    }
    text
}

#[test]
fn a_first_set_up() {
    insta::assert_snapshot!(hold(include_str!("conversations/first_set_up.txt")));
}

#[test]
fn a_busy_july_morning() {
    insta::assert_snapshot!(hold(include_str!("conversations/busy_july_morning.txt")));
}

#[test]
fn a_late_october_question() {
    insta::assert_snapshot!(hold(include_str!("conversations/late_october_question.txt")));
}

#[test]
fn a_day_of_mistakes() {
    insta::assert_snapshot!(hold(include_str!("conversations/day_of_mistakes.txt")));
}

#[test]
fn labels_and_pairs() {
    insta::assert_snapshot!(hold(include_str!("conversations/labels_and_pairs.txt")));
}

#[test]
fn waits_and_amounts() {
    insta::assert_snapshot!(hold(include_str!("conversations/waits_and_amounts.txt")));
}

#[test]
fn safe_to_pick() {
    insta::assert_snapshot!(hold(include_str!("conversations/safe_to_pick.txt")));
}

#[test]
fn why_this() {
    insta::assert_snapshot!(hold(include_str!("conversations/why_this.txt")));
}

#[test]
fn a_question_gone_on_with() {
    insta::assert_snapshot!(hold(include_str!("conversations/a_question_gone_on_with.txt")));
}

#[test]
fn oil_then_sulfur() {
    insta::assert_snapshot!(hold(include_str!("conversations/oil_then_sulfur.txt")));
}

#[test]
fn heard_and_asked_after() {
    insta::assert_snapshot!(hold(include_str!("conversations/heard_and_asked_after.txt")));
}

#[test]
fn set_up_as_it_comes() {
    insta::assert_snapshot!(hold(include_str!("conversations/set_up_as_it_comes.txt")));
}

#[test]
fn set_up_in_prose() {
    insta::assert_snapshot!(hold(include_str!("conversations/set_up_in_prose.txt")));
}

#[test]
fn pots_in_and_out() {
    insta::assert_snapshot!(hold(include_str!("conversations/pots_in_and_out.txt")));
}

#[test]
fn pots_over_winter() {
    insta::assert_snapshot!(hold(include_str!("conversations/pots_over_winter.txt")));
}
