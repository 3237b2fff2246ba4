//! Rain, watering, frost, and how wet a pot stands.

use super::predicate::{Predicate, Words};
use crate::language::read::Speech;
use crate::language::read::amounts::{Amount, bare_temperature};
use crate::language::read::lexicon::Sense;
use crate::language::read::names::is_unknown;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::Garden;
use crate::season::journal::{MoistureState, Report};
use crate::season::request::Selection;
use crate::season::selection::selected;
use crate::units::{Kilograms, Litres};

/// What is measured in gallons and cups and waters nothing.
pub(super) const DRY_GOODS: WordList = words!(
    "compost lime fertilizer fertiliser manure mulch soil dirt perlite sand bark gravel chips meal bucket barrel cuttings cutting rooted fed"
);

/// "Two Celeste in 7 gallon pots": a size, not water.
pub(super) fn says_pot_size(clause: &[Token]) -> bool {
    // "He stays in one of 7 gallons now"
    clause.windows(4).any(|four| {
        four[0].is("in") && four[1].is_any(words!("one a")) && four[2].is("of") && four[3].number.is_some()
    }) || clause.windows(4).any(|four| {
        four[0].is("in") && four[1].number.is_some() && four[3].is_any(words!("pots pot containers tubs"))
    })
}

/// More water than so many times what its pot holds nobody gives a tree at once.
const MOST_POTFULS: f64 = 5.0;

/// More spray than this on the ground a crown covers runs off: litres for each square metre, and for any tree at all. A
/// tree sprayed until it drips takes a litre or two. common practice.
const MOST_SPRAY: f64 = 12.0;
const LEAST_MOST_SPRAY: f64 = 20.0;
/// A crown of untold width, metres.
const USUAL_WIDTH: f64 = 2.5;

/// Most figs one picking takes off a pot, for each litre of it. From memory: a tree in a 57 L pot bears some hundred to two
/// hundred in a whole season.
const MOST_FIGS: f64 = 10.0;

/// Kilograms of figs for each litre of the pot, likewise; and of the whole pot, watered. From memory: wet sand, the heaviest of
/// soils, is two kilograms a litre.
const MOST_PICKED: f64 = 0.5;
const MOST_POT: f64 = 3.0;

/// "Gave Eave 150 gal", where Eave stands in ten; "picked 900 off Whip".
pub(super) fn overflows(speech: &Speech, report: &Report, trees: &Selection) -> bool {
    let garden = speech.context.garden;
    if let Report::Sprayed { volume: Some(volume), .. } = report {
        let most: f64 = selected(garden, trees)
            .iter()
            .filter_map(|name| garden.tree(name))
            .map(|tree| {
                let width = tree.width.map_or(USUAL_WIDTH, |width| width.value());
                LEAST_MOST_SPRAY + MOST_SPRAY * std::f64::consts::FRAC_PI_4 * width * width
            })
            .sum();
        return most > 0.0 && volume.value() > most;
    }
    let pots = litres_of_pots(garden, trees);
    if let Report::Picked { count: Some(count), .. } = report {
        return pots.is_some_and(|litres| litres > 0.0 && f64::from(*count) > litres * MOST_FIGS);
    }
    let heavier =
        |mass: Kilograms, most: f64| pots.is_some_and(|litres| litres > 0.0 && mass.value() > litres * most);
    if let Report::Picked { mass: Some(mass), .. } = report {
        return heavier(*mass, MOST_PICKED);
    }
    if let Report::Weighed { mass, .. } = report {
        return heavier(*mass, MOST_POT);
    }
    let Report::Watered { volume: Some(volume), .. } = report else { return false };
    let pot = |name: &String| garden.tree(name)?.pot_volume();
    selected(garden, trees).iter().filter_map(pot).any(|pot| volume.value() > pot.value() * MOST_POTFULS)
}

/// What the pots of these trees hold together, if all stand in pots whose size was told.
pub(super) fn litres_of_pots(garden: &Garden, trees: &Selection) -> Option<f64> {
    let named = selected(garden, trees);
    let litres =
        named.iter().map(|name| garden.tree(name)?.pot_volume().map(Litres::value)).sum::<Option<f64>>();
    litres.filter(|_| !named.is_empty())
}

impl Words<'_> {
    pub(super) fn rained(&self) -> Option<Predicate> {
        let deep = self.amount(|amount| matches!(amount, Amount::Depth(_) | Amount::Length(_)));
        let gauge = self.has(Sense::Gauge);
        let rain = self.has(Sense::Rain);
        // Mulch and compost are measured like rain.
        let other = self.has_any(&[Sense::Watered, Sense::Swell])
            || self.any(words!(
                "across diameter mulch compost bark wide tall water grew growth deep long apart"
            ));
        let count = self.counts();
        let degrees = self.amount(|amount| matches!(amount, Amount::Temperature(_)));
        if gauge && (rain || !degrees) {
            return Some(Predicate::Rained);
        }
        let got = self.any(words!(
            "sent got had we'd i'd overnight fell collected total caught measured poured dumped received only just"
        ));
        let bare = deep
            && self.clause.iter().zip(self.in_names).all(|(token, _)| {
                token.is_mark()
                    || token.number.is_some()
                    || token.senses.has_any(&[
                        Sense::Unit,
                        Sense::Time,
                        Sense::Filler,
                        Sense::Article,
                        Sense::Link,
                    ])
                    || token.is_any(words!("and about over just only nearly almost total"))
            });
        let fraction = self.amount(|amount| matches!(amount, Amount::Count(count) if count.fract() != 0.0));
        let told = rain && deep && !other
            || rain
                && count
                && !self.names_trees
                && !self.picks()
                && !other
                && !self.has_any(&[Sense::Fig, Sense::Leaf])
            || deep && got && !other && !self.names_trees
            // "The jar says a quarter of an inch"
            || deep
                && !other
                && !self.names_trees
                && self.any(words!("jar bucket tube can bowl"))
                && self.any(words!("says said reads shows showed has had"))
            || bare && !self.names_trees
            || self.any(words!("got had"))
                && fraction
                && !self.names_trees
                // "Half the squad had a rash"
                && self.tells_only_how_much();
        let vessel = deep
            && self.pair(words!("in"), words!("the my a"))
            && self.any(words!("bucket can cup jar pan tray pail tub tube"));
        let lone = fraction
            && self.clause.iter().enumerate().all(|(index, token)| {
                token.is_mark()
                    || token.number.is_some()
                    || self.in_moment.contains(&index)
                    || token.senses.has(Sense::Filler)
            })
            && self.has(Sense::Time);
        let told = told || (vessel || lone) && !self.names_trees;
        // "Finally some rain, .85"; "it sprinkled, .03": how much is said behind.
        let rain = rain
            && self.clause.len() <= 4
            && !self.names_trees
            && !self.has_any(&[Sense::Negation, Sense::Water]);
        let it = self.has(Sense::Rained) && self.any(words!("it")) && !self.names_trees;
        (told || it || rain).then_some(Predicate::Rained)
    }

    /// "We got about .85 out here overnight": a figure, and small words around it.
    fn tells_only_how_much(&self) -> bool {
        const SMALL: &[Sense] = &[
            Sense::Unit,
            Sense::Time,
            Sense::Filler,
            Sense::Article,
            Sense::Link,
            Sense::Mine,
            Sense::Be,
            Sense::Have,
            Sense::Took,
            Sense::Gave,
            Sense::Pronoun,
            Sense::Future,
        ];
        self.free().all(|token| {
            token.is_mark()
                || token.number.is_some()
                || token.senses.has_any(SMALL)
                || token.is_any(words!("got had and about just only so far another more total all here out there in of it's its maybe around almost nearly over"))
        })
    }

    pub(super) fn watered(&self) -> Option<Predicate> {
        // "Celeste is soaked" is how she stands, "soaked Celeste" what was done.
        let state = self.has(Sense::Wet)
            && (self.has(Sense::Be) && !self.any(words!("watered i we"))
                || self.clause.last().is_some_and(|last| last.senses.has(Sense::Wet)));
        // "Soaked from the rain"
        let by_rain =
            self.any(words!("from by")) && self.has(Sense::Rain) && !self.any(words!("watered i we"));
        let state = state || self.has(Sense::Wet) && by_rain;
        // "Put a bucket on top" covers.
        let cover = self.any(words!("put"))
            && self.any(words!("top over upside"))
            && !self.pours()
            && !self.any(words!("water"));
        let drink = self.has(Sense::Drink) && !cover;
        let soak = self.names_trees
            && self.pair(
                words!("good deep slow long nice quick thorough big a"),
                words!("soak soaking watering drenching"),
            );
        let soak = soak || self.pair(words!("topped"), words!("up off them it")) && self.names_trees;
        let verb = soak || self.has_any(&[Sense::Watered, Sense::Watering]) || self.is_to_water();
        let gave = self.is_given_water() && (drink && !state || self.pours());
        let poured = self.pours() && (drink || self.names_trees)
            && !self.has_product
            // "Captan on Wall, 1 gal."
            && (!self.has(Sense::OtherProduct) || drink);
        // "Put 5 gallons of compost around Corner", "started 6 cuttings in cups"
        if says_pot_size(self.clause) && !verb && !gave {
            return None;
        }
        let from_barrel = self.any(words!("off from out")) && self.any(words!("barrel barrels"));
        if !verb && !drink && !from_barrel && self.free().any(|token| token.is_any(DRY_GOODS)) {
            return None;
        }
        // "Half an inch of water on Wall", "soaker hose, an inch on Wall"
        let deep = self.amount(|amount| matches!(amount, Amount::Depth(_)))
            && self.names_trees
            && self.any(words!("water wtr h2o hose soaker drip sprinkler sprinklers irrigation"))
            && !self.has_any(&[Sense::Rain, Sense::Gauge, Sense::Wet, Sense::Swell])
            && !self.any(words!("mulch compost standing top grew growth"));
        // "2 gal of water in the hull"
        let held = !verb
            && !gave
            && !self.names_trees
            && self.pair(words!("in"), words!("the my"))
            && drink
            && !self.has_any(&[Sense::Pot, Sense::Pots, Sense::Ground]);
        if held {
            return None;
        }
        // "I've got a two gallon sprayer Bo gave me"
        let held = self.pair(words!("water"), words!("in")) && self.pair(words!("in"), words!("it"));
        // "I gave her a cup of tea"
        let tea = self.pair(words!("of"), words!("tea coffee lemonade juice wine beer milk soup broth"));
        // "Only broke one cup doing it"
        let tea = tea
            || self.any(words!("broke broken drank drunk drinking spilled spilt sipped chugged"))
                && !self.names_trees;
        if (self.any(words!("sprayer backpack")) || held || tea) && !verb {
            return None;
        }
        let watered = deep || verb && (!state || soak) || gave || poured || self.is_water_running();
        (watered && !self.is_of_other_water(verb)).then_some(Predicate::Watered)
    }

    /// "Water" is a verb at the head of a clause and behind who does it, and a thing elsewhere.
    fn is_to_water(&self) -> bool {
        let leads = |before: &Token| {
            before.is_mark()
                || before.senses.has_any(&[
                    Sense::Mine,
                    Sense::Negation,
                    Sense::Future,
                    Sense::Intent,
                    Sense::Filler,
                    Sense::Time,
                ])
                || before.is_any(words!("to and please 2 can could did do helped help"))
        };
        self.clause.iter().enumerate().any(|(index, token)| {
            token.senses.has(Sense::Water) && (index == 0 || leads(&self.clause[index - 1]))
        })
    }

    /// "Gave Celeste", "Celeste got"; "we got water in the basement" waters nothing.
    fn is_given_water(&self) -> bool {
        let giving = self.any(words!("gave give given put poured giving it they them"));
        self.has(Sense::Gave) && (giving || self.names_trees) && !self.pair(words!("ran"), words!("out"))
    }

    /// "Ran the drip", "hose on Corner for 20 minutes".
    fn is_water_running(&self) -> bool {
        let heads = self.clause.first().is_some_and(|first| first.senses.has(Sense::Drink));
        let line = self.any(words!("drip drips dripper sprinkler soaker irrigation"));
        let on = heads && (self.names_trees || line) && self.any(words!("on"));
        let running =
            self.any(words!("ran running")) || self.pair(words!("been was is left turned"), words!("on"));
        // "The dog ran through the hose"
        let played = self.has_any(&[Sense::Creature, Sense::Someone])
            && self.any(words!("through thru over into under"));
        on || self.has(Sense::Drink) && running && !played && !self.pair(words!("ran"), words!("out"))
    }

    /// Rain, a shop, the water bill: water that no tree was given.
    fn is_of_other_water(&self, verb: bool) -> bool {
        // "A gallon off the rain barrel"
        let barrel = self.pair(words!("rain"), words!("barrel barrels water tank butt"));
        let rain = self.has(Sense::Rain) && !barrel && !self.has_any(&[Sense::Watered, Sense::Watering])
            || self.pair(words!("rain storm"), words!("did took does"));
        let thing = verb && !self.names_trees && self.has_any(&[Sense::Thing, Sense::Creature]);
        let vessel = self.any(words!("filled filling"))
            && self.any(words!("bucket buckets can cans barrel tank sprayer jug jugs"))
            && !self.names_trees;
        rain || thing
            || vessel
            || self.has_any(&[Sense::Gauge, Sense::Shop])
            || self.pair(words!("water"), words!("marks mark spots stains stain damage drops"))
            || self.any(words!("standing bill pressure heater meter table without"))
            || self.any(words!("barrel")) && !barrel && !self.any(words!("off from out"))
            || self.pair(words!("after before"), words!("watering"))
            || self.pair(words!("watered"), words!("down"))
            // "Hosed down the deck": boards.
            || self.pair(words!("hosed"), words!("down off out"))
                && self.clause.iter().any(|token| token.is_any(words!("deck patio driveway porch truck car boat")))
    }

    pub(super) fn frost(&self) -> Option<Predicate> {
        let cold = self.amounts.iter().any(|measured| match measured.amount {
            Amount::Temperature(temperature) => temperature.value() <= WARMEST,
            _ => false,
        });
        let warm = self.amounts.iter().any(
            |measured| matches!(measured.amount, Amount::Temperature(temperature) if temperature.value() > WARMEST),
        );
        // "The low last night was 290 degrees": told as one, and none.
        const HOTTEST: f64 = 60.0;
        let absurd = self.amounts.iter().any(
            |measured| matches!(measured.amount, Amount::Temperature(temperature) if temperature.value() > HOTTEST),
        ) && self.any(words!("low lows min minimum coldest"));
        let night =
            self.any(words!("night overnight morning nite lastnight dawn today outside porch thermometer"));
        let freezing = self.amount(|amount| {
            matches!(amount, Amount::Count(count) if bare_temperature(*count, self.units).value() <= WARMEST)
        });
        let low = (self.has(Sense::Cold) || self.pair(words!("got"), words!("to")))
            && freezing
            && (night || self.any(words!("low min minimum")))
            && !self.names_trees
            && !self.has(Sense::Leaf);
        // "Got down to 30 on April 14"
        let low = low
            || self.pair(words!("down"), words!("to"))
                && freezing
                && !self.in_moment.is_empty()
                && !self.names_trees
                && !self.has_any(&[Sense::Leaf, Sense::Fig]);
        let gear = self.any(words!("cloth cloths blanket blankets cover covers warning advisory watch date dates free before until till damage burn cream proof"));
        let larder = (self.has(Sense::Fig) || self.pours() || self.weighs())
            && self.any(words!("froze frozen freezing"));
        // "The AC froze up"
        let other = !cold && self.free().any(is_unknown);
        let lost = self.pair(words!("to from by"), words!("frost freeze freezing"))
            && self.any(words!("lost killed"));
        let other = other
            || lost
            || self.any(words!(
                "worry worried worries worrying afraid scared fear fears nervous concerned about wonder"
            ));
        // "It freezes when it freezes"
        let whenever = self.pair(words!("freezes"), words!("when"));
        let word = !whenever
            && self.has(Sense::Frost)
            && !(other || gear || larder || self.has(Sense::Rust) || self.is_of_things())
            // "Frost this morning, 29 on the porch": where the thermometer hangs.
            || self.has(Sense::Frost)
                && freezing
                && self.pair(words!("on"), words!("the my our"))
                && self.clause.last().is_some_and(|last| last.is_any(words!("porch deck windowsill")))
                && !(other || gear || larder);
        // "Had 29 degrees here back on April 12"
        let had = self.clause.first().is_some_and(|first| first.is_any(words!("had hit saw got reached")))
            && !self.names_trees;
        let reading = (cold
            && (had || night || self.has(Sense::Cold) || self.has(Sense::Frost) || self.clause.len() <= 6)
            || low)
            && !warm;
        (word || reading || absurd).then_some(Predicate::Frost)
    }

    /// "Back on April 9" is a time.
    fn is_of_things(&self) -> bool {
        self.free().any(|token| token.senses.has(Sense::Thing) && !token.is("back"))
    }

    /// "Dry as dust", "bone dry on top": a state and nothing it could be said of.
    fn is_state_alone(&self) -> bool {
        self.clause.first().is_some_and(|first| first.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist]))
            && self.free().all(|token| {
                token.is_mark()
                    || token.number.is_some()
                    || token.senses.has_any(&[
                        Sense::Dry,
                        Sense::Wet,
                        Sense::Moist,
                        Sense::Article,
                        Sense::Link,
                        Sense::Unit,
                    ])
                    || token.is_any(words!(
                        "as bone dust desert cracker toast deep down again touch way through chip top all"
                    ))
            })
    }

    pub(super) fn moisture(&self) -> Option<Predicate> {
        // "While they dried off": children.
        if self.pair(words!("dried drying dry"), words!("off")) {
            return None;
        }
        // "Hands are soaked"
        if self.any(words!("hands shoes boots socks shirt clothes hair sneakers jeans pants feet sleeves")) {
            return None;
        }
        // "I'm on my second glass of iced tea and still wilting": who tells it.
        if self.clause.first().is_some_and(|first| first.is_any(words!("i'm im"))) && !self.names_trees {
            return None;
        }
        let degree = |token: &&Token| {
            !token.is_mark()
                && !token.is_any(words!("very bone too still quite so really pretty super already"))
        };
        let alone = self.clause.iter().filter(degree).count() <= 1
            || self.is_state_alone()
            || self.any(words!("both it it's its they they're still she's"))
                && (self.clause.len() <= 5 || self.clause.len() <= 8 && self.any(words!("all both")))
                && !self.any(words!("out outside here air weather"));
        // "Stuck my finger in Celeste, | dry down to the second knuckle"
        let felt = self
            .clause
            .first()
            .is_some_and(|first| first.senses.has_any(&[Sense::Dry, Sense::Wet, Sense::Moist]))
            && self.any(words!("knuckle inch inches deep down below finger"))
            && !self.has(Sense::Rain);
        let alone = (alone || felt) && !self.any(words!("humid"));
        let about = self.names_trees || self.has(Sense::Soil) || self.any(words!("pot moisture")) || alone;
        let hanging = self.any(words!("wilting wilted drooping droopy wilt droop limp drooped wilty"));
        let leaf = self.has(Sense::Leaf) && !hanging;
        let fruit = self.has(Sense::Fig) && !self.any(words!("fig"));
        // "Light as a feather", "Whip is light": a pot without water.
        let light = self.pair(words!("light"), words!("as af"))
            || self.pair(words!("weighs weighed weighing"), words!("nothing"))
            || self.names_trees
                && self.clause.len() <= 7
                // "Corner light, Wall moderate" is how much rust there is: no tree in the ground is lifted.
                && self.has_any(&[Sense::Be, Sense::Soil, Sense::Pot, Sense::Weighed])
                && self.clause.last().is_some_and(|last| last.is("light"));
        let feels = self.names_trees
            && self.clause.iter().enumerate().any(|(index, token)| {
                token.is("light")
                    && self.clause[index.saturating_sub(2)..index]
                        .iter()
                        .any(|before| before.senses.has(Sense::Be))
                    && self
                        .clause
                        .get(index + 1)
                        .is_none_or(|next| next.is_mark() || next.is_any(words!("when as now again today")))
            });
        let light = light
            || feels
            || self.clause.len() <= 5
                && self.clause.first().is_some_and(|first| first.is_any(words!("it it's its she's they're")))
                && self.clause.last().is_some_and(|last| last.is("light"));
        let like = |things: WordList| {
            let at = self.clause.iter().position(|token| token.is("like"));
            at.is_some_and(|at| self.clause[at + 1..].iter().take(2).any(|token| token.is_any(things)))
        };
        // "Dry like pepper"
        let dry_like = self.pair(words!("dry"), words!("like"));
        let alone = alone || dry_like && self.clause.len() <= 5;
        let about = about || alone;
        let like_dust = dry_like
            || like(words!("dust desert concrete powder bone sand brick rock toast cardboard straw pepper"));
        let like_swamp = like(words!("swamp soup bog pond lake puddle marsh"));
        let not_dry = self.pair(words!("not isn't isnt never aren't"), words!("dry wet soggy too"));
        let standing = self.any(words!("standing sitting")) && self.has(Sense::Drink);
        let flooded = self.pair(words!("of"), words!("water")) && self.any(words!("full saucer tray"));
        let state = if (flooded || like_swamp || self.has(Sense::Wet) || standing) && !not_dry {
            MoistureState::Wet
        } else if self.has(Sense::Moist)
            || self.any(words!("fine perfect ok good"))
                && (self.has(Sense::Soil) || self.any(words!("moisture")))
        {
            MoistureState::Moist
        } else if light
            || like_dust
            || self.has(Sense::Dry) && !not_dry
            || self.any(words!("without")) && self.has(Sense::Drink)
        {
            MoistureState::Dry
        } else {
            return None;
        };
        (about && !leaf && !fruit).then_some(Predicate::Moisture(state))
    }
}

/// Above this no frost is told of, whatever the words.
const WARMEST: f64 = 4.5;
