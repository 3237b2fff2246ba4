//! Lines of the journal: what was seen, done and settled.

use chrono::{DateTime, NaiveTime, Utc};

use super::mirror::{Recorded, record_enum, record_struct};
use crate::identity::{EventId, PersonId, RoomId};
use crate::season::garden::{
    Active, Bearing, Carrier, CropTime, Footing, LabelListing, Listening, Mix, Quiet, Rate, Role, Shelter,
    Soil, Susceptibility, UnitSystem, YearDay,
};
use crate::season::journal::{
    Act, Entry, LeafLevel, LineNumber, MoistureState, Report, Retraction, RustAmount, RustWords, Stage,
    Timing, What, Whereabouts, Withdrawal,
};
use crate::season::request::{Potted, ProductDetails, Setting, TreeDetails};
use crate::season::thresholds::Limit;
use crate::units::{Celsius, Days, Fraction, Hours, Kilograms, Litres, Metres, Millimetres, Position};

/// A line. Its number is in its key.
#[derive(serde::Deserialize, serde::Serialize)]
#[serde(tag = "act", rename_all = "snake_case")]
pub(in crate::store) enum ActRecord {
    Enter {
        who: PersonId,
        event: EventId,
        said: DateTime<Utc>,
        happened: DateTime<Utc>,
        timing: <Timing as Recorded>::Record,
        what: <What as Recorded>::Record,
    },
    Retract {
        line: u64,
        why: <Withdrawal as Recorded>::Record,
        who: PersonId,
        event: EventId,
        said: DateTime<Utc>,
    },
}

impl Recorded for Act {
    type Record = ActRecord;

    fn to_record(&self) -> ActRecord {
        match self {
            Act::Enter(Entry { who, event, said, happened, timing, what }) => ActRecord::Enter {
                who: who.clone(),
                event: event.clone(),
                said: *said,
                happened: *happened,
                timing: timing.to_record(),
                what: what.to_record(),
            },
            Act::Retract(Retraction { entry, why, who, event, said }) => ActRecord::Retract {
                line: entry.to_record(),
                why: why.to_record(),
                who: who.clone(),
                event: event.clone(),
                said: *said,
            },
        }
    }

    fn of_record(record: ActRecord) -> Self {
        match record {
            ActRecord::Enter { who, event, said, happened, timing, what } => Act::Enter(Entry {
                who,
                event,
                said,
                happened,
                timing: Timing::of_record(timing),
                what: What::of_record(what),
            }),
            ActRecord::Retract { line, why, who, event, said } => Act::Retract(Retraction {
                entry: LineNumber::of_record(line),
                why: Withdrawal::of_record(why),
                who,
                event,
                said,
            }),
        }
    }
}

record_enum!(TimingRecord = Timing { Told, Assumed });

record_enum!(WithdrawalRecord = Withdrawal { Edited, Deleted, Undone, Corrected, Forgotten });

record_enum!(WhatRecord = What {
    Report { trees: Vec<String>, report: Report },
    Setting(setting: Setting),
});

record_enum!(
    #[serde(tag = "record")]
    ReportRecord = Report {
        Scouted { amount: RustAmount, level: Option<LeafLevel> },
        LeafDrop { share: Option<Fraction> },
        Sprayed { product: String, #[serde(rename = "litres")] volume: Option<Litres> },
        Watered {
            #[serde(rename = "litres")] volume: Option<Litres>,
            #[serde(rename = "mm")] depth: Option<Millimetres>,
        },
        Moisture { state: MoistureState },
        Weighed { #[serde(rename = "kg")] mass: Kilograms, state: MoistureState },
        Rained { #[serde(rename = "mm")] depth: Millimetres },
        Stage { stage: Stage },
        Picked { count: Option<u32>, #[serde(rename = "kg")] mass: Option<Kilograms> },
        Frost { #[serde(rename = "min_c")] minimum: Option<Celsius> },
        Planted,
        Removed,
        Moved { to: Whereabouts },
        Note { text: String },
        Photo { caption: Option<String>, reference: Option<String> },
    }
);

record_enum!(RustAmountRecord = RustAmount {
    None,
    Severity(severity: Fraction),
    Class(class: u8),
    Leaves { spotted: u32, of: u32 },
    Words(words: RustWords),
});

record_enum!(RustWordsRecord = RustWords { Trace, Some, Heavy });
record_enum!(LeafLevelRecord = LeafLevel { Lower, Middle, Upper, Whole });
record_enum!(WhereaboutsRecord = Whereabouts { Indoors, Outdoors });
record_enum!(MoistureStateRecord = MoistureState { Dry, Moist, Wet });
record_enum!(StageRecord = Stage { LeafOut, Fruitlets, Swelling, Ripening, PickedOut, LeafFall, Dormant });

record_enum!(
    #[serde(tag = "set")]
    SettingRecord = Setting {
        Name { name: String },
        Position { position: Position, place: Option<String>, zone: Option<String> },
        Place { name: String },
        FirstFrost { date: YearDay },
        LastFrost { date: YearDay },
        Units { units: UnitSystem },
        Morning { time: NaiveTime },
        Quiet { quiet: Quiet },
        Listening { listening: Listening },
        Tree(details: TreeDetails),
        RenameTree { from: String, to: String },
        Product(details: ProductDetails),
        RemoveProduct { name: String },
        Person { id: PersonId, name: String, role: Role },
        RemovePerson { id: PersonId },
        Here,
        Room { room: RoomId },
        Limit { limit: Limit, value: f64 },
    }
);

record_struct!(TreeDetailsRecord = TreeDetails {
    name: String,
    cultivar: Option<String>,
    potted: Option<Potted>,
    #[serde(rename = "litres")]
    volume: Option<Litres>,
    #[serde(rename = "width_m")]
    width: Option<Metres>,
    bearing: Option<Bearing>,
    crop: Option<CropTime>,
    susceptibility: Option<Susceptibility>,
    groups: Vec<String>,
    mix: Option<Mix>,
    shelter: Option<Shelter>,
    footing: Option<Footing>,
    soil: Option<Soil>,
    #[serde(rename = "mulch_m")]
    mulch: Option<Metres>,
    #[serde(rename = "compost_m")]
    compost: Option<Metres>,
});

record_struct!(ProductDetailsRecord = ProductDetails {
    name: String,
    active: Option<Active>,
    carrier: Option<Carrier>,
    copper_content: Option<Fraction>,
    rate: Option<Rate>,
    #[serde(rename = "interval_days")]
    interval: Option<Days>,
    most_applications: Option<u32>,
    #[serde(rename = "days_before_harvest")]
    before_harvest: Option<Days>,
    #[serde(rename = "hours_before_reentry")]
    before_reentry: Option<Hours>,
    #[serde(rename = "hottest_c")]
    hottest: Option<Celsius>,
    lists_figs: Option<LabelListing>,
});

record_struct!(YearDayRecord = YearDay { month: u32, day: u32 });
record_enum!(UnitSystemRecord = UnitSystem { Metric, Us });
record_enum!(QuietRecord = Quiet { Speaking, Until(date: chrono::NaiveDate), UntilTold });
record_enum!(ListeningRecord = Listening { WhenAddressed, ToEverything });
record_enum!(RoleRecord = Role { Keeper, Helper });
record_enum!(PottedRecord = Potted { InPot, InGround });
record_enum!(BearingRecord = Bearing { Bearing, Young });
record_enum!(CropTimeRecord = CropTime { Early, Middle, Late });
record_enum!(SusceptibilityRecord = Susceptibility { Susceptible, Tolerant, Resistant });
record_enum!(MixRecord = Mix { CoarseBark, Ordinary, Peat });
record_enum!(ShelterRecord = Shelter { Open, FromRain });
record_enum!(FootingRecord = Footing { Soft, HotPaving });
record_enum!(SoilRecord = Soil { Sand, SandyLoam, Loam, ClayLoam });
record_enum!(ActiveRecord = Active { Copper, Sulfur, Oil, Other });
record_enum!(CarrierRecord = Carrier { Water, Oil });
record_enum!(LabelListingRecord = LabelListing { Listed, NotListed });
record_enum!(RateRecord = Rate { GramsPerLitre(rate: f64), MillilitresPerLitre(rate: f64) });
record_enum!(
    LimitRecord =
        Limit { SulfurOilDays, SulfurHottest, CopperYearly, SprayIntervalDays, ScoutEveryDays, HeatWatering }
);
