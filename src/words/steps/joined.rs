//! Steps that are told with others: what ends the rounds beneath it, and parts that are worked twice.

use crate::piece::{PartName, Stage, StageKind};
use crate::words::labels;
use crate::words::steps::told::Instruction;

/// Of a part that is worked twice: from which step to which.
pub(super) fn say_twice(steps: &mut [Instruction], first: usize, part: PartName) {
    let last = steps.len();
    let Some(step) = steps.get_mut(first) else {
        return;
    };
    let which = match last - first {
        1 => format!("step {last}"),
        _ => format!("steps {} to {last}", first + 1),
    };
    let each = match part {
        PartName::Hand | PartName::Thumb => "hand",
        _ => "side",
    };
    // Boxes to tick off stand there once.
    let boxes = match part {
        PartName::Thumb => "",
        _ => ": in the boxes a stroke the first time, a cross the second",
    };
    step.text = format!(
        "Work {which} twice, once for each {each}{boxes}. {}",
        step.text
    );
}

/// Whether a stage ends the rounds that were told last: then it is told with them.
pub(super) fn ends(stages: &[Stage], told: usize, index: usize) -> bool {
    let kind = |at: usize| stages.get(at).map(|stage| &stage.kind);
    let kinds = (kind(told), kind(index));
    matches!(
        kinds,
        (Some(StageKind::CastOn), Some(StageKind::Rib(_)))
            | (
                Some(StageKind::Plain(..)),
                Some(StageKind::Change(_) | StageKind::Rounds(_))
            )
            | (Some(StageKind::Rounds(_)), Some(StageKind::DrawUp))
            | (
                Some(StageKind::Rib(_) | StageKind::Plain(..)),
                Some(StageKind::CastOff)
            )
    )
}

/// Tells what ends the rounds of a step in the step itself.
pub(super) fn end_with(step: &mut Instruction, end: Instruction) {
    step.text = format!("{} {}", step.text, end.text);
    step.boxes += end.boxes;
    // A crown stays a crown.
    if step.title == labels::PLAIN {
        step.title = end.title;
    } else if step.title == labels::RIB && end.title == labels::EDGE {
        step.title = labels::RIB_AND_EDGE.to_owned();
    }
}
