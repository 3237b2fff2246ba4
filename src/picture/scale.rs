//! From quantities to places on the paper.

/// A straight line from one range to another. Values outside land at its ends, never off the paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) start: f32,
    pub(super) end: f32,
}

impl Scale {
    pub(super) fn at(&self, value: f64) -> f32 {
        let span = self.to - self.from;
        let part = if span > 0.0 { ((value - self.from) / span).clamp(0.0, 1.0) } else { 0.0 };
        // A value nobody knows lands at the start rather than nowhere.
        let part = if part.is_finite() { part as f32 } else { 0.0 };
        self.start + part * (self.end - self.start)
    }
}

/// The least and greatest of known values.
pub(super) fn extent(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.filter(|value| value.is_finite()).fold(None, |extent, value| match extent {
        None => Some((value, value)),
        Some((least, most)) => Some((value.min(least), value.max(most))),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_leaves_the_paper() {
        let scale = Scale { from: 0.0, to: 10.0, start: 100.0, end: 50.0 };
        let rows = [(0.0, 100.0), (5.0, 75.0), (10.0, 50.0), (-3.0, 100.0), (99.0, 50.0), (f64::NAN, 100.0)];
        for (value, want) in rows {
            assert_eq!(scale.at(value), want, "{value}");
        }
        let flat = Scale { from: 4.0, to: 4.0, start: 0.0, end: 9.0 };
        assert_eq!(flat.at(4.0), 0.0);
        assert_eq!(extent([f64::NAN, 2.0, -1.0].into_iter()), Some((-1.0, 2.0)));
        assert_eq!(extent(std::iter::empty()), None);
    }
}
