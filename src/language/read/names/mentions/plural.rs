//! Several trees by the name of one.

use super::{Label, Mention};
use crate::language::read::names::{Kind, Names};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;

impl Names {
    /// "The wall trees" are those by the wall, where a tree is called Wall and a group stands by it.
    pub(super) fn by_the_wall(&self, tokens: &[Token], mention: &mut Mention) {
        let [part] = mention.trees.parts.as_mut_slice() else { return };
        let last = part.range.end.saturating_sub(1);
        let plural =
            |at: usize| tokens.get(at).is_some_and(|next| next.is_any(words!("trees figs ones plants")));
        let Some(name) = tokens.get(part.range.start) else { return };
        let plural = plural(last) && last > part.range.start || plural(part.range.end);
        if !mention.trees.without.is_empty() || part.trees.len() != 1 || part.label != Label::Named || !plural
        {
            return;
        }
        let group = self.calls.iter().find_map(|call| match &call.kind {
            Kind::Group(group) if call.words.contains(&name.text) && call.trees.len() > 1 => {
                Some((group, call))
            }
            _ => None,
        });
        if let Some((group, call)) = group {
            part.label = Label::Group(group.clone());
            part.trees.clone_from(&call.trees);
        }
    }
}
