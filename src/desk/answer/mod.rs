//! What the desk answers: facts of the engine as JSON, described in `templates/desk/types.d.ts`. Nothing is reckoned here.

mod along;
mod beside;
mod chart;
mod contest;
mod file;
mod fit;
mod kinder;
mod lesson;
mod making;
mod measured;
mod person;
mod pictures;
mod register;
mod traced;

pub(super) use along::{along, gaps, keep, take};
pub(super) use beside::people;
pub(super) use contest::contest;
pub(super) use file::file;
pub(super) use fit::{Finished, fit};
pub(super) use kinder::kinder;
pub(super) use making::{make, making};
pub(super) use person::{new_person, person, record, way};
pub(super) use pictures::{Printed, fabric, handout, piece};
pub(super) use register::{keep_register, register};
pub(super) use traced::{Wishes, pasted, traced};
