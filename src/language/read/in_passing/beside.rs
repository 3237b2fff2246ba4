//! What is said beside a report, by its shape: what it looks like, how one feels of it, how it was before.

use super::{OF_REPORTS, is_apart, says_nothing_of};
use crate::language::read::lexicon::Sense;

/// "... all over the path, looks like the salon floor on a Saturday": what it looks like.
pub(super) fn likened(lower: &str) -> Option<(usize, usize)> {
    let at = [", looks like ", ", looked like ", ", looking like ", ", like the ", ", just like "]
        .iter()
        .find_map(|like| lower.find(like))?;
    let behind = &lower[at + 2..];
    let end = behind.find(['.', '!', ';', ',', '\n', '?']).unwrap_or(behind.len());
    const OF_LEAVES: &[Sense] = &[
        Sense::Rust,
        Sense::Spots,
        Sense::Dry,
        Sense::Wet,
        Sense::Rain,
        Sense::Leaf,
        Sense::Ripe,
        Sense::Ripening,
        Sense::Heavy,
        Sense::Trace,
        Sense::Some,
    ];
    says_nothing_of(&behind[..end], OF_LEAVES).then_some((at, at + 2 + end))
}

/// "Corner has rust all over, I swear it wasn't there Sunday": how it was is not how it is.
pub(super) fn not_there_before(lower: &str) -> Option<(usize, usize)> {
    const DENIED: [&str; 6] = [
        "it wasn't there",
        "it wasnt there",
        "it was not there",
        "that wasn't there",
        "they weren't there",
        "they werent there",
    ];
    let at = DENIED.iter().find_map(|denied| lower.find(denied))?;
    let from = lower[..at].rfind([',', ';']).filter(|comma| at - comma <= " i could swear ".len() + 2)?;
    let end = lower[at..].find(['.', '!', ';', '?', '\n', ',']).map_or(lower.len(), |end| at + end);
    Some((from, end))
}

/// "Checked 30 leaves like the extension lady showed us, 4 had rust": who taught it.
pub(super) fn as_shown(lower: &str) -> Option<(usize, usize)> {
    const LONGEST: usize = 48;
    let at = [" like the ", " as the ", " the way the ", " like they "]
        .iter()
        .find_map(|like| lower.find(like))?;
    let end = lower[at..].find([',', '.', ';']).map(|end| at + end).filter(|end| end - at <= LONGEST)?;
    let told = &lower[at..end];
    let taught = ["showed us", "showed me", "taught us", "taught me", "told us", "told me", "said to"];
    taught.iter().any(|taught| told.ends_with(taught)).then_some((at, end))
}

/// "Copper on Wall 2 gal hands r soaked", "my shoes are muddy": of whoever did the work.
pub(super) fn of_oneself(lower: &str) -> Option<(usize, usize)> {
    const OF_US: [&str; 12] = [
        "hands", "shoes", "boots", "socks", "fingers", "feet", "clothes", "shirt", "jeans", "arms", "knees",
        "sneakers",
    ];
    const BE: [&str; 6] = [" are ", " r ", " is ", " were ", " got ", " all "];
    OF_US.iter().find_map(|part| {
        let at = lower.find(part).filter(|at| is_apart(lower, *at, at + part.len()))?;
        let verb = BE.iter().find(|be| lower[at + part.len()..].starts_with(**be))?;
        let from = at + part.len() + verb.len();
        let end = from + lower[from..].find(['.', ',', '!', ';', '\n', '?']).unwrap_or(lower.len() - from);
        let start = ["my ", "all my ", "and ", "both ", "and my "]
            .iter()
            .filter_map(|lead| lower[..at].strip_suffix(lead))
            .map(str::len)
            .min()
            .unwrap_or(at);
        let short = lower[from..end].split_whitespace().count() <= 4;
        let told = lower[..start].split_whitespace().count() >= 2;
        (short
            && told
            && says_nothing_of(
                &lower[from..end],
                &[Sense::Rust, Sense::Fig, Sense::Copper, Sense::Sulfur, Sense::Oil],
            ))
        .then_some((start, end))
    })
}

/// "Every tree, including Whip, and found none": one of all that were named.
pub(super) fn among_all(lower: &str) -> Option<(usize, usize)> {
    const LONGEST: usize = 40;
    let at = lower.find(", including ")?;
    let head = &lower[..at];
    let all = [
        "every tree",
        "all the trees",
        "all trees",
        "everything",
        "all of them",
        "every one",
        "all six",
        "all the pots",
        "every pot",
    ]
    .iter()
    .any(|all| head.ends_with(all));
    let rest = &lower[at + 2..];
    let end = rest.find([',', '.', ';', '!']).unwrap_or(rest.len());
    (all && end <= LONGEST).then_some((at, at + 2 + end + usize::from(rest[end..].starts_with(','))))
}

/// "Celeste, which stands right beside it, has none", "... from Eave, not Big One, which is still green": said of a tree
/// in passing, with nothing in it that a report is made of.
pub(super) fn said_of_it(lower: &str) -> Option<(usize, usize)> {
    const MOST_WORDS: usize = 9;
    let at = lower.find(", which ")?;
    let behind = &lower[at + 2..];
    let end = behind.find([',', '.', ';', '!', '?', '\n']).unwrap_or(behind.len());
    let told = &behind[..end];
    let of_it = [
        "which stands ",
        "which sits ",
        "which is ",
        "which grows ",
        "which lives ",
        "which was ",
        "which were ",
        "which are ",
    ]
    .iter()
    .any(|head| told.starts_with(head));
    let short = told.split(' ').count() <= MOST_WORDS;
    let comma = usize::from(behind[end..].starts_with(','));
    (of_it && short && says_nothing_of(told, OF_REPORTS)).then_some((at, at + 2 + end + comma))
}

/// "Wall is covered, and I'm not happy about it", "soaking wet, and I can't think why": how one feels of what was told, at
/// the end of its sentence.
pub(super) fn feelings(lower: &str) -> Option<(usize, usize)> {
    const SELF: [&str; 5] = ["i'm ", "im ", "i am ", "we're ", "i was "];
    const DEGREE: [&str; 9] =
        ["not ", "so ", "very ", "really ", "too ", "pretty ", "quite ", "a bit ", "just "];
    const FEELING: [&str; 20] = [
        "happy",
        "pleased",
        "thrilled",
        "glad",
        "sad",
        "upset",
        "annoyed",
        "worried",
        "sorry",
        "proud",
        "mad",
        "delighted",
        "disappointed",
        "excited",
        "stumped",
        "surprised",
        "relieved",
        "gutted",
        "chuffed",
        "afraid",
    ];
    const OF_IT: [&str; 8] =
        [" about it", " about that", " with it", " with that", " at all", " to say", " by it", " about them"];
    const PUZZLED: [&str; 12] = [
        "i cannot say why",
        "cannot say why",
        "i couldn't say why",
        "i can't think why",
        "can't think why",
        "i don't know why",
        "don't know why",
        "dont know why",
        "no idea why",
        "not sure why",
        "who knows why",
        "god knows why",
    ];
    let ends = |at: usize| {
        lower[at..].trim_start().chars().next().is_none_or(|next| matches!(next, '.' | '!' | ';' | '\n'))
    };
    let lead = |at: usize| {
        let before = lower[..at].trim_end();
        ["and", "but", "so", "tho", "although", "though"]
            .iter()
            .find_map(|word| before.strip_suffix(word).filter(|rest| rest.ends_with([' ', ','])))
            .unwrap_or(before)
            .trim_end_matches([' ', ',', '-'])
            .len()
    };
    for own in SELF {
        for (at, _) in lower.match_indices(own).filter(|(at, _)| *at > 0) {
            let from = at + own.len();
            let degree: usize = {
                let mut end = from;
                while let Some(word) = DEGREE.iter().find(|word| lower[end..].starts_with(**word)) {
                    end += word.len();
                }
                end
            };
            let Some(feeling) = FEELING.iter().find(|word| lower[degree..].starts_with(**word)) else {
                continue;
            };
            let mut end = degree + feeling.len();
            end += OF_IT.iter().find(|of| lower[end..].starts_with(**of)).map_or(0, |of| of.len());
            if lead(at) > 0 && lower[lead(at)..at].contains([',', ' ', '-']) && ends(end) {
                return Some((lead(at), end));
            }
        }
    }
    PUZZLED.iter().find_map(|phrase| {
        let at = lower.find(phrase).filter(|at| *at > 0 && ends(at + phrase.len()))?;
        (lead(at) > 0 && is_apart(lower, at, at + phrase.len())).then(|| (lead(at), at + phrase.len()))
    })
}
