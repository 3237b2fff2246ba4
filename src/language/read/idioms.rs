//! Turns of phrase that mean what plainer words mean: "the day before yesterday" in other people's English, "the
//! message of the morning", "nothing of rust".
//!
//! Each is put in the words the rest of the reader knows, and adds nothing. Whether the message was plainly worded is
//! judged on what was typed, so whatever is read through here is told back.

use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::LazyLock;

/// As it is said, and in plain words; in small letters, standing apart.
const SAID: &[(&str, &str)] = &[
    // When
    ("as soon as", "as soon as"),
    ("soon as", "as soon as"),
    ("before yesterday", "2 days ago"),
    ("the day before yesterday", "the day before yesterday"),
    ("day before yesterday", "day before yesterday"),
    ("night before yesterday", "night before yesterday"),
    ("first thing in the morning today", "this morning"),
    ("today in the morning", "this morning"),
    ("today in morning", "this morning"),
    ("yesterday in the morning", "yesterday morning"),
    ("yesterday in the evening", "yesterday evening"),
    ("yesterday at evening", "yesterday evening"),
    ("at the hour", "at"),
    ("the hour", "at"),
    // What is set and asked
    ("message of the morning", "morning message"),
    ("message of morning", "morning message"),
    ("write please note", "note"),
    ("please write note", "note"),
    ("please memo", "note"),
    ("please memo that", "note that"),
    ("make a memo", "note"),
    ("how are the pots comparing with", "how are the pots doing against"),
    ("what we have made", "what have we done"),
    ("how we doing", "how are we doing"),
    ("how we doin", "how are we doing"),
    ("pick can or not", "can i pick"),
    ("can pick or not", "can i pick"),
    ("spray can or not", "can i spray"),
    ("can spray or not", "can i spray"),
    ("pitching in", "helping"),
    ("what all you can do", "what can you do"),
    ("what you can do", "what can you do"),
    ("i should like to", "i'd like to"),
    ("we should like to", "we'd like to"),
    ("please inform me of", "tell me"),
    ("inform me of", "tell me"),
    ("please advise me of", "tell me"),
    ("advise me of", "tell me"),
    ("what have i told you so far", "what do you have so far"),
    ("list everything that is set up so far", "what do you have so far"),
    ("list everything you have so far", "what do you have so far"),
    ("whats set up so far", "what do you have so far"),
    ("what's set up so far", "what do you have so far"),
    ("what is set up so far", "what do you have so far"),
    ("read me back what", "show me what"),
    ("read back what", "show me what"),
    ("read back to me what", "show me what"),
    ("what all can you keep track of for me", "what can you do"),
    ("what all can you keep track of", "what can you do"),
    ("what can you keep track of", "what can you do"),
    // Greetings
    ("yo what up", "hello"),
    ("what up", "hello"),
    ("whats good", "hello"),
    ("based on what", "why"),
    ("on what basis", "why"),
    ("peace be upon you", "hello"),
    ("peace on you", "hello"),
    ("all good with you", "how are you"),
    ("all well with you", "how are you"),
    // Talk
    ("my trial plots", "my neighbor's garden"),
    ("our trial plots", "our neighbor's garden"),
    ("plots", "beds"),
    ("call it a day", "stop"),
    ("thanks god", "thank god"),
    ("thanks to god", "thank god"),
    ("died down", "eased"),
    ("dies down", "eases"),
    // What is seen
    ("almost all tree", "almost the whole tree"),
    ("all tree is", "the whole tree is"),
    ("all the tree is", "the whole tree is"),
    ("has sum", "has some"),
    ("have sum", "have some"),
    ("water today:", "watered today:"),
    ("when i gotta spray", "when should i spray"),
    ("when do i gotta spray", "when should i spray"),
    ("watered ground", "watered the ground"),
    ("sprayed ground", "sprayed the ground"),
    ("fat fingered it", "typo"),
    ("on a second look", "on second look"),
    ("i would call it", "it was"),
    ("i'd call it", "it was"),
    ("with the exception of", "except"),
    ("with exception of", "except"),
    ("exc.", "except"),
    ("nothing of rust", "no rust"),
    ("i know rust", "i know rust"),
    ("you know rust", "you know rust"),
    ("we know rust", "we know rust"),
    ("to know rust", "to know rust"),
    ("don't know rust", "don't know rust"),
    ("dont know rust", "dont know rust"),
    ("know rust", "no rust"),
    ("no have rust", "no rust"),
    ("not have rust", "no rust"),
    ("there is in it rust", "there is rust"),
    ("one by one", ""),
    ("leaf by leaf", ""),
    ("the leaves of down", "lower leaves"),
    ("the leaves of up", "upper leaves"),
    // What is done
    ("rename please", "please rename"),
    ("leave me in peace", "be quiet"),
    ("that got the water", ""),
    ("put this in the book for", "note for"),
    ("put this down for", "note for"),
    ("if i read the card right", ""),
    ("if i read it right", ""),
    ("if i read that right", ""),
    ("whys it", "why is it"),
    ("hlep", "help"),
    ("help pls", "help"),
    ("help please", "help"),
    ("so please rename", ". please rename"),
    ("so please change", ". please change"),
    ("so please add", ". please add"),
    ("so please call", ". please call"),
    ("by the name of", ""),
    ("by the name", ""),
    ("two tree by", "the two trees by"),
    ("got me a new", "got a new"),
    ("meanwhile, please", "please"),
    ("meanwhile please", "please"),
    ("in the meantime, please", "please"),
    ("also, please", "please"),
    ("by the way, please", "please"),
    ("oh and please", "please"),
    ("in between", ""),
    ("all less than", "all less than"),
    ("all less", "all but"),
    ("all minus", "all but"),
    ("water finish", "watered"),
    ("spray finish", "sprayed"),
    ("pick finish", "picked"),
    ("water has been given to", "watered"),
    ("water was given to", "watered"),
    ("water is given to", "watered"),
    ("copper and kneel", "copper and neem"),
    ("sulfur and kneel", "sulfur and neem"),
    ("kneel and copper", "neem and copper"),
    ("kneel oil", "neem oil"),
    ("yesterday, no today", "yesterday, not today"),
    ("yesterday no today", "yesterday, not today"),
    ("snapped clean", "snapped"),
    ("broke clean", "broke"),
    ("fig is finish", "fig is finished"),
    ("figs is finish", "figs are finished"),
    ("figs are finish", "figs are finished"),
    ("came into leaf", "leafed out"),
    ("has come into leaf", "leafed out"),
    ("is coming into leaf", "is leafing out"),
    ("nearly one from five", "nearly one in five"),
    ("nearly one from ten", "nearly one in ten"),
    ("nearly one from four", "nearly one in four"),
    ("nearly one from three", "nearly one in three"),
    ("about one from five", "about one in five"),
    ("about one from ten", "about one in ten"),
    ("about one from four", "about one in four"),
    ("about one from three", "about one in three"),
    ("almost one from five", "almost one in five"),
    ("almost one from ten", "almost one in ten"),
    ("almost one from four", "almost one in four"),
    ("almost one from three", "almost one in three"),
    ("throwing its leaves", "dropping its leaves"),
    ("throw away the last", "scratch the last one"),
    ("there is two days of that", "two days ago"),
    ("there are two days of that", "two days ago"),
    ("there is three days of that", "three days ago"),
    ("how many day one time", "how often"),
    ("how many days one time", "how often"),
    ("as far down as i can reach", "down deep"),
    ("as far as i can reach", "down deep"),
    ("in this garden", "in my garden"),
    ("whats even in this garden", "what is in my garden"),
    ("what's even in this garden", "what is in my garden"),
    ("whatve you got", "what have you got"),
    ("what've you got", "what have you got"),
    ("whats in this garden", "what is in my garden"),
    ("what's in this garden", "what is in my garden"),
    ("ways thirty", "weighs thirty"),
    ("ways forty", "weighs forty"),
    ("ways fifty", "weighs fifty"),
    ("ways twenty", "weighs twenty"),
    ("throwing the leafs", "dropping leaves"),
    ("throwing the leaves", "dropping leaves"),
    ("throwing leaves", "dropping leaves"),
    ("loads of it", "lots of it"),
    ("tons of it", "lots of it"),
    ("picked for figs", "picked 4 figs"),
    ("picked to figs", "picked 2 figs"),
    ("picked too figs", "picked 2 figs"),
    ("picked ate figs", "picked 8 figs"),
    ("picked too pounds", "picked 2 pounds"),
    ("picked to pounds", "picked 2 pounds"),
    ("too gallons", "2 gallons"),
    ("the whether", "the weather"),
    ("the hale", "the hail"),
    ("dug out and composted", "dug out"),
    ("dug out + composted", "dug out"),
    ("out of doors", "outdoors"),
    ("to inside", "inside"),
    ("all the way down", "down deep"),
    ("all the way through", "down deep"),
    ("last 1", "last one"),
    ("quaters", "quarters"),
    ("quater", "quarter"),
    ("to outside", "outside"),
    ("by hand", ""),
    ("in the total", "in total"),
    ("in the morning the hour", "in the morning at"),
    ("if anybody cares", ""),
    ("if anyone cares", ""),
    ("if you care", ""),
    ("if anybody asks", ""),
    ("if anyone asks", ""),
    ("by celsius", "celsius"),
    ("by fahrenheit", "fahrenheit"),
    ("on celsius", "celsius"),
    ("how many copper", "how much copper"),
    ("how many sulfur", "how much sulfur"),
    ("how many neem", "how much neem"),
    ("how many water", "how much water"),
    ("let go of", "dropped"),
    ("has let go", "dropped"),
    ("have let go", "dropped"),
    ("every single", "every"),
    ("of all things", ""),
    ("i say wrong", "no"),
    ("i said wrong", "no"),
    ("two knuckles down", "down deep"),
    ("one knuckle down", "down deep"),
    ("a knuckle down", "down deep"),
    ("two knuckles deep", "down deep"),
    ("to the second knuckle", "down deep"),
    ("to the knuckle", "down deep"),
    ("frost got us", "frost"),
    ("frost got me", "frost"),
    ("anything i gotta do", "what should i do"),
    ("anythin i gotta do", "what should i do"),
    ("anything i oughta do", "what should i do"),
    ("anything i need to do", "what should i do"),
    ("anything i should do", "what should i do"),
    ("anything need doing", "what needs doing"),
    ("popping out", "coming out"),
    ("poppin out", "coming out"),
    ("popin out", "coming out"),
    ("before-yesterday", "2 days ago"),
    ("scratch that never", "scratch that, never"),
    ("scratch that didnt", "scratch that, didnt"),
    ("scratch that didn't", "scratch that, didn't"),
    ("counted every one", "counted them"),
    ("counted every single one", "counted them"),
    ("checked every one", "checked them"),
    ("is a swamp", "is soaking wet"),
    ("is a bog", "is soaking wet"),
    ("is a desert", "is bone dry"),
    ("upcoming tasks", "what is coming up"),
    ("upcoming jobs", "what is coming up"),
    ("have i to", "do i have to"),
    ("calls itself", "is called"),
    ("from today the garden", "the garden"),
    ("from now the garden", "the garden"),
    ("from now on the garden", "the garden"),
    ("eventually spray i", "perhaps i will spray"),
    ("middle degree", "some"),
    ("of middle degree", "some"),
];

static BY_FIRST_WORD: LazyLock<HashMap<&'static str, Vec<(&'static str, &'static str)>>> =
    LazyLock::new(|| {
        let mut phrases: HashMap<&str, Vec<(&str, &str)>> = HashMap::new();
        for (said, plain) in SAID {
            let first = said.split(|letter: char| !letter.is_alphanumeric() && letter != '\'').next();
            phrases.entry(first.unwrap_or(said)).or_default().push((said, plain));
        }
        phrases.values_mut().for_each(|own| own.sort_by_key(|(said, _)| std::cmp::Reverse(said.len())));
        phrases
    });

/// The text in plainer words, or as it is.
pub(super) fn in_plain_words(text: &str) -> Cow<'_, str> {
    let lower = text.to_ascii_lowercase();
    let of_word = |letter: char| letter.is_alphanumeric() || letter == '\'';
    let mut plain = String::new();
    let (mut from, mut kept) = (0, 0);
    while let Some(start) = lower[from..].find(of_word).map(|at| from + at) {
        let end = lower[start..].find(|letter| !of_word(letter)).map_or(lower.len(), |at| start + at);
        let found = BY_FIRST_WORD.get(&lower[start..end]).and_then(|phrases| {
            phrases.iter().find(|(said, _)| {
                let rest = lower[start..].strip_prefix(said);
                rest.is_some_and(|rest| !rest.starts_with(of_word))
            })
        });
        from = end;
        if let Some((said, meant)) = found {
            plain.push_str(&text[kept..start]);
            plain.push_str(meant);
            kept = start + said.len();
            from = kept;
            if meant.is_empty() {
                plain.truncate(plain.trim_end_matches([' ', ',']).len());
            }
        }
    }
    if kept == 0 {
        return Cow::Borrowed(text);
    }
    plain.push_str(&text[kept..]);
    let plain = plain.trim_start_matches([' ', ',']).to_owned();
    if plain.trim().is_empty() { Cow::Borrowed(text) } else { Cow::Owned(plain) }
}

#[cfg(test)]
mod tests {
    use super::in_plain_words;

    #[test]
    fn said_otherwise() {
        for (said, plain) in [
            ("Before yesterday I watered Wall", "2 days ago I watered Wall"),
            ("I looked at Wall one by one, no rust", "I looked at Wall, no rust"),
            ("Carried Whip indoors by hand.", "Carried Whip indoors."),
            ("the Message of the Morning at 6", "the morning message at 6"),
            ("by handful", "by handful"),
            ("picked 3", "picked 3"),
            ("by hand", "by hand"),
        ] {
            assert_eq!(in_plain_words(said), plain, "{said}");
        }
    }
}
