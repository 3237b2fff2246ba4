//! Settings into the journal, and what set-up still lacks.

use super::Conversation;
use crate::season::answer::Missing;
use crate::season::facts::Errand;
use crate::season::garden::{Active, Garden, Product, Role, Stand, UnitSystem};
use crate::season::journal::{Entry, Timing, What};
use crate::season::request::{Setting, TreeDetails};

impl Conversation<'_> {
    pub(super) fn set(&mut self, setting: &Setting) {
        if let Setting::Place { name } = setting {
            self.outcome.errand = Some(Errand::FindPlace { name: name.clone() });
            return;
        }
        if *setting == Setting::Here {
            return self.set(&Setting::Room { room: self.heard.room.clone() });
        }
        if self.facts.garden.people.is_empty() {
            self.settle(Setting::Person {
                id: self.heard.from.clone(),
                name: self.heard.called.clone().unwrap_or_else(|| self.heard.from.to_string()),
                role: Role::Keeper,
            });
        }
        self.settle(setting.clone());
        // A tree planted and then told of is noted once, as it stands now.
        if let Setting::Tree(details) = setting {
            self.settled.retain(|known| {
                let bare = TreeDetails { name: details.name.clone(), ..TreeDetails::default() };
                *known != Setting::Tree(bare)
            });
        }
        self.settled.push(setting.clone());
        if let Setting::Position { zone: Some(zone), .. } = setting
            && !self.units_are_settled()
        {
            let units = Setting::Units { units: usual_units(zone) };
            self.settle(units.clone());
            self.settled.push(units);
        }
    }

    fn units_are_settled(&self) -> bool {
        let mut entries = self.facts.journal.standing();
        entries.any(|(_, entry)| matches!(entry.what, What::Setting(Setting::Units { .. })))
    }

    fn settle(&mut self, setting: Setting) {
        self.enter(Entry {
            who: self.heard.from.clone(),
            event: self.event.clone(),
            said: self.heard.at,
            happened: self.heard.at,
            timing: Timing::Assumed,
            what: What::Setting(setting),
        });
        self.facts.garden = self.facts.journal.garden();
    }
}

/// What growers of a place measure in, by its zone, until they say otherwise.
fn usual_units(zone: &str) -> UnitSystem {
    // Zones of the United States: IANA time zone database, `zone.tab`, country code US.
    const PARTS: [&str; 3] = ["America/Indiana/", "America/Kentucky/", "America/North_Dakota/"];
    const ZONES: [&str; 16] = [
        "America/New_York",
        "America/Detroit",
        "America/Chicago",
        "America/Menominee",
        "America/Denver",
        "America/Boise",
        "America/Phoenix",
        "America/Los_Angeles",
        "America/Anchorage",
        "America/Juneau",
        "America/Sitka",
        "America/Metlakatla",
        "America/Yakutat",
        "America/Nome",
        "America/Adak",
        "Pacific/Honolulu",
    ];
    if ZONES.contains(&zone) || PARTS.iter().any(|part| zone.starts_with(part)) {
        UnitSystem::Us
    } else {
        UnitSystem::Metric
    }
}

pub(super) fn missing(garden: &Garden, normals_known: bool) -> Vec<Missing> {
    let mut missing = Vec::new();
    if garden.position.is_none() {
        missing.push(Missing::Position);
    }
    if garden.trees.is_empty() {
        missing.push(Missing::Trees);
    }
    if garden.products.is_empty() {
        missing.push(Missing::Products);
    }
    if garden.first_frost.is_none() && !normals_known && garden.position.is_some() {
        missing.push(Missing::FrostDate);
    }
    let unlabelled = garden.products.iter().find(|product| lacks_label(product));
    missing.extend(unlabelled.map(|product| Missing::Label { product: product.name.clone() }));
    let unsized_pot = garden.trees.iter().find(|tree| matches!(tree.stand, Stand::Pot { volume: None, .. }));
    missing.extend(unsized_pot.map(|tree| Missing::PotSize { tree: tree.name.clone() }));
    missing
}

fn lacks_label(product: &Product) -> bool {
    let label = &product.label;
    product.active != Active::Oil
        && (label.rate.is_none() || label.interval.is_none() || label.before_harvest.is_none())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_follow_the_place() {
        let rows = [
            ("America/New_York", UnitSystem::Us),
            ("America/Indiana/Knox", UnitSystem::Us),
            ("Pacific/Honolulu", UnitSystem::Us),
            ("America/Toronto", UnitSystem::Metric),
            ("Europe/Rome", UnitSystem::Metric),
            ("Australia/Melbourne", UnitSystem::Metric),
        ];
        for (zone, want) in rows {
            assert_eq!(usual_units(zone), want, "{zone}");
        }
    }
}
