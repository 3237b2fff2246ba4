use std::fmt;

use crate::units::Position;

/// A hundredth of a degree each way: gardens in the same one share a fetch, and nothing finer
/// than this leaves the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cell {
    /// Hundredths of a degree, north positive.
    north: i32,
    /// Hundredths of a degree, east positive, -18000 to 17999.
    east: i32,
}

impl Cell {
    pub fn of(position: Position) -> Self {
        let hundredths = |degrees: f64| (degrees * 100.0).round() as i32;
        let east = hundredths(position.longitude.value());
        Self {
            north: hundredths(position.latitude.value()),
            // 180° east and 180° west are one meridian.
            east: if east == 18_000 { -18_000 } else { east },
        }
    }

    /// Degrees north, as a query writes them: `30.69`.
    pub fn latitude(self) -> String {
        degrees(self.north)
    }

    /// Degrees east, as a query writes them: `-88.04`.
    pub fn longitude(self) -> String {
        degrees(self.east)
    }

    /// A number that belongs to this cell and a purpose, the same on every machine and in every
    /// release: what spreads requests over time without a random source.
    pub(super) fn hash(self, purpose: u64) -> u64 {
        // FNV-1a, 64 bit (Fowler, Noll, Vo), with a final mix so that neighbours differ in all bits.
        let bytes = [self.north.to_le_bytes(), self.east.to_le_bytes()].concat();
        let hash =
            bytes.iter().chain(&purpose.to_le_bytes()).fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
                (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
            });
        (hash ^ (hash >> 32)).wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 16
    }
}

impl fmt::Display for Cell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{},{}", self.latitude(), self.longitude())
    }
}

fn degrees(hundredths: i32) -> String {
    let sign = if hundredths < 0 { "-" } else { "" };
    let size = hundredths.unsigned_abs();
    format!("{sign}{}.{:02}", size / 100, size % 100)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_position_is_sent_as_a_hundredth_of_a_degree() {
        let rows = [
            (30.694_357, -88.043_054, "30.69,-88.04"),
            (-0.004, 0.006, "0.00,0.01"),
            (-0.05, -0.05, "-0.05,-0.05"),
            (-37.75, 144.875, "-37.75,144.88"),
            (90.0, 180.0, "90.00,-180.00"),
        ];
        for (latitude, longitude, expected) in rows {
            let position = Position::new(latitude, longitude).expect("a position");
            assert_eq!(Cell::of(position).to_string(), expected);
            assert_eq!(Cell::of(position.rounded()), Cell::of(position));
        }
    }

    #[test]
    fn the_hash_never_changes() {
        let cell = Cell::of(Position::new(30.69, -88.04).expect("a position"));
        assert_eq!([cell.hash(0), cell.hash(1)], [276_720_441_249_698, 109_722_395_634_622]);
    }
}
