//! Slips of the thumb on words of the garden, mended before anything is read.

mod short;

use self::short::SHORT;
use std::collections::HashMap;
use std::sync::LazyLock;

use super::lexicon::{self, Sense};
use super::names::{Names, is_unknown};
use super::tokens::Token;
use super::word_list::words;

/// Reads words nobody knows as the word of the garden they are a slip of, unless a name is as near.
pub(super) fn mend(tokens: &mut [Token], names: &Names) {
    read_samples(tokens);
    // "W8 no Corner"
    if let [first, eight, ..] = tokens
        && first.is("w")
        && eight.is("8")
        && eight.joined
    {
        first.reword("wait");
        eight.reword(",");
        eight.number = None;
    }
    for token in tokens.iter_mut() {
        // "The 5th": no word of its own.
        if let Some(word) = BY_SHORT.get(token.text.as_str()).filter(|_| !token.joined) {
            token.reword(word);
        }
    }
    // "Wall n Corner": an "and" between two words
    for at in 1..tokens.len().saturating_sub(1) {
        if tokens[at].is("n")
            && !tokens[at].joined
            && tokens[at - 1].is_word()
            && tokens[at + 1].is_word()
            && !tokens[at + 1].is_any(words!("a half quarter"))
        {
            tokens[at].reword("and");
        }
    }
    // "Safe 2 pick", "rename Whip 2 Twig", "msgs 2 this room": no number stands there.
    for at in 1..tokens.len().saturating_sub(1) {
        let next = &tokens[at + 1];
        let led = next.senses.has_any(&[Sense::Pick, Sense::Spray, Sense::Water])
            && tokens[at - 1].is_any(words!("safe ok okay need have time going want forgot how when"))
            || next.is_any(words!("this here"))
                && tokens[at - 1].is_any(words!("message messages briefs brief reminders"))
            || next.is("eat") && tokens[at - 1].is_any(words!("safe ok okay"))
            || next.is_any(words!("metric imperial us")) && tokens[at - 1].is_any(words!("switch change go"))
            || tokens[0].is("rename") && at > 1;
        if tokens[at].is("2") && led && !next.joined {
            tokens[at].reword("to");
            tokens[at].number = None;
        }
    }
    // "1st frost", "2nd": the first of them
    for at in 0..tokens.len().saturating_sub(2) {
        if tokens[at].is("1")
            && tokens[at + 1].is("st")
            && tokens[at + 1].joined
            && tokens[at + 2].is("frost")
        {
            tokens[at].reword("the");
            tokens[at].number = None;
            tokens[at + 1].reword("first");
        }
    }
    // "Half in wtr on Wall"; at the head it may be an order.
    for at in 1..tokens.len() {
        if tokens[at].is("wtr") && tokens[at - 1].is_any(words!("in of gal gals qt inch gallon gallons")) {
            tokens[at].reword("water");
        }
    }
    // "Water done, deck 2 gal each"
    if tokens.len() > 3 && tokens[0].is("water") && tokens[1].is_any(words!("done finished")) {
        tokens[0].reword("watering");
    }
    // "2 lb off Wall an a pound off Corner"
    for at in 1..tokens.len().saturating_sub(1) {
        if tokens[at].is("an") && tokens[at + 1].is_any(words!("a the i")) {
            tokens[at].reword("and");
        }
    }
    // "Like a good scientist": nothing is clean.
    for at in 1..tokens.len().saturating_sub(1) {
        if tokens[at].is("good")
            && tokens[at - 1].is("a")
            && at > 1
            && tokens[at - 2].is("like")
            && !tokens[at + 1].is_any(words!("deal bit many few dozen half quarter gallon inch pound"))
        {
            tokens[at].reword("proper");
        }
    }
    // "10-4": heard.
    if let [ten, dash, four, ..] = tokens
        && ten.is("10")
        && dash.is("-")
        && four.is("4")
    {
        ten.reword("ok");
        ten.number = None;
        dash.reword(",");
        four.reword(",");
        four.number = None;
    }
    // "I oughta water"
    for at in 0..tokens.len() {
        if tokens[at].is_any(words!("oughta outta")) && at > 0 && tokens[at - 1].is_any(words!("i we")) {
            tokens[at].reword("should");
        }
    }
    // "Erase that one": which, not how many.
    for at in 2..tokens.len() {
        if tokens[at].is("one")
            && tokens[at - 1].is_any(words!("that this last"))
            && tokens[at - 2].is_any(words!("erase delete scratch remove cancel undo strike drop"))
        {
            tokens[at].number = None;
        }
    }
    // "Broke Whip clean off": no look at leaves.
    for at in 0..tokens.len().saturating_sub(1) {
        if tokens[at].is("clean") && tokens[at + 1].is_any(words!("off through")) {
            tokens[at].reword("right");
        }
    }
    // "2gether", "2day"
    for at in 0..tokens.len().saturating_sub(1) {
        let whole = match tokens[at + 1].text.as_str() {
            "gether" => "together",
            "day" => "today",
            "nite" | "night" => "tonight",
            "morrow" => "tomorrow",
            _ => continue,
        };
        if tokens[at].is("2") && tokens[at + 1].joined {
            tokens[at].reword(",");
            tokens[at].number = None;
            tokens[at + 1].reword(whole);
            tokens[at + 1].joined = false;
        }
    }
    // "Carried out of doors"
    for at in 0..tokens.len().saturating_sub(2) {
        if tokens[at].is("out") && tokens[at + 1].is("of") && tokens[at + 2].is("doors") {
            tokens[at].reword("outdoors");
            tokens[at + 1].reword("now");
            tokens[at + 2].reword("now");
        }
    }
    // "Y do u want that"
    for at in 0..tokens.len().saturating_sub(1) {
        if tokens[at].is("y") && tokens[at + 1].is_any(words!("do did is are does should not you u would")) {
            tokens[at].reword("why");
        }
    }
    // "Picked for off Wall", as a voice was heard.
    for at in 1..tokens.len().saturating_sub(1) {
        let between = tokens[at - 1].senses.has(Sense::Picked) && tokens[at + 1].is_any(words!("off from"));
        let heard = match tokens[at].text.as_str() {
            "for" => Some(4.0),
            "to" | "too" => Some(2.0),
            "ate" => Some(8.0),
            "won" => Some(1.0),
            _ => None,
        };
        if between && heard.is_some() {
            tokens[at].number = heard;
            tokens[at].senses = lexicon::senses("");
        }
    }
    // "Not Whip, he's still wet": a tree as a person.
    for at in 0..tokens.len() {
        let state = tokens[at + 1..].iter().take(3).take_while(|next| !next.is_mark()).any(|next| {
            next.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist])
                && !next.is_any(words!("drink water soaking"))
        });
        if state && tokens[at].is_any(words!("he's she's")) {
            tokens[at].reword("it's");
        }
    }
    // "Looked at 30 leaves on Wall, 4 had it"
    let leaves_looked_at = tokens.iter().any(|token| token.is_any(words!("looked checked counted")))
        && tokens.windows(2).any(|pair| pair[0].number.is_some() && pair[1].senses.has(Sense::Leaf));
    for at in 2..tokens.len() {
        let had = tokens[at - 1].is_any(words!("had have has got")) && tokens[at - 2].number.is_some();
        if leaves_looked_at && had && tokens[at].is_any(words!("it some")) {
            tokens[at].reword("rust");
        }
    }
    // "Wall 12 pcs", "celeste fig 8 piece": so many figs.
    for at in 1..tokens.len() {
        if tokens[at - 1].number.is_some() && tokens[at].is_any(words!("pcs pc piece pieces")) {
            tokens[at].reword("figs");
        }
    }
    // "A few orange spots, oh no": a sigh denies nothing.
    for at in 1..tokens.len() {
        let sighed = tokens[at].is("no") && tokens[at - 1].is_any(words!("oh ohh aw ah"));
        let ends = tokens.get(at + 1).is_none_or(Token::is_mark);
        if sighed && ends && at > 1 {
            tokens[at].reword("!");
        }
    }
    // "Watered the pair of them"
    for at in 1..tokens.len().saturating_sub(2) {
        if tokens[at].is("pair")
            && tokens[at - 1].is("the")
            && tokens[at + 1].is("of")
            && tokens[at + 2].is_any(words!("them em"))
        {
            tokens[at - 1].reword("them");
            tokens[at].reword("both");
            tokens[at + 1].reword("now");
            tokens[at + 2].reword("now");
        }
    }
    // "Watered the babies"
    for at in 1..tokens.len() {
        let fond = tokens[at].is_any(words!("babies ladies girls beauties"))
            && tokens[at - 1].is_any(words!("the my our"))
            && at > 1
            && tokens[at - 2].senses.has_any(&[Sense::Watered, Sense::Sprayed, Sense::Gave, Sense::Seen]);
        if fond {
            tokens[at].reword("trees");
        }
    }
    // "Minus five figs"
    for at in 1..tokens.len() {
        if at > 1
            && tokens[at - 1].is_any(words!("minus negative"))
            && let Some(number) = tokens[at].number.filter(|number| *number > 0.0)
            && tokens[at - 2].number.is_none()
        {
            tokens[at].number = Some(-number);
            tokens[at - 1].reword(",");
        }
    }
    // "Before the sun got round": no Sunday.
    for at in 0..tokens.len() {
        let led = at > 0
            && tokens[at - 1].is_any(words!("the full hot bright morning afternoon direct of blazing"));
        let shines = tokens.get(at + 1).is_some_and(|next| {
            next.is_any(words!(
                "is was got gets came comes rose sets set hit hits went goes up out burned shone shines"
            ))
        });
        if tokens[at].is("sun's") || tokens[at].is("sun") && (led || shines) {
            tokens[at].reword("sunshine");
        }
    }
    // "Five litres all told", "2 L all up": in all.
    for at in 1..tokens.len().saturating_sub(1) {
        let summed =
            tokens[at - 1].number.is_some() || tokens[at - 1].senses.has_any(&[Sense::Unit, Sense::Fig]);
        if summed && tokens[at].is("all") && tokens[at + 1].is_any(words!("told up")) {
            tokens[at].reword("in");
            tokens[at + 1].reword("all");
        }
    }
    // "Like 4:45 am": about then.
    for at in 1..tokens.len().saturating_sub(1) {
        if tokens[at].number.is_some() && tokens[at - 1].is("like") && tokens[at + 1].is(":") {
            tokens[at - 1].reword("about");
        }
    }
    // "Fig no. 7": numbered, not denied.
    for at in 1..tokens.len().saturating_sub(1) {
        let behind = at + 1 + usize::from(tokens[at + 1].is("."));
        let numbered = tokens[at].is("no")
            && tokens[at - 1].is_any(words!("fig tree pot plant bush"))
            && tokens.get(behind).is_some_and(|next| next.number.is_some())
            && !tokens[..at].iter().any(|token| token.number.is_some());
        if numbered {
            tokens[at].reword("#");
        }
    }
    // "Hoe much copper": no tool.
    for at in 1..tokens.len() {
        if tokens[at].is_any(words!("much many")) && tokens[at - 1].is("hoe") {
            tokens[at - 1].reword("how");
        }
    }
    for (at, token) in tokens.iter_mut().enumerate().filter(|(_, token)| is_unknown(token)) {
        let first = at == 0;
        // A name as it is needs no mending.
        if names.has_word(&token.text) {
            continue;
        }
        // "T'leaves", "o'figs": the article run into its noun.
        if let Some((_, noun)) = token
            .text
            .split_once('\'')
            .filter(|(head, noun)| matches!(*head, "t" | "th" | "o") && lexicon::is_known(noun))
        {
            let noun = noun.to_owned();
            token.reword(&noun);
            continue;
        }
        if names.is_person(&token.text) {
            token.senses = lexicon::senses("we");
            continue;
        }
        if let Some(word) = drawn_out(&token.text) {
            token.reword(&word);
            continue;
        }
        if let Some(word) = by_ear(&token.text) {
            token.reword(&word);
            continue;
        }
        // "7/10ths"
        if let Some(word) = without_vowels(&token.text, first).filter(|_| !token.joined) {
            let left_out = word.len() - token.text.len();
            if names.distance(token).is_none_or(|name| name > left_out) {
                token.reword(word);
                continue;
            }
        }
        let Some(word) = lexicon::meant(&token.text) else { continue };
        let slips = strsim::damerau_levenshtein(&token.text, word);
        if names.distance(token).is_some_and(|name| name <= slips) {
            continue;
        }
        token.reword(word);
    }
}

/// "Scouted 5/20 on Wall, 2/20 on Corner": of as many leaves as people look at, not the days of a month.
fn read_samples(tokens: &mut [Token]) {
    let looked = tokens
        .iter()
        .any(|token| token.is_any(words!("scouted checked counted looked inspected rust spotted spots")));
    // "Celeste 1/20, Wall 4/20"
    let several = tokens
        .windows(3)
        .filter(|three| three[1].is("/") && three[2].number.is_some_and(|of| SAMPLES.contains(&of)))
        .count();
    // "Eave 2/30", "Corner 0/30": no day of any month.
    const LONGEST: usize = 6;
    let no_day = tokens.len() <= LONGEST
        && tokens.windows(3).any(|three| {
            let (month, day) = (three[0].number.unwrap_or(-1.0), three[2].number.unwrap_or(0.0));
            three[1].is("/") && (month == 0.0 || month == 2.0 && day > 29.0 || month > 12.0 && day > 12.0)
        });
    if !looked && several < 2 && !no_day {
        return;
    }
    for at in 1..tokens.len().saturating_sub(1) {
        let sample = tokens[at + 1].number.is_some_and(|of| SAMPLES.contains(&of));
        let part =
            tokens[at - 1].number.is_some_and(|part| tokens[at + 1].number.is_some_and(|of| part < of));
        let dated = at > 1 && tokens[at - 2].is_any(words!("on since"));
        let whole = tokens.get(at + 2).is_some_and(|next| next.is("/"));
        if tokens[at].is("/") && sample && part && !dated && !whole {
            tokens[at].reword("of");
        }
    }
}

/// As many leaves as people look at.
const SAMPLES: [f64; 10] = [10.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 200.0];

/// "Heyyy", "sooo": a letter held down.
fn drawn_out(typed: &str) -> Option<String> {
    let mut short = String::with_capacity(typed.len());
    let mut run = 0;
    for letter in typed.chars() {
        run = if short.ends_with(letter) { run + 1 } else { 0 };
        if run <= 1 {
            short.push(letter);
        }
    }
    if short.len() == typed.len() {
        return None;
    }
    // "Hellooo" has two of them, "heyyy" one.
    let single: String = {
        let mut single = String::with_capacity(short.len());
        let mut letters = short.chars().peekable();
        while let Some(letter) = letters.next() {
            if letters.peek() != Some(&letter) || letters.clone().nth(1).is_some_and(char::is_alphabetic) {
                single.push(letter);
            }
        }
        single
    };
    [single, short].into_iter().find(|word| lexicon::is_known(word))
}

static BY_SHORT: LazyLock<HashMap<&'static str, &'static str>> =
    LazyLock::new(|| SHORT.iter().copied().collect());

/// Words people leave letters out of, by their first letter, with the consonants that stay. In the order they are
/// likely meant: a word of the trade before others.
static CUT_SHORT: LazyLock<HashMap<char, Vec<(&'static str, String)>>> = LazyLock::new(|| {
    const WORDS: &str = "watered water watering picked sprayed spray spraying scouted weighed planted gallon gallons quart quarts yesterday morning copper sulfur leaves leaf lower upper ground checked dropped dropping harvested bottom middle inch inches spots rust rain rained gauge pots moist soaked swelling ripening ripe falling figs frost outside inside indoors moved brought removed products product trees garden season forecast weather metric message messages quiet until tomorrow tonight today night week last first this that these those how have haven't having again talk back help list forgot year over together should could would when what where need needs please thanks sorry right scratch correct instead meant before after about with from just only looks everything everywhere because still some none both each not and the";
    let mut by_letter: HashMap<char, Vec<(&str, String)>> = HashMap::new();
    for word in WORDS.split(' ') {
        by_letter.entry(word.chars().next().unwrap_or(' ')).or_default().push((word, consonants(word)));
    }
    by_letter
});

fn is_vowel(letter: char) -> bool {
    matches!(letter, 'a' | 'e' | 'i' | 'o' | 'u')
}

/// "Dropped" and "droped" have the same.
fn consonants(word: &str) -> String {
    let mut bare = String::with_capacity(word.len());
    // Nobody leaves out the letter a word begins with.
    for (at, letter) in word.chars().enumerate().filter(|(_, letter)| *letter != '\'') {
        if (at == 0 || !is_vowel(letter)) && !bare.ends_with(letter) {
            bare.push(letter);
        }
    }
    bare
}

/// "Spryd", "wtrd", "tht", "agn": a word with its vowels left out, or one of a doubled letter.
fn without_vowels(typed: &str, opens: bool) -> Option<&'static str> {
    const SHORTEST: usize = 3;
    match typed {
        "hw" => return Some("how"),
        "lst" if opens => return Some("list"),
        _ if typed.len() < SHORTEST => return None,
        _ => {}
    }
    let bare = consonants(typed);
    let sure = bare.len() > 2 || !typed.contains(is_vowel);
    let of_letter = CUT_SHORT.get(&typed.chars().next()?).filter(|_| sure)?;
    of_letter
        .iter()
        .find(|(word, own)| word.len() > typed.len() && *own == bare && is_within(typed, word))
        .map(|(word, _)| *word)
}

/// Whether all letters typed stand in the word in their order, so that some were only left out.
fn is_within(typed: &str, word: &str) -> bool {
    let mut letters = word.chars();
    typed.chars().all(|letter| letters.any(|own| own == letter))
}

/// "Drie", "rustey": a "y" spelt as it sounds; "pickin": a "g" left out.
fn by_ear(typed: &str) -> Option<String> {
    let going = format!("{typed}g");
    if typed.len() > 4 && typed.ends_with("in") && lexicon::is_known(&going) {
        return Some(going);
    }
    let stem = ["ie", "ey", "ye"].iter().find_map(|ending| typed.strip_suffix(ending))?;
    let word = format!("{stem}y");
    let senses = lexicon::senses(&word);
    let trade = senses.has_any(&[Sense::Dry, Sense::Rust, Sense::Spots, Sense::Wet, Sense::Heavy]);
    (stem.len() >= 2 && trade).then_some(word)
}
