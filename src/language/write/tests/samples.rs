//! An answer of every kind, with figures as a season brings them.

mod advice;
mod settled;
mod told;

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use super::at;
use crate::season::answer::*;
use crate::season::garden::*;
use crate::season::request::Cold;
use crate::units::*;

pub(super) fn all() -> Vec<(&'static str, Vec<Answer>)> {
    let mut samples = advice::all();
    samples.extend(told::all());
    samples.extend(settled::all());
    samples
}

fn date(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2027, month, day).expect("a date")
}

fn part(percent: f64) -> Fraction {
    Fraction::from_percent(percent).expect("a part")
}

fn words(list: &[&str]) -> Vec<String> {
    list.iter().map(|word| (*word).to_owned()).collect()
}

fn fresh() -> DataAge {
    DataAge {
        fetched: Some(at("2027-07-05T04:30:00-04:00")),
        hours: Some(Hours::new(2.2)),
        freshness: Freshness::Fresh,
        credit: Some(String::from("Open-Meteo.com")),
    }
}

fn old() -> DataAge {
    DataAge {
        fetched: Some(at("2027-07-04T12:00:00-04:00")),
        hours: Some(Hours::new(18.7)),
        freshness: Freshness::Old,
        ..fresh()
    }
}

fn infection(from: &str, hours: i64, celsius: f64, grade: InfectionGrade) -> Infection {
    let from: DateTime<Utc> = at(from);
    Infection {
        from,
        to: from + TimeDelta::hours(hours),
        wet_hours: Hours::new(hours as f64),
        mean_c: Celsius::new(celsius),
        grade,
    }
}

fn wednesday_night() -> Infection {
    infection("2027-07-07T21:00:00-04:00", 11, 21.0, InfectionGrade::Severe)
}

fn window(from: &str, hours: i64) -> Window {
    let from: DateTime<Utc> = at(from);
    Window {
        from,
        to: from + TimeDelta::hours(hours),
        dry_after: Hours::new(27.0),
        wind: Some(MetresPerSecond::new(2.4)),
        hottest: Some(Celsius::new(28.0)),
    }
}

fn pot(name: &str, gallons: f64) -> Tree {
    Tree { width: Some(Metres::new(1.2)), ..Tree::new(name, Stand::pot(Some(Litres::from_gallons(gallons)))) }
}
