//! When the season ends, and whether tonight is the night.

use chrono::{DateTime, Datelike, NaiveDate, TimeDelta, Utc};

use super::Outlook;
use crate::agronomy::frost::{NightSky, night_risk};
use crate::season::answer::{FrostAdvice, FrostBasis, FrostNight, FrostRisk};
use crate::season::calendar::{local_date, midnight, season_of};
use crate::season::garden::{Tree, YearDay};
use crate::season::request::Cold;
use crate::units::{Celsius, Hemisphere};
use crate::weather::Hour;

/// The end of a season: its first frost.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrostDate {
    pub date: NaiveDate,
    /// The date by which one year in ten has had its frost; the grower's own date stands for itself.
    pub early: NaiveDate,
    pub basis: FrostBasis,
    /// Days from today, negative once past.
    pub days: i64,
}

/// A freeze that ends the season for the leaves: hard freeze, -2.2 °C (28 °F; US National Weather Service).
const ENDS_LEAVES: Celsius = Celsius::new(-2.2);

pub(super) fn date(outlook: &Outlook) -> Option<FrostDate> {
    let usual = usual(outlook)?;
    if let Some(night) = freeze_seen(outlook) {
        return Some(with_days(night, night, FrostBasis::Forecast, outlook.today));
    }
    // A freeze in the forecast comes before any climate.
    let ahead =
        nights(outlook).find(|night| night.risk >= FrostRisk::Frost && usual.days < EARLIEST_BEFORE_USUAL);
    Some(match ahead {
        Some(night) => with_days(night.date, night.date, FrostBasis::Forecast, outlook.today),
        None => usual,
    })
}

/// A freeze so many days or more before the usual first one is one of spring.
const EARLIEST_BEFORE_USUAL: i64 = 90;

/// The first hard freeze on record since this season's midsummer.
fn freeze_seen(outlook: &Outlook) -> Option<NaiveDate> {
    let midsummer = outlook.season_start() + TimeDelta::days(205);
    if outlook.now < midsummer {
        return None;
    }
    outlook
        .weather
        .between(midsummer, outlook.now)
        .iter()
        .find(|hour| hour.temperature.is_some_and(|temperature| temperature <= ENDS_LEAVES))
        .map(|hour| local_date(hour.start, outlook.zone))
}

fn usual(outlook: &Outlook) -> Option<FrostDate> {
    let facts = outlook.facts;
    let in_season = |day: YearDay| day_in_season(day, outlook);
    if let Some(own) = facts.garden.first_frost {
        let date = in_season(own)?;
        return Some(with_days(date, date, FrostBasis::Own, outlook.today));
    }
    let normals = facts.normals?;
    let date = in_season(normals.first_median?)?;
    let early = normals.first_early.and_then(in_season).unwrap_or(date);
    Some(with_days(date, early, FrostBasis::Normals, outlook.today))
}

/// A day of the year within the season that runs now: a southern season runs from July to June.
fn day_in_season(day: YearDay, outlook: &Outlook) -> Option<NaiveDate> {
    let hemisphere = outlook.facts.garden.hemisphere();
    let season = season_of(outlook.today, hemisphere);
    match hemisphere {
        Hemisphere::North => day.in_year(season),
        Hemisphere::South => day.in_year(if day.month >= 7 { season } else { season + 1 }),
    }
}

fn with_days(date: NaiveDate, early: NaiveDate, basis: FrostBasis, today: NaiveDate) -> FrostDate {
    FrostDate { date, early, basis, days: (date - today).num_days() }
}

/// The nights ahead, each from one local noon to the next.
fn nights<'o>(outlook: &'o Outlook<'_>) -> impl Iterator<Item = FrostNight> + 'o {
    let hours = outlook.weather.between(outlook.now, outlook.now + TimeDelta::days(10));
    let night_of = |hour: &Hour| local_date(hour.start - TimeDelta::hours(12), outlook.zone);
    let mut left = hours;
    let night_after_night = std::iter::from_fn(move || {
        // A night's end is reckoned once, not each hour's night.
        let date = night_of(left.first()?);
        let end = midnight(date + TimeDelta::days(1), outlook.zone) + TimeDelta::hours(12);
        let count = left.partition_point(|hour| hour.start < end).max(1);
        let (night, rest) = left.split_at(count);
        left = rest;
        Some((date, night))
    });
    night_after_night.filter_map(move |(date, night)| {
        let coldest = night.iter().filter(|hour| hour.temperature.is_some()).min_by(|one, next| {
            one.temperature.unwrap_or_default().total_cmp(&next.temperature.unwrap_or_default())
        })?;
        Some(FrostNight { date, minimum: coldest.temperature?, at: coldest.start, risk: risk(coldest) })
    })
}

fn risk(coldest: &Hour) -> FrostRisk {
    use crate::agronomy::frost::NightRisk;
    let sky = NightSky { cloud: coldest.cloud, wind: coldest.wind };
    match coldest.temperature.map(|minimum| night_risk(minimum, sky)) {
        Some(NightRisk::Hard) => FrostRisk::Hard,
        Some(NightRisk::Frost) => FrostRisk::Frost,
        Some(NightRisk::Possible) => FrostRisk::Possible,
        Some(NightRisk::None) | None => FrostRisk::None,
    }
}

impl Outlook<'_> {
    pub fn frost_advice(&self) -> FrostAdvice {
        self.frost_asked(Cold::Ahead)
    }

    pub fn frost_asked(&self, about: Cold) -> FrostAdvice {
        let nights: Vec<FrostNight> = nights(self).collect();
        let tonight_date = tonight(self.now, self);
        let next = nights.iter().find(|night| night.risk > FrostRisk::None).copied();
        let frost = self.frost();
        let (shelter, cover) = next.map_or_else(Default::default, |night| self.exposed(&night));
        let (housed, out) = self.whereabouts();
        let garden = &self.facts.garden;
        let last = garden.last_frost.or(self.facts.normals.and_then(|normals| normals.last_median));
        FrostAdvice {
            about,
            tonight: nights.iter().find(|night| night.date == tonight_date).copied(),
            next,
            coldest: nights.iter().copied().min_by(|one, other| one.minimum.total_cmp(&other.minimum)),
            days_to_frost: frost.map(|frost| frost.days),
            usual: usual(self).map(|usual| usual.date),
            early: usual(self).map(|usual| usual.early),
            last: last.and_then(|day| day.in_year(self.today.year())),
            basis: frost.map(|frost| frost.basis),
            shelter,
            cover,
            housed,
            out,
            age: self.age(),
        }
    }

    /// Trees a night's cold would harm: pots to move, and those in the ground to cover. A leafless tree
    /// stands far more than one in leaf.
    fn exposed(&self, night: &FrostNight) -> (Vec<String>, Vec<String>) {
        use crate::agronomy::frost::{POT_SHELTER, WOOD_IN_GROUND};
        let in_leaf = self.leaves_out();
        let wants = |potted: bool| match (in_leaf, potted) {
            (true, _) => night.risk >= FrostRisk::Possible,
            (false, true) => night.minimum <= POT_SHELTER,
            (false, false) => night.minimum <= WOOD_IN_GROUND,
        };
        let names = |potted: bool| {
            let trees = self.facts.garden.trees.iter().filter(|tree| tree.is_potted() == potted);
            trees.filter(|tree| !self.is_housed(tree)).map(|tree| tree.name.clone()).collect::<Vec<_>>()
        };
        (
            if wants(true) { names(true) } else { Vec::new() },
            if wants(false) { names(false) } else { Vec::new() },
        )
    }

    /// The trees indoors, and those that are not.
    pub fn whereabouts(&self) -> (Vec<String>, Vec<String>) {
        let (housed, out): (Vec<&Tree>, Vec<&Tree>) =
            self.facts.garden.trees.iter().partition(|tree| self.is_housed(tree));
        let names = |trees: Vec<&Tree>| trees.into_iter().map(|tree| tree.name.clone()).collect();
        (names(housed), names(out))
    }

    /// Whether a tree was taken indoors and not told to be out again. What stands in the ground is not.
    fn is_housed(&self, tree: &Tree) -> bool {
        let history = self.history.tree(&tree.name);
        tree.is_potted() && history.is_some_and(|history| history.housed_since(self.now).is_some())
    }

    /// The first night with frost from tonight on, within so many days.
    pub fn frost_within(&self, days: i64) -> Option<FrostNight> {
        let last = tonight(self.now, self) + TimeDelta::days(days);
        nights(self).find(|night| night.risk > FrostRisk::None && night.date < last)
    }
}

/// The date tonight begins on: before noon it is still the coming evening's.
fn tonight(now: DateTime<Utc>, outlook: &Outlook) -> NaiveDate {
    local_date(now, outlook.zone)
}
