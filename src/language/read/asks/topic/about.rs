//! Questions of the bot and of what it knows: help, how to tell it something, the garden's settings.

use super::Words;
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::words;
use crate::season::request::{Question, Selection};

impl Words<'_> {
    pub(super) fn help(&self) -> Option<Question> {
        if (self.any(words!("products trees settings people file"))
            || self.pair(words!("pot"), words!("sizes size")))
            && !self.any(words!("change add remove set"))
        {
            return None;
        }
        // "What can I say to you?"
        if self.pair(words!("what"), words!("can could do should"))
            && self.pair(words!("can could do should"), words!("i we"))
            && self.pair(words!("say type write tell ask text send"), words!("to you here u"))
            && self.tokens.len() <= 8
        {
            return Some(Question::Help);
        }
        if self.trees.is_none() && self.is_of_what_to_say() {
            return Some(Question::Help);
        }
        // "What do I type when I've sprayed something?"
        if self.any(words!("what how"))
            && self.pair(words!("do should"), words!("i we"))
            && self.any(words!("type write say tell"))
        {
            return Some(Question::Help);
        }
        // "I'm new to all this, how do I get started?"
        let begins = self.any(words!("how"))
            && self.any(words!("start started begin work works go"))
            && self.any(words!("i we this it"))
            && (self.pair(words!("get gets getting"), words!("started going"))
                || self.pair(words!("i we to"), words!("start begin"))
                || self.pair(words!("this it"), words!("work works")) && self.tokens.len() <= 6);
        if begins && self.trees.is_none() && !self.is_of_product() && !self.is_of_spraying() {
            return Some(Question::Help);
        }
        // "What am I meant to tell you?", "what is it you can actually do for us?"
        let meant = self.pair(words!("i we"), words!("meant supposed"))
            && self.any(words!("tell say do type"))
            || self.pair(words!("it"), words!("you"))
                && self.pair(words!("you can"), words!("can actually do"))
            || self.any(words!("kinds kind sorts"))
                && self.any(words!("information messages things"))
                && self.any(words!("accept take understand"));
        if meant && self.trees.is_none() && self.any(words!("what which list")) && self.tokens.len() <= 14 {
            return Some(Question::Help);
        }
        // "I do not understand how this works"
        let lost = self.any(words!("understand know"))
            && self.pair(words!("this it"), words!("works work"))
            && self.trees.is_none();
        if lost {
            return Some(Question::Help);
        }
        // "What do you have so far" is of the garden.
        if self.of_what_is_held() {
            return None;
        }
        let asks_help = self.tokens.len() <= 4
            && self.pair(words!("what what's whats who"), words!("is this are"))
            && self.tokens.last().is_some_and(|last| last.is_any(words!("this you")))
            || self.any(words!("help commands instructions examples menu"))
                && self.tokens.len() <= 6
                && !self.is_of_product()
                && !self.is_of_spraying()
                && self.trees.is_none()
            || self.pair(words!("can do"), words!("you"))
                && !self.is_of_product()
                && self.any(words!("what how"))
                && self.any(words!("do work use"))
                && self.tokens.len() <= 7
                && !self.any(words!("know recommend think suggest"))
            || self.any(words!("you your"))
                && self.any(words!("who what's whats are what"))
                && self.tokens.len() <= 5
                && self.any(words!("name there made bot real human alive awake listening"))
            || self.any(words!("ask")) && self.any(words!("you")) && self.any(words!("what"))
            || self.any(words!("what"))
                && self.pair(words!("you"), words!("can"))
                && self.any(words!("do"))
                && self.tokens.len() <= 7
            || self.pair(words!("who what"), words!("are"))
                && self.any(words!("you"))
                && self.tokens.len() <= 4
            || self.pair(words!("what"), words!("can do else"))
                && self.any(words!("you"))
                && self.pair(words!("can you"), words!("you do"))
                && self.tokens.len() <= 10
                && !self.any(words!("know recommend think suggest about"))
            || self.is_how_to()
            || self.pair(words!("how"), words!("do does"))
                && !self.any(words!("figure know reckon"))
                && self.any(words!("this use talk"))
                && self.any(words!("work use you this"))
                && !self.is_of_product()
                && self.trees.is_none();
        asks_help.then_some(Question::Help)
    }

    /// What can be told or asked here, or what the bot can do.
    fn is_of_what_to_say(&self) -> bool {
        let (what, few) = (self.any(words!("what")), self.tokens.len());
        // "What sort of things can I tell you?", "uh what all can I say to you"
        let things = what
            && few <= 12
            && self.pair(words!("can could"), words!("i we"))
            && self.any(words!("say tell ask report write type"))
            && self.any(words!("you u"));
        // "How one uses you, what is it that I can write here?"
        let write = what
            && few <= 16
            && self.pair(words!("i we"), words!("can may could"))
            && self.pair(words!("can may could"), words!("say write type tell ask"));
        // "Would you kindly explain what you can do?"
        let explain = self.any(words!("explain tell"))
            && self.pair(words!("what"), words!("you"))
            && self.pair(words!("you"), words!("can may"))
            && self.any(words!("do"));
        // "Please teach me how to use you"
        let teach =
            self.pair(words!("to i"), words!("use")) && self.pair(words!("use"), words!("you this u"));
        // "What are you able to do for me?"
        let able = what && self.pair(words!("you u"), words!("able")) && self.any(words!("do"));
        // "What you know to do?"
        let know = few <= 7
            && self.pair(words!("what"), words!("you u"))
            && self.any(words!("know can"))
            && self.any(words!("do"));
        things || write || explain || teach || able || know
    }

    /// "How do I change the brief time?", "how can I add a tree?"
    fn is_how_to(&self) -> bool {
        if self.pair(words!("how"), words!("do can should")) && self.pair(words!("tell"), words!("you")) {
            return true;
        }
        let how = self.tokens.windows(4).any(|four| {
            four[0].is("how")
                && four[1].is_any(words!("do can to could would"))
                && (four[2].is_any(words!("i we you")) || four[1].is("to"))
        });
        how && self.any(words!("change set add remove rename delete correct edit undo record report tell switch turn stop mute enter log"))
            && self.any(words!("brief briefs time units tree trees product products spray setting settings place position name helper keeper person people entry report mistake reminder reminders something things room garden frost"))
            && self.tokens.len() <= 12
    }

    /// "What do you have so far", "read me back what you have for copper", "what have you recorded about the trees?"
    pub(super) fn of_what_is_held(&self) -> bool {
        let what = self.any(words!("what wat whats what's everything which"));
        let held = self.pair(words!("you u you've youve"), words!("have hav got recorded"))
            || self.pair(words!("have hav"), words!("you u"))
                && self.any(words!("recorded written noted got down entered saved stored"));
        let of = self.pair(words!("so"), words!("far"))
            || self.pair(
                words!("have hav got recorded noted entered down saved stored written"),
                words!("for about on of under down"),
            );
        what && held
            && of
            && self.tokens.len() <= 14
            && !self.any(words!("done did sprayed watered picked time"))
    }

    pub(super) fn garden(&self) -> Option<Question> {
        if self.of_what_is_held() {
            let named = self.is_of_product() && self.trees.is_none();
            return match (named, &self.trees) {
                (true, _) => Some(Question::Product { product: self.product() }),
                (false, None) => Some(Question::Garden),
                (false, Some(Selection::All)) => Some(Question::Garden),
                (false, Some(_)) => None,
            };
        }
        // "Might I see the list of my trees as you have them written down?"
        let list_of = self.tokens.windows(4).any(|four| {
            four[0].is("list")
                && four[1].is("of")
                && four[2].is_any(words!("my the all our"))
                && four[3].is_any(words!("trees plants figs"))
        });
        if list_of {
            return Some(Question::Garden);
        }
        let knows = self.any(words!("know"))
            && self.any(words!("garden trees me place"))
            && !self.any(words!("coming anything"));
        let listed = self.any(words!("file")) && self.any(words!("have what"))
            || self.any(words!("settings products people")) && !self.is_of_spraying() && self.tokens.len() <= 9
            || self.any(words!("list")) && self.any(words!("every each all")) && self.any(words!("tree trees plant plants"))
            || self.any(words!("trees"))
                && self.any(words!("list which my many have show got"))
                && self.trees.is_none()
                && !self.senses.has_any(&[
                    Sense::Dry,
                    Sense::Rust,
                    Sense::Drink,
                    Sense::Spray,
                    Sense::Watering,
                    Sense::Ripe,
                ])
                && !self.any(words!("need should doing how's hows pick picked ready eat harvest"))
                // "Which trees are mine", "what are the trees in my list"
                && (!self.any(words!("are")) || self.any(words!("list record")))
            || self.pair(words!("my the our"), words!("garden"))
                && self.any(words!("show what whats what's where where's wheres about list"))
                && !self.any(words!("do done did water next doing week today tomorrow lies store coming ahead"))
            || self.any(words!("units timezone zone"))
            || self.pair(words!("pot"), words!("sizes size")) && self.any(words!("what which you have list show"))
            // "What time do you send the morning thing?"
            || self.pair(words!("what"), words!("time")) && self.any(words!("you your")) && self.any(words!("send brief briefs message morning post"))
            // "Show my labels"
            || self.any(words!("labels")) && (self.any(words!("show list my")) || self.tokens.len() <= 2)
            || self.any(words!("who"))
                && self.any(words!("report keeper helper can has member members"))
                && !self.any(words!("worse better pots ground"))
            // "Whos allowed to write in here besides me", "who all is on this thing"
            || self.any(words!("who who's whos"))
                && (self.any(words!("allowed"))
                    || self.pair(words!("on in"), words!("this here"))
                        && self.any(words!("all else is everybody everyone"))
                        && self.trees.is_none())
            // "Could you read me back what you have written down?", "what have you got so far"
            || self.any(words!("what"))
                && self.pair(words!("you have u"), words!("have got you written"))
                && (self.pair(words!("written"), words!("down"))
                    || self.pair(words!("so"), words!("far"))
                    || self.pair(words!("on"), words!("file record")))
            // "What do you know so far?"
            || self.pair(words!("do can"), words!("you u"))
                && self.any(words!("what"))
                && self.pair(words!("you u"), words!("know"))
                && (self.tokens.len() <= 5 || self.pair(words!("so"), words!("far")))
            // "What all do we have in the garden?"
            || self.any(words!("what"))
                && self.pair(words!("we i"), words!("have"))
                && self.pair(words!("my the our"), words!("garden"))
                && !self.any(words!("done did sprayed watered picked"))
            || self.tokens.len() <= 3 && self.any(words!("inventory"))
            || self.any(words!("trees")) && self.pair(words!("put"), words!("in")) && self.any(words!("what which"))
            || self.tokens.len() <= 2 && self.any(words!("garden trees"));
        (knows || listed).then_some(Question::Garden)
    }
}
