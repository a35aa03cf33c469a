//! Joins the steps for the commands; with the pack and the tracing of grids, the one place that uses threads.

mod compare;
mod judge;
mod measure;
mod pack;
mod practice;
mod proof;
pub mod store;
mod stream;
mod study;
mod template_fault;
mod things;
mod traced;

pub use compare::{Compared, compare, compared_sheet};
pub use judge::{NewWeights, judge};
pub use measure::{before_and_after, measure};
pub use pack::{PackOptions, grade, handout_page, order, pack, pack_studied, pages};
pub use proof::{late_faults, proof_texts};
pub use stream::{Streamed, measure_stream};
pub use study::{BareOptions, study_chart, study_course};
pub use things::{gap_remedies, route, spare_charts, things};
pub use traced::{chart_picture, shown_colour, traced_chart};
