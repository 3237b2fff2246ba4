//! The real fetching code against a weather service that misbehaves in every way seen or documented:
//!
//! 1 good body, 2 nulls, 3 missing key, 4 unknown unit, 5 uneven lists, 6 a list of places, 7 cut
//! JSON and an error text under 200, 8 HTML under 200, 9 packed and chunked, 10 slow, stalled, closed
//! early, 11 redirects and circles, 12 304 with and without an earlier body, 13 203, 14 429 in all
//! its forms, 15 500 twice, 16 502 in HTML, 17 503 problem+json, 18 403, 19 an old copy, 20 clock
//! changes and odd zones, 21 twenty megabytes, 22 times in disorder, 23 numbers as text, 24 no
//! place found, 25 absurd values.

#![expect(clippy::unwrap_used, clippy::expect_used, reason = "helpers of tests may fail loudly too")]

#[path = "feed/server.rs"]
mod server;

use std::time::Duration;

use chrono::{DateTime, TimeDelta, Utc};
use leafhold::forecast::fetch::Route;
use leafhold::forecast::met_norway::MetNorway;
use leafhold::forecast::nws::Nws;
use leafhold::forecast::{
    ApiKey, Budget, Cell, Decoded, Feed, Fetcher, ForecastError, OpenMeteo, Policy, Problem, Source, StandIn,
};
use leafhold::units::{Fraction, Millimetres, Position};
use leafhold::weather::Origin;
use serde_json::{Value, json as value};
use server::{Play, Server, Step, begun, chunked, json, reply};

const WEEK: &[u8] = include_bytes!("data/weather/openmeteo-forecast-melbourne-168h.json");
const WEEK_PACKED: &[u8] = include_bytes!("data/weather/openmeteo-forecast-melbourne-168h.json.gz");
const TORONTO: &[u8] = include_bytes!("data/weather/openmeteo-forecast-toronto-192h-imperial-dst.json");
const PLACES: &[u8] = include_bytes!("data/weather/openmeteo-geocoding-recorded.json");
const ERRORS: &[u8] = include_bytes!("data/weather/openmeteo-errors.json");
const SPACES: &[u8] = include_bytes!("data/weather/twenty-megabytes-of-spaces.gz");

const NORWAY: &[u8] = include_bytes!("data/weather/metno-complete-norway-2022-05.json");
const ALBANY_POINT: &[u8] = include_bytes!("data/weather/nws-points-albany.json");
const ALBANY: &[u8] = include_bytes!("data/weather/nws-gridpoint-albany-2026-07.json");

const NOW: &str = "2025-05-09T06:20:00Z";

/// The ordinary policy with waits a test can afford, but time enough for a busy machine.
fn policy() -> Policy {
    Policy {
        waits: vec![Duration::from_millis(10), Duration::from_millis(20)],
        longest_retry_after: Duration::from_secs(2),
        route: Route::Direct,
        ..Policy::default()
    }
}

/// For what is about time itself.
fn impatient() -> Policy {
    Policy { stall: Duration::from_millis(300), whole: Duration::from_millis(800), ..policy() }
}

fn at(text: &str) -> DateTime<Utc> {
    text.parse().unwrap()
}

fn melbourne() -> Cell {
    Cell::of(Position::new(-37.75, 144.88).unwrap())
}

fn service(server: &Server) -> OpenMeteo {
    OpenMeteo::new(&server.address, &server.address, &server.address, ApiKey::new("sesame")).unwrap()
}

async fn fetch(server: &Server, now: &str) -> Result<Decoded, ForecastError> {
    let policy = if server.takes_time() { impatient() } else { policy() };
    let fetcher = Fetcher::new(policy, Some("grower@example.org")).unwrap();
    service(server).forecast(&fetcher, melbourne(), 3, at(now), Fraction::NONE).await
}

/// Plays a script; gives the outcome and how many requests it took.
async fn outcome(script: Vec<Play>) -> (Result<Decoded, ForecastError>, usize) {
    let server = Server::playing(script).await;
    let outcome = fetch(&server, NOW).await;
    (outcome, server.requests().len())
}

async fn good(script: Vec<Play>, requests: usize) -> Decoded {
    let (outcome, made) = outcome(script).await;
    let decoded = outcome.unwrap();
    assert_eq!(made, requests, "requests");
    decoded
}

async fn refused(script: Vec<Play>, requests: usize, words: &str) -> ForecastError {
    let (outcome, made) = outcome(script).await;
    let error = outcome.unwrap_err();
    let text = error.to_string();
    assert!(text.contains(words), "{words:?} is not in: {text}");
    assert!(text.starts_with("http://127.0.0.1:"), "names the address: {text}");
    assert!(!text.contains("sesame") && !format!("{error:?}").contains("sesame"), "{text}");
    assert_eq!(made, requests, "requests for {words:?}: {text}");
    error
}

/// The recorded week with one change.
fn week_with(change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let mut body: Value = serde_json::from_slice(WEEK).unwrap();
    change(&mut body);
    body.to_string().into_bytes()
}

fn recorded_error(index: usize) -> Vec<u8> {
    let errors: Value = serde_json::from_slice(ERRORS).unwrap();
    match &errors[index]["body_text"] {
        Value::String(text) => text.clone().into_bytes(),
        _ => errors[index]["body"].to_string().into_bytes(),
    }
}

fn rains(decoded: &Decoded) -> Vec<Option<f64>> {
    decoded.series.hours().iter().map(|hour| hour.rain.map(Millimetres::value)).collect()
}

/// 1, 2, 3, 5, 22, 23, 25: what can be used is, at the first request, and the rest is unknown.
#[tokio::test]
async fn usable_bodies() {
    let whole = good(vec![json(WEEK)], 1).await;
    assert_eq!(whole.series.hours().len(), 168);
    let known = |decoded: &Decoded| rains(decoded).iter().flatten().count();
    assert_eq!(known(&whole), 168);

    let rain = |change: fn(&mut Value)| week_with(move |body| change(&mut body["hourly"]["precipitation"]));
    let rows: [(&str, Vec<u8>, usize); 9] = [
        ("nulls at the end", rain(|rain| (160..168).for_each(|row| rain[row] = value!(null))), 160),
        ("nulls in the middle", rain(|rain| (50..60).for_each(|row| rain[row] = value!(null))), 158),
        ("a whole column of nulls", rain(|rain| *rain = value!(vec![Value::Null; 168])), 0),
        ("a missing key", rain(|rain| *rain = value!(null)), 0),
        ("a list too short", rain(|rain| *rain = value!(vec![1.0; 167])), 0),
        ("numbers as text", rain(|rain| (0..168).for_each(|row| rain[row] = value!("0.4"))), 168),
        ("a negative depth", rain(|rain| rain[7] = value!(-3.0)), 167),
        ("the usual words for missing", rain(|rain| (rain[7], rain[8]) = (value!(1e40), value!(-9999))), 166),
        (
            "twice the same time",
            week_with(|body| body["hourly"]["time"][9] = value!("2025-05-09T08:00")),
            167,
        ),
    ];
    for (name, body, expected) in rows {
        assert_eq!(known(&good(vec![json(&body)], 1).await), expected, "{name}");
    }

    let backwards = week_with(|body| {
        for list in body["hourly"].as_object_mut().unwrap().values_mut() {
            list.as_array_mut().unwrap().reverse();
        }
    });
    assert_eq!(good(vec![json(&backwards)], 1).await.series, whole.series, "unsorted");

    let nan = String::from_utf8(WEEK.to_vec()).unwrap().replacen("13.6", "NaN", 1).into_bytes();
    assert_eq!(known(&good(vec![json(&nan)], 1).await), 168);
}

/// 4, 6, 19: a body that means something else is refused, and asking again would not change it.
#[tokio::test]
async fn bodies_of_another_meaning() {
    let unit = week_with(|body| body["hourly_units"]["precipitation"] = value!("gallon"));
    refused(vec![json(&unit)], 1, "precipitation came in `gallon`").await;
    let list = [b"[", WEEK, b",", WEEK, b"]"].concat();
    refused(vec![json(&list)], 1, "2 places came back").await;
    refused(vec![json(b"{}")], 1, "no `hourly`").await;

    let server = Server::playing(vec![json(WEEK)]).await;
    let error = fetch(&server, "2025-05-18T00:00:00Z").await.unwrap_err();
    assert!(error.to_string().contains("it is an old copy"), "{error}");
    assert!(matches!(error.problem(), Problem::Nothing(_)));
}

/// 7, 8: what is not JSON may be a moment's trouble.
#[tokio::test]
async fn answers_that_are_not_json() {
    let cut = recorded_error(7);
    assert!(cut.starts_with(b"{\"latitude\"") && cut.ends_with(b"..."), "the recorded one");
    good(vec![json(&cut), json(WEEK)], 2).await;
    refused(vec![json(&cut)], 3, "not the JSON of a weather service").await;
    good(vec![json(b"<!doctype html><p>Sign in to the hotel"), json(b""), json(WEEK)], 3).await;
    refused(vec![reply(200, &[("content-type", "text/html")], b"<html>hello")], 3, "starts `<html>hello`")
        .await;
}

/// 9: packed and in chunks.
#[tokio::test]
async fn packed_and_chunked() {
    let plain = good(vec![json(WEEK)], 1).await;
    let packed = &[("content-encoding", "gzip")];
    for play in [reply(200, packed, WEEK_PACKED), chunked(&[], WEEK), chunked(packed, WEEK_PACKED)] {
        assert_eq!(good(vec![play], 1).await, plain);
    }
    refused(vec![reply(200, packed, &WEEK_PACKED[..900])], 3, "broke off").await;
}

/// 10: slow is fine, stalled and closed early are tried again.
#[tokio::test]
async fn slow_stalled_and_closed_early() {
    let pause = Step::Pause(Duration::from_millis(60));
    let rest = |from: usize| Step::Send(WEEK[from..].to_vec());
    good(vec![begun(WEEK, 1_000, vec![pause.clone(), rest(1_000)])], 1).await;

    good(vec![begun(WEEK, 1_000, vec![Step::Stall]), json(WEEK)], 2).await;
    good(vec![vec![Step::Stall], json(WEEK)], 2).await;
    good(vec![begun(WEEK, 1_000, vec![]), json(WEEK)], 2).await;
    good(vec![vec![], json(WEEK)], 2).await;
    refused(vec![vec![Step::Stall]], 3, "no whole answer came within 0.8 s").await;
    refused(vec![begun(WEEK, 1_000, vec![])], 3, "broke off").await;

    // A drip that never stalls ends by the limit on the whole.
    let drip =
        (0..100).flat_map(|_| [Step::Send(b" ".to_vec()), Step::Pause(Duration::from_millis(50))]).collect();
    refused(vec![begun(WEEK, 0, drip)], 3, "no whole answer").await;
}

#[tokio::test]
async fn nobody_there() {
    let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = format!("http://{}", listener.local_addr().unwrap());
    drop(listener);
    let service = OpenMeteo::new(&address, &address, &address, None).unwrap();
    let fetcher = Fetcher::new(policy(), None).unwrap();
    let error = service.forecast(&fetcher, melbourne(), 3, at(NOW), Fraction::NONE).await.unwrap_err();
    assert!(matches!(error.problem(), Problem::Connect(_)) && error.retryable(), "{error}");
    assert!(error.to_string().contains("refused"), "{error}");
}

/// 11: to the tidy address, but not in circles.
#[tokio::test]
async fn redirects() {
    let to = |place: &str| reply(301, &[("location", place)], b"");
    let server = Server::playing(vec![to("/v1/forecast?latitude=-37.75"), json(WEEK)]).await;
    fetch(&server, NOW).await.unwrap();
    assert!(server.requests()[1].starts_with("get /v1/forecast?latitude=-37.75 "));
    refused(vec![to("/v1/forecast")], 6, "in a circle or to an unsafe address (more than five redirects)")
        .await;
}

/// 12, 13: only who asked for it is told that nothing changed.
#[tokio::test]
async fn unchanged_and_deprecated() {
    use leafhold::forecast::fetch::Request;
    refused(vec![reply(304, &[], b"")], 1, "answered 304").await;
    good(vec![reply(203, &[], WEEK)], 1).await;

    let date = "Fri, 09 May 2025 05:00:00 GMT";
    let server =
        Server::playing(vec![reply(200, &[("last-modified", date)], WEEK), reply(304, &[], b"")]).await;
    let fetcher = Fetcher::new(policy(), None).unwrap();
    let request = Request::new(server.address.parse().unwrap(), None);
    let first = fetcher.once(&request).await.unwrap();
    assert_eq!((first.unchanged, first.last_modified.as_deref()), (false, Some(date)));
    let second = fetcher.once(&request.unless_same_since(date)).await.unwrap();
    assert!(second.unchanged && second.body.is_empty());
    assert!(server.requests()[1].contains(&format!("if-modified-since: {}", date.to_lowercase())));
}

/// 14: too many requests, with and without a word on when to return.
#[tokio::test]
async fn too_many_requests() {
    let now = at(NOW);
    let (minute, hour, day, concurrent) = (1, 2, 3, 4);
    let limited = |index| reply(429, &[], &recorded_error(index));
    good(vec![limited(minute), limited(concurrent), json(WEEK)], 3).await;
    let error = refused(vec![limited(minute)], 3, "Minutely").await;
    assert_eq!(error.not_before(now), Some(at("2025-05-09T06:21:00Z")));
    let error = refused(vec![limited(hour)], 1, "tried again in the next hour").await;
    assert_eq!(error.not_before(now), Some(at("2025-05-09T07:00:00Z")));
    let error = refused(vec![limited(day)], 1, "tried again on the next UTC day").await;
    assert_eq!(error.not_before(now), Some(at("2025-05-10T00:00:00Z")));
    let error = refused(vec![reply(429, &[], b"slow down")], 3, "too many requests (slow down)").await;
    assert_eq!(error.not_before(now), None);

    let after =
        |wait: &str| reply(429, &[("retry-after", wait), ("date", "Fri, 09 May 2025 06:20:00 GMT")], b"");
    for soon in ["0", "Fri, 09 May 2025 06:00:00 GMT"] {
        good(vec![after(soon), json(WEEK)], 2).await;
    }
    for late in ["86400", "Fri, 16 May 2025 06:20:00 GMT", "99999999999999999999999"] {
        let error = refused(vec![after(late)], 1, "too many requests").await;
        assert_eq!(error.not_before(now), Some(now + TimeDelta::days(1)), "{late}");
    }
    for second in ["1", "Fri, 09 May 2025 06:20:01 GMT"] {
        let begun =
            tokio::time::timeout(Duration::from_millis(900), good(vec![after(second), json(WEEK)], 2));
        assert!(begun.await.is_err(), "the second asked for was not waited: {second}");
        good(vec![after(second), json(WEEK)], 2).await;
    }
}

/// 15, 16, 17: the service's own trouble may pass.
#[tokio::test]
async fn trouble_of_the_service() {
    let broken = || reply(500, &[], br#"{"error":true,"reason":"Something went wrong."}"#);
    good(vec![broken(), broken(), json(WEEK)], 3).await;
    refused(vec![broken()], 3, "answered 500 (Something went wrong.)").await;
    let gateway = reply(502, &[("content-type", "text/html")], &recorded_error(6));
    refused(vec![gateway], 3, "answered 502 (502 Bad Gateway 502 Bad Gateway nginx)").await;
    refused(vec![reply(503, &[], &recorded_error(5))], 3, "The service is overloaded").await;
    let problem = br#"{"title":"Forecast Grid Expired","status":503,"detail":"The requested forecast grid has expired."}"#;
    let typed = &[("content-type", "application/problem+json")];
    refused(vec![reply(503, typed, problem)], 3, "forecast grid has expired").await;
    // A refusal whose body never comes is the same refusal.
    let mute = vec![Step::Send(b"HTTP/1.1 500 Played\r\ncontent-length: 10\r\n\r\n".to_vec()), Step::Stall];
    refused(vec![mute, json(b"[]")], 2, "no place").await;
}

/// 18 and its like: what the service means is not asked twice.
#[tokio::test]
async fn refusals() {
    refused(vec![reply(403, &[], b"")], 1, "answered 403; check the key and the contact").await;
    refused(
        vec![reply(404, &[], b"<h1>Not here</h1>")],
        1,
        "answered 404 (Not here); check the configured address",
    )
    .await;
    refused(vec![reply(400, &[], &recorded_error(0))], 1, "answered 400 (Cannot initialize").await;
    refused(vec![json(&recorded_error(0))], 1, "refused the request (Cannot initialize").await;
}

/// 20: labels in local time are read by the one offset of the body; odd zones are refused.
#[tokio::test]
async fn clock_changes_and_odd_zones() {
    let server = Server::playing(vec![json(TORONTO)]).await;
    let forecast = fetch(&server, "2026-03-05T00:00:00Z").await.unwrap();
    assert_eq!(forecast.series.hours().len(), 192);
    assert!(forecast.series.hours().iter().all(|hour| hour.origin != Origin::Unknown));

    // The same in autumn: Sydney's second 02:00 of 6 April 2025 is not written twice, the offset stays.
    let local: Vec<_> =
        (0..48).map(|hour| format!("2025-04-0{}T{:02}:00", 5 + hour / 24, hour % 24)).collect();
    let autumn = value!({
        "utc_offset_seconds": 39_600,
        "hourly_units": { "time": "iso8601", "temperature_2m": "°C" },
        "hourly": { "time": local, "temperature_2m": (0..48).collect::<Vec<_>>() },
    });
    let server = Server::playing(vec![json(autumn.to_string().as_bytes())]).await;
    let forecast = fetch(&server, "2025-04-05T00:00:00Z").await.unwrap();
    assert_eq!(forecast.series.hours().len(), 48);
    assert_eq!(forecast.series.start(), Some(at("2025-04-04T12:00:00Z")));

    for minutes in [330, 345] {
        let odd = week_with(|body| body["utc_offset_seconds"] = value!(minutes * 60));
        refused(vec![json(&odd)], 1, "none is a whole UTC hour").await;
    }
}

/// 21: twenty megabytes, announced, unannounced and packed small.
#[tokio::test]
async fn far_too_much() {
    let large = vec![b' '; 20_000_000];
    refused(vec![json(&large)], 1, "larger than 8 MB").await;
    refused(vec![chunked(&[], &large)], 1, "larger than 8 MB").await;
    refused(vec![reply(200, &[("content-encoding", "gzip")], SPACES)], 1, "larger than 8 MB").await;
}

/// 24: no such place is an answer.
#[tokio::test]
async fn places() {
    let recorded: Value = serde_json::from_slice(PLACES).unwrap();
    let found = recorded["search-03439e.json"].to_string();
    let nothing = recorded["search-053f48.json"].to_string();
    let server = Server::playing(vec![json(found.as_bytes()), json(nothing.as_bytes())]).await;
    let fetcher = Fetcher::new(policy(), None).unwrap();
    let places = service(&server).places(&fetcher, "Brisbane").await.unwrap();
    assert_eq!(places[0].zone.as_deref(), Some("Australia/Brisbane"));
    assert!(service(&server).places(&fetcher, "Xyzzy").await.unwrap().is_empty());
    assert!(server.requests()[1].starts_with("get /v1/search?name=xyzzy&count=5&apikey=sesame "));
}

#[tokio::test]
async fn minima_of_many_years() {
    let body = value!({
        "utc_offset_seconds": 36_000,
        "daily_units": { "temperature_2m_min": "°C" },
        "daily": { "time": [1_746_712_800, 1_746_799_200], "temperature_2m_min": [3.5, null] },
    });
    let server = Server::playing(vec![json(body.to_string().as_bytes())]).await;
    let fetcher = Fetcher::new(policy(), None).unwrap();
    let (first, last) = ("2025-05-09".parse().unwrap(), "2025-05-10".parse().unwrap());
    let minima = service(&server).minima(&fetcher, melbourne(), first, last, Fraction::NONE).await.unwrap();
    assert_eq!(minima.len(), 1);
    assert_eq!((minima[0].0, minima[0].1.value()), (first, 3.5));
    assert!(server.requests()[0].contains("models=era5_seamless&start_date=2025-05-09&end_date=2025-05-10"));
}

/// One at a time for each host, and named as the services ask.
#[tokio::test]
async fn manners() {
    let slow = begun(WEEK, 10, vec![Step::Pause(Duration::from_millis(40)), Step::Send(WEEK[10..].to_vec())]);
    let server = Server::playing(vec![slow]).await;
    let fetcher = Fetcher::new(policy(), Some("grower@example.org")).unwrap();
    let service = service(&server);
    let one = || service.forecast(&fetcher, melbourne(), 3, at(NOW), Fraction::WHOLE);
    let (a, b, c) = tokio::join!(one(), one(), one());
    assert!(a.is_ok() && b.is_ok() && c.is_ok());
    assert_eq!(server.busiest(), 1);
    let request = server.requests()[0].clone();
    assert!(request.contains("user-agent: leafhold/0.1.0 (grower@example.org)"), "{request}");
    assert!(request.contains("accept-encoding: gzip"), "{request}");
    assert!(request.contains("latitude=-37.75&longitude=144.88&"), "{request}");
}

/// 12 again, where it matters: not asked before the answer expires, and then only for what changed.
#[tokio::test]
async fn met_norway_is_asked_as_it_wants() {
    let date = "Wed, 18 May 2022 20:36:05 GMT";
    let expires = "Wed, 18 May 2022 21:40:00 GMT";
    let full = reply(200, &[("last-modified", date), ("expires", expires)], NORWAY);
    let later = reply(304, &[("last-modified", date), ("expires", "Wed, 18 May 2022 22:20:00 GMT")], b"");
    let server = Server::playing(vec![full, later]).await;
    let service = MetNorway::new(&server.address).unwrap();
    let cell = Cell::of(Position::new(59.0, 10.0).unwrap());

    let nameless = Fetcher::new(policy(), None).unwrap();
    let error =
        service.forecast(&nameless, cell, at("2022-05-18T21:10:00Z"), Fraction::NONE).await.unwrap_err();
    assert!(error.to_string().contains("set `contact` in the configuration"), "{error}");

    let fetcher = Fetcher::new(policy(), Some("grower@example.org")).unwrap();
    let mut hours = Vec::new();
    for now in
        ["2022-05-18T21:10:00Z", "2022-05-18T21:39:00Z", "2022-05-18T21:45:00Z", "2022-05-18T22:19:00Z"]
    {
        let decoded = service.forecast(&fetcher, cell, at(now), Fraction::NONE).await.unwrap();
        hours.push(decoded.series.hours().len());
    }
    assert_eq!(hours, [213; 4]);
    assert_eq!(server.requests().len(), 2);
    assert!(
        server.requests()[0]
            .starts_with("get /weatherapi/locationforecast/2.0/complete?lat=59.00&lon=10.00 ")
    );
    assert!(server.requests()[1].contains(&format!("if-modified-since: {}", date.to_lowercase())));
}

#[tokio::test]
async fn a_grid_that_moved_is_looked_up_again() {
    let gone = reply(
        404,
        &[("content-type", "application/problem+json")],
        br#"{"title":"Not Found","detail":"Marine Forecast Not Supported"}"#,
    );
    let server = Server::playing(vec![
        json(ALBANY_POINT),
        json(ALBANY),
        json(ALBANY),
        gone.clone(),
        json(ALBANY_POINT),
        json(ALBANY),
        gone,
    ])
    .await;
    let service = Nws::new(&server.address).unwrap();
    let fetcher = Fetcher::new(policy(), Some("grower@example.org")).unwrap();
    let cell = Cell::of(Position::new(42.745, -73.752).unwrap());
    let now = at("2026-07-15T20:08:47Z");
    for requests in [2, 3, 6] {
        let decoded = service.forecast(&fetcher, cell, now, Fraction::NONE).await.unwrap();
        assert_eq!(decoded.source, Source::NationalWeatherService);
        assert_eq!(server.requests().len(), requests);
    }
    assert!(server.requests()[1].starts_with("get /gridpoints/aly/71,67 "));
    assert!(server.requests()[1].contains("accept: application/geo+json"));
    let error = service.forecast(&fetcher, cell, now, Fraction::NONE).await.unwrap_err();
    assert!(error.to_string().contains("Marine Forecast Not Supported"), "{error}");
}

fn feed(first: &Server, stand_in: Option<&Server>, daily: f64) -> Feed {
    let fetcher = Fetcher::new(policy(), Some("grower@example.org")).unwrap();
    let stand_ins = stand_in.map(|server| StandIn::MetNorway(MetNorway::new(&server.address).unwrap()));
    let now = at("2022-05-18T21:10:00Z");
    let mut feed =
        Feed::new(fetcher, service(first), stand_ins.into_iter().collect(), Budget::new(daily, now)).unwrap();
    feed.schedule.keep([(melbourne(), None)], now);
    feed
}

#[tokio::test]
async fn another_service_stands_in_for_one_that_is_down() {
    let first = Server::playing(vec![reply(503, &[], b"")]).await;
    let other = Server::playing(vec![json(NORWAY)]).await;
    let now = at("2022-05-18T21:10:00Z");
    let mut feed = feed(&first, Some(&other), 100.0);
    let mut sources = Vec::new();
    for _ in 0..4 {
        sources.push(feed.cycle(melbourne(), 3, now).await.map(|decoded| decoded.source).ok());
    }
    assert_eq!(sources, [None, None, Some(Source::MetNorway), Some(Source::MetNorway)]);
    assert_eq!(first.requests().len(), 12, "it is asked again in each cycle");
    assert_eq!(feed.budget.left(now), 100.0 - 12.0);
    assert!(feed.schedule.next().is_some_and(|next| next >= now + TimeDelta::minutes(90)));
}

#[tokio::test]
async fn a_service_that_wants_rest_gets_it() {
    let now = at("2022-05-18T21:10:00Z");
    let first = Server::playing(vec![reply(429, &[], &recorded_error(3))]).await;
    let mut alone = feed(&first, None, 100.0);
    alone.cycle(melbourne(), 3, now).await.unwrap_err();
    let error = alone.cycle(melbourne(), 3, now).await.unwrap_err();
    assert!(error.to_string().contains("left alone until 2022-05-19 00:00 UTC"), "{error}");
    assert_eq!(first.requests().len(), 1);
    assert_eq!(alone.schedule.next(), Some(at("2022-05-19T00:00:00Z")));
    assert_eq!(alone.budget.left(now), 0.0);

    let other = Server::playing(vec![json(NORWAY)]).await;
    let mut helped = feed(&first, Some(&other), 100.0);
    assert_eq!(helped.cycle(melbourne(), 3, now).await.unwrap().source, Source::MetNorway);
}

#[tokio::test]
async fn a_spent_allowance_asks_nobody() {
    let now = at("2025-05-09T06:20:00Z");
    let first = Server::playing(vec![json(WEEK)]).await;
    let mut feed = feed(&first, None, 1.5);
    feed.cycle(melbourne(), 3, now).await.unwrap();
    let error = feed.cycle(melbourne(), 3, now).await.unwrap_err();
    assert!(
        error.to_string().contains("allowance of requests is spent; the next one begins 2025-05-10 00:00"),
        "{error}"
    );
    assert_eq!(first.requests().len(), 1);
}
