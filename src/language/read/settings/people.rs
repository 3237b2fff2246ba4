//! Who may report and who may settle things.

use super::{Found, any};
use crate::identity::PersonId;
use crate::language::read::clauses::Asked;
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::language::read::{Speech, doubt};
use crate::season::garden::Role;
use crate::season::request::{DoubtKind, Reading, Setting};

const KIN: WordList = words!(
    "husband wife son daughter brother sister mom mum dad friend neighbor neighbour partner nephew niece cousin grandson granddaughter mother father law hubby grandpa grandma granddad roommate girlfriend boyfriend fiance fiancee gf bf kid kids mrs mr ms"
);

/// "@bo:example.org may report", "make @bo:example.org keeper", "remove @bo:example.org".
pub(super) fn person(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let id = tokens.iter().find(|token| token.text.starts_with('@') && token.text.len() > 1)?;
    let typed = speech.text.get(id.span.clone())?;
    let typed = typed.trim_end_matches(['.', '!', '?', ')']);
    let id = PersonId::new(typed);
    let off = any(tokens, words!("take")) && any(tokens, words!("off out"));
    // "@ruth:home.example no longer helps me"
    let no_more = tokens.windows(2).any(|pair| pair[0].is("no") && pair[1].is("longer"))
        || any(tokens, words!("anymore"));
    if off || no_more || any(tokens, words!("remove delete drop block")) {
        return Some(Setting::RemovePerson { id }.into());
    }
    let keeper = any(tokens, words!("keeper admin owner settings rights whatever"));
    let helper = any(tokens, words!("helper report help add may can member let waters"));
    let name = typed.trim_start_matches('@').split(':').next().unwrap_or(typed).to_owned();
    let role = if keeper { Role::Keeper } else { Role::Helper };
    (keeper || helper).then(|| Setting::Person { id, name, role }.into())
}

/// "My nephew Travis should be able to write here too", "can my neighbor use this?": let in, and no address told.
pub(super) fn let_in(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    const MOST_WORDS: usize = 18;
    let tokens = speech.tokens;
    if tokens.len() > MOST_WORDS || speech.text.contains('@') {
        return None;
    }
    let may = tokens.iter().position(|token| {
        token.is_any(words!("can could should shuld may able ought allowed wants want let like lets"))
    })?;
    // "My wife wants in on this too"
    let joins = tokens
        .windows(3)
        .position(|three| three[0].is_any(words!("wants want")) && three[1].is("in") && three[2].is("on"));
    let writes = joins.or_else(|| {
        (may + 1..tokens.len()).find(|at| {
            tokens[*at].is_any(words!("write message text use talk report join log post type"))
                && !tokens.get(at + 1).is_some_and(|next| next.is_any(words!("it down that up")))
        })
    })?;
    let here = any(&tokens[writes..], words!("here this you too also it"));
    let whom = tokens.iter().position(|token| {
        token.is_any(KIN) && !token.is_any(words!("neighbors neighbours friends"))
            || token.senses.has(crate::language::read::lexicon::Sense::Someone)
                && token.is_any(words!("grandson granddaughter mother father"))
    })?;
    let own =
        whom > 0 && tokens[whom - 1].is_any(words!("my our")) || tokens[whom].is_any(words!("mrs mr ms"));
    let known = tokens.iter().any(|token| speech.names.is_person(&token.text));
    if !here || !own || known || !speech.mentions.is_empty() {
        return None;
    }
    let typed = |token: &Token| speech.text.get(token.span.clone()).map(str::to_owned);
    let named = tokens.get(whom + 1).filter(|name| {
        name.is_word() && is_unknown(name)
            || typed(name).is_some_and(|typed| typed.starts_with(char::is_uppercase))
    });
    reading.doubts.push(doubt(DoubtKind::UnknownPerson, typed(named.unwrap_or(&tokens[whom]))?));
    Some(Found::Doubted)
}

/// "My wife June helps", "put my son on here, he helps me, Enzo", in the first days: who is meant, and no address told.
pub(super) fn helps(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    const MOST_WORDS: usize = 16;
    let tokens = speech.tokens;
    let first_days = super::first_days::is_being_set_up(speech.context);
    if !first_days || tokens.len() > MOST_WORDS || speech.text.contains('@') || speech.asked == Asked::Yes {
        return None;
    }
    let whom = tokens.iter().position(|token| token.is_any(KIN))?;
    let own = whom > 0 && tokens[whom - 1].is_any(words!("my our"));
    let help = any(tokens, words!("helps help helping helper pitches"));
    let mut named: Option<&Token> = None;
    let accounted = tokens.iter().enumerate().all(|(at, token)| {
        let small = token.is_mark()
            || at == whom
            || token.is_any(words!(
                "my our helps help helping helper pitches me us out too also with the figs fig garden watering trees sometimes a lot him her he she they and will be put add on here in is can please so let's lets"
            ));
        if !small && named.is_none() {
            named = Some(token);
            return true;
        }
        small
    });
    let typed = |token: &Token| speech.text.get(token.span.clone()).map(str::to_owned);
    if !own || !help || !accounted {
        return None;
    }
    reading.doubts.push(doubt(DoubtKind::UnknownPerson, typed(named.unwrap_or(&tokens[whom]))?));
    Some(Found::Doubted)
}

/// "Add my nephew Tino as a helper", "make Bo a keeper": whoever the garden knows; anybody else has no address yet.
pub(super) fn person_by_name(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    const MOST_WORDS: usize = 24;
    let tokens = speech.tokens;
    if tokens.len() > MOST_WORDS || speech.asked == Asked::Yes {
        return None;
    }
    let verb =
        tokens.iter().position(|token| token.is_any(words!("add make put let enter register invite")))?;
    // "Add my husband Dave so he can log stuff too"
    let kin = tokens.windows(4).find_map(|four| {
        let named = four[0].is("add")
            && four[1].is_any(words!("my our"))
            && four[2].is_any(KIN)
            && four[3].is_word()
            && !four[3].is_any(words!("to so as s"));
        named.then_some(&four[3])
    });
    let may = any(tokens, words!("can helper helpers log report write help see"));
    // "Add Youssef for to help me", "can you add jamie so he can log stuff"
    let stranger = tokens.get(verb + 1).filter(|name| {
        tokens[verb].is("add")
            && is_unknown(name)
            && !speech.names.is_person(&name.text)
            && tokens.get(verb + 2).is_some_and(|next| next.is_any(words!("for to so as")))
    });
    let kin = kin.or(stranger);
    if let Some(name) = kin.filter(|_| may && speech.mentions.is_empty()) {
        reading.doubts.push(doubt(DoubtKind::UnknownPerson, speech.text.get(name.span.clone())?));
        return Some(Found::Doubted);
    }
    let role = verb
        + tokens[verb..].iter().position(|token| token.is_any(words!("helper helpers keeper keepers")))?;
    let link = tokens[verb..role].iter().any(|token| token.is_any(words!("as a to be")));
    // "Add helper: Rosa"
    if role == verb + 1
        && let [mark, name] = &tokens[role + 1..]
        && mark.is_any(words!(": -"))
        && name.is_word()
    {
        reading.doubts.push(doubt(DoubtKind::UnknownPerson, speech.text.get(name.span.clone())?));
        return Some(Found::Doubted);
    }
    let called = |token: &&Token| {
        token.is_word()
            && speech.text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
            && !token.is_any(words!("i add make put let please"))
    };
    let known = |token: &&Token| speech.names.is_person(&token.text);
    // "My nephew Tino's helping, add him as a helper"
    let of_him = tokens[verb + 1..role].iter().any(|token| token.is_any(words!("him her them")));
    let within = if of_him { &tokens[..verb] } else { &tokens[verb + 1..role] };
    let whom = within
        .iter()
        .find(|token| known(token))
        .or_else(|| within.iter().rev().find(|token| called(token) || !of_him && is_unknown(token)))?;
    if !link || !speech.mentions.is_empty() {
        return None;
    }
    let typed = speech.text.get(whom.span.clone())?.trim_end_matches("'s");
    let role = if tokens[role].is_any(words!("keeper keepers")) { Role::Keeper } else { Role::Helper };
    let garden = speech.context.garden;
    let person = garden
        .people
        .iter()
        .find(|person| person.name.split(' ').next().is_some_and(|first| first.eq_ignore_ascii_case(typed)));
    match person {
        Some(person) => {
            Some(Setting::Person { id: person.id.clone(), name: person.name.clone(), role }.into())
        }
        None => {
            reading.doubts.push(doubt(DoubtKind::UnknownPerson, typed));
            Some(Found::Doubted)
        }
    }
}
