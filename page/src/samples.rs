//! Files within the page: kitchens to try it with, and empty books to fill in.

/// A built-in file by its name.
pub fn built(name: &str) -> Option<&'static [u8]> {
    FILES.iter().find(|(known, _)| *known == name).map(|(_, bytes)| *bytes)
}

const FILES: &[(&str, &[u8])] = &[
    ("teaching-kitchen.xlsx", include_bytes!("../../sample-books/teaching-kitchen.xlsx")),
    ("teaching-kitchen-fernhollow.csv", include_bytes!("../../sample-books/teaching-kitchen-fernhollow.csv")),
    ("metric-kitchen.xlsx", include_bytes!("../../sample-books/metric-kitchen.xlsx")),
    ("metric-kitchen-prices.csv", include_bytes!("../../sample-books/metric-kitchen-prices.csv")),
    ("us-book.xlsx", include_bytes!("../../templates/us.xlsx")),
    ("metric-book.xlsx", include_bytes!("../../templates/metric.xlsx")),
    ("us-bench-form.xlsx", include_bytes!("../../templates/us-bench.xlsx")),
    ("metric-bench-form.xlsx", include_bytes!("../../templates/metric-bench.xlsx")),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn built_in_files_are_found_by_name() {
        assert!(FILES.iter().all(|(name, bytes)| !bytes.is_empty() && built(name).is_some()));
        assert!(built("nothing.xlsx").is_none());
    }
}
