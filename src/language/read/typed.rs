//! Apostrophes as phones set them: read as plain ones, and kept as typed where words are kept.

use std::borrow::Cow;

use crate::season::journal::Report;
use crate::season::request::{Reading, Record, Request, Setting};

const CURLED: [char; 4] = ['\u{2018}', '\u{2019}', '\u{02bc}', '\u{00b4}'];

/// The text with plain apostrophes, letter for letter.
pub(super) fn with_plain_apostrophes(typed: &str) -> Cow<'_, str> {
    if typed.is_ascii() || !typed.contains(CURLED) {
        return Cow::Borrowed(typed);
    }
    Cow::Owned(typed.replace(CURLED, "'"))
}

/// Puts the apostrophes of the typed text back into notes, names and what is doubted.
pub(super) fn keep(typed: &str, plain: &str, reading: &mut Reading) {
    if typed.len() == plain.len() {
        return;
    }
    let keep = |words: &mut String| {
        let Some(at) = words.contains('\'').then(|| plain.find(words.as_str())).flatten() else { return };
        let before = plain[..at].chars().count();
        *words = typed.chars().skip(before).take(words.chars().count()).collect();
    };
    for request in &mut reading.requests {
        match request {
            Request::Record(Record { report: Report::Note { text }, .. }) => keep(text),
            Request::Set(Setting::Tree(details)) => keep(&mut details.name),
            Request::Set(Setting::RenameTree { to, .. }) => keep(to),
            Request::Set(Setting::Name { name } | Setting::Place { name }) => keep(name),
            Request::Set(Setting::Product(details)) => keep(&mut details.name),
            _ => {}
        }
    }
    reading.doubts.iter_mut().for_each(|doubt| keep(&mut doubt.words));
}
