//! Reports: what was seen and done, several in one sentence.

mod build;
mod predicate;

use std::ops::Range;

use self::predicate::Predicate;
use super::amounts::{Amount, Measured, amounts};
use super::asides;
use super::clauses::{Asked, clauses};
use super::lexicon::Sense;
use super::moments::{Moment, moment};
use super::names::{Found, Product, is_unknown};
use super::tokens::Token;
use super::{Speech, doubt};
use crate::season::request::{Aside, DoubtKind, Reading, Request, Selection, When};

/// A clause taken apart.
#[derive(Clone, Debug)]
struct Part {
    range: Range<usize>,
    predicate: Option<Predicate>,
    trees: Found,
    product: Product,
    moment: Moment,
    amounts: Vec<Measured>,
    /// "it", "them": the trees of the clause before.
    pronoun: bool,
}

pub(super) fn read(speech: &Speech, reading: &mut Reading) {
    let mut parts: Vec<Part> = clauses(speech.tokens).into_iter().map(|range| part(speech, range)).collect();
    if parts.iter().all(|part| part.predicate.is_none()) {
        if let Some(aside) = plan_without_report(speech) {
            reading.requests.push(Request::Aside(aside));
            return;
        }
        return without_predicate(speech, &parts, reading);
    }
    let mut aside = None;
    for part in &mut parts {
        let clause = &speech.tokens[part.range.clone()];
        let why = asides::not_a_report(clause, speech.tokens, speech.asked == Asked::Yes);
        let denied = part.predicate.as_ref().is_some_and(|predicate| predicate.is_denied(clause));
        if part.predicate.is_some() && (why.is_some() || denied) {
            aside = aside.or(why);
            part.predicate = Some(Predicate::NoReport);
        }
    }
    join(speech, &mut parts);
    share_moments(&mut parts);
    let before = reading.requests.len() + reading.doubts.len();
    for part in &parts {
        if let Some(predicate) = &part.predicate {
            build::record(speech, part, predicate, reading);
        }
    }
    if reading.requests.len() + reading.doubts.len() == before {
        reading.requests.push(Request::Aside(aside.unwrap_or(Aside::Talk)));
    }
}

fn part(speech: &Speech, range: Range<usize>) -> Part {
    let clause = &speech.tokens[range.clone()];
    let trees = speech.names.trees(clause, speech.text);
    let product = match speech.names.product(clause) {
        Product::Unsaid => match speech.names.misspelt_product(clause, speech.text) {
            Some((index, ..)) if trees.used.contains(&index) => Product::Unsaid,
            Some((index, _, name)) => Product::Known { name, used: vec![index] },
            None => Product::Unsaid,
        },
        product => product,
    };
    let moment = moment(clause, speech.context.at, speech.context.zone);
    let mut taken = trees.used.clone();
    taken.extend(&moment.used);
    let amounts = amounts(clause, &taken, speech.context.garden.units);
    let predicate = predicate::of(clause, &trees, &product, &amounts);
    let pronoun =
        clause.iter().any(|token| token.is_any(&["it", "them", "its", "it's", "they", "those", "these"]));
    Part { range, predicate, trees, product, moment, amounts, pronoun }
}

/// Clauses without a verb of their own go on with the one before, or open the one after.
fn join(speech: &Speech, parts: &mut Vec<Part>) {
    let mut joined: Vec<Part> = Vec::with_capacity(parts.len());
    let mut waiting: Option<Found> = None;
    for mut part in parts.drain(..) {
        if part.predicate.is_some() {
            if let Some(found) = waiting.take() {
                part.trees = together(found, part.trees.clone());
            }
            inherit(&joined, &mut part);
            joined.push(part);
            continue;
        }
        let Some(last) = joined.last_mut() else {
            // Names before the first verb are its subjects; a time before it is its time.
            if part.trees.selection.is_some() {
                waiting = Some(match waiting.take() {
                    Some(found) => together(found, part.trees),
                    None => part.trees,
                });
            }
            if part.moment.is_said() {
                joined.push(Part { predicate: None, trees: Found::default(), ..part });
            }
            continue;
        };
        let clause = &speech.tokens[part.range.clone()];
        let none_there = clause.iter().any(|token| token.is_any(&["none", "nothing", "clean"]));
        if part.trees.selection.is_some() && none_there && matches!(last.predicate, Some(Predicate::Scouted))
        {
            joined.push(Part { predicate: Some(Predicate::Clean), ..part });
            continue;
        }
        let countable = part.amounts.iter().any(|measured| !matches!(measured.amount, Amount::Length(_)));
        let names = part.trees.selection.is_some();
        match (names, countable) {
            (true, true) if last.predicate.as_ref().is_some_and(Predicate::repeats) => {
                let predicate = last.predicate.clone();
                let product =
                    if part.product == Product::Unsaid { last.product.clone() } else { part.product.clone() };
                joined.push(Part { predicate, product, ..part });
            }
            (true, _) if last.amounts.is_empty() || last.trees.selection.is_none() || !countable => {
                if last.amounts.is_empty() {
                    last.amounts = part.amounts;
                }
                last.trees = together(last.trees.clone(), part.trees);
                adopt_rest(last, part.product, part.moment);
            }
            (false, true) => {
                last.amounts.extend(part.amounts);
                adopt_rest(last, part.product, part.moment);
            }
            _ => adopt_rest(last, part.product, part.moment),
        }
    }
    *parts = joined;
}

fn adopt_rest(last: &mut Part, product: Product, moment: Moment) {
    if last.product == Product::Unsaid {
        last.product = product;
    }
    if !last.moment.is_said() && moment.is_said() {
        last.moment = moment;
    }
}

/// A clause that needs a tree and names none speaks of those of the clause before.
fn inherit(before: &[Part], part: &mut Part) {
    let wants = part.pronoun || part.predicate.as_ref().is_some_and(Predicate::inherits_trees);
    if part.trees.selection.is_some() || part.trees.ambiguous.is_some() || !wants {
        return;
    }
    if let Some(last) = before.iter().rev().find(|last| last.trees.selection.is_some()) {
        part.trees.selection.clone_from(&last.trees.selection);
    }
}

fn together(one: Found, other: Found) -> Found {
    let selection = match (one.selection, other.selection) {
        (Some(Selection::Named(mut names)), Some(Selection::Named(more))) => {
            names.extend(more.into_iter().filter(|name| !names.contains(name)).collect::<Vec<_>>());
            Some(Selection::Named(names))
        }
        (Some(Selection::Group(group)), Some(Selection::Named(mut names)))
        | (Some(Selection::Named(mut names)), Some(Selection::Group(group))) => {
            names.push(group);
            Some(Selection::Named(names))
        }
        (Some(Selection::Group(one)), Some(Selection::Group(other))) if one != other => {
            Some(Selection::Named(vec![one, other]))
        }
        (Some(one), _) => Some(one),
        (None, other) => other,
    };
    let mut spellings = one.spellings;
    spellings.extend(other.spellings);
    Found { selection, used: Vec::new(), spellings, ambiguous: one.ambiguous.or(other.ambiguous) }
}

/// "This morning sprayed copper and picked nine": a day said once is the day of all that follows; said at the
/// end, of all before.
fn share_moments(parts: &mut Vec<Part>) {
    let said: Vec<bool> = parts.iter().map(|part| part.moment.is_said()).collect();
    if said.iter().filter(|said| **said).count() == 1 {
        let index = said.iter().position(|said| *said).unwrap_or_default();
        let moment = parts[index].moment.clone();
        let at_end = index + 1 == parts.len();
        // A time that stood before the first verb is the time of everything after it.
        let stood_alone = parts[index].predicate.is_none();
        let day_only = Moment { time: None, exact: None, used: Vec::new(), ..moment.clone() };
        for (at, part) in parts.iter_mut().enumerate() {
            if at > index {
                part.moment = if stood_alone { moment.clone() } else { day_only.clone() };
            } else if at < index && at_end {
                part.moment = moment.clone();
            }
        }
    }
    parts.retain(|part| part.predicate.is_some());
}

/// "I'll spray tomorrow", "if it rains I'll skip watering": work of the garden, but not done.
fn plan_without_report(speech: &Speech) -> Option<Aside> {
    let work = speech.tokens.iter().any(|token| {
        token.senses.has(Sense::SprayBase)
            || token.senses.has(Sense::WaterBase)
            || token.senses.has(Sense::Water)
            || token.senses.has(Sense::Picked)
            || token.is_any(&["plant", "prune", "repot", "feed", "scout", "check"])
    });
    let stock = speech.tokens.iter().any(|token| {
        token.senses.has(Sense::Copper) || token.senses.has(Sense::Sulfur) || token.senses.has(Sense::Oil)
    }) && speech
        .tokens
        .iter()
        .any(|token| token.is_any(&["bought", "buy", "ordered", "order", "out", "need", "low", "more"]));
    let denied = work
        && speech
            .tokens
            .iter()
            .any(|token| token.senses.has(Sense::Negation) || token.is_any(&["forgot", "skipped"]));
    if stock || denied {
        return Some(Aside::Talk);
    }
    let about = work
        || speech.tokens.iter().any(|token| token.senses.has(Sense::Copper) || token.senses.has(Sense::Rust));
    let why = asides::not_a_report(speech.tokens, speech.tokens, speech.asked == Asked::Yes)?;
    about.then_some(why)
}

/// Nothing in the sentence says what was done: perhaps a bare share on a tree, else talk or a doubt.
fn without_predicate(speech: &Speech, parts: &[Part], reading: &mut Reading) {
    if speech.asked == Asked::No && parts.iter().any(is_bare_severity) {
        for part in parts.iter().filter(|part| is_bare_severity(part)) {
            build::record(speech, part, &Predicate::Scouted, reading);
        }
        return;
    }
    let named = parts.iter().any(|part| part.trees.selection.is_some());
    let unknown = speech.tokens.iter().filter(|token| is_unknown(token)).count();
    let words = speech.tokens.iter().filter(|token| token.is_word()).count();
    if named || unknown * 2 > words {
        reading.doubts.push(doubt(
            if asides::is_other_language(speech.text) {
                DoubtKind::OtherLanguage
            } else {
                DoubtKind::NotUnderstood
            },
            speech.text,
        ));
    } else {
        asides::not_understood(speech, reading);
    }
}

/// "Celeste 10% lower".
fn is_bare_severity(part: &Part) -> bool {
    part.trees.selection.is_some()
        && part.amounts.iter().any(|measured| {
            matches!(measured.amount, Amount::Share(_) | Amount::Class(_) | Amount::LeavesOf { .. })
        })
}

impl Part {
    fn clause<'t>(&self, tokens: &'t [Token]) -> &'t [Token] {
        &tokens[self.range.clone()]
    }

    fn when(&self, speech: &Speech) -> When {
        self.moment.when(speech.context.at, speech.context.zone)
    }
}
