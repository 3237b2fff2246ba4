//! Limits the decisions turn on, as a grower sets them: "keep sulfur and oil 30 days apart".

use super::{Found, any};
use crate::language::read::amounts::{Amount, amounts, bare_temperature};
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::words;
use crate::language::read::{Speech, doubt};
use crate::season::request::{DoubtKind, Reading, Setting};
use crate::season::thresholds::Limit;

pub(super) fn read(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let tokens = speech.tokens;
    let says = |sense: Sense| tokens.iter().any(|token| token.senses.has(sense));
    let told = says(Sense::Sprayed) || says(Sense::Watered) || speech.asked == Asked::Yes;
    // "Wettable sulfur, 3 tbsp a gallon, not over 90 degrees" is a label.
    let label =
        any(tokens, words!("tbsp tsp tablespoon tablespoons teaspoon teaspoons oz ounces ml gram grams per"));
    if told || label || tokens.len() > 14 {
        return None;
    }
    let days = tokens.windows(2).find_map(|pair| {
        let days = pair[1].is_any(words!("day days")).then_some(1.0);
        let weeks = pair[1].is_any(words!("week weeks")).then_some(7.0);
        Some(pair[0].number? * days.or(weeks)?)
    });
    let degrees = amounts(tokens, &[], speech.context.garden.units).into_iter().find_map(|measured| {
        match measured.amount {
            Amount::Temperature(temperature) => Some(temperature),
            Amount::Count(count) => Some(bare_temperature(count, speech.context.garden.units)),
            _ => None,
        }
    });
    let every = any(tokens, words!("every interval after each"));
    let (limit, value) =
        if says(Sense::Sulfur) && says(Sense::Oil) && any(tokens, words!("apart between keep")) {
            (Limit::SulfurOilDays, days?)
        } else if says(Sense::Sulfur)
            && any(tokens, words!("above over"))
            && any(tokens, words!("no never not"))
            && !any(tokens, words!(":"))
        {
            (Limit::SulfurHottest, degrees?.value())
        } else if any(tokens, words!("spray spraying sprays renew"))
            && any(tokens, words!("interval set renew"))
            && every
        {
            (Limit::SprayIntervalDays, days?)
        } else if any(tokens, words!("scout scouting look looking check checking inspect"))
            && every
            && any(tokens, words!("remind ask set tell me"))
        {
            (Limit::ScoutEveryDays, days?)
        } else if any(tokens, words!("hot heat"))
            && any(tokens, words!("above over means is from call count set"))
            && any(tokens, words!("day days means call count set"))
            && degrees.is_some_and(|degrees| degrees.value() > 20.0)
            && tokens.len() <= 9
        {
            (Limit::HeatWatering, degrees?.value())
        } else if says(Sense::Copper) && any(tokens, words!("limit")) && any(tokens, words!("year yearly")) {
            (Limit::CopperYearly, tokens.iter().find_map(|token| token.number)?)
        } else {
            return None;
        };
    if !limit.sensible().contains(&value) {
        reading.doubts.push(doubt(DoubtKind::ImpossibleAmount, speech.text));
        return Some(Found::Doubted);
    }
    Some(Setting::Limit { limit, value }.into())
}
