//! "No, only the two by the wall": the last report again, with one thing changed.

use super::{Conversation, nothing_there, records};
use crate::season::answer::{Answer, TakenBack, TakenBackBecause};
use crate::season::garden::same_name;
use crate::season::journal::{Entry, Report, RustAmount, What, Withdrawal};
use crate::season::request::{Correction, Record, Request, Selection, When};
use crate::season::selection::selected;
use crate::units::{Fraction, Kilograms, Litres, Millimetres};

impl Conversation<'_> {
    /// The entries of the last message are retracted and entered again, corrected. If nothing in
    /// them can take the correction, nothing is touched and that is said.
    pub(super) fn correct(&mut self, correction: &Correction) {
        // The trees were said to tell which entry is meant, and it has them already.
        if self.corrected_trees.is_some() && matches!(correction, Correction::Trees(_)) {
            return;
        }
        let corrected: Option<(crate::identity::EventId, Vec<Record>)> =
            self.last_event().and_then(|event| {
                let records: Vec<Record> = self
                    .facts
                    .journal
                    .of_event(&event)
                    .into_iter()
                    .filter_map(|(_, entry)| as_record(entry))
                    .collect();
                apply(&records, correction, self.corrected_trees.as_deref()).map(|records| (event, records))
            });
        let Some((event, records)) = corrected else {
            self.answers.push(nothing_there(self.heard));
            return;
        };
        let taken = self.retract_event(&event, Withdrawal::Corrected);
        // "Actually 25, and it was off Wall": what the first of them made is told once, as the second leaves it.
        if event == self.heard.event {
            self.noted.clear();
            self.noted_lines.clear();
            self.answers.retain(|answer| {
                !matches!(answer, Answer::TakenBack(TakenBack { because: TakenBackBecause::Corrected, .. }))
            });
        }
        for record in &records {
            self.record(record);
        }
        // The grower hears what stands now, so that a correction misread is seen at once.
        let garden = &self.facts.garden;
        let said: Vec<_> = taken.iter().filter_map(|entry| records::noted_item(entry, garden)).collect();
        if !said.is_empty() {
            self.answers.push(Answer::TakenBack(TakenBack {
                items: self.noted.clone(),
                because: TakenBackBecause::Corrected,
                settings: 0,
            }));
        }
    }
}

impl Conversation<'_> {
    /// The trees that tell which of the last message's entries is corrected: those named beside a new value, where
    /// several entries could take it and just one is of them.
    pub(super) fn trees_corrected(&self, requests: &[Request]) -> Option<Vec<String>> {
        let corrections = || {
            requests.iter().filter_map(|request| match request {
                Request::Correct(correction) => Some(correction),
                _ => None,
            })
        };
        let trees = corrections().find_map(|correction| match correction {
            Correction::Trees(trees) => Some(selected(&self.facts.garden, trees)),
            _ => None,
        })?;
        let value = corrections()
            .find(|correction| !matches!(correction, Correction::Trees(_) | Correction::When(_)))?;
        let event = self.last_event()?;
        let able: Vec<Record> = self
            .facts
            .journal
            .of_event(&event)
            .into_iter()
            .filter_map(|(_, entry)| as_record(entry))
            .filter(|record| changed(&record.report, value).is_some())
            .collect();
        let meant = able.iter().filter(|record| is_of(record, &trees)).count();
        (able.len() > 1 && meant == 1).then_some(trees)
    }
}

/// Whether a record is of just these trees, in whichever order.
fn is_of(record: &Record, trees: &[String]) -> bool {
    match &record.trees {
        Selection::Named(names) => {
            names.len() == trees.len()
                && names.iter().all(|name| trees.iter().any(|tree| same_name(tree, name)))
        }
        _ => false,
    }
}

fn as_record(entry: &Entry) -> Option<Record> {
    let What::Report { trees, report } = &entry.what else { return None };
    let trees = if trees.is_empty() { Selection::Unsaid } else { Selection::Named(trees.clone()) };
    Some(Record { trees, when: When::At(entry.happened), report: report.clone() })
}

/// The records with the last one that can take the correction changed; a change of trees or time
/// concerns them all. Where the trees were said of the one that is meant, it is that one.
fn apply(records: &[Record], correction: &Correction, of: Option<&[String]>) -> Option<Vec<Record>> {
    let is_meant = |record: &Record| of.is_none_or(|trees| is_of(record, trees));
    let mut corrected = records.to_vec();
    match correction {
        Correction::Trees(trees) => corrected.iter_mut().for_each(|record| record.trees = trees.clone()),
        Correction::When(when) => {
            corrected.iter_mut().filter(|record| is_meant(record)).for_each(|record| record.when = *when);
        }
        _ => {
            let meant = corrected.iter().enumerate().rev().filter(|(_, record)| is_meant(record));
            let (index, report) = { meant }.find_map(|(index, record)| {
                changed(&record.report, correction).map(|report| (index, report))
            })?;
            corrected[index].report = report;
        }
    }
    (!corrected.is_empty()).then_some(corrected)
}

/// The report with the correction in it, if it has a place for it.
fn changed(report: &Report, correction: &Correction) -> Option<Report> {
    let changed = match (report, correction) {
        (Report::Scouted { level, .. }, Correction::Severity(amount)) => {
            Report::Scouted { amount: *amount, level: *level }
        }
        (Report::Scouted { amount, .. }, Correction::Level(level)) => {
            Report::Scouted { amount: *amount, level: Some(*level) }
        }
        (Report::Scouted { amount, level }, Correction::Number(number)) => {
            Report::Scouted { amount: renumbered(*amount, *number)?, level: *level }
        }
        (Report::LeafDrop { .. }, Correction::Severity(RustAmount::Severity(share))) => {
            Report::LeafDrop { share: Some(*share) }
        }
        (Report::LeafDrop { .. }, Correction::Number(number)) => {
            Report::LeafDrop { share: Some(Fraction::from_percent(*number)?) }
        }
        (Report::Sprayed { volume, .. }, Correction::Product(product)) => {
            Report::Sprayed { product: product.clone(), volume: *volume }
        }
        (Report::Sprayed { product, .. }, Correction::Volume(volume)) => {
            Report::Sprayed { product: product.clone(), volume: Some(*volume) }
        }
        (Report::Watered { depth, .. }, Correction::Volume(volume)) => {
            Report::Watered { volume: Some(*volume), depth: *depth }
        }
        (Report::Watered { volume, .. }, Correction::Depth(depth)) => {
            Report::Watered { volume: *volume, depth: Some(*depth) }
        }
        (Report::Watered { volume: Some(_), .. }, Correction::Number(number)) => {
            Report::Watered { volume: Some(Litres::new(*number)), depth: None }
        }
        (Report::Moisture { .. }, Correction::Moisture(state)) => Report::Moisture { state: *state },
        (Report::Rained { .. }, Correction::Depth(depth)) => Report::Rained { depth: *depth },
        (Report::Rained { .. }, Correction::Number(number)) => {
            Report::Rained { depth: Millimetres::new(*number) }
        }
        (Report::Stage { .. }, Correction::Stage(stage)) => Report::Stage { stage: *stage },
        // "Make that 20 lb", of nine figs: the one in place of the other. Where both were told, the other stays.
        (Report::Picked { count, mass }, Correction::Count(told)) => {
            Report::Picked { count: Some(*told), mass: mass.filter(|_| count.is_some()) }
        }
        (Report::Picked { count, mass }, Correction::Mass(told)) => {
            Report::Picked { count: count.filter(|_| mass.is_some()), mass: Some(*told) }
        }
        (Report::Picked { count: Some(_), mass }, Correction::Number(number)) => {
            Report::Picked { count: whole(*number), mass: *mass }
        }
        (Report::Picked { count: None, .. }, Correction::Number(number)) => {
            Report::Picked { count: None, mass: Some(Kilograms::new(*number)) }
        }
        _ => return None,
    };
    Some(changed)
}

/// A bare number takes the measure of what it corrects.
fn renumbered(amount: RustAmount, number: f64) -> Option<RustAmount> {
    match amount {
        RustAmount::Class(_) => {
            whole(number).filter(|class| *class <= 5).map(|class| RustAmount::Class(class as u8))
        }
        RustAmount::Leaves { of, .. } => {
            whole(number).filter(|spotted| *spotted <= of).map(|spotted| RustAmount::Leaves { spotted, of })
        }
        RustAmount::None | RustAmount::Severity(_) | RustAmount::Words(_) => {
            Fraction::from_percent(number).map(RustAmount::Severity)
        }
    }
}

fn whole(number: f64) -> Option<u32> {
    (number >= 0.0 && number <= f64::from(u32::MAX) && number.fract() == 0.0).then_some(number as u32)
}
