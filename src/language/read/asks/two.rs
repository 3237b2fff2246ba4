//! Two questions in one sentence.

use super::opens_question;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// "Does it need water, and how do the pots compare?": a question on each side of the joint.
pub(super) fn two_questions(
    tokens: &[Token],
    is_tree: impl Fn(usize) -> bool,
) -> Option<(&[Token], &[Token])> {
    const LEAST: usize = 3;
    let at = (LEAST..tokens.len().saturating_sub(2)).find(|at| {
        let next = &tokens[at + 1];
        tokens[*at].is_any(words!("and also"))
            && (next.is_any(words!("how what when which why where how's what's hows whats whens wheres"))
                || next.is_any(words!("is are does do should can may will did has have"))
                    && tokens.get(at + 2).is_some_and(|whom| {
                        next.is("does") || is_tree(at + 2) || whom.is_any(words!("pots ground")) || {
                            whom.is_any(words!(
                                "it i we they the my today tonight tomorrow there this that any"
                            ))
                        }
                    }))
    })?;
    let end = if tokens[at - 1].is(",") { at - 1 } else { at };
    opens_question(&tokens[at + 1..]).then(|| (&tokens[..end], &tokens[at + 1..]))
}
