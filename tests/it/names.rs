//! Names: which spellings are one, and which names are proposed for one that is not in the book. What is expected was
//! written down before it was run, by what a cook would take it for; it has no other source.

use parings::internals::nearest_names;
use parings::kitchen::{NameKey, Reference};

use crate::support::cost_json;

/// The price list, recipes and parts of a kitchen.
const BOOK: &[&str] = &[
    "Onions, yellow",
    "Shallots",
    "Carrots",
    "Celery",
    "Garlic, peeled",
    "Leeks",
    "Tomatoes, plum",
    "Tomato paste",
    "Potatoes, russet",
    "Salad leaves",
    "Parsley, flat",
    "Thyme, fresh",
    "Rosemary",
    "Lemons",
    "Lemon curd",
    "Limes",
    "Cinnamon, ground",
    "Turmeric",
    "Black pepper, ground",
    "Coconut rice",
    "Rice, basmati",
    "Rice flour",
    "Bread flour",
    "Cider vinegar",
    "Sherry vinegar",
    "Olive oil, extra virgin",
    "Olive oil",
    "Sesame oil",
    "Sunflower oil",
    "Walnut oil",
    "Butter, unsalted",
    "Buttermilk",
    "Brown butter",
    "Butternut squash",
    "Peanut butter",
    "Crème fraîche",
    "Cream, heavy",
    "Cream of tartar",
    "Milk, whole",
    "Coconut milk",
    "Parmesan cheese",
    "Cheddar cheese",
    "Mozzarella",
    "Eggs, large",
    "Whole chickens",
    "Chicken breast",
    "Chicken thighs, boneless",
    "Chicken stock",
    "Fish stock",
    "Ground beef",
    "Beef short ribs",
    "Leg of lamb",
    "Cod fillet",
    "Salmon, whole",
    "Shrimp 16/20",
    "Shrimp shells",
    "Mayonnaise",
    "Worcestershire sauce",
    "Half and half",
    "Sugar, brown",
    "Chocolate, dark",
];

/// What is proposed for a name, best first; empty where nothing should be.
const PROPOSED: &[(&str, &[&str])] = &[
    // Slips of the pen
    ("Leaks", &["Leeks"]),
    ("carots", &["Carrots"]),
    ("Shalots", &["Shallots"]),
    ("Parsely, flat", &["Parsley, flat"]),
    ("rosmary", &["Rosemary"]),
    ("cinammon, ground", &["Cinnamon, ground"]),
    ("Tumeric", &["Turmeric"]),
    ("Mozarella", &["Mozzarella"]),
    ("mayonaise", &["Mayonnaise"]),
    ("Worchestershire sauce", &["Worcestershire sauce"]),
    ("Buter, unsalted", &["Butter, unsalted"]),
    ("Brown buter", &["Brown butter"]),
    ("creme fraich", &["Crème fraîche"]),
    ("Chiken stock", &["Chicken stock"]),
    ("Cod filet", &["Cod fillet"]),
    ("Half & half", &["Half and half"]),
    ("Butter milk, fresh", &["Milk, whole", "Coconut milk"]),
    // The same words in another order
    ("Plum tomatoes", &["Tomatoes, plum"]),
    ("Yellow onions", &["Onions, yellow"]),
    ("Boneless chicken thighs", &["Chicken thighs, boneless"]),
    ("Basmati rice", &["Rice, basmati"]),
    ("Unsalted butter", &["Butter, unsalted"]),
    // The thing itself is shared
    ("onion", &["Onions, yellow"]),
    ("Red onions", &["Onions, yellow"]),
    ("Onion, diced", &["Onions, yellow"]),
    ("garlic", &["Garlic, peeled"]),
    ("Garlic cloves", &["Garlic, peeled"]),
    ("Fresh thyme leaves", &["Thyme, fresh"]),
    ("Lemon zest", &["Lemons"]),
    ("egg", &["Eggs, large"]),
    ("potato", &["Potatoes, russet"]),
    ("Salmon fillet", &["Salmon, whole"]),
    ("lamb", &["Leg of lamb"]),
    ("shrimp", &["Shrimp 16/20", "Shrimp shells"]),
    ("Minced beef", &["Ground beef"]),
    // Of equals the first in the book.
    ("Chicken wings", &["Whole chickens", "Chicken breast", "Chicken thighs, boneless"]),
    ("Dark chocolate 70%", &["Chocolate, dark"]),
    ("brown sugar", &["Sugar, brown"]),
    ("Rice vinegar", &["Cider vinegar", "Sherry vinegar"]),
    ("tomato", &["Tomatoes, plum"]),
    ("ribs", &["Beef short ribs"]),
    ("olive oil, light", &["Olive oil", "Olive oil, extra virgin"]),
    // A word that nothing else goes by
    ("parmesan", &["Parmesan cheese"]),
    ("basmati", &["Rice, basmati"]),
    ("worcestershire", &["Worcestershire sauce"]),
    // Nonsense is worse than nothing
    ("Bay leaves", &[]),
    ("Curry leaves", &[]),
    ("Saffron", &[]),
    ("Turkey breast", &[]),
    ("Pork ribs", &[]),
    ("Vanilla", &[]),
    ("Coriander seeds", &[]),
    ("Truffle oil", &[]),
    ("Capers", &[]),
    ("Rye", &[]),
    ("Cos", &[]),
    ("", &[]),
    ("?", &[]),
];

#[test]
fn what_is_proposed_for_what() {
    let mut wrong = Vec::new();
    for (wanted, expected) in PROPOSED {
        let near = nearest_names(wanted, BOOK);
        if near != *expected {
            wrong.push(format!("{wanted}: {near:?}, expected {expected:?}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Which built-in foods are offered for a name of a price list, best first.
const FOODS: &[(&str, &str)] = &[
    // The plain food, not its seed, powder, flour, oil or juice
    ("Celery", "celery"),
    ("Fennel", "Fennel, bulb, raw"),
    ("Potatoes", "potato, russet|potato, red|potato, white"),
    ("Onions", "onion, yellow|onion, sliced|onion, green (scallion)"),
    ("Garlic", "garlic"),
    ("Lemons", "lemon"),
    ("Oranges", "orange"),
    ("Tomatoes", "tomato|tomato, cherry|tomato, plum"),
    ("Corn", "corn, sweet, on the cob"),
    ("Rice", "rice, white, long-grain, raw|rice, white, medium-grain, raw|rice, brown, long-grain, raw"),
    ("Peanuts", "peanuts, raw"),
    ("Ginger", "ginger root|ginger, ground"),
    ("Parsley", "parsley, fresh|parsley, dried"),
    ("Thyme", "thyme, fresh|thyme, dried"),
    ("Mustard", "mustard, yellow, prepared"),
    ("Peas", "peas, green, in pod|peas, green, frozen"),
    ("Eggs", "egg, whole"),
    ("Butter", "butter, salted|butter, unsalted"),
    ("Salt", "salt, table"),
    ("Milk", "milk, whole|milk, 2%|milk, skim"),
    // What the name says
    ("Celery seed", "celery seed"),
    ("Fennel seeds", "fennel seed"),
    ("Potato flour", "potato flour"),
    ("Onion powder", "onion powder"),
    ("Lemon juice", "lemon juice"),
    ("Cumin", "cumin seed"),
    ("Vanilla", "vanilla extract"),
    ("Thyme, dried", "thyme, dried"),
    ("Green beans, frozen", "green beans, frozen"),
    // Plain wheat flour
    ("Flour", "flour, all-purpose|flour, bread|flour, cake"),
    ("All-purpose flour", "flour, all-purpose"),
    ("AP flour", "flour, all-purpose"),
    ("Flour, AP", "flour, all-purpose|flour, bread|flour, cake"),
    ("Plain flour", "flour, all-purpose"),
    ("Wholemeal flour", "flour, whole wheat"),
    // The thing itself, whatever stands beside it
    ("Red onions", "onion, yellow|onion, sliced|onion, green (scallion)"),
    ("Basil leaves", "basil, fresh|basil, dried"),
    ("Basmati rice", "rice, white, long-grain, raw|rice, white, medium-grain, raw|rice, brown, long-grain, raw"),
    ("Butter, unsalted, 36/1 lb", "butter, salted|butter, unsalted"),
    // Dried, canned or frozen is no fresh food, nor the other way round
    ("Tomatoes, diced, canned", "tomatoes, canned, whole in juice|tomatoes, crushed, canned"),
    ("Chopped tomatoes, tinned", "tomatoes, canned, whole in juice|tomatoes, crushed, canned"),
    ("Mushrooms, canned", "Mushrooms, canned, drained solids|Mushrooms, straw, canned, drained solids"),
    ("Frozen spinach", "spinach, frozen"),
    ("Dried cranberries", "Cranberries, dried, sweetened"),
    // Other names of the same
    ("Aubergines", "eggplant"),
    ("Courgettes", "zucchini"),
    ("Beetroot", "beet"),
    ("Spring onions", "onion, green (scallion)"),
    ("Icing sugar", "sugar, powdered, unsifted"),
    ("Caster sugar", "sugar, granulated"),
    ("Double cream", "heavy cream"),
    ("Natural yoghurt", "yogurt, plain, whole milk"),
    ("Cornflour", "cornstarch"),
    // Nothing is better than nonsense
    ("Kosher salt", ""),
    ("Coarse sea salt", ""),
    ("Unicorn", ""),
    ("", ""),
];

#[test]
fn which_built_in_foods_are_offered() {
    let mut wrong = Vec::new();
    for (name, expected) in FOODS {
        let near = Reference::near(name, |_| true).unwrap_or_default().replace(['“', '”'], "\"");
        let foods: Vec<String> = expected.split('|').map(|food| format!("\"{food}\"")).collect();
        let expected = match foods.split_last() {
            Some((last, [])) if last == "\"\"" => String::new(),
            Some((last, [])) => last.clone(),
            Some((last, before)) => format!("{} or {last}", before.join(", ")),
            None => String::new(),
        };
        if near != expected {
            wrong.push(format!("{name}: {near}, expected {expected}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Each row's names are one; those of different rows are not.
#[test]
fn spellings_that_are_one_name() {
    let rows = [
        "Onions, yellow|onion, yellow|ONIONS , Yellow|Onions,yellow|onions,  yellow",
        "Yellow onions|yellow onion|Yellow-Onion",
        "Crème fraîche|creme fraiche|Creme Fraiche|Crème-fraîche",
        "Jalapeños|jalapeno|JALAPEÑO",
        "Tomatoes|tomato|Tomatos",
        "Cherries|cherry",
        "Bay leaves|Bay leaf|bay-leaf",
        "Confectioners’ sugar|Confectioner's sugar|confectioners sugar",
        "All-purpose flour|All purpose flour|all‑purpose flour",
        "Smoked haddock|smoked\u{A0}haddock|Smoked haddocks",
        "Goose|geese",
        "Peach|Peaches",
        "Bass|bass",
        "Peas|pea",
        "Pears|pear",
        "Pasta|pastas",
        "Pastes|paste",
        "Asparagus|asparagus ",
        "Œufs|oeuf",
        "Milk 2%|milk, 2%",
        "Butter, salted|butter, salted",
        "Butter, unsalted|butter,unsalted",
    ];
    for (at, row) in rows.iter().enumerate() {
        for name in row.split('|') {
            for (other_at, other) in rows.iter().enumerate() {
                for other in other.split('|') {
                    let same = NameKey::of(name) == NameKey::of(other);
                    // The comma of “milk, 2%” counts: it is no plural, case, space or accent.
                    let apart = [name, other].contains(&"milk, 2%") && name != other;
                    assert_eq!(same, at == other_at && !apart, "{name} / {other}");
                }
            }
        }
    }
}

fn of_code<'a>(json: &'a serde_json::Value, code: &str) -> Vec<(&'a str, &'a str)> {
    let problems = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code);
    problems.map(|one| (one["message"].as_str().unwrap(), one["help"].as_str().unwrap())).collect()
}

/// In the program: aliases answer, whatever their spelling; what two things share is told.
#[test]
fn aliases_answer_and_collisions_are_told() {
    let book = "\
Setting,Value
Currency,USD

Item,Pack,Price,Also called
\"Onions, yellow\",50 lb,25.00,Spanish onions; cooking onions
\"Onions, red\",25 lb,20.00,Salad onions; Cooking onion
Crème fraîche,1 lb,4.00,

Recipe,Soup
Portions,1
Ingredient,Qty,Unit
SPANISH ONION,2,lb
CREME FRAICHE,1,lb
Salad onion,5,lb

Recipe,Stew
Portions,1
Ingredient,Qty,Unit
Cooking onions,1,lb
";
    let json = cost_json(&[("book.csv", book)]);
    let twice = of_code(&json, "alias-twice");
    assert!(
        twice.len() == 1 && twice[0].0.starts_with("“Cooking onion” is also the name of another item"),
        "{twice:?}"
    );
    let twice = of_code(&json, "name-twice");
    assert_eq!(twice, [("two items are also called “Cooking onions”", "Write the item's own name here.")]);
    assert!(of_code(&json, "name-unknown").is_empty());
    let cost = |item| crate::support::line(&json, "Soup", item)["cost"].as_str().unwrap().to_owned();
    // 2 × 25 ÷ 50; 1 × 4; 5 × 20 ÷ 25.
    assert_eq!((cost("SPANISH ONION").as_str(), cost("CREME FRAICHE").as_str()), ("1", "4"));
    assert_eq!(cost("Salad onion"), "4");
}

/// The table of names: bought items, parts and recipes, in a file of their own; what two things share is told.
#[test]
fn a_table_of_names_answers_for_items_parts_and_recipes() {
    let book = "\
Setting,Value
Currency,USD

Item,Pack,Price
\"Onions, yellow\",50 lb,25.00
Prawns,10 lb,60.00

Test,Role,Part,Weight,Unit,Charged as
Peeling,as purchased,Prawns,10,lb,
Peeling,main,Prawn tails,6,lb,
Peeling,by-product,Shells,4,lb,free

Recipe,\"Rub, house\"
Makes,1 lb
Ingredient,Qty,Unit
\"Onions, yellow\",2,lb

Recipe,Soup
Portions,1
Ingredient,Qty,Unit
Spanish onions,2,lb
House rub,1,lb
Prawn shells,1,lb
";
    let names = "\
Item,Also called
\"onions, yellow\",spanish onion; Cooking onions
\"Rub, house\",house rub
Shells,Prawn shells
Turnips,Neeps
Prawns,Cooking onions
";
    let json = cost_json(&[("book.csv", book), ("names.csv", names)]);
    let cost = |item| crate::support::line(&json, "Soup", item)["cost"].as_str().unwrap().to_owned();
    // 2 × 25 ÷ 50; the rub is 2 lb of onions, 1.00 for its 1 lb; shells are free.
    assert_eq!((cost("Spanish onions").as_str(), cost("House rub").as_str()), ("1", "1"));
    assert_eq!(cost("Prawn shells"), "0");
    let unknown = of_code(&json, "name-unknown");
    assert!(unknown.len() == 1 && unknown[0].0.starts_with("“Turnips”"), "{unknown:?}");
    let twice = of_code(&json, "alias-twice");
    assert!(twice.len() == 1 && twice[0].0.starts_with("“Cooking onions” is also the name"), "{twice:?}");
}

/// Short forms and preparations are proposed, and nothing is taken by itself.
#[test]
fn short_forms_word_order_and_preparations_are_proposed() {
    let book = "\
Item,Pack,Price
Yellow onions,50 lb,$25.00
Unsalted butter,36 lb,$108.00
\"Chicken thigh, boneless skinless\",10 lb,$25.00

Recipe,Soup
Portions,1
Ingredient,Qty,Unit
\"onions, yellow, diced\",2,lb
unsltd btr,1,lb
\"chix thigh, bnls sknls\",1,lb
";
    let json = cost_json(&[("book.csv", book)]);
    let help: Vec<&str> = of_code(&json, "name-unknown").into_iter().map(|(_, help)| help).collect();
    assert_eq!(help.len(), 3, "none is taken");
    assert!(
        help[0].starts_with("Did you mean “Yellow onions”?") && help[0].contains("“diced” belongs under Prep"),
        "{help:?}"
    );
    assert!(help[1].starts_with("Did you mean “Unsalted butter”?") && help[1].contains("in a table Names"), "{help:?}");
    assert!(help[2].starts_with("Did you mean “Chicken thigh, boneless skinless”?"), "{help:?}");
}

/// A whole salmon broken down: what “Salmon” most likely means is the main, then what is bought; waste is never meant.
const SALMON: &str = "\
Setting,Value
Currency,USD
Target food cost,30%

Item,Pack,Price,Also called,Allergens
\"Salmon, whole\",10 lb,90.00,,fish
Dill,1 lb,6.00,,none

Test,Role,Part,Weight
Salmon,as purchased,\"Salmon, whole\",12 lb
Salmon,by-product,Salmon trim,1 lb
Salmon,by-product,Salmon bones,2 lb
Salmon,waste,Salmon skin,1 lb
Salmon,main,\"Salmon fillet, boneless\",7 lb

";

#[test]
fn mains_are_proposed_before_what_is_bought_and_by_products_last() {
    let recipe = "Recipe,Plate\nPortions,1\nIngredient,Qty,Unit\nSalmon,1,lb\n";
    let json = cost_json(&[("book.csv", &format!("{SALMON}{recipe}"))]);
    let help = "Did you mean “Salmon fillet, boneless”, “Salmon, whole” or “Salmon trim”? If “Salmon” is your second name \
                for it, type that under Also called on its price row, or in a table Names.";
    assert_eq!(of_code(&json, "name-unknown"), [("“Salmon” has no price, no recipe and no yield test", help)]);
    // As it says.
    let named = SALMON.replace("90.00,,", "90.00,Salmon,");
    let json = cost_json(&[("book.csv", &format!("{named}{recipe}"))]);
    assert!(of_code(&json, "name-unknown").is_empty());
}

#[test]
fn a_name_that_nothing_is_near_may_go_to_taste() {
    let recipe = "Recipe,Plate\nPortions,1\nIngredient,Qty,Unit\nDill,1,lb\nSumac,1,tsp\n";
    let json = cost_json(&[("book.csv", &format!("{SALMON}{recipe}"))]);
    let help = "Add a price row, a recipe or a yield-test part of this name, or correct the spelling; if the price list has \
                it under another name, type yours there under Also called. If it need not be costed, type to taste \
                under Qty.";
    assert_eq!(of_code(&json, "name-unknown"), [("“Sumac” has no price, no recipe and no yield test", help)]);
}

#[test]
fn a_name_without_cost_is_noted_once_however_often_it_is_used() {
    let recipes = "Recipe,Plate\nPortions,1\nIngredient,Qty,Unit\nDill,1,lb\nSumac,to taste,\nBay leaf,1,pinch\n\n\
                   Recipe,Bowl\nPortions,1\nIngredient,Qty,Unit\nDill,1,lb\nsumac,to taste,\nBay leaves,as needed,\n\
                   Sumac,a pinch,\nSalmon skin,to taste,\n";
    let json = cost_json(&[("book.csv", &format!("{SALMON}{recipes}"))]);
    let notes = of_code(&json, "name-uncosted");
    let messages: Vec<&str> = notes.iter().map(|(message, _)| *message).collect();
    assert_eq!(
        messages,
        [
            "“Sumac” is not costed and has no price row, here and on 2 other lines: its allergens are not stated",
            "“Bay leaf” is not costed and has no price row, here and on 1 other line: its allergens are not stated",
            "“Salmon skin” is not costed and has no price row: its allergens are not stated",
        ]
    );
    assert_eq!(notes[2].1, "Set its Role to by-product if it is kept and used.");
    // Each recipe says what it does not know.
    let unstated = |name| crate::support::recipe(&json, name)["allergens_not_stated"].to_string();
    assert!(unstated("Plate").contains("Sumac") && unstated("Bowl").contains("umac"));
}
