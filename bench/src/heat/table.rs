//! How a row is printed.

/// One side of a row.
pub(crate) struct Side {
    /// The whole row's work, s.
    pub(crate) seconds: f64,
    /// Largest relative error of a time.
    pub(crate) off: f64,
    /// Its setting and counts.
    pub(crate) told: String,
}

/// One line a side, and the ratio beside its aim.
pub(crate) fn print(problem: &str, ours: Option<&Side>, rivals: &[(&str, Option<Side>, f64)]) {
    println!("\n{problem}");
    line("ours", ours);
    for (name, rival, aim) in rivals {
        line(name, rival.as_ref());
        match (ours, rival) {
            (Some(ours), Some(rival)) => {
                let ratio = rival.seconds / ours.seconds;
                let judged = if ratio >= *aim { "met" } else { "MISSED" };
                println!("  {:10} {ratio:11.1} times faster than {name}; aim {aim}: {judged}", "");
            }
            (Some(_), None) => println!("  {:10} {name} does not get there at any setting tried", ""),
            (None, _) => println!("  {:10} MISSED: ours is not within the error at any setting", ""),
        }
    }
}

fn line(name: &str, side: Option<&Side>) {
    match side {
        Some(Side { seconds, off, told }) => {
            println!("  {name:10} {:11.1} µs  off {:.4} %  {told}", 1e6 * seconds, 100.0 * off);
        }
        None => println!("  {name:10} none within the error"),
    }
}
