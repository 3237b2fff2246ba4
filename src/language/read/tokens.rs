//! Text into words and numbers, each knowing where it stood.

use std::ops::Range;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::lexicon::{self, Senses};
use super::word_list::{self, WordList, words};

/// A word, a number or a mark.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Token {
    /// Small letters without accents; slips of the thumb on words of the garden mended.
    pub(super) text: String,
    /// For holding it against lists of words.
    hash: u64,
    pub(super) number: Option<f64>,
    pub(super) senses: Senses,
    /// Where it stood in the text, in bytes; always on character boundaries.
    pub(super) span: Range<usize>,
    /// Nothing stood between it and the token before.
    pub(super) joined: bool,
}

impl Token {
    pub(super) fn is(&self, text: &str) -> bool {
        self.text == text
    }

    pub(super) fn is_any(&self, words: WordList) -> bool {
        words.has(&self.text, self.hash)
    }

    /// Reads it as another word of the language.
    pub(super) fn reword(&mut self, word: &str) {
        self.text = word.to_owned();
        self.hash = word_list::hash(word);
        self.senses = lexicon::senses(word);
    }

    pub(super) fn is_mark(&self) -> bool {
        self.number.is_none() && !self.text.chars().any(char::is_alphanumeric)
    }

    pub(super) fn is_word(&self) -> bool {
        self.number.is_none() && !self.is_mark()
    }
}

/// The small, accent-free form names and words are compared in.
pub(super) fn folded(text: &str) -> String {
    if text.is_ascii() {
        return text.to_ascii_lowercase();
    }
    text.nfkd().filter(|letter| !is_combining_mark(*letter)).flat_map(char::to_lowercase).map(plain).collect()
}

fn plain(letter: char) -> char {
    match letter {
        '\u{2018}' | '\u{2019}' | '\u{02bc}' | '\u{00b4}' | '`' => '\'',
        '\u{201c}' | '\u{201d}' => '"',
        '\u{2013}' | '\u{2014}' | '\u{2212}' => '-',
        '\u{2044}' => '/',
        'ß' => 's',
        'ø' => 'o',
        _ => letter,
    }
}

/// Words, numbers and marks of a text, in order. Time grows with the text only.
pub(super) fn tokens(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::with_capacity(text.len() / 5 + 1);
    let mut rest = text.char_indices().peekable();
    let mut after_space = true;
    while let Some((start, letter)) = rest.next() {
        if letter.is_whitespace() || letter.is_control() || is_invisible(letter) {
            after_space = true;
            continue;
        }
        if let Some((end, number)) = look_alike(text, start) {
            while rest.next_if(|(at, _)| *at < end).is_some() {}
            push(&mut tokens, text, start..end, Kind::Number, !after_space);
            if let Some(token) = tokens.last_mut() {
                token.number = Some(number);
            }
            after_space = false;
            continue;
        }
        let kind = Kind::of(letter);
        let mut end = start + letter.len_utf8();
        if kind != Kind::Mark {
            while let Some((at, next)) = rest.peek().copied() {
                if !kind.takes(next, text, at, start) {
                    break;
                }
                end = at + next.len_utf8();
                rest.next();
            }
        }
        push(&mut tokens, text, start..end, kind, !after_space);
        after_space = false;
    }
    part_contractions(&mut tokens);
    join_numbers(&mut tokens);
    drop_hyphens(&mut tokens);
    read_slang(&mut tokens);
    tokens
}

/// "1o", "l5%": letters that look like figures, typed among them. A last "l" is litres, and "l8" is "late".
fn look_alike(text: &str, start: usize) -> Option<(usize, f64)> {
    const LONGEST: usize = 6;
    let own = |letter: &char| letter.is_ascii_digit() || matches!(letter, 'o' | 'O' | 'l' | 'I');
    let apart = !text[..start].ends_with(char::is_alphanumeric);
    let run: String = text[start..].chars().take(LONGEST).take_while(own).collect();
    let end = start + run.len();
    let mixed = run.contains(|letter: char| letter.is_ascii_digit()) && run.contains(char::is_alphabetic);
    let other = run.ends_with(['l', 'I']) || run == "l8" || text[end..].starts_with(char::is_alphanumeric);
    if !apart || !mixed || other {
        return None;
    }
    let figures = run.replace(['o', 'O'], "0").replace(['l', 'I'], "1");
    figures.parse().ok().map(|number| (end, number))
}

/// "bone-dry" and "15-gallon" are two words; a dash with room around it, or between figures, stays a mark.
fn drop_hyphens(tokens: &mut Vec<Token>) {
    if !tokens.iter().any(|token| token.is("-")) {
        return;
    }
    let joins: Vec<bool> = (0..tokens.len())
        .map(|index| {
            let between = |before: &Token, after: &Token| {
                let figures = is_figure(before) && is_figure(after);
                after.joined && !figures && !before.is_mark() && !after.is_mark()
            };
            tokens[index].is("-")
                && tokens[index].joined
                && index > 0
                && tokens.get(index + 1).is_some_and(|after| between(&tokens[index - 1], after))
        })
        .collect();
    let mut joins = joins.into_iter();
    tokens.retain(|_| !joins.next().unwrap_or(false));
}

fn is_figure(token: &Token) -> bool {
    token.text.starts_with(|letter: char| letter.is_ascii_digit())
}

/// Words spelt with a figure for a sound.
const SLANG: [(&str, &str, &str); 10] = [
    ("b", "4", "before"),
    ("l", "8", "later"),
    ("gr", "8", "great"),
    ("2", "day", "today"),
    ("2", "nite", "tonight"),
    ("2", "night", "tonight"),
    ("2", "moro", "tomorrow"),
    ("2", "morrow", "tomorrow"),
    ("2", "mrw", "tomorrow"),
    ("h", "2", "drink"),
];

fn read_slang(tokens: &mut Vec<Token>) {
    let mut index = 0;
    while index + 1 < tokens.len() {
        let word = tokens[index + 1]
            .joined
            .then(|| {
                SLANG
                    .iter()
                    .find(|(first, second, _)| tokens[index].is(first) && tokens[index + 1].is(second))
            })
            .flatten();
        if let Some((first, _, word)) = word {
            // "l8r" and "h2o" have a third part.
            let tail = matches!(*first, "l" | "h")
                && tokens.get(index + 2).is_some_and(|tail| tail.joined && tail.is_any(words!("r o")));
            merge(tokens, index, if tail { 3 } else { 2 }, None);
            tokens[index].reword(word);
        }
        index += 1;
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Word,
    Number,
    Mark,
}

impl Kind {
    fn of(letter: char) -> Self {
        if letter.is_ascii_digit() {
            Kind::Number
        } else if letter.is_alphabetic() || letter == '@' || is_combining_mark(letter) {
            Kind::Word
        } else {
            Kind::Mark
        }
    }

    /// Whether the letter at `at` goes on with the token that began at `start`.
    fn takes(self, letter: char, text: &str, at: usize, start: usize) -> bool {
        match self {
            Kind::Word if text[start..].starts_with('@') => !letter.is_whitespace() && letter != ',',
            Kind::Word => {
                letter.is_alphabetic()
                    || is_combining_mark(letter)
                    || (matches!(letter, '\'' | '\u{2019}' | '_') && follows(text, at, char::is_alphabetic))
            }
            // A point or comma between digits belongs to the number.
            Kind::Number => {
                letter.is_ascii_digit()
                    || (matches!(letter, '.' | ',') && follows(text, at, |next| next.is_ascii_digit()))
            }
            Kind::Mark => false,
        }
    }
}

fn follows(text: &str, at: usize, fits: impl Fn(char) -> bool) -> bool {
    text[at..].chars().nth(1).is_some_and(fits)
}

/// Joiners, direction marks and variation selectors: they show nothing and must not part or hide words.
fn is_invisible(letter: char) -> bool {
    matches!(letter, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}')
}

fn push(tokens: &mut Vec<Token>, text: &str, span: Range<usize>, kind: Kind, joined: bool) {
    let folded = with_apostrophe(folded(&text[span.clone()]));
    let number = match kind {
        Kind::Number => decimal(&folded),
        Kind::Mark => vulgar(&folded),
        Kind::Word => None,
    };
    let senses = if kind == Kind::Word { lexicon::senses(&folded) } else { Senses::default() };
    let number = number.or_else(|| if kind == Kind::Word { lexicon::number_word(&folded) } else { None });
    tokens.push(Token { hash: word_list::hash(&folded), text: folded, number, senses, span, joined });
}

/// Denials typed without their apostrophe.
const DENIALS: [(&str, &str); 12] = [
    ("didnt", "didn't"),
    ("dont", "don't"),
    ("doesnt", "doesn't"),
    ("havent", "haven't"),
    ("hasnt", "hasn't"),
    ("hadnt", "hadn't"),
    ("isnt", "isn't"),
    ("arent", "aren't"),
    ("wasnt", "wasn't"),
    ("werent", "weren't"),
    ("couldnt", "couldn't"),
    ("wont", "won't"),
];

fn with_apostrophe(word: String) -> String {
    let denial = word.ends_with("nt").then(|| DENIALS.iter().find(|(bare, _)| *bare == word)).flatten();
    denial.map_or(word, |(_, whole)| (*whole).to_owned())
}

/// "1,200" is a thousand and two hundred, "0,3" three tenths: a comma parts thousands only before exactly
/// three digits and after a digit that is not a lone zero.
fn decimal(text: &str) -> Option<f64> {
    let Some((whole, part)) = text.rsplit_once(',') else {
        // Version-like numbers with two points are none.
        return text.parse().ok();
    };
    if part.len() == 3 && whole != "0" && !whole.is_empty() && !part.contains('.') {
        return text.replace(',', "").parse().ok();
    }
    (!whole.contains(',')).then(|| text.replace(',', ".").parse().ok()).flatten()
}

/// "½" comes out of normalisation as "1/2".
fn vulgar(text: &str) -> Option<f64> {
    let (above, below) = text.split_once('/')?;
    let (above, below): (f64, f64) = (above.parse().ok()?, below.parse().ok()?);
    (below > 0.0).then(|| above / below)
}

/// "Wall's begun to drop", "Whip's in a 5 gallon pot": a name, and "has" or "is" behind it.
fn part_contractions(tokens: &mut Vec<Token>) {
    const CONTRACTED: WordList = words!(
        "it's he's she's that's what's how's let's there's here's who's where's when's why's everything's today's nothing's something's one's"
    );
    const PERFECT: WordList = words!("been got had lost begun started dropped finished covered");
    const PRESENT: WordList = words!("in still now back out outside inside indoors");
    for at in (0..tokens.len().saturating_sub(1)).rev() {
        let stem = tokens[at].text.strip_suffix("'s").filter(|stem| stem.len() > 1).map(str::to_owned);
        let Some(stem) = stem.filter(|_| !tokens[at].is_any(CONTRACTED)) else { continue };
        let verb = match &tokens[at + 1] {
            next if next.is_any(PERFECT) => "has",
            next if next.is_any(PRESENT) => "is",
            _ => continue,
        };
        let mut behind = tokens[at].clone();
        let middle = tokens[at].span.end - 2;
        behind.span.start = middle;
        behind.joined = true;
        behind.number = None;
        behind.reword(verb);
        tokens[at].span.end = middle;
        tokens[at].reword(&stem);
        tokens.insert(at + 1, behind);
    }
}

/// Puts together ".3", "1/2", "1 1/2", "3½" and "inch and a quarter"-like number words' fractions.
fn join_numbers(tokens: &mut Vec<Token>) {
    let mut index = 0;
    while index < tokens.len() {
        if join_at(tokens, index) {
            // The joined number may go on: "1" + "1/2".
            index = index.saturating_sub(1);
        } else {
            index += 1;
        }
    }
}

fn join_at(tokens: &mut Vec<Token>, index: usize) -> bool {
    let digit = |token: Option<&Token>| {
        token.is_some_and(|token| {
            token.text.starts_with(|letter: char| letter.is_ascii_digit()) && token.number.is_some()
        })
    };
    let Some(token) = tokens.get(index) else { return false };
    // ".3"
    if token.is(".")
        && digit(tokens.get(index + 1))
        && tokens[index + 1].joined
        && !(token.joined && index > 0 && digit(tokens.get(index - 1)))
    {
        let value = format!("0.{}", tokens[index + 1].text).parse().ok();
        merge(tokens, index, 2, value);
        return true;
    }
    // "1/2", but not a date such as 7/14.
    if digit(Some(token))
        && tokens.get(index + 1).is_some_and(|slash| slash.is("/"))
        && digit(tokens.get(index + 2))
        && !is_full_date(tokens, index)
        // "Last frost 4/10"
        && !(index > 0 && tokens[index - 1].is_any(words!("frost freeze")))
    {
        let (above, below) = (token.number.unwrap_or(0.0), tokens[index + 2].number.unwrap_or(0.0));
        if matches!(below as u32, 2 | 3 | 4 | 5 | 8 | 10 | 16)
            && above < below
            && !heads_an_entry(tokens, index)
            // "Rainfall 7/8: 0.4 in."
            && !tokens.get(index + 3).is_some_and(|mark| mark.is(":"))
        {
            merge(tokens, index, 3, Some(above / below));
            return true;
        }
    }
    // "1 1/2", "3½"
    let fraction =
        tokens.get(index + 1).and_then(|next| next.number).filter(|number| *number > 0.0 && *number < 1.0);
    if let Some(fraction) = fraction
        && digit(Some(token))
        && token.number.is_some_and(|number| number.fract() == 0.0)
        && tokens[index + 1].text.contains('/')
    {
        merge(tokens, index, 2, token.number.map(|whole| whole + fraction));
        return true;
    }
    false
}

/// "7/8 rain 0.25in", "7/10 sprayed Corner": a day at the head of a line, as a logbook has it, and no seven eighths.
fn heads_an_entry(tokens: &[Token], index: usize) -> bool {
    use lexicon::Sense;
    const SUMMER: std::ops::RangeInclusive<f64> = 3.0..=11.0;
    let month = tokens[index].number.is_some_and(|month| SUMMER.contains(&month));
    let told = tokens.get(index + 3).is_some_and(|next| {
        next.senses.has_any(&[
            Sense::Rain,
            Sense::Sprayed,
            Sense::Watered,
            Sense::Picked,
            Sense::Seen,
            Sense::Copper,
            Sense::Sulfur,
            Sense::Oil,
            Sense::Frost,
            Sense::Gave,
        ]) || next.is_any(words!(": - checked"))
    });
    let measured =
        tokens.get(index + 4).is_some_and(|next| next.number.is_some() || next.senses.has(Sense::Unit));
    // "Sprayed sulfur, Wall + Corner, 7/8 at 6:30 am"
    let at_a_clock = index > 0
        && tokens[index - 1].is_any(words!(", on"))
        && tokens.get(index + 3).is_some_and(|next| next.is_any(words!("at @")))
        && tokens.get(index + 4).is_some_and(|next| next.number.is_some());
    // "7/8 rain" alone is as likely how much.
    at_a_clock && month
        || index == 0
            && month
            && told
            && (tokens.len() > index + 4)
            && (measured || !tokens[index + 3].senses.has(Sense::Rain))
}

/// "7/8/13": a third part makes a day of what could be seven eighths.
fn is_full_date(tokens: &[Token], index: usize) -> bool {
    let slash = |at: Option<usize>| at.and_then(|at| tokens.get(at)).is_some_and(|mark| mark.is("/"));
    let number = |at: usize| tokens.get(at).is_some_and(|token| token.number.is_some());
    slash(Some(index + 3)) && number(index + 4)
        || slash(index.checked_sub(1)) && index > 1 && number(index - 2)
}

fn merge(tokens: &mut Vec<Token>, index: usize, count: usize, number: Option<f64>) {
    let end = tokens[index + count - 1].span.end;
    let text: String = tokens[index..index + count].iter().map(|token| token.text.as_str()).collect();
    tokens[index].span.end = end;
    tokens[index].hash = word_list::hash(&text);
    tokens[index].text = text;
    tokens[index].number = number;
    tokens[index].senses = Senses::default();
    tokens.drain(index + 1..index + count);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_people_type_them() {
        let rows = [
            ("0.3", 0.3),
            (".3", 0.3),
            ("0,3", 0.3),
            ("1,200", 1200.0),
            ("1/2", 0.5),
            ("1 1/2", 1.5),
            ("½", 0.5),
            ("3½", 3.5),
            ("twelve", 12.0),
            ("dozen", 12.0),
        ];
        for (text, want) in rows {
            let tokens = tokens(text);
            assert_eq!(tokens.len(), 1, "{text}: {tokens:?}");
            assert_eq!(tokens[0].number, Some(want), "{text}");
        }
        assert_eq!(tokens("7/14").len(), 3, "a date is no fraction");
    }

    #[test]
    fn words_are_folded_and_keep_their_place() {
        let text = "Céleste\u{200d}’s 7am";
        let tokens = tokens(text);
        let texts: Vec<&str> = tokens.iter().map(|token| token.text.as_str()).collect();
        assert_eq!(texts[0], "celeste");
        assert_eq!(texts[texts.len() - 2..], ["7", "am"]);
        assert!(tokens.iter().all(|token| text.get(token.span.clone()).is_some()));
    }
}
