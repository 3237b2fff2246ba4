//! How much rust, on which leaves, and how many leaves are gone.

use super::Part;
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::journal::{LeafLevel, Report, RustAmount, RustWords};
use crate::season::request::{DoubtKind, Selection};
use crate::units::Fraction;

/// So many spotted leaves are a few.
const FEW: f64 = 10.0;
/// A bare number up to this could be a class as well as a percentage.
const HIGHEST_CLASS: f64 = 5.0;

/// How much was seen; nothing where the words say only that it did not change.
pub(super) fn amount(part: &Part, speech: &Speech) -> Result<Option<RustAmount>, DoubtKind> {
    // "From 5% to 10%", "10%, up from 5%": what it was is not what it is.
    let shares = part.amounts.iter().filter(|measured| matches!(measured.amount, Amount::Share(_))).count();
    let was = |measured: &&Measured| {
        let clause = part.clause(speech.tokens);
        let from = measured.from.checked_sub(1).and_then(|before| clause.get(before));
        !(shares > 1 && from.is_some_and(|before| before.is_any(words!("from was"))))
    };
    if let Some(of) = counted_of(part, speech) {
        return of;
    }
    for measured in part.amounts.iter().filter(was) {
        match measured.amount {
            Amount::Share(Fraction::NONE) => return Ok(Some(RustAmount::None)),
            Amount::Share(share) => return Ok(Some(RustAmount::Severity(share))),
            Amount::Impossible => return Err(DoubtKind::ImpossibleAmount),
            Amount::Class(class) if class.fract() == 0.0 && (0.0..=HIGHEST_CLASS).contains(&class) => {
                return Ok(Some(RustAmount::Class(class as u8)));
            }
            Amount::Class(_) => return Err(DoubtKind::ImpossibleAmount),
            Amount::LeavesOf { spotted, of } if spotted <= of && spotted >= 0.0 => {
                return Ok(Some(RustAmount::Leaves { spotted: spotted as u32, of: of as u32 }));
            }
            Amount::LeavesOf { .. } => return Err(DoubtKind::ImpossibleAmount),
            Amount::Count(share) if share > 0.0 && share < 1.0 => {
                return Ok(Some(RustAmount::Severity(Fraction::saturating(share))));
            }
            Amount::Count(0.0) => return Ok(Some(RustAmount::None)),
            // "Wall rust 15" can only be percent; "rust 3" could be a class.
            Amount::Count(share) if part.senses.has(Sense::Rust) && is_severity(part, speech, measured) => {
                return if share > HIGHEST_CLASS {
                    Fraction::from_percent(share)
                        .map(|share| Some(RustAmount::Severity(share)))
                        .ok_or(DoubtKind::ImpossibleAmount)
                } else {
                    Err(DoubtKind::HowMuch)
                };
            }
            _ => {}
        }
    }
    Ok(in_words(part, speech))
}

/// "Counted 100 leaves; 12 have rust": two numbers, the smaller of the larger.
fn counted_of(part: &Part, speech: &Speech) -> Option<Result<Option<RustAmount>, DoubtKind>> {
    // "4 leaves with rust out of 30"
    let out_of = part.clause(speech.tokens).windows(3).find_map(|three| {
        let of = three[2].number.filter(|of| of.fract() == 0.0 && *of >= 5.0)?;
        (three[0].is("out") && three[1].is("of")).then_some(of)
    });
    let few = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Leaves(few) => Some(few),
        _ => None,
    });
    if let (Some(of), Some(few)) = (out_of, few)
        && few <= of
    {
        return Some(Ok(Some(RustAmount::Leaves { spotted: few as u32, of: of as u32 })));
    }
    let leaves: Vec<f64> = part
        .amounts
        .iter()
        .filter_map(|measured| match measured.amount {
            Amount::Leaves(leaves) if leaves.fract() == 0.0 => Some(leaves),
            _ => None,
        })
        .collect();
    // "Check 40 leaf on Big One, 6 leaf have rust"
    if let [one, other] = leaves.as_slice()
        && let (of, spotted) = (one.max(*other), one.min(*other))
        && of >= 20.0
        && spotted < of
    {
        return Some(Ok(Some(RustAmount::Leaves { spotted: spotted as u32, of: of as u32 })));
    }
    let of = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Leaves(of) if of >= 20.0 => Some(of),
        _ => None,
    })?;
    let spotted = part.amounts.iter().find_map(|measured| match measured.amount {
        Amount::Count(spotted) if spotted.fract() == 0.0 => Some(spotted),
        _ => None,
    })?;
    // "Of the 20 leaves which I examined, 26 had rust"
    let sampled = speech
        .tokens
        .iter()
        .any(|token| token.senses.has(Sense::Seen) || token.is_any(words!("examined counted")));
    if spotted > of {
        return sampled.then_some(Err(DoubtKind::ImpossibleAmount));
    }
    Some(Ok(Some(RustAmount::Leaves { spotted: spotted as u32, of: of as u32 })))
}

/// A bare number in a clause of rust with nothing behind it that it could count.
fn is_severity(part: &Part, speech: &Speech, measured: &Measured) -> bool {
    let clause = part.clause(speech.tokens);
    let next = clause.get(measured.to);
    let counted = next.is_some_and(|next| {
        next.is_word()
            && !next.senses.has_any(&[
                Sense::Rust,
                Sense::Link,
                Sense::Lower,
                Sense::Upper,
                Sense::Middle,
                Sense::Time,
            ])
    });
    // "Like 3 rust spots": counted.
    let counted = counted
        || next.is_some_and(|next| next.senses.has(Sense::Rust))
            && clause.get(measured.to + 1).is_some_and(|spots| spots.senses.has(Sense::Spots));
    let figure = clause
        .get(measured.from)
        .is_some_and(|token| token.text.starts_with(|letter: char| letter.is_ascii_digit() || letter == '.'));
    measured.is_in_place() && figure && !counted
}

fn in_words(part: &Part, speech: &Speech) -> Option<RustAmount> {
    let has = |sense: Sense| part.senses.has(sense);
    let any = |texts: WordList| part.any(speech.tokens, texts);
    let pair = |first: WordList, second: WordList| part.pair(speech.tokens, first, second);
    let clean = has(Sense::Clean) && !any(words!("up"));
    let free = any(words!("free neg negative"))
        || any(words!("without"))
        || part
            .clause(speech.tokens)
            .last()
            .is_some_and(|last| last.is_any(words!("n no nope negative neg nil none")));
    // "Some, not crazy", "but it's not that awful": how much, and no denial.
    let measured_out = moderates(part.clause(speech.tokens));
    // "Maybe rust, maybe dust"
    if part.clause(speech.tokens).iter().filter(|token| token.is_any(words!("maybe perhaps"))).count() > 1 {
        return None;
    }
    let negated = part.free(speech).any(|token| token.senses.has(Sense::Negation) && !token.is("hardly"))
        && !measured_out
        && !pair(words!("no"), words!("doubt question kidding surprise joke longer"))
        && !pair(words!("not"), words!("only just"))
        // "Found some rust, not happy"; "rust on it, didn't count the leaves"
        && !pair(
            words!("not didn't don't haven't couldn't can't never"),
            words!("happy good great thrilled pleased ideal nice fun count counted measure measured amused surprised impressed gonna"),
        );
    // "Checked the deck for rust": what was looked for is not seen yet.
    let looked_for = pair(words!("for"), words!("rust spots pustules")) && has(Sense::Seen);
    let told = negated
        || clean
        || free
        || part.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy, Sense::Have])
        || !part.amounts.is_empty();
    if looked_for && !told {
        return None;
    }
    // "No new spots", "not spreading": as it was, whatever that is.
    let unchanged = negated
        && (any(words!("new spreading spread worse worsening change changed further additional"))
            || pair(words!("no any"), words!("more")));
    if unchanged {
        return None;
    }
    let mild = negated
        && (any(words!("bad badly serious terrible severe many lots lot ton tons"))
            || pair(words!("much too"), words!("rust bad much"))
            || any(words!("much")));
    if mild || any(words!("hardly")) {
        return Some(RustAmount::Words(RustWords::Trace));
    }
    // "Rust gone from Corner"
    let gone = any(words!("gone")) && !has(Sense::Leaf) && !has(Sense::Heavy);
    if negated || free || clean || gone {
        return Some(RustAmount::None);
    }
    if measured_out {
        return Some(RustAmount::Words(RustWords::Some));
    }
    let few_leaves = part
        .amounts
        .iter()
        .find_map(|measured| if let Amount::Leaves(count) = measured.amount { Some(count) } else { None });
    let words = if let Some(count) = few_leaves {
        if count <= FEW { RustWords::Trace } else { RustWords::Some }
    } else if part.free(speech).any(|token| token.is_any(words!("one single a")))
        && pair(words!("one single a"), words!("leaf spot speck"))
    {
        RustWords::Trace
    } else if pair(
        words!("really very so super extremely terribly awfully"),
        words!("rusty rusted spotted spotty"),
    ) {
        RustWords::Heavy
    } else if pair(words!("low minimal"), words!("rust incidence level levels severity"))
        || pair(words!("spot speck bit touch trace hint"), words!("of"))
    {
        RustWords::Trace
    } else if has(Sense::Heavy) && (!any(words!("start starting")) || any(words!("covered")))
        || pair(words!("great good"), words!("deal"))
        || pair(words!("every"), words!("leaf"))
        // "Rust now covers Eave from top to bottom"
        || any(words!("covers"))
        // "Its leaves, all of them rust", "all the leaves have it"
        || has(Sense::Leaf)
            && part.clause(speech.tokens).windows(3).any(|three| {
                three[0].is("all")
                    && (three[1].is("of") && three[2].is_any(words!("them it"))
                        || three[1].is_any(words!("the its her his")) && three[2].senses.has(Sense::Leaf))
            })
        || pair(words!("too so very many"), words!("much many"))
        || pair(words!("much"), words!("rust spots"))
        || pair(words!("all taken took"), words!("over"))
        || pair(words!("eat eaten ate et eating"), words!("up"))
        || any(words!("lot")) && !pair(words!("whole"), words!("lot"))
    {
        RustWords::Heavy
    } else if has(Sense::Trace) && !has(Sense::Some) || has(Sense::Trace) && any(words!("few")) {
        RustWords::Trace
    } else {
        RustWords::Some
    };
    Some(RustAmount::Words(words))
}

/// "Not crazy", "isn't that horrible", "nothing too dramatic".
fn moderates(clause: &[Token]) -> bool {
    const FARTHEST: usize = 3;
    clause.iter().enumerate().filter(|(_, token)| token.senses.has(Sense::Negation)).any(|(at, _)| {
        let degree = clause[at + 1..].iter().take(FARTHEST).find(|token| {
            !token.is_any(words!("so too that all very really as quite anything"))
        });
        degree.is_some_and(|degree| {
            degree.is_any(words!(
                "crazy horrible awful dramatic huge alarming drastic major extreme scary worrisome wild insane overwhelming rampant disastrous catastrophic everywhere horrific ridiculous"
            ))
        })
    })
}

/// "Checked 30 leaves on Corner, 42 of them had rust": more than there were.
pub(super) fn is_more_than_all(tokens: &[Token]) -> bool {
    let looked = tokens.windows(2).find_map(|pair| {
        pair[0]
            .number
            .filter(|of| *of >= 1.0 && of.fract() == 0.0)
            .filter(|_| pair[1].senses.has(Sense::Leaf))
    });
    let on_more = tokens
        .windows(2)
        .find_map(|pair| pair[1].number.filter(|_| pair[0].is("on")))
        .filter(|_| tokens.iter().any(|token| token.senses.has(Sense::Rust)));
    if matches!((looked, on_more), (Some(looked), Some(spotted)) if spotted > looked) {
        return true;
    }
    let of_them = tokens.windows(3).find_map(|three| {
        three[0].number.filter(|_| three[1].is("of") && three[2].is_any(words!("them those em")))
    });
    matches!((looked, of_them), (Some(looked), Some(spotted)) if spotted > looked)
}

/// Which leaves are meant, lower to upper.
pub(super) fn level(clause: &[Token]) -> Option<LeafLevel> {
    let any = |texts: WordList| clause.iter().any(|token| token.is_any(texts));
    let top_to_bottom = any(words!("top")) && any(words!("bottom"))
        || any(words!("throughout"))
        || clause.windows(2).any(|pair| {
            pair[0].is_any(words!("whole entire")) && pair[1].is_any(words!("tree plant canopy thing"))
        })
        || any(words!("whole entire")) && any(words!("tree plant thing bush"))
        || clause.windows(2).any(|pair| pair[0].is("upper") && pair[1].is("and")) && any(words!("lower"))
        || clause.windows(3).any(|three| three[0].is("lower") && three[1].is("and") && three[2].is("upper"))
        || clause.windows(2).any(|pair| pair[0].is("head") && pair[1].is("to"));
    if top_to_bottom {
        return Some(LeafLevel::Whole);
    }
    let pair = |first: WordList, second: WordList| {
        clause.windows(2).any(|pair| pair[0].is_any(first) && pair[1].is_any(second))
    };
    if pair(words!("halfway midway half"), words!("up")) {
        return Some(LeafLevel::Middle);
    }
    // "Wall 10% rust low"
    let at_end = clause.last().is_some_and(|last| last.is_any(words!("low")))
        && clause.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots]));
    if at_end
        || pair(words!("low"), words!("on"))
        || pair(words!("down"), words!("low"))
        || pair(words!("low"), words!("down"))
    {
        return Some(LeafLevel::Lower);
    }
    // "In the leafs of down", "the low ones"
    if pair(words!("of"), words!("down below bottom"))
        || pair(words!("low lowest"), words!("ones leaves leafs one"))
    {
        return Some(LeafLevel::Lower);
    }
    if pair(words!("of"), words!("up top above")) {
        return Some(LeafLevel::Upper);
    }
    let rust = clause.iter().any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spots]));
    if pair(words!("up"), words!("high top"))
        || rust
            && clause.last().is_some_and(|last| last.is_any(words!("top")))
            && pair(words!("on"), words!("top"))
    {
        return Some(LeafLevel::Upper);
    }
    clause.iter().enumerate().find_map(|(index, token)| {
        let near = clause[index + 1..].iter().take(3).any(|next| {
            next.senses.has(Sense::Leaf)
                || next.is_any(words!("branches growth half part third canopy limbs shoots parts"))
        });
        let plain = |texts: WordList| token.is_any(texts);
        if plain(words!("lower lowr bottom btm lowest below beneath"))
            || token.senses.has(Sense::Lower) && near
        {
            Some(LeafLevel::Lower)
        } else if plain(words!("middle mid")) || token.senses.has(Sense::Middle) && near {
            Some(LeafLevel::Middle)
        } else if plain(words!("upper uppr topmost uppermost"))
            || plain(words!("top")) && !(index > 0 && clause[index - 1].is("on"))
            || token.senses.has(Sense::Upper) && near
        {
            Some(LeafLevel::Upper)
        } else {
            None
        }
    })
}

/// How many of the leaves are gone.
pub(super) fn leaf_share(part: &Part, speech: &Speech) -> Result<Option<Fraction>, DoubtKind> {
    let any = |texts: WordList| part.any(speech.tokens, texts);
    // "Down to half her leaves", "30% left": what is gone is the rest.
    let kept = part.pair(speech.tokens, words!("down"), words!("to")) || any(words!("left remaining remain"));
    let gone = |share: Fraction| if kept { share.complement() } else { share };
    // "Hail stripped some leaves"
    let bare = part.senses.has(Sense::Bare) && !any(words!("some few several couple bit many"));
    for measured in &part.amounts {
        match measured.amount {
            Amount::Share(share) => return Ok(Some(gone(share))),
            Amount::Impossible => return Err(DoubtKind::ImpossibleAmount),
            Amount::Count(share) if share > 0.0 && share < 1.0 => {
                return Ok(Some(gone(Fraction::saturating(share))));
            }
            Amount::LeavesOf { spotted, of } if spotted <= of && of > 0.0 => {
                return Ok(Some(gone(Fraction::saturating(spotted / of))));
            }
            Amount::LeavesOf { .. } => return Err(DoubtKind::ImpossibleAmount),
            _ => {}
        }
    }
    // "Leaf drop, Corner: none"
    if any(words!("none nil zero")) {
        return Ok(Some(Fraction::saturating(0.0)));
    }
    // "All of Whip's leaves", "all its leaves"; but "all the pots are losing leaves".
    let clause = part.clause(speech.tokens);
    let all = clause.iter().enumerate().any(|(index, token)| {
        let rest = clause[index + 1..].iter().take(4);
        let verb = |token: &&Token| {
            token.senses.has_any(&[Sense::Be, Sense::Have, Sense::Drop]) && !token.senses.has(Sense::Article)
        };
        token.is_any(words!("all every"))
            && rest.take_while(|next| !verb(next)).any(|next| next.senses.has(Sense::Leaf))
    });
    let whole = all || part.pair(speech.tokens, words!("lost dropped shed"), words!("everything"));
    // "Nearly bare" is most of the leaves; "bare" is all of them.
    let nearly = any(words!("almost nearly mostly practically virtually pretty"));
    Ok(if bare || whole {
        Some(Fraction::saturating(if nearly { 0.8 } else { 1.0 }))
    } else if any(words!("most"))
        // "The bottom ones mostly" says which.
        || any(words!("mostly")) && !part.pair(speech.tokens, words!("ones lower bottom older inner leaves"), words!("mostly"))
    {
        Some(Fraction::saturating(0.7))
    } else {
        None
    })
}

/// "Rust on Celeste but not on Wall", "all clean but Corner": what the trees left out show.
pub(super) fn contrast(speech: &Speech, part: &Part, report: &Report) -> Option<(Selection, Report)> {
    let Report::Scouted { amount, level } = report else { return None };
    let left_out = speech.names.contrasted(&part.trees)?;
    (*amount != RustAmount::None && part.names_trees())
        .then_some((left_out, Report::Scouted { amount: RustAmount::None, level: *level }))
}
