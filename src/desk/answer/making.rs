//! From a chart to a lesson: what can be made of it, and the text of the lesson's file.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use crate::app::shown_colour;
use crate::course::body::{Makes, measures_of};
use crate::course::chart::Chart;
use crate::course::{Lesson, YARN_WEIGHTS};
use crate::desk::answer::file::answer;
use crate::desk::draft::{Draft, FileKind};
use crate::desk::present::sizes;
use crate::desk::refusal::Refusal;
use crate::desk::state::{Desk, Step};
use crate::ground::colour::hex;
use crate::ground::quoted::quoted;
use crate::read::{At, Change, edited, is_id};
use crate::words::{Wording, capital, made_of_title, swatch_hat_text};

/// What is made of a chart with few questions.
const PIECES: [Makes; 6] = [
    Makes::Hat,
    Makes::Headband,
    Makes::Cowl,
    Makes::Mitts,
    Makes::Mittens,
    Makes::Yoke,
];

/// Rows to 10 cm for a stitch to 10 cm, where only those of the yarn's category are known: stranded knitting is nearly as
/// many rows as a third more than stitches. Common practice, no source.
const ROWS: f64 = 1.3;

/// Rows of a band that leave a grown-up's hat room for rib and crown at a usual gauge.
const BAND: usize = 18;

/// The most rounds of pattern that a piece has, and sizes that a lesson has.
const MOST_ROWS: usize = 400;
const MOST_SIZES: usize = 40;

/// A gauge to 10 cm.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct OwnGauge {
    stitches: f64,
    rows: f64,
}

/// Somebody's own measures, in millimetres.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct Own {
    name: String,
    measures: BTreeMap<String, f64>,
}

/// A yarn.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct MakeYarn {
    name: String,
    hex: String,
}

/// What is to be made.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct Make {
    id: String,
    title: String,
    chart: String,
    makes: String,
    gauge: Option<OwnGauge>,
    weight: Option<usize>,
    sizes: Vec<String>,
    own: Option<Own>,
    times: usize,
    below: usize,
    above: usize,
    colours: BTreeMap<String, MakeYarn>,
}

/// What can be made of a chart, and a first proposal.
///
/// # Errors
/// When there is no such chart.
pub(in crate::desk) fn making(desk: &Desk, id: &str) -> Result<Value, Refusal> {
    let present = desk.present();
    let course = present.course();
    let chart = course
        .charts
        .get(id)
        .ok_or_else(|| Refusal::unknown("chart", id))?;
    let lesson = present.lesson_of_chart(id);
    // A gauge that somebody knits at: of the chart's own lesson, else of a hat, else of anything knitted.
    let knits = |lesson: &&Lesson| lesson.craft.knows_loops();
    let hat = course
        .lessons
        .iter()
        .filter(knits)
        .find(|lesson| lesson.makes == Makes::Hat);
    let like = lesson
        .filter(knits)
        .or(hat)
        .or(course.lessons.iter().find(knits));
    let drafts = present.answer["drafts"].as_array();
    let free = |name: &str| {
        let begun = drafts
            .into_iter()
            .flatten()
            .any(|draft| draft["id"] == name);
        !begun && !course.charts.contains_key(name) && present.lesson(name).is_none()
    };
    let stem = format!("{id}-hat");
    let numbered = (2..).map(|n| format!("{stem}-{n}"));
    let own = std::iter::once(stem.clone())
        .chain(numbered)
        .find(|name| free(name));
    let colours = chart.inks.iter().enumerate().map(|(place, ink)| {
        let yarn = lesson.and_then(|l| l.yarns.iter().find(|yarn| yarn.role == ink.role));
        let name = yarn.map_or_else(|| capital(&ink.role), |yarn| yarn.name.clone());
        let rgb = yarn.map_or_else(|| shown_colour(place), |yarn| yarn.rgb);
        (
            ink.role.clone(),
            MakeYarn {
                name,
                hex: hex(rgb),
            },
        )
    });
    let gauge = like.map(|lesson| lesson.colourwork.gauge);
    let first = Make {
        id: own.unwrap_or(stem),
        title: made_of_title(&chart.title, Makes::Hat),
        chart: id.to_owned(),
        makes: Makes::Hat.name().to_owned(),
        gauge: gauge.map(|gauge| OwnGauge {
            stitches: gauge.stitches,
            rows: gauge.rows,
        }),
        weight: like
            .and_then(|lesson| lesson.yarn_weight)
            .map(|weight| weight as usize),
        sizes: ["adult-small", "adult-medium", "adult-large"]
            .map(str::to_owned)
            .to_vec(),
        own: None,
        times: (BAND / chart.height.max(1)).clamp(1, 6),
        below: 2,
        above: 2,
        colours: colours.collect(),
    };
    let makes = PIECES.map(|makes| {
        json!({"id": makes.name(), "name": capital(makes.name()), "parts": measures_of(makes)})
    });
    let weights = YARN_WEIGHTS.iter().enumerate().map(|(category, weight)| {
        json!({
            "category": category,
            "name": weight.name,
            "gauge": [weight.gauge.0, weight.gauge.1],
        })
    });
    Ok(json!({
        "format": "yokeward/desk/1",
        "first": first,
        "makes": makes,
        "weights": weights.collect::<Vec<_>>(),
        "sizes": sizes(),
    }))
}

/// Writes the lesson into a draft of its own, or anew into the draft that was made before. The file as it stands then.
///
/// # Errors
/// When something of it makes no sense, or the course has another file of this id.
pub(in crate::desk) fn make(desk: &Desk, wished: &Make) -> Result<Value, Refusal> {
    let present = desk.present();
    let charts = &present.course().charts;
    let chart = charts
        .get(&wished.chart)
        .ok_or_else(|| Refusal::unknown("chart", &wished.chart))?;
    let makes = Makes::from_name(&wished.makes).filter(|makes| PIECES.contains(makes));
    let makes =
        makes.ok_or_else(|| Refusal::senseless("nothing of this kind is made of a chart"))?;
    if !is_id(&wished.id) {
        return Err(Refusal::senseless(
            "an id has small letters, digits and hyphens",
        ));
    }
    let rows = wished.times.saturating_mul(chart.height);
    if rows
        .saturating_add(wished.below)
        .saturating_add(wished.above)
        > MOST_ROWS
    {
        let message = format!("{rows} rounds of pattern are more than any of these pieces has");
        return Err(Refusal::cannot(message).help("work the chart fewer times upwards"));
    }
    if wished.sizes.len() > MOST_SIZES || !wished.sizes.iter().all(|size| is_id(size)) {
        return Err(Refusal::senseless("sizes are ids, forty at most"));
    }
    let mine = |draft: &Draft| draft.fresh && draft.kind == FileKind::Lesson;
    let taken = desk.draft(&wished.id).is_ok_and(|draft| !mine(&draft));
    if let Some(own) = wished.own.as_ref().filter(|_| !taken) {
        keep_body(desk, own)?;
    }
    let wording = Wording::of_course(present.course());
    let text = lesson_text(chart, makes, wished, wording);
    let draft = match desk.draft(&wished.id) {
        Ok(draft) if mine(&draft) => {
            desk.step(&wished.id, draft.number, |_| Ok(Step::Text(text)))?
        }
        Ok(_) => {
            let message = format!("the course has a file `{}` already", wished.id);
            return Err(Refusal::cannot(message).help("choose another title"));
        }
        Err(_) => desk.begin(&wished.id, FileKind::Lesson, text)?,
    };
    answer(desk, &draft, None)
}

/// Writes somebody's measures into the draft of the course's settings.
fn keep_body(desk: &Desk, own: &Own) -> Result<(), Refusal> {
    let measures: serde_json::Map<String, Value> = own
        .measures
        .iter()
        .filter(|(_, mm)| mm.is_finite() && **mm > 0.0)
        .map(|(name, mm)| (name.clone(), json!(format!("{mm} mm"))))
        .collect();
    let at = [At::Key("bodies".to_owned()), At::Key(own.name.clone())];
    let change = Change::Value(Value::Object(measures));
    let draft = desk.draft("course")?;
    desk.step("course", draft.number, |draft| {
        let text = edited(&draft.text, &at, &change);
        Ok(Step::Text(
            text.map_err(|error| Refusal::cannot(error.to_string()))?,
        ))
    })?;
    Ok(())
}

fn lesson_text(chart: &Chart, makes: Makes, wished: &Make, wording: Wording) -> String {
    let band = wished.weight.and_then(|weight| YARN_WEIGHTS.get(weight));
    let usual = band.unwrap_or(&YARN_WEIGHTS[4]).gauge;
    let usual = (f64::from(usual.0) + f64::from(usual.1)) / 2.0;
    let gauge = wished.gauge.unwrap_or(OwnGauge {
        stitches: usual,
        rows: (usual * ROWS).round(),
    });
    let ground = chart.inks.first().map_or("ground", |ink| ink.role.as_str());
    let ground = quoted(ground);
    let rib = |height: f64| {
        format!("  - rib: {{ multiple: 4, height: {height} cm, colour: {ground} }}\n")
    };
    let plain = |rows: usize| match rows {
        0 => String::new(),
        rows => format!("  - plain: {{ rows: {rows}, colour: {ground} }}\n"),
    };
    let times = wished.times.max(1);
    let pattern = format!(
        "{}  - chart: {{ id: {}, times: {times} }}\n{}",
        plain(wished.below),
        chart.id,
        plain(wished.above)
    );
    let bands = match makes {
        Makes::Hat => rib(5.0) + &pattern,
        Makes::Mittens => rib(6.0) + &pattern,
        Makes::Mitts => rib(5.0) + &pattern + &rib(2.0),
        Makes::Yoke => {
            pattern
                + "  - decrease\n"
                + &plain(3)
                + "  - decrease\n"
                + &plain(3)
                + "  - decrease\n"
                + &rib(3.0)
        }
        _ => rib(2.0) + &pattern + &rib(2.0),
    };
    let yarns: String = wished
        .colours
        .iter()
        .map(|(role, yarn)| {
            let (role, name, hex) = (quoted(role), quoted(&yarn.name), quoted(&yarn.hex));
            format!("  {role}: {{ name: {name}, hex: {hex} }}\n")
        })
        .collect();
    let yarn = wished.weight.map_or_else(String::new, |weight| {
        format!("yarn: {{ weight: {weight} }}\n")
    });
    let own = wished.own.as_ref().map(|own| quoted(&own.name));
    let sizes: Vec<String> = wished.sizes.iter().cloned().chain(own).collect();
    let text = match wished.gauge {
        Some(_) => String::new(),
        None => format!("text: |\n  {}\n", swatch_hat_text(makes, wording)),
    };
    format!(
        "title: {}\nmakes: {}\nworked: {}\ngauge:\n  colourwork: {{ stitches: {}, rows: {} }}\n{yarn}colours:\n{yarns}bands:\n{bands}sizes: [{}]\n{text}",
        quoted(&wished.title),
        makes.name(),
        chart.worked.name(),
        gauge.stitches,
        gauge.rows,
        sizes.join(", ")
    )
}
