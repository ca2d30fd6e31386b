//! Why a call was refused, as JavaScript sees it.

use js_sys::{Error, Reflect};
use wasm_bindgen::JsValue;

/// Why a call was refused: a code that never changes, and a sentence that may.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// Kebab-case and stable; all of them are listed in the type `HalfcountErrorCode` of the package.
    pub code: &'static str,
    /// One sentence for the developer who reads it.
    pub message: String,
}

impl Refusal {
    /// A refusal with its code.
    #[must_use]
    pub fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, message: message.into() }
    }
}

impl From<crate::Error> for Refusal {
    fn from(error: crate::Error) -> Self {
        let code = match error {
            crate::Error::TooLong { .. } => "text-too-long",
            crate::Error::Unsayable => "not-mirrored",
        };
        Self::new(code, error.to_string())
    }
}

impl From<serde_wasm_bindgen::Error> for Refusal {
    fn from(error: serde_wasm_bindgen::Error) -> Self {
        Self::new("broken", JsValue::from(error).as_string().unwrap_or_default())
    }
}

impl From<Refusal> for JsValue {
    fn from(refusal: Refusal) -> Self {
        let error = Error::new(&refusal.message);
        // An ordinary object takes a new property; should it not, the sentence is still there.
        let _ = Reflect::set(&error, &"code".into(), &refusal.code.into());
        error.into()
    }
}
