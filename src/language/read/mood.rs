//! Whether a clause tells of something that happened here and now, or only speaks of it: plans, conditions,
//! denials, habits, guesses, other gardens, other years.

mod elsewhere;
mod people;

use super::lexicon::{Sense, Senses};
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
        if self.is_future() || self.is_due() {
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
        // "Should the weather remain dry, I intend to spray"
        let should = self.sentence.first().is_some_and(|first| first.is("should"))
            && self
                .sentence
                .iter()
                .any(|token| token.is_any(words!("intend will shall i'll we'll plan would i'd")));
        // "Had I picked those yesterday, the wasps would not have had them"
        let inverted = should
            || self.sentence.first().is_some_and(|first| first.is_any(words!("had were")))
                && self.sentence.get(1).is_some_and(|who| who.is_any(words!("i we it there they the")))
                && self.sentence.iter().any(|token| token.is_any(words!("would wouldn't i'd we'd could")));
        inverted
            || (self.clause.iter().any(opens) && !asks)
            || whenever
            || first.is_some_and(opens)
            || self.waits_for_it()
            || self.sentence.first().is_some_and(|first| first.is("in"))
                && self.sentence.get(1).is_some_and(|case| case.is("case"))
            || self.pair(words!("in"), words!("case")) && self.has(Sense::Future)
            || self.pair(words!("depends depending"), words!("on whether how"))
    }

    /// "I'll spray as soon as it dries"; but "gave Corner 5 gallons soon as I got in" is when.
    fn waits_for_it(&self) -> bool {
        let Some(at) = self.sentence.windows(2).position(|pair| pair[0].is("soon") && pair[1].is("as"))
        else {
            return false;
        };
        let came = self.sentence[at..].iter().take(6).any(|token| {
            token.is_any(words!("got came was were saw finished had did started woke heard noticed found left quit stopped ended went dropped"))
        });
        let done = |token: &Token| {
            token.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked])
                || token.is_any(words!("gave put hit checked looked moved brought took"))
        };
        !(came && self.sentence[..at].iter().any(done))
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

    /// "Should have sprayed", "almost sprayed", "was going to": not done.
    fn is_unreal(&self) -> bool {
        let have = words!("have of a had");
        self.pair(words!("should would could must might"), have)
            || self.any(words!("should've would've could've might've mightve mighta shoulda woulda coulda wish wished"))
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
                            || next.is_any(words!("moved brought took carried pulled planted"))
                    })
            })
            || self.pair(words!("thought think thinking"), words!("better"))
            || self.pair(words!("yet"), words!("to"))
            // "I would spray Wall today, but the wind is too strong"
            || self.pair(words!("i we"), words!("would i'd")) && self.pair(words!("would"), words!("spray water pick"))
            // "Bo was to water the deck"
            || self.pair(words!("was were is are"), words!("to")) && self.pair(words!("to"), words!("water spray pick weigh check"))
            || self.any(words!("too")) && self.pair(words!("to"), words!("spray water pick do treat check look see scout inspect"))
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

    /// "Copper in 3 days", "frost in 2 nights": still to come, with nothing done and nothing measured.
    fn is_due(&self) -> bool {
        const MOST_BETWEEN: usize = 4;
        let clause = self.clause;
        let long = |at: usize| {
            let told = clause.get(at + 1..).unwrap_or_default();
            let end = told.iter().take(MOST_BETWEEN).position(|token| {
                token.is_any(words!("day days night nights week weeks month months hour hours"))
            });
            end.is_some_and(|end| {
                end > 0
                    && told[..end].iter().all(|token| {
                        token.number.is_some()
                            || token
                                .is_any(words!("a an half couple few of about around roughly maybe another"))
                    })
            })
        };
        let Some(at) = (0..clause.len()).find(|at| clause[*at].is("in") && long(*at)) else { return false };
        // Only what is done by the calendar: "celeste bone dry in a day" and "ran copper over the lot in an hour" have been.
        let due =
            |token: &Token| token.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil, Sense::Frost]);
        let beside = |(place, token): (usize, &Token)| {
            due(token)
                || token.is_mark()
                || self.in_names.get(place).copied().unwrap_or_default()
                || token.is_any(words!("again next more on for the my our a all pots trees figs hard light"))
        };
        clause[..at].iter().any(due)
            && clause[..at].iter().enumerate().all(beside)
            && !self.any(words!("since ago"))
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
                    "soon" => {
                        !back(index).is_some_and(|before| before.is("as"))
                            && !at(index + 1).is_some_and(|next| next.is("as"))
                    }
                    "supposed" | "expected" | "predicted" | "expecting" => true,
                    "forecast" | "forecasted" | "upcoming" => true,
                    // "picked before tomorrow's storm" is done.
                    // "Picked 10 off Wall tomorrow" cannot be, and is doubted.
                    "tomorrow" | "tmrw" if index > 0 && self.says_done() => false,
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
                "may" if back(index).is_some_and(|before| before.number.is_some()) => false,
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

    /// A past verb at the head, and none of wishing or waiting.
    fn says_done(&self) -> bool {
        let mut heads = self.clause.iter().filter(|token| !token.is_mark() && !token.senses.has(Sense::Mine));
        heads
            .next()
            .is_some_and(|first| first.senses.has_any(&[Sense::Sprayed, Sense::Watered, Sense::Picked]))
            && !self.any(words!("before ahead for until till if when so because"))
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
            // "I think that's rust on Wall but it might just be dirt"
            || pair(self.sentence, words!("might could may"), words!("just be"))
                && self.sentence.iter().any(|token| token.is_any(words!("think thought maybe")))
                && self.sentence.iter().any(|token| token.is("be"))
            || self.pair(words!("not isn't never aren't wasn't"), words!("sure certain positive"))
            || self.any(words!("unsure wonder wondering dunno suspect hopefully suspicious whether"))
            || self.is_trial()
            // "Thought I saw rust but no"
            || self.pair(words!("thought"), words!("i we it there"))
            || self.pair(words!("could can"), words!("use")) && self.has(Sense::Rain)
            || self.pair(words!("don't dont didn't doesn't"), words!("know remember recall think"))
            || self.any(words!("hope hoping hopes")) && !self.pair(words!("hope hoping"), words!("to"))
            || self.pair(words!("looks look feels smells"), words!("like")) && self.has(Sense::Rain)
            || self.any(words!("kidding joking dreamed dreamt dreams dream imagine pretend hypothetically wish"))
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
            || self.clause.first().is_some_and(|first| first.is("each"))
                && self.clause.get(1).is_some_and(|time| time.senses.has(Sense::Time))
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
