//! "No, only the two by the wall", "make that 20", "I meant sulfur", "it was yesterday".

use super::amounts::{Amount, amounts, bare_depth};
use super::lexicon::Sense;
use super::moments::moment;
use super::names::Product;
use super::tokens::Token;
use super::{Speech, doubt};
use crate::season::journal::{LeafLevel, Report, RustAmount, What};
use crate::season::request::{Correction, DoubtKind, Reading, Request, When};

/// Reads a sentence as a correction of the last report, if it opens like one.
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> bool {
    let Some(rest) = after_opening(speech.tokens) else { return false };
    if rest.is_empty() {
        return false;
    }
    let found = corrections(speech, rest);
    if found.is_empty() {
        return false;
    }
    if speech.context.last.is_none() {
        reading.doubts.push(doubt(DoubtKind::NothingThere, speech.text));
        return true;
    }
    reading.requests.extend(found.into_iter().map(Request::Correct));
    true
}

/// What follows the words that open a correction.
fn after_opening(tokens: &[Token]) -> Option<&[Token]> {
    const OPENINGS: &[&[&str]] = &[
        &["no", ",", "i", "meant"],
        &["no", ",", "only"],
        &["no", ",", "just"],
        &["no", ",", "it", "was"],
        &["no", ",", "that", "was"],
        &["no", ",", "make", "that"],
        &["no", ",", "make", "it"],
        &["no", "only"],
        &["no", "just"],
        &["no", "i", "meant"],
        &["no", "it", "was"],
        &["sorry", ",", "i", "meant"],
        &["sorry", ",", "it", "was"],
        &["sorry", ",", "make", "that"],
        &["sorry", "i", "meant"],
        &["i", "meant"],
        &["i", "mean"],
        &["meant"],
        &["make", "that"],
        &["make", "it"],
        &["change", "that", "to"],
        &["change", "it", "to"],
        &["correction", ":"],
        &["correction", ","],
        &["correction"],
        &["should", "be"],
        &["should", "have", "been"],
        &["that", "should", "be"],
        &["that", "was"],
        &["it", "was"],
        &["actually", ",", "it", "was"],
        &["actually", "it", "was"],
        &["actually", ",", "only"],
        &["actually", ",", "just"],
        &["actually", "only"],
        &["actually", "just"],
        &["actually", ","],
        &["actually"],
        &["only"],
        &["just"],
        &["not", "all", ",", "only"],
        &["not", "all", ",", "just"],
        &["no", ","],
    ];
    let matches = |opening: &&&[&str]| {
        tokens.len() > opening.len() && opening.iter().zip(tokens).all(|(word, token)| token.is(word))
    };
    let opening = OPENINGS.iter().filter(matches).max_by_key(|opening| opening.len())?;
    let rest = &tokens[opening.len()..];
    // A bare "no," or "actually" before a whole new report opens no correction, and neither does "just" with a verb.
    let weak = matches!(
        opening,
        &&["no", ","]
            | &&["actually"]
            | &&["actually", ","]
            | &&["only"]
            | &&["just"]
            | &&["it", "was"]
            | &&["that", "was"]
    );
    let has_verb = rest.iter().any(|token| {
        token.senses.has(Sense::Sprayed)
            && !token.senses.has(Sense::Copper)
            && token.is_any(&["sprayed", "treated", "applied", "misted"])
            || token.senses.has(Sense::Watered)
            || token.senses.has(Sense::SprayBase)
            || token.is_any(&["finished", "done"])
            || token.is_any(&[
                "picked",
                "harvested",
                "gauge",
                "rained",
                "froze",
                "dropped",
                "rust",
                "saw",
                "found",
                "noticed",
                "ate",
            ])
    });
    (!(weak && has_verb)).then_some(rest)
}

fn corrections(speech: &Speech, rest: &[Token]) -> Vec<Correction> {
    let mut found = Vec::new();
    let trees = speech.names.trees(rest, speech.text);
    if let Some(selection) = &trees.selection {
        found.push(Correction::Trees(selection.clone()));
    }
    if let Product::Known { name, .. } = speech.names.product(rest) {
        found.push(Correction::Product(name));
    }
    let moment = moment(rest, speech.context.at, speech.context.zone);
    if moment.is_said() && !moment.impossible {
        let when = match moment.when(speech.context.at, speech.context.zone) {
            // "It was this morning" with nothing more is the day, not this minute.
            When::Unsaid => None,
            when => Some(when),
        };
        found.extend(when.map(Correction::When));
    }
    let mut taken = trees.used.clone();
    taken.extend(&moment.used);
    let last = speech.context.last.and_then(|entry| match &entry.what {
        What::Report { report, .. } => Some(report),
        What::Setting(_) => None,
    });
    for measured in amounts(rest, &taken, speech.context.garden.units) {
        found.extend(of_amount(measured.amount, last, speech));
    }
    if found.is_empty() {
        found.extend(level(rest).map(Correction::Level));
    }
    found
}

fn of_amount(amount: Amount, last: Option<&Report>, speech: &Speech) -> Option<Correction> {
    Some(match amount {
        Amount::Depth(depth) => Correction::Depth(depth),
        Amount::Volume(volume) => Correction::Volume(volume),
        Amount::Mass(mass) => Correction::Mass(mass),
        Amount::Share(share) => Correction::Severity(RustAmount::Severity(share)),
        Amount::Class(class) if (0.0..=5.0).contains(&class) => {
            Correction::Severity(RustAmount::Class(class as u8))
        }
        Amount::LeavesOf { spotted, of } if spotted <= of => {
            Correction::Severity(RustAmount::Leaves { spotted: spotted as u32, of: of as u32 })
        }
        // A bare number takes the unit of what it corrects; a gauge's is the garden's own.
        Amount::Count(count) => match last {
            Some(Report::Rained { .. }) => Correction::Depth(bare_depth(count, speech.context.garden.units)),
            _ => Correction::Number(count),
        },
        _ => return None,
    })
}

fn level(rest: &[Token]) -> Option<LeafLevel> {
    rest.iter().find_map(|token| {
        let has = |sense| token.senses.has(sense);
        if has(Sense::Lower) {
            Some(LeafLevel::Lower)
        } else if has(Sense::Upper) {
            Some(LeafLevel::Upper)
        } else if has(Sense::Middle) {
            Some(LeafLevel::Middle)
        } else {
            None
        }
    })
}
