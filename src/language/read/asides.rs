//! Talk that is not for the journal, and words too short to be anything else.

use std::borrow::Cow;

use super::Speech;
use super::lexicon::{self, Sense};
use super::tokens::folded;
use crate::language::read::word_list::{self, WordList, words};
use crate::season::request::{Aside, Reading, Request};

/// "Spot of rust on Wall, nothing to fret about": the rust is told, and what is "nothing" is the fuss.
pub(super) fn without_idle_tails(text: &str) -> Cow<'_, str> {
    const TAILS: [&str; 29] = [
        ", nothing higher up",
        ", nothing higher",
        ", nothing above",
        ", nothing further up",
        ", nothing up top",
        ", none higher up",
        ", not more",
        ", no more than that",
        ", that's all",
        ", thats all",
        ", and that's it",
        ", nothing more",
        ", nothing else",
        ", nothing to holler about",
        ", nothing to shout about",
        ", nothing to fret about",
        ", nothing to worry about",
        ", nothing to write home about",
        ", not a lot tho",
        ", not a lot though",
        ", not much tho",
        ", not much though",
        ", not too bad",
        ", no big deal",
        ", rest stayed out",
        ", rest stay out",
        ", rest stay put",
        ", the rest stay out",
        ", the rest stayed out",
    ];
    /// "..., nothing dramatic"
    const FUSS: [&str; 22] = [
        "dramatic",
        "serious",
        "major",
        "crazy",
        "bad",
        "alarming",
        "terrible",
        "awful",
        "drastic",
        "severe",
        "huge",
        "special",
        "unusual",
        "extreme",
        "big",
        "horrible",
        "scary",
        "worrying",
        "worrisome",
        "fancy",
        "much",
        "wild",
    ];
    let lower = text.to_ascii_lowercase();
    let ends = |end: usize| !lower[end..].starts_with(|letter: char| letter.is_alphanumeric());
    // "..., nothing to fret over"
    let fuss = lower.find(", nothing to ").and_then(|at| {
        let rest = &lower[at + ", nothing to ".len()..];
        let end = rest.find(['.', ',', '!', ';', '\n']).unwrap_or(rest.len());
        let words = rest[..end].split_whitespace().count();
        ((1..=4).contains(&words)).then_some((at, at + ", nothing to ".len() + end))
    });
    let fuss = fuss.or_else(|| {
        let at = lower.find(", nothing ")?;
        let from = at + ", nothing ".len();
        let word = FUSS.iter().find(|word| lower[from..].starts_with(**word) && ends(from + word.len()))?;
        Some((at, from + word.len()))
    });
    let found = fuss.or_else(|| {
        TAILS
            .iter()
            .filter_map(|tail| lower.find(tail).map(|at| (at, at + tail.len())))
            .find(|(_, end)| ends(*end))
    });
    match found {
        Some((at, end)) if at > 0 => Cow::Owned(format!("{}{}", &text[..at], &text[end..])),
        _ => Cow::Borrowed(text),
    }
}

/// Greetings, thanks, yes and no, undo, forget me: whole sentences of a few words.
pub(super) fn short(speech: &Speech, reading: &mut Reading) -> bool {
    let words: Vec<&str> =
        speech.tokens.iter().filter(|token| !token.is_mark()).map(|token| token.text.as_str()).collect();
    const MOST_WORDS: usize = 16;
    if words.len() > MOST_WORDS {
        return false;
    }
    // "Yes dear", "good morning hon"
    const FOND: [&str; 18] = [
        "sunshine",
        "darlin",
        "dear",
        "hon",
        "honey",
        "hun",
        "love",
        "darling",
        "sweetie",
        "sweetheart",
        "mate",
        "pal",
        "sir",
        "ma'am",
        "bro",
        "dude",
        "luv",
        "duck",
    ];
    // "Sprayed the Wall one with hot sauce, jk"
    if super::corrections::is_joke(speech.tokens) {
        reading.requests.push(Request::Aside(Aside::Talk));
        return true;
    }
    // "Would you please take back that last entry"
    let words = match words.as_slice() {
        ["would" | "could" | "can" | "will", "you", rest @ ..] if is_undo(rest) => rest.to_vec(),
        _ => words,
    };
    let plain: Vec<&str> = words.iter().copied().filter(|word| !FOND.contains(word)).collect();
    let words = if plain.is_empty() { words } else { plain };
    let line = words.join(" ");
    let asked = speech.asked == super::clauses::Asked::Yes;
    let request = match line.as_str() {
        // "Oops, wrong chat", where nothing was told.
        _ if speech.context.last.is_none() && is_wrong_place(&words) => Request::Aside(Aside::Talk),
        _ if is_undo(&words) && words.len() > 2 => Request::Undo,
        _ if asked && !is_thanks(&words) && !is_greeting(&words) && !is_undo(&words) => return false,
        "yes" | "yeah" | "yep" | "yup" | "sure" | "ok" | "okay" | "k" | "kk" | "right" | "correct" | "y"
        | "yes please" | "do it" | "yea" | "ya" | "yes do" | "yes do it" | "sure thing" | "go ahead"
        | "confirm" | "confirmed" | "that's right" | "thats right" | "ok yes" | "yes ok" | "okay do it"
        | "fine" | "absolutely" | "of course" => Request::Confirm,
        "no" | "nope" | "nah" | "n" | "no thanks" | "no thank you" | "cancel" | "never mind"
        | "nevermind" | "nvm" | "don't" | "no don't" | "not now" | "skip it" | "skip" | "leave it"
        | "not really" | "nah never mind" => Request::Decline,
        "no leave it as it is"
        | "no leave it"
        | "no keep it"
        | "no keep it as it is"
        | "leave it as it is"
        | "no that's fine"
        | "no thats fine" => Request::Decline,
        _ if is_yes(&words) => Request::Confirm,
        _ if is_greeting(&words) => Request::Greet,
        _ if is_forget_me(&line) || is_all_of_me(&words) => Request::ForgetMe,
        _ if is_undo(&words) || opens_with_undo(speech, &words) => Request::Undo,
        "you rock" | "good bot" | "best bot" | "nice bot" | "you're great" | "you're amazing" => {
            Request::Aside(Aside::Thanks)
        }
        _ if is_thanks(&words) || is_long_thanks(speech, &words) => Request::Aside(Aside::Thanks),
        _ => return false,
    };
    reading.requests.push(request);
    true
}

/// "Sure, go ahead", "yes please do".
fn is_yes(words: &[&str]) -> bool {
    const CORE: WordList = words!("yes yeah yep yup sure yea ya aye affirmative absolutely definitely");
    const AROUND: WordList = words!(
        "that's thats is so go ahead please do it that right correct ok okay then thanks of course thing sounds good i am"
    );
    words.len() <= 6
        && words.first().is_some_and(|first| held(CORE, first) || *first == "ok" || *first == "okay")
        && words.iter().any(|word| held(CORE, word) || *word == "ahead")
        && words.iter().all(|word| held(CORE, word) || held(AROUND, word))
}

/// Whether a list has this word.
fn held(list: WordList, word: &str) -> bool {
    !word.is_empty() && list.has(word, word_list::hash(word))
}

fn is_greeting(words: &[&str]) -> bool {
    const GREETINGS: WordList = words!(
        "g'day howya heya hallo ahoy ello hola bonjour buongiorno ciao namaste wassup evening afternoon hello hi hey hiya howdy start begin setup yo greetings hullo gday morning gm sup"
    );
    const AROUND: WordList = words!(
        "fig figgy my garden the buddy there bot leafhold again all everyone let's lets me get started up please you folks y'all yall to good team gang friend friends bello bella sugar amigo amigos boss chief sir mate buddy dear pal hon"
    );
    let words = match words {
        ["um" | "uh" | "er" | "oh" | "ok" | "so" | "well", rest @ ..] if !rest.is_empty() => rest,
        words => words,
    };
    let line = words.join(" ");
    let of_day = matches!(
        line.as_str(),
        "good morning"
            | "morning"
            | "good afternoon"
            | "good evening"
            | "set up"
            | "good day"
            | "hello good day"
            | "hello good morning"
            | "hello good evening"
            | "hello good afternoon"
            | "hi good day"
            | "hi good morning"
            | "hi good evening"
            | "mornin"
            | "get started"
            | "good morning leafhold"
            | "let's start"
            | "let's begin"
    );
    // "Good evening y'all"
    let words = match words {
        ["good", "morning" | "mornin" | "evening" | "evenin" | "afternoon" | "day", rest @ ..]
            if !rest.is_empty() =>
        {
            rest
        }
        words => words,
    };
    // "Hiii its Bo", "hello dear it's Grandma"
    let words = match words {
        [before @ .., "it's" | "its", _] if !before.is_empty() => before,
        words => words,
    };
    let around = |word: &&str| held(AROUND, word) || held(GREETINGS, word);
    of_day
        || words.len() < line.split(' ').count() && words.iter().all(around)
        || words.first().is_some_and(|first| held(GREETINGS, first))
            && words[1..].iter().all(|word| held(AROUND, word) || held(GREETINGS, word))
}

/// "Delete me and all my stuff"
fn is_all_of_me(words: &[&str]) -> bool {
    let about_me = words.windows(2).any(|pair| pair == ["about", "me"]) && words.contains(&"everything");
    about_me && words.iter().any(|word| matches!(*word, "delete" | "erase" | "forget" | "wipe" | "remove"))
        || words
            .first()
            .is_some_and(|first| matches!(*first, "delete" | "erase" | "forget" | "wipe" | "remove"))
            && words.get(1).is_some_and(|me| *me == "me")
            && words
                .iter()
                .any(|word| matches!(*word, "stuff" | "data" | "everything" | "info" | "account" | "history"))
            && words.len() <= 8
}

fn is_forget_me(line: &str) -> bool {
    let line = line.strip_prefix("please ").unwrap_or(line);
    matches!(
        line.strip_suffix(" please").unwrap_or(line),
        "yes forget me"
            | "forget me"
            | "please forget me"
            | "delete my data"
            | "delete all my data"
            | "delete me"
            | "delete everything"
            | "erase everything"
            | "wipe everything"
            | "forget everything about me"
            | "delete everything about me"
            | "remove my data"
            | "erase my data"
            | "erase me"
            | "forget all about me"
            | "delete my account"
            | "remove me and my data"
            | "i want to be forgotten"
    )
}

/// "Oops, wrong chat", "sorry, wrong room".
fn is_wrong_place(words: &[&str]) -> bool {
    words.len() <= 4
        && words.windows(2).any(|pair| {
            pair[0] == "wrong"
                && matches!(
                    pair[1],
                    "chat" | "room" | "group" | "channel" | "thread" | "window" | "person" | "place"
                )
        })
}

/// "Undo", "scratch that last one please", "oops, forget that": made of nothing but such words.
pub(super) fn is_undo(words: &[&str]) -> bool {
    const VERBS: WordList = words!(
        "withdraw rescind void annul scrub wipe bin reverse undo scratch strike disregard ignore delete remove erase retract revert unsay forget wrong mistake incorrect kidding jk oops whoops oopsie mistaken error cancel back false discard scrap"
    );
    const AROUND: WordList = words!(
        "whatever told say type typed now statement entirety its in by omg eh uh er argh dang before ugh out ok away off from records journal diary book altogether entirely completely nvm hon honey bot mate lol there dear bro that it this last previous one my the entry entries message report please pls thanks sorry no nope wait actually just was is a that's thats those all both of what i said record never mind nevermind take kindly can you could made were totally log thing logged alarm it's its hmm ah an completely two rather again not right only oh but ignore everything nah"
    );
    const HARD: [&str; 3] = ["back", "wrong", "false"];
    // "Delete that please, wrong garden": a reason behind an order.
    const PLACES: [&str; 6] = ["garden", "room", "chat", "channel", "group", "place"];
    // "Scratch that last one, it didn't happen"
    let words = match words {
        [head @ .., "it" | "that" | "this", "didn't" | "didnt" | "never", "happen" | "happened"]
            if !head.is_empty() =>
        {
            head
        }
        words => words,
    };
    let words = match words {
        [head @ .., "wrong", place]
            if PLACES.contains(place) && head.iter().any(|word| held(VERBS, word)) =>
        {
            head
        }
        words => words,
    };
    // "No kidding!" wonders.
    if matches!(words, ["no", "kidding"] | ["no", "joke"]) {
        return false;
    }
    let known = words.iter().all(|word| held(VERBS, word) || held(AROUND, word));
    let verb = words.iter().any(|word| held(VERBS, word) && !HARD.contains(word));
    let hard = words.contains(&"take")
        && words.iter().any(|word| matches!(*word, "back" | "out" | "off" | "away"))
        || words.contains(&"wrong")
            && words.iter().any(|word| ["that", "that's", "was", "thats"].contains(word))
        || words == ["wrong"]
        || words == ["false", "alarm"]
        || words.contains(&"wrong") && words.contains(&"one");
    // "Oops" alone says that something is wrong, and not what.
    let bare = words.iter().all(|word| matches!(*word, "oops" | "whoops" | "oopsie" | "oh" | "ah" | "um"));
    !words.is_empty() && known && !bare && (verb || hard) && words != ["cancel"] && words != ["forget"]
}

/// "Delete the last one please, I hit send too early", "never mind, I didn't spray": taken back, and why.
fn opens_with_undo(speech: &Speech, words: &[&str]) -> bool {
    // "Scratch that, it was one gallon" tells anew; "scratch that last one" does not.
    let figures = speech.tokens.iter().enumerate().any(|(index, token)| {
        let measured = || {
            speech.tokens.get(index + 1).is_some_and(|next| next.senses.has_any(&[Sense::Unit, Sense::Fig]))
        };
        token.number.is_some_and(|number| number != 1.0 || measured())
    });
    let named = speech.mentions.iter().any(|mention| mention.trees.names_one_by_name());
    let sprays =
        speech.tokens.iter().any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
    if figures || named || sprays || speech.context.last.is_none() {
        return false;
    }
    let never_mind = words.starts_with(&["never", "mind"])
        || words.first().is_some_and(|first| *first == "nevermind" || *first == "nvm");
    let denied = words.iter().any(|word| matches!(*word, "didn't" | "didnt" | "wasn't" | "haven't"));
    let by_order =
        (2..words.len()).any(|end| is_undo(&words[..end]) && matches!(words[end], "i" | "we" | "because"));
    // "Take my last one out, my sister already wrote it"
    let first: Vec<&str> = speech
        .tokens
        .iter()
        .take_while(|token| !token.is_any(words!(", ; - . (")))
        .map(|token| token.text.as_str())
        .collect();
    // "My mistake, that was sulfur", "no, it was wet, my mistake" own up and put right.
    let owns_up = words.iter().any(|word| matches!(*word, "mistake" | "mistaken" | "wrong" | "error"));
    // "I take it back, it's wet"
    let state =
        speech.tokens.iter().any(|token| token.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist]));
    if (owns_up || state) && super::corrections::read(speech, &mut Reading::default()) {
        return false;
    }
    let by_order = by_order || (2..words.len()).contains(&first.len()) && is_undo(&first);
    // "No he didn't, scratch that"
    let behind = speech.tokens.iter().rposition(|token| token.is_any(words!(", ; -"))).map(|at| {
        let rest: Vec<&str> = speech.tokens[at + 1..]
            .iter()
            .filter(|token| !token.is_mark())
            .map(|token| token.text.as_str())
            .collect();
        (at, rest)
    });
    let by_order = by_order || behind.is_some_and(|(at, rest)| at <= 5 && rest.len() > 1 && is_undo(&rest));
    // "Basta, scratch that last one"
    let by_order = by_order || first.len() == 1 && words.len() > 2 && is_undo(&words[1..]);
    never_mind && denied || by_order
}

fn is_thanks(words: &[&str]) -> bool {
    const THANKS: WordList = words!(
        "gracias merci danke legend godsend thank-you obliged bless helpful lifesaver grateful best champ star thanks thank thx ty cheers appreciated tysm thanx appreciate thnx thankyou ta tks tnx tx thanku"
    );
    const AROUND: WordList = words!(
        "k kk heart bestest are you so much a lot lots great good ok okay cool perfect awesome nice bot leafhold very many for that the help got it i we your this info is all really super helpful you're gem dear bunch ton tons million again advice tip tips reminder heads up will do and friend buddy man mate sir lovely brilliant wonderful excellent useful always as that's appreciated update answer lol kindly wow oh hey ah alright right sounds bye love sugar"
    );
    const MOST_WORDS: usize = 10;
    words.iter().any(|word| held(THANKS, word))
        && words.len() <= MOST_WORDS
        && words.iter().all(|word| held(THANKS, word) || held(AROUND, word))
}

/// "Thank you so much, that really helps me": thanks first, and nothing of the garden behind.
fn is_long_thanks(speech: &Speech, words: &[&str]) -> bool {
    const OPENS: [&str; 9] =
        ["thanks", "thank", "thx", "ty", "thankyou", "cheers", "appreciate", "appreciated", "tysm"];
    let opens = words.iter().take(3).any(|word| OPENS.contains(word));
    // "Thank you Bo for doing the pots while we were away"
    let named = opens
        && words.iter().take(4).any(|word| *word == "for")
        && !speech.tokens.iter().any(|token| token.number.is_some());
    named
        || opens
            && speech.mentions.is_empty()
            && !speech.tokens.iter().any(|token| {
                token.number.is_some()
                    || token.is("but")
                    || token.senses.has_any(&[
                        Sense::Rust,
                        Sense::Spots,
                        Sense::Spray,
                        Sense::Sprayed,
                        Sense::Watered,
                        Sense::Picked,
                        Sense::Rain,
                        Sense::Frost,
                        Sense::Copper,
                        Sense::Sulfur,
                        Sense::Oil,
                    ])
            })
}

/// A sentence of signs alone: a thumb is thanks, anything else is talk.
pub(super) fn signs(text: &str, reading: &mut Reading) {
    let letters: Vec<char> = text.chars().filter(|letter| !letter.is_whitespace()).collect();
    let is_thumb = letters.iter().any(|letter| matches!(letter, '👍' | '👌' | '🙏' | '❤' | '🎉'));
    let shows_something = letters.iter().any(|letter| !letter.is_ascii_punctuation());
    if is_thumb {
        reading.requests.push(Request::Aside(Aside::Thanks));
    } else if shows_something {
        reading.requests.push(Request::Aside(Aside::Talk));
    }
}

/// A word that mixes alphabets: "с" of another alphabet in a Latin word is a slip or a trick.
pub(super) fn mixed_letters(text: &str) -> Option<&str> {
    if text.is_ascii() {
        return None;
    }
    let foreign = |letter: char| matches!(letter, '\u{370}'..='\u{3ff}' | '\u{400}'..='\u{52f}' | '\u{13a0}'..='\u{13ff}');
    let latin =
        |letter: char| letter.is_alphabetic() && !foreign(letter) && ('a'..='\u{24f}').contains(&letter);
    text.split_whitespace()
        .find(|word| word.chars().any(foreign) && word.chars().flat_map(char::to_lowercase).any(latin))
}

/// Words that other languages have in nearly every sentence and this one has not.
pub(super) fn is_other_language(text: &str) -> bool {
    const WORDS: WordList = words!(
        "el los las hay que esta hojas hoja roya agua riego regue con der die das ich und ist nicht habe blatter rost gegossen gespritzt auf alle heute gestern mit dem den ein eine topfe le les des est une rouille feuilles feuille arrose j'ai sur ce matin pas avec dans il gli ho ruggine foglie acqua raccolto fichi oggi ieri sulle dieci folhas ferrugem nao muito uma hoje ontem het een niet ik jest nie liscie var yok och att som de del por para hoy ayer ya mis tengo muchas mucha pero higos higuera cobre anoche lluvia mm_ figues figuier cuivre feigen kupfer regen gieße wir sind tiene tienen aplique coseche llovio manana como esto las_ un"
    );
    let words: Vec<String> = text
        .split(|letter: char| !letter.is_alphabetic() && letter != '\'' && letter != '\u{2019}')
        .filter(|word| !word.is_empty())
        .take(60)
        .map(folded)
        .collect();
    let strange = words.iter().filter(|word| held(WORDS, word)).count();
    let own = words.iter().filter(|word| lexicon::is_known(word) && !held(WORDS, word)).count();
    let other_script = text.chars().any(|letter| {
        letter.is_alphabetic()
            && !letter.is_ascii()
            && folded(letter.encode_utf8(&mut [0; 4])).chars().all(|plain| !plain.is_ascii())
    });
    (strange >= 2 && strange > own) || (other_script && own == 0)
}
