//! Whatever people type, a message stays well-formed: only the allowed tags, nested rightly, no letters that steer
//! the text, no ping of the room.

use proptest::prelude::*;

use super::*;
use crate::season::answer::{DoneView, MixAnswer, MixMissing, NotedItem, Place, Refusal};
use crate::season::journal::{Report, Timing};
use crate::season::request::{Doubt, DoubtKind, Setting, TreeDetails};
use crate::units::Position;

/// The part of the HTML subset of the Matrix specification (client-server API, "m.room.message msgtypes") used here.
const ALLOWED: [&str; 5] = ["p", "strong", "em", "ul", "li"];

/// What is wrong with the HTML, if anything is.
fn fault(html: &str) -> Option<String> {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = html;
    while let Some(at) = rest.find(['<', '&', '>']) {
        let sign = &rest[at..];
        if let Some(entity) = sign.strip_prefix('&') {
            let known =
                ["amp;", "lt;", "gt;", "quot;", "#39;"].iter().find(|name| entity.starts_with(**name));
            let Some(name) = known else { return Some(format!("a bare & before {entity:.20}")) };
            rest = &entity[name.len()..];
            continue;
        }
        let Some((tag, after)) = sign.strip_prefix('<').and_then(|sign| sign.split_once('>')) else {
            return Some(format!("a bare < or > at {sign:.20}"));
        };
        rest = after;
        match tag.strip_prefix('/') {
            Some(name) => {
                if open.pop() != Some(name) {
                    return Some(format!("</{name}> closes nothing"));
                }
            }
            None if tag == "br" => {}
            None if ALLOWED.contains(&tag) => open.push(tag),
            None => return Some(format!("<{tag}> is not allowed")),
        }
    }
    open.pop().map(|tag| format!("<{tag}> is left open"))
}

fn steers(letter: char) -> bool {
    letter != '\n' && letter.is_control()
        || matches!(letter, '\u{200e}' | '\u{200f}' | '\u{61c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}')
}

fn check(answers: &[Answer]) {
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        let Written { text, html } = write(answers, &voice(units));
        assert_eq!(fault(&html), None, "{html}");
        for words in [&text, &html] {
            assert!(!words.chars().any(steers), "{words:?}");
            assert!(!words.to_lowercase().contains("@room"), "{words}");
        }
        assert!(text.len() < 64_000, "{} bytes", text.len());
    }
}

#[test]
fn the_scanner_finds_faults() {
    for bad in
        ["<b>x</b>", "<p>x", "x</p>", "<p><em></p></em>", "a & b", "a < b", "a > b", "<p onclick=1>x</p>"]
    {
        assert!(fault(bad).is_some(), "{bad}");
    }
    assert_eq!(fault("<p><strong>a &amp; b</strong><br>c</p><ul><li>d</li></ul>"), None);
}

#[test]
fn samples_are_well_formed() {
    for (_, answers) in samples::all() {
        check(&answers);
    }
}

/// Names, captions and the like wherever they stand in an answer.
fn answers_with(typed: &str) -> Vec<Answer> {
    let typed = || typed.to_owned();
    let item = |report| NotedItem {
        trees: vec![typed(), typed()],
        whole_garden: false,
        happened: now(),
        timing: Timing::Told,
        report,
    };
    let doubt = |kind| Answer::Doubtful(Doubt { kind, words: typed(), candidates: vec![typed(), typed()] });
    vec![
        Answer::Done(DoneView {
            deed: None,
            trees: vec![typed()],
            items: vec![
                item(Report::Note { text: typed() }),
                item(Report::Photo { caption: Some(typed()), reference: Some(typed()) }),
                item(Report::Sprayed { product: typed(), volume: None }),
            ],
            earlier: 0,
        }),
        Answer::Mix(MixAnswer {
            product: Some(typed()),
            rate: None,
            volume: None,
            amount: None,
            missing: vec![MixMissing::Rate],
            cautions: Vec::new(),
        }),
        Answer::Settled {
            settings: vec![
                Setting::Name { name: typed() },
                Setting::Tree(TreeDetails {
                    name: typed(),
                    cultivar: Some(typed()),
                    ..TreeDetails::default()
                }),
            ],
            missing: vec![crate::season::answer::Missing::PotSize { tree: typed() }],
        },
        Answer::Places {
            name: typed(),
            places: vec![Place {
                name: typed(),
                region: Some(typed()),
                country: None,
                position: Position::new(1.0, 2.0).expect("a position"),
            }],
        },
        doubt(DoubtKind::UnknownTree),
        doubt(DoubtKind::NotUnderstood),
        doubt(DoubtKind::UnknownPlace),
        Answer::Refused { refusal: Refusal::Stranger },
    ]
}

#[test]
fn names_that_mean_harm() {
    for typed in [
        "<script>alert(1)</script>",
        "</li></ul><img src=x onerror=y>",
        "@room wake up",
        "@RO\u{200b}OM",
        "\u{202e}txet desrever",
        "a\u{0}b\u{7}c\u{1b}[31m",
        "&lt;b&gt; & <b>",
        "\n\n- item\n# heading",
        "",
    ] {
        check(&answers_with(typed));
    }
    check(&answers_with(&"long ".repeat(20_000)));
}

proptest! {
    #[test]
    fn any_words_stay_words(typed in any::<String>()) {
        check(&answers_with(&typed));
    }

    #[test]
    fn nasty_letters_stay_words(typed in "[<>&\"'@roomROOM/\u{202a}-\u{202e}\u{2066}-\u{2069}\u{0}-\u{1f} \u{2028}]{0,60}") {
        check(&answers_with(&typed));
    }
}
