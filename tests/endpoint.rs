//! The program itself on a weather interface of its own: `rehearse --config` and `check`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on stops")]

#[allow(dead_code, reason = "shared with the tests of the feed")]
#[path = "feed/server.rs"]
mod server;

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use serde_json::{Value, json as value};
use server::{Server, json, reply};

const WEEK: &[u8] = include_bytes!("data/weather/openmeteo-forecast-melbourne-168h.json");
const PLACES: &[u8] = include_bytes!("data/weather/openmeteo-geocoding-recorded.json");

fn configuration(folder: &Path, forecast: &str, archive: &str, places: &str) {
    let text = format!(
        "data = {:?}\n[weather]\nforecast_url = {forecast:?}\narchive_url = {archive:?}\ngeocoding_url = {places:?}\n",
        folder.join("data")
    );
    std::fs::write(folder.join("leafhold.toml"), text).unwrap();
}

/// Runs the program on what it is told, aside, so that the servers go on serving.
async fn run(folder: &Path, command: &str, script: String) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_leafhold"));
    program
        .args([command, "--config"])
        .arg(folder.join("leafhold.toml"))
        .env("NO_PROXY", "127.0.0.1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    tokio::task::spawn_blocking(move || {
        let mut child = program.spawn().unwrap();
        child.stdin.take().unwrap().write_all(script.as_bytes()).unwrap();
        child.wait_with_output().unwrap()
    })
    .await
    .unwrap()
}

fn said(output: &Output) -> Vec<Value> {
    let text = String::from_utf8(output.stdout.clone()).unwrap();
    text.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

fn line(at: &str, say: &str) -> String {
    value!({ "at": at, "from": "ana", "room": "direct", "say": say }).to_string() + "\n"
}

fn recorded_places(name: &str) -> Vec<u8> {
    let all: Value = serde_json::from_slice(PLACES).unwrap();
    let named = |body: &&Value| body["results"][0]["name"] == name;
    all.as_object().unwrap().values().find(named).unwrap().to_string().into_bytes()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_rehearsal_on_the_configured_interface() {
    let folder = tempfile::tempdir().unwrap();
    let forecast = Server::playing(vec![json(WEEK)]).await;
    let archive = Server::playing(vec![reply(404, &[], b"not here")]).await;
    let places = Server::playing(vec![json(&recorded_places("Brisbane"))]).await;
    configuration(folder.path(), &forecast.address, &archive.address, &places.address);
    let script = [
        line("2025-05-09T06:00:00Z", "hello"),
        line("2025-05-09T06:01:00Z", "I garden in Brisbane"),
        line("2025-05-09T06:02:00Z", "Celeste, a 60 litre pot"),
        line("2025-05-09T06:03:00Z", "should I spray this week?"),
    ];
    let output = run(folder.path(), "rehearse", script.concat()).await;
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let said = said(&output);
    let settled = said.iter().filter(|line| line.get("settled").is_some()).count();
    assert_eq!(settled, 4, "{said:#?}");
    let asked = places.requests();
    assert!(asked.iter().any(|request| request.contains("name=brisbane")), "{asked:?}");
    let asked = forecast.requests();
    assert!(
        asked.iter().any(|request| request.contains("latitude=-27.4") && request.contains("timezone=gmt")),
        "{asked:?} {said:#?}"
    );
    let verdict = said
        .iter()
        .flat_map(|line| line["values"].as_array().into_iter().flatten())
        .find(|answer| answer["answer"] == "spray")
        .unwrap_or_else(|| panic!("a verdict on spraying: {said:#?}"));
    let unknown = value!({ "reason": "weather_unknown" });
    assert!(!verdict["reasons"].as_array().unwrap().contains(&unknown), "{verdict:#}");
    let texts: Vec<_> = said.iter().filter_map(|line| line["text"].as_str()).collect();
    assert!(texts.last().unwrap().contains("Open-Meteo"), "credit is shown: {texts:#?}");
    // What the archive said is for the operator.
    let log = String::from_utf8_lossy(&output.stderr);
    assert!(log.contains("404"), "{log}");
}

#[tokio::test(flavor = "multi_thread")]
async fn of_two_places_of_a_name_one_is_chosen_by_its_number() {
    let folder = tempfile::tempdir().unwrap();
    let forecast = Server::playing(vec![json(WEEK)]).await;
    let archive = Server::playing(vec![reply(404, &[], b"not here")]).await;
    let places = Server::playing(vec![json(&recorded_places("Paris"))]).await;
    configuration(folder.path(), &forecast.address, &archive.address, &places.address);
    let script = [line("2025-05-09T06:00:00Z", "I garden in Paris"), line("2025-05-09T06:01:00Z", "2")];
    let said = said(&run(folder.path(), "rehearse", script.concat()).await);
    let texts: Vec<_> = said.iter().filter_map(|line| line["text"].as_str()).collect();
    assert!(
        texts[0].contains("1. Paris, Île-de-France") && texts[0].contains("2. Paris, Texas"),
        "{texts:#?}"
    );
    assert!(texts[1].contains("Paris, Texas, United States"), "{texts:#?}");
    let settled = said.iter().find(|line| line["values"][0]["answer"] == "settled").unwrap();
    let setting = &settled["values"][0]["settings"][0];
    assert_eq!(setting["zone"], "America/Chicago", "{setting}");
}

#[tokio::test(flavor = "multi_thread")]
async fn check_asks_the_feed() {
    let folder = tempfile::tempdir().unwrap();
    // The recorded week is long past: an old copy, and not to be taken for today's weather.
    let forecast = Server::playing(vec![json(WEEK)]).await;
    let places = Server::playing(vec![json(&recorded_places("Brisbane"))]).await;
    configuration(folder.path(), &forecast.address, &forecast.address, &places.address);
    let output = run(folder.path(), "check", String::new()).await;
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("ok    configuration") && text.contains("ok    store: 0 gardens"), "{text}");
    assert!(text.contains("ok    place names"), "{text}");
    assert!(text.contains("WRONG weather feed: http://127.0.0.1:"), "{text}");
    assert_eq!(output.status.code(), Some(3), "{text}");
    assert_eq!(forecast.requests().len(), 1);

    configuration(folder.path(), "http://127.0.0.1:9", "http://127.0.0.1:9", "http://127.0.0.1:9");
    let output = run(folder.path(), "check", String::new()).await;
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("WRONG weather feed: http://127.0.0.1:9"), "{text}");
    assert!(text.contains("check weather.forecast_url"), "{text}");
    assert!(text.contains("WRONG place names"), "{text}");
}
