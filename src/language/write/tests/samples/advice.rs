use super::*;

pub(super) fn all() -> Vec<(&'static str, Vec<Answer>)> {
    let mut samples = spraying();
    samples.extend(leaving());
    samples.extend(watering());
    samples.extend(freezing());
    samples.extend(mixing());
    samples.extend(rules());
    samples
}

fn verdict(name: &str, worth: Worth, cover: Option<f64>, reasons: Vec<Reason>) -> TreeVerdict {
    TreeVerdict {
        tree: name.to_owned(),
        worth,
        standing: if worth == Worth::Leave { Standing::Left } else { Standing::Due },
        cover: cover.map(part),
        reasons,
        kept_until: None,
        kept_unsprayed: None,
        kept_sprayed: None,
    }
}

fn trees() -> Vec<TreeVerdict> {
    vec![
        TreeVerdict {
            kept_until: Some(date(9, 25)),
            kept_unsprayed: Some(Span { low: part(35.0), high: part(60.0) }),
            kept_sprayed: Some(Span { low: part(70.0), high: part(88.0) }),
            ..verdict("Celeste", Worth::Protect, Some(31.0), vec![Reason::CropAtStake])
        },
        verdict("Wall", Worth::Protect, Some(55.0), Vec::new()),
        verdict("Corner", Worth::OnlyIfPressed, Some(31.0), Vec::new()),
        verdict("Whip", Worth::Leave, None, vec![Reason::TooYoung]),
    ]
}

fn spray() -> SprayAdvice {
    SprayAdvice {
        verdict: Verdict::Spray,
        window: Some(window("2027-07-06T16:00:00-04:00", 2)),
        second: Some(window("2027-07-07T08:00:00-04:00", 3)),
        product: Some(String::from("copper")),
        active: Some(Active::Copper),
        cover: part(31.0),
        infection: vec![wednesday_night()],
        days_to_frost: Some(123),
        reasons: vec![
            Reason::InfectionAhead { infection: wednesday_night(), most: Some(Hours::new(14.0)) },
            Reason::CoverThin { cover: part(31.0), rain: Millimetres::new(31.0), days: Days::new(9.2) },
            Reason::NewLeavesBare { leaves: 3.0 },
            Reason::RustSeen { tree: String::from("Celeste"), severity: part(10.0), on: date(7, 4) },
            Reason::CropAtStake,
            Reason::InPipeline {
                infection: infection("2027-06-30T20:00:00-04:00", 10, 20.0, InfectionGrade::Moderate),
                first_signs: date(7, 8),
            },
            Reason::DaysToFrost { days: 123, date: date(11, 5), basis: FrostBasis::Own },
        ],
        trees: trees(),
        cautions: vec![
            Caution::LabelFirst,
            Caution::GlovesAndEyes,
            Caution::PeopleBeesWater,
            Caution::CopperBuildsUp,
            Caution::ReEntryAndHarvest,
            Caution::LocalRules,
        ],
        waits: Vec::new(),
        age: fresh(),
    }
}

/// A verdict that names no product and no hours.
fn without_spray(verdict: Verdict, reasons: Vec<Reason>) -> SprayAdvice {
    SprayAdvice {
        verdict,
        window: None,
        second: None,
        product: None,
        active: None,
        infection: Vec::new(),
        reasons,
        cautions: Vec::new(),
        ..spray()
    }
}

fn answer(advice: SprayAdvice) -> Vec<Answer> {
    vec![Answer::Spray(Box::new(advice))]
}

fn why(advice: SprayAdvice) -> Vec<Answer> {
    vec![Answer::Why(Box::new(advice))]
}

fn spraying() -> Vec<(&'static str, Vec<Answer>)> {
    let started = infection("2027-07-05T02:00:00-04:00", 9, 24.0, InfectionGrade::Moderate);
    let gaps = SprayAdvice {
        window: Some(window("2027-07-05T05:00:00-04:00", 4)),
        second: None,
        product: Some(String::from("sulfur")),
        active: Some(Active::Sulfur),
        reasons: vec![
            Reason::InfectionAhead { infection: started, most: None },
            Reason::NeverSprayed,
            Reason::CleanLeaves,
            Reason::FrostUnknown,
            Reason::LabelUnknown { missing: LabelItem::Figs },
        ],
        trees: trees().into_iter().take(2).collect(),
        cautions: vec![
            Caution::LabelFirst,
            Caution::GlovesAndEyes,
            Caution::DustMask,
            Caution::PeopleBeesWater,
            Caution::SulfurAndOil,
            Caution::SulfurHeat,
            Caution::ReEntryAndHarvest,
            Caution::LocalRules,
        ],
        age: old(),
        ..spray()
    };
    let differ = vec![
        Reason::InfectionAhead { infection: wednesday_night(), most: Some(Hours::new(14.0)) },
        Reason::CoverThin { cover: part(20.0), rain: Millimetres::new(44.0), days: Days::new(11.0) },
        Reason::RulesDiffer { trade: Worth::Leave, computed: Worth::OnlyIfPressed },
        Reason::DaysToFrost { days: 52, date: date(8, 26), basis: FrostBasis::Own },
        Reason::CropBy { date: date(8, 20) },
    ];
    let no_window = vec![
        Reason::NoWindow { obstacle: Obstacle::RainComing },
        Reason::InfectionAhead { infection: wednesday_night(), most: Some(Hours::new(14.0)) },
        Reason::WashedOff { rain: Millimetres::new(58.0) },
        Reason::IntervalOver { days: Days::new(15.0), interval: Days::new(12.0) },
    ];
    let no_product = SprayAdvice {
        cautions: vec![Caution::LabelFirst, Caution::LocalRules, Caution::Hygiene],
        ..without_spray(
            Verdict::Blocked,
            vec![
                Reason::NoProduct,
                Reason::InfectionAhead { infection: wednesday_night(), most: Some(Hours::new(14.0)) },
            ],
        )
    };
    vec![
        ("spray_now", answer(spray())),
        ("spray_with_gaps", answer(gaps)),
        ("spray_no_window", answer(without_spray(Verdict::NoWindow, no_window))),
        ("spray_no_product", answer(no_product)),
        ("why_spray", why(spray())),
        (
            "why_rules_differ",
            why(SprayAdvice {
                reasons: differ,
                trees: trees().into_iter().skip(1).take(1).collect(),
                ..spray()
            }),
        ),
    ]
}

fn leaving() -> Vec<(&'static str, Vec<Answer>)> {
    let hold = vec![
        Reason::NoInfectionAhead { days: Days::new(5.0) },
        Reason::InfectionPossible { infection: wednesday_night() },
        Reason::CoverHolds { cover: part(72.0), rain: Millimetres::ZERO, days: Days::new(4.0) },
        Reason::DaysToFrost { days: 123, date: date(11, 5), basis: FrostBasis::Own },
    ];
    let late = vec![
        Reason::DaysToFrost { days: 29, date: date(8, 3), basis: FrostBasis::Normals },
        Reason::Shortening { minutes_per_day: 2.3 },
        Reason::Cooling { delta: 1.4 },
        Reason::TooLateToCost { latent: Days::new(9.0), horizon_days: 21 },
        Reason::LittleAtStake { until: date(7, 25), leaves: part(4.0) },
    ];
    let too_late = SprayAdvice {
        trees: vec![
            verdict("Celeste", Worth::Leave, None, late.clone()),
            verdict("Wall", Worth::Leave, None, late.clone()),
        ],
        ..without_spray(Verdict::NotWorthwhile, late)
    };
    let (picked, gone) = (Reason::PickedOut { since: date(7, 1) }, Reason::LeavesGone { share: part(65.0) });
    let mixed = SprayAdvice {
        trees: vec![
            verdict("Celeste", Worth::Leave, None, vec![picked.clone()]),
            verdict("Whip", Worth::Leave, None, vec![Reason::TooYoung]),
            verdict("Eave", Worth::Leave, None, vec![Reason::TooYoung]),
            verdict("Wall", Worth::Leave, None, vec![gone.clone()]),
        ],
        ..without_spray(Verdict::NotWorthwhile, vec![picked, Reason::TooYoung, gone])
    };
    let blind = vec![
        Reason::WeatherUnknown,
        Reason::NoInfectionAhead { days: Days::ZERO },
        Reason::NeverSprayed,
        Reason::Dormant,
    ];
    vec![
        ("spray_hold", answer(without_spray(Verdict::Hold, hold))),
        ("spray_not_worthwhile_late", answer(too_late.clone())),
        ("why_not_worthwhile", why(too_late)),
        ("spray_not_worthwhile_mixed", answer(mixed)),
        (
            "spray_without_weather",
            answer(SprayAdvice { age: DataAge::default(), ..without_spray(Verdict::Hold, blind) }),
        ),
    ]
}

fn water(name: &str, potted: bool, urgency: WaterUrgency, until: f64, litres: f64, used: f64) -> TreeWater {
    TreeWater {
        tree: name.to_owned(),
        potted,
        urgency,
        until_dry: Some(Hours::new(until)),
        volume: Some(Litres::new(litres)),
        times_a_day: 1,
        left: Some(part(48.0)),
        use_a_day: Some(Litres::new(used)),
        drip: None,
        assumed: Vec::new(),
    }
}

pub(super) fn thirsty() -> Vec<TreeWater> {
    vec![
        TreeWater { times_a_day: 2, ..water("Big One", true, WaterUrgency::Now, 0.5, 11.0, 14.0) },
        TreeWater {
            drip: Some(95.0),
            assumed: vec![WaterAssumption::PotSize, WaterAssumption::LastWatering],
            ..water("Celeste", true, WaterUrgency::Today, 7.0, 5.7, 3.9)
        },
        TreeWater {
            assumed: vec![WaterAssumption::Width, WaterAssumption::EstimatedRadiation],
            ..water("Wall", false, WaterUrgency::Tomorrow, 26.0, 95.0, 30.0)
        },
        water("Whip", true, WaterUrgency::Enough, 80.0, 2.0, 0.4),
    ]
}

fn watering() -> Vec<(&'static str, Vec<Answer>)> {
    let answer = |trees: Vec<TreeWater>, rain: f64, age: DataAge| {
        vec![Answer::Water(WaterAdvice {
            housed: Vec::new(),
            trees,
            hottest: Some(Celsius::new(34.4)),
            rain_ahead: Some(Millimetres::new(rain)),
            age,
        })]
    };
    let unknown = TreeWater {
        until_dry: None,
        volume: None,
        left: None,
        use_a_day: None,
        ..water("Celeste", true, WaterUrgency::Unknown, 0.0, 0.0, 0.0)
    };
    let enough = vec![
        water("Celeste", true, WaterUrgency::Enough, 52.0, 4.0, 1.0),
        water("Wall", false, WaterUrgency::Enough, 200.0, 60.0, 12.0),
    ];
    let housed = |tree: &str, since: NaiveDate, bare: bool| HousedTree {
        tree: tree.to_owned(),
        since,
        bare,
        watered: Some(date(6, 12)),
    };
    let inside = WaterAdvice {
        trees: Vec::new(),
        housed: vec![housed("Celeste", date(3, 1), false), housed("Whip", date(3, 2), true)],
        hottest: None,
        rain_ahead: None,
        age: fresh(),
    };
    vec![
        ("water_now", answer(thirsty(), 3.0, fresh())),
        ("water_enough", answer(enough, 14.0, old())),
        ("water_unknown", answer(vec![unknown], 0.0, DataAge::default())),
        ("water_inside", vec![Answer::Water(inside)]),
        ("water_why", vec![Answer::WhyWater(reasons(thirsty()))]),
        (
            "water_why_enough",
            vec![Answer::WhyWater(reasons(vec![water(
                "Celeste",
                true,
                WaterUrgency::Enough,
                52.0,
                4.0,
                1.0,
            )]))],
        ),
        ("water_no_trees", answer(Vec::new(), 0.0, fresh())),
    ]
}

fn reasons(waters: Vec<TreeWater>) -> WaterReasons {
    let reason = |(place, water): (usize, TreeWater)| TreeReasons {
        holds: water.potted.then(|| Litres::new(23.7)),
        watered: (place > 0)
            .then(|| LastWatering { date: date(7, 3), volume: (place == 1).then(|| Litres::new(7.57)) }),
        felt: (water.urgency == WaterUrgency::Now).then_some(crate::season::journal::MoistureState::Dry),
        on_hot_paving: water.urgency == WaterUrgency::Now,
        water,
    };
    WaterReasons {
        trees: waters.into_iter().enumerate().map(reason).collect(),
        hottest: Some(Celsius::new(34.4)),
        rain_ahead: Some(Millimetres::new(3.0)),
        allowed: part(50.0),
        age: fresh(),
    }
}

pub(super) fn frost() -> FrostAdvice {
    FrostAdvice {
        about: Cold::Ahead,
        coldest: Some(night(date(7, 5), -1.2, FrostRisk::Frost)),
        last: None,
        tonight: Some(night(date(7, 5), -1.2, FrostRisk::Frost)),
        next: Some(night(date(7, 5), -1.2, FrostRisk::Frost)),
        days_to_frost: Some(0),
        usual: Some(date(7, 20)),
        early: Some(date(7, 8)),
        basis: Some(FrostBasis::Forecast),
        shelter: words(&["Celeste", "Big One"]),
        cover: words(&["Wall"]),
        housed: Vec::new(),
        out: words(&["Celeste", "Big One", "Wall"]),
        age: fresh(),
    }
}

pub(super) fn night(date: NaiveDate, celsius: f64, risk: FrostRisk) -> FrostNight {
    let morning = date.succ_opt().and_then(|next| next.and_hms_opt(9, 0, 0)).expect("a morning");
    FrostNight { date, minimum: Celsius::new(celsius), at: morning.and_utc(), risk }
}

fn freezing() -> Vec<(&'static str, Vec<Answer>)> {
    let later = FrostAdvice {
        next: Some(night(date(7, 9), 1.4, FrostRisk::Possible)),
        tonight: Some(night(date(7, 5), 9.0, FrostRisk::None)),
        ..frost()
    };
    let some_inside = FrostAdvice {
        shelter: words(&["Big One"]),
        housed: words(&["Celeste"]),
        out: words(&["Big One", "Wall"]),
        ..frost()
    };
    let all_inside = FrostAdvice {
        shelter: Vec::new(),
        cover: Vec::new(),
        housed: words(&["Celeste", "Big One"]),
        out: words(&["Wall"]),
        ..frost()
    };
    let bare = FrostAdvice {
        next: Some(night(date(7, 6), -3.0, FrostRisk::Hard)),
        shelter: Vec::new(),
        cover: Vec::new(),
        usual: None,
        ..frost()
    };
    let none = FrostAdvice {
        next: None,
        days_to_frost: Some(123),
        usual: Some(date(11, 5)),
        early: Some(date(10, 22)),
        basis: Some(FrostBasis::Normals),
        ..frost()
    };
    let unknown = FrostAdvice {
        early: none.usual,
        basis: Some(FrostBasis::Own),
        age: DataAge::default(),
        ..none.clone()
    };
    let near = FrostAdvice {
        usual: Some(date(8, 20)),
        early: Some(date(8, 1)),
        coldest: Some(night(date(7, 9), 5.4, FrostRisk::None)),
        ..none.clone()
    };
    [
        ("frost_tonight", frost()),
        ("frost_pots_only", FrostAdvice { cover: Vec::new(), ..frost() }),
        ("frost_some_inside", some_inside),
        ("frost_all_inside", all_inside),
        ("frost_later", later.clone()),
        ("frost_bare_trees", bare),
        ("frost_asked_tonight", FrostAdvice { about: Cold::Tonight, ..later.clone() }),
        ("frost_asked_first", FrostAdvice { about: Cold::FirstFrost, ..none.clone() }),
        ("frost_asked_first_unknown", FrostAdvice { about: Cold::FirstFrost, usual: None, ..none.clone() }),
        ("frost_asked_last", FrostAdvice { about: Cold::LastFrost, last: Some(date(4, 10)), ..none.clone() }),
        ("frost_asked_shelter", FrostAdvice { about: Cold::Shelter, ..none.clone() }),
        ("frost_none_near", near.clone()),
        (
            "frost_none_inside",
            FrostAdvice { housed: words(&["Celeste"]), out: words(&["Wall"]), ..near.clone() },
        ),
        ("frost_asked_shelter_near", FrostAdvice { about: Cold::Shelter, ..near }),
        ("frost_none", none.clone()),
        ("frost_unknown", unknown),
    ]
    .into_iter()
    .map(|(name, advice)| (name, vec![Answer::Frost(advice)]))
    .collect()
}

fn mixing() -> Vec<(&'static str, Vec<Answer>)> {
    let cautions = vec![
        Caution::LabelFirst,
        Caution::GlovesAndEyes,
        Caution::DustMask,
        Caution::CopperWater,
        Caution::Emergency,
    ];
    let mix = |rate: Option<Rate>, litres: Option<f64>, missing: Vec<MixMissing>| {
        let amount = rate.zip(litres).map(|(rate, litres)| {
            let (Rate::GramsPerLitre(rate) | Rate::MillilitresPerLitre(rate)) = rate;
            rate * litres
        });
        let product = (!missing.contains(&MixMissing::Product)).then(|| String::from("copper"));
        let (volume, cautions) = (litres.map(Litres::new), cautions.clone());
        vec![Answer::Mix(MixAnswer { product, rate, volume, amount, missing, cautions })]
    };
    let powder = Some(Rate::GramsPerLitre(2.0));
    let spoon = Some(Rate::MillilitresPerLitre(7.8124));
    let together = |other: &str, apart: Option<Apart>| {
        vec![Answer::Together(TogetherAnswer {
            one: String::from(if apart.is_some() { "sulfur" } else { "copper" }),
            other: String::from(other),
            apart,
        })]
    };
    let apart = Some(Apart { usually: Days::new(14.0), in_heat: Days::new(21.0) });
    vec![
        ("together_never", together("neem", apart)),
        ("together_labels", together("neem", None)),
        ("mix_powder", mix(powder, Some(7.57), Vec::new())),
        ("mix_spoons", mix(spoon, Some(7.57), Vec::new())),
        ("mix_how_much_water", mix(powder, None, vec![MixMissing::Volume])),
        ("mix_no_rate", mix(None, Some(7.57), vec![MixMissing::Rate])),
        ("mix_no_product", mix(None, None, vec![MixMissing::Product, MixMissing::Volume])),
    ]
}

/// Each rule, first as it stands in the way of a spray, then as it was broken by one.
fn rules() -> Vec<(&'static str, Vec<Answer>)> {
    let product = || String::from("copper");
    let rules = vec![
        (
            "rule_sulfur_and_oil",
            BrokenRule::SulfurAndOil {
                trees: words(&["Celeste", "Wall"]),
                first: String::from("sulfur"),
                first_on: date(6, 27),
                second: String::from("neem oil"),
                second_on: date(7, 5),
                apart: Days::new(7.9),
                needed: Days::new(14.0),
                clear_from: date(7, 11),
                again_from: date(7, 19),
            },
        ),
        (
            "rule_sulfur_heat",
            BrokenRule::SulfurHeat {
                product: String::from("sulfur"),
                hottest: Celsius::new(34.0),
                limit: Celsius::new(32.0),
                on: date(7, 6),
            },
        ),
        (
            "rule_too_soon",
            BrokenRule::TooSoon {
                product: product(),
                last_on: date(6, 29),
                interval: Days::new(10.0),
                clear_from: date(7, 9),
            },
        ),
        ("rule_too_many", BrokenRule::TooMany { product: product(), done: 7, most: 6 }),
        (
            "rule_before_harvest",
            BrokenRule::BeforeHarvest {
                product: product(),
                wait: Days::new(1.0),
                tree: Some(String::from("Celeste")),
                picking_from: at("2027-07-06T16:00:00-04:00"),
            },
        ),
        (
            "rule_picked_too_soon",
            BrokenRule::PickedTooSoon {
                tree: String::from("Celeste"),
                product: product(),
                sprayed_on: date(7, 4),
                wait: Days::new(2.0),
                clear_from: date(7, 6),
            },
        ),
        ("rule_re_entry", BrokenRule::ReEntry { product: product(), until: at("2027-07-05T18:30:00-04:00") }),
        (
            "rule_copper_budget",
            BrokenRule::CopperBudget {
                tree: String::from("Wall"),
                used: GramsPerSquareMetre::new(0.3),
                with_this: GramsPerSquareMetre::new(0.52),
                yearly: GramsPerSquareMetre::new(0.4),
            },
        ),
        ("rule_not_for_figs", BrokenRule::NotForFigs { product: product() }),
    ];
    rules.into_iter().map(|(name, rule)| (name, blocked_then_broken(rule))).collect()
}

fn blocked_then_broken(rule: BrokenRule) -> Vec<Answer> {
    let reasons = vec![
        Reason::Rule { rule: rule.clone() },
        Reason::InfectionAhead { infection: wednesday_night(), most: Some(Hours::new(14.0)) },
    ];
    let trees = trees().into_iter().filter(|tree| tree.worth != Worth::Leave).collect();
    let blocked = SprayAdvice { trees, ..without_spray(Verdict::Blocked, reasons) };
    vec![Answer::Spray(Box::new(blocked)), Answer::Broken(rule)]
}
