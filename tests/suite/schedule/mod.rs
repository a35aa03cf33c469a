//! The number engine of schedules by itself: published yokes, even decreases, counts at random.

mod counts;
mod properties;
mod yoke;
mod yokes_at_random;
