//! Sprays, and what their labels say, as the grower reads it out.

use super::{Found, any, clean};
use crate::language::read::Speech;
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::season::garden::{Active, Carrier, LabelListing, Rate};
use crate::season::request::{ProductDetails, Setting};
use crate::units::{Celsius, Days, Fraction, Hours};

/// "copper: 2 tbsp per gallon, every 10 days, max 6, phi 0, rei 24 h, not above 90F, lists figs".
pub(super) fn read(speech: &Speech) -> Option<Found> {
    if speech.asked == Asked::Yes {
        return None;
    }
    let tokens = speech.tokens;
    let adds = tokens.first().is_some_and(|first| first.is_any(&["add", "new", "my", "product"]))
        && any(tokens, &["product", "spray", "copper", "sulfur", "sulphur", "oil", "neem"])
        && !any(tokens, &["tree", "pot"]);
    let label = facts(tokens);
    let colon = tokens.iter().position(|token| token.is(":"));
    let known = colon
        .map(|colon| clean(speech.typed(0, colon)))
        .and_then(|name| speech.context.garden.product(&name).map(|product| product.name.clone()));
    let named = product_named(speech);
    // "copper: 2 tbsp per gallon, every 10 days" names a product by its label though nobody knows it yet.
    let is_a_spray = [Sense::Copper, Sense::Sulfur, Sense::Oil]
        .into_iter()
        .any(|sense| tokens.iter().any(|token| token.senses.has(sense)));
    let labelled = colon.is_some()
        && is_label_talk(tokens)
        && (label.details.rate.is_some() || is_a_spray && label.says_something());
    if !(adds
        || labelled
        || known.is_some()
        || (named.is_some() && label.says_something() && is_label_talk(tokens)))
    {
        return None;
    }
    // "Add product lime sulfur" is a new one, whatever known name stands in its own.
    let fresh = if adds { new_name(speech, colon) } else { None };
    let name = fresh.or(known).or(named).or_else(|| new_name(speech, colon))?;
    let mut details = ProductDetails { name, ..label.details };
    let has = |sense| tokens.iter().any(|token| token.senses.has(sense));
    if speech.context.garden.product(&details.name).is_none() {
        // Lime sulfur is corrosive and another thing than sulfur.
        let lime = any(tokens, &["lime"]);
        details.active = Some(if lime {
            Active::Other
        } else if has(Sense::Copper) {
            Active::Copper
        } else if has(Sense::Sulfur) {
            Active::Sulfur
        } else if has(Sense::Oil) {
            Active::Oil
        } else {
            Active::Other
        });
    }
    if any(tokens, &["oil-based", "oily", "emulsified"])
        || tokens.windows(2).any(|pair| pair[0].is("oil") && pair[1].is("based"))
        || has(Sense::Oil)
    {
        details.carrier = Some(Carrier::Oil);
    }
    Some(Setting::Product(details).into())
}

/// Whether the words are of a label: a report of a spray has a moment or a tree, a label has limits.
fn is_label_talk(tokens: &[Token]) -> bool {
    any(
        tokens,
        &[
            "label", "rate", "per", "phi", "rei", "max", "maximum", "every", "interval", "above", "over",
            "lists", "/",
        ],
    ) && !any(tokens, &["sprayed", "did", "yesterday", "today"])
}

fn product_named(speech: &Speech) -> Option<String> {
    match speech.names.product(speech.tokens) {
        crate::language::read::names::Product::Known { name, .. } => Some(name),
        _ => None,
    }
}

/// The words before the colon, or before the first figure, without "add" and "my".
fn new_name(speech: &Speech, colon: Option<usize>) -> Option<String> {
    let tokens = speech.tokens;
    let start = tokens.iter().position(|token| {
        !token.is_any(&[
            "add", "new", "my", "a", "an", "the", "product", "spray", "called", "is", ":", "i", "have", "use",
        ])
    })?;
    let end = colon.filter(|colon| *colon > start).unwrap_or_else(|| {
        (start..tokens.len())
            .find(|index| {
                tokens[*index].number.is_some()
                    || tokens[*index].is_any(&[",", "(", "is", "label", "rate", "-"])
            })
            .unwrap_or(tokens.len())
    });
    let name = clean(speech.typed(start, end));
    (!name.is_empty() && name.split_whitespace().count() <= 5).then_some(name)
}

#[derive(Default)]
struct LabelFacts {
    details: ProductDetails,
}

impl LabelFacts {
    fn says_something(&self) -> bool {
        self.details != ProductDetails::default()
    }
}

fn facts(tokens: &[Token]) -> LabelFacts {
    let mut details = ProductDetails { rate: rate(tokens), ..ProductDetails::default() };
    for (index, token) in tokens.iter().enumerate() {
        let Some(number) = token.number else { continue };
        let before = |texts: &[&str]| tokens[..index].iter().rev().take(3).any(|token| token.is_any(texts));
        let after = |texts: &[&str]| tokens[index + 1..].iter().take(4).any(|token| token.is_any(texts));
        let next = |texts: &[&str]| tokens.get(index + 1).is_some_and(|token| token.is_any(texts));
        let days = next(&["day", "days", "d"]);
        let hours = next(&["hour", "hours", "h", "hr", "hrs"]);
        let harvest = before(&["phi", "harvest"]) || after(&["harvest", "picking"]) && days;
        let reentry = before(&["rei", "reentry", "entry"]) || after(&["reentry", "entry"]) && hours;
        if harvest {
            details.before_harvest = Some(Days::new(number));
        } else if reentry {
            let hours = if days { number * 24.0 } else { number };
            details.before_reentry = Some(Hours::new(hours));
        } else if before(&["max", "maximum", "most", "limit"]) && !next(&["f", "c", "°", "degrees"])
            || next(&["times", "applications", "sprays"])
        {
            details.most_applications = (1.0..100.0).contains(&number).then_some(number as u32);
        } else if before(&["every", "interval", "repeat", "again"])
            && (days || next(&["week", "weeks", "-", "to"]))
        {
            let unit = if after(&["week", "weeks"]) && !days { 7.0 } else { 1.0 };
            // "every 7 to 10 days": the shorter is the least the label allows.
            details.interval = Some(Days::new(number * unit));
        } else if before(&["above", "over", "exceeds", "hotter"])
            || before(&["max"]) && next(&["f", "c", "°", "degrees"])
        {
            let fahrenheit = next(&["f"]) || after(&["f", "fahrenheit"]) || (number > 45.0);
            details.hottest =
                Some(if fahrenheit { Celsius::from_fahrenheit(number) } else { Celsius::new(number) });
        } else if next(&["%", "percent"])
            && tokens.iter().any(|token| token.senses.has(Sense::Copper))
            && (before(&["copper", "metallic", "cu"]) || after(&["copper", "metallic", "cu"]))
        {
            details.copper_content = Fraction::from_percent(number);
        }
    }
    let lists = any(tokens, &["figs", "fig"])
        && any(tokens, &["lists", "listed", "labelled", "labeled", "lists", "for", "names"]);
    if lists {
        let negated =
            any(tokens, &["not", "no", "isn't", "doesn't", "isnt", "doesnt"]) && !any(tokens, &["above"]);
        details.lists_figs = Some(if negated { LabelListing::NotListed } else { LabelListing::Listed });
    }
    LabelFacts { details }
}

/// "2 tbsp per gallon", "2 g/L", "0.5 oz/gal", "16 ml per litre".
fn rate(tokens: &[Token]) -> Option<Rate> {
    tokens.iter().enumerate().find_map(|(index, token)| {
        let number = token.number.filter(|number| *number > 0.0)?;
        let unit = tokens.get(index + 1)?;
        let (mut at, fluid) = (index + 2, unit.is_any(&["fl", "fluid"]));
        let unit = if fluid {
            at += 1;
            tokens.get(index + 2)?
        } else {
            unit
        };
        let per = tokens.get(at).is_some_and(|token| token.is_any(&["per", "/", "a", "to", "in"]));
        let skip =
            usize::from(tokens.get(at + 1).is_some_and(|token| token.is_any(&["a", "the", "each", "one"])));
        let base = tokens.get(at + 1 + skip)?;
        let (count, base) = match base.number {
            Some(count) => (count, tokens.get(at + 2 + skip)?),
            None => (1.0, base),
        };
        let litres = count
            * match base.text.as_str() {
                "gallon" | "gallons" | "gal" => 3.785_411_784,
                "l" | "litre" | "liter" | "litres" | "liters" => 1.0,
                "quart" | "quarts" | "qt" => 0.946_352_946,
                _ => return None,
            };
        if !per || litres <= 0.0 {
            return None;
        }
        match unit.text.as_str() {
            // US measures by definition: 1 tbsp is 14.78676 mL, 1 tsp a third of it, 1 fl oz two.
            "tbsp" | "tablespoon" | "tablespoons" => {
                Some(Rate::MillilitresPerLitre(number * 14.786_76 / litres))
            }
            "tsp" | "teaspoon" | "teaspoons" => Some(Rate::MillilitresPerLitre(number * 4.928_92 / litres)),
            "ml" => Some(Rate::MillilitresPerLitre(number / litres)),
            "oz" | "ounce" | "ounces" if fluid => {
                Some(Rate::MillilitresPerLitre(number * 29.573_53 / litres))
            }
            "oz" | "ounce" | "ounces" => Some(Rate::GramsPerLitre(number * 28.349_523 / litres)),
            "g" | "gram" | "grams" => Some(Rate::GramsPerLitre(number / litres)),
            "lb" | "lbs" | "pound" | "pounds" => Some(Rate::GramsPerLitre(number * 453.592_37 / litres)),
            "cup" | "cups" => Some(Rate::MillilitresPerLitre(number * 236.588_236_5 / litres)),
            _ => None,
        }
    })
}
