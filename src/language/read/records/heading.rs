//! Sentences that say nothing by themselves, but of what follows: a day, an hour, the trees looked at.

use super::predicate::Predicate;
use super::{Memory, Part};
use crate::language::read::Speech;
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::moment;
use crate::language::read::word_list::words;
use crate::season::request::When;

impl Memory {
    /// "Picked today:", "Yesterday:", "Checked Celeste." say nothing by themselves, but of what follows.
    pub(super) fn takes_header(&mut self, speech: &Speech, parts: &[Part]) -> bool {
        let only_trees =
            speech.mentions.iter().find_map(|mention| speech.names.selection(&mention.trees, &[]));
        let walked = speech.tokens.windows(2).any(|pair| {
            pair[0].is_any(words!("went walked gone been"))
                && pair[1].is_any(words!("round around over through"))
        });
        let seen = walked
            || speech.tokens.iter().any(|token| token.senses.has(Sense::Seen))
                && !speech.tokens.iter().any(|token| token.senses.has(Sense::Creature));
        let said_only_trees = parts.iter().any(|part| part.trees.names_some());
        // "Weights", and a line for each pot.
        let weights = speech.tokens.len() <= 3
            && speech.tokens.iter().any(|token| token.senses.has(Sense::Weighed))
            && !speech.tokens.iter().any(|token| token.number.is_some());
        if weights {
            self.predicate = Some(Predicate::Weighed);
            return true;
        }
        let when = moment(speech.tokens, &[], speech.now());
        // "Checked the leaves at 7. All clean."
        let timed = seen && when.is_said() && speech.tokens.len() <= 14 && parts.is_empty();
        let takes = seen
            && (said_only_trees || only_trees.is_some())
            && speech.tokens.len() <= 16
            && !parts.iter().any(|part| part.predicate.is_some());
        // "Yesterday was a busy one.", "Here is the whole report for yesterday": the day of what follows.
        let tells_of_day = speech.tokens.iter().any(|token| {
            token.is_any(words!("busy long full hectic report log update summary catching catch day's"))
        });
        let empty = parts.is_empty() && speech.mentions.is_empty();
        if tells_of_day && empty && speech.tokens.len() <= 16 && when.is_past(speech.now()) {
            self.moment = when.day_only();
            return true;
        }
        if takes {
            self.topic = only_trees;
        }
        // "2013-07-10 07:15.", "7/9." above what was done then.
        let only_a_moment = when.is_said()
            && parts.is_empty()
            && speech.tokens.iter().enumerate().all(|(index, token)| {
                when.used.contains(&index)
                    || token.is_mark()
                    || token.senses.has(Sense::Link)
                    || token.is_any(words!("home out outside started up back garden went"))
            })
            && match when.when(speech.now()) {
                When::At(at) | When::OnDay(at) => at <= speech.context.at,
                _ => false,
            };
        if only_a_moment {
            self.moment.completed_by(when);
            return true;
        }
        if timed && (takes || speech.mentions.is_empty()) {
            self.moment.completed_by(when);
            return true;
        }
        takes
    }
}
