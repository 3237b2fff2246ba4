//! Where trees stand, as a name for them.

use super::trees::{Label, Part};
use super::{Kind, Names};

impl Names {
    /// Several trees told by a place that is one tree's name as well: the group that stands there.
    pub(super) fn group_at_place_of(&self, part: &Part, narrower: &Part) -> Option<Part> {
        let plain = matches!(part.label, Label::Vague | Label::All);
        let several = plain && part.trees.len() > 1 && part.meant != Some(1);
        let [one] = narrower.trees.as_slice() else { return None };
        let name = self.nicknames.get(*one)?.to_lowercase();
        let group = self.calls.iter().find(|call| {
            matches!(call.kind, Kind::Group(_))
                && call.trees.len() > 1
                && call.trees.contains(one)
                && call.place.len() == 1
                && call.place[0] == name
        })?;
        let Kind::Group(label) = &group.kind else { return None };
        (several && narrower.label == Label::Named && narrower.range.len() <= 2).then(|| Part {
            label: Label::Group(label.clone()),
            trees: group.trees.clone(),
            meant: None,
            range: narrower.range.clone(),
        })
    }
}
