//! Where a tree was planted, told with the planting: "planted Violette in a 5 gal pot", "planted Whip in the ground".

use super::trees::settled;
use super::{Found, any};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::word_list::words;
use crate::season::journal::Report;
use crate::season::request::{Potted, Reading, Request, Selection, TreeDetails};

/// Settles where the one tree stands that this sentence planted, behind its planting.
pub(in crate::language::read) fn stand(speech: &Speech, planted_from: usize, reading: &mut Reading) {
    let mut planted = reading.requests.iter().skip(planted_from).filter_map(|request| match request {
        Request::Record(record) if record.report == Report::Planted => Some(&record.trees),
        _ => None,
    });
    let (Some(Selection::Named(names)), None) = (planted.next(), planted.next()) else { return };
    let [name] = names.as_slice() else { return };
    let details = TreeDetails { name: name.clone(), ..TreeDetails::default() };
    let details = if let Some(volume) = pot(speech) {
        TreeDetails { potted: Some(Potted::InPot), volume: Some(volume), ..details }
    } else if is_in_ground(speech) {
        TreeDetails { potted: Some(Potted::InGround), ..details }
    } else {
        return;
    };
    if let Found::Setting(setting) = settled(details, speech.text, reading) {
        reading.requests.push(Request::Set(setting));
    }
}

/// "In a 5 gal pot", "into its new 20 litre tub": the last size told, as "from a 10 to a 15 gallon pot".
fn pot(speech: &Speech) -> Option<crate::units::Litres> {
    const FARTHEST: usize = 4;
    let tokens = speech.tokens;
    let into = |from: usize| {
        let between = tokens[..from]
            .iter()
            .rev()
            .take(FARTHEST)
            .take_while(|token| !token.is_any(words!("in into to")));
        let between: Vec<_> = between.collect();
        between.len() < FARTHEST.min(from)
            && between.iter().all(|token| {
                token.is_any(words!(
                    "a an the its his her new big bigger larger nice small plastic clay terracotta fabric"
                ))
            })
    };
    amounts(tokens, &[], speech.context.garden.units).into_iter().rev().find_map(|measured| {
        match measured.amount {
            Amount::Volume(volume) | Amount::Vessel(volume) if into(measured.from) => Some(volume),
            _ => None,
        }
    })
}

fn is_in_ground(speech: &Speech) -> bool {
    let tokens = speech.tokens;
    tokens.windows(3).any(|three| {
        three[0].is_any(words!("in into"))
            && three[1].is("the")
            && three[2].is_any(words!("ground earth dirt"))
    }) || any(tokens, words!("in-ground inground"))
        || tokens.windows(3).any(|three| three[0].is("in") && three[1].is("-") && three[2].is("ground"))
}
