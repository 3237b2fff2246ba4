//! Trees told of as not there yet: "Eave figs swelling up, Whip still nothing", "dragged Whip in, Celeste stays put".
//!
//! A stage that is not reached, and a pot that was not carried, are no report; left in, their trees would be taken for
//! more of those that are.

use std::borrow::Cow;

use super::lexicon::Sense;
use super::names::Names;
use super::tokens::{Token, tokens};
use super::word_list::words;

/// The text without the clause that tells of the others.
pub(super) fn without<'t>(text: &'t str, names: &Names) -> Cow<'t, str> {
    const JOINTS: [&str; 6] = [", ", "; ", " but ", " while ", " - ", ". "];
    const MOST_WORDS: usize = 12;
    if text.contains('?') {
        return text.into();
    }
    let lower = text.to_ascii_lowercase();
    if !["get to", " yet", "nothing", " stay", " left ", "leaving "].iter().any(|cue| lower.contains(cue)) {
        return text.into();
    }
    for joint in JOINTS {
        let Some(at) = text.rfind(joint) else { continue };
        let behind = &text[at + joint.len()..];
        let end = [". ", "! ", "\n"].iter().filter_map(|end| behind.find(end)).min().unwrap_or(behind.len());
        let tail = behind[..end].trim_end_matches(['.', '!', ' ']);
        let told = tokens(tail);
        let mentions = names.mentions(&told, tail);
        let named = |index: usize| mentions.iter().any(|mention| mention.range.contains(&index));
        let head = tokens(&text[..at]);
        let unseen = tail.to_ascii_lowercase().ends_with("get to")
            && told.iter().any(|token| token.senses.has(Sense::Negation));
        let of = if unseen {
            Some(Of::Looks)
        } else {
            reported(&head).or_else(|| counted(&head, &text[..at], names))
        };
        let Some(of) = of else { continue };
        let accounted = told.len() <= MOST_WORDS
            && !mentions.is_empty()
            && (0..told.len()).all(|index| {
                named(index)
                    || (is_small(&told[index])
                        || unseen && told[index].is_any(words!("i we didn't didnt did get")))
            });
        if accounted && denies(&told, of) {
            let marks = &text[at + joint.len() + tail.len()..];
            // "Put the pots in the shed, left Big One out": one of those.
            let grouped = of == Of::Moves
                && names.mentions(&head, &text[..at]).iter().any(|mention| !mention.trees.is_one());
            if grouped && let (Some(first), Some(last)) = (mentions.first(), mentions.last()) {
                let left = &tail[told[first.range.start].span.start..told[last.range.end - 1].span.end];
                return format!("{} except {left}{marks}", &text[..at]).into();
            }
            return format!("{}{marks}", &text[..at]).into();
        }
    }
    text.into()
}

#[derive(Clone, Copy, PartialEq)]
enum Of {
    Stages,
    Moves,
    Counts,
    /// "The Corner I did not get to"
    Looks,
}

/// What the first clause reports, if it is of those that a tree can be left out of so.
fn reported(head: &[Token]) -> Option<Of> {
    let has = |senses: &[Sense]| head.iter().any(|token| token.senses.has_any(senses));
    if has(&[
        Sense::Rust,
        Sense::Spots,
        Sense::Sprayed,
        Sense::Watered,
        Sense::Picked,
        Sense::Frost,
        Sense::Rain,
    ]) {
        return None;
    }
    let carried = head.iter().any(|token| {
        token.is_any(words!(
            "moved brought took carried rolled hauled dragged wheeled lugged schlepped pulled put wrestled heaved"
        ))
    }) && head.iter().any(|token| token.is_any(words!("in inside indoors out outside outdoors garage shed")));
    if carried {
        return Some(Of::Moves);
    }
    let leafing =
        has(&[Sense::Leaf]) && head.iter().any(|token| token.is_any(words!("out opening emerging")));
    if leafing {
        return Some(Of::Stages);
    }
    has(&[Sense::Ripening, Sense::Ripe, Sense::Swell, Sense::LeafOut, Sense::Set, Sense::Dormant])
        .then_some(Of::Stages)
}

/// "Wall 4, Corner 3": names and their figures alone.
fn counted(head: &[Token], text: &str, names: &Names) -> Option<Of> {
    let mentions = names.mentions(head, text);
    let named = |at: usize| mentions.iter().any(|mention| mention.range.contains(&at));
    let figures = head.iter().filter(|token| token.number.is_some()).count();
    let only = (0..head.len()).all(|at| named(at) || head[at].number.is_some() || head[at].is_mark());
    (only && figures > 1 && mentions.len() == figures).then_some(Of::Counts)
}

fn denies(told: &[Token], of: Of) -> bool {
    let any = |token: &Token| match of {
        Of::Stages | Of::Counts => token.is_any(words!("nothing yet none")),
        Of::Looks => token.is("get"),
        Of::Moves => token.is_any(words!("stay stays stayed staying left leaving")),
    };
    told.iter().any(any)
}

fn is_small(token: &Token) -> bool {
    token.is_mark()
        || token.senses.has(Sense::Article)
        || token.is_any(words!(
            "nothing not yet still none no on for from with at is are isn't aren't ain't hasn't haven't has have to and & but the though tho stay stays stayed staying put out outside where it they left leaving them there doing showing started as"
        ))
}

#[cfg(test)]
mod tests {
    use super::without;
    use crate::language::read::names::Names;
    use crate::season::garden::{Garden, Stand, Tree};

    #[test]
    fn others_are_left_out() {
        let mut garden = Garden::new("");
        garden.trees = ["Eave", "Whip", "Celeste"].map(|name| Tree::new(name, Stand::pot(None))).to_vec();
        let names = Names::of(&garden);
        for (told, kept) in [
            ("eave figs swelling up, whip still nothing", "eave figs swelling up"),
            ("Dragged Whip in, Celeste stays put.", "Dragged Whip in."),
            ("rust on Eave, Whip nothing", "rust on Eave, Whip nothing"),
            ("Eave ripening, Whip too", "Eave ripening, Whip too"),
            ("Eave ripening, nothing to do", "Eave ripening, nothing to do"),
        ] {
            assert_eq!(without(told, &names), kept, "{told}");
        }
    }
}
