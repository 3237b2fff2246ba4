//! Figs picked, and figs that were not: birds', fallen, in the kitchen.

use super::predicate::{Predicate, WOOD, Words};
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::words;

impl Words<'_> {
    pub(super) fn picked(&self) -> Option<Predicate> {
        // "Took 3 cuttings off Celeste", "thinned 10 figs off Wall": no harvest.
        let wood =
            self.free().any(|token| token.is_any(WOOD)) && !self.any(words!("picked picking harvested"));
        // "Gave 5 figs from Wall to Bo": picked before.
        let given = self.any(words!("gave given")) && self.any(words!("to")) && !self.any(words!("me us"));
        let on_scale = self.names_trees && self.comes_to_more_than_a_pick();
        if wood || given || on_scale || self.any(words!("thinned thinning")) {
            return None;
        }
        let fig = self.has_any(&[Sense::Fig, Sense::Ripe]);
        let one = self.any(words!("fig")) && self.any(words!("a one single another first last"));
        let counted = self.counts() || self.weighs() || one && self.has(Sense::Took);
        let leaves = self.has(Sense::Leaf);
        // "Birds got the rest"
        let rest = self.clause.iter().any(|token| token.is_any(words!("rest others remaining")));
        let robbed = self.has(Sense::Creature) && rest && self.any(words!("got ate took stole had"));
        if robbed || self.is_picked_by_creatures() {
            return Some(Predicate::Nothing);
        }
        // "Squirrels got 6 off Wall"
        let thieves = self.clause.first().is_some_and(|first| {
            first.senses.has(Sense::Creature) && !first.is_any(words!("kid kids baby grandkids children"))
        });
        if thieves && counted && self.any(words!("got ate took stole had grabbed")) {
            return Some(Predicate::Nothing);
        }
        if self.is_fruit_lost() {
            return (fig && counted).then_some(Predicate::Nothing);
        }
        if self.picks() {
            // "Picked a bad day", "picked a fight"
            let chose = self.pair(words!("picked pick"), words!("a an the"))
                && !fig
                && !counted
                && !self.names_trees
                && !self.any(words!(
                    "few bunch handful bowl basket bucket lot ton tons load rest last first ones bag"
                ));
            if chose {
                return Some(Predicate::Nothing);
            }
            if self.pair(words!("pick"), words!("of"))
                || self.pair(words!("picked pick"), words!("out"))
                    && self.pair(words!("out"), words!("a an some my"))
            {
                return Some(Predicate::Nothing);
            }
            let up = self.pair(words!("picked pick picking"), words!("up on at"))
                && !fig
                // "Picked on Monday: Wall 12"
                && self.in_moment.is_empty();
            let of_trees = self.names_trees
                || counted
                || fig
                || self.clause.len() <= 4
                || self.has(Sense::Time)
                || self.pair(words!("off from"), words!("the my our"));
            let thing = self.has_any(&[Sense::Thing, Sense::Shop]) && !self.names_trees && !fig;
            // "Picked up a 15 gallon pot for Celeste at the store"
            let bought = up && self.any(words!("pot pots bag bags bottle jug store shop nursery"));
            // "Picked up some spinosad for the pots"
            let bought = bought
                || up
                    && (self.has_product
                        || self.pair(words!("up"), words!("some more another")) && !fig && !counted);
            if up && !self.names_trees || thing || bought {
                return Some(Predicate::Nothing);
            }
            return (!leaves && of_trees).then_some(Predicate::Picked);
        }
        let off = self.any(words!("off from"))
            || self.any(words!("out")) && !self.any(words!("put on"))
            || self.pair(words!("gave give yielded"), words!("me us"));
        let stays = self.any(words!("left has there have still are counted count there's"))
            || self.clause.iter().enumerate().any(|(index, token)| {
                token.is("on") && !self.in_names[index] && !self.in_moment.contains(&(index + 1))
            });
        // "Got 30 green figs left on Corner" hang there still.
        if fig && self.pair(words!("left still"), words!("on hanging left")) {
            return counted.then_some(Predicate::Nothing);
        }
        let took = self.has(Sense::Took) && !leaves && !self.pours();
        let last_few = self.any(words!("took")) && self.pair(words!("the"), words!("last"));
        // "9 off it today", of the tree spoken of
        let off_it = counted
            && self.pair(words!("off from"), words!("it him her"))
            && !leaves
            && !self.has(Sense::Rain);
        if self.is_pot_on_the_scale() {
            return None;
        }
        let told = off_it
            || took
                && counted
                && (last_few || fig || off || self.names_trees && self.weighs())
                && !self.has(Sense::Rain)
            || fig && counted && !leaves && (off || !stays)
            || off && counted && self.names_trees && !leaves && !self.has(Sense::Rain)
            || self.weighs()
                && self.names_trees
                && !self.has_any(&[Sense::Weighed, Sense::Wet, Sense::Moist, Sense::Dry, Sense::Watering]);
        // "Got some figs off Big One"
        let some = took
            && fig
            && off
            && self.names_trees
            && self.any(words!(
                "some few bunch handful bowl basket couple lots load more mess heap pile bag bucket"
            ));
        // "First fig off Corner today"
        // "Wall has given 6 figs"
        let bore = self.names_trees
            && (fig || self.weighs())
            && counted
            && !leaves
            && self.any(words!("given gave gives yielded produced bore"))
            && !self.pours()
            && !self.any(words!("i we"));
        let some = some || bore;
        let first = one && off && self.names_trees && !leaves;
        // "Got 3 Celeste 5 Big One": nothing else is got by number.
        let opens = self.clause.iter().find(|token| !token.is_any(words!("and plus i we , ")));
        let bare = took
            && opens.is_some_and(|first| first.senses.has(Sense::Took) || first.number.is_some())
            && counted
            && self.names_trees
            && self.free().all(|token| {
                token.is_mark()
                    || token.number.is_some()
                    || token.senses.has_any(&[Sense::Took, Sense::Filler, Sense::Time, Sense::Mine])
                    || token.is_any(words!("and plus"))
            });
        let told = told || some || first || bare;
        if !told && fig && counted && stays {
            return Some(Predicate::Nothing);
        }
        (told && !self.has_any(&[Sense::Rust, Sense::Spots])).then_some(Predicate::Picked)
    }

    /// "..., ate like 3 of them already", "... ate half of those": figs told of before.
    pub(super) fn of_those_told(&self) -> bool {
        self.clause.first().is_some_and(|first| first.is_any(words!("ate had kept lost")))
            && self.pair(words!("of"), words!("them em those"))
            && !self.names_trees
    }

    /// "The squirrels picked 10 figs": no harvest of ours. Children's is.
    fn is_picked_by_creatures(&self) -> bool {
        let verb = self.clause.iter().position(|token| token.senses.has(Sense::Picked));
        let before = verb.map_or(&[][..], |verb| &self.clause[..verb]);
        before.iter().any(|token| {
            token.senses.has(Sense::Creature) && !token.is_any(words!("kid kids baby grandkids children"))
        }) && !before.iter().any(|token| token.senses.has(Sense::Mine))
    }

    /// Figs that birds ate, that fell, that went into jam: none of a harvest off a tree.
    fn is_fruit_lost(&self) -> bool {
        let fruit = self.has_any(&[Sense::Fig, Sense::Ripe]);
        // "Picked 40 before the birds got them": they did not.
        let in_time = self.picks()
            && self
                .clause
                .iter()
                .position(|token| token.senses.has(Sense::Creature))
                .is_some_and(|at| self.clause[..at].iter().rev().take(2).any(|token| token.is("before")));
        let thieves = self.has(Sense::Creature)
            && self.any(words!("ate eaten got took stole pecked found"))
            && !in_time;
        let blown = fruit && self.any(words!("blew blown knocked")) && !self.picks();
        let fell = blown || fruit && self.has(Sense::Drop) && !self.picks() && !self.has(Sense::Leaf);
        // "Had four off Big One with my tea"
        let at_table = self.has(Sense::Took) && self.names_trees && self.any(words!("off from"));
        let kitchen = self.has_any(&[Sense::Thing, Sense::Froze]) && !self.picks() && !at_table
            || self.any(words!("sold made canned froze dried cooked baked bought")) && !self.picks();
        thieves || fell || fruit && kitchen
    }
}
