//! What each mark tells of what a message is about: weights learnt from the tables of utterances, kept in `weights.txt`.
//!
//! The file is made by `cargo test --test talk learn -- --ignored` and is read here as it stands. Its first line names
//! the kinds, parted by tabs; its second gives the weight each kind begins with; every further line is a mark, a tab,
//! and the kinds it tells for or against as `kind:hundredths`, parted by spaces.

use std::collections::{BTreeSet, HashMap};
use std::ops::Range;
use std::sync::LazyLock;

static WEIGHTS: LazyLock<Weights> = LazyLock::new(|| Weights::of(include_str!("weights.txt")));

pub(super) struct Weights {
    kinds: Vec<&'static str>,
    begin: Vec<f64>,
    /// Kinds and hundredths of all marks, one mark behind the other.
    told: Vec<(u8, i16)>,
    /// Where those of a mark stand.
    of_marks: HashMap<&'static str, Range<usize>>,
}

/// What a message is most likely about.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Guess {
    pub(super) kind: &'static str,
    /// Between nought and one.
    pub(super) sure: f64,
}

impl Weights {
    fn of(text: &'static str) -> Self {
        let mut lines = text.lines();
        let kinds: Vec<&str> = lines.next().unwrap_or_default().split('\t').collect();
        let begin = lines.next().unwrap_or_default().split('\t').map(hundredths).collect();
        let mut told = Vec::new();
        let of_marks = lines
            .filter_map(|line| line.split_once('\t'))
            .map(|(mark, pairs)| {
                let from = told.len();
                let pairs = pairs.split(' ').filter_map(|pair| pair.split_once(':'));
                told.extend(
                    pairs.filter_map(|(kind, weight)| Some((kind.parse().ok()?, weight.parse().ok()?))),
                );
                (mark, from..told.len())
            })
            .collect();
        Self { kinds, begin, told, of_marks }
    }

    /// The likeliest kind by its marks.
    fn guess(&self, marks: &BTreeSet<String>) -> Option<Guess> {
        let mut scores = vec![0.0; self.kinds.len()];
        for range in marks.iter().filter_map(|mark| self.of_marks.get(mark.as_str())) {
            for (kind, weight) in &self.told[range.clone()] {
                if let Some(score) = scores.get_mut(usize::from(*kind)) {
                    *score += f64::from(*weight) / 100.0;
                }
            }
        }
        // A long message is no surer for its length.
        let length = f64::from(u32::try_from(marks.len()).unwrap_or(u32::MAX)).sqrt().max(1.0);
        let scores: Vec<f64> =
            scores.iter().zip(&self.begin).map(|(score, begin)| score / length + begin).collect();
        let best = (0..scores.len()).max_by(|one, other| scores[*one].total_cmp(&scores[*other]))?;
        let total: f64 = scores.iter().map(|score| (score - scores[best]).exp()).sum();
        Some(Guess { kind: self.kinds[best], sure: 1.0 / total })
    }
}

fn hundredths(text: &str) -> f64 {
    text.parse::<i32>().map_or(0.0, |weight| f64::from(weight) / 100.0)
}

pub(super) fn guess(marks: &BTreeSet<String>) -> Option<Guess> {
    WEIGHTS.guess(marks)
}
