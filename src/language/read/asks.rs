//! Questions.

mod bare;
mod people;
mod strangers;
mod topic;
mod two;

use self::bare::is_bare_words;
pub(super) use self::people::is_for_people;
use self::people::{is_about_the_bot, is_asked_round, is_favour_asked, is_of_a_person, is_of_other_plants};
use self::two::two_questions;
use super::Speech;
use super::clauses::Asked;
use super::lexicon::Sense;
use super::names::is_unknown;
use super::records::unknown_tree;
use super::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::{Aside, Question, Reading, Request, Selection};

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
    if is_about_the_bot(speech) || is_asked_round(speech) {
        reading.requests.push(Request::Aside(Aside::Talk));
        return true;
    }
    if let Some((first, second)) = two_questions(speech.tokens) {
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
        if told {
            return false;
        }
        let or = tokens[..*index].iter().rev().take(3).any(|token| token.is("or"));
        if or && tokens[*index].is_any(words!("was were is")) && asked == Asked::No {
            return false;
        }
        let what = tokens[*index].is_any(words!("what how when which"))
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("should shall do can")))
            && tokens.get(index + 2).is_some_and(|next| next.is_any(words!("i we")));
        let unmarked = (asks || what)
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
            && opens_question(&tokens[*index..])
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
    )
}

/// "Maybe 10% rust on Celeste?": a figure told with a doubt, not asked for.
pub(super) fn is_hedged_report(tokens: &[Token]) -> bool {
    let hedged = tokens
        .first()
        .is_some_and(|first| first.is_any(words!("maybe perhaps possibly probably roughly about")));
    let rust = tokens.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots, Sense::Drop]));
    hedged && rust && tokens.iter().any(|token| token.number.is_some())
}

/// By its first words, or as a bare wish ("forecast", "help", "spray today").
pub(super) fn opens_question(tokens: &[Token]) -> bool {
    const LEADS: WordList = words!(
        "bro dude man yo lol girl wait so and but hey hmm well hon honey dear please kindly ok okay um uh er ah also oh hi pls then now quick"
    );
    let words: Vec<&Token> = tokens.iter().filter(|token| !token.is_mark()).collect();
    let skip = words.iter().take_while(|token| token.is_any(LEADS)).count();
    // "Abeg how is Big One": a call in another tongue, and then the question.
    let called = words.get(skip).is_some_and(|first| is_unknown(first))
        && words
            .get(skip + 1)
            .is_some_and(|next| next.is_any(words!("how what when where why how's what's")))
        && words
            .get(skip + 2)
            .is_some_and(|verb| verb.is_any(words!("is are do does did should can will much many the my")));
    let skip = skip + usize::from(called);
    let words = if skip < words.len() { &words[skip..] } else { &words[..] };
    let Some(first) = words.first() else { return false };
    let next = |at: usize, texts: WordList| words.get(at).is_some_and(|word| word.is_any(texts));
    let someone = |at: usize| {
        words.get(at).is_some_and(|word| {
            word.is_any(words!("mom mum dad bo ana anyone anybody someone somebody i we you it they today tonight tomorrow the my there this that a rust frost spraying watering rain anything me any chance spray water he she these those our figs pots celeste's copper sulfur neem")) || word.text.starts_with('@')
        })
    };
    let opens = match first.text.as_str() {
        "would" | "can" | "could" if next(2, words!("believe imagine")) => false,
        "why" | "which" | "whens" | "when's" | "hows" | "how's" | "whats" | "what's" | "wats" | "wat"
        | "wot" | "y" | "compare" | "explain" | "worth" | "shall" | "shud" | "shld" | "can" | "could"
        | "who" | "whose" | "who's" | "whos" => {
            let tells = first.is("could") && next(1, words!("be see have use"))
                // "Could not find any rust"
                || first.is_any(words!("can could")) && next(1, words!("not"));
            !(next(1, words!("knows cares")) || tells)
        }
        // "Y'all think the pots need water tonight"
        "y'all" | "yall" | "you" | "u" => {
            next(1, words!("think reckon suppose"))
                && any_of(words, words!("need needs should ok okay will is are"))
        }
        // "Ok to copper the wall today, I'm picking off it tomorrow"
        "to" => tokens.first().is_some_and(|first| first.is_any(words!("ok okay"))) && words.len() > 2,
        "safe" | "alright" | "fine" if next(1, words!("to")) => true,
        "what" => !next(1, words!("a an fun joy")),
        "how" => !next(1, words!("i we nice lovely wonderful funny sweet exciting cute")),
        "status" => words.len() > 1,
        "where" | "where's" | "wheres" | "how'd" | "howd" | "what'd" | "when'd" | "where'd" | "why'd"
        | "who'd" => true,
        "anything" => next(1, words!("i to we need needs else new")),
        // "When it cools down I'll spray" sets a condition, "when I got home I sprayed" a time.
        "when" if next(1, words!("i we they you")) && next(2, words!("can could may should")) => true,
        "when" => next(1, words!("is will did do should can was are would does to shall were must")),
        // "Did copper on everything" reports, "did I spray" asks: the next word tells.
        "does" => words.len() > 2,
        // "Has Whip been watered today"
        "has" | "have" | "had" if words.iter().take(6).any(|word| word.is("been")) => true,
        "is" | "are" if words.len() > 3 && !someone(1) => words.get(1).is_some_and(|whom| {
            !whom.senses.has_any(&[
                Sense::Dry,
                Sense::Wet,
                Sense::Moist,
                Sense::Clean,
                Sense::Rust,
                Sense::Heavy,
                Sense::Link,
                Sense::Negation,
                Sense::Bare,
                Sense::Ripe,
                Sense::Ripening,
                Sense::Drop,
                Sense::Finished,
                Sense::Over,
            ]) && (whom.is_word() || whom.number.is_some())
                && !whom.text.ends_with("ing")
                && !whom
                    .is_any(words!("still now very looking getting doing starting losing showing just all"))
        }),
        "best" => next(1, words!("time day hour window moment")),
        // "Did Eave get water yesterday"
        "did"
            if words
                .iter()
                .skip(2)
                .take(2)
                .any(|verb| verb.is_any(words!("get need have want drop ripen")))
                && !next(1, words!("the a my our some not it n't"))
                && words.len() > 3 =>
        {
            true
        }
        "did" if words.get(1).is_some_and(|who| who.senses.has(Sense::Mine)) && words.len() > 2 => {
            !next(1, words!("my our mine ours"))
        }
        // "Were I thirty years younger, I would ..."
        "were" if next(1, words!("i he she they")) && any_of(words, words!("would i'd")) => false,
        "did" | "do" | "is" | "are" | "was" | "were" | "should" | "am" | "would" | "must" | "has"
        | "have" => {
            // "Do copper on Wall" orders, "is copper ok on Wall" asks.
            // "Do copper and neem mix"
            let pair =
                any_of(words, words!("mix mixed together compatible")) && any_of(words, words!("and with"));
            let tells = !pair
                && next(1, words!("copper sulfur neem"))
                && !first.is_any(words!("is are was were should"))
                || first.is_any(words!("have has")) && next(1, words!("a rust the my figs water"))
                || first.is("did") && next(1, words!("the a my pots all some any spray water figs"))
                || first.is("should") && next(1, words!("be have spray water"));
            // "Did it, copper on Corner" tells.
            let done = first.is("did")
                && next(1, words!("it that"))
                && !words.get(2).is_some_and(|verb| {
                    verb.is_any(words!("wash stick hold last"))
                        || verb.senses.has_any(&[Sense::Rain, Sense::Frost, Sense::Spray, Sense::Water])
                        || verb.is_any(words!("get go help work take say freeze"))
                });
            // "Should Corner be sprayed again"
            let passive = first.is("should") && (next(2, words!("be get")) || next(3, words!("be get")));
            // "Should the weather remain dry, I intend to spray" sets a condition.
            let condition = first.is("should")
                && next(1, words!("the it"))
                && any_of(words, words!("intend will shall i'll plan"));
            (someone(1) || passive) && !tells && !done && !condition
        }
        // "Will Big One ripen before frost"
        "will" => {
            words.len() > 2
                && !words.get(1).is_some_and(|verb| {
                    verb.is_any(words!("cont continue keep monitor watch"))
                        || verb.senses.has_any(&[
                            Sense::Planted,
                            Sense::Spray,
                            Sense::Water,
                            Sense::Pick,
                            Sense::Apply,
                            Sense::Removed,
                            Sense::Seen,
                            Sense::Gave,
                            Sense::Negation,
                        ])
                })
                && !next(
                    1,
                    words!(
                        "spray water pick do be try let get go have check make send tell see post update give treat add not need wait"
                    ),
                )
        }
        "need" | "ok" | "okay" | "safe" | "any" | "good" | "too" | "enough" | "time" => {
            next(
                1,
                words!(
                    "to i for time chance rain frost advice rust 2 idea late early news need point reason use sense"
                ),
            ) && (words.len() > 2 && !(first.is("need") && next(1, words!("to 2"))) || words.len() == 2)
                && !first.is("time")
                && (!first.is("good")
                    || words.iter().any(|word| {
                        word.senses.has_any(&[Sense::Spray, Sense::Spraying, Sense::Water, Sense::Pick])
                    }))
        }
        "tell" | "show" | "give" | "list" | "remind" | "teach" => {
            next(
                1,
                words!(
                    "what how when which who where if me the my us all trees settings products log everything every each labels last"
                ),
            ) && (!first.is("remind") || next(2, words!("what when how which")))
        }
        "mix" => words.len() >= 2,
        // "May I know about the neem"
        "may" => next(1, words!("i we")) && next(2, words!("know ask see have")),
        // "Fixin to rain any this week"
        "fixin" | "fixing" | "gonna" => {
            next(2, words!("rain storm freeze"))
                && any_of(words, words!("any soon today tonight tomorrow week weekend"))
                && !any_of(words, words!("i we i'll"))
        }
        "idk" | "dunno" => next(1, words!("if whether")) && next(2, words!("i we bo ana anyone")),
        "i" | "i'm" | "im" | "just" => words.windows(2).take(4).any(|pair| {
            pair[0].is_any(words!("wonder wondering wondered curious asking"))
                && pair[1].is_any(words!("if whether about how when what"))
        }),
        "advise" | "summarise" | "summarize" | "recap" | "review" => true,
        "let" => next(1, words!("me")) && next(2, words!("know see")) && next(3, words!("if when what how")),
        _ => false,
    };
    // "Next spray when", "spray today y/n"
    let behind = words.len() > 1
        && words.len() <= 6
        && (words.last().is_some_and(|last| last.is_any(words!("when why how where")))
            // "Copper 2 gal how much"
            || matches!(words, [.., how, much] if how.is("how") && much.is_any(words!("much many")))
                && !any_of(words, words!("no idea know sure")));
    // "Water the pots or not"
    let or_not = matches!(words, [.., or, not] if or.is("or") && not.is_any(words!("not no nah naw nope")))
        && words.iter().any(|word| {
            word.senses.has_any(&[
                Sense::Spray,
                Sense::Water,
                Sense::Pick,
                Sense::Copper,
                Sense::Sulfur,
                Sense::Oil,
            ])
        });
    let behind = behind || or_not;
    let choice = tokens.windows(3).any(|three| three[0].is("y") && three[1].is("/") && three[2].is("n"));
    let behind = behind || choice;
    // "Ana needs to know do the pots want water"
    let to_know = words.windows(3).take(5).any(|three| {
        three[0].is("to")
            && three[1].is_any(words!("know ask"))
            && three[2]
                .is_any(words!("do does did if whether when how what is are should can will which why"))
    });
    // "Pots need water or they good"
    let either = any_of(words, words!("or"))
        && words.windows(2).any(|pair| {
            pair[0].is_any(words!("need needs want"))
                && pair[1].is_any(words!("water spray spraying watering"))
        })
        && !any_of(words, words!("i we i'll we'll"));
    // "Spray history for the ground trees"
    let history = any_of(words, words!("history")) && words.len() <= 8;
    // "2 gallons of copper, how much do I mix"
    let how_much = words.windows(3).any(|three| {
        three[0].is("how")
            && three[1].is_any(words!("much many"))
            && three[2].is_any(words!("do should to per for put go goes mix need use in"))
    });
    let any = |texts: WordList| words.iter().any(|word| word.is_any(texts));
    // "This year altogether how many fig I pick"
    let how_many = words.windows(3).any(|three| {
        three[0].is("how") && three[1].is("many") && three[2].is_any(words!("fig figs kg pounds lbs"))
    });
    let product = words.iter().any(|word| word.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
    let mixing = product
        && any(words!("mix rate dilution dosage dose ratio"))
        && any(words!("for per rate ratio"))
        && words.len() <= 8
        && !any(words!("every max phi"));
    opens
        || behind
        || either
        || to_know
        || history
        || how_much
        || how_many
        // "Copper and sulfur same tank ok"
        || words.iter().filter(|word| word.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])).count() > 1
            && any(words!("tank mix together mixed"))
            && any(words!("ok okay safe fine"))
            && words.len() <= 9
        || any(words!("or vs"))
            && any(words!("ground inground"))
            && any(words!("pots potted"))
            && any(words!("better worse"))
        || mixing
        || any(words!("vs versus"))
        || is_bare_words(words)
}

/// "What is leaf rust", "how do I ...": no report begins so.
pub(super) fn opens_with_question_word(tokens: &[Token]) -> bool {
    let first = tokens.iter().find(|token| !token.is_mark());
    first.is_some_and(|first| first.is_any(words!("what what's whats how why which where who")))
        && tokens.iter().any(|token| {
            token.senses.has_any(&[
                Sense::Rust,
                Sense::Fig,
                Sense::Copper,
                Sense::Sulfur,
                Sense::Oil,
                Sense::Frost,
            ])
        })
        && opens_question(tokens)
}

fn any_of(words: &[&Token], texts: WordList) -> bool {
    words.iter().any(|word| word.is_any(texts))
}

fn is_bare(tokens: &[Token]) -> bool {
    let words: Vec<&Token> = tokens.iter().filter(|token| !token.is_mark()).collect();
    is_bare_words(&words)
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
