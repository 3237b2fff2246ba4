//! Sentences that report nothing: talk, or something asked back.

use super::Memory;
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::language::read::{Speech, asides, asks, doubt};
use crate::season::journal::{Report, RustAmount};
use crate::season::request::{Aside, Doubt, DoubtKind, Reading, Record, Request, Selection, When};

/// Nothing in the sentence says what was done: talk, or a doubt where words of the garden stand in it.
pub(super) fn not_a_report(speech: &Speech, memory: &mut Memory, reading: &mut Reading) {
    let in_names = |index: usize| speech.mentions.iter().any(|mention| mention.range.contains(&index));
    let told: Vec<&Token> = speech
        .tokens
        .iter()
        .enumerate()
        .filter(|(index, token)| token.is_word() && !in_names(*index))
        .map(|(_, token)| token)
        .collect();
    // "Pressure washed the deck Sunday, looks like new": of the house.
    let chore = told.iter().take(4).any(|token| {
        token.is_any(words!(
            "washed stained sealed painted swept built framed sanded mowed raked shoveled vacuumed repaired fishing fishin bring grab fetch told"
        ))
    }) && !told.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Leaf, Sense::Fig, Sense::Rust, Sense::Spots, Sense::Tree, Sense::Copper, Sense::Sulfur, Sense::Oil, Sense::Dry, Sense::Wet,
        ]) || token.number.is_some()
    });
    if chore {
        reading.requests.push(Request::Aside(Aside::Talk));
        return;
    }
    let unknown = told.iter().filter(|token| is_unknown(token)).count();
    let named = speech.mentions.iter().any(|mention| mention.trees.names_some() && !mention.trees.is_vague());
    if let Some(record) = all_well(speech) {
        reading.requests.push(Request::Record(record));
    } else if asides::is_other_language(speech.text) {
        reading.doubts.push(doubt(DoubtKind::OtherLanguage, speech.text));
    } else if let Some(name) = unknown_subject(speech) {
        let candidates = speech.names.like(&name);
        reading.doubts.push(Doubt { kind: DoubtKind::UnknownTree, words: name, candidates });
    } else if speech.asked == Asked::Yes
        || asks::opens_question(speech.tokens) && is_of_figs(speech.tokens)
        || named && is_work_untold(speech.tokens)
        || unknown > 0 && unknown * 2 >= told.len()
        || named && (unknown > 0 || told.is_empty())
        || is_bare_number(speech)
    {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text));
    } else {
        reading.requests.push(Request::Aside(Aside::Talk));
    }
    memory.predicate = None;
    // "The wall tree looks rough." What follows may be of it.
    // "Looked at Corner. Bad. Half the leaves got it."
    const ASIDE: usize = 2;
    if speech.tokens.len() <= ASIDE && speech.mentions.is_empty() {
        return;
    }
    memory.topic = speech.mentions.iter().find_map(|mention| speech.names.selection(&mention.trees, &[]));
}

/// "Checked under the leaves, all good": looked for rust, and none was there.
pub(super) fn all_well(speech: &Speech) -> Option<Record> {
    const MOST_WORDS: usize = 12;
    let tokens = speech.tokens;
    let looked =
        tokens.iter().take(3).any(|token| token.is_any(words!("checked scouted inspected looked scout")));
    let leaves =
        tokens.iter().any(|token| token.senses.has(Sense::Leaf)) || looked && !speech.mentions.is_empty();
    let well = tokens.windows(2).any(|pair| {
        pair[0].is_any(words!("all looks looking looked"))
            && pair[1].is_any(words!("good clear fine well clean"))
    }) || tokens.last().is_some_and(|last| last.is_any(words!("nothing clean none")));
    // "Nothing on the leaves, looked at all of them"
    let nothing = tokens.first().is_some_and(|first| first.is_any(words!("nothing none zip nada")))
        && tokens.iter().take(6).any(|token| token.senses.has(Sense::Leaf));
    let (looked, well) = (looked || nothing, well || nothing);
    let other = tokens.iter().any(|token| {
        token.number.is_some()
            || token.senses.has_any(&[
                Sense::Future,
                Sense::Intent,
                Sense::Soil,
                Sense::Drink,
                Sense::Gauge,
                Sense::Someone,
            ])
    });
    let named = speech.mentions.iter().find_map(|mention| speech.names.selection(&mention.trees, &[]));
    let level = super::leaf_level(tokens);
    (looked && leaves && well && !other && tokens.len() <= MOST_WORDS && speech.asked == Asked::No).then(
        || Record {
            trees: named.unwrap_or(Selection::All),
            when: When::Unsaid,
            report: Report::Scouted { amount: RustAmount::None, level },
        },
    )
}

/// "Big Mama is bone dry": words with the capitals of a name, and a state only a tree is in.
fn unknown_subject(speech: &Speech) -> Option<String> {
    let capital = |token: &Token| {
        let typed = speech.text.get(token.span.clone()).unwrap_or_default();
        token.is_word()
            && typed.starts_with(char::is_uppercase)
            && typed.len() > 1
            && typed.contains(char::is_lowercase)
    };
    let count = speech.tokens.iter().take_while(|token| capital(token)).count();
    let said = speech.tokens.get(count).is_some_and(|next| next.is_any(words!("is was has looks seems")));
    let state = speech.tokens.get(count + 1..)?.iter().take(3).any(|token| {
        token.senses.has_any(&[
            Sense::Dry,
            Sense::Wet,
            Sense::Rust,
            Sense::Spots,
            Sense::Ripening,
            Sense::Ripe,
        ])
    });
    // "Zorp is dry": a word nobody knows, and how it stands.
    let first = speech.tokens.first()?;
    let lone = is_unknown(first)
        && speech.mentions.is_empty()
        && !speech.names.is_person(&first.text)
        && speech.tokens.len() <= 6
        && speech.tokens.get(1).is_some_and(|next| next.is_any(words!("is was looks seems")))
        && speech.tokens[2..].iter().take(2).any(|token| {
            token.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist, Sense::Rust, Sense::Ripening])
        });
    if lone {
        return Some(speech.typed(0, 1).to_owned());
    }
    let named = speech.tokens[..count]
        .iter()
        .any(|token| token.senses.has_any(&[Sense::Time, Sense::Article, Sense::Mine]));
    ((2..=3).contains(&count) && said && state && !named && speech.mentions.is_empty())
        .then(|| speech.typed(0, count).to_owned())
}

/// "How do I store figs": asked of a garden, if without its mark.
fn is_of_figs(tokens: &[Token]) -> bool {
    const OF_FIGS: &[Sense] =
        &[Sense::Fig, Sense::Rust, Sense::Tree, Sense::Copper, Sense::Sulfur, Sense::Oil, Sense::Spots];
    tokens.iter().any(|token| token.senses.has_any(OF_FIGS))
}

/// "Bo did the pots": something was done, and not said what.
fn is_work_untold(tokens: &[Token]) -> bool {
    const MOST_WORDS: usize = 8;
    let mine = tokens.first().is_some_and(|first| first.senses.has(Sense::Mine));
    mine && tokens.len() <= MOST_WORDS
        && tokens.iter().skip(1).take(2).any(|token| token.is_any(words!("did done finished")))
}

fn is_bare_number(speech: &Speech) -> bool {
    let any = |fits: &dyn Fn(&Token) -> bool| speech.tokens.iter().any(fits);
    // "106 today", "too hot 104": of the weather.
    let day = any(&|token| token.senses.has(Sense::Time))
        && any(&|token| token.number.is_some_and(|number| number > 70.0));
    let weather = day
        || any(&|token| token.is_any(words!("hot cold warm heat humid degrees degree ° f c deg mph am pm")));
    any(&|token| token.number.is_some())
        && speech.tokens.len() <= 3
        && !any(&|token| token.senses.has(Sense::Thing))
        && !weather
}
