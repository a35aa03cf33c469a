//! Things to choose from, measured on all cores.

use rayon::prelude::*;

use crate::app::study::{BareOptions, study_chart};
use crate::course::Weights;
use crate::path::StudiedCourse;
use crate::path::learner::History;
use crate::path::library::{Thing, ThingKind, charts_in_use};
use crate::path::remedies::{Found, remedies};
use crate::path::{self, Map, Route, Stop};
use crate::read::Loaded;
use crate::study::{self};

/// All that the paths name: lessons and charts of folders by id, files by themselves.
#[must_use]
pub fn things(loaded: &[Loaded]) -> Vec<Thing> {
    let mut all = Vec::new();
    for one in loaded {
        let course = &one.course;
        let lessons: Vec<_> = one.wanted_lessons().collect();
        all.par_extend(lessons.into_par_iter().map(|lesson| {
            let studied = study::lesson(lesson, course);
            Thing::lesson(lesson, &studied, course)
        }));
        let charts: Vec<_> = one.wanted_charts().collect();
        all.par_extend(charts.into_par_iter().map(|chart| {
            let studied = study_chart(chart, BareOptions::default(), course);
            Thing::chart(chart, &studied, course)
        }));
    }
    all
}

/// Charts of the course that no lesson of it uses.
#[must_use]
pub fn spare_charts(studied: &StudiedCourse<'_>) -> Vec<Thing> {
    let course = studied.course;
    let used = charts_in_use(course);
    let spare = course
        .charts
        .iter()
        .filter(|(id, _)| !used.contains(id.as_str()));
    spare
        .map(|(_, chart)| {
            let studied = study_chart(chart, BareOptions::default(), course);
            Thing::chart(chart, &studied, course)
        })
        .collect()
}

/// The remedies of each gap of the order, from these things and the course's own spare charts.
#[must_use]
pub fn gap_remedies(studied: &StudiedCourse<'_>, library: &[Thing]) -> Vec<Found> {
    if studied.order.gaps.is_empty() {
        return Vec::new();
    }
    let mut all = spare_charts(studied);
    all.extend(library.iter().cloned());
    let gaps = &studied.order.gaps;
    gaps.par_iter()
        .map(|gap| remedies(studied, gap, &all))
        .collect()
}

/// The gentlest way from a past to the thing `goal` through the lessons of a library; its stops are indices of
/// `things`. `None` when the goal can never be open.
#[must_use]
pub fn route(
    things: &[Thing],
    past: &History,
    goal: usize,
    weights: Weights,
) -> Option<(Route, f64)> {
    let chosen: Vec<usize> = (0..things.len())
        .filter(|&i| i == goal || things.get(i).is_some_and(|t| t.kind == ThingKind::Lesson))
        .collect();
    let stops: Vec<Stop<'_>> = chosen
        .iter()
        .filter_map(|&i| things.get(i))
        .map(|thing| {
            let needs = chosen.iter().enumerate().filter(|(_, other)| {
                things
                    .get(**other)
                    .is_some_and(|o| o.course == thing.course && thing.needs.contains(&o.id))
            });
            Stop {
                demand: &thing.demand,
                needs: needs.map(|(place, _)| place).collect(),
            }
        })
        .collect();
    let done: Vec<bool> = chosen.iter().map(|i| past.done.contains(i)).collect();
    let map = Map::new(&stops, &past.state, &done, weights);
    let goal = chosen.iter().position(|i| *i == goal)?;
    let (found, largest) = path::route(&map, goal)?;
    let back = |stop: &usize| chosen.get(*stop).copied();
    let stops = found.stops.iter().filter_map(back).collect();
    Some((Route { stops, ..found }, largest))
}
