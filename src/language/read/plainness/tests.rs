#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

use chrono::{TimeZone, Utc};

use super::*;
use crate::language::read::read;
use crate::season::garden::{Active, Garden, Product, Stand, Tree, UnitSystem};
use crate::season::request::Selection;
use crate::units::{Fraction, Litres};

fn garden() -> Garden {
    let mut garden = Garden::new("Quince Lane");
    let pot = || Stand::pot(Some(Litres::new(40.0)));
    garden.trees = vec![
        Tree::new("Celeste", pot()),
        Tree::new("Whip", pot()),
        Tree::new("Wall", Stand::ground()),
        Tree::new("Corner", Stand::ground()),
    ];
    garden.products = vec![Product::new("copper", Active::Copper), Product::new("sulfur", Active::Sulfur)];
    garden.units = UnitSystem::Us;
    garden
}

fn of<T>(then: impl Fn(&Context) -> T) -> T {
    let garden = garden();
    let at = Utc.with_ymd_and_hms(2013, 7, 10, 22, 0, 0).single().expect("a time");
    let zone = chrono_tz::America::New_York;
    then(&Context {
        garden: &garden,
        at,
        zone,
        open_question: None,
        last: None,
        last_message: &[],
        answered: None,
        bot_name: "leafhold",
    })
}

/// Only what a grower need not see again.
const PLAIN: [&str; 17] = [
    "note: the hose by the deck leaks",
    "watered the pots",
    "Watered Celeste and Whip this morning, a gallon each.",
    "picked 9 off Celeste",
    "picked 9 off Celeste, 4 off Wall",
    "picked a dozen figs from the Wall yesterday",
    "sprayed copper on Wall and Corner at 7 am",
    "sulfur on Corner",
    "rust on Celeste 10%",
    "rust on the lower leaves of Wall",
    "a few spots on Corner",
    "no rust on Celeste",
    "12 of 60 leaves on Wall have rust",
    "Celeste is bone dry",
    "celeste dry, whip wet",
    "0.3 inches in the gauge",
    "gave Whip half a gallon",
];

/// More is said than was read, or it is said so that it could be read otherwise.
const OPEN: [&str; 22] = [
    "I water the Corner",
    "I spray neem on Whip",
    "watered the pots, Eave only got the drips",
    "watered at 7",
    "watered Celeste but not Whip",
    "picked 9 off Celeste, the birds had 4",
    "picked the other 10 off Celeste",
    "picked 8 more off Wall",
    "picked 9 off Celeste yesterday and 4 off Wall today",
    "picked 1 off Wall, 2 off Corner, 3 off Celeste",
    "sprayed copper on the first two and sulfur on Wall",
    "sprayed Wall with copper, or was it sulfur",
    "sprayed copper, just Wall left",
    "rust on Celeste, maybe 10%",
    "no rust",
    "Wall is not dry",
    "Celeste feels light",
    "watered Celeste because Whip was wet",
    "Celeste is ripening",
    "gauge 0.3",
    "Whip died",
    "lost a third of the leaves on Wall",
];

#[test]
fn a_bare_report_is_plain_and_all_else_is_open() {
    of(|context| {
        for text in PLAIN {
            let reading = read(text, context);
            assert!(
                reading.requests.iter().any(|request| matches!(request, Request::Record(_))),
                "{text}: {reading:?}"
            );
            assert_eq!(reading.wording, Wording::Plain, "{text}: {reading:?}");
        }
        for text in OPEN {
            let reading = read(text, context);
            assert!(reading.wording == Wording::Open || !reading.doubts.is_empty(), "{text}: {reading:?}");
        }
    });
}

/// What a slip is called, and what it makes of a report.
type Slip = (&'static str, fn(&mut Record));

/// A misreading of a plain message, whatever it is, is seen: what was read is changed as a slip would change it.
#[test]
fn no_slip_of_a_plain_message_is_plain() {
    let slips: [Slip; 6] = [
        ("another day", |record| {
            record.when = When::OnDay(Utc.with_ymd_and_hms(2013, 7, 7, 16, 0, 0).single().expect("a time"));
        }),
        ("another tree", |record| {
            record.trees = Selection::Named(vec![String::from("Corner"), String::from("Whip")])
        }),
        ("all trees", |record| record.trees = Selection::All),
        ("another amount", |record| match &mut record.report {
            Report::Watered { volume, .. } | Report::Sprayed { volume, .. } => {
                *volume = Some(Litres::new(9.0))
            }
            Report::Picked { count, .. } => *count = Some(99),
            Report::Rained { depth } => *depth = *depth + *depth,
            Report::Scouted { amount, .. } => {
                *amount = RustAmount::Severity(Fraction::from_percent(77.0).expect("a share"))
            }
            Report::Moisture { state } => *state = MoistureState::Moist,
            _ => {}
        }),
        ("another product", |record| match &mut record.report {
            Report::Sprayed { product, .. } => {
                *product = if product == "copper" { "sulfur" } else { "copper" }.to_owned()
            }
            other => *other = Report::Sprayed { product: String::from("copper"), volume: None },
        }),
        ("other leaves", |record| match &mut record.report {
            Report::Scouted { level, .. } => *level = Some(LeafLevel::Upper),
            other => *other = Report::Removed,
        }),
    ];
    of(|context| {
        let names = &Names::of(context.garden);
        for text in PLAIN {
            let read = read(text, context);
            let records = read.requests.len();
            for at in 0..records {
                for (slip, change) in &slips {
                    let mut wrong = read.clone();
                    let Some(Request::Record(record)) = wrong.requests.get_mut(at) else { continue };
                    let before = record.clone();
                    change(record);
                    // Rain falls on the garden, whatever trees are meant.
                    let of_no_tree = matches!(record.report, Report::Rained { .. })
                        && (&record.report, record.when) == (&before.report, before.when);
                    if *record == before || of_no_tree {
                        continue;
                    }
                    assert_eq!(
                        wording(text, &wrong, names, context),
                        Wording::Open,
                        "{text}, {slip}: {wrong:?}"
                    );
                }
                if records > 1 {
                    let mut wrong = read.clone();
                    wrong.requests.remove(at);
                    assert_eq!(
                        wording(text, &wrong, names, context),
                        Wording::Open,
                        "{text}, one dropped: {wrong:?}"
                    );
                }
            }
        }
    });
}
