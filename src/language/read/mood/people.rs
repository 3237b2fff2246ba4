//! Whom a clause is of, or for.

use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// "Picked 4 for my two neighbors": whom it was for.
pub(super) fn is_for(clause: &[Token], index: usize) -> bool {
    let between = clause[..index].iter().rev().take_while(|token| {
        token.number.is_some()
            || token.senses.has_any(&[Sense::Article, Sense::Mine])
            || token.is_any(words!("my our the next door old"))
    });
    let led = between.count();
    index > led
        && clause[index - led - 1].is("for")
        && clause[..index].iter().any(|token| token.senses.has(Sense::Picked))
}

/// Kin come and pick here; what they do to trees of their own is said with "her" or "his".
pub(super) fn is_kin(token: &Token) -> bool {
    token.is_any(words!("sister brother niece nephew uncle aunt auntie cousin grandma grandmother granny grandpa grandfather mom's"))
}

/// "Thanks neighbor" speaks to somebody, not of them.
pub(super) fn thanked(clause: &[Token], index: usize) -> bool {
    clause[..index].iter().any(|token| token.senses.has(Sense::Thanks))
}
