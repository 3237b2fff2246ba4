//! The plain words of what is settled: messages and their hour, units, people, names, where a tree stands.

use super::plain_words::Told;
use crate::language::read::amounts::Amount;
use crate::language::read::word_list::words;

impl Told<'_> {
    pub(super) fn settled(&self, what: &str) -> Option<String> {
        let nothing_measured = self.nothing_measured() && self.sprays.is_empty() && self.mentions.is_empty();
        let plain = match what {
            "units metric" => "use metric",
            "units us" => "use US units",
            "listening to_everything" => "listen to everything",
            "listening when_addressed" => "only listen when addressed",
            "quiet until_told" => "stop messaging me",
            "quiet speaking" => "you can talk again",
            "here" => "use this room",
            "morning" => {
                let clock = self.moment.is_said() && !self.has("until");
                return (clock && nothing_measured).then(|| format!("morning message at {}", self.when()));
            }
            "first_frost" | "last_frost" => {
                let date = self.date()?;
                let which = what.split('_').next()?;
                return (self.mentions.is_empty() && self.sprays.is_empty())
                    .then(|| format!("the {which} frost is {date}"));
            }
            "tree" | "tree ground" if self.mentions.is_empty() => return self.new_tree(),
            "product" => return self.label(),
            "place" => return self.place().filter(|_| self.mentions.is_empty()),
            "tree" | "tree ground" => return self.stands(),
            "quiet until" => {
                return (nothing_measured && self.runs().len() == 1)
                    .then(|| format!("quiet until {}", self.when()));
            }
            "rename" => {
                let (tree, end) = self.renamed()?;
                let plain = self.nothing_measured() && self.sprays.is_empty();
                let name = self.name().or_else(|| self.called_behind(end));
                return name.filter(|_| plain).map(|name| format!("rename {tree} to {name}"));
            }
            "person" => {
                let charge = self.tokens.iter().any(|token| token.is_any(words!("keeper boss charge owner")));
                let help =
                    self.tokens.iter().any(|token| token.is_any(words!("helper help helps helping helpers")));
                let role = match (charge, help) {
                    (true, false) => "keeper",
                    (false, true) => "helper",
                    _ => return None,
                };
                return self.address().map(|address| format!("add {address} as {role}"));
            }
            "remove person" => return self.address().map(|address| format!("remove {address}")),
            "name" if !self.mentions.is_empty() => return None,
            "name" => return self.name().map(|name| format!("call the garden {name}")),
            "remove product" => {
                let spray = self.one_spray()??;
                return (self.amounts.is_empty() && self.mentions.is_empty())
                    .then(|| format!("remove {spray}"));
            }
            _ => return None,
        };
        nothing_measured.then(|| plain.to_owned())
    }

    /// "Upped Whip to a 10 gal pot", "got Big One out of that pot and into the dirt": where a tree known stands now.
    fn stands(&self) -> Option<String> {
        let [mention] = self.mentions.as_slice() else { return None };
        let name = self.named(mention);
        let plain = mention.trees.is_one() && self.sprays.is_empty();
        let ground =
            self.tokens.iter().any(|token| token.is_any(words!("ground inground dirt soil earth bed")));
        let size = match self.amounts.as_slice() {
            [vessel] if matches!(vessel.amount, Amount::Vessel(_) | Amount::Volume(_)) => {
                Some(self.typed(vessel.from, vessel.to))
            }
            _ if self.nothing_measured() => None,
            _ => return None,
        };
        match size {
            Some(size) => {
                let plain = plain && !self.moment.is_said();
                plain.then(|| format!("{name} is in a {} pot", size.trim_end_matches(" pot")))
            }
            None => (plain && ground).then(|| format!("{name} is in the ground")),
        }
    }

    /// The tree that gets another name, and where it ends; "whip" behind "the" may be any whip.
    fn renamed(&self) -> Option<(String, usize)> {
        if let [tree] = self.mentions.as_slice() {
            return tree.trees.is_one().then(|| (self.named(tree), tree.range.end));
        }
        let nickname = |at: usize| {
            let own = &self.tokens[at].text;
            self.names.nicknames().iter().find(|name| name.to_lowercase() == *own)
        };
        let none = self.mentions.is_empty();
        (0..self.tokens.len()).filter(|_| none).find_map(|at| Some((nickname(at)?.clone(), at + 1)))
    }

    /// "Call the whip | junior | from now on"
    fn called_behind(&self, from: usize) -> Option<&str> {
        const MOST_WORDS: usize = 2;
        let calls = self.tokens[..from].iter().any(|token| token.is_any(words!("call rename name")));
        let count = self.tokens[from..]
            .iter()
            .take_while(|token| {
                token.is_word()
                    && !token.is_any(words!(
                        "from now please pls starting since because he she it thats that's that instead"
                    ))
            })
            .count();
        (calls && (1..=MOST_WORDS).contains(&count)).then(|| self.typed(from, from + count))
    }
}
