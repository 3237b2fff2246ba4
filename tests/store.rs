//! The store against a plain model, with restarts and failing sends; killed in the middle of writing; its
//! records byte by byte; and its export, read back.

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};

use chrono::{DateTime, TimeDelta, TimeZone, Utc};
use leafhold::identity::{EventId, GardenId, PersonId, RoomId};
use leafhold::post::{Addressed, Body, Content, Inbound, Kind, Mailroom, Outbound, RoomKind};
use leafhold::season::facts::{Matter, QuestionChange, Told};
use leafhold::season::journal::{Act, Entry, LineNumber, Report, Retraction, Timing, What, Withdrawal};
use leafhold::store::{Commit, Draft, Flaw, GardenChange, Restore, Store, StoreError};
use proptest::prelude::*;

fn at(minutes: i64) -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2013, 7, 10, 12, 0, 0).single().expect("a time") + TimeDelta::minutes(minutes)
}

fn garden(number: u8) -> GardenId {
    GardenId::new(format!("garden {number}"))
}

fn note(text: &str, event: &str) -> Act {
    Act::Enter(Entry {
        who: PersonId::new("ana"),
        event: EventId::new(event),
        said: at(0),
        happened: at(0),
        timing: Timing::Assumed,
        what: What::Report { trees: Vec::new(), report: Report::Note { text: text.to_owned() } },
    })
}

fn letter(id: &str) -> Inbound {
    Inbound {
        id: EventId::new(id),
        room: RoomId::new("room"),
        room_kind: RoomKind::Direct,
        from: PersonId::new("ana"),
        called: None,
        at: at(0),
        addressed: Addressed::ToBot,
        reply_to: None,
        thread: None,
        content: Content::Said { text: String::from("hello") },
    }
}

fn draft(key: &str) -> Draft {
    Draft {
        outbound: Outbound {
            key: key.to_owned(),
            room: RoomId::new("room"),
            kind: Kind::Answer,
            re: None,
            thread: None,
            body: Body::Words { text: key.to_owned(), html: key.to_owned() },
            mentions: Vec::new(),
            use_by: None,
            made: at(0),
        },
        about: Some(format!("about {key}")),
    }
}

/// What may happen to a store.
#[derive(Clone, Debug)]
enum Operation {
    /// The same message may come twice.
    Accept(u8),
    /// A message is worked through: journal, told, outbox and "seen" together.
    Commit {
        event: u8,
        garden: u8,
        notes: u8,
    },
    /// A send that succeeds.
    Send,
    /// A send that fails: tried, not delivered.
    FailToSend,
    /// A send whose answer is lost: tried, delivered at the other side, and tried again later under the same key.
    LoseAnswer,
    Reboot,
}

fn operation() -> impl Strategy<Value = Operation> {
    prop_oneof![
        3 => (0u8..12).prop_map(Operation::Accept),
        4 => (0u8..12, 0u8..3, 0u8..4).prop_map(|(event, garden, notes)| Operation::Commit { event, garden, notes }),
        2 => Just(Operation::Send),
        1 => Just(Operation::FailToSend),
        1 => Just(Operation::LoseAnswer),
        2 => Just(Operation::Reboot),
    ]
}

#[derive(Default)]
struct Model {
    inbox: Vec<String>,
    seen: Vec<String>,
    journals: BTreeMap<GardenId, Vec<String>>,
    told: BTreeMap<GardenId, usize>,
    outbox: Vec<String>,
    /// What the other side has shown, by key: a key twice is still one message there.
    shown: Vec<String>,
}

fn check(operations: &[Operation]) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut store = Store::open(folder.path()).expect("a store");
    let mut model = Model::default();
    for operation in operations {
        match operation {
            Operation::Accept(event) => {
                let id = format!("event {event}");
                store.accept(vec![letter(&id), letter(&id)]).expect("accepted");
                if !model.seen.contains(&id) && !model.inbox.contains(&id) {
                    model.inbox.push(id);
                }
            }
            Operation::Commit { event, garden: number, notes } => {
                let id = format!("event {event}");
                let acts: Vec<Act> =
                    (0..*notes).map(|note_| note(&format!("{id} note {note_}"), &id)).collect();
                let commit = Commit {
                    seen: Some(EventId::new(&id)),
                    gardens: vec![GardenChange {
                        id: garden(*number),
                        now: at(i64::from(*event)),
                        acts,
                        told: vec![Told { at: at(0), matter: Matter::Once { name: id.clone() } }],
                        question: Some((PersonId::new("ana"), QuestionChange::Keep)),
                        wake: None,
                    }],
                    outbox: vec![draft(&format!("answer to {id}"))],
                    moved: None,
                };
                let committed = store.commit(&commit).expect("committed");
                let fresh = !model.seen.contains(&id);
                assert_eq!(committed.fresh, fresh, "a message is worked through once");
                if fresh {
                    model.seen.push(id.clone());
                    model.inbox.retain(|waiting| *waiting != id);
                    let journal = model.journals.entry(garden(*number)).or_default();
                    journal.extend((0..*notes).map(|note| format!("{id} note {note}")));
                    *model.told.entry(garden(*number)).or_default() += 1;
                    model.outbox.push(format!("answer to {id}"));
                }
            }
            Operation::Send => {
                if let Some(waiting) = store.waiting().expect("an outbox").first() {
                    let key = waiting.outbound.key.clone();
                    store.attempting(&key, at(0), "device").expect("kept");
                    show(&mut model, &key);
                    store.delivered(&key, Some(EventId::new(format!("$ {key}")))).expect("kept");
                    model.outbox.retain(|waiting| *waiting != key);
                }
            }
            Operation::FailToSend => {
                if let Some(waiting) = store.waiting().expect("an outbox").first() {
                    store.attempting(&waiting.outbound.key, at(0), "device").expect("kept");
                }
            }
            Operation::LoseAnswer => {
                if let Some(waiting) = store.waiting().expect("an outbox").first() {
                    store.attempting(&waiting.outbound.key, at(0), "device").expect("kept");
                    show(&mut model, &waiting.outbound.key);
                }
            }
            Operation::Reboot => {
                drop(store);
                store = Store::open(folder.path()).expect("it opens again");
            }
        }
        agree(&store, &model);
    }
}

/// The other side knows a repeat by its key.
fn show(model: &mut Model, key: &str) {
    if !model.shown.iter().any(|shown| shown == key) {
        model.shown.push(key.to_owned());
    }
}

fn agree(store: &Store, model: &Model) {
    let inbox: Vec<String> =
        store.inbox().expect("an inbox").iter().map(|letter| letter.id.to_string()).collect();
    assert_eq!(inbox, model.inbox);
    let outbox: Vec<String> =
        store.waiting().expect("an outbox").into_iter().map(|waiting| waiting.outbound.key).collect();
    assert_eq!(outbox, model.outbox);
    let mut gardens = store.gardens();
    gardens.sort();
    assert_eq!(gardens, model.journals.keys().cloned().collect::<Vec<_>>());
    for (garden, journal) in &model.journals {
        let facts = store.facts(garden, at(0), None).expect("read").expect("a garden");
        let notes: Vec<String> = facts
            .journal
            .reports()
            .filter_map(|(_, _, report)| match report {
                Report::Note { text } => Some(text.clone()),
                _ => None,
            })
            .collect();
        assert_eq!(&notes, journal);
        assert_eq!(facts.told.len(), model.told[garden]);
        let numbers: Vec<u64> = facts.journal.lines().iter().map(|line| line.number.0).collect();
        assert_eq!(numbers, (1..=numbers.len() as u64).collect::<Vec<_>>());
    }
    for key in &model.shown {
        assert_eq!(model.shown.iter().filter(|shown| *shown == key).count(), 1, "nothing is shown twice");
    }
}

/// Sequences run by the model test, and operations in each: the count that is reported.
const SEQUENCES: u32 = 400;

#[test]
fn the_store_agrees_with_a_model() {
    let mut runner = proptest::test_runner::TestRunner::new(ProptestConfig {
        cases: SEQUENCES,
        failure_persistence: None,
        ..ProptestConfig::default()
    });
    let operations = std::cell::Cell::new(0usize);
    let reboots = std::cell::Cell::new(0usize);
    runner
        .run(&proptest::collection::vec(operation(), 1..40), |sequence| {
            operations.set(operations.get() + sequence.len());
            reboots.set(
                reboots.get() + sequence.iter().filter(|step| matches!(step, Operation::Reboot)).count(),
            );
            check(&sequence);
            Ok(())
        })
        .expect("the model holds");
    println!("model: {SEQUENCES} sequences, {} operations, {} restarts", operations.get(), reboots.get());
}

#[test]
fn a_second_process_is_refused_with_the_next_step() {
    let folder = tempfile::tempdir().expect("a folder");
    let _store = Store::open(folder.path()).expect("a store");
    let error = Store::open(folder.path()).err().expect("it is refused");
    assert!(matches!(error, StoreError::InUse { .. }), "{error}");
    assert!(error.to_string().contains("stop that one"), "{error}");
}

fn filled(folder: &std::path::Path) -> Store {
    let store = Store::open(folder).expect("a store");
    for number in 0..5 {
        let id = format!("event {number}");
        store.accept(vec![letter(&id)]).expect("accepted");
        let mut acts = vec![note(&format!("note {number}: é 🍃"), &id)];
        if number == 3 {
            acts.push(Act::Retract(Retraction {
                entry: LineNumber(1),
                why: Withdrawal::Undone,
                who: PersonId::new("ana"),
                event: EventId::new(&id),
                said: at(3),
            }));
        }
        let change = GardenChange {
            id: garden(0),
            now: at(number),
            acts,
            told: Vec::new(),
            question: None,
            wake: Some(at(number + 60)),
        };
        let outbox = vec![draft(&id)];
        store
            .commit(&Commit { seen: Some(EventId::new(&id)), gardens: vec![change], outbox, moved: None })
            .expect("committed");
    }
    store.keep("transport/token", Some(b"\x00\xffnot text")).expect("kept");
    store
}

#[test]
fn an_export_read_back_is_the_same_store() {
    let (first, second) = (tempfile::tempdir().expect("a folder"), tempfile::tempdir().expect("a folder"));
    let store = filled(first.path());
    let mut export = Vec::new();
    let count = store.export(&mut export).expect("an export");
    assert!(count > 15, "{count} records");
    let restored = Store::restore(second.path(), &mut export.as_slice(), Restore::IntoEmpty);
    assert_eq!(restored.expect("restored").records, count);
    let restored = Store::open(second.path()).expect("a store");
    let mut again = Vec::new();
    restored.export(&mut again).expect("an export");
    assert_eq!(String::from_utf8(export.clone()), String::from_utf8(again));
    let facts = restored.facts(&garden(0), at(0), None).expect("read").expect("a garden");
    assert_eq!(facts.journal.lines().len(), 6);
    assert_eq!(facts.journal.reports().count(), 4);
    // A store with something in it is not overwritten unasked.
    drop(restored);
    let refused = Store::restore(second.path(), &mut export.as_slice(), Restore::IntoEmpty);
    assert!(matches!(refused, Err(StoreError::NotEmpty { .. })));
    Store::restore(second.path(), &mut export.as_slice(), Restore::Replace).expect("replaced when told");
}

#[test]
fn a_bad_line_restores_nothing_and_is_named() {
    let folder = tempfile::tempdir().expect("a folder");
    let header = r#"{"format":"leafhold-export","version":1}"#;
    let made = r#"{"kind":"garden","of":["plot"],"record":{"v":1,"made":"2013-07-10T12:00:00Z"}}"#;
    let rows = [
        (String::from("nonsense"), "line 1"),
        (String::from(r#"{"format":"other","version":1}"#), "line 1"),
        (String::from(r#"{"format":"leafhold-export","version":99}"#), "newer leafhold"),
        (format!("{header}\n{made}\n{{broken"), "line 3"),
        (format!("{header}\n{made}"), "cut short"),
        (format!("{header}\n{made}\n{made}\n{{\"end\":2}}"), "line 3"),
        (format!("{header}\n{made}\n{{\"end\":2}}"), "line 3"),
    ];
    for (text, want) in rows {
        let error =
            Store::restore(folder.path(), &mut text.as_bytes(), Restore::IntoEmpty).expect_err("wrong");
        assert!(error.to_string().contains(want), "{error} does not say {want}");
        assert!(Store::open(folder.path()).expect("a store").gardens().is_empty());
    }
}

#[test]
fn a_record_of_the_future_is_refused_and_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    drop(filled(folder.path()));
    let database = sled::open(folder.path()).expect("sled");
    let tree = database.open_tree("records-1").expect("a tree");
    let (key, _) = tree.scan_prefix("journal/").next().expect("a line").expect("read");
    tree.insert(&key, br#"{"v":7,"act":"unheard of"}"#).expect("written");
    database.flush().expect("flushed");
    drop((tree, database));
    let store = Store::open(folder.path()).expect("it opens");
    let error = store.facts(&garden(0), at(0), None).expect_err("it is refused");
    assert!(matches!(error, StoreError::Record(Flaw::TooNew { version: 7, .. })), "{error}");
}

/// Every record of a filled store, as it stands on disk: a change of format shows here.
#[test]
fn records_byte_by_byte() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = filled(folder.path());
    store.attempting("event 0", at(1), "device").expect("kept");
    store.delivered("event 1", Some(EventId::new("$sent"))).expect("kept");
    let mut export = Vec::new();
    store.export(&mut export).expect("an export");
    insta::assert_snapshot!(String::from_utf8(export).expect("text"));
}

/// Lines each as one commit; every acknowledged one must be there after the kill, whole.
const KILLS: usize = 60;

#[test]
fn nothing_acknowledged_is_lost_when_killed() {
    if let Ok(folder) = std::env::var("LEAFHOLD_KILL_FOLDER") {
        return write_until_killed(&folder);
    }
    let folder = tempfile::tempdir().expect("a folder");
    let mut acknowledged = 0u64;
    for round in 0..KILLS {
        let mut child = Command::new(std::env::current_exe().expect("this test"))
            .args(["nothing_acknowledged_is_lost_when_killed", "--exact", "--nocapture"])
            .env("LEAFHOLD_KILL_FOLDER", folder.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a child");
        let mut lines = BufReader::new(child.stdout.take().expect("its output")).lines();
        // Some commits, then the axe, at another point each round.
        let wanted = acknowledged + 1 + (round as u64 * 7) % 13;
        while acknowledged < wanted {
            let Some(line) = lines.next().and_then(Result::ok) else { break };
            if let Some(number) = line.strip_prefix("committed ") {
                acknowledged = number.parse().expect("a number");
            }
        }
        std::thread::sleep(std::time::Duration::from_micros((round as u64 * 397) % 3000));
        child.kill().expect("killed");
        child.wait().expect("gone");
        let store = Store::open(folder.path()).expect("it opens after the kill");
        let facts = store.facts(&garden(0), at(0), None).expect("read").expect("a garden");
        let lines = facts.journal.lines().len() as u64;
        assert!(lines >= acknowledged, "round {round}: {acknowledged} acknowledged, {lines} there");
        // All or nothing: a line, its mark and its message stand together.
        assert_eq!(store.waiting().expect("an outbox").len() as u64, lines, "round {round}");
        assert!(store.is_seen(&EventId::new(format!("event {lines}"))).expect("read"));
        assert!(!store.is_seen(&EventId::new(format!("event {}", lines + 1))).expect("read"));
        acknowledged = lines;
    }
    println!("killed {KILLS} times, {acknowledged} commits, none lost, none half there");
}

fn write_until_killed(folder: &str) {
    let store = Store::open(std::path::Path::new(folder)).expect("a store");
    let done =
        store.facts(&garden(0), at(0), None).expect("read").map_or(0, |facts| facts.journal.lines().len());
    for number in done + 1.. {
        let id = format!("event {number}");
        let change = GardenChange {
            id: garden(0),
            now: at(0),
            acts: vec![note(&id, &id)],
            told: Vec::new(),
            question: None,
            wake: None,
        };
        let commit = Commit {
            seen: Some(EventId::new(&id)),
            gardens: vec![change],
            outbox: vec![draft(&id)],
            moved: None,
        };
        store.commit(&commit).expect("committed");
        println!("committed {number}");
        std::io::stdout().flush().expect("out");
    }
}
