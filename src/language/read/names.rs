//! What a garden's trees and sprays can be called.

mod beside;
mod determiners;
mod mentions;
mod places;
mod products;
mod trees;

pub(super) use self::mentions::Mention;
pub(super) use self::products::Product;
pub(super) use self::trees::Trees;

use super::lexicon::{self, Sense};
use super::tokens::{Token, folded, tokens};
use crate::language::read::word_list::words;
use crate::season::garden::{Active, Garden};
use crate::season::selection::in_group;

/// The garden's names, folded once for a message.
pub(super) struct Names {
    /// Nicknames in the garden's order; a tree is known by its place in it.
    nicknames: Vec<String>,
    calls: Vec<Call>,
    pots: Vec<usize>,
    ground: Vec<usize>,
    products: Vec<ProductCall>,
    /// Those of the garden, by name: none of them a tree nobody knows.
    people: Vec<String>,
}

/// One thing trees can be called, and which trees that is.
struct Call {
    words: Vec<String>,
    /// The words run together: "bigone".
    joined: String,
    /// What a group stands by: "wall" of "by the wall", so that "the wall trees" are they. Empty for all else.
    place: Vec<String>,
    /// "bt" for Brown Turkey; empty for a single word.
    initials: String,
    kind: Kind,
    trees: Vec<usize>,
}

#[derive(Clone, Debug, PartialEq)]
enum Kind {
    Nickname,
    Cultivar,
    /// With the group's name as the garden has it.
    Group(String),
}

struct ProductCall {
    words: Vec<String>,
    name: String,
    active: Active,
}

impl Names {
    pub(super) fn of(garden: &Garden) -> Self {
        let mut calls: Vec<Call> = Vec::with_capacity(garden.trees.len() * 3);
        for (index, tree) in garden.trees.iter().enumerate() {
            add(&mut calls, &tree.name, Kind::Nickname, index);
        }
        for (index, tree) in garden.trees.iter().enumerate() {
            if let Some(cultivar) = &tree.cultivar {
                add(&mut calls, cultivar, Kind::Cultivar, index);
            }
            for group in &tree.groups {
                add(&mut calls, group, Kind::Group(group.clone()), index);
            }
        }
        let indices = |group: &str| -> Vec<usize> {
            (0..garden.trees.len()).filter(|index| in_group(&garden.trees[*index], group)).collect()
        };
        let products = garden
            .products
            .iter()
            .map(|product| ProductCall {
                words: words(&product.name),
                name: product.name.clone(),
                active: product.active,
            })
            .collect();
        Self {
            nicknames: garden.trees.iter().map(|tree| tree.name.clone()).collect(),
            calls,
            pots: indices("pots"),
            ground: indices("ground"),
            products,
            people: garden.people.iter().map(|person| folded(&person.name)).collect(),
        }
    }

    pub(super) fn is_person(&self, word: &str) -> bool {
        let word = without_ending(word);
        self.people.iter().any(|name| name.split(' ').next() == Some(word))
    }

    pub(super) fn is_single_tree(&self) -> bool {
        self.nicknames.len() == 1
    }

    pub(super) fn nicknames(&self) -> &[String] {
        &self.nicknames
    }

    /// Nicknames most like a word, for a doubt to offer.
    pub(super) fn like(&self, word: &str) -> Vec<String> {
        let word = folded(word);
        let mut scored: Vec<(f64, &str)> = self
            .nicknames
            .iter()
            .map(|name| (strsim::jaro_winkler(&word, &folded(name)), name.as_str()))
            .collect();
        scored.sort_by(|one, other| other.0.total_cmp(&one.0));
        const OFFERED: usize = 4;
        // Where some are like it, those that are not need not be offered.
        const ALIKE: f64 = 0.72;
        // A few trees are all offered, in their own order.
        const FEW: usize = 6;
        let alike = scored.iter().filter(|(score, _)| *score >= ALIKE).count();
        if alike == 0 && self.nicknames.len() <= FEW {
            return self.nicknames.clone();
        }
        let offered = if alike > 0 { alike.min(OFFERED) } else { OFFERED };
        scored.into_iter().take(offered).map(|(_, name)| name.to_owned()).collect()
    }

    /// The longest name that begins at a word: exactly, run together, by its initials, or by a word of its own
    /// that no other name and no sentence has.
    fn call_at(&self, stretch: &[Token], index: usize) -> Option<(usize, &Call)> {
        // "the wall trees", where a tree is called Wall and a group stands by the wall
        let placed = self.calls.iter().find(|call| {
            matches_at(stretch, index, &call.place)
                && stretch.get(index + call.place.len()).is_some_and(|next| {
                    next.is_any(words!("trees ones plants bushes"))
                        || next.is("figs") && are_trees(stretch, index)
                })
        });
        if let Some(call) = placed {
            return Some((call.place.len() + 1, call));
        }
        let exact = self
            .calls
            .iter()
            .filter_map(|call| call.count_at(stretch, index).map(|count| (count, call)))
            // The longest wins; among equals the nickname, then the cultivar.
            .reduce(|best, next| if next.0 > best.0 { next } else { best });
        if exact.is_some() {
            return exact;
        }
        let token = &stretch[index];
        if !is_unknown(token) || self.is_person(&token.text) {
            return None;
        }
        let only = |fits: &dyn Fn(&Call) -> bool| {
            let mut fitting = self.calls.iter().filter(|call| fits(call));
            let first = fitting.next()?;
            fitting.all(|call| call.trees == first.trees).then_some((1, first))
        };
        let text = without_ending(&token.text);
        only(&|call| call.joined == text && call.words.len() > 1)
            .or_else(|| only(&|call| call.initials.len() > 1 && call.initials == token.text))
            .or_else(|| only(&|call| call.words.len() > 1 && call.words.iter().any(|word| word == text)))
    }

    /// "Bug one", "bag one" for Big One: one letter of one word, and the word is another of the language; the other
    /// words of the name stand as they are.
    fn one_letter_off(&self, stretch: &[Token], index: usize) -> Option<&Call> {
        const SHORTEST: usize = 3;
        let near = |call: &&Call| {
            let rest = &stretch[index..];
            if call.words.len() < 2
                || rest.len() < call.words.len()
                || call.kind != Kind::Nickname
                || !call.words.iter().zip(rest).any(|(word, token)| token.text == *word)
            {
                return false;
            }
            let mut off = call.words.iter().zip(rest).filter(|(word, token)| token.text != **word);
            let (Some((word, token)), None) = (off.next(), off.next()) else { return false };
            word.len() >= SHORTEST
                && token.text.len() == word.len()
                && token.number.is_none()
                && strsim::hamming(&token.text, word) == Ok(1)
        };
        let mut found = self.calls.iter().filter(near);
        found.next().filter(|_| found.next().is_none())
    }

    /// The one name an unknown word is a slip of. Several equally near are all returned.
    fn near(&self, stretch: &[Token], index: usize) -> Option<(usize, Vec<&Call>)> {
        // "bigg one", "big oen"
        let heard = is_heard_as_name(stretch, index);
        if let Some(call) = self.one_letter_off(stretch, index) {
            return Some((call.words.len(), vec![call]));
        }
        if !(heard || stretch[index..].iter().take(2).any(is_unknown)) || stretch[index].is_mark() {
            return None;
        }
        let mut best: Vec<(usize, usize, &Call)> = Vec::new();
        for call in &self.calls {
            let Some((slips, count)) = call.slips_at(stretch, index).filter(|(slips, _)| *slips > 0) else {
                continue;
            };
            // "Well Celeste is dry": a word of the language is a slip of no name, whatever stands behind it.
            if heard && count != 1 || !heard && count == 1 && !is_unknown(&stretch[index]) {
                continue;
            }
            match best.first() {
                Some((least, ..)) if *least < slips => {}
                Some((least, ..)) if *least == slips => best.push((slips, count, call)),
                _ => best = vec![(slips, count, call)],
            }
        }
        let count = best.iter().map(|(_, count, _)| *count).max()?;
        Some((count, best.into_iter().map(|(.., call)| call).collect()))
    }

    /// A word of some tree's or spray's name.
    pub(super) fn has_word(&self, word: &str) -> bool {
        self.own_words().any(|own| own == word)
    }

    fn own_words(&self) -> impl Iterator<Item = &String> {
        let of_products = self.products.iter().flat_map(|product| &product.words);
        self.calls.iter().flat_map(|call| &call.words).chain(of_products)
    }

    /// How far an unknown word is from the nearest name of a tree or spray; for choosing between a name and a
    /// word of the language.
    pub(super) fn distance(&self, token: &Token) -> Option<usize> {
        self.own_words().filter_map(|word| slips(&token.text, word)).min()
    }
}

impl Call {
    fn count_at(&self, stretch: &[Token], index: usize) -> Option<usize> {
        matches_at(stretch, index, &self.words).then_some(self.words.len())
    }

    /// Slips needed to read this name at a word, each word of it within its own limit.
    fn slips_at(&self, stretch: &[Token], index: usize) -> Option<(usize, usize)> {
        let rest = &stretch[index..];
        let joined = || {
            let slips = (self.words.len() > 1).then(|| slips(&rest[0].text, &self.joined)).flatten();
            slips.map(|slips| (slips, 1))
        };
        if rest.len() < self.words.len() {
            return joined();
        }
        let each = self.words.iter().zip(rest).try_fold(0, |total, (word, token)| {
            let slips = if token.text == *word { 0 } else { slips(&token.text, word)? };
            Some(total + slips)
        });
        // "big onee", "bigg one": too short by itself to tell, and plain as a whole.
        let whole = || {
            let typed: String = rest[..self.words.len()].iter().map(|token| token.text.as_str()).collect();
            let one = self.words.iter().zip(rest).any(|(word, token)| token.text == *word);
            (self.words.len() > 1 && one).then(|| slips(&typed, &self.joined)).flatten()
        };
        each.or_else(whole).map(|slips| (slips, self.words.len())).or_else(joined)
    }
}

fn add(calls: &mut Vec<Call>, name: &str, kind: Kind, tree: usize) {
    let words = words(name);
    if words.is_empty() {
        return;
    }
    let known = calls.iter_mut().find(|call| call.words == words && call.kind == kind);
    match known {
        Some(call) => call.trees.push(tree),
        None => calls.push(Call {
            joined: words.concat(),
            place: if matches!(kind, Kind::Group(_)) { place_of(&words) } else { Vec::new() },
            initials: words.iter().filter_map(|word| word.chars().next()).collect(),
            words,
            kind,
            trees: vec![tree],
        }),
    }
}

/// "Sprayed the wall figs": the trees, where none are picked.
fn are_trees(stretch: &[Token], at: usize) -> bool {
    let picked = stretch[..at].iter().any(|token| {
        token.number.is_some() || token.senses.has_any(&[Sense::Picked, Sense::Pick, Sense::Took])
    });
    at > 0 && stretch[at - 1].is_any(words!("the both my our")) && !picked
}

/// The place in "by the wall", "along the fence".
fn place_of(words: &[String]) -> Vec<String> {
    let small = |word: &String| {
        matches!(
            word.as_str(),
            "by" | "at" | "in" | "on" | "the" | "along" | "near" | "under" | "against" | "behind" | "beside"
        )
    };
    match words.iter().position(|word| !small(word)) {
        Some(start) if start > 0 => words[start..].to_vec(),
        _ => Vec::new(),
    }
}

fn words(text: &str) -> Vec<String> {
    // Plain words need no reader of numbers and marks, unless they may be denials typed short ("dont"); a garden's names
    // are made anew for each message.
    let plain =
        text.bytes().all(|letter| letter.is_ascii_alphabetic() || letter == b' ') && !text.contains("nt");
    if plain {
        return text.split(' ').filter(|word| !word.is_empty()).map(str::to_ascii_lowercase).collect();
    }
    tokens(text).into_iter().filter(|token| !token.is_mark()).map(|token| token.text).collect()
}

fn matches_at(stretch: &[Token], index: usize, words: &[String]) -> bool {
    let Some(rest) = stretch.get(index..).filter(|rest| rest.len() >= words.len()) else { return false };
    !words.is_empty()
        && words.iter().zip(rest).enumerate().all(|(at, (word, token))| {
            let last = at + 1 == words.len();
            // "Big 1"
            let figure = at > 0 && token.number.is_some() && token.number == lexicon::number_word(word);
            token.text == *word || figure || (last && is_inflected(&token.text, word))
        })
}

/// "Celeste's" and "celestes" are Celeste.
fn is_inflected(text: &str, word: &str) -> bool {
    text.strip_prefix(word).is_some_and(|end| matches!(end, "'s" | "s" | "s'"))
}

fn is_plural(text: &str, word: &str) -> bool {
    text.strip_prefix(word) == Some("s")
}

fn without_ending(text: &str) -> &str {
    text.strip_suffix("'s").unwrap_or(text)
}

/// A word that is none of the language's own.
/// "The eve": a word of the language that stands where only a name does.
fn is_heard_as_name(stretch: &[Token], index: usize) -> bool {
    let listed = index.checked_sub(1).map(|before| &stretch[before]).is_some_and(|before| {
        before.is_any(words!("the and & n , off on from")) || before.senses.has(Sense::Watered)
    });
    let timed = stretch.get(index + 1).is_some_and(|next| next.is_any(words!("of before")));
    stretch[index].is("eve") && listed && !timed
}

pub(super) fn is_unknown(token: &Token) -> bool {
    token.is_word()
        && token.senses.is_empty()
        && token.text.chars().count() >= 2
        && !lexicon::is_known(&token.text)
        && !token.text.starts_with('@')
}

/// How many slips make one word of another, if few enough for its length: one in short words, two in long
/// ones; the first letter is rarely the wrong one, and three letters are too few to tell.
fn slips(typed: &str, word: &str) -> Option<usize> {
    let typed = without_ending(typed);
    let (typed_length, length) = (typed.chars().count(), word.chars().count());
    let allowed = match length {
        0..=3 => 0,
        4..=6 => 1,
        _ => 2,
    };
    // "Crnr", "clst": a name without its vowels.
    let is_vowel = |letter: &char| matches!(letter, 'a' | 'e' | 'i' | 'o' | 'u');
    if typed_length >= 3
        && !typed.chars().any(|letter| is_vowel(&letter))
        && word.chars().filter(|letter| !is_vowel(letter)).eq(typed.chars())
    {
        return Some(1);
    }
    // "Cel", "cor": a name cut short.
    const SHORTEST: usize = 3;
    if typed_length >= SHORTEST && typed_length < length && length >= 5 && word.starts_with(typed) {
        return Some(1);
    }
    if typed_length.abs_diff(length) > allowed || typed.chars().next() != word.chars().next() {
        return None;
    }
    if typed == word {
        return Some(0);
    }
    if allowed == 0 || typed_length < 3 {
        return None;
    }
    Some(strsim::damerau_levenshtein(typed, word)).filter(|slips| *slips <= allowed)
}

/// Whether a word is a plain way of saying which trees: pots, or those in the ground.
fn is_ground(stretch: &[Token], index: usize) -> bool {
    let token = &stretch[index];
    // "The ground's dry round Corner" is of the soil.
    let of_soil = token.text.ends_with("'s") && stretch.get(index + 2).is_some_and(|next| !next.is_mark());
    if !token.senses.has(Sense::Ground) || of_soil {
        return false;
    }
    let before = |back: usize| index.checked_sub(back).and_then(|at| stretch.get(at));
    let led = before(1).is_some_and(|word| {
        word.is_any(words!("in the"))
            && !before(2)
                .is_some_and(|word| word.is_any(words!("on to near off above into over across around under")))
    });
    let heads = stretch
        .get(index + 1)
        .is_some_and(|next| next.senses.has(Sense::Tree) || next.is_any(words!("ones figs fig")));
    // "pots (copper) and ground (sulfur)"
    let listed = before(1).is_some_and(|word| word.is_any(words!("and or &")))
        && stretch.get(index + 1).is_none_or(Token::is_mark);
    // "pots moist, ground dry"
    let stated = before(1).is_some_and(Token::is_mark)
        && stretch.get(index + 1).is_some_and(|next| {
            next.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist, Sense::Clean, Sense::Be])
        });
    // "Copper on ground, 1 gal"
    let sprayed = before(1).is_some_and(|word| word.is("on"))
        && before(2).is_some_and(|word| word.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]))
        && stretch.get(index + 1).is_none_or(Token::is_mark);
    token.is("inground") || sprayed || stated || led || heads || listed || index == 0
}
