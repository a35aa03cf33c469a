//! The desk on the loopback: who may ask what, and how much. The one room that names the web crates.

mod asked;
mod door;
mod files;
mod guard;
mod layers;
mod lessons;
mod people;
mod queries;
mod reply;
mod routes;
mod serve;
mod shared;
mod uploads;

pub(super) use serve::serve;
