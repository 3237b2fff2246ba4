use crate::season::answer::{FrostBasis, GardenView};
use crate::season::facts::Facts;
use crate::season::respond::missing;

pub(super) fn view(facts: &Facts) -> GardenView {
    let garden = &facts.garden;
    let normal = facts.normals.and_then(|normals| normals.first_median);
    GardenView {
        name: garden.name.clone(),
        place: garden.place.clone(),
        position: garden.position,
        zone: garden.zone.map(|zone| zone.name().to_owned()),
        units: garden.units,
        morning: garden.morning,
        first_frost: garden.first_frost.or(normal),
        frost_basis: match (garden.first_frost, normal) {
            (Some(_), _) => Some(FrostBasis::Own),
            (None, Some(_)) => Some(FrostBasis::Normals),
            (None, None) => None,
        },
        last_frost: garden.last_frost,
        trees: garden.trees.clone(),
        products: garden.products.clone(),
        people: garden.people.iter().map(|person| (person.name.clone(), person.role)).collect(),
        missing: missing(garden, facts.normals.is_some()),
    }
}
