//! The small words around names: all, both, the rest, two of, but not, each.

use crate::language::read::lexicon::{Sense, Senses};
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};

/// What says something of trees: a name before or behind it is its subject or object.
pub(super) const TELLS: &[Sense] = &[
    Sense::Rust,
    Sense::Clean,
    Sense::Drop,
    Sense::Bare,
    Sense::Sprayed,
    Sense::Spraying,
    Sense::Applied,
    Sense::Watered,
    Sense::Watering,
    Sense::Picked,
    Sense::Picking,
    Sense::Dry,
    Sense::Moist,
    Sense::Wet,
    Sense::Froze,
    Sense::Planted,
    Sense::Removed,
    Sense::Weighed,
    Sense::Copper,
    Sense::Sulfur,
    Sense::Oil,
    Sense::Ripening,
    Sense::Ripe,
    Sense::Swell,
    Sense::Dormant,
    Sense::LeafOut,
    Sense::Seen,
    Sense::Took,
];

pub(super) const NOUNS: WordList =
    words!("tree trees plant plants bush bushes shrub shrubs figtree figtrees");

pub(super) fn senses(tokens: &[Token]) -> Senses {
    tokens.iter().fold(Senses::default(), |all, token| all.and(token.senses))
}

/// Whether something is said of what stands before this place: a verb of being, a state, a number.
pub(super) fn tells(tokens: &[Token], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| {
        token.senses.has_any(&[Sense::Be, Sense::Have])
            || token.senses.has_any(&[
                Sense::Clean,
                Sense::Dry,
                Sense::Wet,
                Sense::Moist,
                Sense::Bare,
                Sense::Drop,
                Sense::Ripe,
                Sense::Ripening,
                Sense::Swell,
                Sense::Dormant,
                Sense::Weighed,
                Sense::Heavy,
                Sense::Rust,
                Sense::LeafOut,
            ])
            || token.is_any(words!("none nothing no needs still :"))
    })
}

/// "Wall is", "Wall has": said of one.
pub(super) fn is_singular(tokens: &[Token], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| {
        token.is_any(words!("is has was looks needs isn't wasn't seems feels lost got weighs"))
    })
}

pub(super) fn counts(tokens: &[Token], at: usize) -> bool {
    // "Corner about half that"
    let hedged =
        tokens.get(at).is_some_and(|token| token.is_any(words!("about maybe roughly only around just")));
    let at = at + usize::from(hedged);
    // "Whip just a quart"
    let unit = tokens.get(at).is_some_and(|token| token.is_any(words!("a an half")))
        && tokens.get(at + 1).is_some_and(|next| next.senses.has(Sense::Unit));
    if unit && hedged {
        return true;
    }
    let hour = tokens.get(at + 1).is_some_and(|next| next.is_any(words!("am pm : a p")));
    tokens.get(at).is_some_and(|token| token.number.is_some()) && !hour
}

/// A plain "but" before a name of which something is said.
pub(super) fn begins_anew(tokens: &[Token], at: usize, after: usize) -> bool {
    let plain = tokens[at].is("but") && !tokens.get(at + 1).is_some_and(|next| next.is("not"));
    let tells = tells(tokens, after) || tokens.get(after).is_some_and(|next| next.senses.has_any(TELLS));
    // "all clean except Corner lower leaves 5%"
    let measured = tokens.get(after..).is_some_and(|rest| {
        rest.iter().take_while(|token| !token.is_mark() || token.is("%")).take(6).any(|token| {
            token.is("%")
                || token.senses.has_any(&[Sense::Trace, Sense::Heavy, Sense::Spots])
                || token.is_any(words!("percent class"))
        })
    });
    // "a gallon each except Whip got half a gallon"
    let got = tokens.get(after).is_some_and(|next| next.is_any(words!("got gets took had")));
    // "Pots moist except Whip dry"
    const STATES: &[Sense] = &[Sense::Dry, Sense::Wet, Sense::Moist];
    let state = tokens[at].is_any(words!("except excepting excluding"))
        && tells
        && tokens[..at].iter().any(|token| token.senses.has_any(STATES))
        && !tokens[..at].iter().any(|token| token.senses.has(Sense::Watered));
    plain && tells || state || (measured || got) && !tokens[at].is("not")
}

/// How many words an exclusion takes before the names it leaves out.
pub(super) fn exclusion(tokens: &[Token], at: usize) -> Option<usize> {
    let token = tokens.get(at)?;
    let is = |offset: usize, texts: WordList| tokens.get(at + offset).is_some_and(|next| next.is_any(texts));
    let count = if token.senses.has(Sense::But) {
        1
    } else if token.is_any(words!("but and just")) && is(1, words!("not")) {
        2
    } else if token.is("but") && at > 0 {
        1
    } else if token.is_any(words!("apart aside away")) && is(1, words!("from"))
        || token.is("other") && is(1, words!("than"))
        || token.is("with") && is(1, words!("exception"))
    {
        2
    } else if token.is("not") {
        1
    } else {
        return None;
    };
    let mut end = at + count;
    while tokens
        .get(end)
        .is_some_and(|next| next.is_any(words!("for on from of off the my not in at to poor little")))
    {
        end += 1;
    }
    Some(end - at)
}

/// Words that may stand between a group and what narrows it: "the pots | that are out on the | deck".
pub(super) fn is_between(token: &Token) -> bool {
    token.is_any(words!("of on in by at near the my from tree trees ones one fig figs out over that are planted standing sitting under up"))
}

/// How many words "all" takes where it means all the trees; `None` where it means all of something else.
pub(super) fn all_of_trees(tokens: &[Token], at: usize) -> Option<usize> {
    let token = &tokens[at];
    // "gave them all a gallon": all of those spoken of.
    if at > 0 && tokens[at - 1].is_any(words!("them they those these us it 'em what who you")) {
        return None;
    }
    let next = skipping_articles(tokens, at + 1).and_then(|next| tokens.get(next));
    // "The pots, and they are all still moist": all of those.
    if at > 1
        && tokens[at - 1].senses.has(Sense::Be)
        && tokens[at - 2].is_any(words!("they these those"))
        && !next.is_some_and(|next| next.senses.has_any(&[Sense::Tree, Sense::Pot, Sense::Pots, Sense::Fig]))
    {
        return None;
    }
    // "Checked the deck, all clean": all of what was looked at.
    let looked = at > 1
        && tokens[at - 1].is_mark()
        && token.is("all")
        && next.is_some_and(|next| next.senses.has(Sense::Clean))
        && tokens.get(at + 2).is_none_or(|next| next.is_mark() || next.is_any(words!("there here now")))
        && tokens[..at].iter().any(|token| token.senses.has_any(&[Sense::Seen, Sense::Negation]));
    // "Pots I checked with finger, all is dry"
    let looked = looked
        || at > 2
            && tokens[at - 1].is_mark()
            && token.is("all")
            && next.is_some_and(|next| next.is_any(words!("is are was were")));
    if looked {
        return None;
    }
    // "They're all rust": wholly, whatever they are.
    let wholly = at > 0 && tokens[at - 1].senses.has(Sense::Be);
    if wholly && next.is_some_and(|next| next.senses.has(Sense::Rust)) {
        return None;
    }
    // "The soil was all dry": wholly too, said of one thing.
    let of_one = at > 0 && tokens[at - 1].is_any(words!("was is it's its"));
    if of_one && next.is_some_and(|next| next.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist])) {
        return None;
    }
    if token.is_any(words!("each every")) {
        return next
            .filter(|next| {
                next.senses.has_any(&[Sense::Tree, Sense::Pot]) || next.is_any(words!("one single fig"))
            })
            .map(|_| if next.is_some_and(|next| next.is("single")) { 2 } else { 1 });
    }
    if token.is("lot") {
        let the = at > 0 && tokens[at - 1].is("the");
        // "The pear at the end of the lot": a piece of land.
        let land = at > 1
            && tokens[at - 2].is_any(words!("of on in across around by at behind beside near"))
            && !tokens[..at].iter().any(|token| {
                token.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked, Sense::Applied])
            });
        if land {
            return None;
        }
        return (the && !tokens.get(at + 1).is_some_and(|of| of.is("of"))).then_some(1);
    }
    if token.is_any(words!("whole entire")) {
        return next.filter(|next| next.is_any(words!("garden orchard lot yard collection"))).map(|_| 2);
    }
    // "21 figs, all off Celeste"
    if next.is_some_and(|next| next.is_any(words!("off from"))) {
        return None;
    }
    if token.is_any(words!("all")) {
        if at > 0 && tokens[at - 1].is_any(words!("at in after above")) {
            return None;
        }
        let other = next.is_some_and(|next| {
            next.senses.has(Sense::Leaf)
                || (next.senses.has(Sense::Fig) && !next.is_any(words!("fig figs")))
                || next.is_any(words!("up told in together over day week morning afternoon evening night month summer season year that this right good done along around sorts kinds about ok okay gone set fruit but-not i we ripe picked fell fallen across through year's yellow brown out"))
        });
        return (!other).then_some(1);
    }
    Some(1)
}

pub(super) fn skipping_articles(tokens: &[Token], at: usize) -> Option<usize> {
    (at..tokens.len()).find(|index| {
        let counts = tokens[*index].number.is_some()
            && tokens.get(index + 1).is_some_and(|next| next.senses.has_any(&[Sense::Pots, Sense::Tree]));
        let article =
            tokens[*index].is_any(words!("single the my of our its those these four three two five"));
        !(article || counts)
    })
}

/// "The rest", "the others", "the other trees".
pub(super) fn rest_at(tokens: &[Token], at: usize) -> Option<usize> {
    let token = &tokens[at];
    if !token.senses.has(Sense::Rest) {
        return None;
    }
    let next = tokens.get(at + 1);
    if token.is_any(words!("rest others remainder")) {
        let of_trees = next.is_some_and(|next| next.is("of"))
            && tokens[at + 2..].iter().take(3).any(|token| token.senses.has_any(&[Sense::Tree, Sense::Pots]));
        let of_else = next.is_some_and(|next| next.is("of")) && !of_trees;
        let opens = at == 0 || tokens[at - 1].is_mark() || tokens[at - 1].is_any(words!("and but"));
        let verb =
            token.is("rest") && !opens && !led_by(tokens, at, 2, |before| before.is_any(words!("the all")));
        // "Rest its soul"
        let verb = verb
            || next.is_some_and(|next| {
                token.is("rest") && next.is_any(words!("its his her their your assured easy up"))
            });
        return (!of_else && !verb).then_some(if of_trees { 3 } else { 1 });
    }
    next.filter(|next| next.senses.has(Sense::Tree) || next.is_any(words!("ones figs pots two three")))
        .map(|_| 2)
}

/// Whether the words just before the name at `at` fit.
pub(super) fn led_by(tokens: &[Token], at: usize, back: usize, fits: impl Fn(&Token) -> bool) -> bool {
    tokens[at.saturating_sub(back)..at].iter().any(fits)
}

/// How many of a group are meant, if the words before it say so: "two of the pots", "the one by the wall",
/// "both pots"; nought for "some of them".
pub(super) fn quantity(tokens: &[Token], at: usize) -> Option<usize> {
    let mut back = at;
    while back > 0
        && tokens[back - 1]
            .is_any(words!("the my of our ones trees figs in by on near big little small are that"))
    {
        back -= 1;
    }
    let word = back.checked_sub(1).and_then(|before| tokens.get(before))?;
    if word.is_any(words!("one tree fig plant pot")) {
        // "Each pot on the deck"
        let each = back > 1 && tokens[back - 2].is_any(words!("each every all"));
        if each {
            return None;
        }
        return Some(1);
    }
    if word.is("both") {
        return Some(2);
    }
    if word.is_any(words!("some few several couple most half many")) {
        return Some(0);
    }
    // "picked 9 on the pots" counts figs, "15 gallon pots" measures them.
    let counts_other = tokens
        .get(back)
        .is_some_and(|next| next.senses.has(Sense::Unit) || next.is_any(words!("on in at")) && back < at);
    let whole = word.number.filter(|number| number.fract() == 0.0 && *number >= 1.0 && !counts_other)?;
    Some(whole as usize)
}

/// "Per tree", "each pot", behind a measure.
pub(super) fn is_distributive(tokens: &[Token], at: usize) -> bool {
    tokens[at].is_any(words!("each every")) || at > 0 && tokens[at - 1].is_any(words!("per"))
}

/// "Potted Whip up", "potting the figs": done, not a group.
pub(super) fn is_potting(tokens: &[Token], at: usize) -> bool {
    let token = &tokens[at];
    if token.is_any(words!("bags buckets")) {
        return tokens.get(at + 1).is_some_and(|of| of.is("of"));
    }
    token.is("potted")
        && !tokens
            .get(at + 1)
            .is_some_and(|next| next.senses.has(Sense::Tree) || next.is_any(words!("ones figs fig one")))
}

/// "The pot is dry": a pot as a thing, not "15 gallon pot" or "pot size".
pub(super) fn stands_alone(tokens: &[Token], at: usize) -> bool {
    let article = |token: &Token| token.is_any(words!("the a one that this my every each per"));
    let size = |token: &Token| {
        token.is_any(words!("big bigger biggest little small smaller smallest large tall old new blue black white first last other"))
    };
    let led = match at.checked_sub(1).map(|before| &tokens[before]) {
        Some(before) if size(before) => at > 1 && article(&tokens[at - 2]),
        Some(before) => article(before),
        None => false,
    };
    led && !tokens.get(at + 1).is_some_and(|next| next.is_any(words!("size mix up")))
        && !led_by(tokens, at, 1, |before| before.senses.has(Sense::Unit))
}

pub(super) fn is_noun_for_one(token: &Token) -> bool {
    token.is_any(words!("tree fig plant pot container bush 's"))
}

/// "... than Celeste", "unlike the pots": what something else is held against.
pub(super) fn is_compared(tokens: &[Token], at: usize) -> bool {
    let lead = tokens[..at].iter().rev().take(3).find(|token| !token.is_any(words!("the my on our")));
    lead.is_some_and(|lead| lead.is_any(words!("than unlike")))
}

/// "Plant" and "plants" after "i", "to" or "will" are done, not seen.
pub(super) fn is_verb_plant(tokens: &[Token], at: usize) -> bool {
    tokens[at].is("plant") && led_by(tokens, at, 1, |before| before.is_any(words!("i we to will i'll gonna")))
        || tokens.get(at + 1).is_some_and(|next| next.is_any(words!("tomorrow")))
}

/// A word nobody knows in the place of a name, alone between commas or at the end.
pub(super) fn stranger(tokens: &[Token], at: usize) -> bool {
    is_unknown(&tokens[at])
        && tokens.get(at + 1).is_none_or(|next| {
            next.is_mark()
                || next.senses.has_any(&[Sense::Link, Sense::Time, Sense::Filler])
                || next.is("and")
        })
}
