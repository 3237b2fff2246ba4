use super::*;
use crate::units::{Celsius, Millimetres, Position};
use crate::weather::{Hour, Origin};
use chrono::TimeDelta;
use proptest::prelude::*;
use serde_json::{Value, json};

const NORWAY: &[u8] = include_bytes!("../../../tests/data/weather/metno-complete-norway-2022-05.json");
const OSLO: &[u8] = include_bytes!("../../../tests/data/weather/metno-compact-oslo-2026-02.json");
const LONDON: &[u8] =
    include_bytes!("../../../tests/data/weather/metno-complete-london-2020-07-with-headers.json");

fn at(text: &str) -> DateTime<Utc> {
    text.parse().expect("a time")
}

fn norway() -> Decoded {
    decode(NORWAY, at("2022-05-18T21:10:00Z")).expect("a recorded body")
}

fn norway_with(change: impl FnOnce(&mut Value)) -> Result<Decoded, ForecastError> {
    let mut body: Value = serde_json::from_slice(NORWAY).expect("JSON");
    change(&mut body["properties"]);
    decode(body.to_string().as_bytes(), at("2022-05-18T21:10:00Z"))
}

fn hour(decoded: &Decoded, moment: &str) -> Hour {
    *decoded.series.at(at(moment)).expect("an hour of the series")
}

#[test]
fn steps_become_hours_that_start_at_them() {
    let decoded = norway();
    assert_eq!(decoded.remarks, [] as [String; 0]);
    assert_eq!(decoded.series.start(), Some(at("2022-05-18T21:00:00Z")));
    // 51 hourly steps up to 21 May 00:00 and 27 of six hours.
    assert_eq!(decoded.series.hours().len(), 51 + 27 * 6);
    assert!(decoded.series.hours().iter().all(|hour| hour.rain.is_some()));
    let first = hour(&decoded, "2022-05-18T21:00:00Z");
    assert_eq!(first.rain_probability.map(|chance| chance.as_percent()), Some(0.3));
    assert_eq!(first.origin, Origin::Forecast { native_step: 1 });
    let long = hour(&decoded, "2022-05-21T03:00:00Z");
    assert_eq!(long.origin, Origin::Forecast { native_step: 6 });
    // 2.0 mm over the six hours from 00:00; the probability is not divided.
    assert_eq!(long.rain, Some(Millimetres::new(2.0 / 6.0)));
    assert_eq!(long.rain_probability.map(|chance| (chance.as_percent() * 10.0).round()), Some(451.0));
    assert_eq!(long.gust, None, "the gust ends with the hourly part");
}

/// How far the hourly rain of a body is from the six-hour amounts in the same body, were it `shift`
/// hours later: the sum of the differences, the largest one, and how many there were.
fn misfit(body: &[u8], now: &str, shift: i64) -> (f64, f64, usize) {
    let decoded = decode(body, at(now)).expect("a recorded body");
    let wire: Value = serde_json::from_slice(body).expect("JSON");
    let mut differences = Vec::new();
    for step in wire["properties"]["timeseries"].as_array().expect("steps") {
        let amount = step["data"]["next_6_hours"]["details"]["precipitation_amount"].as_f64();
        let from = at(step["time"].as_str().expect("a time")) + TimeDelta::hours(shift);
        let hours = decoded.series.between(from, from + TimeDelta::hours(6));
        let is_hourly = hours.iter().all(|hour| hour.origin == Origin::Forecast { native_step: 1 });
        if let (Some(amount), 6, true) = (amount, hours.len(), is_hourly) {
            let rain: Millimetres = hours.iter().filter_map(|hour| hour.rain).sum();
            differences.push((rain.value() - amount).abs());
        }
    }
    (differences.iter().sum(), differences.iter().copied().fold(0.0, f64::max), differences.len())
}

/// The service's own six-hour amounts are the outside check that hourly rain starts at its step. Amounts
/// are rounded to 0.1 mm, so six of one may differ from the other by 0.35. In the older body
/// the service's amounts differ by up to 1.1 mm from its hours (they are calibrated apart), so there the
/// question is only which hour fits best.
#[test]
fn six_hours_of_rain_are_those_the_service_sums() {
    let (_, largest, checked) = misfit(OSLO, "2026-02-06T21:00:00Z", 0);
    assert!(largest <= 0.35 && checked > 40, "{largest} of {checked}");
    for (body, now) in [(OSLO, "2026-02-06T21:00:00Z"), (NORWAY, "2022-05-18T21:10:00Z")] {
        let [early, right, late] = [-1, 0, 1].map(|shift| misfit(body, now, shift).0);
        assert!(right < 0.75 * early && right < 0.75 * late, "{early} {right} {late}");
    }
}

/// The frost values of long steps: 9.7 °C stands in the step of 21 May, which begins at 11.7 and ends at 10.0.
#[test]
fn a_long_step_is_as_cold_as_its_minimum() {
    let decoded = norway();
    let from = at("2022-05-21T00:00:00Z");
    let coldest =
        decoded.series.between(from, from + TimeDelta::hours(6)).iter().filter_map(|hour| hour.temperature);
    assert_eq!(coldest.reduce(Celsius::min), Some(Celsius::new(9.7)));
}

#[test]
fn outside_the_nordic_countries_gust_and_probability_are_unknown() {
    let recorded: Value = serde_json::from_slice(LONDON).expect("JSON");
    let decoded =
        decode(recorded["data"].to_string().as_bytes(), at("2020-07-20T11:44:31Z")).expect("a recorded body");
    assert!(decoded.series.hours().len() > 200);
    assert!(decoded.series.hours().iter().all(|hour| hour.gust.is_none() && hour.rain_probability.is_none()));
    assert!(decoded.series.hours().iter().all(|hour| hour.temperature.is_some() && hour.rain.is_some()));
    let answer = Answer {
        body: Vec::new(),
        unchanged: false,
        last_modified: None,
        expires: recorded["headers"]["Expires"].as_str().map(str::to_owned),
    };
    assert_eq!(answer.expires_at(), Some(at("2020-07-20T12:16:23Z")));
}

#[test]
fn bodies_that_cannot_be_used_say_why() {
    let refused = |outcome: Result<Decoded, ForecastError>, expected: &str| {
        let error = outcome.expect_err(expected).to_string();
        assert!(error.contains(expected), "{error}");
    };
    refused(
        norway_with(|body| body["meta"]["units"]["air_temperature"] = json!("kelvin")),
        "air_temperature came in `kelvin`",
    );
    refused(norway_with(|body| body["meta"]["units"] = json!({})), "air_temperature came in ``");
    refused(norway_with(|body| body["timeseries"] = json!([])), "every value is missing");
    refused(
        norway_with(|body| body["meta"]["updated_at"] = json!("2022-05-17T20:00:00Z")),
        "not renewed it since 2022-05-17 20:00 UTC",
    );
    refused(decode(NORWAY, at("2022-05-30T00:00:00Z")), "not renewed");
    refused(decode(b"<html>", at("2022-05-30T00:00:00Z")), "not the JSON");
    refused(decode(b"{}", at("2022-05-30T00:00:00Z")), "another form");
    let old = norway_with(|body| body["meta"]["updated_at"] = json!("2022-05-18T06:00:00Z")).expect("usable");
    assert_eq!(old.remarks.len(), 1);
    let odd = norway_with(|body| {
        body["timeseries"][3]["data"]["next_1_hours"]["details"] = json!({});
        body["timeseries"][4]["data"]["next_1_hours"]["details"]["precipitation_amount"] = json!(-9999);
        body["timeseries"][5]["data"]["next_1_hours"]["details"]["precipitation_amount"] = json!("0.4");
        body["timeseries"][6]["time"] = json!("2022-05-19T02:00:00Z");
    })
    .expect("usable");
    assert_eq!(odd.remarks.len(), 1, "{:?}", odd.remarks);
    assert_eq!(hour(&odd, "2022-05-19T00:00:00Z").rain, None);
    assert_eq!(hour(&odd, "2022-05-19T01:00:00Z").rain, None);
    assert_eq!(hour(&odd, "2022-05-19T02:00:00Z").rain, Some(Millimetres::new(0.4)));
    assert_eq!(hour(&odd, "2022-05-19T03:00:00Z").origin, Origin::Unknown);
}

#[test]
fn the_address_has_few_decimals() {
    let cell = Cell::of(Position::new(59.911_491, 10.757_933).expect("a position"));
    let request = MetNorway::new(MetNorway::ADDRESS).expect("an address").request(cell);
    assert_eq!(
        request.address(),
        "https://api.met.no/weatherapi/locationforecast/2.0/complete?lat=59.91&lon=10.76"
    );
}

proptest! {
    // A body is large: a few dozen are enough to walk all of its parts.
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn a_damaged_body_is_read_or_refused(place in 0usize..114_000, with in any::<[u8; 3]>(), cut in proptest::option::of(0usize..114_000)) {
        let mut bytes = NORWAY.to_vec();
        bytes[place..place + 3].copy_from_slice(&with);
        bytes.truncate(cut.unwrap_or(usize::MAX));
        let _ = decode(&bytes, at("2022-05-18T21:10:00Z"));
    }
}
