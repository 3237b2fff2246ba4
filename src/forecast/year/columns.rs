use csv::StringRecord;

use super::{YearError, remark::Remarks, shortened};
use crate::forecast::plausible;
use crate::weather::Hour;

/// All the columns that mean something.
pub(super) const NAMES: [&str; 11] = [
    "time",
    "temperature_c",
    "humidity_percent",
    "dew_point_c",
    "rain_mm",
    "rain_probability_percent",
    "wind_ms",
    "gust_ms",
    "cloud_percent",
    "radiation_wm2",
    "evaporation_mm",
];

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
            if name == "time" {
                if time.replace(index).is_some() {
                    return Err(YearError::Twice { line, column: "time" });
                }
            } else if let Some(column) = Column::named(name) {
                if values.iter().any(|(_, other)| *other == column) {
                    return Err(YearError::Twice { line, column: column.name() });
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
    NAMES
        .into_iter()
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

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Column {
    Temperature,
    Humidity,
    DewPoint,
    Rain,
    RainProbability,
    Wind,
    Gust,
    Cloud,
    Radiation,
    Evaporation,
}

impl Column {
    const ALL: [Column; 10] = [
        Column::Temperature,
        Column::Humidity,
        Column::DewPoint,
        Column::Rain,
        Column::RainProbability,
        Column::Wind,
        Column::Gust,
        Column::Cloud,
        Column::Radiation,
        Column::Evaporation,
    ];

    pub(super) fn name(self) -> &'static str {
        match self {
            Column::Temperature => "temperature_c",
            Column::Humidity => "humidity_percent",
            Column::DewPoint => "dew_point_c",
            Column::Rain => "rain_mm",
            Column::RainProbability => "rain_probability_percent",
            Column::Wind => "wind_ms",
            Column::Gust => "gust_ms",
            Column::Cloud => "cloud_percent",
            Column::Radiation => "radiation_wm2",
            Column::Evaporation => "evaporation_mm",
        }
    }

    fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|column| column.name() == name)
    }

    /// Reads a value into its place in the hour.
    pub(super) fn set(self, hour: &mut Hour, text: &str) -> Value {
        if text.is_empty() || text.eq_ignore_ascii_case("na") {
            return Value::Empty;
        }
        let Ok(number) = text.parse::<f64>() else {
            return Value::Impossible;
        };
        let known = match self {
            Column::Temperature => keep(&mut hour.temperature, plausible::temperature(number)),
            Column::Humidity => keep(&mut hour.humidity, plausible::humidity(number)),
            Column::DewPoint => keep(&mut hour.dew_point, plausible::temperature(number)),
            Column::Rain => keep(&mut hour.rain, plausible::rain(number)),
            Column::RainProbability => keep(&mut hour.rain_probability, plausible::probability(number)),
            Column::Wind => keep(&mut hour.wind, plausible::wind(number)),
            Column::Gust => keep(&mut hour.gust, plausible::wind(number)),
            Column::Cloud => keep(&mut hour.cloud, plausible::cloud(number)),
            Column::Radiation => keep(&mut hour.radiation, plausible::radiation(number)),
            Column::Evaporation => keep(&mut hour.evaporation, plausible::evaporation(number)),
        };
        if known { Value::Known } else { Value::Impossible }
    }
}

fn keep<Quantity>(place: &mut Option<Quantity>, value: Option<Quantity>) -> bool {
    *place = value;
    place.is_some()
}
