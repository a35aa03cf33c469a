//! Parses the arguments, runs the command, returns its exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    yokeward::cli::run(std::env::args_os())
}
