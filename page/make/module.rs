//! Module as a page carries it: without what nobody calls, in the order in which it packs best.
//!
//! Copies of generic code for one type and another are alike, and what is alike packs best side by side. So functions of one name
//! stand together, those that begin alike the nearest. Their names are read here and not carried.

use std::collections::HashMap;
use std::convert::Infallible;
use std::error::Error;

use wasm_encoder::reencode::{Error as Fault, Reencode, utils};
use wasm_encoder::{CodeSection, ExportSection, FunctionSection, Module};
use wasmparser::{
    CodeSectionReader, CustomSectionReader, Element, ElementItems, Export, ExternalKind, FunctionBody,
    FunctionSectionReader, KnownCustom, Name, Operator, Parser, Payload, TypeRef,
};

/// What JavaScript calls; all else that is exported describes itself to a binding generator that is not used.
fn is_called(export: &Export<'_>) -> bool {
    export.kind == ExternalKind::Memory || export.name.starts_with("parings_")
}

/// The module with only what can be called, in the order in which it packs best.
pub fn slim(module: &[u8]) -> Result<Vec<u8>, Box<dyn Error>> {
    let parts = Parts::of(module)?;
    let mut slim = Slim::of(&parts)?;
    let mut made = Module::new();
    utils::parse_core_module(&mut slim, &mut made, Parser::new(0), module)?;
    Ok(made.finish())
}

/// What a module holds, as far as it matters here. Functions count on from those that are imported.
#[derive(Default)]
struct Parts<'a> {
    imported: u32,
    types: Vec<u32>,
    bodies: Vec<FunctionBody<'a>>,
    names: HashMap<u32, &'a str>,
    /// Functions that are called from outside, or by their place in a table.
    roots: Vec<u32>,
}

impl<'a> Parts<'a> {
    fn of(module: &'a [u8]) -> Result<Self, Box<dyn Error>> {
        let mut parts = Self::default();
        for payload in Parser::new(0).parse_all(module) {
            match payload? {
                Payload::ImportSection(imports) => {
                    for import in imports.into_imports() {
                        let is_function = matches!(import?.ty, TypeRef::Func(_));
                        parts.imported = parts.imported.saturating_add(u32::from(is_function));
                    }
                }
                Payload::FunctionSection(types) => parts.types = types.into_iter().collect::<Result<_, _>>()?,
                Payload::ExportSection(exports) => {
                    for export in exports {
                        let export = export?;
                        if is_called(&export) && export.kind == ExternalKind::Func {
                            parts.roots.push(export.index);
                        }
                    }
                }
                Payload::StartSection { func, .. } => parts.roots.push(func),
                Payload::ElementSection(elements) => {
                    for element in elements {
                        parts.roots.extend(in_table(element?)?);
                    }
                }
                Payload::CodeSectionEntry(body) => parts.bodies.push(body),
                Payload::CustomSection(section) => {
                    if let KnownCustom::Name(names) = section.as_known() {
                        for name in names {
                            if let Name::Function(functions) = name? {
                                for function in functions {
                                    let function = function?;
                                    parts.names.insert(function.index, function.name);
                                }
                            }
                        }
                    }
                }
                _ => {}
            }
        }
        Ok(parts)
    }

    fn body(&self, function: u32) -> Option<&FunctionBody<'a>> {
        self.bodies.get(usize::try_from(function.checked_sub(self.imported)?).ok()?)
    }

    /// A function's name, without the length that it begins with and the hash that tells copies apart, and its code.
    fn order(&self, function: u32) -> (&'a str, &'a [u8]) {
        let name = self.names.get(&function).copied().unwrap_or_default();
        let name = name.strip_prefix("_ZN").unwrap_or(name).trim_start_matches(|c: char| c.is_ascii_digit());
        let name = name.rsplit_once("17h").map_or(name, |(name, _)| name);
        (name, self.body(function).map(FunctionBody::as_bytes).unwrap_or_default())
    }
}

fn in_table(element: Element<'_>) -> Result<Vec<u32>, Box<dyn Error>> {
    match element.items {
        ElementItems::Functions(functions) => Ok(functions.into_iter().collect::<Result<_, _>>()?),
        ElementItems::Expressions(..) => Err("a table of the module is not of functions".into()),
    }
}

/// The module as it is written anew.
struct Slim<'a> {
    parts: &'a Parts<'a>,
    /// The functions that are kept, in their new order.
    kept: Vec<u32>,
    /// Where each stands then.
    places: HashMap<u32, u32>,
}

impl<'a> Slim<'a> {
    fn of(parts: &'a Parts<'a>) -> Result<Self, Box<dyn Error>> {
        let mut places: HashMap<u32, u32> = (0..parts.imported).map(|function| (function, function)).collect();
        let mut kept = Vec::new();
        let mut next = parts.roots.clone();
        while let Some(function) = next.pop() {
            let Some(body) = parts.body(function).filter(|_| !places.contains_key(&function)) else { continue };
            places.insert(function, 0);
            kept.push(function);
            for operator in body.get_operators_reader()? {
                match operator? {
                    Operator::Call { function_index }
                    | Operator::ReturnCall { function_index }
                    | Operator::RefFunc { function_index } => next.push(function_index),
                    _ => {}
                }
            }
        }
        kept.sort_by_key(|function| (parts.order(*function), *function));
        places.extend(kept.iter().copied().zip(parts.imported..));
        Ok(Self { parts, kept, places })
    }
}

impl Reencode for Slim<'_> {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Fault> {
        // What is not kept is named by nothing that is.
        Ok(self.places.get(&function).copied().unwrap_or_default())
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        _: FunctionSectionReader<'_>,
    ) -> Result<(), Fault> {
        for function in &self.kept {
            let at = function.saturating_sub(self.parts.imported);
            functions.function(self.parts.types.get(at as usize).copied().unwrap_or_default());
        }
        Ok(())
    }

    fn parse_code_section(&mut self, code: &mut CodeSection, _: CodeSectionReader<'_>) -> Result<(), Fault> {
        let parts = self.parts;
        for function in self.kept.clone() {
            if let Some(body) = parts.body(function) {
                self.parse_function_body(code, body.clone())?;
            }
        }
        Ok(())
    }

    fn parse_export(&mut self, exports: &mut ExportSection, export: Export<'_>) -> Result<(), Fault> {
        if is_called(&export) { utils::parse_export(self, exports, export) } else { Ok(()) }
    }

    fn parse_custom_section(&mut self, _: &mut Module, _: CustomSectionReader<'_>) -> Result<(), Fault> {
        Ok(())
    }
}
