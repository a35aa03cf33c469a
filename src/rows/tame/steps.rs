//! What taming a chart may cost.

use crate::ground::bounds::TAME_STEPS;
use crate::rows::tame::path::Effort;

/// Steps of the search for a good way in one row, where a chart has few rows.
const ROW_STEPS: usize = 1_500_000;

/// Steps that are left for a chart's rows of more than three colours; rows of three are always solved exactly.
#[derive(Clone, Copy, Debug)]
pub(super) struct Steps {
    /// For proofs, taken by the rows as they come.
    pub(super) exact: usize,
    /// For the best found where there is no proof, the same for each row.
    pub(super) good: usize,
}

impl Steps {
    /// A share of what a chart with so many rows may take.
    pub(super) fn of(rows: usize, share: usize) -> Self {
        let all = TAME_STEPS / share.max(1);
        Self {
            exact: all / 3 * 2,
            good: (all / 3 / rows.max(1)).min(ROW_STEPS),
        }
    }

    /// After a search that had all there were; one of few colours is not counted.
    pub(super) fn keep(&mut self, effort: &Effort) {
        self.exact = self.exact.min(effort.left);
    }

    /// What an exact search may cost: anything for up to three colours.
    pub(super) fn effort(&self, colours: usize) -> Effort {
        if colours <= 3 {
            Effort::ALL
        } else {
            Effort {
                left: self.exact,
                ..Effort::ALL
            }
        }
    }
}
