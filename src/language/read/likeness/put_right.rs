//! The plain words of what puts the last report right.

use super::plain_words::{Told, is_settled};
use crate::language::read::amounts::{Amount, Measured};
use crate::language::read::names::Mention;
use crate::language::read::word_list::words;
use crate::season::journal::{Report, What};

impl Told<'_> {
    pub(super) fn put_right(&self, what: &str) -> Option<String> {
        let last = self.context.last?;
        let What::Report { trees: of_last, report: told } = &last.what else { return None };
        let nothing_measured = self.figures_anew(told).is_empty();
        match what {
            "when" => {
                let plain = self.moment.is_said() && nothing_measured && self.is_of(of_last);
                (plain && self.runs().len() == 1).then(|| format!("make that {}", self.when()))
            }
            "trees" => {
                let anew: Vec<&Mention> = self
                    .mentions
                    .iter()
                    .filter(|mention| self.selected(mention) != Some(of_last.clone()))
                    .collect();
                let [anew] = anew.as_slice() else { return None };
                // "s/Celeste/Eave": which of them it was is in doubt.
                let of_both = self.selected(anew)?.iter().any(|tree| of_last.contains(tree));
                let plain = nothing_measured && self.sprays.is_empty() && is_settled(anew) && !of_both;
                plain.then(|| format!("make that {}", self.typed(anew.range.start, anew.range.end)))
            }
            "product" => {
                let Report::Sprayed { product, .. } = told else { return None };
                let anew: Vec<String> = self.sprays()?.into_iter().filter(|spray| spray != product).collect();
                let [anew] = anew.as_slice() else { return None };
                let plain = nothing_measured && self.is_of(of_last);
                plain.then(|| format!("make that {anew}"))
            }
            "number" | "count" | "mass" | "volume" | "depth" | "severity" => {
                let anew = self.figures_anew(told);
                let anew = match anew.as_slice() {
                    [anew] => *anew,
                    // "Make it 10, the 4yo was hiding one"
                    [anew, ..] if self.opens_with_order(anew) => *anew,
                    _ => return None,
                };
                // "There's a spot or two underneath" is no figure of anything.
                let of_leaves =
                    self.tokens.iter().any(|token| token.is_any(words!("spot spots speck specks")));
                let plain = self.is_of(of_last)
                    && !of_leaves
                    && !self.moment.is_said()
                    && !matches!(
                        anew.amount,
                        Amount::Other | Amount::Impossible | Amount::Vessel(_) | Amount::Leaves(_)
                    );
                plain.then(|| format!("make that {}", self.typed(anew.from, anew.to)))
            }
            _ => {
                let (_, value) = what.split_once(' ')?;
                let plain = nothing_measured && !self.moment.is_said() && self.is_of(of_last);
                plain.then(|| format!("make that {}", value.replace('_', " ")))
            }
        }
    }

    /// The figures that are not those of the last report: "9 is wrong, 6 is right".
    fn figures_anew(&self, told: &Report) -> Vec<&Measured> {
        let count = match told {
            Report::Picked { count, .. } => count.map(f64::from),
            _ => None,
        };
        let of_one = |told: &Measured| self.tokens[told.from].is("one") && told.to == told.from + 1;
        self.amounts
            .iter()
            .filter(|told| !matches!(told.amount, Amount::Count(number) if Some(number) == count))
            .filter(|told| !matches!(told.amount, Amount::Other) && !of_one(told))
            .collect()
    }

    fn opens_with_order(&self, anew: &Measured) -> bool {
        let head: Vec<&str> = self.tokens[..anew.from].iter().map(|token| token.text.as_str()).collect();
        matches!(
            head.as_slice(),
            ["make" | "call", "it" | "that"] | ["it's" | "its" | "it" | "was"] | ["it", "was"]
        )
    }
}
