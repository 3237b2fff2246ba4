//! Water in the root zone of a tree in the ground.

use crate::units::{Fraction, Hours, Litres, Metres, Millimetres, SquareMetres};

/// What a soil holds between field capacity and wilting, as part of its volume ([FAO56] table 19, middles).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoilKind {
    Sand,
    SandyLoam,
    Loam,
    ClayLoam,
}

/// A root zone as the balance sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RootZone {
    pub soil: SoilKind,
    /// Figs root shallow: 0.6 to 1.0 m ([TEX]); 0.8 by default.
    pub depth: Metres,
    pub mulch: GroundCover,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroundCover {
    Bare,
    Mulched,
}

pub const USUAL_DEPTH: Metres = Metres::new(0.8);
/// Part of the total that a tree takes up without stress ([FAO56] table 22, deciduous fruit; at ETc 5 mm/d).
const EASY: f64 = 0.5;
/// What mulch saves of the crop's use ([SOU14]: 465.8 mm bare, 409.4 mm mulched).
const MULCH_SAVES: f64 = 0.12;

/// Crop coefficients of a bearing fig tree through its season: the stone-fruit row without ground cover
/// ([FAO56] table 12).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CropStage {
    Initial,
    Middle,
    End,
}

/// Water between field capacity and wilting in the root zone.
///
/// # Source
/// [FAO56] equation 82 with the middles of table 19.
pub fn total_available(zone: &RootZone) -> Millimetres {
    let part = match zone.soil {
        SoilKind::Sand => 0.07,
        SoilKind::SandyLoam => 0.13,
        SoilKind::Loam => 0.155,
        SoilKind::ClayLoam => 0.175,
    };
    Millimetres::new(1000.0 * part * zone.depth.value())
}

/// The part of it a tree takes up easily at a rate of use.
///
/// # Source
/// [FAO56] equation 83 and the adjustment beside table 22, p kept within 0.1 to 0.8.
pub fn readily_available(zone: &RootZone, use_a_day: Millimetres) -> Millimetres {
    let part = (EASY + 0.04 * (5.0 - use_a_day.value())).clamp(0.1, 0.8);
    total_available(zone) * part
}

/// How much a tree's use falls as the soil dries: 1 while water is easy, 0 at wilting.
///
/// # Source
/// [FAO56] equation 84.
pub fn stress(zone: &RootZone, depletion: Millimetres, use_a_day: Millimetres) -> Fraction {
    let (total, ready) = (total_available(zone), readily_available(zone, use_a_day));
    if depletion <= ready {
        return Fraction::WHOLE;
    }
    Fraction::saturating((total - depletion) / (total - ready))
}

/// A tree's use on a day, from reference evaporation, stage, shaded ground and leaves left.
///
/// # Source
/// [FAO56] table 12 (0.55, 0.90, 0.65); reduction for small crowns [FER81], from memory, not re-read; leaf loss
/// and mulch as the module says.
pub fn crop_use(
    evaporation: Millimetres,
    stage: CropStage,
    shaded: Fraction,
    leaves: Fraction,
    mulch: GroundCover,
) -> Millimetres {
    let coefficient = match stage {
        CropStage::Initial => 0.55,
        CropStage::Middle => 0.90,
        CropStage::End => 0.65,
    };
    let small_crown = (2.0 * shaded.value()).min(1.0);
    let leaf_loss = 0.3 + 0.7 * leaves.value();
    let saving = if mulch == GroundCover::Mulched { 1.0 - MULCH_SAVES } else { 1.0 };
    evaporation * (coefficient * small_crown * leaf_loss * saving)
}

/// Depletion after a day. Rain of less than a fifth of the evaporation does not count; what exceeds field
/// capacity drains away.
///
/// # Source
/// [FAO56] equation 85.
pub fn next_depletion(
    zone: &RootZone,
    depletion: Millimetres,
    evaporation: Millimetres,
    use_a_day: Millimetres,
    rain: Millimetres,
    irrigation: Millimetres,
) -> Millimetres {
    let effective = if rain < evaporation * 0.2 { Millimetres::ZERO } else { rain };
    let used = use_a_day * stress(zone, depletion, use_a_day).value();
    (depletion + used - effective - irrigation).max(Millimetres::ZERO).min(total_available(zone))
}

/// Litres that replace a depth over the ground a tree roots in, and how long a drip takes for it.
///
/// # Source
/// Arithmetic, with 90 % application efficiency for drip ([FAO56]-companion practice; common practice).
pub fn drip_time(
    depth: Millimetres,
    ground: SquareMetres,
    emitters: u32,
    flow_an_hour: Litres,
) -> Option<Hours> {
    const EFFICIENCY: f64 = 0.90;
    let flow = flow_an_hour * f64::from(emitters) * EFFICIENCY;
    (flow > Litres::ZERO).then(|| Hours::new(depth.over(ground) / flow))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published() {
        // Drip arithmetic: ET0 5, Kc 0.9, Kr 0.7 on 9 m² with four emitters of 2 L/h: 3.15 mm, 28.35 L, 3.94 h.
        let use_a_day = crop_use(
            Millimetres::new(5.0),
            CropStage::Middle,
            Fraction::saturating(0.35),
            Fraction::WHOLE,
            GroundCover::Bare,
        );
        assert!((use_a_day.value() - 3.15).abs() < 0.01, "{use_a_day:?}");
        let ground = SquareMetres::new(9.0);
        assert!((use_a_day.over(ground).value() - 28.35).abs() < 0.02);
        let time = drip_time(use_a_day, ground, 4, Litres::new(2.0)).map_or(f64::NAN, Hours::value);
        assert!((time - 3.94).abs() < 0.02, "{time}");
    }

    #[test]
    fn published_stress() {
        // FAO Irrigation and Drainage Paper 56, example 36: tomato, TAW 116 mm and RAW 44 mm a day; here the
        // same equation with our own zone: depletion halfway between RAW and TAW halves the use.
        let zone = RootZone { soil: SoilKind::Loam, depth: USUAL_DEPTH, mulch: GroundCover::Bare };
        let use_a_day = Millimetres::new(5.0);
        let (total, ready) = (total_available(&zone), readily_available(&zone, use_a_day));
        assert!((ready.value() / total.value() - 0.5).abs() < 1e-9);
        assert_eq!(stress(&zone, ready, use_a_day), Fraction::WHOLE);
        assert!((stress(&zone, (total + ready) / 2.0, use_a_day).value() - 0.5).abs() < 1e-9);
        assert_eq!(stress(&zone, total, use_a_day).value(), 0.0);
    }

    #[test]
    fn the_balance_neither_overflows_nor_runs_below_wilting() {
        let zone = RootZone { soil: SoilKind::Sand, depth: USUAL_DEPTH, mulch: GroundCover::Bare };
        let day = |depletion: f64, rain: f64| {
            next_depletion(
                &zone,
                Millimetres::new(depletion),
                Millimetres::new(5.0),
                Millimetres::new(4.0),
                Millimetres::new(rain),
                Millimetres::ZERO,
            )
            .value()
        };
        assert_eq!(day(10.0, 100.0), 0.0);
        assert_eq!(day(10.0, 0.9), 14.0, "rain under a fifth of the evaporation does not count");
        assert_eq!(day(56.0, 0.0), 56.0, "at wilting nothing more is used");
    }
}
