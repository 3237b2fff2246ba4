//! Sentences too short to stand alone: "Sprayed copper. Wall and Corner only. 7 am."

use std::borrow::Cow;

use super::amounts::{Amount, amounts};
use super::clauses::{Asked, Sentence, sentences};
use super::lexicon::Sense;
use super::moments::moment;
use super::names::Names;
use super::repair::takes_back;
use super::tokens::{Token, tokens};
use super::{Context, now, spelling};
use crate::language::read::word_list::words;

/// A sentence with the fragments that go on with it.
pub(super) struct Whole<'t> {
    text: Cow<'t, str>,
    asked: Asked,
    stopped: bool,
}

impl Whole<'_> {
    pub(super) fn sentence(&self) -> Sentence<'_> {
        Sentence { text: &self.text, asked: self.asked, stopped: self.stopped }
    }
}

/// The sentences of a text, fragments joined to the report they say closer.
pub(super) fn whole_sentences<'t>(text: &'t str, names: &Names, context: &Context) -> Vec<Whole<'t>> {
    let mut whole: Vec<Whole> = Vec::new();
    for sentence in sentences(text) {
        let next =
            Whole { text: Cow::Borrowed(sentence.text), asked: sentence.asked, stopped: sentence.stopped };
        match whole.last_mut() {
            Some(told)
                if told.asked == Asked::No
                    && sentence.asked == Asked::No
                    && let Some(others) = are_the_same(sentence.text, names) =>
            {
                told.text = Cow::Owned(format!("{}, {others} the same", told.text));
                told.stopped = sentence.stopped;
            }
            Some(told)
                if (text.contains('\n') || told.stopped)
                    && goes_on_counting(&told.text, sentence.text, names) =>
            {
                told.text = Cow::Owned(format!("{}, {}", told.text, sentence.text));
            }
            Some(told)
                if told.stopped
                    || is_one_name(sentence.text, names) && !text.contains('\n')
                    || takes_back(sentence.text) && !text.contains('\n') =>
            {
                match says_closer(&told.text, sentence, names, context) {
                    Some(between) => {
                        told.text = Cow::Owned(format!("{}{between}{}", told.text, sentence.text));
                        told.stopped = sentence.stopped;
                    }
                    None => whole.push(next),
                }
            }
            _ => whole.push(next),
        }
    }
    whole
}

/// "Corner is dry. Wall is the same", "... So is Wall", "... Same for Wall and Whip": the trees it is the same with.
fn are_the_same(text: &str, names: &Names) -> Option<String> {
    const MOST_WORDS: usize = 10;
    let tokens = tokens(text);
    let heads_so = tokens.first().is_some_and(|first| first.is_any(words!("so ditto likewise")))
        && tokens.get(1).is_some_and(|is| is.is_any(words!("is are for on with does do has have")));
    let same = tokens.iter().any(|token| token.is_any(words!("same likewise ditto")));
    if tokens.len() > MOST_WORDS || !(same || heads_so) {
        return None;
    }
    let mentions = names.mentions(&tokens, text);
    let named = |at: usize| mentions.iter().any(|mention| mention.range.contains(&at));
    let small = |token: &Token| {
        token.is_any(words!(
            "so same the is are for from off as well on with at in likewise ditto and also too does do has have , it's its story thing goes"
        ))
    };
    let (first, last) = (mentions.first()?.range.start, mentions.last()?.range.end);
    let only = (0..tokens.len()).all(|at| named(at) || small(&tokens[at]));
    let listed = (first..last).all(|at| named(at) || tokens[at].is_any(words!("and , the")));
    let end = tokens[last - 1].span.end;
    (only && listed).then(|| text[tokens[first].span.start..end].to_owned())
}

/// Nothing but trees, a spray, a time or a volume, each of which the report before it left open: what is to stand
/// between the two, if so.
fn says_closer(told: &str, next: Sentence, names: &Names, context: &Context) -> Option<&'static str> {
    const LONGEST: usize = 60;
    if next.asked == Asked::Yes || next.text.len() > LONGEST || told.len() > LONGEST * 3 {
        return None;
    }
    let (before, words) = (tokens(told), tokens(next.text));
    if owns_up(&before)
        || takes_back(next.text)
        || strikes_off(&words)
        || counts_of(&before, &words)
        || is_how_it_weighed(&before, &words)
        || is_how_cold(&before, &words, context)
        || is_how_much_rain(&before, &words)
        || next.text.to_ascii_lowercase().contains("until then")
        || is_heading(told, next.text, names, context)
    {
        return Some(", ");
    }
    // "I walked to the scale. Big One weighed 52 lb": told whole.
    let weighs = words.iter().any(|token| token.senses.has(Sense::Weighed));
    let fragment = Told::by(words, next.text, names, context);
    // "Rust on Eave. Bad."
    let how_bad = before.iter().any(|token| token.senses.has(Sense::Rust))
        && !before.iter().any(|token| token.senses.has_any(&[Sense::Negation, Sense::Trace, Sense::Heavy]))
        && next.text.split_whitespace().count() <= 2
        && next
            .text
            .to_ascii_lowercase()
            .trim_start_matches("real ")
            .trim_start_matches("pretty ")
            .starts_with("bad");
    if how_bad {
        return Some(", ");
    }
    if !fragment.may_say_closer() {
        return None;
    }
    let report = Told::by(before, told, names, context);
    // "I weighed Big One's pot. 44 pounds, wet."
    if fragment.mass && !weighs && report.scale && !report.mass && !report.denied {
        return Some(", ");
    }
    // "Figs swelling on Wall. Corner too"
    if fragment.trees
        && fragment.too
        && report.trees
        && (report.work || report.rust || report.state)
        && !report.denied
    {
        return Some(" and ");
    }
    // "Picked 14 off Big One. 1 lb."
    let counts = fragment.figs && report.picks && !report.amount && !report.denied;
    let weighs = counts || fragment.mass && report.picks && !report.mass && !report.denied;
    let something = weighs
        || fragment.trees
        || fragment.moment
        || fragment.volume
        || fragment.product
        || fragment.of_rust;
    if !something || !fragment.nothing_else {
        return None;
    }
    if weighs && !fragment.trees && !fragment.moment && !fragment.volume {
        return Some(", ");
    }
    // "Rust on Corner. Lower leaves. Maybe 10 percent."
    if report.rust && fragment.of_rust && !fragment.trees && !report.denied {
        return Some(", ");
    }
    let told_already = report.product && fragment.product
        || report.trees && fragment.trees
        || report.moment && fragment.moment
        || report.amount && fragment.volume;
    let open = report.work && !report.denied && !told_already;
    // "Sprayed. Copper." is "sprayed copper".
    open.then_some(if fragment.product { " " } else { ", " })
}

/// "Looked at 30 leaves on Wall. 4 had rust."
fn counts_of(told: &[Token], next: &[Token]) -> bool {
    const MOST_WORDS: usize = 6;
    let looked = told.iter().any(|token| token.is_any(words!("looked checked counted scouted inspected")))
        && told.windows(2).any(|pair| pair[0].number.is_some() && pair[1].senses.has(Sense::Leaf))
        && !told.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots, Sense::Negation]));
    looked
        && next.len() <= MOST_WORDS
        && next.first().is_some_and(|first| first.number.is_some_and(|count| count.fract() == 0.0))
        && next.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots]))
}

/// "It rained last night. Six tenths of an inch in the gauge."
fn is_how_much_rain(told: &[Token], next: &[Token]) -> bool {
    const LONGEST: usize = 12;
    let figure = |words: &[Token]| words.iter().any(|token| token.number.is_some());
    told.len() <= LONGEST
        && next.len() <= LONGEST
        && told.iter().any(|token| token.senses.has_any(&[Sense::Rain, Sense::Rained]))
        && !figure(told)
        && !told.iter().any(|token| token.senses.has_any(&[Sense::Negation, Sense::Future, Sense::Condition]))
        && figure(next)
        && next.iter().any(|token| token.senses.has_any(&[Sense::Gauge, Sense::Unit]))
        && !next.iter().any(|token| {
            token.senses.has_any(&[
                Sense::Watered,
                Sense::Gave,
                Sense::Picked,
                Sense::Sprayed,
                Sense::Rain,
                Sense::Time,
            ]) || token.is_any(words!("i we gal gallon gallons lb lbs"))
        })
}

/// "We had a frost April 20. 30 degrees."
fn is_how_cold(told: &[Token], next: &[Token], context: &Context) -> bool {
    let units = context.garden.units;
    let degrees = |words: &[Token]| {
        amounts(words, &[], units).iter().any(|measured| matches!(measured.amount, Amount::Temperature(_)))
    };
    next.len() <= 4
        && told.iter().any(|token| token.senses.has(Sense::Frost))
        && degrees(next)
        && !degrees(told)
}

/// "8 July. Eave. 5 picked, 2 of them split.": a day or a tree by itself, above what is told of it.
fn is_heading(told: &str, next: &str, names: &Names, context: &Context) -> bool {
    const LONGEST: usize = 4;
    const MOST_LETTERS: usize = 40;
    if told.len() > MOST_LETTERS {
        return false;
    }
    let words = tokens(told.rsplit(", ").next().unwrap_or(told));
    let head = |words: &[Token]| {
        let when = moment(words, &[], now(context)).used;
        words.len() <= LONGEST && !words.is_empty() && (0..words.len()).all(|at| when.contains(&at))
    };
    let named = |text: &str| is_one_name(text, names);
    let whole = told.split(", ").all(|part| head(&tokens(part)) || named(part));
    let counted = || tokens(next).iter().any(|token| token.number.is_some());
    let dated = head(&words) && words.iter().any(|token| token.number.is_some());
    whole
        && (dated && (named(next) || counted())
            || named(told.rsplit(", ").next().unwrap_or(told)) && counted() && told.contains(", "))
}

/// "Eave weighs 44 lb. Dry."
fn is_how_it_weighed(told: &[Token], next: &[Token]) -> bool {
    const STATES: &[Sense] = &[Sense::Dry, Sense::Wet, Sense::Moist];
    // "... 44 pounds. The soil was dry."
    next.len() <= 5
        && next.iter().any(|token| token.senses.has_any(STATES))
        && next.iter().all(|token| {
            token.senses.has_any(STATES)
                || token.is_any(words!("bone still pretty very the soil it pot was is its it's"))
        })
        && told.iter().any(|token| token.senses.has(Sense::Weighed))
        && !told.iter().any(|token| token.senses.has_any(STATES))
}

/// "Wall 6", "Corner 3", "all picked this morning", each on its line: one tally.
fn goes_on_counting(told: &str, next: &str, names: &Names) -> bool {
    const LONGEST: usize = 40;
    let last = told.rsplit(", ").next().unwrap_or(told);
    const MOST_WORDS: usize = 5;
    let long = |text: &str| text.len() > LONGEST || text.split_whitespace().count() > MOST_WORDS;
    if long(last) || next.len() > LONGEST || !is_count_of_one(last, names) {
        return false;
    }
    let summary = || {
        let words = tokens(next);
        // "All picked this morning", "that's it for picking today"
        (words.first().is_some_and(|first| first.is_any(words!("all picked")))
            && words.iter().any(|token| token.senses.has(Sense::Picked))
            || words.first().is_some_and(|first| first.is_any(words!("that's thats that")))
                && words.iter().any(|token| token.senses.has_any(&[Sense::Picking, Sense::Harvest])))
            && !words.iter().any(|token| token.number.is_some())
    };
    is_count_of_one(next, names) || summary()
}

/// A tree and a number, and nothing else.
fn is_count_of_one(text: &str, names: &Names) -> bool {
    let words = tokens(text);
    let [.., count] = words.as_slice() else { return false };
    let mentions = names.mentions(&words, text);
    let [mention] = mentions.as_slice() else { return false };
    count.number.is_some_and(|count| count.fract() == 0.0)
        && mention.trees.is_one()
        && (mention.range == (0..words.len() - 1)
            // "Celeste: 7"
            || words.len() > 2 && words[words.len() - 2].is(":") && mention.range == (0..words.len() - 2))
}

/// "First ripe fig!! Celeste"
fn is_one_name(text: &str, names: &Names) -> bool {
    let words = tokens(text);
    let mentions = names.mentions(&words, text);
    let [mention] = mentions.as_slice() else { return false };
    mention.trees.is_one() && mention.range == (0..words.len())
}

/// "I misread the tank.", "Sorry, my mistake.": the next sentence says what is right.
fn owns_up(words: &[Token]) -> bool {
    const MOST_WORDS: usize = 7;
    words.len() <= MOST_WORDS
        && words.iter().any(|token| {
            token.is_any(words!(
                "misread miscounted mistyped misspoke mistake typo oops whoops correction wrong"
            ))
        })
        && !words.iter().any(|token| token.number.is_some())
}

/// "Take it off your list.": what, the sentence before says.
fn strikes_off(words: &[Token]) -> bool {
    const MOST_WORDS: usize = 8;
    let of_it = words.windows(3).any(|three| {
        three[0].is_any(words!("take strike cross"))
            && three[1].is_any(words!("it them that"))
            && three[2].is("off")
    });
    // "I have bought potassium bicarbonate. Please add it to my products."
    let of_it =
        of_it || words.windows(2).any(|pair| pair[0].is("add") && pair[1].is_any(words!("it that them")));
    of_it && words.len() <= MOST_WORDS && words.iter().any(|token| token.is_any(words!("list products")))
}

/// What a sentence tells, as far as another could add to it.
struct Told {
    work: bool,
    denied: bool,
    product: bool,
    trees: bool,
    moment: bool,
    amount: bool,
    volume: bool,
    nothing_else: bool,
    rust: bool,
    /// A share or a level of leaves.
    of_rust: bool,
    picks: bool,
    mass: bool,
    /// So many figs.
    figs: bool,
    /// A pot was put on the scale.
    scale: bool,
    /// "..., too".
    too: bool,
    /// How a tree stands, and how it is watered.
    state: bool,
}

impl Told {
    /// It holds something another sentence could have left open.
    fn may_say_closer(&self) -> bool {
        self.trees || self.moment || self.volume || self.product || self.of_rust || self.mass || self.figs
    }

    fn by(words: Vec<Token>, text: &str, names: &Names, context: &Context) -> Self {
        let mut tokens = words;
        spelling::mend(&mut tokens, names);
        let mentions = names.mentions(&tokens, text);
        let named: Vec<usize> = mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let moment = moment(&tokens, &named, now(context));
        let mut taken = named;
        taken.extend(&moment.used);
        let amounts = amounts(&tokens, &taken, context.garden.units);
        let is_volume = |amount: &Amount| matches!(amount, Amount::Volume(_));
        let is_mass = |amount: &Amount| matches!(amount, Amount::Mass(_));
        let is_share =
            |amount: &Amount| matches!(amount, Amount::Share(_) | Amount::Class(_) | Amount::LeavesOf { .. });
        const LEVELS: &[Sense] = &[Sense::Lower, Sense::Middle, Sense::Upper];
        let leveled = tokens.iter().any(|token| token.senses.has_any(LEVELS))
            && tokens.iter().any(|token| token.senses.has(Sense::Leaf))
            // "Lots of rust on Wall. Whole tree."
            || tokens.len() <= 3
                && tokens.iter().any(|token| token.senses.has(Sense::Whole))
                && tokens.iter().any(|token| token.senses.has(Sense::Tree));
        let measured = |index: usize| {
            amounts.iter().any(|amount| {
                (is_volume(&amount.amount) || is_share(&amount.amount) || is_mass(&amount.amount))
                    && (amount.from..amount.to).contains(&index)
            })
        };
        let figs = amounts.iter().any(|measured| {
            matches!(measured.amount, Amount::Count(_))
                && tokens[measured.from..tokens.len().min(measured.to + 1)]
                    .iter()
                    .any(|token| token.senses.has(Sense::Fig))
        });
        let poured = amounts.iter().any(|measured| is_volume(&measured.amount));
        // "Watered.. all of em.. 2 gal each"
        let all = tokens.first().is_some_and(|first| first.is_any(words!("all everything")))
            && tokens.len() <= 4
            && tokens.iter().all(|token| token.is_any(words!("all of them everything em the trees")));
        let small = |token: &Token| {
            token.is_mark()
                || token.senses.has_any(&[
                    Sense::Filler,
                    Sense::Link,
                    Sense::Article,
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                ])
                || all
                || leveled && token.senses.has_any(&[Sense::Lower, Sense::Middle, Sense::Upper, Sense::Leaf])
                || token
                    .is_any(words!("only just about each apiece and both maybe perhaps say roughly mostly"))
                // "Twenty-six figs, two pounds even."
                || figs && (token.number.is_some() || token.senses.has(Sense::Fig) || token.is_any(words!("even total in all - ,")))
                // "Used 1 gallon.", "It took 2 gal."
                || poured && token.is_any(words!("used took it that in all total altogether of mix"))
        };
        let trees =
            all || mentions.iter().any(|mention| mention.trees.names_some() && !mention.trees.is_vague());
        let verb = tokens.iter().any(|token| {
            token.senses.has_any(&[Sense::Sprayed, Sense::Applied, Sense::Watered, Sense::Picked])
        });
        let stage = tokens
            .iter()
            .any(|token| token.senses.has_any(&[Sense::Ripe, Sense::Ripening, Sense::Swell, Sense::LeafOut]));
        let product =
            tokens.iter().any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
        let shared = amounts.iter().any(|measured| is_share(&measured.amount));
        Self {
            rust: tokens.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots])),
            of_rust: shared || leveled,
            picks: tokens.iter().any(|token| token.senses.has(Sense::Picked))
                // "11 off Wall."
                || trees
                    && tokens.iter().any(|token| token.is_any(words!("off from")))
                    && amounts.iter().any(|measured| matches!(measured.amount, Amount::Count(_))),
            mass: amounts.iter().any(|measured| is_mass(&measured.amount)),
            figs,
            scale: tokens.iter().any(|token| token.senses.has(Sense::Weighed)),
            too: tokens.last().is_some_and(|last| last.is_any(words!("too also"))) && tokens.len() <= 5,
            state: tokens.iter().any(|token| {
                token.senses.has_any(&[
                    Sense::Dry,
                    Sense::Wet,
                    Sense::Moist,
                    Sense::Swell,
                    Sense::Ripening,
                    Sense::Drop,
                    Sense::Clean,
                ])
            }),
            work: verb || stage || product && trees,
            denied: tokens.iter().any(|token| token.senses.has(Sense::Negation)),
            product,
            trees,
            moment: moment.is_said(),
            amount: amounts.iter().any(|measured| measured.amount != Amount::Other),
            volume: amounts.iter().any(|measured| is_volume(&measured.amount)),
            nothing_else: tokens
                .iter()
                .enumerate()
                .all(|(index, token)| taken.contains(&index) || measured(index) || small(token)),
        }
    }
}
