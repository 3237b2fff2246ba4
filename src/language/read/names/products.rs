//! Which spray is meant.

use super::{Names, is_unknown, matches_at, slips};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::season::garden::Active;
use crate::season::request::Partner;

#[derive(Clone, Debug, PartialEq)]
pub(in crate::language::read) enum Product {
    Unsaid,
    Known {
        name: String,
        used: Vec<usize>,
        /// It was spelt otherwise.
        misspelt: bool,
    },
    /// A spray the garden has none of.
    Unknown {
        index: usize,
    },
    Several {
        index: usize,
        names: Vec<String>,
    },
}

impl Names {
    pub(in crate::language::read) fn product_names(&self) -> Vec<String> {
        self.products.iter().map(|product| product.name.clone()).collect()
    }

    pub(in crate::language::read) fn only_product(&self) -> Option<&str> {
        match self.products.as_slice() {
            [only] => Some(&only.name),
            _ => None,
        }
    }

    /// Every spray a stretch names outside the names of trees, in order. "Oil" or "sulfur" finds the one product of its kind.
    pub(in crate::language::read) fn products_in(&self, stretch: &[Token], taken: &[usize]) -> Vec<Product> {
        let mut found: Vec<Product> = Vec::new();
        let mut index = 0;
        while index < stretch.len() {
            let product = if taken.contains(&index) { None } else { self.product_at(stretch, index) };
            match product {
                Some((count, product)) => {
                    index += count;
                    let again = found.iter().any(|known| same(known, &product));
                    if !again {
                        found.push(product);
                    }
                }
                None => index += 1,
            }
        }
        found
    }

    /// The first spray a stretch names.
    pub(in crate::language::read) fn product(&self, stretch: &[Token]) -> Product {
        self.products_in(stretch, &[]).into_iter().next().unwrap_or(Product::Unsaid)
    }

    /// Every spray a stretch names, be it the garden's or only a kind of one: "sulfur and oil".
    pub(in crate::language::read) fn partners(&self, stretch: &[Token]) -> Vec<Partner> {
        let mut found: Vec<Partner> = Vec::new();
        let mut index = 0;
        while index < stretch.len() {
            let Some((count, product)) = self.product_at(stretch, index) else {
                index += 1;
                continue;
            };
            let partner = match product {
                Product::Known { name, .. } => {
                    let call = self.products.iter().find(|call| call.name == name);
                    Partner { active: call.map(|call| call.active), name }
                }
                Product::Unknown { .. } | Product::Several { .. } | Product::Unsaid => {
                    let said: Vec<&str> =
                        stretch[index..index + count].iter().map(|token| token.text.as_str()).collect();
                    Partner { name: said.join(" "), active: active(&stretch[index]) }
                }
            };
            if !found.iter().any(|known| known.name == partner.name) {
                found.push(partner);
            }
            index += count;
        }
        found
    }

    fn product_at(&self, stretch: &[Token], index: usize) -> Option<(usize, Product)> {
        let longest = self
            .products
            .iter()
            .filter(|product| matches_at(stretch, index, &product.words))
            .max_by_key(|product| product.words.len());
        if let Some(product) = longest {
            let count = product.words.len();
            let used = (index..index + count).collect();
            return Some((count, Product::Known { name: product.name.clone(), used, misspelt: false }));
        }
        let token = &stretch[index];
        // Lime sulfur is corrosive, and another thing than sulfur.
        if token.is("lime") && stretch.get(index + 1).is_some_and(|next| next.senses.has(Sense::Sulfur)) {
            let own =
                self.products.iter().find(|product| product.words.first().is_some_and(|word| word == "lime"));
            let product = own.map_or(Product::Unknown { index }, |own| Product::Known {
                name: own.name.clone(),
                used: vec![index, index + 1],
                misspelt: false,
            });
            return Some((2, product));
        }
        // "Horticultural oil" and "canola oil" are other bottles than "neem".
        if Self::is_sort_of_oil(stretch, index) {
            return Some((2, self.of_active(Active::Oil, OilSort::of(&token.text), index, 2)));
        }
        if let Some(active) = active(token) {
            // "Neem oil", "copper hydroxide": one spray in two words.
            let count = 1 + usize::from(
                stretch.get(index + 1).is_some_and(|next| self::active(next) == Some(active)),
            );
            return Some((count, self.of_active(active, OilSort::of(&token.text), index, count)));
        }
        self.misspelt_product(token, index).map(|product| (1, product))
    }

    /// "Mineral oil", "canola oil": a sort of oil by its two words.
    pub(in crate::language::read) fn is_sort_of_oil(stretch: &[Token], index: usize) -> bool {
        stretch.get(index).is_some_and(|sort| OilSort::of(&sort.text).is_some())
            && stretch.get(index + 1).is_some_and(|oil| oil.is("oil"))
    }

    fn of_active(&self, active: Active, sort: Option<OilSort>, index: usize, count: usize) -> Product {
        // An oil whose name tells no sort may be any.
        let other_sort = |call: &super::ProductCall| {
            let of_name = call.words.iter().find_map(|word| OilSort::of(word));
            active == Active::Oil && sort.is_some() && of_name.is_some() && of_name != sort
        };
        let of_kind: Vec<&str> = self
            .products
            .iter()
            .filter(|product| product.active == active && !other_sort(product))
            .map(|product| product.name.as_str())
            .collect();
        match of_kind.as_slice() {
            [one] => Product::Known {
                name: (*one).to_owned(),
                used: (index..index + count).collect(),
                misspelt: false,
            },
            [] => Product::Unknown { index },
            several => {
                Product::Several { index, names: several.iter().map(|name| (*name).to_owned()).collect() }
            }
        }
    }

    fn misspelt_product(&self, token: &Token, index: usize) -> Option<Product> {
        if !is_unknown(token) {
            return None;
        }
        let mut near: Vec<(usize, &str)> = self
            .products
            .iter()
            .filter(|product| product.words.len() == 1)
            .filter_map(|product| Some((slips(&token.text, &product.words[0])?, product.name.as_str())))
            .collect();
        near.sort_by_key(|(slips, _)| *slips);
        match near.as_slice() {
            [(_, name)] => {
                Some(Product::Known { name: (*name).to_owned(), used: vec![index], misspelt: true })
            }
            [(least, name), (next, _), ..] if least < next => {
                Some(Product::Known { name: (*name).to_owned(), used: vec![index], misspelt: true })
            }
            [] => None,
            several => Some(Product::Several {
                index,
                names: several.iter().map(|(_, name)| (*name).to_owned()).collect(),
            }),
        }
    }
}

/// Which oil is in the bottle: their labels differ, so none stands for another.
#[derive(Clone, Copy, PartialEq)]
enum OilSort {
    Neem,
    Mineral,
    Kitchen,
}

impl OilSort {
    fn of(word: &str) -> Option<Self> {
        match word {
            "neem" | "neemed" | "neem'd" => Some(Self::Neem),
            "horticultural" | "hort" | "mineral" | "dormant" | "paraffin" | "paraffinic" | "superior"
            | "petroleum" => Some(Self::Mineral),
            "canola" | "rapeseed" | "soybean" | "soy" | "vegetable" | "cottonseed" => Some(Self::Kitchen),
            _ => None,
        }
    }
}

fn active(token: &Token) -> Option<Active> {
    [(Sense::Copper, Active::Copper), (Sense::Sulfur, Active::Sulfur), (Sense::Oil, Active::Oil)]
        .into_iter()
        .find(|(sense, _)| token.senses.has(*sense))
        .map(|(_, active)| active)
}

fn same(one: &Product, other: &Product) -> bool {
    match (one, other) {
        (Product::Known { name: one, .. }, Product::Known { name: other, .. }) => one == other,
        (Product::Several { names: one, .. }, Product::Several { names: other, .. }) => one == other,
        _ => false,
    }
}
