//! What a clause says was seen or done.

use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::lexicon::{Sense, Senses};
use crate::language::read::mood::pair;
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::UnitSystem;
use crate::season::journal::{MoistureState, Stage, Whereabouts};
use crate::units::Kilograms;

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Predicate {
    Scouted,
    Clean,
    LeafDrop,
    Sprayed,
    Watered,
    Moisture(MoistureState),
    Weighed,
    Rained,
    Stage(Stage),
    Picked,
    Frost,
    Planted,
    Removed,
    Moved(Whereabouts),
    /// Other work on a tree, kept in the grower's own words.
    Noted,
    /// Words of the garden that report nothing.
    Nothing,
}

/// How a verb stands: told as done, or in a form that may be an order or a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    Done,
    /// "Watering the pots".
    Going,
    /// "Water the pots".
    Base,
}

/// More than this at once off one tree is a pot on a scale.
const HEAVY_PICK: Kilograms = Kilograms::new(8.0);

/// What is taken off a tree and is no fruit.
pub(super) const WOOD: WordList = words!(
    "cutting cuttings scion scions branch branches limb limbs sucker suckers shoot shoots twig twigs stem stems"
);

impl Predicate {
    /// "picked 9 off the big one, 4 off Celeste": the verb serves both.
    pub(super) fn repeats(self) -> bool {
        matches!(
            self,
            Predicate::Picked
                | Predicate::Scouted
                | Predicate::Clean
                | Predicate::LeafDrop
                | Predicate::Watered
                | Predicate::Weighed
                | Predicate::Sprayed
        )
    }

    /// Said of the trees of the clause before, where it names none.
    pub(super) fn inherits_trees(self) -> bool {
        matches!(
            self,
            Predicate::Scouted
                | Predicate::Clean
                | Predicate::LeafDrop
                | Predicate::Moisture(_)
                | Predicate::Stage(_)
                | Predicate::Weighed
        )
    }

    /// Work that is done to trees, and so can be planned, ordered or left undone.
    pub(super) fn is_work(self) -> bool {
        matches!(
            self,
            Predicate::Sprayed
                | Predicate::Watered
                | Predicate::Picked
                | Predicate::Planted
                | Predicate::Removed
                | Predicate::Moved(_)
                | Predicate::Noted
                | Predicate::Weighed
        )
    }

    /// "Didn't spray", "haven't picked": said not to have happened. "No rust" is seen, and is a report.
    pub(super) fn is_denied(self, words: &Words) -> bool {
        let negated = words.has(Sense::Negation);
        match self {
            Predicate::Scouted | Predicate::Clean | Predicate::Rained | Predicate::Nothing => false,
            // "Corner is dormant now, no leaves left"
            Predicate::Stage(Stage::Dormant) => words.any(words!("not isn't isnt aren't yet never")),
            Predicate::Stage(Stage::PickedOut) => words.any(words!("not isn't isnt aren't yet haven't")),
            Predicate::Stage(_) | Predicate::Frost | Predicate::LeafDrop => negated,
            Predicate::Moisture(_) => words.any(words!("isn't isnt aren't arent wasn't never")),
            _ => negated && !words.any(words!("zero without")) || words.any(words!("unable")),
        }
    }
}

/// A clause as the rules below look at it.
pub(super) struct Words<'a> {
    pub(super) clause: &'a [Token],
    /// Which of the clause's tokens are part of a tree's name: a tree called "Rusty" has no rust.
    pub(super) in_names: &'a [bool],
    /// Places of the clause's words of when.
    pub(super) in_moment: &'a [usize],
    pub(super) senses: Senses,
    pub(super) names_trees: bool,
    pub(super) has_product: bool,
    /// The words that named it.
    pub(super) product_words: &'a [String],
    pub(super) amounts: &'a [Measured],
    pub(super) units: UnitSystem,
}

impl Words<'_> {
    pub(super) fn has(&self, sense: Sense) -> bool {
        self.senses.has(sense)
    }

    pub(super) fn has_any(&self, senses: &[Sense]) -> bool {
        self.senses.has_any(senses)
    }

    pub(super) fn any(&self, texts: WordList) -> bool {
        self.free().any(|token| token.is_any(texts))
    }

    pub(super) fn free(&self) -> impl Iterator<Item = &Token> {
        self.clause.iter().zip(self.in_names).filter(|(_, named)| !**named).map(|(token, _)| token)
    }

    pub(super) fn pair(&self, first: WordList, second: WordList) -> bool {
        pair(self.clause, first, second)
    }

    pub(super) fn amount(&self, fits: impl Fn(&Amount) -> bool) -> bool {
        self.amounts.iter().any(|measured| fits(&measured.amount))
    }

    pub(super) fn counts(&self) -> bool {
        self.amount(|amount| matches!(amount, Amount::Count(_)))
    }

    pub(super) fn weighs(&self) -> bool {
        self.amount(|amount| matches!(amount, Amount::Mass(_)))
    }

    pub(super) fn pours(&self) -> bool {
        self.amount(|amount| matches!(amount, Amount::Volume(_)))
    }

    pub(super) fn shares(&self) -> bool {
        self.amount(|amount| matches!(amount, Amount::Share(_) | Amount::Impossible))
            || self.amount(|amount| matches!(amount, Amount::Count(part) if *part > 0.0 && *part < 1.0))
    }

    /// A harvest's verb in the clause.
    pub(super) fn picks(&self) -> bool {
        self.has_any(&[Sense::Picked, Sense::Pick, Sense::Picking])
            || self.has(Sense::Harvest) && (self.counts() || self.weighs())
    }

    pub(super) fn predicate(&self) -> Option<Predicate> {
        // First, as it takes nothing but a clause made of its own words: "the pots are in for the frost" is of no frost.
        self.of_those_told()
            .then_some(Predicate::Nothing)
            .or_else(|| self.moved())
            .or_else(|| self.stage().map(Predicate::Stage))
            .or_else(|| self.sprayed())
            .or_else(|| self.repotted())
            .or_else(|| self.weighed())
            .or_else(|| self.rained())
            .or_else(|| self.picked())
            .or_else(|| self.frost())
            .or_else(|| self.leaf_drop())
            .or_else(|| self.rust())
            .or_else(|| self.watered())
            .or_else(|| self.removed())
            .or_else(|| self.moisture())
            .or_else(|| self.clean())
            .or_else(|| self.sprayed_by_product())
            .or_else(|| self.noted())
    }

    /// How the verb of work stands.
    pub(super) fn form(&self, predicate: Predicate) -> Form {
        let (done, going, base): (&[Sense], &[Sense], &[Sense]) = match predicate {
            Predicate::Sprayed => (
                &[Sense::Sprayed, Sense::Applied, Sense::Gave],
                &[Sense::Spraying, Sense::Applying],
                &[Sense::Spray, Sense::Apply],
            ),
            Predicate::Watered => (&[Sense::Watered, Sense::Gave], &[Sense::Watering], &[Sense::Water]),
            Predicate::Picked => {
                (&[Sense::Picked, Sense::Took, Sense::Harvest], &[Sense::Picking], &[Sense::Pick])
            }
            _ => return Form::Done,
        };
        let first = self.clause.iter().find(|token| !token.is_mark() && !token.senses.has(Sense::Filler));
        if self.clause.len() == 1 {
            // "Irrigation: ..."
            return Form::Done;
        }
        let ordered = first.is_some_and(|first| first.senses.has_any(base) && !first.senses.has_any(done));
        // "Bo is doing the watering"
        let doing = self.any(words!("doing"))
            && !self.clause.iter().any(|token| token.senses.has_any(done) && !token.is("doing"));
        if doing {
            return Form::Going;
        }
        if (self.has(Sense::Finished) || self.has_any(done)) && !ordered {
            return Form::Done;
        }
        if self.has_any(going) {
            return Form::Going;
        }
        // "a copper spray", "second spray on Wall": a thing, not an order.
        let noun = self.clause.iter().enumerate().any(|(index, token)| {
            token.senses.has_any(base)
                && index > 0
                && (self.clause[index - 1].senses.has_any(&[
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                    Sense::Article,
                ]) || self.clause[index - 1].is_any(words!(
                    "first second third fourth last another good light full heavy nice big deep slow long quick thorough of"
                )) || self.clause[index - 1].number.is_some()
                    || self.clause[index - 1].senses.has(Sense::Unit))
                || token.senses.has_any(base)
                    && (self.clause.get(index + 1).is_some_and(|next| next.is_any(words!("of : was")))
                        // "Water today was ...", "today's water: ..."
                        || self.clause.get(index + 2).is_some_and(|next| next.is("was"))
                            && self.clause[index + 1].senses.has(Sense::Time)
                        || index > 0 && self.clause[index - 1].is_any(words!("today's todays yesterday's yesterdays")))
        });
        // "Copper spray - Celeste, Eave": the heading's verb stands in the heading.
        let own = self.clause.iter().any(|token| token.senses.has_any(base));
        if own && !noun { Form::Base } else { Form::Done }
    }

    fn sprayed(&self) -> Option<Predicate> {
        let verb = self.has_any(&[Sense::Sprayed, Sense::Spraying, Sense::Spray]);
        let for_rust = self.pair(words!("for against"), words!("rust"));
        // "Put some captan on Wall": a spray nobody told of.
        let stuff = self.any(words!("stuff")) && self.any(words!("used put")) && !self.has(Sense::Drink);
        // "Hit Corner with zzz"
        let with =
            self.clause.windows(2).any(|pair| pair[0].is_any(words!("with using")) && is_unknown(&pair[1]))
                && self.any(words!("hit treated dosed blasted coated"));
        // "Captan on Wall, 1 gal."
        let opens = self.names_trees
            && self.clause.first().is_some_and(|first| {
                first.is_any(words!(
                    "captan spinosad mancozeb chlorothalonil malathion permethrin pyrethrin carbaryl"
                ))
            })
            && self.clause.get(1).is_some_and(|next| next.is_any(words!("on onto for")));
        if opens {
            return Some(Predicate::Sprayed);
        }
        let nameless = (with || stuff || self.has(Sense::Fungicide)) && self.names_trees;
        let given = (self.has_product || for_rust || nameless)
            && (with
                || self.has_any(&[Sense::Applied, Sense::Apply, Sense::Applying, Sense::Gave])
                || self.any(words!("sprinkled made make coat covered touched fumigated processed"))
                || self.any(words!("threw thrown tossed passed pass")) && !self.any(words!("out away"))
                || self.pair(words!("went"), words!("over")))
            && (for_rust || !self.has(Sense::Rust))
            // "Had a good look under the leaves for rust"
            && !(for_rust && self.any(words!("look looked looking check checked checking hunted searched")));
        // "Used a half gallon of mix on Wall"
        let mixed = self.pair(words!("of"), words!("mix solution spray")) && self.names_trees && self.pours();
        let treated = mixed
            || self.any(words!(
                "treated dosed misted dusted applied treating spritzed fogged fumigated processed"
            )) && !self.has(Sense::Drink);
        // "Rain washed off my spray"
        if self.any(words!("washed wash washes"))
            && self.has(Sense::Rain)
            && !self.has(Sense::Sprayed)
            && !self.amount(|amount| matches!(amount, Amount::Depth(_)))
        {
            return Some(Predicate::Nothing);
        }
        // "Gave it a sulfur dip": a dog.
        if self.any(words!("dip bath shampoo rinse")) && !verb && !self.names_trees {
            return None;
        }
        let stock = self.any(words!("threw throw thrown tossed")) && self.any(words!("out away"))
            || self.pair(words!("got get"), words!("rid"))
            || self.pair(words!("out low"), words!("of on"))
            || self.any(words!("left"));
        // "One gallon covered Wall and Corner"
        let covered =
            self.any(words!("covered")) && self.pours() && self.names_trees && !self.has(Sense::Drink);
        let verb = verb || covered;
        if !(verb || given || treated) || (self.has(Sense::Shop) || stock) && !verb {
            return None;
        }
        // "Husband bought a sulphur spray at the hardware place"
        if self.any(words!("bought buy buying purchased ordered")) && !self.has(Sense::Sprayed) {
            return Some(Predicate::Nothing);
        }
        let paint = self.pair(words!("spray"), words!("paint painted can"));
        let weeds = self.has(Sense::OtherProduct)
            && !self.has(Sense::AnyProduct)
            && !self.has_any(&[Sense::Fig, Sense::Tree])
            && !self.names_trees
            // "Watered Eave and sprayed it with soap"
            && !self.any(words!("it her him them they both"))
            && !self.has_product;
        if paint || weeds {
            return Some(Predicate::Nothing);
        }
        // "copper on my shirt", "sprayed the ants", "hosed with water"
        let elsewhere = self.has_any(&[Sense::Thing, Sense::Creature]) && !self.names_trees;
        let water =
            !self.has_product && (self.pair(words!("with of"), words!("water")) || self.any(words!("hose")));
        // "Sprayed myself with sanitizer"
        let oneself =
            !self.names_trees && !self.has_product && self.any(words!("myself himself herself ourselves"));
        Some(if elsewhere || water || oneself { Predicate::Nothing } else { Predicate::Sprayed })
    }

    /// "copper pots 7am": a product, where or when, and no other word that could be a verb.
    fn sprayed_by_product(&self) -> Option<Predicate> {
        let placed = self.names_trees || self.has(Sense::Time);
        let timeless = self
            .clause
            .iter()
            .enumerate()
            .filter(|(index, _)| !self.in_names[*index] && !self.in_moment.contains(index));
        let bare = timeless.map(|(_, token)| token).all(|token| {
            token.is_mark()
                || token.number.is_some()
                || token.senses.has_any(&[
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                    Sense::AnyProduct,
                    Sense::Link,
                    Sense::Article,
                    Sense::Time,
                    Sense::Filler,
                    Sense::Unit,
                    Sense::Apply,
                    Sense::Leaf,
                ])
                || token.is_any(words!(
                    "after before shift work school church supper dinner lunch about dark dusk dawn sundown sunset sunup of them all mix again and only just app pass go full light heavy too as well dose hydroxide ones one trees figs complete completed finished done first second third fourth another application"
                ))
                || self.is_of_product(token)
        });
        // "Copper on the deck about 7" is when.
        let hour = self.clause.windows(2).any(|pair| {
            pair[0].is("about")
                && (pair[1].number.is_some()
                    || pair[1].is_any(words!("dark dusk dawn sundown sunset sunup noon dinner supper lunch")))
        });
        let about = self.any(words!("for vs or like")) || self.any(words!("about")) && !hour;
        (self.has_product && placed && bare && !about).then_some(Predicate::Sprayed)
    }

    fn is_of_product(&self, token: &Token) -> bool {
        self.product_words.contains(&token.text)
    }

    fn weighed(&self) -> Option<Predicate> {
        // "Neem on Eave for the scale" is of insects.
        let insects = self.has_product && self.pair(words!("the for of some"), words!("scale"));
        let scale = self.has(Sense::Weighed) && !insects;
        let state = self.has_any(&[Sense::Wet, Sense::Dry]) && self.names_trees;
        let fruit = self.picks()
            || self.has(Sense::Fig)
            || self.pair(words!("off"), words!("of the"))
            || self.any(words!("haul bowl basket colander kitchen harvest crop take"));
        // "46 lb right after watering"
        let state = state || self.names_trees && self.has(Sense::Watering);
        let nothing = self.pair(words!("weighs weighed weighing"), words!("nothing"));
        let felt = self.any(words!("feel felt lifted heft hefted")) && !self.weighs();
        // "Class 3 on the rust scale"
        let felt = felt || self.amount(|amount| matches!(amount, Amount::Class(_)));
        // "He got 31 pounds for Celeste's pot"
        if self.is_pot_on_the_scale() {
            return Some(Predicate::Weighed);
        }
        let scale = scale && !felt || self.comes_to_more_than_a_pick();
        (!fruit && !nothing && (scale && (self.weighs() || self.names_trees) || self.weighs() && state))
            .then_some(Predicate::Weighed)
    }

    /// "He got 31 pounds for Celeste's pot", "Celeste's pot: 31 lb": no figs off it.
    pub(super) fn is_pot_on_the_scale(&self) -> bool {
        // "Celeste is down to 32 lb": no tree in a pot bears so much.
        let heavy = self.amount(|amount| matches!(amount, Amount::Mass(mass) if *mass >= HEAVY_PICK))
            && (self.has(Sense::Be) || self.pair(words!("down up"), words!("to")));
        let pot = heavy
            || self.clause.windows(2).any(|pair| {
                pair[0].text.ends_with("'s") && pair[1].is_any(words!("pot container tub"))
                    || pair[0].is_any(words!("pot container")) && pair[1].is("of")
            });
        pot && self.names_trees
            && self.weighs()
            && !self.picks()
            && !self.has(Sense::Fig)
            && !self.any(words!("off from out gave given took"))
    }

    /// "Celeste came to 92 pounds": no tree in a pot bears so much.
    pub(super) fn comes_to_more_than_a_pick(&self) -> bool {
        self.amount(|amount| matches!(amount, Amount::Mass(mass) if *mass >= HEAVY_PICK))
            && self.pair(words!("came comes"), words!("to in"))
    }

    fn leaf_drop(&self) -> Option<Predicate> {
        // "Has finally stopped dropping leaves"
        if self.pair(words!("stopped stop quit ceased"), words!("dropping losing shedding")) {
            return Some(Predicate::Nothing);
        }
        let leaf = self.has(Sense::Leaf);
        let drop = self.has(Sense::Drop);
        // "The leaves are starting to fall"
        let begins = leaf
            && self.pair(words!("starting started beginning begun"), words!("to"))
            && self.pair(words!("to"), words!("fall"));
        let fall = begins
            // "Corner throws down leaves"
            || leaf && self.pair(words!("throws throwing threw"), words!("down off leaves its"))
            || self.pair(words!("leaf leaves"), words!("fall")) && self.shares()
            || leaf && self.pair(words!("they"), words!("fall falls"))
            // "Corner dumped maybe a fifth of its leaves"
            || leaf && self.any(words!("dumped dumping ditched")) && (self.shares() || self.pair(words!("its her his the"), words!("leaves leafs")))
            // "A third of the leaves have come off Eave"
            || leaf && self.pair(words!("come came coming"), words!("off"));
        let bare = self.has(Sense::Bare)
            && !self.any(words!("hands feet root rooted minimum"))
            && (self.names_trees || leaf || self.clause.len() <= 1);
        let tidied = self.any(words!("raked swept bagged burned cleaned rake cleanup picked"));
        let percent = self.amount(|amount| matches!(amount, Amount::Share(_)));
        let of_trees = self.names_trees || self.any(words!("lost")) && percent;
        let lost = drop && self.shares() && of_trees && !self.has(Sense::Fig);
        let loss =
            leaf && self.any(words!("loss defoliation")) || self.any(words!("defoliation")) && self.shares();
        let fruit = self.has(Sense::Fig) && !leaf;
        // "Wall's lower half is yellow and dropping"
        let yellow = self.names_trees
            && !fruit
            && self.any(words!("yellow yellowing"))
            && self.any(words!("dropping falling shedding dropped"));
        // "Maybe a third gone", of leaves spoken of before.
        let third = self.any(words!("gone"))
            && self.shares()
            && self.clause.len() <= 6
            && !self.has_any(&[Sense::Fig, Sense::Time]);
        // "Took those leaves off", "pulled a few yellow leaves": by hand, and none fell.
        let by_hand =
            leaf && self.any(words!(
                "took pulled pulling pulls tearing removed stripped cut plucked pinched snipped clipped"
            )) && !self.any(words!("wind hail storm deer"))
                && !self.shares();
        if by_hand {
            return Some(Predicate::Nothing);
        }
        if tidied && leaf && drop {
            return Some(Predicate::Nothing);
        }
        let grounded = self
            .clause
            .windows(3)
            .any(|three| three[0].is("on") && three[1].is("the") && three[2].is_any(words!("ground floor")));
        let low = self.pair(words!("down"), words!("low below lower"));
        let gone = self.pair(words!("fall falls"), words!("off from down"))
            || self.pair(words!("are is all came come coming now leaves raining"), words!("off gone down"))
                && !low;
        let off = leaf && (gone || grounded) && !tidied;
        let kept = leaf
            && self.shares()
            && (self.pair(words!("down"), words!("to")) || self.any(words!("left remaining remain")));
        ((leaf && drop && !fruit) || yellow || third || fall || kept || off || bare || lost || loss)
            .then_some(Predicate::LeafDrop)
    }

    fn rust(&self) -> Option<Predicate> {
        let class = self.amount(|amount| matches!(amount, Amount::Class(_)));
        let of_leaves = self.amount(|amount| matches!(amount, Amount::LeavesOf { .. }))
            && (self.has_any(&[Sense::Leaf, Sense::Spots]) || self.names_trees);
        let seen_creature = self.any(words!("spotted"))
            && (self.has(Sense::Creature)
                || self.pair(words!("spotted"), words!("a an the my"))
                    && !self.has(Sense::Leaf)
                    && !self.names_trees);
        let looks = self.has(Sense::Spots)
            && (self.has(Sense::Leaf)
                || self.names_trees
                || self.has_any(&[Sense::Lower, Sense::Upper, Sense::Negation])
                || self.clause.len() <= 4)
            && !(self.has(Sense::Fig) && !self.has(Sense::Leaf) && !self.names_trees)
            && !self.has_any(&[Sense::Thing]);
        if (seen_creature || self.has(Sense::Creature))
            && !self.has(Sense::Rust)
            && self.has(Sense::Spots)
            && !self.has(Sense::Leaf)
        {
            return Some(Predicate::Nothing);
        }
        // "Celeste has maybe 5% on the lower leaves"
        let share = self.names_trees
            && self.has(Sense::Leaf)
            && self.shares()
            && !self.has_any(&[Sense::Drop, Sense::Picked]);
        if share {
            return Some(Predicate::Scouted);
        }
        let hardware = self.any(words!("feet stand handle rim tray saucer caddy casters heater bracket"))
            && !self.has(Sense::Leaf);
        let hue = hardware || self.pair(words!("rust"), words!("colored coloured color colour red brown"));
        if self.has(Sense::Rust) && (hue || self.any(words!("programming language code compiler belt"))) {
            return Some(Predicate::Nothing);
        }
        // "Stop telling me about rust", "I don't care about rust"
        let spoken_of =
            self.pair(words!("about"), words!("rust")) || self.pair(words!("rust"), words!("season"));
        if (spoken_of || self.any(words!("hate love hates"))) && !self.names_trees {
            return Some(Predicate::Nothing);
        }
        // "Rust never sleeps"
        if self.any(words!("never")) && !self.names_trees && !self.has_any(&[Sense::Seen, Sense::Have]) {
            return None;
        }
        // "Bottom leaves of Wall are covered"
        let covered = self.has_any(&[Sense::Leaf])
            && self.names_trees
            && self.pair(words!("are is"), words!("covered"));
        (self.has(Sense::Rust) || class || of_leaves || looks || covered).then_some(Predicate::Scouted)
    }

    fn clean(&self) -> Option<Predicate> {
        // "..., clean" behind the names it is said of.
        let alone = self.clause.len() <= 3;
        let leaf = self.has(Sense::Leaf);
        // "... and they are perfectly clean"
        let they = self.pair(words!("they it she all both"), words!("are is look looks were"))
            || self.pair(words!("found saw left"), words!("it her him them"))
            || self.any(words!("they're it's she's"));
        let about = self.names_trees || leaf || alone || they && self.clause.len() <= 6;
        let bare = self.clause.first().is_some_and(|first| first.is_any(words!("nothing none")))
            && self.pair(words!("on the"), words!("the leaves"));
        let nothing =
            leaf && (self.names_trees || bare) && self.any(words!("nothing none")) && !self.has(Sense::Drop);
        // "Not a mark on it"
        let unmarked = self.has(Sense::Negation)
            && self.pair(words!("a single any"), words!("mark marks blemish thing"))
            && self.pair(words!("mark marks blemish thing"), words!("on"));
        let praised = leaf && self.any(words!("good great perfect lovely beautiful fine nice gorgeous"));
        let top = self.pair(words!("up"), words!("top high above"));
        let tidy = !top && self.any(words!("up"))
            || self.any(words!("cleaned out sky skies weather"))
            || self.has_any(&[Sense::Thing, Sense::Gauge]);
        (nothing
            || unmarked
            || (self.has(Sense::Clean) && about && !tidy)
            || praised && !self.any(words!("spots")) && !self.has(Sense::Thing))
        .then_some(Predicate::Clean)
    }
}
