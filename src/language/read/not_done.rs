//! What is still to do, and what is said to somebody else.

use super::{lexicon, names, spelling, tokens, word_list};

pub(super) fn tells_of_work_done(text: &str) -> bool {
    use lexicon::Sense;
    tokens::tokens(text)
        .iter()
        .any(|token| token.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked, Sense::Finished]))
}

/// "To do:", "Jobs for tomorrow:", above a list of them.
pub(super) fn heads_plans(text: &str, names: &names::Names) -> bool {
    use word_list::words;
    const MOST_WORDS: usize = 6;
    if !text.ends_with(':') {
        return false;
    }
    let mut tokens = tokens::tokens(text);
    spelling::mend(&mut tokens, names);
    tokens.len() <= MOST_WORDS
        && (tokens
            .first()
            .is_some_and(|first| first.is_any(words!("todo tomorrow plan plans chores jobs tasks shopping")))
            || tokens
                .windows(2)
                .next()
                .is_some_and(|pair| pair[0].is("to") && pair[1].is_any(words!("do buy get"))))
}

/// "Ana where did you put the hose", "Bo, could you bring the hose back?": asked of them, and nothing of the garden.
pub(super) fn is_to_somebody(tokens: &[tokens::Token], names: &names::Names, text: &str) -> bool {
    use lexicon::Sense;
    use word_list::words;
    const OF_WORK: &[Sense] =
        &[Sense::Spray, Sense::Water, Sense::Watering, Sense::Pick, Sense::Copper, Sense::Sulfur, Sense::Oil];
    if !tokens.first().is_some_and(|first| names.is_person(&first.text)) {
        return false;
    }
    let head = |most: usize, list| tokens.iter().take(most).any(|token| token.is_any(list));
    let asked = tokens.get(1).is_some_and(|next| next.is_any(words!("where what when why how who")));
    // "Bo you coming by Saturday?"
    let coming = tokens.get(1).is_some_and(|you| you.is("you"))
        && tokens
            .get(2)
            .is_some_and(|verb| verb.is_any(words!("coming going around home free still there up done in")))
        && names.mentions(tokens, text).is_empty();
    let wanted = coming
        || head(5, words!("you u"))
            && head(4, words!("can could will would"))
            && !tokens.iter().any(|token| token.senses.has_any(OF_WORK))
            && names.mentions(tokens, text).is_empty();
    asked || wanted
}
