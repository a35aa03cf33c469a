//! Facts to sentences: everything a person reads that does not stand in a template is formed here, so that outputs
//! cannot disagree, words that differ by country come from one place, and another language would be another room.
//!
//! Sentences for documents are Markdown of one paragraph, in which names stand as [`literal`] text.

mod causes;
mod cautions;
mod charts;
mod cloth;
mod contrast;
mod craft;
mod desk;
mod fitted;
mod front;
mod home;
pub mod labels;
mod largest;
mod lengths;
mod literal;
mod longest;
mod measured;
mod meeting;
mod news;
mod next;
mod numbers;
mod pairs;
pub mod pictures;
mod practice;
mod remedies;
mod rows;
mod sizes;
mod skills;
mod spread;
mod steps;
mod swatch;
mod teaching;
pub mod template;
mod terms;
mod tools;
mod traced;
mod why;

pub use causes::{PartWords, cause_text, gap_cause, lower_text, part_name, part_title, part_words};
pub use cautions::cautions;
pub use charts::{
    Catching, UPSIDE_DOWN, catching, chart_alt, reading, rights_text, trap_tag, trap_words,
    work_over_words,
};
pub use cloth::OnCloth;
pub use contrast::{clash_help, clash_sentences, clash_text};
pub use craft::{CraftWords, Leans, Verbs};
pub use desk::{catch_proposal, made_of_title, rest_proposal, shorter_proposal, swatch_hat_text};
pub use fitted::{
    at_your_gauge, fit_heads, fits_text, fits_whom, next_needle_text, own_gauge_text,
    reach_gauge_text,
};
pub use front::{
    checks, count_name, fabric_note, hours_range, lead, next_lesson, patterned, task_text,
};
pub use home::{HomeLoad, home_text, plan_text};
pub use largest::largest_step_words;
pub use lengths::{
    gauge_text, length_number, length_text, needle_text, range_number, round_text, short_text,
    stitches_text, unit_name, yarn_text,
};
pub use literal::literal;
pub use longest::{LongestFloat, longest};
pub use measured::{measured_name, part_of_piece};
pub use meeting::{Begun, meeting_own, stops_in};
pub use news::{NewThing, new_intro, new_things};
pub use next::{aim_text, reasons, thing_name};
pub use numbers::{capital, count, join_and, join_titles, list_and, number_word, ordinal, small};
pub use pairs::{CLEARLY, Contender, Looks, Verdict, looks_text, side_measures, verdict};
pub use practice::{
    alike_help, alike_text, far_edge_help, far_edge_text, shared_label, thumb_text, too_deep_help,
    too_deep_text, wrong_side_text,
};
pub use remedies::{made_over_id, remedy_commands, remedy_text};
pub use rows::{RowNames, mark_name, passes_words, row_words};
pub use sizes::{
    abbreviations, between_sizes, lacking_size, size_notes, without_counts, without_name,
};
pub use skills::{technique_title, technique_titles};
pub use spread::{as_a_whole, round_words, spread_words};
pub(crate) use steps::Author;
pub use steps::{Instruction, RoundTable, SizeTable, StripeLine};
pub use swatch::measure_first;
pub use teaching::{
    ClassReach, Doing, against_looks, ahead, before, behind, doing, goal, kit, rates, talk,
};
pub use terms::Wording;
pub use tools::{needle_kinds, tools};
pub use traced::{SOURCE_TO_FILL_IN, colour_role, refused_picture, titled, traced_remarks};
pub use why::why;
