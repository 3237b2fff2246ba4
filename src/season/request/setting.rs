use chrono::NaiveTime;
use serde::Serialize;

use crate::identity::{PersonId, RoomId};
use crate::season::garden::{
    Active, Bearing, Carrier, CropTime, Footing, Garden, Label, LabelListing, Listening, Mix, Person,
    Product, Quiet, Rate, Role, Shelter, Soil, Stand, Susceptibility, Tree, UnitSystem, YearDay, same_name,
};
use crate::season::thresholds::Limit;
use crate::units::{Celsius, Days, Fraction, Hours, Litres, Metres, Position};

/// One thing settled about the garden. Settings are journal entries like any other, so they can be
/// undone and a garden is what its settings make it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "set", rename_all = "snake_case")]
pub enum Setting {
    Name {
        name: String,
    },
    Position {
        position: Position,
        place: Option<String>,
        /// IANA name; found from the position by whoever has the borders.
        zone: Option<String>,
    },
    /// A place by name, still to be looked up.
    Place {
        name: String,
    },
    FirstFrost {
        date: YearDay,
    },
    LastFrost {
        date: YearDay,
    },
    Units {
        units: UnitSystem,
    },
    Morning {
        time: NaiveTime,
    },
    Quiet {
        quiet: Quiet,
    },
    Listening {
        listening: Listening,
    },
    Tree(TreeDetails),
    RenameTree {
        from: String,
        to: String,
    },
    Product(ProductDetails),
    RemoveProduct {
        name: String,
    },
    Person {
        id: PersonId,
        name: String,
        role: Role,
    },
    RemovePerson {
        id: PersonId,
    },
    /// "Send the briefs here": the room the message stands in.
    Here,
    Room {
        room: RoomId,
    },
    /// A limit the decisions turn on, in the unit the limit is kept in.
    Limit {
        limit: Limit,
        value: f64,
    },
}

/// A tree, new or known: only what is said is changed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct TreeDetails {
    pub name: String,
    pub cultivar: Option<String>,
    pub potted: Option<Potted>,
    #[serde(rename = "litres")]
    pub volume: Option<Litres>,
    #[serde(rename = "width_m")]
    pub width: Option<Metres>,
    pub bearing: Option<Bearing>,
    pub crop: Option<CropTime>,
    pub susceptibility: Option<Susceptibility>,
    pub groups: Vec<String>,
    pub mix: Option<Mix>,
    pub shelter: Option<Shelter>,
    pub footing: Option<Footing>,
    pub soil: Option<Soil>,
    #[serde(rename = "mulch_m")]
    pub mulch: Option<Metres>,
    #[serde(rename = "compost_m")]
    pub compost: Option<Metres>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Potted {
    InPot,
    InGround,
}

/// A product, new or known: only what is said is changed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ProductDetails {
    pub name: String,
    pub active: Option<Active>,
    pub carrier: Option<Carrier>,
    pub copper_content: Option<Fraction>,
    pub rate: Option<Rate>,
    #[serde(rename = "interval_days")]
    pub interval: Option<Days>,
    pub most_applications: Option<u32>,
    #[serde(rename = "days_before_harvest")]
    pub before_harvest: Option<Days>,
    #[serde(rename = "hours_before_reentry")]
    pub before_reentry: Option<Hours>,
    #[serde(rename = "hottest_c")]
    pub hottest: Option<Celsius>,
    pub lists_figs: Option<LabelListing>,
}

impl Setting {
    /// Only a keeper may settle things; this is what it does to the garden.
    pub fn apply(&self, garden: &mut Garden) {
        match self {
            Setting::Name { name } => garden.name.clone_from(name),
            Setting::Position { position, place, zone } => {
                garden.position = Some(position.rounded());
                garden.place.clone_from(place);
                garden.zone = zone.as_deref().and_then(|zone| zone.parse().ok());
            }
            // Nothing is known of these until they are looked up, which settles a position or a room.
            Setting::Place { .. } | Setting::Here => {}
            Setting::Limit { limit, value } => garden.thresholds.set(*limit, *value),
            Setting::Room { room } => garden.room = Some(room.clone()),
            Setting::FirstFrost { date } => garden.first_frost = Some(*date),
            Setting::LastFrost { date } => garden.last_frost = Some(*date),
            Setting::Units { units } => garden.units = *units,
            Setting::Morning { time } => garden.morning = *time,
            Setting::Quiet { quiet } => garden.quiet = *quiet,
            Setting::Listening { listening } => garden.listening = *listening,
            Setting::Tree(details) => details.apply(garden),
            Setting::RenameTree { from, to } => {
                for tree in garden.trees.iter_mut().filter(|tree| same_name(&tree.name, from)) {
                    tree.name.clone_from(to);
                }
            }
            Setting::Product(details) => details.apply(garden),
            Setting::RemoveProduct { name } => {
                garden.products.retain(|product| !same_name(&product.name, name));
            }
            Setting::Person { id, name, role } => {
                garden.people.retain(|person| &person.id != id);
                garden.people.push(Person { id: id.clone(), name: name.clone(), role: *role });
            }
            Setting::RemovePerson { id } => garden.people.retain(|person| &person.id != id),
        }
    }
}

impl TreeDetails {
    fn apply(&self, garden: &mut Garden) {
        let position = garden.trees.iter().position(|tree| same_name(&tree.name, &self.name));
        let index = position.unwrap_or_else(|| {
            garden.trees.push(Tree::new(self.name.trim(), Stand::ground()));
            garden.trees.len() - 1
        });
        let tree = &mut garden.trees[index];
        replace_some(&mut tree.cultivar, &self.cultivar);
        replace_some(&mut tree.width, &self.width);
        replace(&mut tree.bearing, self.bearing);
        replace(&mut tree.crop, self.crop);
        replace(&mut tree.susceptibility, self.susceptibility);
        for group in &self.groups {
            if !tree.groups.iter().any(|known| same_name(known, group)) {
                tree.groups.push(group.clone());
            }
        }
        self.apply_stand(&mut tree.stand);
    }

    fn apply_stand(&self, stand: &mut Stand) {
        let says_pot = self.potted == Some(Potted::InPot) || (self.potted.is_none() && self.volume.is_some());
        match stand {
            Stand::Ground { .. } if says_pot => *stand = Stand::pot(self.volume),
            Stand::Pot { .. } if self.potted == Some(Potted::InGround) => *stand = Stand::ground(),
            _ => {}
        }
        match stand {
            Stand::Pot { volume, mix, shelter, mulch, ground_below } => {
                replace_some(volume, &self.volume);
                replace(mix, self.mix);
                replace(shelter, self.shelter);
                replace_some(mulch, &self.mulch);
                replace(ground_below, self.footing);
            }
            Stand::Ground { soil, compost, mulch } => {
                replace(soil, self.soil);
                replace_some(compost, &self.compost);
                replace_some(mulch, &self.mulch);
            }
        }
    }
}

impl ProductDetails {
    fn apply(&self, garden: &mut Garden) {
        let position = garden.products.iter().position(|product| same_name(&product.name, &self.name));
        let index = position.unwrap_or_else(|| {
            garden.products.push(Product::new(self.name.trim(), self.active.unwrap_or(Active::Other)));
            garden.products.len() - 1
        });
        let product = &mut garden.products[index];
        replace(&mut product.active, self.active);
        replace(&mut product.carrier, self.carrier);
        replace_some(&mut product.copper_content, &self.copper_content);
        let Label { rate, interval, most_applications, before_harvest, before_reentry, hottest, lists_figs } =
            &mut product.label;
        replace_some(rate, &self.rate);
        replace_some(interval, &self.interval);
        replace_some(most_applications, &self.most_applications);
        replace_some(before_harvest, &self.before_harvest);
        replace_some(before_reentry, &self.before_reentry);
        replace_some(hottest, &self.hottest);
        replace_some(lists_figs, &self.lists_figs);
    }
}

fn replace<T: Copy>(slot: &mut T, said: Option<T>) {
    if let Some(said) = said {
        *slot = said;
    }
}

fn replace_some<T: Clone>(slot: &mut Option<T>, said: &Option<T>) {
    if said.is_some() {
        slot.clone_from(said);
    }
}
