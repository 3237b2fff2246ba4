//! What a clause tells of another garden, another year, another plant, or of metal and people.

use super::people::{is_for, is_kin, thanked};
use super::{Setting, is_month, month_of, pair, says_used_to};
use crate::language::read::lexicon::Sense;
use crate::language::read::names::is_unknown;
use crate::language::read::word_list::{WordList, words};

impl Setting<'_> {
    /// Somebody else's garden, another year, another plant, or metal.
    pub(super) fn is_elsewhere(&self) -> bool {
        self.is_other_year() || self.is_someone_else() || self.is_other_plant() || self.is_hearsay()
    }

    pub(in crate::language::read) fn is_only_other_plant(&self) -> bool {
        self.is_other_plant() && !self.is_other_year() && !self.is_someone_else() && !self.is_hearsay()
    }

    pub(in crate::language::read) fn is_other_year(&self) -> bool {
        const YEARS: WordList = words!(
            "year year's season season's summer summer's fall autumn spring winter yr years seasons yrs summers winters"
        );
        // "I had like 40 by now last year" compares nothing.
        let about = self.clause.windows(2).any(|pair| pair[0].is("like") && pair[1].number.is_some());
        let compared =
            self.any(words!("than unlike compared versus vs as")) || self.any(words!("like")) && !about;
        let other = self.pair(words!("last previous prior past every each most some"), YEARS)
            && !self.pair(words!("last"), words!("spring")) // the last spring frost
            || self.pair(words!("years year yrs decades seasons winters summers"), words!("ago back"))
            || self.pair(words!("year summer season"), words!("before"))
            || self.pair(words!("the"), words!("year")) && self.pair(words!("year"), words!("we i he she they of"))
            // "The summer of 2009? We picked forty pounds that year"
            || self.pair(words!("that"), words!("year summer season june july august september october")) && !self.any(words!("this"))
            || self.pair(words!("back"), words!("in when")) && self.any(words!("when days"))
            || self.clause.windows(3).any(|three| {
                three[0].is("back") && three[1].is("in") && three[2].number.is_some_and(|year| year < 100.0)
            })
            // "In 09 Wall had rust by June"
            || self.clause.windows(2).any(|pair| {
                pair[0].is_any(words!("in since"))
                    && pair[1].text.len() == 2
                    && pair[1].text.starts_with(['0', '9', '8'])
                    && pair[1].number.is_some()
            })
            || self.pair(words!("when"), words!("i")) && self.any(words!("kid child boy girl young little"))
            || self.pair(words!("growing"), words!("up"))
            // "... with the soap my mother used to make"
            || says_used_to(self.clause) && !(self.by_name && self.has(Sense::Sprayed))
            || self.pair(words!("in"), words!("past old"))
            || self.pair(words!("old"), words!("garden place house yard country"))
            || self.any(words!("lived"))
            || self.is_other_month()
            || self.pair(words!("every"), words!("july august june september may fall time"));
        let numbered = self.clause.iter().enumerate().any(|(index, token)| {
            // The year of a whole date is settled with the date.
            !self.in_moment.contains(&index)
                && token
                    .number
                    .is_some_and(|year| (1900.0..2100.0).contains(&year) && year as i32 != self.year)
                && token.text.len() == 4
                // "1910 yesterday" is an hour.
                && !self.clause.get(index + 1).is_some_and(|next| {
                    next.is("-")
                        || next.senses.has(Sense::Unit)
                        || next.is_any(words!("yesterday today hours hrs"))
                })
                && !(index > 0 && self.clause[index - 1].is_any(words!("- /")))
        });
        let abbreviated = self.clause.windows(2).any(|pair| {
            pair[0].is("'")
                && pair[1].joined
                && pair[1].text.len() == 2
                && pair[1].number.is_some_and(|year| year as i32 != self.year % 100)
        });
        let month = self.clause.windows(2).any(|pair| pair[0].is("last") && is_month(&pair[1]));
        (other && !compared) || numbered || abbreviated || month || self.long_ago
    }

    /// "Back in May": too vague a day for this year's journal, unless it is this month.
    fn is_other_month(&self) -> bool {
        self.clause.windows(2).enumerate().any(|(index, pair)| {
            let dated = self.clause.get(index + 2).is_some_and(|next| next.number.is_some());
            pair[0].is_any(words!("in during"))
                && !dated
                && !pair[1].is("march")
                && month_of(&pair[1]).is_some_and(|month| month != self.month)
        })
    }

    fn is_someone_else(&self) -> bool {
        // "My wife sprayed" is this garden's work; "she" alone as often a tree.
        // "My neighbour helped me spray", "watered my pots": done here all the same.
        let ours = self.pair(words!("helped help for"), words!("me us"))
            || self.clause.windows(2).enumerate().any(|(index, pair)| {
                pair[0].is_any(words!("my our")) && self.in_names.get(index + 1).copied().unwrap_or(false)
            });
        let in_law = self.clause.windows(2).enumerate().any(|(at, pair)| {
            pair[0].is("in") && pair[1].is_any(words!("law law's laws")) && !self.is_of_spray(at)
        }) || self
            .pair(words!("late ex former"), words!("husband wife partner father mother dad mom mum"));
        // "By them in the city"
        let by_them = self.pair(words!("by"), words!("them")) && self.any(words!("city town village"));
        // "Every fig on Mrs. Gaskins's street"
        let titled = self.any(words!("mr mrs ms miss")) && !self.by_name;
        let person = in_law
            || by_them
            || titled
            || self.clause.iter().enumerate().any(|(index, token)| {
                let ours = is_for(self.clause, index) || self.by_name && is_kin(token);
                // "Before my first patient" is when.
                let appointed = self.clause[index.saturating_sub(3)..index]
                    .iter()
                    .any(|before| before.is_any(words!("before after until till between")));
                // "Stuck a finger in Eave's pot while on the phone with my sister"
                let talked_to = self.by_name
                    && self.any(words!("phone call talking chatting"))
                    && self.clause[index.saturating_sub(2)..index]
                        .iter()
                        .any(|before| before.is_any(words!("with to from")));
                token.senses.has(Sense::Someone)
                    && !appointed
                    && !talked_to
                    && !self.is_of_spray(index)
                    && !ours
                    && !self.in_names.get(index).copied().unwrap_or(false)
                    && !token.is_any(words!("he she his her people guys hers folks"))
                    && !thanked(self.clause, index)
            });
        let of_tree = self.tree_before && self.pair(words!("her his"), words!("fig figs leaves leaf fruit"));
        // "Dad says he sprayed copper on the deck"
        let first = self.sentence.first();
        let kin = first.is_some_and(|first| {
            first.is_any(words!("dad mom mum wife husband hubby son daughter grandpa grandma"))
        });
        let ours_says = self.tree_before
            || self.names_trees && kin
            || first.is_some_and(|first| first.senses.has(Sense::Mine));
        let of_them = !of_tree
            && self.pair(
                words!("her his their your"),
                words!("tree trees fig figs garden pots place house yard leaves"),
            )
            || self.any(words!("hers theirs"))
            // "Bo went round, then he sprayed": he is one of ours. So is he who was sent to look at one of our trees.
            || self.pair(words!("she he they"), words!("said says sprayed told picked got think say"))
                && !ours_says;
        // "His Wall fig", "Jim's Celeste"; but "Celeste and her leaves".
        let anothers = self.clause.windows(2).enumerate().any(|(index, pair)| {
            let possessive = pair[0].text.ends_with("'s") && is_unknown(&pair[0]);
            (pair[0].is_any(words!("his their your her")) || possessive)
                && self.in_names.get(index + 1).copied().unwrap_or(false)
                && !self.in_names[index]
        });
        // "My freinds Celeste": a word nobody knows between "my" and the tree is somebody.
        let misspelt = self.clause.windows(3).enumerate().any(|(index, three)| {
            three[0].is_any(words!("my our"))
                && is_unknown(&three[1])
                && three[1].text.ends_with('s')
                && !self.in_names[index + 1]
                && self.in_names.get(index + 2).copied().unwrap_or(false)
        });
        let next_door = self.pair(words!("next"), words!("door house"))
            || self.pair(words!("my our the"), words!("village hometown homeland country land homecountry")) && !self.by_name
            // "While I was at work" is when.
            || self.pair(words!("at"), words!("work"))
                && !self.pair(words!("was were am i'm im is be been still"), words!("at"))
                // "Picked 22 for the girls at work"
                && !(self.any(words!("for")) && self.by_name && self.has(Sense::Picked))
            || self.pair(words!("job"), words!("site"));
        // "Bob's figs"
        let of_stranger = next_door
            || self.clause.windows(2).enumerate().any(|(index, pair)| {
                pair[0].text.ends_with("'s")
                    && !self.in_names[index]
                    && is_unknown(&pair[0])
                    && (pair[1].senses.has_any(&[Sense::Fig, Sense::Tree])
                        || pair[1].is_any(words!("garden place yard pots")))
            });
        // "Rust all over, glad it ain't mine"
        let not_mine =
            pair(self.sentence, words!("not ain't aint isn't isnt wasn't aren't"), words!("mine ours"));
        // "My cousins fig", without its apostrophe.
        let kin_of = self.clause.windows(2).any(|pair| {
            pair[0].is_any(words!("cousins neighbors neighbours sisters brothers uncles aunts moms mums dads friends buddys grandmas grandpas inlaws coworkers boss's mama's momma's daddy's papa's granny's nana's memaw's"))
                && (pair[1].senses.has_any(&[Sense::Fig, Sense::Tree]) || pair[1].is_any(words!("garden place yard pots")))
        });
        // "Bro in Georgia has rust bad"
        let bro = self.clause.first().is_some_and(|first| first.is_any(words!("bro sis homie bestie")))
            && self
                .clause
                .get(1)
                .is_some_and(|next| next.is_any(words!("in has got says said lost from down over")));
        let misspelt = misspelt || not_mine || kin_of || bro;
        let theirs = misspelt || of_stranger || of_them && !self.names_trees || anothers;
        // "Before church" is a time.
        let placed = self.clause.iter().enumerate().any(|(index, token)| {
            token.senses.has(Sense::Elsewhere)
                && (index <= 1
                    || self.clause[index.saturating_sub(3)..index]
                        .iter()
                        .any(|before| before.is_any(words!("at in from on near online by to"))))
                && !(index > 0 && self.clause[index - 1].is_any(words!("before after")))
        });
        let place = self.has(Sense::Elsewhere)
            && placed
            && self.any(words!("at in the from on online"))
            && !self.pair(words!("garden's"), words!("done"));
        // "At the demonstration garden"
        let garden = self.clause.windows(3).any(|three| {
            three[0].is_any(words!("at the in"))
                && three[2].is_any(words!("garden gardens"))
                && (is_unknown(&three[1])
                    || three[1]
                        .is_any(words!("community school show demonstration trial public botanical rose")))
        });
        let place = place || garden || self.any(words!("botanical arboretum cousins'"));
        // "Sprayed Wall with the mixture from the church magazine"
        let recipe = self.by_name && self.has(Sense::Sprayed) && self.any(words!("with mixture recipe mix"));
        person && !ours || theirs || place && !recipe && !self.any(words!("bought store"))
    }

    /// "Sprayed Wall with my neighbor's copper", "... the powder of my father in law": whose bottle it was, and our tree.
    fn is_of_spray(&self, index: usize) -> bool {
        const BOTTLE: WordList =
            words!("with powder stuff mixture soap mix recipe brew potion concoction liquid bottle solution");
        const FARTHEST: usize = 6;
        let tree = (0..index).any(|at| {
            self.in_names.get(at).copied().unwrap_or(false)
                || self.clause[at].is_any(words!("it them her him"))
        });
        let bottle =
            self.clause[index.saturating_sub(FARTHEST)..index].iter().any(|token| token.is_any(BOTTLE));
        // "Sprayed grandpa's pink powder on Corner"
        let of_person = self.by_name
            && self.clause[index].text.ends_with("'s")
            && self.clause[index + 1..].iter().take(3).any(|token| token.is_any(BOTTLE) && !token.is("with"));
        if of_person && self.senses.has_any(&[Sense::Sprayed, Sense::Applied]) {
            return true;
        }
        tree && bottle && self.senses.has_any(&[Sense::Sprayed, Sense::Applied])
            // "... with my neighbor" helped; what of his it was is what counts.
            && (self.clause[index].text.ends_with('s') || !self.clause[index.saturating_sub(2)..index].iter().any(|token| token.is("with")))
    }

    fn is_other_plant(&self) -> bool {
        // Frost on the grass is frost.
        // Lime sulfur grows on no tree.
        let grows = |index: usize| {
            self.clause[index].senses.has(Sense::Plant)
                && !self.clause.get(index + 1).is_some_and(|next| {
                    next.senses.has(Sense::Sulfur)
                        // "Sprayed garlic tea on Corner"
                        || self.names_trees
                            && self.has(Sense::Sprayed)
                            && next.is_any(words!("tea spray brew extract oil soap water solution mix"))
                })
        };
        let sprays = self.clause.iter().any(|token| token.senses.has(Sense::Plant))
            && !(0..self.clause.len()).any(grows);
        let plant = self.has(Sense::Plant) && !self.has(Sense::Frost) && !sprays;
        // "Saw no rust" saw; "my saw is rusty" is a tool.
        let tool = self.clause.iter().enumerate().any(|(index, token)| {
            token.senses.has(Sense::Metal)
                && (!token.is("saw")
                    || index > 0 && self.clause[index - 1].is_any(words!("my the a that his her old")))
        });
        let metal = tool && self.has(Sense::Rust);
        let in_passing = self.clause.iter().enumerate().any(|(index, token)| {
            token.senses.has(Sense::Plant)
                && index > 0
                && self.clause[..index]
                    .iter()
                    .rev()
                    .take(2)
                    .any(|before| before.is_any(words!("by near beside behind under next past like pea")))
        });
        // "planted beans by the wall"
        let object = self.clause.iter().enumerate().any(|(index, token)| {
            token.senses.has(Sense::Plant)
                && !self.in_names.get(index).copied().unwrap_or(false)
                && self.clause[index.saturating_sub(2)..index].iter().any(|before| {
                    before.senses.has_any(&[Sense::Planted, Sense::Sprayed, Sense::Watered, Sense::Picked])
                })
        });
        let beside = if self.names_trees { self.pair(words!("next"), words!("to")) } else { !in_passing };
        let of_plant = object || beside;
        let of_metal = !self.by_name || self.any(words!("rusty rusted rusting metal iron steel wire wires"));
        plant && of_plant || metal && of_metal || self.is_rusty_person()
    }

    /// "I'm a little rusty at this", "my French is rusty".
    fn is_rusty_person(&self) -> bool {
        const FARTHEST: usize = 5;
        let Some(rusty) = self.clause.iter().position(|token| token.is("rusty")) else { return false };
        let before = &self.clause[rusty.saturating_sub(FARTHEST)..rusty];
        let person = before.iter().any(|token| token.is_any(words!("i'm im we're i've")))
            || pair(before, words!("i we"), words!("am was are get got feel felt"));
        let skill = before.windows(2).enumerate().any(|(index, pair)| {
            pair[0].is_any(words!("my our"))
                && pair[1].is_word()
                && !pair[1].senses.has_any(&[Sense::Leaf, Sense::Fig, Sense::Tree, Sense::Pot, Sense::Pots])
                && before[index + 2..].iter().any(|token| token.senses.has(Sense::Be))
        });
        (person || skill)
            && !self.names_trees
            && !self.senses.has_any(&[Sense::Leaf, Sense::Fig, Sense::Tree, Sense::Seen])
    }

    fn is_hearsay(&self) -> bool {
        // "Mom said to say we watered"
        let brings_word = self.pair(words!("said says asked"), words!("to"))
            && self.pair(words!("to"), words!("say tell put let"));
        let told = self.any(words!("says said told"))
            && !brings_word
            // "Finger in the dirt says Eave is moist"
            && !self.any(words!("finger fingers probe thermometer scale meter"));
        self.pair(
            words!("they people everyone forecast news radio book label article weatherman who"),
            words!("say says said saying calls called reads"),
        ) || self.pair(words!("read heard reading"), words!("about that online somewhere an rust you it"))
            || self.clause.first().is_some_and(|first| {
                first.is_any(words!("reading read watching watched studying wrote writing"))
            }) && self.any(words!("paper article study thesis book video post blog chapter"))
            || self.any(words!("online forum website"))
            || told
                && !self.any(words!("jar bucket tube tin can gauge guage i scale thermometer it label meter wife husband hubby partner spouse dad mom mum son daughter"))
                && !self.has(Sense::Gauge)
                && self.clause.first().is_some_and(|first| first.is_word() && !first.senses.has(Sense::Mine))
                // "Bo checked Corner, says 20 percent"
                && !(self.clause[0].is_any(words!("says said he she"))
                    && self.sentence.first().is_some_and(|first| first.senses.has(Sense::Mine)))
    }
}
