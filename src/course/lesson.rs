//! A lesson: what is made of which charts and yarns, in which sizes.

use std::sync::Arc;

use crate::course::bands::{AcrossPart, Band, ChartUse};
use crate::course::body::{self, Body, Makes};
use crate::course::chart::{Chart, Worked};
use crate::course::craft::{Closing, Cloth, Craft, CrochetStitch, Reads};
use crate::ground::fault::Span;
use crate::ground::units::{FloatLimit, Gauge, Length, stitches_in};

/// A yarn of a lesson and the role it plays.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Yarn {
    /// The role that charts name.
    pub role: String,
    /// The name on pages.
    pub name: String,
    /// Its colour.
    pub rgb: [u8; 3],
    /// Where the lesson names it.
    pub place: Span,
}

/// A gauge with the needle or hook it was worked on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GaugeOn {
    /// Stitches and rows to 10 cm.
    pub gauge: Gauge,
    /// Needle or hook.
    pub needle: Option<Length>,
}

/// How wide a piece is that fits nobody in particular.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Width {
    /// In stitches.
    Stitches(u32),
    /// As a length.
    Length(Length),
}

impl Width {
    /// `61 stitches`, `30 cm`. `None` for anything else, or beyond ten metres or thousands of stitches.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        if let Some(number) = text.trim().strip_suffix("stitches") {
            let stitches: u32 = number.trim().parse().ok()?;
            return (1..=MOST_WIDE)
                .contains(&stitches)
                .then_some(Self::Stitches(stitches));
        }
        let length = Length::parse(text)?;
        let sound = length.to_mm() > 0.0 && length.to_mm() <= 10_000.0;
        sound.then_some(Self::Length(length))
    }

    /// In stitches of a fabric of which so many make 10 cm, not rounded.
    #[must_use]
    pub fn in_stitches(self, per_10cm: f64) -> f64 {
        match self {
            Self::Stitches(stitches) => f64::from(stitches),
            Self::Length(length) => stitches_in(length, per_10cm),
        }
    }
}

/// More stitches than these are no piece of handwork.
const MOST_WIDE: u32 = 2000;

/// A weighed swatch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// Its stitches.
    pub stitches: u32,
    /// Its rows.
    pub rows: u32,
    /// Its mass in grams.
    pub grams: f64,
}

/// What stands in the middle of something for every size, the lower of two.
#[must_use]
pub fn middle<T>(sizes: &[T]) -> Option<&T> {
    sizes.get(sizes.len().div_ceil(2).checked_sub(1)?)
}

/// A lesson.
#[derive(Clone, Debug)]
pub struct Lesson {
    /// The stem of its file without a leading number.
    pub id: String,
    /// Its name on pages.
    pub title: String,
    /// What comes off the needles.
    pub makes: Makes,
    /// The craft.
    pub craft: Craft,
    /// In the round or flat.
    pub worked: Worked,
    /// The stitch of crochet.
    pub stitch: CrochetStitch,
    /// How its rounds are closed.
    pub closing: Closing,
    /// Whether a hat is begun at the crown: its bands and charts stand here as they are worked, turned upside down.
    pub crown_first: bool,
    /// The cloth of counted thread, where the file names it.
    pub cloth: Option<Cloth>,
    /// Gauge of the colourwork.
    pub colourwork: GaugeOn,
    /// Gauge of plain fabric; `None` if the file names none.
    pub plain: Option<GaugeOn>,
    /// Needle of the rib.
    pub rib_needle: Option<Length>,
    /// Weight category 0-7.
    pub yarn_weight: Option<u32>,
    /// Metres in 100 g.
    pub metres_per_100g: Option<f64>,
    /// A weighed swatch.
    pub weighed: Option<Weighed>,
    /// The width of a scarf or swatch.
    pub width: Option<Width>,
    /// Its yarns in the order of the file.
    pub yarns: Vec<Yarn>,
    /// How far a float may run free, before the ceiling for fingers.
    pub limit: FloatLimit,
    /// Ease instead of the usual one.
    pub ease: Option<Length>,
    /// From the cast-on upwards.
    pub bands: Vec<Band>,
    /// Sizes as written.
    pub sizes: Vec<Body>,
    /// Ids of lessons that must come first.
    pub needs: Vec<String>,
    /// Declared techniques.
    pub techniques: Vec<String>,
    /// The teacher's Markdown.
    pub text: String,
    /// Where each line of the text stands, for faults.
    pub text_lines: Vec<Span>,
    /// Where the lesson's title stands, for faults.
    pub place: Span,
    /// Where each band stands, for faults.
    pub band_places: Vec<Span>,
}

impl Lesson {
    /// Whether the work is turned, so that every second row is one of the wrong side.
    #[must_use]
    pub fn turns(&self) -> bool {
        self.worked == Worked::Flat && self.craft.turns()
    }

    /// The gauge of plain fabric: its own, else that of the colourwork.
    #[must_use]
    pub fn plain_gauge(&self) -> Gauge {
        self.plain
            .map_or(self.colourwork.gauge, |plain| plain.gauge)
    }

    /// How its charts are read.
    #[must_use]
    pub const fn reads(&self) -> Reads {
        match (self.worked, self.craft.has_rows(), self.craft.turns()) {
            (_, false, _) => Reads::FromTheMiddle,
            (Worked::Round, ..) => Reads::Rounds,
            (Worked::Flat, _, true) => Reads::Turning,
            (Worked::Flat, _, false) => Reads::ForwardAndReturn,
        }
    }

    /// The middle size, entry ⌈n/2⌉ of `sizes` as written.
    #[must_use]
    pub fn middle_size(&self) -> Option<&Body> {
        middle(&self.sizes)
    }

    /// The girth aimed at in the middle size.
    #[must_use]
    pub fn middle_girth(&self) -> Option<Length> {
        body::target_girth(self.makes, self.middle_size()?, self.ease)
    }

    /// T: stitches of the round at the middle size, not rounded; of what fits nobody in particular its width.
    #[must_use]
    pub fn round_stitches(&self) -> f64 {
        if let Some(width) = self.width.filter(|_| !self.makes.has_sizes()) {
            return width.in_stitches(self.colourwork.gauge.stitches);
        }
        body::grading_stitches(
            self.makes,
            self.middle_girth(),
            self.colourwork.gauge.stitches,
        )
    }

    /// Whether fingers or toes are inside the floats: mitts, mittens, and anything with a size under 36 months.
    #[must_use]
    pub fn fingers_catch(&self) -> bool {
        matches!(self.makes, Makes::Mitts | Makes::Mittens)
            || self.sizes.iter().any(|size| size.infant)
    }

    /// The limit that holds, with the ceiling where fingers catch.
    #[must_use]
    pub fn float_limit(&self) -> FloatLimit {
        if self.fingers_catch() {
            self.limit.where_fingers_catch()
        } else {
            self.limit
        }
    }

    /// The charts it uses, each once, in the order of the bands.
    #[must_use]
    pub fn charts(&self) -> Vec<&ChartUse> {
        let mut found: Vec<&ChartUse> = Vec::new();
        let mut add = |what| {
            let new: &ChartUse = what;
            if !found.iter().any(|seen| seen.is_same(new)) {
                found.push(new);
            }
        };
        for band in &self.bands {
            match band {
                Band::Chart { what, .. } => add(what),
                Band::Across(parts) => parts.iter().for_each(|part| {
                    if let AcrossPart::Chart(what, _) = part {
                        add(what);
                    }
                }),
                _ => {}
            }
        }
        found
    }

    /// The lesson with its charts replaced where `change` gives another.
    #[must_use]
    pub fn with_charts(&self, change: &mut dyn FnMut(&Chart) -> Option<Chart>) -> Self {
        let mut changed = self.clone();
        let mut replace = |what: &mut ChartUse| {
            if let Some(chart) = change(&what.chart) {
                what.chart = Arc::new(chart);
            }
        };
        for band in &mut changed.bands {
            match band {
                Band::Chart { what, .. } => replace(what),
                Band::Across(parts) => {
                    for part in parts {
                        if let AcrossPart::Chart(what, _) = part {
                            replace(what);
                        }
                    }
                }
                _ => {}
            }
        }
        changed
    }
}
