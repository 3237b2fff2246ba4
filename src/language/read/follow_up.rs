//! A short answer to what was asked back: the message that raised the question, read again with the answer in it.

mod said_again;

use super::lexicon::Sense;
use super::names::{Mention, Names, Product};
use super::tokens::{Token, tokens};
use super::{Context, asides, fresh};
use crate::language::read::word_list::{WordList, words};
use crate::season::request::{Doubt, DoubtKind, OpenQuestion, Reading, Request, Selection, When};
use crate::season::selection::selected;

/// A question older than this is no longer what a short word answers.
const STILL_OPEN: chrono::TimeDelta = chrono::TimeDelta::hours(20);
/// An answer has few words; more are a message of their own.
const MOST_WORDS: usize = 8;

pub(super) fn answer(text: &str, names: &Names, context: &Context) -> Option<Reading> {
    let question = context.open_question?;
    // A yes to "forget me?" is not the end of a sentence.
    if question.doubt.kind == DoubtKind::ForgetAsked || question.doubt.kind == DoubtKind::UnknownPlace {
        return None;
    }
    if question.doubt.kind == DoubtKind::NamelessTree && context.at - question.said <= STILL_OPEN {
        return super::settings::named(text, question, context);
    }
    if context.at - question.said > STILL_OPEN || text.split_whitespace().count() > MOST_WORDS {
        return None;
    }
    let words = tokens(text);
    if is_never_mind(&words) {
        return Some(Reading { requests: vec![Request::Decline], ..Reading::default() });
    }
    // Nothing of what raised the question is there to undo, and what stands before it stays.
    let plain: Vec<&str> =
        words.iter().filter(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    let kept = context.last.is_some_and(|last| last.event == question.event);
    if !kept && asides::is_undo(&plain) {
        return Some(Reading { requests: vec![Request::Decline], ..Reading::default() });
    }
    if let Some(reading) = answer_and_more(text, &words, names, context) {
        return Some(reading);
    }
    let alone = fresh(text, names, &Context { open_question: None, ..*context });
    if !is_fragment(&words, names) && stands_alone(&alone) {
        return None;
    }
    // The moment of the first message is the moment of the report.
    let first = Context { open_question: None, last: None, last_message: &[], at: question.said, ..*context };
    let answer = Answer { text, words: &words, names, context };
    answer
        .completed(question)
        .and_then(|completed| kept_of(&completed, question, names, &first))
        .or_else(|| said_again::mended(text, question, names, context, &first))
        .or_else(|| is_no_answer(&words, question).then(|| asked_again(question)))
}

/// "Wall, and picked 4 off Celeste": an answer, and a report behind it.
fn answer_and_more(text: &str, words: &[Token], names: &Names, context: &Context) -> Option<Reading> {
    let comma = words.iter().position(|token| token.is_any(words!(", ; and also")))?;
    let behind =
        comma + words[comma..].iter().take_while(|token| token.is_any(words!(", ; and also i we"))).count();
    let (head, tail) = (&words[..comma], words.get(behind..)?);
    let reports = tail.first()?.senses.has_any(&[Sense::Picked, Sense::Watered, Sense::Sprayed]);
    if !reports || head.is_empty() || !is_fragment(head, names) {
        return None;
    }
    let answered = answer(text.get(..head.last()?.span.end)?, names, context)?;
    // "Wall, watered it too"
    let pronoun = tail.iter().any(|token| token.is_any(words!("it them they")));
    let told = if pronoun { text } else { text.get(tail.first()?.span.start..)? };
    let more = fresh(told, names, &Context { open_question: None, ..*context });
    let mut reading = answered;
    reading.requests.extend(more.requests);
    reading.doubts.extend(more.doubts);
    reading.spellings.extend(more.spellings);
    Some(reading)
}

/// "The usual", "yes" where several were offered: asked once more, and of the same message.
fn asked_again(question: &OpenQuestion) -> Reading {
    Reading { doubts: vec![question.doubt.clone()], ..Reading::default() }
}

/// Words that mean to answer, and do not say which.
fn is_no_answer(words: &[Token], question: &OpenQuestion) -> bool {
    const MOST_WORDS: usize = 6;
    if question.doubt.kind.is_of_a_value() {
        return false;
    }
    let texts: Vec<&str> =
        words.iter().filter(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    let unsure = matches!(
        texts.as_slice(),
        ["yes"
            | "yeah"
            | "yep"
            | "yup"
            | "y"
            | "ok"
            | "sure"
            | "correct"
            | "right"
            | "idk"
            | "dunno"
            | "both"
            | "either"]
            | ["not", "sure", ..]
            | ["i'm" | "im", "not", "sure", ..]
            | ["i", "don't" | "dont", "know" | "remember", ..]
            | ["don't" | "dont", "know" | "remember", ..]
            | ["no", "idea", ..]
    );
    let vague = texts.len() <= MOST_WORDS
        && texts.iter().any(|text| matches!(*text, "usual" | "same" | "always" | "other" | "whichever"));
    unsure && texts.len() <= MOST_WORDS || vague
}

/// What a message reads as with the answer in it, less what was kept of it already.
fn kept_of(completed: &str, question: &OpenQuestion, names: &Names, first: &Context) -> Option<Reading> {
    let whole = fresh(completed, names, first);
    let told = fresh(&question.text, names, first);
    // What was understood the first time is kept already.
    let news: Vec<Request> =
        whole.requests.iter().filter(|request| !told.requests.contains(request)).cloned().collect();
    // "Should I spray Olivia?", "Wall": the question, of her.
    let reports = news.iter().any(|request| matches!(request, Request::Record(_) | Request::Ask(_)));
    let doubts: Vec<Doubt> = whole.doubts.into_iter().filter(|doubt| !told.doubts.contains(doubt)).collect();
    // "Picked 5 on 12/25" (which tree?), "Celeste": now it is the day that cannot be.
    let doubted = !doubts.is_empty() && doubts.iter().all(|doubt| doubt.kind.can_be_answered());
    (reports || doubted && news.is_empty()).then(|| {
        let requests = news.into_iter().map(|request| with_first_time(request, question)).collect();
        Reading { requests, doubts, spellings: whole.spellings, ..Reading::default() }
    })
}

fn is_never_mind(words: &[Token]) -> bool {
    let line: Vec<&str> =
        words.iter().filter(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    matches!(
        line.join(" ").as_str(),
        "no" | "nope"
            | "nah"
            | "never mind"
            | "nevermind"
            | "nvm"
            | "forget it"
            | "skip it"
            | "skip"
            | "cancel"
            | "neither"
            | "none"
            | "none of them"
            | "none of those"
            | "forget that"
            | "leave it"
            | "don't bother"
            | "never mind that"
            | "ignore that"
            | "drop it"
            | "not important"
            | "doesn't matter"
            | "scratch that"
    )
}

/// Nothing but names, sprays, numbers, times and the words that lead them in.
fn is_fragment(words: &[Token], names: &Names) -> bool {
    let named: Vec<usize> = names.mentions(words, "").into_iter().flat_map(|mention| mention.range).collect();
    let products: Vec<usize> = names
        .products_in(words, &named)
        .into_iter()
        .flat_map(|product| match product {
            Product::Known { used, .. } => used,
            Product::Unknown { index } | Product::Several { index, .. } => vec![index],
            Product::Unsaid => Vec::new(),
        })
        .collect();
    words.iter().enumerate().all(|(index, token)| {
        named.contains(&index)
            || products.contains(&index)
            || token.is_mark()
            || token.number.is_some()
            || token.senses.has_any(&[
                Sense::Article,
                Sense::Link,
                Sense::Unit,
                Sense::Time,
                Sense::Filler,
                Sense::Both,
            ])
            || token.is_any(words!("it was used i meant mean that's one ones only them is"))
    })
}

/// A report, a question or a setting that is whole without what was asked.
fn stands_alone(reading: &Reading) -> bool {
    // "Picked 900 off Whip": a report of its own, if one that cannot be.
    let impossible = reading.doubts.iter().any(|doubt| {
        matches!(doubt.kind, DoubtKind::ImpossibleAmount | DoubtKind::ImpossibleDate | DoubtKind::StillToCome)
    });
    impossible
        || reading.requests.iter().any(|request| {
            matches!(
                request,
                Request::Record(_)
                    | Request::Ask(_)
                    | Request::Set(_)
                    | Request::Undo
                    | Request::Greet
                    | Request::ForgetMe
            )
        })
}

struct Answer<'a> {
    text: &'a str,
    words: &'a [Token],
    names: &'a Names,
    context: &'a Context<'a>,
}

impl Answer<'_> {
    /// "Wall 10 Corner 5": more numbers than one tree takes.
    fn has_own_numbers(&self) -> bool {
        let mentions = self.names.mentions(self.words, self.text);
        let number = self.words.iter().enumerate().any(|(index, word)| {
            word.number.is_some()
                && !word.is("one")
                && !mentions.iter().any(|mention| mention.range.contains(&index))
        });
        number && !mentions.is_empty()
    }

    /// The first message with the words in doubt replaced by the answer, or the answer put behind them.
    fn completed(&self, question: &OpenQuestion) -> Option<String> {
        let (text, doubted) = (question.text.trim(), question.doubt.words.trim());
        let with = |words: String| {
            if !doubted.is_empty() && !text.contains(doubted) {
                // The clause as it was mended since: "picked 5" (which tree?), "make that 12" (which tree?), "Wall".
                words
            } else if doubted.is_empty() {
                format!("{text} {words}")
            } else {
                text.replacen(doubted, &words, 1)
            }
        };
        Some(match question.doubt.kind {
            DoubtKind::UnknownTree => with(self.trees(question)?),
            // Words that name several trees are replaced, a clause that names none is completed.
            // "Picked | Wall 3, Corner 2": the work of the clause, with what is told of each.
            DoubtKind::WhichTree if self.has_own_numbers() => {
                let clause = tokens(doubted);
                let number = clause.iter().find(|token| token.number.is_some())?;
                let work = doubted.get(..number.span.start)?.trim_end();
                (!work.is_empty()).then(|| with(format!("{work} {}", self.bare())))?
            }
            DoubtKind::WhichTree => {
                let trees = self.trees(question)?;
                let names_none = self.names.mentions(&tokens(doubted), doubted).is_empty();
                with(if names_none { format!("{doubted} on {trees}") } else { trees })
            }
            DoubtKind::UnknownProduct if doubted != text => with(self.product(question)),
            DoubtKind::WhichProduct | DoubtKind::UnknownProduct => {
                let single = tokens(doubted).len() == 1 && doubted != text;
                with(if single {
                    self.product(question)
                } else {
                    format!("{doubted} with {}", self.product(question))
                })
            }
            DoubtKind::HowMuch => {
                // "Percent", "out of 40": what the number in doubt was.
                let unit =
                    self.words.first().is_some_and(|first| first.is_any(words!("percent % pct out of")));
                if unit {
                    return Some(with(format!("{doubted} {}", self.bare())));
                }
                // The number in doubt gives way to the answer.
                let kept = doubted
                    .trim_end_matches(|letter: char| letter.is_ascii_digit() || letter == '.')
                    .trim_end();
                with(format!("{kept} {}", self.bare()))
            }
            _ => return None,
        })
    }

    fn bare(&self) -> &str {
        self.text.trim().trim_end_matches(['.', '!'])
    }

    /// The nicknames the answer means, in words a sentence can take.
    fn trees(&self, question: &OpenQuestion) -> Option<String> {
        if let Some(candidate) = self.candidate(question) {
            return Some(candidate);
        }
        let says = |texts: WordList| self.words.iter().any(|word| word.is_any(texts));
        let candidates = &question.doubt.candidates;
        if says(words!("both")) && candidates.len() == 2 {
            return Some(candidates.join(" and "));
        }
        if says(words!("all everything"))
            && self.names.mentions(self.words, self.text).len() <= 1
            && !says(words!("but except"))
        {
            let group = self.names.mentions(self.words, self.text).into_iter().next();
            let all = group.and_then(|mention| self.names.selection(&mention.trees, &[]));
            if matches!(all, None | Some(Selection::All)) {
                let whole = candidates.len() == self.context.garden.trees.len();
                return Some(if whole || question.doubt.kind == DoubtKind::UnknownTree {
                    String::from("everything")
                } else {
                    candidates.join(" and ")
                });
            }
        }
        let mentions = self.names.mentions(self.words, self.text);
        // "All of them from Wall": all the figs, and one tree.
        let of_all =
            |mention: &Mention| matches!(self.names.selection(&mention.trees, &[]), Some(Selection::All));
        let some = mentions.iter().any(|mention| !of_all(mention));
        let names: Vec<String> = mentions
            .iter()
            .filter(|mention| !(some && of_all(mention)))
            .filter(|mention| {
                question.doubt.kind == DoubtKind::WhichTree || self.names.unsure(&mention.trees).is_none()
            })
            .filter_map(|mention| self.names.selection(&mention.trees, &[]))
            .flat_map(|selection| selected(self.context.garden, &selection))
            .collect();
        // "The potted one", of those asked about.
        let offered: Vec<String> = names.iter().filter(|name| candidates.contains(name)).cloned().collect();
        let names =
            if question.doubt.kind == DoubtKind::WhichTree && !offered.is_empty() { offered } else { names };
        if names.len() == self.context.garden.trees.len() && names.len() > 1 {
            return Some(String::from("everything"));
        }
        (!names.is_empty()).then(|| names.join(" and "))
    }

    fn product(&self, question: &OpenQuestion) -> String {
        if let Some(candidate) = self.candidate(question) {
            return candidate;
        }
        // "It was copper", "with copper", but also "neem on Eave".
        let lead = self.words.iter().position(|word| {
            !word.is_mark()
                && !word.is_any(words!("it was with i used the using that's it's sprayed just um"))
        });
        let start = lead.and_then(|at| self.words.get(at)).map_or(0, |word| word.span.start);
        self.text.get(start..).unwrap_or(self.text).trim().trim_end_matches(['.', '!']).to_owned()
    }

    /// "2", "the second", or "yes" to a single one offered.
    fn candidate(&self, question: &OpenQuestion) -> Option<String> {
        let candidates = &question.doubt.candidates;
        let line: Vec<&str> =
            self.words.iter().filter(|word| !word.is_mark()).map(|word| word.text.as_str()).collect();
        let line = line.join(" ");
        let line = line.strip_prefix("the ").unwrap_or(&line);
        let line = line.strip_suffix(" one").unwrap_or(line);
        let index = match line {
            "first" | "1st" | "1" => 1,
            "second" | "2nd" | "2" => 2,
            "third" | "3rd" | "3" => 3,
            "fourth" | "4th" | "4" => 4,
            "last" => candidates.len(),
            "yes" | "yep" | "yeah" | "right" | "correct" | "y" if candidates.len() == 1 => 1,
            other => other.parse().ok()?,
        };
        candidates.get(index.checked_sub(1)?).cloned()
    }
}

/// What was said without a time happened when it was first said.
fn with_first_time(request: Request, question: &OpenQuestion) -> Request {
    match request {
        Request::Record(mut record) if record.when == When::Unsaid => {
            record.when = When::OnDay(question.said);
            Request::Record(record)
        }
        request => request,
    }
}
