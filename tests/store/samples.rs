//! Gardens, people and messages for the tests of the store.

use chrono::{DateTime, TimeDelta, TimeZone, Utc};
use leafhold::identity::{EventId, GardenId, PersonId, RoomId};
use leafhold::post::{Addressed, Body, Content, Inbound, Kind, Outbound, RoomKind};
use leafhold::season::journal::{Act, Entry, Report, Timing, What};
use leafhold::season::request::Setting;
use leafhold::store::{Commit, Draft, GardenChange, Store};

pub(crate) fn at(minutes: i64) -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2013, 7, 10, 12, 0, 0).single().expect("a time") + TimeDelta::minutes(minutes)
}

pub(crate) fn event(name: &str) -> EventId {
    EventId::new(name)
}

pub(crate) fn garden(number: u8) -> GardenId {
    GardenId::new(format!("garden {number}"))
}

pub(crate) fn person(name: &str) -> PersonId {
    PersonId::new(name)
}

pub(crate) fn room(name: &str) -> RoomId {
    RoomId::new(name)
}

pub(crate) fn entered(who: &str, event: &str, what: What) -> Act {
    Act::Enter(Entry {
        who: PersonId::new(who),
        event: EventId::new(event),
        said: at(0),
        happened: at(0),
        timing: Timing::Assumed,
        what,
    })
}

pub(crate) fn reported(who: &str, event: &str, report: Report) -> Act {
    entered(who, event, What::Report { trees: vec![String::from("Celeste")], report })
}

pub(crate) fn note(text: &str, event: &str) -> Act {
    entered("ana", event, What::Report { trees: Vec::new(), report: Report::Note { text: text.to_owned() } })
}

pub(crate) fn settled(who: &str, setting: Setting) -> Act {
    entered(who, "settings", What::Setting(setting))
}

pub(crate) fn letter(id: &str) -> Inbound {
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

pub(crate) fn draft(key: &str) -> Draft {
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

pub(crate) fn change(id: GardenId, acts: Vec<Act>) -> GardenChange {
    GardenChange { id, now: at(0), acts, told: Vec::new(), question: None, wake: None }
}

/// What became of a garden's journal in words, one a line, retracted ones left out.
pub(crate) fn notes(store: &Store, id: &GardenId) -> Vec<String> {
    let facts = store.facts(id, at(0), None).expect("read").expect("a garden");
    let note = |report: &Report| match report {
        Report::Note { text } => Some(text.clone()),
        _ => None,
    };
    facts.journal.reports().filter_map(|(_, _, report)| note(report)).collect()
}

/// A store with some of most kinds of records.
pub(crate) fn filled(folder: &std::path::Path) -> Store {
    use leafhold::post::Mailroom;
    use leafhold::season::facts::{Matter, Told};
    use leafhold::season::journal::{LineNumber, Retraction, Withdrawal};
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
            told: vec![Told { at: at(number), matter: Matter::Once { name: id.clone() } }],
            wake: Some(at(number + 60)),
            ..change(garden((number % 2) as u8), acts)
        };
        let seen = Some(EventId::new(&id));
        let commit = Commit { seen, gardens: vec![change], outbox: vec![draft(&id)], moved: None };
        store.commit(&commit).expect("committed");
    }
    store.accept(vec![letter("event 5")]).expect("accepted");
    store.attempting("event 0", at(1), "device").expect("kept");
    store.delivered("event 1", Some(EventId::new("$sent"))).expect("kept");
    store.abandoned("event 2", "past its use").expect("kept");
    store.keep("transport/token", Some(b"\x00\xffnot text")).expect("kept");
    store.keep("transport/name", Some(b"{\"odd\": 1.0 }")).expect("kept");
    store
}

pub(crate) fn export(store: &Store) -> String {
    let mut bytes = Vec::new();
    store.export(&mut bytes).expect("an export");
    String::from_utf8(bytes).expect("text")
}
