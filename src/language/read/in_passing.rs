//! What is said around a report and changes nothing of it: "I am happy to say", "as far as I can tell", "mom says to
//! tell you that", "I forgot to log it".
//!
//! Taken out before the rest is read. Whether the message was plainly worded is judged on all of it, so whatever is
//! left out here is a reason to tell the grower what was written down.

mod beside;

use self::beside::{among_all, as_shown, feelings, likened, not_there_before, of_oneself, said_of_it};
use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::LazyLock;

use super::lexicon::{self, Sense};
use super::names::Names;
use super::tokens::tokens;
use crate::language::read::word_list::words;

/// Said anywhere.
const ANYWHERE: [&str; 108] = [
    "praise be",
    "praise god",
    "praise the lord",
    "i neglected to enter that",
    "i neglected to mention that",
    "i forgot to enter that",
    "i omitted to enter that",
    "and then some",
    "i must enter that",
    "i must record that",
    "i must note that",
    "i must report that",
    "no fewer than",
    "no less than",
    "i should estimate",
    "i should judge",
    "i would estimate",
    "i would judge",
    "please change it",
    "please update it",
    "please change its entry",
    "please fix it",
    "can't remember which one",
    "cant remember which one",
    "don't remember which one",
    "dont remember which one",
    "can't remember which",
    "cant remember which",
    "don't remember which",
    "dont remember which",
    "not sure which one",
    "no idea which one",
    "daily report for",
    "daily log for",
    "daily notes for",
    "evening report for",
    "garden report for",
    "field notes for",
    "quick one",
    "quick question",
    "the two of us",
    "the three of us",
    "the both of us",
    "the four of us",
    "let's see",
    "lets see",
    "let me see",
    "let me think",
    "ran out of time",
    "ran out of daylight",
    "ran out of light",
    "ran out of steam",
    "ran out of water",
    "at the very least",
    "at the least",
    "at least",
    "at most",
    "i'm afraid",
    "im afraid",
    "i would say",
    "like you said",
    "like u said",
    "as you said",
    "like you told me",
    "i am happy to say",
    "i'm happy to say",
    "im happy to say",
    "happy to say",
    "happy to report",
    "glad to say",
    "glad to report",
    "pleased to say",
    "pleased to report",
    "sorry to say",
    "sorry to report",
    "sad to say",
    "as far as i can tell",
    "as far as i can see",
    "as far as i could see",
    "as far as i could tell",
    "as far as i know",
    "if i remember right",
    "if i remember rightly",
    "if i recall",
    "if memory serves",
    "if i counted right",
    "if i'm not mistaken",
    "believe it or not",
    "would you believe",
    "let me tell you",
    "i kid you not",
    "i have to say",
    "i must say",
    "just so you know",
    "just to let you know",
    "just letting you know",
    "for your information",
    "in case you're wondering",
    "knock on wood",
    "thank goodness",
    "thank god",
    "thank heavens",
    "needless to say",
    "wouldn't you know it",
    "wouldnt you know it",
    "i dare say",
    "i reckon",
    "i'd say",
];

/// Said between the rust and how much of it: ", not a lot, couple of spots".
const BETWEEN: [&str; 6] =
    [", not a lot,", ", not much,", ", not too much,", ", not too bad,", ", not bad,", ", not terrible,"];

/// Said of the telling, not of the work, up to the next mark.
const EXCUSES: [&str; 31] = [
    "don't tell my wife",
    "dont tell my wife",
    "don't tell my husband",
    "dont tell my husband",
    "i forget to say",
    "forget to say",
    "forgot to say",
    "i forgot to log it",
    "i forgot to log that",
    "forgot to log it",
    "i forgot to write it down",
    "forgot to write it down",
    "i forgot to put it in",
    "forgot to put it in",
    "i forgot to tell you",
    "forgot to tell you",
    "forgot to mention",
    "i forgot to enter it",
    "never wrote it down",
    "never logged it",
    "never put it in",
    "didn't write it down",
    "didnt write it down",
    "which i neglected to enter",
    "which i forgot to enter",
    "which i forgot to log",
    "dont tell her",
    "don't tell her",
    "dont tell him",
    "don't tell him",
    "don't tell anyone",
];

/// Who tells, at the head of a message: "boss", "sir".
const VOCATIVES: [&str; 12] =
    ["boss", "chief", "sir", "mate", "buddy", "dear", "friend", "pal", "hon", "love", "bro", "dude"];

/// All of them by their first word, as most words of a message begin none.
static BY_FIRST_WORD: LazyLock<HashMap<&'static str, Vec<&'static str>>> = LazyLock::new(|| {
    let mut phrases: HashMap<&str, Vec<&str>> = HashMap::new();
    for phrase in ANYWHERE.into_iter().chain(EXCUSES) {
        let first = phrase.split(' ').next().unwrap_or(phrase);
        phrases.entry(first).or_default().push(phrase);
    }
    // The longest first: "i forgot to log it" holds "forgot to log it".
    phrases.values_mut().for_each(|own| own.sort_by_key(|phrase| std::cmp::Reverse(phrase.len())));
    phrases
});

/// Where each of them is said, in small letters, standing apart.
fn said_in(lower: &str) -> Vec<(usize, &'static str)> {
    let of_word = |letter: char| letter.is_alphanumeric() || letter == '\'';
    let mut said = Vec::new();
    let mut from = 0;
    while let Some(start) = lower[from..].find(of_word).map(|at| from + at) {
        let end = lower[start..].find(|letter| !of_word(letter)).map_or(lower.len(), |at| start + at);
        let phrase = BY_FIRST_WORD
            .get(&lower[start..end])
            .and_then(|phrases| phrases.iter().find(|phrase| lower[start..].starts_with(**phrase)))
            .filter(|phrase| is_apart(lower, start, start + phrase.len()));
        said.extend(phrase.map(|phrase| (start, *phrase)));
        from = end;
    }
    said
}

/// The text without what is said in passing.
pub(super) fn without(text: &str) -> Cow<'_, str> {
    let lower = text.to_ascii_lowercase();
    let mut cuts: Vec<(usize, usize)> = Vec::new();
    if let Some(end) = head(&lower) {
        cuts.push((0, end));
    }
    for (at, phrase) in said_in(&lower) {
        let mut end = at + phrase.len();
        // "... to say that the leaves are clean"
        if lower[end..].starts_with(" that ") {
            end += " that".len();
        }
        let at = if EXCUSES.contains(&phrase) { with_lead(&lower, at) } else { at };
        cuts.push((at, end));
    }
    // "Got 8 from Celeste today, pal": said to the bot.
    for name in VOCATIVES {
        let end = lower.trim_end_matches(['.', '!', ' ']).len();
        if let Some(before) = lower[..end]
            .strip_suffix(name)
            .filter(|before| before.ends_with(", ") || before.ends_with("today "))
        {
            cuts.push((before.trim_end_matches([',', ' ']).len(), end));
        }
    }
    // "Rained like crazy idk how much"
    const UNKNOWN: [&str; 6] = [
        "idk how much",
        "dunno how much",
        "no idea how much",
        "not sure how much",
        "don't know how much",
        "dont know how much",
    ];
    for phrase in UNKNOWN {
        let ends = |end: &usize| {
            lower[*end..].trim_start().starts_with([',', '.', '!', ';']) || lower[*end..].trim().is_empty()
        };
        if let Some((at, end)) =
            lower.find(phrase).map(|at| (at, at + phrase.len())).filter(|(_, end)| ends(end))
            && lower[..at].split_whitespace().count() > 2
        {
            cuts.push((lower[..at].trim_end_matches([' ', ',']).len(), end));
        }
    }
    // "Picked 6 off Eave and 3 off Celeste, phone is all sticky now sorry"
    const LONG: usize = 9;
    let trimmed = lower.trim_end_matches(['.', '!', ' ']);
    // "Add it to my products would you."
    if let Some(before) = trimmed.strip_suffix(" would you").filter(|before| before.split(' ').count() > 3) {
        cuts.push((before.len(), trimmed.len()));
    }
    if let Some(before) = trimmed.strip_suffix(" sorry").filter(|before| !before.ends_with([',', '.', '-']))
        && trimmed.split_whitespace().count() >= LONG
    {
        cuts.push((before.len(), trimmed.len()));
    }
    cuts.extend(feelings(&lower));
    cuts.extend(said_of_it(&lower));
    cuts.extend(among_all(&lower));
    cuts.extend(likened(&lower));
    cuts.extend(not_there_before(&lower));
    cuts.extend(as_shown(&lower));
    cuts.extend(of_oneself(&lower));
    for phrase in BETWEEN {
        if let Some(at) = lower.find(phrase) {
            cuts.push((at, at + phrase.len() - 1));
        }
    }
    if cuts.is_empty() {
        return Cow::Borrowed(text);
    }
    cuts.sort_unstable();
    let mut kept = String::with_capacity(text.len());
    let mut from = 0;
    for (at, end) in cuts {
        if at < from {
            continue;
        }
        let before = text[from..at].trim_end();
        kept.push_str(before);
        // A comma on one side is enough.
        let rest = text[end..].trim_start();
        let closed = before.is_empty() || before.ends_with([',', '.', ';', '!', ':']);
        let rest = if closed { rest.trim_start_matches([',', ' ']) } else { rest };
        from = text.len() - rest.len();
        if !kept.is_empty() && !rest.starts_with([',', '.', ';', '!', '?', ':']) {
            kept.push(' ');
        }
    }
    kept.push_str(&text[from..]);
    // "Clean, thank god"
    kept.truncate(kept.trim_end_matches([' ', ',']).len());
    if kept.trim().is_empty() { Cow::Borrowed(text) } else { Cow::Owned(kept) }
}

/// "Stuck a finger in Eave's pot while I was on the phone with my sister": what went on meanwhile, without a word of
/// the garden's or the name of a tree.
pub(super) fn without_meanwhile<'t>(text: &'t str, names: &Names) -> Cow<'t, str> {
    const MOST_WORDS: usize = 14;
    let lower = text.to_ascii_lowercase();
    let Some(at) = lower.find(" while ") else { return Cow::Borrowed(text) };
    let behind = &text[at + 1..];
    let end = behind.find(['.', ',', '!', ';', '?', '\n']).unwrap_or(behind.len());
    let told = &behind[..end];
    let tokens = tokens(told);
    let idle = tokens.len() <= MOST_WORDS
        && tokens.get(1).is_some_and(|who| who.is_any(words!("i my the he she we they our mom dad it")))
        && says_nothing_of(&lower[at + 1..at + 1 + end], OF_REPORTS)
        // "While I was at the doctor yesterday", "what got done while I was gone": when.
        && !tokens.iter().any(|token| token.senses.has(Sense::Time) || token.is_any(words!("gone away")))
        && names.mentions(&tokens, told).is_empty();
    if idle { Cow::Owned(format!("{}{}", &text[..at], &behind[end..])) } else { Cow::Borrowed(text) }
}

/// No figure, and no word of these senses.
fn says_nothing_of(told: &str, senses: &[Sense]) -> bool {
    told.split(|letter: char| !letter.is_alphanumeric() && letter != '\'').all(|word| {
        !word.starts_with(|first: char| first.is_ascii_digit()) && !lexicon::senses(word).has_any(senses)
    })
}

/// What reports are made of.
const OF_REPORTS: &[Sense] = &[
    Sense::Rust,
    Sense::Spots,
    Sense::Clean,
    Sense::Dry,
    Sense::Wet,
    Sense::Moist,
    Sense::Leaf,
    Sense::Fig,
    Sense::Ripe,
    Sense::Ripening,
    Sense::Swell,
    Sense::Drop,
    Sense::Sprayed,
    Sense::Watered,
    Sense::Picked,
    Sense::Took,
    Sense::Gave,
    Sense::Weighed,
    Sense::Copper,
    Sense::Sulfur,
    Sense::Oil,
    Sense::Negation,
    Sense::Trace,
    Sense::Heavy,
];

/// "... and clean | forgot to tell you": where what leads an excuse in begins.
fn with_lead(lower: &str, at: usize) -> usize {
    const LEADS: [&str; 8] = [" clean", " completely", " totally", " just", " i", " and", " but", " then"];
    let mut start = at;
    while let Some(lead) = LEADS.iter().find(|lead| lower[..start].trim_end().ends_with(**lead)) {
        start = lower[..start].trim_end().len() - lead.len();
    }
    start
}

/// "Corner: 3/30. Wall: 8/30." are leaves of as many leaves, where twice the same is looked at; no days of a month.
pub(super) fn with_samples(text: &str) -> Cow<'_, str> {
    const LEAVES: [&str; 7] = ["20", "25", "30", "40", "50", "60", "100"];
    let figure = |letter: char| letter.is_ascii_digit();
    let places = |of: &str| -> Vec<usize> {
        text.match_indices('/')
            .map(|(at, _)| at)
            .filter(|at| {
                let (before, after) = (&text[..*at], &text[at + 1..]);
                let digits: &str = &after[..after.find(|letter| !figure(letter)).unwrap_or(after.len())];
                let first = before.trim_end_matches(figure);
                digits == of
                    && first.len() < before.len()
                    && !after[of.len()..].starts_with('/')
                    && !first.ends_with('/')
            })
            .collect()
    };
    let found = LEAVES.into_iter().map(places).find(|places| places.len() > 1);
    let Some(places) = found else { return Cow::Borrowed(text) };
    let mut told = String::with_capacity(text.len() + 4 * places.len());
    for (at, letter) in text.char_indices() {
        if places.contains(&at) { told.push_str(" of ") } else { told.push(letter) }
    }
    Cow::Owned(told)
}

/// "Boss, I sprayed", "kindly note, I have watered", "mom says to tell you that we watered": where what is told begins.
fn head(lower: &str) -> Option<usize> {
    const MOST_BEFORE: usize = 3;
    if let Some(name) = VOCATIVES.iter().find(|name| lower.starts_with(**name)) {
        let rest = &lower[name.len()..];
        // "Buddy of mine", "friend says" are somebody else.
        let next = rest.trim_start().split(' ').next().unwrap_or_default();
        let somebody = matches!(
            next,
            "of" | "has"
                | "had"
                | "said"
                | "says"
                | "is"
                | "was"
                | "got"
                | "told"
                | "picked"
                | "sprayed"
                | "who"
                | "and"
                | "gave"
                | "came"
                | "watered"
                | "put"
                | "from"
                | "down"
                | "at"
                | "in"
                | "with"
                | "here"
                | "did"
                | "went"
                | "lost"
                | "asked"
                | "thinks"
                | "showed"
                | "brought"
                | "helped"
                | "next"
        );
        if rest.starts_with(", ") || rest.starts_with(' ') && !somebody && !next.is_empty() {
            return Some(name.len());
        }
    }
    for lead in ["kindly note, ", "please note, ", "pls note, ", "kindly note that ", "please note that "] {
        if lower.starts_with(lead)
            && [" i ", " we ", " have "].iter().any(|own| lower[lead.len() - 1..].starts_with(own))
        {
            return Some(lead.len());
        }
    }
    ["says to ", "said to ", "wants me to ", "asked me to "].iter().find_map(|says| {
        let at = lower.find(says)?;
        let before = lower[..at].split_whitespace().count();
        let told = ["tell you", "let you know", "say", "put down", "report", "write down", "log"]
            .iter()
            .find(|told| lower[at + says.len()..].starts_with(**told))?;
        let mut end = at + says.len() + told.len();
        if lower[end..].starts_with(" that ") {
            end += " that".len();
        }
        // "Said to say hello" tells nothing, and what was only ordered is not done.
        let more = lower[end..].split_whitespace().count() > 2;
        (at > 0 && before <= MOST_BEFORE && more && lower[end..].starts_with(' ')).then_some(end)
    })
}

fn is_apart(text: &str, at: usize, end: usize) -> bool {
    !text[..at].ends_with(|letter: char| letter.is_alphanumeric() || letter == '\'')
        && !text[end..].starts_with(|letter: char| letter.is_alphanumeric() || letter == '\'')
}

#[cfg(test)]
mod tests {
    use super::without;

    #[test]
    fn only_what_is_said_in_passing_is_left_out() {
        for (said, want) in [
            (
                "Looked them over, and I am happy to say they are clean",
                "Looked them over, and they are clean",
            ),
            (
                "picked 15 off celeste, never wrote it down, and watered her",
                "picked 15 off celeste, and watered her",
            ),
            ("Boss I sprayed Wall", "I sprayed Wall"),
            ("mom said to say we watered the pots", "we watered the pots"),
            ("she says to tell you that celeste got watered", "celeste got watered"),
            ("Kindly note, I have watered the pots", "I have watered the pots"),
            ("if I remember right, 6 off Wall", "6 off Wall"),
            ("Wall is clean as far as I can tell.", "Wall is clean."),
            ("I reckoned 6", "I reckoned 6"),
            ("Note: the hose leaks", "Note: the hose leaks"),
            ("I forgot to log it", "I forgot to log it"),
            ("Bo said to say hi", "Bo said to say hi"),
            ("Überall clean, thank god", "Überall clean"),
        ] {
            assert_eq!(without(said), want, "{said}");
        }
    }
}
