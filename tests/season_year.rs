//! A whole year with a scripted grower, played on the simulated clock: every message that comes of it is a
//! snapshot, read before it was accepted. A change of words or of a verdict shows here as a difference.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

use std::fmt::Write as _;

use leafhold::app::desk::Desk;
use leafhold::app::rehearse::{Readings, Rehearsal};
use leafhold::app::{Sky, garden_file, sample};
use leafhold::identity::GardenId;
use leafhold::store::Store;
use serde_json::Value;

/// Plays a script in the example garden through the bundled year.
fn play(script: &str) -> Vec<Value> {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let sky = Sky::recorded(sample::year().expect("the year").series, Some(sample::CREDIT.to_owned()));
    let desk = Desk::new(store, sky, "leafhold");
    let mut rehearsal = Rehearsal::new(&desk, "leafhold", Readings::Hidden, None);
    let garden = garden_file::read(include_str!("../config-example/garden.toml")).expect("a garden");
    rehearsal.with_garden(GardenId::new("garden"), garden);
    let mut out = Vec::new();
    rehearsal.play(script.as_bytes(), &mut out).expect("played");
    String::from_utf8(out)
        .expect("text")
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect()
}

/// What a person in the room would have read.
fn shown(lines: &[Value]) -> String {
    let mut text = String::new();
    for line in lines.iter().filter(|line| line["text"].is_string()) {
        let _ = writeln!(
            text,
            "[{} {} in {}]\n{}\n",
            line["at"].as_str().unwrap_or(""),
            line["kind"].as_str().unwrap_or(""),
            line["room"].as_str().unwrap_or(""),
            line["text"].as_str().unwrap_or("")
        );
    }
    text
}

#[test]
fn a_year_in_the_garden() {
    let lines = play(include_str!("season/year.jsonl"));
    let briefs: Vec<Value> =
        lines.iter().filter(|line| line["kind"] == "brief" || line["kind"] == "alert").cloned().collect();
    assert!(briefs.len() > 10, "{} briefs", briefs.len());
    insta::assert_snapshot!("a_year_in_the_garden", shown(&lines));
}

#[test]
fn each_brief_comes_once() {
    let lines = play(include_str!("season/year.jsonl"));
    let mut ids: Vec<&str> = lines.iter().filter_map(|line| line["id"].as_str()).collect();
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "a message came twice");
    // One settled line for each line of the script.
    let settled = lines.iter().filter(|line| line.get("settled").is_some()).count();
    assert_eq!(settled, include_str!("season/year.jsonl").lines().count());
}

#[test]
fn a_late_start_catches_up_with_one_brief() {
    let script = concat!(
        "{\"at\":\"2013-07-01T12:00:00-04:00\",\"from\":\"ana\",\"room\":\"plot\",\"say\":\"watered the pots\"}\n",
        "{\"at\":\"2013-07-02T12:00:00-04:00\",\"wake\":true}\n",
    );
    let folder = tempfile::tempdir().expect("a folder");
    let run = |script: &str| {
        let store = Store::open(folder.path()).expect("a store");
        let sky = Sky::recorded(sample::year().expect("the year").series, None);
        let desk = Desk::new(store, sky, "leafhold");
        let mut rehearsal = Rehearsal::new(&desk, "leafhold", Readings::Hidden, None);
        rehearsal.with_garden(
            GardenId::new("garden"),
            garden_file::read(include_str!("../config-example/garden.toml")).expect("a garden"),
        );
        let mut out = Vec::new();
        rehearsal.play(script.as_bytes(), &mut out).expect("played");
        String::from_utf8(out).expect("text")
    };
    run(script);
    // Ten days later, started again in the forenoon of a hot day.
    let out = run(
        "{\"at\":\"2013-07-14T10:00:00-04:00\",\"wake\":true}\n{\"at\":\"2013-07-14T19:00:00-04:00\",\"wake\":true}\n",
    );
    let briefs = out.lines().filter(|line| line.contains("\"kind\":\"brief\"")).count();
    assert_eq!(briefs, 1, "{out}");
    assert!(out.contains("I was away for"), "{out}");
}
