//! Sprays and the days of their labels, in a sentence that tells of nothing else.

use super::super::{label_days, products};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::ProductDetails;

const ACTIVES: WordList = words!(
    "soap spinosad bt kaolin mancozeb bicarbonate pyrethrin pyrethrum chlorothalonil thiophanate azadirachtin"
);
/// Words before an active that are part of what it is called.
const KINDS: WordList = words!(
    "insecticidal horticultural potassium copper neem lime dormant mineral wettable micronized liquid fixed kaolin"
);
const BEHIND: WordList =
    words!("soap oil bicarbonate fungicide octanoate hydroxide sulfate clay sulfur mix mixture");

/// The sprays told, or the days of the one told before.
pub(super) fn read(text: &str, told: &[Token], last: Option<&str>) -> Option<Vec<ProductDetails>> {
    let other = told.iter().any(|token| {
        token.is_any(words!("pot pots ground gal gals gallon gallons tbsp tsp oz ml lime ago lasted lasts cost costs ran threw quit stopped yesterday today tomorrow last next above hours hour rei they'd will going gonna plan planning neighbor uncle aunt"))
            || token.senses.has(Sense::Frost)
    }) || (0..told.len()).any(|at| {
        // "For the rust I use copper"
        told[at].senses.has(Sense::Rust) && !told[at.saturating_sub(2)..at].iter().any(|token| token.is_any(words!("for against")))
    });
    // "She says it's every 10 days", of the spray just told
    let of_somebody = (0..told.len()).any(|at| is_active(told, at))
        && told
            .iter()
            .any(|token| token.senses.has(Sense::Someone) && !token.is_any(words!("he she they his her")));
    if other || of_somebody || told.first()?.is_any(words!("should can could does when what how why is are"))
    {
        return None;
    }
    let starts: Vec<usize> = (0..told.len()).filter(|at| is_active(told, *at)).collect();
    let days_fit = |part: &[Token]| {
        let days = label_days::told_of_a_spray(part);
        let used = |at: &usize| {
            days.used.contains(at)
                || part
                    .get(at + 1)
                    .is_some_and(|next| next.is_any(words!("% applications times sprays was were")))
        };
        let whole = (0..part.len()).all(|at| part[at].number.is_none() || used(&at));
        whole.then_some(days)
    };
    let says = |days: &label_days::LabelDays| days.interval.is_some() || days.before_harvest.is_some();
    if starts.is_empty() {
        let short = told.len() <= 18;
        // "Wait 3 days" may be of anything, and is of the spray just told.
        let days = days_fit(told).filter(|days| short && says(days))?;
        let said = told.iter().any(|token| {
            token.is_any(words!(
                "every harvest phi pick picking between label bottle says interval reapply spray weekly week"
            ))
        });
        let fits = said && told.iter().all(is_small);
        return Some(vec![ProductDetails { name: last?.to_owned(), ..of(&days, told) }]).filter(|_| fits);
    }
    let mut found: Vec<ProductDetails> = Vec::new();
    for (index, start) in starts.iter().enumerate() {
        let from = if index == 0 { 0 } else { *start };
        let to = starts.get(index + 1).copied().unwrap_or(told.len());
        let (name, end) = called(text, told, *start)?;
        let part = &told[from..to];
        let days = days_fit(part)?;
        let around = |at: usize| (from + at) < *start || (from + at) >= end;
        // "... for the caterpillars"
        let purpose =
            |at: usize| at > 0 && part[at.saturating_sub(2)..at].iter().any(|token| token.is("for"));
        let idle = |(at, token): (usize, &Token)| is_small(token) || purpose(at);
        if !part.iter().enumerate().filter(|(at, _)| around(*at)).all(idle) {
            return None;
        }
        let words = &told[*start..end];
        found.push(ProductDetails {
            name,
            active: Some(products::active_of(words)),
            carrier: products::carrier_of(words),
            ..of(&days, part)
        });
    }
    Some(found)
}

fn of(days: &label_days::LabelDays, part: &[Token]) -> ProductDetails {
    ProductDetails {
        interval: days.interval,
        before_harvest: days.before_harvest,
        most_applications: products::facts_of(part).most_applications,
        ..ProductDetails::default()
    }
}

fn is_of_name(token: &Token) -> bool {
    token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])
        || token.is_any(ACTIVES)
        || token.is_any(KINDS)
        || token.is_any(words!("sulfer sulphur sulpher"))
}

/// A spray's name begins here.
fn is_active(told: &[Token], at: usize) -> bool {
    let kind = told[at].is_any(KINDS)
        && !told[at].senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])
        && !told[at].is_any(ACTIVES);
    let opens = is_of_name(&told[at])
        && (!kind || told.get(at + 1).is_some_and(|next| next.is_any(BEHIND) || is_of_name(next)));
    opens && !(at > 0 && is_of_name(&told[at - 1]))
}

/// What it is called, and where that ends.
fn called(text: &str, told: &[Token], start: usize) -> Option<(String, usize)> {
    let more = told[start + 1..].iter().take_while(|token| is_of_name(token) || token.is_any(BEHIND)).count();
    let end = start + 1 + more;
    if more == 0 && (told[start].senses.has(Sense::Sulfur) || told[start].is_any(words!("sulfer sulpher"))) {
        return Some((String::from("sulfur"), end));
    }
    let typed = text.get(told[start].span.start..told[end - 1].span.end)?;
    // "Copper" opens a sentence; what is called so by its letters stays.
    let name = super::super::clean(typed).trim_end_matches("'s").to_owned();
    let opened = name.chars().skip(1).all(|letter| !letter.is_uppercase());
    Some((if opened { name.to_lowercase() } else { name }, end))
}

fn is_small(token: &Token) -> bool {
    const WORDS: WordList = words!(
        "a an the my our it its it's they them i we i've we've have has got use using spray sprays spraying sprayed apply applied applies application applications be is are was to of for at on in with and or so also too only just once twice one time times every evry evrey each q day days d week weeks wk wks weekly biweekly fortnight other second before b4 till til until after prior up within wait waiting no not don't dont do can't cant cannot never may can must should same ok okay fine allowed harvest harvesting picking pick eat preharvest pre phi interval intervals between minimum least apart repeat reapply label labels says reads according per bottle bag jug box reading read about around approximately roughly maybe think guess right now then that this there's theres there here product products spray: wettable liquid fixed micronized powder soap or oil first put down add please pls yes yeah well oh sorry actually make correction it'll for figs fig trees trees' whole season year you your if i'm im real really found small print still more than often from was were uses doesnt doesn't like rust disease old new withholding period more than often later what whats goes theres bugs bug ants scale mites aphids caterpillars worms wasps bees beetles she he says grandma grandpa leave alone look go right here that's thats again but need know up bunch wrong misread spraying any given whenever need needed schedule set shelf shed on spary sparay sure exactly all usually normally generally mostly straight far used out"
    );
    token.is_mark() || token.number.is_some() || token.is_any(WORDS)
}
