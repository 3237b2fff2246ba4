//! The words of a sentence about trees, each marked for what it is: where a tree stands, where that is, what is said by
//! the way; and names, which are what is left over.

use super::super::cultivars;
use super::super::first_days::{Stand, grams_for_gallons, litres_a_unit};
use super::clause::{Clause, Listed, clause};
use super::is_of_something_else;
use crate::language::read::Context;
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::journal::What;
use crate::season::request::{Potted, Setting};
use crate::units::Litres;

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Mark {
    Free,
    /// Said around it, and nothing by itself.
    Small,
    /// Part of a name by the list of cultivars.
    Name,
    Stand(Stand),
    /// Goes on with the stand before.
    OfStand,
    Break,
}

const POT: WordList = words!(
    "vase vases pot pot's pots potted container containers tub tubs bucket buckets planter planters barrel barrels"
);
const GROUND: WordList = words!("ground inground earth soil dirt grond groud gound");

pub(super) fn tells_a_stand(told: &[Token]) -> bool {
    told.iter().any(|token| {
        token.is_any(POT)
            || token.is_any(GROUND)
            || token.is_any(words!("gal gals gallon gallons litre litres liter liters"))
    })
}

/// None if a word is left that is no name.
pub(super) fn clauses(text: &str, told: &[Token], listed: Listed, context: &Context) -> Option<Vec<Clause>> {
    if told.iter().any(|token| is_of_something_else(token) && !token.is("bordeaux"))
        || told.iter().any(|token| {
            token.is_any(words!(
                "tomorrow later soon would wide width mulch loam sandy inch inches cm ft feet foot"
            ))
        })
        // "Jean has her own little fig in a 15 gallon pot"
        || (1..told.len()).any(|at| {
            let of_pot = told.iter().skip(at + 2).take(2).any(|token| token.is_any(POT));
            told[at].is("has")
                && told.get(at + 1).is_some_and(|next| next.is_any(words!("her his their a an own one some")))
                && !told[at - 1].is_any(words!("she he it"))
                && !(of_pot && told[at + 1].is("a"))
        })
    {
        return None;
    }
    let mut marks = vec![Mark::Free; told.len()];
    mark_breaks(told, &mut marks);
    mark_cultivars(told, &mut marks);
    mark_stands(told, &mut marks, context)?;
    mark_whereabouts(text, told, &mut marks);
    mark_small(text, told, &mut marks);
    mark_people(told, &mut marks, context);
    mark_remarks(text, told, &mut marks);
    mark_run_ons(&mut marks);
    let stands = marks.iter().any(|mark| matches!(mark, Mark::Stand(_)));
    let mut found = Vec::new();
    let mut from = 0;
    for at in 0..=told.len() {
        if at == told.len() || marks[at] == Mark::Break {
            if from < at {
                let joins = from > 0 && told[from - 1].is_any(words!("and & + n plus"));
                let heads = told.get(at).is_some_and(|mark| mark.is(":"));
                found.push(Clause {
                    joins,
                    heads,
                    ..clause(text, &told[from..at], &marks[from..at], stands, listed)?
                });
            }
            from = at + 1;
        }
    }
    Some(found)
}

fn mark_breaks(told: &[Token], marks: &mut [Mark]) {
    for (at, token) in told.iter().enumerate() {
        let mark = token.is_any(words!(", ; : ( ) - \u{2013} & + / . = >"));
        let and = token.is_any(words!("and n plus but while then"));
        if mark && !(token.is_any(words!("- . /")) && token.joined) || and {
            marks[at] = Mark::Break;
        }
    }
}

/// "Second one is Smith also fifteen gallon third one I-258 in a twenty": a small word before the next name parts them.
fn mark_run_ons(marks: &mut [Mark]) {
    let is_stand = |mark: &Mark| matches!(mark, Mark::Stand(_));
    let is_name = |mark: &Mark| matches!(mark, Mark::Free | Mark::Name);
    let mut from = 0;
    while from < marks.len() {
        let to = (from..marks.len()).find(|at| marks[*at] == Mark::Break).unwrap_or(marks.len());
        if marks[from..to].iter().filter(|mark| is_stand(mark)).count() > 1 {
            let stand = (from..to).find(|at| is_stand(&marks[*at]));
            let named = stand.is_some_and(|stand| marks[from..stand].iter().any(is_name));
            let gap = stand.and_then(|stand| {
                let next = (stand + 1..to).find(|at| is_name(&marks[*at]))?;
                (stand + 1..next).rev().find(|at| marks[*at] == Mark::Small)
            });
            if let Some(gap) = gap.filter(|_| named) {
                marks[gap] = Mark::Break;
                from = gap + 1;
                continue;
            }
        }
        from = to + 1;
    }
}

fn mark_stands(told: &[Token], marks: &mut [Mark], context: &Context) -> Option<()> {
    let units = context.garden.units;
    let mut scale = last_scale(context);
    let named: Vec<usize> = (0..told.len()).filter(|at| marks[*at] == Mark::Name).collect();
    for measured in amounts(told, &named, units) {
        match measured.amount {
            Amount::Volume(volume) | Amount::Vessel(volume) => {
                let number = told[measured.from..measured.to].iter().find_map(|token| token.number);
                scale = number.filter(|number| *number > 0.0).map(|number| volume.value() / number).or(scale);
                stand(marks, measured.from, measured.to, volume);
            }
            // A length or a weight is of something else.
            Amount::Mass(_) if !told[measured.from..measured.to].iter().any(|token| token.is("g")) => {
                return None;
            }
            Amount::Temperature(_) | Amount::Depth(_) | Amount::Length(_) => return None,
            _ => {}
        }
    }
    for at in 0..told.len().saturating_sub(1) {
        if let Some(volume) = grams_for_gallons(&told[at..at + 2]) {
            stand(marks, at, at + 2, volume);
        }
    }
    // "... and Big One is in a 20", "#15"
    for at in 1..told.len() {
        let Some(number) = told[at].number.filter(|number| (1.0..=200.0).contains(number)) else { continue };
        let alone = marks[at] == Mark::Free
            && told
                .get(at + 1)
                .is_none_or(|next| !next.is_word() || next.is_any(words!("s now not instead pot and")));
        let led = told[at - 1].is_any(words!("a an in to into really actually holds"))
            || told[at - 1].is("s") && told[at - 1].joined;
        if told[at - 1].is("#")
            && told.get(at + 1).is_none_or(|next| !next.is_word())
            && at > 1
            && marks[at - 2] != Mark::Name
        {
            continue;
        }
        if alone
            && led
            && !told[at].text.chars().any(char::is_alphabetic)
            && let Some(scale) = scale
        {
            stand(marks, at, at + 1, Litres::new(number * scale));
        }
    }
    let sized = marks.iter().any(|mark| matches!(mark, Mark::Stand(_)));
    for (at, token) in told.iter().enumerate() {
        if marks[at] != Mark::Free {
            continue;
        }
        if token.is_any(GROUND) || token.is("planted") && told.get(at + 1).is_some_and(|next| next.is("out"))
        {
            // "Kadota is not in ground, is in pot"
            let denied = told[..at]
                .iter()
                .rev()
                .take(4)
                .any(|before| before.is_any(words!("not isn't isnt no longer rather instead")));
            // "In a pot with good soil"
            let soil =
                token.is_any(words!("soil dirt earth")) && !(at > 0 && told[at - 1].is_any(words!("the in")));
            marks[at] = if denied || soil { Mark::Small } else { Mark::Stand((Potted::InGround, None)) };
        } else if token.is_any(POT) && !sized {
            let denied = told[..at]
                .iter()
                .rev()
                .take(3)
                .any(|before| before.is_any(words!("not isn't isnt no rather than instead")));
            marks[at] = if denied { Mark::Small } else { Mark::Stand((Potted::InPot, None)) };
        }
    }
    // A pot without a size beside sizes is the pot of its size, unless it stands in a part of its own.
    let parts: Vec<usize> = (0..told.len()).filter(|at| marks[*at] == Mark::Break).collect();
    for (at, token) in told.iter().enumerate() {
        if marks[at] == Mark::Free && token.is_any(POT) {
            let from = parts.iter().rev().find(|part| **part < at).map_or(0, |part| part + 1);
            let to = parts.iter().find(|part| **part > at).copied().unwrap_or(told.len());
            let own = marks[from..to].iter().any(|mark| matches!(mark, Mark::Stand(_)));
            let next = marks.get(to + 1..).is_some_and(|rest| {
                rest.iter()
                    .take_while(|mark| **mark != Mark::Break)
                    .any(|mark| matches!(mark, Mark::Stand((Potted::InPot, _))))
            });
            let in_a = told[from..at].iter().any(|token| token.is_any(words!("in into")));
            marks[at] = if own || next || !in_a { Mark::Small } else { Mark::Stand((Potted::InPot, None)) };
        }
    }
    Some(())
}

fn stand(marks: &mut [Mark], from: usize, to: usize, volume: Litres) {
    for at in from..to.min(marks.len()) {
        marks[at] = if at == from { Mark::Stand((Potted::InPot, Some(volume))) } else { Mark::OfStand };
    }
}

/// Litres in the unit the tree before was told in.
fn last_scale(context: &Context) -> Option<f64> {
    let What::Setting(Setting::Tree(last)) = &context.just_said()?.what else { return None };
    last.volume.map(litres_a_unit)
}

fn mark_cultivars(told: &[Token], marks: &mut [Mark]) {
    let mut at = 0;
    while at < told.len() {
        let size = cultivars::at(told, at).filter(|size| {
            marks[at..at + size].iter().all(|mark| matches!(mark, Mark::Free | Mark::Break))
                && marks[at] == Mark::Free
        });
        match size {
            Some(size) => {
                marks[at..at + size].fill(Mark::Name);
                at += size;
            }
            None => at += 1,
        }
    }
}

/// "By the back steps", "next to the garage", "that my sister gave me", "since 1978".
fn mark_whereabouts(text: &str, told: &[Token], marks: &mut [Mark]) {
    const MOST_WORDS: usize = 7;
    let capital = |token: &Token| {
        text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
    };
    let mut at = 0;
    while at < told.len() {
        let token = &told[at];
        let place = token.is("of") && at > 0 && told[at - 1].is_any(words!("side back end corner edge front top bottom"))
            || token.is_any(words!("by near behind beside next against along under on outside below above opposite across facing between at"))
            || token.is("in") && told.get(at + 1).is_some_and(|next| next.is_any(words!("front back")))
            || token.is("in")
                && told.get(at + 1).is_some_and(|next| next.is_any(words!("the my our")))
                && !told[at..].iter().take(5).any(|token| token.is_any(POT) || token.is_any(GROUND) || token.number.is_some());
        // "... so the wife can pick without walking"
        let aim = token.is("so")
            && at > 0
            && told.get(at + 1).is_some_and(|next| next.is_any(words!("the we i my she he they")));
        let story = aim
            || token.is_any(words!("from since that which who because cause cuz bought given gift rooted"))
                && !told
                    .get(at + 1)
                    .is_some_and(|next| next.is_any(words!("is pot one i we the far should would was be")));
        if marks[at] != Mark::Free
            || !(place || story)
            || aim
                && marks[at..]
                    .iter()
                    .skip_while(|mark| **mark == Mark::Free)
                    .any(|mark| matches!(mark, Mark::Stand(_)))
        {
            at += 1;
            continue;
        }
        let mut end = at + 1;
        while end < told.len()
            && end - at <= MOST_WORDS
            && marks[end] == Mark::Free
            && !(place
                && told[end].is_any(words!(
                    "i we i've we've there is are it's its she's he's it she he that who which was"
                )))
            && !(place && token.is("at") && told[end].number.is_some())
            && !(story && told[end].is_any(words!("is its it's she's he's")))
        {
            // "... by the shed Celeste": a name of its own behind the place is not taken in.
            let article = told[end - 1].is_any(words!("the my our a an"));
            let name = capital(&told[end]) && place && end > at + 2 && !article && !capital(&told[end - 1]);
            if name {
                break;
            }
            end += 1;
        }
        marks[at..end].fill(Mark::Small);
        at = end;
    }
}

/// "Bo brought me another one": who it was.
fn mark_people(told: &[Token], marks: &mut [Mark], context: &Context) {
    for (token, mark) in told.iter().zip(marks.iter_mut()) {
        let is_person =
            context.garden.people.iter().any(|person| person.name.eq_ignore_ascii_case(&token.text));
        if *mark == Mark::Free && is_person {
            *mark = Mark::Small;
        }
    }
}

/// Words around trees and pots.
fn mark_small(text: &str, told: &[Token], marks: &mut [Mark]) {
    const WORDS: WordList = words!(
        "a about actually add adding again ago ah all almost alright also always an and another anybody anymore apologies apostrophe approx approximately are around as at aunt autocorrect autumn babies baby back bad bag bags balcony batch be beautiful been being believe best big bigger biggest black blacks blue both bottom bought boy brother brought brown btw bucket buries bury call called calls came can can't cant capacity ceramic change check checked checking clay correct correction correctly could couldn't couple covers cultivar cutting cuttings dad dad's dang darn daughter decided deck definitely did direct directly do does donated dough down dug each east eight em emendation end entered even every everybody exact exactly excuse fabric fall far father's favorite favourite fence few fig figs finally fine first five for forgot four friend full gal gallon gallons gave get girl give goes going gone good got granddaughter grandfather's grandma grandma's grandmother's grandpa grandpa's grandson gray great green grey grow growing grows guess had haha half happily has have haven't he he's head her here here's heres hes hey his hmm holds hours huge husband i i'd i'll i'm i've im in indoors inside instead into is isn't isnt it it's its ive just keep kept kidding kids kind know known knows label large larger largest last lastly leaves let let's lets letter letters like list listed little live lives living lol look looked lovely main make mama maybe me mean meaning meant measured measuring mine misread misspelled misspelt mistake mom mom's month more mother's moved my mystery n nah name name's named never new newest newly next nice nicely night nine nite no nobody nope north not now number nursery of off oh ok okay old oldest one ones only ooh oops or other others ought our out outdoors outside own pair patio pink plant planted plants plastic please pls plz porch pot pots potted pretty probably pups put rather read reads really recently red reds regular remember remembers rename repot repotted resides rest right rn roof rooted roughly round s same say says scratch second see setting seven several shade she she's shes shoot should side since sister sit sits sitting six size size's sized small smaller smallest so son sorry south spelled spelling spelt spring stand standing stands stay stays still strike stuff summer sun sure t tag tell ten terracotta than thanks that that's thats the their them then there there's thereabouts theres these they they're theyre thing think third this those three thx tiny to today too total track tracking tree trees turned turns twelve two type typo u ugh uh um uncle undecided unknown up upped varieties variety vase volume voted wait want wants was we we've week weekend weighed well went west weve what what's whats where which whiskey white whites who who's whos wife will winter with without wooden wraps written wrong wrongly yard yeah year years yellow yep yes yesterday yet you young"
    );
    for (at, token) in told.iter().enumerate() {
        if marks[at] != Mark::Free {
            continue;
        }
        let quality = token.is_any(words!("sister brother mama grandma grandpa dad daddy mom aunt uncle boy girl friend daughter son husband wife fig tree big biggest small smallest little large young tiny old black white good great best lovely pretty beautiful first second third last two three one new"));
        let capital = |at: usize| {
            told.get(at)
                .and_then(|token| text.get(token.span.clone()))
                .is_some_and(|typed| typed.starts_with(char::is_uppercase))
        };
        // "Big One", "Old Gus", "Little O"; "Two more" opens a sentence, and is none.
        let in_name = capital(at)
            && quality
            && (at + 1 < told.len() && capital(at + 1) && matches!(marks[at + 1], Mark::Free | Mark::Name)
                || at > 0 && capital(at - 1) && matches!(marks[at - 1], Mark::Free | Mark::Name))
            && !told.get(at + 1).is_some_and(|next| next.is_any(words!("i i've i'm")));
        let of_name = at > 0 && matches!(marks[at - 1], Mark::Name | Mark::Free);
        let count = !of_name
            && token.number.is_some_and(|count| count < 60.0 && count.fract() == 0.0)
            && told.get(at + 1).is_some_and(|next| {
                next.is_any(words!("more trees figs of in new others so plants fig potted ground pots"))
                    || next.is_any(POT)
            });
        // "Since 1978", "planted her in 74"
        let in_short =
            at > 0 && told[at - 1].is_any(words!("in since")) && told.get(at + 1).is_none_or(Token::is_mark);
        let year = token.number.is_some_and(|year| {
            (1900.0..2100.0).contains(&year) || in_short && (40.0..100.0).contains(&year)
        });
        let age = token.number.is_some()
            && told.get(at + 1).is_some_and(|next| next.is_any(words!("years year yrs")));
        let counted = token.number.is_some()
            && told.get(at + 1).is_some_and(|next| {
                next.text.ends_with('s') && (capital(at + 1) || matches!(marks.get(at + 1), Some(Mark::Name)))
            });
        // "St. Rita"
        let initial = token.is(".")
            && token.joined
            && at > 0
            && capital(at - 1)
            && capital(at + 1)
            && matches!(marks[at - 1], Mark::Free | Mark::Name);
        if token.is_mark() && !token.is("#") && !initial
            || token.is_any(WORDS) && !in_name
            || count
            || year
            || age
            || counted && at < 4
        {
            marks[at] = Mark::Small;
        }
        // "Malta black in a pot", but "celeste black plastic pot"
        if at > 0
            && token.is_any(words!("black white red green purple gold blue"))
            && matches!(marks[at - 1], Mark::Free | Mark::Name)
            && !told
                .get(at + 1)
                .is_some_and(|next| next.is_any(words!("plastic fabric nursery clay")) || next.is_any(POT))
        {
            marks[at] = Mark::Free;
        }
        // "big mama is in the ground"
        if at > 0
            && token.is_any(words!("mama grandma grandpa dad daddy"))
            && told[at - 1].is_any(words!("big little old"))
        {
            marks[at - 1] = Mark::Free;
            marks[at] = Mark::Free;
        }
        // "Brown turky in ground": a colour before a word nobody knows is part of the name.
        if token.is_any(words!("black white red green brown gold purple blue"))
            && told.get(at + 1).is_some_and(is_unknown)
            && marks.get(at + 1) == Some(&Mark::Free)
        {
            marks[at] = Mark::Free;
        }
        // "In ground: North, South, Gate"
        if at > 0
            && capital(at)
            && token.is_any(words!("north south east west baby grandma grandpa mama dad friend lucky happy"))
        {
            marks[at] = Mark::Free;
        }
        // "Fence Row", "Lucky": with its capital, and within the sentence
        let shouted = text.chars().filter(|letter| letter.is_lowercase()).count() < 3;
        let function = token.is_any(words!(
            "i i've i'm i'd i'll the a an my our and in on at by it it's its she she's he he's they so ok oh no yes two three one also pot pots"
        ));
        if at > 0
            && marks[at] == Mark::Small
            && token.is_word()
            && token.number.is_none()
            && capital(at)
            && !function
            && !shouted
            && !told[at - 1].is_any(words!(". : \u{2022}"))
        {
            marks[at] = Mark::Free;
        }
        // "May I just call the tree Auntie"
        if at == 0 && token.is("may") {
            marks[at] = Mark::Small;
        }
        // "2 Olympians, I call them ...": the kind, told before the names
        if counted
            && at < 4
            && token.number.is_some_and(|number| number > 1.0)
            && told.get(at + 2).is_none_or(|behind| behind.is_any(words!(", . : ;")))
        {
            marks[at + 1] = Mark::Small;
        }
    }
}

/// "I wrap it every winter", "no idea what kind", "dont ask what its in".
fn mark_remarks(text: &str, told: &[Token], marks: &mut [Mark]) {
    let mut from = 0;
    for at in 0..=told.len() {
        if at < told.len() && marks[at] != Mark::Break {
            continue;
        }
        let part = from..at;
        from = at + 1;
        // "Walt says I'm wrong", "grandpa says its not Stripey"
        let by = (part.start..part.end)
            .take(7)
            .find(|at| told[*at].is_any(words!("says said thinks told reckons tells insists")));
        if let Some(by) = by
            && by > part.start
            && marks[part.start..by].iter().all(|mark| matches!(mark, Mark::Free | Mark::Small))
        {
            marks[part.start..=by].fill(Mark::Small);
        }
        let idle = marks[part.clone()].iter().all(|mark| matches!(mark, Mark::Free | Mark::Small));
        let Some(first) = told.get(part.start) else { continue };
        let opens = first.is_any(words!(
            "i i'd i'm im i've we we've she he it its it's she's he's shes hes they they're no not dont don't never idk hope thanks sorry about says a an the my who which just like still haven't havent measured if nobody everybody couldn't can't cant dunno gonna might"
        ));
        let names = told[part.clone()].iter().skip(1).any(|token| {
            text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
                && !token.is_any(words!("i i'm i've i'd i'll"))
        });
        let figures = part.clone().any(|at| told[at].number.is_some() && marks[at] == Mark::Free);
        let called = told[part.clone()]
            .iter()
            .any(|token| token.is_any(words!("call called named name calls calling")));
        if idle && opens && !names && !figures && !called {
            marks[part].fill(Mark::Small);
        }
    }
}
