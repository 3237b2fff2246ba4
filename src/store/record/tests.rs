//! One example of every kind of record and every variant in them: the bytes now, and the bytes of each version
//! before, which must still be read.

use chrono::{DateTime, NaiveDate, NaiveTime, TimeDelta, Utc};

use super::garden::*;
use super::journal::*;
use super::post::*;
use super::*;
use crate::identity::{EventId, GardenId, PersonId, RoomId};
use crate::post::{Addressed, Body, Content, Kind as MessageKind, Outbound, RoomKind, Unreadable};
use crate::season::facts::Matter;
use crate::season::garden::{
    Active, Bearing, Carrier, CropTime, Footing, LabelListing, Listening, Mix, Quiet, Rate, Role, Shelter,
    Soil, Susceptibility, UnitSystem, YearDay,
};
use crate::season::journal::{
    Entry, LeafLevel, LineNumber, MoistureState, Report, Retraction, RustAmount, RustWords, Stage, Timing,
    What, Whereabouts, Withdrawal,
};
use crate::season::request::{Doubt, DoubtKind, Potted, ProductDetails, Setting, TreeDetails};
use crate::season::thresholds::Limit;
use crate::units::{
    Celsius, Days, Fraction, Hours, Kilograms, Litres, Metres, MetresPerSecond, Millimetres, Position,
    Probability, RelativeHumidity, WattsPerSquareMetre,
};
use crate::weather::{Hour, Origin};

fn at(minutes: i64) -> DateTime<Utc> {
    DateTime::from_timestamp(1_809_326_400, 0).expect("a time") + TimeDelta::minutes(minutes)
}

fn date() -> NaiveDate {
    NaiveDate::from_ymd_opt(2027, 5, 3).expect("a date")
}

fn text(text: &str) -> String {
    text.to_owned()
}

fn event() -> EventId {
    EventId::new("$said:example.org")
}

fn ana() -> PersonId {
    PersonId::new("@ana:example.org")
}

fn room() -> RoomId {
    RoomId::new("!plot:example.org")
}

fn part(value: f64) -> Fraction {
    Fraction::saturating(value)
}

fn reports() -> Vec<Report> {
    let scouted = |amount, level| Report::Scouted { amount, level };
    let moisture = |state| Report::Moisture { state };
    let stages = [
        Stage::LeafOut,
        Stage::Fruitlets,
        Stage::Swelling,
        Stage::Ripening,
        Stage::PickedOut,
        Stage::LeafFall,
        Stage::Dormant,
    ];
    let mut reports = vec![
        scouted(RustAmount::None, None),
        scouted(RustAmount::Severity(part(0.1)), Some(LeafLevel::Lower)),
        scouted(RustAmount::Class(3), Some(LeafLevel::Middle)),
        scouted(RustAmount::Leaves { spotted: 2, of: 10 }, Some(LeafLevel::Upper)),
        scouted(RustAmount::Words(RustWords::Trace), Some(LeafLevel::Whole)),
        scouted(RustAmount::Words(RustWords::Some), None),
        scouted(RustAmount::Words(RustWords::Heavy), None),
        Report::LeafDrop { share: Some(part(0.25)) },
        Report::Sprayed { product: text("blue copper"), volume: Some(Litres::new(3.5)) },
        Report::Watered { volume: Some(Litres::new(8.0)), depth: None },
        Report::Watered { volume: None, depth: Some(Millimetres::new(25.4)) },
        moisture(MoistureState::Dry),
        moisture(MoistureState::Moist),
        moisture(MoistureState::Wet),
        Report::Weighed { mass: Kilograms::new(21.5), state: MoistureState::Wet },
        Report::Rained { depth: Millimetres::new(12.7) },
        Report::Picked { count: Some(12), mass: Some(Kilograms::new(0.4)) },
        Report::Frost { minimum: Some(Celsius::new(-1.5)) },
        Report::Planted,
        Report::Removed,
        Report::Note { text: text("ants — \"many\" 🐜\n") },
        Report::Photo { caption: Some(text("lower leaf")), reference: Some(text("mxc://example.org/x")) },
    ];
    reports.extend(stages.map(|stage| Report::Stage { stage }));
    reports.extend([Whereabouts::Indoors, Whereabouts::Outdoors].map(|to| Report::Moved { to }));
    reports
}

fn settings() -> Vec<Setting> {
    let limit = |limit, value| Setting::Limit { limit, value };
    vec![
        Setting::Name { name: text("the plot") },
        Setting::Position {
            position: Position::new(30.69, -88.04).expect("a place"),
            place: Some(text("Mobile")),
            zone: Some(text("America/Chicago")),
        },
        Setting::Place { name: text("Mobile") },
        Setting::FirstFrost { date: YearDay { month: 11, day: 20 } },
        Setting::LastFrost { date: YearDay { month: 3, day: 10 } },
        Setting::Units { units: UnitSystem::Us },
        Setting::Units { units: UnitSystem::Metric },
        Setting::Morning { time: NaiveTime::from_hms_opt(6, 30, 0).expect("a time") },
        Setting::Quiet { quiet: Quiet::Speaking },
        Setting::Quiet { quiet: Quiet::Until(date()) },
        Setting::Quiet { quiet: Quiet::UntilTold },
        Setting::Listening { listening: Listening::WhenAddressed },
        Setting::Listening { listening: Listening::ToEverything },
        Setting::Tree(TreeDetails {
            name: text("Celeste"),
            cultivar: Some(text("Celeste")),
            potted: Some(Potted::InPot),
            volume: Some(Litres::new(40.0)),
            width: Some(Metres::new(1.8)),
            bearing: Some(Bearing::Bearing),
            crop: Some(CropTime::Early),
            susceptibility: Some(Susceptibility::Tolerant),
            groups: vec![text("pots"), text("wall")],
            mix: Some(Mix::CoarseBark),
            shelter: Some(Shelter::FromRain),
            footing: Some(Footing::HotPaving),
            soil: Some(Soil::Sand),
            mulch: Some(Metres::new(0.05)),
            compost: Some(Metres::new(0.1)),
        }),
        tree("a", |tree| {
            tree.potted = Some(Potted::InGround);
            tree.bearing = Some(Bearing::Young);
            tree.crop = Some(CropTime::Middle);
            tree.susceptibility = Some(Susceptibility::Susceptible);
            tree.soil = Some(Soil::SandyLoam);
            tree.shelter = Some(Shelter::Open);
        }),
        tree("b", |tree| {
            tree.crop = Some(CropTime::Late);
            tree.susceptibility = Some(Susceptibility::Resistant);
            tree.soil = Some(Soil::Loam);
            tree.mix = Some(Mix::Ordinary);
            tree.footing = Some(Footing::Soft);
        }),
        tree("c", |tree| {
            tree.soil = Some(Soil::ClayLoam);
            tree.mix = Some(Mix::Peat);
        }),
        Setting::RenameTree { from: text("a"), to: text("d") },
        Setting::Product(ProductDetails {
            name: text("blue copper"),
            active: Some(Active::Copper),
            carrier: Some(Carrier::Water),
            copper_content: Some(part(0.2)),
            rate: Some(Rate::GramsPerLitre(2.5)),
            interval: Some(Days::new(10.0)),
            most_applications: Some(4),
            before_harvest: Some(Days::new(1.0)),
            before_reentry: Some(Hours::new(48.0)),
            hottest: Some(Celsius::new(32.0)),
            lists_figs: Some(LabelListing::Listed),
        }),
        product("dust", Active::Sulfur, |product| product.lists_figs = Some(LabelListing::NotListed)),
        product("neem", Active::Oil, |product| {
            product.carrier = Some(Carrier::Oil);
            product.rate = Some(Rate::MillilitresPerLitre(5.0));
        }),
        product("tea", Active::Other, |_| {}),
        Setting::RemoveProduct { name: text("tea") },
        Setting::Person { id: ana(), name: text("Ana"), role: Role::Keeper },
        Setting::Person { id: PersonId::new("@ben:example.org"), name: text("Ben"), role: Role::Helper },
        Setting::RemovePerson { id: PersonId::new("@ben:example.org") },
        Setting::Here,
        Setting::Room { room: room() },
        limit(Limit::SulfurOilDays, 30.0),
        limit(Limit::SulfurHottest, 30.0),
        limit(Limit::CopperYearly, 0.3),
        limit(Limit::SprayIntervalDays, 7.0),
        limit(Limit::ScoutEveryDays, 5.0),
        limit(Limit::HeatWatering, 33.0),
    ]
}

fn tree(name: &str, change: impl FnOnce(&mut TreeDetails)) -> Setting {
    let mut details = TreeDetails { name: text(name), ..TreeDetails::default() };
    change(&mut details);
    Setting::Tree(details)
}

fn product(name: &str, active: Active, change: impl FnOnce(&mut ProductDetails)) -> Setting {
    let mut details = ProductDetails { name: text(name), active: Some(active), ..ProductDetails::default() };
    change(&mut details);
    Setting::Product(details)
}

fn acts() -> Vec<Act> {
    let enter = |what, timing| {
        Act::Enter(Entry { who: ana(), event: event(), said: at(0), happened: at(-90), timing, what })
    };
    let report = |report| What::Report { trees: vec![text("Celeste")], report };
    let retract =
        |why| Act::Retract(Retraction { entry: LineNumber(3), why, who: ana(), event: event(), said: at(5) });
    let reports = reports().into_iter().map(|said| enter(report(said), Timing::Told));
    let settings = settings().into_iter().map(|setting| enter(What::Setting(setting), Timing::Assumed));
    let withdrawals = [
        Withdrawal::Edited,
        Withdrawal::Deleted,
        Withdrawal::Undone,
        Withdrawal::Corrected,
        Withdrawal::Forgotten,
    ];
    reports.chain(settings).chain(withdrawals.map(retract)).collect()
}

fn told() -> Vec<Told> {
    let matters = [
        Matter::Brief { date: date() },
        Matter::Watching { date: date() },
        Matter::SeasonOver { season: 2027 },
        Matter::FrostTonight { date: date() },
        Matter::HeatWatering { date: date() },
        Matter::Infection { from: at(60) },
        Matter::Broken { line: LineNumber(12) },
        Matter::SprayWindow { date: date() },
        Matter::Once { name: text("welcome") },
    ];
    matters.map(|matter| Told { at: at(1), matter }).to_vec()
}

fn questions() -> Vec<OpenQuestion> {
    let kinds = [
        DoubtKind::NotUnderstood,
        DoubtKind::UnknownTree,
        DoubtKind::UnknownProduct,
        DoubtKind::WhichTree,
        DoubtKind::WhichProduct,
        DoubtKind::HowMuch,
        DoubtKind::ImpossibleAmount,
        DoubtKind::ImpossibleDate,
        DoubtKind::StillToCome,
        DoubtKind::LookAlikeLetters,
        DoubtKind::OtherLanguage,
        DoubtKind::NothingThere,
        DoubtKind::UnknownPlace,
        DoubtKind::UnknownSetting,
        DoubtKind::ForgetAsked,
        DoubtKind::OutOfStock,
        DoubtKind::UnclearReport,
        DoubtKind::UnknownPerson,
        DoubtKind::NamelessTree,
    ];
    let doubt = |kind| Doubt { kind, words: text("Celest"), candidates: vec![text("Celeste")] };
    kinds
        .map(|kind| OpenQuestion {
            text: text("rust on Celest"),
            doubt: doubt(kind),
            said: at(0),
            event: event(),
        })
        .to_vec()
}

fn letters() -> Vec<Inbound> {
    let contents = [
        Content::Said { text: text("rust on Celeste") },
        Content::Edited { of: event(), text: text("rust on Bay") },
        Content::Deleted { of: event() },
        Content::Reacted { to: event(), key: text("👍") },
        Content::Located { geo: text("geo:30.69,-88.04"), caption: Some(text("here")) },
        Content::Photo {
            media_type: text("image/jpeg"),
            size: Some(120_000),
            caption: None,
            reference: Some(text("mxc://example.org/x")),
        },
        Content::File { name: text("trees.txt"), text: text("Celeste\nBay") },
        Content::Unreadable { why: Unreadable::NoKey },
        Content::Unreadable { why: Unreadable::UnknownKind },
        Content::Unreadable { why: Unreadable::TooLarge },
        Content::Welcomed,
        Content::Moved { to: room() },
        Content::Gone,
    ];
    let kinds = [(RoomKind::Direct, Addressed::ToBot), (RoomKind::Group, Addressed::ToRoom)];
    let letter = |(content, (room_kind, addressed))| Inbound {
        id: EventId::new("$in:example.org"),
        room: room(),
        room_kind,
        from: ana(),
        called: Some(text("Ana")),
        at: at(0),
        addressed,
        reply_to: Some(event()),
        thread: None,
        content,
    };
    contents.into_iter().zip(kinds.into_iter().cycle()).map(letter).collect()
}

fn messages() -> Vec<Outbound> {
    let bodies = [
        (MessageKind::Answer, Body::Words { text: text("Spray."), html: text("<p>Spray.</p>") }),
        (MessageKind::Brief, Body::Picture { png: vec![0x89, 0x50, 0x00, 0xff], caption: text("the week") }),
        (MessageKind::Alert, Body::Withdraw { of: event() }),
        (MessageKind::Acknowledgement, Body::Reaction { key: text("✅") }),
    ];
    let message = |(kind, body)| Outbound {
        key: text("brief-2027-05-03"),
        room: room(),
        kind,
        re: Some(event()),
        thread: None,
        body,
        mentions: vec![ana()],
        use_by: Some(at(600)),
        made: at(0),
    };
    bodies.map(message).to_vec()
}

fn hours() -> Vec<Hour> {
    let full = Hour {
        start: at(0),
        temperature: Some(Celsius::new(21.4)),
        humidity: RelativeHumidity::from_percent(93.0),
        dew_point: Some(Celsius::new(20.1)),
        rain: Some(Millimetres::new(0.3)),
        rain_probability: Probability::new(0.4),
        wind: Some(MetresPerSecond::new(2.5)),
        gust: Some(MetresPerSecond::new(6.1)),
        cloud: Fraction::new(0.75),
        radiation: Some(WattsPerSquareMetre::new(310.0)),
        evaporation: Some(Millimetres::new(0.12)),
        origin: Origin::Observed,
    };
    let later = |hours: i64, origin| Hour { origin, ..Hour::unknown(at(60 * hours)) };
    vec![
        full,
        later(1, Origin::Unknown),
        later(2, Origin::Modelled),
        later(3, Origin::Forecast { native_step: 6 }),
        later(-800_000, Origin::Modelled),
    ]
}

fn normals() -> FrostNormals {
    let day = |month, day| Some(YearDay { month, day });
    FrostNormals {
        first_early: day(11, 5),
        first_median: day(11, 20),
        first_late: day(12, 10),
        last_median: None,
        years: 30,
    }
}

/// Every example with the key it would stand under, as it is written now.
fn examples() -> Vec<(Vec<u8>, Vec<u8>)> {
    fn written<T>(key: Vec<u8>, things: impl IntoIterator<Item = T>) -> Vec<(Vec<u8>, Vec<u8>)>
    where
        T: Recorded,
        T::Record: DeserializeOwned + Serialize,
    {
        things.into_iter().map(|thing| (key.clone(), write_of(&thing).expect("written"))).collect()
    }
    fn bare<T: DeserializeOwned + Serialize>(key: Vec<u8>, record: &T) -> Vec<(Vec<u8>, Vec<u8>)> {
        vec![(key, write(record).expect("written"))]
    }
    let plot = GardenId::new("plot");
    let cell = "30.69,-88.04";
    let outbound = |message: &Outbound| {
        let mut record = OutboundRecord::new(message, Some(text("the spray advice")));
        record.first_attempt = Some(at(1));
        record.device = Some(text("DEVICE"));
        record.attempts = 2;
        record
    };
    [
        bare(keys::garden(&plot), &GardenRecord { made: at(0) }),
        written(keys::numbered(Kind::Journal, &plot, 12), acts()),
        written(keys::numbered(Kind::Told, &plot, 3), told()),
        written(keys::question(&plot, &ana()), questions()),
        bare(keys::wake(&plot), &WakeRecord { at: at(1440) }),
        written(keys::queued(Kind::Inbox, 5), letters()),
        bare(keys::seen(&event()), &SeenRecord {}),
        messages()
            .iter()
            .flat_map(|message| bare(keys::queued(Kind::Outbox, 7), &outbound(message)))
            .collect(),
        bare(keys::sent("a"), &SentRecord::Waiting { row: 7 }),
        bare(keys::sent("a"), &SentRecord::Delivered { event: Some(event()) }),
        bare(keys::sent("a"), &SentRecord::Abandoned { why: text("past its use") }),
        bare(keys::about(&event()), &AboutRecord { about: text("the spray advice") }),
        bare(
            keys::cell(Kind::Forecast, cell),
            &ForecastRecord {
                fetched: at(0),
                credit: text("Weather by example"),
                hours: hours().to_record(),
            },
        ),
        bare(keys::past_day(cell, date()), &DayRecord { hours: hours().to_record() }),
        written(keys::cell(Kind::Normals, cell), [normals()]),
        bare(keys::budget("open-meteo"), &BudgetRecord { day: date(), spent: 12.5 }),
    ]
    .concat()
}

fn lines(examples: &[(Vec<u8>, Vec<u8>)]) -> String {
    let line = |(key, bytes): &(Vec<u8>, Vec<u8>)| {
        format!("{} {}", keys::shown(key), String::from_utf8_lossy(bytes))
    };
    examples.iter().map(line).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_bytes_of_every_kind() {
    insta::assert_snapshot!(lines(&examples()));
}

/// What each version wrote. A line here is never changed: it stands for the disks of growers. New kinds of
/// records are added at the end; a new version begins a new file.
#[test]
fn every_version_is_still_read() {
    let versions = [include_str!("tests/version-1.txt")];
    let keys: Vec<Vec<u8>> = examples().into_iter().map(|(key, _)| key).collect();
    for (shown, bytes) in versions.into_iter().flat_map(str::lines).filter_map(|line| line.split_once(" {")) {
        let key = keys.iter().find(|key| keys::shown(key) == shown).expect("an example of the same kind");
        let bytes = format!("{{{bytes}");
        assert_eq!(check(key, bytes.as_bytes()), Ok(()), "{bytes}");
        let Version { v } = serde_json::from_str(&bytes).expect("a version");
        if v == VERSION {
            let again = rewritten(key, bytes.as_bytes());
            assert_eq!(String::from_utf8(again).expect("text"), bytes, "{shown}");
        }
    }
}

/// The bytes after a record was read and written again, by way of the type it is the record of.
fn rewritten(key: &[u8], bytes: &[u8]) -> Vec<u8> {
    fn of<T>(key: &[u8], bytes: &[u8]) -> Vec<u8>
    where
        T: Recorded,
        T::Record: DeserializeOwned + Serialize,
    {
        write_of(&read_of::<T>(key, bytes).expect("read")).expect("written")
    }
    fn bare<T: DeserializeOwned + Serialize>(key: &[u8], bytes: &[u8]) -> Vec<u8> {
        write(&read::<T>(key, bytes).expect("read")).expect("written")
    }
    match keys::parse(key).expect("a key").kind {
        Kind::Journal => of::<Act>(key, bytes),
        Kind::Told => of::<Told>(key, bytes),
        Kind::Question => of::<OpenQuestion>(key, bytes),
        Kind::Inbox => of::<Inbound>(key, bytes),
        Kind::Normals => of::<FrostNormals>(key, bytes),
        Kind::Garden => bare::<GardenRecord>(key, bytes),
        Kind::Wake => bare::<WakeRecord>(key, bytes),
        Kind::Seen => bare::<SeenRecord>(key, bytes),
        Kind::Outbox => bare::<OutboundRecord>(key, bytes),
        Kind::Sent => bare::<SentRecord>(key, bytes),
        Kind::About => bare::<AboutRecord>(key, bytes),
        Kind::Forecast => bare::<ForecastRecord>(key, bytes),
        Kind::Past => bare::<DayRecord>(key, bytes),
        Kind::Budget => bare::<BudgetRecord>(key, bytes),
        Kind::Note => bytes.to_vec(),
    }
}

#[test]
fn what_is_read_is_what_was_written() {
    let acts: Vec<Act> = acts();
    assert_eq!(Vec::<Act>::of_record(acts.to_record()), acts);
    assert_eq!(Vec::<Told>::of_record(told().to_record()), told());
    assert_eq!(Vec::<OpenQuestion>::of_record(questions().to_record()), questions());
    assert_eq!(Vec::<Inbound>::of_record(letters().to_record()), letters());
    assert_eq!(Vec::<Hour>::of_record(hours().to_record()), hours());
    assert_eq!(FrostNormals::of_record(normals().to_record()), normals());
    for message in messages() {
        let waiting: crate::post::Waiting = OutboundRecord::new(&message, None).into();
        assert_eq!(waiting.outbound, message);
    }
}

/// A variant without an example could change its bytes unseen.
#[test]
fn every_variant_has_an_example() {
    let written = lines(&examples());
    let variants = [
        TimingRecord::VARIANTS,
        WithdrawalRecord::VARIANTS,
        WhatRecord::VARIANTS,
        ReportRecord::VARIANTS,
        RustAmountRecord::VARIANTS,
        RustWordsRecord::VARIANTS,
        LeafLevelRecord::VARIANTS,
        MoistureStateRecord::VARIANTS,
        StageRecord::VARIANTS,
        WhereaboutsRecord::VARIANTS,
        SettingRecord::VARIANTS,
        UnitSystemRecord::VARIANTS,
        QuietRecord::VARIANTS,
        ListeningRecord::VARIANTS,
        RoleRecord::VARIANTS,
        PottedRecord::VARIANTS,
        BearingRecord::VARIANTS,
        CropTimeRecord::VARIANTS,
        SusceptibilityRecord::VARIANTS,
        MixRecord::VARIANTS,
        ShelterRecord::VARIANTS,
        FootingRecord::VARIANTS,
        SoilRecord::VARIANTS,
        ActiveRecord::VARIANTS,
        CarrierRecord::VARIANTS,
        LabelListingRecord::VARIANTS,
        RateRecord::VARIANTS,
        LimitRecord::VARIANTS,
        MatterRecord::VARIANTS,
        DoubtKindRecord::VARIANTS,
        RoomKindRecord::VARIANTS,
        AddressedRecord::VARIANTS,
        ContentRecord::VARIANTS,
        UnreadableRecord::VARIANTS,
        KindRecord::VARIANTS,
    ];
    for variant in variants.into_iter().flatten() {
        let name = snake(variant);
        assert!(written.contains(&format!("\"{name}\"")), "{variant} has no example");
    }
    let kinds = Kind::ALL.into_iter().filter(|kind| *kind != Kind::Note);
    for kind in kinds {
        let start = format!("{}/", kind.name());
        assert!(written.lines().any(|line| line.starts_with(&start)), "{} has no example", kind.name());
    }
}

fn snake(variant: &str) -> String {
    variant.char_indices().fold(String::new(), |name, (index, letter)| {
        let step = if letter.is_uppercase() && index > 0 { "_" } else { "" };
        format!("{name}{step}{}", letter.to_ascii_lowercase())
    })
}

#[test]
fn what_cannot_be_read_is_named_with_the_next_step() {
    let key = keys::numbered(Kind::Journal, &GardenId::new("plot"), 12);
    let rows = [
        (
            r#"{"v":2,"act":"unheard_of"}"#,
            "record journal/plot/12 was written by a newer leafhold (version 2)",
        ),
        (r#"{"v":1,"act":"unheard_of"}"#, "record journal/plot/12 cannot be read: unknown variant"),
        (r#"{"v":1}"#, "record journal/plot/12 cannot be read: missing field `act`"),
        (r#"{"act":"enter"}"#, "record journal/plot/12 cannot be read: missing field `v`"),
        ("", "record journal/plot/12 cannot be read: EOF"),
        ("[1", "record journal/plot/12 cannot be read"),
        ("\u{0}\u{1}", "record journal/plot/12 cannot be read"),
    ];
    for (bytes, expected) in rows {
        let flaw = check(&key, bytes.as_bytes()).expect_err("a flaw").to_string();
        assert!(flaw.starts_with(expected), "{flaw}");
        assert!(flaw.contains("export"), "{flaw} says no next step");
    }
}

#[test]
fn a_number_that_is_none_is_refused_before_it_is_on_disk() {
    for value in [f64::NAN, f64::INFINITY] {
        let rained =
            What::Report { trees: vec![], report: Report::Rained { depth: Millimetres::new(value) } };
        let entry = Entry {
            who: ana(),
            event: event(),
            said: at(0),
            happened: at(0),
            timing: Timing::Told,
            what: rained,
        };
        let error = write_of(&Act::Enter(entry)).expect_err("no number").to_string();
        assert!(error.contains("ActRecord") && error.contains("nothing was changed"), "{error}");
    }
}
