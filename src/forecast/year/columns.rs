use csv::StringRecord;

use super::{YearError, remark::Remarks, shortened};
use crate::forecast::quantity::Quantity;
use crate::weather::Hour;

/// The columns beside `time` that mean something.
pub(super) const COLUMNS: [(&str, Quantity); 10] = [
    ("temperature_c", Quantity::Temperature),
    ("humidity_percent", Quantity::Humidity),
    ("dew_point_c", Quantity::DewPoint),
    ("rain_mm", Quantity::Rain),
    ("rain_probability_percent", Quantity::RainProbability),
    ("wind_ms", Quantity::Wind),
    ("gust_ms", Quantity::Gust),
    ("cloud_percent", Quantity::Cloud),
    ("radiation_wm2", Quantity::Radiation),
    ("evaporation_mm", Quantity::Evaporation),
];

pub(super) const TIME: &str = "time";

/// From here on a wrong name is more likely a slip of the pen than another quantity.
const ALIKE: f64 = 0.8;

/// Where in a line each value stands.
pub(super) struct Columns {
    time: usize,
    values: Vec<(usize, Column)>,
    width: usize,
}

impl Columns {
    pub(super) fn from_header(
        header: &StringRecord,
        line: u64,
        remarks: &mut Remarks,
    ) -> Result<Self, YearError> {
        if let (Some(only), 1) = (header.get(0), header.len())
            && let Some(found) = only.chars().find(|letter| matches!(letter, ';' | '\t'))
        {
            return Err(YearError::Separator { line, found });
        }
        let mut time = None;
        let mut values: Vec<(usize, Column)> = Vec::new();
        for (index, name) in header.iter().enumerate() {
            if name == TIME {
                if time.replace(index).is_some() {
                    return Err(YearError::Twice { line, column: TIME });
                }
            } else if let Some(column) = Column::named(name) {
                if values.iter().any(|(_, other)| *other == column) {
                    return Err(YearError::Twice { line, column: column.name });
                }
                values.push((index, column));
            } else if let Some(meant) = meant_by(name) {
                return Err(YearError::Misspelt { line, column: shortened(name), meant });
            } else {
                remarks.unused(line, name);
            }
        }
        let time = time.ok_or(YearError::NoTime { line })?;
        if values.is_empty() {
            return Err(YearError::NoWeather { line });
        }
        Ok(Self { time, values, width: header.len() })
    }

    pub(super) fn time(&self) -> usize {
        self.time
    }

    pub(super) fn values(&self) -> impl Iterator<Item = (usize, Column)> {
        self.values.iter().copied()
    }

    pub(super) fn width(&self) -> usize {
        self.width
    }
}

fn meant_by(name: &str) -> Option<&'static str> {
    let name = name.to_lowercase();
    let known = COLUMNS.into_iter().map(|(known, _)| known).chain([TIME]);
    known
        .map(|known| (known, strsim::jaro_winkler(known, &name)))
        .filter(|(_, likeness)| *likeness >= ALIKE)
        .max_by(|(_, one), (_, two)| one.total_cmp(two))
        .map(|(known, _)| known)
}

/// What became of a written value.
pub(super) enum Value {
    Known,
    Empty,
    Impossible,
}

/// A column of the header.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Column {
    pub(super) name: &'static str,
    quantity: Quantity,
}

impl Column {
    fn named(name: &str) -> Option<Self> {
        let column = COLUMNS.into_iter().find(|(known, _)| *known == name);
        column.map(|(name, quantity)| Self { name, quantity })
    }

    /// Reads a value into its place in the hour.
    pub(super) fn set(self, hour: &mut Hour, text: &str) -> Value {
        if text.is_empty() || text.eq_ignore_ascii_case("na") {
            return Value::Empty;
        }
        match text.parse() {
            Ok(number) if self.quantity.set(hour, number) => Value::Known,
            _ => Value::Impossible,
        }
    }
}
