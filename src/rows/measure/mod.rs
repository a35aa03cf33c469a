//! What a chart or lesson asks of the hands and eyes, as numbers.
//!
//! Measuring sees worked rows and tiles, a gauge and a limit, and nothing else: no sizes, no yarns, no words. That is
//! why one definition serves a bare chart and a whole lesson.

mod busyness;
mod colours;
mod complexity;
mod floats;
mod packed;
mod reading;
mod relief;
mod row;
mod thread;

pub use busyness::busyness;
pub use colours::{CARRIED_ROWS, ColourMeasures, Cut, cuts, is_cut};
pub use complexity::lempel_ziv;
pub use floats::{FloatMeasures, catches_needed, floats_in};
pub use reading::ReadingMeasures;
pub use relief::ReliefMeasures;
pub use row::{RowMeasures, YarnFloat};

use crate::rows::walk::Work;

/// All measures of a piece of work.
#[derive(Clone, Debug, PartialEq)]
pub struct Measures {
    /// Floats.
    pub floats: FloatMeasures,
    /// Colours.
    pub colours: ColourMeasures,
    /// Reading.
    pub reading: ReadingMeasures,
    /// Relief.
    pub relief: ReliefMeasures,
    /// How hard it looks, 0 to 100.
    pub busyness: f64,
    /// Row by row.
    pub rows: Vec<RowMeasures>,
}

/// Measures a piece of work.
#[must_use]
pub fn measure(work: &Work<'_>) -> Measures {
    if !work.craft.has_rows() {
        let (floats, colours, reading, rows) = thread::measure(work);
        return Measures {
            floats,
            colours,
            reading,
            relief: ReliefMeasures::default(),
            busyness: looks(work),
            rows,
        };
    }
    let mut rows = vec![RowMeasures::default(); work.rows.len()];
    let uses = colours::count(work, &mut rows);
    floats::find(work, &mut rows);
    reading::read(work, &mut rows);
    Measures {
        floats: floats::summarise(work, &rows),
        colours: colours::summarise(uses, &rows),
        reading: reading::summarise(&rows),
        relief: relief::summarise(work, &rows),
        busyness: looks(work),
        rows,
    }
}

/// How hard the busiest of its charts looks.
fn looks(work: &Work<'_>) -> f64 {
    work.tiles.iter().map(busyness).fold(0.0, f64::max)
}
