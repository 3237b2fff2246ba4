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
        self.lines.push(Line::Lead(clean(&text.into())));
    }

    pub(super) fn line(&mut self, text: impl Into<String>) {
        self.lines.push(Line::Plain(clean(&text.into())));
    }

    pub(super) fn item(&mut self, text: impl Into<String>) {
        self.lines.push(Line::Item(clean(&text.into())));
    }

    pub(super) fn small(&mut self, text: impl Into<String>) {
        self.lines.push(Line::Small(clean(&text.into())));
    }

    pub(super) fn gap(&mut self) {
        if !matches!(self.lines.last(), None | Some(Line::Gap)) {
            self.lines.push(Line::Gap);
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

/// Takes out what a name must not bring into a message: control characters, direction overrides, and the sign
/// that wakes a whole room.
fn clean(text: &str) -> String {
    let kept: String = text
        .chars()
        .map(|letter| if matches!(letter, '\n' | '\r' | '\t') { ' ' } else { letter })
        .filter(|letter| {
            !letter.is_control()
                && !matches!(letter, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
        })
        .collect();
    kept.replace("@room", "@ room")
}
