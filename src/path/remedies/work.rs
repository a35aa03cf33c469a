//! The work that a search may take, counted in steps that are the same on every machine.

use std::cell::Cell;

/// Steps that are left.
pub(super) struct Work {
    left: Cell<usize>,
    spent: Cell<bool>,
}

impl Work {
    pub(super) fn new(all: usize) -> Self {
        Self {
            left: Cell::new(all),
            spent: Cell::new(false),
        }
    }

    /// Takes so many steps; `None` when there are not enough left, from then on always.
    pub(super) fn take(&self, steps: usize) -> Option<()> {
        let left = self.left.get().checked_sub(steps);
        self.spent.set(self.spent.get() || left.is_none());
        self.left.set(left?);
        (!self.spent.get()).then_some(())
    }

    /// Whether something was not tried for want of steps.
    pub(super) fn is_spent(&self) -> bool {
        self.spent.get()
    }
}
