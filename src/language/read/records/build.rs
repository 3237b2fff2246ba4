//! A clause into a record, or into the doubt that keeps it from being one.

use super::predicate::Predicate;
use super::{Part, Speech};
use crate::language::read::amounts::{Amount, bare_depth, bare_temperature};
use crate::language::read::doubt;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::{Product, is_unknown};
use crate::language::read::tokens::Token;
use crate::season::journal::{LeafLevel, MoistureState, Report, RustAmount, RustWords};
use crate::season::request::{Doubt, DoubtKind, Reading, Record, Request, Selection, When};
use crate::units::{Celsius, Fraction, Kilograms, Litres, Millimetres};

/// More than these nobody sees in one report: a slip of the thumb.
const MOST_RAIN: Millimetres = Millimetres::new(400.0);
const MOST_FIGS: f64 = 1500.0;
const MOST_FRUIT: Kilograms = Kilograms::new(100.0);
const MOST_WATER: Litres = Litres::new(800.0);
const MOST_WEIGHT: Kilograms = Kilograms::new(400.0);
const COLDEST: Celsius = Celsius::new(-45.0);
const WARMEST_FROST: Celsius = Celsius::new(6.0);

pub(super) fn record(speech: &Speech, part: &Part, predicate: &Predicate, reading: &mut Reading) {
    if part.moment.impossible {
        reading.doubts.push(doubt(DoubtKind::ImpossibleDate, speech.text));
        return;
    }
    let report = match report(speech, part, predicate, reading) {
        Ok(Some(report)) => report,
        Ok(None) => return,
        Err(kind) => {
            reading.doubts.push(doubt(kind, speech.text));
            return;
        }
    };
    let Some(trees) = trees(speech, part, predicate, &report, reading) else { return };
    // "2 inches since Sunday" is read off the gauge now.
    let since = part.clause(speech.tokens).iter().any(|token| token.is("since"));
    let when =
        if since && matches!(report, Report::Rained { .. }) { When::Unsaid } else { part.when(speech) };
    reading.spellings.extend(part.trees.spellings.iter().cloned());
    reading.requests.push(Request::Record(Record { trees, when, report }));
}

fn report(
    speech: &Speech,
    part: &Part,
    predicate: &Predicate,
    reading: &mut Reading,
) -> Result<Option<Report>, DoubtKind> {
    let clause = part.clause(speech.tokens);
    Ok(Some(match predicate {
        Predicate::Scouted => Report::Scouted { amount: rust_amount(part, clause)?, level: level(clause) },
        Predicate::Clean => Report::Scouted { amount: RustAmount::None, level: level(clause) },
        Predicate::LeafDrop => Report::LeafDrop { share: leaf_share(part, clause)? },
        Predicate::Sprayed => match product(speech, part, reading) {
            Some(product) => Report::Sprayed { product, volume: volume(part)? },
            None => return Ok(None),
        },
        Predicate::Watered => Report::Watered { volume: volume(part)?, depth: depth(part)? },
        Predicate::Moisture(state) => Report::Moisture { state: *state },
        Predicate::Weighed => Report::Weighed {
            mass: mass(part, MOST_WEIGHT)?.ok_or(DoubtKind::HowMuch)?,
            state: weighing_state(clause),
        },
        Predicate::Rained => Report::Rained { depth: rain(speech, part, clause)? },
        Predicate::Stage(stage) => Report::Stage { stage: *stage },
        Predicate::Picked => Report::Picked { count: count(part)?, mass: mass(part, MOST_FRUIT)? },
        Predicate::Frost => Report::Frost { minimum: minimum(speech, part)? },
        Predicate::Planted => Report::Planted,
        Predicate::Removed => Report::Removed,
        Predicate::Note => Report::Note { text: note(speech) },
        Predicate::NoReport => return Ok(None),
    }))
}

fn trees(
    speech: &Speech,
    part: &Part,
    predicate: &Predicate,
    report: &Report,
    reading: &mut Reading,
) -> Option<Selection> {
    if let Some((span, candidates)) = &part.trees.ambiguous {
        let words = speech.text.get(span.clone()).unwrap_or(speech.text).to_owned();
        reading.doubts.push(Doubt { kind: DoubtKind::WhichTree, words, candidates: candidates.clone() });
        return None;
    }
    if let Some(selection) = &part.trees.selection {
        return Some(selection.clone());
    }
    if matches!(predicate, Predicate::Rained | Predicate::Frost | Predicate::Note) {
        return Some(Selection::Unsaid);
    }
    let garden = speech.context.garden;
    if let Some(words) = stranger(speech, part)
        && !garden.trees.is_empty()
    {
        let candidates = speech.names.like(&words);
        reading.doubts.push(Doubt { kind: DoubtKind::UnknownTree, words, candidates });
        return None;
    }
    if garden.trees.len() == 1 {
        return Some(Selection::All);
    }
    let clause = part.clause(speech.tokens);
    let everywhere = clause.iter().any(|token| token.is_any(&["anywhere", "everywhere"]));
    let none_seen = matches!(report, Report::Scouted { amount: RustAmount::None, .. });
    if everywhere || none_seen {
        return Some(Selection::All);
    }
    // What was done to the garden at large may be taken for all of it, and that is said; what was seen, or
    // picked, was seen somewhere.
    if matches!(predicate, Predicate::Sprayed | Predicate::Watered | Predicate::Stage(_))
        || garden.trees.is_empty()
    {
        return Some(Selection::Unsaid);
    }
    let candidates = garden.trees.iter().map(|tree| tree.name.clone()).collect();
    reading.doubts.push(Doubt { kind: DoubtKind::WhichTree, words: speech.text.to_owned(), candidates });
    None
}

/// A word nobody knows, where a tree would stand.
fn stranger(speech: &Speech, part: &Part) -> Option<String> {
    let clause = part.clause(speech.tokens);
    let product: &[usize] = match &part.product {
        Product::Known { used, .. } => used,
        _ => &[],
    };
    let index = clause.iter().enumerate().position(|(index, token)| {
        is_unknown(token) && !product.contains(&index) && stands_for_tree(speech, clause, index)
    })?;
    let end = (index + 1..clause.len()).find(|at| !is_unknown(&clause[*at])).unwrap_or(clause.len());
    let first = part.range.start + index;
    Some(speech.typed(first, part.range.start + end).to_owned())
}

/// After "on", "off", "the" ..., at the head of a clause, or with a capital.
fn stands_for_tree(speech: &Speech, clause: &[Token], index: usize) -> bool {
    let led = index > 0
        && clause[..index].iter().rev().take(2).any(|before| {
            before.is_any(&["on", "off", "from", "of", "to", "for", "the", "my", "in", "at", "with"])
        });
    let capital = speech
        .text
        .get(clause[index].span.clone())
        .is_some_and(|typed| typed.starts_with(char::is_uppercase));
    index == 0 || led || capital
}

fn product(speech: &Speech, part: &Part, reading: &mut Reading) -> Option<String> {
    let clause = part.clause(speech.tokens);
    let (kind, words, candidates) = match &part.product {
        Product::Known { name, used } => {
            let typed = used
                .first()
                .map(|index| speech.typed(part.range.start + index, part.range.start + index + 1));
            if let Some(typed) = typed.filter(|typed| !is_word_of(typed, name) && used.len() == 1)
                && clause.get(used[0]).is_some_and(is_unknown)
            {
                reading.spellings.push((typed.to_owned(), name.clone()));
            }
            return Some(name.clone());
        }
        Product::Several { index, names } => {
            let at = part.range.start + index;
            (DoubtKind::WhichProduct, speech.typed(at, at + 1).to_owned(), names.clone())
        }
        Product::Unknown { index } => {
            let at = part.range.start + index;
            (DoubtKind::UnknownProduct, speech.typed(at, at + 1).to_owned(), speech.names.product_names())
        }
        Product::Unsaid => {
            if let Some(only) = speech.names.only_protectant() {
                return Some(only.to_owned());
            }
            if let Some(words) = named_with(speech, part) {
                (DoubtKind::UnknownProduct, words, speech.names.product_names())
            } else {
                (DoubtKind::WhichProduct, speech.text.to_owned(), speech.names.product_names())
            }
        }
    };
    reading.doubts.push(Doubt { kind, words, candidates });
    None
}

/// "sprayed with zzz": the word after "with".
fn named_with(speech: &Speech, part: &Part) -> Option<String> {
    let clause = part.clause(speech.tokens);
    let with = clause.iter().position(|token| token.is_any(&["with", "using", "sprayed"]))?;
    let next = clause.get(with + 1).filter(|next| is_unknown(next))?;
    speech.text.get(next.span.clone()).map(str::to_owned)
}

fn is_word_of(typed: &str, name: &str) -> bool {
    let (typed, name) = (typed.to_lowercase(), name.to_lowercase());
    name.split_whitespace().any(|word| word == typed)
}

fn rust_amount(part: &Part, clause: &[Token]) -> Result<RustAmount, DoubtKind> {
    for measured in &part.amounts {
        match measured.amount {
            Amount::Share(share) => return Ok(RustAmount::Severity(share)),
            Amount::Impossible => return Err(DoubtKind::ImpossibleAmount),
            Amount::Class(class) if class.fract() == 0.0 && (0.0..=5.0).contains(&class) => {
                return Ok(RustAmount::Class(class as u8));
            }
            Amount::Class(_) => return Err(DoubtKind::ImpossibleAmount),
            Amount::LeavesOf { spotted, of } if spotted <= of && spotted >= 0.0 => {
                return Ok(RustAmount::Leaves { spotted: spotted as u32, of: of as u32 });
            }
            Amount::LeavesOf { .. } => return Err(DoubtKind::ImpossibleAmount),
            Amount::Count(part) if part > 0.0 && part < 1.0 => {
                return Ok(RustAmount::Severity(Fraction::saturating(part)));
            }
            _ => {}
        }
    }
    let has = |sense: Sense| clause.iter().any(|token| token.senses.has(sense));
    let negated = clause.iter().any(|token| token.senses.has(Sense::Negation) && !token.is("less"));
    Ok(if negated {
        RustAmount::None
    } else if has(Sense::Heavy) {
        RustAmount::Words(RustWords::Heavy)
    } else if has(Sense::Trace) {
        RustAmount::Words(RustWords::Trace)
    } else {
        RustAmount::Words(RustWords::Some)
    })
}

fn level(clause: &[Token]) -> Option<LeafLevel> {
    let near_leaf = |index: usize| {
        clause[index + 1..]
            .iter()
            .take(3)
            .any(|token| token.senses.has(Sense::Leaf) || token.is_any(&["branches", "half", "part"]))
            || clause.len() <= 4
            || index + 1 == clause.len()
            || clause[index].is_any(&["lower", "upper", "lowest", "topmost", "bottom", "top"])
    };
    clause.iter().enumerate().find_map(|(index, token)| {
        let level = if token.senses.has(Sense::Lower) {
            LeafLevel::Lower
        } else if token.senses.has(Sense::Middle) {
            LeafLevel::Middle
        } else if token.senses.has(Sense::Upper) {
            LeafLevel::Upper
        } else if token.is_any(&["throughout", "whole", "entire"]) {
            LeafLevel::Whole
        } else {
            return None;
        };
        near_leaf(index).then_some(level)
    })
}

fn leaf_share(part: &Part, clause: &[Token]) -> Result<Option<Fraction>, DoubtKind> {
    for measured in &part.amounts {
        match measured.amount {
            Amount::Share(share) => return Ok(Some(share)),
            Amount::Impossible => return Err(DoubtKind::ImpossibleAmount),
            Amount::Count(part) if part > 0.0 && part < 1.0 => return Ok(Some(Fraction::saturating(part))),
            Amount::LeavesOf { spotted, of } if spotted <= of => {
                return Ok(Some(Fraction::saturating(spotted / of)));
            }
            _ => {}
        }
    }
    let any = |texts: &[&str]| clause.iter().any(|token| token.is_any(texts));
    // "Nearly bare" is most of the leaves; "bare" is all of them.
    Ok(
        if any(&["bare", "naked", "defoliated", "leafless"])
            || (any(&["all", "every"]) && any(&["leaves", "leaf"]))
        {
            let nearly = any(&["almost", "nearly", "mostly", "half"]);
            Some(Fraction::saturating(if nearly { 0.8 } else { 1.0 }))
        } else if any(&["most", "mostly"]) {
            Some(Fraction::saturating(0.7))
        } else {
            None
        },
    )
}

fn volume(part: &Part) -> Result<Option<Litres>, DoubtKind> {
    let volume = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Volume(volume) => Some(volume),
        _ => None,
    });
    within(volume, Litres::ZERO, MOST_WATER)
}

fn depth(part: &Part) -> Result<Option<Millimetres>, DoubtKind> {
    let depth = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Depth(depth) => Some(depth),
        _ => None,
    });
    within(depth, Millimetres::ZERO, MOST_RAIN)
}

fn mass(part: &Part, most: Kilograms) -> Result<Option<Kilograms>, DoubtKind> {
    let mass = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Mass(mass) => Some(mass),
        _ => None,
    });
    within(mass, Kilograms::ZERO, most)
}

fn within<T: PartialOrd>(amount: Option<T>, least: T, most: T) -> Result<Option<T>, DoubtKind> {
    match amount {
        Some(amount) if amount < least || amount > most => Err(DoubtKind::ImpossibleAmount),
        amount => Ok(amount),
    }
}

fn weighing_state(clause: &[Token]) -> MoistureState {
    if clause.iter().any(|token| token.senses.has(Sense::Dry) || token.is("before")) {
        MoistureState::Dry
    } else {
        MoistureState::Wet
    }
}

fn rain(speech: &Speech, part: &Part, clause: &[Token]) -> Result<Millimetres, DoubtKind> {
    let units = speech.context.garden.units;
    let depth = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Depth(depth) => Some(depth),
        Amount::Length(metres) => Some(Millimetres::new(metres * 1000.0)),
        _ => None,
    });
    let bare = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Count(count) => Some(bare_depth(count, units)),
        _ => None,
    });
    let empty = clause.iter().any(|token| token.is_any(&["empty", "dry", "nothing", "zero"]));
    let depth = depth.or(bare).or(empty.then_some(Millimetres::ZERO)).ok_or(DoubtKind::HowMuch)?;
    within(Some(depth), Millimetres::ZERO, MOST_RAIN)?.ok_or(DoubtKind::HowMuch)
}

fn count(part: &Part) -> Result<Option<u32>, DoubtKind> {
    let count = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Count(count) if count >= 1.0 || count == 0.0 => Some(count),
        _ => None,
    });
    match count {
        Some(count) if !(0.0..=MOST_FIGS).contains(&count) || count.fract() != 0.0 => {
            Err(DoubtKind::ImpossibleAmount)
        }
        count => Ok(count.map(|count| count as u32)),
    }
}

fn minimum(speech: &Speech, part: &Part) -> Result<Option<Celsius>, DoubtKind> {
    let minimum = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Temperature(temperature) => Some(temperature),
        Amount::Count(count) => Some(bare_temperature(count, speech.context.garden.units)),
        _ => None,
    });
    within(minimum, COLDEST, WARMEST_FROST)
}

fn note(speech: &Speech) -> String {
    let text = speech.text.trim();
    let after = text.find(':').map(|colon| &text[colon + 1..]);
    let text = after.unwrap_or_else(|| text.split_once(char::is_whitespace).map_or(text, |(_, rest)| rest));
    const LONGEST: usize = 500;
    text.trim().chars().take(LONGEST).collect()
}
