//! A message as it comes in: without what it quotes, without the bot's name, and not too long.

/// A message longer than this is no message: the rest is doubted, not read.
const LONGEST: usize = 8_000;
/// Lines beyond this many likewise.
const MOST_LINES: usize = 200;

/// Quoted lines and code taken out, the bot's name taken off, and cut to a length.
pub(super) fn prepared(text: &str, bot_name: &str) -> (String, bool) {
    let mut kept = String::with_capacity(text.len().min(LONGEST));
    let mut fenced = false;
    let mut cut_off = false;
    for (number, line) in text.lines().enumerate() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
            continue;
        }
        if fenced || line.trim_start().starts_with('>') {
            continue;
        }
        if number >= MOST_LINES || kept.len() >= LONGEST {
            cut_off = true;
            break;
        }
        let room = LONGEST - kept.len();
        let end = line.char_indices().map(|(at, _)| at).take_while(|at| *at <= room).last().unwrap_or(0);
        let whole = line.len() <= room;
        kept.push_str(if whole { line } else { &line[..end] });
        kept.push('\n');
        if !whole {
            cut_off = true;
            break;
        }
    }
    (without_name(&kept, bot_name).trim().to_owned(), cut_off)
}

/// "leafhold, ...", "@leafhold: ...", "um hey leafhold ..."; "Hi leafhold" still greets.
fn without_name<'t>(text: &'t str, name: &str) -> &'t str {
    const LEADS: [&str; 14] =
        ["hey", "hi", "hello", "ok", "okay", "so", "um", "uh", "well", "yo", "oh", "and", "please", "dear"];
    const MOST_LEADS: usize = 4;
    let trimmed = text.trim_start();
    let mut rest = trimmed;
    for _ in 0..=MOST_LEADS {
        let named = rest.strip_prefix('@').unwrap_or(rest);
        let after = strip_prefix_folded(named, name)
            .filter(|after| !name.is_empty() && !after.starts_with(char::is_alphanumeric));
        if let Some(after) = after {
            // A user id goes on to its server.
            let after = if after.starts_with(':') && after[1..].starts_with(char::is_alphanumeric) {
                after.find(char::is_whitespace).map_or("", |end| &after[end..])
            } else {
                after
            };
            let body = after.trim_start_matches([',', ':', ';', '-', '!', '.', ' ']);
            return if body.trim().is_empty() { &trimmed[..trimmed.len() - rest.len()] } else { body };
        }
        let end = rest.find(|letter: char| !letter.is_alphabetic()).unwrap_or(rest.len());
        if !LEADS.iter().any(|lead| rest[..end].eq_ignore_ascii_case(lead)) {
            break;
        }
        rest = rest[end..].trim_start_matches([',', ' ', '!']);
    }
    trimmed
}

fn strip_prefix_folded<'t>(text: &'t str, prefix: &str) -> Option<&'t str> {
    let head = text.get(..prefix.len())?;
    head.eq_ignore_ascii_case(prefix).then(|| &text[prefix.len()..])
}
