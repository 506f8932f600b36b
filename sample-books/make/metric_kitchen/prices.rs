//! What the metric kitchen pays: the list that its bookkeeper exports, as csv with semicolons, decimal commas and a
//! byte order mark.

use rust_xlsxwriter::XlsxError;

/// One row for each price. Old prices stay; hake has one that does not count yet.
const ROWS: &str = "\
Item;Code;Supplier;Pack;Price;Per;Date;Yield;Preferred;Also called;Allergens;May contain;Group
Hake, whole;SF-101;Saltmarrow Fish and Fowl;2 x 6 kg avg;13,80 €;kg;12.10.2026;;;Whole hake;Fish;;Fish
Hake, whole;SF-101;Saltmarrow Fish and Fowl;2 x 6 kg avg;14,90 €;kg;16.11.2026;;;Whole hake;Fish;;Fish
Hake, whole;SF-101;Saltmarrow Fish and Fowl;2 x 6 kg avg;15,80 €;kg;01.12.2026;;;Whole hake;Fish;;Fish
Trout, whole;SF-107;Saltmarrow Fish and Fowl;20 each;86,00 €;;16.11.2026;;;;Fish;;Fish
Prawns, shell on;SF-120;Saltmarrow Fish and Fowl;6 x 1 kg;124,80 €;;14.09.2026;;yes;;Crustaceans, Sulphites;Molluscs;Fish
Prawns, shell on;SF-120;Saltmarrow Fish and Fowl;6 x 1 kg;129,00 €;;09.11.2026;;yes;;Crustaceans, Sulphites;Molluscs;Fish
Prawns, shell on;3320;Stonebarrow Foods;10 x 1 kg;198,00 €;;16.11.2026;;;;Crustaceans, Sulphites;Molluscs;Fish
Fish bones;SF-190;Saltmarrow Fish and Fowl;10 kg;12,00 €;;16.11.2026;;;;Fish;;Fish
Chicken, whole;SF-201;Saltmarrow Fish and Fowl;8 x 1,6 kg avg;8,60 €;kg;09.11.2026;;;;none;;Poultry
Chicken legs;SF-204;Saltmarrow Fish and Fowl;10 kg;78,00 €;;09.11.2026;;;;none;;Poultry
Chicken bones;SF-209;Saltmarrow Fish and Fowl;10 kg;18,00 €;;09.11.2026;;;;none;;Poultry
Butter, unsalted;1010;Stonebarrow Foods;20 x 500 g;79,00 €;;05.10.2026;;;Butter;Milk;;Dairy and eggs
Butter, unsalted;1010;Stonebarrow Foods;20 x 500 g;84,00 €;;09.11.2026;;;Butter;Milk;;Dairy and eggs
Whipping cream;1016;Stonebarrow Foods;6 x 1 l;29,40 €;;09.11.2026;;;Cream;Milk;;Dairy and eggs
Crème fraîche;1021;Stonebarrow Foods;5 kg;22,50 €;;09.11.2026;;;;Milk;;Dairy and eggs
Milk, whole;1030;Stonebarrow Foods;10 l;11,50 €;;09.11.2026;;;;Milk;;Dairy and eggs
Eggs, free range;1044;Stonebarrow Foods;30 each;8,40 €;;16.11.2026;;;;Eggs;;Dairy and eggs
Onions;2001;Stonebarrow Foods;10 kg;9,80 €;;16.11.2026;90 %;;;none;;Vegetables
Shallots;2004;Stonebarrow Foods;5 kg;13,50 €;;16.11.2026;88 %;;;none;;Vegetables
Leeks;2007;Stonebarrow Foods;10 kg;21,00 €;;16.11.2026;62,5 %;;;none;;Vegetables
Carrots;2010;Stonebarrow Foods;10 kg;8,90 €;;16.11.2026;84 %;;;none;;Vegetables
Celery;2013;Stonebarrow Foods;12 each;16,80 €;;16.11.2026;80 %;;;Celery;;Vegetables
Fennel;2015;Stonebarrow Foods;5 kg;14,50 €;;16.11.2026;65 %;;;none;;Vegetables
Potatoes;2020;Stonebarrow Foods;25 kg;21,25 €;;05.10.2026;82 %;;;none;;Vegetables
Potatoes;2020;Stonebarrow Foods;25 kg;23,75 €;;16.11.2026;82 %;;;none;;Vegetables
Garlic;2023;Stonebarrow Foods;1 kg;7,20 €;;16.11.2026;85 %;;;none;;Vegetables
Button mushrooms;2031;Stonebarrow Foods;3 kg;11,70 €;;16.11.2026;92 %;;;none;;Vegetables
Lemons;SF-305;Saltmarrow Fish and Fowl;120 each;33,60 €;;09.11.2026;;;;none;;Fruit and herbs
Lemons;2052;Stonebarrow Foods;30 each;9,30 €;;16.11.2026;;;;none;;Fruit and herbs
Flat parsley;2061;Stonebarrow Foods;10 bunch;9,50 €;;16.11.2026;75 %;;;none;;Fruit and herbs
Tarragon;2064;Stonebarrow Foods;5 bunch;8,75 €;;16.11.2026;60 %;;;none;;Fruit and herbs
Chives;2066;Stonebarrow Foods;10 bunch;8,00 €;;16.11.2026;95 %;;;none;;Fruit and herbs
Bay leaves;2070;Stonebarrow Foods;100 g;3,90 €;;05.10.2026;;;;none;;Fruit and herbs
Peeled tomatoes;4001;Stonebarrow Foods;6 x 2,5 kg;34,50 €;;05.10.2026;;;;none;;Dry goods
Tomato paste;4004;Stonebarrow Foods;12 x 800 g;40,80 €;;05.10.2026;;;;none;;Dry goods
Plain flour;4010;Stonebarrow Foods;25 kg;18,75 €;;05.10.2026;;;;Wheat;;Dry goods
Short-grain rice;4013;Stonebarrow Foods;5 kg;13,50 €;;05.10.2026;;;;none;;Dry goods
Green lentils;4016;Stonebarrow Foods;5 kg;14,00 €;;05.10.2026;;;;none;Wheat;Dry goods
Sourdough loaf;4020;Stonebarrow Foods;6 each;21,60 €;;16.11.2026;;;;Wheat, Rye;Sesame;Dry goods
Pistachios, shelled;4024;Stonebarrow Foods;1 kg;24,50 €;;05.10.2026;;;;Nuts;Peanuts;Dry goods
Saffron;4031;Stonebarrow Foods;10 g;34,00 €;;05.10.2026;;;;;;Dry goods
Black peppercorns;4033;Stonebarrow Foods;1 kg;18,50 €;;05.10.2026;;;;none;;Dry goods
Sea salt;4035;Stonebarrow Foods;10 kg;6,90 €;;05.10.2026;;;;none;;Dry goods
Capers;4040;Stonebarrow Foods;6 x 700 g;39,90 €;;05.10.2026;60 %;;;Sulphites;;Dry goods
Wholegrain mustard;4042;Stonebarrow Foods;6 x 1 kg;28,80 €;;05.10.2026;;;;Mustard, Sulphites;;Dry goods
Olive oil;4101;Stonebarrow Foods;4 x 5 l;178,00 €;;05.10.2026;;;;none;;Oil and vinegar
Sunflower oil;4104;Stonebarrow Foods;10 l;21,90 €;;05.10.2026;;;;none;;Oil and vinegar
White wine vinegar;4110;Stonebarrow Foods;5 l;7,25 €;;05.10.2026;;;;Sulphites;;Oil and vinegar
White wine, dry;5001;Stonebarrow Foods;240 x 75 cl;1.128,00 €;;05.10.2026;;;Dry white wine;Sulphites;;Cellar
Dry vermouth;5010;Stonebarrow Foods;12 x 750 ml;102,00 €;;05.10.2026;;;;Sulphites;;Cellar
Brandy;5014;Stonebarrow Foods;6 x 70 cl;96,60 €;;06.07.2026;;;;none;;Cellar
";

/// The list as bytes, its lines ended as office programs end them.
pub fn list() -> Result<Vec<u8>, XlsxError> {
    Ok(format!("\u{feff}{ROWS}").replace('\n', "\r\n").into_bytes())
}
