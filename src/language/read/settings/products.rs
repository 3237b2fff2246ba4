//! Sprays, and what their labels say, as the grower reads it out.

use super::{Found, any, clean, label_days};
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::names::{Names, Product};
use crate::language::read::tokens::Token;
use crate::language::read::tokens::tokens;
use crate::language::read::word_list::{WordList, words};
use crate::language::read::{Context, Speech};
use crate::season::garden::{Active, Carrier, LabelListing, Rate};
use crate::season::request::{ProductDetails, Reading, Request, Setting};
use crate::units::{Celsius, Fraction, Hours, measures};

/// A label's limit beyond this, in degrees Celsius, is a slip.
const HOTTEST_TOLD: f64 = 60.0;

/// "copper: 2 tbsp per gallon, every 10 days, max 6, phi 0, rei 24 h, not above 90F, lists figs".
pub(super) fn read(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    if let Some(removed) = removed(speech) {
        return Some(removed);
    }
    // "I wouldn't use sulfur when it's over 90" is advice, and settles nothing.
    let advice = tokens.iter().any(|token| token.is_any(words!("wouldn't wouldnt shouldn't shouldnt would")));
    if speech.asked == Asked::Yes || is_hearsay(tokens) || advice {
        return None;
    }
    if let Some(name) = added_behind(speech) {
        return Some(Setting::Product(ProductDetails { name, ..ProductDetails::default() }).into());
    }
    let names_trees = speech.mentions.iter().any(|mention| mention.trees.names_some());
    let adds = is_addition(tokens) && !names_trees;
    let label = facts(tokens);
    let colon = tokens.iter().position(|token| token.is(":"));
    let known = colon
        .map(|colon| clean(speech.typed(0, colon)))
        .and_then(|name| speech.context.garden.product(&name).map(|product| product.name.clone()));
    let named = product_named(speech);
    // "copper: 2 tbsp per gallon, every 10 days" names a product by its label though nobody knows it yet.
    let active = tokens.iter().any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
    // So does "sulfur 4 tbsp per gallon, every 10 days", said without a colon.
    let opens =
        tokens.first().is_some_and(|first| first.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]))
            && label.details.interval.is_some();
    // "I spray copper, 2 tbsp per gallon", "and wettable sulfur 3 tbsp a gallon"
    let led = tokens.iter().take(5).skip_while(|token| {
        token.is_any(words!("i we and also then use spray have with my wettable liquid fixed micronized ,"))
    });
    let in_use = label.details.rate.is_some()
        && tokens
            .first()
            .is_some_and(|first| first.is_any(words!("i we and also then wettable liquid fixed micronized")))
        && led.clone().take(1).any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]))
        && !any(tokens, words!("sprayed used mixed today yesterday morning put applied"));
    // "I use neem every week and wait 1 day before picking", of a spray nobody told of yet
    let told_first = led
        .clone()
        .next()
        .is_some_and(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]))
        && label.details.interval.is_some()
        && tokens.first().is_some_and(|first| first.is_any(words!("i we")))
        && tokens.get(1).is_some_and(|verb| verb.is_any(words!("use spray apply put")))
        && speech.context.garden.products.is_empty()
        && !any(tokens, words!("sprayed used yesterday today morning tomorrow will"));
    let in_use = in_use || told_first;
    let opens = opens || in_use || Names::is_sort_of_oil(tokens, 0) && label.details.interval.is_some();
    // "My horticultural oil label says every 14 days": the first word of a product not had before.
    let mine = tokens.first().is_some_and(|first| first.is_any(words!("my our the")))
        && any(&tokens[..tokens.len().min(6)], words!("label"))
        && label.details.interval.is_some();
    let labelled = (colon.is_some() || opens || mine)
        && !names_trees
        && is_label_talk(tokens)
        && (label.details.rate.is_some() || active && label.says_something());
    let told = label.says_something() && (known.is_some() || named.is_some() && is_label_talk(tokens));
    if !(adds || labelled || told && !names_trees) {
        return None;
    }
    // "Add product lime sulfur" is a new one, whatever known name stands in its own.
    let fresh = if adds { new_name(speech, colon) } else { None };
    let plain = || {
        let active = |token: &&Token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]);
        let first =
            tokens.iter().find(|token| !in_use || active(token)).filter(|_| opens && colon.is_none())?;
        Some(match () {
            () if Names::is_sort_of_oil(tokens, 0) => format!("{} oil", first.text),
            () if first.senses.has(Sense::Copper) => String::from("copper"),
            () if first.senses.has(Sense::Sulfur) => String::from("sulfur"),
            () => first.text.clone(),
        })
    };
    let name = fresh.or(known).or(named).or_else(plain).or_else(|| new_name(speech, colon))?;
    let mut details = ProductDetails { name, ..label.details };
    if speech.context.garden.product(&details.name).is_none() {
        details.active = Some(active_of(tokens));
    }
    details.carrier = carrier_of(tokens).or(details.carrier);
    Some(Setting::Product(details).into())
}

/// What a spray works by. Lime sulfur is corrosive and another thing than sulfur.
pub(super) fn active_of(tokens: &[Token]) -> Active {
    let has = |sense| tokens.iter().any(|token| token.senses.has(sense));
    if any(tokens, words!("lime")) {
        Active::Other
    } else if has(Sense::Copper) {
        Active::Copper
    } else if has(Sense::Sulfur) {
        Active::Sulfur
    } else if has(Sense::Oil) {
        Active::Oil
    } else {
        Active::Other
    }
}

/// Oil, whatever works in it: sulfur burns with it.
pub(super) fn carrier_of(tokens: &[Token]) -> Option<Carrier> {
    let oil = any(tokens, words!("oil-based oily emulsified"))
        || tokens.windows(2).any(|pair| pair[0].is("oil") && pair[1].is("based"))
        || tokens.iter().any(|token| token.senses.has(Sense::Oil));
    oil.then_some(Carrier::Oil)
}

/// "I have started using spinosad, so please add it to my list of products."
fn added_behind(speech: &Speech) -> Option<String> {
    let tokens = speech.tokens;
    let is = |at: usize, texts| tokens.get(at).is_some_and(|token: &Token| token.is_any(texts));
    let add = (2..tokens.len()).find(|at| {
        is(*at, words!("add put"))
            && is(at + 1, words!("it that"))
            && any(&tokens[*at..], words!("list products sprays"))
    })?;
    let start = (0..add).find(|at| {
        is(*at, words!("using bought got have use")) && !is(at + 1, words!("started begun been to"))
    })? + 1;
    let start = start
        + tokens[start..add]
            .iter()
            .take_while(|token| {
                token.is_any(words!("some a an the new jar bag bottle box can tub jug packet of"))
            })
            .count();
    let end =
        (start..add).find(|at| is(*at, words!(", so and ; . please now too at from for"))).unwrap_or(add);
    let name = clean(speech.typed(start, end));
    (!name.is_empty() && end - start <= 3 && speech.mentions.is_empty()).then_some(name)
}

/// "Add product lime sulfur", "new spray: ...", "I have a new product, ...", "add copper: ...".
fn is_addition(tokens: &[Token]) -> bool {
    let opening = &tokens[..tokens.len().min(7)];
    let noun = any(opening, words!("product spray fungicide products"));
    // "My product is ...", but not "my late husband used to spray".
    let mine = tokens.first().is_some_and(|first| first.is("my"))
        && any(&opening[..opening.len().min(4)], words!("product spray fungicide products"))
        && !opening.iter().any(|token| token.senses.has_any(&[Sense::Someone, Sense::Habit]));
    let first = mine || tokens.first().is_some_and(|first| first.is_any(words!("add new product")));
    let has = tokens.first().is_some_and(|first| first.is_any(words!("i we")))
        && any(opening, words!("have use bought got"))
        && any(opening, words!("new product"));
    // "Add potassium bicarb, every 10 days"
    let spaced = tokens.iter().enumerate().any(|(at, token)| {
        token.is_any(words!("every each"))
            && tokens.get(at + 1).is_some_and(|next| next.number.is_some())
            && tokens.get(at + 2).is_some_and(|days| days.is_any(words!("day days week weeks")))
    });
    let noun =
        noun || spaced && tokens[0].is("add") && !any(tokens, words!("pot ground gal gallon gallons tree"));
    let active =
        opening.iter().any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]));
    let add = tokens.first().is_some_and(|first| first.is("add"));
    (first && noun && !any(opening, words!("tree")) || has && noun || add && active)
        && !any(opening, words!("sprayed today yesterday"))
}

/// "Remove product neem", "I no longer have neem".
fn removed(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let verb = tokens.first().is_some_and(|first| first.is_any(words!("remove delete drop")))
        || tokens.first().is_some_and(|first| first.is("take"))
            && any(tokens, words!("off"))
            && any(tokens, words!("list"))
        // "Please strike neem from the list of products"
        || tokens.iter().take(3).any(|first| first.is_any(words!("strike remove delete cross drop throw")))
            && any(tokens, words!("list"))
            && any(tokens, words!("products sprays"))
        // "We threw the neem out, take it off the product list"
        || any(tokens, words!("take strike cross"))
            && any(tokens, words!("off"))
            && any(tokens, words!("list products sprays"))
        || tokens.windows(2).any(|pair| pair[0].is("no") && pair[1].is("longer"))
        || tokens
            .windows(3)
            .any(|three| three[0].is_any(words!("got get")) && three[1].is("rid") && three[2].is("of"))
        || any(tokens, words!("don't doesn't not won't"))
            && any(tokens, words!("use have own using"))
            && (any(tokens, words!("anymore"))
                || tokens.windows(2).any(|pair| pair[0].is("any") && pair[1].is("more")));
    // "Please remove the sulfur, as I no longer keep any", "scratch the neem", behind a setting
    let after_setting = speech
        .context
        .just_said()
        .is_some_and(|last| matches!(last.what, crate::season::journal::What::Setting(_)));
    // "Neem finished, I don't use more, from list remove it"
    let off_list = any(tokens, words!("remove delete strike"))
        && any(tokens, words!("list"))
        && speech.mentions.is_empty();
    let verb = verb || off_list;
    let struck = after_setting
        && speech.mentions.is_empty()
        && tokens.iter().take(3).any(|first| first.is_any(words!("remove delete drop scratch strike cross")))
        || after_setting
            && any(tokens, words!("take"))
            && any(tokens, words!("off"))
            && speech.mentions.is_empty()
        || after_setting && any(tokens, words!("quit stopped")) && any(tokens, words!("using"));
    let verb = verb || struck;
    let most = if any(tokens, words!("anymore more list products")) || struck { 30 } else { 8 };
    if !verb || tokens.len() > most {
        return None;
    }
    product_named(speech).map(|name| Setting::RemoveProduct { name }.into())
}

/// A label read out line by line under the product's name.
pub(super) fn label(text: &str, context: &Context) -> Option<Reading> {
    let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    let (first, rest) = lines.split_first().filter(|(_, rest)| !rest.is_empty())?;
    let names = Names::of(context.garden);
    let told = |line: &str| facts(&tokens(line));
    if !rest.iter().all(|line| told(line).says_something()) {
        return None;
    }
    let opening = tokens(first);
    let speech = Speech::of(first, &opening, &names, context, Asked::No);
    let named = is_addition(&opening)
        || first.ends_with(':')
        || names.product(&opening) != Product::Unsaid && opening.len() <= 4
        || any(&opening, words!("label"));
    if !named || speech.mentions.iter().any(|mention| mention.trees.names_some()) {
        return None;
    }
    let whole = format!("{}: {}", first.trim_end_matches(':'), rest.join(", "));
    let whole_tokens = tokens(&whole);
    let speech = Speech::of(&whole, &whole_tokens, &names, context, Asked::No);
    match read(&speech)? {
        Found::Setting(setting) => {
            Some(Reading { requests: vec![Request::Set(setting)], ..Reading::default() })
        }
        Found::Doubted => None,
    }
}

/// "The extension guy says copper every 2 weeks": not what the label says.
fn is_hearsay(tokens: &[Token]) -> bool {
    let says = tokens.iter().position(|token| {
        token.is_any(words!(
            "says say said recommends recommend recommended told tells swears thinks claims heard read"
        ))
    });
    says.is_some_and(|says| {
        says > 0
            && !any(tokens, words!("label labels bottle bag package jug"))
            && !tokens[..says].iter().any(|token| {
                token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil, Sense::AnyProduct])
                    || token.is_any(words!("it mine"))
            })
    })
}

/// Whether the words are of a label: a report of a spray has a moment or a tree, a label has limits.
fn is_label_talk(tokens: &[Token]) -> bool {
    let a_gallon = tokens
        .windows(2)
        .any(|pair| pair[0].is("a") && pair[1].is_any(words!("gallon gal litre liter quart")));
    // "Copper says wait 2 days before you pick"
    let says = tokens.iter().position(|token| token.is("says")).is_some_and(|says| {
        tokens[..says].iter().any(|token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]))
    });
    let between = any(tokens, words!("between"))
        && any(tokens, words!("sprays applications sprayings"))
        && !any(tokens, words!("left let waited had"));
    (a_gallon || says || between || label_days::told(tokens).before_harvest.is_some() || any(tokens, words!("label rate per phi rei max maximum every each interval above over lists /")))
        // "Is to be applied every 10 days" says nothing was.
        && !tokens.iter().enumerate().any(|(at, token)| {
            token.is_any(words!("sprayed did yesterday today applied gave"))
                && !(at > 0 && tokens[at - 1].is("be"))
        })
        // "Put that in" of a label, not "put copper on Wall"
        && !tokens.windows(2).any(|pair| pair[0].is("put") && !pair[1].is_any(words!("that it this down in")))
}

fn product_named(speech: &Speech) -> Option<String> {
    match speech.names.product(speech.tokens) {
        Product::Known { name, .. } => Some(name),
        _ => None,
    }
}

/// The words before the colon, or before the first figure, without "add" and "my".
fn new_name(speech: &Speech, colon: Option<usize>) -> Option<String> {
    let tokens = speech.tokens;
    let start = tokens.iter().position(|token| {
        !token.is_any(words!(
            "also add one new my a an the product spray fungicide called named is that which kindly please name to list products : , i we have use bought got label of for"
        ))
    })?;
    let end = colon.filter(|colon| *colon > start).unwrap_or_else(|| {
        (start..tokens.len())
            .find(|index| {
                tokens[*index].number.is_some()
                    || tokens[*index].is_any(words!(", ( is label rate - . every each"))
            })
            .unwrap_or(tokens.len())
    });
    // "My mancozeb label: ...": the label is not part of the name.
    let end = (start + 1..end).find(|index| tokens[*index].is("label")).unwrap_or(end);
    let name = clean(speech.typed(start, end));
    // "Horticultural oil to my sprays", "... on the list"
    let behind =
        [" to my ", " to the ", " to our ", " on my ", " on the ", " as a ", " as product", " as one "]
            .iter()
            .find_map(|to| name.find(to));
    let name = name.get(..behind.unwrap_or(name.len())).map_or_else(|| name.clone(), clean);
    let name = name.strip_suffix("'s").map_or_else(|| name.clone(), str::to_owned);
    let stands_for = matches!(
        name.to_lowercase().as_str(),
        "it" | "that" | "them" | "this" | "wrong" | "right" | "correct"
    );
    (!name.is_empty() && !stands_for && name.split_whitespace().count() <= 5).then_some(name)
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

/// What a piece of a label says, the name left open.
pub(super) fn facts_of(tokens: &[Token]) -> ProductDetails {
    facts(tokens).details
}

fn facts(tokens: &[Token]) -> LabelFacts {
    let days = label_days::told(tokens);
    let mut details = ProductDetails {
        rate: rate(tokens),
        interval: days.interval,
        before_harvest: days.before_harvest,
        ..ProductDetails::default()
    };
    for (index, token) in tokens.iter().enumerate().filter(|(index, _)| !days.used.contains(index)) {
        let Some(number) = token.number else { continue };
        // A comma ends what a number is told of.
        let within = |token: &&Token| !token.is_any(words!(", ; and"));
        let before = |texts: WordList| {
            tokens[..index].iter().rev().take(3).take_while(within).any(|token| token.is_any(texts))
        };
        let after = |texts: WordList| {
            tokens[index + 1..].iter().take(4).take_while(within).any(|token| token.is_any(texts))
        };
        let next = |texts: WordList| tokens.get(index + 1).is_some_and(|token| token.is_any(texts));
        // "10 days", "10-day"
        let hyphen = usize::from(next(words!("-")));
        let unit = index + 1 + hyphen;
        let days = tokens.get(unit).is_some_and(|token| token.is_any(words!("day days d")));
        let hours = next(words!("hour hours h hr hrs"));
        let reentry = before(words!("rei reentry entry"))
            || after(words!("reentry entry enter entering back")) && hours;
        // "At most 10 kg per ha a year" is no number of sprays.
        let weighed = next(words!("kg kilo kilos kilograms g grams lb lbs pound pounds oz ounce ounces"));
        if reentry {
            let hours = if days { number * 24.0 } else { number };
            details.before_reentry = Some(Hours::new(hours));
        } else if before(words!("max maximum most limit up more"))
            && !next(words!("f c ° degrees"))
            && !weighed
            || next(words!("times applications sprays"))
        {
            details.most_applications = (1.0..100.0).contains(&number).then_some(number as u32);
        } else if before(words!("above over exceeds hotter"))
            || before(words!("max")) && next(words!("f c ° degrees"))
        {
            let fahrenheit = next(words!("f")) || after(words!("f fahrenheit")) || (number > 45.0);
            let hottest = if fahrenheit { Celsius::from_fahrenheit(number) } else { Celsius::new(number) };
            // No garden is ever so hot: the figure is of something else, or mistyped.
            details.hottest = (hottest.value() <= HOTTEST_TOLD).then_some(hottest);
        } else if next(words!("% percent"))
            && tokens.iter().any(|token| token.senses.has(Sense::Copper))
            && (before(words!("copper metallic cu")) || after(words!("copper metallic cu")))
            // "Copper octanoate 10%" is of the compound, of which less than a fifth is copper.
            && (before(words!("metallic cu elemental equivalent"))
                || after(words!("metallic cu elemental"))
                || !any(tokens, words!(
                    "octanoate hydroxide oxychloride sulfate sulphate tribasic soap salts oxide cuprous"
                )))
        {
            details.copper_content = Fraction::from_percent(number);
        }
    }
    // "I use neem every week", "my copper label says once a week"
    let in_use = tokens.first().is_some_and(|first| first.is_any(words!("i we")))
        && tokens.get(1).is_some_and(|verb| verb.is_any(words!("use spray apply put")));
    if in_use || any(tokens, words!("label bag bottle jug")) {
        details.interval = details.interval.or_else(|| label_days::in_words(tokens));
    }
    let lists = any(tokens, words!("figs fig"))
        && any(tokens, words!("lists listed labelled labeled lists for names"));
    if lists {
        let negated =
            any(tokens, words!("not no isn't doesn't isnt doesnt")) && !any(tokens, words!("above"));
        details.lists_figs = Some(if negated { LabelListing::NotListed } else { LabelListing::Listed });
    }
    LabelFacts { details }
}

/// "2 tbsp per gallon", "2 g/L", "0.5 oz/gal", "16 ml per litre".
fn rate(tokens: &[Token]) -> Option<Rate> {
    tokens.iter().enumerate().find_map(|(index, token)| {
        let number = token.number.filter(|number| *number > 0.0)?;
        let unit = tokens.get(index + 1)?;
        let (mut at, fluid) = (index + 2, unit.is_any(words!("fl fluid")));
        let unit = if fluid {
            at += 1;
            tokens.get(index + 2)?
        } else {
            unit
        };
        let per = tokens.get(at).is_some_and(|token| token.is_any(words!("per / a to in")));
        let skip =
            usize::from(tokens.get(at + 1).is_some_and(|token| token.is_any(words!("a the each one"))));
        let base = tokens.get(at + 1 + skip)?;
        let (count, base) = match base.number {
            Some(count) => (count, tokens.get(at + 2 + skip)?),
            None => (1.0, base),
        };
        let litres = count
            * match base.text.as_str() {
                "gallon" | "gallons" | "gal" => measures::LITRES_A_GALLON,
                "l" | "litre" | "liter" | "litres" | "liters" => 1.0,
                "quart" | "quarts" | "qt" => measures::LITRES_A_QUART,
                _ => return None,
            };
        if !per || litres <= 0.0 {
            return None;
        }
        match unit.text.as_str() {
            "tbsp" | "tablespoon" | "tablespoons" => {
                Some(Rate::MillilitresPerLitre(number * measures::MILLILITRES_A_TABLESPOON / litres))
            }
            "tsp" | "teaspoon" | "teaspoons" => {
                Some(Rate::MillilitresPerLitre(number * measures::MILLILITRES_A_TEASPOON / litres))
            }
            "ml" => Some(Rate::MillilitresPerLitre(number / litres)),
            "oz" | "ounce" | "ounces" if fluid => {
                Some(Rate::MillilitresPerLitre(number * measures::MILLILITRES_A_FLUID_OUNCE / litres))
            }
            "oz" | "ounce" | "ounces" => {
                Some(Rate::GramsPerLitre(number * measures::GRAMS_AN_OUNCE / litres))
            }
            "g" | "gram" | "grams" => Some(Rate::GramsPerLitre(number / litres)),
            "lb" | "lbs" | "pound" | "pounds" => {
                Some(Rate::GramsPerLitre(number * measures::GRAMS_A_POUND / litres))
            }
            "cup" | "cups" => Some(Rate::MillilitresPerLitre(number * measures::MILLILITRES_A_CUP / litres)),
            _ => None,
        }
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

    use super::{facts, tokens};

    /// Copper octanoate is 18 % copper by its formula, Cu(C8H15O2)2: 63.5 of 350.
    #[test]
    fn the_share_of_a_compound_is_not_taken_for_copper() {
        let content = |label: &str| {
            facts(&tokens(label)).details.copper_content.map(|share| (share.value() * 1000.0).round() / 10.0)
        };
        for (label, percent) in [
            ("copper octanoate 10%", None),
            ("copper hydroxide 77%", None),
            ("copper octanoate 10%, metallic copper equivalent 1.8%", Some(1.8)),
            ("metallic copper 1.8%, copper octanoate 10%", Some(1.8)),
            ("copper hydroxide, 50% metallic copper", Some(50.0)),
            ("metallic copper 20%", Some(20.0)),
            ("copper 20%", Some(20.0)),
        ] {
            assert_eq!(content(label), percent, "{label}");
        }
    }
}
