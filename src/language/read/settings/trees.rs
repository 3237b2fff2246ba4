//! Trees told one by one.

use super::placing::{dug_up, put_in_ground, put_in_group, put_in_pot};
use super::{Found, any, clean};
use crate::language::read::amounts::{Amount, amounts};
use crate::language::read::clauses::Asked;
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::language::read::{Speech, doubt};
use crate::season::garden::{Bearing, CropTime, Footing, Mix, Shelter, Soil, Susceptibility};
use crate::season::journal::{Report, What};
use crate::season::request::{Doubt, DoubtKind, Potted, Reading, Request, Selection, Setting, TreeDetails};
use crate::units::{Litres, Metres};

/// "add tree Wall, Brown Turkey, in the ground, 3 m", "Celeste is a 15 gallon pot under the eave".
pub(super) fn read(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let asks =
        speech.tokens.first().is_some_and(|first| first.is_any(words!("which what who whose how why when")));
    // "Note: Big One has a crack in its pot" settles nothing.
    let noted =
        speech.tokens.first().is_some_and(|first| first.is_any(words!("note notes nb memo remember remind")));
    // "Whip has a crack in its pot"
    let harmed = any(
        speech.tokens,
        words!("crack cracks cracked hole holes split broken chip chipped weeds ants mushrooms"),
    ) && !speech.tokens.iter().any(|token| token.senses.has(Sense::Unit));
    if speech.asked == Asked::Yes || asks || noted || harmed {
        return None;
    }
    if let Some(details) = put_in_group(speech)
        .or_else(|| put_in_ground(speech))
        .or_else(|| put_in_pot(speech))
        .or_else(|| dug_up(speech))
    {
        return Some(settled(details, speech.text, reading));
    }
    if let Some(name) = width_of_a_stranger(speech) {
        let candidates = speech.names.like(&name);
        reading.doubts.push(Doubt { kind: DoubtKind::UnknownTree, words: name, candidates });
        return Some(Found::Doubted);
    }
    let (name, rest) = added(speech).or_else(|| described(speech)).or_else(|| listed(speech))?;
    if super::tables::is_no_name(&name) || super::first_days::is_of_neighbours(speech.tokens) {
        return None;
    }
    let rest = without_names(speech, rest);
    let described = speech.tokens.first().is_some_and(|first| first.is_any(words!("add new another")))
        || !is_empty(&details(speech, &rest));
    if !described {
        return None;
    }
    let mut details = details(speech, &rest);
    details.name = name;
    Some(settled(details, speech.text, reading))
}

/// A tree as told, or a doubt if no fig stands in such a pot: "-5 gallon pot", "5000000 gallon pot".
pub(super) fn settled(details: TreeDetails, words: &str, reading: &mut Reading) -> Found {
    if has_possible_pot(&details) {
        return Setting::Tree(details).into();
    }
    reading.doubts.push(doubt(DoubtKind::ImpossibleAmount, words));
    Found::Doubted
}

/// From a cutting's cup to a tank cut open: those on a pallet hold a thousand litres.
fn has_possible_pot(details: &TreeDetails) -> bool {
    const LITRES: std::ops::RangeInclusive<f64> = 0.05..=1500.0;
    details.volume.is_none_or(|volume| LITRES.contains(&volume.value()))
}

/// "Wall is in the ground, and Whip is a 5 gallon pot": each tree with what is said of it.
pub(super) fn several(speech: &Speech) -> Option<Reading> {
    const NAME: usize = 4;
    let tokens = speech.tokens;
    let is = |token: &Token| token.is_any(words!("is lives sits stands grows"));
    let mut starts = vec![0];
    starts.extend((1..tokens.len()).filter(|at| {
        let opens = tokens[at - 1].is_any(words!("and ; ,"));
        opens
            && !is(&tokens[*at])
            && !tokens[*at].is_any(words!("and ; ,"))
            && tokens[at + 1..].iter().take(NAME).take_while(|token| !token.is_mark()).any(is)
    }));
    if starts.len() < 2 || speech.asked == Asked::Yes {
        return None;
    }
    let ends = starts.iter().skip(1).copied().chain([tokens.len()]);
    let parts: Vec<&[Token]> = starts.iter().copied().zip(ends).map(|(from, to)| &tokens[from..to]).collect();
    let mut told = Reading::default();
    for part in parts {
        let end = part.iter().rposition(|token| !token.is_any(words!("and ; ,"))).map_or(0, |last| last + 1);
        match read(&speech.part(&part[..end]), &mut told)? {
            Found::Setting(setting @ Setting::Tree(_)) => told.requests.push(Request::Set(setting)),
            Found::Setting(_) => return None,
            Found::Doubted => {}
        }
    }
    Some(told)
}

/// "delete Whip", "remove the tree Whip": an order to strike it off.
pub(super) fn removed(speech: &Speech) -> Option<Selection> {
    let tokens = speech.tokens;
    let ordered = tokens.first().is_some_and(|first| first.is_any(words!("remove delete drop erase")));
    let [mention] = speech.mentions.as_slice() else { return None };
    let rest = tokens.iter().enumerate().skip(1).filter(|(index, _)| !mention.range.contains(index));
    let only = rest.into_iter().all(|(_, token)| {
        token.is_mark()
            || token.senses.has(Sense::Article)
            || token.is_any(words!("tree fig please from list off garden trees figs"))
    });
    (ordered && only && mention.trees.is_one()).then(|| speech.names.selection(&mention.trees, &[])).flatten()
}

/// Names of trees describe nothing: a tree called Eave shelters no other.
fn without_names(speech: &Speech, rest: &[Token]) -> Vec<Token> {
    let named = |token: &&Token| {
        speech
            .mentions
            .iter()
            .filter(|mention| mention.trees.is_one())
            .any(|mention| speech.tokens[mention.range.clone()].iter().any(|own| own.span == token.span))
    };
    rest.iter().filter(|token| !named(token)).cloned().collect()
}

fn is_empty(details: &TreeDetails) -> bool {
    *details == TreeDetails::default()
}

/// After "add tree", "new tree": a name up to the first comma or a word that describes.
fn added<'s>(speech: &'s Speech<'_>) -> Option<(String, &'s [Token])> {
    // "I got a new fig called Peanut"
    let lead = speech
        .tokens
        .iter()
        .take_while(|token| {
            token.is_any(words!(
                "i we i've we've just got have bought acquired purchased received obtained a my another"
            ))
        })
        .count();
    let told = lead > 1
        && speech.tokens.get(lead).is_some_and(|new| new.is("new"))
        && speech.tokens.iter().any(|token| {
            token.is_any(words!("called named name")) || token.senses.has_any(&[Sense::Pot, Sense::Ground])
        });
    let lead = if told { lead } else { 0 };
    let tokens = &speech.tokens[lead..];
    let verb = tokens.first().is_some_and(|first| first.is_any(words!("add new another")));
    // "Another 8 off Celeste" counts figs.
    let counts = tokens.get(1).is_some_and(|next| next.number.is_some())
        && !tokens.get(2).is_some_and(|new| new.is("new"));
    if !verb || counts {
        return None;
    }
    let as_named = tokens.windows(2).any(|pair| pair[0].is_any(words!("it him her")) && pair[1].is("as"));
    let name_is = tokens.windows(2).any(|pair| pair[0].is("name") && pair[1].is("is"));
    let mut start = 1;
    while tokens
        .get(start)
        .is_some_and(|token| {
            token.is_any(words!("a an new another fig tree the my : called named please pls kindly"))
                || token.is("one") && tokens.get(start + 1).is_some_and(|next| next.is("new"))
                // "Add a new tree for me please: Zio"
                || token.is("for") && tokens.get(start + 1).is_some_and(|me| me.is_any(words!("me us")))
                || token.is_any(words!("me us")) && tokens[start - 1].is("for")
                // "New baby tree! Add it as Peanut, 5 gallon pot"
                || as_named && token.is_any(words!("baby little ! . add it as him her"))
                // "Add a tree, Stubby, 10 gal pot"
                || token.is(",") && tokens[start - 1].is("tree")
                || token.is_any(words!("his her"))
                    && tokens.get(start + 1).is_some_and(|name| name.is("name"))
                || token.is("name") && tokens[start - 1].is_any(words!("his her"))
                // "New tree, call it Sal"
                || token.is("call") && tokens.get(start + 1).is_some_and(|it| it.is_any(words!("it him her")))
                || token.is_any(words!("it him her")) && tokens[start - 1].is("call")
                || token.is(",") && tokens.get(start + 1).is_some_and(|next| next.is("call"))
                // "New tree add please, name is Gate"
                || name_is && token.is_any(words!("add please , name its is it's"))
                // "New tree, name Masha, pot 5 gallons"
                || start < 4 && (token.is("name") || token.is(",") && tokens.get(start + 1).is_some_and(|next| next.is("name")))
        })
        // "Fig 3" is a name.
        && !(tokens[start].is("fig") && tokens.get(start + 1).is_some_and(|next| next.number.is_some())
            && is_part_of_name(tokens, start + 1))
    {
        start += 1;
    }
    // "add product", "add @bo" are other settings.
    let first = tokens.get(start)?;
    if first.is_any(words!("product spray person helper keeper note")) || first.text.starts_with('@') {
        return None;
    }
    // "New rust on Wall" is no tree called Rust.
    let seen = first.senses.has_any(&[
        Sense::Rust,
        Sense::Spots,
        Sense::Leaf,
        Sense::Rain,
        Sense::Frost,
        Sense::Fig,
        Sense::LeafOut,
        // "Another inch of rain"
        Sense::Unit,
    ]);
    if seen && tokens[0].is_any(words!("new another")) {
        return None;
    }
    let said_tree = tokens[..start].iter().any(|token| token.is_any(words!("tree fig")));
    let end = end_of_name(tokens, start);
    let name = clean(speech.typed(lead + start, lead + end));
    let describes = tokens[end..].iter().any(is_description);
    // "Another good week in the garden" is no tree.
    let stands = tokens[end..].iter().any(|token| {
        token.senses.has_any(&[Sense::Pot, Sense::Pots, Sense::Ground, Sense::Unit, Sense::Tree])
    });
    (!name.is_empty() && (said_tree || describes && (tokens[0].is("add") || stands)))
        .then(|| (name, &tokens[end..]))
}

/// "Big Mama is 10 feet wide", of a tree nobody told of.
fn width_of_a_stranger(speech: &Speech) -> Option<String> {
    const MOST_WORDS: usize = 10;
    let tokens = speech.tokens;
    let is = tokens.iter().position(|token| token.is("is"))?;
    let wide = tokens.last().is_some_and(|last| last.is_any(words!("wide across")));
    let measured = amounts(&tokens[is..], &[], speech.context.garden.units)
        .iter()
        .any(|measured| matches!(measured.amount, Amount::Length(_)));
    let plain = (1..=3).contains(&is)
        && tokens[..is].iter().all(|token| {
            token.is_word()
                && !token.senses.has_any(&[
                    Sense::Pronoun,
                    Sense::Article,
                    Sense::Asks,
                    Sense::Pot,
                    Sense::Tree,
                ])
        });
    (wide && measured && plain && speech.mentions.is_empty() && tokens.len() <= MOST_WORDS)
        .then(|| clean(speech.typed(0, is)))
}

/// "<known or new name> is in a 15 gallon pot ..."
/// "Kadota is actually 7 gal": how big its pot is, and no watering.
fn is_a_size(rest: &[Token]) -> bool {
    const MOST_WORDS: usize = 6;
    let sized = rest.windows(2).any(|pair| {
        pair[0].number.is_some()
            && pair[1].is_any(words!("gal gals gallon gallons litre litres liter liters l"))
    });
    sized
        && rest.len() <= MOST_WORDS
        && rest.iter().all(|token| {
            token.is_mark()
                || token.number.is_some()
                || token.is_any(words!(
                    "gal gals gallon gallons litre litres liter liters l actually really only just about now pot a"
                ))
        })
}

/// Behind a watering or a spray just told, gallons are of that.
fn follows_work(speech: &Speech) -> bool {
    speech.context.just_said().is_some_and(|last| {
        matches!(&last.what, What::Report { report: Report::Watered { .. } | Report::Sprayed { .. }, .. })
    })
}

fn described<'s>(speech: &'s Speech<'_>) -> Option<(String, &'s [Token])> {
    let tokens = speech.tokens;
    let moves = |index: usize| {
        tokens[index].is_any(words!("moved went graduated"))
            && tokens.get(index + 1).is_some_and(|next| next.is_any(words!("into to up in")))
    };
    let is = (0..tokens.len())
        .find(|index| tokens[*index].is_any(words!("is lives sits stands grows as has")) || moves(*index))?;
    if is == 0 || is > 6 {
        return None;
    }
    let rest = &tokens[is + 1..];
    // "put Whip down as a 7 gallon pot", "Eave's pot is 12 gallons"
    let start = usize::from(tokens[0].is_any(words!("put list mark set make change update")));
    let of_pot = tokens[start..is].iter().any(|token| token.is_any(words!("pot container planter tub")));
    let of_crown = tokens[start..is].iter().any(|token| token.is_any(words!("crown canopy spread width")));
    let end = (start..is)
        .rev()
        .find(|index| {
            !tokens[*index].is_any(words!(
                "pot container planter tub down now also just finally crown canopy spread width"
            ))
        })
        .map_or(is, |last| last + 1);
    let told = without_names(speech, rest);
    let all = rest;
    let rest = told.as_slice();
    let stand = any(rest, words!("pot container planter tub ground inground gallon gal litre liter"))
        && (any(rest, words!("in a an its")))
        || of_pot && rest.iter().any(|token| token.senses.has(Sense::Unit)) && rest.len() <= 5
        || tokens[is].is("is") && is_a_size(rest) && !follows_work(speech);
    let trait_said = any(
        rest,
        words!(
            "wide young bearing sheltered eave roof paving mulched susceptible tolerant resistant loam sand clay"
        ),
    ) && rest.len() <= 12;
    let of_crown = of_crown || any(rest, words!("crown canopy spread width wide across"));
    let wide = of_crown
        && amounts(rest, &[], speech.context.garden.units)
            .iter()
            .any(|measured| matches!(measured.amount, Amount::Length(_)));
    // "Big One moved into a 30 gallon pot" tells her pot; without a size it is only repotting.
    let sized = rest.iter().any(|token| token.senses.has(Sense::Unit));
    if !(stand || trait_said || wide)
        || moves(is) && !sized
        || any(rest, words!("dry wet soggy rust rusty moist"))
        // "Whip is going in the ground next spring": not yet.
        || rest.first().is_some_and(|first| first.is_any(words!("going gonna supposed")))
        || rest.len() > 1 && rest[0].is_any(words!("about ready due")) && rest[1].is_any(words!("to 2"))
        // "Celeste is in a 50 litre pot and had 5 litres": what she got is no size.
        || any(rest, words!("had got given")) && rest.iter().filter(|token| token.senses.has(Sense::Unit)).count() > 1
        || rest.iter().any(|token| {
            token.senses.has_any(&[
                Sense::Sprayed,
                Sense::Watered,
                Sense::Picked,
                Sense::Drop,
                Sense::Spots,
                Sense::Frost,
                Sense::Seen,
            ])
        })
        || tokens[is].is("has")
            && !(of_pot
                || wide
                || rest.iter().any(|token| token.senses.has(Sense::Unit))
                    && any(rest, words!("pot container planter tub")))
    {
        return None;
    }
    let name = clean(speech.typed(start, end));
    // "Crown width of Wall is now 3.5 m"
    let owner = speech.mentions.first().filter(|mention| {
        // "Pot volume for Whip is 22 L", "pot size of Whip"
        let pot_of = of_pot
            && mention.range.end == is
            && tokens[..mention.range.start].last().is_some_and(|of| of.is_any(words!("of for on")));
        (of_crown || pot_of) && mention.range.end <= is && mention.trees.is_one()
    });
    let name = owner.map_or(name, |mention| clean(speech.typed(mention.range.start, mention.range.end)));
    let name = strip_article(&name);
    let name = if of_pot || of_crown { name.strip_suffix("'s").unwrap_or(name) } else { name };
    // "The wall tree is in a 20 gallon pot"
    let short = name.strip_suffix(" tree").or_else(|| name.strip_suffix(" fig")).unwrap_or(name);
    let garden = speech.context.garden;
    // "The Kadota is in a 7 gal pot", of the one that is a Kadota
    let by_kind = || {
        let mention = speech.mentions.iter().find(|mention| {
            mention.range.end == end && mention.range.start <= start + 1 && mention.trees.is_one()
        })?;
        match speech.names.selection(&mention.trees, &[])? {
            Selection::Named(names) if names.len() == 1 => names.into_iter().next(),
            _ => None,
        }
    };
    let known = garden.tree(name).or_else(|| garden.tree(short)).map(|tree| tree.name.clone());
    let known = known.or_else(by_kind);
    let subject_is_pronoun = tokens[0].is_any(words!("it this that he she there what where soil which"));
    if subject_is_pronoun || name.is_empty() {
        return None;
    }
    // A trait of a tree nobody knows is more likely talk than set-up, and so are words no tree is called.
    let talk = tokens[start..end].iter().any(|token| {
        token.senses.has_any(&[Sense::Asks, Sense::Mine, Sense::Negation, Sense::Future, Sense::Filler])
            || token.is_any(words!("you tell know let that everything all"))
    });
    let of_known = speech.mentions.iter().any(|mention| mention.range.start < end && mention.trees.is_one());
    if known.is_none() && (!stand || talk || of_known || moves(is) || end - start > 4) {
        return None;
    }
    Some((known.unwrap_or_else(|| name.to_owned()), all))
}

/// "Celeste, 15 gallon pot, 4 ft wide": a name and what stands behind the comma.
fn listed<'s>(speech: &'s Speech<'_>) -> Option<(String, &'s [Token])> {
    let tokens = speech.tokens;
    let end = tokens.iter().position(|token| token.is_any(words!(", : - (")))?;
    let rest = &tokens[end + 1..];
    let sized = rest.iter().any(|token| token.senses.has(Sense::Unit) || token.number.is_some())
        && any(rest, words!("pot container planter tub"));
    let rooted = any(rest, words!("ground inground")) && any(rest, words!("in inground"));
    let verb = tokens.iter().any(|token| {
        token.senses.has_any(&[
            Sense::Sprayed,
            Sense::Watered,
            Sense::Picked,
            Sense::Rust,
            Sense::Copper,
            Sense::Dry,
            Sense::Wet,
            Sense::Gave,
            Sense::Planted,
            Sense::Seen,
            Sense::Rain,
            Sense::Drop,
            Sense::Watering,
            Sense::Spraying,
            Sense::Drink,
        ])
    });
    let name = clean(speech.typed(0, end));
    let known = speech.context.garden.tree(&name).is_some();
    let named = known
        || tokens[..end].iter().any(super::super::names::is_unknown)
        || name.starts_with(char::is_uppercase);
    let fits = known || is_new_name(speech, 0..end);
    (!verb && fits && (sized || rooted) && named && (1..=4).contains(&end)).then_some((name, rest))
}

/// Words a tree could be called: none of a known tree's, and each unknown to the language or with a capital.
pub(super) fn is_new_name(speech: &Speech, range: std::ops::Range<usize>) -> bool {
    let words = &speech.tokens[range.clone()];
    let of_known =
        speech.mentions.iter().any(|mention| mention.range.start < range.end && mention.trees.is_one());
    let capital = |token: &Token| {
        speech.text.get(token.span.clone()).is_some_and(|typed| typed.starts_with(char::is_uppercase))
    };
    let stranger = words.iter().any(super::super::names::is_unknown);
    !of_known && (stranger || words.iter().all(|token| capital(token) || token.number.is_some()))
}

pub(super) fn strip_article(name: &str) -> &str {
    ["the ", "The ", "my ", "My "].iter().find_map(|article| name.strip_prefix(article)).unwrap_or(name)
}

fn end_of_name(tokens: &[Token], start: usize) -> usize {
    (start..tokens.len())
        .find(|index| {
            let token = &tokens[*index];
            token.is_any(words!(
                ", : ; - ( is in a an with at on under by it's its which that thats that's it"
            )) || *index > start && is_description(token) && !is_part_of_name(tokens, *index)
        })
        .unwrap_or(tokens.len())
}

/// "Big One", "Fig 3": a number that measures nothing.
fn is_part_of_name(tokens: &[Token], index: usize) -> bool {
    let measures = |at: usize| {
        tokens.get(at).is_some_and(|next| {
            next.number.is_some() || next.senses.has_any(&[Sense::Unit, Sense::Pot]) || next.is("-")
        })
    };
    tokens[index].number.is_some() && !measures(index + 1)
}

fn is_description(token: &Token) -> bool {
    token.number.is_some()
        || token.is_any(words!("pot potted container ground inground gallon gal litre liter young wide"))
}

/// Everything a stretch of words says of a tree.
pub(super) fn details(speech: &Speech, rest: &[Token]) -> TreeDetails {
    let mut details = TreeDetails::default();
    for measured in amounts(rest, &[], speech.context.garden.units) {
        let nearby: Vec<&Token> = rest.iter().skip(measured.to).take(3).collect();
        let of = |texts: WordList| nearby.iter().any(|token| token.is_any(texts));
        match measured.amount {
            Amount::Volume(volume) | Amount::Vessel(volume) => details.volume = Some(volume),
            Amount::Length(metres) if of(words!("mulch bark")) => details.mulch = Some(Metres::new(metres)),
            Amount::Length(metres) if of(words!("compost")) => details.compost = Some(Metres::new(metres)),
            Amount::Length(metres) if !of(words!("tall high")) => details.width = Some(Metres::new(metres)),
            Amount::Depth(depth) if of(words!("mulch bark")) => {
                details.mulch = Some(Metres::new(depth.value() / 1000.0));
            }
            // "#15", "15g": a nursery size is in gallons.
            Amount::Count(size) if of(words!("pot container")) && size > 0.0 => {
                details.volume = Some(Litres::from_gallons(size));
            }
            _ => {}
        }
    }
    if any(rest, words!("pot potted container planter tub")) {
        details.potted = Some(Potted::InPot);
    } else if any(rest, words!("ground inground")) {
        details.potted = Some(Potted::InGround);
    } else if details.volume.is_some() {
        details.potted = Some(Potted::InPot);
    }
    details.bearing = any(rest, words!("young whip cutting sapling"))
        .then_some(Bearing::Young)
        .or_else(|| any(rest, words!("bearing mature")).then_some(Bearing::Bearing));
    details.crop = [("early", CropTime::Early), ("middle", CropTime::Middle), ("late", CropTime::Late)]
        .into_iter()
        .find(|(word, _)| rest.iter().any(|token| token.is(word)))
        .map(|(_, crop)| crop);
    details.susceptibility = [
        ("susceptible", Susceptibility::Susceptible),
        ("tolerant", Susceptibility::Tolerant),
        ("resistant", Susceptibility::Resistant),
    ]
    .into_iter()
    .find(|(word, _)| rest.iter().any(|token| token.is(word)))
    .map(|(_, susceptibility)| susceptibility);
    details.shelter =
        if any(rest, words!("eave eaves roof sheltered awning overhang porch undercover greenhouse")) {
            Some(Shelter::FromRain)
        } else {
            None
        };
    details.footing =
        any(rest, words!("paving concrete asphalt driveway pavers patio")).then_some(Footing::HotPaving);
    details.soil = soil(rest);
    details.mix = if any(rest, words!("bark")) && details.mulch.is_none() {
        Some(Mix::CoarseBark)
    } else if any(rest, words!("peat")) {
        Some(Mix::Peat)
    } else {
        None
    };
    details.groups = group(speech, rest).into_iter().collect();
    details.cultivar = cultivar(speech, rest);
    details
}

/// "in the deck group", "group deck".
pub(super) fn group(speech: &Speech, rest: &[Token]) -> Option<String> {
    let at = rest.iter().position(|token| token.is_any(words!("group groups")))?;
    let typed = |token: &Token| speech.text.get(token.span.clone()).map(clean);
    let behind = rest[at + 1..].iter().find(|token| !token.is_any(words!(": of called named is the")));
    match (behind, at.checked_sub(1).map(|before| &rest[before])) {
        (Some(name), _) if name.is_word() && !name.is_any(words!(", and")) => typed(name),
        (_, Some(name)) if name.is_word() && !name.senses.has_any(&[Sense::Article, Sense::Link]) => {
            typed(name)
        }
        _ => None,
    }
}

fn soil(rest: &[Token]) -> Option<Soil> {
    let loam = any(rest, words!("loam"));
    match () {
        () if any(rest, words!("clay")) => Some(Soil::ClayLoam),
        () if loam && any(rest, words!("sandy")) => Some(Soil::SandyLoam),
        () if any(rest, words!("sand sandy")) => Some(Soil::Sand),
        () if loam => Some(Soil::Loam),
        () => None,
    }
}

/// The part between commas that describes nothing else is the cultivar.
fn cultivar(speech: &Speech, rest: &[Token]) -> Option<String> {
    rest.split(|token| token.is_any(words!(", ; - ( )"))).find_map(|part| {
        let plain = !part.is_empty()
            && part.len() <= 4
            && part.iter().all(Token::is_word)
            && !part.iter().any(|token| {
                is_description(token)
                    || token.is_any(words!("group groups in on under the by with eave roof sheltered loam sand clay sandy mulch early late middle bearing mature susceptible tolerant resistant is a an paving concrete patio peat bark"))
            });
        let (first, last) = (part.first()?, part.last()?);
        plain.then(|| speech.text.get(first.span.start..last.span.end).map(clean)).flatten()
    })
}
