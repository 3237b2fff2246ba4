//! What was put right in words: how much rust, on which leaves, how wet, how ripe.

use crate::language::read::lexicon::Sense;
use crate::language::read::records;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::{LeafLevel, MoistureState, Report, RustAmount, RustWords, Stage};
use crate::season::request::Correction;

/// "Should have done it last week": nothing is put right.
pub(super) fn is_wish(tokens: &[Token]) -> bool {
    // "So the plan is to water the pots Thursday instead"
    let planned = tokens
        .windows(2)
        .any(|pair| pair[0].is_any(words!("plan plans idea")) && pair[1].is_any(words!("is was to for now")));
    planned
        || tokens.windows(3).next().is_some_and(|three| {
            three[0].is("should")
                && three[1].is_any(words!("have of've"))
                && three[2].is_any(words!("done sprayed watered picked gone started"))
        })
}

/// Corrections in words, by what the last report can take.
pub(super) fn of_words(tokens: &[Token], last: Option<&Report>) -> Option<Correction> {
    // "Not heavy, just some": what is denied is not meant.
    let denied = tokens.iter().position(|token| token.is_any(words!("not isn't wasn't"))).filter(|at| {
        matches!(
            last,
            Some(
                Report::Scouted { .. }
                    | Report::Moisture { .. }
                    | Report::Weighed { .. }
                    | Report::Stage { .. }
            )
        ) && tokens.get(at + 1).is_some_and(|next| {
            next.senses.has_any(&[
                Sense::Heavy,
                Sense::Trace,
                Sense::Some,
                Sense::Wet,
                Sense::Dry,
                Sense::Moist,
                Sense::Ripening,
                Sense::Swell,
            ])
        }) && tokens.len() > at + 2
    });
    let kept: Vec<Token>;
    let tokens = match denied {
        Some(at) => {
            kept = tokens
                .iter()
                .enumerate()
                .filter(|(index, _)| *index != at && *index != at + 1)
                .map(|(_, token)| token.clone())
                .collect();
            &kept
        }
        None => tokens,
    };
    let has = |sense: Sense| tokens.iter().any(|token| token.senses.has(sense));
    match last? {
        Report::Scouted { .. } => {
            let level = records::leaf_level(tokens).map(Correction::Level);
            // "No, it was no rust"
            let no_rust = tokens
                .windows(2)
                .any(|pair| pair[0].is("no") && pair[1].senses.has_any(&[Sense::Rust, Sense::Spots]));
            let words =
                if no_rust || tokens.iter().any(|token| token.is_any(words!("none nothing clean zero"))) {
                    Some(RustAmount::None)
                } else if has(Sense::Heavy)
                    || tokens.windows(2).any(|pair| pair[0].is("a") && pair[1].is_any(words!("lot ton")))
                {
                    Some(RustAmount::Words(RustWords::Heavy))
                } else if has(Sense::Trace) {
                    Some(RustAmount::Words(RustWords::Trace))
                } else if has(Sense::Some) {
                    Some(RustAmount::Words(RustWords::Some))
                } else {
                    None
                };
            level.or_else(|| bare_level(tokens)).or(words.map(Correction::Severity))
        }
        Report::Moisture { .. } | Report::Weighed { .. } => {
            let state = if has(Sense::Wet) {
                MoistureState::Wet
            } else if has(Sense::Dry) {
                MoistureState::Dry
            } else if has(Sense::Moist) {
                MoistureState::Moist
            } else {
                return None;
            };
            Some(Correction::Moisture(state))
        }
        Report::Stage { .. } => {
            let stage = if has(Sense::Swell) {
                Stage::Swelling
            } else if has(Sense::Ripening) || has(Sense::Ripe) {
                Stage::Ripening
            } else if has(Sense::Set) {
                Stage::Fruitlets
            } else if has(Sense::Dormant) {
                Stage::Dormant
            } else if has(Sense::LeafOut) {
                Stage::LeafOut
            } else {
                return None;
            };
            Some(Correction::Stage(stage))
        }
        _ => None,
    }
}

fn bare_level(tokens: &[Token]) -> Option<Correction> {
    tokens.iter().find_map(|token| {
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
        .map(Correction::Level)
    })
}
