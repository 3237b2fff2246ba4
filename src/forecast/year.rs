//! A weather year in a file: one line an hour, comma separated.
//!
//! ```text
//! # Anything after a '#' at the start of a line is kept as the credit of the data.
//! time,temperature_c,humidity_percent,dew_point_c,rain_mm,wind_ms
//! 2013-07-01T14:00:00Z,27.2,64,19.8,0,3.1
//! 2013-07-01T15:00:00Z,27.8,,19.8,0.5,2.6
//! ```
//!
//! `time` is the START of the hour, RFC 3339 (UTC, or with its offset). Every other column may be
//! left out, in any order, and every value but the time may be empty: that is unknown, not zero.
//!
//! | column | meaning |
//! |---|---|
//! | `temperature_c` | mean air temperature at 2 m, °C |
//! | `humidity_percent` | mean relative humidity at 2 m |
//! | `dew_point_c` | °C |
//! | `rain_mm` | water that fell in the hour, snow as its water |
//! | `rain_probability_percent` | |
//! | `wind_ms`, `gust_ms` | at 10 m, metres a second |
//! | `cloud_percent` | part of the sky covered |
//! | `radiation_wm2` | mean short-wave radiation on the level |
//! | `evaporation_mm` | reference evapotranspiration of the hour (FAO-56 grass) |
//!
//! A fault of form (no time, wrong number of values) stops the reading with its line and what to
//! do. A value that cannot be (a wind of 468 m/s) becomes unknown and is remarked upon.

mod columns;
mod remark;

use chrono::{DateTime, TimeDelta, Timelike, Utc};
use csv::{ReaderBuilder, StringRecord, Trim};
use thiserror::Error;

use crate::weather::{Hour, Origin, Series};
use columns::{Columns, Value};
pub use remark::Remark;
use remark::Remarks;

/// The longest file that is read: a season assistant has no use for more, and one mistyped
/// year must not become a decade of unknown hours.
const LONGEST: TimeDelta = TimeDelta::days(10 * 366);

/// A year as read, and what the reader should know about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Loaded {
    pub series: Series,
    pub remarks: Vec<Remark>,
    /// The comment lines of the file, without their `#`: credit and licence travel with the data.
    pub credit: Vec<String>,
}

/// Why a file cannot be used. Lines count from 1.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum YearError {
    #[error("line {line} is not UTF-8 text; save the file as UTF-8 and try again")]
    NotText { line: usize },
    #[error(
        "there is no header line; the first line that is not a # comment must name the columns, as in {EXAMPLE}"
    )]
    NoHeader,
    #[error(
        "line {line}: the columns are separated by `{found}`; separate them with commas and write numbers with a decimal point"
    )]
    Separator { line: u64, found: char },
    #[error(
        "line {line}: the header has no column `time`; it must name the columns, comma separated, as in {EXAMPLE}"
    )]
    NoTime { line: u64 },
    #[error("line {line}: there is no column `{column}`; did you mean `{meant}`?")]
    Misspelt { line: u64, column: String, meant: &'static str },
    #[error("line {line}: the column `{column}` is there twice; leave one out")]
    Twice { line: u64, column: &'static str },
    #[error("line {line}: the header names no weather; known columns beside time are {}", columns::COLUMNS.map(|(name, _)| name).join(", "))]
    NoWeather { line: u64 },
    #[error(
        "line {line} has {found} values where the header has {expected}; is the line cut off, or a number written with a decimal comma?"
    )]
    Width { line: u64, found: usize, expected: usize },
    #[error(
        "line {line}: `{text}` is not a time; write the start of the hour in UTC, as in 2013-07-01T14:00:00Z"
    )]
    BadTime { line: u64, text: String },
    #[error(
        "line {line}: {text} is not a whole hour; each line is one hour and names its start, as in 2013-07-01T14:00:00Z"
    )]
    NotAnHour { line: u64, text: String },
    #[error(
        "line {line}: {time} is more than ten years from the other lines; correct its year or split the file"
    )]
    TooLong { line: u64, time: DateTime<Utc> },
    #[error("there is no hour in the file, only a header")]
    Empty,
    #[error("line {line} cannot be read: {reason}")]
    Form { line: u64, reason: String },
}

const EXAMPLE: &str = "time,temperature_c,humidity_percent,rain_mm";

/// Reads a weather year. Hours come out in order, with the missing ones present and unknown.
pub fn read(bytes: &[u8]) -> Result<Loaded, YearError> {
    let text = as_text(bytes)?;
    let mut reader = ReaderBuilder::new()
        .comment(Some(b'#'))
        .trim(Trim::All)
        .flexible(true)
        .has_headers(false)
        .from_reader(text.as_bytes());
    let mut records = reader.records();

    let header = records.next().ok_or(YearError::NoHeader)?.map_err(form)?;
    let mut remarks = Remarks::default();
    let columns = Columns::from_header(&header, line_of(&header, text), &mut remarks)?;

    let mut hours = Vec::new();
    for record in records {
        let record = record.map_err(form)?;
        let line = line_of(&record, text);
        hours.push((line, read_hour(&record, line, &columns, &mut remarks)?));
    }
    Ok(Loaded { series: in_order(hours, &mut remarks)?, remarks: remarks.into_list(), credit: credit(text) })
}

fn as_text(bytes: &[u8]) -> Result<&str, YearError> {
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    std::str::from_utf8(bytes).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
        YearError::NotText { line: 1 + good.iter().filter(|&&byte| byte == b'\n').count() }
    })
}

fn credit(text: &str) -> Vec<String> {
    text.lines().filter_map(|line| line.strip_prefix('#')).map(|line| line.trim().to_owned()).collect()
}

fn read_hour(
    record: &StringRecord,
    line: u64,
    columns: &Columns,
    remarks: &mut Remarks,
) -> Result<Hour, YearError> {
    if record.len() != columns.width() {
        return Err(YearError::Width { line, found: record.len(), expected: columns.width() });
    }
    let start = read_time(record.get(columns.time()).unwrap_or_default(), line)?;
    let mut hour = Hour { origin: Origin::Observed, ..Hour::unknown(start) };
    for (index, column) in columns.values() {
        let text = record.get(index).unwrap_or_default();
        match column.set(&mut hour, text) {
            Value::Known | Value::Empty => {}
            Value::Impossible => remarks.impossible(column.name, line, text),
        }
    }
    Ok(hour)
}

fn read_time(text: &str, line: u64) -> Result<DateTime<Utc>, YearError> {
    let time = DateTime::parse_from_rfc3339(text)
        .map_err(|_| YearError::BadTime { line, text: shortened(text) })?
        .with_timezone(&Utc);
    if time.minute() != 0 || time.second() != 0 || time.nanosecond() != 0 {
        return Err(YearError::NotAnHour { line, text: shortened(text) });
    }
    Ok(time)
}

/// Of two lines for one hour the later wins, as in [`Series::from_hours`].
fn in_order(mut hours: Vec<(u64, Hour)>, remarks: &mut Remarks) -> Result<Series, YearError> {
    let (_, first) = *hours.first().ok_or(YearError::Empty)?;
    if let Some((line, hour)) = hours.iter().find(|(_, hour)| (hour.start - first.start).abs() > LONGEST) {
        return Err(YearError::TooLong { line: *line, time: hour.start });
    }
    hours.sort_by_key(|(_, hour)| hour.start);
    for pair in hours.windows(2) {
        if let [(_, one), (line, two)] = pair {
            remarks.step(*line, one.start, two.start);
        }
    }
    Ok(Series::from_hours(hours.into_iter().map(|(_, hour)| hour)))
}

/// The line a record is on. The reader's own position is that of the comments and empty lines before it.
fn line_of(record: &StringRecord, text: &str) -> u64 {
    let Some(position) = record.position() else {
        return 0;
    };
    let rest = usize::try_from(position.byte()).ok().and_then(|start| text.get(start..)).unwrap_or_default();
    let skipped = rest.lines().take_while(|line| line.trim().is_empty() || line.starts_with('#')).count();
    position.line() + skipped as u64
}

fn form(error: csv::Error) -> YearError {
    YearError::Form { line: error.position().map_or(0, csv::Position::line), reason: error.to_string() }
}

/// Enough of a wrong text to find it by.
fn shortened(text: &str) -> String {
    const ENOUGH: usize = 40;
    match text.char_indices().nth(ENOUGH) {
        Some((end, _)) => format!("{}...", &text[..end]),
        None => text.to_owned(),
    }
}

#[cfg(test)]
mod tests;
