use crate::season::answer::{Caution, MixAnswer, MixMissing};
use crate::season::facts::Facts;
use crate::season::garden::{Active, Product, Rate};
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
