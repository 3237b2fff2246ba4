//! What the canopy model turns on, each figure with where it is from, and how far it may be off.

use crate::units::{Celsius, Days, Fraction};

/// How readily rust spreads, within what is published: the three together give a range. What is uncertain goes
/// about half of the way to its end in each, as all of it at its end at once is hardly ever so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Course {
    Mild,
    Likely,
    Fierce,
}

impl Course {
    pub const ALL: [Course; 3] = [Course::Mild, Course::Likely, Course::Fierce];
}

/// The canopy model's parameters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CanopyParameters {
    /// A shoot in warm weather opens a leaf in this time. common practice (4 to 5 days).
    pub leaf_every: Days,
    /// Daily mean below which none opens, and from which growth is full. common practice.
    pub growth_from: Celsius,
    pub growth_full: Celsius,
    /// A leaf takes rust most readily up to this age [VIE25].
    pub young_until: Days,
    /// ... and as an old leaf from this one on; the published span ends at a healthy life [VIE25].
    pub old_from: Days,
    /// What an old leaf takes of what a young one would. An assumption.
    pub old_susceptibility: Fraction,
    /// A leaf without rust lives so long [VIE25]: 90 to 100 days.
    pub healthy_life: Days,
    /// A leaf rusted young falls so much earlier [VIE25]: 40 to 60 days, which leaves it 40 to 50 in all.
    pub life_lost: Days,
    /// Rusted share at which all of that life is lost. An assumption: the middle of class 2 of [SIL19].
    pub marked: Fraction,
    /// Rusted share from which a leaf is heavily rusted. An assumption: where class 4 of [SIL19] begins.
    pub heavy: Fraction,
    /// Once heavily rusted, a leaf hangs so long. Published for a whole canopy are 14 to 21 days ([ARK28], [TNAU]),
    /// and its leaves become heavily rusted within some days of each other.
    pub hangs_on: Days,
    /// Density of lesions that spores from elsewhere bring to a young bare leaf in the best night. Nothing is
    /// published; so chosen that in a year of Newark, where winter kills the leaves, rust is noticed from the end of
    /// July on ([LSU] has late summer).
    pub airborne: f64,
    /// The same from a canopy all rusted. Fitted to [UFV]: 20 to 30 days from first spots to a canopy covered.
    pub own: f64,
    /// What the best spray holds off; leaf undersides are hard to reach. An assumption.
    pub best_protection: Fraction,
    /// So much of a full deposit halves infection. An assumption; half of one is held to be enough still.
    pub halving_deposit: Fraction,
}

impl CanopyParameters {
    /// The parameters of a course the rust may take.
    ///
    /// # Source
    /// Ranges of [VIE25], [UFV], [ARK28] and [TNAU], field by field above.
    pub fn of(course: Course) -> Self {
        let likely = Self {
            leaf_every: Days::new(4.5),
            growth_from: Celsius::new(10.0),
            growth_full: Celsius::new(20.0),
            young_until: Days::new(45.0),
            old_from: Days::new(90.0),
            old_susceptibility: Fraction::saturating(0.3),
            healthy_life: Days::new(95.0),
            life_lost: Days::new(50.0),
            marked: Fraction::saturating(0.10),
            heavy: Fraction::saturating(0.25),
            hangs_on: Days::new(16.0),
            airborne: 2e-5,
            own: 2.0,
            best_protection: Fraction::saturating(0.9),
            halving_deposit: Fraction::saturating(0.2),
        };
        match course {
            Course::Mild => Self {
                healthy_life: Days::new(100.0),
                hangs_on: Days::new(18.0),
                airborne: 1e-5,
                own: 1.7,
                best_protection: Fraction::saturating(0.93),
                halving_deposit: Fraction::saturating(0.18),
                ..likely
            },
            Course::Likely => likely,
            Course::Fierce => Self {
                healthy_life: Days::new(90.0),
                hangs_on: Days::new(14.0),
                airborne: 4e-5,
                own: 2.5,
                best_protection: Fraction::saturating(0.87),
                halving_deposit: Fraction::saturating(0.22),
                ..likely
            },
        }
    }

    /// The same on a cultivar that takes a share of the rust a susceptible one does.
    ///
    /// # Source
    /// common practice: growers rank cultivars; no figure is published.
    #[must_use]
    pub fn on_cultivar(self, share: Fraction) -> Self {
        Self { airborne: self.airborne * share.value(), own: self.own * share.value(), ..self }
    }
}
