//! Making of the page: `cargo run --example make-page` builds the engine for a browser and binds it, the scripts and the
//! looks into one file, `target/page/parings.html`. `cargo run --example make-page -- MODULE` takes a module that was built
//! before, for work on the scripts.

mod bundle;
mod engine;
mod module;

use std::error::Error;
use std::fs;
use std::io::Write;
use std::path::Path;

use data_encoding::BASE64;
use lzma_rust2::{LzmaOptions, LzmaWriter};
use sha2::{Digest, Sha256};

/// What the engine may take up packed: what a page is to carry.
const MOST: usize = 1_800_000;
/// How far back the packing looks: all the way, for a while.
const WINDOW: u32 = 1 << 24;

fn main() -> Result<(), Box<dyn Error>> {
    let page = Path::new(env!("CARGO_MANIFEST_DIR"));
    let root = page.parent().ok_or("the crate stands in no folder")?;
    let module = match std::env::args_os().nth(1) {
        Some(built) => built.into(),
        None => engine::build(root)?,
    };
    let packed = packed(&module::slim(&fs::read(&module)?)?)?;
    let script = bundle::bundle(&page.join("js"), "main.js")?;
    let scripts = ["bits", "unpack", "worker"].map(|name| fs::read_to_string(page.join(format!("js/{name}.js"))));
    let worker = scripts.into_iter().collect::<Result<String, _>>()?;
    let style = fs::read_to_string(page.join("page.css"))?;
    for text in [&script, &worker, &style] {
        if text.contains("</") {
            return Err("what looks like the end of an element would end the script or the style".into());
        }
    }
    let policy = format!(
        "default-src 'none'; script-src {} 'wasm-unsafe-eval'; style-src {}; worker-src blob:; img-src data:; connect-src 'none'; \
         base-uri 'none'; form-action 'none'",
        hash(&script),
        hash(&style)
    );
    let mut html = fs::read_to_string(page.join("page.html"))?;
    let engine = BASE64.encode(&packed);
    for (name, text) in
        [("policy", &policy), ("style", &style), ("worker", &worker), ("script", &script), ("engine", &engine)]
    {
        html = put(&html, name, text)?;
    }
    let folder = root.join("target/page");
    fs::create_dir_all(&folder)?;
    let file = folder.join("parings.html");
    fs::write(&file, &html)?;
    println!("{}: {} bytes, of which the engine {} packed", file.display(), html.len(), packed.len());
    if packed.len() > MOST {
        return Err(format!("the engine is {} bytes packed, and is to have {MOST} at the most", packed.len()).into());
    }
    Ok(())
}

/// Puts a text in the place of its one mark.
fn put(html: &str, name: &str, text: &str) -> Result<String, Box<dyn Error>> {
    let mark = format!("{{{{{name}}}}}");
    let (before, behind) = html.split_once(&mark).ok_or_else(|| format!("page.html has no {mark}"))?;
    Ok(format!("{before}{text}{behind}"))
}

/// Packed as `js/unpack.js` unpacks it.
fn packed(module: &[u8]) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut options = LzmaOptions::with_preset(9);
    options.dict_size = WINDOW;
    options.nice_len = LzmaOptions::NICE_LEN_MAX;
    let mut packer = LzmaWriter::new_use_header(Vec::new(), &options, Some(u64::try_from(module.len())?))?;
    packer.write_all(module)?;
    Ok(packer.finish()?)
}

/// The hash by which the policy lets a script or style through.
fn hash(text: &str) -> String {
    format!("'sha256-{}'", BASE64.encode(&Sha256::digest(text.as_bytes())))
}
