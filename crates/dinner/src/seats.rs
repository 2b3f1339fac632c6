//! Who eats which: the thinnest portion to the most done.

use crate::{DinnerError, Portion, Seat};

/// Which portion each seat gets, and which are left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Assignment {
    /// For each seat, in the order given, the place of its portion in the list of portions.
    pub portion_of: Vec<usize>,
    /// Portions no seat gets, in their order.
    pub spare: Vec<usize>,
}

/// Shares the portions out. A seat that named its portion keeps it; of the others the lightest are spare; the rest go
/// thinnest to the most done.
///
/// Minutes in the oven grow with the thickness and with the wish, so giving the thinnest to the most done makes the
/// longest road as short as any exchange of two could (an exchange argument; `tests/laws.rs` tries every other way).
///
/// # Errors
/// [`DinnerError::TooFewPortions`] if there are fewer portions than seats; [`DinnerError::PortionTwice`] and
/// [`DinnerError::NoSuchPortion`] if a seat's own choice cannot be.
pub fn assign(seats: &[Seat], portions: &[Portion]) -> Result<Assignment, DinnerError> {
    if portions.len() < seats.len() {
        return Err(DinnerError::TooFewPortions { seats: seats.len(), portions: portions.len() });
    }
    let mut portion_of = chosen(seats, portions)?;
    let mut open: Vec<usize> = (0..seats.len()).filter(|&seat| portion_of[seat].is_none()).collect();
    let mut free: Vec<usize> = (0..portions.len()).filter(|&i| !portion_of.contains(&Some(i))).collect();
    free.sort_by(|&a, &b| portions[b].mass_kg().total_cmp(&portions[a].mass_kg()).then(a.cmp(&b)));
    let mut spare = free.split_off(open.len());
    spare.sort_unstable();

    free.sort_by(|&a, &b| portions[a].thickness_m().total_cmp(&portions[b].thickness_m()).then(a.cmp(&b)));
    open.sort_by(|&a, &b| seats[b].wish.c().total_cmp(&seats[a].wish.c()).then(a.cmp(&b)));
    for (seat, portion) in open.into_iter().zip(free) {
        portion_of[seat] = Some(portion);
    }
    Ok(Assignment { portion_of: portion_of.into_iter().flatten().collect(), spare })
}

fn chosen(seats: &[Seat], portions: &[Portion]) -> Result<Vec<Option<usize>>, DinnerError> {
    let mut taken: Vec<usize> = Vec::new();
    for (seat, portion) in seats.iter().enumerate().filter_map(|(i, seat)| Some((i, seat.portion?))) {
        if portion >= portions.len() {
            return Err(DinnerError::NoSuchPortion { seat, portion, portions: portions.len() });
        }
        if taken.contains(&portion) {
            return Err(DinnerError::PortionTwice { portion: portions[portion].name.clone() });
        }
        taken.push(portion);
    }
    Ok(seats.iter().map(|seat| seat.portion).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use band::Value;
    use quantity::Temperature;

    fn portion(name: &str, grams: f64, mm: f64) -> Portion {
        Portion {
            name: name.into(),
            mass_kg: Value::Known(grams / 1000.0),
            thickness_m: Value::Known(mm / 1000.0),
            start_c: Value::Unknown,
            went_in: None,
            pulled: None,
        }
    }

    fn seat(wish_c: f64) -> Seat {
        Seat { name: None, wish: Temperature::from_c(wish_c), portion: None }
    }

    #[test]
    fn thinnest_to_the_most_done_and_the_lightest_is_spare() {
        let portions = [
            portion("a", 384.0, 30.0),
            portion("b", 369.0, 27.0),
            portion("c", 388.0, 31.0),
            portion("d", 376.0, 28.0),
        ];
        let shared = assign(&[seat(55.0), seat(70.0), seat(50.0)], &portions);
        let expected = Assignment { portion_of: vec![0, 3, 2], spare: vec![1] };
        assert_eq!(shared.ok(), Some(expected));
    }

    #[test]
    fn a_seat_keeps_what_it_chose() {
        let portions = [portion("a", 300.0, 20.0), portion("b", 400.0, 30.0)];
        let chose = Seat { portion: Some(0), ..seat(50.0) };
        let shared = assign(&[chose.clone(), seat(70.0)], &portions);
        assert_eq!(shared.ok().map(|s| s.portion_of), Some(vec![0, 1]));
        let twice = assign(&[chose.clone(), chose], &portions);
        assert!(matches!(twice, Err(DinnerError::PortionTwice { .. })));
    }

    #[test]
    fn too_few_is_said_with_both_numbers() {
        let refused = assign(&[seat(55.0), seat(55.0)], &[portion("a", 300.0, 20.0)]);
        assert!(matches!(refused, Err(DinnerError::TooFewPortions { seats: 2, portions: 1 })));
    }
}
