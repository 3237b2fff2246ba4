//! Text into sentences, and sentences into clauses.

mod levels;
mod unmarked;

pub(super) use self::levels::with_levels_apart;
use self::unmarked::{new_subjects, unmarked};
use crate::language::read::word_list::{WordList, words};
use std::ops::Range;

use super::lexicon::Sense;
use super::moments::{month, weekday};
use super::names::Mention;
use super::tokens::Token;

/// A sentence as typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sentence<'t> {
    pub(super) text: &'t str,
    pub(super) asked: Asked,
    /// A full stop or a shout ends it, and the next stands on the same line.
    pub(super) stopped: bool,
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
                let stopped =
                    matches!(mark.trim_end_matches(' '), "." | ".." | "..." | "…" | "!" | "!!" | "!!!");
                return Some(Sentence { text: sentence.trim(), asked, stopped });
            }
        }
    })
}

/// "Celeste, dry; Big One, moist; Eave, wet": each by itself.
pub(super) fn with_lists_apart(text: &str) -> std::borrow::Cow<'_, str> {
    const LONGEST: usize = 30;
    let parts: Vec<&str> = text.split("; ").collect();
    let last = |part: &str| part.rsplit(": ").next().unwrap_or(part).len();
    let list = parts.len() > 2 && parts.iter().all(|part| last(part) <= LONGEST && part.contains(", "));
    // "Harvest: Wall, 4; Celeste, 7": each its figure.
    let own = |part: &str| {
        let start = part.rfind(": ").map_or(0, |colon| colon + 2);
        let (name, figure) = part[start..].split_once(", ")?;
        let figures = figure.starts_with(|first: char| first.is_ascii_digit());
        figures.then(|| format!("{}{name} {figure}", &part[..start]))
    };
    if list && let Some(figures) = parts.iter().map(|part| own(part)).collect::<Option<Vec<String>>>() {
        return figures.join("; ").into();
    }
    if list { text.replace("; ", ".\n").into() } else { text.into() }
}

/// "Are we getting frost tonight or not": asked, as it is typed without its mark.
pub(super) fn with_or_not_asked(text: &str) -> std::borrow::Cow<'_, str> {
    const TAILS: [&str; 4] = [" or not have", " or not", " or nah", " or no"];
    let lower = text.to_ascii_lowercase();
    let whole = lower.trim_end_matches(['?', '.', '!', ' ']);
    let start = [". ", "! ", "? ", "\n"].iter().filter_map(|end| Some(whole.rfind(end)? + end.len())).max();
    let told = &whole[start.unwrap_or(0)..];
    const MOST_WORDS: usize = 12;
    const OPENS: [&str; 17] = [
        "are", "is", "do", "did", "does", "should", "can", "could", "will", "was", "were", "need", "must",
        "may", "have", "tonight", "frost",
    ];
    let heads = ["whether ", "if ", "don't ", "dont "];
    let opens = told.split_whitespace().take(3).any(|word| OPENS.contains(&word));
    if !opens || told.split_whitespace().count() > MOST_WORDS {
        return text.into();
    }
    match TAILS.iter().find_map(|tail| told.strip_suffix(tail)) {
        Some(asked) if !heads.iter().any(|head| asked.contains(head)) => {
            format!("{}?", &text[..start.unwrap_or(0) + asked.len()]).into()
        }
        _ => text.into(),
    }
}

/// "On the 31. June", as other people write it: its point ends no sentence.
pub(super) fn with_ordinal_points(text: &str) -> std::borrow::Cow<'_, str> {
    let point = text.match_indices(". ").find(|(at, _)| {
        let day = text[..*at].rsplit(' ').next().unwrap_or_default();
        let behind = text[at + 2..].split(|letter: char| !letter.is_alphabetic()).next().unwrap_or_default();
        (1..=2).contains(&day.len())
            && day.bytes().all(|letter| letter.is_ascii_digit())
            && text[..*at - day.len()].to_ascii_lowercase().ends_with("the ")
            && month(&behind.to_ascii_lowercase()).is_some()
    });
    match point {
        Some((at, _)) => format!("{}{}", &text[..at], &text[at + 1..]).into(),
        None => text.into(),
    }
}

/// "Sat: watered ground, Mon: copper on everything": each day on a line of its own.
pub(super) fn with_days_apart(text: &str) -> std::borrow::Cow<'_, str> {
    const NEAR: [&str; 4] = ["today", "yesterday", "this morning", "last night"];
    if text.contains('\n') || text.matches(": ").count() < 2 {
        return text.into();
    }
    let lower = text.to_ascii_lowercase();
    // Where a day heads what is behind it: at the start, or behind a mark.
    let heads: Vec<usize> = lower
        .match_indices(": ")
        .filter_map(|(colon, _)| {
            let near = NEAR.iter().find(|near| lower[..colon].ends_with(**near)).map(|near| near.len());
            let word = lower[..colon].rsplit(|letter: char| !letter.is_alphanumeric()).next()?;
            let length = near.or_else(|| weekday(word).map(|_| word.len()))?;
            Some(colon - length)
        })
        .filter(|at| *at == 0 || lower[..*at].trim_end().ends_with([',', ';', '.', '!']))
        .collect();
    if heads.len() < 2 {
        return text.into();
    }
    let mut lines = String::with_capacity(text.len() + heads.len());
    let mut from = 0;
    for at in heads.into_iter().filter(|at| *at > 0) {
        lines.push_str(text[from..at].trim_end().trim_end_matches([',', ';']));
        lines.push('\n');
        from = at;
    }
    lines.push_str(&text[from..]);
    lines.into()
}

/// How long the marks and room at the head of a stretch are. "... the road. .7 in the gauge": the second point is the
/// figure's own.
fn marks_from(text: &str) -> usize {
    let mut end = 0;
    let mut letters = text.chars().peekable();
    let mut before = None;
    while let Some(letter) = letters.next() {
        let figure =
            letter == '.' && before == Some(' ') && letters.peek().is_some_and(|next| next.is_ascii_digit());
        if figure || !matches!(letter, '?' | '!' | '.' | '\n' | '\r' | '\u{2026}' | ' ') {
            break;
        }
        end += letter.len_utf8();
        before = Some(letter);
    }
    end
}

fn end_of_sentence(text: &str) -> (usize, usize) {
    let mut letters = text.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        let next = letters.peek().map(|(_, next)| *next);
        let ends = match letter {
            '\n' | '\r' | '…' => true,
            // Within a link a question mark ends nothing.
            // "Rust! on Celeste" goes on.
            '!' if text[at + 1..].trim_start().starts_with("on ") => false,
            '?' | '!' => next.is_none_or(|next| !next.is_alphanumeric()),
            // "... send that.Take it out": the room between was forgotten.
            '.' if next.is_some_and(char::is_uppercase)
                && text[..at].chars().rev().take(3).filter(|letter| letter.is_lowercase()).count() == 3 =>
            {
                true
            }
            '.' => {
                next.is_none_or(|next| next.is_whitespace() || next == '.' || next == '?' || next == '!')
                    && !is_abbreviation(text, at)
            }
            _ => false,
        };
        if ends {
            return (at, marks_from(&text[at..]));
        }
    }
    (text.len(), 0)
}

/// "a.m.", "approx.", "gal.", "in." before a number or small letter.
fn is_abbreviation(text: &str, at: usize) -> bool {
    const SHORT: [&str; 49] = [
        "exc", "jan", "feb", "apr", "jun", "sep", "nov", "dec", "ca", "c", "appr", "pct", "circa", "ca.",
        "nos", "a.m", "p.m", "approx", "gal", "in", "tbsp", "tsp", "oz", "lb", "lbs", "vs", "st", "mr",
        "mrs", "dr", "temp", "max", "min", "avg", "no", "ft", "qt", "pt", "fl", "jul", "aug", "est", "abt",
        "ave", "sq", "incl", "esp", "sept", "oct",
    ];
    let head = &text[..at];
    let start = head
        .char_indices()
        .rev()
        .take_while(|(_, letter)| letter.is_alphabetic() || *letter == '.')
        .last()
        .map_or(at, |(start, _)| start);
    let word = &head[start..];
    if ["mr", "mrs", "ms", "dr"].iter().any(|title| word.eq_ignore_ascii_case(title)) {
        return true;
    }
    let goes_on =
        text[at + 1..].trim_start().starts_with(|next: char| next.is_ascii_digit() || next.is_lowercase());
    // "2 gal. when did Wall get it?": a unit at the end of what was told.
    let next =
        text[at + 1..].trim_start().split(|letter: char| !letter.is_alphabetic() && letter != '\'').next();
    let begins = next.is_some_and(|next| {
        super::lexicon::senses(&next.to_lowercase()).has_any(&[
            Sense::Sprayed,
            Sense::Watered,
            Sense::Picked,
            Sense::Seen,
            Sense::Rust,
            Sense::Gauge,
            Sense::Asks,
            Sense::Negation,
        ]) || matches!(next, "i" | "we" | "then" | "also" | "bo")
    });
    // "1 in. wall dropping leaves": what follows an inch is of the rain, or a sentence of its own.
    let of_inch = word.eq_ignore_ascii_case("in")
        && head[..start].trim_end().ends_with(|letter: char| letter.is_ascii_digit())
        && !next.is_some_and(|next| {
            matches!(
                next,
                "of" | "rain"
                    | "fell"
                    | "this"
                    | "last"
                    | "overnight"
                    | "yesterday"
                    | "since"
                    | "total"
                    | "on"
                    | "from"
                    | "today"
                    | "and"
                    | "so"
                    | "in"
                    | "at"
                    | "each"
                    | "deep"
                    | "over"
                    | "by"
                    | "when"
                    | "or"
                    | "for"
                    | "to"
                    | ""
            )
        });
    // "1 lb 8 oz. 4 off Corner": so many more.
    let mut behind = text[at + 1..].split_whitespace();
    let counts = behind.next().is_some_and(|number| number.parse::<u32>().is_ok())
        && behind.next().is_some_and(|off| matches!(off, "off" | "from" | "figs"));
    let goes_on = goes_on && !begins && !of_inch && !counts;
    word.len() <= 6 && SHORT.contains(&word.to_lowercase().as_str()) && goes_on
}

/// How a clause hangs on the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Joint {
    /// It opens the sentence, or stands beside the one before.
    Beside,
    But,
    /// After a colon or dash: said of what stands before.
    Of,
    /// A reason or a limit: told for the sake of the one before.
    Because,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct Clause {
    pub(super) range: Range<usize>,
    pub(super) joint: Joint,
    /// A mark parts it from the one before, not a word.
    pub(super) marked: bool,
}

/// Parts a sentence into clauses at marks and at words that join. What stands inside a list of names parts
/// nothing. Whether a part stands by itself or goes on with the one before is decided by whoever reads it.
pub(super) fn clauses(tokens: &[Token], mentions: &[Mention]) -> Vec<Clause> {
    let mut clauses = Vec::new();
    let mut start = 0;
    let mut joint = Joint::Beside;
    let mut marked = false;
    let mut inside = mentions.iter().map(|mention| &mention.range).peekable();
    let mut push = |range: Range<usize>, joint: Joint, marked: bool| {
        let mut from = range.start;
        let mut starts = unmarked(tokens, mentions, range.clone());
        starts.extend(new_subjects(tokens, mentions, range.clone()));
        starts.sort_unstable();
        starts.dedup();
        for next in starts {
            clauses.push(Clause { range: from..next, joint, marked });
            from = next;
        }
        if from < range.end {
            clauses.push(Clause { range: from..range.end, joint, marked });
        }
    };
    for index in 0..tokens.len() {
        while inside.next_if(|range| range.end <= index).is_some() {}
        if inside.peek().is_some_and(|range| {
            let leaves_out = tokens[index].senses.has(Sense::But)
                || tokens[index].is("and") && tokens.get(index + 1).is_some_and(|next| next.is("not"));
            range.start < index || range.start == index && leaves_out
        }) {
            continue;
        }
        if let Some(next) = parts(tokens, mentions, index) {
            push(start..index, joint, marked);
            joint = next;
            marked =
                tokens[index].is_mark() && !tokens[index].is("&") || index > 0 && tokens[index - 1].is(",");
            // A word that joins may be part of what it opens: "because it was dry".
            start = index + 1;
        }
    }
    push(start..tokens.len(), joint, marked);
    clauses
}

/// "7/8: copper, pots": a day at the head of a line.
fn is_dated(tokens: &[Token], index: usize) -> bool {
    index == 1 && tokens[0].text.contains('/')
}

fn parts(tokens: &[Token], mentions: &[Mention], index: usize) -> Option<Joint> {
    let token = &tokens[index];
    let is = |at: usize, texts: WordList| tokens.get(at).is_some_and(|next| next.is_any(texts));
    if token.is_mark() {
        return match token.text.as_str() {
            // A little picture stands where a comma would.
            picture if !picture.is_ascii() && !matches!(picture, "°" | "½" | "¼" | "¾" | "–" | "—" | "’") => {
                Some(Joint::Beside)
            }
            "+" if between_numbers(tokens, index) => None,
            // "12 fruit (0.41 kg) from Celeste"
            "(" | ")" if around_amount(tokens, index) => None,
            "," | "+" | "&" | "(" | ")" | "…" | ";" | "*" | "•" | "|" => Some(Joint::Beside),
            // "w/ copper"
            "/" if index > 0 && tokens[index - 1].is("w") => None,
            "/" if !numbered(tokens, index) => Some(Joint::Beside),
            // "7:30" is a time, "gauge: 0.3" a reading.
            ":" if !numbered(tokens, index) && !is_reading(tokens, index) && !is_dated(tokens, index) => {
                Some(Joint::Of)
            }
            // A dash with room around it.
            // "Whip - into the garage last night"
            "-" if is(index + 1, words!("in into inside out outside"))
                && mentions.iter().any(|mention| mention.range.end == index) =>
            {
                None
            }
            "-" if index > 0 && !token.joined && !tokens.get(index + 1).is_some_and(|next| next.joined) => {
                Some(Joint::Of)
            }
            _ => None,
        };
    }
    if token.senses.has(Sense::But) && !token.is("save") && !token.is("but") {
        return (index > 0).then_some(Joint::But);
    }
    match token.text.as_str() {
        "but" => Some(Joint::But),
        // "Sprayed vinegar and dish soap on Wall": one brew.
        "and"
            if index > 0
                && tokens[index - 1].senses.has(Sense::OtherProduct)
                && tokens[index + 1..].iter().take(2).any(|next| next.senses.has(Sense::OtherProduct)) =>
        {
            None
        }
        // "Sprayed soap and water on Corner": one thing in the can.
        "and"
            if is(index + 1, words!("water"))
                && index > 0
                && tokens[index - 1].is_any(words!(
                    "soap detergent vinegar peroxide milk soda bleach copper sulfur neem oil"
                )) =>
        {
            None
        }
        // "One pound and four ounces"
        "and"
            if index > 0
                && tokens[index - 1]
                    .is_any(words!("pound pounds lb lbs kilo kilos kg kgs kilogram kilograms"))
                && tokens.get(index + 1).is_some_and(|next| next.number.is_some())
                && is(index + 2, words!("oz ounce ounces g gram grams")) =>
        {
            None
        }
        // "Still nice and moist"
        "and"
            if index > 0
                && tokens[index - 1].is_any(words!("nice good pretty cool"))
                && tokens
                    .get(index + 1)
                    .is_some_and(|next| next.senses.has_any(&[Sense::Moist, Sense::Wet, Sense::Dry])) =>
        {
            None
        }
        "and" => {
            // "an inch and a quarter" is one amount, "two and a half" one number.
            let part = |at: usize| is(at, words!("half quarter third"));
            // "One pound and half of figs"
            let of_unit = index > 0
                && tokens[index - 1].senses.has(Sense::Unit)
                && part(index + 1)
                && is(index + 2, words!("of"))
                && tokens
                    .get(index + 3)
                    .is_some_and(|next| next.senses.has(Sense::Fig) || next.is_any(words!("water rain")));
            let hyphened = tokens.get(index + 1).is_some_and(|next| next.number.is_some())
                && is(index + 2, words!("quarter half eighth tenth third"))
                && tokens.get(index + 3).is_some_and(|unit| unit.senses.has(Sense::Unit));
            let amount = of_unit
                || hyphened
                || is(index + 2, words!("hundredths hundredth"))
                || part(index + 1) && !is(index + 2, words!("a an the dozen of"))
                || is(index + 1, words!("a")) && part(index + 2)
                || is(index + 2, words!("quarters eighths tenths thirds"))
                    && index > 0
                    && (tokens[index - 1].number.is_some() || tokens[index - 1].senses.has(Sense::Unit));
            // "a hundred and four" is one number.
            let round = tokens[index - usize::from(index > 0)].is_any(words!("hundred thousand"));
            let ones = tokens.get(index + 1).and_then(|next| next.number);
            let amount = amount || round && ones.is_some_and(|ones| (1.0..100.0).contains(&ones));
            // "leaves turning yellow and dropping" are one thing said of the leaves.
            let start =
                (0..index).rev().find(|at| tokens[*at].is_any(words!(", and ; :"))).map_or(0, |at| at + 1);
            let before = || tokens[start..index].iter();
            let after = index + 1 + usize::from(is(index + 1, words!("are is now")));
            let goes_on = tokens.get(after).is_some_and(|next| next.senses.has(Sense::Drop))
                && before().any(|token| token.senses.has(Sense::Leaf))
                && !before().any(|token| token.senses.has_any(&[Sense::Drop, Sense::Rust, Sense::Spots]));
            (!amount && !goes_on).then_some(Joint::Beside)
        }
        "plus" if between_numbers(tokens, index) => None,
        "n" | "then" | "also" | "plus" | "while" | "though" | "although" | "tho" | "so" | "which" => {
            // "so far", "so many" part nothing.
            // "an inch n a half"
            let half = token.is("n")
                && is(index + 1, words!("a half quarter"))
                && (is(index + 2, words!("half quarter")) || !is(index + 1, words!("a")));
            let adverb = half
                || token.is("so")
                    && is(
                        index + 1,
                        words!("far many much bad dry hot glad that light wet heavy soft thirsty"),
                    )
                || token.is("n")
                    && (index > 0 && tokens[index].joined
                        || tokens.get(index + 1).is_none_or(Token::is_mark))
                || token.is("so")
                    && index > 0
                    && tokens[index - 1].senses.has(Sense::Be)
                    // "Still wet this am so skipped watering"
                    && !(index > 1 && tokens[index - 1].is("am") && tokens[index - 2].is("this"));
            (!adverb && index > 0).then_some(Joint::Beside)
        }
        // "so rusty she needs a bath": what she needs is said beside how she is.
        "she" | "he" | "they" | "it" if index > 1 && is(index + 1, words!("needs need")) => {
            tokens[index.saturating_sub(3)..index].iter().any(|token| token.is("so")).then_some(Joint::Beside)
        }
        "because" | "cuz" | "bc" | "coz" | "cos" | "till" | "until" if index > 0 => Some(Joint::Because),
        // "since it looked dry", not "since sunday".
        // "before I left" is a time.
        "before"
            if is(index + 1, words!("i we"))
                && is(index + 2, words!("left went go got headed leave started")) =>
        {
            None
        }
        // "Left the deck alone since Celeste is ripening"
        "since"
            if index > 0
                && mentions.iter().map(|mention| &mention.range).any(|mention| {
                    mention.start == index + 1
                        && is(mention.end, words!("is was are were has looks looked needs"))
                }) =>
        {
            Some(Joint::Beside)
        }
        "since" | "as" | "before" if index > 0 && is(index + 1, words!("it they there i we it's the")) => {
            let rain = tokens[index + 1..].iter().take(4).any(|next| next.senses.has(Sense::Rain));
            (!rain && !is(index + 1, words!("the"))).then_some(Joint::Because)
        }
        _ => None,
    }
}

/// Between figures a mark belongs to a time, a date or a share.
fn numbered(tokens: &[Token], index: usize) -> bool {
    let figure = |at: Option<usize>| {
        at.and_then(|at| tokens.get(at)).is_some_and(|token| {
            token.number.is_some() && token.text.starts_with(|letter: char| !letter.is_alphabetic())
        })
    };
    figure(index.checked_sub(1)) && figure(Some(index + 1))
}

/// A bracket around a measure that stands between a count and where it came from.
fn around_amount(tokens: &[Token], index: usize) -> bool {
    const LONGEST: usize = 4;
    let open = if tokens[index].is("(") {
        Some(index)
    } else {
        (0..index).rev().take(LONGEST).find(|at| tokens[*at].is("("))
    };
    let Some(open) = open else { return false };
    let Some(close) = (open..tokens.len().min(open + LONGEST)).find(|at| tokens[*at].is(")")) else {
        return false;
    };
    let measured =
        tokens[open + 1..close].iter().all(|token| token.number.is_some() || token.senses.has(Sense::Unit));
    measured && tokens.get(close + 1).is_some_and(|next| next.is_any(words!("from off of")))
}

fn between_numbers(tokens: &[Token], index: usize) -> bool {
    let number = |at: usize| tokens.get(at).is_some_and(|token| token.number.is_some());
    index > 0 && number(index - 1) && number(index + 1)
}

/// "Gauge: 0.3", "rain this morning: half an inch".
fn is_reading(tokens: &[Token], colon: usize) -> bool {
    const FARTHEST: usize = 5;
    // "Celeste's pot: 31 pounds"
    let pot = colon > 1
        && tokens[colon - 1].is_any(words!("pot container"))
        && tokens[colon - 2].text.ends_with("'s")
        && tokens.get(colon + 1).is_some_and(|next| next.number.is_some());
    pot || tokens[colon.saturating_sub(FARTHEST)..colon]
        .iter()
        .any(|token| token.senses.has_any(&[Sense::Gauge, Sense::Rain]))
}
