//! Stretches in separate places are cut place by place, so that the cutter does not go round the whole letter for each level.

use std::collections::BTreeMap;

use kurbo::Point;

use crate::forest::Forest;
use crate::pass::select::Stage;
use crate::pass::tool::Tool;

/// Splits stages into groups of stretches that lie in one place, each with its stages in the same order.
///
/// Stretches whose lanes may overlap always fall into one group, so what one group clears never matters to another.
pub(super) fn clusters(stages: Vec<Stage>, tool: &Tool<'_>) -> Vec<Vec<Stage>> {
    let mut forest = Forest::default();
    let mut owner: BTreeMap<(i64, i64), usize> = BTreeMap::new();
    let side = 2.0 * tool.radius;
    let cell = |at: Point| ((at.x / side).floor() as i64, (at.y / side).floor() as i64);
    for stretch in stages.iter().flatten() {
        let tree = forest.add();
        for sample in stretch.curve.samples(tool.radius / 2.0) {
            let (x, y) = cell(sample.at);
            for near in (-1..=1).flat_map(|i| (-1..=1).map(move |j| (x + i, y + j))) {
                if let Some(&other) = owner.get(&near) {
                    forest.unite(tree, other);
                }
            }
            owner.entry((x, y)).or_insert(tree);
        }
    }
    let mut clusters: BTreeMap<usize, Vec<Stage>> = BTreeMap::new();
    let mut number = 0;
    for stage in stages {
        let mut split: BTreeMap<usize, Stage> = BTreeMap::new();
        for stretch in stage {
            split.entry(forest.root(number)).or_default().push(stretch);
            number += 1;
        }
        for (root, stage) in split {
            clusters.entry(root).or_default().push(stage);
        }
    }
    clusters.into_values().collect()
}
