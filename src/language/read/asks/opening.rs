//! Whether words open a question, with or without its mark.

use super::bare::is_bare_words;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};

/// By its first words, or as a bare wish ("forecast", "help", "spray today").
pub(in crate::language::read) fn opens_question(tokens: &[Token]) -> bool {
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
        "why" if next(1, words!("not")) && words.len() <= 2 => false,
        // "Ate it standing there, worth it"
        "worth" if next(1, words!("it")) && words.len() <= 2 => false,
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
        // "What weather, and yet I wore my cardigan"
        "what"
            if next(1, words!("weather heat luck timing rain storm mess shame sun wind day"))
                && tokens.windows(2).any(|pair| {
                    pair[0].is_any(words!("weather heat luck timing rain storm mess shame sun wind day"))
                        && pair[1].is(",")
                }) =>
        {
            false
        }
        "what" => !next(1, words!("a an fun joy")),
        // "How hot it was in Rome!" asks nothing.
        "how"
            if next(2, words!("it they she he that"))
                && next(3, words!("was were is are got looked"))
                && !next(1, words!("much many long often far come soon bad")) =>
        {
            false
        }
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
        "had" if any_of(words, words!("would i'd we'd wouldn't")) => false,
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
                && (next(1, words!("the it"))
                    || next(1, words!("we i there they this")) && tokens.iter().any(|token| token.is(",")))
                && any_of(words, words!("intend will shall i'll we'll plan would i'd"));
            (someone(1) || passive) && !tells && !done && !condition
        }
        // "For 3 gallons of water how much copper to put"
        "for" => (1..words.len().min(8)).any(|at| {
            words[at].is("how")
                && next(at + 1, words!("much many"))
                && next(at + 2, words!("copper sulfur neem"))
                && words[1..at].iter().all(|word| {
                    word.number.is_some()
                        || word.senses.has_any(&[Sense::Unit, Sense::Article, Sense::Water])
                        || word.is_any(words!("of a half"))
                })
        }),
        // "Will Big One ripen before frost"
        "will" => {
            words.len() > 2
                && !next(1, words!("prob probably likely maybe def definitely hopefully try"))
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
                        "spray water pick do be try let get go have check make send tell see post update give treat add not need wait wrap cover bring move put plant prune"
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
        "may" => {
            next(1, words!("i we")) && next(2, words!("know ask see have pick eat harvest spray use water"))
        }
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
pub(in crate::language::read) fn opens_with_question_word(tokens: &[Token]) -> bool {
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

pub(super) fn is_bare(tokens: &[Token]) -> bool {
    let words: Vec<&Token> = tokens.iter().filter(|token| !token.is_mark()).collect();
    is_bare_words(&words)
}
