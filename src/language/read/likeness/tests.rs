//! What plain words a message is put into, and that a guess is left alone where the words do not bear it out.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use chrono::{DateTime, TimeZone, Utc};

use super::plain_words::Told;
use super::{marks_of, weights};
use crate::app::garden_file;
use crate::identity::{EventId, PersonId};
use crate::language::read::names::Names;
use crate::language::read::{Context, read};
use crate::season::garden::Garden;
use crate::season::journal::{Entry, Report, Timing, What};
use crate::season::request::Wording;

fn garden() -> Garden {
    let settings = garden_file::read(include_str!("../../../../config-example/garden.toml")).unwrap();
    let mut garden = Garden::new("");
    settings.iter().for_each(|setting| setting.apply(&mut garden));
    garden
}

/// Wednesday 10 July 2013, 18:00 in New York.
fn moment() -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2013, 7, 10, 22, 0, 0).unwrap()
}

fn sprayed_celeste() -> Entry {
    Entry {
        who: PersonId::new("ana"),
        event: EventId::new("e"),
        said: moment(),
        happened: moment(),
        timing: Timing::Assumed,
        what: What::Report {
            trees: vec![String::from("Celeste")],
            report: Report::Sprayed { product: String::from("copper"), volume: None },
        },
    }
}

fn context<'a>(garden: &'a Garden, last: &'a Entry) -> Context<'a> {
    Context {
        garden,
        at: moment(),
        zone: garden.zone(),
        open_question: None,
        last: Some(last),
        last_message: std::slice::from_ref(last),
        answered: None,
        bot_name: "leafhold",
    }
}

fn plain(kind: &str, text: &str) -> Option<String> {
    let garden = garden();
    let last = sprayed_celeste();
    let context = context(&garden, &last);
    let names = Names::of(&garden);
    let plain = Told::of(text, &names, &context).as_kind(kind)?;
    Some(plain.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" "))
}

#[test]
fn put_into_plain_words() {
    for (kind, text, words) in [
        ("stage picked_out", "corner is totally done, nothing left on it", "corner: picked out"),
        (
            "moved indoors",
            "brought whip and eave in the garage last night",
            "moved whip and eave indoors last night",
        ),
        ("frost", "jack frost came by, -2 C on the porch", "frost -2 C"),
        ("picked", "twenty one figs off wall, no honey the kettle is not on", "picked twenty one off wall"),
        ("ask mix", "a 5 gal tank of copper takes how much powder", "how much copper for 5 gal?"),
        ("ask done", "last time i put anything on the wall when was that", "what was done to wall?"),
        ("ask done", "how many days since the neem went on", "when did I last spray neem?"),
        ("correct when", "those were yesterday, not today", "make that yesterday"),
        ("correct product", "it was the sulfur I had in my hand, not copper", "make that sulfur"),
        ("correct stage ripening", "grandpa looked, theyre ripe already", "make that ripening"),
        ("correct trees", "look again, that was Whip", "make that Whip"),
        (
            "set first_frost",
            "we get our first frost round november twentieth",
            "the first frost is november twentieth",
        ),
        ("set morning", "have it at my door by 6:15 am", "morning message at 6:15 am"),
        ("set tree", "upped whip to a 10 gal pot", "whip is in a 10 gal pot"),
        ("set tree", "finally got big one out of that pot and into the dirt", "big one is in the ground"),
        ("set rename", "call the whip junior from now on", "rename Whip to junior"),
        ("correct number", "make it 10, the 4yo was hiding one", "make that 10"),
        ("set name", "Kids voted and the garden is Sticky Fingers 7 now", "call the garden Sticky Fingers 7"),
    ] {
        assert_eq!(plain(kind, text), Some(words.to_lowercase()), "{kind}: {text}");
    }
}

/// What was done hangs on a word the plain ones would leave out, or something stands there they have no place for.
#[test]
fn no_plain_words_for() {
    for (kind, text) in [
        ("watered", "Only Celeste not water yet"),
        ("watered", "maybe Bo watered the pots"),
        ("watered", "should have watered the pots yesterday"),
        ("picked", "celeste 14"),
        ("picked", "got some off Wall"),
        ("stage ripening", "they are ripe now"),
        ("correct trees", "s/Celeste/Eave"),
        ("correct product", "it was malathion"),
        ("correct number", "theres a spot or two underneath"),
        ("set tree", "two Desert Kings in 10 gal pots"),
        ("picked", "birds got like 6 on celeste, i only got 3"),
        ("ask tree", "how is the old one doing"),
        ("ask together", "can copper go in with it"),
    ] {
        assert_eq!(plain(kind, text), None, "{kind}: {text}");
    }
}

/// Whatever is guessed is told back.
#[test]
fn a_guess_is_told_back() {
    let garden = garden();
    let last = sprayed_celeste();
    let reading = read("corner is totally done, nothing left on it to pick", &context(&garden, &last));
    assert_eq!(reading.requests.len(), 1, "{reading:?}");
    assert_eq!(reading.wording, Wording::Open);
}

#[test]
fn talk_is_like_talk() {
    let guess =
        weights::guess(&marks_of("grandpa just called the squirrel a tax collector", &garden())).unwrap();
    assert_eq!(guess.kind, "aside");
    assert!(guess.sure > 0.8, "{guess:?}");
}
