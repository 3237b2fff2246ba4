//! Where a tree stands in its year, as its leaves and figs tell.

use chrono::Datelike;

use super::Part;
use super::predicate::Words;
use crate::language::read::Speech;
use crate::language::read::amounts::Amount;
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::words;
use crate::season::journal::Stage;

impl Words<'_> {
    pub(super) fn stage(&self) -> Option<Stage> {
        let leaf = self.has(Sense::Leaf);
        let fig = self.has(Sense::Fig);
        let work = self.has_any(&[Sense::Sprayed, Sense::Spraying, Sense::Watered, Sense::Watering])
            || self.has_product;
        let of_trees = fig || self.names_trees || self.clause.len() <= 3;
        if work || self.has(Sense::Rust) || self.has(Sense::Soil) {
            return None;
        }
        if self.is_leafing_out(leaf) {
            return Some(Stage::LeafOut);
        }
        if self.is_picked_out(fig) {
            return Some(Stage::PickedOut);
        }
        // "The fruitlets have now begun to swell"
        let begun = self.has(Sense::Swell) && self.any(words!("begun began beginning started starting now"));
        if begun && !leaf && of_trees && !self.has(Sense::Negation) {
            return Some(Stage::Swelling);
        }
        // "Main crop showing on Corner", "brebas on Wall!"
        let crop = self.pair(words!("main"), words!("crop")) || self.any(words!("breba brebas"));
        let shows =
            self.any(words!("showing forming coming on appearing visible started starting begun here"));
        // Farther on than young fruit, or lost.
        let past = self.has_any(&[
            Sense::Ripe,
            Sense::Ripening,
            Sense::Swell,
            Sense::Drop,
            Sense::Negation,
            Sense::Creature,
        ]);
        if crop
            && shows
            && self.names_trees
            && !self.counts()
            && !self.picks()
            && !past
            && !self.has(Sense::Took)
        {
            return Some(Stage::Fruitlets);
        }
        if (self.has(Sense::Set)
            || self.any(words!("appeared appearing"))
            || fig && self.pair(words!("coming come came"), words!("out in on along")))
            && !self.picks()
            && self.is_setting(fig)
        {
            return Some(Stage::Fruitlets);
        }
        let bigger = self.pair(words!("to"), words!("size"))
            || fig && self.any(words!("doubled bigger fatter fatten fattened"))
            || fig && self.pair(words!("get gets getting got look looking so"), words!("fat plump big"));
        // "Found little green figs on Whip", "small fruits have come on Corner"
        let little = self.pair(
            words!("little small tiny baby mini wee bitty"),
            words!("green fig figs fruit fruits ones"),
        ) && fig
            && self.names_trees
            && !self.counts()
            && !self.picks()
            && !past
            && !leaf;
        if little {
            return Some(Stage::Fruitlets);
        }
        if (self.has(Sense::Swell) || bigger) && !leaf && of_trees {
            return Some(Stage::Swelling);
        }
        if self.is_ripening(fig, leaf) {
            return Some(Stage::Ripening);
        }
        let asleep =
            !self.has_any(&[Sense::Gave, Sense::Watered, Sense::Sprayed, Sense::Picked, Sense::Seen])
                && self.pair(words!("shut shutting gone going went"), words!("down sleep dormant"))
                || self.pair(words!("to"), words!("sleep"));
        // "Half asleep - did spray sulfur" is of whoever writes.
        let person = self.any(words!("asleep sleeping half")) && !self.any(words!("dormant dormancy"));
        if self.has(Sense::Dormant) && (!person || self.names_trees) || asleep && self.names_trees {
            return Some(Stage::Dormant);
        }
        // "Corner is dropping its leaves for the winter"
        if leaf
            && self.has(Sense::Drop)
            && self.any(words!("for"))
            && self.any(words!("winter season"))
            && !self.shares()
        {
            return Some(Stage::LeafFall);
        }
        // With a share it says how much has fallen.
        let falling = self.pair(words!("leaf leaves"), words!("fall"))
            && !self.any(words!("before after they down off"))
            && !self.shares()
            || self.any(words!("leaffall"))
            || leaf
                && self.any(words!("yellowing yellow turning"))
                && self.has(Sense::Drop)
                // "Dropped a few yellow leaves" is no fall.
                && !self.any(words!("few couple some one two three handful"))
                && !self.any(words!("off"))
            || leaf && self.any(words!("fall autumn")) && self.any(words!("color colors colour"));
        falling.then_some(Stage::LeafFall)
    }

    fn is_leafing_out(&self, leaf: bool) -> bool {
        // "4 leaves out of 30"
        if self.pair(words!("out"), words!("of")) {
            return false;
        }
        let bud = self.any(words!("bud buds"));
        let opening = self
            .any(words!("break broke breaking opening opened swelling bursting green popping out moving"));
        let leafing =
            self.has(Sense::LeafOut) && !bud || bud && opening || self.pair(words!("bud"), words!("break"));
        let leaves_out = leaf
            && (self.any(words!("pushing emerging unfolding opening unfurling emerged sprouting appearing"))
                || self.pair(words!("leaves leaf are is all now fully"), words!("out coming"))
                || self.pair(words!("first new"), words!("leaves leaf")) && !self.has(Sense::Spots))
            && !self.has_any(&[Sense::Drop, Sense::Spots, Sense::Clean])
            && !self.any(words!("dry curling off down"));
        let awake = self.pair(words!("waking woke"), words!("up"));
        let has = leaf
            && self.has(Sense::Have)
            && self.names_trees
            && self.clause.len() <= 4
            && !self.has_any(&[Sense::Spots, Sense::Drop, Sense::Clean, Sense::Negation]);
        let green = has || self.pair(words!("green"), words!("tips tip buds shoots"));
        leafing || green || leaves_out || awake && self.names_trees
    }

    fn is_picked_out(&self, fig: bool) -> bool {
        let chosen = self.pair(words!("out"), words!("a an some my the"));
        // The breba crop is over, the main one is to come.
        // So does jam made of "the last lot" say nothing of a tree.
        // "Spent my birthday money on a new fig"
        if self.any(words!("money dollars bucks")) {
            return false;
        }
        // Soft figs are ripe, and there.
        if self.pair(words!("gone going went"), words!("soft brown purple dark")) {
            return false;
        }
        if self.any(words!("breba brebas jam jams preserves pie pies canned dried")) {
            return false;
        }
        let verb = !chosen && self.pair(words!("picked stripped harvested"), words!("out clean"))
            || self.pair(words!("picked"), words!("bare"))
            || self.pair(words!("all"), words!("picked harvested"))
                && !self.counts()
                && (self.names_trees || fig);
        // "All figs are already picked"
        let verb = verb
            || self.any(words!("all"))
                && fig
                && self.pair(words!("are were been already now"), words!("picked harvested"))
                && !self.counts()
                && self.names_trees;
        let last = self.pair(words!("last"), words!("fig figs fruit ones"))
            || self.pair(words!("last rest"), words!("of")) && fig && (self.picks() || self.has(Sense::Took))
            || self.pair(words!("last"), words!("of")) && self.names_trees && self.clause.len() <= 7;
        let season = self.any(words!("season year bearing fruiting producing cropping ripening"));
        // "At war over these figs"
        let over_something = self.pair(
            words!("over through"),
            words!("the these those my our this that it them title who whose which"),
        );
        let over = self.has(Sense::Over)
            && !self.has(Sense::Creature)
            && !over_something
            // "The figs have gone soft"
            && !self.pair(words!("gone going went"), words!("soft brown purple dark"))
            && !self.pair(words!("looked look looking went go going gone checked been"), words!("over"))
            && (fig && !self.picks() || season && !self.has(Sense::Rain) || self.is_done_tree())
            && !self.has_product
            && !self.has(Sense::Leaf);
        let none_left = (fig || self.names_trees && self.pair(words!("nothing none"), words!("left")))
            && self.has(Sense::Negation)
            && self.any(words!("left remaining"));
        let no_more = none_left && !self.counts()
            || self.pair(words!("no any out"), words!("more of")) && fig && !self.counts()
            || self.pair(words!("no"), words!("have has"))
                && self.any(words!("more"))
                && fig
                && !self.counts()
            || self.pair(words!("no"), words!("figs fruit")) && self.any(words!("left remaining"))
            || fig && self.any(words!("gone")) && !self.has(Sense::Leaf);
        let counted = self.amount(|amount| matches!(amount, Amount::Count(count) if *count > 1.0));
        let off = (fig || self.clause.iter().any(|token| token.is("figs")))
            && self.clause.iter().any(|token| token.is("all"))
            && self.pair(words!("are"), words!("off picked gone"));
        verb || off || last && !counted || over || no_more
    }

    /// "Wall is done", "Celeste finished": a tree and nothing that was being done to it.
    fn is_done_tree(&self) -> bool {
        self.names_trees
            && self.any(words!("done finished"))
            // "Only got Wall done"
            && !self.any(words!("only got did halfway stop stopped"))
            // "Pots done!" is as likely watered.
            && (self.has_any(&[Sense::Be, Sense::Have])
                || !self.clause.iter().any(|token| token.senses.has_any(&[Sense::Pots, Sense::Ground, Sense::All])))
            && self.free().all(|token| {
                token.is_mark()
                    || token.senses.has_any(&[
                        Sense::Over,
                        Sense::Be,
                        Sense::Article,
                        Sense::Filler,
                        Sense::Have,
                    ])
                    || token.is_any(words!("already all about pretty much officially completely for too"))
            })
    }

    fn is_setting(&self, fig: bool) -> bool {
        let small =
            self.any(words!("figlets figlet fruitlets fruitlet pea peas marble marbles embryo embryos"));
        // "Baby just ate a whole fig"
        let child = self.pair(
            words!("baby"),
            words!("just ate is was fell slept woke napping naps asleep cried finally had got and boy girl"),
        );
        let forms = !child && self.any(words!("set setting sets forming formed form tiny baby mini"));
        // "The little figs on Corner have just appeared"
        let appeared = fig
            && (self.any(words!("appeared appearing showing visible popping popped"))
                || self.pair(words!("coming come came"), words!("out in on along")))
            && self.any(words!("little tiny small green new first"));
        appeared
            || small && (fig || self.names_trees || self.clause.len() <= 4)
            || forms && fig && !self.pair(words!("set"), words!("off up out"))
    }

    fn is_ripening(&self, fig: bool, leaf: bool) -> bool {
        let up = self
            .pair(words!("turn turns turning changing"), words!("color colour brown purple dark soft"))
            || self.pair(words!("color colour coloring colouring"), words!("up"))
            || self.pair(words!("to"), words!("color colour turn"));
        // "Wall: ripening"
        let bare = self.clause.len() <= 2 && self.any(words!("ripening"));
        let turning = self.has(Sense::Ripening)
            && (fig || self.names_trees || bare)
            && !leaf
            && (up
                || !self.any(words!("turning color colour soft hanging colored coloured"))
                || fig
                || self.any(words!("ripe ripening"))
                || self.any(words!("soft")) && self.any(words!("ones one")));
        let ripe = self.has(Sense::Ripe)
            && !self.picks()
            && !self.has_any(&[Sense::Took, Sense::Creature])
            && (!self.counts()
                || self.any(words!("on first one has have there are")) && !self.any(words!("off from")))
            && (fig || self.names_trees);
        let ready = self.any(words!("ready"))
            && (fig || self.pair(words!("ready to"), words!("pick eat")))
            && !self.counts();
        let hanging = (fig || self.any(words!("necks")))
            && self.any(words!("drooping droop hanging sagging nodding bending droopy"))
            && !leaf;
        (turning || hanging) && !self.picks() || ripe || ready && self.names_trees
    }
}

/// The months in which leaves fall of themselves, or it is said that they do.
pub(super) fn is_fall(speech: &Speech, part: &Part) -> bool {
    const NORTH: std::ops::RangeInclusive<u32> = 9..=12;
    const SOUTH: std::ops::RangeInclusive<u32> = 3..=7;
    let south = speech.context.garden.position.is_some_and(|position| position.latitude.value() < 0.0);
    let month = speech.date().month();
    // "Leaves fall from Corner" tells what they do, not when.
    let verb = part.pair(speech.tokens, words!("leaves leafs they"), words!("fall"));
    let told = !verb && part.any(speech.tokens, words!("fall"))
        || part.any(speech.tokens, words!("autumn season year winter leaffall color colour colors colours"));
    told || if south { SOUTH.contains(&month) } else { NORTH.contains(&month) }
}
