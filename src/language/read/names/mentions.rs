//! Which trees a sentence speaks of: names in lists, groups, "all but", "the rest", "one of the pots".

use std::ops::Range;

use super::beside::{
    is_common_word, is_count, is_fruit, matches_first, only_got, rest_of_group, start_with_quantity,
    tree_behind,
};
use super::determiners::{
    NOUNS, TELLS, all_of_trees, begins_anew, counts, exclusion, is_between, is_compared, is_distributive,
    is_noun_for_one, is_potting, is_singular, is_verb_plant, led_by, quantity, rest_at, senses,
    skipping_articles, stands_alone, stranger, tells,
};
use super::trees::{Label, Part, Spellings, Trees};
use super::{Call, Kind, Names, is_ground, is_plural, is_unknown};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::Selection;

/// A stretch of a sentence that says which trees.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::language::read) struct Mention {
    pub(in crate::language::read) range: Range<usize>,
    pub(in crate::language::read) trees: Trees,
}

impl Names {
    /// Every mention of trees in a sentence, in order.
    pub(in crate::language::read) fn mentions(&self, tokens: &[Token], text: &str) -> Vec<Mention> {
        let mut mentions: Vec<Mention> = Vec::new();
        let mut index = 0;
        let mut clause_start = 0;
        while index < tokens.len() {
            if tokens[index].is_any(words!(". ; !")) {
                clause_start = index + 1;
            }
            let excluded = exclusion(tokens, index);
            let start = index + excluded.unwrap_or(0);
            let mention = self.list(tokens, text, start, clause_start, excluded.is_some());
            let left_out = excluded.is_some();
            match mention {
                // "not all of them" leaves out nothing one could name.
                Some(mention) if left_out && mention.trees.leaves_out_all() => index = mention.range.end,
                // "..., but Wall is clean" leaves out nothing: it goes on with Wall.
                Some(mention) if left_out && begins_anew(tokens, index, mention.range.end) => index += 1,
                // "More rust than Celeste ever had" tells nothing of Celeste.
                Some(mention) if !left_out && is_compared(tokens, start) => index = mention.range.end,
                // "2 gallons on the pots, for each tree"
                Some(mention) if is_fruit(tokens, start, &mention) => index = mention.range.end,
                Some(mention)
                    if is_distributive(tokens, start)
                        && (!mentions.is_empty()
                            // "3.5 L per pot, Celeste and Eave"
                            || start > 0
                                && tokens[start - 1].is("per")
                                && (mention.range.end..tokens.len())
                                    .any(|at| self.call_at(tokens, at).is_some())) =>
                {
                    index = mention.range.end
                }
                Some(mention) => {
                    let from = start_with_quantity(tokens, index, &mention, mentions.last());
                    index = mention.range.end;
                    mentions.push(Mention { range: from..index, ..mention });
                }
                None => index += 1,
            }
        }
        rest_of_group(tokens, &mut mentions);
        mentions
    }

    /// "Celeste, Wall and the pots but not Whip".
    fn list(
        &self,
        tokens: &[Token],
        text: &str,
        start: usize,
        clause_start: usize,
        excluded: bool,
    ) -> Option<Mention> {
        let mut trees = Trees::default();
        let mut end = self.item(tokens, text, start, &mut trees)?;
        let told_before = senses(&tokens[clause_start.min(start)..start]).has_any(TELLS);
        let counted_before = (clause_start.min(start)..start).any(|at| is_count(tokens, at));
        while let Some(next) = self.continued(tokens, end) {
            let before = trees.clone();
            trees.either |= tokens[end].is("or");
            let after = match self.item(tokens, text, next, &mut trees) {
                Some(after) => after,
                // "Copper on Wall and the porch tree"
                None if tokens[next].is_word()
                    && !tokens[next].senses.has_any(&[
                        Sense::Plant,
                        Sense::Pot,
                        Sense::Article,
                        Sense::Time,
                    ])
                    && tokens[end].is_any(words!("and & n"))
                    && tree_behind(tokens, next).is_some() =>
                {
                    end = tree_behind(tokens, next).unwrap_or(next);
                    trees.unknown = Some(next..end);
                    break;
                }
                // "Watered Wall and Grandma": by the capital a name, and none of hers.
                None if tokens[end].is_any(words!("and &"))
                    && tokens[next].is_any(words!(
                        "grandma grandpa granny grandmother grandfather papa mama auntie uncle nana"
                    ))
                    && tokens.get(next + 1).is_none_or(|after| after.is_mark() || after.number.is_some())
                    && text
                        .get(tokens[next].span.clone())
                        .is_some_and(|typed| typed.starts_with(char::is_uppercase)) =>
                {
                    trees.unknown = Some(next..next + 1);
                    end = next + 1;
                    break;
                }
                None if stranger(tokens, next) => {
                    trees.unknown = Some(next..next + 1);
                    end = next + 1;
                    break;
                }
                None => break,
            };
            // "rust on Celeste, Wall is dry": the second name begins what comes next.
            let many = trees.parts.last().is_some_and(|part| part.trees.len() > 1);
            // "..., the rest aren't ripe yet"
            let rest = trees.parts.last().is_some_and(|part| part.label == Label::Rest);
            let denied = tokens.get(after).is_some_and(|token| token.senses.has(Sense::Negation));
            // "Big One is soaked, Eave and Whip are dry": two names behind a comma, and what is said of both.
            let subject = start > 0
                && tokens[start - 1].is(",")
                && tokens[end].is_any(words!("and &"))
                && !is_singular(tokens, after);
            // "Sprayed sulfur on Wall, on Corner not"
            let not = tokens.get(after).is_some_and(|next| next.is("not"))
                && tokens.get(after + 1).is_none_or(Token::is_mark)
                && tokens[end].is(",");
            let own = not
                || tells(tokens, after) && told_before && !subject
                || rest && denied
                || (is_singular(tokens, after) || many && tells(tokens, after)) && counted_before
                || counts(tokens, after) && counted_before
                || excluded && tells(tokens, after) && tokens[end].is(",")
                // "Some rust on Big One, Celeste trace"
                || told_before
                    && tokens[end].is(",")
                    && tokens.get(after).is_some_and(|next| {
                        next.senses.has_any(&[Sense::Trace, Sense::Heavy]) && !next.senses.has(Sense::Leaf)
                    })
                // "Watered Celeste, Whip and Eave, Big One only got the drips"
                || tokens[end].is(",") && only_got(tokens, after);
            if own {
                trees = before;
                break;
            }
            end = after;
        }
        if excluded {
            trees.without = std::mem::take(&mut trees.parts);
        } else {
            end = self.exclusions(tokens, text, end, told_before, &mut trees);
        }
        Some(Mention { range: start..end, trees })
    }

    /// Where the next name of a list would stand, if a list goes on here.
    fn continued(&self, tokens: &[Token], at: usize) -> Option<usize> {
        let joint = tokens.get(at)?;
        if !joint.is_any(words!(", and & + n or nor / plus an")) {
            return None;
        }
        let mut next = at + 1;
        while tokens
            .get(next)
            .is_some_and(|token| token.is_any(words!("and & on off from of to for the my also")))
        {
            next += 1;
        }
        (next < tokens.len()).then_some(next)
    }

    /// "... but not Whip", "... except the pots" behind a list.
    fn exclusions(
        &self,
        tokens: &[Token],
        text: &str,
        at: usize,
        told_before: bool,
        trees: &mut Trees,
    ) -> usize {
        let Some(skip) = exclusion(tokens, at) else { return at };
        let Some(mention) = self.list(tokens, text, at + skip, at + skip, true) else { return at };
        let after_all = trees.parts.last().is_some_and(|part| part.label == Label::All);
        let plain_but = tokens[at].is("but") && !tokens.get(at + 1).is_some_and(|next| next.is("not"));
        // "watered Celeste but Whip is dry" goes on with something else.
        if plain_but && !after_all && (tells(tokens, mention.range.end) || told_before) {
            return at;
        }
        trees.without.extend(mention.trees.without);
        trees.spellings.extend(mention.trees.spellings);
        mention.range.end
    }

    /// One name or group with what narrows it: "the pots on the deck", "the two by the wall".
    fn item(&self, tokens: &[Token], text: &str, start: usize, trees: &mut Trees) -> Option<usize> {
        let (mut part, mut end) = self.part(tokens, text, start, trees)?;
        while let Some((narrower, after, mut spellings)) = self.narrower(tokens, text, end) {
            // "all but Eave | Eave was still damp"
            if part.label == Label::Named && narrower.label == Label::Named {
                break;
            }
            // "Both trees near the wall", where one tree is called Wall, and a group stands by it.
            let narrower = self.group_at_place_of(&part, &narrower).unwrap_or(narrower);
            let Some(both) = part.narrowed_by(&narrower) else { break };
            part = both;
            end = after;
            trees.spellings.append(&mut spellings);
        }
        // "the Wall tree", "Celeste's pot"
        // "The corner one", but "and Eave one" gallon.
        let one = tokens.get(end).is_some_and(|next| next.is("one"))
            && start > 0
            && tokens[start - 1].is_any(words!("the that this"))
            && !tokens.get(end + 1).is_some_and(|after| {
                after.number.is_some() || after.senses.has_any(&[Sense::Unit, Sense::Fig, Sense::Leaf])
            });
        if part.label == Label::Named && (one || tokens.get(end).is_some_and(is_noun_for_one)) {
            end += 1;
        }
        part.range = start..end;
        trees.parts.push(part);
        Some(end)
    }

    /// What narrows a group, a few words on: "the pots on the deck".
    fn narrower(&self, tokens: &[Token], text: &str, at: usize) -> Option<(Part, usize, Spellings)> {
        const FARTHEST: usize = 4;
        for place in at..tokens.len().min(at + FARTHEST) {
            let mut found = Trees::default();
            if let Some((part, end)) = self.part(tokens, text, place, &mut found) {
                return Some((part, end, found.spellings));
            }
            if !is_between(&tokens[place]) {
                return None;
            }
        }
        None
    }

    /// "The LSU Gold", where LSU Purple stands: the same first word, and another name behind it.
    fn is_another_of_a_kind(&self, tokens: &[Token], text: &str, start: usize) -> bool {
        let Some(next) = tokens.get(start + 1) else { return false };
        let capital = |token: &Token| {
            text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
        };
        let lower = text.get(next.span.clone()).is_some_and(|typed| typed.chars().any(char::is_lowercase));
        let kinds =
            || self.calls.iter().filter(|call| call.words.len() > 1 && call.words[0] == tokens[start].text);
        is_unknown(&tokens[start])
            && capital(&tokens[start])
            && capital(next)
            && lower
            && next.is_word()
            && kinds().next().is_some()
            && !kinds().any(|call| matches_first(&call.words[1], &next.text))
            && !self.calls.iter().any(|call| call.words[0] == next.text)
    }

    fn part(&self, tokens: &[Token], text: &str, start: usize, trees: &mut Trees) -> Option<(Part, usize)> {
        let token = tokens.get(start)?;
        let everyone = || (0..self.nicknames.len()).collect::<Vec<_>>();
        if self.is_another_of_a_kind(tokens, text, start) {
            return None;
        }
        if let Some((count, call)) = self
            .call_at(tokens, start)
            .filter(|(count, call)| !is_common_word(tokens, text, start, *count, call))
        {
            // "The Wall figs", where a tree is called Wall: the capital is hers.
            let typed =
                text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase));
            let hers = self
                .calls
                .iter()
                .find(|own| own.kind == Kind::Nickname && own.words.len() == 1 && own.words[0] == token.text);
            if let (Kind::Group(_), Some(own), true) = (&call.kind, hers, typed && start > 0) {
                return Some((self.called(tokens, start, 1, own), start + 1));
            }
            return Some((self.called(tokens, start, count, call), start + count));
        }
        let part =
            |label: Label, trees: Vec<usize>| Part { label, trees, meant: None, range: start..start + 1 };
        // "Everything in a pot"
        let in_pots = token.is_any(words!("everything all anything those ones"))
            && tokens.get(start + 1).is_some_and(|next| next.is("in"))
            && tokens
                .iter()
                .skip(start + 2)
                .take(2)
                .any(|next| next.senses.has_any(&[Sense::Pot, Sense::Pots]));
        if in_pots {
            let article =
                usize::from(tokens.get(start + 2).is_some_and(|next| next.senses.has(Sense::Article)));
            return Some((part(Label::Group(String::from("pots")), self.pots.clone()), start + 3 + article));
        }
        if token.senses.has(Sense::All)
            && let Some(count) = all_of_trees(tokens, start)
        {
            if tokens.get(start + 1).is_some_and(|next| next.is("else")) {
                return Some((part(Label::Rest, Vec::new()), start + 2));
            }
            // "All four", where four stand in pots and two in the ground.
            let many = tokens.get(start + 1).and_then(|next| next.number).map(|number| number as usize);
            let unit = !token.is("all")
                || tokens.get(start + 2).is_some_and(|next| next.senses.has_any(&[Sense::Unit, Sense::Time]));
            for (group, members) in [("pots", &self.pots), ("ground", &self.ground)] {
                if many == Some(members.len()) && members.len() < self.nicknames.len() && !unit {
                    return Some((part(Label::Group(String::from(group)), members.clone()), start + 2));
                }
            }
            // "Picked all five": figs.
            let figs = many.is_some_and(|many| many != self.nicknames.len())
                && start > 0
                && tokens[start - 1].senses.has_any(&[Sense::Picked, Sense::Took])
                && tokens.get(start + 2).is_none_or(Token::is_mark);
            if figs {
                return None;
            }
            // "All six", where six trees stand
            if many == Some(self.nicknames.len()) && !unit {
                return Some((part(Label::All, everyone()), start + 2));
            }
            let mut nothing = Trees::default();
            // "all the pots" is the pots.
            if let Some((mut narrower, end)) = skipping_articles(tokens, start + 1)
                .and_then(|next| self.part(tokens, text, next, &mut nothing))
                && matches!(narrower.label, Label::Group(_) | Label::Vague | Label::Named)
            {
                narrower.meant = None;
                if narrower.label == Label::Vague {
                    narrower.label = Label::All;
                }
                trees.spellings.append(&mut nothing.spellings);
                return Some((narrower, end));
            }
            // "All the figs" are all the trees only where nothing else is named.
            if skipping_articles(tokens, start + 1).is_some_and(|next| tokens[next].is("figs")) {
                return Some((part(Label::Vague, everyone()), start + count));
            }
            return Some((part(Label::All, everyone()), start + count));
        }
        // "the potted Brown Turkey"
        let of_name = token.is("potted")
            && start > 0
            && tokens[start - 1].senses.has(Sense::Article)
            && tokens.get(start + 1).is_some()
            && self.call_at(tokens, start + 1).is_some();
        if token.senses.has(Sense::Pots) && (of_name || !is_potting(tokens, start)) {
            let mut pots = part(Label::Group(String::from("pots")), self.pots.clone());
            pots.meant = quantity(tokens, start);
            return Some((pots, start + 1));
        }
        // "the non potted trees"
        if token.is("non")
            && tokens.get(start + 1).is_some_and(|next| next.senses.has_any(&[Sense::Pots, Sense::Pot]))
        {
            return Some((part(Label::Group(String::from("ground")), self.ground.clone()), start + 2));
        }
        // "I water all pot today"
        // So is "each pot on the deck" all of those.
        let all_before = start > 0
            && (tokens[start - 1].senses.has(Sense::All)
                || tokens[start - 1].is_any(words!("each every"))
                    && tokens.get(start + 1).is_some_and(|next| next.is_any(words!("on of by in at along"))));
        if token.is("pot") && all_before {
            return Some((part(Label::Group(String::from("pots")), self.pots.clone()), start + 1));
        }
        // "the pot figs"
        let many = tokens.get(start + 1).is_some_and(|next| next.is_any(words!("figs trees ones plants")));
        if token.senses.has(Sense::Pot) && many {
            return Some((part(Label::Group(String::from("pots")), self.pots.clone()), start + 2));
        }
        // "the pot of Celeste"
        let owner = token.senses.has(Sense::Pot)
            && tokens.get(start + 1).is_some_and(|of| of.is("of"))
            && start > 0
            && tokens[start - 1].senses.has(Sense::Article);
        if let Some(named) = owner.then(|| skipping_articles(tokens, start + 2)).flatten()
            && let Some((count, call)) = self.call_at(tokens, named)
        {
            return Some((self.called(tokens, named, count, call), named + count));
        }
        if token.senses.has(Sense::Pot) && stands_alone(tokens, start) {
            let mut pot = part(Label::Group(String::from("pots")), self.pots.clone());
            let each = start > 0 && tokens[start - 1].is_any(words!("per each every"));
            pot.meant = if each { None } else { Some(1) };
            return Some((pot, start + 1));
        }
        if is_ground(tokens, start) {
            let mut ground = part(Label::Group(String::from("ground")), self.ground.clone());
            ground.meant = quantity(tokens, start);
            let noun = tokens
                .get(start + 1)
                .is_some_and(|next| next.senses.has(Sense::Tree) || next.is_any(words!("ones figs one fig")));
            return Some((ground, start + 1 + usize::from(noun)));
        }
        if let Some(count) = rest_at(tokens, start) {
            // "The other pots"
            if tokens.get(start + 1).is_some_and(|next| next.senses.has(Sense::Pots)) {
                return Some((part(Label::Rest, self.pots.clone()), start + 2));
            }
            // "The rest of the pots"
            let mut nothing = Trees::default();
            let of = tokens.get(start + 1).is_some_and(|of| of.is("of"));
            let group = of
                .then(|| skipping_articles(tokens, start + 2))
                .flatten()
                .and_then(|next| self.part(tokens, text, next, &mut nothing));
            return Some(match group {
                Some((group, end)) if matches!(group.label, Label::Group(_)) => {
                    (part(Label::Rest, group.trees), end)
                }
                _ => (part(Label::Rest, Vec::new()), start + count),
            });
        }
        if token.senses.has(Sense::Tree) && token.is_any(NOUNS) && !is_verb_plant(tokens, start) {
            let mut vague = part(Label::Vague, everyone());
            vague.meant = if token.text.ends_with('s') { quantity(tokens, start) } else { Some(1) };
            return Some((vague, start + 1));
        }
        let (count, calls) = self.near(tokens, start)?;
        let typed = text.get(token.span.start..tokens[start + count - 1].span.end).unwrap_or_default();
        let mut found: Vec<usize> = calls.iter().flat_map(|call| call.trees.iter().copied()).collect();
        found.sort_unstable();
        found.dedup();
        let mut named = part(Label::Named, found);
        if let [call] = calls.as_slice() {
            named = self.called(tokens, start, count, call);
            trees.spellings.push((typed.to_owned(), self.spoken(call)));
        } else {
            named.meant = Some(1);
        }
        named.range = start..start + count;
        Some((named, start + count))
    }

    fn called(&self, tokens: &[Token], start: usize, count: usize, call: &Call) -> Part {
        let last = &tokens[start + count - 1].text;
        let plural = call.words.last().is_some_and(|word| is_plural(last, word));
        let (label, meant) = match &call.kind {
            Kind::Group(group) => (Label::Group(group.clone()), quantity(tokens, start)),
            _ => {
                // One of several of a kind is meant, unless more than one is spoken of.
                let many = plural
                    || led_by(tokens, start, 3, |token| {
                        token.senses.has(Sense::Both) || token.senses.has(Sense::All)
                    })
                    || tokens
                        .get(start + count)
                        .is_some_and(|next| next.is_any(words!("trees figs plants ones")));
                (Label::Named, if many || call.trees.len() == 1 { quantity(tokens, start) } else { Some(1) })
            }
        };
        Part { label, trees: call.trees.clone(), meant, range: start..start + count }
    }

    /// A name as the garden has it.
    fn spoken(&self, call: &Call) -> String {
        match (&call.kind, call.trees.as_slice()) {
            (Kind::Nickname, [tree]) => self.nicknames[*tree].clone(),
            (Kind::Group(group), _) => group.clone(),
            _ => call.trees.iter().map(|tree| self.nicknames[*tree].as_str()).collect::<Vec<_>>().join(", "),
        }
    }

    fn named(&self, trees: &[usize]) -> Vec<String> {
        trees.iter().filter_map(|tree| self.nicknames.get(*tree)).cloned().collect()
    }

    /// What a mention settles into; the trees of parts before it stand for what "the rest" leaves out.
    pub(in crate::language::read) fn selection(
        &self,
        trees: &Trees,
        before: &[Selection],
    ) -> Option<Selection> {
        let one = trees.parts.iter().any(|part| part.label == Label::Named && part.trees.len() == 1);
        let strong: Vec<&Part> = trees
            .parts
            .iter()
            .filter(|part| part.label != Label::Vague && !(one && part.is_a_pot()))
            .collect();
        // "Everything ripe on Wall" is of Wall.
        let named: Vec<&Part> = strong.iter().filter(|part| part.label != Label::All).copied().collect();
        let parts: Vec<&Part> = if !named.is_empty() {
            named
        } else if strong.is_empty() {
            trees.parts.iter().collect()
        } else {
            strong
        };
        if let Some(rest) = parts.iter().find(|part| part.label == Label::Rest && !part.trees.is_empty()) {
            let named: Vec<usize> = before.iter().flat_map(|selection| self.indices(selection)).collect();
            let left: Vec<usize> = rest.trees.iter().filter(|tree| !named.contains(tree)).copied().collect();
            return (!left.is_empty()).then(|| Selection::Named(self.named(&left)));
        }
        if parts.iter().any(|part| part.label == Label::Rest) {
            return Some(Selection::AllBut(
                before.iter().flat_map(|selection| self.words_of(selection)).collect(),
            ))
            .filter(|selection| *selection != Selection::AllBut(Vec::new()));
        }
        let first = parts.first()?;
        let whole = parts.iter().any(|part| matches!(part.label, Label::All | Label::Vague));
        if whole {
            let without: Vec<String> = trees.without.iter().flat_map(|part| self.label_words(part)).collect();
            return Some(if without.is_empty() { Selection::All } else { Selection::AllBut(without) });
        }
        if let (Label::Group(group), 1, true) = (&first.label, parts.len(), trees.without.is_empty()) {
            return Some(Selection::Group(group.clone()));
        }
        let unwanted: Vec<usize> = trees.without.iter().flat_map(|part| part.trees.iter().copied()).collect();
        let mut wanted: Vec<usize> = Vec::new();
        for tree in parts.iter().flat_map(|part| &part.trees) {
            if !wanted.contains(tree) && !unwanted.contains(tree) {
                wanted.push(*tree);
            }
        }
        (!wanted.is_empty()).then(|| Selection::Named(self.named(&wanted)))
    }

    /// All but those left out, where only those were said.
    pub(in crate::language::read) fn left_out(&self, trees: &Trees) -> Vec<String> {
        trees.without.iter().flat_map(|part| self.label_words(part)).collect()
    }

    /// Those left out that are not among the trees named: "on Celeste but not on Wall".
    pub(in crate::language::read) fn contrasted(&self, trees: &Trees) -> Option<Selection> {
        let named: Vec<usize> = trees.parts.iter().flat_map(|part| part.trees.iter().copied()).collect();
        let apart = trees.without.iter().all(|part| part.trees.iter().all(|tree| !named.contains(tree)));
        match trees.without.as_slice() {
            [] => None,
            _ if !apart => None,
            [Part { label: Label::Group(group), .. }] => Some(Selection::Group(group.clone())),
            parts => Some(Selection::Named(parts.iter().flat_map(|part| self.named(&part.trees)).collect())),
        }
    }

    fn label_words(&self, part: &Part) -> Vec<String> {
        match &part.label {
            Label::Group(group) => vec![group.clone()],
            _ => self.named(&part.trees),
        }
    }

    fn indices(&self, selection: &Selection) -> Vec<usize> {
        match selection {
            Selection::Named(names) => {
                (0..self.nicknames.len()).filter(|tree| names.contains(&self.nicknames[*tree])).collect()
            }
            Selection::Group(group) => match group.as_str() {
                "pots" => self.pots.clone(),
                "ground" => self.ground.clone(),
                group => self
                    .calls
                    .iter()
                    .filter(|call| matches!(&call.kind, Kind::Group(own) if own == group))
                    .flat_map(|call| call.trees.clone())
                    .collect(),
            },
            _ => Vec::new(),
        }
    }

    fn words_of(&self, selection: &Selection) -> Vec<String> {
        match selection {
            Selection::Named(names) => names.clone(),
            Selection::Group(group) => vec![group.clone()],
            _ => Vec::new(),
        }
    }

    /// Words that could mean more than one tree, with the trees they could mean.
    pub(in crate::language::read) fn unsure(&self, trees: &Trees) -> Option<(Range<usize>, Vec<String>)> {
        let strong = trees.parts.iter().any(|part| part.label != Label::Vague);
        // "Eave feels light when I lift the pot": her pot.
        let named = trees.parts.iter().any(|part| part.label == Label::Named && part.trees.len() == 1);
        let own_pot = |part: &Part| named && part.is_a_pot();
        trees
            .parts
            .iter()
            .find(|part| part.is_unsure() && !own_pot(part) && (part.label != Label::Vague || !strong))
            .map(|part| (part.range.clone(), self.named(&part.trees)))
    }
}
