//! A part may not bear a name of what went in, whatever it is called in the price list, and not that of what was added.

use super::{costed, problems};
use crate::support::{no_errors, part};

fn cooking(added: &str, parts: &str) -> serde_json::Value {
    costed(&format!(
        "Item,Pack,Price,Also called\nDuck,10 lb,30.00,Mallard\nDuck fat,1 lb,4.00,\n\nTest,Role,Part,Weight\n\
         Confit,as purchased,Duck,10 lb\nConfit,added,{added},2 lb\nConfit,main,Confit duck,7 lb\n{parts}"
    ))
}

#[test]
fn a_part_of_the_name_of_what_was_added_is_an_error_with_another_name() {
    for (added, part) in [("Duck fat", "duck fats"), ("Marinade", "Marinade"), ("Duck fat", "Mallard")] {
        let json = cooking(added, &format!("Confit,by-product,{part},1 lb\n"));
        let found: Vec<String> = problems(&json).into_iter().filter(|problem| problem.contains("error")).collect();
        assert_eq!(found, ["C13 error part-named-as-input"], "{part}");
        let told = json["problems"].as_array().unwrap().iter().find(|one| one["severity"] == "error").unwrap();
        assert_eq!(told["help"], format!("Name what came out differently, for example “{part}, used”."));
    }
}

#[test]
fn what_is_poured_off_may_be_called_what_it_is() {
    let json = cooking("Duck fat", "Confit,waste,Duck fat,1 lb\n");
    no_errors(&json);
    // 30.00 and 2 lb of fat at 4.00 stay on the duck.
    assert_eq!(part(&json, "Confit", "Confit duck")["cost"], "38");
}
