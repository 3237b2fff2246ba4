//! A garden: its place, its people, its trees and its sprays.

use chrono::{Datelike, NaiveDate, NaiveTime};
use chrono_tz::Tz;
use serde::Serialize;

use super::thresholds::Thresholds;
use crate::identity::{PersonId, RoomId};
use crate::units::{Celsius, Days, Fraction, Hemisphere, Hours, Litres, Metres, Position};

#[derive(Clone, Debug, PartialEq)]
pub struct Garden {
    pub name: String,
    /// Kept rounded to a hundredth of a degree.
    pub position: Option<Position>,
    /// What the grower calls the place.
    pub place: Option<String>,
    /// Found from the position.
    pub zone: Option<Tz>,
    pub units: UnitSystem,
    /// The grower's own dates; they beat any computed from the records of a station.
    pub first_frost: Option<YearDay>,
    pub last_frost: Option<YearDay>,
    /// Local time of the morning brief.
    pub morning: NaiveTime,
    pub quiet: Quiet,
    pub listening: Listening,
    /// Where briefs and alarms go; without one, to the keeper.
    pub room: Option<RoomId>,
    pub people: Vec<Person>,
    pub trees: Vec<Tree>,
    pub products: Vec<Product>,
    pub thresholds: Thresholds,
}

impl Garden {
    pub fn new(name: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            position: None,
            place: None,
            zone: None,
            units: UnitSystem::Metric,
            first_frost: None,
            last_frost: None,
            morning: DEFAULT_MORNING,
            quiet: Quiet::Speaking,
            listening: Listening::WhenAddressed,
            room: None,
            people: Vec::new(),
            trees: Vec::new(),
            products: Vec::new(),
            thresholds: Thresholds::default(),
        }
    }

    /// The garden's zone, or UTC while its place is unknown.
    pub fn zone(&self) -> Tz {
        self.zone.unwrap_or(Tz::UTC)
    }

    pub fn hemisphere(&self) -> Hemisphere {
        self.position.map_or(Hemisphere::North, Position::hemisphere)
    }

    pub fn tree(&self, name: &str) -> Option<&Tree> {
        self.trees.iter().find(|tree| same_name(&tree.name, name))
    }

    pub fn product(&self, name: &str) -> Option<&Product> {
        self.products.iter().find(|product| same_name(&product.name, name))
    }

    pub fn role(&self, person: &PersonId) -> Option<Role> {
        self.people.iter().find(|known| &known.id == person).map(|known| known.role)
    }
}

const DEFAULT_MORNING: NaiveTime = match NaiveTime::from_hms_opt(7, 0, 0) {
    Some(time) => time,
    None => NaiveTime::MIN,
};

/// Names are the same whatever their capitals.
pub fn same_name(one: &str, other: &str) -> bool {
    let (one, other) = (one.trim(), other.trim());
    // Most are typed once and kept: only letters beyond ASCII need new strings to be compared.
    if one.is_ascii() && other.is_ascii() {
        return one.eq_ignore_ascii_case(other);
    }
    one == other || one.to_lowercase() == other.to_lowercase()
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    #[default]
    Metric,
    Us,
}

/// A day of any year, such as a usual frost date.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct YearDay {
    pub month: u32,
    pub day: u32,
}

impl YearDay {
    /// `None` for a day no year has. 29 February is taken as the 28th.
    pub fn new(month: u32, day: u32) -> Option<Self> {
        NaiveDate::from_ymd_opt(2024, month, day)?;
        let day = if (month, day) == (2, 29) { 28 } else { day };
        Some(Self { month, day })
    }

    pub fn of(date: NaiveDate) -> Self {
        Self::new(date.month(), date.day()).unwrap_or(Self { month: 1, day: 1 })
    }

    pub fn in_year(self, year: i32) -> Option<NaiveDate> {
        NaiveDate::from_ymd_opt(year, self.month, self.day)
    }

    /// The first such day on or after a date.
    pub fn next(self, from: NaiveDate) -> Option<NaiveDate> {
        [from.year(), from.year() + 1]
            .into_iter()
            .filter_map(|year| self.in_year(year))
            .find(|date| *date >= from)
    }
}

/// Whether the garden is spoken to unasked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Quiet {
    Speaking,
    /// No briefs up to and including this date; alarms still come.
    Until(NaiveDate),
    UntilTold,
}

/// What the bot takes for itself in a room with several people.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Listening {
    WhenAddressed,
    ToEverything,
}

#[derive(Clone, Debug, PartialEq)]
pub struct Person {
    pub id: PersonId,
    pub name: String,
    pub role: Role,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// May change settings.
    Keeper,
    /// May report and ask.
    Helper,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tree {
    /// The nickname the grower uses.
    pub name: String,
    pub cultivar: Option<String>,
    pub stand: Stand,
    /// Mean diameter of the crown.
    #[serde(rename = "width_m")]
    pub width: Option<Metres>,
    pub bearing: Bearing,
    pub crop: CropTime,
    pub susceptibility: Susceptibility,
    /// Such as "pots" or "wall".
    pub groups: Vec<String>,
    pub planted: Option<NaiveDate>,
}

impl Tree {
    pub fn new(name: impl Into<String>, stand: Stand) -> Self {
        Self {
            name: name.into(),
            cultivar: None,
            stand,
            width: None,
            bearing: Bearing::Bearing,
            crop: CropTime::Middle,
            susceptibility: Susceptibility::Susceptible,
            groups: Vec::new(),
            planted: None,
        }
    }

    pub fn is_potted(&self) -> bool {
        matches!(self.stand, Stand::Pot { .. })
    }

    /// What its pot holds, if it stands in one and the size was told.
    pub fn pot_volume(&self) -> Option<Litres> {
        match self.stand {
            Stand::Pot { volume, .. } => volume,
            Stand::Ground { .. } => None,
        }
    }
}

#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stand {
    Pot {
        #[serde(rename = "litres")]
        volume: Option<Litres>,
        mix: Mix,
        shelter: Shelter,
        #[serde(rename = "mulch_m")]
        mulch: Option<Metres>,
        ground_below: Footing,
    },
    Ground {
        soil: Soil,
        #[serde(rename = "compost_m")]
        compost: Option<Metres>,
        #[serde(rename = "mulch_m")]
        mulch: Option<Metres>,
    },
}

impl Stand {
    pub fn pot(volume: Option<Litres>) -> Self {
        Stand::Pot {
            volume,
            mix: Mix::Ordinary,
            shelter: Shelter::Open,
            mulch: None,
            ground_below: Footing::Soft,
        }
    }

    pub fn ground() -> Self {
        Stand::Ground { soil: Soil::Loam, compost: None, mulch: None }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mix {
    CoarseBark,
    Ordinary,
    Peat,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Shelter {
    Open,
    /// Under a roof or eave: no rain reaches the pot or the leaves.
    FromRain,
}

/// What a pot stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Footing {
    Soft,
    HotPaving,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Soil {
    Sand,
    SandyLoam,
    Loam,
    ClayLoam,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Bearing {
    Bearing,
    /// Too young to bear this year.
    Young,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CropTime {
    Early,
    Middle,
    Late,
}

/// How readily the cultivar takes rust.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Susceptibility {
    Susceptible,
    Tolerant,
    Resistant,
}

/// A spray the grower has, and what its label says. Nothing here is ever made up: what the label
/// says is unknown until the grower has read it out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Product {
    /// What the grower calls it.
    pub name: String,
    pub active: Active,
    pub carrier: Carrier,
    /// Metallic copper as a part of the product's mass.
    pub copper_content: Option<Fraction>,
    pub label: Label,
}

impl Product {
    pub fn new(name: impl Into<String>, active: Active) -> Self {
        let carrier = if active == Active::Oil { Carrier::Oil } else { Carrier::Water };
        Self { name: name.into(), active, carrier, copper_content: None, label: Label::default() }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Active {
    Copper,
    Sulfur,
    /// Horticultural or neem oil, itself.
    Oil,
    Other,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Carrier {
    Water,
    /// Oil-based, whatever its active ingredient: it must not meet sulfur.
    Oil,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Label {
    pub rate: Option<Rate>,
    #[serde(rename = "interval_days")]
    pub interval: Option<Days>,
    pub most_applications: Option<u32>,
    #[serde(rename = "days_before_harvest")]
    pub before_harvest: Option<Days>,
    #[serde(rename = "hours_before_reentry")]
    pub before_reentry: Option<Hours>,
    #[serde(rename = "hottest_c")]
    pub hottest: Option<Celsius>,
    /// Whether the label names edible figs (or the crop group they stand in).
    pub lists_figs: Option<LabelListing>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelListing {
    Listed,
    NotListed,
}

/// Product for a volume of water, as the label gives it, in SI.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Rate {
    GramsPerLitre(f64),
    MillilitresPerLitre(f64),
}
