//! Slips of the thumb on words of the garden, mended before anything is read.

use super::lexicon::{self, Sense};
use super::names::{Names, is_unknown};
use super::tokens::Token;

/// Reads words nobody knows as the word of the garden they are a slip of, unless a name is as near.
pub(super) fn mend(tokens: &mut [Token], names: &Names) {
    for token in tokens.iter_mut().filter(|token| is_unknown(token)) {
        if names.is_person(&token.text) {
            token.senses = lexicon::senses("we");
            continue;
        }
        if let Some(word) = by_ear(&token.text) {
            token.reword(&word);
            continue;
        }
        let Some(word) = lexicon::meant(&token.text) else { continue };
        let slips = strsim::damerau_levenshtein(&token.text, word);
        if names.distance(token).is_some_and(|name| name <= slips) {
            continue;
        }
        token.reword(word);
    }
}

/// "Drie", "rustey": a "y" spelt as it sounds.
fn by_ear(typed: &str) -> Option<String> {
    let stem = ["ie", "ey", "ye"].iter().find_map(|ending| typed.strip_suffix(ending))?;
    let word = format!("{stem}y");
    let senses = lexicon::senses(&word);
    let trade = senses.has_any(&[Sense::Dry, Sense::Rust, Sense::Spots, Sense::Wet, Sense::Heavy]);
    (stem.len() >= 2 && trade).then_some(word)
}
