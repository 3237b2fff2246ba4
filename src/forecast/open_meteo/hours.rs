use std::collections::BTreeMap;

use chrono::{DateTime, TimeDelta, Utc};

use super::wire::{Body, Column, Table, bodies};
use crate::forecast::quantity::Quantity;
use crate::forecast::{Decoded, ForecastError, Problem, Source, horizon, interpolation};
use crate::weather::Hour;

/// What every forecast is asked for: exactly what an [`Hour`] can hold, and few enough to count as
/// one call.
pub(super) const VARIABLES: [(&str, Quantity); 10] = [
    ("temperature_2m", Quantity::Temperature),
    ("relative_humidity_2m", Quantity::Humidity),
    ("dew_point_2m", Quantity::DewPoint),
    ("precipitation", Quantity::Rain),
    ("precipitation_probability", Quantity::RainProbability),
    ("wind_speed_10m", Quantity::Wind),
    ("wind_gusts_10m", Quantity::Gust),
    ("cloud_cover", Quantity::Cloud),
    ("shortwave_radiation", Quantity::Radiation),
    ("et0_fao_evapotranspiration", Quantity::Evaporation),
];

/// Reads the forecast of one place. Hours already over at `now` are a model's account of the past,
/// later ones a forecast.
pub fn decode(bytes: &[u8], now: DateTime<Utc>) -> Result<Decoded, ForecastError> {
    let mut places = decode_all(bytes, now)?;
    match (places.pop(), places.len()) {
        (Some(only), 0) => only.with_hours_to_come(now),
        (None, _) => Err(Problem::Form("it holds no place at all".to_owned()).into()),
        (Some(_), others) => {
            Err(Problem::Form(format!("{} places came back where one was asked for", others + 1)).into())
        }
    }
}

/// Reads the forecasts of all places of a body, in their order.
pub fn decode_all(bytes: &[u8], now: DateTime<Utc>) -> Result<Vec<Decoded>, ForecastError> {
    bodies(bytes)?.iter().map(|body| decode_place(body, now)).collect()
}

fn decode_place(body: &Body, now: DateTime<Utc>) -> Result<Decoded, ForecastError> {
    let table = body.hourly.as_ref().ok_or_else(|| Problem::Form("it has no `hourly`".to_owned()))?;
    let mut remarks = Vec::new();
    let columns = read_columns(body, table, &mut remarks)?;
    let labels = read_labels(body, table, &columns, now, &mut remarks)?;
    let hours = labels.values().map(|label| hour_before(label, &labels, now));
    let decoded = Decoded::of(Source::OpenMeteo, hours, remarks);
    if decoded.series.is_empty() {
        return Err(Problem::Nothing("every value is missing".to_owned()).into());
    }
    Ok(decoded)
}

struct ReadColumn<'body> {
    quantity: Quantity,
    values: &'body [Option<f64>],
    convert: fn(f64) -> f64,
}

fn read_columns<'body>(
    body: &Body,
    table: &'body Table,
    remarks: &mut Vec<String>,
) -> Result<Vec<ReadColumn<'body>>, ForecastError> {
    let mut columns = Vec::new();
    for (name, quantity) in VARIABLES {
        match table.column(name) {
            Column::Values(values) => {
                let unit = body.hourly_units.get(name).map_or("", String::as_str);
                let convert = quantity
                    .reader(unit)
                    .ok_or_else(|| Problem::Unit { variable: name.to_owned(), found: unit.to_owned() })?;
                columns.push(ReadColumn { quantity, values, convert });
            }
            Column::Uneven => {
                remarks.push(format!("{name} is not as long as the list of times and counts as unknown"));
            }
            Column::Absent => remarks.push(format!("{name} is missing and counts as unknown")),
        }
    }
    Ok(columns)
}

/// What stands at each label, in order of time; of equals the last. `start` is the label itself here.
fn read_labels(
    body: &Body,
    table: &Table,
    columns: &[ReadColumn<'_>],
    now: DateTime<Utc>,
    remarks: &mut Vec<String>,
) -> Result<BTreeMap<DateTime<Utc>, Hour>, ForecastError> {
    let mut labels = BTreeMap::new();
    let (mut misplaced, mut repeated) = (0, 0);
    for (index, stamp) in table.time.iter().enumerate() {
        let Some(label) = stamp.moment(body.offset()).filter(|label| horizon::is_near(*label, now)) else {
            misplaced += 1;
            continue;
        };
        let mut hour = Hour::unknown(label);
        for column in columns {
            if let Some(&Some(value)) = column.values.get(index) {
                column.quantity.set(&mut hour, (column.convert)(value));
            }
        }
        if labels.insert(label, hour).is_some() {
            repeated += 1;
        }
    }
    if labels.is_empty() {
        let why = format!("of {} times none is a whole UTC hour near the present", table.time.len());
        return Err(Problem::Nothing(why).into());
    }
    if misplaced > 0 {
        remarks.push(format!("{misplaced} time(s) are no whole UTC hour near the present and were left out"));
    }
    if repeated > 0 {
        remarks.push(format!("{repeated} time(s) are there twice; the last was used"));
    }
    Ok(labels)
}

/// The hour that ends at a label: its sums stand there, its instants are the mean of those at both
/// ends, or the one there is.
fn hour_before(end: &Hour, labels: &BTreeMap<DateTime<Utc>, Hour>, now: DateTime<Utc>) -> Hour {
    let start = end.start - TimeDelta::hours(1);
    let begin = labels.get(&start).copied().unwrap_or(Hour::unknown(start));
    Hour {
        rain: end.rain,
        rain_probability: end.rain_probability,
        gust: end.gust,
        radiation: end.radiation,
        evaporation: end.evaporation,
        origin: horizon::origin(start, now, 1),
        ..interpolation::instants(&begin, end, 0.5)
    }
}
