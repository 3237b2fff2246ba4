//! Text into sentences, and sentences into clauses.

use std::ops::Range;

use super::tokens::Token;

/// A sentence as typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sentence<'t> {
    pub(super) text: &'t str,
    pub(super) asked: Asked,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    Yes,
    No,
}

/// Parts a text at full stops, question and exclamation marks, semicolons and line ends. A point between
/// digits or letters ("0.3", "a.m.") parts nothing.
pub(super) fn sentences(text: &str) -> impl Iterator<Item = Sentence<'_>> {
    let mut rest = text;
    std::iter::from_fn(move || {
        loop {
            let trimmed = rest.trim_start();
            if trimmed.is_empty() {
                return None;
            }
            let (end, mark_len) = end_of_sentence(trimmed);
            let sentence = &trimmed[..end];
            let mark = &trimmed[end..end + mark_len];
            rest = &trimmed[end + mark_len..];
            if !sentence.trim().is_empty() {
                let asked = if mark.contains('?') { Asked::Yes } else { Asked::No };
                return Some(Sentence { text: sentence.trim(), asked });
            }
        }
    })
}

fn end_of_sentence(text: &str) -> (usize, usize) {
    let mut letters = text.char_indices().peekable();
    let mut before: Option<char> = None;
    while let Some((at, letter)) = letters.next() {
        let next = letters.peek().map(|(_, next)| *next);
        let ends = match letter {
            '?' | '!' | '\n' | '\r' | '…' => true,
            '.' => next.is_none_or(char::is_whitespace) && !is_abbreviation(text, at, before),
            _ => false,
        };
        if ends {
            let marks: usize = text[at..]
                .chars()
                .take_while(|mark| matches!(mark, '?' | '!' | '.' | '\n' | '\r' | '…'))
                .map(char::len_utf8)
                .sum();
            return (at, marks);
        }
        before = Some(letter);
    }
    (text.len(), 0)
}

/// "a.m.", "approx.", "gal.", "in." before a number or small letter.
fn is_abbreviation(text: &str, at: usize, before: Option<char>) -> bool {
    let head = &text[..at];
    let word = head.rsplit(|letter: char| !letter.is_alphabetic() && letter != '.').next().unwrap_or("");
    let short = matches!(
        word.to_lowercase().as_str(),
        "a.m"
            | "p.m"
            | "approx"
            | "gal"
            | "in"
            | "tbsp"
            | "tsp"
            | "oz"
            | "lb"
            | "lbs"
            | "vs"
            | "st"
            | "mr"
            | "mrs"
    );
    short
        && before.is_some()
        && text[at + 1..].trim_start().starts_with(|next: char| next.is_ascii_digit() || next.is_lowercase())
}

/// Parts a sentence into clauses at commas, "and", "then", "but", "also", "+" and "&". Whether a part stands
/// by itself or goes on with the one before is decided by whoever reads it.
pub(super) fn clauses(tokens: &[Token]) -> Vec<Range<usize>> {
    let mut clauses = Vec::new();
    let mut start = 0;
    for (index, token) in tokens.iter().enumerate() {
        if parts(tokens, index) {
            if index > start {
                clauses.push(start..index);
            }
            start = index + 1;
        }
        let _ = token;
    }
    if start < tokens.len() {
        clauses.push(start..tokens.len());
    }
    clauses
}

fn parts(tokens: &[Token], index: usize) -> bool {
    let token = &tokens[index];
    if token.is_any(&[",", "+", "&", "(", ")", "…", ";", ":"]) {
        // "7:30", "celeste: rust": a colon between digits is a time, and parts nothing there.
        let digits = |at: Option<&Token>| at.is_some_and(|token| token.number.is_some());
        let time =
            token.is(":") && index > 0 && digits(tokens.get(index - 1)) && digits(tokens.get(index + 1));
        let gauge = token.is(":") && index > 0 && tokens[index - 1].senses.has(super::lexicon::Sense::Gauge);
        return !time && !gauge;
    }
    if token.is("but") {
        // "all but the pots" leaves out; a clause is not parted there.
        return !tokens[..index]
            .iter()
            .rev()
            .take(3)
            .any(|before| before.is_any(&["all", "everything", "every", "everyone", "pots"]));
    }
    if token.is("and") {
        // "an inch and a quarter" is one amount.
        let part = |at: usize| tokens.get(at).is_some_and(|next| next.is_any(&["half", "quarter", "third"]));
        return !(part(index + 1) || tokens.get(index + 1).is_some_and(|a| a.is("a")) && part(index + 2));
    }
    token.is_any(&["then", "also", "plus", "while", "though"])
}
