//! A course with its lessons studied and put in order.

use crate::course::Course;
use crate::path::order::{Candidate, Order, order};
use crate::piece::time::Hours;
use crate::study::Studied;

/// A course with every lesson studied and put in order.
#[derive(Debug)]
pub struct StudiedCourse<'a> {
    /// The course.
    pub course: &'a Course,
    /// Its lessons, studied, in the order of `course.lessons`.
    pub lessons: Vec<Studied<'a>>,
    /// The order; its indices are those of `course.lessons`.
    pub order: Order,
}

/// Orders studied lessons.
#[must_use]
pub fn in_order<'a>(course: &'a Course, lessons: Vec<Studied<'a>>) -> StudiedCourse<'a> {
    let candidates: Vec<Candidate<'_>> = course
        .lessons
        .iter()
        .zip(&lessons)
        .map(|(lesson, studied)| Candidate {
            id: &lesson.id,
            grade: studied.grade.grade,
            demand: &studied.demand,
            needs: &lesson.needs,
        })
        .collect();
    let order = order(&candidates, course.weights, course.budget);
    StudiedCourse {
        course,
        lessons,
        order,
    }
}

/// A piece so many times as large as the largest so far is by far the largest yet. Our choice.
const BY_FAR: f64 = 3.0;

/// How large the task of a lesson is, beside its step, which it does not change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Task {
    /// Hours of a learner at the middle size.
    pub hours: Hours,
    /// Whether it takes more than three times as long as anything before it.
    pub by_far_the_largest: bool,
}

impl StudiedCourse<'_> {
    /// The tasks of the lessons in their order.
    #[must_use]
    pub fn tasks(&self) -> Vec<Task> {
        let mut most = 0.0_f64;
        let each = self.order.placed.iter().map(|placed| {
            let studied = self.lessons.get(placed.index);
            let hours = studied.map_or_else(Hours::default, |s| s.made().stitches.in_class());
            let by_far_the_largest = most > 0.0 && hours.usual() > BY_FAR * most;
            most = most.max(hours.usual());
            Task {
                hours,
                by_far_the_largest,
            }
        });
        each.collect()
    }
}
