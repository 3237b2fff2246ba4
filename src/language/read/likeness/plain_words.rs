//! A message in the plain words of its kind: "corner is totally done, nothing left on it" as "Corner: picked out".
//!
//! Only what stands in the message is put there: its trees, its sprays, its day, its amounts, each as it was typed.
//! Where a tree, an amount or a day is left over, or one is missing, there are no plain words for it.

use crate::language::read::amounts::{Amount, Measured, amounts};
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::{Moment, moment, month, ordinal};
use crate::language::read::names::{Mention, Names, Product};
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::words;
use crate::language::read::{Context, now, spelling};
use crate::season::request::Selection;
use crate::season::selection::selected;

/// What stands in a message besides its words.
pub(super) struct Told<'a> {
    text: &'a str,
    pub(super) tokens: Vec<Token>,
    pub(super) mentions: Vec<Mention>,
    pub(super) moment: Moment,
    pub(super) amounts: Vec<Measured>,
    pub(super) sprays: Vec<Product>,
    pub(super) names: &'a Names,
    pub(super) context: &'a Context<'a>,
}

impl<'a> Told<'a> {
    pub(super) fn of(text: &'a str, names: &'a Names, context: &'a Context<'a>) -> Self {
        let mut tokens = tokens(text);
        spelling::mend(&mut tokens, names);
        let mentions = names.mentions(&tokens, text);
        let mut used: Vec<usize> = mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let sprays = names.products_in(&tokens, &used);
        let moment = moment(&tokens, &used, now(context));
        used.extend(&moment.used);
        let amounts = amounts(&tokens, &used, context.garden.units);
        Self { text, tokens, mentions, moment, amounts, sprays, names, context }
    }

    /// The message in the plain words of a kind, if it has what they need and nothing more.
    pub(super) fn as_kind(&self, kind: &str) -> Option<String> {
        match kind.split_once(' ') {
            Some(("ask", about)) => self.asked(about),
            Some(("correct", what)) => self.put_right(what),
            Some(("set", what)) => self.settled(what),
            _ => self.reported(kind),
        }
    }

    fn asked(&self, about: &str) -> Option<String> {
        let plain = match about {
            "ahead" => String::from("what is there to do?"),
            "season" => String::from("how is the season going?"),
            "help" => String::from("help"),
            "garden" => String::from("what do you know of the garden?"),
            "compare" if !self.compares() => return None,
            "compare" => String::from("do the pots fare worse than the ground?"),
            "why" => String::from("why?"),
            "frost" if self.has("tonight") => String::from("frost tonight?"),
            "frost" => String::from("any frost coming?"),
            "done" => self.done()?,
            "tree" => format!("how is {}?", self.trees()?),
            "water" if self.trees().is_none() => String::from("should I water?"),
            "water" => format!("should I water {}?", self.trees()?),
            "spray" => {
                let spray = self.one_spray()?.map_or_else(String::new, spaced);
                format!("should I spray{spray}{}?", self.led("on")?)
            }
            "picking" => match self.one_spray()? {
                Some(spray) => {
                    format!("how long after {spray} may I pick {}?", self.trees().unwrap_or_default())
                }
                None => format!("may {} be picked?", self.trees()?),
            },
            "product" => format!("what does the label of {} say?", self.one_spray()??),
            "mix" => match self.amounts.as_slice() {
                [] => format!("how much {} per gallon?", self.one_spray()??),
                [volume] if matches!(volume.amount, Amount::Volume(_) | Amount::Vessel(_)) => {
                    format!("how much {} for {}?", self.one_spray()??, self.typed(volume.from, volume.to))
                }
                _ => return None,
            },
            "together" => match self.sprays().as_deref() {
                Some([one, other]) => format!("can {one} and {other} be mixed?"),
                _ => return None,
            },
            _ => return None,
        };
        Some(plain)
    }

    /// "How are the ones in the ground?" asks of these alone.
    fn compares(&self) -> bool {
        let any = |list| self.tokens.iter().any(|token| token.is_any(list));
        any(words!("pot pots potted container containers tub tubs"))
            && any(words!("ground inground dirt soil earth"))
            || any(words!("better worse compare compared versus vs against than"))
    }

    /// "When did I last spray copper on Wall?"
    fn done(&self) -> Option<String> {
        let trees = self.trees();
        let spray = self.one_spray()?;
        let of = trees.clone().map_or_else(String::new, |trees| format!(" {trees}"));
        let has = |sense| self.tokens.iter().any(|token| token.senses.has(sense));
        Some(match spray {
            Some(spray) => format!("when did I last spray {spray}{}?", self.led("on")?),
            None if has(Sense::Spray) || has(Sense::Sprayed) => format!("when did I last spray{of}?"),
            None if has(Sense::Water) || has(Sense::Watered) => format!("when did I last water{of}?"),
            None if has(Sense::Pick) || has(Sense::Picked) => format!("when did I last pick{of}?"),
            None => match trees {
                Some(trees) => format!("what was done to {trees}?"),
                None => String::from("what was done?"),
            },
        })
    }

    fn reported(&self, kind: &str) -> Option<String> {
        if self.moment.impossible || self.moment.is_beyond(now(self.context)) || self.is_open_to_doubt(kind) {
            return None;
        }
        let when = self.when();
        let amount = || match self.amounts.as_slice() {
            [one] => Some(self.typed(self.with_sign(one.from), one.to)),
            _ => None,
        };
        let nothing_measured = self.nothing_measured();
        let unsprayed = self.sprays.is_empty();
        let of_tree = |plain: Option<String>| plain.filter(|_| unsprayed);
        match kind.split_once(' ').unwrap_or((kind, "")) {
            ("stage", stage) => {
                let trees = self.trees()?;
                // "Eave is starting to ripen, I saw two that are soft"
                let counted = self.amounts.iter().all(|told| {
                    matches!(
                        told.amount,
                        Amount::Count(_) | Amount::Leaves(_) | Amount::Other | Amount::Share(_)
                    )
                });
                of_tree(counted.then(|| format!("{trees}: {} {when}", stage.replace('_', " "))))
            }
            ("moisture", state) => {
                let trees = self.trees()?;
                of_tree(nothing_measured.then(|| format!("{trees}: {state} {when}")))
            }
            ("moved", to) => {
                let trees = self.trees()?;
                of_tree(nothing_measured.then(|| format!("moved {trees} {to} {when}")))
            }
            ("removed", "") => {
                let trees = self.trees()?;
                of_tree(nothing_measured.then(|| format!("removed {trees} {when}")))
            }
            ("leaf_drop", "") => {
                let trees = self.trees()?;
                let share = match self.amounts.as_slice() {
                    [] => String::new(),
                    [share] if matches!(share.amount, Amount::Share(_)) => amount()?.to_owned(),
                    _ => return None,
                };
                of_tree(Some(format!("{share} leaf drop on {trees} {when}")))
            }
            ("scouted", seen) => {
                let trees = self.trees()?;
                let seen = match (seen, self.amounts.as_slice()) {
                    ("none", []) => "no",
                    ("trace", []) => "a trace of",
                    ("trace", [few]) if matches!(few.amount, Amount::Leaves(_)) => "a trace of",
                    ("some", []) => "some",
                    ("heavy", []) => "heavy",
                    ("share", [share]) if matches!(share.amount, Amount::Share(_)) => amount()?,
                    _ => return None,
                };
                of_tree(Some(format!("{seen} rust on {trees} {} {when}", self.level())))
            }
            ("picked", "") => {
                let trees = self.trees()?;
                let picked: Vec<&str> = self
                    .amounts
                    .iter()
                    .filter(|told| matches!(told.amount, Amount::Count(_) | Amount::Mass(_)))
                    .map(|told| self.typed(told.from, told.to))
                    .collect();
                // "Birds got 6 on Celeste, I only got 3": two counts are of two pickers.
                let counts =
                    self.amounts.iter().filter(|told| matches!(told.amount, Amount::Count(_))).count();
                let all = picked.len() == self.amounts.len()
                    && picked.len() <= 2
                    && counts <= 1
                    && !picked.is_empty();
                of_tree(all.then(|| format!("picked {} off {trees} {when}", picked.join(", "))))
            }
            ("frost", "") => {
                let cold = match self.amounts.as_slice() {
                    [] => String::new(),
                    [cold] if matches!(cold.amount, Amount::Temperature(_) | Amount::Count(_)) => {
                        amount()?.to_owned()
                    }
                    _ => return None,
                };
                of_tree(Some(format!("frost {cold} {when}")))
            }
            ("rained", "") => {
                let depth = self.amounts.iter().all(|told| matches!(told.amount, Amount::Depth(_)));
                of_tree(depth.then(amount).flatten().map(|depth| format!("it rained {depth} {when}")))
            }
            ("watered", "") => {
                let trees = self.trees()?;
                let water = self
                    .amounts
                    .iter()
                    .all(|told| matches!(told.amount, Amount::Depth(_) | Amount::Volume(_)));
                let amount = if self.amounts.is_empty() { "" } else { amount()? };
                of_tree(water.then(|| format!("watered {trees} {amount} {when}")))
            }
            ("sprayed", "") => {
                let spray = self.one_spray()??;
                let volume = self.amounts.iter().all(|told| matches!(told.amount, Amount::Volume(_)));
                let amount = if self.amounts.is_empty() { "" } else { amount()? };
                volume
                    .then(|| format!("sprayed {spray}{} {amount} {when}", self.led("on").unwrap_or_default()))
            }
            ("weighed", "") => {
                let trees = self.trees()?;
                let mass = self.amounts.iter().all(|told| matches!(told.amount, Amount::Mass(_)));
                let state = if self.has("dry") { "dry" } else { "" };
                of_tree(
                    mass.then(amount).flatten().map(|mass| format!("{trees}: weighed {mass} {state} {when}")),
                )
            }
            _ => None,
        }
    }

    /// "Only Celeste not watered yet", "maybe Bo watered", "corner too, same", "should have done it yesterday, did it
    /// just now": what was done, or on which day, hangs on words the plain ones leave out.
    fn is_open_to_doubt(&self, kind: &str) -> bool {
        let work =
            ["watered", "sprayed", "picked", "moved", "removed", "planted", "weighed", "rained", "frost"]
                .iter()
                .any(|work| kind.starts_with(work));
        let counted = kind == "picked" && !self.amounts.is_empty();
        let hedged = self.tokens.iter().any(|token| {
            token.is_any(words!(
                "never none nothing n't without maybe perhaps might probably should would could forgot almost if unless"
            )) || token.text.ends_with("n't")
                // "Twenty one figs off Wall, no honey, the kettle is not on" has its count.
                || token.is_any(words!("no not")) && !counted
        });
        let named: Vec<usize> = self.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let measured = |at: usize| self.amounts.iter().any(|told| (told.from..told.to).contains(&at));
        let telling = (0..self.tokens.len()).any(|at| {
            self.tokens[at].is_word()
                && !named.contains(&at)
                && !self.moment.used.contains(&at)
                && !measured(at)
                && !self.tokens[at].is_any(words!("and too also same the a of n on off from for"))
        });
        let days = self.runs().len();
        work && hedged || !telling || days > 1
    }

    /// It gives no figure but "one" and such as are of nothing that is measured: "the other one", "three trees".
    pub(super) fn nothing_measured(&self) -> bool {
        self.amounts.iter().all(|told| {
            matches!(told.amount, Amount::Other)
                || self.tokens[told.from].is("one") && told.to == told.from + 1
        })
    }

    pub(super) fn names_a_tree(&self) -> bool {
        self.mentions.iter().any(|mention| mention.trees.names_one_by_name())
    }

    pub(super) fn has(&self, word: &str) -> bool {
        self.tokens.iter().any(|token| token.is(word))
    }

    pub(super) fn typed(&self, from: usize, to: usize) -> &str {
        match (self.tokens.get(from), to.checked_sub(1).and_then(|last| self.tokens.get(last))) {
            (Some(first), Some(last)) => self.text.get(first.span.start..last.span.end).unwrap_or(""),
            _ => "",
        }
    }

    /// Every tree it names, as typed; none if one of them is in doubt.
    fn trees(&self) -> Option<String> {
        let named: Vec<String> = self.mentions.iter().map(|mention| self.named(mention)).collect();
        let settled = !named.is_empty() && self.mentions.iter().all(is_settled);
        settled.then(|| named.join(" and "))
    }

    /// One tree by its nickname, others as typed.
    pub(super) fn named(&self, mention: &Mention) -> String {
        let one = self.selected(mention).filter(|_| mention.trees.is_one());
        let typed = self.typed(mention.range.start, mention.range.end);
        one.map_or_else(|| typed.trim_end_matches("'s").to_owned(), |one| one.join(", "))
    }

    /// " on Wall", nothing where no tree is named, and no words at all where one is in doubt.
    fn led(&self, by: &str) -> Option<String> {
        let named: Vec<&Mention> = self.mentions.iter().filter(|mention| !mention.trees.is_vague()).collect();
        if named.is_empty() {
            return Some(String::new());
        }
        self.trees().map(|trees| format!(" {by} {trees}"))
    }

    /// Every spray it names that the garden has; none where one is not among them.
    pub(super) fn sprays(&self) -> Option<Vec<String>> {
        self.sprays
            .iter()
            .map(|spray| match spray {
                Product::Known { name, .. } => Some(name.clone()),
                _ => None,
            })
            .collect()
    }

    /// Every spray it names, known or not, in its own words.
    pub(super) fn sprays_typed(&self) -> Vec<&str> {
        self.sprays
            .iter()
            .filter_map(|spray| match spray {
                Product::Known { used, .. } => Some(self.typed(*used.first()?, used.last()? + 1)),
                Product::Unknown { index } | Product::Several { index, .. } => {
                    Some(self.typed(*index, index + 1))
                }
                Product::Unsaid => None,
            })
            .collect()
    }

    /// The one spray it names, or that it names none.
    pub(super) fn one_spray(&self) -> Option<Option<String>> {
        match self.sprays()?.as_slice() {
            [] => Some(None),
            [one] => Some(Some(one.clone())),
            _ => None,
        }
    }

    /// "-2 C", "minus 2": from its sign on.
    fn with_sign(&self, from: usize) -> usize {
        let signed = from.checked_sub(1).is_some_and(|before| {
            self.tokens[before].is("minus") || self.tokens[before].is("-") && self.tokens[from].joined
        });
        from - usize::from(signed)
    }

    /// Where its day and hour stand: from and up to, but "not today".
    pub(super) fn runs(&self) -> Vec<(usize, usize)> {
        let mut used = self.moment.used.clone();
        used.sort_unstable();
        used.dedup();
        used.chunk_by(|one, next| one + 1 == *next)
            .filter_map(|run| Some((*run.first()?, run.last()? + 1)))
            .filter(|(from, _)| !from.checked_sub(1).is_some_and(|before| self.tokens[before].is("not")))
            .collect()
    }

    pub(super) fn when(&self) -> String {
        let typed: Vec<&str> = self.runs().iter().map(|(from, to)| self.typed(*from, *to)).collect();
        typed.join(" ")
    }

    /// "Nov 5", "the twentieth of november": a month and a day of it.
    pub(super) fn date(&self) -> Option<String> {
        let at = self.tokens.iter().position(|token| month(&token.text).is_some())?;
        let day = |at: usize| {
            self.tokens.get(at).is_some_and(|token| token.number.is_some() || ordinal(&token.text).is_some())
        };
        // "november 20", "november the 20th"
        let behind = (at + 1..at + 3).find(|at| day(*at));
        let before = (at.saturating_sub(2)..at).rev().find(|at| day(*at));
        let (from, to) = match (behind, before) {
            (Some(behind), _) => (at, behind + 1),
            (None, Some(before)) => (before, at + 1),
            (None, None) => return None,
        };
        let rest = self.tokens[..from].iter().chain(&self.tokens[to..]);
        rest.clone().all(|token| token.number.is_none()).then(|| self.typed(from, to).to_owned())
    }

    /// The words it writes with a capital, if they stand together: "we all call it Sticky Finger Patch".
    pub(super) fn name(&self) -> Option<&str> {
        let named: Vec<usize> = self.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let opens = |at: usize| at == 0 || self.tokens[at - 1].is_any(words!(". ! ?"));
        let capital = |at: usize| {
            let typed = self.typed(at, at + 1);
            typed.starts_with(char::is_uppercase) && typed != "I" && !named.contains(&at)
        };
        let number = |at: usize| self.tokens[at].number.is_some() && at > 0 && capital(at - 1);
        let named: Vec<usize> = (0..self.tokens.len())
            .filter(|at| capital(*at) && (!opens(*at) || *at > 0 && capital(at - 1)) || number(*at))
            .collect();
        let (first, last) = (*named.first()?, *named.last()?);
        let together = last - first + 1 == named.len();
        together.then(|| self.typed(first, last + 1))
    }

    /// The one Matrix address it gives.
    pub(super) fn address(&self) -> Option<&str> {
        let mut given = self
            .text
            .split_whitespace()
            .map(|word| word.trim_end_matches(['.', ',', '!', '?', ')', ';']).trim_start_matches('('))
            .filter(|word| word.starts_with('@') && word.contains(':'));
        given.next().filter(|_| given.next().is_none())
    }

    fn level(&self) -> &'static str {
        let any = |list| self.tokens.iter().any(|token| token.is_any(list));
        if any(words!("low lower lowest bottom")) {
            "low"
        } else if any(words!("upper top highest up")) {
            "upper"
        } else if any(words!("middle mid halfway")) {
            "middle"
        } else {
            ""
        }
    }

    pub(super) fn selected(&self, mention: &Mention) -> Option<Vec<String>> {
        let selection: Selection = self.names.selection(&mention.trees, &[])?;
        Some(selected(self.context.garden, &selection))
    }

    /// It names no tree but those of the last report.
    pub(super) fn is_of(&self, trees: &[String]) -> bool {
        self.mentions.iter().all(|mention| {
            mention.trees.is_vague()
                || self.selected(mention).is_some_and(|named| named.iter().all(|tree| trees.contains(tree)))
        })
    }
}

pub(super) fn is_settled(mention: &Mention) -> bool {
    let trees = &mention.trees;
    !trees.is_vague()
        && !trees.either
        && trees.unknown.is_none()
        && (trees.names_one_by_name() || trees.is_all())
}

fn spaced(word: String) -> String {
    format!(" {word}")
}
