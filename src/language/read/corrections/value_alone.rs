//! A value by itself behind a report that holds one of its kind: "20%", "11, two rolled under the bench", "it took 2
//! quarts", "wet really". Nothing owns up to a slip, and nothing else can be meant.

use crate::language::read::Speech;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::Product;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::{Entry, Report};

use super::told_anew::report_of;

/// Whether the words before the first mark are a value and small words, and those behind it only say why.
pub(super) fn is_value_alone(speech: &Speech, last: &Entry) -> bool {
    const MOST_WORDS: usize = 9;
    const STATES: &[Sense] = &[
        Sense::Dry,
        Sense::Wet,
        Sense::Moist,
        Sense::Lower,
        Sense::Middle,
        Sense::Upper,
        Sense::Whole,
        Sense::Heavy,
        Sense::Trace,
        Sense::Some,
        Sense::Swell,
        Sense::Ripening,
    ];
    let Some(report) = report_of(last) else { return false };
    let end = speech.tokens.iter().position(is_end).unwrap_or(speech.tokens.len());
    let (head, tail) = speech.tokens.split_at(end);
    let described = matches!(
        report,
        Report::Scouted { .. } | Report::Moisture { .. } | Report::Weighed { .. } | Report::Stage { .. }
    );
    let state = |token: &Token| described && token.senses.has_any(STATES);
    let poured = matches!(
        report,
        Report::Sprayed { .. } | Report::Watered { .. } | Report::Rained { .. } | Report::Picked { .. }
    );
    let sprayed = matches!(report, Report::Sprayed { .. });
    let value = |token: &Token| {
        token.number.is_some()
            || state(token)
            || token.is_any(words!("half lot third quarter"))
            || poured && token.senses.has(Sense::Unit)
            || sprayed && speech.names.product(std::slice::from_ref(token)) != Product::Unsaid
    };
    let small = |token: &Token| {
        token.is_mark()
            || token.senses.has_any(&[Sense::Unit, Sense::Article, Sense::Link, Sense::Filler, Sense::Leaf, Sense::Gauge,
                Sense::Time, Sense::Be])
            || token.is_any(words!(
                "used it took a an about really now already yet the whole in end all together total altogether weighed them they came to says said looked again of and not just only more like it's its figs fig class percent % each apiece i we ripening tree that here there look"
            ))
    };
    let work = |token: &Token| {
        token.senses.has_any(&[
            Sense::Picked,
            Sense::Sprayed,
            Sense::Watered,
            Sense::Rain,
            Sense::Copper,
            Sense::Sulfur,
            Sense::Oil,
        ])
    };
    // "Weighed them, 2 lbs": the value behind the first mark.
    let (head, tail) = match tail.split_first() {
        Some((_, rest)) if !head.iter().any(value) && head.iter().all(small) => {
            let end = rest.iter().position(is_end).unwrap_or(rest.len());
            rest.split_at(end)
        }
        _ => (head, tail),
    };
    // "Ha, good one", "half that"
    let figure = head.iter().find(|token| !small(token) || value(token));
    let idle = head.last().is_some_and(|last| last.is_any(words!("one that today tonight")))
        && head.len() <= 3
        || head.first().is_some_and(|first| first.is_any(words!("last next")));
    speech.mentions.iter().all(|mention| mention.trees.is_vague())
        && !idle
        && figure.is_some_and(value)
        && !head.is_empty()
        && head.len() <= MOST_WORDS
        && head.iter().any(value)
        && head.iter().all(|token| value(token) || small(token))
        && !tail.iter().any(work)
        // "12 or 13"
        && !speech.tokens.iter().any(|token| token.is_any(words!("or another more plus also too next tomorrow")))
}

fn is_end(token: &Token) -> bool {
    token.is_any(words!(", . ; ! - ("))
}
