//! Pots carried in for the cold, and out again.

use std::ops::Range;

use super::predicate::{Predicate, Words};
use crate::language::read::Speech;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::{Mention, Trees, is_unknown};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::Tree;
use crate::season::journal::Whereabouts;
use crate::season::request::Selection;
use crate::season::selection::selected;

const CARRIED: WordList = words!(
    "wrestled heaved hefted entered drug kicked pulled moved brought took taken carried rolled hauled dragged wheeled lugged schlepped toted stored stashed stowed shifted tucked got put set"
);
/// Words that are as well an order, and that take what is to be done with a tree for their object.
const SHORT: WordList = words!("put set got");
const ROOMS: WordList = words!(
    "garage shed basement cellar house barn greenhouse sunroom sunporch attic mudroom laundry conservatory outbuilding workshop shop carport crawlspace hoophouse polytunnel storage"
);
const INDOORS: WordList = words!("inside indoors");
const OUTDOORS: WordList = words!("out outside outdoors");
const YARD: WordList = words!(
    "deck patio porch yard garden lawn driveway balcony terrace steps stoop backyard front sun spot place spots places home side"
);
/// Where a place stands behind the trees: no more of them.
const PLACED: WordList = words!("on onto to at by in into");

impl Words<'_> {
    /// "Moved the pots into the garage", "Celeste is inside", "pots are back out on the deck". Every word must be one of
    /// carrying, of a place, or of why and when: "moved Wall into the shade" and "put netting on the pots in the
    /// shed" are other work.
    pub(super) fn moved(&self) -> Option<Predicate> {
        // "Had Bo carry Eave indoors"
        // "I bring Whip inside the house already"
        let had_done = (self.clause.first().is_some_and(|first| first.is_any(words!("had got made helped")))
            || self.clause.first().is_some_and(|first| first.is_any(words!("i we")))
                && (self.any(words!("already just"))
                    || self.clause.iter().any(|token| token.is_any(words!("yesterday"))))
            // "I bring all the pots inside the garage, is cold"
            || self.clause.first().is_some_and(|first| first.is("i"))
                && self.clause.get(1).is_some_and(|verb| verb.is_any(words!("bring move carry take haul")))
                && self.pair(words!("the in into inside"), words!("garage shed house basement"))
                && !self.any(words!("always usually every each when if night winter"))
            // "Had to bring Eave inside"
            || self.pair(words!("had"), words!("to")))
            && self.any(words!("carry bring move take haul"));
        // "The pots came outside April 12"; but "went out to look at the pots".
        let went = self.names_trees
            && self.clause.iter().position(|token| token.is_any(words!("came went"))).is_some_and(|verb| {
                (0..verb).any(|before| self.in_names.get(before).copied().unwrap_or(false))
            });
        let carried = self.any(CARRIED) || had_done || went;
        let is = self.has(Sense::Be)
            || self
                .clause
                .iter()
                .any(|token| token.is_any(words!("they're theyre it's its she's shes he's hes")));
        let them = self.any(words!(
            "them him her everything em it they all they're theyre both it's its she's shes he's hes"
        ));
        // "Is Whip inside" asks.
        let asks = self.clause.first().is_some_and(|first| first.is_any(words!("is are was were")));
        // "Moved Whip inside because of the hail", "outdoors again, since they had been in the porch for repairs"
        let reason = self
            .clause
            .iter()
            .position(|token| token.is_any(words!("because cause cuz bc since")))
            // "Outdoors now that the wind has quit"
            .or_else(|| {
                self.clause.windows(2).position(|pair| {
                    pair[0].is("now") && pair[1].is("that")
                        || pair[0].is("after") && pair[1].is_any(words!("its his her their a"))
                })
            })
            .and_then(|at| self.clause.get(at));
        let told = |token: &&Token| reason.is_none_or(|reason| token.span.start < reason.span.start);
        if asks
            || !(self.names_trees || them)
            || !self
                .free()
                .filter(told)
                .all(|token| self.is_of_carrying(token) || went && token.is_any(words!("came went")))
        {
            return None;
        }
        // "Indoors, out of the wind"
        let sheltered = self.clause.windows(4).any(|four| {
            four[0].is("out")
                && four[1].is("of")
                && four[2].is("the")
                && four[3].is_any(words!("wind rain storm cold sun weather heat frost way hail"))
        });
        // "She is in the ground, by the well", "it is in a pot": where a tree grows.
        let grows = !carried
            && !self.any(ROOMS)
            && !self.any(INDOORS)
            && self.clause.iter().any(|token| token.is_any(words!("ground earth dirt soil pot")));
        if grows && self.clause.iter().any(|token| token.is("in")) {
            return None;
        }
        // "I have taken it out of its pot": it stays where it is, or is gone.
        let unpotted = self.clause.windows(4).any(|four| {
            four[0].is("out")
                && four[1].is("of")
                && four[2].is_any(words!("its his her their the"))
                && four[3].is_any(words!("pot pots container"))
        });
        if unpotted {
            return None;
        }
        // "Pulled Whip out" is no carrying.
        if self.any(words!("pulled")) && !(self.any(ROOMS) || self.any(INDOORS)) {
            return None;
        }
        // "It was in the sunroom since the hail": no longer.
        if self.any(words!("was were")) && !carried && !self.names_trees {
            return None;
        }
        let (rooms, inside, outside) = (self.any(ROOMS), self.any(INDOORS), self.any(OUTDOORS) && !sheltered);
        let (into, from) = (
            self.any(words!("in into to")),
            self.any(words!("from")) || self.pair(words!("out"), words!("of")),
        );
        // "Took the pots out of the garage"; but "Whip died, I took it out" is of no deck.
        let back = self.names_trees
            || is
            || self.any(words!("back again outside outdoors everything"))
            || self.any(YARD);
        let out = outside && !inside && (!rooms || from) && back;
        let indoors = !outside && (rooms && into && !from || inside || into && !rooms && !self.any(YARD));
        // "The figs are out" may be of fruit, and "put in" of planting.
        let told = carried && (rooms || inside || outside || !self.any(SHORT) && self.any(words!("in")))
            || is
                && !carried
                && (self.names_trees || rooms || inside || outside)
                && !self.has(Sense::Fig)
                && !self.clause.iter().any(is_fig)
            || self.names_trees && rooms && into && !is && !carried
            // "Eave out of the shed, outdoors now"
            || self.names_trees && rooms && from && outside && !is && !carried
            // "Pots outdoors since April 28"
            || self.names_trees && (inside || outside) && !is && !carried && self.any(words!("since"))
            // "Whip back outside"
            || self.names_trees && self.any(words!("back")) && (inside || outside) && !is && !carried;
        // "Put the pots in the garage tonight" is an order as well.
        let ordered = self.any(words!("put set"))
            && self.has(Sense::Time)
            && !self.any(PAST)
            && !self.pair(words!("i we bo"), words!("put set"))
            && !self.clause.iter().any(|token| crate::language::read::moments::month(&token.text).is_some());
        let to = match (indoors, out) {
            (true, false) => Whereabouts::Indoors,
            (false, true) => Whereabouts::Outdoors,
            _ => return None,
        };
        (told && !ordered).then_some(Predicate::Moved(to))
    }

    fn is_of_carrying(&self, token: &Token) -> bool {
        let first = self.clause.iter().find(|token| !token.is_mark());
        // "Bo brought the pots in"
        let carrier = first.is_some_and(|first| std::ptr::eq(first, token))
            && (is_unknown(token) || token.senses.has_any(&[Sense::Someone, Sense::Mine]))
            && self.clause.get(1).is_some_and(|verb| verb.is_any(CARRIED));
        let helper = self.clause.get(1).is_some_and(|who| std::ptr::eq(who, token))
            && (is_unknown(token) || token.senses.has_any(&[Sense::Someone, Sense::Mine]));
        carrier
            || helper && first.is_some_and(|first| first.is_any(words!("had got made helped")))
            || token.is_any(words!("carry bring move take haul made helped"))
            || self.in_moment.iter().any(|index| std::ptr::eq(&self.clause[*index], token))
            || token.is_mark()
            || token.number.is_none()
                && (token.senses.has_any(&[Sense::Article, Sense::Filler, Sense::Frost, Sense::Cold, Sense::Be])
                    || token.is_any(CARRIED)
                    || token.is_any(ROOMS)
                    || token.is_any(INDOORS)
                    || token.is_any(OUTDOORS)
                    || token.is_any(YARD)
                    || token.is_any(words!(
                        "in into to from of on onto back at my our i we i've we've ive have has been him her them everything em it they all they're theyre both she she's shes he's hes it's its and for before ahead there's theres coming comin wont winter season storm storms rain wind hail hurricane heat weather weekend last past after so very real really windy stormy rainy chilly freezing outa big night nights now again all up down through away safe safely finally just already until till spring way because strong bad much too out there stands street as account hours tree trees plant plants pot pots ones hail hailstorm"
                    )))
    }
}

const PAST: WordList = words!("yesterday last ago this earlier just already finally morning");

fn is_fig(token: &Token) -> bool {
    token.is_any(words!("fig figs"))
}

/// The trees carried, as "moved Celeste out to the deck" moves no others that stand there. What stands in the ground
/// is carried nowhere: that is kept as it was told.
pub(super) fn carried(
    speech: &Speech,
    range: &Range<usize>,
    to: Whereabouts,
    trees: Trees,
) -> (Predicate, Trees) {
    let inside = |mention: &&Mention| mention.range.start >= range.start && mention.range.end <= range.end;
    let placed = |mention: &&Mention| {
        let mut before = speech.tokens[range.start..mention.range.start].iter().rev();
        let link = before.find(|token| !token.senses.has_any(&[Sense::Article, Sense::Mine]));
        // "Brought in Celeste"
        let particle = before.next().is_some_and(|verb| verb.is_any(CARRIED));
        link.is_some_and(|link| link.is_any(PLACED)) && !particle
    };
    let (places, objects): (Vec<&Mention>, Vec<&Mention>) =
        speech.mentions.iter().filter(inside).partition(|mention| placed(mention));
    let named = objects.into_iter().map(|mention| mention.trees.clone()).reduce(Trees::together);
    // "It went back out on the deck": where, not which.
    let carried = named.unwrap_or(if places.is_empty() { trees } else { Trees::default() });
    let potted = speech.names.selection(&carried, &[]).is_none_or(|trees| stands_in_pots(speech, &trees));
    if potted { (Predicate::Moved(to), carried) } else { (Predicate::Noted, carried) }
}

fn stands_in_pots(speech: &Speech, trees: &Selection) -> bool {
    let garden = speech.context.garden;
    let potted = |name: &String| garden.tree(name).is_some_and(Tree::is_potted);
    match trees {
        Selection::Named(names) => names.iter().all(potted),
        trees => selected(garden, trees).iter().any(potted),
    }
}
