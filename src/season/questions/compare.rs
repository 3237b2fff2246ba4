use super::season_view::{disease, harvest};
use crate::agronomy::assessment::{LEAST_GROUP, mann_whitney, smallest_p};
use crate::season::answer::{CompareTest, CompareView, GroupFigures, Harvest};
use crate::season::facts::Facts;
use crate::season::outlook::{Outlook, TreeOutlook};
use crate::units::Fraction;

/// Pots against ground. The tree is the unit, never the leaf: leaves of one tree are not independent.
pub(super) fn compare(facts: &Facts) -> CompareView {
    let outlook = Outlook::of(facts);
    let (pots, ground): (Vec<&TreeOutlook>, Vec<&TreeOutlook>) =
        outlook.trees().iter().partition(|tree| tree.tree.is_potted());
    let areas = |trees: &[&TreeOutlook]| -> Vec<f64> {
        trees.iter().filter_map(|tree| disease(&outlook, &tree.history)).map(Fraction::value).collect()
    };
    let (of_pots, of_ground) = (areas(&pots), areas(&ground));
    let smallest = smallest_p(of_pots.len(), of_ground.len()).value();
    let enough = of_pots.len() >= LEAST_GROUP && of_ground.len() >= LEAST_GROUP;
    let test = match mann_whitney(&of_pots, &of_ground).filter(|_| enough) {
        Some((_, result)) => CompareTest::Tested { p: result.p.value(), smallest_p: smallest },
        None => CompareTest::NotTestable {
            smallest_p: (!of_pots.is_empty() && !of_ground.is_empty()).then_some(smallest),
        },
    };
    CompareView {
        pots: figures(&outlook, &pots, &of_pots),
        ground: figures(&outlook, &ground, &of_ground),
        test,
    }
}

fn figures(outlook: &Outlook, trees: &[&TreeOutlook], areas: &[f64]) -> GroupFigures {
    let swings: Vec<f64> =
        trees.iter().filter_map(|tree| outlook.moisture_swing(tree)).map(Fraction::value).collect();
    let mean = |values: &[f64]| {
        (!values.is_empty()).then(|| Fraction::saturating(values.iter().sum::<f64>() / values.len() as f64))
    };
    let harvest =
        trees.iter().map(|tree| harvest(outlook, &tree.history)).fold(Harvest::default(), |sum, one| {
            Harvest {
                count: sum.count + one.count,
                mass: sum.mass + one.mass,
                shared: sum.shared || one.shared,
                first: sum.first.into_iter().chain(one.first).min(),
                last: sum.last.into_iter().chain(one.last).max(),
            }
        });
    GroupFigures {
        trees: trees.len() as u32,
        scouted: areas.len() as u32,
        disease: mean(areas),
        swing: mean(&swings),
        harvest,
    }
}
