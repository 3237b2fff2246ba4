//! Where a clause begins though no mark says so: thumbs leave out commas, and voices make no pause.

use std::ops::Range;

use crate::language::read::lexicon::Sense;
use crate::language::read::names::Mention;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

/// Where a thumb left out the commas: "wall 22 corner 7", "14 off wall 3 off corner". Names and what is said of
/// them in turn begin anew with each name, or with each number if a number came first.
pub(super) fn unmarked(tokens: &[Token], mentions: &[Mention], range: Range<usize>) -> Vec<usize> {
    let within: Vec<&Range<usize>> = mentions
        .iter()
        .map(|mention| &mention.range)
        .filter(|mention| mention.start >= range.start && mention.end <= range.end)
        .collect();
    if within.len() < 2 {
        return Vec::new();
    }
    // Turns of name and figure, with where each began.
    let mut turns: Vec<(Turn, usize)> = Vec::new();
    for index in range {
        let turn = if within.iter().any(|mention| mention.contains(&index)) {
            Turn::Name
        } else if says_how_it_is(tokens, index) {
            Turn::Figure
        } else {
            continue;
        };
        if turns.last().is_none_or(|(last, _)| *last != turn) {
            turns.push((turn, index));
        }
    }
    if turns.len() < 4 || turns.len() % 2 == 1 {
        return Vec::new();
    }
    let first = turns[0].0;
    turns.iter().skip(1).filter(|(turn, _)| *turn == first).map(|(_, index)| *index).collect()
}

/// Where a dictating voice made no pause: "no rust | big one has a few spots", "picked a bunch | didn't count them".
pub(super) fn new_subjects(tokens: &[Token], mentions: &[Mention], range: Range<usize>) -> Vec<usize> {
    let mut starts = Vec::new();
    for mention in mentions.iter().map(|mention| &mention.range) {
        let article = mention.start > range.start && tokens[mention.start - 1].is_any(words!("the my our"));
        let start = mention.start - usize::from(article);
        let told = tokens.get(mention.end).is_some_and(|next| {
            next.is_any(words!("is has looks isn't hasn't are have look needs got was")) && !next.is("'s")
        });
        // What leads a name in, or goes on to it, parts nothing.
        let led = start.checked_sub(1).is_some_and(|before| {
            let before = &tokens[before];
            before.is_mark()
                || before.senses.has_any(&[Sense::Link, Sense::But, Sense::Time, Sense::Be, Sense::Have, Sense::Filler])
                || before.is_any(words!(
                    "and or that how when where why which what if because since like than think guess hope see say says said know sure tell note means so but not both all thinks reckon till until while as only now"
                ))
                || before.senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked, Sense::Gave, Sense::Seen, Sense::Mine])
        });
        let says = start > range.start + 1
            && tokens[range.start..start].iter().any(says_something)
            && mention.end < range.end;
        if told && !led && says && mention.start >= range.start {
            starts.push(start);
        }
    }
    for index in range.start + 3..range.end {
        // "copper on wall | sulfur on corner"
        let product = |at: usize| {
            tokens[at].senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])
                && tokens.get(at + 1).is_some_and(|next| next.is("on"))
        };
        let behind_name = mentions.iter().any(|mention| mention.range.end == index);
        if behind_name && product(index) && (range.start..index).any(product) {
            starts.push(index);
        }
    }
    for index in range.start + 2..range.end.saturating_sub(1) {
        // "4 off Wall | 3 off Fred"
        let off = |at: usize| {
            tokens[at].number.is_some()
                && tokens.get(at + 1).is_some_and(|next| next.is_any(words!("off from")))
        };
        if off(index)
            && !tokens[index - 1].is_mark()
            && !tokens[index - 1].senses.has_any(&[Sense::Link, Sense::Filler, Sense::Article])
            && !tokens[index - 1].is_any(words!("and n & picked got about plus"))
            && (range.start..index).any(off)
        {
            starts.push(index);
        }
    }
    for index in range.start + 1..range.end {
        // "deck watered rust none"
        let worked = tokens[range.start..index]
            .iter()
            .any(|token| token.senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Picked]));
        let told = tokens.get(index + 1).is_some_and(|next| next.is("none") || next.number.is_some());
        // "picked 6 big one today | no rust"
        let none = tokens[index].is("no")
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("rust spots sign signs")));
        if none
            && worked
            && !tokens[index - 1].senses.has_any(&[Sense::Link, Sense::Article, Sense::But, Sense::Seen])
        {
            starts.push(index);
        }
        let led = tokens[index - 1].senses.has_any(&[Sense::Link, Sense::Article, Sense::But]);
        if tokens[index].is("rust") && worked && told && !led {
            starts.push(index);
        }
    }
    for index in range.start + 2..range.end {
        let counts = tokens
            .get(index + 1)
            .is_some_and(|next| next.is_any(words!("count measure weigh bother know remember")))
            // "The pots I didn't bother with": what was not done, and to which.
            && !tokens.get(index + 2).is_some_and(|next| next.is("with"));
        // "Whip looks thirsty | I gave her half a gallon"
        let told = tokens[index - 1].senses.has_any(&[
            Sense::Dry,
            Sense::Wet,
            Sense::Moist,
            Sense::Rust,
            Sense::Spots,
            Sense::Clean,
            Sense::Unit,
        ]);
        let works = tokens.get(index + 1).is_some_and(|next| {
            next.is_any(words!("gave watered sprayed picked put soaked poured hit treated"))
        });
        // "no rust | picked 7 | watered Corner 2 gallons"
        let before = &tokens[index - 1];
        let verb = tokens[index].is_any(words!("picked watered sprayed scouted checked"))
            && !before.is_mark()
            && !before.senses.has_any(&[
                Sense::Mine,
                Sense::Link,
                Sense::Be,
                Sense::Have,
                Sense::Negation,
                Sense::Filler,
                Sense::Article,
                Sense::But,
            ])
            && !before.is_any(words!(
                "and or who that which just already also then he she they bo ana hand freshly first last"
            ))
            && tokens[range.start..index].iter().any(says_something)
            && tokens[range.start..index].iter().any(|token| {
                token.senses.has_any(&[
                    Sense::Seen,
                    Sense::Rust,
                    Sense::Clean,
                    Sense::Sprayed,
                    Sense::Watered,
                    Sense::Picked,
                ])
            });
        // "Picked 11 off Celeste | ate like 3 of them already"
        let ate = tokens[index].is("ate")
            && tokens[range.start..index].iter().any(|token| token.senses.has(Sense::Picked))
            && tokens[index + 1..range.end]
                .windows(2)
                .any(|pair| pair[0].is("of") && pair[1].is_any(words!("them those")));
        if verb || ate {
            starts.push(index);
        }
        // "Pots soaked from the rain | no need to water"
        if tokens[index].is("no")
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("need reason point")))
        {
            starts.push(index);
        }
        let at_once = tokens[index].is_any(words!("gave watered soaked sprayed"))
            && tokens[index - 1].senses.has_any(&[Sense::Dry, Sense::Rust])
            && !tokens[index - 1].senses.has(Sense::Link);
        let gave_it = tokens[index].is_any(words!("gave"))
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("it her him them")))
            && !tokens[index - 1].senses.has_any(&[Sense::Mine, Sense::Link, Sense::But])
            && !tokens[index - 1].is_any(words!("and so then just also he she they who bo ana"));
        // "... a gallon each | hope that's ok"
        let hope = tokens[index].is("hope") && !tokens[index - 1].is_any(words!("and i we do"));
        if gave_it || hope || at_once || tokens[index].is_any(words!("i we")) && told && works {
            starts.push(index);
        }
        // "didn't get any of the rain | it's so dry"
        let state = tokens[index + 1..range.end].iter().take(2).any(|next| {
            next.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist]) && !next.is_any(words!("drink"))
        });
        let led = tokens[index - 1].senses.has_any(&[Sense::Link, Sense::But, Sense::Be])
            || tokens[index - 1].is_mark()
            || tokens[index - 1].is_any(words!(
                "think guess hope say says said that if when because cuz cause coz cos bc since but and so know how why"
            ));
        if tokens[index].is_any(words!("it's its they're she's he's")) && state && !led {
            starts.push(index);
        }
        if tokens[index].is_any(words!("didn't not don't")) && counts {
            let subject = tokens[index - 1].is_any(words!("i we"));
            starts.push(index - usize::from(subject));
        }
    }
    starts
}

/// A word that could be the whole point of a clause.
fn says_something(token: &Token) -> bool {
    token.senses.has_any(&[
        Sense::Rust,
        Sense::Spots,
        Sense::Clean,
        Sense::Dry,
        Sense::Wet,
        Sense::Moist,
        Sense::Drop,
        Sense::Sprayed,
        Sense::Watered,
        Sense::Picked,
        Sense::Gave,
        Sense::Ripe,
        Sense::Ripening,
    ])
}

#[derive(Clone, Copy, PartialEq)]
enum Turn {
    Name,
    Figure,
}

fn says_how_it_is(tokens: &[Token], index: usize) -> bool {
    let token = &tokens[index];
    // "7 a" is an hour, "half a gallon" is none.
    let hour = token.text.starts_with(|letter: char| letter.is_ascii_digit())
        && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("am pm : a p")));
    token.number.is_some() && !hour
        || token.is("none")
        || token.senses.has_any(&[
            Sense::Clean,
            Sense::Dry,
            Sense::Wet,
            Sense::Moist,
            Sense::Bare,
            Sense::Ripe,
        ])
}
