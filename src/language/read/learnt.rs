//! Sentences in another order than the reader knows: English as one writes it who learnt it late ("I already water the
//! pots", "this week what I must do"), "the Whip excepted", "before two days".
//!
//! A sentence is put in the order and the tense the rest of the reader knows; nothing is added to what it says. What
//! was written down is told back then, as the wording is judged on what was typed.

use std::borrow::Cow;

use super::lexicon::Sense;
use super::names::Names;
use super::tokens::tokens;
use super::word_list::words;

/// Work in the present, and as it is told when it is done.
const DONE: [(&str, &str); 14] = [
    ("water", "watered"),
    ("spray", "sprayed"),
    ("pick", "picked"),
    ("harvest", "harvested"),
    ("gather", "picked"),
    ("collect", "picked"),
    ("pluck", "picked"),
    ("check", "checked"),
    ("weigh", "weighed"),
    ("give", "gave"),
    ("bring", "brought"),
    ("take", "took"),
    ("apply", "applied"),
    ("move", "moved"),
];

const ASKING: [&str; 6] = ["what", "when", "how", "which", "where", "why"];
const MODAL: [&str; 6] = ["must", "should", "can", "may", "could", "shall"];

/// The sentence in its usual order, or as it is.
pub(super) fn put_right<'t>(text: &'t str, names: &Names) -> Cow<'t, str> {
    match only_not(text)
        .or_else(|| one_subject(text, names))
        .or_else(|| dated_rain(text))
        .or_else(|| days_since(text))
        .or_else(|| half_hour(text))
        .or_else(|| before_so_long(text))
    {
        Some(told) => Cow::Owned(in_order(&told).into_owned()),
        None => in_order(text),
    }
}

/// "The Corner it died", "Bo he took the pots inside": who it is said of, once.
fn one_subject(text: &str, names: &Names) -> Option<String> {
    let tokens = tokens(text);
    let head = tokens.iter().take_while(|token| token.senses.has(Sense::Article)).count();
    let person = tokens.get(head).is_some_and(|first| names.is_person(&first.text));
    let end = if person {
        head + 1
    } else {
        let mentions = names.mentions(&tokens, text);
        let named =
            mentions.first().filter(|mention| mention.range.start <= head && !mention.trees.is_vague())?;
        named.range.end
    };
    let pronoun = tokens.get(end).filter(|token| token.is_any(words!("he she it they")))?;
    let verb = tokens.get(end + 1).filter(|token| token.is_word())?;
    let told = verb.senses.has_any(&[
        Sense::Be,
        Sense::Have,
        Sense::Watered,
        Sense::Sprayed,
        Sense::Picked,
        Sense::Drop,
    ]) || verb.is_any(words!(
        "took brought carried moved died gave begin begins began lost dropped need needs look looks"
    ));
    told.then(|| format!("{}{}", &text[..pronoun.span.start], &text[verb.span.start..]))
}

/// "All trees checked, no rust, only Whip not checked yet": except her.
fn only_not(text: &str) -> Option<String> {
    const LONGEST_NAME: usize = 24;
    let lower = text.to_ascii_lowercase();
    let at = lower.find(", only ")?;
    let behind = &lower[at + ", only ".len()..];
    // "..., only Whip no spray"
    let not = behind.find(" not ").or_else(|| behind.find(" no ")).filter(|not| *not <= LONGEST_NAME)?;
    let tail = behind[not..].split_whitespace().count() <= 4;
    let works = ["check", "water", "spray", "look", "do", "done", "pick", "yet"]
        .iter()
        .any(|verb| behind[not..].contains(verb));
    let name = text.get(at + ", only ".len()..at + ", only ".len() + not)?;
    (tail && works && !name.contains(',')).then(|| format!("{} except {name}", &text[..at]))
}

/// "rain 7/8 - 0.4": the dash between a day and what fell on it.
fn dated_rain(text: &str) -> Option<String> {
    let lower = text.to_ascii_lowercase();
    let at = [" - ", ": "].iter().find_map(|dash| Some((lower.find(dash)?, dash.len())));
    let (at, length) = at?;
    let date = lower[..at].rsplit(' ').next()?;
    let day = date.split_once('/').is_some_and(|(month, day)| {
        [month, day].iter().all(|part| part.parse::<u32>().is_ok_and(|part| (1..=31).contains(&part)))
    });
    let rain = ["rain ", "rainfall ", "gauge "].iter().any(|word| lower.starts_with(word));
    let fell = lower[at + length..].starts_with(|first: char| first.is_ascii_digit() || first == '.');
    (day && rain && fell).then(|| format!("{} {}", &text[..at], &text[at + length..]))
}

/// "Makes three days that I watered Eave", "it's 3 days since I watered Eave": three days ago.
fn days_since(text: &str) -> Option<String> {
    const HEADS: [&str; 6] = ["it makes ", "makes ", "it is ", "it's ", "it has been ", "it's been "];
    const DONE: [&str; 5] = ["watered", "sprayed", "picked", "gave", "put"];
    let lower = text.to_ascii_lowercase();
    let head = HEADS.iter().find(|head| lower.starts_with(**head))?;
    let (count, rest) = lower[head.len()..].split_once(" days ")?;
    let link = ["that ", "since "].iter().find(|link| rest.starts_with(**link))?;
    let told = text.get(text.len() - rest.len() + link.len()..)?;
    let mut words = told.split(' ');
    let done = words.next().is_some_and(|who| matches!(who, "I" | "i" | "we" | "We"))
        && words.next().is_some_and(|verb| DONE.iter().any(|done| verb.eq_ignore_ascii_case(done)));
    let short = !count.contains(' ');
    (done && short).then(|| format!("{} {count} days ago", told.trim_end_matches(['.', '!', ' '])))
}

/// "I sprayed before one hour", "before two days to Wall sulfur I sprayed": so long ago.
fn before_so_long(text: &str) -> Option<String> {
    let told = tokens(text);
    let at = told.windows(3).position(|three| {
        three[0].is("before")
            && three[1].number.is_some_and(|count| (1.0..=30.0).contains(&count) && count.fract() == 0.0)
            && three[2].is_any(words!("hour hours day days week weeks"))
    })?;
    let led = at.checked_sub(1).and_then(|before| told.get(before)).is_some_and(|before| {
        before.number.is_some() || before.is_any(words!("days day hours hour weeks week long"))
    });
    let done =
        told.iter().any(|token| token.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked]));
    let harvest = told[at + 3..].iter().take(2).any(|token| token.is_any(words!("harvest picking of")));
    (done && !led && !harvest).then(|| {
        let (from, to) = (told[at].span.start, told[at + 2].span.end);
        let span = &text[told[at + 1].span.start..to];
        format!("{}{span} ago{}", &text[..from], &text[to..])
    })
}

/// "The morning message at 6 and half", "on 7 hour": as the clock has it.
fn half_hour(text: &str) -> Option<String> {
    let lower = text.to_ascii_lowercase();
    let tokens = tokens(&lower);
    let at = tokens.iter().position(|token| token.is_any(words!("at on")))?;
    let at = at + usize::from(tokens.get(at + 1).is_some_and(|next| next.is("the")));
    let hour = tokens.get(at + 1)?;
    let hour_of_day = hour.number.filter(|hour| hour.fract() == 0.0 && (1.0..=12.0).contains(hour))?;
    let behind: Vec<&str> = tokens[at + 2..].iter().take(3).map(|token| token.text.as_str()).collect();
    let of_message =
        tokens.iter().any(|token| token.is_any(words!("message brief morning messages reminder")));
    let (more, said) = match behind.as_slice() {
        ["and", "half", ..] if of_message => (2, format!("{hour_of_day}:30")),
        ["and", "a", "half", ..] if of_message => (3, format!("{hour_of_day}:30")),
        ["and", minutes, ..]
            if of_message && minutes.parse::<u32>().is_ok_and(|minutes| (5..60).contains(&minutes)) =>
        {
            (2, format!("{hour_of_day}:{minutes}"))
        }
        ["hour", ..] => (1, format!("{hour_of_day}")),
        // "This morning at the 6"
        [] | ["am" | "pm" | "in" | "this" | "of" | "o'clock" | "." | ",", ..]
            if tokens[at].is("the") && tokens[at - 1].is("at") =>
        {
            (0, format!("{hour_of_day}"))
        }
        _ => return None,
    };
    let last = tokens.get(at + 1 + more)?;
    Some(format!(
        "{}at {said}{}",
        &text[..tokens[at - usize::from(tokens[at].is("the"))].span.start],
        &text[last.span.end..]
    ))
}

fn in_order(text: &str) -> Cow<'_, str> {
    const MOST_WORDS: usize = 24;
    let lower = text.to_ascii_lowercase();
    // "All quiet on the rust front"
    if let Some(at) = lower.find("all quiet on the rust front") {
        return Cow::Owned(format!(
            "{}no rust{}",
            &text[..at],
            &text[at + "all quiet on the rust front".len()..]
        ));
    }
    if let Some(usual) = days_before(text, &lower).or_else(|| excepted(text, &lower)) {
        return Cow::Owned(usual);
    }
    let already = lower.contains("already");
    let asks = !already
        && ASKING.iter().any(|word| lower.contains(word))
        && MODAL.iter().any(|word| lower.contains(word));
    if !(already || asks) || text.contains('\n') {
        return Cow::Borrowed(text);
    }
    let words: Vec<&str> = text.split(' ').collect();
    if words.len() > MOST_WORDS {
        return Cow::Borrowed(text);
    }
    let mended = if already { told_already(&words) } else { asked_in_order(&words) };
    mended.map_or(Cow::Borrowed(text), Cow::Owned)
}

/// "Sprayed Eave before two days": two days ago.
fn days_before(text: &str, lower: &str) -> Option<String> {
    const COUNTS: [&str; 12] = ["2", "3", "4", "5", "6", "7", "two", "three", "four", "five", "six", "seven"];
    let at = lower.find(" before ")?;
    let rest = &lower[at + " before ".len()..];
    let count = COUNTS
        .iter()
        .find(|count| rest.strip_prefix(**count).is_some_and(|behind| behind.starts_with(" days")))?;
    let end = at + " before ".len() + count.len() + " days".len();
    let behind = lower[end..].trim_start();
    let ends = behind.is_empty() || behind.starts_with(['.', ',', '!', ';']) || behind.starts_with("and ");
    ends.then(|| format!("{} {count} days ago{}", &text[..at], &text[end..]))
}

/// "... on any of the trees, the Whip excepted": except her.
fn excepted(text: &str, lower: &str) -> Option<String> {
    const LONGEST: usize = 40;
    let end = lower.find(" excepted")?;
    let from = lower[..end].rfind(", ")?;
    let whom = text.get(from + 2..end).filter(|whom| whom.len() <= LONGEST)?;
    let rest = text.get(end + " excepted".len()..)?;
    Some(format!("{} except {whom}{rest}", &text[..from]))
}

fn is(words: &[&str], at: usize, any: &[&str]) -> bool {
    words.get(at).is_some_and(|word| {
        let bare = word.trim_end_matches([',', '.', '!']);
        any.iter().any(|one| bare.eq_ignore_ascii_case(one))
    })
}

fn done(word: &str) -> Option<&'static str> {
    DONE.iter().find(|(now, _)| word.eq_ignore_ascii_case(now)).map(|(_, past)| *past)
}

/// "I already water all pots", "already give Whip a gallon", "spray copper on Wall already": done.
fn told_already(words: &[&str]) -> Option<String> {
    let verb = words.iter().position(|word| done(word).is_some())?;
    let head = &words[..verb];
    // "Should I water already?", "don't spray already", "I will": nothing done.
    let told = head.iter().all(|word| {
        ["i", "we", "already", "ok", "just", "today", "yesterday", "now", "hello", "hi", "boss"]
            .iter()
            .any(|small| word.trim_end_matches(',').eq_ignore_ascii_case(small))
    });
    let already = words.iter().position(|word| is(&[word], 0, &["already"]))?;
    let beside = already + 1 == verb;
    let last = already + 1 == words.len()
        || is(words, already, &["already"]) && words[already].ends_with([',', '.', '!']);
    let asks = words.last().is_some_and(|last| last.ends_with('?'));
    if !told || asks || !(beside || last && already > verb + 1) {
        return None;
    }
    let past = done(words[verb])?;
    let mended: Vec<&str> =
        words.iter().enumerate().map(|(at, word)| if at == verb { past } else { *word }).collect();
    Some(mended.join(" "))
}

/// "What I must do", "this week what we should do", "when I can gather": the helping verb before who asks.
fn asked_in_order(words: &[&str]) -> Option<String> {
    const FARTHEST: usize = 4;
    let at = (0..words.len().min(FARTHEST))
        .find(|at| is(words, *at, &ASKING) && is(words, at + 1, &["i", "we"]) && is(words, at + 2, &MODAL))?;
    let front = &words[..at];
    let of_time = front.iter().all(|word| {
        [
            "today", "tomorrow", "now", "tonight", "this", "next", "week", "weekend", "month", "morning",
            "evening", "and", "so", "hello", "hi", "then", "please",
        ]
        .iter()
        .any(|time| word.trim_end_matches(',').eq_ignore_ascii_case(time))
    });
    if !of_time {
        return None;
    }
    // "When I can, I water" tells of a habit.
    if words[at + 2].ends_with(',') {
        return None;
    }
    let mut order = vec![words[at], words[at + 2], words[at + 1]];
    order.extend(&words[at + 3..]);
    let last = order.pop()?;
    let (last, mark) = last.strip_suffix('?').map_or((last, ""), |bare| (bare, "?"));
    order.push(last);
    order.extend(front.iter().map(|word| word.trim_end_matches(',')));
    Some(format!("{}{}", order.join(" "), if mark.is_empty() { "?" } else { mark }))
}

#[cfg(test)]
mod tests {
    use super::{days_since, half_hour, in_order};

    #[test]
    fn said_in_another_order() {
        for (typed, meant) in [
            ("I already water all pot today", "I already watered all pot today"),
            ("already spray Wall with copper", "already sprayed Wall with copper"),
            ("spray copper for Wall already", "sprayed copper for Wall already"),
            ("this week what I must do", "what must I do this week?"),
            ("When I can gather the figs of Wall?", "When can I gather the figs of Wall?"),
        ] {
            assert_eq!(in_order(typed), meant, "{typed}");
        }
    }

    #[test]
    fn said_in_order_already() {
        for typed in [
            "should I water already?",
            "I already watered the pots",
            "when I can, I water",
            "Wall is already dry, should I water",
            "don't water already wet pots",
            "I know what I should do",
        ] {
            assert_eq!(in_order(typed), typed);
        }
    }

    #[test]
    fn days_and_hours() {
        let days = days_since("Makes three days that I watered the Eave");
        assert_eq!(days.as_deref(), Some("I watered the Eave three days ago"));
        assert_eq!(days_since("It is 5 days that it rains"), None);
        for (typed, meant) in [
            ("morning message at 6 and half", Some("morning message at 6:30")),
            (
                "the morning message I want it at the 6 and a half please",
                Some("the morning message I want it at 6:30 please"),
            ),
            ("sprayed Wall on 7 hour", Some("sprayed Wall at 7")),
            ("put it on 2 and half of the trees", None),
        ] {
            assert_eq!(half_hour(typed).as_deref(), meant, "{typed}");
        }
    }
}
