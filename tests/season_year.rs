//! A whole year with a scripted grower, played on the simulated clock: every message that comes of it is a
//! snapshot, read before it was accepted. A change of words or of a verdict shows here as a difference.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

use std::fmt::Write as _;

use leafhold::app::desk::Desk;
use leafhold::app::rehearse::{Readings, Rehearsal};
use leafhold::app::{Sky, garden_file, sample};
use leafhold::identity::{EventId, GardenId, PersonId, RoomId};
use leafhold::post::{Addressed, Body, Content, Inbound, Mailroom as _, RoomKind};
use leafhold::season::outlook::Outlook;
use leafhold::store::Store;
use serde_json::Value;

/// Plays a script in the example garden through the bundled year.
fn play(script: &str) -> Vec<Value> {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let sky = Sky::recorded(sample::year().expect("the year").series, Some(sample::CREDIT.to_owned()));
    let desk = Desk::new(store, sky, "leafhold");
    let mut rehearsal = Rehearsal::new(&desk, "leafhold", Readings::Hidden);
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
        let mut rehearsal = Rehearsal::new(&desk, "leafhold", Readings::Hidden);
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

/// What the pictures are drawn from agrees with what was told and what the weather was.
#[test]
fn charts_hold_the_year() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let year = sample::year().expect("the year").series;
    let desk = Desk::new(store, Sky::recorded(year, None), "leafhold");
    let mut rehearsal = Rehearsal::new(&desk, "leafhold", Readings::Hidden);
    let garden = garden_file::read(include_str!("../config-example/garden.toml")).expect("a garden");
    rehearsal.with_garden(GardenId::new("garden"), garden);
    rehearsal.play(&include_bytes!("season/year.jsonl")[..], &mut Vec::new()).expect("played");
    let now = "2013-11-25T13:00:00Z".parse().expect("a moment");
    let facts = desk.facts(&GardenId::new("garden"), now, None).expect("facts").expect("a garden");
    let outlook = Outlook::of(&facts);

    let season = outlook.season_chart();
    let said: Vec<String> = season.sprays.iter().map(|(date, product)| format!("{date} {product}")).collect();
    assert_eq!(
        said,
        [
            "2013-05-22 copper",
            "2013-06-06 copper",
            "2013-06-21 copper",
            "2013-07-03 neem",
            "2013-07-10 sulfur"
        ]
    );
    let picked: u32 = season.picked.iter().map(|(_, count)| count).sum();
    assert_eq!(picked, 12 + 30 + 12);
    let cover = |date: &str| {
        let date = date.parse().expect("a date");
        season.days.iter().find(|day| day.date == date).and_then(|day| day.cover).map(|cover| cover.value())
    };
    // Nothing before the first spray, nearly all the day after it, and less each day without another.
    assert_eq!(cover("2013-05-20"), Some(0.0));
    assert!(cover("2013-05-23") > Some(0.7), "{:?}", cover("2013-05-23"));
    assert!(cover("2013-06-01") < cover("2013-05-25"));
    // The rain of the days is that of the hours.
    let rain: f64 = season.days.iter().filter_map(|day| day.rain).map(|rain| rain.value()).sum();
    let hours =
        outlook.weather.hours().iter().filter(|hour| hour.start >= at_local_march() && hour.start < now);
    let fallen: f64 = hours.filter_map(|hour| hour.rain).map(|rain| rain.value()).sum();
    assert!((rain - fallen).abs() < 0.01, "{rain} is not {fallen}");

    let week = outlook.week_chart();
    assert_eq!(week.hours.len(), 7 * 24);
    assert_eq!(week.nights.len(), 8);
    assert!(leafhold::picture::week(&week).is_ok() && leafhold::picture::season(&season).is_ok());
}

/// The midnight the season's picture begins at, in New York: 75 days after new year.
fn at_local_march() -> chrono::DateTime<chrono::Utc> {
    "2013-03-17T00:00:00-04:00".parse().expect("a moment")
}

/// In a room that shows pictures, the days ahead and the season come with one; other answers do not.
#[test]
fn pictures_go_with_the_answers_that_have_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let year = sample::year().expect("the year").series;
    let desk = Desk::new(store, Sky::recorded(year, None), "leafhold").with_pictures();
    let garden = garden_file::read(include_str!("../config-example/garden.toml")).expect("a garden");
    let now = "2013-07-10T13:00:00Z".parse().expect("a moment");
    desk.make_garden(&GardenId::new("garden"), &garden, now).expect("made");
    let sent = |say: &str| -> Vec<Body> {
        let inbound = direct(say, now);
        desk.store().accept(vec![inbound.clone()]).expect("accepted");
        desk.handle(&inbound, now).expect("handled");
        let waiting = desk.store().waiting().expect("waiting");
        for one in &waiting {
            desk.store().delivered(&one.outbound.key, None).expect("delivered");
        }
        waiting.into_iter().map(|one| one.outbound.body).collect()
    };
    for (question, drawn) in
        [("what's coming this week?", true), ("how is the season?", true), ("frost?", false)]
    {
        let bodies = sent(question);
        assert!(matches!(bodies.first(), Some(Body::Words { .. })), "{question}: words come first");
        let pictures: Vec<&Body> =
            bodies.iter().filter(|body| matches!(body, Body::Picture { .. })).collect();
        assert_eq!(pictures.len(), usize::from(drawn), "{question}");
        for picture in pictures {
            let Body::Picture { png, caption } = picture else { continue };
            assert!(png.starts_with(b"\x89PNG") && caption.contains("Quince Lane"), "{question}: {caption}");
        }
    }
}

/// What Ana says to the bot alone.
fn direct(say: &str, at: chrono::DateTime<chrono::Utc>) -> Inbound {
    Inbound {
        id: EventId::new(say),
        at,
        from: PersonId::new("ana"),
        called: None,
        room: RoomId::new("direct:ana"),
        room_kind: RoomKind::Direct,
        addressed: Addressed::ToBot,
        reply_to: None,
        thread: None,
        content: Content::Said { text: say.to_owned() },
    }
}

/// A morning told anew is kept at once, though the time to look again was set before.
#[test]
fn a_morning_told_anew_is_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let desk = Desk::new(store, Sky::recorded(sample::year().expect("the year").series, None), "leafhold");
    let settings = garden_file::read(include_str!("../config-example/garden.toml")).expect("a garden");
    let garden = GardenId::new("garden");
    // Three in the morning in New York, where the brief comes at half past six.
    let now = "2013-07-10T07:00:00Z".parse().expect("a moment");
    desk.make_garden(&garden, &settings, now).expect("made");
    desk.tick(&garden, now).expect("looked at");
    let wakes_at = |moment: &str| assert_eq!(desk.next_wake(), moment.parse().ok());
    wakes_at("2013-07-10T10:30:00Z");
    desk.handle(&direct("no rust on Celeste", now), now).expect("handled");
    wakes_at("2013-07-10T10:30:00Z");
    desk.handle(&direct("brief at 5:15", now), now).expect("handled");
    wakes_at("2013-07-10T09:15:00Z");
    // One that is past already has not been kept yet, so it is due.
    desk.handle(&direct("brief at 2:30", now), now).expect("handled");
    wakes_at("2013-07-10T07:00:00Z");
}
