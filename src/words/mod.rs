//! Facts to sentences: all maker-facing wording that is formed in Rust, so that outputs cannot disagree.

mod causes;
mod contrast;
mod lengths;
mod literal;
mod measured;
mod next;
mod remedies;
mod rows;
mod spread;
mod terms;

pub use causes::{PartWords, cause_text, gap_cause, lower_text, part_title, part_words};
pub use contrast::{clash_help, clash_text};
pub use lengths::{length_number, length_text, needle_text, range_number, unit_name};
pub use literal::literal;
pub use measured::{measured_name, part_of_piece};
pub use next::{aim_text, reasons, thing_name};
pub use remedies::{remedy_commands, remedy_text};
pub use rows::{RowNames, row_words};
pub use spread::{round_words, short_verbs, spread_words};
pub use terms::{
    Wording, count, join_and, join_titles, list_and, number_word, technique_title, technique_titles,
};
