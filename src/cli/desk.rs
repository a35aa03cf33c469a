//! `desk`: the local page.

use std::process::{Command, Stdio};

use crate::cli::args::DeskArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::desk::{DeskOptions, open};

pub(super) fn run(args: &DeskArgs, screen: &mut Screen) -> Outcome {
    let options = DeskOptions {
        course: args.course.clone(),
        out: args.to.clone(),
        port: args.port,
        read_only: args.read_only,
    };
    let opened = open(&options, |link| {
        screen.say(link);
        screen.report("the desk is open as long as this runs; Ctrl-C closes it, nothing is lost");
        if !args.no_open && !in_browser(link) {
            screen.report("open the link above in a browser");
        }
    });
    match opened {
        Ok(()) => Outcome::Done,
        Err(error) => {
            screen.report(&format!("error: {error}"));
            Outcome::CouldNotRun
        }
    }
}

/// Opens a link in the browser of this computer; `false` where none is known.
fn in_browser(link: &str) -> bool {
    let (program, arguments): (&str, &[&str]) = match std::env::consts::OS {
        "macos" => ("open", &[]),
        "windows" => ("cmd", &["/c", "start", ""]),
        _ => ("xdg-open", &[]),
    };
    let silent = Command::new(program)
        .args(arguments)
        .arg(link)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    silent.is_ok()
}
