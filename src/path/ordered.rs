//! A course with its lessons studied and put in order.

use crate::course::Course;
use crate::path::order::{Candidate, Order, order};
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
