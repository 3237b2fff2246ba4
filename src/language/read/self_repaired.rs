//! An amount taken back in the same breath for another of its kind: "an inch no an inch and a half of rain", "in a 10 gal
//! no wait its 15 gal".
//!
//! The first is left out before anything else is read; what is taken back by name or day is `repair`'s.

use std::borrow::Cow;

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
    match found {
        Some((from, to)) => [&words[..from], &words[to..]].concat().join(" ").into(),
        None => text.into(),
    }
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
            ("watered 2 gal no rust", "watered 2 gal no rust"),
            ("half an inch no runoff", "half an inch no runoff"),
        ] {
            assert_eq!(held(told), meant, "{told}");
        }
    }
}
