//! What a message is told by when it is held against others: its words, pairs of words that stand side by side or
//! around a third, and groups of letters within words, with names, sprays, days and numbers left out of account.

use std::collections::BTreeSet;

use crate::language::read::idioms;
use crate::language::read::names::{Names, Product};
use crate::language::read::spelling;
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::words;

/// Groups of so many letters: of three, or of three and five besides, they told less of tables not learnt from.
const GROUP: usize = 4;

/// Every mark of a text, each once, in a fixed order.
pub(super) fn marks(text: &str, names: &Names) -> BTreeSet<String> {
    let words = general_words(&idioms::in_plain_words(text), names);
    let mut marks = BTreeSet::new();
    let bounded = ["<"].into_iter().chain(words.iter().map(String::as_str)).chain([">"]);
    let mut before: Option<&str> = None;
    for word in bounded {
        if let Some(before) = before {
            marks.insert(format!("{before} {word}"));
        }
        before = Some(word);
    }
    marks.extend(words.windows(3).map(|three| format!("{} _ {}", three[0], three[2])));
    for word in &words {
        marks.insert(word.clone());
        if !word.starts_with(char::is_alphabetic) {
            continue;
        }
        let letters: Vec<char> = format!("<{word}>").chars().collect();
        marks.extend(letters.windows(GROUP).map(|group| group.iter().fold(String::from("."), with)));
    }
    marks
}

fn with(mut word: String, letter: &char) -> String {
    word.push(*letter);
    word
}

/// The words of a text, with signs for what differs from garden to garden and from day to day.
fn general_words(text: &str, names: &Names) -> Vec<String> {
    let mut tokens = tokens(text);
    spelling::mend(&mut tokens, names);
    let mut signs: Vec<Option<&str>> = vec![None; tokens.len()];
    let mut taken = Vec::new();
    for mention in names.mentions(&tokens, text) {
        if mention.trees.names_one_by_name() && !is_kind_of_stand(&tokens[mention.range.clone()]) {
            taken.extend(mention.range.clone());
            signs[mention.range.clone()].fill(Some("%tree"));
        }
    }
    for product in names.products_in(&tokens, &taken) {
        match product {
            Product::Known { used, .. } => used.into_iter().for_each(|at| signs[at] = Some("%spray")),
            Product::Unknown { index } | Product::Several { index, .. } => signs[index] = Some("%spray"),
            Product::Unsaid => {}
        }
    }
    let mut general: Vec<String> = Vec::with_capacity(tokens.len());
    for (token, sign) in tokens.iter().zip(signs) {
        let word = match sign {
            Some(sign) => sign,
            None if token.number.is_some() => "#",
            None if names.is_person(&token.text) => "%who",
            None if is_weekday(token) => "%day",
            None if is_month(token) => "%month",
            None if token.is_mark() && !token.is_any(words!("? ! . , : @")) => continue,
            None => token.text.as_str(),
        };
        let repeated = word.starts_with('%') && general.last().is_some_and(|last| last == word);
        if !repeated {
            general.push(word.replace(['\t', '\n', ' '], ""));
        }
    }
    general
}

/// "The pots", "the ground": said of every garden.
fn is_kind_of_stand(mention: &[Token]) -> bool {
    mention
        .iter()
        .any(|token| token.is_any(words!("pot pots potted ground grounds inground container containers")))
}

fn is_weekday(token: &Token) -> bool {
    token.is_any(words!(
        "monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thur thurs fri sat sun"
    ))
}

fn is_month(token: &Token) -> bool {
    token.is_any(words!(
        "january february march april june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec"
    ))
}
