//! What is told and what is not, clause by clause and among its neighbours.

use super::Part;
use super::predicate::{Form, Predicate, Words};
use crate::language::read::Speech;
use crate::language::read::amounts::Amount;
use crate::language::read::clauses::{Asked, Joint};
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::Moment;
use crate::language::read::mood::Mood;
use crate::language::read::names::Product;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::Aside;

/// What one clause says of the others: "if it rains, I skip watering"; "my neighbour sprayed and picked".
pub(super) fn settle_moods(speech: &Speech, parts: &mut [Part]) {
    // "Last year" beside a sentence is of all of it; "last year was worse" only of itself.
    let bare = |part: &Part| {
        part.clause(speech.tokens).iter().all(|token| {
            token.is_mark()
                || token.number.is_some()
                || token.senses.has_any(&[Sense::Time, Sense::Link, Sense::Article, Sense::Filler])
                || token.is_any(words!(
                    "season summer fall autumn spring winter yr previous prior this date day time month"
                ))
        })
    };
    let sentence_year = parts
        .iter()
        .any(|part| part.other_year && part.predicate.is_none() && !part.trees.names_some() && bare(part));
    let mut carried: Option<Mood> = None;
    let mut thing = false;
    let mut of_plant = false;
    let mut left_undone = false;
    let mut left_out = false;
    let mut denied: Option<(Option<Predicate>, Vec<Product>)> = None;
    for part in parts.iter_mut() {
        // "I didn't spray Wall, only Corner, with sulfur"
        let only = part
            .clause(speech.tokens)
            .iter()
            .find(|token| !token.is_mark())
            .is_some_and(|first| first.is_any(words!("only just")));
        if let Some((predicate, products)) = denied.take()
            && only
            && part.predicate.is_none()
            && part.names_trees()
        {
            part.predicate = predicate;
            if part.products.is_empty() {
                part.products = products;
            }
        } else if part.mood == Mood::Denied
            && part.predicate.is_some_and(Predicate::is_work)
            && part.names_trees()
        {
            denied = Some((part.predicate, part.products.clone()));
        }
        // "Didn't water anything but Whip": her alone.
        if part.mood == Mood::Denied
            && part.predicate.is_some_and(Predicate::is_work)
            && !part.names_trees()
            && !part.trees.without.is_empty()
            && part.any(speech.tokens, words!("anything any nothing none anyone"))
        {
            part.mood = Mood::Told;
            part.trees = part.trees.of_left_out();
        }
        // "I should oil the hinges, they're all rusted"
        let of_thing = thing && part.pronoun && part.senses.has(Sense::Rust);
        if of_thing && part.mood == Mood::Told && !part.trees.names_one_by_name() {
            part.mood = Mood::Not(Aside::Elsewhere);
        }
        thing |= part.senses.has(Sense::Metal) && !part.trees.names_one_by_name();
        let clause = &speech.tokens[part.range.clone()];
        // "The roses have black spot, and I sprayed them": the roses.
        // "My tomatoes are coming along, I picked twelve"
        let of_them = carried == Some(Mood::Not(Aside::Elsewhere))
            && of_plant
            && (part.pronoun || part.predicate == Some(Predicate::Picked))
            && part.trees.is_empty();
        // "My uncle has fifty trees and all are having rust": his.
        let theirs = carried == Some(Mood::Not(Aside::Elsewhere)) && part.trees.is_all();
        let mine = (part.senses.has(Sense::Mine)
            || part.trees.names_some() && !part.trees.is_vague() && !theirs)
            && !of_them
            // "Neighbor's is worse, all his leaves are covered"
            && !part.pair(speech.tokens, words!("all"), words!("his their her hers"));
        match part.mood {
            Mood::Not(Aside::Condition) => carried = Some(part.mood),
            // "Just testing: ..."
            Mood::Not(Aside::Talk)
                if part.trial
                    || clause.iter().any(|token| token.is_any(words!("kidding joking pretend"))) =>
            {
                carried = Some(part.mood);
            }
            Mood::Not(Aside::Elsewhere) => {
                of_plant = part.other_plant;
                carried = Some(part.mood);
            }
            // "Tomorrow: spray copper, water pots"
            Mood::Not(Aside::Plan) => carried = Some(part.mood),
            Mood::Told => match carried {
                // "Watered Celeste and the lemon, a gallon each"
                Some(Mood::Not(Aside::Elsewhere))
                    if of_plant && part.predicate.is_none() && !part.amounts.is_empty() => {}
                Some(Mood::Not(Aside::Elsewhere)) if !mine => part.mood = Mood::Not(Aside::Elsewhere),
                Some(Mood::Not(Aside::Elsewhere)) => carried = None,
                Some(mood @ Mood::Not(Aside::Condition | Aside::Talk)) => part.mood = mood,
                Some(Mood::Not(Aside::Plan))
                    if part.predicate.is_none_or(Predicate::is_work)
                        && !is_told_past(clause)
                        && !part.moment.is_past(speech.now()) =>
                {
                    part.mood = Mood::Not(Aside::Plan);
                }
                _ => {}
            },
            _ => {}
        }
        if sentence_year
            && part.mood == Mood::Told
            && !clause.iter().any(|token| token.is_any(words!("now today")))
        {
            part.mood = Mood::Not(Aside::Elsewhere);
        }
        // A reason is told for the sake of what it explains.
        // "Didn't water Eave, because the soil was still moist": that it is moist is told all the same.
        let found = (left_undone || left_out) && matches!(part.predicate, Some(Predicate::Moisture(_)));
        left_out |= !part.trees.without.is_empty();
        left_undone |= part.mood == Mood::Denied && part.predicate.is_some_and(Predicate::is_work);
        if part.joint == Joint::Because && part.mood == Mood::Told && !found {
            part.mood = Mood::Denied;
        }
    }
}

fn is_told_past(clause: &[Token]) -> bool {
    clause.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Sprayed,
            Sense::Applied,
            Sense::Watered,
            Sense::Picked,
            Sense::Finished,
        ])
            // "Storm coming, brought Celeste inside"
            || token.is_any(words!("brought moved took carried hauled dragged pulled planted"))
    })
}

/// The mood that follows from what is reported: work can be ordered or left undone, what is seen cannot.
pub(super) fn mood_of(speech: &Speech, predicate: Predicate, words: &Words, moment: &Moment) -> Mood {
    if speech.asked == Asked::Yes {
        return Mood::Not(Aside::Talk);
    }
    if predicate.is_denied(words) {
        return Mood::Denied;
    }
    let amount = words
        .amounts
        .iter()
        .any(|measured| matches!(measured.amount, Amount::Volume(_) | Amount::Count(_) | Amount::Mass(_)));
    let first_person = words.any(words!("i we"));
    // "Got around to spraying", "helped me pick", "had to water"
    let finally = words.any(words!("finally just already"));
    let managed = words.pair(words!("got"), words!("to")) && finally
        || words.pair(words!("around managed able remembered had chance time"), words!("to"))
            && words.any(words!("got managed was remembered had finally"))
        || words.any(words!("helped"));
    let past = moment.is_past(speech.now());
    // "I wanted it dry first"
    if matches!(predicate, Predicate::Moisture(_)) && words.any(words!("wanted want wants")) {
        return Mood::Not(Aside::Talk);
    }
    // "I had every intention of watering"
    if words.any(words!("intention intentions")) && predicate.is_work() {
        return Mood::Not(Aside::Plan);
    }
    match words.form(predicate) {
        // "Maybe my husband picked Celeste, maybe nobody"
        Form::Done
            if words.any(words!("maybe perhaps")) && predicate.is_work() && words.amounts.is_empty() =>
        {
            Mood::Not(Aside::Talk)
        }
        Form::Done => Mood::Told,
        Form::Going => {
            let now = words.any(words!("now currently right just been finished done"));
            if now || amount || past || managed { Mood::Told } else { Mood::Not(Aside::Plan) }
        }
        // "Maybe spray Sunday"
        Form::Base if words.any(words!("maybe perhaps")) && !amount => Mood::Not(Aside::Plan),
        Form::Base => {
            // "I spray neem on Whip", as one tells it who learnt the language late: said back in the past.
            let mut heads = words.clause.iter().filter(|token| !token.is_mark());
            let plainly = heads.next().is_some_and(|first| first.is_any(words!("i we")))
                && heads.next().is_some_and(|verb| {
                    verb.senses.has_any(&[Sense::Spray, Sense::Water])
                        // "I pick 4 in Wall"
                        || verb.senses.has(Sense::Pick) && amount
                        || verb.is_any(words!("make do put give")) && words.has_product
                })
                && words.names_trees
                && (words.has_product
                    || predicate == Predicate::Picked
                    || predicate == Predicate::Watered
                    || words.pair(words!("on for"), words!("the my"))
                    || words.has(Sense::OtherProduct)
                    || words.any(words!("water tea mix")));
            // "Already water Whip and Celeste lah"
            let already = words.clause.first().is_some_and(|first| first.is("already")) && words.names_trees;
            let told = past
                || already
                || plainly
                || managed
                || first_person && (amount || moment.is_said())
                || predicate == Predicate::Picked && amount;
            if told { Mood::Told } else { Mood::Not(Aside::Plan) }
        }
    }
}
