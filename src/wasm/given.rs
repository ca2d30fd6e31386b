//! What a caller gives: a text, and options of which none is passed over in silence.

use js_sys::{Array, Number, Object, Reflect};
use wasm_bindgen::{JsCast as _, JsValue};

use super::error::Refusal;

/// The text of a sheet, or a refusal where something else was given.
pub(super) fn text(value: &JsValue) -> Result<String, Refusal> {
    value.as_string().ok_or_else(|| Refusal::new("text-not-a-string", "the sheet must be given as a string"))
}

/// The options of one call.
pub(super) struct Given {
    object: JsValue,
}

impl Given {
    /// Options of which only these names are known. Nothing at all and `null` stand for the usual ones.
    pub(super) fn read(options: &JsValue, known: &[&str]) -> Result<Self, Refusal> {
        if options.is_undefined() || options.is_null() {
            return Ok(Self { object: JsValue::UNDEFINED });
        }
        let not_an_object =
            || Refusal::new("options-not-an-object", "options must be given as an object, or left out");
        if Array::is_array(options) {
            return Err(not_an_object());
        }
        let object = options.dyn_ref::<Object>().ok_or_else(not_an_object)?;
        for key in Object::keys(object).iter() {
            let key = key.as_string().unwrap_or_default();
            if !known.contains(&&*key) {
                let mut message = String::from("there is no option ");
                message.push_str(&key);
                message.push_str("; known are: ");
                message.push_str(&known.join(", "));
                return Err(Refusal::new("option-unknown", message));
            }
        }
        Ok(Self { object: options.clone() })
    }

    /// The value of an option; `undefined` and `null` stand for the usual one.
    fn get(&self, name: &str) -> Result<Option<JsValue>, Refusal> {
        if self.object.is_undefined() {
            return Ok(None);
        }
        let value = Reflect::get(&self.object, &name.into()).map_err(|_| wrong(name, "readable"))?;
        Ok(if value.is_undefined() || value.is_null() { None } else { Some(value) })
    }

    pub(super) fn string(&self, name: &str) -> Result<Option<String>, Refusal> {
        let Some(value) = self.get(name)? else { return Ok(None) };
        value.as_string().map(Some).ok_or_else(|| wrong(name, "a string"))
    }

    pub(super) fn flag(&self, name: &str) -> Result<bool, Refusal> {
        let Some(value) = self.get(name)? else { return Ok(false) };
        value.as_bool().ok_or_else(|| wrong(name, "true or false"))
    }

    /// A whole number that `fits`; the words say which do.
    pub(super) fn number(
        &self,
        name: &str,
        fits: fn(u32) -> bool,
        words: &str,
    ) -> Result<Option<u32>, Refusal> {
        let Some(value) = self.get(name)? else { return Ok(None) };
        whole(&value).filter(|w| fits(*w)).map(Some).ok_or_else(|| wrong(name, words))
    }

    /// Any number, with words for what it must be.
    pub(super) fn real(&self, name: &str, words: &str) -> Result<Option<f64>, Refusal> {
        let Some(value) = self.get(name)? else { return Ok(None) };
        value.as_f64().filter(|n| n.is_finite()).map(Some).ok_or_else(|| wrong(name, words))
    }

    /// An object with names of its own.
    pub(super) fn object(&self, name: &str, known: &[&str]) -> Result<Option<Self>, Refusal> {
        self.get(name)?.map(|value| Self::read(&value, known)).transpose()
    }

    /// A list of whole numbers that all `fit`.
    pub(super) fn numbers(
        &self,
        name: &str,
        fits: fn(u32) -> bool,
        words: &str,
    ) -> Result<Vec<u32>, Refusal> {
        let Some(value) = self.get(name)? else { return Ok(Vec::new()) };
        let list = value.dyn_ref::<Array>().ok_or_else(|| wrong(name, words))?;
        list.iter().map(|one| whole(&one).filter(|n| fits(*n)).ok_or_else(|| wrong(name, words))).collect()
    }

    /// A string, or a number written as one.
    pub(super) fn written(&self, name: &str, words: &str) -> Result<Option<String>, Refusal> {
        let Some(value) = self.get(name)? else { return Ok(None) };
        let number = value.as_f64().filter(|n| n.is_finite());
        let written = number.and_then(|n| Number::from(n).to_string_with_radix(10).ok()).map(String::from);
        value.as_string().or(written).map(Some).ok_or_else(|| wrong(name, words))
    }

    /// One of a few words, by its place in their list.
    pub(super) fn word(&self, name: &str, known: &[&str]) -> Result<Option<usize>, Refusal> {
        let Some(word) = self.string(name)? else { return Ok(None) };
        let place = known.iter().position(|k| *k == word);
        place.map(Some).ok_or_else(|| wrong(name, &known.join(", ")))
    }

    /// A list of strings.
    pub(super) fn strings(&self, name: &str) -> Result<Vec<String>, Refusal> {
        let Some(value) = self.get(name)? else { return Ok(Vec::new()) };
        let refusal = || wrong(name, "an array of strings");
        let list = value.dyn_ref::<Array>().ok_or_else(refusal)?;
        list.iter().map(|one| one.as_string().ok_or_else(refusal)).collect()
    }
}

/// A whole number that a number of JavaScript stands for.
fn whole(value: &JsValue) -> Option<u32> {
    let number = value.as_f64().filter(|n| (0.0..=1e6).contains(n))?;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "in range, so that nothing is cut off but a fraction, which is compared next"
    )]
    let whole = number as u32;
    f64::from(whole).total_cmp(&number).is_eq().then_some(whole)
}

/// A refusal of one option's value.
pub(super) fn wrong(name: &str, must_be: &str) -> Refusal {
    let mut message = String::from("the option ");
    message.push_str(name);
    message.push_str(" must be ");
    message.push_str(must_be);
    Refusal::new("option-wrong", message)
}
