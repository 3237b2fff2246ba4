//! Clauses put together: those without a verb of their own go on with the one before, or open the one after.

use super::hanging::{
    goes_on_with, has_level, inherit, is_among, is_announced_by, is_bare_mass, is_poured_only, is_rust,
    is_severity, leave_out_skipped,
};
use super::opening::Opening;
use super::predicate::Predicate;
use super::spread::{drop_total, spread_moments, spread_products};
use super::{Memory, Part, strangers};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::clauses::Joint;
use crate::language::read::lexicon::Sense;
use crate::language::read::mood::{self, Mood};
use crate::language::read::word_list::words;
use crate::season::request::Aside;

/// The parts that report something, whole.
pub(super) fn join(speech: &Speech, memory: &mut Memory, parts: Vec<Part>) -> Vec<Part> {
    let mut joined: Vec<Part> = Vec::with_capacity(parts.len());
    let mut opening = Opening::default();
    // "Yesterday: copper on Wall. Scouted too ..."
    if let [day, told, ..] = parts.as_slice()
        && told.joint == Joint::Of
        && day.predicate.is_none()
        && day.moment.is_said()
        && !day.names_trees()
    {
        memory.moment = day.moment.day_only();
    }
    for part in parts {
        // What is denied or planned is no fragment of what was done.
        if part.mood != Mood::Told {
            if part.other_plant && part.predicate.is_some_and(Predicate::is_work) {
                opening.left_off = Some(part.clone());
            }
            if part.names_trees() && !matches!(part.mood, Mood::Not(Aside::Elsewhere)) {
                opening.passing = part.trees.clone();
            }
            leave_out_skipped(speech, &mut joined, part);
            continue;
        }
        match part.predicate {
            Some(Predicate::Nothing) => {
                if part.names_trees() {
                    opening.passing = part.trees;
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
    if joined.is_empty() && speech.text.trim_end().ends_with(':') {
        memory.moment = opening.moment.clone();
    }
    drop_total(&mut joined);
    spread_moments(&mut joined, &opening.moment, memory, speech.tokens);
    spread_products(&mut joined, speech.tokens);
    joined
}

fn take_whole(speech: &Speech, joined: &mut Vec<Part>, opening: &mut Opening, mut part: Part) {
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
        if before.names_trees() && part.names_trees() && part.joint != Joint::Of && is_poured_only(&part) {
            let poured = before.amounts.iter().any(|measured| matches!(measured.amount, Amount::Volume(_)));
            if poured {
                joined.push(Part { predicate: part.predicate, ..before });
                continue;
            }
        }
        // "Copper, 1 gal on Wall and 2 qt on Corner"
        if !before.products.is_empty() && !before.names_trees() && is_poured_only(&part) {
            part.predicate = Some(Predicate::Sprayed);
        }
        // "Celeste and Eave look fine but Corner has rust": what is said of the first is no report.
        let said = before.senses.has_any(&[Sense::Be, Sense::Have])
            || before.any(speech.tokens, words!("went walked visited checked looked"));
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
    let bare_rain =
        part.predicate == Some(Predicate::Rained) && !part.senses.has_any(&[Sense::Rain, Sense::Gauge]);
    if bare_rain && joined.is_empty() && opening.unexplained {
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
    // "1 gal Whip, 2 gal Eave, watered now": the verb of what was told.
    if let Some(last) = joined.last_mut()
        && last.predicate == part.predicate
        && matches!(part.predicate, Some(Predicate::Watered | Predicate::Sprayed | Predicate::Picked))
        && part.trees.is_empty()
        && part.amounts.is_empty()
        && part.products.is_empty()
        && part.marked
        && !part.pronoun
        && part.range.len() <= 3
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
            None => inherit(joined, &opening.passing, &mut part),
        }
    } else if topic_ends && opening.topic.is_some() && !joined.is_empty() {
        opening.topic = None;
    }
    joined.push(part);
}

fn take_fragment(speech: &Speech, joined: &mut Vec<Part>, opening: &mut Opening, part: Part) {
    let tokens = speech.tokens;
    let looked = part.senses.has(Sense::Seen) && !part.senses.has(Sense::Creature) && part.names_trees();
    if looked && part.amounts.is_empty() && part.products.is_empty() && !joined.is_empty() {
        opening.looked_at = Some(part.trees);
        return;
    }
    if let Some(left) = opening.left_off.take().filter(|_| part.names_trees() && !part.marked) {
        let products = if part.products.is_empty() { left.products } else { part.products.clone() };
        joined.push(Part { predicate: left.predicate, products, ..part });
        return;
    }
    let Some(last) = joined.last_mut() else {
        let says = part.names_trees() || !part.amounts.is_empty() || !part.products.is_empty();
        let closer =
            part.senses.has_any(&[Sense::Lower, Sense::Upper, Sense::Middle, Sense::Heavy, Sense::Trace]);
        if let Some(before) = opening.parts.last_mut().filter(|_| closer && !says) {
            // "Celeste: 10%, lower"
            before.range.end = part.range.end;
            before.senses = before.senses.and(part.senses);
        } else if let Some(before) = opening.parts.last_mut().filter(|before| {
            before.names_trees() && part.range.len() <= 2 && part.any(tokens, words!("none nothing nope nil"))
        }) {
            // "Corner: none"
            before.range.end = part.range.end;
        } else if part.moment.is_said() && !says {
            opening.moment.completed_by(part.moment);
        } else if says {
            opening.add(part);
        } else {
            const WORDS: usize = 3;
            opening.unexplained |= part.range.len() >= WORDS;
            opening.said = opening.said.and(part.senses);
        }
        return;
    };
    // "There was rust on Wall last week but I don't see any now"
    if is_rust(last.predicate)
        && last.moment.is_said()
        && !part.names_trees()
        && (part.senses.has(Sense::Negation) || part.any(tokens, words!("none nothing")))
        && part.any(tokens, words!("now today anymore"))
    {
        let trees = joined.pop().map(|last| last.trees).unwrap_or_default();
        joined.push(Part { predicate: Some(Predicate::Clean), trees, ..part });
        return;
    }
    // "Sprayed copper on Wall, or was it the sulfur": which is not known.
    if last.predicate == Some(Predicate::Sprayed)
        && part.clause(tokens).first().is_some_and(|first| first.is("or"))
        && !part.names_trees()
    {
        last.products.extend(part.products);
        return;
    }
    // "Picked the last of Celeste, 4": the last, and how many.
    let counted = part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Count(_)));
    if matches!(last.predicate, Some(Predicate::Stage(_)))
        && last.senses.has(Sense::Picked)
        && counted
        && !part.names_trees()
    {
        let picked = Part { predicate: Some(Predicate::Picked), amounts: part.amounts, ..last.clone() };
        let at = joined.len() - 1;
        joined.insert(at, picked);
        return;
    }
    // "Wall dry, 4 gal": and watered.
    let litres = part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Volume(_)));
    if matches!(last.predicate, Some(Predicate::Moisture(_))) && litres && !part.names_trees() {
        let trees = last.trees.clone();
        joined.push(Part { predicate: Some(Predicate::Watered), trees, ..part });
        return;
    }
    // "Deck done, 2 gal each": watered.
    let poured = part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Volume(_)));
    if matches!(last.predicate, Some(Predicate::Stage(_)))
        && last.any(tokens, words!("done finished"))
        && poured
    {
        last.predicate = Some(Predicate::Watered);
    }
    // "..., except Whip", "but not the pots"
    // "no rust except on Corner, maybe 3%"
    if !part.names_trees()
        && !part.amounts.is_empty()
        && !last.trees.without.is_empty()
        && is_rust(last.predicate)
        && (last.predicate == Some(Predicate::Clean) || last.senses.has(Sense::Negation))
    {
        let trees = last.trees.of_left_out();
        joined.push(Part { predicate: Some(Predicate::Scouted), trees, ..part });
        return;
    }
    // "no rust anywhere except a little on Celeste": left out, and told of.
    let shows = part.joint == Joint::But
        && part.names_trees()
        && last.predicate.is_some_and(|predicate| is_rust(Some(predicate)))
        && (last.predicate == Some(Predicate::Clean) || last.senses.has(Sense::Negation))
        && (part.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy])
            || part.any(tokens, words!("lot"))
            || is_severity(&part));
    if shows {
        last.trees.leave_out(part.trees.clone());
        joined.push(Part { predicate: Some(Predicate::Scouted), ..part });
        return;
    }
    // "almost done spraying the pots, only Eave left"
    let left = part.any(tokens, words!("left remaining"))
        || mood::pair(part.clause(tokens), words!("to"), words!("go do"));
    let over_trees = matches!(last.predicate, Some(Predicate::Sprayed | Predicate::Watered));
    if left && over_trees && part.names_trees() && part.amounts.is_empty() {
        if is_among(last, &part) {
            last.trees.leave_out(part.trees);
        }
        return;
    }
    // "Celeste and Eave bone dry, Big One ok"
    let fine = part.names_trees()
        && part.range.len() <= 5
        && part.any(tokens, words!("ok okay fine good alright great"));
    if fine
        && part.amounts.is_empty()
        && matches!(last.predicate, Some(Predicate::Moisture(_) | Predicate::Scouted | Predicate::LeafDrop))
    {
        return;
    }
    // "10% on the lower leaves and none up top"
    if !part.names_trees()
        && has_level(&part)
        && part.any(tokens, words!("none nothing"))
        && is_rust(last.predicate)
    {
        let trees = last.trees.clone();
        joined.push(Part { predicate: Some(Predicate::Clean), trees, ..part });
        return;
    }
    // "Watered the pots at 6 and again at 5 pm"
    if part.any(tokens, words!("again"))
        && part.moment.is_said()
        && !part.names_trees()
        && part.amounts.is_empty()
        && last.predicate.is_some_and(Predicate::is_work)
    {
        let again = Part { moment: part.moment, ..last.clone() };
        joined.push(again);
        return;
    }
    // "Corner about half that": of what it is half is not told in so many words.
    if part.any(tokens, words!("half twice double")) && part.any(tokens, words!("that")) && part.names_trees()
    {
        return;
    }
    // "30 of 100 leaves, middle of the tree"
    if part.trees.is_vague() && has_level(&part) && is_rust(last.predicate) && part.amounts.is_empty() {
        last.level = last.level.or(part.level);
        return;
    }
    let leaves_out =
        part.joint == Joint::But && part.names_trees() && !part.senses.has_any(&[Sense::Have, Sense::Be]);
    if leaves_out || !part.trees.without.is_empty() && !part.trees.names_some() {
        last.trees.leave_out(part.trees);
        return;
    }
    let none_there = part.any(tokens, words!("none nothing n no nope negative"));
    if part.names_trees() && none_there && matches!(last.predicate, Some(Predicate::Scouted)) {
        joined.push(Part { predicate: Some(Predicate::Clean), ..part });
        return;
    }
    // "..., rest not ready yet"
    if part.trees.is_rest() && part.senses.has(Sense::Negation) {
        return;
    }
    // "nothing on the rest"
    if part.any(tokens, words!("none nothing")) && last.predicate.is_some_and(Predicate::is_work) {
        return;
    }
    // ".4 last night and another .3 this morning", "31 figs on July 4 and 26 on July 8"
    if matches!(last.predicate, Some(Predicate::Rained | Predicate::Picked | Predicate::Watered))
        && !part.names_trees()
        && last.moment.is_said()
        && part.moment.is_said()
        && !part.amounts.is_empty()
        && !last.amounts.is_empty()
    {
        let (predicate, trees) = (last.predicate, last.trees.clone());
        // "... with 3 litres on Monday, and again yesterday with 2"
        let amounts = part.amounts.iter().map(|own| own.in_the_measure_of(&last.amounts)).collect();
        joined.push(Part { predicate, trees, amounts, ..part });
        return;
    }
    // "..., 3 off Ruby": a tree nobody knows is not the one before.
    if let Some(predicate) = last.predicate.filter(|predicate| predicate.repeats() && !part.names_trees())
        && (!part.amounts.is_empty() || part.range.len() > 1)
        && strangers::stranger(speech, &part).is_some()
    {
        let products = if part.products.is_empty() { last.products.clone() } else { part.products.clone() };
        joined.push(Part { predicate: Some(predicate), products, ..part });
        return;
    }
    let counted =
        part.amounts.iter().any(|measured| !matches!(measured.amount, Amount::Length(_) | Amount::Other));
    let repeats = last.predicate.is_some_and(Predicate::repeats);
    match (part.names_trees(), counted) {
        // "no rust on Celeste, but Wall has a little on the lower leaves"
        (true, _)
            if matches!(last.predicate, Some(Predicate::Scouted | Predicate::Clean))
                && part.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy])
                && (part.senses.has(Sense::Have)
                    || last.predicate == Some(Predicate::Clean)
                    || last.senses.has(Sense::Negation)
                    || last.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy])
                    || is_severity(last)) =>
        {
            joined.push(Part { predicate: Some(Predicate::Scouted), ..part });
        }
        // "... 4 off Celeste", "Wall 5%"
        (true, true)
            if repeats
                && (!last.amounts.is_empty()
                    || is_rust(last.predicate)
                        && last.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy])
                    || last.predicate == Some(Predicate::Clean)
                    || last.senses.has(Sense::Negation)) =>
        {
            let predicate = match last.predicate {
                Some(Predicate::Clean) => Some(Predicate::Scouted),
                other => other,
            };
            let products =
                if part.products.is_empty() { last.products.clone() } else { part.products.clone() };
            let amounts = part.amounts.iter().map(|own| own.in_the_measure_of(&last.amounts)).collect();
            joined.push(Part { predicate, products, amounts, ..part });
        }
        // "copper on Celeste at 6 and on Eave at 7"
        (true, false)
            if last.predicate.is_some_and(Predicate::is_work)
                && last.moment.is_said()
                && part.moment.is_said() =>
        {
            let predicate = last.predicate;
            let products =
                if part.products.is_empty() { last.products.clone() } else { part.products.clone() };
            joined.push(Part { predicate, products, ..part });
        }
        // "sprayed Celeste (copper) and Wall (sulfur)"
        (true, _) if last.late_products && last.names_trees() || last.late_amounts && !counted => {
            let predicate = last.predicate;
            joined.push(Part { predicate, ..part });
        }
        // "Sprayed neem, watered, picked 10, all on Celeste"
        (true, false) if part.any(tokens, words!("all")) && last.trees.is_empty() => {
            for before in joined.iter_mut().filter(|before| before.trees.is_empty()) {
                before.trees = part.trees.by_name_first();
            }
        }
        (true, _) => {
            let none = last.predicate == Some(Predicate::Clean) || last.senses.has(Sense::Negation);
            opening.hung = (is_rust(last.predicate) && none && !counted).then(|| part.trees.clone());
            if last.amounts.is_empty() {
                last.amounts.clone_from(&part.amounts);
                last.amounts.iter_mut().for_each(Measured::set_apart);
            }
            last.trees = std::mem::take(&mut last.trees).together(part.trees.clone());
            last.level = last.level.or(part.level);
            adopt_rest(last, part);
        }
        // "lower leaves 30%, middle 10%"
        (false, _)
            if is_rust(last.predicate)
                && (is_severity(&part)
                    || part.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy])
                        && has_level(last))
                && (is_severity(last) || last.predicate == Some(Predicate::Clean) && has_level(last))
                && has_level(&part) =>
        {
            let trees = last.trees.clone();
            joined.push(Part { predicate: Some(Predicate::Scouted), trees, ..part });
        }
        (false, _) => {
            let mut amounts = part.amounts.clone();
            // "picked 9 off Celeste, 2 split": the number is told already.
            amounts.retain(|amount| !last.amounts.iter().any(|own| own.is_in_place() && own.is_like(amount)));
            amounts.iter_mut().for_each(Measured::set_apart);
            let bracketed = part.range.start > 0 && tokens[part.range.start - 1].is("(");
            // Of a tree nobody knows and the one before it.
            let each = part.any(tokens, words!("each apiece")) && !last.names_trees();
            last.late_amounts |= bracketed
                && (!amounts.is_empty()
                    || part.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy, Sense::Clean]));
            last.amounts.extend(amounts.clone());
            // "..., lower leaves", "..., just a few"
            last.range.end = last.range.end.max(part.range.end);
            last.senses = last.senses.and(part.senses);
            let predicate = last.predicate;
            adopt_rest(last, part);
            // "Celeste and Ginny, a gallon each"
            if each {
                for before in
                    joined.iter_mut().rev().skip(1).take_while(|before| before.predicate == predicate)
                {
                    if before.amounts.is_empty() {
                        before.amounts.clone_from(&amounts);
                    }
                }
            }
        }
    }
}

fn adopt_rest(last: &mut Part, part: Part) {
    if last.products.is_empty() && !part.products.is_empty() {
        last.products = part.products;
        last.late_products = last.predicate == Some(Predicate::Sprayed);
    }
    last.moment.completed_by(part.moment);
    last.pronoun |= part.senses.has(Sense::Both);
}
