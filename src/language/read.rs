//! What was typed into what is asked for. Reading never fails: what is not understood is a doubt.
//!
//! No model and no network: words with senses, names of the garden, amounts and moments, put together clause
//! by clause. What looks like a report but speaks of the future, a condition, another garden or another year
//! is not one.

mod addition;
mod amounts;
mod apart;
mod asides;
mod asked_of;
mod asked_on;
mod asks;
mod clauses;
mod corrections;
mod fine_too;
mod follow_up;
mod going_on;
mod idioms;
mod impossible;
mod in_passing;
mod kept;
mod learnt;
mod lexicon;
mod likeness;
mod lost;
mod mistyped;
mod moments;
mod mood;
mod names;
mod not_done;
mod not_yet;
mod noted_behind;
mod once;
mod part_by_part;
mod places;
mod plainness;
mod prepared;
mod records;
mod repair;
mod self_repaired;
mod set_anew;
mod settings;
mod spelling;
mod story;
mod tokens;
mod typed;
mod undo;
mod word_list;

pub use self::likeness::marks_of;
pub use self::moments::moment_ahead;

use self::not_done::{heads_plans, is_to_somebody, tells_of_work_done};

use chrono::{DateTime, Utc};
use chrono_tz::Tz;

use crate::season::calendar::local_date;
use crate::season::garden::Garden;
use crate::season::journal::{Entry, Report, Timing, What};
use crate::season::request::{
    Aside, Correction, Doubt, DoubtKind, OpenQuestion, Question, Reading, Record, Request, When,
};
use crate::season::selection::selected;

/// What a message is read against.
pub struct Context<'a> {
    pub garden: &'a Garden,
    /// The message's own time.
    pub at: DateTime<Utc>,
    pub zone: Tz,
    /// What was asked back of this person and is not answered yet.
    pub open_question: Option<&'a OpenQuestion>,
    /// The last thing this person reported, for corrections.
    pub last: Option<&'a Entry>,
    /// All that stands of the message that told it, for "Corner was 7".
    pub last_message: &'a [Entry],
    /// The question this person was answered last, if that is not long ago, for "and Corner?".
    pub answered: Option<&'a Question>,
    /// What the bot answers to.
    pub bot_name: &'a str,
}

/// What was reported longer ago is not gone on with in a few words.
const JUST_SAID: chrono::TimeDelta = chrono::TimeDelta::hours(1);

impl<'a> Context<'a> {
    /// The last report of this person, if it was told just now.
    fn just_said(&self) -> Option<&'a Entry> {
        self.last.filter(|last| self.at - last.said <= JUST_SAID)
    }
}

pub fn read(text: &str, context: &Context) -> Reading {
    let (typed, cut_off) = prepared::prepared(text, context.bot_name);
    let plain = typed::with_plain_apostrophes(&typed);
    let text = mistyped::mended(&plain);
    let text = mistyped::with_apostrophes(&text, context.garden);
    let text = self_repaired::held(&text);
    let names = names::Names::of(context.garden);
    let gone_on =
        follow_up::answer(&text, &names, context).or_else(|| asked_on::read(&text, &names, context));
    let stands_alone = gone_on.is_none();
    let mut reading = gone_on.unwrap_or_else(|| {
        let whole = fresh(&text, &names, context);
        story::left_out(&text, &whole, context, |told| fresh(told, &names, context))
            .or_else(|| apart::read(&text, &whole, context))
            .or_else(|| set_anew::read(&text, &whole, context, |told| fresh(told, &names, context)))
            .or_else(|| part_by_part::read(&text, &whole, &names, context))
            .unwrap_or(whole)
    });
    if cut_off {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, "the rest of a very long message"));
    }
    kept::in_own_words(&plain, &mut reading);
    reading.wording = plainness::wording(&plain, &reading, &names, context);
    if stands_alone && let Some(guessed) = likeness::read(&text, &reading, &names, context) {
        reading = guessed;
    }
    typed::keep(&typed, &plain, &mut reading);
    reading
}

/// Reads a message on its own, whatever was asked before.
fn fresh(text: &str, names: &names::Names, context: &Context) -> Reading {
    let mut reading = Reading::default();
    if text.trim().is_empty() {
        return reading;
    }
    if let Some(settings) = settings::list(text, context) {
        return settings;
    }
    // "Be there in 10, save me a seat!! Oops wrong chat": none of it was for this garden.
    if corrections::is_for_another_room(text) && names.mentions(&tokens::tokens(text), text).is_empty() {
        reading.requests.push(Request::Aside(Aside::Talk));
        return reading;
    }
    let noted = noted_behind::told(text).map(|told| (fresh(told, names, context), format!("note: {told}")));
    let text = match &noted {
        Some((reported, _))
            if reported.requests.iter().any(|request| !matches!(request, Request::Aside(_))) =>
        {
            return reported.clone();
        }
        // A plan, or a day that lies ahead, is none of its notes either.
        Some((reported, _))
            if !reported.doubts.iter().all(|doubt| {
                doubt.kind == DoubtKind::NotUnderstood || doubt.kind == DoubtKind::UnclearReport
            }) =>
        {
            return reported.clone();
        }
        Some((_, note)) => note.as_str(),
        None => text,
    };
    let told = idioms::in_plain_words(text);
    let told = in_passing::without(&told);
    let told = in_passing::without_meanwhile(&told, names);
    let told = in_passing::with_samples(&told);
    let told = not_yet::without(&told, names);
    let told = fine_too::as_moist(&told, names);
    let told = clauses::with_or_not_asked(&told);
    let told = clauses::with_ordinal_points(&told);
    let told = clauses::with_days_apart(&told);
    let told = clauses::with_lists_apart(&told);
    let told = clauses::with_levels_apart(&told);
    let without_tails = asides::without_idle_tails(&told);
    let text = without_tails.as_ref();
    let mut memory = records::Memory::default();
    let mut planned = false;
    let sentences = going_on::whole_sentences(text, names, context);
    for (index, whole) in sentences.iter().enumerate() {
        let sentence = whole.sentence();
        memory.expects_more(index + 1 < sentences.len() && text.contains('\n'));
        // "Jobs for tomorrow:\n- water pots\n- neem on Corner": none of it is done.
        if planned && !sentence.text.contains('?') && !tells_of_work_done(sentence.text) {
            reading.requests.push(Request::Aside(Aside::Plan));
            continue;
        }
        if heads_plans(sentence.text, names) {
            planned = true;
            reading.requests.push(Request::Aside(Aside::Plan));
            continue;
        }
        let told = learnt::put_right(sentence.text, names);
        let text = repair::mended(&told, names, context);
        let asked = if told.ends_with('?') { clauses::Asked::Yes } else { sentence.asked };
        let sentence = clauses::Sentence { text: &text, asked, ..sentence };
        let before = reading.requests.len();
        read_sentence(sentence, names, context, &mut memory, &mut reading);
        // "He was spraying copper on his. No rust on it at all": of the same one.
        let of_theirs = before > 0
            && reading.requests[before - 1] == Request::Aside(Aside::Elsewhere)
            && names
                .mentions(&tokens::tokens(sentence.text), sentence.text)
                .iter()
                .all(|mention| mention.trees.is_vague())
            && tokens::tokens(sentence.text)
                .iter()
                .any(|token| token.is_any(word_list::words!("it its his hers theirs")));
        if of_theirs {
            for request in &mut reading.requests[before..] {
                if matches!(request, Request::Record(Record { report: Report::Scouted { .. }, .. })) {
                    *request = Request::Aside(Aside::Elsewhere);
                }
            }
        }
        // "I hope to spray tomorrow. Copper on Corner, I think": with what.
        let goes_on = before > 0
            && matches!(reading.requests[before - 1], Request::Aside(Aside::Plan | Aside::Condition))
            && !told.contains('\n')
            && !tells_of_work_done(sentence.text);
        if goes_on {
            for request in &mut reading.requests[before..] {
                let spray = matches!(
                    request,
                    Request::Record(Record { report: Report::Sprayed { .. }, when: When::Unsaid, .. })
                );
                if spray {
                    *request = Request::Aside(Aside::Plan);
                }
            }
        }
    }
    memory.release(&mut reading);
    once::count(&mut reading);
    addition::read(text, names, context, &mut reading);
    records::tell_apart(&mut reading, context.garden);
    if reading.requests.is_empty() && reading.doubts.is_empty() {
        reading.requests.push(Request::Aside(Aside::Talk));
    }
    once::tell(text, &mut reading);
    asked_of::settle(text, &mut reading);
    asked_of::settle_notes(&mut reading);
    asked_of::settle_behind(text, context, &mut reading);
    asked_of::settle_new_tree(context, &mut reading);
    asked_of::settle_mixes(text, context, &mut reading);
    asked_of::settle_pairs(text, names, &mut reading);
    once::ask(&mut reading.requests);
    kept::keep_what_matters(names, &mut reading);
    kept::keep_from_loss(text, names, context, &mut reading);
    kept::doubt_torn_days(text, &mut reading);
    kept::greet_in_passing(text, names, &mut reading);
    corrections::read_slip(text, names, context, &mut reading);
    corrections::drop_unchanged(context, &mut reading);
    kept::with_address(&mut reading);
    impossible::doubted(text, &mut reading);
    kept::drop_jokes(text, &mut reading);
    reading
}

fn read_sentence(
    sentence: clauses::Sentence,
    names: &names::Names,
    context: &Context,
    memory: &mut records::Memory,
    reading: &mut Reading,
) {
    let text = sentence.text;
    // "Copper on Wall. Not on Corner": the second corrects what the first told, not what was told before.
    let own = told_before(reading, context);
    let last_message = if own.is_some() { &[] } else { context.last_message };
    let context = &Context { last: own.as_ref().or(context.last), last_message, ..*context };
    if let Some(setting) = places::position(text) {
        return settings::add_position(setting, reading);
    }
    if places::is_nowhere(text) {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, text));
        return;
    }
    if let Some(words) = asides::mixed_letters(text) {
        reading.doubts.push(doubt(DoubtKind::LookAlikeLetters, words));
        return;
    }
    let mut tokens = tokens::tokens(text);
    if tokens.iter().all(tokens::Token::is_mark) {
        return asides::signs(text, reading);
    }
    if sentence.asked == clauses::Asked::Yes && asides::is_other_language(text) {
        reading.doubts.push(doubt(DoubtKind::OtherLanguage, text));
        return;
    }
    spelling::mend(&mut tokens, names);
    // "Plan: copper on Wall Saturday", "my plan for next week: copper on Wall Tuesday"
    const HEAD: usize = 8;
    let colon = tokens.iter().take(HEAD).position(|token| token.is(":"));
    let planned = colon.is_some_and(|colon| {
        colon > 0
            && tokens[..colon].iter().any(|token| token.is_any(word_list::words!("plan plans planning todo")))
            && !tokens[..colon].iter().any(|token| token.number.is_some())
    });
    if planned {
        return reading.requests.push(Request::Aside(Aside::Plan));
    }
    if is_to_somebody(&tokens, names, text) {
        return reading.requests.push(Request::Aside(Aside::Talk));
    }
    let polite = asks::told_politely(&tokens);
    let ordered = asks::ordered_politely(&tokens);
    // "Could you change that to yesterday?"
    if polite == 0
        && ordered > 0
        && tokens.get(ordered).is_some_and(|verb| verb.is_any(word_list::words!("make change put")))
    {
        let speech = Speech::of(text, &tokens[ordered..], names, context, clauses::Asked::No);
        let mut told = Reading::default();
        if corrections::read(&speech, &mut told) && told.doubts.is_empty() {
            memory.release(reading);
            return append(reading, told);
        }
    }
    if polite == 0 && ordered > 0 && settled(text, &tokens[ordered..], names, context, reading) {
        memory.release(reading);
        return;
    }
    let sentence =
        if polite > 0 { clauses::Sentence { asked: clauses::Asked::No, ..sentence } } else { sentence };
    // "Maybe 10% rust on Celeste?" reports, and is not sure.
    let asked = if asks::is_hedged_report(&tokens) { clauses::Asked::No } else { sentence.asked };
    // "is eave thirsty", as it is typed without its mark
    let asked = if asks::asks_of_a_state(&tokens, text, names) { clauses::Asked::Yes } else { asked };
    let tokens = tokens.split_off(polite);
    let speech = Speech::of(text, &tokens, names, context, asked);
    let mut told = Reading::default();
    read_speech(&speech, memory, &mut told);
    // "Please write down that the birds are about": kept, as it reports nothing else.
    if polite > 0 && is_idle(&told) && !memory.holds() {
        told = Reading::default();
        records::keep_note(&speech, &mut told);
    }
    // "Sulfur, not neem. My error.": put right already, and not taken back.
    let corrected = reading.requests.iter().any(|request| matches!(request, Request::Correct(_)));
    if corrected && told.requests == [Request::Undo] && corrections::only_owns_up(&tokens) {
        return;
    }
    append(reading, told);
}

/// "Could you please | rename Whip to Junior?": the order behind its politeness, if it settles or notes something.
fn settled(
    text: &str,
    tokens: &[tokens::Token],
    names: &names::Names,
    context: &Context,
    reading: &mut Reading,
) -> bool {
    let speech = Speech::of(text, tokens, names, context, clauses::Asked::No);
    let mut told = Reading::default();
    if !settings::read(&speech, &mut told) && !records::read_note(&speech, &mut told) {
        return false;
    }
    append(reading, told);
    true
}

/// The last report of the same message, as it will stand in the journal.
fn told_before(reading: &Reading, context: &Context) -> Option<Entry> {
    // "Wrong tree, the 9 was Big One. Celeste gave 4": the first stands put right when the second is read.
    if let Request::Correct(Correction::Trees(anew)) = reading.requests.last()? {
        let last = context.last?;
        let What::Report { report, .. } = &last.what else { return None };
        let what = What::Report { trees: selected(context.garden, anew), report: report.clone() };
        return Some(Entry { what, ..last.clone() });
    }
    let Request::Record(record) = reading.requests.last()? else { return None };
    let of_garden = matches!(record.report, Report::Rained { .. } | Report::Frost { .. });
    let trees = if of_garden { Vec::new() } else { selected(context.garden, &record.trees) };
    let last = context.last?;
    Some(Entry {
        who: last.who.clone(),
        event: last.event.clone(),
        said: context.at,
        happened: context.at,
        timing: Timing::Assumed,
        what: What::Report { trees, report: record.report.clone() },
    })
}

fn is_idle(told: &Reading) -> bool {
    told.requests.iter().all(|request| *request == Request::Aside(Aside::Talk))
        && told.doubts.iter().all(|doubt| doubt.kind == DoubtKind::NotUnderstood)
}

fn read_speech(speech: &Speech, memory: &mut records::Memory, reading: &mut Reading) {
    let tokens = speech.tokens;
    let mut other = Reading::default();
    // "The frost, when does it come?" reports no frost.
    let within =
        asks::question_within(tokens, speech.asked).filter(|_| !asks::is_for_people(speech)).filter(|at| {
            let words = tokens[..*at].iter().filter(|token| token.is_word()).count();
            let only_names = (0..*at).all(|index| {
                let token = &tokens[index];
                token.is_mark()
                    || token.senses.has(lexicon::Sense::Article)
                    // "The copper, can one mix it with the neem?"
                    || token.senses.has_any(&[
                        lexicon::Sense::Copper,
                        lexicon::Sense::Sulfur,
                        lexicon::Sense::Oil,
                    ])
                    || token.is_any(word_list::words!("for on about and or in ones tree trees pot against vs versus"))
                    || speech.mentions.iter().any(|mention| mention.range.contains(&index))
            });
            // "Mixing up 2 gallons of copper, how much do I put in?" is one question.
            let mixing = tokens[..*at].iter().any(|token| token.is_any(word_list::words!("mixing mix")));
            let frost = tokens[..*at].iter().any(|token| token.senses.has(lexicon::Sense::Frost));
            // "Bo says it's time for copper again, is it?"
            let tag = asks::is_tag(&tokens[*at..])
                && tokens[..*at]
                    .iter()
                    .any(|token| token.is_any(word_list::words!("says said reckons thinks heard tells")));
            // "Sulfur and neem in the one can, would that hurt anything?"
            let sprays = speech.names.partners(&tokens[..*at]).len() > 1
                && !tokens[..*at].iter().any(|token| {
                    token.senses.has_any(&[
                        lexicon::Sense::Sprayed,
                        lexicon::Sense::Applied,
                        lexicon::Sense::Gave,
                    ])
                })
                && speech.mentions.is_empty();
            // "With copper on Wall, how soon may I pick there?"
            let with = tokens[0].is("with")
                && !tokens[..*at].iter().any(|token| {
                    token.senses.has_any(&[lexicon::Sense::Sprayed, lexicon::Sense::Be, lexicon::Sense::Have])
                });
            !(mixing || only_names || tag || sprays || with || words <= 2 && frost)
        });
    // "No, that was Corner, and watered Whip because it drooped": put right, and more told.
    if let Some((end, start)) = corrections::and_more(tokens) {
        let mut put_right = Reading::default();
        let read = corrections::read(&speech.part(&tokens[..end]), &mut put_right);
        if read && put_right.requests.iter().all(|request| matches!(request, Request::Correct(_))) {
            memory.release(reading);
            append(reading, put_right);
            return records::read(&speech.part(&tokens[start..]), memory, reading);
        }
    }
    // "Whip is in a 7 gal pot now, watered it in": settled, and then done.
    if let Some(at) = settings::and_then_work(speech) {
        let settled = speech.part(&tokens[..at]);
        let mut first = Reading::default();
        if settings::read(&settled, &mut first)
            && matches!(first.requests.as_slice(), [Request::Set(crate::season::request::Setting::Tree(_))])
        {
            memory.release(reading);
            memory.speak_of(&settled);
            append(reading, first);
            return records::read(&speech.part(&tokens[at + 1..]), memory, reading);
        }
    }
    let meant = memory.last_trees().cloned().or_else(|| addition::trees_meant(speech));
    if undo::read(speech, &mut other)
        || asides::short(speech, &mut other)
        || settings::message_hour(speech, &mut other)
        || !corrections::is_of_something_else(tokens) && corrections::read(speech, &mut other)
        || settings::read(speech, &mut other)
        || within.is_none() && asks::read(speech, meant.as_ref(), &mut other)
    {
        memory.release(reading);
        // "Watered the pots and we're away, so keep quiet until Sunday": done, and then settled.
        let silenced = matches!(
            other.requests.as_slice(),
            [Request::Set(crate::season::request::Setting::Quiet { .. })]
        );
        if let Some(end) = settings::done_before(tokens).filter(|_| silenced) {
            records::read(&speech.part(&tokens[..end]), memory, reading);
            memory.release(reading);
        }
        memory.speak_of(speech);
        let settles = matches!(other.requests.as_slice(), [Request::Set(_)]) && other.doubts.is_empty();
        append(reading, other);
        // "Don't bother me until Monday, and when did I last spray Wall": settled, and asked.
        if let Some(at) = within.filter(|_| settles) {
            let asked = Speech { asked: clauses::Asked::Yes, ..speech.part(&tokens[at..]) };
            let mut told = Reading::default();
            if asks::read(&asked, None, &mut told) && told.doubts.is_empty() {
                append(reading, told);
            }
        }
        return;
    }
    if within.is_none() && undo::is_order(tokens) {
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text));
        return;
    }
    let Some(at) = within else {
        // "What is leaf rust": asked, if without its mark, and of nothing known here.
        if asks::opens_with_question_word(tokens) {
            reading.doubts.push(doubt(DoubtKind::NotUnderstood, speech.text));
            return;
        }
        let planted_from = reading.requests.len();
        records::read(speech, memory, reading);
        return settings::stand_of_planted(speech, planted_from, reading);
    };
    let told = Speech { asked: clauses::Asked::No, ..speech.part(&tokens[..at]) };
    // "OK you can talk again, and what do I need to do today"
    if !settings::read(&told, reading) {
        records::read(&told, memory, reading);
    }
    memory.release(reading);
    // "Just gave Eave a gallon, is that enough?"
    let own = told_before(reading, speech.context);
    let context = &Context { last: own.as_ref().or(speech.context.last), ..*speech.context };
    let asked = Speech::of(speech.text, &tokens[at..], speech.names, context, clauses::Asked::Yes);
    // "The roses have rust, do figs get it from them?" asks of what was set aside.
    let aside = reading.requests.last() == Some(&Request::Aside(Aside::Elsewhere))
        && asked.tokens.iter().any(|token| token.is_any(word_list::words!("it them they that those")));
    let meant = memory
        .last_trees()
        .cloned()
        .or_else(|| told.mentions.iter().find_map(|mention| speech.names.selection(&mention.trees, &[])));
    if asks::is_of_a_plan(&asked) && asks::read(&Speech { asked: clauses::Asked::Yes, ..told }, None, reading)
    {
        return;
    }
    if !asks::read(&asked, meant.as_ref(), reading) && !aside {
        // "Tomorrow I want to do the sulfur, is it permitted?"
        if let Some(question) = asks::whether_allowed(&asked, told.tokens) {
            return reading.requests.push(Request::Ask(question));
        }
        reading.doubts.push(doubt(DoubtKind::NotUnderstood, asked.typed(0, asked.tokens.len())));
    }
}

fn append(reading: &mut Reading, other: Reading) {
    reading.requests.extend(other.requests);
    reading.doubts.extend(other.doubts);
    reading.spellings.extend(other.spellings);
}

/// A sentence, or part of one, with what it is read against.
struct Speech<'a> {
    text: &'a str,
    tokens: &'a [tokens::Token],
    mentions: Vec<names::Mention>,
    names: &'a names::Names,
    context: &'a Context<'a>,
    /// It ended in a question mark.
    asked: clauses::Asked,
}

impl<'a> Speech<'a> {
    fn of(
        text: &'a str,
        tokens: &'a [tokens::Token],
        names: &'a names::Names,
        context: &'a Context<'a>,
        asked: clauses::Asked,
    ) -> Self {
        Self { text, tokens, mentions: names.mentions(tokens, text), names, context, asked }
    }

    /// Some of its tokens, as a sentence of their own.
    fn part<'b>(&'b self, tokens: &'b [tokens::Token]) -> Speech<'b> {
        Speech::of(self.text, tokens, self.names, self.context, self.asked)
    }

    /// The words as typed that a stretch of tokens covers.
    fn typed(&self, from: usize, to: usize) -> &str {
        match (self.tokens.get(from), to.checked_sub(1).and_then(|last| self.tokens.get(last))) {
            (Some(first), Some(last)) => self.text.get(first.span.start..last.span.end).unwrap_or(""),
            _ => "",
        }
    }

    fn now(&self) -> moments::Now {
        now(self.context)
    }

    /// The message's own date.
    fn date(&self) -> chrono::NaiveDate {
        local_date(self.context.at, self.context.zone)
    }
}

fn now(context: &Context) -> moments::Now {
    moments::Now { at: context.at, zone: context.zone, units: context.garden.units }
}

fn doubt(kind: DoubtKind, words: impl Into<String>) -> Doubt {
    Doubt { kind, words: words.into(), candidates: Vec::new() }
}
