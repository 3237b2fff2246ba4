//! Sentences in another order than the reader knows: English as one writes it who learnt it late ("I already water the
//! pots", "this week what I must do"), "the Whip excepted", "before two days".
//!
//! A sentence is put in the order and the tense the rest of the reader knows; nothing is added to what it says. What
//! was written down is told back then, as the wording is judged on what was typed.

use std::borrow::Cow;

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
pub(super) fn put_right(text: &str) -> Cow<'_, str> {
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
    use super::put_right;

    #[test]
    fn said_in_another_order() {
        for (typed, meant) in [
            ("I already water all pot today", "I already watered all pot today"),
            ("already spray Wall with copper", "already sprayed Wall with copper"),
            ("spray copper for Wall already", "sprayed copper for Wall already"),
            ("this week what I must do", "what must I do this week?"),
            ("When I can gather the figs of Wall?", "When can I gather the figs of Wall?"),
        ] {
            assert_eq!(put_right(typed), meant, "{typed}");
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
            assert_eq!(put_right(typed), typed);
        }
    }
}
