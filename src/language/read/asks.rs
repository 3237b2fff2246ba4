//! Questions.

mod topic;

use super::Speech;
use super::clauses::Asked;
use super::lexicon::Sense;
use super::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::{Aside, Reading, Request, Selection};

/// Reads a sentence as a question, if it is one.
pub(super) fn read(speech: &Speech, before: Option<&Selection>, reading: &mut Reading) -> bool {
    if speech.asked == Asked::No && !opens_question(speech.tokens) {
        return false;
    }
    if is_favour_asked(speech) {
        reading.requests.push(Request::Aside(Aside::Plan));
        return true;
    }
    if is_about_the_bot(speech) {
        reading.requests.push(Request::Aside(Aside::Talk));
        return true;
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
    reading.requests.push(Request::Ask(question));
    true
}

/// "Can someone water Whip please", "Bo, can you spray the pots tonight?": asked of people, not of the bot.
fn is_favour_asked(speech: &Speech) -> bool {
    let words: Vec<&Token> = speech
        .tokens
        .iter()
        .filter(|token| !token.is_mark() && !token.is_any(words!("hey hi please pls so and")))
        .take(8)
        .collect();
    let is = |at: usize, texts: WordList| words.get(at).is_some_and(|word| word.is_any(texts));
    let called = words.first().is_some_and(|first| speech.names.is_person(&first.text));
    let can = usize::from(called);
    let whom = can + 1;
    let of = if is(whom, words!("one any")) && is(whom + 1, words!("of")) { 2 } else { 0 };
    let asked = of > 0
        || is(whom, words!("someone somebody anyone anybody"))
        || called && is(whom, words!("you"))
        || words.get(whom).is_some_and(|word| speech.names.is_person(&word.text));
    let verb = words.get(whom + of + 1).is_some_and(|verb| {
        verb.senses.has_any(&[Sense::Spray, Sense::Water, Sense::Pick, Sense::Apply])
            || verb.is_any(words!("check scout weigh give do harvest cover move repot prune look read empty"))
    });
    is(can, words!("can could will would")) && asked && verb
}

/// "Are you a fig?", "have you seen the game?": nothing of this garden is asked.
fn is_about_the_bot(speech: &Speech) -> bool {
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).take(12).collect();
    let opens = words.first().is_some_and(|first| first.is_any(words!("are do did have were was")))
        && words.get(1).is_some_and(|you| you.is("you"))
        && words.len() > 2;
    let of_garden = !speech.mentions.is_empty()
        || words.iter().any(|word| {
            word.senses.has_any(&[
                Sense::Spray,
                Sense::Sprayed,
                Sense::Spraying,
                Sense::Water,
                Sense::Watering,
                Sense::Watered,
                Sense::Rust,
                Sense::Rain,
                Sense::Frost,
                Sense::Copper,
                Sense::Sulfur,
                Sense::Oil,
                Sense::AnyProduct,
                Sense::Pick,
                Sense::Picking,
                Sense::Ripe,
                Sense::Tree,
                Sense::Mine,
            ]) || word.is_any(words!(
                "think know recommend suggest advise expect say record note records save remember there awake alive listening human real bot made work working sure forecast weather week today tomorrow tonight garden figs' up ok okay"
            ))
        });
    speech.asked == Asked::Yes && opens && !of_garden
}

/// Where a question begins within a sentence that reports before it: "rust on Celeste, should I spray?"
pub(super) fn question_within(tokens: &[Token], asked: Asked) -> Option<usize> {
    let parted = |index: usize| tokens[index].is_any(words!(", - ; : and so but or")) && index > 0;
    let first = tokens.iter().find(|token| !token.is_mark() && !token.senses.has(Sense::Filler))?;
    // "If it rains, should I spray?" is one question.
    if first.is_any(words!("if when since after because once as given")) || opens_question(tokens) {
        return None;
    }
    let starts = (1..tokens.len()).find(|index| {
        let before = index - 1;
        parted(before)
            && (asked == Asked::Yes
                || tokens[*index].is_any(words!("why how help"))
                || !is_bare(&tokens[*index..]))
            && !(tokens[before].is("-") && tokens[before].joined)
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

/// "Maybe 10% rust on Celeste?": a figure told with a doubt, not asked for.
pub(super) fn is_hedged_report(tokens: &[Token]) -> bool {
    let hedged = tokens
        .first()
        .is_some_and(|first| first.is_any(words!("maybe perhaps possibly probably roughly about")));
    let rust = tokens.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots, Sense::Drop]));
    hedged && rust && tokens.iter().any(|token| token.number.is_some())
}

/// By its first words, or as a bare wish ("forecast", "help", "spray today").
fn opens_question(tokens: &[Token]) -> bool {
    const LEADS: WordList =
        words!("so and but hey hmm well please ok okay um uh also oh hi pls then now quick");
    let words: Vec<&Token> = tokens.iter().filter(|token| !token.is_mark()).collect();
    let skip = words.iter().take_while(|token| token.is_any(LEADS)).count();
    let words = if skip < words.len() { &words[skip..] } else { &words[..] };
    let Some(first) = words.first() else { return false };
    let next = |at: usize, texts: WordList| words.get(at).is_some_and(|word| word.is_any(texts));
    let someone = |at: usize| {
        words.get(at).is_some_and(|word| {
            word.is_any(words!("i we you it they the my there this that a rust frost spraying watering rain anything me any chance spray water he she these those our figs pots celeste's copper sulfur neem")) || word.text.starts_with('@')
        })
    };
    let opens = match first.text.as_str() {
        "would" | "can" | "could" if next(2, words!("believe imagine")) => false,
        "why" | "which" | "whens" | "when's" | "hows" | "how's" | "whats" | "what's" | "wats" | "wat"
        | "wot" | "y" | "compare" | "explain" | "worth" | "shall" | "shud" | "shld" | "can" | "could"
        | "who" | "whose" | "who's" => {
            let tells = first.is("could") && next(1, words!("be see have use"));
            !(next(1, words!("knows cares")) || tells)
        }
        "what" => !next(1, words!("a an fun joy")),
        "how" => !next(1, words!("i we nice lovely wonderful funny sweet exciting cute")),
        "where" | "where's" | "wheres" => true,
        "anything" => next(1, words!("i to we need needs else new")),
        // "When it cools down I'll spray" sets a condition, "when I got home I sprayed" a time.
        "when" => next(1, words!("is will did do should can was are would does to shall were must")),
        // "Did copper on everything" reports, "did I spray" asks: the next word tells.
        "did" | "do" | "does" | "is" | "are" | "was" | "were" | "should" | "am" | "would" | "must"
        | "has" | "have" => {
            let tells = next(1, words!("copper sulfur neem"))
                || first.is_any(words!("have has")) && next(1, words!("a rust the my figs water"))
                || first.is("did") && next(1, words!("the a my pots all some any spray water figs"))
                || first.is("should") && next(1, words!("be have spray water"));
            someone(1) && !tells
        }
        "will" => someone(1) && !next(1, words!("spray water")),
        "need" | "ok" | "okay" | "safe" | "any" | "good" | "too" | "enough" | "time" => {
            next(1, words!("to i for time chance rain frost advice rust 2 idea late early news"))
                && (words.len() > 2 && !(first.is("need") && next(1, words!("to 2"))) || words.len() == 2)
                && !first.is("time")
                && (!first.is("good")
                    || words.iter().any(|word| {
                        word.senses.has_any(&[Sense::Spray, Sense::Spraying, Sense::Water, Sense::Pick])
                    }))
        }
        "tell" | "show" | "give" | "list" | "remind" => {
            next(1, words!("me the my us all trees settings products log everything every each"))
                && (!first.is("remind") || next(2, words!("what when how which")))
        }
        "mix" => words.len() >= 2,
        "i" | "i'm" | "im" | "just" => words.windows(2).take(4).any(|pair| {
            pair[0].is_any(words!("wonder wondering wondered curious asking"))
                && pair[1].is_any(words!("if whether about how when what"))
        }),
        "advise" | "summarise" | "summarize" | "recap" | "review" => true,
        "let" => next(1, words!("me")) && next(2, words!("know see")) && next(3, words!("if when what how")),
        _ => false,
    };
    // "2 gallons of copper, how much do I mix"
    let how_much = words.windows(3).any(|three| {
        three[0].is("how")
            && three[1].is_any(words!("much many"))
            && three[2].is_any(words!("do should to per for"))
    });
    let any = |texts: WordList| words.iter().any(|word| word.is_any(texts));
    let product = words.iter().any(|word| word.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
    let mixing = product
        && any(words!("mix rate dilution dosage dose ratio"))
        && any(words!("for per rate ratio"))
        && words.len() <= 8
        && !any(words!("every max phi"));
    opens || how_much || mixing || any(words!("vs versus")) || is_bare_words(words)
}

fn is_bare(tokens: &[Token]) -> bool {
    let words: Vec<&Token> = tokens.iter().filter(|token| !token.is_mark()).collect();
    is_bare_words(&words)
}

fn is_bare_words(words: &[&Token]) -> bool {
    const MOST_WORDS: usize = 5;
    if words.len() > MOST_WORDS {
        return false;
    }
    let line: Vec<&str> = words.iter().map(|token| token.text.as_str()).collect();
    let line = line.join(" ");
    let line = line.strip_suffix(" please").unwrap_or(&line);
    BARE.contains(&line)
}

const BARE: &[&str] = &[
    "help",
    "help me",
    "commands",
    "menu",
    "instructions",
    "examples",
    "why",
    "why not",
    "how come",
    "forecast",
    "weather",
    "weather forecast",
    "forecast this week",
    "weather this week",
    "ahead",
    "outlook",
    "frost",
    "frost tonight",
    "frost date",
    "frost dates",
    "season",
    "season summary",
    "summary",
    "status",
    "status report",
    "log",
    "the log",
    "journal",
    "history",
    "spray",
    "spray today",
    "spray now",
    "spray this week",
    "spray tonight",
    "spray tomorrow",
    "spray window",
    "next spray",
    "last spray",
    "water",
    "water today",
    "watering",
    "water pots",
    "mix",
    "settings",
    "my garden",
    "garden",
    "trees",
    "my trees",
    "my settings",
    "pots vs ground",
    "pots against ground",
    "pots or ground",
    "pots versus ground",
    "season so far",
    "whats ahead",
    "the week ahead",
    "week ahead",
    "worth spraying",
    "people",
    "products",
    "my products",
    "reason",
    "reasons",
    "next steps",
    "to do",
    "todo list",
    "to do list",
    "today's jobs",
    "jobs today",
    "rain today",
    "rain tonight",
    "rain this week",
    "rain tomorrow",
    "more info",
    "details",
    "report please",
    "garden status",
    "tree status",
    "totals",
    "harvest so far",
];

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
