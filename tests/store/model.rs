//! The store and a plain model of it go through the same operations, with restarts, with sends that fail at
//! each of their steps, with exports read back; after each, they must agree in everything.

use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};

use leafhold::identity::{EventId, GardenId};
use leafhold::post::{Mailroom, Waiting};
use leafhold::season::facts::{Matter, QuestionChange, Told};
use leafhold::season::journal::{Act, LineNumber, Retraction, Withdrawal};
use leafhold::season::request::{Doubt, DoubtKind, OpenQuestion};
use leafhold::store::{Commit, Draft, GardenChange, Move, Restore, Store};
use proptest::prelude::*;

use crate::samples::*;

/// What may happen to a store.
#[derive(Clone, Debug)]
enum Operation {
    /// Messages come in; the same one may come twice, in one hand-over or in two.
    Accept(Vec<u8>),
    /// A message is worked through: journal, told, question, wake, outbox and "seen" together.
    Commit {
        event: u8,
        gardens: Vec<Change>,
        drafts: Vec<u8>,
    },
    /// A morning: the same without a message.
    Tick {
        garden: u8,
        drafts: Vec<u8>,
    },
    Send {
        which: usize,
        fate: Fate,
    },
    /// The room moves; what waits for it goes along.
    MoveRoom,
    Keep {
        name: u8,
        value: Option<Vec<u8>>,
    },
    Reboot,
    /// Everything is exported and read back into another folder, and life goes on there.
    Relocate,
}

#[derive(Clone, Debug)]
struct Change {
    garden: u8,
    notes: u8,
    retract: Option<u8>,
    told: u8,
    question: Option<bool>,
    wake: Option<i64>,
}

/// How far a send gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fate {
    /// It fails before anything leaves.
    Refused,
    /// It leaves and is lost.
    Lost,
    /// It arrives, and the answer that says so is lost: it will come again under the same key.
    AnswerLost,
    Delivered,
    /// Given up on.
    Abandoned,
}

fn operation() -> impl Strategy<Value = Operation> {
    let fate = prop_oneof![
        1 => Just(Fate::Refused),
        1 => Just(Fate::Lost),
        1 => Just(Fate::AnswerLost),
        3 => Just(Fate::Delivered),
        1 => Just(Fate::Abandoned),
    ];
    let note = proptest::option::weighted(0.8, proptest::collection::vec(any::<u8>(), 0..6));
    prop_oneof![
        6 => proptest::collection::vec(0u8..20, 0..4).prop_map(Operation::Accept),
        8 => (0u8..20, proptest::collection::vec(garden_change(), 0..3), proptest::collection::vec(0u8..12, 0..3))
            .prop_map(|(event, gardens, drafts)| Operation::Commit { event, gardens, drafts }),
        2 => (0u8..3, proptest::collection::vec(12u8..16, 1..3))
            .prop_map(|(garden, drafts)| Operation::Tick { garden, drafts }),
        8 => (0usize..6, fate).prop_map(|(which, fate)| Operation::Send { which, fate }),
        1 => Just(Operation::MoveRoom),
        2 => (0u8..4, note).prop_map(|(name, value)| Operation::Keep { name, value }),
        2 => Just(Operation::Reboot),
        1 => Just(Operation::Relocate),
    ]
}

fn garden_change() -> impl Strategy<Value = Change> {
    let rare = proptest::option::weighted(0.3, 1u8..6);
    let question = proptest::option::of(any::<bool>());
    (0u8..3, 0u8..4, rare, 0u8..3, question, proptest::option::of(0i64..1000)).prop_map(
        |(garden, notes, retract, told, question, wake)| Change {
            garden,
            notes,
            retract,
            told,
            question,
            wake,
        },
    )
}

impl Change {
    fn of_event(&self, id: &str) -> GardenChange {
        let notes = (0..self.notes).map(|number| note(&format!("{id} note {number}"), id));
        let retraction = self.retract.map(|line| {
            Act::Retract(Retraction {
                entry: LineNumber(u64::from(line)),
                why: Withdrawal::Undone,
                who: person("ana"),
                event: event(id),
                said: at(0),
            })
        });
        let told = |number| Told { at: at(0), matter: Matter::Once { name: format!("{id} told {number}") } };
        let doubt = Doubt { kind: DoubtKind::WhichTree, words: id.to_owned(), candidates: Vec::new() };
        let open = OpenQuestion { text: id.to_owned(), doubt, said: at(0), event: event(id) };
        GardenChange {
            id: garden(self.garden),
            now: at(0),
            acts: notes.chain(retraction).collect(),
            told: (0..self.told).map(told).collect(),
            question: self.question.map(|is_open| {
                let question = if is_open { QuestionChange::Open(open) } else { QuestionChange::Close };
                (person("ana"), question)
            }),
            wake: self.wake.map(at),
        }
    }
}

#[derive(Clone, Default)]
struct Model {
    inbox: Vec<String>,
    seen: BTreeSet<String>,
    gardens: BTreeMap<GardenId, Garden>,
    outbox: Vec<Waiting>,
    about: BTreeMap<String, String>,
    /// Every key there ever was.
    keys: BTreeSet<String>,
    unsent: BTreeSet<String>,
    delivered: BTreeMap<EventId, String>,
    notes: BTreeMap<String, Vec<u8>>,
    /// What the other side has shown, by key. A key twice is one message there.
    shown: BTreeMap<String, usize>,
}

#[derive(Clone, Default)]
struct Garden {
    acts: Vec<Act>,
    told: Vec<Told>,
    question: Option<OpenQuestion>,
    wake: Option<chrono::DateTime<chrono::Utc>>,
}

impl Model {
    fn change(&mut self, change: &GardenChange) {
        let garden = self.gardens.entry(change.id.clone()).or_default();
        garden.acts.extend(change.acts.iter().cloned());
        garden.told.extend(change.told.iter().cloned());
        match &change.question {
            Some((_, QuestionChange::Open(question))) => garden.question = Some(question.clone()),
            Some((_, QuestionChange::Close)) => garden.question = None,
            _ => {}
        }
        garden.wake = change.wake.or(garden.wake);
    }

    fn queue(&mut self, drafts: &[Draft]) {
        for Draft { outbound, about } in drafts {
            if self.keys.insert(outbound.key.clone()) {
                self.about.insert(outbound.key.clone(), about.clone().unwrap_or_default());
                let outbound = outbound.clone();
                self.outbox.push(Waiting { outbound, first_attempt: None, device: None, attempts: 0 });
            }
        }
    }
}

struct Play {
    folder: tempfile::TempDir,
    store: Option<Store>,
    model: Model,
    step: i64,
}

impl Play {
    fn store(&self) -> &Store {
        self.store.as_ref().expect("a store")
    }

    fn go(&mut self, operation: &Operation) {
        self.step += 1;
        match operation {
            Operation::Accept(events) => self.accept(events),
            Operation::Commit { event, gardens, drafts } => self.commit(*event, gardens, drafts),
            Operation::Tick { garden: number, drafts } => self.tick(*number, drafts),
            Operation::Send { which, fate } => self.send(*which, *fate),
            Operation::MoveRoom => self.move_room(),
            Operation::Keep { name, value } => {
                let name = format!("note/{name}");
                self.store().keep(&name, value.as_deref()).expect("kept");
                match value {
                    Some(value) => self.model.notes.insert(name, value.clone()),
                    None => self.model.notes.remove(&name),
                };
            }
            Operation::Reboot => {
                self.store = None;
                self.store = Some(Store::open(self.folder.path()).expect("it opens again"));
            }
            Operation::Relocate => self.relocate(),
        }
    }

    fn accept(&mut self, events: &[u8]) {
        let ids: Vec<String> = events.iter().map(|event| format!("event {event}")).collect();
        self.store().accept(ids.iter().map(|id| letter(id)).collect()).expect("accepted");
        for id in ids {
            if !self.model.seen.contains(&id) && !self.model.inbox.contains(&id) {
                self.model.inbox.push(id);
            }
        }
    }

    fn commit(&mut self, number: u8, gardens: &[Change], drafts: &[u8]) {
        let id = format!("event {number}");
        let commit = Commit {
            seen: Some(event(&id)),
            gardens: gardens.iter().map(|change| change.of_event(&id)).collect(),
            outbox: drafts.iter().map(|key| draft(&format!("key {key}"))).collect(),
            moved: None,
        };
        let committed = self.store().commit(&commit).expect("committed");
        let is_fresh = !self.model.seen.contains(&id);
        assert_eq!(committed.fresh, is_fresh, "a message is worked through once");
        if !is_fresh {
            assert_eq!(committed.lines, []);
            return;
        }
        let mut lines = Vec::new();
        for change in &commit.gardens {
            let before = self.model.gardens.get(&change.id).map_or(0, |garden| garden.acts.len() as u64);
            lines.extend((before + 1..).map(LineNumber).take(change.acts.len()));
            self.model.change(change);
        }
        assert_eq!(committed.lines, lines);
        self.model.inbox.retain(|waiting| *waiting != id);
        self.model.queue(&commit.outbox);
        self.model.seen.insert(id);
    }

    fn tick(&mut self, number: u8, drafts: &[u8]) {
        let name = format!("tick {}", self.step);
        let told = vec![Told { at: at(self.step), matter: Matter::Once { name } }];
        let change = GardenChange { told, wake: Some(at(self.step)), ..change(garden(number), Vec::new()) };
        let outbox: Vec<Draft> = drafts.iter().map(|key| draft(&format!("key {key}"))).collect();
        let commit = Commit { gardens: vec![change], outbox, ..Commit::default() };
        self.store().commit(&commit).expect("committed");
        self.model.change(&commit.gardens[0]);
        self.model.queue(&commit.outbox);
    }

    fn send(&mut self, which: usize, fate: Fate) {
        let waiting = self.store().waiting().expect("an outbox");
        let Some(chosen) = waiting.get(which % waiting.len().max(1)) else { return };
        let key = chosen.outbound.key.clone();
        let index = self.model.outbox.iter().position(|row| row.outbound.key == key).expect("it waits");
        if fate == Fate::Refused {
            return;
        }
        let device = if self.step % 3 == 0 { "new device" } else { "device" };
        self.store().attempting(&key, at(self.step), device).expect("kept");
        let row = &mut self.model.outbox[index];
        if row.device.as_deref() != Some(device) {
            row.first_attempt = Some(at(self.step));
        }
        row.device = Some(device.to_owned());
        row.attempts += 1;
        if matches!(fate, Fate::AnswerLost | Fate::Delivered) {
            // The other side knows a repeat by its key.
            self.model.shown.entry(key.clone()).or_insert(1);
        }
        if fate == Fate::Delivered {
            let sent = event(&format!("$ {key}"));
            self.store().delivered(&key, Some(sent.clone())).expect("kept");
            self.model.delivered.insert(sent, self.model.about[&key].clone());
            self.model.outbox.remove(index);
        }
        if fate == Fate::Abandoned {
            self.store().abandoned(&key, "past its use").expect("kept");
            self.model.unsent.insert(key);
            self.model.outbox.remove(index);
        }
    }

    fn move_room(&mut self) {
        let (from, to) = (room("room"), room("other room"));
        let moved = Some(Move { from: from.clone(), to: to.clone() });
        self.store().commit(&Commit { moved, ..Commit::default() }).expect("committed");
        for row in self.model.outbox.iter_mut().filter(|row| row.outbound.room == from) {
            row.outbound.room = to.clone();
        }
    }

    fn relocate(&mut self) {
        let text = export(self.store());
        let folder = tempfile::tempdir().expect("a folder");
        let restored = Store::restore(folder.path(), &mut text.as_bytes(), Restore::IntoEmpty);
        assert_eq!(restored.expect("restored").flawed, 0);
        let store = Store::open(folder.path()).expect("a store");
        assert_eq!(export(&store), text, "an export read back is the same store");
        self.store = Some(store);
        self.folder = folder;
    }

    fn agree(&self) {
        let (store, model) = (self.store(), &self.model);
        let inbox = store.inbox().expect("an inbox");
        assert_eq!(inbox.iter().map(|letter| letter.id.as_str()).collect::<Vec<_>>(), model.inbox);
        assert_eq!(store.waiting().expect("an outbox"), model.outbox);
        for number in 0..20 {
            let id = format!("event {number}");
            assert_eq!(store.is_seen(&event(&id)).expect("read"), model.seen.contains(&id));
            let is_known = model.seen.contains(&id) || model.inbox.contains(&id);
            assert_eq!(store.knows(&event(&id)).expect("read"), is_known);
        }
        let unsent: BTreeSet<String> =
            store.unsent().expect("read").into_iter().map(|unsent| unsent.key).collect();
        assert_eq!(unsent, model.unsent);
        for (event, about) in &model.delivered {
            assert_eq!(store.about(event).expect("read").as_ref(), Some(about));
        }
        let kept: BTreeMap<_, _> = store.kept("note/").expect("read").into_iter().collect();
        assert_eq!(kept, model.notes);
        assert_eq!(
            store.gardens().into_iter().collect::<BTreeSet<_>>(),
            model.gardens.keys().cloned().collect()
        );
        for (id, garden) in &model.gardens {
            let facts = store.facts(id, at(0), Some(&person("ana"))).expect("read").expect("a garden");
            let lines = facts.journal.lines();
            let acts: Vec<Act> = lines.iter().map(|line| line.act.clone()).collect();
            assert_eq!(acts, garden.acts);
            assert!(lines.iter().zip(1..).all(|(line, number)| line.number.0 == number));
            assert_eq!(facts.told, garden.told);
            assert_eq!(facts.open_question, garden.question);
            assert!(store.wakes().contains(&(id.clone(), garden.wake)));
        }
    }
}

/// Sequences of operations in one run; the environment can ask for more.
fn sequences() -> u32 {
    let asked = std::env::var("LEAFHOLD_MODEL_SEQUENCES").ok();
    asked.and_then(|count| count.parse().ok()).unwrap_or(500)
}

#[test]
fn the_store_agrees_with_a_model() {
    let config =
        ProptestConfig { cases: sequences(), failure_persistence: None, ..ProptestConfig::default() };
    let mut runner = proptest::test_runner::TestRunner::new(config);
    let counted: [Cell<usize>; 5] = Default::default();
    let [runs, operations, reboots, relocations, failed] = &counted;
    let count = |cell: &Cell<usize>, more: usize| cell.set(cell.get() + more);
    let result = runner.run(&proptest::collection::vec(operation(), 1..60), |sequence| {
        let folder = tempfile::tempdir().expect("a folder");
        let store = Some(Store::open(folder.path()).expect("a store"));
        let mut play = Play { folder, store, model: Model::default(), step: 0 };
        for operation in &sequence {
            play.go(operation);
            play.agree();
        }
        let of = |is: fn(&Operation) -> bool| sequence.iter().filter(|operation| is(operation)).count();
        count(runs, 1);
        count(operations, sequence.len());
        count(reboots, of(|operation| matches!(operation, Operation::Reboot)));
        count(relocations, of(|operation| matches!(operation, Operation::Relocate)));
        count(
            failed,
            of(|operation| matches!(operation, Operation::Send { fate, .. } if *fate != Fate::Delivered)),
        );
        Ok(())
    });
    result.expect("the model holds");
    println!(
        "model: {} sequences, {} operations, {} restarts, {} exports read back, {} sends that failed",
        runs.get(),
        operations.get(),
        reboots.get(),
        relocations.get(),
        failed.get()
    );
    assert_eq!(runs.get(), sequences() as usize);
}
