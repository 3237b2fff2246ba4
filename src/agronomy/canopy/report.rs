//! What somebody saw on the tree, and the model drawn towards it.

use super::{Canopy, Leaf, covered, mean};
use crate::units::Fraction;

/// Of the way from what was reckoned to what was seen, the part the model goes. Words and estimates by eye are
/// off by a class or so, and the model is worth something too. common practice.
const TRUST: f64 = 0.8;
/// Rust below this is easily overlooked: with it neither nothing seen nor nothing reckoned is taken as proof.
const OVERLOOKED: f64 = 0.005;
/// The most that looks may change what blows in, up or down. An assumption.
const MOST_TAUGHT: f64 = 20.0;
/// Hidden lesions to each one that shows, at most, where rust turns out worse than reckoned: as many as there are
/// where it trebles in a latent period. An assumption; the fastest published rise [UFV] would have six.
const MOST_HIDDEN: f64 = 2.0;
/// Nearly all of a leaf: a share of one would need lesions without end.
const NEARLY_ALL: f64 = 0.999;

/// Which leaves were looked at; lower leaves are the older ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    Lower,
    Middle,
    Upper,
    Whole,
}

impl Canopy {
    /// Draws rust, shown and hidden, towards a severity somebody saw on a level; and with it what is thought to
    /// blow in, so that clean leaves in rust weather tell of few spores. Leaves already reckoned fallen stay so.
    ///
    /// # Source
    /// Arithmetic: lesions of all leaves are scaled alike until the level's mean is right. Where none were
    /// reckoned the oldest leaves have most, as [UFV] and [ARK28] describe.
    pub fn observe(&mut self, seen: Fraction, level: Level) {
        let looked_at = self.leaves_of(level);
        let Some(reckoned) = mean(looked_at.iter().map(|&index| self.leaves[index].rusted())) else { return };
        let (reckoned, seen) = (reckoned.value(), seen.value());
        let wanted = (reckoned + TRUST * (seen - reckoned)).min(NEARLY_ALL);
        if wanted > 0.0 && reckoned <= 0.0 {
            self.sow();
        }
        let densities: Vec<f64> = looked_at.iter().map(|&index| self.leaves[index].showing).collect();
        let factor = factor_for(&densities, wanted);
        let (day, parameters) = (self.day, self.parameters);
        for leaf in &mut self.leaves {
            leaf.scale(factor);
            if leaf.hangs(day) {
                let fall = leaf.fall_as_it_is(day, &parameters);
                leaf.falls = if factor < 1.0 { fall } else { leaf.falls.min(fall) };
            }
        }
        let taught = ((seen + OVERLOOKED) / (reckoned + OVERLOOKED)).sqrt();
        self.spores_about = (self.spores_about * taught).clamp(1.0 / MOST_TAUGHT, MOST_TAUGHT);
    }

    /// So much of the leaves was reported lost: the most rusted, then the oldest, have fallen, the others hang.
    ///
    /// # Source
    /// Arithmetic.
    pub fn observe_fallen(&mut self, lost: Fraction) {
        let gone = (lost.value() * self.leaves.len() as f64).round() as usize;
        let mut order: Vec<usize> = (0..self.leaves.len()).collect();
        // Stable, and leaves stand in the order they opened.
        order.sort_by(|&one, &other| self.leaves[other].showing.total_cmp(&self.leaves[one].showing));
        let (day, parameters) = (self.day, self.parameters);
        for (place, index) in order.into_iter().enumerate() {
            let leaf = &mut self.leaves[index];
            if place < gone {
                leaf.falls = leaf.falls.min(day);
            } else if !leaf.hangs(day) {
                leaf.falls = leaf.fall_as_it_is(day, &parameters);
            }
        }
    }

    /// The hanging leaves of a level, by place: a third each, or all where there are too few to tell.
    fn leaves_of(&self, level: Level) -> Vec<usize> {
        let hanging: Vec<usize> =
            (0..self.leaves.len()).filter(|&index| self.leaves[index].hangs(self.day)).collect();
        let third = hanging.len().div_ceil(3);
        let range = match level {
            Level::Whole => 0..hanging.len(),
            Level::Lower => 0..third,
            Level::Middle => third..(2 * third).min(hanging.len()),
            Level::Upper => (2 * third).min(hanging.len())..hanging.len(),
        };
        if range.is_empty() { hanging } else { hanging[range].to_vec() }
    }

    /// A trace of rust on every leaf, the more the older it is.
    fn sow(&mut self) {
        const TRACE: f64 = 1e-6;
        for leaf in &mut self.leaves {
            leaf.showing += TRACE * (1.0 + self.day - leaf.opened);
        }
    }
}

impl Leaf {
    fn scale(&mut self, factor: f64) {
        self.showing *= factor;
        let hidden: f64 = self.hidden.iter().sum();
        let most = if hidden > 0.0 { (MOST_HIDDEN * self.showing / hidden).max(1.0) } else { 1.0 };
        let factor = factor.min(most);
        self.hidden.iter_mut().for_each(|density| *density *= factor);
    }
}

/// By what to multiply densities for their leaves to be covered in a share on the mean: halving on a scale of
/// powers, as the mean only grows with the factor.
fn factor_for(densities: &[f64], wanted: f64) -> f64 {
    if wanted <= 0.0 {
        return 0.0;
    }
    let (mut low, mut high) = (-60.0_f64, 60.0_f64);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        let covered = mean(densities.iter().map(|density| covered(density * middle.exp())));
        if covered.is_some_and(|covered| covered.value() < wanted) {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high).exp()
}
