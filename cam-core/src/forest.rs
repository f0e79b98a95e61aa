//! Things that belong together, joined pair by pair.

/// Disjoint sets, each named by its least member.
#[derive(Default)]
pub(crate) struct Forest {
    parents: Vec<usize>,
}

impl Forest {
    pub(crate) fn add(&mut self) -> usize {
        self.parents.push(self.parents.len());
        self.parents.len() - 1
    }

    pub(crate) fn root(&mut self, mut at: usize) -> usize {
        // Bound: parents are always less than their children.
        while self.parents[at] != at {
            self.parents[at] = self.parents[self.parents[at]];
            at = self.parents[at];
        }
        at
    }

    pub(crate) fn unite(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.parents[a.max(b)] = a.min(b);
    }
}
