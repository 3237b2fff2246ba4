use super::*;
use crate::units::{Celsius, Millimetres, Position};
use crate::weather::{Hour, Origin, Series};
use chrono::{NaiveTime, TimeDelta};
use proptest::prelude::*;
use serde_json::{Value, json};

const BAVARIA: &[u8] = include_bytes!("../../../tests/data/weather/openmeteo-forecast-bavaria-72h.json");
const STORM: &[u8] =
    include_bytes!("../../../tests/data/weather/openmeteo-forecast-melbourne-24h-allvars-unixtime.json");
const WEEK: &[u8] = include_bytes!("../../../tests/data/weather/openmeteo-forecast-melbourne-168h.json");
const CLOCK_CHANGE: &[u8] =
    include_bytes!("../../../tests/data/weather/openmeteo-forecast-toronto-192h-imperial-dst.json");
const TWO_PLACES: &[u8] =
    include_bytes!("../../../tests/data/weather/openmeteo-archive-adriatic-multilocation.json");
const PLACES: &[u8] = include_bytes!("../../../tests/data/weather/openmeteo-geocoding-recorded.json");

fn at(text: &str) -> DateTime<Utc> {
    text.parse().expect("a time")
}

fn service() -> OpenMeteo {
    OpenMeteo::new(OpenMeteo::FORECAST, OpenMeteo::ARCHIVE, OpenMeteo::GEOCODING, None).expect("addresses")
}

fn mobile() -> Cell {
    Cell::of(Position::new(30.694_357, -88.043_054).expect("a position"))
}

fn hour(series: &Series, moment: &str) -> Hour {
    *series.at(at(moment)).expect("an hour of the series")
}

const UNITS: [&str; 10] = ["°C", "%", "°C", "mm", "%", "m/s", "m/s", "%", "W/m²", "mm"];

/// A day of rows beside the noon of 1 May 2026, one an hour, every variable a plain number.
fn body() -> Value {
    let rows = 24_usize;
    let first = at("2026-05-01T00:00:00Z").timestamp();
    let time: Vec<i64> = (0..rows as i64).map(|row| first + row * 3600).collect();
    let mut hourly = json!({ "time": time });
    let mut units = json!({ "time": "unixtime" });
    for ((variable, _), unit) in hours::VARIABLES.into_iter().zip(UNITS) {
        hourly[variable] = json!((0..rows).map(|row| row as f64 / 10.0).collect::<Vec<_>>());
        units[variable] = json!(unit);
    }
    json!({ "latitude": 30.7, "utc_offset_seconds": 0, "hourly_units": units, "hourly": hourly })
}

fn read(body: &Value) -> Result<Decoded, ForecastError> {
    decode(body.to_string().as_bytes(), at("2026-05-01T12:20:00Z"))
}

/// The series after one change to the good body.
fn changed(change: impl Fn(&mut Value)) -> Decoded {
    let mut body = body();
    change(&mut body);
    read(&body).expect("still usable")
}

#[test]
fn requests_ask_for_one_meaning_of_time_and_unit() {
    let day = |text: &str| text.parse::<NaiveDate>().expect("a date");
    insta::assert_snapshot!(
        [
            service().forecast_request(mobile(), DAYS_BACK).address(),
            service().minima_request(mobile(), day("1996-01-01"), day("2025-12-31")).address(),
            service().places_request("  Fairhope, Alabama ").address(),
        ]
        .join("\n")
    );
    assert_eq!(OpenMeteo::forecast_weight(DAYS_BACK), 1.0);
    assert_eq!(OpenMeteo::forecast_weight(92), 102.0 / 14.0);
    assert!((OpenMeteo::minima_weight(day("1996-01-01"), day("2025-12-31")) - 78.3).abs() < 0.1);
}

#[test]
fn addresses_may_be_servers_of_ones_own() {
    let address = |configured: &str| {
        OpenMeteo::new(configured, OpenMeteo::ARCHIVE, OpenMeteo::GEOCODING, None)
            .map(|service| service.forecast.to_string())
    };
    let rows = [
        ("https://api.open-meteo.com", "https://api.open-meteo.com/v1/forecast"),
        ("https://api.open-meteo.com/v1/forecast", "https://api.open-meteo.com/v1/forecast"),
        (" http://127.0.0.1:8080/weather/ ", "http://127.0.0.1:8080/weather/v1/forecast"),
    ];
    for (configured, expected) in rows {
        assert_eq!(address(configured).as_deref(), Ok(expected));
    }
    for wrong in ["", "api.open-meteo.com", "file:///etc/passwd", "https://a.example/?key=1", "https://"] {
        let error = address(wrong).expect_err(wrong).to_string();
        assert!(error.contains("correct it in the configuration"), "{wrong}: {error}");
    }
}

#[test]
fn a_key_is_in_no_address_and_no_log() {
    let key = ApiKey::new(" sesame\n");
    let service = OpenMeteo::new(OpenMeteo::FORECAST, OpenMeteo::ARCHIVE, OpenMeteo::GEOCODING, key)
        .expect("addresses");
    let request = service.forecast_request(mobile(), DAYS_BACK);
    assert!(!format!("{service:?} {request:?} {}", request.address()).contains("sesame"));
}

#[test]
fn an_hour_starts_one_before_the_label_of_its_sums() {
    let decoded = read(&body()).expect("a good body");
    assert_eq!(decoded.remarks, [] as [String; 0]);
    assert_eq!(decoded.series.hours().len(), 24);
    let eleven = hour(&decoded.series, "2026-05-01T11:00:00Z");
    assert_eq!(eleven.temperature, Some(Celsius::new(1.15)), "the mean of 11:00 and 12:00");
    assert_eq!(eleven.rain, Some(Millimetres::new(1.2)), "the sum up to 12:00");
    assert_eq!(eleven.gust.map(|gust| gust.value()), Some(1.2));
    assert_eq!(eleven.origin, Origin::Modelled);
    assert_eq!(hour(&decoded.series, "2026-05-01T12:00:00Z").origin, Origin::Forecast { native_step: 1 });
    let first = hour(&decoded.series, "2026-04-30T23:00:00Z");
    assert_eq!(first.temperature, Some(Celsius::new(0.0)), "only the instant at its end is known");
}

#[test]
fn what_is_missing_or_absurd_is_unknown_and_never_zero() {
    let eleven = |decoded: Decoded| hour(&decoded.series, "2026-05-01T11:00:00Z");
    let rain =
        |value: Value| eleven(changed(|body| body["hourly"]["precipitation"][12] = value.clone())).rain;
    for absurd in [
        json!(null),
        json!(-0.2),
        json!(1e40),
        json!(-9999),
        json!("wet"),
        json!("NaN"),
        json!([1]),
        json!({}),
        json!(true),
    ] {
        assert_eq!(rain(absurd.clone()), None, "{absurd}");
    }
    assert_eq!(rain(json!("0.7")), Some(Millimetres::new(0.7)), "a number written as text");
    let humid = eleven(changed(|body| {
        body["hourly"]["relative_humidity_2m"][11] = json!(101);
        body["hourly"]["relative_humidity_2m"][12] = json!(-9999);
    }));
    assert_eq!(humid.humidity.map(|humidity| humidity.as_percent()), Some(100.0));

    let columns = [
        (json!(vec![Value::Null; 24]), 0),
        (json!(null), 1),
        (json!("none"), 1),
        (json!({ "0": 1 }), 1),
        (json!(vec![0.0; 23]), 1),
        (json!(vec![0.0; 25]), 1),
        (json!([]), 1),
    ];
    for (column, remarks) in columns {
        let decoded = changed(|body| body["hourly"]["precipitation"] = column.clone());
        assert!(decoded.series.hours().iter().all(|hour| hour.rain.is_none()), "{column}");
        assert!(decoded.series.hours().iter().all(|hour| hour.temperature.is_some()), "{column}");
        assert_eq!(decoded.remarks.len(), remarks, "{column}: {:?}", decoded.remarks);
    }
    let absent = changed(|body| {
        body["hourly"].as_object_mut().map(|hourly| hourly.remove("wind_gusts_10m"));
    });
    assert_eq!(eleven(absent.clone()).gust, None);
    assert_eq!(absent.remarks, ["wind_gusts_10m is missing and counts as unknown"]);
}

#[test]
fn nan_written_bare_is_unknown() {
    let text = body().to_string().replace("\"precipitation\":[0.0,", "\"precipitation\":[NaN,");
    let decoded = decode(text.as_bytes(), at("2026-05-01T12:20:00Z")).expect("usable");
    assert_eq!(decoded.series.hours()[0].rain, None);
    assert_eq!(decoded.series.hours()[1].rain, Some(Millimetres::new(0.1)));
}

#[test]
fn times_may_be_repeated_unsorted_and_gapped() {
    let decoded = changed(|body| {
        let noon = body["hourly"]["time"][12].clone();
        body["hourly"]["time"][3] = noon.clone();
        body["hourly"]["time"][12] = body["hourly"]["time"][20].clone();
        body["hourly"]["time"][20] = noon;
        body["hourly"]["time"][5] = json!(1_777_593_600_000_i64);
        body["hourly"]["time"][6] = json!(noon_and(17));
    });
    assert_eq!(decoded.remarks.len(), 2, "{:?}", decoded.remarks);
    // Row 20 now stands at noon, after row 3 did.
    assert_eq!(hour(&decoded.series, "2026-05-01T11:00:00Z").rain, Some(Millimetres::new(2.0)));
    assert_eq!(hour(&decoded.series, "2026-05-01T19:00:00Z").rain, Some(Millimetres::new(1.2)));
    // No row stands at 3:00: that hour is a gap, and nothing was spread over it.
    assert_eq!(hour(&decoded.series, "2026-05-01T02:00:00Z").origin, Origin::Unknown);
}

fn noon_and(minutes: i64) -> i64 {
    (at("2026-05-01T12:00:00Z") + TimeDelta::minutes(minutes)).timestamp()
}

#[test]
fn bodies_that_cannot_be_used_say_why() {
    let refused = |text: &str, retryable: bool, expected: &str| {
        let error = decode(text.as_bytes(), at("2026-05-01T12:20:00Z")).expect_err(expected);
        assert!(error.to_string().contains(expected), "{text:.80} gave {error}");
        assert_eq!(error.retryable(), retryable, "{error}");
    };
    let with = |change: fn(&mut Value)| {
        let mut body = body();
        change(&mut body);
        body.to_string()
    };
    refused("", true, "not the JSON");
    refused("<html><h1>502</h1></html>", true, "starts `<html><h1>502");
    refused(
        r#"{"hourly":{"time":[1777593600,Unexpected error while streaming data: ..."#,
        true,
        "Unexpected error",
    );
    refused(
        r#"{"error":true,"reason":"Cannot initialize"}"#,
        false,
        "refused the request (Cannot initialize)",
    );
    refused("{}", false, "no `hourly`");
    refused("[]", false, "no place");
    refused("7", false, "another form");
    refused(r#"{"hourly":{}}"#, false, "of 0 times none");
    refused(&json!([body(), body()]).to_string(), false, "2 places");
    refused(
        &with(|body| body["hourly_units"]["precipitation"] = json!("furlong")),
        false,
        "precipitation came in `furlong`",
    );
    refused(
        &with(|body| body["hourly_units"]["temperature_2m"] = json!("K")),
        false,
        "temperature_2m came in `K`",
    );
    refused(&with(|body| body["hourly_units"] = json!({})), false, "temperature_2m came in ``");
    // Local labels of a zone 45 minutes off lie on no UTC hour, and a guess would be wrong by up to that.
    refused(
        &with(|body| {
            body["utc_offset_seconds"] = json!(20_700);
            body["hourly"]["time"] =
                json!((0..24).map(|hour| format!("2026-05-01T{hour:02}:00")).collect::<Vec<_>>());
        }),
        false,
        "of 24 times none is a whole UTC hour",
    );
    refused(
        &with(|body| {
            for (variable, _) in hours::VARIABLES {
                body["hourly"][variable] = json!(vec![Value::Null; 24]);
            }
        }),
        false,
        "every value is missing",
    );
}

/// The service's own daily sums in the same body are the outside check: a day there is the 24 labels 00 to 23.
#[test]
fn the_rain_of_a_recorded_week_is_that_of_its_daily_sums() {
    let decoded = decode(WEEK, at("2025-05-09T06:00:00Z")).expect("a recorded body");
    let wire: Value = serde_json::from_slice(WEEK).expect("JSON");
    for (day, sum) in wire["daily"]["precipitation_sum"].as_array().expect("sums").iter().enumerate() {
        let first_label = at("2025-05-09T00:00:00Z") + TimeDelta::days(day as i64);
        let from = first_label - TimeDelta::hours(1);
        let hours = decoded.series.between(from, from + TimeDelta::hours(24));
        assert_eq!(hours.len(), 24);
        let rain: Millimetres = hours.iter().filter_map(|hour| hour.rain).sum();
        assert!(
            (rain.value() - sum.as_f64().expect("a sum")).abs() < 0.01,
            "day {day}: {rain:?} is not {sum}"
        );
    }
    // Wind came in km/h: 3.1 and 2.9 at the ends of the first whole hour.
    let wind = hour(&decoded.series, "2025-05-09T00:00:00Z").wind.expect("a wind").value();
    assert!((wind - 3.0 / 3.6).abs() < 1e-9);
    let steps: Vec<_> = decoded.series.hours().iter().map(|hour| hour.origin).collect();
    assert_eq!(steps.last(), Some(&Origin::Forecast { native_step: 6 }));
    assert_eq!(steps.iter().filter(|origin| **origin == Origin::Modelled).count(), 7);
}

/// The sun of another crate is the outside check that hours are not one off: it does not shine in
/// hours that end before sunrise or start after sunset, and does in those between.
#[test]
fn the_sun_shines_in_the_hours_it_is_up() {
    let rows = [
        (BAVARIA, (50.0, 10.0), "2026-03-02T00:00:00Z", "2026-03-03"),
        (STORM, (-37.75, 144.875), "2024-01-16T09:00:00Z", "2024-01-17"),
    ];
    for (body, (latitude, longitude), now, date) in rows {
        let decoded = decode(body, at(now)).expect("a recorded body");
        let place = sunrise::Coordinates::new(latitude, longitude).expect("a place");
        let day = sunrise::SolarDay::new(place, date.parse().expect("a date"));
        let rise = day.event_time(sunrise::SolarEvent::Sunrise).expect("a sunrise");
        let set = day.event_time(sunrise::SolarEvent::Sunset).expect("a sunset");
        // Half an hour of air: refraction, hills and the model's grid.
        let air = TimeDelta::minutes(30);
        let mut checked = 0;
        for hour in decoded.series.between(rise - TimeDelta::hours(4), set + TimeDelta::hours(4)) {
            let radiation = hour.radiation.expect("radiation").value();
            if hour.end() + air <= rise || hour.start >= set + air {
                assert_eq!(radiation, 0.0, "dark at {}", hour.start);
                checked += 1;
            } else if hour.start >= rise + air && hour.end() + air <= set {
                assert!(radiation > 0.0, "light at {}", hour.start);
                checked += 1;
            }
        }
        assert!(checked >= 14, "{date}: only {checked}");
    }
}

/// Of two nearly clear days the middle of the light falls on solar noon, halfway between sunrise and
/// sunset. Clouds move it by less than half an hour; labels read an hour early or late by a whole one.
#[test]
fn the_light_of_a_clear_day_lies_about_noon() {
    let decoded = decode(BAVARIA, at("2026-03-02T00:00:00Z")).expect("a recorded body");
    for date in ["2026-03-02", "2026-03-03"] {
        let place = sunrise::Coordinates::new(50.0, 10.0).expect("a place");
        let day = sunrise::SolarDay::new(place, date.parse().expect("a date"));
        let rise = day.event_time(sunrise::SolarEvent::Sunrise).expect("a sunrise");
        let set = day.event_time(sunrise::SolarEvent::Sunset).expect("a sunset");
        let noon = rise + (set - rise) / 2;
        let hours = decoded.series.between(noon - TimeDelta::hours(9), noon + TimeDelta::hours(9));
        let light = |hour: &Hour| hour.radiation.expect("radiation").value();
        let minutes = |hour: &Hour| (hour.start + TimeDelta::minutes(30) - noon).num_minutes() as f64;
        let middle = hours.iter().map(|hour| light(hour) * minutes(hour)).sum::<f64>()
            / hours.iter().map(light).sum::<f64>();
        assert!(middle.abs() < 30.0, "{date}: the middle of the light is {middle:.0} min from noon");
    }
}

/// The body holds a local hour that did not exist and one offset for all its rows; read by that offset, time
/// runs on evenly.
#[test]
fn a_clock_change_tears_no_hole() {
    let decoded = decode(CLOCK_CHANGE, at("2026-03-05T00:00:00Z")).expect("a recorded body");
    let hours = decoded.series.hours();
    assert_eq!(decoded.series.start(), Some(at("2026-03-04T04:00:00Z")));
    assert_eq!(hours.len(), 192);
    assert!(hours.iter().all(|hour| hour.origin != Origin::Unknown));
    // 32.0 °F at its end.
    assert_eq!(hours[0].temperature.map(|it| (it.value() * 1e6).round()), Some(0.0));
    assert!(hours.iter().all(|hour| hour.humidity.is_none()), "it was not asked for");
}

#[test]
fn a_copy_of_an_old_answer_is_not_taken_for_a_forecast() {
    let error = decode(WEEK, at("2025-05-17T06:00:00Z")).expect_err("an old copy").to_string();
    assert!(error.contains("it ends 2025-05-15 23:00 UTC"), "{error}");
    let error = decode(WEEK, at("2026-05-17T06:00:00Z")).expect_err("a very old copy").to_string();
    assert!(error.contains("of 168 times none is a whole UTC hour near the present"), "{error}");
}

#[test]
fn several_places_come_in_their_order() {
    let now = at("2025-06-16T00:00:00Z");
    let places = decode_all(TWO_PLACES, now).expect("a recorded body");
    let first = |place: &Decoded| place.series.hours()[0].temperature;
    assert_eq!(
        places.iter().map(first).collect::<Vec<_>>(),
        [Some(Celsius::new(25.3)), Some(Celsius::new(25.0))]
    );
    // 11.2 kn; 1 kn = 0.514444 m/s (BIPM SI brochure, table 8).
    let wind = places[0].series.hours()[0].wind.expect("a wind").value();
    assert!((wind - 11.2 * 0.514_444).abs() < 1e-4);
    assert!(decode(TWO_PLACES, now).is_err_and(|error| error.to_string().contains("2 places")));
}

#[test]
fn daily_minima_are_of_the_local_date() {
    let midnight = |date: &str, offset: i64| {
        date.parse::<NaiveDate>().expect("a date").and_time(NaiveTime::MIN).and_utc().timestamp() - offset
    };
    let offset = -18_000;
    let body = json!({
        "utc_offset_seconds": offset,
        "daily_units": { "time": "unixtime", "temperature_2m_min": "°C" },
        "daily": {
            "time": [midnight("1996-10-02", offset), midnight("1996-10-01", offset), midnight("1996-10-03", offset), midnight("1996-10-04", offset)],
            "temperature_2m_min": [4.5, "-1.2", null, -72.0e3],
        },
    });
    let minima = decode_minima(body.to_string().as_bytes()).expect("minima");
    let days: Vec<_> = minima.iter().map(|(date, minimum)| (date.to_string(), minimum.value())).collect();
    assert_eq!(days, [("1996-10-01".to_owned(), -1.2), ("1996-10-02".to_owned(), 4.5)]);

    // The recorded bodies' own daily rows: 16 of them from local midnights in Melbourne.
    let minima = decode_minima(STORM).expect("a recorded body");
    assert_eq!(minima.len(), 16);
    assert_eq!(minima[0].0.to_string(), "2024-01-16");
    assert!(decode_minima(BAVARIA).is_err_and(|error| error.to_string().contains("no `daily`")));
}

#[test]
fn places_are_found_or_not() {
    let recorded: Value = serde_json::from_slice(PLACES).expect("JSON");
    let answers: Vec<_> = recorded
        .as_object()
        .expect("answers")
        .values()
        .map(|answer| decode_places(answer.to_string().as_bytes()).expect("a recorded answer"))
        .collect();
    assert_eq!(answers.len(), 13);
    assert_eq!(answers.iter().filter(|places| places.is_empty()).count(), 4);
    let brisbane = answers.iter().flatten().find(|place| place.name == "Brisbane").expect("Brisbane");
    assert_eq!(brisbane.zone.as_deref(), Some("Australia/Brisbane"));
    assert_eq!(brisbane.region.as_deref(), Some("Queensland"));
    assert_eq!(Some(brisbane.position), Position::new(-27.467_94, 153.028_09));
    assert!(decode_places(b"{}").is_err());
    assert!(decode_places(br#"{"error":true,"reason":"Parameter count"}"#).is_err());
}

proptest! {
    #[test]
    fn decoding_never_panics(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        let now = at("2026-05-01T12:20:00Z");
        let _ = (decode_all(&bytes, now), decode_minima(&bytes), decode_places(&bytes));
    }

    #[test]
    fn a_damaged_body_is_read_or_refused(
        at_byte in 0usize..16_000,
        with in proptest::collection::vec(any::<u8>(), 0..6),
        cut in proptest::option::of(0usize..16_000),
    ) {
        let mut bytes = STORM.to_vec();
        bytes.truncate(cut.unwrap_or(usize::MAX));
        let place = at_byte.min(bytes.len());
        let end = (place + with.len()).min(bytes.len());
        bytes.splice(place..end, with);
        if let Ok(places) = decode_all(&bytes, at("2024-01-16T12:00:00Z")) {
            for hour in places.iter().flat_map(|place| place.series.hours()) {
                prop_assert!(hour.temperature.is_none_or(|it| it.is_finite()));
                prop_assert!(hour.rain.is_none_or(|it| it.value() >= 0.0));
            }
        }
        let _ = (decode_minima(&bytes), decode_places(&bytes));
    }
}
