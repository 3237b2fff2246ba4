//! Trees as they are told in the first days: "Celeste 15 gal", "Moe, Larkin and Dottie all in 10 gals", "ok so Rosie
//! 5gal n Hank is in ground". Only while a garden is being set up; later the same words are of water.

use super::tables::{items, name_of, named_and_kind, settle};
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::{Token, tokens};
use crate::language::read::word_list::words;
use crate::language::read::{Context, Speech, clauses::Asked};
use crate::season::journal::What;
use crate::season::request::{Potted, Reading, Request, Setting, TreeDetails};
use crate::units::Litres;

/// No tree is known yet, or the last thing told, within the hour, was a setting.
pub(super) fn is_being_set_up(context: &Context) -> bool {
    context.garden.trees.is_empty()
        || context.just_said().is_some_and(|last| matches!(last.what, What::Setting(_)))
}

/// "Whip 2 gal", where Whip stands already and no pot is spoken of: as likely water.
pub(super) fn may_be_water(reading: &Reading, told: &[Token], context: &Context) -> bool {
    let potted = told.iter().any(|token| {
        token.is_any(words!("pot pots potted tub tubs container bucket planter barrel ground earth soil in"))
    });
    let known = |request: &Request| {
        matches!(request, Request::Set(Setting::Tree(details)) if details.volume.is_some()
            && context.garden.tree(&details.name).is_some())
    };
    // "Panache 15 gal", "correction: Panache is 20": trees are being told.
    let of_trees =
        context.just_said().is_some_and(|last| matches!(last.what, What::Setting(Setting::Tree(_))));
    !potted && !of_trees && reading.requests.iter().any(known)
}

/// Where a tree stands, and in how much.
pub(super) type Stand = (Potted, Option<Litres>);

/// A tree of this name that stands so, as far as it was told.
pub(super) fn standing(name: String, stand: Option<Stand>) -> TreeDetails {
    TreeDetails {
        name,
        potted: stand.map(|(potted, _)| potted),
        volume: stand.and_then(|(_, volume)| volume),
        ..TreeDetails::default()
    }
}

/// What one part of such a list says.
pub(super) struct Item<'t> {
    pub(super) name: Option<String>,
    cultivar: Option<String>,
    pub(super) stand: Option<Stand>,
    /// "... all in 10 gals": of those named before, too.
    pub(super) of_all: bool,
    typed: &'t str,
}

/// "The Hendersleys next door have a Kadota in the ground": theirs.
pub(super) fn is_of_neighbours(told: &[Token]) -> bool {
    told.windows(2).any(|pair| pair[0].is("next") && pair[1].is("door"))
        || told.iter().any(|token| {
            token.is_any(words!("neighbor neighbour neighbors neighbours neighbor's neighbour's"))
        })
}

/// Nothing of it settles a garden: work done, and what was seen.
pub(super) fn tells_of_work(told: &[Token]) -> bool {
    let gave = |at: usize| {
        // "Went in the ground", "went out and looked"
        let moved = told[at].is_any(words!("went goes go"))
            && told
                .get(at + 1)
                .is_some_and(|next| next.is_any(words!("in into out to outside over up down back")));
        !moved && !told.get(at + 1).is_some_and(|next| next.is_any(words!("me us")))
    };
    // "The Celeste got 3 gallons", but "I got a Celeste".
    let got = told.windows(2).any(|pair| {
        pair[1].is_any(words!("got gets"))
            && pair[0].is_word()
            && !pair[0].is_any(words!("i we i've we've just also and so then ok have only"))
    });
    got || told.iter().enumerate().any(|(at, token)| {
        token.senses.has_any(&[
            Sense::Watered,
            Sense::Sprayed,
            Sense::Picked,
            Sense::Rust,
            Sense::Rain,
            Sense::Gauge,
            Sense::Weighed,
            Sense::Dry,
            Sense::Wet,
            Sense::Moist,
        ]) || token.senses.has(Sense::Gave)
            && gave(at)
            && !token.is_any(words!("got has have had put use using uses apply"))
    }) || is_of_neighbours(told) && !told.iter().any(|token| token.text.starts_with('@'))
        || told
            .first()
            .is_some_and(|first| first.is_any(words!("is are should how what when where why do does can")))
}

/// Reads a whole message as trees and where they stand, with settings in few words between them.
pub(super) fn read(text: &str, context: &Context) -> Option<Reading> {
    const LONGEST: usize = 400;
    if !is_being_set_up(context) || text.len() > LONGEST || text.contains('?') {
        return None;
    }
    let told = tokens(text);
    if tells_of_work(&told) {
        return None;
    }
    if let Some(told) = name_and_place(text, context).or_else(|| of_the_last_tree(&told, text, context)) {
        return Some(told);
    }
    let body = behind_lead(text.trim().trim_end_matches(['.', '!']));
    let normal = body.replace(" n ", ", ").replace(" & ", ", ").replace(" + ", ", ").replace('\n', ", ");
    let mut trees: Vec<Item> = Vec::new();
    let mut reading = Reading::default();
    for piece in items(&normal) {
        let item = item(piece, context);
        match item {
            Some(Item { name: None, stand: Some(stand), of_all, .. }) => {
                // "Celeste, 15 gallon pot"; "Juno and Hattie, both 5 gal"
                let open = trees.iter_mut().rev().take_while(|tree| tree.stand.is_none());
                let most = if of_all { usize::MAX } else { 1 };
                let mut given = 0;
                for tree in open.take(most) {
                    tree.stand = Some(stand);
                    given += 1;
                }
                if given == 0 {
                    return None;
                }
            }
            Some(item) => {
                if let (Some(stand), true) = (item.stand, item.of_all) {
                    trees.iter_mut().rev().take_while(|tree| tree.stand.is_none()).for_each(|tree| {
                        tree.stand = Some(stand);
                    });
                }
                trees.push(item);
            }
            // "..., she was a gift from my sister"
            None if !trees.is_empty() && is_said_of_it(piece) => {}
            None => {
                reading.requests.push(Request::Set(in_few_words(piece, context)?));
            }
        }
    }
    // "Copper each 14 days, sulfur each 10 days": no trees, and more than one setting.
    let known = |tree: &Item| tree.stand.is_some() || is_called_a_tree(tree.typed);
    if trees.is_empty() && reading.requests.len() < 2 || !trees.iter().all(known) {
        return None;
    }
    let settled = std::mem::take(&mut reading.requests);
    for tree in trees {
        let details = TreeDetails { cultivar: tree.cultivar, ..standing(tree.name?, tree.stand) };
        settle(details, tree.typed, &mut reading);
    }
    reading.requests.extend(settled);
    (!may_be_water(&reading, &told, context)).then_some(reading)
}

/// "No, 20", "shes in a 20 gallon", "and Larkin too", behind a tree just told.
fn of_the_last_tree(told: &[Token], text: &str, context: &Context) -> Option<Reading> {
    const MOST_WORDS: usize = 9;
    let What::Setting(Setting::Tree(last)) = &context.last?.what else { return None };
    let pot = told.iter().any(|token| token.is_any(words!("pot pots")));
    if told.len() > MOST_WORDS || pot && last.potted == Some(Potted::InGround) {
        return None;
    }
    let of_last = |stand: Stand| standing(last.name.clone(), Some(stand));
    let small = |token: &Token| {
        token.is_mark()
            || token.is_any(words!(
                "lol my bad lives live stands sits bucket container tub of just checked label ground no not oh oops sorry excuse me wait actually i meant mean make that it it's its she's shes he's hes she he is was be in a an the now pot gal gals gallon gallons litre litres liter liters l g"
            ))
    };
    let figures: Vec<f64> = told.iter().filter_map(|token| token.number).collect();
    let only = told.iter().all(|token| token.number.is_some() || small(token));
    // "40 not 30": the one that is not denied.
    let denied = told.windows(2).find_map(|pair| pair[0].is("not").then(|| pair[1].number).flatten());
    let meant = figures.iter().copied().filter(|figure| Some(*figure) != denied).collect::<Vec<_>>();
    let details = if let (true, [number]) = (only, meant.as_slice()) {
        let measured =
            amounts(told, &[], context.garden.units).into_iter().find_map(|measured| match measured.amount {
                Amount::Volume(volume) | Amount::Vessel(volume) => Some(volume),
                _ => None,
            });
        let volume = measured.or_else(|| in_the_unit_of(*number, last.volume?))?;
        of_last((Potted::InPot, Some(volume)))
    } else if only && told.iter().any(|token| token.is_any(words!("ground"))) {
        of_last((Potted::InGround, None))
    } else if told.last()?.is_any(words!("too also same")) && figures.is_empty() {
        let lead = told.iter().take_while(|token| token.is_any(words!("and also , so is")));
        let from = told.get(lead.count())?.span.start;
        let name = called(text.get(from..told.last()?.span.start)?.trim())?;
        TreeDetails { name, potted: last.potted, volume: last.volume, ..TreeDetails::default() }
    } else {
        return None;
    };
    let mut reading = Reading::default();
    settle(details, text, &mut reading);
    Some(reading)
}

/// A bare figure behind "10 gal" is gallons, behind "30 L" litres.
fn in_the_unit_of(number: f64, before: Litres) -> Option<Litres> {
    (number > 0.0).then(|| Litres::new(number * litres_a_unit(before)))
}

/// Litres in the unit a pot was told in: a whole or half number of gallons was told in gallons.
pub(super) fn litres_a_unit(pot: Litres) -> f64 {
    let gallons = pot.as_gallons();
    let told_in_gallons = (gallons - (gallons * 2.0).round() / 2.0).abs() < 1e-6;
    if told_in_gallons { Litres::from_gallons(1.0).value() } else { 1.0 }
}

/// "My garden is called Rooster Bend and I'm in Pine Tarn, Louisiana".
fn name_and_place(text: &str, context: &Context) -> Option<Reading> {
    let lower = text.to_ascii_lowercase();
    let (at, lead) = [
        " and im in ",
        " and i'm in ",
        " and we're in ",
        " and we're at ",
        " and we are at ",
        " and im at ",
        " and i am in ",
        " and we are in ",
        ", im in ",
        ", i'm in ",
        ", and we're in ",
        ". it's in ",
        ". its in ",
        ", it's in ",
    ]
    .iter()
    .find_map(|lead| Some((lower.find(lead)?, *lead)))?;
    let head = behind_lead(text.get(..at)?);
    let head = head.rsplit(", ").next().unwrap_or(head);
    let name = super::first_words::setting(head, &tokens(head), context)
        .filter(|setting| matches!(setting, Setting::Name { .. }))?;
    let place =
        text.get(at + lead.len()..)?.trim_end_matches(|letter: char| !letter.is_ascii() || letter == ' ');
    let place = super::clean(place);
    let place = Setting::Place { name: place };
    Some(Reading { requests: vec![Request::Set(name), Request::Set(place)], ..Reading::default() })
}

/// "ok so ...", "I have 4 trees: ...": where the list begins.
pub(super) fn behind_lead(text: &str) -> &str {
    if let Some((head, body)) = text.split_once(": ")
        && tokens(head)
            .iter()
            .any(|token| token.senses.has(Sense::Tree) || token.is_any(words!("figs list got correction")))
    {
        return body;
    }
    let told = tokens(text);
    let lead = told.iter().take_while(|token| {
        token.is_mark()
            || token.is_any(words!(
                "there is are ok okay so now omg lol we've oh new around folks everyone actually sorry oops wait and then also yo hey hi hello well i we have ive i've got gots there's theres these are trees figs plants here heres here's add please pls put"
            ))
    });
    let lead = lead.count();
    told.get(lead).and_then(|first| text.get(first.span.start..)).unwrap_or(text)
}

/// "Then there's my fig Rosie": named as a tree, wherever it stands.
fn is_called_a_tree(piece: &str) -> bool {
    let lower = piece.to_ascii_lowercase();
    ["my fig ", "our fig ", "my tree ", "tree named ", "tree called ", "fig named ", "fig called "]
        .iter()
        .any(|lead| {
            lower.find(lead).is_some_and(|at| piece[at + lead.len()..].starts_with(char::is_uppercase))
        })
}

/// "She was a gift from my sister", "its my favorite".
fn is_said_of_it(piece: &str) -> bool {
    tokens(piece).first().is_some_and(|first| {
        first.is_any(words!("she he it its it's she's he's from a an which who thats that's"))
    }) && tokens(piece).iter().all(|token| token.number.is_none())
}

/// Where a piece says a tree stands, and at which word it begins to.
pub(super) fn stand_of(told: &[Token], context: &Context) -> Option<(usize, Stand)> {
    let size = told
        .windows(2)
        .enumerate()
        .find_map(|(at, pair)| Some((at, grams_for_gallons(pair)?)))
        .or_else(|| {
            amounts(told, &[], context.garden.units).into_iter().find_map(|measured| match measured.amount {
                Amount::Volume(volume) | Amount::Vessel(volume) => Some((measured.from, volume)),
                _ => None,
            })
        });
    let ground = told.iter().position(|token| token.is_any(words!("ground inground earth dirt soil")));
    let pot = told
        .iter()
        .position(|token| token.is_any(words!("pot pots container tub tubs bucket planter barrel potted")));
    match (size, ground, pot) {
        (Some((at, litres)), None, _) => Some((at, (Potted::InPot, Some(litres)))),
        (None, Some(at), None) => Some((at, (Potted::InGround, None))),
        (None, None, Some(at)) => Some((at, (Potted::InPot, None))),
        _ => None,
    }
}

pub(super) fn item<'t>(piece: &'t str, context: &Context) -> Option<Item<'t>> {
    const MOST_WORDS: usize = 14;
    let told = tokens(piece);
    if told.len() > MOST_WORDS {
        return None;
    }
    if told.iter().any(|token| token.is_any(words!("tomorrow later soon"))) {
        return None;
    }
    let found = stand_of(&told, context);
    let (at, stand) = (found.map(|(at, _)| at), found.map(|(_, stand)| stand));
    let end = at.unwrap_or(told.len());
    let small = |token: &&Token| {
        token.is_mark()
            || token.is_any(words!(
                "in into a an the one of those these its it's her his their my big large small old-ish plastic clay black fabric is are lives live sits sit stands stand planted grows grow all both each with at still now about around pot goes out there who's whos who also too one right then that's thats two three four six of them own directly it she he she's shes he's hes they're"
            ))
    };
    let name_end = end - told[..end].iter().rev().take_while(small).count();
    let of_all = told[name_end..end].iter().any(|token| token.is_any(words!("all both each are")));
    let typed = told[..name_end].last().and_then(|last| piece.get(told[0].span.start..last.span.end));
    let Some(typed) = typed else {
        return stand.map(|stand| Item {
            name: None,
            cultivar: None,
            stand: Some(stand),
            of_all,
            typed: piece,
        });
    };
    let (name, cultivar) = named_and_kind(typed);
    let name = called(name)?;
    let cultivar = cultivar.map(str::to_owned);
    Some(Item { name: Some(name), cultivar, stand, of_all, typed: piece })
}

/// "A lovely tree named Wilhelmina", "my fig Rosie", "the big one Hank": what it is called.
pub(super) fn called(typed: &str) -> Option<String> {
    const MOST_WORDS: usize = 3;
    // "A big old Celeste by the back steps", "Pearl too"
    let places = [
        " by ", " near ", " behind ", " beside ", " next ", " up ", " down ", " on ", " from ", " too",
        " also", " and ",
    ];
    let end = places.iter().filter_map(|place| typed.find(place)).filter(|at| *at > 0).min();
    let typed = typed[..end.unwrap_or(typed.len())].trim();
    let lower = typed.to_ascii_lowercase();
    let behind = [
        " named ",
        " called ",
        "tree is ",
        "fig is ",
        "tree ",
        "fig ",
        "one is ",
        "one ",
        "forgot ",
        "there is ",
        "is ",
    ]
    .iter()
    .find_map(|lead| {
        let at = lower.find(lead)? + lead.len();
        let lone = lead.contains("named") || lead.contains("called");
        typed
            .get(at..)
            .filter(|rest| rest.starts_with(char::is_uppercase) || lone && !rest.trim().contains(' '))
    });
    // "A big old Celeste"
    let behind = behind.or_else(|| {
        [" old ", " little ", " big ", "old ", "little "].iter().find_map(|lead| {
            let rest = typed.get(typed.rfind(lead)? + lead.len()..)?;
            Some(rest).filter(|rest| rest.starts_with(char::is_uppercase))
        })
    });
    let name = name_of(behind.unwrap_or(typed))?;
    let words = tokens(&name);
    let fits = !words.is_empty()
        && name.split_whitespace().count() <= MOST_WORDS
        && words.iter().all(|token| {
            (token.is_word() || token.is_mark() && token.joined)
                && token.number.is_none()
                // "Violette de Bordeaux"
                && (token.is("bordeaux") || !token.senses.has_any(&[
                    Sense::Copper,
                    Sense::Sulfur,
                    Sense::Oil,
                    Sense::Spray,
                    Sense::Frost,
                    Sense::Unit,
                    Sense::Pronoun,
                ]))
                && !token.is_any(words!(
                    "today yesterday tomorrow tonight i we it she he they water soil garden place brief morning mornings message us metric units first last tree trees fig figs pot pots one some"
                ))
        });
    fits.then_some(name)
}

/// "15g": no tree stands in grams.
pub(super) fn grams_for_gallons(pair: &[Token]) -> Option<Litres> {
    let [number, unit] = pair else { return None };
    let number = number.number.filter(|number| (0.5..=500.0).contains(number))?;
    (unit.is("g") && unit.joined).then(|| Litres::from_gallons(number))
}

/// "us units", "copper every 7 days": a setting of its own between the trees.
pub(super) fn in_few_words(piece: &str, context: &Context) -> Option<Setting> {
    let told = tokens(piece);
    let names = crate::language::read::names::Names::of(context.garden);
    let speech = Speech::of(piece, &told, &names, context, Asked::No);
    let mut doubts = Reading::default();
    match super::single(&speech, &mut doubts) {
        Some(super::Found::Setting(setting))
            if !matches!(setting, Setting::Tree(_) | Setting::Place { .. }) =>
        {
            Some(setting)
        }
        _ => None,
    }
}
