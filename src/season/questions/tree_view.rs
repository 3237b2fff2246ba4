use super::season_view::harvest;
use super::waits;
use crate::season::answer::{LastSpray, TreeState, TreeView};
use crate::season::calendar::local_date;
use crate::season::facts::Facts;
use crate::season::outlook::{Outlook, TreeOutlook, told};
use crate::season::request::Selection;
use crate::season::rules;
use crate::season::selection::selected;

pub(super) fn view(facts: &Facts, trees: &Selection) -> TreeView {
    let outlook = Outlook::of(facts);
    let wanted = selected(&facts.garden, trees);
    TreeView {
        trees: outlook
            .trees()
            .iter()
            .filter(|tree| wanted.contains(&tree.tree.name))
            .map(|tree| state(&outlook, tree))
            .collect(),
        waits: waits(&outlook, wanted.iter().map(String::as_str)),
        age: outlook.age(),
    }
}

fn state(outlook: &Outlook, tree: &TreeOutlook) -> TreeState {
    let last_sprayed = tree.last_spray.as_ref().zip(tree.cover).map(|(spray, cover)| LastSpray {
        product: spray.product.clone(),
        on: local_date(spray.at, outlook.zone),
        rain_since: cover.rain,
        days: cover.age,
    });
    TreeState {
        tree: tree.tree.clone(),
        stage: tree.stage.map(|(_, stage)| stage),
        last_scouted: tree.scouted,
        leaf_drop: tree.leaf_drop,
        some_lost: tree.leaf_drop.is_none()
            && tree.history.leaf_drop.iter().any(|(at, _)| *at >= outlook.season_start()),
        last_sprayed,
        cover: tree.cover.map(|cover| cover.on_sprayed_leaves),
        leaves_left: outlook.leaves_by_model(tree),
        pipeline: outlook.pipeline().into_iter().map(|(event, due)| (told(event), due)).collect(),
        picked: harvest(outlook, &tree.history),
        water: (outlook.leaves_out() && tree.housed.is_none()).then(|| outlook.water_of(tree)),
        housed: outlook.housed_tree(tree),
        ripening: outlook.ripening(tree),
        moisture_swing: outlook.moisture_swing(tree),
        copper: rules::copper_this_season(outlook.facts, &outlook.history, &tree.tree.name, outlook.now),
    }
}
