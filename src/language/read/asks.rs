//! Questions.

use super::Speech;
use super::amounts::{Amount, amounts};
use super::clauses::Asked;
use super::lexicon::Sense;
use super::names::Product;
use super::tokens::Token;
use crate::season::request::{Question, Reading, Request, Selection};

/// Reads a sentence as a question, if it is one.
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> bool {
    if !is_question(speech) {
        return false;
    }
    let Some(question) = question(speech) else { return false };
    reading.requests.push(Request::Ask(question));
    true
}

/// By its mark, by its first word, or as a bare wish ("forecast", "help", "spray today").
fn is_question(speech: &Speech) -> bool {
    let words: Vec<&Token> = speech.tokens.iter().filter(|token| !token.is_mark()).collect();
    let Some(first) = words.first() else { return false };
    let opens = |token: &Token| {
        token.is_any(&[
            "should", "shall", "do", "does", "did", "can", "could", "is", "are", "am", "when", "what",
            "whats", "what's", "how", "hows", "how's", "why", "which", "who", "will", "would", "any", "was",
            "were", "where", "worth", "need", "ok", "okay", "safe", "tell", "show", "give", "compare",
            "list", "mix", "explain", "wats", "shud", "shld", "wot", "whens", "when's",
        ])
    };
    // "Did copper on everything" reports, "did I spray" asks: the next word tells.
    let ambiguous = first.is_any(&[
        "will", "should", "did", "do", "does", "is", "are", "was", "were", "need", "ok", "okay", "give",
        "am", "any",
    ]);
    let asks = words.get(1).is_some_and(|next| {
        // "Will water tonight" leaves its "I" out.
        !(first.is("will") && next.is_any(&["spray", "water"]))
            && (next.is_any(&[
                "i", "we", "you", "it", "they", "the", "my", "there", "this", "that", "a", "rust", "frost",
                "spraying", "watering", "rain", "anything", "me", "any", "chance", "spray", "water",
            ]) || next.text.starts_with('@'))
    });
    // "When it cools down I'll spray" sets a condition.
    let condition = first.is("when")
        && !words.get(1).is_some_and(|next| {
            next.is_any(&["is", "will", "did", "do", "should", "can", "was", "are", "would", "does"])
        });
    speech.asked == Asked::Yes
        || (opens(first) && !condition && (!ambiguous || asks))
        || is_bare(&words)
        || words
            .first()
            .is_some_and(|token| token.is_any(&["so", "and", "but", "hey", "hmm", "well", "please"]))
            && words.get(1).is_some_and(|token| opens(token))
}

fn is_bare(words: &[&Token]) -> bool {
    let line: Vec<&str> = words.iter().map(|token| token.text.as_str()).collect();
    let line = line.join(" ");
    matches!(
        line.as_str(),
        "help"
            | "help me"
            | "commands"
            | "menu"
            | "why"
            | "forecast"
            | "weather"
            | "ahead"
            | "outlook"
            | "frost"
            | "season"
            | "summary"
            | "status"
            | "log"
            | "journal"
            | "history"
            | "spray"
            | "spray today"
            | "spray now"
            | "spray this week"
            | "spray tonight"
            | "spray tomorrow"
            | "water"
            | "water today"
            | "watering"
            | "mix"
            | "settings"
            | "my garden"
            | "garden"
            | "trees"
            | "my trees"
            | "my settings"
            | "pots vs ground"
            | "pots against ground"
            | "pots or ground"
            | "pots versus ground"
            | "season so far"
            | "whats ahead"
            | "the week ahead"
            | "worth spraying"
            | "frost date"
            | "people"
            | "products"
    )
}

fn question(speech: &Speech) -> Option<Question> {
    let tokens = speech.tokens;
    let any = |texts: &[&str]| tokens.iter().any(|token| token.is_any(texts));
    let has = |sense: Sense| tokens.iter().any(|token| token.senses.has(sense));
    let trees = || speech.names.trees(tokens, speech.text).selection.unwrap_or(Selection::Unsaid);
    let product = || match speech.names.product(tokens) {
        Product::Known { name, .. } => Some(name),
        _ => None,
    };
    let spraying = any(&[
        "spray",
        "spraying",
        "sprayed",
        "treat",
        "treating",
        "treatment",
        "sprays",
        "respray",
        "spay",
        "sray",
    ]);
    if any(&["know"]) && any(&["garden"]) {
        return Some(Question::Garden);
    }
    if any(&["help", "commands"]) && tokens.len() <= 5
        || any(&["what"]) && any(&["can", "do"]) && any(&["you"]) && !spraying
    {
        return Some(Question::Help);
    }
    let how_come = tokens.windows(2).any(|pair| pair[0].is("how") && pair[1].is("come"));
    if how_come || any(&["why"]) || any(&["reason", "reasons", "explain"]) {
        return Some(Question::Why);
    }
    let against = any(&[
        "vs",
        "versus",
        "against",
        "compare",
        "compared",
        "better",
        "worse",
        "than",
        "difference",
        "fare",
    ]);
    if has(Sense::Pots) && any(&["ground", "inground"]) && against || any(&["compare"]) {
        return Some(Question::Compare);
    }
    if is_mix(speech, spraying) {
        let volume =
            amounts(tokens, &[], speech.context.garden.units).into_iter().find_map(|measured| match measured
                .amount
            {
                Amount::Volume(volume) => Some(volume),
                _ => None,
            });
        return Some(Question::Mix { product: product(), volume });
    }
    if is_about_done(tokens) {
        return Some(Question::Done { trees: trees() });
    }
    if any(&["season", "year", "summary", "totals"]) && !spraying && !has(Sense::Frost) && !any(&["forecast"])
    {
        return Some(Question::Season);
    }
    if spraying
        || (has(Sense::Copper) || has(Sense::Sulfur) || has(Sense::Oil)) && !any(&["label"])
        || any(&["worth"]) && (has(Sense::Rust) || any(&["it", "bothering", "treating"]))
        || any(&["rust"]) && any(&["matter", "worry", "bother", "do", "problem", "late", "risk"])
    {
        return Some(Question::Spray { product: product(), trees: trees() });
    }
    if has(Sense::Frost) || any(&["cold"]) && any(&["tonight", "night"]) || any(&["frost", "freeze"]) {
        return Some(Question::Frost);
    }
    let watering =
        any(&["water", "watering", "watered", "irrigate", "thirsty", "drink", "wattering", "watr", "soak"])
            || (has(Sense::Dry) && !has(Sense::Leaf));
    if watering {
        return Some(Question::Water { trees: trees() });
    }
    if any(&["garden", "settings", "know", "products", "people"]) && !any(&["coming", "weather"])
        || any(&["trees"]) && any(&["what", "which", "list", "show", "my"]) && trees() == Selection::Unsaid
    {
        return Some(Question::Garden);
    }
    let ahead = any(&[
        "coming", "ahead", "forecast", "outlook", "weather", "rain", "week", "tomorrow", "today", "tonight",
        "days", "upcoming", "expect", "storm", "hot", "next", "weekend",
    ]);
    let named = speech.names.trees(tokens, speech.text).selection;
    if let Some(selection) = named {
        return Some(Question::Tree { trees: selection });
    }
    if ahead {
        return Some(Question::Ahead);
    }
    if any(&["how"]) && any(&["everything", "things", "they", "doing", "figs", "trees"])
        || any(&["status", "ripe", "ripen"])
    {
        return Some(Question::Tree { trees: Selection::All });
    }
    None
}

fn is_mix(speech: &Speech, spraying: bool) -> bool {
    let tokens = speech.tokens;
    let any = |texts: &[&str]| tokens.iter().any(|token| token.is_any(texts));
    let how_much = tokens.windows(2).any(|pair| pair[0].is("how") && pair[1].is_any(&["much", "many"]));
    let product = matches!(
        speech.names.product(tokens),
        Product::Known { .. } | Product::Several { .. } | Product::Unknown { .. }
    );
    let mixing = any(&[
        "mix",
        "rate",
        "dose",
        "dilute",
        "dilution",
        "strength",
        "measure",
        "tablespoons",
        "teaspoons",
        "ounces",
        "grams",
    ]);
    (mixing && !any(&["soil", "potting"]) && (how_much || any(&["what", "what's", "whats", "mix"])))
        || (how_much && product && !spraying)
        || (how_much
            && product
            && any(&["gallon", "gallons", "litre", "litres", "liter", "liters", "sprayer", "tank"]))
}

/// "When did I last spray?", "what was done on Celeste?", "show the log".
fn is_about_done(tokens: &[Token]) -> bool {
    let any = |texts: &[&str]| tokens.iter().any(|token| token.is_any(texts));
    let past = any(&["did", "done", "was", "were", "have"]) && any(&["when", "what", "last", "many", "how"]);
    let last = any(&["last"])
        && any(&[
            "sprayed", "spray", "watered", "picked", "pick", "water", "entries", "notes", "reports",
            "spraying",
        ]);
    let log = any(&["log", "journal", "history", "entries", "records"])
        || tokens.windows(3).any(|three| {
            three[0].is("what")
                && three[1].is_any(&["was", "is", "has", "did", "have"])
                && three[2].is_any(&["done", "been", "noted", "recorded"])
        })
        || tokens
            .windows(3)
            .any(|three| three[0].is("what") && three[1].is("did") && three[2].is_any(&["i", "we"]));
    log || last && any(&["when", "what", "which", "was", "show", "did"])
        || past
            && any(&["i", "we", "you", "been"])
            && any(&["did", "done", "have", "had"])
            && !any(&["season", "should", "year"])
            && any(&[
                "spray", "sprayed", "water", "watered", "pick", "picked", "do", "done", "report", "record",
                "recorded", "say", "said", "note", "noted",
            ])
}
