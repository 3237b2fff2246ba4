//! A clause into a record, or into the doubt that keeps it from being one.

use super::each::{both_of, one_and_a_stranger, one_each};
use super::predicate::Predicate;
use super::quantities::{MOST_FRUIT, MOST_WEIGHT, count, depth, mass, minimum, rain, volume, weighing_state};
use super::sprays::products;
use super::stages::is_fall;
use super::strangers::{newly_planted, placed_elsewhere, stranger, unknown_tree};
use super::water::{litres_of_pots, overflows};
use super::{Held, Memory, Part, rust, strangers};
use crate::language::read::amounts::{Amount, Measured, volume as volume_of};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::language::read::{Speech, doubt};
use crate::season::garden::Stand;
use crate::season::journal::{MoistureState, Report, RustAmount, Stage, Whereabouts};
use crate::season::request::{Doubt, DoubtKind, Reading, Record, Request, Selection, When};
use crate::season::selection::selected;

/// Clocks differ; a report this little ahead of its message is taken as now.
const CLOCK_SLACK: chrono::TimeDelta = chrono::TimeDelta::minutes(5);

/// Work told without trees, spray or amount: the next sentence may say which.
pub(super) fn may_be_said_closer(speech: &Speech, part: &Part, memory: &Memory) -> bool {
    matches!(part.predicate, Some(Predicate::Sprayed | Predicate::Watered | Predicate::Picked))
        && part.trees.is_empty()
        && (part.products.is_empty() || part.predicate == Some(Predicate::Sprayed))
        && part.amounts.is_empty()
        && !part.moment.impossible
        && !is_header(speech, part, Predicate::Sprayed, memory)
        && stranger(speech, part).is_none()
}

/// What "the rest" is the rest of: "no rust on Wall, the rest have some", "Whip is dry, the other pots are moist".
fn kind_of(predicate: Predicate) -> Predicate {
    match predicate {
        Predicate::Clean => Predicate::Scouted,
        Predicate::Moisture(_) => Predicate::Moisture(MoistureState::Dry),
        other => other,
    }
}

/// "Sprayed copper Wall 7/35": a month has no such day.
fn tells_no_day(clause: &[Token]) -> bool {
    // "On July 34th"
    let named = clause.windows(2).any(|pair| {
        crate::language::read::moments::month(&pair[0].text).is_some()
            && pair[1].number.is_some_and(|day| day.fract() == 0.0 && (32.0..100.0).contains(&day))
    });
    named
        || clause.windows(3).any(|three| {
            let month =
                three[0].number.is_some_and(|month| (1.0..=12.0).contains(&month) && month.fract() == 0.0);
            let day = three[2].number.is_some_and(|day| (32.0..100.0).contains(&day));
            month && three[1].is("/") && three[1].joined && day
        }) && !clause.iter().any(|token| token.senses.has_any(&[Sense::Leaf, Sense::Rust, Sense::Spots]))
}

/// One of the unit a heading names, for the bare numbers below it.
fn amounts_of_one(clause: &[Token]) -> Vec<Measured> {
    let unit = clause.iter().find_map(|token| volume_of(&token.text));
    unit.map(Measured::of_unit).into_iter().collect()
}

/// Builds a part, and keeps it back.
pub(super) fn hold(speech: &Speech, part: &Part, memory: &mut Memory, reading: &mut Reading) {
    memory.release(reading);
    let Some(predicate) = part.predicate else { return };
    let mut held = Reading::default();
    record(speech, part, memory, &mut held);
    let (moment, products) = (part.moment.clone(), part.products.clone());
    memory.held = Some(Held { predicate, moment, products, reading: held });
}

pub(super) fn record(speech: &Speech, part: &Part, memory: &mut Memory, reading: &mut Reading) {
    let Some(predicate) = part.predicate else { return };
    if let Some(held) = memory.held.take() {
        // "Got the copper out. One gallon covered Wall and Corner": with that.
        let with_it = !held.products.is_empty();
        let closer = if with_it {
            part.products.is_empty() && part.names_trees()
        } else {
            part.names_trees() || !part.products.is_empty()
        };
        if held.predicate == predicate && closer {
            let mut whole = part.clone();
            if with_it {
                whole.products.clone_from(&held.products);
            }
            whole.moment.completed_by(held.moment.clone());
            return record(speech, &whole, memory, reading);
        }
        memory.held = Some(held);
        memory.release(reading);
    }
    if let Some((known, name)) = one_and_a_stranger(speech, part) {
        unknown_tree(speech, &name, reading);
        return record(speech, &known, memory, reading);
    }
    if let Some(parts) = one_each(speech, part) {
        parts.iter().for_each(|part| record(speech, part, memory, reading));
        return;
    }
    memory.predicate = Some(predicate);
    let measured = predicate == Predicate::Watered && !part.amounts.is_empty();
    if measured && part.pours() {
        memory.measure.clone_from(&part.amounts);
    } else if predicate != Predicate::Watered {
        memory.measure.clear();
    }
    let closer: Part;
    let part = if measured && !part.pours() && !memory.measure.is_empty() {
        let amounts = part.amounts.iter().map(|own| own.in_the_measure_of(&memory.measure)).collect();
        closer = Part { amounts, ..part.clone() };
        &closer
    } else {
        part
    };
    let words = || speech.typed(part.range.start, part.range.end).to_owned();
    if part.moment.impossible || predicate.is_work() && tells_no_day(part.clause(speech.tokens)) {
        reading.doubts.push(doubt(DoubtKind::ImpossibleDate, words()));
        return;
    }
    if is_header(speech, part, predicate, memory) {
        // "Watering, gallons:"
        if predicate == Predicate::Watered {
            memory.measure = amounts_of_one(part.clause(speech.tokens));
        }
        memory.moment.completed_by(part.moment.clone());
        memory.products.clone_from(&part.products);
        memory.headed = true;
        return;
    }
    if predicate == Predicate::Scouted && rust::is_more_than_all(speech.tokens) {
        reading.doubts.push(doubt(DoubtKind::ImpossibleAmount, speech.text));
        return;
    }
    let reports = match reports(speech, part, predicate, reading) {
        Ok(reports) => reports,
        Err(kind) => {
            reading.doubts.push(doubt(kind, words()));
            return;
        }
    };
    if reports.is_empty() {
        // "Checked the deck for rust. Clean."
        if predicate == Predicate::Scouted && part.names_trees() {
            memory.topic = speech.names.selection(&part.trees, &[]).or(memory.topic.take());
        }
        return;
    }
    let reports = match reports.as_slice() {
        // "Rust, but not on Whip": of Whip alone it is known.
        [Report::Scouted { amount, level }]
            if *amount != RustAmount::None && !part.trees.without.is_empty() && !part.names_trees() =>
        {
            let report = Report::Scouted { amount: RustAmount::None, level: *level };
            let trees = Selection::Named(speech.names.left_out(&part.trees));
            reading.requests.push(Request::Record(Record {
                trees,
                when: part.moment.when(speech.now()),
                report,
            }));
            return;
        }
        _ => reports,
    };
    if let Some(range) = &part.trees.unknown {
        unknown_tree(speech, speech.typed(range.start, range.end), reading);
        if !part.names_trees() {
            return;
        }
    }
    if let Some(words) = strangers::one_more(speech, part).or_else(|| strangers::one_before(speech, part)) {
        unknown_tree(speech, &words, reading);
    }
    let trees = trees(speech, part, predicate, &reports[0], memory, reading);
    let Some(trees) = trees else { return };
    let reports = off_the_scale(speech, reports, &trees);
    if reports.iter().any(|report| overflows(speech, report, &trees)) {
        reading.doubts.push(doubt(DoubtKind::ImpossibleAmount, words()));
        return;
    }
    let when = when(speech, part, &reports[0]);
    if let When::At(moment) | When::OnDay(moment) = when
        && moment > speech.context.at + CLOCK_SLACK
        && part.moment.is_beyond(speech.now())
    {
        reading.doubts.push(doubt(DoubtKind::StillToCome, words()));
        return;
    }
    for spelling in &part.trees.spellings {
        if !reading.spellings.contains(spelling) {
            reading.spellings.push(spelling.clone());
        }
    }
    memory.note_done(kind_of(predicate), &trees);
    if let Predicate::Stage(_) = predicate {
        memory.ripening.clone_from(&part.trees.is_one().then(|| trees.clone()));
    }
    if predicate.inherits_trees() {
        memory.topic = Some(trees.clone());
    }
    if memory.last.as_ref() != Some(&trees) {
        memory.before_last = memory.last.replace(trees.clone());
    }
    // "12 off each tree": each its own, as a count said once is of all of them together.
    let each = part.any(speech.tokens, words!("each apiece every"));
    if let [Report::Picked { .. }] = reports.as_slice()
        && each
    {
        for name in selected(speech.context.garden, &trees) {
            let trees = Selection::Named(vec![name]);
            let report = reports[0].clone();
            reading.requests.push(Request::Record(Record { trees, when, report }));
        }
        return;
    }
    for report in reports {
        let contrast = rust::contrast(speech, part, &report);
        reading.requests.push(Request::Record(Record { trees: trees.clone(), when, report }));
        if let Some((trees, report)) = contrast {
            reading.requests.push(Request::Record(Record { trees, when, report }));
        }
    }
}

/// "Wall on the kitchen scale, 3 lb": a tree in the ground stands on no scale; it was its fruit.
/// "Eave 38.2 lb", in a pot of 10 gallons: the pot, and no harvest.
fn off_the_scale(speech: &Speech, reports: Vec<Report>, trees: &Selection) -> Vec<Report> {
    /// No fig in a pot gives so much at once for each litre of it. From memory: a kilogram a season from ten litres.
    const MOST_PICKED: f64 = 0.15;
    const LEAST_WEIGHED: f64 = 3.0;
    let garden = speech.context.garden;
    let named = selected(garden, trees);
    let rooted = !named.is_empty()
        && named
            .iter()
            .all(|name| garden.tree(name).is_some_and(|tree| !matches!(tree.stand, Stand::Pot { .. })));
    let pots = litres_of_pots(garden, trees);
    let harvested = speech.tokens.iter().any(|token| {
        token.senses.has_any(&[Sense::Picked, Sense::Harvest, Sense::Fig, Sense::Took, Sense::Ripe])
            || token.is_any(words!("off from gave given yielded haul bowl basket"))
    });
    let fruit = |report: Report| match report {
        Report::Weighed { mass, .. } if rooted => Report::Picked { count: None, mass: Some(mass) },
        Report::Picked { count: None, mass: Some(mass) }
            if !harvested
                && mass.value() >= LEAST_WEIGHED
                && pots.is_some_and(|litres| mass.value() > litres * MOST_PICKED) =>
        {
            Report::Weighed { mass, state: weighing_state(speech.tokens) }
        }
        report => report,
    };
    reports.into_iter().map(fruit).collect()
}

pub(super) fn counts(part: &Part) -> Vec<f64> {
    let counted = |measured: &Measured| match measured.amount {
        Amount::Count(count) if count >= 1.0 => Some(count),
        _ => None,
    };
    part.amounts.iter().filter_map(counted).collect()
}

/// "Picked today:" with a list below.
fn is_header(speech: &Speech, part: &Part, predicate: Predicate, memory: &Memory) -> bool {
    // "Watered today." by itself is told.
    let dated = memory.more && part.any(speech.tokens, words!("today"));
    let titled = speech.tokens.len() <= 3
        && part.any(
            speech.tokens,
            words!("checked looked scouted inspected check report update scouting log notes round roundup survey walk count counts"),
        );
    predicate.repeats()
        && (speech.text.trim_end().ends_with(':') || titled || dated && speech.tokens.len() <= 3)
        && part.trees.is_empty()
        && part.amounts.is_empty()
        && part.range.end + 1 >= speech.tokens.len()
}

fn when(speech: &Speech, part: &Part, report: &Report) -> When {
    // "2 inches since Sunday" is read off the gauge now.
    // "Still wet from yesterday" is wet now.
    let from = part
        .moment
        .used
        .first()
        .and_then(|first| first.checked_sub(1))
        .is_some_and(|before| part.clause(speech.tokens).get(before).is_some_and(|word| word.is("from")));
    if from && matches!(report, Report::Moisture { .. }) {
        return When::Unsaid;
    }
    // "An inch in the gauge after that storm" fell in it.
    let beside_rain = matches!(part.moment.when(speech.now()), When::AfterRain | When::BeforeRain);
    if beside_rain && matches!(report, Report::Rained { .. } | Report::Moved { .. } | Report::Moisture { .. })
    {
        return When::Unsaid;
    }
    let since = part.any(speech.tokens, words!("since"));
    if since
        && matches!(
            report,
            Report::Rained { .. }
                | Report::Stage { .. }
                | Report::Weighed { .. }
                | Report::Moisture { .. }
                | Report::LeafDrop { share: Some(_) }
        )
    {
        When::Unsaid
    } else {
        part.moment.when(speech.now())
    }
}

/// What the part reports: one thing, or a spray with each of several products.
fn reports(
    speech: &Speech,
    part: &Part,
    predicate: Predicate,
    reading: &mut Reading,
) -> Result<Vec<Report>, DoubtKind> {
    let clause = part.clause(speech.tokens);
    let report = match predicate {
        // "Eave got 80 gals of rust"
        Predicate::Scouted
            if clause.windows(3).any(|three| {
                three[0].senses.has(Sense::Unit) && three[1].is("of") && three[2].senses.has(Sense::Rust)
            }) && part.pours() =>
        {
            return Err(DoubtKind::ImpossibleAmount);
        }
        Predicate::Scouted => match rust::amount(part, speech)? {
            Some(amount) => Report::Scouted { amount, level: rust::level(clause).or(part.level) },
            None => return Ok(Vec::new()),
        },
        Predicate::Clean => {
            Report::Scouted { amount: RustAmount::None, level: rust::level(clause).or(part.level) }
        }
        Predicate::LeafDrop => Report::LeafDrop { share: rust::leaf_share(part, speech)? },
        Predicate::Sprayed => {
            let volume = volume(speech, part)?;
            let products = products(speech, part, reading);
            return Ok(products.into_iter().map(|product| Report::Sprayed { product, volume }).collect());
        }
        Predicate::Watered => Report::Watered { volume: volume(speech, part)?, depth: depth(part)? },
        Predicate::Moisture(state) => Report::Moisture { state },
        Predicate::Weighed => Report::Weighed {
            mass: mass(part, MOST_WEIGHT)?.ok_or(DoubtKind::HowMuch)?,
            state: weighing_state(clause),
        },
        // "2 inches this week": which day of it the spray met, nobody can tell.
        Predicate::Rained
            if !part.amounts.is_empty()
                && part.any(speech.tokens, words!("week month year season"))
                && !part.any(speech.tokens, words!("last past")) =>
        {
            return Err(DoubtKind::UnclearReport);
        }
        Predicate::Rained => match rain(speech, part)? {
            Some(depth) => Report::Rained { depth },
            // "The gauge is broken"
            None if clause.len() > 1 || !part.senses.has(Sense::Gauge) => return Ok(Vec::new()),
            None => return Err(DoubtKind::HowMuch),
        },
        // "Leaves yellowing and dropping" in summer is no fall: something takes them.
        Predicate::Stage(Stage::LeafFall) if !is_fall(speech, part) => Report::LeafDrop { share: None },
        Predicate::Stage(stage) => Report::Stage { stage },
        Predicate::Picked => Report::Picked { count: count(part)?, mass: mass(part, MOST_FRUIT)? },
        Predicate::Frost => Report::Frost { minimum: minimum(speech, part)? },
        Predicate::Planted => Report::Planted,
        Predicate::Removed => Report::Removed,
        Predicate::Moved(to) => Report::Moved { to },
        Predicate::Noted => Report::Note { text: speech.typed(part.range.start, part.range.end).to_owned() },
        Predicate::Nothing => return Ok(Vec::new()),
    };
    Ok(vec![report])
}

fn trees(
    speech: &Speech,
    part: &Part,
    predicate: Predicate,
    report: &Report,
    memory: &Memory,
    reading: &mut Reading,
) -> Option<Selection> {
    if matches!(predicate, Predicate::Rained | Predicate::Frost) {
        return Some(Selection::Unsaid);
    }
    let none_seen = matches!(report, Report::Scouted { amount: RustAmount::None, .. });
    if predicate == Predicate::Planted
        && let Some(name) = newly_planted(speech, part)
    {
        return Some(Selection::Named(vec![name]));
    }
    // "Corner negative for rust": a tree by its whole name opens the clause, if one that is a word of the language too.
    if part.trees.is_empty()
        && matches!(report, Report::Scouted { .. })
        && let Some(tree) = speech.context.garden.tree(speech.typed(part.range.start, part.range.start + 1))
    {
        return Some(Selection::Named(vec![tree.name.clone()]));
    }
    // "All the plants are dead": after a frost they look so. No garden ends by half a sentence.
    if predicate == Predicate::Removed && !part.trees.is_empty() && !part.trees.is_one() {
        let words = speech.typed(part.range.start, part.range.end).to_owned();
        reading.doubts.push(doubt(DoubtKind::UnclearReport, words));
        return None;
    }
    if let Some(two) = both_of(speech, part, memory) {
        return Some(two);
    }
    if let Some((range, candidates)) = speech.names.unsure(&part.trees) {
        // "None of the trees": not one of them, whichever.
        if !(none_seen && part.any(speech.tokens, words!("none any"))) {
            let words = speech.typed(range.start, range.end).to_owned();
            reading.doubts.push(Doubt { kind: DoubtKind::WhichTree, words, candidates });
            return None;
        }
    }
    // "Wall or Corner has rust, he can't remember which"
    if part.trees.either
        && let Some(Selection::Named(candidates)) = speech.names.selection(&part.trees, &[])
        && (!none_seen || part.any(speech.tokens, words!("remember which sure")))
        && candidates.len() > 1
    {
        let words = speech.typed(part.range.start, part.range.end).to_owned();
        reading.doubts.push(Doubt { kind: DoubtKind::WhichTree, words, candidates });
        return None;
    }
    if let Some(selection) = speech.names.selection(&part.trees, &memory.named_for(kind_of(predicate))) {
        return Some(selection);
    }
    if let Some(words) = placed_elsewhere(speech, part) {
        unknown_tree(speech, &words, reading);
        return None;
    }
    let left_out = speech.names.left_out(&part.trees);
    if !left_out.is_empty() {
        return Some(Selection::AllBut(left_out));
    }
    let garden = speech.context.garden;
    if let Some(words) = stranger(speech, part) {
        if predicate == Predicate::Planted {
            return Some(Selection::Named(vec![words]));
        }
        if !garden.trees.is_empty() {
            unknown_tree(speech, &words, reading);
            return None;
        }
    }
    if speech.names.is_single_tree() {
        // "Picked 4 off Big Mama", where the only tree is Celeste
        if let Some(words) = strangers::placed_behind(speech, part) {
            unknown_tree(speech, &words, reading);
            return None;
        }
        return Some(Selection::All);
    }
    if none_seen && part.pronoun && part.says_any {
        return Some(Selection::All);
    }
    // "Dropping leaves too"
    let too = predicate == Predicate::LeafDrop && part.any(speech.tokens, words!("too also"));
    let said_before = memory.one_just_told(speech).filter(|_| {
        // "Picked 6 off the old turk and watered it": of a tree nobody knows.
        (too || matches!(predicate, Predicate::Sprayed | Predicate::Watered | Predicate::Moved(_)))
            && !reading
                .doubts
                .iter()
                .any(|doubt| matches!(doubt.kind, DoubtKind::UnknownTree | DoubtKind::WhichTree))
    });
    let spoken_of = memory.last.as_ref().or(said_before.as_ref()).or(memory.topic.as_ref());
    let before = if part.pronoun || too { spoken_of } else { None };
    // "Celeste's first ripe figs! Picked 3."
    let before = before.or(memory.ripening.as_ref().filter(|_| predicate == Predicate::Picked));
    let before = before.or(if predicate.inherits_trees() { memory.topic.as_ref() } else { None });
    if let Some(selection) = before {
        return Some(selection.clone());
    }
    // "Celeste is ripening! The necks are drooping": hers.
    if matches!(predicate, Predicate::Stage(_))
        && part.trees.is_empty()
        && let Some(selection @ Selection::Named(_)) = &memory.last
    {
        return Some(selection.clone());
    }
    // "Eave bone dry. Watered": her.
    if predicate == Predicate::Watered
        && part.range.len() <= 2
        && part.amounts.is_empty()
        && let Some((Predicate::Moisture(_), selection @ Selection::Named(names))) = memory.done.last()
        && names.len() == 1
    {
        return Some(selection.clone());
    }
    // "Watered Whip.. 1 quart.. still dry on top": hers.
    if matches!(predicate, Predicate::Moisture(_))
        && let Some(selection @ Selection::Named(names)) = &memory.last
        && names.len() == 1
    {
        return Some(selection.clone());
    }
    // "Celeste's pot weighed 61 lb. I then added a gallon."
    if predicate == Predicate::Watered
        && part.pours()
        && !part.any(speech.tokens, words!("each apiece all everything everywhere"))
        && let Some(selection @ Selection::Named(names)) = &memory.last
        && names.len() == 1
    {
        return Some(selection.clone());
    }
    // "Corner looks clean. Picked 5 too": the one tree spoken of.
    if predicate == Predicate::Picked
        && !part.amounts.is_empty()
        && memory.before_last.is_none()
        && !part.any(speech.tokens, words!("off from one ones"))
        && let Some(selection @ Selection::Named(names)) = &memory.last
        && names.len() == 1
    {
        return Some(selection.clone());
    }
    // "Gave them all a drink", with none spoken of before.
    let them_all = part.pair(speech.tokens, words!("them"), words!("all")) && memory.last.is_none();
    let everywhere = them_all || part.any(speech.tokens, words!("anywhere everywhere"));
    // "Not rust, just dirt": of what was looked at, wherever that was.
    if none_seen && part.pair(speech.tokens, words!("not isn't ain't"), words!("rust")) {
        return None;
    }
    // "Picked 4 from Celeste. No rust that I could see": of her.
    if none_seen
        && !everywhere
        && !part.says_any
        && memory.before_last.is_none()
        && let Some(selection @ Selection::Named(names)) = &memory.last
        && names.len() == 1
    {
        return Some(selection.clone());
    }
    if everywhere || none_seen {
        return Some(Selection::All);
    }
    // What was done to the garden at large may be taken for all of it, and that is said; what was seen, or
    // picked, was seen somewhere.
    // "Took it back out": what was inside.
    let out = predicate == Predicate::Moved(Whereabouts::Outdoors) && part.pronoun;
    if predicate == Predicate::Sprayed
        && let Some(words) = strangers::put_on(speech, part)
    {
        unknown_tree(speech, &words, reading);
        return None;
    }
    let one = strangers::of_one_unnamed(part.clause(speech.tokens));
    // "Watered 1 gal": so much is one tree's, unless it says each; "watered the" breaks off.
    let so_much = predicate == Predicate::Watered
        && part.pours()
        && !part.any(
            speech.tokens,
            words!("each apiece every per all everything everybody everyone them em both"),
        );
    let torn_off = part.clause(speech.tokens).last().is_some_and(|last| last.is_any(words!("the my our a")));
    let one = one || so_much || torn_off;
    if out
        || matches!(predicate, Predicate::Sprayed | Predicate::Watered | Predicate::Stage(_)) && !one
        || garden.trees.is_empty()
    {
        return Some(Selection::Unsaid);
    }
    // "Brought them inside": what can be carried.
    if matches!(predicate, Predicate::Moved(_)) && part.any(speech.tokens, words!("them they everything all"))
    {
        return Some(Selection::All);
    }
    let candidates = speech.names.nicknames().to_vec();
    let words = speech.typed(part.range.start, part.range.end).to_owned();
    reading.doubts.push(Doubt { kind: DoubtKind::WhichTree, words, candidates });
    None
}
