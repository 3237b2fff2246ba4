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
        cautions: cautions(product),
    }
}

fn cautions(product: Option<&Product>) -> Vec<Caution> {
    let mut cautions = vec![Caution::LabelFirst, Caution::GlovesAndEyes];
    match product.map(|product| product.active) {
        Some(Active::Sulfur) => cautions.extend([Caution::DustMask, Caution::SulfurAndOil]),
        Some(Active::Copper) => cautions.push(Caution::CopperWater),
        Some(Active::Oil) => cautions.push(Caution::SulfurAndOil),
        Some(Active::Other) | None => {}
    }
    cautions
}
