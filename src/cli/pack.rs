//! `pack`: the whole set of handouts, built in memory and swapped in at once.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use crate::app::store;
use crate::app::{self, PackOptions};
use crate::cli::args::PackArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::course::{Course, Paper};
use crate::course::{Hand, PrintedSizes, Printer, TypeSize};
use crate::ground::fault::Fault;
use crate::handout::Print;
use crate::words::{count, join_and};

pub(super) fn run(args: &PackArgs, screen: &mut Screen) -> Outcome {
    let loaded = match screen.load(&[&args.course]) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let Some(one) = loaded.first() else {
        return Outcome::CouldNotRun;
    };
    let studied = app::study_course(&one.course);
    let mut faults = one.faults.clone();
    faults.extend(app::late_faults(one, &studied));
    screen.faults(&faults, &one.sources);
    if faults.iter().any(Fault::is_error) {
        screen.report("nothing was written; the old set is as it was");
        return Outcome::Faults;
    }
    let library = match screen.load(&args.library) {
        Ok(library) => library,
        Err(outcome) => return outcome,
    };
    let options = wishes(args);
    if let Some(size) = &args.size
        && !has_size(&one.course, size, screen)
    {
        return Outcome::CouldNotRun;
    }
    if args.for_all && one.course.learners.is_empty() {
        screen.report("error: the course names no learners");
        screen.report(
            "  help: write `learners: [{ name: Wren, size: adult-small }]` under `sessions` in course.yaml",
        );
        return Outcome::CouldNotRun;
    }
    let learners = if args.for_all {
        one.course.learners.len()
    } else {
        0
    };
    let (done, all) = (AtomicUsize::new(0), one.course.lessons.len() + learners);
    let watched = Mutex::new(screen);
    let files = app::pack_studied(one, &studied, &library, options, &|title| {
        let n = done.fetch_add(1, Ordering::Relaxed) + 1;
        if let Ok(mut screen) = watched.lock() {
            screen.progress(&format!("{n} of {all}: {title}"));
        }
    });
    let screen = match watched.into_inner() {
        Ok(screen) => screen,
        Err(poisoned) => poisoned.into_inner(),
    };
    screen.progress("");
    let files = match files {
        Ok(files) => files,
        Err(fault) => {
            screen.faults(&[*fault], &one.sources);
            screen.report("nothing was written; the old set is as it was");
            return Outcome::Faults;
        }
    };
    let watched = Mutex::new(screen);
    let stored = store::replace_set(&args.to, &one.course.id, &files, &|| {
        if let Ok(mut screen) = watched.lock() {
            screen.report("another run writes this set; waiting for it");
        }
    });
    let screen = match watched.into_inner() {
        Ok(screen) => screen,
        Err(poisoned) => poisoned.into_inner(),
    };
    match stored {
        Ok(replaced) => {
            let folder = args.to.join(&one.course.id);
            for name in files.keys().filter(|name| !name.ends_with(".svg")) {
                screen.say(&format!("{}/{name}", folder.display()));
            }
            for name in &replaced.kept {
                screen.report(&format!("kept your own {name}"));
            }
            for (name, yours) in &replaced.changed {
                screen.report(&format!("you had changed {name}; yours is now {yours}"));
            }
            let size: usize = files.values().map(Vec::len).sum();
            let files = count(files.len(), "file", "files");
            screen.report(&format!(
                "{files}, {} kB, in {}",
                size / 1000,
                folder.display()
            ));
            Outcome::Done
        }
        Err(error) => {
            screen.report(&format!("error: {error}"));
            Outcome::CouldNotRun
        }
    }
}

/// Whether any lesson has this size; says which ones there are if none has.
fn has_size(course: &Course, wanted: &str, screen: &mut Screen) -> bool {
    let mut known: Vec<&str> = Vec::new();
    for size in course.lessons.iter().flat_map(|lesson| &lesson.sizes) {
        if !known.contains(&size.id.as_str()) {
            known.push(&size.id);
        }
    }
    if known.contains(&wanted) {
        return true;
    }
    screen.report(&format!("error: no lesson has the size `{wanted}`"));
    screen.report(&format!(
        "  help: the sizes of this course are {}",
        join_and(&known)
    ));
    false
}

/// What is asked for, beyond the course.
fn wishes(args: &PackArgs) -> PackOptions {
    let paper = args.paper.as_deref().map(|paper| {
        if paper == "letter" {
            Paper::Letter
        } else {
            Paper::A4
        }
    });
    PackOptions {
        paper,
        booklet: args.booklet,
        for_all: args.for_all,
        print: Print {
            ink: if args.black {
                Printer::Black
            } else {
                Printer::Colours
            },
            type_size: if args.large {
                TypeSize::Large
            } else {
                TypeSize::Ordinary
            },
            hand: if args.left_handed {
                Hand::Left
            } else {
                Hand::Right
            },
            sizes: match args.size.clone() {
                None => PrintedSizes::All,
                Some(size) if args.alone => PrintedSizes::Only(size),
                Some(size) => PrintedSizes::Marked(size),
            },
            // Packing knows of booklets.
            ..Print::default()
        },
    }
}
