//! A note asked for around what is to be noted: "wasps are in the figs on Wall, just want that written down", "write this
//! down before I forget it. Wall has a dead branch".
//!
//! What reports something is a report, whoever asks for it to be written down.

/// Behind what is to be kept.
const BEHIND: [&str; 22] = [
    "keep a record of that",
    "keep a note of that",
    "keep that for me as a note",
    "keep that as a note",
    "keep that on record",
    "make a note of that",
    "make a note of it",
    "take a note of that",
    "remember that for me",
    "remember that please",
    "just want that written down",
    "want that written down",
    "i want that written down",
    "write that down",
    "write that down for me",
    "write that down please",
    "put that in the notes",
    "put that in the book",
    "note that down",
    "jot that down",
    "so note that",
    "log that as a note",
];

/// Before it, up to the end of the sentence.
const BEFORE: [&str; 12] = [
    "write this down",
    "please write this down",
    "keep this somewhere",
    "please keep this somewhere",
    "keep this for me",
    "make a note of this",
    "please make a note of this",
    "note this down",
    "jot this down",
    "please jot this down",
    "put this in the book",
    "remember this for me",
];

/// What is to be kept, if the message asks for it so.
pub(super) fn told(text: &str) -> Option<&str> {
    const LEAST: usize = 8;
    if text.contains(['?', '\n']) || !text.is_ascii() && text.to_ascii_lowercase().len() != text.len() {
        return None;
    }
    let lower = text.to_ascii_lowercase();
    let bare = lower.trim_end_matches(['.', '!', ' ']);
    let bare = bare.strip_suffix(" please").unwrap_or(bare);
    let told = BEHIND.iter().find_map(|tail| {
        let head = bare.strip_suffix(tail)?;
        // Apart from it: behind a mark, "please" or "and".
        let head = head.trim_end();
        let head = ["please", "and", "just", "so"].iter().fold(head, |head, word| {
            head.strip_suffix(word)
                .filter(|rest| rest.ends_with([' ', '.', ',']) || rest.is_empty())
                .unwrap_or(head)
                .trim_end()
        });
        let head = head.trim_end_matches([',', '.', ';', '-', ' ']);
        (head.len() >= LEAST).then(|| &text[..head.len()])
    });
    if told.is_some() {
        return told;
    }
    BEFORE.iter().find_map(|lead| {
        let rest = lower.strip_prefix(lead)?;
        let at = [". ", ": ", "! "].iter().filter_map(|end| rest.find(end)).min()?;
        let told = text.get(lead.len() + at + 2..)?.trim();
        (told.len() >= LEAST).then_some(told)
    })
}

#[cfg(test)]
mod tests {
    use super::told;

    #[test]
    fn what_is_noted_stands_around_the_asking() {
        for (text, want) in [
            (
                "wasps are in the figs on Wall, just want that written down",
                Some("wasps are in the figs on Wall"),
            ),
            ("bird got 4 figs off the corner.. remember that for me", Some("bird got 4 figs off the corner")),
            ("A bird pecked Big One. Please keep a note of that.", Some("A bird pecked Big One")),
            (
                "Write this down before I forget it, really. Wall has a dead branch.",
                Some("Wall has a dead branch."),
            ),
            ("picked 4 off Wall", None),
            ("write that down", None),
        ] {
            assert_eq!(told(text), want, "{text}");
        }
    }
}
