//! Reports: what was seen and done, several in one sentence, sentences going on with the one before.

mod build;
mod each;
mod fragments;
mod hanging;
mod harvest;
mod heading;
mod housing;
mod join;
mod moods;
mod notes;
mod opening;
mod overlap;
mod predicate;
mod quantities;
mod rust;
mod said_before;
mod sprays;
mod spread;
mod stages;
mod strangers;
mod tending;
mod unread;
mod water;

pub(super) use self::strangers::unknown_tree;
use crate::language::read::word_list::{WordList, words};
use std::ops::Range;

use chrono::Datelike;

use self::predicate::{Predicate, Words};
use self::said_before::{multiple, says_its_own};
use super::Speech;
use super::amounts::{Measured, amounts};
use super::clauses::{Clause, Joint, clauses};
use super::lexicon::{Sense, Senses};
use super::moments::{Moment, moment};
use super::mood::{self, Mood};
use super::names::{Product, Trees};
use super::tokens::Token;
use crate::season::journal::LeafLevel;
use crate::season::request::{Aside, Reading, Request, Selection};

/// What the sentences before leave for this one.
#[derive(Debug, Default)]
pub(super) struct Memory {
    /// The trees looked at last.
    topic: Option<Selection>,
    /// The trees spoken of last, whatever was done to them.
    last: Option<Selection>,
    /// The one tree spoken of before that, for "both".
    before_last: Option<Selection>,
    /// What was said of trees last: "Picked today:" above a list of them.
    predicate: Option<Predicate>,
    /// The amounts told last, whose unit a bare number takes: "1 gal each. Whip 2".
    measure: Vec<Measured>,
    /// A day said by itself, above what was done on it.
    moment: Moment,
    products: Vec<Product>,
    /// Trees a spray or watering of this message was for, for "the rest".
    done: Vec<(Predicate, Selection)>,
    /// The one tree said to ripen, which "picked 3" is of.
    ripening: Option<Selection>,
    /// More sentences follow the one being read.
    more: bool,
    /// The sentence just read was of other plants: "them" is of those.
    plants: bool,
    /// The sentence just read was a heading: it says something of what follows only.
    headed: bool,
    /// "Went out at 7 and sprayed": held back until it is known whether the next sentence says it closer.
    held: Option<Held>,
}

#[derive(Debug)]
struct Held {
    predicate: Predicate,
    moment: Moment,
    products: Vec<Product>,
    reading: Reading,
}

/// A clause taken apart.
#[derive(Clone, Debug)]
struct Part {
    range: Range<usize>,
    joint: Joint,
    /// A comma parts it from the one before.
    marked: bool,
    predicate: Option<Predicate>,
    mood: Mood,
    /// It speaks of another year.
    other_year: bool,
    /// It speaks of another plant, and is told of this garden for the rest.
    other_plant: bool,
    /// It says that it is only a test.
    trial: bool,
    trees: Trees,
    products: Vec<Product>,
    moment: Moment,
    amounts: Vec<Measured>,
    senses: Senses,
    /// Which leaves are meant, where its words or its heading say.
    level: Option<LeafLevel>,
    /// The spray was named behind the trees: "Celeste (copper)".
    late_products: bool,
    /// So was the amount: "Celeste (2 gal)".
    late_amounts: bool,
    /// "it", "them": the trees of the clause before.
    pronoun: bool,
    /// "any of them"
    says_any: bool,
    /// "anywhere"
    everywhere: bool,
    /// "a fig", "the first ripe fig"
    one_fig: bool,
}

pub(super) use self::overlap::tell_apart;
pub(super) use self::quantities::{MOST_FIGS, MOST_RAIN};

/// Which leaves are meant, lower to upper.
pub(super) fn leaf_level(clause: &[Token]) -> Option<LeafLevel> {
    rust::level(clause)
}

/// Keeps a sentence in the grower's own words.
pub(super) fn keep_note(speech: &Speech, reading: &mut Reading) {
    notes::push_note(speech, &parts(speech), speech.typed(0, speech.tokens.len()).to_owned(), reading);
}

/// Reads a sentence that asks for itself to be noted.
pub(super) fn read_note(speech: &Speech, reading: &mut Reading) -> bool {
    let Some(text) = notes::note(speech) else { return false };
    notes::push_note(speech, &parts(speech), text, reading);
    true
}

/// Reads a sentence for what it reports.
pub(super) fn read(speech: &Speech, memory: &mut Memory, reading: &mut Reading) {
    let mut parts = parts(speech);
    // A note is a note, whatever it says.
    if read_note(speech, reading) {
        return;
    }
    moods::settle_moods(speech, &mut parts);
    // "Tomatoes are going nuts. Watered em twice today": the tomatoes.
    let plants = parts.iter().any(|part| part.mood == Mood::Not(Aside::Elsewhere))
        && (parts.iter().any(|part| part.other_plant)
            || speech.tokens.iter().any(|token| token.senses.has(Sense::Plant)))
        && speech.mentions.is_empty();
    let of_them = std::mem::replace(&mut memory.plants, plants)
        && speech.mentions.is_empty()
        && parts.iter().any(|part| {
            (part.pronoun || part.predicate == Some(Predicate::Picked))
                && part.predicate.is_some_and(Predicate::is_work)
        });
    if of_them {
        memory.plants = true;
        reading.requests.push(Request::Aside(Aside::Elsewhere));
        return;
    }
    let asides = || {
        parts.iter().filter_map(|part| match part.mood {
            Mood::Not(aside) => Some(aside),
            _ => None,
        })
    };
    let concerns = |part: &Part| {
        part.predicate.is_some()
            || part.names_trees()
            || !part.products.is_empty()
            || !part.amounts.is_empty()
            || part.senses.has_any(&[
                Sense::Spray,
                Sense::Spraying,
                Sense::Water,
                Sense::Watering,
                Sense::Pick,
                Sense::Picking,
                Sense::Fig,
                Sense::Rust,
                Sense::Frost,
                Sense::Rain,
                Sense::Planted,
                Sense::Plant,
            ])
    };
    let of_garden = parts.iter().any(concerns);
    let aside = asides().find(|aside| *aside == Aside::Condition).or_else(|| asides().next());
    let denied = parts.iter().any(|part| part.mood == Mood::Denied);
    let nothing = parts.iter().any(|part| part.predicate == Some(Predicate::Nothing));
    let heard: bool = parts.iter().any(|part| part.mood == Mood::Told);
    if heard {
        let fresh = join::join(speech, memory, parts);
        let before = reading.requests.len() + reading.doubts.len();
        memory.headed = false;
        let last = fresh.len().saturating_sub(1);
        for (index, part) in fresh.iter().enumerate() {
            if index == last && build::may_be_said_closer(speech, part, memory) {
                build::hold(speech, part, memory, reading);
            } else {
                build::record(speech, part, memory, reading);
            }
        }
        let told = reading.requests.len() + reading.doubts.len() > before;
        if told || memory.headed || memory.holds() || memory.takes_header(speech, &fresh) {
            return;
        }
    }
    // "You should see Whip, she's taking off. Gave her a gallon": spoken of, if nothing was told.
    if aside.is_some_and(|aside| aside != Aside::Elsewhere) {
        memory.speak_of(speech);
    }
    if let Some(aside) = aside {
        reading.requests.push(Request::Aside(if of_garden { aside } else { Aside::Talk }));
    } else if let Some(record) = unread::all_well(speech).filter(|_| denied || nothing) {
        reading.requests.push(Request::Record(record));
    } else if denied || nothing {
        reading.requests.push(Request::Aside(Aside::Talk));
    } else {
        unread::not_a_report(speech, memory, reading);
    }
}

impl Memory {
    /// The trees spoken of last.
    pub(super) fn last_trees(&self) -> Option<&Selection> {
        self.last.as_ref()
    }

    /// "Am I watering Whip too much? The soil is soggy": hers.
    pub(super) fn speak_of(&mut self, speech: &Speech) {
        let one = speech.mentions.iter().find(|mention| mention.trees.is_one());
        if let Some(trees) = one.and_then(|mention| speech.names.selection(&mention.trees, &[])) {
            self.topic = Some(trees);
        }
    }

    /// What was held back is said after all.
    pub(super) fn release(&mut self, reading: &mut Reading) {
        if let Some(held) = self.held.take() {
            super::append(reading, held.reading);
        }
    }

    /// Where this message has named no tree yet, the one of the message before.
    fn one_just_told(&self, speech: &Speech) -> Option<Selection> {
        let fresh = self.last.is_none() && self.topic.is_none();
        super::addition::tree_just_told(speech).filter(|_| fresh)
    }

    pub(super) fn expects_more(&mut self, more: bool) {
        self.more = more;
    }

    pub(super) fn holds(&self) -> bool {
        self.held.is_some()
    }
    fn note_done(&mut self, predicate: Predicate, selection: &Selection) {
        self.done.push((predicate, selection.clone()));
    }

    /// Trees named before for the same work.
    fn named_for(&self, predicate: Predicate) -> Vec<Selection> {
        self.done
            .iter()
            .filter(|(done, _)| *done == predicate)
            .map(|(_, selection)| selection.clone())
            .collect()
    }
}

fn parts(speech: &Speech) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    let mut kept = Senses::default();
    let percents = speech.tokens.iter().filter(|token| token.is_any(words!("% percent pct"))).count();
    let says = |senses: &[Sense]| speech.tokens.iter().any(|token| token.senses.has_any(senses));
    let shares_all = percents == 1
        && speech.mentions.len() > 1
        && speech.tokens.last().is_some_and(|last| last.is_any(words!("% percent pct")))
        && says(&[Sense::Seen, Sense::Rust])
        && !says(&[
            Sense::Picked,
            Sense::Watered,
            Sense::Sprayed,
            Sense::Applied,
            Sense::Leaf,
            Sense::Gauge,
            Sense::Fig,
            Sense::Harvest,
            Sense::Took,
        ]);
    let unit_of_all = speech.tokens.windows(2).find_map(|pair| {
        pair[0].is_any(words!("all in")).then(|| super::amounts::volume(&pair[1].text)).flatten()
    });
    for clause in clauses(speech.tokens, &speech.mentions) {
        // "Weight: Celeste 58 lb": the heading is said of what follows.
        let level = parts.last().filter(|_| clause.joint == Joint::Of).and_then(|before| before.level);
        let heading = match parts.last() {
            Some(before)
                if clause.joint == Joint::Of
                    && !before.names_trees()
                    // "Picked out: Celeste" is said whole.
                    && !matches!(before.predicate, Some(Predicate::Nothing | Predicate::Stage(_))) =>
            {
                kept = before.senses;
                before.senses
            }
            // "... Celeste 61 lb, Big One 88 lb": still under the heading, if it says nothing of its own.
            Some(_)
                if !says_its_own(&speech.tokens[clause.range.clone()])
                    && speech.mentions.iter().any(|mention| clause.range.contains(&mention.range.start))
                    && clause.range.clone().any(|index| speech.tokens[index].number.is_some()) =>
            {
                kept
            }
            _ => Senses::default(),
        };
        let mut part = part(speech, &clause, heading);
        // "The squirrel sat there and | ate 2 off Celeste": she picked them, not we.
        let thief = parts.last().is_some_and(|before| {
            let clause = &speech.tokens[before.range.clone()];
            clause.iter().any(|token| {
                token.senses.has(Sense::Creature) && !token.is_any(words!("kid kids baby grandkids children"))
            }) && !clause.iter().any(|token| token.is_any(words!("i we")))
        });
        let takes = speech.tokens[clause.range.clone()]
            .iter()
            .find(|token| !token.is_mark())
            .is_some_and(|first| first.is_any(words!("ate took stole got grabbed had pecked")));
        if thief && takes && part.predicate == Some(Predicate::Picked) {
            part.predicate = Some(Predicate::Nothing);
        }
        // "Scouted all: Celeste 0, Wall 15, Corner 20 percent"
        if shares_all {
            part.amounts.iter_mut().for_each(super::amounts::Measured::take_percent);
        }
        // "Watered Big One 3, Eave 2, all gallons"
        if let Some(unit) = unit_of_all {
            for measured in &mut part.amounts {
                measured.take_unit(unit);
            }
        }
        part.level = part.level.or(level);
        if let Some(factor) = multiple(&speech.tokens[clause.range.clone()])
            && let Some(before) = parts.last().filter(|before| !before.amounts.is_empty())
            && part.names_trees()
        {
            part.amounts = before.amounts.iter().filter_map(|measured| measured.times(factor)).collect();
        }
        // "The pots yesterday, and the ground trees the day before"
        let before = speech.tokens[clause.range.clone()]
            .windows(3)
            .any(|three| three[0].is("the") && three[1].is("day") && three[2].is("before"));
        if let Some(last) = parts.last().filter(|_| before && !part.moment.is_said()) {
            part.moment = last.moment.the_day_before();
        }
        parts.push(part);
    }
    parts
}

fn part(speech: &Speech, clause: &Clause, heading: Senses) -> Part {
    let (range, joint, marked) = (clause.range.clone(), clause.joint, clause.marked);
    let clause = &speech.tokens[range.clone()];
    let mentions: Vec<_> = speech
        .mentions
        .iter()
        .filter(|mention| mention.range.start >= range.start && mention.range.end <= range.end)
        .collect();
    let mut trees = Trees::default();
    let mut in_names = vec![false; clause.len()];
    for mention in mentions {
        // "Ate one off Big One, standing on the deck": where, not which.
        let joined = mention.range.start > 0
            && speech.tokens[..mention.range.start]
                .iter()
                .rev()
                .take(2)
                .any(|token| token.is_any(words!("and , & + plus or")));
        if !joined && trees.is_one() && mention.trees.is_place_of(&trees) {
            continue;
        }
        in_names[mention.range.start - range.start..mention.range.end - range.start].fill(true);
        trees = trees.together(mention.trees.clone());
    }
    let named: Vec<usize> = (0..clause.len()).filter(|index| in_names[*index]).collect();
    let products = speech.names.products_in(clause, &named);
    let moment = moment(clause, &named, speech.now());
    let mut taken = named;
    taken.extend(&moment.used);
    let mut amounts = amounts(clause, &taken, speech.context.garden.units);
    // "Another inch this morning makes 4 in three days": the sum was told already.
    let summed = |measured: &Measured| {
        measured.from > 0
            && measured.from != usize::MAX
            && clause[..measured.from]
                .iter()
                .rev()
                .take(2)
                .any(|token| token.is_any(words!("makes making totaling totalling totals")))
    };
    if amounts.len() > 1 {
        amounts.retain(|measured| !summed(measured));
    }
    // "6 jars of jam from the 3 pounds I picked"
    amounts.retain(|measured| {
        !(matches!(measured.amount, super::amounts::Amount::Count(_))
            // "For my 2 neighbors"
            && clause.get(measured.to).is_some_and(|next| next.senses.has_any(&[Sense::Thing, Sense::Someone]) && !next.is_any(words!("her his he she hers"))))
    });
    // Words of a name or of a time mean nothing else: "am" is no verb in "7 am".
    let free = |index: usize| !in_names[index] && !moment.used.contains(&index);
    let timed = if moment.is_said() { heading.with(Sense::Time) } else { heading };
    let senses = (0..clause.len())
        .filter(|index| free(*index))
        .fold(timed, |all, index| all.and(clause[index].senses));
    let product_words: Vec<String> = products
        .iter()
        .flat_map(|product| match product {
            Product::Known { used, .. } => used.clone(),
            Product::Unknown { index } | Product::Several { index, .. } => vec![*index],
            Product::Unsaid => Vec::new(),
        })
        .filter_map(|index| clause.get(index).map(|token| token.text.clone()))
        .collect();
    let words = Words {
        clause,
        in_names: &in_names,
        in_moment: &moment.used,
        senses,
        names_trees: trees.names_some() && !trees.is_vague() || !trees.without.is_empty() || trees.is_vague(),
        has_product: !products.is_empty(),
        product_words: &product_words,
        amounts: &amounts,
        units: speech.context.garden.units,
    };
    let mut predicate = words.predicate();
    if let Some(Predicate::Moved(to)) = predicate {
        let (kept, carried) = housing::carried(speech, &range, to, trees.clone());
        (predicate, trees) = (Some(kept), carried);
    }
    let setting = mood::Setting {
        clause,
        senses,
        sentence: speech.tokens,
        names_trees: trees.names_some() && !trees.is_vague(),
        by_name: trees.names_one_by_name(),
        long_ago: moment.is_of_another_year(speech.now()),
        in_moment: &moment.used,
        in_names: &in_names,
        tree_before: speech.mentions.iter().any(|mention| mention.range.end <= range.start),
        year: speech.date().year(),
        month: speech.date().month(),
    };
    let (other_year, trial) = (setting.is_other_year(), setting.is_trial());
    let other_plant = setting.is_only_other_plant();
    let mut mood = setting.mood();
    // "6 off Peaches": the capital of a name, where a tree would stand.
    let off_a_name = other_plant.then(|| {
        (1..clause.len()).find(|at| {
            clause[*at].senses.has(Sense::Plant)
                && clause[at - 1].is_any(words!("off from"))
                && speech.text.get(clause[*at].span.clone()).is_some_and(|typed| {
                    typed.starts_with(char::is_uppercase) && typed.chars().any(char::is_lowercase)
                })
        })
    });
    if let Some(at) = off_a_name.flatten() {
        mood = Mood::Told;
        trees.unknown = Some(range.start + at..range.start + at + 1);
    }
    if mood == Mood::Told
        && let Some(predicate) = predicate
    {
        mood = moods::mood_of(speech, predicate, &words, &moment);
    }
    // "Still damp from Monday" is damp now, and tells no day of what was done.
    let from = moment
        .used
        .first()
        .is_some_and(|first| *first > 0 && clause[first - 1].is_any(words!("from after since")));
    let moment =
        if from && matches!(predicate, Some(Predicate::Moisture(_))) { Moment::default() } else { moment };
    let pronoun = clause.iter().any(|token| {
        token.is_any(words!(
            "it them its it's they those these they're their both she him she's shes he's hes"
        ))
    }) || is_her(clause);
    // "Planted Violette in the ground and gave it 2 gallons": where she stands are no trees meant.
    if predicate == Some(Predicate::Planted) && strangers::names_new(speech, clause).is_some() {
        trees = Trees::default();
    }
    Part {
        range,
        joint,
        marked,
        predicate,
        mood,
        other_year,
        other_plant,
        trial,
        trees,
        products,
        moment,
        amounts,
        senses,
        level: rust::level(clause),
        late_products: false,
        late_amounts: false,
        pronoun,
        says_any: clause.iter().any(|token| token.is("any")),
        everywhere: clause.iter().any(|token| token.is("anywhere")),
        one_fig: clause.iter().zip(&in_names).any(|(token, named)| token.is("fig") && !named)
            && clause.iter().any(|token| token.is_any(words!("a first last single another"))),
    }
}

/// "... and then watered her": not "her leaves".
fn is_her(clause: &[Token]) -> bool {
    clause.iter().enumerate().any(|(index, token)| {
        token.is("her")
            && clause.get(index + 1).is_none_or(|next| {
                next.is_mark()
                    || next.senses.has_any(&[Sense::Link, Sense::Time, Sense::Filler])
                    || next.is_any(words!("too also again a an one two three half some"))
                    || next.number.is_some()
            })
    })
}

impl Part {
    /// It tells a volume of water or spray.
    fn pours(&self) -> bool {
        self.amounts.iter().any(|measured| matches!(measured.amount, super::amounts::Amount::Volume(_)))
    }

    /// Its tokens outside the names of trees.
    fn free<'t>(&self, speech: &'t Speech) -> impl Iterator<Item = &'t Token> {
        let range = self.range.clone();
        range
            .filter(|index| !speech.mentions.iter().any(|mention| mention.range.contains(index)))
            .map(|index| &speech.tokens[index])
    }

    fn clause<'t>(&self, tokens: &'t [Token]) -> &'t [Token] {
        &tokens[self.range.clone()]
    }

    fn any(&self, tokens: &[Token], texts: WordList) -> bool {
        self.clause(tokens).iter().any(|token| token.is_any(texts))
    }

    fn pair(&self, tokens: &[Token], first: WordList, second: WordList) -> bool {
        mood::pair(self.clause(tokens), first, second)
    }

    fn names_trees(&self) -> bool {
        self.trees.names_some()
    }
}
