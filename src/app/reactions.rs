//! A thumb on a message: "done", "undo", or a class from 0 to 5.

use super::offers::{About, Offer};
use crate::season::journal::{Report, RustAmount};
use crate::season::request::{Reading, Record, Request, Selection, When};

/// What a reaction asks for.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Thumb {
    Requests(Reading),
    /// Take back what that message reported.
    Undo,
    Nothing,
}

/// Signs people give, with the variation selector taken off.
const DONE: [&str; 6] = ["✅", "👍", "✔", "☑", "👌", "💯"];
const UNDO: [&str; 5] = ["❌", "↩", "👎", "🚫", "✖"];

pub(super) fn thumb(key: &str, about: &About) -> Thumb {
    let sign: String = key
        .chars()
        .filter(|letter| !matches!(letter, '\u{fe0f}' | '\u{fe0e}' | '\u{1f3fb}'..='\u{1f3ff}'))
        .collect();
    if UNDO.contains(&sign.as_str()) {
        return Thumb::Undo;
    }
    if let Some(class) = class(&sign) {
        let requests: Vec<Request> = about
            .offers
            .iter()
            .filter_map(|offer| match offer {
                Offer::Scout { trees } => {
                    Some(record(trees, Report::Scouted { amount: RustAmount::Class(class), level: None }))
                }
                Offer::Spray { .. } | Offer::Water { .. } => None,
            })
            .collect();
        return Thumb::Requests(Reading { requests, ..Reading::default() });
    }
    if DONE.contains(&sign.as_str()) {
        let requests: Vec<Request> = about.offers.iter().filter_map(done).collect();
        return Thumb::Requests(Reading { requests, ..Reading::default() });
    }
    Thumb::Nothing
}

fn done(offer: &Offer) -> Option<Request> {
    match offer {
        Offer::Spray { product, trees } => {
            Some(record(trees, Report::Sprayed { product: product.clone(), volume: None }))
        }
        Offer::Water { trees } => Some(record(trees, Report::Watered { volume: None, depth: None })),
        // That someone looked says nothing without what was seen.
        Offer::Scout { .. } => None,
    }
}

fn record(trees: &[String], report: Report) -> Request {
    Request::Record(Record { trees: Selection::Named(trees.to_vec()), when: When::Unsaid, report })
}

/// "0️⃣" to "5️⃣", or a bare digit.
fn class(sign: &str) -> Option<u8> {
    let mut letters = sign.chars();
    let digit = letters.next()?.to_digit(10).filter(|digit| *digit <= 5)?;
    letters.all(|letter| letter == '\u{20e3}').then_some(digit as u8)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_are_read_whatever_their_dress() {
        let about =
            About { offers: vec![Offer::Scout { trees: vec![String::from("Celeste")] }], ..About::default() };
        let classes = |key: &str| match thumb(key, &about) {
            Thumb::Requests(reading) => reading.requests.len(),
            _ => usize::MAX,
        };
        assert_eq!(classes("3\u{fe0f}\u{20e3}"), 1);
        assert_eq!(classes("3"), 1);
        assert_eq!(classes("7"), usize::MAX);
        assert_eq!(thumb("❌", &about), Thumb::Undo);
        assert_eq!(thumb("🍕", &about), Thumb::Nothing);
        let spray = About {
            offers: vec![Offer::Spray { product: String::from("copper"), trees: Vec::new() }],
            ..About::default()
        };
        for done in ["👍🏽", "✔\u{fe0f}", "✅"] {
            assert!(matches!(thumb(done, &spray), Thumb::Requests(reading) if reading.requests.len() == 1));
        }
    }
}
