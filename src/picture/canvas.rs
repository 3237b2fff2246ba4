//! Paper, pen and letters.

use std::sync::LazyLock;

use ab_glyph::{Font, FontRef, ScaleFont, point};
use tiny_skia::{
    FillRule, LineCap, LineJoin, Paint, PathBuilder, Pixmap, PremultipliedColorU8, Rect, Stroke, StrokeDash,
    Transform,
};

use super::PictureError;
use super::ink::{self, Ink};

static REGULAR: LazyLock<Option<FontRef<'static>>> =
    LazyLock::new(|| FontRef::try_from_slice(include_bytes!("letters/DejaVuSansCondensed.ttf")).ok());
static BOLD: LazyLock<Option<FontRef<'static>>> =
    LazyLock::new(|| FontRef::try_from_slice(include_bytes!("letters/DejaVuSansCondensed-Bold.ttf")).ok());

pub(super) struct Canvas {
    pixels: Pixmap,
    regular: &'static FontRef<'static>,
    bold: &'static FontRef<'static>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Weight {
    Regular,
    Bold,
}

/// Where a text stands to its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Left,
    Middle,
    Right,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Letters {
    pub(super) size: f32,
    pub(super) weight: Weight,
    pub(super) ink: Ink,
    pub(super) anchor: Anchor,
}

impl Letters {
    pub(super) const fn plain(size: f32) -> Self {
        Letters { size, weight: Weight::Regular, ink: ink::TEXT, anchor: Anchor::Left }
    }

    pub(super) const fn bold(self) -> Self {
        Letters { weight: Weight::Bold, ..self }
    }

    pub(super) const fn ink(self, ink: Ink) -> Self {
        Letters { ink, ..self }
    }

    pub(super) const fn anchored(self, anchor: Anchor) -> Self {
        Letters { anchor, ..self }
    }
}

/// A box by its corners.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Area {
    pub(super) left: f32,
    pub(super) top: f32,
    pub(super) right: f32,
    pub(super) bottom: f32,
}

impl Canvas {
    pub(super) fn new(width: u32, height: u32) -> Result<Self, PictureError> {
        let mut pixels = Pixmap::new(width, height)
            .ok_or_else(|| PictureError::Image(format!("{width} by {height} points")))?;
        pixels.fill(ink::PAPER.color());
        let regular = REGULAR.as_ref().ok_or(PictureError::Letters)?;
        let bold = BOLD.as_ref().ok_or(PictureError::Letters)?;
        Ok(Self { pixels, regular, bold })
    }

    pub(super) fn png(&self) -> Result<Vec<u8>, PictureError> {
        self.pixels.encode_png().map_err(|error| PictureError::Image(error.to_string()))
    }

    pub(super) fn width(&self) -> f32 {
        self.pixels.width() as f32
    }

    /// Narrower than a point, a box is drawn a point wide: an hour must not vanish.
    pub(super) fn fill(&mut self, area: Area, ink: Ink) {
        let (right, bottom) = (area.right.max(area.left + 1.0), area.bottom.max(area.top + 1.0));
        if let Some(rect) = Rect::from_ltrb(area.left, area.top, right, bottom) {
            self.pixels.fill_rect(rect, &paint(ink), Transform::identity(), None);
        }
    }

    pub(super) fn line(&mut self, points: &[(f32, f32)], width: f32, ink: Ink) {
        self.stroke(points, Stroke { width, ..round() }, ink);
    }

    pub(super) fn dashes(&mut self, points: &[(f32, f32)], width: f32, ink: Ink) {
        let dash = StrokeDash::new(vec![3.0 * width, 3.0 * width], 0.0);
        self.stroke(points, Stroke { width, dash, ..Stroke::default() }, ink);
    }

    fn stroke(&mut self, points: &[(f32, f32)], stroke: Stroke, ink: Ink) {
        let Some((first, rest)) = points.split_first() else { return };
        let mut path = PathBuilder::new();
        path.move_to(first.0, first.1);
        for (x, y) in rest {
            path.line_to(*x, *y);
        }
        if let Some(path) = path.finish() {
            self.pixels.stroke_path(&path, &paint(ink), &stroke, Transform::identity(), None);
        }
    }

    /// The shape between a line and a level below it.
    pub(super) fn shape(&mut self, points: &[(f32, f32)], level: f32, ink: Ink) {
        let (Some(first), Some(last)) = (points.first(), points.last()) else { return };
        let mut path = PathBuilder::new();
        path.move_to(first.0, level);
        for (x, y) in points {
            path.line_to(*x, *y);
        }
        path.line_to(last.0, level);
        path.close();
        if let Some(path) = path.finish() {
            self.pixels.fill_path(&path, &paint(ink), FillRule::Winding, Transform::identity(), None);
        }
    }

    pub(super) fn dot(&mut self, center: (f32, f32), radius: f32, ink: Ink) {
        if let Some(path) = PathBuilder::from_circle(center.0, center.1, radius) {
            self.pixels.fill_path(&path, &paint(ink), FillRule::Winding, Transform::identity(), None);
        }
    }

    pub(super) fn ring(&mut self, center: (f32, f32), radius: f32, ink: Ink) {
        self.dot(center, radius, ink);
        self.dot(center, radius * 0.55, ink::PAPER);
    }

    /// Text whose base line runs through the point; what would leave the paper is pushed back onto it.
    pub(super) fn text(&mut self, point: (f32, f32), letters: Letters, text: &str) {
        let width = self.measure(letters, text);
        let left = match letters.anchor {
            Anchor::Left => point.0,
            Anchor::Middle => point.0 - width / 2.0,
            Anchor::Right => point.0 - width,
        };
        const EDGE: f32 = 6.0;
        let left = left.min(self.width() - width - EDGE).max(EDGE);
        self.letters((left, point.1), letters, text);
    }

    /// Text in letters small enough for the width of the paper.
    pub(super) fn heading(&mut self, point: (f32, f32), letters: Letters, text: &str) {
        let room = self.width() - 2.0 * point.0;
        let size = letters.size * (room / self.measure(letters, text).max(1.0)).min(1.0);
        self.text(point, Letters { size, ..letters }, text);
    }

    pub(super) fn measure(&self, letters: Letters, text: &str) -> f32 {
        let font = self.font(letters.weight).as_scaled(letters.size);
        shown(text).map(|letter| font.h_advance(known(&font, letter))).sum()
    }

    fn font(&self, weight: Weight) -> &'static FontRef<'static> {
        match weight {
            Weight::Regular => self.regular,
            Weight::Bold => self.bold,
        }
    }

    fn letters(&mut self, (mut x, y): (f32, f32), letters: Letters, text: &str) {
        let font = self.font(letters.weight);
        let scaled = font.as_scaled(letters.size);
        for letter in shown(text) {
            let id = known(&scaled, letter);
            let glyph = id.with_scale_and_position(letters.size, point(x, y));
            x += scaled.h_advance(id);
            let Some(outline) = font.outline_glyph(glyph) else { continue };
            let bounds = outline.px_bounds();
            outline.draw(|column, row, cover| {
                let (x, y) = (bounds.min.x as i64 + i64::from(column), bounds.min.y as i64 + i64::from(row));
                self.blend(x, y, letters.ink, cover);
            });
        }
    }

    fn blend(&mut self, x: i64, y: i64, ink: Ink, cover: f32) {
        let (width, height) = (i64::from(self.pixels.width()), i64::from(self.pixels.height()));
        if !(0..width).contains(&x) || !(0..height).contains(&y) {
            return;
        }
        let index = (y * width + x) as usize;
        let Some(pixel) = self.pixels.pixels_mut().get_mut(index) else { return };
        let mix = |under: u8, over: u8| {
            let cover = cover.clamp(0.0, 1.0);
            (f32::from(under) * (1.0 - cover) + f32::from(over) * cover).round() as u8
        };
        let mixed = PremultipliedColorU8::from_rgba(
            mix(pixel.red(), ink.0),
            mix(pixel.green(), ink.1),
            mix(pixel.blue(), ink.2),
            u8::MAX,
        );
        *pixel = mixed.unwrap_or(*pixel);
    }
}

/// A name can be long; a label is not.
fn shown(text: &str) -> impl Iterator<Item = char> + '_ {
    const LONGEST: usize = 60;
    text.chars().filter(|letter| !letter.is_control()).take(LONGEST)
}

/// The letter, or a question mark where the font has none.
fn known<F: Font, S: ScaleFont<F>>(font: &S, letter: char) -> ab_glyph::GlyphId {
    match font.glyph_id(letter) {
        ab_glyph::GlyphId(0) => font.glyph_id('?'),
        id => id,
    }
}

fn paint(ink: Ink) -> Paint<'static> {
    let mut paint = Paint { anti_alias: true, ..Paint::default() };
    paint.set_color(ink.color());
    paint
}

fn round() -> Stroke {
    Stroke { line_cap: LineCap::Round, line_join: LineJoin::Round, ..Stroke::default() }
}
