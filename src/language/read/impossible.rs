//! What is put right or asked in amounts no sky and no tank holds is doubted, as a report of them is.

use super::{doubt, records};
use crate::season::request::{Correction, DoubtKind, Question, Reading, Request};
use crate::units::Litres;

/// Nobody mixes more for six trees, or for sixty. From memory: a tank behind a tractor holds less.
const MOST_MIXED: Litres = Litres::new(2000.0);

/// Takes out what cannot be, and doubts it.
pub(super) fn doubted(text: &str, reading: &mut Reading) {
    let impossible = |request: &Request| match request {
        Request::Correct(Correction::Depth(depth)) => *depth > records::MOST_RAIN,
        Request::Ask(Question::Mix { volume: Some(volume), .. }) => *volume > MOST_MIXED,
        _ => false,
    };
    if reading.requests.iter().any(impossible) {
        reading.requests.retain(|request| !impossible(request));
        reading.doubts.push(doubt(DoubtKind::ImpossibleAmount, text));
    }
}
