//! Work on a tree that is no spray, water or harvest: a new pot, its end, and what is kept in the grower's own words.

use super::predicate::{Predicate, Words};
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::words;

impl Words<'_> {
    /// "Repotted Whip", "moved Whip up to a 10 gallon pot"; but "the repotted Whip" is only called so.
    pub(super) fn repotted(&self) -> Option<Predicate> {
        let verb = self.clause.iter().enumerate().any(|(index, token)| {
            token.is_any(words!("planted repotted replanted transplanted"))
                && !(index > 0 && self.clause[index - 1].senses.has(Sense::Article))
        });
        let up = self.any(words!("moved"))
            && self.any(words!("up"))
            && (self.pours() || self.any(words!("size sizes")))
            || self.pair(words!("potted"), words!("up the my a"))
            || self.any(words!("moved upsized upgraded went"))
                && self.any(words!("pot container planter tub"));
        let spot = self.any(words!("spot corner side sun shade"));
        (verb || up && !spot).then_some(Predicate::Planted)
    }

    pub(super) fn removed(&self) -> Option<Predicate> {
        let cut = self.has_any(&[Sense::Leaf, Sense::Fig]) && !self.any(words!("fig"))
            || self.any(words!("branch branches suckers mulch weeds limb limbs"));
        if cut {
            return None;
        }
        let gone = self.has(Sense::Removed)
            && self
                .any(words!("died dead removed sold binned ditched tossed killed scrapped chucked culled"))
            || self.pair(words!("dug pulled threw gave ripped"), words!("up out away"))
            // "Pulled the Kadota out"
            || self.names_trees
                && self.clause.first().is_some_and(|first| {
                    first.is_any(words!("dug pulled ripped yanked i we finally"))
                })
                && self.any(words!("dug pulled ripped yanked"))
                && self.clause.last().is_some_and(|last| last.is_any(words!("out up")))
                && self.clause.len() <= 8
            // "Had to pull Whip out"
            || self.names_trees
                && self.pair(words!("had have got"), words!("to"))
                && self.any(words!("pull dig rip yank"))
                && self.clause.last().is_some_and(|last| last.is_any(words!("out up")))
                && self.clause.iter().any(|token| token.is("had"))
                && self.clause.len() <= 8
            || self.pair(words!("got get"), words!("rid"))
            || self.any(words!("dug pulled threw ripped"))
                && self.any(words!("out up away"))
                && self.any(words!("it"));
        let given = self.any(words!("gave given"))
            && self.any(words!("away"))
            && !self.pours()
            // "Gave most of it away": fruit.
            && !self.any(words!("most some half lot bag bowl figs of"));
        let lost = self.any(words!("lost"))
            && self.amounts.is_empty()
            && !self.clause.iter().any(|token| token.senses.has_any(&[Sense::Fig, Sense::Leaf]))
            && self.free().all(|token| {
                token.senses.has_any(&[
                    Sense::Drop,
                    Sense::Time,
                    Sense::Link,
                    Sense::Article,
                    Sense::Filler,
                    Sense::Mine,
                    Sense::Frost,
                ]) || token.is_any(words!("winter cold borers gophers finally poor little"))
            });
        let missing = self.any(words!("gone"))
            && self.clause.len() <= 4
            && !self.clause.iter().any(|token| token.senses.has_any(&[Sense::Fig, Sense::Leaf]));
        let gone = gone || given || lost || missing;
        // "Bob is dead" is of Bob; "dead wood" of wood.
        let prey = self.any(words!("killed")) && self.has(Sense::Creature);
        let wood = prey || self.any(words!("wood dead")) && self.any(words!("wood stick twig twigs tips"));
        let died = self.any(words!("died")) && self.clause.len() <= 2;
        // "Whip: dug out 7/9"
        let alone = self.clause.first().is_some_and(|first| first.is_any(words!("removed dug ripped")))
            && (0..self.clause.len())
                .filter(|at| !self.clause[*at].is_mark() && !self.in_moment.contains(at))
                .count()
                <= 2;
        let gone = gone || alone && self.any(words!("removed"));
        (gone && (self.names_trees || died || alone || self.any(words!("it"))) && !wood)
            .then_some(Predicate::Removed)
    }

    /// "Pruned Wall", "put netting on Celeste": no kind of its own, and worth keeping.
    pub(super) fn noted(&self) -> Option<Predicate> {
        let verb = self.any(words!(
            "pruned trimmed thinned fertilized fertilised fed mulched moved netted netting brought covered uncovered wrapped unwrapped staked tied weeded grafted pinched rotated shaded bagged composted raked limed root-pruned topdressed"
        ));
        // "Put the pots in the garage", "added mulch around Wall"
        let placed = self.any(words!("put added spread laid"))
            && self.any(words!("garage shed basement inside indoors cellar shade cloth mulch cover net netting straw burlap fleece"))
            && !self.pours();
        // "The pots are in the garage for the winter", "took the pots back out"
        let housed = self.has(Sense::Be)
            && self.any(words!("garage shed basement cellar indoors"))
            && self.any(words!("in inside indoors"))
            || self.any(words!("took taken carried rolled hauled dragged"))
                && self.any(words!("out outside in inside back"))
                && !self.has(Sense::Fig);
        let placed = placed || housed;
        // "Bottom leaves of Wall are covered" tells of rust.
        let leaves = self.has(Sense::Leaf) && self.any(words!("covered"));
        let verb = (verb || placed) && !leaves;
        // "Brought them all in the garage"
        let them = (housed
            || self.any(words!("brought moved carried"))
                && self.any(words!("garage shed basement cellar indoors inside")))
            && self.any(words!("them everything em"));
        let tree = (self.names_trees || them)
            && !self.has_any(&[Sense::Negation, Sense::Creature])
            && !self.pair(words!("covered"), words!("in with"));
        // "Brought in a bowl from Corner": figs.
        let bowl = self.any(words!("bowl basket bag colander bucketful handful bowlful"))
            && self.any(words!("from off"));
        if bowl {
            return None;
        }
        let looked = self.clause.first().is_some_and(|first| first.senses.has(Sense::Seen));
        (verb && tree && !looked).then_some(Predicate::Noted)
    }
}
