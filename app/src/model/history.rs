//! Undo and redo: earlier states are kept, nothing that was worked out from them.

/// How many steps can be taken back.
const MOST_STEPS: usize = 500;

/// A state to go back or forward to, and what the step between changed.
#[derive(Clone, Debug)]
struct Step<T> {
    state: T,
    changed: &'static str,
}

/// The states before and after the present one; a state is cheap to copy.
#[derive(Clone, Debug)]
pub struct History<T> {
    past: Vec<Step<T>>,
    future: Vec<Step<T>>,
}

impl<T> Default for History<T> {
    fn default() -> History<T> {
        History {
            past: Vec::new(),
            future: Vec::new(),
        }
    }
}

impl<T: Clone> History<T> {
    /// Notes that `before` was left by a change; whatever was undone is forgotten.
    pub fn changed(&mut self, before: T, changed: &'static str) {
        self.future.clear();
        if self.past.len() == MOST_STEPS {
            self.past.remove(0);
        }
        self.past.push(Step {
            state: before,
            changed,
        });
    }

    /// The state before the last change.
    pub fn undo(&mut self, present: &T) -> Option<T> {
        let step = self.past.pop()?;
        self.future.push(Step {
            state: present.clone(),
            changed: step.changed,
        });
        Some(step.state)
    }

    /// The state that was undone last.
    pub fn redo(&mut self, present: &T) -> Option<T> {
        let step = self.future.pop()?;
        self.past.push(Step {
            state: present.clone(),
            changed: step.changed,
        });
        Some(step.state)
    }

    /// What undo would take back.
    pub fn undoes(&self) -> Option<&'static str> {
        self.past.last().map(|step| step.changed)
    }

    /// What redo would do again.
    pub fn redoes(&self) -> Option<&'static str> {
        self.future.last().map(|step| step.changed)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::super::document::tests::commission;
    use super::*;
    use cam_core::commission::Commission;

    fn titled(title: &str) -> Arc<Commission> {
        Arc::new(Commission {
            title: title.to_owned(),
            ..commission()
        })
    }

    #[test]
    fn steps_go_back_and_forth() {
        let (one, two, three) = (titled("one"), titled("two"), titled("three"));
        let mut history = History::default();
        history.changed(Arc::clone(&one), "first");
        history.changed(Arc::clone(&two), "second");
        assert_eq!(history.undoes(), Some("second"));
        assert_eq!(history.undo(&three).unwrap().title, "two");
        assert_eq!(history.undo(&two).unwrap().title, "one");
        assert!(history.undo(&one).is_none());
        assert_eq!(history.redoes(), Some("first"));
        assert_eq!(history.redo(&one).unwrap().title, "two");
        history.changed(two, "another way");
        assert!(history.redo(&three).is_none());
        assert_eq!(history.undoes(), Some("another way"));
    }

    #[test]
    fn the_oldest_steps_are_forgotten() {
        let mut history = History::default();
        for number in 0..MOST_STEPS + 10 {
            history.changed(titled(&number.to_string()), "step");
        }
        let mut present = titled("now");
        let mut steps = 0;
        while let Some(before) = history.undo(&present) {
            present = before;
            steps += 1;
        }
        assert_eq!(steps, MOST_STEPS);
        assert_eq!(present.title, "10");
    }
}
