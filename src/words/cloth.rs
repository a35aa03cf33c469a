//! What a handout says of counted thread, where nothing is worked in rows.

use crate::course::{Cloth, Lesson, Units};
use crate::ground::units::{Length, plain_number};
use crate::piece::floss::{CUT, END, MARGIN, SKEIN, STRANDS_OF_SKEIN, floss};
use crate::rows::thread::{FURTHEST, Field, Start, Thread, Travel, route};
use crate::study::Studied;
use crate::words::steps::{Instruction, RoundTable};
use crate::words::{Wording, count, join_and, length_text, number_word, short_text};

/// The smallest hoop that is handy, of four inches. Common practice, no source.
const HOOP: Length = Length::mm(101.6);

/// A piece on cloth, as it is told.
pub struct OnCloth<'a> {
    lesson: &'a Lesson,
    wording: Wording,
    field: Field,
    threads: Vec<Thread>,
    travels: Vec<Travel>,
    pitch: Length,
}

impl<'a> OnCloth<'a> {
    /// A lesson's.
    #[must_use]
    pub fn of(lesson: &'a Lesson, studied: &Studied<'_>, wording: Wording) -> Self {
        let field = Field::of(&studied.work);
        let pitch = lesson.colourwork.gauge.width(1.0);
        let (threads, travels) = route(&field, pitch);
        Self {
            lesson,
            wording,
            field,
            threads,
            travels,
            pitch,
        }
    }

    /// As the file has it: titles and cells of tables are no Markdown.
    fn name(&self, colour: u8) -> String {
        let yarn = self.lesson.yarns.get(usize::from(colour));
        yarn.map_or_else(String::new, |yarn| yarn.name.clone())
    }

    fn cloth(&self) -> Cloth {
        self.lesson.cloth.unwrap_or(Cloth {
            count: self.lesson.colourwork.gauge.stitches / 100.0 * 25.4,
            over: 1,
        })
    }

    /// `14-count cloth, each cross over one square of it`, `28-count cloth, each cross over two threads each way`.
    fn cloth_text(&self) -> String {
        let cloth = self.cloth();
        let over = match cloth.over {
            0 | 1 => "one square of it".to_owned(),
            n => format!("{} threads each way", number_word(n as usize)),
        };
        format!(
            "{}-count cloth, each cross over {over}",
            plain_number(cloth.count, 1)
        )
    }

    /// Where the middle of the chart lies: in a square, on an edge or a corner of one, counted from the right and the bottom.
    fn middle(&self) -> String {
        let place = match (self.field.width % 2, self.field.height % 2) {
            (0, 0) => "the upper left corner of ",
            (0, _) => "the left edge of ",
            (_, 0) => "the upper edge of ",
            _ => "",
        };
        let (stitch, row) = (self.field.width.div_ceil(2), self.field.height.div_ceil(2));
        format!("{place}square {stitch} of row {row}, counted from the right and from the bottom")
    }

    fn crosses_an_inch(&self) -> f64 {
        self.cloth().crosses() / 100.0 * 25.4
    }

    fn size(&self) -> (Length, Length) {
        let long = |squares: usize| Length::mm(self.pitch.to_mm() * squares as f64);
        (long(self.field.width), long(self.field.height))
    }

    /// What it is, in two sentences.
    #[must_use]
    pub fn lead(&self) -> String {
        let units = self.wording.units();
        let (width, height) = self.size();
        let crosses: usize = self.threads.iter().map(|thread| thread.crosses).sum();
        format!(
            "A piece on counted thread, {} by {} squares, {crosses} of them stitched. On {}, it comes out at {} by {}.",
            self.field.width,
            self.field.height,
            self.cloth_text(),
            length_text(width, units),
            length_text(height, units)
        )
    }

    /// What to do with the cloth before anything is stitched.
    #[must_use]
    pub fn measure_first(&self) -> String {
        let cloth = self.cloth();
        let inch = Length::mm(25.4);
        format!(
            "**The cloth first.** Overcast its edges, so that they do not fray, and iron it. Count {} threads or squares of its weave \
             along a ruler: they should measure {}. Fold it twice and crease it lightly: the middle is where the folds cross. Work one \
             cross of each {} in the margin, look at it from an arm’s length, and unpick it.",
            plain_number(cloth.count, 0),
            short_text(inch, self.wording.units()),
            self.wording.colour()
        )
    }

    /// Cloth, needle, hoop and strands.
    #[must_use]
    pub fn tools(&self) -> String {
        let units = self.wording.units();
        let (width, height) = self.size();
        let cut =
            |side: Length| length_text(Length::mm(side.to_mm() + 2.0 * MARGIN.to_mm()), units);
        let crosses_an_inch = self.crosses_an_inch();
        let (needle, strands) = (needle(crosses_an_inch), strands(crosses_an_inch));
        let hoop = if width.to_mm().max(height.to_mm()) < HOOP.to_mm() {
            format!("a hoop of {}", length_text(HOOP, units))
        } else {
            "a hoop a little wider than the work".to_owned()
        };
        format!(
            "{}; cut {} by {}: {} more on every side. Blunt tapestry needles no. {needle}, one for each thread, {hoop}, scissors. Floss: cut it {} long, draw the {} strands out singly and lay {} together.",
            self.cloth_text(),
            cut(width),
            cut(height),
            length_text(MARGIN, units),
            length_text(CUT, units),
            number_word(STRANDS_OF_SKEIN),
            number_word(strands)
        )
    }

    /// The instructions.
    #[must_use]
    pub fn steps(&self) -> Vec<Instruction> {
        let step = Instruction::new;
        let mut steps = vec![step(
            "Begin",
            format!(
                "Put the middle of the cloth into the hoop, drum-tight, and take it out each time you stop. The folds cross at the \
                 middle of the chart: {}.",
                self.middle()
            ),
        )];
        for thread in &self.threads {
            steps.push(step(&self.name(thread.colour), self.thread_text(thread)));
        }
        steps.push(step(
            "Finish",
            "Wash it in cool water, roll it in a towel, and iron it face down on \
             another while it is damp."
                .to_owned(),
        ));
        steps
    }

    fn thread_text(&self, thread: &Thread) -> String {
        let travels = self
            .travels
            .iter()
            .filter(|way| way.colour == thread.colour);
        let far = travels.count();
        let place = |start: &Start| format!("square {} of row {}", start.stitch, start.row);
        let Some((first, more)) = thread.starts.split_first() else {
            return String::new();
        };
        let crosses = count(thread.crosses, "cross", "crosses");
        let mut text = format!(
            "{crosses}, all with the same arm on top. Come up at {}",
            place(first)
        );
        text.push_str(match far {
            0 => " and fill the area.",
            _ => " and fill area after area, always going on to the nearest.",
        });
        if far > 0 {
            text.push_str(&format!(
                " From one to the next the thread passes behind stitches, never behind bare cloth and never further than {}.",
                short_text(FURTHEST, self.wording.units())
            ));
        }
        if !more.is_empty() {
            let places: Vec<String> = more.iter().map(place).collect();
            text.push_str(&format!(
                " End it, each time under the backs of four crosses, and begin anew at {}, in this order.",
                join_and(&places)
            ));
        } else {
            text.push_str(" End it under the backs of four crosses.");
        }
        if thread.starts.iter().any(|start| start.crosses < 4) {
            text.push_str(
                " Where fewer than four stand together: fold one strand in half, thread its two cut ends, leave the loop at the back, and \
                 on the first way down pass the needle through it; go round the backs that are there twice to end.",
            );
        }
        text
    }

    /// What each colour takes.
    #[must_use]
    pub fn table(&self) -> RoundTable {
        let crosses_an_inch = self.crosses_an_inch();
        let rows = self.threads.iter().map(|thread| {
            let need = floss(thread, self.pitch, strands(crosses_an_inch));
            vec![
                self.name(thread.colour),
                thread.crosses.to_string(),
                need.lengths.to_string(),
                floss_text(need.metres, self.wording.units()),
                need.skeins.to_string(),
            ]
        });
        RoundTable {
            title: "Thread by thread".to_owned(),
            head: ["Thread", "Crosses", "Needlefuls", "Floss", "Skeins"]
                .map(str::to_owned)
                .to_vec(),
            rows: rows.collect(),
            note: format!(
                "A needleful is a length of {}; of it {} at either end are lost. Floss is what comes off the skein, with all its strands; \
                 skeins of {}, a fifth more than used.",
                length_text(CUT, self.wording.units()),
                length_text(END, self.wording.units()),
                floss_text(SKEIN, self.wording.units())
            ),
            words: false,
            yours: None,
        }
    }

    /// What to look at in the finished piece.
    #[must_use]
    pub fn checks(&self) -> Vec<String> {
        let stitched = |x: &usize| (0..self.field.height).any(|y| self.field.at((*x, y)).is_some());
        let first = (0..self.field.width).find(stitched).unwrap_or(0);
        let last = (0..self.field.width).rfind(stitched).unwrap_or(0);
        let across = last + 1 - first;
        vec![
            "All crosses have the same arm on top.".to_owned(),
            "Held against the light, no thread shows behind bare cloth.".to_owned(),
            "At the back every end lies under crosses; there is no knot.".to_owned(),
            format!(
                "From its first to its last cross, {} squares across, it measures ________; it should be {}.",
                across,
                short_text(
                    Length::mm(self.pitch.to_mm() * across as f64),
                    self.wording.units()
                )
            ),
        ]
    }
}

/// A length of floss: `1.2 m`, `1.3 yd`, `1.2 m (1.3 yd)`.
fn floss_text(metres: f64, units: Units) -> String {
    let m = format!("{} m", plain_number(metres.max(0.1), 1));
    let yards = format!("{} yd", plain_number((metres / 0.9144).max(0.1), 1));
    match units {
        Units::Metric => m,
        Units::Imperial => yards,
        Units::Both => format!("{m} ({yards})"),
    }
}

/// Tapestry needle for so many crosses to an inch. Common practice, no source.
fn needle(crosses_an_inch: f64) -> u32 {
    match crosses_an_inch {
        n if n < 15.0 => 24,
        n if n < 19.0 => 26,
        _ => 28,
    }
}

/// Strands of floss that cover so many crosses to an inch. Common practice, no source; of fine cloth from memory.
fn strands(crosses_an_inch: f64) -> usize {
    match crosses_an_inch {
        n if n < 12.5 => 3,
        n if n < 20.0 => 2,
        _ => 1,
    }
}
