use super::*;
use crate::agronomy::quantiles::biweight;
use crate::units::{DayOfYear, Days, Fraction, Hemisphere, Hours, MetresPerSecond};
use crate::weather::Hour;
use chrono::{Datelike, NaiveDate, TimeDelta, TimeZone, Utc};

fn share(percent: f64) -> Fraction {
    Fraction::from_percent(percent).expect("a share")
}

fn date(text: &str) -> NaiveDate {
    text.parse().expect("a date")
}

fn day(percentile: Option<Percentile>) -> f64 {
    match percentile {
        Some(Percentile::Day(day)) => day.value(),
        Some(Percentile::NoFreeze) => f64::INFINITY,
        None => f64::NAN,
    }
}

fn ten_autumns(seasons: usize) -> FreezeDates {
    let days = [288.0, 292.0, 295.0, 297.0, 299.0, 301.0, 303.0, 305.0, 310.0, 315.0];
    FreezeDates::of(FreezeSide::FirstOfFall, days.map(DayOfYear::new).to_vec(), seasons)
}

#[test]
fn published_percentiles_by_each_rule() {
    // Worked with numpy 2 (percentile, methods "linear" and "weibull") and scipy 1.17 (norm.ppf).
    let dates = ten_autumns(10);
    let (mean, deviation) = dates.moments().expect("moments");
    assert!((mean.value() - 300.5).abs() < 0.01 && (deviation.value() - 8.17).abs() < 0.01);
    let rows = [
        (Rule::Normal, [290.0, 300.5, 311.0]),
        (Rule::Linear, [291.6, 300.0, 310.5]),
        (Rule::Weibull, [288.4, 300.0, 314.5]),
    ];
    for (rule, wants) in rows {
        for (percent, want) in [10.0, 50.0, 90.0].into_iter().zip(wants) {
            let got = day(dates.percentile(share(percent), rule));
            assert!((got - want).abs() <= 0.1, "{rule:?} {percent} %: {got} is not {want}");
        }
    }
}

#[test]
fn published_percentiles_with_seasons_that_had_no_freeze() {
    // P(freeze by d) = q · Φ((d - mean) / sd) with q = 10/12, worked with scipy 1.17.
    let dates = ten_autumns(12);
    for (percent, want) in [(10.0, 290.9), (50.0, 302.6), (90.0, f64::INFINITY)] {
        let got = day(dates.percentile(share(percent), Rule::Normal));
        assert!((got - want).abs() <= 0.1 || got == want, "{percent} %: {got} is not {want}");
    }
    assert_eq!(dates.of_freezing_seasons(), ten_autumns(10));
}

#[test]
fn a_spring_without_freeze_counts_as_one_long_past() {
    // Of 20 springs 10 had a freeze: by any date half the springs are past theirs, and three quarters are by
    // the middle of those that had one.
    let days: Vec<DayOfYear> = (80..90).map(|day| DayOfYear::new(f64::from(day))).collect();
    let dates = FreezeDates::of(FreezeSide::LastOfSpring, days, 20);
    let rows = [(40.0, f64::INFINITY), (50.0, 80.0), (75.0, 84.5), (100.0, 89.0)];
    for (percent, want) in rows {
        assert_eq!(day(dates.percentile(share(percent), Rule::Linear)), want, "{percent} %");
    }
}

#[test]
fn few_seasons_are_no_climate() {
    let none = |seasons| FreezeDates::of(FreezeSide::FirstOfFall, vec![], seasons);
    assert_eq!(none(30).percentile(share(50.0), Rule::Linear), Some(Percentile::NoFreeze));
    assert_eq!(none(9).percentile(share(50.0), Rule::Linear), None);
    assert_eq!(none(30).moments(), None);
}

/// NOAA GHCN-Daily, Clemson, South Carolina (USC00381770); see tests/data/README.md.
fn clemson() -> Vec<(NaiveDate, Celsius)> {
    include_str!("../../../tests/data/clemson-daily-1930-2020.csv")
        .lines()
        .skip(1)
        .filter_map(|line| {
            let mut fields = line.split(',');
            let date = fields.next()?.parse().ok()?;
            Some((date, Celsius::from_fahrenheit(fields.next()?.parse().ok()?)))
        })
        .collect()
}

#[test]
fn a_july_of_minus_72_is_not_believed() {
    let minima = clemson();
    let july = date("1936-07-18");
    assert!(minima.iter().any(|(date, minimum)| *date == july && minimum.as_fahrenheit() < -72.0));
    let checked = DailyMinima::checked(minima);
    let rejected: Vec<(NaiveDate, Fault)> =
        checked.rejected().iter().map(|rejected| (rejected.date, rejected.fault)).collect();
    assert_eq!(rejected, [(july, Fault::Impossible)]);
}

#[test]
fn faults_of_a_record_are_found_and_named() {
    // A plain year and what a keeper of records might make of it.
    let start = date("2001-01-01");
    let sine = |day: i64| 10.0 - 12.0 * (day as f64 / 365.25 * std::f64::consts::TAU).cos();
    let plain = |days: i64| {
        (0..days).map(move |day| {
            let wobble = f64::from((day * 7919 % 11) as i32) * 0.4;
            (start + TimeDelta::days(day), Celsius::new(sine(day) + wobble))
        })
    };
    let july = |year: i32| NaiveDate::from_ymd_opt(year, 7, 10).expect("a date");
    let none: Vec<(NaiveDate, f64)> = vec![];
    let cases = [
        ("plain", 3650, none, vec![]),
        ("impossible", 3650, vec![(july(2003), -60.0)], vec![Fault::Impossible]),
        ("spike", 700, vec![(july(2001), -10.0)], vec![Fault::Spike]),
        (
            "two days at zero Fahrenheit are no spike, but not of July",
            3650,
            vec![(july(2003), -17.8), (july(2003) + TimeDelta::days(1), -17.8)],
            vec![Fault::Outlier; 2],
        ),
        ("in two years of record an outlier cannot be told", 700, vec![(july(2001), 5.0)], vec![]),
    ];
    for (what, days, faults, want) in cases {
        let minima = plain(days).map(|(date, minimum)| {
            let wrong = faults.iter().find(|fault| fault.0 == date).map(|fault| Celsius::new(fault.1));
            (date, wrong.unwrap_or(minimum))
        });
        let got: Vec<Fault> =
            DailyMinima::checked(minima).rejected().iter().map(|rejected| rejected.fault).collect();
        assert_eq!(got, want, "{what}");
    }
    let twice = [(start, Celsius::new(1.0)), (start, Celsius::new(1.0)), (start, Celsius::new(2.0))];
    assert_eq!(DailyMinima::checked(twice).rejected().len(), 2, "neither of two for one date is believed");
    assert_eq!(DailyMinima::checked([(start, Celsius::new(f64::NAN))]).days(), []);
}

/// Worked with astropy 8 (biweight_location and biweight_scale, c = 7.5).
#[test]
fn published_biweight() {
    let rows: [(&[f64], f64, f64); 2] = [
        (&[1.0, 2.0, 3.0, 4.0, 100.0], 2.544_961_143, 1.451_720_690),
        (&[5.1, 4.8, 6.2, 5.5, 7.9, 5.0, 5.2, -3.0, 6.1, 5.7], 5.493_231_754, 0.691_149_499),
    ];
    for (values, mean, deviation) in rows {
        let (got_mean, got_deviation) = biweight(values).expect("values");
        assert!((got_mean - mean).abs() < 1e-6, "{got_mean} is not {mean}");
        assert!((got_deviation - deviation).abs() < 1e-6, "{got_deviation} is not {deviation}");
    }
}

/// First and last freezes at Clemson, 1991 to 2020, from the same series with pandas and numpy's linear quantile:
/// half-years of at least 150 days (August to December) or 175 (January to June), only those with a freeze.
#[test]
fn published_dates_of_clemson() {
    let half_years = |months: std::ops::RangeInclusive<u32>, least: usize, rest: u32| {
        let full = |year: i32| {
            let of_half =
                |day: &&(NaiveDate, Celsius)| day.0.year() == year && months.contains(&day.0.month());
            clemson().iter().filter(of_half).count() >= least
        };
        let years: Vec<i32> = (1991..=2020).filter(|year| full(*year)).collect();
        let wanted = clemson().into_iter().filter(|(date, _)| {
            let month = date.month();
            years.contains(&date.year()) && (months.contains(&month) || month == rest)
        });
        DailyMinima::checked(wanted)
    };
    // July belongs to the spring that ends in it, for our own count of missing days.
    let (autumns, springs) = (half_years(8..=12, 150, 8), half_years(1..=6, 175, 7));
    let (fall, spring) = (FreezeSide::FirstOfFall, FreezeSide::LastOfSpring);
    // Once by the table's dates (whole days, most rounded, 27 February cut), once by the quantiles themselves.
    let rows = [
        (0.0, fall, 30, ["10-19", "11-04", "11-16"], [291.9, 307.5, 319.5]),
        (-2.2, fall, 30, ["11-03", "11-15", "12-02"], [307.0, 319.0, 336.3]),
        (-5.0, fall, 25, ["11-18", "12-08", "12-22"], [321.8, 342.0, 355.6]),
        (0.0, spring, 28, ["03-12", "03-30", "04-16"], [70.7, 89.0, 106.3]),
        (-2.2, spring, 28, ["02-27", "03-15", "03-31"], [58.7, 73.5, 90.2]),
        (-5.0, spring, 28, ["01-28", "02-15", "03-14"], [27.7, 46.5, 72.9]),
    ];
    for (threshold, side, seasons, wants, quantiles) in rows {
        let record = if side == fall { &autumns } else { &springs };
        let dates =
            record.freeze_dates(Celsius::new(threshold), side, Hemisphere::North).of_freezing_seasons();
        assert_eq!(dates.seasons(), seasons, "{threshold} °C {side:?}");
        for ((percent, want), quantile) in [10.0, 50.0, 90.0].into_iter().zip(wants).zip(quantiles) {
            let got = day(dates.percentile(share(percent), Rule::Linear));
            let printed = f64::from(date(&format!("2015-{want}")).ordinal());
            assert!(
                (got - printed).abs() <= 0.75,
                "{threshold} °C {side:?} {percent} %: {got} is not {want}"
            );
            assert!((got - quantile).abs() <= 0.051, "{threshold} °C {side:?} {percent} %: {got}");
        }
    }
}

/// A southern season is a northern one half a year later: 184 days from 24 July to 24 January.
#[test]
fn the_south_freezes_half_a_year_later() {
    let half = TimeDelta::days(184);
    let north = DailyMinima::checked(clemson());
    let south = DailyMinima::checked(clemson().into_iter().map(|(date, minimum)| (date + half, minimum)));
    let dates = |record: &DailyMinima, hemisphere| -> Vec<NaiveDate> {
        let seasons = record.freeze_seasons(FREEZE, FreezeSide::FirstOfFall, hemisphere);
        seasons.iter().filter_map(|season| season.freeze).collect()
    };
    let (northern, southern) = (dates(&north, Hemisphere::North), dates(&south, Hemisphere::South));
    assert!(northern.len() >= 80, "{}", northern.len());
    assert_eq!(southern, northern.iter().map(|date| *date + half).collect::<Vec<_>>());
    let percentile = |record: &DailyMinima, hemisphere| {
        day(record
            .freeze_dates(FREEZE, FreezeSide::FirstOfFall, hemisphere)
            .percentile(share(50.0), Rule::Linear))
    };
    let later = percentile(&north, Hemisphere::North) - percentile(&south, Hemisphere::South);
    assert!((later - 181.0).abs() <= 1.0, "{later}");
}

#[test]
fn a_gap_before_the_date_drops_the_season() {
    // From freezing on every date from November to March and none else; ten days gone in September.
    let start = date("2000-07-24");
    let year = (0..365).map(|day| start + TimeDelta::days(day)).map(|date| {
        let cold = date.month() >= 11 || date.month() <= 3;
        (date, Celsius::new(if cold { -1.0 } else { 12.0 }))
    });
    let seasons = |missing: i64, from: &str| {
        let (from, to) = (date(from), date(from) + TimeDelta::days(missing));
        let days = year.clone().filter(|(date, _)| !(from..to).contains(date));
        DailyMinima::checked(days).freeze_seasons(FREEZE, FreezeSide::FirstOfFall, Hemisphere::North)
    };
    let kept = vec![FreezeSeason { year: 2000, freeze: Some(date("2000-11-01")) }];
    assert_eq!(seasons(9, "2000-09-01"), kept);
    assert_eq!(seasons(10, "2000-09-01"), vec![]);
    assert_eq!(seasons(60, "2000-12-01"), kept, "days after the date do not matter");
}

#[test]
fn a_forecast_overrides_the_climate_as_far_as_it_reaches() {
    let usual = date("2013-11-04");
    let nights = |from: &str, minima: &[f64]| -> Vec<(NaiveDate, Celsius)> {
        let from = date(from);
        let days = minima.iter().enumerate();
        days.map(|(day, minimum)| (from + TimeDelta::days(day as i64), Celsius::new(*minimum))).collect()
    };
    let mild = [5.0; 16];
    let mut late_frost = mild;
    late_frost[12] = -3.0;
    let rows = [
        (nights("2013-10-20", &[4.0, -0.5, 3.0]), "2013-10-21", FreezeBasis::Forecast),
        (nights("2013-10-01", &mild), "2013-11-04", FreezeBasis::Climate),
        (nights("2013-10-30", &mild), "2013-11-09", FreezeBasis::NotBefore),
        (nights("2013-10-01", &late_frost), "2013-11-04", FreezeBasis::Climate),
        (vec![], "2013-11-04", FreezeBasis::Climate),
    ];
    for (nights, want, basis) in rows {
        let got = expected_freeze(usual, nights.clone(), FREEZE);
        assert_eq!(got, ExpectedFreeze { date: date(want), basis }, "{nights:?}");
    }
    assert_eq!(days_to(usual, date("2013-11-06")), Days::new(-2.0));
}

#[test]
fn a_night_is_graded_by_its_minimum_and_sky() {
    let clear = NightSky { cloud: Fraction::new(0.1), wind: Some(MetresPerSecond::new(1.0)) };
    let cloudy = NightSky { cloud: Fraction::new(0.9), ..clear };
    let windy = NightSky { wind: Some(MetresPerSecond::new(5.0)), ..clear };
    let rows = [
        (3.0, clear, NightRisk::None),
        (2.2, clear, NightRisk::Possible),
        (1.5, clear, NightRisk::Possible),
        (1.5, cloudy, NightRisk::None),
        (1.5, windy, NightRisk::None),
        (1.5, NightSky::default(), NightRisk::Possible),
        (-0.5, cloudy, NightRisk::Frost),
        (-3.0, windy, NightRisk::Hard),
    ];
    for (minimum, sky, want) in rows {
        assert_eq!(night_risk(Celsius::new(minimum), sky), want, "{minimum} °C {sky:?}");
    }
}

fn hours(temperatures: &[Option<f64>]) -> Vec<Hour> {
    let start = Utc.with_ymd_and_hms(2013, 10, 25, 22, 0, 0).single().expect("a time");
    let hour = |(index, temperature): (usize, &Option<f64>)| Hour {
        temperature: temperature.map(Celsius::new),
        cloud: Fraction::new(if index < 4 { 1.0 } else { 0.0 }),
        ..Hour::unknown(start + TimeDelta::hours(index as i64))
    };
    temperatures.iter().enumerate().map(hour).collect()
}

#[test]
fn a_night_is_read_from_its_hours() {
    let cooling = [Some(9.0), Some(7.0), Some(5.0), Some(4.0), None, Some(2.5), Some(1.0), Some(3.0)];
    let found = night(&hours(&cooling)).expect("a night");
    assert_eq!(
        (found.minimum, found.at.to_string().as_str()),
        (Celsius::new(1.0), "2013-10-26 04:00:00 UTC")
    );
    assert_eq!(found.risk, NightRisk::Possible, "the sky had cleared by then");
    assert_eq!(night(&hours(&cooling[..4])).map(|night| night.risk), Some(NightRisk::None));
    assert_eq!(night(&hours(&[Some(1.0), None])), None, "half unknown is unknown");
    assert_eq!(night(&[]), None);
}

#[test]
fn cold_harms_what_grows_first() {
    let rows = [
        (-0.5, [ColdHarm::None; 4]),
        (-2.0, [ColdHarm::Harmed, ColdHarm::None, ColdHarm::None, ColdHarm::None]),
        (-5.0, [ColdHarm::Lost, ColdHarm::Harmed, ColdHarm::Harmed, ColdHarm::None]),
        (-12.0, [ColdHarm::Lost, ColdHarm::Lost, ColdHarm::Lost, ColdHarm::Harmed]),
        (-16.0, [ColdHarm::Lost; 4]),
    ];
    for (minimum, wants) in rows {
        let tissues = [Tissue::NewGrowth, Tissue::SoftWood, Tissue::PotRoots, Tissue::HardWood];
        assert_eq!(tissues.map(|tissue| cold_harm(tissue, Celsius::new(minimum))), wants, "{minimum} °C");
    }
    // 10 °F and 5 °F (USDA Bulletin 87; Texas A&M AgriLife) lie within the span of grown wood.
    let wood = limits(Tissue::HardWood);
    for fahrenheit in [10.0, 5.0] {
        let limit = Celsius::from_fahrenheit(fahrenheit);
        assert!(wood.harmed >= limit && limit >= wood.lost - crate::units::CelsiusDelta::new(0.1));
    }
}

#[test]
fn chill_is_counted_and_unknown_where_gaps_decide() {
    let winter = |cold: usize, unknown: usize| {
        let hours = [vec![Some(3.0); cold], vec![Some(7.0); 50], vec![None; unknown]].concat();
        let chill = chill(&self::hours(&hours));
        assert_eq!(chill.had, Hours::new(cold as f64));
        chill_state(chill)
    };
    let rows = [
        (99, 0, ChillState::NotYet),
        (99, 1, ChillState::Unknown),
        (100, 0, ChillState::Perhaps),
        (100, 199, ChillState::Perhaps),
        (300, 500, ChillState::Enough),
    ];
    for (cold, unknown, want) in rows {
        assert_eq!(winter(cold, unknown), want, "{cold} h, {unknown} h unknown");
    }
}
