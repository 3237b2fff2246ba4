//! An amount taken back in the same breath for another of its kind: "an inch no an inch and a half of rain", "in a 10 gal
//! no wait its 15 gal".
//!
//! The first is left out before anything else is read; what is taken back by name or day is `repair`'s.

use std::borrow::Cow;

use super::moments::month;

/// Words for one unit, however they are typed.
const UNITS: [&[&str]; 6] = [
    &["inch", "inches", "in"],
    &["gal", "gals", "gallon", "gallons"],
    &["lb", "lbs", "pound", "pounds"],
    &["quart", "quarts", "qt"],
    &["liter", "liters", "litre", "litres", "l"],
    &["percent", "%"],
];
const FIGURES: [&str; 24] = [
    "a", "an", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "fifteen", "twenty", "thirty", "forty", "fifty", "half", "quarter", "quarters", "and",
    "hundred",
];

/// The text with the amount that holds.
pub(super) fn held(text: &str) -> Cow<'_, str> {
    const MOST_AHEAD: usize = 6;
    if !text.contains(" no ") && !text.contains(" no, ") {
        return text.into();
    }
    let words: Vec<&str> = text.split(' ').collect();
    let plain = |word: &str| word.trim_matches([',', '.', '!', ';']).to_ascii_lowercase();
    let unit = |word: &str| UNITS.iter().position(|unit| unit.contains(&plain(word).as_str()));
    let figure = |word: &str| {
        let word = plain(word);
        FIGURES.contains(&word.as_str()) || word.starts_with(|first: char| first.is_ascii_digit())
    };
    let found = (2..words.len()).find_map(|at| {
        let told = unit(words[at - 1]).filter(|_| plain(words[at]) == "no")?;
        let idle = words[at + 1..]
            .iter()
            .take_while(|word| {
                ["wait", "its", "it's", "make", "that", "i", "mean", "sorry", "it", "was"]
                    .contains(&plain(word).as_str())
            })
            .count();
        let ahead = &words[at + 1 + idle..];
        let next = ahead.iter().take(MOST_AHEAD).position(|word| unit(word) == Some(told))?;
        let figures = next > 0 && ahead[..next].iter().all(|word| figure(word));
        // "Big One a gallon": the article is where it begins.
        let figures_before = words[..at - 1].iter().rev().take_while(|word| figure(word));
        let article = figures_before.clone().position(|word| ["a", "an"].contains(&plain(word).as_str()));
        let back = article.map_or(figures_before.count(), |at| at + 1);
        // "In a 10 gal pot": its article stays.
        let from = at - 1 - back;
        let article = article.is_some() && back > 1;
        (figures && back > 0).then_some((from + usize::from(article), at + 1 + idle))
    });
    match found.or_else(|| of_a_day_or_hour(&words)) {
        Some((from, to)) => [&words[..from], &words[to..]].concat().join(" ").into(),
        None => text.into(),
    }
}

/// "Nov 5, no nov 15", "at 7.. no 6:30": the words of the first and its "no".
fn of_a_day_or_hour(words: &[&str]) -> Option<(usize, usize)> {
    let plain = |word: &str| word.trim_matches(|mark: char| ",.!;".contains(mark)).to_ascii_lowercase();
    let month = |at: usize| words.get(at).is_some_and(|word| month(&plain(word)).is_some());
    let day = |at: usize| {
        let number = words.get(at).map(|word| plain(word));
        number.is_some_and(|number| number.parse::<u32>().is_ok_and(|day| (1..=31).contains(&day)))
    };
    let hour = |at: usize| {
        let typed = words.get(at).map(|word| plain(word)).unwrap_or_default();
        let typed = typed.trim_end_matches("am").trim_end_matches("pm");
        let (hour, minutes) = typed.split_once(':').unwrap_or((typed, "00"));
        hour.parse::<u32>().is_ok_and(|hour| hour < 24) && minutes.parse::<u32>().is_ok_and(|part| part < 60)
    };
    const MESSAGES: [&str; 7] = ["message", "messages", "msg", "text", "ping", "brief", "remind"];
    const LEADS: [&str; 6] = ["wait", "its", "it's", "make", "that", "sorry"];
    (1..words.len()).filter(|at| plain(words[*at]) == "no").find_map(|no| {
        let idle = words[no + 1..].iter().take_while(|word| LEADS.contains(&plain(word).as_str())).count();
        let next = no + 1 + idle;
        if no >= 2 && month(no - 2) && day(no - 1) && month(next) && day(next + 1) {
            return Some((no - 2, next));
        }
        // "Message me at 7.. no 6:30", and not "picked at 7, no 12 figs".
        let at = no >= 2
            && (words[next..].first()?.contains(':')
                || words.iter().any(|word| MESSAGES.contains(&plain(word).as_str())))
            && plain(words[no - 2]) == "at"
            && hour(no - 1)
            && hour(next);
        at.then_some((no - 1, next))
    })
}

#[cfg(test)]
mod tests {
    use super::held;

    #[test]
    fn the_second_amount_holds() {
        for (told, meant) in [
            ("we got an inch no an inch and a half of rain", "we got an inch and a half of rain"),
            ("Osborn in a 10 gal no wait its 15 gal", "Osborn in a 15 gal"),
            ("rained an inch, no, an inch and a half", "rained an inch and a half"),
            ("watered big one a gallon no wait a gallon and a half", "watered big one a gallon and a half"),
            ("first frost nov 5, no nov 15", "first frost nov 15"),
            ("message me at 7.. no 6:30 in the morning", "message me at 6:30 in the morning"),
            ("picked at 7 no 12 figs yet", "picked at 7 no 12 figs yet"),
            ("watered 2 gal no rust", "watered 2 gal no rust"),
            ("half an inch no runoff", "half an inch no runoff"),
        ] {
            assert_eq!(held(told), meant, "{told}");
        }
    }
}
