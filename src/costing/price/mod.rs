//! Prices of bought items: what each row costs per base unit, and which row is in use.

pub mod bought;
pub mod compare;
pub mod in_use;
pub mod lent_statements;
pub mod preferred_supplier;
