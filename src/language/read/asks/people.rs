//! What is asked of people, or of the bot as if it were one.

use crate::language::read::Speech;
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};

/// "Bo did you spray": asked of Bo.
pub(super) fn is_of_a_person(speech: &Speech) -> bool {
    // "When are you coming over to pick, Bo?"
    let mut back = speech.tokens.iter().rev().filter(|token| !token.is_any(words!("? ! .")));
    let called = back.next().is_some_and(|last| speech.names.is_person(&last.text))
        && back.next().is_some_and(|mark| mark.is(","))
        && speech.tokens.iter().any(|token| token.is_any(words!("you your u remember we i")));
    if called {
        return true;
    }
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).take(4).collect();
    matches!(words.as_slice(), [who, verb, you, ..]
        if speech.names.is_person(&who.text) && verb.is_any(words!("did have are do will")) && you.is_any(words!("you u")))
}

/// "Can someone water Whip please", "Bo, can you spray the pots tonight?": asked of people, not of the bot.
pub(super) fn is_favour_asked(speech: &Speech) -> bool {
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
    // "Hey honey, can you bring me the smoker off the deck": nothing a bot could do.
    let fetch = words.iter().enumerate().take(4).any(|(at, can)| {
        can.is_any(words!("can could will would"))
            && is(at + 1, words!("you u someone somebody"))
            && is(at + 2, words!("bring get grab fetch pass hand buy carry"))
            && (is(at + 3, words!("me us the my some your a"))
                || is(at + 3, words!("in out back over along"))
                    && is(at + 4, words!("the my your that some a"))
                    && speech.mentions.is_empty())
    });
    if fetch {
        return true;
    }
    // "Bo, would you mind watering the deck tomorrow?"
    let mind = called
        && is(can, words!("would do"))
        && is(can + 1, words!("you"))
        && is(can + 2, words!("mind"))
        && words
            .get(can + 3)
            .is_some_and(|verb| verb.senses.has_any(&[Sense::Watering, Sense::Spraying, Sense::Picking]));
    if mind {
        return true;
    }
    let verb = words.get(whom + of + 1).is_some_and(|verb| {
        verb.senses.has_any(&[Sense::Spray, Sense::Water, Sense::Pick, Sense::Apply])
            || verb.is_any(words!("check scout weigh give do harvest cover move repot prune look read empty"))
    });
    is(can, words!("can could will would")) && asked && verb
}

/// Asked of somebody by name, or a favour of them.
pub(in crate::language::read) fn is_for_people(speech: &Speech) -> bool {
    let called = speech.tokens.first().is_some_and(|first| speech.names.is_person(&first.text));
    called && (is_of_a_person(speech) || is_favour_asked(speech))
}

/// "Whos bringing lemonade", "who's coming Saturday?": asked round the room.
pub(super) fn is_asked_round(speech: &Speech) -> bool {
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).take(3).collect();
    // "Did everyone hear that thunder?"
    let heard = words.first().is_some_and(|first| first.is("did"))
        && words
            .get(1)
            .is_some_and(|who| who.is_any(words!("everyone everybody anyone anybody you y'all yall")))
        && words.get(2).is_some_and(|verb| verb.is_any(words!("hear see feel catch watch notice")))
        && !speech.mentions.iter().any(|mention| mention.trees.names_one_by_name());
    if heard {
        return true;
    }
    // "Who has the hose"
    let held = words.first().is_some_and(|first| first.is("who"))
        && words.get(1).is_some_and(|verb| verb.is_any(words!("has took moved left borrowed got hid")))
        && speech.mentions.is_empty()
        && !speech
            .tokens
            .iter()
            .any(|token| token.senses.has_any(&[Sense::Rust, Sense::Watered, Sense::Sprayed, Sense::Fig]));
    if held {
        return true;
    }
    words.first().is_some_and(|first| first.is_any(words!("who's whos who")))
        && words.iter().skip(1).take(2).any(|verb| {
            verb.is_any(words!("bringing coming going making driving hosting cooking joining bring bringin wants want"))
        })
        && speech.mentions.is_empty()
        // "Fig jam recipe anyone?", "who taught you figs"
        || words.len() <= 3
            && speech.mentions.is_empty()
            && (words.first().is_some_and(|first| first.is("who"))
                && words.get(1).is_some_and(|verb| verb.is_any(words!("taught built wrote invented raised")))
                || speech.tokens.len() <= 7
                    && speech.tokens.iter().rev().find(|token| !token.is_mark()).is_some_and(|last| {
                        last.is_any(words!("anyone anybody"))
                    }))
}

/// "Are you a fig?", "have you seen the game?": nothing of this garden is asked.
pub(super) fn is_about_the_bot(speech: &Speech) -> bool {
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

/// "Do the tomatoes need water?", "my sister wants to know if she should spray her fig": of no tree of this garden.
pub(super) fn is_of_other_plants(speech: &Speech) -> bool {
    let tokens = speech.tokens;
    let named = speech.mentions.iter().any(|mention| !mention.trees.is_vague());
    let plant = tokens.iter().enumerate().any(|(at, token)| {
        token.senses.has(Sense::Plant)
            && !tokens.get(at + 1).is_some_and(|next| next.senses.has_any(&[Sense::Sulfur, Sense::Oil]))
    });
    let figs = tokens
        .iter()
        .any(|token| token.senses.has_any(&[Sense::Fig, Sense::Pot, Sense::Pots, Sense::Frost, Sense::Rust]));
    let theirs = tokens.iter().any(|token| token.senses.has(Sense::Someone))
        && tokens.windows(2).any(|pair| {
            pair[0].is_any(words!("her his their hers")) && pair[1].senses.has_any(&[Sense::Fig, Sense::Tree])
        });
    // "Is my neighbor's fig due for copper?", "does momma need to water hers?"
    let of_somebody = tokens.windows(2).any(|pair| {
        pair[0].senses.has(Sense::Someone)
            && pair[0].text.ends_with("'s")
            && pair[1].senses.has_any(&[Sense::Fig, Sense::Tree])
    }) || tokens.iter().any(|token| token.is_any(words!("hers theirs")))
        && !tokens.iter().any(|token| token.senses.has(Sense::Mine));
    (plant && !figs || theirs || of_somebody) && !named
}
