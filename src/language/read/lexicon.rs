//! The words of the garden and what they can mean.

mod chatter;
mod words;

use std::collections::HashMap;
use std::sync::LazyLock;

/// What a word can mean; most mean one thing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Senses(u128);

impl Senses {
    pub(super) fn has(self, sense: Sense) -> bool {
        self.0 & (1 << sense as u32) != 0
    }

    pub(super) fn has_any(self, senses: &[Sense]) -> bool {
        senses.iter().any(|sense| self.has(*sense))
    }

    pub(super) fn and(self, other: Senses) -> Senses {
        Senses(self.0 | other.0)
    }

    pub(super) fn with(self, sense: Sense) -> Senses {
        Senses(self.0 | 1 << sense as u32)
    }

    pub(super) fn is_empty(self) -> bool {
        self.0 == 0
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u32)]
pub(super) enum Sense {
    /// The disease by name.
    Rust,
    /// What it looks like; other things look so too.
    Spots,
    Clean,
    Leaf,
    Drop,
    Bare,
    Sprayed,
    Spray,
    Spraying,
    /// "Treated", "dusted": a spray when nothing says otherwise.
    Applied,
    Apply,
    Applying,
    /// "Hit", "put", "did": a spray with a product, water with litres.
    Gave,
    Watered,
    Water,
    Watering,
    Drink,
    Dry,
    Moist,
    Wet,
    Rain,
    Rained,
    Gauge,
    Picked,
    /// "Harvest", "haul": one with a number behind it.
    Harvest,
    Pick,
    Picking,
    /// "Got", "ate", "pulled": a harvest with figs and a number.
    Took,
    Fig,
    Ripe,
    Frost,
    Froze,
    Planted,
    Removed,
    Weighed,
    Trace,
    Some,
    Heavy,
    Lower,
    Middle,
    Upper,
    Whole,
    Negation,
    /// Still to come, whatever else is said: "will", "tomorrow".
    Future,
    /// A wish or a duty: "need", "should", "want".
    Intent,
    Perhaps,
    /// "Finished", "done", "just": makes an "-ing" a thing done.
    Finished,
    Condition,
    Habit,
    Asks,
    /// Somebody who is not of this garden.
    Someone,
    Elsewhere,
    Mine,
    Copper,
    Sulfur,
    Oil,
    /// "Fungicide": a product, whichever.
    AnyProduct,
    /// Sprays for nothing of ours: soap, milk, herbicide.
    OtherProduct,
    /// A spray against disease that this garden may have none of.
    Fungicide,
    Pots,
    Pot,
    Ground,
    All,
    Both,
    But,
    Rest,
    Article,
    Link,
    Be,
    Have,
    Unit,
    Time,
    Plant,
    Metal,
    Creature,
    /// Food, clothes, tools: what figs and sprays are talked of with and no tree is.
    Thing,
    Shop,
    LeafOut,
    Set,
    Swell,
    Ripening,
    Dormant,
    Over,
    Seen,
    Tree,
    Soil,
    Pronoun,
    Filler,
    Thanks,
    Cold,
    /// Known, and nothing more.
    Known,
}

static LEXICON: LazyLock<HashMap<&'static str, Senses>> = LazyLock::new(|| {
    let mut lexicon: HashMap<&'static str, Senses> = HashMap::with_capacity(4096);
    for (sense, words) in words::WORDS.iter().chain(chatter::WORDS) {
        for word in words.split_whitespace() {
            lexicon.entry(word).or_default().0 |= 1 << *sense as u32;
        }
    }
    lexicon
});

static NUMBERS: LazyLock<HashMap<&'static str, f64>> =
    LazyLock::new(|| words::NUMBERS.iter().copied().collect());

pub(super) fn senses(word: &str) -> Senses {
    if let Some(senses) = LEXICON.get(word) {
        return *senses;
    }
    // "Monday's", "rain's": what is said of the word is said of it.
    word.strip_suffix("'s").and_then(|word| LEXICON.get(word)).copied().unwrap_or_default()
}

pub(super) fn number_word(word: &str) -> Option<f64> {
    NUMBERS.get(word).copied()
}

/// Whether a word is one of the language's own, and so not a name nobody knows.
pub(super) fn is_known(word: &str) -> bool {
    // "A bowlful", "plentiful": a measure or a quality, never a name.
    let full = word.len() > 5 && word.ends_with("ful");
    !senses(word).is_empty() || NUMBERS.contains_key(word) || full
}

/// "Prettiest", "tolerated", "sweltering": a quality or a doing by its ending, and no name.
pub(super) fn is_quality(word: &str) -> bool {
    const ENDINGS: [(&str, usize); 7] =
        [("est", 7), ("ed", 7), ("ing", 8), ("ness", 8), ("less", 8), ("able", 8), ("ously", 7)];
    ENDINGS.iter().any(|(ending, least)| word.len() >= *least && word.ends_with(ending))
}

/// The word of the garden a slip of the thumb was meant for: one letter wrong, missing, doubled or swapped, and
/// no other word as near.
pub(super) fn meant(typed: &str) -> Option<&'static str> {
    let length = typed.chars().count();
    if !(4..=16).contains(&length) {
        return None;
    }
    let first = typed.chars().next()?;
    let mut best: Option<(usize, &'static str)> = None;
    let mut tied = false;
    for word in words::OFTEN_MISTYPED.get(&first)? {
        let allowed = slips(length, word.chars().count());
        if allowed == 0 || length.abs_diff(word.chars().count()) > allowed {
            continue;
        }
        let distance = strsim::damerau_levenshtein(typed, word);
        if distance > allowed || (length == 4 && !is_swap(typed, word)) {
            continue;
        }
        match best {
            Some((known, _)) if known < distance => {}
            Some((known, other)) if known == distance => tied = !same_meaning(other, word),
            _ => {
                tied = false;
                best = Some((distance, word));
            }
        }
    }
    best.filter(|_| !tied).map(|(_, word)| word)
}

fn slips(typed: usize, word: usize) -> usize {
    match typed.min(word) {
        0..=3 => 0,
        4..=7 => 1,
        _ => 2,
    }
}

fn is_swap(typed: &str, word: &str) -> bool {
    let sorted = |text: &str| {
        let mut letters: Vec<char> = text.chars().collect();
        letters.sort_unstable();
        letters
    };
    typed.len() != word.len() || sorted(typed) == sorted(word)
}

fn same_meaning(one: &str, other: &str) -> bool {
    senses(one) == senses(other)
}
