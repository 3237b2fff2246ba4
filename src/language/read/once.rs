//! What a message says twice is told once.

use super::records;
use crate::season::garden::Quiet;
use crate::season::journal::{MoistureState, Report, Stage};
use crate::season::request::{
    Correction, Doubt, DoubtKind, Question, Reading, Record, Request, Selection, Setting, When,
};

/// Figures told twice, before the message is read as an addition to the one before.
pub(super) fn count(reading: &mut Reading) {
    // "First one off Eave! Just one": said twice, and nothing corrected.
    for at in (1..reading.requests.len()).rev() {
        if let [
            Request::Record(Record { report: Report::Picked { count: Some(count), .. }, .. }),
            Request::Correct(Correction::Number(told)),
        ] = &reading.requests[at - 1..=at]
            && f64::from(*count) == *told
        {
            reading.requests.remove(at);
        }
    }
    // "Weighed the pots today. Celeste 92 lb, moist.": how much is told after all.
    let weighed =
        |request: &Request| matches!(request, Request::Record(Record { report: Report::Weighed { .. }, .. }));
    if reading.requests.iter().any(weighed) {
        reading.doubts.retain(|doubt| {
            doubt.kind != DoubtKind::HowMuch || {
                let words = doubt.words.to_lowercase();
                !words.contains("weigh") && !words.contains("scale")
            }
        });
    }
}

/// Reports and doubts told twice.
pub(super) fn tell(text: &str, reading: &mut Reading) {
    quiet(&mut reading.requests);
    picked_out(&mut reading.requests);
    removed(&mut reading.requests);
    put_right(&mut reading.requests);
    states(&mut reading.requests);
    weighed_dry(&mut reading.requests);
    fallen(&mut reading.requests);
    begun(text, reading);
    doubts(&mut reading.doubts);
    closer(&mut reading.requests);
}

/// "Celeste gave 18 figs, I picked all", "hosed everybody down, watered all except Whip", "we had a frost, 31 degrees": the
/// same thing told twice, once closer.
fn closer(requests: &mut Vec<Request>) {
    for at in (1..requests.len()).rev() {
        let [Request::Record(first), Request::Record(second)] = &requests[at - 1..=at] else { continue };
        if first.when != second.when && second.when != When::Unsaid {
            continue;
        }
        let idle = match (&first.report, &second.report) {
            // "Took out Whip today, it died"
            (Report::Moved { .. }, Report::Removed) if first.trees == second.trees => at - 1,
            (Report::Picked { count, mass }, Report::Picked { count: None, mass: None })
                if (count.is_some() || mass.is_some()) && second.trees == Selection::All =>
            {
                at
            }
            (Report::Watered { volume: None, depth: None }, Report::Watered { .. })
                if first.trees == Selection::All && matches!(second.trees, Selection::AllBut(_)) =>
            {
                at - 1
            }
            (Report::Frost { minimum: None }, Report::Frost { minimum: Some(_) }) => at - 1,
            _ => continue,
        };
        requests.remove(idle);
    }
}

/// "Whip was removed, it died" is one removal.
fn states(requests: &mut Vec<Request>) {
    let mut once: Vec<Request> = Vec::new();
    requests.retain(|request| {
        let single = matches!(
            request,
            Request::Record(Record {
                report: Report::Removed
                    | Report::Planted
                    | Report::Stage { .. }
                    | Report::Moisture { .. }
                    | Report::Moved { .. },
                ..
            })
        );
        let again = single && once.contains(request);
        if single {
            once.push(request.clone());
        }
        !again
    });
}

/// "Celeste is dry, 17 kg on the scale": weighed dry, and not dry and weighed as it was found.
fn weighed_dry(requests: &mut Vec<Request>) {
    let dry = |request: &Request, of: &Record| {
        matches!(request, Request::Record(Record { trees, when, report: Report::Moisture { state: MoistureState::Dry } })
            if *trees == of.trees && *when == of.when)
    };
    for at in (0..requests.len()).rev() {
        let Request::Record(weighed) = &requests[at] else { continue };
        let Report::Weighed { mass, state: MoistureState::Wet } = weighed.report else { continue };
        let Some(told) = requests.iter().position(|request| dry(request, weighed)) else { continue };
        let record =
            Record { report: Report::Weighed { mass, state: MoistureState::Dry }, ..weighed.clone() };
        requests[at] = Request::Record(record);
        requests.remove(told);
    }
}

/// "Picked 4 off Wall. Corner, I mean": put right in the same breath.
fn put_right(requests: &mut Vec<Request>) {
    for at in (1..requests.len()).rev() {
        let [Request::Record(record), Request::Correct(correction)] = &mut requests[at - 1..=at] else {
            continue;
        };
        match (correction, &mut record.report) {
            (Correction::Trees(trees), _) => record.trees = trees.clone(),
            (Correction::Product(name), Report::Sprayed { product, .. }) => product.clone_from(name),
            (Correction::Volume(told), Report::Watered { volume, .. } | Report::Sprayed { volume, .. }) => {
                *volume = Some(*told);
            }
            (Correction::Number(number), Report::Picked { count: count @ Some(_), .. })
                if number.fract() == 0.0 && (0.0..=records::MOST_FIGS).contains(number) =>
            {
                *count = Some(*number as u32);
            }
            (Correction::When(when), _) => record.when = *when,
            _ => continue,
        }
        requests.remove(at);
    }
}

/// "Please don't write to us this week. Be quiet through Sunday": once, with its day.
fn quiet(requests: &mut Vec<Request>) {
    let until =
        |request: &Request| matches!(request, Request::Set(Setting::Quiet { quiet: Quiet::Until(_) }));
    if requests.iter().any(until) {
        requests
            .retain(|request| !matches!(request, Request::Set(Setting::Quiet { quiet: Quiet::UntilTold })));
    }
}

/// "Finished picking from Celeste, no more fruit on it": the end of it, and no picking without a figure.
fn picked_out(requests: &mut Vec<Request>) {
    let over: Vec<Selection> = requests
        .iter()
        .filter_map(|request| match request {
            Request::Record(Record { trees, report: Report::Stage { stage: Stage::PickedOut }, .. }) => {
                Some(trees.clone())
            }
            _ => None,
        })
        .collect();
    requests.retain(|request| {
        !matches!(request, Request::Record(Record { trees, report: Report::Picked { count: None, mass: None }, .. }) if over.contains(trees))
    });
}

/// "Whip is dead. It was pulled out on Monday": once, with its day.
fn removed(requests: &mut Vec<Request>) {
    let gone = |request: &Request| match request {
        Request::Record(Record { trees, when, report: Report::Removed }) => Some((trees.clone(), *when)),
        _ => None,
    };
    let dated: Vec<Selection> = requests
        .iter()
        .filter_map(gone)
        .filter(|(_, when)| *when != When::Unsaid)
        .map(|(trees, _)| trees)
        .collect();
    requests.retain(|request| {
        gone(request).is_none_or(|(trees, when)| when != When::Unsaid || !dated.contains(&trees))
    });
}

/// "Leaves falling off Wall! Maybe a third gone": told once, the second time with its figure.
fn fallen(requests: &mut Vec<Request>) {
    let closer = requests.windows(2).position(|pair| {
        matches!(
            pair,
            [
                Request::Record(Record { report: Report::LeafDrop { share: None }, trees: one, .. }),
                Request::Record(Record { report: Report::LeafDrop { share: Some(_) }, trees: other, .. }),
            ] if one == other
        )
    });
    if let Some(at) = closer {
        requests.remove(at);
    }
}

/// "Picked 9... no, Teddy, put that down... picked 9 off Wall": begun twice, and told whole the second time.
fn begun(text: &str, reading: &mut Reading) {
    if reading.requests.is_empty() || reading.doubts.is_empty() {
        return;
    }
    let lower = text.to_lowercase();
    reading.doubts.retain(|doubt| {
        let begun = doubt.kind == DoubtKind::WhichTree && doubt.words.contains(' ');
        !(begun && lower.matches(&doubt.words.to_lowercase()).count() > 1)
    });
}

/// The same doubt once is enough.
fn doubts(doubts: &mut Vec<Doubt>) {
    let mut once: Vec<Doubt> = Vec::new();
    for doubt in doubts.drain(..) {
        let of_all = matches!(doubt.kind, DoubtKind::OtherLanguage);
        if !once.iter().any(|known| *known == doubt || of_all && known.kind == doubt.kind) {
            once.push(doubt);
        }
    }
    *doubts = once;
}

/// "How is Celeste doing? When will the figs be ready?": the second asks after her too.
pub(super) fn ask(requests: &mut Vec<Request>) {
    let of_one = requests
        .iter()
        .any(|request| matches!(request, Request::Ask(Question::Tree { trees }) if *trees != Selection::All));
    // "How is Eave, and what has been done to it?": how she is tells both.
    let trees_asked: Vec<Selection> = requests
        .iter()
        .filter_map(|request| match request {
            Request::Ask(Question::Tree { trees }) if *trees != Selection::All => Some(trees.clone()),
            _ => None,
        })
        .collect();
    requests.retain(|request| match request {
        Request::Ask(Question::Done { trees, deed: None }) => {
            !(trees_asked.contains(trees) || *trees == Selection::Unsaid && !trees_asked.is_empty())
        }
        _ => true,
    });
    let mut asked: Vec<Request> = Vec::new();
    requests.retain(|request| {
        let Request::Ask(question) = request else { return true };
        let again =
            asked.contains(request) || of_one && matches!(question, Question::Tree { trees: Selection::All });
        asked.push(request.clone());
        !again
    });
}
