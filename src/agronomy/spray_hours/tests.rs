use super::*;
use crate::units::RelativeHumidity;
use crate::weather::{Origin, Series};
use chrono::TimeZone;

/// Two summer days at 40.7° N 74.2° W, sunrise 5:41 and sunset 20:25 (UTC-4), with a change from some hour.
fn series(change: impl Fn(u32, &mut Hour)) -> Series {
    let start = Utc.with_ymd_and_hms(2013, 7, 14, 4, 0, 0).single().expect("a time");
    Series::from_hours((0..72).map(|index| {
        let local = index % 24;
        let (temperature, humidity) = if (9..21).contains(&local) { (25.0, 60.0) } else { (20.0, 80.0) };
        let mut hour = Hour {
            temperature: Some(Celsius::new(temperature)),
            humidity: RelativeHumidity::from_percent(humidity),
            rain: Some(Millimetres::ZERO),
            wind: Some(MetresPerSecond::new(2.5)),
            origin: Origin::Forecast { native_step: 1 },
            ..Hour::unknown(start + TimeDelta::hours(index))
        };
        change(index as u32, &mut hour);
        hour
    }))
}

fn place() -> Position {
    Position::new(40.69, -74.17).expect("a place")
}

fn obstacle_at(local: usize, protectant: Protectant, change: impl Fn(u32, &mut Hour)) -> Option<Obstacle> {
    let series = series(change);
    let now = series.start().expect("a start");
    judged(series.hours(), now, place(), protectant, &SprayLimits::default())[local].obstacle
}

#[test]
fn each_obstacle_is_named() {
    let copper = Protectant::Copper;
    type Row = (usize, Option<Obstacle>, fn(u32, &mut Hour));
    let rows: [Row; 12] = [
        (10, None, |_, _| ()),
        (2, Some(Obstacle::Dark), |_, _| ()),
        (6, Some(Obstacle::Inversion), |_, _| ()),
        (19, Some(Obstacle::Inversion), |_, _| ()),
        (10, Some(Obstacle::LeavesWet), |index, hour| {
            if index == 10 {
                hour.humidity = RelativeHumidity::from_percent(93.0);
            }
        }),
        (10, Some(Obstacle::RainComing), |index, hour| {
            if index == 12 {
                hour.rain = Some(Millimetres::new(3.0));
            }
        }),
        (10, Some(Obstacle::DryingTooShort), |index, hour| {
            if index == 12 {
                hour.humidity = RelativeHumidity::from_percent(95.0);
            }
        }),
        (10, Some(Obstacle::Calm), |_, hour| hour.wind = Some(MetresPerSecond::new(0.5))),
        (10, Some(Obstacle::Wind), |_, hour| hour.wind = Some(MetresPerSecond::new(8.0))),
        (10, Some(Obstacle::Cold), |_, hour| hour.temperature = Some(Celsius::new(3.0))),
        (10, Some(Obstacle::Heat), |_, hour| hour.temperature = Some(Celsius::new(34.0))),
        (10, Some(Obstacle::WeatherUnknown), |_, hour| hour.wind = None),
    ];
    for (local, want, change) in rows {
        assert_eq!(obstacle_at(local, copper, change), want, "at {local}");
    }
}

#[test]
fn a_likely_shower_counts_though_its_amount_is_small() {
    let shower = |chance: f64| {
        move |index: u32, hour: &mut Hour| {
            if index == 12 {
                hour.rain = Some(Millimetres::new(0.1));
                hour.rain_probability = Probability::from_percent(chance);
            }
        }
    };
    assert_eq!(obstacle_at(10, Protectant::Copper, shower(80.0)), Some(Obstacle::RainComing));
    assert_eq!(obstacle_at(10, Protectant::Copper, shower(30.0)), None);
}

#[test]
fn sulfur_looks_two_days_ahead_for_heat() {
    let hot_later = |index: u32, hour: &mut Hour| {
        if index == 62 {
            hour.temperature = Some(Celsius::new(33.0));
        }
    };
    assert_eq!(obstacle_at(10, Protectant::Sulfur, hot_later), Some(Obstacle::SulfurHeat));
    assert_eq!(obstacle_at(10, Protectant::Copper, hot_later), None);
}

#[test]
fn windows_end_before_dusk_and_the_latest_good_one_comes_before_rain() {
    let rain_on_third_day = |index: u32, hour: &mut Hour| {
        if index >= 58 {
            hour.rain = Some(Millimetres::new(2.0));
        }
    };
    let series = series(rain_on_third_day);
    let now = series.start().expect("a start");
    let limits = SprayLimits::default();
    let all = windows(&judged(series.hours(), now, place(), Protectant::Copper, &limits));
    assert_eq!(all.len(), 2 + 1, "one each day, the last cut short by the rain: {all:?}");
    let event = now + TimeDelta::hours(58);
    let (best, second) = preventive(&all, Some(event), event, &limits);
    let day = |window: Option<SprayWindow>| window.map(|window| (window.from - now).num_days());
    // The second day: the third leaves too little time to dry before the rain.
    assert_eq!((day(best), day(second)), (Some(1), Some(0)));
}
