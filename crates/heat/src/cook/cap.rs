//! What lies over a roast's mantle: fat cap and bone.

use crate::{Face, Faces, Surroundings};

/// W/(m·K) of a fat cap (beef fat 0.18 to 0.22).
const FAT: f64 = 0.2;

/// Fat cap and bone over all of a roast but its cut ends, beside a share that is bare meat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cap {
    /// Thickness over conductivity, m²·K/W.
    pub resistance_m2_k_w: f64,
    /// Share of the mantle that is bare, 0 to 1.
    pub bare_share: f64,
}

impl Cap {
    /// A layer of fat all over the mantle, m.
    #[must_use]
    pub fn of_fat(thickness_m: f64) -> Self {
        Self { resistance_m2_k_w: thickness_m / FAT, bare_share: 0.0 }
    }

    /// A face of the mantle with the cap over it. Under a wrap the cap adds to the wrap by its share.
    #[must_use]
    pub fn over(self, face: Face) -> Face {
        let covered = 1.0 - self.bare_share;
        match face {
            Face::Open(around) if self.resistance_m2_k_w > 0.0 && covered > 0.0 => {
                let (cover_m2_k_w, cover_share) = if around.cover_m2_k_w > 0.0 {
                    (around.cover_m2_k_w + covered * self.resistance_m2_k_w, around.cover_share)
                } else {
                    (self.resistance_m2_k_w, covered)
                };
                Face::Open(Surroundings { cover_m2_k_w, cover_share, ..around })
            }
            other => other,
        }
    }

    /// All faces of a roast: the mantle under the cap, the cut ends as bare as its sides were.
    #[must_use]
    pub fn around(self, faces: Faces) -> Faces {
        let ends = faces.ends.or_else(|| Some(faces.sides.clone()));
        Faces {
            top: self.over(faces.top),
            bottom: self.over(faces.bottom),
            sides: self.over(faces.sides),
            ends,
        }
    }
}
