//! The JSON of `measure`, `grade` and `order`. Numbers are rounded here, when written, and nowhere before.

mod compared;
mod fit;
mod formats;
mod grades;
mod measures;
mod next;
mod orders;
mod tamed;
mod traced;

pub use compared::CompareReport;
pub use fit::{FinishedEntry, FitReport, LessonFit};
pub use formats::{FORMATS, schema};
pub use grades::{GradeEntry, GradeReport, cause_entries};
pub use measures::{Entry, MeasureReport, entry};
pub use next::{NextReport, RouteReport};
pub use orders::OrderReport;
pub use tamed::TameReport;
pub use traced::TraceReport;

use serde::Serializer;

use crate::course::Part;
use crate::ground::units::round_half_up;

/// Grade, points, busyness, step: one decimal.
fn tenth<S: Serializer>(value: &f64, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_f64(round_half_up(*value, 1))
}

/// Every other fraction: four decimals.
fn fraction<S: Serializer>(value: &f64, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_f64(round_half_up(*value, 4))
}

/// The five parts by name, in their order.
#[derive(Clone, Copy, Debug)]
struct Parts {
    values: [f64; 5],
    digits: u32,
}

impl serde::Serialize for Parts {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(
            Part::ALL.map(|p| (p.name(), round_half_up(self.values[p.index()], self.digits))),
        )
    }
}
