//! What was meant, told after what was said.

use super::has_verb_of_work;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// "I said Celeste but I meant Corner": what stands behind "I meant", where something was said before it.
pub(super) fn meant_behind(tokens: &[Token]) -> Option<&[Token]> {
    // "I said Celeste but those nine were off Big One"
    let said_at = tokens
        .windows(2)
        .position(|pair| pair[0].is("i") && pair[1].is_any(words!("said wrote typed put entered")));
    if let Some(said) = said_at.filter(|said| *said <= 4)
        && let Some(but) = tokens[said..].iter().position(|token| token.is("but")).map(|but| said + but)
        && tokens[but..].iter().any(|token| token.is_any(words!("was were came is are")))
        && !tokens[..but].iter().any(|token| token.number.is_some())
    {
        let rest = &tokens[but + 1..];
        let told = rest.iter().position(|token| token.is_any(words!("off from was were"))).unwrap_or(0);
        let told =
            rest[told..].iter().take_while(|token| token.is_any(words!("off from was were on"))).count()
                + told;
        return (told < rest.len()).then(|| &rest[told..]);
    }
    // "I said Wall but meant Corner"
    if let Some(said) = said_at.filter(|said| *said <= 4)
        && let Some(meant) = tokens[said..]
            .windows(2)
            .position(|pair| pair[0].is_any(words!("but and ,")) && pair[1].is("meant"))
    {
        let rest = &tokens[said + meant + 2..];
        return (!rest.is_empty() && !rest[0].is("to")).then_some(rest);
    }
    let at = tokens.windows(2).position(|pair| pair[0].is("i") && pair[1].is_any(words!("meant mean")))?;
    let said =
        // "Not Celeste, I meant Big One"
        tokens[0].is("not") || tokens[..at].iter().any(|token| token.is_any(words!("said say wrote typed put entered told tapped")));
    let rest = &tokens[at + 2..];
    let rest = match rest {
        [to, verb, rest @ ..] if to.is("to") && verb.is_any(words!("say write type put enter tell")) => rest,
        [to, ..] if to.is("to") => return None,
        rest => rest,
    };
    (said && !rest.is_empty() && !has_verb_of_work(&tokens[..at])).then_some(rest)
}
