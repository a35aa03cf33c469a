//! `judge`: the five weights from a teacher's judgements.

use serde::Serialize;

use crate::app::store;
use crate::app::{self, NewWeights};
use crate::cli::args::JudgeArgs;
use crate::cli::learner::unknown_entry;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::cli::table::Table;
use crate::course::{Part, Weights};
use crate::ground::fault::Fault;
use crate::ground::statistics::Judged;
use crate::ground::units::{plain_number, round_half_up};
use crate::read::{At, Change, EditError, Judgement, edited, read_file, read_pairs};
use crate::words::count;

pub(super) fn run(args: &JudgeArgs, screen: &mut Screen) -> Outcome {
    let loaded = match screen.load(&[&args.course]) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let Some(one) = loaded.first() else {
        return Outcome::CouldNotRun;
    };
    screen.faults(&one.faults, &one.sources);
    let mut outcome = if one.has_errors() {
        Outcome::Faults
    } else {
        Outcome::Done
    };
    let file = match read_pairs(&args.pairs) {
        Ok(file) => file,
        Err(error) => {
            screen.report(&format!("error: {error}"));
            return Outcome::CouldNotRun;
        }
    };
    let things = app::things(&loaded);
    let ids: Vec<&str> = things.iter().map(|thing| thing.id.as_str()).collect();
    let (judged, unknown) = resolve(&file.value, &ids);
    let mut faults = file.faults;
    faults.extend(unknown);
    screen.faults(&faults, &file.sources);
    if faults.iter().any(Fault::is_error) {
        outcome = Outcome::Faults;
    }
    let old = one.course.weights;
    let found = app::judge(&things, &judged, old).filter(|_| !judged.is_empty());
    let Some(found) = found else {
        screen.report("error: no judgement names two things that the course holds");
        return Outcome::CouldNotRun;
    };
    if args.json {
        screen.json(&report(&found, old.0), false);
    } else {
        show(&found, old.0, screen);
    }
    if args.write {
        return write(args, &found, outcome, screen);
    }
    outcome
}

/// Judgements by index, and a fault for each id that the course does not hold.
fn resolve(judgements: &[Judgement], ids: &[&str]) -> (Vec<Judged>, Vec<Fault>) {
    let (mut judged, mut faults) = (Vec::new(), Vec::new());
    for judgement in judgements {
        let mut find = |(id, place): &(String, crate::ground::fault::Span)| {
            let found = ids.iter().position(|known| known == id);
            if found.is_none() {
                faults.push(unknown_entry(id, *place, ids));
            }
            found
        };
        let (harder, easier) = (find(&judgement.harder), find(&judgement.easier));
        if let (Some(harder), Some(easier)) = (harder, easier) {
            judged.push(Judged {
                harder,
                easier,
                times: f64::from(judgement.times),
            });
        }
    }
    (judged, faults)
}

fn show(found: &NewWeights, old: [f64; 5], screen: &mut Screen) {
    let mut table = Table::new(&["part", ">now", ">from judgements"]);
    for part in Part::ALL {
        let i = part.index();
        table.row(vec![
            part.name().to_owned(),
            plain_number(old[i], 1),
            plain_number(found.weights.0[i], 1),
        ]);
    }
    screen.say(&table.text());
    let share = |value: f64| plain_number(100.0 * value, 0);
    screen.say(&format!(
        "\n{}: {} of 100 agree with the weights as they are, {} with the new ones",
        count(found.judgements, "judgement", "judgements"),
        share(found.before),
        share(found.after)
    ));
    screen.say(&format!(
        "told right when left out of the fit: {} of 100",
        share(found.left_out)
    ));
    if found.judgements < 10 {
        screen.say("few judgements move the weights little; twenty or more say something");
    }
}

fn write(args: &JudgeArgs, found: &NewWeights, outcome: Outcome, screen: &mut Screen) -> Outcome {
    let path = args.course.join("course.yaml");
    if outcome == Outcome::Faults {
        screen.report("the course has faults; course.yaml is left as it is");
        return Outcome::Faults;
    }
    let text = match read_file(&path, "course.yaml") {
        Ok(file) => file.text.unwrap_or_default(),
        Err(error) => {
            screen.report(&format!("error: {error}"));
            return Outcome::CouldNotRun;
        }
    };
    let new = match with_weights(text, found.weights) {
        Ok(new) => new,
        Err(error) => {
            screen.report(&format!("error: course.yaml is left as it is: {error}"));
            return Outcome::CouldNotRun;
        }
    };
    if let Err(error) = store::replace_file(&path, new.as_bytes()) {
        screen.report(&format!("error: {error}"));
        return Outcome::CouldNotRun;
    }
    screen.report(&format!("weights written to {}", path.display()));
    outcome
}

/// The text of a course.yaml with these weights; all else of it stays.
fn with_weights(text: String, weights: Weights) -> Result<String, EditError> {
    Part::ALL.into_iter().try_fold(text, |text, part| {
        let at = ["weights", part.name()].map(|key| At::Key(key.to_owned()));
        let number = plain_number(weights.0[part.index()], 1);
        edited(&text, &at, &Change::Text(number))
    })
}

#[derive(Serialize)]
struct JudgeReport {
    format: &'static str,
    judgements: usize,
    before: PartValues,
    after: PartValues,
    agreement_before: f64,
    agreement_after: f64,
    agreement_left_out: f64,
}

struct PartValues([f64; 5]);

impl Serialize for PartValues {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let each = Part::ALL.map(|part| (part.name(), round_half_up(self.0[part.index()], 1)));
        serializer.collect_map(each)
    }
}

fn report(found: &NewWeights, old: [f64; 5]) -> JudgeReport {
    JudgeReport {
        format: "yokeward/judge/1",
        judgements: found.judgements,
        before: PartValues(old),
        after: PartValues(found.weights.0),
        agreement_before: round_half_up(found.before, 4),
        agreement_after: round_half_up(found.after, 4),
        agreement_left_out: round_half_up(found.left_out, 4),
    }
}
