//! Corrections that say what they correct by itself: "Corner was 7", "I didn't pick 5, I picked 15", "double that".

use super::amendment::before_idle_tail;
use super::{is_verb, is_verb_of, of_amount, suits};
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::language::read::{Speech, doubt};
use crate::season::garden::same_name;
use crate::season::journal::{Entry, Report, What};
use crate::season::request::{Correction, DoubtKind, Reading, Request, Selection};
use crate::season::selection::selected;

/// Reads a sentence that corrects what it names, if it does.
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> bool {
    let found = of_named(speech).or_else(|| in_place_of_denied(speech)).or_else(|| reckoned(speech));
    if let Some(found) = found {
        reading.requests.extend(found.into_iter().map(Request::Correct));
        return true;
    }
    if is_product_of_no_spray(speech) {
        reading.doubts.push(doubt(DoubtKind::NothingThere, speech.text));
        return true;
    }
    // What cannot be put right in one word is asked back, and no plan: "swap them", "that was Bo, not me".
    if is_swap(speech)
        || is_of_another_person(speech)
        || is_of_another_tree(speech)
        || is_part_of_count(speech)
        || is_only_wrong(speech)
    {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text));
        return true;
    }
    false
}

/// "Corner was 7", "Wall should be 12, not 14": of the entry of the last message that is of this tree.
fn of_named(speech: &Speech) -> Option<Vec<Correction>> {
    const MOST_WORDS: usize = 12;
    let tokens = before_idle_tail(speech.tokens);
    let [mention] = speech.mentions.as_slice() else { return None };
    if tokens.len() > MOST_WORDS || mention.range.end >= tokens.len() {
        return None;
    }
    let leads = tokens[..mention.range.start].iter().all(|token| {
        token.is_mark()
            || token.senses.has(Sense::Article)
            || token.is_any(words!("no wait sorry oops actually and but well hmm ah oh i mean meant"))
    });
    let behind = &tokens[mention.range.end..];
    let linked = behind.iter().take_while(|token| {
        token.is_any(words!("was were is had got gave should be have been actually really only just said to read = : - like more about"))
    });
    let linked = linked.count();
    let was = behind[..linked].iter().any(|token| token.is_any(words!("was were should had = gave")));
    let told = &behind[linked..];
    let found = amounts(told, &[], speech.context.garden.units);
    // "7", "7 figs", "7 not 6", "7 actually"
    let measured = found.first().filter(|measured| measured.from == 0)?;
    let rest_is_idle = told[measured.to..].iter().all(|token| {
        token.is_mark()
            || token.number.is_some()
            || token.senses.has(Sense::Fig)
            || token.is_any(words!("not actually sorry instead of ones total in all then though rather"))
    });
    if !leads || !was || !rest_is_idle {
        return None;
    }
    let trees = speech.names.selection(&mention.trees, &[])?;
    if speech.names.unsure(&mention.trees).is_some() {
        return None;
    }
    let named = selected(speech.context.garden, &trees);
    let report = just_told(speech).find_map(|entry| match &entry.what {
        What::Report { trees, report } if is_same(trees, &named) => {
            of_amount(measured.amount, Some(report), speech.context.garden.units)
                .filter(|correction| suits(Some(report), correction) && is_counted(report, correction))
        }
        _ => None,
    })?;
    Some(vec![Correction::Trees(trees), report])
}

/// A bare number corrects a number: "Corner was 7" is of figs picked, and not of "some rust".
fn is_counted(report: &Report, correction: &Correction) -> bool {
    match (report, correction) {
        (Report::Scouted { .. } | Report::LeafDrop { .. }, Correction::Number(number)) => {
            (0.0..=100.0).contains(number)
        }
        _ => true,
    }
}

pub(super) fn is_same(one: &[String], other: &[String]) -> bool {
    one.len() == other.len() && one.iter().all(|name| other.iter().any(|known| same_name(known, name)))
}

/// What the last message left, the latest first.
pub(super) fn just_told<'c>(speech: &'c Speech) -> impl Iterator<Item = &'c Entry> {
    let context = speech.context;
    let beside = context.last_message.iter().rev();
    let last = context.last.into_iter().filter(|_| context.last_message.is_empty());
    beside.chain(last).filter(|entry| context.at - entry.said <= crate::language::read::JUST_SAID)
}

/// "I did not pick 5, I picked 15", "we didn't water Wall, we watered Corner".
fn in_place_of_denied(speech: &Speech) -> Option<Vec<Correction>> {
    const MOST_WORDS: usize = 16;
    let tokens = speech.tokens;
    let report = report_of(speech.context.last?)?;
    if tokens.len() > MOST_WORDS {
        return None;
    }
    let own = |token: &Token| token.is_any(words!("i we")) || token.is("it");
    let denies = tokens.iter().take(4).any(own)
        && tokens.iter().take(5).any(|token| token.senses.has(Sense::Negation) && !token.is("no"));
    let comma = tokens.iter().position(|token| token.is_any(words!(", ; - but")))?;
    let (denied, told) = (&tokens[..comma], &tokens[comma + 1..]);
    let told = &told[told.iter().take_while(|token| token.is_mark() || token.is("but")).count()..];
    // "Didn't get 2 inches, got 1"
    let got = matches!(report, Report::Rained { .. } | Report::Picked { .. });
    let work = |tokens: &[Token]| {
        tokens.iter().any(|token| {
            is_verb_of(token.senses, Some(report))
                || got && token.is_any(words!("got get had have"))
                || is_stem_of(token, report)
        })
    };
    let head: Vec<&Token> = told.iter().take(2).collect();
    let asserts = head.first().is_some_and(|first| own(first)) && !told.iter().any(is_denial);
    let other_work =
        told.iter().any(|token| is_verb(token.senses) && !is_verb_of(token.senses, Some(report)));
    if !denies || !work(denied) || !asserts || !work(told) || other_work {
        return None;
    }
    let told = speech.part(told);
    let mut found = Vec::new();
    let trees = told.mentions.iter().find_map(|mention| told.names.selection(&mention.trees, &[]));
    found.extend(trees.map(Correction::Trees));
    let named: Vec<usize> = told.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
    let product = told.names.products_in(told.tokens, &named).into_iter().find_map(|product| match product {
        super::Product::Known { name, .. } => Some(Correction::Product(name)),
        _ => None,
    });
    found.extend(product.filter(|product| suits(Some(report), product)));
    found.extend(
        amounts(told.tokens, &named, speech.context.garden.units)
            .into_iter()
            .filter_map(|measured| of_amount(measured.amount, Some(report), speech.context.garden.units))
            .filter(|correction| suits(Some(report), correction)),
    );
    (!found.is_empty()).then_some(found)
}

fn is_denial(token: &Token) -> bool {
    token.senses.has(Sense::Negation)
}

/// "Pick", "water", "spray": the work behind "did not".
fn is_stem_of(token: &Token, report: &Report) -> bool {
    match report {
        Report::Picked { .. } => token.senses.has(Sense::Pick),
        Report::Watered { .. } => token.senses.has(Sense::Water),
        Report::Sprayed { .. } => token.senses.has(Sense::Spray),
        _ => false,
    }
}

/// "Double that", "half that", "minus 2", "2 fewer": reckoned from the one number told last.
fn reckoned(speech: &Speech) -> Option<Vec<Correction>> {
    const MOST_WORDS: usize = 7;
    let mut just = just_told(speech);
    let (entry, None) = (just.next()?, just.next()) else { return None };
    let report = report_of(entry)?;
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    let lead = words
        .iter()
        .take_while(|token| {
            token.is_any(words!("make it no wait oops sorry actually was more like only about well um"))
        })
        .count();
    let words = &words[lead..];
    if words.len() > MOST_WORDS {
        return None;
    }
    let texts: Vec<&str> = words.iter().map(|token| token.text.as_str()).collect();
    let number =
        words.iter().filter(|token| !token.is_any(words!("half twice"))).find_map(|token| token.number);
    // "Change 12 to 15", where twelve were told
    if let (["change" | "switch" | "turn", _, "to" | "into", _], Some(before)) = (texts.as_slice(), number)
        && let Report::Picked { count: Some(count), .. } = report
        && f64::from(*count) == before
    {
        return words.last().and_then(|last| last.number).map(|after| vec![Correction::Number(after)]);
    }
    let reckon: Box<dyn Fn(f64) -> f64> = match (texts.as_slice(), number) {
        (["double", "that" | "it"] | ["twice", "that" | "as"] | ["twice", "as", "much" | "many"], _) => {
            Box::new(|told| told * 2.0)
        }
        (["half", "that" | "of"] | ["half", "of", "that" | "it"] | ["halve", "that" | "it"], _) => {
            Box::new(|told| told / 2.0)
        }
        (["minus" | "less", _] | ["subtract" | "deduct", _] | [_, "fewer" | "less"], Some(number)) => {
            Box::new(move |told| told - number)
        }
        (
            ["subtract" | "deduct", _, "from", "that" | "it"] | ["add", _, "to", "that" | "it"],
            Some(number),
        ) => {
            let number = if texts[0] == "add" { number } else { -number };
            Box::new(move |told| told + number)
        }
        _ => return None,
    };
    let correction = match report {
        Report::Picked { count: Some(count), mass: None } => {
            let count = reckon(f64::from(*count));
            // Half of nine figs is no count.
            (count >= 1.0 && count.fract() == 0.0).then_some(Correction::Number(count))
        }
        Report::Picked { count: None, mass: Some(mass) } if number.is_none() => {
            Some(Correction::Mass(crate::units::Kilograms::new(reckon(mass.value()))))
        }
        Report::Watered { volume: Some(volume), .. } | Report::Sprayed { volume: Some(volume), .. }
            if number.is_none() =>
        {
            Some(Correction::Volume(crate::units::Litres::new(reckon(volume.value()))))
        }
        Report::Rained { depth } if number.is_none() => {
            Some(Correction::Depth(crate::units::Millimetres::new(reckon(depth.value()))))
        }
        _ => None,
    };
    correction.map(|correction| vec![correction])
}

/// "'Twas 11, I'd two more in my pocket", "it was 11, missed 2": the whole stands before its reason. Where it is
/// not more than was told, which of the two counts is for the grower to say.
pub(super) fn before_what_was_missed<'t>(tokens: &'t [Token], last: Option<&Entry>) -> &'t [Token] {
    let Some(comma) =
        tokens.iter().position(|token| token.is_any(words!(", ; - ( cause because as since cuz")))
    else {
        return tokens;
    };
    let (told, reason) = (&tokens[..comma], &tokens[comma + 1..]);
    let Some(Report::Picked { count: Some(before), .. }) = last.and_then(report_of) else { return tokens };
    let total = told.iter().find_map(|token| token.number);
    let missed = reason.iter().find_map(|token| token.number);
    let missing = reason.iter().any(|token| {
        token.is_any(words!(
            "more another extra missed forgot found left had i'd others pocket overlooked dropped"
        ))
    });
    let work = reason.iter().any(|token| {
        is_verb(token.senses) || token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])
    });
    match (total, missed) {
        (Some(total), Some(missed)) if total > f64::from(*before) && missed < total && missing && !work => {
            told
        }
        _ => tokens,
    }
}

pub(super) fn report_of(entry: &Entry) -> Option<&Report> {
    match &entry.what {
        What::Report { report, .. } => Some(report),
        What::Setting(_) => None,
    }
}

/// "Swap them: Wall 10 and Celeste 6 should be the other way round".
fn is_swap(speech: &Speech) -> bool {
    let tokens = speech.tokens;
    let swapped =
        tokens.iter().any(|token| token.is_any(words!("swap swapped switched mixed backwards reversed")))
            || tokens.windows(3).any(|three| {
                three[0].is("other") && three[1].is("way") && three[2].is_any(words!("round around"))
            });
    let of_told = tokens
        .iter()
        .any(|token| token.is_any(words!("them those these last entries numbers two both it that should")));
    let amounts = amounts(tokens, &[], speech.context.garden.units);
    let mixing = amounts.iter().any(|measured| matches!(measured.amount, Amount::Volume(_)));
    let sprays = tokens.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Copper,
            Sense::Sulfur,
            Sense::Oil,
            Sense::Pots,
            Sense::Pot,
            Sense::Soil,
        ])
    });
    let future =
        tokens.iter().any(|token| token.senses.has(Sense::Future) || token.is_any(words!("i'll let's")));
    just_told(speech).next().is_some() && swapped && of_told && !mixing && !sprays && !future
}

/// "That was Bo, not me": who told it is not corrected.
fn is_of_another_person(speech: &Speech) -> bool {
    const MOST_WORDS: usize = 8;
    let tokens = speech.tokens;
    let told = tokens.first().is_some_and(|first| first.is_any(words!("that it no actually sorry oops")));
    let not_me = tokens
        .windows(2)
        .any(|pair| pair[0].is_any(words!("not wasn't wasnt isn't")) && pair[1].is_any(words!("me us")));
    let person = tokens.iter().any(|token| speech.names.is_person(&token.text))
        || tokens.iter().any(|token| token.senses.has(Sense::Someone));
    tokens.len() <= MOST_WORDS && told && not_me && person && speech.context.last.is_some()
}

/// "Make it copper", behind figs picked: no spray to correct, and none told.
fn is_product_of_no_spray(speech: &Speech) -> bool {
    const MOST_WORDS: usize = 10;
    let tokens = speech.tokens;
    let last = speech.context.last.and_then(report_of);
    let lead = tokens.iter().take_while(|token| {
        token.is_mark()
            || token.is_any(words!(
                "no oops sorry wait actually it that this change make to should be have been was the"
            ))
    });
    let lead = lead.count();
    let orders = tokens[..lead].windows(2).any(|pair| {
        pair[0].is_any(words!("make change")) && pair[1].is_any(words!("it that"))
            || pair[0].is("should") && pair[1].is_any(words!("be have"))
    });
    let product = tokens
        .get(lead)
        .is_some_and(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
    let work = tokens.iter().any(|token| is_verb(token.senses));
    tokens.len() <= MOST_WORDS
        && orders
        && product
        && !work
        && last.is_some_and(|report| !matches!(report, Report::Sprayed { .. }))
}

/// "4 of them were from Wall", behind nine picked off Celeste: no four more.
fn is_part_of_count(speech: &Speech) -> bool {
    const MOST_WORDS: usize = 12;
    let tokens = speech.tokens;
    let picked = just_told(speech).any(|entry| {
        matches!(&entry.what, What::Report { report: Report::Picked { count: Some(_), .. }, .. })
    });
    let of_them = tokens.windows(2).any(|pair| {
        pair[0].is("of") && pair[1].is_any(words!("them those these em"))
            || pair[0].is_any(words!("half some")) && pair[1].is_any(words!("were was came"))
    });
    let part = tokens
        .iter()
        .take(3)
        .any(|token| token.number.is_some() || token.is_any(words!("half some most few")));
    let from = tokens
        .windows(2)
        .any(|pair| pair[0].is_any(words!("were was came are")) && pair[1].is_any(words!("from off")));
    tokens.len() <= MOST_WORDS && picked && of_them && part && from && !speech.mentions.is_empty()
}

/// "That's not right": what is, is not said.
fn is_only_wrong(speech: &Speech) -> bool {
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    let wrong = words.windows(2).any(|pair| pair[0].is("not") && pair[1].is_any(words!("right correct")))
        || words.windows(4).any(|four| {
            four[0].is("not") && four[1].is("what") && four[2].is("i") && four[3].is_any(words!("said meant"))
        });
    // "I put that down wrong", "I typed that wrong"
    let own = words.windows(2).any(|pair| {
        pair[0].is_any(words!("i we"))
            && pair[1].is_any(words!("put wrote typed said told entered logged got"))
    });
    let wrong = wrong || own && words.iter().any(|token| token.is("wrong"));
    let only = words.iter().all(|token| {
        token.is_any(words!(
            "no that that's thats is this it's its not right correct what i said meant hm hmm wait huh um oh sorry oops wrong we put wrote typed told entered logged got down in it"
        ))
    });
    wrong && only && just_told(speech).next().is_some()
}

/// "No, the other one": which of them is not said.
fn is_of_another_tree(speech: &Speech) -> bool {
    const MOST_WORDS: usize = 8;
    let tokens = speech.tokens;
    let other =
        tokens.windows(2).any(|pair| pair[0].is("other") && pair[1].is_any(words!("one tree fig pot")));
    let only = tokens.iter().all(|token| {
        token.is_mark()
            || token.senses.has(Sense::Article)
            || token.is_any(words!("no not that it was i meant mean sorry oops wait actually other one tree fig pot this on off from"))
    });
    let corrects =
        tokens.iter().any(|token| token.is_any(words!("no not meant mean sorry oops wait actually was")));
    tokens.len() <= MOST_WORDS && other && only && corrects && just_told(speech).next().is_some()
}

/// Whether every tree of the garden was told of last, so that "all of them" says it again.
pub(in crate::language::read) fn told_of_all(speech: &Speech) -> bool {
    let all = selected(speech.context.garden, &Selection::All);
    just_told(speech).any(|entry| matches!(&entry.what, What::Report { trees, .. } if is_same(trees, &all)))
}
