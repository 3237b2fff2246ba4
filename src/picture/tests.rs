use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use chrono_tz::America::New_York;
use proptest::prelude::*;
use tiny_skia::Pixmap;

use super::ink::{self, Ink};
use super::*;
use crate::season::answer::{Infection, InfectionGrade, Window};
use crate::season::charts::{ChartDay, ChartHour, LeafWetness};
use crate::season::garden::UnitSystem;
use crate::units::{Celsius, Fraction, Hours, Millimetres};

fn start() -> DateTime<Utc> {
    "2027-07-05T00:00:00-04:00".parse().expect("a moment")
}

fn after(hours: i64) -> DateTime<Utc> {
    start() + TimeDelta::hours(hours)
}

/// A week with rain in its 30th hour, wet leaves and a severe spell around it, and a window before.
fn a_week() -> WeekChart {
    let hours = (0..7 * 24).map(|hour| ChartHour {
        start: after(hour),
        temperature: Some(Celsius::new(20.0 + 6.0 * (hour as f64 * 0.26).sin())),
        rain: Some(Millimetres::new(if hour == 30 { 9.0 } else { 0.0 })),
        leaves: if (28..44).contains(&hour) { LeafWetness::Wet } else { LeafWetness::Dry },
    });
    let window = |from: i64| Window {
        from: after(from),
        to: after(from + 3),
        dry_after: Hours::new(20.0),
        wind: None,
        hottest: None,
    };
    WeekChart {
        garden: String::from("Quince Lane"),
        zone: New_York,
        units: UnitSystem::Us,
        now: after(7),
        hours: hours.collect(),
        nights: vec![(after(20), after(30))],
        infections: vec![Infection {
            from: after(28),
            to: after(44),
            wet_hours: Hours::new(16.0),
            mean_c: Celsius::new(20.0),
            grade: InfectionGrade::Severe,
        }],
        window: Some(window(15)),
        second: Some(window(100)),
        judged_until: after(7 + 120),
        frost: None,
        credit: Some(String::from("a station")),
    }
}

fn a_season() -> SeasonChart {
    let from = NaiveDate::from_ymd_opt(2027, 3, 16).expect("a date");
    let day = |offset: i64| from + TimeDelta::days(offset);
    SeasonChart {
        garden: String::from("Quince Lane"),
        units: UnitSystem::Metric,
        season: 2027,
        from,
        to: day(245),
        today: day(130),
        days: (0..=130)
            .map(|offset| ChartDay {
                date: day(offset),
                rain: Some(Millimetres::new(if offset == 70 { 40.0 } else { 0.0 })),
                cover: (offset >= 60).then(|| Fraction::saturating(1.0 - (offset - 60) as f64 / 80.0)),
            })
            .collect(),
        infections: vec![(day(72), InfectionGrade::Moderate)],
        sprays: vec![(day(60), String::from("copper")), (day(95), String::from("sulfur"))],
        rust: vec![(day(58), Fraction::NONE), (day(120), Fraction::saturating(0.15))],
        picked: vec![(day(125), 12)],
        frost: Some(day(234)),
        credit: None,
    }
}

fn decoded(png: &[u8]) -> Pixmap {
    Pixmap::decode_png(png).expect("a PNG")
}

/// How much of a box has one colour.
fn share(picture: &Pixmap, (left, top, right, bottom): (u32, u32, u32, u32), ink: Ink) -> f64 {
    let mut same = 0;
    for y in top..bottom {
        for x in left..right {
            let pixel = picture.pixel(x, y).expect("within the paper").demultiply();
            same += u32::from((pixel.red(), pixel.green(), pixel.blue()) == (ink.0, ink.1, ink.2));
        }
    }
    f64::from(same) / f64::from((right - left) * (bottom - top))
}

/// Where an hour of the week stands: seven days on 1008 points from 36 on are six points an hour.
fn x(hour: u32) -> u32 {
    36 + 6 * hour
}

#[test]
fn a_week_shows_each_thing_at_its_hour() {
    let picture = decoded(&week(&a_week()).expect("a picture"));
    assert_eq!((picture.width(), picture.height()), (1080, 1040));
    let severe = ink::rust(InfectionGrade::Severe);
    // The strips' heights as the week draws them: rain to 622, wet leaves 692 to 726, rust to 824, spray to 942.
    let rows = [
        ("rain in its hour", (x(30) + 1, 560, x(31) - 1, 620), ink::RAIN, 0.9),
        ("no rain after", (x(31) + 1, 560, x(50), 620), ink::RAIN, -0.01),
        ("wet leaves", (x(28) + 1, 694, x(44) - 1, 724), ink::WET, 0.9),
        ("dry leaves", (x(46), 694, x(160), 724), ink::WET, -0.01),
        ("a severe spell", (x(28) + 1, 792, x(44) - 1, 822), severe, 0.9),
        ("no spell", (x(46), 792, x(120), 822), severe, -0.01),
        ("the spray window", (x(15) + 1, 910, x(18) - 1, 940), ink::SPRAY, 0.9),
        ("the second choice", (x(100) + 1, 910, x(103) - 1, 940), ink::COVER, 0.9),
        ("the night", (x(20) + 1, 144, x(24) - 2, 180), ink::NIGHT, 0.9),
    ];
    for (what, area, ink, least) in rows {
        let share = share(&picture, area, ink);
        if least > 0.0 {
            assert!(share >= least, "{what}: {share}");
        } else {
            assert!(share == 0.0, "{what}: {share}");
        }
    }
}

#[test]
fn a_season_shows_each_thing_on_its_day() {
    let picture = decoded(&season(&a_season()).expect("a picture"));
    assert_eq!((picture.width(), picture.height()), (1080, 1180));
    // 245 days on 1008 points.
    let x = |day: f64| (36.0 + (day + 0.5) * 1008.0 / 245.0).round() as u32;
    let rows = [
        ("cover after the spray", (x(63.0), 395, x(90.0), 408), ink::COVER, true),
        ("no cover before it", (x(10.0), 395, x(58.0), 408), ink::COVER, false),
        (
            "a spell of rust weather",
            (x(72.0) - 1, 515, x(72.0) + 2, 558),
            ink::rust(InfectionGrade::Moderate),
            true,
        ),
        ("rain in its week", (x(71.0), 870, x(75.0), 950), ink::RAIN, true),
        ("no rain yet in fall", (x(150.0), 870, x(230.0), 950), ink::RAIN, false),
        ("figs picked", (x(125.0) - 2, 1050, x(125.0) + 2, 1110), ink::FIG, true),
    ];
    for (what, area, ink, is_there) in rows {
        let share = share(&picture, area, ink);
        assert!(if is_there { share > 0.6 } else { share == 0.0 }, "{what}: {share}");
    }
}

#[test]
fn letters_are_drawn_and_long_names_fit() {
    let named =
        |name: &str| decoded(&week(&WeekChart { garden: name.to_owned(), ..a_week() }).expect("a picture"));
    let title = (0, 20, 1080, 80);
    let dark = |picture: &Pixmap| share(picture, title, ink::TEXT);
    assert!(dark(&named("Quince Lane")) > 0.02);
    // Nothing of a long name touches the edge, and letters the font lacks are question marks.
    let long = named(&"Long Lane ".repeat(30));
    assert_eq!(share(&long, (1076, 20, 1080, 80), ink::PAPER), 1.0);
    assert_eq!(named("園").data(), named("?").data());
}

#[test]
fn without_weather_there_is_no_picture() {
    let blank = WeekChart { hours: Vec::new(), ..a_week() };
    assert_eq!(week(&blank), Err(PictureError::NothingToShow));
    let blank = SeasonChart { days: Vec::new(), ..a_season() };
    assert_eq!(season(&blank), Err(PictureError::NothingToShow));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(5))]

    /// Whatever a feed brings, there is a picture and no panic.
    #[test]
    fn odd_weather_is_drawn(
        values in prop::collection::vec((any::<f64>(), any::<f64>(), any::<bool>()), 1..60),
        name in any::<String>(),
    ) {
        let hours = values.iter().enumerate().map(|(hour, (degrees, rain, known))| ChartHour {
            start: after(3 * hour as i64),
            temperature: known.then(|| Celsius::new(*degrees)),
            rain: known.then(|| Millimetres::new(*rain)),
            leaves: LeafWetness::Unknown,
        });
        let chart = WeekChart { hours: hours.collect(), garden: name.clone(), ..a_week() };
        let drawn = week(&chart).is_ok();
        prop_assert!(drawn, "a week of {}", name);
        let days = values.iter().enumerate().map(|(day, (rain, cover, known))| ChartDay {
            date: a_season().from + TimeDelta::days(day as i64),
            rain: known.then(|| Millimetres::new(*rain)),
            cover: known.then(|| Fraction::saturating(*cover)),
        });
        let sprays = vec![(a_season().today, name)];
        let chart = SeasonChart { days: days.collect(), sprays, ..a_season() };
        let drawn = season(&chart).is_ok();
        prop_assert!(drawn, "a season");
    }
}
