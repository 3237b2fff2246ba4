//! What follows a report and tells nothing of it anew: an addition, a plan, other work.

use super::slip::Slip;
use super::{is_joke, is_verb, is_verb_of};
use crate::language::read::lexicon::Sense;
use crate::language::read::word_list::words;

impl Slip<'_> {
    /// An addition, a plan, a condition, or work of another kind: nothing told anew.
    pub(super) fn is_of_something_else(&self) -> bool {
        let tokens = self.speech.tokens;
        let report = self.report();
        // "12 actually, found 3 more in the bowl": more is why.
        let figure = tokens.iter().position(|token| token.number.is_some()).unwrap_or(0);
        let told =
            (figure..tokens.len()).find(|at| tokens[*at].is_any(words!(", ; -"))).unwrap_or(tokens.len());
        let told =
            if tokens[..told].iter().any(|token| token.number.is_some()) { told } else { tokens.len() };
        let added = tokens[..told].iter().enumerate().any(|(index, token)| {
            let like = tokens.get(index + 1).is_some_and(|next| next.is_any(words!("like time")));
            // "Spoke too soon, only 3"
            let hasty = token.is("too")
                && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("soon early fast")));
            if hasty {
                return false;
            }
            token.is_any(words!("another also too plus extra additional")) || token.is("more") && !like
        }) || tokens.first().is_some_and(|first| first.is_any(words!("and plus then")));
        let unreal = tokens.iter().enumerate().any(|(index, token)| {
            let hasty = index > 0 && tokens[index - 1].is("too");
            !hasty && token.senses.has_any(&[Sense::Future, Sense::Condition, Sense::Habit, Sense::Creature])
                || token.is_any(words!("tomorrow tmrw tmrrw going gonna gotta let's lets"))
        }) || tokens.windows(2).any(|pair| {
            // "Need my glasses" is why, "need to water" a plan.
            pair[0].is_any(words!("need needs want wants"))
                && (pair[1].is("to")
                    || pair[1].senses.has_any(&[Sense::Water, Sense::Watering, Sense::Spraying, Sense::Rain]))
        });
        let other_work = tokens.iter().any(|token| {
            is_verb(token.senses)
                && !is_verb_of(token.senses, report)
                && !token.senses.has_any(&[Sense::Seen, Sense::Spots])
        });
        // "Forgot to water Whip", "didn't get to Eave": not done, and never told as done.
        // "Meant to pick Corner, slept in instead"
        let meant_to = tokens.windows(2).next().is_some_and(|pair| {
            pair[0].is_any(words!("meant planned wanted hoped intended supposed")) && pair[1].is("to")
        });
        let undone = meant_to
            || tokens.iter().any(|token| {
                token.is_any(words!("forgot forget forgotten"))
                    || token.is("never") && !self.says(words!("mind"))
            }) && !tokens.iter().any(|token| token.number.is_some());
        let of_brief = self.says(words!("message messages brief briefs rename renamed"));
        // "Built a bigger box for Whip, call it a 5 gallon pot now"
        let potted = tokens.iter().any(|token| token.is_any(words!("pot container box tub")))
            && tokens
                .iter()
                .any(|token| token.is_any(words!("gallon gallons gal litre liter litres liters")));
        potted || report.is_none() || added || unreal || other_work || undone || of_brief || is_joke(tokens)
    }
}
