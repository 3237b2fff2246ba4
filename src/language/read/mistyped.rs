//! Slips of the thumb in the words a garden is set up in, and those the writer marked himself: "coper *copper evry 10
//! days", "call teh garden Plum Cornr, *Plum Corner".
//!
//! Mended before lists and tables are looked for, which know no slips. Names are never touched, unless their writer
//! puts them right with a star.

use std::borrow::Cow;

use crate::season::garden::Garden;

/// As it is mistyped, and the word; none of these is a word or a name of its own.
const SLIPS: [(&str, &str); 32] = [
    ("teh", "the"),
    ("hte", "the"),
    ("evry", "every"),
    ("evrey", "every"),
    ("eveyr", "every"),
    ("befor", "before"),
    ("befoer", "before"),
    ("harvst", "harvest"),
    ("havrest", "harvest"),
    ("dyas", "days"),
    ("dasy", "days"),
    ("gla", "gal"),
    ("galon", "gallon"),
    ("galons", "gallons"),
    ("gallos", "gallons"),
    ("galln", "gallon"),
    ("frist", "first"),
    ("lsat", "last"),
    ("forst", "frost"),
    ("plcae", "place"),
    ("mesage", "message"),
    ("mesages", "messages"),
    ("mornign", "morning"),
    ("mornig", "morning"),
    ("coper", "copper"),
    ("gorund", "ground"),
    ("groud", "ground"),
    ("grond", "ground"),
    ("garedn", "garden"),
    ("gardn", "garden"),
    ("ptos", "pots"),
    ("smal", "small"),
];

/// The text with its slips mended.
pub(super) fn mended(text: &str) -> Cow<'_, str> {
    // "A Celset, Celeste i mean, in a 15 gal pot"
    let meant = text.find(" i mean").filter(|at| text[..*at].contains(", ")).and_then(|at| {
        let word = text[..at].rfind(", ")?;
        let marked =
            format!("{}*{}{}", &text[..word + 2], &text[word + 2..at], &text[at + " i mean".len()..]);
        starred(&marked)
    });
    let starred = meant.or_else(|| if text.contains('*') { starred(text) } else { None });
    let text = starred.map_or(Cow::Borrowed(text), Cow::Owned);
    let of_word = |letter: char| letter.is_alphanumeric() || letter == '\'';
    let mut mended = String::new();
    let mut kept = 0;
    let mut from = 0;
    while let Some(start) = text[from..].find(of_word).map(|at| from + at) {
        let end = text[start..].find(|letter| !of_word(letter)).map_or(text.len(), |at| start + at);
        let word = &text[start..end];
        if let Some((_, meant)) = SLIPS.iter().find(|(slip, _)| slip.len() == word.len() && *slip == word) {
            mended.push_str(&text[kept..start]);
            mended.push_str(meant);
            kept = end;
        }
        from = end;
    }
    if kept == 0 {
        return text;
    }
    mended.push_str(&text[kept..]);
    mended.into()
}

/// "Whips in the ground now": Whip is.
pub(super) fn with_apostrophes<'t>(text: &'t str, garden: &Garden) -> Cow<'t, str> {
    const BEHIND: [&str; 12] = [
        "in", "out", "got", "been", "still", "dry", "bone", "soaked", "soggy", "dropping", "done", "finally",
    ];
    let lower = text.to_ascii_lowercase();
    let found = garden.trees.iter().find_map(|tree| {
        let plural = format!("{}s ", tree.name.to_ascii_lowercase());
        let at = lower.find(&plural)?;
        let end = at + plural.len() - 1;
        let starts = at == 0 || text[..at].ends_with(' ');
        let next = text[end..].strip_prefix(' ')?.split(|letter: char| !letter.is_alphabetic()).next()?;
        (starts && BEHIND.contains(&next.to_ascii_lowercase().as_str())).then_some(end - 1)
    });
    match found {
        Some(at) => format!("{}'{}", &text[..at], &text[at..]).into(),
        None => text.into(),
    }
}

/// "15 gla pot *gal", "Plum Cornr, *Plum Corner": the word behind the star stands for the one it is most like.
fn starred(text: &str) -> Option<String> {
    const LEAST_ALIKE: f64 = 0.7;
    let at = text.find('*').filter(|at| *at > 0 && text[..*at].ends_with([' ', '.', ',']))?;
    // "*emphasis*" has its second star.
    if text[at + 1..].contains('*') || !text[at + 1..].starts_with(char::is_alphabetic) {
        return None;
    }
    let behind = &text[at + 1..];
    let end = behind.find([',', '.', '!', '\n', ';']).unwrap_or(behind.len());
    let head = &text[..at];
    let starts: Vec<usize> = std::iter::once(0)
        .chain(head.match_indices(' ').map(|(space, _)| space + 1))
        .filter(|start| head[*start..].starts_with(char::is_alphanumeric))
        .collect();
    // As many words as were meant, the most first: "*copper evry 10 days" puts one right and goes on.
    let ends: Vec<usize> =
        behind[..end].match_indices(' ').map(|(space, _)| space).chain([end]).take(4).collect();
    ends.iter().rev().find_map(|end| {
        let meant = &behind[..*end];
        let count = meant.split(' ').count();
        let (from, to) = starts.iter().rev().find_map(|start| {
            let rest = &head[*start..];
            let length =
                rest.match_indices(' ').map(|(space, _)| space).chain([rest.len()]).nth(count - 1)?;
            let typed = rest[..length].trim_end_matches([',', '.', ' ']);
            let alike = strsim::normalized_damerau_levenshtein(&typed.to_lowercase(), &meant.to_lowercase());
            let near =
                alike >= LEAST_ALIKE || meant.len() <= 4 && strsim::damerau_levenshtein(typed, meant) == 1;
            near.then_some((*start, *start + typed.len()))
        })?;
        let told = format!("{}{meant}{}", &head[..from], &head[to..]);
        let told = told.trim_end_matches([' ', ',', '.']);
        Some(format!("{told}{}", &behind[*end..]))
    })
}

#[cfg(test)]
mod tests {
    use super::mended;

    #[test]
    fn slips_are_mended() {
        for (typed, meant) in [
            (
                "coper *copper evry 10 days and 1 day befor harvst",
                "copper every 10 days and 1 day before harvest",
            ),
            ("call teh garden Plum Cornr, *Plum Corner", "call the garden Plum Corner"),
            ("i got a Celeste in a 15 gla pot *gal", "i got a Celeste in a 15 gal pot"),
            ("helo.. *hello", "hello"),
            ("i got a Celset, Celeste i mean, in a 15 gal pot", "i got a Celeste, in a 15 gal pot"),
            ("watered *only* Wall", "watered *only* Wall"),
            ("* Celeste, 15 gal", "* Celeste, 15 gal"),
            ("picked 5 *figs", "picked 5 *figs"),
        ] {
            assert_eq!(mended(typed), meant, "{typed}");
        }
    }
}
