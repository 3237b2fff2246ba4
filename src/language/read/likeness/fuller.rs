//! Whether one reading tells all that another does, and more: an amount, a tree or a spray it left out. A day it left
//! out is as often of the story around it ("daughter's recital is tonight, moved Celeste indoors").

use crate::season::journal::Report;
use crate::season::request::{Question, Request, Selection};

/// `more` says all that `told` says, and something besides.
pub(super) fn is_fuller(told: &Request, more: &Request) -> bool {
    match (told, more) {
        (Request::Record(told), Request::Record(more)) => {
            told.trees == more.trees && told.when == more.when && extends(&told.report, &more.report)
        }
        (Request::Ask(told), Request::Ask(more)) => asks_more(told, more),
        _ => false,
    }
}

/// The same report with an amount it had none of.
fn extends(told: &Report, more: &Report) -> bool {
    match (told, more) {
        (Report::Watered { volume: None, depth: None }, Report::Watered { volume, depth }) => {
            volume.is_some() || depth.is_some()
        }
        (Report::Sprayed { product, volume: None }, Report::Sprayed { product: same, volume }) => {
            product == same && volume.is_some()
        }
        (Report::LeafDrop { share: None }, Report::LeafDrop { share }) => share.is_some(),
        (Report::Frost { minimum: None }, Report::Frost { minimum }) => minimum.is_some(),
        (Report::Picked { count: None, mass: None }, Report::Picked { count, mass }) => {
            count.is_some() || mass.is_some()
        }
        _ => false,
    }
}

/// The same question, of a tree or a spray it had not named.
fn asks_more(told: &Question, more: &Question) -> bool {
    let named = |told: &Selection, more: &Selection| {
        matches!(told, Selection::Unsaid | Selection::All) && matches!(more, Selection::Named(_))
    };
    match (told, more) {
        (Question::Tree { trees: told }, Question::Tree { trees: more })
        | (Question::Water { trees: told }, Question::Water { trees: more })
        | (Question::Done { trees: told, .. }, Question::Done { trees: more, .. }) => named(told, more),
        (Question::Mix { product: None, volume: None }, Question::Mix { product, .. }) => product.is_some(),
        (Question::Mix { product: one, volume: None }, Question::Mix { product: same, volume }) => {
            one == same && volume.is_some()
        }
        _ => false,
    }
}
