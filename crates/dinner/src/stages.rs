//! What a portion goes through, as heat asks for it: the low place, the hot place, the rest.

use crate::passes::sear;
use crate::{Habits, Hot, Low};
use band::Value;
use heat::Until;
use heat::cook::StageQuestion;
use quantity::Span;

/// The low place until a rule is met.
pub(crate) fn low_stage(low: &Low, until: Until) -> StageQuestion {
    let mut stage = StageQuestion::new("low", low.medium.clone(), until);
    stage.medium_c = match (low.medium_c, low.probed) {
        // What a probe in the air read is the air to within the swing of the thermostat.
        (Value::Known(read), true) => Value::Range { low: read - SWING_K, high: read + SWING_K },
        (given, _) => given,
    };
    if low.medium == "water-bath" {
        stage.cover_m2_k_w = catalogue::wrap("vacuum").map_or(0.0, catalogue::Wrap::resistance_m2_k_w);
    }
    stage
}

/// K either way: a domestic thermostat swings by some ten degrees from off to on (assumed).
const SWING_K: f64 = 4.0;

/// Both sides on the hot place.
pub(crate) fn sear_stage(hot: &Hot, habits: &Habits) -> StageQuestion {
    let mut stage = StageQuestion::new("sear", hot.medium.clone(), Until::Time(sear(habits)));
    stage.medium_c = hot.medium_c;
    stage.flip_every = Some(habits.sear_a_side);
    stage
}

/// The rest on the way to the plate.
pub(crate) fn rest_stage(rest: Span) -> StageQuestion {
    StageQuestion::new("rest", "rest", Until::Time(rest))
}
