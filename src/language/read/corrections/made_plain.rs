//! Corrections that give a reason or a part: "dropped one so 11", "skipped Whip", "I meant lbs", "wasn't rust".

use super::left_out;
use super::told_anew::{just_told, report_of};
use crate::language::read::lexicon::Sense;
use crate::language::read::names::Trees;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::language::read::{Speech, doubt};
use crate::season::journal::{Entry, Report, RustAmount, What};
use crate::season::request::{Correction, DoubtKind, Reading, Request};
use crate::units::{Kilograms, Millimetres};

/// Reads a sentence that corrects the one thing just told, if it does.
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> bool {
    let mut just = just_told(speech);
    let (Some(entry), None) = (just.next(), just.next()) else { return false };
    let Some(report) = report_of(entry) else { return false };
    if is_not_done(speech, report) {
        reading.requests.push(Request::Undo);
        return true;
    }
    let correction = is_not_rust(speech, report)
        .or_else(|| is_something_else(speech, report))
        .or_else(|| reckoned_aloud(speech, report))
        .or_else(|| in_other_unit(speech, report))
        .or_else(|| of_all_together(speech, entry))
        .or_else(|| skipped(speech, entry));
    if let Some(correction) = correction {
        reading.requests.push(Request::Correct(correction));
        return true;
    }
    // "Whip only got 1", of pots told together: they would have to be told apart. Within one message it goes on.
    let of_earlier = !speech.context.last_message.is_empty();
    if of_earlier && is_part_told_apart(speech, entry) {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text));
        return true;
    }
    false
}

/// "Wasn't rust", "turns out it's not rust": of the look just told, and no look at every tree.
fn is_not_rust(speech: &Speech, report: &Report) -> Option<Correction> {
    let found = matches!(report, Report::Scouted { amount, .. } if *amount != RustAmount::None);
    let only = speech.tokens.iter().all(|token| {
        token.is_mark()
            || token.is_any(words!("turns out it its it's that that's thats was is wasn't wasnt isn't isnt not rust after all actually sorry no wait oops really i think false alarm"))
    });
    let not = speech.tokens.iter().position(|token| token.is_any(words!("wasn't wasnt isn't isnt not")))?;
    let rust = speech.tokens[not..].iter().any(|token| token.senses.has(Sense::Rust));
    (found && only && rust).then_some(Correction::Severity(RustAmount::None))
}

/// "Nah it's just dirt", "turns out it was just bird poop": what was taken for rust.
fn is_something_else(speech: &Speech, report: &Report) -> Option<Correction> {
    const MOST_WORDS: usize = 12;
    let found = matches!(report, Report::Scouted { amount, .. } if *amount != RustAmount::None);
    let only = speech.tokens.iter().all(|token| {
        token.is_mark()
            || token.senses.has(Sense::Article)
            || token.is_any(words!(
                "nah no nope oh wait sorry turns out it it's its that that's thats was is were they just only some bit of all i think really bird spray copper residue dirt poop droppings dust mud pollen sunburn scorch frass paint actually wiped wiped-off rubbed came comes off washed right not rust"
            ))
    });
    let other = speech.tokens.iter().any(|token| {
        token.is_any(words!("residue dirt poop droppings dust mud pollen sunburn scorch frass paint"))
    });
    let takes_back = super::second_thoughts::takes_back(speech.tokens)
        || speech.tokens.iter().any(|token| token.is_any(words!("just only turns")));
    let short = speech.tokens.len() <= MOST_WORDS && speech.mentions.is_empty();
    (found && only && other && takes_back && short).then_some(Correction::Severity(RustAmount::None))
}

/// "Didn't actually spray, rained out": what was told as done was not.
fn is_not_done(speech: &Speech, report: &Report) -> bool {
    const MOST_WORDS: usize = 12;
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    let lead = words
        .iter()
        .take_while(|token| token.is_any(words!("i we no sorry oops wait actually so ok oh hmm")))
        .count();
    let words = &words[lead..];
    let not = match words {
        [first, ..] if first.is_any(words!("didn't didnt never haven't")) => 1,
        [first, second, ..] if first.is("did") && second.is("not") => 2,
        _ => return false,
    };
    let rest = &words[not..];
    let between =
        rest.iter().take_while(|token| token.is_any(words!("actually really end ended up even"))).count();
    let stem = rest.get(between).is_some_and(|verb| match report {
        Report::Sprayed { .. } => verb.is_any(words!("spray spraying sprayed")),
        Report::Watered { .. } => verb.is_any(words!("water watering watered")),
        Report::Picked { .. } => verb.is_any(words!("pick picking picked")),
        _ => false,
    });
    // "Didn't spray enough", "didn't spray Corner", "didn't water yesterday" leave what was told.
    let behind = rest.get(between + 1..).unwrap_or_default();
    let whole = behind.first().is_none_or(|next| {
        next.is_any(words!("it them that at after because cause cuz since as though"))
            || next.senses.has_any(&[Sense::Rain, Sense::Rained])
    });
    let partly = behind.iter().any(|token| {
        token.number.is_some()
            || token.is_any(words!(
                "enough yesterday much well underside tops rest others yet any anything today"
            ))
    });
    words.len() <= MOST_WORDS && stem && whole && !partly && speech.mentions.is_empty()
}

/// "Dropped one so 11", "actually 13, Bo found one more", behind twelve: the sum shows what is meant.
fn reckoned_aloud(speech: &Speech, report: &Report) -> Option<Correction> {
    const MOST_WORDS: usize = 12;
    let Report::Picked { count: Some(before), .. } = report else { return None };
    let tokens = speech.tokens;
    let numbers: Vec<(usize, f64)> =
        tokens.iter().enumerate().filter_map(|(at, token)| Some((at, token.number?))).collect();
    let [first, second] = numbers.as_slice() else { return None };
    if tokens.len() > MOST_WORDS || !speech.mentions.is_empty() {
        return None;
    }
    let led = |at: usize| {
        tokens[..at]
            .iter()
            .rev()
            .take(3)
            .any(|token| token.is_any(words!("so actually makes that's it's was really total no make")))
    };
    // "Watered fig no. 7, 2 gal" counts no figs.
    let measured = numbers
        .iter()
        .any(|(at, _)| tokens.get(at + 1).is_some_and(|unit| unit.senses.has(Sense::Unit) && !unit.is("in")));
    let other = tokens.iter().any(|token| token.senses.has_any(&[Sense::Watered, Sense::Sprayed]));
    if measured || other {
        return None;
    }
    let before = f64::from(*before);
    [(first, second), (second, first)].into_iter().find_map(|(total, part)| {
        let sums = ((before - total.1).abs() - part.1).abs() < 1e-9 && part.1 > 0.0;
        (sums && led(total.0) && total.1 >= 1.0).then_some(Correction::Number(total.1))
    })
}

/// "I meant lbs", "mm not inches": the number told, in another unit.
fn in_other_unit(speech: &Speech, report: &Report) -> Option<Correction> {
    const MOST_WORDS: usize = 7;
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    let corrects = words.iter().any(|token| token.is_any(words!("meant mean not sorry oops make that's *")))
        || words.len() == 1;
    let only = words.iter().all(|token| {
        token.senses.has(Sense::Unit)
            || token.senses.has(Sense::Fig)
            || token
                .is_any(words!("i meant mean not sorry oops no that that's it was make should be wait in"))
    });
    let not = words.iter().position(|token| token.is("not")).unwrap_or(words.len());
    let unit = |texts| words[..not].iter().any(|token| token.is_any(texts));
    if words.len() > MOST_WORDS || !corrects || !only {
        return None;
    }
    match report {
        Report::Picked { count: Some(count), mass: None } => {
            let number = f64::from(*count);
            if unit(words!("lb lbs pound pounds")) {
                Some(Correction::Mass(Kilograms::from_pounds(number)))
            } else if unit(words!("kg kilo kilos")) {
                Some(Correction::Mass(Kilograms::new(number)))
            } else {
                None
            }
        }
        // A gauge in inches, read in millimetres.
        Report::Rained { depth } if unit(words!("mm millimetres millimeters")) => {
            let number = depth.value() / 25.4;
            (number >= 1.0).then_some(Correction::Depth(Millimetres::new(number)))
        }
        _ => None,
    }
}

/// "Total, not each": the volume told is of all the trees together.
fn of_all_together(speech: &Speech, entry: &Entry) -> Option<Correction> {
    let What::Report { trees, report: Report::Watered { volume: Some(volume), .. } } = &entry.what else {
        return None;
    };
    let only = speech.tokens.iter().all(|token| {
        token.is_mark()
            || token.is_any(words!("total in all altogether together not each that was i meant mean sorry no it's the for them of"))
    });
    let total = speech.tokens.iter().any(|token| token.is_any(words!("total altogether together")));
    (only && total && trees.len() > 1).then(|| Correction::Volume(*volume / trees.len() as f64))
}

/// "Skipped Whip", "forgot Eave", "didn't get to Corner": the others were done.
fn skipped(speech: &Speech, entry: &Entry) -> Option<Correction> {
    let named: Vec<usize> = speech.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
    let only = speech.tokens.iter().enumerate().all(|(index, token)| {
        named.contains(&index)
            || token.is_mark()
            || token.is_any(words!("i we skipped missed forgot didn't didnt did not do get to but and though tho oops sorry the actually left out"))
    });
    let left = speech.tokens.iter().any(|token| token.is_any(words!("skipped missed forgot")))
        || speech.tokens.windows(2).any(|pair| {
            pair[0].is_any(words!("get left")) && pair[1].is_any(words!("to out"))
                || pair[0].is_any(words!("didn't didnt not")) && pair[1].is("do")
        });
    let done =
        matches!(&entry.what, What::Report { report: Report::Sprayed { .. } | Report::Watered { .. }, .. });
    if !only || !left || !done || named.is_empty() {
        return None;
    }
    let trees =
        speech.mentions.iter().fold(Trees::default(), |trees, mention| trees.together(mention.trees.clone()));
    left_out(speech, &trees, Some(entry)).map(Correction::Trees)
}

/// One tree of several told together, with a number of its own.
fn is_part_told_apart(speech: &Speech, entry: &Entry) -> bool {
    const MOST_WORDS: usize = 8;
    let What::Report { trees, report } = &entry.what else { return false };
    let [mention] = speech.mentions.as_slice() else { return false };
    let Some(selection) = speech.names.selection(&mention.trees, &[]) else { return false };
    let named = crate::season::selection::selected(speech.context.garden, &selection);
    let inside = named.len() < trees.len() && named.iter().all(|name| trees.contains(name));
    let counted = matches!(report, Report::Watered { .. } | Report::Sprayed { .. } | Report::Picked { .. });
    let behind = &speech.tokens[mention.range.end.min(speech.tokens.len())..];
    let number = behind.iter().any(|token| token.number.is_some());
    let only = behind.iter().all(|token| {
        token.number.is_some()
            || token.is_mark()
            || token.senses.has(Sense::Unit)
            || token.is_any(words!("only just got had was gave took a about though tho"))
    });
    let verb = behind.iter().any(|token| token.is_any(words!("got had was took")));
    let leads = speech.tokens[..mention.range.start]
        .iter()
        .all(|token| token.is_mark() || token.is_any(words!("but and no the oops sorry actually")));
    speech.tokens.len() <= MOST_WORDS && inside && counted && number && only && verb && leads
}
