//! The plain words of what a garden is set up with: trees, sprays and places that nothing is known of yet.

use super::plain_words::Told;
use crate::language::read::amounts::Amount;
use crate::language::read::settings::{cultivars, label_days};
use crate::language::read::word_list::words;
use crate::season::journal::What;
use crate::season::request::Setting;

impl Told<'_> {
    /// "My good glasses on, the copper jug says 14 days between sprays": "copper every 14 days".
    pub(super) fn label(&self) -> Option<String> {
        let spray = match self.sprays_typed().as_slice() {
            [] => self.last_spray()?,
            [one] => (*one).to_owned(),
            _ => return None,
        };
        let days = label_days::told_of_a_spray(&self.tokens);
        let told = [
            days.interval.map(|days| format!(" every {} days", days.value())),
            days.before_harvest.map(|days| format!(" phi {} days", days.value())),
        ];
        let told: String = told.into_iter().flatten().collect();
        // A figure left over may be the one that matters.
        let figures = self.tokens.iter().filter(|token| token.number.is_some()).count();
        let used = usize::from(days.interval.is_some()) + usize::from(days.before_harvest.is_some());
        (!told.is_empty() && figures <= used).then(|| format!("{spray}{told}"))
    }

    /// The spray a label was told of just now.
    fn last_spray(&self) -> Option<String> {
        match &self.context.just_said()?.what {
            What::Setting(Setting::Product(details)) => Some(details.name.clone()),
            _ => None,
        }
    }

    /// "The oldest is a Brown Turkey that came as a stick in a wet newspaper, it's in the ground": "Brown Turkey is in
    /// the ground".
    pub(super) fn new_tree(&self) -> Option<String> {
        let name = self.one_cultivar()?;
        let has = |list| self.tokens.iter().any(|token| token.is_any(list));
        let ground = has(words!("ground inground dirt soil earth"));
        let pot = has(words!("pot pots potted container tub bucket barrel bag"));
        let several = has(words!("two three four both several couple trees"));
        match self.amounts.as_slice() {
            _ if several => None,
            [size] if !ground && matches!(size.amount, Amount::Vessel(_) | Amount::Volume(_)) => {
                let size = self.typed(size.from, size.to);
                Some(format!("{name} is in a {} pot", size.trim_end_matches(" pot")))
            }
            [] if ground && !pot => Some(format!("{name} is in the ground")),
            [] if pot && !ground => Some(format!("{name} is in a pot")),
            _ => None,
        }
    }

    fn one_cultivar(&self) -> Option<&str> {
        let mut at = 0;
        let mut found = None;
        while at < self.tokens.len() {
            match cultivars::at(&self.tokens, at) {
                Some(_) if found.is_some() => return None,
                Some(count) => {
                    found = Some((at, at + count));
                    at += count.max(1);
                }
                None => at += 1,
            }
        }
        found.map(|(from, to)| self.typed(from, to))
    }

    /// "We're down in Greensboro NC, have been for thirty-one years".
    pub(super) fn place(&self) -> Option<String> {
        let name = self.name()?;
        let calls = self.tokens.iter().any(|token| token.is_any(words!("call called name named")));
        (!calls && cultivars::at(&self.tokens, 0).is_none()).then(|| format!("we are in {name}"))
    }
}
