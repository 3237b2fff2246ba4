//! What looks like a report and was taken for talk: better asked back than lost in silence.

use super::Context;
use super::amounts::{Amount, amounts};
use super::lexicon::Sense;
use super::moments::moment;
use super::names::{Mention, Names, Product};
use super::tokens::{Token, tokens};
use super::word_list::words;
use super::{now, spelling};

use crate::season::request::Selection;

/// Whether a message taken for talk tells of work done, or a number of something, on trees it names.
pub(super) fn is_lost_report(text: &str, names: &Names, context: &Context) -> bool {
    const MOST_WORDS: usize = 40;
    if text.contains('?') || text.split_whitespace().count() > MOST_WORDS {
        return false;
    }
    let mut tokens = tokens(text);
    spelling::mend(&mut tokens, names);
    let mentions = names.mentions(&tokens, text);
    let named: Vec<usize> = mentions.iter().flat_map(|mention| mention.range.clone()).collect();
    let of_garden = mentions.iter().any(|mention| mention.trees.names_some() && !mention.trees.is_vague());
    let free: Vec<&Token> =
        (0..tokens.len()).filter(|index| !named.contains(index)).map(|index| &tokens[index]).collect();
    // "Birds got 6 on Celeste, I only got 3"
    let ours = free.windows(3).any(|three| {
        three[0].is_any(words!("i we"))
            && three[1..].iter().any(|token| token.is_any(words!("got picked get")))
            // "Before I got there"
            && !three[2].is_any(words!("there home up back to"))
    }) || free
        .windows(3)
        .any(|three| three[0].number.is_some() && three[1].is("for") && three[2].is_any(words!("me us")));
    let of_something_else = free.iter().any(|token| {
        is_of_something_else(token) && !token.is("none") && !(ours && token.senses.has(Sense::Creature))
    });
    // "Touched up Corner with copper"
    let sprays = matches!(names.product(&tokens), Product::Known { .. });
    if !of_garden || of_something_else {
        return false;
    }
    let mut taken = moment(&tokens, &named, now(context)).used;
    taken.extend(&named);
    let counted = amounts(&tokens, &taken, context.garden.units).iter().any(|measured| {
        matches!(
            measured.amount,
            Amount::Count(_)
                | Amount::Volume(_)
                | Amount::Mass(_)
                | Amount::Share(_)
                | Amount::Leaves(_)
                | Amount::LeavesOf { .. }
        )
    });
    // "Celeste has 20 figs on it" is how she stands.
    let stands = free.iter().any(|token| token.is_any(words!("has have grew grown left is are")));
    let worked = free.iter().any(|token| token.is_any(words!("done did finished")))
        && tokens.len() <= 14
        && !free.iter().any(|token| token.is_any(words!("for over growing ripening")));
    counted && !stands || worked || sprays
}

/// "Beetles on Corner", "leaves yellow on Eave", "something is chewing on Whip": seen, and of no kind the journal knows.
/// Kept in the grower's own words, on the trees it names.
pub(super) fn seen_of_no_kind(text: &str, names: &Names) -> Option<Vec<String>> {
    const MOST_WORDS: usize = 16;
    if text.contains(['?', '\n']) || text.split_whitespace().count() > MOST_WORDS {
        return None;
    }
    let mut tokens = tokens(text);
    spelling::mend(&mut tokens, names);
    let mentions = names.mentions(&tokens, text);
    let named: Vec<usize> = mentions.iter().flat_map(|mention| mention.range.clone()).collect();
    let by_name = |mention: &&Mention| mention.trees.names_some() && !mention.trees.is_vague();
    let trees: Vec<String> = mentions
        .iter()
        .filter(by_name)
        .filter(|mention| names.unsure(&mention.trees).is_none())
        .filter_map(|mention| match names.selection(&mention.trees, &[])? {
            Selection::Named(names) => Some(names),
            _ => None,
        })
        .flatten()
        .collect();
    let free: Vec<&Token> =
        (0..tokens.len()).filter(|index| !named.contains(index)).map(|index| &tokens[index]).collect();
    let pest = free.iter().any(|token| {
        token.senses.has(Sense::Creature)
            && !token.is_any(words!("kid kids baby grandkids children dog dogs cat cats"))
            || token.is_any(words!(
                "webs webbing cobwebs frass borer borers mold mould mildew canker ooze sap gall galls"
            ))
    });
    let trouble = free.iter().any(|token| {
        token.is_any(words!(
            "yellow yellowing yellowed curling curled curl holes chewed chewing eaten scorched sunburned sunburnt burned burnt sunscald cracked split splitting sticky scarred bitten nibbled stunted pale chlorotic browning crinkled"
        ))
    }) && free.iter().any(|token| {
        token.senses.has_any(&[Sense::Leaf, Sense::Fig, Sense::Be, Sense::Have])
            || token.is_any(words!("trunk bark branch branches limb stem tips something edges edge"))
    });
    let of_something_else = free.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Condition,
            Sense::Future,
            Sense::Intent,
            Sense::Habit,
            Sense::Shop,
            Sense::Someone,
            Sense::Elsewhere,
            Sense::Plant,
            Sense::Negation,
            Sense::Thing,
            Sense::Metal,
        ]) || token.number.is_some()
            || token.is_any(words!("lol haha dream joke kidding pretend remember year ate took stole got"))
    });
    ((pest || trouble) && !of_something_else && !trees.is_empty()).then_some(trees)
}

/// "Out of copper", "not using copper this year": a product that is not to be had and is advised all the same.
pub(super) fn out_of_stock(text: &str, names: &Names) -> Option<String> {
    const MOST_WORDS: usize = 12;
    if text.contains('?') || text.split_whitespace().count() > MOST_WORDS {
        return None;
    }
    let mut tokens = tokens(text);
    spelling::mend(&mut tokens, names);
    let Product::Known { name, .. } = names.product(&tokens) else { return None };
    let any = |texts| tokens.iter().any(|token| token.is_any(texts));
    let out = tokens.windows(2).any(|pair| {
        pair[0].is("out") && pair[1].is("of")
            || pair[0].is("no") && pair[1].is("more")
            || pair[0].is("used") && pair[1].is("up")
    });
    let not_using = tokens.windows(3).any(|three| {
        three[0].is_any(words!("not won't don't aren't isn't never"))
            && three[1..].iter().any(|token| token.is_any(words!("using use have")))
    });
    let soon = any(words!("almost nearly low soon if when might prices price"));
    ((out || not_using) && !soon).then_some(name)
}

/// Not done, still to be done, done by birds, or done to wood: talk as far as the journal goes.
fn is_of_something_else(token: &Token) -> bool {
    token.senses.has_any(&[
        Sense::Negation,
        Sense::Creature,
        Sense::Condition,
        Sense::Future,
        Sense::Intent,
        Sense::Perhaps,
        Sense::Habit,
        Sense::Shop,
        Sense::Someone,
        Sense::Elsewhere,
        Sense::Plant,
        Sense::Metal,
    ]) || token.senses.has(Sense::Thing) && !token.is("sprayer") || token.is_any(words!(
        "dream dreams dreamt dreamed testing pretend kidding joking almost nearly forgot forget cut cutting cuttings branch branches sucker suckers tip tips wind compost mulch counted remember story taste tastes old"
    ))
}
