//! A kitchen whose tables are full of what may be filled, cleared and typed over: yields lent, rivals of a day, tax within
//! prices, runs of a test, ways to a price that cross a yield, dishes that take price or target from elsewhere. Invented.

pub const KITCHEN: &str = r#"Setting,Value
Currency,USD
Costing date,2026-11-20
Target food cost,30%
Q factor,4%
Spice factor,2%
Spice covers Q,no
Menu prices include tax,8%
Prices include tax,7%
Price ending,.95

Item,Pack,Price,Per,Supplier,Date,Yield,Further cost,Credit,Tax,Reference food,Until,Preferred
Onions,50 lb,25.00,,Northgate,2026-11-01,,,,,
Onions,50 lb,24.00,,Northgate,2026-09-01,88%,,,,
Carrots,25 lb,20.00,,Northgate,2026-11-01,80%,1.50,,,
Carrots,25 lb,23.00,,Southbank,2026-11-01,82%,,,,
Cream,1 gal,16.00,,Northgate,2026-11-01,,,0.50,5%,
Eggs,15 dz,36.00,,,,,,,,
Artichokes,24 each,30.00,,,,60%,,,,
Celery,30 lb,24.00,,,,,,,,celery
Chicken base,1 lb,9.00,,,,,,,,
Chickens,40 lb,80.00,,,,,,,,
Butter,36 lb,108.00,,Northgate,2026-10-01,,,,,
Butter,36 lb,MKT,,Northgate,2026-11-10,,,,,
Parsley,12 bunch,9.00,,,,,,,,
Whole cod,10 lb avg,4.00,lb,,,,,,,
Lentils,25 lb,20.00,,Northgate,2026-10-01,,,,,,,yes
Lentils,25 lb,15.00,,Southbank,2026-11-01,,,,,,,
Flour,50 lb,20.00,,Northgate,2026-11-01,,,,,,2026-11-30,
Flour,50 lb,22.00,,Northgate,2026-12-01,,,,,,,

Item,Pack count,Unit size,Size unit,Price,Qty,Extended
Rice,6,5,lb,30.00,2,60.00

Item,Measure,Weighs,Basis
Eggs,each,50 g,EP
Artichokes,each,9 oz,EP
Parsley,bunch,2.5 oz,AP
Parsley,bunch,2 oz,EP
Rice,cup,190 g,
Cream,cup,235 g,

Test,Role,Part,Weight,Unit,Kind,Charged as,Value,Run,Instead of,Further cost
Boning chickens,as purchased,Chickens,40,lb,,,,1,,
Boning chickens,main,Chicken breasts,10,lb,,by sales value,4.00,1,,
Boning chickens,by-product,Chicken legs,14,lb,,by sales value,1.50,1,,
Boning chickens,by-product,Chicken bones,12,lb,,price,0.40,1,,0.05
Boning chickens,by-product,Chicken fat,1,lb,,fraction,20%,1,,
Boning chickens,as purchased,Chickens,20,lb,,,,2,,
Boning chickens,main,Chicken breasts,80,oz,,by sales value,0.25,2,,
Boning chickens,by-product,Chicken legs,7,lb,,by sales value,1.50,2,,
Boning chickens,by-product,Chicken bones,6,lb,,price,0.40,2,,0.05
Boning chickens,by-product,Chicken fat,8,oz,,fraction,20%,2,,
Boiling artichokes,as purchased,Artichokes,10,lb,cooking,,,,,
Boiling artichokes,main,Boiled artichokes,9.5,lb,cooking,net realizable value,3.00,,,
Boiling artichokes,by-product,Artichoke water,0.4,lb,cooking,net realizable value,0.50,,,
Filleting cod,as purchased,Whole cod,10,lb,,,,,,
Filleting cod,main,Cod fillet,5,lb,,,,,,
Filleting cod,by-product,Cod bones,4.98,lb,,market,,,1 oz Chicken base per lb,

Recipe,Chicken broth
Makes,8 qt
Ingredient,Qty,Unit
Chicken bones,8,lb
Onions,2,lb
Carrots,1,lb
Celery,1,lb

Recipe,Artichoke soup
Portions,12
Menu price,9.00
Target,28%
Spice factor,3%
Q factor,5%
Ingredient,Qty,Unit,Prep
Chicken broth,3,qt,
Boiled artichokes,4,lb,
Cream,2,cup,
Butter,8,oz,
Parsley,2,oz,

Recipe,Chicken and rice
Portions,10
Ingredient,Qty,Unit,Basis,Yield,Used
Chicken breasts,5,lb,,,
Rice,4,cup,,,
Eggs,150,g,EP,,
Onions,1,lb,,,
Chicken fat,4,oz,,,50%
Cod fillet,1,lb,,,
Cod bones,1,lb,,,
Lentils,2,lb,,,
Flour,8,oz,,,

Recipe,Carrot plate
Makes,3 lb
Portion,8 oz
Serving loss,4%
Menu price,7.00
Ingredient,Qty,Unit
Carrots,3,lb
Celery,1,lb
Butter,4,oz

Dish,Recipe,Portion,Menu price,Target,Tax,Sold
Artichoke soup,,,,,,40
Big artichoke soup,Artichoke soup,2 portions,17.00,,5%,
Chicken and rice,,,,,,30
Chicken for two,Chicken and rice,2 portions,28.00,32%,,

Dish,Portions
Artichoke soup,40
Chicken and rice,30

Item,On hand,Unit
Onions,10,lb
Chicken bones,3,lb
"#;
