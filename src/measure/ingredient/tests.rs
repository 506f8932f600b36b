//! Lines whose reading is told at a glance; the long table stands with the tests of the crate.

use super::*;

const HOW: Conventions = Conventions { marks: Marks::Unknown, volumes: Volumes::Us };

fn said(amount: &AmountText) -> String {
    match amount {
        AmountText::Unsaid => String::new(),
        AmountText::Bare(number) => plain(*number),
        AmountText::Measured(measured) => measured.to_string(),
        AmountText::Packages { count, of, size } => {
            format!("{} {} of {size}", plain(*count), of.as_ref().map_or("packages".to_owned(), |of| of.name()))
        }
        AmountText::Unmeasured(words) => format!("~{words}"),
        AmountText::Asked => "?".to_owned(),
    }
}

#[test]
fn amount_name_and_preparation_come_apart() {
    for (text, amount, name, prep) in [
        ("2 lb onions, yellow, diced", "2 lb", "onions, yellow", "diced"),
        ("a dozen eggs", "1 dozen", "eggs", ""),
        ("half an onion, minced", "0.5", "onion", "minced"),
        ("1 C half & half", "1 cup", "half & half", ""),
        ("juice of 2 lemons", "2", "lemons", "juice"),
        ("1 can (14 oz) coconut milk, shaken", "1 can of 14 oz", "coconut milk", "shaken"),
        ("3 x 400g tins chopped tomatoes", "3 tin of 400 g", "chopped tomatoes", ""),
        ("chicken thigh, bnls, sknls, cut in strips, 5#", "5 lb", "chicken thigh, bnls, sknls", "cut in strips"),
        ("onions, diced - 2 lb", "2 lb", "onions", "diced"),
        ("3-4 cloves garlic", "?", "garlic", ""),
        ("12/2 chix", "?", "chix", ""),
        ("salt to taste", "~to taste", "salt", ""),
        // What begins with a digit and is no amount.
        ("2% milk, 1 qt", "1 qt", "2% milk", ""),
        ("7-up, 1 can", "1 can", "7-up", ""),
        ("5-spice powder 1 tsp", "1 tsp", "5-spice powder", ""),
        ("00 flour 2 kg", "2 kg", "00 flour", ""),
        ("16/20 shrimp, 3 lb", "3 lb", "16/20 shrimp", ""),
        // More ways to say how much.
        ("1 lb butter (4 sticks)", "1 lb", "butter", ""),
        ("2 (14.5 oz) cans diced tomatoes", "2 can of 14.5 oz", "diced tomatoes", ""),
        ("10 oz. pkg frozen spinach", "1 pack of 10 oz", "frozen spinach", ""),
        ("1 lb. 8 oz. flour", "1.5 lb", "flour", ""),
        ("100g/3½oz butter", "100 g", "butter", ""),
        ("½ of an onion", "0.5", "onion", ""),
        ("about 2 lb leeks", "2 lb", "leeks", ""),
        ("3 5-lb chickens", "3", "chickens, 5 lb", ""),
        ("2 lb 3 oz pieces cod", "?", "pieces cod", ""),
        ("1/4 cup each salt and pepper", "?", "salt and pepper", ""),
        ("6 750 ml bottles red wine", "6 bottle of 750 ml", "red wine", ""),
        ("a splash of white wine", "~splash", "white wine", ""),
    ] {
        let line = parse_line(text, HOW);
        assert_eq!(
            (said(&line.amount).as_str(), line.name.as_str(), line.prep.as_str()),
            (amount, name, prep),
            "{text}"
        );
        assert_eq!(line.question.is_some(), amount == "?", "{text}");
    }
}

#[test]
fn an_amount_in_its_own_cell_says_what_is_done() {
    let line = parse_parts("zest & juice of 3", "lemon", HOW);
    assert_eq!((said(&line.amount).as_str(), line.prep.as_str()), ("3", "zest and juice"));
    // Between 2 400 and 2 of 400 nobody can choose.
    assert_eq!(said(&parse_parts("2 400 g", "tomatoes", HOW).amount), "?");
    assert_eq!(said(&parse_parts("2 cans (51 oz)", "clams", HOW).amount), "2 can of 51 oz");
}

proptest::proptest! {
    #[test]
    fn no_text_panics(text in "\\PC*", close in "[-0-9.,/½ #\"()a-zA-Z&+x]{0,40}") {
        for text in [&text, &close] {
            let _ = parse_line(text, HOW).total();
            let _ = parse_parts(text, &close, HOW);
        }
    }
}
