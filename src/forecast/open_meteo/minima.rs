use chrono::NaiveDate;

use super::wire::{Column, bodies};
use crate::forecast::quantity::Quantity;
use crate::forecast::{ForecastError, Problem, plausible};
use crate::units::Celsius;

pub(super) const VARIABLE: &str = "temperature_2m_min";

/// Reads the lowest temperature of each local calendar day, in order; days without one are left
/// out. A reanalysis smooths valley frost away, so the real night was often colder.
pub fn decode_minima(bytes: &[u8]) -> Result<Vec<(NaiveDate, Celsius)>, ForecastError> {
    let bodies = bodies(bytes)?;
    let [body] = bodies.as_slice() else {
        return Err(
            Problem::Form(format!("{} places came back where one was asked for", bodies.len())).into()
        );
    };
    let table = body.daily.as_ref().ok_or_else(|| Problem::Form("it has no `daily`".to_owned()))?;
    let Column::Values(values) = table.column(VARIABLE) else {
        return Err(Problem::Form(format!("it has no `{VARIABLE}` for each of its days")).into());
    };
    let unit = body.daily_units.get(VARIABLE).map_or("", String::as_str);
    let convert = Quantity::Temperature
        .reader(unit)
        .ok_or_else(|| Problem::Unit { variable: VARIABLE.to_owned(), found: unit.to_owned() })?;

    let mut minima: Vec<(NaiveDate, Celsius)> = table
        .time
        .iter()
        .zip(values)
        .filter_map(|(stamp, value)| {
            let minimum = plausible::temperature(convert((*value)?))?;
            Some((stamp.date(body.offset())?, minimum))
        })
        .collect();
    minima.sort_by_key(|(date, _)| *date);
    minima.dedup_by_key(|(date, _)| *date);
    if minima.is_empty() {
        return Err(Problem::Nothing("no day has a lowest temperature".to_owned()).into());
    }
    Ok(minima)
}
