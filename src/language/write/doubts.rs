//! What was not understood, not believed or not allowed: one short question, and what to say instead.

use super::page::Page;
use super::{Voice, phrases};
use crate::season::answer::{Refusal, UnreadableBecause};
use crate::season::request::{Aside, Doubt, DoubtKind};

pub(super) fn doubt(page: &mut Page, doubt: &Doubt, voice: &Voice) {
    let words = phrases::quoted(&doubt.words);
    let choice =
        (!doubt.candidates.is_empty()).then(|| phrases::capitalised(&phrases::either(&doubt.candidates)));
    page.line(match (doubt.kind, choice) {
        (DoubtKind::NotUnderstood, _) => {
            format!("I did not understand {words}. Say \"help\" to see what I know.")
        }
        (DoubtKind::UnknownTree, None) => {
            let name = phrases::name(&doubt.words);
            format!("I know no tree {words}. Add it, as in \"add tree {name}, {}\".", a_pot(voice))
        }
        // It may have been a report or a question.
        (DoubtKind::UnknownTree, Some(choice)) => format!("Not yet: which tree is {words}? {choice}?"),
        (DoubtKind::WhichTree, Some(_)) => {
            let mut choice = doubt.candidates.clone();
            choice.push(String::from("all of them"));
            format!("Not noted yet: which tree? {}?", phrases::capitalised(&phrases::either(&choice)))
        }
        (DoubtKind::WhichTree, None) => String::from("Not noted yet: which tree?"),
        (DoubtKind::UnknownProduct, Some(choice)) => {
            format!("Not noted yet: what is {words}? {choice}?")
        }
        (DoubtKind::UnknownProduct, None) => {
            format!("Not noted yet: I know no product {words}. {}", read_label(voice))
        }
        (DoubtKind::WhichProduct, Some(choice)) => format!("Not noted yet: sprayed with what? {choice}?"),
        (DoubtKind::WhichProduct, None) => {
            format!("Not noted yet: sprayed with what? {}", read_label(voice))
        }
        (DoubtKind::HowMuch, _) => format!("Not noted yet: how much? ({words})"),
        (DoubtKind::ImpossibleAmount, _) => {
            format!("Not noted: that amount cannot be right ({words}). Say it again?")
        }
        (DoubtKind::ImpossibleDate, _) => {
            format!("Not noted: there is no such day ({words}). Say it again?")
        }
        (DoubtKind::StillToCome, _) => STILL_TO_COME.to_owned(),
        (DoubtKind::LookAlikeLetters, _) => {
            format!("Not noted: {words} mixes letters of two alphabets. Type it again, please?")
        }
        (DoubtKind::OtherLanguage, _) => {
            String::from("Sorry, I only read English. Say \"help\" to see what I know.")
        }
        (DoubtKind::UnclearReport, _) => format!(
            "Not noted: I could not tell what was done or seen ({words}). Say it as in \"picked 9 off Celeste\"."
        ),
        (DoubtKind::OutOfStock, _) => format!(
            "I go on advising {name} while it is on your list. Say \"remove {name}\" to take it off; what was sprayed stays noted.",
            name = phrases::name(&doubt.words)
        ),
        (DoubtKind::NothingThere, _) => String::from("There is nothing of yours to change."),
        (DoubtKind::UnknownPlace, _) => place_not_found(&doubt.words),
        (DoubtKind::UnknownPerson, _) => format!(
            "Nobody added yet: I know people by their Matrix address. Tap their name into the message, or say it as in \"add @{}:example.org as helper\".",
            phrases::name(&doubt.words).to_lowercase()
        ),
        (DoubtKind::NamelessTree, _) => {
            format!("Not noted yet: what do you call it? Any name will do, as in \"Celeste, {}\".", a_pot(voice))
        }
        (DoubtKind::ForgetAsked, _) => String::from("If you mean it, say \"yes, forget me\"."),
        (DoubtKind::UnknownSetting, _) => {
            format!("I do not know the setting {words}. Say \"my garden\" to see what is set.")
        }
    });
}

const STILL_TO_COME: &str = "Not noted: that is still to come. Tell me when it is done.";

pub(super) fn unreadable(page: &mut Page, why: UnreadableBecause) {
    page.line(match why {
        UnreadableBecause::NoKey => {
            "I could not read your last message: its key has not come. Please send it again."
        }
        UnreadableBecause::UnknownKind => {
            "I cannot read that kind of message. Text, a photo or a location will do."
        }
        UnreadableBecause::TooLarge => "That is too large for me. A photo under 20 MB will do.",
    });
}

pub(super) fn place_not_found(name: &str) -> String {
    format!(
        "I could not find {}. Share your location here, or send coordinates like 30.69, -88.04.",
        phrases::quoted(name)
    )
}

pub(super) fn a_pot(voice: &Voice) -> &'static str {
    if voice.is_us() { "15 gallon pot" } else { "60 litre pot" }
}

fn read_label(voice: &Voice) -> String {
    format!("Read me its label first, as in \"copper: {}, every 10 days\".", a_rate(voice))
}

pub(super) fn a_rate(voice: &Voice) -> &'static str {
    if voice.is_us() { "2 tbsp per gallon" } else { "5 g per litre" }
}

pub(super) fn aside(page: &mut Page, aside: Aside) {
    match aside {
        Aside::Plan => page.line(STILL_TO_COME),
        Aside::Condition => page.line("Not noted: that is an if. Tell me when it has happened."),
        Aside::Elsewhere => page.line(
            "Not noted: I took that as another garden, plant or year. If it is yours and now, say it again plainly.",
        ),
        // Nothing needs saying to thanks and talk; should an answer be wanted all the same, this is it.
        Aside::Thanks => page.line("You are welcome."),
        Aside::Talk => page.line("Say \"help\" to see what I know."),
    }
}

pub(super) fn refused(page: &mut Page, refusal: &Refusal, voice: &Voice) {
    page.line(match refusal {
        Refusal::NotKeeper => String::from(
            "Only the garden's keeper can change settings. Your reports and questions are welcome.",
        ),
        Refusal::Stranger => String::from(
            "I do not know you in this garden yet. Its keeper can add you, as in \"@bo:example.org may report\".",
        ),
        Refusal::TooLongAgo { date } => {
            format!("Not noted: {} is too long ago for this season's journal.", voice.date(*date))
        }
        Refusal::NotYours => {
            String::from("Somebody else reported that; only they or the keeper can take it back.")
        }
    });
}
