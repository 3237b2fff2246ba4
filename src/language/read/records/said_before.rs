//! What a clause leaves to the one before it: "twice that", "... Celeste 61 lb, Big One 88 lb".

use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// "Twice that", "half as much", "the same again": how many times what was told before.
pub(super) fn multiple(clause: &[Token]) -> Option<f64> {
    let at = clause.iter().position(|token| token.is_any(words!("twice double half same triple")))?;
    let next = clause.get(at + 1);
    let factor = match clause[at].text.as_str() {
        "twice" | "double" => 2.0,
        "triple" => 3.0,
        "half" => 0.5,
        _ => 1.0,
    };
    let of_that = next.is_some_and(|next| next.is_any(words!("that as amount")));
    let alone = next.is_none() && factor >= 2.0;
    let again = clause[at].is("same")
        && at > 0
        && clause[at - 1].is("the")
        && next.is_none_or(|next| next.is_any(words!("again for from off on amount")));
    // "Same for Big One"
    let same = clause[at].is("same") && next.is_some_and(|next| next.is_any(words!("for to with on")));
    (of_that || alone || again || same).then_some(factor)
}

/// A verb or a state stands in the clause.
pub(super) fn says_its_own(clause: &[Token]) -> bool {
    clause.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Be,
            Sense::Have,
            Sense::Rust,
            Sense::Dry,
            Sense::Wet,
            Sense::Moist,
            Sense::Clean,
            Sense::Sprayed,
            Sense::Watered,
            Sense::Picked,
            Sense::Took,
            Sense::Drop,
            Sense::Gauge,
            Sense::Rain,
            Sense::Frost,
            Sense::Ripening,
            Sense::Copper,
            Sense::Sulfur,
            Sense::Oil,
        ])
    })
}
