//! `weigh`: the five weights from a teacher's judgements.

use serde::Serialize;

use crate::cli::Outcome;
use crate::cli::args::WeighArgs;
use crate::cli::learner::unknown_entry;
use crate::cli::screen::Screen;
use crate::cli::table::Table;
use crate::fault::Fault;
use crate::fit::{self, Judged};
use crate::lesson::Part;
use crate::pipeline;
use crate::read::{read_pairs, set_weights};
use crate::store;
use crate::units::{plain_number, round_half_up};
use crate::words::count;
