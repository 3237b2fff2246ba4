use std::collections::HashMap;

use chrono::{DateTime, TimeDelta, Utc};
use serde::Deserialize;

use crate::forecast::json::{self, Scalar};
use crate::forecast::quantity::Quantity;
use crate::forecast::{Decoded, ForecastError, Problem, Source, horizon, interpolation};
use crate::units::Celsius;
use crate::weather::Hour;

#[derive(Deserialize)]
struct Body {
    properties: Properties,
}

#[derive(Deserialize)]
struct Properties {
    meta: Meta,
    timeseries: Vec<Step>,
}

#[derive(Deserialize)]
struct Meta {
    updated_at: Option<DateTime<Utc>>,
    units: HashMap<String, String>,
}

#[derive(Deserialize)]
struct Step {
    time: DateTime<Utc>,
    data: Data,
}

#[derive(Deserialize)]
struct Data {
    instant: Period,
    next_1_hours: Option<Period>,
    next_6_hours: Option<Period>,
}

#[derive(Deserialize)]
struct Period {
    /// Left out where there is nothing to say, as single values are.
    #[serde(default)]
    details: HashMap<String, Scalar>,
}

const AT_A_TIME: [(&str, Quantity); 6] = [
    ("air_temperature", Quantity::Temperature),
    ("relative_humidity", Quantity::Humidity),
    ("dew_point_temperature", Quantity::DewPoint),
    ("wind_speed", Quantity::Wind),
    ("wind_speed_of_gust", Quantity::Gust),
    ("cloud_area_fraction", Quantity::Cloud),
];
const RAIN: (&str, Quantity) = ("precipitation_amount", Quantity::Rain);
const RAIN_PROBABILITY: (&str, Quantity) = ("probability_of_precipitation", Quantity::RainProbability);
const LOWEST: (&str, Quantity) = ("air_temperature_min", Quantity::Temperature);

const LONG_STEP: u8 = 6;

/// Reads a forecast, `complete` or `compact`.
pub fn decode(bytes: &[u8], now: DateTime<Utc>) -> Result<Decoded, ForecastError> {
    let Body { properties } = json::parse(bytes)?;
    let reader = Reader { units: properties.meta.units };
    let mut steps: Vec<&Step> =
        properties.timeseries.iter().filter(|step| horizon::is_near(step.time, now)).collect();
    steps.sort_by_key(|step| step.time);
    steps.dedup_by_key(|step| step.time);

    let mut hours = Vec::new();
    for pair in steps.windows(2) {
        if let [step, next] = pair {
            hours.extend(reader.hours(step, next, now)?);
        }
    }
    let mut remarks = Vec::new();
    let left_out = properties.timeseries.len() - steps.len();
    if left_out > 0 {
        remarks.push(format!("{left_out} step(s) are repeated or no whole UTC hour near the present"));
    }
    Decoded::of(Source::MetNorway, hours, remarks)
        .renewed_at(properties.meta.updated_at, now)?
        .with_hours_to_come(now)
}

struct Reader {
    /// Of each variable, one for the whole body.
    units: HashMap<String, String>,
}

impl Reader {
    /// The hours of one step, as far as the next. A step that is neither hourly nor six-hourly
    /// says nothing of more than its first hour.
    fn hours(&self, step: &Step, next: &Step, now: DateTime<Utc>) -> Result<Vec<Hour>, ForecastError> {
        let gap = (next.time - step.time).num_hours();
        match (&step.data.next_1_hours, &step.data.next_6_hours) {
            (Some(period), _) => {
                let near = if gap == 1 { next } else { step };
                Ok(vec![self.hour(step, near, period, now)?])
            }
            (None, Some(period)) if gap == i64::from(LONG_STEP) => self.long_step(step, next, period, now),
            _ => Ok(Vec::new()),
        }
    }

    fn hour(
        &self,
        step: &Step,
        next: &Step,
        period: &Period,
        now: DateTime<Utc>,
    ) -> Result<Hour, ForecastError> {
        let (from, to) = (self.instants(step)?, self.instants(next)?);
        let mut hour = interpolation::instants(&from, &to, 0.5);
        hour.gust = [from.gust, to.gust].into_iter().flatten().reduce(|one, other| one.max(other));
        self.put(&mut hour, period, RAIN, 1.0)?;
        self.put(&mut hour, period, RAIN_PROBABILITY, 1.0)?;
        hour.origin = horizon::origin(hour.start, now, 1);
        Ok(hour)
    }

    /// Six hours on a straight line, their rain spread evenly, the coldest as cold as the step's
    /// minimum: a line would miss the frost before sunrise.
    fn long_step(
        &self,
        step: &Step,
        next: &Step,
        period: &Period,
        now: DateTime<Utc>,
    ) -> Result<Vec<Hour>, ForecastError> {
        let (from, to) = (self.instants(step)?, self.instants(next)?);
        let length = f64::from(LONG_STEP);
        let mut hours = Vec::new();
        for index in 0..LONG_STEP {
            let start = step.time + TimeDelta::hours(i64::from(index));
            let between = interpolation::instants(&from, &to, (f64::from(index) + 0.5) / length);
            let mut hour = Hour { start, origin: horizon::origin(start, now, LONG_STEP), ..between };
            self.put(&mut hour, period, RAIN, 1.0 / length)?;
            self.put(&mut hour, period, RAIN_PROBABILITY, 1.0)?;
            hours.push(hour);
        }
        let mut lowest = Hour::unknown(step.time);
        self.put(&mut lowest, period, LOWEST, 1.0)?;
        cool_to(&mut hours, lowest.temperature);
        Ok(hours)
    }

    /// What stands at a step.
    fn instants(&self, step: &Step) -> Result<Hour, ForecastError> {
        let mut hour = Hour::unknown(step.time);
        for variable in AT_A_TIME {
            self.put(&mut hour, &step.data.instant, variable, 1.0)?;
        }
        Ok(hour)
    }

    /// Puts a variable's share into its place. Without a value it stays unknown; a value without
    /// a unit we know refuses the body.
    fn put(
        &self,
        hour: &mut Hour,
        period: &Period,
        (name, quantity): (&str, Quantity),
        share: f64,
    ) -> Result<(), ForecastError> {
        let Some(value) = period.details.get(name).and_then(Scalar::number) else {
            return Ok(());
        };
        let unit = self.units.get(name).map_or("", String::as_str);
        let convert = quantity
            .reader(unit)
            .ok_or_else(|| Problem::Unit { variable: name.to_owned(), found: unit.to_owned() })?;
        quantity.set(hour, convert(value) * share);
        Ok(())
    }
}

fn cool_to(hours: &mut [Hour], lowest: Option<Celsius>) {
    let coldest = hours
        .iter_mut()
        .filter_map(|hour| hour.temperature.as_mut())
        .min_by(|one, other| one.total_cmp(other));
    if let (Some(coldest), Some(lowest)) = (coldest, lowest) {
        *coldest = coldest.min(lowest);
    }
}
