//! Questions.

mod bare;
mod opening;
mod people;
mod strangers;
mod topic;
mod two;

use self::opening::is_bare;
pub(super) use self::opening::{opens_question, opens_with_question_word};
pub(super) use self::people::is_for_people;
use self::people::{is_about_the_bot, is_asked_round, is_favour_asked, is_of_a_person, is_of_other_plants};
use self::two::two_questions;
use super::Speech;
use super::clauses::Asked;
use super::lexicon::Sense;
use super::names::{Names, Product};
use super::records::unknown_tree;
use super::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::{Aside, DoubtKind, Question, Reading, Request, Selection};

/// Reads a sentence as a question, if it is one.
pub(super) fn read(speech: &Speech, before: Option<&Selection>, reading: &mut Reading) -> bool {
    if is_of_a_person(speech) {
        reading.requests.push(Request::Aside(Aside::Talk));
        return true;
    }
    let called = speech.tokens.first().is_some_and(|first| speech.names.is_person(&first.text));
    if called && is_favour_asked(speech) {
        reading.requests.push(Request::Aside(Aside::Plan));
        return true;
    }
    if speech.asked == Asked::No && !opens_question(speech.tokens) {
        return false;
    }
    // "Did I say Celeste? I meant Eave"
    let own = speech.tokens.windows(3).next().is_some_and(|three| {
        three[0].is("did")
            && three[1].is("i")
            && three[2].is_any(words!("say write put type"))
            && speech.tokens.len() <= 6
    });
    if own {
        reading.requests.push(Request::Aside(Aside::Talk));
        return true;
    }
    if is_favour_asked(speech) {
        reading.requests.push(Request::Aside(Aside::Plan));
        return true;
    }
    if is_of_other_plants(speech) {
        reading.requests.push(Request::Aside(Aside::Elsewhere));
        return true;
    }
    if is_beyond(speech) {
        reading.doubts.push(super::doubt(DoubtKind::NotUnderstood, speech.text));
        return true;
    }
    if is_about_the_bot(speech) || is_asked_round(speech) {
        reading.requests.push(Request::Aside(Aside::Talk));
        return true;
    }
    if let Some((first, second)) =
        two_questions(speech.tokens, |at| speech.mentions.iter().any(|mention| mention.range.contains(&at)))
    {
        let (first, second) = (speech.part(first), speech.part(second));
        let mut told = Reading::default();
        if read(&first, before, &mut told) {
            let meant = first.mentions.iter().find_map(|mention| speech.names.selection(&mention.trees, &[]));
            let both = read(&second, meant.as_ref().or(before), &mut told);
            // "How long after copper can I pick Wall, and does Corner need any?": any copper.
            if let [
                Request::Ask(Question::Spray { product, .. } | Question::Picking { product, .. }),
                Request::Ask(asked),
            ] = told.requests.as_mut_slice()
                && let Question::Water { trees } = asked
                && second.tokens.iter().any(|token| token.is_any(words!("any some one")))
                && !second
                    .tokens
                    .iter()
                    .any(|token| token.senses.has_any(&[Sense::Water, Sense::Watering, Sense::Drink]))
            {
                *asked = Question::Spray { product: product.clone(), trees: trees.clone() };
            }
            // "How much sulfur do I mix, and is today good for spraying it?"
            if let [
                Request::Ask(Question::Mix { product: mixed, .. }),
                Request::Ask(Question::Spray { product, .. }),
            ] = told.requests.as_mut_slice()
                && second.tokens.iter().any(|token| token.is("it"))
            {
                *product = product.take().or_else(|| mixed.clone());
            }
            // "How much neem for half a gallon, and is it ok with sulfur?"
            if let [Request::Ask(Question::Mix { .. } | Question::Product { .. }), Request::Ask(asked)] =
                told.requests.as_mut_slice()
                && matches!(asked, Question::Spray { .. })
                && second.tokens.iter().any(|token| token.is_any(words!("with w together")))
                && second.tokens.iter().any(|token| token.is("it"))
                && let [one, other, ..] = speech.names.partners(speech.tokens).as_slice()
            {
                *asked = Question::Together { one: one.clone(), other: other.clone() };
            }
            // "What did I spray on Wall last, and when was it?": the day is told anyway.
            let of_it = matches!(told.requests.first(), Some(Request::Ask(Question::Done { .. })))
                && second.tokens.len() <= 5
                && second.tokens.first().is_some_and(|first| first.is_any(words!("when how who")))
                && second.tokens.iter().any(|token| token.is_any(words!("it that")));
            if both && of_it && told.requests.len() == 2 {
                told.requests.truncate(1);
                reading.requests.append(&mut told.requests);
                return true;
            }
            // "What's neem good for, and how often can I use it?": the label tells both.
            if !both && matches!(told.requests.as_slice(), [Request::Ask(Question::Product { .. })]) {
                reading.requests.append(&mut told.requests);
                return true;
            }
            if both && told.requests.len() == 2 && told.requests[0] != told.requests[1] {
                reading.requests.append(&mut told.requests);
                return true;
            }
        }
    }
    // "Can you remind me to spray Friday" is a plan.
    let wish = speech
        .tokens
        .windows(3)
        .any(|three| three[0].is("remind") && three[1].is_any(words!("me us")) && three[2].is("to"));
    if wish {
        return false;
    }
    let Some(question) = topic::question(speech, before) else { return false };
    if let Some(name) = strangers::asked_after(speech, &question) {
        unknown_tree(speech, &name, reading);
        return true;
    }
    // "Do I need to water or spray tomorrow?"
    let at = |senses: &[Sense]| speech.tokens.iter().position(|token| token.senses.has_any(senses));
    if let (Some(water), Some(spray), Question::Spray { trees, .. }) =
        (at(&[Sense::Water, Sense::Watering]), at(&[Sense::Spray, Sense::Spraying]), &question)
    {
        let (first, last) = (water.min(spray), water.max(spray));
        let joined = speech.tokens[first..last].iter().any(|token| token.is_any(words!("or and")));
        if joined && last - first <= 3 {
            let water_too = Request::Ask(Question::Water { trees: trees.clone() });
            let at = if water < spray { 0 } else { 1 };
            let mut both = vec![Request::Ask(question)];
            both.insert(at, water_too);
            reading.requests.extend(both);
            return true;
        }
    }
    reading.requests.push(Request::Ask(question));
    true
}

/// Where a question begins within a sentence that reports before it: "rust on Celeste, should I spray?"
pub(super) fn question_within(tokens: &[Token], asked: Asked) -> Option<usize> {
    // A little picture parts like a comma.
    let picture = |index: usize| tokens[index].is_mark() && !tokens[index].text.is_ascii();
    let parted =
        |index: usize| (tokens[index].is_any(words!(", - ; : and so but or")) || picture(index)) && index > 0;
    let first = tokens.iter().find(|token| !token.is_mark() && !token.senses.has(Sense::Filler))?;
    // "If it rains, should I spray?" is one question.
    if first.is_any(words!("if when since after because once as given")) || opens_question(tokens) {
        return None;
    }
    let starts = (1..tokens.len()).find(|index| {
        let before = index - 1;
        // "they say storms tonight should I hold off": no pause in a voice
        let did = tokens[*index].is("did")
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("i we anyone anybody somebody someone he she they mom mum dad bo ana")));
        let fine = tokens[*index].is("is")
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("it that this")))
            && tokens.get(index + 2).is_some_and(|next| next.is_any(words!("ok okay normal bad fine enough too")));
        // "30 green figs left on Corner will they make it"
        let will = tokens[*index].is("will")
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("they it she he these those")));
        // "I intend to spray on Saturday, should the weather hold" sets a condition.
        // "May I pick from Wall, or is it too soon?" is one question.
        let same = tokens[*index].is("is")
            && tokens.get(index + 1).is_some_and(|it| it.is("it"))
            && tokens.get(index + 2).is_some_and(|too| too.is_any(words!("too still not better safer")))
            && tokens[before].is("or");
        let condition = same || tokens[*index].is("should")
            && asked == Asked::No
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("the it rain weather conditions this")));
        if condition {
            return false;
        }
        let asks = did || fine || will || tokens[*index].is_any(words!("should shall do"))
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("i we")))
            || tokens[*index].is_any(words!("do does"))
                && tokens[index + 1..].iter().take(4).any(|token| token.is_any(words!("need needs want")));
        // "..., or was it the sulfur"
        // "I grabbed the other bottle, was neem"
        let told = tokens[*index].is_any(words!("was were"))
            && asked == Asked::No
            && tokens[*index + 1..].iter().filter(|token| !token.is_mark()).count() <= 1;
        // "... were on sale so why not"
        let shrugged = tokens[*index].is("why")
            && asked == Asked::No
            && tokens.len() == index + 2
            && tokens[index + 1].is("not");
        // "Need to spray today, or can it wait?" is one question.
        let waits = tokens[*index].is("can")
            && tokens[before].is("or")
            && tokens[index + 1..].iter().take(2).any(|token| token.is("wait"));
        if told || shrugged || waits {
            return false;
        }
        let or = tokens[..*index].iter().rev().take(3).any(|token| token.is("or"));
        if or && tokens[*index].is_any(words!("was were is")) && asked == Asked::No {
            return false;
        }
        let what = tokens[*index].is_any(words!("what how when which"))
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("should shall do can")))
            && tokens.get(index + 2).is_some_and(|next| next.is_any(words!("i we")));
        // "sprayed copper on big one how long before i can eat them"
        let how = tokens[*index].is("how")
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("long soon many")))
            && tokens[..*index].iter().any(|token| token.senses.has_any(&[Sense::Sprayed, Sense::Applied, Sense::Gave]))
            && tokens[index + 2..].iter().any(|token| token.is_any(words!("can before till until wait")));
        let unmarked = (asks || what || how)
            && (did || !tokens[before].is_any(words!("know wonder tell sure decide see remember figure sort")))
            && !tokens[before].is_any(words!("nor what how when where why which much many often i we you they who to and can not don't also"))
            && !tokens[before].senses.has(Sense::Link);
        (parted(before) || unmarked)
            && (asked == Asked::Yes
                || tokens[*index].is_any(words!("why how help"))
                || !is_bare(&tokens[*index..]))
            && !(tokens[before].is("-") && tokens[before].joined)
            // "and what is left is covered" asks nothing.
            && !(tokens[*index].is("what") && tokens[index + 1..].iter().take(2).any(|token| token.is_any(words!("left remains"))))
            // "..., which has a few spots" asks nothing.
            && (asked == Asked::Yes || !tokens[*index].is_any(words!("which who where")))
            && (opens_question(&tokens[*index..])
                // "Half an inch last night, skip water on Wall?"
                || asked == Asked::Yes
                    && tokens[*index].is("skip")
                    && tokens.get(index + 1).is_some_and(|next| {
                        next.senses.has_any(&[Sense::Water, Sense::Watering, Sense::Spray, Sense::Spraying])
                    }))
    });
    starts.or_else(|| {
        // "rust on Celeste - spray?"
        let last = (1..tokens.len()).rev().find(|index| parted(index - 1))?;
        let reports = tokens[..last].iter().any(|token| {
            token.senses.has_any(&[
                Sense::Rust,
                Sense::Dry,
                Sense::Sprayed,
                Sense::Picked,
                Sense::Watered,
                Sense::Drop,
            ])
        });
        (asked == Asked::Yes && reports && is_bare(&tokens[last..])).then_some(last)
    })
}

/// "I was going to spray neem on Eave Saturday, is that a good idea?": asked of the plan.
pub(super) fn is_of_a_plan(speech: &Speech) -> bool {
    const MOST_WORDS: usize = 7;
    let any = |texts| speech.tokens.iter().any(|token| token.is_any(texts));
    speech.tokens.len() <= MOST_WORDS
        && any(words!("that it this"))
        && (any(words!("idea wise smart foolish"))
            || any(words!("ok okay fine alright right good bad")) && any(words!("to do")))
        && speech.mentions.is_empty()
}

/// "..., is it?", "..., right?": what stands before it is what is asked.
pub(super) fn is_tag(tokens: &[Token]) -> bool {
    let words: Vec<&str> =
        tokens.iter().filter(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    matches!(
        words.as_slice(),
        ["is" | "isn't" | "isnt" | "was" | "wasn't", "it" | "he" | "she" | "that"]
            | ["is", "that" | "he" | "she", "right" | "so" | "true"]
            | ["does" | "doesn't", "it" | "he" | "she"]
            | ["do" | "don't" | "are" | "aren't", "they" | "i" | "we"]
            | ["right" | "correct" | "yes" | "no"]
            | ["does", "that", "sound", "right" | "ok" | "okay" | "normal", ..]
    )
}

/// "is eave thirsty", "are the pots dry": the verb, whom it is asked of, and a state, with or without a mark.
pub(super) fn asks_of_a_state(tokens: &[Token], text: &str, names: &Names) -> bool {
    if !tokens.first().is_some_and(|first| first.is_any(words!("is are"))) {
        return false;
    }
    let mentions = names.mentions(tokens, text);
    let Some(named) = mentions.first().filter(|named| named.range.start <= 2) else { return false };
    let rest = &tokens[named.range.end..];
    let small = |token: &&Token| token.is_any(words!("too still really getting very ok okay"));
    let state = rest.iter().find(|token| !small(token));
    (1..=3).contains(&rest.len())
        && state.is_some_and(|state| {
            state.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist, Sense::Ripe]) || state.is("thirsty")
        })
}

/// "Maybe 10% rust on Celeste?": a figure told with a doubt, not asked for.
pub(super) fn is_hedged_report(tokens: &[Token]) -> bool {
    let hedged = tokens
        .first()
        .is_some_and(|first| first.is_any(words!("maybe perhaps possibly probably roughly about")));
    let rust = tokens.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots, Sense::Drop]));
    hedged && rust && tokens.iter().any(|token| token.number.is_some())
}

/// How many words of politeness stand before an order: "please may I | rename ...", "I'd like to | change ...".
pub(super) fn ordered_politely(tokens: &[Token]) -> usize {
    let is = |at: usize, texts: WordList| tokens.get(at).is_some_and(|token| token.is_any(texts));
    const SMALL: WordList = words!("please pls kindly just also ok okay so hey hi and , now then");
    let mut at = 0;
    while is(at, SMALL) {
        at += 1;
    }
    let favour = is(at, words!("can could would will may might shall")) && is(at + 1, words!("you i we u"));
    if favour || is(at, words!("i'd we'd")) && is(at + 1, words!("like love")) {
        at += 2;
    } else if is(at, words!("i we"))
        && (is(at + 1, words!("want need wanna"))
            || is(at + 1, words!("would")) && is(at + 2, words!("like")))
    {
        at += 2 + usize::from(is(at + 1, words!("would")));
    } else if is(at, words!("let's lets")) {
        at += 1;
    }
    while is(at, words!("please pls kindly just also you to go ahead and")) {
        at += 1;
    }
    let order = is(
        at,
        words!(
            "do text message ping write wake set change rename add remove delete drop move switch use stop mute turn send call name make put take note remember jot keep be start"
        ),
    );
    if order { at } else { 0 }
}

/// How many words ask for the rest to be noted: "could you please note that | I sprayed Celeste".
pub(super) fn told_politely(tokens: &[Token]) -> usize {
    let is = |at: usize, texts: WordList| tokens.get(at).is_some_and(|token| token.is_any(texts));
    let asked = usize::from(is(0, words!("could can would will")) && is(1, words!("you"))) * 2;
    let please = asked + usize::from(is(asked, words!("please pls kindly")));
    let verb = is(please, words!("note record log mark write put"));
    let down = please + 1 + usize::from(is(please + 1, words!("down me")));
    let that = down + usize::from(is(down, words!("that")));
    let who = is(that, words!("i we i've we've ana bo my the"));
    let who = who || that > down && please > 0;
    if verb && who && (asked > 0 || please > 0 || that > down) && that < tokens.len() { that } else { 0 }
}

/// "Do I prune now or wait til winter?", "what kind of fertilizer do they like?", "how do I keep the birds off?": of what
/// is not kept here, and not to be answered with how a tree does.
fn is_beyond(speech: &Speech) -> bool {
    const WORK: WordList = words!(
        "prune pruning fertilizer fertiliser fertilize fertilise root rooting cutting cuttings graft grafting propagate airlayer"
    );
    const PESTS: WordList =
        words!("birds bird wasps wasp squirrels squirrel deer ants ant raccoons raccoon possums beetles");
    let any = |list: WordList| speech.tokens.iter().any(|token| token.is_any(list));
    let pair = |one: WordList, other: WordList| {
        speech.tokens.windows(2).any(|pair| pair[0].is_any(one) && pair[1].is_any(other))
    };
    let how = pair(words!("how what"), words!("do can should to kind sort"))
        || pair(words!("do should can when"), words!("i we do should"));
    let known = any(words!("spray copper sulfur neem water rust frost pick note did"));
    how && !known
        && (any(WORK)
            || any(PESTS)
                && pair(
                    words!("keep get stop scare"),
                    words!("the birds wasps squirrels deer ants off em them bird"),
                ))
}

/// "..., is it permitted?" behind what one means to spray: whether that may be done.
pub(super) fn whether_allowed(asked: &Speech, told: &[Token]) -> Option<Question> {
    const MOST_WORDS: usize = 6;
    let allowed = asked.tokens.iter().any(|token| {
        token.is_any(words!("permitted allowed ok okay possible safe fine alright legal wise smart"))
    });
    let points_back = asked.tokens.iter().any(|token| token.is_any(words!("it that this")));
    match asked.names.products_in(told, &[]).as_slice() {
        [Product::Known { name, .. }] if allowed && points_back && asked.tokens.len() <= MOST_WORDS => {
            Some(Question::Spray { product: Some(name.clone()), trees: Selection::Unsaid })
        }
        _ => None,
    }
}
