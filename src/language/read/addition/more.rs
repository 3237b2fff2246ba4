//! More of the report just made: "8 more just now", "lots", "all of them".

use super::{is_small, just_reported};
use crate::language::read::amounts::{Amount, amounts, bare_depth};
use crate::language::read::corrections::told_of_all;
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::moment;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::language::read::{Speech, now};
use crate::season::garden::Garden;
use crate::season::journal::{Report, RustAmount, RustWords, Timing};
use crate::season::request::{Correction, Record, Request, Selection, When};
use crate::season::selection::selected;

/// "Picked 8 more just now", "another 3": of the trees picked last.
pub(super) fn figs(speech: &Speech) -> Option<Record> {
    let (trees, report, _) = just_reported(speech.context)?;
    let tokens = speech.tokens;
    let more = tokens.iter().any(|token| token.is_any(words!("more another extra additional")));
    // "7 more Celeste"
    let named = match speech.mentions.as_slice() {
        [] => None,
        [mention] if mention.trees.is_one() && speech.names.unsure(&mention.trees).is_none() => Some(mention),
        _ => return None,
    };
    if !matches!(report, Report::Picked { .. }) || !more {
        return None;
    }
    // Of two trees picked last, either could have them.
    if named.is_none() && (trees.len() != 1 || speech.context.last_message.len() > 1) {
        return None;
    }
    let range = named.map_or(0..0, |mention| mention.range.clone());
    let told = moment(tokens, &range.clone().collect::<Vec<_>>(), now(speech.context));
    let mut taken = told.used.clone();
    taken.extend(range.clone());
    let found = amounts(tokens, &taken, speech.context.garden.units);
    let whole = |count: f64| count >= 1.0 && count.fract() == 0.0 && count <= MOST;
    let (count, mass) = match found.iter().map(|measured| measured.amount).collect::<Vec<_>>().as_slice() {
        [Amount::Count(count)] if whole(*count) => (Some(*count as u32), None),
        // "7 more, 233 g"
        [Amount::Count(count), Amount::Mass(mass)] if whole(*count) => (Some(*count as u32), Some(*mass)),
        [Amount::Mass(mass)] => (None, Some(*mass)),
        _ => return None,
    };
    let only = tokens.iter().enumerate().all(|(index, token)| {
        found.iter().any(|measured| (measured.from..measured.to).contains(&index))
            || taken.contains(&index)
            || is_small(token)
            || token.senses.has_any(&[Sense::Picked, Sense::Fig, Sense::Took, Sense::Ripe])
            || token.is_any(words!("more another extra additional off from it then i we i've we've just now and plus then got found few ones from the same tree one again"))
    });
    let chosen = match named {
        Some(mention) => speech.names.selection(&mention.trees, &[])?,
        None => Selection::Named(trees.to_vec()),
    };
    (only && !told.impossible).then(|| Record {
        trees: chosen,
        when: told.when(now(speech.context)),
        report: Report::Picked { count, mass },
    })
}

/// "And Corner 3", "Wall: 11", "same off Big One", behind "picked 12 off Wall".
pub(super) fn figs_of_another(speech: &Speech) -> Option<Record> {
    let (trees, report, entry) = just_reported(speech.context)?;
    let [mention] = speech.mentions.as_slice() else { return None };
    let first = speech.tokens.first()?;
    let leads = first.is_any(words!("and also plus & + n same")) || mention.range.start == 0;
    let found =
        amounts(speech.tokens, &mention.range.clone().collect::<Vec<_>>(), speech.context.garden.units);
    let (count, from, to) = match (found.as_slice(), report) {
        ([measured], _) => match measured.amount {
            Amount::Count(count) => (count, measured.from, measured.to),
            _ => return None,
        },
        ([], Report::Picked { count: Some(count), .. }) if first.is("same") => (f64::from(*count), 0, 1),
        _ => return None,
    };
    let only = speech.tokens.iter().enumerate().all(|(index, token)| {
        (from..to).contains(&index)
            || mention.range.contains(&index)
            || is_small(token)
            || token.senses.has(Sense::Fig)
            || token.is_any(words!("and also plus & + n from off too same again"))
    });
    let picked = matches!(report, Report::Picked { count: Some(_), .. });
    let sure = speech.names.unsure(&mention.trees).is_none() && mention.trees.is_one();
    let chosen = speech.names.selection(&mention.trees, &[])?;
    let other = selected(speech.context.garden, &chosen).iter().all(|name| !trees.contains(name));
    let whole = (1.0..=MOST).contains(&count) && count.fract() == 0.0;
    let when = if entry.timing == Timing::Told { When::At(entry.happened) } else { When::Unsaid };
    (leads && only && picked && sure && other && whole).then_some(Record {
        trees: chosen,
        when,
        report: Report::Picked { count: Some(count as u32), mass: None },
    })
}

const MOST: f64 = 1500.0;

/// "And another 0.2 this morning", behind a gauge read: more rain.
pub(super) fn rain(speech: &Speech) -> Option<Record> {
    let (_, report, _) = just_reported(speech.context)?;
    let tokens = speech.tokens;
    let more = tokens.iter().any(|token| token.is_any(words!("more another extra additional")));
    let told = moment(tokens, &[], now(speech.context));
    let found = amounts(tokens, &told.used, speech.context.garden.units);
    let [measured] = found.as_slice() else { return None };
    let depth = match measured.amount {
        Amount::Depth(depth) => depth,
        Amount::Count(count) if count > 0.0 => bare_depth(count, speech.context.garden.units),
        _ => return None,
    };
    let only = tokens.iter().enumerate().all(|(index, token)| {
        (measured.from..measured.to).contains(&index)
            || told.used.contains(&index)
            || is_small(token)
            || token.is_any(words!("more another extra additional and plus then fell got we in of"))
    });
    (matches!(report, Report::Rained { .. }) && more && only && !told.impossible).then(|| Record {
        trees: Selection::Unsaid,
        when: told.when(now(speech.context)),
        report: Report::Rained { depth },
    })
}

/// "Lots", "just a little", "pretty bad": how much, where only that there was rust was told.
pub(super) fn severity(speech: &Speech, report: &Report) -> Option<Correction> {
    if !matches!(report, Report::Scouted { amount: RustAmount::Words(_), .. }) {
        return None;
    }
    let tokens = speech.tokens;
    let says = |sense: Sense| tokens.iter().any(|token| token.senses.has(sense));
    let lot = tokens.windows(2).any(|pair| pair[0].is("a") && pair[1].is("lot"));
    let few = tokens.windows(2).any(|pair| pair[0].is("not") && pair[1].is_any(words!("much many bad")));
    let only = tokens.iter().all(|token: &Token| {
        is_small(token)
            || token.senses.has_any(&[Sense::Heavy, Sense::Trace, Sense::Rust, Sense::Spots])
            || token.is_any(words!(
                "a lot not much many bad just pretty very really quite only some it's its of it there is was"
            ))
    });
    let words = if few || says(Sense::Trace) && !lot {
        RustWords::Trace
    } else if says(Sense::Heavy) || lot {
        RustWords::Heavy
    } else {
        return None;
    };
    only.then_some(Correction::Severity(RustAmount::Words(words)))
}

/// "All of them", behind "watered": of every tree, or the same said closer. Figs were counted on the trees named.
pub(super) fn all_of_them(speech: &Speech, garden: &Garden) -> Option<Request> {
    let (_, report, _) = just_reported(speech.context)?;
    let of_trees = !matches!(report, Report::Rained { .. } | Report::Frost { .. } | Report::Picked { .. });
    let only = speech.tokens.iter().all(|token| {
        token.is_mark()
            || token.is_any(words!(
                "all of them em the it was every one everything everyone trees each yes yep yeah"
            ))
    });
    let all = speech.tokens.iter().any(|token| token.is_any(words!("all every everything everyone")));
    (only && all && garden.trees.len() > 1 && (of_trees || told_of_all(speech)))
        .then_some(Request::Correct(Correction::Trees(Selection::All)))
}
