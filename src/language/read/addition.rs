//! What a few words say behind a report: "upper leaves", "at 7 am", "and Whip"; and a tree's name alone.

mod more;

use super::amounts::{Amount, amounts, bare_depth};
use super::clauses::Asked;
use super::lexicon::Sense;
use super::moments::moment;
use super::names::Names;
use super::names::Product;
use super::tokens::{Token, tokens};
use super::{Context, Speech, records, spelling};
use crate::language::read::word_list::words;
use crate::season::garden::same_name;
use crate::season::journal::{Entry, Report, RustAmount, Timing, What};
use crate::season::request::{
    Aside, Correction, DoubtKind, Question, Reading, Record, Request, Selection, When,
};

/// Reads a message again that said nothing by itself.
pub(super) fn read(text: &str, names: &Names, context: &Context, reading: &mut Reading) {
    const LONGEST: usize = 60;
    const MOST_WORDS: usize = 8;
    let idle = reading.requests.iter().all(|request| *request == Request::Aside(Aside::Talk))
        && reading
            .doubts
            .iter()
            .all(|doubt| matches!(doubt.kind, DoubtKind::NotUnderstood | DoubtKind::WhichTree));
    if !idle || text.len() > LONGEST || text.contains('\n') || text.ends_with(':') {
        return;
    }
    let mut tokens = tokens(text);
    if tokens.len() > MOST_WORDS {
        return;
    }
    spelling::mend(&mut tokens, names);
    let speech = Speech::of(text, &tokens, names, context, Asked::No);
    let request = more::all_of_them(&speech, context.garden)
        .or_else(|| name_alone(&speech))
        .or_else(|| more::figs(&speech).map(Request::Record))
        .or_else(|| more::figs_of_another(&speech).map(Request::Record))
        .or_else(|| more::rain(&speech).map(Request::Record))
        .or_else(|| more_trees(&speech).map(Request::Record))
        .or_else(|| addition(&speech).map(Request::Correct));
    if let Some(request) = request {
        *reading = Reading { requests: vec![request], ..Reading::default() };
    }
}

/// "Celeste", "the pots?": how are they?
fn name_alone(speech: &Speech) -> Option<Request> {
    let [mention] = speech.mentions.as_slice() else { return None };
    let alone = speech.tokens.iter().enumerate().all(|(index, token)| {
        mention.range.contains(&index) || token.is_mark() || token.senses.has(Sense::Article)
    });
    let plain = mention.trees.names_one_by_name()
        && mention.trees.without.is_empty()
        && mention.trees.unknown.is_none();
    let trees = speech.names.selection(&mention.trees, &[]).filter(|_| alone && plain)?;
    Some(Request::Ask(Question::Tree { trees }))
}

fn addition(speech: &Speech) -> Option<Correction> {
    let (_, report, entry) = just_reported(speech.context)?;
    if speech.tokens.iter().any(|token| token.is("?")) {
        return None;
    }
    level(speech, report)
        .or_else(|| more::severity(speech, report))
        .or_else(|| product(speech, report))
        .or_else(|| how_much(speech, report))
        .or_else(|| when(speech, entry))
}

pub(super) fn just_reported<'c>(context: &Context<'c>) -> Option<(&'c [String], &'c Report, &'c Entry)> {
    let entry = context.just_said()?;
    match &entry.what {
        What::Report { trees, report } => Some((trees, report, entry)),
        What::Setting(_) => None,
    }
}

/// Small words that say nothing of their own.
fn is_small(token: &Token) -> bool {
    token.is_mark() || token.senses.has_any(&[Sense::Article, Sense::Link, Sense::Filler])
}

/// "And Whip", "the pots too": the same of other trees.
fn more_trees(speech: &Speech) -> Option<Record> {
    let (_, report, entry) = just_reported(speech.context)?;
    // Figs and pounds were counted on the trees named.
    let shared = matches!(
        report,
        Report::Sprayed { .. }
            | Report::Watered { .. }
            | Report::Scouted { .. }
            | Report::Moisture { .. }
            | Report::Stage { .. }
            | Report::Moved { .. }
    );
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    let leads = speech
        .tokens
        .first()
        .is_some_and(|first| first.is_any(words!("and also plus & + n same ditto likewise")));
    let ends = words.last().is_some_and(|last| last.is_any(words!("too also well")))
        // "Corner too, same"
        || words.len() <= 5 && words.iter().any(|word| word.is_any(words!("too")));
    let [mention] = speech.mentions.as_slice() else { return None };
    let only = speech.tokens.iter().enumerate().all(|(index, token)| {
        mention.range.contains(&index)
            || is_small(token)
            || token.is_any(words!("and also plus & + n too well as same ditto likewise for with"))
    });
    let asked = speech.tokens.iter().any(|token| token.is("?"));
    let sure = mention.trees.without.is_empty() && speech.names.unsure(&mention.trees).is_none();
    if !shared || !(leads || ends) || !only || !sure || asked {
        return None;
    }
    let trees = speech.names.selection(&mention.trees, &[])?;
    let when = if entry.timing == Timing::Told { When::At(entry.happened) } else { When::Unsaid };
    Some(Record { trees, when, report: report.clone() })
}

/// "Upper leaves", "mostly the lower ones".
fn level(speech: &Speech, report: &Report) -> Option<Correction> {
    let only = speech.tokens.iter().all(|token| {
        is_small(token)
            || token.senses.has_any(&[
                Sense::Leaf,
                Sense::Lower,
                Sense::Middle,
                Sense::Upper,
                Sense::Whole,
                Sense::Tree,
                Sense::Be,
            ])
            || token.is_any(words!("ones only mostly mainly just"))
    });
    let level = records::leaf_level(speech.tokens).filter(|_| only)?;
    matches!(report, Report::Scouted { .. }).then_some(Correction::Level(level))
}

/// "Sulfur", behind "sprayed copper": what it was.
fn product(speech: &Speech, report: &Report) -> Option<Correction> {
    let Report::Sprayed { product, .. } = report else { return None };
    let Product::Known { name, used, misspelt: false } =
        speech.names.products_in(speech.tokens, &[]).into_iter().next()?
    else {
        return None;
    };
    let only =
        speech.tokens.iter().enumerate().all(|(index, token)| used.contains(&index) || token.is_mark());
    (only && !same_name(&name, product)).then_some(Correction::Product(name))
}

/// "About 5%", "two gallons each", where how much was told in words or not at all.
fn how_much(speech: &Speech, report: &Report) -> Option<Correction> {
    let open = matches!(
        report,
        Report::Scouted { amount: RustAmount::Words(_), .. } | Report::LeafDrop { share: None }
    );
    let dry = matches!(
        report,
        Report::Watered { volume: None, depth: None } | Report::Sprayed { volume: None, .. }
    );
    let found = amounts(speech.tokens, &[], speech.context.garden.units);
    let [measured] = found.as_slice() else { return None };
    // "12" alone, behind "picked 9"
    const MOST: f64 = 1500.0;
    let alone = speech.tokens.iter().filter(|token| !token.is_mark()).count() == 1;
    let counted = matches!(report, Report::Picked { count: Some(_), .. }) && alone;
    let correction = match measured.amount {
        Amount::Count(count) if counted && count <= MOST && count.fract() == 0.0 => Correction::Number(count),
        // ".3", behind "gauge 3"
        Amount::Count(count) if alone && matches!(report, Report::Rained { .. }) => {
            Correction::Depth(bare_depth(count, speech.context.garden.units))
        }
        Amount::Share(share) if open => Correction::Severity(RustAmount::Severity(share)),
        Amount::Volume(volume) if dry => Correction::Volume(volume),
        _ => return None,
    };
    let only = speech.tokens.iter().enumerate().all(|(index, token)| {
        (measured.from..measured.to).contains(&index)
            || is_small(token)
            || token.is_any(words!(
                "maybe about say perhaps roughly i'd guess it's each apiece used i think it got gave them"
            ))
    });
    only.then_some(correction)
}

/// "At 7 am", "yesterday evening", where no time was told.
fn when(speech: &Speech, entry: &Entry) -> Option<Correction> {
    let told = moment(speech.tokens, &[], speech.now());
    let only = speech.tokens.iter().enumerate().all(|(index, token)| {
        told.used.contains(&index)
            || is_small(token)
            || token.is_any(words!("it was that started began since on from"))
    });
    if !only || told.impossible || entry.timing == Timing::Told {
        return None;
    }
    match told.when(speech.now()) {
        When::Unsaid => None,
        When::At(at) | When::OnDay(at) if at > speech.context.at => None,
        when => Some(Correction::When(when)),
    }
}

/// The one tree of the report just made: "rust on Wall" and then "sprayed it with sulfur".
pub(super) fn tree_just_told(speech: &Speech) -> Option<Selection> {
    let (trees, ..) = just_reported(speech.context)?;
    let of_one = speech.tokens.iter().any(|token| token.is_any(words!("it her him")));
    // "Watered them too while I was there"
    let of_them = trees.len() > 1 && speech.tokens.iter().any(|token| token.is_any(words!("them both")));
    // "Dropping leaves too"
    let falls = speech.tokens.iter().any(|token| token.senses.has(Sense::Drop))
        && speech.tokens.iter().any(|token| token.is_any(words!("too also")));
    ((of_one || falls) && trees.len() == 1 || of_them).then(|| Selection::Named(trees.to_vec()))
}

/// The trees of the report just made, for "how much should they get?".
pub(super) fn trees_meant(speech: &Speech) -> Option<Selection> {
    let says = |senses: &[Sense]| speech.tokens.iter().any(|token| token.senses.has_any(senses));
    let trees =
        speech.tokens.iter().any(|token| token.is_any(words!("they them she her he him these those")));
    // "It" is as often the weather.
    let expletive = speech.tokens.windows(2).any(|pair| {
        pair[0].is("it")
            && pair[1].is_any(words!("ok okay safe fine too time worth good alright gonna going wait"))
    });
    let it = !expletive
        && speech.tokens.iter().any(|token| token.is("it"))
        && says(&[Sense::Spray, Sense::Water, Sense::Dry, Sense::Wet, Sense::Drop])
        && !says(&[Sense::Rain, Sense::Frost]);
    let (before, ..) = just_reported(speech.context).filter(|_| trees || it)?;
    (!before.is_empty()).then(|| Selection::Named(before.to_vec()))
}
