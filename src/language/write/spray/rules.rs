//! Rules of label and trade: before a spray, and after one that broke them.

use crate::language::write::page::Page;
use crate::language::write::{Voice, figures, phrases};
use crate::season::answer::BrokenRule;

/// A rule as two sentences: the first is what to do.
pub(in crate::language::write) struct Said {
    pub(in crate::language::write) lead: String,
    pub(in crate::language::write) why: String,
}

fn said(lead: String, why: String) -> Said {
    Said { lead, why }
}

/// A report that broke a rule: said at once.
pub(in crate::language::write) fn alert(page: &mut Page, rule: &BrokenRule, voice: &Voice) {
    let Said { lead, why } = broken(rule, voice);
    page.lead(lead);
    page.line(why);
}

/// A rule that a spray now would break.
pub(in crate::language::write) fn ahead(rule: &BrokenRule, voice: &Voice) -> Said {
    match rule {
        BrokenRule::SulfurAndOil { trees, first, first_on, second, needed, clear_from, .. } => said(
            format!("No {} before {}.", phrases::name(second), voice.date(*clear_from)),
            format!(
                "{} went on {} on {}; sulfur and oil within {} of each other burn leaves.",
                phrases::capitalised(&phrases::name(first)),
                phrases::names(trees),
                voice.date(*first_on),
                figures::days(*needed)
            ),
        ),
        BrokenRule::SulfurHeat { product, hottest, limit, on } => said(
            format!("No {} now: too hot.", phrases::name(product)),
            format!(
                "{} is forecast for {}; above {} it burns leaves.",
                voice.temperature(*hottest),
                voice.day(*on),
                voice.temperature(*limit)
            ),
        ),
        BrokenRule::TooSoon { product, last_on, interval, clear_from } => said(
            format!("Wait with {} until {}.", phrases::name(product), voice.day(*clear_from)),
            format!(
                "It went on last on {}, and the label wants {} between.",
                voice.date(*last_on),
                figures::days(*interval)
            ),
        ),
        BrokenRule::TooMany { product, done, most } => said(
            format!("No more {} this season.", phrases::name(product)),
            format!("It would be number {done}; the label allows {most}."),
        ),
        BrokenRule::BeforeHarvest { product, wait, tree, picking_from } => said(
            format!("Not {} just now: {} is ripening.", phrases::name(product), fruit(tree)),
            format!(
                "The label wants {} between spray and picking. Pick what is ripe first; after the spray, wait until {}.",
                figures::days(*wait),
                voice.moment(*picking_from)
            ),
        ),
        BrokenRule::CopperBudget { tree, used, with_this, yearly } => said(
            format!("No more copper on {} this season.", phrases::name(tree)),
            format!(
                "{} lies under it already, and a spray would make it {}; {} a year is the careful limit, for copper stays in the soil.",
                phrases::capitalised(&voice.copper(*used)),
                voice.copper(*with_this),
                voice.copper(*yearly)
            ),
        ),
        BrokenRule::NotForFigs { product } => said(
            format!("Do not put {} on figs.", phrases::name(product)),
            String::from("Its label does not list edible figs, as you read it to me."),
        ),
        // Rules of picking and entering come after a spray, never before one.
        BrokenRule::PickedTooSoon { .. } | BrokenRule::ReEntry { .. } => broken(rule, voice),
    }
}

/// What keeps a spray from a tree, in a bracket behind its name.
pub(in crate::language::write) fn short(rule: &BrokenRule) -> &'static str {
    match rule {
        BrokenRule::SulfurAndOil { .. } => "sulfur and oil too close",
        BrokenRule::SulfurHeat { .. } => "too hot",
        BrokenRule::TooSoon { .. } => "sprayed too lately for the label",
        BrokenRule::TooMany { .. } => "as often as the label allows",
        BrokenRule::BeforeHarvest { .. } => "too near its picking",
        BrokenRule::CopperBudget { .. } => "enough copper under it for this year",
        BrokenRule::NotForFigs { .. } => "not on its label",
        BrokenRule::PickedTooSoon { .. } | BrokenRule::ReEntry { .. } => "a rule forbids it",
    }
}

/// A rule broken by what was reported: what it means, then what to do now.
pub(in crate::language::write) fn broken(rule: &BrokenRule, voice: &Voice) -> Said {
    match rule {
        BrokenRule::SulfurAndOil { trees, first, second, apart, needed, again_from, .. } => said(
            format!(
                "{} came {} on {}; sulfur and oil need {} between, or leaves burn.",
                phrases::capitalised(&phrases::name(second)),
                gap(apart.value().round() as i64, &phrases::name(first)),
                phrases::names(trees),
                figures::days(*needed)
            ),
            format!(
                "Now: water the roots, shade pots in the heat, look for scorched edges. No {} on them before {}.",
                phrases::name(first),
                voice.date(*again_from)
            ),
        ),
        BrokenRule::SulfurHeat { product, hottest, limit, on } => said(
            format!(
                "Too hot for {}: {} {}, and above {} it burns leaves.",
                phrases::name(product),
                voice.temperature(*hottest),
                voice.day(*on),
                voice.temperature(*limit)
            ),
            String::from(
                "Now: water the roots early, shade pots, look for scorched edges. Next time on cooler days.",
            ),
        ),
        BrokenRule::TooSoon { product, last_on, interval, .. } => said(
            format!(
                "Too soon for {}: last on {}, and the label wants {} between.",
                phrases::name(product),
                voice.date(*last_on),
                figures::days(*interval)
            ),
            format!("Now: count {} from this one before the next.", figures::days(*interval)),
        ),
        BrokenRule::TooMany { product, done, most } => said(
            format!(
                "That was {} number {done} this season; the label allows {most}.",
                phrases::name(product)
            ),
            String::from("Now: no more of it this year. Another product has its own label."),
        ),
        BrokenRule::BeforeHarvest { product, wait, tree, picking_from } => said(
            format!("No picking from {} before {}.", fruit(tree), voice.moment(*picking_from)),
            format!(
                "It is ripening, and after {} the label wants {}. Wash the fruit then.",
                phrases::name(product),
                figures::days(*wait)
            ),
        ),
        BrokenRule::PickedTooSoon { tree, product, sprayed_on, wait, clear_from } => said(
            format!("Do not eat what you picked from {}.", phrases::name(tree)),
            format!(
                "It had {} on {}, and the label wants {} before picking. Fruit is clear from {}.",
                phrases::name(product),
                voice.date(*sprayed_on),
                figures::days(*wait),
                voice.date(*clear_from)
            ),
        ),
        BrokenRule::ReEntry { product, until } => said(
            format!("Keep out of the sprayed leaves until {}.", voice.moment(*until)),
            format!("The label of {} asks for it.", phrases::name(product)),
        ),
        BrokenRule::CopperBudget { tree, with_this, yearly, .. } => said(
            format!(
                "Copper adds up under {}: {} this season, over the careful limit of {} a year.",
                phrases::name(tree),
                voice.copper(*with_this),
                voice.copper(*yearly)
            ),
            String::from(
                "Now: no more copper there this season. It stays in the soil, and local limits may be lower.",
            ),
        ),
        BrokenRule::NotForFigs { product } => said(
            format!(
                "The label of {} does not list edible figs, as you read it to me.",
                phrases::name(product)
            ),
            String::from(
                "Now: pick none of that fruit to eat, and ask the label or a licensed adviser what may be used.",
            ),
        ),
    }
}

fn fruit(tree: &Option<String>) -> String {
    tree.as_deref().map_or_else(|| String::from("the fruit"), phrases::name)
}

/// "8 days after sulfur", "on the same day as sulfur".
fn gap(days: i64, first: &str) -> String {
    match days {
        0 => format!("on the same day as {first}"),
        days => format!("{} after {first}", figures::count(days, "day")),
    }
}
