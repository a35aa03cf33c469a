//! What needs nothing: bounds on size, units and the rounding rule, colours, small statistics, faults, words of variants,
//! quoted text.

pub mod bounds;

pub mod units;

pub mod colour;

pub mod statistics;

pub mod fault;

pub mod named;

pub mod quoted;
