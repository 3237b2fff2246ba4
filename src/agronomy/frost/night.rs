//! How much a night's cold threatens leaves.

use chrono::{DateTime, Utc};

use super::{FREEZE, GROUND_FROST, HARD_FREEZE};
use crate::units::{Celsius, Fraction, MetresPerSecond};
use crate::weather::Hour;

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NightRisk {
    None,
    /// Ground frost under a clear calm sky though the air at the screen stays above freezing.
    Possible,
    Frost,
    Hard,
}

/// The sky before the coldest hour, as far as known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NightSky {
    pub cloud: Option<Fraction>,
    /// At 10 m.
    pub wind: Option<MetresPerSecond>,
}

/// A night at its coldest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Night {
    pub minimum: Celsius,
    /// The hour it falls in.
    pub at: DateTime<Utc>,
    pub sky: NightSky,
    pub risk: NightRisk,
}

/// Cloud that holds a night's warmth, and wind that stirs it. common practice.
const HOLDS_WARMTH: f64 = 0.6;
const STIRS: f64 = 3.0;
/// Hours up to the coldest whose sky decides whether the ground cools below the air. common practice.
const COOLING_HOURS: usize = 3;

/// The risk of a night by its screen minimum and sky. What is unknown of the sky is taken as clear and calm.
///
/// # Source
/// [NWSJAN], [NWSRNK].
pub fn night_risk(minimum: Celsius, sky: NightSky) -> NightRisk {
    let clear = sky.cloud.is_none_or(|cloud| cloud.value() < HOLDS_WARMTH);
    let calm = sky.wind.is_none_or(|wind| wind.value() < STIRS);
    match minimum {
        minimum if minimum <= HARD_FREEZE => NightRisk::Hard,
        minimum if minimum <= FREEZE => NightRisk::Frost,
        minimum if minimum <= GROUND_FROST && clear && calm => NightRisk::Possible,
        _ => NightRisk::None,
    }
}

/// The coldest of a night's hours (in order) and its risk, by the sky of the hours leading up to it. `None`
/// where half the hours or more have no temperature.
///
/// # Source
/// [NWSJAN], [NWSRNK]; the hours looked at are common practice.
pub fn night(hours: &[Hour]) -> Option<Night> {
    let known = hours.iter().filter(|hour| hour.temperature.is_some()).count();
    if 2 * known <= hours.len() {
        return None;
    }
    let (index, minimum) = hours
        .iter()
        .enumerate()
        .filter_map(|(index, hour)| Some((index, hour.temperature?)))
        .min_by(|one, next| one.1.total_cmp(&next.1))?;
    let before = &hours[(index + 1).saturating_sub(COOLING_HOURS)..=index];
    let sky = NightSky {
        cloud: mean(before.iter().filter_map(|hour| hour.cloud).map(Fraction::value))
            .map(Fraction::saturating),
        wind: mean(before.iter().filter_map(|hour| hour.wind).map(MetresPerSecond::value))
            .map(MetresPerSecond::new),
    };
    Some(Night { minimum, at: hours[index].start, sky, risk: night_risk(minimum, sky) })
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, count) = values.fold((0.0, 0u32), |(sum, count), value| (sum + value, count + 1));
    (count > 0).then(|| sum / f64::from(count))
}
