//! Greys for a printer of black only: as many as there are yarns, by darkness, as far apart as paper shows them.

use crate::ground::colour::{Rgb, lightness};

/// The darkest grey, as a share of white; with four yarns and more a little darker.
const DARKEST: f64 = 0.29;
const DARKEST_OF_MANY: f64 = 0.22;

/// A grey for each colour: the lightest is white, the others follow in equal steps by their lightness. Colours that are the
/// same stay the same.
#[must_use]
pub fn in_greys(colours: &[Rgb]) -> Vec<Rgb> {
    let mut order: Vec<Rgb> = Vec::new();
    for colour in colours {
        if !order.contains(colour) {
            order.push(*colour);
        }
    }
    order.sort_by(|a, b| lightness(*b).total_cmp(&lightness(*a)).then(a.cmp(b)));
    let last = order.len().saturating_sub(1);
    let darkest = if order.len() > 3 {
        DARKEST_OF_MANY
    } else {
        DARKEST
    };
    let grey = |place: usize| {
        let share = match last {
            0 => 1.0,
            _ => 1.0 - (1.0 - darkest) * place as f64 / last as f64,
        };
        [(share * 255.0).round() as u8; 3]
    };
    let place = |colour: &Rgb| order.iter().position(|known| known == colour);
    colours
        .iter()
        .map(|colour| grey(place(colour).unwrap_or(0)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Order by CIE lightness (CIE 15:2004), of which the sRGB primaries' are in every table: yellow 97, cyan 91, green 88,
    /// magenta 60, red 53, blue 32.
    #[test]
    fn greys_follow_lightness_and_stay_apart() {
        let (yellow, green, red, blue) = ([255, 255, 0], [0, 255, 0], [255, 0, 0], [0, 0, 255]);
        let greys = in_greys(&[blue, yellow, red, green, yellow]);
        let levels: Vec<u8> = greys.iter().map(|grey| grey[0]).collect();
        assert_eq!(levels, [56, 255, 122, 189, 255]);
        for n in 1..=4_u8 {
            let colours: Vec<Rgb> = (0..n).map(|i| [i * 60; 3]).collect();
            let mut levels: Vec<u8> = in_greys(&colours).iter().map(|grey| grey[0]).collect();
            levels.sort_unstable();
            let apart = |pair: &[u8]| f64::from(pair[1] - pair[0]) / 255.0 >= 0.25;
            assert!(levels.windows(2).all(apart), "{levels:?}");
        }
    }
}
