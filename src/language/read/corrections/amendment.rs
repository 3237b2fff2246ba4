//! The words that open and close a correction, and what they leave.

use super::amending::{CLOSERS, OPENERS};
use super::meant::meant_behind;
use super::{has_verb_of_work, is_verb};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};

/// How surely words open a correction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Strength {
    /// "I meant", "make that", "not 9".
    Strong,
    /// "It was", "only", "actually": of anything.
    Weak,
}

/// A correction without the words that open and close it.
pub(super) struct Amendment<'t> {
    pub(super) tokens: &'t [Token],
    pub(super) strength: Strength,
    /// "Only": of the trees, these and no others.
    pub(super) leaves_out: bool,
}

impl<'t> Amendment<'t> {
    pub(super) fn of(tokens: &'t [Token]) -> Option<Self> {
        const MOST_WORDS: usize = 16;
        if tokens.len() > MOST_WORDS {
            return None;
        }
        if let Some(meant) = meant_behind(tokens) {
            return Some(Self { tokens: meant, strength: Strength::Strong, leaves_out: false });
        }
        let mut rest = tokens;
        let mut found: Option<Strength> = None;
        let note = |found: &mut Option<Strength>, strength: Strength, words: &str| {
            // "Um picked 14 off Big One" draws breath, and tells of a picking.
            let breath = matches!(
                words,
                "um" | "hey"
                    | "ok"
                    | "oh"
                    | "ah"
                    | "hmm"
                    | "well"
                    | "lol"
                    | "haha"
                    | "omg"
                    | "please"
                    | "dear"
                    | "hon"
                    | "honey"
                    | "just"
            ) && has_verb_of_work(tokens)
                // "11 off Big One lol"
                || matches!(words, "lol" | "haha" | "omg" | "hey" | "ok" | "oh" | "ah" | "well" | "um")
                    && tokens.iter().any(|token| token.is_any(words!("off from")))
                    && tokens.iter().any(|token| token.number.is_some())
                // "Only one fig off Eave, the birds got the rest"
                || matches!(words, "only" | "just" | "omg" | "oh" | "ah" | "lol" | "haha" | "well")
                    && tokens.iter().any(|token| token.is_any(words!("off from")))
                    && tokens.iter().any(|token| token.senses.has(Sense::Fig));
            let silent = breath || matches!(words, "," | ":" | "-");
            if !silent && *found != Some(Strength::Strong) {
                *found = Some(strength);
            }
        };
        while let Some((words, strength)) = OPENERS
            .iter()
            .filter(|(words, _)| {
                rest.len() < tokens.len()
                    || !matches!(
                        *words,
                        "is" | "was" | "be" | "figure" | "number" | "amount" | ":" | "-" | ","
                    )
            })
            .filter(|(words, _)| {
                starts_with(rest, words) && !is_no_opener(rest, words)
                // "I mean to anoint the pots": a plan.
                && !(*words == "i mean" && rest.get(2).is_some_and(|next| next.is("to")))
            })
            .max_by_key(|(words, _)| words.len())
        {
            note(&mut found, *strength, words);
            rest = &rest[count(words)..];
            // "I misread the tank, ...", "correction to the rain entry: ..."
            if words.contains("mis") || *words == "correction" {
                rest = past_object(rest);
            }
        }
        if let Some((strength, behind)) = told_of(rest) {
            note(&mut found, strength, "told of");
            rest = behind;
        }
        // "4 lb, I misread the scale"
        if let Some(at) = rest
            .iter()
            .position(|token| token.is_any(words!("misread miscounted mistyped misheard misspoke")))
        {
            let start = at - usize::from(at > 0 && rest[at - 1].is_any(words!("i we")));
            if start > 0 && !rest[at..].iter().any(|token| token.number.is_some()) {
                note(&mut found, Strength::Strong, "misread");
                rest = &rest[..start];
            }
        }
        while let Some((words, strength)) =
            CLOSERS.iter().filter(|(words, _)| ends_with(rest, words)).max_by_key(|(words, _)| words.len())
        {
            // "Sprayed copper, Corner only" is a report of its own.
            if *words == "only" && found.is_none() && has_verb_of_work(rest) {
                break;
            }
            note(&mut found, *strength, words);
            rest = &rest[..rest.len() - count(words)];
        }
        // "It was yesterday that I picked those"
        if found.is_some()
            && let Some(at) = rest.windows(3).position(|three| {
                three[0].is_any(words!("that when"))
                    && three[1].is_any(words!("i we"))
                    && is_verb(three[2].senses)
            })
            && at > 0
            && !rest[at..].iter().any(|token| token.number.is_some())
        {
            rest = &rest[..at];
        }
        // "19 not 9", "not 9, 19", "Eave, not Celeste"
        let mut leaves_out = false;
        // "No copper on Wall": she was not sprayed.
        if let [no, product, on, ..] = tokens
            && no.is("no")
            && product.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])
            && on.is_any(words!("on for"))
        {
            leaves_out = true;
            note(&mut found, Strength::Strong, "no");
        }
        // "The wall ones not"
        if let [before @ .., not] = rest
            && not.is("not")
            && !before.is_empty()
            && before.len() <= 4
            && !has_verb_of_work(before)
        {
            leaves_out = true;
            note(&mut found, Strength::Strong, "not");
            rest = before;
        }
        let shows = rest.iter().any(|token| token.senses.has_any(&[Sense::Spots, Sense::Trace, Sense::Rust]));
        if !shows && rest.first().is_some_and(|first| first.senses.has(Sense::But) || first.is("but")) {
            leaves_out = true;
            note(&mut found, Strength::Strong, "except");
        } else if let Some(at) = rest.iter().position(|token| token.is_any(words!("not instead"))) {
            let (mut before, after) = (&rest[..at], &rest[at + 1..]);
            // "19 I picked, not 9"
            if let [figures @ .., who, verb] = before
                && who.is_any(words!("i we"))
                && is_verb(verb.senses)
            {
                before = figures;
            }
            // "Not Celeste i meant Big One"
            let meant = after
                .windows(2)
                .position(|pair| pair[0].is("i") && pair[1].is_any(words!("meant mean")))
                .and_then(|at| at.checked_sub(1));
            let parted =
                meant.or_else(|| after.iter().position(|token| token.is_any(words!(", but it ; -"))));
            match (before.is_empty(), parted) {
                (false, _) if before.len() <= 6 && !has_verb_of_work(before) && is_alternative(after) => {
                    note(&mut found, Strength::Strong, "not");
                    rest = before;
                }
                (true, Some(parted))
                    if !has_verb_of_work(&after[..parted]) && is_alternative(&after[..parted]) =>
                {
                    note(&mut found, Strength::Strong, "not");
                    rest = &after[parted + 1..];
                    return Self::of(rest).or(Some(Self {
                        tokens: rest,
                        strength: Strength::Strong,
                        leaves_out: false,
                    }));
                }
                (true, None) => {
                    leaves_out = true;
                    note(&mut found, Strength::Strong, "not");
                }
                _ => {}
            }
        }
        while rest.last().is_some_and(|last| last.is_any(words!(", - ;"))) {
            rest = &rest[..rest.len() - 1];
        }
        // "All of them except Eave"
        let bare = rest.first().is_some_and(|first| first.is_any(words!("all them those everything")))
            && rest.len() <= 8;
        let other = rest.iter().any(|token| {
            token.number.is_some()
                || token.senses.has_any(&[
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                    Sense::Time,
                    Sense::Clean,
                ])
        });
        if found.is_none()
            && bare
            && !other
            && rest.iter().any(|token| token.senses.has(Sense::But) || token.is("but"))
            && !has_verb_of_work(rest)
        {
            leaves_out = true;
            found = Some(Strength::Weak);
        }
        let strength = found?;
        (!rest.is_empty()).then_some(Self { tokens: rest, strength, leaves_out })
    }
}

/// "Ana here, he got it wrong, | it was sulfur": the last part, where one before it tells of a slip.
pub(super) fn behind_owning_up(tokens: &[Token]) -> Option<&[Token]> {
    let slip_at = tokens.iter().position(|token| {
        token.is_any(words!("wrong mistake mistaken misread mistyped miscounted misspoke mixed typo"))
    });
    let parts = |token: &Token| token.is_any(words!(", ; - :"));
    let comma = match slip_at {
        Some(at) => at + tokens[at..].iter().position(parts)?,
        None => tokens.iter().rposition(parts)?,
    };
    // "..., it's moist actually"
    let late = tokens.last().is_some_and(|last| last.is("actually")) && tokens.len() - comma <= 6;
    // "I had my glasses off, it is 0.6"
    let tail = &tokens[comma + 1..];
    let told = starts_with(tail, "it is")
        || starts_with(tail, "it's")
        || starts_with(tail, "its")
        || starts_with(tail, "it was")
        || starts_with(tail, "i meant");
    let idle = tokens[..comma].iter().all(|token| {
        !token.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist, Sense::Clean, Sense::Drop])
    });
    // "I told you already, Corner not Celeste"
    let against = tail.len() <= 5 && tail.iter().skip(1).any(|token| token.is("not"));
    let slip = slip_at.is_some() || late || (told || against) && idle;
    let figures = tokens[..comma].iter().any(|token| token.number.is_some());
    // "Them nine wasn't today, it was yesterday": the figure only says what is spoken of.
    let denied = told
        && tokens[..comma].iter().any(|token| {
            token.is_any(words!("wasn't wasnt weren't werent isn't isnt aren't arent ain't aint"))
        });
    (slip && (!figures || denied) && !has_verb_of_work(&tokens[..comma])).then(|| &tokens[comma + 1..])
}

/// What stands before a comma with nothing but talk behind it.
pub(super) fn before_idle_tail(tokens: &[Token]) -> &[Token] {
    let Some(comma) = tokens.iter().position(|token| token.is_any(words!(", ; - ("))) else { return tokens };
    // "Twas 11, I'd two more in my pocket": why, not how many.
    let more = tokens[comma..]
        .windows(2)
        .any(|pair| pair[0].number.is_some() && pair[1].is_any(words!("more extra hiding")))
        && tokens[comma..].iter().any(|token| token.is_any(words!("i i'd we we'd forgot missed found had")));
    // "No it's wet, somebody got there first"
    let somebody = tokens.get(comma + 1).is_some_and(|next| next.senses.has(Sense::Someone));
    let idle = !has_verb_of_work(&tokens[comma..])
        && !tokens[comma..].iter().any(|token| {
            if more && token.number.is_some() || somebody && token.senses.has(Sense::Gave) {
                return false;
            }
            token.number.is_some()
                || token.senses.has_any(&[
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                    Sense::Negation,
                ])
                // "Somebody got there first" gives no tree anything.
                || token.senses.has(Sense::Gave) && !token.is("got")
        });
    if idle && comma > 0 { &tokens[..comma] } else { tokens }
}

/// "the tank, ...": what was misread, up to its comma.
fn past_object(tokens: &[Token]) -> &[Token] {
    const FARTHEST: usize = 6;
    let comma = tokens.iter().take(FARTHEST).position(|token| token.is_any(words!(", . ; - :")));
    match comma {
        Some(comma) if !tokens[..comma].iter().any(|token| token.number.is_some()) => &tokens[comma + 1..],
        _ => tokens,
    }
}

/// "The volume was ...", "those figs came from ...": what is told anew, and what of it.
fn told_of(tokens: &[Token]) -> Option<(Strength, &[Token])> {
    let is = |at: usize, texts: WordList| tokens.get(at).is_some_and(|token| token.is_any(texts));
    if is(0, words!("the it its"))
        && is(
            1,
            words!(
                "volume amount quantity figure number count total depth reading weight product spray tree date time day percentage"
            ),
        )
        && is(2, words!("was is were should"))
    {
        let behind = 3 + tokens[3..]
            .iter()
            .take_while(|token| {
                token.is_any(words!("really actually only"))
                    || is(2, words!("should"))
                        && token
                            .is_any(words!("be have been given entered recorded written noted put read as"))
            })
            .count();
        return (tokens.len() > behind).then(|| (Strength::Strong, &tokens[behind..]));
    }
    // "Last one was Big One, 12 of them"; "the last one was two weeks ago" speaks of another time.
    let last = usize::from(is(0, words!("the that my this")));
    if is(last, words!("last previous"))
        && is(last + 1, words!("one entry report message record"))
        && is(last + 2, words!("was is should were"))
    {
        let behind = last
            + 3
            + tokens[last + 3..]
                .iter()
                .take_while(|token| {
                    token.is_any(words!("be have been say actually really from off for on dated"))
                })
                .count();
        let dated = !is(last + 2, words!("should"))
            && tokens[behind..]
                .iter()
                .any(|token| token.senses.has(Sense::Time) || token.is_any(words!("ago")));
        return (tokens.len() > behind && !dated).then(|| (Strength::Strong, &tokens[behind..]));
    }
    // "My wife says it was thirty three"
    let mine = usize::from(is(0, words!("my the our")));
    if is(
        mine,
        words!(
            "wife husband hubby partner spouse mom mum mother dad father daughter son kid kids neighbor neighbour"
        ),
    ) && is(mine + 1, words!("says said say reckons swears insists tells"))
        && is(mine + 2, words!("it it's its that there"))
    {
        let behind = mine
            + 3
            + tokens.iter().skip(mine + 3).take_while(|token| token.is_any(words!("was is were 's"))).count();
        return (tokens.len() > behind).then(|| (Strength::Weak, &tokens[behind..]));
    }
    // "He says 20 percent"
    if tokens
        .first()
        .is_some_and(|first| first.is_any(words!("he she they")) || first.senses.has(Sense::Mine))
        && is(1, words!("says said say"))
        && tokens.len() > 2
    {
        let behind = 2 + usize::from(is(2, words!("it's its it"))) + usize::from(is(3, words!("was is")));
        return (tokens.len() > behind).then(|| (Strength::Weak, &tokens[behind..]));
    }
    // "I picked those yesterday evening"
    if is(0, words!("i we"))
        && tokens.get(1).is_some_and(|verb| is_verb(verb.senses) || verb.is("did"))
        && is(2, words!("those them these that it"))
        && tokens.len() > 3
        && !tokens.iter().any(|token| token.is("and"))
    {
        return Some((Strength::Weak, &tokens[3..]));
    }
    let those = is(0, words!("those these they that it the them all"));
    let counted = 1 + usize::from(tokens.get(1).is_some_and(|next| next.number.is_some()));
    let noun = counted + usize::from(is(counted, words!("figs fruit ones fruits")));
    let came = is(noun, words!("came come were was are")) && is(noun + 1, words!("from off of on"));
    (those && came && tokens.len() > noun + 2).then(|| (Strength::Weak, &tokens[noun + 2..]))
}

/// What may stand behind "not" as the thing corrected: a name, a number, a spray, a time.
fn is_alternative(tokens: &[Token]) -> bool {
    const MOST_WORDS: usize = 5;
    tokens.len() <= MOST_WORDS
        && !tokens.iter().any(|token| {
            token.senses.has_any(&[Sense::Spots, Sense::Rust, Sense::Be, Sense::Have, Sense::Intent])
                || token.is_any(words!("yet much bad sure enough too so that"))
        })
}

/// "I meant to spray", "just watered", "no rust": openings of something else.
fn is_no_opener(rest: &[Token], opener: &str) -> bool {
    let next = |texts: WordList| rest.get(count(opener)).is_some_and(|next| next.is_any(texts));
    match opener {
        "i meant" | "meant" | "i mean" => next(words!("to")),
        "no" => rest.get(1).is_some_and(|next| {
            next.senses.has_any(&[
                Sense::Rust,
                Sense::Spots,
                Sense::Fig,
                Sense::Leaf,
                Sense::Rain,
                Sense::Frost,
                Sense::Watering,
                Sense::Water,
            ]) || next.is_any(words!("spraying need new more sign signs one idea problem change other"))
        }),
        // "Put it at the wall"
        "put that at" | "put it at" | "closer to" | "nearer to" => rest
            .get(count(opener)..)
            .unwrap_or_default()
            .iter()
            .find(|next| !next.is_any(words!("about around maybe say a an half")))
            .is_none_or(|next| next.number.is_none() && !next.senses.has(Sense::Unit)),
        // "I think I picked 12 off Wall" is told for the first time.
        "i think" => next(words!("i we")),
        "that's" | "it's" => next(words!("it all ok fine good")),
        // "Just picked eight from Big One"
        "just" => rest.get(1).is_some_and(|next| is_verb(next.senses)),
        _ => false,
    }
}

fn count(words: &str) -> usize {
    words.split(' ').count()
}

fn starts_with(tokens: &[Token], words: &str) -> bool {
    // A look at the first letter: hardly ever is the first word there.
    let first = tokens.first().and_then(|token| token.text.as_bytes().first());
    first == words.as_bytes().first()
        && words.split(' ').zip(tokens).all(|(word, token)| token.is(word))
        && tokens.len() > count(words)
}

fn ends_with(tokens: &[Token], words: &str) -> bool {
    let last = tokens.last().and_then(|token| token.text.as_bytes().last());
    last == words.as_bytes().last()
        && words.rsplit(' ').zip(tokens.iter().rev()).all(|(word, token)| token.is(word))
        && tokens.len() > count(words)
}
