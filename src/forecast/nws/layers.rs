use std::collections::{BTreeMap, HashMap};

use chrono::{DateTime, Utc};
use serde::Deserialize;

use super::interval::Interval;
use crate::forecast::json::{self, Scalar};
use crate::forecast::quantity::Quantity;
use crate::forecast::{Decoded, ForecastError, Problem, Source, horizon};
use crate::weather::Hour;

#[derive(Deserialize)]
struct Grid {
    properties: Properties,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Properties {
    update_time: Option<DateTime<Utc>>,
    #[serde(flatten)]
    layers: HashMap<String, Entry>,
}

/// The properties of a grid are layers and other things.
#[derive(Deserialize)]
#[serde(untagged)]
enum Entry {
    Layer(Layer),
    Other(serde::de::IgnoredAny),
}

#[derive(Deserialize)]
struct Layer {
    #[serde(default)]
    uom: String,
    values: Vec<Stretch>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Stretch {
    valid_time: String,
    value: Scalar,
}

const REPEATED: [(&str, Quantity); 7] = [
    ("temperature", Quantity::Temperature),
    ("relativeHumidity", Quantity::Humidity),
    ("dewpoint", Quantity::DewPoint),
    ("windSpeed", Quantity::Wind),
    ("windGust", Quantity::Gust),
    ("skyCover", Quantity::Cloud),
    ("probabilityOfPrecipitation", Quantity::RainProbability),
];
const RAIN: (&str, Quantity) = ("quantitativePrecipitation", Quantity::Rain);

/// The step the rain comes in, where the layer does not say.
const LONG_STEP: u8 = 6;

/// Reads a raw grid.
pub fn decode(bytes: &[u8], now: DateTime<Utc>) -> Result<Decoded, ForecastError> {
    let Grid { properties } = json::parse(bytes)?;
    let mut hours = Hours { now, by_start: BTreeMap::new(), remarks: Vec::new() };
    for (name, quantity) in REPEATED {
        for (interval, value) in hours.stretches(&properties.layers, name, quantity)? {
            for start in interval.starts() {
                hours.put(start, quantity, value);
            }
        }
    }
    let (name, quantity) = RAIN;
    for (interval, total) in hours.stretches(&properties.layers, name, quantity)? {
        // Nothing over six hours is nothing in each of them: only rain is blurred by its step.
        let step = if total == 0.0 { 1 } else { interval.hours };
        for start in interval.starts() {
            hours.put(start, quantity, total / f64::from(interval.hours));
            hours.set_step(start, step);
        }
    }
    let Hours { by_start, remarks, .. } = hours;
    Decoded::of(Source::NationalWeatherService, by_start.into_values(), remarks)
        .renewed_at(properties.update_time, now)?
        .with_hours_to_come(now)
}

struct Hours {
    now: DateTime<Utc>,
    by_start: BTreeMap<DateTime<Utc>, Hour>,
    remarks: Vec<String>,
}

impl Hours {
    /// The intervals of a layer and their values in our unit. One that cannot be read is left out;
    /// a unit that cannot refuses the body.
    fn stretches(
        &mut self,
        layers: &HashMap<String, Entry>,
        name: &str,
        quantity: Quantity,
    ) -> Result<Vec<(Interval, f64)>, ForecastError> {
        let Some(Entry::Layer(layer)) = layers.get(name).filter(|entry| entry.has_values()) else {
            self.remarks.push(format!("{name} is missing and counts as unknown"));
            return Ok(Vec::new());
        };
        let convert = quantity
            .reader(&layer.uom)
            .ok_or_else(|| Problem::Unit { variable: name.to_owned(), found: layer.uom.clone() })?;
        let read = |stretch: &Stretch| {
            let value = stretch.value.number()?;
            Some((Interval::read(&stretch.valid_time)?, convert(value)))
        };
        Ok(layer.values.iter().filter_map(read).collect())
    }

    fn put(&mut self, start: DateTime<Utc>, quantity: Quantity, value: f64) {
        if let Some(hour) = self.hour(start) {
            quantity.set(hour, value);
        }
    }

    fn set_step(&mut self, start: DateTime<Utc>, step: u8) {
        let origin = horizon::origin(start, self.now, step);
        if let Some(hour) = self.hour(start) {
            hour.origin = origin;
        }
    }

    /// An hour about whose rain nothing is said is as blurred as rain usually is.
    fn hour(&mut self, start: DateTime<Utc>) -> Option<&mut Hour> {
        if !horizon::is_near(start, self.now) {
            return None;
        }
        let origin = horizon::origin(start, self.now, LONG_STEP);
        Some(self.by_start.entry(start).or_insert(Hour { origin, ..Hour::unknown(start) }))
    }
}

impl Entry {
    fn has_values(&self) -> bool {
        matches!(self, Entry::Layer(layer) if !layer.values.is_empty())
    }
}
