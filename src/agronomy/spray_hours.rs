//! Hours in which spraying works and harms nobody: dry leaves, time to dry, a little wind, no inversion,
//! no heat.

mod windows;

pub use windows::{SprayWindow, Wish, preventive, windows};

use chrono::{DateTime, TimeDelta, Utc};

use super::evaporation::wind_at_two_metres;
use super::sun::{self, Daylight};
use super::wetness::{WETTING_RAIN, Walk, Wetness, WetnessRule};
use super::{air, cover::Protectant};
use crate::units::{Celsius, CelsiusDelta, Hours, MetresPerSecond, Millimetres, Position, Probability};
use crate::weather::Hour;

/// Limits of spray weather. The label's own figures stand above them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SprayLimits {
    /// Wind at the nozzle: calm air drifts unseen, wind carries. [AUS]; Australian labels 3 to 20 km/h,
    /// European practice 2 to 10.
    pub calmest: MetresPerSecond,
    pub windiest: MetresPerSecond,
    /// Delta T: below 2 drops hang about, above 10 they are gone before they land ([GRDC]).
    pub least_delta_t: CelsiusDelta,
    pub good_delta_t: CelsiusDelta,
    pub most_delta_t: CelsiusDelta,
    /// common practice.
    pub coldest: Celsius,
    /// Good up to here ([GRDC], 28 °C) ...
    pub warm: Celsius,
    /// ... and stopped here; common practice, and for sulfur the label.
    pub hottest: Celsius,
    /// Sulfur: the hottest of the day and the two after. common practice, 32 °C.
    pub sulfur_days_hottest: Celsius,
    /// Dry hours needed after spraying, and wanted ([ONT20]: rain within 2 h takes it all).
    pub drying_least: Hours,
    pub drying_wish: Hours,
    /// Inversions: from so long before sunset to so long after sunrise ([GRDC]).
    pub before_sunset: Hours,
    pub after_sunrise: Hours,
    /// A chance of rain that counts as rain when an amount is forecast with it. common practice.
    pub likely: Probability,
}

impl Default for SprayLimits {
    fn default() -> Self {
        Self {
            calmest: MetresPerSecond::new(0.8),
            windiest: MetresPerSecond::new(4.2),
            least_delta_t: CelsiusDelta::new(2.0),
            good_delta_t: CelsiusDelta::new(8.0),
            most_delta_t: CelsiusDelta::new(10.0),
            coldest: Celsius::new(5.0),
            warm: Celsius::new(28.0),
            hottest: Celsius::new(32.0),
            sulfur_days_hottest: Celsius::new(32.0),
            drying_least: Hours::new(2.0),
            drying_wish: Hours::new(12.0),
            before_sunset: Hours::new(2.0),
            after_sunrise: Hours::new(1.0),
            likely: Probability::saturating(0.6),
        }
    }
}

/// What keeps an hour from suiting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Obstacle {
    WeatherUnknown,
    Dark,
    Inversion,
    LeavesWet,
    DryingTooShort,
    RainComing,
    Calm,
    Wind,
    DryingConditions,
    Cold,
    Heat,
    SulfurHeat,
}

/// An hour judged. The first obstacle is the one to name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JudgedHour {
    pub start: DateTime<Utc>,
    pub obstacle: Option<Obstacle>,
    /// Dry hours after this one, as far as the forecast is known.
    pub dry_after: Hours,
    pub wind: Option<MetresPerSecond>,
    pub temperature: Option<Celsius>,
    /// Small faults of an hour that suits: warm, thirsty air, bees about.
    pub faults: u32,
}

/// Each hour from `now` on, judged for spraying at this place.
///
/// # Source
/// [GRDC], [AUS], [ONT20] for the limits; the order of obstacles is ours.
pub fn judged(
    hours: &[Hour],
    now: DateTime<Utc>,
    position: Position,
    protectant: Protectant,
    limits: &SprayLimits,
) -> Vec<JudgedHour> {
    let dry_after = dry_hours_after(hours, limits);
    let wet = super::wetness::wetness(hours, WetnessRule::default());
    let mut sky = Sky::new(position);
    (0..hours.len())
        .filter(|index| hours[*index].end() > now)
        .map(|index| {
            let hour = &hours[index];
            let daylight = sky.daylight(hour.start);
            let wind = hour.wind.map(wind_at_two_metres);
            let obstacle = daylight_obstacle(hour, daylight, limits)
                .or_else(|| wetness_obstacle(hours, index, wet[index], dry_after[index], limits))
                .or_else(|| air_obstacle(hour, wind, limits))
                .or_else(|| heat_obstacle(hours, index, protectant, limits));
            JudgedHour {
                start: hour.start,
                obstacle,
                dry_after: dry_after[index],
                wind,
                temperature: hour.temperature,
                // Of an hour that does not suit nobody asks.
                faults: obstacle.map_or_else(|| faults(hour, dry_after[index], daylight, limits), |_| 0),
            }
        })
        .collect()
}

/// Sunrise and sunset, asked for once a day.
struct Sky {
    position: Position,
    known: Option<(chrono::NaiveDate, Option<Daylight>)>,
}

impl Sky {
    fn new(position: Position) -> Self {
        Self { position, known: None }
    }

    fn daylight(&mut self, moment: DateTime<Utc>) -> Option<Daylight> {
        // The solar date of the place: its longitude moves the day by up to twelve hours.
        let offset = TimeDelta::minutes((self.position.longitude.value() * 4.0) as i64);
        let date = (moment + offset).date_naive();
        match self.known {
            Some((known, daylight)) if known == date => daylight,
            _ => {
                let daylight = sun::daylight(date, self.position);
                self.known = Some((date, daylight));
                daylight
            }
        }
    }
}

fn daylight_obstacle(hour: &Hour, daylight: Option<Daylight>, limits: &SprayLimits) -> Option<Obstacle> {
    let day = daylight?;
    if hour.start < day.sunrise || hour.end() > day.sunset {
        return Some(Obstacle::Dark);
    }
    let from = day.sunrise + limits.after_sunrise.to_duration();
    let to = day.sunset - limits.before_sunset.to_duration();
    (hour.start < from || hour.end() > to).then_some(Obstacle::Inversion)
}

fn wetness_obstacle(
    hours: &[Hour],
    index: usize,
    wet: Wetness,
    dry_after: Hours,
    limits: &SprayLimits,
) -> Option<Obstacle> {
    match wet {
        Wetness::Wet => return Some(Obstacle::LeavesWet),
        Wetness::Unknown => return Some(Obstacle::WeatherUnknown),
        Wetness::Dry => {}
    }
    let ahead = &hours[index + 1..hours.len().min(index + 1 + limits.drying_least.value().ceil() as usize)];
    if ahead.iter().any(|hour| is_rainy(hour, limits)) {
        return Some(Obstacle::RainComing);
    }
    (dry_after < limits.drying_least).then_some(Obstacle::DryingTooShort)
}

fn air_obstacle(hour: &Hour, wind: Option<MetresPerSecond>, limits: &SprayLimits) -> Option<Obstacle> {
    let (Some(wind), Some(temperature), Some(humidity)) = (wind, hour.temperature, hour.humidity) else {
        return Some(Obstacle::WeatherUnknown);
    };
    let delta_t = air::delta_t(temperature, humidity);
    match () {
        () if wind < limits.calmest => Some(Obstacle::Calm),
        () if wind > limits.windiest => Some(Obstacle::Wind),
        () if temperature < limits.coldest => Some(Obstacle::Cold),
        () if temperature > limits.hottest => Some(Obstacle::Heat),
        () => match delta_t {
            Some(delta_t) if delta_t < limits.least_delta_t || delta_t > limits.most_delta_t => {
                Some(Obstacle::DryingConditions)
            }
            Some(_) => None,
            None => Some(Obstacle::WeatherUnknown),
        },
    }
}

fn heat_obstacle(
    hours: &[Hour],
    index: usize,
    protectant: Protectant,
    limits: &SprayLimits,
) -> Option<Obstacle> {
    if protectant != Protectant::Sulfur {
        return None;
    }
    const HEAT_REACH: usize = 72;
    let ahead = &hours[index..hours.len().min(index + HEAT_REACH)];
    let hottest = ahead.iter().filter_map(|hour| hour.temperature).reduce(Celsius::max)?;
    (hottest > limits.sulfur_days_hottest).then_some(Obstacle::SulfurHeat)
}

/// Rain by amount, or by a high chance that comes with some.
fn is_rainy(hour: &Hour, limits: &SprayLimits) -> bool {
    let amount = hour.rain.unwrap_or(Millimetres::ZERO);
    let likely = hour.rain_probability.is_some_and(|chance| chance >= limits.likely);
    amount >= WETTING_RAIN || (likely && amount > Millimetres::ZERO)
}

/// For each hour, how many dry ones follow it without a break.
fn dry_hours_after(hours: &[Hour], limits: &SprayLimits) -> Vec<Hours> {
    let mut walk = Walk::new(WetnessRule::default());
    let wet: Vec<bool> =
        hours.iter().map(|hour| walk.step(hour) == Wetness::Wet || is_rainy(hour, limits)).collect();
    let mut after = vec![Hours::ZERO; hours.len()];
    let mut dry = 0u32;
    for index in (0..hours.len()).rev() {
        after[index] = Hours::new(f64::from(dry));
        dry = if wet[index] { 0 } else { dry + 1 };
    }
    after
}

fn faults(hour: &Hour, dry_after: Hours, daylight: Option<Daylight>, limits: &SprayLimits) -> u32 {
    let warm = hour.temperature.is_some_and(|temperature| temperature > limits.warm);
    let thirsty = hour
        .temperature
        .zip(hour.humidity)
        .and_then(|(temperature, humidity)| air::delta_t(temperature, humidity))
        .is_some_and(|delta_t| delta_t > limits.good_delta_t);
    let short = dry_after < limits.drying_wish;
    // Bees fly in the middle of the day: three hours either side of solar noon. common practice.
    let bees = daylight.is_some_and(|day| {
        let noon = day.sunrise + (day.sunset - day.sunrise) / 2;
        (hour.start - noon).abs() < TimeDelta::hours(3)
    });
    u32::from(warm) * 2 + u32::from(thirsty) + u32::from(short) * 2 + u32::from(bees)
}

#[cfg(test)]
mod tests;
