//! Talks to people: one small file a command. The only place that prints.

mod args;
mod begin;
mod compare;
mod desk;
mod explain;
mod fit;
mod grade;
mod judge;
mod learner;
mod measure;
mod next;
mod order;
mod outcome;
mod pack;
mod proof;
mod record;
mod route;
mod screen;
mod table;
mod tame;
mod trace;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::{CommandFactory, Parser};

use crate::cli::args::{Cli, Command};
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::read::Links;
use crate::report;

/// Runs the program with these arguments and returns its exit code.
pub fn run(arguments: impl Iterator<Item = OsString>) -> ExitCode {
    let cli = match Cli::try_parse_from(arguments) {
        Ok(cli) => cli,
        Err(error) => {
            // Help and version go to stdout with code 0, wrong usage to stderr with code 2.
            let code = if error.use_stderr() {
                Outcome::CouldNotRun
            } else {
                Outcome::Done
            };
            let text = error.to_string();
            if text.contains(|c: char| c.is_control() && c != '\n') {
                Screen::new(Links::Inside).report(&text);
            } else {
                let _ = error.print();
            }
            return code.into();
        }
    };
    let links = if cli.links_out {
        Links::Anywhere
    } else {
        Links::Inside
    };
    let mut screen = Screen::new(links);
    let outcome = match cli.command {
        Command::Begin(args) => begin::run(&args, &mut screen),
        Command::Proof(args) => proof::run(&args, &mut screen),
        Command::Measure(args) => measure::run(&args, &mut screen),
        Command::Grade(args) => grade::run(&args, &mut screen),
        Command::Order(args) => order::run(&args, &mut screen),
        Command::Compare(args) => compare::run(&args, &mut screen),
        Command::Tame(args) => tame::run(&args, &mut screen),
        Command::Trace(args) => trace::run(&args, &mut screen),
        Command::Next(args) => next::run(&args, &mut screen),
        Command::Record(args) => record::run(&args, &mut screen),
        Command::Route(args) => route::run(&args, &mut screen),
        Command::Judge(args) => judge::run(&args, &mut screen),
        Command::Fit(args) => fit::run(&args, &mut screen),
        Command::Pack(args) => pack::run(&args, &mut screen),
        Command::Desk(args) => desk::run(&args, &mut screen),
        Command::Explain(args) => explain::run(&args, &mut screen),
        Command::Schema(args) => {
            match args.of.and_then(|name| report::schema(&name)) {
                Some(schema) => screen.say_as_is(schema.trim_end()),
                None => screen.json(&crate::read::schema(), true),
            }
            Outcome::Done
        }
        Command::Notices => {
            screen.say(include_str!("../../templates/notices.txt").trim_end());
            Outcome::Done
        }
        Command::Completions(args) => {
            let mut script = Vec::new();
            clap_complete::generate(args.shell, &mut Cli::command(), "yokeward", &mut script);
            screen.say_as_is(String::from_utf8_lossy(&script).trim_end());
            Outcome::Done
        }
    };
    screen.end(outcome).into()
}
