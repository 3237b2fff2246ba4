use crate::season::answer::{Apart, Caution, MixAnswer, MixMissing, TogetherAnswer};
use crate::season::facts::Facts;
use crate::season::garden::{Active, Carrier, Garden, Product, Rate};
use crate::season::request::Partner;
use crate::units::Litres;

/// The label's rate for a volume. A rate is the grower's own entry; there is no other.
pub(super) fn mix(facts: &Facts, product: Option<&str>, volume: Option<Litres>) -> MixAnswer {
    let garden = &facts.garden;
    let product = match product {
        Some(name) => garden.product(name),
        None if garden.products.len() == 1 => garden.products.first(),
        None => None,
    };
    let rate = product.and_then(|product| product.label.rate);
    let amount = rate.zip(volume).map(|(rate, volume)| {
        let (Rate::GramsPerLitre(rate) | Rate::MillilitresPerLitre(rate)) = rate;
        rate * volume.value()
    });
    let mut missing = Vec::new();
    match product {
        None => missing.push(MixMissing::Product),
        Some(_) if rate.is_none() => missing.push(MixMissing::Rate),
        Some(_) => {}
    }
    if volume.is_none() {
        missing.push(MixMissing::Volume);
    }
    MixAnswer {
        product: product.map(|product| product.name.clone()),
        rate,
        volume,
        amount,
        missing,
        cautions: cautions(product, rate),
    }
}

/// Sulfur and oil burn leaves; of every other pair the labels decide.
pub(super) fn together(facts: &Facts, one: &Partner, other: &Partner) -> TogetherAnswer {
    let garden = &facts.garden;
    let burn =
        is_sulfur(garden, one) && is_oily(garden, other) || is_oily(garden, one) && is_sulfur(garden, other);
    let apart = burn.then_some(Apart {
        usually: garden.thresholds.sulfur_oil_apart,
        in_heat: garden.thresholds.sulfur_oil_apart_hot,
    });
    TogetherAnswer { one: one.name.clone(), other: other.name.clone(), apart }
}

fn is_sulfur(garden: &Garden, partner: &Partner) -> bool {
    partner.active == Some(Active::Sulfur)
        || garden.product(&partner.name).is_some_and(|product| product.active == Active::Sulfur)
}

fn is_oily(garden: &Garden, partner: &Partner) -> bool {
    partner.active == Some(Active::Oil)
        || garden
            .product(&partner.name)
            .is_some_and(|product| product.active == Active::Oil || product.carrier == Carrier::Oil)
}

/// Mixing handles the concentrate: what is weighed out is a powder and dusts.
fn cautions(product: Option<&Product>, rate: Option<Rate>) -> Vec<Caution> {
    let active = product.map(|product| product.active);
    let mut cautions = vec![Caution::LabelFirst, Caution::GlovesAndEyes];
    if active == Some(Active::Sulfur) || matches!(rate, Some(Rate::GramsPerLitre(_))) {
        cautions.push(Caution::DustMask);
    }
    match active {
        Some(Active::Sulfur | Active::Oil) => cautions.push(Caution::SulfurAndOil),
        Some(Active::Copper) => cautions.push(Caution::CopperWater),
        Some(Active::Other) | None => {}
    }
    cautions.push(Caution::Emergency);
    cautions
}
