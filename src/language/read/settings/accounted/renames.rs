//! A tree just told, called otherwise: "oops, that should be spelled Celeste", "it is not a Desert King, it is a
//! Lattarula", "the tree I entered as Chimney should be listed as Osborn Prolific".

use super::marks;
use crate::language::read::Context;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::What;
use crate::season::request::{Reading, Request, Setting};

pub(super) fn read(text: &str, told: &[Token], context: &Context) -> Option<Reading> {
    const MOST_WORDS: usize = 24;
    let What::Setting(Setting::Tree(last)) = &context.just_said()?.what else { return None };
    let any = |list| told.iter().any(|token| token.is_any(list));
    let slip = any(words!(
        "spelled spelling spelt mistake wrong oops sorry apostrophe listed entered change typo misspelled autocorrect correction renamed rename should ought wait nah bad wrongly actually meant voted isnt isn't"
    )) || told
        .windows(2)
        .any(|pair| pair[0].is_any(words!("now its it's")) && pair[1].is_any(words!("called named")))
        || told.windows(2).any(|pair| pair[0].is("not") && pair[1].is_any(words!("a an the")));
    let ordered = !text.contains('?') || any(words!("can could change please"));
    if !slip || !ordered || told.len() > MOST_WORDS {
        return None;
    }
    let plain = text.replace(['?', '!'], "");
    let words = crate::language::read::tokens::tokens(&plain);
    let clauses = marks::clauses(&plain, &words, context)?;
    if clauses.iter().any(|clause| clause.stand.is_some()) {
        return None;
    }
    let names = clauses.iter().flat_map(|clause| &clause.names);
    let is_known = |name: &str| {
        context
            .garden
            .trees
            .iter()
            .find(|tree| tree.name.eq_ignore_ascii_case(name))
            .map(|tree| tree.name.clone())
    };
    let (mut from, mut to): (Option<String>, Option<String>) = (None, None);
    for name in names {
        match is_known(name) {
            // "Peters Honey", and "Peter's Honey" with its capitals as they were
            Some(known) => from = Some(known),
            None if to.as_ref().is_none_or(|to| to == name) => to = Some(name.clone()),
            None => return None,
        }
    }
    let from = from.unwrap_or_else(|| last.name.clone());
    let renamed = Setting::RenameTree { from, to: to? };
    Some(Reading { requests: vec![Request::Set(renamed)], ..Reading::default() })
}
