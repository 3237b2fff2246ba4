//! What a question is about.

mod about;
mod done;
mod products;

use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::lexicon::{Sense, Senses};
use crate::language::read::mood::pair;
use crate::language::read::names::Product;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::journal::{Report, What};
use crate::season::request::{Advised, Cold, Question, Selection};

/// `before` are the trees spoken of just now, for "it" and "them".
pub(super) fn question(speech: &Speech, before: Option<&Selection>) -> Option<Question> {
    let mut asked = Words::of(speech);
    let of_it =
        |skip: usize, texts: WordList| asked.tokens.iter().skip(skip).any(|token| token.is_any(texts));
    let it_ails = asked.tokens.windows(2).any(|pair| {
        pair[0].is("it")
            && pair[1].is_any(words!("dying dead sick okay alright doomed recovering struggling diseased"))
    });
    // "Is it the rust?", "is that normal?"
    let it_ails = it_ails
        || asked.tokens.len() <= 7
            && asked.tokens.iter().any(|token| token.is_any(words!("it that this")))
            && asked
                .tokens
                .iter()
                .any(|token| token.is_any(words!("rust normal disease serious bad ok okay fine")))
            && asked.tokens.first().is_some_and(|first| first.is_any(words!("is it's thats")));
    let it_needs = it_ails
        || asked.tokens.windows(2).any(|pair| pair[0].is("it") && pair[1].is_any(words!("need needs want")));
    if asked.trees.is_none()
        && (it_needs || of_it(2, words!("it them her him those")) || of_it(1, words!("they she he these")))
    {
        asked.trees = before.cloned();
    }
    if asked.trees.is_none() && asked.is_of_amount_given() {
        let told = speech.context.last.and_then(|last| match &last.what {
            What::Report { trees, .. } => Some(Selection::Named(trees.clone())),
            What::Setting(_) => None,
        });
        asked.trees = before.cloned().or(told);
    }
    // "I haven't watered today, do I need to?"
    let need_to = asked.tokens.len() <= 6
        && asked
            .tokens
            .iter()
            .rev()
            .find(|token| !token.is_mark())
            .is_some_and(|last| last.is_any(words!("to i")))
        && asked.any(words!("need should"))
        && asked.any(words!("i we"));
    if need_to && speech.text.to_lowercase().contains("water") {
        return Some(Question::Water { trees: asked.selection() });
    }
    // "On what grounds do you advise that?" is no question of what the bot can do.
    if asked.pair(words!("what your"), words!("grounds ground"))
        && let Some(why) = asked.why()
    {
        return Some(why);
    }
    asked
        .help()
        .or_else(|| asked.garden())
        .or_else(|| asked.what_it_is())
        .or_else(|| asked.why())
        .or_else(|| asked.together())
        .or_else(|| asked.compare())
        .or_else(|| asked.of_product())
        .or_else(|| asked.season_count())
        .or_else(|| asked.mix())
        // "Is it safe to eat off Eave, given that it was sprayed on Saturday?"
        .or_else(|| asked.pair(words!("safe"), words!("to")).then(|| asked.picking()).flatten())
        .or_else(|| asked.done())
        .or_else(|| asked.season())
        .or_else(|| asked.picking())
        .or_else(|| asked.spray())
        .or_else(|| asked.frost())
        .or_else(|| asked.storm())
        .or_else(|| asked.water())
        .or_else(|| asked.things())
        .or_else(|| asked.tree())
        .or_else(|| asked.ahead())
        .or_else(|| asked.everything())
}

/// A night at most so warm is asked after as a cold one.
const COLD_NIGHT: f64 = 5.0;

/// "I was wondering whether", "could you tell me", "do you think": politeness before the question.
fn lead_in(tokens: &[Token]) -> usize {
    // "Why did you tell me to spray?"
    if tokens.first().is_some_and(|first| first.is("why")) {
        return 0;
    }
    let is = |index: usize, texts: WordList| tokens.get(index).is_some_and(|token| token.is_any(texts));
    let end = (0..tokens.len().min(7)).rev().find(|index| {
        is(*index, words!("wondering wonder curious asking"))
            || is(*index, words!("know"))
                && is(index.wrapping_sub(1), words!("you"))
                && is(
                    index + 1,
                    words!(
                        "when how how's what what's should do is can did will if why whether are any which"
                    ),
                )
            // "I don't know if I watered yesterday"
            || is(*index, words!("know remember recall idk dunno")) && is(index + 1, words!("if whether"))
            || is(*index, words!("think reckon suppose"))
                && is(index.wrapping_sub(1), words!("you u y'all yall ya"))
            || is(*index, words!("know ask")) && is(index.wrapping_sub(1), words!("to"))
            || is(*index, words!("me know us"))
                && is(index.wrapping_sub(1), words!("tell let remind me show"))
    });
    let from = end.map_or(0, |end| end + 1);
    let from = from + usize::from(is(from, words!("if whether that about please")) && end.is_some());
    if from < tokens.len() { from } else { 0 }
}

struct Words<'a> {
    speech: &'a Speech<'a>,
    tokens: &'a [Token],
    senses: Senses,
    trees: Option<Selection>,
}

impl<'a> Words<'a> {
    fn of(speech: &'a Speech<'a>) -> Self {
        let from = lead_in(speech.tokens);
        let named = || {
            speech
                .mentions
                .iter()
                .filter(|mention| !mention.trees.is_vague())
                .filter_map(|mention| speech.names.selection(&mention.trees, &[]))
        };
        // "List everything I did on Wall" asks after Wall.
        let trees = named().find(|selection| *selection != Selection::All).or_else(|| named().next());
        let in_names = |index: usize| speech.mentions.iter().any(|mention| mention.range.contains(&index));
        let senses = speech
            .tokens
            .iter()
            .enumerate()
            .filter(|(index, _)| *index >= from && !in_names(*index))
            .fold(Senses::default(), |all, (_, token)| all.and(token.senses));
        Self { speech, tokens: &speech.tokens[from..], senses, trees }
    }

    fn any(&self, texts: WordList) -> bool {
        self.tokens.iter().any(|token| token.is_any(texts))
    }

    fn has(&self, sense: Sense) -> bool {
        self.senses.has(sense)
    }

    fn pair(&self, first: WordList, second: WordList) -> bool {
        pair(self.tokens, first, second)
    }

    fn selection(&self) -> Selection {
        self.trees.clone().unwrap_or(Selection::Unsaid)
    }

    fn product(&self) -> Option<String> {
        // "How long after neem can I use sulfur?" asks of the sulfur.
        let after = self.tokens.iter().position(|token| token.is_any(words!("after since following")));
        let behind = after.and_then(|at| self.tokens.get(at + 2..)).unwrap_or_default();
        let then = match self.speech.names.product(behind) {
            Product::Known { name, .. } => Some(name),
            _ => None,
        };
        if then.is_some() {
            return then;
        }
        match self.speech.names.product(self.tokens) {
            Product::Known { name, .. } => Some(name),
            _ => None,
        }
    }

    fn is_of_product(&self) -> bool {
        self.speech.names.product(self.tokens) != Product::Unsaid
    }

    fn is_of_spraying(&self) -> bool {
        self.senses.has_any(&[Sense::Spray, Sense::Sprayed, Sense::Spraying])
            || self.any(words!("treat treating treatment spay sray treated apply fungicide"))
    }

    /// What a "why" is about: water where it is said, sprays where they are, or what was just answered.
    fn advised(&self) -> Advised {
        let waters = self.senses.has_any(&[Sense::Water, Sense::Watering, Sense::Watered, Sense::Drink]);
        if waters {
            Advised::Watering { trees: self.trees.clone().unwrap_or(Selection::All) }
        } else if self.is_of_spraying() || self.is_of_product() {
            Advised::Spraying
        } else {
            Advised::JustNow
        }
    }

    fn why(&self) -> Option<Question> {
        let asked = self.pair(words!("how"), words!("come"))
            || self.any(words!("why why'd whyd reason reasons explain reasoning basis rationale logic"))
            || self.tokens.first().is_some_and(|first| first.is("y"))
            || self.pair(words!("what"), words!("makes"))
            // "On what grounds have you reached that conclusion?"
            || self.pair(words!("what your"), words!("grounds ground"))
            || self.any(words!("how")) && self.any(words!("conclusion"))
            // "How do you figure that?"
            || self.any(words!("how"))
                && self.any(words!("you u"))
                && self.any(words!("figure know get work reckon"))
                && self.tokens.iter().rev().find(|token| !token.is_mark()).is_some_and(|last| last.is_any(words!("that this out")))
                && self.tokens.len() <= 8;
        // "Why do I even bother", "why do the squirrels only take one bite": asked of nobody.
        let idle = self.tokens.iter().any(|token| token.senses.has_any(&[Sense::Creature, Sense::Someone]))
            && self.trees.is_none()
            || self.any(words!("bother neighbor's neighbour's"));
        // "Why do you say that, smart guy?"
        let idle = idle && !(self.any(words!("you u")) && self.any(words!("say tell said think")));
        if idle {
            return None;
        }
        if !asked {
            return None;
        }
        // "Why do you keep telling me to hold off on watering Wall?" asks for the reasons of what was said.
        let told = self.any(words!("you u"))
            && self.any(words!("telling tell told say saying said keep advise advising want"));
        if told {
            return Some(Question::Why { about: self.advised() });
        }
        // "Why does Celeste need so much water?"
        let about = self.advised();
        if matches!(about, Advised::Watering { .. }) {
            return Some(Question::Why { about });
        }
        // "Why is it droopy?" asks after what droops.
        let ails = self.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Drop, Sense::Spots, Sense::Leaf]);
        if self.trees.is_none() && ails && !self.is_of_spraying() && !self.is_of_product() {
            return Some(Question::Tree { trees: Selection::All });
        }
        // "Why is Celeste dropping leaves?" asks after her.
        match &self.trees {
            Some(trees) if !self.is_of_spraying() && !self.is_of_product() => {
                Some(Question::Tree { trees: trees.clone() })
            }
            _ => Some(Question::Why { about: self.advised() }),
        }
    }

    fn compare(&self) -> Option<Question> {
        let against = self.any(words!(
            "vs versus against compare compared winning ahead better worse than difference fare comparison or which"
        ));
        let both = self.tokens.iter().any(|token| token.senses.has_any(&[Sense::Pots, Sense::Pot]))
            && (self.any(words!("ground inground planted"))
                // "The potted ones or them in the dirt"
                || self.pair(words!("in"), words!("the dirt earth soil")) && self.any(words!("dirt earth soil")));
        let product = self.is_of_product() || self.is_of_spraying();
        (both && against && !product && !self.any(words!("water need"))
            || self.any(words!("compare comparison")) && !product)
            .then_some(Question::Compare)
    }

    /// "How many figs so far?" is answered by the season's totals.
    fn season_count(&self) -> Option<Question> {
        // "How many days after a spray can I pick" counts days.
        let count = self.pair(words!("how"), words!("many much"))
            && !self.pair(words!("many"), words!("days hours weeks"));
        let fruit = self.senses.has_any(&[Sense::Fig, Sense::Picked, Sense::Pick]) && !self.is_of_product();
        let rain = self.has(Sense::Rain) && self.any(words!("had year season far got"));
        // "12 off Corner! How many does that make?"
        if self.pair(words!("that this"), words!("make makes"))
            && self.any(words!("what how many"))
            && self.tokens.len() <= 9
        {
            return Some(Question::Season);
        }
        // "How many figs can one woman eat anyway"
        if count && self.any(words!("eat")) {
            return None;
        }
        // "Which gave most?", "which tree gave the most figs"
        let most = self.any(words!("which what who"))
            && self.any(words!("gave gives yielded yields produced bore"))
            && self.any(words!("most more best least fewest"));
        // "Last rain", "how much rain in June", "how much rain fell last week": what fell, not the forecast.
        let fell = self.has(Sense::Rain)
            && !self.is_of_spraying()
            && !self.is_of_product()
            && (self.tokens.iter().filter(|token| !token.is_mark()).count() <= 3 && self.any(words!("last"))
                || count && (self.any(words!("fell fallen last did since")) || self.is_of_month()));
        // "How many have I picked off Wall?" asks after her.
        let of_one = self.trees.clone().filter(|trees| *trees != Selection::All);
        if let Some(trees) = of_one.filter(|_| count && fruit && !most) {
            return Some(Question::Tree { trees });
        }
        // "How did we do this year?"
        let fared = self.any(words!("how how'd"))
            && (self.any(words!("did how'd")) && self.any(words!("do go fare turn"))
                || self.pair(words!("have has"), words!("we things it"))
                    && self.any(words!("done fared gone")))
            && self.any(words!("year season summer"))
            && self.trees.is_none()
            && !self.is_of_product();
        if most || fell || fared {
            return Some(Question::Season);
        }
        let used = self.is_of_product()
            && self.any(words!("used year season far put"))
            && self.any(words!("have year season far"));
        let times = self.any(words!("times sprays")) && self.any(words!("year season far have"));
        (count && (fruit && !self.any(words!("left sprays")) || rain || used || times))
            .then_some(Question::Season)
    }

    /// "In June", but not "how much rain may we get".
    fn is_of_month(&self) -> bool {
        self.pair(
            words!("in during of for"),
            words!("january february march april may june july august september october november december"),
        )
    }

    fn season(&self) -> Option<Question> {
        // "Lbs so far this year?"
        let so_far = self.pair(words!("so"), words!("far"))
            && self.any(words!("lbs lb pounds kilos kg figs harvest picked"))
            && self.trees.is_none();
        if so_far {
            return Some(Question::Season);
        }
        let asked = self.any(words!("season year summary totals summarise summarize recap total"));
        (asked
            && !self.is_of_spraying()
            && !self.has(Sense::Frost)
            && !self.any(words!("forecast month's"))
            && self.trees.as_ref().is_none_or(|trees| *trees == Selection::All))
        .then_some(Question::Season)
    }

    fn spray(&self) -> Option<Question> {
        let product =
            self.senses.has_any(&[Sense::Copper, Sense::Sulfur, Sense::Oil]) || self.is_of_product();
        let worth =
            self.any(words!("worth")) && (self.has(Sense::Rust) || self.any(words!("it bothering while")));
        let worry = self.has(Sense::Rust)
            && self.any(words!("matter worry worried bother do problem late risk about concerned concern stop fight control prevent coming likely weather danger save treat now get spread"))
            && !self.any(words!("how's hows"));
        // "Is it gonna rain on my copper": the rain is asked after.
        if self.has(Sense::Rain)
            && self.any(words!("gonna will going"))
            && !self.is_of_spraying()
            && !self.any(words!("wash off before"))
        {
            return None;
        }
        // "When is the next one due?"
        let due = self.any(words!("due"))
            && self.any(words!("next again"))
            && !self.has(Sense::Frost)
            && !self.has(Sense::Drink);
        let anew = self.pair(words!("go"), words!("over")) || self.any(words!("respray reapply redo"));
        let late =
            self.pair(words!("too"), words!("late")) && !self.has(Sense::Frost) && !self.has(Sense::Drink);
        let worth = worth || due || anew || late;
        // "Did it wash off?"
        let washed = self.any(words!("wash washed")) && self.any(words!("off away"));
        let worth = worth || washed;
        (self.is_of_spraying() || product && !self.any(words!("label")) || worth || worry)
            .then(|| Question::Spray { product: self.product(), trees: self.selection() })
    }

    fn frost(&self) -> Option<Question> {
        let degrees = amounts(self.tokens, &[], self.speech.context.garden.units).iter().any(
            |measured| matches!(measured.amount, Amount::Temperature(degrees) if degrees.value() <= COLD_NIGHT),
        );
        let below = degrees
            && self.any(words!("below under near close"))
            && self.any(words!("night nights tonight low lows temperature temperatures temp temps week"));
        let shelter = self.any(words!(
            "carry carrying bring bringing cover covering protect protecting wrap wrapping move moving take come go"
        )) && self.any(words!("in inside cover protect wrap tonight indoors garage shed"))
            && !(self.any(words!("come go")) && self.trees.is_none());
        let cold = shelter
            || below
            || self.any(words!("cold colder low lows"))
                && self.any(words!("tonight night how will get going coming"));
        // "Should I move the pots in for the storm?": the days ahead tell.
        if self.has(Sense::Rain) && !self.has(Sense::Frost) && !self.any(words!("cold colder")) {
            return None;
        }
        // "Will Big One ripen before frost?": after her figs.
        let ripens = self.trees.is_some() && self.senses.has_any(&[Sense::Ripe, Sense::Ripening]);
        let about = self.about_cold(shelter);
        ((self.has(Sense::Frost) || cold) && !ripens).then_some(Question::Frost { about })
    }

    /// A date, a night's figure, what to carry in, or whether there is any in sight.
    fn about_cold(&self, shelter: bool) -> Cold {
        let far = self.pair(words!("how"), words!("long many far soon"));
        let usual = self.any(words!("usual usually average normal normally typical typically date dates"));
        let dated = far || usual || self.any(words!("when when's whens"));
        let night =
            self.any(words!("tonight night overnight low lows")) || self.pair(words!("how"), words!("cold"));
        if self.any(words!("last latest final")) && !self.any(words!("night")) {
            Cold::LastFrost
        } else if self.any(words!("first")) || dated && !shelter {
            Cold::FirstFrost
        } else if shelter {
            Cold::Shelter
        } else if night {
            Cold::Tonight
        } else {
            Cold::Ahead
        }
    }

    /// "Should I move the pots in for the storm?"
    fn storm(&self) -> Option<Question> {
        let shelter = self.any(words!("bring move take"))
            && self.any(words!("in inside indoors garage shed under"))
            && self.has(Sense::Rain);
        shelter.then_some(Question::Ahead)
    }

    fn water(&self) -> Option<Question> {
        let needs = self.any(words!("need needs want wants"))
            && self.any(words!("anything something attention some any more"))
            && self.trees.is_some();
        // "How much should they get?"
        let how_much = self.pair(words!("how"), words!("much many"))
            && self.any(words!("get need needs give"))
            && self.trees.is_some()
            && !self.is_of_product()
            && !self.is_of_spraying();
        // "Do they need it twice a day in this heat?"
        let often = self.any(words!("need needs want"))
            && self.any(words!("it"))
            && self.any(words!("twice again daily day more"));
        let watering = needs
            || often
            || self.is_of_amount_given()
            || how_much
            || self.senses.has_any(&[Sense::Water, Sense::Watering, Sense::Watered, Sense::Drink])
            || self.any(words!("thirsty irrigate"))
            || self.senses.has_any(&[Sense::Dry, Sense::Moist, Sense::Wet])
                && !self.has(Sense::Leaf)
                && !self.any(words!("spell weather day"));
        // "Who moved the hose?" asks after a thing.
        let thing = self.any(words!("hose nozzle")) && self.any(words!("who where"));
        (watering && !thing).then(|| Question::Water { trees: self.selection() })
    }

    /// "Is that enough?", behind a watering.
    fn is_of_amount_given(&self) -> bool {
        const MOST_WORDS: usize = 7;
        let watered =
            self.speech.context.last.is_some_and(|last| {
                matches!(&last.what, What::Report { report: Report::Watered { .. }, .. })
            });
        watered
            && self.tokens.len() <= MOST_WORDS
            && self.any(words!("is was will that it this"))
            && (self.any(words!("enough plenty")) || self.pair(words!("too"), words!("much little")))
            && !self.is_of_spraying()
            && !self.is_of_product()
    }

    /// "What should I do today?": the days ahead, with what they ask.
    fn things(&self) -> Option<Question> {
        if self.any(words!("due")) && self.any(words!("next again")) {
            return None;
        }
        let to_do = self.any(words!("do doing done jobs tasks todo chores priorities next"))
            && self.any(words!("should need needs today now to next week weekend tomorrow what's whats"))
            && self.trees.is_none()
            && !self.any(words!("they everything figs trees"));
        let urgent = self.any(words!("urgent pressing important")) && self.trees.is_none();
        (to_do
            || urgent
            || self.trees.is_none() && self.any(words!("rundown scoop lowdown overview brief briefing")))
        .then_some(Question::Ahead)
    }

    fn tree(&self) -> Option<Question> {
        self.trees.clone().map(|trees| Question::Tree { trees })
    }

    fn ahead(&self) -> Option<Question> {
        let ahead = self.has(Sense::Rain)
            || self.any(words!("coming ahead forecast outlook weather week tomorrow today tonight days upcoming expect hot next weekend heat windy wind humid sunny temperature heatwave up"));
        let asks = !self.any(words!("you your anybody anyone"))
            || self.any(words!("expect weather forecast tell think lined plan planned"));
        // "What have I got to do the rest of the week"
        let to_do =
            self.pair(words!("to"), words!("do")) && self.any(words!("week today tomorrow weekend days"));
        (ahead && asks || to_do && self.any(words!("what"))).then_some(Question::Ahead)
    }

    fn everything(&self) -> Option<Question> {
        // "How do I store figs?", "what is leaf rust?" ask of figs at large.
        let means = self.pair(words!("what what's whats"), words!("does do is a"))
            && self.any(words!("mean means meaning"));
        let at_large = means
            || self.pair(words!("how"), words!("do to can should"))
                && self.any(words!("i you we to"))
                && !self.any(words!("doing look looking"))
            || self.pair(words!("what what's whats"), words!("is are does causes makes"))
                && self.tokens.len() <= 6
                && self.any(words!("rust figs fig"))
                && !self.any(words!("happening up status wrong this it"));
        if at_large {
            return None;
        }
        let how = self.any(words!("how hows how's status"))
            && self.any(words!("everything things they doing figs trees going looking status plants"))
            && !self.any(words!("you"));
        let ripe = self.senses.has_any(&[Sense::Ripe, Sense::Ripening])
            || self.any(words!("ready")) && self.has(Sense::Fig);
        let which = self.any(words!("which what"))
            && self.senses.has_any(&[Sense::Rust, Sense::Spots, Sense::Clean, Sense::Drop, Sense::Bare]);
        let picking = self.senses.has_any(&[Sense::Pick, Sense::Picking, Sense::Harvest]);
        (how || picking || which || ripe || self.any(words!("status")))
            .then_some(Question::Tree { trees: Selection::All })
    }
}
