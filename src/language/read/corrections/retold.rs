//! The last report told anew in a few words: "Corner was 7", "lots", "8 more", "double that", "I did not pick 5, I picked 15".

use super::{is_verb, is_verb_of, of_amount};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::journal::{Report, RustAmount, RustWords, What};
use crate::season::request::{Correction, Record, Request, Selection, When};
use crate::season::selection::selected;
use crate::units::Litres;

/// What was reported longer ago is not told anew in a few words.
const JUST_SAID: chrono::TimeDelta = chrono::TimeDelta::hours(1);

pub(super) fn read(speech: &Speech) -> Option<Vec<Request>> {
    let last = speech.context.last.filter(|last| speech.context.at - last.said <= JUST_SAID)?;
    let What::Report { trees, report } = &last.what else { return None };
    not_one_but_other(speech)
        .or_else(|| one_tree_was(speech, trees, report))
        .or_else(|| not_this_but_that(speech, report).map(corrected))
        .or_else(|| how_much_rust(speech, report).map(corrected))
        .or_else(|| multiple(speech, report).map(corrected))
        .or_else(|| more(speech, trees, report))
}

fn corrected(correction: Correction) -> Vec<Request> {
    vec![Request::Correct(correction)]
}

/// "Wait not Corner Wall": the second of them.
fn not_one_but_other(speech: &Speech) -> Option<Vec<Request>> {
    const MOST_WORDS: usize = 10;
    let opens = |token: &Token| {
        token.is_mark() || token.is_any(words!("wait no sorry oops it was oh ah actually on i mean meant"))
    };
    let not = speech.tokens.iter().take(4).position(|token| token.is("not"))?;
    let behind = speech.part(&speech.tokens[not + 1..]);
    let [one, other] = behind.mentions.as_slice() else { return None };
    let beside = one.range.start == 0 && one.range.end == other.range.start;
    let only = speech.tokens[..not].iter().all(opens) && behind.tokens[other.range.end..].iter().all(opens);
    let trees = speech.names.selection(&other.trees, &[])?;
    (beside && only && speech.tokens.len() <= MOST_WORDS).then(|| corrected(Correction::Trees(trees)))
}

/// "Corner was 7", behind a harvest of Corner: that one, and its number.
fn one_tree_was(speech: &Speech, trees: &[String], report: &Report) -> Option<Vec<Request>> {
    let [mention] = speech.mentions.as_slice() else { return None };
    let selection = speech.names.selection(&mention.trees, &[])?;
    let rest = &speech.tokens[mention.range.end..];
    let said = rest.first().is_some_and(|was| was.is_any(words!("was had gave made got")));
    if mention.range.start > 1 || !said || selected(speech.context.garden, &selection) != *trees {
        return None;
    }
    let found = amounts(rest, &[0], speech.context.garden.units);
    let [measured] = found.as_slice() else { return None };
    let fruit = rest
        .iter()
        .skip(measured.to)
        .all(|token| token.is_mark() || token.is_any(words!("figs fig not actually sorry though")));
    let counted = matches!(measured.amount, Amount::Count(_)) && matches!(report, Report::Picked { .. });
    if !(fruit && counted && measured.from == 1) {
        return None;
    }
    let number = of_amount(measured.amount, Some(report), speech.context.garden.units)?;
    Some(vec![Request::Correct(Correction::Trees(selection)), Request::Correct(number)])
}

/// "I did not pick 5, I picked 15"
fn not_this_but_that(speech: &Speech, report: &Report) -> Option<Correction> {
    let tokens = speech.tokens;
    let denied = tokens.iter().take(4).position(|token| token.senses.has(Sense::Negation))?;
    let parted = denied + tokens[denied..].iter().position(|token| token.is_any(words!(", ; - but it")))?;
    let (before, after) = (&tokens[..parted], &tokens[parted + 1..]);
    let own_verb = |part: &[Token]| {
        part.iter().any(|token| {
            is_verb(token.senses) || token.senses.has_any(&[Sense::Pick, Sense::Water, Sense::Spray])
        })
    };
    let of_report = after.iter().any(|token| is_verb_of(token.senses, Some(report)));
    let number = |part: &[Token]| {
        let found = amounts(part, &[], speech.context.garden.units);
        match found.as_slice() {
            [one] => Some(one.amount),
            _ => None,
        }
    };
    let (_, new) = (number(before)?, number(after)?);
    if !own_verb(before) || !of_report || !speech.mentions.is_empty() {
        return None;
    }
    of_amount(new, Some(report), speech.context.garden.units)
}

/// "Lots", "just a few spots": how much rust, where that was left open.
fn how_much_rust(speech: &Speech, report: &Report) -> Option<Correction> {
    const MOST_WORDS: usize = 3;
    let open = matches!(report, Report::Scouted { amount: RustAmount::Words(_), .. });
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    let only = words.iter().all(|token| {
        token.senses.has_any(&[Sense::Heavy, Sense::Trace, Sense::Article])
            || token.is_any(words!("a of it just only spots rust lot"))
    });
    if !open || !only || words.is_empty() || words.len() > MOST_WORDS {
        return None;
    }
    let heavy = words.iter().any(|token| token.senses.has(Sense::Heavy) || token.is("lot"));
    let trace = words.iter().any(|token| token.senses.has(Sense::Trace));
    let said = match (heavy, trace) {
        (true, false) => RustWords::Heavy,
        (false, true) => RustWords::Trace,
        _ => return None,
    };
    Some(Correction::Severity(RustAmount::Words(said)))
}

/// "Double that", "half that": of the amount told.
fn multiple(speech: &Speech, report: &Report) -> Option<Correction> {
    let [factor, that] = speech.tokens else { return None };
    if !that.is_any(words!("that it")) {
        return None;
    }
    let factor = match factor.text.as_str() {
        "double" | "twice" => 2.0,
        "half" | "halve" => 0.5,
        "triple" => 3.0,
        _ => return None,
    };
    match report {
        Report::Watered { volume: Some(volume), .. } | Report::Sprayed { volume: Some(volume), .. } => {
            Some(Correction::Volume(Litres::new(volume.value() * factor)))
        }
        Report::Picked { count: Some(count), .. } => {
            let number = f64::from(*count) * factor;
            (number.fract() == 0.0).then_some(Correction::Number(number))
        }
        _ => None,
    }
}

/// "Picked 8 more just now", "plus 3 more": off the trees of the harvest just told.
fn more(speech: &Speech, trees: &[String], report: &Report) -> Option<Vec<Request>> {
    if !matches!(report, Report::Picked { .. }) || !speech.mentions.is_empty() || trees.is_empty() {
        return None;
    }
    let at = speech.tokens.iter().position(|token| token.is("more"))?;
    let count =
        speech.tokens[at.checked_sub(1)?].number.filter(|count| count.fract() == 0.0 && *count > 0.0)?;
    let only = speech.tokens.iter().all(|token| {
        token.is_mark()
            || token.number.is_some()
            || token.senses.has_any(&[
                Sense::Picked,
                Sense::Took,
                Sense::Fig,
                Sense::Filler,
                Sense::Mine,
                Sense::Article,
                Sense::Pronoun,
            ])
            || token.is_any(words!("more plus and another just now found off from there today also + &"))
    });
    let report = Report::Picked { count: Some(count as u32), mass: None };
    let trees = Selection::Named(trees.to_vec());
    only.then(|| vec![Request::Record(Record { trees, when: When::Unsaid, report })])
}
