//! The colours, each for one thing.

use tiny_skia::Color;

use crate::season::answer::InfectionGrade;

pub(super) const PAPER: Ink = Ink(0xf7, 0xf3, 0xea);
pub(super) const NIGHT: Ink = Ink(0xe9, 0xe3, 0xd6);
pub(super) const RULE: Ink = Ink(0xd3, 0xcb, 0xba);
pub(super) const TEXT: Ink = Ink(0x2c, 0x2a, 0x33);
pub(super) const QUIET: Ink = Ink(0x77, 0x70, 0x66);
pub(super) const WARMTH: Ink = Ink(0x7a, 0x2e, 0x4d);
pub(super) const RAIN: Ink = Ink(0x3c, 0x6a, 0x8e);
pub(super) const WET: Ink = Ink(0x9d, 0xbb, 0xcb);
pub(super) const COVER: Ink = Ink(0xa9, 0xb9, 0xb4);
pub(super) const SPRAY: Ink = Ink(0x2f, 0x5d, 0x62);
pub(super) const FIG: Ink = Ink(0x5b, 0x3a, 0x6b);

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Ink(pub(super) u8, pub(super) u8, pub(super) u8);

impl Ink {
    pub(super) fn color(self) -> Color {
        Color::from_rgba8(self.0, self.1, self.2, 0xff)
    }
}

/// The darker, the worse.
pub(super) fn rust(grade: InfectionGrade) -> Ink {
    match grade {
        InfectionGrade::Trace => Ink(0xe2, 0xc5, 0x9f),
        InfectionGrade::Moderate => Ink(0xc6, 0x8a, 0x4e),
        InfectionGrade::Severe => Ink(0x8a, 0x48, 0x20),
    }
}
