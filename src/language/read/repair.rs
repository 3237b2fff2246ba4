//! Slips of the tongue mended in the same breath: "watered Celeste, no wait, it was Big One".

use std::borrow::Cow;
use std::ops::Range;

use super::amounts::amounts;
use super::lexicon::Sense;
use super::moments::moment;
use super::names::{Names, Product};
use super::tokens::{Token, tokens};
use super::word_list::words;
use super::{Context, now, spelling};

/// What takes back the words before it.
const TAKES_BACK: &[&str] = &[
    "actually no it was",
    "actually no",
    "hm no",
    "hmm no",
    "no thats too much",
    "no that's too much",
    "no it was",
    "no wait it was",
    "no wait that was",
    "no wait i mean",
    "no wait i meant",
    "no wait",
    "wait no it was",
    "wait no i mean",
    "wait no",
    "sorry i mean",
    "sorry i meant",
    "sorry it was",
    "no sorry",
    "i mean",
    "or rather",
    "scratch that",
    "er no",
    "um no",
    "oops i mean",
    "oops no",
    "make that",
];

/// Whether a sentence begins by taking back the one before: "No, Stick", "no thats too much, 20%".
pub(super) fn takes_back(text: &str) -> bool {
    const LEADS: [&str; 9] = [
        "no, ",
        "no thats ",
        "no that's ",
        "no wait",
        "wait no",
        "wait, no",
        "actually no",
        "hm no",
        "scratch that, ",
    ];
    let lower = text.to_lowercase();
    LEADS.iter().any(|lead| lower.starts_with(lead))
}

/// A sentence with what was taken back put right, or as it is.
pub(super) fn mended<'t>(text: &'t str, names: &Names, context: &Context) -> Cow<'t, str> {
    if !may_take_back(text) {
        return Cow::Borrowed(text);
    }
    let mut words = tokens(text);
    spelling::mend(&mut words, names);
    let places: Vec<Range<usize>> =
        names.mentions(&words, text).into_iter().map(|mention| mention.range).collect();
    let Some((at, end)) = taken_back(&words, &places) else { return Cow::Borrowed(text) };
    let joint = (end..words.len())
        .find(|joint| words[*joint].is_any(words!("and then but so")))
        .map_or(words.len(), |joint| joint - usize::from(joint > end && words[joint - 1].is(",")));
    let before = Said::by(text, &words, 0..at, names, context);
    let after = Said::by(text, &words, end..joint, names, context);
    if !before.opens || joint == end {
        return Cow::Borrowed(text);
    }
    let stop = words[words.len() - 1].span.end;
    let none = words[end..joint].iter().any(|token| token.is_any(words!("none nothing neither")));
    let of_others = after.kinds[0].is_some() || before.kinds[0].is_none();
    // "Wall has rust, I mean really bad rust" says more, and "no, none on Corner" something else.
    if none || after.reports && !of_others {
        return Cow::Borrowed(text);
    }
    // "No rust on Celeste, no wait, there's a bit": rust after all.
    let denied = words[..at].iter().any(|token| token.senses.has(Sense::Negation));
    let some = words[end..joint]
        .iter()
        .any(|token| token.senses.has_any(&[Sense::Trace, Sense::Some, Sense::Heavy]));
    if denied
        && some
        && let Some(trees) = before.kinds[0].clone()
    {
        let (told, named) = (text.get(words[end].span.start..stop), text.get(trees));
        if let (Some(told), Some(named)) = (told, named) {
            return Cow::Owned(format!("rust on {named}, {told}"));
        }
    }
    // Said anew with its verb, it stands by itself.
    if after.reports {
        return Cow::Owned(text.get(words[end].span.start..stop).unwrap_or(text).to_owned());
    }
    // "Ten no twelve off Wall": the one beside the other, and all that follows.
    let beside = before.kinds.iter().zip(&after.kinds).find_map(|(old, new)| {
        let (old, new) = (old.as_ref()?, new.as_ref()?);
        (old.end == words[at - 1].span.end && new.start == words[end].span.start)
            .then(|| Some((text.get(..old.start)?, text.get(new.start..)?)))
            .flatten()
    });
    if let Some((head, rest)) = beside {
        return Cow::Owned(format!("{head}{rest}"));
    }
    // Each kind of thing said anew takes the place of the last of its kind, or goes with what was said.
    let mut mended = text.get(..words[at - 1].span.end).unwrap_or(text).to_owned();
    let mut places: Vec<(Range<usize>, &str)> = Vec::new();
    let mut more = String::new();
    for (old, new) in before.kinds.iter().zip(&after.kinds) {
        let Some(typed) = new.clone().and_then(|new| text.get(new)) else { continue };
        match old {
            Some(old) => places.push((old.clone(), typed)),
            None => more = format!("{more} {typed}"),
        }
    }
    if places.is_empty() {
        return Cow::Borrowed(text);
    }
    places.sort_by_key(|(place, _)| std::cmp::Reverse(place.start));
    for (place, typed) in places {
        mended.replace_range(place, typed);
    }
    let behind = words.get(joint).map_or("", |next| text.get(next.span.start..stop).unwrap_or_default());
    let space = if behind.is_empty() || behind.starts_with(',') { "" } else { " " };
    Cow::Owned(format!("{mended}{more}{space}{behind}"))
}

/// A look at the letters, as nearly all sentences take nothing back.
fn may_take_back(text: &str) -> bool {
    text.split(|letter: char| !letter.is_ascii_alphabetic()).skip(1).any(|word| {
        ["no", "mean", "meant", "rather", "that", "sorry", "oops", "nope", "excuse"]
            .iter()
            .any(|lead| word.eq_ignore_ascii_case(lead))
    })
}

/// Where the words that take something back begin and end; what stands before them ends with a word.
fn taken_back(words: &[Token], names: &[Range<usize>]) -> Option<(usize, usize)> {
    const EARLIEST: usize = 2;
    let (at, end) = (EARLIEST..words.len()).find_map(|at| {
        let end = led(words, at)
            .or_else(|| between_alike(words, at))
            .or_else(|| between_names(words, at, names))
            .or_else(|| at_a_slip(words, at, names))?;
        Some((at, end + words[end..].iter().take_while(|token| token.is_mark()).count()))
    })?;
    let last = (0..at).rev().find(|before| !words[*before].is_mark())?;
    (end < words.len()).then_some((last + 1, end))
}

/// The longest of the words that take back, at a place; marks between them count for nothing.
fn led(words: &[Token], at: usize) -> Option<usize> {
    let matches = |lead: &&str| {
        let mut next = at;
        for word in lead.split(' ') {
            while next > at && words.get(next).is_some_and(Token::is_mark) {
                next += 1;
            }
            words.get(next).filter(|token| token.is(word))?;
            next += 1;
        }
        Some(next)
    };
    TAKES_BACK.iter().filter_map(matches).max()
}

/// "Watered Celeste no Big One 2 gallons".
fn between_names(words: &[Token], at: usize, names: &[Range<usize>]) -> Option<usize> {
    let after = at + 1;
    let next = names.iter().find(|name| name.start == after)?;
    let shows =
        words.get(next.end).is_some_and(|word| word.senses.has_any(&[Sense::Rust, Sense::Spots, Sense::Fig]));
    (words[at].is_any(words!("no sorry oops whoops")) && names.iter().any(|name| name.end == at) && !shows)
        .then_some(after)
}

/// "Celeste, no, Eave", "on Celeste, sorry on Corner", "from Corner, no excuse me from Wall", "copper, no sulfur, on Wall":
/// between marks, and of the kind of what stood before.
fn at_a_slip(words: &[Token], at: usize, names: &[Range<usize>]) -> Option<usize> {
    if !words[at - 1].is_mark() || words[at - 1].is_any(words!(". ! ?")) {
        return None;
    }
    let run = words[at..]
        .iter()
        .take_while(|word| {
            word.is_any(words!(
                "no sorry oops whoops excuse me wait well nope rather i mean hang on er um , - . …"
            ))
        })
        .count();
    let after = at + run;
    let takes = words[at..after]
        .iter()
        .any(|word| word.is_any(words!("no sorry oops whoops excuse nope rather mean")));
    let led = after
        + usize::from(
            words.get(after).is_some_and(|word| word.is_any(words!("on off from at to in for the"))),
        );
    let led = led + usize::from(words.get(led).is_some_and(|word| word.is("the")));
    let ends = |name: &Range<usize>| name.end < at && words[name.end..at].iter().all(Token::is_mark);
    let name = names.iter().any(|name| name.start == led) && names.iter().any(ends);
    let spray = |word: &Token| word.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]);
    let before = words[..at].iter().rev().find(|word| !word.is_mark());
    let product = before.is_some_and(spray) && words.get(led).is_some_and(spray);
    let next = names.iter().find(|name| name.start == led).map_or(led + 1, |name| name.end);
    let tells = words.get(next).is_some_and(|word| {
        word.senses.has_any(&[
            Sense::Rust,
            Sense::Spots,
            Sense::Be,
            Sense::Have,
            Sense::Clean,
            Sense::Dry,
            Sense::Wet,
            Sense::Moist,
        ]) && !word.is_any(words!("doing"))
    });
    (run > 0 && takes && (name || product) && !tells).then_some(led)
}

/// "Monday no Tuesday", "at 7, no, 6:30": a bare "no" between two of a kind.
fn between_alike(words: &[Token], at: usize) -> Option<usize> {
    if !words[at].is_any(words!("no sorry oops whoops")) {
        return None;
    }
    let after = at + 1 + words[at + 1..].iter().take_while(|token| token.is_mark()).count();
    let both = |fits: &dyn Fn(&Token) -> bool| {
        let before = words[..at].iter().rev().find(|token| !token.is_mark());
        before.is_some_and(fits) && words.get(after).is_some_and(fits)
    };
    let day = |token: &Token| {
        token.senses.has(Sense::Time) && !token.is_any(words!("ago last before after since when while"))
    };
    // "Picked 5 off Wall, no 6, and 3 off Corner"
    let figures = words[..at].iter().filter(|token| token.number.is_some()).count();
    let alone = figures == 1 && words.get(after).is_some_and(|token| token.number.is_some()) && {
        let measured = words
            .get(after + 1)
            .is_some_and(|unit| unit.senses.has(Sense::Unit) || unit.is_any(words!("% percent pct")));
        words.get(after + 1 + usize::from(measured)).is_none_or(Token::is_mark)
    };
    // "Celeste no not Celeste I watered Big One": said anew behind what it was not.
    let after_not = words.get(after).is_some_and(|token| token.is("not")).then(|| {
        (after + 1..words.len().min(after + 5))
            .find(|at| words[*at].is_any(words!("i we it")) || words[*at].is(","))
    });
    if let Some(Some(anew)) = after_not
        && !words[at - 1].senses.has_any(&[Sense::Be, Sense::Have])
    {
        return Some(anew);
    }
    let spray = |token: &Token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]);
    let run_on = !words[at - 1].is_mark() && words.get(at + 1).is_some_and(|next| !next.is_mark());
    (alone || run_on && both(&spray) || both(&day) || both(&|token| token.number.is_some())).then_some(after)
}

/// The last of places that follow each other.
fn last_run(places: &[usize]) -> Option<Range<usize>> {
    let last = *places.last()?;
    let first = places.iter().rev().zip((0..=last).rev()).take_while(|(place, wanted)| **place == *wanted);
    Some(first.map(|(place, _)| *place).last()?..last + 1)
}

/// What a stretch of a sentence says, and where in the text.
struct Said {
    /// With a verb of its own.
    reports: bool,
    /// It reports, or sets the hour of the brief.
    opens: bool,
    /// Trees, spray, amount, moment.
    kinds: [Option<Range<usize>>; 4],
}

impl Said {
    fn by(text: &str, words: &[Token], range: Range<usize>, names: &Names, context: &Context) -> Self {
        let words = &words[range];
        let mentions = names.mentions(words, text);
        let named: Vec<usize> = mentions.iter().flat_map(|mention| mention.range.clone()).collect();
        let when = moment(words, &named, now(context)).used;
        let mut taken = named.clone();
        taken.extend(&when);
        let amounts = amounts(words, &taken, context.garden.units);
        let span = |from: usize, to: usize| {
            Some(words.get(from)?.span.start..words.get(to.checked_sub(1)?)?.span.end)
        };
        let product = names.products_in(words, &named).into_iter().rev().find_map(|product| match product {
            Product::Known { used, .. } => span(*used.first()?, used.last()? + 1),
            _ => None,
        });
        let reports = words.iter().any(|token| {
            token.senses.has_any(&[
                Sense::Sprayed,
                Sense::Watered,
                Sense::Picked,
                Sense::Rust,
                Sense::Spots,
                Sense::Gave,
                Sense::Took,
                Sense::Gauge,
                Sense::Rain,
                Sense::Dry,
                Sense::Wet,
                Sense::Moist,
                Sense::Drop,
            ])
        });
        let sets = words.iter().any(|token| token.is_any(words!("morning brief message")));
        let kinds = [
            mentions.last().and_then(|mention| span(mention.range.start, mention.range.end)),
            product.clone(),
            amounts.last().and_then(|measured| span(measured.from, measured.to)),
            last_run(&when).and_then(|run| span(run.start, run.end)),
        ];
        // "30 figs from Wall"
        let counted = !amounts.is_empty() && !mentions.is_empty();
        // "How is Wall, sorry, Corner doing?", "can I spray copper, no sulfur"
        let asks = words
            .first()
            .is_some_and(|first| first.is_any(words!("how how's is can should did when does do what")))
            && (!mentions.is_empty() || product.is_some());
        let opens = reports || sets || counted || asks || product.is_some() && !mentions.is_empty();
        Self { reports, opens, kinds }
    }
}
