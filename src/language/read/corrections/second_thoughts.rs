//! Second thoughts with a reason or more work behind them: "wait no not Eave, ran out of water", "wait no 3 gal, the
//! bucket isn't full size", "no, that was Corner, and watered Whip".

use super::left_out;
use crate::language::read::Speech;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::Trees;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::{Report, What};
use crate::season::request::{Correction, Request};

/// "Wait no not Eave, ran out of water": the trees told of, without her.
pub(super) fn left_out_for_a_reason(speech: &Speech) -> Option<Request> {
    const MOST_WORDS: usize = 16;
    const LEADS: usize = 5;
    let tokens = speech.tokens;
    let not = tokens.iter().take(LEADS).position(|token| token.is("not"))?;
    let led = tokens[..not].iter().all(|token| {
        token.is_mark()
            || token.is_any(words!("wait no nope sorry oops whoops actually but oh ah and hang on"))
    });
    let end = not + 1 + tokens[not + 1..].iter().position(opens_a_reason)?;
    let named = speech.part(&tokens[not + 1..end]);
    let covered = |index: usize| named.mentions.iter().any(|mention| mention.range.contains(&index));
    let only = named.tokens.iter().enumerate().all(|(index, token)| {
        covered(index)
            || token.is_mark()
            || token.senses.has(Sense::Article)
            || token.is_any(words!("and or nor on"))
    });
    let trees =
        named.mentions.iter().fold(Trees::default(), |trees, mention| trees.together(mention.trees.clone()));
    let reason = is_only_a_reason(&speech.part(&tokens[end..]));
    if !led || !only || !reason || trees.is_empty() || tokens.len() > MOST_WORDS {
        return None;
    }
    left_out(&named, &trees, speech.context.last).map(|trees| Request::Correct(Correction::Trees(trees)))
}

/// "3 gal, the bucket isn't full size": what stands before words that only say why.
pub(super) fn before_reason<'t>(speech: &Speech, tokens: &'t [Token]) -> &'t [Token] {
    let end = (1..tokens.len())
        .filter(|at| opens_a_reason(&tokens[*at]))
        .find(|at| is_only_a_reason(&speech.part(&tokens[*at..])));
    end.map_or(tokens, |end| &tokens[..end])
}

/// "No", "wait", "oops": what was said before does not stand.
pub(super) fn takes_back(tokens: &[Token]) -> bool {
    tokens.first().is_some_and(|first| {
        first.is_any(words!("no nope nah naw wait sorry oops whoops correction dang darn shoot"))
    })
}

fn opens_a_reason(token: &Token) -> bool {
    token.is_any(words!(", ; - ( because since cause cuz coz"))
}

/// No tree, figure, spray, moment or work: nothing of it is for the journal.
fn is_only_a_reason(speech: &Speech) -> bool {
    speech.mentions.is_empty()
        && !speech.tokens.iter().any(|token| {
            token.number.is_some()
                || super::is_verb(token.senses)
                || token.senses.has_any(&[
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                    Sense::Time,
                    Sense::Leaf,
                    Sense::Drop,
                    Sense::Dry,
                    Sense::Wet,
                    Sense::Moist,
                    Sense::Clean,
                    Sense::Ripe,
                    Sense::Ripening,
                    Sense::Swell,
                    Sense::Frost,
                    Sense::Rain,
                    Sense::Removed,
                    Sense::Pots,
                    Sense::Ground,
                    Sense::But,
                    Sense::Rest,
                ])
        })
}

/// "No, that was Corner, | and watered Whip because it drooped": where the correction ends and the work begins, if
/// the words take something back first and tell more work behind.
pub(in crate::language::read) fn and_more(tokens: &[Token]) -> Option<(usize, usize)> {
    const LEAST: usize = 2;
    const LONGEST: usize = 10;
    let first = tokens.first()?;
    let told_anew = tokens.get(1).is_some_and(|next| {
        first.is_any(words!("that those")) && next.is_any(words!("was were"))
            || first.is("make") && next.is_any(words!("that it"))
            || first.is("i") && next.is("meant")
    });
    // "It was 11, I picked 2 more off Wall": the sum of both, not one of them.
    let more = tokens.iter().any(|token| token.is_any(words!("more another extra others")));
    if !(takes_back(tokens) || told_anew) || more {
        return None;
    }
    (LEAST..tokens.len().min(LONGEST)).find_map(|end| {
        tokens[end].is_any(words!(", ; and also then plus")).then_some(())?;
        let lead =
            tokens[end..].iter().take_while(|token| token.is_any(words!(", ; and also then plus i we")));
        let start = end + lead.count();
        let work = tokens.get(start)?;
        // "Make that 8, plus 11 off Wall"
        let counted = work.number.is_some()
            && tokens[end..start].iter().any(|token| token.is_any(words!("plus also")))
            && tokens.get(start + 1).is_some_and(|off| off.is_any(words!("off from")));
        let told = counted || work.senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked]);
        // "No, watered and sprayed Corner" is one telling.
        let before = tokens[end - 1].senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked]);
        (told && !before && tokens.len() > start + 1).then_some((end, start))
    })
}

/// "My error", "sorry, my mistake": behind a correction it takes nothing more back.
pub(in crate::language::read) fn only_owns_up(tokens: &[Token]) -> bool {
    tokens.iter().all(|token| {
        token.is_mark()
            || token.is_any(words!(
                "my error mistake bad fault sorry oops whoops wrong i was a the typo about that was dumb silly me so apologies"
            ))
    })
}

/// Words of a vessel or a depth that tell nothing of themselves: "it was the sulfur jug", "it's moist further down".
pub(super) fn goes_with_the_told(speech: &Speech, token: &Token) -> bool {
    let report = match speech.context.last.map(|last| &last.what) {
        Some(What::Report { report, .. }) => report,
        _ => return false,
    };
    match report {
        Report::Sprayed { .. } => token.is_any(words!("jug bottle bag box stuff can each apiece")),
        Report::Watered { .. } => token.is_any(words!("each apiece")),
        Report::Moisture { .. } => token.is_any(words!("further deeper down underneath beneath")),
        _ => false,
    }
}
