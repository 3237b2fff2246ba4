//! Whether there are leaves to protect.

use chrono::{NaiveDate, TimeDelta};

use super::Outlook;
use crate::season::calendar::local_date;
use crate::season::journal::Stage;
use crate::units::{Celsius, DegreeDays};
use crate::weather::{self, Day};

/// Where no stage was reported, leaves are taken to be out after so much warmth above 10 °C since midwinter.
/// No heat sum to leaf-out is published for figs: common practice, and said when it matters.
const LEAF_OUT_HEAT: DegreeDays = DegreeDays::new(120.0);
const LEAF_OUT_BASE: Celsius = Celsius::new(10.0);
/// After midwinter leaves are surely out by this many days, warm spring or not. common practice.
const LEAF_OUT_LATEST: i64 = 150;

/// Whether the season's weather has brought the leaves out, and not yet frozen them off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Leaves {
    Out,
    NotYet,
    Over,
}

pub(super) fn by_weather(outlook: &Outlook) -> Leaves {
    if outlook.frost().is_some_and(|frost| frost.days <= 0 && freeze_is_past(outlook)) {
        return Leaves::Over;
    }
    let start = outlook.season_start();
    let days_in = (outlook.now - start).num_days();
    if days_in >= LEAF_OUT_LATEST {
        return Leaves::Out;
    }
    let heat: DegreeDays = weather::days(outlook.weather.between(start, outlook.now), &outlook.zone)
        .iter()
        .filter_map(heat_of)
        .sum();
    if heat >= LEAF_OUT_HEAT { Leaves::Out } else { Leaves::NotYet }
}

/// The day the leaves came out, of a season's days from its first on.
pub(super) fn opened_on(days: &[Day], first: NaiveDate) -> NaiveDate {
    let latest = first + TimeDelta::days(LEAF_OUT_LATEST);
    let mut heat = DegreeDays::ZERO;
    let warm = days.iter().find(|day| {
        heat += heat_of(day).unwrap_or(DegreeDays::ZERO);
        heat >= LEAF_OUT_HEAT
    });
    warm.map_or(latest, |day| day.date.min(latest))
}

fn heat_of(day: &Day) -> Option<DegreeDays> {
    let mean = f64::midpoint(day.minimum?.value(), day.maximum?.value());
    Some(DegreeDays::new((mean - LEAF_OUT_BASE.value()).max(0.0)))
}

fn freeze_is_past(outlook: &Outlook) -> bool {
    use crate::season::answer::FrostBasis;
    outlook.frost().is_some_and(|frost| match frost.basis {
        FrostBasis::Forecast => frost.date < local_date(outlook.now, outlook.zone),
        // Three weeks past the usual date leaves are of no more use, frost or not. common practice.
        FrostBasis::Own | FrostBasis::Normals => frost.days <= -21,
    })
}

impl Outlook<'_> {
    /// Whether a tree is in leaf: by its reported stage, else by the weather.
    pub(super) fn in_leaf(&self, stage: Option<Stage>) -> Leaves {
        let by_weather = *self.leaves_out.get_or_init(|| by_weather(self));
        match stage {
            Some(Stage::Dormant) => Leaves::NotYet,
            Some(Stage::LeafFall) => Leaves::Over,
            Some(_) if by_weather != Leaves::Over => Leaves::Out,
            _ => by_weather,
        }
    }

    /// Whether trees of this place are in leaf, by the weather alone.
    pub fn leaves_out(&self) -> bool {
        *self.leaves_out.get_or_init(|| by_weather(self)) == Leaves::Out
    }
}
