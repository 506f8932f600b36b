//! A long list beside a long book: every row is looked up, none is compared with all others.

use super::{of_green_valley, with};

#[test]
fn a_long_list_is_taken_whole() {
    let rows = 4_000;
    let row = |n: usize, price: &str| format!("Item {n} of the list,10 lb,{price},Green Valley,{n}\n");
    let body = |price: &str| (0..rows).map(|n| row(n, price)).collect::<String>();
    let head = "Item,Pack,Price,Supplier,Code\n";
    let list = with(&format!("{head}{}", body("$10.00")), &format!("{head}{}", body("$11.00")), &of_green_valley());
    assert_eq!(list.list.taken.len(), rows);
    assert!(list.list.problems.is_empty());
}
