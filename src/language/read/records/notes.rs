//! Sentences kept in the grower's own words.

use super::Part;
use crate::language::read::Speech;
use crate::language::read::word_list::{WordList, words};
use crate::season::journal::Report;
use crate::season::request::{Reading, Record, Request, Selection, When};

/// The text of a note, if the sentence is one: "note: ...", "note that ...".
pub(super) fn note(speech: &Speech) -> Option<String> {
    if let Some(text) = note_put_down(speech) {
        return Some(text);
    }
    let first = speech.tokens.first()?;
    let next = |texts: WordList| speech.tokens.get(1).is_some_and(|next| next.is_any(texts));
    let own =
        next(words!("to")) && speech.tokens.get(2).is_some_and(|own| own.is_any(words!("self myself me")));
    let opens = first.is("note") && own
        || first.is_any(words!("note notes nb memo")) && !next(words!("to it the"))
        || first.is("note") && next(words!("the that"))
        || first.is_any(words!("remember jot memo")) && next(words!("that this down :"))
        || first.is("log") && next(words!("that this down"))
        || first.is("remember")
            && !next(words!("to when how if what last why who you my it he she they"))
            // "Remember I put netting on Celeste"; "remember we had none last year" is talk.
            && (!next(words!("i we"))
                || speech.tokens.get(2).is_some_and(|verb| {
                    verb.is_any(words!("put moved staked tied pruned fed gave got did turned topped cut hung covered set need want"))
                }))
            && (!speech.mentions.is_empty()
                // "Remember Bo borrowed the sprayer"
                || speech.tokens.get(1).is_some_and(|who| speech.names.is_person(&who.text)))
        || first.is("write") && next(words!("down"))
        || first.is("remember")
            && next(words!("for"))
            && speech.tokens.get(2).is_some_and(|me| me.is_any(words!("me us later next")));
    if !opens {
        return None;
    }
    let text = speech.typed(0, speech.tokens.len()).trim();
    // "Note colon ...", as a voice dictates.
    let after = text
        .find(':')
        .map(|colon| &text[colon + 1..])
        .or_else(|| text.strip_prefix("note colon ").or_else(|| text.strip_prefix("Note colon ")));
    let text = after.unwrap_or_else(|| text.split_once(char::is_whitespace).map_or("", |(_, rest)| rest));
    let text = [
        "the following note: ",
        "the following: ",
        "down that ",
        "down: ",
        "down ",
        "that ",
        "for me that ",
        "for me ",
        "for us that ",
        "for later that ",
    ]
    .iter()
    .find_map(|lead| {
        let head = text.get(..lead.len())?;
        head.eq_ignore_ascii_case(lead).then(|| &text[lead.len()..])
    })
    .unwrap_or(text);
    const LONGEST: usize = 500;
    let text: String = text.trim().trim_start_matches(['-', ':', ' ']).chars().take(LONGEST).collect();
    (!text.is_empty()).then_some(text)
}

/// "Put down a note the netting has a hole", "make a note that ...".
fn note_put_down(speech: &Speech) -> Option<String> {
    let is = |at: usize, texts: WordList| speech.tokens.get(at).is_some_and(|token| token.is_any(texts));
    let please = usize::from(is(0, words!("please pls")));
    let verb = is(please, words!("put make take add leave write jot keep"));
    let down = please + 1 + usize::from(is(please + 1, words!("down in")));
    let mut start = down + 2;
    // "Put down for me that the wasps ..."
    let for_me = is(down, words!("for")) && is(down + 1, words!("me us")) && is(down + 2, words!("that"));
    let noted = is(down, words!("a the my")) && is(down + 1, words!("note"));
    if !verb || !(noted || for_me) || is(start, words!("to")) {
        return None;
    }
    // "Make a note for the big one that the drip line is clogged"
    if is(start, words!("for on"))
        && let Some(mention) =
            speech.mentions.iter().find(|mention| (start + 1..=start + 2).contains(&mention.range.start))
        && is(mention.range.end, words!("that :"))
    {
        start = mention.range.end;
    }
    while is(start, words!("that : , - of about saying pls please")) {
        start += 1;
    }
    let text = speech.typed(start, speech.tokens.len()).trim().to_owned();
    (!text.is_empty()).then_some(text)
}

/// A note is on the trees it names.
pub(super) fn push_note(speech: &Speech, parts: &[Part], text: String, reading: &mut Reading) {
    let text = text.strip_prefix("the following note: ").map_or(text.clone(), str::to_owned);
    let trees = parts
        .iter()
        .filter(|part| part.names_trees() && !part.trees.is_vague())
        .find_map(|part| speech.names.selection(&part.trees.by_name_first(), &[]))
        .unwrap_or(Selection::Unsaid);
    reading.requests.push(Request::Record(Record {
        trees,
        when: When::Unsaid,
        report: Report::Note { text },
    }));
}
