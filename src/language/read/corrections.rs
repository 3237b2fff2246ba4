//! "No, only the two by the wall", "make that 20", "I meant sulfur", "it was yesterday", "19 not 9".

mod amending;
mod amendment;
mod first_reading;
mod made_plain;
mod meant;
mod not_anew;
mod of_words;
mod retold;
mod second_thoughts;
mod slip;
mod told_anew;
mod value_alone;

pub(super) use self::second_thoughts::{and_more, only_owns_up};
pub(super) use self::slip::read as read_slip;
pub(super) use self::told_anew::told_of_all;

use self::amendment::{Amendment, Strength, before_idle_tail, behind_owning_up};
use self::of_words::{is_wish, of_words};
use super::amounts::{Amount, amounts, bare_depth};
use super::clauses::Asked;
use super::lexicon::{Sense, Senses};
use super::moments::moment;
use super::names::{Product, Trees};
use super::tokens::Token;
use super::{Context, Speech, doubt};
use crate::language::read::word_list::words;
use crate::season::garden::UnitSystem;
use crate::season::journal::{Entry, Report, RustAmount, What};
use crate::season::request::{Correction, Doubt, DoubtKind, Reading, Record, Request, Selection, When};
use crate::season::selection::selected;
use crate::units::{Kilograms, Litres};

/// "The correct number for Celeste is 8", of figs of Celeste: whose they are was not in question.
pub(super) fn drop_unchanged(context: &Context, reading: &mut Reading) {
    if context.last_message.len() > 1 {
        return;
    }
    let Some(What::Report { trees: before, .. }) = context.last.map(|last| &last.what) else { return };
    let same = |request: &Request| {
        matches!(request, Request::Correct(Correction::Trees(trees)) if {
            let now = selected(context.garden, trees);
            now.len() == before.len() && now.iter().all(|name| before.contains(name))
        })
    };
    // "Those nine figs were yesterday", of nine.
    let count = match &context.last.map(|last| &last.what) {
        Some(What::Report { report: Report::Picked { count: Some(count), .. }, .. }) => {
            Some(f64::from(*count))
        }
        _ => None,
    };
    if reading.requests.len() > 1 {
        reading.requests.retain(|request| {
            !matches!(request, Request::Correct(Correction::Number(number)) if Some(*number) == count)
        });
    }
    let others = reading.requests.iter().any(|request| !same(request));
    if others {
        reading.requests.retain(|request| !same(request));
    }
}

/// Reads a sentence as a correction of the last report, if it opens or closes like one.
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> bool {
    let conditional =
        speech.tokens.first().is_some_and(|first| first.is_any(words!("if when unless whenever")));
    // "Supposed to be 97 tomorrow"
    let forecast = speech.tokens.iter().any(|token| token.is_any(words!("tomorrow tmrw forecast")))
        && speech.tokens.iter().any(|token| token.number.is_some());
    // "Leaves dropping off Eave, not many": few, and nothing taken back.
    let few = speech.tokens.windows(2).any(|pair| pair[0].is("not") && pair[1].is_any(words!("many much")))
        && !speech.tokens.iter().any(|token| token.number.is_some())
        && !speech.tokens.first().is_some_and(|first| first.is_any(words!("no not")));
    if is_wish(speech.tokens) || forecast || few {
        return false;
    }
    if speech.asked == Asked::Yes || conditional || is_of_a_setting(speech) {
        return false;
    }
    if let Some(behind) = behind_owning_up(speech.tokens) {
        let told = speech.part(behind);
        if let Some(amendment) = Amendment::of(behind)
            && is_fragment(&speech.part(amendment.tokens))
            && read(&told, reading)
        {
            return true;
        }
    }
    if let Some(trees) = only_some(speech) {
        reading.requests.push(Request::Correct(Correction::Trees(trees)));
        return true;
    }
    if let Some(correction) = measured_anew(speech) {
        reading.requests.push(Request::Correct(correction));
        return true;
    }
    if speech.context.last.is_some()
        && let Some(correction) = retold::not_one_but_other(speech)
    {
        reading.requests.push(correction);
        return true;
    }
    if let Some(correction) = second_thoughts::left_out_for_a_reason(speech) {
        reading.requests.push(correction);
        return true;
    }
    if is_no_rust_after_all(speech) {
        reading.requests.push(Request::Correct(Correction::Severity(RustAmount::None)));
        return true;
    }
    if told_anew::read(speech, reading) || made_plain::read(speech, reading) {
        return true;
    }
    // "I sprayed it on Eave", behind figs picked: other work, and nothing put right.
    if let ([who, verb, ..], Some(What::Report { report, .. })) =
        (speech.tokens, speech.context.last.map(|last| &last.what))
        && who.is_any(words!("i we"))
        && verb.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked])
        && !is_verb_of(verb.senses, Some(report))
    {
        return false;
    }
    let Some(mut amendment) = Amendment::of(speech.tokens) else {
        return without_its_reason(speech, reading);
    };
    // "No, it's wet, somebody got there first"
    if !is_fragment(&speech.part(amendment.tokens)) {
        amendment.tokens = before_idle_tail(amendment.tokens);
    }
    if !is_fragment(&speech.part(amendment.tokens)) {
        amendment.tokens = told_anew::before_what_was_missed(amendment.tokens, speech.context.last);
    }
    // "Only 5 because of the squirrels" takes nothing back.
    let takes_back = amendment.strength == Strength::Strong || second_thoughts::takes_back(speech.tokens);
    if takes_back && !is_fragment(&speech.part(amendment.tokens)) {
        amendment.tokens = second_thoughts::before_reason(speech, amendment.tokens);
    }
    let fragment = speech.part(amendment.tokens);
    if amendment.strength == Strength::Weak && !is_fragment(&fragment) {
        return false;
    }
    let found = match corrections(&fragment, &amendment) {
        Found::Corrections(found) if !found.is_empty() => found,
        Found::Doubt(doubt) if speech.context.last.is_some() => {
            reading.doubts.push(doubt);
            return true;
        }
        // "Make it copper", where nothing was sprayed
        _ if amendment.strength == Strength::Strong
            && speech.mentions.is_empty()
            && speech.tokens.first().is_some_and(|first| first.is_any(words!("make change i")))
            && fragment.tokens.len() <= 3
            && fragment
                .tokens
                .iter()
                .any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])) =>
        {
            reading.doubts.push(doubt(DoubtKind::NothingThere, speech.text));
            return true;
        }
        _ => return without_its_reason(speech, reading),
    };
    // "Picked Celeste, didn't count. 4 off Big One tho": told beside the first, in the same message.
    let of_this_message = speech.context.last_message.is_empty();
    let measured = |correction: &Correction| {
        matches!(correction, Correction::Number(_) | Correction::Volume(_) | Correction::Mass(_))
    };
    if of_this_message
        && amendment.strength == Strength::Weak
        && found.iter().any(|correction| matches!(correction, Correction::Trees(_)))
        && found.iter().any(measured)
    {
        return false;
    }
    // "I mean .65 inches", behind a gauge nobody could believe: told for the first time.
    if let [Correction::Depth(depth)] = found.as_slice()
        && amendment.strength == Strength::Strong
        && !speech.context.last.is_some_and(|last| {
            matches!(&last.what, What::Report { report, .. } if suits(Some(report), &Correction::Depth(*depth)))
        })
    {
        reading.requests.push(Request::Record(Record {
            trees: Selection::Unsaid,
            when: When::Unsaid,
            report: Report::Rained { depth: *depth },
        }));
        return true;
    }
    if speech.context.last.is_none() {
        if amendment.strength == Strength::Weak {
            return false;
        }
        reading.doubts.push(doubt(DoubtKind::NothingThere, speech.text));
        return true;
    }
    reading.spellings.extend(fragment.mentions.iter().flat_map(|mention| mention.trees.spellings.clone()));
    reading.requests.extend(found.into_iter().map(Request::Correct));
    true
}

/// "Make it 6:30 for the brief", "could the morning message come at 6.15 instead", "Whip's pot is 7 gal now not 5": no
/// report is put right.
fn is_of_a_setting(speech: &Speech) -> bool {
    let says = |list| speech.tokens.iter().any(|token| token.is_any(list));
    let brief = says(words!("brief briefs briefing briefings"))
        || says(words!("message messages")) && says(words!("morning come send daily"));
    // The tree, its pot, and a size.
    let size = speech
        .tokens
        .windows(2)
        .any(|pair| pair[0].senses.has(Sense::Pot) && pair[1].is_any(words!("is size volume holds")));
    let one = matches!(speech.mentions.as_slice(), [mention] if mention.trees.is_one());
    let measured =
        speech.tokens.windows(2).any(|pair| pair[0].number.is_some() && pair[1].senses.has(Sense::Unit));
    // "New tree add please, name is Gate, it is in ground"
    let new = speech.tokens.first().is_some_and(|first| first.is_any(words!("add new")))
        && speech.tokens.iter().take(4).any(|token| token.is("tree"));
    new || brief || size && one && measured
}

/// "Correction sulfur not copper, got my bags mixed up": read once more without the words that only say why.
fn without_its_reason(speech: &Speech, reading: &mut Reading) -> bool {
    if !second_thoughts::takes_back(speech.tokens) {
        return false;
    }
    let told = second_thoughts::before_reason(speech, speech.tokens);
    told.len() < speech.tokens.len() && told.len() > 1 && read(&speech.part(told), reading)
}

/// "No, it was no rust", "no rust, sorry", behind a look that found some: that look, and no new one of every tree.
fn is_no_rust_after_all(speech: &Speech) -> bool {
    let seen = speech.context.last.is_some_and(|last| {
        matches!(&last.what, What::Report { report: Report::Scouted { amount, .. }, .. } if *amount != RustAmount::None)
    });
    let none = speech.tokens.windows(2).any(|pair| pair[0].is("no") && pair[1].is("rust"));
    let owned_up = speech
        .tokens
        .iter()
        .any(|token| token.is_any(words!("sorry was actually oops mistake wasn't after wait")));
    let nothing_else = speech.tokens.iter().all(|token| {
        token.is_mark()
            || token
                .is_any(words!("no rust it was that there is sorry actually oops my mistake after all wait"))
    });
    seen && none && owned_up && nothing_else
}

/// "3 lb, forgot the second bowl", behind "picked 2 lb off Wall": the same measured anew.
fn measured_anew(speech: &Speech) -> Option<Correction> {
    let last = speech.context.just_said()?;
    let What::Report { report, .. } = &last.what else { return None };
    // A figure comes first.
    speech.tokens.first()?.number?;
    let tokens = before_idle_tail(speech.tokens);
    let found = amounts(tokens, &[], speech.context.garden.units);
    let [measured] = found.as_slice() else { return None };
    let only = measured.from == 0 && measured.to == tokens.len();
    let correction = match (measured.amount, report) {
        (Amount::Mass(mass), Report::Picked { mass: Some(_), .. } | Report::Weighed { .. }) => {
            Correction::Mass(mass)
        }
        (
            Amount::Volume(volume),
            Report::Watered { volume: Some(_), .. } | Report::Sprayed { volume: Some(_), .. },
        ) => Correction::Volume(volume),
        (Amount::Depth(depth), Report::Rained { .. }) => Correction::Depth(depth),
        _ => return None,
    };
    only.then_some(correction)
}

fn has_verb_of_work(tokens: &[Token]) -> bool {
    tokens.iter().any(|token| is_verb(token.senses))
}

fn is_verb(senses: Senses) -> bool {
    senses.has_any(&[
        Sense::Sprayed,
        Sense::Spraying,
        Sense::Spray,
        Sense::Watered,
        Sense::Watering,
        Sense::Picked,
        Sense::Picking,
        Sense::Rained,
        Sense::Froze,
        Sense::Gauge,
        Sense::Rust,
        Sense::Spots,
        Sense::Planted,
        Sense::Seen,
    ])
}

/// Nothing but names, sprays, amounts, times, levels and the words that lead them in.
fn is_fragment(speech: &Speech) -> bool {
    let named: Vec<usize> = speech.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
    let told = moment(speech.tokens, &named, speech.now()).used;
    speech.tokens.iter().enumerate().all(|(index, token)| {
        named.contains(&index)
            || told.contains(&index)
            || token.is_mark()
            || token.number.is_some()
            || token.senses.has_any(&[
                Sense::Article,
                Sense::Link,
                Sense::Unit,
                Sense::Copper,
                Sense::Sulfur,
                Sense::Oil,
                Sense::Filler,
                Sense::Lower,
                Sense::Upper,
                Sense::Middle,
                Sense::Heavy,
                Sense::Trace,
                Sense::Leaf,
                Sense::Rain,
                Sense::Wet,
                Sense::Dry,
                Sense::Moist,
                Sense::Swell,
                Sense::Ripening,
                Sense::Ripe,
                Sense::Dormant,
                Sense::LeafOut,
            ])
            || !speech.names.products_in(&speech.tokens[index..=index], &[]).is_empty()
            || token.is_any(words!("one ones only just about class figs fig of none not and i used it them all except excluding but was were still there and actually"))
            || is_verb(token.senses)
            || second_thoughts::goes_with_the_told(speech, token)
    })
}

enum Found {
    Corrections(Vec<Correction>),
    Doubt(Doubt),
}

fn corrections(speech: &Speech, amendment: &Amendment) -> Found {
    let tokens = speech.tokens;
    let last = speech.context.last;
    let report = last.and_then(|entry| match &entry.what {
        What::Report { report, .. } => Some(report),
        What::Setting(_) => None,
    });
    // A whole report of another kind is a report of its own.
    if tokens.iter().any(|token| is_verb(token.senses) && !is_verb_of(token.senses, report)) {
        return Found::Corrections(Vec::new());
    }
    // So is work with a spray or with water, where the last report was of something else.
    let sprays = tokens.iter().any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
    let waters = tokens.iter().any(|token| token.senses.has(Sense::Water));
    if sprays && !matches!(report, Some(Report::Sprayed { .. }) | None)
        || waters && !matches!(report, Some(Report::Watered { .. }) | None)
    {
        return Found::Corrections(Vec::new());
    }
    let small_talk =
        tokens.iter().any(|token| token.is_any(words!("hot degrees cold humid out outside fun left")));
    let mut found = Vec::new();
    let mut trees = Trees::default();
    for mention in &speech.mentions {
        trees = trees.together(mention.trees.clone());
    }
    if let Some((range, candidates)) = speech.names.unsure(&trees).filter(|_| !trees.is_vague()) {
        let words = speech.typed(range.start, range.end).to_owned();
        return Found::Doubt(Doubt { kind: DoubtKind::WhichTree, words, candidates });
    }
    if amendment.leaves_out || !trees.names_some() && !trees.is_empty() {
        found.extend(left_out(speech, &trees, last).map(Correction::Trees));
        return Found::Corrections(found);
    }
    if let Some(selection) = speech.names.selection(&trees, &[]).filter(|_| !trees.is_vague()) {
        found.push(Correction::Trees(selection));
    }
    let named: Vec<usize> = speech.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
    if let Some(Product::Known { name, .. }) = speech.names.products_in(tokens, &named).into_iter().next() {
        let product = Correction::Product(name);
        if amendment.strength == Strength::Strong || suits(report, &product) {
            found.push(product);
        }
    }
    let moment = moment(tokens, &named, speech.now());
    if moment.impossible {
        return Found::Doubt(doubt(DoubtKind::ImpossibleDate, speech.typed(0, tokens.len())));
    }
    if moment.is_said() && !small_talk {
        match moment.when(speech.now()) {
            // "It was this morning" with nothing more is the day, not this minute.
            When::Unsaid => {}
            When::At(at) | When::OnDay(at) if at > speech.context.at && moment.is_beyond(speech.now()) => {
                return Found::Doubt(doubt(DoubtKind::StillToCome, speech.typed(0, tokens.len())));
            }
            when => found.push(Correction::When(when)),
        }
    }
    let mut taken = named;
    taken.extend(&moment.used);
    for measured in amounts(tokens, &taken, speech.context.garden.units) {
        if matches!(measured.amount, Amount::Impossible) {
            return Found::Doubt(doubt(DoubtKind::ImpossibleAmount, speech.typed(0, tokens.len())));
        }
        // "The glass has two scales": of nothing told before.
        let before = measured.from.checked_sub(1).and_then(|at| tokens.get(at));
        let of_else = matches!(measured.amount, Amount::Count(_))
            && before.is_some_and(|have| have.is_any(words!("has have had with")))
            && tokens.get(measured.to).is_some_and(|noun| {
                noun.is_word()
                    && (super::names::is_unknown(noun)
                        || noun.senses.has_any(&[Sense::Weighed, Sense::Thing]))
            });
        if of_else {
            continue;
        }
        if !(small_talk && matches!(measured.amount, Amount::Count(_) | Amount::Temperature(_))) {
            let correction = of_amount(measured.amount, report, speech.context.garden.units);
            // "Ok 2 gallons on Big One", behind a harvest: a report of its own.
            let measured_amount = measured.amount;
            let measured = matches!(measured.amount, Amount::Volume(_) | Amount::Mass(_) | Amount::Depth(_));
            let odd = correction.as_ref().is_some_and(|correction| !suits(report, correction));
            let leaves = matches!(measured_amount, Amount::Leaves(_) | Amount::LeavesOf { .. })
                && !matches!(report, Some(Report::Scouted { .. } | Report::LeafDrop { .. }) | None);
            if (measured && odd || leaves) && amendment.strength == Strength::Weak {
                return Found::Corrections(Vec::new());
            }
            found
                .extend(correction.filter(|correction| {
                    amendment.strength == Strength::Strong || suits(report, correction)
                }));
        }
    }
    // "More like 3, the can only holds 1.5": which of the two, is not said.
    let of_a_kind = |one: &Correction, other: &Correction| {
        std::mem::discriminant(one) == std::mem::discriminant(other) && one != other
    };
    let twice = (1..found.len()).any(|at| found[..at].iter().any(|before| of_a_kind(before, &found[at])));
    if twice {
        return Found::Doubt(doubt(DoubtKind::NotUnderstood, speech.typed(0, tokens.len())));
    }
    if found.is_empty() {
        found.extend(of_words(tokens, report));
    }
    Found::Corrections(found)
}

/// Whether a verb is the one of the report being corrected: "no, I sprayed sulfur".
fn is_verb_of(senses: Senses, report: Option<&Report>) -> bool {
    let own: &[Sense] = match report {
        Some(Report::Sprayed { .. }) => &[Sense::Sprayed, Sense::Spraying, Sense::Spray],
        Some(Report::Watered { .. }) => &[Sense::Watered, Sense::Watering, Sense::Water],
        Some(Report::Picked { .. }) => &[Sense::Picked, Sense::Picking],
        Some(Report::Rained { .. }) => &[Sense::Rained, Sense::Gauge],
        Some(Report::Scouted { .. }) => &[Sense::Rust, Sense::Spots],
        Some(Report::Moisture { .. }) => &[Sense::Wet, Sense::Dry, Sense::Watered],
        _ => &[],
    };
    senses.has_any(own)
}

/// The trees of the last report without those left out now.
fn left_out(speech: &Speech, trees: &Trees, last: Option<&Entry>) -> Option<Selection> {
    let mut unwanted = speech.names.left_out(trees);
    if unwanted.is_empty() {
        unwanted = match speech.names.selection(trees, &[])? {
            Selection::AllBut(names) => names,
            Selection::Named(names) => names,
            Selection::Group(group) => vec![group],
            _ => return None,
        };
    }
    let garden = speech.context.garden;
    let all_but = Selection::AllBut(unwanted);
    let kept = selected(garden, &all_but);
    let before = match last.map(|entry| &entry.what) {
        Some(What::Report { trees, .. }) if !trees.is_empty() && trees.len() < garden.trees.len() => trees,
        _ => return Some(all_but),
    };
    let names: Vec<String> = before.iter().filter(|name| kept.contains(name)).cloned().collect();
    // Left out of what they were not in: nothing to correct.
    (!names.is_empty() && names.len() < before.len()).then_some(Selection::Named(names))
}

/// "Should be more like 20 by next week", "mom got 8 not 9 off hers": nothing told before is put right by it.
pub(super) fn is_of_something_else(tokens: &[Token]) -> bool {
    tokens.iter().any(|token| token.is_any(words!("hers theirs")))
        || tokens.windows(2).any(|pair| {
            pair[0].is("next") && pair[1].is_any(words!("week weekend month year season summer spring"))
        })
        || tokens.windows(3).any(|three| {
            three[0].is_any(words!("isn't isnt not")) && three[1].is("in") && three[2].is_any(words!("a pot"))
        })
}

/// Whether the last report has a place for a correction; "only half an inch" of figs has not.
fn suits(report: Option<&Report>, correction: &Correction) -> bool {
    match correction {
        Correction::Depth(_) => matches!(report, Some(Report::Rained { .. } | Report::Watered { .. })),
        Correction::Volume(_) => matches!(report, Some(Report::Watered { .. } | Report::Sprayed { .. })),
        Correction::Mass(_) => matches!(report, Some(Report::Picked { .. } | Report::Weighed { .. })),
        Correction::Severity(_) => matches!(report, Some(Report::Scouted { .. } | Report::LeafDrop { .. })),
        Correction::Product(_) => matches!(report, Some(Report::Sprayed { .. })),
        Correction::Number(_) => {
            matches!(report, Some(Report::Picked { .. } | Report::Scouted { .. } | Report::LeafDrop { .. }))
        }
        _ => true,
    }
}

fn of_amount(amount: Amount, last: Option<&Report>, units: UnitSystem) -> Option<Correction> {
    let us = units == UnitSystem::Us && !last.is_some_and(is_told_in_metric);
    Some(match amount {
        Amount::Depth(depth) => Correction::Depth(depth),
        Amount::Volume(volume) => Correction::Volume(volume),
        Amount::Mass(mass) => Correction::Mass(mass),
        Amount::Share(share) => Correction::Severity(RustAmount::Severity(share)),
        Amount::Class(class) if (0.0..=5.0).contains(&class) => {
            Correction::Severity(RustAmount::Class(class as u8))
        }
        Amount::LeavesOf { spotted, of } if spotted <= of => {
            Correction::Severity(RustAmount::Leaves { spotted: spotted as u32, of: of as u32 })
        }
        // A bare number takes the unit of what it corrects, in the garden's own system.
        Amount::Count(count) => match last {
            Some(Report::Rained { .. }) => {
                Correction::Depth(bare_depth(count, if us { units } else { UnitSystem::Metric }))
            }
            Some(Report::Watered { volume: Some(_), .. } | Report::Sprayed { volume: Some(_), .. }) => {
                Correction::Volume(if us { Litres::from_gallons(count) } else { Litres::new(count) })
            }
            Some(Report::Picked { count: None, mass: Some(_) } | Report::Weighed { .. }) => {
                Correction::Mass(if us { Kilograms::from_pounds(count) } else { Kilograms::new(count) })
            }
            _ => Correction::Number(count),
        },
        _ => return None,
    })
}

/// Told in litres, kilograms or millimetres, as its round figure shows: "it was three" behind four litres is three
/// litres, whatever the garden's units.
fn is_told_in_metric(report: &Report) -> bool {
    const NEAR: f64 = 1e-6;
    let round = |value: f64| value > 0.0 && (value - value.round()).abs() < NEAR;
    let quarter = |value: f64| round(value * 4.0);
    match report {
        Report::Watered { volume: Some(volume), .. } | Report::Sprayed { volume: Some(volume), .. } => {
            round(volume.value()) && !quarter(volume.as_gallons())
        }
        Report::Picked { mass: Some(mass), .. } | Report::Weighed { mass, .. } => {
            round(mass.value()) && !quarter(mass.as_pounds())
        }
        Report::Rained { depth } => round(depth.value()) && !round(depth.as_inches() * 100.0),
        _ => false,
    }
}

/// "Whip dead, lol, just kidding": told in jest, and nothing told before is put right by it.
pub(super) fn is_joke(tokens: &[Token]) -> bool {
    let mut back = tokens.iter().rev().filter(|token| !token.is_mark());
    let kidding = back.next().is_some_and(|last| {
        last.is("jk")
            || last.is("kidding") && back.next().is_some_and(|just| just.is_any(words!("just only")))
    });
    let denies = tokens.first().is_some_and(|first| first.is_any(words!("no not actually only just make")));
    let told = tokens.iter().filter(|token| token.is_word()).count() > 3;
    kidding && told && !denies && !tokens.iter().any(|token| token.number.is_some())
}

/// "Not all the pots, only Celeste and Eave": those behind "only".
fn only_some(speech: &Speech) -> Option<Selection> {
    let tokens = speech.tokens;
    let denies = tokens.first()?.is("not") && tokens.get(1)?.is_any(words!("all every everything"));
    let only = tokens.iter().position(|token| token.is_any(words!("only just")))?;
    speech.context.last.filter(|_| denies && only > 2)?;
    let meant = speech.mentions.iter().filter(|mention| mention.range.start > only);
    let trees = meant.map(|mention| mention.trees.clone()).reduce(|one, other| one.together(other))?;
    speech.names.selection(&trees, &[])
}

/// "Unit 12 enroute ... oops wrong chat": meant for others, figures and all.
pub(super) fn is_for_another_room(text: &str) -> bool {
    const FEW: usize = 6;
    let lower = text.to_lowercase();
    ["wrong chat", "wrong group", "wrong thread", "wrong window", "wrong text"]
        .iter()
        .any(|wrong| lower.contains(wrong))
        && text.split_whitespace().count() > FEW
}
