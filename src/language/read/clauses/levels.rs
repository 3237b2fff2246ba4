//! Two levels of one tree told apart: "rust on the lower leaves of Wall and the top is clean".

use std::borrow::Cow;

const LEVELS: [(&str, &str); 7] = [
    ("top", "upper"),
    ("tops", "upper"),
    ("upper", "upper"),
    ("middle", "middle"),
    ("bottom", "lower"),
    ("lower", "lower"),
    ("bottoms", "lower"),
];

/// The clean level as a clause of its own, where rust was told of another before it.
pub(in crate::language::read) fn with_levels_apart(text: &str) -> Cow<'_, str> {
    let clean = ["clean", "none ", "nothing "].iter().any(|word| text.contains(word));
    if !clean || !text.contains("rust") && !text.contains("Rust") {
        return text.into();
    }
    let words: Vec<&str> = text.split(' ').collect();
    let plain = |at: usize| {
        words
            .get(at)
            .map_or(String::new(), |word| word.trim_matches([',', '.', '!', ';']).to_ascii_lowercase())
    };
    let is = |at: usize, any: &[&str]| any.contains(&plain(at).as_str());
    let found = (1..words.len()).find_map(|joint| {
        let rust_before = words[..joint].iter().any(|word| word.to_ascii_lowercase().starts_with("rust"));
        if !rust_before || !(is(joint, &["and", "but"]) || words[joint - 1].ends_with(',')) {
            return None;
        }
        let mut at = joint + usize::from(is(joint, &["and", "but"]));
        // "None on top"
        let none = is(at, &["none", "nothing", "clean"]) && is(at + 1, &["on", "up", "at", "in"]);
        at += 2 * usize::from(none);
        at += usize::from(is(at, &["the"]));
        let level = LEVELS.iter().find(|(word, _)| plain(at) == *word)?.1;
        if none {
            return Some((joint, at, level));
        }
        at += 1;
        at += usize::from(is(at, &["leaves", "ones", "part", "half", "growth"]));
        at += usize::from(is(at, &["is", "are", "looks", "look", "still", "was", "were"]));
        at += usize::from(is(at, &["all", "still", "quite", "perfectly"]));
        is(at, &["clean"]).then_some((joint, at, level))
    });
    let Some((joint, at, level)) = found else { return text.into() };
    let mark = words[at].trim_start_matches(|letter: char| letter.is_alphabetic());
    let head = words[..joint].join(" ");
    let tail: String = words[at + 1..].iter().map(|word| format!(" {word}")).collect();
    // "Clean as a whistle"
    let tail = tail.strip_prefix(" as a whistle").map_or(tail.clone(), str::to_owned);
    format!("{}, {level} leaves clean{mark}{tail}", head.trim_end_matches(',')).into()
}

#[cfg(test)]
mod tests {
    use super::with_levels_apart;

    #[test]
    fn the_clean_level_stands_apart() {
        for (told, apart) in [
            (
                "rust on the lower leaves of Wall, and the top is clean as a whistle. Spray?",
                "rust on the lower leaves of Wall, upper leaves clean. Spray?",
            ),
            ("some rust low on Wall, the upper ones are clean", "some rust low on Wall, upper leaves clean"),
            (
                "a lot of rust on the bottom of Wall, none on top",
                "a lot of rust on the bottom of Wall, upper leaves clean",
            ),
            ("rust on Wall, Corner is clean", "rust on Wall, Corner is clean"),
            ("the top is clean, no rust", "the top is clean, no rust"),
        ] {
            assert_eq!(with_levels_apart(told), apart, "{told}");
        }
    }
}
