//! A garden told in the first days by somebody who writes as one talks, or as one keeps lists: sentences and headings,
//! trees named behind where they stand, sprays and what their labels say, an hour for the mornings.
//!
//! Only while a garden is being set up, and only if nothing of it tells of work. Each piece is a tree, a spray, a
//! setting, or words that tell nothing; one that has a figure and is none of these leaves all of it to the other readers.

use super::first_days::{
    Stand, behind_lead, called, is_being_set_up, item, may_be_water, stand_of, standing, tells_of_work,
};
use super::first_words::{frosts, person, setting};
use super::tables::{items, settle};
use super::{label_days, products};
use crate::language::read::Context;
use crate::language::read::lexicon::Sense;
use crate::language::read::places;
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::Role;
use crate::season::request::{ProductDetails, Reading, Request, Setting};

/// A tree as far as it was told.
struct Draft {
    name: Option<String>,
    stand: Option<Stand>,
    told: Told,
    typed: String,
}

/// Whether the words say that it is a tree, or only that it is called something.
#[derive(Clone, Copy, PartialEq)]
enum Told {
    AsTree,
    ByName,
}

/// What the pieces behind a heading are.
#[derive(Clone, Copy)]
enum Heading {
    None,
    Stand(Stand),
    Products,
}

struct List {
    trees: Vec<Draft>,
    products: Vec<ProductDetails>,
    settings: Vec<Setting>,
    /// Named, and nothing told of it yet: "got sulfur on the shelf too, | no set days".
    open_product: Option<ProductDetails>,
    heading: Heading,
}

/// Reads a whole message as such a list.
pub(super) fn read(text: &str, context: &Context) -> Option<Reading> {
    const LONGEST: usize = 600;
    if !is_being_set_up(context) || text.len() > LONGEST || text.contains('?') && !text.contains('@') {
        return None;
    }
    let told = tokens(text);
    if tells_of_work(&told)
        // A label read out whole is for those who know labels.
        || told.iter().any(|token| {
            token.is_any(words!("lime oz fl fortnight times tbsp tsp tablespoons teaspoons lists listed max maximum rei reentry"))
        })
    {
        return None;
    }
    let mut list = List {
        trees: Vec::new(),
        products: Vec::new(),
        settings: Vec::new(),
        open_product: None,
        heading: Heading::None,
    };
    for (at, sentence) in parts(text).into_iter().enumerate() {
        let sentence = sentence.trim();
        list.sentence(if at == 0 { behind_lead(sentence) } else { sentence }, context)?;
    }
    // "Can she be a keeper same as me? Shes @tansy:home.example"
    let lower = text.to_ascii_lowercase();
    if ["keeper", "same as me", "everything i can", "same rights"].iter().any(|words| lower.contains(words)) {
        for setting in &mut list.settings {
            if let Setting::Person { role, .. } = setting
                && !lower.contains("helper")
            {
                *role = Role::Keeper;
            }
        }
    }
    list.into_reading().filter(|reading| !may_be_water(reading, &told, context))
}

/// Sentences, lines and numbered points.
fn parts(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    for line in text.split(['\n', ';', '!', '?']) {
        let mut rest = line.trim_end_matches('.');
        while let Some(at) = rest.find(". ") {
            parts.push(&rest[..at]);
            rest = &rest[at + 2..];
        }
        const JOINTS: [&str; 8] = [
            " and we've ",
            " and i've ",
            " and we have ",
            " and the garden ",
            " and my garden ",
            " and our garden ",
            " and name it ",
            " and call it ",
        ];
        match JOINTS.iter().find_map(|joint| rest.find(joint)) {
            Some(at) => parts.extend([&rest[..at], &rest[at + " and ".len()..]]),
            None => parts.push(rest),
        }
    }
    parts.retain(|part| !part.trim().is_empty());
    parts
}

impl List {
    fn sentence(&mut self, typed: &str, context: &Context) -> Option<()> {
        let text = behind_number(typed);
        let told = tokens(text);
        if let Some((head, rest)) =
            text.split_once(':').filter(|(head, _)| head.split_whitespace().count() <= 4)
            && !text.contains('@')
            && self.takes_heading(head, rest.trim(), context)
        {
            return if rest.trim().is_empty()
                || matches!(self.settings.last(), Some(Setting::Name { .. } | Setting::Place { .. }))
                    && is_name_or_place(head)
            {
                Some(())
            } else {
                self.pieces(rest.trim(), context)
            };
        }
        if told.iter().all(|token| {
            token.is_any(words!("hello hi hey hiya good morning evening afternoon day there everyone all"))
        }) && told.len() <= 4
        {
            return Some(());
        }
        if told.len() == 1 && told[0].is_any(words!("trees products sprays figs people")) {
            self.takes_heading(text, "", context);
            return Some(());
        }
        if text.matches('@').count() > 1 {
            return self.pieces(text.rsplit(": ").next().unwrap_or(text), context);
        }
        if let Some(position) = places::position(text) {
            self.settings.push(Setting::Position { position: position.rounded(), place: None, zone: None });
            return Some(());
        }
        // Two dates are two settings, which others read.
        let months = told.iter().filter(|token| crate::language::read::moments::month(&token.text).is_some());
        if months.count() > 1 && !told.iter().any(|token| token.is_any(words!("ff lf"))) {
            return None;
        }
        let standing = told.iter().any(|token| {
            token.is_any(words!("ground pot pots gal gallon gallons litre litres liter tub bucket"))
        });
        let whole = setting(text, &told, context).filter(|setting| !matches!(setting, Setting::Product(_)));
        if let Some(setting) = whole.filter(|_| !standing) {
            self.settle(setting);
            return Some(());
        }
        if let Some(frosts) = frosts(&told, context) {
            self.settings.extend(frosts);
            return Some(());
        }
        self.pieces(text, context)
    }

    /// "In 10 gal pots:", "Products:", "Name of garden: Ninepin".
    fn takes_heading(&mut self, head: &str, rest: &str, context: &Context) -> bool {
        let told = tokens(head);
        let any = |list| told.iter().any(|token| token.is_any(list));
        if any(words!("products product sprays spray")) {
            self.heading = Heading::Products;
        } else if any(words!("location place where")) && !rest.is_empty() {
            self.settings.push(Setting::Place { name: super::clean(rest) });
        } else if any(words!("name garden")) && !rest.is_empty() && !any(words!("trees")) {
            self.settings.push(Setting::Name { name: super::clean(rest) });
        } else if any(words!("trees tree figs fig people correction list")) {
            self.heading = Heading::None;
        } else if let Some(stand) =
            item(head, context).and_then(|item| item.stand.filter(|_| item.name.is_none()))
        {
            self.heading = Heading::Stand(stand);
        } else {
            // "To complete the entry: ..."
            return told.iter().all(|token| token.number.is_none() && !token.senses.has(Sense::Frost))
                && !any(words!("units morning brief"));
        }
        true
    }

    fn pieces(&mut self, text: &str, context: &Context) -> Option<()> {
        let normal =
            text.replace(" n ", ", ").replace(" & ", ", ").replace(" + ", ", ").replace(" plus ", ", ");
        for piece in items(&normal) {
            self.piece(behind_number(piece.trim_start_matches("plus ")), context)?;
        }
        Some(())
    }

    fn piece(&mut self, text: &str, context: &Context) -> Option<()> {
        let told = tokens(text);
        let any = |list: WordList| told.iter().any(|token| token.is_any(list));
        if any(words!("tomorrow later soon")) {
            return told.iter().all(|token| token.number.is_none()).then_some(());
        }
        if text.contains('@') {
            self.settings.push(person(text, &told)?);
            return Some(());
        }
        if let Some(name) = named_behind(text, &told) {
            match self.trees.iter_mut().rev().find(|tree| tree.name.is_none()) {
                Some(open) => open.name = Some(name),
                // "The little one I call Miss Pearl"
                None if any(words!("one fig tree")) => {
                    let stand = stand_of(&told, context).map(|(_, stand)| stand);
                    self.trees.push(Draft {
                        name: Some(name),
                        stand,
                        told: Told::AsTree,
                        typed: text.to_owned(),
                    });
                }
                None => return None,
            }
            return Some(());
        }
        if let Some(product) = self.product(text, &told) {
            self.open_product = None;
            // "Neem every 10 days, neem has 1 day to harvest"
            if let Some(known) =
                self.products.iter_mut().find(|known| known.name.eq_ignore_ascii_case(&product.name))
            {
                known.before_harvest = known.before_harvest.or(product.before_harvest);
                known.interval = known.interval.or(product.interval);
                return Some(());
            }
            if self.says_when(&product, &told) {
                self.products.push(product);
            } else {
                self.open_product = Some(product);
            }
            return Some(());
        }
        if self.tells_of_label(&told) {
            return Some(());
        }
        // "Two in pots", "three figs", "one fig so far"
        let counts =
            told.iter().any(|token| token.number.is_some_and(|count| count < 20.0 && count.fract() == 0.0))
                && any(words!("figs trees babies pots pot fig tree so in more"))
                && !any(words!("gal gals gallon gallons litre litres liter liters l g"));
        let one = any(words!("fig tree one")) && any(words!("a an one own the")) && !has_name(text);
        let own = stand_of(&told, context).map(|(_, stand)| stand);
        let explicit = any(words!("tree fig")) || matches!(self.heading, Heading::Stand(_));
        let found = item(text, context);
        // "Celeste is in a 20 gallon one" names her.
        let opens = found
            .as_ref()
            .and_then(|item| item.name.as_deref())
            .is_some_and(|name| name.starts_with(char::is_uppercase) && text.starts_with(name));
        let one = one && !opens;
        let unsized_only = found
            .as_ref()
            .is_some_and(|item| item.name.is_none() && item.stand.is_none_or(|(_, volume)| volume.is_none()));
        // "Two Celestes in pots" are trees, and which is not said.
        if counts && has_name(text) && found.as_ref().is_none_or(|item| item.name.is_none()) {
            return None;
        }
        if counts && unsized_only && !one {
            return Some(());
        }
        // "We've one tree, Dora": the one just told of.
        if let Some(super::first_days::Item { name: Some(name), stand: None, .. }) = &found
            && has_name(text)
            && let Some(open) =
                self.trees.last_mut().filter(|tree| tree.name.is_none() && tree.stand.is_none())
        {
            open.name = Some(name.clone());
            return Some(());
        }
        match found {
            Some(item) if item.name.is_none() || one && !counts => {
                let stand = item.stand;
                match self
                    .trees
                    .iter_mut()
                    .rev()
                    .find(|tree| tree.stand.is_none())
                    .filter(|_| item.name.is_none() || stand.is_none())
                {
                    Some(open) if stand.is_some() => {
                        open.stand = stand;
                        if item.of_all {
                            self.stand_all(stand);
                        }
                    }
                    _ if one || item.name.is_some() => {
                        self.trees.push(Draft {
                            name: None,
                            stand,
                            told: Told::AsTree,
                            typed: text.to_owned(),
                        });
                    }
                    _ => return None,
                }
                Some(())
            }
            Some(item)
                if item.stand.is_some() || has_name(text) || matches!(self.heading, Heading::Stand(_)) =>
            {
                let heading = match self.heading {
                    Heading::Stand(stand) => Some(stand),
                    _ => None,
                };
                let stand = item.stand.or(heading);
                if item.of_all {
                    self.stand_all(stand);
                }
                let told = if explicit { Told::AsTree } else { Told::ByName };
                self.trees.push(Draft { name: item.name, stand, told, typed: text.to_owned() });
                Some(())
            }
            _ if one => {
                self.trees.push(Draft { name: None, stand: own, told: Told::AsTree, typed: text.to_owned() });
                Some(())
            }
            _ if counts => Some(()),
            _ => {
                if let Some(setting) = setting(text, &told, context) {
                    self.settle(setting);
                    return Some(());
                }
                // "I rise at six"
                let hour = told
                    .windows(2)
                    .any(|pair| pair[0].is("at") && pair[1].number.is_some_and(|hour| hour <= 12.0));
                if hour {
                    return Some(());
                }
                // "He planted it in 1981"
                told.iter()
                    .all(|token| token.number.is_none_or(|number| (1900.0..2100.0).contains(&number)))
                    .then_some(())
            }
        }
    }

    /// "... all in 10 gals": those told before stand so, too.
    fn stand_all(&mut self, stand: Option<Stand>) {
        for tree in self.trees.iter_mut().filter(|tree| tree.stand.is_none()) {
            tree.stand = stand;
        }
    }

    /// "Metric, litres and Celsius" is one setting.
    fn settle(&mut self, setting: Setting) {
        if !self.settings.contains(&setting) {
            self.settings.push(setting);
        }
    }

    /// "Copper 7d", "sulphur once a week", "neem, no schedule": a spray by its name.
    fn product(&self, text: &str, told: &[Token]) -> Option<ProductDetails> {
        const OTHERS: WordList = words!("spinosad bicarbonate bicarb soap kaolin");
        let at = told.iter().position(|token| {
            !token.is("bordeaux") && token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])
                || token.is_any(OTHERS)
        });
        let headed = matches!(self.heading, Heading::Products) && told.first().is_some_and(Token::is_word);
        let at = at.or(headed.then_some(0))?;
        let first = &told[at];
        // "1 day before harvest" under "Products" tells of the one before.
        if headed && first.number.is_some()
            || first.is_any(words!("every phi rei wait as with and both all none"))
        {
            return None;
        }
        // "Copper was 3 days ago", "sulfur lasts 12 days", "copper in 3 days" are no label's days.
        if told.iter().any(|token| {
            token.is_any(words!("ago old was were in last lasts lasted left good since until till cost costs ran runs took takes out"))
        }) && !headed
        {
            return None;
        }
        let end = told[at..]
            .iter()
            .take_while(|token| {
                token.is_word()
                    && token.number.is_none()
                    && !token.is_any(words!("every each once as on too no with i we is has about around roughly sometimes now spray should must will be q weekly phi rei wait waiting harvest needs wants says label for between"))
            })
            .count();
        let name = super::clean(text.get(first.span.start..told.get(at + end.max(1) - 1)?.span.end)?);
        let mut details = ProductDetails { name, ..products::facts_of(told) };
        let days = label_days::told_of_a_spray(told);
        (details.interval, details.before_harvest) = (days.interval, days.before_harvest);
        // "He swore by sulfur" settles none.
        if !headed && at > 3 {
            return None;
        }
        if end == 1 && first.senses.has(Sense::Sulfur) {
            details.name = String::from("sulfur");
        }
        details.active = Some(products::active_of(told));
        details.carrier = products::carrier_of(told);
        Some(details)
    }

    /// A spray with nothing told of when waits for it, and is none to be settled till then.
    fn says_when(&self, product: &ProductDetails, told: &[Token]) -> bool {
        product.interval.is_some()
            || product.before_harvest.is_some()
            || product.rate.is_some()
            || matches!(self.heading, Heading::Products)
            || is_without_days(told)
    }

    /// "1 day before harvest", "every 7 days", "PHI 3", of the spray told last.
    fn tells_of_label(&mut self, told: &[Token]) -> bool {
        if let Some(open) = self.open_product.take() {
            self.products.push(open);
            if self.tells_of_label(told) {
                return true;
            }
            self.open_product = self.products.pop();
            return false;
        }
        let Some(last) = self.products.last_mut() else { return false };
        let days = label_days::told_of_a_spray(told);
        let (wait, interval) = (days.before_harvest, days.interval);
        last.before_harvest = last.before_harvest.or(wait);
        last.interval = last.interval.or(interval);
        wait.is_some() || interval.is_some() || is_without_days(told)
    }

    fn into_reading(self) -> Option<Reading> {
        // "Fairhope, Alabama" and "Evening." name no trees: one of them stands somewhere, or is said to be one.
        let sure = self.trees.iter().any(|tree| tree.stand.is_some());
        if self.trees.iter().any(|tree| !sure && tree.told == Told::ByName) {
            return None;
        }
        let mut reading = Reading::default();
        for tree in self.trees {
            settle(standing(tree.name?, tree.stand), &tree.typed, &mut reading);
        }
        reading
            .requests
            .extend(self.products.into_iter().map(|details| Request::Set(Setting::Product(details))));
        reading.requests.extend(self.settings.into_iter().map(Request::Set));
        (!reading.requests.is_empty()).then_some(reading)
    }
}

/// "No schedule or anything", "as needed", "no set days".
fn is_without_days(told: &[Token]) -> bool {
    told.iter().any(|token| token.is_any(words!("schedule needed set")))
        && told.iter().all(|token| token.number.is_none())
        && told.len() <= 9
}

fn is_name_or_place(head: &str) -> bool {
    tokens(head).iter().any(|token| token.is_any(words!("name garden location place where")))
}

/// "1) Celeste", "Tree 2: Rosie"
fn behind_number(text: &str) -> &str {
    let text = text.trim();
    let bare = text.strip_prefix("Tree ").or_else(|| text.strip_prefix("tree ")).unwrap_or(text);
    let digits = bare.chars().take_while(char::is_ascii_digit).count();
    match bare.get(digits..) {
        Some(rest) if digits > 0 && rest.starts_with([')', ':', '.']) => rest[1..].trim_start(),
        _ => text,
    }
}

/// A word with a capital that does not open the piece.
fn has_name(text: &str) -> bool {
    tokens(text).iter().skip(1).any(|token| {
        token.text.len() > 1
            && text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
            && !token.is_any(words!("i i'm i've"))
    }) || text.split_whitespace().count() <= 2
        && text.starts_with(char::is_uppercase)
        && !tokens(text).iter().any(|token| token.is_any(words!("tree fig figs trees one")))
}

/// "Her name is Biscuit", "she calls it Dolly", "we just call it Wall".
fn named_behind(text: &str, told: &[Token]) -> Option<String> {
    // "Her name's Rosie", "the little one I call Miss Pearl"
    let bare = told.windows(2).position(|pair| {
        pair[0].is("name's")
            || pair[0].is("call")
                && text.get(pair[1].span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
    });
    if let Some(at) = bare {
        return called(text.get(told.get(at + 1)?.span.start..)?);
    }
    let at = told.windows(2).position(|pair| {
        pair[0].is_any(words!("call calls called named name")) && pair[1].is_any(words!("it him her is them"))
    })?;
    let whose = told[..at].iter().any(|token| token.is_any(words!("i we she he they her his its it's i've")));
    let first = told.get(at + 2)?;
    called(text.get(first.span.start..)?).filter(|_| whose)
}
