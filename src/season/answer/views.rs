use chrono::{DateTime, NaiveDate, NaiveTime, Utc};
use serde::Serialize;

use super::{
    BrokenRule, DataAge, FrostAdvice, FrostBasis, FrostNight, HarvestWait, HousedTree, Infection, Span,
    SprayAdvice, TreeWater, Window,
};
use crate::season::garden::{Label, Product, Role, Tree, UnitSystem, YearDay};
use crate::season::journal::{RustAmount, Stage};
use crate::units::{Celsius, Days, Fraction, GramsPerSquareMetre, Kilograms, Millimetres, Position};

/// "How is Celeste?"
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TreeView {
    pub trees: Vec<TreeState>,
    /// Waits before harvest that still run.
    pub waits: Vec<HarvestWait>,
    pub age: DataAge,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TreeState {
    pub tree: Tree,
    pub stage: Option<Stage>,
    pub last_scouted: Option<Scouted>,
    pub leaf_drop: Option<Fraction>,
    /// Leaves were lost this season, and nobody said how many.
    pub some_lost: bool,
    pub last_sprayed: Option<LastSpray>,
    pub cover: Option<Fraction>,
    /// Leaf area left by the model, drawn towards what was scouted.
    pub leaves_left: Option<Span>,
    /// Infections that got in and will show, with the date of first signs.
    pub pipeline: Vec<(Infection, NaiveDate)>,
    pub picked: Harvest,
    pub water: Option<TreeWater>,
    pub housed: Option<HousedTree>,
    pub ripening: Option<Ripening>,
    /// Spread of the water level over the season: 0 is even, 1 swings from soaked to bone dry.
    pub moisture_swing: Option<Fraction>,
    #[serde(rename = "copper_g_m2")]
    pub copper: Option<GramsPerSquareMetre>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Scouted {
    pub on: NaiveDate,
    pub amount: RustAmount,
    pub severity: Fraction,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LastSpray {
    pub product: String,
    pub on: NaiveDate,
    #[serde(rename = "rain_since_mm")]
    pub rain_since: Millimetres,
    pub days: Days,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Harvest {
    pub count: u32,
    #[serde(rename = "kg")]
    pub mass: Kilograms,
    /// Some of it was told of several trees together, and shared out.
    pub shared: bool,
    pub first: Option<NaiveDate>,
    pub last: Option<NaiveDate>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Ripening {
    pub outlook: RipeningOutlook,
    /// Between these dates, if it ripens.
    pub from: Option<NaiveDate>,
    pub to: Option<NaiveDate>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RipeningOutlook {
    Likely,
    Possible,
    Doubtful,
    No,
    Unknown,
}

/// "How much copper have I used?": the label as told, and this season's use.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ProductView {
    pub products: Vec<ProductUse>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ProductUse {
    pub name: String,
    #[serde(skip)]
    pub label: Label,
    /// Rounds this season: trees sprayed at one time are one.
    pub sprays: u32,
    pub last: Option<NaiveDate>,
    /// The most metallic copper a year, for copper.
    #[serde(rename = "copper_yearly_g_m2")]
    pub copper_yearly: Option<GramsPerSquareMetre>,
    /// Trees it was on this season.
    pub trees: Vec<TreeUse>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TreeUse {
    pub tree: String,
    pub sprays: u32,
    #[serde(rename = "copper_g_m2")]
    pub copper: Option<GramsPerSquareMetre>,
}

/// "Is it safe to eat off Corner?": fruit and the waits before harvest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PickingView {
    /// How many trees were asked about.
    pub asked_about: usize,
    /// Waits that still run.
    pub waits: Vec<HarvestWait>,
    /// Trees no wait runs on, with their last spray of the season.
    pub clear: Vec<SprayedFruit>,
    /// Trees sprayed with what no wait was told of.
    pub unsure: Vec<SprayedFruit>,
    /// The product asked about, and its label's wait as told.
    #[serde(rename = "label_wait_days")]
    pub label: Option<(String, Option<Days>)>,
}

/// Trees sprayed alike, or not at all this season.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SprayedFruit {
    pub trees: Vec<String>,
    pub product: Option<String>,
    pub sprayed_on: Option<NaiveDate>,
}

/// "What is coming?": the next days in a few lines.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AheadView {
    pub days: Vec<AheadDay>,
    pub infection: Vec<Infection>,
    pub window: Option<Window>,
    pub frost: Option<FrostNight>,
    pub age: DataAge,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AheadDay {
    pub date: NaiveDate,
    #[serde(rename = "min_c")]
    pub minimum: Option<Celsius>,
    #[serde(rename = "max_c")]
    pub maximum: Option<Celsius>,
    #[serde(rename = "rain_mm")]
    pub rain: Option<Millimetres>,
    pub wet_hours: u32,
}

/// "How was the season?"
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SeasonView {
    pub season: i32,
    pub sprays: Vec<(String, u32)>,
    pub first_rust: Option<(NaiveDate, Vec<String>)>,
    pub harvest: Vec<(String, Harvest)>,
    pub infections: u32,
    #[serde(rename = "rain_mm")]
    pub rain: Millimetres,
    /// Area under the disease progress curve relative to the worst possible, by tree.
    pub disease: Vec<(String, Fraction)>,
    pub leaf_drop: Vec<(String, Fraction)>,
    pub frost: Option<NaiveDate>,
    pub scoutings: u32,
}

/// Pots against ground.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CompareView {
    pub pots: GroupFigures,
    pub ground: GroupFigures,
    pub test: CompareTest,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GroupFigures {
    pub trees: u32,
    /// Trees scouted often enough to count.
    pub scouted: u32,
    /// Mean relative area under the disease progress curve.
    pub disease: Option<Fraction>,
    pub swing: Option<Fraction>,
    pub harvest: Harvest,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "test", rename_all = "snake_case")]
pub enum CompareTest {
    /// With so few trees no test could tell: the smallest p it could reach is given.
    NotTestable {
        smallest_p: Option<f64>,
    },
    Tested {
        p: f64,
        smallest_p: f64,
    },
}

/// What the bot knows of the garden.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GardenView {
    pub name: String,
    pub place: Option<String>,
    pub position: Option<Position>,
    pub zone: Option<String>,
    pub units: UnitSystem,
    pub morning: NaiveTime,
    pub first_frost: Option<YearDay>,
    pub frost_basis: Option<FrostBasis>,
    pub last_frost: Option<YearDay>,
    pub trees: Vec<Tree>,
    pub products: Vec<Product>,
    pub people: Vec<(String, Role)>,
    pub missing: Vec<Missing>,
}

/// What set-up still lacks, the most useful first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Missing {
    Position,
    Trees,
    Products,
    /// The first rate, interval or waiting time not told yet, of this product.
    Label {
        product: String,
    },
    FrostDate,
    /// The size of this pot.
    PotSize {
        tree: String,
    },
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Place {
    pub name: String,
    pub region: Option<String>,
    pub country: Option<String>,
    pub position: Position,
}

/// The morning's message: only what is worth doing today.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Brief {
    pub date: NaiveDate,
    pub items: Vec<BriefItem>,
    /// Days without a brief because the bot was down, when it was.
    pub caught_up: u32,
    pub age: DataAge,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "item", rename_all = "snake_case")]
pub enum BriefItem {
    Spray(Box<SprayAdvice>),
    Water {
        trees: Vec<TreeWater>,
        #[serde(rename = "hottest_c")]
        hottest: Option<Celsius>,
    },
    Heat {
        #[serde(rename = "hottest_c")]
        hottest: Celsius,
    },
    Frost(FrostAdvice),
    /// Ripe or ripening fruit and rain on its way.
    PickBeforeRain {
        trees: Vec<String>,
        rain_from: DateTime<Utc>,
        #[serde(rename = "rain_mm")]
        rain: Millimetres,
    },
    /// No one has looked at the leaves for a while, in rust weather.
    Scout {
        trees: Vec<String>,
        days: Option<i64>,
    },
    /// Spots of an infection already in may show from today.
    FirstSigns {
        infection: Infection,
    },
    SeasonOver(SeasonOver),
    /// A job of the calendar, each once a season.
    Job {
        job: Job,
        trees: Vec<String>,
    },
    Broken(BrokenRule),
    /// The weather service did not answer; how old the data is stands in the age.
    OldWeather,
    /// A frost alarm that could not be delivered in time.
    MissedAlarm {
        date: NaiveDate,
    },
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Job {
    /// Rake up and destroy fallen leaves, remove mummies.
    DormantTidy,
    /// Prune for air and light.
    Prune,
    Repot,
    /// First leaves are out: begin looking, be ready to protect.
    FirstLeaves,
    /// Stop nitrogen.
    StopFeeding,
    RemoveLateFruit,
    /// Move or wrap pots.
    ShelterPots,
    WinterWater,
    LeafFallTidy,
    /// What was taken in for the winter may go out again.
    BringOut,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Watching {
    pub date: NaiveDate,
    pub next_infection: Option<Infection>,
    pub cover: Option<Fraction>,
    pub age: DataAge,
}

/// So close to frost that treatment is no longer worthwhile. Said once a season.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SeasonOver {
    pub days_to_frost: i64,
    pub date: NaiveDate,
    pub basis: FrostBasis,
    pub minutes_per_day: Option<f64>,
    pub latent_days: Option<Days>,
}
