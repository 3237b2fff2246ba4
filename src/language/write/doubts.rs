//! What was not understood or not believed: one short question, with what is known.

use super::page::Page;
use super::{Voice, figures};
use crate::season::answer::Refusal;
use crate::season::request::{Aside, Doubt, DoubtKind};

/// Longer than this the grower's words are cut when said back.
const SAID_BACK: usize = 60;

pub(super) fn doubt(page: &mut Page, doubt: &Doubt) {
    let words = quoted(&doubt.words);
    let candidates = figures::names(&doubt.candidates);
    match doubt.kind {
        DoubtKind::NotUnderstood => {
            page.line(format!("I did not understand {words}. Say \"help\" for what I know."));
        }
        DoubtKind::UnknownTree => {
            if doubt.candidates.is_empty() {
                page.line(format!(
                    "I know no tree called {words}. Add it: \"add tree Celeste, 15 gallon pot\"."
                ));
            } else {
                page.line(format!("Not noted yet: I know no tree called {words}. Which one? ({candidates})"));
            }
        }
        DoubtKind::WhichTree => page.line(format!("Not noted yet: which tree? ({candidates}, or \"all\")")),
        DoubtKind::UnknownProduct => {
            if doubt.candidates.is_empty() {
                page.line(format!("Not noted yet: I know no product {words}. Tell me: \"copper: 2 tbsp per gallon, every 10 days\"."));
            } else {
                page.line(format!("Not noted yet: I know no product {words}. Which one? ({candidates})"));
            }
        }
        DoubtKind::WhichProduct => {
            if doubt.candidates.is_empty() {
                page.line("Not noted yet: with what? Tell me your product first: \"copper: 2 tbsp per gallon, every 10 days\".");
            } else {
                page.line(format!("Not noted yet: sprayed with what? ({candidates})"));
            }
        }
        DoubtKind::HowMuch => page.line(format!("Not noted yet: how much? ({words})")),
        DoubtKind::ImpossibleAmount => {
            page.line(format!("Not noted: that amount cannot be right ({words}). Say it again?"))
        }
        DoubtKind::ImpossibleDate => {
            page.line(format!("Not noted: there is no such day ({words}). Say it again?"))
        }
        DoubtKind::StillToCome => page.line("Not noted: that is still to come. Tell me when it is done."),
        DoubtKind::LookAlikeLetters => {
            page.line(format!("Not noted: {words} mixes letters of two alphabets. Type it again, please."));
        }
        DoubtKind::OtherLanguage => page.line("Sorry, I only read English. Say \"help\" for what I know."),
        DoubtKind::NothingThere => page.line("There is nothing of yours to change."),
        DoubtKind::UnknownPlace => page.line(format!(
            "I could not find {words}. Share your location, or send coordinates such as 30.69, -88.04."
        )),
        DoubtKind::UnknownSetting => page.line(format!("I do not know the setting {words}.")),
    }
}

pub(super) fn aside(page: &mut Page, aside: Aside) {
    match aside {
        Aside::Plan => page.line("Not noted: that is still to come. Tell me when it is done."),
        Aside::Condition => page.line("Not noted: that depends. Tell me when it has happened."),
        Aside::Elsewhere => {
            page.line("Not noted: I took that as another garden, another plant or another year.")
        }
        Aside::Thanks | Aside::Talk => {}
    }
}

pub(super) fn refused(page: &mut Page, refusal: &Refusal, voice: &Voice) {
    page.line(match refusal {
        Refusal::NotKeeper => String::from(
            "Only the garden's keeper can change settings. Your reports and questions are welcome.",
        ),
        Refusal::Stranger => String::from(
            "I do not know you in this garden. Its keeper can add you: \"@you:server may report\".",
        ),
        Refusal::TooLongAgo { date } => {
            format!("Not noted: {} is too long ago for this season's journal.", voice.date(*date))
        }
        Refusal::NotYours => {
            String::from("Someone else reported that; only they or the keeper can take it back.")
        }
    });
}

fn quoted(words: &str) -> String {
    let words = words.trim();
    let short: String = words.chars().take(SAID_BACK).collect();
    if short.len() < words.len() { format!("\"{short}...\"") } else { format!("\"{short}\"") }
}
