//! What a handout says of counted thread, where nothing is worked in rows.

use crate::course::{Cloth, Lesson, Units};
use crate::ground::units::{Length, plain_number};
use crate::piece::floss::{END, MARGIN, SKEIN, STRANDS_OF_SKEIN, floss};
use crate::rows::thread::{Field, Start, Thread, Travel, route};
use crate::study::Studied;
use crate::words::steps::{Instruction, RoundTable};
use crate::words::{Wording, count, join_and, length_text, literal, number_word, short_text};

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

    fn name(&self, colour: u8) -> String {
        let yarn = self.lesson.yarns.get(usize::from(colour));
        literal(yarn.map_or("", |yarn| yarn.name.as_str()))
    }

    fn cloth(&self) -> Cloth {
        self.lesson.cloth.unwrap_or(Cloth {
            count: self.lesson.colourwork.gauge.stitches / 100.0 * 25.4,
            over: 1,
        })
    }

    /// `14-count cloth`, `28-count cloth, over two threads`.
    fn cloth_text(&self) -> String {
        let cloth = self.cloth();
        let over = match cloth.over {
            0 | 1 => String::new(),
            n => format!(", over {} threads", number_word(n as usize)),
        };
        format!("{}-count cloth{over}", plain_number(cloth.count, 1))
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
            "A square on counted thread, {} by {} squares, {crosses} of them stitched. On {} it comes out {} by {}.",
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
        let ten = Length::mm(self.pitch.to_mm() * 10.0);
        format!(
            "**The cloth first.** Iron it, fold it twice and crease it lightly: the middle is where the folds cross. Lay a ruler on \
             it: ten squares of the chart are {}. Work one cross of each {} in the margin and look at it from an arm’s length.",
            short_text(ten, self.wording.units()),
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
        let crosses_an_inch = self.cloth().crosses() / 100.0 * 25.4;
        let (needle, strands) = (needle(crosses_an_inch), strands(crosses_an_inch));
        format!(
            "{}, cut {} by {}: {} more on every side. A blunt tapestry needle no. {needle}, a hoop or frame, scissors. Floss, \
             {} of its {} strands at a time.",
            self.cloth_text(),
            cut(width),
            cut(height),
            length_text(MARGIN, units),
            number_word(strands),
            number_word(STRANDS_OF_SKEIN)
        )
    }

    /// The instructions.
    #[must_use]
    pub fn steps(&self) -> Vec<Instruction> {
        let step = |title: &str, text: String| Instruction {
            title: title.to_owned(),
            text,
        };
        let mut steps = vec![step(
            "Begin",
            format!(
                "Put the middle of the cloth into the hoop, drum-tight. The middle of the chart is square {} of row {}, counted from \
                 the right and from the bottom.",
                self.field.width.div_ceil(2),
                self.field.height.div_ceil(2)
            ),
        )];
        for thread in &self.threads {
            steps.push(step(&self.name(thread.colour), self.thread_text(thread)));
        }
        steps.push(step(
            "Finish",
            "Take it out of the hoop each time you stop. Wash it in cool water, roll it in a towel, and iron it face down on \
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
        text.push_str(match (thread.starts.len(), far) {
            (1, 0) => " and fill the area.",
            _ => " and fill area after area, always going on to the nearest.",
        });
        if far > 0 {
            text.push_str(
                " From one to the next the thread passes behind stitches, never behind bare cloth and never further than the \
                 limit.",
            );
        }
        if !more.is_empty() {
            let places: Vec<String> = more.iter().map(place).collect();
            text.push_str(&format!(
                " End it, each time under the backs of four crosses, and begin anew at {}.",
                join_and(&places)
            ));
        } else {
            text.push_str(" End it under the backs of four crosses.");
        }
        text
    }

    /// What each colour takes.
    #[must_use]
    pub fn table(&self) -> RoundTable {
        let crosses_an_inch = self.cloth().crosses() / 100.0 * 25.4;
        let rows = self.threads.iter().map(|thread| {
            let need = floss(thread, self.pitch, strands(crosses_an_inch));
            vec![
                self.name(thread.colour),
                thread.crosses.to_string(),
                thread.starts.len().to_string(),
                floss_text(need.metres, self.wording.units()),
                need.skeins.to_string(),
            ]
        });
        RoundTable {
            title: "Thread by thread".to_owned(),
            head: ["Thread", "Crosses", "Begun", "Floss", "Skeins"]
                .map(str::to_owned)
                .to_vec(),
            rows: rows.collect(),
            note: format!(
                "Reckoned from every cross, its two arms in front and its way behind, {} at either end of each thread, and a fifth \
                 more, in skeins of {}. The way from area to area is the nearest each time; a shorter one may exist.",
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
        let ten = Length::mm(self.pitch.to_mm() * 10.0);
        vec![
            "All crosses have the same arm on top.".to_owned(),
            "Held against the light, no thread shows behind bare cloth.".to_owned(),
            "At the back every end lies under four crosses; there is no knot.".to_owned(),
            format!(
                "Ten crosses measure ________; they should be {}.",
                short_text(ten, self.wording.units())
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
