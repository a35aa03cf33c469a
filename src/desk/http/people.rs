//! A class and its learners: which is harder, the register, logs, ways, fits.

use serde::Deserialize;

use crate::desk::answer;
use crate::desk::http::asked::{Asked, id};
use crate::desk::http::queries::{FitQuery, Goal, Pair};
use crate::desk::http::reply::{self, Done};

pub(super) fn class(asked: &Asked) -> Done {
    let pair: Pair = asked.query()?;
    let answer = answer::contest(&asked.desk, id(&pair.a)?, id(&pair.b)?)?;
    Ok(reply::json(&answer))
}

pub(super) fn register(asked: &Asked) -> Done {
    Ok(reply::json(&answer::register(&asked.desk)?))
}

pub(super) fn register_keep(asked: &Asked) -> Done {
    let kept = answer::keep_register(&asked.desk, &asked.sent()?)?;
    Ok(reply::json(&kept))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct NewPerson {
    id: String,
    name: String,
}

pub(super) fn person_new(asked: &Asked) -> Done {
    let new: NewPerson = asked.sent()?;
    Ok(reply::json(&answer::new_person(
        &asked.desk,
        &new.id,
        &new.name,
    )?))
}

pub(super) fn person(asked: &Asked) -> Done {
    Ok(reply::json(&answer::person(&asked.desk, asked.id(0)?)?))
}

pub(super) fn record(asked: &Asked) -> Done {
    let answer = answer::record(&asked.desk, asked.id(0)?, &asked.sent()?)?;
    Ok(reply::json(&answer))
}

pub(super) fn way(asked: &Asked) -> Done {
    let goal: Goal = asked.query()?;
    let answer = answer::way(&asked.desk, asked.id(0)?, id(&goal.to)?)?;
    Ok(reply::json(&answer))
}

pub(super) fn fit(asked: &Asked) -> Done {
    let query: FitQuery = asked.query()?;
    let (gauge, finished) = query.checked()?;
    let answer = answer::fit(&asked.desk, asked.id(0)?, gauge, finished)?;
    Ok(reply::json(&answer))
}
