//! What fig trees are called by those who sell and swap them: names of cultivars, so that "violette de bordeaux" is one
//! tree with its copper-like "bordeaux" in it, and "i258" no amount.
//!
//! A list of the trade's common names, from memory, none of them checked and nothing computed from them. It helps to
//! find where a name begins and ends; a name that is not in it is found by other means.

use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

use crate::language::read::tokens::{Token, folded};

const NAMES: &str = "
adam; adriatic; alma; armenian; atreano; bari; beall; bisirri; black bethlehem; black bursa; black genoa;
black greek; black ischia; black madeira; black manzanita; black mission; black spanish; black triana; blanche;
blava; blue celeste; blue giant; bordissot; bourjassotte grise; brandywine; brooklyn white; brown turkey;
brunswick; calabrese; calimyrna; campaniere; capoll curt negra; carini; cavaliere; celeste; champagne;
chicago hardy; col de dama; col de dame; col de dame blanc; col de dame gris; col de dame grise;
col de dame noir; coll de dama; coll de dama blanc; coll de dama gris; coll de dama negre; conadria; croisic;
crozes; cuello dama; dalmatie; dauphine; de la plata; de tres esplets; desert king; dottato; early violet;
english brown turkey; fico preto; fiorone; flanders; florea; galicia negra; genoa; genovese nero;
giant celeste; golden celeste; golden rainbow; goutte d'or; green ischia; green michurinska; grise de st jean;
hardy chicago; hative d'argenteuil; houma; i-258; i258; improved celeste; iranian candy; ischia; ischia black;
italian 258; italian golden honey; italian honey; jolly tiger; kadota; kesariani; lampeira; lattarula;
ligurian black; little ruby; long yellow; longue d'aout; lsu champagne; lsu gold; lsu golden;
lsu improved celeste; lsu purple; lsu red; lsu scott's black; lsu strawberry; lsu tiger; lyndhurst white;
madeira island black; magnolia; maltese beauty; maltese falcon; marseilles; marseilles black; marseilles white;
marsella; martinenca rimada; mission; moro de caneva; mount etna; mt etna; napolitana; negretta; negronne;
nero; nero 600m; nexoe; noire de barbentane; noire de caromb; nordland; norella; norland; o'rourke; olympian;
orourke; osborn prolific; osborne; osborne prolific; ouriola; palermo red; panache; panachee; paradiso;
pasquale; pastiliere; peter's honey; peters honey; petite aubique; petite negra; petite negri; pied de boeuf;
pink jerusalem; ponte tresa; preto; proscuitto; rdb; red lebanese; red lebanese bv; rigato del salento;
ronde de bordeaux; saint anthony; salce; salem dark; san donato; san pietro; santa cruz dark; scott's black;
sefrawi; sicilian white; sierra; smith; socorro black; sodus sicilian; sosui; southern brown turkey;
st anthony; st rita; stanford; stella; strawberry verte; sultane; tacoma violet; takaishi; takoma violet;
tashkent; teramo; texas blue giant; texas everbearing; tia penya; tiger; tiger panache; triana; vdb; ventura;
verdal longue; verdino; vern's; vern's brown turkey; verns brown turkey; verte; violet sepor; violetta;
violette; violette dauphine; violette de bordeaux; violette de sollies; white adriatic; white genoa;
white ischia; white madeira; white madeira #1; white marseilles; white texas everbearing; white triana;
yellow long neck; yellow neches; ynf; zidi; zingarella";

/// By first word, the longest first: the words of each name, as tokens would have them.
static BY_FIRST: LazyLock<HashMap<String, Vec<Vec<String>>>> = LazyLock::new(|| {
    let mut by_first: HashMap<String, Vec<Vec<String>>> = HashMap::new();
    let mut seen = HashSet::new();
    for name in NAMES.split(';') {
        let words: Vec<String> = crate::language::read::tokens::tokens(&folded(name.trim()))
            .into_iter()
            .map(|token| token.text)
            .collect();
        if let Some(first) = words.first().cloned().filter(|_| seen.insert(words.clone())) {
            by_first.entry(first).or_default().push(words);
        }
    }
    by_first.values_mut().for_each(|names| names.sort_by_key(|words| std::cmp::Reverse(words.len())));
    by_first
});

/// How many tokens at a place are the name of a cultivar; the longest that fits.
pub(in crate::language::read) fn at(tokens: &[Token], place: usize) -> Option<usize> {
    let names = BY_FIRST.get(tokens.get(place)?.text.as_str())?;
    names
        .iter()
        .find(|words| {
            tokens.len() >= place + words.len()
                && words.iter().zip(&tokens[place..]).all(|(word, token)| token.is(word))
        })
        .map(Vec::len)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::read::tokens::tokens;

    #[test]
    fn the_longest_name_is_found() {
        for (text, want) in [
            ("violette de bordeaux 5 gal", Some(3)),
            ("Violette in a pot", Some(1)),
            ("I-258 7 gal", Some(2)),
            ("White Madeira #1 5 gal", Some(4)),
            ("peter's honey", Some(2)),
            ("porch", None),
        ] {
            assert_eq!(at(&tokens(text), 0), want, "{text}: {:?}", tokens(text));
        }
    }
}
