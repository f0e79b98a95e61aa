//! Stretches in separate places are cut place by place, so that the cutter does not go round the whole letter for each level.

use std::collections::BTreeMap;

use kurbo::Point;

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

/// Disjoint sets, each named by its least member.
#[derive(Default)]
pub(super) struct Forest {
    parents: Vec<usize>,
}

impl Forest {
    pub(super) fn add(&mut self) -> usize {
        self.parents.push(self.parents.len());
        self.parents.len() - 1
    }

    pub(super) fn root(&mut self, mut at: usize) -> usize {
        // Bound: parents are always less than their children.
        while self.parents[at] != at {
            self.parents[at] = self.parents[self.parents[at]];
            at = self.parents[at];
        }
        at
    }

    pub(super) fn unite(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.parents[a.max(b)] = a.min(b);
    }
}
