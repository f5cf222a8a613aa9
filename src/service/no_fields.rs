//! Variants of a tagged enum that have no fields, read from JSON.

/// Reads a variant that has its id and nothing else.
///
/// `deny_unknown_fields` does not reach unit variants of an enum with an internal tag: serde passes over what stands beside
/// their id.
pub(crate) fn no_fields<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<(), D::Error> {
    #[derive(serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    struct NoFields {}
    <NoFields as serde::Deserialize>::deserialize(deserializer).map(|NoFields {}| ())
}
