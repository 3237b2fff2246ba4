//! Lists pasted whole: a table of trees with a header, or lines of them.

use crate::language::read::lexicon::Sense;
use crate::language::read::names::Names;
use crate::language::read::tokens::{folded, tokens};
use crate::language::read::word_list::words;
use crate::language::read::{Context, Speech, clauses::Asked, doubt};
use crate::season::garden::{Bearing, Shelter, UnitSystem};
use crate::season::request::{DoubtKind, Potted, Reading, Request, Setting, TreeDetails};
use crate::units::{Litres, Metres};

/// What a tree is in, and is never called.
const STATES: &[Sense] = &[
    Sense::Dry,
    Sense::Wet,
    Sense::Moist,
    Sense::Clean,
    Sense::Rust,
    Sense::Spots,
    Sense::Bare,
    Sense::Ripe,
    Sense::Ripening,
    Sense::Dormant,
    Sense::Finished,
    Sense::Over,
    Sense::Drop,
    Sense::Watered,
    Sense::Sprayed,
    Sense::Picked,
    Sense::Negation,
    Sense::Intent,
    Sense::Future,
    Sense::Heavy,
    Sense::Some,
];

pub(super) fn read(text: &str, context: &Context) -> Option<Reading> {
    let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    if let [line] = lines.as_slice() {
        return inline(line, context).or_else(|| stands_in(line)).or_else(|| several(line, context));
    }
    with_header(&lines, context).or_else(|| plain(&lines, context))
}

/// "My trees are Ruby (15 gal pot), Shed (in ground) and Gate".
fn inline(line: &str, context: &Context) -> Option<Reading> {
    let folded_line = line.to_lowercase();
    let lead = [
        "my trees are",
        "our trees are",
        "my trees:",
        "our trees:",
        "trees:",
        "i have",
        "i've got",
        "we have",
        "i grow",
        "we grow",
    ]
    .iter()
    .find(|lead| folded_line.starts_with(**lead))?;
    if line.contains("1)") {
        return None;
    }
    let sure = lead.contains("trees");
    let body = line.get(lead.len()..)?.trim_start_matches([':', ' ']).trim_end_matches('.');
    let mut reading = Reading::default();
    for item in items(body) {
        let end = item
            .find(['(', ':'])
            .or_else(|| item.find(" - "))
            .or_else(|| item.find(" in "))
            .unwrap_or(item.len());
        let name = super::clean(item.get(..end)?);
        let name = ["a ", "an ", "the ", "my "]
            .iter()
            .find_map(|article| name.strip_prefix(article))
            .unwrap_or(&name)
            .to_owned();
        let details = described(item.get(end..)?, context);
        let words = name.split_whitespace().count();
        let called =
            name.starts_with(char::is_uppercase) || !crate::language::read::lexicon::is_known(&folded(&name));
        if !(1..=4).contains(&words) || !(sure && called || details.potted.is_some()) {
            return None;
        }
        settle(TreeDetails { name, ..details }, item, &mut reading);
    }
    // A doubted size tells of a tree as well.
    let told = reading.requests.len() + reading.doubts.len();
    // "I have a Celeste in a 15 gallon pot", but not "I have trouble in the ground".
    let single = matches!(reading.requests.as_slice(), [Request::Set(Setting::Tree(details))]
        if details.volume.is_some() && details.name.starts_with(char::is_uppercase));
    (sure || single || told > 1).then_some(reading)
}

/// "The ground ones are Big Mama and Olympian", "in pots: Celeste, Violette".
fn stands_in(line: &str) -> Option<Reading> {
    let lower = line.to_lowercase();
    let leads = |leads: &[&str]| leads.iter().find(|lead| lower.starts_with(**lead)).map(|lead| lead.len());
    let ground = leads(&[
        "the ground ones are",
        "the in ground ones are",
        "the in-ground ones are",
        "ones in the ground are",
        "the ones in the ground are",
        "in the ground:",
        "in ground:",
        "in-ground:",
        "ground trees:",
    ]);
    let pots = leads(&[
        "the potted ones are",
        "the ones in pots are",
        "in pots:",
        "potted:",
        "the pots are",
        "pots:",
    ]);
    let (end, potted) = match (ground, pots) {
        (Some(end), _) => (end, Potted::InGround),
        (None, end) => (end?, Potted::InPot),
    };
    let mut reading = Reading::default();
    for item in items(line.get(end..)?.trim_start_matches(':').trim_end_matches('.')) {
        let name = name_of(item)?;
        // "The pots are dry", "the ground ones are fine", "the pots are inside" tell how and where they are.
        let tells = tokens(&name).iter().any(|token| {
            token.senses.has_any(STATES)
                || token.is_any(words!(
                    "fine ok okay good great alright doing looking next last left not still all inside indoors outside outdoors out in back"
                ))
        });
        if tells {
            return None;
        }
        settle(TreeDetails { name, potted: Some(potted), ..TreeDetails::default() }, item, &mut reading);
    }
    (!reading.requests.is_empty()).then_some(reading)
}

/// "Celeste is | in", "Wall is a Hardy Chicago | in", "Big One (Brown Turkey) | in": the name, and what it is.
pub(super) fn named_and_kind(head: &str) -> (&str, Option<&str>) {
    let head = head.trim();
    for kind in [" is a ", " is an ", " (", ", a "] {
        if let Some((name, kind)) = head.split_once(kind) {
            return (
                name.trim(),
                Some(kind.trim().trim_end_matches(')').trim()).filter(|kind| !kind.is_empty()),
            );
        }
    }
    let verbs = [" is", " are", " lives", " sits", " stands", " grows", " now", " was put", "'s"];
    let mut name = head;
    while let Some(shorter) = verbs.iter().find_map(|verb| name.strip_suffix(verb)) {
        name = shorter.trim_end();
    }
    (name, None)
}

/// "Celeste in 15 gal, LSU Purple in a 10 gal pot and a Violette in a 5": two trees or more, each with its pot.
fn several(line: &str, context: &Context) -> Option<Reading> {
    const LONGEST: usize = 400;
    let items = items(line.trim_end_matches('.'));
    let asked = line.contains('?');
    if items.len() < 2 || line.len() > LONGEST || asked {
        return None;
    }
    let mut told: Vec<(TreeDetails, &str, Option<f64>)> = Vec::new();
    for item in items {
        let at = item.find(" in ")?;
        let (head, cultivar) = named_and_kind(&item[..at]);
        let name = name_of(head)?;
        let stand = item.get(at + 1..)?;
        let mut details = described(stand, context);
        details.cultivar = details.cultivar.or_else(|| cultivar.map(str::to_owned));
        let words = tokens(stand);
        let work = tokens(item).iter().any(|token| {
            token.senses.has_any(&[
                Sense::Watered,
                Sense::Picked,
                Sense::Sprayed,
                Sense::Gave,
                Sense::Rust,
                Sense::Planted,
            ])
        });
        let bare = words.iter().find_map(|token| token.number);
        // "... in a 5", beside others told in gallons
        let sized = details.volume.is_some() || bare.is_some();
        if work || !sized && details.potted.is_none() || words.len() > 8 {
            return None;
        }
        details.name = name;
        let alone = bare.filter(|_| details.volume.is_none() && details.potted.is_none());
        told.push((details, item, alone));
    }
    let scale = told.iter().zip(0..).find_map(|((details, item, _), _)| {
        let number = tokens(item).iter().find_map(|token| token.number)?;
        Some(details.volume?.value() / number)
    });
    let mut reading = Reading::default();
    for (mut details, item, alone) in told {
        if let Some(number) = alone {
            details.volume = Some(Litres::new(number * scale?));
            details.potted = Some(Potted::InPot);
        }
        settle(details, item, &mut reading);
    }
    Some(reading)
}

/// "Today", "before bath time, they're already", "nephew Toby as": no tree is called so.
pub(super) fn is_no_name(name: &str) -> bool {
    let words = tokens(name);
    // "First is the old Alma", "both of em"
    if words
        .iter()
        .all(|token| token.is_any(words!("first second third next last one ones both all of em them")))
    {
        return true;
    }
    words.iter().any(|token| {
        token.is_any(words!("q question questions plan plans note total lord ment there there's theres more roommates another before after while when because if until they're theyre they helper keeper prices today yesterday tomorrow tonight"))
    }) || words.iter().any(|token| token.senses.has(Sense::Negation))
        || name.starts_with(|first: char| first.is_ascii_digit())
        || words.first().is_some_and(|first| first.is_any(words!("i'm im i we we're it")))
        // A shovel in the ground, tomatoes in a pot
        || name.chars().all(|letter| !letter.is_uppercase())
            && words.iter().any(|token| {
                token.senses.has_any(&[Sense::Plant, Sense::Creature, Sense::Metal, Sense::Leaf])
                    || token.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist, Sense::Clean, Sense::Rust])
                    || token.is_any(words!("shovel shovels spade hose bucket ladder"))
            })
        || words.last().is_some_and(|last| last.is_any(words!("as is and the a of then bad has have had")))
}

/// The words a tree is called, without "a" and "my"; none that begin with a figure or are too many.
pub(super) fn name_of(typed: &str) -> Option<String> {
    const MOST_WORDS: usize = 4;
    let name = super::clean(typed);
    let name = [
        "down ",
        "put down ",
        "so we've got ",
        "so i've got ",
        "we've got ",
        "i've got ",
        "so ",
        "a ",
        "an ",
        "the ",
        "my ",
        "one ",
        "and ",
    ]
    .iter()
    .find_map(|article| name.strip_prefix(article))
    .unwrap_or(&name)
    .trim()
    .to_owned();
    let letters = name.starts_with(char::is_alphabetic);
    (letters && !is_no_name(&name) && name.split_whitespace().count() <= MOST_WORDS).then_some(name)
}

/// Parts of a list, at commas and "and" outside brackets.
pub(super) fn items(body: &str) -> Vec<&str> {
    let mut items = Vec::new();
    let mut depth = 0_usize;
    let mut start = 0;
    for (at, letter) in body.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            ',' | ';' if depth == 0 => {
                items.push(&body[start..at]);
                start = at + 1;
            }
            _ => {}
        }
    }
    items.push(&body[start..]);
    items
        .into_iter()
        .flat_map(|item| item.split(" and "))
        .map(|item| item.trim().trim_start_matches("and "))
        .filter(|item| !item.is_empty())
        .collect()
}

/// A comma-, semicolon- or tab-separated table whose first line names its columns.
fn with_header(lines: &[&str], context: &Context) -> Option<Reading> {
    let separator = [',', '\t', ';'].into_iter().find(|separator| lines[0].contains(*separator))?;
    let mut rows = rows(lines, separator)?.into_iter();
    let columns: Vec<String> = rows
        .next()?
        .iter()
        .map(|column| folded(column).replace([' ', '-'], "_").replace(['(', ')'], ""))
        .collect();
    let name_at =
        columns.iter().position(|column| matches!(column.as_str(), "name" | "tree" | "nickname"))?;
    let mut reading = Reading::default();
    for cells in rows {
        let words = cells.join(", ");
        let Some(name) = cells.get(name_at).filter(|name| !name.is_empty()) else {
            reading.doubts.push(doubt(DoubtKind::NotUnderstood, words));
            continue;
        };
        let mut details = TreeDetails { name: name.clone(), ..TreeDetails::default() };
        let told = columns.iter().zip(&cells).filter(|(_, cell)| !cell.is_empty());
        let is_read = told.fold(true, |is_read, (column, cell)| {
            put(&mut details, column, cell, context).is_some() && is_read
        });
        if is_read {
            settle(details, &words, &mut reading);
        } else {
            reading.doubts.push(doubt(DoubtKind::ImpossibleAmount, words));
        }
    }
    Some(reading)
}

/// The cells of each line. What stands in quotes is one: "Big, old" is a name, and "Small ""one""" is Small "one".
fn rows(lines: &[&str], separator: char) -> Option<Vec<Vec<String>>> {
    const LONGEST: usize = 60;
    // Spreadsheets write no blank before a quote, people do.
    let text = lines.join("\n").replace(&format!("{separator} \""), &format!("{separator}\""));
    let tidy = |cell: &str| -> String {
        cell.trim().chars().filter(|letter| !letter.is_control()).take(LONGEST).collect()
    };
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(u8::try_from(separator).ok()?)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    reader.records().map(|record| Some(record.ok()?.iter().map(tidy).collect())).collect()
}

/// Nothing if the cell should tell a size and does not.
fn put(details: &mut TreeDetails, column: &str, cell: &str, context: &Context) -> Option<()> {
    let number =
        cell.replace(',', ".").parse::<f64>().ok().filter(|number| number.is_finite() && *number > 0.0);
    let yes = is_yes(cell);
    match column {
        "cultivar" | "variety" => details.cultivar = Some(cell.to_owned()),
        "pot_litres" | "pot_liters" | "litres" | "liters" | "pot_l" | "pot_size_l" | "pot_size_litres"
        | "pot_size_liters" => stand(details, pot_size(cell, Litres::new, context)?),
        "pot_gallons" | "gallons" | "pot_gal" | "pot_size_gal" | "pot_size_gallons" => {
            stand(details, pot_size(cell, Litres::from_gallons, context)?);
        }
        "pot" | "container" if yes => stand(details, (Potted::InPot, None)),
        "pot_size" | "container_size" | "size" | "pot" | "container" => {
            let bare = match context.garden.units {
                UnitSystem::Us => Litres::from_gallons,
                UnitSystem::Metric => Litres::new,
            };
            let found = pot_size(cell, bare, context);
            // "Fabric pot" tells where it stands, but not how large.
            let is_size = column.ends_with("size");
            let pot = || (described(cell, context).potted? == Potted::InPot).then_some((Potted::InPot, None));
            stand(details, found.or_else(|| if is_size { None } else { pot() })?);
        }
        "stand" | "where" | "place" => {
            let found = described(cell, context);
            details.potted = found.potted.or(if yes { Some(Potted::InPot) } else { details.potted });
            details.volume = found.volume.or(details.volume);
        }
        "width_m" | "width" => details.width = number.map(Metres::new),
        "width_ft" => details.width = number.map(Metres::from_feet),
        "young" => details.bearing = yes.then_some(Bearing::Young),
        "sheltered" => details.shelter = yes.then_some(Shelter::FromRain),
        "group" | "groups" => details.groups = cell.split(['/', '|']).map(super::clean).collect(),
        "soil" | "crop" | "rust" | "notes" => {
            let found = described(cell, context);
            details.soil = found.soil.or(details.soil);
            details.crop = found.crop.or(details.crop);
            details.susceptibility = found.susceptibility.or(details.susceptibility);
        }
        _ => {}
    }
    Some(())
}

fn is_yes(cell: &str) -> bool {
    matches!(folded(cell).as_str(), "yes" | "y" | "true" | "1" | "x")
}

/// One column may say that it is a pot, another how large.
fn stand(details: &mut TreeDetails, (potted, volume): (Potted, Option<Litres>)) {
    details.potted = Some(potted);
    details.volume = volume.or(details.volume);
}

/// "15", "15 gal", "#15", "in ground", "none"; a bare figure is in the column's unit.
fn pot_size(cell: &str, bare: impl Fn(f64) -> Litres, context: &Context) -> Option<(Potted, Option<Litres>)> {
    if matches!(folded(cell).as_str(), "no" | "n" | "false" | "none" | "-" | "n/a" | "na" | "ground") {
        return Some((Potted::InGround, None));
    }
    if let Ok(number) = cell.replace(',', ".").parse::<f64>() {
        return number.is_finite().then(|| (Potted::InPot, Some(bare(number))));
    }
    let found = described(cell, context);
    if found.potted == Some(Potted::InGround) {
        return Some((Potted::InGround, None));
    }
    // "#15" and "15g" are sizes before the word "pot".
    let volume = found.volume.or_else(|| described(&format!("{cell} pot"), context).volume)?;
    Some((Potted::InPot, Some(volume)))
}

fn described(text: &str, context: &Context) -> TreeDetails {
    let tokens = tokens(text);
    let names = Names::of(context.garden);
    let speech = Speech::of(text, &tokens, &names, context, Asked::No);
    super::trees::details(&speech, &tokens)
}

/// Lines such as "Celeste - 15 gal pot" or "Wall, Brown Turkey, in ground", each with a pot or the ground in it.
fn plain(lines: &[&str], context: &Context) -> Option<Reading> {
    let mut reading = Reading::default();
    for (index, line) in lines.iter().enumerate() {
        let bare = line.trim_start_matches(|letter: char| {
            letter.is_ascii_digit() || matches!(letter, '-' | '*' | '.' | ')' | '•' | ' ')
        });
        let bare = without_order(bare);
        // "my trees:" above the list.
        if index == 0 && bare.ends_with(':') {
            continue;
        }
        let end = bare.find([',', ':', '(']).or_else(|| bare.find(" - ")).or_else(|| bare.find(" in "))?;
        let name = super::clean(bare.get(..end)?);
        let details = described(bare.get(end..)?, context);
        // "Plan for Sat: copper, ground only": no list of trees.
        let called = name.starts_with(char::is_alphabetic) && !is_no_name(&name);
        if !called || name.split_whitespace().count() > 4 || details.potted.is_none() {
            return None;
        }
        settle(TreeDetails { name, ..details }, line, &mut reading);
    }
    (!reading.requests.is_empty() || !reading.doubts.is_empty()).then_some(reading)
}

/// Notes a tree, or doubts the words that give it a pot no fig stands in.
pub(super) fn settle(details: TreeDetails, words: &str, reading: &mut Reading) {
    if let super::Found::Setting(setting) = super::trees::settled(details, words, reading) {
        reading.requests.push(Request::Set(setting));
    }
}

/// "add tree Celeste" orders a tree called Celeste, as the bot itself asks for each on a line of its own.
fn without_order(line: &str) -> &str {
    let split = |text: &'_ str| text.find(' ').map(|at| (text[..at].to_lowercase(), at));
    let tree = |text: &str| split(text).is_some_and(|(word, _)| matches!(word.as_str(), "tree" | "fig"));
    let mut rest = line;
    let Some((verb, at)) = split(rest) else { return line };
    let after = rest[at..].trim_start();
    // "New York, in the ground" is a name.
    if !(verb == "add" || matches!(verb.as_str(), "new" | "another") && tree(after)) {
        return line;
    }
    rest = after;
    // "new tree New York"
    let mut named = false;
    while let Some((word, at)) = split(rest) {
        let after = rest[at..].trim_start();
        // "Fig 3" is a name.
        let numbered = word == "fig" && after.starts_with(|letter: char| letter.is_ascii_digit());
        let word = word.trim_end_matches(':');
        let anew = matches!(word, "new" | "another") && !named;
        let leads = anew || matches!(word, "a" | "an" | "the" | "my" | "fig" | "tree" | "called" | "named");
        named |= matches!(word, "tree" | "fig");
        if numbered || !leads {
            break;
        }
        rest = after;
    }
    rest
}
