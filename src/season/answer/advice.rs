use chrono::{DateTime, NaiveDate, Utc};
use serde::Serialize;

use crate::season::garden::{Active, Rate};
use crate::season::journal::MoistureState;
use crate::season::request::Cold;
use crate::units::{
    Celsius, Days, Fraction, GramsPerSquareMetre, Hours, Litres, MetresPerSecond, Millimetres,
};

/// The answer to "should I spray this week?".
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SprayAdvice {
    pub verdict: Verdict,
    pub window: Option<Window>,
    /// The next best, should the first not suit.
    pub second: Option<Window>,
    /// The product the verdict is about, by the grower's name for it.
    pub product: Option<String>,
    pub active: Option<Active>,
    /// Protection left on the worst-covered tree worth treating.
    pub cover: Fraction,
    pub infection: Vec<Infection>,
    pub days_to_frost: Option<i64>,
    /// Most decisive first.
    pub reasons: Vec<Reason>,
    pub trees: Vec<TreeVerdict>,
    pub cautions: Vec<Caution>,
    /// Waits before harvest that still run. Only where somebody asked.
    pub waits: Vec<HarvestWait>,
    pub age: DataAge,
}

/// Fruit that may not be eaten yet, by the label of what it was sprayed with.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HarvestWait {
    pub trees: Vec<String>,
    pub product: String,
    pub sprayed_on: NaiveDate,
    #[serde(rename = "wait_days")]
    pub wait: Days,
    pub clear_from: NaiveDate,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    Spray,
    /// Not now: the cover holds or nothing threatens.
    Hold,
    /// It would be wanted, but no hours suit.
    NoWindow,
    /// A rule forbids it.
    Blocked,
    /// Too little season is left, or nothing to save.
    NotWorthwhile,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Window {
    pub from: DateTime<Utc>,
    pub to: DateTime<Utc>,
    /// Dry hours after it before rain or wetness is forecast, as far as the forecast reaches.
    #[serde(rename = "dry_hours_after")]
    pub dry_after: Hours,
    #[serde(rename = "wind_ms")]
    pub wind: Option<MetresPerSecond>,
    #[serde(rename = "hottest_c")]
    pub hottest: Option<Celsius>,
}

/// A run of wet hours long and mild enough for rust to get in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Infection {
    pub from: DateTime<Utc>,
    pub to: DateTime<Utc>,
    pub wet_hours: Hours,
    pub mean_c: Celsius,
    pub grade: InfectionGrade,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum InfectionGrade {
    Trace,
    Moderate,
    Severe,
}

/// One tree's part in the verdict.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TreeVerdict {
    pub tree: String,
    pub worth: Worth,
    pub standing: Standing,
    pub cover: Option<Fraction>,
    pub reasons: Vec<Reason>,
    /// When the crop should be ripe, or the first frost comes: the date the next two are for.
    pub kept_until: Option<NaiveDate>,
    /// Green leaf area kept until then, of a clean tree's: without further sprays, and with sprays renewed at the
    /// interval; low to high. Only where somebody asked.
    pub kept_unsprayed: Option<Span>,
    pub kept_sprayed: Option<Span>,
}

/// A tree's part in what is advised now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// The spray is for it.
    Due,
    /// What is on it still holds, or is too fresh to be renewed.
    Covered,
    /// A rule forbids it this spray, and not the others: the rule stands among its reasons.
    Barred,
    /// Not worth a spray.
    Left,
}

/// A range within which the truth is thought to lie.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Span {
    pub low: Fraction,
    pub high: Fraction,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Worth {
    /// Full protection pays.
    Protect,
    /// Only against a moderate or severe infection on thin cover.
    OnlyIfPressed,
    Leave,
}

/// Why. Each carries the figures it rests on.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "reason", rename_all = "snake_case")]
pub enum Reason {
    NeverSprayed,
    CoverHolds {
        cover: Fraction,
        #[serde(rename = "rain_mm")]
        rain: Millimetres,
        #[serde(rename = "days")]
        days: Days,
    },
    CoverThin {
        cover: Fraction,
        #[serde(rename = "rain_mm")]
        rain: Millimetres,
        #[serde(rename = "days")]
        days: Days,
    },
    /// So much rain since the spray that it counts as washed off.
    WashedOff {
        #[serde(rename = "rain_mm")]
        rain: Millimetres,
    },
    NewLeavesBare {
        leaves: f64,
    },
    IntervalOver {
        #[serde(rename = "days")]
        days: Days,
        #[serde(rename = "interval_days")]
        interval: Days,
    },
    InfectionAhead {
        infection: Infection,
        /// Wet hours by the damp end of what sites differ by, where that is more.
        #[serde(rename = "wet_hours_most")]
        most: Option<Hours>,
    },
    /// Nothing by the usual rule, but leaves that stay wet as long as at the damp end of sites would take it.
    InfectionPossible {
        infection: Infection,
    },
    NoInfectionAhead {
        #[serde(rename = "days")]
        days: Days,
    },
    /// Got in already; a protectant cannot stop it. Spots may show from the date on.
    InPipeline {
        infection: Infection,
        first_signs: NaiveDate,
    },
    RustSeen {
        tree: String,
        severity: Fraction,
        on: NaiveDate,
    },
    CleanLeaves,
    DaysToFrost {
        days: i64,
        date: NaiveDate,
        basis: FrostBasis,
    },
    Shortening {
        minutes_per_day: f64,
    },
    Cooling {
        #[serde(rename = "kelvin")]
        delta: f64,
    },
    PickedOut {
        since: NaiveDate,
    },
    TooYoung,
    LeavesGone {
        share: Fraction,
    },
    /// It stands indoors, where no leaf gets wet.
    Housed,
    Dormant,
    CropBy {
        date: NaiveDate,
    },
    /// A new infection would show only after this date, too late to cost the crop.
    TooLateToCost {
        #[serde(rename = "latent_days")]
        latent: Days,
        horizon_days: i64,
    },
    /// No course the rust may take costs so many leaves before the crop is ripe that sprays could save more than this.
    LittleAtStake {
        until: NaiveDate,
        leaves: Fraction,
    },
    /// Early rust costs the crop: leaves feed the fruit.
    CropAtStake,
    /// The rule of the trade and the computed one differ; the cautious one is followed.
    RulesDiffer {
        trade: Worth,
        computed: Worth,
    },
    NoWindow {
        obstacle: Obstacle,
    },
    Rule {
        rule: BrokenRule,
    },
    NoProduct,
    /// What the label says is not known yet.
    LabelUnknown {
        missing: LabelItem,
    },
    WeatherUnknown,
    FrostUnknown,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FrostBasis {
    /// The grower's own date.
    Own,
    /// A percentile of past years.
    Normals,
    /// The forecast has it already.
    Forecast,
}

/// What keeps an hour from suiting, named once for a whole stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
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

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelItem {
    Rate,
    Interval,
    MostApplications,
    BeforeHarvest,
    BeforeReentry,
    Figs,
}

/// A rule of the label or the trade that a spray breaks or would break.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "rule", rename_all = "snake_case")]
pub enum BrokenRule {
    /// Sulfur and oil on the same leaves too close together, in either order.
    SulfurAndOil {
        trees: Vec<String>,
        first: String,
        first_on: NaiveDate,
        second: String,
        second_on: NaiveDate,
        apart: Days,
        needed: Days,
        clear_from: NaiveDate,
        /// From when the first may follow the second.
        again_from: NaiveDate,
    },
    SulfurHeat {
        product: String,
        #[serde(rename = "hottest_c")]
        hottest: Celsius,
        #[serde(rename = "limit_c")]
        limit: Celsius,
        on: NaiveDate,
    },
    TooSoon {
        product: String,
        last_on: NaiveDate,
        interval: Days,
        clear_from: NaiveDate,
    },
    TooMany {
        product: String,
        done: u32,
        most: u32,
    },
    BeforeHarvest {
        product: String,
        wait: Days,
        tree: Option<String>,
        picking_from: DateTime<Utc>,
    },
    PickedTooSoon {
        tree: String,
        product: String,
        sprayed_on: NaiveDate,
        wait: Days,
        clear_from: NaiveDate,
    },
    ReEntry {
        product: String,
        until: DateTime<Utc>,
    },
    CopperBudget {
        /// The tree whose ground has most of it.
        tree: String,
        used: GramsPerSquareMetre,
        with_this: GramsPerSquareMetre,
        yearly: GramsPerSquareMetre,
    },
    NotForFigs {
        product: String,
    },
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Caution {
    LabelFirst,
    GlovesAndEyes,
    DustMask,
    PeopleBeesWater,
    ReEntryAndHarvest,
    LocalRules,
    SulfurAndOil,
    SulfurHeat,
    CopperBuildsUp,
    CopperWater,
    Sap,
    Uncertainty,
    Emergency,
    Hygiene,
}

/// How old the weather behind an answer is.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct DataAge {
    pub fetched: Option<DateTime<Utc>>,
    pub hours: Option<Hours>,
    pub freshness: Freshness,
    pub credit: Option<String>,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Freshness {
    Fresh,
    /// Older than it should be; said in the answer.
    Old,
    #[default]
    None,
}

/// "Do I need to water?", tree by tree, the most pressing first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WaterAdvice {
    pub trees: Vec<TreeWater>,
    /// Trees indoors: the weather says nothing of their water.
    pub housed: Vec<HousedTree>,
    /// The hottest hour of today still to come.
    #[serde(rename = "hottest_c")]
    pub hottest: Option<Celsius>,
    #[serde(rename = "rain_ahead_mm")]
    pub rain_ahead: Option<Millimetres>,
    pub age: DataAge,
}

/// A tree in a pot that was taken indoors.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HousedTree {
    pub tree: String,
    pub since: NaiveDate,
    /// Without leaves it uses next to no water.
    pub bare: bool,
    /// When it was last given any, if that is on record.
    pub watered: Option<NaiveDate>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TreeWater {
    pub tree: String,
    pub potted: bool,
    pub urgency: WaterUrgency,
    #[serde(rename = "hours_until_dry")]
    pub until_dry: Option<Hours>,
    #[serde(rename = "litres")]
    pub volume: Option<Litres>,
    pub times_a_day: u32,
    /// Of the water the pot or root zone can give, what is left.
    pub left: Option<Fraction>,
    #[serde(rename = "litres_a_day")]
    pub use_a_day: Option<Litres>,
    #[serde(rename = "drip_minutes")]
    pub drip: Option<f64>,
    /// What had to be assumed for want of knowing.
    pub assumed: Vec<WaterAssumption>,
}

/// "Why so much water?": the sums behind [`WaterAdvice`], in its order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WaterReasons {
    pub trees: Vec<TreeReasons>,
    /// The hottest hour of today still to come.
    #[serde(rename = "hottest_c")]
    pub hottest: Option<Celsius>,
    #[serde(rename = "rain_ahead_mm")]
    pub rain_ahead: Option<Millimetres>,
    /// The part of a pot's water that may go before it is due.
    pub allowed: Fraction,
    pub age: DataAge,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TreeReasons {
    pub water: TreeWater,
    /// Litres the pot can give when full; none for a tree in the ground.
    #[serde(rename = "holds_litres")]
    pub holds: Option<Litres>,
    /// The last watering told of.
    pub watered: Option<LastWatering>,
    /// The last thing told of its soil since.
    pub felt: Option<MoistureState>,
    pub on_hot_paving: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LastWatering {
    pub date: NaiveDate,
    #[serde(rename = "litres")]
    pub volume: Option<Litres>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WaterUrgency {
    Now,
    Today,
    Tomorrow,
    Enough,
    Unknown,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WaterAssumption {
    PotSize,
    Width,
    /// Never told of a watering; taken as full on this many days ago.
    LastWatering,
    EstimatedRadiation,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FrostAdvice {
    pub about: Cold,
    pub tonight: Option<FrostNight>,
    /// The first night of frost the forecast holds.
    pub next: Option<FrostNight>,
    /// The coldest night it holds.
    pub coldest: Option<FrostNight>,
    pub days_to_frost: Option<i64>,
    pub usual: Option<NaiveDate>,
    pub early: Option<NaiveDate>,
    /// The usual last frost of this spring.
    pub last: Option<NaiveDate>,
    pub basis: Option<FrostBasis>,
    /// Potted trees to shelter, and those in the ground to cover.
    pub shelter: Vec<String>,
    pub cover: Vec<String>,
    /// Trees indoors, which no night outside concerns, and all the others.
    pub housed: Vec<String>,
    pub out: Vec<String>,
    pub age: DataAge,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FrostNight {
    /// The date on which the night begins.
    pub date: NaiveDate,
    #[serde(rename = "min_c")]
    pub minimum: Celsius,
    pub at: DateTime<Utc>,
    pub risk: FrostRisk,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FrostRisk {
    None,
    /// Ground frost possible under a clear calm sky though the air stays above freezing.
    Possible,
    Frost,
    Hard,
}

/// How much to mix: the label's rate for a volume, nothing else.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MixAnswer {
    pub product: Option<String>,
    pub rate: Option<Rate>,
    #[serde(rename = "litres")]
    pub volume: Option<Litres>,
    /// Grams or millilitres, as the rate has it.
    pub amount: Option<f64>,
    pub missing: Vec<MixMissing>,
    pub cautions: Vec<Caution>,
}

/// Whether two products may go on together.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TogetherAnswer {
    pub one: String,
    pub other: String,
    /// They burn leaves together: how long they are kept apart.
    pub apart: Option<Apart>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Apart {
    #[serde(rename = "days")]
    pub usually: Days,
    /// Once it has been hot since the first of them.
    #[serde(rename = "days_in_heat")]
    pub in_heat: Days,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MixMissing {
    Product,
    Rate,
    Volume,
}
