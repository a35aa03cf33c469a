//! A course with its lessons assessed and put in order.

use crate::course::Course;
use crate::path::order::{Candidate, Order, order};
use crate::study::Studied;

/// A course with every lesson assessed and put in order.
#[derive(Debug)]
pub struct StudiedCourse<'a> {
    /// The course.
    pub course: &'a Course,
    /// Its lessons' assessments, in the order of `course.lessons`.
    pub lessons: Vec<Studied<'a>>,
    /// The order; its indices are those of `course.lessons`.
    pub order: Order,
}

/// Orders assessed lessons.
#[must_use]
pub fn in_order<'a>(course: &'a Course, lessons: Vec<Studied<'a>>) -> StudiedCourse<'a> {
    let candidates: Vec<Candidate<'_>> = course
        .lessons
        .iter()
        .zip(&lessons)
        .map(|(lesson, assessed)| Candidate {
            id: &lesson.id,
            grade: assessed.grade.grade,
            demand: &assessed.demand,
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
