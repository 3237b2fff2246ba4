//! Settings as they are told in the first days, in words that mean nothing else while nothing is known: a name for the
//! garden, a place, an hour, who may help.

use chrono::NaiveTime;

use super::first_days::in_few_words;
use crate::language::read::Context;
use crate::language::read::moments::{clock_time, year_day};
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::Role;
use crate::season::journal::What;
use crate::season::request::Setting;

pub(super) fn person(text: &str, told: &[Token]) -> Option<Setting> {
    let id = told.iter().find(|token| token.text.starts_with('@') && token.text.len() > 1)?;
    // "@ruth:home.example no longer helps me, take her off" adds nobody.
    if told.iter().any(|token| token.is_any(words!("no longer anymore not n't remove off"))) {
        return None;
    }
    let typed = text.get(id.span.clone())?.trim_end_matches(['.', '!', ')', ',']);
    let keeper =
        told.iter().any(|token| token.is_any(words!("keeper admin owner rights same everything whatever")));
    let name = typed.trim_start_matches('@').split(':').next().unwrap_or(typed).to_owned();
    let role = if keeper { Role::Keeper } else { Role::Helper };
    Some(Setting::Person { id: crate::identity::PersonId::new(typed), name, role })
}

/// "ff nov 5 lf apr 10", "FF 11/18, LF 3/22".
pub(super) fn frosts(told: &[Token], context: &Context) -> Option<Vec<Setting>> {
    let units = context.garden.units;
    let of = |short: &str| {
        let at = told.iter().position(|token| token.is(short))?;
        let behind = &told[at + 1..];
        let end = behind.iter().position(|token| token.is_any(words!("ff lf ,"))).unwrap_or(behind.len());
        year_day(&behind[..end], units)?.ok()
    };
    let first = of("ff").map(|date| Setting::FirstFrost { date });
    let last = of("lf").map(|date| Setting::LastFrost { date });
    let found: Vec<Setting> = first.into_iter().chain(last).collect();
    (!found.is_empty()).then_some(found)
}

/// A setting in few words, and those that only the first days take so: a name, a place, an hour.
pub(super) fn setting(text: &str, told: &[Token], context: &Context) -> Option<Setting> {
    if text.contains('@') {
        return person(text, told);
    }
    garden_name(text, told, context)
        .or_else(|| in_few_words(text, context))
        .or_else(|| hour(told))
        .or_else(|| place(text, told, context))
}

/// "We call our place Pelican Rest", "the garden's called Pebble Yard, it's tiny really", "name Stub Lot".
fn garden_name(text: &str, told: &[Token], context: &Context) -> Option<Setting> {
    if told.first()?.is_any(words!("place location")) && told.get(1).is_some_and(|is| is.is("is")) {
        return None;
    }
    const PLOT: WordList = words!("place garden garden's gardens yard plot orchard patch");
    let any = |list| told.iter().any(|token| token.is_any(list));
    let renamed = matches!(context.last.map(|last| &last.what), Some(What::Setting(Setting::Name { .. })));
    // "The place is known as Thistle End"
    if any(PLOT)
        && let Some(known) = told.windows(2).position(|pair| pair[0].is("known") && pair[1].is("as"))
    {
        let name = super::clean(text.get(told.get(known + 2)?.span.start..)?);
        return (1..=4).contains(&name.split_whitespace().count()).then_some(Setting::Name { name });
    }
    // "We're calling it Grandpa's Fig Yard", before there is a tree it could be of
    let calling = told.windows(2).position(|pair| {
        pair[0].is_any(words!("calling call named name")) && pair[1].is_any(words!("it this"))
    });
    if let Some(name) = calling
        .filter(|_| context.garden.trees.is_empty())
        .and_then(|at| text.get(told.get(at + 2)?.span.start..))
    {
        let end = [", so ", " so ", ", ", " and "].iter().filter_map(|tail| name.find(tail)).min();
        let name = super::clean(&name[..end.unwrap_or(name.len())]);
        let plot = tokens(&name).iter().any(|token| {
            token.is_any(words!(
                "yard garden patch orchard plot farm grove row pen corner place acres lot house"
            ))
        });
        let fits = (1..=4).contains(&name.split_whitespace().count());
        if plot && fits {
            return Some(Setting::Name { name });
        }
    }
    let at = if told.first()?.is("name") && !told.get(1)?.is_any(words!("is of : it")) {
        1
    } else if any(PLOT) && any(words!("call called name named is")) {
        let called = told.iter().position(|token| token.is_any(words!("called named")));
        let plot = told.iter().position(|token| token.is_any(PLOT))?;
        let named =
            told.iter().position(|token| token.is("is")).filter(|is| any(words!("name")) && is > &plot);
        match called.filter(|called| *called > plot).or(named) {
            Some(at) => at + 1,
            // "Pebble Yard is the garden name"
            None if any(words!("name")) && told.last()?.is("name") => 0,
            None if any(words!("call called")) => plot + 1,
            None => return None,
        }
    } else if told.len() > 2
        && told[..3].iter().any(|token| token.is_any(PLOT))
        && let Some(is) = told.iter().take(4).position(|token| token.is("is"))
        && told.get(is + 1).is_some_and(|name| {
            text.get(name.span.start..).is_some_and(|name| {
                name.starts_with(|first: char| first.is_uppercase() || first == '"' || first == '\u{201c}')
            })
        })
    {
        // "Garden is Stillwater Row"
        is + 1
    } else if renamed {
        // "Actually the kids want it to be Dragon Corner instead"
        told.windows(2).position(|pair| pair[0].is_any(words!("to")) && pair[1].is("be"))? + 2
    } else {
        return None;
    };
    let name = text.get(told.get(at)?.span.start..)?;
    let tails = [
        ", ",
        " instead",
        " lol",
        " please",
        " if ",
        " because ",
        " is the garden",
        " is the name",
        " so you",
    ];
    let end = tails.iter().filter_map(|tail| name.find(tail)).min();
    let name = super::clean(&name[..end.unwrap_or(name.len())]);
    let fits = (1..=4).contains(&name.split_whitespace().count());
    (fits && name.starts_with(char::is_alphanumeric)).then_some(Setting::Name { name })
}

/// "Half past six would be a nice time to hear from you in the mornings", "morning 6".
fn hour(told: &[Token]) -> Option<Setting> {
    let about = told.iter().any(|token| {
        token.is_any(words!(
            "morning mornings message messages write text hear brief briefs update updates ping msg msgs am"
        ))
    });
    let alone = || {
        let [first, hour] = told else { return None };
        let hour = hour
            .number
            .filter(|hour| first.is_any(words!("morning mornings brief")) && (4.0..=11.0).contains(hour))?;
        NaiveTime::from_hms_opt(hour as u32, 0, 0)
    };
    // "I get up at 5, message me at half past five"
    let from = told.iter().rposition(|token| {
        token.is_any(words!("message messages write text ping hear brief briefs msg msgs"))
    });
    let time = from.and_then(|from| clock_time(&told[from..])).or_else(|| clock_time(told)).or_else(alone)?;
    about.then_some(Setting::Morning { time })
}

/// "im in bexley flats texas", "we're in Wendlebury Cross, Kent if that helps".
fn place(text: &str, told: &[Token], context: &Context) -> Option<Setting> {
    const MOST_WORDS: usize = 5;
    if context.garden.position.is_some() {
        return None;
    }
    if told.first()?.is_any(words!("location place")) && told.get(1)?.is_word() {
        let at = 1 + usize::from(told[1].is("is"));
        let name = super::clean(text.get(told.get(at)?.span.start..)?);
        return name.starts_with(char::is_uppercase).then_some(Setting::Place { name });
    }
    if let Some(name) = super::regions::named_with_region(text, told) {
        return Some(Setting::Place { name: super::clean(name) });
    }
    let at = told.windows(2).position(|pair| {
        pair[0].is_any(words!("i'm im we're were am are live lives living based located"))
            && pair[1].is_any(words!("in near outside at"))
    })?;
    let name = text.get(told.get(at + 2)?.span.start..)?;
    let end = [" if ", " so ", " and ", " but ", " lol"].iter().filter_map(|tail| name.find(tail)).min();
    let name = super::clean(&name[..end.unwrap_or(name.len())]);
    let plain = tokens(&name).iter().all(|token| {
        token.number.is_none()
            && !token.is_any(words!("the a my our trouble pots pot ground love hurry yard garden"))
    });
    (plain && (1..=MOST_WORDS).contains(&name.split_whitespace().count())).then_some(Setting::Place { name })
}
