//! Questions of what was done, and when.

use super::Words;
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::{Deed, Question, Selection};

impl Words<'_> {
    /// "When did I last spray?", "what was done on Celeste?", "show the log".
    pub(super) fn done(&self) -> Option<Question> {
        const DEEDS: WordList = words!(
            "spray sprayed water watered pick picked do done report record recorded say said note noted apply applied treat treated used use spraying watering put log logged repot repotted harvest harvested tell told plant planted"
        );
        // "Where did you put the pruners?" asks of no work.
        if self.tokens.first().is_some_and(|first| first.is_any(words!("where where's wheres"))) {
            return None;
        }
        let past = self.any(words!("did was were have has been had"))
            && !self.pair(words!("have has"), words!("to 2"));
        let when = self.any(words!("when what last which how did have has was"));
        let listed = self.any(words!("list show everything all"))
            && self.any(words!("did done"))
            && self.any(words!("i we i've we've"));
        // "List every spray on Corner"
        let each = self.any(words!("list show"))
            && self.any(words!("every each all"))
            && self.any(words!("spray sprays spraying watering waterings harvest harvests picking pickings entry entries report reports treatment treatments"));
        // "What have I got coming up this week?"
        if self.any(words!("coming upcoming ahead lined"))
            && self.any(words!("week days weekend tomorrow today up month"))
        {
            return None;
        }
        let log = listed
            || each
            || self.any(words!("log journal history entries records logbook"))
            || self.pair(words!("what what's whats"), words!("was has been"))
                && self.any(words!("done been noted recorded applied sprayed"))
            // "Show me the last week"
            || self.any(words!("show list")) && self.pair(words!("last past"), words!("week days entries weeks month"))
            || self.any(words!("what"))
                && self.any(words!("i we"))
                && self.any(words!("did done"))
                && !self.any(words!("should season need"))
            || self.pair(words!("what"), words!("did have"))
                && self.any(words!("i we"))
                && !self.any(words!("season should"));
        // "How much time I don't water Whip?", as one asks it who learnt the language late
        let untouched = self.pair(words!("much long many"), words!("time days i"))
            && self.any(words!("don't didn't haven't not"))
            && self.any(words!("i we"))
            && self.deed().is_some();
        if untouched {
            return Some(Question::Done { trees: self.selection(), deed: self.deed() });
        }
        // "Did Wall get copper yesterday?"
        let got_then = self.any(words!("did"))
            && self.any(words!("get have"))
            && (self.any(words!("yesterday today already last morning"))
                // "How much water did Wall get this week?"
                || self.pair(words!("this"), words!("week month season year")))
            && self.trees.is_some()
            && !self.any(words!("should need"));
        if got_then {
            return Some(Question::Done { trees: self.selection(), deed: self.deed() });
        }
        // "When did Wall last get it?"
        // "How long since copper on Wall"
        let ago = self.pair(words!("long"), words!("ago")) && self.any(words!("did was have"));
        // "How long's it been since the copper went on?", "when did the copper go on?"
        let since = self.any(words!("since")) && self.any(words!("been")) && self.any(words!("long long's"))
            || self.any(words!("when"))
                && self.any(words!("did"))
                && self.pair(words!("go went"), words!("on"));
        if ago || (since || self.pair(words!("long"), words!("since"))) && self.is_of_product() {
            return Some(Question::Done {
                trees: self.trees.clone().unwrap_or(Selection::Unsaid),
                deed: if ago { self.deed() } else { Some(Deed::Spray) },
            });
        }
        let got =
            self.any(words!("last")) && self.any(words!("did was")) && self.any(words!("get have when"))
                || self.tokens.first().is_some_and(|first| first.is("last"))
                    && self.is_of_product()
                    && self.tokens.len() <= 6;
        // "When I last put copper on", "date of last sulfur on the ground trees"
        let got = got
            || self.any(words!("last"))
                && self.is_of_product()
                && self.any(words!("when date day"))
                && !self.any(words!("next should due again can will does"));
        // "Who watered it?"
        let who = self.any(words!("who who'd whod"))
            && self.senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked])
            && self.trees.as_ref().is_none_or(|trees| *trees != Selection::All)
            && !self.any(words!("should can will should'd"));
        let got = got || who;
        // "Did Eave get any?"
        let any = self.any(words!("did")) && self.any(words!("get")) && self.any(words!("any some"));
        let last = got || any || self.any(words!("last latest"))
            && self.any(words!("spray sprayed spraying water watered watering pick picked entry entries note notes report reports application treatment repotted"))
            && !self.has(Sense::Frost);
        let deed = past
            && when
            && self.any(DEEDS)
            && (self.any(words!(
                "i we been was were you anyone anybody someone somebody he she they who bo ana"
            )))
            && (!self.any(words!("season")) || self.any(words!("date dates when")))
            && !self.any(words!("should if would supposed need needs weather forecast gonna going"))
            || self.any(words!("already yet")) && past && self.any(DEEDS);
        // "Can you tell me if | I picked anything off Celeste", "watered?"
        let whether = self.tokens.len() < self.speech.tokens.len()
            && self.tokens.first().is_some_and(|first| first.is_any(words!("i we bo ana anyone anybody")))
            && self.tokens.get(1).is_some_and(|verb| {
                verb.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked, Sense::Applied])
            });
        let bare = self.tokens.len() <= 3
            && self
                .tokens
                .first()
                .is_some_and(|first| first.is_any(words!("watered sprayed picked scouted harvested")))
            && self
                .tokens
                .iter()
                .skip(1)
                .all(|token| token.is_any(words!("yet already today anyone yesterday")));
        let told = whether
            || bare
            || self.any(words!("done"))
                && self.any(words!("what what's whats show"))
                && !self.any(words!("needs need to"));
        (log || last || deed || told).then(|| Question::Done {
            // "It's all a blur"
            trees: Some(self.selection())
                .filter(|trees| *trees != Selection::All)
                .unwrap_or(Selection::Unsaid),
            deed: self.deed(),
        })
    }
}
