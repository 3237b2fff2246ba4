//! Two things settled or asked in one message: "Rename Whip to Sprout, and it is in a 7 gallon pot now", "why did you
//! say to spray, & how is Wall doing?".
//!
//! Read in two only where the whole told of one or of none, and each part is understood to its end by itself: what the
//! whole did tell must be told by the parts too, and nothing may be doubted. Reports are joined by `records`, which
//! knows what one clause owes the other; here no report is added.

use super::names::Names;
use super::word_list::words;
use super::{Context, fresh, story, tokens};
use crate::season::garden::Garden;
use crate::season::journal::{Entry, Report, Timing, What};
use crate::season::request::{Question, Reading, Request, Selection, Setting};
use crate::season::selection::selected;

const JOINTS: [&str; 14] = [
    ". ", "! ", "? ", "; ", ", and ", ", & ", " & ", " and ", ", ", " - ", " n ", " then ", " also ",
    " plus ",
];

/// A message in two parts that tell more than the whole of it, if there is such a cut.
pub(super) fn read(text: &str, whole: &Reading, context: &Context) -> Option<Reading> {
    const MOST_MORE: usize = 2;
    in_parts(text, whole, context, MOST_MORE)
}

fn in_parts(text: &str, whole: &Reading, context: &Context, depth: usize) -> Option<Reading> {
    let read = |told: &str, context: &Context| {
        let names = Names::of(context.garden);
        let whole = fresh(told, &names, context);
        story::left_out(told, &whole, context, |told| fresh(told, &names, context)).unwrap_or(whole)
    };
    const MOST_WORDS: usize = 45;
    // Each cut reads both parts, and the second may be cut again.
    let most_cuts = 2 << depth;
    if text.contains('\n') || text.split_whitespace().count() > MOST_WORDS || !may_tell_two(text, whole) {
        return None;
    }
    let mut cuts: Vec<(usize, usize)> = JOINTS
        .iter()
        .flat_map(|joint| text.match_indices(joint).map(|(at, joint)| (at, at + joint.len())))
        .collect();
    cuts.sort_unstable();
    cuts.dedup_by_key(|(_, behind)| *behind);
    cuts.into_iter().take(most_cuts).find_map(|(at, behind)| {
        let mark = usize::from(text[at..].starts_with(['?', '!', '.']));
        let first = read(&text[..at + mark], context);
        let told = spoken(&first)?;
        let tail = behind_its_and(&text[behind..]);
        let known_before = context.garden;
        let garden = with_settings(&first, context);
        let last =
            trees_of(&told).map(|trees| subject(&trees, &garden, context)).or_else(|| context.last.cloned());
        let context = Context { garden: &garden, last: last.as_ref(), last_message: &[], ..*context };
        let tail = &match trees_of(&told) {
            None if points_back(tail) => with_product(tail, told.last()?)?,
            _ => tail.to_owned(),
        };
        let second = read(tail, &context);
        let second =
            (depth > 0).then(|| in_parts(tail, &second, &context, depth - 1)).flatten().unwrap_or(second);
        let more = spoken(&second)?;
        let requests: Vec<Request> = told.iter().chain(&more).map(|request| (*request).clone()).collect();
        let known: Vec<&Request> = without_asides(whole).collect();
        // "@lois is our new helper, take @bo off the list": read as one, it is neither.
        let two_people = text.matches('@').count() == 2
            && [&first, &second].iter().all(|part| {
                matches!(
                    part.requests.as_slice(),
                    [Request::Set(Setting::Person { .. } | Setting::RemovePerson { .. })]
                )
            });
        if two_people {
            return Some(Reading { requests, doubts: Vec::new(), ..whole.clone() });
        }
        let kept = known.iter().all(|request| requests.contains(request) || is_cut_off(request, &requests));
        let added: Vec<&Request> = requests.iter().filter(|request| !known.contains(request)).collect();
        let asked = is_question(tail) && &text[at..behind] != ", ";
        let settled = added.iter().all(|request| match request {
            Request::Set(setting) => is_alone(setting, &requests, known_before),
            Request::Ask(question) => asked && is_of_its_own(question, &known),
            _ => false,
        });
        (kept && settled && !added.is_empty()).then(|| Reading {
            requests,
            doubts: Vec::new(),
            ..whole.clone()
        })
    })
}

/// Whether it is worth a second look: something is settled or asked in it, or the whole of it was not understood.
fn may_tell_two(text: &str, whole: &Reading) -> bool {
    let asks = whole.requests.iter().any(|request| matches!(request, Request::Set(_) | Request::Ask(_)));
    let undone = whole.requests.contains(&Request::Undo);
    asks || undone || text.contains('?') || without_asides(whole).next().is_none() && may_settle(text)
}

/// Most talk settles nothing and asks nothing: told by its words before it is cut up.
fn may_settle(text: &str) -> bool {
    const CUES: [&str; 22] = [
        "messag", "msg", "text", "brief", "bug", "ping", "remind", "report", "quiet", "call", "name",
        "metric", "units", "frost", "every", "add", "remove", "room", "what", "how", "should", "can i",
    ];
    let lower = text.to_ascii_lowercase();
    text.contains('@') || CUES.iter().any(|cue| lower.contains(cue))
}

fn without_asides(reading: &Reading) -> impl Iterator<Item = &Request> {
    reading.requests.iter().filter(|request| !matches!(request, Request::Aside(_) | Request::Greet))
}

/// What a part tells, if it is understood to its end.
fn spoken(part: &Reading) -> Option<Vec<&Request>> {
    let told: Vec<&Request> = without_asides(part).collect();
    (part.doubts.is_empty() && !told.is_empty()).then_some(told)
}

fn behind_its_and(tail: &str) -> &str {
    let tail = tail.trim_start();
    ["and ", "And ", "& ", "also ", "Also ", "then ", "oh and "]
        .iter()
        .find_map(|lead| tail.strip_prefix(lead))
        .unwrap_or(tail)
}

/// "Is it ripe yet?" asks of what was spoken of.
pub(super) fn points_back(tail: &str) -> bool {
    tokens::tokens(tail)
        .iter()
        .any(|token| token.is_any(words!("it its it's they their them she her he his him that there")))
}

fn with_settings(first: &Reading, context: &Context) -> Garden {
    let mut garden = context.garden.clone();
    for request in &first.requests {
        if let Request::Set(setting) = request {
            setting.apply(&mut garden);
        }
    }
    garden
}

/// The trees the first part spoke of last.
fn trees_of(told: &[&Request]) -> Option<Selection> {
    match told.last()? {
        Request::Record(record) => Some(record.trees.clone()),
        Request::Ask(
            Question::Tree { trees }
            | Question::Water { trees }
            | Question::Spray { trees, .. }
            | Question::Done { trees, .. }
            | Question::Picking { trees, .. },
        ) => Some(trees.clone()),
        Request::Set(Setting::RenameTree { to, .. }) => Some(Selection::Named(vec![to.clone()])),
        Request::Set(Setting::Tree(details)) => Some(Selection::Named(vec![details.name.clone()])),
        _ => None,
    }
    .filter(|trees| *trees != Selection::Unsaid)
}

fn subject(trees: &Selection, garden: &Garden, context: &Context) -> Entry {
    Entry {
        who: crate::identity::PersonId::new(""),
        event: crate::identity::EventId::new(""),
        said: context.at,
        happened: context.at,
        timing: Timing::Assumed,
        what: What::Report { trees: selected(garden, trees), report: Report::Planted },
    }
}

/// "..., and is it ripe?", "& what can I even ask you?"
fn is_question(tail: &str) -> bool {
    let tokens = tokens::tokens(tail);
    tokens.first().is_some_and(|first| {
        first.is_any(words!(
            "whether what what's whats how how's hows when when's why who where which is are do does did can could may should must am"
        ))
    }) && tokens.iter().filter(|token| token.is_word()).count() > 1
}

/// One setting of its kind, or one of a tree, a spray or a person of its own.
fn is_alone(setting: &Setting, requests: &[Request], garden: &Garden) -> bool {
    let kind = |other: &Setting| std::mem::discriminant(other) == std::mem::discriminant(setting);
    let of_kind: Vec<&Setting> = requests
        .iter()
        .filter_map(|request| match request {
            Request::Set(other) if kind(other) => Some(other),
            _ => None,
        })
        .collect();
    match setting {
        // "..., we're in Cornwall" tells where one is today.
        Setting::Place { .. } => false,
        // "Please add Toby, he is @toby:home.example": half of it may look like a new tree.
        Setting::Tree(details) => {
            let renamed = requests.iter().any(|request| {
                matches!(request, Request::Set(Setting::RenameTree { to, .. }) if *to == details.name)
            });
            of_kind.len() == 1 && (renamed || garden.tree(&details.name).is_some())
        }
        Setting::Product(_) | Setting::Person { .. } => true,
        _ => of_kind.len() == 1,
    }
}

/// What is asked in the second half is not what the first asked in other words.
fn is_of_its_own(question: &Question, known: &[&Request]) -> bool {
    let asked: Vec<&Question> = known
        .iter()
        .filter_map(|request| match request {
            Request::Ask(Question::Tree { trees: Selection::All }) => None,
            Request::Ask(question) => Some(question),
            _ => None,
        })
        .collect();
    let kind = |other: &&Question| std::mem::discriminant(*other) == std::mem::discriminant(question);
    match question {
        Question::Compare | Question::Season | Question::Ahead => asked.is_empty(),
        Question::Tree { trees: Selection::All | Selection::Unsaid | Selection::Group(_) } => false,
        Question::Done { .. } => !asked.iter().any(|other| matches!(other, Question::Tree { .. })),
        // "How often may copper be used, and how safe is it?"
        Question::Product { .. } | Question::Spray { .. } => {
            !asked.iter().any(|other| matches!(other, Question::Product { .. } | Question::Spray { .. }))
        }
        _ => !asked.iter().any(kind),
    }
}

/// "Call the garden Plum Corner | and messages at 7": the name was read on over the joint.
fn is_cut_off(request: &Request, requests: &[Request]) -> bool {
    match request {
        Request::Set(Setting::Name { name: long }) => requests.iter().any(
            |other| matches!(other, Request::Set(Setting::Name { name }) if long.starts_with(name.as_str())),
        ),
        // "What did I do to Corner last? And is it ripe yet?": Corner.
        Request::Ask(Question::Tree { trees: Selection::All }) => requests.iter().any(|other| {
            matches!(other, Request::Ask(Question::Tree { trees } | Question::Picking { trees, .. })
                if matches!(trees, Selection::Named(_)))
        }),
        _ => false,
    }
}

/// "How long do I wait after copper, and can I mix it with sulfur?": "it" is the copper.
fn with_product(tail: &str, told: &Request) -> Option<String> {
    let Request::Ask(
        Question::Product { product: Some(product) }
        | Question::Picking { product: Some(product), .. }
        | Question::Spray { product: Some(product), .. }
        | Question::Mix { product: Some(product), .. },
    ) = told
    else {
        return None;
    };
    let tokens = tokens::tokens(tail);
    let it = tokens.iter().find(|token| token.is_any(words!("it that")))?;
    Some(format!("{}{product}{}", &tail[..it.span.start], &tail[it.span.end..]))
}
