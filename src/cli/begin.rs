//! `begin`: a small course to change, laid out in a new folder.

use std::collections::BTreeMap;

use crate::app::store;
use crate::cli::args::BeginArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;

/// The files of a first course.
const FIRST_COURSE: &[(&str, &str)] = &[
    (
        "course.yaml",
        include_str!("../../templates/begin/course.yaml"),
    ),
    (
        "01-first-stripes.yaml",
        include_str!("../../templates/begin/01-first-stripes.yaml"),
    ),
    (
        "02-sandgrain-headband.yaml",
        include_str!("../../templates/begin/02-sandgrain-headband.yaml"),
    ),
    (
        "charts/sandgrain.yaml",
        include_str!("../../templates/begin/charts/sandgrain.yaml"),
    ),
];

pub(super) fn run(args: &BeginArgs, screen: &mut Screen) -> Outcome {
    let files: BTreeMap<String, Vec<u8>> = FIRST_COURSE
        .iter()
        .map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec()))
        .collect();
    match store::write_new(&args.dir, &files) {
        Ok(()) => {
            for name in files.keys() {
                screen.say(&format!("{}/{name}", args.dir.display()));
            }
            screen.report(&format!("now: yokeward pack {}", args.dir.display()));
            Outcome::Done
        }
        Err(error) => {
            screen.report(&format!("error: {error}"));
            Outcome::CouldNotRun
        }
    }
}
