//! Which trees a selection means, in a garden.

use super::garden::{Garden, Tree, same_name};
use super::request::Selection;

/// The nicknames a selection means.
pub fn selected(garden: &Garden, selection: &Selection) -> Vec<String> {
    let names = |keep: &dyn Fn(&Tree) -> bool| -> Vec<String> {
        garden.trees.iter().filter(|tree| keep(tree)).map(|tree| tree.name.clone()).collect()
    };
    match selection {
        Selection::Unsaid | Selection::All => names(&|_| true),
        Selection::Named(wanted) => {
            wanted.iter().filter_map(|name| garden.tree(name)).map(|tree| tree.name.clone()).collect()
        }
        Selection::Group(group) => names(&|tree| in_group(tree, group)),
        Selection::AllBut(unwanted) => {
            names(&|tree| !unwanted.iter().any(|name| same_name(name, &tree.name) || in_group(tree, name)))
        }
    }
}

/// "pots" and "ground" are groups of every garden; others are the grower's own.
pub fn in_group(tree: &Tree, group: &str) -> bool {
    match group.to_lowercase().as_str() {
        "pots" => tree.is_potted(),
        "ground" => !tree.is_potted(),
        _ => tree.groups.iter().any(|known| same_name(known, group)),
    }
}
