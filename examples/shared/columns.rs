//! Heads of logs as people write them: names mapped to those known here, and what nobody knows left aside.

use std::str::FromStr;

use satline::Error;

use super::language::Spoken;

/// A head of a log, and what it stands for, as in `Suction (psi)=low [psi]`.
#[derive(Debug, Clone)]
pub struct NamedColumn {
    head: String,
    meant: String,
}

impl FromStr for NamedColumn {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        match text.rsplit_once('=').map(|(head, meant)| (head.trim(), meant.trim())) {
            Some((head, meant)) if !head.is_empty() && !meant.is_empty() => {
                Ok(Self { head: head.to_owned(), meant: meant.to_owned() })
            }
            _ => Err(format!("{text:?} names no column; write it like \"Suction (psi)=low [psi]\"")),
        }
    }
}

/// Reads the heads `fields` with `read`, after the names `given`. A head that is still unknown is read as `note`, which is passed over;
/// what was left aside is returned as a complaint with an `example` of a head, and stands in the error too where the rest cannot be read.
pub fn read<C>(
    fields: &mut [String],
    given: &[NamedColumn],
    example: &str,
    spoken: Spoken,
    read: impl Fn(&[String]) -> Result<C, Error>,
) -> Result<(C, Option<String>), String> {
    let language = spoken.language();
    // each by the heads of the log, so that two can change places
    let heads: Vec<String> = fields.iter().map(|field| plain(field).to_owned()).collect();
    for NamedColumn { head, meant } in given {
        let Some(at) = heads.iter().position(|known| known.eq_ignore_ascii_case(head)) else {
            let heads: Vec<String> = heads.iter().map(|known| format!("{known:?}")).collect();
            let (none, has) =
                spoken.say(("no column is named", "the log has"), ("ninguna columna se llama", "el registro tiene"));
            return Err(format!("--columns: {none} {head:?}; {has} {}", heads.join(", ")));
        };
        fields[at].clone_from(meant);
        if let Err(error @ Error::UnknownColumn { .. }) = read(std::slice::from_ref(meant)) {
            return Err(format!("--columns: {}", language.error(&error)));
        }
    }
    let mut first = None;
    let mut aside = Vec::new();
    for field in fields.iter_mut() {
        if let Err(error @ Error::UnknownColumn { .. }) = read(std::slice::from_ref(field)) {
            first = first.or(Some(error));
            aside.push(std::mem::replace(field, "note".to_owned()));
        }
    }
    // a head that is a row of numbers is none
    if let Some(first) = first.filter(|_| aside.len() == fields.len()) {
        return Err(language.error(&first));
    }
    let aside: Vec<&str> = aside.iter().map(|head| plain(head)).filter(|head| !head.is_empty()).collect();
    let left = aside.first().map(|name| {
        let names: Vec<String> = aside.iter().map(|head| format!("{head:?}")).collect();
        let (aside, to_use) = spoken.say(
            ("columns left aside", "to use one, name it"),
            ("columnas dejadas de lado", "para usar una, nómbrela"),
        );
        format!("{aside}: {}; {to_use}: --columns \"{name}={example}\"", names.join(", "))
    });
    match read(fields) {
        Ok(columns) => Ok((columns, left)),
        Err(error) => {
            let way_out = match &error {
                Error::UnitUnknown { text, .. } => {
                    let other = spoken.say("if it is another column", "si es otra columna");
                    format!("; {other}: --columns \"{}=note\"", plain(text))
                }
                _ => String::new(),
            };
            let error = language.error(&error);
            Err(format!("{error}{way_out}{}", left.map_or(String::new(), |left| format!("\n{left}"))))
        }
    }
}

/// A head as it reads, without a mark of the encoding.
fn plain(field: &str) -> &str {
    field.trim_start_matches('\u{feff}').trim()
}
