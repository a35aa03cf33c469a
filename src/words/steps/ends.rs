//! How a piece ends: its edge, its yarn ends, its bath.

use crate::course::body::Makes;
use crate::piece::StageKind;
use crate::words::capital;
use crate::words::steps::author::Author;
use crate::words::steps::told::Instruction;

impl Author<'_> {
    /// Whether a part ends in rib.
    fn ends_in_rib(&self, part: usize) -> bool {
        let part = self.pieces.first().and_then(|piece| piece.parts.get(part));
        let mut stages = part.into_iter().flat_map(|part| &part.stages);
        let last = stages.rfind(|stage| stage.rounds > 0);
        last.is_some_and(|stage| matches!(stage.kind, StageKind::Rib(_)))
    }

    /// How the last stitches of a part are finished.
    pub(super) fn edge(&self, part: usize) -> String {
        let lesson = self.lesson;
        if let Some(edge) = self.says().edge() {
            return edge.to_owned();
        }
        let cast_off = match self.ends_in_rib(part) {
            true => format!("{} in rib,", self.wording.cast_off()),
            false => self.wording.cast_off().to_owned(),
        };
        match lesson.makes {
            Makes::Yoke => format!(
                "Thread the stitches on waste yarn, pull the neck over the head it is for, and only then {cast_off} loosely. Graft the underarms."
            ),
            Makes::Swatch => format!("{} loosely.", capital(&cast_off)),
            Makes::Mitts | Makes::Mittens if part > 0 => format!(
                "{} loosely: this edge must pass the thumb’s knuckle.",
                capital(&cast_off)
            ),
            _ => format!(
                "{} loosely: this edge must stretch as far as the first.",
                capital(&cast_off)
            ),
        }
    }

    /// What is done with the whole piece.
    pub(super) fn finish(&self) -> Instruction {
        let ends = self.studied.measures.colours.ends;
        let colour = self.wording.colour();
        let ends = if ends > 2 {
            let each = match self.lesson.makes {
                Makes::Mitts | Makes::Mittens => " of each",
                _ => "",
            };
            format!(
                "Weave in the ends: {ends} in the {colour}work{each}, its first and last among them. "
            )
        } else {
            "Weave in the ends. ".to_owned()
        };
        let dry = self.says().dry(self.lesson.makes);
        let text = format!("{ends}Soak for 20 minutes, press in a towel, {dry}. Then measure.");
        Instruction::new("Finish", text)
    }
}
