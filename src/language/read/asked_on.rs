//! "And Corner?", "what about neem?", "and for 1?": the question answered last, asked of something else.

use super::amounts::{Amount, amounts};
use super::lexicon::Sense;
use super::names::{Mention, Names, Product};
use super::tokens::{Token, tokens};
use super::word_list::words;
use super::{Context, spelling};
use crate::season::garden::UnitSystem;
use crate::season::request::{Question, Reading, Request, Selection};
use crate::units::Litres;

/// More words are a question of their own.
const MOST_WORDS: usize = 8;

/// What the short question names in place of what was asked before.
struct Instead {
    trees: Option<Selection>,
    product: Option<String>,
    volume: Option<Litres>,
    spellings: Vec<(String, String)>,
}

pub(super) fn read(text: &str, names: &Names, context: &Context) -> Option<Reading> {
    let asked = context.answered?;
    let mut tokens = tokens(text);
    if tokens.len() > MOST_WORDS || text.contains('\n') {
        return None;
    }
    spelling::mend(&mut tokens, names);
    let rest = &tokens[opening(&tokens, text)?..];
    let instead = Instead::of(rest, text, names, context)?;
    let question = instead.asked_of(asked)?;
    Some(Reading {
        requests: vec![Request::Ask(question)],
        spellings: instead.spellings,
        ..Reading::default()
    })
}

/// Where "and", "and what about", "same for" ends. "And 6 off Wall" goes on with a report, and asks nothing.
fn opening(tokens: &[Token], text: &str) -> Option<usize> {
    let polite = tokens
        .iter()
        .take_while(|token| {
            token.is_any(words!("ok okay and or so but then also ,")) || token.senses.has(Sense::Filler)
        })
        .count();
    let at = |index: usize| tokens.get(polite + index);
    let about = at(0).is_some_and(|word| word.is_any(words!("what how")))
        && at(1).is_some_and(|word| word.is("about"));
    if about {
        return Some(polite + 2);
    }
    // "Same question for Corner", "same for the pots"
    if at(0).is_some_and(|word| word.is("same")) {
        let question = usize::from(at(1).is_some_and(|word| word.is("question")));
        return at(1 + question)
            .filter(|word| word.is_any(words!("for of on with")))
            .map(|_| polite + 1 + question);
    }
    // "And Whip" alone asks as well, and so does "and Big One"; "and Whip 6" does not.
    let figure = |token: &Token| token.text.starts_with(|letter: char| letter.is_ascii_digit());
    let ends_asking =
        text.trim_end().ends_with('?') || !tokens.iter().any(|token| figure(token) || token.is_mark());
    let joined = tokens[..polite].iter().any(|token| token.is_any(words!("and or")));
    (ends_asking && joined).then_some(polite)
}

impl Instead {
    /// Nothing, if it says more than what to put in place.
    fn of(rest: &[Token], text: &str, names: &Names, context: &Context) -> Option<Self> {
        let mentions: Vec<Mention> = names.mentions(rest, text);
        let mut taken: Vec<usize> = mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let mut product = None;
        for told in names.products_in(rest, &taken) {
            match told {
                Product::Known { used, name, .. } => {
                    product = Some(name);
                    taken.extend(used);
                }
                Product::Unsaid => {}
                Product::Unknown { .. } | Product::Several { .. } => return None,
            }
        }
        let volume = volume(rest, &mut taken, context.garden.units);
        let only = rest.iter().enumerate().all(|(index, token)| {
            taken.contains(&index)
                || token.is_mark()
                || token.senses.has_any(&[Sense::Article, Sense::Filler, Sense::Unit])
                || token.is_any(words!("for on of with the my at in now today then too figs fig water only just one ones tree trees"))
        });
        let trees = mentions.first().map(|mention| {
            let together = mentions[1..]
                .iter()
                .fold(mention.trees.clone(), |all, next| all.together(next.trees.clone()));
            (names.selection(&together, &[]), together)
        });
        let (trees, spellings) = match trees {
            Some((selection, together))
                if !(together.is_vague() || together.either || together.unknown.is_some()) =>
            {
                (Some(selection?), together.spellings)
            }
            Some(_) => return None,
            None => (None, Vec::new()),
        };
        let names_something = trees.is_some() || product.is_some() || volume.is_some();
        (only && names_something).then_some(Self { trees, product, volume, spellings })
    }

    /// Nothing, where the question has no place for what is named.
    fn asked_of(&self, asked: &Question) -> Option<Question> {
        let trees = |before: &Selection| self.trees.clone().unwrap_or_else(|| before.clone());
        let product = |before: &Option<String>| self.product.clone().or_else(|| before.clone());
        let nothing_but_trees = self.product.is_none() && self.volume.is_none();
        let dry = self.volume.is_none();
        match asked {
            Question::Spray { product: with, trees: of } if dry => {
                Some(Question::Spray { product: product(with), trees: trees(of) })
            }
            Question::Picking { product: with, trees: of } if dry => {
                Some(Question::Picking { product: product(with), trees: trees(of) })
            }
            Question::Water { .. } if nothing_but_trees => {
                Some(Question::Water { trees: self.trees.clone()? })
            }
            Question::Tree { .. } if nothing_but_trees => Some(Question::Tree { trees: self.trees.clone()? }),
            Question::Done { deed, .. } if nothing_but_trees => {
                Some(Question::Done { trees: self.trees.clone()?, deed: *deed })
            }
            Question::Mix { product: with, volume } if self.trees.is_none() => {
                Some(Question::Mix { product: product(with), volume: self.volume.or(*volume) })
            }
            Question::Product { .. } if self.trees.is_none() && dry => {
                Some(Question::Product { product: Some(self.product.clone()?) })
            }
            _ => None,
        }
    }
}

/// "And for 1?" is of the unit tanks are filled by here.
fn volume(rest: &[Token], taken: &mut Vec<usize>, units: UnitSystem) -> Option<Litres> {
    let measured = amounts(rest, taken, units).into_iter().find_map(|measured| match measured.amount {
        Amount::Volume(volume) => Some((volume, measured.from..measured.to)),
        Amount::Count(count) => {
            let one = match units {
                UnitSystem::Metric => Litres::new(1.0),
                UnitSystem::Us => Litres::from_gallons(1.0),
            };
            Some((Litres::new(count * one.value()), measured.from..measured.to))
        }
        _ => None,
    });
    let (volume, range) = measured?;
    taken.extend(range);
    Some(volume)
}
