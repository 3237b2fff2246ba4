//! What a garden is advised over the bundled year: for which trees, and what they would keep of their leaves.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

use chrono::{DateTime, TimeDelta, Utc};
use leafhold::app::{garden_file, sample};
use leafhold::identity::{EventId, PersonId};
use leafhold::season::answer::{
    Answer, BriefItem, BrokenRule, Reason, Span, SprayAdvice, Standing, TreeState, Verdict, Worth,
};
use leafhold::season::facts::{Facts, Feed};
use leafhold::season::journal::{Act, Entry, Journal, Report, RustAmount, Timing, What};
use leafhold::season::request::{Advised, Question, Selection};
use leafhold::season::{notices, questions};
use leafhold::units::{Fraction, Litres};
use leafhold::weather::{Hour, Origin, Series};

fn moment(date: &str) -> DateTime<Utc> {
    format!("{date}T11:00:00Z").parse().expect("a moment")
}

fn share(percent: f64) -> Fraction {
    Fraction::from_percent(percent).expect("a share")
}

/// The example garden on a morning of 2013, with reports on all its trees so many days ago, and the weather
/// from a date on.
fn facts(now: DateTime<Utc>, reports: &[(i64, Report)], weather_from: &str) -> Facts {
    let of_all: Vec<(&str, i64, Report)> =
        reports.iter().map(|(days_ago, report)| ("", *days_ago, report.clone())).collect();
    facts_of(now, &of_all, weather_from)
}

/// The same with the tree each report is of; no name is all of them.
fn facts_of(now: DateTime<Utc>, reports: &[(&str, i64, Report)], weather_from: &str) -> Facts {
    let mut journal = Journal::default();
    let enter = |journal: &mut Journal, what: What, at: DateTime<Utc>| {
        let (who, event) = (PersonId::new("ana"), EventId::new("e"));
        journal.push(Act::Enter(Entry { who, event, said: at, happened: at, timing: Timing::Told, what }));
    };
    for setting in garden_file::read(include_str!("../config-example/garden.toml")).expect("a garden") {
        enter(&mut journal, What::Setting(setting), now - TimeDelta::days(200));
    }
    let garden = journal.garden();
    let trees: Vec<String> = garden.trees.iter().map(|tree| tree.name.clone()).collect();
    for (tree, days_ago, report) in reports {
        let trees = if tree.is_empty() { trees.clone() } else { vec![(*tree).to_owned()] };
        let what = What::Report { trees, report: report.clone() };
        enter(&mut journal, what, now - TimeDelta::days(*days_ago));
    }
    let year = sample::year().expect("the year").series;
    let known = year.between(moment(weather_from), now + TimeDelta::days(10)).iter().map(|hour| Hour {
        origin: if hour.start < now { hour.origin } else { Origin::Forecast { native_step: 1 } },
        ..*hour
    });
    Facts {
        now,
        garden,
        journal,
        weather: Series::from_hours(known),
        feed: Feed { credit: None, fetched: Some(now) },
        told: Vec::new(),
        normals: None,
        open_question: None,
        answered: None,
    }
}

fn why(facts: &Facts) -> SprayAdvice {
    match questions::answer(facts, &Question::Why { about: Advised::Spraying }) {
        Answer::Why(advice) => *advice,
        other => panic!("{other:?}"),
    }
}

fn tree(facts: &Facts, name: &str) -> TreeState {
    match questions::answer(facts, &Question::Tree { trees: Selection::All }) {
        Answer::Tree(view) => view.trees.into_iter().find(|state| state.tree.name == name).expect("a tree"),
        other => panic!("{other:?}"),
    }
}

fn rust(percent: f64) -> Report {
    Report::Scouted { amount: RustAmount::Severity(share(percent)), level: None }
}

/// Unsprayed and sprayed, for one tree.
fn kept(facts: &Facts, name: &str) -> Option<(Span, Span)> {
    let verdict = why(facts).trees.into_iter().find(|verdict| verdict.tree == name)?;
    Some((verdict.kept_unsprayed?, verdict.kept_sprayed?))
}

#[test]
fn sprays_keep_leaves_and_rust_costs_them() {
    for date in ["2013-07-01", "2013-07-20", "2013-08-10"] {
        let middle = |span: Span| f64::midpoint(span.low.value(), span.high.value());
        let mut before = f64::INFINITY;
        for percent in [0.0, 2.0, 20.0] {
            let looks = [(20, rust(percent)), (10, rust(percent)), (1, rust(percent))];
            let (unsprayed, sprayed) =
                kept(&facts(moment(date), &looks, "2013-01-01"), "Big One").expect("it is looked at");
            assert!(unsprayed.low <= unsprayed.high && sprayed.low <= sprayed.high);
            assert!(sprayed.low >= unsprayed.low && sprayed.high >= unsprayed.high, "{date} {percent} %");
            assert!(middle(unsprayed) <= before, "{date}: {percent} % of rust keeps more than less of it");
            before = middle(unsprayed);
        }
    }
}

/// What is not known is not told: no weather on record, leaves nobody has looked at, a crop too far off.
#[test]
fn nothing_is_told_on_nothing_known() {
    let looks = [(10, rust(2.0)), (1, rust(2.0))];
    let rows = [
        ("weather of a week", "2013-08-01", &looks[..], "2013-07-25", None),
        ("half of the season's weather", "2013-08-01", &looks[..], "2013-05-20", Some(())),
        ("a crop four months off", "2013-05-20", &looks[..], "2013-01-01", None),
        ("a crop next week", "2013-09-22", &looks[..], "2013-01-01", None),
    ];
    for (what, date, looks, from, want) in rows {
        let facts = facts(moment(date), looks, from);
        assert_eq!(kept(&facts, "Big One").map(|_| ()), want, "{what}");
    }
    let bare = facts(moment("2013-08-01"), &[], "2013-07-25");
    assert_eq!(tree(&bare, "Big One").leaves_left, None);
}

#[test]
fn leaves_reported_lost_are_lost() {
    let lost = Report::LeafDrop { share: Some(share(50.0)) };
    let facts = facts(moment("2013-08-10"), &[(1, rust(20.0)), (1, lost)], "2013-01-01");
    let left = tree(&facts, "Big One").leaves_left.expect("it is told");
    assert!((0.4..=0.6).contains(&left.low.value()) && (0.4..=0.6).contains(&left.high.value()), "{left:?}");
}

/// The model is run for those who ask, and a morning does not pay for it.
#[test]
fn briefs_do_without() {
    for day in 0..60 {
        let facts = facts(moment("2013-06-20") + TimeDelta::days(day), &[(2, rust(2.0))], "2013-01-01");
        let answers = notices::tick(&facts).messages.into_iter().flat_map(|message| message.answers);
        let items = answers.filter_map(|answer| match answer {
            Answer::Brief(brief) => Some(brief.items),
            _ => None,
        });
        for item in items.flatten() {
            if let BriefItem::Spray(advice) = item {
                assert!(advice.trees.iter().all(|tree| tree.kept_unsprayed.is_none()), "day {day}");
            }
        }
    }
}

/// A month before the crop of a late tree ends, days alone would still spray; the leaves say that nothing is to
/// be saved. Where rust is well under way, the rule of the trade protects.
#[test]
fn leaves_at_stake_settle_the_fall() {
    let rows = [(0.0, Worth::Leave), (1.0, Worth::Leave), (30.0, Worth::Protect)];
    for (percent, want) in rows {
        let looks = [(20, rust(percent)), (10, rust(percent)), (1, rust(percent))];
        let facts = facts(moment("2013-09-20"), &looks, "2013-01-01");
        let verdict = why(&facts).trees.into_iter().find(|verdict| verdict.tree == "Corner").expect("a tree");
        let little = verdict.reasons.iter().any(|reason| matches!(reason, Reason::LittleAtStake { .. }));
        assert_eq!((verdict.worth, little), (want, want == Worth::Leave), "{percent} %: {verdict:?}");
    }
    // Half the season's weather is not on record: what is not known settles nothing.
    let blind = facts(moment("2013-09-20"), &[], "2013-09-01");
    let verdict = why(&blind).trees.into_iter().find(|verdict| verdict.tree == "Corner").expect("a tree");
    assert_ne!(verdict.worth, Worth::Leave, "{verdict:?}");
}

/// In summer the rule of the trade protects, whatever the leaves say, and both are told.
#[test]
fn both_rules_are_told_where_they_differ() {
    let looks = [(20, rust(0.0)), (10, rust(0.0)), (1, rust(0.0))];
    let facts = facts(moment("2013-08-28"), &looks, "2013-01-01");
    let differ = Reason::RulesDiffer { trade: Worth::Protect, computed: Worth::Leave };
    let verdict = why(&facts).trees.into_iter().find(|verdict| verdict.tree == "Wall").expect("a tree");
    assert_eq!(verdict.worth, Worth::Protect);
    assert!(verdict.reasons.contains(&differ), "{verdict:?}");
}

/// Wall has its year's copper; the others may still have theirs, and Wall is left out by name and reason.
#[test]
fn a_rule_that_bars_one_tree_bars_no_other() {
    let copper =
        |litres: f64| Report::Sprayed { product: String::from("copper"), volume: Some(Litres::new(litres)) };
    let reports =
        [("Wall", 20, copper(6.0)), ("Corner", 20, copper(0.5)), ("", 12, rust(10.0)), ("", 1, rust(10.0))];
    let facts = facts_of(moment("2013-07-09"), &reports, "2013-01-01");
    let advice = why(&facts);
    let standing =
        |name: &str| advice.trees.iter().find(|verdict| verdict.tree == name).map(|verdict| verdict.standing);
    assert_eq!((advice.verdict, advice.product.as_deref()), (Verdict::Spray, Some("copper")), "{advice:?}");
    assert_eq!((standing("Corner"), standing("Wall")), (Some(Standing::Due), Some(Standing::Barred)));
    let wall = advice.trees.iter().find(|verdict| verdict.tree == "Wall").expect("a tree");
    let rule = wall.reasons.iter().find_map(|reason| match reason {
        Reason::Rule { rule: BrokenRule::CopperBudget { tree, used, with_this, yearly } } => {
            Some((tree.as_str(), used < with_this, with_this > yearly))
        }
        _ => None,
    });
    assert_eq!(rule, Some(("Wall", true, true)), "{wall:?}");
}

/// "Bone dry, gave it 3 gallons", one message: dry before and full after. "Gave it 3 gallons, still dry": dry. Both
/// reports are of one moment, and happened in the order they were told.
#[test]
fn what_one_message_tells_of_a_pot_happened_in_its_order() {
    use leafhold::season::journal::MoistureState;
    let dry = Report::Moisture { state: MoistureState::Dry };
    let watered = Report::Watered { volume: Some(Litres::from_gallons(8.0)), depth: None };
    let left = |reports: [&Report; 2]| {
        let told = reports.map(|report| ("Celeste", 0, report.clone()));
        let facts = facts_of(moment("2013-07-10"), &told, "2013-01-01");
        tree(&facts, "Celeste").water.and_then(|water| water.left).expect("a level").as_percent()
    };
    let (watered_last, dry_last) = (left([&dry, &watered]), left([&watered, &dry]));
    assert!(watered_last > 60.0, "{watered_last}");
    assert!(dry_last < 30.0, "{dry_last}");
}

/// "Neem on Celeste?" the day after sulfur: whether a spray is needed is not the question. Sulfur and oil within two
/// weeks burn leaves (common practice and labels, as in `SOURCES.md`).
#[test]
fn what_would_burn_is_refused_though_no_spray_is_needed() {
    let sulfur = Report::Sprayed { product: String::from("sulfur"), volume: None };
    let facts = facts(moment("2013-06-21"), &[(1, sulfur)], "2013-01-01");
    for (product, burns) in [("neem", true), ("copper", false)] {
        let question = Question::Spray {
            product: Some(String::from(product)),
            trees: Selection::Named(vec![String::from("Celeste")]),
        };
        let Answer::Spray(advice) = questions::answer(&facts, &question) else { panic!("no verdict") };
        let rule = advice
            .reasons
            .iter()
            .any(|reason| matches!(reason, Reason::Rule { rule: BrokenRule::SulfurAndOil { .. } }));
        assert_eq!(
            (advice.verdict == Verdict::Blocked, rule),
            (burns, burns),
            "{product}: {:?}",
            advice.verdict
        );
    }
}
