//! A message of the first days of which every word is accounted for: "Two more in pots: Alma, 10 gallons, and Texas
//! Everbearing, 7 gallons", "ok tree number one is our Celeste, she lives in a 10 gallon pot on the porch".
//!
//! Pots, the ground, places, and what is said by the way are marked first; what is left over must be names. So a tree
//! may be told in any order and with any story, and a word that is none of these leaves the message to other readers.

mod clause;
mod frosts;
mod marks;
mod renames;
mod sprays;

use super::first_days::{Stand, is_being_set_up, is_of_neighbours, may_be_water, standing, tells_of_work};
use super::first_words;
use super::tables::settle;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::Names;
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::words;
use crate::language::read::{Context, doubt};
use crate::season::garden::same_name;
use crate::season::journal::What;
use crate::season::request::{
    DoubtKind, OpenQuestion, ProductDetails, Reading, Request, Setting, TreeDetails,
};

use self::clause::{Clause, Listed};

/// A tree as far as it was told.
struct Tree {
    name: String,
    /// "Lefty, it's a Hardy Chicago"
    cultivar: Option<String>,
    stand: Option<Stand>,
}

#[derive(Default)]
struct Told {
    trees: Vec<Tree>,
    products: Vec<ProductDetails>,
    settings: Vec<Setting>,
    /// "In ground:", "5 gal pots:": where those stand that follow.
    heading: Option<Stand>,
    /// Frost is spoken of, so that "last 5 March" is of it.
    of_frosts: bool,
    /// Of the tree told before this message.
    of_last: Option<Stand>,
    /// "I also have sulfur": a spray with no days told.
    had: bool,
    /// "A fig in a pot": what it is called was not said.
    nameless: Option<Option<Stand>>,
}

/// "Copper every 14 days, and sulfur every 7 with 1 day before harvest", whatever is known of the garden: each spray with
/// its own days, and nothing else.
pub(super) fn labels(text: &str) -> Option<Reading> {
    const MOST_WORDS: usize = 60;
    let days = ["every", "Every", "day", "week"].iter().any(|word| text.contains(word));
    if !days || text.contains(['?', '\n']) || text.split_whitespace().count() > MOST_WORDS {
        return None;
    }
    let told = tokens(text);
    let products = sprays::read(text, &told, None)?;
    let each = products.len() > 1
        && products.iter().all(|product| product.interval.is_some() || product.before_harvest.is_some());
    let again = (1..products.len())
        .any(|at| products[..at].iter().any(|other| same_name(&other.name, &products[at].name)));
    (each && !again).then(|| Reading {
        requests: products.into_iter().map(|product| Request::Set(Setting::Product(product))).collect(),
        ..Reading::default()
    })
}

pub(super) fn read(text: &str, context: &Context) -> Option<Reading> {
    const LONGEST: usize = 700;
    let first_days = is_being_set_up(context);
    // Most messages are neither of the first days nor of a new tree: told before they are cut into words.
    if !first_days && !may_announce_new(text) || text.len() > LONGEST || text.contains(['@', '$']) {
        return None;
    }
    // "Can you put Brown Turkey in too": an order
    let polite = ["can you ", "could you ", "would you ", "can u "].iter().find_map(|lead| {
        let head = text.get(..lead.len())?;
        let rest = &text[lead.len()..];
        let ordered = ["put ", "add ", "list ", "track ", "enter ", "please "]
            .iter()
            .any(|verb| rest.starts_with(verb));
        (head.eq_ignore_ascii_case(lead) && ordered).then_some(rest)
    });
    let text = polite.map_or(text, |rest| rest.trim_end_matches('?'));
    let told = tokens(text);
    if !first_days && !announces_new(&told) {
        return None;
    }
    if let Some(renamed) = renames::read(text, &told, context).filter(|_| first_days) {
        return Some(renamed);
    }
    // "May I just call the tree Auntie?"
    let asks_leave = told.first().is_some_and(|first| first.is_any(words!("may can could")))
        && told.iter().take(5).any(|token| token.is_any(words!("call name")));
    if text.contains('?') && !asks_leave {
        return None;
    }
    // "My neighbor gave me one" is ours now.
    let given = told.iter().any(|token| token.is_any(words!("gave give from brought dug")));
    if tells_of_work(&without_seeming(&told, given)) || is_of_neighbours(&told) && !given {
        return None;
    }
    let mut list = Told::default();
    for line in text.lines() {
        for sentence in sentences(behind_bullet(line)) {
            list.sentence(sentence, context)?;
        }
    }
    let reading = list.into_reading(text, context)?;
    let fits = if first_days {
        !may_be_water(&reading, &told, context)
    } else {
        is_of_new_trees(&reading, &told, text, context)
    };
    fits.then_some(reading)
}

/// Whether a word is in the text that tells of something new.
fn may_announce_new(text: &str) -> bool {
    const NEW: [&str; 5] = ["new", "another", "add", "adding", "bought"];
    text.split(|letter: char| !letter.is_alphabetic())
        .any(|word| NEW.iter().any(|new| word.eq_ignore_ascii_case(new)))
}

/// "Got a new one, call it Roux, 7 gal pot", when the first days are over.
fn announces_new(told: &[Token]) -> bool {
    let any = |list| told.iter().any(|token| token.is_any(list));
    any(words!("new another add adding bought"))
        && any(words!("call called named name it's its add adding one tree fig"))
}

/// Trees nobody knew, each with where it stands, and nothing else.
fn is_of_new_trees(reading: &Reading, told: &[Token], text: &str, context: &Context) -> bool {
    // A tree of the garden by its name; by its cultivar another of that kind may be meant.
    let names = Names::of(context.garden);
    let known = names.mentions(told, text).iter().any(|mention| {
        let span = told[mention.range.clone()].first().zip(told[mention.range.clone()].last());
        span.and_then(|(first, last)| text.get(first.span.start..last.span.end))
            .is_some_and(|typed| context.garden.tree(typed).is_some())
    });
    let sure = |name: &str| {
        name.starts_with(char::is_uppercase)
            || is_cultivar(name)
            || told.iter().any(|token| token.is_any(words!("call called named name")))
    };
    !known
        && !reading.requests.is_empty()
        && reading.doubts.is_empty()
        && reading.requests.iter().all(|request| {
            matches!(request, Request::Set(Setting::Tree(details))
                if details.potted.is_some() && context.garden.tree(&details.name).is_none() && sure(&details.name))
        })
}

/// "My wife always called it Bianca, so Bianca", where it was asked what a tree is called.
pub(in crate::language::read) fn named(
    text: &str,
    question: &OpenQuestion,
    context: &Context,
) -> Option<Reading> {
    const MOST_WORDS: usize = 24;
    let told = tokens(text);
    if told.len() > MOST_WORDS || text.contains('?') {
        return None;
    }
    let mut own = Told::default();
    for sentence in sentences(text) {
        let clauses = marks::clauses(sentence, &tokens(sentence), Listed::Alone, context)?;
        own.trees.extend(clauses.iter().flat_map(|clause| &clause.names).map(|name| Tree {
            name: name.clone(),
            cultivar: None,
            stand: None,
        }));
        own.heading = own.heading.or_else(|| clauses.iter().find_map(|clause| clause.stand));
    }
    own.trees.dedup_by(|one, other| one.name.eq_ignore_ascii_case(&other.name));
    let before = || {
        let mut asked = Told::default();
        for sentence in sentences(&question.text) {
            asked.sentence(sentence, context)?;
        }
        asked.nameless.flatten()
    };
    let stand = own.heading.or_else(before);
    let [tree] = own.trees.as_slice() else { return None };
    let mut reading = Reading::default();
    settle(standing(tree.name.clone(), stand), text, &mut reading);
    Some(reading)
}

/// Without what only sounds like work: "copper is sprayed every 10 days", "for the rust I use copper", and a neighbour
/// who gave the tree away.
fn without_seeming(told: &[Token], given: bool) -> Vec<Token> {
    let every = told.iter().any(|token| token.is_any(words!("every each")));
    let seems = |at: usize| {
        let passive = at > 0 && told[at - 1].is_any(words!("is be are gets")) && every;
        let against = told[at].senses.has(Sense::Rust)
            && told[at.saturating_sub(2)..at].iter().any(|token| token.is_any(words!("for against")));
        let giver = given
            && told[at].is_any(words!("neighbor neighbour neighbors neighbours neighbor's neighbour's"));
        let idle = told[at].is_any(words!("turned"))
            || told[at].is("did") && at > 0 && told[at - 1].is_any(words!("never not"));
        passive || against || giver || idle
    };
    told.iter().enumerate().filter(|(at, _)| !seems(*at)).map(|(_, token)| token.clone()).collect()
}

/// "- LSU Purple", "1) Celeste", "* Alma"
fn behind_bullet(line: &str) -> &str {
    let line = line.trim();
    let bare = line.trim_start_matches(['-', '*', '\u{2022}']).trim_start();
    let digits = bare.chars().take_while(char::is_ascii_digit).count();
    match bare.get(digits..) {
        Some(rest) if digits > 0 && rest.starts_with([')', '.']) => rest[1..].trim_start(),
        _ => bare,
    }
}

/// At full stops that end no "St." and no initial, and at exclamation marks and semicolons.
fn sentences(line: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, letter) in line.char_indices() {
        let behind = line.get(at + 1..).unwrap_or("");
        let ends = match letter {
            '!' | ';' | '?' => true,
            '.' => {
                let word = line[start..at].rsplit(' ').next().unwrap_or("");
                let short = word.len() <= 2 && word.starts_with(char::is_uppercase);
                (behind.is_empty() || behind.starts_with([' ', '.'])) && !short
            }
            _ => false,
        };
        if ends {
            found.push(line[start..at].trim());
            start = at + 1;
        }
    }
    found.push(line.get(start..).unwrap_or("").trim());
    found.retain(|sentence| sentence.chars().any(char::is_alphanumeric));
    found
}

impl Told {
    fn sentence(&mut self, text: &str, context: &Context) -> Option<()> {
        let told = tokens(text);
        let greets = told.len() <= 4
            && told.iter().all(|token| {
                token.is_mark()
                || token.is_any(words!(
                    "hello hi hey hiya good morning evening afternoon there everyone all sorry thanks ok okay"
                ))
            });
        if greets {
            return Some(());
        }
        // "Spray list", "trees:"
        let heads = told.len() <= 4
            && told.iter().all(|token| {
                token.is_mark()
                    || token.is_any(words!("my the our spray sprays spraying list program programme schedule products trees figs tree rest label here heres here's"))
            });
        if heads {
            return Some(());
        }
        // "Frost dates. First 28 November. Last 5 March."
        let of_frosts =
            self.of_frosts && told.first().is_some_and(|first| first.is_any(words!("first last")));
        let with_frost = of_frosts.then(|| tokens(&format!("frost {text}")));
        if told.len() <= 3
            && told.windows(2).any(|pair| pair[0].is("frost") && pair[1].is_any(words!("dates date")))
        {
            self.of_frosts = true;
            return Some(());
        }
        if let Some(frosts) = frosts::read(with_frost.as_ref().unwrap_or(&told), context) {
            self.of_frosts = true;
            self.settings.extend(frosts);
            return Some(());
        }
        if let Some(products) = sprays::read(text, &told, self.last_product(context)) {
            self.had |=
                told.iter().any(|token| token.is_any(words!("have got use using too also spray sprays")));
            for product in products {
                self.spray(product);
            }
            return Some(());
        }
        if let Some(setting) = first_words::setting(text, &told, context)
            .filter(|setting| !matches!(setting, Setting::Product(_) | Setting::Tree(_)))
            .filter(|_| !marks::tells_a_stand(&told))
        {
            self.settings.push(setting);
            return Some(());
        }
        let listed = if self.heading.is_some() { Listed::UnderHeading } else { Listed::Alone };
        let mut clauses = marks::clauses(text, &told, listed, context)?;
        self.set_aside_counted(&mut clauses, &told);
        self.trees(&clauses, context)
    }

    fn last_product<'a>(&'a self, context: &'a Context) -> Option<&'a str> {
        let just_said = || match &context.just_said()?.what {
            What::Setting(Setting::Product(last)) => Some(last.name.as_str()),
            _ => None,
        };
        self.products.last().map(|product| product.name.as_str()).or_else(just_said)
    }

    fn spray(&mut self, product: ProductDetails) {
        let same = |known: &&mut ProductDetails| known.name.eq_ignore_ascii_case(&product.name);
        match self.products.iter_mut().find(same) {
            Some(known) => {
                known.interval = known.interval.or(product.interval);
                known.before_harvest = known.before_harvest.or(product.before_harvest);
                known.most_applications = known.most_applications.or(product.most_applications);
            }
            None => self.products.push(product),
        }
    }

    /// "There are two Celestes as well, both in pots": what each of them is called was not said.
    fn set_aside_counted(&mut self, clauses: &mut [Clause], told: &[Token]) {
        const SEVERAL: std::ops::RangeInclusive<f64> = 2.0..=20.0;
        let counted = |name: &str| {
            let first = name.split_whitespace().next().unwrap_or_default().to_lowercase();
            name.ends_with('s')
                && told.windows(2).any(|pair| {
                    pair[1].is(&first)
                        && (told.iter().any(|token| token.is("both"))
                            && pair[0].is_any(words!("my our the of"))
                            || pair[0].number.is_some_and(|count| SEVERAL.contains(&count))
                            || pair[0].is_any(words!("two three four five six couple few some both")))
                })
        };
        let names: usize = clauses.iter().map(|clause| clause.names.len()).sum();
        let mut kinds = 0;
        for clause in clauses.iter_mut() {
            let before = clause.names.len();
            clause.names.retain(|name| !counted(name));
            kinds += before - clause.names.len();
        }
        if kinds > 0 && kinds == names {
            let stand = clauses.iter().find_map(|clause| clause.stand);
            self.nameless = self.nameless.or(Some(stand));
        }
    }

    /// Names and where they stand, clause by clause.
    fn trees(&mut self, clauses: &[Clause], context: &Context) -> Option<()> {
        let from = self.trees.len();
        let mut heading = self.heading;
        let of_a_tree = clauses.iter().any(|clause| clause.of_a_tree);
        for (at, clause) in clauses.iter().enumerate() {
            let names_follow = clauses[at + 1..].iter().any(|clause| !clause.names.is_empty());
            match (clause.stand, clause.names.as_slice()) {
                (None, [kind])
                    if clause.of_kind
                        && !clause.joins
                        && self
                            .trees
                            .last()
                            .is_some_and(|tree| tree.stand.is_none() && !is_cultivar(&tree.name)) =>
                {
                    if let Some(tree) = self.trees.last_mut() {
                        tree.cultivar = Some(kind.clone());
                    }
                }
                (None, names) => self.named(names),
                // "In ground: LSU Purple", "5 gal pots:"
                (Some(stand), []) if clause.heads || names_follow && self.trees.len() == from => {
                    heading = Some(stand);
                    if at + 1 == clauses.len() {
                        self.heading = heading;
                    }
                }
                (Some(stand), []) => {
                    let open = self.trees.iter().filter(|tree| tree.stand.is_none()).count();
                    let most = if clause.of_all || open > 1 && clause.joins { usize::MAX } else { 1 };
                    let mut given = 0;
                    for tree in self.trees.iter_mut().rev().filter(|tree| tree.stand.is_none()).take(most) {
                        tree.stand = Some(stand);
                        given += 1;
                    }
                    // "Two figs in the ground. Brown Turkey by the garage and ..."
                    if given == 0 && clause.of_several {
                        self.heading = Some(stand);
                        heading = Some(stand);
                        if of_a_tree {
                            self.nameless = self.nameless.or(Some(Some(stand)));
                        }
                    } else if given == 0 && of_a_tree && self.trees.len() == from {
                        self.nameless = Some(Some(stand));
                    } else if given == 0 {
                        self.of_last_told(stand, from, context)?;
                    }
                }
                (Some(stand), names) => {
                    if clause.of_all || clause.joins {
                        let open =
                            self.trees.iter_mut().skip(from).rev().take_while(|tree| tree.stand.is_none());
                        open.for_each(|tree| tree.stand = Some(stand));
                    }
                    self.named(names);
                    for tree in self.trees.iter_mut().filter(|tree| is_of(tree, names)) {
                        tree.stand = Some(stand);
                    }
                    if clause.leads {
                        heading = Some(stand);
                    }
                }
            }
        }
        let here: Vec<String> = clauses.iter().flat_map(|clause| clause.names.clone()).collect();
        for tree in self.trees.iter_mut().filter(|tree| tree.stand.is_none() && is_of(tree, &here)) {
            tree.stand = heading;
        }
        let silent = clauses.iter().all(|clause| clause.stand.is_none() && clause.names.is_empty());
        let had = clauses.iter().any(|clause| clause.is_had);
        if silent && of_a_tree && had && self.nameless.is_none() {
            self.nameless = Some(None);
        }
        // "Fairhope, Alabama" names no trees: one of them stands somewhere, or is said to be one.
        let sure = self.trees.iter().any(|tree| tree.stand.is_some() && is_of(tree, &here))
            || clauses.iter().any(|clause| clause.tells_of_tree);
        (sure || here.is_empty()).then_some(())
    }

    fn named(&mut self, names: &[String]) {
        for name in names {
            // "Which we call Waldo, and Waldo is in a ten gallon pot"
            self.trees.retain(|tree| tree.stand.is_some() || !tree.name.eq_ignore_ascii_case(name));
            self.trees.push(Tree { name: name.clone(), cultivar: None, stand: None });
        }
    }

    /// "That pot is 20 gallons, I believe": of the tree told last.
    fn of_last_told(&mut self, stand: Stand, from: usize, context: &Context) -> Option<()> {
        if let Some(tree) = self.trees.get_mut(..from).and_then(<[Tree]>::last_mut) {
            tree.stand = Some(stand);
            return Some(());
        }
        match &context.just_said()?.what {
            What::Setting(Setting::Tree(_)) => {
                self.of_last = Some(stand);
                Some(())
            }
            _ => None,
        }
    }

    fn into_reading(self, text: &str, context: &Context) -> Option<Reading> {
        let mut reading = Reading::default();
        // What only the first days take so is told with something of theirs; a setting alone is for the other readers.
        let of_first_days = !self.trees.is_empty()
            || self.of_last.is_some()
            || self.nameless.is_some()
            || self
                .products
                .iter()
                .any(|product| product.interval.or(product.before_harvest).is_some() || self.had)
            || self
                .settings
                .iter()
                .any(|setting| matches!(setting, Setting::FirstFrost { .. } | Setting::LastFrost { .. }));
        if !of_first_days {
            return None;
        }
        // "It's the Violette", told of the one without a name
        let mut nameless = self.nameless;
        for tree in self.trees {
            let stand = tree.stand.or_else(|| nameless.take().flatten());
            let tree = Tree { stand, ..tree };
            let known = context.garden.tree(&tree.name).map(|known| known.name.clone());
            // Named again, and nothing told of it.
            if known.is_some() && tree.stand.is_none() {
                return None;
            }
            let details = standing(known.unwrap_or(tree.name), tree.stand);
            settle(TreeDetails { cultivar: tree.cultivar, ..details }, text, &mut reading);
        }
        if nameless.is_some() && reading.requests.is_empty() {
            reading.doubts.push(doubt(DoubtKind::NamelessTree, text));
        }
        let last = context.last.map(|last| &last.what);
        if let (Some(stand), Some(What::Setting(Setting::Tree(last)))) = (self.of_last, last) {
            settle(standing(last.name.clone(), Some(stand)), text, &mut reading);
        }
        let products = self.products.into_iter().map(|details| Request::Set(Setting::Product(details)));
        reading.requests.extend(products);
        reading.requests.extend(self.settings.into_iter().map(Request::Set));
        (!reading.requests.is_empty() || !reading.doubts.is_empty()).then_some(reading)
    }
}

/// One of these names is its own.
fn is_of(tree: &Tree, names: &[String]) -> bool {
    names.iter().any(|name| name.eq_ignore_ascii_case(&tree.name))
}

fn is_cultivar(name: &str) -> bool {
    let words = tokens(name);
    super::cultivars::at(&words, 0) == Some(words.len())
}

/// What no sentence of the first days tells of.
fn is_of_something_else(token: &Token) -> bool {
    token.senses.has_any(&[
        Sense::Rust,
        Sense::Rain,
        Sense::Frost,
        Sense::Weighed,
        Sense::Picked,
        Sense::Sprayed,
        Sense::Watered,
        Sense::Copper,
        Sense::Sulfur,
        Sense::Oil,
        Sense::Dry,
        Sense::Wet,
        Sense::Ripe,
        Sense::Ripening,
    ])
}
