//! Numbers that can be computed with, and that no yarn, needle or body has: a decimal point lost, inches taken for
//! centimetres, a gauge over 4 in written as one over 10 cm.
//!
//! Ranges without a source are common practice, drawn wide: who knits tightly, or lace on large needles, is not asked.

use crate::course::{Craft, Usual, usual};
use crate::ground::fault::{Code, Fault};
use crate::ground::units::Length;
use crate::read::node::Node;
use crate::read::values::{length, number, whole};

/// The girths and lengths of bodies in centimetres, from a newborn's to the largest that garments are made for.
const BODIES: [(&str, f64, f64); 7] = [
    ("head", 28.0, 68.0),
    ("hand", 8.0, 30.0),
    ("chest", 28.0, 190.0),
    ("armhole", 6.0, 36.0),
    ("sleeve", 10.0, 62.0),
    ("upper-arm", 11.0, 65.0),
    ("neck", 17.0, 60.0),
];

struct Looking<'a> {
    faults: &'a mut Vec<Fault>,
}

impl Looking<'_> {
    /// Warns where a value lies outside what is usual; `unit` stands behind the numbers.
    fn within(
        &mut self,
        (node, value): (Option<&Node>, Option<f64>),
        usual: (f64, f64),
        what: &str,
        unit: &str,
    ) {
        let (Some(node), Some(value)) = (node, value) else {
            return;
        };
        if value >= usual.0 && value <= usual.1 {
            return;
        }
        let shown = |x: f64| {
            let text = format!("{x:.1}");
            text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
        };
        let title = format!("{what} of {}{unit} is unlikely", shown(value));
        let label = format!("usual: {} to {}{unit}", shown(usual.0), shown(usual.1));
        self.faults.push(
            Fault::new(Code::UnlikelyNumber, title, node.span, label)
                .help("check the decimal point and the unit; it is used as it stands"),
        );
    }
}

fn cm(length: Option<Length>) -> Option<f64> {
    length.map(|length| length.to_mm() / 10.0)
}

/// Looks through a lesson's numbers.
pub(super) fn lesson(node: &Node, craft: Craft, faults: &mut Vec<Fault>) {
    let mut looking = Looking { faults };
    let yarn = node.get("yarn");
    let category = whole(node, "yarn", "weight").and_then(|c| usize::try_from(c).ok());
    let Usual {
        stitches,
        rows: (least, most),
        tools,
        metres,
    } = usual(craft, category);
    let length_of = (
        yarn.and_then(|y| y.get("metres_per_100g")),
        number(node, "yarn", "metres_per_100g"),
    );
    looking.within(length_of, metres, "a length", " m to 100 g");
    let Some(gauge) = node.get("gauge") else {
        return;
    };
    let mut gauges = Vec::new();
    for which in ["colourwork", "plain"] {
        let Some(group) = gauge.get(which) else {
            continue;
        };
        let over = length(group, "over");
        looking.within(
            (group.get("over"), cm(over)),
            (2.0, 25.0),
            "a gauge over a length",
            " cm",
        );
        let over = over.map_or(100.0, Length::to_mm);
        let to_10cm = |key: &str| number(gauge, which, key).map(|n| n * 100.0 / over);
        let (wide, high) = (to_10cm("stitches"), to_10cm("rows"));
        looking.within(
            (group.get("stitches"), wide),
            stitches,
            "a gauge",
            " stitches to 10 cm",
        );
        if let (Some(wide), Some(high)) = (wide, high) {
            let usual = (wide * least, wide * most);
            looking.within(
                (group.get("rows"), Some(high)),
                usual,
                "a gauge",
                " rows to 10 cm",
            );
            gauges.push((group, wide, high));
        }
    }
    if let [(_, wide, high), (plain, plain_wide, plain_high)] = gauges.as_slice() {
        let near = |x: f64| (x / 1.45, x * 1.45);
        let key = |name| plain.get(name);
        looking.within(
            (key("stitches"), Some(*plain_wide)),
            near(*wide),
            "beside the colourwork, plain fabric",
            " stitches to 10 cm",
        );
        looking.within(
            (key("rows"), Some(*plain_high)),
            near(*high),
            "beside the colourwork, plain fabric",
            " rows to 10 cm",
        );
    }
    for which in ["colourwork", "plain", "rib"] {
        let needle = gauge
            .get(which)
            .and_then(|group| Some((group.get("needle")?, length(group, "needle")?)));
        let (node, is) = needle.unzip();
        looking.within(
            (node, is.map(Length::to_mm)),
            tools,
            "a needle or hook",
            " mm",
        );
    }
    looking.within(
        (node.get("ease"), cm(length(node, "ease"))),
        (-15.0, 40.0),
        "ease",
        " cm",
    );
    limit(node, &mut looking);
    weighed(node, gauge, &mut looking);
    for band in node.get("bands").map(Node::items).unwrap_or_default() {
        for (what, most) in [("rib", 25.0), ("plain", 120.0)] {
            let height = band
                .get(what)
                .and_then(|band| Some((band.get("height")?, length(band, "height")?)));
            let (node, is) = height.unzip();
            looking.within((node, cm(is)), (0.3, most), "a height", " cm");
        }
    }
}

/// A weighed swatch: grams to a square of 10 cm.
fn weighed(node: &Node, gauge: &Node, looking: &mut Looking<'_>) {
    let Some(yarn) = node.get("yarn") else { return };
    let swatch = |key: &str| number(yarn, "weighed", key);
    let of = |key: &str| number(gauge, "colourwork", key);
    if let (Some(stitches), Some(rows), Some(grams), Some(wide), Some(high)) = (
        swatch("stitches"),
        swatch("rows"),
        swatch("grams"),
        of("stitches"),
        of("rows"),
    ) {
        let squares = stitches / wide * rows / high;
        let grams_node = yarn.get("weighed").and_then(|w| w.get("grams"));
        // A square of 10 cm of lace weighs a gram, of the thickest stranded fabric twelve.
        let usual = (0.6 * squares, 15.0 * squares);
        looking.within(
            (grams_node, Some(grams)),
            usual,
            "for its size, a swatch",
            " g",
        );
    }
}

fn limit(node: &Node, looking: &mut Looking<'_>) {
    let Some(group) = node.get("limit") else {
        return;
    };
    let stitches = number(node, "limit", "stitches");
    looking.within(
        (group.get("stitches"), stitches),
        (2.0, 9.0),
        "a float",
        " stitches",
    );
    looking.within(
        (group.get("length"), cm(length(group, "length"))),
        (1.0, 5.0),
        "a float",
        " cm",
    );
}

/// Looks through a course's numbers.
pub(super) fn course(node: &Node, faults: &mut Vec<Fault>) {
    let mut looking = Looking { faults };
    limit(node, &mut looking);
    let bodies = node.get("bodies").map(Node::entries).unwrap_or_default();
    for (_, body) in bodies {
        for (key, from, to) in BODIES {
            looking.within(
                (body.get(key), cm(length(body, key))),
                (from, to),
                "a body",
                " cm",
            );
        }
    }
    let Some(sessions) = node.get("sessions") else {
        return;
    };
    for (key, usual, what, unit) in [
        ("count", (1.0, 30.0), "a workshop", " meetings"),
        ("hours", (0.75, 8.0), "a meeting", " hours"),
        ("weeks_between", (0.0, 8.0), "a pause", " weeks"),
        ("home_hours", (0.0, 20.0), "a week at home", " hours"),
        ("learners", (1.0, 60.0), "a class", " learners"),
    ] {
        let value = number(node, "sessions", key);
        looking.within((sessions.get(key), value), usual, what, unit);
    }
}
