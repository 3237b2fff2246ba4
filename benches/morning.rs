//! A garden's morning, a message read, an answer written, and a whole year rehearsed.

use std::hint::black_box;

use chrono::{DateTime, TimeZone, Utc};
use criterion::{Criterion, criterion_group, criterion_main};
use leafhold::app::{garden_file, sample};
use leafhold::identity::{EventId, PersonId};
use leafhold::language::read::{Context, read};
use leafhold::season::facts::{Facts, Feed};
use leafhold::season::garden::Garden;
use leafhold::season::journal::{Act, Entry, Journal, Report, Timing, What};
use leafhold::season::notices;
use leafhold::season::request::{Setting, TreeDetails};
use leafhold::weather::{Hour, Origin, Series};

fn morning() -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2013, 7, 15, 11, 0, 0).single().unwrap_or_default()
}

fn entry(what: What, at: DateTime<Utc>) -> Act {
    Act::Enter(Entry {
        who: PersonId::new("ana"),
        event: EventId::new("e"),
        said: at,
        happened: at,
        timing: Timing::Told,
        what,
    })
}

/// The example garden with ten trees, half a season of reports, and the year's weather up to ten days ahead.
fn facts() -> Facts {
    let settings = garden_file::read(include_str!("../config-example/garden.toml")).unwrap_or_default();
    let mut journal = Journal::default();
    let start = morning() - chrono::TimeDelta::days(90);
    let extra = (0..4).map(|number| {
        Setting::Tree(TreeDetails { name: format!("Extra {number}"), ..TreeDetails::default() })
    });
    for setting in settings.into_iter().chain(extra) {
        journal.push(entry(What::Setting(setting), start));
    }
    let garden: Garden = journal.garden();
    let trees: Vec<String> = garden.trees.iter().map(|tree| tree.name.clone()).collect();
    for week in 0..12 {
        let at = start + chrono::TimeDelta::days(week * 7);
        let sprayed = Report::Sprayed { product: String::from("copper"), volume: None };
        for report in [sprayed, Report::Watered { volume: None, depth: None }] {
            journal.push(entry(What::Report { trees: trees.clone(), report }, at));
        }
    }
    let year = sample::year().map(|year| year.series).unwrap_or_default();
    let until = morning() + chrono::TimeDelta::days(10);
    let hours = year.hours().iter().filter(|hour| hour.start < until).map(|hour| Hour {
        origin: if hour.start < morning() { hour.origin } else { Origin::Forecast { native_step: 1 } },
        ..*hour
    });
    Facts {
        now: morning(),
        garden,
        journal,
        weather: Series::from_hours(hours),
        feed: Feed { credit: None, fetched: Some(morning()) },
        told: Vec::new(),
        normals: None,
        open_question: None,
        answered: None,
    }
}

fn benchmarks(criterion: &mut Criterion) {
    let facts = facts();
    assert_eq!(facts.garden.trees.len(), 10);
    criterion.bench_function("a garden's morning, 10 trees", |bencher| {
        bencher.iter(|| notices::tick(black_box(&facts)));
    });
    let context = Context {
        garden: &facts.garden,
        at: facts.now,
        zone: facts.garden.zone(),
        open_question: None,
        last: None,
        last_message: &[],
        answered: None,
        bot_name: "leafhold",
    };
    for (name, text) in [
        ("one message read, short", "rust on the lower leaves of Celeste, 10%"),
        (
            "one message read, three reports",
            "sprayed copper on the pots at 7, picked 9 off the big one, gauge 0.3",
        ),
        ("one message read, a question", "should I spray this week?"),
        // What the grammar makes nothing of is held against the tables, and read again in plain words.
        ("one message read, by its likeness", "corner is totally done, nothing left on it to pick"),
    ] {
        criterion.bench_function(name, |bencher| bencher.iter(|| read(black_box(text), &context)));
    }
}

criterion_group!(morning_group, benchmarks);
criterion_main!(morning_group);
