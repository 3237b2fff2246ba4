//! The record of past hours, and the last good forecast.

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use leafhold::season::facts::FrostNormals;
use leafhold::season::garden::YearDay;
use leafhold::store::{Budget, Forecast, Store, cell_of};
use leafhold::units::{Celsius, Position};
use leafhold::weather::{Hour, Origin, Series};

use crate::samples::*;

const CELL: &str = "30.69,-88.04";
const CREDIT: &str = "Weather by example";

fn hour(offset: i64, celsius: f64, origin: Origin) -> Hour {
    let start = at(60 * offset);
    Hour { temperature: Some(Celsius::new(celsius)), origin, ..Hour::unknown(start) }
}

fn forecast(fetched: i64, hours: impl IntoIterator<Item = Hour>) -> Forecast {
    Forecast { series: Series::from_hours(hours), fetched: at(60 * fetched), credit: CREDIT.to_owned() }
}

fn run(hours: std::ops::Range<i64>, celsius: f64) -> impl Iterator<Item = Hour> {
    hours.map(move |offset| hour(offset, celsius, Origin::Forecast { native_step: 1 }))
}

/// Temperature and origin at an hour.
fn seen(store: &Store, offset: i64) -> (Option<f64>, Origin) {
    let (series, _) = store.weather(CELL).expect("read");
    let hour = *series.at(at(60 * offset)).expect("an hour");
    (hour.temperature.map(Celsius::value), hour.origin)
}

#[test]
fn past_hours_stay_when_forecasts_go() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    store.put_forecast(CELL, &forecast(0, run(-24..48, 20.0))).expect("kept");
    store.put_forecast(CELL, &forecast(30, run(20..70, 25.0))).expect("kept");
    let check = |store: &Store| {
        let rows = [
            // The first fetch's past; then the second's, which had seen it; then what lies ahead.
            (-24, Some(20.0), Origin::Modelled),
            (-1, Some(20.0), Origin::Modelled),
            (20, Some(25.0), Origin::Forecast { native_step: 1 }),
            (29, Some(25.0), Origin::Forecast { native_step: 1 }),
            (30, Some(25.0), Origin::Forecast { native_step: 1 }),
            (69, Some(25.0), Origin::Forecast { native_step: 1 }),
            // Ahead at the first fetch, not looked at by the second: no longer known, and said so.
            (10, None, Origin::Unknown),
        ];
        for (offset, celsius, origin) in rows {
            assert_eq!(seen(store, offset), (celsius, origin), "hour {offset}");
        }
        let (series, feed) = store.weather(CELL).expect("read");
        assert_eq!(feed.fetched, Some(at(60 * 30)));
        assert_eq!(feed.credit.as_deref(), Some(CREDIT));
        assert_eq!(series.end(), Some(at(60 * 70)));
    };
    check(&store);
    drop(store);
    check(&Store::open(folder.path()).expect("it opens again"));
}

#[test]
fn the_record_is_revised_for_three_days_and_then_stands() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    store.put_forecast(CELL, &forecast(0, run(-24..0, 20.0))).expect("kept");
    // Two days later the models know better; ten days later they may say what they like of those hours, but
    // fill in those that were missed.
    store.put_forecast(CELL, &forecast(48, run(-24..-12, 21.0))).expect("kept");
    store.put_forecast(CELL, &forecast(240, run(-30..-6, 99.0))).expect("kept");
    store.put_forecast(CELL, &forecast(241, run(241..250, 0.0))).expect("kept");
    let rows = [(-30, 99.0), (-25, 99.0), (-24, 21.0), (-13, 21.0), (-12, 20.0), (-1, 20.0)];
    for (offset, celsius) in rows {
        assert_eq!(seen(&store, offset), (Some(celsius), Origin::Modelled), "hour {offset}");
    }
}

#[test]
fn a_measurement_is_not_overwritten_by_a_model() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    store.put_forecast(CELL, &forecast(0, [hour(-2, 18.0, Origin::Observed)])).expect("kept");
    store.put_forecast(CELL, &forecast(1, run(-3..0, 22.0))).expect("kept");
    store.put_forecast(CELL, &forecast(2, run(2..3, 0.0))).expect("kept");
    assert_eq!(seen(&store, -2), (Some(18.0), Origin::Observed));
    assert_eq!(seen(&store, -3), (Some(22.0), Origin::Modelled));
}

#[test]
fn a_damaged_day_is_a_gap_and_is_not_overwritten() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    store.put_forecast(CELL, &forecast(0, run(-60..0, 20.0))).expect("kept");
    let text = export(&store);
    let day = r#"{"kind":"past","of":["30.69,-88.04","2013-07-09"],"#;
    let line = text.lines().find(|line| line.starts_with(day)).expect("the day");
    let damaged = format!("{day}\"text\":\"spoilt\",\"flaw\":\"x\"}}");
    let text = text.replace(line, &damaged);
    let other = folder.path().join("other");
    leafhold::store::Store::restore(&other, &mut text.as_bytes(), leafhold::store::Restore::IntoEmpty)
        .expect("restored");
    let store = Store::open(&other).expect("a store");
    store.put_forecast(CELL, &forecast(1, run(-60..-50, 21.0))).expect("kept");
    store.put_forecast(CELL, &forecast(2, run(-24..1, 21.0))).expect("kept");
    store.put_forecast(CELL, &forecast(2, run(2..3, 0.0))).expect("kept");
    assert_eq!(seen(&store, -60).0, Some(21.0));
    assert_eq!(seen(&store, -20), (None, Origin::Unknown), "9 July");
    assert_eq!(seen(&store, -1).0, Some(21.0));
    assert_eq!(store.flaws().expect("read").len(), 1);
    assert!(export(&store).contains("spoilt"));
}

#[test]
fn a_year_of_fetches_makes_a_years_record() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    // Every two days, each seeing three days back: the hours meet.
    for fetch in 0..180 {
        store
            .put_forecast(CELL, &forecast(48 * fetch, run(48 * fetch - 72..48 * fetch + 24, 20.0)))
            .expect("kept");
    }
    let (series, _) = store.weather(CELL).expect("read");
    assert_eq!(series.hours().len(), 48 * 179 + 72 + 24);
    assert!(series.hours().iter().all(|hour| hour.temperature.is_some()));
}

#[test]
fn the_oldest_hours_are_kept_and_not_read() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let old = -24 * 700;
    store.put_forecast(CELL, &forecast(old, run(old - 24..old, 20.0))).expect("kept");
    store.put_forecast(CELL, &forecast(0, run(-24..24, 20.0))).expect("kept");
    let (series, _) = store.weather(CELL).expect("read");
    assert_eq!(series.start(), Some(at(-24 * 60)));
    assert!(export(&store).contains("2011-08-"), "the record itself is whole");
}

#[test]
fn normals_and_budgets_come_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let normals = FrostNormals {
        first_early: YearDay::new(11, 5),
        first_median: YearDay::new(11, 20),
        first_late: YearDay::new(12, 10),
        last_median: None,
        years: 30,
    };
    let budget = Budget { day: NaiveDate::from_ymd_opt(2013, 7, 10).expect("a date"), spent: 1.5 };
    assert_eq!(store.normals(CELL).expect("read"), None);
    assert_eq!(store.budget("a service").expect("read"), None);
    store.put_normals(CELL, &normals).expect("kept");
    store.put_budget("a service", &budget).expect("kept");
    drop(store);
    let store = Store::open(folder.path()).expect("it opens again");
    assert_eq!(store.normals(CELL).expect("read"), Some(normals));
    assert_eq!(store.budget("a service").expect("read"), Some(budget));
    assert_eq!(store.weather(CELL).expect("read").0, Series::default());
}

#[test]
fn a_cell_has_one_name() {
    let rows = [
        ((30.694, -88.043), "30.69,-88.04"),
        ((30.685_001, -88.044_9), "30.69,-88.04"),
        ((-0.001, 0.004), "0.00,0.00"),
        ((0.001, -0.004), "0.00,0.00"),
        ((-33.87, 151.2), "-33.87,151.20"),
    ];
    for ((latitude, longitude), name) in rows {
        assert_eq!(cell_of(Position::new(latitude, longitude).expect("a place")), name);
    }
}

#[test]
fn hours_at_the_ends_of_the_calendar_do_no_harm() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let far = |start: DateTime<Utc>| Hour { origin: Origin::Modelled, ..Hour::unknown(start) };
    for start in
        [DateTime::<Utc>::MIN_UTC + TimeDelta::days(1), DateTime::<Utc>::MAX_UTC - TimeDelta::days(1)]
    {
        store.put_forecast(CELL, &forecast(0, [far(start)])).expect("kept");
        store.weather(CELL).expect("read");
    }
    assert_eq!(store.flaws().expect("read"), []);
}
