//! The desk's pages, from the binary.

use crate::page::pdf::FONTS;

/// A file of the desk's pages: its address below `/desk/`, its kind, its bytes.
pub(super) struct Asset {
    pub path: &'static str,
    pub kind: &'static str,
    pub bytes: &'static [u8],
}

/// The page that everything stands on.
pub(super) const INDEX: &str = include_str!("../../templates/desk/index.html");

const SCRIPT: &str = "text/javascript; charset=utf-8";
const STYLE: &str = "text/css; charset=utf-8";
const FONT: &str = "font/ttf";
/// Fonts lie in the program once, for pages and for paper.
const FONT_FOLDER: &str = "fonts/";

macro_rules! asset {
    ($path:literal, $kind:expr) => {
        Asset {
            path: $path,
            kind: $kind,
            bytes: include_bytes!(concat!("../../templates/desk/", $path)),
        }
    };
}

/// All files of the desk's pages.
pub(super) const ASSETS: &[Asset] = &[
    asset!("api.js", SCRIPT),
    asset!("bring/bring.css", STYLE),
    asset!("bring/bring.js", SCRIPT),
    asset!("bring/colours.js", SCRIPT),
    asset!("bring/copy.js", SCRIPT),
    asset!("bring/doubts.js", SCRIPT),
    asset!("bring/finish.js", SCRIPT),
    asset!("bring/grid.js", SCRIPT),
    asset!("bring/picture.js", SCRIPT),
    asset!("bring/stage.js", SCRIPT),
    asset!("bring/text.js", SCRIPT),
    asset!("bring/work.js", SCRIPT),
    asset!("class/class.css", STYLE),
    asset!("class/class.js", SCRIPT),
    asset!("class/drawing.js", SCRIPT),
    asset!("class/quiz.js", SCRIPT),
    asset!("class/steps.js", SCRIPT),
    asset!("course/bar.js", SCRIPT),
    asset!("course/clash.js", SCRIPT),
    asset!("course/course.css", STYLE),
    asset!("course/course.js", SCRIPT),
    asset!("course/draft.js", SCRIPT),
    asset!("course/drag.js", SCRIPT),
    asset!("course/facts.js", SCRIPT),
    asset!("course/faults.js", SCRIPT),
    asset!("course/fields.js", SCRIPT),
    asset!("course/form.js", SCRIPT),
    asset!("course/gaps.js", SCRIPT),
    asset!("course/lesson.js", SCRIPT),
    asset!("course/pack.js", SCRIPT),
    asset!("course/printed.js", SCRIPT),
    asset!("course/rungs.js", SCRIPT),
    asset!("course/sheet.js", SCRIPT),
    asset!("course/trial.js", SCRIPT),
    asset!("course/unsaved.js", SCRIPT),
    asset!("course/yaml.js", SCRIPT),
    asset!("course/yarns.js", SCRIPT),
    asset!("desk.css", STYLE),
    asset!("dom.js", SCRIPT),
    asset!("kept.js", SCRIPT),
    asset!("main.js", SCRIPT),
    asset!("make/answers.js", SCRIPT),
    asset!("make/make.css", STYLE),
    asset!("make/make.js", SCRIPT),
    asset!("make/questions.js", SCRIPT),
    asset!("make/result.js", SCRIPT),
    asset!("names.js", SCRIPT),
    asset!("paper/about.js", SCRIPT),
    asset!("paper/broken.js", SCRIPT),
    asset!("paper/canvas.js", SCRIPT),
    asset!("paper/clash.js", SCRIPT),
    asset!("paper/drawn.js", SCRIPT),
    asset!("paper/figures.js", SCRIPT),
    asset!("paper/fold.js", SCRIPT),
    asset!("paper/grid.js", SCRIPT),
    asset!("paper/hand.js", SCRIPT),
    asset!("paper/keep.js", SCRIPT),
    asset!("paper/keys.js", SCRIPT),
    asset!("paper/kinder.js", SCRIPT),
    asset!("paper/ladder.js", SCRIPT),
    asset!("paper/marks.js", SCRIPT),
    asset!("paper/panel-block.js", SCRIPT),
    asset!("paper/panel-lines.js", SCRIPT),
    asset!("paper/panel-marks.js", SCRIPT),
    asset!("paper/panel-yarns.js", SCRIPT),
    asset!("paper/panels.js", SCRIPT),
    asset!("paper/paper.css", STYLE),
    asset!("paper/paper.js", SCRIPT),
    asset!("paper/preview.js", SCRIPT),
    asset!("paper/sheet.js", SCRIPT),
    asset!("paper/shelf.js", SCRIPT),
    asset!("paper/squares.js", SCRIPT),
    asset!("paper/strip.js", SCRIPT),
    asset!("paper/tools.js", SCRIPT),
    asset!("paper/turn.js", SCRIPT),
    asset!("paper/where.js", SCRIPT),
    asset!("paper/work.js", SCRIPT),
    asset!("paper/yarns.js", SCRIPT),
    asset!("people/fit.js", SCRIPT),
    asset!("people/people.css", STYLE),
    asset!("people/people.js", SCRIPT),
    asset!("people/person.js", SCRIPT),
    asset!("people/register.js", SCRIPT),
    asset!("people/table.js", SCRIPT),
    asset!("people/words.js", SCRIPT),
];

/// The kind and bytes of the file at an address.
pub(super) fn asset(path: &str) -> Option<(&'static str, &'static [u8])> {
    if let Some(name) = path.strip_prefix(FONT_FOLDER) {
        let font = FONTS.iter().find(|(font, _)| *font == name);
        return font.map(|(_, bytes)| (FONT, *bytes));
    }
    let asset = ASSETS.iter().find(|asset| asset.path == path)?;
    Some((asset.kind, asset.bytes))
}
