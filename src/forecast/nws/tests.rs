use super::*;
use crate::units::{Millimetres, Position};
use crate::weather::{Hour, Origin};
use proptest::prelude::*;
use serde_json::{Value, json};

const ALBANY: &[u8] = include_bytes!("../../../tests/data/weather/nws-gridpoint-albany-2026-07.json");
const ALBANY_HOURLY: &[u8] = include_bytes!("../../../tests/data/weather/nws-hourly-albany-2026-07-us.json");
const ALBANY_POINT: &[u8] = include_bytes!("../../../tests/data/weather/nws-points-albany.json");
const APALACHICOLA: &[u8] =
    include_bytes!("../../../tests/data/weather/nws-gridpoint-apalachicola-2022-02.json");

const NOW: &str = "2026-07-15T20:08:47Z";

fn at(text: &str) -> DateTime<Utc> {
    text.parse().expect("a time")
}

fn albany_with(change: impl FnOnce(&mut Value)) -> Result<Decoded, ForecastError> {
    let mut body: Value = serde_json::from_slice(ALBANY).expect("JSON");
    change(&mut body["properties"]);
    decode(body.to_string().as_bytes(), at(NOW))
}

/// The service's own hourly product of the same issue is the outside check of how intervals are laid over
/// hours: whole degrees Fahrenheit, humidity and probability, each with its local offset.
#[test]
fn hours_are_those_of_the_services_own_hourly_product() {
    let decoded = decode(ALBANY, at(NOW)).expect("a recorded body");
    let hourly: Value = serde_json::from_slice(ALBANY_HOURLY).expect("JSON");
    let periods = hourly["properties"]["periods"].as_array().expect("periods");
    for period in periods {
        let start: DateTime<Utc> = at(period["startTime"].as_str().expect("a time"));
        let hour = decoded.series.at(start).expect("an hour");
        let fahrenheit = hour.temperature.expect("a temperature").as_fahrenheit();
        assert_eq!(Some(fahrenheit.round()), period["temperature"].as_f64(), "{start}");
        let humidity = hour.humidity.map(|humidity| humidity.as_percent().round());
        assert_eq!(humidity, period["relativeHumidity"]["value"].as_f64(), "{start}");
        let chance = hour.rain_probability.map(|chance| chance.as_percent().round());
        assert_eq!(chance, period["probabilityOfPrecipitation"]["value"].as_f64(), "{start}");
        let dew_point = hour.dew_point.expect("a dew point").value();
        assert!((dew_point - period["dewpoint"]["value"].as_f64().expect("a dew point")).abs() < 1e-9);
    }
    assert_eq!(periods.len(), 156);
}

#[test]
fn rain_is_the_total_of_its_interval_and_unknown_beyond_its_layer() {
    for (body, now, hours_with_rain) in [(ALBANY, NOW, 84), (APALACHICOLA, "2022-02-04T00:00:00Z", 159)] {
        let decoded = decode(body, at(now)).expect("a recorded body");
        let wire: Value = serde_json::from_slice(body).expect("JSON");
        let totals = wire["properties"]["quantitativePrecipitation"]["values"].as_array().expect("totals");
        let total: f64 = totals.iter().filter_map(|stretch| stretch["value"].as_f64()).sum();
        let rains = || decoded.series.hours().iter().filter_map(|hour| hour.rain);
        assert!(total > 1.0 && (rains().sum::<Millimetres>().value() - total).abs() < 1e-6, "{total}");
        assert_eq!(rains().count(), hours_with_rain);
        assert!(decoded.series.hours().iter().rev().take(24).all(|hour| hour.rain.is_none()));
    }
}

#[test]
fn only_dry_blocks_resolve_hours() {
    let decoded = decode(ALBANY, at(NOW)).expect("a recorded body");
    let ahead = decoded.series.hours().iter().filter(|hour| hour.start >= at(NOW));
    for hour in ahead {
        let is_dry = hour.rain == Some(Millimetres::ZERO);
        assert_eq!(
            hour.origin.resolves_hours(),
            is_dry && hour.origin == Origin::Forecast { native_step: 1 },
            "{hour:?}"
        );
    }
    let first = decoded.series.at(at("2026-07-15T21:00:00Z")).map(|hour| hour.origin);
    assert_eq!(first, Some(Origin::Forecast { native_step: 1 }));
}

#[test]
fn a_point_is_read_in_its_shapes() {
    let albany = decode_point(ALBANY_POINT).expect("a recorded answer");
    let expected = GridPoint { office: "ALY".into(), x: 71, y: 67, zone: Some("America/New_York".into()) };
    assert_eq!(albany, expected);
    let older = json!({ "properties": { "gridId": "TAE", "gridX": "58", "gridY": 12 } });
    assert_eq!(decode_point(older.to_string().as_bytes()).map(|point| (point.x, point.y)), Ok((58, 12)));
    for wrong in [
        json!({ "properties": { "gridId": "../x", "gridX": 1, "gridY": 1 } }),
        json!({ "properties": { "gridId": "TAE", "gridX": null, "gridY": 1 } }),
        json!({ "properties": { "gridId": "TAE", "gridX": -1, "gridY": 1.5 } }),
        json!({ "title": "Not Found" }),
    ] {
        assert!(decode_point(wrong.to_string().as_bytes()).is_err(), "{wrong}");
    }
}

#[test]
fn addresses_are_tidy_and_stay_on_the_configured_server() {
    let service = Nws::new("http://127.0.0.1:8080/nws/").expect("an address");
    let cell = Cell::of(Position::new(42.70, -73.0).expect("a position"));
    assert_eq!(service.point_request(cell).address(), "http://127.0.0.1:8080/nws/points/42.7,-73");
    let point = decode_point(ALBANY_POINT).expect("a recorded answer");
    assert_eq!(service.grid_request(&point).address(), "http://127.0.0.1:8080/nws/gridpoints/ALY/71,67");
}

#[test]
fn layers_that_are_missing_or_odd() {
    let at_nine =
        |decoded: &Decoded| -> Hour { *decoded.series.at(at("2026-07-15T21:00:00Z")).expect("an hour") };
    let absent = albany_with(|body| {
        body["windGust"] = json!({ "uom": "wmoUnit:km_h-1", "values": [] });
        body["skyCover"] = json!(null);
    })
    .expect("usable");
    assert_eq!((at_nine(&absent).gust, at_nine(&absent).cloud), (None, None));
    assert_eq!(
        absent.remarks,
        ["windGust is missing and counts as unknown", "skyCover is missing and counts as unknown"]
    );

    let odd = albany_with(|body| {
        body["relativeHumidity"]["values"] = json!([
            { "validTime": "2026-07-15T21:00:00+00:00/PT1H", "value": null },
            { "validTime": "2026-07-15T22:00:00+00:00/PT1H", "value": "41" },
            { "validTime": "2026-07-15T23:00:00+00:00/PT1M", "value": 50 },
            { "validTime": "1926-07-15T23:00:00+00:00/P7D", "value": 50 },
        ]);
    })
    .expect("usable");
    let known: Vec<_> = odd.series.hours().iter().filter_map(|hour| hour.humidity).collect();
    assert_eq!(known.len(), 1);

    let refused = |outcome: Result<Decoded, ForecastError>, expected: &str| {
        let error = outcome.expect_err(expected).to_string();
        assert!(error.contains(expected), "{error}");
    };
    refused(
        albany_with(|body| body["temperature"]["uom"] = json!("wmoUnit:K")),
        "temperature came in `wmoUnit:K`",
    );
    refused(
        albany_with(|body| body["updateTime"] = json!("2026-07-14T12:00:00+00:00")),
        "not renewed it since",
    );
    refused(decode(b"{\"properties\":{}}", at(NOW)), "every value is missing");
    refused(decode(br#"{"title":"Unexpected Problem","status":500}"#, at(NOW)), "another form");
}

proptest! {
    // A body is large: a few dozen are enough to walk all of its parts.
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn a_damaged_grid_is_read_or_refused(place in 0usize..170_000, with in any::<[u8; 3]>(), cut in proptest::option::of(0usize..170_000)) {
        let mut bytes = ALBANY.to_vec();
        bytes[place..place + 3].copy_from_slice(&with);
        bytes.truncate(cut.unwrap_or(usize::MAX));
        let _ = (decode(&bytes, at(NOW)), decode_point(&bytes));
    }

    #[test]
    fn intervals_never_panic(text in "\\PC{0,40}", duration in "P[0-9TDHWM]{0,24}") {
        let _ = interval::Interval::read(&text);
        let _ = interval::Interval::read(&format!("2026-07-15T12:00:00Z/{duration}"));
    }
}
