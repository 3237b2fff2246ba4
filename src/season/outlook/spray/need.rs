//! Whether a tree wants a spray, and when it may have one.

use chrono::{DateTime, Utc};

use crate::agronomy::infection::{Grade, InfectionEvent};
use crate::agronomy::spray_hours::SprayLimits;
use crate::season::answer::Worth;
use crate::season::garden::Active;
use crate::season::outlook::{Outlook, TreeOutlook};
use crate::units::{Days, Fraction, Hours};

/// So many leaves opened since the spray leave a shoot open to rust. common practice.
pub(super) const BARE_LEAVES: f64 = 3.0;

/// Leaves seen without a spot are taken as clean so long: the longest latent period ([ANG14]: 13 days).
const CLEAN_FOR: Days = Days::new(14.0);
/// Nobody sprays again sooner, unless rain has taken the last. common practice: 7 to 10 days in rust weather.
const APART: Days = Days::new(7.0);

impl Outlook<'_> {
    /// Wet weather is coming that its cover will not hold against, or it is overdue.
    pub(super) fn wants_spray(&self, tree: &TreeOutlook) -> bool {
        self.unmet(tree).next().is_some() || self.is_overdue(tree)
    }

    /// Wet hours are known five days ahead at most, and dry-looking weeks in rust weather seldom stay so: where
    /// rust is about, a spray long gone is renewed while the weather allows it.
    fn is_overdue(&self, tree: &TreeOutlook) -> bool {
        let rusty = tree.scouted.is_some_and(|look| look.severity > Fraction::NONE);
        let lately = self.now - APART.as_hours().to_duration() * 2;
        tree.worth == Worth::Protect
            && rusty
            && !self.holds(tree, self.now, self.nearly_gone())
            && self.events_past().any(|event| event.to > lately && event.grade >= Grade::Moderate)
    }

    fn nearly_gone(&self) -> Fraction {
        Fraction::saturating(self.thresholds().cover_thin.value() / 2.0)
    }

    /// All events ahead that this tree's cover will not hold against.
    pub(super) fn unmet<'s>(&'s self, tree: &'s TreeOutlook) -> impl Iterator<Item = &'s InfectionEvent> {
        self.events_to_meet().filter(|event| {
            self.cover_wanted(tree, event.grade).is_some_and(|wanted| !self.holds(tree, event.from, wanted))
        })
    }

    /// The cover a tree should have when an infection of a grade comes; `None` where it does not matter. Few
    /// spores, few lesions: leaves lately seen clean may meet a moderate one bare, and with rust about even a
    /// light one finds spores in plenty. The steps are ours, chosen with `tests/outcome.rs`.
    fn cover_wanted(&self, tree: &TreeOutlook, grade: Grade) -> Option<Fraction> {
        let full = self.thresholds().cover_thin;
        match (tree.worth, grade) {
            (Worth::Leave, _) => None,
            (Worth::Protect, Grade::Trace) => self.rust_about(tree).then_some(full),
            (Worth::OnlyIfPressed, Grade::Trace) => None,
            (Worth::Protect, Grade::Moderate) if self.seen_clean(tree) => None,
            (Worth::Protect | Worth::OnlyIfPressed, _) => Some(full),
        }
    }

    /// Whether somebody looked lately and saw no rust at all. Infections younger than a latent period do not
    /// show, so a look is good for about as long.
    fn seen_clean(&self, tree: &TreeOutlook) -> bool {
        tree.scouted
            .is_some_and(|look| look.severity == Fraction::NONE && self.days_since(look.on) <= CLEAN_FOR)
    }

    /// Events a spray can still be on and dry before.
    pub(super) fn events_to_meet(&self) -> impl Iterator<Item = &InfectionEvent> {
        let soonest = self.now + SprayLimits::default().drying_least.to_duration();
        self.events.iter().filter(move |event| event.from > soonest)
    }

    /// Whether this tree is known to have more than a trace of rust, so that a light infection finds spores
    /// in plenty.
    fn rust_about(&self, tree: &TreeOutlook) -> bool {
        tree.scouted.is_some_and(|look| look.severity >= self.thresholds().rust_light)
    }

    /// Whether as much cover as wanted will be left at a moment, rain until then included.
    fn holds(&self, tree: &TreeOutlook, at: DateTime<Utc>, wanted: Fraction) -> bool {
        let Some(spray) = &tree.last_spray else { return false };
        let Some(cover) = self.cover_of(spray, at.max(spray.at)) else { return false };
        let limits = self.thresholds();
        cover.on_sprayed_leaves >= wanted
            && cover.rain < limits.washed_off
            && !(tree.worth == Worth::Protect
                && cover.bare_leaves >= BARE_LEAVES
                && cover.age >= self.rust_interval(spray.active))
    }

    /// Days after which a protectant is renewed in rust weather.
    pub(in crate::season::outlook) fn rust_interval(&self, active: Active) -> Days {
        match active {
            Active::Sulfur => self.thresholds().sulfur_interval_rust,
            Active::Copper | Active::Oil | Active::Other => self.thresholds().copper_interval_rust,
        }
    }

    /// Whether a tree may be sprayed again at a moment: a week after the last, or once rain has taken nearly all of
    /// it.
    pub(super) fn is_due(&self, tree: &TreeOutlook, at: DateTime<Utc>) -> bool {
        tree.last_spray.as_ref().is_none_or(|last| {
            Hours::from_duration(at - last.at).as_days() >= APART || !self.holds(tree, at, self.nearly_gone())
        })
    }
}
