//! Clauses without a verb of their own: what they add to the one before, or keep for the one after.

use super::hanging::{adopt_rest, has_level, is_among, is_rust, is_severity};
use super::opening::Opening;
use super::predicate::Predicate;
use super::{Part, strangers};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::clauses::Joint;
use crate::language::read::lexicon::Sense;
use crate::language::read::mood;
use crate::language::read::names::{Product, Trees, is_unknown};
use crate::language::read::word_list::words;

pub(super) fn take_fragment(speech: &Speech, joined: &mut Vec<Part>, opening: &mut Opening, part: Part) {
    let tokens = speech.tokens;
    // "I put my finger in all the pots, and Big One is bone dry": what is told is told of those named next.
    let of_those = tokens.iter().any(|token| token.is_any(words!("they they're theyre it it's its")));
    let felt = part.any(tokens, words!("finger fingers")) && part.names_trees() && !of_those;
    if joined.is_empty() && felt {
        opening.looked_at = Some(part.trees);
        return;
    }
    // "... a gallon each, and felt Whip, and it was still moist"
    let looked = (part.senses.has(Sense::Seen) || part.any(tokens, words!("felt poked touched prodded")))
        && !part.senses.has(Sense::Creature)
        && part.names_trees();
    if looked && part.amounts.is_empty() && part.products.is_empty() && !joined.is_empty() {
        opening.looked_at = Some(part.trees);
        return;
    }
    // "..., and the pots I didn't bother with", "didn't get to Eave": nothing is told of them.
    let passed_over = part.names_trees()
        && part.amounts.is_empty()
        && part.any(tokens, words!("didn't didnt haven't havent couldn't couldnt can't cant"));
    if passed_over && let Some(last) = joined.last_mut() {
        if last.predicate.is_some_and(Predicate::is_work) && is_among(last, &part) {
            last.trees.leave_out(part.trees);
        }
        return;
    }
    // "Big One 52 lb, Eave too heavy to lift": not weighed.
    let too_heavy = part.names_trees() && part.amounts.is_empty() && part.any(tokens, words!("heavy"));
    if too_heavy && joined.last().is_some_and(|last| last.predicate == Some(Predicate::Weighed)) {
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
            // "Got up at six, went out at seven and watered": the hour next to the work.
            let mut moment = part.moment;
            moment.completed_by(std::mem::take(&mut opening.moment));
            opening.moment = moment;
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
    // "Rust all over it, half the leaves, and they're falling"
    if is_rust(last.predicate)
        && last.senses.has(Sense::Leaf)
        && part.senses.has(Sense::Drop)
        && part.pronoun
        && !part.names_trees()
        && part.range.len() <= 5
        && !part.senses.has(Sense::Negation)
    {
        let trees = last.trees.clone();
        joined.push(Part { predicate: Some(Predicate::LeafDrop), trees, amounts: Vec::new(), ..part });
        return;
    }
    // "..., went on to Corner, nothing there"
    if let Some(topic) = &opening.topic
        && is_rust(last.predicate)
        && !part.names_trees()
        && part.any(tokens, words!("nothing none"))
        && part.range.len() <= 4
        && !last.trees.overlap(topic)
    {
        joined.push(Part { predicate: Some(Predicate::Clean), trees: topic.clone(), ..part });
        return;
    }
    // "Celeste is clean, Big One has a lot"
    if is_rust(last.predicate)
        && part.names_trees()
        && part.senses.has(Sense::Have)
        && part.any(tokens, words!("lot lots plenty tons ton loads heaps bunch some few little bit it"))
        && part.amounts.is_empty()
        && !part.senses.has_any(&[Sense::Fig, Sense::Negation, Sense::Ripe, Sense::Ripening, Sense::Drop])
    {
        joined.push(Part { predicate: Some(Predicate::Scouted), ..part });
        return;
    }
    // "Leaves falling off Eave, swept the deck twice": boards.
    if part.names_trees() && part.any(tokens, words!("swept sweeping mopped scrubbed")) {
        return;
    }
    // "Celeste is clean, Big One has a lot of figs": of her no more than that.
    if last.predicate == Some(Predicate::Clean)
        && part.names_trees()
        && part.senses.has(Sense::Have)
        && part.senses.has(Sense::Fig)
    {
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
    // "Picked 6 off Wall, or was it Eave": likewise.
    if last.predicate.is_some_and(Predicate::is_work)
        && part.clause(tokens).first().is_some_and(|first| first.is("or"))
        && part.names_trees()
        && last.names_trees()
        && part.amounts.is_empty()
        && part.any(tokens, words!("was were is maybe"))
    {
        last.trees = std::mem::take(&mut last.trees).together(part.trees);
        last.trees.either = true;
        return;
    }
    // "Picked the last of Celeste, 4": the last, and how many.
    let counted = part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Count(_)));
    // "First ripe ones on Celeste, took 3"
    let took = part
        .clause(tokens)
        .iter()
        .find(|token| !token.is_mark())
        .is_some_and(|first| first.is_any(words!("took got picked ate had pulled")));
    if matches!(last.predicate, Some(Predicate::Stage(_)))
        && (last.senses.has(Sense::Picked) || took && part.range.len() <= 3)
        && counted
        && !part.names_trees()
    {
        let picked = Part { predicate: Some(Predicate::Picked), amounts: part.amounts, ..last.clone() };
        let at = joined.len() - 1;
        joined.insert(at, picked);
        return;
    }
    // "Planted Whip, finally in the ground": where she stands.
    if last.predicate == Some(Predicate::Planted)
        && part.clause(tokens).iter().any(|token| token.is_any(words!("in into")))
        && part.clause(tokens).iter().any(|token| token.senses.has(Sense::Ground))
        && part.amounts.is_empty()
    {
        return;
    }
    // "Corner got copper and a good soaking"
    if last.predicate == Some(Predicate::Sprayed)
        && !part.names_trees()
        && part.products.is_empty()
        && part.any(tokens, words!("soak soaking drink watering"))
        && part.any(tokens, words!("a some good deep long big nice"))
    {
        let trees = last.trees.clone();
        joined.push(Part { predicate: Some(Predicate::Watered), trees, ..part });
        return;
    }
    // "Celeste 33 lb dry, then 2 gal in": and watered.
    if last.predicate == Some(Predicate::Weighed)
        && part.pours()
        && !part.names_trees()
        && part.any(tokens, words!("then in gave after"))
    {
        let trees = last.trees.clone();
        joined.push(Part { predicate: Some(Predicate::Watered), trees, ..part });
        return;
    }
    // "Watered the deck 2 gal each and Whip a bit": of her it is not told how much.
    let some = part.pair(tokens, words!("a"), words!("bit little splash drop touch"));
    if last.predicate == Some(Predicate::Watered)
        && last.pours()
        && part.names_trees()
        && part.amounts.is_empty()
        && some
    {
        joined.push(Part { predicate: Some(Predicate::Watered), ..part });
        return;
    }
    // "Wall dry, 4 gal": and watered.
    if matches!(last.predicate, Some(Predicate::Moisture(_))) && part.pours() && !part.names_trees() {
        let trees = last.trees.clone();
        joined.push(Part { predicate: Some(Predicate::Watered), trees, ..part });
        return;
    }
    // "Deck done, 2 gal each": watered.
    if matches!(last.predicate, Some(Predicate::Stage(_)))
        && last.any(tokens, words!("done finished"))
        && part.pours()
    {
        last.predicate = Some(Predicate::Watered);
    }
    // "Sprayed sulfur on Wall, on Corner not"
    let behind = part.clause(tokens).last().is_some_and(|last| last.is("not"));
    if behind
        && part.names_trees()
        && part.amounts.is_empty()
        && last.predicate.is_some_and(Predicate::is_work)
    {
        if is_among(last, &part) && last.names_trees() {
            last.trees.leave_out(part.trees);
        }
        return;
    }
    // "Copper on Wall and spinosad on Corner": another spray, and one nobody told of.
    let first =
        part.clause(tokens).iter().position(|token| !token.is_any(words!("and then also , the some")));
    if last.predicate == Some(Predicate::Sprayed)
        && part.products.is_empty()
        && part.names_trees()
        && let Some(index) = first
        && let Some(word) = part.clause(tokens).get(index)
        && (is_unknown(word) || word.senses.has(Sense::OtherProduct))
        && part.clause(tokens).get(index + 1).is_some_and(|next| next.is_any(words!("on onto for")))
    {
        let predicate = last.predicate;
        joined.push(Part { predicate, products: vec![Product::Unknown { index }], ..part });
        return;
    }
    // "..., except Whip", "but not the pots"
    // "no rust except on Corner, maybe 3%"
    let relative = part.range.start > 0 && tokens[part.range.start - 1].is_any(words!("which who"));
    let shown = part.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy]);
    if !part.names_trees()
        && (!part.amounts.is_empty() || (relative || part.marked) && shown)
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
        && (last.predicate == Some(Predicate::Clean)
            || last.senses.has(Sense::Negation)
            || last.any(tokens, words!("none")))
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
    if part.any(tokens, words!("half twice double"))
        && part.any(tokens, words!("that"))
        && part.names_trees()
        && part.amounts.is_empty()
    {
        return;
    }
    // "30 of 100 leaves, middle of the tree"
    if (part.trees.is_vague() || part.trees.is_all())
        && has_level(&part)
        && is_rust(last.predicate)
        && part.amounts.is_empty()
    {
        last.level = last.level.or(part.level);
        return;
    }
    if let Some(own) = own_amount_of_left_out(speech, last, &part) {
        joined.push(own);
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
    // "Ran the soaker along Wall until half an inch of water had been delivered"
    let until =
        part.clause(tokens).iter().find(|token| !token.is_mark()).is_some_and(|first| first.is("until"));
    let deep =
        part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Depth(_) | Amount::Volume(_)));
    if last.predicate == Some(Predicate::Watered)
        && until
        && deep
        && last.amounts.is_empty()
        && !part.names_trees()
    {
        last.amounts.extend(part.amounts);
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
    // "Bo watered the deck this morning, I got Eave": each their own.
    let mut heads =
        part.clause(tokens).iter().filter(|token| !token.is_mark() && !token.is_any(words!("and then")));
    let whose = heads
        .next()
        .is_some_and(|first| first.senses.has(Sense::Mine) || speech.names.is_person(&first.text));
    let got = heads.next().is_some_and(|verb| verb.is_any(words!("got did took handled had finished")));
    if whose
        && got
        && part.names_trees()
        && matches!(last.predicate, Some(Predicate::Watered | Predicate::Sprayed))
        && last.names_trees()
    {
        let (predicate, products, moment) = (last.predicate, last.products.clone(), last.moment.clone());
        let products = if part.products.is_empty() { products } else { part.products.clone() };
        let moment = if part.moment.is_said() { part.moment.clone() } else { moment };
        joined.push(Part { predicate, products, moment, ..part });
        return;
    }
    // "Watered Eave and the one by the shed": one of them is known.
    let one_there = part.clause(tokens).windows(3).any(|three| {
        three[0].is_any(words!("the that"))
            && three[1].is_any(words!("one tree fig"))
            && three[2].is_any(words!("by behind near beside next at over out in under"))
    });
    if one_there
        && !part.names_trees()
        && part.amounts.is_empty()
        && matches!(last.predicate, Some(Predicate::Watered | Predicate::Sprayed))
        && last.names_trees()
    {
        last.trees.unknown = Some(part.range);
        return;
    }
    // "4 off Wall and 6 off the one behind the shed": of a tree, and which is not known.
    let strange = last.predicate == Some(Predicate::Picked)
        && !part.names_trees()
        && !part.pronoun
        && part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Count(_) | Amount::Mass(_)))
        && last.amounts.iter().any(|own| part.amounts.iter().any(|amount| own.is_like(amount)))
        && part.clause(tokens).windows(2).any(|pair| {
            pair[0].is_any(words!("off from"))
                && pair[1].is_word()
                && !pair[1].is_any(words!("it them that those there"))
        });
    if strange {
        let predicate = last.predicate;
        joined.push(Part { predicate, trees: Trees::default(), ..part });
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
                // "A gallon of water for Eave, half a gallon of copper for Wall"
                Some(Predicate::Watered) if !part.products.is_empty() => Some(Predicate::Sprayed),
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
        // "Watered Celeste and Whip, Big One only got the drips": another thing is told of her.
        (true, false)
            if part.marked
                && part.joint == Joint::Beside
                && part.any(tokens, words!("only barely just hardly"))
                && part.any(tokens, words!("got get had has")) =>
        {
            // "Watered the pots, Whip only got a splash": no watering of hers.
            if last.predicate == Some(Predicate::Watered) && last.names_trees() && is_among(last, &part) {
                last.trees.leave_out(part.trees);
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

/// "... bar Whip, which had 1.5", "... except Whip 2", "... but not Whip, she got a quart": left out of a watering, and
/// told of with an amount of its own.
pub(super) fn own_amount_of_left_out(speech: &Speech, last: &mut Part, part: &Part) -> Option<Part> {
    let counted =
        part.amounts.iter().any(|measured| matches!(measured.amount, Amount::Count(_) | Amount::Volume(_)));
    let named_now = !part.trees.without.is_empty() && !part.names_trees();
    let spoken_of = part.trees.is_empty()
        && !last.trees.without.is_empty()
        && part
            .clause(speech.tokens)
            .iter()
            .take(2)
            .any(|token| token.is_any(words!("which who she he it that one got had")));
    if !counted || !last.pours() || last.predicate != Some(Predicate::Watered) || !(named_now || spoken_of) {
        return None;
    }
    if named_now {
        last.trees.leave_out(part.trees.clone());
    }
    let amounts = part.amounts.iter().map(|own| own.in_the_measure_of(&last.amounts)).collect();
    Some(Part { predicate: last.predicate, trees: last.trees.of_left_out(), amounts, ..part.clone() })
}
