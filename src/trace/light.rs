//! Light over a sheet: how bright white paper would be at each place, as a surface of the second degree in the logarithm.

/// Light over the sheet, in places from 0 to 1 across and down.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Light([f64; 6]);

/// What a surface is made of at a place.
fn terms([x, y]: [f64; 2]) -> [f64; 6] {
    let (x, y) = (2.0 * x - 1.0, 2.0 * y - 1.0);
    [1.0, x, y, x * x, x * y, y * y]
}

impl Light {
    /// The logarithm of light at a place.
    pub(super) fn at(&self, place: [f64; 2]) -> f64 {
        terms(place).iter().zip(self.0).map(|(t, c)| t * c).sum()
    }

    /// Both together.
    pub(super) fn and(&self, other: &Self) -> Self {
        let mut sum = self.0;
        sum.iter_mut().zip(other.0).for_each(|(a, b)| *a += b);
        Self(sum)
    }

    /// The surface nearest to logarithms seen at places; those far from it count little. A touch of flatness keeps it sane
    /// where little is seen.
    pub(super) fn fitted(seen: &[([f64; 2], f64)], tolerance: f64) -> Self {
        let mut light = Self::default();
        let mut levels: Vec<f64> = seen.iter().map(|(_, v)| *v).collect();
        if levels.is_empty() {
            return light;
        }
        levels.sort_by(f64::total_cmp);
        light.0[0] = levels[levels.len() / 2];
        for round in 0..12 {
            let mut m = [[0.0_f64; 7]; 6];
            for (i, row) in m.iter_mut().enumerate() {
                row[i] = if i == 0 {
                    1e-9
                } else {
                    0.02 * seen.len() as f64 / 6.0
                };
            }
            let wide = tolerance * if round < 3 { 4.0 } else { 1.0 };
            for (place, value) in seen {
                let off = (value - light.at(*place)) / wide;
                let weight = 1.0 / (1.0 + off * off).powi(2);
                let t = terms(*place);
                for i in 0..6 {
                    for j in 0..6 {
                        m[i][j] += weight * t[i] * t[j];
                    }
                    m[i][6] += weight * t[i] * value;
                }
            }
            for i in 0..6 {
                let own = m[i];
                for (r, row) in m.iter_mut().enumerate() {
                    if r != i && own[i].abs() > 1e-12 {
                        let share = row[i] / own[i];
                        row.iter_mut().zip(own).for_each(|(x, o)| *x -= share * o);
                    }
                }
            }
            for (i, part) in light.0.iter_mut().enumerate() {
                *part = if m[i][i].abs() > 1e-12 {
                    m[i][6] / m[i][i]
                } else {
                    0.0
                };
            }
        }
        light
    }
}
