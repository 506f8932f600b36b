//! Prices of bought items: what each row costs per base unit, and which row is in use.

pub(crate) mod bought;
pub(crate) mod compare;
pub(crate) mod in_use;
pub(crate) mod lent_statements;
pub(crate) mod preferred_supplier;
