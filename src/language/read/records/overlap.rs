//! "Watered the pots, 1 gal each. Whip 2 gal": what is told of one tree by itself is no longer told of it with the rest.

use crate::season::garden::Garden;
use crate::season::journal::{Report, RustAmount, RustWords};
use crate::season::request::{Reading, Record, Request, Selection, When};
use crate::season::selection::selected;

/// Takes a tree out of an earlier report of the same message, if a later one tells the same of it with another amount.
pub(in crate::language::read) fn tell_apart(reading: &mut Reading, garden: &Garden) {
    let mut looks: Vec<usize> = Vec::new();
    for later in 1..reading.requests.len() {
        let Some(Request::Record(record)) = reading.requests.get(later) else { continue };
        let (narrow, report) = (selected(garden, &record.trees), record.report.clone());
        if record.trees == Selection::Unsaid {
            continue;
        }
        // "Found rust on Eave, just a few spots": one look, told closer.
        if let Report::Scouted { amount, .. } = &report
            && *amount != RustAmount::None
            && let Some(first) = reading.requests[..later].iter().position(|earlier| {
                matches!(earlier, Request::Record(Record { trees, report: Report::Scouted { amount: RustAmount::Words(RustWords::Some), level: None }, when })
                    if selected(garden, trees) == narrow && (*when == record.when || record.when == When::Unsaid))
            })
        {
            looks.push(first);
        }
        let then = record.when;
        for (at, earlier) in reading.requests[..later].iter_mut().enumerate() {
            let Request::Record(Record { trees, report: before, when }) = earlier else { continue };
            if *when != then && then != When::Unsaid {
                continue;
            }
            let wide = selected(garden, trees);
            let within = narrow.len() < wide.len() && narrow.iter().all(|tree| wide.contains(tree));
            if within && *trees != Selection::Unsaid && contradicts(before, &report) {
                let rest: Vec<String> = wide.into_iter().filter(|tree| !narrow.contains(tree)).collect();
                *trees = Selection::Named(rest);
            } else if wide.len() == narrow.len() && wide == narrow && is_told_closer(before, &report) {
                // "Watered all, 2 gal on the deck, 1 on the others": nothing is left of the first.
                looks.push(at);
            }
        }
    }
    looks.extend(measured_twice(reading));
    looks.extend(weighed_too(reading, garden));
    looks.sort_unstable();
    looks.dedup();
    for first in looks.into_iter().rev() {
        reading.requests.remove(first);
    }
}

/// "Just over an inch of rain, 1.18 inches": one rain, first about and then as the gauge has it.
fn measured_twice(reading: &Reading) -> Option<usize> {
    const ALIKE: f64 = 0.25;
    let rain = |request: &Request| match request {
        Request::Record(Record { report: Report::Rained { depth }, when, .. }) => {
            Some((depth.value(), *when))
        }
        _ => None,
    };
    reading.requests.windows(2).position(|pair| {
        let (Some((first, at)), Some((second, then))) = (rain(&pair[0]), rain(&pair[1])) else {
            return false;
        };
        (at == then || at == When::Unsaid) && (first - second).abs() <= ALIKE * second
    })
}

/// Kilograms of the heaviest fig one meets. From memory: the largest sorts reach about 150 g.
const HEAVIEST_FIG: f64 = 0.15;

/// "Picked 14 figs from Corner, and they weighed 1 lb": one harvest, counted and weighed.
fn weighed_too(reading: &mut Reading, garden: &Garden) -> Option<usize> {
    for at in 1..reading.requests.len() {
        let [Request::Record(first), Request::Record(second)] = &mut reading.requests[at - 1..=at] else {
            continue;
        };
        let same_trees = selected(garden, &first.trees) == selected(garden, &second.trees);
        let alike = same_trees && (first.when == second.when || second.when == When::Unsaid);
        if let (
            Report::Picked { count: count @ None, mass: Some(_) },
            Report::Picked { count: Some(counted), mass: None },
        ) = (&mut first.report, &second.report)
            && alike
        {
            *count = Some(*counted);
            return Some(at);
        }
        // "Two dozen figs off Corner, picked them this afternoon"
        if let (
            Report::Picked { count: Some(_), .. } | Report::Picked { mass: Some(_), .. },
            Report::Picked { count: None, mass: None },
        ) = (&first.report, &second.report)
            && same_trees
        {
            return Some(at);
        }
        // "We had frost on April 12. 29 degrees on the porch thermometer."
        if let (Report::Frost { minimum: minimum @ None }, Report::Frost { minimum: Some(told) }) =
            (&mut first.report, &second.report)
            && second.when == When::Unsaid
        {
            *minimum = Some(*told);
            return Some(at);
        }
        // "... which together weighed 1 lb 4 oz": fruit, if no heavier than figs are.
        if let (
            Report::Picked { count: Some(count), mass: mass @ None },
            Report::Weighed { mass: weighed, .. },
        ) = (&mut first.report, &second.report)
            && alike
            && *count > 0
            && weighed.value() / f64::from(*count) <= HEAVIEST_FIG
        {
            *mass = Some(*weighed);
            return Some(at);
        }
        if let (
            Report::Picked { count: Some(_), mass: mass @ None },
            Report::Picked { count: None, mass: Some(weighed) },
        ) = (&mut first.report, &second.report)
            && alike
        {
            *mass = Some(*weighed);
            return Some(at);
        }
    }
    None
}

/// Watered, and then how much.
fn is_told_closer(one: &Report, other: &Report) -> bool {
    matches!(
        (one, other),
        (Report::Watered { volume: None, depth: None }, Report::Watered { volume: Some(_), .. })
            | (Report::Picked { count: None, mass: None }, Report::Picked { .. })
    )
}

/// Both cannot be so of one tree at once, or the second says the first closer.
fn contradicts(one: &Report, other: &Report) -> bool {
    match (one, other) {
        _ if is_told_closer(one, other) => true,
        (Report::Watered { volume: Some(one), .. }, Report::Watered { volume: Some(other), .. }) => {
            one != other
        }
        (Report::Moisture { state: one }, Report::Moisture { state: other }) => one != other,
        _ => false,
    }
}
