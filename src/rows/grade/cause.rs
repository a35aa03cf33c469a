//! Why a part is as high as it is: the row that causes most, as facts.

use crate::ground::units::Number;
use crate::rows::grade::parts::Handling;
use crate::rows::grade::setting::HandlingReason;
use crate::rows::measure::{Measures, RowMeasures, YarnFloat};
use crate::rows::walk::Work;

impl HandlingReason {
    /// What it adds to the part.
    #[must_use]
    pub const fn share(self) -> f64 {
        match self {
            Self::PurlingBack => 0.7,
            Self::Shaping => 0.4,
            Self::Yoke => 0.3,
            Self::NarrowTube => 0.2,
            Self::Steek => 0.5,
        }
    }
}

/// A fact that causes a part.
#[derive(Clone, Debug, PartialEq)]
pub enum Fact {
    /// Nothing of the kind.
    None,
    /// The longest float.
    LongestFloat {
        /// Its length in stitches.
        stitches: usize,
        /// Its length in millimetres.
        mm: f64,
        /// The limit in stitches.
        limit: usize,
        /// Rows over the limit.
        rows_over: usize,
        /// The colour that floats.
        colour: u8,
        /// Carried inside: no free float.
        carried: bool,
    },
    /// The longest way of a thread behind cloth.
    Travel {
        /// Its length in millimetres.
        mm: f64,
        /// How often a thread is begun.
        starts: usize,
    },
    /// Threads on cloth.
    Threads {
        /// How many.
        total: usize,
        /// Most in a row of squares.
        most: usize,
    },
    /// Areas of colour in a square of ten by ten.
    Blocks {
        /// Their mean.
        mean: f64,
        /// The most.
        most: usize,
    },
    /// Colours at a time.
    ColoursAtOnce {
        /// Most in a row.
        most: usize,
        /// Ends to weave in.
        ends: usize,
    },
    /// Looks at the chart.
    Looks {
        /// Most looks in a row.
        looks: usize,
        /// Chunks of that row.
        chunks: usize,
    },
    /// A stretch without a plain row.
    Stretch {
        /// Its length; for a bare chart without relief it has no end.
        rows: usize,
        /// Relief rows in all.
        relief: usize,
        /// Repeats for ever.
        endless: bool,
    },
    /// What the hands must do.
    Handling(Vec<HandlingReason>),
}

/// A fact and the measured row it is seen in.
#[derive(Clone, Debug, PartialEq)]
pub struct Cause {
    /// The row, from the first measured row; `None` when no single row causes it.
    pub row: Option<Number>,
    /// The fact.
    pub fact: Fact,
}

pub(super) fn causes(work: &Work<'_>, measures: &Measures, handling: &Handling) -> [Cause; 5] {
    let (relief_row, relief) = relief(work, measures);
    let handling = Cause {
        row: handling.row.map(Number::of_index),
        fact: if handling.reasons.is_empty() {
            Fact::None
        } else {
            Fact::Handling(handling.reasons.clone())
        },
    };
    let cloth = !work.craft.has_rows();
    [
        if cloth {
            travel(measures)
        } else {
            floats(work, measures)
        },
        if cloth {
            of_all(Fact::Threads {
                total: measures.colours.total,
                most: measures.colours.most,
            })
        } else {
            colours(measures)
        },
        if cloth {
            blocks(measures)
        } else {
            reading(measures)
        },
        Cause {
            row: relief_row,
            fact: relief,
        },
        handling,
    ]
}

/// The first row in which `key` is largest.
fn first_with_most(
    rows: &[RowMeasures],
    key: impl Fn(&RowMeasures) -> usize,
) -> Option<(Number, &RowMeasures)> {
    let most = rows.iter().map(&key).max()?;
    rows.iter()
        .enumerate()
        .find(|(_, row)| key(row) == most)
        .map(|(i, row)| (Number::of_index(i), row))
}

fn floats(work: &Work<'_>, measures: &Measures) -> Cause {
    let is_longest = |float: &&YarnFloat| float.stitches == measures.floats.longest;
    let mut rows = measures.rows.iter().enumerate();
    let found = rows.find_map(|(i, row)| Some((i, row.floats.iter().find(is_longest)?)));
    let Some((row, float)) = found else {
        return Cause {
            row: None,
            fact: Fact::None,
        };
    };
    Cause {
        row: Some(Number::of_index(row)),
        fact: Fact::LongestFloat {
            stitches: float.stitches,
            mm: measures.floats.longest_mm,
            limit: measures.floats.limit,
            rows_over: measures.floats.rows_over,
            colour: float.colour,
            carried: work.craft.carries_inside(),
        },
    }
}

const fn of_all(fact: Fact) -> Cause {
    Cause { row: None, fact }
}

fn travel(measures: &Measures) -> Cause {
    of_all(Fact::Travel {
        mm: measures.floats.longest_mm,
        starts: measures.colours.ends / 2,
    })
}

fn blocks(measures: &Measures) -> Cause {
    of_all(Fact::Blocks {
        mean: measures.reading.looks_mean,
        most: measures.reading.looks_most,
    })
}

fn colours(measures: &Measures) -> Cause {
    let row = first_with_most(&measures.rows, |row| row.colours).map(|(row, _)| row);
    let fact = Fact::ColoursAtOnce {
        most: measures.colours.most,
        ends: measures.colours.ends,
    };
    Cause { row, fact }
}

fn reading(measures: &Measures) -> Cause {
    match first_with_most(&measures.rows, |row| row.looks) {
        Some((row, of)) if of.looks > 0 => Cause {
            row: Some(row),
            fact: Fact::Looks {
                looks: of.looks,
                chunks: of.chunks,
            },
        },
        _ => Cause {
            row: None,
            fact: Fact::None,
        },
    }
}

/// The first row of the longest stretch without relief.
fn relief(work: &Work<'_>, measures: &Measures) -> (Option<Number>, Fact) {
    if measures.relief.stranded == 0 {
        return (None, Fact::None);
    }
    let (mut best, mut run) = ((0, 0), 0);
    for (index, row) in measures.rows.iter().enumerate() {
        run = if row.colours > 1 { run + 1 } else { 0 };
        if run > best.0 {
            best = (run, index + 1 - run);
        }
    }
    let endless = work.cyclic && measures.relief.rows == 0;
    let fact = Fact::Stretch {
        rows: measures.relief.stretch,
        relief: measures.relief.rows,
        endless,
    };
    (Some(Number::of_index(best.1)), fact)
}
