use chrono::NaiveTime;

use super::*;
use crate::identity::{PersonId, RoomId};
use crate::season::request::{Potted, ProductDetails, Setting, TreeDetails};
use crate::season::thresholds::Limit;

pub(super) fn all() -> Vec<(&'static str, Vec<Answer>)> {
    let mut samples = steps();
    samples.extend(settings());
    samples.extend(known());
    samples
}

fn steps() -> Vec<(&'static str, Vec<Answer>)> {
    let named = |missing: Missing| Answer::SetUp { missing: vec![missing] };
    vec![
        ("help", vec![Answer::Help]),
        ("welcome", vec![Answer::Welcome { missing: vec![Missing::Position, Missing::Trees] }]),
        ("welcome_back", vec![Answer::Welcome { missing: Vec::new() }]),
        ("set_up_done", vec![Answer::SetUp { missing: Vec::new() }]),
        (
            "set_up_steps",
            vec![
                named(Missing::Trees),
                named(Missing::Products),
                named(Missing::Label { product: String::from("copper") }),
                named(Missing::FrostDate),
                named(Missing::PotSize { tree: String::from("Celeste") }),
            ],
        ),
        ("forget", vec![Answer::ForgetAsked]),
        ("forgotten", vec![Answer::Forgotten]),
    ]
}

fn settings() -> Vec<(&'static str, Vec<Answer>)> {
    let settled = |settings: Vec<Setting>, missing: Vec<Missing>| vec![Answer::Settled { settings, missing }];
    let off = Setting::RemoveProduct { name: String::from("neem") };
    vec![
        ("settled_place", settled(vec![position()], vec![Missing::Trees])),
        ("settled_trees", settled(vec![celeste(), wall()], vec![Missing::Products])),
        ("settled_list", settled(vec![celeste(), wall(), celeste()], vec![Missing::Products])),
        ("settled_product", settled(vec![copper(), off], Vec::new())),
        ("settled_rhythm", settled(rhythm(), Vec::new())),
        ("settled_people", settled(people(), Vec::new())),
        ("settled_limits", settled(limits(), Vec::new())),
    ]
}

fn known() -> Vec<(&'static str, Vec<Answer>)> {
    let new = GardenView {
        name: String::new(),
        place: None,
        position: None,
        zone: None,
        units: UnitSystem::Metric,
        first_frost: None,
        frost_basis: None,
        last_frost: None,
        trees: Vec::new(),
        products: Vec::new(),
        people: Vec::new(),
        missing: vec![Missing::Position],
        ..garden()
    };
    let fairhopes = vec![
        place("Fairhope", Some("Alabama"), Some("United States")),
        place("Fairhope", Some("Ohio"), Some("United States")),
        place("Fairhope", None, None),
    ];
    let places = |name: &str, places| vec![Answer::Places { name: name.to_owned(), places }];
    vec![
        ("garden", vec![Answer::Garden(garden())]),
        ("garden_new", vec![Answer::Garden(new)]),
        ("places", places("Fairhope", fairhopes)),
        ("places_none", places("Figtown", Vec::new())),
    ]
}

fn place(name: &str, region: Option<&str>, country: Option<&str>) -> Place {
    Place {
        name: name.to_owned(),
        region: region.map(str::to_owned),
        country: country.map(str::to_owned),
        position: fairhope(),
    }
}

fn fairhope() -> Position {
    Position::new(30.52, -87.9).expect("a position")
}

fn position() -> Setting {
    Setting::Position {
        position: fairhope(),
        place: Some(String::from("Fairhope")),
        zone: Some(String::from("America/Chicago")),
    }
}

fn celeste() -> Setting {
    Setting::Tree(TreeDetails {
        name: String::from("Celeste"),
        volume: Some(Litres::from_gallons(15.0)),
        width: Some(Metres::from_feet(4.0)),
        shelter: Some(Shelter::FromRain),
        ..TreeDetails::default()
    })
}

fn wall() -> Setting {
    Setting::Tree(TreeDetails {
        name: String::from("Wall"),
        cultivar: Some(String::from("Brown Turkey")),
        potted: Some(Potted::InGround),
        bearing: Some(Bearing::Young),
        mulch: Some(Metres::new(0.05)),
        compost: Some(Metres::new(0.1)),
        ..TreeDetails::default()
    })
}

fn copper() -> Setting {
    Setting::Product(ProductDetails {
        name: String::from("copper"),
        active: Some(Active::Copper),
        rate: Some(Rate::MillilitresPerLitre(7.8124)),
        interval: Some(Days::new(10.0)),
        most_applications: Some(6),
        before_harvest: Some(Days::new(1.0)),
        before_reentry: Some(Hours::new(24.0)),
        hottest: Some(Celsius::from_fahrenheit(90.0)),
        lists_figs: Some(LabelListing::Listed),
        ..ProductDetails::default()
    })
}

fn rhythm() -> Vec<Setting> {
    let day = |month, day| YearDay::new(month, day).expect("a day");
    vec![
        Setting::Name { name: String::from("Quince Lane") },
        Setting::Place { name: String::from("Fairhope") },
        Setting::FirstFrost { date: day(11, 5) },
        Setting::LastFrost { date: day(4, 10) },
        Setting::Units { units: UnitSystem::Us },
        Setting::Units { units: UnitSystem::Metric },
        Setting::Morning { time: NaiveTime::from_hms_opt(6, 30, 0).expect("a time") },
        Setting::Quiet { quiet: Quiet::Until(date(7, 11)) },
        Setting::Quiet { quiet: Quiet::UntilTold },
        Setting::Quiet { quiet: Quiet::Speaking },
        Setting::Listening { listening: Listening::ToEverything },
        Setting::Listening { listening: Listening::WhenAddressed },
        Setting::RenameTree { from: String::from("Celeste"), to: String::from("Old Lady") },
        Setting::Here,
    ]
}

fn people() -> Vec<Setting> {
    let bo = || PersonId::new("@bo:example.org");
    vec![
        Setting::Person { id: bo(), name: String::from("bo"), role: Role::Helper },
        Setting::Person { id: bo(), name: String::from("bo"), role: Role::Keeper },
        Setting::RemovePerson { id: bo() },
        Setting::Room { room: RoomId::new("!plot:example.org") },
    ]
}

fn limits() -> Vec<Setting> {
    [
        (Limit::SulfurOilDays, 21.0),
        (Limit::SulfurHottest, 30.0),
        (Limit::CopperYearly, 0.3),
        (Limit::SprayIntervalDays, 10.0),
        (Limit::ScoutEveryDays, 14.0),
        (Limit::HeatWatering, 30.0),
    ]
    .into_iter()
    .map(|(limit, value)| Setting::Limit { limit, value })
    .collect()
}

fn garden() -> GardenView {
    let copper = Product {
        label: Label {
            rate: Some(Rate::GramsPerLitre(2.0)),
            interval: Some(Days::new(10.0)),
            before_harvest: Some(Days::new(1.0)),
            lists_figs: Some(LabelListing::NotListed),
            ..Label::default()
        },
        ..Product::new("copper", Active::Copper)
    };
    let oily = Product { carrier: Carrier::Oil, ..Product::new("summer mix", Active::Other) };
    GardenView {
        name: String::from("Quince Lane"),
        place: Some(String::from("Fairhope")),
        position: Some(fairhope()),
        zone: Some(String::from("America/Chicago")),
        units: UnitSystem::Us,
        morning: NaiveTime::from_hms_opt(6, 30, 0).expect("a time"),
        first_frost: YearDay::new(11, 5),
        frost_basis: Some(FrostBasis::Normals),
        last_frost: YearDay::new(4, 10),
        trees: vec![
            pot("Celeste", 15.0),
            Tree { cultivar: Some(String::from("Brown Turkey")), ..Tree::new("Wall", Stand::ground()) },
            Tree { bearing: Bearing::Young, ..Tree::new("Whip", Stand::pot(None)) },
        ],
        products: vec![copper, oily],
        people: vec![(String::from("Ana"), Role::Keeper), (String::from("Bo"), Role::Helper)],
        missing: vec![Missing::PotSize { tree: String::from("Whip") }],
    }
}
