//! Lines of a message, rendered as text and as HTML.

/// A message as it grows.
#[derive(Clone, Debug, Default)]
pub(super) struct Page {
    lines: Vec<Line>,
}

#[derive(Clone, Debug)]
enum Line {
    /// What to do: the first thing read.
    Lead(String),
    Plain(String),
    Item(String),
    /// Cautions and credits.
    Small(String),
    Gap,
}

impl Page {
    pub(super) fn lead(&mut self, text: impl Into<String>) {
        self.push(Line::Lead, text.into());
    }

    pub(super) fn line(&mut self, text: impl Into<String>) {
        self.push(Line::Plain, text.into());
    }

    pub(super) fn item(&mut self, text: impl Into<String>) {
        self.push(Line::Item, text.into());
    }

    pub(super) fn small(&mut self, text: impl Into<String>) {
        self.push(Line::Small, text.into());
    }

    pub(super) fn gap(&mut self) {
        if !matches!(self.lines.last(), None | Some(Line::Gap)) {
            self.lines.push(Line::Gap);
        }
    }

    /// The first line said, whatever it is.
    pub(super) fn first(&self) -> Option<&str> {
        self.lines.iter().find_map(|line| match line {
            Line::Lead(text) | Line::Plain(text) | Line::Item(text) | Line::Small(text) => {
                Some(text.as_str())
            }
            Line::Gap => None,
        })
    }

    fn push(&mut self, line: fn(String) -> Line, text: String) {
        let text = clean(&text);
        if !text.is_empty() {
            self.lines.push(line(text));
        }
    }

    pub(super) fn text(&self) -> String {
        let lines: Vec<String> = self
            .lines
            .iter()
            .map(|line| match line {
                Line::Lead(text) | Line::Plain(text) | Line::Small(text) => text.clone(),
                Line::Item(text) => format!("- {text}"),
                Line::Gap => String::new(),
            })
            .collect();
        lines.join("\n").trim_end().to_owned()
    }

    /// Paragraphs and lists. Lines of a paragraph are parted by breaks; items of a list stand in one.
    pub(super) fn html(&self) -> String {
        let mut html = String::new();
        let mut paragraph: Vec<String> = Vec::new();
        let mut items: Vec<String> = Vec::new();
        for line in &self.lines {
            if !matches!(line, Line::Item(_)) {
                close_list(&mut html, &mut items);
            }
            match line {
                Line::Lead(text) => paragraph.push(format!("<strong>{}</strong>", escaped(text))),
                Line::Plain(text) => paragraph.push(escaped(text)),
                Line::Small(text) => paragraph.push(format!("<em>{}</em>", escaped(text))),
                Line::Item(text) => {
                    close_paragraph(&mut html, &mut paragraph);
                    items.push(escaped(text));
                }
                Line::Gap => close_paragraph(&mut html, &mut paragraph),
            }
        }
        close_list(&mut html, &mut items);
        close_paragraph(&mut html, &mut paragraph);
        html
    }
}

fn close_paragraph(html: &mut String, lines: &mut Vec<String>) {
    if !lines.is_empty() {
        html.push_str(&format!("<p>{}</p>", lines.join("<br>")));
        lines.clear();
    }
}

fn close_list(html: &mut String, items: &mut Vec<String>) {
    if !items.is_empty() {
        html.push_str("<ul>");
        for item in items.iter() {
            html.push_str(&format!("<li>{item}</li>"));
        }
        html.push_str("</ul>");
        items.clear();
    }
}

fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            letter => escaped.push(letter),
        }
    }
    escaped
}

/// Takes out what a name must not bring into a message: control characters, direction overrides and other
/// letters nobody sees, and the sign that wakes a whole room.
fn clean(text: &str) -> String {
    let mut kept = String::with_capacity(text.len());
    for letter in text.chars() {
        if letter.is_whitespace() {
            // Lines and paragraphs are the page's to part, not a name's.
            if !kept.ends_with(' ') {
                kept.push(' ');
            }
        } else if !letter.is_control() && !is_unseen(letter) {
            kept.push(letter);
        }
    }
    without_room_ping(kept.trim())
}

/// Joiners stay: emoji and several scripts are written with them.
fn is_unseen(letter: char) -> bool {
    matches!(
        letter,
        '\u{ad}'
            | '\u{61c}'
            | '\u{180e}'
            | '\u{200b}'
            | '\u{200e}'
            | '\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{feff}'
            | '\u{fff9}'..='\u{fffb}'
            | '\u{e0000}'..='\u{e007f}'
    )
}

/// "@room" in any capitals notifies everybody in a Matrix room; parted by a space it does not.
fn without_room_ping(text: &str) -> String {
    let mut parted = String::with_capacity(text.len());
    for (index, letter) in text.char_indices() {
        parted.push(letter);
        let next = text.get(index + 1..index + 5);
        if letter == '@' && next.is_some_and(|next| next.eq_ignore_ascii_case("room")) {
            parted.push(' ');
        }
    }
    parted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_bring_nothing_along_but_their_letters() {
        let rows = [
            ("Celeste", "Celeste"),
            ("Big\u{202e} One", "Big One"),
            ("wake @room up", "wake @ room up"),
            ("@RoOm", "@ RoOm"),
            ("@ro\u{200b}om", "@ room"),
            ("@@roomroom", "@@ roomroom"),
            ("line\nbreak\r\n\ttab", "line break tab"),
            ("a\u{2028}b\u{0}c\u{9b}d", "a bcd"),
            ("👩\u{200d}🌾 fig", "👩\u{200d}🌾 fig"),
            ("  ", ""),
        ];
        for (typed, want) in rows {
            assert_eq!(clean(typed), want, "{typed:?}");
        }
    }

    #[test]
    fn a_page_is_the_same_words_twice() {
        let mut page = Page::default();
        page.lead("Spray <copper> & wait.");
        page.line("Because.");
        page.item("one");
        page.item("two");
        page.small("Label first.");
        page.gap();
        page.gap();
        page.line("More.");
        assert_eq!(page.text(), "Spray <copper> & wait.\nBecause.\n- one\n- two\nLabel first.\n\nMore.");
        assert_eq!(
            page.html(),
            "<p><strong>Spray &lt;copper&gt; &amp; wait.</strong><br>Because.</p>\
             <ul><li>one</li><li>two</li></ul><p><em>Label first.</em></p><p>More.</p>"
        );
    }
}
