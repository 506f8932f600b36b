//! Writes the published JSON Schemas anew from the types that the JSON is made from: `cargo run --example make-schemas`.

use std::path::Path;

fn main() -> std::io::Result<()> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/output/schemas");
    std::fs::create_dir_all(&folder)?;
    for (name, schema) in parings::output::schemas::all() {
        let file = folder.join(format!("{name}.schema.json"));
        std::fs::write(&file, schema)?;
        println!("{}", file.display());
    }
    Ok(())
}
