//! What a jersey needs of a body besides its girths: armhole, sleeve, upper arm, neck.

use crate::course::body::{Body, Makes, Source};
use crate::ground::units::Length;

/// Measures of a size, each with its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Garment {
    /// Armhole depth.
    pub armhole: Length,
    /// Sleeve to the underarm.
    pub sleeve: Length,
    /// Girth of the upper arm.
    pub upper_arm: Length,
    /// Where these come from.
    pub source: Source,
    /// Girth at the base of the neck; nothing is published for children in the sources used.
    pub neck_base: Option<Length>,
}

/// Garment measures that a course gives for a body of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Given {
    /// Armhole depth.
    pub armhole: Option<Length>,
    /// Sleeve to the underarm.
    pub sleeve: Option<Length>,
    /// Girth of the upper arm.
    pub upper_arm: Option<Length>,
    /// Girth at the base of the neck.
    pub neck: Option<Length>,
}

/// The measures of a body that a piece cannot be made without, by the words of the files.
#[must_use]
pub fn measures_of(makes: Makes) -> &'static [&'static str] {
    match makes {
        Makes::Swatch | Makes::Scarf | Makes::Band | Makes::Sampler => &[],
        Makes::Mitts | Makes::Mittens => &["hand"],
        Makes::Yoke => &["chest", "head", "hand", "armhole", "sleeve", "upper-arm"],
        Makes::Cowl | Makes::Headband | Makes::Hat => &["head"],
    }
}

const INCH: f64 = 25.4;

/// Size id; armhole, sleeve and upper arm in inches (trade body, edition 2018; babies, women and men from memory, the
/// middle of a range); neck base in millimetres (ANSUR II: means, and their 15th and 85th percentile as mean ∓ 1.0364
/// deviations; above 1X and XL the 95th percentile). Sizes of adults of either sex are the mean of the woman's and the
/// man's value at that chest.
const TABLE: &[(&str, [f64; 3], Option<f64>)] = &[
    ("baby-newborn", [3.25, 6.0, 5.5], None),
    ("baby-6m", [3.5, 6.5, 6.0], None),
    ("baby-12m", [3.75, 7.5, 6.5], None),
    ("child-2", [4.25, 8.5, 7.0], None),
    ("child-4", [4.75, 10.5, 7.5], None),
    ("child-6", [5.0, 11.5, 8.0], None),
    ("child-8", [5.5, 12.5, 8.5], None),
    ("child-10", [6.0, 13.5, 8.75], None),
    ("child-12", [6.5, 15.0, 9.0], None),
    ("child-14", [7.0, 16.0, 9.25], None),
    ("adult-small", [8.0, 17.5, 11.5], Some(379.4)),
    ("adult-medium", [8.5, 17.75, 12.5], Some(402.9)),
    ("adult-large", [9.0, 18.5, 14.0], Some(426.4)),
    ("woman-xs", [6.25, 16.5, 9.75], Some(371.2)),
    ("woman-s", [6.75, 17.0, 10.25], Some(371.2)),
    ("woman-m", [7.25, 17.0, 11.0], Some(371.2)),
    ("woman-l", [7.75, 17.5, 12.0], Some(371.2)),
    ("woman-1x", [8.25, 17.5, 13.5], Some(405.0)),
    ("woman-2x", [8.75, 18.0, 15.5], Some(405.0)),
    ("woman-3x", [9.25, 18.0, 17.0], Some(405.0)),
    ("woman-4x", [9.75, 18.5, 18.5], Some(405.0)),
    ("woman-5x", [10.25, 18.5, 19.5], Some(405.0)),
    ("man-s", [8.75, 18.0, 12.0], Some(434.6)),
    ("man-m", [9.25, 18.5, 13.0], Some(434.6)),
    ("man-l", [9.75, 19.5, 15.0], Some(434.6)),
    ("man-xl", [10.25, 20.0, 16.0], Some(479.0)),
    ("man-xxl", [10.75, 20.5, 17.0], Some(479.0)),
];

/// The garment measures of a body: what the course gives, else those of its size. A size of the course's own gives all
/// that a jersey needs; for other pieces, which print none of them, the nearest in chest stands in.
#[must_use]
pub fn garment(body: &Body) -> Garment {
    let chest = body.chest.0.to_mm();
    let near = || {
        let rows = crate::course::body::TABLE
            .iter()
            .map(crate::course::body::SizeRow::body);
        let alike = rows.filter(|row| row.adult == body.adult);
        let off = |row: &Body| (row.chest.0.to_mm() - chest).abs();
        alike.min_by(|a, b| off(a).total_cmp(&off(b)))
    };
    let find = |id: &str| TABLE.iter().find(|row| row.0 == id);
    let row = find(&body.id).or_else(|| near().and_then(|row| find(&row.id)));
    let (_, [armhole, sleeve, upper_arm], neck) =
        row.copied().unwrap_or(("", [7.25, 17.0, 11.0], None));
    let sex_neutral = body.id.starts_with("adult");
    let given = body.given;
    let inches = |own: Option<Length>, inches: f64| own.unwrap_or(Length::mm(inches * INCH));
    Garment {
        armhole: inches(given.armhole, armhole),
        sleeve: inches(given.sleeve, sleeve),
        upper_arm: inches(given.upper_arm, upper_arm),
        source: if given != Given::default() {
            Source::Course
        } else if sex_neutral {
            Source::Bridged
        } else {
            Source::TradeBody
        },
        neck_base: given.neck.or(neck.map(Length::mm)),
    }
}
