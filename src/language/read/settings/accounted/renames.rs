//! A tree just told, called otherwise: "oops, that should be spelled Celeste", "it is not a Desert King, it is a
//! Lattarula", "the tree I entered as Chimney should be listed as Osborn Prolific".

use super::clause::Listed;
use super::marks;
use crate::language::read::Context;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::What;
use crate::season::request::{Reading, Request, Setting};

pub(super) fn read(text: &str, told: &[Token], context: &Context) -> Option<Reading> {
    const MOST_WORDS: usize = 24;
    let last = match &context.just_said()?.what {
        What::Setting(Setting::Tree(last)) => Some(last.name.as_str()),
        _ => None,
    };
    let any = |list| told.iter().any(|token| token.is_any(list));
    let slip = any(words!(
        "spelled spelling spelt mistake wrong oops sorry apostrophe listed entered change typo misspelled autocorrect correction renamed rename should ought wait nah bad wrongly actually meant voted isnt isn't misread emendation apologies rename instead"
    )) || told
        .windows(2)
        .any(|pair| pair[0].is_any(words!("now its it's")) && pair[1].is_any(words!("called named")))
        || told.windows(2).any(|pair| pair[0].is("not") && pair[1].is_any(words!("a an the")))
        || told.first().is_some_and(|first| first.is_any(words!("no nope"))) && any(words!("not"));
    if let Some(renamed) = last.and_then(|last| newly_called(text, told, last)) {
        return Some(renamed);
    }
    let ordered = !text.contains('?') || any(words!("can could change please"));
    // "Rename Smith to Smith A" is an order, which others read.
    let order = told.first().is_some_and(|first| first.is_any(words!("rename call scratch")));
    if !slip || !ordered || order || told.len() > MOST_WORDS {
        return None;
    }
    let plain = text.replace(['?', '!'], "");
    let words = crate::language::read::tokens::tokens(&plain);
    let clauses = marks::clauses(&plain, &words, Listed::Alone, context)?;
    if clauses.iter().any(|clause| clause.stand.is_some()) {
        return None;
    }
    let names = clauses.iter().flat_map(|clause| &clause.names);
    let is_known = |name: &str| context.garden.tree(name).map(|tree| tree.name.clone());
    let (mut from, mut to): (Option<String>, Option<String>) = (None, None);
    for name in names {
        match is_known(name) {
            // "Peters Honey", and "Peter's Honey" with its capitals as they were
            Some(known) => from = Some(known),
            None if to.as_ref().is_none_or(|to| to == name) => to = Some(name.clone()),
            None => return None,
        }
    }
    let from = from.or_else(|| last.map(str::to_owned))?;
    let renamed = Setting::RenameTree { from, to: to? };
    Some(Reading { requests: vec![Request::Set(renamed)], ..Reading::default() })
}

/// "Gerald is a dumb name, call him Big G": what it is called from now on stands behind.
fn newly_called(text: &str, told: &[Token], last: &str) -> Option<Reading> {
    const MOST_WORDS: usize = 3;
    let at = told
        .windows(2)
        .rposition(|pair| pair[0].is("call") && pair[1].is_any(words!("him her it them that")))?;
    let lead = &told[..at];
    let at = at + usize::from(told.get(at + 2).is_some_and(|one| told[at + 1].is("that") && one.is("one")));
    let anew = at > 0
        && lead
            .iter()
            .any(|token| token.is_any(words!("name instead rather no not wrong wait actually lol")))
        // "Can we just call her Vivi", behind a tree with a name of its own
        || lead.iter().all(|token| {
            token.is_mark()
                || token.is_any(words!(
                    "can could may we i just let's lets let us please you ok okay and but so gonna wanna want to we'll i'll will also oh then"
                ))
        });
    let name = text.get(told.get(at + 2)?.span.start..)?;
    let end =
        [", ", " lol", " instead", " from now", " please"].iter().filter_map(|tail| name.find(tail)).min();
    let to = super::super::clean(&name[..end.unwrap_or(name.len())]);
    let fits =
        (1..=MOST_WORDS).contains(&to.split_whitespace().count()) && !super::super::tables::is_no_name(&to);
    let asked =
        text.contains('?') && !told.first().is_some_and(|first| first.is_any(words!("can could may")));
    (anew && fits && !asked).then(|| {
        let renamed = Setting::RenameTree { from: last.to_owned(), to };
        Reading { requests: vec![Request::Set(renamed)], ..Reading::default() }
    })
}
