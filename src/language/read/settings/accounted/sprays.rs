//! Sprays and the days of their labels, in a sentence that tells of nothing else.

use super::super::{label_days, products};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::ProductDetails;

const ACTIVES: WordList = words!(
    "soap spinosad bt kaolin malathion permethrin carbaryl captan acetamiprid imidacloprid mancozeb bicarbonate pyrethrin pyrethrum chlorothalonil thiophanate azadirachtin"
);
/// Words before an active that are part of what it is called.
const KINDS: WordList = words!(
    "bacillus insecticidal horticultural potassium copper neem lime dormant mineral wettable micronized liquid fixed kaolin"
);
const BEHIND: WordList = words!(
    "soap oil bicarbonate fungicide octanoate hydroxide sulfate clay sulfur mix mixture subtilis thuringiensis amyloliquefaciens"
);

/// The sprays told, or the days of the one told before.
pub(super) fn read(text: &str, told: &[Token], last: Option<&str>) -> Option<Vec<ProductDetails>> {
    let other = told.iter().any(|token| {
        token.is_any(words!("pot pots ground gal gals gallon gallons tbsp tsp oz ml lime ago lasted lasts cost costs ran threw quit stopped yesterday today tomorrow last next above hours hour rei they'd will going gonna plan planning neighbor uncle aunt"))
            || token.senses.has(Sense::Frost)
    }) || (0..told.len()).any(|at| {
        // "For the rust I use copper"
        told[at].senses.has(Sense::Rust) && !told[at.saturating_sub(2)..at].iter().any(|token| token.is_any(words!("for against")))
    });
    // "No more sulfur, I don't use it"
    let given_up = told.windows(2).any(|pair| {
        pair[0].is("no") && pair[1].is("more")
            || pair[0].is_any(words!("don't not stopped quit")) && pair[1].is_any(words!("use using"))
    }) && !told.iter().any(|token| token.is_any(words!("than often")));
    // "She says it's every 10 days", of the spray just told
    let of_somebody = (0..told.len()).any(|at| is_active(told, at))
        && told
            .iter()
            .any(|token| token.senses.has(Sense::Someone) && !token.is_any(words!("he she they his her")))
        && !told.iter().any(|token| token.is_any(words!("gave")));
    if other
        || given_up
        || of_somebody
        || told.first()?.is_any(words!("should can could does when what how why is are"))
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
                || *at > 0 && part[at - 1].is("not")
                // "... and one leaves it a day before picking"
                || part[*at].is("one") && part.get(at + 1).is_some_and(|next| next.is_any(words!("leaves waits sprays should can may")))
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
        "a about according actually add after again all allowed alone also an and ants any apart aphids application applications applied applies apply approximately are around at b4 bag be bees beetles before between biweekly bottle box bug bugs bunch but can can't cannot cant caterpillars correction d daughter day days disease do doesn't doesnt don't dont down dust each eat every evrey evry exactly fall far fig figs fine first fixed for fortnight found from gave generally given gives go goes got grandma grandpa guess harvest harvesting has have he here i i'm i've if im in interval intervals is it it'll it's its jug just know label labels later least leave leaves like liquid look make may maybe me means micronized minimum misread mites more mostly must my need needed never new no none normally not now of often oh oil ok okay old on once one only or other our out per period phi pick picking please pls powder pre preharvest print prior product products put q read reading reads real really reapply repeat right roughly rust same says scale schedule season second set she shed shelf should small so soap son sorry sparay spary speak spray sprayed spraying sprays spring stated still stop straight summer sure than that that's thats the them then there there's theres they think this til till time times to too trees twice until up us use used uses using usually wait waiting was wasps we we've week weekly weeks well were wettable what whats whenever whole winter with withholding within wk wks worms wrong yeah year yes you your"
    );
    token.is_mark() || token.number.is_some() || token.is_any(WORDS)
}
