//! What cold does to the parts of a fig.

use crate::units::Celsius;

/// A part of the tree, by how much cold it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tissue {
    /// Leaves, new shoots, fruit; and young trees altogether.
    NewGrowth,
    /// Wood of a tree that still grows, or that dry soil or late nitrogen kept from hardening.
    SoftWood,
    /// Wood of a grown, leafless tree in the ground.
    HardWood,
    /// Roots in a pot, which hardly harden: outer roots die first. By the air around the pot.
    PotRoots,
}

/// Air temperatures at which harm begins, and at which the part is mostly lost.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColdLimits {
    pub harmed: Celsius,
    pub lost: Celsius,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ColdHarm {
    None,
    Harmed,
    Lost,
}

/// Pots are sheltered when the air is to reach this: their roots do not harden ([FS528]; the figure is
/// common practice, 0 to -7 °C).
pub const POT_SHELTER: Celsius = limits(Tissue::PotRoots).harmed;
/// Wood in the ground is hurt from here on: [USDA87], not adapted where often below 10 °F.
pub const WOOD_IN_GROUND: Celsius = Celsius::new(-12.0);
/// A dormant pot in store is kept between these, dark and almost dry. common practice.
pub const COLD_STORE: (Celsius, Celsius) = (Celsius::new(0.0), Celsius::new(7.0));

/// The limits of a part. Cultivars, age and the weather before differ by several degrees either way.
///
/// # Source
/// [TEX]: grown hardened wood stands about -10 °C, sites below -15 °C (5 °F) are unfit; new growth (-1 to
/// -4 °C), soft wood and pots by common practice.
pub const fn limits(tissue: Tissue) -> ColdLimits {
    let (harmed, lost) = match tissue {
        Tissue::NewGrowth => (-1.0, -4.0),
        Tissue::SoftWood => (-4.0, -7.0),
        Tissue::HardWood => (-10.0, -15.0),
        Tissue::PotRoots => (-4.0, -7.0),
    };
    ColdLimits { harmed: Celsius::new(harmed), lost: Celsius::new(lost) }
}

/// What a night's minimum does to a part.
///
/// # Source
/// The limits of [`limits`].
pub fn cold_harm(tissue: Tissue, minimum: Celsius) -> ColdHarm {
    let limits = limits(tissue);
    match minimum {
        minimum if minimum <= limits.lost => ColdHarm::Lost,
        minimum if minimum <= limits.harmed => ColdHarm::Harmed,
        _ => ColdHarm::None,
    }
}
