//! A slip owned up to in whatever words, with one new value: "nope, closer to a gallon each", "Apologies, I tell a
//! lie, it was three", "12. fat fingers".
//!
//! The grammar of corrections knows many openings and closings; people know more. Where it found nothing and a
//! report was just told, one value of a kind that report holds, beside words that own up to a slip, is that value
//! told anew. Whatever is read so is said back, as every correction is.

use super::first_reading::{
    is_of_other_trees_instead, is_other_measure, is_same_told_again, opens_with_undo, says_nothing,
};
use super::told_anew::{is_same, report_of};
use super::value_alone::is_value_alone;
use super::{is_verb, left_out, of_amount, of_words, suits};
use crate::language::read::amounts::{Amount, amounts, volume};
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::moment;
use crate::language::read::names::{Names, Product, Trees};
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::{WordList, words};
use crate::language::read::{Context, Speech, records, spelling};
use crate::season::garden::same_name;
use crate::season::journal::{Entry, MoistureState, Report, RustAmount, RustWords, What};
use crate::season::request::{Aside, Correction, DoubtKind, Reading, Request, Selection, When};
use crate::season::selection::selected;
use crate::units::{Fraction, Litres};

const MOST_WORDS: usize = 26;

/// Reads a message again that made nothing of itself, as a slip in what was told just before: all of it, or its first
/// sentence ("I'm so sorry, that was Big One. The baby was crying.").
pub(in crate::language::read) fn read(text: &str, names: &Names, context: &Context, reading: &mut Reading) {
    read_stretch(text, names, context, reading);
    let first = text.split_once(". ").or_else(|| text.split_once("! "));
    if let Some((first, _)) = first.filter(|_| reading.doubts.is_empty() && says_nothing(reading)) {
        read_stretch(first, names, context, reading);
    }
}

fn read_stretch(text: &str, names: &Names, context: &Context, reading: &mut Reading) {
    let Some(last) = context.just_said() else { return };
    if super::is_of_something_else(&tokens(text)) {
        return;
    }
    if super::is_for_another_room(text) && says_nothing(reading) {
        return;
    }
    let again = is_same_told_again(reading, last, context);
    if is_of_other_trees_instead(text, names, reading, last, context) {
        let Some(Request::Record(record)) = reading.requests.first() else { return };
        *reading = Reading {
            requests: vec![Request::Correct(Correction::Trees(record.trees.clone()))],
            ..Reading::default()
        };
        return;
    }
    // "Wrong one. Eave": what was meant stands behind.
    const FEW: usize = 5;
    let wrong = reading.requests == [Request::Undo]
        && !names.mentions(&tokens(text), text).is_empty()
        && text.split_whitespace().count() <= FEW
        && text.to_ascii_lowercase().contains("wrong");
    let other = is_other_measure(reading, last);
    if !(again || wrong || other || says_nothing(reading)) || text.contains('?') {
        return;
    }
    // "Scratch that, those 9 were off my mom's tree"
    if reading.requests == [Request::Aside(Aside::Elsewhere)]
        && reading.doubts.is_empty()
        && opens_with_undo(text)
    {
        *reading = Reading { requests: vec![Request::Undo], ..Reading::default() };
        return;
    }
    if text.split_whitespace().take(MOST_WORDS + 1).count() > MOST_WORDS {
        return;
    }
    let mut tokens = tokens(text);
    spelling::mend(&mut tokens, names);
    if super::is_wish(&tokens) {
        return;
    }
    // "6/30", behind 4 of 30 leaves
    if matches!(report_of(last), Some(Report::Scouted { amount: RustAmount::Leaves { .. }, .. })) {
        for at in 1..tokens.len().saturating_sub(1) {
            if tokens[at].is("/") && tokens[at - 1].number.is_some() && tokens[at + 1].number.is_some() {
                tokens[at].reword("of");
            }
        }
    }
    let slip = Slip { speech: Speech::of(text, &tokens, names, context, Asked::No), last };
    let owned_up = slip.owns_up();
    // Two gauges within the hour are one rain read again; so is a stage told without its tree.
    let anew = matches!(slip.report(), Some(Report::Rained { .. } | Report::Stage { .. }));
    let alone = (!again || anew) && is_value_alone(&slip.speech, last);
    // Where it is asked already which of them, that is the better question.
    let torn = slip.is_torn() && reading.doubts.iter().all(|doubt| doubt.candidates.is_empty());
    if slip.is_of_something_else() || !(torn || owned_up || alone || !again && slip.opens_with_a_value()) {
        return;
    }
    // "No, 8 or 18, can't read my own writing", "either Big One or Eave, not sure any more"
    if torn {
        *reading =
            Reading { doubts: vec![super::doubt(DoubtKind::UnclearReport, text)], ..Reading::default() };
        return;
    }
    let found = slip.corrections();
    if found.is_empty() {
        if !again && slip.takes_all_back() {
            *reading = Reading { requests: vec![Request::Undo], ..Reading::default() };
        }
        return;
    }
    *reading = Reading { requests: found.into_iter().map(Request::Correct).collect(), ..Reading::default() };
}

pub(super) struct Slip<'a> {
    pub(super) speech: Speech<'a>,
    last: &'a Entry,
}

impl Slip<'_> {
    pub(super) fn report(&self) -> Option<&Report> {
        report_of(self.last)
    }

    pub(super) fn says(&self, list: WordList) -> bool {
        self.speech.tokens.iter().any(|token| token.is_any(list))
    }

    /// Words that take back what was said, wherever they stand, or that open what was said anew.
    fn owns_up(&self) -> bool {
        let tokens = self.speech.tokens;
        let tail = tokens.iter().rev().find(|token| !token.is_mark()).is_some_and(|last| last.is("undo"));
        let slip = tail || self.denies_the_figure() || self.says(words!(
            "cancel nah nope nay naw amend amended wait oops whoops oopsie sorry apologies apologise apologize pardon correction actually mistake mistaken wrong confused misread misheard miscounted misjudged mistyped misspoke typo recount recounted recounting kidding jk lie lying lied fib rather closer nearer reflection instead fumbled autocorrect glasses error erratum corrigendum excuse"
        ));
        // "Shoot, that was Wall", but "one shoot of Corner"; "fat fingers", but "dug my fingers in the dirt"
        let exclaimed = (0..tokens.len()).any(|at| {
            let leads = at == 0
                || tokens[at - 1].is_mark()
                || tokens[at - 1]
                    .is_any(words!("oh aw ah no wait well ok and so please can let's just actually"));
            leads && tokens[at].is_any(words!("dang darn shoot crap damn scratch scrap strike"))
                || tokens[at].is_any(words!("fingers thumb thumbs fingered"))
                    && !tokens.get(at + 1).is_some_and(|next| next.is_any(words!("in into on under deep at")))
        });
        let slip = slip || exclaimed;
        let pair = |one, other| tokens.windows(2).any(|pair| pair[0].is_any(one) && pair[1].is_any(other));
        // "Meant to water" is no slip of the tongue.
        let meant = tokens.iter().enumerate().any(|(index, token)| {
            token.is_any(words!("meant mean"))
                && !tokens.get(index + 1).is_some_and(|next| next.is_any(words!("to it that so")))
        });
        let anew = pair(words!("more"), words!("like"))
            || pair(
                words!("counted checked looked weighed measured read dug"),
                words!("again wrong over down twice one deeper better closer properly once"),
            )
            || pair(words!("turns turned"), words!("out"))
            || pair(words!("in"), words!("fact"))
            || pair(words!("find found"), words!("that it"))
            || pair(words!("the"), words!("correct right actual real"))
            || self.says(words!("forgive"))
            || self.denies_what_is_held()
            // "Got my trees mixed up", "I wrote 5 but it was 15"
            || pair(words!("mixed muddled"), words!("up"))
            || pair(words!("i we"), words!("wrote put typed said entered")) && self.says(words!("but"))
            // "Yesterday evening that was", "started Monday, to be exact"
            || {
                let end = tokens.iter().position(Token::is_mark).unwrap_or(tokens.len());
                end > 2 && tokens[end - 2].is("that") && tokens[end - 1].is("was")
            }
            // "Never mind, Bo already wrote that down", "I grabbed the other bottle"
            || pair(words!("never"), words!("mind"))
            || pair(words!("other wrong"), words!("bottle tin bag jug can tub box packet"))
            || pair(words!("be"), words!("exact precise"))
            || pair(words!("was"), words!("off"))
            || pair(words!("my"), words!("bad"))
            || pair(words!("too"), words!("soon")) && self.says(words!("spoke spoken jumped said"))
            // "I forgot to take off the bowl! Call it a pound and a half"
            || tokens.windows(3).any(|three| {
                three[0].is_mark() && three[1].is_any(words!("call make put")) && three[2].is_any(words!("it that"))
            }) && tokens.iter().any(|token| token.number.is_some())
            // "That should be 3", "date should read 7/9"; "Wall should be ready" plans.
            || tokens.windows(3).any(|three| {
                three[0].is_any(words!("that it this above date number figure amount which mass weight count volume depth rate total reading"))
                    && three[1].is("should")
                    && three[2].is_any(words!("be have read say"))
            })
            || tokens.first().is_some_and(|first| first.is("should"))
                && tokens.get(1).is_some_and(|next| {
                    next.is_any(words!("be read say"))
                        || next.is("have") && tokens.get(2).is_some_and(|been| been.is_any(words!("been said read put written")))
                })
            || tokens.first().is_some_and(|first| first.is_any(words!("put make change call set")))
                && tokens.get(1).is_some_and(|next| next.is_any(words!("that it")))
                // "Put it at the wall" is of something else.
                && tokens.iter().any(|token| token.number.is_some())
            || tokens.windows(3).any(|three| three[0].is("s") && three[1].is("/") && three[2].is("b"));
        let mut heads = tokens.iter().filter(|token| !token.is_mark());
        let opens = heads.next().is_some_and(|first| {
            first.is_any(words!("was were twas hang hold hm hmm er"))
                // "Um, Celeste"; "um I picked 14 off Big One" only draws breath.
                || first.is_any(words!("um ah oh")) && !tokens.iter().any(|token| is_verb(token.senses))
                // "No, ..." and "not 9, ..." take back; "no trust on Wall" does not.
                || first.is("no") && tokens.get(1).is_some_and(|next| next.is_mark() || next.is_any(words!("no it that it's its is they they're theyre i only just not")))
                // "Just Celeste, ran out"
                || first.is_any(words!("just only"))
                    && self.speech.mentions.first().is_some_and(|mention| mention.range.start <= 2)
                || first.is("not")
                    && (tokens.get(1).is_some_and(|next| next.number.is_some() || next.senses.has(Sense::Unit))
                        || self.says(words!("only just but still"))
                        // "Not Wall. Corner."
                        || tokens.len() <= 6 && !self.speech.mentions.is_empty())
        });
        let says_so = pair(words!("says said reckons thinks"), words!("it it's its that they there"));
        slip || meant || anew || opens || says_so
    }

    /// "So it's 11 and not 4", where 4 was told.
    fn denies_the_figure(&self) -> bool {
        let Some(Report::Picked { count: Some(count), .. }) = self.report() else { return false };
        let tokens = self.speech.tokens;
        let denied = tokens.windows(2).any(|pair| {
            pair[0].is("not") && pair[1].number.is_some_and(|number| number == f64::from(*count))
        });
        denied && tokens.iter().filter(|token| token.number.is_some()).count() == 2
    }

    /// "..., and it is wet, not moist": what was told is denied in so many words.
    fn denies_what_is_held(&self) -> bool {
        let Some(Report::Moisture { state } | Report::Weighed { state, .. }) = self.report() else {
            return false;
        };
        let held = match state {
            MoistureState::Dry => Sense::Dry,
            MoistureState::Moist => Sense::Moist,
            MoistureState::Wet => Sense::Wet,
        };
        self.speech.tokens.windows(2).any(|pair| pair[0].is("not") && pair[1].senses.has(held))
    }

    /// One or the other, and which is not known.
    fn is_torn(&self) -> bool {
        let tokens = self.speech.tokens;
        let either = tokens
            .windows(3)
            .any(|three| three[1].is("or") && three[0].number.is_some() && three[2].number.is_some())
            || self.speech.mentions.iter().any(|mention| mention.trees.either);
        let unsure = self.says(words!("either can't cant unsure dunno maybe"))
            || tokens.windows(2).any(|pair| pair[0].is("not") && pair[1].is_any(words!("sure certain")));
        either && unsure
    }

    /// "12. fat fingers", "quart. not gal": the value first, in few words.
    fn opens_with_a_value(&self) -> bool {
        const MOST: usize = 8;
        let tokens = self.speech.tokens;
        let first = tokens.iter().find(|token| !token.is_mark());
        let denies = tokens.iter().skip(1).any(|token| token.is("not"));
        let slips = tokens.iter().filter(|token| token.is_word()).count() <= 3;
        tokens.len() <= MOST
            && self.speech.mentions.is_empty()
            && (first.is_some_and(|first| first.senses.has_any(&[Sense::Lower, Sense::Middle, Sense::Upper]))
                && tokens.get(1).is_some_and(Token::is_mark)
                || denies && first.is_some()
                || slips
                    && first.is_some_and(|first| first.number.is_some())
                    && tokens.get(1).is_some_and(Token::is_mark)
                // "2 lb. scale was off"
                || first.is_some_and(|first| first.number.is_some())
                    && tokens.get(1).is_some_and(|unit| unit.senses.has(Sense::Unit))
                    && tokens.get(2).is_some_and(|next| next.is_mark() || next.is_any(words!("scale gauge bucket jug cup")))
                    && tokens.iter().filter(|token| token.number.is_some()).count() == 1)
            && tokens.iter().any(|token| token.is_any(words!(". , ; !")))
    }

    /// What stands behind "not" is what was told before; the rest is what is meant.
    fn meant(&self) -> (Vec<Token>, Vec<Token>) {
        const MOST_DENIED: usize = 4;
        let tokens = self.speech.tokens;
        let mut kept = Vec::new();
        let mut denied = Vec::new();
        let mut index = 0;
        while index < tokens.len() {
            // "Put that at 3 and a half" is no hour.
            let led = index > 1
                && tokens[index - 1].is_any(words!("that it this"))
                && tokens[index - 2].is_any(words!("put make call set change"));
            if led && tokens[index].is_any(words!("at to as down")) {
                index += 1;
                continue;
            }
            // "I did that Monday, because Tuesday was the dentist": why, not when.
            let ran_out = tokens[index].is("ran") && tokens.get(index + 1).is_some_and(|next| next.is("out"));
            if (tokens[index].is_any(words!("because cause cuz since")) || ran_out) && index > 0 {
                break;
            }
            if !tokens[index].is_any(words!("not isn't wasn't wasnt isnt")) {
                kept.push(tokens[index].clone());
                index += 1;
                continue;
            }
            let behind = tokens[index + 1..]
                .iter()
                .take(MOST_DENIED)
                .take_while(|token| !token.is_mark() && !token.is_any(words!("but it its it's")))
                .count();
            denied.extend_from_slice(&tokens[index + 1..=index + behind]);
            index += 1 + behind;
        }
        (kept, denied)
    }

    fn corrections(&self) -> Vec<Correction> {
        let Some(report) = self.report() else { return Vec::new() };
        let (kept, denied) = self.meant();
        let meant = self.speech.part(&kept);
        let unmeant = self.speech.part(&denied);
        let mut found: Vec<Correction> = Vec::new();
        let named: Vec<usize> = meant.mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let when = moment(&kept, &named, meant.now());
        if when.impossible {
            return Vec::new();
        }
        let mut taken = named.clone();
        taken.extend(&when.used);
        match self.value(&meant, &taken, report) {
            Value::None => {}
            Value::One(value) => found.push(value),
            Value::Several => return Vec::new(),
        }
        if found.is_empty() {
            found.extend(unit_for_unit(&kept, &denied, report));
        }
        if found.is_empty() {
            found.extend(self.in_words(&kept, report));
        }
        if let Report::Sprayed { product, .. } = report
            && let Some(Product::Known { name, .. }) =
                meant.names.products_in(&kept, &named).into_iter().next()
            && !same_name(&name, product)
        {
            found.push(Correction::Product(name));
        }
        match self.trees(&meant, &unmeant, !found.is_empty()) {
            Meant::Nothing => {}
            Meant::Trees(trees) => found.push(Correction::Trees(trees)),
            Meant::Unclear => return Vec::new(),
        }
        // "Sorry for the mess in here yesterday" tells of no work.
        let leads = when.used.iter().min().is_some_and(|first| {
            first.checked_sub(1).and_then(|at| kept.get(at)).is_none_or(|before| {
                before.is_mark()
                    || before.is_any(words!(
                        "was were it it's its those them these twas that on wait no actually said meant mean from yesterday read be say is to"
                    ))
            })
        });
        if leads && when.is_said() && !when.is_beyond(meant.now()) {
            match when.when(meant.now()) {
                When::At(at) | When::OnDay(at) if at > self.speech.context.at => return Vec::new(),
                // "No, that was today", told of yesterday; "I looked again just now" is no other time.
                When::Unsaid => {
                    let today = self.says(words!("today"))
                        && self.speech.context.at - self.last.happened > chrono::TimeDelta::hours(20);
                    if today && found.is_empty() {
                        found.push(Correction::When(When::OnDay(self.speech.context.at)));
                    }
                }
                told if found.is_empty() => found.push(Correction::When(told)),
                _ => {}
            }
        }
        found
    }

    /// The one amount of a kind the report holds that is not the one it holds already.
    fn value(&self, meant: &Speech, taken: &[usize], report: &Report) -> Value {
        let units = self.speech.context.garden.units;
        let figures = !matches!(
            report,
            Report::Scouted { amount: RustAmount::None | RustAmount::Words(_), .. }
                | Report::LeafDrop { share: None }
        );
        let mut found: Vec<Correction> = Vec::new();
        for measured in amounts(meant.tokens, taken, units) {
            let count = matches!(measured.amount, Amount::Count(_));
            let before = measured.from.checked_sub(1).and_then(|at| meant.tokens.get(at));
            // "The last one", "found one in my pocket": no figure of what was told.
            let aside = before.is_some_and(|before| {
                before.is_any(words!(
                    "last this that the first other which each every those these them big little wrong"
                )) || !found.is_empty()
                    && before.is_any(words!("found missed forgot dropped ate i'd had left hid"))
            });
            // "The bus had 3 stops": of something else.
            let of_things = meant.tokens.get(measured.to).is_some_and(|next| {
                !(next.is_mark()
                    || next.senses.has_any(&[Sense::Fig, Sense::Link, Sense::Filler, Sense::Mine, Sense::Time])
                    || next.is_any(words!("not instead of off total in here there all and but because cause it that them sorry lol so she he period actually really rather though tho haha darn figs")))
            });
            if count && (aside || of_things) {
                continue;
            }
            let odd = matches!(measured.amount, Amount::Impossible | Amount::Temperature(_))
                || matches!(measured.amount, Amount::Depth(depth) if depth > records::MOST_RAIN);
            if odd {
                return Value::Several;
            }
            // "Half the leaves"
            if let Amount::Count(part) = measured.amount
                && matches!(report, Report::Scouted { .. } | Report::LeafDrop { .. })
                && part > 0.0
                && part < 1.0
            {
                let share = Fraction::from_percent(part * 100.0).map(RustAmount::Severity);
                found.extend(share.map(Correction::Severity));
                continue;
            }
            if count && !figures {
                continue;
            }
            let correction = match measured.amount {
                // "Closer to a gallon each", where no volume was told: of this report all the same.
                Amount::Volume(volume) => Some(Correction::Volume(volume)),
                amount => of_amount(amount, Some(report), units),
            };
            let Some(correction) = correction else { continue };
            if !suits(Some(report), &correction) {
                return Value::Several;
            }
            if !is_held(report, &correction) && !found.contains(&correction) {
                found.push(correction);
            }
        }
        match found.len() {
            0 => Value::None,
            1 => found.pop().map_or(Value::None, Value::One),
            _ => Value::Several,
        }
    }

    /// "Its moist further down", "found a couple of spots on it".
    fn in_words(&self, kept: &[Token], report: &Report) -> Option<Correction> {
        let has = |sense: Sense| kept.iter().any(|token| token.senses.has(sense));
        if let Report::Moisture { state } = report {
            let mut states = vec![
                (has(Sense::Dry), MoistureState::Dry),
                (has(Sense::Moist), MoistureState::Moist),
                (has(Sense::Wet), MoistureState::Wet),
            ];
            states.retain(|(said, told)| *said && told != state);
            let [(_, state)] = states.as_slice() else { return None };
            return Some(Correction::Moisture(*state));
        }
        if let Report::Scouted { amount: RustAmount::None, .. } = report
            && kept.iter().any(|token| token.senses.has_any(&[Sense::Spots, Sense::Rust]))
            && kept
                .iter()
                .any(|token| token.is_any(words!("couple few one two three tiny small little single bit")))
        {
            return Some(Correction::Severity(RustAmount::Words(RustWords::Trace)));
        }
        of_words(kept, Some(report))
    }

    fn trees(&self, meant: &Speech, unmeant: &Speech, with_value: bool) -> Meant {
        let What::Report { trees: before, .. } = &self.last.what else { return Meant::Nothing };
        let garden = self.speech.context.garden;
        let mut trees = Trees::default();
        for mention in &meant.mentions {
            trees = trees.together(mention.trees.clone());
        }
        if trees.is_empty() {
            let mut denied = Trees::default();
            for mention in &unmeant.mentions {
                denied = denied.together(mention.trees.clone());
            }
            if denied.is_empty() || with_value {
                return Meant::Nothing;
            }
            return left_out(unmeant, &denied, Some(self.last)).map_or(Meant::Unclear, Meant::Trees);
        }
        if trees.is_vague() || meant.names.unsure(&trees).is_some() {
            // "It", "that one": the same tree.
            return if trees.names_some() { Meant::Unclear } else { Meant::Nothing };
        }
        let Some(selection) = meant.names.selection(&trees, &[]) else { return Meant::Nothing };
        let named = selected(garden, &selection);
        if is_same(&named, before) {
            return Meant::Nothing;
        }
        // "No, Celeste got 2", behind four trees told at once: which of them the rest had is not said.
        let part = named.iter().all(|name| before.iter().any(|known| same_name(known, name)));
        if part && with_value { Meant::Unclear } else { Meant::Trees(selection) }
    }

    /// "Scrap that", "I put that down wrong, never mind the whole thing".
    fn takes_all_back(&self) -> bool {
        let tokens = self.speech.tokens;
        let pair = |one, other| tokens.windows(2).any(|pair| pair[0].is_any(one) && pair[1].is_any(other));
        let says_more = tokens.iter().any(|token| token.number.is_some() && !token.is("one"))
            || !self.speech.mentions.is_empty()
            || self
                .speech
                .names
                .products_in(tokens, &[])
                .iter()
                .any(|product| matches!(product, Product::Known { .. }));
        let order = pair(
            words!("scratch scrap strike forget ignore cancel disregard erase delete undo nix kill"),
            words!("that this it last them those the"),
        ) || tokens.windows(3).any(|three| {
            three[0].is("never") && three[1].is("mind") && three[2].is_any(words!("that it all the them"))
        });
        let away = tokens.windows(3).any(|three| {
            three[0].is_any(words!("take cross strike"))
                && three[1].is_any(words!("that it this"))
                && three[2].is_any(words!("away out off back down"))
        });
        let order = order || away;
        // "That didn't happen", "never mind, Bo already wrote that down", "..., undo!!"
        let never = pair(words!("that it"), words!("didn't never")) && self.says(words!("happen happened"));
        let told_already = self.says(words!("already"))
            && self.says(words!("wrote logged put told entered reported"))
            && (pair(words!("never"), words!("mind")) || self.says(words!("nevermind nvm")));
        let last = tokens.iter().rev().find(|token| !token.is_mark());
        let undo = last.is_some_and(|last| last.is("undo"))
            || tokens.first().is_some_and(|first| first.is("cancel"));
        let order = order || never || told_already || undo;
        let figures = tokens.iter().any(|token| token.number.is_some());
        let says_more = says_more && (figures || !undo);
        // "Wait no I didn't, the hose was off"
        let not_done = tokens.windows(2).enumerate().any(|(index, pair)| {
            let next = tokens.get(index + 2);
            pair[0].is_any(words!("i we"))
                && pair[1].is_any(words!("didn't didnt haven't havent never"))
                && next.is_none_or(|next| {
                    next.is_mark() || next.is_any(words!("lol sorry actually haha it after yet"))
                })
        });
        (order || not_done) && !says_more
    }
}

enum Value {
    None,
    One(Correction),
    Several,
}

enum Meant {
    Nothing,
    Trees(Selection),
    Unclear,
}

/// Whether the report says so already.
fn is_held(report: &Report, correction: &Correction) -> bool {
    const NEAR: f64 = 1e-6;
    let same = |one: f64, other: f64| (one - other).abs() <= NEAR * one.abs().max(1.0);
    match (report, correction) {
        (
            Report::Watered { volume: Some(held), .. } | Report::Sprayed { volume: Some(held), .. },
            Correction::Volume(told),
        ) => same(held.value(), told.value()),
        (Report::Picked { count: Some(held), .. }, Correction::Number(told)) => same(f64::from(*held), *told),
        (
            Report::Picked { mass: Some(held), .. } | Report::Weighed { mass: held, .. },
            Correction::Mass(told),
        ) => same(held.value(), told.value()),
        (Report::Rained { depth: held }, Correction::Depth(told)) => same(held.value(), told.value()),
        (Report::Scouted { amount: held, .. }, Correction::Severity(told)) => held == told,
        _ => false,
    }
}

/// "Quart. not gal": the same figure in another measure.
fn unit_for_unit(kept: &[Token], denied: &[Token], report: &Report) -> Option<Correction> {
    let (Report::Watered { volume: Some(held), .. } | Report::Sprayed { volume: Some(held), .. }) = report
    else {
        return None;
    };
    let measure = |tokens: &[Token]| {
        let mut found = tokens.iter().filter_map(|token| volume(&token.text));
        found.next().filter(|_| found.next().is_none())
    };
    let (new, old) = (measure(kept)?, measure(denied)?);
    Some(Correction::Volume(Litres::new(held.value() / old * new)))
}
