//! A tree called otherwise: "rename Whip to Stick", "call Whip Junebug from now on".

use super::trees::strip_article;
use super::{Found, any, clean};
use crate::language::read::Speech;
use crate::language::read::clauses::Asked;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::season::request::{Doubt, DoubtKind, Reading, Request, Selection, Setting};

/// "Call Whip Lakshmi from now on": a tree of the garden, and a name with its capital behind it.
fn called(speech: &Speech) -> Option<Found> {
    const MOST_WORDS: usize = 4;
    let tokens = speech.tokens;
    // "Reckon we oughta call Whip Junebug from here on out"
    let lead = tokens
        .iter()
        .take_while(|token| {
            token.is_any(words!(
                "reckon we i oughta ought to should let's lets can could please pls ok so gonna you from now on here ,"
            ))
        })
        .count();
    tokens.get(lead).filter(|first| first.is("call"))?;
    let mention =
        speech.mentions.first().filter(|mention| mention.range.start <= lead + 2 && mention.trees.is_one());
    let named = mention.and_then(|mention| match speech.names.selection(&mention.trees, &[]) {
        Some(Selection::Named(names)) => Some((names.first()?.clone(), mention.range.end)),
        _ => None,
    });
    // "Whip" before a word nobody knows may be a common word elsewhere.
    let plain = || {
        let tree = speech.context.garden.tree(speech.typed(lead + 1, lead + 2))?;
        Some((tree.name.clone(), lead + 2))
    };
    // "Call Big One Tub": a tub is a pot elsewhere.
    let two_words = || {
        let tree = speech.context.garden.tree(speech.typed(lead + 1, lead + 3))?;
        Some((tree.name.clone(), lead + 3))
    };
    let swallowed = named
        .as_ref()
        .is_some_and(|(_, end)| tokens.get(*end).is_none_or(|next| next.is_any(words!("from instead"))));
    let named = if swallowed { two_words().or_else(plain).or(named) } else { named };
    let (from, end) = named.or_else(plain)?;
    let told = speech.text.get(tokens.get(end)?.span.start..)?;
    const FOR_GOOD: [&str; 5] = [" from now on", " from here on", " instead", " hereafter", " from this day"];
    let lower = told.to_ascii_lowercase();
    let stop = FOR_GOOD.iter().filter_map(|tail| lower.find(tail)).min();
    let to = clean(&told[..stop.unwrap_or(told.len())]);
    let capital =
        stop.is_some() || to.starts_with(char::is_uppercase) || to.to_lowercase().starts_with("the ");
    (capital && to.split_whitespace().count() <= MOST_WORDS).then(|| Setting::RenameTree { from, to }.into())
}

/// "Whip is now called Stick", "we renamed Whip Stick": a tree of the garden, and a new name with its capital.
fn is_called(speech: &Speech) -> Option<Found> {
    const MOST_WORDS: usize = 4;
    let tokens = speech.tokens;
    let mention =
        speech.mentions.first().filter(|mention| mention.trees.is_one() && mention.range.start <= 1)?;
    let Some(Selection::Named(names)) = speech.names.selection(&mention.trees, &[]) else { return None };
    let [from] = names.as_slice() else { return None };
    let behind = tokens.get(mention.range.end..)?;
    // "Whip change name to Lucky"
    if let [change, name, to, new, ..] = behind
        && change.is_any(words!("change changes changed"))
        && name.is("name")
        && to.is("to")
    {
        let to = clean(without_reason(speech.text.get(new.span.start..)?));
        return (speech.asked == Asked::No && to.split_whitespace().count() <= MOST_WORDS)
            .then(|| Setting::RenameTree { from: from.clone(), to }.into());
    }
    // "Whip is Sprout from now on", "Whip goes by Sprout now"
    if let Some(to) = goes_by(speech, behind) {
        return Some(Setting::RenameTree { from: from.clone(), to }.into());
    }
    let lead = behind
        .iter()
        .take_while(|token| token.is_any(words!("is now been has will be should to from today on")))
        .count();
    let new = behind[..lead].iter().any(|token| token.is_any(words!("now should from")))
        || any(behind, words!("now"));
    let verb = behind.get(lead).is_some_and(|verb| verb.is_any(words!("called named renamed")));
    let start = lead + 1 + usize::from(behind.get(lead + 1).is_some_and(|to| to.is("to")));
    let to = clean(without_reason(speech.text.get(behind.get(start)?.span.start..)?));
    let fits = to.starts_with(char::is_uppercase) && to.split_whitespace().count() <= MOST_WORDS;
    (lead > 0 && verb && new && fits && speech.asked == Asked::No)
        .then(|| Setting::RenameTree { from: from.clone(), to }.into())
}

/// A name with its capital, told for good.
fn goes_by(speech: &Speech, behind: &[Token]) -> Option<String> {
    const MOST_WORDS: usize = 4;
    let lead = match behind {
        [is, ..] if is.is_any(words!("is becomes")) => 1,
        [goes, by, ..] if goes.is("goes") && by.is("by") => 2,
        [will, be, ..] if will.is_any(words!("will shall")) && be.is("be") => 2,
        _ => return None,
    };
    let told = speech.text.get(behind.get(lead)?.span.start..)?;
    let lower = told.to_ascii_lowercase();
    let stop = [" from now on", " from here on", " from today on", " hereafter"]
        .iter()
        .find_map(|tail| lower.find(tail));
    let now = || lower.trim_end_matches(['.', '!']).strip_suffix(" now").filter(|_| lead == 2).map(str::len);
    let to = clean(told.get(..stop.or_else(now)?)?);
    let fits = to.starts_with(char::is_uppercase) && to.split_whitespace().count() <= MOST_WORDS;
    (fits && speech.asked == Asked::No).then_some(to)
}

/// "rename X to Y", "call Celeste the Old Lady".
pub(super) fn rename(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let tokens = speech.tokens;
    if let Some(renamed) = called(speech).or_else(|| is_called(speech)) {
        return Some(renamed);
    }
    // "Change name of Wall to Brick", "change Wall's name to Brick"
    let named = tokens.first().is_some_and(|first| first.is_any(words!("change set")))
        && any(&tokens[..tokens.len().min(5)], words!("name"));
    // "Change Big One to Biggie": a tree by its whole name, and another name with its capital
    if let Some(renamed) = changed_to(speech) {
        return Some(renamed);
    }
    if let Some(renamed) = made_another(speech) {
        return Some(renamed);
    }
    tokens.first().filter(|first| named || first.is("rename"))?;
    // "Rename the Whip in Marcel"
    let to = tokens
        .iter()
        .position(|token| token.is("to"))
        .or_else(|| tokens.iter().position(|token| token.is_any(words!("in into as"))))
        .filter(|to| *to > 1)?;
    let start = 1 + tokens[1..to].iter().take_while(|token| token.is_any(words!("the name of"))).count();
    let end = if named {
        tokens[..to].iter().rposition(|token| !token.is("name")).map_or(to, |last| last + 1)
    } else {
        to
    };
    let from = clean(speech.typed(start, end));
    let from = if named { from.strip_suffix("'s").map_or(from.clone(), str::to_owned) } else { from };
    let to = clean(speech.text.get(tokens[to].span.end..)?);
    // "rename Whip to Twig. No, Stick"
    let lower = to.to_lowercase();
    let anew = [", no, ", ", no ", " no wait ", ", sorry, "]
        .iter()
        .find_map(|mark| Some(lower.find(mark)? + mark.len()));
    let to = to.get(anew.unwrap_or(0)..).unwrap_or(&to).trim_end_matches(" please");
    // "Rename Whip to Junior, he's in a 10 gal pot now"
    let more =
        speech.text.rsplit_once(", ").map(|(_, more)| more).filter(|more| more.len() < speech.text.len());
    let to = clean(without_reason(to));
    // "Change whips name to Nonno"
    let garden = speech.context.garden;
    let short = from.strip_suffix('s').unwrap_or(&from);
    let Some(known) = garden.tree(strip_article(&from)).or_else(|| garden.tree(strip_article(short))) else {
        let candidates = speech.names.like(&from);
        reading.doubts.push(Doubt { kind: DoubtKind::UnknownTree, words: from, candidates });
        return Some(Found::Doubted);
    };
    if to.is_empty() {
        return None;
    }
    let stand = more.and_then(|more| {
        let words = crate::language::read::tokens::tokens(more);
        let opens =
            words.first().is_some_and(|first| first.is_any(words!("he's hes she's shes it's its now in")));
        super::first_days::stand_of(&words, speech.context).map(|(_, stand)| stand).filter(|_| opens)
    });
    reading.requests.push(Request::Set(Setting::RenameTree { from: known.name.clone(), to: to.clone() }));
    if let Some(stand) = stand {
        reading.requests.push(Request::Set(Setting::Tree(super::first_days::standing(to, Some(stand)))));
    }
    Some(Found::Doubted)
}

fn changed_to(speech: &Speech) -> Option<Found> {
    const MOST_WORDS: usize = 3;
    let tokens = speech.tokens;
    tokens.first().filter(|first| first.is("change"))?;
    let to = tokens.iter().position(|token| token.is("to"))?;
    let known = speech.context.garden.tree(speech.typed(1, to))?;
    let name = clean(without_reason(speech.text.get(tokens[to].span.end..)?));
    let name: String = name.trim_end_matches(|letter: char| !letter.is_alphanumeric()).to_owned();
    let fits =
        name.starts_with(char::is_uppercase) && (1..=MOST_WORDS).contains(&name.split_whitespace().count());
    let taken = speech.context.garden.tree(&name).is_some();
    (fits && !taken).then(|| Setting::RenameTree { from: known.name.clone(), to: name }.into())
}

/// "Kadota, it confuses me", "Junebug because the grandbaby picked it": a name, without why it was given.
fn without_reason(name: &str) -> &str {
    const LEADS: [&str; 11] = [
        ",",
        ";",
        " - ",
        " \u{2013} ",
        " \u{2014} ",
        " (",
        " because ",
        " cause ",
        " cuz ",
        " since ",
        " as it's ",
    ];
    let lower = name.to_ascii_lowercase();
    let end = LEADS.iter().filter_map(|lead| lower.find(lead)).filter(|at| *at > 0).min();
    name.get(..end.unwrap_or(name.len())).unwrap_or(name)
}

/// "I want to change the name of Corner, make it Grandpa": what it is to be called stands behind.
fn made_another(speech: &Speech) -> Option<Found> {
    const MOST_WORDS: usize = 3;
    let tokens = speech.tokens;
    let [mention] = speech.mentions.as_slice() else { return None };
    let named = tokens.windows(2).any(|pair| {
        pair[0].is_any(words!("change changing want")) && pair[1].is_any(words!("the name its my to it"))
    }) && any(&tokens[..mention.range.start], words!("name"));
    // "Rename Whip, so that it is called Slender henceforth"
    let renamed = tokens[..mention.range.start].iter().any(|token| token.is("rename"));
    let called =
        (mention.range.end..tokens.len()).find(|at| renamed && tokens[*at].is_any(words!("called named")));
    let made = (mention.range.end..tokens.len()).find(|at| {
        tokens[*at].is_any(words!("make call name put change"))
            && tokens.get(at + 1).is_some_and(|it| it.is_any(words!("it him her")))
    });
    let made = called.map(|at| at - 1).or(made)?;
    let named = named || renamed;
    let Some(Selection::Named(names)) = speech.names.selection(&mention.trees, &[]) else { return None };
    let [from] = names.as_slice() else { return None };
    let to = clean(without_reason(speech.text.get(tokens[made + 1].span.end..)?));
    let to = [" henceforth", " hereafter", " from now on", " instead"]
        .iter()
        .find_map(|tail| to.strip_suffix(tail))
        .unwrap_or(&to);
    let to = to.strip_prefix("to ").unwrap_or(to).to_owned();
    let fits = !to.is_empty() && to.split_whitespace().count() <= MOST_WORDS;
    (named && fits && speech.asked == Asked::No)
        .then(|| Setting::RenameTree { from: from.clone(), to }.into())
}
