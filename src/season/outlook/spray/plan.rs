//! What using one product would come to.

use crate::agronomy::infection::InfectionEvent;
use crate::agronomy::spray_hours::SprayWindow;
use crate::season::answer::{BrokenRule, Obstacle};
use crate::season::garden::Product;
use crate::season::outlook::TreeOutlook;
use crate::season::rules::Supply;
use crate::units::Days;

/// When to spray, and the event it is for.
pub(super) struct Choice<'p> {
    pub(super) window: Option<SprayWindow>,
    pub(super) second: Option<SprayWindow>,
    pub(super) event: Option<&'p InfectionEvent>,
}

/// What using one product would come to.
pub(super) struct Plan<'p> {
    pub(super) product: &'p Product,
    /// Those it is for.
    pub(super) trees: Vec<&'p TreeOutlook>,
    /// Those a rule keeps it from, with the rule.
    pub(super) barred: Vec<(&'p TreeOutlook, BrokenRule)>,
    pub(super) window: Option<SprayWindow>,
    pub(super) second: Option<SprayWindow>,
    pub(super) event: Option<&'p InfectionEvent>,
    pub(super) broken: Vec<BrokenRule>,
    /// Whether little of it may still be used this season.
    pub(super) supply: Supply,
    /// There are windows, but the last spray is too recent for any of them.
    pub(super) can_wait: bool,
    pub(super) obstacle: Obstacle,
}

impl<'p> Plan<'p> {
    pub(super) fn without_window(
        product: &'p Product,
        trees: &[&'p TreeOutlook],
        obstacle: Obstacle,
    ) -> Self {
        Plan {
            product,
            trees: trees.to_vec(),
            barred: Vec::new(),
            window: None,
            second: None,
            event: None,
            broken: Vec::new(),
            supply: Supply::Ample,
            can_wait: false,
            obstacle,
        }
    }

    pub(super) fn is_forbidden(&self) -> bool {
        !self.broken.iter().all(only_asks_to_pick_first)
    }

    /// Allowed before forbidden, with a window before without, in time before late, plenty before scarce; the
    /// garden's order otherwise.
    pub(super) fn rank(&self) -> (bool, bool, bool, Supply) {
        (self.is_forbidden(), self.window.is_none(), self.event.is_none(), self.supply)
    }
}

/// A wait of a few days fits between two pickings. common practice.
pub(super) fn only_asks_to_pick_first(rule: &BrokenRule) -> bool {
    const SHORT_WAIT: Days = Days::new(3.0);
    matches!(rule, BrokenRule::BeforeHarvest { wait, .. } if *wait <= SHORT_WAIT)
}
