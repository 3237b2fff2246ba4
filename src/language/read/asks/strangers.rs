//! "How is Olivia doing?": a name nobody knows where the question wants a tree, doubted instead of answered for all.

use crate::language::read::Speech;
use crate::language::read::names::{Product, is_unknown};
use crate::language::read::word_list::words;
use crate::season::request::{Question, Selection};

/// The name asked after, if the garden has none like it and the question would be answered for every tree.
pub(super) fn asked_after(speech: &Speech, question: &Question) -> Option<String> {
    let trees = match question {
        Question::Spray { trees, .. }
        | Question::Water { trees }
        | Question::Tree { trees }
        | Question::Done { trees, .. }
        | Question::Picking { trees, .. } => trees,
        _ => return None,
    };
    let of_all = matches!(trees, Selection::Unsaid | Selection::All);
    if !of_all || !speech.mentions.is_empty() || speech.names.nicknames().is_empty() {
        return None;
    }
    let shouted = !speech.text.chars().any(char::is_lowercase);
    let products: Vec<usize> = speech
        .names
        .products_in(speech.tokens, &[])
        .into_iter()
        .filter_map(|product| match product {
            Product::Unknown { index } => Some(index),
            _ => None,
        })
        .collect();
    let at = (1..speech.tokens.len()).find(|index| {
        let token = &speech.tokens[*index];
        let capital = speech.text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase));
        // "How is olivia doing": by where it stands.
        let asked = *index >= 2
            && speech.tokens[index - 2].is("how")
            && speech.tokens[index - 1].is("is")
            && speech
                .tokens
                .get(index + 1)
                .is_some_and(|next| next.is_any(words!("doing looking holding getting today")));
        (capital || asked)
            && !shouted
            && is_unknown(token)
            && !products.contains(index)
            && !speech.names.is_person(&token.text)
            && speech.tokens[index - 1]
                .is_any(words!("spray sprayed water watered treat is on off about for feed pick picked from did does how's hows"))
    })?;
    Some(speech.typed(at, at + 1).to_owned())
}
