//! Whether a clause tells of something that happened here and now, or only speaks of it: plans, conditions,
//! denials, habits, guesses, other gardens, other years.

mod people;

use self::people::{is_for, is_kin, thanked};
use super::lexicon::{Sense, Senses};
use super::names::is_unknown;
use super::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::request::Aside;

/// How a clause is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mood {
    Told,
    /// Said not to have happened.
    Denied,
    /// Words of a report, but no report.
    Not(Aside),
}

/// A clause among those of its sentence.
pub(super) struct Setting<'a> {
    pub(super) clause: &'a [Token],
    pub(super) senses: Senses,
    pub(super) sentence: &'a [Token],
    /// The clause names trees of this garden.
    pub(super) names_trees: bool,
    /// By a name of their own: "all rust" names none.
    pub(super) by_name: bool,
    /// It tells a day of another year.
    pub(super) long_ago: bool,
    /// Places of its words of when.
    pub(super) in_moment: &'a [usize],
    /// Which of its tokens are part of such names.
    pub(super) in_names: &'a [bool],
    /// A tree was named before, so that "her figs" are that tree's.
    pub(super) tree_before: bool,
    /// The year and month of the message, which are no other.
    pub(super) year: i32,
    pub(super) month: u32,
}

impl Setting<'_> {
    /// The mood as far as the words alone tell it, whatever they report.
    pub(super) fn mood(&self) -> Mood {
        if self.is_condition() {
            return Mood::Not(Aside::Condition);
        }
        if self.is_order_not_to() {
            return Mood::Not(Aside::Plan);
        }
        if self.is_elsewhere() {
            return Mood::Not(Aside::Elsewhere);
        }
        if self.is_unreal() {
            return Mood::Denied;
        }
        // "Need to buy copper" is something to do, "need copper" a remark.
        if self.is_shopping() && self.pair(words!("need needs have has got gotta want"), words!("to")) {
            return Mood::Not(Aside::Plan);
        }
        if self.is_guess() || self.is_shopping() {
            return Mood::Not(Aside::Talk);
        }
        if self.is_future() {
            return Mood::Not(Aside::Plan);
        }
        if self.is_habit() {
            return Mood::Not(Aside::Talk);
        }
        Mood::Told
    }

    fn has(&self, sense: Sense) -> bool {
        self.senses.has(sense)
    }

    fn any(&self, texts: WordList) -> bool {
        self.clause.iter().any(|token| token.is_any(texts))
    }

    fn pair(&self, first: WordList, second: WordList) -> bool {
        pair(self.clause, first, second)
    }

    fn is_condition(&self) -> bool {
        let opens = |token: &Token| {
            token.is_any(words!("if unless whenever assuming suppose supposing lest provided"))
        };
        let asks = self.pair(words!("sure see wonder wondering know tell doubt ask as"), words!("if"));
        let first = self.sentence.iter().find(|token| !token.is_mark() && !token.senses.has(Sense::Filler));
        // "When it don't rain I give more": a habit, "when I got home" a time.
        let came = words!(
            "got came was were went looked checked saw finished had did started woke heard noticed found left"
        );
        let whenever = self.clause.first().is_some_and(|first| first.is("when"))
            && !self.has_past()
            && !self.has(Sense::Future)
            && !self.any(came)
            && !self.pair(words!("when"), words!("i"));
        (self.clause.iter().any(opens) && !asks)
            || whenever
            || first.is_some_and(opens)
            || pair(self.sentence, words!("soon"), words!("as"))
            || self.sentence.first().is_some_and(|first| first.is("in"))
                && self.sentence.get(1).is_some_and(|case| case.is("case"))
            || self.pair(words!("in"), words!("case")) && self.has(Sense::Future)
            || self.pair(words!("depends depending"), words!("on whether how"))
    }

    /// "Don't spray Wall", "he said not to water Whip".
    fn is_order_not_to(&self) -> bool {
        let work =
            |token: &Token| token.senses.has_any(&[Sense::Spray, Sense::Water, Sense::Pick, Sense::Apply]);
        let told =
            self.clause.windows(3).any(|three| three[0].is("not") && three[1].is("to") && work(&three[2]))
                && self.any(words!("said says told asked tells asks"));
        let mut words = self.clause.iter().filter(|token| {
            !token.is_mark() && !token.senses.has(Sense::Filler) && !token.is_any(words!("please pls do"))
        });
        let denied = words.next().is_some_and(|first| first.is_any(words!("don't dont never not")));
        // "Leave the ripe ones on Celeste for your mother"
        let orders = self.clause.first().is_some_and(|first| first.is_any(words!("leave save")))
            && self.sentence.first().is_some_and(|first| first.is_any(words!("leave save please")))
            && self.any(words!("the those them it any some"));
        // "The pots on the deck can wait"
        let waits = self.pair(words!("can could will must should to"), words!("wait"));
        told || orders || waits || denied && words.next().is_some_and(work)
    }

    /// Somebody else's garden, another year, another plant, or metal.
    fn is_elsewhere(&self) -> bool {
        self.is_other_year() || self.is_someone_else() || self.is_other_plant() || self.is_hearsay()
    }

    pub(super) fn is_only_other_plant(&self) -> bool {
        self.is_other_plant() && !self.is_other_year() && !self.is_someone_else() && !self.is_hearsay()
    }

    pub(super) fn is_other_year(&self) -> bool {
        const YEARS: WordList = words!(
            "year year's season season's summer summer's fall autumn spring winter yr years seasons yrs summers winters"
        );
        let compared = self.any(words!("than like unlike compared versus vs as"));
        let other = self.pair(words!("last previous prior past every each most some"), YEARS)
            && !self.pair(words!("last"), words!("spring")) // the last spring frost
            || self.pair(words!("years year yrs decades seasons"), words!("ago back"))
            || self.pair(words!("year summer season"), words!("before"))
            || self.pair(words!("the"), words!("year")) && self.pair(words!("year"), words!("we i he she they of"))
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
            || says_used_to(self.clause)
            || self.pair(words!("in"), words!("past old"))
            || self.pair(words!("old"), words!("garden place house yard"))
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
        let in_law = self.pair(words!("in"), words!("law law's laws"))
            || self.pair(words!("late ex former"), words!("husband wife partner father mother dad mom mum"));
        let person = in_law
            || self.clause.iter().enumerate().any(|(index, token)| {
                let ours = is_for(self.clause, index) || self.by_name && is_kin(token);
                token.senses.has(Sense::Someone)
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
        let next_door = self.pair(words!("next"), words!("door"))
            || self.pair(words!("at"), words!("work"))
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
            pair[0].is_any(words!("cousins neighbors neighbours sisters brothers uncles aunts moms mums dads friends buddys grandmas grandpas inlaws coworkers boss's"))
                && (pair[1].senses.has_any(&[Sense::Fig, Sense::Tree]) || pair[1].is_any(words!("garden place yard pots")))
        });
        let misspelt = misspelt || not_mine || kin_of;
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
        person && !ours || theirs || place && !self.any(words!("bought store"))
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
        let told = self.any(words!("says said told")) && !brings_word;
        self.pair(
            words!("they people everyone forecast news radio book label article weatherman who"),
            words!("say says said saying calls called reads"),
        ) || self.pair(words!("read heard reading"), words!("about that online somewhere an rust you it"))
            || self.clause.first().is_some_and(|first| {
                first.is_any(words!("reading read watching watched studying wrote writing"))
            }) && self.any(words!("paper article study thesis book video post blog chapter"))
            || self.any(words!("online forum website"))
            || told
                && !self.any(words!("gauge guage i scale thermometer it label meter wife husband hubby partner spouse dad mom mum son daughter"))
                && !self.has(Sense::Gauge)
                && self.clause.first().is_some_and(|first| first.is_word() && !first.senses.has(Sense::Mine))
                // "Bo checked Corner, says 20 percent"
                && !(self.clause[0].is_any(words!("says said he she"))
                    && self.sentence.first().is_some_and(|first| first.senses.has(Sense::Mine)))
    }

    /// "Should have sprayed", "almost sprayed", "was going to": not done.
    fn is_unreal(&self) -> bool {
        let have = words!("have of a had");
        self.pair(words!("should would could must might"), have)
            || self.any(words!("should've would've could've shoulda woulda coulda wish wished"))
            || self.pair(words!("was were"), words!("going gonna about supposed hoping planning"))
            // "I liked to have watered them": very nearly did.
            || self.pair(words!("liked like"), words!("to")) && self.pair(words!("to"), have)
            || self.pair(words!("all everything"), words!("set ready"))
            || self.pair(
                words!("forgot meant wanted tried hoped planned failed neglected intended"),
                words!("to"),
            ) && !self.pair(words!("to"), words!("let tell say report mention share add note update"))
            || self.pair(words!("no don't dont not doesn't didn't"), words!("need have want"))
                && self.pair(words!("need have want"), words!("to"))
            || self.pair(words!("forgetting"), words!("to"))
            || self.has(Sense::Negation) && self.pair(words!("time chance way energy"), words!("to"))
            || !self.pair(words!("to"), words!("tell say mention report log write"))
                && self.any(words!("forgot skipped skipping forgotten postponed postponing decided"))
                && !self.has(Sense::Finished)
            || self.clause.iter().enumerate().any(|(index, token)| {
                token.is_any(words!("almost nearly practically"))
                    && self.clause.get(index + 1).is_some_and(|next| {
                        next.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked, Sense::Applied])
                    })
            })
            || self.pair(words!("thought think thinking"), words!("better"))
            || self.pair(words!("yet"), words!("to"))
            || self.any(words!("too")) && self.pair(words!("to"), words!("spray water pick do treat"))
            || self.any(words!("won't wont"))
                && self.senses.has_any(&[
                    Sense::Spray,
                    Sense::Spraying,
                    Sense::Water,
                    Sense::Watering,
                    Sense::Pick,
                    Sense::Picking,
                ])
            || self.pair(
                words!("not ain't isn't never aren't"),
                words!("going gonna planning spraying watering picking"),
            )
            || self.pair(words!("held hold holding put putting"), words!("off"))
            || self.pair(words!("never didn't"), words!("got get had"))
            || self.pair(words!("instead rather"), words!("of than")) && self.has(Sense::Spraying)
    }

    /// Still to be done or to come.
    fn is_future(&self) -> bool {
        let clause = self.clause;
        let at = |index: usize| clause.get(index);
        let back = |index: usize| index.checked_sub(1).and_then(|before| clause.get(before));
        let future = clause.iter().enumerate().any(|(index, token)| {
            token.senses.has(Sense::Future)
                && match token.text.as_str() {
                    // "Fixin to do Wall"; "rust is fixin to take Wall" is there already.
                    "fixin" | "fixing" => {
                        at(index + 1).is_some_and(|next| next.is("to"))
                            && at(index + 2).is_some_and(|next| {
                                next.is_any(words!("do go get treat hit"))
                                    || next.senses.has_any(&[Sense::Spray, Sense::Water, Sense::Pick])
                            })
                    }
                    "going" | "goin" => at(index + 1).is_some_and(|next| next.is_any(words!("to 2"))),
                    "later" => !back(index)
                        .is_some_and(|before| before.senses.has(Sense::Time) || before.is("sooner")),
                    "soon" => !back(index).is_some_and(|before| before.is("as")),
                    "supposed" | "expected" | "predicted" | "expecting" => true,
                    "forecast" | "forecasted" | "upcoming" => true,
                    // "picked before tomorrow's storm" is done.
                    "tomorrow" | "tomorrow's" | "tmrw" => {
                        !clause[..index].iter().any(|before| before.is_any(words!("before ahead for")))
                    }
                    _ => true,
                }
        });
        let intent = clause.iter().enumerate().any(|(index, token)| {
            let next = |texts: WordList| at(index + 1).is_some_and(|next| next.is_any(texts));
            match token.text.as_str() {
                "plan" | "plans" | "planning" | "need" | "needs" | "want" | "wants" | "wanna" | "gotta"
                | "should" | "shud" | "shld" | "must" | "thinking" | "intend" | "intending" | "remind"
                | "reminder" | "todo" | "considering" | "consider" | "ought" | "shall" | "preparing"
                | "prepping" | "prep" => true,
                "let's" | "lets" => at(index + 1).is_some_and(|next| {
                    next.senses.has_any(&[Sense::Spray, Sense::Water, Sense::Pick])
                        || next.is_any(words!("do get wait see try plan not hit"))
                }),
                "better" => at(index + 1)
                    .is_some_and(|next| next.senses.has_any(&[Sense::Spray, Sense::Water, Sense::Pick])),
                "i'd" | "we'd" if at(index + 1).is_some_and(|next| next.number.is_some()) => false,
                "i'd" | "we'd" => {
                    !next(words!("say guess call put estimate rate reckon already just been rather"))
                }
                "don't" | "dont" | "not" => next(words!("let forget")),
                // "Back in May": a month.
                "may"
                    if back(index).is_some_and(|before| {
                        before.is_any(words!("in since last early late mid of by until"))
                    }) =>
                {
                    false
                }
                "got" => {
                    next(words!("to"))
                        && at(index + 2).is_some_and(|verb| {
                            verb.number.is_none()
                                && !verb.is_any(words!("them it her him those some the my any"))
                        })
                        && !self.any(words!("finally just already around"))
                }
                "might" | "may" | "could" => at(index + 1).is_some_and(|next| {
                    !next.is_any(words!("be see find have only just barely not")) && next.number.is_none()
                }),
                "have" | "has" | "meaning" => next(words!("to")),
                "about" => next(words!("to")),
                "time" | "due" => next(words!("to for")),
                // "Corner is ready to pick" is how she stands.
                "ready" => {
                    let fruit = at(index + 2).is_some_and(|verb| verb.is_any(words!("pick eat harvest")));
                    let stands = fruit && !self.any(words!("i i'm im we we're getting"));
                    next(words!("to for")) && !self.has(Sense::Ripe) && !stands
                }
                "to" => next(words!("do spray water")) && index == 0,
                "would" => next(words!("like love")),
                "try" | "trying" | "hoping" | "hope" => next(words!("to")),
                _ => false,
            }
        });
        let spray_day =
            self.pair(words!("spray spraying watering picking"), words!("day time")) && !self.has_past();
        let next_time = spray_day
            || self.pair(words!("next"), words!("up on is in")) && !self.has_past()
            || self.pair(words!("this"), words!("weekend")) && !self.has_past()
            || self.pair(
                words!("next coming following"),
                words!("week month weekend time year season spring summer fall winter monday tuesday wednesday thursday friday saturday sunday"),
            ) && !self.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked]);
        let coming = self.any(words!("coming incoming approaching"))
            && self.senses.has_any(&[Sense::Frost, Sense::Rain])
            && !self.has_past()
            || self.has(Sense::Frost) && self.any(words!("warning advisory watch forecast"));
        future || intent || next_time || coming
    }

    /// A verb that tells of something done.
    fn has_past(&self) -> bool {
        self.senses.has_any(&[
            Sense::Sprayed,
            Sense::Applied,
            Sense::Watered,
            Sense::Picked,
            Sense::Rained,
            Sense::Froze,
        ])
    }

    /// "Could be rust", "not sure", "looks like rain", "I wonder".
    fn is_guess(&self) -> bool {
        // "..., who watered it twice"
        self.clause.first().is_some_and(|first| first.is("who"))
            || self.pair(words!("could might may must can"), words!("be"))
            || self.pair(words!("not isn't never aren't wasn't"), words!("sure certain positive"))
            || self.any(words!("unsure wonder wondering dunno suspect hopefully suspicious whether"))
            || self.is_trial()
            // "Thought I saw rust but no"
            || self.pair(words!("thought"), words!("i we it there"))
            || self.pair(words!("could can"), words!("use")) && self.has(Sense::Rain)
            || self.pair(words!("don't dont didn't doesn't"), words!("know remember recall think"))
            || self.any(words!("hope hoping hopes")) && !self.pair(words!("hope hoping"), words!("to"))
            || self.pair(words!("looks look feels smells"), words!("like")) && self.has(Sense::Rain)
            || self.any(words!("kidding joking dreamed dreamt dreams dream imagine pretend hypothetically"))
    }

    /// "Just testing", "this is a test".
    pub(super) fn is_trial(&self) -> bool {
        let opens = self.clause.iter().find(|token| !token.senses.has(Sense::Filler));
        opens.is_some_and(|first| first.is_any(words!("test testing")))
            || self.pair(words!("a"), words!("test"))
    }

    /// "Need more copper": to be bought, not to be done.
    fn is_shopping(&self) -> bool {
        self.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil])
            && (self.any(words!("need needs want get")) && self.any(words!("more some another new buy"))
                || self.pair(words!("out low"), words!("of on")))
            && !self.senses.has_any(&[Sense::Spray, Sense::Sprayed, Sense::Spraying])
    }

    fn is_habit(&self) -> bool {
        // "We use copper once a year", "constant watering"
        let now_and_then = self.pair(words!("once twice thrice"), words!("a every per")) && !self.has_past()
            || self.pair(words!("every"), words!("single"))
                && self.pair(words!("single"), words!("day morning evening night"))
            || self.any(words!("constant constantly regular regularly daily")) && !self.has_past();
        now_and_then
            || self.any(words!("usually normally typically generally sometimes seldom occasionally tends"))
            || self.any(words!("always")) && !self.has(Sense::Be)
            || self.any(words!("often"))
            || self.clause.first().is_some_and(|first| first.is("each")) && self.has(Sense::Time)
            || self.pair(
                words!("every"),
                words!("morning evening day week night other sunday monday saturday weekend"),
            ) && !self.pair(words!("for"), words!("the"))
    }
}

fn month_of(token: &Token) -> Option<u32> {
    super::moments::month(&token.text).filter(|_| token.text.len() > 3 || token.is("may"))
}

fn is_month(token: &Token) -> bool {
    token.is_any(words!(
        "january february march april may june july august september october november december"
    ))
}

/// "We used to spray lime sulfur"; but "it's what Bo's used to".
pub(super) fn says_used_to(tokens: &[Token]) -> bool {
    (0..tokens.len().saturating_sub(1)).any(|at| {
        let accustomed = at > 0
            && (tokens[at - 1].is_any(words!("is are am i'm im was were get got getting not be"))
                || tokens[at - 1].text.ends_with("'s"));
        tokens[at].is("used") && tokens[at + 1].is("to") && !accustomed
    })
}

pub(super) fn pair(tokens: &[Token], first: WordList, second: WordList) -> bool {
    tokens.windows(2).any(|pair| pair[0].is_any(first) && pair[1].is_any(second))
}
