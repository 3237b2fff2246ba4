//! Whether a message says nothing but what was read of it.
//!
//! A second, narrow look that shares no grammar with the reader: every word of the message must be one a bare report
//! is made of, every tree it names must be in what was read, every amount must stand there with its value, and in the
//! order told. Whatever does not fit is no fault of the message; it only means that the grower is told in words what
//! was written down, so that a misreading is seen and can be mended.

use super::amounts::{Amount, amounts};
use super::lexicon::Sense;
use super::moments::moment;
use super::names::{Names, Product};
use super::spelling;
use super::tokens::{Token, tokens};
use super::word_list::{WordList, words};
use super::{Context, now};
use crate::season::journal::{LeafLevel, MoistureState, Report, RustAmount, RustWords};
use crate::season::request::{Reading, Record, Request, Selection, When, Wording};
use crate::season::selection::selected;

/// More reports than these are a list, which one likes to see as it was taken.
const MOST_REPORTS: usize = 2;
/// A bare report is short.
const MOST_WORDS: usize = 24;

/// How the message is worded, seen from what was read of it.
pub(super) fn wording(text: &str, reading: &Reading, names: &Names, context: &Context) -> Wording {
    let mut records: Vec<&Record> = Vec::new();
    for request in &reading.requests {
        match request {
            Request::Record(record) => records.push(record),
            // An answer says by itself what it is an answer to.
            Request::Ask(_) => {}
            _ => return Wording::Open,
        }
    }
    if records.is_empty() {
        return Wording::Plain;
    }
    // "The other day" is no day the grower would know again: which one was taken is said.
    if text.to_ascii_lowercase().contains("other day") {
        return Wording::Open;
    }
    if let [record] = records.as_slice()
        && is_note_as_asked(text, record, names, context)
    {
        return Wording::Plain;
    }
    if records.len() > MOST_REPORTS || text.split_whitespace().count() > MOST_WORDS {
        return Wording::Open;
    }
    let mut tokens = tokens(text);
    spelling::mend(&mut tokens, names);
    let plain = Look { tokens: &tokens, text, records: &records, names, context }.is_plain();
    if plain { Wording::Plain } else { Wording::Open }
}

/// "Note: the hose leaks": kept word for word, as ordered.
fn is_note_as_asked(text: &str, record: &Record, names: &Names, context: &Context) -> bool {
    let Report::Note { text: kept } = &record.report else { return false };
    let named: Vec<String> = names
        .mentions(&tokens(kept), kept)
        .iter()
        .filter_map(|mention| names.selection(&mention.trees, &[]))
        .flat_map(|selection| selected(context.garden, &selection))
        .collect();
    let of_named = match &record.trees {
        Selection::Unsaid => true,
        trees => selected(context.garden, trees) == named,
    };
    if record.when != When::Unsaid || !of_named {
        return false;
    }
    // "Beetles on Corner": kept word for word, all of it.
    if text.trim() == kept {
        return true;
    }
    let asked = text.get(..4).is_some_and(|head| head.eq_ignore_ascii_case("note"));
    asked
        && text.get(4..).is_some_and(|rest| rest.trim_start_matches([':', ' ', '-']).trim() == kept.as_str())
}

struct Look<'a> {
    tokens: &'a [Token],
    text: &'a str,
    records: &'a [&'a Record],
    names: &'a Names,
    context: &'a Context<'a>,
}

impl Look<'_> {
    fn is_plain(&self) -> bool {
        let mentions = self.names.mentions(self.tokens, self.text);
        let named: Vec<usize> = mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let moment = moment(self.tokens, &named, now(self.context));
        let mut used = named.clone();
        used.extend(&moment.used);
        let told = amounts(self.tokens, &used, self.context.garden.units);
        used.extend(told.iter().flat_map(|measured| measured.from..measured.to));
        let (sprays, known) = self.sprays(&used);
        used.extend(sprays);
        let trees: Option<Vec<Vec<String>>> = mentions
            .iter()
            .map(|mention| {
                let selection = self.names.selection(&mention.trees, &[])?;
                Some(selected(self.context.garden, &selection))
            })
            .collect();
        let amounts: Vec<Amount> = told.iter().map(|measured| measured.amount).collect();
        let when = moment.when(now(self.context));
        // "I water Corner" may be of every day.
        let present = self
            .tokens
            .windows(2)
            .any(|pair| pair[0].is_any(words!("i we")) && pair[1].is_any(words!("water spray pick")));
        !present
            && self.records.iter().all(|record| record.when == when)
            && known == self.products()
            && trees.is_some_and(|trees| self.names_the_same(&trees))
            && self.tells_the_same(&amounts)
            && self.negations() == self.denials()
            && self.describes_the_same()
            && self.tells_the_kind()
            && self.is_sure_of_the_hour(&moment.used)
            && (0..self.tokens.len()).all(|index| used.contains(&index) || self.is_bare(index))
    }

    /// Tokens that name a spray, and the names.
    fn sprays(&self, used: &[usize]) -> (Vec<usize>, Vec<String>) {
        let mut places = Vec::new();
        let mut known = Vec::new();
        for product in self.names.products_in(self.tokens, used) {
            match product {
                Product::Known { name, used, misspelt: false } => {
                    places.extend(used);
                    known.push(name);
                }
                // Whatever it is, the records cannot hold it.
                _ => known.push(String::new()),
            }
        }
        (places, known)
    }

    fn products(&self) -> Vec<String> {
        let mut products: Vec<String> = Vec::new();
        for record in self.records {
            if let Report::Sprayed { product, .. } = &record.report
                && !products.contains(product)
            {
                products.push(product.clone());
            }
        }
        products
    }

    /// One mention for all that is reported, or one for each report in its order.
    fn names_the_same(&self, mentioned: &[Vec<String>]) -> bool {
        let reported: Vec<Vec<String>> = self
            .records
            .iter()
            .filter(|record| !matches!(record.report, Report::Rained { .. }))
            .map(|record| selected(self.context.garden, &record.trees))
            .collect();
        match mentioned {
            [all] => reported.iter().all(|trees| trees == all),
            several => several == reported.as_slice(),
        }
    }

    /// Each amount told stands in a report, in order, and the reports hold no other.
    fn tells_the_same(&self, told: &[Amount]) -> bool {
        let held: Vec<Amount> = self.records.iter().flat_map(|record| held(&record.report)).collect();
        told.len() == held.len() && told.iter().zip(&held).all(|(told, held)| is_same(*told, *held))
    }

    fn negations(&self) -> usize {
        self.tokens.iter().filter(|token| token.senses.has(Sense::Negation)).count()
    }

    /// Reports that nothing was seen or fell.
    fn denials(&self) -> usize {
        let none = |record: &&&Record| match record.report {
            Report::Scouted { amount: RustAmount::None, .. } => true,
            Report::Rained { depth } => depth.value() == 0.0,
            _ => false,
        };
        self.records.iter().filter(none).count()
    }

    /// How wet, how rusty and on which leaves, as the bare words for it say.
    fn describes_the_same(&self) -> bool {
        let mut held: Vec<Described> = Vec::new();
        for record in self.records {
            match record.report {
                Report::Moisture { state } | Report::Weighed { state, .. } => {
                    held.push(Described::Soil(state))
                }
                Report::Scouted { amount, level } => {
                    if let RustAmount::Words(words) = amount
                        && words != RustWords::Some
                    {
                        held.push(Described::Rust(words));
                    }
                    held.extend(level.map(Described::Leaves));
                }
                _ => {}
            }
        }
        let mut told: Vec<Described> = self.tokens.iter().filter_map(described).collect();
        // "A few spots", "bone dry": said once.
        told.dedup();
        told == held
    }

    /// "At 7" leaves open which seven it was.
    fn is_sure_of_the_hour(&self, when: &[usize]) -> bool {
        let at_a_clock = self.records.iter().any(|record| matches!(record.when, When::At(_)));
        let told = when.iter().any(|index| {
            self.tokens[*index].is_any(words!("am pm noon midnight ago morning evening afternoon"))
        });
        !at_a_clock || told
    }

    fn is_bare(&self, index: usize) -> bool {
        let token = &self.tokens[index];
        token.is_any(words!(
            ", . ! & and i we ive i've we've just the a an of on off from in to at for with my our all both every each apiece now today"
        )) || self.records.iter().any(|record| {
            let (telling, about) = bare_words(&record.report);
            token.is_any(telling) || token.is_any(about)
        })
    }

    /// Each report has a word that tells its kind: a bare "Celeste 6" could be anything.
    fn tells_the_kind(&self) -> bool {
        self.records.iter().all(|record| {
            let (telling, _) = bare_words(&record.report);
            matches!(record.report, Report::Sprayed { .. })
                || self.tokens.iter().any(|token| token.is_any(telling))
        })
    }
}

/// The words a bare report of a kind is made of: those that tell the kind, and those beside them. None for kinds that
/// are told back always. A spray is told by its product.
fn bare_words(report: &Report) -> (WordList, WordList) {
    match report {
        Report::Watered { .. } => (words!("watered gave water irrigated"), words!("drink")),
        Report::Sprayed { .. } => (words!("sprayed applied spray"), words!("sprayed")),
        Report::Picked { .. } => (words!("picked harvested figs fig"), words!("ripe got pulled")),
        Report::Scouted { .. } => (
            words!("rust spots clean"),
            words!(
                "leaves leaf lower upper top bottom has have found saw seen is are no any some few little bit heavy scouted checked"
            ),
        ),
        Report::Moisture { .. } => (words!("dry wet moist damp soggy soaked"), words!("is are bone soil")),
        Report::Rained { .. } => {
            (words!("rain rained gauge"), words!("got had says said reads read shows no none"))
        }
        Report::Weighed { .. } => (words!("weighs weighed"), words!("is dry wet")),
        Report::LeafDrop { .. }
        | Report::Stage { .. }
        | Report::Frost { .. }
        | Report::Planted
        | Report::Removed
        | Report::Moved { .. }
        | Report::Note { .. }
        | Report::Photo { .. } => (NONE, NONE),
    }
}

/// No word is empty.
const NONE: WordList = words!("");

/// What a bare report says without a number.
#[derive(Clone, Copy, PartialEq)]
enum Described {
    Soil(MoistureState),
    Rust(RustWords),
    Leaves(LeafLevel),
}

fn described(token: &Token) -> Option<Described> {
    const WORDS: [(WordList, Described); 7] = [
        (words!("dry"), Described::Soil(MoistureState::Dry)),
        (words!("moist damp"), Described::Soil(MoistureState::Moist)),
        (words!("wet soggy soaked"), Described::Soil(MoistureState::Wet)),
        (words!("few little bit spots"), Described::Rust(RustWords::Trace)),
        (words!("heavy"), Described::Rust(RustWords::Heavy)),
        (words!("lower bottom"), Described::Leaves(LeafLevel::Lower)),
        (words!("upper top"), Described::Leaves(LeafLevel::Upper)),
    ];
    WORDS.iter().find(|(words, _)| token.is_any(*words)).map(|(_, described)| *described)
}

/// The amounts a report holds.
fn held(report: &Report) -> Vec<Amount> {
    let mut held = Vec::new();
    match report {
        Report::Scouted { amount, .. } => match amount {
            RustAmount::Severity(share) => held.push(Amount::Share(*share)),
            RustAmount::Class(class) => held.push(Amount::Class(f64::from(*class))),
            RustAmount::Leaves { spotted, of } => {
                held.push(Amount::LeavesOf { spotted: f64::from(*spotted), of: f64::from(*of) });
            }
            RustAmount::None | RustAmount::Words(_) => {}
        },
        Report::Sprayed { volume, .. } => held.extend(volume.map(Amount::Volume)),
        Report::Watered { volume, depth } => {
            held.extend(volume.map(Amount::Volume));
            held.extend(depth.map(Amount::Depth));
        }
        Report::Weighed { mass, .. } => held.push(Amount::Mass(*mass)),
        Report::Rained { depth } if depth.value() > 0.0 => held.push(Amount::Depth(*depth)),
        Report::Picked { count, mass } => {
            held.extend(count.map(|count| Amount::Count(f64::from(count))));
            held.extend(mass.map(Amount::Mass));
        }
        // These are told back always.
        Report::LeafDrop { .. }
        | Report::Moisture { .. }
        | Report::Rained { .. }
        | Report::Stage { .. }
        | Report::Frost { .. }
        | Report::Planted
        | Report::Removed
        | Report::Moved { .. }
        | Report::Note { .. }
        | Report::Photo { .. } => {}
    }
    held
}

/// The same amount, but for the rounding of its unit.
fn is_same(told: Amount, held: Amount) -> bool {
    const ROUNDING: f64 = 1e-6;
    let near = |one: f64, other: f64| (one - other).abs() <= ROUNDING * one.abs().max(1.0);
    match (told, held) {
        (Amount::Depth(one), Amount::Depth(other)) => near(one.value(), other.value()),
        (Amount::Volume(one), Amount::Volume(other)) => near(one.value(), other.value()),
        (Amount::Mass(one), Amount::Mass(other)) => near(one.value(), other.value()),
        (Amount::Share(one), Amount::Share(other)) => near(one.value(), other.value()),
        (Amount::Class(one), Amount::Class(other)) | (Amount::Count(one), Amount::Count(other)) => {
            near(one, other)
        }
        (Amount::LeavesOf { spotted, of }, Amount::LeavesOf { spotted: other_spotted, of: other_of }) => {
            near(spotted, other_spotted) && near(of, other_of)
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests;
