//! Clauses put together: those without a verb of their own go on with the one before, or open the one after.

use super::fragments::{own_amount_of_left_out, take_fragment};
use super::hanging::{
    adopt_rest, goes_on_with, has_level, inherit, is_announced_by, is_bare_mass, is_left_undone,
    is_poured_only, is_rust, is_severity, leave_out_skipped, tells_how_much_spray,
};
use super::opening::Opening;
use super::predicate::Predicate;
use super::spread::{drop_total, spread_moments, spread_products};
use super::{Memory, Part};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::clauses::Joint;
use crate::language::read::lexicon::Sense;
use crate::language::read::mood::Mood;
use crate::language::read::word_list::words;
use crate::season::journal::{MoistureState, Stage};
use crate::season::request::Aside;

/// The parts that report something, whole.
pub(super) fn join(speech: &Speech, memory: &mut Memory, parts: Vec<Part>) -> Vec<Part> {
    let mut joined: Vec<Part> = Vec::with_capacity(parts.len());
    let mut opening = Opening::default();
    // "Yesterday: copper on Wall. Scouted too ..."
    if let [day, told, ..] = parts.as_slice()
        && told.joint == Joint::Of
        && day.predicate.is_none_or(Predicate::repeats)
        && day.moment.is_said()
        && !day.names_trees()
    {
        memory.moment = day.moment.day_only();
    }
    let mut left_undone = false;
    let mut parts = parts.into_iter().peekable();
    while let Some(mut part) = parts.next() {
        // "Mixed up copper this morning, and went over Wall with two gallons": of what was mixed.
        let mixes = part.any(speech.tokens, words!("mixed loaded filled"));
        if mixes && !part.names_trees() && !part.products.is_empty() {
            opening.moment.completed_by(part.moment.clone());
            opening.mixed = Some(part);
            continue;
        }
        let pours = part.predicate == Some(Predicate::Watered)
            && part.pours()
            && !part.senses.has_any(&[Sense::Watered, Sense::Watering, Sense::Water]);
        if let Some(mixed) = opening.mixed.take_if(|_| pours || part.predicate == Some(Predicate::Sprayed)) {
            part.predicate = Some(Predicate::Sprayed);
            if part.products.is_empty() {
                part.products = mixed.products;
            }
            if part.amounts.is_empty() {
                part.amounts = mixed.amounts;
                part.amounts.iter_mut().for_each(Measured::set_apart);
            }
        }
        // "Started at Wall, ..., went on to Corner, ..., came back round to Eave": what follows is of her.
        let goes_to = part.clause(speech.tokens).windows(2).any(|pair| {
            pair[0].is_any(words!("on over back round around started began moved next went headed went"))
                && pair[1].is_any(words!("to at with was by"))
        }) && part
            .any(speech.tokens, words!("started began went came moved headed got next then"));
        if goes_to
            && part.predicate.is_none()
            && part.mood == Mood::Told
            && part.names_trees()
            && part.amounts.is_empty()
            && part.products.is_empty()
        {
            opening.topic = Some(part.trees.clone());
            opening.moment.completed_by(part.moment);
            continue;
        }
        // "Big One: 7 picked, Corner: 3 picked": a name before a colon opens what is told of it.
        let heads = parts
            .peek()
            .is_some_and(|next| next.joint == Joint::Of && next.predicate.is_some() && !next.names_trees());
        if heads
            && !joined.is_empty()
            && part.mood == Mood::Told
            && part.predicate.is_none()
            && part.names_trees()
            && part.amounts.is_empty()
            && part.products.is_empty()
        {
            opening.topic = None;
            opening.parts.push(part);
            continue;
        }
        // "Watered nothing today, too wet": why not.
        let reason = left_undone
            && matches!(part.predicate, Some(Predicate::Moisture(_)))
            && part.trees.is_empty()
            && part.range.len() <= 3;
        if reason && joined.is_empty() {
            continue;
        }
        left_undone |= part.mood == Mood::Denied && part.predicate.is_some_and(Predicate::is_work);
        // "7/32: watered pots"
        if part.moment.impossible && part.predicate.is_none() && !part.names_trees() {
            opening.moment.completed_by(part.moment.clone());
        }
        // What is denied or planned is no fragment of what was done.
        if part.mood != Mood::Told {
            if part.other_plant && part.predicate.is_some_and(Predicate::is_work) {
                opening.left_off = Some(part.clone());
            }
            if part.names_trees() && !matches!(part.mood, Mood::Not(Aside::Elsewhere)) {
                opening.passing = part.trees.clone();
                opening.passing_at = part.range.start;
                opening.skipped = is_left_undone(speech, &part).then(|| part.trees.clone());
            }
            leave_out_skipped(speech, &mut joined, part);
            continue;
        }
        match part.predicate {
            Some(Predicate::Nothing) => {
                if part.names_trees() {
                    opening.passing = part.trees;
                    opening.passing_at = part.range.start;
                }
            }
            Some(_) => {
                // Under "Weights" a name and a weight are a pot on the scale.
                let weighed = memory.predicate == Some(Predicate::Weighed) && is_bare_mass(&part);
                let part = if weighed { Part { predicate: Some(Predicate::Weighed), ..part } } else { part };
                take_whole(speech, &mut joined, &mut opening, part);
            }
            None => take_fragment(speech, &mut joined, &mut opening, part),
        }
    }
    opening.left_over(speech, memory, &mut joined);
    share_object(speech, &mut joined);
    if joined.is_empty() && speech.text.trim_end().ends_with(':') {
        memory.moment = opening.moment.clone();
    }
    drop_total(&mut joined);
    spread_moments(&mut joined, &opening.moment, memory, speech.tokens);
    spread_products(&mut joined, speech.tokens);
    joined
}

/// "Picked and watered Celeste", "Wall and Corner got sprayed with sulfur and watered": one object of both verbs.
fn share_object(speech: &Speech, joined: &mut [Part]) {
    const VERB: usize = 3;
    for at in 1..joined.len() {
        let [first, second] = &mut joined[at - 1..=at] else { continue };
        let work = |part: &Part| {
            matches!(part.predicate, Some(Predicate::Picked | Predicate::Watered | Predicate::Sprayed))
        };
        if !work(first)
            || !work(second)
            || second.joint != Joint::Beside
            || first.predicate == second.predicate
        {
            continue;
        }
        let ends = first.range.end;
        let and = speech.tokens.get(ends..second.range.start).is_some_and(|between| {
            between.iter().all(|token| token.is_any(words!("and , then & n"))) && !between.is_empty()
        });
        // "Picked and | watered Celeste"
        if and
            && first.trees.is_empty()
            && first.amounts.is_empty()
            && first.range.len() <= VERB
            && second.names_trees()
        {
            first.trees = second.trees.clone();
        }
        // "... got sprayed with sulfur | and watered"
        let passive = first.any(speech.tokens, words!("got were was been had"))
            && first.names_trees()
            && !second.any(speech.tokens, words!("i we then"));
        if and && passive && second.trees.is_empty() {
            second.trees = first.trees.clone();
        }
    }
}

fn take_whole(speech: &Speech, joined: &mut Vec<Part>, opening: &mut Opening, mut part: Part) {
    let heavy = part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Mass(_)));
    if let Some(last) = joined.last_mut()
        && heavy
        && (!part.names_trees() || speech.names.unsure(&part.trees).is_some())
        && matches!(part.predicate, Some(Predicate::Weighed | Predicate::Picked))
    {
        match last.predicate {
            // "22 figs from Big One and they weighed 2 lb"
            Some(Predicate::Picked) if part.pronoun => part.predicate = Some(Predicate::Picked),
            // "I put Celeste on the scale and the pot came to 44 pounds"
            Some(Predicate::Weighed) if last.amounts.is_empty() => {
                last.amounts = part.amounts;
                last.amounts.iter_mut().for_each(Measured::set_apart);
                last.range.end = part.range.end;
                return;
            }
            _ => {}
        }
    }
    // "12 figs, 1 lb 8 oz, picked from Wall"
    let measured = |before: &Part| {
        !before.names_trees()
            && before.trees.is_empty()
            && !before.amounts.is_empty()
            && before.products.is_empty()
    };
    if part.predicate == Some(Predicate::Picked)
        && part.amounts.is_empty()
        && part.names_trees()
        && !opening.parts.is_empty()
        && opening.parts.iter().all(measured)
    {
        part.amounts =
            std::mem::take(&mut opening.parts).into_iter().flat_map(|before| before.amounts).collect();
        part.amounts.iter_mut().for_each(Measured::set_apart);
    }
    let topic_ends = part.names_trees();
    for before in std::mem::take(&mut opening.parts) {
        // "Celeste none, Wall 5%, Corner 15% rust"
        if before.names_trees()
            && (part.names_trees() || has_level(&part))
            && is_severity(&before)
            && matches!(part.predicate, Some(Predicate::Scouted | Predicate::Clean))
        {
            joined.push(Part { predicate: Some(Predicate::Scouted), ..before });
            continue;
        }
        if before.names_trees()
            && before.senses.has(Sense::Negation)
            && part.predicate == Some(Predicate::Scouted)
        {
            joined.push(Part { predicate: Some(Predicate::Clean), ..before });
            continue;
        }
        // "CELESTE 4 BIG ONE 7 PICKED": each its number.
        let counts =
            |part: &Part| part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Count(_)));
        if before.names_trees()
            && part.names_trees()
            && counts(&before)
            && counts(&part)
            && part.joint != Joint::Of
            && part.predicate == Some(Predicate::Picked)
        {
            joined.push(Part { predicate: part.predicate, ..before });
            continue;
        }
        // "Big One and Celeste: 1 gal each. Whip half a gal."
        let soaked = before.amounts.iter().any(|measured| matches!(measured.amount, Amount::Depth(_)))
            && before.senses.has_any(&[Sense::Water, Sense::Drink]);
        if before.names_trees()
            && (before.pours() || soaked)
            && part.names_trees()
            && part.joint != Joint::Of
            && is_poured_only(&part)
        {
            joined.push(Part { predicate: part.predicate, ..before });
            continue;
        }
        // "Copper, 1 gal on Wall and 2 qt on Corner"
        if !before.products.is_empty() && !before.names_trees() && is_poured_only(&part) {
            part.predicate = Some(Predicate::Sprayed);
        }
        // "Checked Wall and Corner no rust": none on either.
        let both = before.any(speech.tokens, words!("checked looked inspected scouted examined"))
            && part.joint == Joint::Beside
            && !part.marked
            && before.range.end + 1 == part.range.start
            && speech.tokens[before.range.end].is_any(words!("and n"))
            && speech.mentions.iter().any(|mention| mention.range.start == part.range.start)
            && (part.predicate == Some(Predicate::Clean) || part.senses.has(Sense::Negation))
            && matches!(part.predicate, Some(Predicate::Scouted | Predicate::Clean));
        if before.names_trees() && part.names_trees() && both {
            part.trees = before.trees.together(part.trees);
            part.moment.completed_by(before.moment);
            continue;
        }
        // "Celeste and Eave look fine but Corner has rust": what is said of the first is no report.
        let said = before.senses.has_any(&[Sense::Be, Sense::Have])
            || before.any(speech.tokens, words!("went walked visited checked looked left"));
        if before.names_trees() && said && part.names_trees() && part.joint != Joint::Of {
            continue;
        }
        // "Celeste: rust, picked 7"; "Celeste, Wall and Corner have rust".
        if before.names_trees() && part.joint == Joint::Of {
            opening.topic = Some(before.trees.clone());
        }
        let mixed = before.trees.is_empty() && part.predicate == Some(Predicate::Sprayed);
        if !part.names_trees() || part.joint != Joint::Of {
            part.trees = before.trees.together(part.trees);
        }
        part.moment.completed_by(before.moment);
        // "Whole tree estimate for Big One: 3% rust"
        part.level = part.level.or(before.level);
        // "copper + neem on Eave"
        if part.products.is_empty() || mixed {
            let more = std::mem::replace(&mut part.products, before.products);
            part.products.extend(more);
        }
        let counted = before.amounts.iter().any(|measured| matches!(measured.amount, Amount::Leaves(_)));
        if part.amounts.is_empty() || counted {
            part.amounts.extend(before.amounts);
        }
    }
    if let Some(last) = joined.last()
        && last.predicate == Some(Predicate::Sprayed)
        && is_poured_only(&part)
        && !last.senses.has(Sense::Sprayed)
    {
        part.predicate = Some(Predicate::Sprayed);
        part.products.clone_from(&last.products);
    }
    // "Corner has some, Wall covered"
    if let Some(last) = joined.last()
        && is_rust(last.predicate)
        && part.predicate == Some(Predicate::Noted)
        && part.senses.has(Sense::Heavy)
        && part.range.len() <= 4
    {
        part.predicate = Some(Predicate::Scouted);
    }
    // "no rust anywhere, except a few spots on Corner"
    if let Some(last) = joined.last_mut()
        && part.joint == Joint::But
        && part.predicate == Some(Predicate::Scouted)
        && (last.predicate == Some(Predicate::Clean) || last.senses.has(Sense::Negation))
        && matches!(last.predicate, Some(Predicate::Scouted | Predicate::Clean))
        && part.names_trees()
    {
        last.trees.leave_out(part.trees.clone());
    }
    // "gave the pots a gallon each, but Whip got half of one"
    if let Some(last) = joined.last_mut()
        && part.joint == Joint::But
        && part.predicate == last.predicate
        && part.predicate.is_some_and(Predicate::is_work)
        && part.names_trees()
        && (part.products.is_empty() || part.products == last.products)
        && !last.trees.names_one_in(&part.trees)
        && last.trees.overlap(&part.trees)
    {
        last.trees.leave_out(part.trees.clone());
    }
    // "sprayed copper and neem on Celeste": both on her
    if let Some(last) = joined.last_mut()
        && last.predicate == Some(Predicate::Sprayed)
        && part.predicate == Some(Predicate::Sprayed)
        && !part.senses.has_any(&[Sense::Sprayed, Sense::Applied])
        && !last.products.is_empty()
        && !last.names_trees()
        && !last.moment.is_said()
        && part.names_trees()
        && part.joint == Joint::Beside
    {
        last.trees = part.trees.clone();
    }
    if let Some(last) = joined.last_mut()
        && let Some(own) = own_amount_of_left_out(speech, last, &part)
    {
        joined.push(own);
        return;
    }
    let bare_rain =
        part.predicate == Some(Predicate::Rained) && !part.senses.has_any(&[Sense::Rain, Sense::Gauge]);
    if bare_rain && joined.is_empty() && opening.unexplained {
        return;
    }
    // "Put mulch around Wall, 3 inches": so deep it lies.
    if bare_rain
        && joined.last().is_some_and(|last| {
            last.predicate == Some(Predicate::Noted)
                && last.any(speech.tokens, words!("mulch mulched compost bark straw chips"))
        })
    {
        return;
    }
    // "gave Wall a soak, 2 inches": water, not rain.
    if let Some(last) = joined.last_mut()
        && last.predicate == Some(Predicate::Watered)
        && bare_rain
    {
        last.amounts.append(&mut part.amounts);
        return;
    }
    // "Whip 22 lb, dry": a pot on the scale, not a harvest.
    if let Some(last) = joined.last_mut()
        && matches!(part.predicate, Some(Predicate::Moisture(_)))
        && part.trees.is_empty()
        && is_bare_mass(last)
    {
        last.predicate = Some(Predicate::Weighed);
    }
    // "Eave weighed 52 lb, freshly watered": how she stood on the scale.
    if let Some(last) = joined.last()
        && last.predicate == Some(Predicate::Weighed)
        && part.predicate == Some(Predicate::Watered)
        && part.trees.is_empty()
        && part.amounts.is_empty()
    {
        return;
    }
    if let Some(last) = joined.last_mut()
        && tells_how_much_spray(speech, last, &part)
    {
        last.amounts.append(&mut part.amounts);
        return;
    }
    // "12 figs, picked from Wall": where they came from.
    if let Some(last) = joined.last_mut()
        && last.predicate == Some(Predicate::Picked)
        && part.predicate == Some(Predicate::Picked)
        && last.trees.is_empty()
        && !last.amounts.is_empty()
        && part.amounts.is_empty()
        && part.names_trees()
        && part.joint == Joint::Beside
    {
        last.trees = part.trees;
        last.moment.completed_by(part.moment);
        last.range.end = part.range.end;
        return;
    }
    // "1 gal Whip, 2 gal Eave, watered now": the verb of what was told.
    if let Some(last) = joined.last_mut()
        && last.predicate == part.predicate
        && matches!(part.predicate, Some(Predicate::Watered | Predicate::Sprayed | Predicate::Picked))
        && part.trees.is_empty()
        && part.amounts.is_empty()
        && part.products.is_empty()
        && part.marked
        && !part.pronoun
        && (part.range.len() <= 3
            // "Corner's had its sulfur, sprayed at 6:45 before the sun got round"
            || part.predicate == Some(Predicate::Sprayed) && !last.products.is_empty())
    {
        last.moment.completed_by(part.moment);
        return;
    }
    if let Some(last) = joined.last_mut()
        && matches!(last.predicate, Some(Predicate::Moisture(_)))
        && matches!(part.predicate, Some(Predicate::Moisture(_)))
        && part.trees.is_empty()
    {
        // "Dry on top but wet down below": the roots are below.
        let surface = last.any(speech.tokens, words!("top surface"));
        if surface && part.any(speech.tokens, words!("below underneath under down deeper inside")) {
            part.trees = joined.pop().map(|last| last.trees).unwrap_or_default();
            joined.push(part);
            return;
        }
        // "Pots moist except Big One, dry"
        if !last.trees.without.is_empty() {
            part.trees = last.trees.of_left_out();
            joined.push(part);
            return;
        }
    }
    // "Not a spot on the pots; Wall, sadly, 4 leaves out of 30"
    if let Some(hung) = opening.hung.take()
        && let Some(last) = joined.last_mut()
        && part.trees.is_empty()
        && part.predicate == Some(Predicate::Scouted)
        && is_severity(&part)
    {
        last.trees.leave_out(hung.clone());
        part.trees = hung;
    }
    // "Celeste on the scale: 51 lb, dry"
    if let Some(last) = joined.last_mut()
        && last.predicate == Some(Predicate::Weighed)
        && matches!(part.predicate, Some(Predicate::Moisture(_)))
        && part.trees.is_empty()
    {
        last.range.end = part.range.end;
        return;
    }
    if let Some(last) = joined.last_mut()
        && goes_on_with(last, &part)
    {
        last.amounts.append(&mut part.amounts);
        last.amounts.iter_mut().for_each(Measured::set_apart);
        last.range.end = part.range.end;
        last.senses = last.senses.and(part.senses);
        adopt_rest(last, part);
        return;
    }
    if let Some(last) = joined.last()
        && is_announced_by(last, &part)
    {
        let last = joined.pop();
        if let Some(last) = last {
            if part.joint == Joint::Of {
                opening.moment.completed_by(last.moment.clone());
            }
            part.moment.completed_by(last.moment);
            if part.products.is_empty() {
                part.products = last.products;
            }
        }
    }
    // "... except Celeste which got sulfur": the one left out.
    let relative = part.range.start > 0 && speech.tokens[part.range.start - 1].is_any(words!("which who"));
    if let Some(last) = joined.last()
        && relative
        && part.trees.is_empty()
        && !last.trees.without.is_empty()
    {
        part.trees = last.trees.of_left_out();
    }
    // "... clean but Corner, which has a few spots"
    if let Some(last) = joined.last()
        && part.trees.is_empty()
        && part.predicate == Some(Predicate::Scouted)
        && !part.senses.has(Sense::Negation)
        && last.predicate == Some(Predicate::Clean)
        && !last.trees.without.is_empty()
    {
        part.trees = last.trees.of_left_out();
    }
    // "Figs turning, getting soft and droopy": the figs are, not the tree.
    if let Some(last) = joined.last()
        && last.predicate == Some(Predicate::Stage(Stage::Ripening))
        && part.predicate == Some(Predicate::Moisture(MoistureState::Dry))
        && part.trees.is_empty()
        && part.any(speech.tokens, words!("droopy drooping droop soft sagging limp"))
    {
        return;
    }
    // "Corner: some rust up top, all clean down low": all of her.
    if part.predicate == Some(Predicate::Clean)
        && part.trees.is_all()
        && let Some(topic) = &opening.topic
        && part.level.is_some()
    {
        part.trees = topic.clone();
    }
    // "Watered the pots, they looked so thirsty": how they were before.
    let was = part.any(speech.tokens, words!("looked was were felt seemed"));
    if let Some(last) = joined.last()
        && last.predicate == Some(Predicate::Watered)
        && part.predicate == Some(Predicate::Moisture(MoistureState::Dry))
        && part.trees.is_empty()
        && last.trees.without.is_empty()
        && was
    {
        // "Eave 3 l, Whip 2 l, both were dry"
        inherit(joined, opening, &mut part);
        let watered = |before: &&Part| before.predicate == Some(Predicate::Watered);
        let at = joined.len() - joined.iter().rev().take_while(watered).count();
        joined.insert(at, part);
        return;
    }
    // "Watered all but Eave, it was wet", "skipped Eave, it's wet": why she was left out.
    if let Some(last) = joined.last()
        && matches!(part.predicate, Some(Predicate::Moisture(_)))
        && part.trees.is_empty()
        && last.predicate.is_some_and(Predicate::is_work)
    {
        if let Some(skipped) = opening.skipped.take() {
            part.trees = skipped;
        } else if !last.trees.without.is_empty() {
            part.trees = last.trees.of_left_out();
        }
    }
    // "Pots dry, watered all of them except Whip"
    if part.pair(speech.tokens, words!("of"), words!("them those"))
        && part.any(speech.tokens, words!("all"))
        && let Some(last) = joined.last().filter(|last| last.trees.names_one_by_name())
    {
        part.trees = last.trees.clone().without_those_of(part.trees);
    }
    let seen = part.predicate.is_some_and(Predicate::inherits_trees);
    if part.names_trees() {
        opening.looked_at = None;
    } else if seen && let Some(trees) = &opening.looked_at {
        part.trees = trees.clone();
    }
    // "Whip pot: 25 lb, moist"
    if matches!(part.predicate, Some(Predicate::Moisture(_)))
        && part.names_trees()
        && part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Mass(_)))
    {
        part.predicate = Some(Predicate::Weighed);
    }
    if part.trees.is_empty() {
        match &opening.topic {
            Some(topic) => part.trees = topic.clone(),
            None => inherit(joined, opening, &mut part),
        }
    } else if topic_ends && opening.topic.is_some() && !joined.is_empty() {
        opening.topic = None;
    }
    joined.push(part);
}
