//! What is left of a person who asked to be forgotten.

use leafhold::post::Mailroom;
use leafhold::season::facts::QuestionChange;
use leafhold::season::garden::Role;
use leafhold::season::journal::{LineNumber, Report, What, Withdrawal};
use leafhold::season::request::{Doubt, DoubtKind, OpenQuestion, Setting};
use leafhold::store::{Commit, Forecast, Forget, GardenChange, Store, cell_of};
use leafhold::units::{Litres, Position};
use leafhold::weather::Series;

use crate::samples::*;

const ANA: &str = "@ana:example.org";
const BEN: &str = "@ben:example.org";

fn member(id: &str, role: Role) -> Setting {
    Setting::Person { id: person(id), name: format!("called {id}"), role }
}

fn position() -> Position {
    Position::new(30.69, -88.04).expect("a place")
}

fn place() -> Setting {
    Setting::Position { position: position(), place: Some(String::from("Mobile")), zone: None }
}

fn forget_ana() -> Forget {
    Forget {
        person: person(ANA),
        now: at(100),
        notes: vec![format!("direct/{ANA}")],
        seen: Some(event("$forget me")),
        farewell: vec![draft("farewell")],
    }
}

/// Ana keeps garden 0 alone and garden 1 with Ben.
fn two_gardens(folder: &std::path::Path) -> Store {
    let store = Store::open(folder).expect("a store");
    let sprayed =
        |product: &str| Report::Sprayed { product: product.to_owned(), volume: Some(Litres::new(2.0)) };
    let shared = vec![
        settled(ANA, member(ANA, Role::Keeper)),
        settled(ANA, member(BEN, Role::Helper)),
        settled(ANA, place()),
        reported(ANA, "$ana 1", sprayed("sulfur")),
        reported(ANA, "$ana 2", Report::Note { text: String::from("ana's own words") }),
        reported(ANA, "$ana 3", Report::Photo { caption: None, reference: Some(String::from("mxc://ana")) }),
        reported(BEN, "$ben 1", Report::Note { text: String::from("ben's own words") }),
    ];
    let doubt =
        Doubt { kind: DoubtKind::WhichTree, words: String::from("ana's doubt"), candidates: Vec::new() };
    let open = OpenQuestion { text: String::from("ana asks"), doubt, said: at(0), event: event("$ana 4") };
    let shared = GardenChange {
        question: Some((person(ANA), QuestionChange::Open(open))),
        ..change(garden(1), shared)
    };
    let own = vec![settled(ANA, member(ANA, Role::Keeper)), settled(ANA, place())];
    let mut to_ana = draft("to ana");
    to_ana.outbound.re = Some(event("$ana 1"));
    let mut about_ana = draft("about ana");
    about_ana.about = Some(String::from(r#"{"garden":"garden 1","answers":"$ana 2","offers":[]}"#));
    let mut mentions_ana = draft("mentions ana");
    mentions_ana.outbound.mentions = vec![person(ANA)];
    let outbox = vec![to_ana, about_ana, mentions_ana, draft("to all")];
    let gardens = vec![change(garden(0), own), shared];
    store.commit(&Commit { gardens, outbox, ..Commit::default() }).expect("committed");
    store.keep(&format!("direct/{ANA}"), Some(b"!ana")).expect("kept");
    let mut mine = letter("$ana 5");
    mine.from = person(ANA);
    let mut theirs = letter("$ben 2");
    theirs.from = person(BEN);
    store.accept(vec![mine, theirs]).expect("accepted");
    let forecast = Forecast { series: Series::default(), fetched: at(0), credit: String::from("a service") };
    store.put_forecast(&cell_of(position()), &forecast).expect("kept");
    store
}

#[test]
fn nothing_of_a_person_is_left_but_marks() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = two_gardens(folder.path());
    assert!(store.forget(&forget_ana()).expect("forgotten"));
    let check = |store: &Store| {
        let text = export(store);
        let told: Vec<&str> = text
            .lines()
            .filter(|line| ["ana", "Ana"].iter().any(|name| line.contains(name)))
            .filter(|line| !["\"seen\"", "\"sent\""].iter().any(|kind| line[..15].contains(kind)))
            .collect();
        assert_eq!(told, Vec::<&str>::new());
        assert_eq!(store.gardens(), [garden(1)], "a garden of hers alone goes whole");
        assert_eq!(store.gardens_of(&person(ANA)), []);
        let facts = store.facts(&garden(1), at(0), None).expect("read").expect("a garden");
        assert!(facts.journal.lines().iter().zip(1..).all(|(line, number)| line.number.0 == number));
        let standing: Vec<&What> = facts.journal.standing().map(|(_, entry)| &entry.what).collect();
        assert_eq!(standing.len(), 4, "{standing:?}");
        // What was sprayed stays: those who go on spraying need to know.
        assert!(facts.journal.reports().any(|(entry, _, report)| {
            matches!(report, Report::Sprayed { .. }) && entry.who == person("forgotten")
        }));
        assert_eq!(notes(store, &garden(1)), ["ben's own words"]);
        assert_eq!(facts.garden.position, Some(position()), "the garden is still where it was");
        assert_eq!(facts.garden.people.len(), 1);
        assert_eq!(facts.open_question, None);
        let waiting: Vec<String> =
            store.waiting().expect("read").into_iter().map(|row| row.outbound.key).collect();
        assert_eq!(waiting, ["to all", "farewell"]);
        let inbox: Vec<_> = store.inbox().expect("read").into_iter().map(|letter| letter.id).collect();
        assert_eq!(inbox, [event("$ben 2")]);
        assert_eq!(store.flaws().expect("read"), []);
    };
    check(&store);
    drop(store);
    let store = Store::open(folder.path()).expect("it opens again");
    check(&store);
    // The message that asked, and those she sent before, do nothing when they come again.
    assert!(!store.forget(&forget_ana()).expect("seen before"));
    assert!(store.knows(&event("$ana 5")).expect("read"));
    let again = Commit { outbox: vec![draft("to ana")], ..Commit::default() };
    store.commit(&again).expect("committed");
    check(&store);
}

#[test]
fn a_blank_line_is_retracted_as_forgotten() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = two_gardens(folder.path());
    store.forget(&forget_ana()).expect("forgotten");
    let facts = store.facts(&garden(1), at(0), None).expect("read").expect("a garden");
    let retracted: Vec<LineNumber> = facts
        .journal
        .lines()
        .iter()
        .filter_map(|line| match &line.act {
            leafhold::season::journal::Act::Retract(retraction)
                if retraction.why == Withdrawal::Forgotten =>
            {
                Some(retraction.entry)
            }
            _ => None,
        })
        .collect();
    // Her membership, her note, her photo.
    assert_eq!(retracted, [1, 5, 6].map(LineNumber));
}

#[test]
fn weather_goes_with_the_last_garden_of_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = two_gardens(folder.path());
    let cell = cell_of(position());
    store.forget(&forget_ana()).expect("forgotten");
    assert!(store.weather(&cell).expect("read").1.fetched.is_some(), "Ben's garden is there too");
    let ben = Forget { person: person(BEN), seen: None, farewell: Vec::new(), ..forget_ana() };
    store.forget(&ben).expect("forgotten");
    assert_eq!(store.gardens(), []);
    assert!(store.weather(&cell).expect("read").1.fetched.is_none());
    assert!(!export(&store).contains(&cell));
}
