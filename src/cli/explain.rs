//! `explain`: why a fault matters and how to mend it.

use crate::cli::args::ExplainArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::cli::table::Table;
use crate::ground::fault::{Code, Severity, explanation, nearest};

pub(super) fn run(args: &ExplainArgs, screen: &mut Screen) -> Outcome {
    let Some(name) = &args.code else {
        let mut table = Table::new(&["code", "kind", "what"]);
        for code in Code::ALL {
            let kind = if code.severity() == Severity::Error {
                "error"
            } else {
                "warning"
            };
            let what = explanation(*code)
                .lines()
                .next()
                .unwrap_or_default()
                .to_owned();
            table.row(vec![code.name().to_owned(), kind.to_owned(), what]);
        }
        screen.say(&table.text());
        return Outcome::Done;
    };
    match Code::from_name(name) {
        Some(code) => {
            screen.say(&format!("{}\n\n{}", code.name(), explanation(code)));
            Outcome::Done
        }
        None => {
            let near = nearest(name, Code::ALL.iter().map(|code| code.name()));
            let hint = near.map_or_else(
                || "`yokeward explain` lists them all".to_owned(),
                |near| format!("did you mean `{near}`?"),
            );
            screen.report(&format!("error: there is no fault called `{name}`; {hint}"));
            Outcome::CouldNotRun
        }
    }
}
