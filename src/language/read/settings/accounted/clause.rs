//! One clause of a sentence about trees: where they stand, and the names that are left over.

use super::super::first_days::Stand;
use super::marks::Mark;
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::Potted;

/// Whether a sentence stands under a heading such as "in ground:": then it is a name, whatever word it is.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Listed {
    UnderHeading,
    Alone,
}

/// A stretch between commas or "and", as far as it tells of trees.
pub(super) struct Clause {
    pub(super) names: Vec<String>,
    pub(super) stand: Option<Stand>,
    /// "Both", "all of them", "are", and pots told in the plural: of those named before, too.
    pub(super) of_all: bool,
    /// It began with "and".
    pub(super) joins: bool,
    /// It ended with a colon.
    pub(super) heads: bool,
    /// "Add", "called", "a tree": what is named here is a tree, wherever it stands.
    pub(super) tells_of_tree: bool,
    /// "It's a Hardy Chicago": a kind, if what it is of was named before.
    pub(super) of_kind: bool,
    /// Where they stand is told before their names: "in the ground I have Nonno, San Pietro and Kadota".
    pub(super) leads: bool,
    /// "Two figs in the ground."
    pub(super) of_several: bool,
    /// "There's", "I have": something of the garden's own.
    pub(super) is_had: bool,
    /// "A fig", "another one": a tree, without its name.
    pub(super) of_a_tree: bool,
}

/// One clause from its marks: what is free in it is names, or it is not understood.
pub(super) fn clause(
    text: &str,
    told: &[Token],
    marks: &[Mark],
    stands: bool,
    listed: Listed,
) -> Option<Clause> {
    let told_stands: Vec<Stand> = marks
        .iter()
        .filter_map(|mark| if let Mark::Stand(stand) = mark { Some(*stand) } else { None })
        .collect();
    // "5 gal pot in the ground"
    let stand = match told_stands.as_slice() {
        [] => None,
        [one] => Some(*one),
        // "In a pot, a 15 gallon": the one with its size
        [(Potted::InPot, None), sized @ (Potted::InPot, _)]
        | [sized @ (Potted::InPot, Some(_)), (Potted::InPot, None)] => Some(*sized),
        _ => return None,
    };
    // "It's going in the ground this fall": not yet
    let ahead = told.iter().any(|token| token.is_any(words!("going goes")))
        && told.windows(2).any(|pair| {
            pair[0].is_any(words!("this next"))
                && pair[1].is_any(words!("fall autumn spring winter year summer weekend week"))
        });
    let stand = stand.filter(|_| !ahead);
    let mut names = Vec::new();
    let mut at = 0;
    while at < told.len() {
        if !matches!(marks[at], Mark::Free | Mark::Name) {
            at += 1;
            continue;
        }
        let mut end = at + 1;
        while end < told.len() && matches!(marks[end], Mark::Free | Mark::Name) {
            end += 1;
        }
        names.push(name(text, &told[at..end], &marks[at..end], stands, listed)?);
        at = end;
    }
    let any = |list: WordList| told.iter().any(|token| token.is_any(list));
    // "... and grandma": a word said around trees elsewhere, and a name of its own in a list of them.
    let few = (1..=3).contains(&told.iter().filter(|token| token.is_word()).count());
    let nouns = words!(
        "mama grandma grandpa dad friend husband wife baby babies kids lucky old black white pink red green north south east west patio deck porch yard balcony tag mine rest best star new young letter stuff thing"
    );
    let says = words!(
        "is are was has have got i we she he it it's its she's he's they there theres there's that thats says said who which on by in at of for from to with not no just too also ok so please"
    );
    if names.is_empty() && stand.is_none() && few && any(nouns) && !any(says) {
        return None;
    }
    let plural = told.iter().enumerate().any(|(at, token)| {
        token.is_any(words!("pots tubs buckets containers barrels planters"))
            || token.is("s") && token.joined && at > 0 && told[at - 1].number.is_some()
    });
    let article = |at: usize| {
        told.get(at).is_some_and(|token| token.is_any(words!("a an another some two three few couple one")))
    };
    let of_a_tree = told.iter().enumerate().any(|(at, token)| {
        token.is_any(words!("fig tree figs trees unknown mystery")) && (at.saturating_sub(3)..at).any(article)
            || token.is("one")
                && (at > 0 && told[at - 1].is_any(words!("another little baby small big young more new"))
                    || told.get(at + 1).is_some_and(|next| next.is("more")))
    });
    let first_name = marks.iter().position(|mark| matches!(mark, Mark::Free | Mark::Name));
    let first_stand = marks.iter().position(|mark| matches!(mark, Mark::Stand(_)));
    let leads = first_stand.zip(first_name).is_some_and(|(stand, name)| stand < name);
    // "It's a Hardy Chicago", "a Kadota": of cultivars on the list only
    let kind = told.iter().position(|token| token.is_any(words!("a an")));
    let of_kind = kind.is_some_and(|at| marks.get(at + 1) == Some(&Mark::Name));
    Some(Clause {
        of_kind,
        is_had: any(words!("there there's theres have got add i've we've keep")),
        of_a_tree,
        leads,
        of_several: any(words!("figs trees ones plants two three four five six pots tubs containers")),
        names,
        stand,
        of_all: any(words!("both all each are")) || plural,
        joins: false,
        heads: false,
        // "And a Cape White I haven't decided where to put yet"
        tells_of_tree: first_name.is_some_and(|at| at > 0 && told[at - 1].is_any(words!("a an")))
            || any(words!(
                "add tree fig called named call calls forgot theres there's put adding track mine another"
            )),
    })
}

fn name(text: &str, told: &[Token], marks: &[Mark], stands: bool, under: Listed) -> Option<String> {
    const MOST_WORDS: usize = 4;
    let capital = |token: &Token| {
        text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
    };
    let listed = marks.contains(&Mark::Name);
    // "White Adam", "the skinny Hank": words before the capital are said of it.
    let lead = told.iter().position(&capital).filter(|_| !listed).unwrap_or(0);
    let plain = |token: &Token| !is_unknown(token) && token.number.is_none();
    if !told[..lead].iter().all(plain) {
        return None;
    }
    let own = &told[lead..];
    let words = own.iter().filter(|token| token.is_word()).count();
    let code = |at: usize| {
        own[at].joined
            || at + 1 == own.len()
                && own[at].number.is_some_and(|number| number < 20.0 && number.fract() == 0.0)
    };
    let figures = (0..own.len())
        .all(|at| own[at].number.is_none() || at > 0 && code(at) || own[at].is_any(words!("one two three")));
    let marks_fit = own.iter().all(|token| !token.is_mark() || token.is("#") || token.joined);
    let strange = own.iter().all(is_unknown) && words <= 2 && stands;
    let named = own.iter().any(capital);
    let opens = told.first().is_some_and(|first| first.span.start == 0);
    // A word with a capital that opens the sentence may be any word.
    let sure =
        !opens || under == Listed::UnderHeading && words <= 2 || own.len() > 1 || own.iter().all(is_unknown);
    let odd = own.iter().any(|token| {
        token.is_any(words!("april august brief celsius copper december fahrenheit february friday frost gal gallons garden ground harvest hello hey hi january july june liters litres march may message metric monday morning mystery name neem neighbors november october oil orchard patch phi place pot pots roommates saturday september sulfur sunday thursday tuesday units unknown water wednesday yard"))
    });
    // "One I just call mamaw"
    let called = words <= 2
        && text.get(..own.first()?.span.start).is_some_and(|before| {
            let before = before.trim_end().to_ascii_lowercase();
            ["called", "named", " call", " calls", "call it", "call her", "call him", "call that one"]
                .iter()
                .any(|lead| before.ends_with(lead))
        });
    let shaped = listed || figures && marks_fit;
    if words > MOST_WORDS || words == 0 || !shaped || odd || !(listed || named && sure || strange || called) {
        return None;
    }
    let typed = text.get(own.first()?.span.start..own.last()?.span.end)?;
    let behind = told.last()?.span.end;
    // "Alma's pot is really 15 gallons", but "Vern's" is a name.
    let of_pot = text.get(behind..)?.trim_start().to_ascii_lowercase();
    let typed = typed
        .strip_suffix("'s")
        .filter(|_| {
            !listed
                && ["pot", "tub", "bucket", "container", "in ", "a "]
                    .iter()
                    .any(|next| of_pot.starts_with(next))
        })
        .unwrap_or(typed);
    let name = super::super::clean(typed);
    (listed || !super::super::tables::is_no_name(&name)).then_some(name)
}
