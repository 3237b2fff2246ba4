//! Utterances and what they are read as, in plain files under `tests/talk/`.
//!
//! A line is `what was said => reading`. The reading is written short: `scouted Celeste 10% lower`, `sprayed
//! copper pots`, `ask spray`, `aside plan`, `doubt unknown_tree`, several joined by ` + `, readings that are equally
//! right by ` | `. Lines that begin with `#` are remarks. The garden is `config-example/garden.toml`; the moment is Wednesday 10 July 2013, 18:00 in
//! New York.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

#[path = "talk/composed.rs"]
mod composed;
#[path = "talk/learning.rs"]
mod learning;
#[path = "talk/meaning.rs"]
mod meaning;

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use chrono::{DateTime, TimeZone, Utc};
use leafhold::app::garden_file;
use leafhold::identity::{EventId, PersonId};
use leafhold::language::read::{Context, marks_of, read};
use leafhold::season::garden::{Active, Garden, Product, Stand, Tree, UnitSystem};
use leafhold::season::journal::{Entry, Report, RustAmount, Timing, What};
use leafhold::season::request::{
    Advised, Correction, OpenQuestion, Question, Reading, Request, Selection, Setting, When,
};
use leafhold::season::selection::selected;
use leafhold::units::Litres;
use proptest::prelude::*;

fn garden() -> Garden {
    let settings = garden_file::read(include_str!("../config-example/garden.toml")).expect("the garden");
    let mut garden = Garden::new("");
    settings.iter().for_each(|setting| setting.apply(&mut garden));
    garden
}

/// Names that are words of the language too, one spray, and metric.
fn other_garden() -> Garden {
    let pot = |litres: f64| Stand::pot(Some(Litres::new(litres)));
    let tree = |name: &str, cultivar: &str, stand: Stand, groups: &[&str]| Tree {
        cultivar: Some(cultivar.to_owned()),
        groups: groups.iter().map(|group| (*group).to_owned()).collect(),
        ..Tree::new(name, stand)
    };
    let mut garden = Garden::new("Hill");
    garden.trees = vec![
        tree("Rusty", "Celeste", pot(40.0), &["front"]),
        tree("Grandma", "Brown Turkey", Stand::ground(), &["front"]),
        tree("Fig 3", "Adam", Stand::ground(), &["back row"]),
        tree("Violet", "Violette de Bordeaux", pot(60.0), &["back row"]),
        tree("Señorita", "Panachée", pot(30.0), &[]),
    ];
    garden.products = vec![Product::new("bordeaux mix", Active::Copper)];
    garden.zone = Some(chrono_tz::America::New_York);
    garden
}

fn moment() -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2013, 7, 10, 22, 0, 0).single().expect("a time")
}

/// What was said before: the last thing reported, and what was asked back.
#[derive(Default)]
struct Before {
    last: Option<Entry>,
    message: Vec<Entry>,
    open: Option<OpenQuestion>,
    answered: Option<Question>,
}

fn usual() -> Before {
    let picked =
        entry(vec![String::from("Celeste")], Report::Picked { count: Some(9), mass: None }, moment());
    Before { last: Some(picked.clone()), message: vec![picked], open: None, answered: None }
}

fn entry(trees: Vec<String>, report: Report, at: DateTime<Utc>) -> Entry {
    Entry {
        who: PersonId::new("ana"),
        event: EventId::new("e"),
        said: at,
        happened: at,
        timing: Timing::Assumed,
        what: What::Report { trees, report },
    }
}

/// What a message leaves behind for the next: its reports and its first open doubt.
fn left_by(said: &str, reading: &Reading, garden: &Garden, before: &Before) -> Before {
    let message: Vec<Entry> = reading
        .requests
        .iter()
        .filter_map(|request| match request {
            Request::Record(record) => {
                Some(entry(selected(garden, &record.trees), record.report.clone(), moment()))
            }
            Request::Set(setting) => Some(Entry {
                what: What::Setting(setting.clone()),
                ..entry(Vec::new(), Report::Planted, moment())
            }),
            _ => None,
        })
        .collect();
    let doubt = reading.doubts.iter().find(|doubt| doubt.kind.can_be_answered());
    let open = doubt.map(|doubt| match &before.open {
        // Asked again, it is of the message that raised it.
        Some(open) if open.doubt == *doubt => open.clone(),
        _ => OpenQuestion {
            text: said.to_owned(),
            doubt: doubt.clone(),
            said: moment(),
            event: EventId::new("e"),
        },
    });
    let asked = reading.last_question().cloned();
    let answered = asked.or_else(|| message.is_empty().then(|| before.answered.clone()).flatten());
    Before { last: message.last().cloned(), message, open, answered }
}

fn read_after(text: &str, garden: &Garden, before: &Before) -> Reading {
    let context = Context {
        garden,
        at: moment(),
        zone: garden.zone(),
        open_question: before.open.as_ref(),
        last: before.last.as_ref(),
        last_message: &before.message,
        answered: before.answered.as_ref(),
        bot_name: "leafhold",
    };
    read(text, &context)
}

fn read_as(text: &str, garden: &Garden) -> Reading {
    read_after(text, garden, &usual())
}

fn short(reading: &Reading) -> String {
    let mut parts: Vec<String> = reading.requests.iter().map(request).collect();
    parts.extend(reading.doubts.iter().map(|doubt| format!("doubt {}", snake(&doubt.kind))));
    if parts.is_empty() { String::from("nothing") } else { parts.join(" + ") }
}

fn snake(value: &impl serde::Serialize) -> String {
    serde_json::to_value(value).ok().and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}

fn request(request: &Request) -> String {
    match request {
        Request::Record(record) => {
            let mut text = report(&record.report);
            let trees = trees(&record.trees);
            if !trees.is_empty() {
                let _ = write!(text, " [{trees}]");
            }
            text.push_str(&when(record.when));
            text
        }
        Request::Ask(question) => format!("ask {}", ask(question)),
        Request::Set(setting) => format!("set {}", set(setting)),
        Request::Undo => String::from("undo"),
        Request::Correct(correction) => format!("correct {}", correct(correction)),
        Request::Confirm => String::from("confirm"),
        Request::Decline => String::from("decline"),
        Request::Greet => String::from("greet"),
        Request::ForgetMe => String::from("forget me"),
        Request::Aside(aside) => format!("aside {}", snake(aside)),
    }
}

fn trees(selection: &Selection) -> String {
    match selection {
        Selection::Unsaid => String::new(),
        Selection::All => String::from("all"),
        Selection::Named(names) => names.join(", "),
        Selection::Group(group) => group.clone(),
        Selection::AllBut(names) => format!("all but {}", names.join(", ")),
    }
}

fn when(when: When) -> String {
    let local = |moment: DateTime<Utc>| moment.with_timezone(&chrono_tz::America::New_York);
    match when {
        When::Unsaid => String::new(),
        When::At(at) => format!(" @{}", local(at).format("%m-%d %H:%M")),
        When::OnDay(at) => format!(" @{}", local(at).format("%m-%d")),
        When::AfterRain => String::from(" @after rain"),
        When::BeforeRain => String::from(" @before rain"),
    }
}

fn amount(amount: RustAmount) -> String {
    match amount {
        RustAmount::None => String::from("none"),
        RustAmount::Severity(share) => format!("{:.0}%", share.as_percent()),
        RustAmount::Class(class) => format!("class {class}"),
        RustAmount::Leaves { spotted, of } => format!("{spotted}/{of}"),
        RustAmount::Words(words) => snake(&words),
    }
}

fn report(report: &Report) -> String {
    match report {
        Report::Scouted { amount: seen, level } => {
            let level = level.map_or_else(String::new, |level| format!(" {}", snake(&level)));
            format!("scouted {}{level}", amount(*seen))
        }
        Report::LeafDrop { share } => {
            format!(
                "leaf_drop{}",
                share.map_or_else(String::new, |share| format!(" {:.0}%", share.as_percent()))
            )
        }
        Report::Sprayed { product, volume } => {
            format!(
                "sprayed {product}{}",
                volume.map_or_else(String::new, |volume| format!(" {:.1}L", volume.value()))
            )
        }
        Report::Watered { volume, depth } => {
            let volume = volume.map_or_else(String::new, |volume| format!(" {:.1}L", volume.value()));
            let depth = depth.map_or_else(String::new, |depth| format!(" {:.1}mm", depth.value()));
            format!("watered{volume}{depth}")
        }
        Report::Moisture { state } => format!("moisture {}", snake(state)),
        Report::Weighed { mass, state } => format!("weighed {:.1}kg {}", mass.value(), snake(state)),
        Report::Rained { depth } => format!("rained {:.1}mm", depth.value()),
        Report::Stage { stage } => format!("stage {}", snake(stage)),
        Report::Picked { count, mass } => {
            let count = count.map_or_else(String::new, |count| format!(" {count}"));
            let mass = mass.map_or_else(String::new, |mass| format!(" {:.2}kg", mass.value()));
            format!("picked{count}{mass}")
        }
        Report::Frost { minimum } => {
            format!(
                "frost{}",
                minimum.map_or_else(String::new, |minimum| format!(" {:.1}C", minimum.value()))
            )
        }
        Report::Planted => String::from("planted"),
        Report::Removed => String::from("removed"),
        Report::Moved { to } => format!("moved {}", snake(to)),
        Report::Note { text } => format!("note \"{text}\""),
        Report::Photo { .. } => String::from("photo"),
    }
}

fn ask(question: &Question) -> String {
    let with = |name: &str, selection: &Selection| {
        let trees = trees(selection);
        if trees.is_empty() { name.to_owned() } else { format!("{name} [{trees}]") }
    };
    match question {
        Question::Spray { product, trees } => {
            let name =
                product.as_ref().map_or_else(|| String::from("spray"), |product| format!("spray {product}"));
            with(&name, trees)
        }
        Question::Water { trees } => with("water", trees),
        Question::Frost { .. } => String::from("frost"),
        Question::Tree { trees } => with("tree", trees),
        Question::Ahead => String::from("ahead"),
        Question::Why { about: Advised::Watering { trees } } => with("why water", trees),
        Question::Why { .. } => String::from("why"),
        Question::Done { trees, .. } => with("done", trees),
        Question::Product { product } => {
            format!("product{}", product.as_ref().map_or_else(String::new, |product| format!(" {product}")))
        }
        Question::Picking { product, trees } => {
            let name = product
                .as_ref()
                .map_or_else(|| String::from("picking"), |product| format!("picking {product}"));
            with(&name, trees)
        }
        Question::Season => String::from("season"),
        Question::Mix { product, volume } => {
            let product = product.as_ref().map_or_else(String::new, |product| format!(" {product}"));
            let volume = volume.map_or_else(String::new, |volume| format!(" {:.1}L", volume.value()));
            format!("mix{product}{volume}")
        }
        Question::Together { one, other } => format!("together {} + {}", one.name, other.name),
        Question::Compare => String::from("compare"),
        Question::Help => String::from("help"),
        Question::Garden => String::from("garden"),
    }
}

fn set(setting: &Setting) -> String {
    match setting {
        Setting::Name { name } => format!("name {name}"),
        Setting::Position { position, .. } => {
            format!("position {:.2},{:.2}", position.latitude.value(), position.longitude.value())
        }
        Setting::Place { name } => format!("place {name}"),
        Setting::FirstFrost { date } => format!("first_frost {}-{}", date.month, date.day),
        Setting::LastFrost { date } => format!("last_frost {}-{}", date.month, date.day),
        Setting::Units { units } => format!("units {}", snake(units)),
        Setting::Morning { time } => format!("morning {}", time.format("%H:%M")),
        Setting::Quiet { quiet } => match quiet {
            leafhold::season::garden::Quiet::Until(date) => format!("quiet until {date}"),
            quiet => format!("quiet {}", snake(quiet)),
        },
        Setting::Listening { listening } => format!("listening {}", snake(listening)),
        Setting::Tree(details) => {
            let volume = details.volume.map_or_else(String::new, |volume| format!(" {:.0}L", volume.value()));
            let stand = details.potted.map_or_else(String::new, |potted| format!(" {}", snake(&potted)));
            let width = details.width.map_or_else(String::new, |width| format!(" {:.1}m", width.value()));
            format!("tree {}{stand}{volume}{width}", details.name)
        }
        Setting::RenameTree { from, to } => format!("rename {from} to {to}"),
        Setting::Product(details) => {
            let interval =
                details.interval.map_or_else(String::new, |days| format!(" every {:.0}d", days.value()));
            let harvest =
                details.before_harvest.map_or_else(String::new, |days| format!(" phi {:.0}d", days.value()));
            format!("product {}{interval}{harvest}", details.name)
        }
        Setting::RemoveProduct { name } => format!("remove product {name}"),
        Setting::Person { id, role, .. } => format!("person {id} {}", snake(role)),
        Setting::RemovePerson { id } => format!("remove person {id}"),
        Setting::Here | Setting::Room { .. } => String::from("here"),
        Setting::Limit { limit, value } => format!("limit {} {value}", snake(limit)),
    }
}

fn correct(correction: &Correction) -> String {
    match correction {
        Correction::Trees(selection) => format!("trees [{}]", trees(selection)),
        Correction::When(moment) => format!("when{}", when(*moment)),
        Correction::Product(product) => format!("product {product}"),
        Correction::Severity(seen) => format!("severity {}", amount(*seen)),
        Correction::Level(level) => format!("level {}", snake(level)),
        Correction::Stage(stage) => format!("stage {}", snake(stage)),
        Correction::Moisture(state) => format!("moisture {}", snake(state)),
        Correction::Volume(volume) => format!("volume {:.1}L", volume.value()),
        Correction::Depth(depth) => format!("depth {:.1}mm", depth.value()),
        Correction::Count(count) => format!("count {count}"),
        Correction::Mass(mass) => format!("mass {:.2}kg", mass.value()),
        Correction::Number(number) => format!("number {number}"),
    }
}

/// Reads what was said last in a row: `first message >> second message`.
fn reading_of(said: &str, garden: &Garden) -> Reading {
    let said = said.replace("\\n", "\n");
    let mut turns: Vec<&str> = said.split(" >> ").collect();
    let asked = turns.pop().unwrap_or_default();
    // Where nothing is known, nothing was reported before.
    let mut before = if garden.trees.is_empty() { Before::default() } else { usual() };
    let mut garden = garden.clone();
    for turn in turns {
        let reading = read_after(turn, &garden, &before);
        before = left_by(turn, &reading, &garden, &before);
        for request in &reading.requests {
            if let Request::Set(setting) = request {
                setting.apply(&mut garden);
            }
        }
    }
    read_after(asked, &garden, &before)
}

/// Rows of a table with the garden each is read in: `#! metric`, `#! us` change its units, `#! bare` is a garden
/// nothing is known of, `#! other` one with awkward names, and `#! whole` the example again.
fn rows(text: &str) -> Vec<(String, String, Garden)> {
    let mut garden = garden();
    let mut rows = Vec::new();
    for line in text.lines().filter(|line| !line.trim().is_empty()) {
        match line.strip_prefix("#!").map(str::trim) {
            Some("metric") => garden.units = UnitSystem::Metric,
            Some("us") => garden.units = UnitSystem::Us,
            Some("bare") => garden = Garden::new("Quince Lane"),
            Some("whole") => garden = self::garden(),
            Some("other") => garden = other_garden(),
            Some(other) => panic!("no such direction: {other}"),
            None if line.starts_with('#') => {}
            None => {
                let (said, want) =
                    line.rsplit_once(" => ").unwrap_or_else(|| panic!("no ` => ` in {line:?}"));
                rows.push((said.to_owned(), want.trim().to_owned(), garden.clone()));
            }
        }
    }
    rows
}

/// Every row of a table is read as it says; all misses are printed with the score.
fn check(path: &Path) -> (usize, String) {
    let text = std::fs::read_to_string(path).expect("the table");
    let rows = rows(&text);
    let mut misses = String::new();
    let mut missed = 0;
    for (said, want, garden) in &rows {
        let got = short(&reading_of(said, garden));
        if !want.split(" | ").any(|want| want == got) {
            missed += 1;
            let _ = writeln!(misses, "  {said}\n    want {want}\n    got  {got}");
        }
    }
    println!("{}: {} of {} right\n{misses}", path.display(), rows.len() - missed, rows.len());
    (missed, misses)
}

#[test]
fn tables() {
    let tables = table_paths();
    assert!(!tables.is_empty(), "no tables");
    let missed: usize = tables.iter().map(|table| check(table).0).sum();
    assert!(missed == 0, "{missed} rows misread");
}

fn table_paths() -> Vec<PathBuf> {
    let folder = std::env::var("LEAFHOLD_TALK_TABLES")
        .map_or_else(|_| Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/talk"), PathBuf::from);
    let mut tables: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the tables")
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "txt"))
        .collect();
    tables.sort();
    tables
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, ..ProptestConfig::default() })]

    /// Reading never panics, whatever the letters.
    #[test]
    fn any_letters_are_read(text in "\\PC{0,300}") {
        let _ = read_as(&text, &garden());
    }

    /// Nor on words of the garden in any order with marks and numbers between.
    #[test]
    fn any_words_are_read(words in proptest::collection::vec(proptest::sample::select(vec![
        "sprayed", "copper", "pots", "rust", "10%", "half", "leaves", "and", ",", ".", "celeste", "but", "no", "all", "at",
        "7", "am", "1/2", "inch", "gauge", "picked", "dozen", "?", "if", "tomorrow", "yesterday", "31", "february", "-",
        "class", "of", "100", "½", "°", "@", ":", "not", "except", "whip", "big", "one", "the", "rest", "others", "(", ")",
        "on", "two", "by", "wall", "each", "2", "gallons", "ground", "brown", "turkeys", "it", "them", "\n", "i", "meant",
        "make", "that", "is", "dry", "has", "to", "will", "my", "neighbor", "last", "year", "should", "how", "much", "add",
        "tree", "in", "pot", "every", "days", "7/8", "2013-07-01", "'s", "“", "🍃", "geo:1,2", "remove", "rename", "/", "+",
        "0630", "20s", "first", "frost", "nov", "some", "most", "potted", "non", "who", "which", "so", "because", "until",
    ]), 0..40)) {
        let _ = reading_of(&format!("picked 9 figs >> {}", words.join(" ")), &garden());
        let _ = read_as(&words.join(" "), &garden());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, ..ProptestConfig::default() })]

    /// Nor in the first days, of words that trees and sprays are told in, with nothing said before and behind a tree.
    #[test]
    fn any_words_of_the_first_days_are_read(words in proptest::collection::vec(proptest::sample::select(vec![
        "Celeste", "Waldo", "big", "One", "St.", "I-258", "violette", "de", "bordeaux", "black", "Malta", "mama", "and",
        ",", ".", ":", ";", "(", ")", "-", "\n", "!", "?", "in", "the", "ground", "a", "15", "gal", "gallon", "pot", "pots",
        "20", "L", "#", "half", "barrel", "both", "all", "are", "is", "lives", "by", "shed", "next", "to", "she", "it's",
        "called", "call", "her", "named", "no", "not", "wait", "sorry", "should", "be", "copper", "neem", "sulfur", "every",
        "10", "days", "day", "before", "harvest", "phi", "0", "same", "weekly", "label", "says", "first", "last", "frost",
        "Nov", "5", "11/8", "april", "of", "Toms", "River", "NJ", "Georgia", "my", "wife", "says", "I", "have", "two", "fig",
        "figs", "tree", "new", "one", "other", "so", "that", "since", "1978", "74", "é", "🍃", "'s", "@bo:a.example", "g",
    ]), 0..40)) {
        let bare = Garden::new("");
        let text = words.join(" ");
        let _ = read_after(&text, &bare, &Before::default());
        let _ = reading_of(&format!("Celeste 15 gal >> {text}"), &bare);
        let _ = reading_of(&format!("a fig in a pot >> {text}"), &bare);
        let _ = reading_of(&format!("copper every 7 days >> {text}"), &bare);
    }
}

/// One paragraph does not answer every question of cold.
#[test]
fn cold_is_asked_after_in_several_ways() {
    use leafhold::season::request::Cold;
    let rows = [
        ("any frost coming?", Cold::Ahead),
        ("frost?", Cold::Ahead),
        ("will there be frost this week?", Cold::Ahead),
        ("is it gonna freeze anytime soon", Cold::Ahead),
        ("frost tonight?", Cold::Tonight),
        ("how cold will it get tonight", Cold::Tonight),
        ("will tonight be cold enough to frost?", Cold::Tonight),
        ("when is the first frost?", Cold::FirstFrost),
        ("how long till frost", Cold::FirstFrost),
        ("when does frost usually get here, I worry about Whip", Cold::FirstFrost),
        ("what is the usual last frost date?", Cold::LastFrost),
        ("should i bring the pots in tonight?", Cold::Shelter),
        ("Do I need to protect anything tonight?", Cold::Shelter),
        ("when do the pots come in?", Cold::Shelter),
        ("when do I cover them for frost?", Cold::Shelter),
    ];
    for (said, want) in rows {
        let reading = read_as(said, &garden());
        let [Request::Ask(Question::Frost { about })] = reading.requests.as_slice() else {
            panic!("{said}: {}", short(&reading));
        };
        assert_eq!(*about, want, "{said}");
    }
}

/// "When did I last spray?" asks of sprays alone; "what did I do?" of all work.
#[test]
fn one_kind_of_work_is_asked_after() {
    use leafhold::season::request::Deed;
    let rows = [
        ("when did I last spray Wall?", Some(Deed::Spray)),
        ("when was the last copper?", Some(Deed::Spray)),
        ("did I water yesterday?", Some(Deed::Water)),
        ("when did I last water the pots", Some(Deed::Water)),
        ("did I pick anything off Celeste yesterday", Some(Deed::Pick)),
        ("when did Bo last look at the leaves?", Some(Deed::Look)),
        ("what did I do last week?", None),
        ("did I spray or water yesterday?", None),
    ];
    for (said, want) in rows {
        let reading = read_as(said, &garden());
        let [Request::Ask(Question::Done { deed, .. })] = reading.requests.as_slice() else {
            panic!("{said}: {}", short(&reading));
        };
        assert_eq!(*deed, want, "{said}");
    }
}

/// A line of 64 KB is read in the time of a short one, times its length, and no more.
#[test]
fn long_lines_are_read_without_panic() {
    for unit in
        ["a", "rust ", "1/2 ", "sprayed copper on the pots and ", "é", "🍃", ", ", "@", "geo:", "((", "9"]
    {
        let text = unit.repeat(64 * 1024 / unit.len());
        let reading = read_as(&text, &garden());
        assert!(!reading.doubts.is_empty(), "{unit:?}: the part not read is doubted");
    }
}

/// Scores a table whose writer has not seen the grammar, by meaning and to the letter.
#[test]
#[ignore = "a tool: scores the table named in LEAFHOLD_SCORE, and passes nothing"]
fn score() {
    let path = std::env::var("LEAFHOLD_SCORE").expect("LEAFHOLD_SCORE names a table");
    let text = std::fs::read_to_string(path).expect("a table");
    let rows = rows(&text);
    let (mut meant, mut letter) = (0, 0);
    for (said, want, garden) in &rows {
        let got = short(&reading_of(said, garden));
        letter += usize::from(want.split(" | ").any(|want| want == got));
        if meaning::same(want, &got, garden) {
            meant += 1;
        } else {
            println!("#   {said}   wanted: {want}   got: {got}");
        }
    }
    println!("{meant} of {} by meaning, {letter} to the letter", rows.len());
}

/// Prints the reading of each line of a file named in the environment: for writing tables.
#[test]
#[ignore = "a tool: prints how the lines of LEAFHOLD_SHOW_READINGS are read, and passes nothing"]
fn show_readings() {
    let path = std::env::var("LEAFHOLD_SHOW_READINGS").expect("LEAFHOLD_SHOW_READINGS names a file");
    let text = std::fs::read_to_string(path).expect("a file");
    let remark = |line: &str| line.starts_with('#') || line.trim().is_empty();
    let row = |line: &str| {
        let bare = remark(line) || line.contains(" => ");
        if bare { line.to_owned() } else { format!("{line} => ") }
    };
    let table: String = text.lines().map(|line| row(line) + "\n").collect();
    for (said, _, garden) in rows(&table) {
        let reading = reading_of(&said, &garden);
        println!("{said} => {} [{}]", short(&reading), snake(&reading.wording));
    }
}

/// Learns the reader's weights from all tables and writes them where it reads them.
#[test]
#[ignore = "a tool: writes src/language/read/likeness/weights.txt, and passes nothing"]
fn learn() {
    let left_out = std::env::var("LEAFHOLD_LEARN_WITHOUT").unwrap_or_default();
    let left_out: Vec<&str> = left_out.split(',').filter(|name| !name.is_empty()).collect();
    let mut lessons = Vec::new();
    for path in table_paths() {
        let name = path.file_stem().and_then(|name| name.to_str()).unwrap_or_default().to_owned();
        if left_out.iter().any(|left| name.starts_with(left)) {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("a table");
        let wanted = learning::wanted(&text);
        for (said, read, garden) in rows(&text) {
            let want = wanted.get(said.as_str()).map_or(read.as_str(), |want| want);
            let said = said.rsplit(" >> ").next().unwrap_or_default().replace("\\n", "\n");
            lessons.push(learning::Lesson { marks: marks_of(&said, &garden), kind: learning::kind(want) });
        }
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/language/read/likeness/weights.txt");
    std::fs::write(path, learning::learn(&lessons)).expect("the weights");
}
