//! Leaves of an average shoot, cohort by cohort: they open, take rust, show it, shed it and fall.
//!
//! Rust is counted as lesions that fall on a leaf at random, so that a density `d` of them covers a share
//! `1 - exp(-d)`: shares stay below one by themselves, and a heavily rusted leaf has little left to infect.
//!
//! A fallen leaf goes on shedding spores for as long as it would have hung: fallen leaves are where rust is
//! carried on [DOM], and a model in which a bare tree is a clean one would praise the loss of leaves.

mod parameters;
mod report;

use std::collections::VecDeque;

use super::infection::{Grade, latent_period};
use crate::units::{Celsius, Days, Fraction};

pub use parameters::{CanopyParameters, Course};
pub use report::Level;

/// Daily means outside this are no weather for leaves: the model answers nothing.
const COLDEST_DAY: Celsius = Celsius::new(-15.0);
const HOTTEST_DAY: Celsius = Celsius::new(42.0);
/// Lesions of a light and of a moderate infection, of those of a severe one. Ten to one between the two is
/// published, and that there is no more to gain past the severe one; the half is an assumption.
const TRACE_STRENGTH: f64 = 0.05;
const MODERATE_STRENGTH: f64 = 0.5;
/// Where development is done; a hair below one, as thirteen thirteenths do not add up to it.
const RIPE: f64 = 1.0 - 1e-9;

/// What a day holds for the leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CanopyDay {
    pub mean: Celsius,
    /// Lesions this day's wetness lets in, of what the best night would: see [`strength`].
    pub infection: Fraction,
    /// The last spray, where there was one.
    pub spray: Option<Protection>,
}

/// What is left of a spray, and how long ago it was: leaves opened since have none of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Protection {
    pub cover: Fraction,
    pub age: Days,
}

/// An average shoot's leaves at the end of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct Canopy {
    parameters: CanopyParameters,
    /// Days since the first leaf opened.
    day: f64,
    /// Of the next leaf, the part that is grown.
    next_leaf: f64,
    /// For each day whose infections are still hidden, oldest first: of a latent period, the part gone by.
    hidden: VecDeque<f64>,
    leaves: Vec<Leaf>,
    /// What looks at the tree have taught of the spores that blow in: a factor on those of the parameters.
    spores_about: f64,
}

/// A leaf of the average shoot, and with it all that opened when it did.
#[derive(Clone, Debug, PartialEq)]
struct Leaf {
    opened: f64,
    /// Density of lesions that still hide, day by day as in [`Canopy::hidden`].
    hidden: VecDeque<f64>,
    /// Density of lesions that show and shed spores.
    showing: f64,
    falls: f64,
}

/// The lesions an infection brings, of what the best night would.
///
/// # Source
/// [MEL89]: eight hours of wetness give ten times the lesions of six, and from twelve on there is no more to gain.
pub fn strength(grade: Grade) -> Fraction {
    match grade {
        Grade::Trace => Fraction::saturating(TRACE_STRENGTH),
        Grade::Moderate => Fraction::saturating(MODERATE_STRENGTH),
        Grade::Severe => Fraction::WHOLE,
    }
}

/// How readily a leaf takes rust at an age, 1 for a young one.
///
/// # Source
/// [VIE25]: most severe up to 45 days after opening, then less; how much less is an assumption.
pub fn susceptibility(age: Days, parameters: &CanopyParameters) -> Fraction {
    let (young, old) = (parameters.young_until, parameters.old_from);
    let on_the_way = (age - young) / (old - young);
    let lost = parameters.old_susceptibility.complement().value() * on_the_way.clamp(0.0, 1.0);
    Fraction::saturating(1.0 - lost)
}

/// Of the lesions there would be, those that what is left of a spray keeps off. Labels dose well above what
/// halves infection, so half a deposit still holds most of it: taken straight, the one or two sprays a season that
/// [ARK28] finds enough would save no leaf.
///
/// # Source
/// An assumption, of the shape dose and response have.
pub fn protection(cover: Fraction, parameters: &CanopyParameters) -> Fraction {
    let kept_off = |cover: f64| 1.0 - (-cover / parameters.halving_deposit.value()).exp2();
    let of_best = kept_off(cover.value()) / kept_off(1.0);
    Fraction::saturating(of_best).of(parameters.best_protection)
}

/// Leaves a shoot opens in a day of this mean.
///
/// # Source
/// One in 4.5 days of warm weather and none below 10 °C are common practice; linear between.
pub fn leaves_a_day(mean: Celsius, parameters: &CanopyParameters) -> f64 {
    let (none, full) = (parameters.growth_from.value(), parameters.growth_full.value());
    let speed = ((mean.value() - none) / (full - none)).clamp(0.0, 1.0);
    speed / parameters.leaf_every.value()
}

impl Canopy {
    /// A shoot whose first leaf opens today, clean.
    ///
    /// # Source
    /// A definition.
    pub fn at_leaf_out(parameters: CanopyParameters) -> Self {
        let mut canopy = Self {
            parameters,
            day: 0.0,
            next_leaf: 0.0,
            hidden: VecDeque::new(),
            leaves: Vec::new(),
            spores_about: 1.0,
        };
        canopy.open_leaf();
        canopy
    }

    /// One day on. `None`, and nothing changed, for a day outside what leaves live in.
    ///
    /// # Source
    /// As the parts: [`leaves_a_day`], [`latent_period`] of [ANG14], [`susceptibility`], [`strength`].
    #[must_use]
    pub fn step(&mut self, day: &CanopyDay) -> Option<()> {
        if !(COLDEST_DAY..=HOTTEST_DAY).contains(&day.mean) {
            return None;
        }
        self.day += 1.0;
        self.grow(day.mean);
        self.show(day.mean);
        self.infect(day);
        self.doom();
        Some(())
    }

    /// Rusted share of the leaf area that hangs; `None` of a bare tree.
    ///
    /// # Source
    /// A definition: the severity a scout sees.
    pub fn severity(&self) -> Option<Fraction> {
        let hanging: Vec<&Leaf> = self.hanging_leaves().collect();
        mean(hanging.iter().map(|leaf| leaf.rusted()))
    }

    /// Leaves that hang, of those a clean tree would have.
    ///
    /// # Source
    /// A definition.
    pub fn hanging(&self) -> Option<Fraction> {
        self.of_a_clean_tree(|_| 1.0)
    }

    /// Green leaf area that hangs, of that of a clean tree.
    ///
    /// # Source
    /// A definition.
    pub fn green(&self) -> Option<Fraction> {
        self.of_a_clean_tree(|leaf| 1.0 - leaf.rusted())
    }

    fn of_a_clean_tree(&self, area: impl Fn(&Leaf) -> f64) -> Option<Fraction> {
        let left: f64 = self.hanging_leaves().map(area).sum();
        (!self.leaves.is_empty()).then(|| Fraction::saturating(left / self.leaves.len() as f64))
    }

    fn hanging_leaves(&self) -> impl Iterator<Item = &Leaf> {
        self.leaves.iter().filter(|leaf| leaf.hangs(self.day))
    }

    /// New leaves open; those past a healthy life are gone from a clean tree too.
    fn grow(&mut self, mean: Celsius) {
        let (day, life) = (self.day, self.parameters.healthy_life.value());
        self.leaves.retain(|leaf| day - leaf.opened < life);
        self.next_leaf += leaves_a_day(mean, &self.parameters);
        if self.next_leaf >= 1.0 {
            self.next_leaf -= 1.0;
            self.open_leaf();
        }
    }

    fn open_leaf(&mut self) {
        self.leaves.push(Leaf {
            opened: self.day,
            hidden: self.hidden.iter().map(|_| 0.0).collect(),
            showing: 0.0,
            falls: self.day + self.parameters.healthy_life.value(),
        });
    }

    /// Infections a latent period old begin to show.
    fn show(&mut self, mean: Celsius) {
        let progress = 1.0 / latent_period(mean).value();
        self.hidden.iter_mut().for_each(|gone_by| *gone_by += progress);
        while self.hidden.front().is_some_and(|gone_by| *gone_by >= RIPE) {
            self.hidden.pop_front();
            for leaf in &mut self.leaves {
                leaf.showing += leaf.hidden.pop_front().unwrap_or(0.0);
            }
        }
    }

    fn infect(&mut self, day: &CanopyDay) {
        let spores = self.spores() * day.infection.value();
        self.hidden.push_back(0.0);
        for leaf in &mut self.leaves {
            let age = Days::new(self.day - leaf.opened);
            let bare = match day.spray {
                Some(spray) if spray.age <= age => protection(spray.cover, &self.parameters).complement(),
                _ => Fraction::WHOLE,
            };
            leaf.hidden.push_back(spores * susceptibility(age, &self.parameters).of(bare).value());
        }
    }

    /// Spores about, as the density of lesions they would bring to a young bare leaf in the best night.
    fn spores(&self) -> f64 {
        let rusted: f64 = self.leaves.iter().map(Leaf::rusted).sum();
        let share = rusted / self.leaves.len().max(1) as f64;
        self.parameters.airborne * self.spores_about + self.parameters.own * share
    }

    /// Rust brings the fall of a leaf nearer, and nothing puts it off again.
    fn doom(&mut self) {
        let (day, parameters) = (self.day, self.parameters);
        for leaf in self.leaves.iter_mut().filter(|leaf| leaf.hangs(day)) {
            leaf.falls = leaf.falls.min(leaf.fall_as_it_is(day, &parameters));
        }
    }
}

impl Leaf {
    fn rusted(&self) -> f64 {
        covered(self.showing)
    }

    fn hangs(&self, day: f64) -> bool {
        self.falls > day
    }

    /// When the leaf would fall, as rusted as it is now: marked by rust it has a shorter life, but hangs a
    /// while yet; heavily rusted it has only that while.
    fn fall_as_it_is(&self, day: f64, parameters: &CanopyParameters) -> f64 {
        let rusted = self.rusted();
        let after_heavy = day + parameters.hangs_on.value();
        if rusted >= parameters.heavy.value() {
            return after_heavy.min(self.opened + parameters.healthy_life.value());
        }
        let marked = (rusted / parameters.marked.value()).min(1.0);
        let life = parameters.healthy_life - parameters.life_lost * marked;
        let by_age = self.opened + life.value();
        by_age.max(after_heavy).min(self.opened + parameters.healthy_life.value())
    }
}

/// The share of a leaf that a density of lesions covers.
fn covered(density: f64) -> f64 {
    -(-density).exp_m1()
}

fn mean(shares: impl Iterator<Item = f64>) -> Option<Fraction> {
    let (sum, count) = shares.fold((0.0, 0_u32), |(sum, count), share| (sum + share, count + 1));
    (count > 0).then(|| Fraction::saturating(sum / f64::from(count)))
}

#[cfg(test)]
mod tests;
