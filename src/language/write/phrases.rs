//! Lists, names and other people's words, as they stand in a sentence.

/// Longer than this a name is cut: a list of names is to fit on a phone.
const LONGEST_NAME: usize = 40;
/// Longer than this a person's own words are cut when said back.
const LONGEST_SAYING: usize = 80;
/// More names than this are counted, not listed.
const NAMES_SHOWN: usize = 6;

/// "Celeste", "Celeste and Wall", "Celeste, Wall and Corner", "Celeste, Wall, ... and 4 more".
pub(super) fn names<Name: AsRef<str>>(names: &[Name]) -> String {
    listed(names, "and")
}

/// "Celeste, Wall or Corner".
pub(super) fn either<Name: AsRef<str>>(names: &[Name]) -> String {
    listed(names, "or")
}

fn listed<Name: AsRef<str>>(names: &[Name], last_word: &str) -> String {
    let short = |name: &Name| cut(name.as_ref(), LONGEST_NAME);
    if names.len() > NAMES_SHOWN {
        let shown: Vec<String> = names[..NAMES_SHOWN - 1].iter().map(short).collect();
        return format!("{} {last_word} {} more", shown.join(", "), names.len() - shown.len());
    }
    match names {
        [] => String::new(),
        [one] => short(one),
        [first @ .., last] => {
            let first: Vec<String> = first.iter().map(short).collect();
            format!("{} {last_word} {}", first.join(", "), short(last))
        }
    }
}

pub(super) fn name(name: &str) -> String {
    cut(name, LONGEST_NAME)
}

/// The grower's words, not too many of them.
pub(super) fn saying(words: &str) -> String {
    cut(words, LONGEST_SAYING)
}

pub(super) fn quoted(words: &str) -> String {
    format!("\"{}\"", saying(words).replace('"', "'"))
}

pub(super) fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn cut(text: &str, longest: usize) -> String {
    let text = text.trim();
    if text.chars().count() <= longest {
        return text.to_owned();
    }
    let kept: String = text.chars().take(longest - 1).collect();
    format!("{}…", kept.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_aloud() {
        let rows: [(&[&str], &str); 5] = [
            (&[], ""),
            (&["Celeste"], "Celeste"),
            (&["Celeste", "Wall"], "Celeste and Wall"),
            (&["Celeste", "Wall", "Corner"], "Celeste, Wall and Corner"),
            (&["A", "B", "C", "D", "E", "F", "G", "H"], "A, B, C, D, E and 3 more"),
        ];
        for (list, want) in rows {
            assert_eq!(names(list), want);
        }
        assert_eq!(either(&["copper", "sulfur"]), "copper or sulfur");
    }

    #[test]
    fn long_words_are_cut_between_letters() {
        let long = "ä".repeat(300);
        assert_eq!(name(&long).chars().count(), LONGEST_NAME);
        assert_eq!(saying(&long).chars().count(), LONGEST_SAYING);
        assert_eq!(capitalised("about half"), "About half");
    }
}
