//! Short names of foods as kitchens write them, and what they stand for. Common practice, no source.
//!
//! Used to propose the name that is meant and to compare what was proposed; never to take one name for another unseen.

/// Short and full, both in lower case. One word stands for one or several.
const SHORT: &[(&str, &str)] = &[
    ("ap", "all-purpose"),
    ("asst", "assorted"),
    ("big", "large"),
    ("bkg", "baking"),
    ("bakng", "baking"),
    ("blk", "black"),
    ("bnls", "boneless"),
    ("btr", "butter"),
    ("brn", "brown"),
    ("chix", "chicken"),
    ("chkn", "chicken"),
    ("choc", "chocolate"),
    ("chs", "cheese"),
    ("cran", "cranberry"),
    ("crm", "cream"),
    ("cuke", "cucumber"),
    ("cukes", "cucumbers"),
    ("demi", "demi-glace"),
    ("dry", "dried"),
    ("evoo", "extra virgin olive oil"),
    ("fill", "filled"),
    ("filet", "fillet"),
    ("filets", "fillets"),
    ("frz", "frozen"),
    ("frzn", "frozen"),
    ("gr", "ground"),
    ("gran", "granulated"),
    ("grn", "green"),
    ("hvy", "heavy"),
    ("inst", "instant"),
    ("ital", "italian"),
    ("lf", "leaf"),
    ("lg", "large"),
    ("lge", "large"),
    ("lt", "light"),
    ("lvs", "leaves"),
    ("mac", "macaroni"),
    ("mayo", "mayonnaise"),
    ("med", "medium"),
    ("mozz", "mozzarella"),
    ("mush", "mushroom"),
    ("must", "mustard"),
    ("oj", "orange juice"),
    ("parm", "parmesan"),
    ("pot", "potato"),
    ("purpos", "purpose"),
    ("pwd", "powdered"),
    ("pwdr", "powder"),
    ("rstd", "roasted"),
    ("shrd", "shredded"),
    ("sknls", "skinless"),
    ("slcd", "sliced"),
    ("sm", "small"),
    ("strawb", "strawberry"),
    ("strawbs", "strawberries"),
    ("sug", "sugar"),
    ("sw", "sweet"),
    ("tom", "tomato"),
    ("toms", "tomatoes"),
    ("unslt", "unsalted"),
    ("unsltd", "unsalted"),
    ("van", "vanilla"),
    ("veg", "vegetable"),
    ("vin", "vinegar"),
    ("whl", "whole"),
    ("wht", "white"),
    ("worc", "worcestershire"),
    ("worch", "worcestershire"),
    ("xv", "extra virgin"),
    ("yel", "yellow"),
    ("yol", "yolk"),
];

/// What one word stands for, whatever its case and point; `None` for a word that is written out.
pub fn full(word: &str) -> Option<&'static str> {
    let word = word.trim_end_matches('.').to_lowercase();
    SHORT.iter().find(|(short, _)| *short == word).map(|(_, full)| *full)
}

/// `name` with its short words written out, in lower case; marks between words stay.
pub fn written_out(name: &str) -> String {
    let mut out = String::with_capacity(name.len());
    for word in name.split_inclusive([' ', ',', '/', '(', ')', '-']) {
        let body = word.trim_end_matches([' ', ',', '/', '(', ')', '-']);
        let tail = word.get(body.len()..).unwrap_or("");
        match full(body) {
            Some(full) => out.push_str(full),
            None => out.push_str(&body.to_lowercase()),
        }
        out.push_str(tail);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_words_are_written_out_and_others_stay() {
        assert_eq!(written_out("Unsltd btr"), "unsalted butter");
        assert_eq!(written_out("chix thigh, bnls sknls"), "chicken thigh, boneless skinless");
        assert_eq!(written_out("Yellow onions"), "yellow onions");
        assert_eq!(full("EVOO"), Some("extra virgin olive oil"));
        assert_eq!(full("onion"), None);
    }

    #[test]
    fn the_table_is_in_lower_case_and_each_word_once() {
        let mut words: Vec<&str> = SHORT.iter().map(|(short, _)| *short).collect();
        assert!(SHORT.iter().all(|(short, full)| short.to_lowercase() == *short && full.to_lowercase() == *full));
        words.sort_unstable();
        words.dedup();
        assert_eq!(words.len(), SHORT.len());
    }
}
