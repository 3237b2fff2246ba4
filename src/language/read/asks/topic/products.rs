//! Questions of a product: how much to mix, with what, how much of it is used, what its label says.

use super::Words;
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::lexicon::Sense;
use crate::language::read::names::Product;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::Active;
use crate::season::request::{Deed, Question};

impl Words<'_> {
    /// "Can I mix sulfur and oil?", "is neem ok with sulfur?": of a pair it is asked whether, never how much.
    pub(super) fn together(&self) -> Option<Question> {
        let partners = self.speech.names.partners(self.tokens);
        let [one, other, ..] = partners.as_slice() else { return None };
        let mixing = self.any(words!(
            "mix mixed mixing mixes mixable combine combined combining combination together tank tankmix compatible blend blended"
        ));
        // "In the one can", "in the same sprayer"
        let mixing = mixing
            || self.pair(words!("one same single"), words!("can tank sprayer jug bucket go batch pass time"));
        // "How long after neem can I use sulfur?" and "neem or sulfur?" set one against the other.
        let joined = self.tokens.windows(2).any(|pair| {
            pair[0].is_any(words!("and with & + plus w w/"))
                && self.speech.names.product(&pair[1..]) != Product::Unsaid
        });
        let may = self.any(words!("can could may ok okay safe alright fine bad hurt harm burn"));
        let burn = |one: Option<Active>, other: Option<Active>| {
            (one, other) == (Some(Active::Sulfur), Some(Active::Oil))
        };
        let burn = burn(one.active, other.active) || burn(other.active, one.active);
        let told = self.any(words!("did when last since after before between"));
        (mixing || joined && !told && (may || burn))
            .then(|| Question::Together { one: one.clone(), other: other.clone() })
    }

    pub(super) fn mix(&self) -> Option<Question> {
        // "How many days do I wait after the neem?" mixes nothing.
        let time = self.pair(words!("many"), words!("days day weeks hours times sprays"))
            || self.pair(words!("much"), words!("longer time"));
        let how_much =
            self.pair(words!("how"), words!("much many")) && !time || self.any(words!("quantity amount"));
        let told = self.any(words!("did used have")) && !self.any(words!("should do"));
        if told {
            return None;
        }
        let mixing = self.any(words!("strong mix mixing rate dose dosage dilute dilution strength measure tablespoons teaspoons tbsp tsp tablespoon teaspoon ounces grams spoons spoonfuls capfuls scoops oz ratio concentration")) && !self.any(words!("soil potting"));
        let vessel =
            amounts(self.tokens, &[], self.speech.context.garden.units).into_iter().find_map(|measured| {
                if let Amount::Volume(volume) = measured.amount { Some(volume) } else { None }
            });
        let tank = vessel.is_some() || self.any(words!("gallon litre liter sprayer tank bucket"));
        let asked = mixing
            && (how_much || self.is_of_product() || self.any(words!("what what's whats mix ratio")))
            || how_much && self.is_of_product()
            || how_much && self.is_of_spraying() && tank && !self.has(Sense::Drink)
            || self.is_of_product() && vessel.is_some() && !self.any(words!("spray should"));
        asked.then(|| Question::Mix { product: self.product(), volume: vessel })
    }

    /// "Is it safe to eat off Corner?", "how many days after the neem can I pick?": of waits, not of ripeness.
    pub(super) fn picking(&self) -> Option<Question> {
        const FRUIT: WordList = words!("eat eaten eating pick picked harvest harvested pluck gather collect");
        // "Ok to eat", "can I pick", "before I can eat one", "need wait for pick"
        let may = self
            .pair(words!("to i we can you they kids anyone them it for be for and safely still u"), FRUIT)
            || self.pair(words!("off from"), words!("eat")) && self.any(words!("can may"));
        let interval = self.pair(
            words!("harvest preharvest pre-harvest picking"),
            words!("interval wait waiting period phi"),
        );
        let sprayed = self.is_of_product() || self.is_of_spraying();
        // "How many days after the copper must I wait before picking?"
        let interval = interval
            || sprayed
                && self.pair(
                    words!("before til till until for"),
                    words!("picking harvest harvesting eating pick"),
                );
        // "How long between sulfur and picking?"
        let interval = interval
            || sprayed
                && self.any(words!("between"))
                && self.pair(words!("and"), words!("picking harvest harvesting eating"));
        let interval = interval
            || sprayed
                && self.any(words!("days long wait elapse"))
                && self.any(words!("after"))
                && self.any(words!("before until"))
                && self.any(FRUIT);
        let waits = self.pair(words!("how"), words!("long many soon"))
            || self.any(words!("wait until till soon"))
            || self.pair(words!("leave"), words!("them it him her"));
        let safe = self.any(words!("safe safely ok okay clear poison poisonous"));
        // "Is it ok to use neem this close to harvest?" asks whether to spray.
        // "How many days after a spray can I pick Corner?"
        let after_spray =
            sprayed && self.any(words!("after")) && self.any(words!("days long soon")) && self.any(FRUIT);
        // "May I still eat off Wall if I put copper on it?"
        let first_eats =
            self.tokens.iter().take(4).any(|token| token.is_any(FRUIT)) && self.any(words!("if"));
        let to_spray = !first_eats
            && self.pair(words!("to i we can should use"), words!("use spray apply put treat do"))
            || self.any(words!("close before")) && self.any(words!("use spray apply"));
        let counted = self.pair(words!("how"), words!("many much"))
            && !self.pair(words!("many"), words!("days day weeks hours"))
            && (self.any(words!("figs fruit lb lbs pounds did"))
                || self.any(words!("have")) && !self.pair(words!("have"), words!("to i")));
        // "When can I eat from Corner after the copper?"
        let asked = interval || may && (sprayed || safe || waits && self.any(words!("before leave safe")));
        // "I was hoping to pick from Eave tomorrow, would that be safe after the neem?"
        let of_plan = sprayed
            && safe
            && self.any(words!("after"))
            && self.any(words!("that it"))
            && self.speech.text.to_lowercase().contains("pick");
        // "Can I eat the figs now?"
        let eat = self.pair(words!("i we you kids they already now"), words!("eat"))
            && self.any(words!("can may could"))
            && (self.has(Sense::Fig) || sprayed);
        // "When can we pick from Wall?", "is it too soon to pick Kadota?", "can i eat the ones on corner yet"
        let starts =
            self.pair(words!("start starting begin begins"), words!("picking eating harvesting pick"));
        // "Are the figs on Wall ready?", "is Celeste ready for picking?"
        let ready = self.any(words!("ready"))
            && (self.pair(words!("for to"), FRUIT)
                || self.has(Sense::Fig)
                    && self.tokens.last().is_some_and(|last| last.is_any(words!("ready yet now"))));
        // "How long til I can eat off Corner?", "how soon can I get to picking the ones by the wall?"
        let waits_to = self.pair(words!("how"), words!("soon long"))
            && self.any(words!("can may"))
            && self.any(FRUIT)
            && !self.any(words!("did been since"));
        let of_trees = (may || starts || ready || waits_to)
            && self.trees.is_some()
            && self.any(words!("when can may could soon early time ready good already yet late"))
            && !self.any(words!("should why did have spray water"))
            && (waits_to || !self.any(words!("how")));
        // "Which trees am I allowed to pick from?"
        let of_trees = of_trees
            || self.any(words!("which"))
                && self.any(words!("allowed can may"))
                && self.any(FRUIT)
                && !self.has(Sense::Rust);
        let asked = asked || of_plan || eat || of_trees;
        // "Ok to pick in the rain?", "when do I pick leaves off?"
        let of_weather = self.has(Sense::Rain) && !sprayed;
        ((asked && !to_spray || after_spray)
            && !counted
            && !of_weather
            && !self.any(words!("leaves leaf foliage")))
        .then(|| Question::Picking { product: self.product(), trees: self.selection() })
    }

    /// The one kind of work asked after.
    pub(super) fn deed(&self) -> Option<Deed> {
        let kinds = [
            (Deed::Spray, self.is_of_spraying() || self.is_of_product()),
            (Deed::Water, self.senses.has_any(&[Sense::Watered, Sense::Water, Sense::Watering])),
            (Deed::Pick, self.senses.has_any(&[Sense::Picked, Sense::Pick, Sense::Picking, Sense::Harvest])),
            (Deed::Look, self.any(words!("scout scouted look looked check checked inspect inspected"))),
        ];
        let mut asked = kinds.iter().filter(|(_, asked)| *asked).map(|(deed, _)| *deed);
        let only = asked.next();
        only.filter(|_| asked.next().is_none())
    }

    /// "Tell me about sulfur", "neem, what is it for?", "what's known about copper": of the spray itself, not of spraying.
    pub(super) fn what_it_is(&self) -> Option<Question> {
        const MOST_WORDS: usize = 12;
        const NAMED: &[Sense] = &[Sense::Copper, Sense::Sulfur, Sense::Oil];
        let about = self
            .speech
            .tokens
            .iter()
            .any(|token| token.is_any(words!("tell know known info information facts more")))
            && self.speech.tokens.windows(2).any(|pair| {
                let named = |token: &Token| {
                    token.senses.has_any(NAMED)
                        || self.speech.names.product(std::slice::from_ref(token)) != Product::Unsaid
                };
                pair[0].is_any(words!("about concerning regarding on"))
                    && (named(&pair[1]) || pair[1].is_any(words!("the my this that it")))
            });
        // "Whats copper do again"
        let does = self
            .tokens
            .windows(2)
            .any(|pair| pair[0].senses.has_any(NAMED) && pair[1].is_any(words!("do does")));
        let what = self.any(words!("what what's whats wat")) && does
            || self.any(words!("what what's whats wat"))
                && (self.pair(words!("for"), words!("anyway exactly again please pls"))
                    || self.tokens.iter().rev().find(|token| !token.is_mark()).is_some_and(|last| {
                        last.is_any(words!("for do exactly anyway")) || last.senses.has_any(NAMED)
                    }))
                && (self.pair(words!("what even exactly"), words!("is does do are"))
                    || self.any(words!("what's whats")));
        // "Could you tell me something about copper and how it ought to be used?"
        let told = about
            && self.speech.tokens.iter().any(|token| token.is("tell"))
            && self.is_of_product()
            && self.trees.is_none()
            && !self.any(words!("i we when mix last left rain weather label rate ratio dose"));
        if told && !self.is_of_spraying() {
            return Some(Question::Product { product: self.product() });
        }
        let asked = (about || what)
            && self.is_of_product()
            && self.trees.is_none()
            && self.tokens.len() <= MOST_WORDS
            && !self.is_of_spraying()
            // "Anything I should know about neem?"
            && (!self.any(words!("i we should")) || self.pair(words!("know"), words!("about")) && !self.any(words!("spraying use using")))
            && !self.any(words!("when rust next last left time day after best rain weather label mix rate ratio dose dilution strength gal gallon gallons liter litre tank sprayer and with or"));
        asked.then(|| Question::Product { product: self.product() })
    }

    /// "How much copper have I used?", "how many copper sprays are left?", "what is the harvest wait for copper?"
    pub(super) fn of_product(&self) -> Option<Question> {
        // "How many spoons of neem go in a gallon?" mixes.
        let spoons = self
            .any(words!("spoons spoonfuls tablespoons teaspoons tbsp tsp ounces oz grams ml capfuls scoops"));
        if !self.is_of_product() || spoons {
            return None;
        }
        let count = self.pair(words!("how"), words!("much many"));
        let used = count
            && self.any(words!("used use using sprayed put gone applied"))
            && self.any(words!("have has did been i we"))
            && !self.any(words!("should do can"))
            && !self.any(words!("mix per tank gallon gallons"));
        let left = self.any(words!("left remaining more"))
            && (count || self.any(words!("any")))
            && self.any(words!("sprays spray times applications rounds sprayings"))
            && !self.any(words!("gallons litres ounces oz ml"));
        // "Wait, how do I mix the copper?" waits for nothing.
        let names_wait = self.tokens.iter().skip(1).any(|token| {
            token
                .is_any(words!("wait waiting phi interval preharvest pre-harvest reentry re-entry rei label"))
        });
        // "Copper phi?"
        let asks_phi = self.any(words!("phi")) && self.tokens.len() <= 4;
        let wait = asks_phi
            || names_wait
                && self.any(words!("what what's whats how show tell between required"))
                && !self.any(words!("after since spray pick eat mix"));
        let back = self.any(words!("back in"))
            && self.pair(words!("go get come let"), words!("back in into them kids dogs"))
            && self.any(words!("when how"));
        // "How often can you use copper?"
        // "Does sulfur hurt the skin?"
        let harms = self.any(words!("hurt hurts harm harms harmful burn burns safe toxic poison poisonous dangerous irritate irritates"))
            && self.any(words!("skin eyes eye hands lungs bees bee dog dogs cat cats pets pet kids people breathe"));
        if harms && self.trees.is_none() {
            return Some(Question::Product { product: self.product() });
        }
        // "How many days must I leave between copper sprays?"
        let between = (self.pair(words!("many"), words!("days day weeks"))
            || self.pair(words!("how"), words!("long")))
            && (self.any(words!("between"))
                || self.pair(words!("spray use"), words!("again"))
                || self.pair(words!("until till before"), words!("next")))
            && !self.any(words!("since ago last did pick picking eat harvest eating"))
            && self.speech.names.partners(self.tokens).len() == 1;
        let often = between
            || self.pair(words!("how"), words!("often frequently"))
                && !self.any(words!("did"))
                && (!self.any(words!("have")) || self.pair(words!("have"), words!("to")))
            || self.pair(words!("far"), words!("apart")) && self.trees.is_none();
        (used || left || wait || back || often).then(|| Question::Product { product: self.product() })
    }
}
