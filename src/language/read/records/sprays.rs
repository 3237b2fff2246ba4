//! What was sprayed: the products a report names, or the doubt that asks for them.

use super::Part;
use crate::language::read::Speech;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::{Product, is_unknown};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::{Doubt, DoubtKind, Reading};

pub(super) fn products(speech: &Speech, part: &Part, reading: &mut Reading) -> Vec<String> {
    let mut names = Vec::new();
    // "Copper or sulfur on Wall", "copper, or was it the sulfur"
    let two = part.products.iter().filter(|product| matches!(product, Product::Known { .. })).count() > 1;
    if two && speech.tokens.iter().any(|token| token.is("or")) {
        let candidates = part.products.iter().filter_map(|product| match product {
            Product::Known { name, .. } => Some(name.clone()),
            _ => None,
        });
        reading.doubts.push(Doubt {
            kind: DoubtKind::WhichProduct,
            words: speech.typed(part.range.start, part.range.end).to_owned(),
            candidates: candidates.collect(),
        });
        return names;
    }
    for product in &part.products {
        let at = |index: &usize| {
            let from = part.range.start + index;
            match speech.tokens.get(from) {
                // Lime sulfur is one spray in two words.
                Some(token) => speech.typed(from, from + 1 + usize::from(token.is("lime"))).to_owned(),
                // Carried over from a clause before: the words that it is told in.
                None => speech.typed(part.range.start, part.range.end).to_owned(),
            }
        };
        let (kind, words, candidates) = match product {
            Product::Known { name, used, misspelt } => {
                if *misspelt {
                    reading.spellings.extend(used.first().map(|index| (at(index), name.clone())));
                }
                names.push(name.clone());
                continue;
            }
            Product::Several { index, names } => (DoubtKind::WhichProduct, at(index), names.clone()),
            Product::Unknown { index } => {
                (DoubtKind::UnknownProduct, at(index), speech.names.product_names())
            }
            Product::Unsaid => continue,
        };
        reading.doubts.push(Doubt { kind, words, candidates });
    }
    if !part.products.is_empty() {
        return names;
    }
    if let Some(words) = named_with(speech, part) {
        let candidates = speech.names.product_names();
        reading.doubts.push(Doubt { kind: DoubtKind::UnknownProduct, words, candidates });
    } else if let Some(only) = speech.names.only_product() {
        return vec![only.to_owned()];
    } else {
        reading.doubts.push(Doubt {
            kind: DoubtKind::WhichProduct,
            words: speech.typed(part.range.start, part.range.end).to_owned(),
            candidates: speech.names.product_names(),
        });
    }
    Vec::new()
}

/// "sprayed with zzz", "sprayed soap": the spray of a kind or name nobody has told of.
fn named_with(speech: &Speech, part: &Part) -> Option<String> {
    let clause = part.clause(speech.tokens);
    let other = clause
        .iter()
        .position(|token| token.senses.has(Sense::OtherProduct) && !token.senses.has(Sense::AnyProduct));
    let leads = |token: &Token| {
        token.is_any(words!("with using some"))
            || token.senses.has_any(&[Sense::Sprayed, Sense::Applied, Sense::Spraying])
    };
    let unknown = || (1..clause.len()).find(|index| is_unknown(&clause[*index]) && leads(&clause[index - 1]));
    // "with beer": a thing no spray is made of, and surely none of the garden's.
    let thing = || {
        (1..clause.len()).find(|index| {
            clause[*index].senses.has(Sense::Thing)
                && !clause[*index].is_any(words!("sprayer nozzle hose-end hand hands thumb"))
                && clause[index - 1].is_any(words!("with using"))
        })
    };
    // "Sprayed garlic tea on Corner"
    let brew = (1..clause.len()).find(|index| {
        clause[*index].is_any(words!("tea brew concoction extract solution"))
            && clause[..*index].iter().rev().take(3).any(leads)
    });
    if let Some(at) = brew {
        let from = (0..at).rev().take_while(|before| !leads(&clause[*before])).last().unwrap_or(at);
        return Some(speech.typed(part.range.start + from, part.range.start + at + 1).to_owned());
    }
    let index = other.or_else(unknown).or_else(thing)?;
    let first = part.range.start + index;
    Some(speech.typed(first, first + 1).to_owned())
}
