//! The trees a stretch of words names or leaves out, before they are settled into a selection.

use std::ops::Range;

/// Words as typed, and as they were read.
pub(super) type Spellings = Vec<(String, String)>;

/// Trees meant, before they are settled into a selection.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::language::read) struct Trees {
    /// What was named, in order; empty when only exclusions or pronouns were.
    pub(super) parts: Vec<Part>,
    /// Left out: "but not Whip".
    pub(in crate::language::read) without: Vec<Part>,
    pub(in crate::language::read) spellings: Spellings,
    /// "Wall or Corner": one of them, and nobody says which.
    pub(in crate::language::read) either: bool,
    /// A word in the list that is no tree's name.
    pub(in crate::language::read) unknown: Option<Range<usize>>,
}

#[derive(Clone, Debug, PartialEq)]
pub(in crate::language::read) struct Part {
    pub(super) label: Label,
    pub(super) trees: Vec<usize>,
    /// How many of these are meant, where that is said; nought for "some".
    pub(super) meant: Option<usize>,
    pub(super) range: Range<usize>,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Label {
    All,
    Group(String),
    Named,
    /// "The rest": all but those named before.
    Rest,
    /// "The trees", "the tree": only when nothing better is said.
    Vague,
}

impl Trees {
    pub(in crate::language::read) fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.without.is_empty()
    }

    pub(in crate::language::read) fn names_some(&self) -> bool {
        !self.parts.is_empty()
    }

    /// Those called by their own name, if any are: "Eave wants a bigger pot" is of Eave.
    pub(in crate::language::read) fn by_name_first(&self) -> Trees {
        let named: Vec<Part> = self.parts.iter().filter(|part| part.label == Label::Named).cloned().collect();
        if named.is_empty() { self.clone() } else { Trees { parts: named, ..self.clone() } }
    }

    /// Each named tree by itself.
    pub(in crate::language::read) fn one_by_one(&self) -> Vec<Trees> {
        let one = |part: &Part| Trees { parts: vec![part.clone()], ..Trees::default() };
        self.parts.iter().map(one).collect()
    }

    /// Those left out, as if they had been named.
    pub(in crate::language::read) fn of_left_out(&self) -> Trees {
        Trees { parts: self.without.clone(), ..Trees::default() }
    }

    pub(super) fn leaves_out_all(&self) -> bool {
        self.without.iter().any(|part| matches!(part.label, Label::All | Label::Vague))
    }

    /// Some are called by a name or a group's name, not only "all" or "the trees".
    pub(in crate::language::read) fn names_one_by_name(&self) -> bool {
        self.parts.iter().any(|part| matches!(part.label, Label::Named | Label::Group(_)))
    }

    /// Only "the rest".
    pub(in crate::language::read) fn is_rest(&self) -> bool {
        !self.parts.is_empty() && self.parts.iter().all(|part| part.label == Label::Rest)
    }

    /// "All of them", whichever that is.
    pub(in crate::language::read) fn is_all(&self) -> bool {
        !self.parts.is_empty() && self.parts.iter().all(|part| part.label == Label::All)
    }

    /// Only "the trees" or "the tree".
    pub(in crate::language::read) fn is_vague(&self) -> bool {
        !self.parts.is_empty() && self.parts.iter().all(|part| part.label == Label::Vague)
    }

    /// One tree, by its own name.
    pub(in crate::language::read) fn is_one(&self) -> bool {
        matches!(self.parts.as_slice(), [part] if part.label == Label::Named && part.trees.len() == 1)
    }

    /// Whether another mention names any of these.
    pub(in crate::language::read) fn overlap(&self, other: &Trees) -> bool {
        let mut named = self.parts.iter().flat_map(|part| &part.trees);
        named.any(|tree| other.parts.iter().any(|part| part.trees.contains(tree)))
    }

    /// These, less what another mention leaves out.
    pub(in crate::language::read) fn without_those_of(mut self, other: Trees) -> Trees {
        self.without.extend(other.without);
        self
    }

    /// Only a group, and the one tree of another mention is in it.
    pub(in crate::language::read) fn is_place_of(&self, one: &Trees) -> bool {
        let group = self.parts.iter().all(|part| matches!(part.label, Label::Group(_)));
        group && !self.parts.is_empty() && one.names_one_in(self)
    }

    /// All that is meant here is named there too.
    pub(in crate::language::read) fn names_one_in(&self, other: &Trees) -> bool {
        let within = |tree: &usize| other.parts.iter().any(|part| part.trees.contains(tree));
        self.parts.iter().flat_map(|part| &part.trees).all(within)
    }

    /// Leaves out what another mention names or leaves out.
    pub(in crate::language::read) fn leave_out(&mut self, other: Trees) {
        self.without.extend(other.parts);
        self.without.extend(other.without);
        self.spellings.extend(other.spellings);
    }

    pub(in crate::language::read) fn together(mut self, other: Trees) -> Trees {
        self.parts.extend(other.parts);
        self.without.extend(other.without);
        self.spellings.extend(other.spellings);
        self.unknown = self.unknown.or(other.unknown);
        self.either |= other.either;
        self
    }
}

impl Part {
    /// Both descriptions at once, if that leaves a tree.
    pub(super) fn narrowed_by(&self, other: &Part) -> Option<Part> {
        let trees: Vec<usize> =
            self.trees.iter().filter(|tree| other.trees.contains(tree)).copied().collect();
        let range = self.range.start..other.range.end;
        if trees.is_empty() {
            // "Celeste by the wall", where the wall is no group of hers, is Celeste all the same.
            let one = self.label == Label::Named && self.trees.len() == 1;
            return (one && matches!(other.label, Label::Group(_))).then(|| Part { range, ..self.clone() });
        }
        let label = match (&self.label, &other.label) {
            (Label::All | Label::Vague, label) => label.clone(),
            (label, _) if trees.len() == self.trees.len() => label.clone(),
            (_, label) if trees.len() == other.trees.len() => label.clone(),
            _ => Label::Named,
        };
        Some(Part { label, meant: self.meant.or(other.meant), trees, range })
    }

    /// "The pot", one of them.
    pub(super) fn is_a_pot(&self) -> bool {
        matches!(&self.label, Label::Group(group) if group == "pots") && self.meant == Some(1)
    }

    /// Fewer trees are meant than the words could name.
    pub(super) fn is_unsure(&self) -> bool {
        self.trees.len() > 1 && self.meant.is_some_and(|meant| meant < self.trees.len())
    }
}
