//! What is kept of a garden beside its journal.

use chrono::{DateTime, NaiveDate, Utc};
use serde::{Deserialize, Serialize};

use super::mirror::{Recorded, record_enum, record_struct};
use crate::identity::EventId;
use crate::season::facts::{FrostNormals, Matter, Told};
use crate::season::garden::YearDay;
use crate::season::journal::LineNumber;
use crate::season::request::{Doubt, DoubtKind, OpenQuestion};

#[derive(Deserialize, Serialize)]
pub(in crate::store) struct GardenRecord {
    pub(in crate::store) made: DateTime<Utc>,
}

#[derive(Deserialize, Serialize)]
pub(in crate::store) struct WakeRecord {
    pub(in crate::store) at: DateTime<Utc>,
}

/// The matter stands beside its time, in one flat record.
#[derive(Deserialize, Serialize)]
pub(in crate::store) struct ToldRecord {
    at: DateTime<Utc>,
    #[serde(flatten)]
    matter: MatterRecord,
}

impl Recorded for Told {
    type Record = ToldRecord;

    fn to_record(&self) -> ToldRecord {
        ToldRecord { at: self.at, matter: self.matter.to_record() }
    }

    fn of_record(record: ToldRecord) -> Self {
        Told { at: record.at, matter: Matter::of_record(record.matter) }
    }
}

record_enum!(
    #[serde(tag = "matter")]
    MatterRecord = Matter {
        Brief { date: NaiveDate },
        Watching { date: NaiveDate },
        SeasonOver { season: i32 },
        FrostTonight { date: NaiveDate },
        HeatWatering { date: NaiveDate },
        Infection { from: DateTime<Utc> },
        Broken { line: LineNumber },
        SprayWindow { date: NaiveDate },
        Once { name: String },
    }
);

record_struct!(QuestionRecord = OpenQuestion { text: String, doubt: Doubt, said: DateTime<Utc>, event: EventId });

record_struct!(DoubtRecord = Doubt { kind: DoubtKind, words: String, candidates: Vec<String> });

record_enum!(
    DoubtKindRecord = DoubtKind {
        NotUnderstood,
        UnknownTree,
        UnknownProduct,
        WhichTree,
        WhichProduct,
        HowMuch,
        ImpossibleAmount,
        ImpossibleDate,
        StillToCome,
        LookAlikeLetters,
        OtherLanguage,
        NothingThere,
        UnknownPlace,
        UnknownSetting,
        ForgetAsked,
        OutOfStock,
        UnclearReport,
        UnknownPerson,
        NamelessTree,
    }
);

record_struct!(FrostNormalsRecord = FrostNormals {
    first_early: Option<YearDay>,
    first_median: Option<YearDay>,
    first_late: Option<YearDay>,
    last_median: Option<YearDay>,
    years: u32,
});
