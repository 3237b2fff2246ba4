//! Towns told with their state or province, in whatever sentence: "fresno ca btw thats where the trees at", "okay we are
//! down in Waycross Georgia". Which of several towns is meant, the weather interface's geocoding offers for a choice.

use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};

/// States of the United States, provinces of Canada and states of Australia, as one word or the last of two.
const REGIONS: WordList = words!(
    "alabama alaska arizona arkansas california colorado connecticut delaware florida georgia hawaii idaho illinois indiana iowa kansas kentucky louisiana maine maryland massachusetts michigan minnesota mississippi missouri montana nebraska nevada ohio oklahoma oregon pennsylvania tennessee texas utah vermont virginia washington wisconsin wyoming ontario quebec alberta manitoba saskatchewan queensland victoria tasmania"
);
const BEHIND_NEW: WordList = words!("jersey jersy york mexico hampshire");
const BEHIND_SIDE: WordList = words!("carolina dakota virginia australia");
const CODES: WordList = words!(
    "al ak az ar ca co ct de fl ga hi id il in ia ks ky la me md ma mi mn ms mo mt ne nv nh nj nm ny nc nd oh ok or pa ri sc sd tn tx ut vt va wa wv wi wy bc on qc nsw uk"
);

/// The town and its state as they were typed.
pub(super) fn named_with_region<'t>(text: &'t str, told: &[Token]) -> Option<&'t str> {
    const MOST_BEHIND: usize = 9;
    const MOST_TOWN: usize = 3;
    let other = told.iter().any(|token| {
        token.number.is_some()
            || token.senses.has_any(&[
                Sense::Someone,
                Sense::Rust,
                Sense::Sprayed,
                Sense::Watered,
                Sense::Picked,
                Sense::Copper,
                Sense::Frost,
                Sense::Pot,
            ])
            || token.is_any(words!("from moved visiting trip sister brother used drove driving going"))
    });
    if other || text.contains('?') {
        return None;
    }
    let typed = |token: &Token| text.get(token.span.clone()).unwrap_or_default();
    let capital = |token: &Token| typed(token).starts_with(char::is_uppercase);
    let (first_of_region, last) = (1..told.len()).find_map(|at| {
        let token = &told[at];
        let two = token.is_any(BEHIND_NEW) && told[at - 1].is("new")
            || token.is_any(BEHIND_SIDE) && told[at - 1].is_any(words!("north south west western"))
            || token.is("island") && told[at - 1].is("rhode");
        let code = token.is_any(CODES)
            && typed(token).len() <= 3
            && (typed(token).chars().all(char::is_uppercase)
                || token.is_any(words!("nj ny tx ca nc sc tn ky ga fl md va pa")));
        if two && at >= 2 { Some((at - 1, at)) } else { (token.is_any(REGIONS) || code).then_some((at, at)) }
    })?;
    // "Alma, Texas Everbearing": the state begins a name of its own.
    if told.get(last + 1).is_some_and(|next| next.is_word() && capital(next)) {
        return None;
    }
    let behind = told[last + 1..].iter().filter(|token| !token.is_mark()).count();
    let led = |token: &Token| token.is_any(words!("in near outside at around is by of"));
    let end = first_of_region - usize::from(told[first_of_region - 1].is(","));
    let mut start = end;
    while start > 0
        && end - start < MOST_TOWN
        && told[start - 1].is_word()
        && !led(&told[start - 1])
        && !told[start - 1].is_any(words!(
            "well ok okay so hi hey we're im i'm were here just down up over the my our and we're are live"
        ))
    {
        start -= 1;
    }
    if start == end || behind > MOST_BEHIND {
        return None;
    }
    let town = &told[start..end];
    let leads = start > 0 && led(&told[start - 1]);
    let named =
        town.iter().all(capital) || leads || start == 0 && town.iter().all(|token| token.senses.is_empty());
    // "Out in the country in Georgia"
    let plain = town.iter().all(|token| {
        !token.is_any(words!("a the country garden yard middle town city house place tree trees fig figs"))
    });
    (named && plain).then(|| text.get(told[start].span.start..told[last].span.end)).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::read::tokens::tokens;

    #[test]
    fn towns_are_found_with_their_states() {
        for (text, want) in [
            ("fresno ca btw thats where the trees at", Some("fresno ca")),
            ("okay we are down in Waycross Georgia", Some("Waycross Georgia")),
            ("Toms River NJ", Some("Toms River NJ")),
            ("New Harwick, Massachusetts is my place", Some("New Harwick, Massachusetts")),
            ("ok so were in pikeville kentucky", Some("pikeville kentucky")),
            ("im in Pine Hollow new jersy", Some("Pine Hollow new jersy")),
            ("my sister in Macon Georgia has figs", None),
            ("we moved from Ohio", None),
            ("Celeste, Alma, Texas Everbearing", None),
            ("im out of cookeville tennessee", Some("cookeville tennessee")),
            ("me and my oil or water", None),
        ] {
            assert_eq!(named_with_region(text, &tokens(text)), want, "{text}");
        }
    }
}
