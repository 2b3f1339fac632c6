//! Counts and lists in words.

const SMALL: [&str; 13] =
    ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// `nine`, `14`: numbers up to twelve in words, as a careful cook writes them.
#[must_use]
pub fn number_word(count: usize) -> String {
    SMALL.get(count).map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// `plate`, `plates`: the noun for a count; pass both forms.
#[must_use]
pub fn plural<'a>(count: usize, one: &'a str, many: &'a str) -> &'a str {
    if count == 1 { one } else { many }
}

/// `nine portions`, `one portion`, `no portions`.
#[must_use]
pub fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{} {}", number_word(count), plural(count, one, many))
}

/// `A`, `A and B`, `A, B and C`.
#[must_use]
pub fn and_list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [only] => only.clone(),
        [start @ .., last] => format!("{} and {last}", start.join(", ")),
    }
}

/// The same words with a capital at the front.
#[must_use]
pub fn sentence_case(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_and_counts_read_as_words() {
        let words =
            |items: &[&str]| and_list(&items.iter().map(|item| (*item).to_owned()).collect::<Vec<_>>());
        assert_eq!(words(&["A"]), "A");
        assert_eq!(words(&["A", "B", "C"]), "A, B and C");
        assert_eq!(counted(1, "plate", "plates"), "one plate");
        assert_eq!(counted(14, "plate", "plates"), "14 plates");
        assert_eq!(sentence_case("one of 31"), "One of 31");
    }
}
