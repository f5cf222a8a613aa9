//! Guard that a JSON report carries the name and version with which it can be read back.

use super::{COMPARISON_SCHEMA, HOLD_SCHEMA, JOB_SCHEMA, SCHEMA, TRACE_SCHEMA, Text};

/// Reads a field `schema` that must be `expected`.
fn named<'de, D: serde::Deserializer<'de>>(deserializer: D, expected: &'static str) -> Result<Text, D::Error> {
    let found = <Text as serde::Deserialize>::deserialize(deserializer)?;
    if found == expected {
        Ok(Text::Borrowed(expected))
    } else {
        Err(serde::de::Error::custom(format!(
            "schema {found:?} is not {expected:?}, which this version of satline reads"
        )))
    }
}

pub(super) fn reading<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Text, D::Error> {
    named(deserializer, SCHEMA)
}

pub(super) fn job<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Text, D::Error> {
    named(deserializer, JOB_SCHEMA)
}

pub(super) fn hold<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Text, D::Error> {
    named(deserializer, HOLD_SCHEMA)
}

pub(super) fn trace<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Text, D::Error> {
    named(deserializer, TRACE_SCHEMA)
}

pub(super) fn comparison<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Text, D::Error> {
    named(deserializer, COMPARISON_SCHEMA)
}

#[cfg(test)]
mod tests {
    use serde::de::value::{Error, StrDeserializer};

    use super::*;

    #[test]
    fn a_report_of_another_version_is_refused_by_name() {
        type Read = fn(StrDeserializer<'static, Error>) -> Result<Text, Error>;
        let read: [Read; 4] = [reading, job, hold, trace];
        let schemas = [SCHEMA, JOB_SCHEMA, HOLD_SCHEMA, TRACE_SCHEMA];
        for (i, read) in read.into_iter().enumerate() {
            for (j, schema) in schemas.into_iter().enumerate() {
                let found = read(StrDeserializer::new(schema));
                if i == j {
                    assert_eq!(found.unwrap(), schema);
                } else {
                    assert!(found.unwrap_err().to_string().contains(schema));
                }
            }
        }
    }
}
