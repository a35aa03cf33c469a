//! `trace`: a chart from its picture; `--back`: a picture of a chart.

use std::path::{Path, PathBuf};

use crate::app::{chart_picture, store, traced_chart};
use crate::cli::args::TraceArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::course::chart::to_yaml;
use crate::read::read_picture;
use crate::report::TraceReport;
use crate::trace::{Options, check, trace};
use crate::words::{refused_picture, traced_remarks};

pub(super) fn run(args: &TraceArgs, screen: &mut Screen) -> Outcome {
    if args.back {
        return back(args, screen);
    }
    if args.to.is_some() && args.to == args.check {
        screen.report("error: --to and --check name the same file");
        return Outcome::CouldNotRun;
    }
    let shown = args.picture.display().to_string();
    let bytes = match read_picture(&args.picture) {
        Ok(bytes) => bytes,
        Err(error) => {
            screen.report(&format!("error: {error}"));
            return Outcome::CouldNotRun;
        }
    };
    let options = Options {
        corners: args.corners,
        size: args
            .stitches
            .zip(args.rows)
            .map(|(w, h)| (usize::from(w), usize::from(h))),
        colours: args.colours.map(usize::from),
    };
    let read = trace(&bytes, &options).and_then(|traced| {
        let check = args
            .check
            .as_ref()
            .map(|_| check(&bytes, &traced))
            .transpose()?;
        Ok((traced, check))
    });
    let (traced, checked) = match read {
        Ok(read) => read,
        Err(refusal) => {
            let (what, help) = refused_picture(&shown, &refusal);
            screen.report(&format!("error: {what}"));
            screen.report(&format!("  help: {help}"));
            return Outcome::Faults;
        }
    };
    let to = args
        .to
        .clone()
        .or_else(|| (!args.json).then(|| beside(&args.picture, "yaml")));
    let id = stem(to.as_deref().unwrap_or(&args.picture));
    let chart = traced_chart(&traced, &id);
    let remarks = traced_remarks(&traced, &chart, &name(&args.picture));
    let mut files: Vec<(PathBuf, Vec<u8>)> = Vec::new();
    files.extend(to.map(|to| (to, to_yaml(&chart, &remarks).into_bytes())));
    files.extend(args.check.clone().zip(checked));
    if let Err(error) = store::write_new_files(&files) {
        screen.report(&format!("error: {error}"));
        return Outcome::CouldNotRun;
    }
    if args.json {
        screen.json(&TraceReport::new(&traced), false);
    } else {
        remarks.iter().for_each(|remark| screen.say(remark));
    }
    for (path, _) in &files {
        screen.report(&format!("written: {}", path.display()));
    }
    Outcome::Done
}

/// A chart file as a picture, one pixel a cell.
fn back(args: &TraceArgs, screen: &mut Screen) -> Outcome {
    let chart = match screen.chart(&args.picture, "trace --back") {
        Ok((_, chart)) => chart,
        Err(outcome) => return outcome,
    };
    let Some(picture) = chart_picture(&chart) else {
        screen.report(&format!(
            "error: {} has more than twelve colours",
            args.picture.display()
        ));
        return Outcome::Faults;
    };
    let to = args
        .to
        .clone()
        .unwrap_or_else(|| beside(&args.picture, "png"));
    if let Err(error) = store::write_new_files(&[(to.clone(), picture)]) {
        screen.report(&format!("error: {error}"));
        return Outcome::CouldNotRun;
    }
    screen.report(&format!("written: {}", to.display()));
    Outcome::Done
}

/// A file in the current folder, named as this one but for its ending.
fn beside(path: &Path, ending: &str) -> PathBuf {
    PathBuf::from(format!("{}.{ending}", stem(path)))
}

/// The name of a file without its ending, in small letters, figures and dashes.
fn stem(path: &Path) -> String {
    let stem = path
        .file_stem()
        .map(|stem| stem.to_string_lossy().to_lowercase());
    let kept = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    let id: String = stem.unwrap_or_default().chars().map(kept).collect();
    let id = id.trim_matches('-');
    if id.is_empty() {
        "chart".to_owned()
    } else {
        id.to_owned()
    }
}

fn name(path: &Path) -> String {
    path.file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default()
}
