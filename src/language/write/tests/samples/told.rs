use super::advice::{frost, night, thirsty};
use super::*;
use crate::season::garden::{Label, LabelListing};
use crate::season::journal::*;
use crate::season::request::{Aside, Deed, Doubt, DoubtKind};

pub(super) fn all() -> Vec<(&'static str, Vec<Answer>)> {
    let mut samples = noted();
    samples.extend(picking());
    samples.extend(trees());
    samples.extend(views());
    samples.extend(doubted());
    samples.extend(briefs());
    samples
}

fn item(trees: &[&str], when: &str, report: Report) -> NotedItem {
    // A moment at seven was told; the others stand for a day.
    let timing = if when.contains("T07:") { Timing::Told } else { Timing::Assumed };
    NotedItem { trees: words(trees), whole_garden: trees.len() == 6, happened: at(when), timing, report }
}

const GARDEN: [&str; 6] = ["Celeste", "Big One", "Eave", "Wall", "Corner", "Whip"];
const TODAY: &str = "2027-07-05T06:30:00-04:00";
const YESTERDAY: &str = "2027-07-04T07:00:00-04:00";
const LAST_WEEK: &str = "2027-06-29T12:00:00-04:00";

fn seen(amount: RustAmount, level: Option<LeafLevel>) -> Report {
    Report::Scouted { amount, level }
}

fn copper() -> Report {
    Report::Sprayed { product: String::from("copper"), volume: Some(Litres::from_gallons(2.0)) }
}

fn usual_reports() -> Vec<NotedItem> {
    let watered = Report::Watered { volume: Some(Litres::from_gallons(2.0)), depth: None };
    let weighed = Report::Weighed { mass: Kilograms::new(31.2), state: MoistureState::Wet };
    let leaves = RustAmount::Leaves { spotted: 30, of: 100 };
    vec![
        item(&["Wall"], TODAY, seen(RustAmount::Severity(part(12.5)), Some(LeafLevel::Lower))),
        item(&["Corner"], TODAY, seen(RustAmount::None, None)),
        item(&["Eave"], TODAY, seen(leaves, Some(LeafLevel::Whole))),
        item(&["Whip"], "2027-07-04T18:00:00-04:00", Report::LeafDrop { share: Some(part(50.0)) }),
        item(&GARDEN, YESTERDAY, copper()),
        item(&["Celeste", "Big One"], "2027-07-02T07:10:00-04:00", watered),
        item(&["Celeste"], LAST_WEEK, Report::Moisture { state: MoistureState::Dry }),
        item(&["Celeste"], "2027-06-28T07:00:00-04:00", weighed),
        item(&[], LAST_WEEK, Report::Rained { depth: Millimetres::from_inches(0.25) }),
        item(&["Celeste"], "2027-04-12T12:00:00-04:00", Report::Stage { stage: Stage::LeafOut }),
    ]
}

fn odd_reports() -> Vec<NotedItem> {
    let photo = Report::Photo { caption: Some(String::from("the \"big\" branch")), reference: None };
    vec![
        item(&["Wall"], TODAY, seen(RustAmount::Words(RustWords::Trace), None)),
        item(&["Wall"], TODAY, seen(RustAmount::Class(3), Some(LeafLevel::Upper))),
        item(&["Wall"], TODAY, Report::LeafDrop { share: None }),
        item(&["Wall"], TODAY, Report::Watered { volume: None, depth: Some(Millimetres::new(25.4)) }),
        item(&[], TODAY, Report::Frost { minimum: Some(Celsius::new(-1.7)) }),
        item(&["Celeste"], TODAY, Report::Note { text: String::from("ants on the <trunk>, see @room") }),
        item(&["Celeste"], TODAY, photo),
        item(&["Wall"], TODAY, Report::Removed),
        item(&["Whip"], LAST_WEEK, Report::Planted),
    ]
}

fn label() -> Label {
    Label {
        interval: Some(Days::new(10.0)),
        most_applications: Some(6),
        before_harvest: Some(Days::new(1.0)),
        before_reentry: Some(Hours::new(24.0)),
        lists_figs: Some(LabelListing::Listed),
        ..Label::default()
    }
}

fn product(label: Label, last: Option<&str>, trees: &[(&str, u32, Option<f64>)]) -> Vec<Answer> {
    let used = |(tree, sprays, copper): &(&str, u32, Option<f64>)| TreeUse {
        tree: (*tree).to_owned(),
        sprays: *sprays,
        copper: copper.map(GramsPerSquareMetre::new),
    };
    vec![Answer::Product(ProductView {
        products: vec![ProductUse {
            name: String::from("copper"),
            label,
            sprays: trees.iter().map(|(_, sprays, _)| *sprays).max().unwrap_or(0),
            last: last.map(|last| last.parse().expect("a date")),
            copper_yearly: Some(GramsPerSquareMetre::new(0.6)),
            trees: trees.iter().map(used).collect(),
        }],
    })]
}

fn noted() -> Vec<(&'static str, Vec<Answer>)> {
    let back = |items: Vec<NotedItem>, because, settings| {
        vec![Answer::TakenBack(TakenBack { items, because, settings })]
    };
    let done = |trees: &[&str], items, earlier| {
        vec![Answer::Done(DoneView { trees: words(trees), deed: None, items, earlier })]
    };
    let sprayed = item(&GARDEN, YESTERDAY, copper());
    let picked = Report::Picked { count: Some(9), mass: Some(Kilograms::from_pounds(1.0)) };
    vec![
        (
            "noted_with_assumptions",
            vec![Answer::Noted(Noted {
                items: vec![sprayed.clone()],
                assumptions: vec![
                    Assumption::AllTrees,
                    Assumption::AfterRain { at: at("2027-07-04T07:30:00-04:00") },
                    Assumption::Spelling { typed: String::from("coppr"), read: String::from("copper") },
                ],
            })],
        ),
        (
            "noted_other_assumptions",
            vec![Answer::Noted(Noted {
                items: vec![item(&["Big One"], TODAY, picked), item(&["Wall"], YESTERDAY, copper())],
                assumptions: vec![
                    Assumption::Time { at: at("2027-07-04T18:30:00-04:00") },
                    Assumption::NoRainKnown,
                    Assumption::Product { name: String::from("copper") },
                ],
            })],
        ),
        ("taken_back", back(vec![sprayed], TakenBackBecause::Undone, 0)),
        ("taken_back_settings", back(usual_reports()[..1].to_vec(), TakenBackBecause::Deleted, 2)),
        (
            "corrected",
            back(vec![item(&["Wall", "Corner"], YESTERDAY, copper())], TakenBackBecause::Corrected, 0),
        ),
        ("done", done(&[], usual_reports(), 23)),
        ("done_odds_and_ends", done(&["Celeste", "Wall"], odd_reports(), 1)),
        ("done_nothing", done(&["Whip"], Vec::new(), 0)),
        (
            "done_sprays",
            vec![Answer::Done(DoneView {
                trees: words(&["Wall"]),
                deed: Some(Deed::Spray),
                items: vec![item(&["Wall"], YESTERDAY, copper())],
                earlier: 3,
            })],
        ),
        (
            "done_no_watering",
            vec![Answer::Done(DoneView {
                trees: Vec::new(),
                deed: Some(Deed::Water),
                items: Vec::new(),
                earlier: 0,
            })],
        ),
        (
            "product_used",
            product(label(), Some("2027-07-04"), &[("Celeste", 3, Some(0.21)), ("Wall", 2, None)]),
        ),
        (
            "product_used_up",
            product(
                Label { most_applications: Some(3), ..label() },
                Some("2027-07-04"),
                &[("Wall", 3, None)],
            ),
        ),
        ("product_unused", product(Label::default(), None, &[])),
        ("product_unknown", vec![Answer::Product(ProductView { products: Vec::new() })]),
    ]
}

/// Fruit and the waits before harvest: one runs, none runs, one was never told.
fn picking() -> Vec<(&'static str, Vec<Answer>)> {
    let day = |day: &str| -> NaiveDate { day.parse().expect("a date") };
    let wait = HarvestWait {
        trees: words(&["Celeste"]),
        product: String::from("neem"),
        sprayed_on: day("2027-07-04"),
        wait: Days::new(1.0),
        clear_from: day("2027-07-06"),
    };
    let fruit = |tree: &str, product: Option<&str>, on: Option<&str>| SprayedFruit {
        trees: words(&[tree]),
        product: product.map(str::to_owned),
        sprayed_on: on.map(day),
    };
    let last_copper = fruit("Wall", Some("copper"), Some("2027-06-20"));
    let none = PickingView {
        asked_about: 1,
        waits: Vec::new(),
        clear: vec![last_copper.clone()],
        unsure: Vec::new(),
        label: None,
    };
    let label = Some((String::from("neem"), Some(Days::new(1.0))));
    vec![
        (
            "picking_not_everywhere_yet",
            vec![Answer::Picking(PickingView {
                asked_about: 3,
                waits: vec![wait.clone()],
                clear: vec![last_copper, fruit("Corner", None, None)],
                label,
                ..none.clone()
            })],
        ),
        (
            "picking_not_yet",
            vec![Answer::Picking(PickingView { waits: vec![wait], clear: Vec::new(), ..none.clone() })],
        ),
        (
            "picking_wait_untold",
            vec![Answer::Picking(PickingView {
                clear: Vec::new(),
                unsure: vec![fruit("Wall", Some("sulfur"), Some("2027-06-28"))],
                label: Some((String::from("sulfur"), None)),
                ..none.clone()
            })],
        ),
        ("picking_clear", vec![Answer::Picking(none)]),
    ]
}

fn state() -> TreeState {
    let amount = RustAmount::Severity(part(10.0));
    TreeState {
        tree: pot("Celeste", 15.0),
        stage: Some(Stage::Swelling),
        last_scouted: Some(Scouted { on: date(7, 4), amount, severity: part(10.0) }),
        leaf_drop: Some(part(20.0)),
        some_lost: false,
        last_sprayed: Some(LastSpray {
            product: String::from("copper"),
            on: date(6, 26),
            rain_since: Millimetres::new(31.0),
            days: Days::new(9.0),
        }),
        cover: Some(part(31.0)),
        leaves_left: Some(Span { low: part(62.0), high: part(81.0) }),
        pipeline: vec![(
            infection("2027-06-30T20:00:00-04:00", 10, 20.0, InfectionGrade::Moderate),
            date(7, 8),
        )],
        picked: Harvest {
            count: 12,
            mass: Kilograms::new(0.6),
            shared: false,
            first: Some(date(7, 1)),
            last: Some(date(7, 3)),
        },
        water: thirsty().into_iter().nth(1),
        housed: None,
        ripening: Some(Ripening {
            outlook: RipeningOutlook::Likely,
            from: Some(date(7, 25)),
            to: Some(date(8, 12)),
        }),
        moisture_swing: Some(part(55.0)),
        copper: Some(GramsPerSquareMetre::new(0.21)),
    }
}

fn bare_state(name: &str) -> TreeState {
    TreeState {
        tree: Tree::new(name, Stand::ground()),
        stage: None,
        last_scouted: None,
        leaf_drop: None,
        some_lost: false,
        last_sprayed: None,
        cover: None,
        leaves_left: None,
        pipeline: Vec::new(),
        picked: Harvest::default(),
        water: None,
        housed: None,
        ripening: None,
        moisture_swing: None,
        copper: None,
    }
}

fn trees() -> Vec<(&'static str, Vec<Answer>)> {
    let answer = |trees, age| vec![Answer::Tree(TreeView { trees, waits: Vec::new(), age })];
    let clean = Scouted { on: date(6, 20), amount: RustAmount::None, severity: part(0.0) };
    let ripening = |outlook, from: Option<NaiveDate>| TreeState {
        stage: Some(Stage::Fruitlets),
        housed: None,
        ripening: Some(Ripening { outlook, from, to: None }),
        moisture_swing: Some(part(20.0)),
        water: thirsty().into_iter().nth(3),
        ..bare_state("Corner")
    };
    vec![
        ("tree_one", answer(vec![state()], fresh())),
        ("tree_bare", answer(vec![bare_state("Corner")], fresh())),
        ("tree_hopeless", answer(vec![ripening(RipeningOutlook::No, None)], fresh())),
        ("tree_close", answer(vec![ripening(RipeningOutlook::Possible, Some(date(10, 20)))], fresh())),
        (
            "tree_several",
            answer(
                vec![
                    state(),
                    TreeState { last_scouted: Some(clean), ..bare_state("Wall") },
                    bare_state("Corner"),
                ],
                old(),
            ),
        ),
        ("tree_unknown", answer(Vec::new(), fresh())),
    ]
}

fn views() -> Vec<(&'static str, Vec<Answer>)> {
    let mut views = ahead();
    views.extend(seasons());
    views.extend(comparisons());
    views
}

fn ahead() -> Vec<(&'static str, Vec<Answer>)> {
    let day = |day: u32, low: f64, high: f64, rain: f64, wet_hours: u32| AheadDay {
        date: date(7, day),
        minimum: Some(Celsius::new(low)),
        maximum: Some(Celsius::new(high)),
        rain: Some(Millimetres::new(rain)),
        wet_hours,
    };
    let light = infection("2027-07-06T23:00:00-04:00", 7, 20.0, InfectionGrade::Trace);
    let wet = AheadView {
        days: vec![
            day(5, 19.0, 31.0, 0.0, 0),
            day(6, 20.0, 30.0, 0.4, 3),
            day(7, 20.5, 27.0, 12.0, 14),
            day(8, 19.0, 28.0, 2.2, 8),
            day(9, 17.0, 26.0, 0.0, 1),
            day(10, 17.0, 28.0, 0.0, 0),
            day(11, 18.0, 30.0, 0.0, 0),
        ],
        infection: vec![light, wednesday_night()],
        window: Some(window("2027-07-06T16:00:00-04:00", 2)),
        frost: Some(night(date(7, 9), 1.0, FrostRisk::Possible)),
        age: fresh(),
    };
    let quiet = AheadView { infection: Vec::new(), window: None, frost: None, ..wet.clone() };
    let unknown = AheadView { days: Vec::new(), age: DataAge::default(), ..quiet.clone() };
    vec![
        ("ahead", vec![Answer::Ahead(wet)]),
        ("ahead_quiet", vec![Answer::Ahead(quiet)]),
        ("ahead_unknown", vec![Answer::Ahead(unknown)]),
    ]
}

fn seasons() -> Vec<(&'static str, Vec<Answer>)> {
    let empty = SeasonView {
        season: 2027,
        sprays: Vec::new(),
        first_rust: None,
        harvest: Vec::new(),
        infections: 1,
        rain: Millimetres::ZERO,
        disease: Vec::new(),
        leaf_drop: Vec::new(),
        frost: None,
        scoutings: 0,
    };
    let full = SeasonView {
        sprays: vec![(String::from("copper"), 3), (String::from("neem"), 1)],
        first_rust: Some((date(6, 20), words(&["Corner"]))),
        harvest: vec![(String::from("Celeste"), state().picked)],
        infections: 11,
        rain: Millimetres::new(412.0),
        disease: vec![(String::from("Celeste"), part(0.2)), (String::from("Corner"), part(5.4))],
        leaf_drop: vec![(String::from("Corner"), part(50.0))],
        frost: Some(date(7, 4)),
        scoutings: 14,
        ..empty.clone()
    };
    let clean = SeasonView { scoutings: 14, ..empty.clone() };
    vec![
        ("season", vec![Answer::Season(full)]),
        ("season_clean", vec![Answer::Season(clean)]),
        ("season_empty", vec![Answer::Season(empty)]),
    ]
}

fn comparisons() -> Vec<(&'static str, Vec<Answer>)> {
    let group = |trees: u32, scouted: u32, disease: Option<f64>, count: u32| GroupFigures {
        trees,
        scouted,
        disease: disease.map(part),
        swing: (trees == 5).then(|| part(55.0)),
        harvest: Harvest { count, first: (count > 0).then(|| date(7, 1)), ..Harvest::default() },
    };
    let compare = |pots, ground, test| vec![Answer::Compare(CompareView { pots, ground, test })];
    vec![
        (
            "compare_too_few",
            compare(
                group(4, 3, Some(2.0), 24),
                group(2, 1, None, 0),
                CompareTest::NotTestable { smallest_p: Some(0.5) },
            ),
        ),
        (
            "compare_tested",
            compare(
                group(5, 5, Some(9.0), 61),
                group(4, 4, Some(3.0), 80),
                CompareTest::Tested { p: 0.016, smallest_p: 0.016 },
            ),
        ),
        (
            "compare_no_difference",
            compare(
                group(5, 5, Some(4.0), 61),
                group(4, 4, Some(3.0), 80),
                CompareTest::Tested { p: 0.41, smallest_p: 0.016 },
            ),
        ),
    ]
}

fn doubted() -> Vec<(&'static str, Vec<Answer>)> {
    let doubt = |kind, typed: &str, candidates: &[&str]| {
        Answer::Doubtful(Doubt { kind, words: typed.to_owned(), candidates: words(candidates) })
    };
    let long_ago = NaiveDate::from_ymd_opt(2026, 6, 1).expect("a date");
    vec![
        (
            "doubt_trees",
            vec![
                doubt(DoubtKind::UnknownTree, "Selest", &["Celeste", "Eave"]),
                doubt(DoubtKind::UnknownTree, "Bob", &[]),
                doubt(DoubtKind::NamelessTree, "I have a fig in a pot", &[]),
                doubt(DoubtKind::WhichTree, "the brown turkey", &["Big One", "Wall"]),
                doubt(DoubtKind::WhichTree, "it", &[]),
            ],
        ),
        (
            "doubt_products",
            vec![
                doubt(DoubtKind::UnknownProduct, "bluestone", &["copper", "sulfur"]),
                doubt(DoubtKind::UnknownProduct, "bluestone", &[]),
                doubt(DoubtKind::WhichProduct, "sprayed the pots", &["copper", "sulfur", "neem"]),
                doubt(DoubtKind::WhichProduct, "sprayed the pots", &[]),
            ],
        ),
        (
            "doubt_amounts_and_days",
            vec![
                doubt(DoubtKind::HowMuch, "gauge", &[]),
                doubt(DoubtKind::ImpossibleAmount, "140%", &[]),
                doubt(DoubtKind::ImpossibleDate, "june 31", &[]),
                doubt(DoubtKind::StillToCome, "sprayed tomorrow", &[]),
            ],
        ),
        (
            "doubt_lost",
            vec![
                doubt(DoubtKind::OutOfStock, "copper", &[]),
                doubt(DoubtKind::UnclearReport, "pots done!", &[]),
            ],
        ),
        (
            "doubt_words",
            vec![
                doubt(DoubtKind::NotUnderstood, "flurb the gauge", &[]),
                doubt(DoubtKind::LookAlikeLetters, "сeleste", &[]),
                doubt(DoubtKind::OtherLanguage, "las hojas", &[]),
                doubt(DoubtKind::NothingThere, "undo", &[]),
                doubt(DoubtKind::UnknownPlace, "Figtown", &[]),
                doubt(DoubtKind::UnknownSetting, "set the moon to full", &[]),
                doubt(DoubtKind::UnknownPerson, "Tino", &[]),
            ],
        ),
        (
            "asides",
            [Aside::Plan, Aside::Condition, Aside::Elsewhere, Aside::Thanks, Aside::Talk]
                .into_iter()
                .map(|aside| Answer::Aside { aside })
                .collect(),
        ),
        (
            "refusals",
            [
                Refusal::NotKeeper,
                Refusal::Stranger,
                Refusal::TooLongAgo { date: long_ago },
                Refusal::NotYours,
            ]
            .into_iter()
            .map(|refusal| Answer::Refused { refusal })
            .collect(),
        ),
    ]
}

fn briefs() -> Vec<(&'static str, Vec<Answer>)> {
    let brief = |items: Vec<BriefItem>, caught_up: u32, age: DataAge| {
        vec![Answer::Brief(Brief { date: date(7, 5), items, caught_up, age })]
    };
    let pots = || words(&["Celeste", "Big One", "Whip"]);
    let job = |job| BriefItem::Job { job, trees: pots() };
    let over = SeasonOver {
        days_to_frost: 30,
        date: date(8, 4),
        basis: FrostBasis::Own,
        minutes_per_day: Some(2.6),
        latent_days: Some(Days::new(8.6)),
    };
    let rain = BriefItem::PickBeforeRain {
        trees: words(&["Celeste"]),
        rain_from: at("2027-07-05T22:00:00-04:00"),
        rain: Millimetres::new(18.0),
    };
    let scout = |days| BriefItem::Scout { trees: pots(), days };
    let water = |trees: &[TreeWater], hottest| BriefItem::Water { trees: trees.to_vec(), hottest };
    let signs = infection("2027-06-26T20:00:00-04:00", 15, 21.0, InfectionGrade::Severe);
    let hot = Celsius::new(35.0);
    let busy = vec![water(&thirsty()[..2], Some(hot)), rain, scout(Some(12)), job(Job::StopFeeding)];
    let missed = vec![BriefItem::OldWeather, BriefItem::MissedAlarm { date: date(7, 4) }];
    let mut briefs = vec![
        ("brief_busy", brief(busy, 0, fresh())),
        ("brief_one_thirsty", brief(vec![water(&thirsty()[..1], None)], 0, fresh())),
        ("brief_frost", brief(vec![BriefItem::Frost(frost())], 2, fresh())),
        (
            "brief_first_look",
            brief(vec![scout(None), BriefItem::FirstSigns { infection: signs }], 0, fresh()),
        ),
        ("brief_season_over", brief(vec![BriefItem::SeasonOver(over.clone())], 0, fresh())),
        ("brief_old_weather", brief(missed, 1, old())),
        ("brief_heat", brief(vec![BriefItem::Heat { hottest: hot }], 0, fresh())),
        ("job_prune", brief(vec![job(Job::Prune), job(Job::Repot)], 0, fresh())),
        ("job_spring", brief(vec![job(Job::FirstLeaves), job(Job::StopFeeding)], 0, fresh())),
        ("job_fall", brief(vec![job(Job::RemoveLateFruit), job(Job::ShelterPots)], 0, fresh())),
        ("job_winter", brief(vec![job(Job::LeafFallTidy), job(Job::WinterWater)], 0, fresh())),
        ("job_tidy", brief(vec![job(Job::DormantTidy), job(Job::BringOut)], 0, fresh())),
        ("season_over", vec![Answer::SeasonOver(over)]),
        ("missed", vec![Answer::Missed { days: 3 }]),
    ];
    briefs.extend(watching());
    briefs
}

fn watching() -> Vec<(&'static str, Vec<Answer>)> {
    let light = infection("2027-07-06T22:00:00-04:00", 9, 20.0, InfectionGrade::Trace);
    let watching = |next_infection, cover: Option<f64>, age| {
        vec![Answer::Watching(Watching { date: date(7, 5), next_infection, cover: cover.map(part), age })]
    };
    vec![
        ("watching", watching(Some(light), Some(52.0), fresh())),
        ("watching_bare_trees", watching(None, None, fresh())),
        ("watching_without_weather", watching(None, Some(0.0), DataAge::default())),
    ]
}
