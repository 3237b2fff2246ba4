//! Which trees and products a stretch of words names.

use std::ops::Range;

use super::lexicon::{self, Sense};
use super::tokens::{Token, folded, tokens};
use crate::season::garden::{Active, Garden, Tree};
use crate::season::request::Selection;

/// The garden's names, folded once for a message.
pub(super) struct Names {
    trees: Vec<Name>,
    cultivars: Vec<(Vec<String>, Vec<String>)>,
    groups: Vec<(Vec<String>, String)>,
    products: Vec<(Vec<String>, String, Active)>,
}

struct Name {
    words: Vec<String>,
    name: String,
}

/// Trees found in a stretch of tokens.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Found {
    pub(super) selection: Option<Selection>,
    /// Tokens that were part of names; not to be read as anything else.
    pub(super) used: Vec<usize>,
    pub(super) spellings: Vec<(String, String)>,
    /// More than one tree could be meant by these words.
    pub(super) ambiguous: Option<(Range<usize>, Vec<String>)>,
}

impl Names {
    pub(super) fn of(garden: &Garden) -> Self {
        let words = |text: &str| -> Vec<String> {
            tokens(text).into_iter().filter(|token| !token.is_mark()).map(|token| token.text).collect()
        };
        let mut cultivars: Vec<(Vec<String>, Vec<String>)> = Vec::new();
        for tree in &garden.trees {
            let Some(cultivar) = &tree.cultivar else { continue };
            let key = words(cultivar);
            match cultivars.iter_mut().find(|(known, _)| *known == key) {
                Some((_, trees)) => trees.push(tree.name.clone()),
                None => cultivars.push((key, vec![tree.name.clone()])),
            }
        }
        let mut groups: Vec<(Vec<String>, String)> = Vec::new();
        for group in garden.trees.iter().flat_map(|tree: &Tree| &tree.groups) {
            if !groups.iter().any(|(_, known)| known == group) {
                groups.push((words(group), group.clone()));
            }
        }
        Self {
            trees: garden
                .trees
                .iter()
                .map(|tree| Name { words: words(&tree.name), name: tree.name.clone() })
                .collect(),
            cultivars,
            groups,
            products: garden
                .products
                .iter()
                .map(|product| (words(&product.name), product.name.clone(), product.active))
                .collect(),
        }
    }

    /// The trees a stretch names, by nickname before cultivar before group.
    pub(super) fn trees(&self, stretch: &[Token], text: &str) -> Found {
        let mut found = Found::default();
        let mut named: Vec<String> = Vec::new();
        let mut groups: Vec<String> = Vec::new();
        let mut but_from = None;
        let mut all = false;
        let mut index = 0;
        let mut before_but = 0;
        while index < stretch.len() {
            if is_but(stretch, index) {
                but_from = Some(named.len() + groups.len());
                before_but = named.len();
                found.used.push(index);
                index += 1;
                continue;
            }
            if let Some((count, trees)) = self.at(stretch, index) {
                found.used.extend(index..index + count);
                match trees {
                    Match::Trees(trees) => named.extend(trees),
                    Match::Group(group) => groups.push(group),
                }
                index += count;
                continue;
            }
            let token = &stretch[index];
            if token.senses.has(Sense::All) && !is_whole_of_leaf(stretch, index) {
                all = true;
                found.used.push(index);
            } else if let Some((count, group)) = plain_group(stretch, index) {
                groups.push(group.to_owned());
                found.used.extend(index..index + count);
                index += count;
                continue;
            }
            index += 1;
        }
        if named.is_empty() && groups.is_empty() {
            self.misspelt(stretch, text, &mut found, &mut named);
        }
        named.dedup();
        found.selection = match but_from {
            Some(_) if all || !groups.is_empty() || before_but == 0 => {
                let mut unwanted: Vec<String> = named[before_but.min(named.len())..].to_vec();
                if all || groups.is_empty() {
                    unwanted.extend(groups);
                }
                if unwanted.is_empty() { None } else { Some(Selection::AllBut(unwanted)) }
            }
            Some(_) => Some(Selection::Named(named[..before_but.min(named.len())].to_vec())),
            None if !named.is_empty() && groups.is_empty() => Some(Selection::Named(named)),
            None if groups.len() == 1 && named.is_empty() => groups.pop().map(Selection::Group),
            None if !groups.is_empty() => {
                named.extend(groups);
                Some(Selection::Named(named))
            }
            None if all => Some(Selection::All),
            None => None,
        };
        found
    }

    /// The product a stretch names, and the tokens that did; "oil" or "sulfur" finds the one product of its kind.
    pub(super) fn product(&self, stretch: &[Token]) -> Product {
        for index in 0..stretch.len() {
            let longest = self
                .products
                .iter()
                .filter(|(words, ..)| matches_at(stretch, index, words))
                .max_by_key(|(words, ..)| words.len());
            if let Some((words, name, _)) = longest {
                return Product::Known { name: name.clone(), used: (index..index + words.len()).collect() };
            }
        }
        for (index, token) in stretch.iter().enumerate() {
            let kind =
                [(Sense::Copper, Active::Copper), (Sense::Sulfur, Active::Sulfur), (Sense::Oil, Active::Oil)]
                    .into_iter()
                    .find(|(sense, _)| token.senses.has(*sense));
            let Some((_, active)) = kind else { continue };
            let of_kind: Vec<&str> = self
                .products
                .iter()
                .filter(|(_, _, known)| *known == active)
                .map(|(_, name, _)| name.as_str())
                .collect();
            return match of_kind.as_slice() {
                [one] => Product::Known { name: (*one).to_owned(), used: vec![index] },
                [] => Product::Unknown { index },
                several => {
                    Product::Several { index, names: several.iter().map(|name| (*name).to_owned()).collect() }
                }
            };
        }
        Product::Unsaid
    }

    /// A misspelt product name among words nobody knows.
    pub(super) fn misspelt_product(&self, stretch: &[Token], text: &str) -> Option<(usize, String, String)> {
        stretch.iter().enumerate().filter(|(_, token)| is_unknown(token)).find_map(|(index, token)| {
            let near: Vec<&(Vec<String>, String, Active)> = self
                .products
                .iter()
                .filter(|(words, ..)| words.len() == 1 && is_near(&token.text, &words[0]))
                .collect();
            match near.as_slice() {
                [one] => Some((index, text[token.span.clone()].to_owned(), one.1.clone())),
                _ => None,
            }
        })
    }

    /// Nicknames most like a word, for a doubt to offer.
    pub(super) fn like(&self, word: &str) -> Vec<String> {
        let word = folded(word);
        let mut scored: Vec<(f64, &str)> = self
            .trees
            .iter()
            .map(|name| (strsim::jaro_winkler(&word, &name.words.join(" ")), name.name.as_str()))
            .collect();
        scored.sort_by(|one, other| other.0.total_cmp(&one.0));
        const OFFERED: usize = 4;
        scored.into_iter().take(OFFERED).map(|(_, name)| name.to_owned()).collect()
    }

    pub(super) fn product_names(&self) -> Vec<String> {
        self.products.iter().map(|(_, name, _)| name.clone()).collect()
    }

    pub(super) fn only_protectant(&self) -> Option<&str> {
        match self.products.as_slice() {
            [(_, name, _)] => Some(name),
            _ => None,
        }
    }

    fn at(&self, stretch: &[Token], index: usize) -> Option<(usize, Match)> {
        let nickname = self
            .trees
            .iter()
            .filter(|name| matches_at(stretch, index, &name.words))
            .max_by_key(|name| name.words.len())
            .map(|name| (name.words.len(), Match::Trees(vec![name.name.clone()])));
        let cultivar = self
            .cultivars
            .iter()
            .filter(|(words, _)| matches_at(stretch, index, words))
            .max_by_key(|(words, _)| words.len())
            .map(|(words, trees)| (words.len(), Match::Trees(trees.clone())));
        let group = self
            .groups
            .iter()
            .filter(|(words, _)| matches_at(stretch, index, words))
            .max_by_key(|(words, _)| words.len())
            .map(|(words, group)| (words.len(), Match::Group(group.clone())));
        // The longest wins; among equals the nickname, then the cultivar.
        [group, cultivar, nickname].into_iter().flatten().max_by_key(|(count, _)| *count)
    }

    /// A word nobody knows that is one slip away from a single name.
    fn misspelt(&self, stretch: &[Token], text: &str, found: &mut Found, named: &mut Vec<String>) {
        for (index, token) in stretch.iter().enumerate().filter(|(_, token)| is_unknown(token)) {
            let mut near: Vec<&str> = self
                .trees
                .iter()
                .filter(|name| name.words.len() == 1 && is_near(&token.text, &name.words[0]))
                .map(|name| name.name.as_str())
                .collect();
            if near.is_empty() {
                near = self.near_cultivar(token);
            }
            match near.as_slice() {
                [] => continue,
                [one] => {
                    found.used.push(index);
                    found.spellings.push((text[token.span.clone()].to_owned(), (*one).to_owned()));
                    named.push((*one).to_owned());
                }
                several => {
                    let names = several.iter().map(|name| (*name).to_owned()).collect();
                    found.ambiguous = Some((token.span.clone(), names));
                }
            }
        }
    }

    fn near_cultivar(&self, token: &Token) -> Vec<&str> {
        self.cultivars
            .iter()
            .filter(|(words, _)| words.len() == 1 && is_near(&token.text, &words[0]))
            .flat_map(|(_, trees)| trees.iter().map(String::as_str))
            .collect()
    }
}

enum Match {
    Trees(Vec<String>),
    Group(String),
}

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Product {
    Unsaid,
    Known {
        name: String,
        used: Vec<usize>,
    },
    /// A kind of spray the garden has none of.
    Unknown {
        index: usize,
    },
    Several {
        index: usize,
        names: Vec<String>,
    },
}

fn matches_at(stretch: &[Token], index: usize, words: &[String]) -> bool {
    if words.is_empty() {
        return false;
    }
    let rest = &stretch[index..];
    rest.len() >= words.len()
        && words.iter().zip(rest).enumerate().all(|(at, (word, token))| {
            let last = at + 1 == words.len();
            token.text == *word || (last && is_inflected(&token.text, word))
        })
}

/// "Celeste's" and "celestes" are Celeste.
fn is_inflected(text: &str, word: &str) -> bool {
    text.strip_prefix(word).is_some_and(|end| matches!(end, "'s" | "s" | "s'"))
}

/// "the whole leaf", "all its leaves" say how much, not which trees.
fn is_whole_of_leaf(stretch: &[Token], index: usize) -> bool {
    stretch[index + 1..]
        .iter()
        .take(3)
        .any(|token| token.senses.has(Sense::Leaf) || token.is_any(&["over", "day"]))
}

fn is_but(stretch: &[Token], index: usize) -> bool {
    let token = &stretch[index];
    if token.senses.has(Sense::But) {
        return true;
    }
    // "but" parts clauses too: it leaves out only right after all of something.
    token.is("but")
        && stretch[..index]
            .iter()
            .rev()
            .take(3)
            .any(|before| before.senses.has(Sense::All) || before.senses.has(Sense::Pots))
}

/// "the pots", "in the ground".
fn plain_group(stretch: &[Token], index: usize) -> Option<(usize, &'static str)> {
    let token = &stretch[index];
    if token.senses.has(Sense::Pots) && !token.senses.has(Sense::Planted) {
        return Some((1, "pots"));
    }
    // "potted" is a group before a noun and something done before a name.
    if token.is("potted")
        && stretch.get(index + 1).is_some_and(|next| next.is_any(&["trees", "ones", "figs"]))
    {
        return Some((2, "pots"));
    }
    let named_so = stretch[..index].iter().rev().take(2).any(|before| before.is_any(&["in", "the"]))
        || stretch.get(index + 1).is_some_and(|next| next.is_any(&["trees", "ones", "figs", "tree"]));
    let in_ground = token.is("inground") || (token.senses.has(Sense::Ground) && named_so);
    in_ground.then_some((1, "ground"))
}

/// A word that is none of the language's own.
pub(super) fn is_unknown(token: &Token) -> bool {
    token.is_word()
        && token.text.chars().count() >= 3
        && !lexicon::is_known(&token.text)
        && !token.text.starts_with('@')
}

/// One slip for short words, two for long ones; the first letter is rarely the wrong one.
fn is_near(typed: &str, word: &str) -> bool {
    let typed = typed.strip_suffix("'s").unwrap_or(typed);
    let length = word.chars().count();
    let slips = match length {
        0..=3 => 0,
        4..=6 => 1,
        _ => 2,
    };
    slips > 0
        && typed.chars().next() == word.chars().next()
        && typed.chars().count().abs_diff(length) <= slips
        && strsim::damerau_levenshtein(typed, word) <= slips
}
