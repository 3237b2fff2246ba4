//! What was meant, told after what was said.

use super::has_verb_of_work;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// "I said Celeste but I meant Corner": what stands behind "I meant", where something was said before it.
pub(super) fn meant_behind(tokens: &[Token]) -> Option<&[Token]> {
    let at = tokens.windows(2).position(|pair| pair[0].is("i") && pair[1].is_any(words!("meant mean")))?;
    let said =
        tokens[..at].iter().any(|token| token.is_any(words!("said say wrote typed put entered told tapped")));
    let rest = &tokens[at + 2..];
    let rest = match rest {
        [to, verb, rest @ ..] if to.is("to") && verb.is_any(words!("say write type put enter tell")) => rest,
        [to, ..] if to.is("to") => return None,
        rest => rest,
    };
    (said && !rest.is_empty() && !has_verb_of_work(&tokens[..at])).then_some(rest)
}
